//! Changing fluid by draining and filling: how much is fresh after some rounds, and how many rounds it takes.
//!
//! In: the whole volume, what is exchanged each time. Out: fractions, rounds. Not here: what a mixture is like
//! (`mixing.rs`, `viscosity.rs`).
//! Source: `old = product of (1 - d/V)`. Perfect mixing between rounds is assumed: without idling through the gears
//! the share in the converter lags, and the real figure is lower.

use crate::{FluidError, range};

/// How many rounds it takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rounds {
    /// As a real number.
    pub exact: f64,
    /// The next whole number.
    pub whole: u32,
}

/// Fraction of fresh fluid after `times` rounds of `each_ml` out of `total_ml`.
///
/// # Errors
/// Outside [`range::TOTAL_ML`] or [`range::ROUNDS`]; more exchanged than there is.
pub fn fresh_fraction(total_ml: f64, each_ml: f64, times: u32) -> Result<f64, FluidError> {
    let old = old_after_one(total_ml, each_ml)?;
    let times = range::ROUNDS.check(f64::from(times))?;
    Ok(1.0 - old.powf(times))
}

/// Fraction of fresh fluid after the rounds in `each_ml`, which may differ; none at all is 0.
///
/// # Errors
/// As [`fresh_fraction`], for each round.
pub fn fresh_after(total_ml: f64, each_ml: &[f64]) -> Result<f64, FluidError> {
    range::TOTAL_ML.check(total_ml)?;
    let mut old = 1.0;
    for each in each_ml {
        old *= old_after_one(total_ml, *each)?;
    }
    Ok(1.0 - old)
}

/// Rounds of `each_ml` out of `total_ml` until `target` of the fluid is fresh. `None`: never, since nothing is
/// exchanged, or since all of it is asked for and some always stays.
///
/// # Errors
/// As [`fresh_fraction`]; a target outside 0 to 1.
///
/// Source: `n = ln(1 - target)/ln(1 - d/V)`, less 1e-12 before the next whole number, so that an exact hit adds none.
pub fn rounds_for(total_ml: f64, each_ml: f64, target: f64) -> Result<Option<Rounds>, FluidError> {
    let old = old_after_one(total_ml, each_ml)?;
    let target = range::FRACTION.named("target fraction").check(target)?;
    if target == 0.0 {
        return Ok(Some(Rounds { exact: 0.0, whole: 0 }));
    }
    if old == 0.0 {
        return Ok(Some(Rounds { exact: 1.0, whole: 1 }));
    }
    if old == 1.0 || target == 1.0 {
        return Ok(None);
    }
    let exact = (-target).ln_1p() / old.ln();
    // As a cast saturates, an exchange of next to nothing gives a very large number, not a wrong one.
    Ok(Some(Rounds { exact, whole: (exact - EXACT_HIT).ceil() as u32 }))
}

/// What is still old after one round.
fn old_after_one(total_ml: f64, each_ml: f64) -> Result<f64, FluidError> {
    let total = range::TOTAL_ML.check(total_ml)?;
    let each = range::VOLUME_ML.named("exchanged volume").check(each_ml)?;
    if each > total {
        return Err(FluidError::Contradiction {
            first: "exchanged volume",
            first_value: each,
            second: "total volume",
            second_value: total,
            why: "more cannot be drained than there is",
        });
    }
    Ok(1.0 - each / total)
}

/// So much above a whole number is that number.
/// Own choice: a thousand times the rounding of the logarithms; larger would save a round that is needed.
const EXACT_HIT: f64 = 1e-12;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_ends_of_the_scale_are_what_they_say() {
        assert_eq!(rounds_for(8_000.0, 0.0, 0.5), Ok(None), "nothing exchanged");
        assert_eq!(rounds_for(8_000.0, 4_000.0, 1.0), Ok(None), "some always stays");
        assert_eq!(
            rounds_for(8_000.0, 8_000.0, 1.0),
            Ok(Some(Rounds { exact: 1.0, whole: 1 })),
            "all at once"
        );
        assert_eq!(rounds_for(8_000.0, 4_000.0, 0.0), Ok(Some(Rounds { exact: 0.0, whole: 0 })));
        assert_eq!(fresh_after(8_000.0, &[]), Ok(0.0));
    }

    #[test]
    fn more_than_there_is_cannot_be_exchanged() {
        assert!(matches!(fresh_fraction(8_000.0, 8_001.0, 1), Err(FluidError::Contradiction { .. })));
        assert!(rounds_for(8_000.0, 4_000.0, 1.1).is_err());
    }

    proptest! {
        #[test]
        fn the_rounds_reach_the_target_and_one_fewer_does_not(
            total in 4_000.0..15_000.0, share in 0.05..0.95, target in 0.05..0.99,
        ) {
            let each = total * share;
            let rounds = rounds_for(total, each, target).unwrap().unwrap();
            prop_assert!(fresh_fraction(total, each, rounds.whole).unwrap() >= target - 1e-9);
            prop_assert!(fresh_fraction(total, each, rounds.whole - 1).unwrap() < target + 1e-9);
        }

        #[test]
        fn equal_rounds_are_a_sequence_of_equal_rounds(share in 0.0..1.0, times in 0_u32..12) {
            let one = fresh_fraction(9_000.0, 9_000.0 * share, times).unwrap();
            let other = fresh_after(9_000.0, &vec![9_000.0 * share; times as usize]).unwrap();
            prop_assert!((one - other).abs() < 1e-12);
        }

        #[test]
        fn the_order_of_rounds_does_not_matter(a in 0.0..8_000.0, b in 0.0..8_000.0) {
            let one = fresh_after(8_000.0, &[a, b]).unwrap();
            prop_assert!((one - fresh_after(8_000.0, &[b, a]).unwrap()).abs() < 1e-12);
        }
    }
}
