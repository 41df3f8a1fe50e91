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
mod promises;
mod table;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use play::{Came, play, play_until_well};
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

/// Faults that are none of the driver's: both units are right, an answer of another length is one. Whom to keep to and what
/// to make of it is decided behind the driver.
const BEHIND_THE_DRIVER: [FaultKind; 2] = [FaultKind::TwoUnitsAnswer, FaultKind::LengthChanges];

/// All that the driver can do something about.
pub fn faults_of_the_link() -> impl Iterator<Item = FaultKind> {
    let of_link = |fault: &FaultKind| !fault.is_of_sensor() && !BEHIND_THE_DRIVER.contains(fault);
    FaultKind::ALL.iter().copied().filter(of_link)
}

/// Where a cell is: firmware, fault, bus.
type Place = (&'static Firmware, Option<FaultKind>, &'static Bus);

/// A cell's own seed, made of its names, so that a firmware or a fault that is added moves no other cell (FNV-1a, 64 bits).
fn seed((firmware, fault, bus): Place) -> u64 {
    let names = [firmware.name, fault.map_or("", FaultKind::word), bus.name];
    names
        .join(" ")
        .bytes()
        .fold(0xCBF2_9CE4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3))
}

/// The bus on which a firmware meets a fault, where it meets it on one only: drawn from their names.
fn one_bus(firmware: &'static Firmware, fault: Option<FaultKind>) -> &'static str {
    BUSES[(seed((firmware, fault, Bus::usual())) >> 32) as usize % BUSES.len()]
}

/// Every firmware with every fault on every bus; the odd copies meet each fault on one bus.
fn all_places() -> Vec<Place> {
    let mut places = Vec::new();
    for &firmware in rehearsal::firmware::ALL {
        for fault in std::iter::once(None).chain(faults_of_the_link().map(Some)) {
            let once = fault.is_some() && rehearsal::firmware::ODD_ONES.contains(&firmware);
            let buses: Vec<&str> = if once { vec![one_bus(firmware, fault)] } else { BUSES.to_vec() };
            places.extend(buses.into_iter().map(|bus| (firmware, fault, Bus::named(bus).unwrap())));
        }
    }
    places
}

/// Every firmware with every fault, each on one bus.
fn places_on_one_bus() -> Vec<Place> {
    let faults: Vec<Option<FaultKind>> =
        std::iter::once(None).chain(faults_of_the_link().map(Some)).collect();
    let all = rehearsal::firmware::ALL
        .iter()
        .flat_map(|firmware| faults.iter().map(move |fault| (*firmware, *fault)));
    all.map(|(firmware, fault)| (firmware, fault, Bus::named(one_bus(firmware, fault)).unwrap())).collect()
}

/// Plays all `places`, on all the machine's threads.
fn cells(places: &[Place], how: impl Fn(Place) -> Came + Sync) -> Vec<Cell> {
    let next = AtomicUsize::new(0);
    let cells = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(2, usize::from) {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(&place) = places.get(at) else { break };
                    let (firmware, fault, bus) = place;
                    let came = how(place);
                    cells.lock().unwrap().push((at, Cell { firmware, fault, bus, came }));
                }
            });
        }
    });
    let mut cells = cells.into_inner().unwrap();
    cells.sort_by_key(|(at, _)| *at);
    cells.into_iter().map(|(_, cell)| cell).collect()
}

impl Cell {
    fn name(&self) -> String {
        let fault = self.fault.map_or("no-fault", FaultKind::word);
        format!("{},{fault},{}", self.firmware.name, self.bus.name)
    }

    /// What is wrong with it, whatever else is claimed: a value that no sensor showed, nothing to wait for.
    fn is_unsafe(&self) -> Option<String> {
        let knowable = self.fault.is_none_or(|fault| !NOT_OF_THE_LINK.contains(&fault));
        if let Some(wrong) = self.came.wrong.first().filter(|_| knowable) {
            return Some(format!("{}: {} wrong values, {wrong}", self.name(), self.came.wrong.len()));
        }
        (self.came.idle > Duration::ZERO).then(|| format!("{}: waits for nothing", self.name()))
    }
}

#[test]
fn every_firmware_with_every_fault_on_three_buses() {
    let cells = cells(&all_places(), |place| play(place.0, place.1, place.2, seed(place)));
    assert!(rehearsal::firmware::ALL.len() >= 12 && FaultKind::ALL.len() >= 25);
    let mut bad: Vec<String> = cells.iter().filter_map(Cell::is_unsafe).collect();
    for cell in cells.iter().filter(|cell| !table::reads_in_time(cell)) {
        let Came { readings, coolants, gap, tail, first, last, .. } = &cell.came;
        bad.push(format!(
            "{}: {readings} readings, {coolants} of the coolant, first {first:?}, gap {gap:?}, tail {tail:?}, {last}",
            cell.name()
        ));
    }
    if std::env::var_os("BLESS").is_some() {
        table::hold_against_the_page(&cells);
    }
    bad.extend(table::late_returns(&cells));
    assert!(bad.is_empty(), "{} of {}:\n{}", bad.len(), cells.len(), bad.join("\n"));
    table::hold_against_the_page(&cells);
}

/// Liveness: the fault stops at a moment that the cell's seed draws, 2 to 60 s after it began, and from then on a
/// temperature comes within [`adapter::Driver::READS_WITHIN`], whatever went before.
#[test]
fn every_firmware_is_read_again_in_time_once_its_fault_is_over() {
    let cells = cells(&places_on_one_bus(), |place| play_until_well(place.0, place.1, place.2, seed(place)));
    let mut bad: Vec<String> = cells.iter().filter_map(Cell::is_unsafe).collect();
    bad.extend(cells.iter().filter(|cell| !table::is_alive(cell)).map(|cell| {
        let Came { alive, readings, last, .. } = &cell.came;
        format!("{}: alive after {alive:?}, {readings} readings before, {last}", cell.name())
    }));
    if std::env::var_os("MATRIX_SLOWEST").is_some() {
        let mut slow: Vec<_> =
            cells.iter().filter_map(|cell| Some((cell.came.alive?, cell.name()))).collect();
        slow.sort();
        slow.iter().rev().take(30).for_each(|(after, name)| println!("{after:?} {name}"));
    }
    assert!(bad.is_empty(), "{} of {}:\n{}", bad.len(), cells.len(), bad.join("\n"));
}

/// One cell, to be looked into: `MATRIX_TRACE=1 CELL=firmware,fault,bus cargo test -p service --test matrix one_cell -- --nocapture`;
/// with `ALIVE=1` the one whose fault stops.
#[test]
fn one_cell_reads() {
    let cell = std::env::var("CELL").unwrap_or_else(|_| format!("original-2.1,no-data,{}", BUSES[0]));
    let [firmware, fault, bus] = cell.split(',').collect::<Vec<_>>()[..] else { panic!("{cell}") };
    let fault = FaultKind::ALL.iter().copied().find(|kind| kind.word() == fault);
    let place = (Firmware::named(firmware).unwrap(), fault, Bus::named(bus).unwrap());
    let how = if std::env::var_os("ALIVE").is_some() { play_until_well } else { play };
    let came = how(place.0, place.1, place.2, seed(place));
    assert!(came.readings > 0 && came.wrong.is_empty(), "{came:?}");
}
