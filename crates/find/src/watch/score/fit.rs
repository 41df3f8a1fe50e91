//! Courses fitted to one field's values: that of what warms, and a straight line's. Each gives what is left over, K.
//!
//! Method: linear least squares with a small ridge, every subset of the not negative terms, the best one. The fluid: with `t` in minutes,
//! `y − y0 = a·∫run + b·∫(coolant − y) − c·∫(y − air)`, `a, b, c ≥ 0`; before the start nothing moves, so `y0` is what it said then and no
//! free number. Not here: what a rest is worth.

use super::Grid;

/// The fluid's law: own heat, exchange with the coolant, loss to the air.
pub(super) fn fluid(values: &[f64], start: f64, grid: &Grid) -> f64 {
    let risen: Vec<f64> = values.iter().map(|value| value - start).collect();
    let towards = integral(grid, values, &grid.coolant);
    let lost: Vec<f64> = integral(grid, values, &grid.air);
    let terms = [&grid.run, &towards, &lost];
    let subsets = [0b001, 0b010, 0b011, 0b101, 0b110, 0b111];
    subsets
        .iter()
        .filter_map(|subset: &u8| {
            let chosen: Vec<(&[f64], f64)> = terms
                .iter()
                .zip(USUAL)
                .enumerate()
                .filter(|(at, _)| subset >> at & 1 == 1)
                .map(|(_, (term, usual))| (term.as_slice(), usual))
                .collect();
            least(&risen, &chosen, Level::Held)
        })
        .fold(f64::MAX, f64::min)
}

/// A straight line, over all the time or while the engine runs.
pub(super) fn line(values: &[f64], grid: &Grid) -> f64 {
    let over = |term: &[f64]| least(values, &[(term, FREE)], Level::Free).unwrap_or(f64::MAX);
    over(&grid.minutes).min(over(&grid.run))
}

/// What has come together of `other − values` while the engine ran.
fn integral(grid: &Grid, values: &[f64], other: &[f64]) -> Vec<f64> {
    let gaps: Vec<f64> = values.iter().zip(other).map(|(value, other)| other - value).collect();
    let mut sum = 0.0;
    let mut all = Vec::with_capacity(gaps.len());
    all.push(0.0);
    for (gap, run) in gaps.windows(2).zip(grid.run.windows(2)) {
        if let ([a, b], [from, to]) = (gap, run) {
            sum += 0.5 * (a + b) * (to - from);
        }
        all.push(sum);
    }
    all
}

/// Whether a constant is fitted, too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Level {
    Free,
    Held,
}

/// The root mean square of what is left of `values` after the best sum of the terms and a constant; `None` where a term would be
/// negative. Each term comes with the size its factor usually has, which holds it where the values say nothing of it.
fn least(values: &[f64], terms: &[(&[f64], f64)], level: Level) -> Option<f64> {
    const MOST: usize = 4;
    let width = terms.len() + 1;
    if width > MOST || values.is_empty() {
        return None;
    }
    let row = |at: usize| {
        let mut row = [0.0; MOST];
        if let (Some(slot), Level::Free) = (row.first_mut(), level) {
            *slot = 1.0;
        }
        for (slot, (term, usual)) in row.iter_mut().skip(1).zip(terms) {
            *slot = term.get(at).copied().unwrap_or_default() * usual;
        }
        row
    };
    let mut normal = [[0.0; MOST + 1]; MOST];
    for (at, value) in values.iter().enumerate() {
        let row = row(at);
        for (line, left) in normal.iter_mut().zip(row).take(width) {
            for (cell, right) in line.iter_mut().zip(row).take(width) {
                *cell += left * right;
            }
            if let Some(cell) = line.last_mut() {
                *cell += left * value;
            }
        }
    }
    for (at, line) in normal.iter_mut().enumerate().take(width) {
        if let Some(cell) = line.get_mut(at) {
            *cell += RIDGE;
        }
    }
    let factors = solve(&mut normal, width)?;
    if factors.iter().skip(1).take(width - 1).any(|factor| *factor < 0.0) {
        return None;
    }
    // A factor beyond what any vehicle has is held at that; what is left over then says it.
    let factors = if level == Level::Held { factors.map(|factor| factor.min(LARGEST)) } else { factors };
    let left = values.iter().enumerate().map(|(at, value)| {
        value - row(at).iter().zip(factors).take(width).map(|(term, factor)| term * factor).sum::<f64>()
    });
    Some(super::rms(left))
}

/// Gauss with pivots; the right side is each line's last cell.
fn solve(lines: &mut [[f64; 5]; 4], width: usize) -> Option<[f64; 4]> {
    for at in 0..width {
        let size = |line: &[f64; 5]| line.get(at).copied().unwrap_or_default().abs();
        let pivot = (at..width).max_by(|a, b| {
            let of = |n: &usize| lines.get(*n).map_or(0.0, size);
            of(a).total_cmp(&of(b))
        })?;
        lines.swap(at, pivot);
        let own = *lines.get(at)?;
        let head = *own.get(at)?;
        if head.abs() < 1e-12 {
            return None;
        }
        for (number, line) in lines.iter_mut().enumerate().take(width) {
            if number == at {
                continue;
            }
            let factor = line.get(at)? / head;
            for (cell, of_own) in line.iter_mut().zip(own) {
                *cell -= factor * of_own;
            }
        }
    }
    let mut factors = [0.0; 4];
    for (at, slot) in factors.iter_mut().enumerate().take(width) {
        let line = lines.get(at)?;
        *slot = line.last()? / line.get(at)?;
    }
    Some(factors)
}

/// What the factors usually are: 1 K a minute of its own, a tenth of the gap to the coolant, a fiftieth of that to the air. Source: docs/rehearsal.md,
/// "Heat", middle of the ranges; own choice of the ridge.
const USUAL: [f64; 3] = [1.0, 0.1, 0.02];
/// No factor is more than so many times what it usually is. Own choice: 6 K a minute of its own, a time constant of two minutes to the coolant, of eight to
/// the air.
const LARGEST: f64 = 6.0;
const FREE: f64 = 1.0;
const RIDGE: f64 = 1e-3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_sum_is_found() {
        let term = [0.0, 1.0, 2.0, 3.0, 4.0];
        let square = [0.0, 1.0, 4.0, 9.0, 16.0];
        let cases: &[(&str, [f64; 5], Option<f64>)] = &[
            ("a line", [2.0, 4.0, 6.0, 8.0, 10.0], Some(0.0)),
            ("a line and a square", [1.0, 3.0, 7.0, 13.0, 21.0], Some(0.0)),
            ("it falls: no such factor", [9.0, 7.0, 5.0, 3.0, 1.0], None),
        ];
        for (what, values, want) in cases {
            let got = least(values, &[(&term, 1.0), (&square, 1.0)], Level::Free);
            match want {
                Some(_) => assert!(got.unwrap_or(9.0) < 0.01, "{what}: {got:?}"),
                None => assert_eq!(got, None, "{what}"),
            }
        }
    }
}
