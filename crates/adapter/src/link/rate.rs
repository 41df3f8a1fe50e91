//! Which rate does the adapter run at? The order, and what counts as an answer.
//!
//! In: what came within a probe's time. Out: whether the rate is right, and if none is, what was heard instead.
//! Not here: the port (`serial.rs`). Source: section 3 of the dialect reference.

use std::time::Duration;

use super::error::WrongRate;
use crate::codec::Codec;

/// The rate of an original with its pin 6 high.
/// Source: data sheet page 8.
pub const DEFAULT_RATE: u32 = 38_400;

/// Rates in the order in which they are tried.
/// Source: 38400 and 9600 by the data sheet, page 8; the others common practice of finished devices, the commonest
/// first.
pub const RATES: &[u32] = &[DEFAULT_RATE, 115_200, 9_600, 500_000, 230_400, 57_600, 19_200];

/// Rates that may be named, in bit/s.
/// Own choice: the slowest modem to the fastest USB chips; anything else is a slip of the keyboard.
pub const RATES_ALLOWED: core::ops::RangeInclusive<u32> = 300..=4_000_000;

/// Two bytes that no command contains, so that a swallowed first byte does no harm and no old command is repeated.
pub(crate) const PROBE: &[u8] = b"\x7f\x7f\r";

/// The rate at which a probe is given longer.
/// Source: data sheet page 8: an original with its pin 6 low.
const SLOW: u32 = 9_600;
/// How long a probe waits for a prompt; longer at that rate.
/// Own choice: `?` takes some 5 ms at 9600 and 16 ms more where a chip holds it back; seven rates, two lines each, stay
/// below 4 s.
const WAIT: Duration = Duration::from_millis(250);
const WAIT_SLOW: Duration = Duration::from_millis(350);

/// The search for the rate, without a port and without a clock: what to try next, what came of it.
///
/// At each rate two lines at most are tried, seven rates take less than 4 s.
#[derive(Debug)]
pub struct RateSearch {
    rates: Vec<u32>,
    at: usize,
    again: bool,
    heard: Vec<WrongRate>,
    found: Option<u32>,
}

/// What to do next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RateStep {
    /// Set this rate, empty the input, send these bytes, and listen for so long or until a prompt comes.
    Try {
        /// In bit/s.
        rate: u32,
        /// What to send.
        send: &'static [u8],
        /// How long to listen.
        wait: Duration,
    },
    /// This is it.
    Found(u32),
    /// None of them; the most telling thing that was heard.
    None(WrongRate),
}

impl RateSearch {
    /// All usual rates, `first` (the one that this device had the last time) before the others.
    pub fn new(first: Option<u32>) -> Self {
        let others = RATES.iter().copied().filter(|rate| Some(*rate) != first);
        Self {
            rates: first.into_iter().chain(others).collect(),
            at: 0,
            again: false,
            heard: Vec::new(),
            found: None,
        }
    }

    /// What to do next.
    pub fn step(&self) -> RateStep {
        match (self.found, self.rates.get(self.at)) {
            (Some(rate), _) => RateStep::Found(rate),
            (None, Some(&rate)) => {
                RateStep::Try { rate, send: self.send(), wait: if rate <= SLOW { WAIT_SLOW } else { WAIT } }
            }
            (None, None) => RateStep::None(worst(self.heard.iter().copied())),
        }
    }

    const fn send(&self) -> &'static [u8] {
        if self.again { b" ATI\r" } else { PROBE }
    }

    /// What came of the last try.
    pub fn heard(&mut self, bytes: &[u8]) {
        match judge(bytes, self.send()) {
            Probe::Right => self.found = self.rates.get(self.at).copied(),
            Probe::AskAgain if !self.again => self.again = true,
            Probe::AskAgain => self.next(WrongRate::Noise),
            Probe::Wrong(what) => self.next(what),
        }
    }

    /// The port cannot run at that rate: an error for one must not end the search.
    pub fn skip(&mut self) {
        (self.at, self.again) = (self.at + 1, false);
    }

    fn next(&mut self, heard: WrongRate) {
        self.heard.push(heard);
        self.skip();
    }
}

/// What a probe of one rate gave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Probe {
    /// A prompt after `?` or an identification: this is the rate.
    Right,
    /// Bytes that might be an adapter's: ask ` ATI` at the same rate.
    AskAgain,
    /// Not this rate.
    Wrong(WrongRate),
}

/// Judges what came in reply to [`PROBE`] or ` ATI`.
pub(crate) fn judge(heard: &[u8], sent: &[u8]) -> Probe {
    let mut codec = Codec::default();
    let replies = codec.feed(heard);
    let known =
        |line: &[u8]| line.starts_with(b"?") || line.starts_with(b"ELM327") || line.starts_with(b"STN");
    if replies.iter().any(|reply| reply.lines().any(known)) {
        return Probe::Right;
    }
    if codec.pending().windows(5).any(|five| five == b"ERROR") {
        return Probe::Wrong(WrongRate::Modem);
    }
    let text = sent.strip_suffix(b"\r").unwrap_or(sent);
    let strip = |byte: &&u8| !matches!(**byte, b'\r' | b'\n' | b' ');
    if heard.is_empty() {
        Probe::Wrong(WrongRate::Silence)
    } else if heard.iter().filter(strip).eq(text.iter().filter(strip)) {
        Probe::Wrong(WrongRate::Loop)
    } else if !replies.is_empty()
        || heard.iter().all(|byte| byte.is_ascii_graphic() || byte.is_ascii_whitespace())
    {
        Probe::AskAgain
    } else {
        Probe::Wrong(WrongRate::Noise)
    }
}

/// Which of several wrong rates to tell about: the most telling one.
pub(crate) fn worst(heard: impl Iterator<Item = WrongRate>) -> WrongRate {
    let rank = |one: &WrongRate| match one {
        WrongRate::Silence => 0,
        WrongRate::Noise => 1,
        WrongRate::Loop => 2,
        WrongRate::Modem => 3,
    };
    heard.max_by_key(rank).unwrap_or(WrongRate::Silence)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rate_is_right_only_with_a_prompt_after_something_known() {
        // exchanges.csv X026 to X035 and X011, X012.
        let cases: &[(&str, &[u8], Probe)] = &[
            ("X026 echo on", b"\x7f\x7f\r?\r\r>", Probe::Right),
            ("X027 echo off", b"?\r\r>", Probe::Right),
            ("X028 single CR", b"?\r>", Probe::Right),
            ("X030 noise", b"\xff\xff", Probe::Wrong(WrongRate::Noise)),
            ("X031 noise", b"\x7f\xff\xf8", Probe::Wrong(WrongRate::Noise)),
            ("X032 almost an echo", b"\x7f\x7f\xfd", Probe::Wrong(WrongRate::Noise)),
            ("X033 noise with letters", b"~f\xfa\x9e", Probe::Wrong(WrongRate::Noise)),
            ("X034 a loop", b"\x7f\x7f\r", Probe::Wrong(WrongRate::Loop)),
            ("X035 silence", b"", Probe::Wrong(WrongRate::Silence)),
            ("X012 a modem", b"\r\nERROR\r\n", Probe::Wrong(WrongRate::Modem)),
            ("a banner", b"\r\rELM327 v1.5\r\r>", Probe::Right),
            ("a prompt after something else", b"41 05 7B \r\r>", Probe::AskAgain),
            ("text without prompt", b"SEARCHING...", Probe::AskAgain),
        ];
        for (what, heard, want) in cases {
            assert_eq!(judge(heard, PROBE), *want, "{what}");
        }
    }

    #[test]
    fn rates_are_tried_in_their_order_the_remembered_one_first() {
        let mut search = RateSearch::new(Some(57_600));
        let (mut tried, mut waited) = (Vec::new(), Duration::ZERO);
        while let RateStep::Try { rate, send, wait } = search.step() {
            tried.push((rate, send.len()));
            waited += wait;
            match rate {
                115_200 => search.skip(),
                9_600 => search.heard(b"41 05 7B \r\r>"),
                19_200 => search.heard(b"?\r\r>"),
                _ => search.heard(b""),
            }
        }
        assert_eq!(
            tried,
            [
                (57_600, 3),
                (38_400, 3),
                (115_200, 3),
                (9_600, 3),
                (9_600, 5),
                (500_000, 3),
                (230_400, 3),
                (19_200, 3)
            ]
        );
        assert_eq!(search.step(), RateStep::Found(19_200));
        assert!(waited < Duration::from_secs(6), "the budget of section 3");
    }

    #[test]
    fn where_no_rate_is_right_the_search_says_what_was_heard() {
        let mut search = RateSearch::new(None);
        while let RateStep::Try { rate, send, .. } = search.step() {
            search.heard(if rate == 500_000 { b"\xff\xff" } else { &send[..0] });
        }
        assert_eq!(search.step(), RateStep::None(WrongRate::Noise));
    }

    #[test]
    fn the_most_telling_thing_heard_is_told() {
        assert_eq!(worst([].into_iter()), WrongRate::Silence);
        assert_eq!(worst([WrongRate::Noise, WrongRate::Silence].into_iter()), WrongRate::Noise);
        assert_eq!(
            worst([WrongRate::Loop, WrongRate::Modem, WrongRate::Noise].into_iter()),
            WrongRate::Modem
        );
    }
}
