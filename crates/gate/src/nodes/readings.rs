//! What each reading says of the two nodes, and what a start from cold says of all of them.
//!
//! In: readings with their time. Out: the filter brought up to any time. A signal that changes slowly in steps says the same thing
//! over and over; so coolant counts every few seconds, air once a minute, the identifier when it turns. Not here: the
//! filter itself (`filter.rs`), the budget of a typed reading (`thermometer.rs`).
//! Method: docs/gate.md, "Two nodes".

use core::time::Duration;

use units::Mono;

use super::ahead::Ahead;
use super::filter::{Cooler, Gauss, Look, Nodes, Running};
use crate::span::minutes;

/// The filter with what was last done to it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Witness {
    nodes: Nodes,
    running: Running,
    /// Up to when time has passed; absent before the first reading.
    at: Option<Mono>,
    coolant: Option<(Mono, f64)>,
    air: Option<(Mono, f64)>,
    intake: Option<f64>,
    engine: Engine,
    start: Start,
}

/// What is known of the engine before it is asked whether the vehicle had cooled out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Engine {
    Unread,
    /// Seen to stand, or to have run for less than [`JUST_STARTED`].
    Fresh,
    /// It ran when it was first read, nobody knows for how long.
    Running,
}

/// What the start said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    /// Not asked yet.
    Open,
    /// All were alike: the fluid had the temperature of the rest.
    Soaked,
    /// They were not, or nobody can say: the fluid lies somewhere between coolant and air.
    Unknown,
}

impl Witness {
    pub(crate) fn new(cooler: Cooler) -> Self {
        Self {
            nodes: Nodes::unread(cooler),
            running: Running::Idle,
            at: None,
            coolant: None,
            air: None,
            intake: None,
            engine: Engine::Unread,
            start: Start::Open,
        }
    }

    /// Coolant, shown in steps of `step`.
    pub(crate) fn coolant(&mut self, at: Mono, value: f64, step: f64) {
        if self.coolant.is_some_and(|(last, _)| at.since(last) < COOLANT_EVERY) {
            return;
        }
        self.pass_to(at);
        self.coolant = Some((at, value));
        let u = COOLANT_U.hypot(step * 0.41);
        if self.start == Start::Open {
            self.nodes.learn(Look::engine(), value, u);
        } else {
            self.nodes.learn_engine(value, u);
        }
        self.ask_the_start(at);
    }

    /// Outside air.
    pub(crate) fn air(&mut self, at: Mono, value: f64) {
        if self.air.is_some_and(|(last, _)| at.since(last) < AIR_EVERY) {
            return;
        }
        self.pass_to(at);
        self.air = Some((at, value));
        self.nodes.learn(Look::air(), value, AIR_U);
        self.ask_the_start(at);
    }

    /// The air under the vehicle, by a thermometer.
    pub(crate) fn air_under_vehicle(&mut self, at: Mono, value: f64) {
        self.pass_to(at);
        self.nodes.learn(Look::air(), value, TOLD_AIR_U);
    }

    /// Air into the engine: as good as outside air while the engine is cold and stands.
    pub(crate) fn intake(&mut self, at: Mono, value: f64) {
        if self.intake.is_none() && self.engine == Engine::Fresh {
            self.pass_to(at);
            self.intake = Some(value);
            self.nodes.learn(Look::air(), value, INTAKE_U);
            self.ask_the_start(at);
        }
    }

    /// What the engine does.
    pub(crate) fn engine(&mut self, at: Mono, running: Running) {
        if self.engine == Engine::Unread {
            self.engine = if running == Running::Off { Engine::Fresh } else { Engine::Running };
        }
        if running != self.running {
            self.pass_to(at);
            if self.running == Running::Off {
                self.nodes.starts();
            }
            self.running = running;
        }
    }

    /// It idles at `rpm`: counts from the next step on.
    pub(crate) fn idles(&mut self, rpm: f64) {
        self.nodes.idles(rpm);
    }

    /// How long the engine has run, s.
    pub(crate) fn run_time(&mut self, seconds: f64) {
        if self.start == Start::Open && seconds <= JUST_STARTED.as_secs_f64() {
            self.engine = Engine::Fresh;
        }
    }

    /// The identifier turned to a value: the fluid with its sensor's offset was `value`, known to `u`.
    pub(crate) fn identifier(&mut self, at: Mono, value: f64, u: f64) {
        self.pass_to(at);
        self.nodes.learn(Look::identifier(), value, u);
    }

    /// A typed reading, brought to the fluid's own temperature.
    pub(crate) fn spot(&mut self, at: Mono, value: f64, u: f64) {
        self.pass_to(at);
        self.nodes.learn(Look::fluid(), value, u);
    }

    /// Lets time pass; earlier times change nothing.
    pub(crate) fn pass_to(&mut self, at: Mono) {
        let before = *self.at.get_or_insert(at);
        if at > before {
            self.nodes.pass(minutes(at.since(before)).min(LONGEST_MIN), self.running);
            self.at = Some(at);
        }
    }

    /// As [`Witness::pass_to`], once enough time has passed to matter.
    pub(crate) fn keep_up(&mut self, at: Mono) {
        if self.at.is_some_and(|before| at.since(before) >= WORTH_A_STEP) {
            self.pass_to(at);
        }
    }

    /// The fluid's temperature as of the last reading; time since then is not counted.
    pub(crate) fn fluid(&self) -> Gauss {
        self.nodes.see(Look::fluid())
    }

    /// Whether enough was read to say anything of the fluid: the engine's own temperature at the least.
    pub(crate) const fn speaks(&self) -> bool {
        self.coolant.is_some() && !matches!(self.start, Start::Open)
    }

    /// How long until the identifier turns to `target`. `None` before it has heard the engine: then all is too wide.
    pub(crate) fn until(&self, target: f64) -> Option<Ahead> {
        self.speaks().then(|| self.nodes.until(Look::identifier(), target, self.running))?
    }

    /// What `u` of the fluid would be after one more reading of `what`.
    pub(crate) fn u_after(&self, what: Look, u: f64) -> f64 {
        self.nodes.u_after(Look::fluid(), what, u)
    }

    /// Once coolant and some air are known, or after a while without air: had the vehicle cooled out?
    fn ask_the_start(&mut self, at: Mono) {
        let Some((since, coolant)) = self.coolant.filter(|_| self.start == Start::Open) else { return };
        let air = [self.air.map(|(_, t)| t), self.intake];
        let waited = at.since(since) >= START_WAITS;
        if air.iter().all(Option::is_none) && !waited {
            return;
        }
        let alike = air.iter().flatten().all(|t| (coolant - t).abs() <= ALIKE_K);
        let any = air.iter().any(Option::is_some);
        if self.engine == Engine::Unread && !waited {
            return;
        }
        if self.engine == Engine::Fresh && any && alike {
            self.nodes.learn(Look::fluid_between(1.0), 0.0, SOAKED_U);
            self.nodes.learn(Look::air_over_engine(), 0.0, SOAKED_AIR_U);
            self.start = Start::Soaked;
        } else {
            let apart = (self.nodes.see(Look::engine()).mean - self.nodes.see(Look::air()).mean).abs();
            self.nodes.learn(Look::fluid_between(0.5), 0.0, (apart / 12.0_f64.sqrt()).hypot(WARM_U));
            self.start = Start::Unknown;
        }
    }
}

/// Coolant counts at most this often.
/// Own choice: between two of its steps it says nothing new, and one seldom takes less.
const COOLANT_EVERY: Duration = Duration::from_secs(5);
/// Outside air counts at most this often.
/// Own choice: it moves by a tenth of a kelvin in that time.
const AIR_EVERY: Duration = Duration::from_secs(60);
/// The coolant sensor against the engine's mean temperature, K, without the step.
/// Own choice: its own ±1 K and what metal and coolant lie apart.
const COOLANT_U: f64 = 1.0;
/// The outside sensor against the air under the vehicle, K.
/// Own choice: it hangs at the bumper, and the engine warms what is below it.
const AIR_U: f64 = 3.0;
/// A thermometer held under the vehicle, K.
/// Source: from memory.
const TOLD_AIR_U: f64 = 1.0;
/// The intake sensor of an engine that stands against the air under the vehicle, K.
/// Own choice: a little worse than the outside sensor, since it sits under the bonnet.
const INTAKE_U: f64 = 3.5;
/// An engine that has run for less than this has warmed nothing yet but itself, by a few kelvins.
/// Own choice: ten kelvins of the quickest coolant (`fixtures/reference/physics/idle_warmup.csv`), less than one of the fluid.
const JUST_STARTED: Duration = Duration::from_secs(30);
/// So long is waited for the air before the start is judged without it.
/// Own choice: it is asked each 5 s on the slowest bus; some may be lost.
const START_WAITS: Duration = Duration::from_secs(20);
/// Coolant and air this near to each other before the start: the vehicle has cooled out.
/// Source: common practice, no source.
const ALIKE_K: f64 = 5.0;
/// Then the fluid is as warm as the engine to this, K, and so is the air.
/// Own choice: half of what they may lie apart is what one of them may, and a little of the sensors.
const SOAKED_U: f64 = 1.5;
const SOAKED_AIR_U: f64 = 3.0;
/// Otherwise the fluid lies between coolant and air, beyond either by no more than a little, K.
/// Own choice: after a drive it may be warmer than the coolant by some kelvins.
const WARM_U: f64 = 6.0;
/// Nothing warms by as much as a tenth of a kelvin in less.
/// Own choice: at 2 K/min, the quickest fluid at idle, it is 0.07 K.
const WORTH_A_STEP: Duration = Duration::from_secs(2);
/// More than this is not computed, min.
/// Own choice: ten hours; all is lost by then.
const LONGEST_MIN: f64 = 600.0;

#[cfg(test)]
mod tests {
    use super::*;

    fn at(seconds: u64) -> Mono {
        Mono::from_secs(seconds)
    }

    /// Coolant from 18 °C at 2.5 K/min, air of 18 °C; for so many seconds. `fresh`: the engine was seen to stand before.
    fn warmed(fresh: bool, coolant_from: f64, seconds: u64) -> Witness {
        let mut witness = Witness::new(Cooler::PinnedThrough);
        if fresh {
            witness.engine(at(0), Running::Off);
        }
        witness.air(at(0), 18.0);
        witness.coolant(at(0), coolant_from, 1.0);
        for s in 1..seconds {
            witness.engine(at(s), Running::Idle);
            witness.coolant(at(s), (coolant_from + s as f64 / 24.0).round(), 1.0);
        }
        witness
    }

    #[test]
    fn a_vehicle_that_cooled_out_tells_its_fluid_and_one_that_did_not_does_not() {
        let cold = warmed(true, 18.0, 1);
        assert_eq!(cold.start, Start::Soaked);
        assert!((cold.fluid().mean - 18.0).abs() < 0.5 && cold.fluid().u < 2.5, "{:?}", cold.fluid());
        let warm = warmed(true, 60.0, 2);
        assert_eq!(warm.start, Start::Unknown);
        assert!(warm.fluid().u > 10.0, "{:?}", warm.fluid());
        assert_eq!(warmed(false, 18.0, 30).start, Start::Unknown, "it may have run for long");
    }

    #[test]
    fn with_coolant_alone_the_estimate_is_wide_and_grows_with_the_warming() {
        let (early, late) = (warmed(true, 18.0, 120), warmed(true, 18.0, 900));
        assert!(early.speaks() && early.fluid().u < late.fluid().u, "{:?} {:?}", early.fluid(), late.fluid());
        assert!(late.fluid().u > 2.0 && late.fluid().mean > early.fluid().mean);
    }

    #[test]
    fn a_reading_on_the_sump_narrows_more_than_one_of_the_air() {
        let witness = warmed(true, 18.0, 900);
        let (sump, air) = (witness.u_after(Look::fluid(), 1.2), witness.u_after(Look::air(), 1.0));
        assert!(sump < 1.3 && air > sump && air <= witness.fluid().u, "{sump} {air}");
    }

    #[test]
    fn without_any_reading_nothing_is_said() {
        let mut witness = Witness::new(Cooler::Unknown);
        assert!(!witness.speaks());
        witness.coolant(at(0), 20.0, 1.0);
        witness.coolant(at(19), 20.0, 1.0);
        assert!(!witness.speaks(), "the air may still come");
        witness.coolant(at(40), 21.0, 1.0);
        assert!(!witness.speaks(), "{witness:?}");
    }
}
