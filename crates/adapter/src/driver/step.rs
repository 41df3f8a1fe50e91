//! The words between a phase and the driver: what is to be said, what follows, which phase is next.
//!
//! Phases know nothing of each other. One that is over names the next by its word here, and the driver begins it
//! (`mod.rs`). Not here: what each phase does (`phase/`).

use std::time::Duration;

use frames::Layout;
use units::Mono;

use super::timers::Timer;
use crate::command::{Command, Line};
use crate::outcome::Silence;

/// What a phase wants to say, asked of it whenever nothing is under way.
#[derive(Debug)]
pub(super) enum Wish {
    /// A request; its reply is due within the limit.
    Send {
        command: Command,
        /// How it is written.
        line: Line,
        limit: Duration,
    },
    /// A line that draws no reply of its own.
    Say(Line),
    /// Nothing, but the adapter speaks within so long; this is what it was asked.
    Listen { command: Command, limit: Duration },
    /// Nothing.
    Nothing(Step),
}

/// What follows from what a phase was given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    /// All goes on: the exchange if there is one, else the next wish.
    Stay,
    /// The same, and the phase is called at that time.
    Wait(Timer, Mono),
    /// The same, and the phase need not be called any more: what it waited for has come.
    Stop(Timer),
    /// The text so far is all that this exchange gives: no prompt follows.
    Taken,
    /// This was not the reply, which is due by then.
    Still(Mono),
    /// First the adapter has to be in step again; then that phase.
    Resync(Start, Next),
    /// This phase is over.
    Done(Next),
}

/// Where getting in step begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Start {
    /// Whatever is going on has to be interrupted.
    Interrupt,
    /// The reply was whole and only its prompt is missing: the adapter is idle.
    Prompt,
}

/// Which phase is next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    /// The link is left alone for a while.
    Drain(Duration),
    /// Is it an adapter, and awake?
    Wake,
    /// The settings, from this step on.
    SetUp(usize),
    /// A faster rate.
    Raise,
    /// The vehicle is looked for.
    Search,
    /// It is read; its replies have this layout.
    Poll(Layout),
    /// It is silent.
    Pause(Silence),
    /// Only a new link helps.
    GiveUp,
    /// The phase that was interrupted goes on.
    Same,
}

impl Start {
    /// After `text`, an unfinished reply whose time is over.
    pub(super) fn after(text: &[u8]) -> Self {
        let whole = text.last().is_some_and(|byte| matches!(byte, b'\r' | b'\n'));
        if whole { Self::Prompt } else { Self::Interrupt }
    }
}

impl Wish {
    /// `command` as it stands, behind a line that was put together for this adapter.
    pub(super) const fn send(command: Command, line: Line, limit: Duration) -> Self {
        Self::Send { command, line, limit }
    }
}
