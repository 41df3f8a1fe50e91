//! The tables of the physics page against what the gate really says.
//!
//! The rows of `guard_band`, `conformity`, `quantisation` and `combined_uncertainty` are checked against the formulas in
//! `fluid`; here the question is whether the gate uses those formulas and no others. Source of every table:
//! `fixtures/reference/physics` (its README names the origin).

use std::path::Path;

use events::{Check, Measure, Reading, Reason, Signal, Surface, Verdict};
use fluid::measurement::{Guard, OldReading, acceptance, bring_forward, quantisation_u};
use gate::{Gate, Limits};
use units::{Celsius, Kelvins, Mono};

use crate::world::check;

#[test]
fn acceptance_of_the_gate_is_that_of_the_guard_band_table() {
    let table = table("guard_band");
    for row in &table {
        let (low, high, u, k) = (row.number("lower"), row.number("upper"), row.number("u"), row.number("k"));
        let got = acceptance(Guard { low, high, u, k }).unwrap();
        assert_eq!(got.interval.is_none(), row.text("expected_empty") == "yes", "row {}", row.text("id"));
        if let Some((from, to)) = got.interval {
            assert!((from - row.number("expected_accept_low")).abs() < 1e-7, "row {}", row.text("id"));
            assert!((to - row.number("expected_accept_high")).abs() < 1e-7, "row {}", row.text("id"));
        }
    }
    assert_eq!(table.len(), 12);
}

#[test]
fn a_fresh_reading_has_the_budget_that_the_formulas_give() {
    for row in table("quantisation") {
        let step = Kelvins::from_f64(row.number("step")).unwrap();
        let u = quantisation_u(step.to_f64()).unwrap();
        let mut gate = Gate::new(&check([35.0, 45.0]), Some(step));
        gate.observe(&fluid(20.0), Mono::ZERO);
        let known = gate.judge(Mono::ZERO, &[]).estimate.unwrap();
        let budget = bring_forward(OldReading {
            step_c: step.to_f64(),
            u_sensor_c: Limits::FLUID.sensor_c / 3.0_f64.sqrt(),
            u_other_c: u,
            latency_s: Limits::FLUID.latency_s,
            ..OldReading::default()
        })
        .unwrap();
        assert!((0.0..=0.01).contains(&(known.u.to_f64() - budget.u_c)), "row {}: {known:?}", row.text("id"));
    }
}

#[test]
fn an_old_reading_is_brought_forward_as_the_combined_uncertainty_table_says() {
    // Row by row the formula; then once through the gate: a minute-old ramp of 1 K/min, 4 s after its last reading.
    for row in table("combined_uncertainty") {
        let forward = bring_forward(OldReading {
            step_c: row.number("step_c"),
            u_sensor_c: row.number("u_sensor_c"),
            slope_c_min: row.number("slope_c_min"),
            u_slope_c_min: row.number("u_slope_c_min"),
            age_s: row.number("age_s"),
            latency_s: row.number("latency_s"),
            u_other_c: row.number("u_other_c"),
        })
        .unwrap();
        let near = |got: f64, want: f64| (got - want).abs() <= 1e-9 * want.abs().max(1.0);
        assert!(near(forward.shift_c, row.number("expected_shift_c")), "row {}", row.text("id"));
        assert!(near(forward.u_c, row.number("expected_u_c")), "row {}", row.text("id"));
    }
    let mut gate = Gate::new(&check([35.0, 45.0]), None);
    for half in 0..720_u64 {
        gate.observe(&fluid((30.0 + half as f64 / 120.0).floor()), Mono::from_millis(half * 500));
    }
    let known = gate.judge(Mono::from_millis(359_500 + 4_000), &[]).estimate.unwrap();
    let slope = known.kelvins_per_minute.unwrap().to_f64();
    assert!((slope - 1.0).abs() < 0.02, "{slope}");
    // shift = s*(age + latency/2) = 1 K/min * (4 s + 8 s)
    assert!((known.celsius.to_f64() - (35.0 + 12.0 / 60.0)).abs() <= 0.005, "{known:?}");
}

#[test]
fn no_substitute_temperature_seen_in_print_ever_opens_the_gate() {
    let mut constants = 0;
    for row in table("substitute_temperatures") {
        let Ok(value) = row.text("t_c").parse::<f64>() else { continue };
        constants += 1;
        // A band around the value itself, the worst case.
        let mut gate = Gate::new(&check([value - 5.0, value + 5.0]), None);
        for half in 0..7_200_u64 {
            let at = Mono::from_millis(half * 500);
            gate.observe(&fluid(value), at);
            let judged = gate.judge(at, &[]);
            assert_eq!(judged.verdict, Verdict::Wait, "{value} at {at}: {judged:?}");
        }
    }
    assert_eq!(constants, 10);
}

#[test]
fn the_ends_of_the_scale_and_impossible_heat_are_implausible() {
    for value in [-43.0, -40.0, 151.0, 200.0, 215.0] {
        let mut gate = Gate::new(&check([35.0, 45.0]), None);
        gate.observe(&fluid(value), Mono::ZERO);
        let judged = gate.judge(Mono::ZERO, &[]);
        assert_eq!((judged.verdict, judged.estimate), (Verdict::Wait, None), "{value}");
        assert!(judged.reasons.contains(&Reason::Implausible), "{value}: {judged:?}");
    }
}

#[test]
fn bare_metal_is_no_reading() {
    let check = Check { signal: Signal::Spot, ..check([35.0, 45.0]) };
    let mut gate = Gate::new(&check, None);
    let measure = Measure::Spot(Celsius::from_f64(40.0).unwrap(), Surface::BareMetal);
    gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, Mono::ZERO);
    assert_eq!(gate.judge(Mono::ZERO, &[]).reasons, [Reason::NoReading]);
}

fn fluid(value: f64) -> Reading {
    let measure = Measure::Fluid(Celsius::from_f64(value).unwrap());
    Reading { measure, step: None, from: None, age_ms: 0 }
}

/// One row of a check table.
struct Row {
    header: csv::StringRecord,
    record: csv::StringRecord,
}

impl Row {
    fn text(&self, column: &str) -> &str {
        let at = self.header.iter().position(|name| name == column).unwrap();
        self.record.get(at).unwrap()
    }

    fn number(&self, column: &str) -> f64 {
        self.text(column).parse().unwrap()
    }
}

fn table(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/reference/physics").join(name);
    let mut reader = csv::Reader::from_path(path.with_extension("csv")).unwrap();
    let header = reader.headers().unwrap().clone();
    reader.records().map(|record| Row { header: header.clone(), record: record.unwrap() }).collect()
}
