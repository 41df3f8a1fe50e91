//! What recorded warm-ups of driven vehicles teach: seconds for each degree, and how effort, speed and air change them.
//!
//! In: where the display stands, where it is to go, [`Ways`] of driving. Out: an interval of the time it takes.
//! The figures are data (`learned/fitted.rs`), made by `cargo xtask fit`; the fit is not here.
//! Method: docs/gate.md, "Learned rates": `ln(D/D_table) = w.x` for three quantiles by weighted least absolute values,
//! and a margin by conformal prediction over days that the fit had not seen.

mod fitted;

/// What was learned of one kind of vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Median seconds for each degree, from [`FIRST_DEGREE`] on.
    pub seconds_per_degree: [f64; DEGREES],
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

/// The features of a way of driving: one, effort of the last seconds and of the last minutes, speed, air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ways(pub [f64; FEATURES]);

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

impl Ways {
    /// From effort (g/s of air, over seconds and over minutes), speed (km/h) and air temperature (°C); what is not known is taken as usual.
    pub fn new(effort: Option<(f64, f64)>, kmh: f64, air_c: Option<f64>) -> Self {
        let (effort, lasting) = effort.unwrap_or((USUAL_EFFORT, USUAL_EFFORT));
        let against_usual = |effort: f64| (effort.max(LEAST_EFFORT) / USUAL_EFFORT).ln();
        Self([
            1.0,
            against_usual(effort),
            against_usual(lasting),
            kmh / USUAL_KMH - 1.0,
            (air_c.unwrap_or(USUAL_AIR) - USUAL_AIR) / 10.0,
        ])
    }
}

impl Learned {
    /// Fitted on the recordings of fixtures/warmups.
    pub const FITTED: Self = fitted::FITTED;

    /// Median seconds from `from` to `to` by the table alone. `None` where the table does not reach.
    pub fn by_table(&self, from: f64, to: f64) -> Option<f64> {
        let place = |celsius: f64| celsius - FIRST_DEGREE;
        let (from, to) = (place(from), place(to));
        if !(0.0..=DEGREES as f64).contains(&from) || !(0.0..=DEGREES as f64).contains(&to) {
            return None;
        }
        let degrees = self.seconds_per_degree.iter().enumerate().map(|(i, &seconds)| {
            let share = (to.min(i as f64 + 1.0) - from.max(i as f64)).max(0.0);
            share * seconds
        });
        Some(degrees.sum())
    }

    /// How long the climb from `from` to `to` takes, driven like this.
    pub fn climb(&self, from: f64, to: f64, ways: &Ways) -> Option<Took> {
        let table = self.by_table(from, to)?;
        let weights = if from < WARM_FROM { &self.cold } else { &self.warm };
        let stretched = |w: &[f64; FEATURES], extra: f64| table * (dot(w, &ways.0) + extra).exp();
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
    const NONE: Self = Self { low: 0.0, median: 0.0, high: 0.0 };
}

fn dot(a: &[f64; FEATURES], b: &[f64; FEATURES]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// How many features.
pub const FEATURES: usize = 5;
/// The first degree of the table, °C.
pub const FIRST_DEGREE: f64 = -5.0;
/// How many degrees the table has.
pub const DEGREES: usize = 95;
/// Climbs from here on are warm ones, °C: this car's coolant meets its second circuit about there.
pub const WARM_FROM: f64 = 45.0;
/// What counts as usual, so that the weights are of one size.
const USUAL_EFFORT: f64 = 16.0;
const LEAST_EFFORT: f64 = 6.0;
const USUAL_KMH: f64 = 50.0;
const USUAL_AIR: f64 = 10.0;
