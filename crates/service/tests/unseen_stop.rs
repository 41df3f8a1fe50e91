//! The engine is stopped and started while nobody sees it: adapter pulled, vehicle silent, a link that passes nothing. The daemon
//! runs on and has its history, and what the start mixes must not meet an open port. All on simulated time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod wired;

use std::time::Duration;

use events::{Advice, Quantity, Reason, Role, Trouble, Verdict};
use rehearsal::{Fault, FaultKind, embedded};
use units::Mono;
use wired::{Wired, usual_car};

/// What a start asks for (docs/gate.md, "After a pause").
const MIXES_FOR: Duration = Duration::from_secs(90);
/// A link that is well again is read, and has told how long the engine has run, within this.
const TOLD_WITHIN: Duration = Duration::from_secs(30);
/// Where the sump has cooled a little meanwhile it must warm again.
const WINDOW_WITHIN: Duration = Duration::from_secs(600);
/// A warm day: the warm-up is short.
const START_C: f64 = 28.0;

fn after(at: Mono, seconds: u64) -> Mono {
    at.after(Duration::from_secs(seconds))
}

fn play(faults: &[Fault]) -> Wired {
    let sheet = embedded::six_speed();
    let mut play = Wired::new(&sheet, usual_car(&sheet, START_C, faults));
    play.begin(&sheet, START_C);
    play
}

/// How the link goes, and comes back by itself after this.
const AWAY: [(FaultKind, u64); 8] = [
    (FaultKind::AdapterUnplugged, 12),
    (FaultKind::AdapterUnplugged, 20),
    (FaultKind::AdapterUnplugged, 100),
    (FaultKind::IgnitionOff, 40),
    (FaultKind::HalfOpen, 12),
    (FaultKind::HalfOpen, 60),
    (FaultKind::BusAsleep, 12),
    (FaultKind::BusAsleep, 30),
];

#[test]
fn an_engine_that_was_stopped_unseen_is_waited_out_and_one_that_ran_on_is_not() {
    let mut plain = play(&[]);
    assert!(plain.go(Mono::from_secs(3_000)), "{:?}", plain.verdict());
    let from = after(plain.now, 60);
    for (kind, seconds) in AWAY {
        for stops in [true, false] {
            let lasts = Some(Duration::from_secs(seconds));
            let fault = Fault { lasts, ..Fault::new(kind, from.as_millis() / 1_000) };
            let what =
                format!("{kind} for {seconds} s, the engine {}", if stops { "stopped" } else { "ran" });
            let mut play = play(&[fault]);
            assert!(play.go(from), "{what}: {:?}", play.verdict());
            play.pass(after(from, 2));
            if stops {
                play.car.world_mut().stop_engine();
            }
            play.pass(after(from, seconds - 2));
            play.car.world_mut().start_engine();
            let well = after(from, seconds);
            play.pass(well);
            assert_eq!(play.verdict().0, Verdict::Wait, "{what}");
            let opened = play.go(well.after(TOLD_WITHIN));
            assert!(
                play.read(Quantity::FluidTemperature).min(play.read(Quantity::EngineSpeed)) > Some(well),
                "{what}: read again"
            );
            if !stops {
                assert!(opened, "{what}: {:?}", play.verdict());
                continue;
            }
            assert!(!opened, "{what}: `go` at {}, well since {well}", play.now);
            // After a long silence the signal has other doubts, too.
            let reasons = play.verdict().1;
            assert!(seconds > 40 || reasons == [Reason::Hysteresis], "{what}: {reasons:?}");
            assert!(play.go(well.after(WINDOW_WITHIN)), "{what}: {:?}", play.verdict());
            assert!(play.now >= well.after(MIXES_FOR), "{what}: `go` at {}", play.now);
        }
    }
}

/// An engine speed that never moves is no evidence after this (`bay/turning.rs`), with an exchange or two.
const STANDS_FOR: Duration = Duration::from_secs(30 + 4);

/// An adapter that repeats what it said shows an engine that runs for ever. Nobody is led by it for long.
#[test]
fn an_engine_that_is_only_repeated_is_not_seen() {
    let mut plain = play(&[]);
    assert!(plain.go(Mono::from_secs(3_000)), "{:?}", plain.verdict());
    let from = after(plain.now, 30);
    let mut play = play(&[Fault::new(FaultKind::RepeatedReply, from.as_millis() / 1_000)]);
    assert!(play.go(from), "{:?}", play.verdict());
    play.pass(after(from, 2));
    play.car.world_mut().stop_engine();
    play.pass(from.after(STANDS_FOR));
    for _ in 0..600 {
        let snapshot = play.bay.snapshot(play.moment());
        assert_eq!(snapshot.verdict, Verdict::Wait, "{}: {:?}", play.now, snapshot.reasons);
        let said = [Role::Under, Role::Inside].map(|seat| snapshot.said.at(seat));
        let moves = [Advice::OpenPort, Advice::StartEngine, Advice::CycleSelector, Advice::TestDrive];
        assert!(said.iter().all(|advice| !moves.contains(advice)), "{}: {said:?}", play.now);
        assert_eq!(snapshot.link.trouble, Some(Trouble::Repeats), "{}", play.now);
        play.pass(play.now.after(Duration::from_secs(1)));
    }
}
