//! The guard: which advice would harm the one who obeys it.
//!
//! In: the [`Situation`], an advice, the seat that would hear it. Out: the row of the table of hazards that forbids it, and
//! what is said in its place. Pure. Whatever the procedure wants to say passes through here, to both seats.
//! It limits advice and refuses nothing: what happened is told, and taken down.
//!
//! Not here: what the procedure wants (`acts.rs`). The rows and their sources: `fixtures/reference/trade/hazards.csv`; which
//! are sentences, lines of the report, or not built: `docs/hazards.md`.
//!
//! Where two rows meet, the earlier wins: somebody in danger, overheating, the port, the engine, out from below, fluid that is
//! missing, the rest. The other one waits and is not dropped.

use events::{Advice, Alarm, Role, SeatAdvice};

use crate::advice::ask::{Ask, asks};
use crate::advice::situation::{Motor, Port, Short, Situation};
use crate::told::hands::Clear;

/// One row of the table of hazards that is a guard.
pub struct Rule {
    /// Its id.
    pub id: &'static str,
    /// Whether this would harm.
    pub harms: fn(&Situation, Advice, Ask, Role) -> bool,
    /// What is said in its place, to the one below and to the one inside.
    pub must: fn(&Situation) -> (Advice, Advice),
}

const fn rule(
    id: &'static str,
    harms: fn(&Situation, Advice, Ask, Role) -> bool,
    must: fn(&Situation) -> (Advice, Advice),
) -> Rule {
    Rule { id, harms, must }
}

/// The row that forbids this advice to this seat, if one does.
pub fn harms(s: &Situation, advice: Advice, seat: Role) -> Option<&'static Rule> {
    first(s, advice, seat).map(|(_, rule)| rule)
}

/// The same with its place in the table.
fn first(s: &Situation, advice: Advice, seat: Role) -> Option<(usize, &'static Rule)> {
    let ask = asks(advice);
    RULES.iter().enumerate().find(|(_, rule)| (rule.harms)(s, advice, ask, seat))
}

/// What may be said in place of what is wanted.
pub fn guarded(s: &Situation, wanted: SeatAdvice) -> SeatAdvice {
    let mut said = wanted;
    if s.alone {
        // One after the other: the more urgent one, for both seats.
        said = SeatAdvice::to(wanted.advice, wanted.advice);
    }
    // A row may lead to another one; each is asked once more than there are rows at the most.
    for _ in RULES {
        let seats = [Role::Under, Role::Inside];
        let row = seats
            .into_iter()
            .filter_map(|seat| first(s, said.at(seat), seat))
            .min_by_key(|(place, _)| *place);
        let Some((_, row)) = row else { break };
        let (under, inside) = (row.must)(s);
        said = if s.alone {
            let one = SeatAdvice::to(under, inside).advice;
            SeatAdvice::to(one, one)
        } else {
            SeatAdvice::to(under, inside)
        };
    }
    said
}

fn running(s: &Situation) -> bool {
    s.motor == Motor::Running
}
/// At rest, or nothing says that it runs.
fn not_running(s: &Situation) -> bool {
    s.motor != Motor::Running
}
/// How much is too much is known only once the jug has been read.
pub(crate) const fn let_out(s: &Situation) -> Advice {
    if s.jug_due { Advice::ReadJug } else { Advice::LetOut }
}
/// Where little came out it may never have been out, and the old fluid is in there still.
const fn pipe(s: &Situation) -> Advice {
    if s.little_out { Advice::WasPipeOut } else { Advice::PutPipeIn }
}
/// The people who are below are somebody else than the one at the key.
fn two(s: &Situation) -> bool {
    !s.alone
}
fn out(s: &Situation) -> (Advice, Advice) {
    // Before the look for leaks it is wiped first: a wet pan hides one.
    let looks_next = s.set && !s.no_leak && s.motor != Motor::Running;
    (if looks_next { Advice::WipeDry } else { Advice::ComeOut }, Advice::WaitForClear)
}
/// First the port, then the engine, then this below.
fn shut_then(s: &Situation, below: Advice) -> (Advice, Advice) {
    if s.port.is_open() {
        let inside = if running(s) { Advice::KeepIdlingUntilClosed } else { Advice::KeepOff };
        return (Advice::ClosePort, inside);
    }
    if running(s) { (Advice::KeepClosed, Advice::StopEngine) } else { (below, Advice::KeepOff) }
}
/// Sends somebody below, or has him stay there; who closes an open port is there already.
fn below(s: &Situation, ask: Ask) -> bool {
    ask.has(Ask::BELOW) && !s.port.is_open()
}
/// The same, or to a tube above.
fn near(s: &Situation, ask: Ask) -> bool {
    ask.has(Ask::NEAR) || below(s, ask)
}
fn goes_on(advice: Advice, ask: Ask) -> bool {
    ask.has(Ask::WATCH.and(Ask::OPEN).and(Ask::IDLE).and(Ask::WAIT))
        || advice == Advice::KeepIdlingUntilClosed
}
/// The engine would run, or run on.
fn runs_on(ask: Ask) -> bool {
    ask.has(Ask::START.and(Ask::IDLE).and(Ask::WAIT))
}
/// Something would turn, or come down, that he must be clear of.
fn moves(ask: Ask) -> bool {
    ask.has(Ask::START.and(Ask::SHIFT).and(Ask::DRIVE))
}
/// Less is in it than came out, by more than the vessels explain, and no look has counted since.
fn dry(s: &Situation) -> bool {
    // Where a look with the engine off has counted, the sump was filled before the converter: less is in by design.
    s.short > Short::Vessels && !s.set && !s.rim_seen && (s.upper_port || s.gauge || !s.filled)
}
fn stop_first(s: &Situation, then: (Advice, Advice)) -> (Advice, Advice) {
    if running(s) { (Advice::KeepClosed, Advice::StopEngine) } else { then }
}
fn rounds_or_off(s: &Situation) -> (Advice, Advice) {
    if !s.filled || dry(s) || s.awaits_fill {
        return (Advice::KeepClosed, Advice::StopEngine);
    }
    (Advice::StayOut, if s.brake { Advice::CycleSelector } else { Advice::HoldBrake })
}
fn overheated(s: &Situation) -> (Advice, Advice) {
    match (s.port.is_open(), s.hot) {
        (true, true) => (Advice::ComeOut, Advice::StopNow),
        (true, false) => (Advice::ClosePortCool, Advice::StopNow),
        (false, _) => (Advice::StayAway, Advice::StopAndCool),
    }
}
fn charge(s: &Situation) -> (Advice, Advice) {
    (if s.alone { Advice::ChargeBattery } else { Advice::ComeOut }, Advice::ChargeBattery)
}

/// The rows, in the order in which they win. `docs/hazards.md` has the others.
#[rustfmt::skip]
pub const RULES: &[Rule] = {
    use Advice as A;
    &[
    // somebody is in danger
    rule("dizzy",                |s, a, _, _| s.alarm == Some(Alarm::Air) && a != A::FreshAir,         |_| (A::FreshAir, A::FreshAir)),
    rule("fire-told",            |s, a, _, _| s.alarm == Some(Alarm::Fire) && a != A::GetOut,          |_| (A::GetOut, A::GetOut)),
    rule("caught-told",          |s, a, _, _| s.alarm == Some(Alarm::Caught) && !matches!(a, A::HoldStill | A::EngineOffCaught), |_| (A::HoldStill, A::EngineOffCaught)),
    rule("burn-told",            |s, a, _, _| s.alarm == Some(Alarm::Burn) && !matches!(a, A::CoolBurn | A::HelpBurn),           |_| (A::CoolBurn, A::HelpBurn)),
    // too hot for the machine
    rule("hot-open",             |s, _, k, _| s.overheating && !s.port.is_open() && k.has(Ask::OPEN),  overheated),
    rule("overheat-go-on",       |s, a, k, _| s.overheating && (goes_on(a, k) || (s.hot && a == A::ClosePortCool)), overheated),
    // the port before the engine
    rule("stop-while-open",      |s, _, k, _| s.port.is_open() && running(s) && k.has(Ask::STOP) && !s.overheating && s.alarm.is_none(), |_| (A::ClosePort, A::KeepIdlingUntilClosed)),
    rule("engine-stops-open",    |s, _, k, _| s.port.is_open() && s.motor == Motor::Stopped && !s.look_off && k.has(Ask::WATCH.and(Ask::START).and(Ask::OPEN)), |_| (A::ClosePort, A::KeepOff)),
    rule("stream-endless",       |s, _, k, _| s.endless && s.port.is_open() && k.has(Ask::WATCH),      |_| (A::CloseTooMuch, A::KeepIdlingUntilClosed)),
    rule("drip-open-end",        |s, a, _, _| s.port == Port::Trickle && a == A::WatchStream,          |_| (A::ClosePort, A::KeepIdlingUntilClosed)),
    // the engine off
    rule("wrong-fluid-in",       |s, _, k, _| s.wrong_in && (runs_on(k) || k.has(Ask::SHIFT)),         |s| shut_then(s, A::DrainWrong)),
    rule("no-drive-after-start", |s, _, k, _| s.no_drive && (runs_on(k) || k.has(Ask::SHIFT)),         |s| shut_then(s, if s.too_much { let_out(s) } else { A::FillFirst })),
    rule("fluid-on-exhaust",     |s, _, k, _| s.wet && runs_on(k),                                     |s| shut_then(s, A::SoakUp)),
    rule("known-short-running",  |s, _, k, _| s.short == Short::Much && dry(s) && running(s) && (k.has(Ask::MARGIN) || runs_on(k)), |s| shut_then(s, A::FillFirst)),
    rule("drained-start",        |s, _, k, _| dry(s) && runs_on(k),                                    |s| shut_then(s, A::FillFirst)),
    rule("overfill-foam",        |s, _, k, _| s.too_much && (runs_on(k) || k.has(Ask::DRIVE)),         |s| shut_then(s, let_out(s))),
    rule("charger-spark",        |s, _, k, _| s.low_volts && !s.port.is_open() && k.has(Ask::OPEN.and(Ask::BELOW).and(Ask::SHIFT).and(Ask::WAIT)), charge),
    rule("open-engine-off",      |s, _, k, _| s.circulated && !s.look_off && !s.port.is_open() && not_running(s) && k.has(Ask::OPEN), |_| (A::StayOut, A::StartEngine)),
    // out from below
    rule("below-silent",         |s, a, k, r| s.silent_below && r == Role::Inside && (k.has(Ask::WAIT.and(Ask::SHIFT).and(Ask::DRIVE)) || a == A::KeepIdlingUntilClosed), |_| (A::Answer, A::CallBelow)),
    rule("support-moved",        |s, _, k, _| s.lowered && k.has(Ask::BELOW),                          |s| shut_then(s, A::PrepareVehicle)),
    rule("jack-only",            |s, _, k, _| !s.stands && k.has(Ask::BELOW),                          |s| shut_then(s, A::PrepareVehicle)),
    rule("shims-with-person",    |s, _, k, _| k.has(Ask::STANDS) && (s.port.is_open() || running(s)),  |s| shut_then(s, A::ShimStands)),
    rule("wheels-spin",          |s, _, k, _| running(s) && (s.moving || !s.cycled) && near(s, k),    rounds_or_off),
    rule("chocks-missing",       |s, _, k, _| !s.parked && (near(s, k) || k.has(Ask::START)),         |_| (A::Park, A::Park)),
    rule("clear-by-other",       |s, _, k, _| two(s) && s.clear == Clear::WrongSeat && moves(k),       out),
    rule("jump-below",           |s, _, k, _| two(s) && s.clear == Clear::StartFailed && moves(k),     out),
    rule("clear-stale",          |s, _, k, _| two(s) && s.clear == Clear::Old && moves(k),             out),
    rule("start-below",          |s, _, k, _| two(s) && s.clear == Clear::No && k.has(Ask::START),     out),
    rule("selector-below",       |s, _, k, _| two(s) && s.clear == Clear::No && k.has(Ask::SHIFT),     out),
    rule("lower-on-person",      |s, _, k, _| two(s) && s.clear == Clear::No && k.has(Ask::DRIVE),     out),
    rule("selector-wheels-down", |s, _, k, _| s.wheels && k.has(Ask::SHIFT) && !s.brake,               |_| (A::StayOut, A::HoldBrake)),
    rule("brake-let-go",         |s, _, k, _| k.has(Ask::SHIFT) && !s.brake,                           |_| (A::StayOut, A::HoldBrake)),
    rule("exhaust-inside",       |s, _, k, _| !s.exhaust && !s.no_engine && k.has(Ask::START),         |_| (A::LeadExhaust, A::KeepOff)),
    rule("long-idle",            |s, a, k, _| s.exhaust_due && (near(s, k) || a == A::StayClear),     |_| (A::CheckExhaust, A::CheckExhaust)),
    rule("ready-on",             |s, _, k, _| (s.at_will || s.no_engine) && !s.ready_off && (k.has(Ask::DRAIN.and(Ask::FILL)) || (s.look_off && k.has(Ask::OPEN))), |_| (A::SwitchReadyOff, A::SwitchReadyOff)),
    rule("stop-start",           |s, a, k, _| s.at_will && !s.look_off && !s.mode_on && !s.port.is_open() && (k.has(Ask::OPEN.and(Ask::NEAR)) || matches!(a, A::BeReady | A::StayClear)), |_| (A::StayOut, A::SwitchModeOn)),
    rule("lamp-other-meaning",   |s, _, k, _| s.lamp && !s.mode_on && !s.port.is_open() && !s.look_off && k.has(Ask::OPEN), |_| (A::StayOut, A::SwitchModeOn)),
    // fluid that is missing, or would be
    rule("drained-drive",        |s, _, k, _| s.short > Short::No && !s.set && k.has(Ask::DRIVE),      |_| (A::NotDriven, A::NotDriven)),
    rule("gush-flow",            |s, _, k, _| s.gush && k.has(Ask::SETTLE.and(Ask::DRIVE)),            |s| shut_then(s, A::FillFirst)),
    rule("no-fill-before-drain", |s, a, k, _| s.upper_port && !s.fill_port && (matches!(a, A::Drain | A::DrainAgain) || (s.check && !s.circulated && k.has(Ask::START.and(Ask::OPEN)))), |s| stop_first(s, (A::OpenFillPort, A::Wait))),
    rule("wrong-fluid",          |s, _, k, _| !s.fluid_right && k.has(Ask::DRAIN.and(Ask::FILL)),      |s| if s.port.is_open() { shut_then(s, A::ReadContainer) } else { (A::ReadContainer, A::Wait) }),
    rule("hot-drain",            |s, a, _, _| s.hot && matches!(a, A::Drain),                          |_| (A::CoolBeforeDrain, A::Wait)),
    rule("pipe-torque-late",     |s, _, k, _| s.filled && !s.awaits_fill && k.has(Ask::PIPE),          |_| (A::IsPipeIn, A::Wait)),
    rule("pipe-left-out",        |s, _, k, _| s.pipe && s.changes && s.drained && !s.pipe_in && !s.set && k.has(Ask::FILL.and(Ask::START)), |s| if s.port.is_open() || running(s) { shut_then(s, A::IsPipeIn) } else { (pipe(s), A::Wait) }),
    rule("portions-endless",     |s, _, k, _| s.stays_low() && k.has(Ask::FILL),                        |s| shut_then(s, A::LookWhyLow)),
    // the rest
    rule("tilt-eye-after",       |s, a, k, _| s.level_refused && (k.has(Ask::OPEN) || matches!(a, A::BeReady)), |s| shut_then(s, A::ShimStands)),
    rule("warm-start",           |s, _, k, _| s.warm && !s.port.is_open() && k.has(Ask::OPEN),         |_| (A::StayAway, A::StopAndCool)),
    rule("pin-late",             |s, _, k, _| s.pin && !s.pin_in && !s.circulated && k.has(Ask::START), |_| (A::PutPinIn, A::KeepOff)),
    rule("fill-plug-out",        |s, _, k, _| s.upper_port && s.filled && !s.closed_up && k.has(Ask::START.and(Ask::SHIFT)), |s| stop_first(s, (A::CloseUp, A::KeepOff))),
    rule("tray-hose-left",       |s, _, k, _| !s.closed_up && k.has(Ask::START),                       |_| (A::CloseUp, A::KeepOff)),
    rule("pin-left",             |s, _, k, _| s.pin_in && !s.pin_out && k.has(Ask::DRIVE),             |s| stop_first(s, (A::TakePinOut, A::KeepOff))),
    rule("wheel-nuts",           |s, _, k, _| s.wheel_off && !s.refitted && k.has(Ask::DRIVE),         |s| stop_first(s, (A::Refit, A::KeepOff))),
    rule("covers-off",           |s, _, k, _| s.access && !s.refitted && k.has(Ask::DRIVE),            |s| stop_first(s, (A::Refit, A::KeepOff))),
    rule("solo-hands",           |s, _, k, _| s.alone && k.has(Ask::HELPER),                           |_| (A::StayAway, A::Wait)),
    ]
};
