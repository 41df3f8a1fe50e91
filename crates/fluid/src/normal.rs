//! The normal distribution: its distribution function and the inverse of it.
//!
//! In: a number of standard deviations, or a probability. Out: the other one. Good to some 1e-15, tails included.
//! Not here: what the probability is used for (`measurement.rs`).
//! Source: the power series and the continued fraction of the tail, Abramowitz and Stegun 26.2.11 and 26.2.14.

use crate::{FluidError, range};

/// Probability that a standard normal variable is at most `z`. Not-a-number stays what it is.
///
/// Source: within 2 standard deviations `1/2 + d(z)*(z + z^3/3 + z^5/(3*5) + ...)`; beyond, the continued fraction of
/// the tail `d(z)/(z + 1/(z + 2/(z + ...)))`, which keeps its digits where the probability is tiny.
pub fn phi(z: f64) -> f64 {
    if z.is_nan() {
        z
    } else if z < -SERIES_UP_TO {
        tail(-z)
    } else if z > SERIES_UP_TO {
        1.0 - tail(z)
    } else {
        0.5 + series(z)
    }
}

/// Density of the standard normal distribution at `z`.
pub fn density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / (2.0 * core::f64::consts::PI).sqrt()
}

/// Probability that a standard normal variable lies in `low..=high`: the difference of two [`phi`], taken on the side
/// where it keeps its digits. Zero when `low > high`.
pub fn between(low: f64, high: f64) -> f64 {
    if low.is_nan() || high.is_nan() || low >= high {
        0.0
    } else if low > 0.0 {
        phi(-low) - phi(-high)
    } else {
        phi(high) - phi(low)
    }
}

/// The `z` below which a standard normal variable lies with `probability`.
///
/// # Errors
/// Outside [`range::PROBABILITY`]: 0 and 1 have no finite answer, and next to 1 no digits are left.
///
/// Source: a rational first guess (Abramowitz and Stegun 26.2.23, 4.5e-4) and Newton steps on [`phi`].
pub fn quantile(probability: f64) -> Result<f64, FluidError> {
    let p = range::PROBABILITY.check(probability)?;
    let (q, side) = if p < 0.5 { (p, -1.0) } else { (1.0 - p, 1.0) };
    let t = (-2.0 * q.ln()).sqrt();
    let top = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let bottom = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut z = t - top / bottom;
    for _ in 0..NEWTON_STEPS {
        // Halley's correction of the Newton step; `phi(-z)` is the tail with all its digits.
        let step = (phi(-z) - q) / density(z);
        z += step / (1.0 - 0.5 * z * step);
    }
    Ok(side * z)
}

fn series(z: f64) -> f64 {
    let mut term = z;
    let mut sum = z;
    for k in 1..SERIES_TERMS {
        term *= z * z / f64::from(2 * k + 1);
        sum += term;
    }
    density(z) * sum
}

fn tail(z: f64) -> f64 {
    let mut fraction = z;
    for k in (1..FRACTION_DEPTH).rev() {
        fraction = z + f64::from(k) / fraction;
    }
    density(z) / fraction
}

/// From where to where the series is taken, its terms; the depth of the fraction beyond; steps of the inverse.
/// Own choice: so many that the last one is below the rounding of the sum (tests against
/// fixtures/reference/physics/normal_quantile.csv).
const SERIES_UP_TO: f64 = 2.0;
const SERIES_TERMS: i32 = 60;
const FRACTION_DEPTH: i32 = 120;
const NEWTON_STEPS: u32 = 4;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn known_values_come_out_to_all_their_digits() {
        // Abramowitz and Stegun, table 26.1 (15 digits) and 26.2 (tails).
        let cases: &[(f64, f64)] = &[
            (0.0, 0.5),
            (0.5, 0.691_462_461_274_013),
            (1.0, 0.841_344_746_068_543),
            (1.96, 0.975_002_104_851_780),
            (2.0, 0.977_249_868_051_821),
            (3.0, 0.998_650_101_968_370),
            (-1.0, 0.158_655_253_931_457),
            (-5.0, 2.866_515_718_791_94e-7),
            (-10.0, 7.619_853_024_160_53e-24),
        ];
        for &(z, want) in cases {
            assert!((phi(z) / want - 1.0).abs() < 1e-13, "phi({z}) = {} instead of {want}", phi(z));
        }
    }

    #[test]
    fn the_two_ways_of_computing_meet_without_a_step() {
        for z in [SERIES_UP_TO, -SERIES_UP_TO] {
            let (a, b) = (phi(z * (1.0 - 1e-15)), phi(z * (1.0 + 1e-15)));
            assert!((a / b - 1.0).abs() < 1e-13, "{a} {b}");
        }
    }

    #[test]
    fn certainty_has_no_quantile() {
        assert!(quantile(0.0).is_err() && quantile(1.0).is_err() && quantile(f64::NAN).is_err());
        assert_eq!(phi(f64::INFINITY), 1.0);
        assert_eq!(phi(f64::NEG_INFINITY), 0.0);
        assert!(phi(f64::NAN).is_nan());
    }

    proptest! {
        #[test]
        fn both_sides_add_up_to_one(z in -8.0..8.0) {
            prop_assert!((phi(z) + phi(-z) - 1.0).abs() < 1e-15);
        }

        #[test]
        fn phi_never_falls(z in -30.0..30.0, dz in 0.0..1.0) {
            prop_assert!(phi(z + dz) >= phi(z));
        }

        #[test]
        fn the_quantile_of_phi_is_where_it_was(z in -7.9..5.0) {
            let back = quantile(phi(z)).unwrap();
            prop_assert!((back - z).abs() < 1e-9, "{back} for {z}");
        }
    }
}
