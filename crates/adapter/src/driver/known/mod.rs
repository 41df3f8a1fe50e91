//! What outlives a phase: everything the driver believes of adapter, link and vehicle, and what it has to tell.
//!
//! In: what the phases learn. Out: beliefs for the next one, [`Outcome`]s for the caller. The parts stand in files of
//! their own; here is what touches several of them. Not here: what a phase alone knows (`phase/`).
//! Method: sections 9, 13 and 15 of the dialect reference.

pub(crate) mod address;
mod confirm;
mod count;
pub(crate) mod harm;
pub(crate) mod pace;
pub(crate) mod settings;
pub(crate) mod tally;
pub(crate) mod turns;
pub(crate) mod vehicle;
pub(crate) mod wire;

use std::collections::VecDeque;
use std::time::Duration;

use frames::Status;
use units::Mono;

use super::step::{Next, Start, Step};
use super::text;
use crate::codec::{Echo, Reply};
use crate::command::{Command, Setup};
use crate::level::Tested;
use crate::outcome::{Identity, Loss, Outcome, ResetSign};
use crate::quirk::{Quirk, Quirks};
use crate::schedule::Schedule;

pub(crate) use confirm::Belief;

use address::Address;
use harm::{Harm, Suspect};
use pace::Pace;
use settings::Settings;
use tally::{Counts, Faults};
use turns::{Polls, Slot};
use vehicle::Vehicle;
use wire::Wire;

/// See the module's words.
#[derive(Debug)]
pub(crate) struct Known {
    /// What has to be told.
    pub(crate) outcomes: VecDeque<Outcome>,
    pub(crate) identity: Identity,
    pub(crate) quirks: Quirks,
    pub(crate) settings: Settings,
    pub(crate) pace: Pace,
    pub(crate) wire: Wire,
    pub(crate) vehicle: Vehicle,
    pub(crate) address: Address,
    pub(crate) polls: Polls,
    pub(crate) counts: Counts,
    pub(crate) faults: Faults,
    pub(crate) harm: Harm,
    /// The questions that only a health report needs are asked too.
    pub(crate) thorough: bool,
}

/// Reading what is in the line at the start.
/// Own choice: six times what a USB chip holds back (16 ms); what comes later is dropped as surplus, longer delays
/// every opening.
pub(crate) const DRAIN: Duration = Duration::from_millis(100);
/// An adapter that said it goes to sleep is left alone until it does.
/// Source: 2 s by the data sheet, page 88, and one to be sure.
const SLEEP: Duration = Duration::from_secs(3);
/// The limit of a setting; doubled once a late prompt was seen on this link.
/// Own choice: an exchange over radio takes 21 to 31 ms in public logs; shorter would lose a busy adapter, longer makes
/// each step that draws no reply felt.
const SETTING: Duration = Duration::from_secs(1);
/// So often within a minute a reply that nobody waits for is a reason to get in step.
/// Own choice: one or two are late replies; an adapter that says everything twice would be brought in step for ever.
const SURPLUS: u8 = 3;
/// So often within a minute a form that was lost is taken for a reset; then it is how this adapter is.
/// Own choice: a supply that dips loses the form once or twice; more resets in a minute than this would leave no time
/// to read.
const FORMS: u8 = 3;

impl Known {
    pub(crate) fn new(schedule: Schedule) -> Self {
        Self {
            outcomes: VecDeque::new(),
            identity: Identity::default(),
            quirks: Quirks::default(),
            settings: Settings::default(),
            pace: Pace::default(),
            wire: Wire::default(),
            vehicle: Vehicle::default(),
            address: Address::default(),
            polls: Polls::new(schedule),
            counts: Counts::default(),
            faults: Faults::default(),
            harm: Harm::default(),
            thorough: false,
        }
    }

    /// A new link, at this rate: what was true of the old one alone is forgotten.
    pub(crate) fn reopened(&mut self, rate: Option<u32>) {
        self.wire.opened(rate);
        self.counts = Counts::default();
        self.faults = Faults::default();
        self.settings = Settings::default();
        self.vehicle.reopened();
        self.pace.reopened();
    }

    pub(crate) fn tell(&mut self, outcome: Outcome) {
        self.outcomes.push_back(outcome);
    }

    /// Tells a quirk, if it is new.
    pub(crate) fn note(&mut self, quirk: impl Into<Option<Quirk>>) {
        if let Some(quirk) = quirk.into()
            && self.quirks.note(quirk)
        {
            self.tell(Outcome::Quirk(quirk));
        }
    }

    pub(crate) fn note_noise(&mut self, reply: &Reply) {
        self.note((reply.nuls > 0).then_some(Quirk::Nul));
        self.note((reply.noise > 0).then_some(Quirk::StrayByte));
    }

    /// How long the adapter may take for a word to itself.
    pub(crate) const fn setting_limit(&self) -> Duration {
        if self.quirks.has(Quirk::LatePrompt) { SETTING.saturating_mul(2) } else { SETTING }
    }

    pub(crate) fn is_avoided(&self, setup: Setup, now: Mono) -> bool {
        self.harm.avoided(Suspect::Set(setup), now).is_some()
    }

    /// The connection has ended: what was under way the last time too is avoided from now on.
    pub(crate) fn blame(&mut self, now: Mono) {
        let (command, header) = match self.harm.ended(now) {
            None => return,
            Some(Suspect::Set(setup)) => (Command::Set(setup), None),
            Some(Suspect::Ask(slot)) => {
                let Some(poll) = self.polls.poll(slot) else { return };
                self.avoid(slot, now);
                self.polls.told(slot);
                (Command::Read(poll.ask), poll.header)
            }
        };
        self.tell(Outcome::Avoided { command, header });
    }

    /// Puts a request off that is avoided, until it is not.
    pub(crate) fn avoid(&mut self, slot: Slot, now: Mono) {
        if let Some(until) = self.harm.avoided(Suspect::Ask(slot), now) {
            self.polls.put_off(slot, until);
        }
    }

    /// The last word on this link.
    pub(crate) fn give_up(&mut self, last: Outcome, now: Mono) -> Next {
        self.tell(last);
        self.blame(now);
        Next::GiveUp
    }

    /// The settings are lost, or the adapter is about to go.
    pub(crate) fn alarm(&mut self, sign: ResetSign, now: Mono) -> Next {
        // A dip leaves CAN out of searches as a fault of its own does, until that is forgotten (data sheet page 88).
        self.faults.forget_events |= sign == ResetSign::LowVoltage;
        if let ResetSign::Fault(status) = sign {
            self.faults.forget_events = true;
            if self.faults.own.strike(now) > 1 {
                return self.give_up(Outcome::Lost { why: Loss::Fault(status), asking: None }, now);
            }
        }
        self.counts.resets += 1;
        // Before the first set-up nothing was read that could be stale: the banner of a power-up may come late.
        if self.settings.is_known() || sign != ResetSign::Banner {
            self.tell(Outcome::Reset { sign });
        }
        // A form that comes back by itself has a limit of its own, and no request makes a supply dip or a bus quiet.
        if matches!(sign, ResetSign::Form(_) | ResetSign::LowVoltage | ResetSign::Sleep) {
            self.harm.survived();
        } else {
            self.blame(now);
        }
        Next::Drain(if sign == ResetSign::Sleep { SLEEP } else { DRAIN })
    }

    /// A reply that nobody waits for came to a phase that may go on with `then` once the adapter is in step; without that
    /// it goes on as it is.
    pub(crate) fn surplus(&mut self, reply: &Reply, then: Option<Next>, now: Mono) -> Step {
        self.note_noise(reply);
        if let Some(sign) = text::alarm(&reply.text, None) {
            return Step::Done(self.alarm(sign, now));
        }
        if text::says(reply, Status::ActivityAlert) {
            self.polls.poke();
            return Step::Stay;
        }
        self.note(Quirk::LatePrompt);
        match then.filter(|_| reply.lines().next().is_some()) {
            Some(then) if self.faults.surplus.strike(now) <= SURPLUS => Step::Resync(Start::Interrupt, then),
            _ => Step::Stay,
        }
    }

    /// Text without a prompt that nobody waits for: an alarm is one in whole lines.
    pub(crate) fn overheard(&mut self, text: &[u8], now: Mono) -> Step {
        match text::whole_lines(text).and_then(|lines| text::alarm(lines, None)) {
            Some(sign) => Step::Done(self.alarm(sign, now)),
            None => Step::Stay,
        }
    }

    /// Whether a reply in the wrong form is a sign of a reset; a form that does not change is a quirk instead.
    pub(crate) fn form_sign(&mut self, reply: &Reply, echo: Echo, now: Mono) -> Option<&'static str> {
        let what = self.settings.form_lost(reply, echo)?;
        if self.faults.forms.strike(now) > FORMS {
            let quirk = self.settings.accept_form(reply, echo);
            self.note(quirk);
            return None;
        }
        Some(what)
    }

    /// `ATZ` leaves now.
    pub(crate) fn resetting(&mut self, now: Mono) {
        self.wire.resetting(now);
        self.pace.resetting(now);
    }

    /// The adapter has started anew, and its banner says who it is.
    pub(crate) fn restarted_as(&mut self, version: String) {
        self.settings.restarted();
        if self.identity.version.is_empty() {
            self.identity.version = version;
        }
    }

    /// Everything was refused, or the first character was lost: whether another way of writing is left to be tried. What
    /// the refusals seemed to say of the adapter is forgotten.
    pub(crate) fn doubted(&mut self) -> bool {
        for seeming in [Quirk::NoWs, Quirk::NoAt, Quirk::NoVolt, Quirk::VersionLie] {
            self.quirks.forget(seeming);
        }
        self.identity.tested = Tested::default();
        self.settings.hope_again();
        self.pace.doubted()
    }

    /// The vehicle answers: a gap that was widened on suspicion helped.
    pub(crate) fn answered(&mut self) {
        let quirk = self.pace.helped();
        self.note(quirk);
    }

    /// What the voltage at the connector is, or that it cannot be told.
    pub(crate) fn voltage(&mut self, reply: &Reply, now: Mono) {
        match reply.lines().find_map(text::millivolts) {
            Some(millivolts) => self.tell(Outcome::Voltage { millivolts, at: now }),
            None => self.note(Quirk::NoVolt),
        }
    }
}
