//! The standard uncertainty of one reading as it grows older, from the gate itself, and its parts by their formulas.

use events::{Check, Measure, Reading, Signal};
use fluid::measurement::{half_width_u, quantisation_u};
use gate::{Gate, Limits};
use plotters::prelude::*;
use units::{Celsius, Kelvins, Mono};

use super::paper::{Axis, GREY, PALE, WRITING, chart, filled, line, on_paper, said, tenths, text, whole};

/// A fluid in whole degrees at 1 K/min that falls silent: `u` over the age of the last reading.
pub fn draw() -> Result<String, String> {
    let aged = silent();
    let (step, sensor) =
        (quantisation_u(1.0).map_err(said)?, half_width_u(Limits::FLUID.sensor_c).map_err(said)?);
    let stale = Limits::FLUID.stale_after.as_secs_f64();
    on_paper((720, 320), |paper| {
        let x = Axis {
            range: 0.0..OLDEST as f64,
            shows: "age of the last reading, s",
            room: 38,
            labels: Some(13),
            label: whole,
        };
        let y = Axis {
            range: 0.0..3.0,
            shows: "standard uncertainty, K",
            room: 48,
            labels: Some(7),
            label: tenths,
        };
        let mut chart = chart(paper, 12, x, y)?;
        chart.draw_series([Rectangle::new([(0.0, 0.0), (stale, 3.0)], filled(PALE))]).map_err(said)?;
        for u in [step, sensor] {
            let across = [(0.0, u), (OLDEST as f64, u)];
            chart.draw_series(LineSeries::new(across, line(GREY, 1))).map_err(said)?;
        }
        chart.draw_series(LineSeries::new(aged.iter().copied(), line(BLACK, 2))).map_err(said)?;
        let words = [
            (stale + 1.0, 2.88, format!("grey: go is possible; older than {stale:.0} s: stale, wait")),
            (60.0, sensor + 0.17, format!("sensor: A/√3 = {sensor:.2} K")),
            (60.0, step + 0.17, format!("step, and once more for truncation: q/√12 = {step:.2} K each")),
            (8.0, 2.2, "all together, as the gate states it:".to_owned()),
            (
                8.0,
                2.03,
                "once the next degree is overdue, what it may have fallen behind counts in full".to_owned(),
            ),
        ];
        chart.draw_series(words.map(|(t, u, word)| Text::new(word, (t, u), text(WRITING)))).map_err(said)?;
        Ok(())
    })
}

/// What the gate says of a ramp that was read twice a second and then no more.
fn silent() -> Vec<(f64, f64)> {
    let check = Check::of(Signal::Fluid, [35.0, 45.0]);
    let mut gate = Gate::new(&check, Some(Kelvins::clamped(1.0)));
    for half in 0..=LAST_HALF {
        let at = Mono::from_millis(half * 500);
        let shown = (30.0 + half as f64 / 120.0).floor();
        let measure = Measure::Fluid(Celsius::clamped(shown));
        gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
        let _ = gate.judge(at, &[]);
    }
    let last = LAST_HALF * 500;
    let aged = (0..=OLDEST * 2).filter_map(|half| {
        let judgement = gate.judge(Mono::from_millis(last + half * 500), &[]);
        Some((half as f64 / 2.0, judgement.estimate?.u.to_f64()))
    });
    aged.collect()
}

/// The last reading, in half seconds: half-way through a degree.
const LAST_HALF: u64 = 1_020;
/// Ages to here, s: then the history counts for nothing.
const OLDEST: u64 = 120;
