//! A bench for stories: one driver, one fake adapter with a fake vehicle, and a clock that only jumps.
//!
//! In: what the vehicle answers, and what goes wrong. Out: everything the driver told and everything it sent. Each line
//! it sends is held against the allow-list. Nothing waits: time moves to whatever happens next.

#![allow(unreachable_pub, reason = "one bench for several crates of tests")]
#![allow(dead_code, reason = "each story uses its part of the bench")]

#[path = "../../src/command/allowed.rs"]
mod allowed;

use std::collections::BTreeMap;
use std::time::Duration;

use adapter::{Driver, Header, Outcome, Poll, Schedule};
use frames::write::{self, Linefeeds, Spaces};
use frames::{Ask, Bus, Ecu, Headers, Layout};
use units::Mono;

#[allow(unused_imports, reason = "each story uses its part of the bench")]
pub(crate) use allowed::is_allowed_after;

/// A piece of a reply: how many milliseconds after the line came, and the bytes.
pub type Piece = (u64, Vec<u8>);

/// What the fake says instead of its own answer to the line, given how often that line came before.
pub type Twist = Box<dyn FnMut(&str, u32, &mut Flags) -> Option<Vec<Piece>>>;

/// The adapter's settings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flags {
    pub echo: bool,
    pub line_feeds: bool,
    pub spaces: bool,
    pub headers: bool,
    pub header: String,
    pub filter: Option<String>,
    pub protocol: char,
}

impl Default for Flags {
    fn default() -> Self {
        Self {
            echo: true,
            line_feeds: true,
            spaces: true,
            headers: false,
            header: "7DF".to_owned(),
            filter: None,
            protocol: '0',
        }
    }
}

pub struct Fake {
    pub flags: Flags,
    pub number: char,
    /// What each control unit answers: (replies from, asked by) and data by request.
    pub units: BTreeMap<(String, String), BTreeMap<String, String>>,
    pub twist: Option<Twist>,
    /// At most so many bytes in one read; 0 for no limit.
    pub piece: usize,
    /// A zero byte after so many; 0 for none.
    pub nul_every: usize,
    /// Lines that came, with their times.
    pub heard: Vec<(Mono, String)>,
    counts: BTreeMap<String, u32>,
    line: String,
    out: Vec<(Mono, Vec<u8>)>,
    given: usize,
}

impl Fake {
    pub fn new() -> Self {
        let mut fake = Self {
            flags: Flags::default(),
            number: '6',
            units: BTreeMap::new(),
            twist: None,
            piece: 0,
            nul_every: 0,
            heard: Vec::new(),
            counts: BTreeMap::new(),
            line: String::new(),
            out: Vec::new(),
            given: 0,
        };
        fake.answer("7E8", "0100", "4100BE3FA813");
        fake.answer("7E9", "0100", "410098188001");
        fake.answer("7E8", "0105", "41057B");
        fake.answer("7E8", "010C", "410C1AF8");
        fake.answer("7E9", "221940", "6219405500");
        fake.answer("7E8", "0902", "490201573051515151515131323334353637383930");
        fake
    }

    pub fn answer(&mut self, ecu: &str, ask: &str, data: &str) {
        let id = u32::from_str_radix(ecu, 16).unwrap();
        let asked_by = if id > 0x7FF { format!("DA{:02X}F1", id & 0xFF) } else { format!("{:03X}", id - 8) };
        self.units.entry((ecu.to_owned(), asked_by)).or_default().insert(ask.to_owned(), data.to_owned());
    }

    pub fn says(&mut self, at: Mono, bytes: &[u8]) {
        self.out.push((at, bytes.to_vec()));
        self.out.sort_by_key(|(at, _)| *at);
    }

    fn hear(&mut self, bytes: &[u8], now: Mono) {
        for &byte in bytes {
            if byte == b'\r' {
                let line = std::mem::take(&mut self.line);
                self.obey(line.trim().to_owned(), now);
            } else {
                self.line.push(char::from(byte));
            }
        }
        // A byte interrupts what is under way: the rest of it never comes.
        if bytes == b" " && !self.out.is_empty() {
            self.out.clear();
            self.line.clear();
            self.says(now, b"STOPPED\r\r>");
        }
    }

    fn obey(&mut self, typed: String, now: Mono) {
        self.heard.push((now, typed.clone()));
        let (line, digit) = split_digit(&typed);
        let line = line.to_owned();
        let count = self.counts.entry(line.clone()).or_default();
        *count += 1;
        let before = *count - 1;
        if let Some(twist) = &mut self.twist
            && let Some(pieces) = twist(&line, before, &mut self.flags)
        {
            for (after, bytes) in pieces {
                self.says(now.after(Duration::from_millis(after)), &bytes);
            }
            return;
        }
        let echo = self.flags.echo;
        let (mut after, mut lines) = self.own_answer(&line);
        if let Some(digit) = digit {
            // So many lines, and no waiting for more.
            lines.truncate(digit as usize);
            after = after.min(20);
        }
        let feeds = if self.flags.line_feeds { Linefeeds::On } else { Linefeeds::Off };
        let mut text = write::text(&lines, feeds);
        if lines.first().is_some_and(|line| line.starts_with("ELM327"))
            && matches!(line.as_str(), "ATZ" | "ATWS")
        {
            text = format!("\r\r{text}");
        }
        if echo {
            text = format!("{typed}\r{text}");
        }
        self.says(now.after(Duration::from_millis(after)), text.as_bytes());
    }

    fn own_answer(&mut self, line: &str) -> (u64, Vec<String>) {
        let one = |text: &str| (5, vec![text.to_owned()]);
        let flags = &mut self.flags;
        match line {
            "ATI" => return one("ELM327 v2.1"),
            "ATWS" | "ATZ" => {
                *flags = Flags { protocol: flags.protocol, ..Flags::default() };
                return (if line == "ATZ" { 800 } else { 5 }, vec!["ELM327 v2.1".to_owned()]);
            }
            "AT@1" => return one("OBDII to RS232 Interpreter"),
            "ATRV" => return one("12.6V"),
            "ATDPN" => {
                return one(&format!("{}{}", if flags.protocol == '0' { "A" } else { "" }, self.number));
            }
            "STI" | "ATQ9" | "AT@2" => return one("?"),
            "ATE0" => flags.echo = false,
            "ATL0" => flags.line_feeds = false,
            "ATS0" => flags.spaces = false,
            "ATH1" => flags.headers = true,
            "ATAR" => flags.filter = None,
            "ATSP0" => flags.protocol = '0',
            _ => {
                if let Some(header) = line.strip_prefix("ATSH") {
                    header.clone_into(&mut flags.header);
                } else if let Some(filter) = line.strip_prefix("ATCRA") {
                    flags.filter = Some(filter.to_owned());
                } else if let Some(number) = line.strip_prefix("ATTP") {
                    flags.protocol = number.chars().next().unwrap();
                } else if !line.starts_with("AT") {
                    return self.vehicle(line);
                }
            }
        }
        one("OK")
    }

    fn vehicle(&self, ask: &str) -> (u64, Vec<String>) {
        let flags = &self.flags;
        let bus = match self.number {
            '7' | '9' => Bus::Can29,
            '3' => Bus::Iso9141,
            '4' | '5' => Bus::Iso14230,
            _ => Bus::Can11,
        };
        let headers = if flags.headers { Headers::Shown } else { Headers::Hidden };
        let spaces = if flags.spaces { Spaces::On } else { Spaces::Off };
        let mut lines = Vec::new();
        for ((ecu, asked_by), answers) in &self.units {
            let asked = flags.header == "7DF" || flags.header == *asked_by;
            let heard = flags.filter.as_ref().is_none_or(|filter| filter == ecu);
            if let Some(data) = answers.get(ask).filter(|_| asked && heard) {
                let data: Vec<u8> = (0..data.len())
                    .step_by(2)
                    .map(|at| u8::from_str_radix(&data[at..at + 2], 16).unwrap())
                    .collect();
                let ecu: Ecu = ecu.parse().unwrap();
                lines.extend(write::lines(ecu, &data, Layout { bus, headers }, spaces, None).unwrap());
            }
        }
        if lines.is_empty() { (205, vec!["NO DATA".to_owned()]) } else { (40, lines) }
    }

    fn next(&self) -> Option<Mono> {
        self.out.first().map(|(at, _)| *at)
    }

    fn read(&mut self) -> Vec<u8> {
        let (at, mut bytes) = self.out.remove(0);
        if self.piece > 0 && bytes.len() > self.piece {
            let rest = bytes.split_off(self.piece);
            self.out.insert(0, (at.after(Duration::from_millis(1)), rest));
        }
        let mut all = Vec::new();
        for byte in bytes {
            all.push(byte);
            self.given += 1;
            if self.nul_every > 0 && self.given.is_multiple_of(self.nul_every) {
                all.push(0);
            }
        }
        all
    }
}

pub struct Bench {
    pub driver: Driver,
    pub fake: Fake,
    pub now: Mono,
    pub told: Vec<(Mono, Outcome)>,
    pub sent: Vec<(Mono, String)>,
    /// The last line as it was written.
    last: Option<Vec<u8>>,
    /// The rates that the port was set to.
    pub rates: Vec<(Mono, u32)>,
}

pub fn coolant() -> Poll {
    Poll::new(Ask::Current(0x05), Duration::from_millis(500))
}

pub fn fluid() -> Poll {
    Poll::new(Ask::Identifier(0x1940), Duration::from_millis(500)).to(Header::parse("7E1").unwrap())
}

pub fn speed() -> Poll {
    Poll::new(Ask::Current(0x0C), Duration::from_secs(2))
}

impl Bench {
    pub fn new(schedule: Schedule) -> Self {
        let (driver, fake) = (Driver::new(schedule), Fake::new());
        let mut bench = Self {
            driver,
            fake,
            now: Mono::ZERO,
            told: Vec::new(),
            sent: Vec::new(),
            last: None,
            rates: Vec::new(),
        };
        bench.driver.handle_opened(Mono::ZERO);
        bench
    }

    /// Only the coolant temperature, from everybody.
    pub fn with_coolant() -> Self {
        Self::new(Schedule { gating: Some(coolant()), ..Schedule::default() })
    }

    pub fn twist(&mut self, twist: impl FnMut(&str, u32, &mut Flags) -> Option<Vec<Piece>> + 'static) {
        self.fake.twist = Some(Box::new(twist));
    }

    /// Lets `span` pass.
    pub fn run(&mut self, span: Duration) {
        let end = self.now.after(span);
        for step in 0.. {
            assert!(step < 200_000, "no end: {:?}", &self.sent[self.sent.len() - 10..]);
            self.settle();
            let next = [self.driver.poll_timeout(), self.fake.next()].into_iter().flatten().min();
            let Some(next) = next.filter(|next| *next <= end) else { break };
            self.now = self.now.max(next);
            if self.fake.next().is_some_and(|at| at <= self.now) {
                let bytes = self.fake.read();
                self.driver.handle_bytes(&bytes, self.now);
            }
            self.driver.handle_timeout(self.now);
        }
        self.now = end;
    }

    pub fn settle(&mut self) {
        while let Some(line) = self.driver.poll_transmit(self.now) {
            let last = self.last.replace(line.to_vec());
            assert!(is_allowed_after(last.as_deref(), &line), "{line:?}");
            self.sent.push((self.now, String::from_utf8_lossy(&line).trim().to_owned()));
            self.fake.hear(&line, self.now);
        }
        if let Some(rate) = self.driver.poll_rate() {
            self.rates.push((self.now, rate));
        }
        while let Some(outcome) = self.driver.poll_outcome() {
            self.told.push((self.now, outcome));
        }
    }

    /// What was told, in one word each, answers and voltages left out.
    pub fn words(&self) -> Vec<String> {
        self.told.iter().filter_map(|(_, outcome)| word(outcome)).collect()
    }

    /// The data of all answers, as `ECU DATA`.
    pub fn answers(&self) -> Vec<String> {
        let answers = self.told.iter().filter_map(|(_, outcome)| match outcome {
            Outcome::Answer { messages, .. } => Some(messages),
            _ => None,
        });
        let hex = |data: &[u8]| data.iter().map(|byte| format!("{byte:02X}")).collect::<String>();
        answers
            .flatten()
            .map(|message| {
                let ecu = message.ecu.map_or_else(|| "-".to_owned(), |ecu| ecu.to_string());
                format!("{ecu} {}", hex(&message.data))
            })
            .collect()
    }

    pub fn count(&self, line: &str) -> usize {
        self.sent.iter().filter(|(_, sent)| split_digit(sent).0 == line).count()
    }

    /// When `word` was told first.
    pub fn when(&self, want: &str) -> Option<Mono> {
        self.told.iter().find(|(_, outcome)| word(outcome).as_deref() == Some(want)).map(|(at, _)| *at)
    }
}

pub fn word(outcome: &Outcome) -> Option<String> {
    Some(match outcome {
        Outcome::Answer { .. } | Outcome::Voltage { .. } => return None,
        Outcome::Found { .. } => "found".to_owned(),
        Outcome::Quirk(quirk) => format!("quirk {}", quirk.word()),
        Outcome::Connected { .. } => "connected".to_owned(),
        Outcome::VehicleSilent { detail, .. } => format!("silent {}", detail.word()),
        Outcome::Declined { code, .. } => format!("declined {:02X}", code.code),
        Outcome::NoAnswer { why, .. } => format!("no-answer {}", why.word()),
        Outcome::Suspect { why, .. } => format!("suspect {}", why.word()),
        Outcome::NotAnAdapter { why } => format!("not-an-adapter {}", why.word()),
        Outcome::Reset { sign } => format!("reset {}", sign.word()),
        Outcome::Lost { why, .. } => format!("lost {}", why.word()),
        other => format!("{other:?}"),
    })
}

/// A request and its count digit: an odd number of hexadecimal digits has one.
pub fn split_digit(line: &str) -> (&str, Option<u32>) {
    let hex = line.bytes().all(|byte| byte.is_ascii_hexdigit()) && !line.is_empty();
    match line.len() % 2 {
        1 if hex => {
            let (request, digit) = line.split_at(line.len() - 1);
            (request, u32::from_str_radix(digit, 16).ok())
        }
        _ => (line, None),
    }
}

/// One piece, right away.
pub fn say(text: &str) -> Option<Vec<Piece>> {
    Some(vec![(5, text.as_bytes().to_vec())])
}
