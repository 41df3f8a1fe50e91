//! What people type and read: `2.4L`, `6,5 L`, `1/2 qt`, `104F`, `95-110 F`, `1.5deg`, `30 ft-lb`, `3 kgf·cm`.
//!
//! A bare number is refused, because nobody can tell which unit was meant. This is the only place that knows
//! US units; inside, everything is SI. Factors: NIST SP 811, appendix B.8, and Handbook 44, appendix C (exact by definition; the
//! pound-force foot follows from the exact pound, foot and standard gravity). How the number is written: `text/number.rs`.

mod number;

use core::fmt;

use crate::{Celsius, Degrees, Kelvins, Millilitres, Millimetres, NewtonMetres, Rpm};
use number::{Span, amount, span};

/// Millilitres in a US liquid quart.
/// By definition: 57.75 cubic inches.
pub const QUART_US_ML: f64 = 946.352_946;
/// Millilitres in a US fluid ounce.
/// By definition: 1/32 quart.
pub const FLUID_OUNCE_US_ML: f64 = 29.573_529_562_5;
/// Millilitres in an imperial quart.
/// By definition: a quarter of 4.546 09 L.
pub const QUART_IMPERIAL_ML: f64 = 1_136.522_5;
/// Millilitres in an imperial fluid ounce.
/// By definition: a fortieth of an imperial quart.
pub const FLUID_OUNCE_IMPERIAL_ML: f64 = QUART_IMPERIAL_ML / 40.0;
/// Millimetres in an inch.
/// By definition.
pub const INCH_MM: f64 = 25.4;
/// Newton metres in a kilogram-force metre.
/// By definition: standard gravity.
pub const KILOGRAM_METRE_NM: f64 = 9.806_65;
/// Newton metres in a pound-force foot.
/// By definition.
pub const POUND_FOOT_NM: f64 = 1.355_817_948_331_400_4;
/// Newton metres in a pound-force inch.
/// By definition.
pub const POUND_INCH_NM: f64 = POUND_FOOT_NM / 12.0;

/// In which units people read: on paper and screen only, never inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// °C, L and mL, mm, N·m.
    #[default]
    Metric,
    /// °F, qt and fl oz, in, lb·ft.
    Us,
    /// °F, imperial qt and fl oz, in, lb·ft.
    Imperial,
    /// °C, L and mL, mm, kgf·cm.
    Kgf,
}

impl UnitSystem {
    /// Every one of them.
    pub const ALL: &'static [Self] = &[Self::Metric, Self::Us, Self::Imperial, Self::Kgf];

    /// Its word on a command line and in the environment.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Us => "us",
            Self::Imperial => "imperial",
            Self::Kgf => "kgf",
        }
    }

    /// Whether temperatures are read in °F and lengths in inches.
    pub const fn is_in_fahrenheit(self) -> bool {
        matches!(self, Self::Us | Self::Imperial)
    }

    /// A temperature on the scale that is read, as a bare number.
    pub fn degrees(self, value: Celsius) -> f64 {
        if self.is_in_fahrenheit() { value.to_f64() * 9.0 / 5.0 + 32.0 } else { value.to_f64() }
    }

    /// The sign of the scale that is read.
    pub const fn degree_sign(self) -> &'static str {
        if self.is_in_fahrenheit() { "°F" } else { "°C" }
    }
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
    /// A number that is read in two ways: the comma of `1,500`.
    TwoWays {
        /// What was typed.
        text: String,
        /// An example that would do.
        like: &'static str,
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
            Self::TwoWays { text, like } => {
                write!(f, "`{text}` can be read in two ways; write it without the comma, like `{like}`")
            }
            Self::NoUnit { text, like } => write!(f, "`{text}` has no unit; write it like `{like}`"),
            Self::UnknownUnit { unit, known } => write!(f, "`{unit}` is no unit here; known: {known}"),
            Self::OutOfRange { text, range } => write!(f, "`{text}` is outside {range}"),
        }
    }
}

impl core::error::Error for TextError {}

macro_rules! read {
    ($(#[$doc:meta])* $name:ident -> $type:ident in $base:literal, like $like:literal, known $known:literal: $($unit:pat => $to:expr),+ $(,)?) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// [`TextError`] says what was typed and what would do.
        pub fn $name(text: &str) -> Result<$type, TextError> {
            let (number, unit) = amount(text, $like)?;
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
    "c" | "celsius" | "degc" | "degreesc" | "degreescelsius" => |v| v,
    "f" | "fahrenheit" | "degf" | "degreesf" | "degreesfahrenheit" => |v| (v - 32.0) * 5.0 / 9.0,
}
read! {
    /// Reads a difference of temperatures: `1.5K`, `2C`, `3F`.
    kelvins -> Kelvins in "K", like "1.5K", known "K, C, F":
    "k" | "c" => |v| v,
    "f" => |v| v * 5.0 / 9.0,
}
read! {
    /// Reads a volume: `2.4L`, `470ml`, `1/2 qt`, `16floz`. Quarts, pints, gallons and ounces are the US ones; `impqt` is not.
    millilitres -> Millilitres in "mL", like "2.4L", known "L, dL, cL, mL, cc, gal, qt, pt, floz, impqt, impfloz":
    "l" | "litre" | "litres" | "liter" | "liters" | "ltr" => |v| v * 1_000.0,
    "dl" => |v| v * 100.0,
    "cl" => |v| v * 10.0,
    "ml" | "cc" | "ccm" | "cm3" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => |v| v,
    "gal" | "gallon" | "gallons" | "usgal" => |v| v * 4.0 * QUART_US_ML,
    "qt" | "qts" | "quart" | "quarts" | "usqt" => |v| v * QUART_US_ML,
    "pt" | "pint" | "pints" | "uspt" => |v| v * QUART_US_ML / 2.0,
    "floz" | "oz" | "fluidounce" | "fluidounces" | "usfloz" => |v| v * FLUID_OUNCE_US_ML,
    "impgal" | "imperialgallons" => |v| v * 4.0 * QUART_IMPERIAL_ML,
    "impqt" | "imperialquart" | "imperialquarts" => |v| v * QUART_IMPERIAL_ML,
    "impfloz" | "impoz" | "imperialfluidounces" => |v| v * FLUID_OUNCE_IMPERIAL_ML,
    "imppt" | "imperialpint" | "imperialpints" => |v| v * QUART_IMPERIAL_ML / 2.0,
}
read! {
    /// Reads a length: `12mm`, `1.2cm`, `1/2 in`.
    millimetres -> Millimetres in "mm", like "12mm", known "mm, cm, m, in":
    "mm" => |v| v,
    "cm" => |v| v * 10.0,
    "m" => |v| v * 1_000.0,
    "in" | "inch" | "inches" | "\"" | "″" => |v| v * INCH_MM,
}
read! {
    /// Reads an angle: `0.3deg`.
    degrees -> Degrees in "degrees", like "0.3deg", known "deg":
    "deg" | "d" | "degree" | "degrees" => |v| v,
}
read! {
    /// Reads a torque: `40Nm`, `30 ft-lb`, `15 in-lb`, `36 lb-ft`, `3 kgf·cm`.
    newton_metres -> NewtonMetres in "N·m", like "40Nm", known "Nm, Ncm, lbft, lbin, kgfm, kgfcm":
    "nm" | "newtonmetres" | "newtonmeters" => |v| v,
    "ncm" => |v| v / 100.0,
    "lbft" | "lbsft" | "lbfft" | "ftlb" | "ftlbs" | "ftlbf" | "footpound" | "footpounds" | "poundfoot" | "poundfeet" =>
        |v| v * POUND_FOOT_NM,
    "lbin" | "lbsin" | "lbfin" | "inlb" | "inlbs" | "inlbf" | "inchpound" | "inchpounds" | "poundinch" | "poundinches" =>
        |v| v * POUND_INCH_NM,
    "kgfm" | "kgm" | "mkg" | "mkgf" | "kpm" => |v| v * KILOGRAM_METRE_NM,
    "kgfcm" | "kgcm" | "cmkg" | "cmkgf" | "kpcm" => |v| v * KILOGRAM_METRE_NM / 100.0,
}

/// Reads one or two temperatures, the lower one first: `95-110 F`, `35C 45C`, `40 ± 5 °C`; one alone is given twice.
///
/// # Errors
/// [`TextError`] says what was typed and what would do.
pub fn celsius_span(text: &str) -> Result<[Celsius; 2], TextError> {
    const LIKE: &str = "35-45C";
    let read = |(number, unit): &(f64, String)| match unit.as_str() {
        "" => Err(TextError::NoUnit { text: text.to_owned(), like: LIKE }),
        _ => celsius(&format!("{number}{unit}")),
    };
    let outside = || TextError::OutOfRange {
        text: text.to_owned(),
        range: format!("{} to {} °C", Celsius::LOWEST, Celsius::HIGHEST),
    };
    match span(text, LIKE)? {
        Span::One(one) => read(&one).map(|c| [c, c]),
        Span::FromTo(from, to) => Ok([read(&from)?, read(&to)?]),
        Span::Around(middle, sides) => {
            let (middle, sides) =
                (read(&middle)?.to_f64(), kelvins(&format!("{}{}", sides.0, sides.1))?.to_f64());
            let at = |c| Celsius::from_f64(c).ok_or_else(outside);
            Ok([at(middle - sides)?, at(middle + sides)?])
        }
    }
}

/// Reads a range of engine speeds: `550-900`, `550 900 rpm`, `700 ± 100`. The unit may be left out: there is only one.
///
/// # Errors
/// [`TextError`] says what was typed and what would do.
pub fn rpm_span(text: &str) -> Result<[Rpm; 2], TextError> {
    let read = |value: f64, unit: &str| match unit {
        "" | "rpm" | "1/min" | "/min" | "min1" | "rev/min" => {
            Rpm::from_f64(value).ok_or_else(|| TextError::OutOfRange {
                text: text.to_owned(),
                range: format!("{} to {} 1/min", Rpm::LOWEST, Rpm::HIGHEST),
            })
        }
        _ => Err(TextError::UnknownUnit { unit: unit.to_owned(), known: "rpm" }),
    };
    match span(text.trim().trim_end_matches("1/min"), "550-900")? {
        Span::One((one, unit)) => read(one, &unit).map(|one| [one, one]),
        Span::FromTo((from, of), (to, unit)) => Ok([read(from, &of)?, read(to, &unit)?]),
        Span::Around((middle, of), (sides, unit)) => {
            Ok([read(middle - sides, &of)?, read(middle + sides, &unit)?])
        }
    }
}

/// Reads one or two lengths: `0-5 mm`, `120mm -30mm`, `1/2 in`; one alone is given twice.
///
/// # Errors
/// [`TextError`] says what was typed and what would do.
pub fn millimetres_span(text: &str) -> Result<[Millimetres; 2], TextError> {
    // `120mm -30mm`: a minus after a unit and a space is the number's own.
    let apart = text.split_whitespace().map(millimetres).collect::<Result<Vec<_>, _>>();
    if let Ok([first, second]) = apart.as_deref() {
        return Ok([*first, *second]);
    }
    let read = |(number, unit): &(f64, String)| match unit.as_str() {
        "" => Err(TextError::NoUnit { text: text.to_owned(), like: "0-5mm" }),
        _ => millimetres(&format!("{number}{unit}")),
    };
    match span(text, "0-5mm")? {
        Span::One(one) => read(&one).map(|mm| [mm, mm]),
        Span::FromTo(from, to) => Ok([read(&from)?, read(&to)?]),
        Span::Around(middle, sides) => {
            let (middle, sides) = (read(&middle)?.to_f64(), read(&sides)?.to_f64());
            Ok([Millimetres::clamped(middle - sides), Millimetres::clamped(middle + sides)])
        }
    }
}

/// Reads one or two lengths of time, in seconds: `60s`, `1-3 min`; one alone is given twice.
///
/// # Errors
/// [`TextError`] says what was typed and what would do.
pub fn seconds_span(text: &str) -> Result<[f64; 2], TextError> {
    let read = |(number, unit): &(f64, String)| match unit.as_str() {
        "" => Err(TextError::NoUnit { text: text.to_owned(), like: "60s" }),
        "s" | "sec" | "secs" | "second" | "seconds" => Ok(*number),
        "min" | "mins" | "minute" | "minutes" => Ok(number * 60.0),
        "h" | "hour" | "hours" => Ok(number * 3_600.0),
        _ => Err(TextError::UnknownUnit { unit: unit.clone(), known: "s, min, h" }),
    };
    match span(text, "60s")? {
        Span::One(one) => read(&one).map(|s| [s, s]),
        Span::FromTo(from, to) => Ok([read(&from)?, read(&to)?]),
        Span::Around(middle, sides) => {
            let (middle, sides) = (read(&middle)?, read(&sides)?);
            Ok([middle - sides, middle + sides])
        }
    }
}

/// Reads a surface, in m²: `600 cm²`, `0.06 m2`, `90 sq in`, `30 x 20 cm`.
///
/// # Errors
/// [`TextError`] says what was typed and what would do.
pub fn square_metres(text: &str) -> Result<f64, TextError> {
    const LIKE: &str = "600cm2";
    let sides: Vec<&str> = text.split(['x', 'X', '×', '*']).collect();
    if let [wide, long] = sides.as_slice() {
        let (long, unit) = amount(long, LIKE)?;
        let side =
            |number: f64, unit: &str| millimetres(&format!("{number}{unit}")).map(|mm| mm.to_f64() / 1_000.0);
        let (wide, own) = amount(wide, LIKE)?;
        return Ok(round_6(side(wide, if own.is_empty() { &unit } else { &own })? * side(long, &unit)?));
    }
    let (number, unit) = amount(text, LIKE)?;
    let per_metre = match unit.as_str() {
        "" => return Err(TextError::NoUnit { text: text.to_owned(), like: LIKE }),
        "m2" | "sqm" => 1.0,
        "dm2" => 0.01,
        "cm2" | "sqcm" => 1e-4,
        "mm2" => 1e-6,
        "in2" | "sqin" | "squareinches" => INCH_MM * INCH_MM * 1e-6,
        _ => return Err(TextError::UnknownUnit { unit, known: "m2, cm2, in2" }),
    };
    Ok(round_6(number * per_metre))
}

/// Rounded to 1 mm².
fn round_6(m2: f64) -> f64 {
    (m2 * 1e6).round() / 1e6
}

/// A temperature for people: `38.4 °C` or `101.1 °F`.
pub fn show_celsius(value: Celsius, system: UnitSystem) -> String {
    match system.is_in_fahrenheit() {
        false => format!("{value}\u{202f}°C"),
        true => format!("{:.1}\u{202f}°F", system.degrees(value)),
    }
}

/// A difference of temperatures for people: `0.7 °C` or `1.3 °F`.
pub fn show_kelvins(value: Kelvins, system: UnitSystem) -> String {
    match system.is_in_fahrenheit() {
        false => format!("{value}\u{202f}°C"),
        true => format!("{:.1}\u{202f}°F", value.to_f64() * 9.0 / 5.0),
    }
}

/// A volume for people: `470 mL`, `2.40 L`, or quarts.
pub fn show_millilitres(value: Millilitres, system: UnitSystem) -> String {
    let (quart, ounce, name) = match system {
        UnitSystem::Metric | UnitSystem::Kgf if value.abs().steps() < 1_000 => {
            return format!("{value}\u{202f}mL");
        }
        UnitSystem::Metric | UnitSystem::Kgf => return format!("{:.2}\u{202f}L", value.to_f64() / 1_000.0),
        UnitSystem::Us => (QUART_US_ML, FLUID_OUNCE_US_ML, ""),
        // A quart that is a fifth more than the other one is never written as if it were that.
        UnitSystem::Imperial => (QUART_IMPERIAL_ML, FLUID_OUNCE_IMPERIAL_ML, "imp\u{a0}"),
    };
    if value.abs().to_f64() < quart / 2.0 {
        format!("{:.1}\u{202f}{name}fl\u{a0}oz", unsigned_zero(value.to_f64() / ounce, 10.0))
    } else {
        format!("{:.2}\u{202f}{name}qt", value.to_f64() / quart)
    }
}

/// A length for people: `2.5 mm` or `0.10 in`.
pub fn show_millimetres(value: Millimetres, system: UnitSystem) -> String {
    match system.is_in_fahrenheit() {
        false => format!("{value}\u{202f}mm"),
        true => format!("{:.2}\u{202f}in", unsigned_zero(value.to_f64() / INCH_MM, 100.0)),
    }
}

/// Rounded to one in `per`, so that a shown zero never carries a minus sign.
fn unsigned_zero(value: f64, per: f64) -> f64 {
    (value * per).round() / per + 0.0
}

/// A torque for people: `40 N·m`, `29.5 lb·ft` (below 10 lb·ft in lb·in) or `408 kgf·cm`.
pub fn show_newton_metres(value: NewtonMetres, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{value}\u{202f}N·m"),
        UnitSystem::Kgf => format!("{:.0}\u{202f}kgf·cm", value.to_f64() * 100.0 / KILOGRAM_METRE_NM),
        UnitSystem::Us | UnitSystem::Imperial if value.to_f64() < 10.0 * POUND_FOOT_NM => {
            format!("{:.1}\u{202f}lb·in", value.to_f64() / POUND_INCH_NM)
        }
        UnitSystem::Us | UnitSystem::Imperial => {
            format!("{:.1}\u{202f}lb·ft", value.to_f64() / POUND_FOOT_NM)
        }
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

    // Expected values by hand from the exact definitions: lb = 0.453 592 37 kg, ft = 0.304 8 m, in = 25.4 mm, g = 9.806 65 m/s², US
    // gallon = 231 in³, imperial gallon = 4.546 09 L; rounded to the step of the type.
    #[test]
    fn amounts_are_read_in_any_unit_that_people_write() {
        #[rustfmt::skip]
        let volumes: &[(&str, i32)] = &[
            ("6,5 L", 6_500), ("6.5L", 6_500), ("0,5 l", 500), ("1/2 qt", 473), ("½ qt", 473), ("1 1/2 qt", 1_420), ("1-1/2 qt", 1_420), ("1½ quarts", 1_420),
            ("2 pints", 946), ("1 gal", 3_785), ("1 imp. gal", 4_546), ("16 fl. oz.", 473), ("33 cl", 330), ("470 cc", 470), ("470 cm³", 470), (".5 l", 500),
            ("2\u{a0}L", 2_000), ("1500 ml", 1_500),
        ];
        for (text, want) in volumes {
            assert_eq!(millilitres(text).map(Millilitres::steps), Ok(*want), "{text}");
        }
        #[rustfmt::skip]
        let torques: &[(&str, i32)] = &[
            ("40 N·m", 400), ("40 N m", 400), ("40Nm", 400), ("40 N-m", 400), ("30 ft-lb", 407), ("30 ft·lbs", 407), ("30 ft lb", 407), ("36 lb-ft", 488),
            ("36 lbf·ft", 488), ("36 foot-pounds", 488), ("15 in-lb", 17), ("15 inch pounds", 17), ("100 lbf in", 113), ("3 kgf·cm", 3), ("30 kg-cm", 29),
            ("4 kgf·m", 392), ("4 mkg", 392), ("170 N·cm", 17), ("29,5 lb.ft", 400),
        ];
        for (text, want) in torques {
            assert_eq!(newton_metres(text).map(NewtonMetres::steps), Ok(*want), "{text}");
        }
        #[rustfmt::skip]
        let temperatures: &[(&str, [i32; 2])] = &[
            ("95-110 F", [3_500, 4_333]), ("40 °C", [4_000, 4_000]), ("35C 45C", [3_500, 4_500]), ("95F 113F", [3_500, 4_500]), ("104 ± 9 °F", [3_500, 4_500]),
            ("35 to 45 deg C", [3_500, 4_500]), ("35–45℃", [3_500, 4_500]), ("35 °C - 45 °C", [3_500, 4_500]), ("35,5-45,5 °C", [3_550, 4_550]),
        ];
        for (text, want) in temperatures {
            assert_eq!(celsius_span(text).map(|both| both.map(Celsius::steps)), Ok(*want), "{text}");
        }
        for (text, want) in [
            ("550-900", [550, 900]),
            ("550 900 rpm", [550, 900]),
            ("700 ± 100 1/min", [600, 800]),
            ("650", [650, 650]),
        ] {
            assert_eq!(rpm_span(text).map(|both| both.map(Rpm::steps)), Ok(want), "{text}");
        }
        for (text, want) in [
            ("120mm -30mm", [12_000, -3_000]),
            ("0-5 mm", [0, 500]),
            ("1/2 in", [1_270, 1_270]),
            ("12cm 0cm", [12_000, 0]),
        ] {
            assert_eq!(millimetres_span(text).map(|both| both.map(Millimetres::steps)), Ok(want), "{text}");
        }
        for (text, want) in [("60 s", [60.0, 60.0]), ("1-3 min", [60.0, 180.0])] {
            assert_eq!(seconds_span(text), Ok(want), "{text}");
        }
        for (text, want) in [
            ("600 cm²", 0.06),
            ("0,055 m2", 0.055),
            ("93 sq in", 0.06),
            ("30 x 20 cm", 0.06),
            ("12in × 8in", 0.061_935),
        ] {
            assert_eq!(square_metres(text), Ok(want), "{text}");
        }
    }

    #[test]
    fn what_can_be_read_in_two_ways_or_not_at_all_is_refused() {
        for text in ["1,500 ml", "2,365 L"] {
            assert!(matches!(millilitres(text), Err(TextError::TwoWays { .. })), "{text}");
        }
        assert!(matches!(celsius_span("35,45 C"), Err(TextError::TwoWays { .. })));
        for text in ["1/0 qt", "/2 qt", "1 2 qt", "95-110 F", "-", "½", "1,2,3 L", "L", ""] {
            assert!(millilitres(text).is_err(), "{text}");
        }
        for text in ["35-45", "35 45", "35K", "35C to warm", "35C 45C 55C", "4 qt"] {
            assert!(celsius_span(text).is_err(), "{text}");
        }
        for text in ["40", "40 lb", "40 kg", "40 ft"] {
            assert!(newton_metres(text).is_err(), "{text}");
        }
        assert!(
            square_metres("600").is_err() && square_metres("20 x cm").is_err() && rpm_span("700 mm").is_err()
        );
    }

    #[test]
    fn a_bad_amount_says_what_would_do() {
        let cases: &[(&str, &str)] = &[
            ("2.4", "`2.4` has no unit; write it like `2.4L`"),
            ("lots", "`lots` does not begin with a number; write it like `2.4L`"),
            ("2.4kg", "`kg` is no unit here; known: L, dL, cL, mL, cc, gal, qt, pt, floz, impqt, impfloz"),
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

    // Expected values by hand from the exact definitions: an imperial gallon is 4.546 09 L, a US gallon 231 in³, a kilogram-force
    // 9.806 65 N, an inch 25.4 mm.
    #[test]
    fn the_same_amounts_in_every_system() {
        use UnitSystem::{Imperial, Kgf, Metric, Us};
        let ml = |ml| Millilitres::from_steps(ml).unwrap();
        let volumes = [
            (2_400, Metric, "2.40 L"),
            (2_400, Kgf, "2.40 L"),
            (2_400, Us, "2.54 qt"),
            (2_400, Imperial, "2.11 imp qt"),
            (200, Us, "6.8 fl oz"),
            (200, Imperial, "7.0 imp fl oz"),
        ];
        let plain = |text: String| text.replace(['\u{202f}', '\u{a0}'], " ");
        for (amount, system, want) in volumes {
            assert_eq!(plain(show_millilitres(ml(amount), system)), want, "{system:?}");
        }
        for (tenths, system, want) in [
            (400, Metric, "40.0 N·m"),
            (400, Us, "29.5 lb·ft"),
            (400, Imperial, "29.5 lb·ft"),
            (400, Kgf, "408 kgf·cm"),
            (17, Kgf, "17 kgf·cm"),
            (17, Us, "15.0 lb·in"),
        ] {
            assert_eq!(plain(show_newton_metres(NewtonMetres::from_steps(tenths).unwrap(), system)), want);
        }
        for (system, want) in [(Metric, "2.5 mm"), (Us, "0.10 in"), (Imperial, "0.10 in"), (Kgf, "2.5 mm")] {
            let mm = Millimetres::from_steps(250).unwrap();
            assert_eq!(plain(show_millimetres(mm, system)), want);
        }
        for (system, want) in
            [(Metric, "40.0 °C"), (Us, "104.0 °F"), (Imperial, "104.0 °F"), (Kgf, "40.0 °C")]
        {
            assert_eq!(plain(show_celsius(Celsius::from_steps(4_000).unwrap(), system)), want);
        }
    }

    #[test]
    fn what_is_shown_in_any_system_is_read_back() {
        for system in UnitSystem::ALL {
            for steps in [37, 470, 2_400, 9_950] {
                let value = Millilitres::from_steps(steps).unwrap();
                let read = millilitres(&show_millilitres(value, *system)).unwrap();
                assert!((read.to_f64() - value.to_f64()).abs() <= 6.0, "{system:?} {value}: {read}");
            }
        }
    }
}
