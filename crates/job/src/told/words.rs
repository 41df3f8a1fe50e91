//! How many remarks, photos and names of the vehicle one job takes, and how fast.
//!
//! In: that one was told, and when. Out: whether the next one may be. Whoever may tell could else fill the disk, and a daemon
//! whose disk is full stops in the middle of a job. What hands do is never counted here and never refused for its number.

use std::time::Duration;

use events::Refusal;
use units::Mono;

/// So many a job.
/// Own choice: a long service with a remark a minute has half of it.
const MOST: u32 = 300;
/// So many at once.
/// Own choice: as when a browser that was out of contact sends what waited.
const BURST: u32 = 10;
/// And then one in so long.
/// Own choice: faster than anybody types.
const EVERY: Duration = Duration::from_millis(500);

/// What was told so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Words {
    told: u32,
    /// When all that were told would have come, had they come at the steady pace.
    due: Mono,
}

impl Default for Words {
    fn default() -> Self {
        Self { told: 0, due: Mono::ZERO }
    }
}

impl Words {
    /// Whether one more may be told now.
    pub(crate) fn more(self, now: Mono) -> Result<(), Refusal> {
        if self.told >= MOST {
            return Err(Refusal::TooMany);
        }
        if self.ahead(now) > EVERY * (BURST - 1) { Err(Refusal::TooFast) } else { Ok(()) }
    }

    /// One more was told.
    pub(crate) fn told(&mut self, now: Mono) {
        self.told = self.told.saturating_add(1);
        self.due = now.after(self.ahead(now) + EVERY);
    }

    /// How far ahead of the steady pace; nothing where the clock began anew, as at a restart.
    fn ahead(self, now: Mono) -> Duration {
        let ahead = self.due.since(now);
        if ahead > EVERY * BURST { Duration::ZERO } else { ahead }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tells as often as it may; gives how many were taken.
    fn told(words: &mut Words, now: u64, times: u32) -> u32 {
        let at = Mono::from_millis(now);
        let mut count = 0;
        for _ in 0..times {
            if words.more(at).is_ok() {
                words.told(at);
                count += 1;
            }
        }
        count
    }

    #[test]
    fn a_burst_and_then_a_steady_pace() {
        let mut words = Words::default();
        assert_eq!(told(&mut words, 1_000, 99), BURST);
        assert_eq!(words.more(Mono::from_millis(1_000)), Err(Refusal::TooFast));
        assert_eq!(told(&mut words, 1_499, 99), 0, "not yet");
        assert_eq!(told(&mut words, 1_500, 99), 1);
        assert_eq!(told(&mut words, 3_000, 99), 3);
        assert_eq!(told(&mut words, 60_000, 99), BURST, "rested");
    }

    #[test]
    fn a_clock_that_begins_anew_holds_nobody_up() {
        let mut words = Words::default();
        told(&mut words, 9_000_000, BURST);
        assert_eq!(told(&mut words, 10, 99), BURST);
    }

    #[test]
    fn so_many_a_job_whatever_the_pace() {
        let mut words = Words::default();
        let taken: u32 = (0..2_000).map(|n| told(&mut words, n * 10_000, 1)).sum();
        assert_eq!(taken, MOST);
        assert_eq!(words.more(Mono::from_secs(999_999)), Err(Refusal::TooMany));
    }
}
