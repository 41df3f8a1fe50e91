//! A faster rate on a slow wire, with a safe way back.
//!
//! ```text
//!   ATBRD 23 ─ OK ─► the port is switched ─ the known identification ─► CR ─ OK and prompt ─► kept
//!       │ ? or nothing                          │ anything else             │ nothing
//!       ▼                                       ▼                           ▼
//!    it stays                         nothing is said, the port goes back, ATI
//! ```
//!
//! In: replies, the rate that the link was found at. Out: [`Driver::poll_rate`], the rate that the port is to have.
//! Only a wire below 38400 bit/s is raised: from there on the vehicle is the limit, not the wire (table of section 9).
//! The adapter forgets the rate with `ATZ` and at power-off, never stores it. Method: section 3 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::recover::{Recovery, identification};
use super::search::Stage;
use super::{Driver, Goal, Phase, Purpose};
use crate::codec::Reply;
use crate::command::{Command, Line, Setup};
use crate::outcome::Outcome;

/// The rate that slow wires are raised to, and what it is called: 4000 / 23 hex kbit/s.
const FAST: u32 = 115_200;
/// Wires from this rate on stay as they are.
const ENOUGH: u32 = 38_400;
/// How long the adapter may take to agree (step 2).
const AGREE: Duration = Duration::from_millis(200);
/// It waits 75 ms before it speaks at the new rate (default of `ATBRT`), and its text takes a few ms more.
const SPEAK: Duration = Duration::from_millis(300);
/// After that long without our answer it is back at the old rate: twice its wait (step 4).
const BACK: Duration = Duration::from_millis(150);
/// A reset ends the fast rate; the line that asks for it must be out first.
const LINE_OUT: Duration = Duration::from_millis(100);

/// What is known of the wire.
#[derive(Debug, Default)]
pub(super) struct Wire {
    /// The rate that the link was found at; none for links without one.
    found: Option<u32>,
    /// The rate that the port has now, if it was changed.
    raised: bool,
    tried: bool,
    /// What the caller has still to set.
    wanted: Option<u32>,
    /// When the port goes back.
    back_at: Option<Mono>,
}

/// One step of the hand-shake.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Raise {
    Offer,
    Listen,
    Confirm,
    Back,
}

impl Wire {
    pub(super) fn opened(&mut self, found: Option<u32>) {
        *self = Self { found, ..Self::default() };
    }

    /// Whether it is worth it.
    pub(super) fn is_slow(&self) -> bool {
        !self.tried && self.found.is_some_and(|rate| rate < ENOUGH)
    }

    pub(super) const fn due(&self) -> Option<Mono> {
        self.back_at
    }

    fn go_back(&mut self) {
        if self.raised {
            (self.raised, self.wanted) = (false, self.found);
        }
        self.back_at = None;
    }

    /// `ATZ` leaves now: the adapter will speak at its own rate again.
    pub(super) fn resetting(&mut self, now: Mono) {
        if self.raised {
            self.back_at = Some(now.after(LINE_OUT));
        }
    }

    pub(super) fn handle_timeout(&mut self, now: Mono) {
        if self.back_at.is_some_and(|at| at <= now) {
            self.go_back();
        }
    }
}

impl Driver {
    /// The rate that the port is to be set to now; asked after every other door, answered once. Nothing is on its way
    /// out then.
    pub const fn poll_rate(&mut self) -> Option<u32> {
        self.wire.wanted.take()
    }

    pub(super) fn raise_transmit(&mut self, step: Raise, now: Mono) -> Option<Line> {
        match step {
            Raise::Offer => {
                self.wire.tried = true;
                Some(self.send(Command::Set(Setup::OfferFastRate), Purpose::Raise(step), AGREE, now))
            }
            // The only CR on its own that this program ever sends: here it repeats nothing, it agrees.
            Raise::Confirm => {
                let command = Command::Set(Setup::OfferFastRate);
                Some(self.send_line(Line::agreement(), command, Purpose::Raise(step), SPEAK, now))
            }
            // Nothing is said: the adapter speaks, or goes back by itself.
            Raise::Listen | Raise::Back => {
                let limit = if step == Raise::Listen { SPEAK } else { BACK };
                self.await_reply(
                    Command::Set(Setup::OfferFastRate),
                    Line::default(),
                    Purpose::Raise(step),
                    limit,
                    now,
                );
                None
            }
        }
    }

    /// Text without a prompt, as this hand-shake has it.
    pub(super) fn raise_hears(&mut self, step: Raise) {
        let text = self.codec.pending();
        let whole = text.iter().rposition(|byte| *byte == b'\r').and_then(|end| text.get(..end));
        let Some(whole) = whole else { return };
        let reply = Reply { text: whole.to_vec(), ..Reply::default() };
        match step {
            Raise::Offer if reply.lines().any(|line| frames::status(line) == Some(Status::Ok)) => {
                (self.wire.raised, self.wire.wanted) = (true, Some(FAST));
                self.raise_goes_on(Raise::Listen);
            }
            Raise::Listen if identification(&reply).as_deref() == Some(self.identity.version.as_str()) => {
                self.raise_goes_on(Raise::Confirm);
            }
            _ => {}
        }
    }

    fn raise_goes_on(&mut self, step: Raise) {
        self.exchange = None;
        self.timers.clear_all();
        self.codec.forget();
        self.phase = Phase::Raising(step);
    }

    /// A reply with its prompt: at the offer a refusal, at the end the agreement.
    pub(super) fn raise_reply(&mut self, step: Raise, reply: &Reply, now: Mono) {
        let agreed = reply.lines().any(|line| frames::status(line) == Some(Status::Ok));
        match step {
            Raise::Confirm if agreed => {
                self.tell(Outcome::Rate { baud: FAST });
                self.phase = Phase::Searching(Stage::Protocol);
            }
            Raise::Offer => self.phase = Phase::Searching(Stage::Protocol),
            _ => self.raise_failed(step, now),
        }
    }

    /// The time of a step is over, or what came was not what it should be.
    pub(super) fn raise_failed(&mut self, step: Raise, now: Mono) {
        self.wire.go_back();
        match step {
            Raise::Listen | Raise::Confirm => self.raise_goes_on(Raise::Back),
            Raise::Offer | Raise::Back => self.recover(Recovery::in_step(Goal::Search(Stage::Protocol)), now),
        }
    }
}
