//! What the witnesses find out: a signal that cannot be the fluid's, after a start that was seen to be cold.

use events::{Check, Measure, Reading, Reason, Signal, Surface, Verdict};
use gate::{Cooler, Gate, Judgement};
use units::{Celsius, Mono, Rpm};

/// A vehicle that cooled out at 18 °C and then idles: coolant 2.5 K/min up to 90 °C, fluid 1 K/min.
fn coolant(minutes: f64) -> f64 {
    (18.0 + 2.5 * minutes).min(90.0)
}

fn fluid(minutes: f64) -> f64 {
    18.0 + minutes
}

fn celsius(t: f64) -> Celsius {
    Celsius::from_f64(t).unwrap()
}

/// Two minutes of standing, then `minutes` of idling; `signal` says what the gated signal shows and when it shows anything.
fn idled(check: &Check, minutes: f64, signal: impl Fn(f64) -> Option<Measure>) -> (Gate, Judgement, Mono) {
    let mut gate = Gate::new(check, None).with_cooler(Cooler::Unknown);
    let mut at = Mono::ZERO;
    let mut judged = gate.judge(at, &[]);
    for half in 0..(2.0 * 60.0 * (minutes + 2.0)) as u64 {
        at = Mono::from_millis(half * 500);
        let since = (half as f64 / 120.0 - 2.0).max(0.0);
        let rpm = if since > 0.0 { 720.0 } else { 0.0 };
        let mut all = vec![Measure::EngineSpeed(Rpm::from_f64(rpm).unwrap())];
        all.push(Measure::Coolant(celsius(coolant(since).round())));
        all.push(Measure::AmbientAir(celsius(18.0)));
        all.extend(signal(since));
        for measure in all {
            gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
        }
        judged = gate.judge(at, &[]);
    }
    (gate, judged, at)
}

fn check(signal: Signal) -> Check {
    Check::of(signal, [35.0, 45.0])
}

#[test]
fn a_healthy_signal_is_not_contradicted_and_goes() {
    let (_, judged, _) =
        idled(&check(Signal::Fluid), 21.0, |t| Some(Measure::Fluid(celsius(fluid(t).round()))));
    assert_eq!(judged.verdict, Verdict::Go, "{judged:?}");
}

#[test]
fn what_cannot_be_the_fluid_is_contradicted_and_is_neither_go_nor_too_hot() {
    let (shown, minutes) = (|t: f64| (55.0 + t).round(), 8.0);
    // A made-up value that warms on: plausible by itself, too hot by itself.
    let (_, judged, _) = idled(&check(Signal::Fluid), minutes, |t| Some(Measure::Fluid(celsius(shown(t)))));
    assert!(judged.reasons.contains(&Reason::Disagrees), "{judged:?}");
    assert_eq!(judged.verdict, Verdict::Wait);
    assert_eq!(judged.forecast, None);
    // The same value in a vehicle of which nothing else is known is believed: a hot fluid is one.
    let mut alone = Gate::new(&check(Signal::Fluid), None);
    let mut verdict = Verdict::Wait;
    for half in 0..2 * 60 * 8_u64 {
        let measure = Measure::Fluid(celsius(shown(half as f64 / 120.0)));
        let at = Mono::from_millis(half * 500);
        alone.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
        verdict = alone.judge(at, &[]).verdict;
    }
    assert_eq!(verdict, Verdict::TooHot);
}

#[test]
fn a_coolant_that_is_taken_for_the_fluid_under_another_offset_is_contradicted_before_the_band() {
    // 7 K above the coolant: no rule of a substitute, but nothing that fluid does at idle either.
    let (_, judged, _) =
        idled(&check(Signal::Fluid), 7.0, |t| Some(Measure::Fluid(celsius((coolant(t) + 7.0).round()))));
    assert!(judged.reasons.contains(&Reason::Disagrees), "{judged:?}");
}

#[test]
fn an_identifier_that_is_off_while_all_is_cold_stays_contradicted_until_somebody_measures() {
    let (mut gate, judged, at) =
        idled(&check(Signal::Fluid), 14.0, |t| Some(Measure::Fluid(celsius((fluid(t) + 9.0).round()))));
    assert!(judged.reasons.contains(&Reason::Disagrees), "{judged:?}");
    let measure = Measure::Spot(celsius(fluid(14.0) + 9.0 - 1.5), Surface::Tape);
    gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
    let judged = gate.judge(at, &[]);
    assert!(!judged.reasons.contains(&Reason::Disagrees), "the thermometer says as it does: {judged:?}");
}

#[test]
fn a_thermometer_on_the_exhaust_is_contradicted() {
    // Physics of grey bodies (table ir_reading): bare metal under an exhaust of 60 °C reads 60.8 °C, whatever its own temperature.
    let reads = |t: f64| (t > 4.0 && (t * 60.0).rem_euclid(40.0) < 0.5).then_some(60.8);
    let (_, judged, _) =
        idled(&check(Signal::Spot), 6.0, |t| Some(Measure::Spot(celsius(reads(t)?), Surface::Tape)));
    assert!(judged.reasons.contains(&Reason::Disagrees), "{judged:?}");
    assert_eq!(judged.verdict, Verdict::Wait);
}

#[test]
fn a_reading_on_the_sump_contradicts_an_identifier_that_is_off() {
    // Right while cold, and ever more off: a sensor that is out of its curve.
    let off = |t: f64| Some(Measure::Fluid(celsius((fluid(t) + 0.65 * t).round())));
    let (mut gate, judged, at) = idled(&check(Signal::Fluid), 14.0, off);
    assert!(!judged.reasons.contains(&Reason::Disagrees), "coolant alone cannot tell: {judged:?}");
    for _ in 0..2 {
        let measure = Measure::Spot(celsius(fluid(14.0) - 1.0), Surface::Tape);
        gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
    }
    let judged = gate.judge(at, &[]);
    assert!(judged.reasons.contains(&Reason::Disagrees) && judged.verdict == Verdict::Wait, "{judged:?}");
}

#[test]
fn with_coolant_alone_the_fluid_is_wide_and_the_reading_that_narrows_it_is_named() {
    let (mut gate, judged, at) = idled(&check(Signal::Coolant), 18.0, |_| None);
    let said = judged.estimate.unwrap().fluid.unwrap();
    assert!(
        said.u.to_f64() > 2.5 && (said.celsius.to_f64() - fluid(18.0)).abs() < 2.0 * said.u.to_f64(),
        "{said:?}"
    );
    let narrows = said.narrows.unwrap();
    assert_eq!(narrows.reading, events::Narrowing::SpotOnTape);
    let measure = Measure::Spot(celsius(fluid(18.0) - 1.3), Surface::Tape);
    gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
    let after = gate.judge(at, &[]).estimate.unwrap().fluid.unwrap();
    // As promised, but for this reading's own budget (its offset from the air's temperature).
    assert!((after.u.to_f64() - narrows.u.to_f64()).abs() < 0.2, "{after:?} after {narrows:?}");
    assert!((after.celsius.to_f64() - fluid(18.0)).abs() < 2.5, "{after:?}");
}
