//! Every firmware × every fault × three buses, in memory: no wrong value, no hang, no panic.
//!
//! The table of outcomes stands in `docs/adapters.md`, written by `BLESS=1`; this test holds the page against it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    missing_docs,
    unreachable_pub,
    reason = "a test"
)]

mod play;
mod table;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use play::{Came, play};
use rehearsal::{Bus, FaultKind, Firmware};

/// CAN, ISO 14230 and J1850, as a vehicle of each age has them.
pub const BUSES: [&str; 3] = ["can-11-500", "iso-14230-4-fast", "j1850-vpw"];

/// One cell with its place.
pub struct Cell {
    pub firmware: &'static Firmware,
    pub fault: Option<FaultKind>,
    pub bus: &'static Bus,
    pub came: Came,
}

/// Faults that the link cannot know: what comes is a valid answer to what was asked. The gate judges them.
const NOT_OF_THE_LINK: [FaultKind; 1] = [FaultKind::RepeatedReply];

/// All that the driver can do something about. Of two units that answer one request both are right; whom to keep to is
/// decided behind the driver.
pub fn faults_of_the_link() -> impl Iterator<Item = FaultKind> {
    let of_link = |fault: &FaultKind| !fault.is_of_sensor() && *fault != FaultKind::TwoUnitsAnswer;
    FaultKind::ALL.iter().copied().filter(of_link)
}

fn all_cells() -> Vec<Cell> {
    let faults: Vec<Option<FaultKind>> =
        std::iter::once(None).chain(faults_of_the_link().map(Some)).collect();
    let mut places = Vec::new();
    for &firmware in rehearsal::firmware::ALL {
        for &fault in &faults {
            for bus in BUSES {
                places.push((firmware, fault, Bus::named(bus).unwrap()));
            }
        }
    }
    let next = AtomicUsize::new(0);
    let cells = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(2, usize::from) {
            scope.spawn(|| {
                while let Some(&(firmware, fault, bus)) = places.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let at = places.iter().position(|place| *place == (firmware, fault, bus)).unwrap();
                    let came = play(firmware, fault, bus, at as u64);
                    cells.lock().unwrap().push((at, Cell { firmware, fault, bus, came }));
                }
            });
        }
    });
    let mut cells = cells.into_inner().unwrap();
    cells.sort_by_key(|(at, _)| *at);
    cells.into_iter().map(|(_, cell)| cell).collect()
}

#[test]
fn every_firmware_with_every_fault_on_three_buses() {
    let cells = all_cells();
    assert!(rehearsal::firmware::ALL.len() >= 12 && FaultKind::ALL.len() >= 25);
    let mut bad = Vec::new();
    for cell in &cells {
        let Cell { firmware, fault, bus, came } = cell;
        let name =
            format!("{} × {} × {}", firmware.name, fault.map_or("no fault", FaultKind::word), bus.name);
        let knowable = fault.is_none_or(|fault| !NOT_OF_THE_LINK.contains(&fault));
        if let Some(wrong) = came.wrong.first().filter(|_| knowable) {
            bad.push(format!("{name}: {} wrong values, {wrong}", came.wrong.len()));
        }
        if came.idle > Duration::ZERO {
            bad.push(format!("{name}: waits for nothing"));
        }
        if !table::reads_in_time(cell) {
            bad.push(format!(
                "{name}: {} readings, gap {:?}, tail {:?}, {}",
                came.readings, came.gap, came.tail, came.last
            ));
        }
    }
    if std::env::var_os("BLESS").is_some() {
        table::hold_against_the_page(&cells);
    }
    bad.extend(table::late_returns(&cells));
    assert!(bad.is_empty(), "{} of {}:\n{}", bad.len(), cells.len(), bad.join("\n"));
    table::hold_against_the_page(&cells);
}

/// One cell, to be looked into: `MATRIX_TRACE=1 CELL=firmware,fault,bus cargo test -p service --test matrix one_cell -- --nocapture`.
#[test]
fn one_cell_reads() {
    let cell = std::env::var("CELL").unwrap_or_else(|_| format!("original-2.1,no-data,{}", BUSES[0]));
    let [firmware, fault, bus] = cell.split(',').collect::<Vec<_>>()[..] else { panic!("{cell}") };
    let fault = FaultKind::ALL.iter().copied().find(|kind| kind.word() == fault);
    let came = play(Firmware::named(firmware).unwrap(), fault, Bus::named(bus).unwrap(), 1);
    assert!(came.readings > 0 && came.wrong.is_empty(), "{came:?}");
}
