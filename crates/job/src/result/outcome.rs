//! What came of the job.
//!
//! In: the record when `done` or `abort` was told. Out: [`JobResult`]: outcome, level error, what was wrong, what was
//! never confirmed, when to look again. Not here: the faults of one opening (`round.rs`), the budget (`level.rs`).
//!
//! The level is set only by a good last round with nothing filled or drained after it and every precondition held.
//! An open balance is a question; it becomes a fault where the tilt was only confirmed and not measured, because
//! then nothing else speaks for the level. A tilt measured after closing is no fault of its own: its millilitres
//! are in the level error.

use events::{
    Cause, Drivable, GuessCost, JobResult, LevelError, Meaning, Outcome, Precondition, Shortfall, Signal,
    Task, Utc,
};

use fluid::balance::{Referred, U_VESSEL_ML};
use units::Millilitres;

use crate::port::round::{Round, Stream};
use crate::port::top_up;
use crate::record::{Ending, Record};
use crate::result::means::Found;
use crate::result::means::LOOK_AGAIN_DAYS;
use crate::result::means::means;
use crate::result::worth::worth;
use crate::result::{balance, closure, level};
use crate::told::ledger::{Flow, Kind, VESSELS_ML};

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
    let thin = is_thin(record);
    let outcome = match &level_error {
        Some(error) if shortfalls.is_empty() && record.is_set() => match judge(record, error) {
            Outcome::Set | Outcome::Checked if thin => Outcome::SetUnsure,
            outcome => outcome,
        },
        _ => Outcome::NotSet,
    };
    if thin && outcome == Outcome::SetUnsure {
        shortfalls.push(Shortfall::ThinEvidence);
    }
    match balance_open {
        // Where the fluid stands, or how much went in, is the result: nothing has to run out.
        None if record.amount_only() || record.look().reads_a_height() => {}
        None if ending == Ending::Done && record.changes() => shortfalls.push(Shortfall::Unmeasured),
        Some(true) if !shortfalls.contains(&Shortfall::BalanceOpen) => {
            shortfalls.push(Shortfall::BalanceOpen)
        }
        _ => {}
    }
    if tilted(record) && !shortfalls.contains(&Shortfall::NotLevel) {
        shortfalls.push(Shortfall::NotLevel);
    }
    let leaks = leaks(record);
    if leaks {
        shortfalls.push(Shortfall::LeakSeen);
    }
    let found = if record.changes() { None } else { found(record, level_error.as_ref()) };
    let gauge = matches!(shortfalls.first(), Some(Shortfall::GaugeLow | Shortfall::GaugeHigh));
    let dry_after_ml = record.dry_after().filter(|_| found.is_none()).map(Millilitres::to_f64);
    let how = Found::of(found, outcome != Outcome::NotSet || gauge, dry_after_ml);
    let means = means(record, how, leaks);
    let days = match record.sheet.recheck.days.as_slice() {
        // A level over a leak is no level in some days.
        _ if outcome == Outcome::NotSet || leaks => &[],
        [] if means.contains(&Meaning::AskHistory) => LOOK_AGAIN_DAYS,
        days => days,
    };
    let recheck_due = days.iter().map(|d| at.plus_days(*d)).collect();
    JobResult {
        outcome,
        add_millilitres: add(record, outcome, level_error.as_ref(), &shortfalls),
        shortfalls,
        closure: closure::causes(record),
        recheck_of: record.which.recheck_of,
        // The least that a look has shown; what was filled without one may have been enough.
        low_by_more_than_millilitres: record
            .dry_after()
            .filter(|ml| !record.changes() && found.is_none() && ml.to_f64() > 0.0),
        found_millilitres: found.map(|f| Millilitres::clamped(f.millilitres)),
        found_expanded_millilitres: found.map(|f| Millilitres::clamped((2.0 * f.u_ml).ceil())),
        drivable: Some(drivable(record, outcome)),
        net_millilitres: net(record).map(|(ml, _)| Millilitres::clamped(ml)),
        expanded_millilitres: net(record).map(|(_, u)| Millilitres::clamped((2.0 * u).ceil())),
        guessed: record.sheet.guessed.clone().into(),
        guess_cost: level_error.as_ref().and_then(|error| guess_cost(record, error)).map(Box::new),
        complaint: record.asked.complaint(means),
        untold: untold(record),
        open,
        recheck_due,
        level_error,
    }
}

/// What guesses cost in this job's ±. Which one would help most, and by how much of their part, is as with the sheet alone.
fn guess_cost(record: &Record, error: &LevelError) -> Option<GuessCost> {
    let of_guesses = error.causes.iter().find(|part| part.cause == Cause::Guess)?;
    let square = |ml: f64| ml * ml;
    let (all, guessed) =
        (square(error.expanded_millilitres.to_f64()), square(level::K * of_guesses.u_millilitres.to_f64()));
    let plus_minus = |left: f64| Millilitres::clamped((all - left).max(0.0).sqrt().ceil());
    let without_millilitres = plus_minus(guessed);
    if without_millilitres == error.expanded_millilitres {
        return None;
    }
    let worth = worth(&record.sheet);
    let most = worth.as_ref().and_then(|worth| {
        let most = worth.most()?;
        let whole = square(worth.expanded_ml) - square(worth.known_ml);
        let share = (square(worth.expanded_ml) - square(most.without_ml)) / whole.max(1.0);
        Some((most.key.to_owned(), plus_minus(guessed * share.clamp(0.0, 1.0))))
    });
    let (most, most_millilitres) = most.unzip();
    Some(GuessCost { without_millilitres, most, most_millilitres })
}

/// A check or a recheck: how far off the level was found, at mid-band. What ran out was too much; what had to be filled before
/// it did was missing; and what the closing left is as far off as the level error says. `None` where nothing came to a trickle.
fn found(record: &Record, error: Option<&LevelError>) -> Option<Referred> {
    let error = error?;
    let nothing = Referred { millilitres: 0.0, u_ml: 0.0 };
    // A few drops that nobody measured are about nothing.
    let drops = if record.reads_a_gauge() { nothing } else { Referred { u_ml: U_VESSEL_ML, ..nothing } };
    let mut out = balance::over(record).unwrap_or(drops);
    // What stands in the pipe comes whatever the level; half of it is how well that is known, all of it where it was guessed.
    if let Some(gush) = record.sheet.level.gush_ml {
        let known = if record.sheet.is_guessed("level.gush_ml") { 1.0 } else { 0.5 };
        let gush = Referred { millilitres: gush.min(out.millilitres.max(0.0)), u_ml: gush * known };
        out = balance::minus(out, gush);
    }
    let moved = balance::minus(out, balance::over_fill(record).unwrap_or(nothing));
    Some(Referred {
        millilitres: moved.millilitres + error.millilitres.to_f64(),
        u_ml: moved.u_ml.hypot(error.expanded_millilitres.to_f64() / 2.0),
    })
}

/// How much to fill before the next look: what is missing, and a margin over it that shows by running out.
fn add(
    record: &Record,
    outcome: Outcome,
    error: Option<&LevelError>,
    shortfalls: &[Shortfall],
) -> Option<Millilitres> {
    if shortfalls.contains(&Shortfall::GaugeLow) && !shortfalls.contains(&Shortfall::StaysDry) {
        return Some(top_up::missing_and_margin(record));
    }
    let hot = [Shortfall::TooHotBeforeTrickle, Shortfall::ClosedLate];
    let missing = match outcome {
        Outcome::Set | Outcome::SetHigh | Outcome::SetUnsure | Outcome::Checked => return None,
        Outcome::NotSet if shortfalls.contains(&Shortfall::StaysDry) => return None,
        Outcome::NotSet if shortfalls.contains(&Shortfall::NothingRanOut) => {
            return (!record.refilled()).then(|| top_up::margin(&record.sheet));
        }
        Outcome::NotSet if !shortfalls.iter().any(|s| hot.contains(s)) => return None,
        Outcome::SetLow | Outcome::NotSet => error.map_or(0.0, |e| (-e.millilitres.to_f64()).max(0.0)),
    };
    let amount = missing + record.sheet.fluid.margin_ml / 2.0;
    Some(Millilitres::clamped((amount / top_up::STEP_ML).ceil() * top_up::STEP_ML))
}

/// As the temperature is judged, with a guard band (JCGM 106): right where it is within the tolerance with all that is not
/// known of it; else right as far as known.
fn judge(record: &Record, error: &LevelError) -> Outcome {
    let ml = error.millilitres.to_f64();
    let tolerance = record.tolerance_ml();
    let touched = record.has(Kind::Filled);
    if ml.abs() + error.expanded_millilitres.to_f64() <= tolerance {
        if record.hands.task == Task::Check && !touched && found_right(record, error) {
            Outcome::Checked
        } else {
            Outcome::Set
        }
    } else if ml.abs() <= tolerance {
        Outcome::SetUnsure
    } else if ml < 0.0 {
        Outcome::SetLow
    } else {
        Outcome::SetHigh
    }
}

/// Without an adapter people's words carry a set level only where they are more than one: two readings in the band, the newest
/// not old when the port was closed, a measured stand, and where a stream was expected one that outlasted a first gush.
fn is_thin(record: &Record) -> bool {
    let streamed = record.reads_a_gauge()
        || record.port.round.as_ref().is_none_or(|round| {
            let expected = round.expected_s.is_some() || record.hands.was_low;
            !expected || record.port.ran.is_since() || round.outlasted_a_gush()
        });
    record.hands.people && !(record.typed.closed_on_two() && record.level.is_some() && streamed)
}

/// A check that found no more out, and no less in, than is known.
fn found_right(record: &Record, error: &LevelError) -> bool {
    found(record, Some(error))
        .is_some_and(|f| f.millilitres.abs() <= (2.0 * f.u_ml).max(record.tolerance_ml()))
}

/// A leak was told, and nobody has seen since that it is gone.
fn leaks(record: &Record) -> bool {
    record.hands.leak.is_some() && !record.holds(Precondition::NoLeak)
}

/// What it may do now. Low, drained, wrong fluid, no drive: nothing. A leak, the pin, covers that are off: the workshop.
fn drivable(record: &Record, outcome: Outcome) -> Drivable {
    let hands = &record.hands;
    // A later look at the wrong moment takes nothing back of what an earlier one has shown.
    let was_dry = record.dry_after().is_some() && !record.port.ran.is_ever() && !record.refilled();
    let dry = record.port.round.as_ref().is_some_and(Round::nothing_at_go) || record.only_a_gush() || was_dry;
    let short = record.short_ml() > VESSELS_ML;
    let right = outcome.is_right();
    if hands.wrong_in || hands.no_drive || (!right && (short || dry)) || outcome == Outcome::SetLow {
        return Drivable::No;
    }
    let lacks = |p: Precondition| record.needs(p) && !record.holds(p);
    let pin = record.confirmed.contains(Precondition::CoolerBypass) && lacks(Precondition::BypassOut);
    // Known neither low nor right: to the next bay, but not where it slips or whines.
    if outcome == Outcome::NotSet && record.asked.slips_or_whines() {
        return Drivable::No;
    }
    if right && !pin && !leaks(record) && !lacks(Precondition::Refitted) {
        Drivable::Yes
    } else {
        Drivable::WorkshopOnly
    }
}

/// What is in it against before the job, as measured, and its standard uncertainty, in mL.
fn net(record: &Record) -> Option<(f64, f64)> {
    let moved: Vec<f64> = record
        .ledger
        .iter()
        .filter_map(|e| match e.kind.flow() {
            Flow::In => Some(e.amount.to_f64()),
            Flow::Out | Flow::NotIn | Flow::Over => Some(-e.amount.to_f64()),
            Flow::None => None,
        })
        .collect();
    (!moved.is_empty()).then(|| (moved.iter().sum(), U_VESSEL_ML * (moved.len() as f64).sqrt()))
}

/// What the hands should have confirmed and did not. Nothing is refused for it; it is named.
fn untold(record: &Record) -> Vec<Precondition> {
    let mut asked = vec![Precondition::Parked];
    if record.has(Kind::Drained) {
        asked.extend([Precondition::FluidRight, Precondition::FillPortOpen, Precondition::PipeIn]);
    }
    if record.motion.circulated {
        asked.push(Precondition::ClosedUp);
    }
    if record.confirmed.contains(Precondition::CoolerBypass) {
        asked.push(Precondition::BypassOut);
    }
    if record.plugs.are_driven() || record.looks.drove {
        asked.extend([Precondition::NoLeak, Precondition::Refitted]);
    }
    asked.extend([Precondition::Dry]);
    asked.retain(|p| record.needs(*p) && !record.holds(*p));
    asked.sort_unstable();
    asked
}

/// Whatever keeps the level from being set, most telling first.
fn faults(record: &Record, open: &[Precondition]) -> Vec<Shortfall> {
    if record.amount_only() {
        let mut faults = Vec::new();
        if !record.amounts_right() {
            faults.push(Shortfall::AmountOff);
        }
        if !open.is_empty() {
            faults.push(Shortfall::PreconditionOpen);
        }
        return faults;
    }
    let unseen = if record.reads_a_gauge() { Shortfall::NotReadTwice } else { Shortfall::NotOpened };
    let mut faults = match &record.port.round {
        None => vec![unseen],
        // A look that is not the last sets nothing.
        Some(_) if !record.is_last_look() => vec![Shortfall::NotOpened],
        Some(round) => round.faults(),
    };
    if record.looks.again {
        faults.insert(0, Shortfall::NotLookedAgain);
    }
    if record.stays_low() {
        faults.retain(|s| !matches!(s, Shortfall::NothingRanOut | Shortfall::GaugeLow));
        faults.insert(0, Shortfall::StaysDry);
    }
    if record.only_a_gush() && !record.refilled() {
        faults.push(Shortfall::GushOnly);
    }
    if record.ran_out_too_much() {
        faults.push(Shortfall::RanOutTooMuch);
    }
    if record.refilled() {
        faults.retain(|s| !matches!(s, Shortfall::GaugeLow | Shortfall::GaugeHigh | Shortfall::NotReadTwice));
        faults.push(unseen);
    }
    if open.contains(&Precondition::StartedCold) && record.motion.cold == Some(false) {
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
        if record.port.too_hot && !faults.iter().any(already) {
            faults.push(Shortfall::TooHot);
        }
        if record.port.opened_early && !faults.contains(&Shortfall::OpenedBeforeGo) {
            faults.push(Shortfall::OpenedBeforeGo);
        }
        if record.port.doubted {
            faults.push(Shortfall::SensorUntrusted);
        }
    }
    faults
}

/// What was never confirmed, or did not hold when it counted.
fn open(record: &Record) -> Vec<Precondition> {
    let lacks = |p: Precondition| match p {
        // A measured stand is judged by its millilitres. Where no filling helps, none is asked for.
        Precondition::Filled if record.stays_low() => false,
        Precondition::VehicleLevel => record.needs(p) && record.level.is_none() && !record.holds(p),
        // The position counts at the port alone: it ends with the engine.
        Precondition::InPosition if record.port.round.is_some() => false,
        _ => record.needs(p) && !p.is_live() && !record.holds(p),
    };
    // A lamp's mode counts at the port alone: it ends with the engine.
    let never = Precondition::ALL.iter().copied().filter(|p| p.gates() && lacks(*p));
    let mut open: Vec<Precondition> =
        never.chain(record.port.round.as_ref().map(Round::open).unwrap_or_default().iter()).collect();
    open.sort_unstable();
    open.dedup();
    open
}

/// The level error, where fluid ran out to a trickle, the port was closed at a known temperature, and nothing was
/// filled since; also where the level does not count as set, because it says what to put right.
fn level_error(record: &Record) -> Option<LevelError> {
    if record.amount_only() {
        return level::by_amount(&record.sheet, record.amount_off()?);
    }
    if record.reads_a_gauge() {
        // Low and high are read as well as right.
        let mean = record.gauge_mean()?;
        let apart = record.motion.restarted && record.sheet.check.signal == Signal::Coolant;
        let known = Some((mean.celsius, mean.u));
        return level::error(&record.sheet, known, apart, None, record.level, level::SeenBy::Gauge(mean));
    }
    let signed = |r: &&Round| matches!(r.stream, Stream::Flows | Stream::Stands) && r.trickle.is_some();
    let round = record.port.round.as_ref().filter(signed).filter(|_| record.is_last_look())?;
    let closed = round.closed.as_ref().filter(|_| !record.refilled())?;
    let judged = closed.judged;
    let warms =
        round.trickle.as_ref().and_then(|t| t.judged.kelvins_per_minute).or(judged.kelvins_per_minute);
    let apart = record.motion.restarted && record.sheet.check.signal == Signal::Coolant;
    let look = record.look();
    let seen = match (round.below_edge_mm, look.mm) {
        (Some(told_mm), mm) => level::SeenBy::BelowEdge { told_mm, range_mm: mm.unwrap_or([0.0, 0.0]) },
        (None, _) if round.rest && record.has_a_gush() => level::SeenBy::Rest,
        (None, _) => level::SeenBy::Stream,
    };
    let known = if look.is_gated() { Some((judged.celsius?, judged.u?)) } else { None };
    level::error(&record.sheet, known, apart, warms, record.level, seen)
}

/// Measured further off level than is allowed before opening.
fn tilted(record: &Record) -> bool {
    record.level.is_some() && !record.holds(Precondition::VehicleLevel)
}
