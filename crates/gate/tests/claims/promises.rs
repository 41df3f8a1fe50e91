//! Forecasts against vehicles that idle: two thermal nodes with figures drawn from the whole range of the physics page.
//!
//! The gate knows nothing of two nodes: it extrapolates a line and an approach. Source of the figures:
//! `fixtures/reference/physics/thermal_parameters.csv`, low to high, estimates from memory; no recording of transmission
//! fluid is known. What is counted: in how many cases the true time lay in the interval.

use events::{Interval, Measure, Reading, Verdict};
use fluid::thermal::{Nodes, TwoNode};
use gate::Gate;
use units::{Celsius, Mono};

use crate::world::check;

/// How often the truth lay in the interval, before it, after it; and in how many cases nothing was promised.
#[derive(Debug, Default, Clone, Copy)]
struct Tally {
    within: u32,
    sooner: u32,
    later: u32,
    none: u32,
}

impl Tally {
    fn count(&mut self, promised: Option<Interval>, truth: f64) {
        match promised {
            None => self.none += 1,
            Some(p) if truth < p.low => self.sooner += 1,
            Some(p) if truth > p.high => self.later += 1,
            Some(_) => self.within += 1,
        }
    }

    fn share(&self) -> f64 {
        f64::from(self.within) / f64::from((self.within + self.sooner + self.later).max(1))
    }
}

#[test]
fn forecasts_for_a_vehicle_that_idles_hold_at_least_as_often_as_they_say() {
    let mut dice = 20_261_125_u64;
    let (mut opens, mut closes) = (Tally::default(), Tally::default());
    for _ in 0..300 {
        let (shown, _) = warm_up(&mut dice);
        let first = |value: f64| shown.iter().position(|&v| v >= value);
        // Asked when 30 is first shown; the gate opens at 37 and closes at 44 (band 35 to 45, 0.71 K, k = 2).
        let (Some(ask), Some(open), Some(close)) = (first(30.0), first(37.0), first(44.0)) else { continue };
        let mut gate = Gate::new(&check([35.0, 45.0]), None);
        let mut forecast = None;
        for (second, &value) in shown.iter().enumerate().take(ask + 1) {
            gate.observe(&reading(value), at(second));
            forecast = gate.judge(at(second), &[]).forecast;
        }
        opens.count(forecast.and_then(|f| f.opens_in), (open - ask) as f64);
        closes.count(forecast.and_then(|f| f.closes_in), (close - ask) as f64);
    }
    println!("opens {opens:?} closes {closes:?}");
    assert!(opens.share() >= 0.8 && closes.share() >= 0.8, "{opens:?} {closes:?}");
    assert!(opens.none <= 15 && closes.none <= 30, "{opens:?} {closes:?}");
}

#[test]
fn a_vehicle_that_idles_gets_its_window_and_never_a_go_outside_the_band() {
    let mut dice = 4_711_u64;
    let (mut reached, mut missed) = (0, 0);
    for _ in 0..200 {
        let (shown, truth) = warm_up(&mut dice);
        let mut gate = Gate::new(&check([35.0, 45.0]), None);
        let mut went = false;
        for (second, (&value, &truth)) in shown.iter().zip(&truth).enumerate() {
            gate.observe(&reading(value), at(second));
            if gate.judge(at(second), &[]).verdict == Verdict::Go {
                went = true;
                assert!((35.0..=45.0).contains(&truth), "{truth} at {second} s");
            }
        }
        if truth.iter().any(|t| (38.0..42.0).contains(t)) {
            reached += 1;
            missed += u32::from(!went);
        }
    }
    assert!(reached > 150 && missed == 0, "{missed} of {reached}");
}

/// What is shown each second, and the truth behind it, of one random vehicle from its cold start, for 50 minutes.
fn warm_up(dice: &mut u64) -> (Vec<f64>, Vec<f64>) {
    let air_c = between(dice, -5.0, 25.0);
    let exchange = if between(dice, 0.0, 1.0) < 0.5 { (3.0, 15.0) } else { (60.0, 250.0) };
    let car = TwoNode {
        engine_kj_k: between(dice, 60.0, 140.0),
        trans_kj_k: between(dice, 25.0, 80.0),
        engine_kw: between(dice, 2.5, 7.0),
        trans_kw: between(dice, 0.3, 1.5),
        exchange_w_k: between(dice, exchange.0, exchange.1),
        engine_air_w_k: between(dice, 15.0, 60.0),
        trans_air_w_k: between(dice, 8.0, 30.0),
        air_c,
    };
    let offset = between(dice, -0.2, 0.2);
    let mut nodes = Nodes { engine: air_c, trans: air_c };
    let (mut shown, mut truth) = (Vec::new(), Vec::new());
    for _ in 0..3_000 {
        shown.push((nodes.trans + offset).round());
        truth.push(nodes.trans);
        let rates = car.rates(nodes);
        nodes.engine = (nodes.engine + rates.engine).min(88.0);
        nodes.trans += rates.trans;
    }
    (shown, truth)
}

fn at(second: usize) -> Mono {
    Mono::from_secs(second as u64)
}

fn reading(value: f64) -> Reading {
    Reading { measure: Measure::Fluid(Celsius::from_f64(value).unwrap()), step: None, from: None, age_ms: 0 }
}

fn between(dice: &mut u64, low: f64, high: f64) -> f64 {
    *dice ^= *dice << 13;
    *dice ^= *dice >> 7;
    *dice ^= *dice << 17;
    low + (high - low) * (*dice % 100_000) as f64 / 100_000.0
}
