//! The one fold of the events: where a bay stands after each of them, as its snapshot says it.
//!
//! In: events in their order. Out: the [`Snapshot`] that a client would get if it connected now. Daemon, screens,
//! report and the technician of a rehearsal all read this one, so that a rule about what an event changes stands here
//! and nowhere else. Total: an event that does not fit is let pass.
//! Not here: what grows old by itself (who shows a reading knows when it came), and what follows from the procedure,
//! which `job` decides and says as further events.

use crate::{
    Advice, Balance, Body, Candidate, Caution, Event, FindStage, Forecast, JobView, LinkChange, LinkView,
    People, Precondition, Quantity, Reading, Reason, Request, Selector, SelectorView, Seq, Sheet, Snapshot,
    Step, StepState, Utc, Verdict,
};

impl Default for Snapshot {
    /// Nothing was said yet.
    fn default() -> Self {
        Self {
            seq: Seq(0),
            at: Utc::from_millis(0),
            verdict: Verdict::Wait,
            reasons: vec![Reason::NoReading],
            said: Advice::StartJob.into(),
            estimate: None,
            forecast: None,
            job: None,
            link: LinkView::default(),
            readings: Vec::new(),
            sheet: None,
            sheets: Vec::new(),
            find: None,
            candidates: Vec::new(),
        }
    }
}

impl Snapshot {
    /// Folds one event in.
    pub fn apply(&mut self, event: &Event) {
        (self.seq, self.at) = (event.seq, event.at);
        if let Some(forecast) = self.forecast.unwrap_or_default().after(&event.body) {
            self.forecast = Some(forecast);
        }
        match &event.body {
            Body::Boot { .. } => self.boot(),
            Body::Link(change) => self.linked(change),
            Body::Reading(reading) => self.read(reading),
            Body::Estimate(estimate) => self.estimate = Some(*estimate),
            Body::Verdict { verdict, reasons, .. } => {
                self.verdict = *verdict;
                self.reasons.clone_from(reasons);
            }
            Body::Job { job, sheet, recheck_of, people, .. } => {
                self.job = Some(JobView::new(*job, sheet, event.at, *recheck_of, *people));
                self.sheet = Some(sheet.clone());
            }
            Body::Advice(said) => self.said = *said,
            Body::Told(told) => self.chosen(&told.request),
            Body::Find(find) => {
                // What was ruled out is not told again one by one.
                if find.left == 0 || find.stage == FindStage::Search {
                    self.candidates.clear();
                }
                self.find = Some(find.clone());
            }
            Body::Candidate(candidate) => self.candidate(candidate),
            Body::Found(found) if found.takes_over => {
                self.sheet = self.sheet.as_ref().map(|s| Box::new(s.with_identifier(&found.identifier)));
                self.estimate = None;
            }
            Body::Sheets { names, changed } => {
                self.sheets.clone_from(names);
                if let Some(sheet) = changed {
                    self.sheet = Some(sheet.clone());
                    self.forget();
                    self.link.read_again();
                }
            }
            _ => {}
        }
        let sheet = self.sheet.as_deref();
        if let Some(job) = self.job.as_mut().filter(|job| job.result.is_none()) {
            job.apply(&event.body, sheet);
        }
    }

    /// The job, while it runs.
    pub fn running(&self) -> Option<&JobView> {
        self.job.as_ref().filter(|job| job.result.is_none())
    }

    /// The latest reading of a quantity.
    pub fn reading(&self, quantity: Quantity) -> Option<&Reading> {
        self.readings.iter().find(|reading| reading.measure.quantity() == quantity)
    }

    /// Whether the check port is open, as it was told last.
    pub fn port_open(&self) -> bool {
        self.job.as_ref().is_some_and(|job| job.port_open)
    }

    /// Another sheet, or another band of it. It comes with the next job or snapshot; until then nothing is judged by the old one.
    fn chosen(&mut self, request: &Request) {
        match request {
            Request::Sheet { .. } => {
                self.sheet = None;
                self.forget();
                self.link.read_again();
            }
            Request::Air { .. } => self.sheet = None,
            _ => {}
        }
    }

    /// One of those that may be it: the most probable first, a few of them. Each place is told by its best reading.
    fn candidate(&mut self, candidate: &Candidate) {
        let place = |c: &Candidate| (c.service, c.id, c.header.clone());
        self.candidates.retain(|known| place(known) != place(candidate));
        self.candidates.push(candidate.clone());
        self.candidates.sort_by(|one, other| other.score.total_cmp(&one.score));
        self.candidates.truncate(CANDIDATES);
    }

    /// The daemon began anew: nothing that was read before counts.
    fn boot(&mut self) {
        self.link = LinkView::default();
        self.forget();
        (self.verdict, self.reasons) = (Verdict::Wait, vec![Reason::NoReading]);
        (self.forecast, self.find) = (None, None);
        self.candidates.clear();
    }

    fn forget(&mut self) {
        self.estimate = None;
        self.readings.clear();
    }

    fn linked(&mut self, change: &LinkChange) {
        self.link.apply(change);
        if change.ends_contact() {
            self.forget();
        }
    }

    fn read(&mut self, reading: &Reading) {
        let quantity = reading.measure.quantity();
        if self.sheet.as_ref().is_some_and(|sheet| sheet.check.signal.quantity() == quantity) {
            self.link.read_again();
        }
        match self.readings.binary_search_by_key(&quantity, |known| known.measure.quantity()) {
            Ok(at) => self.readings.get_mut(at).into_iter().for_each(|known| known.clone_from(reading)),
            Err(at) => self.readings.insert(at, reading.clone()),
        }
    }
}

impl Forecast {
    /// What is to be expected after `body`; `None` where that says nothing of it. A verdict brings its window along, and leaves
    /// what it does not speak of.
    pub fn after(&self, body: &Body) -> Option<Self> {
        match body {
            Body::Forecast(forecast) => Some(*forecast),
            Body::Verdict { verdict, opens_in, closes_in, read_again_in, .. }
                if opens_in.is_some() || closes_in.is_some() || read_again_in.is_some() =>
            {
                Some(Self {
                    opens_in: *opens_in,
                    closes_in: *closes_in,
                    back_in: self.back_in.filter(|_| *verdict == Verdict::TooHot),
                    read_again_in: *read_again_in,
                    run_out: self.run_out,
                })
            }
            _ => None,
        }
    }
}

impl LinkView {
    /// Folds one change in.
    pub fn apply(&mut self, change: &LinkChange) {
        match change {
            LinkChange::Found { identity, .. } => self.identity = Some(identity.clone()),
            LinkChange::Protocol { protocol, .. } => {
                self.up = true;
                self.protocol = Some(protocol.clone());
                self.detail = None;
                self.read_again();
            }
            LinkChange::VehicleSilent { detail, .. } => {
                self.up = false;
                self.detail = Some(detail.clone());
            }
            // What kept the signal from being read still does, until something is heard again.
            LinkChange::Lost { detail } => {
                *self = Self {
                    detail: Some(detail.clone()),
                    trouble: self.trouble,
                    request: self.request.take(),
                    ..Self::default()
                }
            }
            LinkChange::People => *self = Self { people: true, ..Self::default() },
            LinkChange::Trouble { trouble, detail } => {
                (self.trouble, self.request) = (Some(*trouble), detail.clone());
            }
            LinkChange::Opening { .. }
            | LinkChange::Rate { .. }
            | LinkChange::Said { .. }
            | LinkChange::Source { .. }
            | LinkChange::Vehicle { .. }
            | LinkChange::Quirk { .. } => {}
        }
    }

    /// The signal is read: nothing keeps it from that any more.
    pub fn read_again(&mut self) {
        (self.trouble, self.request) = (None, None);
    }
}

impl JobView {
    /// A job that begins.
    pub fn new(job: u64, sheet: &Sheet, started: Utc, recheck_of: Option<u64>, people: People) -> Self {
        Self {
            job,
            sheet: sheet.name.clone(),
            started,
            step: Step::Prepare,
            steps: Step::ALL.iter().map(|step| (*step, StepState::Open)).collect(),
            open: Vec::new(),
            balance: Balance::nothing_told(sheet.check.middle()),
            closure: Vec::new(),
            vehicle: None,
            recheck_of,
            top_up: None,
            stops: Vec::new(),
            selector: sheet.before.selector.as_ref().map(SelectorView::first),
            port_open: false,
            held: Vec::new(),
            alone: people == People::One,
            result: None,
        }
    }

    fn apply(&mut self, body: &Body, sheet: Option<&Sheet>) {
        match body {
            Body::Verdict { open, .. } => self.open.clone_from(open),
            Body::Told(told) => self.told(&told.request),
            Body::Step { step, state, .. } => {
                if let Some((_, known)) = self.steps.iter_mut().find(|(known, _)| known == step) {
                    *known = *state;
                }
                self.step = Step::in_hand(&self.steps);
            }
            Body::Precondition { precondition, holds } => {
                self.precondition(*precondition, *holds, sheet);
            }
            Body::Selector(rounds) => self.selector = Some(rounds.clone()),
            Body::Balance(balance) => {
                self.balance = *balance;
                // Why it may not close is said with a snapshot and with the result.
                self.closure.clear();
            }
            Body::TopUp(top_up) => self.top_up = Some(*top_up),
            Body::Caution { caution } if caution.is_stop_rule() && !self.stops.contains(caution) => {
                self.stops.push(*caution);
                self.stops.sort_unstable();
            }
            Body::Result(result) => {
                self.result = Some(result.clone());
                self.step = Step::Recheck;
                (self.top_up, self.selector) = (None, None);
                self.open.clear();
                self.held.clear();
                self.stops.clear();
            }
            _ => {}
        }
    }

    fn told(&mut self, request: &Request) {
        match request {
            Request::Vehicle { text } => self.vehicle = Some(text.clone()),
            Request::Closed => self.stops.retain(|stop| stop.outlasts(Ends::PortClosed)),
            _ => {}
        }
        if request.answers_top_up(self.port_open) {
            self.top_up = None;
        }
        self.port_open = request.port_after(self.port_open);
    }

    fn precondition(&mut self, precondition: Precondition, holds: bool, sheet: Option<&Sheet>) {
        if precondition == Precondition::EngineRunning && !holds {
            self.stops.retain(|stop| stop.outlasts(Ends::EngineStopped));
        }
        if precondition == Precondition::SelectorCycled {
            let first = || sheet?.before.selector.as_ref().map(SelectorView::first);
            self.selector = if holds { None } else { self.selector.take().or_else(first) };
        }
        // What is open is said with each verdict: not all that does not hold is asked for.
        self.open.retain(|p| *p != precondition || !holds);
        self.held.retain(|p| *p != precondition);
        if holds && !sheet.is_some_and(|sheet| precondition.gates_by(sheet)) {
            self.held.push(precondition);
            self.held.sort_unstable();
        }
    }
}

impl SelectorView {
    /// Before the first position.
    pub fn first(selector: &Selector) -> Self {
        Self {
            stands_in: None,
            next: selector.positions.first().cloned().unwrap_or_default(),
            told: 0,
            round: 1,
            rounds: selector.rounds,
            dwell_seconds: selector.dwell_s,
            left_seconds: 0,
        }
    }
}

/// So many of those that may be it are kept: more are none to choose from.
/// Own choice: more than five rows nobody compares.
const CANDIDATES: usize = 5;

/// What ends a stop rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// The engine was stopped.
    EngineStopped,
    /// The check port was closed.
    PortClosed,
}

impl Caution {
    /// Whether a stop rule goes on when this has happened: that the reading was lost with the port open ends with the port, all
    /// others with the engine.
    pub const fn outlasts(self, end: Ends) -> bool {
        matches!(self, Self::LostWhileOpen) == matches!(end, Ends::EngineStopped)
    }
}

impl Request {
    /// Whether the check port is open after it was told, with `before` as it was.
    pub const fn port_after(&self, before: bool) -> bool {
        match self {
            Self::Flowing
            | Self::NothingFlows
            | Self::Drips
            | Self::Trickle
            | Self::AtEdge
            | Self::BelowEdge { .. } => true,
            Self::Closed => false,
            _ => before,
        }
    }

    /// Whether what was to be filled is not due any more: it was filled, or the next look has begun.
    pub const fn answers_top_up(&self, port_was_open: bool) -> bool {
        let looked = !port_was_open && self.port_after(false);
        looked || matches!(self, Self::Filled { .. } | Self::Gauge { .. })
    }
}

impl Step {
    /// The step in hand, where each stands as `steps` say: the first that is begun or went wrong, else the first that is not done.
    /// What was left open while preparing holds up nothing once a later step is begun.
    pub fn in_hand(steps: &[(Self, StepState)]) -> Self {
        let begun = |step: &Self| matches!(step.state_in(steps), StepState::Started | StepState::Failed);
        let undone = |step: &Self| step.state_in(steps) != StepState::Done;
        // The recheck comes days later: it waits behind whatever is not done.
        let later = |step: &Self| *step != Self::Prepare && *step != Self::Recheck;
        let all = || Self::ALL.iter().copied();
        let in_hand = all().filter(later).find(begun).or_else(|| all().find(undone));
        in_hand.unwrap_or(Self::Recheck)
    }

    /// Where it stands; what nothing is said of is not begun.
    pub fn state_in(self, steps: &[(Self, StepState)]) -> StepState {
        steps.iter().find(|(step, _)| *step == self).map_or(StepState::Open, |(_, state)| *state)
    }
}
