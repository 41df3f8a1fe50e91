//! Before anything is said: no link, a link that was given up, or one that is read until it is empty.
//!
//! In: the time. Out: the word that the link is empty. What comes meanwhile belongs to nobody.

use std::time::Duration;

use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::driver::known::Known;
use crate::driver::step::{Next, Step};
use crate::driver::timers::Timer;

/// There is no link, or only a new one helps.
#[derive(Debug)]
pub(crate) struct Idle;

impl Phase for Idle {
    /// The rest of a piece in which the link was given up.
    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, _now: Mono) -> Step {
        known.note_noise(reply);
        Step::Stay
    }
}

/// Whatever is in the line is read and dropped.
#[derive(Debug)]
pub(crate) struct Draining {
    time: Duration,
}

impl Draining {
    pub(crate) const fn new(time: Duration) -> Self {
        Self { time }
    }
}

impl Phase for Draining {
    fn begin(&mut self, known: &mut Known, now: Mono) -> Step {
        known.settings.restarted();
        known.address.forget();
        known.polls.pause();
        Step::Wait(Timer::Drain, now.after(self.time))
    }

    fn handle_timeout(&mut self, _known: &mut Known, _now: Mono) -> Step {
        Step::Done(Next::Wake)
    }
}
