//! Where an identifier lives: the service, its number, the control unit that is asked.
//!
//! In: numbers and digits. Out: [`Place`], as the events say it. Not here: whether an adapter takes the header (the adapter's
//! own type does); which byte of the answer is meant (`watch.rs`).

use core::fmt;
use core::str::FromStr;

use frames::Bus;
use serde::{Deserialize, Serialize};

/// A reading service that carries identifiers. There is no other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "u8", try_from = "u8")]
pub enum Service {
    /// 01: a standard identifier of one byte that no table here names. Such a one is watched, and no sheet can hold it.
    Current,
    /// 21: one byte, ISO 14230-3.
    Local,
    /// 22: two bytes, ISO 14229-1.
    Identifier,
}

/// A number that is none of the three services.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("service {0:02X} is not one that an identifier is read by: 01, 21 and 22 are")]
pub struct NotAService(u8);

impl From<Service> for u8 {
    fn from(service: Service) -> Self {
        match service {
            Service::Current => 0x01,
            Service::Local => 0x21,
            Service::Identifier => 0x22,
        }
    }
}

impl TryFrom<u8> for Service {
    type Error = NotAService;

    fn try_from(number: u8) -> Result<Self, NotAService> {
        match number {
            0x01 => Ok(Self::Current),
            0x21 => Ok(Self::Local),
            0x22 => Ok(Self::Identifier),
            other => Err(NotAService(other)),
        }
    }
}

/// Whom a request goes to: the digits of the request's address, as in a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Header {
    value: u32,
    digits: u8,
}

/// A text that is no header.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a header is three, six or eight hexadecimal digits")]
pub struct NotAHeader;

impl Header {
    /// The request's address of one control unit, by its one-byte number: `7E0` and up by the low three bits, `18DAxxF1`,
    /// or three bytes that begin with a format byte.
    pub const fn of_unit(bus: Bus, unit: u8) -> Self {
        match bus {
            Bus::Can11 => Self { value: 0x7E0 + (unit as u32 & 7), digits: 3 },
            Bus::Can29 => Self { value: 0x18DA_00F1 | (unit as u32) << 8, digits: 8 },
            _ => Self { value: 0x81_00F1 | (unit as u32) << 8, digits: 6 },
        }
    }

    /// The one-byte number of the unit, where the digits have one of the usual forms. On 11-bit CAN the first eight are counted; the first is taken
    /// for the engine's, the second for the transmission's.
    pub const fn unit(self) -> Option<u8> {
        match (self.digits, self.value) {
            (3, 0x7E0) => Some(Self::ENGINE),
            (3, 0x7E1) => Some(Self::TRANSMISSION),
            (6 | 8, value) => Some((value >> 8) as u8),
            _ => None,
        }
    }

    /// The engine's one-byte number. Source: SAE J2178, from memory.
    pub const ENGINE: u8 = 0x10;
    /// The transmission's. Source: SAE J2178, from memory.
    pub const TRANSMISSION: u8 = 0x18;

    /// Its number.
    pub const fn value(self) -> u32 {
        self.value
    }
}

impl FromStr for Header {
    type Err = NotAHeader;

    fn from_str(text: &str) -> Result<Self, NotAHeader> {
        let digits: String = text.chars().filter(|c| *c != ' ').collect();
        let value = u32::from_str_radix(&digits, 16).map_err(|_| NotAHeader)?;
        match digits.len() {
            3 | 6 | 8 if digits.bytes().all(|b| b.is_ascii_hexdigit()) => {
                Ok(Self { value, digits: digits.len() as u8 })
            }
            _ => Err(NotAHeader),
        }
    }
}

impl fmt::Display for Header {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:0width$X}", self.value, width = usize::from(self.digits))
    }
}

impl From<Header> for String {
    fn from(header: Header) -> Self {
        header.to_string()
    }
}

impl TryFrom<String> for Header {
    type Error = NotAHeader;

    fn try_from(text: String) -> Result<Self, NotAHeader> {
        text.parse()
    }
}

/// Where one identifier lives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Place {
    /// Whom to ask.
    pub header: Header,
    /// The service.
    pub service: Service,
    /// The identifier; below 256 but for service 22.
    pub id: u16,
}

impl Place {
    /// The request; `None` where the identifier does not fit the service.
    pub fn ask(self) -> Option<frames::Ask> {
        let short = u8::try_from(self.id).ok();
        match self.service {
            Service::Current => short.map(frames::Ask::Current),
            Service::Local => short.map(frames::Ask::LocalIdentifier),
            Service::Identifier => Some(frames::Ask::Identifier(self.id)),
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let service = u8::from(self.service);
        let width = if self.service == Service::Identifier { 4 } else { 2 };
        write!(f, "{} {service:02X} {:0width$X}", self.header, self.id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_said_as_in_the_events() {
        let cases: &[(&str, Place, &str, &str)] = &[
            (
                "two bytes",
                Place { header: Header::of_unit(Bus::Can11, 1), service: Service::Identifier, id: 0x4D07 },
                r#"{"header":"7E1","service":34,"id":19719}"#,
                "224D07",
            ),
            (
                "one byte",
                Place { header: Header::of_unit(Bus::Iso14230, 0x18), service: Service::Local, id: 0x0A },
                r#"{"header":"8118F1","service":33,"id":10}"#,
                "210A",
            ),
            (
                "29 bit",
                Place { header: Header::of_unit(Bus::Can29, 0x18), service: Service::Current, id: 0xC9 },
                r#"{"header":"18DA18F1","service":1,"id":201}"#,
                "01C9",
            ),
        ];
        for (what, place, json, request) in cases {
            assert_eq!(serde_json::to_string(place).unwrap(), *json, "{what}");
            assert_eq!(serde_json::from_str::<Place>(json).unwrap(), *place, "{what}");
            assert_eq!(place.ask().unwrap().hex().to_string(), *request, "{what}");
        }
    }

    #[test]
    fn no_other_service_can_be_named() {
        for number in 0..=255_u8 {
            let service = Service::try_from(number);
            assert_eq!(service.is_ok(), matches!(number, 0x01 | 0x21 | 0x22), "{number:02X}");
        }
        let wide = Place { header: Header::of_unit(Bus::Can11, 0), service: Service::Local, id: 0x100 };
        assert_eq!(wide.ask(), None);
        for text in ["", "7E", "7E1X", "7E12", "+E1", "18DA18F10"] {
            assert_eq!(text.parse::<Header>(), Err(NotAHeader), "{text}");
        }
    }
}
