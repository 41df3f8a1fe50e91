//! One request and its reply: what has come of it, and how long it may take still.
//!
//! In: the unfinished text as it grows. Out: [`Word`]s in it, and a later limit. Not here: who reads the reply (`phase/`).
//! Method: section 9 of the dialect reference.

use std::time::Duration;

use units::Mono;

use super::text;
use crate::codec::{Echo, Reply};
use crate::command::{Command, Line};

/// One request under way.
#[derive(Debug)]
pub(super) struct Exchange {
    pub(super) command: Command,
    pub(super) line: Line,
    pub(super) sent: Mono,
    /// Whether the control unit asked for more time.
    pub(super) pending: bool,
    /// How much of the unfinished reply has been looked at for words that extend the limit.
    seen: usize,
    /// When the first line of data came.
    data_from: Option<Mono>,
}

/// A reply with its prompt, for the phase that waits for it.
#[derive(Debug)]
pub(super) struct Complete<'a> {
    pub(super) exchange: &'a Exchange,
    /// Without the request that was typed back.
    pub(super) reply: &'a Reply,
    pub(super) echo: Echo,
}

/// A reply without its prompt, or text that belongs to nobody.
#[derive(Debug, Clone, Copy)]
pub(super) struct Unfinished<'a> {
    pub(super) text: &'a [u8],
    /// Bytes that no adapter says came with it.
    pub(super) noise: bool,
}

/// What an unfinished reply says of its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
    /// The adapter looks for the protocol.
    Searching,
    /// It wakes the bus.
    BusInit,
    /// The control unit asks for more time.
    Pending,
    /// Data have come.
    Data,
}

/// When the time of an exchange is over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Limit {
    /// Then, or later if that was said already.
    AtLeast(Mono),
    /// Then.
    At(Mono),
}

/// What an adapter needs between two lines of data.
#[derive(Debug, Clone, Copy)]
pub(super) struct Patience {
    /// What it waits for a further answer.
    pub(super) wait: Duration,
    /// Its prompts are late.
    pub(super) late: bool,
}

/// The limit of a reply that began with `SEARCHING`.
/// Source: common practice; with less a first search breaks off on vehicles that are well (reports ELMduino #60, #146).
const SEARCHING: Duration = Duration::from_secs(30);
/// From a line of data to the next one or to the prompt there is twice the adapter's wait and so much for the link; and
/// this at least, since a search waits longer.
/// Own choice: shorter takes a reply over a slow radio for lost, longer costs each lost prompt as much (5,000 cells of
/// docs/adapters.md).
const TAIL_LINK: Duration = Duration::from_millis(500);
const TAIL_LEAST: Duration = Duration::from_millis(1_000);
/// However many lines come, from the first one on this is the end.
/// Own choice: 4 KiB at 9600 bit/s take 4.3 s; less would cut the longest reply on the slowest wire.
const TAIL_ALL: Duration = Duration::from_secs(8);
/// And this from the request on, whatever came, so that [`Driver::SPEAKS_WITHIN`](super::Driver::SPEAKS_WITHIN) holds.
/// Own choice: the longest limit of one exchange (30 s) and a tail; less would cut a search, more breaks that promise.
const ALL: Duration = Duration::from_secs(33);
/// The limit of a reply that began with `BUS INIT`.
/// Source: common practice, no source: the start-up at 5 baud takes 2 to 3 s (ISO 9141-2, from memory), and some need
/// more than one.
const BUS_INIT: Duration = Duration::from_secs(10);
/// From one "response pending" to the next sign of life.
/// Source: 5 s by ISO 14229-2 and the data sheet, page 45, and half a second for the link.
const PENDING: Duration = Duration::from_millis(5_500);
/// However often a control unit asks for more time, this is the end.
/// Own choice: as long as a search; one that asks for ever must not keep the other requests from their turn.
const PENDING_ALL: Duration = Duration::from_secs(30);
/// A word may be cut between two reads: so many bytes that were looked at are looked at again.
/// Own choice: `7F 01 78` behind a header of four bytes has 23 characters with its spaces; with fewer a word cut in two
/// is missed.
const AGAIN: usize = 24;

impl Exchange {
    pub(super) const fn new(command: Command, line: Line, sent: Mono) -> Self {
        Self { command, line, sent, pending: false, seen: 0, data_from: None }
    }

    /// The word that `text`, all that has come so far, says anew.
    pub(super) fn word(&mut self, text: &[u8]) -> Option<Word> {
        let fresh = text.get(self.seen.saturating_sub(AGAIN)..).unwrap_or_default();
        self.seen = text.len();
        let ask = self.command.ask();
        if text::holds(fresh, b"SEARCHING") {
            Some(Word::Searching)
        } else if text::holds(fresh, b"BUSINIT") {
            Some(Word::BusInit)
        } else if ask.is_some_and(|ask| text::holds_pending(fresh, ask)) {
            self.pending = true;
            Some(Word::Pending)
        } else if ask.is_some() && !self.pending && text::ends_with_data(text) {
            Some(Word::Data)
        } else {
            None
        }
    }

    /// Until when `word`, which came now, lets the reply take.
    pub(super) fn limit(&mut self, word: Word, patience: Patience, now: Mono) -> Limit {
        match word {
            Word::Searching => Limit::AtLeast(self.sent.after(SEARCHING)),
            Word::BusInit => Limit::AtLeast(self.sent.after(BUS_INIT)),
            Word::Pending => Limit::AtLeast(now.after(PENDING).min(self.sent.after(PENDING_ALL))),
            // From here on only the adapter's own waiting is left, whatever the limit was extended for, and each line
            // begins it anew.
            Word::Data => {
                let tail = (2 * patience.wait + TAIL_LINK).max(TAIL_LEAST);
                let tail = if patience.late { tail * 2 } else { tail };
                let first = *self.data_from.get_or_insert(now);
                Limit::At(now.after(tail).min(first.after(TAIL_ALL)).min(self.sent.after(ALL)))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use frames::Ask;

    use super::*;

    fn asked(command: Command) -> Exchange {
        Exchange::new(command, command.line(), Mono::from_millis(1_000))
    }

    const COOLANT: Command = Command::Read(Ask::Current(0x05));

    #[test]
    fn a_word_is_found_once_even_if_it_is_cut() {
        type Case<'a> = (&'a str, &'a [&'a [u8]], &'a [Option<Word>]);
        let cases: &[Case] = &[
            ("whole", &[b"SEARCHING..."], &[Some(Word::Searching)]),
            ("cut", &[b"SEAR", b"SEARCHING."], &[None, Some(Word::Searching)]),
            ("with dots", &[b"BUS INIT: ...OK\r"], &[Some(Word::BusInit)]),
            ("more time", &[b"7E8 03 7F 01 78 \r"], &[Some(Word::Pending)]),
            ("of another service", &[b"7E8 03 7F 22 78 \r"], &[Some(Word::Data)]),
            ("data", &[b"7E803", b"7E80341057B\r"], &[None, Some(Word::Data)]),
            ("no data", &[b"UNABLE\r"], &[None]),
        ];
        for (what, texts, want) in cases {
            let mut exchange = asked(COOLANT);
            let words: Vec<_> = texts.iter().map(|text| exchange.word(text)).collect();
            assert_eq!(words, *want, "{what}");
        }
    }

    #[test]
    fn each_word_gives_its_own_time_and_none_goes_on_for_ever() {
        let patience = Patience { wait: Duration::from_millis(205), late: false };
        let at =
            |exchange: &mut Exchange, word, ms| match exchange.limit(word, patience, Mono::from_millis(ms)) {
                Limit::AtLeast(at) | Limit::At(at) => at.as_millis(),
            };
        let mut exchange = asked(COOLANT);
        assert_eq!(at(&mut exchange, Word::Searching, 2_000), 31_000);
        assert_eq!(at(&mut exchange, Word::BusInit, 2_000), 11_000);
        assert_eq!(at(&mut exchange, Word::Pending, 2_000), 7_500);
        assert_eq!(at(&mut exchange, Word::Pending, 30_000), 31_000, "however often");
        assert_eq!(at(&mut exchange, Word::Data, 2_000), 3_000);
        assert_eq!(at(&mut exchange, Word::Data, 9_500), 10_000, "8 s from the first line");
        let late = Patience { late: true, ..patience };
        assert_eq!(
            asked(COOLANT).limit(Word::Data, late, Mono::from_millis(2_000)),
            Limit::At(Mono::from_millis(4_000))
        );
    }
}
