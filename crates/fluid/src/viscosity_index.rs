//! The viscosity index: how little a fluid thins with temperature.
//!
//! In: viscosities at 40 and 100 °C. Out: the index, whole as it is reported. Not here: the viscosity at other
//! temperatures (`viscosity.rs`), the table itself (`table.rs` below).
//! Source: ASTM D2270, procedures A (index up to 100) and B (above).

mod table;

use crate::{FluidError, range};
use table::LH;

/// Viscosities at 40 °C of the two reference fluids that have the same viscosity at 100 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct References {
    /// Of the fluid with index 0, mm²/s.
    pub l: f64,
    /// Of the fluid with index 100, mm²/s.
    pub h: f64,
}

/// L and H for a viscosity at 100 °C. `None` below 2 mm²/s, where the index is not defined.
///
/// # Errors
/// Outside [`range::MM2_S`].
///
/// Source: linear between the rows of the table up to 70 mm²/s, beyond by the two polynomials of the standard.
pub fn references(at_100_mm2_s: f64) -> Result<Option<References>, FluidError> {
    let y = range::MM2_S.named("viscosity at 100 °C").check(at_100_mm2_s)?;
    let above = LH.partition_point(|row| row.0 <= y);
    let Some((low, _)) = above.checked_sub(1).and_then(|i| LH.get(i)).zip(LH.last()) else { return Ok(None) };
    let Some(high) = LH.get(above) else {
        return Ok(Some(beyond_the_table(y, low)));
    };
    let part = (y - low.0) / (high.0 - low.0);
    Ok(Some(References { l: low.1 + part * (high.1 - low.1), h: low.2 + part * (high.2 - low.2) }))
}

/// The viscosity index with all its digits. `None` below 2 mm²/s at 100 °C.
///
/// # Errors
/// Outside [`range::MM2_S`].
pub fn viscosity_index(at_40_mm2_s: f64, at_100_mm2_s: f64) -> Result<Option<f64>, FluidError> {
    let u = range::MM2_S.named("viscosity at 40 °C").check(at_40_mm2_s)?;
    let Some(References { l, h }) = references(at_100_mm2_s)? else { return Ok(None) };
    if u > h {
        return Ok(Some(100.0 * (l - u) / (l - h)));
    }
    let n = (h / u).log10() / at_100_mm2_s.log10();
    Ok(Some((10.0_f64.powf(n) - 1.0) / 0.007_15 + 100.0))
}

/// As it is reported: a whole number, halves to the even one.
///
/// # Errors
/// As [`viscosity_index`].
pub fn reported(at_40_mm2_s: f64, at_100_mm2_s: f64) -> Result<Option<f64>, FluidError> {
    Ok(viscosity_index(at_40_mm2_s, at_100_mm2_s)?.map(f64::round_ties_even))
}

/// At 70 mm²/s the last row holds; above, the polynomials.
fn beyond_the_table(y: f64, last: &(f64, f64, f64)) -> References {
    if y <= last.0 {
        return References { l: last.1, h: last.2 };
    }
    References { l: (0.835_3 * y + 14.67) * y - 216.0, h: (0.168_4 * y + 11.85) * y - 97.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_table_rises_without_a_gap() {
        for pair in LH.windows(2) {
            let ((y0, l0, h0), (y1, l1, h1)) = (pair[0], pair[1]);
            assert!(y0 < y1 && l0 < l1 && h0 < h1 && l1 > h1, "at {y1}");
        }
        assert_eq!((LH[0].0, LH[LH.len() - 1].0), (2.0, 70.0));
    }

    #[test]
    fn table_and_polynomials_meet_at_70() {
        let (at, beyond) = (references(70.0).unwrap().unwrap(), references(70.000_001).unwrap().unwrap());
        assert!((at.l / beyond.l - 1.0).abs() < 1e-3 && (at.h / beyond.h - 1.0).abs() < 1e-3);
    }

    #[test]
    fn below_2_there_is_no_index() {
        assert_eq!(viscosity_index(5.0, 1.999), Ok(None));
        assert!(viscosity_index(5.0, 2.0).unwrap().is_some());
    }

    #[test]
    fn the_reference_fluids_have_the_index_they_are_named_for() {
        let References { l, h } = references(7.25).unwrap().unwrap();
        assert!(viscosity_index(l, 7.25).unwrap().unwrap().abs() < 1e-9);
        assert!((viscosity_index(h, 7.25).unwrap().unwrap() - 100.0).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn thicker_in_the_cold_is_a_lower_index(y in 2.0..100.0, u in 5.0..500.0, more in 0.01..50.0) {
            let index = |u| viscosity_index(u, y).unwrap().unwrap();
            prop_assert!(index(u + more) < index(u));
        }
    }
}
