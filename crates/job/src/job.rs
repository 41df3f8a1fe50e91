//! The folded state of one bay: live readings, the record of the job, and which requests were carried out.
//!
//! In: events, one after the other. Out: views of the state. Not here: what a request may do (`decide.rs`), what an
//! event changes (`fold.rs`).

use std::collections::VecDeque;
use std::sync::Arc;

use events::{
    Advice, Balance, Body, Estimate, Event, Forecast, JobView, Precondition, Refusal, Right, Rim, Role,
    RunOutAhead, SeatAdvice, Seq, Sheet, Step, Told, Utc,
};
use units::{Celsius, Mono};

use crate::advice::situation::Situation;
use crate::advice::{acts, guard};
use crate::follow::Scribe;
use crate::port::top_up;
use crate::record::Record;
use crate::result::{ahead, balance, closure, level};
use crate::state::{Core, VerdictNow};
use crate::{decide, steps};

/// The state of one bay, folded from its events. The default is a bay where no job was started.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Job {
    pub(crate) core: Core,
    seen: VecDeque<(Arc<Told>, Seq)>,
    last: Option<Seq>,
}

impl Job {
    /// Folds one event in. Total: any event in any order leaves a valid state. An event that is not newer than the
    /// last one changes nothing, so a journal may be folded again over a state that has seen part of it.
    pub fn apply(&mut self, event: &Event) {
        if self.last.is_some_and(|last| event.seq <= last) {
            return;
        }
        self.last = Some(event.seq);
        if let Body::Told(told) = &event.body {
            if self.seq_of(told).is_some() {
                return;
            }
            self.remember(told, event.seq);
        }
        if matches!(event.body, Body::Result(_)) {
            // A request of the next job may carry an old id again; only the last request can still be on its way.
            let ended_by = self.seen.pop_back();
            self.seen.clear();
            self.seen.extend(ended_by);
        }
        self.core.fold(&event.body, event.mono_ms, event.at);
    }

    /// What accepting `told` would make happen, in order: the told thing first, then what follows from it. Empty
    /// when the same request with the same id was carried out before ([`Job::seq_of`] says as which event).
    ///
    /// The bodies belong together: write all of them or none.
    ///
    /// # Errors
    /// The [`Refusal`]: why it is not carried out. The state is as before.
    pub fn decide(
        &self,
        told: &Told,
        now: Mono,
        at: Utc,
        sheet: &Sheet,
        verdict: &VerdictNow,
    ) -> Result<Vec<Body>, Refusal> {
        if self.seq_of(told).is_some() {
            return Ok(Vec::new());
        }
        decide::decide(&self.core, told, now, at, sheet, verdict)
    }

    /// The event that `told` became when it was carried out, if it is among the last requests of this job.
    pub fn seq_of(&self, told: &Told) -> Option<Seq> {
        self.seen.iter().rev().find(|(seen, _)| **seen == *told).map(|(_, seq)| *seq)
    }

    /// What came about by itself since the last event: preconditions that readings confirm or no longer confirm,
    /// steps that the verdict or the engine completes. Empty when nothing changed; call it after every event and
    /// at [`Job::next_deadline`].
    pub fn follow(&self, now: Mono, verdict: &VerdictNow) -> Vec<Body> {
        let Some(record) = self.core.record.as_ref().filter(|r| r.result.is_none()) else {
            return Vec::new();
        };
        let at = record.ending.map_or(record.which.started, |(at, _)| at);
        let mut scribe = Scribe::new(&self.core, now, at, verdict);
        scribe.preconditions();
        scribe.proof();
        scribe.rest();
        scribe.out
    }

    /// The preconditions that do not hold now, in their order; unknown counts as open. Empty without a running job:
    /// the gate has its own reason for that.
    pub fn open(&self, now: Mono) -> Vec<Precondition> {
        self.running().map_or_else(Vec::new, |r| r.open(&self.core.live, now))
    }

    /// Whether the excess will have run out before the window closes. `None` before the fluid is filled, once the port is
    /// open, and while nothing can be said of the window.
    pub fn run_out(&self, estimate: Option<Estimate>, forecast: &Forecast) -> Option<RunOutAhead> {
        ahead::ahead(self.running()?, estimate, forecast)
    }

    /// What everything that is said rests on.
    pub fn situation(&self, now: Mono, verdict: &VerdictNow) -> Situation {
        Situation::of(&self.core, now, verdict)
    }

    /// What to do with the hands now, for each seat: what the procedure wants, past the guard.
    pub fn said(&self, now: Mono, verdict: &VerdictNow) -> SeatAdvice {
        self.said_in(&self.situation(now, verdict))
    }

    /// The same in the situation of this moment, where that is known already.
    pub fn said_in(&self, situation: &Situation) -> SeatAdvice {
        let wanted = acts::wanted(situation);
        // Where no job was begun and nobody is in danger no row of the guard speaks, at every reading of a vehicle that waits.
        if self.core.record.is_none() && situation.alarm.is_none() {
            return wanted;
        }
        let mut said = guard::guarded(situation, wanted);
        if let Some(record) = self.running() {
            said.millilitres = top_up::amount_of(record, &said);
            said.asks = record.asks();
            said.rim = Some(record.sheet.level.rim).filter(|rim| *rim != Rim::Pipe);
            said.right = Some(record.look().right).filter(|right| *right != Right::Trickle);
        }
        if said.at(Role::Under) == Advice::ShimStands {
            said.shims = self.running().and_then(level::shims);
        }
        said
    }

    /// The more urgent of the two.
    pub fn advice(&self, now: Mono, verdict: &VerdictNow) -> Advice {
        self.said(now, verdict).advice
    }

    /// What a refused word leaves in the record all the same: a stand that was measured.
    pub fn refused(&self, told: &Told, why: Refusal) -> Option<Body> {
        self.running().filter(|_| why == Refusal::NotLevel)?;
        decide::tilted(&self.core, &told.request)
    }

    /// The job as a front end shows it; `None` before the first one.
    pub fn view(&self, now: Mono) -> Option<JobView> {
        let record = self.core.record.as_ref()?;
        let steps: Vec<_> =
            steps::states(record, &self.core.live, now, self.core.live.verdict).iter().collect();
        let ended = record.result.is_some();
        Some(JobView {
            job: record.which.number,
            sheet: record.sheet.name.clone(),
            started: record.which.started,
            step: if ended { Step::Recheck } else { Step::in_hand(&steps) },
            steps,
            open: if ended { Vec::new() } else { record.open(&self.core.live, now) },
            balance: balance::balance(record),
            closure: closure::causes(record),
            vehicle: record.which.vehicle.as_deref().map(str::to_owned),
            recheck_of: record.which.recheck_of,
            top_up: record.said.top_up.filter(|_| !ended),
            stops: if ended { Vec::new() } else { record.said.stops.iter().collect() },
            selector: record.rounds_due(now),
            port_open: record.port_open(),
            held: if ended { Vec::new() } else { record.held(now) },
            alone: record.hands.alone,
            result: record.result.as_deref().cloned(),
        })
    }

    /// The sheet of the running or last job.
    pub fn sheet(&self) -> Option<&Sheet> {
        self.core.record.as_ref().map(|r| &*r.sheet)
    }

    /// What the sheet of the running job becomes in air of so many °C.
    pub fn sheet_for_air(&self, air: Celsius) -> Option<Sheet> {
        self.running()?.for_air(air)
    }

    /// The balance of the running or last job.
    pub fn balance(&self) -> Option<Balance> {
        self.core.record.as_ref().map(balance::balance)
    }

    /// Whether the look in hand waits for the temperature. Without a job nothing but the temperature is judged.
    pub fn is_gated(&self) -> bool {
        self.running().is_none_or(|record| record.look().is_gated())
    }

    /// Whether a job was started and has not ended.
    pub fn is_running(&self) -> bool {
        self.running().is_some()
    }

    /// Whether the adapter is plugged into another vehicle than the running job's, as far as both told who they are.
    pub fn in_other_vehicle(&self) -> bool {
        let ours = self.running().and_then(|record| record.which.vin.as_ref());
        ours.zip(self.core.live.vin.as_ref()).is_some_and(|(ours, here)| ours != here)
    }

    /// When, later than `after`, [`Job::follow`] or [`Job::said`] may have something to say although no event came: a live
    /// reading grows too old, a word does, nobody is heard from below, a stream outlasts what was expected. Asked with the
    /// moment of the last answer: what has passed by then has been said.
    pub fn next_deadline(&self, after: Mono) -> Option<Mono> {
        let record = self.running()?;
        let shown = record.said.holds.iter().filter_map(|p| self.core.live.expires(p)).min();
        let all = [
            shown,
            record.hands.expires(),
            self.core.live.engine_asked_at(after),
            record.hands.silent_at(record.port_open()),
            record.may_stop_at()[0],
            record.may_stop_at()[1],
            record.endless_due(),
            record.settles_at()[0],
            record.settles_at()[1],
            record.cooled_at(),
        ];
        all.into_iter().flatten().filter(|at| *at > after).min()
    }

    fn running(&self) -> Option<&Record> {
        self.core.record.as_ref().filter(|r| r.result.is_none())
    }

    fn remember(&mut self, told: &Told, seq: Seq) {
        if self.seen.len() >= SEEN {
            self.seen.pop_front();
        }
        self.seen.push_back((Arc::new(told.clone()), seq));
    }
}

/// So many requests are remembered, so that one told again after a lost connection is not carried out twice.
/// Own choice: more than one job tells; a screen sends again what the last seconds left open.
const SEEN: usize = 256;
