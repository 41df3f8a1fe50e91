//! Killed and started again: the job goes on where it was, because everything it rests on is a fact in the journal.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

mod bench;

use bench::*;
use events::*;

/// A whole job in steps that can be told one by one; some are the vehicle's.
const GOOD: &[&str] = &[
    "start",
    "confirm on-stands",
    "confirm ventilated",
    "level 0.1 -0.1",
    "drained 2400 40",
    "filled 2870 20",
    "engine 720",
    "confirm brake-held",
    "confirm selector-cycled",
    "below",
    "go",
    "flowing",
    "go",
    "trickle",
    "closed",
    "ran-out 510 38",
    "engine 0",
    "torqued",
    "test-driven",
    "done",
];

fn step(bay: &mut Bay, words: &str) {
    match words {
        "engine 720" => bay.engine(720),
        "engine 0" => bay.engine(0),
        "below" => bay.below(),
        "go" => bay.go(),
        "trickle" => {
            bay.seconds(20);
            assert_eq!(bay.tell("trickle"), Ok(()));
        }
        told => assert_eq!(bay.tell(told), Ok(()), "`{told}`"),
    }
}

fn run(crash_after: Option<usize>, with_samples: bool) -> Bay {
    let mut bay = Bay::new("six-speed");
    bay.seconds(2);
    for (n, words) in GOOD.iter().enumerate() {
        step(&mut bay, words);
        if crash_after == Some(n) {
            bay.crash(with_samples);
            bay.seconds(2);
        }
    }
    bay
}

#[test]
fn a_crash_after_any_step_changes_nothing_of_the_result() {
    let want = run(None, true).result();
    assert_eq!((want.outcome, want.shortfalls.as_slice()), (Outcome::Set, &[][..]));
    for (n, words) in GOOD.iter().enumerate() {
        for with_samples in [true, false] {
            let result = run(Some(n), with_samples).result();
            // The clock of the test starts again too, so only the dates differ.
            let result = JobResult { recheck_due: want.recheck_due.clone(), ..result };
            assert_eq!(result, want, "crash after `{words}`, samples kept: {with_samples}");
        }
    }
}

#[test]
fn a_crash_does_not_make_an_old_reading_count() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.go();
    bay.crash(true);
    assert_eq!(bay.job.open(bay.now), LIVE, "nothing was read since the start");
    assert!(!bay.view().open.contains(&Precondition::StartedCold), "that was judged and stays");
    assert_eq!(bay.tell("flowing"), Ok(()));
    assert_eq!(bay.advice(), Advice::ClosePortWait);
}

#[test]
fn closed_is_judged_by_what_the_journal_says_of_that_moment() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.go();
    bay.want(Verdict::Go, Reason::InBand, 43.0);
    bay.tells("flowing\ntrickle\nclosed\nran-out 510 38");
    bay.crash(false);
    bay.tells("done");
    let error = bay.result().level_error.unwrap();
    // 6.5 L at 43 instead of 40 °C, by API MPMS 11.1: -15 mL.
    assert_eq!(error.causes[0].millilitres, ml(-15));
}

#[test]
fn any_prefix_of_a_journal_is_a_state_that_settles_and_goes_on() {
    let all = run(None, true).events;
    for cut in 0..=all.len() {
        let mut bay = Bay::new("six-speed");
        bay.events = all[..cut].to_vec();
        bay.crash(true); // panics where what follows does not settle
        let _ =
            (bay.advice(), bay.job.view(bay.now), bay.job.next_deadline(units::Mono::ZERO), bay.job.sheet());
        let told =
            |r: &Request| bay.events.iter().any(|e| matches!(&e.body, Body::Told(t) if t.request == *r));
        if told(&Request::Done) {
            assert!(bay.view().result.is_some(), "an end that was told is carried out, cut at {cut}");
        }
        let next = if bay.job.is_running() { "abort enough" } else { "start" };
        assert_eq!(bay.tell(next), Ok(()), "cut at {cut}");
    }
}

#[test]
fn an_event_delivered_twice_counts_once() {
    let all = run(None, true).events;
    let mut twice = job::Job::default();
    for event in &all {
        twice.apply(event);
        twice.apply(event);
    }
    assert_eq!(twice, fold(&all));
}

#[test]
fn live_preconditions_fall_open_when_readings_stop() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    assert_eq!(bay.view().open, []);
    let deadline = bay.job.next_deadline(units::Mono::ZERO).expect("readings that will grow old");
    // All were read just now, and count for five seconds.
    assert_eq!(deadline, bay.now.after(std::time::Duration::from_millis(5_001)));
    bay.now = deadline;
    let bodies = bay.job.follow(bay.now, &bay.verdict);
    let fell: Vec<_> = bodies
        .iter()
        .filter_map(|b| match b {
            Body::Precondition { precondition, holds: false } => Some(*precondition),
            _ => None,
        })
        .collect();
    assert_eq!(fell, LIVE);
    for body in bodies {
        bay.push(body);
    }
    assert_eq!(bay.job.next_deadline(units::Mono::ZERO), None, "nothing is left to wait for");
}

#[test]
fn one_reading_outside_the_idle_range_is_let_pass_and_a_second_is_not() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.engine(720);
    let idle = |bay: &Bay| !bay.view().open.contains(&Precondition::EngineIdling);
    let blip = |bay: &mut Bay, rpm: i32| {
        let measure = Measure::EngineSpeed(units::Rpm::from_steps(rpm).unwrap());
        bay.push(Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 }));
    };
    blip(&mut bay, 1_300);
    assert!(idle(&bay));
    blip(&mut bay, 1_300);
    assert!(!idle(&bay));
    blip(&mut bay, 720);
    assert!(idle(&bay));
    blip(&mut bay, 0);
    assert!(!idle(&bay), "a stalled engine is never let pass");
}

#[test]
fn without_the_adapter_nothing_is_known_of_engine_and_wheels_at_once() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.link(false);
    assert_eq!(bay.view().open, LIVE);
}

#[test]
fn coolant_that_agrees_with_the_air_after_a_quarter_of_an_hour_proves_no_cold_start() {
    let cold_after = |seconds: u64| {
        let mut bay = Bay::new("six-speed");
        bay.tells("start");
        (bay.elapsed, bay.started) = (1_000, Some(1_000 - seconds));
        bay.engine(720);
        !bay.view().open.contains(&Precondition::StartedCold)
    };
    assert!(cold_after(20));
    assert!(!cold_after(900), "the coolant sensor is doubtful");
}

const LIVE: [Precondition; 3] =
    [Precondition::EngineRunning, Precondition::EngineIdling, Precondition::StandingStill];
