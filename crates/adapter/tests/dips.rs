//! The supply dips while the vehicle is looked for: CAN is left out of searches until the adapter is told to forget it.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use bench::{Bench, say};

#[test]
fn after_a_dip_a_search_finds_the_vehicle_again() {
    let mut bench = Bench::with_coolant();
    let blocked = Rc::new(Cell::new(false));
    // Data sheet page 88: after LV RESET no search looks for CAN before the next power-up or ATFE.
    bench.twist(move |line, before, flags| match line {
        "0100" if before == 0 => {
            blocked.set(true);
            flags.echo = true;
            say("LV RESET\r\r>")
        }
        "ATFE" => {
            blocked.set(false);
            None
        }
        "0100" if blocked.get() => say("UNABLE TO CONNECT\r\r>"),
        _ => None,
    });
    bench.run(Duration::from_secs(10));
    assert_eq!(bench.words()[..3], ["found", "reset low-voltage", "connected"], "{:?}", bench.sent);
    assert_eq!(bench.count("ATFE"), 1, "once, and not again");
    assert!(bench.answers().len() > 5);
}
