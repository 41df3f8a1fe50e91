//! A job, a night, and its recheck on the same simulated vehicle: the level that was left is found again, and a leak is
//! found out.
//!
//! In memory: the daemon of the second day is folded from the facts of the first, as a journal keeps them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{OnStage, fixture, moment};
use events::{JobResult, Seq, Sheet};
use rehearsal::{Ending, FalseGo, Keep, Setup, embedded, stage};
use service::Bay;
use units::Mono;

fn sheet(name: &str) -> Sheet {
    Sheet::parse(&std::fs::read_to_string(fixture(&format!("sheets/{name}.toml"))).unwrap()).unwrap()
}

/// The first day, then the recheck with so much gone since.
fn two_days(name: &str, leaked_ml: f64) -> (JobResult, Ending) {
    let sheet = sheet(name);
    let mut setup = Setup::named(None, &sheet, Some(embedded::warmup()), 5);
    setup.keep = Keep::Facts;
    let first = stage::run(&mut OnStage::new(&sheet), &setup);
    let left = first.result.clone().unwrap();
    assert!(left.outcome.is_right(), "{name}: {left:?}");

    let last = first.events.last().unwrap().seq;
    let mut bay = Bay::new(sheet.clone(), Seq(last.0 + 100_000), 1);
    bay.restore(&first.events, &[], moment(Mono::ZERO));
    bay.boot("the second day", "test", moment(Mono::ZERO));
    let missing = leaked_ml - first.truth.level_error_ml;
    let mut again = Setup::recheck(1, missing, &sheet, Some(embedded::warmup()), 6);
    again.keep = Keep::Facts;
    (left, stage::run(&mut OnStage(bay), &again))
}

#[test]
fn a_recheck_finds_what_the_first_job_left_and_finds_out_a_leak() {
    for name in ["demo-six-speed", "demo-eight-speed-bypass", "demo-cvt-fluid", "demo-spot-only"] {
        for leaked in [0.0, 350.0] {
            let what = format!("{name}, {leaked} mL leaked");
            let (left, second) = two_days(name, leaked);
            assert!(!second.false_go.iter().any(FalseGo::is_wrong), "{what}");
            let result = second.result.as_ref().unwrap_or_else(|| panic!("{what}: no result"));
            assert_eq!((result.outcome.is_right(), result.recheck_of), (true, Some(1)), "{what}: {result:?}");
            let compared = job::compare(&left, result).unwrap_or_else(|| panic!("{what}: {result:?}"));
            assert_eq!(compared.agrees, leaked == 0.0, "{what}: {compared:?}");
            let off = (compared.change.to_f64() + leaked).abs();
            assert!(off <= compared.expanded.to_f64(), "{what}: {compared:?}");
        }
    }
}
