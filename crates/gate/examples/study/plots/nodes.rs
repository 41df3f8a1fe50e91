//! What coolant alone says of the fluid, from the gate itself, and what one reading on the sump does to it.

use events::{Check, FluidEstimate, Measure, Reading, Signal, Surface};
use fluid::thermal::{Nodes, TwoNode};
use gate::{Cooler, Gate};
use plotters::prelude::*;
use units::{Celsius, Kelvins, Mono, Rpm};

use super::paper::{Axis, GREY, PALE, WRITING, chart, filled, line, on_paper, said, text, whole};

/// A vehicle that cooled out and idles; its figures are off the middle of the gate's own.
pub fn draw() -> Result<String, String> {
    let course = COURSE.from(Nodes { engine: AIR_C, trans: AIR_C }).map_err(said)?;
    let told = watched(|seconds| course.at(seconds));
    let minutes = |seconds: f64| seconds / 60.0;
    on_paper((720, 360), |paper| {
        let x = Axis {
            range: 0.0..minutes(END_S),
            shows: "minutes since the engine's start",
            room: 38,
            labels: Some(12),
            label: whole,
        };
        let y = Axis { range: 10.0..80.0, shows: "°C", room: 48, labels: Some(8), label: whole };
        let mut chart = chart(paper, 12, x, y)?;
        let edge = |sign: f64| {
            told.iter().map(move |(t, f)| (minutes(*t), f.celsius.to_f64() + sign * 2.0 * f.u.to_f64()))
        };
        let around: Vec<(f64, f64)> = edge(1.0).chain(edge(-1.0).rev()).collect();
        chart.draw_series([Polygon::new(around, filled(PALE))]).map_err(said)?;
        let middle = told.iter().map(|(t, f)| (minutes(*t), f.celsius.to_f64()));
        chart.draw_series(LineSeries::new(middle, line(GREY, 2))).map_err(said)?;
        let times = || (0..=(END_S / 15.0) as u32).map(|i| f64::from(i) * 15.0);
        let engine = times().map(|t| (minutes(t), course.at(t).engine)).filter(|(_, t)| *t < 80.0);
        chart.draw_series(LineSeries::new(engine, line(GREY, 1))).map_err(said)?;
        let truth = times().map(|t| (minutes(t), course.at(t).trans));
        chart.draw_series(LineSeries::new(truth, line(BLACK, 2))).map_err(said)?;
        let words = [
            (5.0, 58.0, "thin: coolant, which is all that is read"),
            (12.0, 24.0, "black: the fluid as it is"),
            (12.0, 20.0, "surface: as the gate states it, ± 2 u"),
            (READING_S / 60.0 + 0.2, 33.0, "one reading on tape"),
        ];
        chart.draw_series(words.map(|(t, c, word)| Text::new(word, (t, c), text(WRITING)))).map_err(said)?;
        Ok(())
    })
}

/// What the gate says of the fluid every quarter of a minute, with coolant, air and engine speed alone; and a reading on tape later.
fn watched(at: impl Fn(f64) -> Nodes) -> Vec<(f64, FluidEstimate)> {
    let check = Check::of(Signal::Coolant, [60.0, 75.0]);
    let mut gate = Gate::new(&check, Some(Kelvins::clamped(1.0))).with_cooler(Cooler::PinnedThrough);
    let mut told = Vec::new();
    for second in 0..(STANDS_S + END_S) as u32 {
        let (now, since) = (Mono::from_secs(u64::from(second)), f64::from(second) - STANDS_S);
        let nodes = at(since.max(0.0));
        let rpm = if since > 0.0 { 720.0 } else { 0.0 };
        let mut tell = |measure| gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, now);
        Rpm::from_f64(rpm).map(Measure::EngineSpeed).into_iter().for_each(&mut tell);
        tell(Measure::Coolant(Celsius::clamped(nodes.engine.round())));
        tell(Measure::AmbientAir(Celsius::clamped(AIR_C)));
        if since == READING_S {
            // The tape is a little cooler than the fluid (docs/gate.md, "Typed readings").
            tell(Measure::Spot(Celsius::clamped(nodes.trans - 0.07 * (nodes.trans - AIR_C)), Surface::Tape));
        }
        let judged = gate.judge(now, &[]);
        let fluid = judged.estimate.and_then(|estimate| estimate.fluid);
        if since >= 0.0 && (since % 15.0 == 0.0 || (since - READING_S).abs() <= 1.0) {
            told.extend(fluid.map(|fluid| (since, fluid)));
        }
    }
    told
}

/// A vehicle with more exchange and less heat than the middle.
const COURSE: TwoNode = TwoNode {
    engine_kw: 4.6,
    trans_kw: 0.55,
    exchange_w_k: 160.0,
    air_c: AIR_C,
    ..TwoNode::THROUGH_THE_COOLER
};
const AIR_C: f64 = 18.0;
const STANDS_S: f64 = 30.0;
const END_S: f64 = 1_200.0;
const READING_S: f64 = 840.0;
