//! One body that cools in air, and the heat that a degree of oil holds.
//!
//! In: temperatures, a time constant. Out: when it will be cool enough; specific heats. Not here: two bodies that
//! still exchange heat (`thermal.rs`): after a hot stop the fluid may rise first, and then one body is not enough.
//! Source: Newton's law of cooling. Cragoe, NBS Miscellaneous Publication 97 (1929), for the specific heat.

use crate::{FluidError, range};

/// A body that cools in air of constant temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooling {
    /// Temperature at the start, °C.
    pub start_celsius: f64,
    /// Temperature of the air, °C.
    pub air_celsius: f64,
    /// Time constant, min: some 50 for the fluid, 80 with the case.
    pub tau_min: f64,
}

/// When a body is cool enough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CooledDown {
    /// From the start, min; 0 when it is so from the start.
    pub minutes: f64,
    /// How fast the temperature moves then, °C/min; negative.
    pub rate_c_min: f64,
}

impl Cooling {
    /// When the body has come down to `target_celsius`. `None`: never, since the air is as warm or warmer.
    ///
    /// # Errors
    /// A temperature or the time constant outside its range.
    ///
    /// Source: `T = Ta + (T0 - Ta)*exp(-t/tau)`.
    pub fn down_to(self, target_celsius: f64) -> Result<Option<CooledDown>, FluidError> {
        let (start, air, tau) = self.checked()?;
        let target = range::CELSIUS.named("target temperature").check(target_celsius)?;
        if start <= target {
            return Ok(Some(CooledDown { minutes: 0.0, rate_c_min: (air - start) / tau }));
        }
        if target <= air {
            return Ok(None);
        }
        let minutes = tau * ((start - air).ln() - (target - air).ln());
        Ok(Some(CooledDown { minutes, rate_c_min: (air - target) / tau }))
    }

    /// The temperature `minutes` after the start, °C.
    ///
    /// # Errors
    /// As [`Cooling::down_to`]; a time below zero.
    pub fn after(self, minutes: f64) -> Result<f64, FluidError> {
        let (start, air, tau) = self.checked()?;
        let seconds = range::SECONDS.check(minutes * 60.0)?;
        Ok(air + (start - air) * (-seconds / 60.0 / tau).exp())
    }

    fn checked(self) -> Result<(f64, f64, f64), FluidError> {
        Ok((
            range::CELSIUS.named("temperature at the start").check(self.start_celsius)?,
            range::CELSIUS.named("air temperature").check(self.air_celsius)?,
            range::TAU_MIN.check(self.tau_min)?,
        ))
    }
}

/// Time constant of `kj_k` that loses heat over `w_k`, min. 45 kJ/K over 15 W/K: 50 min.
///
/// # Errors
/// Outside [`range::KJ_K`] or [`range::TO_AIR_W_K`].
pub fn time_constant_min(kj_k: f64, w_k: f64) -> Result<f64, FluidError> {
    Ok(range::KJ_K.check(kj_k)? * 1_000.0 / range::TO_AIR_W_K.check(w_k)? / 60.0)
}

/// Specific heat of oil at `celsius`, J/(kg·K).
///
/// # Errors
/// Outside [`range::FLUID_CELSIUS`] or [`range::DENSITY_15`].
///
/// Source: Cragoe, NBS Misc. Publ. 97 (1929): `(1.685 + 0.0034*t)/sqrt(d)` kJ/(kg·K), d relative to water of 15 °C.
pub fn specific_heat_j_kgk(celsius: f64, density_15: f64) -> Result<f64, FluidError> {
    let t = range::FLUID_CELSIUS.check(celsius)?;
    let d = range::DENSITY_15.check(density_15)? / WATER_15;
    Ok(1_000.0 * (CRAGOE_0 + CRAGOE_1 * t) / d.sqrt())
}

/// kJ/(kg·K) at 0 °C for a relative density of 1, kJ/(kg·K) per °C, and the density of water at 15 °C, kg/m³.
/// Source: Cragoe, NBS Miscellaneous Publication 97 (1929).
pub(crate) const CRAGOE_0: f64 = 1.685;
pub(crate) const CRAGOE_1: f64 = 0.003_4;
const WATER_15: f64 = 999.1;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn below_the_air_it_never_cools_and_what_is_cool_already_takes_no_time() {
        let hot = Cooling { start_celsius: 60.0, air_celsius: 45.0, tau_min: 80.0 };
        assert_eq!(hot.down_to(45.0), Ok(None));
        assert_eq!(hot.down_to(40.0), Ok(None));
        assert_eq!(hot.down_to(60.0).unwrap().unwrap().minutes, 0.0);
    }

    #[test]
    fn stated_time_constants_come_out() {
        assert_eq!(time_constant_min(45.0, 15.0), Ok(50.0));
    }

    #[test]
    fn hot_fluid_loses_about_ten_degrees_in_half_an_hour_to_an_hour() {
        // A public workshop article prints 10 °C in 30 to 60 min for a hot transmission.
        let hot = Cooling { start_celsius: 60.0, air_celsius: 25.0, tau_min: 80.0 };
        let lost = |minutes| 60.0 - hot.after(minutes).unwrap();
        assert!(lost(20.0) < 10.0 && lost(60.0) > 10.0);
    }

    proptest! {
        #[test]
        fn after_that_time_it_has_that_temperature(start in 30.0..120.0, air in -20.0..30.0, target in 31.0..60.0) {
            let cooling = Cooling { start_celsius: start, air_celsius: air, tau_min: 55.0 };
            prop_assume!(start > target);
            let down = cooling.down_to(target).unwrap().unwrap();
            prop_assert!((cooling.after(down.minutes).unwrap() - target).abs() < 1e-9);
        }
    }
}
