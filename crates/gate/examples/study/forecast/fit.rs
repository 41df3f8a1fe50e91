//! The fit of learned rates: tables of median seconds, three quantile regressions, and a conformal margin.
//!
//! Method: docs/gate.md, "Learned rates". Quantile regression by iteratively reweighted least squares with a ridge that
//! pulls towards the table alone; conformalised quantile regression (Romano, Patterson, Candès 2019), days left out.

use std::collections::BTreeSet;

use gate::learned::{AIRS, DEGREES, FEATURES, FIRST_DEGREE, Learned, USUAL_AIR, WARM_FROM, Ways, Weights};

use super::figures::{quantile, weighted_median};
use super::recording::Recording;

/// One climb of [`CLIMB`] degrees.
struct Climb<'a> {
    day: &'a str,
    from: f64,
    seconds: f64,
    ways: Ways,
}

/// Fits on these recordings.
pub fn fit(recordings: &[&Recording]) -> Learned {
    let blank = Weights { low: [0.0; FEATURES], median: [0.0; FEATURES], high: [0.0; FEATURES], margin: 0.0 };
    let bare = Learned { seconds_per_degree: tables(recordings), cold: blank, warm: blank };
    let climbs: Vec<Climb> = recordings.iter().flat_map(|recording| climbs(recording, &bare)).collect();
    let within = |range: (f64, f64)| {
        climbs.iter().filter(|c| (range.0..range.1).contains(&c.from)).collect::<Vec<_>>()
    };
    let (cold, warm) = (within(COLD), within(WARM));
    Learned { cold: weights(&cold, &bare), warm: weights(&warm, &bare), ..bare }
}

/// Seconds of every degree in every recording, and the air it was climbed in.
fn degrees(recordings: &[&Recording]) -> Vec<Vec<(f64, f64)>> {
    let mut seconds = vec![Vec::new(); DEGREES];
    for recording in recordings {
        let reached = reached(recording);
        for (slot, pair) in seconds.iter_mut().zip(reached.windows(2)) {
            if let [Some((row, from)), Some((_, to))] = pair {
                slot.push((to - from, recording.air(*row).unwrap_or(USUAL_AIR)));
            }
        }
    }
    seconds
}

/// Median seconds for each degree in each of [`AIRS`]: recordings count by how near their air was.
fn tables(recordings: &[&Recording]) -> [[f64; DEGREES]; AIRS.len()] {
    let seconds = degrees(recordings);
    AIRS.map(|air| {
        let near = |of: f64| (-0.5 * ((of - air) / NEAR_AIR).powi(2)).exp();
        filled(|i| {
            let degree = seconds.get(i)?.iter().map(|(seconds, of)| (*seconds, near(*of)));
            weighted_median(&degree.collect::<Vec<_>>())
        })
    })
}

/// The table that the forecast is to beat: median seconds for each degree, over the degree and its neighbours, in any air.
pub fn plain_table(recordings: &[&Recording]) -> [f64; DEGREES] {
    let seconds = degrees(recordings);
    filled(|i| {
        let near = (i.saturating_sub(1)..=i + 1).filter_map(|j| seconds.get(j)).flatten();
        let median = quantile(&near.map(|(seconds, _)| *seconds).collect::<Vec<_>>(), 0.5);
        median.is_finite().then_some(median)
    })
}

/// A table; a degree that nothing tells of is like the one before.
fn filled(seconds: impl Fn(usize) -> Option<f64>) -> [f64; DEGREES] {
    let mut last = UNSEEN;
    core::array::from_fn(|i| {
        last = seconds(i).map_or(last, |seconds| (seconds * 100.0).round() / 100.0);
        last
    })
}

/// For each degree of the table: the row and the second at which it was first reached from below.
fn reached(recording: &Recording) -> Vec<Option<(usize, f64)>> {
    (0..=DEGREES)
        .map(|i| {
            let row = recording.reaches(FIRST_DEGREE + i as f64)?;
            Some((row, recording.rows.get(row)?.t))
        })
        .collect()
}

fn climbs<'a>(recording: &'a Recording, bare: &Learned) -> Vec<Climb<'a>> {
    let reached = reached(recording);
    let mut climbs = Vec::new();
    let mut next = reached.iter().enumerate().filter_map(|(i, at)| at.map(|(row, t)| (i, row, t))).peekable();
    recording.replay([200.0, 210.0], bare, |row, now, gate| {
        while let Some((i, _, t)) = next.next_if(|(_, at, _)| *at <= row) {
            if let Some((_, then)) = reached.get(i + CLIMB).copied().flatten() {
                let from = FIRST_DEGREE + i as f64;
                climbs.push(Climb {
                    day: &recording.day,
                    from,
                    seconds: (then - t).max(5.0),
                    ways: gate.ways(now.at()),
                });
            }
        }
    });
    climbs
}

fn weights(climbs: &[&Climb], bare: &Learned) -> Weights {
    let raw = quantiles(climbs, bare);
    // How far days that were not fitted lie outside: the margin that makes four in five of them fit.
    let days: BTreeSet<&str> = climbs.iter().map(|c| c.day).collect();
    let mut outside = Vec::new();
    for day in days {
        let others: Vec<&Climb> = climbs.iter().copied().filter(|c| c.day != day).collect();
        let fitted = quantiles(&others, bare);
        for climb in climbs.iter().filter(|c| c.day == day) {
            let y = stretch(climb, bare);
            outside.push(
                (dot(&fitted.low, &climb.ways.features) - y).max(y - dot(&fitted.high, &climb.ways.features)),
            );
        }
    }
    Weights { margin: quantile(&outside, COVERAGE), ..raw }
}

fn quantiles(climbs: &[&Climb], bare: &Learned) -> Weights {
    let at = |q: f64| regress(climbs, bare, q);
    Weights {
        low: at((1.0 - COVERAGE) / 2.0),
        median: at(0.5),
        high: at(1.0 - (1.0 - COVERAGE) / 2.0),
        margin: 0.0,
    }
}

/// `ln(D/D_table)`.
fn stretch(climb: &Climb, bare: &Learned) -> f64 {
    (climb.seconds / bare.by_table(climb.from, climb.from + CLIMB as f64, climb.ways.air).unwrap_or(100.0))
        .ln()
}

/// Weighted least absolute values at quantile `q`.
fn regress(climbs: &[&Climb], bare: &Learned, q: f64) -> [f64; FEATURES] {
    let mut b = [0.0; FEATURES];
    for _ in 0..ROUNDS {
        let mut a = [[0.0; FEATURES + 1]; FEATURES];
        for (i, row) in a.iter_mut().enumerate() {
            if let Some(diagonal) = row.get_mut(i) {
                *diagonal = if i == 0 { RIDGE / 10.0 } else { RIDGE };
            }
        }
        for climb in climbs {
            let (y, x) = (stretch(climb, bare), &climb.ways.features);
            let off = y - dot(&b, x);
            let side = if off > 0.0 { q } else { 1.0 - q };
            let w = side / off.abs().max(SMALLEST);
            for (row, own) in a.iter_mut().zip(x) {
                for (slot, other) in row.iter_mut().zip(x.iter().chain(core::iter::once(&y))) {
                    *slot += w * own * other;
                }
            }
        }
        b = solve(a);
    }
    b
}

/// Gauss with pivots on the diagonal: the matrix is symmetric and, by its ridge, positive.
#[allow(clippy::indexing_slicing, reason = "indices run over the array's own length")]
fn solve(mut a: [[f64; FEATURES + 1]; FEATURES]) -> [f64; FEATURES] {
    for i in 0..FEATURES {
        let pivot = a[i];
        for (j, row) in a.iter_mut().enumerate().filter(|(j, _)| *j != i) {
            let factor = row[i] / pivot[i];
            debug_assert!(j != i);
            row.iter_mut().zip(&pivot).for_each(|(slot, p)| *slot -= factor * p);
        }
    }
    core::array::from_fn(|i| a[i][FEATURES] / a[i][i])
}

fn dot(a: &[f64; FEATURES], b: &[f64; FEATURES]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The source of `crates/gate/src/forecast/learned/fitted.rs`.
pub fn source(learned: &Learned, recordings: usize) -> String {
    let row = |w: &[f64; FEATURES]| w.iter().map(|x| format!("{x:.4}")).collect::<Vec<_>>().join(", ");
    let weights = |name: &str, w: &Weights| {
        format!(
            "    {name}: Weights {{\n        low: [{}],\n        median: [{}],\n        high: [{}],\n        margin: {:.4},\n    }},\n",
            row(&w.low),
            row(&w.median),
            row(&w.high),
            w.margin
        )
    };
    let tables = learned.seconds_per_degree.iter().map(|table| {
        let rows = table.chunks(10).map(|ten| {
            let ten: Vec<String> = ten.iter().map(|s| format!("{s:.2}")).collect();
            format!("            {},\n", ten.join(", "))
        });
        format!("        [\n{}        ],\n", rows.collect::<String>())
    });
    format!(
        "//! Made by `cargo xtask fit` from {recordings} recordings of fixtures/warmups/climbs; not written by hand.\n\n\
         use super::rates::{{Learned, Weights}};\n\n\
         /// Seconds for each degree in rows of ten, in air of 0, 10 and 20 °C, and the weights of effort, air and pace.\n#[rustfmt::skip]\n\
         pub(super) const FITTED: Learned = Learned {{\n    seconds_per_degree: [\n{}    ],\n{}{}}};\n",
        tables.collect::<String>(),
        weights("cold", &learned.cold),
        weights("warm", &learned.warm),
    )
}

/// How many degrees a climb has.
const CLIMB: usize = 10;
/// Where the climbs begin that the two sets of weights are fitted on, °C.
const COLD: (f64, f64) = (24.0, 42.0);
const WARM: (f64, f64) = (WARM_FROM + 3.0, 75.0);
const COVERAGE: f64 = 0.8;
/// Pulls the weights to nothing, that is to the table alone. 5 to 40 tried with days left out: flat from 10 to 20.
const RIDGE: f64 = 20.0;
/// Recordings whose air was as far off as this count by 0.6, K. 5 to 12 and all alike tried: flat from 5 to 8, worse beyond.
const NEAR_AIR: f64 = 8.0;
/// Seconds for a degree before the first that was seen.
const UNSEEN: f64 = 10.0;
/// Residuals below this count as this, as a logarithm.
const SMALLEST: f64 = 0.03;
const ROUNDS: usize = 40;
