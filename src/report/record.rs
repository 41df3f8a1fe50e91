//! What a report shows, folded from the events of one job.

use std::collections::BTreeMap;

use events::{
    Balance, Body, Caution, Event, Fault, JobResult, LinkChange, Particular, Precondition, Quantity, Request,
    Role, Seq, Sheet, Sort, Step, StepState, Task, Told, Utc,
};
use serde::Serialize;
use units::{Celsius, Kelvins, Millilitres};

use super::spans::{Elapsed, Spans};

/// The record of one job.
#[derive(Debug, Serialize)]
pub struct Record {
    /// Its number in the journal.
    pub job: u64,
    /// The first and the last event it rests on.
    pub events: (Seq, Seq),
    /// What it was for.
    pub task: Task,
    /// When it began.
    pub started: Utc,
    /// When its result was written; absent while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ended: Option<Utc>,
    /// The sheet it began with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sheet: Option<Sheet>,
    /// The hash of what it said then: `standpipe sheet check` shows the same of the file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sheet_sha256: Option<String>,
    /// The adapter and the protocol, as they were last.
    pub link: String,
    /// Some of it was done without an adapter: what nobody signed, a person told all the same.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub people: bool,
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
    /// How good the readings of the gating signal were.
    pub quality: Quality,
    /// Which vehicle, where it was told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<String>,
    /// The vehicle's identification number, where it told it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vin: Option<String>,
    /// Particulars that were told for the report.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub particulars: BTreeMap<Particular, String>,
    /// Fault codes that the vehicle told.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub codes: Vec<CodeLine>,
    /// A recheck: of which job, and the two side by side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recheck_of: Option<u64>,
    /// What the first job left against what was found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub comparison: Option<Compared>,
    /// Photos that were told, under their hashes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<PhotoLine>,
    /// Cautions that were shown when their steps began.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Caution>,
    /// Stop rules that were shown.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub stops: Vec<StopLine>,
    /// The seal of the hash chain at the end of the job: what `standpipe jobs verify` computes anew.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seal: Option<String>,
}

/// How good the readings of the gating signal were.
#[derive(Debug, Clone, Copy, Default, Serialize)]
pub struct Quality {
    /// How many there were.
    pub readings: u32,
    /// How old one was when it came, at worst.
    pub age_ms: u32,
    /// Pauses of more than five seconds between two of them.
    pub pauses: u32,
    /// The longest of those, in seconds.
    pub longest_pause_seconds: f64,
    /// How often adapter or vehicle were lost.
    pub losses: u32,
    /// How often the program was started again.
    pub restarts: u32,
    /// The standard uncertainty at closing, where the port was closed with an estimate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u_at_closing: Option<Kelvins>,
}

/// What the first job left against what the recheck found; positive is too much.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Compared {
    /// What the first job left.
    pub left_millilitres: Millilitres,
    /// What was found.
    pub found_millilitres: Millilitres,
    /// Found less left.
    pub change_millilitres: Millilitres,
    /// Its expanded uncertainty, k = 2.
    pub expanded_millilitres: Millilitres,
    /// Whether that explains the change.
    pub agrees: bool,
}

/// A fault code that the vehicle told.
#[derive(Debug, Clone, Serialize)]
pub struct CodeLine {
    /// When it was told first in this job.
    pub at: Utc,
    /// The code.
    pub code: String,
    /// Which control unit stores it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// It was there before any hand had worked.
    pub before_the_work: bool,
}

/// A photo beside the journal.
#[derive(Debug, Clone, Serialize)]
pub struct PhotoLine {
    /// What it was called.
    pub name: String,
    /// SHA-256 of the file.
    pub sha256: String,
    /// The picture itself, as an address that needs no network; absent where its copy is gone or another.
    #[serde(skip)]
    pub picture: Option<String>,
}

/// A stop rule that was shown.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct StopLine {
    /// When.
    pub at: Utc,
    /// Which.
    pub caution: Caution,
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
    /// Who told it, where a person did and said who.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<Role>,
    /// Whether the vehicle brought it about by itself.
    pub by_vehicle: bool,
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
    /// What, in English.
    pub what: String,
    /// The same for people.
    #[serde(skip)]
    pub of: Went,
}

impl Trouble {
    /// A fault code: those stand in a list of their own.
    pub const fn is_a_code(&self) -> bool {
        matches!(self.of, Went::Fault(Fault::CodeStored, _))
    }
}

/// What went wrong, for people of any language. Particulars of an adapter stay as it said them.
#[derive(Debug, Clone)]
pub enum Went {
    /// A fault, with its particulars.
    Fault(Fault, String),
    /// The adapter was lost.
    Lost(String),
    /// The vehicle was silent.
    Silent(String),
    /// An event cannot be read.
    Unread(Seq, String),
    /// Events are not as they were written.
    Changed(Seq, Seq),
}

/// A pause between two readings that is worth a word.
/// Own choice: the gate calls a reading stale about then.
const PAUSE_S: f64 = 5.0;
/// The plot has a point at most this often.
/// Own choice: an hour has 720 points, one for each of the plot's 660 units of width.
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
            task: Task::default(),
            started,
            ended: None,
            sheet: None,
            sheet_sha256: None,
            link: String::new(),
            people: false,
            temperature: Vec::new(),
            go: Vec::new(),
            port_open: Vec::new(),
            steps: Vec::new(),
            told: Vec::new(),
            held: Vec::new(),
            balance: None,
            result: None,
            troubles: Vec::new(),
            quality: Quality::default(),
            vehicle: None,
            vin: None,
            particulars: BTreeMap::new(),
            codes: Vec::new(),
            recheck_of: None,
            comparison: None,
            photos: Vec::new(),
            cautions: Vec::new(),
            stops: Vec::new(),
            seal: None,
        };
        let mut spans = Spans::default();
        let mut elapsed = Elapsed::default();
        let mut last = 0.0;
        for event in events {
            let seconds = elapsed.at(event);
            if record.ended.is_none() {
                record.take(event, seconds, &mut spans);
                last = seconds;
            }
        }
        spans.end(&mut record, last);
        record
    }

    /// Says that something of the record is not what was written.
    pub fn doubt(&mut self, of: Went, what: String) {
        self.troubles.push(Trouble { at: self.ended.unwrap_or(self.started), what, of });
    }

    /// Sets a recheck beside the job it refers to.
    pub fn beside(&mut self, first: &JobResult) {
        let compared = self.result.as_ref().and_then(|result| job::compare(first, result));
        self.comparison = compared.map(|c| Compared {
            left_millilitres: c.left,
            found_millilitres: c.found,
            change_millilitres: c.change,
            expanded_millilitres: c.expanded,
            agrees: c.agrees,
        });
    }

    fn take(&mut self, event: &Event, seconds: f64, spans: &mut Spans) {
        spans.known.apply(event);
        spans.verdict(self, seconds);
        spans.port(self, seconds);
        // What follows at once upon something told was told; what readings bring about, the vehicle shows.
        if matches!(event.body, Body::Reading(_) | Body::Verdict { .. } | Body::Estimate(_)) {
            spans.teller = None;
        }
        match &event.body {
            Body::Job { sheet, task, .. } => {
                self.task = *task;
                self.sheet = Some((**sheet).clone());
                self.sheet_sha256 = Some(crate::sheet::hash::of(sheet));
                spans.begun.clone_from(&self.sheet);
            }
            Body::Boot { .. } => {
                self.quality.restarts = self.quality.restarts.saturating_add(1);
                spans.reading = None;
            }
            Body::Caution { caution } if caution.is_stop_rule() => {
                self.stops.push(StopLine { at: event.at, caution: *caution });
            }
            Body::Caution { caution } if !self.cautions.contains(caution) => self.cautions.push(*caution),
            Body::Estimate(e)
                if self.temperature.last().is_none_or(|p| seconds - p.seconds >= POINT_EVERY_S) =>
            {
                self.temperature.push(Point { seconds, celsius: e.celsius, u: e.u });
            }
            Body::Reading(r) if self.gating() == Some(r.measure.quantity()) => {
                let quality = &mut self.quality;
                quality.readings = quality.readings.saturating_add(1);
                quality.age_ms = quality.age_ms.max(r.age_ms);
                let pause = spans.reading.replace(seconds).map_or(0.0, |before| seconds - before);
                if pause > PAUSE_S {
                    quality.pauses = quality.pauses.saturating_add(1);
                    quality.longest_pause_seconds = quality.longest_pause_seconds.max(pause);
                }
            }
            Body::Told(told) => self.told(told, event.at, spans),
            Body::Step { step, state, judged } => {
                if *step == Step::Close {
                    self.quality.u_at_closing = judged.and_then(|j| j.u).or(self.quality.u_at_closing);
                }
                if *state != StepState::Started {
                    let (by, by_vehicle) = (spans.teller.flatten(), spans.teller.is_none() && !self.people);
                    self.steps.retain(|s| s.step != *step);
                    self.steps.push(StepLine { step: *step, state: *state, at: event.at, by, by_vehicle });
                }
            }
            Body::Precondition { precondition, holds } => {
                self.held.retain(|p| p != precondition);
                if *holds {
                    self.held.push(*precondition);
                }
            }
            Body::Balance(_) => self.balance = spans.known.job.as_ref().map(|job| job.balance),
            Body::Link(change) => self.link(change, event.at),
            Body::Fault { fault, detail, from } => {
                self.fault(*fault, detail.as_deref(), from.as_deref(), event.at)
            }
            Body::Found(found) if found.takes_over => {
                // The band is the same; what it is read by is another thing from here on.
                for sheet in [&mut self.sheet, &mut spans.begun].into_iter().flatten() {
                    *sheet = sheet.with_identifier(&found.identifier);
                }
            }
            Body::Result(_) => self.ended = Some(event.at),
            _ => {}
        }
    }

    fn told(&mut self, told: &Told, at: Utc, spans: &mut Spans) {
        spans.teller = Some(told.by);
        match &told.request {
            Request::Air { celsius } => {
                // The band that counts is the one of the sheet in this air.
                let begun = spans.begun.as_ref().map(|sheet| sheet.for_air(Some(*celsius)));
                self.sheet = begun.or(self.sheet.take());
            }
            Request::Photo { sha256, name } => {
                self.photos.push(PhotoLine { name: name.clone(), sha256: sha256.clone(), picture: None });
            }
            Request::Particular { what, text } => {
                self.particulars.insert(*what, text.clone());
            }
            _ => {}
        }
        self.told.push(ToldLine { at, by: told.by, request: told.request.clone() });
    }

    fn fault(&mut self, fault: Fault, detail: Option<&str>, from: Option<&str>, at: Utc) {
        let detail = detail.unwrap_or_default();
        let sender = from.map_or(String::new(), |f| format!(" ({f})"));
        if fault == Fault::CodeStored && !self.codes.iter().any(|c| c.code == detail) {
            // What a confirmation says is done before: the stands, the brake.
            let worked = |t: &ToldLine| {
                t.request.sort() == Sort::Works && !matches!(t.request, Request::Confirm { .. })
            };
            self.codes.push(CodeLine {
                at,
                code: detail.to_owned(),
                from: from.map(str::to_owned),
                before_the_work: !self.told.iter().any(worked),
            });
        }
        self.troubles.push(Trouble {
            at,
            what: format!("{} {detail}{sender}", fault.says()),
            of: Went::Fault(fault, format!("{detail}{sender}").trim().to_owned()),
        });
    }

    fn link(&mut self, change: &LinkChange, at: Utc) {
        match change {
            LinkChange::Found { identity, .. } => self.link.clone_from(identity),
            LinkChange::Protocol { protocol, .. } => {
                let identity = self.link.split(", ").next().unwrap_or_default().to_owned();
                self.link =
                    if identity.is_empty() { protocol.clone() } else { format!("{identity}, {protocol}") };
            }
            LinkChange::People => {
                self.people = true;
                "no adapter: everything was told by people".clone_into(&mut self.link);
            }
            LinkChange::Lost { detail } | LinkChange::VehicleSilent { detail, .. } => {
                self.quality.losses = self.quality.losses.saturating_add(1);
                let of = match change {
                    LinkChange::Lost { .. } => Went::Lost(detail.clone()),
                    _ => Went::Silent(detail.clone()),
                };
                self.troubles.push(Trouble { at, what: detail.clone(), of });
            }
            // The first one told counts: the gate lets nothing through while the adapter sits in another one.
            LinkChange::Vehicle { vin } => {
                self.vin.get_or_insert_with(|| vin.clone());
            }
            LinkChange::Opening { .. }
            | LinkChange::Quirk { .. }
            | LinkChange::Rate { .. }
            | LinkChange::Source { .. }
            | LinkChange::Said { .. } => {}
            // What cut the link is told above; what keeps a request from its answer is a fault of its own.
            LinkChange::Trouble { .. } => {}
        }
    }

    fn gating(&self) -> Option<Quantity> {
        self.sheet.as_ref().map(|sheet| sheet.check.signal.quantity())
    }
}
