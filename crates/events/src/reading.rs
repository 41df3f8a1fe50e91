//! One decoded quantity: what, value, unit, from which control unit, when. Not here: the table of quantities
//! (`quantity.rs`).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::Kelvins;

use crate::by_eye::Surface;
use crate::quantity::{Measure, Quantity};

/// One decoded quantity with its origin. In the JSON it is flat: name, value, unit, from, `age_ms`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "PlainReading", into = "PlainReading")]
#[schemars(with = "PlainReading")]
pub struct Reading {
    /// What was read.
    pub measure: Measure,
    /// The smallest step the source can show, in kelvins, where it is a temperature.
    pub step: Option<Kelvins>,
    /// The control unit that answered; absent for the adapter itself and for people.
    pub from: Option<String>,
    /// How old it was when it became an event.
    pub age_ms: u32,
}

#[derive(Clone, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Reading")]
struct PlainReading {
    name: Quantity,
    value: f64,
    unit: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    surface: Option<Surface>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    step: Option<Kelvins>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    age_ms: u32,
}

impl From<Reading> for PlainReading {
    fn from(r: Reading) -> Self {
        let (value, unit) = r.measure.plain();
        let surface = if let Measure::Spot(_, surface) = r.measure { Some(surface) } else { None };
        Self {
            name: r.measure.quantity(),
            value,
            unit: unit.to_owned(),
            surface,
            step: r.step,
            from: r.from,
            age_ms: r.age_ms,
        }
    }
}

/// A reading whose value no quantity of that name can have.
#[derive(Debug, thiserror::Error)]
#[error("a {name} of {value} {unit} cannot be")]
struct ImpossibleReading {
    name: Quantity,
    value: f64,
    unit: String,
}

impl TryFrom<PlainReading> for Reading {
    type Error = ImpossibleReading;
    fn try_from(p: PlainReading) -> Result<Self, ImpossibleReading> {
        match Measure::from_plain(p.name, p.value, p.surface) {
            Some(measure) if measure.plain().1 == p.unit => {
                Ok(Self { measure, step: p.step, from: p.from, age_ms: p.age_ms })
            }
            _ => Err(ImpossibleReading { name: p.name, value: p.value, unit: p.unit }),
        }
    }
}
