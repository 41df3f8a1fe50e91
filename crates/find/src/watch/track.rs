//! What was read over time, kept short: a whole warm-up in a few hundred samples.
//!
//! In: values and bytes with their time. Out: the same, thinner where there are many. Not here: what they mean.

use serde::{Deserialize, Serialize};

/// Values over time, rising.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct Track(Vec<(u64, f64)>);

impl Track {
    /// One more; what does not come later than the last is left out.
    pub(super) fn push(&mut self, at_ms: u64, value: f64) {
        if !value.is_finite() || self.0.last().is_some_and(|(last, _)| at_ms < last + EVERY_MS) {
            return;
        }
        self.0.push((at_ms, value));
        thin(&mut self.0);
    }

    /// The value at a time, between its neighbours; before the first and behind the last it stays.
    pub(super) fn at(&self, at_ms: u64) -> Option<f64> {
        let after = self.0.partition_point(|(time, _)| *time < at_ms);
        let before = after.checked_sub(1).and_then(|at| self.0.get(at));
        match (before, self.0.get(after)) {
            (Some((t0, v0)), Some((t1, v1))) => {
                let share = (at_ms - t0) as f64 / (t1 - t0) as f64;
                Some(v0 + (v1 - v0) * share)
            }
            (Some((_, value)), None) | (None, Some((_, value))) => Some(*value),
            (None, None) => None,
        }
    }

    /// What came together up to a time, value by minute; nothing before the first. `None` where there is nothing.
    pub(super) fn area(&self, at_ms: u64) -> Option<f64> {
        self.0.first()?;
        let part = |two: &[(u64, f64)]| match two {
            [(t0, v0), (t1, v1)] if at_ms >= *t1 => 0.5 * (v0 + v1) * minutes(t1 - t0),
            [(t0, v0), _] if at_ms > *t0 => 0.5 * (v0 + self.at(at_ms).unwrap_or(*v0)) * minutes(at_ms - t0),
            _ => 0.0,
        };
        let rest = self.0.last().map_or(0.0, |(t, v)| v * minutes(at_ms.saturating_sub(*t)));
        Some(self.0.windows(2).map(part).sum::<f64>() + rest)
    }

    /// How far it has gone up from the first.
    pub(super) fn risen(&self) -> f64 {
        match (self.0.first(), self.0.last()) {
            (Some((_, first)), Some((_, last))) => last - first,
            _ => 0.0,
        }
    }
}

/// Answers over time, all as long as the first.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct Bytes(Vec<(u64, Vec<u8>)>);

impl Bytes {
    /// One more; an answer of another length is another answer.
    pub(super) fn push(&mut self, at_ms: u64, bytes: &[u8]) {
        let fits = self.0.first().is_none_or(|(_, first)| first.len() == bytes.len());
        if !fits || self.0.last().is_some_and(|(last, _)| at_ms < last + EVERY_MS) {
            return;
        }
        self.0.push((at_ms, bytes.to_vec()));
        thin(&mut self.0);
    }

    /// All of them.
    pub(super) fn all(&self) -> &[(u64, Vec<u8>)] {
        &self.0
    }

    /// How many bytes an answer has.
    pub(super) fn length(&self) -> usize {
        self.0.first().map_or(0, |(_, bytes)| bytes.len())
    }
}

fn minutes(ms: u64) -> f64 {
    ms as f64 / MINUTE_MS
}

/// Where there are too many, the one goes that leaves the smallest gap: they lie evenly then. First and last stay.
fn thin<T>(all: &mut Vec<(u64, T)>) {
    if all.len() <= MOST {
        return;
    }
    let gap = |three: &[(u64, T)]| match three {
        [(before, _), _, (after, _)] => after - before,
        _ => u64::MAX,
    };
    let least = all.windows(3).map(gap).enumerate().min_by_key(|(_, gap)| *gap);
    if let Some((at, _)) = least {
        all.remove(at + 1);
    }
}

/// Milliseconds in a minute.
/// By definition.
const MINUTE_MS: f64 = 60_000.0;
/// No more often than this. Own choice: nothing here warms by a tenth of a degree in so short a time.
const EVERY_MS: u64 = 1_000;
/// So many are kept.
/// Own choice: an hour at one in 22 s; older ones are thinned, the course stays.
const MOST: usize = 160;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_track_stays_short_and_keeps_its_ends() {
        let mut track = Track::default();
        for second in 0..3_600 {
            track.push(second * 1_000, second as f64);
        }
        assert!(track.0.len() <= MOST);
        assert_eq!((track.at(0), track.at(3_599_000)), (Some(0.0), Some(3_599.0)));
        assert!((track.at(1_800_500).unwrap() - 1_800.5).abs() < 1e-6);
        assert_eq!(track.risen(), 3_599.0);
    }

    #[test]
    fn what_comes_together_of_a_track_is_counted_to_any_time() {
        let mut track = Track::default();
        assert_eq!(track.area(1_000), None);
        for (second, value) in [(0, 0.0), (60, 600.0), (120, 600.0)] {
            track.push(second * 1_000, value);
        }
        // A triangle, then a rectangle, then on as it was.
        let cases: [(u64, f64); 4] = [(30, 75.0), (60, 300.0), (90, 600.0), (180, 1_500.0)];
        for (second, want) in cases {
            assert!((track.area(second * 1_000).unwrap() - want).abs() < 1e-9, "{second} s");
        }
    }

    #[test]
    fn an_answer_of_another_length_is_left_out() {
        let mut bytes = Bytes::default();
        for (at, answer) in [(0, &[1, 2][..]), (2_000, &[1]), (4_000, &[1, 3]), (4_100, &[1, 4])] {
            bytes.push(at, answer);
        }
        assert_eq!(bytes.all().iter().map(|(at, _)| *at).collect::<Vec<_>>(), [0, 4_000]);
    }
}
