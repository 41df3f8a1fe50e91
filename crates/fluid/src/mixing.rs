//! What comes of mixing amounts of oil: mass, volume, density, temperature.
//!
//! In: amounts with temperature and density. Out: the mixture. Not here: its viscosity (`viscosity.rs`).
//! Source: ideal mixing, volumes add at 15 °C (real oils contract by less than 0.1 %, from memory); the temperature
//! from the balance of heat with Cragoe's specific heat (`cooling.rs`), mean between start and end.

use crate::cooling::{CRAGOE_0, CRAGOE_1};
use crate::{FluidError, range, volume};

/// One amount that goes into a mixture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Portion {
    /// Its volume at its own temperature, mL.
    pub millilitres: f64,
    /// Its temperature, °C.
    pub celsius: f64,
    /// Its density at 15 °C, kg/m³.
    pub density_15: f64,
}

/// A mixture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixture {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Volume at 15 °C, mL.
    pub millilitres_15: f64,
    /// Density at 15 °C, kg/m³.
    pub density_15: f64,
    /// Temperature before any heat is lost, °C.
    pub celsius: f64,
}

impl Portion {
    /// Its volume at 15 °C, mL.
    ///
    /// # Errors
    /// Volume, temperature or density outside its range.
    pub fn millilitres_15(self) -> Result<f64, FluidError> {
        Ok(range::VOLUME_ML.check(self.millilitres)? * volume::vcf(self.celsius, self.density_15)?)
    }

    /// Its mass, kg.
    ///
    /// # Errors
    /// Volume, temperature or density outside its range.
    pub fn mass_kg(self) -> Result<f64, FluidError> {
        Ok(self.millilitres_15()? / ML_PER_M3 * self.density_15)
    }
}

impl Mixture {
    /// Its volume at `celsius`, mL.
    ///
    /// # Errors
    /// Outside [`range::FLUID_CELSIUS`].
    pub fn millilitres_at(self, celsius: f64) -> Result<f64, FluidError> {
        Ok(self.millilitres_15 / volume::vcf(celsius, self.density_15)?)
    }
}

/// Mixes `portions`.
///
/// # Errors
/// A portion outside its range; nothing to mix.
pub fn mix(portions: &[Portion]) -> Result<Mixture, FluidError> {
    let (mut mass_kg, mut millilitres_15, mut weight, mut heat) = (0.0, 0.0, 0.0, 0.0);
    for portion in portions {
        let mass = portion.mass_kg()?;
        mass_kg += mass;
        millilitres_15 += portion.millilitres_15()?;
        // The mean specific heat between two temperatures makes the balance one of `h(t)`.
        let held = mass / portion.density_15.sqrt();
        weight += held;
        heat += held * enthalpy(portion.celsius);
    }
    if millilitres_15 <= 0.0 {
        return Err(FluidError::NoSolution { wanted: "mixture", why: "there is nothing to mix" });
    }
    // A mixture is never lighter or denser than its parts, whatever the sums round to.
    let densities = portions.iter().map(|portion| portion.density_15);
    let lightest = densities.clone().fold(f64::INFINITY, f64::min);
    let densest = densities.fold(0.0, f64::max);
    let density_15 = (mass_kg / millilitres_15 * ML_PER_M3).max(lightest).min(densest);
    Ok(Mixture { mass_kg, millilitres_15, density_15, celsius: temperature_of(heat / weight) })
}

/// Heat held over 0 °C, for a relative density of 1 and up to a factor: `c0*t + c1*t^2/2`.
fn enthalpy(celsius: f64) -> f64 {
    celsius * (CRAGOE_0 + CRAGOE_1 / 2.0 * celsius)
}

/// The inverse of [`enthalpy`], in the form that keeps its digits.
fn temperature_of(heat: f64) -> f64 {
    2.0 * heat / (CRAGOE_0 + (CRAGOE_0 * CRAGOE_0 + 2.0 * CRAGOE_1 * heat).sqrt())
}

/// By definition.
const ML_PER_M3: f64 = 1e6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling::specific_heat_j_kgk;
    use proptest::prelude::*;

    fn portion() -> impl Strategy<Value = Portion> {
        (10.0..8_000.0, -10.0..110.0, 810.0..900.0).prop_map(|(millilitres, celsius, density_15)| Portion {
            millilitres,
            celsius,
            density_15,
        })
    }

    #[test]
    fn nothing_mixes_to_nothing() {
        assert!(mix(&[]).is_err());
        assert!(mix(&[Portion { millilitres: 0.0, celsius: 20.0, density_15: 850.0 }]).is_err());
    }

    #[test]
    fn the_lightest_fluid_there_is_can_be_mixed_with_itself() {
        let lightest = Portion { millilitres: 333.3, celsius: 37.7, density_15: 800.0 };
        assert!(mix(&[lightest; 7]).unwrap().millilitres_at(20.0).is_ok());
    }

    proptest! {
        #[test]
        fn mass_and_heat_are_kept(portions in proptest::collection::vec(portion(), 1..6)) {
            let mixture = mix(&portions).unwrap();
            let mass: f64 = portions.iter().map(|p| p.mass_kg().unwrap()).sum();
            prop_assert!((mixture.mass_kg / mass - 1.0).abs() < 1e-12);
            let gained: f64 = portions.iter().map(|p| {
                let mean = (p.celsius + mixture.celsius) / 2.0;
                p.mass_kg().unwrap() * specific_heat_j_kgk(mean, p.density_15).unwrap() * (mixture.celsius - p.celsius)
            }).sum();
            prop_assert!(gained.abs() < 1e-6 * mass * 2_000.0, "{gained} J");
        }

        #[test]
        fn a_mixture_lies_between_its_parts(a in portion(), b in portion()) {
            let m = mix(&[a, b]).unwrap();
            let between = |x: f64, y: f64, z: f64| x.min(z) - 1e-9 <= y && y <= x.max(z) + 1e-9;
            prop_assert!(between(a.celsius, m.celsius, b.celsius));
            prop_assert!(between(a.density_15, m.density_15, b.density_15));
        }

        #[test]
        fn the_order_of_mixing_does_not_matter(a in portion(), b in portion()) {
            let (one, other) = (mix(&[a, b]).unwrap(), mix(&[b, a]).unwrap());
            prop_assert!((one.celsius - other.celsius).abs() < 1e-9);
            prop_assert!((one.millilitres_at(40.0).unwrap() / other.millilitres_at(40.0).unwrap() - 1.0).abs() < 1e-12);
        }

        #[test]
        fn a_fluid_mixed_with_itself_stays_what_it_is(p in portion()) {
            let m = mix(&[p, p]).unwrap();
            prop_assert!((m.celsius - p.celsius).abs() < 1e-9 && (m.density_15 - p.density_15).abs() < 1e-9);
            prop_assert!((m.millilitres_at(p.celsius).unwrap() / p.millilitres - 2.0).abs() < 1e-9);
        }
    }
}
