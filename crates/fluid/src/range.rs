//! What each input may be: one table of limits, and the one check that enforces it.
//!
//! In: a number. Out: the same number, or [`FluidError::OutsideRange`] that names quantity, value and range.
//! Not-a-number and the infinities lie in no range. Not here: pairs that do not go together (beside each formula).
//! Source: each row says; "generous" marks a limit that only keeps slips of the keyboard out.

use crate::FluidError;

/// From where to where a quantity may lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    quantity: &'static str,
    unit: &'static str,
    low: f64,
    high: f64,
}

impl Range {
    const fn closed(quantity: &'static str, unit: &'static str, low: f64, high: f64) -> Self {
        Self { quantity, unit, low, high }
    }

    /// The same limits under the name the caller knows the quantity by.
    pub(crate) const fn named(self, quantity: &'static str) -> Self {
        Self { quantity, ..self }
    }

    /// `value` itself when it lies in the range.
    ///
    /// # Errors
    /// [`FluidError::OutsideRange`] otherwise, and for not-a-number.
    pub fn check(&self, value: f64) -> Result<f64, FluidError> {
        if (self.low..=self.high).contains(&value) {
            return Ok(value);
        }
        let Self { quantity, unit, low, high } = *self;
        Err(FluidError::OutsideRange { quantity, value, low, high, unit })
    }

    /// As [`Range::check`] between other limits, under this name and unit.
    pub(crate) fn within(&self, value: f64, low: f64, high: f64) -> Result<f64, FluidError> {
        Self { low, high, ..*self }.check(value)
    }

    /// What is limited.
    pub const fn quantity(&self) -> &'static str {
        self.quantity
    }

    /// The unit of the limits.
    pub const fn unit(&self) -> &'static str {
        self.unit
    }

    /// The lower and the upper limit.
    pub const fn limits(&self) -> (f64, f64) {
        (self.low, self.high)
    }
}

// Volume and temperature

// Own choice: generous unless a row names a source: twice and more of what a lorry's unit holds.
/// Density at 15 °C.
/// Source: stated range of the lubricating-oil group, API MPMS 11.1 (seen on a public formula page).
pub const DENSITY_15: Range = Range::closed("density at 15 °C", "kg/m³", 800.0, 1_164.0);
/// Density at the fluid's own temperature: the range above, moved by its expansion over the temperatures allowed.
pub const DENSITY: Range = Range::closed("density", "kg/m³", 690.0, 1_230.0);
/// Temperature of the fluid in the volume formulas.
/// Source: API MPMS 11.1 of 2004, -50 to 150 °C (from memory).
pub const FLUID_CELSIUS: Range = Range::closed("fluid temperature", "°C", -50.0, 150.0);
/// The same limits on the °F scale of 1968, as the 2004 form asks for.
/// Source: as [`FLUID_CELSIUS`].
pub const FAHRENHEIT_68: Range = Range::closed("temperature", "°F", -58.0, 302.0);
/// Expansion coefficient at 60 °F in that form.
/// Source: API MPMS 11.1 of 2004 (from memory), crude to gasoline.
pub const ALPHA_60: Range = Range::closed("expansion coefficient at 60 °F", "1/°F", 0.000_200, 0.001_000);
/// Linear expansion of a case. Generous: plastics reach 150, metals 12 to 24.
pub const CASE_EXPANSION: Range = Range::closed("case expansion", "1e-6/K", 0.0, 200.0);
/// A volume of fluid. Generous: the largest unit in a lorry holds some 60 L.
pub const VOLUME_ML: Range = Range::closed("volume", "mL", 0.0, 100_000.0);
/// The whole fluid of a unit. Generous, but something must be there.
pub const TOTAL_ML: Range = Range::closed("total volume", "mL", 1.0, 100_000.0);
/// A change or an error of volume; positive is too much.
pub const CHANGE_ML: Range = Range::closed("volume error", "mL", -100_000.0, 100_000.0);

// Level and tilt

// Own choice: generous unless a row names a source: ten times what a vehicle measures, and none where the formula ends.
/// Free surface at the height of the rim. Generous around 0.045 to 0.09 m² (from memory).
pub const AREA_M2: Range = Range::closed("free surface", "m²", 0.001, 1.0);
/// A height of the fluid over the rim, or under it.
pub const HEIGHT_MM: Range = Range::closed("height", "mm", -1_000.0, 1_000.0);
/// Pitch or roll. The plane formula holds while the surface crosses the same walls: a few degrees.
pub const TILT_DEG: Range = Range::closed("tilt", "°", -15.0, 15.0);
/// Place of the standpipe from the centroid of the surface.
pub const OFFSET_MM: Range = Range::closed("standpipe offset", "mm", -2_000.0, 2_000.0);
/// A corner height over the floor; a lift reaches 2 m.
pub const CORNER_MM: Range = Range::closed("corner height", "mm", -5_000.0, 5_000.0);
/// Standard uncertainty of one corner height.
pub const CORNER_U_MM: Range = Range::closed("uncertainty of a corner height", "mm", 0.0, 100.0);
/// A wheelbase or a track: a length the vehicle is measured across.
pub const BASE_MM: Range = Range::closed("base length", "mm", 200.0, 20_000.0);
/// A distance that the tilt acts over.
pub const DISTANCE_MM: Range = Range::closed("distance", "mm", 0.1, 20_000.0);

// Fluid

// Own choice: generous unless a row names a source: the formula's own ends; a thousand rounds are a slip of the keyboard.
/// Kinematic viscosity.
/// Source: at 0.3 and below the double logarithm of ASTM D341 does not exist.
pub const MM2_S: Range = Range::closed("kinematic viscosity", "mm²/s", 0.300_001, 1_000_000.0);
/// Absolute temperature in the viscosity formula.
pub const KELVIN: Range = Range::closed("absolute temperature", "K", 173.15, 573.15);
/// A fraction of a whole.
/// By definition.
pub const FRACTION: Range = Range::closed("fraction", "of 1", 0.0, 1.0);
/// Rounds of draining and filling.
pub const ROUNDS: Range = Range::closed("rounds", "times", 0.0, 1_000.0);

// Run-out

// Own choice: generous unless a row names a source: ten times what a pipe, a drop or a warm-up has.
/// Excess over the rim.
pub const EXCESS_ML: Range = Range::closed("excess", "mL", 0.0, 50_000.0);
/// Bore of the standpipe.
pub const BORE_MM: Range = Range::closed("bore", "mm", 0.5, 100.0);
/// Width of its rim.
pub const RIM_MM: Range = Range::closed("rim width", "mm", 0.05, 50.0);
/// Length of its tube.
pub const LENGTH_MM: Range = Range::closed("tube length", "mm", 0.5, 1_000.0);
/// A flow that counts as a trickle.
pub const TRICKLE_ML_MIN: Range = Range::closed("trickle", "mL/min", 0.001, 10_000.0);
/// What warming adds to the surface; negative while cooling.
pub const INFLOW_ML_MIN: Range = Range::closed("inflow", "mL/min", -1_000.0, 1_000.0);
/// A time.
pub const SECONDS: Range = Range::closed("time", "s", 0.0, 1.0e7);
/// A height of wetted wall.
pub const WALL_MM: Range = Range::closed("wall height", "mm", 0.0, 2_000.0);
/// The outline of wetted wall.
pub const PERIMETER_MM: Range = Range::closed("wall perimeter", "mm", 0.0, 20_000.0);
/// A drop. Plausible for oil: 0.02 to 0.06 mL (from memory); generous.
pub const DROP_ML: Range = Range::closed("drop", "mL", 0.0, 1.0);
/// How often it drips; faster is a thread, not drops.
pub const DROPS_PER_S: Range = Range::closed("drops per second", "1/s", 0.0, 100.0);
/// Volume expansion of a fluid near its own temperature.
pub const BETA: Range = Range::closed("volume expansion", "1/K", 1.0e-6, 0.01);
/// How fast it warms; negative while cooling.
pub const RATE_C_MIN: Range = Range::closed("rate of warming", "°C/min", -60.0, 60.0);
/// A time constant.
pub const TAU_MIN: Range = Range::closed("time constant", "min", 0.001, 10_000.0);

// Heat

// Own choice: generous: a hundred times the parameters of fixtures/reference/physics/thermal_parameters.csv.
/// A temperature anywhere on or under a vehicle.
pub const CELSIUS: Range = Range::closed("temperature", "°C", -100.0, 1_000.0);
/// A heat capacity.
pub const KJ_K: Range = Range::closed("heat capacity", "kJ/K", 0.001, 100_000.0);
/// Heat into a node.
pub const KW: Range = Range::closed("heat", "kW", 0.0, 1_000.0);
/// Conductance between two nodes; none is possible.
pub const EXCHANGE_W_K: Range = Range::closed("exchange", "W/K", 0.0, 100_000.0);
/// Conductance to air; without any there is no final temperature.
pub const TO_AIR_W_K: Range = Range::closed("conductance to air", "W/K", 0.001, 100_000.0);
/// A film coefficient.
pub const FILM_W_M2K: Range = Range::closed("film coefficient", "W/m²K", 0.01, 100_000.0);
/// Conductivity of a wall.
pub const WALL_W_MK: Range = Range::closed("conductivity", "W/mK", 0.001, 10_000.0);
/// Thickness of a wall.
pub const WALL_THICKNESS_MM: Range = Range::closed("wall thickness", "mm", 0.0, 100.0);

// Radiation

// Own choice: generous unless a row names a source: what the formula stands, and no instrument lies beyond.
/// Product of wavelength and temperature.
pub const UM_K: Range = Range::closed("wavelength times temperature", "µm·K", 1.0, 1.0e9);
/// A wavelength.
pub const UM: Range = Range::closed("wavelength", "µm", 0.01, 1_000.0);
/// Emissivity: nothing emits without, nothing more than a black body.
pub const EMISSIVITY: Range = Range::closed("emissivity", "of 1", 0.01, 1.0);
/// Distance-to-spot ratio of an infrared thermometer.
pub const SPOT_RATIO: Range = Range::closed("distance-to-spot ratio", "to 1", 0.5, 1_000.0);
/// An aperture; none known is 0.
pub const APERTURE_MM: Range = Range::closed("exit diameter", "mm", 0.0, 500.0);

// Measurement

// Own choice: generous unless a row names a source: a slip of the keyboard lies beyond.
/// Any quantity that is a number of a size things here have.
pub const ANY: Range = Range::closed("value", "in its unit", -1.0e9, 1.0e9);
/// A standard uncertainty of a temperature, or a resolution.
pub const U_CELSIUS: Range = Range::closed("uncertainty", "°C", 0.0, 1_000.0);
/// A guard factor.
pub const GUARD_FACTOR: Range = Range::closed("guard factor", "times u", 0.0, 10.0);
/// A probability with an inverse: neither impossible nor certain.
pub const PROBABILITY: Range = Range::closed("probability", "of 1", 1.0e-15, 1.0 - 1.0e-15);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_names_quantity_value_and_range() {
        let text = DENSITY_15.check(500.0).unwrap_err().to_string();
        assert_eq!(text, "density at 15 °C is 500 kg/m³; it must lie from 800 to 1164 kg/m³");
    }

    #[test]
    fn what_is_no_number_lies_in_no_range() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for range in [DENSITY_15, FLUID_CELSIUS, CHANGE_ML, MM2_S, SECONDS, PROBABILITY] {
                assert!(range.check(value).is_err(), "{value} as {}", range.quantity());
            }
        }
    }

    #[test]
    fn the_ends_belong_to_the_range_and_a_divisor_is_never_nothing() {
        assert_eq!(DENSITY_15.check(800.0), Ok(800.0));
        assert_eq!(DENSITY_15.check(1_164.0), Ok(1_164.0));
        for divisor in
            [TOTAL_ML, AREA_M2, BASE_MM, DISTANCE_MM, TAU_MIN, KJ_K, TO_AIR_W_K, EMISSIVITY, SPOT_RATIO]
        {
            assert!(divisor.check(0.0).is_err(), "{}", divisor.quantity());
        }
        assert!(MM2_S.check(0.3).is_err() && PROBABILITY.check(1.0).is_err());
    }

    #[test]
    fn a_number_of_absurd_size_does_not_fill_the_screen() {
        let text = VOLUME_ML.check(1e300).unwrap_err().to_string();
        assert_eq!(text, "volume is 1e300 mL; it must lie from 0 to 100000 mL");
        assert!(PROBABILITY.check(0.0).unwrap_err().to_string().contains("from 1e-15 to"));
    }
}
