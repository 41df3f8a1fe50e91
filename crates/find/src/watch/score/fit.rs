//! Courses fitted to one field's values: that of what warms, and a straight line's. Each gives what is left over, K.
//!
//! Method: linear least squares with a small ridge, every subset of the not negative terms, the best one. The fluid: with `t` in minutes,
//! `y − y0 = a·∫n/n0 + b·∫(coolant − y) − c·∫(y − air)`, `a, b, c ≥ 0`; before the start nothing moves, so `y0` is what it said then and no
//! free number. Not here: what a rest is worth.

use super::{Grid, Lag};

/// The fluid's law: own heat, exchange with the coolant, loss to the air. What lies behind a body of its own (`lag`, of [`Grid::lags`]) sees heat
/// and coolant later.
pub(super) fn fluid(values: &[f64], start: f64, grid: &Grid, lag: &Lag) -> f64 {
    let mut normal = Normal::default();
    let (mut towards, mut lost) = (0.0, 0.0);
    let mut last: Option<(f64, f64, f64)> = None;
    for (at, value) in values.iter().enumerate() {
        let of = |all: &[f64]| all.get(at).copied().unwrap_or_default();
        let (run, coolant, air) = (of(&grid.run), of(&lag.coolant) - value, of(&grid.air) - value);
        if let Some((before, to_coolant, to_air)) = last {
            let half = 0.5 * (run - before);
            towards += half * (coolant + to_coolant);
            lost += half * (air + to_air);
        }
        last = Some((run, coolant, air));
        normal.add([of(&lag.turns) * USUAL[0], towards * USUAL[1], lost * USUAL[2]], value - start);
    }
    SUBSETS.iter().filter_map(|subset| normal.rest(*subset)).fold(f64::MAX, f64::min)
}

/// A straight line, over all the time or while the engine runs.
pub(super) fn line(values: &[f64], grid: &Grid) -> f64 {
    straight(values, &grid.minutes).min(straight(values, &grid.run))
}

/// What is left of `values` after the best straight line over `term`.
fn straight(values: &[f64], term: &[f64]) -> f64 {
    let count = values.len().max(1) as f64;
    let mean = |all: &[f64]| all.iter().sum::<f64>() / count;
    let (x, y) = (mean(term), mean(values));
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (value, at) in values.iter().zip(term) {
        xx += (at - x) * (at - x);
        xy += (at - x) * (value - y);
        yy += (value - y) * (value - y);
    }
    let explained = if xx > 0.0 { xy * xy / xx } else { 0.0 };
    ((yy - explained).max(0.0) / count).sqrt()
}

/// What came together of the three terms and the values: the normal equations, from which each subset is solved.
#[derive(Debug, Default)]
struct Normal {
    terms: [[f64; 3]; 3],
    right: [f64; 3],
    square: f64,
    count: f64,
}

impl Normal {
    fn add(&mut self, row: [f64; 3], value: f64) {
        for ((line, right), left) in self.terms.iter_mut().zip(&mut self.right).zip(row) {
            for (cell, other) in line.iter_mut().zip(row) {
                *cell += left * other;
            }
            *right += left * value;
        }
        self.square += value * value;
        self.count += 1.0;
    }

    /// The root mean square of what is left after the best sum of the terms in `subset`; `None` where one of them would be negative. A small ridge
    /// holds each where the values say nothing of it; a factor beyond what any vehicle has is held at that, and what is left over says it.
    fn rest(&self, subset: [bool; 3]) -> Option<f64> {
        let mut lines = [[0.0; 4]; 3];
        for (n, (line, (terms, right))) in lines.iter_mut().zip(self.terms.iter().zip(self.right)).enumerate()
        {
            let [a, b, c, last] = line;
            let inside = |m: usize| subset.get(n) == Some(&true) && subset.get(m) == Some(&true);
            for (m, (cell, term)) in [a, b, c].into_iter().zip(terms).enumerate() {
                let own = f64::from(n == m);
                *cell = if inside(m) { term + RIDGE * own } else { own };
            }
            *last = if inside(n) { right } else { 0.0 };
        }
        let factors = solve(lines)?;
        if factors.iter().any(|factor| *factor < 0.0) {
            return None;
        }
        let factors = factors.map(|factor| factor.min(LARGEST));
        let mut left = self.square;
        for ((terms, right), factor) in self.terms.iter().zip(self.right).zip(factors) {
            let own: f64 = terms.iter().zip(factors).map(|(term, other)| term * other).sum();
            left += factor * (own - 2.0 * right);
        }
        Some((left.max(0.0) / self.count.max(1.0)).sqrt())
    }
}

/// Gauss without pivots: the matrix is symmetric and positive.
fn solve(mut lines: [[f64; 4]; 3]) -> Option<[f64; 3]> {
    for at in 0..3 {
        let own = *lines.get(at)?;
        let head = *own.get(at)?;
        if head.abs() < 1e-12 {
            return None;
        }
        for (number, line) in lines.iter_mut().enumerate() {
            if number == at {
                continue;
            }
            let factor = line.get(at)? / head;
            for (cell, of_own) in line.iter_mut().zip(own) {
                *cell -= factor * of_own;
            }
        }
    }
    let [[a, _, _, x], [_, b, _, y], [_, _, c, z]] = lines;
    Some([x / a, y / b, z / c])
}

/// Which terms may stand together: never a loss alone.
const SUBSETS: [[bool; 3]; 6] = [
    [true, false, false],
    [false, true, false],
    [true, true, false],
    [true, false, true],
    [false, true, true],
    [true, true, true],
];
/// What the factors usually are: 1 K a minute of its own, a tenth of the gap to the coolant, a fiftieth of that to the air. Source: docs/rehearsal.md,
/// "Heat", middle of the ranges; own choice of the ridge.
const USUAL: [f64; 3] = [1.0, 0.1, 0.02];
/// No factor is more than so many times what it usually is. Own choice: 6 K a minute of its own, a time constant of two minutes to the coolant, of eight to
/// the air.
const LARGEST: f64 = 6.0;
const RIDGE: f64 = 1e-3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_sum_is_found() {
        let term = [0.0, 1.0, 2.0, 3.0, 4.0];
        let square = [0.0, 1.0, 4.0, 9.0, 16.0];
        let cases: &[(&str, [f64; 5], Option<f64>)] = &[
            ("a line", [0.0, 2.0, 4.0, 6.0, 8.0], Some(0.0)),
            ("a line and a square", [0.0, 2.0, 6.0, 12.0, 20.0], Some(0.0)),
            ("it falls: no such factor", [9.0, 7.0, 5.0, 3.0, 1.0], None),
        ];
        for (what, values, want) in cases {
            let mut normal = Normal::default();
            for ((a, b), value) in term.iter().zip(square).zip(values) {
                normal.add([*a, b, 0.0], *value);
            }
            let got = normal.rest([true, true, false]);
            match want {
                Some(_) => assert!(got.unwrap_or(9.0) < 0.01, "{what}: {got:?}"),
                None => assert_eq!(got, None, "{what}"),
            }
        }
    }

    #[test]
    fn a_straight_line_leaves_nothing_of_a_line() {
        let minutes = [0.0, 1.0, 2.0, 3.0];
        assert!(straight(&[5.0, 7.0, 9.0, 11.0], &minutes) < 1e-9);
        assert!(straight(&[0.0, 1.0, 4.0, 9.0], &minutes) > 0.5);
    }
}
