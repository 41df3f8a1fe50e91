//! Getting in step with the adapter: at the start, and after a reply that did not come.
//!
//! A ladder of attempts, each harder than the one before; the first that is answered as it should be ends it.
//! What comes before the identification belongs to nobody and is dropped. Method: section 10 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::pace::Spaces;
use super::{Driver, Exchange, Goal, Phase, Purpose, Timer};
use crate::codec::{Echo, Reply};
use crate::command::{Command, Line, Setup};
use crate::outcome::{Loss, Outcome, ResetSign, Stranger};
use crate::quirk::Quirk;

/// One attempt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rung {
    /// One space stops whatever is going on.
    Interrupt,
    /// ` ATI`: the known identification, or any at the start.
    Identify,
    /// `ATI`, for those that ignore a line that begins with a space; one that stands in their line already is gone by then.
    Plain,
    /// `ATWS`.
    WarmStart,
    /// `ATZ`.
    Reset,
}

/// At the start: the first line may be spoilt by what is in the line, or only interrupt (ELMduino #100, #179).
const WAKING: &[Rung] = &[Rung::Identify, Rung::Plain, Rung::Identify, Rung::WarmStart, Rung::Reset];
const IN_STEP: &[Rung] = &[
    Rung::Interrupt,
    Rung::Identify,
    Rung::Plain,
    Rung::WarmStart,
    Rung::Reset,
    Rung::WarmStart,
    Rung::Reset,
];

/// Silence after an interruption.
const QUIET: Duration = Duration::from_millis(500);
/// An interruption that draws an endless stream has failed.
const QUIET_ALL: Duration = Duration::from_secs(2);
const IDENTIFY: Duration = Duration::from_secs(1);

/// Where on the ladder, and what for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Recovery {
    ladder: &'static [Rung],
    at: usize,
    goal: Goal,
    heard: Heard,
    /// The interruption was written; from then on the driver only listens.
    said: bool,
    /// This attempt was refused, as one into work that was just broken off may be, and is made once more.
    again: bool,
}

/// What came of the attempts so far, for the message if all fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heard {
    Nothing,
    Noise,
    Echo,
    Talk,
    Modem,
}

impl Recovery {
    pub(super) const fn waking() -> Self {
        Self { ladder: WAKING, at: 0, goal: Goal::SetUp, heard: Heard::Nothing, said: false, again: false }
    }

    pub(super) const fn in_step(goal: Goal) -> Self {
        Self { ladder: IN_STEP, at: 0, goal, heard: Heard::Nothing, said: false, again: false }
    }

    /// The reply was whole and only its prompt is missing: the adapter is idle, nothing need be interrupted.
    pub(super) const fn for_the_prompt(goal: Goal) -> Self {
        Self { at: 1, ..Self::in_step(goal) }
    }

    fn rung(&self) -> Option<Rung> {
        self.ladder.get(self.at).copied()
    }
}

impl Driver {
    pub(super) fn recover(&mut self, recovery: Recovery, now: Mono) {
        if recovery.ladder == IN_STEP {
            self.counts.resyncs += 1;
        }
        self.exchange = None;
        self.address.forget();
        self.timers.clear_all();
        self.phase = Phase::Recovering(recovery);
        if recovery.rung() == Some(Rung::Interrupt) {
            self.timers.set(Timer::Quiet, now.after(QUIET));
            self.timers.set(Timer::Reply, now.after(QUIET_ALL));
        }
    }

    pub(super) fn recover_transmit(&mut self, recovery: Recovery, now: Mono) -> Option<Line> {
        let rung = recovery.rung()?;
        let (setup, limit) = match rung {
            Rung::Interrupt if recovery.said => return None,
            Rung::Interrupt => {
                self.phase = Phase::Recovering(Recovery { said: true, ..recovery });
                return Some(Line::interrupt());
            }
            // A leading space does no harm, and a first character may be swallowed.
            Rung::Identify if self.pace.spaces != Spaces::Ignored => {
                let command = Command::Set(Setup::Identify);
                return Some(self.send_line(Line::spaced(command), command, Purpose::Recover, IDENTIFY, now));
            }
            Rung::Identify | Rung::Plain => (Setup::Identify, IDENTIFY),
            Rung::WarmStart => (Setup::WarmStart, self.reset_limit()),
            Rung::Reset => {
                self.resetting(now);
                (Setup::Reset, self.reset_limit())
            }
        };
        Some(self.send(Command::Set(setup), Purpose::Recover, limit, now))
    }

    /// Bytes came while an interruption waits for silence.
    pub(super) fn recover_hears(&mut self, recovery: Recovery, now: Mono) {
        if recovery.rung() == Some(Rung::Interrupt) {
            self.timers.set(Timer::Quiet, now.after(QUIET));
        }
    }

    /// A reply that nobody waits for: the one that did not come in time, or the end of what was interrupted.
    pub(super) fn recover_surplus(&mut self, recovery: Recovery, reply: &Reply, now: Mono) {
        if identification(reply).is_some() {
            self.banner_late(now);
        }
        if recovery.rung() != Some(Rung::Interrupt) {
            return;
        }
        let stopped =
            |line: &[u8]| matches!(frames::status(line), Some(Status::Stopped | Status::NotUnderstood));
        if !reply.lines().any(stopped) {
            self.note(Quirk::LatePrompt);
        }
        self.recover_quiet();
    }

    /// The interruption is over: on to the next rung.
    pub(super) fn recover_quiet(&mut self) {
        if let Phase::Recovering(recovery) = self.phase
            && recovery.rung() == Some(Rung::Interrupt)
        {
            self.timers.clear(Timer::Quiet);
            self.timers.clear(Timer::Reply);
            self.phase = Phase::Recovering(Recovery { at: recovery.at + 1, ..recovery });
        }
    }

    pub(super) fn recover_reply(&mut self, exchange: Exchange, reply: &Reply, echo: Echo, now: Mono) {
        let Phase::Recovering(mut recovery) = self.phase else { return };
        // What was turned off is on again: it was no mere slip.
        if recovery.goal == Goal::Poll
            && let Some(what) = self.form_sign(reply, echo, now)
        {
            self.counts.resets += 1;
            self.tell(Outcome::Reset { sign: ResetSign::Form(what) });
            recovery.goal = Goal::SetUp;
        }
        let says = identification(reply);
        match (recovery.rung(), says) {
            (Some(rung @ (Rung::Identify | Rung::Plain)), Some(version)) => {
                // Asked with a space in front there was not a word, without it there is. The other way round it may have
                // been the banner of a power-up.
                if rung == Rung::Plain && recovery.heard == Heard::Nothing {
                    self.spaces_shown(b" ", false);
                }
                self.harm.survived();
                self.identified(recovery, version, now);
            }
            (Some(Rung::WarmStart | Rung::Reset), Some(version)) => {
                // What was asked before has cost the settings, and the vehicle has to be found again.
                self.blame(now);
                self.restarted_as(version);
                self.phase = Phase::SettingUp { step: 1 };
            }
            (Some(Rung::WarmStart), None) => {
                if reply.lines().any(|line| line == b"?") {
                    self.note(Quirk::NoWs);
                }
                self.next_rung(recovery, heard(reply), now);
            }
            // The tail of an earlier reply: the identification is still to come, within the same limit.
            (Some(Rung::Identify | Rung::Plain), None) if is_refusal(reply) && !recovery.again => {
                self.phase = Phase::Recovering(Recovery { again: true, ..recovery });
            }
            (Some(Rung::Identify | Rung::Plain), None)
                if !is_refusal(reply)
                    && recovery.ladder == IN_STEP
                    && now < exchange.sent.after(IDENTIFY) =>
            {
                self.counts.dropped += reply.text.len() as u64;
                self.timers.set(Timer::Reply, exchange.sent.after(IDENTIFY));
                self.exchange = Some(exchange);
            }
            _ => self.next_rung(recovery, heard(reply), now),
        }
    }

    /// The adapter has started anew, and its banner says who it is.
    pub(super) fn restarted_as(&mut self, version: String) {
        self.settings.restarted();
        if self.identity.version.is_empty() {
            self.identity.version = version;
        }
    }

    pub(super) fn recover_expired(&mut self, exchange: &Exchange, now: Mono) {
        let Phase::Recovering(recovery) = self.phase else { return };
        let text = self.codec.pending();
        let heard = if crate::codec::lines(text).any(|line| frames::status(line) == Some(Status::Modem)) {
            Heard::Modem
        } else if is_echo(text, &exchange.line) {
            Heard::Echo
        } else if self.codec.has_noise() {
            Heard::Noise
        } else if text.is_empty() {
            Heard::Nothing
        } else {
            Heard::Talk
        };
        self.next_rung(recovery, heard, now);
    }

    fn next_rung(&mut self, recovery: Recovery, heard: Heard, now: Mono) {
        let heard = if heard == Heard::Nothing { recovery.heard } else { heard };
        let next = Recovery { at: recovery.at + 1, heard, again: false, ..recovery };
        self.phase = Phase::Recovering(next);
        if next.rung().is_some() && heard != Heard::Modem {
            return;
        }
        let waking = recovery.ladder == WAKING && self.counts.replies == 0;
        let stranger = match heard {
            Heard::Modem => Some(Stranger::Modem),
            Heard::Echo if waking => Some(Stranger::Loop),
            Heard::Noise if waking => Some(Stranger::Noise),
            Heard::Talk if recovery.ladder == WAKING => Some(Stranger::Talk),
            _ => None,
        };
        if heard == Heard::Modem {
            self.note(Quirk::Modem);
        }
        let last = match (stranger, heard) {
            (Some(why), _) => Outcome::NotAnAdapter { why },
            (None, Heard::Nothing) => Outcome::Lost { why: Loss::Silent, asking: None },
            (None, _) => Outcome::Lost { why: Loss::OutOfStep, asking: None },
        };
        self.give_up(last, now);
    }

    /// The adapter said who it is: it is in step.
    fn identified(&mut self, recovery: Recovery, version: String, now: Mono) {
        if self.identity.version != version {
            let known = !self.identity.version.is_empty();
            self.identity.version = version;
            if known && recovery.ladder == IN_STEP {
                // Another adapter, or a reset in disguise: nothing that was set can be relied on.
                self.phase = Phase::SettingUp { step: 0 };
                return;
            }
            if known {
                self.quirks = crate::quirk::Quirks::default();
                self.pace = super::pace::Pace::default();
                self.identity.description = None;
                self.identity.family = None;
            }
        }
        match recovery.goal {
            Goal::SetUp => self.phase = Phase::SettingUp { step: 0 },
            Goal::SetUpAt(step) => self.phase = Phase::SettingUp { step },
            Goal::Search(stage) => self.phase = Phase::Searching(stage),
            Goal::Pause(silence) => self.search_failed(silence, now),
            Goal::Next(silence) => self.search_next(silence, now),
            Goal::Poll => self.phase = Phase::Polling,
        }
    }
}

/// The line by which an adapter says who it is: a text of its own, or one that nobody knows but that is no data.
pub(super) fn identification(reply: &Reply) -> Option<String> {
    let is_text = |line: &&[u8]| {
        line.iter().all(|byte| (b' '..0x7F).contains(byte))
            && line.iter().any(|byte| !byte.is_ascii_hexdigit() && *byte != b' ')
    };
    let line = reply.lines().filter(is_text).find(|line| match frames::status(line) {
        Some(status) => status == Status::Identity,
        // Names of clones: a letter that is no hexadecimal digit, and no mark that only data have.
        None => line.iter().any(u8::is_ascii_lowercase) && !line.contains(&b':') && !line.contains(&b'<'),
    })?;
    Some(String::from_utf8_lossy(line).trim().to_owned())
}

/// Whether `text` is nothing but `sent`, typed back.
fn is_echo(text: &[u8], sent: &[u8]) -> bool {
    let mut lines = crate::codec::lines(text);
    lines.next().is_some_and(|line| line.trim_ascii().eq_ignore_ascii_case(sent.trim_ascii()))
        && lines.next().is_none()
}

fn is_refusal(reply: &Reply) -> bool {
    reply.lines().any(|line| matches!(frames::status(line), Some(Status::NotUnderstood | Status::Stopped)))
}

fn heard(reply: &Reply) -> Heard {
    if reply.lines().any(|line| frames::status(line) == Some(Status::Modem)) {
        Heard::Modem
    } else {
        Heard::Talk
    }
}
