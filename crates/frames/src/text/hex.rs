//! Hexadecimal digits: one table, both ways. In: bytes of text. Out: nibbles, or what the byte is instead.

/// What a byte of a data line is.
/// By definition: digits are their value; the rest are the constants below.
#[allow(clippy::indexing_slicing, reason = "computed when compiled: a wrong index does not build")]
const CLASS: [u8; 256] = {
    let mut class = [OTHER; 256];
    let mut byte = 0_usize;
    while byte < 256 {
        class[byte] = match byte as u8 {
            digit @ b'0'..=b'9' => digit - b'0',
            digit @ b'A'..=b'F' => digit - b'A' + 10,
            digit @ b'a'..=b'f' => digit - b'a' + 10,
            b' ' | b'\t' => BLANK,
            0 => NUL,
            b'\r' | b'\n' => END,
            b'>' => PROMPT,
            _ => OTHER,
        };
        byte += 1;
    }
    class
};

// By definition: above 15, so that none is a digit.
/// Space or tab.
pub(crate) const BLANK: u8 = 0x10;
/// The adapter's controller may insert a zero byte anywhere (data sheet page 9): it is as if it were not
/// there.
pub(crate) const NUL: u8 = 0x20;
/// End of a line.
pub(crate) const END: u8 = 0x40;
/// The prompt.
pub(crate) const PROMPT: u8 = 0x41;
/// Nothing that belongs into a data line.
pub(crate) const OTHER: u8 = 0x80;

/// The class of `byte`: below 16 it is a digit's value.
#[inline]
#[allow(clippy::indexing_slicing, reason = "a byte cannot be outside a table of 256")]
pub(crate) fn class(byte: u8) -> u8 {
    CLASS[byte as usize]
}

/// Whether `byte` says nothing: a blank, the end of a line, a prompt.
pub(crate) fn is_quiet(byte: u8) -> bool {
    matches!(class(byte), BLANK | END | NUL | PROMPT)
}

/// The value of one hexadecimal digit, either case.
pub(crate) fn digit(byte: u8) -> Option<u8> {
    Some(class(byte)).filter(|&value| value < 16)
}

/// Decodes `text` (blanks ignored) into `out`; the number of bytes, or `None` if odd, foreign or too long.
pub(crate) fn decode_into(text: &[u8], out: &mut [u8]) -> Option<usize> {
    let mut digits = text.iter().filter(|&&byte| class(byte) != BLANK);
    let mut count = 0;
    while let Some(&high) = digits.next() {
        let low = *digits.next()?;
        *out.get_mut(count)? = digit(high)? << 4 | digit(low)?;
        count += 1;
    }
    Some(count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_of_either_case_have_their_value() {
        for (value, pair) in
            [b"00", b"11", b"99", b"aA", b"bB", b"fF"].iter().zip([0, 1, 9, 10, 11, 15]).map(|(p, v)| (v, p))
        {
            assert_eq!(digit(pair[0]), Some(value));
            assert_eq!(digit(pair[1]), Some(value));
        }
        for foreign in [b'g', b'G', b'/', b':', b'@', b'`', 0xFF] {
            assert_eq!(digit(foreign), None);
        }
    }

    #[test]
    fn an_odd_or_foreign_or_long_text_is_refused() {
        let mut out = [0; 2];
        assert_eq!(decode_into(b"41 0c", &mut out), Some(2));
        assert_eq!(out, [0x41, 0x0C]);
        assert_eq!(decode_into(b"41 0", &mut out), None);
        assert_eq!(decode_into(b"41 0G", &mut out), None);
        assert_eq!(decode_into(b"410C1A", &mut out), None);
    }
}
