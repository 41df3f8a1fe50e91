//! Where each step stands, derived from the record. Nothing is stored that could disagree with it.
//!
//! In: the record, live readings, the verdict. Out: the state of every step. Not here: which of them is
//! in hand (`Step::in_hand`), the events that announce a change (`follow.rs`).

use events::{Precondition, Step, StepState, Verdict};
use units::Mono;

use crate::live::{Engine, Live};
use crate::port::round::{Round, Stream};
use crate::record::{Record, Steps};

/// Every step and where it stands.
pub(crate) fn states(record: &Record, live: &Live, now: Mono, verdict: Verdict) -> Steps {
    let done = done_by_order(record, live, now, verdict);
    let first_open = done.iter().find(|(_, done)| !*done).map(|(step, _)| *step);
    let mut states = Steps::default();
    for (step, done) in done {
        let begun = first_open == Some(step) && !record.port_open();
        states.set(step, if done { StepState::Done } else { begun_or_open(begun) });
    }
    if record.drains_again() {
        states.set(Step::Drain, StepState::Started);
    }
    // Filling comes again after nothing ran out, and in each round of several; preparing may stay unfinished while the rest goes on.
    if record.needs_more() || record.awaits_fill() && record.filled() {
        states.set(Step::Fill, StepState::Started);
    }
    // Where no fluid is changed, preparing is passed when the engine has run.
    let passed = record.drained() && (record.changes() || record.motion.circulated || record.port.rounds > 0);
    if states.get(Step::Prepare) == StepState::Started && passed {
        let next = [Step::Drain, Step::Fill, Step::Circulate, Step::Window];
        if let Some(next) = next.into_iter().find(|s| states.get(*s) == StepState::Open)
            && !record.port_open()
        {
            states.set(next, StepState::Started);
        }
    }
    port(record, &mut states);
    afterwards(record, &mut states);
    for step in record.trail.undone.iter() {
        if states.get(step) != StepState::Done {
            states.set(step, StepState::Undone);
        }
    }
    states
}

/// The steps before the port is opened, and whether each is done.
fn done_by_order(record: &Record, live: &Live, now: Mono, verdict: Verdict) -> [(Step, bool); 5] {
    let engine_runs = live.engine(now, &record.sheet) == Engine::Running;
    let prepared = [
        Precondition::OnStands,
        Precondition::ExhaustOutside,
        Precondition::VehicleLevel,
        Precondition::CoolerBypass,
    ];
    let circulated = record.has_circulated(engine_runs);
    // A look that needs no engine has nothing to circulate.
    let still = record.filled() && !record.awaits_fill() && !record.needs_engine();
    let at_go = record.port.round.as_ref().is_some_and(Round::flowed_at_go) && record.port_open();
    [
        (Step::Prepare, prepared.into_iter().all(|p| !record.needs(p) || record.holds(p))),
        (Step::Drain, record.drained()),
        (Step::Fill, record.filled() && !record.awaits_fill() && !record.needs_more()),
        (Step::Circulate, circulated || still),
        (Step::Window, record.is_set() || at_go || ((circulated || still) && verdict == Verdict::Go)),
    ]
}

/// Run-out, trickle and closing follow the last round.
fn port(record: &Record, states: &mut Steps) {
    use StepState::{Done, Failed, Open, Started};
    let (run_out, trickle, close) = match &record.port.round {
        _ if record.amounts_right() => (Done, Done, Done),
        _ if record.refilled() || record.looks.again => (Open, Open, Open),
        None => (Open, Open, Open),
        Some(r) if r.is_good() => (Done, Done, Done),
        Some(r) if r.stream == Stream::Unread => (Started, Open, Open),
        Some(r) if !r.is_open() => (Failed, if r.trickle.is_some() { Done } else { Failed }, Failed),
        Some(r) if r.stream == Stream::Nothing => (Failed, Open, Open),
        Some(r) if r.trickle.is_some() => (Done, Done, Started),
        Some(_) => (Started, Open, Open),
    };
    states.set(Step::RunOut, run_out);
    states.set(Step::Trickle, trickle);
    states.set(Step::Close, close);
}

/// What comes once the port is closed for good.
fn afterwards(record: &Record, states: &mut Steps) {
    let closed = record.is_set();
    let state = |done: bool, begun: bool| if done { StepState::Done } else { begun_or_open(begun) };
    states.set(Step::Torque, state(record.plugs.are_torqued(), closed && !record.port_open()));
    states.set(
        Step::TestDrive,
        state(record.plugs.are_driven() || record.looks.drove, closed && record.plugs.are_torqued()),
    );
    states.set(Step::Recheck, begun_or_open(record.plugs.are_driven()));
}

const fn begun_or_open(begun: bool) -> StepState {
    if begun { StepState::Started } else { StepState::Open }
}
