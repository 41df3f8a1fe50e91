//! The infrared spot thermometer: what it reads, and what the surface really has.
//!
//! In: a reading, emissivities, surroundings. Out: temperatures with uncertainty. Not here: radiation itself
//! (`radiation.rs`); from the surface to the fluid behind it (`pan.rs`).
//! Source: grey body, `es*B(read) + (1-es)*B(Ts) = e*B(object) + (1-e)*B(Tr)`, window and air transparent.
//! Bare metal is hopeless: a sump of 40 °C and e = 0.05 in 20 °C surroundings reads 21 °C. Put tape or paint on it.

use crate::radiation::{self, Band, ZERO_CELSIUS_K};
use crate::{FluidError, range};

/// Below this emissivity a reading must be refused.
/// Own choice: it moves by more than half a degree per degree of surroundings
/// (fixtures/reference/physics/ir_reading.csv).
pub const LOWEST_TRUSTED_EMISSIVITY: f64 = 0.6;

/// A surface that is looked at, and the instrument that looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// Emissivity of the surface.
    pub emissivity: f64,
    /// Temperature of what it mirrors, °C.
    pub surroundings_c: f64,
    /// Emissivity the instrument is set to.
    pub set_emissivity: f64,
    /// Surroundings the instrument assumes, °C; often its own temperature.
    pub set_surroundings_c: f64,
    /// Which wavelengths it sees.
    pub band: Band,
}

/// A spot that is not filled by its target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartialSpot {
    /// Share of the spot that the target fills.
    pub fraction: f64,
    /// Temperature of the target, °C.
    pub target_c: f64,
    /// Its emissivity.
    pub target_emissivity: f64,
    /// Temperature of what fills the rest, °C.
    pub background_c: f64,
    /// Its emissivity.
    pub background_emissivity: f64,
}

/// How well the inputs of a correction are known, as standard uncertainties.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotInputs {
    /// Of the emissivity.
    pub u_emissivity: f64,
    /// Of the surroundings, °C.
    pub u_surroundings_c: f64,
    /// Of the instrument, °C: limits of ±1.5 to 2 °C over root 3.
    pub u_instrument_c: f64,
    /// Of the way from the surface to the fluid, °C.
    pub u_offset_c: f64,
}

impl SpotInputs {
    /// Tape on the sump, a usual instrument: 1.2 °C at 40 °C.
    /// Source: from memory: instruments state 1.5 to 2 °C.
    pub const TAPE: Self =
        Self { u_emissivity: 0.02, u_surroundings_c: 3.0, u_instrument_c: 1.0, u_offset_c: 0.5 };
}

/// How well a corrected reading is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotUncertainty {
    /// By how much it moves per unit of emissivity, °C.
    pub per_emissivity_c: f64,
    /// By how much it moves per degree of surroundings.
    pub per_surroundings: f64,
    /// Standard uncertainty, °C.
    pub u_c: f64,
}

/// A corrected reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corrected {
    /// The surface, °C.
    pub celsius: f64,
    /// Standard uncertainty, °C.
    pub u_c: f64,
}

/// What the instrument reads of a surface of `object_c`, °C.
///
/// # Errors
/// An input outside its range; a reading no instrument could show.
pub fn reading_c(object_c: f64, view: View) -> Result<f64, FluidError> {
    view.check()?;
    let arrives = mixed(view.emissivity, b(object_c, view.band)?, b(view.surroundings_c, view.band)?);
    shown_c(arrives, view)
}

/// The temperature of the surface that the instrument shows as `reading_c`, °C: the inverse of [`reading_c`].
///
/// # Errors
/// An input outside its range; [`FluidError::NoSolution`] where the surface would have to radiate less than nothing.
pub fn object_c(reading_c: f64, view: View) -> Result<f64, FluidError> {
    view.check()?;
    let read = range::CELSIUS.named("reading").check(reading_c)?;
    let arrives = mixed(view.set_emissivity, b(read, view.band)?, b(view.set_surroundings_c, view.band)?);
    let mirrored = (1.0 - view.emissivity) * b(view.surroundings_c, view.band)?;
    radiation::celsius_of((arrives - mirrored) / view.emissivity, view.band)
}

/// The surface with its uncertainty: [`object_c`] and [`uncertainty`] in one.
///
/// # Errors
/// As those.
pub fn correct(reading_c: f64, view: View, inputs: SpotInputs) -> Result<Corrected, FluidError> {
    let celsius = object_c(reading_c, view)?;
    Ok(Corrected { celsius, u_c: uncertainty(celsius, view, inputs)?.u_c })
}

/// How well a surface of `object_c` is known after correction.
///
/// # Errors
/// An input outside its range.
///
/// Source: JCGM 100, first order: `dT/de = -(B(T) - B(Tr))/(e*B'(T))`, `dT/dTr = -((1-e)/e)*B'(Tr)/B'(T)`.
pub fn uncertainty(object_c: f64, view: View, inputs: SpotInputs) -> Result<SpotUncertainty, FluidError> {
    view.check()?;
    let e = view.emissivity;
    let (object, per_c) = with_slope(object_c, view.band)?;
    let (mirrored, mirrored_per_c) = with_slope(view.surroundings_c, view.band)?;
    // `0 -` and not a minus sign: a body as warm as its surroundings is 0, not -0.
    let per_emissivity_c = 0.0 - (object - mirrored) / (e * per_c);
    let per_surroundings = 0.0 - (1.0 - e) / e * mirrored_per_c / per_c;
    let parts = [
        per_emissivity_c
            * range::FRACTION.named("uncertainty of the emissivity").check(inputs.u_emissivity)?,
        per_surroundings
            * range::U_CELSIUS.named("uncertainty of the surroundings").check(inputs.u_surroundings_c)?,
        range::U_CELSIUS.named("uncertainty of the instrument").check(inputs.u_instrument_c)?,
        range::U_CELSIUS.named("uncertainty of the offset").check(inputs.u_offset_c)?,
    ];
    let u_c = parts.iter().map(|u| u * u).sum::<f64>().sqrt();
    Ok(SpotUncertainty { per_emissivity_c, per_surroundings, u_c })
}

/// What the instrument reads of a spot that its target fills only in part, °C. Radiances mix, not temperatures.
///
/// Of `view` the instrument's settings, the surroundings and the band count; the surfaces are those of `spot`.
///
/// # Errors
/// An input outside its range.
pub fn partial_reading_c(spot: PartialSpot, view: View) -> Result<f64, FluidError> {
    view.check()?;
    let share = range::FRACTION.named("filled fraction").check(spot.fraction)?;
    let mirrored = b(view.surroundings_c, view.band)?;
    let target_e = range::EMISSIVITY.named("emissivity of the target").check(spot.target_emissivity)?;
    let other_e =
        range::EMISSIVITY.named("emissivity of the background").check(spot.background_emissivity)?;
    let target = mixed(target_e, b(spot.target_c, view.band)?, mirrored);
    let other = mixed(other_e, b(spot.background_c, view.band)?, mirrored);
    shown_c(mixed(share, target, other), view)
}

/// Diameter of the spot at a distance, mm; never less than the opening it leaves by. The target should be twice as wide.
///
/// # Errors
/// Outside [`range::SPOT_RATIO`], [`range::DISTANCE_MM`] or [`range::APERTURE_MM`].
pub fn spot_mm(distance_to_spot: f64, distance_mm: f64, exit_diameter_mm: f64) -> Result<f64, FluidError> {
    let ratio = range::SPOT_RATIO.check(distance_to_spot)?;
    let distance = range::DISTANCE_MM.check(distance_mm)?;
    Ok((distance / ratio).max(range::APERTURE_MM.check(exit_diameter_mm)?))
}

/// Whether an emissivity is high enough for its readings to be trusted.
pub fn is_trusted(emissivity: f64) -> bool {
    emissivity >= LOWEST_TRUSTED_EMISSIVITY
}

impl View {
    fn check(&self) -> Result<(), FluidError> {
        range::EMISSIVITY.check(self.emissivity)?;
        range::EMISSIVITY.named("set emissivity").check(self.set_emissivity)?;
        range::CELSIUS.named("surroundings").check(self.surroundings_c)?;
        range::CELSIUS.named("set surroundings").check(self.set_surroundings_c)?;
        self.band.check().map(|_| ())
    }
}

/// What an instrument shows when `arrives` reaches it.
fn shown_c(arrives: f64, view: View) -> Result<f64, FluidError> {
    let assumed = (1.0 - view.set_emissivity) * b(view.set_surroundings_c, view.band)?;
    radiation::celsius_of((arrives - assumed) / view.set_emissivity, view.band)
}

fn mixed(share: f64, one: f64, other: f64) -> f64 {
    share * one + (1.0 - share) * other
}

fn b(celsius: f64, band: Band) -> Result<f64, FluidError> {
    Ok(radiation::exitance(celsius, band)?.w_m2)
}

/// Exitance and its derivative, W/m² and W/m²K.
fn with_slope(celsius: f64, band: Band) -> Result<(f64, f64), FluidError> {
    let here = radiation::exitance(celsius, band)?;
    Ok((here.w_m2, here.w_m2 * here.log_slope / (celsius + ZERO_CELSIUS_K)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn view(emissivity: f64, surroundings_c: f64) -> View {
        View {
            emissivity,
            surroundings_c,
            set_emissivity: 0.95,
            set_surroundings_c: 20.0,
            band: Band::EIGHT_TO_FOURTEEN,
        }
    }

    #[test]
    fn tape_is_known_to_about_one_degree_and_bare_metal_is_not_to_be_trusted() {
        let tape = correct(39.0, view(0.96, 20.0), SpotInputs::TAPE).unwrap();
        assert!((1.1..1.3).contains(&tape.u_c), "{}", tape.u_c);
        assert!(is_trusted(0.96) && !is_trusted(0.1) && !is_trusted(f64::NAN));
        let limit = uncertainty(40.0, view(0.6, 20.0), SpotInputs::TAPE).unwrap().per_surroundings.abs();
        assert!((0.5..0.7).contains(&limit), "{limit}");
    }

    #[test]
    fn a_reading_that_no_surface_could_give_is_refused() {
        // A mirror in hot surroundings that looks cold would have to radiate less than nothing.
        assert!(matches!(object_c(0.0, view(0.1, 90.0)), Err(FluidError::NoSolution { .. })));
        assert!(object_c(40.0, view(0.0, 20.0)).is_err());
    }

    proptest! {
        #[test]
        fn correcting_what_was_read_gives_the_surface_back(
            object in 0.0..120.0, e in 0.1..1.0, surroundings in -10.0..60.0,
        ) {
            let view = view(e, surroundings);
            let back = object_c(reading_c(object, view).unwrap(), view).unwrap();
            prop_assert!((back - object).abs() < 1e-6, "{back} for {object}");
        }

        #[test]
        fn a_surface_as_warm_as_its_surroundings_reads_right_whatever_it_is(t in 0.0..80.0, e in 0.05..1.0) {
            let view = View { set_surroundings_c: t, ..view(e, t) };
            prop_assert!((reading_c(t, view).unwrap() - t).abs() < 1e-9);
        }

        #[test]
        fn a_spot_that_is_filled_is_no_partial_one(t in 0.0..80.0, e in 0.5..1.0) {
            let view = view(e, 20.0);
            let spot = PartialSpot {
                fraction: 1.0, target_c: t, target_emissivity: e, background_c: 90.0, background_emissivity: 0.9,
            };
            prop_assert_eq!(partial_reading_c(spot, view), reading_c(t, view));
        }

        #[test]
        fn less_certain_inputs_never_make_a_more_certain_surface(more in 0.0..0.3, t in 20.0..90.0) {
            let at = |u_emissivity| {
                uncertainty(t, view(0.9, 20.0), SpotInputs { u_emissivity, ..SpotInputs::TAPE }).unwrap().u_c
            };
            prop_assert!(at(0.02 + more) >= at(0.02));
        }
    }
}
