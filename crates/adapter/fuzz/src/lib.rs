//! The dialect machine under byte streams and times of a fuzzer's choice.
//!
//! The input is a script: each byte says what happens next, some take more bytes. Whatever happens, nothing outside the
//! allow-list leaves, nothing is written into a running exchange, no timer that has ended stays, and what is held is bounded.

#[path = "../../src/command/allowed.rs"]
mod allowed;

use std::time::Duration;

use adapter::{Codec, Driver, Header, Poll, Protocol, Schedule};
use frames::Ask;
use units::Mono;

/// Texts that adapters say, so that the fuzzer need not find them letter by letter.
const TEXTS: &[&[u8]] = &[
    b"OK\r\r>",
    b"OK\r",
    b"?\r\r>",
    b"ELM327 v2.1\r\r>",
    b"ELM327 v2.1\r",
    b"7E8064100BE3FA813\r\r>",
    b"86F1104100BE3FA8136C\r\r>",
    b"7E9056219405500\r\r>",
    b"7E80341057B\r\r>",
    b"41057B\r\r>",
    b"7E9037F2278\r",
    b"7E8101349020157\r7E82130303030303030\r",
    b"A6\r\r>",
    b"5\r\r>",
    b"SEARCHING...",
    b"BUS INIT: ...OK\r",
    b"UNABLE TO CONNECT\r\r>",
    b"NO DATA\r\r>",
    b"STOPPED\r\r>",
    b"CAN ERROR\r\r>",
    b"LV RESET\r\r>",
    b"ERR94\r\r>",
    b"BUFFER FULL\r\r>",
    b"\rLP ALERT\r",
    b"\rACT ALERT\r\r>",
    b"STN1110 v4.0.4\r\r>",
    b"12.6V\r\r>",
    b">",
    b"\r",
];

/// What an original in a vehicle that has everything says to `line`.
fn right(line: &[u8]) -> &'static [u8] {
    match line.trim_ascii_start() {
        b"ATI\r" | b"ATZ\r" | b"ATWS\r" => b"ELM327 v2.1\r\r>",
        b"AT@1\r" | b"STI\r" | b"ATQ9\r" => b"?\r\r>",
        b"ATRV\r" => b"12.6V\r\r>",
        b"ATDPN\r" => b"A6\r\r>",
        b"0100\r" => b"7E8064100BE3FA813\r\r>",
        line if line.starts_with(b"AT") => b"OK\r\r>",
        line if line.starts_with(b"0105") => b"7E80341057B\r\r>",
        line if line.starts_with(b"221940") => b"7E9056219405500\r\r>",
        _ => b"NO DATA\r\r>",
    }
}

fn schedule() -> Option<Schedule> {
    let to = |header: &str| Header::parse(header).ok();
    let poll = |ask| Poll::new(ask, Duration::from_millis(500));
    Some(Schedule {
        gating: Some(poll(Ask::Identifier(0x1940)).to(to("7E1")?)),
        others: vec![
            poll(Ask::Current(0x05)),
            poll(Ask::Current(0x0C)).to(to("750")?),
            poll(Ask::Current(0x0D)).to(to("18DA18F1")?),
            poll(Ask::Current(0x0F)).to(to("8218F1")?),
        ],
        once: vec![poll(Ask::VehicleInfo(0x02)), poll(Ask::StoredCodes)],
        floor: Duration::from_millis(20),
    })
}

struct Play {
    driver: Driver,
    now: Mono,
    last: Vec<u8>,
}

impl Play {
    /// Takes out what there is; at most one line may come.
    fn settle(&mut self) {
        let asking = self.driver.asking();
        let mut lines = 0;
        while let Some(line) = self.driver.poll_transmit(self.now) {
            let previous = (!self.last.is_empty()).then_some(self.last.as_slice());
            assert!(allowed::is_allowed_after(previous, &line), "{line:?}");
            assert!(asking.is_none(), "{line:?} into {asking:?}");
            self.last = line.to_vec();
            lines += 1;
            assert!(lines <= 1, "one line, one prompt");
        }
        if let Some(rate) = self.driver.poll_rate() {
            assert!(matches!(rate, 9_600 | 115_200), "{rate}");
        }
        let mut told = 0;
        while self.driver.poll_outcome().is_some() {
            told += 1;
            assert!(told < 100, "outcomes without end");
        }
        assert!(self.driver.history().iter().count() <= 32);
    }

    fn hear(&mut self, bytes: &[u8]) {
        self.driver.handle_bytes(bytes, self.now);
        self.settle();
    }

    /// Time passes, with every time-out on the way.
    fn wait(&mut self, millis: u64) {
        let until = self.now.after(Duration::from_millis(millis));
        for step in 0.. {
            assert!(step < 100_000, "time stands still: {:?}", self.driver.waiting_for());
            let Some(at) = self.driver.poll_timeout().filter(|at| *at <= until) else { break };
            self.now = self.now.max(at);
            self.driver.handle_timeout(self.now);
            self.settle();
            if self.driver.poll_timeout().is_some_and(|next| next <= self.now) {
                self.now = self.now.after(Duration::from_millis(1));
            }
        }
        self.now = self.now.max(until);
    }
}

/// Plays `script`.
pub fn driver(script: &[u8]) {
    let Some(schedule) = schedule() else { return };
    let Some((&first, mut rest)) = script.split_first() else { return };
    let mut driver = Driver::new(schedule);
    if first & 1 != 0 {
        driver = driver.thorough();
    }
    if first & 2 != 0 {
        driver.remember(Protocol::Iso14230Fast);
    }
    let rate = match first >> 2 & 3 {
        0 => None,
        1 => Some(9_600),
        _ => Some(115_200),
    };
    driver.handle_opened_at(rate, Mono::ZERO);
    let mut play = Play { driver, now: Mono::ZERO, last: Vec::new() };
    while let Some((&what, after)) = rest.split_first() {
        rest = after;
        match what {
            0..=0x3F => {
                let line = play.last.clone();
                play.hear(right(&line));
                play.wait(30);
            }
            0x40..=0x7F => {
                if let Some(text) = TEXTS.get(usize::from(what & 0x3F)) {
                    play.hear(text);
                }
            }
            0x80..=0xBF => play.wait(1 << (what & 0x0F)),
            0xC0..=0xEF => {
                let (bytes, after) = rest.split_at(usize::from(what & 0x2F).min(rest.len()));
                rest = after;
                play.hear(bytes);
            }
            0xF0..=0xF7 => {
                // A flood without a prompt.
                play.hear(&vec![what; 8 * Codec::REPLY_BYTES]);
            }
            0xF8..=0xFB => {
                play.driver.handle_closed(play.now);
                play.settle();
            }
            _ => {
                play.driver.handle_opened_at(rate, play.now);
                play.last.clear();
                play.settle();
            }
        }
    }
}
