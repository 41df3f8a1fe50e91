//! The text of one complete reply to messages.
//!
//! In: text as the adapter sent it, up to the prompt (which may be there or not), and how it lays lines out.
//! Out: [`Content`]: every complete message with its sender, and the first thing that was wrong. [`messages`]
//! is the strict door: all or an error. Forms of a line: sections 7, 8 and 13 of the adapter reference,
//! `wire_vectors.csv`.
//! Not here: when a reply is complete (the adapter's codec), what a message means (`decode.rs`).

use alloc::vec::Vec;

use crate::answer::negative::NegativeReply;
use crate::ask::Ask;
use crate::bus::{Bus, Ecu, Headers, Layout};
use crate::error::WireError;
use crate::text::grammar;
use crate::text::header::{Older, open_older, split_header};
use crate::text::hex::{self, END, PROMPT, is_quiet};
use crate::text::isotp::Assembly;
use crate::text::line::{self, MAX_DIGITS, Scan};
use crate::text::message::{Message, cut_padding};
use crate::text::single::single;
use crate::text::status::{self, Status, StatusClass};

/// Everything that the text of one reply holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Content {
    /// Complete answers (to the request, if it was given), in the order in which they began.
    pub messages: Vec<Message>,
    /// Complete answers to other requests.
    pub others: Vec<Message>,
    /// The first thing that was wrong. With it, `messages` holds only what is sure all the same.
    pub problem: Option<WireError>,
    /// Whether the prompt was in the text. Without it the caller vouches that the reply is complete.
    pub prompt: bool,
}

/// The messages of one complete reply, or what is wrong with it: strict, all or nothing.
///
/// `ask` is the request, if it is known: its echo is dropped, answers to other requests are dropped, padding
/// that a clone shows is cut. A refusal of the request counts as an answer.
///
/// Errors: [`WireError`]; use [`reply`] to keep what is sure beside the error.
///
/// ```
/// use frames::{Bus, Headers, Layout, messages};
/// let layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
/// let two = messages(b"7E8 03 41 05 7B \r7E9 03 41 05 64 \r\r>", layout, None).unwrap();
/// assert_eq!(two[1].ecu.unwrap().to_string(), "7E9");
/// let gap = messages(b"7E8 10 14 49 02 01 31 44 34 \r7E8 22 42 31 32 33 34 35 36 \r\r>", layout, None);
/// assert_eq!(gap.unwrap_err().kind(), "sequence-gap");
/// ```
pub fn messages(text: &[u8], layout: Layout, ask: Option<Ask>) -> Result<Vec<Message>, WireError> {
    let reply = reply(text, layout, ask);
    match reply.problem {
        Some(problem) => Err(problem),
        None => Ok(reply.messages),
    }
}

/// Everything that one complete reply holds: messages, and the first problem beside them.
pub fn reply(text: &[u8], layout: Layout, ask: Option<Ask>) -> Content {
    // Most replies are one clean line; a law in `single.rs` says that both ways agree.
    if let Some(short) = ask.and_then(|ask| single(text, layout, ask)) {
        let message = Message { ecu: short.ecu, data: short.data().to_vec() };
        return Content {
            messages: alloc::vec![message],
            others: Vec::new(),
            problem: None,
            prompt: text.contains(&b'>'),
        };
    }
    every_line(text, layout, ask)
}

/// Every layout in which `text` is a clean reply, with its messages: for text whose origin nobody knows.
///
/// With the request given, no reply of the reference can be read and then decoded in two ways (numbered lines of
/// service 09 may also be read as short answers on CAN, but those do not decode). Without it, a line of bytes may be
/// data, or header and data. Several that decode differently mean that it cannot be told.
pub fn layouts(text: &[u8], ask: Option<Ask>) -> impl Iterator<Item = (Layout, Vec<Message>)> {
    let all = Bus::ALL
        .into_iter()
        .flat_map(|bus| [Headers::Shown, Headers::Hidden].map(|headers| Layout { bus, headers }));
    all.filter_map(move |layout| Some((layout, messages(text, layout, ask).ok()?)))
}

/// The long way, for whatever may come.
pub(crate) fn every_line(text: &[u8], layout: Layout, ask: Option<Ask>) -> Content {
    let mut parser = Parser {
        layout,
        ask,
        parts: Assembly::new(),
        announced: None,
        numbered: Numbered::Fine,
        seen: SoFar::Nothing,
        worth: Worth::WhatIsComplete,
    };
    let mut at = 0;
    let mut prompt = None;
    while at < text.len() {
        let end = parser.line(text, at);
        if text.get(end) == Some(&b'>') {
            prompt = Some(end);
            break;
        }
        at = end + 1;
    }
    if let Some(start) = prompt
        && let Some(more) = text.iter().skip(start).position(|byte| !is_quiet(*byte))
    {
        parser.worth = Worth::Nothing;
        parser.parts.note_alone(WireError::AfterPrompt { at: start + more });
    }
    parser.finish(prompt.is_some())
}

struct Parser {
    layout: Layout,
    ask: Option<Ask>,
    parts: Assembly,
    /// What a line of three digits announced (headers hidden).
    announced: Option<Announced>,
    numbered: Numbered,
    seen: SoFar,
    worth: Worth,
}

/// The length of the long message that follows. `03`, `07` and `0A` with a digit for the count of replies,
/// typed back, look the same: what comes next tells.
#[derive(Clone, Copy)]
struct Announced {
    length: usize,
    perhaps_echo: bool,
    at: usize,
}

/// Whether numbered lines (headers hidden) can still be put together.
#[derive(PartialEq, Eq)]
enum Numbered {
    Fine,
    Lost,
}

/// ISO 14230-3: the first byte of an answer is the service asked with bit 6 set, or 7F.
const AN_ANSWER: &str = "an answer, whose first byte has bit 6 set";

/// What of the reply is sure in the end.
#[derive(PartialEq, Eq)]
enum Worth {
    /// The messages that are complete.
    WhatIsComplete,
    /// Nothing: lines are missing, settings were lost, or nobody knows whose the parts are.
    Nothing,
}

/// What has come so far.
#[derive(PartialEq, Eq, Clone, Copy)]
enum SoFar {
    Nothing,
    Progress(Status, usize),
    Something,
}

impl Parser {
    /// Takes the line that begins at `start`; returns where it ends.
    fn line(&mut self, text: &[u8], start: usize) -> usize {
        let mut digits = [0; MAX_DIGITS];
        let scan = line::scan(text, start, &mut digits);
        let Some(foreign) = scan.foreign else {
            let line = text.get(start..scan.end).unwrap_or_default();
            let echo = scan.digits > 0 && self.is_echo(line);
            // A number of one or two digits is the adapter's own (its protocol): no answer is that short.
            match (scan.digits <= 2).then(|| status::status(line)).flatten() {
                _ if self.is_length(&scan) => self.announce(&digits, start, echo),
                _ if echo || scan.digits == 0 => {}
                Some(said) => self.status(said, line, start),
                None => self.digits(&scan, &digits, start),
            }
            return scan.end;
        };
        let rest = text.get(foreign..).unwrap_or_default();
        let end = rest
            .iter()
            .position(|byte| matches!(hex::class(*byte), END | PROMPT))
            .map_or(text.len(), |more| foreign + more);
        let line = text.get(start..end).unwrap_or_default();
        self.text_line(line, start, foreign - start);
        end
    }

    /// A line with something else in it than digits and blanks; `foreign` is the place of the first such
    /// byte.
    fn text_line(&mut self, line: &[u8], at: usize, foreign: usize) {
        let noise = line.iter().position(|byte| !is_quiet(*byte) && *byte < 0x80).unwrap_or(line.len());
        let after_noise = line.get(noise..).unwrap_or_default();
        let rest = grammar::after_progress(after_noise);
        if rest.len() < after_noise.len() || noise > 0 && foreign < noise {
            if let Some(progress) =
                status::status(after_noise).filter(|status| status.class() == StatusClass::Progress)
                && self.seen == SoFar::Nothing
            {
                self.seen = SoFar::Progress(progress, at);
            }
            // What is glued to it is a line of its own; it is shorter, so this ends.
            let glued = at + line.len() - rest.len();
            let mut digits = [0; MAX_DIGITS];
            let scan = line::scan(rest, 0, &mut digits);
            match scan.foreign {
                None if scan.digits > 0 => self.digits(&scan, &digits, glued),
                None => {}
                Some(foreign) => self.plain_text(rest, glued, foreign),
            }
            return;
        }
        self.plain_text(line, at, foreign);
    }

    fn plain_text(&mut self, line: &[u8], at: usize, foreign: usize) {
        if self.layout.headers == Headers::Hidden
            && self.layout.bus.is_can()
            && let Ok((rest, number)) = grammar::part_number(line)
        {
            let mut digits = [0; MAX_DIGITS];
            let scan = line::scan(rest, 0, &mut digits);
            if scan.foreign.is_none() {
                return self.part(number, &scan, &digits, at);
            }
        }
        match status::status(line) {
            Some(said) => self.status(said, line, at),
            None => {
                self.seen = SoFar::Something;
                self.parts.note(WireError::Malformed {
                    want: "a hexadecimal digit or a known text",
                    at: at + foreign,
                });
            }
        }
    }

    fn status(&mut self, said: Status, line: &[u8], at: usize) {
        match said.class() {
            StatusClass::Mark => {}
            StatusClass::Progress => {
                if self.seen == SoFar::Nothing {
                    self.seen = SoFar::Progress(said, at);
                }
            }
            class => {
                self.seen = SoFar::Something;
                self.parts.note_status(WireError::Status { status: said, at });
                // A line that came complete before we broke it off, or beside a spoilt one, is still good.
                let keeps = said == Status::Stopped || class == StatusClass::Alert || line.contains(&b'<');
                if !keeps {
                    self.worth = Worth::Nothing;
                }
            }
        }
    }

    /// The request typed back, before anything else.
    fn is_echo(&self, line: &[u8]) -> bool {
        self.seen == SoFar::Nothing && self.ask.is_some_and(|ask| ask.is_echo(line))
    }

    /// Whether a line of digits is the length of a long message (headers hidden).
    fn is_length(&self, scan: &Scan) -> bool {
        self.layout.headers == Headers::Hidden
            && self.layout.bus.is_can()
            && scan.digits == 3
            && scan.first == 3
    }

    fn digits(&mut self, scan: &Scan, digits: &[u8], at: usize) {
        self.seen = SoFar::Something;
        let Some(digits) = digits.get(..scan.digits) else {
            return self.parts.note(WireError::TooMuch { what: "digits in a line", limit: MAX_DIGITS, at });
        };
        if self.layout.headers == Headers::Hidden {
            return self.hidden(scan, digits, at);
        }
        let mut bytes = [0; MAX_DIGITS / 2];
        match split_header(self.layout.bus, scan, digits, &mut bytes) {
            Err(want) => self.parts.note(WireError::Malformed { want, at }),
            Ok((ecu, frame)) if self.layout.bus.is_can() => self.parts.frame(Some(ecu), frame, at),
            Ok((_, line)) => self.older(line, at),
        }
    }

    /// A line of an older bus with its header and checksum.
    fn older(&mut self, line: &[u8], at: usize) {
        match open_older(self.layout.bus, line) {
            Ok(Some((ecu, data))) => self.older_message(Some(ecu), data, at),
            Ok(None) => {}
            Err(Older::Malformed(want)) => self.parts.note(WireError::Malformed { want, at }),
            Err(Older::Checksum { want, got }) => self.parts.note(WireError::Checksum { want, got, at }),
            Err(Older::Length { want, got }) => {
                self.parts.note(WireError::Incomplete { ecu: None, want, got, at })
            }
        }
    }

    fn older_message(&mut self, ecu: Option<Ecu>, data: &[u8], at: usize) {
        match *data {
            [0x49, infotype, number, ref part @ ..] if part.len() == 4 => {
                self.parts.numbered(ecu, infotype, number, part, at);
            }
            [first, ..] if first & 0x40 != 0 => self.parts.whole(ecu, data, at),
            _ => self.parts.note(WireError::Malformed { want: AN_ANSWER, at }),
        }
    }

    /// A line with headers hidden and no part number.
    fn hidden(&mut self, scan: &Scan, digits: &[u8], at: usize) {
        if self.is_length(scan) {
            return self.announce(digits, at, false);
        }
        let mut bytes = [0; MAX_DIGITS / 2];
        let pairs = !scan.is_spaced() || scan.uneven == 0 && scan.first == 2;
        let Some(bytes) = line::join(digits, &mut bytes).filter(|_| pairs) else {
            return self.parts.note(WireError::Malformed { want: "pairs of digits", at });
        };
        if !self.layout.bus.is_can() {
            return self.older_message(None, bytes, at);
        }
        match bytes.first() {
            // No answer begins below 40: the adapter shows the frame as it is (formatting off).
            Some(..0x40) => self.parts.frame(None, bytes, at),
            _ if bytes.len() > 7 => {
                self.parts.note(WireError::Malformed {
                    want: "at most seven bytes in a CAN frame without its length",
                    at,
                });
            }
            Some(first) if first & 0x40 != 0 => self.parts.whole(None, cut_padding(bytes, self.ask), at),
            _ => self.parts.note(WireError::Malformed { want: AN_ANSWER, at }),
        }
    }

    /// A line of three digits: the length of the long message that follows.
    fn announce(&mut self, digits: &[u8], at: usize, perhaps_echo: bool) {
        let length = digits.iter().take(3).fold(0, |all, digit| all << 4 | usize::from(*digit));
        if self.numbered == Numbered::Lost {
            return;
        }
        let pending = self.announced.is_some_and(|announced| !announced.perhaps_echo);
        if pending || self.parts.is_open(None) {
            self.parts.note(WireError::Ambiguous { at });
            self.numbered = Numbered::Lost;
            return;
        }
        self.announced = Some(Announced { length, perhaps_echo, at });
    }

    /// A line with a part number (headers hidden).
    fn part(&mut self, number: u8, scan: &Scan, digits: &[u8], at: usize) {
        self.seen = SoFar::Something;
        if self.numbered == Numbered::Lost {
            return;
        }
        let before = self.parts.problem();
        let mut bytes = [0; 8];
        let pairs = !scan.is_spaced() || scan.uneven == 0 && scan.first == 2;
        let joined =
            digits.get(..scan.digits).and_then(|digits| line::join(digits, &mut bytes)).filter(|_| pairs);
        match (joined, number, self.announced.take()) {
            (None, ..) => self.parts.note(WireError::Malformed { want: "at most seven pairs of digits", at }),
            (Some(data), 0, Some(announced)) => self.parts.first(None, announced.length, data, at),
            (Some(_), got, Some(_)) => {
                self.parts.note(WireError::SequenceGap { ecu: None, want: 0, got, at })
            }
            (Some(data), number, None) => self.parts.consecutive(None, number, data, at),
        }
        if self.parts.problem() != before {
            self.numbered = Numbered::Lost;
        }
    }

    fn finish(mut self, prompt: bool) -> Content {
        if let Some(announced) = self.announced.filter(|announced| !announced.perhaps_echo) {
            self.parts.note(WireError::Incomplete {
                ecu: None,
                want: announced.length,
                got: 0,
                at: announced.at,
            });
        }
        let (mut all, mut problem) = self.parts.finish();
        if self.worth == Worth::Nothing || matches!(problem, Some(WireError::Ambiguous { .. })) {
            all.clear();
        }
        let (messages, others): (Vec<_>, Vec<_>) = match self.ask {
            None => (all, Vec::new()),
            Some(ask) => all.into_iter().partition(|message| answers(ask, &message.data)),
        };
        if problem.is_none() && messages.is_empty() {
            problem =
                Some(match (self.ask, others.first().and_then(|other| other.data.first()), self.seen) {
                    (Some(ask), Some(&got), _) => WireError::Mismatch { want: ask.reply_service(), got },
                    (_, _, SoFar::Progress(status, at)) => WireError::Status { status, at },
                    _ => WireError::Empty,
                });
        }
        Content { messages, others, problem, prompt }
    }
}

/// Whether `data` answers `ask`, with a value or a refusal.
fn answers(ask: Ask, data: &[u8]) -> bool {
    ask.matches(data) || NegativeReply::parse(data).is_some_and(|negative| negative.service == ask.service())
}
