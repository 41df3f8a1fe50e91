//! No wrong `go`: at every single judgement, `go` only while the true temperature lies in the band, or outside it by no
//! more than `k*u` as stated at that moment. Thousands of warm-ups, each with a sensor that fails at any moment.

use events::{Measure, Reading, Reason, Verdict};
use gate::Gate;
use proptest::prelude::*;
use units::{Celsius, Mono};

use crate::world::{Car, Mishap, Shows, cars, cases, check};

const BAND: [f64; 2] = [35.0, 45.0];
const K: f64 = 2.0;

/// How far the truth lies outside the band, K; negative inside.
fn outside(truth: f64) -> f64 {
    (BAND[0] - truth).max(truth - BAND[1])
}

/// The claim of this file, for one car. `from`: judgements before this second are not asked.
fn never_wrong(car: &Car, seconds: f64) -> Result<(), TestCaseError> {
    let mut wrong = None;
    car.drive(&check(BAND), seconds, |at, truth, judged| {
        if judged.verdict == Verdict::Go {
            let u = judged.estimate.unwrap().u.to_f64();
            if outside(truth) > K * u {
                wrong.get_or_insert((at, truth, *judged));
            }
        }
    });
    prop_assert!(wrong.is_none(), "{wrong:?} of {car:?}");
    Ok(())
}

proptest! {
    #![proptest_config(cases(1_200))]

    #[test]
    fn a_sensor_that_freezes_at_any_moment_never_gets_a_wrong_go(car in cars(Just(Mishap::Freezes), 0.5..1.5)) {
        never_wrong(&car, car.at + 480.0)?;
    }
}

proptest! {
    #![proptest_config(cases(500))]

    #[test]
    fn a_made_up_value_or_a_lasting_shift_never_gets_a_wrong_go(
        car in cars(
            prop_oneof![
                prop_oneof![Just(40.0), Just(60.0), Just(36.0), Just(-40.0), Just(215.0)].prop_map(Mishap::ShowsInstead),
                prop_oneof![2.0..12.0, -12.0..-2.0].prop_map(Mishap::Jumps),
            ],
            0.8..1.2,
        ),
    ) {
        // In its first seconds a control unit may wake up; a smaller shift than two steps cannot be told from a ramp.
        let car = Car { at: car.at.max(6.0), ..car };
        never_wrong(&car, car.at + 600.0)?;
    }

    #[test]
    fn what_happens_while_nobody_looks_never_gets_a_wrong_go(
        car in cars(
            prop_oneof![
                (1.0..200.0).prop_map(Mishap::FreezesUnseen),
                (1.0..119.0, prop_oneof![2.0..12.0, -12.0..-2.0]).prop_map(|(s, by)| Mishap::JumpsUnseen(s, by)),
            ],
            0.8..1.2,
        ),
    ) {
        // Once it has been seen to move; before, a slope is not known and more must be believed.
        let car = Car { at: car.at.max(300.0), rate: car.rate.max(0.8), ..car };
        never_wrong(&car, car.at + 600.0)?;
    }

    #[test]
    fn a_signal_that_falls_silent_ends_in_wait(car in cars(Just(Mishap::FallsSilent), 0.8..1.2)) {
        let mut last = Verdict::Go;
        car.drive(&check(BAND), car.at + 60.0, |at, _, judged| {
            if at.as_secs_f64() > car.at + 5.5 {
                assert_eq!(judged.verdict, Verdict::Wait, "{judged:?} at {at} of {car:?}");
            }
            last = judged.verdict;
        });
        prop_assert_eq!(last, Verdict::Wait);
    }
}

proptest! {
    #![proptest_config(cases(80))]

    #[test]
    fn a_healthy_warm_up_gets_go_for_most_of_the_band(car in cars(Just(Mishap::Nothing), 1.0..1.01)) {
        // Not near the edges, where the guard is; not before two moves; not while it has almost levelled off.
        let car = Car { start: car.start.min(30.0), rate: car.rate.clamp(1.0, 2.0), tau: car.tau.max(90.0), ..car };
        let (mut could, mut did) = (0_u32, 0_u32);
        car.drive(&check(BAND), 1_800.0, |_, truth, judged| {
            if (38.5..=41.5).contains(&truth) {
                could += 1;
                did += u32::from(judged.verdict == Verdict::Go);
            }
        });
        prop_assert!(f64::from(did) >= 0.9 * f64::from(could), "{did} of {could} of {car:?}");
    }

    #[test]
    fn a_value_that_is_stuck_from_the_start_never_gets_go(value in 30.0_f64..50.0, seconds in 60_u64..3_600) {
        let mut gate = Gate::new(&check(BAND), None);
        for half in 0..seconds * 2 {
            let at = Mono::from_millis(half * 500);
            gate.observe(&fluid(value.round()), at);
            let judged = gate.judge(at, &[]);
            prop_assert!(judged.verdict != Verdict::Go);
            prop_assert!(judged.reasons.contains(&Reason::NotAlive));
        }
    }

    #[test]
    fn a_copy_of_the_coolant_never_gets_go(
        start in 10.0_f64..44.0, rate in 1.0_f64..6.0, offset in prop_oneof![Just(0.0), Just(5.0), Just(10.0)], ask in 2_u64..20,
    ) {
        let mut gate = Gate::new(&check(BAND), None);
        for half in 0..2_400_u64 {
            let at = Mono::from_millis(half * 500);
            let coolant = (start + rate * half as f64 / 120.0).round();
            gate.observe(&fluid(coolant + offset), at);
            if half % ask == 0 {
                let measure = Measure::Coolant(Celsius::from_f64(coolant).unwrap());
                gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
            }
            prop_assert!(gate.judge(at, &[]).verdict != Verdict::Go, "at {}", at);
        }
    }
}

/// One car at a time, with the numbers worked out by hand.
#[test]
fn the_worst_that_an_offset_and_a_truncating_display_can_do_stays_within_the_stated_uncertainty() {
    for (offset, shows) in [(1.0, Shows::Nearest), (-1.0, Shows::Truncated), (-1.0, Shows::Nearest)] {
        let car = Car {
            start: 30.0,
            rate: 1.0,
            later: 1.0,
            tau: 1e9,
            wander: (0.0, 1.0),
            offset,
            noise: 0.0,
            lag: 0.0,
            step: 1.0,
            shows,
            every_ms: 500,
            mishap: Mishap::Nothing,
            at: 0.0,
            seed: 1,
        };
        let mut worst = f64::NEG_INFINITY;
        car.drive(&check(BAND), 1_200.0, |_, truth, judged| {
            if judged.verdict == Verdict::Go {
                worst = worst.max(outside(truth));
            }
        });
        // Last accepted step is 43; truncated and 1 K low, the truth behind it ends at 45.0.
        assert!(worst <= 0.02, "{worst} with {offset} {shows:?}");
    }
}

fn fluid(value: f64) -> Reading {
    let measure = Measure::Fluid(Celsius::from_f64(value).unwrap());
    Reading { measure, step: None, from: None, age_ms: 0 }
}
