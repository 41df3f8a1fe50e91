//! One line of text to hexadecimal digits, and what the blanks between them say about its form.
//!
//! In: text and where the line begins. Out: its digits, the lengths of its groups, where it ends, and the
//! first byte that is no digit. Not here: what the digits mean (`wire.rs`), texts of the adapter
//! (`status.rs`).
//!
//! Two forms exist. Spaced: groups of two digits, a first group of three for an 11-bit identifier, a lone
//! digit for the length (`ATD1`). Compact: no blanks, or stray ones that mean nothing, known by a group
//! longer than three digits.

use crate::text::hex::{self, BLANK, END, NUL, PROMPT};

/// The longest line that can carry an answer.
/// Source: ISO 14230-2: 4 header bytes, 255 data bytes, a checksum.
pub(crate) const MAX_DIGITS: usize = 2 * (4 + 255 + 1);

/// What a pass over one line found.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scan {
    /// How many digits there are; more than the buffer holds are counted but not kept.
    pub(crate) digits: usize,
    /// Digits in the first group.
    pub(crate) first: usize,
    /// Digits in the longest group.
    pub(crate) longest: usize,
    /// How many groups after the first do not have two digits.
    pub(crate) uneven: usize,
    /// Digits before the last such group, and in it.
    pub(crate) odd_group: (usize, usize),
    /// Where the line ends: at its end mark, the prompt, or the end of the text.
    pub(crate) end: usize,
    /// The first byte that belongs to no data line, if there is one; the rest is then not scanned.
    pub(crate) foreign: Option<usize>,
}

impl Scan {
    /// Whether blanks separate bytes. Otherwise they mean nothing.
    pub(crate) fn is_spaced(&self) -> bool {
        self.longest <= 3
    }
}

/// Reads the digits of the line that begins at `start` into `out`, one to a byte.
#[inline]
pub(crate) fn scan(text: &[u8], start: usize, out: &mut [u8]) -> Scan {
    let mut scan = Scan {
        digits: 0,
        first: 0,
        longest: 0,
        uneven: 0,
        odd_group: (0, 0),
        end: text.len(),
        foreign: None,
    };
    let mut group = 0;
    for (at, &byte) in text.iter().enumerate().skip(start) {
        let class = hex::class(byte);
        if class < 16 {
            if let Some(slot) = out.get_mut(scan.digits) {
                *slot = class;
            }
            scan.digits += 1;
            group += 1;
        } else if class == BLANK {
            scan.close(group);
            group = 0;
        } else if class == END || class == PROMPT {
            scan.end = at;
            break;
        } else if class != NUL {
            scan.foreign = Some(at);
            break;
        }
    }
    scan.close(group);
    scan
}

impl Scan {
    #[inline]
    fn close(&mut self, group: usize) {
        if group == 0 {
            return;
        }
        if self.first == 0 {
            self.first = group;
        } else if group != 2 {
            self.uneven += 1;
            self.odd_group = (self.digits - group, group);
        }
        self.longest = self.longest.max(group);
    }
}

/// Joins pairs of digits to bytes in `out`; the bytes, or `None` if their number is odd or `out` too short.
#[inline]
pub(crate) fn join<'b>(digits: &[u8], out: &'b mut [u8]) -> Option<&'b [u8]> {
    if digits.len() % 2 == 1 {
        return None;
    }
    let bytes = out.get_mut(..digits.len() / 2)?;
    for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
        if let [high, low] = pair {
            *byte = high << 4 | low;
        }
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scanned(text: &[u8]) -> Scan {
        scan(text, 0, &mut [0; 64])
    }

    #[test]
    fn groups_tell_the_spaced_form_from_the_compact_one() {
        assert!(scanned(b"7E8 03 41 05 7B \r").is_spaced());
        assert!(!scanned(b"7E80341057B\r").is_spaced());
        assert!(!scanned(b"18DAF11103410 57B\r").is_spaced());
        let odd = scanned(b"7E8 8 03 41 05 7B\r");
        assert_eq!((odd.first, odd.uneven, odd.odd_group), (3, 1, (3, 1)));
    }

    #[test]
    fn a_line_ends_at_its_end_mark_the_prompt_or_the_end() {
        assert_eq!(scanned(b"41 05\r7B").end, 5);
        assert_eq!(scanned(b"41 05>").end, 5);
        assert_eq!(scanned(b"41 05").end, 5);
        assert_eq!(scanned(b"41 0G 7B\r").foreign, Some(4));
        assert_eq!(scanned(b"41\0 0\x005\r").digits, 4);
    }

    #[test]
    fn digits_that_do_not_fit_are_counted_and_not_kept() {
        let mut out = [0; 4];
        assert_eq!(scan(b"123456", 0, &mut out).digits, 6);
        assert_eq!(out, [1, 2, 3, 4]);
    }
}
