//! What may be asked of a vehicle: the reading services, and nothing else.
//!
//! In: text or parts. Out: [`Ask`], its hexadecimal form, and whether some bytes answer it.
//! Not here: how it is sent, to whom (the adapter). Services that clear (04), actuate (08, 2F, 31), write
//! (2E, 3B), reset (11), unlock (27) or change the session (10) have no variant: nobody can build such a
//! request.
//! Source: `services.csv` of the reference (SAE J1979 and ISO 14229 service numbers as two libraries give
//! them).

use core::fmt;

use crate::text::hex;

/// One read-only diagnostic request.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ask {
    /// Service 01: current data of one parameter identifier.
    Current(u8),
    /// Service 01: current data of two to six parameter identifiers in one request (CAN only).
    CurrentMany(Pids),
    /// Service 02: the data stored when a fault was stored.
    FreezeFrame {
        /// The parameter identifier.
        pid: u8,
        /// The number of the frame; 0 is the one every vehicle has.
        frame: u8,
    },
    /// Service 03: stored codes.
    StoredCodes,
    /// Service 06: results of on-board tests, by monitor identifier.
    TestResults(u8),
    /// Service 07: codes seen in this or the last driving cycle.
    PendingCodes,
    /// Service 09: vehicle information, by infotype.
    VehicleInfo(u8),
    /// Service 0A: permanent codes.
    PermanentCodes,
    /// Service 21 (ISO 14230-3): data by a one-byte identifier of the maker.
    LocalIdentifier(u8),
    /// Service 22 (ISO 14229-1): data by a two-byte identifier of the maker.
    Identifier(u16),
}

/// Two to six parameter identifiers for one request.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pids {
    ids: [u8; 6],
    count: u8,
}

/// Why a text is no request that this program makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum AskError {
    /// Something else than pairs of hexadecimal digits, or more than seven bytes.
    #[error("a request is one to seven pairs of hexadecimal digits")]
    NotHex,
    /// A service that is not on the list of reading services.
    #[error("service {service:02X} is not on the list of reading services")]
    NotReading {
        /// The service asked for.
        service: u8,
    },
    /// A service that is, with too many or too few bytes.
    #[error("service {service:02X} takes {want} more bytes, {got} came")]
    Length {
        /// The service asked for.
        service: u8,
        /// How many bytes follow it.
        want: u8,
        /// How many came.
        got: u8,
    },
}

impl AskError {
    /// The kebab-case word for this kind of error.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::NotHex => "not-hex",
            Self::NotReading { .. } => "not-a-reading-service",
            Self::Length { .. } => "request-length",
        }
    }
}

impl Pids {
    /// From two to six identifiers; `None` for fewer, more, or one named twice.
    pub fn new(ids: &[u8]) -> Option<Self> {
        if !(2..=6).contains(&ids.len())
            || ids.iter().enumerate().any(|(at, id)| ids.iter().skip(at + 1).any(|later| later == id))
        {
            return None;
        }
        let mut all = [0; 6];
        for (slot, id) in all.iter_mut().zip(ids) {
            *slot = *id;
        }
        Some(Self { ids: all, count: ids.len() as u8 })
    }

    /// The identifiers in the order they were asked.
    pub fn as_slice(&self) -> &[u8] {
        self.ids.get(..usize::from(self.count)).unwrap_or_default()
    }
}

impl Ask {
    /// From text such as `0105` or `22 4D 07`; blanks and letter case do not matter.
    ///
    /// Errors: [`AskError`]; a service that is not on the list is refused here, so it cannot be built.
    pub fn parse(text: &str) -> Result<Self, AskError> {
        let mut bytes = [0; 7];
        let count = hex::decode_into(text.as_bytes(), &mut bytes).ok_or(AskError::NotHex)?;
        let Some((&service, rest)) = bytes.get(..count).and_then(<[u8]>::split_first) else {
            return Err(AskError::NotHex);
        };
        let length = |want| AskError::Length { service, want, got: rest.len() as u8 };
        match (service, rest) {
            (0x01, &[pid]) => Ok(Self::Current(pid)),
            (0x01, many) => Pids::new(many).map(Self::CurrentMany).ok_or(length(1)),
            (0x02, &[pid, frame]) => Ok(Self::FreezeFrame { pid, frame }),
            (0x02, _) => Err(length(2)),
            (0x03, []) => Ok(Self::StoredCodes),
            (0x06, &[id]) => Ok(Self::TestResults(id)),
            (0x07, []) => Ok(Self::PendingCodes),
            (0x09, &[id]) => Ok(Self::VehicleInfo(id)),
            (0x0A, []) => Ok(Self::PermanentCodes),
            (0x21, &[id]) => Ok(Self::LocalIdentifier(id)),
            (0x22, &[high, low]) => Ok(Self::Identifier(u16::from_be_bytes([high, low]))),
            (0x03 | 0x07 | 0x0A, _) => Err(length(0)),
            (0x06 | 0x09 | 0x21, _) => Err(length(1)),
            (0x22, _) => Err(length(2)),
            _ => Err(AskError::NotReading { service }),
        }
    }

    /// The number of the service.
    pub const fn service(self) -> u8 {
        match self {
            Self::Current(_) | Self::CurrentMany(_) => 0x01,
            Self::FreezeFrame { .. } => 0x02,
            Self::StoredCodes => 0x03,
            Self::TestResults(_) => 0x06,
            Self::PendingCodes => 0x07,
            Self::VehicleInfo(_) => 0x09,
            Self::PermanentCodes => 0x0A,
            Self::LocalIdentifier(_) => 0x21,
            Self::Identifier(_) => 0x22,
        }
    }

    /// The first byte of a positive reply: the service with bit 6 set.
    pub const fn reply_service(self) -> u8 {
        self.service() | 0x40
    }

    /// The request as it is typed to the adapter: upper case, no blanks, no line end.
    pub const fn hex(self) -> AskHex {
        AskHex(self)
    }

    /// Whether `data` (from the service byte on) is the positive reply to this: service and identifier
    /// echoed.
    #[inline]
    pub fn matches(&self, data: &[u8]) -> bool {
        let Some((&service, rest)) = data.split_first() else { return false };
        service == self.reply_service()
            && match *self {
                Self::StoredCodes | Self::PendingCodes | Self::PermanentCodes => true,
                Self::Current(id)
                | Self::TestResults(id)
                | Self::VehicleInfo(id)
                | Self::LocalIdentifier(id) => rest.first() == Some(&id),
                Self::CurrentMany(pids) => rest.first().is_some_and(|id| pids.as_slice().contains(id)),
                Self::FreezeFrame { pid, frame } => rest.starts_with(&[pid, frame]),
                Self::Identifier(id) => rest.starts_with(&id.to_be_bytes()),
            }
    }

    /// How many bytes of a positive reply come before its payload: the service and the echoed identifier.
    pub const fn echo_len(self) -> usize {
        match self {
            Self::StoredCodes | Self::PendingCodes | Self::PermanentCodes | Self::CurrentMany(_) => 1,
            Self::Current(_) | Self::TestResults(_) | Self::VehicleInfo(_) | Self::LocalIdentifier(_) => 2,
            Self::FreezeFrame { .. } | Self::Identifier(_) => 3,
        }
    }

    /// The bytes of the request and how many of them there are.
    fn bytes(self) -> ([u8; 7], usize) {
        let mut bytes = [0; 7];
        let [first, rest @ ..] = &mut bytes;
        *first = self.service();
        let mut put = |values: &[u8]| {
            for (slot, value) in rest.iter_mut().zip(values) {
                *slot = *value;
            }
            values.len() + 1
        };
        let count = match self {
            Self::StoredCodes | Self::PendingCodes | Self::PermanentCodes => put(&[]),
            Self::Current(id) | Self::TestResults(id) | Self::VehicleInfo(id) | Self::LocalIdentifier(id) => {
                put(&[id])
            }
            Self::CurrentMany(pids) => put(pids.as_slice()),
            Self::FreezeFrame { pid, frame } => put(&[pid, frame]),
            Self::Identifier(id) => put(&id.to_be_bytes()),
        };
        (bytes, count)
    }

    /// The bytes that a positive reply begins with and how many of them are fixed.
    pub(crate) fn echo(self) -> impl Iterator<Item = u8> {
        let (mut bytes, _) = self.bytes();
        if let Some(first) = bytes.first_mut() {
            *first = self.reply_service();
        }
        bytes.into_iter().take(self.echo_len())
    }

    /// The identifier asked for, 0 where there is none.
    pub(crate) const fn id(self) -> u16 {
        match self {
            Self::Current(id) | Self::TestResults(id) | Self::VehicleInfo(id) | Self::LocalIdentifier(id) => {
                id as u16
            }
            Self::FreezeFrame { pid, .. } => pid as u16,
            Self::Identifier(id) => id,
            Self::CurrentMany(_) | Self::StoredCodes | Self::PendingCodes | Self::PermanentCodes => 0,
        }
    }

    /// Whether `line`, blanks apart, is this request typed back, with or without a digit for the count of
    /// replies.
    pub(crate) fn is_echo(self, line: &[u8]) -> bool {
        let (bytes, count) = self.bytes();
        let mut digits = line.iter().filter(|&&byte| {
            hex::class(byte) & (hex::BLANK | hex::NUL) == 0 || hex::class(byte) == hex::OTHER
        });
        for byte in bytes.iter().take(count) {
            for nibble in [byte >> 4, byte & 15] {
                if digits.next().and_then(|&text| hex::digit(text)) != Some(nibble) {
                    return false;
                }
            }
        }
        match digits.next() {
            None => true,
            Some(&digit) => hex::digit(digit).is_some() && digits.next().is_none(),
        }
    }
}

/// The hexadecimal form of an [`Ask`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AskHex(Ask);

impl AskHex {
    /// Hands the digits to `put`. Each exchange begins with it: nothing is formatted.
    pub fn with<T>(self, put: impl FnOnce(&[u8]) -> T) -> T {
        let (bytes, count) = self.0.bytes();
        let pair = |byte: u8| {
            [byte >> 4, byte & 0x0F].map(|digit| if digit < 10 { b'0' + digit } else { b'A' + digit - 10 })
        };
        put(bytes.map(pair).as_flattened().get(..2 * count).unwrap_or_default())
    }
}

impl fmt::Display for AskHex {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.with(|digits| f.write_str(core::str::from_utf8(digits).map_err(|_| fmt::Error)?))
    }
}

impl core::str::FromStr for Ask {
    type Err = AskError;

    fn from_str(text: &str) -> Result<Self, AskError> {
        Self::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use std::string::ToString;

    use super::*;

    #[test]
    fn every_reading_service_is_written_and_read_back() {
        let cases: &[(&str, Ask)] = &[
            ("0105", Ask::Current(0x05)),
            ("01050C0D", Ask::CurrentMany(Pids::new(&[0x05, 0x0C, 0x0D]).unwrap())),
            ("020C00", Ask::FreezeFrame { pid: 0x0C, frame: 0 }),
            ("03", Ask::StoredCodes),
            ("06A2", Ask::TestResults(0xA2)),
            ("07", Ask::PendingCodes),
            ("0902", Ask::VehicleInfo(0x02)),
            ("0A", Ask::PermanentCodes),
            ("2101", Ask::LocalIdentifier(0x01)),
            ("224D07", Ask::Identifier(0x4D07)),
        ];
        for (text, ask) in cases {
            assert_eq!(Ask::parse(text), Ok(*ask), "{text}");
            assert_eq!(ask.hex().to_string(), *text);
        }
        assert_eq!(Ask::parse(" 22 4d 07"), Ok(Ask::Identifier(0x4D07)));
    }

    #[test]
    fn no_service_outside_the_list_can_be_asked() {
        // services.csv: only these change nothing and are of use here.
        let reading = [0x01, 0x02, 0x03, 0x06, 0x07, 0x09, 0x0A, 0x21, 0x22];
        for service in 0..=0xFF_u8 {
            for tail in ["", "00", "0000", "000000", "FF", "FFFFFF", "010203040506"] {
                let text = std::format!("{service:02X}{tail}");
                if let Ok(ask) = Ask::parse(&text) {
                    assert!(reading.contains(&service), "{text}");
                    assert_eq!(ask.service(), service);
                    assert_eq!(ask.hex().to_string(), text);
                } else if !reading.contains(&service) {
                    assert_eq!(Ask::parse(&text), Err(AskError::NotReading { service }), "{text}");
                }
            }
        }
    }

    #[test]
    fn a_request_of_the_wrong_length_says_so() {
        assert_eq!(Ask::parse("020C"), Err(AskError::Length { service: 2, want: 2, got: 1 }));
        assert_eq!(Ask::parse("0301"), Err(AskError::Length { service: 3, want: 0, got: 1 }));
        assert_eq!(Ask::parse("01"), Err(AskError::Length { service: 1, want: 1, got: 0 }));
        assert_eq!(Ask::parse("010505"), Err(AskError::Length { service: 1, want: 1, got: 2 }));
        assert_eq!(Ask::parse(""), Err(AskError::NotHex));
        assert_eq!(Ask::parse("010"), Err(AskError::NotHex));
        assert_eq!(Ask::parse("ATZ"), Err(AskError::NotHex));
    }

    #[test]
    fn a_reply_matches_only_when_service_and_identifier_are_echoed() {
        let cases: &[(&str, &[u8], bool)] = &[
            ("0105", &[0x41, 0x05, 0x7B], true),
            ("0105", &[0x41, 0x0C, 0x1A, 0xF8], false),
            ("0105", &[0x61, 0x05, 0x7B], false),
            ("0105", &[0x41], false),
            ("0105", &[], false),
            ("020500", &[0x42, 0x05, 0x00, 0x7B], true),
            ("020500", &[0x42, 0x05, 0x01, 0x7B], false),
            ("03", &[0x43, 0x00], true),
            ("224D07", &[0x62, 0x4D, 0x07, 0x55], true),
            ("224D07", &[0x62, 0x4D, 0x08, 0x55], false),
            ("01050C", &[0x41, 0x0C, 0x1A, 0xF8, 0x05, 0x7B], true),
        ];
        for (ask, data, want) in cases {
            assert_eq!(Ask::parse(ask).unwrap().matches(data), *want, "{ask} {data:02X?}");
        }
    }

    #[test]
    fn an_echo_is_the_request_and_at_most_one_digit_more() {
        let ask = Ask::parse("010C").unwrap();
        for echo in [&b"010C"[..], b"01 0C", b"010c1", b" 01 0 C ", b"01 0C 1", b"0\x0010C"] {
            assert!(ask.is_echo(echo), "{echo:?}");
        }
        for other in [&b"410C"[..], b"010", b"010C11", b"010CX", b"010D", b""] {
            assert!(!ask.is_echo(other), "{other:?}");
        }
    }
}
