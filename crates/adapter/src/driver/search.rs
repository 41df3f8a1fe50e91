//! Looking for the vehicle: which protocol, which control units, and whether they really answer.
//!
//! Connected means that some control unit answered `0100` with `41 00`, and nothing less (complaints 6 and 15 of the
//! reference). In: replies. Out: `Connected`, or `VehicleSilent` and a pause. Method: section 5 of the dialect reference.

use std::time::Duration;

use frames::{Ask, Bus, Headers, Layout, NegativeReply, Status, StatusClass};
use units::Mono;

use super::harm::Suspect;
use super::recover::Recovery;
use super::setup::Flag;
use super::turns::Silent;
use super::{Driver, Exchange, Goal, Phase, Purpose, Timer, judge};
use crate::codec::{Echo, Reply};
use crate::command::{Command, Line, Protocol, Setup};
use crate::outcome::{Outcome, Silence, Tried};
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
    /// What is being tried: a search of the adapter's own, or a protocol by its name.
    trying: Option<Setup>,
    /// The connection would end because of it: from the choice of the protocol to the first answer.
    suspect: Option<Setup>,
    /// Where in the round of all protocols by name this attempt is.
    round: Option<usize>,
    /// What the first try of this attempt came to.
    silence: Option<Silence>,
    /// Attempts in a row without an answer, and those of them that were searches of the adapter's own.
    attempts: u32,
    searches: u32,
    /// All that was tried since the vehicle answered last.
    tried: Tried,
    /// The reply to `0100`, until its form is known.
    text: Vec<u8>,
    /// Whether this stage was already repeated.
    repeated: bool,
    /// Whether an answer that was spoilt was already asked for again.
    spoilt: bool,
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
/// All protocols by name, for an adapter that does not find them by itself: the commonest first (ours).
const ROUND: [Protocol; 9] = [
    Protocol::Can11Fast,
    Protocol::Can29Fast,
    Protocol::Can11Slow,
    Protocol::Can29Slow,
    Protocol::Iso14230Fast,
    Protocol::Iso14230Slow,
    Protocol::Iso9141,
    Protocol::J1850Vpw,
    Protocol::J1850Pwm,
];
/// The round follows the first search that failed, and then every third: with the ignition off it only costs time.
const ROUND_EVERY: u32 = 3;
/// Every so many attempts the adapter is reset: something may be set that no warm start clears.
const RESET_EVERY: u32 = 4;

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
        *self = Self { known: self.in_use.or(self.known), tried: self.tried, ..Self::default() };
    }

    /// What is to blame if the connection ends now.
    pub(super) fn suspect(&self) -> Option<Suspect> {
        self.suspect.map(Suspect::Set)
    }
}

impl Driver {
    pub(super) fn search_transmit(&mut self, stage: Stage, now: Mono) -> Line {
        let purpose = Purpose::Search(stage);
        match stage {
            Stage::Protocol => {
                let setup = self.candidate(now);
                (self.search.trying, self.search.suspect) = (Some(setup), Some(setup));
                match setup {
                    Setup::Try(protocol) => self.search.tried.note(protocol),
                    _ => self.search.tried.search = true,
                }
                self.send(Command::Set(setup), purpose, self.setting_limit(), now)
            }
            Stage::Ask => {
                let limit = if self.search.trying == Some(Setup::Search) { ALL } else { ONE };
                self.send(Command::Read(FIRST), purpose, limit, now)
            }
            Stage::Number => {
                self.search.suspect = None;
                self.send(Command::Set(Setup::ProtocolNumber), purpose, self.setting_limit(), now)
            }
        }
    }

    /// What to try next: the known protocol and the adapter's own search by turns, or the next of a round.
    fn candidate(&self, now: Mono) -> Setup {
        let named = |at: usize| ROUND.get(at).copied().map(Setup::Try);
        if let Some(setup) = self.search.round.and_then(named) {
            return setup;
        }
        let known = self.search.known.filter(|_| self.search.attempts.is_multiple_of(2)).map(Setup::Try);
        let known = known.filter(|setup| !self.is_avoided(*setup, now));
        // A search that ends the connection each time is none: then the first by name, and the round follows.
        let search_harms = self.is_avoided(Setup::Search, now);
        known.or_else(|| named(0).filter(|_| search_harms)).unwrap_or(Setup::Search)
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
                    return self.protocol_refused(now);
                }
                Stage::Ask
            }
            Stage::Ask => match self.first_answer(reply) {
                First::Data if self.is_avoided(Setup::ProtocolNumber, now) => {
                    return self.search_done(None, now);
                }
                First::Data => Stage::Number,
                First::Again => Stage::Ask,
                First::Shifted => {
                    self.search.lost = self.search.lost.saturating_add(1);
                    return self.recover(Recovery::in_step(Goal::Search(Stage::Protocol)), now);
                }
                First::Silent(silence) => return self.search_next(silence, now),
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

    /// A protocol by its name is refused: the next of the round, or the adapter's own search.
    fn protocol_refused(&mut self, now: Mono) {
        if self.search.round.is_some() {
            return self.search_next(Silence::NotUnderstood, now);
        }
        self.search.known = None;
        self.phase = Phase::Searching(Stage::Protocol);
    }

    /// This try found nobody: the next of a round, if there is one, without a pause; or the attempt has failed.
    pub(super) fn search_next(&mut self, silence: Silence, now: Mono) {
        let nobody = matches!(
            silence,
            Silence::NoProtocol
                | Silence::NoData
                | Silence::BusInit
                | Silence::Bus(_)
                | Silence::TimedOut
                | Silence::NotUnderstood
                | Silence::Malformed
                | Silence::Unnamed
        );
        // Words of our own do not hide what the adapter said first.
        let told = *self.search.silence.get_or_insert(silence);
        let tried = self.search.trying.take();
        let at = match self.search.round {
            Some(at) => Some(at + 1),
            None if tried == Some(Setup::Search) && silence != Silence::NotUnderstood => {
                // What answers is there, and only its name is missing.
                let due = silence == Silence::Unnamed || self.search.searches.is_multiple_of(ROUND_EVERY);
                self.search.searches += 1;
                due.then_some(0)
            }
            None if tried
                .is_some_and(|setup| self.is_avoided(Setup::Search, now) && setup != Setup::Search) =>
            {
                Some(1)
            }
            None => None,
        };
        let harmless = |at: &usize| ROUND.get(*at).is_some_and(|p| !self.is_avoided(Setup::Try(*p), now));
        let at = at.and_then(|at| (at..ROUND.len()).find(harmless)).filter(|_| nobody);
        match at {
            Some(_) => {
                (self.search.round, self.search.repeated, self.search.lost) = (at, false, 0);
                self.phase = Phase::Searching(Stage::Protocol);
            }
            None => self.search_failed(told, now),
        }
    }

    /// No complete reply in time. Where it was the adapter's own word, or the vehicle did answer, only the prompt is
    /// missing: the same again.
    pub(super) fn search_expired(&mut self, stage: Stage) -> Goal {
        self.search.lost = self.search.lost.saturating_add(1);
        let answered = stage != Stage::Ask || judge::holds(self.codec.pending(), b"4100");
        if answered && self.search.lost < LOST { Goal::Search(stage) } else { Goal::Next(Silence::TimedOut) }
    }

    /// Judges the reply to `0100` as far as that is possible before the protocol is known.
    fn first_answer(&mut self, reply: &Reply) -> First {
        if reply.cut.is_some() && !std::mem::replace(&mut self.search.spoilt, true) {
            return First::Again;
        }
        if reply.cut.is_none() && reply.lines().any(|line| judge::holds(line, b"4100")) {
            if reply.lines().any(|line| line.trim_ascii_start().starts_with(b".")) {
                self.note(Quirk::AckDots);
            }
            self.pace_helped();
            self.search.text.clone_from(&reply.text);
            return First::Data;
        }
        let said = reply.lines().filter_map(frames::status).last();
        if said.is_some_and(is_passing) && !self.search.repeated {
            self.search.repeated = true;
            return First::Again;
        }
        if said == Some(Status::Stopped) && self.pace_widened() {
            return First::Again;
        }
        if reply.lines().any(|line| judge::holds(line, b"7F01")) {
            return First::Silent(Silence::OnlyRefusals);
        }
        // The answer to a word that was said before: this one's is still to come.
        let of_another =
            said.is_some_and(|said| matches!(said.class(), StatusClass::Ok | StatusClass::Answer));
        if of_another && self.search.lost < LOST {
            return First::Shifted;
        }
        First::Silent(said.map_or(Silence::Malformed, silence_of))
    }

    fn search_done(&mut self, said: Option<u8>, now: Mono) {
        let text = std::mem::take(&mut self.search.text);
        // The number is a claim like others: what came has to have the form of its bus, or of the one that was named, or
        // of a single other one.
        let claimed = said.and_then(Protocol::from_number);
        let named = match self.search.trying {
            Some(Setup::Try(protocol)) => Some(protocol),
            _ => None,
        };
        let mut why = None;
        for protocol in claimed.into_iter().chain(named) {
            match look(&text, protocol.bus()) {
                Ok(seen) => return self.connected(Some(protocol), &seen, now),
                Err(silence) => why = why.or(Some(silence)),
            }
        }
        match infer(&text) {
            Ok(seen) => self.connected(None, &seen, now),
            // An answer was there: once more, as with any other request.
            Err(_)
                if why == Some(Silence::Malformed) && !std::mem::replace(&mut self.search.spoilt, true) =>
            {
                self.phase = Phase::Searching(Stage::Ask);
            }
            Err(Silence::Unnamed) if named.is_none() => self.search_next(Silence::Unnamed, now),
            Err(silence) => self.search_failed(why.unwrap_or(silence), now),
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
        let known = protocol.or(self.search.known);
        self.search = Search { known, in_use: protocol, layout: Some(seen.layout), ..Search::default() };
        if self.engine_is_hidden(seen) {
            self.phase = Phase::SettingUp { step: 0 };
            return;
        }
        self.address.functional(seen.layout.bus);
        self.phase = Phase::Polling;
        let silent = if self.quirks.has(Quirk::SearchesAnew) { Silent::Kept } else { Silent::Forgiven };
        self.polls.start(seen.bus, silent, now);
        for slot in self.polls.slots() {
            self.avoid(slot, now);
        }
        self.tell(Outcome::Connected { protocol, bus: seen.bus, control_units: seen.control_units.clone() });
    }

    /// On CAN the engine's control unit answers in every vehicle. Where only others do, a filter may be left over that no
    /// warm start clears: once a reset, then it is how this vehicle is.
    fn engine_is_hidden(&mut self, seen: &Seen) -> bool {
        let of_engine = |ecu: &frames::Ecu| matches!(ecu.id(), 0x7E8 | 0x18DA_F110);
        if seen.control_units.iter().any(of_engine)
            || !seen.layout.bus.is_can()
            || seen.control_units.is_empty()
        {
            self.faults.reset_for_engine = false;
            return false;
        }
        let first = !std::mem::replace(&mut self.faults.reset_for_engine, true);
        self.settings.reset_first |= first;
        first
    }

    /// The vehicle is silent: say so, pause, search again.
    pub(super) fn search_failed(&mut self, detail: Silence, now: Mono) {
        let attempt = self.search.attempts + 1;
        let known = self.search.in_use.or(self.search.known);
        let odd = matches!(detail, Silence::SendersUnknown | Silence::Malformed | Silence::Unnamed);
        if odd {
            self.settings.hope_again();
        }
        let reset = attempt.is_multiple_of(RESET_EVERY);
        self.settings.reset_first |= reset;
        // After reading, a header or a filter may be set; a known protocol would use them for the first request.
        let set_up_again = odd || reset || self.search.in_use.is_some();
        let (searches, tried) = (self.search.searches, self.search.tried);
        self.search = Search { known, attempts: attempt, searches, tried, set_up_again, ..Search::default() };
        let retry_in = RETRY.get(attempt as usize - 1).or(RETRY.last()).copied().unwrap_or(ALL);
        self.polls.pause();
        self.exchange = None;
        self.timers.clear_all();
        self.phase = Phase::Pausing;
        self.timers.set(Timer::Pause, now.after(retry_in));
        self.tell(Outcome::VehicleSilent { detail, attempt, retry_in, tried });
    }
}

/// Whether a text to the first request speaks of this one only: it was broken off, or the bus was disturbed.
const fn is_passing(status: Status) -> bool {
    matches!(
        status,
        Status::Stopped
            | Status::BusInitStopped
            | Status::NotUnderstood
            | Status::BusBusy
            | Status::BusError
            | Status::DataError
            | Status::RxError
    )
}

enum First {
    Data,
    Again,
    /// Replies have shifted by one.
    Shifted,
    Silent(Silence),
}

/// What the reply to `0100` shows, once its layout is known.
struct Seen {
    layout: Layout,
    /// The bus, where the form is that of one only.
    bus: Option<Bus>,
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
        return Ok(Seen { layout: shown, bus: Some(bus), control_units, padded: is_padded(text, bus) });
    }
    let hidden = Layout { bus, headers: Headers::Hidden };
    let bare = frames::reply(text, hidden, Some(FIRST)).messages;
    match bare.iter().filter(|message| FIRST.matches(&message.data)).count() {
        1 => Ok(Seen { layout: hidden, bus: Some(bus), control_units, padded: false }),
        0 if reply.messages.iter().any(|message| NegativeReply::parse(&message.data).is_some()) => {
            Err(Silence::OnlyRefusals)
        }
        0 => Err(Silence::Malformed),
        _ => Err(Silence::SendersUnknown),
    }
}

/// Where the adapter does not name its protocol: the only bus whose form fits. A single line without its sender is the same
/// on all of them.
fn infer(text: &[u8]) -> Result<Seen, Silence> {
    let fits = |bus: &Bus| {
        frames::messages(text, Layout { bus: *bus, headers: Headers::Shown }, Some(FIRST))
            .is_ok_and(|messages| messages.iter().any(|message| FIRST.matches(&message.data)))
    };
    let mut buses = Bus::ALL.into_iter().filter(fits);
    match (buses.next(), buses.next()) {
        (Some(bus), None) => look(text, bus),
        (Some(_), Some(_)) => Err(Silence::Unnamed),
        (None, _) => {
            let seen = look(text, Bus::Can11).map_err(|silence| match silence {
                Silence::Malformed => Silence::Unnamed,
                other => other,
            })?;
            Ok(Seen { bus: None, ..seen })
        }
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
    fn numbers_end_with_the_last_protocol_there_is() {
        for (digit, want) in
            [(b'0', Some(0)), (b'9', Some(9)), (b'A', Some(10)), (b'C', Some(12)), (b'D', None)]
        {
            assert_eq!(number(&reply(&[digit, b'\r'])), want, "{}", char::from(digit));
            assert_eq!(number(&reply(&[b'A', digit, b'\r'])), want, "A{}", char::from(digit));
            assert_eq!(number(&reply(&[b'B', digit, b'\r'])), None, "B{}", char::from(digit));
        }
    }

    #[test]
    fn what_a_text_means_for_the_silence() {
        use Status as S;
        let cases: &[(Status, Silence)] = &[
            (S::UnableToConnect, Silence::NoProtocol),
            (S::Searching, Silence::NoProtocol),
            (S::NoData, Silence::NoData),
            (S::BusInit, Silence::BusInit),
            (S::BusInitOk, Silence::BusInit),
            (S::BusInitError, Silence::BusInit),
            (S::BusBusy, Silence::Bus(S::BusBusy)),
            (S::BusError, Silence::Bus(S::BusError)),
            (S::CanError, Silence::Bus(S::CanError)),
            (S::DataError, Silence::Bus(S::DataError)),
            (S::RxError, Silence::Bus(S::RxError)),
            (S::Stopped, Silence::Interrupted),
            (S::BusInitStopped, Silence::Interrupted),
            (S::NotUnderstood, Silence::NotUnderstood),
            (S::BufferFull, Silence::Adapter(S::BufferFull)),
            (S::FeedbackError, Silence::Adapter(S::FeedbackError)),
            (S::AdapterFault(94), Silence::Adapter(S::AdapterFault(94))),
            (S::Ok, Silence::Malformed),
            (S::Modem, Silence::Malformed),
        ];
        for (status, want) in cases {
            assert_eq!(silence_of(*status), *want, "{status:?}");
        }
    }

    #[test]
    fn a_line_is_padded_where_it_is_longer_than_its_length_says() {
        let cases: &[(&[u8], Bus, bool)] = &[
            (b"7E8064100BE3FA813\r", Bus::Can11, false),
            (b"7E8064100BE3FA81300\r", Bus::Can11, true),
            (b"7E8 06 41 00 BE 3F A8 13 AA\r", Bus::Can11, true),
            (b"18DAF110064100BE3FA813\r", Bus::Can29, false),
            (b"18DAF110064100BE3FA81355\r", Bus::Can29, true),
            // The first line of two, and a line of another answer.
            (b"7E8064100BE3FA813\r7E9064100981880015500\r", Bus::Can11, true),
            (b"7E803410575AAAAAAAA\r", Bus::Can11, false),
            // Without lengths of their own.
            (b"486B104100BE3EB811C900\r", Bus::Iso9141, false),
            (b"86F1104100BE3EB811C900\r", Bus::Iso14230, false),
        ];
        for (text, bus, want) in cases {
            assert_eq!(is_padded(text, *bus), *want, "{}", text.escape_ascii());
        }
    }

    #[test]
    fn a_look_says_who_answered_or_why_it_is_no_answer() {
        let units = |seen: &Seen| seen.control_units.iter().map(ToString::to_string).collect::<Vec<_>>();
        type Case<'a> = (&'a [u8], Bus, Result<(Headers, &'a [&'a str]), Silence>);
        let cases: &[Case] = &[
            (b"7E8064100BE3FA813\r", Bus::Can11, Ok((Headers::Shown, &["7E8"]))),
            (b"7E8064100BE3FA813\r7E906410098188001\r", Bus::Can11, Ok((Headers::Shown, &["7E8", "7E9"]))),
            (b"7E8064100BE3FA813\r7E8064100BE3FA813\r", Bus::Can11, Ok((Headers::Shown, &["7E8"]))),
            // Another answer beside it does not count.
            (b"7E80341057B\r7E906410098188001\r", Bus::Can11, Ok((Headers::Shown, &["7E9"]))),
            (b"4100BE3FA813\r", Bus::Can11, Ok((Headers::Hidden, &[]))),
            (b"4100BE3FA813\r410098188001\r", Bus::Can11, Err(Silence::SendersUnknown)),
            (b"7E8037F0112\r", Bus::Can11, Err(Silence::OnlyRefusals)),
            (b"7E80341057B\r", Bus::Can11, Err(Silence::Malformed)),
            (b"\r", Bus::Can11, Err(Silence::Malformed)),
        ];
        for (text, bus, want) in cases {
            let what = text.escape_ascii();
            match (look(text, *bus), want) {
                (Ok(seen), Ok((headers, all))) => {
                    assert_eq!(seen.layout, Layout { bus: *bus, headers: *headers }, "{what}");
                    assert_eq!(
                        (units(&seen), seen.bus),
                        (all.iter().map(ToString::to_string).collect(), Some(*bus)),
                        "{what}"
                    );
                }
                (Err(silence), Err(want)) => assert_eq!(silence, *want, "{what}"),
                (seen, want) => panic!("{what}: {:?} for {want:?}", seen.map(|seen| units(&seen))),
            }
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
            assert_eq!(infer(text).ok().and_then(|seen| seen.bus), *want, "{}", text.escape_ascii());
        }
        let bare = infer(b"41 00 BE 3E B8 11\r\r").ok().unwrap();
        assert_eq!(bare.layout.headers, Headers::Hidden, "one line without its sender: any bus");
        assert_eq!(infer(b"4100BE3EB811\r410080080000\r\r").err(), Some(Silence::SendersUnknown));
        assert_eq!(infer(b"XX4100BE3EB811\r\r").err(), Some(Silence::Unnamed));
    }
}
