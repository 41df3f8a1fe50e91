//! How a kind of vehicle warmed in an earlier job: seconds for each degree of its fluid.
//!
//! In: the turns of a display as it rises; a table of an earlier job. Out: the table of this job, and how long until a value by the
//! earlier one, stretched by the pace of the last degrees. Not here: where tables are kept (`service`), weights (`blend.rs`).
//! Method: docs/gate.md, "Forecast".

use units::Mono;

use crate::span::minutes;

/// Seconds that each degree took at idle, from [`Warming::FIRST`] on; 0 where it was not seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warming {
    seconds: [f32; DEGREES],
}

impl Warming {
    /// The lowest degree of the table, °C.
    /// Own choice: colder, no workshop sets a level.
    pub const FIRST: i32 = -20;

    /// A table as [`Warming::seconds`] gives it. What cannot be is left out.
    pub fn of(seconds: &[f32]) -> Self {
        let mut table = Self { seconds: [0.0; DEGREES] };
        for (slot, &s) in table.seconds.iter_mut().zip(seconds) {
            *slot = if POSSIBLE_S.contains(&s) { s } else { 0.0 };
        }
        table
    }

    /// Seconds of each degree, from [`Warming::FIRST`] on; 0 where it was not seen.
    pub fn seconds(&self) -> &[f32] {
        &self.seconds
    }

    /// Seconds from `from` to `to`; `None` where a degree between was not seen.
    fn between(&self, from: f64, to: f64) -> Option<f64> {
        let (first, count) = (place(from)?, (to - from).round().max(0.0) as usize);
        let rows = self.seconds.get(first..first + count)?;
        rows.iter().all(|s| *s > 0.0).then(|| rows.iter().map(|s| f64::from(*s)).sum())
    }

    fn put(&mut self, from: f64, to: f64, seconds: f64) {
        let each = (seconds / (to - from)) as f32;
        let degrees = (to - from).round().max(0.0) as usize;
        let Some(first) = place(from).filter(|_| POSSIBLE_S.contains(&each)) else { return };
        self.seconds.iter_mut().skip(first).take(degrees).for_each(|slot| *slot = each);
    }
}

/// A job's own table, and the earlier one that its forecasts are asked of.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Warmed {
    earlier: Option<Warming>,
    own: Warming,
    /// The last turns, youngest last.
    turns: [Option<(Mono, f64)>; PACED + 1],
    seen: u32,
}

impl Warmed {
    pub(crate) const fn new(earlier: Option<Warming>) -> Self {
        Self { earlier, own: Warming { seconds: [0.0; DEGREES] }, turns: [None; PACED + 1], seen: 0 }
    }

    /// The display turned upward to `value` at `at`.
    pub(crate) fn turned(&mut self, at: Mono, value: f64) {
        if let Some((then, before)) = self.newest().filter(|(_, before)| *before < value) {
            self.own.put(before, value, 60.0 * minutes(at.since(then)));
            self.seen = self.seen.saturating_add(1);
        }
        self.turns.rotate_left(1);
        if let Some(slot) = self.turns.last_mut() {
            *slot = Some((at, value));
        }
    }

    /// It does not go on upward.
    pub(crate) const fn broken(&mut self) {
        self.turns = [None; PACED + 1];
    }

    /// The table of this job, once it is worth keeping.
    pub(crate) fn own(&self) -> Option<Warming> {
        (self.seen >= WORTH_KEEPING).then_some(self.own)
    }

    /// Minutes from `now` until the display turns to `target`.
    pub(crate) fn until(&self, target: f64, now: Mono) -> Option<f64> {
        let earlier = self.earlier.as_ref()?;
        let (then, value) = self.newest()?;
        let left = earlier.between(value, target)? * self.pace(earlier) - now.since(then).as_secs_f64();
        (left > 0.0).then_some(left / 60.0)
    }

    /// How this vehicle warms against the table: the last degrees, the fewer the nearer to 1.
    fn pace(&self, earlier: &Warming) -> f64 {
        let oldest = self.turns.iter().flatten().find(|(_, value)| {
            self.newest()
                .is_some_and(|(_, newest)| *value < newest && earlier.between(*value, newest).is_some())
        });
        let Some(((then, from), (now, to))) = oldest.copied().zip(self.newest()) else { return 1.0 };
        let expected = earlier.between(from, to).filter(|s| *s > 0.0);
        let ratio = expected.map_or(1.0, |expected| now.since(then).as_secs_f64() / expected);
        let degrees = to - from;
        (ratio.max(1e-3).ln() * degrees / (degrees + SHRINKS_K)).exp()
    }

    fn newest(&self) -> Option<(Mono, f64)> {
        self.turns.last().copied().flatten()
    }
}

fn place(celsius: f64) -> Option<usize> {
    let place = celsius.round() - f64::from(Warming::FIRST);
    (0.0..DEGREES as f64).contains(&place).then_some(place as usize)
}

/// How many degrees a table has.
/// Own choice: to 99 °C; coolant is checked up to there.
const DEGREES: usize = 120;
/// A degree takes no less and no more, s.
/// Own choice: the quickest measured takes 2.8 (`fixtures/reference/physics/idle_warmup.csv`); after an hour it is no warm-up.
const POSSIBLE_S: core::ops::RangeInclusive<f32> = 2.0..=3_600.0;
/// The pace is that of the last so many turns.
/// Own choice: one alone is mostly noise at the edge of a step; more, and it is not that of now.
const PACED: usize = 5;
/// So many degrees' worth of doubt that the pace is the table's own.
/// Own choice: after one degree half is believed of what differs.
const SHRINKS_K: f64 = 1.0;
/// A table with so many degrees is worth keeping.
/// Own choice: most of a usual band; fewer help no other job.
const WORTH_KEEPING: u32 = 8;

#[cfg(test)]
mod tests {
    use super::*;

    /// A job that takes `each` seconds a degree from 20 °C on.
    fn job(earlier: Option<Warming>, each: u64, degrees: u64) -> (Warmed, Mono) {
        let mut warmed = Warmed::new(earlier);
        let mut at = Mono::ZERO;
        for degree in 0..=degrees {
            at = Mono::from_secs(each * degree);
            warmed.turned(at, 20.0 + degree as f64);
        }
        (warmed, at)
    }

    #[test]
    fn the_next_job_knows_what_this_one_took_and_follows_its_own_pace() {
        let table = job(None, 60, 20).0.own().unwrap();
        assert_eq!(table.between(25.0, 35.0), Some(600.0));
        assert_eq!(table.between(25.0, 45.0), None, "not seen so far up");
        let (same, at) = job(Some(table), 60, 5);
        assert!((same.until(35.0, at).unwrap() - 10.0).abs() < 1e-9);
        let (slower, at) = job(Some(table), 90, 5);
        let minutes = slower.until(35.0, at).unwrap();
        assert!((13.5..15.0).contains(&minutes), "{minutes}: half as slow again, all but believed");
        assert!(
            (slower.until(35.0, at.after(core::time::Duration::from_secs(30))).unwrap() - minutes + 0.5)
                .abs()
                < 1e-9
        );
    }

    #[test]
    fn a_table_that_cannot_be_is_no_table() {
        let damaged = Warming::of(&[f32::NAN, -3.0, 1e9, 60.0, 0.5]);
        assert_eq!(damaged.seconds().iter().filter(|s| **s > 0.0).count(), 1);
        assert_eq!(Warming::of(&[30.0; 500]).seconds().len(), DEGREES);
        assert!(job(None, 60, 4).0.own().is_none(), "too little to keep");
        let mut far = Warmed::new(Some(damaged));
        far.turned(Mono::ZERO, 1e9);
        far.turned(Mono::from_secs(9), -1e9);
        assert_eq!(far.until(1e9, Mono::from_secs(10)), None);
    }
}
