//! A recording of a link as an adapter: what it answered then, it answers again.
//!
//! In: a recording (`serve --record`), bytes from a program. Out: the recorded reply to the next same request, its
//! pieces as far apart as they were then. Requests are compared without spaces and letter case; each recorded reply is
//! used once, so that old data never stand for new ones. When none is left for a request to the vehicle, `NO DATA` is
//! said: readings go stale, and the verdict waits. A word to the adapter that was recorded is answered as it was the
//! last time, any other with `?`. Where the link was closed then, it is closed for as long now. Not here: the form of
//! the file (`adapter::recording`).

use std::collections::{BTreeMap, VecDeque};
use std::time::Duration;

use adapter::recording::{Entry, Traffic};
use rehearsal::pty::Bench;
use units::Mono;

/// What was heard after one request, each piece so long behind it.
type Answered = Vec<(Duration, Event)>;

#[derive(Debug, Clone, PartialEq, Eq)]
enum Event {
    Bytes(Vec<u8>),
    Close,
    Open,
}

/// The adapter of a recording.
#[derive(Debug)]
pub struct Playback {
    replies: BTreeMap<String, VecDeque<Answered>>,
    /// What each word to the adapter was answered with the last time.
    last: BTreeMap<String, Answered>,
    due: VecDeque<(Mono, Event)>,
    line: Vec<u8>,
    plugged: bool,
}

impl Playback {
    /// From the entries of a recording, in their order.
    pub fn new(entries: &[Entry]) -> Self {
        let (mut replies, mut last) = (BTreeMap::<String, VecDeque<Answered>>::new(), BTreeMap::new());
        let (mut asked, mut from, mut heard) = (None, Mono::ZERO, Answered::new());
        let mut unasked = Answered::new();
        for entry in entries {
            let event = match &entry.what {
                Traffic::Host(bytes) => {
                    keep(asked.replace(key(bytes)), core::mem::take(&mut heard), &mut replies, &mut unasked);
                    from = entry.at;
                    continue;
                }
                Traffic::Adapter(bytes) => Event::Bytes(bytes.clone()),
                Traffic::Closed { .. } => Event::Close,
                Traffic::Opened => Event::Open,
            };
            heard.push((entry.at.since(from), event));
        }
        keep(asked, heard, &mut replies, &mut unasked);
        for (request, all) in replies.iter().filter(|(request, _)| is_word(request) && *request != VOLTAGE) {
            if let Some(heard) = all.back() {
                last.insert(request.clone(), heard.clone());
            }
        }
        // What came before the first request comes at the start, as soon as the link is open.
        let opened =
            unasked.iter().find(|(_, event)| *event == Event::Open).map_or(Duration::ZERO, |(at, _)| *at);
        let due = unasked
            .into_iter()
            .filter(|(_, event)| matches!(event, Event::Bytes(_)))
            .map(|(after, event)| (Mono::ZERO.after(after.saturating_sub(opened)), event))
            .collect();
        Self { replies, last, due, line: Vec::new(), plugged: true }
    }

    /// How many recorded replies are left.
    #[cfg(test)]
    fn left(&self) -> usize {
        self.replies.values().map(VecDeque::len).sum()
    }

    fn answer(&mut self, request: &str, now: Mono) {
        let recorded = self.replies.get_mut(request).and_then(VecDeque::pop_front);
        let heard = recorded.or_else(|| self.last.get(request).cloned()).unwrap_or_else(|| {
            let text: &[u8] = match request {
                "" => b"",
                _ if is_word(request) => b"?\r\r>",
                _ => b"NO DATA\r\r>",
            };
            vec![(MADE_AFTER, Event::Bytes(text.to_vec()))]
        });
        let coming = heard.into_iter().map(|(after, event)| (now.after(after), event));
        self.due.extend(coming);
        self.due.make_contiguous().sort_by_key(|(at, _)| *at);
    }
}

impl Bench for Playback {
    fn take(&mut self, bytes: &[u8], now: Mono) {
        if !self.plugged {
            return;
        }
        // One character that interrupts is a request of its own.
        if self.line.is_empty() && bytes.iter().all(|byte| *byte == b' ') {
            return self.answer("", now);
        }
        for byte in bytes {
            if *byte == b'\r' {
                let line = core::mem::take(&mut self.line);
                self.answer(&key(&line), now);
            } else if self.line.len() < LONGEST_LINE {
                self.line.push(*byte);
            }
        }
    }

    fn give(&mut self, now: Mono) -> Option<Vec<u8>> {
        while self.due.front().is_some_and(|(at, _)| *at <= now) {
            match self.due.pop_front()?.1 {
                Event::Bytes(bytes) if self.plugged && !bytes.is_empty() => return Some(bytes),
                Event::Bytes(_) => {}
                Event::Close => {
                    self.plugged = false;
                    self.line.clear();
                    // One look at a closed link, so that it is seen, before it is open again.
                    return None;
                }
                Event::Open => self.plugged = true,
            }
        }
        None
    }

    fn deadline(&self) -> Option<Mono> {
        self.due.front().map(|(at, _)| *at)
    }

    fn wake(&mut self, _: Mono) {}

    fn plugged(&self) -> bool {
        self.plugged
    }
}

/// Puts what was heard to its request, or to none.
fn keep(
    asked: Option<String>,
    heard: Answered,
    replies: &mut BTreeMap<String, VecDeque<Answered>>,
    unasked: &mut Answered,
) {
    match asked {
        Some(request) => replies.entry(request).or_default().push_back(heard),
        None => unasked.extend(heard),
    }
}

/// A request as it is compared: without spaces and control characters, in capital letters.
fn key(bytes: &[u8]) -> String {
    bytes.iter().filter(|byte| **byte > b' ').map(|byte| char::from(byte.to_ascii_uppercase())).collect()
}

/// Whether a request is a word to the adapter itself.
fn is_word(request: &str) -> bool {
    !request.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// A measurement: said once, it is old.
const VOLTAGE: &str = "ATRV";
/// When an answer comes that was not recorded.
/// Own choice: what an adapter on a wire takes; no behaviour hangs on it.
const MADE_AFTER: Duration = Duration::from_millis(20);
/// No request is longer.
/// Own choice: ten times the longest request; a stream without line ends must not fill memory.
const LONGEST_LINE: usize = 256;

#[cfg(test)]
mod tests {
    use super::*;

    fn entries(rows: &[(u64, &str, &[u8])]) -> Vec<Entry> {
        let what = |who: &str, bytes: &[u8]| match who {
            "host" => Traffic::Host(bytes.to_vec()),
            "adapter" => Traffic::Adapter(bytes.to_vec()),
            "opened" => Traffic::Opened,
            _ => Traffic::Closed { why: "its port closed".to_owned() },
        };
        rows.iter()
            .map(|(at, who, bytes)| Entry { at: Mono::from_millis(*at), what: what(who, bytes) })
            .collect()
    }

    /// All that is said within a while, with the instants.
    fn hear(playback: &mut Playback, from: u64, until: u64) -> Vec<(u64, String)> {
        let mut all = Vec::new();
        for now in from..until {
            while let Some(bytes) = playback.give(Mono::from_millis(now)) {
                all.push((now - from, String::from_utf8_lossy(&bytes).into_owned()));
            }
        }
        all
    }

    fn said(pieces: &[(u64, &str)]) -> Vec<(u64, String)> {
        pieces.iter().map(|(at, text)| (*at, (*text).to_owned())).collect()
    }

    #[test]
    fn each_recorded_reply_comes_once_in_its_time_and_then_nobody_answers() {
        let mut playback = Playback::new(&entries(&[
            (100, "opened", b""),
            (110, "adapter", b"\r\rELM327 v2.1\r\r>"),
            (200, "host", b"ATE0\r"),
            (210, "adapter", b"ATE0\rOK\r\r>"),
            (300, "host", b"0105\r"),
            (330, "adapter", b"7E80341"),
            (345, "adapter", b"057B\r\r>"),
            (500, "host", b"0105\r"),
            (530, "adapter", b"7E8034105FF\r\r>"),
            (600, "host", b"ATRV\r"),
            (605, "adapter", b"12.5V\r\r>"),
        ]));
        assert_eq!(hear(&mut playback, 0, 50), said(&[(10, "\r\rELM327 v2.1\r\r>")]));
        let mut ask = |line: &str, at: u64| {
            playback.take(line.as_bytes(), Mono::from_millis(at));
            hear(&mut playback, at, at + 500)
        };
        assert_eq!(ask("01 05\r", 1_000), said(&[(30, "7E80341"), (45, "057B\r\r>")]));
        assert_eq!(ask("0105\r", 2_000), said(&[(30, "7E8034105FF\r\r>")]));
        assert_eq!(ask("0105\r", 3_000), said(&[(20, "NO DATA\r\r>")]), "none is used twice");
        assert_eq!(ask("010C\r", 4_000), said(&[(20, "NO DATA\r\r>")]), "never recorded");
        for at in [5_000, 6_000] {
            assert_eq!(ask("ate0\r", at), said(&[(10, "ATE0\rOK\r\r>")]), "a setting is accepted again");
        }
        assert_eq!(ask("ATH1\r", 7_000), said(&[(20, "?\r\r>")]));
        assert_eq!(ask("ATRV\r", 8_000), said(&[(5, "12.5V\r\r>")]));
        assert_eq!(ask("ATRV\r", 9_000), said(&[(20, "?\r\r>")]), "no old voltage");
        assert_eq!(playback.left(), 0);
    }

    #[test]
    fn an_interruption_has_a_reply_of_its_own_and_a_cut_is_cut_again() {
        let mut playback = Playback::new(&entries(&[
            (0, "opened", b""),
            (10, "host", b"0100\r"),
            (20, "adapter", b"SEARCHING..."),
            (900, "host", b" "),
            (910, "adapter", b"STOPPED\r\r>"),
            (1_000, "host", b" ATI\r"),
            (1_100, "closed", b""),
            (3_100, "opened", b""),
        ]));
        let at = Mono::from_millis;
        playback.take(b"0100\r", at(0));
        assert_eq!(hear(&mut playback, 0, 100), said(&[(10, "SEARCHING...")]));
        playback.take(b" ", at(100));
        assert_eq!(hear(&mut playback, 100, 200), said(&[(10, "STOPPED\r\r>")]));
        playback.take(b" ATI\r", at(200));
        for (now, plugged) in [(250, true), (300, false), (2_299, false), (2_300, true)] {
            assert_eq!(playback.give(at(now)), None);
            assert_eq!(playback.plugged(), plugged, "{now}");
        }
    }
}
