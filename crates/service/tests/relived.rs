//! A daemon ends in the middle of a job and another goes on: what the first one read still counts where it is known how long ago
//! that was, and what nobody saw meanwhile is held against it. All on simulated time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod wired;

use std::time::Duration;

use events::{Body, Durability, Event, LinkChange, Quantity, Reason, Verdict};
use rehearsal::embedded;
use service::{Bay, Machine, Moment};
use units::Mono;
use wired::{Wired, usual_car};

/// What a start asks for (docs/gate.md, "After a pause").
const MIXES_FOR: Duration = Duration::from_secs(90);
/// The vehicle is found, its count read and the gate has held, within this.
const SECONDS: Duration = Duration::from_secs(30);
/// A warm day: the warm-up is short.
const START_C: f64 = 28.0;
/// How long the machine had run when the first clock read zero.
const UP_MS: i64 = 7_000_000;

/// A job at its first `go`, on a machine that tells its clock.
fn at_go() -> Wired {
    let sheet = embedded::six_speed();
    let car = usual_car(&sheet, START_C, &[]);
    let mut bay = Bay::new(sheet.clone(), events::Seq(1), 0);
    bay.on_machine(Some(Machine::at("one".to_owned(), UP_MS, Mono::ZERO)));
    let mut play = Wired::at(bay, car, Mono::ZERO);
    play.begin(&sheet, START_C);
    assert!(play.go(Mono::from_secs(3_000)), "{:?}", play.verdict());
    play.pass(play.now.after(Duration::from_secs(10)));
    play
}

/// The next daemon on this run of the machine: its clock is right, or it is another one.
fn next(run: &'static str) -> impl FnOnce(&[Event], Moment) -> Bay {
    move |events, now| {
        let is_fact = |event: &&Event| event.body.durability() == Durability::Fact;
        let facts: Vec<Event> = events.iter().filter(is_fact).cloned().collect();
        let readings: Vec<Event> =
            events.iter().filter(|event| event.body.kind() == "reading").cloned().collect();
        let mut bay = Bay::new(embedded::six_speed(), events.last().unwrap().seq.next(), 1);
        let behind = i64::try_from(LATER.as_millis()).unwrap();
        bay.on_machine(Some(Machine::at(run.to_owned(), UP_MS + behind, Mono::ZERO)));
        bay.restore(&facts, &readings, now);
        bay
    }
}

/// The second daemon's clock reads so much less than the first one's: both begin with their daemon.
const LATER: Duration = Duration::from_secs(100);

/// A second daemon after `gap`; the engine stands in it for `stands`.
fn second(run: &'static str, gap: u64, stands: bool) -> Wired {
    let mut play = at_go();
    if stands {
        play.car.world_mut().stop_engine();
    }
    let mut play = play.succeeded(Duration::from_secs(gap), LATER, next(run));
    if stands {
        play.car.world_mut().start_engine();
    }
    play
}

/// How long after the restart `go` comes; the helper does what a restart asks for again.
fn seconds_to_go(play: &mut Wired) -> u64 {
    let from = play.now;
    play.pass(from.after(Duration::from_secs(8)));
    play.rounds();
    assert!(play.go(from.after(Duration::from_secs(900))), "{:?}", play.verdict());
    play.now.since(from).as_secs()
}

#[test]
fn what_was_read_before_a_restart_counts_after_it() {
    for gap in [3, 20] {
        let (with, without) =
            (seconds_to_go(&mut second("one", gap, false)), seconds_to_go(&mut second("two", gap, false)));
        println!("after {gap} s: {with} s, without what was read {without} s");
        assert!(Duration::from_secs(with) <= SECONDS, "{gap} s away: `go` after {with} s");
        assert!(with < without, "{gap} s away: {with} s, without what was read {without} s");
    }
}

#[test]
fn an_engine_that_may_have_stood_meanwhile_is_waited_out() {
    // Of another run of the machine nothing is known.
    for (run, gap) in [("one", 3), ("one", 20), ("one", 60), ("two", 3), ("two", 20), ("two", 60)] {
        let took = seconds_to_go(&mut second(run, gap, true));
        assert!(Duration::from_secs(took) >= MIXES_FOR, "{gap} s away, run {run}: `go` after {took} s");
    }
}

#[test]
fn nothing_of_before_opens_the_gate_by_itself() {
    let play = second("one", 3, false);
    let (verdict, reasons) = play.verdict();
    assert_eq!(verdict, Verdict::Wait);
    assert!(reasons.contains(&Reason::LinkLost) || reasons.contains(&Reason::NoReading), "{reasons:?}");
}

#[test]
fn a_clock_that_does_not_begin_at_zero_makes_nothing_late() {
    let sheet = embedded::six_speed();
    let car = usual_car(&sheet, START_C, &[]);
    let mut play =
        Wired::at(Bay::new(sheet, events::Seq(1), 0), car, Mono::ZERO.after(service::REACHES_BACK));
    let until = play.now.after(Duration::from_secs(20));
    play.pass(until);
    let lost =
        |event: &&Event| matches!(event.body, Body::Link(LinkChange::Lost { .. }) | Body::Fault { .. });
    assert_eq!(play.events.iter().find(lost), None);
    assert!(play.read(Quantity::FluidTemperature).is_some());
}
