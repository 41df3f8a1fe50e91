//! What is known of a temperature that was read: its uncertainty, and whether the truth lies in the band.
//!
//! In: resolution, age, slope, a band. Out: standard uncertainties, probabilities, acceptance intervals.
//! Not here: the estimate itself and the verdict (the gate), the distribution function (`normal.rs`).
//! Source: JCGM 100 (propagation), JCGM 106:2012 (probability of conformity, guard band), ILAC-G8:09/2019 (guard
//! band of k = 2). A quantised slow ramp is not independent from sample to sample: averaging does not shrink it.

use units::{Celsius, Kelvins};

use crate::{FluidError, normal, range};

/// Guard factor unless the sheet says otherwise. Source: ILAC-G8:09/2019, false acceptance below 2.5 %.
pub const GUARD_FACTOR: f64 = 2.0;

/// A reading that is some seconds old, on a ramp.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OldReading {
    /// Resolution of the value, °C.
    pub step_c: f64,
    /// Standard uncertainty of the sensor, °C.
    pub u_sensor_c: f64,
    /// How fast the temperature rises, °C/min.
    pub slope_c_min: f64,
    /// Standard uncertainty of that, °C/min.
    pub u_slope_c_min: f64,
    /// How old the reading is, s.
    pub age_s: f64,
    /// How long the value may have been under way before it arrived, s; anything from none to this is as likely.
    pub latency_s: f64,
    /// Whatever else there is, as a standard uncertainty, °C.
    pub u_other_c: f64,
}

/// What to add to an old reading, and how well the sum is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BroughtForward {
    /// To be added to the reading, °C.
    pub shift_c: f64,
    /// Standard uncertainty of the sum, °C.
    pub u_c: f64,
}

/// How well a straight line through equal readings is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineUncertainty {
    /// Of its slope, °C/min.
    pub u_slope_c_min: f64,
    /// Of its value at the last reading, °C.
    pub u_end_c: f64,
}

/// A tolerance interval, a standard uncertainty and a guard factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guard {
    /// Lower limit, °C.
    pub low: f64,
    /// Upper limit, °C.
    pub high: f64,
    /// Standard uncertainty of what will be judged, °C.
    pub u: f64,
    /// How many of them to stay away from the limits.
    pub k: f64,
}

/// Where a value may lie so that the whole guarded interval is in the band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acceptance {
    /// Width of the guard on each side, °C.
    pub guard_band: f64,
    /// From where to where; `None` when the guards meet.
    pub interval: Option<(f64, f64)>,
    guard: Guard,
}

impl Acceptance {
    /// Whether a value is accepted. An empty interval accepts nothing, and neither does not-a-number.
    pub fn accepts(&self, value: f64) -> bool {
        self.interval.is_some_and(|(low, high)| (low..=high).contains(&value))
    }

    /// Probability that the truth is in the band for a value right at the lower acceptance limit; `None` when the
    /// interval is empty. Computed when asked: the verdict needs only the interval, many times a second.
    pub fn probability_at_limit(&self) -> Option<f64> {
        let (from, _) = self.interval?;
        let Guard { low, high, u, .. } = self.guard;
        probability_in_band(from, u, Some(low), Some(high)).ok()
    }
}

/// Standard uncertainty of a value with resolution `step`, in its unit: `step/sqrt(12)`. 1 °C gives 0.289 °C.
///
/// # Errors
/// Below zero or not a number.
///
/// Source: JCGM 100, F.2.2.1. A module that truncates instead of rounding is low by half a step on top.
pub fn quantisation_u(step: f64) -> Result<f64, FluidError> {
    Ok(range::U_CELSIUS.named("resolution").check(step)? / 12.0_f64.sqrt())
}

/// Standard uncertainty of limits `half_width` on either side: `a/sqrt(3)`.
///
/// # Errors
/// Below zero or not a number.
///
/// Source: JCGM 100, 4.3.7.
pub fn half_width_u(half_width: f64) -> Result<f64, FluidError> {
    Ok(range::U_CELSIUS.named("half width").check(half_width)? / 3.0_f64.sqrt())
}

/// Brings an old reading forward along its slope.
///
/// # Errors
/// An input outside its range.
///
/// Source: JCGM 100: `shift = s*(age + latency/2)`,
/// `u^2 = step^2/12 + us^2 + (age*u_s)^2 + (s*latency)^2/12 + uo^2`.
pub fn bring_forward(reading: OldReading) -> Result<BroughtForward, FluidError> {
    let resolution = quantisation_u(reading.step_c)?;
    let sensor = range::U_CELSIUS.check(reading.u_sensor_c)?;
    let other = range::U_CELSIUS.check(reading.u_other_c)?;
    let slope = range::RATE_C_MIN.named("slope").check(reading.slope_c_min)?;
    let u_slope = range::U_CELSIUS.named("uncertainty of the slope").check(reading.u_slope_c_min)?;
    let age_min = range::SECONDS.named("age").check(reading.age_s)? / 60.0;
    let latency_min = range::SECONDS.named("latency").check(reading.latency_s)? / 60.0;
    let aged = age_min * u_slope;
    let delayed = slope * latency_min / 12.0_f64.sqrt();
    let squares = [resolution, sensor, aged, delayed, other].iter().map(|u| u * u).sum::<f64>();
    Ok(BroughtForward { shift_c: slope * (age_min + latency_min / 2.0), u_c: squares.sqrt() })
}

/// How well a line through `points` readings, `interval_s` apart, each of independent `u_point_c`, is known.
///
/// # Errors
/// Fewer than 2 points or more than a million; an input outside its range.
///
/// Source: ordinary least squares. For equal spacing `Sxx = interval^2*n*(n^2 - 1)/12`. Not for quantised slow
/// ramps, whose errors are not independent: use at least 3 min of data with one-degree steps.
pub fn line_u(u_point_c: f64, interval_s: f64, points: usize) -> Result<LineUncertainty, FluidError> {
    let u = range::U_CELSIUS.check(u_point_c)?;
    let interval = range::TAU_MIN.named("interval").check(interval_s / 60.0)?;
    if !(2..=1_000_000).contains(&points) {
        return Err(FluidError::Count { quantity: "points of a line", got: points, low: 2, high: 1_000_000 });
    }
    let n = points as f64;
    let sxx = interval * interval * n * (n * n - 1.0) / 12.0;
    let half = interval * (n - 1.0) / 2.0;
    Ok(LineUncertainty { u_slope_c_min: u / sxx.sqrt(), u_end_c: u * (1.0 / n + half * half / sxx).sqrt() })
}

/// Probability that the truth lies between `low` and `high`, for an estimate with standard uncertainty `u`. `None`
/// for a limit is no limit on that side. Without uncertainty it is 1 inside and 0 outside, limits included.
///
/// # Errors
/// `u` below zero; a limit, an estimate or a pair of limits that is none.
///
/// Source: JCGM 106:2012, 7.2 to 7.4: `Phi((TU - y)/u) - Phi((TL - y)/u)`.
pub fn probability_in_band(
    estimate: f64,
    u: f64,
    low: Option<f64>,
    high: Option<f64>,
) -> Result<f64, FluidError> {
    let y = ANY.named("estimate").check(estimate)?;
    let u = range::U_CELSIUS.check(u)?;
    let low = low.map(|l| ANY.named("lower limit").check(l)).transpose()?.unwrap_or(f64::NEG_INFINITY);
    let high = high.map(|h| ANY.named("upper limit").check(h)).transpose()?.unwrap_or(f64::INFINITY);
    if low > high {
        return Err(limits_crossed(low, high));
    }
    if u == 0.0 {
        return Ok(if (low..=high).contains(&y) { 1.0 } else { 0.0 });
    }
    Ok(normal::between((low - y) / u, (high - y) / u))
}

/// The interval in which a value is accepted: the band less `k*u` at both ends; none when the guards cross.
///
/// # Errors
/// Limits in the wrong order, `u` or `k` below zero, not-a-number.
///
/// Source: JCGM 106:2012, 8.3 (guarded acceptance).
pub fn acceptance(guard: Guard) -> Result<Acceptance, FluidError> {
    let low = ANY.named("lower limit").check(guard.low)?;
    let high = ANY.named("upper limit").check(guard.high)?;
    if low > high {
        return Err(limits_crossed(low, high));
    }
    let u = range::U_CELSIUS.check(guard.u)?;
    let guard_band = range::GUARD_FACTOR.check(guard.k)? * u;
    let (from, to) = (low + guard_band, high - guard_band);
    if from > to {
        return Ok(Acceptance { guard_band, interval: None, guard });
    }
    Ok(Acceptance { guard_band, interval: Some((from, to)), guard })
}

/// Whether the whole guarded interval `estimate ± k*u` lies in `low..=high`, for stored quantities.
///
/// # Errors
/// As [`acceptance`].
pub fn accepts(
    estimate: Celsius,
    u: Kelvins,
    low: Celsius,
    high: Celsius,
    k: f64,
) -> Result<bool, FluidError> {
    let guard = Guard { low: low.to_f64(), high: high.to_f64(), u: u.to_f64(), k };
    Ok(acceptance(guard)?.accepts(estimate.to_f64()))
}

fn limits_crossed(low: f64, high: f64) -> FluidError {
    FluidError::Contradiction {
        first: "lower limit",
        first_value: low,
        second: "upper limit",
        second_value: high,
        why: "the lower one must not lie above the upper one",
    }
}

/// The formulas of conformity do not care what is measured; only that it is a number.
const ANY: range::Range = range::ANY;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_guarded_interval_includes_its_ends_and_an_empty_one_accepts_nothing() {
        let narrow = acceptance(Guard { low: 35.0, high: 45.0, u: 1.0, k: 2.0 }).unwrap();
        assert!(narrow.accepts(37.0) && narrow.accepts(43.0) && !narrow.accepts(36.999));
        assert!(!narrow.accepts(f64::NAN));
        let empty = acceptance(Guard { low: 35.0, high: 45.0, u: 3.0, k: 2.0 }).unwrap();
        assert!(!empty.accepts(40.0));
    }

    #[test]
    fn without_uncertainty_a_value_is_in_or_out() {
        assert_eq!(probability_in_band(35.0, 0.0, Some(35.0), Some(45.0)), Ok(1.0));
        assert_eq!(probability_in_band(34.9, 0.0, Some(35.0), Some(45.0)), Ok(0.0));
    }

    #[test]
    fn crossed_limits_are_refused() {
        assert!(matches!(
            acceptance(Guard { low: 45.0, high: 35.0, u: 1.0, k: 2.0 }),
            Err(FluidError::Contradiction { .. })
        ));
        assert!(probability_in_band(40.0, 1.0, Some(45.0), Some(35.0)).is_err());
        assert!(probability_in_band(40.0, -1.0, Some(35.0), Some(45.0)).is_err());
    }

    #[test]
    fn one_reading_makes_no_line() {
        assert!(matches!(line_u(0.3, 1.0, 1), Err(FluidError::Count { got: 1, .. })));
    }

    proptest! {
        #[test]
        fn more_uncertainty_never_widens_the_acceptance(u in 0.0..5.0, more in 0.0..5.0, y in 30.0..50.0) {
            let at = |u| acceptance(Guard { low: 35.0, high: 45.0, u, k: 2.0 }).unwrap().accepts(y);
            prop_assert!(!at(u + more) || at(u));
        }

        #[test]
        fn an_older_reading_is_never_better_known(age in 0.0..600.0, more in 0.0..600.0, slope in -3.0..3.0) {
            let at = |age_s| bring_forward(OldReading {
                step_c: 1.0, u_sensor_c: 0.5, slope_c_min: slope, u_slope_c_min: 0.3, age_s, ..Default::default()
            }).unwrap().u_c;
            prop_assert!(at(age + more) >= at(age));
        }

        #[test]
        fn what_is_accepted_is_in_the_band_with_the_promised_probability(
            y in 30.0..50.0, u in 0.01..2.0, k in 0.5..3.0,
        ) {
            let guard = acceptance(Guard { low: 35.0, high: 45.0, u, k }).unwrap();
            prop_assume!(guard.accepts(y));
            let p = probability_in_band(y, u, Some(35.0), Some(45.0)).unwrap();
            prop_assert!(p >= normal::phi(k) - normal::phi(-k) - 1e-12);
        }
    }
}
