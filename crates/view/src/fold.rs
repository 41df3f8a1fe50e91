//! The fold: what the daemon has said, and how old it is.
//!
//! In: lines of the socket, the loss of the connection, the time. Out: what is known. What a seat sees of it: `look`.

use std::collections::BTreeMap;

use events::{
    Balance, Body, Caution, Estimate, Event, Forecast, JobResult, Line, LinkChange, LinkView, Precondition,
    Quantity, Reading, Reason, Request, Said as EventsSaid, SelectorView, Seq, Sheet, Snapshot, Step,
    StepState, TopUp, Verdict, Word,
};
use units::Mono;

/// See the module's words.
#[derive(Debug, Clone)]
pub struct Fold {
    pub(crate) bay: String,
    pub(crate) connected: bool,
    pub(crate) heard: Mono,
    pub(crate) seq: Seq,
    pub(crate) state: Option<State>,
}

/// What was folded from a snapshot and the events after it.
#[derive(Debug, Clone)]
pub(crate) struct State {
    pub(crate) verdict: Verdict,
    pub(crate) reasons: Vec<Reason>,
    pub(crate) open: Vec<Precondition>,
    pub(crate) advice: EventsSaid,
    /// What people confirmed for the hands and holds now.
    pub(crate) held: Vec<Precondition>,
    pub(crate) estimate: Option<Estimate>,
    pub(crate) forecast: Forecast,
    pub(crate) forecast_at: Mono,
    pub(crate) job: Option<Job>,
    pub(crate) link: LinkView,
    pub(crate) sheet: Option<Box<Sheet>>,
    pub(crate) sheets: Vec<String>,
    pub(crate) read: BTreeMap<Quantity, Mono>,
    pub(crate) told: Option<(String, Mono)>,
    /// Another sheet was chosen.
    pub(crate) outdated: bool,
}

#[derive(Debug, Clone)]
pub(crate) struct Job {
    pub(crate) number: u64,
    pub(crate) steps: BTreeMap<Step, StepState>,
    pub(crate) port_open: bool,
    pub(crate) balance: Option<Balance>,
    pub(crate) result: Option<JobResult>,
    /// Nothing ran out at `go`: how much to fill before the next look.
    pub(crate) top_up: Option<TopUp>,
    /// Stop rules, until the engine stops or the port is closed.
    pub(crate) stops: Vec<Caution>,
    /// The selector's rounds as they were said last, and when.
    pub(crate) rounds: Option<(SelectorView, Mono)>,
}

impl Default for Fold {
    /// Nothing heard yet.
    fn default() -> Self {
        Self { bay: String::new(), connected: false, heard: Mono::ZERO, seq: Seq(0), state: None }
    }
}

impl Fold {
    /// Takes a line in, heard at `now`.
    pub fn hear(&mut self, line: &Line, now: Mono) {
        self.heard = now;
        match line {
            Line::Word(Word::Hello { bay, .. }) => {
                self.bay.clone_from(bay);
                self.connected = true;
            }
            Line::Word(Word::Snapshot(snapshot)) => {
                self.connected = true;
                self.seq = snapshot.seq;
                let told = self.state.take().and_then(|s| s.told);
                self.state = Some(State::new(snapshot, told, now));
            }
            Line::Word(Word::Bye { .. }) => self.lost(now),
            Line::Word(_) => {}
            Line::Event(event) => {
                self.seq = event.seq;
                if let Some(state) = &mut self.state {
                    state.take(event, now);
                }
            }
        }
    }

    /// The connection to the daemon is gone.
    pub fn lost(&mut self, now: Mono) {
        if self.connected {
            self.connected = false;
            self.heard = now;
        }
    }

    /// The last event that is in it: where to go on.
    pub fn seq(&self) -> Seq {
        self.seq
    }

    /// Whether another sheet was chosen, which only a new snapshot brings: connect anew.
    pub fn is_outdated(&self) -> bool {
        self.state.as_ref().is_some_and(|s| s.outdated)
    }

    /// The sheet of the running job, or the one for the next.
    pub fn sheet(&self) -> Option<&Sheet> {
        self.state.as_ref().and_then(|s| s.sheet.as_deref())
    }
}

impl State {
    fn new(snapshot: &Snapshot, told: Option<(String, Mono)>, now: Mono) -> Self {
        let mut state = Self {
            verdict: snapshot.verdict,
            reasons: snapshot.reasons.clone(),
            open: snapshot.job.as_ref().map_or(Vec::new(), |j| j.open.clone()),
            advice: EventsSaid {
                advice: snapshot.advice,
                under: snapshot.under,
                inside: snapshot.inside,
                millilitres: snapshot.millilitres,
                shims: snapshot.shims,
                rim: snapshot.rim,
                right: snapshot.right,
                asks: snapshot.asks,
            },
            held: snapshot.job.as_ref().map_or(Vec::new(), |j| j.held.clone()),
            estimate: snapshot.estimate,
            forecast: snapshot.forecast.unwrap_or_default(),
            forecast_at: now,
            job: snapshot.job.as_ref().map(|j| Job {
                number: j.job,
                steps: j.steps.iter().copied().collect(),
                port_open: j.port_open,
                balance: Some(j.balance),
                result: j.result.clone(),
                top_up: j.top_up,
                stops: j.stops.clone(),
                rounds: j.selector.clone().map(|s| (s, now)),
            }),
            link: snapshot.link.clone(),
            sheet: snapshot.sheet.clone(),
            sheets: snapshot.sheets.clone(),
            read: BTreeMap::new(),
            told,
            outdated: false,
        };
        for reading in &snapshot.readings {
            state.reading(reading, now);
        }
        state
    }

    fn take(&mut self, event: &Event, now: Mono) {
        match &event.body {
            Body::Link(change) => self.link(change),
            Body::Reading(reading) => self.reading(reading, now),
            Body::Estimate(estimate) => self.estimate = Some(*estimate),
            Body::Forecast(forecast) => self.expect(*forecast, now),
            Body::Verdict { verdict, reasons, open, opens_in, closes_in, read_again_in, .. } => {
                self.verdict = *verdict;
                self.reasons.clone_from(reasons);
                self.open.clone_from(open);
                if opens_in.is_some() || closes_in.is_some() || read_again_in.is_some() {
                    let back_in = self.forecast.back_in.filter(|_| *verdict == Verdict::TooHot);
                    let run_out = self.forecast.run_out;
                    let (opens_in, closes_in, read_again_in) = (*opens_in, *closes_in, *read_again_in);
                    self.expect(Forecast { opens_in, closes_in, back_in, read_again_in, run_out }, now);
                }
            }
            Body::Job { job, sheet, .. } => {
                self.sheet = Some(sheet.clone());
                self.told = None;
                self.held.clear();
                self.job = Some(Job {
                    number: *job,
                    steps: BTreeMap::new(),
                    port_open: false,
                    balance: None,
                    result: None,
                    top_up: None,
                    stops: Vec::new(),
                    rounds: None,
                });
            }
            Body::Step { step, state, .. } => {
                if let Some(job) = &mut self.job {
                    job.steps.insert(*step, *state);
                }
            }
            Body::Told(told) => self.told(&told.request, now),
            Body::Precondition { precondition, holds } => {
                self.open.retain(|p| p != precondition);
                let stopped = *precondition == Precondition::EngineRunning && !holds;
                if let Some(job) = self.job.as_mut().filter(|_| stopped) {
                    job.stops.retain(|c| *c == Caution::LostWhileOpen);
                }
                self.held.retain(|p| p != precondition);
                match (precondition.gates(), holds) {
                    (true, false) => self.open.push(*precondition),
                    (false, true) => self.held.push(*precondition),
                    _ => {}
                }
            }
            Body::Selector(rounds) => {
                if let Some(job) = &mut self.job {
                    job.rounds = Some((rounds.clone(), now));
                }
            }
            Body::Balance(balance) => {
                if let Some(job) = &mut self.job {
                    job.balance = Some(*balance);
                }
            }
            Body::Advice(said) => self.advice = *said,
            Body::Result(result) => {
                self.told = None;
                if let Some(job) = &mut self.job {
                    job.result = Some(result.clone());
                }
            }
            Body::TopUp(top_up) => {
                if let Some(job) = &mut self.job {
                    job.top_up = Some(*top_up);
                }
            }
            Body::Caution { caution } if caution.is_stop_rule() => {
                if let Some(job) = self.job.as_mut().filter(|j| !j.stops.contains(caution)) {
                    job.stops.push(*caution);
                }
            }
            Body::Boot { .. } | Body::Caution { .. } | Body::Fault { .. } | Body::Tilted { .. } => {}
        }
    }

    fn expect(&mut self, forecast: Forecast, now: Mono) {
        self.forecast = forecast;
        self.forecast_at = now;
    }

    fn reading(&mut self, reading: &Reading, now: Mono) {
        let quantity = reading.measure.quantity();
        if self.sheet.as_ref().is_some_and(|sheet| sheet.check.signal.quantity() == quantity) {
            (self.link.trouble, self.link.request) = (None, None);
        }
        let taken = now.as_millis().saturating_sub(u64::from(reading.age_ms));
        self.read.insert(quantity, Mono::from_millis(taken));
    }

    fn link(&mut self, change: &LinkChange) {
        match change {
            LinkChange::Found { identity, .. } => self.link.identity = Some(identity.clone()),
            LinkChange::Protocol { protocol, .. } => {
                self.link.up = true;
                self.link.protocol = Some(protocol.clone());
                self.link.detail = None;
                (self.link.trouble, self.link.request) = (None, None);
            }
            LinkChange::VehicleSilent { detail, .. } | LinkChange::Lost { detail } => {
                self.link.up = false;
                self.link.detail = Some(detail.clone());
                self.estimate = None;
                self.read.clear();
            }
            LinkChange::People => self.link = LinkView { people: true, ..LinkView::default() },
            LinkChange::Trouble { trouble, detail } => {
                (self.link.trouble, self.link.request) = (Some(*trouble), detail.clone());
            }
            _ => {}
        }
    }

    fn told(&mut self, request: &Request, now: Mono) {
        if let Some(job) = &mut self.job {
            match request {
                Request::Flowing
                | Request::NothingFlows
                | Request::Drips
                | Request::AtEdge
                | Request::BelowEdge { .. } => job.port_open = true,
                Request::Closed => {
                    job.port_open = false;
                    job.stops.retain(|c| *c != Caution::LostWhileOpen);
                }
                Request::Filled { .. } => job.top_up = None,
                _ => {}
            }
        }
        if let Request::Sheet { .. } | Request::Air { .. } = request {
            // The sheet itself comes with the next snapshot or job; until then nothing is drawn after the old one.
            self.sheet = None;
            self.outdated = true;
        }
        self.told = can_be_taken_back(request).map(|what| (what, now));
    }
}

/// What `undo` would take back, in words; the port's own happenings it never does.
fn can_be_taken_back(request: &Request) -> Option<String> {
    let words = |word: &str| word.replace('-', " ");
    Some(match request {
        Request::Confirm { what } => words(what.word()),
        Request::Level { .. } => "the measured level".to_owned(),
        Request::Drained { .. } | Request::Filled { .. } | Request::RanOut { .. } => {
            format!("the amount {}", words(request.word()))
        }
        Request::Gauge { .. } => "the reading of the gauge".to_owned(),
        Request::Symptom { .. } | Request::FluidLooks { .. } | Request::LeakAt { .. } => {
            words(request.word())
        }
        Request::Shifted { position } => format!("the selector in {position}"),
        Request::Trickle | Request::Drips | Request::Torqued | Request::TestDriven => words(request.word()),
        _ => return None,
    })
}

#[cfg(test)]
mod tests;
