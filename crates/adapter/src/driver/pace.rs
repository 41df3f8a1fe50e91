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
use super::{Driver, Phase, Timer};
use crate::codec::Reply;
use crate::command::{Command, Line};
use crate::level::Tested;
use crate::quirk::Quirk;

/// The pause behind a prompt that is tried first; each later doubt doubles it.
const GAP: Duration = Duration::from_millis(50);
const GAP_MOST: Duration = Duration::from_millis(200);
/// What a reset may take: 0.8 s and more over radio (section 2); and where one has taken longer.
const RESET: Duration = Duration::from_secs(3);
const RESET_SLOW: Duration = Duration::from_secs(8);
/// So many set-ups, and what helped is kept for the next link.
const PROVEN: u8 = 2;
/// So many requests that broke off twice in a row, within a minute, and the gap is widened.
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
pub(super) enum Spaces {
    #[default]
    Unknown,
    /// Such a line was answered.
    Taken,
    /// Such a line was not answered, the same without it was.
    Ignored,
}

/// See the module's words.
#[derive(Debug, Default)]
pub(super) struct Pace {
    trial: Trial,
    /// In how many set-ups what is being tried has helped.
    proven: u8,
    gap: Duration,
    prompted: Option<Mono>,
    pub(super) spaces: Spaces,
    doubts: Strikes,
    /// The gap before it was widened on suspicion; kept until an answer shows that it helped.
    before: Option<Duration>,
    /// When the last reset left, and whether one was answered later than it should be.
    reset: Option<Mono>,
    slow_reset: bool,
}

impl Pace {
    /// From when on a line may leave; none: at once.
    fn not_before(&self) -> Option<Mono> {
        Some(self.prompted?.after(self.gap)).filter(|_| !self.gap.is_zero())
    }

    /// When the pause is over that stands in for spaces in front of a line.
    fn safe_from(&self) -> Option<Mono> {
        self.prompted.map(|prompted| prompted.after(GAP))
    }

    /// Doubles the gap; whether it was not at its most already.
    fn widen(&mut self) -> bool {
        let before = self.gap;
        self.gap = (self.gap * 2).clamp(GAP, GAP_MOST);
        self.gap > before
    }
}

impl Driver {
    /// A reply is complete: its prompt is out. Prompts that nobody waits for do not count: they may come without end.
    pub(super) fn prompted(&mut self, now: Mono) {
        self.pace.prompted = Some(now);
    }

    /// Whether a line has to wait for a moment still; then a timer is set.
    pub(super) fn waits_for_gap(&mut self, now: Mono) -> bool {
        let at = self.pace.not_before().filter(|at| now < *at);
        let speaks = !matches!(self.phase, Phase::Closed | Phase::Dead | Phase::Raising(_));
        match at.filter(|_| speaks) {
            Some(at) => {
                self.timers.set(Timer::Gap, at);
                true
            }
            None => false,
        }
    }

    /// The same for a command that would do harm without its beginning, where no spaces can stand in front of it.
    pub(super) fn waits_for_safety(&mut self, command: Command, now: Mono) -> bool {
        if self.pace.spaces == Spaces::Taken || !command.harms_if_cut() {
            return false;
        }
        match self.pace.safe_from().filter(|at| now < *at) {
            Some(at) => {
                self.timers.set(Timer::Gap, at);
                true
            }
            None => false,
        }
    }

    /// How `command` is written to this adapter.
    pub(super) fn written(&self, command: Command) -> Line {
        if self.pace.spaces == Spaces::Taken && command.harms_if_cut() {
            Line::guarded(command)
        } else if self.pace.trial == Trial::Lead {
            Line::spaced(command)
        } else {
            command.line()
        }
    }

    /// A harmless question shows whether a line may begin with spaces: how it is written now.
    pub(super) fn asks_for_spaces(&self, command: Command) -> Line {
        let unknown = self.pace.spaces == Spaces::Unknown && self.pace.trial != Trial::Lead;
        if unknown { Line::guarded(command) } else { self.written(command) }
    }

    /// The question that began with spaces was answered, or was not.
    pub(super) fn spaces_shown(&mut self, line: &[u8], answered: bool) {
        if self.pace.spaces == Spaces::Unknown && line.starts_with(b" ") {
            self.pace.spaces = if answered { Spaces::Taken } else { Spaces::Ignored };
        }
    }

    /// `ATZ` leaves now.
    pub(super) fn resetting(&mut self, now: Mono) {
        self.wire.resetting(now);
        self.pace.reset = Some(now);
    }

    /// A banner came that nobody waits for any more: it may be that of a reset that was given up.
    pub(super) fn banner_late(&mut self, now: Mono) {
        self.pace.slow_reset |= self.pace.reset.is_some_and(|at| now.since(at) < RESET_SLOW);
    }

    /// What a reset may take.
    pub(super) const fn reset_limit(&self) -> Duration {
        if self.pace.slow_reset { RESET_SLOW } else { RESET }
    }

    /// The set-up has shown that the adapter takes what it is told.
    pub(super) fn pace_proven(&mut self) {
        self.pace.proven = self.pace.proven.saturating_add(1);
        match self.pace.trial {
            Trial::Plain => {}
            Trial::Gap => self.note(Quirk::NeedsGap),
            Trial::Lead => self.note(Quirk::LosesFirst),
        }
    }

    /// A new link: what has helped only once may have been an adapter that was not itself at first.
    pub(super) fn pace_reopened(&mut self) {
        if self.pace.trial != Trial::Plain && self.pace.proven < PROVEN {
            (self.pace.trial, self.pace.gap) = (Trial::Plain, Duration::ZERO);
        }
        (self.pace.prompted, self.pace.before) = (None, None);
    }

    /// Everything was refused, or the first character was lost: whether something is left to be tried. What the refusals
    /// seemed to say of the adapter is forgotten.
    pub(super) fn pace_doubted(&mut self) -> bool {
        for seeming in [Quirk::NoWs, Quirk::NoAt, Quirk::NoVolt, Quirk::VersionLie] {
            self.quirks.forget(seeming);
        }
        self.identity.tested = Tested::default();
        self.settings.hope_again();
        let next = match self.pace.trial {
            Trial::Plain => Trial::Gap,
            Trial::Gap if self.pace.spaces != Spaces::Ignored => Trial::Lead,
            Trial::Gap | Trial::Lead => {
                (self.pace.trial, self.pace.gap) = (Trial::Plain, Duration::ZERO);
                return false;
            }
        };
        (self.pace.trial, self.pace.proven, self.pace.gap) = (next, 0, self.pace.gap.max(GAP));
        true
    }

    /// A request broke off, and so did its repetition: perhaps both came too soon behind the prompt.
    pub(super) fn pace_broke_off(&mut self, now: Mono) {
        if self.pace.doubts.strike(now) >= DOUBTS {
            self.pace.doubts = Strikes::default();
            self.pace_widened();
        }
    }

    /// Pauses longer behind each prompt from now on; whether it could be longer. Where not even that helped, it was not
    /// that.
    pub(super) fn pace_widened(&mut self) -> bool {
        let gap = self.pace.gap;
        let widened = self.pace.widen();
        if widened {
            self.pace.before.get_or_insert(gap);
        } else {
            self.pace.gap = self.pace.before.take().unwrap_or(gap);
        }
        widened
    }

    /// The vehicle answers: a gap that was widened on suspicion helped.
    pub(super) fn pace_helped(&mut self) {
        if self.pace.before.take().is_some() {
            self.note(Quirk::NeedsGap);
        }
    }
}

/// Whether `reply` begins with what was `sent`, typed back without its first character.
pub(super) fn lost_first(reply: &Reply, sent: &[u8]) -> bool {
    let mut shorter = reply.clone();
    let rest = sent.trim_ascii().get(1..).unwrap_or_default();
    // Two characters at least: one is no evidence.
    rest.len() >= 2 && shorter.strip_echo(rest) == crate::codec::Echo::Seen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_echo_without_its_first_character_is_recognised() {
        let cases: &[(&[u8], &[u8], bool)] = &[
            (b"TZ\r?\r\r", b"ATZ\r", true),
            (b"TE0\r?\r\r", b"ATE0\r", true),
            (b"ATZ\r\r\rELM327 v1.5\r\r", b"ATZ\r", false),
            (b"?\r\r", b"ATZ\r", false),
            (b"OK\r\r", b"ATE0\r", false),
            (b"I\rELM327 v1.5\r\r", b"TI\r", false),
            (b"ATI\rELM327 v1.5\r\r", b" ATI\r", false),
        ];
        for (text, sent, want) in cases {
            let reply = Reply { text: text.to_vec(), ..Reply::default() };
            assert_eq!(lost_first(&reply, sent), *want, "{}", text.escape_ascii());
        }
    }

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
