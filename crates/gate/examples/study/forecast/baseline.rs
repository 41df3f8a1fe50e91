//! What the forecast must beat: a straight line, an exponential approach, a table of rates.

use gate::learned::{DEGREES, FIRST_DEGREE};

use super::recording::{Recording, Row};

/// Seconds until `to` by the least-squares line through the last 60 s. `None` where it does not rise.
pub fn line(recording: &Recording, at: usize, to: f64) -> Option<f64> {
    let rows = recent(recording, at, 60.0)?;
    let now = rows.last()?;
    let slope = slope(rows.iter().map(|r| (r.t, r.coolant)))?;
    (slope > 1e-4).then(|| (to - now.coolant) / slope)
}

/// Seconds until `to` by an exponential approach fitted to the last 300 s: the rate as a straight line over temperature.
pub fn approach(recording: &Recording, at: usize, to: f64) -> Option<f64> {
    let rows = recent(recording, at, 300.0)?;
    let now = rows.last()?;
    let half = rows.len() / 2;
    let (early, late) = (rows.get(..half)?, rows.get(half..)?);
    let of = |rows: &[Row]| slope(rows.iter().map(|r| (r.t, r.coolant)));
    let middle = |rows: &[Row]| rows.iter().map(|r| r.coolant).sum::<f64>() / rows.len() as f64;
    let (s1, s2, c1, c2) = (of(early)?, of(late)?, middle(early), middle(late));
    // s = (end - c)/tau through both halves.
    let per_kelvin = (s1 - s2) / (c2 - c1);
    if !per_kelvin.is_finite() || per_kelvin <= 1e-6 {
        return None;
    }
    let end = c2 + s2 / per_kelvin;
    let left = (end - to) / (end - now.coolant);
    (left > 0.0 && left < 1.0).then(|| -left.ln() / per_kelvin)
}

/// Seconds until `to` by a table of median seconds for each degree. `None` where it does not reach.
pub fn table(seconds_per_degree: &[f64; DEGREES], from: f64, to: f64) -> Option<f64> {
    let place = |celsius: f64| (celsius - FIRST_DEGREE).round();
    let (from, to) = (place(from), place(to));
    let inside = from >= 0.0 && to <= DEGREES as f64 && from <= to;
    inside.then(|| seconds_per_degree.iter().take(to as usize).skip(from as usize).sum())
}

fn recent(recording: &Recording, at: usize, seconds: f64) -> Option<&[Row]> {
    let now = recording.rows.get(at)?.t;
    let from = recording.rows.iter().position(|row| row.t > now - seconds)?;
    recording.rows.get(from..=at).filter(|rows| rows.len() >= 10)
}

fn slope(points: impl Iterator<Item = (f64, f64)> + Clone) -> Option<f64> {
    let n = points.clone().count() as f64;
    let (x, y) = points.clone().fold((0.0, 0.0), |(x, y), (a, b)| (x + a / n, y + b / n));
    let (sxx, sxy) =
        points.fold((0.0, 0.0), |(xx, xy), (a, b)| (xx + (a - x) * (a - x), xy + (a - x) * (b - y)));
    (sxx > 0.0).then(|| sxy / sxx)
}
