//! Reading: which request is due, and what is done about its reply.
//!
//! In: whose turn it is (`known/turns.rs`), findings about replies (`judge.rs`), the time. Out: one request after another,
//! and what came of each: an answer, a repetition, a typed failure. Nothing else becomes a reading.
//! Method: sections 9, 13 and 16 of the dialect reference.

mod current;

use std::time::Duration;

use frames::{Ask, Layout, Message, Remedy, Status};
use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::command::{Command, Header, Setup};
use crate::driver::exchange::{Complete, Exchange, Unfinished, Word};
use crate::driver::judge::{Finding, judge};
use crate::driver::known::address::{Change, Refused};
use crate::driver::known::harm::Suspect;
use crate::driver::known::turns::{Choice, Slot, Turn};
use crate::driver::known::{Belief, Known};
use crate::driver::step::{Next, Start, Step, Wish};
use crate::driver::text::{self, silence_of};
use crate::driver::timers::Timer;
use crate::outcome::{Doubt, Outcome, ResetSign, Silence};
use crate::quirk::Quirk;
use crate::schedule::Poll;

use current::Current;

/// Reading one vehicle.
#[derive(Debug)]
pub(crate) struct Polling {
    /// How its replies are laid out.
    layout: Layout,
    /// The request whose turn it is, until something came of it.
    current: Option<Current>,
    /// What was asked last.
    asked: Asked,
}

/// What an exchange is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asked {
    /// The current request.
    Request,
    /// Is the vehicle there at all?
    Presence,
    /// What the current request needs before it: another address, another wait.
    Change(Change),
    Voltage,
    /// Anything, so that the adapter does not fall asleep.
    Poke,
}

/// The limit of a data request: twice the adapter's wait, 1 s for the control unit, 0.5 s for the link.
/// Own choice: control units answer within 50 ms (ISO 15765-4, from memory), slow ones within a second; shorter loses
/// answers, longer makes each lost prompt felt.
const LIMIT_BESIDE: Duration = Duration::from_millis(1_500);
/// A control unit that asks for more time in a reply of its own is asked again so often.
/// Source: 5 s by ISO 14229-2, from memory, at the adapter's longest wait of 1.04 s each.
const PENDING_REPEATS: u8 = 5;
/// So many requests in a row without a reply, and the adapter is set up again.
/// Own choice: one or two are lost bytes; each costs some 2 s, and a reading older than 5 s is none (docs/gate.md).
const MISSES: u8 = 3;
/// So often within a minute an adapter may look for its protocol anew before that is taken for its nature.
/// Own choice: a dip of the supply makes it search once or twice; its nature shows after each silence.
const SEARCHES: u8 = 3;

/// What to do about a text of the adapter: repeat how often, after which pause.
/// Source: fixtures/reference/adapter/responses.csv, column `driver_action`.
#[rustfmt::skip]
const REPEATS: &[(Status, u8, Duration)] = &[
    (Status::Stopped,        1, Duration::ZERO),
    (Status::BusInitStopped, 1, Duration::ZERO),
    (Status::BufferFull,     1, Duration::ZERO),
    (Status::BusBusy,        3, Duration::from_millis(200)),
    (Status::BusError,       1, Duration::from_secs(1)),
    (Status::CanError,       1, Duration::from_secs(1)),
    (Status::DataError,      2, Duration::ZERO),
    (Status::RxError,        2, Duration::ZERO),
    (Status::ActivityAlert,  1, Duration::ZERO),
];

impl Polling {
    pub(crate) const fn new(layout: Layout) -> Self {
        Self { layout, current: None, asked: Asked::Poke }
    }

    /// A word to the adapter, between two requests.
    fn tell(&mut self, asked: Asked, setup: Setup, known: &mut Known) -> Wish {
        let command = Command::Set(setup);
        self.asked = asked;
        known.harm.left(Suspect::of(command).filter(|_| asked == Asked::Voltage));
        Wish::send(command, known.pace.written(command), known.setting_limit())
    }

    /// The next step of the current request: addressing first, then the request itself, not before it is safe.
    fn ask(&mut self, current: Current, known: &mut Known, now: Mono) -> Wish {
        let long = current.pending > 0 || known.polls.is_slow(current.slot);
        let header = current.poll.header;
        let change = if current.close {
            Some((Setup::CloseProtocol, Change::Close))
        } else {
            known.address.next_wait(long).or_else(|| known.address.next(header))
        };
        let awaited = if change.is_none() { current.awaited(known) } else { None };
        let ask = current.poll.ask;
        let command = match (change, awaited) {
            (Some((setup, _)), _) => Command::Set(setup),
            (None, Some((_, awaited))) => Command::Counted(ask, awaited),
            (None, None) => Command::Read(ask),
        };
        let (line, safe_from) = known.pace.prepared(command);
        if let Some(at) = safe_from.filter(|at| now < *at) {
            return Wish::Nothing(Step::Wait(Timer::Gap, at));
        }
        // It is to blame for the addressing that it needs.
        let suspect = Some(Suspect::Ask(current.slot));
        if let Some((_, change)) = change {
            self.asked = Asked::Change(change);
            self.current = Some(Current { close: false, ..current });
            known.harm.left(suspect);
            return Wish::send(command, line, known.setting_limit());
        }
        let turn = if current.confirms { Turn::Extra } else { Turn::Own };
        known.polls.left(current.slot, header, turn, now);
        known.counts.gating.asked += u64::from(current.slot == Slot::Gating);
        let presence = current.slot == Slot::Presence;
        self.asked = if presence { Asked::Presence } else { Asked::Request };
        self.current = Some(Current { digit: awaited.map(|(lines, _)| lines), ..current });
        known.harm.left(suspect.filter(|_| !presence));
        Wish::send(command, line, 2 * known.address.wait() + LIMIT_BESIDE)
    }

    /// The reply to a request of the schedule.
    fn replied(&mut self, complete: &Complete<'_>, known: &mut Known, now: Mono) -> Step {
        let Some(current) = self.current.take() else { return Step::Stay };
        let (reply, slot) = (complete.reply, current.slot);
        known.faults.misses = 0;
        if let Some(what) = known.form_sign(reply, complete.echo, now) {
            known.tell(current.suspect(Doubt::AfterReset));
            known.polls.told(slot);
            return Step::Done(known.alarm(ResetSign::Form(what), now));
        }
        let finding = current.judge(reply, self.layout);
        if reply.noise > 0 || is_damage(&finding) {
            known.faults.damaged = Some(now);
        }
        if current.learn_count(&finding, reply, known) {
            known.counts.gating.again += u64::from(slot == Slot::Gating);
            known.harm.answered();
            let undigited = finding == Finding::Says(Status::NoData);
            return self.repeat(Current { digit: None, undigited, ..current }, Duration::ZERO, known, now);
        }
        // A vehicle that is gone after it may be gone because of it.
        if !matches!(finding, Finding::Says(status) if is_gone(status)) && finding != Finding::HeadersLost {
            known.harm.answered();
        }
        match finding {
            Finding::Answer(messages) => self.answer(current, messages, complete, known, now),
            Finding::Declined(code) => {
                if code.remedy() == Remedy::DoNotAskAgain {
                    known.polls.silent(slot, now);
                }
                known.polls.over(slot);
                known.polls.quiet = 0;
                let Poll { ask, header, .. } = current.poll;
                known.tell(Outcome::Declined { ask, header, code });
                Step::Stay
            }
            Finding::Pending if current.pending < PENDING_REPEATS => {
                known.polls.was_pending(slot);
                known.counts.gating.again += u64::from(slot == Slot::Gating);
                self.current = Some(Current { pending: current.pending + 1, ..current });
                Step::Stay
            }
            Finding::Pending => current.unanswered(Silence::Pending, known, now),
            Finding::Says(status) => self.says(current, status, known, now),
            Finding::Spoilt(_) if current.repeats == 0 => self.repeat(current, Duration::ZERO, known, now),
            Finding::Spoilt(why) | Finding::Doubtful(why) => current.doubtful(why, known, now),
            Finding::HeadersLost => {
                known.blame(now);
                known.tell(current.suspect(Doubt::AfterReset));
                known.polls.told(slot);
                Step::Done(known.alarm(ResetSign::Form("no headers"), now))
            }
        }
    }

    fn answer(
        &mut self,
        current: Current,
        messages: Vec<Message>,
        complete: &Complete<'_>,
        known: &mut Known,
        now: Mono,
    ) -> Step {
        let Current { slot, poll: Poll { ask, header, .. }, .. } = current;
        if text::holds_pending(&complete.reply.text, ask) {
            known.polls.was_pending(slot);
        } else {
            known.polls.was_quick(slot);
        }
        match current.belief(&messages, known, now) {
            Belief::Sure => {}
            Belief::Again => {
                known.counts.gating.again += u64::from(slot == Slot::Gating);
                known.polls.not_before = known.polls.not_before.max(known.polls.ready_at(now));
                self.current = Some(Current { confirms: true, ..current });
                return Step::Stay;
            }
            Belief::Unsteady => return current.doubtful(Doubt::Unsteady, known, now),
        }
        known.answered();
        known.polls.answered(slot);
        known.tell(Outcome::Answer { ask, header, sent: complete.exchange.sent, at: now, messages });
        Step::Stay
    }

    fn says(&mut self, current: Current, status: Status, known: &mut Known, now: Mono) -> Step {
        let row = REPEATS.iter().find(|row| row.0 == status);
        if let Some(&(.., pause)) = row.filter(|row| current.repeats < row.1) {
            let close = status == Status::CanError;
            return self.repeat(Current { close, ..current }, pause, known, now);
        }
        if current.repeats > 0 && matches!(status, Status::Stopped | Status::NotUnderstood) {
            known.pace.broke_off(now);
        }
        match status {
            // Asking for anything else would only take longer to say so.
            _ if is_gone(status) => {
                let why = silence_of(status);
                known.tell(current.no_answer(why));
                known.blame(now);
                known.polls.told(current.slot);
                Step::Done(Next::Pause(why))
            }
            Status::DataError | Status::RxError => {
                current.doubtful(Doubt::Malformed(status.kind()), known, now)
            }
            Status::NoData
            | Status::NotUnderstood
            | Status::Stopped
            | Status::BusInitStopped
            | Status::BusBusy
            | Status::BusError
            | Status::BufferFull => current.unanswered(silence_of(status), known, now),
            // A text that answers another command: replies have shifted.
            _ => current.doubtful(Doubt::OtherRequest, known, now),
        }
    }

    fn repeat(&mut self, current: Current, pause: Duration, known: &mut Known, now: Mono) -> Step {
        known.polls.not_before = known.polls.not_before.max(now.after(pause));
        self.current = Some(Current { repeats: current.repeats + 1, ..current });
        Step::Stay
    }

    /// What became of a change of address or wait.
    fn changed(&mut self, change: Change, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        match reply.lines().find_map(frames::status) {
            Some(Status::Ok) => known.address.done(change),
            Some(Status::NotUnderstood) => match known.address.refused(change) {
                Refused::GoOn => {}
                Refused::NoReceiveAddress => known.note(Quirk::NoCra),
                Refused::NoFlowControl => known.note(Quirk::NoFc),
                Refused::NotAddressable => return self.header_refused(known, now),
                Refused::Stuck => {
                    known.polls.pause();
                    return Step::Done(Next::SetUp(0));
                }
            },
            // Neither: whatever this belongs to, it is not ours.
            _ => return Step::Resync(Start::Interrupt, Next::Same),
        }
        Step::Stay
    }

    /// The header of the current request was refused: once more, then seldom.
    fn header_refused(&mut self, known: &mut Known, now: Mono) -> Step {
        match self.current {
            Some(current) if current.repeats == 0 => self.repeat(current, Duration::ZERO, known, now),
            Some(current) => {
                known.polls.refused(current.slot, now);
                self.not_addressable(current, known);
                Step::Stay
            }
            None => Step::Stay,
        }
    }

    fn not_addressable(&mut self, current: Current, known: &mut Known) {
        self.current = None;
        let to = current.poll.header.unwrap_or(Header::functional(known.address.bus()));
        known.tell(current.suspect(Doubt::NotAddressable(to)));
    }

    /// The reply to the question whether the vehicle is there at all.
    fn presence(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        self.current = None;
        let why = match judge(&reply.text, self.layout, Ask::Current(0x00), None) {
            Finding::Answer(_) => {
                known.polls.quiet = 0;
                return Step::Stay;
            }
            Finding::HeadersLost => return Step::Done(known.alarm(ResetSign::Form("no headers"), now)),
            Finding::Says(status) => silence_of(status),
            Finding::Declined(_) | Finding::Pending => Silence::OnlyRefusals,
            Finding::Spoilt(_) | Finding::Doubtful(_) => Silence::Malformed,
        };
        Step::Done(Next::Pause(why))
    }

    /// No complete reply came in time; where to go on once the adapter is in step again.
    fn missed(&mut self, asked: &Exchange, known: &mut Known, now: Mono) -> Next {
        if let Some(current) = self.current.take() {
            if current.digit.is_some() {
                known.polls.withdraw_count(current.slot);
            }
            // One that is never answered in time must not take the time of the others.
            known.polls.silent(current.slot, now);
            known.polls.back_off("timed-out", now);
            let why = if asked.pending { Silence::Pending } else { Silence::TimedOut };
            known.tell(current.no_answer(why));
        }
        known.faults.misses = if asked.pending { 0 } else { known.faults.misses + 1 };
        if known.faults.misses < MISSES {
            return Next::Same;
        }
        known.faults.misses = 0;
        known.counts.resets += 1;
        known.tell(Outcome::Reset { sign: ResetSign::Misses });
        Next::SetUp(0)
    }
}

impl Phase for Polling {
    fn poll_wish(&mut self, known: &mut Known, now: Mono) -> Wish {
        if known.polls.take_poke() {
            return self.tell(Asked::Poke, Setup::Identify, known);
        }
        // One round per request that turns out not to be addressable; each is barred then.
        loop {
            let current = match self.current {
                Some(current) => current,
                None => match known.polls.choose(now) {
                    Choice::Ask(slot) => match Current::first(slot, &mut known.polls) {
                        Some(current) => *self.current.insert(current),
                        None => return Wish::Nothing(Step::Stay),
                    },
                    Choice::Voltage => {
                        known.polls.voltage_left(now);
                        return self.tell(Asked::Voltage, Setup::Voltage, known);
                    }
                    Choice::Wait(None) => return Wish::Nothing(Step::Stay),
                    Choice::Wait(Some(until)) => return Wish::Nothing(Step::Wait(Timer::Due, until)),
                },
            };
            if current.poll.header.is_some_and(|header| !header.fits(known.address.bus())) {
                // Until the next connection.
                known.polls.bar(current.slot);
                self.not_addressable(current, known);
                continue;
            }
            let not_before = known.polls.not_before;
            if now < not_before {
                return Wish::Nothing(Step::Wait(Timer::Due, not_before));
            }
            return self.ask(current, known, now);
        }
    }

    fn handle_reply(&mut self, complete: &Complete<'_>, known: &mut Known, now: Mono) -> Step {
        let reply = complete.reply;
        match self.asked {
            Asked::Request => return self.replied(complete, known, now),
            Asked::Change(change) => {
                known.harm.survived();
                return self.changed(change, reply, known, now);
            }
            Asked::Presence => {
                known.harm.answered();
                return self.presence(reply, known, now);
            }
            Asked::Voltage => {
                known.harm.answered();
                known.voltage(reply, now);
            }
            Asked::Poke => known.harm.answered(),
        }
        Step::Stay
    }

    /// An adapter that was reading looks for the protocol: it has lost it, and with it whatever else was set. To set it up
    /// again and name the protocol is quicker than its search.
    fn handle_unfinished(
        &mut self,
        _unfinished: Unfinished<'_>,
        word: Option<Word>,
        known: &mut Known,
        now: Mono,
    ) -> Step {
        // Before a repetition the protocol may have been closed.
        let first = self.current.filter(|current| self.asked == Asked::Request && current.repeats == 0);
        let Some(current) = first else { return Step::Stay };
        if word != Some(Word::Searching) || known.quirks.has(Quirk::SearchesAnew) {
            return Step::Stay;
        }
        known.counts.resets += 1;
        self.current = None;
        if current.slot != Slot::Aside {
            known.polls.over(current.slot);
        }
        known.harm.survived();
        // The protocol was named each time: this is how the adapter is, and it finds the vehicle by itself.
        let by_nature = known.faults.searches.strike(now) > SEARCHES;
        known.note(by_nature.then_some(Quirk::SearchesAnew));
        known.tell(Outcome::Reset { sign: ResetSign::Form("it looks for the protocol anew") });
        Step::Resync(Start::Interrupt, Next::SetUp(0))
    }

    fn handle_expiry(
        &mut self,
        asked: &Exchange,
        unfinished: Unfinished<'_>,
        known: &mut Known,
        now: Mono,
    ) -> Step {
        known.counts.timed_out += 1;
        let then = match self.asked {
            Asked::Presence => Next::Pause(Silence::TimedOut),
            Asked::Request | Asked::Change(_) => self.missed(asked, known, now),
            Asked::Voltage | Asked::Poke => Next::Same,
        };
        Step::Resync(Start::after(unfinished.text), then)
    }

    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.surplus(reply, Some(Next::Same), now)
    }

    fn handle_overheard(&mut self, unfinished: Unfinished<'_>, known: &mut Known, now: Mono) -> Step {
        known.overheard(unfinished.text, now)
    }

    fn relies_on_form(&self) -> bool {
        true
    }
}

/// Whether a text says that the vehicle is gone.
const fn is_gone(status: Status) -> bool {
    matches!(status, Status::UnableToConnect | Status::BusInitError | Status::CanError)
}

/// Whether the line has spoilt a reply.
const fn is_damage(finding: &Finding) -> bool {
    matches!(finding, Finding::Spoilt(_) | Finding::Doubtful(Doubt::Malformed(_) | Doubt::OtherRequest))
}
