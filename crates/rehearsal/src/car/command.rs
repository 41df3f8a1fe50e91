//! Lines from the host: what is a command to the adapter, what a request to the vehicle, and what is said to a command.
//!
//! Source: adapter reference, dialect sections 1, 2, 11; exchanges by their number.

use units::Mono;

use super::{Car, Listening, Reply};
use crate::dialect::{self, CommandReply, Switch};
use crate::fault::FaultKind;
use crate::firmware::{Habit, Level};

impl Car {
    /// One whole line. A lone CR repeats the last one (data sheet p.9, 12).
    pub(super) fn carry_out(&mut self, line: Vec<u8>, now: Mono) {
        if line.first() == Some(&b' ') && self.firmware.has(Habit::IgnoresSpaced) {
            return;
        }
        let sent = self.serial_ms(line.len() + 1) - self.carried_ms(now);
        if self.settings.echo.is_on() {
            let both = self.settings.line_feeds.is_on() && !self.firmware.has(Habit::LineFeedsStay);
            let end: &[u8] = if both { b"\r\n" } else { b"\r" };
            self.push(now, 0.0, [&line[..], end].concat());
        }
        let letters: Vec<u8> = line.iter().filter(|b| **b > b' ').map(u8::to_ascii_uppercase).collect();
        let letters = if letters.is_empty() { self.last_line.clone() } else { letters };
        self.last_line.clone_from(&letters);
        let text = String::from_utf8(letters).unwrap_or_default();
        let after = sent + COMMAND_MS;
        if self.firmware.has(Habit::Modem) {
            return self.answer_as_modem(&text, now, after);
        }
        if text != "ATI" && self.is_not_itself(now) {
            return self.say_after(now, after, "?");
        }
        if text.starts_with("ST") && self.firmware.has(Habit::ResetsOnSt) {
            self.restart();
            return self.say_banner(now, after + self.firmware.reset_ms as f64);
        }
        if let Some(word) = text.strip_prefix("AT") {
            self.answer_command(word, after, now);
        } else if let Some(word) = text.strip_prefix("ST") {
            let said = dialect::family_command(word, self.firmware);
            self.answer(said, after, now);
        } else if !text.is_empty() && text.bytes().all(|b| b.is_ascii_hexdigit()) {
            self.ask(&text, sent, now);
        } else {
            self.say_after(now, after, "?");
        }
    }

    fn answer_command(&mut self, word: &str, after: f64, now: Mono) {
        if self.strikes(FaultKind::CommandRefused, 6, now) {
            return self.say_after(now, after, "?");
        }
        let before = self.settings;
        let mut said = dialect::command(word, &mut self.settings, self.firmware);
        if word == "DPN" && self.firmware.has(Habit::LinesBeforeProtocol) {
            let number = if let CommandReply::Made(number) = &said { number.as_str() } else { "" };
            said =
                CommandReply::Made(format!("SEARCHING\r4100BE3EB811\r{}\r{number}", self.firmware.identity));
        }
        if word == "DPN" {
            said = self.number_said(said);
        }
        if matches!(word, "Z") {
            // By hand, so what kept CAN out of searches is forgotten, and the rate is that of power-up.
            self.settings.can_blocked = Switch::Off;
            self.stuck_filter = None;
            self.rate = self.serial.baud;
        } else if word != "FE" {
            self.settings.can_blocked = before.can_blocked;
        }
        self.answer(said, after, now);
    }

    /// What the dialect wants to be said.
    fn answer(&mut self, said: CommandReply, after: f64, now: Mono) {
        match said {
            CommandReply::Ok => self.say_after(now, after, "OK"),
            CommandReply::Stored => self.say_after(now, after + STORE_MS, "OK"),
            CommandReply::Unknown => self.say_after(now, after, "?"),
            CommandReply::Text(text) => self.say_after(now, after, text),
            CommandReply::Made(text) => self.say_after(now, after, &text),
            CommandReply::Voltage => self.say_volts(after, now),
            CommandReply::Banner(silence_ms) => self.say_banner(now, after + silence_ms as f64),
            CommandReply::Rate(rate) => self.begin_switching(rate, after, now),
            CommandReply::Hangs => self.state = Listening::Hung,
        }
    }

    /// What some say of the protocol in use.
    fn number_said(&self, said: CommandReply) -> CommandReply {
        if said == CommandReply::Unknown {
            return said;
        }
        if self.firmware.has(Habit::NumberZero) {
            return CommandReply::Text("A0");
        }
        if self.firmware.has(Habit::NumberWrong) {
            return CommandReply::Made(format!("A{:X}", self.settings.protocol ^ 1));
        }
        said
    }

    fn say_volts(&mut self, after: f64, now: Mono) {
        if self.firmware.has(Habit::VoltageCloses) {
            return self.trouble.cut_from(now.after(core::time::Duration::from_millis(1)));
        }
        let volts = if self.trouble.cranks(now) { CRANKING_VOLTS } else { self.world.shown().volts };
        if self.holds(FaultKind::OddVolts, now) {
            let turn = self.trouble.next_volts();
            return self.say_after(now, after, ODD_VOLTS.get(turn % ODD_VOLTS.len()).unwrap_or(&"?"));
        }
        if self.firmware.has(Habit::OddVoltage) {
            // X061: the prompt in place of the V.
            let text = format!("{volts:.1}");
            let due = after + self.serial_ms(text.len() + 1) + self.serial.latency_ms;
            let prompt = Some((due, b">".to_vec()));
            return self.deliver(Reply { pieces: vec![(due, text.into_bytes())], prompt, data: false }, now);
        }
        self.say_after(now, after, &format!("{volts:.1}V"));
    }

    /// The banner and a prompt, `after` ms from now.
    pub(super) fn say_banner(&mut self, now: Mono, after: f64) {
        if self.firmware.habits.iter().any(|h| matches!(h, Habit::Loop | Habit::Modem | Habit::Silent)) {
            return;
        }
        let single = self.firmware.has(Habit::SingleCr);
        let mut banner: Vec<u8> = Vec::new();
        if self.firmware.has(Habit::Nuls) {
            banner.extend([0; 4]);
        }
        if self.firmware.has(Habit::StrayByte) {
            banner.push(0xFC);
        }
        let lead = if single { Vec::new() } else { self.end_of_line().repeat(2) };
        banner.extend([&lead, self.firmware.identity.as_bytes(), self.end_of_line()].concat());
        let prompt = self.prompt();
        let due = after + self.serial_ms(banner.len() + prompt.len()) + self.serial.latency_ms;
        self.deliver(Reply { pieces: vec![(due, banner)], prompt: Some((due, prompt)), data: false }, now);
    }

    /// X011, X012: lines of its own, no prompt.
    fn answer_as_modem(&mut self, text: &str, now: Mono, after: f64) {
        let known = matches!(text, "AT" | "ATZ" | "ATI" | "ATE0" | "ATE1");
        if text == "ATE0" || text == "ATE1" {
            self.settings.echo = if text == "ATE0" { Switch::Off } else { Switch::On };
        }
        let said: &[u8] = if known { b"\r\nOK\r\n" } else { b"\r\nERROR\r\n" };
        self.push(now, after + self.serial_ms(said.len()), said.to_vec());
    }

    /// The text of a reset that the supply caused: 1.3 brought it, before only the banner tells.
    pub(super) fn say_supply_reset(&mut self, now: Mono) {
        if self.firmware.level >= Level::V13 {
            self.push(now, 0.0, b"\r\rLV RESET\r\r>".to_vec());
        } else {
            self.say_banner(now, 0.0);
        }
    }
}

/// Work inside the adapter on a command of its own.
/// Own choice: below what a wire takes; nothing hangs on it.
const COMMAND_MS: f64 = 2.0;
/// A write into its own memory.
/// Source: data sheet page 26.
const STORE_MS: f64 = 30.0;
/// A starter at work.
/// Source: common practice, no source.
const CRANKING_VOLTS: f64 = 7.8;
/// Dialect section 18, row 38.
const ODD_VOLTS: &[&str] = &["0.0V", "12.3", "OK", "?", "99.9V"];
