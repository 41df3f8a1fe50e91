//! The serial rate: changing it by hand-shake, and what both sides hear while their rates differ.
//!
//! `ATBRD hh`: `OK`, a pause, the identification at the new rate; the host answers CR, the adapter `OK` and the prompt,
//! or it goes back. `STBR` of the other family likewise. Source: adapter reference, dialect section 3; data sheet p.13,
//! 51, 70.

use units::Mono;

use super::{Car, Reply, at};
use crate::fault::FaultKind;

/// A change of the rate under way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Switching {
    old: u32,
    new: u32,
    /// When the identification is said at the new rate.
    says: Option<Mono>,
    /// When it goes back.
    until: Mono,
}

impl Switching {
    /// When it goes on by itself.
    pub(super) fn next(&self) -> Mono {
        self.says.unwrap_or(self.until)
    }
}

impl Car {
    /// `OK` without a prompt.
    pub(super) fn begin_switching(&mut self, rate: u32, after: f64, now: Mono) {
        let end = self.end_of_line();
        let told = after + self.serial_ms(2 + end.len());
        self.push(now, told + self.serial.latency_ms, [b"OK", end].concat());
        let says = at(now, told + self.settings.rate_wait_ms());
        let identity = (self.identification().len() + 1) as f64 * 10_000.0 / f64::from(rate.max(1));
        let until = at(says, identity + self.serial.latency_ms + self.settings.rate_wait_ms());
        self.switching = Some(Switching { old: self.rate, new: rate, says: Some(says), until });
    }

    pub(super) fn go_on_switching(&mut self, now: Mono) {
        let Some(switching) = &mut self.switching else { return };
        if switching.says.is_some_and(|says| says <= now) {
            let says = switching.says.take().unwrap_or(now);
            self.rate = switching.new;
            let mut text = self.identification().as_bytes().to_vec();
            text.push(b'\r');
            if self.holds(FaultKind::RateSwitchNoise, now) {
                text = self.noise(text.len());
            }
            if !self.holds(FaultKind::RateSwitchDies, now) {
                let due = self.serial_ms(text.len()) + self.serial.latency_ms;
                self.push(says, due, text);
            }
        }
        if self.switching.is_some_and(|switching| switching.until <= now) {
            self.go_back();
        }
    }

    /// CR keeps the new rate, whatever else comes does not.
    pub(super) fn take_while_switching(&mut self, byte: u8, now: Mono) {
        let Some(switching) = self.switching else { return };
        if switching.says.is_some() || byte != b'\r' {
            return self.go_back();
        }
        self.switching = None;
        let (end, prompt) = (self.end_of_line(), self.prompt());
        let due = self.serial_ms(2 + end.len() + prompt.len()) + self.serial.latency_ms;
        let pieces = vec![(due, [b"OK", end].concat())];
        self.deliver(Reply { pieces, prompt: Some((due, prompt)), data: false }, now);
    }

    fn go_back(&mut self) {
        if let Some(switching) = self.switching.take() {
            self.rate = switching.old;
        }
    }

    const fn identification(&self) -> &'static str {
        match self.firmware.family {
            Some(family) => family,
            None => self.firmware.identity,
        }
    }

    /// Whether host and adapter understand each other: within 3 % (STN1100 manual p.10).
    pub(super) fn rates_agree(&self, adapter: u32) -> bool {
        self.host.is_none_or(|host| {
            let (host, adapter) = (f64::from(host), f64::from(adapter.max(1)));
            (host / adapter - 1.0).abs() <= 0.03
        })
    }

    /// What is heard of so many characters at the wrong rate: never what makes a line (X030 to X033).
    pub(super) fn noise(&mut self, chars: usize) -> Vec<u8> {
        let host = f64::from(self.host.unwrap_or(self.rate).max(1));
        let ratio = (host / f64::from(self.rate.max(1))).clamp(0.1, 1.0);
        let count = ((chars as f64 * ratio).ceil() as usize).max(1);
        (0..count).map(|_| self.dice.pick(NOISE).copied().unwrap_or(0xFF)).collect()
    }

    /// By how much the exchange that begins now may begin earlier, ms.
    pub(super) fn carried_ms(&mut self, now: Mono) -> f64 {
        let (when, late) = core::mem::replace(&mut self.carried, (Mono::ZERO, 0.0));
        if when == now { late } else { 0.0 }
    }
}

/// Bytes of public logs at the wrong rate.
/// Source: fixtures/reference/adapter/exchanges.csv, X030 to X033.
const NOISE: &[u8] = &[0xFF, 0x7F, 0xF8, 0xFD, 0xFA, 0x9E, 0xFE, 0xFC];
