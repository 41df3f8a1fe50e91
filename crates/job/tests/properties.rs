//! What holds for any order of requests, readings, verdicts, crashes: no panic, no level set by accident.

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
use proptest::prelude::*;

/// Something that happens in the bay.
#[derive(Debug, Clone)]
enum Act {
    Tell(&'static str),
    Engine(i32),
    Want(Verdict, f64),
    Seconds(u64),
    Link(bool),
    Crash(bool),
}

const WORDS: &[&str] = &[
    "start",
    "confirm on-stands",
    "confirm ventilated",
    "confirm vehicle-level",
    "confirm brake-held",
    "confirm selector-cycled",
    "confirm started-cold",
    "confirm cooler-bypass",
    "confirm filled",
    "level 0.2 0.1",
    "level 1.2 0",
    "drained 2400 40",
    "drained 9000",
    "drained 1000 40",
    "spilled 100 drained",
    "spilled 100 filled",
    "spilled 100 ran-out",
    "taken-out filter 300 40",
    "taken-out cooler",
    "kept 100",
    "corners 303 301 300 299",
    "shifted P",
    "shifted R",
    "vehicle QL 1",
    "recheck 1",
    "filled 2870 20",
    "filled 300",
    "ran-out 500 38",
    "ran-out 1",
    "spot 38 tape",
    "torqued",
    "test-driven",
    "confirm parked",
    "confirm clear",
    "as inside confirm clear",
    "confirm closed-up",
    "confirm pipe-in",
    "confirm all-safe",
    "confirm no-leak",
    "leak drops",
    "no-drive",
    "fluid-wrong",
    "alarm caught",
    "start check one",
    "done",
    "abort enough",
    "note x",
];
const PORT: &[&str] = &["flowing", "trickle", "closed", "nothing-flows", "undo"];

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        4 => proptest::sample::select(WORDS).prop_map(Act::Tell),
        8 => proptest::sample::select(PORT).prop_map(Act::Tell),
        1 => proptest::sample::select(&[0, 200, 720, 730, 1500][..]).prop_map(Act::Engine),
        4 => Just(Act::Want(Verdict::Go, 41.0)),
        1 => Just(Act::Want(Verdict::Wait, 30.0)),
        1 => Just(Act::Want(Verdict::TooHot, 46.0)),
        1 => (0_u64..8).prop_map(Act::Seconds),
        1 => any::<bool>().prop_map(Act::Link),
        1 => any::<bool>().prop_map(Act::Crash),
    ]
}

/// A bay somewhere in a job, then anything.
fn bay() -> impl Strategy<Value = Bay> {
    (0_u8..4, proptest::collection::vec(act(), 0..40)).prop_map(|(start, acts)| {
        let mut bay = Bay::new("six-speed");
        match start {
            0 => {}
            1 => bay.filled(),
            2 => bay.circulated(),
            _ => bay.set(),
        }
        for act in acts {
            perform(&mut bay, &act);
        }
        bay
    })
}

fn perform(bay: &mut Bay, act: &Act) {
    match act {
        Act::Tell(words) => {
            let before = bay.job.clone();
            // A stand that is not level enough is refused, and kept.
            if bay.tell(words).is_err_and(|refusal| refusal != Refusal::NotLevel) {
                assert_eq!(bay.job, before, "refused `{words}` changed something");
            }
        }
        Act::Engine(rpm) => bay.engine(*rpm),
        Act::Want(verdict, fluid) => {
            let reason = match verdict {
                Verdict::Go => Reason::InBand,
                Verdict::Wait => Reason::BelowBand,
                Verdict::TooHot => Reason::AboveBand,
            };
            bay.want(*verdict, reason, *fluid);
        }
        Act::Seconds(n) => bay.seconds(*n),
        Act::Link(up) => bay.link(*up),
        Act::Crash(with_samples) => bay.crash(*with_samples),
    }
}

/// Judges the events without the code under test: was the last opening flowing, a trickle and closed, all at `go`
/// and never too hot in between?
fn shown_by_events(events: &[Event]) -> bool {
    let mut verdict = Verdict::Wait;
    let mut away = false;
    let (mut open, mut flowed, mut trickled, mut closed) = (false, false, false, false);
    for event in events {
        match &event.body {
            Body::Boot { .. } => verdict = Verdict::Wait,
            Body::Job { .. } => (open, flowed, trickled, closed) = (false, false, false, false),
            Body::Verdict { verdict: v, .. } => {
                verdict = *v;
                if open && verdict == Verdict::TooHot {
                    (flowed, trickled) = (false, false);
                }
            }
            // Seen to stop; where adapter or daemon were away, the run time decides.
            Body::Precondition { precondition: Precondition::EngineRunning, holds: false }
                if open && !away =>
            {
                (flowed, trickled) = (false, false);
            }
            Body::Link(change) => away = matches!(change, LinkChange::Lost { .. }),
            Body::Told(told) => {
                let go = verdict == Verdict::Go;
                match told.request {
                    Request::Flowing => (open, flowed, trickled, closed) = (true, go, false, false),
                    Request::NothingFlows => (open, flowed, trickled, closed) = (true, false, false, false),
                    Request::Trickle => trickled = open && flowed && go,
                    Request::Closed => (open, closed) = (false, go),
                    _ => {}
                }
            }
            _ => {}
        }
    }
    !open && flowed && trickled && closed
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_level_is_set_only_by_flowing_a_trickle_and_closing_at_go(mut bay in bay()) {
        if bay.job.is_running() {
            bay.tells("done");
        }
        let Some(result) = bay.job.view(bay.now).and_then(|v| v.result) else { return Ok(()) };
        if result.outcome != Outcome::NotSet {
            prop_assert!(shown_by_events(&bay.events), "{:?}", result);
            prop_assert!(result.level_error.is_some() && result.open.is_empty());
        } else {
            prop_assert!(!result.shortfalls.is_empty(), "what is not set says why");
        }
    }

    #[test]
    fn folding_the_journal_again_gives_the_same_state(bay in bay(), from in 0_usize..500) {
        let once = fold(&bay.events);
        let mut twice = once.clone();
        for event in &bay.events {
            twice.apply(event);
        }
        prop_assert_eq!(&twice, &once);
        // A snapshot and the rest, overlapping as they may.
        let mut rest = fold(&bay.events[..from.min(bay.events.len())]);
        for event in &bay.events[from.saturating_sub(20).min(bay.events.len())..] {
            rest.apply(event);
        }
        prop_assert_eq!(&rest, &once);
    }

    #[test]
    fn any_prefix_settles(bay in bay(), cut in 0_usize..500) {
        let mut bay = bay;
        bay.events.truncate(cut);
        bay.crash(true);
        let _ = (bay.advice(), bay.job.view(bay.now));
        assert!(bay.job.next_deadline(bay.now).is_none_or(|at| at > bay.now), "asked again and again");
    }

    #[test]
    fn events_in_any_order_are_a_valid_state(bay in bay(), order in proptest::collection::vec(any::<usize>(), 0..200)) {
        let mut job = job::Job::default();
        let mut now = units::Mono::ZERO;
        for (n, pick) in order.iter().enumerate() {
            let mut event = bay.events[pick % bay.events.len()].clone();
            event.seq = Seq(n as u64);
            now = event.mono_ms;
            job.apply(&event);
        }
        let _ = (job.view(now), job.open(now), job.advice(now, &bay.verdict), job.balance());
        let bodies = job.follow(now, &bay.verdict);
        for (n, body) in bodies.into_iter().enumerate() {
            let seq = Seq((order.len() + n) as u64);
            job.apply(&Event { seq, at: utc(now), mono_ms: now, body });
        }
        prop_assert!(job.follow(now, &bay.verdict).is_empty());
    }

    #[test]
    fn the_balance_is_the_sum_of_what_was_not_taken_back(
        tells in proptest::collection::vec(prop_oneof![3 => (1_i32..400).prop_map(Some), 1 => Just(None)], 0..25),
    ) {
        let mut bay = Bay::new("six-speed");
        bay.tells("start\nconfirm on-stands\ndrained 2400 40");
        let mut filled: Vec<i32> = Vec::new();
        for tell in tells {
            match tell {
                Some(amount) => {
                    bay.tells(&format!("filled {amount} 40"));
                    filled.push(amount);
                }
                // Below the fills lies the drain; leave it.
                None if filled.is_empty() => {}
                None => {
                    bay.tells("undo");
                    filled.pop();
                }
            }
        }
        let balance = bay.view().balance;
        let sum: i32 = filled.iter().sum();
        prop_assert_eq!(balance.filled_millilitres, (!filled.is_empty()).then(|| ml(sum)));
        // All at the reference temperature, so nothing is corrected.
        prop_assert_eq!(balance.expected_run_out_millilitres, (!filled.is_empty()).then(|| ml(sum - 2400)));
        let announced = bay.events.iter().rev().find_map(|e| match &e.body {
            Body::Balance(b) => Some(*b),
            _ => None,
        });
        prop_assert_eq!(announced, Some(balance));
    }

    /// What is told and taken back in any order leaves the ledger of what was not taken back: every millilitre that is
    /// inside, out, kept or spilled is accounted for.
    #[test]
    fn the_balance_closes_for_any_order_of_tells_and_undos(
        tells in proptest::collection::vec((0_u8..7, 1_i32..300), 0..40),
    ) {
        let mut bay = Bay::new("six-speed");
        bay.tells("start\nconfirm on-stands\ndrained 2400 40\nfilled 2600 40\nflowing\nclosed");
        let mut stack: Vec<(u8, i32)> = Vec::new();
        for (what, amount) in tells {
            let words = match what {
                0 => format!("filled {amount} 40"),
                1 => format!("ran-out {amount} 40"),
                2 => format!("spilled {amount} drained"),
                3 => format!("spilled {amount} filled"),
                4 => format!("spilled {amount} ran-out"),
                5 => format!("taken-out pan {amount} 40"),
                _ => {
                    if stack.pop().is_some() {
                        bay.tells("undo");
                    }
                    continue;
                }
            };
            if bay.tell(&words).is_ok() {
                stack.push((what, amount));
            }
        }
        let sum = |of: &[u8]| stack.iter().filter(|(w, _)| of.contains(w)).map(|(_, a)| a).sum::<i32>();
        let balance = bay.view().balance;
        // All at mid-band, so nothing is corrected.
        let over = 2600 + sum(&[0]) - sum(&[3]) - 2400 - sum(&[2]) - sum(&[5]);
        prop_assert_eq!(balance.expected_run_out_millilitres, Some(ml(over)));
        if stack.iter().any(|(w, _)| *w == 1) {
            prop_assert_eq!(balance.closure_millilitres, Some(ml(sum(&[1, 4]) - over)));
        } else {
            prop_assert_eq!(balance.closure_millilitres, None, "nothing that ran out was measured");
        }
        prop_assert_eq!(balance.waste_millilitres, Some(ml(2400 + sum(&[1, 2, 4, 5]))));
        prop_assert!(balance.fresh_percent.is_some_and(|p| p <= 100));
        // Whatever was told and taken back, both stay in the record.
        prop_assert_eq!(fold(&bay.events), bay.job);
    }
}
