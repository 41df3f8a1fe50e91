//! A recheck beside the job it refers to: is the level still what that job left?
//!
//! In: both results. Out: [`Comparison`]. Not here: how far off the recheck found it (`outcome.rs`).

use events::JobResult;
use units::Millilitres;

/// What the first job left against what the recheck found, both at mid-band; positive is too much.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Comparison {
    /// What the first job said it left.
    pub left: Millilitres,
    /// What the recheck found.
    pub found: Millilitres,
    /// Found less left: negative where fluid has gone since.
    pub change: Millilitres,
    /// Its expanded uncertainty, k = 2.
    pub expanded: Millilitres,
    /// Whether the change is explained by what both are known to.
    pub agrees: bool,
}

/// Compares; `None` where one of the two could not say how far off the level was.
pub fn compare(first: &JobResult, recheck: &JobResult) -> Option<Comparison> {
    let error = first.level_error.as_ref()?;
    let (found, expanded) = (recheck.found_millilitres?, recheck.found_expanded_millilitres?);
    let change = found.to_f64() - error.millilitres.to_f64();
    let both = error.expanded_millilitres.to_f64().hypot(expanded.to_f64()).ceil();
    Some(Comparison {
        left: error.millilitres,
        found,
        change: Millilitres::clamped(change),
        expanded: Millilitres::clamped(both),
        agrees: change.abs() <= both,
    })
}
