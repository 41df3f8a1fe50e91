//! The air about the vehicle, as its sensor or a thermometer has it.
//!
//! In: air temperatures. Out: the one that counts; a thermometer goes before the vehicle's own sensor. Not here: air as heat of the
//! fluid (`nodes`).

use units::Celsius;

/// The air under the vehicle.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Air {
    known: Option<f64>,
    told: Option<f64>,
}

impl Air {
    /// What the vehicle's own sensor says. Gives what counts of it; `None` for what cannot be.
    pub(crate) fn outside(&mut self, t: Celsius) -> Option<f64> {
        let t = plausible_air(t)?;
        self.known = self.told.or(Some(t));
        Some(t)
    }

    /// What a thermometer says.
    pub(crate) fn told(&mut self, t: Celsius) -> Option<f64> {
        let t = plausible_air(t)?;
        self.told = Some(t);
        self.known = Some(t);
        Some(t)
    }

    /// °C; `None` while nothing was read.
    pub(crate) const fn celsius(&self) -> Option<f64> {
        self.known
    }
}

/// °C, where air can have it.
pub(crate) fn plausible_air(t: Celsius) -> Option<f64> {
    (AIR.0..=AIR.1).contains(&t.to_f64()).then(|| t.to_f64())
}

/// What outside air can have, °C.
/// Own choice: beyond every yard and every hall; ends of the scale are what substitutes look like.
const AIR: (f64, f64) = (-50.0, 60.0);
