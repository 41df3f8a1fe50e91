//! How the volume of oil follows its temperature, and what setting the level at the wrong one costs.
//!
//! In: volumes, temperatures, the density at 15 °C. Out: factors, volumes, errors in mL; positive is too much fluid.
//! Not here: what a millilitre means in height (`level.rs`), the balance of a whole job (`balance.rs`).
//! Source: API MPMS 11.1 / ASTM D1250-80, lubricating-oil group (tables 53D and 54D), without the rounding of the
//! tables. Uncertainty of the correlation: about 5 % of the expansion for fluids rich in additives (from memory).

use units::{Celsius, Kelvins, Millilitres};

use crate::{FluidError, range};

/// Density at 15 °C that is assumed where the sheet gives none, kg/m³.
/// Source: from memory: such fluids lie in 830 to 870.
pub const DENSITY_15_DEFAULT: f64 = 850.0;
/// Standard uncertainty of that assumption, kg/m³.
/// Source: from memory.
pub const U_DENSITY_15_DEFAULT: f64 = 15.0;
/// Relative standard uncertainty of the expansion itself for fluids rich in additives.
/// Source: from memory.
pub const U_EXPANSION_RELATIVE: f64 = 0.05;
/// Linear expansion of a cast aluminium case, 1e-6/K.
/// Source: from memory: 21 to 24.
pub const CASE_EXPANSION_ALUMINIUM: f64 = 23.0;

/// The level was right at `set_celsius` and should have been right at `check_celsius`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetAt {
    /// The whole fluid that shares the temperature, mL: converter, cooler and passages push their growth into the sump.
    pub total_ml: f64,
    /// Temperature when the port was closed, °C.
    pub set_celsius: f64,
    /// Temperature at which the level was meant to be right, °C.
    pub check_celsius: f64,
    /// Density at 15 °C, kg/m³.
    pub density_15: f64,
}

/// A volume that is taken from one temperature to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VolumeMove {
    /// The volume at `from_celsius`, mL.
    pub millilitres: f64,
    /// Its temperature, °C.
    pub from_celsius: f64,
    /// The temperature asked for, °C.
    pub to_celsius: f64,
    /// Density at 15 °C, kg/m³.
    pub density_15: f64,
}

/// The same fluid at the other temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovedVolume {
    /// Its volume there, mL.
    pub millilitres: f64,
    /// How much it grew, mL; negative when it shrank.
    pub change_ml: f64,
    /// Correction factor at the first temperature.
    pub vcf_from: f64,
    /// Correction factor at the second temperature.
    pub vcf_to: f64,
}

/// Expansion coefficient at 15 °C, 1/K.
///
/// # Errors
/// `density_15` in kg/m³ outside [`range::DENSITY_15`].
///
/// Source: API MPMS 11.1 / ASTM D1250-80, lubricating oils: K1 = 0.6278 kg/m³/K, K0 = K2 = 0.
pub fn expansion_15_per_k(density_15: f64) -> Result<f64, FluidError> {
    Ok(K1 / range::DENSITY_15.check(density_15)?)
}

/// Volume at 15 °C divided by the volume at `celsius`, for a fluid of `density_15` kg/m³ at 15 °C.
///
/// Exactly 1 at 15 °C, falling with temperature; it has no unit.
///
/// # Errors
/// Outside [`range::FLUID_CELSIUS`] or [`range::DENSITY_15`].
///
/// Source: API MPMS 11.1 / ASTM D1250-80: `exp(-a*dT*(1 + 0.8*a*dT))`, `dT` from 15 °C.
pub fn vcf(celsius: f64, density_15: f64) -> Result<f64, FluidError> {
    let alpha = expansion_15_per_k(density_15)?;
    Ok(factor(alpha, range::FLUID_CELSIUS.check(celsius)? - 15.0))
}

/// Density at `celsius`, kg/m³, of a fluid of `density_15`.
///
/// # Errors
/// As [`vcf`].
pub fn density_at(celsius: f64, density_15: f64) -> Result<f64, FluidError> {
    Ok(density_15 * vcf(celsius, density_15)?)
}

/// Local relative growth per degree at `celsius`, 1/K: 0.00076 near 40 °C for a usual fluid.
///
/// # Errors
/// As [`vcf`].
///
/// Source: derivative of the logarithm of [`vcf`].
pub fn expansion_per_k(celsius: f64, density_15: f64) -> Result<f64, FluidError> {
    let alpha = expansion_15_per_k(density_15)?;
    let dt = range::FLUID_CELSIUS.check(celsius)? - 15.0;
    Ok(alpha * (1.0 + 1.6 * alpha * dt))
}

/// Density at 15 °C of a fluid whose density at `celsius` is `density` (both kg/m³).
///
/// # Errors
/// Inputs outside their ranges; an answer outside [`range::DENSITY_15`]; [`FluidError::NotSettled`] after 50 steps.
///
/// Source: fixed point `rho15 = rho / VCF(rho15, t)`, which contracts by about 0.02 a step.
pub fn density_to_15(density: f64, celsius: f64) -> Result<f64, FluidError> {
    range::DENSITY.check(density)?;
    let dt = range::FLUID_CELSIUS.check(celsius)? - 15.0;
    let mut density_15 = density;
    for _ in 0..SETTLE_STEPS {
        let next = density / factor(K1 / density_15, dt);
        let moved = (next - density_15).abs();
        density_15 = next;
        if moved <= 1e-12 * density_15 {
            return range::DENSITY_15.check(at_the_limit(density_15, range::DENSITY_15.limits()));
        }
    }
    Err(FluidError::NotSettled { wanted: "density at 15 °C", steps: SETTLE_STEPS })
}

/// The 2004 form of the factor: from 60 °F, with the expansion coefficient in 1/°F, temperature on the scale of 1968.
///
/// Not used by the rest: the two small shifts against the form of 1980 move a factor by 3 to 6 parts per million.
/// It is here because worked examples of it are in print.
///
/// # Errors
/// Outside [`range::ALPHA_60`] or [`range::FAHRENHEIT_68`].
///
/// Source: API MPMS 11.1 (2004), 11.1.6.1.
pub fn ctl_2004(alpha_60_per_f: f64, fahrenheit_68: f64) -> Result<f64, FluidError> {
    let alpha = range::ALPHA_60.check(alpha_60_per_f)?;
    let d = range::FAHRENHEIT_68.check(fahrenheit_68)? - 60.006_874_9;
    Ok((-alpha * d * (1.0 + 0.8 * alpha * (d + 0.013_749_795_47))).exp())
}

/// Takes a volume from one temperature to another.
///
/// # Errors
/// Volume, temperatures or density outside their ranges.
pub fn move_volume(from: VolumeMove) -> Result<MovedVolume, FluidError> {
    let before = range::VOLUME_ML.check(from.millilitres)?;
    let from_c = range::FLUID_CELSIUS.named("temperature of the volume").check(from.from_celsius)?;
    let to_c = range::FLUID_CELSIUS.named("temperature asked for").check(from.to_celsius)?;
    let (vcf_from, vcf_to) = (vcf(from_c, from.density_15)?, vcf(to_c, from.density_15)?);
    let growth = vcf_from / vcf_to - 1.0;
    Ok(MovedVolume { millilitres: before + before * growth, change_ml: before * growth, vcf_from, vcf_to })
}

/// What the level set at the wrong temperature is off by, mL. Set too hot leaves too little: negative.
///
/// # Errors
/// An input outside its range.
///
/// Source: `V*(VCF(set)/VCF(check) - 1)`. Anchor: 8 L set at 60 instead of 40 °C is -122.1 mL.
pub fn set_error_ml(set: SetAt) -> Result<f64, FluidError> {
    set_error_in_case_ml(set, 0.0)
}

/// As [`set_error_ml`] by the first-order estimate `-V*a15*(set - check)`: some 3 % short at 20 °C, since the
/// expansion grows with temperature. For a rule of thumb on paper only.
///
/// # Errors
/// An input outside its range.
pub fn set_error_linear_ml(set: SetAt) -> Result<f64, FluidError> {
    let total = range::TOTAL_ML.check(set.total_ml)?;
    let rise =
        range::FLUID_CELSIUS.check(set.set_celsius)? - range::FLUID_CELSIUS.check(set.check_celsius)?;
    Ok(-total * expansion_15_per_k(set.density_15)? * rise)
}

/// As [`set_error_ml`] in a case that grows too, with linear expansion `case_1e6_per_k` (1e-6/K).
///
/// Report [`set_error_ml`] and carry the difference as uncertainty: the converter is of steel, hotter or cooler
/// than the case.
///
/// # Errors
/// An input outside its range.
///
/// Source: `V*((1 + 3*a*(set - check))*VCF(set)/VCF(check) - 1)`, own derivation.
pub fn set_error_in_case_ml(set: SetAt, case_1e6_per_k: f64) -> Result<f64, FluidError> {
    let total = range::TOTAL_ML.check(set.total_ml)?;
    let set_c = range::FLUID_CELSIUS.named("temperature when set").check(set.set_celsius)?;
    let check_c = range::FLUID_CELSIUS.named("temperature of the check").check(set.check_celsius)?;
    let case = 3e-6 * range::CASE_EXPANSION.check(case_1e6_per_k)? * (set_c - check_c);
    let ratio = vcf(set_c, set.density_15)? / vcf(check_c, set.density_15)?;
    Ok(total * ((1.0 + case) * ratio - 1.0))
}

/// Standard uncertainty of [`set_error_ml`], mL, without that of the temperatures: density known within
/// `u_density_15` (kg/m³), the correlation itself, and the growth of the case, in squares.
///
/// # Errors
/// An input outside its range.
///
/// Source: JCGM 100 (propagation). The case counts as a half width: the truth lies between no growth and that of
/// [`CASE_EXPANSION_ALUMINIUM`].
pub fn set_error_u_ml(set: SetAt, u_density_15: f64) -> Result<f64, FluidError> {
    let error = set_error_ml(set)?;
    let relative = range::DENSITY_15.named("uncertainty of the density").within(u_density_15, 0.0, 200.0)?
        / set.density_15;
    let case = (set_error_in_case_ml(set, CASE_EXPANSION_ALUMINIUM)? - error) / 3.0_f64.sqrt();
    Ok(((error * relative).powi(2) + (error * U_EXPANSION_RELATIVE).powi(2) + case.powi(2)).sqrt())
}

/// The temperature at which setting the level gives an error of `error_ml`, °C.
///
/// # Errors
/// An input outside its range, or an answer outside [`range::FLUID_CELSIUS`].
///
/// Source: [`set_error_ml`] solved for the temperature (a quadratic in the logarithm).
pub fn celsius_for_error(
    total_ml: f64,
    check_celsius: f64,
    density_15: f64,
    error_ml: f64,
) -> Result<f64, FluidError> {
    let ratio = 1.0 + range::CHANGE_ML.check(error_ml)? / range::TOTAL_ML.check(total_ml)?;
    let alpha = expansion_15_per_k(density_15)?;
    let wanted = vcf(check_celsius, density_15)? * ratio;
    // a*d + 0.8*(a*d)^2 = -ln(wanted); the root that passes through zero, in the form that keeps its digits.
    let y = -wanted.ln();
    let root = (1.0 + 3.2 * y).sqrt();
    let dt = 2.0 * y / (1.0 + root) / alpha;
    range::FLUID_CELSIUS.check(15.0 + dt)
}

/// [`set_error_ml`] for stored quantities, rounded to whole millilitres.
///
/// # Errors
/// An input outside its range.
pub fn set_error(
    total: Millilitres,
    set_at: Celsius,
    check: Celsius,
    density_15: f64,
) -> Result<Millilitres, FluidError> {
    let error = set_error_ml(SetAt {
        total_ml: total.to_f64(),
        set_celsius: set_at.to_f64(),
        check_celsius: check.to_f64(),
        density_15,
    })?;
    Ok(Millilitres::clamped(error))
}

/// [`move_volume`] for stored quantities, rounded to whole millilitres.
///
/// # Errors
/// An input outside its range.
pub fn at_temperature(
    volume: Millilitres,
    from: Celsius,
    to: Celsius,
    density_15: f64,
) -> Result<Millilitres, FluidError> {
    let moved = move_volume(VolumeMove {
        millilitres: volume.to_f64(),
        from_celsius: from.to_f64(),
        to_celsius: to.to_f64(),
        density_15,
    })?;
    Ok(Millilitres::clamped(moved.millilitres))
}

/// How much the whole fluid grows over `rise` around `celsius`, rounded to whole millilitres; negative while cooling.
///
/// # Errors
/// An input outside its range.
pub fn growth(
    total: Millilitres,
    celsius: Celsius,
    rise: Kelvins,
    density_15: f64,
) -> Result<Millilitres, FluidError> {
    let total = range::TOTAL_ML.check(total.to_f64())?;
    let per_k = expansion_per_k(celsius.to_f64(), density_15)?;
    Ok(Millilitres::clamped(total * per_k * rise.to_f64()))
}

/// A value that only rounding has moved across a limit is the limit.
fn at_the_limit(value: f64, (low, high): (f64, f64)) -> f64 {
    let inside = value.clamp(low, high);
    if (value - inside).abs() <= 1e-9 * inside { inside } else { value }
}

fn factor(alpha: f64, dt: f64) -> f64 {
    (-alpha * dt * (1.0 + 0.8 * alpha * dt)).exp()
}

/// kg/m³/K at 15 °C, lubricating oils. Source: API MPMS 11.1 / ASTM D1250-80; the Fahrenheit constant of the same
/// group, 0.34878 at 60 °F, times 1.8 gives 0.627804.
const K1: f64 = 0.6278;
const SETTLE_STEPS: u32 = 50;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn at_15_degrees_nothing_is_corrected() {
        assert_eq!(vcf(15.0, 850.0), Ok(1.0));
        assert_eq!(density_at(15.0, 850.0), Ok(850.0));
    }

    #[test]
    fn the_fahrenheit_and_the_celsius_constant_of_the_group_agree() {
        // 0.34878 at 60 °F: as printed for the lubricating-oil group.
        assert!((0.348_78 * 1.8 / K1 - 1.0).abs() < 1e-5);
    }

    #[test]
    fn stored_quantities_round_to_whole_millilitres() {
        let c = |tenths: i32| Celsius::from_steps(tenths * 10).unwrap();
        let total = Millilitres::from_steps(8_000).unwrap();
        // The anchor of the volume_error table: -122.12 mL.
        assert_eq!(set_error(total, c(600), c(400), 850.0).map(Millilitres::steps), Ok(-122));
        assert_eq!(at_temperature(total, c(400), c(600), 850.0).map(Millilitres::steps), Ok(8_124));
        assert_eq!(
            growth(total, c(400), Kelvins::from_steps(100).unwrap(), 850.0).map(Millilitres::steps),
            Ok(6)
        );
    }

    #[test]
    fn an_impossible_fluid_or_temperature_is_refused() {
        assert!(matches!(
            vcf(40.0, 500.0),
            Err(FluidError::OutsideRange { quantity: "density at 15 °C", value: 500.0, .. })
        ));
        assert!(matches!(
            vcf(200.0, 850.0),
            Err(FluidError::OutsideRange { quantity: "fluid temperature", value: 200.0, .. })
        ));
        let set = SetAt { total_ml: 8_000.0, set_celsius: 40.0, check_celsius: 400.0, density_15: 850.0 };
        assert!(matches!(
            set_error_ml(set),
            Err(FluidError::OutsideRange { quantity: "temperature of the check", value: 400.0, .. })
        ));
        assert!(density_to_15(790.0, -50.0).is_err(), "lighter at 15 °C than the group allows");
        assert!(
            celsius_for_error(8_000.0, 40.0, 850.0, -7_999.0).is_err(),
            "hotter than the formula is good for"
        );
    }

    #[test]
    fn the_ends_of_the_density_range_come_back_from_any_temperature() {
        for t in [-50.0, -7.3, 33.3, 99.9, 150.0] {
            for density in [800.0, 1_164.0] {
                let back = density_to_15(density_at(t, density).unwrap(), t).unwrap();
                assert!((back / density - 1.0).abs() < 1e-9, "{density} at {t}");
            }
        }
    }

    proptest! {
        #[test]
        fn the_factor_falls_with_temperature(t in -50.0..149.0, dt in 0.001..1.0, density in 800.0..1_164.0) {
            prop_assert!(vcf(t + dt, density).unwrap() < vcf(t, density).unwrap());
        }

        #[test]
        fn density_there_and_back_is_the_same(t in -50.0..150.0, density in 800.0..1_164.0) {
            let there = density_at(t, density).unwrap();
            let back = density_to_15(there, t).unwrap();
            prop_assert!((back / density - 1.0).abs() < 1e-11);
        }

        #[test]
        fn the_temperature_for_an_error_gives_that_error(
            t in -20.0..120.0, check in 30.0..90.0, density in 810.0..900.0, total_ml in 3_000.0..15_000.0,
        ) {
            let set = SetAt { total_ml, set_celsius: t, check_celsius: check, density_15: density };
            let error = set_error_ml(set).unwrap();
            let back = celsius_for_error(total_ml, check, density, error).unwrap();
            prop_assert!((back - t).abs() < 1e-8, "{back} for {t}");
            // Hotter than meant leaves too little.
            prop_assert!(error == 0.0 || (error < 0.0) == (t > check));
        }

        #[test]
        fn a_volume_there_and_back_is_the_same(v in 1.0..20_000.0, a in -20.0..120.0, b in -20.0..120.0) {
            let there = move_volume(
                VolumeMove { millilitres: v, from_celsius: a, to_celsius: b, density_15: 850.0 }).unwrap();
            let back = move_volume(
                VolumeMove { millilitres: there.millilitres, from_celsius: b, to_celsius: a, density_15: 850.0 }).unwrap();
            prop_assert!((back.millilitres / v - 1.0).abs() < 1e-12);
        }
    }
}
