//! What recorded warm-ups of driven vehicles teach: seconds for each degree in cold, cool and warm air, and how effort,
//! air and pace change them.
//!
//! In: where the display stands, where it is to go, [`Ways`] of driving. Out: an interval of the time it takes.
//! The figures are data (`fitted.rs`), made by `cargo xtask fit`; the fit is not here.
//! Method: docs/gate.md, "Learned rates": `ln(D/D_table) = w.x` for three quantiles by weighted least absolute values,
//! and a margin by conformal prediction over days that the fit had not seen.

use crate::vehicle::drive::Climbed;

/// What was learned of one kind of vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Median seconds for each degree from [`FIRST_DEGREE`] on, in air of each of [`AIRS`].
    pub seconds_per_degree: [[f64; DEGREES]; AIRS.len()],
    /// For climbs that begin below [`WARM_FROM`].
    pub cold: Weights,
    /// For those that begin above.
    pub warm: Weights,
}

/// How ways of driving stretch the table, for three quantiles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// One time in ten it is faster.
    pub low: [f64; FEATURES],
    /// Half of the times it is faster.
    pub median: [f64; FEATURES],
    /// Nine times in ten it is faster.
    pub high: [f64; FEATURES],
    /// How much wider on either side days that were not seen need the interval, as a logarithm of time.
    pub margin: f64,
}

/// How the vehicle has been driven of late.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ways {
    /// The air outside, °C.
    pub air: f64,
    /// One, effort of the last seconds and of the last minute, air, pace of the last degrees: each near zero where usual.
    pub features: [f64; FEATURES],
}

/// A stretch of time, s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Took {
    /// One time in ten it is shorter.
    pub low: f64,
    /// As often shorter as longer.
    pub median: f64,
    /// One time in ten it is longer.
    pub high: f64,
}

impl Learned {
    /// Median seconds from `from` to `to` in air of this temperature (°C), by the table alone: between two of [`AIRS`] in
    /// proportion, beyond the outermost as there. `None` where the table does not reach.
    pub fn by_table(&self, from: f64, to: f64, air: f64) -> Option<f64> {
        let place = |celsius: f64| celsius - FIRST_DEGREE;
        let (from, to) = (place(from), place(to));
        if !(0.0..=DEGREES as f64).contains(&from) || !(0.0..=DEGREES as f64).contains(&to) {
            return None;
        }
        let seconds = self.seconds_per_degree.iter().zip(shares(air)).map(|(table, share)| {
            let degrees = table.iter().enumerate().map(|(i, &seconds)| {
                let part = (to.min(i as f64 + 1.0) - from.max(i as f64)).max(0.0);
                part * seconds
            });
            share * degrees.sum::<f64>()
        });
        Some(seconds.sum())
    }

    /// Ways of driving from effort (g/s of air over seconds and over a minute), the air outside (°C) and the last degrees; what is
    /// not known is taken as usual.
    pub(crate) fn ways(
        &self,
        effort: Option<(f64, f64)>,
        air: Option<f64>,
        climbed: Option<Climbed>,
    ) -> Ways {
        let (effort, lasting) = effort.unwrap_or((USUAL_EFFORT, USUAL_EFFORT));
        let air = air.unwrap_or(USUAL_AIR);
        let against_usual = |effort: f64| (effort.max(LEAST_EFFORT) / USUAL_EFFORT).ln();
        let pace = climbed.and_then(|climbed| self.pace(climbed, air)).unwrap_or(0.0);
        Ways {
            air,
            features: [
                1.0,
                against_usual(effort),
                against_usual(lasting),
                (air - USUAL_AIR) / 10.0,
                pace.clamp(-MOST_PACE, MOST_PACE),
            ],
        }
    }

    /// How much slower than the table the last degrees were, as a logarithm. A degree that is shown for longer than the table
    /// gives it counts as slow before it is over.
    fn pace(&self, climbed: Climbed, air: f64) -> Option<f64> {
        let whole = self.by_table(climbed.from, climbed.to, air)?;
        let present = self.by_table(climbed.to, climbed.to + 1.0, air).unwrap_or(0.0);
        let (seconds, usual) = (climbed.seconds + climbed.since, whole + climbed.since.min(present));
        (usual > 0.0).then(|| (seconds.max(LEAST_SECONDS) / usual).ln())
    }

    /// How long the climb from `from` to `to` takes, driven like this.
    pub fn climb(&self, from: f64, to: f64, ways: &Ways) -> Option<Took> {
        let table = self.by_table(from, to, ways.air)?;
        let weights = if from < WARM_FROM { &self.cold } else { &self.warm };
        let stretched = |w: &[f64; FEATURES], extra: f64| table * (dot(w, &ways.features) + extra).exp();
        let median = stretched(&weights.median, 0.0);
        Some(Took {
            low: stretched(&weights.low, -weights.margin).min(median),
            median,
            high: stretched(&weights.high, weights.margin).max(median),
        })
    }

    /// The same when the display has shown `shown` for `seconds` already: so much of its degree is over, but what lies
    /// beyond the degree is still to come.
    pub(crate) fn rest(&self, shown: f64, seconds: f64, to: f64, ways: &Ways) -> Option<Took> {
        let whole = self.climb(shown, to, ways)?;
        let beyond = if shown + 1.0 < to { self.climb(shown + 1.0, to, ways)? } else { Took::NONE };
        let rest = |whole: f64, beyond: f64| (whole - seconds).max(beyond).max(0.0);
        Some(Took {
            low: rest(whole.low, beyond.low),
            median: rest(whole.median, beyond.median),
            high: whole.high.max(beyond.high),
        })
    }
}

impl Took {
    /// By definition: nothing.
    const NONE: Self = Self { low: 0.0, median: 0.0, high: 0.0 };
}

/// How much each of [`AIRS`] has to say about air of this temperature; together one.
fn shares(air: f64) -> [f64; AIRS.len()] {
    let [cold, cool, warm] = AIRS;
    let upper = ((air - cool) / (warm - cool)).clamp(0.0, 1.0);
    let lower = ((cool - air) / (cool - cold)).clamp(0.0, 1.0);
    [lower, 1.0 - lower - upper, upper]
}

fn dot(a: &[f64; FEATURES], b: &[f64; FEATURES]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// How many features.
/// By definition of the list in docs/gate.md, "Learned rates".
pub const FEATURES: usize = 5;
/// The first degree of the table, °C.
/// Source: measured: what the recordings of fixtures/warmups reach (`cargo xtask fit`).
pub const FIRST_DEGREE: f64 = -5.0;
/// How many degrees the table has.
/// Source: measured: what the recordings of fixtures/warmups reach (`cargo xtask fit`).
pub const DEGREES: usize = 95;
/// The air that each table is for, °C.
/// Source: measured: what the recordings of fixtures/warmups reach (`cargo xtask fit`).
pub const AIRS: [f64; 3] = [0.0, 10.0, 20.0];
/// Climbs from here on are warm ones, °C: this car's coolant meets its second circuit about there.
/// Source: measured: the recordings of fixtures/warmups.
pub const WARM_FROM: f64 = 45.0;
/// Air where none was read, °C.
/// Own choice: the middle of the tables, so that an unknown air leans to neither end.
pub const USUAL_AIR: f64 = 10.0;
/// What counts as usual, and as the least, so that the weights are of one size.
/// Own choice: they only scale the logarithm; below the least, standing would count for more than driving.
const USUAL_EFFORT: f64 = 16.0;
const LEAST_EFFORT: f64 = 6.0;
/// Three degrees in less time than this are no warming, s.
/// Own choice: 90 K/min, three times what the coolant may do; a control unit that wakes up.
const LEAST_SECONDS: f64 = 2.0;
/// Slower or faster than e^2 = 7.4 times is not told apart.
/// Own choice: the weights would only extrapolate beyond it.
const MOST_PACE: f64 = 2.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn between_two_airs_the_table_is_in_proportion_and_beyond_them_it_stays() {
        assert_eq!(shares(-20.0), [1.0, 0.0, 0.0]);
        assert_eq!(shares(10.0), [0.0, 1.0, 0.0]);
        assert_eq!(shares(15.0), [0.0, 0.5, 0.5]);
        let at = |air| Learned::FITTED.by_table(50.0, 60.0, air).unwrap();
        assert!((at(5.0) - (at(0.0) + at(10.0)) / 2.0).abs() < 1e-9);
        assert_eq!(at(35.0), at(20.0));
        assert_eq!(Learned::FITTED.by_table(50.0, 95.0, 10.0), None, "the table ends");
    }

    #[test]
    fn pace_is_none_at_the_tables_own_and_grows_while_a_degree_lasts() {
        let learned = Learned::FITTED;
        let usual = learned.by_table(30.0, 33.0, 10.0).unwrap();
        let climbed = |seconds, since| Climbed { from: 30.0, to: 33.0, seconds, since };
        let pace = |seconds, since| learned.pace(climbed(seconds, since), 10.0).unwrap();
        assert!(pace(usual, 0.0).abs() < 1e-9);
        assert!(pace(usual, 3.0).abs() < 1e-9, "as long as the degree usually takes, nothing is late");
        assert!((pace(2.0 * usual, 0.0) - 2.0_f64.ln()).abs() < 1e-9);
        assert!(pace(usual, 60.0) > pace(usual, 30.0) && pace(usual, 30.0) > 0.0);
    }
}
