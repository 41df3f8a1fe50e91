//! The start of a protocol: at once, by a K line's address or pulse, or by a search.
//!
//! In: the settings and the bus of the vehicle. Out: when the first request can go, or what is said in its place.
//! Source: adapter reference, dialect section 5 and its exchanges X067 to X078.

use units::Mono;

use super::{Busy, Car, at};
use crate::bus::{Bus, Start};
use crate::dialect::Switch;
use crate::fault::FaultKind;
use crate::firmware::Habit;
use crate::world::Plug;

/// A protocol that is ready.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ready {
    /// From when on requests can be sent, ms from now.
    pub(super) start: f64,
    /// Whether it was found by a search just now: own headers do not count in it (data sheet p.37).
    pub(super) searched: bool,
}

/// Why no request can be sent: what is said, and when, ms from now.
pub(super) type InVain = (f64, &'static str);

impl Car {
    /// Starts the protocol where it is not in use yet.
    pub(super) fn connect(&mut self, start: f64, now: Mono) -> Result<Ready, InVain> {
        let ready = |start| Ok(Ready { start, searched: false });
        if self.settings.active.is_on() {
            let lost = core::mem::take(&mut self.missed) && self.firmware.has(Habit::SearchesAnew);
            return if lost {
                Ok(Ready { start: self.search_again(start, now), searched: false })
            } else {
                ready(start)
            };
        }
        if core::mem::take(&mut self.trouble.bad_start) {
            self.show_start(start, BAD_START_MS, now);
            return Err((start + BAD_START_MS, "ERROR"));
        }
        if self.trouble.vain_starts > 0 {
            self.trouble.vain_starts -= 1;
            return Err(self.search_in_vain(start, now));
        }
        let number = self.settings.protocol;
        let fits = number == self.bus.number;
        if fits && (!self.settings.auto.is_on() || !self.is_silent(now)) {
            let start = self.start_bus(start, now)?;
            self.settings.active = Switch::On;
            return ready(start);
        }
        if !self.settings.auto.is_on() {
            return Err(self.wrong_protocol(number, start, now));
        }
        let blocked = self.settings.can_blocked.is_on() && self.bus.form.is_can();
        if self.firmware.has(Habit::NoSearch) {
            let (_, text) = self.search_in_vain(start, now);
            return Err((start + NO_SEARCH_MS, text));
        }
        if blocked || self.is_silent(now) {
            return Err(self.search_in_vain(start, now));
        }
        self.settings.active = Switch::On;
        self.settings.protocol = self.bus.number;
        let slow = self.trouble.slow_search && self.holds(FaultKind::SlowSearch, now);
        let took = if slow { SLOW_SEARCH_MS } else { self.bus.search_ms + self.dice.between(0.0, 400.0) };
        let end = self.end_of_line();
        // The fault glues the data to the word.
        self.push(now, start, [self.searching(), if slow { b"" } else { end }].concat());
        let found = start + took;
        self.bus_ends_ms = now.as_secs_f64() * 1_000.0 + found;
        self.busy = Some(Busy { until: at(now, found), searches_until: at(now, found) });
        Ok(Ready { start: found, searched: true })
    }

    /// Whether no control unit is awake.
    pub(super) fn is_silent(&self, now: Mono) -> bool {
        self.world.key() == Plug::Out
            || self.holds(FaultKind::IgnitionOff, now)
            || self.holds(FaultKind::BusAsleep, now)
            || self.trouble.cranks(now)
    }

    /// The chosen bus, of the vehicle's own kind.
    fn start_bus(&mut self, start: f64, now: Mono) -> Result<f64, InVain> {
        let took = start_ms(self.bus.start);
        if self.bus.start == Start::None {
            return Ok(start);
        }
        self.show_start(start, took, now);
        if self.is_silent(now) {
            return Err((start + took, "ERROR"));
        }
        let end = self.end_of_line();
        self.push(now, start + took, [b"OK", end].concat());
        self.bus_ends_ms = now.as_secs_f64() * 1_000.0 + start + took;
        Ok(start + took)
    }

    /// The words of a start: dots come one by one where it is slow (X073).
    fn show_start(&mut self, start: f64, took: f64, now: Mono) {
        let word: &[u8] = if self.firmware.has(Habit::OddTexts) { b"BUSINIT: " } else { b"BUS INIT: " };
        self.push(now, start, word.to_vec());
        if took > start_ms(Start::Fast) * 2.0 {
            for dot in 1..=3 {
                self.push(now, start + took * f64::from(dot) / 4.0, b".".to_vec());
            }
        }
    }

    /// A fixed protocol that the vehicle does not speak.
    fn wrong_protocol(&mut self, number: u8, start: f64, now: Mono) -> InVain {
        let chosen = crate::bus::ALL.iter().find(|bus| bus.number == number);
        match chosen.map(|bus| bus.start) {
            Some(kind @ (Start::Slow | Start::Fast)) => {
                let took = start_ms(kind);
                self.show_start(start, took, now);
                (start + took, "ERROR")
            }
            Some(Start::None) if number <= 2 || self.bus.same_rate(number) => {
                (start + self.settings.wait_ms(), "NO DATA")
            }
            _ => (start + NO_CAN_MS, "CAN ERROR"),
        }
    }

    /// The word of a search, and a moment later the bus is there as before.
    fn search_again(&mut self, start: f64, now: Mono) -> f64 {
        let end = self.end_of_line();
        self.push(now, start, [self.searching(), end].concat());
        start + SEARCH_AGAIN_MS
    }

    fn search_in_vain(&mut self, start: f64, now: Mono) -> InVain {
        let end = self.end_of_line();
        self.push(now, start, [self.searching(), end].concat());
        (start + SEARCH_IN_VAIN_MS, "UNABLE TO CONNECT")
    }

    fn searching(&self) -> &'static [u8] {
        if self.firmware.has(Habit::OddTexts) { b"SEARCHING" } else { b"SEARCHING..." }
    }

    /// Whether an idle K line has fallen asleep: 5 s without a word, and the adapter does not keep it awake
    /// (data sheet p.33).
    pub(super) fn has_fallen_asleep(&self, bus: &Bus, now: Mono) -> bool {
        let idle_ms = now.as_secs_f64() * 1_000.0 - self.bus_ends_ms;
        bus.is_k_line()
            && self.settings.active.is_on()
            && self.settings.wake == 0
            && idle_ms > K_LINE_SLEEPS_MS
    }
}

/// How long a start takes (section 5: 5 baud 2 to 3 s; the fast one by ISO 14230-2: two times 25 ms, one message and
/// its answer, from memory).
const fn start_ms(start: Start) -> f64 {
    match start {
        Start::None => 0.0,
        Start::Slow => 2_400.0,
        Start::Fast => 180.0,
    }
}

/// A search through all protocols that finds none.
/// Own choice: nine protocols of some 1 s each.
const SEARCH_IN_VAIN_MS: f64 = 8_000.0;
/// A search that is none, and one for what is there.
/// Own choice: short beside the limit of an exchange, so that only what is said counts.
const NO_SEARCH_MS: f64 = 900.0;
const SEARCH_AGAIN_MS: f64 = 400.0;
/// A search that takes nearly its whole limit, and a start of a K line that fails.
/// Own choice: just below the limits of 30 and 10 s.
const SLOW_SEARCH_MS: f64 = 25_000.0;
const BAD_START_MS: f64 = 6_000.0;
/// How soon the absence of CAN is noticed.
/// Own choice: a frame that nobody acknowledges is sent a few times over.
const NO_CAN_MS: f64 = 60.0;
/// A K line sleeps after so long.
/// Source: data sheet page 33.
const K_LINE_SLEEPS_MS: f64 = 5_000.0;
