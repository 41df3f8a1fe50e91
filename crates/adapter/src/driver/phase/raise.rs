//! A faster rate on a slow wire, with a safe way back.
//!
//! ```text
//!   ATBRD 23 ─ OK ─► the port is switched ─ the known identification ─► CR ─ OK and prompt ─► kept
//!       │ ? or nothing                          │ anything else             │ nothing
//!       ▼                                       ▼                           ▼
//!    it stays                         nothing is said, the port goes back, ATI
//! ```
//!
//! In: replies. Out: the rate that the port is to have (`known/wire.rs`); then the search.
//! The adapter forgets the rate with `ATZ` and at power-off, never stores it. Method: section 3 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::command::{Command, Line, Setup};
use crate::driver::exchange::{Complete, Exchange, Unfinished, Word};
use crate::driver::known::{Known, wire};
use crate::driver::step::{Next, Start, Step, Wish};
use crate::driver::text::{identification, says, whole_lines};
use crate::outcome::Outcome;

/// How long the adapter may take to agree.
/// Own choice: settings are answered within some 20 ms on a wire; this is offered on wires only.
const AGREE: Duration = Duration::from_millis(200);
/// It waits 75 ms before it speaks at the new rate, and its text takes a few ms more.
/// Source: data sheet page 51 (default of `ATBRT`); the rest is a margin for chips that hold short replies back.
const SPEAK: Duration = Duration::from_millis(300);
/// After that long without our answer it is back at the old rate.
/// Source: data sheet page 51: twice its wait of 75 ms.
const BACK: Duration = Duration::from_millis(150);
/// What it was asked.
const OFFER: Command = Command::Set(Setup::OfferFastRate);

/// One step of the hand-shake.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Raising {
    Offer,
    Listen,
    Confirm,
    Back,
}

impl Raising {
    /// The time of a step is over, or what came was not what it should be.
    fn failed(&mut self, known: &mut Known) -> Step {
        known.wire.go_back();
        match self {
            Self::Listen | Self::Confirm => {
                *self = Self::Back;
                Step::Taken
            }
            Self::Offer | Self::Back => Step::Resync(Start::Interrupt, Next::Search),
        }
    }
}

impl Phase for Raising {
    fn poll_wish(&mut self, known: &mut Known, _now: Mono) -> Wish {
        match self {
            Self::Offer => {
                known.wire.offered();
                known.harm.left(None);
                Wish::send(OFFER, known.pace.written(OFFER), AGREE)
            }
            // The only CR on its own that this program ever sends: here it repeats nothing, it agrees.
            Self::Confirm => {
                known.harm.left(None);
                Wish::send(OFFER, Line::agreement(), SPEAK)
            }
            // Nothing is said: the adapter speaks, or goes back by itself.
            Self::Listen => Wish::Listen { command: OFFER, limit: SPEAK },
            Self::Back => Wish::Listen { command: OFFER, limit: BACK },
        }
    }

    /// Text without a prompt, as this hand-shake has it.
    fn handle_unfinished(
        &mut self,
        unfinished: Unfinished<'_>,
        _word: Option<Word>,
        known: &mut Known,
        _now: Mono,
    ) -> Step {
        let Some(whole) = whole_lines(unfinished.text) else { return Step::Stay };
        let reply = Reply { text: whole.to_vec(), ..Reply::default() };
        match self {
            Self::Offer if says(&reply, Status::Ok) => {
                known.wire.go_fast();
                *self = Self::Listen;
                Step::Taken
            }
            Self::Listen if identification(&reply).as_deref() == Some(known.identity.version.as_str()) => {
                *self = Self::Confirm;
                Step::Taken
            }
            _ => Step::Stay,
        }
    }

    /// A reply with its prompt: at the offer a refusal, at the end the agreement.
    fn handle_reply(&mut self, complete: &Complete<'_>, known: &mut Known, _now: Mono) -> Step {
        known.harm.answered();
        match self {
            Self::Confirm if says(complete.reply, Status::Ok) => {
                known.tell(Outcome::Rate { baud: wire::FAST });
                Step::Done(Next::Search)
            }
            Self::Offer => Step::Done(Next::Search),
            _ => self.failed(known),
        }
    }

    fn handle_expiry(
        &mut self,
        _asked: &Exchange,
        _unfinished: Unfinished<'_>,
        known: &mut Known,
        _now: Mono,
    ) -> Step {
        self.failed(known)
    }

    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.surplus(reply, Some(Next::Search), now)
    }

    fn keeps_time(&self) -> bool {
        true
    }
}
