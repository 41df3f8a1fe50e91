//! Looking for the vehicle: which protocol, which control units, and whether they really answer.
//!
//! Connected means that some control unit answered `0100` with `41 00`, and nothing less (complaints 6 and 15 of the
//! reference). In: replies. Out: `Connected` and reading, or the word that the vehicle is silent.
//! Not here: what the first answer shows (`look.rs`), the pause behind an attempt (`pause.rs`).
//! Method: section 5 of the dialect reference.

use std::time::Duration;

use frames::{Ecu, Headers, Status, StatusClass};
use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::command::{Command, Protocol, Setup};
use crate::driver::exchange::{Complete, Exchange, Unfinished};
use crate::driver::known::Known;
use crate::driver::known::harm::Suspect;
use crate::driver::known::turns::Silent;
use crate::driver::look::{FIRST, FirstReply, infer, look};
use crate::driver::step::{Next, Start, Step, Wish};
use crate::driver::text::{self, holds, silence_of};
use crate::outcome::{Outcome, Silence};
use crate::quirk::Quirk;

/// One exchange of the search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Searching {
    /// Which protocol to try: the known one, or all.
    Protocol,
    /// `0100`: nothing happens before the first request.
    Ask,
    /// `ATDPN`: which protocol was it?
    Number,
    /// This way of looking for it failed: on with the next.
    Failed(Silence),
}

/// What the reply to `0100` is.
enum First {
    Data,
    Again,
    /// Replies have shifted by one.
    Shifted,
    Silent(Silence),
}

/// A search tries all protocols; a known one with a slow start takes 2 to 3 s.
/// Source: as the limits of `driver/exchange.rs`: 30 s for a search, 10 s for a start-up at 5 baud.
const ALL: Duration = Duration::from_secs(30);
const ONE: Duration = Duration::from_secs(10);
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
/// Own choice: with the ignition off it only costs time, some 20 s a round; without it an adapter that finds nothing
/// would never read.
const ROUND_EVERY: u32 = 3;

impl Searching {
    /// The next stage, or the same again.
    fn goes_on(&mut self, stage: Self) -> Step {
        *self = stage;
        Step::Stay
    }

    /// A protocol by its name is refused: the next of the round, or the adapter's own search.
    fn refused(&mut self, known: &mut Known, now: Mono) -> Step {
        if known.vehicle.attempt.round.is_some() {
            return self.next_way(Silence::NotUnderstood, known, now);
        }
        known.vehicle.known = None;
        self.goes_on(Self::Protocol)
    }

    /// This try found nobody: the next of a round, if there is one, without a pause; or the attempt has failed.
    fn next_way(&mut self, silence: Silence, known: &mut Known, now: Mono) -> Step {
        // Words of our own do not hide what the adapter said first.
        let told = *known.vehicle.attempt.silence.get_or_insert(silence);
        let at = next_of_round(silence, known, now);
        let harmless = |at: &usize| ROUND.get(*at).is_some_and(|p| !known.is_avoided(Setup::Try(*p), now));
        match at.and_then(|at| (at..ROUND.len()).find(harmless)).filter(|_| is_nobody(silence)) {
            Some(at) => {
                known.vehicle.attempt.goes_round(at);
                self.goes_on(Self::Protocol)
            }
            None => Step::Done(Next::Pause(told)),
        }
    }

    fn done(&mut self, said: Option<u8>, known: &mut Known, now: Mono) -> Step {
        let attempt = &mut known.vehicle.attempt;
        let text = std::mem::take(&mut attempt.text);
        // The number is a claim like others: what came has to have the form of its bus, or of the one that was named, or
        // of a single other one.
        let claimed = said.and_then(Protocol::from_number);
        let named = match attempt.trying {
            Some(Setup::Try(protocol)) => Some(protocol),
            _ => None,
        };
        let mut why = None;
        for protocol in claimed.into_iter().chain(named) {
            match look(&text, protocol.bus()) {
                Ok(seen) => return connected(Some(protocol), seen, known, now),
                Err(silence) => why = why.or(Some(silence)),
            }
        }
        match infer(&text) {
            Ok(seen) => connected(None, seen, known, now),
            // An answer was there: once more, as with any other request.
            Err(_) if why == Some(Silence::Malformed) && !std::mem::replace(&mut attempt.spoilt, true) => {
                self.goes_on(Self::Ask)
            }
            Err(Silence::Unnamed) if named.is_none() => self.next_way(Silence::Unnamed, known, now),
            Err(silence) => Step::Done(Next::Pause(why.unwrap_or(silence))),
        }
    }
}

impl Phase for Searching {
    fn begin(&mut self, known: &mut Known, now: Mono) -> Step {
        match *self {
            Self::Failed(silence) => self.next_way(silence, known, now),
            _ => Step::Stay,
        }
    }

    fn poll_wish(&mut self, known: &mut Known, now: Mono) -> Wish {
        let (command, limit) = match self {
            Self::Protocol => {
                let setup = candidate(known, now);
                known.vehicle.tries(setup);
                (Command::Set(setup), known.setting_limit())
            }
            Self::Ask => {
                let all = known.vehicle.attempt.trying == Some(Setup::Search);
                (Command::Read(FIRST), if all { ALL } else { ONE })
            }
            Self::Number => {
                known.vehicle.attempt.is_harmless();
                (Command::Set(Setup::ProtocolNumber), known.setting_limit())
            }
            Self::Failed(_) => return Wish::Nothing(Step::Stay),
        };
        // The way of searching is to blame for its first request.
        let suspect = known.vehicle.attempt.suspect().or_else(|| Suspect::of(command));
        known.harm.left(suspect);
        Wish::send(command, known.pace.written(command), limit)
    }

    fn handle_reply(&mut self, complete: &Complete<'_>, known: &mut Known, now: Mono) -> Step {
        // A protocol is only the way to the request that may do harm.
        if *self == Self::Protocol {
            known.harm.survived()
        } else {
            known.harm.answered()
        }
        let reply = complete.reply;
        let stuck = known.settings.accept_form(reply, complete.echo);
        known.note(stuck);
        match self {
            Self::Protocol => {
                let named = matches!(complete.exchange.command, Command::Set(Setup::Try(_)));
                if named && text::says(reply, Status::NotUnderstood) {
                    return self.refused(known, now);
                }
                self.goes_on(Self::Ask)
            }
            Self::Ask => match first_answer(reply, known) {
                First::Data if known.is_avoided(Setup::ProtocolNumber, now) => self.done(None, known, now),
                First::Data => self.goes_on(Self::Number),
                First::Again => Step::Stay,
                First::Shifted => {
                    known.vehicle.attempt.lost_one();
                    *self = Self::Protocol;
                    Step::Resync(Start::Interrupt, Next::Same)
                }
                First::Silent(silence) => self.next_way(silence, known, now),
            },
            Self::Number => {
                let said = text::number(reply);
                if said.is_none() && !std::mem::replace(&mut known.vehicle.attempt.repeated, true) {
                    return Step::Stay;
                }
                self.done(said, known, now)
            }
            Self::Failed(_) => Step::Stay,
        }
    }

    /// No complete reply in time. Where it was the adapter's own word, or the vehicle did answer, only the prompt is
    /// missing: the same again.
    fn handle_expiry(
        &mut self,
        _asked: &Exchange,
        unfinished: Unfinished<'_>,
        known: &mut Known,
        _now: Mono,
    ) -> Step {
        known.counts.timed_out += 1;
        known.vehicle.attempt.lost_one();
        let answered = *self != Self::Ask || holds(unfinished.text, b"4100");
        if !answered || !known.vehicle.attempt.may_lose() {
            *self = Self::Failed(Silence::TimedOut);
        }
        Step::Resync(Start::after(unfinished.text), Next::Same)
    }

    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.surplus(reply, Some(Next::Pause(Silence::TimedOut)), now)
    }
}

/// What to try next: the known protocol and the adapter's own search by turns, or the next of a round.
fn candidate(known: &Known, now: Mono) -> Setup {
    let vehicle = &known.vehicle;
    let named = |at: usize| ROUND.get(at).copied().map(Setup::Try);
    if let Some(setup) = vehicle.attempt.round.and_then(named) {
        return setup;
    }
    let last = vehicle.known.filter(|_| vehicle.attempts.is_multiple_of(2)).map(Setup::Try);
    let last = last.filter(|setup| !known.is_avoided(*setup, now));
    // A search that ends the connection each time is none: then the first by name, and the round follows.
    let search_harms = known.is_avoided(Setup::Search, now);
    last.or_else(|| named(0).filter(|_| search_harms)).unwrap_or(Setup::Search)
}

/// Where the round of all protocols by name goes on, or begins, after what was tried came to `silence`.
fn next_of_round(silence: Silence, known: &mut Known, now: Mono) -> Option<usize> {
    let search_harms = known.is_avoided(Setup::Search, now);
    let vehicle = &mut known.vehicle;
    let tried = vehicle.attempt.trying.take();
    if let Some(at) = vehicle.attempt.round {
        return Some(at + 1);
    }
    match tried? {
        Setup::Search if silence != Silence::NotUnderstood => {
            // What answers is there, and only its name is missing.
            let due = silence == Silence::Unnamed || vehicle.searches.is_multiple_of(ROUND_EVERY);
            vehicle.searches += 1;
            due.then_some(0)
        }
        Setup::Search => None,
        _ => search_harms.then_some(1),
    }
}

/// Whether nobody answered, so that another protocol may be the right one.
const fn is_nobody(silence: Silence) -> bool {
    matches!(
        silence,
        Silence::NoProtocol
            | Silence::NoData
            | Silence::BusInit
            | Silence::Bus(_)
            | Silence::TimedOut
            | Silence::NotUnderstood
            | Silence::Malformed
            | Silence::Unnamed
    )
}

/// Judges the reply to `0100` as far as that is possible before the protocol is known.
fn first_answer(reply: &Reply, known: &mut Known) -> First {
    if reply.cut.is_some() && !std::mem::replace(&mut known.vehicle.attempt.spoilt, true) {
        return First::Again;
    }
    if reply.cut.is_none() && reply.lines().any(|line| holds(line, b"4100")) {
        let dots = reply.lines().any(|line| line.trim_ascii_start().starts_with(b"."));
        known.note(dots.then_some(Quirk::AckDots));
        known.answered();
        known.vehicle.attempt.text.clone_from(&reply.text);
        return First::Data;
    }
    let said = reply.lines().filter_map(frames::status).last();
    if said.is_some_and(is_passing) && !std::mem::replace(&mut known.vehicle.attempt.repeated, true) {
        return First::Again;
    }
    if said == Some(Status::Stopped) && known.pace.widened() {
        return First::Again;
    }
    if reply.lines().any(|line| holds(line, b"7F01")) {
        return First::Silent(Silence::OnlyRefusals);
    }
    // The answer to a word that was said before: this one's is still to come.
    let of_another = said.is_some_and(|said| matches!(said.class(), StatusClass::Ok | StatusClass::Answer));
    if of_another && known.vehicle.attempt.may_lose() {
        return First::Shifted;
    }
    First::Silent(said.map_or(Silence::Malformed, silence_of))
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

/// The vehicle answers: it is read from now on.
fn connected(protocol: Option<Protocol>, seen: FirstReply, known: &mut Known, now: Mono) -> Step {
    known.note((seen.layout.headers == Headers::Hidden).then_some(Quirk::NoHeaders));
    known.note(seen.padded.then_some(Quirk::PaddingShown));
    known.note(known.settings.spaces_are_stuck().then_some(Quirk::SpacesStuck));
    known.vehicle.connected(protocol);
    if engine_is_hidden(&seen, known) {
        return Step::Done(Next::SetUp(0));
    }
    known.address.functional(seen.layout.bus);
    let silent = if known.quirks.has(Quirk::SearchesAnew) { Silent::Kept } else { Silent::Forgiven };
    known.polls.start(seen.bus, silent, now);
    for slot in known.polls.slots() {
        known.avoid(slot, now);
    }
    known.tell(Outcome::Connected { protocol, bus: seen.bus, control_units: seen.control_units });
    Step::Done(Next::Poll(seen.layout))
}

/// From whom the engine's control unit answers on CAN, by short and by long identifiers.
/// Source: ISO 15765-4, from memory.
const ENGINE_ON_CAN: [u32; 2] = [0x7E8, 0x18DA_F110];

/// On CAN the engine's control unit answers in every vehicle. Where only others do, a filter may be left over that no
/// warm start clears: once a reset, then it is how this vehicle is.
fn engine_is_hidden(seen: &FirstReply, known: &mut Known) -> bool {
    let of_engine = |ecu: &Ecu| ENGINE_ON_CAN.contains(&ecu.id());
    if seen.control_units.iter().any(of_engine) || !seen.layout.bus.is_can() || seen.control_units.is_empty()
    {
        known.faults.reset_for_engine = false;
        return false;
    }
    let first = !std::mem::replace(&mut known.faults.reset_for_engine, true);
    known.settings.reset_first |= first;
    first
}
