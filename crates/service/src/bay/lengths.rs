//! How long the answer with the signal is: one of another length has its bytes elsewhere, and is no reading.
//!
//! Where the sheet does not say (`identifier.bytes`), the length of the first answer is kept to; one that has truly become
//! another is believed after a while, since nothing would be read for good otherwise. In: lengths of answers, in their order.
//! Out: whether such an answer is read. Pure. Not here: what the bytes mean (`translate.rs`). Ours.

use frames::Ask;

/// So many answers of another length in a row, and that is how long it is.
/// Own choice: the signal is asked twice a second, so 10 s: twice as long as the simulated spells; shorter believes a
/// spell, longer keeps a sheet without `bytes` from `go`.
const BELIEVED: u8 = 20;

/// The length that is kept to, and the one that came instead.
#[derive(Debug, Default)]
pub(super) struct Lengths {
    kept: Option<(Ask, usize)>,
    other: usize,
    times: u8,
}

impl Lengths {
    /// An answer to `ask` with `length` bytes; the length that it should have, if it has another.
    pub(super) fn hear(&mut self, ask: Ask, length: usize) -> Option<usize> {
        match self.kept {
            Some((of, kept)) if of == ask && kept != length => {
                self.times = if self.other == length { self.times.saturating_add(1) } else { 1 };
                self.other = length;
                if self.times < BELIEVED {
                    return Some(kept);
                }
                self.keep(ask, length)
            }
            _ => self.keep(ask, length),
        }
    }

    const fn keep(&mut self, ask: Ask, length: usize) -> Option<usize> {
        (self.kept, self.other, self.times) = (Some((ask, length)), 0, 0);
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ASK: Ask = Ask::Identifier(0x4D07);

    /// Whether each is read.
    fn read(lengths: &mut Lengths, all: &[usize]) -> Vec<bool> {
        all.iter().map(|length| lengths.hear(ASK, *length).is_none()).collect()
    }

    #[test]
    fn the_length_of_the_first_answer_is_kept_to() {
        let mut lengths = Lengths::default();
        assert_eq!(read(&mut lengths, &[4, 4, 5, 5, 4, 3, 4]), [true, true, false, false, true, false, true]);
        assert_eq!(lengths.hear(ASK, 5), Some(4), "it says which it should be");
        assert_eq!(lengths.hear(Ask::Identifier(0x4D08), 5), None, "another request has another");
    }

    #[test]
    fn a_length_that_stays_another_is_believed_after_a_while_and_spells_are_not() {
        let mut lengths = Lengths::default();
        read(&mut lengths, &[4]);
        assert_eq!(read(&mut lengths, &[5; 19]), [false; 19]);
        assert_eq!(read(&mut lengths, &[4]), [true], "the spell is over");
        assert_eq!(read(&mut lengths, &[5; 19]), [false; 19]);
        assert_eq!(read(&mut lengths, &[6]), [false], "of two others none is believed sooner");
        assert_eq!(read(&mut lengths, &[5; 19]), [false; 19]);
        assert_eq!(read(&mut lengths, &[5, 5, 4]), [true, true, false], "this is how long it is");
    }
}
