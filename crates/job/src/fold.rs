//! What each event changes. The only place where the state moves.
//!
//! In: one body with its times. Out: nothing; the state is changed. Total: an event that does not fit the state is
//! let pass. Not here: whether it should have happened (`decide.rs`).

use core::time::Duration;
use std::sync::Arc;

use events::{
    Bearing, Body, Ends, Judged, LinkChange, Measure, Precondition, Reason, Request, Step, StepState, Utc,
    Verdict,
};
use units::Mono;

use crate::live::{Engine, Live};
use crate::port::moment::Moment;
use crate::port::round::{Ran, Stream};
use crate::record::{Record, Run, SLOW_START_MS};
use crate::state::Core;
use crate::told::hands::Hands;
use crate::told::ledger::VESSELS_ML;
use crate::told::shift::RoundsRead;

impl Core {
    pub(crate) fn fold(&mut self, body: &Body, mono: Mono, at: Utc) {
        self.change(body, mono, at);
        self.last = Some((mono, at));
    }

    fn change(&mut self, body: &Body, mono: Mono, at: Utc) {
        match body {
            Body::Boot { .. } => self.boot(at),
            Body::Link(change) => self.link(change),
            Body::Reading(reading) => {
                self.live.take(reading, mono);
                if let (Measure::Selector(place), Some(record)) = (reading.measure, self.running()) {
                    selector_read(record, place, mono);
                }
            }
            Body::Estimate(estimate) => self.live.estimate = Some(*estimate),
            Body::Verdict { verdict, reasons, .. } => self.verdict(*verdict, reasons, mono),
            Body::Job { job, sheet, recheck_of, task, people, .. } => {
                self.last_job = self.last_job.max(*job);
                self.live.forget_told();
                let mut record = Record::new(*job, sheet, at, *recheck_of);
                record.hands = Hands::new(*task, *people);
                record.hands.people = self.live.people;
                self.record = Some(record);
            }
            Body::Told(told) => {
                match told.request {
                    Request::Alarm { what } => self.alarm = Some(what),
                    Request::Confirm { what: Precondition::AllSafe } => self.alarm = None,
                    _ => {}
                }
                if let Request::Engine { what, rpm } = told.request {
                    self.live.engine_told(what, rpm, mono);
                }
                let judged = self.judged();
                if let Some(record) = self.running() {
                    if told.request.answers_top_up(record.port_open()) {
                        record.said.top_up = None;
                    }
                    record.told(told, judged, (mono, at));
                }
            }
            Body::Step { step, state, judged } => {
                if let Some(record) = self.running() {
                    step_said(record, *step, *state, *judged);
                }
            }
            Body::Precondition { precondition, holds } => {
                if *precondition == Precondition::EngineRunning {
                    self.live.forget_run_time();
                }
                let stands = self.stands(mono);
                if let Some(record) = self.running() {
                    if *precondition == Precondition::EngineRunning && !holds {
                        record.motion.stands = stands;
                        if stands {
                            record.hands.stopped_unasked(record.idled_ms(mono));
                        }
                    }
                    precondition_said(record, *precondition, *holds, mono);
                }
            }
            Body::Selector(rounds) => {
                if let Some(record) = self.running() {
                    record.said.shifts = rounds.told;
                }
            }
            Body::Balance(balance) => {
                if let Some(record) = self.running() {
                    record.said.balance = Some(*balance);
                }
            }
            Body::Result(result) => {
                if let Some(record) = self.running() {
                    record.result = Some(Arc::new(result.clone()));
                }
            }
            Body::TopUp(top_up) => {
                if let Some(record) = self.running() {
                    (record.said.top_up, record.said.top_up_after) =
                        (Some(*top_up), Some(record.port.rounds));
                }
            }
            Body::Caution { caution } if caution.is_stop_rule() => {
                if let Some(record) = self.running() {
                    record.said.stops.insert(*caution);
                }
            }
            Body::Advice(said) => {
                self.advised = Some(*said);
                if let Some(record) = self.running() {
                    record.hands.advised(said, mono);
                }
            }
            Body::Tilted { pitch_degrees, roll_degrees } => {
                if let Some(record) = self.running() {
                    record.hands.tilted = Some((*pitch_degrees, *roll_degrees));
                }
            }
            Body::Found(found) if found.takes_over => {
                if let Some(record) = self.running() {
                    record.sheet = Arc::new(record.sheet.with_identifier(&found.identifier));
                }
            }
            Body::Forecast(_)
            | Body::Caution { .. }
            | Body::Fault { .. }
            | Body::Find(_)
            | Body::Candidate(_)
            | Body::Found(_)
            | Body::Sheets { .. } => {}
        }
    }

    fn running(&mut self) -> Option<&mut Record> {
        self.record.as_mut().filter(|r| r.result.is_none())
    }

    /// Whether the engine is seen, or told, at rest; an adapter that is gone shows nothing of it.
    fn stands(&self, mono: Mono) -> bool {
        self.record.as_ref().is_some_and(|r| self.live.engine(mono, &r.sheet) == Engine::Stopped)
    }

    /// The clock starts again, so nothing that was read counts any more.
    fn boot(&mut self, at: Utc) {
        self.live = Live::default();
        let last = self.last;
        let Some(record) = self.running() else { return };
        record.said.holds.retain(|p| !p.is_live());
        record.selector.told.boot();
        record.hands.boot();
        record.typed.forget();
        record.selector.read = RoundsRead::default();
        record.looks.boot();
        if let Some(round) = &mut record.port.round {
            round.boot();
        }
        let ran_ms = last.map_or(0, |(mono, _)| record.motion.run.at_least_ms(mono));
        // Civil time can only ask for more proof here, never for less: a clock set back counts as no time.
        let away_ms = last.map_or(0, |(_, before)| at.as_millis().saturating_sub(before.as_millis()).max(0));
        record.motion.run = Run { since: None, before_ms: ran_ms.saturating_add(away_ms.unsigned_abs()) };
    }

    fn link(&mut self, change: &LinkChange) {
        self.live.link(change);
        if let LinkChange::Vehicle { vin } = change {
            self.vehicle(vin);
        }
        if let Some(record) = self.running().filter(|_| *change == LinkChange::People) {
            record.without_adapter();
        }
        let lost = change.ends_contact();
        if let Some(round) = self.running().and_then(|r| r.port.round.as_mut()).filter(|_| lost) {
            round.lose_link();
        }
    }

    /// The vehicle told who it is. What was read before that of another one than the job's is void.
    fn vehicle(&mut self, vin: &str) {
        let ours = self.running().map(|record| &**record.which.vin.get_or_insert_with(|| vin.into()) == vin);
        if ours == Some(false) {
            self.live.forget();
        }
        self.live.vin = Some(vin.into());
    }

    fn verdict(&mut self, verdict: Verdict, reasons: &[Reason], mono: Mono) {
        self.live.verdict = verdict;
        let Some(record) = self.running() else { return };
        match verdict {
            Verdict::Go => (record.port.too_hot, record.port.doubted) = (false, false),
            Verdict::TooHot => {
                record.port.too_hot = true;
                if let Some(round) = &mut record.port.round {
                    round.heat();
                }
            }
            Verdict::Wait => {}
        }
        // A doubt counts where nothing else stood in the way: a forgotten pin or a warm start is not the sensor's fault, and
        // a slow start keeps a sound one still.
        let alone =
            record.motion.circulated && record.open_as_said().is_empty() && record.short_ml() <= VESSELS_ML;
        let slow = record.idled_ms(mono) < SLOW_START_MS;
        let counts = |r: Reason| r.is_doubt() && !(slow && r.bearing() == Bearing::Unproven);
        if alone && reasons.iter().any(|r| counts(*r)) {
            record.port.doubted = true;
        } else if alone && !reasons.iter().any(|r| r.is_blind() || r.is_doubt()) {
            // Only where it would count again is it seen to be gone.
            record.port.doubted = false;
        }
    }

    /// What the last events say about this moment.
    fn judged(&self) -> Judged {
        Judged::by(self.live.verdict, self.live.estimate)
    }
}

/// A step was announced. One at the port brings what it was judged by; that counts, and not what was folded so far.
fn step_said(record: &mut Record, step: Step, state: StepState, judged: Option<Judged>) {
    record.said.steps.set(step, state);
    if state == StepState::Done {
        record.trail.undone.remove(step);
        record.motion.circulated |= step == Step::Circulate && record.needs_engine();
    }
    let Some(judged) = judged else { return };
    if step == Step::Circulate
        && let Some(round) = record.port.round.as_mut().filter(|r| r.ran == Ran::Unproven)
    {
        round.ran = if state == StepState::Done { Ran::On } else { Ran::Stopped };
        record.port.stopped_open |= round.ran == Ran::Stopped && round.stream == Stream::Flows;
    }
    let mut open = record.open_as_said();
    // Closed after nothing ran out: that more must be filled follows from it and was not open before.
    if open.contains(Precondition::Filled) && record.needs_more() {
        open.remove(Precondition::Filled);
    }
    if step == Step::RunOut && record.port.round.as_ref().is_some_and(|r| r.gauge.is_some()) {
        record.gauge_judged(Moment { judged, open });
        return;
    }
    let Some(round) = &mut record.port.round else { return };
    let moment = match step {
        Step::RunOut if round.is_open() => Some(&mut round.looked),
        Step::Trickle if round.is_open() => round.trickle.as_mut(),
        Step::Close => round.closed.as_mut(),
        _ => None,
    };
    if let Some(moment) = moment {
        moment.judged = judged;
        moment.open = open;
    }
    record.judge_heat();
    if step == Step::Close {
        record.count_look();
    }
}

/// A position of the selector was read: it counts with the engine running on new fluid, as the rounds are meant.
fn selector_read(record: &mut Record, place: u8, mono: Mono) {
    let runs = record.said.holds.contains(Precondition::EngineRunning);
    let ready = runs && record.filled() && !record.awaits_fill() && record.holds(Precondition::BrakeHeld);
    if let Some(selector) = record.sheet.before.selector.clone().filter(|s| s.reported.is_some() && ready) {
        record.selector.read.read(&selector, place, mono);
        record.hands.moving = place != 0;
    }
}

/// A precondition was announced. A cold start is judged once by the vehicle; the live ones are facts from here on.
fn precondition_said(record: &mut Record, precondition: Precondition, holds: bool, mono: Mono) {
    if precondition == Precondition::EngineRunning {
        engine_said(record, holds, mono);
    }
    if precondition == Precondition::StartedCold {
        record.motion.cold = Some(holds);
    }
    if precondition == Precondition::Clear && !holds {
        record.take_back(precondition);
        record.hands.clear_gone(mono);
    }
    if precondition == Precondition::SelectorCycled && holds {
        // Neither confirmed nor told position by position: then the vehicle showed it.
        let told = record.confirmed.contains(precondition)
            || record.sheet.before.selector.as_ref().is_some_and(|s| record.selector.told.done(s));
        record.selector.shown |= !told;
        record.motion.stood_ms = 0;
        record.hands.rounds_done();
    }
    let settles = [Precondition::SelectorCycled, Precondition::EngineOff, Precondition::InPosition];
    if holds && settles.contains(&precondition) {
        record.looks.settles_from(mono);
    }
    if holds {
        record.said.holds.insert(precondition);
    } else {
        record.said.holds.remove(precondition);
    }
}

/// The engine came to run, or is not seen running any more. While it is open whether it ran on, the count goes on.
fn engine_said(record: &mut Record, runs: bool, mono: Mono) {
    if !runs && let Some(round) = &mut record.port.round {
        round.lose_sight();
    }
    if let Some(round) = record.port.round.as_mut().filter(|_| runs) {
        round.engine_came();
    }
    record.hands.engine(runs);
    record.looks.settles_from(mono);
    if !runs {
        record.take_back(Precondition::InPosition);
    }
    if runs {
        let stood = record.motion.stopped.take().map_or(Duration::ZERO, |at| mono.since(at));
        if record.motion.stands {
            let ms = u64::try_from(stood.as_millis()).unwrap_or(u64::MAX);
            record.motion.stood_ms = record.motion.stood_ms.saturating_add(ms);
        }
        // Several stops one after the other empty them as one long one does.
        let empty = stood >= CIRCUITS_KEEP || record.motion.stood_ms >= CIRCUITS_KEEP.as_millis() as u64;
        if empty && record.look().idles() && !record.is_set() {
            record.cycle_anew();
        }
        record.typed.forget();
        record.motion.restarted |= record.motion.circulated && !record.is_set();
        record.motion.mixed = true;
        record.take_back(Precondition::ReadyOff);
    } else {
        record.motion.stopped = Some(mono);
        // What drained back fills the pipe's foot again, and what has cooled has shrunk: the next stream may be no more than a gush.
        record.port.ran.ends_with_the_engine();
        record.said.stops.retain(|stop| stop.outlasts(Ends::EngineStopped));
        if record.by_lamp() {
            // The mode ends with the ignition.
            record.take_back(Precondition::ModeOn);
        }
    }
    let unproven = record.unproven();
    record.motion.run = match (runs, unproven) {
        (true, true) => Run { since: record.motion.run.since.or(Some(mono)), ..record.motion.run },
        (true, false) => Run { since: Some(mono), before_ms: 0 },
        (false, true) => record.motion.run,
        (false, false) => Run::default(),
    };
}

/// The circuits of the positions drain back while the engine stands: after so long they are to be filled again.
/// Own choice: by physics some minutes; a round too many costs half a minute, one too few a wrong level.
const CIRCUITS_KEEP: Duration = Duration::from_secs(120);
