//! The gate: every reading goes in, a judgement comes out at every wake-up.
//!
//! In: [`Reading`]s, fault codes, losses of the link; at each wake-up the time and the open preconditions. Out:
//! [`Judgement`]: the verdict, all its reasons in order, the estimate and the forecast. Whatever is unknown is `wait`.
//! Not here: the parts it joins (`evidence`, `vehicle`, `nodes`, `verdict`, `forecast`); each keeps its own state.

use events::{
    Check, Estimate, Forecast, Interval, Measure, Precondition, Reading, Reason, Signal, Surface, Verdict,
};
use units::{Celsius, Kelvins, Mono, Rpm};

use crate::evidence::{Evidence, News, usable_step};
use crate::forecast::learned::{Learned, Ways};
use crate::forecast::{Forecaster, Warming};
use crate::nodes::{Cooler, Running, Witnesses};
use crate::picture::Picture;
use crate::vehicle::air::{Air, plausible_air};
use crate::vehicle::drive::Drive;
use crate::vehicle::mixing::{Change, Mixing};
use crate::verdict::{Place, Reasons, Standing};

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
    /// What was read of the signal.
    pub(crate) evidence: Evidence,
    /// When the fluid will have mixed.
    mixing: Mixing,
    /// How the vehicle is driven.
    drive: Drive,
    /// The air about it.
    air: Air,
    /// What all readings together say of the fluid.
    pub(crate) witnesses: Witnesses,
    /// Where the temperature stands against the band, and for how long all has been well.
    pub(crate) standing: Standing,
    /// What is promised of the time ahead.
    forecaster: Forecaster,
    deadline: Option<Mono>,
}

impl Gate {
    /// A gate for this check. `step`: the smallest step of the signal, where the sheet names one; a reading that names
    /// its own step goes before, and without either whole degrees are assumed (tenths for a thermometer).
    pub fn new(check: &Check, step: Option<Kelvins>) -> Self {
        let evidence = Evidence::new(check.signal, step);
        Self {
            standing: Standing::new(check, evidence.limits(), evidence.typed_limits()),
            evidence,
            mixing: Mixing::default(),
            drive: Drive::default(),
            air: Air::default(),
            witnesses: Witnesses::new(check.signal, Cooler::Unknown),
            forecaster: Forecaster::new(),
            deadline: None,
        }
    }

    /// The same gate for a vehicle whose way to the cooler is known.
    #[must_use]
    pub fn with_cooler(mut self, cooler: Cooler) -> Self {
        self.witnesses = Witnesses::new(self.evidence.signal(), cooler);
        self
    }

    /// The same gate for a kind of vehicle that an earlier job has watched: its forecast knows it sooner. The verdict does not ask.
    #[must_use]
    pub fn with_warming(mut self, earlier: &Warming) -> Self {
        self.forecaster.begin_with(earlier);
        self
    }

    /// The same gate with other learned rates: for fitting and scoring.
    #[must_use]
    pub fn with_learned(mut self, learned: Learned) -> Self {
        self.forecaster.learn(learned);
        self
    }

    /// Takes a reading in. Any quantity may come; the gate keeps what it needs. `at`: when it became known; the
    /// reading's own age is taken off.
    pub fn observe(&mut self, reading: &Reading, at: Mono) {
        let at = measured_at(reading, at);
        let step = reading.step.and_then(usable_step);
        if shown_by_vehicle(reading.measure) {
            self.mixing.heard(at, self.evidence.limits());
        }
        match reading.measure {
            Measure::Fluid(t) => {
                let news = self.evidence.fluid(t.to_f64(), step, at);
                self.heard(news, at);
            }
            Measure::Coolant(t) => self.coolant(t.to_f64(), step, at),
            Measure::AmbientAir(t) => {
                if let Some(t) = self.air.outside(t) {
                    self.witnesses.both(|witness| witness.air(at, t));
                }
            }
            Measure::IntakeAir(t) => {
                if let Some(t) = plausible_air(t) {
                    self.witnesses.both(|witness| witness.intake(at, t));
                }
            }
            Measure::Spot(t, Surface::Air) => {
                if let Some(t) = self.air.told(t) {
                    self.witnesses.both(|witness| witness.air_under_vehicle(at, t));
                }
            }
            Measure::Spot(t, surface) => {
                let known = self.evidence.spot(t.to_f64(), surface, step, at, self.air.celsius());
                if let Some(known) = known {
                    self.witnesses.spot(at, known);
                }
                self.standing.reading();
            }
            Measure::Display(t) => {
                self.evidence.display(t.to_f64(), step, at);
                self.standing.reading();
            }
            Measure::Lamp(state) => {
                self.evidence.lamp(state, at);
                self.standing.reading();
            }
            Measure::EngineSpeed(speed) => {
                let turns = speed > Rpm::LOWEST;
                self.drive.rpm(at, speed.to_f64());
                let idles = !self.drive.is_driven(at);
                self.evidence.idles(at, idles.then(|| speed.to_f64()));
                if idles {
                    self.witnesses.both(|witness| witness.idles(speed.to_f64()));
                }
                let change = self.mixing.engine_read(turns, at, self.evidence.limits());
                self.engine(turns, change, at);
            }
            Measure::VehicleSpeed(speed) => self.drive.speed(at, speed.to_f64()),
            Measure::RunTime(seconds) => {
                self.mixing.run_time(at, seconds);
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

    /// Fluid was filled in: another temperature than that of the sump, at a place where the sensor is not. Until it has mixed
    /// nothing that is read is the whole fluid's.
    pub fn fluid_added(&mut self, now: Mono) {
        let mixed = self.mixing.filled(now, self.evidence.limits());
        self.evidence.filled(now, mixed);
    }

    /// A person told what the engine does, where nothing reads it. The first word that it runs is its start: what was read
    /// before says nothing of a fluid that mixes now.
    pub fn engine_told(&mut self, runs: bool, at: Mono) {
        if self.mixing.told(runs, at, self.evidence.limits()) {
            self.evidence.mixes_anew(at);
            self.standing.broken();
        }
        let change = self.mixing.engine_told(runs, at, self.evidence.limits());
        self.engine(runs, change, at);
    }

    /// The vehicle stores this fault code, as `P0712`. Codes that do not concern the gate change nothing.
    pub fn code_stored(&mut self, code: &str) {
        self.evidence.code_stored(code);
    }

    /// The vehicle was asked again and stores no code, or the list that follows replaces the one before.
    pub fn codes_cleared(&mut self) {
        self.evidence.codes_cleared();
    }

    /// The adapter or the vehicle does not answer any more: what is known is void until a fresh reading comes. The
    /// history of the signal is kept for its slope, unless the silence lasts.
    /// Typed readings do not come over the link and go on. What the engine did meanwhile nobody knows, unless the vehicle's own
    /// count of how long it has run tells.
    pub fn link_lost(&mut self, now: Mono) {
        self.mixing.link_lost(now);
        if self.evidence.link_lost(now) {
            self.standing.broken();
        }
    }

    /// The watch begins in the middle of a job, and nothing is known of what was before: the engine may have stood a moment ago.
    pub fn begins_amid(&mut self, now: Mono) {
        self.mixing.begins_amid(now);
    }

    /// Whether control units contradict each other about the signal: while they do, no value of it is worth anything.
    pub fn disputed(&mut self, disputed: bool) {
        self.evidence.disputed(disputed);
    }

    /// From now on the signal comes from another source: nothing that was seen of it proves the new one.
    pub fn source_changed(&mut self) {
        self.evidence.source_changed();
        self.mixing.source_changed();
        self.standing.forget();
        self.forecaster.broken();
    }

    /// The verdict at `now`. To be called at every wake-up: after readings, at [`Gate::next_deadline`], and whenever the
    /// open preconditions change.
    pub fn judge(&mut self, now: Mono, open: &[Precondition]) -> Judgement {
        if let Some(mixes) = self.mixing.waited_out(now) {
            self.evidence.mixes_anew(mixes);
        }
        let mut reasons = self.evidence.void(now);
        let worthless = !reasons.is_empty();
        self.evidence.doubts(now, &mut reasons);
        let picture = self.picture(now);
        let known = if worthless { None } else { picture.estimate() };
        let (stale, other_lamp) = (picture.stale(), picture.other_lamp());
        reasons.add_if(stale, Reason::Stale);
        let place = match self.evidence.signal() {
            Signal::Lamp => picture.by_lamp().filter(|_| !worthless),
            _ => known.map(|known| self.standing.place_of(known)),
        };
        self.standing.stand(place);
        self.witnesses.keep_up(now);
        let contradicted = known.is_some_and(|known| self.witnesses.contradict(known)) || other_lamp;
        reasons.add_if(contradicted, Reason::Disagrees);
        match place {
            Some(place) => place.reason().into_iter().for_each(|reason| reasons.add(reason)),
            None => reasons.add_if(reasons.is_empty(), Reason::TooUncertain),
        }
        if place != Some(Place::Above) && known.is_some() {
            reasons.add_if(self.evidence.frozen(now), Reason::Frozen);
        }
        reasons.add_if(!open.is_empty(), Reason::PreconditionOpen);
        let verdict =
            self.standing.verdict(now, self.evidence.hold_for(), self.mixing.mixed_at(), stale, &mut reasons);
        let picture = self.picture(now);
        let forecast = known.and_then(|known| {
            let forecast = self.forecaster.forecast(&picture, known, reasons);
            let read_again_in = if verdict == Verdict::Go { picture.read_again_in() } else { None };
            if read_again_in.is_none() {
                return forecast;
            }
            Some(Forecast { read_again_in, ..forecast.unwrap_or_default() })
        });
        self.deadline = picture.changes_at(verdict);
        Judgement {
            verdict,
            reasons: reasons.listed(),
            estimate: known.map(|known| Estimate { fluid: self.witnesses.fluid(), ..known.to_event() }),
            forecast,
        }
    }

    /// When the verdict may change by time alone: a reading goes stale, a moment of waiting ends. `None` before the
    /// first judgement and where only a new reading can change anything.
    pub fn next_deadline(&self) -> Option<Mono> {
        self.deadline
    }

    /// How long until the signal shows `target` or more, from below. `None` where nothing is worth promising. The
    /// forecast of a judgement asks the same for the edges of the guarded band.
    pub fn until(&self, target: Celsius, now: Mono) -> Option<Interval> {
        let picture = self.picture(now);
        self.forecaster.until_shown(&picture, picture.sound()?, target.to_f64())
    }

    /// When the band itself opens (its lower edge is shown) and when the gate will have to close again: what a
    /// recording is held against. The forecast of a judgement opens with the guarded band, since `go` comes only then.
    pub fn band_ahead(&self, now: Mono) -> Forecast {
        let (opens_in, closes_in) = self.forecaster.edges_ahead(&self.picture(now)).unwrap_or_default();
        Forecast { opens_in, closes_in, ..Forecast::default() }
    }

    /// How the vehicle is driven, as the learned rates see it.
    pub fn ways(&self, now: Mono) -> Ways {
        self.forecaster.ways(&self.picture(now))
    }

    /// How the vehicle warmed in this job; `None` before its identifier has turned some times.
    pub fn warming(&self) -> Option<Warming> {
        self.forecaster.warming()
    }

    fn coolant(&mut self, value: f64, step: Option<f64>, at: Mono) {
        if self.evidence.plausible(value) {
            let assumed = self.evidence.limits().step_c;
            self.witnesses.both(|witness| witness.coolant(at, value, assumed));
            self.drive.coolant(at, value);
        }
        let news = self.evidence.coolant(value, step, at);
        self.heard(news, at);
    }

    /// What the engine does, and what that `change`s for what was read before.
    fn engine(&mut self, turns: bool, change: Change, at: Mono) {
        let running = match (turns, self.drive.is_driven(at)) {
            (false, _) => Running::Off,
            (true, false) => Running::Idle,
            (true, true) => Running::Driven,
        };
        self.witnesses.engine(at, running);
        self.evidence.engine(change, at);
    }

    fn heard(&mut self, news: News, at: Mono) {
        if news != News::Nothing {
            self.mixing.signal_read(at, self.evidence.limits());
            self.standing.reading();
        }
        if news == News::Turn {
            self.turned(at);
        }
    }

    /// The display turned: the witnesses hear it, and the forecasts are held to what they expected of it.
    fn turned(&mut self, at: Mono) {
        let track = self.evidence.track();
        let Some((value, then)) = track.risen() else { return self.forecaster.broken() };
        match self.evidence.signal() {
            Signal::Fluid => self.witnesses.identifier(then, value - track.step() / 2.0, track.u_move()),
            // What a driven vehicle's coolant does says nothing of one that idles.
            _ if self.drive.is_driven(at) => return self.forecaster.broken(),
            _ => {}
        }
        self.forecaster.rose(then, value);
        let expects = self.forecaster.expects(&self.picture(at), value);
        self.forecaster.held_to(then, expects);
    }

    /// All parts at `now`, to look at.
    const fn picture(&self, now: Mono) -> Picture<'_> {
        Picture {
            evidence: &self.evidence,
            mixing: &self.mixing,
            drive: &self.drive,
            air: &self.air,
            standing: &self.standing,
            witnesses: &self.witnesses,
            now,
        }
    }
}

/// When the reading was taken.
fn measured_at(reading: &Reading, at: Mono) -> Mono {
    Mono::from_millis(at.as_millis().saturating_sub(u64::from(reading.age_ms)))
}

/// Whether the vehicle itself sent it over the link.
const fn shown_by_vehicle(measure: Measure) -> bool {
    !matches!(
        measure,
        Measure::Spot(..) | Measure::Display(_) | Measure::Lamp(_) | Measure::AdapterVoltage(_)
    )
}
