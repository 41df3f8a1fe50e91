//! What a step of the gate costs, and a forecast, against a floor measured in the same run.
//!
//! A step: half a second of an idling vehicle's readings and one judgement. The floor: the budget of one reading and the guarded
//! band it is held against, and nothing else. The claims: a step costs at most 5 µs, a forecast at most 200 µs, on
//! the machine it was written on (2 cores of a cloud server); a step at most 400 times the floor on any.
//! `cargo bench -p gate` prints all three and fails when the last is broken.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs, reason = "a bench prints and may panic")]

use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use events::{Check, Measure, Reading, Signal};
use fluid::measurement::{Guard, OldReading, acceptance, bring_forward};
use gate::{Cooler, Gate};
use units::{Celsius, Kelvins, Mono, Rpm};

/// Half seconds in one run: half an hour.
const HALVES: u64 = 3_600;
const RUNS: usize = 20;
const MOST_OVER_FLOOR: f64 = 400.0;

fn reading(measure: Measure) -> Reading {
    Reading { measure, step: None, from: None, age_ms: 0 }
}

fn celsius(t: f64) -> Celsius {
    Celsius::from_f64(t).unwrap()
}

fn gate(signal: Signal) -> Gate {
    let check = Check::of(signal, [35.0, 45.0]);
    Gate::new(&check, Kelvins::from_f64(1.0)).with_cooler(Cooler::PinnedThrough)
}

/// The readings of each half second as the schedule of the daemon asks for them, made beforehand.
fn readings() -> Vec<Vec<Reading>> {
    (0..HALVES)
        .map(|half| {
            let t = 20.0 + half as f64 / 120.0;
            let mut now = vec![reading(Measure::Fluid(celsius(t.round())))];
            if half % 2 == 0 {
                now.push(reading(Measure::EngineSpeed(Rpm::from_f64(700.0).unwrap())));
            }
            if half % 4 == 0 {
                now.push(reading(Measure::Coolant(celsius((t * 1.6).round()))));
            }
            if half % 10 == 0 {
                now.push(reading(Measure::AmbientAir(celsius(18.0))));
                now.push(reading(Measure::IntakeAir(celsius(22.0))));
            }
            now
        })
        .collect()
}

/// The time of one call of `work`, the least of several runs over `calls` calls each.
fn each(calls: u64, mut work: impl FnMut()) -> Duration {
    let run = |work: &mut dyn FnMut()| {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    let least = (0..RUNS).map(|_| run(&mut work)).min().unwrap();
    least / u32::try_from(calls).unwrap()
}

fn floor() {
    for half in 0..HALVES {
        let t = 20.0 + half as f64 / 120.0;
        let forward = bring_forward(OldReading {
            step_c: black_box(1.0),
            u_sensor_c: 0.577,
            slope_c_min: 1.0,
            u_slope_c_min: 0.1,
            age_s: 0.2,
            latency_s: 16.0,
            u_other_c: 0.289,
        })
        .unwrap();
        let band = acceptance(Guard { low: 35.0, high: 45.0, u: forward.u_c, k: 2.0 }).unwrap();
        black_box(band.accepts(t + forward.shift_c));
    }
}

fn main() -> ExitCode {
    let readings = readings();
    let floor = each(HALVES, floor);
    let mut worst = Duration::ZERO;
    for signal in [Signal::Fluid, Signal::Coolant] {
        let step = each(HALVES, || {
            let mut gate = gate(signal);
            for (half, now) in readings.iter().enumerate() {
                let at = Mono::from_millis(half as u64 * 500);
                for reading in now {
                    gate.observe(black_box(reading), at);
                }
                black_box(gate.judge(at, &[]));
            }
        });
        worst = worst.max(step);
        println!("step, {signal:?}: {step:?} (floor {floor:?}, {:.0} times)", ratio(step, floor));
    }
    let mut watched = gate(Signal::Fluid);
    let half_way = HALVES / 3;
    for (half, now) in readings.iter().enumerate().take(usize::try_from(half_way).unwrap()) {
        let at = Mono::from_millis(half as u64 * 500);
        now.iter().for_each(|reading| watched.observe(reading, at));
        watched.judge(at, &[]);
    }
    let at = Mono::from_millis((half_way - 1) * 500);
    let calls = 1_000;
    let mut said = None;
    let forecast = each(calls, || {
        for _ in 0..calls {
            said = black_box(watched.until(celsius(black_box(45.0)), at));
        }
    });
    println!("forecast of {said:?}: {forecast:?}");
    if said.is_none() || ratio(worst, floor) > MOST_OVER_FLOOR {
        println!("a step costs more than {MOST_OVER_FLOOR} times the floor, or there was no forecast");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

fn ratio(of: Duration, floor: Duration) -> f64 {
    of.as_secs_f64() / floor.as_secs_f64()
}
