//! How thick the fluid is at a temperature, and how thick a blend is.
//!
//! In: kinematic viscosities at two temperatures. Out: the viscosity at any other. Not here: the viscosity index
//! (`viscosity_index.rs`).
//! Source: ASTM D341, `log10 log10(nu + 0.7) = A - B*log10 T` through two points. Good for 2 mm²/s and more, above the
//! cloud point, between the points and somewhat beyond (below 2 the full form has further terms, from memory).

use crate::{FluidError, range};

/// A fluid by the line through two of its viscosities.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walther {
    a: f64,
    b: f64,
}

impl Walther {
    /// The usual data sheet: viscosities at 40 and 100 °C, mm²/s.
    ///
    /// # Errors
    /// Outside [`range::MM2_S`]; a fluid that grows thicker with temperature.
    pub fn from_40_and_100(at_40_mm2_s: f64, at_100_mm2_s: f64) -> Result<Self, FluidError> {
        Self::through((at_40_mm2_s, 40.0 + ZERO_CELSIUS_K), (at_100_mm2_s, 100.0 + ZERO_CELSIUS_K))
    }

    /// Through two points of mm²/s and K, in either order.
    ///
    /// # Errors
    /// Outside [`range::MM2_S`] or [`range::KELVIN`]; equal temperatures; a fluid that grows thicker with temperature.
    pub fn through(one: (f64, f64), other: (f64, f64)) -> Result<Self, FluidError> {
        let (cold, hot) = if one.1 <= other.1 { (one, other) } else { (other, one) };
        let (w_cold, w_hot) = (double_log(cold.0)?, double_log(hot.0)?);
        let t_cold = range::KELVIN.check(cold.1)?.log10();
        let t_hot = range::KELVIN.check(hot.1)?.log10();
        if t_cold == t_hot {
            return Err(FluidError::Contradiction {
                first: "first temperature",
                first_value: one.1,
                second: "second temperature",
                second_value: other.1,
                why: "two points need two temperatures",
            });
        }
        if hot.0 > cold.0 {
            return Err(FluidError::Contradiction {
                first: "cold viscosity",
                first_value: cold.0,
                second: "hot viscosity",
                second_value: hot.0,
                why: "a fluid does not grow thicker when it warms",
            });
        }
        let b = (w_cold - w_hot) / (t_hot - t_cold);
        Ok(Self { a: w_cold + b * t_cold, b })
    }

    /// Kinematic viscosity at `celsius`, mm²/s.
    ///
    /// # Errors
    /// Outside [`range::KELVIN`] (-100 to 300 °C); a viscosity beyond [`range::MM2_S`].
    pub fn mm2_s(&self, celsius: f64) -> Result<f64, FluidError> {
        self.mm2_s_at_kelvin(celsius + ZERO_CELSIUS_K)
    }

    /// As [`Walther::mm2_s`], at an absolute temperature: some published lines use 273 for 273.15.
    ///
    /// # Errors
    /// As [`Walther::mm2_s`].
    pub fn mm2_s_at_kelvin(&self, kelvin: f64) -> Result<f64, FluidError> {
        single(self.a - self.b * range::KELVIN.check(kelvin)?.log10())
    }

    /// The temperature at which the fluid has the viscosity `mm2_s`, °C.
    ///
    /// # Errors
    /// Outside [`range::MM2_S`]; a temperature outside [`range::KELVIN`]; a fluid that does not thin with temperature.
    pub fn celsius_for(&self, mm2_s: f64) -> Result<f64, FluidError> {
        let wanted = double_log(mm2_s)?;
        if self.b == 0.0 {
            return Err(FluidError::NoSolution {
                wanted: "temperature",
                why: "the viscosity is the same at all",
            });
        }
        let kelvin = 10.0_f64.powf((self.a - wanted) / self.b);
        Ok(range::KELVIN.check(kelvin)? - ZERO_CELSIUS_K)
    }

    /// The constant A of the line.
    pub const fn a(&self) -> f64 {
        self.a
    }

    /// The slope B of the line.
    pub const fn b(&self) -> f64 {
        self.b
    }
}

/// Viscosity of a blend of two fluids at one temperature, mm²/s; `fraction` is the share of the first by volume.
///
/// # Errors
/// Outside [`range::MM2_S`] or [`range::FRACTION`].
///
/// Source: the double logarithm adds by volume (the family of ASTM D7152, text not seen); within 5 %.
pub fn blend_mm2_s(first_mm2_s: f64, second_mm2_s: f64, fraction: f64) -> Result<f64, FluidError> {
    let share = range::FRACTION.check(fraction)?;
    single(share * double_log(first_mm2_s)? + (1.0 - share) * double_log(second_mm2_s)?)
}

fn double_log(mm2_s: f64) -> Result<f64, FluidError> {
    Ok((range::MM2_S.check(mm2_s)? + WALTHER_SHIFT).log10().log10())
}

fn single(double: f64) -> Result<f64, FluidError> {
    range::MM2_S.check(10.0_f64.powf(10.0_f64.powf(double)) - WALTHER_SHIFT)
}

/// mm²/s. Source: ASTM D341.
const WALTHER_SHIFT: f64 = 0.7;
const ZERO_CELSIUS_K: f64 = 273.15;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_line_that_cannot_be_a_fluid_is_refused() {
        assert!(matches!(Walther::from_40_and_100(5.0, 30.0), Err(FluidError::Contradiction { .. })));
        assert!(matches!(
            Walther::through((30.0, 313.0), (5.0, 313.0)),
            Err(FluidError::Contradiction { .. })
        ));
        assert!(matches!(
            Walther::from_40_and_100(0.3, 0.3),
            Err(FluidError::OutsideRange { quantity: "kinematic viscosity", .. })
        ));
    }

    #[test]
    fn the_points_may_come_in_either_order() {
        let one = Walther::through((30.0, 313.15), (6.0, 373.15));
        assert_eq!(one, Walther::through((6.0, 373.15), (30.0, 313.15)));
    }

    proptest! {
        #[test]
        fn the_line_passes_through_its_points_and_falls(nu40 in 8.0..200.0, ratio in 2.0..8.0, t in -20.0..120.0) {
            let nu100 = f64::max(nu40 / ratio, 2.0);
            let fluid = Walther::from_40_and_100(nu40, nu100).unwrap();
            prop_assert!((fluid.mm2_s(40.0).unwrap() / nu40 - 1.0).abs() < 1e-10);
            prop_assert!((fluid.mm2_s(100.0).unwrap() / nu100 - 1.0).abs() < 1e-10);
            prop_assert!(fluid.mm2_s(t + 0.1).unwrap() < fluid.mm2_s(t).unwrap());
        }

        #[test]
        fn the_temperature_for_a_viscosity_gives_that_viscosity(nu100 in 3.0..10.0, t in -20.0..130.0) {
            let fluid = Walther::from_40_and_100(5.0 * nu100, nu100).unwrap();
            let back = fluid.celsius_for(fluid.mm2_s(t).unwrap()).unwrap();
            prop_assert!((back - t).abs() < 1e-8);
        }

        #[test]
        fn a_blend_lies_between_its_parts_and_knows_no_order(a in 2.0..500.0, b in 2.0..500.0, share in 0.0..1.0) {
            let blend = blend_mm2_s(a, b, share).unwrap();
            prop_assert!(blend > f64::min(a, b) * (1.0 - 1e-9) && blend < f64::max(a, b) * (1.0 + 1e-9));
            prop_assert!((blend_mm2_s(b, a, 1.0 - share).unwrap() / blend - 1.0).abs() < 1e-9);
        }
    }
}
