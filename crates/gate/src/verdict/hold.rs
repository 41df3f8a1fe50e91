//! How long all has been well, and whether that is long enough to open.
//!
//! In: readings as they come, whether anything speaks against `go`. Out: whether the gate may open yet. Pure. Not here: what
//! speaks against it (`evidence/mod.rs`).

use core::time::Duration;

use units::Mono;

/// How long all has been well: the gate opens late and closes at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Hold {
    hold_for: Duration,
    hold_readings: u32,
    since: Option<Mono>,
    readings: u32,
}

impl Hold {
    pub(crate) const fn new(hold_for: Duration, hold_readings: u32) -> Self {
        Self { hold_for, hold_readings, since: None, readings: 0 }
    }

    /// One more reading of the signal came.
    pub(crate) const fn reading(&mut self) {
        self.readings = self.readings.saturating_add(1);
    }

    /// All is well at `now`. True once it has been for `hold_for`, and not before `settled`.
    pub(crate) fn well(&mut self, now: Mono, hold_for: Duration, settled: Option<Mono>) -> bool {
        self.hold_for = hold_for;
        if self.since.is_none() {
            self.since = Some(now);
            self.readings = 0;
        }
        let opens_at = self.opens_at().map(|at| settled.map_or(at, |settled| at.max(settled)));
        opens_at.is_some_and(|at| now >= at) && self.readings >= self.hold_readings
    }

    /// Something speaks against it.
    pub(crate) const fn broken(&mut self) {
        self.since = None;
        self.readings = 0;
    }

    /// When it will have been well for long enough, if it stays so.
    pub(crate) fn opens_at(&self) -> Option<Mono> {
        self.since.map(|since| since.after(self.hold_for))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gate_opens_late_and_closes_at_once() {
        let mut hold = Hold::new(Duration::from_secs(3), 3);
        let mut well = |seconds: u64, readings: u32| {
            (0..readings).for_each(|_| hold.reading());
            hold.well(Mono::from_secs(seconds), Duration::from_secs(3), None)
        };
        assert!(!well(10, 5), "readings from before do not count");
        assert!(!well(13, 2), "long enough, too few readings");
        assert!(well(14, 1));
        hold.broken();
        assert!(!hold.well(Mono::from_secs(15), Duration::from_secs(3), None), "starts again");
        (0..3).for_each(|_| hold.reading());
        assert!(
            !hold.well(Mono::from_secs(19), Duration::from_secs(3), Some(Mono::from_secs(60))),
            "not before the fluid has mixed"
        );
        assert!(hold.well(Mono::from_secs(60), Duration::from_secs(3), Some(Mono::from_secs(60))));
    }
}
