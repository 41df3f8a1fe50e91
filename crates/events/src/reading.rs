//! One decoded quantity: what, value, unit, from which control unit, when.

use core::fmt;

use crate::words::words;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Kelvins, KilometresPerHour, Millivolts, Rpm};

words! {
    /// What a reading is of: the name in the JSON.
    Quantity {
        FluidTemperature "fluid-temperature" "Transmission fluid temperature, from the identifier of the sheet.",
        CoolantTemperature "engine-coolant-temperature" "Engine coolant temperature.",
        IntakeAirTemperature "intake-air-temperature" "Intake air temperature.",
        AmbientAirTemperature "ambient-air-temperature" "Ambient air temperature.",
        SpotTemperature "spot-temperature" "A thermometer's reading, typed in.",
        DisplayTemperature "display-temperature" "A number on the vehicle's display, told by a person.",
        Lamp "lamp" "The vehicle's own lamp, told by a person: 0 too cold, 1 right, 2 too hot.",
        EngineSpeed "engine-speed" "Engine speed.",
        VehicleSpeed "vehicle-speed" "Vehicle speed.",
        RunTime "time-since-engine-start" "Time since engine start.",
        ModuleVoltage "control-module-voltage" "Control module voltage.",
        AdapterVoltage "adapter-voltage" "Voltage at the diagnostic connector.",
        SelectorPosition "selector-position" "Position of the selector, as its place in the sheet's list, from 0.",
    }
}

words! {
    /// What a spot thermometer was pointed at or held to.
    Surface {
        Tape "tape" "Matt tape on the metal sump.",
        MattPaint "matt-paint" "Matt paint on the metal sump.",
        Plastic "plastic" "A plastic sump.",
        BareMetal "bare-metal" "Bare metal: refused for infrared, its reading is the surroundings'.",
        Contact "contact" "A contact probe on the metal sump.",
        Stream "stream" "A probe in the fluid itself.",
        Air "air" "No surface: the air under the vehicle.",
    }
}

words! {
    /// What the vehicle's own lamp says of the fluid.
    LampState {
        TooCold "too-cold" "Below the band.",
        Right "right" "In the band.",
        TooHot "too-hot" "Above the band.",
    }
}

/// A quantity and its value, one type each: an engine speed in °C cannot be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Fluid temperature.
    Fluid(Celsius),
    /// Coolant temperature.
    Coolant(Celsius),
    /// Intake air temperature.
    IntakeAir(Celsius),
    /// Ambient air temperature.
    AmbientAir(Celsius),
    /// A thermometer's reading, typed in, and what it was pointed at.
    Spot(Celsius, Surface),
    /// A number on the vehicle's display.
    Display(Celsius),
    /// The vehicle's own lamp.
    Lamp(LampState),
    /// Engine speed.
    EngineSpeed(Rpm),
    /// Vehicle speed.
    VehicleSpeed(KilometresPerHour),
    /// Seconds since engine start.
    RunTime(u32),
    /// Control module voltage.
    ModuleVoltage(Millivolts),
    /// Voltage at the diagnostic connector.
    AdapterVoltage(Millivolts),
    /// Position of the selector: its place in the sheet's list, from 0.
    Selector(u8),
}

impl Measure {
    /// What it is of.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Fluid(_) => Quantity::FluidTemperature,
            Self::Coolant(_) => Quantity::CoolantTemperature,
            Self::IntakeAir(_) => Quantity::IntakeAirTemperature,
            Self::AmbientAir(_) => Quantity::AmbientAirTemperature,
            Self::Spot(..) => Quantity::SpotTemperature,
            Self::Display(_) => Quantity::DisplayTemperature,
            Self::Lamp(_) => Quantity::Lamp,
            Self::EngineSpeed(_) => Quantity::EngineSpeed,
            Self::VehicleSpeed(_) => Quantity::VehicleSpeed,
            Self::RunTime(_) => Quantity::RunTime,
            Self::ModuleVoltage(_) => Quantity::ModuleVoltage,
            Self::AdapterVoltage(_) => Quantity::AdapterVoltage,
            Self::Selector(_) => Quantity::SelectorPosition,
        }
    }

    /// The value and the unit's word, as in the JSON.
    pub fn plain(self) -> (f64, &'static str) {
        match self {
            Self::Fluid(t)
            | Self::Coolant(t)
            | Self::IntakeAir(t)
            | Self::AmbientAir(t)
            | Self::Display(t)
            | Self::Spot(t, _) => (t.to_f64(), "celsius"),
            Self::Lamp(state) => (f64::from(state as u8), "state"),
            Self::EngineSpeed(n) => (n.to_f64(), "per-minute"),
            Self::VehicleSpeed(v) => (v.to_f64(), "kilometres-per-hour"),
            Self::RunTime(s) => (f64::from(s), "seconds"),
            Self::ModuleVoltage(v) | Self::AdapterVoltage(v) => (v.to_f64() / 1_000.0, "volts"),
            Self::Selector(place) => (f64::from(place), "position"),
        }
    }

    /// The temperature, where it is one.
    pub const fn celsius(self) -> Option<Celsius> {
        match self {
            Self::Fluid(t)
            | Self::Coolant(t)
            | Self::IntakeAir(t)
            | Self::AmbientAir(t)
            | Self::Display(t)
            | Self::Spot(t, _) => Some(t),
            _ => None,
        }
    }

    /// From name, value and, for a spot reading, the surface. `None` where the value is impossible.
    pub fn from_plain(of: Quantity, value: f64, surface: Option<Surface>) -> Option<Self> {
        let volts = |v: f64| Millivolts::from_f64(v * 1_000.0);
        Some(match of {
            Quantity::FluidTemperature => Self::Fluid(Celsius::from_f64(value)?),
            Quantity::CoolantTemperature => Self::Coolant(Celsius::from_f64(value)?),
            Quantity::IntakeAirTemperature => Self::IntakeAir(Celsius::from_f64(value)?),
            Quantity::AmbientAirTemperature => Self::AmbientAir(Celsius::from_f64(value)?),
            Quantity::SpotTemperature => Self::Spot(Celsius::from_f64(value)?, surface?),
            Quantity::DisplayTemperature => Self::Display(Celsius::from_f64(value)?),
            Quantity::Lamp => {
                Self::Lamp(LampState::ALL.iter().copied().find(|state| f64::from(*state as u8) == value)?)
            }
            Quantity::EngineSpeed => Self::EngineSpeed(Rpm::from_f64(value)?),
            Quantity::VehicleSpeed => Self::VehicleSpeed(KilometresPerHour::from_f64(value)?),
            Quantity::RunTime if (0.0..=4.0e9).contains(&value) => Self::RunTime(value as u32),
            Quantity::RunTime => return None,
            Quantity::ModuleVoltage => Self::ModuleVoltage(volts(value)?),
            Quantity::AdapterVoltage => Self::AdapterVoltage(volts(value)?),
            Quantity::SelectorPosition if (0.0..=255.0).contains(&value) => Self::Selector(value as u8),
            Quantity::SelectorPosition => return None,
        })
    }
}

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

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (value, unit) = self.plain();
        write!(f, "{} {value} {unit}", self.quantity())
    }
}
