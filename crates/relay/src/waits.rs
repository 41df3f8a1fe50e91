//! How long to wait before something is tried again.
//!
//! Not here: what is tried (`flow.rs`, `listen.rs`).

use std::time::Duration;

/// How long to wait before the next try.
#[derive(Debug, Default)]
pub(crate) struct Waits {
    tries: u32,
}

impl Waits {
    /// It went well.
    pub(crate) fn well(&mut self) {
        self.tries = 0;
    }

    /// Twice as long each time.
    pub(crate) fn next(&mut self) -> Duration {
        let wait = FIRST_WAIT.saturating_mul(1 << self.tries.min(16)).min(LONGEST_WAIT);
        self.tries += 1;
        wait
    }
}

/// Own choice: a broker that starts again is there within a few seconds; one that is gone is asked for once a minute.
const FIRST_WAIT: Duration = Duration::from_millis(500);
const LONGEST_WAIT: Duration = Duration::from_secs(60);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_waits_twice_as_long_each_time_up_to_a_minute() {
        let mut waits = Waits::default();
        let all: Vec<u64> = (0..10).map(|_| waits.next().as_secs()).collect();
        assert_eq!(all, [0, 1, 2, 4, 8, 16, 32, 60, 60, 60]);
        waits.well();
        assert_eq!(waits.next(), FIRST_WAIT);
    }
}
