//! What engine and selector did with the fluid: how long it idled, whether it circulated, whether the rounds are done.
//!
//! In: announced facts. Out: facts. Not here: what the vehicle shows now (`live.rs`), how the rounds are counted (`shift.rs`).

use core::time::Duration;

use events::{Precondition, Selector, SelectorView};
use units::Mono;

use super::Record;
use crate::told::act::Act;
use crate::told::shift::{RoundsRead, Shifts};

/// See the module's words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Motion {
    pub(crate) run: Run,
    /// Since when the engine is not seen running, on the clock of this boot.
    pub(crate) stopped: Option<Mono>,
    /// It was seen, or told, to stand as it stopped; and so long it has stood since the rounds, over all stops, in milliseconds.
    pub(crate) stands: bool,
    pub(crate) stood_ms: u64,
    /// What the vehicle showed at the first engine start; absent while it has not shown it.
    pub(crate) cold: Option<bool>,
    /// Whether the engine ran since the last fill.
    pub(crate) mixed: bool,
    /// The engine ran with fluid in and the selector was moved.
    pub(crate) circulated: bool,
    /// The engine was started again, or may have been, after fluid had circulated and before the level was set.
    pub(crate) restarted: bool,
}

impl Motion {
    pub(super) fn new() -> Self {
        Self {
            run: Run::default(),
            stopped: None,
            stands: false,
            stood_ms: 0,
            cold: None,
            mixed: true,
            circulated: false,
            restarted: false,
        }
    }
}

/// How long the engine is known to have run without a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Run {
    /// RoundsRead running since, on the clock of this boot.
    pub(crate) since: Option<Mono>,
    /// And before this boot, in milliseconds.
    pub(crate) before_ms: u64,
}

impl Run {
    /// By `now`, if it did not stop meanwhile.
    pub(crate) fn at_least_ms(&self, now: Mono) -> u64 {
        let here = self.since.map_or(0, |since| now.as_millis().saturating_sub(since.as_millis()));
        self.before_ms.saturating_add(here)
    }
}

/// The selector's rounds, by each of three witnesses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Rounds {
    /// Told position by position.
    pub(crate) told: Shifts,
    /// By the readings of a control unit.
    pub(crate) read: RoundsRead,
    /// These were seen to be complete, which is a fact.
    pub(crate) shown: bool,
}

impl Record {
    /// The selector was moved as the sheet asks: confirmed as a whole, or counted position by position.
    pub(super) fn cycled(&self) -> bool {
        let done =
            |s: &Selector| self.selector.told.done(s) || (s.reported.is_some() && self.selector.read.done(s));
        let counted = self.sheet.before.selector.as_ref().is_some_and(done);
        counted || self.selector.shown || self.confirmed.contains(Precondition::SelectorCycled)
    }

    /// What the rounds filled has drained back, or was drained.
    pub(crate) fn cycle_anew(&mut self) {
        self.selector.told = Shifts::default();
        (self.selector.read, self.selector.shown) = (RoundsRead::default(), false);
        self.motion.stood_ms = 0;
        self.confirmed.remove(Precondition::SelectorCycled);
        self.trail.acts.retain(|a| *a != Act::Confirmed(Precondition::SelectorCycled) && *a != Act::Shifted);
    }

    /// How long the engine is known to have run by now; 0 while it does not.
    pub(crate) fn idled_ms(&self, now: Mono) -> u64 {
        self.motion.run.since.map_or(0, |_| self.motion.run.at_least_ms(now))
    }

    /// When a time begins and ends in which the engine may stop by itself, if it runs on until then.
    pub(crate) fn may_stop_at(&self) -> [Option<Mono>; 2] {
        let (Some(since), Some(after)) = (self.motion.run.since, self.hands.may_stop_ms()) else {
            return [None; 2];
        };
        let at = |ms: u64| since.after(Duration::from_millis(ms.saturating_sub(self.motion.run.before_ms)));
        after.map(|ms| Some(at(ms)))
    }

    /// When it has stood for so long that it need not cool any deeper; `None` where nothing but the temperature says how deep.
    pub(crate) fn cooled_at(&self) -> Option<Mono> {
        self.motion.stopped.filter(|_| self.sheet.check.signal.is_typed()).map(|at| at.after(COOLS_FOR))
    }

    /// The rounds as they stand, while they are to be done.
    pub(crate) fn rounds_due(&self, now: Mono) -> Option<SelectorView> {
        let selector = self.sheet.before.selector.as_ref()?;
        if self.result.is_some() || self.holds(Precondition::SelectorCycled) {
            return None;
        }
        let told =
            if self.selector.told.is_empty() { self.selector.read.as_shifts() } else { self.selector.told };
        told.view(selector, now)
    }

    /// The engine ran with fluid in it and the selector was moved where the sheet asks for it.
    pub(crate) fn has_circulated(&self, engine_runs: bool) -> bool {
        let cycled = !self.needs(Precondition::SelectorCycled) || self.holds(Precondition::SelectorCycled);
        self.filled() && !self.awaits_fill() && cycled && (self.motion.circulated || engine_runs)
    }
}

/// So long a sound sensor may stand still after a start, in milliseconds of idling.
/// Own choice: at 0.2 K/min a whole degree takes five minutes; twice that.
pub(crate) const SLOW_START_MS: u64 = 600_000;
/// Longer than this a stopped engine is not left to cool below the band.
/// Own choice: in a hall of 20 °C ten kelvins take so long; in a hot one it would never come to that.
const COOLS_FOR: Duration = Duration::from_secs(1_800);
