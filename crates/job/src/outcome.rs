//! What came of the job.
//!
//! In: the record when `done` or `abort` was told. Out: [`JobResult`]: outcome, level error, what was wrong, what was
//! never confirmed, when to look again. Not here: the faults of one opening (`round.rs`), the budget (`level.rs`).
//!
//! The level is set only by a good last round with nothing filled or drained after it and every precondition held.
//! An open balance is a question; it becomes a fault where the tilt was only confirmed and not measured, because
//! then nothing else speaks for the level. A tilt measured after closing is no fault of its own: its millilitres
//! are in the level error.

use events::{JobResult, LevelError, Outcome, Precondition, Shortfall, Utc};

use fluid::balance::{Referred, U_VESSEL_ML};
use units::Millilitres;

use crate::record::{Ending, Record, is_live};
use crate::round::{Round, Stream};
use crate::{balance, closure, level, top_up};

/// The result of a job that ended at `at`.
pub(crate) fn result(record: &Record, ending: Ending, at: Utc) -> JobResult {
    let open = open(record);
    let level_error = level_error(record);
    let mut shortfalls = match ending {
        Ending::Aborted => vec![Shortfall::Aborted],
        Ending::Done => Vec::new(),
    };
    shortfalls.extend(faults(record, &open));
    let balance_open = closure::is_open(record);
    if balance_open == Some(true) && record.level.is_none() {
        shortfalls.push(Shortfall::BalanceOpen);
    }
    if shortfalls.is_empty() && level_error.is_none() {
        shortfalls.push(Shortfall::SensorUntrusted);
    }
    let outcome = match &level_error {
        Some(error) if shortfalls.is_empty() && record.is_set() => judge(record, error),
        _ => Outcome::NotSet,
    };
    match balance_open {
        None if ending == Ending::Done && record.recheck_of.is_none() => {
            shortfalls.push(Shortfall::Unmeasured)
        }
        Some(true) if !shortfalls.contains(&Shortfall::BalanceOpen) => {
            shortfalls.push(Shortfall::BalanceOpen)
        }
        _ => {}
    }
    if tilted(record) && !shortfalls.contains(&Shortfall::NotLevel) {
        shortfalls.push(Shortfall::NotLevel);
    }
    let days = if outcome == Outcome::NotSet { &[] } else { record.sheet.recheck.days.as_slice() };
    let recheck_due = days.iter().map(|d| at.plus_days(*d)).collect();
    let found = record.recheck_of.and_then(|_| found(record));
    JobResult {
        outcome,
        add_millilitres: add(record, outcome, level_error.as_ref(), &shortfalls),
        level_error,
        shortfalls,
        closure: closure::causes(record),
        recheck_of: record.recheck_of,
        found_millilitres: found.map(|f| Millilitres::clamped(f.millilitres)),
        found_expanded_millilitres: found.map(|f| Millilitres::clamped((2.0 * f.u_ml).ceil())),
        open,
        recheck_due,
    }
}

/// A recheck: how far off the level was found, at mid-band. What ran out was too much; what had to be filled before it did
/// was missing. `None` where nothing came to a trickle.
fn found(record: &Record) -> Option<Referred> {
    record.round.as_ref().filter(|r| r.stream == Stream::Flows && r.trickle.is_some())?;
    let nothing = Referred { millilitres: 0.0, u_ml: 0.0 };
    // A few drops that nobody measured are about nothing.
    let out = balance::over(record).unwrap_or(Referred { u_ml: U_VESSEL_ML, ..nothing });
    Some(balance::minus(out, balance::over_fill(record).unwrap_or(nothing)))
}

/// How much to fill before the next look: what is missing, and a margin over it that shows by running out.
fn add(
    record: &Record,
    outcome: Outcome,
    error: Option<&LevelError>,
    shortfalls: &[Shortfall],
) -> Option<Millilitres> {
    let hot = [Shortfall::TooHotBeforeTrickle, Shortfall::ClosedLate];
    let missing = match outcome {
        Outcome::Set | Outcome::SetHigh => return None,
        Outcome::NotSet if shortfalls.contains(&Shortfall::NothingRanOut) => {
            return (!record.refilled()).then(|| top_up::margin(&record.sheet));
        }
        Outcome::NotSet if !shortfalls.iter().any(|s| hot.contains(s)) => return None,
        Outcome::SetLow | Outcome::NotSet => error.map_or(0.0, |e| (-e.millilitres.to_f64()).max(0.0)),
    };
    let amount = missing + record.sheet.fluid.margin_ml / 2.0;
    Some(Millilitres::clamped((amount / top_up::STEP_ML).ceil() * top_up::STEP_ML))
}

fn judge(record: &Record, error: &LevelError) -> Outcome {
    let ml = error.millilitres.to_f64();
    let tolerance = record.sheet.check.tolerance_ml;
    if ml.abs() <= tolerance {
        Outcome::Set
    } else if ml < 0.0 {
        Outcome::SetLow
    } else {
        Outcome::SetHigh
    }
}

/// Whatever keeps the level from being set, most telling first.
fn faults(record: &Record, open: &[Precondition]) -> Vec<Shortfall> {
    let mut faults = match &record.round {
        None => vec![Shortfall::NotOpened],
        Some(round) => round.faults(),
    };
    if record.refilled() {
        faults.push(Shortfall::NotOpened);
    }
    if open.contains(&Precondition::StartedCold) && record.cold == Some(false) {
        faults.push(Shortfall::StartedWarm);
    }
    if open.contains(&Precondition::VehicleLevel) {
        faults.push(Shortfall::NotLevel);
    }
    if !open.is_empty() && !faults.contains(&Shortfall::PreconditionOpen) {
        faults.push(Shortfall::PreconditionOpen);
    }
    // What stood in the way of `go`, where `go` was not there to be used.
    if !record.is_set() {
        let already = |s: &Shortfall| matches!(s, Shortfall::TooHotBeforeTrickle | Shortfall::ClosedLate);
        if record.too_hot && !faults.iter().any(already) {
            faults.push(Shortfall::TooHot);
        }
        if record.opened_early && !faults.contains(&Shortfall::OpenedBeforeGo) {
            faults.push(Shortfall::OpenedBeforeGo);
        }
        if record.doubted {
            faults.push(Shortfall::SensorUntrusted);
        }
    }
    faults
}

/// What was never confirmed, or did not hold when it counted.
fn open(record: &Record) -> Vec<Precondition> {
    let lacks = |p: Precondition| match p {
        // A measured stand is judged by its millilitres.
        Precondition::VehicleLevel => record.level.is_none() && !record.holds(p),
        _ => record.needs(p) && !is_live(p) && !record.holds(p),
    };
    let never = Precondition::ALL.iter().copied().filter(|p| lacks(*p));
    let mut open: Vec<Precondition> =
        never.chain(record.round.as_ref().map(Round::open).unwrap_or_default()).collect();
    open.sort_unstable();
    open.dedup();
    open
}

/// The level error, where fluid ran out to a trickle, the port was closed at a known temperature, and nothing was
/// filled since; also where the level does not count as set, because it says what to put right.
fn level_error(record: &Record) -> Option<LevelError> {
    let round = record.round.as_ref().filter(|r| r.stream == Stream::Flows && r.trickle.is_some())?;
    let closed = round.closed.as_ref().filter(|_| !record.refilled())?;
    let judged = closed.judged;
    let warms =
        round.trickle.as_ref().and_then(|t| t.judged.kelvins_per_minute).or(judged.kelvins_per_minute);
    level::error(&record.sheet, (judged.celsius?, judged.u?), warms, record.level)
}

/// Measured further off level than is allowed before opening.
fn tilted(record: &Record) -> bool {
    record.level.is_some() && !record.holds(Precondition::VehicleLevel)
}
