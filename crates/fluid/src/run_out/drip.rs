//! What still comes after the stream: film on the walls, drops, and the growth of fluid that keeps warming.
//!
//! In: drops, walls, rates of warming. Out: mL, mL/min, times. Not here: the stream itself (`drain.rs`).
//! Source: beside each. So the criterion in a warming vehicle is "the thread has turned to drops" near the inflow,
//! not "nothing comes"; while cooling there is no drip although the level may have been right a minute ago.

use crate::{FluidError, range};

/// Volume expansion near 40 °C, 1/K.
/// Source: computed: the slope of the volume correction factor of ASTM D1250-80 for a fluid of 850 kg/m³.
pub const BETA_40_PER_K: f64 = 0.000_76;

/// A wall that was wet and drains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WetWall {
    /// Kinematic viscosity, mm²/s.
    pub mm2_s: f64,
    /// Height of the wall, mm.
    pub height_mm: f64,
    /// Outline of the wall, mm.
    pub perimeter_mm: f64,
    /// Since it began to drain, s.
    pub seconds: f64,
}

/// What still hangs on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallFilm {
    /// Mean thickness, mm.
    pub mean_mm: f64,
    /// Volume, mL.
    pub millilitres: f64,
}

/// Fluid that approaches a final temperature, first order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstOrderWarming {
    /// The whole fluid that warms, mL.
    pub total_ml: f64,
    /// Its volume expansion, 1/K.
    pub beta_per_k: f64,
    /// Temperature it tends to, °C.
    pub final_celsius: f64,
    /// Temperature at the start, °C.
    pub start_celsius: f64,
    /// Time constant, min.
    pub tau_min: f64,
}

/// When the dripping falls to what counts as quiet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quiet {
    /// From the start, min; 0 when it is quiet from the start.
    pub minutes: f64,
    /// Temperature then, °C.
    pub celsius: f64,
}

/// Fluid that hangs on a vertical wall and creeps down. Matters for the drained volume, not for the level.
///
/// # Errors
/// An input outside its range; no time at all, when the film would be infinitely thick.
///
/// Source: thickness `sqrt(nu*z/(g*t))` (Jeffreys 1930), its mean two thirds of the value at the bottom.
pub fn wall_film(wall: WetWall) -> Result<WallFilm, FluidError> {
    let nu = range::MM2_S.check(wall.mm2_s)? / 1e6;
    let height = range::WALL_MM.check(wall.height_mm)? / 1_000.0;
    let perimeter = range::PERIMETER_MM.check(wall.perimeter_mm)? / 1_000.0;
    let t = range::SECONDS.within(wall.seconds, 0.1, 1.0e7)?;
    let mean = 2.0 / 3.0 * (nu * height / (super::GRAVITY * t)).sqrt();
    Ok(WallFilm { mean_mm: mean * 1_000.0, millilitres: mean * height * perimeter * 1e6 })
}

/// Flow of drops of `drop_ml` at `drops_per_s`, mL/min. One drop of 0.04 mL a second is 2.4 mL/min.
///
/// # Errors
/// Outside [`range::DROP_ML`] or [`range::DROPS_PER_S`].
pub fn drip_flow_ml_min(drop_ml: f64, drops_per_s: f64) -> Result<f64, FluidError> {
    Ok(range::DROP_ML.check(drop_ml)? * range::DROPS_PER_S.check(drops_per_s)? * 60.0)
}

/// What the growth of warming fluid adds above the rim, mL/min; negative while cooling. 8 L at 1 °C/min: 6.1 mL/min.
///
/// # Errors
/// Outside [`range::TOTAL_ML`], [`range::BETA`] or [`range::RATE_C_MIN`].
///
/// Source: `V*beta*dT/dt`.
pub fn warming_flow_ml_min(total_ml: f64, beta_per_k: f64, c_per_min: f64) -> Result<f64, FluidError> {
    Ok(range::TOTAL_ML.check(total_ml)?
        * range::BETA.check(beta_per_k)?
        * range::RATE_C_MIN.check(c_per_min)?)
}

/// When warming fluid drips no faster than `trickle_ml_min`.
///
/// # Errors
/// An input outside its range.
///
/// Source: `t = tau*ln(V*beta*(Tinf - T0)/(tau*q))`, 0 where the argument is at most 1.
pub fn until_quiet(warming: FirstOrderWarming, trickle_ml_min: f64) -> Result<Quiet, FluidError> {
    let total = range::TOTAL_ML.check(warming.total_ml)?;
    let beta = range::BETA.check(warming.beta_per_k)?;
    let end = range::CELSIUS.named("final temperature").check(warming.final_celsius)?;
    let start = range::CELSIUS.named("temperature at the start").check(warming.start_celsius)?;
    let tau = range::TAU_MIN.check(warming.tau_min)?;
    let trickle = range::TRICKLE_ML_MIN.check(trickle_ml_min)?;
    let times_faster = total * beta * (end - start) / (tau * trickle);
    if times_faster <= 1.0 {
        return Ok(Quiet { minutes: 0.0, celsius: start });
    }
    Ok(Quiet { minutes: tau * times_faster.ln(), celsius: end - (end - start) / times_faster })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::volume;
    use proptest::prelude::*;

    #[test]
    fn the_expansion_near_40_degrees_is_that_of_the_volume_factor() {
        let beta = volume::expansion_per_k(40.0, volume::DENSITY_15_DEFAULT).unwrap();
        assert!((beta / BETA_40_PER_K - 1.0).abs() < 0.001, "{beta}");
    }

    #[test]
    fn cooling_fluid_is_quiet_at_once() {
        let cooling = FirstOrderWarming {
            total_ml: 8_000.0,
            beta_per_k: BETA_40_PER_K,
            final_celsius: 25.0,
            start_celsius: 45.0,
            tau_min: 50.0,
        };
        assert_eq!(until_quiet(cooling, 5.0), Ok(Quiet { minutes: 0.0, celsius: 45.0 }));
        assert!(warming_flow_ml_min(8_000.0, BETA_40_PER_K, -1.0).unwrap() < 0.0);
    }

    proptest! {
        #[test]
        fn at_the_quiet_moment_the_drip_is_the_trickle(end in 50.0..110.0, tau in 5.0..60.0, q in 0.5..20.0) {
            let warming = FirstOrderWarming {
                total_ml: 8_000.0, beta_per_k: BETA_40_PER_K, final_celsius: end, start_celsius: 35.0, tau_min: tau,
            };
            let quiet = until_quiet(warming, q).unwrap();
            prop_assume!(quiet.minutes > 0.0);
            let rate = (end - quiet.celsius) / tau;
            prop_assert!((warming_flow_ml_min(8_000.0, BETA_40_PER_K, rate).unwrap() / q - 1.0).abs() < 1e-9);
        }
    }
}
