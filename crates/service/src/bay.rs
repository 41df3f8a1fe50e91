//! One bay: adapter, gate and job joined, without I/O.
//!
//! In: bytes and the fate of the link, what people tell, the time. Out: bytes, and events with growing numbers.
//! It is the same object behind the daemon's loop and in a rehearsal in memory.
//!
//! Order inside one wake-up, always the same: replies become readings, readings make the estimate, the estimate
//! and the open preconditions make the verdict, the verdict moves the job, the job gives the advice.

mod codes;
mod faults;
mod heard;
mod lengths;
mod sources;
mod watch;

use std::collections::{BTreeMap, VecDeque};
use std::time::Duration;

use adapter::Driver;
use events::{
    Advice, Body, EngineWord, Event, Fault, Forecast, LinkChange, Quantity, Reading, Reason, Refusal,
    RunOutAhead, SeatAdvice, Seq, Sheet, Snapshot, Told, Utc, Verdict, Word,
};
use gate::{Gate, Judgement, Warming};
use job::{Job, VerdictNow};
use units::Mono;

use self::codes::Codes;
use self::faults::Faults;
use self::lengths::Lengths;
use self::sources::Sources;
use crate::shown::Shown;
use crate::translate;

pub use watch::TRIES_WITHIN;
use watch::{Stood, Watch};

/// Air that was told before a job counts for jobs that begin within this (own choice: a day warms faster than that).
const AIR_TOLD_FOR: Duration = Duration::from_secs(3_600);
/// Estimates are shown at most this often.
const ESTIMATE_EVERY: Duration = Duration::from_millis(1_000);
/// Forecasts are shown at most this often.
const FORECAST_EVERY: Duration = Duration::from_millis(5_000);
/// Two wake-ups by time alone are at least so far apart.
const LEAST_PAUSE: Duration = Duration::from_millis(1);
/// The job may take so many steps of its own in one wake-up; more would be a circle.
const FOLLOW_LIMIT: usize = 32;
/// A remark may have so many characters.
const TEXT_LIMIT: usize = 200;

/// A reading that a person told.
const fn typed(measure: events::Measure) -> Body {
    Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 })
}

/// Both times of an instant: one to decide by, one to write down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// Since the daemon's start.
    pub mono: Mono,
    /// Civil time.
    pub utc: Utc,
}

/// See the module's words.
pub struct Bay {
    sheet: Sheet,
    /// As it was chosen: the running job may have the band of a hot day.
    as_chosen: Sheet,
    /// The air outside as somebody told it before a job.
    air_told: Option<(units::Celsius, Mono)>,
    /// What can be chosen while no job runs.
    sheets: Vec<Sheet>,
    driver: Driver,
    gate: Gate,
    warmings: BTreeMap<String, Warming>,
    learned: Option<Warming>,
    /// There is no adapter: everything is told by people.
    people: bool,
    job: Job,
    now: Judgement,
    advice: Option<SeatAdvice>,
    /// What was said, as a client folds it.
    known: Snapshot,
    last_link: Option<LinkChange>,
    sources: Sources,
    lengths: Lengths,
    /// The vehicle that the adapter is plugged into, since the link came.
    vin: Option<String>,
    codes: Codes,
    faults: Faults,
    /// Why the gating request brings no reading, and how often in a row for the same reason.
    unread: Option<(events::Trouble, u8)>,
    shown: Option<Shown>,
    estimate_shown: Option<Mono>,
    forecast_shown: Option<(Mono, bool)>,
    run_out: Option<RunOutAhead>,
    watch: Watch,
    settled: Mono,
    /// When gate and job were asked the last time: what was due until then has been said.
    judged: Mono,
    /// Something happened since gate and job were last asked.
    stirred: bool,
    next: Seq,
    last_job: u64,
    out: VecDeque<Event>,
}

impl Bay {
    /// A bay for jobs after `sheet`, whose events are numbered from `next` on.
    pub fn new(sheet: Sheet, next: Seq, last_job: u64) -> Self {
        Self {
            driver: translate::driver(&sheet),
            gate: translate::gate(&sheet),
            warmings: BTreeMap::new(),
            learned: None,
            people: false,
            job: Job::default(),
            now: Judgement {
                verdict: Verdict::Wait,
                reasons: [Reason::NoReading].into_iter().collect(),
                estimate: None,
                forecast: None,
            },
            advice: None,
            known: Snapshot { sheet: Some(Box::new(sheet.clone())), ..Snapshot::default() },
            last_link: None,
            sources: Sources::new(&sheet),
            lengths: Lengths::default(),
            vin: None,
            codes: Codes::default(),
            faults: Faults::default(),
            unread: None,
            shown: None,
            estimate_shown: None,
            forecast_shown: None,
            run_out: None,
            watch: Watch::new(),
            settled: Mono::ZERO,
            judged: Mono::ZERO,
            stirred: true,
            next,
            last_job,
            out: VecDeque::new(),
            as_chosen: sheet.clone(),
            air_told: None,
            sheet,
            sheets: Vec::new(),
        }
    }

    /// The kind of vehicle, by its sheet's name.
    pub fn vehicle(&self) -> &str {
        &self.sheet.name
    }

    /// The protocol that this kind of vehicle had the last time; the first to be tried, unless the sheet names one.
    pub fn remember(&mut self, protocol: adapter::Protocol) {
        if translate::protocol(&self.sheet).is_none() {
            self.driver.remember(protocol);
        }
    }

    /// How vehicles warmed in earlier jobs, by their sheet's name: the forecasts of the next jobs begin with it.
    pub fn begin_with(&mut self, warmings: BTreeMap<String, Warming>) {
        self.warmings = warmings;
        if !self.job.is_running() {
            self.new_gate();
        }
    }

    /// What a job that has just ended learned of how its kind of vehicle warms; asking answers once.
    pub const fn poll_learned(&mut self) -> Option<Warming> {
        self.learned.take()
    }

    fn new_gate(&mut self) {
        let gate = translate::gate(&self.sheet);
        self.gate = match self.warmings.get(&self.sheet.name) {
            Some(warming) => gate.with_warming(warming),
            None => gate,
        };
        self.codes.all().for_each(|code| self.gate.code_stored(code));
    }

    /// The protocol in use.
    pub const fn protocol(&self) -> Option<adapter::Protocol> {
        self.driver.protocol()
    }

    /// The sheets that can be chosen while no job runs.
    #[must_use]
    pub fn with_sheets(mut self, sheets: Vec<Sheet>) -> Self {
        self.sheets = sheets;
        self
    }

    /// The same bay without any adapter: everything is told by people. `None` where its sheet goes by the engine's coolant,
    /// which nobody reads then; of the other sheets that can be chosen those are refused.
    #[must_use]
    pub fn without_adapter(mut self) -> Option<Self> {
        self.people = true;
        let sheet = self.sheet.by_people()?;
        self.take_sheet(sheet);
        self.known.link.apply(&LinkChange::People);
        Some(self)
    }

    /// Folds what an earlier daemon wrote of a job. A job that still runs keeps the sheet it began with.
    pub fn restore(&mut self, facts: &[Event]) {
        for event in facts {
            self.job.apply(event);
        }
        if let Some(sheet) = self.job.sheet().filter(|_| self.job.is_running()) {
            self.take_sheet(sheet.clone());
            self.codes.restore(facts);
            self.new_gate();
        }
    }

    /// The first event of every start.
    pub fn boot(&mut self, boot: &str, version: &str, now: Moment) {
        self.emit(Body::Boot { boot: boot.to_owned(), version: version.to_owned() }, now);
        if self.people {
            self.emit(Body::Link(LinkChange::People), now);
            // A job that was begun with an adapter goes on by a thermometer.
            if let Some(sheet) = self.job.sheet().filter(|_| self.job.is_running()) {
                self.take_sheet(sheet.clone());
            }
        }
    }

    /// Something in the journal is not what was written, and it does not tell so yet. A job whose record is not whole is ended: what
    /// came after a missing or changed fact rests on it, and nobody under a vehicle shall act by it.
    pub fn damaged(&mut self, what: &str, doubtful: bool, now: Moment) {
        self.emit(
            Body::Fault { fault: Fault::JournalDamaged, detail: Some(what.to_owned()), from: None },
            now,
        );
        if doubtful && self.job.is_running() {
            let why = "its record in the journal is not whole: close the check port, stop the engine, then begin a new job and tell again what was done";
            let request = events::Request::Abort { why: why.to_owned() };
            let id = format!("damaged-{}", self.next);
            self.tell(&Told { id, by: None, request }, now);
        }
    }

    /// Samples were not kept, because the disk took nothing for too long.
    pub fn left_out(&mut self, count: u64, first: Seq, last: Seq, now: Moment) {
        let what = format!("{count} readings and estimates between {first} and {last} were not kept");
        self.emit(Body::Fault { fault: Fault::JournalSlow, detail: Some(what), from: None }, now);
    }

    /// The port is being opened.
    pub fn opening(&mut self, device: &str, now: Moment) {
        if self.last_link.is_none() {
            self.link_change(LinkChange::Opening { device: device.to_owned() }, now);
        }
    }

    /// The port is open, at a rate that was found by trying, or at none.
    pub fn link_opened(&mut self, rate: Option<u32>, now: Moment) {
        self.driver.handle_opened_at(rate, now.mono);
        self.watch.opened(now.mono);
        self.stirred = true;
        self.settle(now);
    }

    /// The port is gone, or could not be opened.
    pub fn link_closed(&mut self, why: &str, now: Moment) {
        self.driver.handle_closed(now.mono);
        self.watch.closed(now.mono);
        self.lost(why, now);
        // A port that was never open has lost nothing: its driver says nothing of it.
        if self.known.link.trouble.is_none() && !self.watch.closes_by_itself() {
            self.troubled(events::Trouble::PortGone, None, now);
        }
        self.stirred = true;
        self.settle(now);
        self.watch.has_closed();
    }

    /// Bytes from the adapter.
    pub fn bytes(&mut self, bytes: &[u8], now: Moment) {
        self.driver.handle_bytes(bytes, now.mono);
        self.settle(now);
    }

    /// Called whenever the time in [`Self::deadline`] may have come; harmless at any time.
    pub fn wake(&mut self, now: Moment) {
        if !self.people && self.driver.poll_timeout().is_some_and(|at| now.mono >= at) {
            self.driver.handle_timeout(now.mono);
        }
        self.settle(now);
    }

    /// Something told. `accepted` names the event that must be durable before the answer is given.
    pub fn tell(&mut self, told: &Told, now: Moment) -> Word {
        if let Some(seq) = self.job.seq_of(told).filter(|_| self.still_holds(told)) {
            // Told before, over a connection that broke: the answer of then, and nothing done twice.
            let advice = self.advised().advice;
            return Word::Accepted { id: told.id.clone(), seq, advice };
        }
        match self.weigh(told, now) {
            Ok(bodies) => {
                let mut told_at = self.next;
                for body in bodies {
                    let is_told = matches!(body, Body::Told(_));
                    let seq = self.emit(body, now);
                    if is_told {
                        told_at = seq;
                    }
                }
                let seq = told_at;
                self.settle(now);
                let advice = self.advised().advice;
                Word::Accepted { id: told.id.clone(), seq, advice }
            }
            Err(reason) => {
                if let Some(kept) = self.job.refused(told, reason) {
                    self.emit(kept, now);
                    self.settle(now);
                }
                Word::Refused { id: Some(told.id.clone()), reason, says: reason.says().to_owned() }
            }
        }
    }

    /// Whether what was told before is still so: the sheet that was chosen is not, after a restart.
    fn still_holds(&self, told: &Told) -> bool {
        let events::Request::Sheet { name } = &told.request else { return true };
        self.job.is_running() || self.sheet.name == *name
    }

    fn weigh(&mut self, told: &Told, now: Moment) -> Result<Vec<Body>, Refusal> {
        use events::Request::{
            Abort, Air, Display, Engine, Filled, Lamp, Note, Recheck, Sheet as Choose, Spot, Start,
        };
        match &told.request {
            Abort { why: text } | Note { text } if text.chars().count() > TEXT_LIMIT => {
                return Err(Refusal::TooLong);
            }
            Choose { name } => return self.choose(told, name, now),
            _ => {}
        }
        // Which of its bands counts is decided as a job begins, by the air outside.
        let sheet = self.as_chosen.for_air(self.outside(now.mono));
        let mut bodies = self.job.decide(told, now.mono, now.utc, &sheet, &self.verdict_now())?;
        match told.request {
            // The number is the journal's to give.
            Start { .. } | Recheck { .. } => {
                self.sheet = sheet;
                // What the last job's gate had against the sensor is not held against this vehicle.
                self.codes.forget();
                self.new_gate();
                self.last_job += 1;
                for body in &mut bodies {
                    if let Body::Job { job, .. } = body {
                        *job = self.last_job;
                    }
                }
                // The adapter may have been plugged in before the job began.
                bodies.extend(self.vin.clone().map(|vin| Body::Link(LinkChange::Vehicle { vin })));
                // The job's own record says who its words are from.
                bodies.extend(self.people.then_some(Body::Link(LinkChange::People)));
            }
            Air { celsius } => match self.job.sheet_for_air(celsius) {
                Some(sheet) => {
                    // The engine has not run yet: the gate has nothing to forget.
                    self.sheet = sheet;
                    self.new_gate();
                }
                None => self.air_told = Some((celsius, now.mono)),
            },
            Engine { what, .. } => self.gate.engine_told(what == EngineWord::Idling, now.mono),
            Filled { .. } => self.gate.fluid_added(now.mono),
            Spot { celsius, surface } => bodies.push(typed(events::Measure::Spot(celsius, surface))),
            Display { celsius } => bodies.push(typed(events::Measure::Display(celsius))),
            Lamp { shows } => bodies.push(typed(events::Measure::Lamp(shows))),
            _ => {}
        }
        Ok(bodies)
    }

    /// Takes another of the sheets that there are, for jobs that begin from now on.
    fn choose(&mut self, told: &Told, name: &str, now: Moment) -> Result<Vec<Body>, Refusal> {
        if self.job.is_running() {
            return Err(Refusal::JobRunning);
        }
        let named = self.sheets.iter().find(|s| s.name == *name).ok_or(Refusal::NoSuchSheet)?;
        let sheet = if self.people { named.by_people().ok_or(Refusal::NeedsAdapter)? } else { named.clone() };
        if sheet != self.sheet {
            // Another identifier, another address: the adapter is set up anew, and nothing read before counts.
            self.take_sheet(sheet);
            if !self.people {
                self.lost("another sheet was chosen; the adapter is set up anew", now);
                self.watch.reopen();
            }
        }
        Ok(vec![Body::Told(told.clone())])
    }

    /// The next bytes for the adapter. What comes of choosing them, that there are none any more for example, is settled
    /// in the same call: ask [`Self::wants_reopen`] and [`Self::deadline`] after it.
    pub fn poll_bytes(&mut self, now: Moment) -> Option<Vec<u8>> {
        if self.people {
            return None;
        }
        let line = self.driver.poll_transmit(now.mono);
        if line.is_some() {
            self.watch.sent(now.mono);
        }
        self.settle(now);
        line.map(|line| line.as_bytes().to_vec())
    }

    /// The rate that the port is to be set to, once what was sent is out.
    pub const fn poll_rate(&mut self) -> Option<u32> {
        self.driver.poll_rate()
    }

    /// The next event.
    pub fn poll_event(&mut self) -> Option<Event> {
        self.out.pop_front()
    }

    /// When to wake it if nothing comes: always after the last wake-up, so that nobody can spin on it, and never later
    /// than [`TRIES_WITHIN`] after the last attempt to reach the adapter.
    pub fn deadline(&self) -> Option<Mono> {
        let adapter =
            [self.driver.poll_timeout(), Some(self.watch.due())].map(|at| at.filter(|_| !self.people));
        let own = [self.gate.next_deadline(), self.job.next_deadline(self.judged)];
        let first = own.into_iter().chain(adapter).flatten().min()?;
        Some(first.max(self.settled.after(LEAST_PAUSE)))
    }

    /// Whether the port should be closed and opened again; asking answers once.
    pub const fn wants_reopen(&mut self) -> bool {
        self.watch.take()
    }

    /// The folded state, after the last event that was taken out.
    pub fn snapshot(&self, now: Moment) -> Snapshot {
        let (verdict, reasons) = match &self.shown {
            Some(shown) => (shown.verdict, shown.reasons.clone()),
            None => (Verdict::Wait, vec![Reason::NoReading]),
        };
        Snapshot {
            seq: Seq(self.next.0.saturating_sub(1)),
            at: now.utc,
            verdict,
            reasons,
            said: self.advised(),
            estimate: self.now.estimate,
            forecast: self.now.forecast.map(|f| Forecast { run_out: self.run_out, ..f }),
            job: self.job.view(now.mono),
            sheet: Some(Box::new(self.sheet.clone())),
            sheets: self.sheets.iter().map(|s| s.name.clone()).collect(),
            ..self.known.clone()
        }
    }

    /// What is said to both seats.
    fn advised(&self) -> SeatAdvice {
        self.advice.unwrap_or_else(|| Advice::StartJob.into())
    }

    /// Takes in what the driver has made of the bytes, then judges until nothing moves any more.
    fn settle(&mut self, now: Moment) {
        self.settled = now.mono;
        while let Some(outcome) = self.driver.poll_outcome() {
            self.outcome(outcome, now);
            self.stirred = true;
        }
        if !self.people && self.watch.look(!self.driver.has_given_up(), now.mono) == Stood::Open {
            self.lost("nothing was said to the adapter for too long; its port is opened again", now);
        }
        if !self.stirred && !self.is_due(now.mono) {
            // Some bytes of a reply, or a timer of the driver's own: nothing that anybody could judge by.
            return;
        }
        self.judged = now.mono;
        for _ in 0..FOLLOW_LIMIT {
            self.judge(now);
            let verdict = self.verdict_now();
            let bodies = self.job.follow(now.mono, &verdict);
            if !bodies.is_empty() {
                for body in bodies {
                    self.emit(body, now);
                }
                continue;
            }
            // What is said may change what holds: who is sent below is not clear any more.
            let said = self.job.said(now.mono, &verdict);
            if self.advice == Some(said) {
                break;
            }
            self.advice = Some(said);
            self.emit(Body::Advice(said), now);
        }
        self.stirred = false;
    }

    /// Whether time alone may have changed what gate or job say.
    fn is_due(&self, now: Mono) -> bool {
        let own = [self.gate.next_deadline(), self.job.next_deadline(self.judged)];
        own.into_iter().flatten().any(|at| at <= now)
    }

    fn judge(&mut self, now: Moment) {
        let open = self.job.open(now.mono);
        let mut judged = self.gate.judge(now.mono, &open);
        if !self.job.is_running() {
            judged.verdict = Verdict::Wait;
            judged.reasons = judged.reasons.without(Reason::InBand).with(Reason::NoJob);
        }
        if self.job.is_running() && !self.job.is_gated() {
            // A look that asks for no temperature waits for all the rest.
            let open = if open.is_empty() { None } else { Some(Reason::PreconditionOpen) };
            judged.verdict = if open.is_none() { Verdict::Go } else { Verdict::Wait };
            judged.reasons = open.into_iter().chain([Reason::NoBand]).collect();
        }
        if self.job.in_other_vehicle() {
            judged.verdict = Verdict::Wait;
            judged.reasons = judged.reasons.without(Reason::InBand).with(Reason::OtherVehicle);
        }
        self.now = judged;
        self.show_estimate(now);
        let shown =
            Shown { verdict: self.now.verdict, reasons: self.now.reasons.to_vec(), open, at: now.mono };
        if self.shown.as_ref().is_none_or(|before| shown.is_news_after(before)) {
            let forecast = self.now.forecast.unwrap_or_default();
            let body = Body::Verdict {
                verdict: shown.verdict,
                reasons: shown.reasons.clone(),
                open: shown.open.clone(),
                celsius: self.now.estimate.map(|e| e.celsius),
                u: self.now.estimate.map(|e| e.u),
                opens_in: forecast.opens_in,
                closes_in: forecast.closes_in,
                read_again_in: forecast.read_again_in,
            };
            self.shown = Some(shown);
            self.emit(body, now);
        }
    }

    fn show_estimate(&mut self, now: Moment) {
        let due = |last: Option<Mono>, every| last.is_none_or(|at| now.mono >= at.after(every));
        if let Some(estimate) = self.now.estimate
            && due(self.estimate_shown, ESTIMATE_EVERY)
        {
            self.estimate_shown = Some(now.mono);
            self.emit(Body::Estimate(estimate), now);
        }
        let mut forecast = self.now.forecast.filter(|f| *f != Forecast::default());
        let was = self.forecast_shown.is_some_and(|(_, some)| some);
        let last = self.forecast_shown.map(|(at, _)| at);
        if was != forecast.is_some() || (forecast.is_some() && due(last, FORECAST_EVERY)) {
            self.run_out = forecast.and_then(|f| self.job.run_out(self.now.estimate, &f));
            if let Some(forecast) = &mut forecast {
                forecast.run_out = self.run_out;
            }
            self.forecast_shown = Some((now.mono, forecast.is_some()));
            self.emit(Body::Forecast(forecast.unwrap_or_default()), now);
        }
    }

    fn verdict_now(&self) -> VerdictNow {
        VerdictNow {
            verdict: self.now.verdict,
            estimate: self.now.estimate,
            forecast: self.now.forecast,
            reasons: self.now.reasons.to_vec(),
            // Where there is no adapter, none is lost.
            link_up: self.known.link.up || self.people,
        }
    }

    /// The air outside, where the vehicle shows it or somebody has told it of late; what the engine breathes in may be warm from the
    /// engine.
    fn outside(&self, now: Mono) -> Option<units::Celsius> {
        let shown = self.known.reading(Quantity::AmbientAirTemperature).and_then(|r| match r.measure {
            events::Measure::AmbientAir(celsius) => Some(celsius),
            _ => None,
        });
        let told = self.air_told.filter(|(_, at)| now.since(*at) < AIR_TOLD_FOR);
        shown.or(told.map(|(celsius, _)| celsius))
    }

    fn take_sheet(&mut self, sheet: Sheet) {
        // The band of a hot day goes with its job.
        if self.as_chosen.in_the_heat().as_ref() != Some(&sheet) {
            self.as_chosen = sheet.clone();
        }
        if sheet != self.sheet {
            self.driver = translate::driver(&sheet);
            self.lengths = Lengths::default();
            self.unread = None;
            self.known.link.read_again();
            self.sources = Sources::new(&sheet);
            self.known.sheet = Some(Box::new(sheet.clone()));
            self.sheet = sheet;
            self.new_gate();
        }
    }

    /// Numbers and times a body, folds it, and queues it.
    fn emit(&mut self, body: Body, now: Moment) -> Seq {
        let event = Event { seq: self.next, at: now.utc, mono_ms: now.mono, body };
        self.stirred = true;
        self.next = self.next.next();
        self.job.apply(&event);
        self.known.apply(&event);
        self.known.sheet.get_or_insert_with(|| Box::new(self.sheet.clone()));
        if let Body::Reading(reading) = &event.body {
            self.gate.observe(reading, now.mono);
            if self.sheet.check.signal.quantity() == reading.measure.quantity() {
                self.unread = None;
            }
        }
        if let (Body::Result(_), Some(warming)) = (&event.body, self.gate.warming()) {
            self.learned = Some(warming);
            self.warmings.insert(self.sheet.name.clone(), warming);
        }
        let seq = event.seq;
        self.out.push_back(event);
        seq
    }
}
