//! The quantities: what can be read, one row each.
//!
//! In: the table. Out: [`Quantity`], the name in the JSON; [`Measure`], a quantity with its value in the type of its
//! unit; how a plain number becomes one; what the daemon asks the vehicle for, and how often.
//! Not here: one reading with its origin (`reading.rs`); which bits of a reply are the number (`frames`).

use core::fmt;
use core::time::Duration;

use units::{Celsius, KilometresPerHour, Millivolts, Rpm, words};

use crate::by_eye::{LampState, Surface};

use Need::{ForGo, ForTheRecord};

/// A row: the variant of [`Measure`] and what it holds, the variant of [`Quantity`], its name, its sentence, and
/// whether it is asked for. The unit goes with the type ([`Unit`]).
macro_rules! quantities {
    ($($measure:ident($type:ty $(, $beside:ty)?): $of:ident $word:literal $says:literal => $asked:expr;)+) => {
        words! {
            /// What a reading is of: the name in the JSON.
            json Quantity, pub asked: Option<Asked> {
                $($of $word $says => $asked,)+
            }
        }

        /// A quantity and its value, one type each: an engine speed in °C cannot be said.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Measure {
            $(#[doc = $says] $measure($type $(, $beside)?),)+
        }

        impl Measure {
            /// What it is of.
            pub const fn quantity(self) -> Quantity {
                match self { $(Self::$measure(..) => Quantity::$of,)+ }
            }

            /// The value and the unit's word, as in the JSON.
            pub fn plain(self) -> (f64, &'static str) {
                match self { $(Self::$measure(value, ..) => (value.plain(), <$type>::WORD),)+ }
            }

            /// The temperature, where it is one.
            pub fn celsius(self) -> Option<Celsius> {
                match self { $(Self::$measure(value, ..) => value.celsius(),)+ }
            }

            /// From name, value and, for a spot reading, the surface. `None` where the value is impossible.
            pub fn from_plain(of: Quantity, value: f64, surface: Option<Surface>) -> Option<Self> {
                Some(match of {
                    $(Quantity::$of => Self::$measure(<$type>::of_plain(value)? $(, Option::<$beside>::from(surface)?)?),)+
                })
            }
        }
    };
}

#[rustfmt::skip]
quantities! {
    Fluid(Celsius):                  FluidTemperature      "fluid-temperature" "Transmission fluid temperature, from the identifier of the sheet." => UNASKED;
    Coolant(Celsius):                CoolantTemperature    "engine-coolant-temperature" "Engine coolant temperature." => asked(0x05, 2, ForTheRecord);
    IntakeAir(Celsius):              IntakeAirTemperature  "intake-air-temperature" "Intake air temperature." => asked(0x0F, 5, ForTheRecord);
    AmbientAir(Celsius):             AmbientAirTemperature "ambient-air-temperature" "Ambient air temperature." => asked(0x46, 5, ForTheRecord);
    Spot(Celsius, Surface):          SpotTemperature       "spot-temperature" "A thermometer's reading, typed in." => UNASKED;
    Display(Celsius):                DisplayTemperature    "display-temperature" "A number on the vehicle's display, told by a person." => UNASKED;
    Lamp(LampState):                 Lamp                  "lamp" "The vehicle's own lamp, told by a person: 0 too cold, 1 right, 2 too hot." => UNASKED;
    EngineSpeed(Rpm):                EngineSpeed           "engine-speed" "Engine speed." => asked(0x0C, 1, ForGo);
    VehicleSpeed(KilometresPerHour): VehicleSpeed          "vehicle-speed" "Vehicle speed." => asked(0x0D, 2, ForGo);
    RunTime(u32):                    RunTime               "time-since-engine-start" "Time since engine start." => asked(0x1F, 10, ForTheRecord);
    ModuleVoltage(Millivolts):       ModuleVoltage         "control-module-voltage" "Control module voltage." => asked(0x42, 10, ForTheRecord);
    AdapterVoltage(Millivolts):      AdapterVoltage        "adapter-voltage" "Voltage at the diagnostic connector." => UNASKED;
    Selector(u8):                    SelectorPosition      "selector-position" "Position of the selector, as its place in the sheet's list, from 0." => UNASKED;
}

/// That the daemon asks the vehicle for it by a standard identifier of service 01, whose value has the same name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked {
    /// The identifier.
    pub identifier: u8,
    /// How often.
    pub every: Duration,
    /// What for. Of those that are due equally often, the ones for `go` come first.
    pub need: Need,
}

/// What a quantity is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// `go` waits for it: the state of the engine and of the vehicle.
    ForGo,
    /// The record, and what is worked out from it.
    ForTheRecord,
}

const fn asked(identifier: u8, seconds: u64, need: Need) -> Option<Asked> {
    Some(Asked { identifier, every: Duration::from_secs(seconds), need })
}

/// It has a request of its own, or a person tells it.
const UNASKED: Option<Asked> = None;

impl Quantity {
    /// What is asked for, in the order in which it is asked: the most often first.
    pub fn all_asked() -> Vec<Asked> {
        let mut all: Vec<Asked> = Self::ALL.iter().filter_map(|quantity| quantity.asked()).collect();
        all.sort_by_key(|asked| (asked.every, asked.need));
        all
    }

    /// By its name, where the daemon asks for it: that of the standard identifier's value.
    pub fn asked_by_name(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|quantity| quantity.asked().is_some() && quantity.word() == name)
    }
}

/// A type that a value can have: its unit, and how it is a plain number.
trait Unit: Sized {
    /// The unit's word, as in the JSON.
    const WORD: &'static str;

    /// As a number of that unit.
    fn plain(self) -> f64;

    /// From a number of that unit; `None` where it is impossible.
    fn of_plain(value: f64) -> Option<Self>;

    /// The temperature, where it is one.
    fn celsius(self) -> Option<Celsius> {
        None
    }
}

impl Unit for Celsius {
    const WORD: &'static str = "celsius";
    fn plain(self) -> f64 {
        self.to_f64()
    }
    fn of_plain(value: f64) -> Option<Self> {
        Self::from_f64(value)
    }
    fn celsius(self) -> Option<Celsius> {
        Some(self)
    }
}

impl Unit for Rpm {
    const WORD: &'static str = "per-minute";
    fn plain(self) -> f64 {
        self.to_f64()
    }
    fn of_plain(value: f64) -> Option<Self> {
        Self::from_f64(value)
    }
}

impl Unit for KilometresPerHour {
    const WORD: &'static str = "kilometres-per-hour";
    fn plain(self) -> f64 {
        self.to_f64()
    }
    fn of_plain(value: f64) -> Option<Self> {
        Self::from_f64(value)
    }
}

impl Unit for Millivolts {
    const WORD: &'static str = "volts";
    fn plain(self) -> f64 {
        self.to_f64() / 1_000.0
    }
    fn of_plain(value: f64) -> Option<Self> {
        Self::from_f64(value * 1_000.0)
    }
}

impl Unit for LampState {
    const WORD: &'static str = "state";
    fn plain(self) -> f64 {
        f64::from(self as u8)
    }
    fn of_plain(value: f64) -> Option<Self> {
        Self::ALL.iter().copied().find(|state| state.plain() == value)
    }
}

/// Seconds.
impl Unit for u32 {
    const WORD: &'static str = "seconds";
    fn plain(self) -> f64 {
        f64::from(self)
    }
    fn of_plain(value: f64) -> Option<Self> {
        (0.0..=4.0e9).contains(&value).then_some(value as Self)
    }
}

/// A place in a list, from 0.
impl Unit for u8 {
    const WORD: &'static str = "position";
    fn plain(self) -> f64 {
        f64::from(self)
    }
    fn of_plain(value: f64) -> Option<Self> {
        (0.0..=255.0).contains(&value).then_some(value as Self)
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (value, unit) = self.plain();
        write!(f, "{} {value} {unit}", self.quantity())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_most_often_comes_first_and_what_go_waits_for_before_the_rest() {
        let identifiers: Vec<u8> = Quantity::all_asked().iter().map(|asked| asked.identifier).collect();
        assert_eq!(identifiers, [0x0C, 0x0D, 0x05, 0x0F, 0x46, 0x1F, 0x42]);
    }

    #[test]
    fn a_plain_number_and_back_is_the_same() {
        for &of in Quantity::ALL {
            let measure = Measure::from_plain(of, 2.0, Some(Surface::Tape)).unwrap();
            assert_eq!((measure.quantity(), measure.plain().0), (of, 2.0), "{of}");
        }
        assert_eq!(Measure::from_plain(Quantity::SpotTemperature, 20.0, None), None, "no surface");
        assert_eq!(Measure::from_plain(Quantity::SelectorPosition, 256.0, None), None);
        assert_eq!(Measure::from_plain(Quantity::RunTime, -1.0, None), None);
    }
}
