//! A fast hash for the search: it asks for that of a whole state some million times, which is half a hundred fields each.
//!
//! In: what a state is made of. Out: 64 bits of it. Not here: safety against somebody who chooses the states; nobody does.
//! Small values are packed eight to a word, each so that no two different states are packed alike; every round turns both the word and
//! what was before it one to one, so two states meet only by chance: with 80,000 of one procedure once in some billion runs.

use std::hash::{BuildHasherDefault, Hasher};

/// What is needed of a set that hashes so.
pub(crate) type Seen = std::collections::HashSet<u64, BuildHasherDefault<Mixed>>;

/// See the module's words.
#[derive(Default)]
pub(crate) struct Mixed {
    state: u64,
    /// Bytes that wait until they are a word.
    word: u64,
    bytes: u32,
}

impl Mixed {
    const fn mix(state: u64, word: u64) -> u64 {
        let turned = (state ^ word).wrapping_mul(ODD);
        turned ^ (turned >> 32)
    }
}

impl Hasher for Mixed {
    fn write_u8(&mut self, byte: u8) {
        self.word = (self.word << 8) | u64::from(byte);
        self.bytes += 1;
        if self.bytes == 8 {
            self.state = Self::mix(self.state, self.word);
            (self.word, self.bytes) = (0, 0);
        }
    }

    fn write_u64(&mut self, word: u64) {
        self.state = Self::mix(self.state, word);
    }

    fn write_i32(&mut self, n: i32) {
        self.write_u64(u64::from(n.cast_unsigned()));
    }

    fn write_usize(&mut self, n: usize) {
        self.write_u64(n as u64);
    }

    /// Which variant of an enum: one byte, or all of it behind a byte that no such variant has.
    fn write_isize(&mut self, n: isize) {
        match u8::try_from(n) {
            Ok(byte) if byte < u8::MAX => self.write_u8(byte),
            _ => {
                self.write_u8(u8::MAX);
                self.write_u64(n as u64);
            }
        }
    }

    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.write_u8(*byte));
    }

    fn finish(&self) -> u64 {
        let all = Self::mix(Self::mix(self.state, self.word), u64::from(self.bytes));
        Self::mix(all, all >> 29)
    }
}

/// Odd, so that no two words are turned alike: the golden ratio's digits in binary, with no pattern of their own.
const ODD: u64 = 0x9E37_79B9_7F4A_7C15;

#[test]
fn states_that_differ_in_one_bit_are_told_apart() {
    use std::hash::Hash;
    let mut seen = Seen::default();
    // Pairs of flags, numbers and words at every place of a state that has a hundred of each.
    for place in 0..100_usize {
        for value in 1..=200_u8 {
            let mut state = ([0_u8; 100], [0_i32; 100], [None::<u8>; 100]);
            for kind in 0..3 {
                match kind {
                    0 => state.0[place] = value,
                    1 => (state.0[place], state.1[place]) = (0, i32::from(value)),
                    _ => (state.1[place], state.2[place]) = (0, Some(value)),
                }
                let mut hasher = Mixed::default();
                state.hash(&mut hasher);
                assert!(seen.insert(hasher.finish()), "{place} {kind} {value}");
            }
        }
    }
}
