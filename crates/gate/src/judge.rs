//! The gate: every reading goes in, a judgement comes out at every wake-up.
//!
//! In: [`Reading`]s, fault codes, losses of the link; at each wake-up the time and the open preconditions. Out:
//! [`Judgement`]: the verdict, all its reasons in order, the estimate and the forecast. Whatever is unknown is `wait`.
//! Not here: the parts it joins (`track`, `spot`, `copying`, `estimate`, `decide`, `forecast`).

use core::time::Duration;

use events::{Check, Estimate, Forecast, Measure, Precondition, Reading, Reason, Signal, Surface, Verdict};
use units::{Celsius, Kelvins, Mono, Rpm};

use crate::blend::{AHEAD, Blend};
use crate::copying::Copying;
use crate::decide::{Band, Hold, Place};
use crate::drive::Drive;
use crate::estimate::{self, Known};
use crate::lamp::LampSeen;
use crate::learned::{Learned, Ways};
use crate::limits::{CODES, CodeOf, Limits, SpotLimits};
use crate::nodes::{Cooler, Running};
use crate::spot::Spots;
use crate::track::{Engine, Proof, Track};
use crate::verdict::{ReasonSet, Reasons};
use crate::warming::{Warmed, Warming};
use crate::witnesses::Witnesses;

/// What the gate says at one instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// May the check port be open now?
    pub verdict: Verdict,
    /// Why, all of it; the reason to act on first. Exactly `[in-band]` for `go`.
    pub reasons: Reasons,
    /// The temperature of the signal now; absent where there is no evidence worth one.
    pub estimate: Option<Estimate>,
    /// What is to be expected; absent where nothing is worth promising.
    pub forecast: Option<Forecast>,
}

/// Turns readings and time into verdicts for one vehicle.
#[derive(Debug, Clone)]
pub struct Gate {
    pub(crate) signal: Signal,
    pub(crate) band: Band,
    limits: Limits,
    spot_limits: SpotLimits,
    pub(crate) track: Track,
    pub(crate) spots: Spots,
    lamp: LampSeen,
    copying: Copying,
    pub(crate) drive: Drive,
    pub(crate) learned: Learned,
    pub(crate) air: Option<f64>,
    /// The air under the vehicle as a thermometer has it.
    told_air: Option<f64>,
    /// Since when the engine has stood, and whether that was told to the track.
    stands: Option<(Mono, bool)>,
    /// What a person told last of the engine.
    told_runs: Option<bool>,
    /// When the fluid will have mixed, after the engine started or fluid was filled in.
    mixed_at: Option<Mono>,
    /// The coarser of the steps of fluid and coolant, K.
    coarse: f64,
    codes: Codes,
    /// When the link was lost, until a reading of the signal comes that is younger.
    lost: Option<Mono>,
    /// The newest reading of the signal was no temperature that can be.
    implausible: bool,
    /// Control units contradict each other about the signal.
    disputed: bool,
    pub(crate) place: Option<Place>,
    hold: Hold,
    pub(crate) witnesses: Witnesses,
    pub(crate) blend: Blend,
    pub(crate) warmed: Warmed,
    deadline: Option<Mono>,
}

#[derive(Debug, Clone, Copy, Default)]
struct Codes {
    sensor: bool,
    overheat: bool,
}

impl Gate {
    /// A gate for this check. `step`: the smallest step of the signal, where the sheet names one; a reading that names
    /// its own step goes before, and without either whole degrees are assumed (tenths for a thermometer).
    pub fn new(check: &Check, step: Option<Kelvins>) -> Self {
        let limits = Limits::of(check.signal);
        let spot_limits = SpotLimits::TYPED;
        let step = step.and_then(usable_step);
        let hold = match check.signal {
            Signal::Fluid | Signal::Coolant => Hold::new(limits.hold_for, limits.hold_readings),
            Signal::Spot | Signal::Display | Signal::Lamp => Hold::new(spot_limits.hold_for, 0),
        };
        Self {
            signal: check.signal,
            band: Band::new(check),
            limits,
            spot_limits,
            track: Track::new(limits, step.unwrap_or(limits.step_c)),
            spots: Spots::new(spot_limits, step.unwrap_or(spot_limits.step_c)),
            lamp: LampSeen::default(),
            copying: Copying::new(),
            drive: Drive::default(),
            learned: Learned::FITTED,
            air: None,
            told_air: None,
            stands: None,
            told_runs: None,
            mixed_at: None,
            coarse: limits.step_c,
            codes: Codes::default(),
            lost: None,
            implausible: false,
            disputed: false,
            place: None,
            hold,
            witnesses: Witnesses::new(check.signal, Cooler::Unknown),
            blend: Blend::new(),
            warmed: Warmed::new(None),
            deadline: None,
        }
    }

    /// The same gate for a vehicle whose way to the cooler is known.
    #[must_use]
    pub fn with_cooler(mut self, cooler: Cooler) -> Self {
        self.witnesses = Witnesses::new(self.signal, cooler);
        self
    }

    /// The same gate for a kind of vehicle that an earlier job has watched: its forecast knows it sooner. The verdict does not ask.
    #[must_use]
    pub fn with_warming(mut self, earlier: &Warming) -> Self {
        self.warmed = Warmed::new(Some(*earlier));
        self
    }

    /// How the vehicle warmed in this job; `None` before its identifier has turned some times.
    pub fn warming(&self) -> Option<Warming> {
        self.warmed.own()
    }

    /// Takes a reading in. Any quantity may come; the gate keeps what it needs. `at`: when it became known; the
    /// reading's own age is taken off.
    pub fn observe(&mut self, reading: &Reading, at: Mono) {
        let at = measured_at(reading, at);
        let step = reading.step.and_then(usable_step);
        match reading.measure {
            Measure::Fluid(t) => self.fluid(t.to_f64(), step, at),
            Measure::Coolant(t) => self.coolant(t.to_f64(), step, at),
            Measure::AmbientAir(t) => self.outside(t, at),
            Measure::IntakeAir(t) => {
                if let Some(t) = plausible_air(t) {
                    self.witnesses.both(|witness| witness.intake(at, t));
                }
            }
            Measure::Spot(t, Surface::Air) => self.air_under_vehicle(t, at),
            Measure::Spot(t, surface) => self.spot(t.to_f64(), surface, step, at),
            Measure::Display(t) => self.display(t.to_f64(), step, at),
            Measure::Lamp(state) => {
                self.lamp.take(at, state);
                self.hold.reading();
            }
            Measure::EngineSpeed(speed) => {
                self.drive.rpm(at, speed.to_f64());
                self.engine(speed > Rpm::LOWEST, at);
            }
            Measure::VehicleSpeed(speed) => self.drive.speed(at, speed.to_f64()),
            Measure::RunTime(seconds) => {
                self.witnesses.both(|witness| witness.run_time(f64::from(seconds)));
            }
            Measure::ModuleVoltage(_) | Measure::AdapterVoltage(_) | Measure::Selector(_) => {}
        }
    }

    /// Air into the engine, g/s, where a recording has it: the better measure of how hard the engine works.
    pub fn air_flow(&mut self, grams_s: f64, at: Mono) {
        if (0.0..=1_000.0).contains(&grams_s) {
            self.drive.air_flow(at, grams_s);
        }
    }

    /// The same gate with other learned rates: for fitting and scoring.
    #[must_use]
    pub fn with_learned(mut self, learned: Learned) -> Self {
        self.learned = learned;
        self
    }

    /// How the vehicle is driven, as the learned rates see it.
    pub fn ways(&self, now: Mono) -> Ways {
        self.learned.ways(self.drive.effort(), self.air, self.drive.climbed(now))
    }

    /// Fluid was filled in: another temperature than that of the sump, at a place where the sensor is not. Until it has mixed nothing that is
    /// read is the whole fluid's.
    pub fn fluid_added(&mut self, now: Mono) {
        let mixed = now.after(self.limits.fill_mixes_for);
        self.mixed_at = self.mixed_at.max(Some(mixed));
        self.track.poured(mixed);
        self.spots.mixed_anew(now);
    }

    /// The vehicle stores this fault code, as `P0712`. Codes that do not concern the gate change nothing.
    pub fn code_stored(&mut self, code: &str) {
        let known = CODES.iter().find(|(name, _)| name.eq_ignore_ascii_case(code.trim()));
        match (known.map(|&(_, of)| of), self.signal) {
            (Some(CodeOf::Overheat), _) => self.codes.overheat = true,
            (Some(CodeOf::FluidSensor), Signal::Fluid) | (Some(CodeOf::CoolantSensor), Signal::Coolant) => {
                self.codes.sensor = true;
            }
            _ => {}
        }
    }

    /// The vehicle was asked again and stores no code, or the list that follows replaces the one before.
    pub fn codes_cleared(&mut self) {
        self.codes = Codes::default();
    }

    /// The adapter or the vehicle does not answer any more: what is known is void until a fresh reading comes. The
    /// history of the signal is kept for its slope, unless the silence lasts.
    /// Typed readings do not come over the link and go on.
    pub fn link_lost(&mut self, now: Mono) {
        if !self.signal.is_typed() {
            self.lost = Some(now);
            self.hold.broken();
        }
    }

    /// Whether control units contradict each other about the signal: while they do, no value of it is worth anything.
    pub fn disputed(&mut self, disputed: bool) {
        self.disputed = disputed;
    }

    /// From now on the signal comes from another source: nothing that was seen of it proves the new one.
    pub fn source_changed(&mut self) {
        self.track = Track::new(self.limits, self.track.step());
        (self.implausible, self.place) = (false, None);
        self.hold.broken();
        self.blend.broken();
        self.warmed.broken();
    }

    /// The verdict at `now`. To be called at every wake-up: after readings, at [`Gate::next_deadline`], and whenever the
    /// open preconditions change.
    pub fn judge(&mut self, now: Mono, open: &[Precondition]) -> Judgement {
        let mut reasons = self.void(now);
        let worthless = !reasons.is_empty();
        self.doubts(now, &mut reasons);
        let known = if worthless { None } else { self.estimate(now) };
        let stale = self.stale(now);
        reasons.add_if(stale, Reason::Stale);
        self.witnesses.keep_up(now);
        let contradicted =
            known.is_some_and(|known| self.witnesses.contradict(known)) || self.other_lamp(now);
        reasons.add_if(contradicted, Reason::Disagrees);
        self.place = match self.signal {
            Signal::Lamp => self.lamp.place().filter(|_| !worthless),
            _ => known.map(|known| self.band.place(known, self.place)),
        };
        match self.place {
            Some(place) => place.reason().into_iter().for_each(|reason| reasons.add(reason)),
            None => reasons.add_if(reasons.is_empty(), Reason::TooUncertain),
        }
        if self.place != Some(Place::Above) && known.is_some() {
            reasons.add_if(self.frozen(now), Reason::Frozen);
        }
        reasons.add_if(!open.is_empty(), Reason::PreconditionOpen);
        let verdict = self.verdict(now, stale, &mut reasons);
        self.deadline = self.change_by_time(now, verdict);
        Judgement {
            verdict,
            reasons: reasons.listed(),
            estimate: known.map(|known| Estimate { fluid: self.witnesses.fluid(), ..known.to_event() }),
            forecast: known.and_then(|known| {
                let read_again_in = if verdict == Verdict::Go { self.read_again_in(now) } else { None };
                let forecast = self.forecast(known, now, reasons);
                if read_again_in.is_none() {
                    return forecast;
                }
                Some(Forecast { read_again_in, ..forecast.unwrap_or_default() })
            }),
        }
    }

    /// When the verdict may change by time alone: a reading goes stale, a moment of waiting ends. `None` before the
    /// first judgement and where only a new reading can change anything.
    pub fn next_deadline(&self) -> Option<Mono> {
        self.deadline
    }

    fn fluid(&mut self, value: f64, step: Option<f64>, at: Mono) {
        if let Some(step) = step {
            self.coarse = self.coarse.max(step);
        }
        self.copying.fluid(at, value);
        if self.signal == Signal::Fluid {
            let proof = if self.copying.in_step() { Proof::CountsNothing } else { Proof::Counts };
            self.take(value, step, at, proof);
        }
    }

    fn coolant(&mut self, value: f64, step: Option<f64>, at: Mono) {
        if let Some(step) = step {
            self.coarse = self.coarse.max(step);
        }
        self.copying.coolant(at, value, self.coarse);
        if self.limits.plausible(value) {
            self.witnesses.both(|witness| witness.coolant(at, value, self.limits.step_c));
            self.drive.coolant(at, value);
        }
        if self.signal == Signal::Coolant {
            self.take(value, step, at, Proof::Counts);
        }
    }

    /// A person told what the engine does, where nothing reads it. The first word that it runs is its start: what was read
    /// before says nothing of a fluid that mixes now.
    pub fn engine_told(&mut self, runs: bool, at: Mono) {
        if runs && self.told_runs != Some(true) {
            self.mixed_at = Some(at.after(self.limits.mixes_for));
            self.spots.mixed_anew(at);
            self.hold.broken();
        }
        self.told_runs = Some(runs);
        self.engine(runs, at);
    }

    fn engine(&mut self, turns: bool, at: Mono) {
        self.witnesses.engine(
            at,
            match (turns, self.drive.is_driven(at)) {
                (false, _) => Running::Off,
                (true, false) => Running::Idle,
                (true, true) => Running::Driven,
            },
        );
        if turns {
            let Some((since, told)) = self.stands.take() else { return };
            if told {
                self.track.turn(at, Engine::MayRun);
            }
            if at.since(since) > self.limits.rest_after {
                self.mixed_at = Some(at.after(self.limits.mixes_for));
                self.spots.mixed_anew(at);
            }
            return;
        }
        let (since, told) = *self.stands.get_or_insert((at, false));
        if !told && at.since(since) >= self.limits.standing_after {
            self.stands = Some((since, true));
            self.track.turn(at, Engine::Stands);
        }
    }

    fn spot(&mut self, value: f64, surface: Surface, step: Option<f64>, at: Mono) {
        self.implausible = self.signal.is_typed() && !self.limits.plausible(value);
        if !self.implausible {
            self.spots.take(at, value, surface, step);
            let known = self.spots.estimate(at, self.air).filter(|_| surface != Surface::BareMetal);
            if let Some(known) = known {
                self.witnesses.spot(at, known);
            }
        }
        self.hold.reading();
    }

    fn display(&mut self, value: f64, step: Option<f64>, at: Mono) {
        self.implausible = self.signal == Signal::Display && !self.limits.plausible(value);
        if !self.implausible {
            self.spots.take_display(at, value, step);
        }
        self.hold.reading();
    }

    /// The lamp says right, and a thermometer that was read lately says clearly otherwise: it is lit for another reason.
    fn other_lamp(&self, now: Mono) -> bool {
        let fresh = self.spots.newest_at().is_some_and(|at| now.since(at) <= self.spot_limits.stale_after);
        let counts = self.signal == Signal::Lamp && fresh && !self.spots.all_from_before_the_mixing();
        let place = self.spots.estimate(now, self.air).filter(|_| counts).map(|known| {
            let clear = known.u.to_f64() * 2.0;
            (known.celsius.to_f64() + clear < self.band.low)
                || (known.celsius.to_f64() - clear > self.band.high)
        });
        place == Some(true) && self.lamp.place() == Some(Place::In)
    }

    /// What the vehicle's own sensor says of the air, unless a thermometer has told.
    fn outside(&mut self, t: Celsius, at: Mono) {
        if let Some(t) = plausible_air(t) {
            self.air = self.told_air.or(Some(t));
            self.witnesses.both(|witness| witness.air(at, t));
        }
    }

    fn air_under_vehicle(&mut self, t: Celsius, at: Mono) {
        if let Some(t) = plausible_air(t) {
            self.told_air = Some(t);
            self.air = Some(t);
            self.witnesses.both(|witness| witness.air_under_vehicle(at, t));
        }
    }

    /// A reading of the signal. One from before the newest, or from before the link was lost, is no news.
    fn take(&mut self, value: f64, step: Option<f64>, at: Mono, proof: Proof) {
        if self.newest_at().is_some_and(|newest| at < newest) || self.lost.is_some_and(|lost| at < lost) {
            return;
        }
        self.lost = None;
        self.hold.reading();
        if let Some(step) = step {
            self.track.set_step(step);
        }
        self.implausible = !self.limits.plausible(value);
        if self.implausible {
            self.track.take_stray(at, None);
        } else {
            let before = self.track.newest_turn();
            self.track.take(at, value, proof);
            if self.track.newest_turn() != before {
                self.turned(at);
            }
        }
    }

    /// The display turned: the witnesses hear it, and the forecasts are held to what they expected of it.
    fn turned(&mut self, at: Mono) {
        let Some((value, then)) = self.track.risen() else {
            self.warmed.broken();
            return self.blend.broken();
        };
        if self.signal == Signal::Fluid {
            let edge = value - self.track.step() / 2.0;
            self.witnesses.identifier(then, edge, self.track.u_move());
            self.warmed.turned(then, value);
        }
        let expects = self.each(value + AHEAD as f64 * self.track.stride(), at);
        self.blend.turned(then, expects);
    }

    /// What makes the evidence worthless: with any of these there is no estimate.
    pub(crate) fn void(&self, now: Mono) -> ReasonSet {
        let mut reasons = ReasonSet::default();
        reasons.add_if(self.newest_at().is_none() && !self.implausible, Reason::NoReading);
        reasons.add_if(self.disputed, Reason::UnitsDisagree);
        reasons.add_if(self.lost.is_some(), Reason::LinkLost);
        reasons.add_if(self.implausible, Reason::Implausible);
        reasons.add_if(self.codes.sensor, Reason::SensorCode);
        if !self.signal.is_typed() {
            reasons.add_if(self.track.unsettled(now), Reason::SteppedAway);
        }
        reasons.add_if(self.signal == Signal::Fluid && self.copying.copies(), Reason::CopiesCoolant);
        reasons
    }

    /// What speaks against `go` although there may be an estimate.
    fn doubts(&self, now: Mono, reasons: &mut ReasonSet) {
        reasons.add_if(self.codes.overheat, Reason::OverheatCode);
        match self.signal {
            Signal::Fluid => {
                reasons.add_if(!self.track.proven() || self.copying.suspect(), Reason::NotAlive);
            }
            Signal::Coolant => reasons.add_if(!self.track.proven(), Reason::NotAlive),
            Signal::Lamp => {
                reasons.add_if(self.lamp.newest_at().is_some() && !self.lamp.proven(), Reason::NotAlive)
            }
            Signal::Spot | Signal::Display => {
                let few =
                    self.spots.newest_at().is_some() && self.spots.count(now) < self.spot_limits.readings;
                reasons.add_if(few, Reason::TooUncertain);
            }
        }
    }

    fn verdict(&mut self, now: Mono, stale: bool, reasons: &mut ReasonSet) -> Verdict {
        if reasons.is_empty() {
            if self.hold.well(now, self.mixed_at) {
                reasons.add(Reason::InBand);
                return Verdict::Go;
            }
            reasons.add(Reason::Hysteresis);
            return Verdict::Wait;
        }
        self.hold.broken();
        if self.place == Some(Place::Above) && !stale && !reasons.has(Reason::Disagrees) {
            Verdict::TooHot
        } else {
            Verdict::Wait
        }
    }

    pub(crate) fn estimate(&self, now: Mono) -> Option<Known> {
        let forget_after = self.forget_after();
        self.newest_at().filter(|&at| now.since(at) <= forget_after)?;
        match self.signal {
            Signal::Spot | Signal::Display => return self.spots.estimate(now, self.air),
            Signal::Lamp => return self.lamp.estimate(&self.band),
            Signal::Fluid | Signal::Coolant => {}
        }
        let plain = estimate::from_track(&self.track, &self.limits, now, 0.0)?;
        // Above the band, standing still is what hot fluid does, and the verdict is the same.
        if self.band.place(plain, self.place) == Place::Above {
            return Some(plain);
        }
        estimate::from_track(&self.track, &self.limits, now, self.track.behind(now))
    }

    fn frozen(&self, now: Mono) -> bool {
        !self.signal.is_typed() && self.track.frozen(now)
    }

    fn newest_at(&self) -> Option<Mono> {
        match self.signal {
            Signal::Fluid | Signal::Coolant => self.track.last().map(|last| last.at),
            Signal::Spot | Signal::Display => self.spots.newest_at(),
            Signal::Lamp => self.lamp.newest_at(),
        }
    }

    fn stale_after(&self, now: Mono) -> Duration {
        match self.signal {
            Signal::Fluid | Signal::Coolant => self.limits.stale_after,
            // Where nothing but people tells anything, readings come as seldom as they must.
            Signal::Spot | Signal::Display if self.told_runs.is_some() => {
                self.spots.holds_for(now, self.band.high - self.band.low)
            }
            Signal::Spot | Signal::Display => self.spot_limits.stale_after,
            Signal::Lamp => self.spot_limits.stale_after,
        }
    }

    /// How long `go` goes on without another typed reading: until the last one is too old, or what is not known of the fluid
    /// since then reaches an edge of the band. In seconds; `None` for a signal that the vehicle sends.
    fn read_again_in(&self, now: Mono) -> Option<f64> {
        if !self.signal.is_typed() {
            return None;
        }
        let still = |at: Mono| {
            let known = self.estimate(at)?;
            let inside = self.signal == Signal::Lamp || self.band.place(known, self.place) == Place::In;
            (!self.stale(at) && inside).then_some(())
        };
        let mut span = Duration::ZERO;
        while span < self.spot_limits.forget_after && still(now.after(span + TYPED_STEP)).is_some() {
            span += TYPED_STEP;
        }
        Some(span.as_secs_f64())
    }

    /// Older than this, a reading is not even the base of an estimate.
    fn forget_after(&self) -> Duration {
        match self.signal {
            Signal::Fluid | Signal::Coolant => self.limits.forget_after,
            Signal::Spot | Signal::Display | Signal::Lamp => self.spot_limits.forget_after,
        }
    }

    pub(crate) fn stale(&self, now: Mono) -> bool {
        let before_the_mixing = match self.signal {
            Signal::Spot | Signal::Display => self.spots.all_from_before_the_mixing(),
            Signal::Lamp => self.spots.is_before_the_mixing(self.lamp.newest_at()),
            Signal::Fluid | Signal::Coolant => false,
        };
        before_the_mixing || self.newest_at().is_some_and(|at| now.since(at) > self.stale_after(now))
    }

    fn change_by_time(&self, now: Mono, verdict: Verdict) -> Option<Mono> {
        let stale = self.newest_at().map(|at| at.after(self.stale_after(now) + MOMENT));
        // An open gate is looked at again soon: its uncertainty grows while it stays open.
        let open = (verdict == Verdict::Go).then(|| now.after(LOOK_AGAIN));
        let candidates = [stale, open, self.hold.opens_at(), self.mixed_at, self.track.settled_at()];
        candidates.into_iter().flatten().filter(|&at| at > now).min()
    }
}

/// When the reading was taken.
fn measured_at(reading: &Reading, at: Mono) -> Mono {
    Mono::from_millis(at.as_millis().saturating_sub(u64::from(reading.age_ms)))
}

fn usable_step(step: Kelvins) -> Option<f64> {
    (step > Kelvins::ZERO).then(|| step.to_f64())
}

fn plausible_air(t: Celsius) -> Option<f64> {
    (AIR.0..=AIR.1).contains(&t.to_f64()).then(|| t.to_f64())
}

/// Just past an instant.
const MOMENT: Duration = Duration::from_millis(1);
/// The end of a typed reading is looked for in such steps.
const TYPED_STEP: Duration = Duration::from_secs(1);
/// An open gate is judged again at least this often.
const LOOK_AGAIN: Duration = Duration::from_secs(1);
/// What outside air can have, °C.
const AIR: (f64, f64) = (-50.0, 60.0);
