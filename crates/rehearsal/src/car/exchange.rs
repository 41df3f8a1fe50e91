//! An exchange with the vehicle: who answers, when each line comes, how long the adapter listens, when the prompt
//! comes.
//!
//! In: hex digits. Out: a reply with its times, by the formulas at the head of poll_rate.csv:
//! the wait begins with the request and again with each answer; a count digit ends it at once.
//! Source: adapter reference, dialect sections 7, 8, 9.

use frames::Ecu;
use units::Mono;

use super::{Busy, Car, Reply, at};
use crate::bus::Target;
use crate::dialect::Switch;
use crate::ecu::Answer;
use crate::fault::FaultKind;
use crate::firmware::{Habit, Level};
use crate::layout::{self, Padding};

/// One line of an answer, and when its first and its last byte were on the bus, ms from now.
#[derive(Debug, Clone)]
pub(super) struct BusLine {
    pub(super) begins: f64,
    pub(super) after: f64,
    pub(super) text: String,
    pub(super) from: Ecu,
    /// Whether a frame of a long message that follows the first.
    pub(super) follows: bool,
    /// Whether it ends its message.
    pub(super) last: bool,
    pub(super) pending: bool,
}

impl Car {
    /// A request for the vehicle: hex digits, perhaps one more as the count of answers that are awaited.
    pub(super) fn ask(&mut self, digits: &str, sent: f64, now: Mono) {
        let (pairs, count) = digits.split_at(digits.len() & !1);
        let count = count.chars().next().and_then(|c| c.to_digit(16));
        let request: Vec<u8> = (0..pairs.len())
            .step_by(2)
            .filter_map(|i| u8::from_str_radix(pairs.get(i..i + 2)?, 16).ok())
            .collect();
        let no_digit = self.firmware.level < Level::V13 || self.firmware.has(Habit::NoDigit);
        if request.is_empty()
            || request.len() > 7
            || count == Some(0)
            || (count.is_some() && no_digit)
            || self.firmware.has(Habit::Deaf)
        {
            let odd = self.firmware.has(Habit::OddTexts);
            let text = match count {
                Some(_) if odd => "\r?WRONG HEXCHAR COUNT",
                None if odd => "VENDOR MODE",
                _ => "?",
            };
            return self.say_after(now, sent, text);
        }
        if self.is_too_early(now) {
            return self.say_after(now, sent, "STOPPED");
        }
        if self.goes_wrong(&request, now) {
            return;
        }
        if count.is_some() && self.firmware.has(Habit::DigitMeansNoData) {
            return self.say_after(now, sent + self.settings.wait_ms(), "NO DATA");
        }
        if let Some(text) = self.trouble.chip_error.take() {
            self.restart();
            self.settings.can_blocked = Switch::On;
            return self.say_after(now, sent + WORK_MS, text);
        }
        let ready = match self.connect(sent + WORK_MS, now) {
            Ok(ready) => ready,
            Err((after, text)) => {
                let after_now = at(now, after);
                self.busy = Some(Busy { until: after_now, searches_until: after_now });
                return self.say_after(now, after, text);
            }
        };
        if let Some(text) = self.disturbed(now) {
            return self.say_after(now, ready.start + 2.0, text);
        }
        let pause = self.bus_ends_ms + self.bus.pause_ms() + WORK_MS - now.as_secs_f64() * 1_000.0;
        let target = if ready.searched {
            Target::Everybody
        } else {
            self.bus.target(self.settings.to, self.settings.priority)
        };
        self.exchange(&request, target, count, ready.start.max(pause), now);
    }

    /// What the adapter says in place of an answer.
    fn disturbed(&mut self, now: Mono) -> Option<&'static str> {
        if self.trouble.silent_requests > 0 {
            self.trouble.silent_requests -= 1;
            return Some("NO DATA");
        }
        if self.holds(FaultKind::BusAsleep, now) && self.bus.form.is_can() {
            return Some("CAN ERROR");
        }
        let cases = [
            (FaultKind::NoData, 10, "NO DATA"),
            (FaultKind::Stopped, 30, "STOPPED"),
            (FaultKind::BusError, 30, "CAN ERROR"),
        ];
        let said = cases
            .into_iter()
            .find(|(kind, one_in, _)| self.strikes(*kind, *one_in, now))
            .map(|(.., text)| text);
        if said.is_none() && self.strikes(FaultKind::BusTrouble, 20, now) {
            return self.dice.pick(&["BUS BUSY", "BUS ERROR", "FB ERROR", "DATA ERROR"]).copied();
        }
        said
    }

    fn exchange(&mut self, request: &[u8], target: Target, count: Option<u32>, start: f64, now: Mono) {
        let asked = start + self.bus.request_ms(request.len());
        let asleep = self.has_fallen_asleep(self.bus, now);
        let mut answers = self.units.answers(request, target, &self.world);
        self.second_unit(request, target, &mut answers, now);
        if asleep || self.is_silent(now) {
            answers.clear();
            if self.bus.is_k_line() {
                // The next request starts the bus anew.
                self.settings.active = Switch::Off;
            }
        }
        self.falsify(request, &mut answers, now);
        answers.retain(|answer| self.hears(answer.from));
        answers.sort_by(|a, b| a.after_ms.total_cmp(&b.after_ms));
        let mut lines = self.on_the_bus(&answers, asked);
        self.spoil(&mut lines, now);
        let (shown, tail) = self.listen(lines, count, asked, now);
        let bus_ends = shown.last().map_or(asked, |line| line.after);
        self.bus_ends_ms = now.as_secs_f64() * 1_000.0 + bus_ends;
        let searches_until = self.busy.map_or(now, |busy| busy.searches_until);
        if shown.is_empty() && !self.counted_short(count) {
            let after = asked + self.settings.wait_ms();
            self.busy = Some(Busy { until: at(now, after), searches_until });
            self.missed = true;
            return self.say_after(now, after, "NO DATA");
        }
        let listened = self.show(shown, tail, asked, now);
        self.busy = Some(Busy { until: at(now, listened), searches_until });
    }

    /// Whether the filter lets a sender through.
    fn hears(&self, from: Ecu) -> bool {
        let (filter, mask) = self.settings.filter.unwrap_or(self.bus.heard());
        let left_over = self.stuck_filter.is_none_or(|only| only == from.id());
        !self.bus.form.is_can() || left_over && from.id() & mask == filter & mask
    }

    /// Whether a control unit is told to go on after the first frame of a long answer.
    fn acknowledges(&self, answer: &Answer) -> bool {
        let own = self.settings.flow_header;
        match self.settings.flow_mode {
            _ if !self.bus.form.is_can() => true,
            _ if !self.settings.acknowledges.is_on() => false,
            0 => self.bus.acknowledged_at(answer.from) == Some(answer.asked),
            1 => self.bus.target(own, self.settings.priority) == Target::One(answer.asked),
            // The identifier of the first frame goes back, to which no control unit listens (section 8).
            _ => false,
        }
    }

    /// All lines of all answers, by the time at which they are on the bus.
    fn on_the_bus(&self, answers: &[Answer], asked: f64) -> Vec<BusLine> {
        let padding = if self.firmware.has(Habit::PaddingShown) { Padding::Shown } else { Padding::Hidden };
        let can = self.bus.form.is_can();
        let (mut all, mut free) = (Vec::new(), asked);
        for answer in answers {
            let texts = layout::lines(self.bus.form, answer.from, &answer.data, &self.settings, padding);
            let frames = if can { layout::frames(answer.data.len()) } else { texts.len() };
            let goes_on = frames == 1 || self.acknowledges(answer);
            // Where headers are hidden, the length of a long message is a line of its own.
            let said_first = texts.len() - frames.min(texts.len());
            let begins = (asked + answer.after_ms).max(if can { asked } else { free });
            for (place, text) in texts.into_iter().enumerate() {
                let frame = place.saturating_sub(said_first);
                let follows = frame > 0;
                if follows && !goes_on {
                    break;
                }
                let bytes = if can { 0 } else { answer.data.len().min(MOST_IN_LINE) };
                let line_ms = self.bus.line_ms(bytes);
                let flow_control = if can && follows { line_ms + WORK_MS } else { 0.0 };
                let after = begins + flow_control + (line_ms + self.bus.gap_ms()) * frame as f64 + line_ms;
                free = after + self.bus.gap_ms();
                let pending = matches!(answer.data[..], [0x7F, _, 0x78]);
                let last = frame + 1 == frames;
                all.push(BusLine {
                    begins: after - line_ms,
                    after,
                    text,
                    from: answer.from,
                    follows,
                    last,
                    pending,
                });
            }
        }
        all.sort_by(|a, b| a.after.total_cmp(&b.after));
        all
    }

    /// What of that the adapter waits for, and how long it goes on waiting behind the last one.
    fn listen(
        &mut self,
        lines: Vec<BusLine>,
        count: Option<u32>,
        asked: f64,
        now: Mono,
    ) -> (Vec<BusLine>, f64) {
        let wait = self.settings.wait_ms();
        // It has learned how fast this vehicle answers: the longest wait there was.
        let mut before = asked;
        let slowest = lines.iter().filter(|line| !line.pending).fold(0.0_f64, |slowest, line| {
            let gap = line.after - core::mem::replace(&mut before, line.after);
            if line.begins <= line.after - gap + wait { slowest.max(gap) } else { slowest }
        });
        let tail = match self.settings.adaptive {
            _ if self.firmware.level < Level::V12 || self.firmware.has(Habit::FixedWait) => wait,
            0 => wait,
            1 => (ADAPTIVE_1 * slowest).min(wait),
            _ => (ADAPTIVE_2 * slowest).min(wait),
        };
        let waits_on = (self.firmware.level >= Level::V21 || self.firmware.family.is_some())
            && (self.bus.form.is_can() || self.bus.form == frames::Bus::Iso14230);
        let (mut until, mut counted) = (asked + wait, 0);
        let mut shown = Vec::new();
        for line in lines {
            if line.begins > until {
                break;
            }
            until = line.after + if line.pending && waits_on { PENDING_WAIT_MS } else { tail };
            counted += if self.firmware.has(Habit::CountsMessages) { u32::from(line.last) } else { 1 };
            shown.push(line);
            if count.is_some_and(|count| counted >= count) {
                if self.strikes(FaultKind::DigitShort, 5, now) {
                    shown.pop();
                }
                return (shown, 0.0);
            }
        }
        let end = shown.last().map_or(asked, |line| line.after);
        (shown, until - end)
    }

    fn as_it_writes(&self, text: String) -> String {
        if self.firmware.has(Habit::LowerCase) { text.to_ascii_lowercase() } else { text }
    }

    /// Only a count digit can end a reply without a line, and only the fault that makes it too short.
    fn counted_short(&self, count: Option<u32>) -> bool {
        count.is_some() && self.world.faults().iter().any(|fault| fault.kind == FaultKind::DigitShort)
    }

    /// Lines and prompt with their times; gives when the adapter has done with the bus.
    fn show(&mut self, shown: Vec<BusLine>, tail: f64, asked: f64, now: Mono) -> f64 {
        let end = self.end_of_line();
        let mut pieces = Vec::with_capacity(shown.len());
        let (mut chars, mut heard) = (0, asked);
        for line in self.mark(shown, now) {
            let line = BusLine { text: self.as_it_writes(line.text), ..line };
            chars += line.text.len() + end.len();
            heard = line.after;
            let arrives = line.after + self.serial_ms(line.text.len() + 1) + self.serial.latency_ms;
            let text = [line.text.as_bytes(), end].concat();
            if self.firmware.has(Habit::LinesTwice) {
                pieces.push((arrives, text.clone()));
            }
            pieces.push((arrives, text));
        }
        let prompt = self.prompt();
        // What is said is said while the adapter listens on (data sheet p.74).
        let listened = heard + tail.max(self.serial_ms(chars));
        let ends = listened + self.serial_ms(prompt.len()) + self.serial.latency_ms;
        self.deliver(Reply { pieces, prompt: Some((ends, prompt)), data: true }, now);
        listened
    }
}

/// Work inside the adapter before a request goes out, and before it acknowledges a first frame.
/// Source: assumption of fixtures/reference/adapter/poll_rate.csv; the second by its rows of six identifiers.
const WORK_MS: f64 = 1.0;
/// Factor of `ATAT1`, and of `ATAT2`.
/// Source: one worked case, data sheet page 52; the second is an assumption.
const ADAPTIVE_1: f64 = 1.55;
const ADAPTIVE_2: f64 = 1.2;
/// How long version 2.1 waits behind `7F .. 78`.
/// Source: data sheet page 45.
const PENDING_WAIT_MS: f64 = 5_000.0;
/// Data bytes in one line of a numbered answer on the older buses.
/// Source: data sheet page 42; SAE J1850, from memory.
const MOST_IN_LINE: usize = 7;
