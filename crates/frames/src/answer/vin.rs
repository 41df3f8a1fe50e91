//! The vehicle identification number and the verdict on its check digit.
//!
//! A wrong check digit is a warning and no refusal: outside North America the place carries what the maker
//! likes, and the example in the adapter's own data sheet fails it. Source: 49 CFR 565 (weights,
//! transliteration), checked by `vin_vectors.csv`.

use core::fmt;

/// Seventeen characters: capital letters without I, O and Q, and digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Vin([u8; 17]);

/// Why some bytes are no vehicle identification number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum VinError {
    /// Not seventeen of them.
    #[error("a vehicle identification number has 17 characters, {got} came")]
    Length {
        /// How many came.
        got: usize,
    },
    /// One that is not allowed.
    #[error(
        "character {at} of the vehicle identification number is {byte:#04x}: only A-Z without I, O, Q and 0-9 are"
    )]
    Character {
        /// Its place, counted from 1.
        at: usize,
        /// What stood there.
        byte: u8,
    },
}

/// The verdict on the ninth character.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CheckDigit {
    /// It is what the other sixteen give.
    Valid,
    /// It is not; this would be.
    Wrong {
        /// The digit that the others give.
        want: char,
    },
    /// Seventeen zeros: the arithmetic agrees, but it is a placeholder.
    Placeholder,
}

impl CheckDigit {
    /// The verdict as a word.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Valid => "valid",
            Self::Wrong { .. } => "wrong",
            Self::Placeholder => "placeholder",
        }
    }
}

impl Vin {
    /// From the bytes of a reply or a text. Lower case is refused: it does not occur on the wire.
    ///
    /// Errors: [`VinError`]. A wrong check digit is none, see [`Vin::check_digit`].
    pub fn new(bytes: &[u8]) -> Result<Self, VinError> {
        let text = <[u8; 17]>::try_from(bytes).map_err(|_| VinError::Length { got: bytes.len() })?;
        match text.iter().enumerate().find(|(_, byte)| weight(**byte).is_none()) {
            Some((at, &byte)) => Err(VinError::Character { at: at + 1, byte }),
            None => Ok(Self(text)),
        }
    }

    /// The characters.
    pub fn as_str(&self) -> &str {
        core::str::from_utf8(&self.0).unwrap_or_default()
    }

    /// The digit that the characters give, `0`-`9` or `X`.
    pub fn computed_check_digit(&self) -> char {
        /// What each place of the number counts in its check digit.
        /// Source: 49 CFR 565.15; tested against fixtures/reference/obd/vin_vectors.csv.
        const WEIGHTS: [u32; 17] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
        let sum: u32 = self.0.iter().zip(WEIGHTS).map(|(byte, by)| weight(*byte).unwrap_or(0) * by).sum();
        char::from_digit(sum % 11, 10).unwrap_or('X')
    }

    /// Whether the ninth character is the digit that the others give.
    pub fn check_digit(&self) -> CheckDigit {
        let want = self.computed_check_digit();
        if self.0 == [b'0'; 17] {
            CheckDigit::Placeholder
        } else if self.0.get(8).is_some_and(|byte| char::from(*byte) == want) {
            CheckDigit::Valid
        } else {
            CheckDigit::Wrong { want }
        }
    }
}

impl fmt::Display for Vin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

/// What a character counts as; `None` if it is not allowed.
const fn weight(byte: u8) -> Option<u32> {
    Some(match byte {
        b'0'..=b'9' => (byte - b'0') as u32,
        b'A' | b'J' => 1,
        b'B' | b'K' | b'S' => 2,
        b'C' | b'L' | b'T' => 3,
        b'D' | b'M' | b'U' => 4,
        b'E' | b'N' | b'V' => 5,
        b'F' | b'W' => 6,
        b'G' | b'P' | b'X' => 7,
        b'H' | b'Y' => 8,
        b'R' | b'Z' => 9,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sample_of_the_regulation_has_check_digit_4() {
        // 49 CFR 565, Table V.
        let vin = Vin::new(b"1G4AH59H45G118341").unwrap();
        assert_eq!(vin.computed_check_digit(), '4');
        assert_eq!(vin.check_digit(), CheckDigit::Valid);
    }

    #[test]
    fn a_wrong_check_digit_is_a_verdict_and_no_refusal() {
        // The example in the adapter's data sheet.
        assert_eq!(Vin::new(b"1D4GP00R55B123456").unwrap().check_digit(), CheckDigit::Wrong { want: 'X' });
    }
}
