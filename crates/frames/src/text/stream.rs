//! A stream of bytes to complete replies: for text that comes in pieces of any size (a file, a pipe, a port).
//!
//! In: pieces. Out: the text of each reply up to and with its prompt, for [`crate::reply`]. The buffer has a
//! limit: a reply that is longer is dropped whole, and the next prompt begins anew. Any cut of the input
//! gives the same replies.
//! Not here: which request a reply belongs to, and time (the adapter).

use alloc::vec::Vec;

/// Cuts a stream of bytes at the prompts.
#[derive(Debug, Clone)]
pub struct Stream {
    buffer: Vec<u8>,
    limit: usize,
    dropped: usize,
}

/// What the stream was cut into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut<'a> {
    /// The text of one complete reply, with its prompt.
    Reply(&'a [u8]),
    /// A reply that was longer than the limit; this many bytes were dropped.
    TooLong(usize),
}

impl Stream {
    /// Room for the longest message that a vehicle may send (4095 bytes) in its longest form, twice.
    /// Own choice: twice the 4,095 bytes of ISO 15765-2 with headers and spaces; a stream without an end is cut there.
    pub const LIMIT: usize = 36 * 1024;

    /// A stream that keeps at most `limit` bytes of a reply; at least one.
    pub const fn new(limit: usize) -> Self {
        Self { buffer: Vec::new(), limit: if limit == 0 { 1 } else { limit }, dropped: 0 }
    }

    /// Takes the next piece; calls `each` for every reply that ends in it, in order.
    pub fn push(&mut self, piece: &[u8], mut each: impl FnMut(Cut<'_>)) {
        for part in piece.split_inclusive(|byte| *byte == b'>') {
            if self.dropped > 0 || part.len() > self.limit - self.buffer.len() {
                self.dropped += self.buffer.len() + part.len();
                self.buffer.clear();
            } else {
                self.buffer.extend_from_slice(part);
            }
            if part.last() == Some(&b'>') {
                each(if self.dropped > 0 { Cut::TooLong(self.dropped) } else { Cut::Reply(&self.buffer) });
                self.buffer.clear();
                self.dropped = 0;
            }
        }
    }

    /// What has come since the last prompt: the beginning of a reply that is not complete.
    pub fn rest(&self) -> &[u8] {
        &self.buffer
    }

    /// Forgets it, for example after a reconnect.
    pub fn clear(&mut self) {
        self.buffer.clear();
        self.dropped = 0;
    }
}

impl Default for Stream {
    fn default() -> Self {
        Self::new(Self::LIMIT)
    }
}

#[cfg(test)]
mod tests {
    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;

    fn cuts(stream: &mut Stream, piece: &[u8]) -> Vec<(bool, Vec<u8>, usize)> {
        let mut out = Vec::new();
        stream.push(piece, |cut| match cut {
            Cut::Reply(text) => out.push((true, text.to_vec(), 0)),
            Cut::TooLong(dropped) => out.push((false, Vec::new(), dropped)),
        });
        out
    }

    #[test]
    fn a_reply_beyond_the_limit_is_dropped_whole_and_the_next_prompt_begins_anew() {
        let mut stream = Stream::new(8);
        let out = cuts(&mut stream, b"41057B\r>41 05 7B 41 05 7B\r>410C1A\r>");
        let replies: Vec<_> =
            out.iter().map(|(ok, text, dropped)| (*ok, text.as_slice(), *dropped)).collect();
        assert_eq!(replies, [(true, &b"41057B\r>"[..], 0), (false, b"", 19), (true, b"410C1A\r>", 0)]);
        assert_eq!(stream.rest(), b"");
    }

    proptest! {
        #[test]
        fn any_cut_of_the_stream_gives_the_same_replies(
            bytes in vec(prop_oneof![4 => b'0'..=b'F', 1 => Just(b'>'), 1 => any::<u8>()], 0..200),
            at in 0_usize..200,
            limit in 1_usize..40,
        ) {
            let (first, second) = bytes.split_at(at.min(bytes.len()));
            let mut cut = Stream::new(limit);
            let pieces = [cuts(&mut cut, first), cuts(&mut cut, second)].concat();
            let mut whole = Stream::new(limit);
            prop_assert_eq!(pieces, cuts(&mut whole, &bytes));
            prop_assert!(cut.buffer.len() <= limit && cut.buffer.capacity() <= 2 * limit.max(8));
        }
    }
}
