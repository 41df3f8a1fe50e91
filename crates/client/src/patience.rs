//! How long a front end waits before it looks for the daemon again.
//!
//! In: that a connection was of use, or not. Out: the next pause. A daemon that turns clients away must not be asked as
//! fast as the machine can; one that was restarted is found again at once. Pure; the caller waits.

use std::time::Duration;

/// The first pause: shorter than the time in which a page that lost its daemon must say so.
/// Own choice: a page that lost its daemon must say so within a second, and looks for it twice before.
const FIRST: Duration = Duration::from_millis(300);
/// The longest.
/// Own choice: nobody waits longer for a screen that comes back; a storm of sixty clients then costs twelve tries a
/// second.
const LONGEST: Duration = Duration::from_secs(5);

/// The pause so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Patience {
    next: Duration,
}

impl Default for Patience {
    fn default() -> Self {
        Self { next: FIRST }
    }
}

impl Patience {
    /// A connection has ended after so long, with a last line from the daemon or without one. Whoever is turned away
    /// again and again asks ever less often; after one that lasted, the daemon is looked for soon.
    pub(crate) fn ended(&mut self, lasted: Duration, bye: bool) {
        if lasted >= LONGEST {
            self.next = FIRST;
        }
        if bye {
            self.next = (self.next * 2).min(LONGEST);
        }
    }

    /// How long to wait before the next try.
    pub(crate) const fn pause(&self) -> Duration {
        self.next
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pause_grows_while_it_is_turned_away_and_is_short_again_after_a_connection_that_lasted() {
        let mut patience = Patience::default();
        let mut pauses = vec![patience.pause().as_millis()];
        for _ in 0..6 {
            patience.ended(Duration::from_millis(4_999), true);
            pauses.push(patience.pause().as_millis());
        }
        assert_eq!(pauses, [300, 600, 1_200, 2_400, 4_800, 5_000, 5_000]);
        patience.ended(Duration::ZERO, false);
        assert_eq!(patience.pause(), LONGEST, "it may only have been restarted, or be crowded still");
        patience.ended(LONGEST, false);
        assert_eq!(patience.pause(), FIRST);
        patience.ended(LONGEST, true);
        assert_eq!(patience.pause(), FIRST * 2);
    }
}
