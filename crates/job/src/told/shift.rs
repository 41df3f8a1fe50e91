//! The selector's rounds, counted position by position as the helper tells them.
//!
//! In: positions as told, with the time. Out: what comes next, how long to stay, whether all rounds are done. Not here: a
//! helper who confirms the rounds as a whole (`decide.rs`). Where a control unit tells the position, its readings count ([`RoundsRead`]).
//!
//! The rounds are done when the first position is told once more after the last, so that the last was held as well.

use core::time::Duration;

use events::{Refusal, Selector, SelectorView};
use units::Mono;

/// How far the rounds have come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Shifts {
    count: usize,
    /// When the last position was told; absent after a boot, because the clock starts again.
    since: Option<Mono>,
}

impl Shifts {
    /// May `position` be told now?
    ///
    /// # Errors
    /// Another position comes next, or the last one was not held long enough.
    pub(crate) fn accepts(&self, selector: &Selector, position: &str, now: Mono) -> Result<(), Refusal> {
        if self.done(selector) {
            return Err(Refusal::AlreadyDone);
        }
        if !self.next(selector).is_some_and(|next| next.eq_ignore_ascii_case(position.trim())) {
            return Err(Refusal::WrongPosition);
        }
        if self.left(selector, now) > SLACK { Err(Refusal::TooEarly) } else { Ok(()) }
    }

    /// Whether nothing was told yet.
    pub(crate) const fn is_empty(&self) -> bool {
        self.count == 0
    }

    pub(crate) fn told(&mut self, now: Mono) {
        self.count = self.count.saturating_add(1);
        self.since = Some(now);
    }

    pub(crate) fn undo(&mut self) {
        self.count = self.count.saturating_sub(1);
        self.since = None;
    }

    /// The clock starts again: how long the selector has stood is not known, and it is not asked for twice.
    pub(crate) const fn boot(&mut self) {
        self.since = None;
    }

    /// All rounds, and back at the first position.
    pub(crate) fn done(&self, selector: &Selector) -> bool {
        self.count > all(selector)
    }

    pub(crate) fn view(&self, selector: &Selector, now: Mono) -> Option<SelectorView> {
        if self.done(selector) {
            return None;
        }
        let each = selector.positions.len().max(1);
        let round = u32::try_from(self.count / each).unwrap_or(u32::MAX).saturating_add(1);
        let before = self.count.checked_sub(1).and_then(|last| selector.positions.get(last % each));
        Some(SelectorView {
            stands_in: before.cloned(),
            told: u32::try_from(self.count).unwrap_or(u32::MAX),
            next: self.next(selector)?.to_owned(),
            round: round.min(selector.rounds),
            rounds: selector.rounds,
            dwell_seconds: selector.dwell_s,
            left_seconds: u32::try_from(self.left(selector, now).as_millis().div_ceil(1_000))
                .unwrap_or(u32::MAX),
        })
    }

    fn next<'a>(&self, selector: &'a Selector) -> Option<&'a str> {
        let each = selector.positions.len().max(1);
        selector.positions.get(self.count % each).map(String::as_str)
    }

    fn left(&self, selector: &Selector, now: Mono) -> Duration {
        let dwell = Duration::from_secs(u64::from(selector.dwell_s));
        self.since.map_or(Duration::ZERO, |since| dwell.saturating_sub(now.since(since)))
    }
}

/// How far the rounds have come by the readings of a control unit. Readings are samples: what is lost in a crash is counted
/// again; that all rounds are done is announced as a fact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct RoundsRead {
    /// Positions that were held long enough, in their order.
    count: usize,
    /// The position that is read now, and since when.
    now: Option<(u8, Mono)>,
}

impl RoundsRead {
    /// A reading: the place of a position in the sheet's list.
    pub(crate) fn read(&mut self, selector: &Selector, place: u8, at: Mono) {
        let since = match self.now {
            Some((same, since)) if same == place => since,
            _ => at,
        };
        self.now = Some((place, since));
        let wanted = self.count % selector.positions.len().max(1);
        let held = at.since(since) + SLACK >= Duration::from_secs(u64::from(selector.dwell_s));
        if usize::from(place) == wanted && held && !self.done(selector) {
            self.count = self.count.saturating_add(1);
        }
    }

    /// Every position of all rounds was held long enough.
    pub(crate) fn done(&self, selector: &Selector) -> bool {
        self.count >= all(selector)
    }

    /// As if each position had been told.
    pub(crate) fn as_shifts(self) -> Shifts {
        Shifts { count: self.count, since: None }
    }
}

fn all(selector: &Selector) -> usize {
    selector.positions.len().saturating_mul(usize::try_from(selector.rounds).unwrap_or(usize::MAX))
}

/// A word may come so much early.
/// Own choice: people count seconds aloud, half a second is what they are wrong by.
const SLACK: Duration = Duration::from_millis(500);
