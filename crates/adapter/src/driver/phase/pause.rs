//! The vehicle is silent: say so, leave it alone for a while, look for it again.
//!
//! In: why it is silent. Out: `VehicleSilent`, and after the pause the next attempt, with the settings made anew where
//! what is set may be the reason. Method: section 5 of the dialect reference.

use std::time::Duration;

use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::driver::exchange::Unfinished;
use crate::driver::known::Known;
use crate::driver::step::{Next, Step};
use crate::driver::timers::Timer;
use crate::outcome::{Outcome, Silence};

/// See the module's words.
#[derive(Debug)]
pub(crate) struct Pausing {
    why: Silence,
    /// The set-up is done again before the next attempt.
    set_up_again: bool,
}

/// From a failed attempt to the next.
/// Source: common practice: an immediate second try fails on some pairs of vehicle and adapter, one after 5 s does not
/// (report elmobd #29).
const RETRY: &[Duration] = &[Duration::from_secs(5), Duration::from_secs(5), Duration::from_secs(10)];
/// Every so many attempts the adapter is reset: something may be set that no warm start clears.
/// Own choice: a reset costs up to 8 s; oftener it would delay a vehicle whose ignition was off, seldomer a filter that
/// stays would go on.
const RESET_EVERY: u32 = 4;

impl Pausing {
    pub(crate) const fn new(why: Silence) -> Self {
        Self { why, set_up_again: false }
    }
}

impl Phase for Pausing {
    fn begin(&mut self, known: &mut Known, now: Mono) -> Step {
        let odd = matches!(self.why, Silence::SendersUnknown | Silence::Malformed | Silence::Unnamed);
        if odd {
            known.settings.hope_again();
        }
        let was_read = known.vehicle.in_use.is_some();
        let attempt = known.vehicle.failed();
        let reset = attempt.is_multiple_of(RESET_EVERY);
        known.settings.reset_first |= reset;
        // After reading, a header or a filter may be set; a known protocol would use them for the first request.
        self.set_up_again = odd || reset || was_read;
        known.polls.pause();
        let retry_in = RETRY.get(attempt as usize - 1).or(RETRY.last()).copied().unwrap_or_default();
        let tried = known.vehicle.tried;
        known.tell(Outcome::VehicleSilent { detail: self.why, attempt, retry_in, tried });
        Step::Wait(Timer::Pause, now.after(retry_in))
    }

    fn handle_timeout(&mut self, _known: &mut Known, _now: Mono) -> Step {
        Step::Done(if self.set_up_again { Next::SetUp(0) } else { Next::Search })
    }

    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.surplus(reply, None, now)
    }

    fn handle_overheard(&mut self, unfinished: Unfinished<'_>, known: &mut Known, now: Mono) -> Step {
        known.overheard(unfinished.text, now)
    }
}
