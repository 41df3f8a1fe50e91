//! What people type and read: `2.4L`, `2.5qt`, `104F`, `40C`, `1.5deg`, `29lbft`.
//!
//! A bare number is refused, because nobody can tell which unit was meant. This is the only place that knows
//! US units; inside, everything is SI. Factors: NIST SP 811 and Handbook 44 (exact by definition; the
//! pound-force foot follows from the exact pound, foot and standard gravity).

use core::fmt;

use crate::{Celsius, Degrees, Kelvins, Millilitres, Millimetres, NewtonMetres};

/// Millilitres in a US liquid quart: exact (57.75 cubic inches).
pub const QUART_US_ML: f64 = 946.352_946;
/// Millilitres in a US fluid ounce: exact (1/32 quart).
pub const FLUID_OUNCE_US_ML: f64 = 29.573_529_562_5;
/// Millilitres in an imperial quart: exact.
pub const QUART_IMPERIAL_ML: f64 = 1_136.522_5;
/// Newton metres in a pound-force foot: exact.
pub const POUND_FOOT_NM: f64 = 1.355_817_948_331_400_4;
/// Newton metres in a pound-force inch.
pub const POUND_INCH_NM: f64 = POUND_FOOT_NM / 12.0;

/// In which units people read: on paper and screen only, never inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// °C, L and mL, mm, N·m.
    #[default]
    Metric,
    /// °F, qt and fl oz, in, lb·ft.
    Us,
}

/// Why a text is not a quantity.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum TextError {
    /// No number at the start.
    NoNumber {
        /// What was typed.
        text: String,
        /// An example that would do.
        like: &'static str,
    },
    /// A number with no unit: refused, since the unit is not obvious.
    NoUnit {
        /// What was typed.
        text: String,
        /// An example that would do.
        like: &'static str,
    },
    /// A unit that this quantity does not have.
    UnknownUnit {
        /// The unit that was typed.
        unit: String,
        /// The units there are.
        known: &'static str,
    },
    /// A number no vehicle can have.
    OutOfRange {
        /// What was typed.
        text: String,
        /// The range in words.
        range: String,
    },
}

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNumber { text, like } => {
                write!(f, "`{text}` does not begin with a number; write it like `{like}`")
            }
            Self::NoUnit { text, like } => write!(f, "`{text}` has no unit; write it like `{like}`"),
            Self::UnknownUnit { unit, known } => write!(f, "`{unit}` is no unit here; known: {known}"),
            Self::OutOfRange { text, range } => write!(f, "`{text}` is outside {range}"),
        }
    }
}

impl core::error::Error for TextError {}

/// Splits `2.4 L` into the number and the unit in lower case; the unit may be empty.
fn split(text: &str, like: &'static str) -> Result<(f64, String), TextError> {
    let trimmed = text.trim().replace('\u{2212}', "-");
    let end = trimmed
        .char_indices()
        .find(|&(i, c)| !(c.is_ascii_digit() || c == '.' || (i == 0 && (c == '-' || c == '+'))))
        .map_or(trimmed.len(), |(i, _)| i);
    let (number, unit) = trimmed.split_at(end);
    let number = number.parse().map_err(|_| TextError::NoNumber { text: text.to_owned(), like })?;
    Ok((number, unit.trim().trim_start_matches(['°', '\u{202f}']).to_lowercase()))
}

macro_rules! read {
    ($(#[$doc:meta])* $name:ident -> $type:ident in $base:literal, like $like:literal, known $known:literal: $($unit:pat => $to:expr),+ $(,)?) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// [`TextError`] says what was typed and what would do.
        pub fn $name(text: &str) -> Result<$type, TextError> {
            let (number, unit) = split(text, $like)?;
            let convert: fn(f64) -> f64 = match unit.as_str() {
                "" => return Err(TextError::NoUnit { text: text.to_owned(), like: $like }),
                $($unit => $to,)+
                _ => return Err(TextError::UnknownUnit { unit, known: $known }),
            };
            $type::from_f64(convert(number)).ok_or_else(|| TextError::OutOfRange {
                text: text.to_owned(),
                range: format!("{} to {} {}", $type::LOWEST, $type::HIGHEST, $base),
            })
        }
    };
}

read! {
    /// Reads a temperature: `40C`, `104F`, `40 °C`.
    celsius -> Celsius in "°C", like "40C", known "C, F":
    "c" | "celsius" => |v| v,
    "f" | "fahrenheit" => |v| (v - 32.0) * 5.0 / 9.0,
}
read! {
    /// Reads a difference of temperatures: `1.5K`, `2C`, `3F`.
    kelvins -> Kelvins in "K", like "1.5K", known "K, C, F":
    "k" | "c" => |v| v,
    "f" => |v| v * 5.0 / 9.0,
}
read! {
    /// Reads a volume: `2.4L`, `470ml`, `2.5qt`, `16floz`.
    millilitres -> Millilitres in "mL", like "2.4L", known "L, mL, qt, floz, impqt":
    "l" | "litre" | "litres" | "liter" | "liters" => |v| v * 1_000.0,
    "ml" => |v| v,
    "qt" | "quart" | "quarts" => |v| v * QUART_US_ML,
    "floz" | "fl oz" | "oz" => |v| v * FLUID_OUNCE_US_ML,
    "impqt" => |v| v * QUART_IMPERIAL_ML,
}
read! {
    /// Reads a length: `12mm`, `1.2cm`, `0.5in`.
    millimetres -> Millimetres in "mm", like "12mm", known "mm, cm, m, in":
    "mm" => |v| v,
    "cm" => |v| v * 10.0,
    "m" => |v| v * 1_000.0,
    "in" | "inch" => |v| v * 25.4,
}
read! {
    /// Reads an angle: `0.3deg`.
    degrees -> Degrees in "degrees", like "0.3deg", known "deg":
    "deg" | "d" | "degrees" => |v| v,
}
read! {
    /// Reads a torque: `40Nm`, `29lbft`, `15lbin`.
    newton_metres -> NewtonMetres in "N·m", like "40Nm", known "Nm, lbft, lbin":
    "nm" | "n·m" => |v| v,
    "lbft" | "lb·ft" | "ftlb" => |v| v * POUND_FOOT_NM,
    "lbin" | "lb·in" | "inlb" => |v| v * POUND_INCH_NM,
}

/// A temperature for people: `38.4 °C` or `101.1 °F`.
pub fn show_celsius(value: Celsius, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{value}\u{202f}°C"),
        UnitSystem::Us => format!("{:.1}\u{202f}°F", value.to_f64() * 9.0 / 5.0 + 32.0),
    }
}

/// A difference of temperatures for people: `0.7 °C` or `1.3 °F`.
pub fn show_kelvins(value: Kelvins, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{value}\u{202f}°C"),
        UnitSystem::Us => format!("{:.1}\u{202f}°F", value.to_f64() * 9.0 / 5.0),
    }
}

/// A volume for people: `470 mL`, `2.40 L`, or quarts.
pub fn show_millilitres(value: Millilitres, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric if value.abs().steps() < 1_000 => format!("{value}\u{202f}mL"),
        UnitSystem::Metric => format!("{:.2}\u{202f}L", value.to_f64() / 1_000.0),
        UnitSystem::Us if value.abs().to_f64() < QUART_US_ML / 2.0 => {
            format!("{:.1}\u{202f}fl\u{a0}oz", value.to_f64() / FLUID_OUNCE_US_ML)
        }
        UnitSystem::Us => format!("{:.2}\u{202f}qt", value.to_f64() / QUART_US_ML),
    }
}

/// A torque for people: `40 N·m` or `29.5 lb·ft` (below 10 lb·ft in lb·in).
pub fn show_newton_metres(value: NewtonMetres, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{value}\u{202f}N·m"),
        UnitSystem::Us if value.to_f64() < 10.0 * POUND_FOOT_NM => {
            format!("{:.1}\u{202f}lb·in", value.to_f64() / POUND_INCH_NM)
        }
        UnitSystem::Us => format!("{:.1}\u{202f}lb·ft", value.to_f64() / POUND_FOOT_NM),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Expected values: fixtures of physics section 10 (exact definitions, cross-checked there with an
    // independent unit library), rounded to the step of the type.
    #[test]
    fn amounts_are_read_as_people_write_them() {
        let cases: &[(&str, &str, i32)] = &[
            ("litres", "2.4L", 2_400),
            ("a space before the unit", "2.4 L", 2_400),
            ("millilitres", "470ml", 470),
            ("US quarts", "2.5qt", 2_366),
            ("US fluid ounces", "16 fl oz", 473),
            ("imperial quarts", "1impqt", 1_137),
        ];
        for (what, text, want) in cases {
            assert_eq!(millilitres(text).map(Millilitres::steps), Ok(*want), "{what}");
        }
        assert_eq!(celsius("104F").map(Celsius::steps), Ok(4_000));
        assert_eq!(celsius("-40 °C").map(Celsius::steps), Ok(-4_000));
        assert_eq!(kelvins("18F").map(Kelvins::steps), Ok(1_000));
        assert_eq!(newton_metres("29.5lbft").map(NewtonMetres::steps), Ok(400));
        assert_eq!(degrees("0.35deg").map(Degrees::steps), Ok(35));
        assert_eq!(millimetres("0.5in").map(Millimetres::steps), Ok(1_270));
    }

    #[test]
    fn a_bad_amount_says_what_would_do() {
        let cases: &[(&str, &str)] = &[
            ("2.4", "`2.4` has no unit; write it like `2.4L`"),
            ("lots", "`lots` does not begin with a number; write it like `2.4L`"),
            ("2.4kg", "`kg` is no unit here; known: L, mL, qt, floz, impqt"),
            ("400L", "`400L` is outside -100000 to 100000 mL"),
            ("1.2.3L", "`1.2.3L` does not begin with a number; write it like `2.4L`"),
        ];
        for (text, want) in cases {
            assert_eq!(millilitres(text).map_err(|e| e.to_string()), Err((*want).to_owned()), "{text}");
        }
    }

    #[test]
    fn people_read_their_own_units() {
        let t = Celsius::from_steps(4_000).unwrap();
        assert_eq!(show_celsius(t, UnitSystem::Metric), "40.0\u{202f}°C");
        assert_eq!(show_celsius(t, UnitSystem::Us), "104.0\u{202f}°F");
        let v = Millilitres::from_steps(2_366).unwrap();
        assert_eq!(show_millilitres(v, UnitSystem::Us), "2.50\u{202f}qt");
        assert_eq!(
            show_millilitres(Millilitres::from_steps(-44).unwrap(), UnitSystem::Metric),
            "-44\u{202f}mL"
        );
    }
}
