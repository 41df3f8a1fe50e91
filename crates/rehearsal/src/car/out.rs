//! What goes out: replies cut into pieces with their instants, and what faults do to replies and to single bytes.
//!
//! In: a [`Reply`]. Out: pieces in order of time. Source: adapter reference, dialect sections 1, 14 and 18.

use std::time::Duration;

use units::Mono;

use super::{Car, at};
use crate::fault::FaultKind;
use crate::firmware::Habit;

/// Bytes, when they arrive, and at which rate they are sent.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) at: Mono,
    pub(super) bytes: Vec<u8>,
    pub(super) rate: u32,
}

/// One reply before faults act on it: what arrives how many ms from now, and the prompt.
#[derive(Debug)]
pub(super) struct Reply {
    pub(super) pieces: Vec<(f64, Vec<u8>)>,
    pub(super) prompt: Option<(f64, Vec<u8>)>,
    /// Whether it carries lines of the vehicle.
    pub(super) data: bool,
}

impl Car {
    pub(super) fn say(&mut self, now: Mono, text: &str) {
        self.say_after(now, 0.0, text);
    }

    /// A text and the prompt, `after` ms from now.
    pub(super) fn say_after(&mut self, now: Mono, after: f64, text: &str) {
        let (end, prompt) = (self.end_of_line(), self.prompt());
        let text = [text.as_bytes(), end].concat();
        let due = after + self.serial_ms(text.len() + prompt.len()) + self.serial.latency_ms;
        self.deliver(Reply { pieces: vec![(due, text)], prompt: Some((due, prompt)), data: false }, now);
    }

    /// Sends a reply, as it is or as faults and habits want it.
    pub(super) fn deliver(&mut self, mut reply: Reply, now: Mono) {
        if self.strikes(FaultKind::LateReply, 20, now) {
            let all = reply.pieces.iter_mut().chain(reply.prompt.as_mut());
            all.for_each(|(after, _)| *after += LATE_REPLY_MS);
        }
        if self.strikes(FaultKind::StrayBytes, 5, now)
            && let Some((_, first)) = reply.pieces.first_mut()
        {
            let stray = [0xFC, 0xFF, 0x80 | self.dice.below(128) as u8];
            let count = 1 + self.dice.below(3);
            first.splice(0..0, stray.into_iter().take(count));
        }
        self.trouble_with_prompt(&mut reply, now);
        if reply.data && self.trouble.cuts(&mut reply) {
            return self.break_off(reply, now);
        }
        let wakes = self.wakes_ms(now);
        if wakes > 0.0 {
            reply.pieces.iter_mut().chain(reply.prompt.as_mut()).for_each(|(after, _)| *after += wakes);
        }
        let exact = reply.prompt.as_ref().map(|(after, _)| *after);
        for (after, bytes) in reply.pieces.into_iter().chain(reply.prompt) {
            self.push_in_pieces(now, after, bytes);
        }
        self.prompted = self.out.back().map_or(now, |piece| piece.at);
        if let (Some(exact), Some(last)) = (exact, self.out.back().map(|piece| piece.at)) {
            let late = last.since(now).as_secs_f64() * 1_000.0 - exact;
            self.carried = (last, if (0.0..1.0).contains(&late) { late } else { 0.0 });
        }
    }

    fn trouble_with_prompt(&mut self, reply: &mut Reply, now: Mono) {
        let held = core::mem::take(&mut self.trouble.held);
        if let Some((_, first)) = reply.pieces.first_mut().filter(|_| !held.is_empty()) {
            first.splice(0..0, held);
        }
        let habit_ms =
            if self.firmware.has(Habit::LatePrompt) { self.dice.between(60.0, 300.0) } else { 0.0 };
        let late = self.strikes(FaultKind::LatePrompt, 20, now);
        let doubled = self.strikes(FaultKind::PromptDoubled, 10, now);
        let missing = self.strikes(FaultKind::PromptMissing, 20, now);
        let joined = self.strikes(FaultKind::JoinedReplies, 10, now);
        let Some((after, prompt)) = &mut reply.prompt else { return };
        *after += habit_ms + if late { LATE_PROMPT_MS } else { 0.0 };
        if doubled {
            prompt.push(b'>');
        }
        if joined {
            self.trouble.held.clone_from(prompt);
        }
        if joined || missing {
            reply.prompt = None;
        }
    }

    /// A reply that ends before its end: the supply dips, or the link is cut.
    fn break_off(&mut self, reply: Reply, now: Mono) {
        let ends = reply.pieces.last().map_or(0.0, |(after, _)| *after);
        self.out.clear();
        for (after, bytes) in reply.pieces {
            self.push(now, after, bytes);
        }
        self.busy = None;
        let ends = at(now, ends);
        if self.trouble.closes_link() {
            return self.trouble.cut_from(ends.after(Duration::from_millis(1)));
        }
        self.settings = self.settings.restarted();
        self.settings.can_blocked = crate::dialect::Switch::On;
        self.say_supply_reset(ends);
    }

    fn push_in_pieces(&mut self, now: Mono, after: f64, bytes: Vec<u8>) {
        let (most, pause) = if self.holds(FaultKind::SingleBytes, now) {
            (1, 40.0)
        } else if self.firmware.has(Habit::Pieces) {
            (6, 8.0)
        } else {
            return self.push(now, after, bytes);
        };
        let last = self.out.back().map_or(now, |piece| piece.at);
        let mut due = after.max(last.since(now).as_secs_f64() * 1_000.0);
        let mut rest = &bytes[..];
        while !rest.is_empty() {
            let (piece, next) = rest.split_at((1 + self.dice.below(most)).min(rest.len()));
            self.push(now, due, piece.to_vec());
            due += self.dice.between(0.0, pause);
            rest = next;
        }
    }

    pub(super) fn push(&mut self, now: Mono, after_ms: f64, bytes: Vec<u8>) {
        let at = at(now, after_ms).max(self.out.back().map_or(now, |piece| piece.at));
        self.out.push_back(Piece { at, bytes, rate: self.rate });
    }

    /// Loses, changes and doubles bytes, as the faults say.
    pub(super) fn through_the_line(&mut self, bytes: Vec<u8>, now: Mono) -> Vec<u8> {
        let nuls = self.firmware.has(Habit::Nuls) && self.firmware.family.is_none();
        let pauses = self.firmware.has(Habit::XonXoff);
        let line_faults =
            [FaultKind::DropBytes, FaultKind::FlipBytes, FaultKind::DuplicateBytes, FaultKind::NulBytes];
        if !nuls && !pauses && !line_faults.iter().any(|kind| self.holds(*kind, now)) {
            return bytes;
        }
        let mut out = Vec::with_capacity(bytes.len() + 4);
        for byte in bytes {
            if self.strikes(FaultKind::NulBytes, 50, now) || nuls && self.dice.below(100) == 0 {
                out.push(0);
            }
            if pauses && self.dice.below(30) == 0 {
                out.push(if self.dice.below(2) == 0 { XON } else { XOFF });
            }
            if self.strikes(FaultKind::DropBytes, 300, now) {
                continue;
            }
            let changed = if self.strikes(FaultKind::FlipBytes, 300, now) {
                byte ^ (1 << self.dice.below(7))
            } else {
                byte
            };
            out.push(changed);
            if self.strikes(FaultKind::DuplicateBytes, 300, now) {
                out.push(changed);
            }
        }
        out
    }

    pub(super) fn end_of_line(&self) -> &'static [u8] {
        let both = self.settings.line_feeds.is_on() || self.firmware.has(Habit::LineFeedsStay);
        if self.firmware.has(Habit::LfOnly) {
            return b"\n";
        }
        if both { b"\r\n" } else { b"\r" }
    }

    pub(super) fn prompt(&self) -> Vec<u8> {
        let mark: &[u8] = if self.firmware.has(Habit::SpacedPrompt) { b"> " } else { b">" };
        if self.firmware.has(Habit::SingleCr) { mark.to_vec() } else { [self.end_of_line(), mark].concat() }
    }

    pub(super) fn serial_ms(&self, chars: usize) -> f64 {
        chars as f64 * 10_000.0 / f64::from(self.rate.max(1))
    }
}

/// ASCII: device control 1 and 3.
/// By definition: ASCII, device control 1 and 3.
const XON: u8 = 0x11;
const XOFF: u8 = 0x13;
/// How late a prompt, and a whole reply, is.
/// Own choice: more than the limit of a setting (1 s), and more than that of any request (1.9 s).
const LATE_PROMPT_MS: f64 = 1_200.0;
const LATE_REPLY_MS: f64 = 2_500.0;
