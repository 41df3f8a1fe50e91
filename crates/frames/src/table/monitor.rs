//! Service 06: results of on-board tests. One row per unit-and-scaling identifier.
//!
//! In: the payload after `46` and the monitor identifier. Out: per test its number, value and limits. On CAN
//! a reply holds records of nine bytes, each beginning with the monitor; on the older buses one record of
//! five bytes without a scale. The length tells which it is.
//! Source: from memory of SAE J1979 appendix E; no source at hand checks this table.

use crate::error::DecodeError;
use crate::table::value::{Bits, Datum, IdSet, Unit, Value};

/// A unit-and-scaling identifier: value = raw * step + offset.
pub(crate) struct Scaling {
    id: u8,
    step: f64,
    offset: f64,
    unit: Unit,
}

const fn by(id: u8, step: f64, unit: Unit) -> Scaling {
    Scaling { id, step, offset: 0.0, unit }
}

/// Identifiers from 80 are signed.
#[rustfmt::skip]
pub(crate) const SCALINGS: &[Scaling] = &[
    by(0x01, 1.0, Unit::Count),                 by(0x02, 0.1, Unit::Count),
    by(0x03, 0.01, Unit::Count),                by(0x04, 0.001, Unit::Count),
    by(0x05, 0.000_030_5, Unit::Count),         by(0x06, 0.000_305, Unit::Count),
    by(0x07, 0.25, Unit::PerMinute),            by(0x08, 0.01, Unit::KilometrePerHour),
    by(0x09, 1.0, Unit::KilometrePerHour),      by(0x0A, 0.122, Unit::Millivolt),
    by(0x0B, 0.001, Unit::Volt),                by(0x0C, 0.01, Unit::Volt),
    by(0x0D, 0.003_906_25, Unit::Milliampere),  by(0x0E, 0.001, Unit::Ampere),
    by(0x0F, 0.01, Unit::Ampere),               by(0x10, 1.0, Unit::Millisecond),
    by(0x11, 100.0, Unit::Millisecond),         by(0x12, 1.0, Unit::Second),
    by(0x13, 1.0, Unit::Milliohm),              by(0x14, 1.0, Unit::Ohm),
    by(0x15, 1.0, Unit::Kiloohm),
    Scaling { id: 0x16, step: 0.1, offset: -40.0, unit: Unit::Celsius },
    by(0x17, 0.01, Unit::Kilopascal),           by(0x18, 0.011_7, Unit::Kilopascal),
    by(0x19, 0.079, Unit::Kilopascal),          by(0x1A, 1.0, Unit::Kilopascal),
    by(0x1B, 10.0, Unit::Kilopascal),           by(0x1C, 0.01, Unit::Degree),
    by(0x1D, 0.5, Unit::Degree),                by(0x1E, 0.000_030_5, Unit::Ratio),
    by(0x1F, 0.05, Unit::Ratio),                by(0x20, 0.003_906_25, Unit::Ratio),
    by(0x21, 1.0, Unit::Millihertz),            by(0x22, 1.0, Unit::Hertz),
    by(0x23, 1.0, Unit::Kilohertz),             by(0x24, 1.0, Unit::Count),
    by(0x25, 1.0, Unit::Kilometre),             by(0x26, 0.1, Unit::MillivoltPerMillisecond),
    by(0x27, 0.01, Unit::GramPerSecond),        by(0x28, 1.0, Unit::GramPerSecond),
    by(0x29, 0.25, Unit::PascalPerSecond),      by(0x2A, 0.001, Unit::KilogramPerHour),
    by(0x2B, 1.0, Unit::Count),                 by(0x2C, 0.01, Unit::GramPerCylinder),
    by(0x2D, 0.01, Unit::MilligramPerStroke),   by(0x2F, 0.01, Unit::Percent),
    by(0x30, 0.001_526, Unit::Percent),         by(0x31, 0.001, Unit::Litre),
    by(0x34, 1.0, Unit::Minute),                by(0x35, 10.0, Unit::Millisecond),
    by(0x36, 0.01, Unit::Gram),                 by(0x37, 0.1, Unit::Gram),
    by(0x38, 1.0, Unit::Gram),                  by(0x40, 1.0, Unit::PartPerMillion),
    by(0x81, 1.0, Unit::Count),                 by(0x82, 0.1, Unit::Count),
    by(0x83, 0.01, Unit::Count),                by(0x84, 0.001, Unit::Count),
    by(0x85, 0.000_030_5, Unit::Count),         by(0x86, 0.000_305, Unit::Count),
    by(0x8A, 0.122, Unit::Millivolt),           by(0x8B, 0.001, Unit::Volt),
    by(0x8C, 0.01, Unit::Volt),                 by(0x8D, 0.003_906_25, Unit::Milliampere),
    by(0x8E, 0.001, Unit::Ampere),              by(0x90, 1.0, Unit::Millisecond),
    by(0x96, 0.1, Unit::Celsius),               by(0x9C, 0.01, Unit::Degree),
    by(0x9D, 0.5, Unit::Degree),                by(0xA8, 1.0, Unit::GramPerSecond),
    by(0xA9, 0.25, Unit::PascalPerSecond),      by(0xAD, 0.01, Unit::MilligramPerStroke),
    by(0xAF, 0.01, Unit::Percent),              by(0xB0, 0.003_052, Unit::Percent),
    by(0xFC, 0.01, Unit::Kilopascal),           by(0xFD, 0.001, Unit::Kilopascal),
    by(0xFE, 0.25, Unit::Pascal),
];

impl Scaling {
    fn find(id: u8) -> Option<&'static Self> {
        SCALINGS.binary_search_by_key(&id, |row| row.id).ok().and_then(|at| SCALINGS.get(at))
    }

    fn apply(&self, raw: u16) -> f64 {
        let number = if self.id < 0x80 { f64::from(raw) } else { f64::from(raw.cast_signed()) };
        number * self.step + self.offset
    }
}

/// The walk over the records of one reply.
#[derive(Debug, Clone)]
pub(crate) struct Records<'a> {
    id: u8,
    payload: &'a [u8],
    offset: u16,
    index: u8,
    shape: Shape,
}

#[derive(Debug, Clone, Copy)]
enum Shape {
    Support,
    Can,
    Older,
}

/// Checks `payload` and opens the walk over it.
pub(crate) fn records(id: u8, payload: &[u8]) -> Result<Records<'_>, DecodeError> {
    let (service, got) = (0x06, payload.len());
    let shape = match got {
        4 if id.is_multiple_of(0x20) => Shape::Support,
        5 if !id.is_multiple_of(0x20) => Shape::Older,
        _ if got % 9 == 8 && !id.is_multiple_of(0x20) => Shape::Can,
        _ => {
            let want = if id.is_multiple_of(0x20) { 4 } else { (got + 1).next_multiple_of(9) - 1 };
            return Err(if got < want {
                DecodeError::ShortReply { service, id: u16::from(id), want, got }
            } else {
                DecodeError::LongReply { service, id: u16::from(id), want, got }
            });
        }
    };
    if matches!(shape, Shape::Can) {
        let mut rest = payload;
        loop {
            let (record, tail) = rest.split_at_checked(8).unwrap_or((rest, &[]));
            let scaling = record.get(1).copied().unwrap_or_default();
            Scaling::find(scaling).ok_or(DecodeError::UnknownScaling { id: scaling })?;
            match tail.split_first() {
                None => break,
                Some((&monitor, tail)) if monitor == id => rest = tail,
                Some((&got, _)) => {
                    return Err(DecodeError::Mismatch {
                        service,
                        want: id,
                        got,
                        at: payload.len() - tail.len() + 2,
                    });
                }
            }
        }
    }
    Ok(Records { id, payload, offset: 0, index: 0, shape })
}

impl Iterator for Records<'_> {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        let index = self.index;
        self.index += 1;
        match (self.shape, index) {
            (Shape::Support, 0) => {
                let bits = u32::from_be_bytes(self.payload.try_into().ok()?);
                let ids = Datum::Ids(IdSet { base: self.id, bits });
                Some(value("supported-monitors", ids, Unit::BitList, u64::from(bits), 0, 32))
            }
            (Shape::Older, 0) => {
                let raw = *self.payload.first()?;
                let word = if raw & 0x80 == 0 { "maximum" } else { "minimum" };
                Some(value("test-limit-kind", Datum::Word(word), Unit::Enum, u64::from(raw >> 7), 0, 1))
            }
            (Shape::Older, 1) => self.plain("test-component", 0, 1, 0x7F),
            (Shape::Older, 2) => self.plain("test-value", 1, 2, 0xFFFF),
            (Shape::Older, 3) => self.plain("test-limit", 3, 2, 0xFFFF),
            (Shape::Can, 0) => self.plain("test-id", 0, 1, 0xFF),
            (Shape::Can, 1) => self.plain("test-unit-and-scaling", 1, 1, 0xFF),
            (Shape::Can, 2) => self.scaled("test-value", 2),
            (Shape::Can, 3) => self.scaled("test-minimum", 4),
            (Shape::Can, 4) => {
                let last = self.scaled("test-maximum", 6);
                self.payload = self.payload.get(9..).unwrap_or_default();
                self.offset = self.offset.wrapping_add(72);
                self.index = 0;
                last
            }
            _ => None,
        }
    }
}

impl Records<'_> {
    fn number(&self, start: usize, size: usize) -> Option<u64> {
        Some(self.payload.get(start..start + size)?.iter().fold(0, |all, byte| all << 8 | u64::from(*byte)))
    }

    fn plain(&self, name: &'static str, start: usize, size: usize, mask: u64) -> Option<Value> {
        let raw = self.number(start, size)? & mask;
        let length = mask.count_ones() as u16;
        let offset = self.offset.wrapping_add((start + size) as u16 * 8 - length);
        Some(value(name, Datum::Number(raw as f64), Unit::Count, raw, offset, length))
    }

    fn scaled(&self, name: &'static str, start: usize) -> Option<Value> {
        let raw = self.number(start, 2)?;
        let scaling = Scaling::find(*self.payload.get(1)?)?;
        let number = scaling.apply(raw as u16);
        Some(value(
            name,
            Datum::Number(number),
            scaling.unit,
            raw,
            self.offset.wrapping_add(start as u16 * 8),
            16,
        ))
    }
}

fn value(name: &'static str, value: Datum, unit: Unit, raw: u64, offset: u16, length: u16) -> Value {
    Value { name, value, unit, raw, bits: Bits { offset, length }, supported: true }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scalings_rise_so_that_the_search_finds_them() {
        for pair in SCALINGS.windows(2) {
            assert!(pair[0].id < pair[1].id, "{:02X}", pair[1].id);
        }
    }
}
