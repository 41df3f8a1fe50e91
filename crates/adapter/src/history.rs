//! The last things said on the link, with their times: what a fault report has to quote.
//!
//! In: lines written and bytes read. Out: [`Moment`]s, oldest first. Holds a fixed number of them, each of a fixed size.
//! Source: rule 16 of section 16 of the dialect reference: every useful report quotes the raw bytes.

use std::collections::VecDeque;
use std::fmt;
use std::time::Duration;

use units::Mono;

/// Who said it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// This program.
    Us,
    /// The adapter.
    Adapter,
}

/// Bytes that were said in one go, or nearly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// When the first of them was said.
    pub at: Mono,
    /// By whom.
    pub from: Side,
    bytes: [u8; Self::BYTES],
    kept: u8,
    /// How many more there were.
    pub more: u32,
}

impl Moment {
    /// So many bytes of each are kept.
    /// Own choice: a request or a line of data whole, a long reply by its beginning; 32 of them stay below 3 kB.
    pub const BYTES: usize = 48;

    /// The bytes, or the first of them.
    pub fn bytes(&self) -> &[u8] {
        self.bytes.get(..usize::from(self.kept)).unwrap_or_default()
    }

    fn add(&mut self, bytes: &[u8]) {
        let room = self.bytes.iter_mut().skip(usize::from(self.kept));
        let mut taken = 0;
        for (slot, byte) in room.zip(bytes) {
            *slot = *byte;
            taken += 1;
        }
        self.kept += taken as u8;
        self.more = self.more.saturating_add((bytes.len() - taken) as u32);
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = match self.from {
            Side::Us => "sent",
            Side::Adapter => "came",
        };
        write!(f, "{} {side} {}", self.at, self.bytes().escape_ascii())?;
        if self.more > 0 { write!(f, " and {} bytes more", self.more) } else { Ok(()) }
    }
}

/// The last [`History::MOMENTS`] moments.
#[derive(Debug, Default)]
pub struct History(VecDeque<Moment>);

impl History {
    /// So many are kept.
    /// Own choice: sixteen exchanges, what led to a loss; a fault report quotes twelve moments at most.
    pub const MOMENTS: usize = 32;
    /// Pieces of a reply that come closer together than this are one moment.
    /// Own choice: a wire delivers pieces within 16 ms; a request and its reply must not become one.
    const TOGETHER: Duration = Duration::from_millis(50);

    /// All of them, oldest first.
    pub fn iter(&self) -> impl Iterator<Item = &Moment> {
        self.0.iter()
    }

    pub(crate) fn note(&mut self, from: Side, bytes: &[u8], at: Mono) {
        if let Some(last) = self.0.back_mut()
            && from == Side::Adapter
            && last.from == from
            && at.since(last.at) < Self::TOGETHER
        {
            return last.add(bytes);
        }
        if self.0.len() >= Self::MOMENTS {
            self.0.pop_front();
        }
        let mut moment = Moment { at, from, bytes: [0; Moment::BYTES], kept: 0, more: 0 };
        moment.add(bytes);
        self.0.push_back(moment);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_moments_are_kept_and_pieces_are_joined() {
        let mut history = History::default();
        history.note(Side::Us, b"0105\r", Mono::from_millis(1_000));
        history.note(Side::Adapter, b"7E8", Mono::from_millis(1_040));
        history.note(Side::Adapter, b"0341057B\r\r>", Mono::from_millis(1_041));
        history.note(Side::Adapter, &[0xFC; 100], Mono::from_millis(2_000));
        let told: Vec<_> = history.iter().map(ToString::to_string).collect();
        assert_eq!(told[..2], ["1.000 s sent 0105\\r", "1.040 s came 7E80341057B\\r\\r>"]);
        assert!(told[2].ends_with("\\xfc and 52 bytes more"), "{}", told[2]);
    }

    #[test]
    fn it_never_holds_more_than_its_limit() {
        let mut history = History::default();
        for n in 0..10_000 {
            history.note(Side::Adapter, b"noise", Mono::from_millis(n * 100));
        }
        assert_eq!(history.iter().count(), History::MOMENTS);
        assert_eq!(history.iter().last().unwrap().at, Mono::from_millis(999_900));
    }
}
