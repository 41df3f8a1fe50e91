//! One bay: adapter, gate and job joined, without I/O.
//!
//! In: bytes and the fate of the link, what people tell, the time. Out: bytes, and events with growing numbers.
//! It is the same object behind the daemon's loop and in a rehearsal in memory.
//!
//! Order inside one wake-up, always the same: replies become readings, readings make the estimate, the estimate
//! and the open preconditions make the verdict, the verdict moves the job, the job gives the advice.
//!
//! Here: the doors, and that order. What is remembered between two wake-ups stands in parts (`bay/`), each with its own doors.
//! Not here: what an outcome of the driver becomes (`bay/heard.rs`), what is told becomes (`bay/tell.rs`).

mod choice;
mod codes;
mod faults;
mod finder;
mod heard;
mod lengths;
mod link;
mod log;
mod plan;
mod relive;
mod shown;
mod sources;
mod tell;
mod turning;
mod vehicle;
mod wake;
mod warmth;
mod watch;

use std::collections::BTreeMap;

use adapter::Driver;
use events::{Body, Event, Fault, LinkChange, Reason, Seq, Sheet, Snapshot, Told, Utc, Verdict};
use gate::{Gate, Warming};
use job::{Job, VerdictNow};
use units::Mono;

use self::faults::Faults;
pub use self::finder::Finder;
use self::finder::Mine;
use self::link::Link;
use self::log::Log;
use self::plan::Plan;
use self::shown::Shown;
use self::vehicle::Vehicle;
use self::wake::Wake;
use self::warmth::Warmth;
use crate::clock::Machine;
use crate::translate;

pub use watch::TRIES_WITHIN;
use watch::{Stood, Watch};

/// The job may take so many steps of its own in one wake-up.
/// Own choice: one word of a person sets off some five; more would be a circle, and the loop must come back to the
/// line.
const FOLLOW_LIMIT: usize = 32;

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
    /// The sheet, and those that can be chosen.
    plan: Plan,
    driver: Driver,
    gate: Gate,
    job: Job,
    /// What the gate said last, as it counts for the job.
    now: VerdictNow,
    /// What was said, as a client folds it.
    known: Snapshot,
    shown: Shown,
    link: Link,
    vehicle: Vehicle,
    faults: Faults,
    warmth: Warmth,
    watch: Watch,
    wake: Wake,
    log: Log,
    /// The machine beside the daemon's clock.
    machine: Option<Machine>,
    /// Who gave the signal to the daemon before, until it is read again.
    gave: Option<Option<String>>,
    /// The search for the fluid's identifier, while one runs.
    finder: Option<Box<Finder>>,
    /// What the gate lacks.
    #[cfg(feature = "taken-out")]
    taken_out: Option<gate::Protection>,
}

impl Bay {
    /// A bay for jobs after `sheet`, whose events are numbered from `next` on.
    pub fn new(sheet: Sheet, next: Seq, last_job: u64) -> Self {
        Self {
            driver: translate::driver(&sheet),
            gate: translate::gate(&sheet),
            job: Job::default(),
            now: VerdictNow::default(),
            known: Snapshot { sheet: Some(Box::new(sheet.clone())), ..Snapshot::default() },
            shown: Shown::default(),
            link: Link::default(),
            vehicle: Vehicle::new(&sheet),
            faults: Faults::default(),
            warmth: Warmth::default(),
            watch: Watch::new(),
            wake: Wake::new(),
            log: Log::new(next, last_job),
            machine: None,
            gave: None,
            finder: None,
            #[cfg(feature = "taken-out")]
            taken_out: None,
            plan: Plan::new(sheet),
        }
    }

    /// The kind of vehicle, by its sheet's name.
    pub fn vehicle(&self) -> &str {
        &self.plan.sheet().name
    }

    /// The protocol that this kind of vehicle had the last time; the first to be tried, unless the sheet names one.
    pub fn remember(&mut self, protocol: adapter::Protocol) {
        if translate::protocol(self.plan.sheet()).is_none() {
            self.driver.remember(protocol);
        }
    }

    /// How vehicles warmed in earlier jobs, by their sheet's name: the forecasts of the next jobs begin with it.
    pub fn begin_with(&mut self, warmings: BTreeMap<String, Warming>) {
        self.warmth.begin_with(warmings);
        if !self.job.is_running() {
            self.new_gate();
        }
    }

    /// What a job that has just ended learned of how its kind of vehicle warms; asking answers once.
    pub const fn poll_learned(&mut self) -> Option<Warming> {
        self.warmth.take_learned()
    }

    /// The same bay, its gates without this protection.
    #[cfg(feature = "taken-out")]
    #[must_use]
    pub fn without(mut self, protection: Option<gate::Protection>) -> Self {
        self.taken_out = protection;
        self.new_gate();
        self
    }

    fn new_gate(&mut self) {
        let sheet = self.plan.sheet();
        let gate = translate::gate(sheet);
        self.gate = match self.warmth.of(&sheet.name) {
            Some(warming) => gate.with_warming(warming),
            None => gate,
        };
        #[cfg(feature = "taken-out")]
        if let Some(protection) = self.taken_out {
            self.gate = self.gate.clone().without(protection);
        }
        self.vehicle.codes.all().for_each(|code| self.gate.code_stored(code));
    }

    /// What the check goes by.
    pub(crate) fn gated_on(&self) -> events::Quantity {
        self.plan.signal()
    }

    /// The protocol in use.
    pub const fn protocol(&self) -> Option<adapter::Protocol> {
        self.driver.protocol()
    }

    /// The sheets that can be chosen while no job runs.
    #[must_use]
    pub fn with_sheets(mut self, sheets: Vec<Sheet>) -> Self {
        self.plan.offer(sheets);
        self
    }

    /// Searches for the fluid's identifier beside whatever else it does. `without_sheet`: the sheet that the bay was made with
    /// describes no vehicle, so no job can be begun.
    pub fn find(&mut self, finder: Finder, without_sheet: bool) {
        let found = finder.found().filter(|found| found.takes_over).map(|found| found.identifier.clone());
        self.finder = Some(Box::new(finder));
        if let Some(identifier) = found {
            self.plan.take_identifier(&identifier);
            self.read_by_the_sheet();
        }
        if without_sheet {
            self.plan.describes_nothing();
            self.known.sheet = None;
        }
    }

    /// The search that runs, if one does.
    pub fn finder(&mut self) -> Option<&mut Finder> {
        self.finder.as_deref_mut()
    }

    /// The same bay without any adapter: everything is told by people. `None` where its sheet goes by the engine's coolant,
    /// which nobody reads then; of the other sheets that can be chosen those are refused.
    #[must_use]
    pub fn without_adapter(mut self) -> Option<Self> {
        self.plan.by_people();
        let sheet = self.plan.sheet().by_people()?;
        self.take_sheet(sheet);
        self.known.link.apply(&LinkChange::People);
        self.now.link_up = true;
        Some(self)
    }

    /// The machine, by whose clock the readings of an earlier daemon have a time.
    pub fn on_machine(&mut self, machine: Option<Machine>) {
        self.machine = machine;
    }

    /// Folds what an earlier daemon wrote of a job. A job that still runs keeps the sheet it began with, and the gate what was
    /// read in it, where it is known how long ago that was.
    pub fn restore(&mut self, facts: &[Event], readings: &[Event], now: Moment) {
        for event in facts {
            self.job.apply(event);
        }
        if let Some(sheet) = self.job.sheet().filter(|_| self.job.is_running()) {
            self.take_sheet(sheet.clone());
            self.vehicle.codes.restore(facts);
            self.new_gate();
            self.relive(facts, readings, now);
        }
    }

    /// The first event of every start.
    pub fn boot(&mut self, boot: &str, version: &str, now: Moment) {
        self.watch.begins(now.mono);
        let uptime = self.machine.as_ref().and_then(|machine| machine.uptime(now.mono));
        self.emit(Body::Boot { boot: boot.to_owned(), version: version.to_owned(), uptime }, now);
        if self.plan.is_by_people() {
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
            let id = format!("damaged-{}", self.log.next());
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
        if self.link.is_unheard_of() {
            self.link_change(LinkChange::Opening { device: device.to_owned() }, now);
        }
    }

    /// The port is open, at a rate that was found by trying, or at none.
    pub fn link_opened(&mut self, rate: Option<u32>, now: Moment) {
        self.driver.handle_opened_at(rate, now.mono);
        self.watch.opened(now.mono);
        self.wake.stir();
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
        self.wake.stir();
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
        if !self.plan.is_by_people() && self.driver.poll_timeout().is_some_and(|at| now.mono >= at) {
            self.driver.handle_timeout(now.mono);
        }
        self.take_what_is_offered(now);
        self.settle(now);
    }

    /// The next bytes for the adapter. What comes of choosing them, that there are none any more for example, is settled
    /// in the same call: ask [`Self::wants_reopen`] and [`Self::deadline`] after it.
    pub fn poll_bytes(&mut self, now: Moment) -> Option<Vec<u8>> {
        if self.plan.is_by_people() {
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
        self.log.pop()
    }

    /// When to wake it if nothing comes: always after the last wake-up, so that nobody can spin on it, and never later
    /// than [`TRIES_WITHIN`] after the last attempt to reach the adapter.
    pub fn deadline(&self) -> Option<Mono> {
        let finder = self.finder.as_ref().and_then(|finder| finder.due());
        let adapter = [self.driver.poll_timeout(), Some(self.watch.due()), finder]
            .map(|at| at.filter(|_| !self.plan.is_by_people()));
        let first = self.own_deadlines().into_iter().chain(adapter).flatten().min()?;
        Some(self.wake.not_at_once(first))
    }

    /// Whether the port should be closed and opened again; asking answers once.
    pub const fn wants_reopen(&mut self) -> bool {
        self.watch.take()
    }

    /// The folded state, after the last event that was taken out.
    pub fn snapshot(&self, now: Moment) -> Snapshot {
        let (verdict, reasons) = self.shown.verdict();
        Snapshot {
            seq: self.log.last(),
            at: now.utc,
            verdict,
            reasons,
            said: self.shown.advice(),
            estimate: self.now.estimate,
            forecast: self.now.forecast.map(|f| self.shown.with_run_out(f)),
            job: self.job.view(now.mono),
            sheet: self.plan.shown().map(|sheet| Box::new(sheet.clone())),
            sheets: self.plan.names(),
            ..self.known.clone()
        }
    }

    /// Takes in what the driver has made of the bytes, then judges until nothing moves any more.
    fn settle(&mut self, now: Moment) {
        while let Some(outcome) = self.driver.poll_outcome() {
            if self.finder.as_mut().is_some_and(|finder| finder.hear(&outcome, now.mono) == Mine::Yes) {
                continue;
            }
            self.outcome(outcome, now);
            self.wake.stir();
        }
        self.search(now);
        let given_up = self.driver.has_given_up();
        if !self.plan.is_by_people() && self.watch.look(!given_up, now.mono) == Stood::Open {
            self.lost("nothing was said to the adapter for too long; its port is opened again", now);
        }
        let stirred = self.wake.woken(now.mono);
        if !stirred && !self.own_deadlines().into_iter().flatten().any(|at| at <= now.mono) {
            // Some bytes of a reply, or a timer of the driver's own: nothing that anybody could judge by.
            return;
        }
        self.wake.asks(now.mono);
        for _ in 0..FOLLOW_LIMIT {
            self.judge(now);
            let bodies = self.job.follow(now.mono, &self.now);
            if !bodies.is_empty() {
                for body in bodies {
                    self.emit(body, now);
                }
                continue;
            }
            // What is said may change what holds: who is sent below is not clear any more.
            let Some(advice) = self.shown.tell_advice(self.job.said(now.mono, &self.now)) else { break };
            self.emit(advice, now);
        }
        self.wake.rests();
    }

    /// The search goes on: what is news of it, and its next request.
    fn search(&mut self, now: Moment) {
        let Some(finder) = &mut self.finder else { return };
        if !self.driver.has_aside() {
            finder.not_taken();
            if let Some((ask, header)) = finder.wish(now.mono)
                && !self.driver.ask_aside(ask, Some(header))
            {
                finder.not_taken();
            }
        }
        for body in finder.poll(now.mono) {
            self.emit(body, now);
        }
    }

    /// When time alone may change what gate and job say.
    fn own_deadlines(&self) -> [Option<Mono>; 2] {
        [self.gate.next_deadline(), self.job.next_deadline(self.wake.judged())]
    }

    /// Asks the gate, and tells what is news of it.
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
        let VerdictNow { verdict, estimate, forecast, reasons, .. } = &mut self.now;
        (*verdict, *estimate, *forecast) = (judged.verdict, judged.estimate, judged.forecast);
        reasons.clear();
        reasons.extend_from_slice(&judged.reasons);
        if let Some(estimate) = self.shown.tell_estimate(judged.estimate, now.mono) {
            self.emit(estimate, now);
        }
        let run_out = |forecast: &_| self.job.run_out(judged.estimate, forecast);
        if let Some(forecast) = self.shown.tell_forecast(judged.forecast, run_out, now.mono) {
            self.emit(forecast, now);
        }
        if let Some(verdict) = self.shown.tell_verdict(&judged, open, now.mono) {
            self.emit(verdict, now);
        }
    }

    fn take_sheet(&mut self, sheet: Sheet) {
        if self.plan.take(sheet) {
            self.read_by_the_sheet();
        }
    }

    /// Another identifier, another address: the adapter is set up anew, and nothing read before counts.
    fn read_by_the_sheet(&mut self) {
        let sheet = self.plan.sheet();
        self.driver = translate::driver(sheet);
        self.vehicle.read_by(sheet);
        self.link.read();
        self.known.link.read_again();
        self.known.sheet = Some(Box::new(sheet.clone()));
        self.new_gate();
    }

    /// Numbers and times a body, folds it, and queues it.
    fn emit(&mut self, body: Body, now: Moment) -> Seq {
        let event = self.log.event(body, now);
        self.wake.stir();
        self.job.apply(&event);
        self.known.apply(&event);
        // Where there is no adapter, none is lost.
        self.now.link_up = self.known.link.up || self.plan.is_by_people();
        if let Some(sheet) = self.plan.shown() {
            self.known.sheet.get_or_insert_with(|| Box::new(sheet.clone()));
        }
        if let Some(finder) = &mut self.finder {
            match &event.body {
                Body::Reading(reading) => finder.reading(reading, now.mono),
                Body::Link(LinkChange::Vehicle { vin }) => finder.vehicle(vin),
                _ => {}
            }
        }
        if let Body::Reading(reading) = &event.body {
            self.read_again(reading);
            self.gate.observe(reading, now.mono);
            if self.plan.signal() == reading.measure.quantity() {
                self.link.read();
            }
        }
        if let (Body::Result(_), Some(warming)) = (&event.body, self.gate.warming()) {
            self.warmth.learn(&self.plan.sheet().name, warming);
        }
        let seq = event.seq;
        self.log.push(event);
        seq
    }
}
