//! When the band opens, when it closes, and when a fluid that is too hot will be back: intervals, or nothing.
//!
//! In: the line through the moves, or an estimate; a target; the temperature of the air. Out: [`Interval`]s.
//! Nothing is promised before it is earned: enough moves or minutes, and a slope that is clearly upward.
//! Method: a straight line (early end) and an exponential approach (late end), `docs/gate.md`, "Forecast". The physics
//! page, section 7, allows no better than ±20 % of the remaining time. Not here: learning from recordings.

use events::Interval;
use fluid::cooling::Cooling;

use crate::estimate::Known;
use crate::forecast::learned::Took;
use crate::signal::slope::Line;

/// The way a temperature is going.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Way {
    pub(crate) line: Line,
    /// How the values are shown; absent where they are not shown in steps worth a thought.
    pub(crate) display: Option<Display>,
    /// No interval is narrower than from this to that times its median.
    pub(crate) spread: (f64, f64),
}

/// A display that shows `level` and turns in whole steps from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Display {
    pub(crate) level: f64,
    pub(crate) step: f64,
}

impl Way {
    /// Until the signal shows `target` or more, in seconds. `None` where it will not, or not within [`FURTHEST_MIN`].
    pub(crate) fn until(&self, target: f64) -> Option<Interval> {
        until(self.line, self.display.map_or(target, |display| display.shown_from(target)), self.spread)
    }
}

impl Display {
    /// The first value of the display that is `target` or more.
    pub(crate) fn shown_from(self, target: f64) -> f64 {
        self.level + ((target - self.level) / self.step - EXACT).ceil() * self.step
    }
}

/// What was learned, as an interval.
pub(crate) fn from_learned(took: Took) -> Interval {
    interval(took.low / 60.0, took.median / 60.0, took.high / 60.0)
}

/// An interval around a median of `minutes` by a forecast that has been off by `off` of late, as a logarithm, on ways of three turns.
/// `thirds`: how many such ways lie ahead; `reach`: how many of those errors the interval goes down and up.
pub(crate) fn around(minutes: f64, off: f64, thirds: f64, reach: (f64, f64)) -> Option<Interval> {
    let off = off * thirds.max(LEAST_THIRDS).powf(GROWS);
    let high = minutes * (reach.1 * off).exp();
    (high <= FURTHEST_MIN).then(|| interval(minutes * (-reach.0 * off).exp(), minutes, high))
}

/// An interval that is no narrower than from this to that times its median.
pub(crate) fn no_narrower(around: Interval, spread: (f64, f64)) -> Interval {
    let Interval { low, median, high, .. } = around;
    Interval { low: low.min(median * spread.0), high: high.max(median * spread.1), ..around }
}

fn until(line: Line, target: f64, spread: (f64, f64)) -> Option<Interval> {
    let rise = target - line.value;
    let (s, u) = (line.slope.c_min, line.slope.u_c_min);
    if s <= CLEARLY * u || s <= 0.0 {
        return None;
    }
    if rise <= 0.0 {
        return Some(interval(0.0, 0.0, 0.0));
    }
    let slack = TENTH * u;
    let straight = rise / s;
    let bent = approach(rise, s, TAU_MIDDLE_MIN)?;
    let median = (straight + bent) / 2.0;
    let low = (rise / (s + slack)).min(median * spread.0);
    let high = approach(rise, s - slack, TAU_SHORT_MIN)?.max(median * spread.1);
    (high <= FURTHEST_MIN).then(|| interval(low, median, high))
}

/// Until a fluid that is too hot has cooled to `target` with the engine off, in seconds. `None` where it never will.
///
/// `air`: the air's temperature and how far it may be off either way, K.
pub(crate) fn back(known: Known, target: f64, air: (f64, f64)) -> Option<Interval> {
    let (air, off) = air;
    let spread = TENTH * known.u.to_f64();
    let minutes = |start: f64, air: f64, tau_min: f64| {
        let cooling = Cooling { start_celsius: start, air_celsius: air, tau_min };
        cooling.down_to(target).ok().flatten().map(|down| down.minutes)
    };
    let t = known.celsius.to_f64();
    let median = minutes(t, air, (TAU_COOLING_MIN.0 * TAU_COOLING_MIN.1).sqrt())?;
    let low = minutes(t - spread, air - off, TAU_COOLING_MIN.0)?.min(median * STEADY.0);
    let high = minutes(t + spread, air + off, TAU_COOLING_MIN.1)?.max(median * STEADY.1);
    Some(interval(low, median, high))
}

/// Minutes until a first-order rise that starts at `s` K/min has risen by `rise` K. `None` if it levels off before.
///
/// `T - T0 = s*tau*(1 - exp(-t/tau))`, so `t = -tau*ln(1 - rise/(s*tau))`.
fn approach(rise: f64, s: f64, tau_min: f64) -> Option<f64> {
    let left = 1.0 - rise / (s * tau_min);
    (s > 0.0 && left > 0.0).then(|| -tau_min * left.ln())
}

fn interval(low: f64, median: f64, high: f64) -> Interval {
    let seconds = |minutes: f64| (minutes * 600.0).round() / 10.0;
    Interval { low: seconds(low), median: seconds(median), high: seconds(high), coverage: COVERAGE }
}

/// The share of cases that an interval is meant to cover; not yet calibrated on recordings.
/// Own choice: four in five; what covers more is too wide to plan with.
const COVERAGE: f64 = 0.8;
/// Standard normal quantile of 90 %: one tenth on either side of an interval of 80 %.
/// By definition.
const TENTH: f64 = 1.281_551_565_5;
/// A slope counts as upward from this many of its standard uncertainties on.
/// Own choice: 1 in 40 by chance.
const CLEARLY: f64 = 2.0;
/// The spread of a vehicle that idles or cools.
/// Source: physics page, section 7: ±20 % of the remaining time.
pub(crate) const STEADY: (f64, f64) = (0.8, 1.2);
/// The spread of coolant in a vehicle that may be driven.
/// Source: measured: in 40 recorded warm-ups of one car (fixtures/warmups) four in five of the true times lay between 0.7 and 2.0
/// times the median below 45 °C, 0.35 and 2.2 times above 50 °C.
pub(crate) const DRIVEN: (f64, f64) = (0.34, 2.2);
/// So many of its own errors an interval reaches down and up: of a fluid, of coolant.
/// Source: measured on idling vehicles of the rehearsal (`tests/idle.rs`), such that four in five fit; upward further, since what
/// levels off takes longer.
pub(crate) const OF_FLUID: (f64, f64) = (0.5, 1.0);
pub(crate) const OF_COOLANT: (f64, f64) = (0.8, 1.8);
/// The same where an earlier job knows the way: then little levels off unforeseen.
/// Source: measured on the same vehicles.
pub(crate) const OF_COOLANT_AGAIN: (f64, f64) = (0.55, 1.1);
/// The last turn is as uncertain as the last third of a way of three.
/// Own choice: of it most is noise at the edge of a step.
const LEAST_THIRDS: f64 = 0.5;
/// How relative errors grow with the way ahead.
/// Own choice: slowly, since what is off in the rate is off in all of it alike.
const GROWS: f64 = 0.2;
/// Time constant of the exponential approach, min: middle, and the short one for the late end.
/// Source: physics page, section 7 (45 kJ/K over the conductance to air and a little exchange); estimates from memory.
const TAU_MIDDLE_MIN: f64 = 60.0;
const TAU_SHORT_MIN: f64 = 25.0;
/// Time constants of cooling with the engine off, min.
/// Source: physics page, section 7.
const TAU_COOLING_MIN: (f64, f64) = (50.0, 80.0);
/// Further ahead than this nothing is promised, min.
/// Own choice: longer than any warm-up, and than anybody waits.
const FURTHEST_MIN: f64 = 120.0;
/// The air while none was read: °C, and how far off either way, K.
/// Own choice: workshops and yards.
pub(crate) const AIR_UNKNOWN: (f64, f64) = (20.0, 10.0);
/// How far the air under the vehicle may be from the temperature that was read, K.
/// Source: from memory.
pub(crate) const AIR_READ_OFF: f64 = 3.0;

/// What is the arithmetic's, in steps.
/// By definition: what is the arithmetic's.
const EXACT: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::slope::Slope;

    fn line(value: f64, c_min: f64, u_c_min: f64) -> Line {
        Line { slope: Slope { c_min, u_c_min }, value }
    }

    #[test]
    fn a_forecast_is_an_interval_around_line_and_approach() {
        let ten = until(line(30.0, 1.0, 0.1), 40.0, STEADY).unwrap();
        // Straight: 600 s. Approach with 60 min: -60*ln(1 - 10/60) = 10.94 min. Median half-way: 628 s.
        assert!((ten.median - 628.2).abs() < 0.2, "{ten:?}");
        assert!(ten.low <= 0.8 * ten.median && ten.high >= 1.2 * ten.median && ten.coverage == 0.8);
    }

    #[test]
    fn nothing_is_promised_of_a_slope_that_is_not_clearly_upward() {
        assert_eq!(until(line(30.0, 0.2, 0.1), 40.0, STEADY), None);
        assert_eq!(until(line(30.0, -1.0, 0.1), 40.0, STEADY), None);
        assert_eq!(until(line(30.0, 0.3, 0.01), 40.0, STEADY), None, "it may level off before");
    }

    #[test]
    fn cooling_takes_what_newton_says() {
        // fixtures/reference/physics/newton_cooling.csv, row 1: 60 to 45 °C in 25 °C air, 80 min: 44.77 min.
        let known = Known::new(60.0, 0.0, None, 1.0).unwrap();
        let back_in = back(known, 45.0, (25.0, 0.0)).unwrap();
        assert!((back_in.high - 44.769_263_03 * 60.0).abs() < 0.1, "{back_in:?}");
        assert!(back_in.low < back_in.median && back_in.median < back_in.high);
        assert_eq!(back(known, 25.0, (25.0, 0.0)), None, "the air is as warm: never");
    }

    #[test]
    fn a_display_turns_at_its_own_steps() {
        assert_eq!(Display { level: 30.0, step: 1.0 }.shown_from(36.42), 37.0);
        assert_eq!(Display { level: 30.0, step: 1.0 }.shown_from(37.0), 37.0);
        assert!((Display { level: 30.3, step: 0.5 }.shown_from(36.42) - 36.8).abs() < 1e-9);
    }
}
