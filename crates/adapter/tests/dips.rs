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

#[test]
fn a_supply_that_dips_again_and_again_speaks_against_no_request() {
    let mut bench = Bench::with_coolant();
    let mut dips = 0;
    bench.twist(move |line, before, flags| {
        let dip = line == "0105" && before > 3 && dips < 4;
        dip.then(|| {
            dips += 1;
            flags.echo = true;
            vec![(20, b"LV RESET\r\r>".to_vec())]
        })
    });
    bench.run(Duration::from_secs(20));
    let words = bench.words();
    assert_eq!(words.iter().filter(|word| *word == "reset low-voltage").count(), 4, "{words:?}");
    let avoided = bench.told.iter().any(|(_, outcome)| matches!(outcome, adapter::Outcome::Avoided { .. }));
    assert!(!avoided, "{words:?}");
}

#[test]
fn a_first_request_that_a_disturbed_bus_spoils_is_made_once_more() {
    for spoilt in
        ["DATA ERROR\r\r>", "BUS BUSY\r\r>", "BUS ERROR\r\r>", "<RX ERROR\r\r>", "STOPPED\r\r>", "?\r\r>"]
    {
        let mut bench = Bench::with_coolant();
        bench.twist(move |line, before, _| if line == "0100" && before == 0 { say(spoilt) } else { None });
        bench.run(Duration::from_secs(5));
        assert_eq!(bench.words(), ["found", "connected"], "{spoilt}");
    }
}
