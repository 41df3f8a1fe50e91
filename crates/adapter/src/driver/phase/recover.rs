//! Getting in step with the adapter: at the start, and after a reply that did not come.
//!
//! A ladder of attempts, each harder than the one before; the first that is answered as it should be ends it.
//! What comes before the identification belongs to nobody and is dropped. In: replies. Out: the phase that goes on: the
//! one that was interrupted, or the set-up if the settings are lost. Method: section 10 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::command::{Command, Line, Setup};
use crate::driver::exchange::{Complete, Exchange, Unfinished};
use crate::driver::known::Known;
use crate::driver::known::pace::Pace;
use crate::driver::step::{Next, Start, Step, Wish};
use crate::driver::text::{self, identification};
use crate::driver::timers::Timer;
use crate::outcome::{Loss, Outcome, ResetSign, Stranger};
use crate::quirk::{Quirk, Quirks};

/// One attempt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Rung {
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
/// Own choice: a full buffer of 512 bytes (data sheet page 74) still drains, in 0.14 s at 38400 bit/s; shorter would
/// take its pieces for the end.
const QUIET: Duration = Duration::from_millis(500);
/// An interruption that draws an endless stream has failed; and so long who is asked who he is may take.
/// Own choice: four times the silence; an answer takes some 30 ms in public logs, and each rung of the ladder may cost
/// this second.
const QUIET_ALL: Duration = Duration::from_secs(2);
const IDENTIFY: Duration = Duration::from_secs(1);

/// Where on the ladder, and what for.
#[derive(Debug)]
pub(crate) struct Recovering {
    ladder: &'static [Rung],
    at: usize,
    then: Next,
    /// What goes on relies on the form of replies, so one that is lost is a reset.
    relies_on_form: bool,
    heard: Sound,
    /// The interruption was written; from then on the driver only listens.
    said: bool,
    /// When the interruption is over, whatever comes.
    quiet_by: Mono,
    /// This attempt was refused, as one into work that was just broken off may be, and is made once more.
    again: bool,
}

/// What came of the attempts so far, for the message if all fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sound {
    Nothing,
    Noise,
    Echo,
    Talk,
    Modem,
}

impl Recovering {
    /// At the start of a link.
    pub(crate) const fn waking() -> Self {
        Self {
            ladder: WAKING,
            at: 0,
            then: Next::SetUp(0),
            relies_on_form: false,
            heard: Sound::Nothing,
            said: false,
            quiet_by: Mono::ZERO,
            again: false,
        }
    }

    /// After an interruption.
    pub(crate) const fn in_step(from: Start, then: Next, relies_on_form: bool) -> Self {
        let at = match from {
            Start::Interrupt => 0,
            Start::Prompt => 1,
        };
        Self { ladder: IN_STEP, at, then, relies_on_form, ..Self::waking() }
    }

    fn rung(&self) -> Option<Rung> {
        self.ladder.get(self.at).copied()
    }

    fn is_waking(&self) -> bool {
        self.ladder == WAKING
    }

    /// The interruption is over: on to the next rung.
    fn quiet(&mut self) -> Step {
        if self.rung() == Some(Rung::Interrupt) {
            self.at += 1;
        }
        Step::Stop(Timer::Quiet)
    }

    fn next_rung(&mut self, heard: Sound, known: &mut Known, now: Mono) -> Step {
        if heard != Sound::Nothing {
            self.heard = heard;
        }
        (self.at, self.again) = (self.at + 1, false);
        if self.rung().is_some() && self.heard != Sound::Modem {
            return Step::Stay;
        }
        let mute = self.is_waking() && known.counts.replies == 0;
        let stranger = match self.heard {
            Sound::Modem => Some(Stranger::Modem),
            Sound::Echo if mute => Some(Stranger::Loop),
            Sound::Noise if mute => Some(Stranger::Noise),
            Sound::Talk if self.is_waking() => Some(Stranger::Talk),
            _ => None,
        };
        known.note((self.heard == Sound::Modem).then_some(Quirk::Modem));
        let last = match (stranger, self.heard) {
            (Some(why), _) => Outcome::NotAnAdapter { why },
            (None, Sound::Nothing) => Outcome::Lost { why: Loss::Silent, asking: None },
            (None, _) => Outcome::Lost { why: Loss::OutOfStep, asking: None },
        };
        Step::Done(known.give_up(last, now))
    }

    /// The adapter said who it is: it is in step.
    fn identified(&self, version: String, then: Next, known: &mut Known) -> Step {
        if known.identity.version != version {
            let other = !known.identity.version.is_empty();
            known.identity.version = version;
            if other && !self.is_waking() {
                // Another adapter, or a reset in disguise: nothing that was set can be relied on.
                return Step::Done(Next::SetUp(0));
            }
            if other {
                known.quirks = Quirks::default();
                known.pace = Pace::default();
                known.identity.description = None;
                known.identity.family = None;
            }
        }
        Step::Done(then)
    }
}

impl Phase for Recovering {
    fn begin(&mut self, known: &mut Known, now: Mono) -> Step {
        known.counts.resyncs += u64::from(!self.is_waking());
        known.address.forget();
        if self.rung() != Some(Rung::Interrupt) {
            return Step::Stay;
        }
        self.quiet_by = now.after(QUIET_ALL);
        Step::Wait(Timer::Quiet, now.after(QUIET))
    }

    fn poll_wish(&mut self, known: &mut Known, now: Mono) -> Wish {
        let Some(rung) = self.rung() else { return Wish::Nothing(Step::Stay) };
        let (setup, limit) = match rung {
            Rung::Interrupt if self.said => return Wish::Nothing(Step::Stay),
            Rung::Interrupt => {
                self.said = true;
                return Wish::Say(Line::interrupt());
            }
            Rung::Identify | Rung::Plain => (Setup::Identify, IDENTIFY),
            Rung::WarmStart => (Setup::WarmStart, known.pace.reset_limit()),
            Rung::Reset => {
                known.resetting(now);
                (Setup::Reset, known.pace.reset_limit())
            }
        };
        let command = Command::Set(setup);
        let spaced = rung == Rung::Identify;
        let line = if spaced { known.pace.waking(command) } else { known.pace.written(command) };
        // Whoever made it necessary stays to blame.
        Wish::send(command, line, limit)
    }

    fn handle_reply(&mut self, complete: &Complete<'_>, known: &mut Known, now: Mono) -> Step {
        let reply = complete.reply;
        let mut then = self.then;
        // What was turned off is on again: it was no mere slip.
        if self.relies_on_form
            && let Some(what) = known.form_sign(reply, complete.echo, now)
        {
            known.counts.resets += 1;
            known.tell(Outcome::Reset { sign: ResetSign::Form(what) });
            then = Next::SetUp(0);
        }
        let in_time = now < complete.exchange.sent.after(IDENTIFY);
        match (self.rung(), identification(reply)) {
            (Some(rung @ (Rung::Identify | Rung::Plain)), Some(version)) => {
                // Asked with a space in front there was not a word, without it there is. The other way round it may have
                // been the banner of a power-up.
                if rung == Rung::Plain && self.heard == Sound::Nothing {
                    known.pace.spaces_shown(b" ", false);
                }
                known.harm.survived();
                return self.identified(version, then, known);
            }
            (Some(Rung::WarmStart | Rung::Reset), Some(version)) => {
                // What was asked before has cost the settings, and the vehicle has to be found again.
                known.blame(now);
                known.restarted_as(version);
                return Step::Done(Next::SetUp(1));
            }
            // The tail of an earlier reply: the identification is still to come, within the same limit.
            (Some(Rung::Identify | Rung::Plain), None)
                if !text::is_refusal(reply) && !self.is_waking() && in_time =>
            {
                known.counts.dropped += reply.text.len() as u64;
                return Step::Still(complete.exchange.sent.after(IDENTIFY));
            }
            _ => {}
        }
        (self.relies_on_form, self.then) = (self.relies_on_form && then == self.then, then);
        match self.rung() {
            Some(Rung::Identify | Rung::Plain) if text::is_refusal(reply) && !self.again => {
                self.again = true;
                return Step::Stay;
            }
            Some(Rung::WarmStart) => {
                known.note(reply.lines().any(|line| line == b"?").then_some(Quirk::NoWs));
            }
            _ => {}
        }
        let modem = text::says(reply, Status::Modem);
        self.next_rung(if modem { Sound::Modem } else { Sound::Talk }, known, now)
    }

    fn handle_expiry(
        &mut self,
        asked: &Exchange,
        unfinished: Unfinished<'_>,
        known: &mut Known,
        now: Mono,
    ) -> Step {
        let modem = |line| frames::status(line) == Some(Status::Modem);
        let heard = if crate::codec::lines(unfinished.text).any(modem) {
            Sound::Modem
        } else if text::is_echo(unfinished.text, &asked.line) {
            Sound::Echo
        } else if unfinished.noise {
            Sound::Noise
        } else if unfinished.text.is_empty() {
            Sound::Nothing
        } else {
            Sound::Talk
        };
        self.next_rung(heard, known, now)
    }

    /// The reply that did not come in time, or the end of what was interrupted.
    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.note_noise(reply);
        if identification(reply).is_some() {
            known.pace.banner_late(now);
        }
        if self.rung() != Some(Rung::Interrupt) {
            return Step::Stay;
        }
        known.note((!text::is_refusal(reply)).then_some(Quirk::LatePrompt));
        self.quiet()
    }

    /// Bytes came while an interruption waits for silence.
    fn handle_overheard(&mut self, _unfinished: Unfinished<'_>, _known: &mut Known, now: Mono) -> Step {
        match self.rung() {
            Some(Rung::Interrupt) => Step::Wait(Timer::Quiet, now.after(QUIET).min(self.quiet_by)),
            _ => Step::Stay,
        }
    }

    fn handle_timeout(&mut self, _known: &mut Known, _now: Mono) -> Step {
        self.quiet()
    }
}
