//! The course of both temperatures over time, and when it is inside a band.
//!
//! In: a checked model and a start. Out: temperatures at any time, the window. Not here: the model (`thermal.rs`).
//! Method: the matrix exponential of two by two by its eigenvalues; where the engine reaches its thermostat it is held
//! there and the transmission follows alone. Between a turn and the next the fluid moves one way, so that halving finds
//! each crossing.

use super::{Nodes, TwoNode};
use crate::{FluidError, range};

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
    held: Option<Held>,
}

/// From when on the engine is held by its thermostat.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Held {
    since_s: f64,
    /// Both temperatures at that moment, °C.
    from: Nodes,
    /// Where the transmission tends to beside such an engine, °C.
    goal: f64,
    /// Its time constant, s.
    tau_s: f64,
}

impl Course {
    /// The course of a checked `model`.
    pub(super) fn new(model: TwoNode, start: Nodes, end: Nodes) -> Self {
        let (a, b, c, d) = model.matrix();
        let (mean, apart) = ((a + d) / 2.0, (a - d) / 2.0);
        let half = (apart * apart + b * c).sqrt();
        // The slow one from the product of both: their sum would lose its digits where one is far faster.
        let product = model.losses() / (model.engine_kj_k * model.trans_kj_k * 1e6);
        Self { model, start, end, mean, half, slow: product / (mean - half), held: None }
    }

    /// The same course with an engine whose thermostat opens at `thermostat_c` and holds it there, or where it is when
    /// it is hotter and still warming. An engine that never gets there is not held.
    ///
    /// # Errors
    /// Outside [`range::CELSIUS`].
    ///
    /// Source: own derivation. Beside a held engine the transmission is one body: it tends to
    /// `(Pt + Gx*Te + Gt*Ta)/(Gx + Gt)` with the time constant `Ct/(Gx + Gt)`.
    pub fn held_at(self, thermostat_c: f64) -> Result<Self, FluidError> {
        let limit = range::CELSIUS.named("thermostat").check(thermostat_c)?;
        let free = Self { held: None, ..self };
        let hot = self.start.engine >= limit;
        let since_s = if hot { self.is_warming().then_some(0.0) } else { free.engine_reaches(limit) };
        Ok(Self { held: since_s.map(|s| free.hold(s, if hot { self.start.engine } else { limit })), ..self })
    }

    /// Both temperatures `seconds` after the start, °C. Time before the start counts as the start.
    pub fn at(&self, seconds: f64) -> Nodes {
        let t = if seconds > 0.0 { seconds } else { 0.0 };
        if let Some(held) = self.held.filter(|held| t >= held.since_s) {
            let left = (-(t - held.since_s) / held.tau_s).exp();
            return Nodes {
                engine: held.from.engine,
                trans: held.goal + (held.from.trans - held.goal) * left,
            };
        }
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
        self.held.map_or(self.end, |held| Nodes { engine: held.from.engine, trans: held.goal })
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
        let mut opens_s = inside(0.0).then_some(0.0);
        let mut to = 0.0;
        for stage_end in self.stage_ends() {
            let from = core::mem::replace(&mut to, stage_end);
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
        halve(from, to, |s| (self.at(s).trans < edge) == rising)
    }

    /// The ends of the stretches on which the fluid moves one way only.
    fn stage_ends(&self) -> impl Iterator<Item = f64> {
        let free_until = self.held.map_or(self.far_s(), |held| held.since_s);
        let turn = self.turn_s().filter(|t| *t < free_until);
        let held_until = self.held.map(|held| held.since_s + SLOW_TIMES * held.tau_s);
        [turn, Some(free_until), held_until].into_iter().flatten()
    }

    /// The one time at which the fluid may turn round: after a hot stop it first rises, then falls.
    fn turn_s(&self) -> Option<f64> {
        let first = self.model.rates(self.start);
        let (_, _, c, d) = self.model.matrix();
        self.sign_change(first.trans, c * first.engine + (d - self.mean) * first.trans)
    }

    /// Rates follow the same matrix exponential as temperatures: `even*first + odd*other` is a sum of two exponentials.
    /// This is where it is zero.
    fn sign_change(&self, first: f64, other: f64) -> Option<f64> {
        let other = other / self.half;
        // What is left of the fast exponential against the slow one when the two parts cancel.
        let left = (other + first) / (other - first);
        (left > 0.0 && left < 1.0).then(|| -left.ln() / (2.0 * self.half))
    }

    fn is_warming(&self) -> bool {
        self.model.rates(self.start).engine > 0.0
    }

    /// When the engine, cooler at the start, first has `limit`.
    fn engine_reaches(&self, limit: f64) -> Option<f64> {
        let first = self.model.rates(self.start);
        let (a, b, _, _) = self.model.matrix();
        let turn = self.sign_change(first.engine, (a - self.mean) * first.engine + b * first.trans);
        let mut from = 0.0;
        for to in [turn, Some(self.far_s())].into_iter().flatten() {
            if self.at(to).engine >= limit {
                return Some(halve(from, to, |s| self.at(s).engine < limit));
            }
            from = to;
        }
        None
    }

    fn hold(&self, since_s: f64, engine: f64) -> Held {
        let (m, conductance) = (&self.model, self.model.exchange_w_k + self.model.trans_air_w_k);
        let watts = m.trans_kw * 1_000.0 + m.exchange_w_k * engine + m.trans_air_w_k * m.air_c;
        Held {
            since_s,
            from: Nodes { engine, trans: self.at(since_s).trans },
            goal: watts / conductance,
            tau_s: m.trans_kj_k * 1_000.0 / conductance,
        }
    }

    /// A time after which nothing moves any more: 40 of the slow time constants.
    fn far_s(&self) -> f64 {
        -SLOW_TIMES / self.slow
    }

    /// The even and the odd part of the matrix exponential: `cosh` and `sinh/half`, both damped by the mean.
    fn shapes(&self, t: f64) -> (f64, f64) {
        let slow = (self.slow * t).exp();
        let gone = (-2.0 * self.half * t).exp_m1(); // fast over slow, less 1
        let odd = if self.half * t < 1e-12 { t } else { -gone / (2.0 * self.half) };
        (slow * (1.0 + gone / 2.0), slow * odd)
    }
}

/// The time between two at which `before` ceases to hold.
fn halve(from: f64, to: f64, before: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (from, to);
    for _ in 0..BISECTIONS {
        let middle = low / 2.0 + high / 2.0;
        if before(middle) { low = middle } else { high = middle }
    }
    low / 2.0 + high / 2.0
}

/// Halvings of the search for a moment; and after so many time constants nothing changes any more.
/// Own choice: a hundred halvings leave nothing of any double; exp(-40) is below its rounding.
const BISECTIONS: u32 = 100;
const SLOW_TIMES: f64 = 40.0;

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
    fn an_engine_that_never_gets_warm_is_not_held() {
        let course = TwoNode::PAST_THE_COOLER.from(COLD).unwrap();
        assert_eq!(course.held_at(150.0), Ok(course));
        assert!(course.held_at(f64::NAN).is_err());
    }

    #[test]
    fn beside_a_held_engine_the_fluid_ends_cooler() {
        let free = TwoNode::THROUGH_THE_COOLER.from(COLD).unwrap();
        let held = free.held_at(88.0).unwrap();
        assert_eq!(held.end().engine, 88.0);
        assert!(held.end().trans < 90.0 && free.end().trans > 120.0);
        // A check at 80 °C comes later than without the thermostat; one at 40 °C is over before it opens.
        let opens = |course: Course, low, high| course.window(low, high).unwrap().unwrap().opens_s;
        assert!(opens(held, 78.0, 82.0) >= opens(free, 78.0, 82.0));
        assert_eq!(opens(held, 35.0, 45.0), opens(free, 35.0, 45.0));
    }

    proptest! {
        #[test]
        fn a_held_course_is_what_small_steps_give(
            exchange_w_k in 0.0..200.0, engine in 0.0..100.0, trans in 0.0..100.0, seconds in 10.0..6_000.0,
        ) {
            let model = TwoNode { exchange_w_k, ..TwoNode::PAST_THE_COOLER };
            let limit = f64::max(88.0, engine);
            let start = Nodes { engine, trans };
            // An engine that is cooled by colder fluid first is held later; steps show that too.
            prop_assume!(engine < 88.0 || model.rates(start).engine > 0.0);
            let want = model.from(start).unwrap().held_at(88.0).unwrap().at(seconds);
            let steps = 4_000;
            let dt = seconds / f64::from(steps);
            let mut now = start;
            for _ in 0..steps {
                let r = model.rates(now);
                let half = Nodes { engine: now.engine + r.engine * dt / 2.0, trans: now.trans + r.trans * dt / 2.0 };
                let r = model.rates(half);
                now = Nodes { engine: f64::min(now.engine + r.engine * dt, limit), trans: now.trans + r.trans * dt };
            }
            // Below the limit the fluid may be hotter than the engine and cool it: then it would leave the thermostat.
            prop_assume!(model.rates(now).engine >= 0.0 && trans <= 88.0);
            prop_assert!((want.engine - now.engine).abs() < 0.05, "{want:?} {now:?}");
            prop_assert!((want.trans - now.trans).abs() < 0.05, "{want:?} {now:?}");
        }

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
