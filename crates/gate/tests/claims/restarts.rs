//! After a pause the sump has cooled and the converter has not, and fluid that is filled in has another temperature: what mixes must not
//! meet an open port.

use events::{Check, Measure, Reading, Reason, Signal, Surface, Verdict};
use gate::Gate;
use units::{Celsius, Mono, Rpm};

fn check(signal: Signal) -> Check {
    Check::of(signal, [35.0, 45.0])
}

fn tell(gate: &mut Gate, measure: Measure, at: Mono) {
    gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
}

fn rpm(rpm: f64) -> Measure {
    Measure::EngineSpeed(Rpm::from_f64(rpm).unwrap())
}

/// Warms to 48 °C, stands until the sump has 40 °C, starts again: the sump gets what the rest has kept.
fn fluid_at(second: u64) -> (f64, bool) {
    match second {
        0..1_080 => (30.0 + second as f64 / 60.0, true),
        1_080..2_280 => (48.0 - (second - 1_080) as f64 / 150.0, false),
        _ => (40.0 + 9.0 * (1.0 - (-((second - 2_280) as f64) / 20.0).exp()), true),
    }
}

#[test]
fn a_restart_after_a_pause_is_waited_out_before_go() {
    let mut gate = Gate::new(&check(Signal::Fluid), None);
    let mut went_before = false;
    for second in 0..2_280 + 600 {
        let at = Mono::from_secs(second);
        let (truth, runs) = fluid_at(second);
        tell(&mut gate, rpm(if runs { 720.0 } else { 0.0 }), at);
        tell(&mut gate, Measure::Fluid(Celsius::from_f64(truth.round()).unwrap()), at);
        let judged = gate.judge(at, &[]);
        went_before |= second < 1_080 && judged.verdict == Verdict::Go;
        if judged.verdict == Verdict::Go && runs {
            assert!((35.0..=45.0).contains(&truth), "{truth} at {second} s: {judged:?}");
        }
        if (2_281..2_284).contains(&second) {
            assert_eq!(judged.reasons, [Reason::Hysteresis], "at {second} s");
        }
    }
    assert!(went_before, "the window before the pause was given");
}

#[test]
fn typed_readings_from_before_a_start_say_nothing_of_what_it_mixes() {
    let mut gate = Gate::new(&check(Signal::Spot), None);
    let mut went = [false; 2];
    for second in 0..900 {
        let at = Mono::from_secs(second);
        let stands = (300..400).contains(&second);
        tell(&mut gate, rpm(if stands { 0.0 } else { 720.0 }), at);
        if second % 40 == 0 && !(390..500).contains(&second) {
            tell(&mut gate, Measure::Spot(Celsius::from_f64(38.0).unwrap(), Surface::Tape), at);
        }
        let judged = gate.judge(at, &[]);
        if (401..520).contains(&second) {
            assert_eq!(judged.verdict, Verdict::Wait, "at {second} s: {judged:?}");
            assert!(judged.reasons.contains(&Reason::Stale), "at {second} s: {judged:?}");
        }
        went[usize::from(second >= 520)] |= judged.verdict == Verdict::Go;
    }
    assert_eq!(went, [true, true]);
}

#[test]
fn fluid_that_is_filled_in_is_waited_out_before_go() {
    let mut gate = Gate::new(&check(Signal::Fluid), None);
    let mut went = false;
    for second in 0..900_u64 {
        let at = Mono::from_secs(second);
        tell(&mut gate, rpm(720.0), at);
        tell(
            &mut gate,
            Measure::Fluid(Celsius::from_f64((32.0 + second as f64 / 90.0).round()).unwrap()),
            at,
        );
        if second == 600 {
            gate.fluid_added(at);
        }
        let judged = gate.judge(at, &[]);
        if second == 599 {
            assert_eq!(judged.verdict, Verdict::Go, "{judged:?}");
        }
        if (600..645).contains(&second) {
            assert_eq!(judged.reasons, [Reason::Hysteresis], "at {second} s");
        }
        went |= second >= 645 && judged.verdict == Verdict::Go;
    }
    assert!(went, "mixed, it is known again");
}

#[test]
fn cold_fluid_that_is_filled_in_brings_the_sensor_down_and_is_no_doubt_of_it() {
    for (told, falls, sound) in
        [(true, 8.0, true), (false, 8.0, false), (true, 20.0, false), (true, -8.0, false)]
    {
        let mut gate = Gate::new(&check(Signal::Fluid), None);
        let (mut went, mut doubted) = (false, false);
        for second in 0..1_500_u64 {
            let at = Mono::from_secs(second);
            tell(&mut gate, rpm(720.0), at);
            let fallen = if second >= 603 { falls } else { 0.0 };
            let shown = (32.0 + second as f64 / 90.0 - fallen).round();
            tell(&mut gate, Measure::Fluid(Celsius::from_f64(shown).unwrap()), at);
            if second == 600 && told {
                gate.fluid_added(at);
            }
            let judged = gate.judge(at, &[]);
            assert!(
                !(603..660).contains(&second) || judged.verdict != Verdict::Go,
                "at {second} s: {judged:?}"
            );
            went |= second > 700 && judged.verdict == Verdict::Go;
            doubted |= second == 1_400 && judged.reasons.contains(&Reason::SteppedAway);
        }
        assert_eq!((went, doubted), (sound, !sound), "told {told}, down by {falls} K");
    }
}

#[test]
fn an_engine_that_hiccups_is_not_started_again() {
    let mut gate = Gate::new(&check(Signal::Fluid), None);
    for second in 0..600_u64 {
        let at = Mono::from_secs(second);
        tell(&mut gate, rpm(if second == 590 { 0.0 } else { 720.0 }), at);
        tell(
            &mut gate,
            Measure::Fluid(Celsius::from_f64((32.0 + second as f64 / 75.0).round()).unwrap()),
            at,
        );
        let judged = gate.judge(at, &[]);
        if second > 480 {
            assert_eq!(judged.verdict, Verdict::Go, "at {second} s: {judged:?}");
        }
    }
}
