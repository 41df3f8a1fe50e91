//! The dialect as a machine: what to send next, and what came of it. No I/O, no clock.
//!
//! In: bytes as they come, the time. Out: [`Line`]s to write, each in one call, and [`Outcome`]s. Its five doors are
//! [`poll_transmit`](Driver::poll_transmit), [`poll_timeout`](Driver::poll_timeout),
//! [`handle_bytes`](Driver::handle_bytes), [`handle_timeout`](Driver::handle_timeout) and
//! [`poll_outcome`](Driver::poll_outcome); [`handle_opened`](Driver::handle_opened) and
//! [`handle_closed`](Driver::handle_closed) say what became of the link.
//!
//! ```text
//!  bytes -> codec -> exchange -> the phase whose turn it is -> Step: goes on, waits, or names the next phase
//!                                  |     ^
//!                                  v     | everything that is known
//!                                 Wish -> line, timer
//! ```
//!
//! Here: one request and its reply at a time, timers, whose turn it is. Not here: what a phase says and makes of what it
//! hears (`phase/`, with a picture of their order), what outlives it (`known/`), what a reply is worth (`judge.rs`).
//! Method: sections 4, 5, 9, 10, 13 and 16 of the dialect reference.

mod exchange;
mod judge;
mod known;
mod log;
mod look;
mod phase;
mod step;
mod text;
mod timers;

use std::time::Duration;

use frames::Ask;
use units::Mono;

use crate::codec::{Codec, Reply};
use crate::command::{Command, Header, Line, Protocol};
use crate::history::{History, Side};
use crate::outcome::{Identity, Loss, Outcome};
use crate::quirk::{Quirk, Quirks};
use crate::schedule::{Poll, Schedule};

pub use known::tally::{Counts, Tries};
pub use timers::Timer;

use exchange::{Complete, Exchange, Limit, Patience, Unfinished, Word};
use known::harm::Suspect;
use known::turns::Slot;
use known::{DRAIN, Known};
use phase::Phase;
use phase::drain::{Draining, Idle};
use phase::pause::Pausing;
use phase::poll::Polling;
use phase::raise::Raising;
use phase::recover::Recovering;
use phase::search::Searching;
use phase::setup::SettingUp;
use step::{Next, Step, Wish};
use timers::Timers;

/// Talks to one adapter, over one link after another.
#[derive(Debug)]
pub struct Driver {
    link: Link,
    codec: Codec,
    timers: Timers,
    exchange: Option<Exchange>,
    /// Whose turn it is.
    phase: Box<dyn Phase>,
    /// Who goes on once the adapter is in step again.
    aside: Option<Box<dyn Phase>>,
    known: Known,
    history: History,
}

/// What became of the link.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Link {
    Closed,
    Open,
    /// Only a new one helps.
    GivenUp,
}

/// From an empty reply to a counted request to the real one, if it still comes.
/// Own choice: as much as the link is given within a reply; longer, and a firmware that answers a count with nothing
/// costs that each time.
const EMPTY: Duration = Duration::from_millis(500);

impl Driver {
    /// While a link is open, a line leaves or the link is given up at least this often, whatever comes or does not.
    /// After every call of [`Driver::poll_transmit`] that gives nothing there is a timer, and it lies no further ahead.
    /// Own choice: the longest limit of one exchange (30 s, a search) and what may lie between two.
    pub const SPEAKS_WITHIN: Duration = Duration::from_secs(35);

    /// From the moment on at which adapter and vehicle answer as they should, an answer to the gating request comes
    /// within this, whatever went before: what is still waited for (30 s), a pause (10 s), set-up and search.
    /// Source: measured over every simulated firmware and fault (`docs/adapters.md`); the sum of those is an own
    /// choice.
    pub const READS_WITHIN: Duration = Duration::from_secs(60);

    /// A driver that asks what `schedule` says. It does nothing before [`Driver::handle_opened`].
    pub fn new(schedule: Schedule) -> Self {
        Self {
            link: Link::Closed,
            codec: Codec::default(),
            timers: Timers::default(),
            exchange: None,
            phase: Box::new(Idle),
            aside: None,
            known: Known::new(schedule),
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
        self.known.vehicle.remember(protocol);
    }

    /// The same, trying out once how much of the command set the adapter really has: a few harmless questions more.
    #[must_use]
    pub fn thorough(mut self) -> Self {
        self.known.thorough = true;
        self
    }

    /// Asks `ask` once beside the schedule, of `header` or of all; whether it will. It is refused while an earlier one waits.
    /// What came of it is told as of any request; where the connection ended with it twice, as [`Outcome::Avoided`]. It
    /// outlives a reset and a lost link. Nothing but a reading request can be asked: [`Ask`] has no other.
    pub fn ask_aside(&mut self, ask: Ask, header: Option<Header>) -> bool {
        let takes = self.known.polls.set_aside(Poll { ask, header, every: Duration::ZERO });
        if takes {
            self.known.harm.forget(Suspect::Ask(Slot::Aside));
        }
        takes
    }

    /// Whether a request beside the schedule waits or is under way.
    pub const fn has_aside(&self) -> bool {
        self.known.polls.has_aside()
    }

    /// The link is open.
    pub fn handle_opened(&mut self, now: Mono) {
        self.handle_opened_at(None, now);
    }

    /// The link is open, at a rate that the caller can change or at none.
    pub fn handle_opened_at(&mut self, rate: Option<u32>, now: Mono) {
        self.link = Link::Open;
        self.codec.forget();
        self.known.reopened(rate);
        self.go(Step::Done(Next::Drain(DRAIN)), now);
    }

    /// The link is gone; nothing that was under way will come.
    pub fn handle_closed(&mut self, now: Mono) {
        if self.link == Link::Closed {
            return;
        }
        let asking = self.asking();
        if self.link == Link::Open {
            self.known.tell(Outcome::Lost { why: Loss::LinkClosed, asking });
            self.known.blame(now);
        }
        self.codec.forget();
        self.rest(Link::Closed);
    }

    /// Bytes have come.
    pub fn handle_bytes(&mut self, mut bytes: &[u8], now: Mono) {
        self.handle_timeout(now);
        if self.link != Link::Open {
            return;
        }
        self.history.note(Side::Adapter, bytes, now);
        while let Some(mut reply) = self.codec.take(&mut bytes) {
            self.on_reply(&mut reply, now);
            self.codec.done_with(reply);
        }
        if !self.codec.pending().is_empty() {
            self.on_unfinished(now);
        }
    }

    /// The next line to write, in one call; call until `None`.
    pub fn poll_transmit(&mut self, now: Mono) -> Option<Line> {
        self.handle_timeout(now);
        // Each round sends, waits, or moves on to a phase that does; the longest way has four.
        for _ in 0..8 {
            if self.exchange.is_some() || self.waits_for_gap(now) {
                return None;
            }
            let line = match self.phase.poll_wish(&mut self.known, now) {
                Wish::Send { command, line, limit } => {
                    self.known.counts.sent += 1;
                    self.await_reply(Exchange::new(command, line, now), now.after(limit));
                    line
                }
                Wish::Say(line) => line,
                Wish::Listen { command, limit } => {
                    self.await_reply(Exchange::new(command, Line::default(), now), now.after(limit));
                    return None;
                }
                Wish::Nothing(step @ (Step::Done(_) | Step::Resync(..))) => {
                    self.go(step, now);
                    continue;
                }
                Wish::Nothing(step) => {
                    self.go(step, now);
                    return None;
                }
            };
            self.history.note(Side::Us, &line, now);
            return Some(line);
        }
        None
    }

    /// When to call [`Driver::handle_timeout`] if nothing comes before.
    pub fn poll_timeout(&self) -> Option<Mono> {
        [self.timers.next().map(|(_, at)| at), self.known.wire.due()].into_iter().flatten().min()
    }

    /// The time has come, or may have.
    pub fn handle_timeout(&mut self, now: Mono) {
        self.known.wire.handle_timeout(now);
        // Each round clears a timer. One that is set anew lies ahead, since no limit is zero.
        for _ in 0..8 {
            match self.timers.take_ended(now) {
                None => return,
                Some(Timer::Reply) => self.on_expiry(now),
                Some(Timer::Drain | Timer::Quiet | Timer::Pause) => {
                    let step = self.phase.handle_timeout(&mut self.known, now);
                    self.go(step, now);
                }
                // The next wish is asked for anyhow.
                Some(Timer::Due | Timer::Gap) => {}
            }
        }
    }

    /// What came of it; call until `None`.
    pub fn poll_outcome(&mut self) -> Option<Outcome> {
        self.known.outcomes.pop_front()
    }

    /// The rate that the port is to be set to now; asked after every other door, answered once. Nothing is on its way
    /// out then.
    pub const fn poll_rate(&mut self) -> Option<u32> {
        self.known.wire.take_wanted()
    }

    /// Whether it has given the link up: it says no more before a new one is opened. An [`Outcome::Lost`] or
    /// [`Outcome::NotAnAdapter`] has told why.
    pub fn has_given_up(&self) -> bool {
        self.link == Link::GivenUp
    }

    /// What the driver waits for, and until when.
    pub fn waiting_for(&self) -> Option<(Timer, Mono)> {
        self.timers.next()
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
        &self.known.identity
    }

    /// The quirks seen so far.
    pub const fn quirks(&self) -> Quirks {
        self.known.quirks
    }

    /// What was dropped or missed since the link was opened.
    pub const fn counts(&self) -> Counts {
        self.known.counts
    }

    /// The protocol in use, to be remembered for this vehicle.
    pub const fn protocol(&self) -> Option<Protocol> {
        self.known.vehicle.in_use
    }

    /// Does what a phase says follows.
    fn go(&mut self, step: Step, now: Mono) {
        let mut step = step;
        // Each round begins a phase; the longest way has two.
        loop {
            step = match step {
                Step::Stay | Step::Still(_) => return,
                Step::Wait(timer, at) => return self.timers.set(timer, at),
                Step::Stop(timer) => return self.timers.clear(timer),
                Step::Taken => {
                    self.exchange = None;
                    self.timers.clear_all();
                    self.codec.forget();
                    return;
                }
                Step::Resync(from, then) => {
                    let relies = then == Next::Same && self.phase.relies_on_form();
                    let recovering = Box::new(Recovering::in_step(from, then, relies));
                    let aside = self.enter(recovering);
                    self.aside = Some(aside);
                    self.phase.begin(&mut self.known, now)
                }
                Step::Done(Next::GiveUp) => return self.rest(Link::GivenUp),
                Step::Done(next) => {
                    let phase = self.phase_of(next);
                    self.enter(phase);
                    self.phase.begin(&mut self.known, now)
                }
            };
        }
    }

    /// The phase that a word means.
    fn phase_of(&mut self, next: Next) -> Box<dyn Phase> {
        match next {
            Next::Drain(time) => Box::new(Draining::new(time)),
            Next::Wake => Box::new(Recovering::waking()),
            Next::SetUp(step) => Box::new(SettingUp::from_step(step)),
            Next::Raise => Box::new(Raising::Offer),
            Next::Search => Box::new(Searching::Protocol),
            Next::Poll(layout) => Box::new(Polling::new(layout)),
            Next::Pause(why) => Box::new(Pausing::new(why)),
            Next::GiveUp => Box::new(Idle),
            Next::Same => self.aside.take().unwrap_or_else(|| Box::new(SettingUp::from_step(0))),
        }
    }

    /// It is the turn of `phase`: whatever was under way is over. The one before it.
    fn enter(&mut self, phase: Box<dyn Phase>) -> Box<dyn Phase> {
        self.exchange = None;
        self.aside = None;
        self.timers.clear_all();
        std::mem::replace(&mut self.phase, phase)
    }

    /// Nothing more is said on this link.
    fn rest(&mut self, link: Link) {
        self.enter(Box::new(Idle));
        self.known.polls.pause();
        self.link = link;
    }

    /// Something is due by `until`; whatever unfinished text is in the line belongs to nobody.
    fn await_reply(&mut self, exchange: Exchange, until: Mono) {
        self.known.counts.dropped += self.codec.forget() as u64;
        self.timers.set(Timer::Reply, until);
        self.timers.clear(Timer::Due);
        self.exchange = Some(exchange);
    }

    /// Whether a line has to wait for a moment still, for an adapter that is not ready behind its prompt.
    fn waits_for_gap(&mut self, now: Mono) -> bool {
        let at = self.known.pace.not_before().filter(|at| now < *at);
        match at.filter(|_| self.link == Link::Open && !self.phase.keeps_time()) {
            Some(at) => {
                self.timers.set(Timer::Gap, at);
                true
            }
            None => false,
        }
    }

    fn on_reply(&mut self, reply: &mut Reply, now: Mono) {
        self.known.counts.nuls += u64::from(reply.nuls);
        self.known.counts.noise += u64::from(reply.noise);
        let Some(exchange) = self.exchange.take() else {
            self.known.counts.surplus += 1;
            self.known.counts.dropped += reply.text.len() as u64;
            let step = self.phase.handle_surplus(reply, &mut self.known, now);
            return self.go(step, now);
        };
        self.known.note_noise(reply);
        let echo = reply.strip_echo(&exchange.line);
        if reply.cut.is_none() && reply.lines().next().is_none() {
            return self.on_bare_prompt(exchange, now);
        }
        self.known.pace.prompted(now);
        self.timers.clear(Timer::Reply);
        self.known.counts.replies += 1;
        log::exchange(&exchange, &reply.text, log::Ended::Replied, now);
        if let Some(sign) = text::alarm(&reply.text, Some(exchange.command)) {
            let next = self.known.alarm(sign, now);
            return self.go(Step::Done(next), now);
        }
        let complete = Complete { exchange: &exchange, reply, echo };
        match self.phase.handle_reply(&complete, &mut self.known, now) {
            Step::Still(until) => {
                self.timers.set(Timer::Reply, until);
                self.exchange = Some(exchange);
            }
            step => self.go(step, now),
        }
    }

    /// Every command is answered by something: this prompt belongs to an earlier one. Ours is still to come, unless an
    /// adapter took a count digit for less than it is.
    fn on_bare_prompt(&mut self, exchange: Exchange, now: Mono) {
        self.known.counts.surplus += 1;
        // Prompts without end extend no limit.
        if matches!(exchange.command, Command::Counted(..))
            && self.timers.at(Timer::Reply).is_some_and(|at| now.after(EMPTY) < at)
        {
            self.timers.set(Timer::Reply, now.after(EMPTY));
        }
        self.exchange = Some(exchange);
        self.known.note(Quirk::LatePrompt);
    }

    /// Looks at what has come of a reply so far: words that extend its limit, alarms that have no prompt.
    fn on_unfinished(&mut self, now: Mono) {
        let unfinished = Unfinished { text: self.codec.pending(), noise: self.codec.has_noise() };
        let Some(exchange) = self.exchange.as_mut() else {
            let step = self.phase.handle_overheard(unfinished, &mut self.known, now);
            return self.go(step, now);
        };
        let word = exchange.word(unfinished.text);
        match self.phase.handle_unfinished(unfinished, word, &mut self.known, now) {
            Step::Stay if !self.phase.keeps_time() => self.extend(word, now),
            step => self.go(step, now),
        }
    }

    /// Gives the reply the time that `word` asks for.
    fn extend(&mut self, word: Option<Word>, now: Mono) {
        let late = self.known.quirks.has(Quirk::LatePrompt);
        let patience = Patience { wait: self.known.address.wait(), late };
        let (Some(exchange), Some(word)) = (self.exchange.as_mut(), word) else { return };
        match exchange.limit(word, patience, now) {
            Limit::AtLeast(at) if self.timers.next().is_some_and(|(_, before)| before >= at) => {}
            Limit::AtLeast(at) | Limit::At(at) => self.timers.set(Timer::Reply, at),
        }
    }

    /// The limit of the exchange under way has come.
    fn on_expiry(&mut self, now: Mono) {
        let Some(exchange) = self.exchange.take() else { return };
        let unfinished = Unfinished { text: self.codec.pending(), noise: self.codec.has_noise() };
        log::exchange(&exchange, unfinished.text, log::Ended::TimedOut, now);
        let step = self.phase.handle_expiry(&exchange, unfinished, &mut self.known, now);
        self.go(step, now);
    }
}
