//! The situation: all that advice and guard rest on, at one moment, as plain values.
//!
//! In: the folded state, the time, the verdict. Out: [`Situation`], small enough to be searched through. Not here: what is
//! said (`acts.rs`), what would harm (`guard.rs`).

use events::{
    Alarm, Caution, Drive, FillFrom, On, Outcome, Precondition, Reason, Rim, Step, SumpOpens, Task, Verdict,
};
use units::Mono;

use crate::fold::{SLOW_START_MS, is_doubt};
use crate::job::{Core, VerdictNow};
use crate::ledger::Kind;
use crate::live::{Cold, Engine};
use crate::record::Record;
use crate::round::{Ran, Stream};
use crate::{procedure, run_out};

/// How far the job is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Stage {
    /// None was started.
    #[default]
    None,
    /// It runs.
    Running,
    /// It ended with a level that is right as far as known.
    Right,
    /// It ended otherwise.
    Ended,
}

/// What is known of the one below.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Clear {
    /// Nothing was told.
    #[default]
    No,
    /// Somebody else told it.
    WrongSeat,
    /// It was told, and something happened since.
    Old,
    /// It was told, start was said, and the engine did not come.
    StartFailed,
    /// He is out.
    Yes,
}

/// The engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Motor {
    /// Nothing says it.
    Unknown,
    /// At rest.
    #[default]
    Stopped,
    /// It runs.
    Running,
}

/// How much came out and did not go in again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, PartialOrd, Ord)]
pub enum Short {
    /// As much is in it as before, or more.
    #[default]
    No,
    /// Something is missing, and no more than the vessels explain.
    Vessels,
    /// Less is missing than the margin.
    Some,
    /// More is missing than the margin.
    Much,
}

/// What the opened port shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Port {
    /// Closed.
    #[default]
    Closed,
    /// Told open when it was not the time.
    Early,
    /// A stream at the right time.
    Stream,
    /// A trickle, or drips, sooner than a stream can have thinned.
    Gush,
    /// A trickle.
    Trickle,
    /// Nothing came.
    Nothing,
}

impl Port {
    /// Whether it is open.
    pub const fn is_open(self) -> bool {
        !matches!(self, Self::Closed)
    }
}

/// See the module's words. Each field is what was told, read or counted; what is not known is not so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[allow(clippy::struct_excessive_bools, reason = "each is one fact that a rule asks for")]
pub struct Situation {
    /// How far the job is.
    pub stage: Stage,
    /// One person does it.
    pub alone: bool,
    /// The fluid is changed: no check, no recheck.
    pub changes: bool,
    /// A check of any vehicle.
    pub check: bool,

    /// The sheet: the level is the rim of a pipe that came out with the old fluid.
    pub pipe: bool,
    /// The sheet: it is filled through a port of its own.
    pub upper_port: bool,
    /// The sheet: a pin holds the cooler's circuit open.
    pub pin: bool,
    /// The sheet: the selector is moved.
    pub selector: bool,
    /// The sheet: it stands on its wheels.
    pub wheels: bool,
    /// The sheet: what drives.
    pub at_will: bool,
    /// The sheet: there is no engine at all.
    pub no_engine: bool,
    /// The sheet: something is taken off to get at it.
    pub access: bool,
    /// The sheet: and a wheel is among it.
    pub wheel_off: bool,
    /// The sheet: it is levelled only after the drain.
    pub drains_first: bool,

    /// Somebody is in danger.
    pub alarm: Option<Alarm>,
    /// On stands, as it was told.
    pub stands: bool,
    /// It was lowered since.
    pub lowered: bool,
    /// Level, measured or by eye.
    pub level: bool,
    /// Measured, and not level.
    pub level_refused: bool,
    /// The exhaust goes outside.
    pub exhaust: bool,
    /// It has idled so long that the hose is looked at again.
    pub exhaust_due: bool,
    /// P, parking brake, chocks.
    pub parked: bool,
    /// The selector is out of its first position.
    pub moving: bool,
    /// The one below.
    pub clear: Clear,
    /// Nobody has heard from him for long.
    pub silent_below: bool,
    /// The brake is held.
    pub brake: bool,
    /// The rounds are done.
    pub cycled: bool,
    /// The fill port was opened.
    pub fill_port: bool,
    /// The container was read.
    pub fluid_right: bool,
    /// The wrong fluid is in.
    pub wrong_in: bool,
    /// The pipe is back.
    pub pipe_in: bool,
    /// Plugs in, tray away.
    pub closed_up: bool,
    /// The pin is in.
    pub pin_in: bool,
    /// It was taken out again.
    pub pin_out: bool,
    /// Looked for leaks, and there is none.
    pub no_leak: bool,
    /// A leak was told.
    pub leak: bool,
    /// Covers and wheel are back.
    pub refitted: bool,
    /// The service mode is on.
    pub mode_on: bool,
    /// The drive is off for sure.
    pub ready_off: bool,
    /// Something was spilled where it burns.
    pub wet: bool,
    /// No drive was felt.
    pub no_drive: bool,

    /// The engine.
    pub motor: Motor,
    /// With the ignition off the vehicle says nothing, and nothing is wrong with the adapter.
    pub ignition_off: bool,
    /// Coolant or fluid above the stop limit.
    pub overheating: bool,
    /// The battery is low.
    pub low_volts: bool,
    /// The fluid would burn who drains it.
    pub hot: bool,
    /// It did not start cold.
    pub warm: bool,
    /// May the port be open?
    pub verdict: Verdict,
    /// There is no adapter: everything is told by people.
    pub people: bool,
    /// The word on the engine is to be told again now.
    pub ask_engine: bool,
    /// Nobody has told it in time.
    pub engine_silent: bool,
    /// Nobody has told that it started cold, and the sheet asks for it.
    pub cold_untold: bool,
    /// Neither adapter nor thermometer says anything.
    pub no_signal: bool,
    /// And the vehicle answers: only the thermometer has not spoken.
    pub typed: bool,
    /// The temperature cannot be trusted.
    pub doubt: bool,
    /// Something else must hold first.
    pub open: bool,
    /// The window is near.
    pub soon: bool,

    /// Old fluid is out, or none is changed.
    pub drained: bool,
    /// New fluid is in, or none is changed.
    pub filled: bool,
    /// Drained and not filled since.
    pub awaits_fill: bool,
    /// The sheet asks for another round.
    pub drains_again: bool,
    /// What is missing.
    pub short: Short,
    /// More than a litre above what came out and the margin.
    pub too_much: bool,
    /// The last look showed that it is low.
    pub needs_more: bool,
    /// It was topped up as often as the sheet allows.
    pub portions_done: bool,
    /// The port.
    pub port: Port,
    /// It became too hot with the port open.
    pub port_hot: bool,
    /// The engine stopped with the port open.
    pub stopped_open: bool,
    /// Only the first gush came where a stream was expected.
    pub gush: bool,
    /// The stream outlasts what was to be expected by far, or more was counted.
    pub endless: bool,
    /// It has circulated.
    pub circulated: bool,
    /// The last look set the level.
    pub set: bool,
    /// Plugs are tightened.
    pub torqued: bool,
    /// It was driven.
    pub driven: bool,
}

impl Situation {
    pub(crate) fn of(core: &Core, now: Mono, verdict: &VerdictNow) -> Self {
        let Some(record) = &core.record else {
            return Self { alarm: core.alarm, verdict: verdict.verdict, ..Self::default() };
        };
        let mut s = Self { alarm: core.alarm, verdict: verdict.verdict, ..Self::default() };
        s.stage = match &record.result {
            None => Stage::Running,
            Some(r) if matches!(r.outcome, Outcome::Set | Outcome::SetUnsure | Outcome::Checked) => {
                Stage::Right
            }
            Some(_) => Stage::Ended,
        };
        s.sheet(record);
        s.people(record, core, now);
        s.machine(record, core, now, verdict);
        s.fluid(record);
        s.port(record, now);
        s
    }

    fn sheet(&mut self, record: &Record) {
        let (sheet, level) = (&record.sheet, &record.sheet.level);
        self.alone = record.hands.alone;
        self.changes = record.changes() || record.has(Kind::Drained);
        self.check = record.hands.task == Task::Check;
        self.pipe = level.rim == Rim::Pipe && level.sump_opens() == SumpOpens::Pipe;
        self.upper_port = level.fill_from == FillFrom::UpperPort;
        self.pin = sheet.before.cooler_bypass;
        self.selector = sheet.before.selector.is_some();
        self.wheels = sheet.stand.on == On::Wheels;
        self.at_will = level.drive == Drive::EngineAtWill;
        self.no_engine = level.drive == Drive::None;
        self.access = !sheet.access.is_empty();
        self.wheel_off = record.wheel_off;
        let order = procedure::order_of(sheet);
        let place = |step: Step| order.iter().position(|s| *s == step);
        self.drains_first = place(Step::Drain) < place(Step::Prepare);
    }

    fn people(&mut self, record: &Record, core: &Core, now: Mono) {
        let hands = &record.hands;
        let holds = |p: Precondition| record.holds(p);
        self.stands = holds(Precondition::OnStands) && !hands.lowered;
        self.lowered = hands.lowered;
        self.level = holds(Precondition::VehicleLevel);
        self.level_refused = hands.tilted.is_some() || (record.level.is_some() && !self.level);
        self.exhaust = holds(Precondition::ExhaustOutside);
        self.exhaust_due = hands.exhaust_due(record.idled_ms(now), record.sheet.stop.idle_min);
        self.parked = holds(Precondition::Parked);
        self.moving = hands.moving;
        self.clear = hands.clear(now);
        self.brake = !self.selector || holds(Precondition::BrakeHeld);
        self.cycled = !self.selector || holds(Precondition::SelectorCycled);
        self.fill_port = holds(Precondition::FillPortOpen);
        self.fluid_right = holds(Precondition::FluidRight);
        self.wrong_in = hands.wrong_in;
        self.pipe_in = holds(Precondition::PipeIn);
        self.closed_up = holds(Precondition::ClosedUp);
        self.pin_in = holds(Precondition::CoolerBypass);
        self.pin_out = holds(Precondition::BypassOut);
        self.no_leak = holds(Precondition::NoLeak);
        self.leak = hands.leak.is_some();
        self.refitted = holds(Precondition::Refitted);
        self.mode_on = holds(Precondition::ModeOn);
        self.ready_off = holds(Precondition::ReadyOff);
        self.wet = hands.wet;
        self.no_drive = hands.no_drive;
        let runs = core.live.engine(now, &record.sheet) == Engine::Running;
        self.silent_below = runs && hands.silent_below(now, record.port_open());
    }

    fn machine(&mut self, record: &Record, core: &Core, now: Mono, verdict: &VerdictNow) {
        let live = &core.live;
        let engine = live.engine(now, &record.sheet);
        self.motor = match engine {
            Engine::Unknown => Motor::Unknown,
            Engine::Stopped => Motor::Stopped,
            Engine::Running => Motor::Running,
        };
        self.ignition_off = live.silent;
        self.overheating = record.said.stops.contains(&Caution::Overheating);
        self.low_volts = record.said.stops.contains(&Caution::LowVoltage);
        let typed = verdict.estimate.filter(|_| record.sheet.check.signal.is_typed()).map(|e| e.celsius);
        self.hot = live.fluid_now(now).or(typed).is_some_and(|t| t.to_f64() > DRAIN_AT_MOST_C);
        self.warm = record.cold == Some(false)
            || (record.cold.is_none() && engine == Engine::Stopped && live.cold(now) == Cold::Disagree);
        self.warm &= record.needs(Precondition::StartedCold) && !record.holds(Precondition::StartedCold);
        let waits_for_the_engine = record.round.is_none() && !record.circulated;
        self.no_signal =
            !verdict.link_up || (verdict.reasons.iter().any(|r| r.is_blind()) && !waits_for_the_engine);
        self.typed = verdict.link_up && record.sheet.check.signal.is_typed();
        // Which of two control units is right, a thermometer tells as well as whether a sensor is.
        // A slow start keeps a sound sensor still for a while, and beside the coolant's.
        let slow = record.idled_ms(now) < SLOW_START_MS;
        let counts = |r: Reason| match r {
            Reason::NotAlive => false,
            Reason::CopiesCoolant => !slow,
            Reason::UnitsDisagree => true,
            r => is_doubt(r),
        };
        let doubts = |r: &Reason| counts(*r);
        self.doubt = verdict.reasons.iter().any(doubts);
        self.open = record.is_open(live, now);
        self.soon = soon(core, verdict);
        self.people = live.people;
        let cold = Precondition::StartedCold;
        self.cold_untold = live.people && record.needs(cold) && !record.holds(cold);
        // Nothing but words stands between this moment and `go`.
        let words = |r: &Reason| matches!(r, Reason::InBand | Reason::PreconditionOpen | Reason::Hysteresis);
        let near = self.soon || verdict.reasons.iter().all(words);
        let open = record.port_open();
        self.ask_engine =
            live.asks_engine(now) && (open || (near && engine == Engine::Running && record.circulated));
        self.engine_silent = open && live.engine_silent(now);
    }

    fn fluid(&mut self, record: &Record) {
        self.drained = record.drained();
        self.filled = record.filled();
        self.awaits_fill = record.awaits_fill();
        self.drains_again = record.drains_again();
        let (short, margin) = (record.short_ml(), record.sheet.fluid.margin_ml);
        self.short = if short <= 0.0 {
            Short::No
        } else if short <= VESSELS_ML {
            Short::Vessels
        } else if short <= margin {
            Short::Some
        } else {
            Short::Much
        };
        self.too_much = record.too_much_in();
        self.needs_more = record.needs_more();
        self.portions_done = record.hands.top_ups >= record.sheet.fluid.portions;
        self.circulated = record.circulated;
        self.set = record.is_set();
        (self.torqued, self.driven) = (record.torqued, record.test_driven);
    }

    fn port(&mut self, record: &Record, now: Mono) {
        self.endless = record.ran_out_too_much();
        self.gush = record.only_a_gush();
        let Some(round) = record.round.as_ref().filter(|r| r.is_open()) else { return };
        self.port = match round.stream {
            Stream::Nothing if round.looked.is_go() => Port::Nothing,
            Stream::Flows if round.gush => Port::Gush,
            Stream::Flows if round.trickle.is_some() => Port::Trickle,
            Stream::Flows if round.flowed_at_go() => Port::Stream,
            _ => Port::Early,
        };
        self.port_hot = round.too_hot.is_some();
        self.stopped_open =
            round.ran == Ran::Stopped || (round.ran == Ran::Unproven && self.motor == Motor::Stopped);
        self.endless |= round.trickle.is_none() && run_out::endless_at(round).is_some_and(|at| now >= at);
    }

    /// Nothing ran out though as much was filled as the sheet allows, or far more than can be missing: it runs somewhere else,
    /// or it is another plug.
    pub(crate) const fn stays_low(&self) -> bool {
        (self.needs_more || matches!(self.port, Port::Nothing)) && (self.portions_done || self.too_much)
    }

    /// Whether it was looked at the right moment and is seen now: then a lost signal closes the port.
    pub(crate) const fn was_at_go(&self) -> bool {
        matches!(self.port, Port::Stream | Port::Nothing)
    }
}

/// Whether the window is so near that the technician belongs under the vehicle. Once it is, it stays so a little
/// longer, for nobody crawls in and out as a forecast trembles.
fn soon(core: &Core, verdict: &VerdictNow) -> bool {
    let holding = verdict.reasons.contains(&Reason::Hysteresis);
    let was = core.advised.is_some_and(|said| said.advice == events::Advice::BeReady);
    let ready = if was { 2.0 * READY_S } else { READY_S };
    let opens = verdict.forecast.and_then(|f| f.opens_in);
    holding || opens.is_some_and(|o| o.low <= ready)
}

/// So long before the window somebody should be under the vehicle, in seconds: gloves, lamp, tray (own choice).
const READY_S: f64 = 60.0;
/// Fluid above this burns (from memory).
const DRAIN_AT_MOST_C: f64 = 60.0;
/// What two vessels may be wrong by together (own choice).
pub(crate) const VESSELS_ML: f64 = 70.0;
