//! What the README promises of the test run, held against what it took.
//!
//! In: how long everything took. Out: a line that says both. A slow machine is no failure of the code, so nothing fails
//! here; the README's excerpt of a rehearsal is held against the program by `tests/rehearse.rs`.

use std::time::Duration;

use crate::shell::{Done, root};

/// The words before the figure.
const BEFORE: &str = "On two cores it takes at most ";

/// Says how long it took beside what the README says.
pub fn says(took: Duration) -> Done {
    let text = std::fs::read_to_string(root().join("README.md")).map_err(|e| format!("README.md: {e}"))?;
    let minutes = text
        .split_once(BEFORE)
        .and_then(|(_, rest)| rest.split_once(' '))
        .and_then(|(figure, _)| figure.parse::<f64>().ok())
        .ok_or_else(|| format!("README.md does not say \"{BEFORE}… minutes\""))?;
    let took = took.as_secs_f64() / 60.0;
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let held = if took <= minutes { "as the README says" } else { "MORE than the README says" };
    println!("== everything: {took:.1} min on {cores} cores, {held} ({minutes} min on two)");
    Ok(())
}
