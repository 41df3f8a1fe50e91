//! When a line may leave, and what stands in front of it: for adapters that are not ready right behind their prompt.
//!
//! ```text
//!   Plain ─ all refused, or an echo without its first character ─► Gap ─ still so ─► Gap and Lead ─ still so ─► no adapter
//! ```
//!
//! A gap is a pause behind each prompt, a lead a space in front of each line, which is then the character that is lost. Both
//! are tried before an adapter is given up, and become quirks when they help. Requests that break off soon behind the prompt
//! (`STOPPED`) widen the gap. In: prompts, refusals, the time. Out: from when on a line may leave, and how it is written.
//! Not here: which lines would do harm without their beginning (`command/guard.rs`). Ours.

use std::time::Duration;

use units::Mono;

use super::tally::Strikes;
use crate::command::{Command, Line, harms_if_cut};
use crate::quirk::Quirk;

/// The pause behind a prompt that is tried first, and the longest; each later doubt doubles it.
/// Own choice: how long adapters need is not published; 50 ms cost one reading in ten, with more than 200 ms there
/// would be less than two a second.
const GAP: Duration = Duration::from_millis(50);
const GAP_MOST: Duration = Duration::from_millis(200);
/// What a reset may take; and where one has taken longer.
/// Source: 0.8 s by the data sheet, page 7, and 0.86 s in a public log over radio; both margins are own choices, the
/// longer for a copy that was not done after 3 s.
const RESET: Duration = Duration::from_secs(3);
const RESET_SLOW: Duration = Duration::from_secs(8);
/// So many set-ups, and what helped is kept for the next link.
/// Own choice: a first success may be an adapter that was not itself at first; the second is no chance.
const PROVEN: u8 = 2;
/// So many requests that broke off twice in a row, within a minute, and the gap is widened.
/// Own choice: a disturbed bus breaks one or two off in a minute as well; a gap that is not needed costs readings for
/// the whole link.
const DOUBTS: u8 = 3;

/// What is being tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Trial {
    #[default]
    Plain,
    Gap,
    Lead,
}

/// Whether the adapter minds a space in front of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Spaces {
    #[default]
    Unknown,
    /// Such a line was answered.
    Taken,
    /// Such a line was not answered, the same without it was.
    Ignored,
}

/// See the module's words.
#[derive(Debug, Default)]
pub(crate) struct Pace {
    trial: Trial,
    /// In how many set-ups what is being tried has helped.
    proven: u8,
    gap: Duration,
    prompted: Option<Mono>,
    spaces: Spaces,
    doubts: Strikes,
    /// The gap before it was widened on suspicion; kept until an answer shows that it helped.
    before: Option<Duration>,
    /// When the last reset left, and whether one was answered later than it should be.
    reset: Option<Mono>,
    slow_reset: bool,
}

impl Pace {
    /// From when on a line may leave; none: at once.
    pub(crate) fn not_before(&self) -> Option<Mono> {
        Some(self.prompted?.after(self.gap)).filter(|_| !self.gap.is_zero())
    }

    /// How `command` is written to this adapter; and from when on, where it would do harm without its beginning and no spaces
    /// can stand in front of it.
    pub(crate) fn prepared(&self, command: Command) -> (Line, Option<Mono>) {
        let plain = command.line();
        let harms = harms_if_cut(&plain);
        if harms && self.spaces == Spaces::Taken {
            return (Line::guarded(command), None);
        }
        let line = if self.trial == Trial::Lead { Line::spaced(command) } else { plain };
        (line, self.prompted.map(|prompted| prompted.after(GAP)).filter(|_| harms))
    }

    /// How `command` is written to this adapter.
    pub(crate) fn written(&self, command: Command) -> Line {
        self.prepared(command).0
    }

    /// A harmless question shows whether a line may begin with spaces: how it is written now.
    pub(crate) fn asking_for_spaces(&self, command: Command) -> Line {
        let unknown = self.spaces == Spaces::Unknown && self.trial != Trial::Lead;
        if unknown { Line::guarded(command) } else { self.written(command) }
    }

    /// A question that gets an adapter in step: a leading space does no harm, and a first character may be swallowed.
    pub(crate) fn waking(&self, command: Command) -> Line {
        if self.spaces == Spaces::Ignored { self.written(command) } else { Line::spaced(command) }
    }

    /// What a reset may take.
    pub(crate) const fn reset_limit(&self) -> Duration {
        if self.slow_reset { RESET_SLOW } else { RESET }
    }

    /// A new link: what has helped only once may have been an adapter that was not itself at first.
    pub(crate) fn reopened(&mut self) {
        if self.trial != Trial::Plain && self.proven < PROVEN {
            (self.trial, self.gap) = (Trial::Plain, Duration::ZERO);
        }
        (self.prompted, self.before) = (None, None);
    }

    /// A reply is complete: its prompt is out. Prompts that nobody waits for do not count: they may come without end.
    pub(crate) fn prompted(&mut self, now: Mono) {
        self.prompted = Some(now);
    }

    /// The question that began with spaces was answered, or was not.
    pub(crate) fn spaces_shown(&mut self, line: &[u8], answered: bool) {
        if self.spaces == Spaces::Unknown && line.starts_with(b" ") {
            self.spaces = if answered { Spaces::Taken } else { Spaces::Ignored };
        }
    }

    /// `ATZ` leaves now.
    pub(crate) fn resetting(&mut self, now: Mono) {
        self.reset = Some(now);
    }

    /// A banner came that nobody waits for any more: it may be that of a reset that was given up.
    pub(crate) fn banner_late(&mut self, now: Mono) {
        self.slow_reset |= self.reset.is_some_and(|at| now.since(at) < RESET_SLOW);
    }

    /// The set-up has shown that the adapter takes what it is told; the quirk that this proves.
    pub(crate) fn proven(&mut self) -> Option<Quirk> {
        self.proven = self.proven.saturating_add(1);
        match self.trial {
            Trial::Plain => None,
            Trial::Gap => Some(Quirk::NeedsGap),
            Trial::Lead => Some(Quirk::LosesFirst),
        }
    }

    /// Nothing that was said was taken; whether another way is left.
    pub(crate) fn doubted(&mut self) -> bool {
        let next = match self.trial {
            Trial::Plain => Trial::Gap,
            Trial::Gap if self.spaces != Spaces::Ignored => Trial::Lead,
            Trial::Gap | Trial::Lead => {
                (self.trial, self.gap) = (Trial::Plain, Duration::ZERO);
                return false;
            }
        };
        (self.trial, self.proven, self.gap) = (next, 0, self.gap.max(GAP));
        true
    }

    /// A request broke off, and so did its repetition: perhaps both came too soon behind the prompt.
    pub(crate) fn broke_off(&mut self, now: Mono) {
        if self.doubts.strike(now) >= DOUBTS {
            self.doubts = Strikes::default();
            self.widened();
        }
    }

    /// Pauses longer behind each prompt from now on; whether it could be longer. Where not even that helped, it was not
    /// that.
    pub(crate) fn widened(&mut self) -> bool {
        let gap = self.gap;
        let widened = self.widen();
        if widened {
            self.before.get_or_insert(gap);
        } else {
            self.gap = self.before.take().unwrap_or(gap);
        }
        widened
    }

    /// The vehicle answers; the quirk that it proves if a gap was widened on suspicion.
    pub(crate) fn helped(&mut self) -> Option<Quirk> {
        self.before.take().map(|_| Quirk::NeedsGap)
    }

    /// Doubles the gap; whether it was not at its most already.
    fn widen(&mut self) -> bool {
        let before = self.gap;
        self.gap = (self.gap * 2).clamp(GAP, GAP_MOST);
        self.gap > before
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gap_is_doubled_up_to_its_most() {
        let mut pace = Pace::default();
        assert_eq!(pace.not_before(), None);
        pace.prompted = Some(Mono::from_millis(1_000));
        assert_eq!(pace.not_before(), None, "no gap, no pause");
        let gaps = [50, 100, 200, 200].map(|want| {
            pace.widen();
            assert_eq!(pace.not_before(), Some(Mono::from_millis(1_000 + want)));
            pace.gap
        });
        assert_eq!(gaps.last(), Some(&GAP_MOST));
    }
}
