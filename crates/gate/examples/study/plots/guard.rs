//! Probability of conformity and guard band: JCGM 106:2012, 7.2 to 7.4 and 8.3.

use fluid::measurement::{Guard, acceptance, probability_in_band};
use plotters::prelude::*;

use super::paper::{Axis, GREY, PALE, WRITING, chart, filled, line, on_paper, said, tenths, text, whole};

/// Probability that the truth lies in 35 to 45 °C, over the estimate, for two uncertainties, with the guard of `k = 2`.
pub fn draw() -> Result<String, String> {
    on_paper((720, 320), |paper| {
        let x =
            Axis { range: 33.0..47.0, shows: "estimate T, °C", room: 38, labels: Some(15), label: whole };
        let y = Axis {
            range: 0.0..1.12,
            shows: "probability in the band",
            room: 48,
            labels: Some(6),
            label: tenths,
        };
        let mut chart = chart(paper, 12, x, y)?;
        let (from, to) = accepted(FRESH)?;
        chart.draw_series([Rectangle::new([(from, 0.0), (to, 1.0)], filled(PALE))]).map_err(said)?;
        for (u, style) in [(FRESH, line(BLACK, 2)), (WIDE, line(GREY, 2))] {
            let curve: Result<Vec<_>, String> = (0..=280)
                .map(|i| 33.0 + f64::from(i) / 20.0)
                .map(|t| Ok((t, probability_in_band(t, u, Some(BAND[0]), Some(BAND[1])).map_err(said)?)))
                .collect();
            chart.draw_series(LineSeries::new(curve?, style)).map_err(said)?;
        }
        let edges = BAND.map(|edge| PathElement::new([(edge, 0.0), (edge, 1.0)], line(BLACK, 1)));
        chart.draw_series(edges).map_err(said)?;
        let (inner, outer) = accepted(WIDE)?;
        let narrower = [inner, outer].map(|edge| PathElement::new([(edge, 0.0), (edge, 1.0)], line(GREY, 1)));
        chart.draw_series(narrower).map_err(said)?;
        let words = [
            (35.0, 1.10, "TL".to_owned()),
            (45.0, 1.10, "TU".to_owned()),
            (37.7, 0.82, format!("u = {FRESH} K: go is possible on the surface,")),
            (38.2, 0.40, format!("u = {WIDE} K: between the grey lines")),
            (33.2, 0.62, format!("black: u = {FRESH} K")),
            (33.2, 0.55, format!("grey: u = {WIDE} K")),
            (37.7, 0.72, at_limit(FRESH)?),
        ];
        chart.draw_series(words.map(|(t, p, word)| Text::new(word, (t, p), text(WRITING)))).map_err(said)?;
        Ok(())
    })
}

fn guard(u: f64) -> Guard {
    Guard { low: BAND[0], high: BAND[1], u, k: 2.0 }
}

fn accepted(u: f64) -> Result<(f64, f64), String> {
    acceptance(guard(u)).map_err(said)?.interval.ok_or_else(|| "the guards cross".to_owned())
}

fn at_limit(u: f64) -> Result<String, String> {
    let probability = acceptance(guard(u)).map_err(said)?.probability_at_limit();
    Ok(format!("{:.1} % at the limit", 100.0 * probability.ok_or("the guards cross")?))
}

const BAND: [f64; 2] = [35.0, 45.0];
/// Whole degrees, fresh, 1 K/min: docs/gate.md, "Estimate".
const FRESH: f64 = 0.71;
const WIDE: f64 = 1.5;
