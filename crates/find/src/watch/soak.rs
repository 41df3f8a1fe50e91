//! The soaked vehicle: what everything in it had before the engine was started.
//!
//! In: coolant, intake and ambient air by standard identifiers. Out: one temperature, where they agree. Not here: judging anything by it.

use events::Quantity;
use serde::{Deserialize, Serialize};

/// The references before the start.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Soak {
    coolant: Option<f64>,
    intake: Option<f64>,
    ambient: Option<f64>,
}

impl Soak {
    /// One reading; the last before the start counts.
    pub fn note(&mut self, quantity: Quantity, celsius: f64) {
        match quantity {
            Quantity::CoolantTemperature => self.coolant = Some(celsius),
            Quantity::IntakeAirTemperature => self.intake = Some(celsius),
            Quantity::AmbientAirTemperature => self.ambient = Some(celsius),
            _ => {}
        }
    }

    /// The temperature of all, °C: their mean, where they lie within 6 K; `None` where the vehicle is not soaked or shows nothing. The
    /// coolant counts twice: it has the mass.
    pub fn celsius(&self) -> Option<f64> {
        let all = || [self.coolant, self.intake, self.ambient].into_iter().flatten();
        let (low, high) = all().fold((f64::MAX, f64::MIN), |(low, high), c| (low.min(c), high.max(c)));
        if high - low > SPREAD_K || self.coolant.is_none() {
            return None;
        }
        let weighed = || [(self.coolant, 2.0), (self.intake, 1.0), (self.ambient, 1.0)].into_iter();
        let (sum, weight) = weighed()
            .filter_map(|(celsius, weight)| Some((celsius? * weight, weight)))
            .fold((0.0, 0.0), |(sum, all), (one, weight)| (sum + one, all + weight));
        Some(sum / weight)
    }
}

/// Own choice: sensors within ±1.5 K each, and as much for a sun that shines on one side.
const SPREAD_K: f64 = 6.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_vehicle_is_soaked_where_its_references_agree() {
        type Shown = [Option<f64>; 3];
        let cases: &[(&str, Shown, Option<f64>)] = &[
            ("all agree", [Some(20.0), Some(21.0), Some(19.0)], Some(20.0)),
            ("the coolant alone", [Some(12.0), None, None], Some(12.0)),
            ("still warm from a drive", [Some(45.0), Some(24.0), Some(20.0)], None),
            ("no coolant", [None, Some(20.0), Some(20.0)], None),
            ("nothing", [None, None, None], None),
        ];
        for (what, [coolant, intake, ambient], want) in cases {
            let soak = Soak { coolant: *coolant, intake: *intake, ambient: *ambient };
            assert_eq!(soak.celsius(), *want, "{what}");
        }
    }
}
