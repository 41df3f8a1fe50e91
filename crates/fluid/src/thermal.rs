//! Warming at idle and cooling after: two nodes, engine and transmission, and the times when the band is crossed.
//!
//! In: heat capacities, heats, conductances, start temperatures. Out: temperatures, rates, the window.
//! Not here: parameters fitted to a recording (the gate), cooling of one body alone (`cooling.rs`).
//! Source: linear heat balance of two bodies, solved in closed form by the two eigenvalues, which are real and
//! negative. Valid below the thermostat's opening (82 to 105 °C); above, the engine is held there. Heats are taken
//! as constant. Uncertainty: from default parameters a factor of 2 in time; keep the form, fit the numbers.

use crate::{FluidError, range};

/// Two bodies that exchange heat with each other and with the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoNode {
    /// Heat capacity of the engine with its coolant, kJ/K.
    pub engine_kj_k: f64,
    /// Heat capacity of the fluid with the metal that follows it, kJ/K.
    pub trans_kj_k: f64,
    /// Heat into the engine, kW.
    pub engine_kw: f64,
    /// Heat into the transmission, kW.
    pub trans_kw: f64,
    /// Conductance between the two, W/K: small past the cooler, large through it.
    pub exchange_w_k: f64,
    /// From the engine to the air, W/K.
    pub engine_air_w_k: f64,
    /// From the transmission to the air, W/K.
    pub trans_air_w_k: f64,
    /// Air under the vehicle, °C.
    pub air_c: f64,
}

impl TwoNode {
    /// A usual car at idle, fluid not through the cooler, air of 20 °C. From memory, to be fitted to a recording.
    pub const PAST_THE_COOLER: Self = Self {
        engine_kj_k: 90.0,
        trans_kj_k: 45.0,
        engine_kw: 4.0,
        trans_kw: 0.8,
        exchange_w_k: 5.0,
        engine_air_w_k: 30.0,
        trans_air_w_k: 15.0,
        air_c: 20.0,
    };
    /// The same with the fluid through the cooler. From memory, to be fitted to a recording.
    pub const THROUGH_THE_COOLER: Self = Self { exchange_w_k: 120.0, ..Self::PAST_THE_COOLER };
}

/// One value for each of the two bodies: temperatures in °C, or rates in °C/s where a function says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nodes {
    /// Of the engine.
    pub engine: f64,
    /// Of the transmission.
    pub trans: f64,
}

/// When the fluid is inside a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// When it enters, s from the start; 0 when it starts inside.
    pub opens_s: f64,
    /// When it leaves, s from the start; `None` when it stays.
    pub closes_s: Option<f64>,
    /// How fast the fluid moves on entering, °C/min; negative when it cools into the band.
    pub rate_at_open_c_min: f64,
}

/// The two bodies, checked and with their eigenvalues: can be asked at any time without errors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Course {
    model: TwoNode,
    start: Nodes,
    end: Nodes,
    /// Mean of the two eigenvalues, half their distance, and the slower one, 1/s.
    mean: f64,
    half: f64,
    slow: f64,
}

impl TwoNode {
    /// Rates of both temperatures, °C/s, at the temperatures `at`: the right-hand side for a simulation. Plain
    /// arithmetic on the fields as they are; [`TwoNode::check`] says whether they make sense.
    pub fn rates(&self, at: Nodes) -> Nodes {
        let across = self.exchange_w_k * (at.engine - at.trans);
        let engine_w = self.engine_kw * 1_000.0 - across - self.engine_air_w_k * (at.engine - self.air_c);
        let trans_w = self.trans_kw * 1_000.0 + across - self.trans_air_w_k * (at.trans - self.air_c);
        Nodes {
            engine: engine_w / (self.engine_kj_k * 1_000.0),
            trans: trans_w / (self.trans_kj_k * 1_000.0),
        }
    }

    /// The model itself when every parameter is possible.
    ///
    /// # Errors
    /// A parameter outside its range; the message names it.
    pub fn check(self) -> Result<Self, FluidError> {
        range::KJ_K.named("heat capacity of the engine").check(self.engine_kj_k)?;
        range::KJ_K.named("heat capacity of the transmission").check(self.trans_kj_k)?;
        range::KW.named("heat into the engine").check(self.engine_kw)?;
        range::KW.named("heat into the transmission").check(self.trans_kw)?;
        range::EXCHANGE_W_K.check(self.exchange_w_k)?;
        range::TO_AIR_W_K.named("conductance from engine to air").check(self.engine_air_w_k)?;
        range::TO_AIR_W_K.named("conductance from transmission to air").check(self.trans_air_w_k)?;
        range::CELSIUS.named("air temperature").check(self.air_c)?;
        Ok(self)
    }

    /// Where both temperatures end, °C.
    ///
    /// # Errors
    /// As [`TwoNode::check`].
    pub fn end(self) -> Result<Nodes, FluidError> {
        let m = self.check()?;
        let (gx, ge, gt) = (m.exchange_w_k, m.engine_air_w_k, m.trans_air_w_k);
        let (pe, pt) = (m.engine_kw * 1_000.0, m.trans_kw * 1_000.0);
        let determinant = m.losses();
        Ok(Nodes {
            engine: m.air_c + (pe * (gx + gt) + pt * gx) / determinant,
            trans: m.air_c + (pt * (gx + ge) + pe * gx) / determinant,
        })
    }

    /// The course of both temperatures from `start` (°C).
    ///
    /// # Errors
    /// As [`TwoNode::check`], and for start temperatures outside [`range::CELSIUS`].
    pub fn from(self, start: Nodes) -> Result<Course, FluidError> {
        let end = self.end()?;
        range::CELSIUS.named("engine temperature").check(start.engine)?;
        range::CELSIUS.named("transmission temperature").check(start.trans)?;
        let (a, b, c, d) = self.matrix();
        let (mean, apart) = ((a + d) / 2.0, (a - d) / 2.0);
        let half = (apart * apart + b * c).sqrt();
        // The slow one from the product of both: their sum would lose its digits where one is far faster.
        let product = self.losses() / (self.engine_kj_k * self.trans_kj_k * 1e6);
        Ok(Course { model: self, start, end, mean, half, slow: product / (mean - half) })
    }

    /// The determinant of the conductances, W²/K².
    fn losses(&self) -> f64 {
        let (gx, ge, gt) = (self.exchange_w_k, self.engine_air_w_k, self.trans_air_w_k);
        ge * gt + gx * (ge + gt)
    }

    /// The matrix of the linear system, 1/s, row by row.
    fn matrix(&self) -> (f64, f64, f64, f64) {
        let (ce, ct, gx) = (self.engine_kj_k * 1_000.0, self.trans_kj_k * 1_000.0, self.exchange_w_k);
        (-(gx + self.engine_air_w_k) / ce, gx / ce, gx / ct, -(gx + self.trans_air_w_k) / ct)
    }
}

impl Course {
    /// Both temperatures `seconds` after the start, °C. Time before the start counts as the start.
    pub fn at(&self, seconds: f64) -> Nodes {
        let t = if seconds > 0.0 { seconds } else { 0.0 };
        let (even, odd) = self.shapes(t);
        let (a, b, c, d) = self.model.matrix();
        let (x, y) = (self.start.engine - self.end.engine, self.start.trans - self.end.trans);
        Nodes {
            engine: self.end.engine + even * x + odd * ((a - self.mean) * x + b * y),
            trans: self.end.trans + even * y + odd * (c * x + (d - self.mean) * y),
        }
    }

    /// Where both temperatures end, °C.
    pub fn end(&self) -> Nodes {
        self.end
    }

    /// When the fluid is between `low_c` and `high_c` for the first time. `None`: never.
    ///
    /// # Errors
    /// A band outside [`range::CELSIUS`], or with its ends in the wrong order.
    pub fn window(&self, low_c: f64, high_c: f64) -> Result<Option<Window>, FluidError> {
        let low = range::CELSIUS.named("lower end of the band").check(low_c)?;
        let high = range::CELSIUS.named("upper end of the band").check(high_c)?;
        if low > high {
            return Err(FluidError::Contradiction {
                first: "lower end of the band",
                first_value: low,
                second: "upper end of the band",
                second_value: high,
                why: "the lower one must not lie above the upper one",
            });
        }
        let inside = |s: f64| (low..=high).contains(&self.at(s).trans);
        let far = self.far_s();
        let turn = self.turn_s().filter(|t| *t < far);
        let stages = [Some((0.0, turn.unwrap_or(far))), turn.map(|t| (t, far))];
        let mut opens_s = inside(0.0).then_some(0.0);
        for (from, to) in stages.into_iter().flatten() {
            if opens_s.is_none() {
                opens_s = self.entry(from, to, low, high);
            }
            let Some(opens) = opens_s else { continue };
            if !inside(to) {
                let edge = if self.at(to).trans > high { high } else { low };
                let closes_s = Some(self.crossing(opens.max(from), to, edge));
                return Ok(Some(self.opened(opens, closes_s)));
            }
        }
        Ok(opens_s.map(|opens| self.opened(opens, None)))
    }

    fn opened(&self, opens_s: f64, closes_s: Option<f64>) -> Window {
        let rate_at_open_c_min = self.model.rates(self.at(opens_s)).trans * 60.0;
        Window { opens_s, closes_s, rate_at_open_c_min }
    }

    /// Where the fluid, outside the band at `from` and moving one way until `to`, comes to the nearer edge.
    fn entry(&self, from: f64, to: f64, low: f64, high: f64) -> Option<f64> {
        let (first, last) = (self.at(from).trans, self.at(to).trans);
        if first < low && last >= low {
            Some(self.crossing(from, to, low))
        } else if first > high && last <= high {
            Some(self.crossing(from, to, high))
        } else {
            None
        }
    }

    /// When the fluid passes `edge` between two times between which it moves one way only.
    fn crossing(&self, from: f64, to: f64, edge: f64) -> f64 {
        let rising = self.at(to).trans > self.at(from).trans;
        let (mut low, mut high) = (from, to);
        for _ in 0..BISECTIONS {
            let middle = low / 2.0 + high / 2.0;
            if (self.at(middle).trans < edge) == rising { low = middle } else { high = middle }
        }
        low / 2.0 + high / 2.0
    }

    /// The one time at which the fluid may turn round: after a hot stop it first rises, then falls.
    ///
    /// Rates follow the same matrix exponential as temperatures; its zero is that of a sum of two exponentials.
    fn turn_s(&self) -> Option<f64> {
        let first = self.model.rates(self.start);
        let (_, _, c, d) = self.model.matrix();
        let odd = (c * first.engine + (d - self.mean) * first.trans) / self.half;
        // What is left of the fast exponential against the slow one when the two parts cancel.
        let left = (odd + first.trans) / (odd - first.trans);
        (left > 0.0 && left < 1.0).then(|| -left.ln() / (2.0 * self.half))
    }

    /// A time after which nothing moves any more: 40 of the slow time constants.
    fn far_s(&self) -> f64 {
        -40.0 / self.slow
    }

    /// The even and the odd part of the matrix exponential: `cosh` and `sinh/half`, both damped by the mean.
    fn shapes(&self, t: f64) -> (f64, f64) {
        let slow = (self.slow * t).exp();
        let gone = (-2.0 * self.half * t).exp_m1(); // fast over slow, less 1
        let odd = if self.half * t < 1e-12 { t } else { -gone / (2.0 * self.half) };
        (slow * (1.0 + gone / 2.0), slow * odd)
    }
}

/// A forecast from default parameters may be off by this factor either way (from memory).
pub const DEFAULT_TIME_FACTOR: f64 = 2.0;
/// A forecast from a slope fitted over 3 to 5 min is off by this share of the remaining time (from memory).
pub const U_FITTED_TIME_RELATIVE: f64 = 0.2;

const BISECTIONS: u32 = 100;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const COLD: Nodes = Nodes { engine: 20.0, trans: 20.0 };

    #[test]
    fn a_hot_stop_raises_the_fluid_before_it_falls() {
        let off = TwoNode { engine_kw: 0.0, trans_kw: 0.0, ..TwoNode::THROUGH_THE_COOLER };
        let course = off.from(Nodes { engine: 95.0, trans: 44.0 }).unwrap();
        let window = course.window(35.0, 45.0).unwrap().unwrap();
        assert_eq!(window.opens_s, 0.0);
        assert!(window.rate_at_open_c_min > 0.0 && window.closes_s.unwrap() < 120.0, "{window:?}");
        // Once more from above: it rises first, then cools into the band.
        let course = off.from(Nodes { engine: 95.0, trans: 50.0 }).unwrap();
        let window = course.window(35.0, 45.0).unwrap().unwrap();
        assert!(window.opens_s > 1_000.0 && window.rate_at_open_c_min < 0.0, "{window:?}");
    }

    #[test]
    fn a_band_that_is_never_reached_has_no_window_and_one_that_is_kept_never_closes() {
        let weak = TwoNode { trans_kw: 0.1, engine_kw: 0.5, ..TwoNode::PAST_THE_COOLER };
        let course = weak.from(COLD).unwrap();
        assert_eq!(course.window(60.0, 70.0), Ok(None));
        let end = course.end().trans;
        let kept = course.window(end - 2.0, end + 2.0).unwrap().unwrap();
        assert!(kept.opens_s > 0.0 && kept.closes_s.is_none());
    }

    #[test]
    fn a_rise_that_turns_inside_the_band_leaves_it_on_the_way_down() {
        let off = TwoNode { engine_kw: 0.0, trans_kw: 0.0, ..TwoNode::PAST_THE_COOLER };
        let course = off.from(Nodes { engine: 95.0, trans: 34.0 }).unwrap();
        let window = course.window(34.5, 45.0).unwrap().unwrap();
        let top = course.turn_s().unwrap();
        assert!(window.opens_s < top && window.closes_s.unwrap() > top, "{window:?} {top}");
    }

    #[test]
    fn uncoupled_bodies_of_equal_speed_are_no_special_case() {
        let alike = TwoNode {
            engine_kj_k: 60.0,
            trans_kj_k: 30.0,
            exchange_w_k: 0.0,
            engine_air_w_k: 30.0,
            trans_air_w_k: 15.0,
            ..TwoNode::PAST_THE_COOLER
        };
        let got = alike.from(COLD).unwrap().at(2_000.0).trans;
        let end = 20.0 + 800.0 / 15.0;
        assert!((got - (end - (end - 20.0) * (-1.0_f64).exp())).abs() < 1e-9);
    }

    #[test]
    fn without_a_way_to_the_air_the_model_is_refused() {
        let sealed = TwoNode { trans_air_w_k: 0.0, ..TwoNode::PAST_THE_COOLER };
        assert!(matches!(
            sealed.from(COLD),
            Err(FluidError::OutsideRange { quantity: "conductance from transmission to air", .. })
        ));
    }

    proptest! {
        #[test]
        fn the_closed_form_obeys_the_heat_balance(
            exchange_w_k in 0.0..300.0, t in 1.0..5_000.0, engine in 0.0..100.0, trans in 0.0..100.0,
        ) {
            let model = TwoNode { exchange_w_k, ..TwoNode::PAST_THE_COOLER };
            let course = model.from(Nodes { engine, trans }).unwrap();
            let (before, now, after) = (course.at(t - 0.5), course.at(t), course.at(t + 0.5));
            let rates = model.rates(now);
            prop_assert!((after.engine - before.engine - rates.engine).abs() < 1e-4);
            prop_assert!((after.trans - before.trans - rates.trans).abs() < 1e-4);
        }

        #[test]
        fn going_on_from_half_way_is_the_same_way(t in 0.0..4_000.0, more in 0.0..4_000.0) {
            let model = TwoNode::THROUGH_THE_COOLER;
            let straight = model.from(COLD).unwrap();
            let again = model.from(straight.at(t)).unwrap().at(more);
            prop_assert!((again.trans - straight.at(t + more).trans).abs() < 1e-8);
        }

        #[test]
        fn at_the_ends_of_the_window_the_fluid_is_at_the_ends_of_the_band(
            engine in 0.0..100.0, trans in -10.0..100.0, kw in 0.0..1.5, exchange_w_k in 0.0..250.0,
        ) {
            let model = TwoNode { trans_kw: kw, engine_kw: 4.0 * kw, exchange_w_k, ..TwoNode::PAST_THE_COOLER };
            let course = model.from(Nodes { engine, trans }).unwrap();
            let Some(window) = course.window(35.0, 45.0).unwrap() else { return Ok(()) };
            let edge = |t: f64| (t - 35.0).abs() < 1e-6 || (t - 45.0).abs() < 1e-6;
            prop_assert!(window.opens_s == 0.0 || edge(course.at(window.opens_s).trans));
            if let Some(closes) = window.closes_s {
                prop_assert!(closes >= window.opens_s && edge(course.at(closes).trans));
                let middle = course.at((closes + window.opens_s) / 2.0).trans;
                prop_assert!((34.999_999..45.000_001).contains(&middle));
            }
        }
    }
}
