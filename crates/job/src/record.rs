//! The record of one job: what was told, what the vehicle showed, and what of it can be taken back.
//!
//! In: told things that were accepted. Out: facts about the job. Not here: whether a request is accepted
//! (`decide.rs`), steps (`steps.rs`), amounts at one temperature (`balance.rs`).

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use events::{Balance, JobResult, Judged, Precondition, Request, Sheet, Step, StepState, Utc, Verdict};
use units::{Celsius, Degrees, Millilitres, Mono};

use crate::level;
use crate::live::Live;
use crate::round::{Moment, Ran, Round, Stream};

/// One job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Record {
    pub(crate) number: u64,
    pub(crate) sheet: Arc<Sheet>,
    pub(crate) started: Utc,
    /// Confirmed by a person.
    pub(crate) confirmed: BTreeSet<Precondition>,
    /// How it stands, measured: pitch, roll.
    pub(crate) level: Option<(Degrees, Degrees)>,
    pub(crate) ledger: Vec<Entry>,
    /// The last opening of the port, and how many there were.
    pub(crate) round: Option<Round>,
    pub(crate) rounds: u32,
    /// The engine ran with fluid in and the selector was moved.
    pub(crate) circulated: bool,
    /// What the vehicle showed at the first engine start; absent while it has not shown it.
    pub(crate) cold: Option<bool>,
    pub(crate) torqued: bool,
    pub(crate) test_driven: bool,
    /// Since the last `go`: the fluid was above the band; the temperature could not be trusted.
    pub(crate) too_hot: bool,
    pub(crate) doubted: bool,
    /// Fluid was told flowing before the verdict was `go`: it is missing, whatever came later.
    pub(crate) opened_early: bool,
    /// Steps that were taken back and not done again.
    pub(crate) undone: BTreeSet<Step>,
    pub(crate) ending: Option<(Utc, Ending)>,
    pub(crate) result: Option<JobResult>,
    pub(crate) said: Said,
    pub(crate) run: Run,
    trail: Vec<Act>,
    /// The amount that was taken back by the request before this one, so that its correction takes its place.
    vacant: Option<(Kind, u32)>,
}

/// How long the engine is known to have run without a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Run {
    /// Seen running since, on the clock of this boot.
    pub(crate) since: Option<Mono>,
    /// And before this boot, in milliseconds.
    pub(crate) before_ms: u64,
}

impl Run {
    /// By `now`, if it did not stop meanwhile.
    pub(crate) fn at_least_ms(&self, now: Mono) -> u64 {
        let here = self.since.map_or(0, |since| now.as_millis().saturating_sub(since.as_millis()));
        self.before_ms.saturating_add(here)
    }
}

/// What has been announced already.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Said {
    pub(crate) steps: BTreeMap<Step, StepState>,
    pub(crate) holds: BTreeSet<Precondition>,
    pub(crate) balance: Option<Balance>,
}

/// How a job ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ending {
    Done,
    Aborted,
}

/// Which way an amount went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Drained,
    Filled,
    RanOut,
}

/// One amount as measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Entry {
    pub(crate) kind: Kind,
    pub(crate) amount: Millilitres,
    pub(crate) celsius: Option<Celsius>,
    /// How often the port had been opened before.
    pub(crate) after_rounds: u32,
}

/// A told thing that can be taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Act {
    Confirmed(Precondition),
    /// Measured; what stood there before.
    Levelled(Option<(Degrees, Degrees)>),
    Measured,
    Trickled,
    Torqued,
    TestDriven,
}

impl Record {
    pub(crate) fn new(number: u64, sheet: &Sheet, started: Utc) -> Self {
        Self {
            number,
            sheet: Arc::new(sheet.clone()),
            started,
            confirmed: BTreeSet::new(),
            level: None,
            ledger: Vec::new(),
            round: None,
            rounds: 0,
            circulated: false,
            cold: None,
            torqued: false,
            test_driven: false,
            too_hot: false,
            opened_early: false,
            doubted: false,
            undone: BTreeSet::new(),
            ending: None,
            result: None,
            said: Said::default(),
            run: Run::default(),
            trail: Vec::new(),
            vacant: None,
        }
    }

    /// Whether the sheet asks for `precondition`.
    pub(crate) fn needs(&self, precondition: Precondition) -> bool {
        let before = &self.sheet.before;
        match precondition {
            Precondition::BrakeHeld | Precondition::SelectorCycled => before.selector.is_some(),
            Precondition::CoolerBypass => before.cooler_bypass,
            Precondition::StartedCold => before.started_cold,
            _ => true,
        }
    }

    /// Whether a precondition that readings do not show live holds, as told or as judged at the engine's start.
    pub(crate) fn holds(&self, precondition: Precondition) -> bool {
        match precondition {
            Precondition::Filled => self.filled() && !self.needs_more(),
            Precondition::StartedCold => self.cold.unwrap_or_else(|| self.confirmed.contains(&precondition)),
            Precondition::VehicleLevel => match self.level {
                Some(_) => level::tilt(&self.sheet, self.level)
                    .is_some_and(|tilt| level::stands_level(&self.sheet, tilt)),
                None => self.confirmed.contains(&precondition),
            },
            _ => self.confirmed.contains(&precondition),
        }
    }

    /// The preconditions that do not hold now, in their order.
    pub(crate) fn open(&self, live: &Live, now: Mono) -> Vec<Precondition> {
        self.open_by(|p| live.shows(p, now, &self.sheet))
    }

    /// The same by what was announced: the live ones are facts then and survive a crash.
    pub(crate) fn open_as_said(&self) -> Vec<Precondition> {
        self.open_by(|p| self.said.holds.contains(&p))
    }

    fn open_by(&self, shown: impl Fn(Precondition) -> bool) -> Vec<Precondition> {
        let holds = |p: Precondition| if is_live(p) { shown(p) } else { self.holds(p) };
        Precondition::ALL.iter().copied().filter(|p| self.needs(*p) && !holds(*p)).collect()
    }

    pub(crate) fn port_open(&self) -> bool {
        self.round.as_ref().is_some_and(Round::is_open)
    }

    pub(crate) fn has(&self, kind: Kind) -> bool {
        self.ledger.iter().any(|e| e.kind == kind)
    }

    pub(crate) fn filled(&self) -> bool {
        self.has(Kind::Filled)
    }

    /// Whether it is open if the engine ran on while adapter or daemon were away.
    pub(crate) fn unproven(&self) -> bool {
        self.round.as_ref().is_some_and(|r| r.ran == Ran::Unproven)
    }

    /// Drained or filled after the last round: what it set holds no longer.
    pub(crate) fn refilled(&self) -> bool {
        let after = |e: &Entry| e.kind != Kind::RanOut && e.after_rounds == self.rounds;
        self.rounds > 0 && self.ledger.iter().any(after)
    }

    /// Nothing ran out at `go`, the port is closed again, and no more was filled yet.
    pub(crate) fn needs_more(&self) -> bool {
        self.round.as_ref().is_some_and(|r| !r.is_open() && r.nothing_at_go()) && !self.refilled()
    }

    /// The last round set the level and nothing was filled or drained since.
    pub(crate) fn is_set(&self) -> bool {
        self.round.as_ref().is_some_and(Round::is_good) && !self.refilled()
    }

    /// The engine ran with fluid in it and the selector was moved where the sheet asks for it.
    pub(crate) fn has_circulated(&self, engine_runs: bool) -> bool {
        let cycled = !self.needs(Precondition::SelectorCycled) || self.holds(Precondition::SelectorCycled);
        self.filled() && cycled && (self.circulated || engine_runs)
    }

    /// The sum of one kind, as measured.
    pub(crate) fn sum(&self, kind: Kind) -> i64 {
        self.ledger.iter().filter(|e| e.kind == kind).map(|e| i64::from(e.amount.steps())).sum()
    }

    /// Carries out a request that was accepted. `judged` is what the port's steps are judged by until their own
    /// event says so.
    pub(crate) fn told(&mut self, request: &Request, judged: Judged, at: Utc) {
        let vacant = self.vacant.take();
        if let Some(step) = step_of(request) {
            self.undone.remove(&step);
        }
        let moment = Moment { judged, open: self.open_as_said() };
        match request {
            Request::Start | Request::Sheet { .. } | Request::Spot { .. } | Request::Note { .. } => {
                self.vacant = vacant;
            }
            Request::Confirm { what } => {
                if self.confirmed.insert(*what) {
                    self.act(Act::Confirmed(*what));
                }
            }
            Request::Level { pitch_degrees, roll_degrees } => {
                self.act(Act::Levelled(self.level));
                self.level = Some((*pitch_degrees, *roll_degrees));
            }
            Request::Drained { millilitres, celsius } => {
                self.measured(Kind::Drained, *millilitres, *celsius, vacant);
            }
            Request::Filled { millilitres, celsius } => {
                self.measured(Kind::Filled, *millilitres, *celsius, vacant);
            }
            Request::RanOut { millilitres, celsius } => {
                self.measured(Kind::RanOut, *millilitres, *celsius, vacant);
            }
            Request::Flowing => self.looked(Stream::Flows, moment),
            Request::NothingFlows => self.looked(Stream::Nothing, moment),
            Request::Trickle => {
                if let Some(round) = self.round.as_mut().filter(|r| r.is_open() && r.trickle.is_none()) {
                    round.trickle = Some(moment);
                    self.act(Act::Trickled);
                }
            }
            Request::Closed => self.closed(moment),
            Request::Torqued => {
                self.torqued = true;
                self.act(Act::Torqued);
            }
            Request::TestDriven => {
                self.test_driven = true;
                self.act(Act::TestDriven);
            }
            Request::Undo => self.undo(),
            Request::Done => self.ending = Some((at, Ending::Done)),
            Request::Abort { .. } => self.ending = Some((at, Ending::Aborted)),
        }
    }

    /// The last told thing that can be taken back.
    pub(crate) fn can_undo(&self) -> bool {
        !self.trail.is_empty()
    }

    fn act(&mut self, act: Act) {
        if self.trail.len() >= TRAIL {
            self.trail.remove(0);
        }
        self.trail.push(act);
    }

    fn measured(
        &mut self,
        kind: Kind,
        amount: Millilitres,
        celsius: Option<Celsius>,
        vacant: Option<(Kind, u32)>,
    ) {
        let place = vacant.filter(|(of, _)| *of == kind).map_or(self.rounds, |(_, after)| after);
        self.ledger.push(Entry { kind, amount, celsius, after_rounds: place });
        self.act(Act::Measured);
    }

    fn looked(&mut self, stream: Stream, moment: Moment) {
        self.opened_early |= stream == Stream::Flows && moment.judged.verdict == Verdict::Wait;
        match &mut self.round {
            Some(round) if round.is_open() => {
                round.look_again(stream, moment);
                self.trail.retain(|a| *a != Act::Trickled);
            }
            round => {
                *round = Some(Round::opened(stream, moment));
                self.rounds = self.rounds.saturating_add(1);
            }
        }
        self.judge_heat();
        (self.torqued, self.test_driven) = (false, false);
        self.trail.retain(|a| !matches!(a, Act::Torqued | Act::TestDriven));
    }

    fn closed(&mut self, moment: Moment) {
        if let Some(round) = self.round.as_mut().filter(|r| r.is_open()) {
            round.closed = Some(moment);
        }
        self.judge_heat();
        self.trail.retain(|a| *a != Act::Trickled);
    }

    /// A port that was opened or closed too hot spoils the round, whatever is told later.
    pub(crate) fn judge_heat(&mut self) {
        if let Some(round) = &mut self.round {
            round.judge_heat();
        }
    }

    fn undo(&mut self) {
        let Some(act) = self.trail.pop() else { return };
        let step = match act {
            Act::Confirmed(what) => {
                self.confirmed.remove(&what);
                step_of(&Request::Confirm { what })
            }
            Act::Levelled(before) => {
                self.level = before;
                before.is_none().then_some(Step::Prepare)
            }
            Act::Measured => {
                let Some(entry) = self.ledger.pop() else { return };
                self.vacant = Some((entry.kind, entry.after_rounds));
                match entry.kind {
                    Kind::Drained => Some(Step::Drain),
                    Kind::Filled => (!self.filled()).then_some(Step::Fill),
                    // The fluid ran out all the same; only its amount is taken back.
                    Kind::RanOut => None,
                }
            }
            Act::Trickled => {
                if let Some(round) = self.round.as_mut().filter(|r| r.is_open()) {
                    round.trickle = None;
                }
                Some(Step::Trickle)
            }
            Act::Torqued => {
                self.torqued = false;
                Some(Step::Torque)
            }
            Act::TestDriven => {
                self.test_driven = false;
                Some(Step::TestDrive)
            }
        };
        self.undone.extend(step);
    }
}

/// The step that a told thing belongs to and that taking it back leaves undone.
const fn step_of(request: &Request) -> Option<Step> {
    match request {
        Request::Confirm { what: Precondition::BrakeHeld | Precondition::SelectorCycled } => {
            Some(Step::Circulate)
        }
        Request::Confirm { .. } | Request::Level { .. } => Some(Step::Prepare),
        Request::Drained { .. } => Some(Step::Drain),
        Request::Filled { .. } => Some(Step::Fill),
        Request::Trickle => Some(Step::Trickle),
        Request::Torqued => Some(Step::Torque),
        Request::TestDriven => Some(Step::TestDrive),
        _ => None,
    }
}

/// Whether the vehicle shows it moment by moment. A cold start is shown too, but judged once.
pub(crate) const fn is_live(precondition: Precondition) -> bool {
    matches!(
        precondition,
        Precondition::EngineRunning | Precondition::EngineIdling | Precondition::StandingStill
    )
}

/// So many told things can be taken back, one after the other.
const TRAIL: usize = 64;
