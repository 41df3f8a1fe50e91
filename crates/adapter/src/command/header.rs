//! Where a request goes: one control unit, or all, on each kind of bus.
//!
//! In: digits, or an address. Out: [`Header`], only for addresses that a diagnostic request may carry, and who has to answer.
//! Not here: how the adapter is told of it (`driver/known/address.rs`). Source: sections 5, 6 and 8 of the dialect reference.

use std::fmt;

use frames::{Bus, Ecu};

/// Where requests go, and which control unit the answer has to come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Header {
    to: Address,
    from: Option<Ecu>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Address {
    Can11(u16),
    Can29(u32),
    Bytes([u8; 3]),
}

/// A text that is no [`Header`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum HeaderError {
    /// Not three, six or eight hexadecimal digits.
    #[error("a header is three, six or eight hexadecimal digits")]
    Form,
    /// Not an address that a diagnostic request may go to.
    #[error(
        "this is no diagnostic address: 600 to 7FF, 18DAxxF1, 18DBxxF1, or three bytes that end in F1 \
         are; others belong to the vehicle's own messages"
    )]
    NotDiagnostic,
}

impl Header {
    /// To one 11-bit identifier. The answer has to come from the identifier that is 8 higher: the rule of
    /// ISO 15765-4 for 7E0 to 7E7, common practice elsewhere.
    ///
    /// Errors: [`HeaderError::NotDiagnostic`] outside 600 to 7FF (common practice, no source): below lie the
    /// vehicle's own messages, and a request sent there could be taken for one.
    pub fn can11(id: u16) -> Result<Self, HeaderError> {
        match id {
            0x7DF => Ok(Self { to: Address::Can11(id), from: None }),
            0x600..=0x7F7 => Ok(Self { to: Address::Can11(id), from: Ecu::can11(id + 8) }),
            0x7F8..=0x7FF => Ok(Self { to: Address::Can11(id), from: None }),
            _ => Err(HeaderError::NotDiagnostic),
        }
    }

    /// To one 29-bit identifier of the form 18DAxxF1 (one control unit, answers as 18DAF1xx) or 18DBxxF1 (all).
    ///
    /// Errors: [`HeaderError::NotDiagnostic`] for any other.
    pub fn can29(id: u32) -> Result<Self, HeaderError> {
        let unit = (id >> 8) & 0xFF;
        match (id >> 16, id & 0xFF) {
            (0x18DA, 0xF1) => Ok(Self { to: Address::Can29(id), from: Ecu::can29(0x18DA_F100 | unit) }),
            (0x18DB, 0xF1) => Ok(Self { to: Address::Can29(id), from: None }),
            _ => Err(HeaderError::NotDiagnostic),
        }
    }

    /// The three header bytes of J1850, ISO 9141-2 and ISO 14230-4: kind, target, source. The source has to be the
    /// tester's address F1. Kinds 61, 68 (functional) and C0 to FF (functional) may be answered by anybody, the
    /// others only by the target.
    ///
    /// Errors: [`HeaderError::NotDiagnostic`] for another source.
    pub fn three_bytes(bytes: [u8; 3]) -> Result<Self, HeaderError> {
        match bytes {
            [0x61 | 0x68 | 0xC0..=0xFF, _, 0xF1] => Ok(Self { to: Address::Bytes(bytes), from: None }),
            [_, target, 0xF1] => Ok(Self { to: Address::Bytes(bytes), from: Some(Ecu::address(target)) }),
            _ => Err(HeaderError::NotDiagnostic),
        }
    }

    /// From digits: `7E1`, `DA10F1` and `18DA10F1` (the same), `6810F1`.
    ///
    /// Errors: [`HeaderError`].
    pub fn parse(text: &str) -> Result<Self, HeaderError> {
        let digits: String = text.chars().filter(|c| *c != ' ').collect();
        if !digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err(HeaderError::Form);
        }
        let value = u32::from_str_radix(&digits, 16).map_err(|_| HeaderError::Form)?;
        let [_, a, b, c] = value.to_be_bytes();
        match digits.len() {
            3 => Self::can11(value as u16),
            6 if matches!(a, 0xDA | 0xDB) => Self::can29(0x1800_0000 | value),
            6 => Self::three_bytes([a, b, c]),
            8 => Self::can29(value),
            _ => Err(HeaderError::Form),
        }
    }

    /// The one that requests to everybody carry on `bus` (section 5 of the reference).
    pub const fn functional(bus: Bus) -> Self {
        let to = match bus {
            Bus::Can11 => Address::Can11(0x7DF),
            Bus::Can29 => Address::Can29(0x18DB_33F1),
            Bus::J1850Pwm => Address::Bytes([0x61, 0x6A, 0xF1]),
            Bus::J1850Vpw | Bus::Iso9141 => Address::Bytes([0x68, 0x6A, 0xF1]),
            Bus::Iso14230 => Address::Bytes([0xC2, 0x33, 0xF1]),
        };
        Self { to, from: None }
    }

    /// Whether the adapter must be told how to acknowledge its long replies: outside 7E0 to 7E7 it cannot know
    /// (dialect reference, section 8). 29-bit addresses follow a rule.
    pub(crate) const fn needs_own_flow_control(self) -> bool {
        matches!(self.to, Address::Can11(id) if self.from.is_some() && !matches!(id, 0x7E0..=0x7E7))
    }

    /// Whether both are written the same, whoever has to answer.
    pub(crate) fn same_address(self, other: Self) -> bool {
        self.to == other.to
    }

    /// Who has to answer; `None` where anybody may.
    pub const fn answers_from(self) -> Option<Ecu> {
        self.from
    }

    /// Whether requests can carry it on this bus.
    pub const fn fits(self, bus: Bus) -> bool {
        matches!(
            (self.to, bus),
            (Address::Can11(_), Bus::Can11)
                | (Address::Can29(_), Bus::Can29)
                | (Address::Bytes(_), Bus::J1850Pwm | Bus::J1850Vpw | Bus::Iso9141 | Bus::Iso14230)
        )
    }
}

impl fmt::Display for Header {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.to {
            Address::Can11(id) => write!(f, "{id:03X}"),
            // Three bytes: every version takes them, and the upper five bits are 18 by default (page 15).
            Address::Can29(id) => write!(f, "{:06X}", id & 0xFF_FFFF),
            Address::Bytes([a, b, c]) => write!(f, "{a:02X}{b:02X}{c:02X}"),
        }
    }
}
