//! The serial wire: the rate that it was found at, the one it has now, and when it goes back.
//!
//! In: what became of the hand-shake (`phase/raise.rs`), resets, the time. Out: the rate that the port is to have.
//! Method: section 3 of the dialect reference.

use std::time::Duration;

use units::Mono;

/// The rate that slow wires are raised to, and what it is called: 4000 / 23 hex kbit/s.
/// Source: data sheet pages 13 and 51; 0.8 % off by that division, which a serial port takes.
pub(crate) const FAST: u32 = 115_200;
/// Wires from this rate on stay as they are: from there on the vehicle is the limit.
/// Source: computed: fixtures/reference/adapter/poll_rate.csv: 30.6 exchanges a second at 38400, 34.3 at
/// 115200.
const ENOUGH: u32 = 38_400;
/// A reset ends the fast rate; the line that asks for it must be out first.
/// Own choice: its five characters take half a millisecond at that rate, and a chip may hold them for 16 ms.
const LINE_OUT: Duration = Duration::from_millis(100);

/// What is known of the wire.
#[derive(Debug, Default)]
pub(crate) struct Wire {
    /// The rate that the link was found at; none for links without one.
    found: Option<u32>,
    /// The rate that the port has now, if it was changed.
    raised: bool,
    tried: bool,
    /// What the caller has still to set.
    wanted: Option<u32>,
    /// When the port goes back.
    back_at: Option<Mono>,
}

impl Wire {
    pub(crate) fn opened(&mut self, found: Option<u32>) {
        *self = Self { found, ..Self::default() };
    }

    /// The rate that the caller is to set, told once.
    pub(crate) const fn take_wanted(&mut self) -> Option<u32> {
        self.wanted.take()
    }

    /// Whether it is worth it.
    pub(crate) fn is_slow(&self) -> bool {
        !self.tried && self.found.is_some_and(|rate| rate < ENOUGH)
    }

    pub(crate) const fn due(&self) -> Option<Mono> {
        self.back_at
    }

    /// A faster rate is offered: once on each link.
    pub(crate) fn offered(&mut self) {
        self.tried = true;
    }

    /// The adapter agrees to the faster rate.
    pub(crate) fn go_fast(&mut self) {
        (self.raised, self.wanted) = (true, Some(FAST));
    }

    pub(crate) fn go_back(&mut self) {
        if self.raised {
            (self.raised, self.wanted) = (false, self.found);
        }
        self.back_at = None;
    }

    /// `ATZ` leaves now: the adapter will speak at its own rate again.
    pub(crate) fn resetting(&mut self, now: Mono) {
        if self.raised {
            self.back_at = Some(now.after(LINE_OUT));
        }
    }

    pub(crate) fn handle_timeout(&mut self, now: Mono) {
        if self.back_at.is_some_and(|at| at <= now) {
            self.go_back();
        }
    }
}
