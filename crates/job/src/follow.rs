//! Announces what changed: the difference between what holds and what was said.
//!
//! In: a state, the time, the verdict. Out: bodies, each applied to a copy of the state before the next is worked
//! out, so that what is announced is what will be folded. Not here: why a request is refused (`decide.rs`).

use std::borrow::Cow;

use events::{Body, Judged, Precondition, Step, StepState, Utc, Verdict};
use units::Mono;

use crate::advice::{procedure, stop};
use crate::live::{Cold, Engine};
use crate::port::round::Round;
use crate::port::top_up;
use crate::record::Record;
use crate::result::{balance, outcome};
use crate::state::{Core, VerdictNow};
use crate::steps;

/// Writes bodies and folds them as it goes.
pub(crate) struct Scribe<'a> {
    /// A copy from the first body on; most of the time nothing is news, and nothing is copied.
    core: Cow<'a, Core>,
    now: Mono,
    at: Utc,
    verdict: Verdict,
    link_gone: bool,
    pub(crate) out: Vec<Body>,
}

impl<'a> Scribe<'a> {
    pub(crate) fn new(core: &'a Core, now: Mono, at: Utc, verdict: &VerdictNow) -> Self {
        let link_gone = stop::link_gone(verdict);
        Self { core: Cow::Borrowed(core), now, at, verdict: verdict.verdict, link_gone, out: Vec::new() }
    }

    /// One body: folded and put down.
    pub(crate) fn put(&mut self, body: Body) {
        self.core.to_mut().fold(&body, self.now, self.at);
        self.out.push(body);
    }

    fn running(&self) -> Option<&Record> {
        self.core.record.as_ref().filter(|r| r.result.is_none())
    }

    /// Preconditions that came to hold or ceased to; that one came may take another away.
    pub(crate) fn preconditions(&mut self) {
        while self.changed_preconditions() {}
    }

    /// One round of it: whether there was news. Each word goes one way in it, so it ends.
    fn changed_preconditions(&mut self) -> bool {
        let Some(record) = self.running() else { return false };
        let cold = self.cold_start(record);
        let mut changed = Vec::new();
        let mut watched = record.needed();
        watched.remove(Precondition::StartedCold);
        // Whether the engine runs is a fact of each job, whatever the look asks.
        watched.insert(Precondition::EngineRunning);
        for precondition in watched.iter() {
            let holds = match precondition {
                p if p.is_live() => record.shows(p, &self.core.live, self.now),
                p => record.holds_now(p, self.now),
            };
            if holds != record.said.holds.contains(precondition) {
                changed.push((precondition, holds));
            }
        }
        changed.extend(cold.map(|holds| (Precondition::StartedCold, holds)));
        let news = !changed.is_empty();
        for (precondition, holds) in changed {
            self.put(Body::Precondition { precondition, holds });
        }
        news
    }

    /// What the vehicle shows about a cold start, where that is news. Judged once, when the engine first runs; with
    /// the engine stopped agreement counts at any time, also after the vehicle was found warm and left to cool.
    fn cold_start(&self, record: &Record) -> Option<bool> {
        if !record.needs(Precondition::StartedCold) || record.motion.cold == Some(true) {
            return None;
        }
        let live = &self.core.live;
        match (live.engine(self.now, &record.sheet), live.cold(self.now, &record.sheet), record.motion.cold) {
            (Engine::Stopped, Cold::Agree, _) => Some(true),
            (Engine::Running, Cold::Agree, None) if !live.ran_long(self.now) => Some(true),
            (Engine::Running, Cold::Disagree, None) => Some(false),
            _ => None,
        }
    }

    /// Whether the engine ran on while nobody saw it: it is seen stopped now, or the vehicle's run time tells.
    pub(crate) fn proof(&mut self) {
        let Some(record) = self.running().filter(|r| r.unproven()) else { return };
        let live = &self.core.live;
        let ran_on = match live.engine(self.now, &record.sheet) {
            Engine::Stopped if record.port_open() => false,
            Engine::Running => match live.run_time() {
                Some((at, ran_ms)) => {
                    ran_ms.saturating_add(RUN_TIME_SLACK_MS) >= record.motion.run.at_least_ms(at)
                }
                None => return,
            },
            _ => return,
        };
        let state = if ran_on { StepState::Done } else { StepState::Failed };
        let judged = Judged::by(self.verdict, self.core.live.estimate);
        self.put(Body::Step { step: Step::Circulate, state, judged: Some(judged) });
    }

    /// Steps with their cautions, the balance, and the result where the job was told to end.
    pub(crate) fn rest(&mut self) {
        self.steps();
        self.stops();
        self.top_up();
        self.rounds();
        let Some(record) = self.running() else { return };
        let worth = record.said.balance.is_some() || !record.ledger.is_empty();
        let balance = worth.then(|| balance::balance(record)).filter(|now| record.said.balance != Some(*now));
        let result = record.ending.map(|(at, ending)| outcome::result(record, ending, at));
        if let Some(balance) = balance {
            self.put(Body::Balance(balance));
        }
        if let Some(result) = result {
            self.put(Body::Result(result));
        }
    }

    /// One step, with the cautions that belong to it when it begins.
    pub(crate) fn step(&mut self, step: Step, state: StepState, judged: Option<Judged>) {
        let Some(record) = self.running() else { return };
        let begins = state == StepState::Started && record.said.steps.get(step) != state;
        let cautions = if begins { procedure::cautions(&record.sheet, step) } else { Vec::new() };
        self.put(Body::Step { step, state, judged });
        for caution in cautions {
            self.put(Body::Caution { caution });
        }
    }

    /// Stop rules that have come to hold.
    fn stops(&mut self) {
        let Some(record) = self.running() else { return };
        let mut news = stop::holding(&self.core, record, self.now, !self.link_gone);
        news.retain(|caution| !record.said.stops.contains(*caution));
        for caution in news {
            self.put(Body::Caution { caution });
        }
    }

    /// Nothing ran out at `go`: how much to fill, told once for each opening.
    fn top_up(&mut self) {
        let Some(record) = self.running() else { return };
        let told = record.said.top_up_after == Some(record.port.rounds);
        let nothing = record.port.round.as_ref().is_some_and(Round::nothing_at_go) && !record.refilled();
        if nothing && !told {
            let top_up = top_up::top_up(record, &self.core.live, self.now);
            self.put(Body::TopUp(top_up));
        }
    }

    /// The selector's rounds, where one more position was told or taken back.
    fn rounds(&mut self) {
        let Some(record) = self.running() else { return };
        let news = record.rounds_due(self.now).filter(|rounds| rounds.told != record.said.shifts);
        if let Some(rounds) = news {
            self.put(Body::Selector(rounds));
        }
    }

    /// Until nothing changes any more: a step that is done may begin another one.
    fn steps(&mut self) {
        for _ in Step::ALL {
            let Some(record) = self.running() else { return };
            let states = steps::states(record, &self.core.live, self.now, self.verdict);
            let said = record.said.steps;
            if states == said {
                return;
            }
            for (step, state) in states.iter().filter(|(step, state)| *state != said.get(*step)) {
                self.step(step, state, None);
            }
        }
    }
}

/// So much may be missing of a time that was waited for.
/// Own choice: whole seconds, a poll's delay of 1 s, and the turning of the starter.
const RUN_TIME_SLACK_MS: u64 = 5_000;
