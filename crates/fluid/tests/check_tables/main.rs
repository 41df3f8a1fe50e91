//! Every row of the check tables in `fixtures/reference/physics`, within the tolerance the row states.
//!
//! The tables were computed apart from this crate and carry their source in each row; `README.md` beside them tells
//! how. Here each table has one function that turns a row into a call. A table that nobody checks fails the test.

// A table test has no caller to hand an error to.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod table;

mod flow;
mod heat;
mod level;
mod measuring;
mod oil;
mod radiation;
mod volume;

use std::collections::BTreeSet;

/// Tables without expected values: data that is quoted elsewhere.
const DATA: &[&str] = &[
    "coolant_properties",
    "emissivity",
    "idle_warmup",
    "substitute_temperatures",
    "thermal_parameters",
    "trade_facts",
];

#[test]
fn every_table_is_checked_or_known_to_be_data() {
    let mechanics = [volume::TABLES, level::TABLES, flow::TABLES, oil::TABLES];
    let checked = [mechanics.concat(), [heat::TABLES, measuring::TABLES, radiation::TABLES].concat()];
    let known: BTreeSet<String> = checked.concat().iter().chain(DATA).map(|t| (*t).to_owned()).collect();
    assert_eq!(table::names(), known);
}
