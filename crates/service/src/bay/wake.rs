//! When gate and job are asked: whenever something happened, and when their own time has come.
//!
//! In: what happened, the time. Out: whether to ask, and from when on to wake again. Pure. Not here: what they answer.

use std::time::Duration;

use units::Mono;

/// Two wake-ups by time alone are at least so far apart.
/// Own choice: the step of our clock; without it a deadline that is not taken back would spin the loop.
const LEAST_PAUSE: Duration = Duration::from_millis(1);

/// See the module's words.
#[derive(Debug)]
pub(super) struct Wake {
    settled: Mono,
    /// When gate and job were asked the last time: what was due until then has been said.
    judged: Mono,
    /// Something happened since they were.
    stirred: bool,
}

impl Wake {
    pub(super) const fn new() -> Self {
        Self { settled: Mono::ZERO, judged: Mono::ZERO, stirred: true }
    }

    /// Something happened.
    pub(super) const fn stir(&mut self) {
        self.stirred = true;
    }

    /// A wake-up: whether anything happened since the last time they were asked.
    pub(super) const fn woken(&mut self, now: Mono) -> bool {
        self.settled = now;
        self.stirred
    }

    /// They are asked now.
    pub(super) const fn asks(&mut self, now: Mono) {
        self.judged = now;
    }

    /// They have said all that they had to say.
    pub(super) const fn rests(&mut self) {
        self.stirred = false;
    }

    pub(super) const fn judged(&self) -> Mono {
        self.judged
    }

    /// `at`, or a little after the last wake-up, so that nobody can spin on it.
    pub(super) fn not_at_once(&self, at: Mono) -> Mono {
        at.max(self.settled.after(LEAST_PAUSE))
    }
}
