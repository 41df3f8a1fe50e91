//! What the adapter's driver has to say, as events: replies, changes of the link, faults.
//!
//! In: outcomes of the driver. Out: events, and what the gate must know. Not here: who else is told what (`bay.rs`), bytes to
//! quantities (`translate.rs`).

use std::collections::BTreeMap;
use std::time::Duration;

use adapter::{Loss, Outcome, Protocol, ResetSign, Silence, Tried};
use events::{Body, Fault, LinkChange, Measure, Quantity, Reading, Trouble};
use frames::{Ask, Bus, DecodeError, Ecu, Message};

use super::codes::Codes;
use super::sources::{self, Unit, Weighed};
use super::turning::Worth;
use super::{Bay, Moment};
use crate::translate::{self, Value};
use crate::trouble;

impl Bay {
    pub(super) fn outcome(&mut self, outcome: Outcome, now: Moment) {
        match outcome {
            Outcome::Found { identity } => {
                self.watch.spoke();
                let lie = identity.tested.contradicts(&identity.version) && identity.family.is_none();
                let tested = lie.then(|| identity.tested.to_string());
                self.link_change(LinkChange::Found { identity: identity.version, tested }, now);
            }
            Outcome::Quirk(quirk) => {
                let change =
                    LinkChange::Quirk { quirk: quirk.word().to_owned(), says: quirk.says().to_owned() };
                self.link_change(change, now);
            }
            Outcome::Rate { baud } => self.link_change(LinkChange::Rate { baud }, now),
            Outcome::Connected { protocol, bus, control_units } => {
                self.connected(protocol, bus, &control_units, now);
            }
            Outcome::VehicleSilent { detail, tried, .. } => self.silent(detail, tried, now),
            Outcome::Avoided { command, header } => {
                let to = header.map_or_else(String::new, |header| format!(" to {header}"));
                self.fault(Fault::Avoided, &format!("{command}{to}"), None, now);
            }
            Outcome::Answer { ask: Ask::VehicleInfo(0x02), messages, .. } => self.vin(&messages, now),
            Outcome::Answer { ask, messages, .. } if Codes::are_asked_by(ask) => {
                self.codes_heard(ask, &messages, now);
            }
            Outcome::Answer { ask, header, sent, messages, .. } => {
                let asked = header.and_then(adapter::Header::answers_from);
                self.answer(ask, asked, now.mono.since(sent), &messages, now);
            }
            Outcome::Voltage { millivolts, .. } => self.voltage(millivolts, now),
            Outcome::Declined { ask, header, code } => {
                self.fault(Fault::Declined, &format!("{}: {code}", ask.hex()), None, now);
                let detail = format!("{}, code {:02X}", asked(ask, header), code.code);
                self.no_reading(ask, trouble::refused(code), detail, now);
            }
            Outcome::NoAnswer { ask, header, why } => {
                self.fault(Fault::NoAnswer, &format!("{}: {why}", ask.hex()), None, now);
                self.no_reading(ask, trouble::unanswered(why), asked(ask, header), now);
            }
            Outcome::Suspect { ask, header, why } => {
                self.no_reading(ask, trouble::doubt(why), asked(ask, header), now);
                if self.fault(Fault::Undecodable, &format!("{}: {why}", ask.hex()), None, now) {
                    self.quote(QUOTE_SHORT, now);
                }
            }
            Outcome::NotAnAdapter { why } => {
                self.fault(Fault::NotAnAdapter, &why.to_string(), None, now);
                self.lost(&why.to_string(), now);
                self.troubled(trouble::stranger(why), None, now);
                self.quote(QUOTE_LONG, now);
                self.watch.reopen();
            }
            Outcome::Reset { sign } => self.was_reset(sign, now),
            Outcome::Lost { why, .. } => self.given_up(why, now),
        }
    }

    fn connected(
        &mut self,
        protocol: Option<Protocol>,
        bus: Option<Bus>,
        control_units: &[Ecu],
        now: Moment,
    ) {
        if let Some(finder) = &mut self.finder {
            finder.connected(bus, control_units, now.mono);
        }
        let bus = bus.map_or_else(|| "a bus that the adapter does not name".to_owned(), |b| b.to_string());
        let protocol = protocol.map_or(bus, |p| p.name().to_owned());
        let control_units = control_units.iter().map(ToString::to_string).collect();
        self.link.read();
        self.link_change(LinkChange::Protocol { protocol, control_units }, now);
    }

    fn silent(&mut self, why: Silence, tried: Tried, now: Moment) {
        if let Some(finder) = &mut self.finder
            && matches!(why, Silence::NoProtocol | Silence::NoData)
        {
            finder.silent(now.mono);
        }
        let search = tried.search.then(|| "search".to_owned());
        let tried = search.into_iter().chain(tried.named().map(|p| p.name().to_owned())).collect();
        self.gate.link_lost(now.mono);
        self.link_change(LinkChange::VehicleSilent { detail: why.to_string(), tried }, now);
        self.troubled(trouble::searching(why), None, now);
    }

    fn voltage(&mut self, millivolts: u32, now: Moment) {
        let volts = i32::try_from(millivolts).ok().and_then(units::Millivolts::from_steps);
        if let Some(measure) = volts.map(Measure::AdapterVoltage) {
            self.emit(Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 }), now);
        }
    }

    /// The adapter lost its settings.
    fn was_reset(&mut self, sign: ResetSign, now: Moment) {
        let detail = format!("the adapter lost its settings and is set up again: {sign}");
        self.gate.link_lost(now.mono);
        self.link_change(LinkChange::Lost { detail }, now);
        self.troubled(trouble::reset(sign), None, now);
        self.quote(QUOTE_SHORT, now);
    }

    /// The driver says no more on this link.
    fn given_up(&mut self, why: Loss, now: Moment) {
        if let Some(finder) = &mut self.finder {
            finder.link_lost();
        }
        // Once is chance; after the second opening without a word only a hand helps.
        let times = if why == Loss::Silent { self.watch.was_silent() } else { 0 };
        let mute = times >= REPLUG;
        let hand = if mute { "; unplug it and plug it in again" } else { "" };
        self.lost(&format!("{why}{hand}"), now);
        let trouble = if mute { Trouble::AdapterMute } else { trouble::lost(why) };
        // Whoever closes in order to open again was told why before.
        if why != Loss::LinkClosed || !self.watch.closes_by_itself() {
            self.troubled(trouble, None, now);
        }
        self.quote(QUOTE_LONG, now);
        self.watch.reopen();
    }

    /// What is read is only repeated: from now on nobody sees the engine. A new link may help.
    fn repeats(&mut self, now: Moment) {
        self.lost("what the adapter answers is only repeated: the engine speed never moves", now);
        self.troubled(Trouble::Repeats, None, now);
        self.quote(QUOTE_LONG, now);
        self.watch.reopen();
    }

    /// One answer, of one control unit or of several: what they say of each quantity is weighed together.
    fn answer(&mut self, ask: Ask, asked: Option<Ecu>, age: Duration, messages: &[Message], now: Moment) {
        let age_ms = u32::try_from(age.as_millis()).unwrap_or(u32::MAX);
        let mut values = Vec::with_capacity(messages.len());
        for message in messages {
            self.read(ask, message, &mut values, now);
        }
        values.sort_by_key(|value| value.measure.quantity());
        for said in values.chunk_by(|one, other| one.measure.quantity() == other.measure.quantity()) {
            let Some(quantity) = said.first().map(|value| value.measure.quantity()) else { continue };
            let heard = self.vehicle.sources.hear(quantity, asked, said, now.mono);
            let counts = heard.counts;
            self.weighed(ask, quantity, heard, now);
            let Some(value) = said.iter().find(|value| Some(value.from) == counts) else { continue };
            if !self.job.in_other_vehicle() {
                let Value { from, measure, step } = *value;
                match self.vehicle.turning.worth(measure, now.mono) {
                    Worth::Evidence => {}
                    Worth::Turns => return self.repeats(now),
                    Worth::Repeated => {
                        self.troubled(Trouble::Repeats, None, now);
                        continue;
                    }
                }
                let from = from.map(|ecu| self.vehicle.name(ecu));
                self.emit(Body::Reading(Reading { measure, step, from, age_ms }), now);
            }
        }
    }

    /// What came of weighing the units of one answer: told, and passed on to the gate.
    fn weighed(&mut self, ask: Ask, quantity: Quantity, heard: Weighed, now: Moment) {
        let gating = quantity == self.plan.signal();
        if let Some((from, others)) = heard.decided
            && (!others.is_empty() || from.is_some_and(|unit| !unit.is_engine()))
        {
            let others = others.into_iter().map(sources::name).collect();
            self.link_change(LinkChange::Source { name: quantity, from: sources::name(from), others }, now);
        }
        if heard.instead_of.is_some() && gating {
            self.gate.source_changed();
        }
        if let Some(apart) = heard.apart {
            self.fault(Fault::UnitsDisagree, &format!("{quantity}: {apart}"), None, now);
        }
        if let Some(unit) = heard.two_faced {
            let detail = format!("{}: two answers at once that differ", ask.hex());
            self.fault(Fault::Undecodable, &detail, unit.map(|ecu| ecu.to_string()), now);
            self.no_reading(ask, Trouble::Undecodable, ask.hex().to_string(), now);
        }
        self.gate.disputed(self.vehicle.sources.disputed());
    }

    /// One answer with fault codes. The codes of another vehicle than the job's are nobody's.
    fn codes_heard(&mut self, ask: Ask, messages: &[Message], now: Moment) {
        if self.job.in_other_vehicle() {
            return;
        }
        let (mut answer, mut whole) = (Vec::new(), true);
        let mut ends: BTreeMap<Unit, bool> = BTreeMap::new();
        for message in messages {
            match translate::codes(ask, message) {
                Ok(said) => {
                    *ends.entry(message.ecu).or_default() |= said.ends;
                    answer.push((message.ecu, said.codes));
                }
                Err(e) => {
                    whole = false;
                    self.undecodable(ask, e, message.ecu.map(|ecu| ecu.to_string()), now);
                }
            }
        }
        let heard = self.vehicle.codes.hear(ask, &answer, whole && ends.into_values().all(|ends| ends));
        if heard.gone {
            self.gate.codes_cleared();
            self.vehicle.codes.all().for_each(|code| self.gate.code_stored(code));
        }
        // All of them, those too for which there is no room.
        answer.iter().flat_map(|(_, codes)| codes).for_each(|code| self.gate.code_stored(code));
        for (code, from) in heard.new {
            let from = from.map(|ecu| ecu.to_string());
            self.emit(Body::Fault { fault: Fault::CodeStored, detail: Some(code), from }, now);
        }
    }

    fn undecodable(&mut self, ask: Ask, why: DecodeError, from: Option<String>, now: Moment) {
        self.fault(Fault::Undecodable, &format!("{}: {why}", ask.hex()), from, now);
    }

    /// What one control unit's message says: its values are added, its faults are told.
    fn read(&mut self, ask: Ask, message: &Message, values: &mut Vec<Value>, now: Moment) {
        let from = || message.ecu.map(|ecu| ecu.to_string());
        let got = message.data.len();
        // Only a sheet says where its value stands: an answer of another length than before has it elsewhere.
        let open = self.plan.meaning().leaves_length_open(ask);
        if let Some(want) = open.then(|| self.vehicle.lengths.hear(ask, got)).flatten() {
            let detail = format!("{}: {got} bytes, otherwise {want}", ask.hex());
            self.fault(Fault::Undecodable, &detail, from(), now);
            return self.no_reading(ask, Trouble::Undecodable, ask.hex().to_string(), now);
        }
        if let Err(e) = self.plan.meaning().read(ask, message, values) {
            self.undecodable(ask, e, from(), now);
            let from = from().map_or_else(String::new, |from| format!(" from {from}"));
            self.no_reading(ask, Trouble::Undecodable, format!("{}{from}", ask.hex()), now);
        }
    }

    /// Which vehicle this is, by the engine's own unit: another one may carry another number, where it was replaced.
    fn vin(&mut self, messages: &[Message], now: Moment) {
        let mut engine = messages.iter().filter(|message| message.ecu.is_none_or(Ecu::is_engine));
        let read = engine.find_map(|message| translate::vin(&message.data));
        let Some(vin) = read else { return };
        if !self.vehicle.is(&vin) {
            return;
        }
        self.link_change(LinkChange::Vehicle { vin }, now);
        if self.job.in_other_vehicle() {
            // What was read since the adapter came back was of that one, too.
            self.gate.source_changed();
            self.gate.link_lost(now.mono);
        }
    }

    /// The request `ask` brought no reading. If it is the gating one and fails again and again in the same way, people are told
    /// why.
    fn no_reading(&mut self, ask: frames::Ask, trouble: Trouble, detail: String, now: Moment) {
        if self.plan.meaning().gates(ask) && self.link.unread(trouble) {
            self.troubled(trouble, Some(detail), now);
        }
    }

    /// Tells what keeps the signal from being read, when it becomes another.
    pub(super) fn troubled(&mut self, trouble: Trouble, detail: Option<String>, now: Moment) {
        if self.known.link.trouble != Some(trouble) {
            self.emit(Body::Link(LinkChange::Trouble { trouble, detail }), now);
        }
    }

    pub(super) fn lost(&mut self, why: &str, now: Moment) {
        self.gate.link_lost(now.mono);
        self.vehicle.lost();
        self.gate.disputed(false);
        self.link_change(LinkChange::Lost { detail: why.to_owned() }, now);
    }

    /// Tells a change of the link once; trying again in vain is no change.
    pub(super) fn link_change(&mut self, change: LinkChange, now: Moment) {
        if self.link.is_news(&change) {
            self.emit(Body::Link(change), now);
        }
    }

    /// The last things said on the link, where anything was said.
    fn quote(&mut self, moments: usize, now: Moment) {
        let history = self.driver.history();
        let skip = history.iter().count().saturating_sub(moments);
        let lines: Vec<String> = history.iter().skip(skip).map(ToString::to_string).collect();
        if !lines.is_empty() {
            self.emit(Body::Link(LinkChange::Said { lines }), now);
        }
    }

    /// Tells a fault, the same one at most once a minute; whether it was told.
    pub(super) fn fault(&mut self, fault: Fault, detail: &str, from: Option<String>, now: Moment) -> bool {
        let detail: String = detail.chars().take(DETAIL).collect();
        if !self.faults.is_news(fault, &detail, now.mono) {
            return false;
        }
        self.emit(Body::Fault { fault, detail: Some(detail), from }, now);
        true
    }
}

/// Which request, and to whom.
fn asked(ask: frames::Ask, header: Option<adapter::Header>) -> String {
    match header {
        Some(header) => format!("{} to {header}", ask.hex()),
        None => ask.hex().to_string(),
    }
}

/// So many openings in a row without a word from the adapter, and people are told to plug it in anew.
/// Own choice: the first may have come while the adapter woke; an adapter that serves one connection in each power-up
/// is silent ever after.
const REPLUG: u8 = 2;
/// So many moments of the link are quoted beside a reply that cannot be used, and beside a loss.
/// Own choice: a request with its reply and those before; six exchanges show what led to a loss, and all stay below 1
/// kB of the line.
const QUOTE_SHORT: usize = 4;
const QUOTE_LONG: usize = 12;
/// What is told of a fault has so many characters at most: it may quote what came over the wire.
/// Own choice: a row of the terminal and a half; a flood must not fill the journal.
const DETAIL: usize = 120;
