//! Forecast and fluid estimate on idling vehicles in a bay, as the job has them: the rehearsal's vehicles, whose heat is
//! made of more parts than the gate's two nodes, with drawn figures, sensors that lag, err and round.
//!
//! There is no open recording of transmission fluid temperature, so this says how well the arithmetic copes with a world
//! that is not its own, not how real vehicles warm. Other seeds than those that the spread was taken from.
//! `IDLE_SEEDS=1000..1400 cargo test -p gate --test idle -- --nocapture` prints figures of others.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test"
)]

use std::ops::Range;

use events::{Check, Interval, Measure, Reading, Sheet, Signal, Verdict};
use gate::{Cooler, Gate, Warming};
use rehearsal::sensors::Counting;
use rehearsal::{Setup, World};
use units::{Celsius, KilometresPerHour, Mono, Rpm};

/// One forecast and what came.
struct Asked {
    /// How far ahead, K.
    ahead: f64,
    said: Option<Interval>,
    /// By the straight line through the last three minutes of the display, s.
    line: Option<f64>,
    took: f64,
}

/// A forecast that waits for its answer.
struct Open {
    at: f64,
    target: f64,
    from: f64,
    said: Option<Interval>,
    line: Option<f64>,
}

/// What one vehicle showed.
#[derive(Default)]
struct Seen {
    asked: Vec<Asked>,
    /// With coolant alone: what was estimated of the fluid, its uncertainty and the truth, as the fluid passed 30 and 40 °C.
    fluid: Vec<(f64, f64, f64)>,
    disagreed: bool,
    went: bool,
    warming: Option<Warming>,
}

fn check(signal: Signal) -> Check {
    Check::of(signal, [35.0, 45.0])
}

fn sheets() -> Vec<Sheet> {
    ["demo-six-speed", "demo-eight-speed-bypass"]
        .map(|name| {
            let path = format!("{}/../../fixtures/sheets/{name}.toml", env!("CARGO_MANIFEST_DIR"));
            Sheet::parse(&std::fs::read_to_string(path).unwrap()).unwrap()
        })
        .into()
}

/// Both gates of one vehicle: the one that hears the identifier, and the one that hears coolant alone.
struct Gates {
    fluid: Gate,
    coolant: Gate,
}

impl Gates {
    fn observe(&mut self, measure: Measure, at: Mono) {
        let reading = Reading { measure, step: None, from: None, age_ms: 0 };
        self.fluid.observe(&reading, at);
        if !matches!(reading.measure, Measure::Fluid(_)) {
            self.coolant.observe(&reading, at);
        }
    }
}

/// `warmer`: how much warmer the day is than the drawn one, K.
fn watch(seed: u64, sheets: &[Sheet], warmer: f64, earlier: Option<&Warming>) -> Seen {
    let mut setup = Setup::draw(seed, sheets);
    let vehicle = &mut setup.vehicle;
    for celsius in [&mut vehicle.air_celsius, &mut vehicle.engine_celsius, &mut vehicle.fluid_celsius] {
        *celsius += warmer;
    }
    let mut world = World::new(&setup.sheet, setup.vehicle, None, &[], seed);
    let pinned = setup.sheet.before.cooler_bypass;
    let cooler = if pinned { Cooler::PinnedThrough } else { Cooler::Unknown };
    let mut gates = Gates {
        fluid: Gate::new(&check(Signal::Fluid), None).with_cooler(cooler),
        coolant: Gate::new(&check(Signal::Coolant), None).with_cooler(cooler),
    };
    if let Some(warming) = earlier {
        gates.fluid = gates.fluid.with_warming(warming);
    }
    if pinned {
        world.pin_bypass(rehearsal::Plug::In);
    }
    let mut seen = Seen::default();
    // When each degree was first shown.
    let mut turns: Vec<(f64, f64)> = Vec::new();
    let mut open: Vec<Open> = Vec::new();
    let mut marks = vec![40.0, 30.0];
    for half in 0..2 * 4_500_u64 {
        let (at, t) = (Mono::from_millis(half * 500), half as f64 / 2.0);
        if half == 120 {
            world.start_engine();
        }
        world.advance(at);
        let shown = world.shown();
        let value = match world.counting() {
            Counting::Rounded => shown.fluid_celsius.round(),
            Counting::Truncated => shown.fluid_celsius.floor(),
        };
        let celsius = |t: f64| Celsius::from_f64(t).unwrap();
        if half % 2 == 0 {
            gates.observe(Measure::EngineSpeed(Rpm::from_f64(shown.rpm).unwrap()), at);
        }
        if half % 4 == 0 {
            gates.observe(Measure::Coolant(celsius(shown.coolant_celsius.round())), at);
            gates.observe(Measure::VehicleSpeed(KilometresPerHour::from_f64(0.0).unwrap()), at);
        }
        if half % 10 == 0 {
            gates.observe(Measure::IntakeAir(celsius(shown.intake_celsius.round())), at);
            gates.observe(Measure::AmbientAir(celsius(shown.ambient_celsius.round())), at);
            gates.observe(Measure::RunTime(shown.run_s as u32), at);
        }
        gates.observe(Measure::Fluid(celsius(value)), at);
        let judged = gates.fluid.judge(at, &[]);
        let aside = gates.coolant.judge(at, &[]);
        seen.disagreed |= judged.reasons.contains(&events::Reason::Disagrees);
        seen.went |= judged.verdict == Verdict::Go;
        let truth = world.fluid_celsius();
        if marks.last().is_some_and(|mark| truth >= *mark) {
            marks.pop();
            if let Some(fluid) = aside.estimate.and_then(|e| e.fluid) {
                seen.fluid.push((fluid.celsius.to_f64(), fluid.u.to_f64(), truth));
            }
        }
        if turns.last().is_none_or(|(_, highest)| value > *highest) {
            turns.push((t, value));
            open.retain(|o| {
                let came = value >= o.target;
                if came {
                    let (ahead, took) = (o.target - o.from, t - o.at);
                    seen.asked.push(Asked { ahead, said: o.said, line: o.line, took });
                }
                !came
            });
            for ahead in [3.0, 5.0, 10.0] {
                let target = value + ahead;
                if (35.0..=46.0).contains(&target) && half > 240 {
                    let said = gates.fluid.until(celsius(target), at);
                    open.push(Open { at: t, target, from: value, said, line: line(&turns, ahead) });
                }
            }
        }
        if value > 47.0 {
            break;
        }
    }
    seen.warming = gates.fluid.warming();
    seen
}

/// Least squares through the turns of the last three minutes: how long for `ahead` more.
fn line(turns: &[(f64, f64)], ahead: f64) -> Option<f64> {
    let now = turns.last()?.0;
    let recent: Vec<_> = turns.iter().filter(|(t, _)| now - t <= 180.0).collect();
    let n = recent.len() as f64;
    let (x, y) = recent.iter().fold((0.0, 0.0), |(x, y), (t, v)| (x + t / n, y + v / n));
    let sxx: f64 = recent.iter().map(|(t, _)| (t - x) * (t - x)).sum();
    let sxy: f64 = recent.iter().map(|(t, v)| (t - x) * (v - y)).sum();
    (recent.len() >= 2 && sxy > 0.0).then(|| ahead / (sxy / sxx))
}

fn quantile(mut values: Vec<f64>, q: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    values[((values.len() - 1) as f64 * q).round() as usize]
}

fn seeds() -> Range<u64> {
    let given = std::env::var("IDLE_SEEDS").ok();
    let parsed = given.as_deref().and_then(|text| {
        let (from, to) = text.split_once("..")?;
        Some(from.parse().ok()?..to.parse().ok()?)
    });
    parsed.unwrap_or(1..160)
}

#[test]
fn the_forecast_of_an_idling_vehicle_covers_what_it_says_and_beats_the_line() {
    let sheets = sheets();
    let all: Vec<Seen> = seeds().map(|seed| watch(seed, &sheets, 0.0, None)).collect();
    let asked: Vec<&Asked> = all.iter().flat_map(|seen| &seen.asked).collect();
    let mut claims = Vec::new();
    for ahead in [3.0, 5.0, 10.0] {
        let these: Vec<&&Asked> = asked.iter().filter(|a| a.ahead == ahead).collect();
        let said: Vec<(Interval, f64)> = these.iter().filter_map(|a| a.said.map(|i| (i, a.took))).collect();
        let covered = said.iter().filter(|(i, took)| (i.low..=i.high).contains(took)).count() as f64
            / said.len() as f64;
        let ratio = |q| quantile(said.iter().map(|(i, took)| took / i.median).collect(), q);
        let error = |q| quantile(said.iter().map(|(i, took)| (took - i.median).abs()).collect(), q);
        let with_line: Vec<f64> = these
            .iter()
            .filter(|a| a.said.is_some())
            .filter_map(|a| Some((a.took - a.line?).abs()))
            .collect();
        let (median, tail) = (quantile(with_line.clone(), 0.5), quantile(with_line, 0.9));
        println!(
            "{ahead} K ahead: {} of {} asked; took/median 5 % {:.2} 10 % {:.2} 50 % {:.2} 90 % {:.2} 95 % {:.2}; covered {:.0} %; \
             error median {:.0} s, 90 % {:.0} s; line {median:.0} s, {tail:.0} s",
            said.len(),
            these.len(),
            ratio(0.05),
            ratio(0.1),
            ratio(0.5),
            ratio(0.9),
            ratio(0.95),
            covered * 100.0,
            error(0.5),
            error(0.9),
        );
        claims.push(((0.75..=0.9).contains(&covered), format!("{ahead} K ahead: covered {covered:.2}")));
        let better = error(0.5) <= median && error(0.9) <= tail;
        claims.push((better, format!("{ahead} K ahead: the line is better")));
    }
    let z: Vec<f64> = all.iter().flat_map(|s| &s.fluid).map(|(t, u, truth)| (t - truth).abs() / u).collect();
    let u: Vec<f64> = all.iter().flat_map(|s| &s.fluid).map(|(_, u, _)| *u).collect();
    let off: Vec<f64> = all.iter().flat_map(|s| &s.fluid).map(|(t, _, truth)| (t - truth).abs()).collect();
    let within = z.iter().filter(|z| **z <= 2.0).count() as f64 / z.len() as f64;
    println!(
        "coolant alone: {} estimates, u median {:.1} K, 95 % {:.1} K; error median {:.1} K, 95 % {:.1} K; within 2 u {:.1} %",
        z.len(),
        quantile(u.clone(), 0.5),
        quantile(u, 0.95),
        quantile(off.clone(), 0.5),
        quantile(off, 0.95),
        within * 100.0
    );
    let disagreed = all.iter().filter(|s| s.disagreed).count();
    println!("{} vehicles, {disagreed} with a healthy sensor that was contradicted", all.len());
    for (holds, what) in claims {
        assert!(holds, "{what}");
    }
    assert!(within >= 0.93, "the estimate from coolant claims too much: {within:.3} within 2 u");
    assert_eq!(disagreed, 0, "a healthy sensor was contradicted");
}

#[test]
fn what_one_job_learned_of_a_vehicle_makes_the_next_forecast_better() {
    let sheets = sheets();
    let (mut first, mut second) = (Vec::new(), Vec::new());
    for seed in seeds().take(80) {
        // The earlier job was on another day, 6 K colder or warmer.
        let warmer = if seed % 2 == 0 { 6.0 } else { -6.0 };
        let Some(warming) = watch(seed, &sheets, warmer, None).warming else { continue };
        let one = watch(seed, &sheets, 0.0, None);
        let two = watch(seed, &sheets, 0.0, Some(&warming));
        let off = |seen: &Seen| {
            let far = seen.asked.iter().filter(|a| a.ahead == 10.0);
            far.filter_map(|a| Some((a.took / a.said?.median).ln().abs())).collect::<Vec<_>>()
        };
        first.extend(off(&one));
        second.extend(off(&two));
    }
    let (first, second) = (first, second);
    println!(
        "10 K ahead, of the logarithm: {} errors, first job median {:.3} 90 % {:.3}; next job median {:.3} 90 % {:.3}",
        first.len(),
        quantile(first.clone(), 0.5),
        quantile(first.clone(), 0.9),
        quantile(second.clone(), 0.5),
        quantile(second.clone(), 0.9)
    );
    assert!(
        quantile(second.clone(), 0.5) < quantile(first.clone(), 0.5),
        "the next job's forecast is no better"
    );
    assert!(quantile(second, 0.9) < quantile(first, 0.9), "the next job's worst forecasts are no better");
}
