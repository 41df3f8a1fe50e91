//! How fast the engine idles, as a cause of how fast the signal warms: heat per minute goes with the speed.
//!
//! In: engine speeds with their times. Out: turns since any moment, and so the mean speed between two. Nothing is said across a gap.
//! Not here: what follows for the pace (`track.rs`). Method: docs/gate.md, "Falling behind".

use core::time::Duration;

use units::Mono;

use crate::span::minutes;

/// The turns of the engine.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pulse {
    last: Option<(Mono, f64)>,
    turns: f64,
    /// Since when no reading was missing.
    whole_since: Option<Mono>,
}

impl Pulse {
    pub(crate) const fn new() -> Self {
        Self { last: None, turns: 0.0, whole_since: None }
    }

    /// The engine turned at `rpm`.
    pub(crate) fn heard(&mut self, at: Mono, rpm: f64) {
        if !IDLES.contains(&rpm) {
            return self.broken();
        }
        match self.last.filter(|(then, _)| at >= *then && at.since(*then) <= TOGETHER) {
            Some((then, before)) => self.turns += f64::midpoint(before, rpm) * minutes(at.since(then)),
            None => self.whole_since = Some(at),
        }
        self.last = Some((at, rpm));
    }

    /// It does not idle, or nobody knows.
    pub(crate) const fn broken(&mut self) {
        self.last = None;
        self.whole_since = None;
    }

    /// All turns up to `at`, near the last reading.
    pub(crate) fn turns(&self, at: Mono) -> f64 {
        self.last.map_or(self.turns, |(then, rpm)| {
            self.turns + rpm * (minutes(at.since(then)) - minutes(then.since(at)))
        })
    }

    /// The mean speed between two moments with their turns, 1/min; `None` where it was not read all the while.
    pub(crate) fn mean(&self, from: (Mono, f64), to: (Mono, f64)) -> Option<f64> {
        let (newest, _) = self.last?;
        let whole = self.whole_since.is_some_and(|since| since <= from.0.after(TOGETHER));
        let fresh = to.0.since(newest) <= TOGETHER;
        let span = minutes(to.0.since(from.0));
        (whole && fresh && span > 0.0).then(|| (to.1 - from.1) / span)
    }

    /// The speed read last, 1/min.
    pub(crate) fn newest(&self, now: Mono) -> Option<f64> {
        self.last.filter(|(at, _)| now.since(*at) <= TOGETHER).map(|(_, rpm)| rpm)
    }
}

/// Readings further apart than this are not put together.
/// Own choice: engine speed is asked each second; some may be lost.
const TOGETHER: Duration = Duration::from_secs(5);
/// Speeds at which an engine idles, cold ones included, 1/min.
/// Source: common practice, no source; the measured car idles at 1,800 cold (`fixtures/reference/physics/idle_warmup.csv`).
const IDLES: core::ops::RangeInclusive<f64> = 300.0..=3_000.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_speed_between_two_moments_is_that_of_the_readings_and_none_across_a_gap() {
        let mut pulse = Pulse::new();
        let at = Mono::from_secs;
        for second in 0..=60 {
            pulse.heard(at(second), if second < 30 { 1_000.0 } else { 800.0 });
        }
        let from = (at(0), 0.0);
        let mean = pulse.mean(from, (at(60), pulse.turns(at(60)))).unwrap();
        assert!((mean - 898.3).abs() < 1.0, "{mean}");
        assert!((pulse.turns(at(61)) - pulse.turns(at(60)) - 800.0 / 60.0).abs() < 1e-9);
        assert_eq!(pulse.mean(from, (at(90), pulse.turns(at(90)))), None, "nothing was read of late");
        pulse.heard(at(90), 800.0);
        assert_eq!(pulse.mean(from, (at(90), pulse.turns(at(90)))), None, "a gap lies between");
        pulse.heard(at(91), 0.0);
        assert_eq!(pulse.newest(at(91)), None, "it stands");
    }
}
