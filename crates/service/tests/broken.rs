//! A gate that lacks a protection is found by few rehearsals, and the whole gate holds its claims on the same ones.
//!
//! Needs the feature `taken-out` (docs/adr/0014): `cargo xtask test` builds all tests with it. All of them, over more rehearsals:
//! `cargo xtask campaign broken`.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

#[path = "../../../tests/common/on_stage.rs"]
#[allow(unreachable_pub, reason = "shared with the program's tests")]
mod on_stage;

use events::Sheet;
use on_stage::OnStage;
use rehearsal::campaign::{Form, Whole, hunt};
use service::Protection;

const SHEETS: [&str; 2] = [
    include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
    include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
];
/// The first seed, how many at most, how many at a time.
const SEEDS: (u64, u64, u64) = (3_300_000, 120, 30);

#[test]
fn a_gate_without_its_guard_its_frozen_term_or_its_witnesses_is_found_and_the_whole_one_holds() {
    let sheets: Vec<Sheet> = SHEETS.iter().map(|text| Sheet::parse(text).unwrap()).collect();
    let mut whole = Whole::default();
    for protection in [Protection::Guard, Protection::Frozen, Protection::Witnesses] {
        let found = hunt(&[Form::Seen], SEEDS, &sheets, &mut whole, OnStage::of, |setup| {
            let OnStage(bay) = OnStage::of(setup);
            OnStage(bay.without(Some(protection)))
        });
        assert!(found.by.is_some(), "{protection}: nothing is broken without it\n{}", found.without);
        assert!(found.whole.findings.iter().any(|finding| finding.could_go()), "nothing could be broken");
    }
}
