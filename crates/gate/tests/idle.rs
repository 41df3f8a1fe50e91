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
    /// The same of the coolant, where the check is gated on it.
    of_coolant: Vec<Asked>,
    /// With coolant alone: what was estimated of the fluid, its uncertainty and the truth, as the fluid passed 30 and 40 °C.
    fluid: Vec<(f64, f64, f64)>,
    disagreed: bool,
    fluid_went: Went,
    coolant_went: Went,
    warming: Option<Warming>,
    coolant_warming: Option<Warming>,
}

fn check(signal: Signal) -> Check {
    Check::of(signal, if signal == Signal::Coolant { [60.0, 75.0] } else { [35.0, 45.0] })
}

/// The `go` of one climb through the band, beside a plain guard band's.
#[derive(Debug, Clone, Copy, Default)]
struct Went {
    plain: u32,
    went: u32,
    begun: u32,
    before: bool,
}

impl Went {
    fn look(&mut self, check: &Check, shown: f64, verdict: Verdict) {
        let went = verdict == Verdict::Go;
        let [low, high] = check.band_c;
        if (low + PLAIN_GUARD_K..=high - PLAIN_GUARD_K).contains(&shown) {
            self.plain += 1;
            self.went += u32::from(went);
        }
        self.begun += u32::from(went && !self.before);
        self.before = went;
    }
}

/// Twice the uncertainty of a fresh whole degree, K.
const PLAIN_GUARD_K: f64 = 1.42;

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
fn watch(seed: u64, sheets: &[Sheet], warmer: f64, earlier: Option<&Seen>) -> Seen {
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
    if let Some(warming) = earlier.and_then(|seen| seen.warming.as_ref()) {
        gates.fluid = gates.fluid.with_warming(warming);
    }
    if let Some(warming) = earlier.and_then(|seen| seen.coolant_warming.as_ref()) {
        gates.coolant = gates.coolant.with_warming(warming);
    }
    if pinned {
        world.pin_bypass(rehearsal::Plug::In);
    }
    let mut seen = Seen::default();
    let (mut fluid, mut coolant) = (Probe::default(), Probe::default());
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
        seen.fluid_went.look(&check(Signal::Fluid), value, judged.verdict);
        seen.coolant_went.look(&check(Signal::Coolant), shown.coolant_celsius.round(), aside.verdict);
        let truth = world.fluid_celsius();
        if marks.last().is_some_and(|mark| truth >= *mark) {
            marks.pop();
            if let Some(fluid) = aside.estimate.and_then(|e| e.fluid) {
                seen.fluid.push((fluid.celsius.to_f64(), fluid.u.to_f64(), truth));
            }
        }
        fluid.turn(t, value, (35.0, 46.0), |target| gates.fluid.until(celsius(target), at));
        let value_c = shown.coolant_celsius.round();
        if half % 4 == 0 {
            coolant.turn(t, value_c, (38.0, 80.0), |target| gates.coolant.until(celsius(target), at));
        }
        if value > 47.0 && (value_c > 80.0 || half > 5_400) {
            break;
        }
    }
    seen.warming = gates.fluid.warming();
    seen.coolant_warming = gates.coolant.warming();
    (seen.asked, seen.of_coolant) = (fluid.asked, coolant.asked);
    seen
}

/// A signal whose forecasts are held against what came.
#[derive(Default)]
struct Probe {
    /// When each degree was first shown.
    turns: Vec<(f64, f64)>,
    open: Vec<Open>,
    asked: Vec<Asked>,
}

impl Probe {
    fn turn(&mut self, t: f64, value: f64, targets: (f64, f64), until: impl Fn(f64) -> Option<Interval>) {
        if self.turns.last().is_some_and(|(_, highest)| value <= *highest) {
            return;
        }
        self.turns.push((t, value));
        let asked = &mut self.asked;
        self.open.retain(|o| {
            let came = value >= o.target;
            if came {
                asked.push(Asked { ahead: o.target - o.from, said: o.said, line: o.line, took: t - o.at });
            }
            !came
        });
        for ahead in [3.0, 5.0, 10.0] {
            let target = value + ahead;
            if (targets.0..=targets.1).contains(&target) && t > 120.0 {
                let line = line(&self.turns, ahead);
                self.open.push(Open { at: t, target, from: value, said: until(target), line });
            }
        }
    }
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

/// So many climbs at the least have one `go` only; figures and what is asked: docs/gate.md, "Idling as it is".
const ONCE: f64 = 0.98;

/// The error of the median against that of the straight line: half of it, a little more or less by the vehicles drawn.
const MUCH_BETTER: f64 = 0.65;

/// The mean interval score at 80 %, s.
fn score(all: impl Iterator<Item = (f64, f64, f64)>) -> f64 {
    let scores: Vec<f64> = all
        .map(|(low, high, took)| high - low + 10.0 * ((low - took).max(0.0) + (took - high).max(0.0)))
        .collect();
    scores.iter().sum::<f64>() / scores.len() as f64
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
    let mut claims = Vec::new();
    for (signal, ahead) in [
        ("fluid", 3.0),
        ("fluid", 5.0),
        ("fluid", 10.0),
        ("coolant", 3.0),
        ("coolant", 5.0),
        ("coolant", 10.0),
    ] {
        let of_fluid = signal == "fluid";
        let asked: Vec<&Asked> =
            all.iter().flat_map(|seen| if of_fluid { &seen.asked } else { &seen.of_coolant }).collect();
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
        let score = score(said.iter().map(|(i, took)| (i.low, i.high, *took)));
        let by_line: Vec<(f64, f64)> =
            these.iter().filter(|a| a.said.is_some()).filter_map(|a| Some((a.line?, a.took))).collect();
        // The line with the interval that would have been best for it on these very vehicles.
        let of_line = |q| quantile(by_line.iter().map(|(line, took)| took / line).collect(), q);
        let (low, high) = (of_line(0.1), of_line(0.9));
        let line_score = self::score(by_line.iter().map(|(line, took)| (line * low, line * high, *took)));
        let steady = self::score(by_line.iter().map(|(line, took)| (line * 0.8, line * 1.2, *took)));
        println!(
            "{signal}: score {score:.0}, line {line_score:.0}, line ±20 % {steady:.0}; errors {:.1} {:.1}",
            error(0.5),
            median
        );
        println!(
            "{signal}, {ahead} K ahead: {} of {} asked; took/median 5 % {:.2} 10 % {:.2} 50 % {:.2} 90 % {:.2} 95 % {:.2}; covered {:.0} %; \
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
        claims.push((
            (0.75..=0.9).contains(&covered),
            format!("{signal}, {ahead} K ahead: covered {covered:.2}"),
        ));
        let better = error(0.5) <= MUCH_BETTER * median && error(0.9) <= tail;
        claims.push((better, format!("{signal}, {ahead} K ahead: the line is nearly as good")));
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
    for (signal, of) in [("fluid", (|s| s.fluid_went) as fn(&Seen) -> Went), ("coolant", |s| s.coolant_went)]
    {
        let passed: Vec<Went> = all.iter().map(of).filter(|went| went.plain > 0).collect();
        let sum = |of: fn(&Went) -> u32| f64::from(passed.iter().map(of).sum::<u32>());
        let share = sum(|w| w.went) / sum(|w| w.plain);
        let once = passed.iter().filter(|w| w.begun <= 1).count() as f64 / passed.len() as f64;
        println!(
            "{signal}: go in {:.1} % of the plain guard band's time; once in {:.1} % of {} climbs",
            100.0 * share,
            100.0 * once,
            passed.len()
        );
        claims.push((share >= 0.9, format!("{signal}: go in {share:.3} of the plain guard band's time")));
        claims.push((once >= ONCE, format!("{signal}: one go in {once:.3} of the climbs")));
    }
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
    let (mut first, mut second) = ([Vec::new(), Vec::new()], [Vec::new(), Vec::new()]);
    for seed in seeds().take(80) {
        // The earlier job was on another day, 6 K colder or warmer.
        let warmer = if seed % 2 == 0 { 6.0 } else { -6.0 };
        let earlier = watch(seed, &sheets, warmer, None);
        if earlier.warming.is_none() {
            continue;
        }
        let one = watch(seed, &sheets, 0.0, None);
        let two = watch(seed, &sheets, 0.0, Some(&earlier));
        for (at, of) in [(0, (|seen| &seen.asked) as fn(&Seen) -> &Vec<Asked>), (1, |seen| &seen.of_coolant)]
        {
            first[at].extend(said(of(&one)));
            second[at].extend(said(of(&two)));
        }
    }
    for (signal, first, second) in [("fluid", &first[0], &second[0]), ("coolant", &first[1], &second[1])] {
        let off = |all: &[(Interval, f64)], q| {
            quantile(all.iter().map(|(i, took)| (took / i.median).ln().abs()).collect(), q)
        };
        let seconds = |all: &[(Interval, f64)], q| {
            quantile(all.iter().map(|(i, took)| (took - i.median).abs()).collect(), q)
        };
        let scored = |all: &[(Interval, f64)]| score(all.iter().map(|(i, took)| (i.low, i.high, *took)));
        let covered = |all: &[(Interval, f64)]| {
            all.iter().filter(|(i, took)| (i.low..=i.high).contains(took)).count() as f64 / all.len() as f64
        };
        for (job, all) in [("first", first), ("next", second)] {
            println!(
                "{signal}, 10 K ahead, {job} job: {} asked; of the logarithm median {:.3} 90 % {:.3}; {:.0} s {:.0} s; score {:.0}; covered {:.0} %",
                all.len(),
                off(all, 0.5),
                off(all, 0.9),
                seconds(all, 0.5),
                seconds(all, 0.9),
                scored(all),
                100.0 * covered(all)
            );
        }
        assert!(off(second, 0.5) < off(first, 0.5), "{signal}: the next job's forecast is no better");
        assert!(off(second, 0.9) < off(first, 0.9), "{signal}: the next job's worst forecasts are no better");
    }
}

/// What was said 10 K ahead, and what came.
fn said(asked: &[Asked]) -> Vec<(Interval, f64)> {
    asked.iter().filter(|a| a.ahead == 10.0).filter_map(|a| Some((a.said?, a.took))).collect()
}
