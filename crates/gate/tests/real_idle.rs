//! Warm-ups as a real car idles them: the gate's `go` beside a plain guard band, and the forecast, on climbs made from the table of 23 warm-ups
//! of one car (`fixtures/reference/physics/idle_warmup.csv`: coolant; paces and idle speeds, no rows).
//!
//! Each climb takes its seconds for a kelvin from between the tenth and the ninetieth of a hundred, a bin a little apart from the next, the
//! pace drawn smoothly through the bins, its idle speed likewise. Whole degrees or tenths, two readings a second.
//! `IDLE_CLIMBS=7000..7400 cargo test -p gate --test real_idle -- --nocapture` prints the tables of docs/gate.md for others.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test"
)]

use std::ops::Range;

use events::{Check, Interval, Measure, Reading, Signal, Verdict};
use gate::Gate;
use rehearsal::dice::Dice;
use units::{Celsius, Kelvins, KilometresPerHour, Mono, Rpm};

/// Five kelvins of the table.
struct Row {
    middle: f64,
    /// Seconds for one kelvin: tenth, median, ninetieth of a hundred.
    seconds: [f64; 3],
    rpm: f64,
}

fn table() -> Vec<Row> {
    let path = format!("{}/../../fixtures/reference/physics/idle_warmup.csv", env!("CARGO_MANIFEST_DIR"));
    let row = |line: &str| {
        let cells: Vec<f64> = line.split(',').filter_map(|cell| cell.parse().ok()).collect();
        Row {
            middle: f64::midpoint(cells[0], cells[1]),
            seconds: [cells[3], cells[4], cells[5]],
            rpm: cells[6],
        }
    };
    let mut rows: Vec<Row> = std::fs::read_to_string(path).unwrap().lines().skip(1).map(row).collect();
    rows.pop(); // its thermostat
    rows
}

/// One climb: what was so, twice a second.
struct Climb {
    celsius: Vec<f64>,
    rpm: Vec<f64>,
}

impl Climb {
    fn draw(seed: u64, rows: &[Row]) -> Self {
        let mut dice = Dice::part(seed, 0x1D1E);
        let day = dice.between(0.1, 0.9);
        let fast = 1.0 + dice.within(0.03);
        let nodes: Vec<(f64, f64, f64)> = rows
            .iter()
            .map(|row| {
                let [p10, p50, p90] = row.seconds;
                let q = (day + dice.within(0.15)).clamp(0.1, 0.9);
                let seconds = if q < 0.5 {
                    p10 + (p50 - p10) * (q - 0.1) / 0.4
                } else {
                    p50 + (p90 - p50) * (q - 0.5) / 0.4
                };
                (row.middle, seconds, row.rpm * fast)
            })
            .collect();
        let (mut celsius, mut climb) = (dice.between(26.0, 31.0), Self { celsius: vec![], rpm: vec![] });
        while celsius < 84.0 {
            let above = nodes.iter().position(|node| node.0 > celsius).unwrap_or(nodes.len() - 1).max(1);
            let (low, high) = (nodes[above - 1], nodes[above]);
            let share = ((celsius - low.0) / (high.0 - low.0)).clamp(-0.5, 1.0);
            let seconds = (low.1.ln() + share * (high.1 / low.1).ln()).exp();
            climb.celsius.push(celsius);
            climb.rpm.push(low.2 + share * (high.2 - low.2) + dice.within(12.0));
            celsius += 0.5 / seconds;
        }
        climb
    }
}

/// How the values are shown.
#[derive(Clone, Copy, PartialEq)]
enum Shown {
    Whole,
    Tenths,
}

impl Shown {
    fn of(self, celsius: f64) -> f64 {
        match self {
            Self::Whole => celsius.round(),
            Self::Tenths => (celsius * 10.0).round() / 10.0,
        }
    }

    fn step(self) -> Kelvins {
        Kelvins::from_f64(if self == Self::Whole { 1.0 } else { 0.1 }).unwrap()
    }
}

/// What came of one climb through a band.
struct Passed {
    /// Looks at which a plain guard band says go.
    plain: usize,
    /// Of these, those with `go`.
    went: usize,
    /// How often `go` began.
    begun: usize,
}

struct Asked {
    from: f64,
    ahead: f64,
    said: Option<Interval>,
    line: f64,
    took: f64,
}

/// The gate over one climb. Also what it forecast, 10 K ahead, from each whole degree.
fn watch(climb: &Climb, signal: Signal, band: [f64; 2], shown: Shown) -> (Passed, Vec<Asked>) {
    let check = Check::of(signal, band);
    let mut gate = Gate::new(&check, Some(shown.step()));
    let mut passed = Passed { plain: 0, went: 0, begun: 0 };
    let (mut before, mut asked) = (Verdict::Wait, Vec::new());
    let first_at = |value: f64| climb.celsius.iter().position(|c| shown.of(*c) >= value);
    let mut turn = f64::MIN;
    for (half, (celsius, rpm)) in climb.celsius.iter().zip(&climb.rpm).enumerate() {
        let at = Mono::from_millis(500 * half as u64);
        let value = shown.of(*celsius);
        let mut observe = |measure| {
            gate.observe(&Reading { measure, step: Some(shown.step()), from: None, age_ms: 0 }, at);
        };
        if half % 2 == 0 {
            observe(Measure::EngineSpeed(Rpm::from_f64(*rpm).unwrap()));
            observe(Measure::VehicleSpeed(KilometresPerHour::from_f64(0.0).unwrap()));
        }
        let celsius = Celsius::from_f64(value).unwrap();
        observe(match signal {
            Signal::Coolant => Measure::Coolant(celsius),
            _ => Measure::Fluid(celsius),
        });
        let judged = gate.judge(at, &[]);
        let u = if shown == Shown::Whole { 0.71 } else { 0.58 };
        if (band[0] + 2.0 * u..=band[1] - 2.0 * u).contains(&value) {
            passed.plain += 1;
            passed.went += usize::from(judged.verdict == Verdict::Go);
        }
        passed.begun += usize::from(judged.verdict == Verdict::Go && before != Verdict::Go);
        before = judged.verdict;
        if value.floor() > turn && half > 0 {
            turn = value.floor();
            for ahead in [3.0, 5.0, 10.0] {
                let (Some(then), true) = (first_at(turn + ahead), turn >= 32.0) else { continue };
                let said = gate.until(Celsius::from_f64(turn + ahead).unwrap(), at);
                let back = half.saturating_sub(360);
                let rate = (climb.celsius[half] - climb.celsius[back]) / (half - back) as f64;
                asked.push(Asked {
                    from: turn,
                    ahead,
                    said,
                    line: 0.5 * ahead / rate,
                    took: 0.5 * (then - half) as f64,
                });
            }
        }
    }
    (passed, asked)
}

fn climbs() -> Range<u64> {
    let given = std::env::var("IDLE_CLIMBS").ok();
    let parsed = given.as_deref().and_then(|text| {
        let (from, to) = text.split_once("..")?;
        Some(from.parse().ok()?..to.parse().ok()?)
    });
    parsed.unwrap_or(1..61)
}

fn quantile(mut values: Vec<f64>, q: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(((values.len().max(1) - 1) as f64 * q).round() as usize).copied().unwrap_or(f64::NAN)
}

const BANDS: [[f64; 2]; 5] = [[35.0, 45.0], [40.0, 50.0], [45.0, 55.0], [60.0, 70.0], [70.0, 80.0]];

#[test]
fn an_idling_vehicle_gets_go_nearly_where_a_plain_guard_band_gives_it_and_once_in_a_climb() {
    let rows = table();
    let all: Vec<Climb> = climbs().map(|seed| Climb::draw(seed, &rows)).collect();
    for (signal, shown, name) in [
        (Signal::Coolant, Shown::Whole, "coolant, whole degrees"),
        (Signal::Coolant, Shown::Tenths, "coolant, tenths"),
        (Signal::Fluid, Shown::Whole, "read as fluid, whole degrees"),
    ] {
        println!("{name}");
        println!("| band | share of the plain guard band's go | go once in a climb | go begun, mean |");
        println!("| --- | --- | --- | --- |");
        for band in BANDS {
            let passed: Vec<Passed> = all.iter().map(|climb| watch(climb, signal, band, shown).0).collect();
            let sum = |of: fn(&Passed) -> usize| passed.iter().map(of).sum::<usize>() as f64;
            let once = passed.iter().filter(|p| p.begun <= 1).count() as f64 / passed.len() as f64;
            println!(
                "| {:.0} to {:.0} | {:.0} % | {:.0} % | {:.2} |",
                band[0],
                band[1],
                100.0 * sum(|p| p.went) / sum(|p| p.plain),
                100.0 * once,
                sum(|p| p.begun) / passed.len() as f64
            );
            if signal == Signal::Coolant {
                let share = sum(|p| p.went) / sum(|p| p.plain);
                assert!(share >= 0.9, "{name}, {band:?}: {share:.2} of what a plain guard band gives");
                assert!(once >= 0.98, "{name}, {band:?}: go once in {once:.2} of the climbs");
            }
        }
    }
}

#[test]
fn the_forecast_of_a_real_idle_is_not_late() {
    let rows = table();
    let all: Vec<Climb> = climbs().map(|seed| Climb::draw(seed, &rows)).collect();
    println!(
        "| signal | from, °C | ahead | error of the median, s: half below / nine in ten | the line of 3 min | in the interval |"
    );
    println!("| --- | --- | --- | --- | --- | --- |");
    for signal in [Signal::Coolant, Signal::Fluid] {
        let asked: Vec<Asked> =
            all.iter().flat_map(|climb| watch(climb, signal, [60.0, 70.0], Shown::Whole).1).collect();
        for (from, to) in [(32.0, 45.0), (50.0, 70.0)] {
            for ahead in [3.0, 5.0, 10.0] {
                let these: Vec<&Asked> =
                    asked.iter().filter(|a| a.ahead == ahead && (from..=to).contains(&a.from)).collect();
                let said: Vec<(Interval, f64, f64)> =
                    these.iter().filter_map(|a| a.said.map(|i| (i, a.took, a.line))).collect();
                let off = |q| quantile(said.iter().map(|(i, took, _)| (took - i.median).abs()).collect(), q);
                let line = |q| quantile(said.iter().map(|(_, took, line)| (took - line).abs()).collect(), q);
                let covered = said.iter().filter(|(i, took, _)| (i.low..=i.high).contains(took)).count();
                let share = covered as f64 / said.len() as f64;
                println!(
                    "| {signal} | {from:.0} to {to:.0} | {ahead:.0} K | {:.0} / {:.0} | {:.0} / {:.0} | {:.0} % of {} |",
                    off(0.5),
                    off(0.9),
                    line(0.5),
                    line(0.9),
                    100.0 * share,
                    said.len()
                );
                if signal == Signal::Coolant {
                    assert!(off(0.5) <= 0.5 * line(0.5), "{from} °C, {ahead} K ahead: the line is as good");
                    assert!(share >= 0.75, "{from} °C, {ahead} K ahead: in the interval {share:.2}");
                }
            }
        }
    }
}
