//! What guesses cost before the job, and that no job begins with what nobody has confirmed.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

mod bench;

use bench::*;
use events::*;

#[test]
fn each_guess_costs_what_the_budget_without_it_is_narrower() {
    let mut sheet = Bay::new("six-speed").sheet;
    let plain = job::worth(&sheet).unwrap();
    assert_eq!((plain.guesses.len(), plain.expanded_ml), (0, plain.known_ml));
    assert!(plain.most().is_none());
    sheet.guessed = vec!["standpipe".to_owned(), "fluid.total_ml".to_owned(), "torque_nm".to_owned()];
    let worth = job::worth(&sheet).unwrap();
    let keys: Vec<&str> = worth.guesses.iter().map(|cost| cost.key).collect();
    for key in [
        "standpipe.surface_m2",
        "standpipe.offset_mm",
        "standpipe.bore_mm",
        "standpipe.rim_mm",
        "fluid.total_ml",
    ] {
        assert!(keys.contains(&key), "{key}: a table is all of its values: {keys:?}");
    }
    assert_eq!(keys.len(), 5, "{keys:?}: what enters nothing costs nothing");
    assert!(worth.known_ml == plain.expanded_ml && worth.expanded_ml > plain.expanded_ml, "{worth:?}");
    assert!(worth.guesses.is_sorted_by(|a, b| a.costs_ml >= b.costs_ml), "{worth:?}");
    // The one that helps most, taken from the list, gives the ± that was said.
    let most = worth.most().unwrap();
    sheet.guessed = keys.iter().filter(|key| **key != most.key).map(|key| (*key).to_owned()).collect();
    let after = job::worth(&sheet).unwrap();
    assert_eq!(after.expanded_ml, most.without_ml);
    assert!(after.guesses.iter().all(|cost| cost.key != most.key));
}

#[test]
fn every_procedure_has_a_worth() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/sheets/procedures");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let mut sheet = Sheet::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
        sheet.guessed = ["check.band_c", "fluid", "standpipe", "look"].map(str::to_owned).to_vec();
        let worth = job::worth(&sheet).unwrap_or_else(|| panic!("{}", path.display()));
        assert!(worth.expanded_ml > worth.known_ml && worth.known_ml > 0.0, "{}: {worth:?}", path.display());
    }
}

#[test]
fn no_job_begins_with_what_nobody_has_confirmed() {
    let mut bay = Bay::new("six-speed");
    bay.sheet.unconfirmed = vec!["check.band_c".to_owned()];
    assert_eq!(bay.tell("start"), Err(Refusal::SheetUnconfirmed));
    bay.sheet.unconfirmed.clear();
    assert_eq!(bay.tell("start"), Ok(()));
}
