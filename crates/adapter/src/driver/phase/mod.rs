//! The phases of a link, each a machine with its own state, and the doors that all of them have.
//!
//! ```text
//!  Idle -> Draining -> Recovering (ATI) -> SettingUp -> Raising -> Searching -> Polling
//!             ^           ^   |               ^                        |  ^        |
//!             |           |   +-> Idle        |                        v  |        |
//!             +- reset    +- time-out --------+-------------------- Pausing <------+ vehicle silent
//! ```
//!
//! In: what came for the phase, the time, everything that is [`Known`]. Out: the next [`Wish`], or the [`Step`] that
//! follows. A phase knows no other: where it ends it names the next by a word. Not here: bytes, timers and whose turn it
//! is (`driver/mod.rs`).

pub(crate) mod drain;
pub(crate) mod pause;
pub(crate) mod poll;
pub(crate) mod raise;
pub(crate) mod recover;
pub(crate) mod search;
pub(crate) mod setup;

use std::fmt;

use units::Mono;

use super::exchange::{Complete, Exchange, Unfinished, Word};
use super::known::Known;
use super::step::{Step, Wish};
use crate::codec::Reply;

/// What the driver is busy with. Doors that a phase does not have change nothing.
pub(crate) trait Phase: fmt::Debug + Send + Sync {
    /// It is its turn: at first, and again after an interruption.
    fn begin(&mut self, _known: &mut Known, _now: Mono) -> Step {
        Step::Stay
    }

    /// What to say next; asked when nothing is under way.
    fn poll_wish(&mut self, _known: &mut Known, _now: Mono) -> Wish {
        Wish::Nothing(Step::Stay)
    }

    /// The reply to what was said last.
    fn handle_reply(&mut self, _complete: &Complete<'_>, _known: &mut Known, _now: Mono) -> Step {
        Step::Stay
    }

    /// The reply has begun; `word` says something of its end.
    fn handle_unfinished(
        &mut self,
        _unfinished: Unfinished<'_>,
        _word: Option<Word>,
        _known: &mut Known,
        _now: Mono,
    ) -> Step {
        Step::Stay
    }

    /// The reply did not come in time.
    fn handle_expiry(
        &mut self,
        _asked: &Exchange,
        _unfinished: Unfinished<'_>,
        _known: &mut Known,
        _now: Mono,
    ) -> Step {
        Step::Stay
    }

    /// A reply that nobody waits for.
    fn handle_surplus(&mut self, _reply: &Reply, _known: &mut Known, _now: Mono) -> Step {
        Step::Stay
    }

    /// Text that nobody waits for, without a prompt so far.
    fn handle_overheard(&mut self, _unfinished: Unfinished<'_>, _known: &mut Known, _now: Mono) -> Step {
        Step::Stay
    }

    /// The time that it asked for has come.
    fn handle_timeout(&mut self, _known: &mut Known, _now: Mono) -> Step {
        Step::Stay
    }

    /// Whether it keeps a time of its own: no pause behind a prompt, and no word extends a limit.
    fn keeps_time(&self) -> bool {
        false
    }

    /// Whether it relies on the form that replies were set to.
    fn relies_on_form(&self) -> bool {
        false
    }
}
