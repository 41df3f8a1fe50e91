//! How a sheet describes the value inside a reply to service 21 or 22, and reading and writing by it.
//!
//! In: the payload after the echoed identifier. Out: the number and the raw integer. Nothing about a maker's
//! identifiers is known here: the sheet says where the value stands.

use alloc::vec::Vec;

use crate::error::{DecodeError, EncodingError};
use crate::table::field::{mask, put_bits, round, sign_extend};
use crate::table::value::Bits;

/// Which byte of a number comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ByteOrder {
    /// The most significant one.
    BigEndian,
    /// The least significant one.
    LittleEndian,
}

/// The place and the scale of one value: `value = raw * scale + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Encoding {
    /// The first byte, counted from 0 after the echoed identifier.
    pub byte: u8,
    /// How many bytes it takes: 1 to 4.
    pub length: u8,
    /// Whether the raw integer is in two's complement.
    pub signed: bool,
    /// The order of its bytes.
    pub order: ByteOrder,
    /// The value of one step; not 0; negative for a falling code.
    pub scale: f64,
    /// The value of raw 0.
    pub offset: f64,
    /// A bit field inside those bytes: how many bits of the number come before it (most significant first),
    /// and how many it has. `None` for all of them.
    pub bits: Option<(u8, u8)>,
}

/// A value read by an [`Encoding`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read {
    /// The value in the sheet's unit.
    pub value: f64,
    /// The unsigned integer it came from.
    pub raw: u64,
}

impl Encoding {
    /// Refuses what makes no sense; a sheet is checked with this once, when it is read.
    pub fn check(&self) -> Result<(), EncodingError> {
        if !(1..=4).contains(&self.length) {
            return Err(EncodingError::Length { length: self.length });
        }
        let within = self.length * 8;
        if let Some((offset, length)) = self.bits
            && (length == 0 || offset.checked_add(length).is_none_or(|end| end > within))
        {
            return Err(EncodingError::Bits { offset, length, within });
        }
        if self.scale == 0.0 || !self.scale.is_finite() || !self.offset.is_finite() {
            return Err(EncodingError::Scale);
        }
        Ok(())
    }

    /// The value in `payload` (the bytes after the echoed identifier).
    ///
    /// Errors: [`DecodeError::ShortPayload`] if it does not reach that far; [`DecodeError::Encoding`] if the
    /// encoding itself makes no sense.
    pub fn read(&self, payload: &[u8]) -> Result<Read, DecodeError> {
        self.check().map_err(DecodeError::Encoding)?;
        let bytes = payload
            .get(usize::from(self.byte)..usize::from(self.byte) + usize::from(self.length))
            .ok_or(DecodeError::ShortPayload {
                want: usize::from(self.byte) + usize::from(self.length),
                got: payload.len(),
            })?;
        let push = |all: u64, byte: &u8| all << 8 | u64::from(*byte);
        let all = match self.order {
            ByteOrder::BigEndian => bytes.iter().fold(0, push),
            ByteOrder::LittleEndian => bytes.iter().rev().fold(0, push),
        };
        let field = self.field();
        let unused = u32::from(self.length) * 8 - u32::from(field.offset + field.length);
        let raw = all >> unused & mask(field.length);
        let number = if self.signed { sign_extend(raw, field.length) as f64 } else { raw as f64 };
        Ok(Read { value: number * self.scale + self.offset, raw })
    }

    /// The smallest and the largest value that it can carry.
    pub fn range(&self) -> (f64, f64) {
        let top = mask(self.field().length);
        let (low, high) =
            if self.signed { (-((top / 2) as f64) - 1.0, (top / 2) as f64) } else { (0.0, top as f64) };
        let (low, high) = (low * self.scale + self.offset, high * self.scale + self.offset);
        if low <= high { (low, high) } else { (high, low) }
    }

    /// A payload that carries `value`, rounded to the nearest step; the other bits are 0.
    ///
    /// Errors: [`EncodingError::OutOfRange`], or what [`Encoding::check`] finds.
    pub fn write(&self, value: f64) -> Result<Vec<u8>, EncodingError> {
        let mut payload = alloc::vec![0; usize::from(self.byte) + usize::from(self.length)];
        self.write_into(value, &mut payload)?;
        Ok(payload)
    }

    /// The same into a payload that already holds other things, which stay. Bytes that are missing are not
    /// written.
    pub fn write_into(&self, value: f64, payload: &mut [u8]) -> Result<(), EncodingError> {
        self.check()?;
        let (low, high) = self.range();
        let half = if self.scale < 0.0 { -self.scale } else { self.scale } / 2.0;
        let outside = EncodingError::OutOfRange { value, low, high };
        if !(low - half..=high + half).contains(&value) {
            return Err(outside);
        }
        let field = self.field();
        let (bottom, top) = if self.signed {
            (-(mask(field.length) as i64 / 2) - 1, mask(field.length) as i64 / 2)
        } else {
            (0, mask(field.length) as i64)
        };
        let raw = round((value - self.offset) / self.scale).clamp(bottom, top) as u64 & mask(field.length);
        let start = usize::from(self.byte);
        let bytes = payload.get_mut(start..start + usize::from(self.length)).ok_or(outside)?;
        if self.order == ByteOrder::LittleEndian {
            bytes.reverse();
        }
        let put = put_bits(bytes, field, raw);
        if self.order == ByteOrder::LittleEndian {
            bytes.reverse();
        }
        put.ok_or(outside)
    }

    /// The place of the field within its own bytes, most significant byte first.
    fn field(&self) -> Bits {
        let (offset, length) = self.bits.unwrap_or((0, self.length.saturating_mul(8)));
        Bits { offset: u16::from(offset), length: u16::from(length) }
    }
}

/// The temperature of J1939 SPN 177 (transmission oil) in the eight data bytes of PGN 65272.
///
/// Units: °C. Raw FB00 and above (reserved, error, not available) gives no value: the range ends at 1735 °C.
/// Source: SPN table (scale, offset); place of the bytes and the two ranges from memory of SAE J1939-71.
///
/// Errors: [`DecodeError::ShortPayload`], [`DecodeError::NotAvailable`].
pub fn spn_177(payload: &[u8]) -> Result<Read, DecodeError> {
    const TRANSMISSION_OIL: Encoding = Encoding {
        byte: 4,
        length: 2,
        signed: false,
        order: ByteOrder::LittleEndian,
        scale: 0.031_25,
        offset: -273.0,
        bits: None,
    };
    let read = TRANSMISSION_OIL.read(payload)?;
    if read.raw >= 0xFB00 { Err(DecodeError::NotAvailable { raw: read.raw }) } else { Ok(read) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BYTE: Encoding = Encoding {
        byte: 0,
        length: 1,
        signed: false,
        order: ByteOrder::BigEndian,
        scale: 1.0,
        offset: -40.0,
        bits: None,
    };

    #[test]
    fn a_payload_that_does_not_reach_the_value_is_an_error() {
        assert_eq!(BYTE.read(&[0x78]), Ok(Read { value: 80.0, raw: 0x78 }));
        assert_eq!(BYTE.read(&[]), Err(DecodeError::ShortPayload { want: 1, got: 0 }));
        let second = Encoding { byte: 1, length: 2, ..BYTE };
        assert_eq!(second.read(&[1, 2]), Err(DecodeError::ShortPayload { want: 3, got: 2 }));
    }

    #[test]
    fn a_bit_field_is_counted_from_the_most_significant_bit() {
        let nibble = Encoding { bits: Some((4, 4)), offset: 0.0, ..BYTE };
        assert_eq!(nibble.read(&[0xA5]), Ok(Read { value: 5.0, raw: 5 }));
        let across = Encoding { length: 2, bits: Some((4, 8)), offset: 0.0, signed: true, ..BYTE };
        assert_eq!(across.read(&[0x0F, 0xF0]), Ok(Read { value: -1.0, raw: 0xFF }));
        let little = Encoding { order: ByteOrder::LittleEndian, ..across };
        assert_eq!(little.read(&[0xF0, 0x0F]), Ok(Read { value: -1.0, raw: 0xFF }));
    }

    #[test]
    fn an_encoding_that_makes_no_sense_is_refused() {
        let cases = [
            (Encoding { length: 0, ..BYTE }, EncodingError::Length { length: 0 }),
            (Encoding { length: 5, ..BYTE }, EncodingError::Length { length: 5 }),
            (Encoding { scale: 0.0, ..BYTE }, EncodingError::Scale),
            (Encoding { offset: f64::NAN, ..BYTE }, EncodingError::Scale),
            (
                Encoding { bits: Some((1, 8)), ..BYTE },
                EncodingError::Bits { offset: 1, length: 8, within: 8 },
            ),
            (
                Encoding { bits: Some((0, 0)), ..BYTE },
                EncodingError::Bits { offset: 0, length: 0, within: 8 },
            ),
            (
                Encoding { bits: Some((255, 255)), ..BYTE },
                EncodingError::Bits { offset: 255, length: 255, within: 8 },
            ),
        ];
        for (encoding, want) in cases {
            assert_eq!(encoding.check(), Err(want));
            assert_eq!(encoding.read(&[0; 8]), Err(DecodeError::Encoding(want)));
            assert_eq!(encoding.write(0.0), Err(want));
        }
    }

    #[test]
    fn a_value_outside_the_range_is_refused_and_not_clipped() {
        assert_eq!(BYTE.write(215.0), Ok(alloc::vec![0xFF]));
        assert_eq!(
            BYTE.write(216.0),
            Err(EncodingError::OutOfRange { value: 216.0, low: -40.0, high: 215.0 })
        );
        assert!(BYTE.write(f64::NAN).is_err());
        let falling = Encoding { scale: -1.0, offset: 150.0, ..BYTE };
        assert_eq!(falling.write(-105.0), Ok(alloc::vec![0xFF]));
        assert_eq!(falling.read(&[0x46]).map(|read| read.value), Ok(80.0));
    }

    #[test]
    fn spn_177_gives_the_two_worked_temperatures_and_no_value_for_the_error_codes() {
        // Worked in NOTES.md of the reference: 80 degC is 20 2C, 40 degC is 20 27 in bytes 5 and 6.
        assert_eq!(spn_177(&[0, 0, 0, 0, 0x20, 0x2C, 0, 0]).map(|read| read.value), Ok(80.0));
        assert_eq!(spn_177(&[0, 0, 0, 0, 0x20, 0x27, 0, 0]).map(|read| read.value), Ok(40.0));
        for raw in [[0x00, 0xFF], [0xFF, 0xFF], [0x00, 0xFE], [0xFF, 0xFE], [0x00, 0xFB]] {
            assert!(matches!(
                spn_177(&[0, 0, 0, 0, raw[0], raw[1], 0, 0]),
                Err(DecodeError::NotAvailable { .. })
            ));
        }
        assert_eq!(spn_177(&[0; 5]), Err(DecodeError::ShortPayload { want: 6, got: 5 }));
    }
}
