//! The work itself: one task after the other, each a few lines, each returns how many seconds it takes.
//!
//! In: the time, the vehicle, what the eyes saw. Out: the next [`Task`], tells and deeds.
//! The good order is that of the procedure; a [`Mistake`] bends it at the places that name it.

use std::time::Duration;

use events::{Advice, People, Precondition, Question, Refusal, Request, Signal, Verdict};
use units::{Millilitres, Mono};

use super::Technician;
use crate::mistake::Mistake;
use crate::world::{Plug, World};

/// What he is about to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Task {
    /// Does what he is told, whatever it is.
    Obey,
    Begin,
    Raise,
    Level,
    Ventilate,
    Drain,
    Fill,
    Pin,
    /// Opens the check port where it is not the time.
    OpenCold,
    /// Plugs in by hand, tray away, out from below; then the engine starts.
    ComeOut,
    Ignite,
    HoldBrake,
    Shift {
        round: u32,
        place: usize,
    },
    AwaitGo,
    /// The one inside had stopped the engine.
    StartAgain,
    Open,
    LookForStream {
        since: Mono,
    },
    Watch,
    /// Something else is more important than the stream.
    LookAway,
    Close,
    TopUp,
    CoolDown {
        since: Mono,
    },
    /// The engine stops, the jug is read.
    Measure,
    Tighten,
    /// Wipes it dry and comes out, for the look with the engine idling.
    Wipe,
    LookForLeaks,
    /// Out again, tools too, before it is lowered.
    Lower,
    Drive,
    Return,
    Finish,
    /// `done` was told: was it taken?
    Leave,
    Gone,
}

impl Task {
    /// He lies under the vehicle, or has a hand there, until it is done.
    pub(super) const fn is_below(self) -> bool {
        matches!(
            self,
            Self::Drain
                | Self::Pin
                | Self::OpenCold
                | Self::ComeOut
                | Self::Open
                | Self::LookForStream { .. }
                | Self::Watch
                | Self::LookAway
                | Self::Close
                | Self::Measure
                | Self::Tighten
                | Self::Wipe
                | Self::Lower
        )
    }
}

/// What he keeps in mind.
#[derive(Debug, Clone, Default)]
pub(super) struct Book {
    pub(super) raised: bool,
    /// Where he was sent by what he was told.
    pub(super) below: bool,
    /// What he did last because he was told, and when.
    pub(super) obeyed: Option<(Advice, Mono)>,
    /// The port is open, and he looks what comes.
    pub(super) looks_since: Option<Mono>,
    /// And he has not said yet that it is open.
    pub(super) untold: bool,
    pub(super) flows_since: Option<Mono>,
    /// It has run for longer than a gush since the last fill.
    pub(super) ran_on: bool,
    /// The engine idles for the look for leaks.
    pub(super) idles_since: Option<Mono>,
    /// How much of what was caught he has told, mL.
    pub(super) jug_read: f64,
    pub(super) stayed: bool,
    /// The one inside has stopped the engine once.
    pub(super) stopped: bool,
    pub(super) drained: f64,
    pub(super) drains: u32,
    pub(super) did: Vec<Precondition>,
    pub(super) since_go_awaited: Option<Mono>,
    pub(super) reacts: Option<Mono>,
    pub(super) unplugged: Option<(Mono, Plug)>,
    pub(super) spot_due: Option<Mono>,
    /// When he confirmed what the search found.
    pub(super) confirmed: Option<Mono>,
    pub(super) reminded: Option<Mono>,
    /// By how much the sensor behind display or lamp is off, K.
    pub(super) sensor_off: f64,
    /// When the helper told last what the engine does.
    pub(super) answered: Option<Mono>,
    pub(super) stream_before: Vec<f64>,
    pub(super) levelled: u32,
    pub(super) topped_up: u32,
    pub(super) opened: u32,
    /// The port that was opened last: nothing ran out.
    pub(super) nothing_came: bool,
    pub(super) trickled: bool,
    pub(super) gave_up: bool,
    pub(super) cold_opening: bool,
    /// What he was asked beside the work, and has answered.
    pub(super) questions: Vec<Question>,
}

impl Technician {
    /// Does the task in hand; returns the seconds until the next.
    pub(super) fn work(&mut self, now: Mono, world: &mut World) -> f64 {
        match self.task {
            Task::Obey => self.obey(now, world),
            Task::Begin => self.begin(),
            Task::Raise => self.raise(),
            Task::Level => self.level(world),
            Task::Ventilate => self.ventilate(),
            Task::Drain => self.drain(world),
            Task::Fill => self.fill(world),
            Task::Pin => self.pin(world),
            Task::OpenCold => self.open_cold(now, world),
            Task::ComeOut => self.come_out(),
            Task::Ignite => self.ignite(world),
            Task::HoldBrake => self.hold_brake(),
            Task::Shift { round, place } => self.shift(round, place, now, world),
            Task::AwaitGo => self.await_go(now, world),
            Task::StartAgain => self.start_again(world),
            Task::Open => self.open(now, world),
            Task::LookForStream { since } => self.look_for_stream(since, now, world),
            Task::Watch => self.watch(now, world),
            Task::LookAway => self.look_away(now),
            Task::Close => self.close(world),
            Task::TopUp => self.top_up(world),
            Task::CoolDown { since } => self.cool_down(since, now, world),
            Task::Measure => self.measure(world),
            Task::Tighten => self.tighten(),
            Task::Wipe => self.wipe(world),
            Task::LookForLeaks => self.look_for_leaks(world),
            Task::Lower => self.lower(),
            Task::Drive => self.drive(world),
            Task::Return => self.come_back(world),
            Task::Finish => self.finish(),
            Task::Leave => self.leave(),
            Task::Gone => 60.0,
        }
    }

    /// He has been here too long: closes up and ends it.
    pub(super) fn lose_patience(&mut self, world: &mut World) {
        if self.book.gave_up || matches!(self.task, Task::Finish | Task::Leave | Task::Gone) {
            return;
        }
        self.book.gave_up = true;
        self.note("has waited long enough and ends the job");
        world.plug_adapter(Plug::In);
        if self.book.opened > 0 && world.check_port() == crate::sump::Port::Open {
            world.close_check_port();
            self.tell(Request::Closed);
        }
        world.stop_engine();
        self.tell_engine(world);
        self.task = Task::Finish;
    }

    pub(super) fn begin(&mut self) -> f64 {
        self.note("starts the job");
        let people = if self.script.alone { People::One } else { People::Two };
        let start = Request::Start { job: self.script.job, people };
        self.tell(self.script.recheck_of.map_or(start, |of| Request::Recheck { of }));
        self.then(Task::Raise, 60.0)
    }

    fn raise(&mut self) -> f64 {
        self.note("puts the vehicle on four stands");
        self.book.raised = true;
        self.confirm(Precondition::OnStands);
        self.confirm(Precondition::Parked);
        self.then(Task::Level, 40.0)
    }

    fn level(&mut self, world: &mut World) -> f64 {
        if self.refused_for("level", Refusal::NotLevel) {
            if self.script.mistake == Some(Mistake::NotLevel) {
                self.note("leaves it as it stands");
                return self.then(Task::Ventilate, 10.0);
            }
            let better = (self.dice.within(0.15), self.dice.within(0.15));
            world.stand(better.0, better.1);
            self.note("levels the vehicle");
        } else if self.book.levelled > 0 {
            return self.then(Task::Ventilate, 5.0);
        }
        if self.book.levelled >= 3 {
            return self.then(Task::Ventilate, 5.0);
        }
        self.book.levelled += 1;
        self.measures_the_stand(world);
        self.takes(30.0)
    }

    fn ventilate(&mut self) -> f64 {
        if self.script.mistake == Some(Mistake::HoseForgotten) {
            self.note("forgets the exhaust hose");
        } else {
            self.lead_the_exhaust();
        }
        let cold = self.script.mistake != Some(Mistake::StartedHot) && self.sheet.before.started_cold;
        if self.script.people && cold {
            self.note("feels the pan: it is as cold as the air");
            self.confirm(Precondition::StartedCold);
        }
        if self.script.changes() {
            self.confirm(Precondition::FluidRight);
            self.confirm(Precondition::FillPortOpen);
            return self.then(Task::Drain, 200.0);
        }
        if self.script.job == events::Task::Check {
            // It must be possible to fill before it is known whether it has to be.
            self.note("loosens the fill port");
            self.confirm(Precondition::FillPortOpen);
        }
        let next = if self.sheet.before.cooler_bypass { Task::Pin } else { Task::ComeOut };
        self.then(next, 60.0)
    }

    fn drain(&mut self, world: &mut World) -> f64 {
        let share = if self.script.mistake == Some(Mistake::DrainedNotFully) { 0.75 } else { 1.0 };
        let celsius = self.thermometer(world.fluid_celsius());
        let out = self.jug(world.drain(share));
        self.book.drained = out;
        self.book.drains += 1;
        self.note(&format!("opens the fill port, drains {out:.0} mL"));
        self.tell(Request::Drained { millilitres: Millilitres::clamped(out), celsius: Some(celsius) });
        self.confirm(Precondition::PipeIn);
        self.then(Task::Fill, 150.0)
    }

    fn fill(&mut self, world: &mut World) -> f64 {
        // The margin goes in with the last round only.
        let last = self.book.drains >= self.sheet.fluid.exchanges;
        let margin = if last { self.sheet.fluid.margin_ml } else { 0.0 };
        let wanted = self.book.drained + margin;
        let wanted = (wanted / 10.0).round() * 10.0;
        let missing = match self.script.mistake {
            Some(Mistake::UnderFilled) if last => {
                self.sheet.fluid.margin_ml + self.dice.between(250.0, 500.0)
            }
            _ => 0.0,
        };
        let celsius = world.vehicle().air_celsius;
        let really = (wanted - missing - self.dice.within(self.script.jug_ml)).max(0.0);
        world.fill(really, celsius);
        let shown = self.thermometer(celsius);
        self.note(&format!("fills {wanted:.0} mL"));
        self.tell(Request::Filled { millilitres: Millilitres::clamped(wanted), celsius: Some(shown) });
        let pins = self.sheet.before.cooler_bypass && self.book.drains <= 1;
        let next = if pins { Task::Pin } else { self.after_pin() };
        self.then(next, 30.0)
    }

    fn pin(&mut self, world: &mut World) -> f64 {
        if self.script.mistake == Some(Mistake::BypassNotPinned) {
            self.note("forgets the cooler bypass");
        } else {
            world.pin_bypass(Plug::In);
            self.note("pins the cooler bypass open");
            self.confirm(Precondition::CoolerBypass);
        }
        let next = self.after_pin();
        self.then(next, 40.0)
    }

    fn after_pin(&self) -> Task {
        if self.script.mistake == Some(Mistake::WrongOrder) { Task::OpenCold } else { Task::ComeOut }
    }

    fn open_cold(&mut self, now: Mono, world: &mut World) -> f64 {
        self.book.cold_opening = true;
        self.book.opened += 1;
        world.open_check_port();
        self.note("opens the check port, engine off");
        self.then(Task::LookForStream { since: now }, 2.0)
    }

    pub(super) fn lead_the_exhaust(&mut self) {
        self.note("leads the exhaust outside");
        self.confirm(Precondition::ExhaustOutside);
    }

    /// By what he is told to do, or by what is listed as open.
    fn is_reminded_of_the_hose(&self) -> bool {
        let told = matches!(self.eyes.advice, Some(Advice::LeadExhaust | Advice::PrepareVehicle))
            || self.eyes.open().contains(&Precondition::ExhaustOutside);
        told && !self.book.did.contains(&Precondition::ExhaustOutside)
    }

    fn come_out(&mut self) -> f64 {
        if self.script.mistake == Some(Mistake::StaysBelow)
            && !core::mem::replace(&mut self.book.stayed, true)
        {
            self.note("both plugs in by hand, tray away, stays below to look for his lamp");
            self.confirm(Precondition::ClosedUp);
            return self.takes(240.0);
        }
        self.note("both plugs in by hand, tray away, comes out");
        self.confirm(Precondition::ClosedUp);
        self.confirm(Precondition::Clear);
        self.then(Task::Ignite, 5.0)
    }

    fn ignite(&mut self, world: &mut World) -> f64 {
        if self.is_reminded_of_the_hose() {
            self.lead_the_exhaust();
            self.confirm(Precondition::Clear);
            return self.takes(40.0);
        }
        world.start_engine();
        self.note("starts the engine and lets it idle");
        self.tell_engine(world);
        self.then(Task::HoldBrake, 15.0)
    }

    fn hold_brake(&mut self) -> f64 {
        self.note("helper holds the brake");
        self.confirm(Precondition::BrakeHeld);
        let next = if self.sheet.before.selector.is_some() {
            Task::Shift { round: 0, place: 0 }
        } else {
            Task::AwaitGo
        };
        self.then(next, 5.0)
    }

    fn shift(&mut self, round: u32, place: usize, now: Mono, world: &mut World) -> f64 {
        let Some(selector) = self.sheet.before.selector.clone() else { return self.then(self.waits(), 1.0) };
        if round >= selector.rounds {
            world.move_selector(0, selector.positions.len());
            self.note("selector back at the first position");
            self.confirm(Precondition::SelectorCycled);
            if self.script.by_advice {
                return self.then(Task::Obey, 2.0);
            }
            if self.sheet.check.signal == Signal::Lamp {
                self.note("switches the service mode on");
                self.confirm(Precondition::ModeOn);
            }
            self.book.since_go_awaited = Some(now);
            return self.then(Task::AwaitGo, 2.0);
        }
        let last = place + 1 >= selector.positions.len();
        world.move_selector(place, selector.positions.len());
        if let Some(position) = selector.positions.get(place) {
            self.note(&format!("selector to {position}"));
        }
        self.task = if last {
            Task::Shift { round: round + 1, place: 0 }
        } else {
            Task::Shift { round, place: place + 1 }
        };
        f64::from(selector.dwell_s) + self.dice.between(0.2, 1.5)
    }

    /// What he goes on with when the rounds are done.
    const fn waits(&self) -> Task {
        if self.script.by_advice { Task::Obey } else { Task::AwaitGo }
    }

    /// The sheet asks for another round: engine off, and from the drain on again.
    fn drain_again(&mut self, world: &mut World) -> f64 {
        world.stop_engine();
        self.note("stops the engine to drain and fill once more");
        self.tell_engine(world);
        self.book.since_go_awaited = None;
        self.then(Task::Drain, 180.0)
    }

    fn start_again(&mut self, world: &mut World) -> f64 {
        world.start_engine();
        self.note("helper starts the engine again");
        self.tell_engine(world);
        self.then(Task::AwaitGo, 1.0)
    }

    fn await_go(&mut self, now: Mono, world: &mut World) -> f64 {
        if self.eyes.advice == Some(Advice::DrainAgain) {
            return self.drain_again(world);
        }
        if let Some(stop) = self.script.stop
            && world.fluid_celsius() >= stop.above
            && !core::mem::replace(&mut self.book.stopped, true)
        {
            world.stop_engine();
            self.note("helper stops the engine for a moment");
            self.tell_engine(world);
            return self.then(Task::StartAgain, stop.seconds);
        }
        let since = *self.book.since_go_awaited.get_or_insert(now);
        let waited = now.since(since).as_secs_f64();
        self.pull_the_adapter(waited, now, world);
        self.read_the_spot(now, world);
        self.answer(now, world);
        self.remind(now);
        if self.is_reminded_of_the_hose() {
            self.lead_the_exhaust();
        }
        if self.eyes.is(Verdict::TooHot) && self.script.mistake != Some(Mistake::OpenedLate) {
            return self.too_hot(now, world);
        }
        if waited > self.waits_at_most_s() {
            self.note("gives up waiting");
            return self.then(Task::Measure, 10.0);
        }
        let ready = match self.script.mistake {
            Some(Mistake::OpenedLate) => self.eyes.seconds_of(Verdict::TooHot, now).is_some_and(|s| s > 40.0),
            // What is timed to the band comes before he opens.
            _ => self.eyes.is(Verdict::Go) && (self.script.stop.is_none() || self.book.stopped),
        };
        if !ready {
            self.book.reacts = None;
            return 1.0;
        }
        let moment = self.dice.between(2.0, 8.0) * self.script.pace;
        let reacts =
            *self.book.reacts.get_or_insert(now.after(Duration::from_millis((moment * 1_000.0) as u64)));
        if now < reacts {
            return 1.0;
        }
        self.book.reacts = None;
        self.then(Task::Open, 0.5)
    }

    /// Too hot before the port was opened: the good one lets it cool, the others call it a day.
    fn too_hot(&mut self, now: Mono, world: &mut World) -> f64 {
        if self.script.mistake.is_some_and(|mistake| !mistake.recovers()) {
            if self.eyes.seconds_of(Verdict::TooHot, now).is_none_or(|s| s < 300.0) {
                return 1.0;
            }
            self.note("it stays too hot; ends the job for today");
            return self.then(Task::Measure, 10.0);
        }
        world.stop_engine();
        self.note("stops the engine and lets it cool");
        self.tell_engine(world);
        self.then(Task::CoolDown { since: now }, 30.0)
    }

    fn cool_down(&mut self, since: Mono, now: Mono, world: &mut World) -> f64 {
        self.read_the_spot(now, world);
        // Not only to the middle: with the engine the heat of converter and cooler comes back into the sump.
        let [low, high] = self.sheet.check.band_c;
        let below = low + COOLS_TO * (high - low);
        if self.eyes.celsius().is_some_and(|celsius| celsius < below) && !self.eyes.is(Verdict::TooHot) {
            self.note("it is cool enough: starts the engine again");
            self.book.since_go_awaited = None;
            // What drained back while the engine stood is filled again.
            return self.then(Task::ComeOut, 5.0);
        }
        if now.since(since) > Duration::from_secs(2_400) {
            self.note("it does not cool today; ends the job");
            return self.then(Task::Measure, 10.0);
        }
        10.0
    }

    fn open(&mut self, now: Mono, world: &mut World) -> f64 {
        world.open_check_port();
        self.book.opened += 1;
        self.book.stream_before.clear();
        self.book.nothing_came = false;
        self.note("opens the check port");
        self.then(Task::LookForStream { since: now }, 1.5)
    }

    fn look_for_stream(&mut self, since: Mono, now: Mono, world: &mut World) -> f64 {
        if world.stream_ml_min() > SEEN_ML_MIN {
            self.note("sees the stream");
            self.book.flows_since = Some(now);
            self.tell(Request::Flowing);
            let away = self.script.mistake == Some(Mistake::ClosedLate);
            return self.then(if away { Task::LookAway } else { Task::Watch }, 1.0);
        }
        if now.since(since) < Duration::from_secs(20) {
            return 1.0;
        }
        self.note("nothing comes");
        self.book.nothing_came = true;
        self.tell(Request::NothingFlows);
        self.then(Task::Close, 4.0)
    }

    fn watch(&mut self, now: Mono, world: &mut World) -> f64 {
        self.read_the_spot(now, world);
        self.answer(now, world);
        let cold = self.book.cold_opening;
        if self.script.mistake == Some(Mistake::HelperStops) && self.book.stream_before.len() == 5 {
            self.note("the helper stops the engine");
            world.stop_engine();
        }
        let minds = !cold && self.script.mistake != Some(Mistake::OpenedLate);
        if minds && self.advised_to_close() {
            self.note("closes the check port as advised");
            return self.then(Task::Close, 2.0);
        }
        let seen = world.stream_ml_min() * (1.0 + self.dice.within(0.1));
        let just = self.book.flows_since.is_some_and(|at| now.since(at) < GUSH_WITHIN);
        self.book.ran_on |= !just && !cold;
        // After a stream that was only closed for a while it is the rest of it.
        if seen < SEEN_ML_MIN && just && !cold && !self.book.ran_on {
            self.note("it was only a gush");
            self.book.nothing_came = true;
            self.tell(Request::NothingFlows);
            return self.then(Task::Close, 4.0);
        }
        if just && !cold && !self.book.ran_on {
            // What thins at once may still be the gush.
            return 1.0;
        }
        if !self.has_thinned(seen, self.script.trickle_ml_min) {
            return 1.0;
        }
        self.note("the stream has become a trickle");
        self.book.trickled = true;
        self.tell(Request::Trickle);
        self.then(Task::Close, 3.0)
    }

    /// The verdict or the advice says that the port must not stay open.
    fn advised_to_close(&self) -> bool {
        let advice = matches!(
            self.eyes.advice,
            Some(
                Advice::ClosePort
                    | Advice::ClosePortWait
                    | Advice::ClosePortCool
                    | Advice::StopAndCool
                    | Advice::ClosePortEngine
                    | Advice::CheckAdapter
            )
        );
        advice || !self.eyes.is(Verdict::Go)
    }

    /// He comes back a minute after it has become too hot.
    fn look_away(&mut self, now: Mono) -> f64 {
        if self.eyes.seconds_of(Verdict::TooHot, now).is_none_or(|s| s < 60.0) {
            return 2.0;
        }
        self.note("comes back: it drips");
        self.book.trickled = true;
        self.tell(Request::Trickle);
        self.then(Task::Close, 4.0)
    }

    fn close(&mut self, world: &mut World) -> f64 {
        world.close_check_port();
        self.note("closes the check port");
        self.tell(Request::Closed);
        if core::mem::take(&mut self.book.cold_opening) {
            self.book.trickled = false;
            return self.then(Task::ComeOut, 20.0);
        }
        let bad = self.script.mistake.is_some_and(|mistake| !mistake.recovers());
        if self.book.trickled || bad || self.book.opened >= 6 {
            return self.then(Task::Measure, 20.0);
        }
        if self.eyes.advice == Some(Advice::FillMore) || self.book.nothing_came {
            return self.then(Task::TopUp, 20.0);
        }
        self.then(Task::AwaitGo, 5.0)
    }

    fn top_up(&mut self, world: &mut World) -> f64 {
        if self.book.topped_up >= 3 {
            return self.then(Task::Measure, 10.0);
        }
        if !self.script.changes() && !self.book.did.contains(&Precondition::FluidRight) {
            // How much to fill is said once it is the right fluid.
            self.note("reads the container aloud");
            self.confirm(Precondition::FluidRight);
            return self.takes(10.0);
        }
        self.book.topped_up += 1;
        self.book.ran_on = false;
        let amount = self.eyes.portion_ml.unwrap_or(500.0);
        let celsius = world.vehicle().air_celsius;
        world.fill(amount - self.dice.within(self.script.jug_ml), celsius);
        let shown = self.thermometer(celsius);
        self.note(&format!("fills {amount:.0} mL more"));
        self.tell(Request::Filled { millilitres: Millilitres::clamped(amount), celsius: Some(shown) });
        self.then(Task::AwaitGo, 15.0)
    }
}

/// How far up in the band it may be when he starts the engine again, a share.
/// Own choice: colder than the job asks, so that its own limit is met first.
const COOLS_TO: f64 = 0.1;
/// What stops sooner than this was a gush.
/// Source: docs/procedure.md, the same number of the job.
pub(super) const GUSH_WITHIN: Duration = Duration::from_secs(15);
/// Less than this is nothing to see.
/// Own choice: a drop in two seconds.
pub(super) const SEEN_ML_MIN: f64 = 1.2;
