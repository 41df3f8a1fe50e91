//! Millilitres and millimetres: how much higher the surface stands when fluid is added.
//!
//! In: a volume error and the free surface at the height of the rim. Out: a height, and back.
//! Not here: where the volume error comes from (`volume.rs`, `tilt.rs`, `run_out`).
//! Source: `dh = dV/A`, exact for small heights only. A usual sump has 0.045 to 0.09 m² (from memory), less where
//! the valve body and the filter pierce the surface; 20 % is a fair standard uncertainty.

use crate::{FluidError, range, volume};

/// Relative standard uncertainty of the free surface where nobody measured it.
/// Source: from memory: valve body and filter pierce it.
pub const U_AREA_RELATIVE: f64 = 0.2;

/// A level error as volume and as height; positive is too much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelError {
    /// In mL.
    pub millilitres: f64,
    /// In mm over the right level.
    pub millimetres: f64,
}

/// Height of `error_ml` on a free surface of `area_m2`, mm. 60 mL on 0.060 m² is 1 mm.
///
/// # Errors
/// Outside [`range::CHANGE_ML`] or [`range::AREA_M2`].
pub fn height_mm(error_ml: f64, area_m2: f64) -> Result<f64, FluidError> {
    Ok(range::CHANGE_ML.check(error_ml)? / range::AREA_M2.check(area_m2)? / ML_PER_M2_MM)
}

/// Volume of a height of `millimetres` on `area_m2`, mL.
///
/// # Errors
/// Outside [`range::HEIGHT_MM`] or [`range::AREA_M2`].
pub fn volume_ml(millimetres: f64, area_m2: f64) -> Result<f64, FluidError> {
    Ok(range::HEIGHT_MM.check(millimetres)? * range::AREA_M2.check(area_m2)? * ML_PER_M2_MM)
}

/// The level error of a level set at the wrong temperature.
///
/// # Errors
/// An input outside its range.
pub fn from_temperature(set: volume::SetAt, area_m2: f64) -> Result<LevelError, FluidError> {
    let millilitres = volume::set_error_ml(set)?;
    Ok(LevelError { millilitres, millimetres: height_mm(millilitres, area_m2)? })
}

/// One square metre, one millimetre deep: a litre.
/// By definition.
const ML_PER_M2_MM: f64 = 1_000.0;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_sump_without_a_surface_is_refused() {
        assert!(matches!(
            height_mm(60.0, 0.0),
            Err(FluidError::OutsideRange { quantity: "free surface", .. })
        ));
    }

    proptest! {
        #[test]
        fn height_and_volume_are_each_others_inverse(ml in -5_000.0..5_000.0, area in 0.01..0.5) {
            let back = volume_ml(height_mm(ml, area).unwrap(), area).unwrap();
            prop_assert!((back - ml).abs() < 1e-9);
        }
    }
}
