//! Engine and fluid as two thermal nodes, followed by an extended Kalman filter.
//!
//! ```text
//!   dTe/dt = a - r h (Te - Tt) - e (Te - Ta)        a, b  heat over heat capacity, K/min
//!   dTt/dt = b +   h (Te - Tt) - g (Tt - Ta)        h, e, g  conductance over heat capacity, 1/min
//!   x = (Te, Tt, ln a, ln b, ln h, ln e, ln g, Ta, o)       o  how far the identifier's sensor is off, K
//! ```
//!
//! In: what any reading says of one of these, and how well. Out: the fluid's temperature with its standard uncertainty, and
//! which further reading would narrow it most. The parameters are unknown and part of the state: they begin with the
//! spread of the physics and are learned as the vehicle warms. Rates are carried as logarithms, since none can be
//! negative. Not here: which readings come (`readings.rs`), how long until a temperature is reached (`ahead.rs`).
//! Derivation: docs/gate.md, "Two nodes".

#![allow(
    clippy::indexing_slicing,
    reason = "named constant places in vectors of fixed size; no input chooses one"
)]

use nalgebra::{SMatrix, SVector};

/// How many numbers the state has.
/// By definition of the state in docs/gate.md, "Two nodes".
const N: usize = 9;
pub(super) type State = SVector<f64, N>;
type Spread = SMatrix<f64, N, N>;

/// Where each of them stands.
/// By definition of the state in docs/gate.md, "Two nodes".
pub(super) const ENGINE: usize = 0;
const FLUID: usize = 1;
const ENGINE_HEAT: usize = 2;
const FLUID_HEAT: usize = 3;
const EXCHANGE: usize = 4;
const ENGINE_LOSS: usize = 5;
const FLUID_LOSS: usize = 6;
const AIR: usize = 7;
const OFFSET: usize = 8;

/// What is done with the vehicle just now, as far as it bears on the heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Running {
    /// The engine stands: no heat, and nothing is pumped.
    Off,
    /// It idles, or nobody knows.
    #[default]
    Idle,
    /// It moves: the heat is whatever the road asks.
    Driven,
}

/// Which way the fluid goes to the cooler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Cooler {
    /// Nobody knows whether it goes through the cooler, past it, or what the cooler takes.
    #[default]
    Unknown,
    /// Its bypass is pinned open: through the cooler.
    PinnedThrough,
}

/// A linear look at the state: the sum of some of its entries times their weights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Look(pub(super) State);

impl Look {
    pub(crate) fn engine() -> Self {
        Self(unit(ENGINE))
    }

    pub(crate) fn fluid() -> Self {
        Self(unit(FLUID))
    }

    /// What the identifier shows: the fluid and its sensor's offset.
    pub(crate) fn identifier() -> Self {
        Self(unit(FLUID) + unit(OFFSET))
    }

    pub(crate) fn air() -> Self {
        Self(unit(AIR))
    }

    /// How far the fluid is from a point between engine (`share` 1) and air (0).
    pub(crate) fn fluid_between(share: f64) -> Self {
        Self(unit(FLUID) - unit(ENGINE) * share - unit(AIR) * (1.0 - share))
    }

    /// How far the air is from the engine.
    pub(crate) fn air_over_engine() -> Self {
        Self(unit(AIR) - unit(ENGINE))
    }
}

/// A value with its standard uncertainty, both in K or °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Gauss {
    pub(crate) mean: f64,
    pub(crate) u: f64,
}

/// The filter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Nodes {
    pub(super) x: State,
    pub(super) p: Spread,
    /// How many times as fast as a warm idle the engine turns: heat per minute goes with it.
    pub(super) speed: f64,
}

impl Nodes {
    /// Before anything was read: temperatures as wide as weather and use, parameters as wide as the physics page gives them.
    pub(crate) fn unread(cooler: Cooler) -> Self {
        let (exchange, exchange_spread) = match cooler {
            Cooler::Unknown => EXCHANGE_UNKNOWN,
            Cooler::PinnedThrough => EXCHANGE_THROUGH,
        };
        let (warm, any) = ANYWHERE;
        let (air, air_u) = AIR_UNREAD;
        let x = State::from([
            warm,
            warm,
            ENGINE_HEATS.0.ln(),
            FLUID_HEATS.0.ln(),
            exchange.ln(),
            ENGINE_LOSSES.0.ln(),
            FLUID_LOSSES.0.ln(),
            air,
            0.0,
        ]);
        let u = State::from([
            any,
            any,
            ENGINE_HEATS.1,
            FLUID_HEATS.1,
            exchange_spread,
            ENGINE_LOSSES.1,
            FLUID_LOSSES.1,
            air_u,
            OFFSET_U,
        ]);
        Self { x, p: Spread::from_diagonal(&u.component_mul(&u)), speed: 1.0 }
    }

    /// What `look` shows, with its uncertainty.
    pub(crate) fn see(&self, look: Look) -> Gauss {
        Gauss { mean: look.0.dot(&self.x), u: look.0.dot(&(self.p * look.0)).max(0.0).sqrt() }
    }

    /// Takes in that `look` is `value`, known to `u`: the Kalman update for one number.
    pub(crate) fn learn(&mut self, look: Look, value: f64, u: f64) {
        let ph = self.p * look.0;
        let s = look.0.dot(&ph) + u * u;
        if s.is_finite() && s > 0.0 {
            self.x += ph * ((value - look.0.dot(&self.x)) / s);
            self.p -= ph * ph.transpose() / s;
            self.bound();
        }
    }

    /// Takes in that the engine is at `value`, known to `u`, and lets it move nothing but the engine's own entries. The engine is a driver
    /// of the fluid's model and a poor one of itself: one lump stands for metal and coolant, and what that gets wrong is no news of the fluid.
    /// A consider update (Schmidt): the gain of the other entries is nothing, and the spread is carried in Joseph's form, which
    /// holds for any gain.
    pub(crate) fn learn_engine(&mut self, value: f64, u: f64) {
        let look = Look::engine().0;
        let ph = self.p * look;
        let s = look.dot(&ph) + u * u;
        if !(s.is_finite() && s > 0.0) {
            return;
        }
        let own = unit(ENGINE) + unit(ENGINE_HEAT) + unit(ENGINE_LOSS);
        let gain = ph.component_mul(&own) / s;
        self.x += gain * (value - look.dot(&self.x));
        let keeps = Spread::identity() - gain * look.transpose();
        self.p = keeps * self.p * keeps.transpose() + gain * gain.transpose() * (u * u);
        self.bound();
    }

    /// The uncertainty of `what` after a reading of `look` that is known to `u`: it does not depend on what will be read.
    pub(crate) fn u_after(&self, what: Look, look: Look, u: f64) -> f64 {
        let (ph, now) = (self.p * look.0, self.see(what).u);
        let s = look.0.dot(&ph) + u * u;
        let shared = what.0.dot(&ph);
        if s > 0.0 { (now * now - shared * shared / s).max(0.0).sqrt() } else { now }
    }

    /// Lets `minutes` pass: the model's step, and what it does not know added to the spread.
    pub(crate) fn pass(&mut self, minutes: f64, running: Running) {
        let mut left = minutes;
        while left > 0.0 {
            let dt = left.min(LONGEST_STEP_MIN);
            let f = Spread::identity() + self.slope_of(running) * dt;
            self.x += self.rates(running) * dt;
            self.p = f * self.p * f.transpose() + Spread::from_diagonal(&(noise(running) * dt));
            self.bound();
            left -= dt;
        }
    }

    /// The engine idles at `rpm`.
    pub(crate) fn idles(&mut self, rpm: f64) {
        self.speed = (rpm / WARM_IDLE_RPM).clamp(SPEEDS.0, SPEEDS.1);
    }

    /// How fast it will idle once the engine has `celsius`: down to a warm idle by the time it is warm.
    pub(super) fn speed_at(&self, celsius: f64) -> f64 {
        let left = (WARM_C - celsius) / (WARM_C - self.x[ENGINE]);
        if self.speed > 1.0 && self.x[ENGINE] < WARM_C {
            1.0 + (self.speed - 1.0) * left.clamp(0.0, 1.0)
        } else {
            self.speed
        }
    }

    /// The engine starts: what the converter warms comes into the sump before the case has taken its share. One lump knows nothing of it.
    pub(crate) fn starts(&mut self) {
        self.p[(FLUID, FLUID)] += STARTING_U * STARTING_U;
    }

    /// The fluid's rate, K/min.
    #[cfg(test)]
    pub(crate) fn fluid_rate(&self, running: Running) -> f64 {
        self.rates(running)[FLUID]
    }

    /// f(x): how fast each entry changes, per minute.
    pub(super) fn rates(&self, running: Running) -> State {
        let Terms { a, b, h, e, g, .. } = self.terms(running);
        let (te, tt, ta) = (self.x[ENGINE], self.x[FLUID], self.x[AIR]);
        let across = h * (te - tt);
        let mut rates = State::zeros();
        rates[ENGINE] = a - CAPACITY_RATIO * across - e * (te - ta);
        rates[FLUID] = b + across - g * (tt - ta);
        rates
    }

    /// df/dx. The parameters are logarithms: the derivative by `ln a` is the term itself.
    pub(super) fn slope_of(&self, running: Running) -> Spread {
        let Terms { a, b, h, e, g, pumped } = self.terms(running);
        let r = CAPACITY_RATIO;
        let (te, tt, ta) = (self.x[ENGINE], self.x[FLUID], self.x[AIR]);
        let mut f = Spread::zeros();
        f[(ENGINE, ENGINE)] = -r * h - e;
        f[(ENGINE, FLUID)] = r * h;
        f[(ENGINE, ENGINE_HEAT)] = a;
        f[(ENGINE, EXCHANGE)] = -r * pumped * (te - tt);
        f[(ENGINE, ENGINE_LOSS)] = -e * (te - ta);
        f[(ENGINE, AIR)] = e;
        f[(FLUID, ENGINE)] = h;
        f[(FLUID, FLUID)] = -h - g;
        f[(FLUID, FLUID_HEAT)] = b;
        f[(FLUID, EXCHANGE)] = pumped * (te - tt);
        f[(FLUID, FLUID_LOSS)] = -g * (tt - ta);
        f[(FLUID, AIR)] = g;
        f
    }

    fn terms(&self, running: Running) -> Terms {
        let on = if running == Running::Off { 0.0 } else { 1.0 };
        let pumped = on * self.x[EXCHANGE].exp();
        let made = if running == Running::Idle { self.speed } else { on };
        Terms {
            a: made * self.x[ENGINE_HEAT].exp(),
            b: made * self.x[FLUID_HEAT].exp(),
            h: pumped + STANDING_EXCHANGE,
            e: self.x[ENGINE_LOSS].exp(),
            g: self.x[FLUID_LOSS].exp(),
            pumped,
        }
    }

    /// Keeps the rates where physics has them: a linear filter may be led astray by a reading far from all it expected.
    fn bound(&mut self) {
        for (at, (middle, _)) in PARAMETERS {
            self.x[at] = self.x[at].clamp(middle.ln() - FURTHEST, middle.ln() + FURTHEST);
        }
        self.p = (self.p + self.p.transpose()) * 0.5;
    }
}

/// The rates at one moment, and the part of the exchange that the pump makes.
struct Terms {
    a: f64,
    b: f64,
    h: f64,
    e: f64,
    g: f64,
    pumped: f64,
}

/// What the model does not know, as variance per minute.
pub(super) fn noise(running: Running) -> State {
    let (heat, fluid) = match running {
        Running::Driven => (DRIVEN_NOISE.0, DRIVEN_NOISE.1),
        Running::Idle | Running::Off => (IDLE_NOISE.0, IDLE_NOISE.1),
    };
    let drift = PARAMETER_DRIFT * PARAMETER_DRIFT;
    State::from([heat, fluid, drift, drift, drift, drift, drift, AIR_DRIFT * AIR_DRIFT, 0.0])
}

fn unit(at: usize) -> State {
    let mut look = State::zeros();
    look[at] = 1.0;
    look
}

// Source: physics page, section 7: middles are its typical values, spreads the logarithms of its ranges over 2 times 1.645 (nine
// vehicles in ten inside), capacity and heat in squares; all from memory there.
/// Heat into the engine over its capacity, K/min, and the spread of its logarithm: 4 kW / 90 kJ/K.
const ENGINE_HEATS: (f64, f64) = (2.67, 0.45);
/// Heat into the fluid over its capacity: 0.8 kW / 45 kJ/K.
const FLUID_HEATS: (f64, f64) = (1.07, 0.8);
/// Exchange over the fluid's capacity, 1/min: 120 W/K through the cooler,
const EXCHANGE_THROUGH: (f64, f64) = (0.16, 0.6);
/// or anything from 3 W/K past it to 250 W/K.
const EXCHANGE_UNKNOWN: (f64, f64) = (0.03, 1.3);
/// Loss to the air over the capacity, 1/min: 30 W/K / 90 kJ/K and 15 W/K / 45 kJ/K.
const ENGINE_LOSSES: (f64, f64) = (0.02, 0.5);
const FLUID_LOSSES: (f64, f64) = (0.02, 0.55);
/// The idle that those heats belong to, 1/min, and the shares of it that are believed.
/// Source: common practice, no source.
const WARM_IDLE_RPM: f64 = 700.0;
const SPEEDS: (f64, f64) = (0.8, 2.6);
/// From here on an engine idles as warm ones do, °C.
/// Source: `fixtures/reference/physics/idle_warmup.csv`.
const WARM_C: f64 = 75.0;
/// The fluid's heat capacity over the engine's: 45 / 90.
const CAPACITY_RATIO: f64 = 0.5;
/// Exchange while nothing is pumped, 1/min: metal to metal, 3 W/K / 45 kJ/K.
const STANDING_EXCHANGE: f64 = 0.004;
/// Temperatures before anything was read, °C.
/// Own choice: middle and spread reach from winter to the road.
const ANYWHERE: (f64, f64) = (40.0, 40.0);
/// Air before it was read: 20 ± 10 °C as a rectangle.
/// Own choice: workshops and yards.
const AIR_UNREAD: (f64, f64) = (20.0, 5.8);
/// The identifier's sensor, K.
/// Source: JCGM 100, rectangles: ±1 K (`Limits::sensor_c`), and a count that may be truncated by half a step.
const OFFSET_U: f64 = 0.65;
/// Variance per minute of engine and fluid, K², while idling: what the two nodes do not say (converter, fan, selector).
/// Own choice: 1.4 K of the coolant and 0.2 K of the fluid in a minute; the rehearsal's six nodes stay inside (`crates/gate/tests/idle.rs`).
const IDLE_NOISE: (f64, f64) = (2.0, 0.05);
/// How far the fluid may run ahead of the two nodes in the first minutes, K.
/// Own choice: the sump leads its case by some kelvins while it warms.
const STARTING_U: f64 = 2.0;
/// The same on the road.
/// Own choice: the heat is unknown there; by so much per minute the filter follows what it reads and nothing else.
const DRIVEN_NOISE: (f64, f64) = (25.0, 4.0);
/// How far a rate wanders by itself, standard deviation of its logarithm in one minute.
/// Own choice: a sixth in half an hour; wind and thinning fluid do as much.
const PARAMETER_DRIFT: f64 = 0.03;
/// How far the air wanders, K in one minute.
/// Own choice: half a kelvin in half an hour, as in a hall whose door is shut.
const AIR_DRIFT: f64 = 0.1;
/// A step of the model is no longer than this, min.
/// Own choice: Euler is exact to 1 % then, since the fastest rate is 0.5/min.
const LONGEST_STEP_MIN: f64 = 1.0 / 6.0;
/// No rate is further from its middle than by this factor's logarithm.
/// Own choice: 33-fold, beyond every range of the physics page.
const FURTHEST: f64 = 3.5;
const PARAMETERS: [(usize, (f64, f64)); 5] = [
    (ENGINE_HEAT, ENGINE_HEATS),
    (FLUID_HEAT, FLUID_HEATS),
    (EXCHANGE, EXCHANGE_UNKNOWN),
    (ENGINE_LOSS, ENGINE_LOSSES),
    (FLUID_LOSS, FLUID_LOSSES),
];

#[cfg(test)]
mod tests {
    use super::*;
    use fluid::thermal::{Nodes as Exact, TwoNode};

    /// The middle of everything, at 20 °C and known.
    fn typical() -> Nodes {
        let mut nodes = Nodes::unread(Cooler::PinnedThrough);
        nodes.x[EXCHANGE] = (120.0_f64 / 45_000.0 * 60.0).ln();
        nodes.x[ENGINE_HEAT] = (4.0_f64 / 90.0 * 60.0).ln();
        nodes.x[FLUID_HEAT] = (0.8_f64 / 45.0 * 60.0).ln();
        for at in [ENGINE, FLUID, AIR] {
            nodes.x[at] = 20.0;
        }
        nodes
    }

    #[test]
    fn the_mean_follows_the_closed_form_of_two_bodies() {
        // fluid::thermal, which reproduces table thermal_two_node of the physics reference (matrix exponential).
        let mut nodes = typical();
        let course = TwoNode { exchange_w_k: 123.0, ..TwoNode::THROUGH_THE_COOLER }
            .from(Exact { engine: 20.0, trans: 20.0 })
            .unwrap();
        for minute in 1..=20 {
            nodes.pass(1.0, Running::Idle);
            let exact = course.at(f64::from(minute) * 60.0);
            assert!(
                (nodes.x[FLUID] - exact.trans).abs() < 0.25,
                "{minute} min: {} {}",
                nodes.x[FLUID],
                exact.trans
            );
            assert!((nodes.x[ENGINE] - exact.engine).abs() < 0.25, "{minute} min: {}", nodes.x[ENGINE]);
        }
    }

    #[test]
    fn the_slope_is_the_derivative_of_the_rates() {
        let nodes = typical();
        let mut warm = nodes;
        (warm.x[ENGINE], warm.x[FLUID]) = (70.0, 35.0);
        for running in [Running::Idle, Running::Off] {
            let slope = warm.slope_of(running);
            for at in 0..N {
                let (mut up, mut down) = (warm, warm);
                up.x[at] += 1e-5;
                down.x[at] -= 1e-5;
                let by_difference = (up.rates(running) - down.rates(running)) / 2e-5;
                assert!((by_difference - slope.column(at)).norm() < 1e-6, "entry {at}, {running:?}");
            }
        }
    }

    #[test]
    fn a_reading_narrows_by_what_was_said_beforehand() {
        let mut nodes = Nodes::unread(Cooler::Unknown);
        nodes.learn(Look::engine(), 20.0, 1.0);
        nodes.learn(Look::fluid_between(1.0), 0.0, 1.5);
        nodes.pass(15.0, Running::Idle);
        let before = nodes.see(Look::fluid());
        let promised = nodes.u_after(Look::fluid(), Look::fluid(), 1.2);
        nodes.learn(Look::fluid(), before.mean + 3.0, 1.2);
        assert!((nodes.see(Look::fluid()).u - promised).abs() < 1e-9);
        assert!(promised < 1.2 && before.u > 3.0, "{before:?} to {promised}");
    }

    #[test]
    fn coolant_that_warms_faster_than_expected_moves_the_engine_and_not_the_fluid() {
        let mut nodes = typical();
        nodes.learn(Look::engine(), 20.0, 1.1);
        nodes.learn(Look::fluid_between(1.0), 0.0, 1.5);
        let before = nodes.see(Look::fluid());
        for _ in 0..20 {
            nodes.learn_engine(30.0, 1.1);
        }
        let after = nodes.see(Look::fluid());
        assert!((nodes.x[ENGINE] - 30.0).abs() < 1.5, "{}", nodes.x[ENGINE]);
        assert!(
            (after.mean - before.mean).abs() < 1e-9 && after.u >= before.u - 1e-9,
            "{before:?} {after:?}"
        );
    }

    #[test]
    fn with_the_engine_off_both_cool_towards_the_air() {
        let mut nodes = typical();
        (nodes.x[ENGINE], nodes.x[FLUID]) = (80.0, 60.0);
        nodes.pass(1.0, Running::Off);
        assert!(nodes.x[ENGINE] < 80.0 && nodes.fluid_rate(Running::Off) < 0.0);
        nodes.pass(3_000.0, Running::Off);
        assert!((nodes.x[FLUID] - 20.0).abs() < 0.5 && (nodes.x[ENGINE] - 20.0).abs() < 0.5, "{:?}", nodes.x);
    }
}
