//! The one thing to do with the hands now.
//!
//! In: the state, the time, the verdict with its reasons and its forecast. Out: one [`Advice`]. Not here: whether it
//! was shown already; the caller compares. Read it top-down: the first row that fits is the advice.

use events::{Advice, Caution, Outcome, Precondition, Reason, Signal, Step, Verdict};
use units::Mono;

use crate::fold::is_doubt;
use crate::job::{Core, VerdictNow};
use crate::live::{Cold, Engine};
use crate::procedure;
use crate::record::Record;
use crate::round::{Round, Stream};

/// See [`crate::Job::advice`].
pub(crate) fn advise(core: &Core, now: Mono, verdict: &VerdictNow) -> Advice {
    let Some(record) = &core.record else { return Advice::StartJob };
    if let Some(result) = &record.result {
        return if result.outcome == Outcome::Set { Advice::Recheck } else { Advice::SetAgain };
    }
    if let Some(round) = record.round.as_ref().filter(|r| r.is_open()) {
        return port_open(record, round, verdict);
    }
    if record.is_set() || record.torqued {
        return match (record.torqued, record.test_driven) {
            (false, _) => Advice::Tighten,
            (true, false) => Advice::TestDrive,
            (true, true) => Advice::Finish,
        };
    }
    before_engine(record).unwrap_or_else(|| with_engine(core, record, now, verdict))
}

/// The port is open.
fn port_open(record: &Record, round: &Round, verdict: &VerdictNow) -> Advice {
    if record.said.stops.contains(&Caution::Overheating) {
        return Advice::ClosePortCool;
    }
    if no_signal(record, verdict) && round.looked.is_go() && round.trickle.is_none() {
        // A thermometer's reading grows old by itself; that says nothing about the adapter.
        let typed_in = verdict.link_up && record.sheet.check.signal == Signal::Spot;
        return if typed_in { Advice::ClosePortWait } else { Advice::CheckAdapter };
    }
    match verdict.verdict {
        Verdict::TooHot => Advice::ClosePortCool,
        _ if round.too_hot.is_some() => Advice::ClosePortCool,
        _ if round.trickle.is_some() => Advice::ClosePort,
        Verdict::Wait => Advice::ClosePortWait,
        Verdict::Go if round.stream == Stream::Nothing => Advice::FillMore,
        Verdict::Go if round.flowed_at_go() => Advice::WatchStream,
        // Opened too early, and now it is time: look, and tell again what comes.
        Verdict::Go => Advice::OpenPort,
    }
}

/// What can be done with the engine stopped, in order.
fn before_engine(record: &Record) -> Option<Advice> {
    let lacks = |p: Precondition| record.needs(p) && !record.holds(p);
    // Nobody drains a vehicle that is not on its stands; the rest of preparing has its place in the sheet's order.
    if lacks(Precondition::OnStands) {
        return Some(Advice::PrepareVehicle);
    }
    for step in procedure::order(&record.sheet) {
        let due = match step {
            Step::Prepare => lacks(Precondition::Ventilated) || lacks(Precondition::VehicleLevel),
            Step::Drain => !record.drained(),
            Step::Fill => !record.filled() || record.awaits_fill(),
            _ => false,
        };
        let advice = match step {
            Step::Prepare => Advice::PrepareVehicle,
            Step::Drain => Advice::Drain,
            _ => Advice::Fill,
        };
        if due {
            return Some(advice);
        }
    }
    if record.drains_again() {
        return Some(Advice::DrainAgain);
    }
    if record.needs_more() {
        return Some(Advice::FillMore);
    }
    lacks(Precondition::CoolerBypass).then_some(Advice::ConfirmOpen)
}

/// From the first start of the engine to the opened port.
fn with_engine(core: &Core, record: &Record, now: Mono, verdict: &VerdictNow) -> Advice {
    // With the ignition off the vehicle says nothing, and nothing is wrong with the adapter.
    if core.live.silent && record.cold != Some(false) {
        return Advice::StartEngine;
    }
    if no_signal(record, verdict) {
        return if verdict.link_up && record.sheet.check.signal == Signal::Spot {
            Advice::CheckSensor
        } else {
            Advice::CheckAdapter
        };
    }
    let lacks = |p: Precondition| record.needs(p) && !record.holds(p);
    let engine = core.live.engine(now, &record.sheet);
    let warm = record.cold == Some(false)
        || (record.cold.is_none() && engine == Engine::Stopped && core.live.cold(now) == Cold::Disagree);
    if record.said.stops.contains(&Caution::Overheating) && engine == Engine::Running {
        return Advice::StopAndCool;
    }
    if verdict.verdict == Verdict::TooHot || (lacks(Precondition::StartedCold) && warm) {
        return Advice::StopAndCool;
    }
    if engine != Engine::Running {
        return Advice::StartEngine;
    }
    if lacks(Precondition::BrakeHeld) || lacks(Precondition::SelectorCycled) {
        return Advice::CycleSelector;
    }
    if !record.open(&core.live, now).is_empty() {
        return Advice::ConfirmOpen;
    }
    if verdict.verdict == Verdict::Go {
        return Advice::OpenPort;
    }
    // Which of two control units is right, a thermometer tells as well as whether a sensor is.
    let doubts = |r: &Reason| (is_doubt(*r) && *r != Reason::NotAlive) || *r == Reason::UnitsDisagree;
    if verdict.reasons.iter().any(doubts) {
        return Advice::CheckSensor;
    }
    if soon(core, verdict) { Advice::BeReady } else { Advice::StayClear }
}

/// Whether the window is so near that the technician belongs under the vehicle. Once it is, it stays so a little
/// longer, for nobody crawls in and out as a forecast trembles.
fn soon(core: &Core, verdict: &VerdictNow) -> bool {
    let holding = verdict.reasons.contains(&Reason::Hysteresis);
    let ready = if core.advised == Some(Advice::BeReady) { 2.0 * READY_S } else { READY_S };
    let opens = verdict.forecast.and_then(|f| f.opens_in);
    holding || opens.is_some_and(|o| o.low <= ready)
}

/// Neither adapter nor thermometer says anything now.
fn no_signal(record: &Record, verdict: &VerdictNow) -> bool {
    let waits_for_the_engine = record.round.is_none() && !record.circulated;
    !verdict.link_up || (verdict.reasons.iter().any(|r| r.is_blind()) && !waits_for_the_engine)
}

/// So long before the window somebody should be under the vehicle, in seconds: gloves, lamp, tray (own choice).
const READY_S: f64 = 60.0;
