//! The shape of a row of the tables and how one field is read and written by it. One reader for all rows.
//!
//! In: a payload (the bytes after the echo). Out: a [`Value`], or the raw integer put back into its place.
//! Not here: the rows (`current.rs`), which payload belongs to which row (`decode.rs`).

use crate::answer::code::Code;
use crate::table::value::{Bits, Datum, IdSet, Unit, Value};
use crate::text::words;

/// One identifier: how long its payload is and what stands in it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Row {
    /// The identifier.
    pub(crate) id: u8,
    /// The shortest payload that an edition of the standard gives it, in bytes.
    pub(crate) shortest: u8,
    /// The longest one.
    pub(crate) longest: u8,
    /// The name, where the identifier is known but its layout is not; else `None`.
    pub(crate) opaque: Option<&'static str>,
    /// The fields; empty where the layout is not known.
    pub(crate) fields: &'static [Field],
}

/// One field of a payload.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Field {
    /// The SAE term in kebab case.
    pub(crate) name: &'static str,
    /// Where it stands.
    pub(crate) bits: Bits,
    /// The unit of its number.
    pub(crate) unit: Unit,
    /// How far the row is to be trusted.
    pub(crate) trust: Trust,
    kind: Kind,
    /// The bit that says whether it is supported.
    when: Option<u16>,
    /// The bit, and what it must be, that selects this meaning of the place.
    selected: Option<(u16, bool)>,
}

/// How many independent sources agree on a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trust {
    /// From memory of the standard, checked against nothing.
    Memory,
    /// One source.
    Single,
    /// Two or more sources.
    Agreed,
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    /// value = raw * num / den + add
    Number {
        num: u32,
        den: u32,
        add: i32,
    },
    /// The same with the raw integer in two's complement.
    Signed {
        num: u32,
        den: u32,
        add: i32,
    },
    Flag,
    Word(&'static [words::Word]),
    Ids,
    Code,
}

pub(crate) const fn row(id: u8, shortest: u8, longest: u8, fields: &'static [Field]) -> Row {
    Row { id, shortest, longest, opaque: None, fields }
}

pub(crate) const fn opaque(id: u8, shortest: u8, longest: u8, name: &'static str) -> Row {
    Row { id, shortest, longest, opaque: Some(name), fields: &[] }
}

const fn field(name: &'static str, offset: u16, length: u16, kind: Kind, unit: Unit) -> Field {
    Field {
        name,
        bits: Bits { offset, length },
        unit,
        trust: Trust::Agreed,
        kind,
        when: None,
        selected: None,
    }
}

#[rustfmt::skip]
pub(crate) const fn number(name: &'static str, offset: u16, length: u16, num: u32, den: u32, add: i32, unit: Unit) -> Field {
    field(name, offset, length, Kind::Number { num, den, add }, unit)
}

#[rustfmt::skip]
pub(crate) const fn signed(name: &'static str, offset: u16, length: u16, num: u32, den: u32, add: i32, unit: Unit) -> Field {
    field(name, offset, length, Kind::Signed { num, den, add }, unit)
}

pub(crate) const fn flag(name: &'static str, offset: u16) -> Field {
    field(name, offset, 1, Kind::Flag, Unit::Bit)
}

pub(crate) const fn word(
    name: &'static str,
    offset: u16,
    length: u16,
    words: &'static [words::Word],
) -> Field {
    field(name, offset, length, Kind::Word(words), Unit::Enum)
}

pub(crate) const fn ids(name: &'static str) -> Field {
    field(name, 0, 32, Kind::Ids, Unit::BitList)
}

pub(crate) const fn code(name: &'static str, offset: u16) -> Field {
    field(name, offset, 16, Kind::Code, Unit::Dtc)
}

impl Field {
    /// Supported only when bit `bit` of data byte A (0 is the least significant) is set.
    pub(crate) const fn when(mut self, bit: u16) -> Self {
        self.when = Some(7 - bit);
        self
    }

    /// Not there when bit `bit` of data byte A is set, because the place then has another meaning.
    pub(crate) const fn unless(mut self, bit: u16) -> Self {
        self.selected = Some((7 - bit, false));
        self
    }

    /// There only when the bit at `offset` is `set`, because the place otherwise has another meaning.
    pub(crate) const fn selected_by(mut self, offset: u16, set: bool) -> Self {
        self.selected = Some((offset, set));
        self
    }

    /// One source only.
    pub(crate) const fn single(mut self) -> Self {
        self.trust = Trust::Single;
        self
    }

    /// From memory only.
    pub(crate) const fn memory(mut self) -> Self {
        self.trust = Trust::Memory;
        self
    }

    /// Whether the payload gives the place this meaning.
    #[inline]
    pub(crate) fn exists(&self, payload: &[u8]) -> bool {
        self.selected.is_none_or(|(bit, set)| is_set(payload, bit) == set)
    }

    /// Whether the payload marks the field as present.
    #[inline]
    pub(crate) fn supported(&self, payload: &[u8]) -> bool {
        self.when.is_none_or(|bit| is_set(payload, bit)) && self.exists(payload)
    }

    /// The field read from `payload`; `None` if it is supported and the payload does not reach it.
    #[inline]
    pub(crate) fn read(&self, payload: &[u8], id: u8) -> Option<Value> {
        let raw = raw_bits(payload, self.bits);
        let supported = self.supported(payload);
        let (value, raw) = match (supported, raw) {
            (false, raw) => (Datum::Absent, raw.unwrap_or(0)),
            (true, Some(raw)) => (self.datum(raw, id), raw),
            (true, None) => return None,
        };
        Some(Value { name: self.name, value, unit: self.unit, raw, bits: self.bits, supported })
    }

    #[inline]
    fn datum(&self, raw: u64, id: u8) -> Datum {
        match self.kind {
            Kind::Number { num, den, add } => Datum::Number(linear(raw as f64, num, den, add)),
            Kind::Signed { num, den, add } => {
                Datum::Number(linear(self.two_complement(raw) as f64, num, den, add))
            }
            Kind::Flag => Datum::Flag(raw != 0),
            Kind::Word(words) => Datum::Word(words::word(words, raw)),
            Kind::Ids => Datum::Ids(IdSet { base: id, bits: raw as u32 }),
            Kind::Code => Code::from_raw(raw as u16).map_or(Datum::Word("none"), Datum::Code),
        }
    }

    fn two_complement(&self, raw: u64) -> i64 {
        sign_extend(raw, self.bits.length)
    }

    /// Whether it is a number with a unit, not a bit, a word, a code or a bitmap.
    pub(crate) const fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number { .. } | Kind::Signed { .. })
    }

    /// The smallest and the largest value it can carry, in its unit.
    pub(crate) fn range(&self) -> (f64, f64) {
        let top = mask(self.bits.length);
        match self.kind {
            Kind::Number { num, den, add } => (linear(0.0, num, den, add), linear(top as f64, num, den, add)),
            Kind::Signed { num, den, add } => {
                let half = (top / 2) as f64;
                (linear(-half - 1.0, num, den, add), linear(half, num, den, add))
            }
            _ => (0.0, top as f64),
        }
    }

    /// Puts `value` (in its unit; the raw number where it has none) into `payload`, and sets its support bit.
    ///
    /// Rounds to the nearest step, halves away from zero. `None` outside the range or the payload.
    pub(crate) fn write(&self, value: f64, payload: &mut [u8]) -> Option<()> {
        let (low, high) = self.range();
        let (num, den, add) = match self.kind {
            Kind::Number { num, den, add } | Kind::Signed { num, den, add } => (num, den, add),
            _ => (1, 1, 0),
        };
        let half_a_step = f64::from(num) / f64::from(den) / 2.0;
        if !(low - half_a_step..high + half_a_step).contains(&value) {
            return None;
        }
        let raw = round((value - f64::from(add)) * f64::from(den) / f64::from(num));
        let raw = if low < 0.0 && matches!(self.kind, Kind::Signed { .. }) {
            raw
        } else {
            raw.clamp(0, mask(self.bits.length) as i64)
        };
        put_bits(payload, self.bits, raw as u64 & mask(self.bits.length))?;
        if let Some(bit) = self.when {
            put_bits(payload, Bits { offset: bit, length: 1 }, 1)?;
        }
        if let Some((bit, true)) = self.selected {
            put_bits(payload, Bits { offset: bit, length: 1 }, 1)?;
        }
        Some(())
    }
}

#[inline]
fn linear(raw: f64, num: u32, den: u32, add: i32) -> f64 {
    raw * f64::from(num) / f64::from(den) + f64::from(add)
}

/// To the nearest integer, halves away from zero; the caller has checked the range.
pub(crate) fn round(value: f64) -> i64 {
    (value + if value < 0.0 { -0.5 } else { 0.5 }) as i64
}

pub(crate) const fn mask(length: u16) -> u64 {
    if length >= 64 { u64::MAX } else { (1 << length) - 1 }
}

pub(crate) const fn sign_extend(raw: u64, length: u16) -> i64 {
    if length == 0 || length >= 64 {
        return raw as i64;
    }
    let unused = 64 - length as u32;
    (raw << unused) as i64 >> unused
}

#[inline]
fn is_set(payload: &[u8], bit: u16) -> bool {
    raw_bits(payload, Bits { offset: bit, length: 1 }) == Some(1)
}

/// The unsigned integer at `bits` (at most 56 of them, or 64 when they begin on a byte), most significant bit
/// first.
#[inline]
pub(crate) fn raw_bits(payload: &[u8], bits: Bits) -> Option<u64> {
    let (first, end) = (usize::from(bits.offset), usize::from(bits.offset) + usize::from(bits.length));
    let bytes = payload.get(first / 8..end.div_ceil(8))?;
    let all = bytes.iter().fold(0_u64, |all, byte| all << 8 | u64::from(*byte));
    Some(all >> (end.div_ceil(8) * 8 - end) & mask(bits.length))
}

/// Writes `raw` to `bits` and leaves the other bits alone.
pub(crate) fn put_bits(payload: &mut [u8], bits: Bits, raw: u64) -> Option<()> {
    for place in 0..bits.length {
        let bit = usize::from(bits.offset + place);
        let byte = payload.get_mut(bit / 8)?;
        let mask = 0x80 >> (bit % 8);
        if raw >> (bits.length - 1 - place) & 1 == 1 { *byte |= mask } else { *byte &= !mask }
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bits_are_counted_from_the_most_significant_bit_of_the_first_byte() {
        let payload = [0b1000_0001, 0b0101_1010, 0xFF];
        let cases =
            [((0, 1), 1), ((7, 1), 1), ((1, 7), 1), ((4, 8), 0b0001_0101), ((0, 24), 0x815AFF), ((8, 4), 5)];
        for ((offset, length), want) in cases {
            assert_eq!(raw_bits(&payload, Bits { offset, length }), Some(want), "{offset} {length}");
        }
        assert_eq!(raw_bits(&payload, Bits { offset: 17, length: 8 }), None);
    }

    #[test]
    fn bits_put_are_bits_got() {
        let mut payload = [0xFF; 4];
        put_bits(&mut payload, Bits { offset: 5, length: 13 }, 0x0AAA).unwrap();
        assert_eq!(raw_bits(&payload, Bits { offset: 5, length: 13 }), Some(0x0AAA));
        assert_eq!(raw_bits(&payload, Bits { offset: 0, length: 5 }), Some(0x1F));
        assert_eq!(put_bits(&mut payload, Bits { offset: 30, length: 3 }, 0), None);
    }

    #[test]
    fn the_sign_is_the_first_bit_of_the_field() {
        assert_eq!(sign_extend(0xFFFF, 16), -1);
        assert_eq!(sign_extend(0x8000, 16), -32_768);
        assert_eq!(sign_extend(0x7FFF, 16), 32_767);
        assert_eq!(sign_extend(0x8, 4), -8);
    }
}
