//! What a reply says, decoded: a name, a value, its unit and the place it came from.
//!
//! Everything here is `Copy` and holds no heap memory, so that a reading costs no allocation.
//! Not here: how it is read (`decode.rs`), the words of enumerations (`words.rs`).

use core::fmt;

use crate::answer::code::Code;
use crate::answer::vin::Vin;

/// One decoded field of a reply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// The SAE term in kebab case, unique within its service.
    pub name: &'static str,
    /// The value; [`Datum::Absent`] when `supported` is false.
    pub value: Datum,
    /// The unit of a number.
    pub unit: Unit,
    /// The unsigned integer it came from; 0 for texts, which are no integer.
    pub raw: u64,
    /// Where in the payload it stands.
    pub bits: Bits,
    /// False when the reply itself marks the field as not supported.
    pub supported: bool,
}

impl Value {
    /// The number, where it is one and is supported.
    pub fn number(&self) -> Option<f64> {
        match self.value {
            Datum::Number(number) => Some(number),
            _ => None,
        }
    }
}

/// The place of a field: counted in bits from the most significant bit of the first byte after the echo (data
/// byte A).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Bits {
    /// How many bits come before it.
    pub offset: u16,
    /// How many bits it has.
    pub length: u16,
}

/// A value of one of the kinds that replies carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Datum {
    /// A number in the unit of its [`Value`].
    Number(f64),
    /// A bit with a meaning.
    Flag(bool),
    /// A word of an enumeration.
    Word(&'static str),
    /// A trouble code.
    Code(Code),
    /// Which identifiers of a range are supported.
    Ids(IdSet),
    /// A short text.
    Text(Label),
    /// A vehicle identification number.
    Vin(Vin),
    /// The reply marks the field as not supported: there is no value.
    Absent,
}

impl fmt::Display for Datum {
    /// As a person reads it: numbers with as many digits as they have, bitmaps as identifiers with blanks
    /// between, nothing for a field that is not supported.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number) => number.fmt(f),
            Self::Flag(flag) => flag.fmt(f),
            Self::Word(word) => f.pad(word),
            Self::Code(code) => code.fmt(f),
            Self::Ids(ids) => ids.fmt(f),
            Self::Text(label) => label.fmt(f),
            Self::Vin(vin) => vin.fmt(f),
            Self::Absent => f.pad(""),
        }
    }
}

/// The identifiers that a support bitmap names: `base + 1` to `base + 32`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct IdSet {
    /// The identifier of the bitmap itself.
    pub base: u8,
    /// The bitmap; the most significant bit is `base + 1`.
    pub bits: u32,
}

impl IdSet {
    /// The identifiers named, rising.
    pub fn iter(self) -> impl Iterator<Item = u8> {
        (0..32_u8)
            .filter(move |place| self.bits << place & 0x8000_0000 != 0)
            .filter_map(move |place| self.base.checked_add(place + 1))
    }

    /// Whether `id` is named.
    pub fn contains(self, id: u8) -> bool {
        let place = u32::from(id).wrapping_sub(u32::from(self.base) + 1);
        place < 32 && self.bits << place & 0x8000_0000 != 0
    }
}

impl fmt::Display for IdSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.iter()
            .enumerate()
            .try_for_each(|(at, id)| write!(f, "{}{id:02X}", if at == 0 { "" } else { " " }))
    }
}

/// A text of at most twenty printable characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Label {
    text: [u8; 20],
    length: u8,
}

impl Label {
    /// From bytes; `None` if longer than twenty or not printable ASCII.
    pub fn new(bytes: &[u8]) -> Option<Self> {
        if !bytes.iter().all(|byte| matches!(byte, b' '..=b'~')) {
            return None;
        }
        let mut text = [0; 20];
        text.get_mut(..bytes.len())?.copy_from_slice(bytes);
        Some(Self { text, length: bytes.len() as u8 })
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        self.text
            .get(..usize::from(self.length))
            .and_then(|text| core::str::from_utf8(text).ok())
            .unwrap_or_default()
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident => $text:literal,)*) => {
        /// The unit of a number, spelled as in `mode01.csv` of the reference.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Unit {
            $($(#[$doc])* $name,)*
        }

        impl Unit {
            /// How the unit is spelled.
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$name => $text,)* }
            }
        }
    };
}

units! {
    /// Degrees Celsius.
    Celsius => "degC",
    /// Per cent.
    Percent => "%",
    /// Kilopascals.
    Kilopascal => "kPa",
    /// Pascals.
    Pascal => "Pa",
    /// Pascals a second.
    PascalPerSecond => "Pa/s",
    /// Revolutions a minute.
    PerMinute => "1/min",
    /// Kilometres an hour.
    KilometrePerHour => "km/h",
    /// Degrees of an angle.
    Degree => "deg",
    /// Grams.
    Gram => "g",
    /// Grams a second.
    GramPerSecond => "g/s",
    /// Grams a cylinder.
    GramPerCylinder => "g/cyl",
    /// Volts.
    Volt => "V",
    /// Millivolts.
    Millivolt => "mV",
    /// Millivolts a millisecond.
    MillivoltPerMillisecond => "mV/ms",
    /// Milliamperes.
    Milliampere => "mA",
    /// Microamperes.
    Microampere => "uA",
    /// Amperes.
    Ampere => "A",
    /// Milliohms.
    Milliohm => "mOhm",
    /// Ohms.
    Ohm => "Ohm",
    /// Kilo-ohms.
    Kiloohm => "kOhm",
    /// Milliseconds.
    Millisecond => "ms",
    /// Seconds.
    Second => "s",
    /// Minutes.
    Minute => "min",
    /// Millihertz.
    Millihertz => "mHz",
    /// Hertz.
    Hertz => "Hz",
    /// Kilohertz.
    Kilohertz => "kHz",
    /// Kilometres.
    Kilometre => "km",
    /// Litres.
    Litre => "L",
    /// Millimetres.
    Millimetre => "mm",
    /// A ratio.
    Ratio => "ratio",
    /// A count.
    Count => "count",
    /// Litres an hour.
    LitrePerHour => "L/h",
    /// Newton metres.
    NewtonMetre => "N.m",
    /// Milligrams a cubic metre.
    MilligramPerCubicMetre => "mg/m3",
    /// Parts in a million.
    PartPerMillion => "ppm",
    /// Kilograms an hour.
    KilogramPerHour => "kg/h",
    /// Milligrams a stroke.
    MilligramPerStroke => "mg/stroke",
    /// A gear.
    Gear => "gear",
    /// A bit.
    Bit => "bit",
    /// An enumeration.
    Enum => "enum",
    /// A support bitmap.
    BitList => "bit list",
    /// A trouble code.
    Dtc => "DTC",
    /// A text.
    Text => "text",
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

#[cfg(test)]
mod tests {
    use std::vec::Vec;

    use super::*;

    #[test]
    fn a_bitmap_names_its_identifiers_from_the_left() {
        let set = IdSet { base: 0x20, bits: 0x8000_0001 };
        assert_eq!(set.iter().collect::<Vec<_>>(), [0x21, 0x40]);
        assert!(set.contains(0x21) && set.contains(0x40));
        assert!(!set.contains(0x20) && !set.contains(0x22) && !set.contains(0x41) && !set.contains(0));
    }

    #[test]
    fn a_value_is_shown_as_a_person_reads_it() {
        let cases = [
            (Datum::Number(1726.0), "1726"),
            (Datum::Number(14.128), "14.128"),
            (Datum::Flag(true), "true"),
            (Datum::Ids(IdSet { base: 0, bits: 0x5000_0000 }), "02 04"),
            (Datum::Absent, ""),
        ];
        for (datum, want) in cases {
            assert_eq!(std::format!("{datum}"), want);
        }
    }

    #[test]
    fn the_last_bitmap_does_not_wrap_around() {
        let set = IdSet { base: 0xE0, bits: u32::MAX };
        assert_eq!(set.iter().last(), Some(0xFF));
        assert!(!set.contains(0));
    }

    #[test]
    fn a_label_holds_twenty_printable_characters() {
        assert_eq!(Label::new(b"12345678901234567890").unwrap().as_str(), "12345678901234567890");
        assert_eq!(Label::new(b"123456789012345678901"), None);
        assert_eq!(Label::new(b"A\0B"), None);
        assert_eq!(Label::new(b"\xC3\xA4"), None);
    }
}
