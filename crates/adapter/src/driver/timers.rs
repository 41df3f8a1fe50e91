//! What the driver waits for, in one table, so that the question has one answer.

use units::Mono;

/// Something that ends by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Timer {
    /// What is in the line when it is opened is read first.
    Drain,
    /// The limit of the exchange under way.
    Reply,
    /// Silence after an interruption.
    Quiet,
    /// A pause before the next attempt.
    Pause,
    /// The next request is due.
    Due,
    /// The pause behind a prompt, for an adapter that needs one.
    Gap,
}

impl Timer {
    const ALL: [Self; 6] = [Self::Drain, Self::Reply, Self::Quiet, Self::Pause, Self::Due, Self::Gap];
}

#[derive(Debug, Default)]
pub(super) struct Timers([Option<Mono>; Timer::ALL.len()]);

impl Timers {
    pub(super) fn set(&mut self, timer: Timer, at: Mono) {
        if let Some(slot) = self.0.get_mut(timer as usize) {
            *slot = Some(at);
        }
    }

    pub(super) fn clear(&mut self, timer: Timer) {
        if let Some(slot) = self.0.get_mut(timer as usize) {
            *slot = None;
        }
    }

    pub(super) fn clear_all(&mut self) {
        *self = Self::default();
    }

    /// When `timer` ends.
    pub(super) fn at(&self, timer: Timer) -> Option<Mono> {
        self.0.get(timer as usize).copied().flatten()
    }

    /// The one that ends first.
    pub(super) fn next(&self) -> Option<(Timer, Mono)> {
        // Asked for at every wake-up, so without iterators that the compiler does not see through.
        let mut first: Option<(Timer, Mono)> = None;
        for timer in Timer::ALL {
            if let Some(at) = self.at(timer)
                && first.is_none_or(|(_, before)| at < before)
            {
                first = Some((timer, at));
            }
        }
        first
    }

    /// One that has ended by `now`, cleared.
    pub(super) fn take_ended(&mut self, now: Mono) -> Option<Timer> {
        let (timer, _) = self.next().filter(|(_, at)| *at <= now)?;
        self.clear(timer);
        Some(timer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_timer_that_ends_first_is_the_answer() {
        let mut timers = Timers::default();
        assert_eq!(timers.next(), None);
        timers.set(Timer::Reply, Mono::from_millis(900));
        timers.set(Timer::Due, Mono::from_millis(500));
        assert_eq!(timers.next(), Some((Timer::Due, Mono::from_millis(500))));
        assert_eq!(timers.take_ended(Mono::from_millis(499)), None);
        assert_eq!(timers.take_ended(Mono::from_millis(2_000)), Some(Timer::Due));
        assert_eq!(timers.take_ended(Mono::from_millis(2_000)), Some(Timer::Reply));
        assert_eq!(timers.take_ended(Mono::from_millis(2_000)), None);
    }
}
