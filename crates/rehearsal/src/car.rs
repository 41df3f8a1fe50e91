//! The simulated vehicle as seen through its diagnostic connector: an ELM327-style adapter in front of control units.
//!
//! ```text
//!   bytes in ─► line ─► AT: dialect ──────────────► text ─┐
//!                    └► hex: ecu ─► layout ─► timing ─────┴─► pieces, each with its instant ─► faults ─► bytes out
//! ```
//!
//! Five doors, as every machine here has: [`Car::handle_bytes`], [`Car::poll_transmit`], [`Car::poll_timeout`],
//! [`Car::handle_timeout`], and the world behind it. Time is passed in and advances the world.
//! Not here: pseudo-terminal and clock (`pty.rs`, `clock.rs`).
//! Source: adapter reference, dialect sections 1, 2, 5, 9, 10, 13; times by the formulas at the head of poll_rate.csv.

use std::collections::VecDeque;
use std::time::Duration;

use events::Sheet;
use units::Mono;

use crate::dialect::{self, Said, Settings, Switch};
use crate::dice::Dice;
use crate::ecu::{Answer, ControlUnits};
use crate::fault::{Fault, FaultKind};
use crate::firmware::{Firmware, Habit};
use crate::layout::{self, Padding};
use crate::world::{Plug, World};

/// How the adapter hangs on the host.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SerialLine {
    /// Bits per second, ten of them a character.
    pub baud: u32,
    /// What driver and bus add to each reply, ms.
    pub latency_ms: f64,
}

impl SerialLine {
    /// 38400 through a USB bridge that holds short reads back for 16 ms.
    pub const USUAL: Self = Self { baud: 38_400, latency_ms: 16.0 };
}

/// The adapter and the vehicle behind it.
#[derive(Debug, Clone)]
pub struct Car {
    world: World,
    units: ControlUnits,
    firmware: &'static Firmware,
    serial: SerialLine,
    settings: Settings,
    dice: Dice,
    line: Vec<u8>,
    line_ends: Option<Mono>,
    last_line: Vec<u8>,
    /// What will be said, in order of time.
    out: VecDeque<(Mono, Vec<u8>)>,
    /// Until when the adapter works on the bus; a byte before interrupts it.
    busy_until: Option<Mono>,
    powered: Plug,
    resets_done: Vec<bool>,
}

impl Car {
    /// A vehicle with the adapter just plugged in; its banner is on the way.
    pub fn new(
        world: World,
        sheet: &Sheet,
        firmware: &'static Firmware,
        serial: SerialLine,
        seed: u64,
    ) -> Self {
        let resets_done = vec![false; world.faults().len()];
        let now = world.now();
        let mut car = Self {
            units: ControlUnits::new(sheet),
            world,
            firmware,
            serial,
            settings: Settings::DEFAULT,
            dice: Dice::part(seed, 0xCA12),
            line: Vec::new(),
            line_ends: None,
            last_line: Vec::new(),
            out: VecDeque::new(),
            busy_until: None,
            powered: Plug::Out,
            resets_done,
        };
        car.catch_up(now);
        car
    }

    /// Bytes from the host.
    pub fn handle_bytes(&mut self, bytes: &[u8], now: Mono) {
        self.catch_up(now);
        if self.powered == Plug::Out {
            return;
        }
        for byte in bytes {
            self.take(*byte, now);
        }
    }

    /// The bytes that are due at `now`; nothing where none are.
    pub fn poll_transmit(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.catch_up(now);
        let mut due = Vec::new();
        while self.out.front().is_some_and(|(at, _)| *at <= now) {
            if let Some((_, piece)) = self.out.pop_front() {
                due.extend(piece);
            }
        }
        if due.is_empty() { None } else { Some(self.through_the_line(due, now)) }
    }

    /// When something will happen here of itself.
    pub fn poll_timeout(&self) -> Option<Mono> {
        let said = self.out.front().map(|(at, _)| *at);
        let now = self.world.now();
        let edges = self
            .world
            .faults()
            .iter()
            .flat_map(|fault| [Some(fault.from), fault.lasts.map(|l| fault.from.after(l))]);
        let edge = edges.flatten().filter(|at| *at > now).min();
        [said, self.line_ends, edge].into_iter().flatten().min()
    }

    /// Does what is due at `now`.
    pub fn handle_timeout(&mut self, now: Mono) {
        self.catch_up(now);
        if self.line_ends.is_some_and(|at| at <= now) {
            self.line.clear();
            self.line_ends = None;
            self.say(now, "?");
        }
    }

    /// Whether the adapter is in the connector.
    pub fn plugged(&self) -> bool {
        self.world.adapter() == Plug::In
    }

    /// The vehicle.
    pub const fn world(&self) -> &World {
        &self.world
    }

    /// The vehicle, for hands.
    pub const fn world_mut(&mut self) -> &mut World {
        &mut self.world
    }

    /// Lets the world pass, and the adapter lose or get its supply.
    fn catch_up(&mut self, now: Mono) {
        self.world.advance(now);
        let plug = self.world.adapter();
        if plug != self.powered {
            self.powered = plug;
            self.forget();
            if plug == Plug::In {
                let banner = format!("\r\r{}\r\r>", self.firmware.identity);
                self.out.push_back((
                    now.after(Duration::from_millis(self.firmware.reset_ms)),
                    banner.into_bytes(),
                ));
            }
        }
        if plug == Plug::In {
            self.reset_by_fault(now);
        }
        if self.busy_until.is_some_and(|until| until <= now) {
            self.busy_until = None;
        }
    }

    /// A supply dip or a silent reset, each once.
    fn reset_by_fault(&mut self, now: Mono) {
        let due = self.world.faults().iter().zip(&self.resets_done).position(|(fault, done)| {
            !done && matches!(fault.kind, FaultKind::LvReset | FaultKind::SilentReset) && fault.holds(now)
        });
        let Some(place) = due else { return };
        let kind = self.world.faults().get(place).map(|fault| fault.kind);
        if let Some(done) = self.resets_done.get_mut(place) {
            *done = true;
        }
        self.forget();
        if kind == Some(FaultKind::LvReset) {
            self.out.push_back((now, b"\r\rLV RESET\r\r>".to_vec()));
        } else {
            self.out.push_back((now, b"\r>".to_vec()));
        }
    }

    fn forget(&mut self) {
        self.settings = Settings::DEFAULT;
        self.out.clear();
        self.line.clear();
        self.line_ends = None;
        self.busy_until = None;
    }

    fn take(&mut self, byte: u8, now: Mono) {
        if self.busy_until.is_some() {
            // Any byte stops work on the bus and is lost (data sheet p.9).
            self.busy_until = None;
            self.out.clear();
            self.say(now, "STOPPED");
            return;
        }
        match byte {
            0 => {}
            b'\r' => {
                let line = core::mem::take(&mut self.line);
                self.line_ends = None;
                self.carry_out(line, now);
            }
            _ if self.line.len() < LONGEST_LINE => {
                self.line.push(byte);
                self.line_ends = Some(now.after(UNFINISHED));
            }
            _ => {}
        }
    }

    /// One whole line. A lone CR repeats the last one (data sheet p.9, 12).
    fn carry_out(&mut self, line: Vec<u8>, now: Mono) {
        let sent = self.serial_ms(line.len() + 1);
        if self.settings.echo.is_on() {
            let end: &[u8] = if self.settings.line_feeds.is_on() { b"\r\n" } else { b"\r" };
            self.push(now, 0.0, [&line[..], end].concat());
        }
        let letters: Vec<u8> = line.iter().filter(|b| **b > b' ').map(u8::to_ascii_uppercase).collect();
        let letters = if letters.is_empty() { self.last_line.clone() } else { letters };
        self.last_line.clone_from(&letters);
        let text = String::from_utf8(letters).unwrap_or_default();
        if let Some(word) = text.strip_prefix("AT") {
            self.answer_command(word, sent, now);
        } else if let Some(word) = text.strip_prefix("ST") {
            let family = self.firmware.family.filter(|_| word == "I");
            self.say_after(now, sent + COMMAND_MS, family.unwrap_or("?"));
        } else if !text.is_empty() && text.bytes().all(|b| b.is_ascii_hexdigit()) {
            self.ask(&text, sent, now);
        } else {
            self.say_after(now, sent + COMMAND_MS, "?");
        }
    }

    fn answer_command(&mut self, word: &str, sent: f64, now: Mono) {
        let after = sent + COMMAND_MS;
        match dialect::command(word, &mut self.settings, self.firmware) {
            Said::Ok => self.say_after(now, after, "OK"),
            Said::Unknown => self.say_after(now, after, "?"),
            Said::Text(text) => self.say_after(now, after, text),
            Said::Made(text) => self.say_after(now, after, &text),
            Said::Voltage => {
                let text = format!("{:.1}V", self.world.shown().volts);
                self.say_after(now, after, &text);
            }
            Said::Banner(silence_ms) => {
                let banner = format!("\r\r{}", self.firmware.identity);
                self.say_after(now, after + silence_ms as f64, &banner);
            }
        }
    }

    /// A request for the vehicle: hex digits, perhaps one more as the count of answers that are awaited.
    fn ask(&mut self, digits: &str, sent: f64, now: Mono) {
        let (pairs, count) = digits.split_at(digits.len() & !1);
        let count = count.chars().next().and_then(|c| c.to_digit(16));
        let request: Vec<u8> = (0..pairs.len())
            .step_by(2)
            .filter_map(|i| u8::from_str_radix(pairs.get(i..i + 2)?, 16).ok())
            .collect();
        if request.is_empty() || request.len() > 7 || (count.is_some() && self.firmware.has(Habit::NoDigit)) {
            return self.say_after(now, sent + COMMAND_MS, "?");
        }
        let mut start = sent + WORK_MS;
        if !self.settings.active.is_on() {
            start = match self.connect(start, now) {
                Ok(start) => start,
                Err((after, text)) => {
                    self.busy_until = Some(at(now, after));
                    return self.say_after(now, after, text);
                }
            };
        }
        if let Some(text) = self.disturbed(now) {
            return self.say_after(now, start + 2.0, text);
        }
        self.exchange(&request, count, start, now);
    }

    /// Starts the protocol: at once where it is chosen, by a search where it is not.
    fn connect(&mut self, start: f64, now: Mono) -> Result<f64, (f64, &'static str)> {
        let fits = self.settings.protocol == VEHICLE_PROTOCOL;
        if !fits && !self.settings.auto.is_on() {
            return Err(match self.settings.protocol {
                3..=5 => (start + 3_000.0, "BUS INIT: ERROR"),
                7..=9 => (start + 60.0, "CAN ERROR"),
                _ => (start + self.settings.wait_ms(), "NO DATA"),
            });
        }
        if fits {
            self.settings.active = Switch::On;
            return Ok(start);
        }
        if self.holds(FaultKind::IgnitionOff, now) {
            let end = self.end_of_line();
            self.push(now, start, [b"SEARCHING...", end].concat());
            return Err((start + SEARCH_IN_VAIN_MS, "UNABLE TO CONNECT"));
        }
        self.settings.active = Switch::On;
        self.settings.protocol = VEHICLE_PROTOCOL;
        let end = self.end_of_line();
        self.push(now, start, [b"SEARCHING...", end].concat());
        Ok(start + SEARCH_MS + self.dice.between(0.0, 400.0))
    }

    /// What a fault says in place of an answer.
    fn disturbed(&mut self, now: Mono) -> Option<&'static str> {
        let cases = [
            (FaultKind::NoData, 10, "NO DATA"),
            (FaultKind::Stopped, 30, "STOPPED"),
            (FaultKind::BusError, 30, "CAN ERROR"),
        ];
        cases.into_iter().find(|(kind, one_in, _)| self.strikes(*kind, *one_in, now)).map(|(.., text)| text)
    }

    /// The exchange itself: who answers, how it looks, when each line and the prompt come.
    fn exchange(&mut self, request: &[u8], count: Option<u32>, start: f64, now: Mono) {
        let mut answers = self.units.answers(request, self.settings.to, &self.world);
        if self.holds(FaultKind::IgnitionOff, now) {
            answers.clear();
        }
        self.falsify(&mut answers, now);
        let (filter, mask) = self.settings.filter;
        answers.retain(|answer| answer.from & mask == filter & mask);
        answers.sort_by(|a, b| a.after_ms.total_cmp(&b.after_ms));

        let padding = if self.firmware.has(Habit::PaddingShown) { Padding::Shown } else { Padding::Hidden };
        let end = self.end_of_line();
        let (mut lines, mut chars, mut slowest, mut counted) = (0_u32, 0, 0.0_f64, false);
        for answer in &answers {
            let frames = layout::frames(answer.data.len());
            let flow_control = if frames > 1 { 1 } else { 0 };
            let came = answer.after_ms + FRAME_MS * (frames + flow_control) as f64;
            slowest = slowest.max(came);
            for text in layout::lines(answer.from, &answer.data, &self.settings, padding) {
                chars += text.len() + end.len();
                lines += 1;
                let shown_at =
                    start + FRAME_MS + came + self.serial_ms(text.len() + 1) + self.serial.latency_ms;
                self.push(now, shown_at, [text.as_bytes(), end].concat());
                counted = count.is_some_and(|count| lines >= count);
                if counted {
                    break;
                }
            }
            if counted {
                break;
            }
        }
        if answers.is_empty() {
            let after = start + FRAME_MS + self.settings.wait_ms();
            self.busy_until = Some(at(now, after));
            return self.say_after(now, after + self.serial.latency_ms, "NO DATA");
        }
        let tail = match (counted, self.settings.adaptive) {
            (true, _) => 0.0,
            (false, 0) => self.settings.wait_ms(),
            (false, 1) => (ADAPTIVE_1 * slowest).min(self.settings.wait_ms()),
            (false, _) => (ADAPTIVE_2 * slowest).min(self.settings.wait_ms()),
        };
        let prompt = self.prompt();
        let prompt_ms = self.serial_ms(prompt.len());
        let listened = start + FRAME_MS + slowest + tail.max(self.serial_ms(chars));
        self.busy_until = Some(at(now, listened));
        let mut ends = listened + prompt_ms + self.serial.latency_ms;
        if self.strikes(FaultKind::LatePrompt, 20, now) {
            ends += 1_200.0;
        }
        self.push(now, ends, prompt);
    }

    /// What faults do to the answers of the control units.
    fn falsify(&mut self, answers: &mut Vec<Answer>, now: Mono) {
        let wrong = self.holds(FaultKind::WrongEcu, now);
        for answer in answers.iter_mut().filter(|a| wrong && matches!(a.data.first(), Some(0x61 | 0x62))) {
            answer.from = 0x7EA;
            if let Some(last) = answer.data.last_mut() {
                *last = last.saturating_add(10);
            }
        }
        if self.strikes(FaultKind::Pending, 15, now) {
            let Some(first) = answers.first_mut() else { return };
            let service = first.data.first().copied().unwrap_or(0x41).wrapping_sub(0x40);
            let pending =
                Answer { from: first.from, after_ms: first.after_ms, data: vec![0x7F, service, 0x78] };
            first.after_ms += PENDING_MS;
            if self.firmware.has(Habit::PendingEnds) {
                answers.remove(0);
            }
            answers.insert(0, pending);
        }
    }

    /// Loses, changes and doubles bytes, as the faults say.
    fn through_the_line(&mut self, bytes: Vec<u8>, now: Mono) -> Vec<u8> {
        let line_faults =
            [FaultKind::DropBytes, FaultKind::FlipBytes, FaultKind::DuplicateBytes, FaultKind::NulBytes];
        if !line_faults.iter().any(|kind| self.holds(*kind, now)) {
            return bytes;
        }
        let mut out = Vec::with_capacity(bytes.len() + 4);
        for byte in bytes {
            if self.strikes(FaultKind::NulBytes, 50, now) {
                out.push(0);
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

    fn holds(&self, kind: FaultKind, now: Mono) -> bool {
        self.world.faults().iter().any(|fault: &Fault| fault.kind == kind && fault.holds(now))
    }

    fn strikes(&mut self, kind: FaultKind, one_in: usize, now: Mono) -> bool {
        self.holds(kind, now) && self.dice.below(one_in) == 0
    }

    fn say(&mut self, now: Mono, text: &str) {
        self.say_after(now, 0.0, text);
    }

    /// A text and the prompt, `after` ms from now.
    fn say_after(&mut self, now: Mono, after: f64, text: &str) {
        let end = self.end_of_line();
        let prompt = self.prompt();
        let chars = text.len() + end.len() + prompt.len();
        let mut whole = Vec::with_capacity(chars);
        whole.extend(text.as_bytes());
        whole.extend(end);
        whole.extend(prompt);
        self.push(now, after + self.serial_ms(chars) + self.serial.latency_ms, whole);
    }

    fn push(&mut self, now: Mono, after_ms: f64, bytes: Vec<u8>) {
        let due = at(now, after_ms).max(self.out.back().map_or(now, |(last, _)| *last));
        self.out.push_back((due, bytes));
    }

    fn end_of_line(&self) -> &'static [u8] {
        if self.settings.line_feeds.is_on() { b"\r\n" } else { b"\r" }
    }

    fn prompt(&self) -> Vec<u8> {
        if self.firmware.has(Habit::SingleCr) { b">".to_vec() } else { [self.end_of_line(), b">"].concat() }
    }

    fn serial_ms(&self, chars: usize) -> f64 {
        chars as f64 * 10_000.0 / f64::from(self.serial.baud.max(1))
    }
}

/// The instant `after_ms` from `now`, at the end of its millisecond.
fn at(now: Mono, after_ms: f64) -> Mono {
    now.after(Duration::from_millis(after_ms.max(0.0).ceil() as u64))
}

/// Work inside the adapter before a request goes out (assumption of poll_rate.csv).
const WORK_MS: f64 = 1.0;
/// Work inside the adapter on a command of its own. Chosen; no source.
const COMMAND_MS: f64 = 2.0;
/// A frame on CAN 11/500 (data sheet p.74).
const FRAME_MS: f64 = 0.22;
/// Factor of `ATAT1` (one worked case, data sheet p.52); of `ATAT2` an assumption.
const ADAPTIVE_1: f64 = 1.55;
const ADAPTIVE_2: f64 = 1.2;
/// A search that finds CAN 11/500 among the first. Chosen; no source.
const SEARCH_MS: f64 = 700.0;
/// A search through all protocols that finds none. Chosen; no source.
const SEARCH_IN_VAIN_MS: f64 = 8_000.0;
/// How long a control unit lets wait after `7F .. 78`. Chosen; ISO 14229-1 allows 5 s.
const PENDING_MS: f64 = 400.0;
/// An unfinished line is dropped after this (data sheet p.8).
const UNFINISHED: Duration = Duration::from_secs(20);
/// No command is longer.
const LONGEST_LINE: usize = 256;
/// CAN, 11 bit, 500 kbit/s.
const VEHICLE_PROTOCOL: u8 = 6;
