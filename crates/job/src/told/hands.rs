//! What people confirmed for the hands, beside what `go` waits for: clear, parked, plugs in, pin out …
//!
//! In: told things, the engine as it is announced, what was advised. Out: what holds now. The rows below say what undoes
//! each. Not here: what follows for the advice (`guard.rs`).
//!
//! | told | gone with |
//! | --- | --- |
//! | clear | any word from below, the end of the rounds, the engine's stop, a lowering, 5 min, a start that failed |
//! | parked | the selector out of its first position; back with the end of the rounds |
//! | fluid-right | `fluid-wrong` |
//! | pipe-in | a drain |
//! | closed-up | a drain; a fill with the engine off |
//! | no-leak, refitted | an opened port; no-leak also with a leak that is told |
//! | bypass-out | the pin told in again |
//! | dry | a spill |

use core::time::Duration;

use events::{Advice, Leak, People, Role, SeatAdvice, Task};
use units::{Degrees, Mono};

use crate::advice::ask::{Ask, asks};

/// See the module's words. What is a plain confirmation stands in the record's set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Hands {
    pub(crate) task: Task,
    pub(crate) alone: bool,
    clear: Word,
    /// It was lowered for a drive and not put on stands again.
    pub(crate) lowered: bool,
    /// A stand was measured that is not level enough, pitch and roll, and none since that is.
    pub(crate) tilted: Option<(Degrees, Degrees)>,
    /// The wrong fluid is in.
    pub(crate) wrong_in: bool,
    pub(crate) no_drive: bool,
    /// Something was spilled where it may burn.
    pub(crate) wet: bool,
    pub(crate) leak: Option<Leak>,
    /// The one that was seen to be gone last, should that be taken back.
    pub(crate) mended: Option<Leak>,
    /// The selector is out of its first position.
    pub(crate) moving: bool,
    /// When the exhaust hose is asked for again, in milliseconds of idling; absent: at the sheet's first time.
    pub(crate) exhaust_again_ms: Option<u64>,
    /// The last word from below, and whether somebody was sent there.
    pub(crate) word_below: Option<Mono>,
    sent_below: bool,
    /// The one inside was told last to let the engine run; after so much idling it stopped all the same, in milliseconds.
    to_run: bool,
    stopped_after_ms: Option<u64>,
    /// Fills after a look.
    pub(crate) top_ups: u32,
    /// A look has shown that it was low.
    pub(crate) was_low: bool,
    /// An earlier look was dry after so much had been filled, mL.
    pub(crate) dry_after_ml: Option<i32>,
    /// The shortage that a right look has made good, mL.
    pub(crate) made_good_ml: i32,
    /// Some of this job was done without an adapter.
    pub(crate) people: bool,
}

/// What is known of the one below.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Clear {
    /// Nothing was told.
    #[default]
    No,
    /// Somebody else told it.
    WrongSeat,
    /// It was told, and something happened since.
    Old,
    /// It was told, start was said, and the engine did not come.
    StartFailed,
    /// He is out.
    Yes,
}

/// What was told of being clear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Word {
    Nothing,
    WrongSeat,
    Old,
    /// The start was said and the engine did not come.
    Failed,
    Told {
        at: Mono,
        start_said: Option<Mono>,
    },
    /// Told, and the engine has started on it.
    Started,
}

impl Hands {
    pub(crate) const fn new(task: Task, people: People) -> Self {
        Self {
            task,
            alone: matches!(people, People::One),
            clear: Word::Nothing,
            lowered: false,
            tilted: None,
            wrong_in: false,
            no_drive: false,
            wet: false,
            leak: None,
            mended: None,
            moving: false,
            exhaust_again_ms: None,
            word_below: None,
            sent_below: false,
            to_run: false,
            stopped_after_ms: None,
            top_ups: 0,
            was_low: false,
            dry_after_ml: None,
            made_good_ml: 0,
            people: false,
        }
    }

    /// What is known of the one below.
    pub(crate) fn clear(&self, now: Mono) -> Clear {
        match self.clear {
            Word::Nothing => Clear::No,
            Word::WrongSeat => Clear::WrongSeat,
            Word::Old => Clear::Old,
            Word::Failed => Clear::StartFailed,
            Word::Started => Clear::Yes,
            Word::Told { start_said: Some(said), .. } if now.since(said) >= self.start_within() => {
                Clear::StartFailed
            }
            Word::Told { at, .. } if now.since(at) >= CLEAR_FOR => Clear::Old,
            Word::Told { .. } => Clear::Yes,
        }
    }

    /// When it is no longer so.
    pub(crate) fn expires(&self) -> Option<Mono> {
        let Word::Told { at, start_said } = self.clear else { return None };
        let old = at.after(CLEAR_FOR);
        Some(start_said.map_or(old, |said| said.after(self.start_within()).min(old)))
    }

    /// So long the engine may take to come once start was said; a person needs a moment more to say that it has.
    const fn start_within(&self) -> Duration {
        if self.people { START_TOLD_WITHIN } else { START_WITHIN }
    }

    /// Whether the exhaust hose has to be looked at again.
    pub(crate) fn exhaust_due(&self, idled_ms: u64, first_min: f64) -> bool {
        let first = (first_min * 60_000.0) as u64;
        idled_ms > self.exhaust_again_ms.unwrap_or(first)
    }

    /// Nobody has heard from the one below for long, and he was sent there or stands at an open port.
    pub(crate) fn silent_below(&self, now: Mono, port_open: bool) -> bool {
        let silent = self.word_below.is_some_and(|at| now.since(at) >= SILENT_FOR);
        !self.alone && (self.sent_below || port_open) && silent
    }

    /// When that may come to be.
    pub(crate) fn silent_at(&self, port_open: bool) -> Option<Mono> {
        let waits = !self.alone && (self.sent_below || port_open);
        self.word_below.filter(|_| waits).map(|at| at.after(SILENT_FOR))
    }

    /// What was advised: who is sent below is not clear, and a start that was said must come.
    pub(crate) fn advised(&mut self, said: &SeatAdvice, now: Mono) {
        let under = said.at(Role::Under);
        let goes_below = asks(under).has(Ask::BELOW);
        self.to_run = asks(said.at(Role::Inside)).has(Ask::IDLE.and(Ask::WAIT));
        if goes_below && !self.sent_below {
            self.word_below = Some(now);
        }
        self.sent_below = goes_below;
        if goes_below {
            self.drop_clear();
        }
        if let Word::Told { start_said, .. } = &mut self.clear {
            let says_start = said.at(Role::Inside) == Advice::StartEngine;
            *start_said = if says_start { start_said.or(Some(now)) } else { None };
        }
    }

    pub(crate) fn drop_clear(&mut self) {
        if matches!(self.clear, Word::Told { .. } | Word::Started) {
            self.clear = Word::Old;
        }
    }

    /// It was announced that he is not clear any more.
    pub(crate) fn clear_gone(&mut self, now: Mono) {
        self.clear = match self.clear(now) {
            Clear::StartFailed => Word::Failed,
            Clear::Old | Clear::Yes => Word::Old,
            Clear::WrongSeat => Word::WrongSeat,
            Clear::No => Word::Nothing,
        };
    }

    /// The engine came, or went.
    pub(crate) fn engine(&mut self, runs: bool) {
        match (runs, self.clear) {
            (true, Word::Told { .. }) => self.clear = Word::Started,
            (false, Word::Started) => self.clear = Word::Nothing,
            _ => {}
        }
        if !runs {
            self.exhaust_again_ms = None;
        }
    }

    /// It stands after so much idling, and nobody was told to stop it. After less it stalled, or was not meant to run yet.
    pub(crate) fn stopped_unasked(&mut self, idled_ms: u64) {
        if self.to_run && idled_ms >= STOPS_NOT_BEFORE_MS {
            self.stopped_after_ms = Some(idled_ms);
        }
    }

    /// Whether the engine has idled about as long as before it stopped unasked.
    pub(crate) fn may_stop(&self, idled_ms: u64) -> bool {
        let warned =
            |at: u64| idled_ms.saturating_add(WARNED_MS) >= at && idled_ms < at.saturating_add(WARNED_MS);
        self.stopped_after_ms.is_some_and(warned)
    }

    /// After which idling that begins and ends, in milliseconds.
    pub(crate) fn may_stop_ms(&self) -> Option<[u64; 2]> {
        self.stopped_after_ms.map(|at| [at.saturating_sub(WARNED_MS), at.saturating_add(WARNED_MS)])
    }

    /// The rounds are done, the selector is back: he may go below, and is not clear any more.
    pub(crate) fn rounds_done(&mut self) {
        self.moving = false;
        // Told while they went on, it was for them too.
        if matches!(self.clear, Word::Started | Word::Told { .. }) {
            self.clear = Word::Nothing;
        }
    }

    /// The clock starts again.
    pub(crate) fn boot(&mut self) {
        if matches!(self.clear, Word::Told { .. }) {
            self.clear = Word::Old;
        }
        self.word_below = None;
    }

    pub(crate) fn told_clear(&mut self, by: Option<Role>, now: Mono) {
        let counts = self.alone || by == Some(Role::Under);
        if counts {
            self.clear = Word::Told { at: now, start_said: None };
        } else if !matches!(self.clear, Word::Told { .. } | Word::Started) {
            self.clear = Word::WrongSeat;
        }
    }
}

/// One word of being clear holds for so long without a start.
/// Source: fixtures/reference/trade/hazards.csv, row `clear-stale`; own choice there: in five minutes somebody fetches
/// what he left below.
const CLEAR_FOR: Duration = Duration::from_secs(300);
/// Start was said and the engine does not run: after this the word is old.
/// Source: fixtures/reference/trade/hazards.csv, row `jump-below`; own choice there: an engine that is well starts
/// within a few seconds.
const START_WITHIN: Duration = Duration::from_secs(15);
/// The same where a person tells that it runs.
/// Own choice: half a minute more for getting out the word.
const START_TOLD_WITHIN: Duration = Duration::from_secs(45);
/// An engine that ends its idling by itself does so after minutes.
/// Own choice: what stops sooner was stopped by hand or stalled.
const STOPS_NOT_BEFORE_MS: u64 = 180_000;
/// So long before that time, and after it, it is warned of.
/// Source: fixtures/reference/trade/hazards.csv, row `idle-shut-off`; own choice there.
const WARNED_MS: u64 = 120_000;
/// So long without a word from below, and somebody calls.
/// Source: fixtures/reference/trade/hazards.csv, row `below-silent`; own choice there.
const SILENT_FOR: Duration = Duration::from_secs(600);
