//! A small campaign: vehicles whose identifiers nobody knows, searched and watched; and the same with a broken score, which must be noticed.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may panic")]

#[path = "campaign/mod.rs"]
#[allow(unreachable_pub, dead_code, reason = "shared with the bench, which tells more")]
mod campaign;

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use campaign::{Broken, Table};

/// So many vehicles; `cargo xtask campaign find` takes a thousand.
const VEHICLES: u64 = 18;
/// So many are enough to see that something is broken.
const FEW: u64 = 9;

fn table(broken: Broken, vehicles: u64) -> Table {
    let (next, all) = (AtomicU64::new(1), Mutex::new(Vec::new()));
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed > vehicles {
                        break;
                    }
                    let finding = campaign::run(seed, campaign::Key::Off, broken);
                    all.lock().unwrap().push(finding);
                }
            });
        }
    });
    let mut findings = all.into_inner().unwrap();
    findings.sort_by_key(|one| one.seed);
    Table(findings)
}

#[test]
fn unknown_identifiers_are_found_and_no_wrong_one_is_confirmed() {
    let table = table(Broken::Nothing, VEHICLES);
    assert!(table.broken().is_empty(), "{:#?}\n{table}", table.broken());
}

#[test]
fn a_score_that_is_told_a_coolant_that_stands_still_breaks_the_claims() {
    let table = table(Broken::CoolantStands, FEW);
    assert!(!table.broken().is_empty(), "{table}");
}
