//! The dialect as a machine: what to send next, and what came of it. No I/O, no clock.
//!
//! In: bytes as they come, the time. Out: [`Line`]s to write, each in one call, and [`Outcome`]s. Its five doors are
//! [`poll_transmit`](Driver::poll_transmit), [`poll_timeout`](Driver::poll_timeout),
//! [`handle_bytes`](Driver::handle_bytes), [`handle_timeout`](Driver::handle_timeout) and
//! [`poll_outcome`](Driver::poll_outcome); [`handle_opened`](Driver::handle_opened) and
//! [`handle_closed`](Driver::handle_closed) say what became of the link.
//!
//! ```text
//!  Closed -> Draining -> Recovering (ATI) -> SettingUp -> Searching -> Polling
//!               ^             ^  |               ^            |  ^        |
//!               |             |  +-> Dead        |            v  |        |
//!               +- any reset  +- any time-out ---+---- ... Pausing <------+ vehicle silent
//! ```
//!
//! Here: who waits for what, and what a reply is given to. Not here: each phase (`setup.rs`, `search.rs`, `poll.rs`,
//! `recover.rs`), what a reply to a request is worth (`judge.rs`).
//! Method: sections 4, 5, 9, 10, 13 and 16 of the dialect reference.

mod address;
mod confirm;
mod count;
mod harm;
mod judge;
mod log;
mod notice;
mod pace;
mod poll;
mod rate;
mod recover;
mod search;
mod setup;
mod tally;
mod timers;
mod turns;

use std::collections::VecDeque;
use std::time::Duration;

use frames::Status;
use units::Mono;

use crate::codec::{Codec, Reply};
use crate::command::{Command, Line, Protocol, Setup};
use crate::history::{History, Side};
use crate::outcome::{Identity, Loss, Outcome, Silence};
use crate::quirk::{Quirk, Quirks};
use crate::schedule::Schedule;

pub use tally::{Counts, Tries};
pub use timers::Timer;

use address::Address;
use harm::{Harm, Suspect};
use notice::{Banner, alarm, expects_banner};
use pace::Pace;
use rate::{Raise, Wire};
use recover::Recovery;
use search::{Search, Stage};
use setup::Settings;
use tally::Faults;
use timers::Timers;
use turns::Polls;

/// Talks to one adapter, over one link after another.
#[derive(Debug)]
pub struct Driver {
    codec: Codec,
    timers: Timers,
    phase: Phase,
    exchange: Option<Exchange>,
    outcomes: VecDeque<Outcome>,
    identity: Identity,
    quirks: Quirks,
    settings: Settings,
    search: Search,
    address: Address,
    polls: Polls,
    wire: Wire,
    /// The questions that only a health report needs are asked too.
    thorough: bool,
    counts: Counts,
    faults: Faults,
    harm: Harm,
    pace: Pace,
    history: History,
}

/// What the driver is busy with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Phase {
    /// There is no link.
    Closed,
    /// Whatever is in the line is read and dropped.
    Draining,
    /// Getting in step, at the start and after a time-out.
    Recovering(Recovery),
    /// Settings, one by one.
    SettingUp { step: usize },
    /// Agreeing on a faster rate.
    Raising(Raise),
    /// Looking for the vehicle.
    Searching(Stage),
    /// Reading.
    Polling,
    /// The vehicle is silent; the next attempt follows.
    Pausing,
    /// Given up: only a new link helps.
    Dead,
}

/// Where an interrupted driver goes on once it is in step again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Goal {
    SetUp,
    /// The set-up goes on with this step.
    SetUpAt(usize),
    Search(Stage),
    /// The search failed: tell so, pause, search again.
    Pause(Silence),
    /// This way of looking for the vehicle failed: on with the next.
    Next(Silence),
    Poll,
}

/// One request under way.
#[derive(Debug)]
struct Exchange {
    command: Command,
    line: Line,
    purpose: Purpose,
    sent: Mono,
    /// How much of the unfinished reply has been looked at for words that extend the limit.
    seen: usize,
    /// Whether the control unit asked for more time.
    pending: bool,
    /// When the first line of data came.
    data_from: Option<Mono>,
}

/// Who gets the reply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Purpose {
    Recover,
    SetUp(usize),
    Raise(Raise),
    Search(Stage),
    Address(address::Step),
    Poll,
    Presence,
    Voltage,
    Poke,
}

/// Reading what is in the line at the start.
const DRAIN: Duration = Duration::from_millis(100);
/// From an empty reply to a counted request to the real one, if it still comes.
const EMPTY: Duration = Duration::from_millis(500);
/// The limit of a setting; doubled once a late prompt was seen on this link.
const SETTING: Duration = Duration::from_secs(1);

impl Driver {
    /// While a link is open, a line leaves or the link is given up at least this often, whatever comes or does not: the
    /// longest limit of one exchange (30 s, a search) and what may lie between two. After every call of
    /// [`Driver::poll_transmit`] that gives nothing there is a timer, and it lies no further ahead. Ours.
    pub const SPEAKS_WITHIN: Duration = Duration::from_secs(35);

    /// From the moment on at which adapter and vehicle answer as they should, an answer to the gating request comes within
    /// this, whatever went before: what is still waited for (30 s), a pause (10 s), set-up and search. Measured over every
    /// simulated firmware and fault (`docs/adapters.md`); ours.
    pub const READS_WITHIN: Duration = Duration::from_secs(60);

    /// A driver that asks what `schedule` says. It does nothing before [`Driver::handle_opened`].
    pub fn new(schedule: Schedule) -> Self {
        Self {
            codec: Codec::default(),
            timers: Timers::default(),
            phase: Phase::Closed,
            exchange: None,
            outcomes: VecDeque::new(),
            identity: Identity::default(),
            quirks: Quirks::default(),
            settings: Settings::default(),
            search: Search::default(),
            address: Address::default(),
            polls: Polls::new(schedule),
            wire: Wire::default(),
            thorough: false,
            counts: Counts::default(),
            faults: Faults::default(),
            harm: Harm::default(),
            pace: Pace::default(),
            history: History::default(),
        }
    }

    /// The same, trying first the protocol that this vehicle had the last time.
    #[must_use]
    pub fn with_protocol(mut self, protocol: Protocol) -> Self {
        self.remember(protocol);
        self
    }

    /// The protocol that this vehicle had the last time: the first to be tried.
    pub fn remember(&mut self, protocol: Protocol) {
        self.search.remember(protocol);
    }

    /// The same, trying out once how much of the command set the adapter really has: a few harmless questions more.
    #[must_use]
    pub const fn thorough(mut self) -> Self {
        self.thorough = true;
        self
    }

    /// The link is open, at a rate that the caller can change or at none.
    pub fn handle_opened_at(&mut self, rate: Option<u32>, now: Mono) {
        self.handle_opened(now);
        self.wire.opened(rate);
    }

    /// The link is open.
    pub fn handle_opened(&mut self, now: Mono) {
        self.wire.opened(None);
        self.codec.forget();
        self.exchange = None;
        self.counts = Counts::default();
        self.faults = Faults::default();
        self.settings = Settings::default();
        self.search.reopened();
        self.pace_reopened();
        self.timers.clear_all();
        self.drain(DRAIN, now);
    }

    /// The link is gone; nothing that was under way will come.
    pub fn handle_closed(&mut self, now: Mono) {
        if self.phase == Phase::Closed {
            return;
        }
        let was_dead = self.phase == Phase::Dead;
        let asking = self.exchange.take().map(|exchange| exchange.command);
        if !was_dead {
            self.tell(Outcome::Lost { why: Loss::LinkClosed, asking });
            self.blame(now);
        }
        self.codec.forget();
        self.timers.clear_all();
        self.polls.pause();
        self.phase = Phase::Closed;
    }

    /// Bytes have come.
    pub fn handle_bytes(&mut self, mut bytes: &[u8], now: Mono) {
        self.handle_timeout(now);
        if matches!(self.phase, Phase::Closed | Phase::Dead) {
            return;
        }
        self.history.note(Side::Adapter, bytes, now);
        while let Some(reply) = self.codec.take(&mut bytes) {
            self.on_reply(reply, now);
        }
        if !self.codec.pending().is_empty() {
            self.on_unfinished(now);
        }
    }

    /// The next line to write, in one call; call until `None`.
    pub fn poll_transmit(&mut self, now: Mono) -> Option<Line> {
        self.handle_timeout(now);
        // Each round sends, or moves on to a phase that does; the longest way has four.
        for _ in 0..8 {
            if self.exchange.is_some() || self.waits_for_gap(now) {
                return None;
            }
            let before = self.phase;
            let line = match self.phase {
                Phase::Closed | Phase::Draining | Phase::Pausing | Phase::Dead => None,
                Phase::Recovering(recovery) => self.recover_transmit(recovery, now),
                Phase::SettingUp { step } => self.setup_transmit(step, now),
                Phase::Raising(step) => self.raise_transmit(step, now),
                Phase::Searching(stage) => Some(self.search_transmit(stage, now)),
                Phase::Polling => self.polls_transmit(now),
            };
            if let Some(line) = line {
                self.history.note(Side::Us, &line, now);
                return Some(line);
            }
            if self.phase == before {
                return None;
            }
        }
        None
    }

    /// When to call [`Driver::handle_timeout`] if nothing comes before.
    pub fn poll_timeout(&self) -> Option<Mono> {
        [self.timers.next().map(|(_, at)| at), self.wire.due()].into_iter().flatten().min()
    }

    /// Whether it has given the link up: it says no more before a new one is opened. An [`Outcome::Lost`] or
    /// [`Outcome::NotAnAdapter`] has told why.
    pub fn has_given_up(&self) -> bool {
        self.phase == Phase::Dead
    }

    /// What the driver waits for, and until when.
    pub fn waiting_for(&self) -> Option<(Timer, Mono)> {
        self.timers.next()
    }

    /// The time has come, or may have.
    pub fn handle_timeout(&mut self, now: Mono) {
        self.wire.handle_timeout(now);
        // Each round clears a timer; what it sets anew lies ahead, save with limits of zero, which there are none.
        for _ in 0..8 {
            match self.timers.take_ended(now) {
                None => return,
                Some(Timer::Drain) => self.recover(Recovery::waking(), now),
                Some(Timer::Reply) => self.on_expiry(now),
                Some(Timer::Quiet) => self.recover_quiet(),
                Some(Timer::Pause) => {
                    if self.phase == Phase::Pausing {
                        self.phase = self.search.begin();
                    }
                }
                Some(Timer::Due | Timer::Gap) => {}
            }
        }
    }

    /// What came of it; call until `None`.
    pub fn poll_outcome(&mut self) -> Option<Outcome> {
        self.outcomes.pop_front()
    }

    /// The request under way.
    pub fn asking(&self) -> Option<Command> {
        self.exchange.as_ref().map(|exchange| exchange.command)
    }

    /// The last things said on the link, for fault reports.
    pub const fn history(&self) -> &History {
        &self.history
    }

    /// What the adapter has said of itself so far, whether or not its set-up could be ended.
    pub const fn identity(&self) -> &Identity {
        &self.identity
    }

    /// The quirks seen so far.
    pub const fn quirks(&self) -> Quirks {
        self.quirks
    }

    /// What was dropped or missed since the link was opened.
    pub const fn counts(&self) -> Counts {
        self.counts
    }

    /// The protocol in use, to be remembered for this vehicle.
    pub const fn protocol(&self) -> Option<Protocol> {
        self.search.protocol()
    }

    fn tell(&mut self, outcome: Outcome) {
        self.outcomes.push_back(outcome);
    }

    fn note(&mut self, quirk: Quirk) {
        if self.quirks.note(quirk) {
            self.tell(Outcome::Quirk(quirk));
        }
    }

    fn setting_limit(&self) -> Duration {
        if self.quirks.has(Quirk::LatePrompt) { SETTING * 2 } else { SETTING }
    }

    /// Begins an exchange; whatever unfinished text is in the line belongs to nobody.
    fn send(&mut self, command: Command, purpose: Purpose, limit: Duration, now: Mono) -> Line {
        self.send_line(self.written(command), command, purpose, limit, now)
    }

    fn send_line(
        &mut self,
        line: Line,
        command: Command,
        purpose: Purpose,
        limit: Duration,
        now: Mono,
    ) -> Line {
        self.counts.sent += 1;
        match purpose {
            Purpose::SetUp(_) | Purpose::Voltage => self.harm.left(setting_of(command)),
            // The request at hand is to blame for the addressing that it needs, the way of searching for its first request.
            Purpose::Poll | Purpose::Address(_) => {
                self.harm.left(self.polls.current.map(|current| Suspect::Ask(current.slot)));
            }
            Purpose::Search(_) => self.harm.left(self.search.suspect().or(setting_of(command))),
            // Whoever made it necessary stays to blame.
            Purpose::Recover => {}
            Purpose::Raise(_) | Purpose::Presence | Purpose::Poke => self.harm.left(None),
        }
        self.await_reply(command, line, purpose, limit, now);
        line
    }

    /// Something is due within `limit`; `line` is what drew it, if anything did.
    fn await_reply(&mut self, command: Command, line: Line, purpose: Purpose, limit: Duration, now: Mono) {
        self.counts.dropped += self.codec.forget() as u64;
        self.timers.set(Timer::Reply, now.after(limit));
        self.timers.clear(Timer::Due);
        self.exchange =
            Some(Exchange { command, line, purpose, sent: now, seen: 0, pending: false, data_from: None });
    }

    fn drain(&mut self, time: Duration, now: Mono) {
        self.phase = Phase::Draining;
        self.settings.restarted();
        self.address.forget();
        self.polls.pause();
        self.timers.set(Timer::Drain, now.after(time));
    }

    fn on_reply(&mut self, mut reply: Reply, now: Mono) {
        self.count_noise(&reply);
        let Some(exchange) = self.exchange.as_ref() else {
            return self.on_surplus(&reply, now);
        };
        let echo = reply.strip_echo(&exchange.line);
        if reply.cut.is_none() && reply.lines().next().is_none() {
            // Every command is answered by something: this prompt belongs to an earlier one. Ours is still to come,
            // unless an adapter took a count digit for less than it is.
            self.counts.surplus += 1;
            // Prompts without end extend no limit.
            if matches!(exchange.command, Command::Counted(..))
                && self.timers.at(Timer::Reply).is_some_and(|at| now.after(EMPTY) < at)
            {
                self.timers.set(Timer::Reply, now.after(EMPTY));
            }
            return self.note(Quirk::LatePrompt);
        }
        let Some(exchange) = self.exchange.take() else { return };
        self.prompted(now);
        self.timers.clear(Timer::Reply);
        self.counts.replies += 1;
        log::exchange(&exchange, &reply.text, log::Ended::Replied, now);
        if let Some(sign) = alarm(&reply, expects_banner(exchange.command)) {
            return self.on_alarm(sign, now);
        }
        match exchange.purpose {
            // Decided when it is known what came, or once the adapter is in step.
            Purpose::Poll | Purpose::SetUp(_) | Purpose::Recover => {}
            // Only the way to the request that may do harm.
            Purpose::Address(_) | Purpose::Search(Stage::Protocol) => self.harm.survived(),
            _ => self.harm.answered(),
        }
        match exchange.purpose {
            Purpose::Recover => self.recover_reply(exchange, &reply, echo, now),
            Purpose::SetUp(step) => self.setup_reply(step, &exchange, &reply, echo, now),
            Purpose::Raise(step) => self.raise_reply(step, &reply, now),
            Purpose::Search(stage) => self.search_reply(stage, &exchange, &reply, echo, now),
            Purpose::Address(step) => self.address_reply(step, &exchange, &reply, now),
            Purpose::Poll => self.poll_reply(&exchange, &reply, echo, now),
            Purpose::Presence => self.presence_reply(&reply, now),
            Purpose::Voltage => self.voltage_reply(&reply, now),
            Purpose::Poke => {}
        }
    }

    /// A reply that nobody waits for.
    fn on_surplus(&mut self, reply: &Reply, now: Mono) {
        self.counts.surplus += 1;
        self.counts.dropped += reply.text.len() as u64;
        match self.phase {
            Phase::Recovering(recovery) => return self.recover_surplus(recovery, reply, now),
            Phase::Draining | Phase::Closed | Phase::Dead => return,
            Phase::SettingUp { .. }
            | Phase::Raising(_)
            | Phase::Searching(_)
            | Phase::Polling
            | Phase::Pausing => {}
        }
        if let Some(sign) = alarm(reply, Banner::Unasked) {
            return self.on_alarm(sign, now);
        }
        if reply.lines().any(|line| frames::status(line) == Some(Status::ActivityAlert)) {
            return self.polls.poke();
        }
        self.note(Quirk::LatePrompt);
        // An adapter that says everything twice would be brought in step for ever.
        let holds_text = reply.lines().next().is_some() && self.phase != Phase::Pausing;
        if holds_text && self.faults.surplus.strike(now) <= 3 {
            let goal = self.goal();
            self.recover(Recovery::in_step(goal), now);
        }
    }

    /// Where to go on after an interruption of the present phase.
    fn goal(&self) -> Goal {
        match self.phase {
            Phase::Polling => Goal::Poll,
            Phase::Raising(_) => Goal::Search(Stage::Protocol),
            Phase::Searching(_) | Phase::Pausing => Goal::Pause(Silence::TimedOut),
            _ => Goal::SetUp,
        }
    }

    /// The limit of the exchange under way has come.
    fn on_expiry(&mut self, now: Mono) {
        let Some(exchange) = self.exchange.take() else {
            // The interruption itself drew an endless stream.
            return self.recover_quiet();
        };
        log::exchange(&exchange, self.codec.pending(), log::Ended::TimedOut, now);
        if exchange.purpose == Purpose::Recover {
            return self.recover_expired(&exchange, now);
        }
        if let Purpose::Raise(step) = exchange.purpose {
            return self.raise_failed(step, now);
        }
        self.counts.timed_out += 1;
        let goal = match exchange.purpose {
            Purpose::SetUp(step) => {
                self.spaces_shown(&exchange.line, false);
                self.settings.missed(step);
                if step == 0 { Goal::SetUp } else { Goal::SetUpAt(step) }
            }
            Purpose::Search(stage) => self.search_expired(stage),
            Purpose::Presence => Goal::Pause(Silence::TimedOut),
            Purpose::Poll | Purpose::Address(_) => self.poll_expired(exchange.pending, now),
            Purpose::Voltage | Purpose::Poke | Purpose::Recover | Purpose::Raise(_) => Goal::Poll,
        };
        let whole = self.codec.pending().last().is_some_and(|byte| matches!(byte, b'\r' | b'\n'));
        self.recover(if whole { Recovery::for_the_prompt(goal) } else { Recovery::in_step(goal) }, now);
    }

    fn give_up(&mut self, last: Outcome, now: Mono) {
        self.exchange = None;
        self.timers.clear_all();
        self.polls.pause();
        self.phase = Phase::Dead;
        self.tell(last);
        self.blame(now);
    }

    /// The connection has ended: what was under way the last time too is avoided from now on.
    fn blame(&mut self, now: Mono) {
        let (command, header) = match self.harm.ended(now) {
            None => return,
            Some(Suspect::Set(setup)) => (Command::Set(setup), None),
            Some(Suspect::Ask(slot)) => {
                let Some(poll) = self.polls.poll(slot) else { return };
                self.avoid(slot, now);
                (Command::Read(poll.ask), poll.header)
            }
        };
        self.tell(Outcome::Avoided { command, header });
    }

    /// Puts a request off that is avoided, until it is not.
    fn avoid(&mut self, slot: turns::Slot, now: Mono) {
        if let Some(until) = self.harm.avoided(Suspect::Ask(slot), now) {
            self.polls.put_off(slot, until);
        }
    }

    fn is_avoided(&self, setup: Setup, now: Mono) -> bool {
        self.harm.avoided(Suspect::Set(setup), now).is_some()
    }
}

/// The word to the adapter that a command is, as something that can be blamed.
const fn setting_of(command: Command) -> Option<Suspect> {
    match command {
        Command::Set(setup) => Some(Suspect::Set(setup)),
        Command::Read(_) | Command::Counted(..) => None,
    }
}
