//! A rehearsal for each sheet, in memory: the good job, and one with a mistake that fits the vehicle.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::collections::BTreeSet;

use common::{OnStage, fixture};
use events::{Outcome, Sheet, Shortfall, Signal};
use rehearsal::{Ending, FalseGo, Keep, Mistake, Setup, embedded, stage};

fn sheet(name: &str) -> Sheet {
    Sheet::parse(&std::fs::read_to_string(fixture(&format!("sheets/{name}.toml"))).unwrap()).unwrap()
}

fn rehearse(sheet: &Sheet, mistake: Option<Mistake>) -> Ending {
    // The recorded warm-up is of a drive, where coolant runs through its band in a minute; an idling engine takes its
    // time.
    let log = (sheet.check.signal != Signal::Coolant).then(embedded::warmup);
    let mut setup = Setup::named(mistake, sheet, log, 11);
    setup.keep = Keep::Facts;
    stage::run(&mut OnStage::new(&setup.sheet), &setup)
}

/// What the technician did, in one line each.
fn done(ending: &Ending) -> String {
    ending
        .doings
        .iter()
        .map(|(at, deed)| format!("{:>6.0} s  {deed}\n", at.as_millis() as f64 / 1_000.0))
        .collect()
}

/// The sheet, a mistake that is made with it, what the result must name, and whether the job is set in spite of it.
#[rustfmt::skip]
const SHEETS: &[(&str, Mistake, Option<Shortfall>)] = &[
    ("demo-six-speed",               Mistake::UnderFilled,      Some(Shortfall::NothingRanOut)),
    ("demo-seven-speed-longitudinal", Mistake::NotLevel,        Some(Shortfall::NotLevel)),
    ("demo-eight-speed-bypass",      Mistake::BypassNotPinned,  Some(Shortfall::PreconditionOpen)),
    ("demo-eight-speed-bypass-spot", Mistake::ClosedLate,       Some(Shortfall::NoTrickle)),
    ("demo-coolant-only",            Mistake::WrongOrder,       Some(Shortfall::OpenedBeforeGo)),
    ("demo-spot-only",               Mistake::OpenedLate,       Some(Shortfall::TooHotBeforeTrickle)),
    ("demo-cvt-fluid",               Mistake::SensorFrozen,     Some(Shortfall::SensorUntrusted)),
    ("demo-cvt-coolant",             Mistake::StartedHot,       Some(Shortfall::StartedWarm)),
    ("demo-twin-clutch",             Mistake::LowBefore,        None),
    ("demo-display",                 Mistake::NotLevel,         Some(Shortfall::NotLevel)),
    ("demo-lamp",                    Mistake::OpenedLate,       Some(Shortfall::TooHotBeforeTrickle)),
    ("demo-four-speed-spot",         Mistake::DrainedNotFully,  None),
];

#[test]
fn every_sheet_is_rehearsed_and_none_is_forgotten() {
    let files = std::fs::read_dir(fixture("sheets")).unwrap();
    let names: BTreeSet<String> = files
        .map(|f| f.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .map(|p| p.file_stem().unwrap().to_str().unwrap().to_owned())
        .filter(|name| name != "template")
        .collect();
    assert_eq!(names, SHEETS.iter().map(|(name, ..)| (*name).to_owned()).collect());
    assert!(names.len() >= 10);
}

#[test]
fn the_good_job_ends_as_set_on_every_vehicle_with_the_truth_inside_what_is_stated() {
    for (name, ..) in SHEETS {
        let ending = rehearse(&sheet(name), None);
        let result = ending.result.as_ref().unwrap_or_else(|| panic!("{name}: no result"));
        assert!(!ending.false_go.iter().any(FalseGo::is_wrong), "{name}: {:?}", ending.false_go);
        assert!(result.outcome.is_right(), "{name}: {result:?}\n{}", done(&ending));
        let level = result.level_error.as_ref().unwrap();
        let off = (level.millilitres.to_f64() - ending.truth.level_error_ml).abs();
        assert!(off <= level.expanded_millilitres.to_f64(), "{name}: {level:?}, truly {:?}", ending.truth);
    }
}

#[test]
fn a_mistake_on_every_vehicle_ends_without_a_wrong_go_and_is_named() {
    for (name, mistake, shortfall) in SHEETS {
        let ending = rehearse(&sheet(name), Some(*mistake));
        let what = format!("{name}, {mistake}");
        let result = ending.result.as_ref().unwrap_or_else(|| panic!("{what}: no result"));
        assert!(!ending.false_go.iter().any(FalseGo::is_wrong), "{what}: {:?}", ending.false_go);
        match shortfall {
            Some(named) => {
                assert_eq!(result.outcome, Outcome::NotSet, "{what}: {result:?}");
                assert!(result.shortfalls.contains(named), "{what}: {:?}", result.shortfalls);
            }
            None => assert!(result.outcome.is_right(), "{what}: {result:?}\n{}", done(&ending)),
        }
    }
}

#[test]
fn two_rounds_are_done_where_the_sheet_asks_for_them() {
    let ending = rehearse(&sheet("demo-four-speed-spot"), None);
    let balance = ending
        .events
        .iter()
        .rev()
        .find_map(|e| if let events::Body::Balance(b) = &e.body { Some(*b) } else { None })
        .unwrap();
    assert_eq!(balance.exchanges, Some(2));
    assert!(balance.fresh_percent.is_some_and(|p| (55..=75).contains(&p)), "{balance:?}");
}
