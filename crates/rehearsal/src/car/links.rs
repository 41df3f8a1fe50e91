//! What a host's port and the pauses between lines do to some adapters: who is let in, which characters are lost.
//!
//! In: when the host opens and closes its port, where it tells; the time. Out: whether it is let in. A host behind a
//! pseudo-terminal cannot tell. Source: the firmwares in `firmware/odd.rs`.

use std::time::Duration;

use units::Mono;

use super::{Car, Listening};
use crate::firmware::Habit;

/// The links there were since power-up.
#[derive(Debug, Clone, Default)]
pub(super) struct Links {
    opened: u32,
    /// Before this nobody is let in.
    shut_until: Option<Mono>,
}

impl Links {
    pub(super) fn lets_in(&self, now: Mono) -> bool {
        self.shut_until.is_none_or(|until| until <= now)
    }

    /// When somebody is let in again.
    pub(super) const fn opens_at(&self) -> Option<Mono> {
        self.shut_until
    }
}

impl Car {
    /// The host has opened its port.
    pub fn host_opened(&mut self, now: Mono) {
        self.catch_up(now);
        if self.state == Listening::Stuck {
            self.state = Listening::Awake;
        }
        if self.firmware.has(Habit::FirstLinkOnly) && self.links.opened > 0 {
            self.state = Listening::Hung;
        }
        if self.firmware.has(Habit::Telnet) {
            self.push(now, 0.0, TELNET.to_vec());
        }
        self.links.opened += 1;
    }

    /// The host has closed its port, or lost it.
    pub fn host_closed(&mut self, now: Mono) {
        self.catch_up(now);
        if self.firmware.has(Habit::SlowToLetIn) {
            self.links.shut_until = Some(now.after(SHUT));
        }
    }

    /// Whether the first character of a line that begins now is lost.
    pub(super) fn swallows(&self, now: Mono) -> bool {
        self.firmware.has(Habit::LosesFirst)
            || self.firmware.has(Habit::NeedsGap) && now < self.prompted.after(GAP)
    }

    /// Whether it refuses everything still.
    pub(super) fn is_not_itself(&self, now: Mono) -> bool {
        self.firmware.has(Habit::RefusesAtFirst) && now < self.powered_at.after(AT_FIRST)
    }

    /// Whether a request to the vehicle comes too soon behind the prompt.
    pub(super) fn is_too_early(&self, now: Mono) -> bool {
        self.firmware.has(Habit::StopsWhenEarly) && now < self.prompted.after(EARLY)
    }

    /// How much later a reply comes because the radio slept, ms.
    pub(super) fn wakes_ms(&self, now: Mono) -> f64 {
        let slept = self.firmware.has(Habit::WakesSlowly) && now > self.prompted.after(SLEEPS_AFTER);
        if slept { WAKES_MS } else { 0.0 }
    }
}

/// Will echo, will suppress go-ahead, do suppress go-ahead (RFC 854, 857, 858).
const TELNET: &[u8] = b"\xff\xfb\x01\xff\xfb\x03\xff\xfd\x03";
/// How long a door stays shut; the gap that is needed behind a prompt, and the one at which a request comes too early;
/// how long all is refused at first; after how long it sleeps, and how long it takes to wake.
/// Own choice: each plainly on the wrong side of what an adapter by the book does.
const SHUT: Duration = Duration::from_secs(9);
const GAP: Duration = Duration::from_millis(40);
const EARLY: Duration = Duration::from_millis(80);
const AT_FIRST: Duration = Duration::from_secs(8);
const SLEEPS_AFTER: Duration = Duration::from_secs(1);
const WAKES_MS: f64 = 1_500.0;
