//! The situation: all that advice and guard rest on, at one moment, as plain values.
//!
//! In: the folded state, the time, the verdict. Out: [`Situation`], small enough to be searched through. Not here: what is
//! said (`acts.rs`), what would harm (`guard.rs`).

use events::{
    Advice, Alarm, Caution, Drive, FillFrom, Leak, On, Precondition, Reason, Rim, Step, SumpOpens, Task,
    Verdict,
};
use units::Mono;

use crate::advice::procedure;
use crate::live::{Cold, Engine};
use crate::port::gauge::{Gauge, Shows};
use crate::port::looks::Settled;
use crate::port::round::{Ran, Stream};
use crate::port::run_out;
use crate::record::{Record, SLOW_START_MS};
use crate::state::{Core, VerdictNow};
use crate::told::hands::Clear;
use crate::told::ledger::{Kind, VESSELS_ML};

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
    /// Nothing came yet, and drips are waited for.
    Dry,
    /// Something was put in through it, and nobody has looked since.
    Poured,
    /// It stands higher than it should.
    High,
}

/// A look with the engine off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum OffLook {
    /// The look in hand is another one, or something else comes first.
    #[default]
    No,
    /// The engine is to be stopped for it now.
    Stop,
    /// It is off, and the fluid settles.
    Settle,
    /// It is the time.
    Ready,
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
    /// The sheet: it is filled through the opening that is looked at.
    pub fills_there: bool,
    /// The sheet: there is no level to be seen.
    pub amount_only: bool,
    /// Which of the sheet's looks is in hand, from 0.
    pub look: u8,
    /// The look in hand: with the engine off.
    pub look_off: bool,
    /// The look in hand: it needs the engine neither running nor warm.
    pub no_run: bool,
    /// The look in hand: it asks for no temperature.
    pub no_band: bool,
    /// The look in hand: it is filled up to the edge for it.
    pub to_the_edge: bool,
    /// The look in hand: where the fluid stands.
    pub height: bool,

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
    /// The selector is to stand in another position for the look, and does not.
    pub position: bool,
    /// It has not settled yet, or its span is over.
    pub settling: bool,
    /// How far a look with the engine off is.
    pub off_look: OffLook,
    /// The fill port was opened.
    pub fill_port: bool,
    /// The container was read.
    pub fluid_right: bool,
    /// The wrong fluid is in.
    pub wrong_in: bool,
    /// The pipe is back.
    pub pipe_in: bool,
    /// So little came out that it may never have been out.
    pub little_out: bool,
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
    /// It stopped unasked before, after about as much idling as now.
    pub may_stop: bool,
    /// Coolant or fluid above the stop limit.
    pub overheating: bool,
    /// The battery is low.
    pub low_volts: bool,
    /// The fluid would burn who drains it.
    pub hot: bool,
    /// It did not start cold.
    pub warm: bool,
    /// Stopped because it was too hot, and not cool enough yet.
    pub cooling: bool,
    /// May the port be open?
    pub verdict: Verdict,
    /// There is no adapter: everything is told by people.
    pub people: bool,
    /// The word on the engine is to be told again now.
    pub ask_engine: bool,
    /// Nobody has told it in time.
    pub engine_silent: bool,
    /// The one inside reads the temperature: a display, or a lamp.
    pub reads_inside: bool,
    /// He is to read it again now.
    pub ask_inside: bool,
    /// The sheet: the check goes by the vehicle's own lamp.
    pub lamp: bool,
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
    /// Fluid ran out at the port, and nobody has said how much.
    pub jug_due: bool,
    /// The last look showed that it is low.
    pub needs_more: bool,
    /// After the last look an amount is still to be filled.
    pub to_add: bool,
    /// A look with the engine off has counted since the drain.
    pub rim_seen: bool,
    /// The stated amount is not in it, as far as told: too little, too much.
    pub amount_low: bool,
    /// See before.
    pub amount_high: bool,
    /// It was topped up as often as the sheet allows.
    pub portions_done: bool,
    /// The port.
    pub port: Port,
    /// It became too hot with the port open.
    pub port_hot: bool,
    /// It was opened a little early, as its look allows.
    pub early_well: bool,
    /// The engine stopped with the port open.
    pub stopped_open: bool,
    /// Only the first gush came where a stream was expected.
    pub gush: bool,
    /// The stream outlasts what was to be expected by far, or more was counted.
    pub endless: bool,
    /// The level is read on a gauge.
    pub gauge: bool,
    /// So many of its readings stand.
    pub reads: u8,
    /// And they are not enough.
    pub again: bool,
    /// It shows too much.
    pub reads_high: bool,
    /// It has circulated.
    pub circulated: bool,
    /// The last look set the level.
    pub set: bool,
    /// Plugs are tightened.
    pub torqued: bool,
    /// It was driven.
    pub driven: bool,
    /// It was driven before the look that came again after it.
    pub drove: bool,
}

impl Situation {
    pub(crate) fn of(core: &Core, now: Mono, verdict: &VerdictNow) -> Self {
        let Some(record) = &core.record else {
            return Self { alarm: core.alarm, verdict: verdict.verdict, ..Self::default() };
        };
        let mut s = Self { alarm: core.alarm, verdict: verdict.verdict, ..Self::default() };
        s.stage = match &record.result {
            None => Stage::Running,
            Some(r) if r.outcome.is_right() => Stage::Right,
            Some(_) => Stage::Ended,
        };
        s.sheet(record);
        s.people(record, core, now);
        s.machine(record, core, now, verdict);
        s.fluid(record);
        s.port(record, now);
        s.look(record, now, verdict);
        s
    }

    fn look(&mut self, record: &Record, now: Mono, verdict: &VerdictNow) {
        let look = record.look();
        self.fills_there = record.fills_there();
        self.amount_only = record.amount_only();
        self.look = u8::try_from(record.looks.done).unwrap_or(u8::MAX);
        self.look_off = !look.idles() && !self.amount_only;
        self.no_run = !record.needs_engine();
        self.no_band = !look.is_gated();
        self.to_the_edge = record.fills_to_the_edge();
        self.height = look.reads_a_height();
        self.gauge = record.reads_a_gauge();
        let readings = record.port.round.as_ref().and_then(|r| r.gauge.as_ref());
        self.reads = readings.map_or(0, Gauge::count);
        self.again = self.reads > 0 && !record.refilled() && !record.is_set();
        self.reads_high = record.gauge_shows() == Shows::High;
        let position = Precondition::InPosition;
        self.position = record.needs(position) && !record.holds(position);
        let settled = record.settled(now);
        self.settling = settled != Settled::Yes;
        self.to_add = record.looks.to_add_ml.is_some();
        self.rim_seen = record.looks.rim_seen && !self.to_add;
        if self.amount_only {
            let off = record.amount_off().map_or(0.0, |(ml, _)| ml);
            let tolerance = record.sheet.check.tolerance_ml;
            (self.amount_low, self.amount_high) = (off < -tolerance, off > tolerance);
        }
        let fluid_in = self.filled && !self.awaits_fill && !self.needs_more && !self.to_add;
        if !self.look_off || !fluid_in || self.set {
            return;
        }
        // Warm first, where the look waits for the temperature.
        let against = |r: &Reason| !r.passes();
        let in_band = verdict.verdict == Verdict::Go || !verdict.reasons.iter().any(against);
        let warm = self.no_run || (self.circulated && self.cycled && in_band);
        self.off_look = match (self.motor, settled) {
            _ if !warm => OffLook::No,
            // At the very edge it would fall out of the band before it has settled.
            (Motor::Running, _) if self.no_run || deep(record, verdict, STOPS_FROM) => OffLook::Stop,
            (Motor::Running, _) => OffLook::No,
            (_, Settled::Yes) => OffLook::Ready,
            (_, Settled::NotYet) => OffLook::Settle,
            // The span is over: it is run and stopped once more, where it must be warm; else it has only settled better.
            (_, Settled::Over) => OffLook::No,
        };
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
        self.level = holds(Precondition::VehicleLevel) || !record.needs(Precondition::VehicleLevel);
        self.level_refused = hands.tilted.is_some() || (record.level.is_some() && !self.level);
        self.exhaust = holds(Precondition::ExhaustOutside) || !record.needs(Precondition::ExhaustOutside);
        self.exhaust_due = hands.exhaust_due(record.idled_ms(now), record.sheet.stop.idle_min);
        self.parked = holds(Precondition::Parked);
        self.moving = hands.moving;
        self.clear = hands.clear(now);
        self.brake = !self.selector || holds(Precondition::BrakeHeld);
        self.cycled = !record.needs(Precondition::SelectorCycled) || holds(Precondition::SelectorCycled);
        self.fill_port = holds(Precondition::FillPortOpen);
        self.fluid_right = holds(Precondition::FluidRight);
        self.wrong_in = hands.wrong_in;
        self.pipe_in = holds(Precondition::PipeIn);
        self.closed_up = holds(Precondition::ClosedUp);
        self.pin_in = holds(Precondition::CoolerBypass);
        self.pin_out = holds(Precondition::BypassOut);
        self.no_leak = holds(Precondition::NoLeak);
        // Damp is wiped and looked at again, not mended.
        self.leak = hands.leak.is_some_and(|how| how != Leak::Damp);
        self.refitted = holds(Precondition::Refitted);
        self.mode_on = holds(Precondition::ModeOn);
        self.ready_off = holds(Precondition::ReadyOff);
        self.wet = hands.wet;
        self.no_drive = hands.no_drive;
        let runs = core.live.engine(now, &record.sheet) == Engine::Running;
        self.may_stop = runs && hands.may_stop(record.idled_ms(now));
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
        self.overheating = record.said.stops.contains(Caution::Overheating);
        self.low_volts = record.said.stops.contains(Caution::LowVoltage);
        let typed = verdict.estimate.filter(|_| record.sheet.check.signal.is_typed()).map(|e| e.celsius);
        self.hot = live.fluid_now(now).or(typed).is_some_and(|t| t.to_f64() > DRAIN_AT_MOST_C);
        self.warm = record.motion.cold == Some(false)
            || (record.motion.cold.is_none()
                && engine == Engine::Stopped
                && live.cold(now, &record.sheet) == Cold::Disagree);
        self.warm &= record.needs(Precondition::StartedCold) && !record.holds(Precondition::StartedCold);
        // Stopped because it was too hot, it cools well into the band: with the engine the heat of converter and cooler comes back.
        let stopped_hot =
            core.advised.is_some_and(|said| said.at(events::Role::Inside) == Advice::StopAndCool);
        self.cooling =
            stopped_hot && engine != Engine::Running && deep(record, verdict, cools_to(record, now));
        let waits_for_the_engine = record.port.round.is_none() && !record.motion.circulated;
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
            r => r.is_doubt(),
        };
        let doubts = |r: &Reason| counts(*r);
        self.doubt = verdict.reasons.iter().any(doubts);
        self.open = record.is_open(live, now);
        self.soon = soon(core, verdict);
        self.people = live.people;
        let signal = record.sheet.check.signal;
        (self.reads_inside, self.lamp) = (signal.is_read_inside(), record.by_lamp());
        let again = verdict.forecast.and_then(|f| f.read_again_in);
        self.ask_inside = self.reads_inside && again.is_some_and(|seconds| seconds <= READ_AGAIN_S);
        let cold = Precondition::StartedCold;
        self.cold_untold = live.people && record.wants_cold() && !record.holds(cold);
        // Nothing but words stands between this moment and `go`.
        let near = self.soon || verdict.reasons.iter().all(|r| r.passes());
        let open = record.port_open();
        self.ask_engine = live.asks_engine(now)
            && (open || (near && engine == Engine::Running && record.motion.circulated));
        self.engine_silent = open && live.engine_silent(now);
    }

    fn fluid(&mut self, record: &Record) {
        self.drained = record.drained();
        self.filled = record.filled();
        self.awaits_fill = record.awaits_fill();
        self.little_out = record.little_out();
        self.drains_again = record.drains_again();
        let (short, margin) = (record.short_ml(), record.sheet.fluid.margin_ml);
        self.short = if short <= 0.0 {
            Short::No
        } else if short <= VESSELS_ML {
            Short::Vessels
        } else if short <= margin.max(record.sheet.fluid.portion_ml()) {
            Short::Some
        } else {
            Short::Much
        };
        self.too_much = record.too_much_in();
        self.jug_due = record.jug_due();
        self.needs_more = record.needs_more();
        self.portions_done = record.portions_done();
        self.circulated = record.motion.circulated;
        self.set = record.is_set();
        (self.torqued, self.driven) = (record.plugs.are_torqued(), record.plugs.are_driven());
        self.drove = record.looks.drove;
    }

    fn port(&mut self, record: &Record, now: Mono) {
        self.endless = record.ran_out_too_much();
        self.gush = record.only_a_gush();
        let Some(round) = record.port.round.as_ref().filter(|r| r.is_open()) else { return };
        self.port = match round.stream {
            Stream::Nothing if round.looked.is_go() => Port::Nothing,
            Stream::Dry if round.opened_well() && round.too_hot.is_none() => Port::Dry,
            Stream::Dry if round.opened_well() => Port::Nothing,
            Stream::Poured => Port::Poured,
            Stream::Flows if round.gush => Port::Gush,
            Stream::Flows | Stream::Stands if round.trickle.is_some() => Port::Trickle,
            Stream::Flows if record.look().reads_a_height() => Port::High,
            Stream::Flows if round.flowed_at_go() => Port::Stream,
            _ => Port::Early,
        };
        self.early_well = round.opened_well() && !round.looked.is_go();
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
        matches!(self.port, Port::Stream | Port::Nothing | Port::Dry | Port::Poured)
    }
}

/// Whether the estimate lies in the band, or above it, from a share of it on.
fn deep(record: &Record, verdict: &VerdictNow, share: f64) -> bool {
    let check = &record.sheet.check;
    let (low, high) = (check.low().to_f64(), check.high().to_f64());
    verdict.estimate.is_some_and(|e| e.celsius.to_f64() >= low + share * (high - low))
}

/// To which share of the band it cools before the engine is started again.
fn cools_to(record: &Record, now: Mono) -> f64 {
    let waited = record.cooled_at().is_some_and(|at| now >= at);
    if record.sheet.check.signal.is_typed() && !waited { COOLS_TO_TYPED } else { COOLS_TO }
}

/// So deep into the band it cools before the engine is started again, as a share of it from the low edge.
/// Own choice: colder, and the band is met again only after a whole warm-up; warmer, and the look begins too late in
/// it.
const COOLS_TO: f64 = 0.25;
/// The same by a thermometer, whose guard leaves the middle of the band only.
/// Source: measured on the rehearsal's vehicles: a restart brings 4 K within the 90 s of mixing. From a quarter of the band 10 of 24 jobs
/// were never set, from its low edge 2, from here none.
const COOLS_TO_TYPED: f64 = -0.15;
/// From this share of the band on the engine is stopped for a look with the engine off.
/// Own choice: fluid and coolant still move apart after a stop; from the middle both ways out of the band are as long.
const STOPS_FROM: f64 = 0.5;
/// Whether the window is so near that the technician belongs under the vehicle. Once it is, it stays so a little
/// longer, for nobody crawls in and out as a forecast trembles.
fn soon(core: &Core, verdict: &VerdictNow) -> bool {
    let holding = verdict.reasons.contains(&Reason::Hysteresis);
    let was = core.advised.is_some_and(|said| said.advice == events::Advice::BeReady);
    let ready = if was { 2.0 * READY_S } else { READY_S };
    let opens = verdict.forecast.and_then(|f| f.opens_in);
    holding || opens.is_some_and(|o| o.low <= ready)
}

/// So long before the last word on display or lamp says no more the next one is asked for, in seconds.
/// Own choice: a person needs some seconds to look and to tell; earlier would ask twice for the same word.
const READ_AGAIN_S: f64 = 30.0;
/// So long before the window somebody should be under the vehicle, in seconds.
/// Own choice: gloves, lamp and tray take that; longer keeps a person below for nothing.
const READY_S: f64 = 60.0;
/// Fluid above this burns.
/// Source: fixtures/reference/trade/hazards.csv, row `hot-drain`: fluid above this burns, from memory.
const DRAIN_AT_MOST_C: f64 = 60.0;
