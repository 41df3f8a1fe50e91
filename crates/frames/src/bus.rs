//! The buses, who answers on them, and how the adapter lays a reply out.
//!
//! Names as in `wire_vectors.csv` of the reference. Not here: the layouts themselves (`wire.rs`, `write.rs`).

use core::fmt;
use core::str::FromStr;

use crate::text::hex;

/// A vehicle bus, as far as the form of a data line depends on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Bus {
    /// ISO 15765-4 with 11-bit identifiers.
    Can11,
    /// ISO 15765-4 with 29-bit identifiers.
    Can29,
    /// SAE J1850 pulse width modulation.
    J1850Pwm,
    /// SAE J1850 variable pulse width.
    J1850Vpw,
    /// ISO 9141-2.
    Iso9141,
    /// ISO 14230-4, slow or fast start.
    Iso14230,
}

impl Bus {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Can11, Self::Can29, Self::J1850Pwm, Self::J1850Vpw, Self::Iso9141, Self::Iso14230];

    /// Whether it is one of the two CAN forms.
    pub const fn is_can(self) -> bool {
        matches!(self, Self::Can11 | Self::Can29)
    }

    /// The name, as in `wire_vectors.csv`.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Can11 => "CAN 11-bit",
            Self::Can29 => "CAN 29-bit",
            Self::J1850Pwm => "J1850 PWM",
            Self::J1850Vpw => "J1850 VPW",
            Self::Iso9141 => "ISO 9141-2",
            Self::Iso14230 => "ISO 14230-4",
        }
    }
}

/// A word that names no [`Bus`], or digits that name no [`Ecu`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct UnknownName(&'static str);

impl UnknownName {
    pub(crate) const fn code() -> Self {
        Self("a code is P, C, B or U and four hexadecimal digits from 0001 to 3FFF (0000 only after C, B, U)")
    }
}

impl fmt::Display for Bus {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Bus {
    type Err = UnknownName;

    fn from_str(text: &str) -> Result<Self, UnknownName> {
        let named = Self::ALL.into_iter().find(|bus| bus.as_str().eq_ignore_ascii_case(text.trim()));
        named.ok_or(UnknownName(
            "a bus is one of CAN 11-bit, CAN 29-bit, J1850 PWM, J1850 VPW, ISO 9141-2, ISO 14230-4",
        ))
    }
}

/// Whether the adapter shows headers (`ATH1`) or hides them (`ATH0`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Headers {
    /// Sender, length and checksum are in the line.
    Shown,
    /// Only the data are: senders cannot be told apart.
    Hidden,
}

/// How the adapter lays out a reply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Layout {
    /// The bus in use.
    pub bus: Bus,
    /// Headers shown or hidden.
    pub headers: Headers,
}

/// A control unit, by the identifier it answers with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ecu {
    width: Width,
    id: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Width {
    Address,
    Can11,
    Can29,
}

impl Ecu {
    /// By the 11-bit identifier of its replies; `None` above 7FF.
    pub const fn can11(id: u16) -> Option<Self> {
        if id <= 0x7FF { Some(Self { width: Width::Can11, id: id as u32 }) } else { None }
    }

    /// By the 29-bit identifier of its replies; `None` above 1FFFFFFF.
    pub const fn can29(id: u32) -> Option<Self> {
        if id <= 0x1FFF_FFFF { Some(Self { width: Width::Can29, id }) } else { None }
    }

    /// By its one-byte address on J1850, ISO 9141-2 and ISO 14230-4.
    pub const fn address(address: u8) -> Self {
        Self { width: Width::Address, id: address as u32 }
    }

    /// Whether it is the engine's own: the first unit on CAN (7E8, 18DAF110), address 10 on the older buses.
    /// Source: ISO 15765-4, table of identifiers of emissions-related units; SAE J2178-1, address ranges.
    pub const fn is_engine(self) -> bool {
        matches!(
            (self.width, self.id),
            (Width::Can11, 0x7E8) | (Width::Can29, 0x18DA_F110) | (Width::Address, 0x10)
        )
    }

    /// The number behind it.
    pub const fn id(self) -> u32 {
        self.id
    }
}

impl fmt::Display for Ecu {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.width {
            Width::Address => write!(f, "{:02X}", self.id),
            Width::Can11 => write!(f, "{:03X}", self.id),
            Width::Can29 => write!(f, "{:08X}", self.id),
        }
    }
}

impl FromStr for Ecu {
    type Err = UnknownName;

    /// Two digits are an address, three an 11-bit identifier, eight a 29-bit identifier; blanks do not
    /// matter.
    fn from_str(text: &str) -> Result<Self, UnknownName> {
        let (mut id, mut digits) = (0_u32, 0);
        let named = text.bytes().filter(|byte| *byte != b' ').try_for_each(|byte| {
            digits += 1;
            id = id.checked_mul(16)? | u32::from(hex::digit(byte)?);
            Some(())
        });
        let ecu = named.and_then(|()| match digits {
            2 => Some(Self::address(id as u8)),
            3 => Self::can11(id as u16),
            8 => Self::can29(id),
            _ => None,
        });
        ecu.ok_or(UnknownName(
            "a control unit is two, three (to 7FF) or eight (to 1FFFFFFF) hexadecimal digits",
        ))
    }
}

#[cfg(test)]
mod tests {
    use std::string::ToString;

    use super::*;

    #[test]
    fn a_bus_is_read_back_from_its_name() {
        for bus in Bus::ALL {
            assert_eq!(bus.to_string().parse(), Ok(bus));
        }
        assert!("CAN".parse::<Bus>().is_err());
    }

    #[test]
    fn a_control_unit_is_read_back_from_its_digits() {
        for text in ["7E8", "18DAF110", "10", "000", "1FFFFFFF"] {
            assert_eq!(text.parse::<Ecu>().unwrap().to_string(), text);
        }
        assert_eq!("18 DA F1 10".parse::<Ecu>(), Ok(Ecu::can29(0x18DA_F110).unwrap()));
        for text in ["", "7", "800", "7E8 0", "20000000", "FFFFFFFF", "1FFFFFFFF", "7G8"] {
            assert!(text.parse::<Ecu>().is_err(), "{text}");
        }
    }
}
