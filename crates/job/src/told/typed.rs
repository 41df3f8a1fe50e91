//! Readings that people type in, as evidence of a set level where there is no adapter.
//!
//! In: whether each lay in the band, and when; the closing of the port. Out: whether the closing rests on enough of them. Not
//! here: the estimate that comes of them (`gate`), what a closing without them is called (`outcome.rs`).

use core::time::Duration;

use units::Mono;

/// Readings in the band, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Typed {
    inside: u32,
    newest: Option<Mono>,
    closed_on_two: bool,
}

impl Typed {
    /// One was told. One outside the band begins the count anew.
    pub(crate) fn read(&mut self, inside: bool, now: Mono) {
        self.inside = if inside { self.inside.saturating_add(1) } else { 0 };
        self.newest = inside.then_some(now);
    }

    /// What was read before says nothing: the engine was started, fluid was filled, the clock begins anew.
    pub(crate) fn forget(&mut self) {
        (self.inside, self.newest) = (0, None);
    }

    /// The port was closed.
    pub(crate) fn closed(&mut self, now: Mono) {
        let fresh = self.newest.is_some_and(|at| now.since(at) <= AT_MOST_OLD);
        self.closed_on_two = self.inside >= READINGS && fresh;
    }

    /// Whether the port was closed on two readings in the band, the newest not old.
    pub(crate) const fn closed_on_two(self) -> bool {
        self.closed_on_two
    }
}

/// So many readings in the band a level rests on without an adapter.
/// Own choice: one alone may be a slip of the finger; a third costs a minute of the window.
const READINGS: u32 = 2;
/// And the newest is no older when the port is closed.
/// Own choice: in two minutes the fluid moves by some 3 K, a third of a usual band.
const AT_MOST_OLD: Duration = Duration::from_secs(120);

#[cfg(test)]
mod tests {
    use super::*;

    fn closed(readings: &[(u64, bool)], at: u64) -> bool {
        let mut typed = Typed::default();
        readings.iter().for_each(|(second, inside)| typed.read(*inside, Mono::from_secs(*second)));
        typed.closed(Mono::from_secs(at));
        typed.closed_on_two()
    }

    #[test]
    fn two_in_the_band_and_one_of_them_not_older_than_two_minutes() {
        assert!(closed(&[(0, true), (40, true)], 160));
        assert!(!closed(&[(0, true), (40, true)], 161), "too old");
        assert!(!closed(&[(40, true)], 60), "one");
        assert!(!closed(&[(0, true), (20, false), (40, true)], 60), "one since it was outside");
        assert!(!closed(&[(0, true), (20, true), (40, false)], 60), "outside now");
        assert!(!closed(&[], 0));
    }

    #[test]
    fn what_was_read_before_a_start_or_a_fill_does_not_count() {
        let mut typed = Typed::default();
        typed.read(true, Mono::from_secs(1));
        typed.read(true, Mono::from_secs(2));
        typed.forget();
        typed.read(true, Mono::from_secs(3));
        typed.closed(Mono::from_secs(4));
        assert!(!typed.closed_on_two());
    }
}
