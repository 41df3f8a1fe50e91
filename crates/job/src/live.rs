//! What the vehicle shows right now: does the engine run, does it idle, does it stand, is it cold?
//!
//! In: readings and verdicts as they come. Out: answers as of a time that is passed in; what is not known is not
//! true. Everything here is forgotten at a boot, because the clock starts again. Not here: what follows from it.
//! The numbers stand at the bottom with their sources.

use core::time::Duration;
use std::sync::Arc;

use events::{EngineWord, Estimate, LinkChange, Measure, Precondition, Reading, Sheet, Verdict};
use units::{Celsius, KilometresPerHour, Millivolts, Mono, Rpm};

/// The newest readings, each with the time it was taken.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Live {
    pub(crate) verdict: Verdict,
    pub(crate) estimate: Option<Estimate>,
    /// The adapter answers and the vehicle does not: its ignition is off.
    pub(crate) silent: bool,
    /// The vehicle that the adapter is plugged into, by its identification number; `None` where it told none.
    pub(crate) vin: Option<Arc<str>>,
    /// There is no adapter: everything is told by people.
    pub(crate) people: bool,
    /// What was told of the engine then.
    told: Option<EngineTold>,
    rpm: Option<(Mono, Rpm)>,
    rpm_before: Option<(Mono, Rpm)>,
    speed: Option<(Mono, KilometresPerHour)>,
    run_time: Option<(Mono, u32)>,
    /// The same, only what was read since the engine was last seen to come or go.
    run_time_since: Option<(Mono, u32)>,
    coolant: Option<(Mono, Celsius)>,
    intake: Option<(Mono, Celsius)>,
    ambient: Option<(Mono, Celsius)>,
    fluid: Option<(Mono, Celsius)>,
    module_volts: Option<(Mono, Millivolts)>,
    adapter_volts: Option<(Mono, Millivolts)>,
}

impl Default for Live {
    fn default() -> Self {
        Self {
            verdict: Verdict::Wait,
            estimate: None,
            silent: false,
            vin: None,
            people: false,
            told: None,
            rpm: None,
            rpm_before: None,
            speed: None,
            run_time: None,
            run_time_since: None,
            coolant: None,
            intake: None,
            ambient: None,
            fluid: None,
            module_volts: None,
            adapter_volts: None,
        }
    }
}

/// The last word on the engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct EngineTold {
    what: EngineWord,
    at: Mono,
    rpm: Option<Rpm>,
}

/// What is known of the engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Engine {
    Unknown,
    Stopped,
    Running,
}

/// Do coolant, air and fluid agree?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cold {
    /// Readings are missing or too old.
    Unknown,
    /// They agree: the vehicle has stood long enough.
    Agree,
    /// They do not.
    Disagree,
}

impl Live {
    /// Takes a reading in that became an event at `mono`.
    pub(crate) fn take(&mut self, reading: &Reading, mono: Mono) {
        let at = Mono::from_millis(mono.as_millis().saturating_sub(u64::from(reading.age_ms)));
        match reading.measure {
            Measure::EngineSpeed(n) if self.rpm.is_none_or(|(old, _)| old <= at) => {
                self.rpm_before = self.rpm;
                self.rpm = Some((at, n));
            }
            Measure::VehicleSpeed(v) => newer(&mut self.speed, at, v),
            Measure::RunTime(s) => {
                newer(&mut self.run_time, at, s);
                newer(&mut self.run_time_since, at, s);
            }
            Measure::Coolant(t) => newer(&mut self.coolant, at, t),
            Measure::IntakeAir(t) => newer(&mut self.intake, at, t),
            Measure::AmbientAir(t) => newer(&mut self.ambient, at, t),
            Measure::Fluid(t) => newer(&mut self.fluid, at, t),
            Measure::ModuleVoltage(v) => newer(&mut self.module_volts, at, v),
            Measure::AdapterVoltage(v) => newer(&mut self.adapter_volts, at, v),
            Measure::EngineSpeed(_)
            | Measure::Spot(..)
            | Measure::Display(_)
            | Measure::Lamp(_)
            | Measure::Selector(_) => {}
        }
    }

    /// The vehicle itself shows the air outside.
    pub(crate) const fn shows_outside(&self) -> bool {
        self.ambient.is_some()
    }

    /// Nothing that was read counts; the verdict is the gate's own.
    pub(crate) fn forget(&mut self) {
        *self = Self { verdict: self.verdict, people: self.people, ..Self::default() };
    }

    /// Another vehicle may stand there: what was told of the last one's engine says nothing of it.
    pub(crate) const fn forget_told(&mut self) {
        self.told = None;
    }

    /// Takes a person's word on the engine, where there is no adapter.
    pub(crate) fn engine_told(&mut self, what: EngineWord, rpm: Option<Rpm>, at: Mono) {
        if self.people {
            self.told = Some(EngineTold { what, at, rpm });
        }
    }

    /// Takes a change of the link in: without it nothing is known of engine and wheels.
    pub(crate) fn link(&mut self, change: &LinkChange) {
        self.people |= *change == LinkChange::People;
        match change {
            LinkChange::VehicleSilent { .. } => self.silent = true,
            LinkChange::Quirk { .. }
            | LinkChange::Rate { .. }
            | LinkChange::Said { .. }
            | LinkChange::Trouble { .. } => {}
            _ => self.silent = false,
        }
        if change.ends_contact() {
            (self.rpm, self.rpm_before, self.speed, self.estimate) = (None, None, None, None);
            self.vin = None;
            self.forget_run_time();
        }
    }

    /// What is known of the engine.
    pub(crate) fn engine(&self, now: Mono, sheet: &Sheet) -> Engine {
        match fresh(self.rpm, now, FRESH) {
            // A told word holds until told otherwise.
            None => match self.told.map(|told| told.what) {
                None => Engine::Unknown,
                Some(EngineWord::Idling) => Engine::Running,
                Some(EngineWord::Stopped) => Engine::Stopped,
            },
            Some(n) if runs(n, sheet) => Engine::Running,
            Some(_) => Engine::Stopped,
        }
    }

    /// Whether the vehicle itself shows `precondition` now; false where it is not one of those it shows live.
    pub(crate) fn shows(&self, precondition: Precondition, now: Mono, sheet: &Sheet) -> bool {
        match precondition {
            Precondition::EngineRunning => self.engine(now, sheet) == Engine::Running,
            Precondition::EngineIdling if self.people => self.told_idling(sheet) && !self.engine_silent(now),
            Precondition::EngineIdling => self.idling(now, sheet),
            // With its ignition off nothing runs that could be read.
            Precondition::EngineOff => match self.engine(now, sheet) {
                Engine::Stopped => true,
                Engine::Running => false,
                Engine::Unknown => self.silent,
            },
            Precondition::StandingStill => fresh(self.speed, now, FRESH).is_some_and(|v| v.steps() == 0),
            _ => false,
        }
    }

    /// Idles within the range of the sheet; one single reading outside it is let pass while the engine runs.
    fn idling(&self, now: Mono, sheet: &Sheet) -> bool {
        let [low, high] = sheet.check.idle_rpm;
        let within = |n: Rpm| (i32::from(low)..=i32::from(high)).contains(&n.steps());
        match fresh(self.rpm, now, FRESH) {
            Some(n) if within(n) => true,
            Some(n) => runs(n, sheet) && fresh(self.rpm_before, now, FRESH).is_some_and(within),
            None => false,
        }
    }

    /// Told to idle, at a speed that the sheet allows where one was told; how long ago is another question.
    pub(crate) fn told_idling(&self, sheet: &Sheet) -> bool {
        let [low, high] = sheet.check.idle_rpm;
        let within = |n: Rpm| (i32::from(low)..=i32::from(high)).contains(&n.steps());
        self.told.is_some_and(|told| told.what == EngineWord::Idling && told.rpm.is_none_or(within))
    }

    /// Whether a person is to be asked what the engine does: the last word is a minute old, or there is none.
    pub(crate) fn asks_engine(&self, now: Mono) -> bool {
        let old = |told: EngineTold| told.what == EngineWord::Idling && now.since(told.at) >= ASK_AFTER;
        self.people && self.told.is_none_or(old)
    }

    /// Whether that was asked and nobody has answered in time.
    pub(crate) fn engine_silent(&self, now: Mono) -> bool {
        let old = |told: EngineTold| {
            told.what == EngineWord::Idling && now.since(told.at) >= ASK_AFTER + ANSWER_WITHIN
        };
        self.people && self.told.is_none_or(old)
    }

    /// When, after that moment, one of the two comes to be.
    pub(crate) fn engine_asked_at(&self, after: Mono) -> Option<Mono> {
        let told = self.told.filter(|told| told.what == EngineWord::Idling)?;
        let moments = [ASK_AFTER, ASK_AFTER + ANSWER_WITHIN].map(|span| told.at.after(span));
        moments.into_iter().find(|at| *at > after)
    }

    /// When the reading behind a live precondition grows too old.
    pub(crate) fn expires(&self, precondition: Precondition) -> Option<Mono> {
        let at = match precondition {
            Precondition::EngineRunning | Precondition::EngineIdling | Precondition::EngineOff => self.rpm?.0,
            Precondition::StandingStill => self.speed?.0,
            _ => return None,
        };
        Some(at.after(FRESH + Duration::from_millis(1)))
    }

    /// Whether the vehicle shows an air temperature at all, so that a cold start can be read and not only told.
    pub(crate) fn shows_air(&self) -> bool {
        self.coolant.is_some() && (self.intake.is_some() || self.ambient.is_some())
    }

    /// Whether coolant, air and, where it is read, the fluid agree now, and it is colder than the sheet lets it be started at.
    pub(crate) fn cold(&self, now: Mono, sheet: &Sheet) -> Cold {
        match (self.agree(now), sheet.check.start_below_c) {
            (Cold::Agree, Some(below)) => {
                let known = fresh(self.fluid, now, FRESH_SELDOM).or(fresh(self.coolant, now, FRESH_SELDOM));
                if known.is_some_and(|t| t.to_f64() < below) { Cold::Agree } else { Cold::Disagree }
            }
            (cold, _) => cold,
        }
    }

    fn agree(&self, now: Mono) -> Cold {
        let at = |reading| fresh(reading, now, FRESH_SELDOM);
        let (Some(coolant), airs) = (at(self.coolant), [at(self.intake), at(self.ambient)]) else {
            return Cold::Unknown;
        };
        if airs.iter().all(Option::is_none) {
            return Cold::Unknown;
        }
        let all = airs.into_iter().flatten().chain(at(self.fluid)).map(Celsius::steps);
        let (low, high) =
            all.fold((coolant.steps(), coolant.steps()), |(low, high), t| (low.min(t), high.max(t)));
        if high - low <= COLD_SPREAD_K * Celsius::PER_UNIT { Cold::Agree } else { Cold::Disagree }
    }

    /// The coolant, read not long ago.
    pub(crate) fn coolant_now(&self, now: Mono) -> Option<Celsius> {
        fresh(self.coolant, now, FRESH_SELDOM)
    }

    /// The fluid, read not long ago.
    pub(crate) fn fluid_now(&self, now: Mono) -> Option<Celsius> {
        fresh(self.fluid, now, FRESH_SELDOM)
    }

    /// The air, read not long ago.
    pub(crate) fn air_now(&self, now: Mono) -> Option<Celsius> {
        fresh(self.ambient, now, FRESH_SELDOM).or_else(|| fresh(self.intake, now, FRESH_SELDOM))
    }

    /// The voltage, read not long ago, in V: as the vehicle has it, else as the adapter does, which is often not adjusted.
    pub(crate) fn volts_now(&self, now: Mono) -> Option<f64> {
        let module = fresh(self.module_volts, now, FRESH_SELDOM);
        module.or_else(|| fresh(self.adapter_volts, now, FRESH_SELDOM)).map(|v| v.to_f64() / 1_000.0)
    }

    /// How long the engine has run by the vehicle's own count, in milliseconds, and when that was read.
    pub(crate) fn run_time(&self) -> Option<(Mono, u64)> {
        self.run_time_since.map(|(at, s)| (at, u64::from(s) * 1_000))
    }

    /// A run time that was read before the engine came or went proves nothing about what is after.
    pub(crate) fn forget_run_time(&mut self) {
        self.run_time_since = None;
    }

    /// Whether the engine is known to have run so long that agreement would prove nothing.
    pub(crate) fn ran_long(&self, now: Mono) -> bool {
        fresh(self.run_time, now, FRESH_SELDOM).is_some_and(|s| s > RAN_LONG_S)
    }
}

fn newer<T>(slot: &mut Option<(Mono, T)>, at: Mono, value: T) {
    if slot.as_ref().is_none_or(|(old, _)| *old <= at) {
        *slot = Some((at, value));
    }
}

fn fresh<T>(reading: Option<(Mono, T)>, now: Mono, within: Duration) -> Option<T> {
    reading.filter(|(at, _)| now.since(*at) <= within).map(|(_, value)| value)
}

fn runs(n: Rpm, sheet: &Sheet) -> bool {
    n.steps() >= RUNNING_RPM.min(i32::from(sheet.check.idle_rpm[0]))
}

/// Without an adapter the engine is asked for each minute at the open port, and before it is opened.
/// Own choice: oftener takes hands from the work; a stopped engine lets the level rise within minutes.
const ASK_AFTER: Duration = Duration::from_secs(60);
/// Who does not answer in so long says nothing, and the port is closed.
/// Own choice: a word takes some seconds with gloves on; longer leaves a port open with nobody who sees it.
const ANSWER_WITHIN: Duration = Duration::from_secs(20);
/// A live precondition rests on a reading no older than this.
/// Own choice: several polls of the slowest bus.
const FRESH: Duration = Duration::from_secs(5);
/// Temperatures for the cold start are polled seldom and move slowly.
/// Own choice: at 1.7 K/min they move by less than the spread that is allowed for.
const FRESH_SELDOM: Duration = Duration::from_secs(60);
/// Above this an engine runs by itself.
/// Source: from memory: a starter turns it at 150 to 300 1/min.
const RUNNING_RPM: i32 = 400;
/// Coolant, air and fluid of a vehicle that stood overnight agree within a few kelvins.
/// Source: from memory: sensors differ by 2 to 3 K each and the sun on one side adds some.
const COLD_SPREAD_K: i32 = 8;
/// After so many seconds coolant that still agrees with the air is no proof of a cold start but a doubtful sensor.
/// Own choice: within five minutes of running coolant has left the air by more than the spread.
const RAN_LONG_S: u32 = 300;
