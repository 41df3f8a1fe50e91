//! How a value becomes bytes: the temperature encodings of the reference, and plain counts.
//!
//! In: a value. Out: bytes, big end first, held inside what they can say.

use crate::dice::Dice;
use crate::sensors::Counting;

/// How one field is coded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coding {
    /// Its name in `temp_encodings.csv`; `plain` for what is no temperature.
    pub name: &'static str,
    /// 1 or 2.
    pub bytes: u8,
    /// Two's complement.
    pub signed: bool,
    /// For one count.
    pub scale: f64,
    /// At count 0.
    pub offset: f64,
    /// To the nearest count, or the one below.
    pub counting: Counting,
}

impl Coding {
    /// Every row of the reference.
    pub fn all() -> Vec<Self> {
        REFERENCE.lines().skip(1).filter_map(Self::row).collect()
    }

    /// One of them.
    pub(super) fn draw(dice: &mut Dice, counting: Counting) -> Self {
        let all = Self::all();
        dice.pick(&all).map_or(Self::plain(1, 1.0, 0.0), |coding| Self { counting, ..*coding })
    }

    /// A count of something that is no temperature.
    pub(super) const fn plain(bytes: u8, scale: f64, offset: f64) -> Self {
        Self { name: "plain", bytes, signed: false, scale, offset, counting: Counting::Rounded }
    }

    /// Adds the value.
    pub(super) fn write(&self, value: f64, bytes: &mut Vec<u8>) {
        let exact = (value - self.offset) / self.scale;
        let count = match self.counting {
            Counting::Rounded => exact.round(),
            Counting::Truncated => exact.floor(),
        };
        let (low, high) = match (self.bytes, self.signed) {
            (1, false) => (0.0, 255.0),
            (1, true) => (-128.0, 127.0),
            (_, false) => (0.0, 65_535.0),
            (_, true) => (-32_768.0, 32_767.0),
        };
        let count = count.clamp(low, high) as i32;
        let [_, _, a, b] = count.to_be_bytes();
        if self.bytes == 1 { bytes.push(b) } else { bytes.extend([a, b]) }
    }

    /// The bytes of a value.
    pub fn bytes_of(&self, value: f64) -> Vec<u8> {
        let mut bytes = Vec::new();
        self.write(value, &mut bytes);
        bytes
    }

    /// The value that its bytes say.
    pub fn read(&self, bytes: &[u8]) -> Option<f64> {
        let count = match (self.bytes, self.signed, bytes) {
            (1, false, [a, ..]) => i32::from(*a),
            (1, true, [a, ..]) => i32::from(*a as i8),
            (2, false, [a, b, ..]) => i32::from(u16::from_be_bytes([*a, *b])),
            (2, true, [a, b, ..]) => i32::from(i16::from_be_bytes([*a, *b])),
            _ => return None,
        };
        Some(f64::from(count) * self.scale + self.offset)
    }

    /// A line of the reference; its last cells may hold commas, these do not. The exact scale of °F is not in the line.
    fn row(line: &'static str) -> Option<Self> {
        let mut cells = line.split(',');
        let (name, bytes, _order, sign) = (cells.next()?, cells.next()?, cells.next()?, cells.next()?);
        let mut rest = cells.skip(1);
        let (scale, offset, unit): (f64, f64, _) =
            (rest.next()?.parse().ok()?, rest.next()?.parse().ok()?, rest.next()?);
        let (scale, offset) =
            if unit == "degF" { (scale / 1.8, (offset - 32.0) / 1.8) } else { (scale, offset) };
        let counting = Counting::Rounded;
        Some(Self { name, bytes: bytes.parse().ok()?, signed: sign == "signed", scale, offset, counting })
    }
}

const REFERENCE: &str = include_str!("../../../../fixtures/reference/obd/temp_encodings.csv");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_the_reference_writes_and_reads() {
        let all = Coding::all();
        assert_eq!(all.len(), 31);
        for coding in all {
            for celsius in [20.0, 40.0, 61.0] {
                let mut bytes = Vec::new();
                coding.write(celsius, &mut bytes);
                assert_eq!(bytes.len(), usize::from(coding.bytes), "{}", coding.name);
                let back = coding.read(&bytes).unwrap();
                assert!((back - celsius).abs() <= coding.scale.abs() / 2.0 + 1e-9, "{} {back}", coding.name);
            }
        }
    }
}
