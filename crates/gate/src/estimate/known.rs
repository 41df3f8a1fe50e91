//! What is known of the temperature at one instant.
//!
//! In: a temperature and its uncertainty as the formulas give them. Out: [`Known`], rounded so that the stored uncertainty is
//! never smaller than the computed one. Not here: the formulas (`budget.rs`, `thermometer.rs`, `lamp.rs`).

use events::Estimate;
use units::{Celsius, Kelvins};

use crate::signal::slope::Slope;

/// What is known of the temperature now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Known {
    pub(crate) celsius: Celsius,
    pub(crate) u: Kelvins,
    pub(crate) slope: Option<Slope>,
    /// The highest temperature that the display stands for, °C: above the estimate while it shimmers between two steps.
    pub(crate) highest: f64,
    /// What of `u` can only mean that it is warmer, K: it speaks for the upper edge of a band alone.
    pub(crate) warmer: f64,
    /// The step in which the signal shows it, K: two values closer than that are the same.
    pub(crate) step: f64,
}

impl Known {
    /// Rounds to the stored steps: the temperature to the nearest, the uncertainty up.
    pub(crate) fn new(celsius: f64, u: f64, slope: Option<Slope>, step: f64) -> Option<Self> {
        let up = (u * f64::from(Kelvins::PER_UNIT)).ceil() / f64::from(Kelvins::PER_UNIT);
        let celsius = Celsius::from_f64(celsius)?;
        Some(Self { celsius, u: Kelvins::from_f64(up)?, slope, highest: celsius.to_f64(), warmer: 0.0, step })
    }

    pub(crate) fn to_event(self) -> Estimate {
        let kelvins_per_minute = self.slope.and_then(|s| Kelvins::from_f64(s.c_min));
        Estimate { celsius: self.celsius, u: self.u, kelvins_per_minute, fluid: None }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_uncertainty_is_rounded_up() {
        assert_eq!(Known::new(40.0, 0.700_1, None, 1.0).unwrap().u.to_f64(), 0.71);
        assert!(Known::new(40.0, f64::NAN, None, 1.0).is_none());
    }
}
