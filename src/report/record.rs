//! What a report shows, folded from the events of one job.

use events::{
    Advice, Balance, Body, Event, JobResult, LinkChange, Precondition, Quantity, Request, Role, Seq, Sheet,
    Step, StepState, Utc, Verdict,
};
use serde::Serialize;
use units::{Celsius, Kelvins};

/// The record of one job.
#[derive(Debug, Serialize)]
pub struct Record {
    /// Its number in the journal.
    pub job: u64,
    /// The first and the last event it rests on.
    pub events: (Seq, Seq),
    /// When it began.
    pub started: Utc,
    /// When its result was written; absent while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ended: Option<Utc>,
    /// The sheet it began with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sheet: Option<Sheet>,
    /// The adapter and the protocol, as they were last.
    pub link: String,
    /// Temperature over time, one point every few seconds.
    pub temperature: Vec<Point>,
    /// Times in which the verdict was `go`, in seconds from the start.
    pub go: Vec<(f64, f64)>,
    /// Times in which the check port was open.
    pub port_open: Vec<(f64, f64)>,
    /// Steps as they ended.
    pub steps: Vec<StepLine>,
    /// What was told.
    pub told: Vec<ToldLine>,
    /// Preconditions that came to hold.
    pub held: Vec<Precondition>,
    /// The balance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub balance: Option<Balance>,
    /// The result.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub result: Option<JobResult>,
    /// Faults and losses of the link, in words.
    pub troubles: Vec<Trouble>,
    /// How many readings of the gating signal there were, and how old they were when they came, at worst.
    pub readings: (u32, u32),
}

/// A point of the temperature.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Point {
    /// Seconds from the start.
    pub seconds: f64,
    /// Best estimate.
    pub celsius: Celsius,
    /// Standard uncertainty.
    pub u: Kelvins,
}

/// A step and when it was done.
#[derive(Debug, Clone, Serialize)]
pub struct StepLine {
    /// Which.
    pub step: Step,
    /// How it ended.
    pub state: StepState,
    /// When.
    pub at: Utc,
}

/// Something told.
#[derive(Debug, Clone, Serialize)]
pub struct ToldLine {
    /// When.
    pub at: Utc,
    /// By whom.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<Role>,
    /// What.
    pub request: Request,
}

/// Something that went wrong on the way.
#[derive(Debug, Clone, Serialize)]
pub struct Trouble {
    /// When.
    pub at: Utc,
    /// What.
    pub what: String,
}

/// The plot has a point at most this often.
const POINT_EVERY_S: f64 = 5.0;

impl Record {
    /// Folds the events of one job, in order.
    pub fn fold(job: u64, events: &[Event]) -> Self {
        let first = events.first();
        let started = first.map_or(Utc::from_millis(0), |e| e.at);
        let seq = |e: Option<&Event>| e.map_or(Seq(0), |e| e.seq);
        let mut record = Self {
            job,
            events: (seq(first), seq(events.last())),
            started,
            ended: None,
            sheet: None,
            link: String::new(),
            temperature: Vec::new(),
            go: Vec::new(),
            port_open: Vec::new(),
            steps: Vec::new(),
            told: Vec::new(),
            held: Vec::new(),
            balance: None,
            result: None,
            troubles: Vec::new(),
            readings: (0, 0),
        };
        let mut spans = Spans::default();
        for event in events {
            record.take(event, &mut spans);
        }
        let last = events.last().map_or(0.0, |e| record.seconds(e));
        spans.end(&mut record, last);
        record
    }

    fn seconds(&self, event: &Event) -> f64 {
        (event.at.as_millis() - self.started.as_millis()) as f64 / 1_000.0
    }

    fn take(&mut self, event: &Event, spans: &mut Spans) {
        let seconds = self.seconds(event);
        if self.ended.is_some() {
            return;
        }
        match &event.body {
            Body::Job { sheet, .. } => self.sheet = Some((**sheet).clone()),
            Body::Estimate(e)
                if self.temperature.last().is_none_or(|p| seconds - p.seconds >= POINT_EVERY_S) =>
            {
                self.temperature.push(Point { seconds, celsius: e.celsius, u: e.u });
            }
            Body::Reading(r) if self.gating() == Some(r.measure.quantity()) => {
                self.readings = (self.readings.0.saturating_add(1), self.readings.1.max(r.age_ms));
            }
            Body::Verdict { verdict, .. } => spans.verdict(self, *verdict, seconds),
            Body::Told(told) => {
                spans.told(self, &told.request, seconds);
                self.told.push(ToldLine { at: event.at, by: told.by, request: told.request.clone() });
            }
            Body::Step { step, state, .. } if *state != StepState::Started => {
                self.steps.retain(|s| s.step != *step);
                self.steps.push(StepLine { step: *step, state: *state, at: event.at });
            }
            Body::Precondition { precondition, holds } => {
                self.held.retain(|p| p != precondition);
                if *holds {
                    self.held.push(*precondition);
                }
            }
            Body::Balance(balance) => self.balance = Some(*balance),
            Body::Link(change) => self.link(change, event.at),
            Body::Fault { fault, detail, from } => {
                let detail = detail.as_deref().unwrap_or_default();
                let from = from.as_ref().map_or(String::new(), |f| format!(" ({f})"));
                self.troubles
                    .push(Trouble { at: event.at, what: format!("{} {detail}{from}", fault.says()) });
            }
            Body::Result(result) => {
                self.result = Some(result.clone());
                self.ended = Some(event.at);
            }
            _ => {}
        }
    }

    fn link(&mut self, change: &LinkChange, at: Utc) {
        match change {
            LinkChange::Found { identity, .. } => self.link.clone_from(identity),
            LinkChange::Protocol { protocol, .. } => {
                let identity = self.link.split(", ").next().unwrap_or_default().to_owned();
                self.link =
                    if identity.is_empty() { protocol.clone() } else { format!("{identity}, {protocol}") };
            }
            LinkChange::Lost { detail } | LinkChange::VehicleSilent { detail } => {
                self.troubles.push(Trouble { at, what: detail.clone() });
            }
            LinkChange::Opening { .. }
            | LinkChange::Quirk { .. }
            | LinkChange::Rate { .. }
            | LinkChange::Said { .. } => {}
        }
    }

    fn gating(&self) -> Option<Quantity> {
        self.sheet.as_ref().map(|s| s.check.signal.quantity())
    }

    /// The one sentence a person reads first.
    pub fn headline(&self) -> &'static str {
        self.result.as_ref().map_or("The job is not ended.", |r| r.outcome.says())
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        match &self.result {
            Some(r) if r.outcome == events::Outcome::Set => Advice::Recheck.says(),
            Some(_) => Advice::SetAgain.says(),
            None => "",
        }
    }
}

/// Spans that are open while the events go by.
#[derive(Default)]
struct Spans {
    go: Option<f64>,
    port: Option<f64>,
}

impl Spans {
    fn verdict(&mut self, record: &mut Record, verdict: Verdict, seconds: f64) {
        match (verdict, self.go) {
            (Verdict::Go, None) => self.go = Some(seconds),
            (Verdict::Wait | Verdict::TooHot, Some(since)) => {
                record.go.push((since, seconds));
                self.go = None;
            }
            _ => {}
        }
    }

    fn told(&mut self, record: &mut Record, request: &Request, seconds: f64) {
        match (request, self.port) {
            (Request::Flowing | Request::NothingFlows, None) => self.port = Some(seconds),
            (Request::Closed, Some(since)) => {
                record.port_open.push((since, seconds));
                self.port = None;
            }
            _ => {}
        }
    }

    fn end(self, record: &mut Record, seconds: f64) {
        record.go.extend(self.go.map(|since| (since, seconds)));
        record.port_open.extend(self.port.map(|since| (since, seconds)));
    }
}
