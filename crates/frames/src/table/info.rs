//! Service 09: vehicle information. One row per infotype.
//!
//! In: the payload after `49` and the infotype. On CAN it begins with a count of entries; on the older buses
//! the message numbers are gone (`wire.rs`) and the entries follow each other. The length tells which of the
//! two it is.
//! Source: `service09.csv` of the reference; names of the counters and infotypes 0C and 0D from memory of SAE
//! J1979-DA.

use crate::answer::vin::Vin;
use crate::error::DecodeError;
use crate::table::value::{Bits, Datum, IdSet, Label, Unit, Value};

/// One infotype: its number, its name, what it carries.
pub(crate) struct InfoRow {
    pub(crate) id: u8,
    pub(crate) name: &'static str,
    pub(crate) shape: Shape,
}

/// What an infotype carries.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Shape {
    /// One byte that counts messages (older buses only).
    Byte,
    /// A vehicle identification number.
    Vin,
    /// Entries of so many characters.
    Texts(usize),
    /// Entries of four bytes, shown as hexadecimal digits.
    Hex,
    /// Two-byte counters with these names.
    Counters(&'static [&'static str]),
    /// Four characters, a separator, fifteen characters.
    EcuName,
    /// Known by name only.
    Opaque,
}

#[rustfmt::skip]
pub(crate) const INFO: &[InfoRow] = &[
    InfoRow { id: 0x01, name: "vin-message-count",                              shape: Shape::Byte },
    InfoRow { id: 0x02, name: "vin",                                            shape: Shape::Vin },
    InfoRow { id: 0x03, name: "calibration-id-message-count",                   shape: Shape::Byte },
    InfoRow { id: 0x04, name: "calibration-id",                                 shape: Shape::Texts(16) },
    InfoRow { id: 0x05, name: "calibration-verification-message-count",         shape: Shape::Byte },
    InfoRow { id: 0x06, name: "calibration-verification-number",                shape: Shape::Hex },
    InfoRow { id: 0x07, name: "in-use-performance-message-count",               shape: Shape::Byte },
    InfoRow { id: 0x08, name: "in-use-performance-spark-ignition",              shape: Shape::Counters(SPARK) },
    InfoRow { id: 0x09, name: "ecu-name-message-count",                         shape: Shape::Byte },
    InfoRow { id: 0x0A, name: "ecu-name",                                       shape: Shape::EcuName },
    InfoRow { id: 0x0B, name: "in-use-performance-compression-ignition",        shape: Shape::Counters(COMPRESSION) },
    InfoRow { id: 0x0C, name: "serial-number-message-count",                    shape: Shape::Byte },
    InfoRow { id: 0x0D, name: "engine-serial-number",                           shape: Shape::Texts(17) },
    InfoRow { id: 0x0F, name: "exhaust-regulation-or-type-approval-number",     shape: Shape::Opaque },
    InfoRow { id: 0x10, name: "protocol-identification",                        shape: Shape::Opaque },
    InfoRow { id: 0x12, name: "fuelled-engine-operation-ignition-cycles",       shape: Shape::Opaque },
    InfoRow { id: 0x13, name: "certification-test-group-or-engine-family",      shape: Shape::Opaque },
    InfoRow { id: 0x14, name: "distance-since-evaporative-monitoring-decision", shape: Shape::Opaque },
];

const SPARK: &[&str] = &[
    "obd-monitoring-conditions-encountered",
    "ignition-cycles",
    "catalyst-monitor-completions-bank-1",
    "catalyst-monitor-conditions-bank-1",
    "catalyst-monitor-completions-bank-2",
    "catalyst-monitor-conditions-bank-2",
    "oxygen-sensor-monitor-completions-bank-1",
    "oxygen-sensor-monitor-conditions-bank-1",
    "oxygen-sensor-monitor-completions-bank-2",
    "oxygen-sensor-monitor-conditions-bank-2",
    "egr-monitor-completions",
    "egr-monitor-conditions",
    "secondary-air-monitor-completions",
    "secondary-air-monitor-conditions",
    "evaporative-monitor-completions",
    "evaporative-monitor-conditions",
    "secondary-oxygen-sensor-monitor-completions-bank-1",
    "secondary-oxygen-sensor-monitor-conditions-bank-1",
    "secondary-oxygen-sensor-monitor-completions-bank-2",
    "secondary-oxygen-sensor-monitor-conditions-bank-2",
];

const COMPRESSION: &[&str] = &[
    "obd-monitoring-conditions-encountered",
    "ignition-cycles",
    "hydrocarbon-catalyst-monitor-completions",
    "hydrocarbon-catalyst-monitor-conditions",
    "nox-catalyst-monitor-completions",
    "nox-catalyst-monitor-conditions",
    "nox-adsorber-monitor-completions",
    "nox-adsorber-monitor-conditions",
    "particulate-filter-monitor-completions",
    "particulate-filter-monitor-conditions",
    "exhaust-gas-sensor-monitor-completions",
    "exhaust-gas-sensor-monitor-conditions",
    "egr-monitor-completions",
    "egr-monitor-conditions",
    "boost-pressure-monitor-completions",
    "boost-pressure-monitor-conditions",
    "fuel-system-monitor-completions",
    "fuel-system-monitor-conditions",
];

/// The walk over one infotype's payload.
#[derive(Debug, Clone)]
pub(crate) struct Info<'a> {
    id: u8,
    name: &'static str,
    shape: Option<Shape>,
    body: &'a [u8],
    offset: u16,
    index: usize,
}

/// The row of an infotype.
pub(crate) fn find(id: u8) -> Option<&'static InfoRow> {
    INFO.iter().find(|row| row.id == id)
}

/// Checks `payload` and opens the walk over it.
pub(crate) fn open(id: u8, payload: &[u8]) -> Result<Info<'_>, DecodeError> {
    let got = payload.len();
    if id.is_multiple_of(0x20) {
        exactly(id, 4, got)?;
        return Ok(Info { id, name: "supported-infotypes", shape: None, body: payload, offset: 0, index: 0 });
    }
    let row = find(id).ok_or(DecodeError::UnknownId { service: 0x09, id: u16::from(id) })?;
    let skip = match row.shape {
        Shape::Opaque => {
            return Err(DecodeError::NoLayout { service: 0x09, id: u16::from(id), name: row.name });
        }
        Shape::Byte => exactly(id, 1, got).map(|()| 0)?,
        Shape::Vin => vin_start(id, payload)?,
        Shape::Texts(size) => entries(id, size, payload)?,
        Shape::Hex => entries(id, 4, payload)?,
        Shape::Counters(_) => entries(id, 2, payload)?,
        Shape::EcuName => {
            if got == 20 {
                0
            } else {
                entries(id, 20, payload)?
            }
        }
    };
    let body = payload.get(skip..).unwrap_or_default();
    match row.shape {
        Shape::Vin => Vin::new(body).map(|_| ())?,
        Shape::Texts(_) | Shape::EcuName => check_text(body, skip, matches!(row.shape, Shape::EcuName))?,
        _ => {}
    }
    Ok(Info { id, name: row.name, shape: Some(row.shape), body, offset: skip as u16 * 8, index: 0 })
}

fn exactly(id: u8, want: usize, got: usize) -> Result<(), DecodeError> {
    let (service, id) = (0x09, u16::from(id));
    match got.cmp(&want) {
        core::cmp::Ordering::Less => Err(DecodeError::ShortReply { service, id, want, got }),
        core::cmp::Ordering::Equal => Ok(()),
        core::cmp::Ordering::Greater => Err(DecodeError::LongReply { service, id, want, got }),
    }
}

/// On CAN a count of 1 comes first, on the older buses three filler zeros.
fn vin_start(id: u8, payload: &[u8]) -> Result<usize, DecodeError> {
    match *payload {
        [0, 0, 0, ref vin @ ..] if vin.len() == 17 => Ok(3),
        [1, ref vin @ ..] if vin.len() == 17 => Ok(1),
        [count, ref vin @ ..] if vin.len() == 17 => {
            Err(DecodeError::Count { want: usize::from(count), got: 17 })
        }
        _ => exactly(id, 18, payload.len()).map(|()| 1),
    }
}

/// Where the entries begin: after a count that fits, or at once if the length is a multiple of their size.
fn entries(id: u8, size: usize, payload: &[u8]) -> Result<usize, DecodeError> {
    let got = payload.len();
    match payload.split_first() {
        Some((&count, rest)) if rest.len().is_multiple_of(size) => {
            if usize::from(count) * size == rest.len() {
                Ok(1)
            } else {
                Err(DecodeError::Count { want: usize::from(count), got: rest.len() })
            }
        }
        Some(_) if got.is_multiple_of(size) => Ok(0),
        _ => Err(DecodeError::ShortReply {
            service: 0x09,
            id: u16::from(id),
            want: got.next_multiple_of(size).max(size),
            got,
        }),
    }
}

/// Printable characters, filled up with zero bytes at the end (an ECU name also inside).
fn check_text(body: &[u8], skip: usize, is_ecu_name: bool) -> Result<(), DecodeError> {
    let wrong = body.iter().enumerate().find(|(_, byte)| !matches!(byte, 0 | b' '..=b'~'));
    match wrong {
        Some((at, &byte)) if !(is_ecu_name && at == 4) => Err(DecodeError::Text { at: at + skip, byte }),
        _ => Ok(()),
    }
}

impl Iterator for Info<'_> {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        let index = self.index;
        self.index += 1;
        match self.shape {
            None => (index == 0).then(|| self.supported()).flatten(),
            Some(Shape::Byte) => (index == 0).then(|| self.number(self.name, 0, 1)).flatten(),
            Some(Shape::Vin) => self.vin(index),
            Some(Shape::Texts(size)) => self.text(self.name, index * size, size),
            Some(Shape::Hex) => self.hex(index * 4),
            Some(Shape::Counters(names)) => {
                self.number(names.get(index).copied().unwrap_or("further-counter"), index * 2, 2)
            }
            Some(Shape::EcuName) => match index {
                0 => self.text("ecu-acronym", 0, 4),
                1 => self.text("ecu-name", 5, 15),
                _ => None,
            },
            Some(Shape::Opaque) => None,
        }
    }
}

impl Info<'_> {
    fn value(
        &self,
        name: &'static str,
        start: usize,
        size: usize,
        raw: u64,
        value: Datum,
        unit: Unit,
    ) -> Value {
        let bits = Bits { offset: self.offset + start as u16 * 8, length: size as u16 * 8 };
        Value { name, value, unit, raw, bits, supported: true }
    }

    fn supported(&self) -> Option<Value> {
        let bits = u32::from_be_bytes(self.body.try_into().ok()?);
        let ids = Datum::Ids(IdSet { base: self.id, bits });
        Some(self.value(self.name, 0, 4, u64::from(bits), ids, Unit::BitList))
    }

    fn number(&self, name: &'static str, start: usize, size: usize) -> Option<Value> {
        let raw =
            self.body.get(start..start + size)?.iter().fold(0_u64, |all, byte| all << 8 | u64::from(*byte));
        Some(self.value(name, start, size, raw, Datum::Number(raw as f64), Unit::Count))
    }

    fn vin(&self, index: usize) -> Option<Value> {
        let vin = Vin::new(self.body).ok()?;
        match index {
            0 => Some(self.value("vin", 0, 17, 0, Datum::Vin(vin), Unit::Text)),
            1 => {
                let digit = u64::from(*self.body.get(8)?);
                Some(self.value(
                    "vin-check-digit",
                    8,
                    1,
                    digit,
                    Datum::Word(vin.check_digit().as_str()),
                    Unit::Enum,
                ))
            }
            _ => None,
        }
    }

    /// A text with its filler cut off; a filler inside stays a blank.
    fn text(&self, name: &'static str, start: usize, size: usize) -> Option<Value> {
        let bytes = self.body.get(start..start + size)?;
        let end = bytes.iter().rposition(|byte| *byte != 0).map_or(0, |last| last + 1);
        let mut text = [b' '; 20];
        for (slot, byte) in text.iter_mut().zip(bytes).filter(|(_, byte)| **byte != 0) {
            *slot = *byte;
        }
        let label = Label::new(text.get(..end)?)?;
        Some(self.value(name, start, size, 0, Datum::Text(label), Unit::Text))
    }

    fn hex(&self, start: usize) -> Option<Value> {
        let bytes = self.body.get(start..start + 4)?;
        let mut digits = [0; 8];
        let nibbles = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
        for (slot, nibble) in digits.iter_mut().zip(nibbles) {
            *slot = if nibble < 10 { b'0' + nibble } else { b'A' + nibble - 10 };
        }
        let raw = bytes.iter().fold(0_u64, |all, byte| all << 8 | u64::from(*byte));
        Some(self.value(self.name, start, 4, raw, Datum::Text(Label::new(&digits)?), Unit::Text))
    }
}
