//! Trouble codes: two bytes to `P0711` and back, and what the generic ones mean that matter for fluids.
//!
//! Source: layout of SAE J2012 as two libraries give it (`dtc_vectors.csv`); whose code it is: from memory of
//! SAE J2012.

use core::fmt;
use core::num::NonZeroU16;
use core::str::FromStr;

use crate::bus::UnknownName;
use crate::text::hex;

/// A trouble code. Never the filler 0000, which means that there is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(NonZeroU16);

/// Who gives a code its meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CodeGroup {
    /// The standard.
    Standard,
    /// The vehicle's maker.
    Maker,
    /// Nobody yet.
    Reserved,
}

impl Code {
    /// From the two bytes of a reply as one number; `None` for the filler 0000.
    pub const fn from_raw(raw: u16) -> Option<Self> {
        match NonZeroU16::new(raw) {
            Some(raw) => Some(Self(raw)),
            None => None,
        }
    }

    /// The two bytes as one number.
    pub const fn raw(self) -> u16 {
        self.0.get()
    }

    /// `P` powertrain, `C` chassis, `B` body, `U` network.
    pub const fn letter(self) -> char {
        match self.raw() >> 14 {
            0 => 'P',
            1 => 'C',
            2 => 'B',
            _ => 'U',
        }
    }

    /// Who gives it its meaning.
    pub const fn group(self) -> CodeGroup {
        match (self.raw() >> 14, self.raw() >> 12 & 3) {
            (_, 0) | (0, 2) => CodeGroup::Standard,
            (0, 3) if self.raw() & 0x0FFF >= 0x400 => CodeGroup::Standard,
            (_, 1 | 2) | (0, 3) => CodeGroup::Maker,
            _ => CodeGroup::Reserved,
        }
    }

    /// What a generic temperature, fluid-level, transmission or network code means; `None` for all others.
    pub fn text(self) -> Option<&'static str> {
        TEXTS
            .binary_search_by_key(&self.raw(), |(raw, _)| *raw)
            .ok()
            .and_then(|at| TEXTS.get(at))
            .map(|(_, text)| *text)
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{:04X}", self.letter(), self.raw() & 0x3FFF)
    }
}

impl FromStr for Code {
    type Err = UnknownName;

    fn from_str(text: &str) -> Result<Self, UnknownName> {
        let parse = || {
            let (letter, digits) = text.as_bytes().split_first()?;
            let high = match letter.to_ascii_uppercase() {
                b'P' => 0x0000,
                b'C' => 0x4000,
                b'B' => 0x8000,
                b'U' => 0xC000,
                _ => return None,
            };
            let mut bytes = [0; 2];
            let low = hex::decode_into(digits, &mut bytes)
                .filter(|count| *count == 2)
                .map(|_| u16::from_be_bytes(bytes))?;
            (low < 0x4000).then(|| Self::from_raw(high | low)).flatten()
        };
        parse().ok_or(UnknownName::code())
    }
}

/// Rising.
/// Source: the first 41 of `dtc_vectors.csv` (a library's list, reworded there); the rest from memory of SAE J2012.
const TEXTS: &[(u16, &str)] = &[
    (0x0115, "engine coolant temperature circuit"),
    (0x0116, "engine coolant temperature: range or performance"),
    (0x0117, "engine coolant temperature: signal low"),
    (0x0118, "engine coolant temperature: signal high"),
    (0x0119, "engine coolant temperature: intermittent"),
    (0x0125, "coolant temperature too low for closed loop"),
    (0x0126, "coolant temperature too low for stable operation"),
    (0x0128, "coolant below thermostat regulating temperature"),
    (0x0133, "oxygen sensor slow response, bank 1 sensor 1"),
    (0x0195, "engine oil temperature sensor circuit"),
    (0x0196, "engine oil temperature sensor: range or performance"),
    (0x0197, "engine oil temperature sensor: signal low"),
    (0x0198, "engine oil temperature sensor: signal high"),
    (0x0199, "engine oil temperature sensor: intermittent"),
    (0x0217, "engine coolant over temperature"),
    (0x0218, "transmission fluid over temperature"),
    (0x0298, "engine oil over temperature"),
    (0x0500, "vehicle speed sensor A circuit"),
    (0x0562, "system voltage low"),
    (0x0563, "system voltage high"),
    (0x0601, "control module memory checksum"),
    (0x0613, "transmission control module processor"),
    (0x0634, "control module internal temperature too high"),
    (0x0667, "control module internal temperature sensor: range or performance"),
    (0x0700, "transmission control system, lamp requested"),
    (0x0701, "transmission control system: range or performance"),
    (0x0702, "transmission control system: electrical"),
    (0x0705, "transmission range sensor circuit"),
    (0x0706, "transmission range sensor: range or performance"),
    (0x0707, "transmission range sensor: signal low"),
    (0x0708, "transmission range sensor: signal high"),
    (0x0710, "transmission fluid temperature sensor A circuit"),
    (0x0711, "transmission fluid temperature sensor A: range or performance (implausible)"),
    (0x0712, "transmission fluid temperature sensor A: signal low"),
    (0x0713, "transmission fluid temperature sensor A: signal high"),
    (0x0714, "transmission fluid temperature sensor A: intermittent"),
    (0x0715, "turbine or input speed sensor A circuit"),
    (0x0716, "turbine or input speed sensor A: range or performance"),
    (0x0717, "turbine or input speed sensor A: no signal"),
    (0x0720, "output speed sensor circuit"),
    (0x0721, "output speed sensor: range or performance"),
    (0x0722, "output speed sensor: no signal"),
    (0x0730, "wrong gear ratio"),
    (0x0731, "wrong ratio in gear 1"),
    (0x0732, "wrong ratio in gear 2"),
    (0x0733, "wrong ratio in gear 3"),
    (0x0734, "wrong ratio in gear 4"),
    (0x0735, "wrong ratio in gear 5"),
    (0x0736, "wrong ratio in reverse"),
    (0x0740, "torque converter clutch circuit or open"),
    (0x0741, "torque converter clutch: performance or stuck off"),
    (0x0742, "torque converter clutch: stuck on"),
    (0x0743, "torque converter clutch: electrical"),
    (0x0750, "shift solenoid A"),
    (0x0755, "shift solenoid B"),
    (0x0760, "shift solenoid C"),
    (0x0765, "shift solenoid D"),
    (0x0770, "shift solenoid E"),
    (0x0841, "transmission fluid pressure sensor A: range or performance"),
    (0x0842, "transmission fluid pressure sensor A: signal low"),
    (0x0843, "transmission fluid pressure sensor A: signal high"),
    (0x0868, "transmission fluid pressure low"),
    (0x0869, "transmission fluid pressure high"),
    (0x0894, "transmission component slipping"),
    (0x0897, "transmission fluid deteriorated"),
    (0x2556, "engine coolant level sensor circuit"),
    (0x2557, "engine coolant level sensor: range or performance"),
    (0x2558, "engine coolant level sensor: signal low"),
    (0x2559, "engine coolant level sensor: signal high"),
    (0x2560, "engine coolant level low"),
    (0x2740, "transmission fluid temperature sensor B circuit"),
    (0x2741, "transmission fluid temperature sensor B: range or performance"),
    (0x2742, "transmission fluid temperature sensor B: signal low"),
    (0x2743, "transmission fluid temperature sensor B: signal high"),
    (0x2744, "transmission fluid temperature sensor B: intermittent"),
    (0xC001, "high-speed CAN bus"),
    (0xC100, "lost communication with engine control module A"),
    (0xC101, "lost communication with transmission control module"),
];

#[cfg(test)]
mod tests {
    use std::string::ToString;

    use super::*;

    #[test]
    fn every_code_is_read_back_from_its_text() {
        assert_eq!(Code::from_raw(0), None);
        for raw in 1..=u16::MAX {
            let code = Code::from_raw(raw).unwrap();
            assert_eq!(code.to_string().parse(), Ok(code));
        }
        for text in ["P0000", "P4000", "X0711", "P071", "P07111", "P07 1G", ""] {
            assert!(text.parse::<Code>().is_err(), "{text}");
        }
    }

    #[test]
    fn the_texts_rise_so_that_the_search_finds_them() {
        for pair in TEXTS.windows(2) {
            assert!(pair[0].0 < pair[1].0, "{pair:X?}");
        }
        assert_eq!(
            "P0711".parse::<Code>().unwrap().text(),
            Some("transmission fluid temperature sensor A: range or performance (implausible)")
        );
        assert_eq!("P0300".parse::<Code>().unwrap().text(), None);
    }
}
