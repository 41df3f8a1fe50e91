//! More uncertainty, less evidence or one more thing open never turns `wait` into `go`; and what `go` implies.

use events::{Check, Measure, Precondition, Reading, Reason, Signal, Verdict};
use gate::{Gate, Judgement};
use proptest::prelude::*;
use units::{Celsius, Mono};

use crate::world::{Car, Mishap, Shows, cars, cases, check};

/// Readings of an even, undisturbed warm-up in whole degrees, twice a second.
fn even(start: f64, rate: f64, halves: u64) -> Vec<(Mono, Reading)> {
    (0..halves)
        .map(|half| {
            let shown = (start + rate * half as f64 / 120.0).round();
            let measure = Measure::Fluid(Celsius::from_f64(shown).unwrap());
            (Mono::from_millis(half * 500), Reading { measure, step: None, from: None, age_ms: 0 })
        })
        .collect()
}

/// The judgement after each reading.
fn judged(gate: &mut Gate, readings: &[(Mono, Reading)], open: &[Precondition]) -> Vec<Judgement> {
    readings
        .iter()
        .map(|(at, reading)| {
            gate.observe(reading, *at);
            gate.judge(*at, open)
        })
        .collect()
}

/// `less` never says `go` where `more` does not.
fn no_more_go(more: &[Judgement], less: &[Judgement]) -> Result<(), TestCaseError> {
    for (i, (more, less)) in more.iter().zip(less).enumerate() {
        prop_assert!(less.verdict != Verdict::Go || more.verdict == Verdict::Go, "{i}: {more:?} {less:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_narrower_band_or_a_larger_guard_factor_opens_no_more(
        start in 15.0..40.0, rate in 0.5..2.0, inset in (0.0..4.0, 0.0..4.0), more_k in 0.0..2.0,
    ) {
        let readings = even(start, rate, 2_000);
        let wide = check([35.0, 45.0]);
        let strict = Check { band_c: [35.0 + inset.0, 45.0 - inset.1], k: 2.0 + more_k, ..wide.clone() };
        no_more_go(
            &judged(&mut Gate::new(&wide, None), &readings, &[]),
            &judged(&mut Gate::new(&strict, None), &readings, &[]),
        )?;
    }

    #[test]
    fn a_history_that_begins_later_opens_no_more(start in 15.0..40.0, rate in 0.5..2.0, cut in 0_usize..1_500) {
        let readings = even(start, rate, 2_000);
        let whole = judged(&mut Gate::new(&check([35.0, 45.0]), None), &readings, &[]);
        let late = judged(&mut Gate::new(&check([35.0, 45.0]), None), readings.get(cut..).unwrap(), &[]);
        no_more_go(whole.get(cut..).unwrap(), &late)?;
    }

    #[test]
    fn any_open_precondition_and_any_fault_code_is_wait(
        start in 30.0..40.0, rate in 0.5..2.0, open in prop::sample::select(Precondition::ALL),
        code in prop::sample::select(vec!["P0711", "P0712", "P0713", "P0218"]),
    ) {
        let readings = even(start, rate, 1_500);
        for judgement in judged(&mut Gate::new(&check([35.0, 45.0]), None), &readings, &[open]) {
            prop_assert!(judgement.verdict != Verdict::Go);
            prop_assert!(judgement.reasons.contains(&Reason::PreconditionOpen));
        }
        let mut gate = Gate::new(&check([35.0, 45.0]), None);
        gate.code_stored(code);
        for judgement in judged(&mut gate, &readings, &[]) {
            prop_assert!(judgement.verdict != Verdict::Go);
        }
    }

    #[test]
    fn go_means_the_whole_guarded_interval_lies_in_the_band(
        car in cars(Just(Mishap::Nothing), 0.7..1.3), low in 30.0..36.0, width in 4.0..20.0, k in 1.0..3.0,
    ) {
        let check = Check { band_c: [low, low + width], k, ..check([0.0, 0.0]) };
        car.drive(&check, 1_500.0, |at, _, judged| {
            if judged.verdict == Verdict::Go {
                let known = judged.estimate.unwrap();
                let (t, guard) = (known.celsius.to_f64(), k * known.u.to_f64());
                let (least, most) = (check.low().to_f64() + guard, check.high().to_f64() - guard);
                assert!(least - 1e-9 <= t && t <= most + 1e-9, "{judged:?} at {at}");
                assert_eq!(judged.reasons, [Reason::InBand]);
            } else {
                assert!(!judged.reasons.is_empty() && !judged.reasons.contains(&Reason::InBand), "{judged:?}");
            }
        });
    }

    #[test]
    fn time_that_passes_without_readings_ends_in_wait_by_the_deadlines_alone(
        start in 30.0..37.0, rate in 0.5..2.0, halves in 1_u64..1_500,
    ) {
        let readings = even(start, rate, halves);
        let mut gate = Gate::new(&check([35.0, 45.0]), None);
        let last = judged(&mut gate, &readings, &[]).pop().unwrap();
        let mut verdict = last.verdict;
        let mut now = readings.last().unwrap().0;
        // Woken only when the gate asks for it, and never more often than a person could follow.
        for _ in 0..100 {
            let Some(deadline) = gate.next_deadline() else { break };
            prop_assert!(deadline > now);
            now = deadline;
            verdict = gate.judge(now, &[]).verdict;
        }
        prop_assert_eq!(verdict, Verdict::Wait);
        prop_assert!(now.since(readings.last().unwrap().0).as_secs() <= 6);
        prop_assert_eq!(gate.next_deadline(), None);
    }
}

#[test]
fn a_lost_link_is_wait_at_once_and_go_needs_fresh_readings_again() {
    let readings = even(33.0, 1.0, 600);
    let mut gate = Gate::new(&check([35.0, 45.0]), None);
    assert_eq!(judged(&mut gate, &readings, &[]).pop().unwrap().verdict, Verdict::Go);
    let lost = Mono::from_secs(300);
    gate.link_lost(lost);
    let judgement = gate.judge(lost, &[]);
    assert_eq!((judgement.verdict, judgement.estimate), (Verdict::Wait, None));
    assert_eq!(judgement.reasons, [Reason::LinkLost]);
    // A reading that was under way when the link went is no news.
    gate.observe(&readings.last().unwrap().1, Mono::from_millis(299_900));
    assert!(gate.judge(Mono::from_millis(300_100), &[]).reasons.contains(&Reason::LinkLost));
    let measure = Measure::Fluid(Celsius::from_f64(38.0).unwrap());
    let mut opened = None;
    for half in 0..20 {
        let at = Mono::from_millis(310_000 + half * 500);
        gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
        let judgement = gate.judge(at, &[]);
        if half == 0 {
            assert_eq!(judgement.reasons, [Reason::Hysteresis], "the slope and the proof were kept");
        }
        if judgement.verdict == Verdict::Go {
            opened.get_or_insert(at);
        }
    }
    assert_eq!(opened, Some(Mono::from_secs(313)));
}

#[test]
fn a_thermometer_opens_the_gate_with_two_readings_and_its_readings_grow_old() {
    let check = Check { signal: Signal::Spot, band_c: [35.0, 50.0], ..check([35.0, 50.0]) };
    let mut gate = Gate::new(&check, None);
    let tape = |t: f64| Reading {
        measure: Measure::Spot(Celsius::from_f64(t).unwrap(), events::Surface::Tape),
        step: None,
        from: None,
        age_ms: 0,
    };
    let mut at = |seconds: u64, typed: Option<f64>| {
        let now = Mono::from_secs(seconds);
        if let Some(t) = typed {
            gate.observe(&tape(t), now);
        }
        gate.judge(now, &[])
    };
    assert_eq!(at(0, None).reasons, [Reason::NoReading]);
    assert_eq!(at(10, Some(39.0)).reasons, [Reason::TooUncertain], "one reading is not enough");
    assert_eq!(at(60, Some(40.0)).reasons, [Reason::Hysteresis]);
    assert_eq!(at(63, None).verdict, Verdict::Go);
    let old = at(151, None);
    assert_eq!(old.verdict, Verdict::Wait);
    assert!(old.reasons.contains(&Reason::Stale), "{old:?}");
    assert_eq!(at(200, Some(56.0)).verdict, Verdict::TooHot);
}

#[test]
fn a_fluid_that_was_too_hot_cools_without_doubt_and_gets_its_go_after_the_restart() {
    let mut gate = Gate::new(&check([35.0, 45.0]), None);
    let (mut truth, mut cooled, mut go_again) = (30.0_f64, None, 0);
    for second in 0..7_200_u64 {
        let at = Mono::from_secs(second);
        // Warms to 48, stands until 39, warms again; a steady half a second between the two kinds of readings.
        let stands = truth > 48.0 || cooled == Some(false);
        if stands {
            cooled = Some(truth < 39.0);
        }
        truth += if stands { -0.2 / 60.0 } else { 1.2 / 60.0 };
        let rpm = Measure::EngineSpeed(units::Rpm::from_f64(if stands { 0.0 } else { 720.0 }).unwrap());
        gate.observe(&Reading { measure: rpm, step: None, from: None, age_ms: 0 }, at);
        let fluid = Measure::Fluid(Celsius::from_f64(truth.round()).unwrap());
        gate.observe(&Reading { measure: fluid, step: None, from: None, age_ms: 0 }, at);
        let open: &[Precondition] = if stands { &[Precondition::EngineRunning] } else { &[] };
        let judged = gate.judge(at, open);
        assert!(!judged.reasons.contains(&Reason::Frozen), "{truth} at {at}: {judged:?}");
        go_again += u32::from(cooled == Some(true) && judged.verdict == Verdict::Go);
        if cooled == Some(true) && truth > 46.0 {
            break;
        }
    }
    assert!(go_again > 120, "{go_again} s of go on the second way up");
}

#[test]
fn the_same_car_gives_the_same_judgements() {
    let car = Car {
        start: 30.0,
        rate: 1.2,
        later: 1.0,
        tau: 100.0,
        wander: (0.1, 5.0),
        offset: 0.5,
        noise: 0.1,
        lag: 1.0,
        step: 0.5,
        shows: Shows::Truncated,
        every_ms: 500,
        mishap: Mishap::Nothing,
        at: 0.0,
        seed: 7,
    };
    let mut runs = [Vec::new(), Vec::new()];
    for run in &mut runs {
        car.drive(&check([35.0, 45.0]), 900.0, |_, _, judged| run.push(*judged));
    }
    assert_eq!(runs[0], runs[1]);
}
