//! What faults do to the answers of control units and to their lines.
//!
//! In: answers before they are on the bus, lines as they were on it. Out: the same, wrong in one way.
//! Source: adapter reference, dialect section 18, rows 19, 20, 26 to 29.

use frames::{Ask, Ecu};
use units::Mono;

use super::Car;
use super::exchange::BusLine;
use crate::bus::Target;
use crate::ecu::Answer;
use crate::fault::{Fault, FaultKind};
use crate::firmware::Habit;

impl Car {
    pub(super) fn falsify(&mut self, request: &[u8], answers: &mut Vec<Answer>, now: Mono) {
        if self.holds(FaultKind::WrongEcu, now) {
            let other = self.bus.place(OTHER_UNIT).from;
            for answer in answers.iter_mut().filter(|a| matches!(a.data.first(), Some(0x61 | 0x62))) {
                answer.from = other;
                if let Some(last) = answer.data.last_mut() {
                    *last = last.saturating_add(10);
                }
            }
        }
        if self.strikes(FaultKind::WrongIdentifier, 10, now) {
            let place = self.dice.below(2);
            for answer in answers.iter_mut().filter(|a| a.data.len() > 2) {
                if let Some(byte) = answer.data.get_mut(place) {
                    *byte ^= 0x01;
                }
            }
        }
        self.lengthen(answers, now);
        self.repeat(request, answers, now);
        self.put_off(answers, now);
    }

    /// A second control unit that has the number of the coolant too, for a circuit of its own. What it says is true, of
    /// that circuit.
    pub(super) fn second_unit(
        &mut self,
        request: &[u8],
        target: Target,
        answers: &mut Vec<Answer>,
        now: Mono,
    ) {
        let place = self.bus.place(OTHER_UNIT);
        let is_asked = target == Target::Everybody || target == Target::One(place.asked);
        if !is_asked || !self.holds(FaultKind::TwoUnitsAnswer, now) {
            return;
        }
        let data = match request {
            [0x01, 0x00] => frames::encode_supported(Ask::Current(0x00), &[COOLANT]),
            [0x01, COOLANT] => {
                let celsius = self.world.shown().coolant_celsius - OTHER_CIRCUIT_K;
                vec![0x41, COOLANT, (celsius + 40.0).round().clamp(0.0, 255.0) as u8]
            }
            _ => return,
        };
        let after_ms = self.bus.answers_ms + if self.other_unit_first { -LEAD_MS } else { LEAD_MS };
        answers.push(Answer { from: place.from, asked: place.asked, after_ms, data });
    }

    /// Old answers in place of new ones.
    fn repeat(&mut self, request: &[u8], answers: &mut Vec<Answer>, now: Mono) {
        if self.holds(FaultKind::RepeatedReply, now) && !answers.is_empty() {
            match self.trouble.first.iter().find(|(asked, _)| asked == request) {
                Some((_, first)) => answers.clone_from(first),
                None => self.trouble.first.push((request.to_vec(), answers.clone())),
            }
        }
        if self.holds(FaultKind::StaleReply, now) && !answers.is_empty() {
            let old = core::mem::replace(&mut self.trouble.last, answers.clone());
            if !old.is_empty() && self.dice.below(10) == 0 {
                *answers = old;
            }
        }
    }

    /// A byte more in front of the transmission's value, for a third of the time.
    fn lengthen(&self, answers: &mut [Answer], now: Mono) {
        let longer = |fault: &Fault| {
            fault.kind == FaultKind::LengthChanges
                && fault.holds(now)
                && now.since(fault.from).as_secs() % LENGTH_EVERY_S < LENGTH_FOR_S
        };
        if self.world.faults().iter().any(longer) {
            for answer in answers {
                match answer.data.first() {
                    Some(0x62) => answer.data.insert(3, 0),
                    Some(0x61) => answer.data.insert(2, 0),
                    _ => {}
                }
            }
        }
    }

    /// Response pending before the answer, or for ever.
    fn put_off(&mut self, answers: &mut Vec<Answer>, now: Mono) {
        if self.holds(FaultKind::PendingAlways, now)
            && let Some(first) = answers.iter_mut().find(|a| matches!(a.data.first(), Some(0x61 | 0x62)))
        {
            let service = first.data.first().copied().unwrap_or(0x62).wrapping_sub(0x40);
            let pending = Answer { data: vec![0x7F, service, 0x78], ..first.clone() };
            first.after_ms += PENDING_ALWAYS_MS;
            answers.insert(0, pending);
        }
        let cases = [(FaultKind::Pending, 1), (FaultKind::PendingLong, 5), (FaultKind::PendingForever, 1)];
        for (kind, times) in cases {
            if !self.strikes(kind, 15, now) {
                continue;
            }
            let Some(first) = answers.first_mut() else { continue };
            let service = first.data.first().copied().unwrap_or(0x41).wrapping_sub(0x40);
            let pending = Answer { data: vec![0x7F, service, 0x78], ..first.clone() };
            first.after_ms += PENDING_MS * f64::from(times);
            if kind == FaultKind::PendingForever {
                answers.remove(0);
            }
            answers.extend((0..times).map(|place| {
                let after_ms = pending.after_ms + PENDING_MS * f64::from(place);
                Answer { after_ms, ..pending.clone() }
            }));
        }
    }

    /// What happens to lines on their way to the adapter.
    pub(super) fn spoil(&mut self, lines: &mut Vec<BusLine>, now: Mono) {
        if self.holds(FaultKind::UnitsMixed, now) {
            mix(lines);
        }
        let follow: Vec<usize> =
            lines.iter().enumerate().filter(|(_, line)| line.follows).map(|(place, _)| place).collect();
        if let [first, second, ..] = follow[..]
            && self.holds(FaultKind::FramesSwapped, now)
        {
            swap_texts(lines, first, second);
        }
        if let [.., last] = follow[..] {
            let place = follow.get(follow.len() / 2).copied().unwrap_or(last);
            if self.holds(FaultKind::FrameMissing, now) {
                lines.remove(place);
            } else if self.holds(FaultKind::FrameDoubled, now)
                && let Some(line) = lines.get(place).cloned()
            {
                lines.insert(place, BusLine { last: false, ..line });
            }
        }
    }

    /// What happens to lines in the adapter.
    pub(super) fn mark(&mut self, mut lines: Vec<BusLine>, now: Mono) -> Vec<BusLine> {
        if self.strikes(FaultKind::BufferFull, 15, now) {
            let kept = if lines.len() > 2 { 2 } else { lines.len().saturating_sub(1) };
            if let Some(line) = lines.get_mut(kept) {
                line.text = "BUFFER FULL".to_owned();
            }
            lines.truncate(kept + 1);
            return lines;
        }
        if self.firmware.has(Habit::Dots)
            && let Some(line) = lines.first_mut()
        {
            line.text.insert_str(0, "...");
        }
        if self.holds(FaultKind::EndlessLine, now)
            && !core::mem::replace(&mut self.trouble.endless_said, true)
        {
            lines.iter_mut().take(1).for_each(|line| line.text = "41".repeat(ENDLESS / 2));
        }
        if self.strikes(FaultKind::LongLine, 30, now) {
            lines.iter_mut().take(1).for_each(|line| {
                let missing = LONG.saturating_sub(line.text.len());
                line.text.push_str(&"0".repeat(missing));
            });
        }
        for line in &mut lines {
            if self.strikes(FaultKind::LineMarked, 10, now) {
                line.text.push_str(if self.bus.form.is_can() { "<RX ERROR" } else { "<DATA ERROR" });
            }
            if self.strikes(FaultKind::WrongLength, 10, now) {
                self.announce_another_length(&mut line.text);
            }
            if self.strikes(FaultKind::OddDigits, 10, now) {
                line.text = line.text.trim_end().to_owned();
                line.text.pop();
            }
            if self.strikes(FaultKind::LettersInHex, 10, now) {
                let last = line.text.chars().filter(|c| *c != ' ').count().saturating_sub(1);
                replace_digit(&mut line.text, last, |_| 'G');
            }
        }
        lines
    }

    /// The length in the line grows by one; where there is none, the last byte goes.
    fn announce_another_length(&self, text: &mut String) {
        let place = match (self.settings.headers.is_on(), self.bus.form) {
            (true, frames::Bus::Can11) => Some(4),
            (true, frames::Bus::Can29) => Some(9),
            (true, frames::Bus::Iso14230) => Some(1),
            _ => None,
        };
        match place {
            Some(place) => replace_digit(text, place, |digit| {
                let value = digit.to_digit(16).unwrap_or(0);
                char::from_digit((value + 1) % 16, 16).unwrap_or('0').to_ascii_uppercase()
            }),
            None => {
                let shorter = text.trim_end();
                let kept = shorter.len().saturating_sub(2);
                *text = shorter.get(..kept).unwrap_or("").to_owned();
            }
        }
    }
}

/// The lines of several senders by turns, each sender's in their order.
fn mix(lines: &mut Vec<BusLine>) {
    let mut senders: Vec<Ecu> = Vec::new();
    for line in lines.iter() {
        if !senders.contains(&line.from) {
            senders.push(line.from);
        }
    }
    let times: Vec<f64> = lines.iter().map(|line| line.after).collect();
    let mut queues: Vec<std::vec::IntoIter<BusLine>> = senders
        .iter()
        .rev()
        .map(|from| lines.iter().filter(|l| l.from == *from).cloned().collect::<Vec<_>>().into_iter())
        .collect();
    lines.clear();
    while queues.iter().any(|queue| queue.len() > 0) {
        lines.extend(queues.iter_mut().filter_map(Iterator::next));
    }
    for (line, after) in lines.iter_mut().zip(times) {
        line.begins += after - line.after;
        line.after = after;
    }
}

fn swap_texts(lines: &mut [BusLine], first: usize, second: usize) {
    if let Ok([a, b]) = lines.get_disjoint_mut([first, second]) {
        core::mem::swap(&mut a.text, &mut b.text);
    }
}

/// Puts another character in the place of the digit number `place`, spaces not counted.
fn replace_digit(text: &mut String, place: usize, other: impl Fn(char) -> char) {
    let mut digits = 0;
    *text = text
        .chars()
        .map(|c| {
            let here = c != ' ' && digits == place;
            digits += usize::from(c != ' ');
            if here { other(c) } else { c }
        })
        .collect();
}

/// The unit that answers for the transmission, or with another circuit's temperature: 7EA, or address 02.
/// Own choice: any but the engine's would do.
const OTHER_UNIT: u8 = 2;
/// The number of the coolant temperature.
/// Source: SAE J1979, from memory.
const COOLANT: u8 = 0x05;
/// How much cooler the other circuit is, and how much sooner or later its unit answers, ms.
/// Own choice: far enough that taking one for the other is seen, near enough that both are possible.
const OTHER_CIRCUIT_K: f64 = 36.0;
const LEAD_MS: f64 = 3.0;
/// How long a control unit lets wait after `7F .. 78`.
/// Own choice: within the 5 s that ISO 14229-1 allows, one below and one near the adapter's longest wait of 1.04 s.
const PENDING_MS: f64 = 400.0;
const PENDING_ALWAYS_MS: f64 = 900.0;
/// How often, and for how long, an answer has another length.
/// Own choice: half of the spell that the daemon believes (10 s), often enough to come in every job.
const LENGTH_EVERY_S: u64 = 15;
const LENGTH_FOR_S: u64 = 5;
/// How long an endless line is, and one that must be bounded.
/// Own choice: as long as the longest reply that is kept, and far beyond.
const LONG: usize = 4_096;
const ENDLESS: usize = 1 << 20;
