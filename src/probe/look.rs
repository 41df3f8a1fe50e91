//! The look at one adapter, from the first byte to what was found. A machine without I/O and without a clock.
//!
//! In: bytes, the fate of the port, the time. Out: lines to write, what is wanted of the port ([`Want`]), and in the
//! end [`Found`]. It reads the gating signal as often as the line allows and counts readings, not exchanges.
//!
//! ```text
//!   Seeking ── the vehicle answers ──► Reading ── time over, and read lately ──► done
//!      │  ▲                              │  ▲           └─ or a little later, if a reading still comes
//!      └──┴── the port broke: once more ─┴──┘
//! ```
//!
//! Not here: I/O and clock (`probe.rs`), what it is worth (`worth.rs`), the words (`report.rs`).

use std::collections::BTreeMap;
use std::time::Duration;

use adapter::{Counts, Driver, Line, Outcome, Poll, Protocol, ResetSign, Schedule};
use events::{Measure, Party, Sheet, Trouble};
use frames::{Ask, Message};
use service::trouble;
use units::Mono;

use super::wire::Wire;
use super::worth::{Findings, Lost};

/// A vehicle that has not answered by then is reported as silent.
/// Own choice: three tries of a search with their pauses (docs/adapters.md); longer nobody waits.
const PATIENCE: Duration = Duration::from_secs(90);
/// A vehicle that is silent so often is: after that people are asked for the ignition.
/// Source: common practice: a second try after 5 s often finds what the first did not (report elmobd #29).
const TRIES: u32 = 3;
/// So long after the first reading the adapter is known, and its rate counts from then on.
/// Own choice: count digit and pauses are learnt by the third answer; their cost is none of the rate.
const WARM_UP: Duration = Duration::from_secs(2);
/// A reading as old as this at the end is one of the end.
/// Own choice: the daemon wants two a second, so three are missing.
const LATELY: Duration = Duration::from_millis(1_500);
/// If none came lately, one is waited for.
/// Own choice: the gate calls the last one stale after as long (docs/gate.md).
const GRACE: Duration = Duration::from_secs(5);
/// From a broken connection to the next try, and to the one after it. As many tries as there are pauses; then what was
/// found is told.
/// Own choice: the second connection fails on some adapters where it comes at once (report python-OBD #212), and some
/// are not themselves for the first seconds after they got their supply.
const REOPEN: [Duration; 2] = [Duration::from_secs(2), Duration::from_secs(6)];
/// A port that is away is looked for so often.
/// Own choice: a device comes back within seconds; looking costs a look into one folder.
const LOOK_AGAIN: Duration = Duration::from_secs(1);
/// A port that is gone is tried again for so long.
/// Own choice: a device that comes back under its name needs some seconds.
const COME_BACK: Duration = Duration::from_secs(10);
/// So many of the last things said are kept for a report that has to quote them.
/// Own choice: four exchanges; more nobody copies.
const LAST_SAID: usize = 8;

/// What is wanted of the port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Want {
    /// That it goes on.
    Nothing,
    /// That it is closed and opened again at this time.
    Reopen(Mono),
    /// Nothing more: it is over.
    Done,
}

/// What the vehicle answers on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Vehicle {
    /// The protocol's name.
    pub protocol: String,
    /// The control units that answered.
    pub control_units: Vec<String>,
}

/// Everything that was found.
#[derive(Debug, Default)]
pub struct Found {
    /// What the decision rests on.
    pub findings: Findings,
    /// What it calls itself.
    pub claims: Option<String>,
    /// What else it says of itself.
    pub description: Option<String>,
    /// The other chip family's name for it.
    pub family: Option<String>,
    /// What trying its commands has shown; none where the set-up did not come to an end.
    pub tested: Option<String>,
    /// The quirks that were named.
    pub quirks: Vec<adapter::Quirk>,
    /// How the vehicle answers.
    pub vehicle: Option<Vehicle>,
    /// The last voltage, mV.
    pub millivolts: Option<u32>,
    /// The latest value of the gating signal, by sender.
    pub latest: BTreeMap<String, Measure>,
    /// Particulars of what stood in the way.
    pub detail: Option<String>,
    /// The rate that the wire was raised to.
    pub raised: Option<u32>,
    /// The driver's counts, all connections together.
    pub counts: Counts,
    /// The last things said.
    pub last: Vec<String>,
}

/// See the module's words.
pub struct Look {
    driver: Driver,
    sheet: Sheet,
    ask: Ask,
    seconds: Duration,
    wire: Wire,
    found: Found,
    want: Want,
    began: Mono,
    /// When the reading ends; none before the vehicle answered.
    ends: Option<Mono>,
    first: Option<Mono>,
    last: Option<Mono>,
    /// Readings since the adapter was known.
    counted: u64,
    told: Lost,
    /// Since when the port could not be opened again.
    away: Option<Mono>,
    reopened: usize,
}

impl Look {
    /// A look at the adapter behind a port that is about to be opened, reading what `sheet` is gated on, or the coolant
    /// temperature.
    pub fn new(sheet: Option<&Sheet>, seconds: Duration, now: Mono) -> Self {
        let schedule = schedule(sheet);
        let ask = schedule.gating.map_or(COOLANT, |poll| poll.ask);
        let mut driver = Driver::new(schedule).thorough();
        if let Some(protocol) = sheet.and_then(service::protocol) {
            driver.remember(protocol);
        }
        Self {
            driver,
            sheet: sheet.cloned().unwrap_or_else(rehearsal::embedded::six_speed),
            ask,
            seconds,
            wire: Wire::default(),
            found: Found::default(),
            want: Want::Nothing,
            began: now,
            ends: None,
            first: None,
            last: None,
            counted: 0,
            told: Lost::default(),
            away: None,
            reopened: 0,
        }
    }

    /// What is read.
    pub const fn ask(&self) -> Ask {
        self.ask
    }

    /// The port is open, at a rate that can be changed or at none.
    pub fn handle_opened(&mut self, rate: Option<u32>, now: Mono) {
        self.keep_counts();
        (self.away, self.want) = (None, Want::Nothing);
        self.driver.handle_opened_at(rate, now);
    }

    /// The port could not be opened again.
    pub fn handle_not_opened(&mut self, now: Mono) {
        let since = *self.away.get_or_insert(now);
        self.want =
            if now.since(since) < COME_BACK { Want::Reopen(now.after(LOOK_AGAIN)) } else { Want::Done };
    }

    /// The port is gone.
    pub fn handle_closed(&mut self, now: Mono) {
        self.driver.handle_closed(now);
        self.hear_all(now);
    }

    /// Bytes came.
    pub fn handle_bytes(&mut self, bytes: &[u8], now: Mono) {
        self.wire.came(bytes);
        self.driver.handle_bytes(bytes, now);
        self.hear_all(now);
    }

    /// The time has come, or may have.
    pub fn handle_timeout(&mut self, now: Mono) {
        self.driver.handle_timeout(now);
        self.hear_all(now);
        if self.is_over(now) {
            self.want = Want::Done;
        }
    }

    /// The next line to write; call until `None`.
    pub fn poll_transmit(&mut self, now: Mono) -> Option<Line> {
        let line = self.driver.poll_transmit(now);
        if let Some(line) = &line {
            self.wire.sent(line);
        }
        self.hear_all(now);
        line
    }

    /// The rate that the port is to be set to.
    pub const fn poll_rate(&mut self) -> Option<u32> {
        self.driver.poll_rate()
    }

    /// When something is due if nothing comes before.
    pub fn poll_timeout(&self) -> Mono {
        let reopen = match self.want {
            Want::Reopen(at) => Some(at),
            Want::Nothing | Want::Done => None,
        };
        let limit = self.ends.map_or(self.began.after(PATIENCE), |end| end.after(GRACE));
        let end = self.ends.filter(|end| self.last.is_none_or(|last| last < *end));
        [self.driver.poll_timeout(), reopen, end, Some(limit)].into_iter().flatten().min().unwrap_or(limit)
    }

    /// What is wanted of the port.
    pub const fn want(&self) -> Want {
        self.want
    }

    fn is_over(&self, now: Mono) -> bool {
        match self.ends {
            None => now >= self.began.after(PATIENCE),
            Some(end) => (now >= end && self.read_lately(end)) || now >= end.after(GRACE),
        }
    }

    /// Whether there was a reading shortly before `end`, or after it.
    fn read_lately(&self, end: Mono) -> bool {
        self.last.is_some_and(|last| last.after(LATELY) >= end)
    }

    fn hear_all(&mut self, now: Mono) {
        while let Some(outcome) = self.driver.poll_outcome() {
            self.hear(outcome, now);
        }
    }

    fn hear(&mut self, outcome: Outcome, now: Mono) {
        match outcome {
            Outcome::Found { identity } => {
                self.found.tested = Some(identity.tested.to_string());
                (self.found.description, self.found.family) = (identity.description, identity.family);
            }
            Outcome::Rate { baud } => self.found.raised = Some(baud),
            Outcome::Voltage { millivolts, .. } => self.found.millivolts = Some(millivolts),
            Outcome::Connected { protocol, bus, control_units } => {
                let bus = bus
                    .map_or_else(|| "a bus that the adapter does not name".to_owned(), |bus| bus.to_string());
                let name = protocol.map(Protocol::name).map_or(bus, str::to_owned);
                let control_units = control_units.iter().map(ToString::to_string).collect();
                self.found.vehicle = Some(Vehicle { protocol: name, control_units });
                self.trouble(None, None);
                self.wire.take_answered();
                self.ends.get_or_insert(now.after(WARM_UP + self.seconds));
            }
            Outcome::VehicleSilent { detail, attempt, .. } => {
                let answered = self.wire.take_answered();
                let trouble = match trouble::searching(detail) {
                    Trouble::VehicleSilent if answered => Trouble::ProtocolUnknown,
                    trouble => trouble,
                };
                self.trouble(Some(trouble), None);
                let tries = if trouble.party() == Party::Adapter { TRIES - 1 } else { TRIES };
                if self.ends.is_none() && attempt >= tries {
                    self.want = Want::Done;
                }
            }
            Outcome::Answer { ask, messages, .. } if ask == self.ask => self.answer(&messages, now),
            Outcome::Declined { ask, header, code } if ask == self.ask => {
                self.told.refused += 1;
                self.lost(trouble::refused(code), header, Some(code.code));
            }
            Outcome::NoAnswer { ask, header, why } if ask == self.ask => {
                self.told.unanswered += 1;
                self.lost(trouble::unanswered(why), header, None);
            }
            Outcome::Suspect { ask, header, why } if ask == self.ask => {
                let trouble = trouble::doubt(why);
                let count = if trouble.party() == Party::Adapter {
                    &mut self.told.spoilt
                } else {
                    &mut self.told.undecodable
                };
                *count += 1;
                self.lost(trouble, header, None);
            }
            Outcome::Reset { sign } => {
                let trouble = trouble::reset(sign);
                let findings = &mut self.found.findings;
                findings.dips += u64::from(sign == ResetSign::LowVoltage);
                // What is not its own fault is not held against it.
                let own = trouble.party() == Party::Adapter && sign != ResetSign::LowVoltage;
                findings.resets += u64::from(own);
                self.trouble(Some(trouble), None);
            }
            Outcome::NotAnAdapter { why } => {
                let trouble = trouble::stranger(why);
                self.trouble(Some(trouble), None);
                self.broken(trouble == Trouble::Talk, now);
            }
            Outcome::Lost { why, .. } => {
                let trouble = trouble::lost(why);
                self.found.findings.cuts += u64::from(trouble == Trouble::PortGone);
                self.trouble(Some(trouble), None);
                self.broken(self.wire.bytes > 0, now);
            }
            _ => {}
        }
    }

    /// Contact is lost: once more from the start, where that may help.
    fn broken(&mut self, may_help: bool, now: Mono) {
        self.want = match REOPEN.get(self.reopened) {
            Some(pause) if may_help => {
                self.reopened += 1;
                Want::Reopen(now.after(*pause))
            }
            _ => Want::Done,
        };
    }

    /// An answer came, from one control unit or from several.
    fn answer(&mut self, messages: &[Message], now: Mono) {
        let mut read = false;
        for message in messages {
            if let Ok(Some(measure)) = service::reading(&self.sheet, self.ask, message) {
                let from = message.ecu.map(|ecu| ecu.to_string()).unwrap_or_default();
                self.found.latest.insert(from, measure);
                read = true;
            }
        }
        if !read {
            self.told.undecodable += 1;
            return self.lost(Trouble::Undecodable, None, None);
        }
        let first = *self.first.get_or_insert(now);
        if now >= first.after(WARM_UP) {
            self.counted += 1;
        }
        if let Some(last) = self.last.replace(now) {
            self.found.findings.hole = self.found.findings.hole.max(now.since(last));
        }
        self.found.findings.readings += 1;
        self.trouble(None, None);
    }

    /// A request brought nothing.
    fn lost(&mut self, trouble: Trouble, header: Option<adapter::Header>, code: Option<u8>) {
        self.told.by_the_adapter += u64::from(matches!(trouble.party(), Party::Adapter | Party::Link));
        let to = header.map_or_else(String::new, |header| format!(" to {header}"));
        let code = code.map_or_else(String::new, |code| format!(", code {code:02X}"));
        self.trouble(Some(trouble), Some(format!("{}{to}{code}", self.ask.hex())));
    }

    fn trouble(&mut self, trouble: Option<Trouble>, detail: Option<String>) {
        (self.found.findings.trouble, self.found.detail) = (trouble, detail);
    }

    /// The driver counts from the last opening.
    fn keep_counts(&mut self) {
        let (all, new) = (&mut self.found.counts, self.driver.counts());
        all.sent += new.sent;
        all.replies += new.replies;
        all.surplus += new.surplus;
        all.nuls += new.nuls;
        all.noise += new.noise;
        all.dropped += new.dropped;
        all.timed_out += new.timed_out;
        all.resyncs += new.resyncs;
        all.resets += new.resets;
        all.gating.asked += new.gating.asked;
        all.gating.again += new.gating.again;
    }

    /// What was found, at `now`.
    pub fn finish(mut self, now: Mono) -> Found {
        self.keep_counts();
        let in_flight = self.driver.asking().and_then(adapter::Command::ask) == Some(self.ask);
        let named = Some(&self.driver.identity().version).filter(|version| !version.is_empty()).cloned();
        let mut found = self.found;
        found.claims = named.or(self.wire.named);
        found.quirks = self.driver.quirks().iter().collect();
        let history = self.driver.history();
        let skip = history.iter().count().saturating_sub(LAST_SAID);
        found.last = history.iter().skip(skip).map(ToString::to_string).collect();

        let tries = found.counts.gating;
        let findings = &mut found.findings;
        let granted = findings.readings + tries.again;
        let asked = tries.asked.saturating_sub(u64::from(in_flight));
        findings.requests = asked.max(granted + self.told.all());
        // What was asked again without a word was damaged, or broken off.
        let again = findings.requests - granted - self.told.all();
        findings.lost = self.told;
        findings.lost.spoilt += again;
        findings.lost.by_the_adapter += again;

        findings.still_reading = self
            .ends
            .is_some_and(|end| now >= end && self.last.is_some_and(|last| last.after(LATELY) >= end));
        if let Some(last) = self.last.filter(|_| !findings.still_reading) {
            findings.hole = findings.hole.max(now.since(last));
        }
        findings.per_second = self.first.map_or(0.0, |first| {
            let known = now.since(first.after(WARM_UP)).as_secs_f64();
            if known >= 1.0 {
                self.counted as f64 / known
            } else {
                findings.readings as f64 / now.since(first).as_secs_f64().max(1.0)
            }
        });
        (findings.heard, findings.named) = (self.wire.bytes > 0, found.claims.is_some());
        (findings.set_up, findings.late) = (found.tested.is_some(), found.counts.timed_out);
        findings.first_lost = self.wire.first_lost;
        findings.nameless = found.quirks.contains(&adapter::Quirk::NoHeaders);
        if findings.trouble.is_none() && findings.readings == 0 && found.vehicle.is_some() {
            findings.trouble = Some(Trouble::UnitSilent);
        }
        found
    }
}

const COOLANT: Ask = Ask::Current(0x05);

/// The gating request of the sheet, or the coolant temperature, as often as the line allows; and once a long reply.
fn schedule(sheet: Option<&Sheet>) -> Schedule {
    let gating = sheet.and_then(|sheet| service::schedule(sheet).gating);
    let gating =
        gating.map_or(Poll::new(COOLANT, Duration::ZERO), |poll| Poll { every: Duration::ZERO, ..poll });
    let vin = Poll::new(Ask::VehicleInfo(0x02), Duration::ZERO);
    Schedule { gating: Some(gating), once: vec![vin], ..Schedule::default() }
}
