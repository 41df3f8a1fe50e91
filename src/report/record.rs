//! What a report shows, folded from the events of one job.

use events::{
    Balance, Body, Caution, Event, JobResult, LinkChange, Precondition, Quantity, Request, Role, Seq, Sheet,
    Snapshot, Step, StepState, Utc, Verdict,
};
use serde::Serialize;
use units::text::{UnitSystem, show_millilitres};
use units::{Celsius, Kelvins, Millilitres, Mono};

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

/// A photo beside the journal.
#[derive(Debug, Clone, Serialize)]
pub struct PhotoLine {
    /// What it was called.
    pub name: String,
    /// SHA-256 of the file.
    pub sha256: String,
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
    /// What.
    pub what: String,
}

/// What is said of a job without a result.
pub const RUNS: &str = "The job is not ended.";
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
    pub fn doubt(&mut self, what: String) {
        self.troubles.push(Trouble { at: self.ended.unwrap_or(self.started), what });
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
            Body::Job { sheet, .. } => {
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
            Body::Told(told) => {
                spans.teller = Some(told.by);
                match &told.request {
                    Request::Air { celsius } => {
                        // The band that counts is the one of the sheet in this air.
                        let begun = spans.begun.as_ref().map(|sheet| sheet.for_air(Some(*celsius)));
                        self.sheet = begun.or(self.sheet.take());
                    }
                    Request::Photo { sha256, name } => {
                        self.photos.push(PhotoLine { name: name.clone(), sha256: sha256.clone() });
                    }
                    _ => {}
                }
                self.told.push(ToldLine { at: event.at, by: told.by, request: told.request.clone() });
            }
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
                let detail = detail.as_deref().unwrap_or_default();
                let from = from.as_ref().map_or(String::new(), |f| format!(" ({f})"));
                self.troubles
                    .push(Trouble { at: event.at, what: format!("{} {detail}{from}", fault.says()) });
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
                self.troubles.push(Trouble { at, what: detail.clone() });
            }
            LinkChange::Opening { .. }
            | LinkChange::Quirk { .. }
            | LinkChange::Rate { .. }
            | LinkChange::Source { .. }
            | LinkChange::Vehicle { .. }
            | LinkChange::Said { .. } => {}
            // What cut the link is told above; what keeps a request from its answer is a fault of its own.
            LinkChange::Trouble { .. } => {}
        }
    }

    fn gating(&self) -> Option<Quantity> {
        self.sheet.as_ref().map(|sheet| sheet.check.signal.quantity())
    }

    /// The one sentence a person reads first.
    pub fn headline(&self, units: UnitSystem) -> String {
        let show = |v| show_millilitres(v, units);
        self.result.as_ref().map_or(RUNS.to_owned(), |r| r.headline(words::Lang::En, show))
    }

    /// What the hands should have confirmed and nobody told, and what of the sheet was guessed.
    pub fn untold(&self) -> Option<String> {
        let result = self.result.as_ref()?;
        let untold: Vec<&str> = result.untold.iter().map(|p| p.short()).collect();
        let parts = [("Not confirmed", untold.join(", ")), ("Guessed in the vehicle data", self.guessed())];
        let said: Vec<String> = parts
            .into_iter()
            .filter(|(_, what)| !what.is_empty())
            .map(|(of, what)| format!("{of}: {what}."))
            .collect();
        (!said.is_empty()).then(|| said.join(" "))
    }

    /// What was guessed, what it costs, and what would help most.
    fn guessed(&self) -> String {
        let named = self.result.as_ref().map_or(String::new(), |r| r.guessed.join(", "));
        let cost = self.result.as_ref().and_then(|r| Some((r.level_error.as_ref()?, r.guess_cost.as_ref()?)));
        if let Some((error, cost)) = cost {
            let most = cost.called().zip(cost.most_millilitres);
            let most = most
                .map_or(String::new(), |(called, ml)| format!("; most would help {called}: then ±{ml} mL"));
            return format!(
                "{named}. With them the level is ±{} mL, without ±{} mL{most}",
                error.expanded_millilitres, cost.without_millilitres
            );
        }
        let worth = self.sheet.as_ref().filter(|_| !named.is_empty()).and_then(job::worth);
        let Some((worth, most)) = worth.as_ref().and_then(|worth| Some((worth, worth.most()?))) else {
            return named;
        };
        format!(
            "{named}. With them the level is ±{:.0} mL at best, without ±{:.0} mL; most would help {}: then ±{:.0} mL",
            worth.expanded_ml, worth.known_ml, most.key, most.without_ml
        )
    }

    /// What to do next.
    pub fn next(&self, units: UnitSystem) -> String {
        let show = |v| show_millilitres(v, units);
        let Some(result) = &self.result else { return String::new() };
        match result.may_be_driven(words::Lang::En, show) {
            Some(may) => format!("{may} {}", result.next(words::Lang::En, show)),
            None => result.next(words::Lang::En, show),
        }
    }
}

/// Seconds since the first event, by the clock of the program, which nobody sets; civil time only bridges a restart,
/// and never backwards.
#[derive(Default)]
struct Elapsed {
    last: Option<(f64, Mono, Utc)>,
}

impl Elapsed {
    fn at(&mut self, event: &Event) -> f64 {
        let seconds = match self.last {
            None => 0.0,
            Some((seconds, mono, at)) => {
                let millis = if matches!(event.body, Body::Boot { .. }) || event.mono_ms < mono {
                    event.at.as_millis().saturating_sub(at.as_millis()).clamp(0, MOST_AWAY_MS) as f64
                } else {
                    event.mono_ms.since(mono).as_millis() as f64
                };
                seconds + millis / 1_000.0
            }
        };
        self.last = Some((seconds, event.mono_ms, event.at));
        seconds
    }
}

/// A pause between two readings that is worth a word.
/// Own choice: the gate calls a reading stale about then.
const PAUSE_S: f64 = 5.0;
/// A restart counts for no more than this.
/// Own choice: a clock that was set forward by a year makes no plot of a year.
const MOST_AWAY_MS: i64 = 24 * 3_600_000;

/// Spans that are open while the events go by.
#[derive(Default)]
struct Spans {
    /// Where the bay stands by then.
    known: Snapshot,
    go: Option<f64>,
    port: Option<f64>,
    /// When the last reading of the signal came.
    reading: Option<f64>,
    /// The sheet that the job began with.
    begun: Option<Sheet>,
    /// Who told the last thing, while nothing else has happened since.
    teller: Option<Option<Role>>,
}

impl Spans {
    fn verdict(&mut self, record: &mut Record, seconds: f64) {
        span(self.known.verdict == Verdict::Go, &mut self.go, &mut record.go, seconds);
    }

    fn port(&mut self, record: &mut Record, seconds: f64) {
        span(self.known.port_open(), &mut self.port, &mut record.port_open, seconds);
    }

    fn end(self, record: &mut Record, seconds: f64) {
        if let Some(job) = self.known.job {
            (record.vehicle, record.recheck_of, record.result) = (job.vehicle, job.recheck_of, job.result);
        }
        record.go.extend(self.go.map(|since| (since, seconds)));
        record.port_open.extend(self.port.map(|since| (since, seconds)));
    }
}

/// Goes on with a span while it holds, and ends it.
fn span(holds: bool, since: &mut Option<f64>, spans: &mut Vec<(f64, f64)>, seconds: f64) {
    match (holds, *since) {
        (true, None) => *since = Some(seconds),
        (false, Some(began)) => {
            spans.push((began, seconds));
            *since = None;
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::Advice;

    #[test]
    fn a_clock_that_is_set_changes_no_duration() {
        let hour = 3_600_000;
        let boot = || Body::Boot { boot: "a".to_owned(), version: "0".to_owned(), uptime: None };
        let quiet = || Body::Advice(Advice::StayClear.into());
        // What happens, civil time, the program's clock, seconds from the start.
        let cases: &[(&str, Body, i64, u64, f64)] = &[
            ("the first", quiet(), 10 * hour, 5_000, 0.0),
            ("ten seconds later", quiet(), 10 * hour + 10_000, 15_000, 10.0),
            ("the clock is set back an hour", quiet(), 9 * hour + 20_000, 25_000, 20.0),
            ("and forward two", quiet(), 11 * hour + 30_000, 35_000, 30.0),
            ("a restart after a minute", boot(), 11 * hour + 90_000, 0, 90.0),
            ("and on", quiet(), 11 * hour + 95_000, 5_000, 95.0),
            ("a restart with the clock set back", boot(), 3 * hour, 0, 95.0),
            ("a restart with the clock a year ahead", boot(), 9_000 * hour, 0, 95.0 + 86_400.0),
        ];
        let mut elapsed = Elapsed::default();
        for (n, (what, body, at, mono, want)) in cases.iter().enumerate() {
            let event = Event {
                seq: Seq(n as u64 + 1),
                at: Utc::from_millis(*at),
                mono_ms: Mono::from_millis(*mono),
                body: body.clone(),
            };
            assert!((elapsed.at(&event) - want).abs() < 1e-9, "{what}");
        }
    }
}
