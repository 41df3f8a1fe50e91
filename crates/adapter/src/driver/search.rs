//! Looking for the vehicle: which protocol, which control units, and whether they really answer.
//!
//! Connected means that some control unit answered `0100` with `41 00`, and nothing less (complaints 6 and 15 of the
//! reference). In: replies. Out: `Connected`, or `VehicleSilent` and a pause. Method: section 5 of the dialect reference.

use std::time::Duration;

use frames::{Ask, Bus, Headers, Layout, NegativeReply, Status};
use units::Mono;

use super::setup::Flag;
use super::{Driver, Exchange, Goal, Phase, Purpose, Timer, judge};
use crate::codec::{Echo, Reply};
use crate::command::{Command, Line, Protocol, Setup};
use crate::outcome::{Outcome, Silence};
use crate::quirk::Quirk;

/// One exchange of the search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stage {
    /// Which protocol to try: the known one, or all.
    Protocol,
    /// `0100`: nothing happens before the first request.
    Ask,
    /// `ATDPN`: which protocol was it?
    Number,
}

/// What is known of the vehicle.
#[derive(Debug, Default)]
pub(super) struct Search {
    /// The protocol that answered the last time.
    known: Option<Protocol>,
    /// Whether the known one was tried in this attempt.
    trying_known: bool,
    /// Attempts in a row without an answer.
    attempts: u32,
    /// The reply to `0100`, until its form is known.
    text: Vec<u8>,
    /// Whether this stage was already repeated.
    repeated: bool,
    /// How many replies of this attempt had no prompt.
    lost: u8,
    /// The set-up is done again before the next attempt.
    set_up_again: bool,
    pub(super) layout: Option<Layout>,
    in_use: Option<Protocol>,
}

/// What every vehicle answers.
const FIRST: Ask = Ask::Current(0x00);
/// A search tries all protocols; a known one with a slow start takes 2 to 3 s.
const ALL: Duration = Duration::from_secs(30);
const ONE: Duration = Duration::from_secs(10);
/// So many replies without a prompt in one attempt are too many.
const LOST: u8 = 4;
/// From a failed attempt to the next: an immediate second try fails on some pairs of vehicle and adapter.
const RETRY: &[Duration] = &[Duration::from_secs(5), Duration::from_secs(5), Duration::from_secs(10)];

impl Search {
    pub(super) fn remember(&mut self, protocol: Protocol) {
        self.known = Some(protocol);
    }

    pub(super) const fn protocol(&self) -> Option<Protocol> {
        self.in_use
    }

    /// What the next attempt begins with.
    pub(super) const fn begin(&self) -> Phase {
        if self.set_up_again { Phase::SettingUp { step: 0 } } else { Phase::Searching(Stage::Protocol) }
    }

    /// A new link: perhaps another vehicle, so a protocol found before is only the first guess.
    pub(super) fn reopened(&mut self) {
        *self = Self { known: self.in_use.or(self.known), ..Self::default() };
    }
}

impl Driver {
    pub(super) fn search_transmit(&mut self, stage: Stage, now: Mono) -> Line {
        let purpose = Purpose::Search(stage);
        match stage {
            Stage::Protocol => {
                // After a failure with the known one, all are tried, and so on by turns.
                let known = self.search.known.filter(|_| self.search.attempts.is_multiple_of(2));
                self.search.trying_known = known.is_some();
                let setup = known.map_or(Setup::Search, Setup::Try);
                self.send(Command::Set(setup), purpose, self.setting_limit(), now)
            }
            Stage::Ask => {
                let limit = if self.search.trying_known { ONE } else { ALL };
                self.send(Command::Read(FIRST), purpose, limit, now)
            }
            Stage::Number => {
                self.send(Command::Set(Setup::ProtocolNumber), purpose, self.setting_limit(), now)
            }
        }
    }

    pub(super) fn search_reply(
        &mut self,
        stage: Stage,
        exchange: &Exchange,
        reply: &Reply,
        echo: Echo,
        now: Mono,
    ) {
        if let Some(quirk) = self.settings.accept_form(reply, echo) {
            self.note(quirk);
        }
        let next = match stage {
            Stage::Protocol => {
                let refused = reply.lines().any(|line| frames::status(line) == Some(Status::NotUnderstood));
                if refused && matches!(exchange.command, Command::Set(Setup::Try(_))) {
                    self.search.known = None;
                    Stage::Protocol
                } else {
                    Stage::Ask
                }
            }
            Stage::Ask => match self.first_answer(reply) {
                First::Data => Stage::Number,
                First::Again => Stage::Ask,
                First::Silent(silence) => return self.search_failed(silence, now),
            },
            Stage::Number => {
                let said = number(reply);
                if said.is_none() && !self.search.repeated {
                    self.search.repeated = true;
                    Stage::Number
                } else {
                    return self.search_done(said, now);
                }
            }
        };
        self.phase = Phase::Searching(next);
    }

    /// No complete reply in time. Where it was the adapter's own word, or the vehicle did answer, only the prompt is
    /// missing: the same again.
    pub(super) fn search_expired(&mut self, stage: Stage) -> Goal {
        self.search.lost = self.search.lost.saturating_add(1);
        let answered = stage != Stage::Ask || judge::holds(self.codec.pending(), b"4100");
        if answered && self.search.lost < LOST { Goal::Search(stage) } else { Goal::Pause(Silence::TimedOut) }
    }

    /// Judges the reply to `0100` as far as that is possible before the protocol is known.
    fn first_answer(&mut self, reply: &Reply) -> First {
        if reply.cut.is_none() && reply.lines().any(|line| judge::holds(line, b"4100")) {
            if reply.lines().any(|line| line.trim_ascii_start().starts_with(b".")) {
                self.note(Quirk::AckDots);
            }
            self.search.text.clone_from(&reply.text);
            return First::Data;
        }
        let said = reply.lines().filter_map(frames::status).last();
        let broken = matches!(said, Some(Status::Stopped | Status::BusInitStopped | Status::NotUnderstood));
        if broken && !self.search.repeated {
            self.search.repeated = true;
            return First::Again;
        }
        if reply.lines().any(|line| judge::holds(line, b"7F01")) {
            return First::Silent(Silence::OnlyRefusals);
        }
        First::Silent(said.map_or(Silence::Malformed, silence_of))
    }

    fn search_done(&mut self, said: Option<u8>, now: Mono) {
        let text = std::mem::take(&mut self.search.text);
        if said == Some(0) {
            return self.search_failed(Silence::NoProtocol, now);
        }
        let protocol = said.and_then(Protocol::from_number);
        let seen = match protocol {
            Some(protocol) => look(&text, protocol.bus()),
            None => infer(&text),
        };
        match seen {
            Err(silence) => self.search_failed(silence, now),
            Ok(seen) => self.connected(protocol, &seen, now),
        }
    }

    fn connected(&mut self, protocol: Option<Protocol>, seen: &Seen, now: Mono) {
        if seen.layout.headers == Headers::Hidden {
            self.note(Quirk::NoHeaders);
        }
        if seen.padded {
            self.note(Quirk::PaddingShown);
        }
        if self.settings.spaces == Flag::Stuck {
            self.note(Quirk::SpacesStuck);
        }
        self.search =
            Search { known: protocol, in_use: protocol, layout: Some(seen.layout), ..Search::default() };
        self.address.functional(seen.layout.bus);
        self.phase = Phase::Polling;
        self.polls.start(seen.layout.bus, now);
        self.tell(Outcome::Connected {
            protocol,
            bus: seen.layout.bus,
            control_units: seen.control_units.clone(),
        });
    }

    /// The vehicle is silent: say so, pause, search again.
    pub(super) fn search_failed(&mut self, detail: Silence, now: Mono) {
        let attempt = self.search.attempts + 1;
        let known = self.search.in_use.or(self.search.known);
        let odd = matches!(detail, Silence::SendersUnknown | Silence::Malformed);
        if odd {
            self.settings.hope_again();
        }
        // After reading, a header or a filter may be set; a known protocol would use them for the first request.
        let set_up_again = odd || self.search.in_use.is_some();
        self.search = Search { known, attempts: attempt, set_up_again, ..Search::default() };
        let retry_in = RETRY.get(attempt as usize - 1).or(RETRY.last()).copied().unwrap_or(ALL);
        self.polls.pause();
        self.exchange = None;
        self.timers.clear_all();
        self.phase = Phase::Pausing;
        self.timers.set(Timer::Pause, now.after(retry_in));
        self.tell(Outcome::VehicleSilent { detail, attempt, retry_in });
    }
}

enum First {
    Data,
    Again,
    Silent(Silence),
}

/// What the reply to `0100` shows, once its layout is known.
struct Seen {
    layout: Layout,
    control_units: Vec<frames::Ecu>,
    padded: bool,
}

fn look(text: &[u8], bus: Bus) -> Result<Seen, Silence> {
    let shown = Layout { bus, headers: Headers::Shown };
    let reply = frames::reply(text, shown, Some(FIRST));
    let mut control_units: Vec<_> = reply
        .messages
        .iter()
        .filter(|message| FIRST.matches(&message.data))
        .filter_map(|message| message.ecu)
        .collect();
    control_units.dedup();
    if !control_units.is_empty() {
        return Ok(Seen { layout: shown, control_units, padded: is_padded(text, bus) });
    }
    let hidden = Layout { bus, headers: Headers::Hidden };
    let bare = frames::reply(text, hidden, Some(FIRST)).messages;
    match bare.iter().filter(|message| FIRST.matches(&message.data)).count() {
        1 => Ok(Seen { layout: hidden, control_units, padded: false }),
        0 if reply.messages.iter().any(|message| NegativeReply::parse(&message.data).is_some()) => {
            Err(Silence::OnlyRefusals)
        }
        0 => Err(Silence::Malformed),
        _ => Err(Silence::SendersUnknown),
    }
}

/// Where the adapter does not name its protocol: the only bus whose form fits.
fn infer(text: &[u8]) -> Result<Seen, Silence> {
    let fits = |bus: &Bus| {
        frames::messages(text, Layout { bus: *bus, headers: Headers::Shown }, Some(FIRST)).is_ok()
    };
    let mut buses = Bus::ALL.into_iter().filter(fits);
    match (buses.next(), buses.next()) {
        (Some(bus), None) => look(text, bus),
        _ => Err(Silence::NoProtocol),
    }
}

/// Whether a CAN line is longer than the length in it says.
fn is_padded(text: &[u8], bus: Bus) -> bool {
    let identifier = match bus {
        Bus::Can11 => 3,
        Bus::Can29 => 8,
        _ => return false,
    };
    crate::codec::lines(text).any(|line| {
        let digits: Vec<u8> = line.iter().filter(|byte| byte.is_ascii_hexdigit()).copied().collect();
        let length =
            digits.get(identifier + 1).and_then(|digit| char::from(*digit).to_digit(16)).unwrap_or(7);
        judge::holds(line, b"4100") && digits.len() > identifier + 2 + 2 * length as usize
    })
}

/// The number of the protocol: the last line that has the form of one, since some clones put others in front.
fn number(reply: &Reply) -> Option<u8> {
    let lines = reply.lines().filter_map(|line| {
        let line = line.trim_ascii();
        let digit = match line {
            [digit] | [b'A', digit] => *digit,
            _ => return None,
        };
        char::from(digit).to_digit(16).filter(|digit| *digit <= 0xC).map(|digit| digit as u8)
    });
    lines.last()
}

/// What a text of the adapter means for the vehicle's silence.
pub(super) fn silence_of(status: Status) -> Silence {
    match status {
        Status::UnableToConnect | Status::Searching => Silence::NoProtocol,
        Status::NoData => Silence::NoData,
        Status::BusInit | Status::BusInitOk | Status::BusInitError => Silence::BusInit,
        Status::BusBusy | Status::BusError | Status::CanError | Status::DataError | Status::RxError => {
            Silence::Bus(status)
        }
        Status::Stopped | Status::BusInitStopped => Silence::Interrupted,
        Status::NotUnderstood => Silence::NotUnderstood,
        Status::BufferFull | Status::FeedbackError | Status::AdapterFault(_) => Silence::Adapter(status),
        _ => Silence::Malformed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reply(text: &[u8]) -> Reply {
        Reply { text: text.to_vec(), ..Reply::default() }
    }

    #[test]
    fn the_number_of_the_protocol_is_the_last_line_of_its_form() {
        // exchanges.csv X063 to X066, X080.
        let cases: &[(&[u8], Option<u8>)] = &[
            (b"A6\r\r", Some(6)),
            (b"A7\r\r", Some(7)),
            (b"6\r\r", Some(6)),
            (b"A0\r\r", Some(0)),
            (b"0\r\r", Some(0)),
            (b"SEARCHING\r4100BE3EB811\rELM327 v1.5\r\r", None),
            (b"ELM327 v1.5\rA6\r\r", Some(6)),
            (b"?\r\r", None),
            (b"AF\r\r", None),
        ];
        for (text, want) in cases {
            assert_eq!(number(&reply(text)), *want, "{}", text.escape_ascii());
        }
    }

    #[test]
    fn where_no_number_is_given_the_only_fitting_bus_is_taken() {
        let cases: &[(&[u8], Option<Bus>)] = &[
            (b"7E8064100BE3FA813\r\r", Some(Bus::Can11)),
            (b"18DAF110064100BE3FA813\r\r", Some(Bus::Can29)),
            (b"486B104100BE3EB811C9\r\r", Some(Bus::Iso9141)),
            (b"4100BE3EB811\r\r", None),
        ];
        for (text, want) in cases {
            assert_eq!(infer(text).ok().map(|seen| seen.layout.bus), *want, "{}", text.escape_ascii());
        }
    }
}
