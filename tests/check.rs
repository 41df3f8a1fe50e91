//! The check of a vehicle that nobody knows: what the program says of its level, beside the truth that only the
//! simulation knows.
//!
//! Vehicles from 1,500 mL too low to 800 too high, drawn as in a campaign; `cargo xtask campaign 5000 --check` is the
//! long form.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{OnStage, sheets};
use events::{Drivable, Sheet};
use rehearsal::campaign::Checks;
use rehearsal::{Setup, embedded, stage};

/// How many vehicles.
const RUNS: u64 = 100;

#[test]
fn what_is_said_of_an_unknown_vehicle_holds_the_truth_and_no_low_one_is_called_right() {
    let checks = Checks::run(1, RUNS, &sheets(), OnStage::new, |_| ());
    println!("{checks}");
    assert_eq!(checks.broken(), Vec::<String>::new());
    let (_, said) = checks.uncovered();
    let (_, right) = checks.sent_for_nothing();
    assert!(said * 2 > RUNS && right * 20 > RUNS, "{said} said something, {right} were right, of {RUNS}");
}

fn six_speed() -> Sheet {
    embedded::six_speed()
}

/// So much is missing, what comes of it, and what is read first.
#[test]
fn the_answer_is_one_sentence_with_its_amount() {
    let cases: &[(f64, bool, Drivable, &str)] = &[
        (320.0, true, Drivable::Yes, "It was low by about "),
        (-400.0, true, Drivable::Yes, "It was high by about "),
        (2_500.0, false, Drivable::No, "It was low by more than "),
    ];
    for (short, right, drivable, words) in cases {
        let setup = Setup::check(*short, &six_speed(), Some(embedded::warmup()), 3);
        let ending = stage::run(&mut OnStage::new(&setup.sheet), &setup);
        let result = ending.result.unwrap_or_else(|| panic!("{short}: no result"));
        let said = result.headline(words::Lang::En, |ml| format!("{} mL", ml.steps()));
        assert_eq!(
            (result.outcome.is_right(), result.drivable),
            (*right, Some(*drivable)),
            "{short}: {result:?}"
        );
        assert!(said.starts_with(words), "{short}: {said}");
    }
}
