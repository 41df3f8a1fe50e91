//! Setting the adapter up: one table of steps, each with what to do when it is refused.
//!
//! In: the reply to each step. Out: [`Settings`], what is believed of the adapter from then on, and quirks. No step
//! depends on the whole reply being equal to something, and none is trusted for its `OK`: flags are verified by the form
//! of what follows. Method: section 4 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::rate::Raise;
use super::recover::identification;
use super::search::Stage;
use super::{Driver, Exchange, Phase, Purpose};
use crate::codec::{Echo, Reply};
use crate::command::{Adaptive, Command, Line, Setup, Switch};
use crate::outcome::{Outcome, ResetSign, Stranger};
use crate::quirk::Quirk;

/// What a step is for, which decides what its reply means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// The banner is due.
    Restart,
    /// `OK` is due; the quirk if it is refused.
    Setting(Option<Quirk>),
    /// A text is due, or `?`; asked once per link.
    Question,
    /// Only after a fault of the adapter's own, or when everything is tried out.
    AfterFault,
    /// Asked once per adapter, when everything is tried out.
    Probe,
}

#[rustfmt::skip]
const STEPS: &[(Setup, Kind)] = &[
    (Setup::WarmStart,                          Kind::Restart),
    (Setup::Echo(Switch::Off),                  Kind::Setting(None)),
    (Setup::LineFeeds(Switch::Off),             Kind::Setting(None)),
    (Setup::Spaces(Switch::Off),                Kind::Setting(None)),
    (Setup::Headers(Switch::On),                Kind::Setting(None)),
    (Setup::MemoryOff,                          Kind::Setting(None)),
    (Setup::AdaptiveTiming(Adaptive::Careful),  Kind::Setting(Some(Quirk::NoAt))),
    (Setup::Timeout(super::address::WAIT),      Kind::Setting(None)),
    (Setup::ForgetEvents,                       Kind::AfterFault),
    (Setup::Description,                        Kind::Question),
    (Setup::FamilyIdentify,                     Kind::Question),
    (Setup::ProbeNonsense,                      Kind::Question),
    (Setup::ProbeKeyWords,                      Kind::Probe),
    (Setup::ProbeSilent,                        Kind::Probe),
    (Setup::ProbeActivity,                      Kind::Probe),
    (Setup::ProbeMultiplier,                    Kind::Probe),
    (Setup::Voltage,                            Kind::Question),
    (Setup::CanFormatting(Switch::On),          Kind::Setting(None)),
    (Setup::CanFlowControl(Switch::On),         Kind::Setting(None)),
];

/// So many time-outs, and a step is left out.
const MOST: u8 = 2;
const MOST_FOR_HEADERS: u8 = 5;
/// Above this a question to the adapter itself is slow (section 15).
const SLOW: Duration = Duration::from_millis(60);

/// What is believed of the adapter's settings.
#[derive(Debug, Default)]
pub(super) struct Settings {
    echo: Flag,
    line_feeds: Flag,
    pub(super) spaces: Flag,
    /// Time-outs of each step, and whether the present one was already repeated.
    missed: [u8; STEPS.len()],
    repeated: bool,
    /// Whether the questions were asked on this link.
    asked: bool,
    /// It begins with a reset, not with a warm start: something is set that only this clears.
    pub(super) reset_first: bool,
    /// How many settings were accepted, and how long that took in all.
    accepted: u32,
    took: Duration,
}

/// A switch that was turned off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Flag {
    /// Not yet turned.
    #[default]
    On,
    /// Turned off; what follows shows whether it worked.
    Off,
    /// Turned off without effect.
    Stuck,
}

impl Settings {
    /// Everything is back to its default.
    pub(super) fn restarted(&mut self) {
        (self.echo, self.line_feeds, self.spaces) = (Flag::On, Flag::On, Flag::On);
        (self.accepted, self.took) = (0, Duration::ZERO);
    }

    /// Whether a set-up was completed on this link.
    pub(super) const fn is_known(&self) -> bool {
        self.asked
    }

    pub(super) fn missed(&mut self, step: usize) {
        if let Some(count) = self.missed.get_mut(step) {
            *count = count.saturating_add(1);
        }
    }

    /// Steps that were left out are tried once more.
    pub(super) fn hope_again(&mut self) {
        self.missed = Default::default();
    }

    /// A step that twice drew no reply is left out; headers are asked for longer.
    fn is_hopeless(&self, step: usize) -> bool {
        let needed = STEPS.get(step).is_some_and(|(setup, _)| *setup == Setup::Headers(Switch::On));
        let most = if needed { MOST_FOR_HEADERS } else { MOST };
        self.missed.get(step).is_some_and(|count| *count >= most)
    }

    /// Which form of `reply` contradicts a switch that was off before; `None` if none does.
    pub(super) fn form_lost(&self, reply: &Reply, echo: Echo) -> Option<&'static str> {
        if self.echo == Flag::Off && echo == Echo::Seen {
            Some("requests are typed back")
        } else if self.spaces == Flag::Off && is_spaced(reply) {
            Some("spaces in the data")
        } else if self.line_feeds == Flag::Off && reply.text.contains(&b'\n') {
            Some("line feeds")
        } else {
            None
        }
    }

    /// The form of `reply` is how this adapter is: nothing follows from it any more.
    pub(super) fn accept_form(&mut self, reply: &Reply, echo: Echo) -> Option<Quirk> {
        if self.echo == Flag::Off && echo == Echo::Seen {
            self.echo = Flag::Stuck;
            return Some(Quirk::EchoStuck);
        }
        if self.spaces == Flag::Off && is_spaced(reply) {
            self.spaces = Flag::Stuck;
            return Some(Quirk::SpacesStuck);
        }
        if self.line_feeds == Flag::Off && reply.text.contains(&b'\n') {
            self.line_feeds = Flag::Stuck;
            return Some(Quirk::LfStuck);
        }
        None
    }

    fn accepted(&mut self, setup: Setup, took: Duration) {
        self.accepted += 1;
        self.took += took;
        self.turned_off(setup);
    }

    /// Accepted or refused: what follows shows whether it is off.
    fn turned_off(&mut self, setup: Setup) {
        match setup {
            Setup::Echo(_) => self.echo = Flag::Off,
            Setup::LineFeeds(_) => self.line_feeds = Flag::Off,
            Setup::Spaces(_) => self.spaces = Flag::Off,
            _ => {}
        }
    }
}

impl Driver {
    pub(super) fn setup_transmit(&mut self, step: usize, now: Mono) -> Option<Line> {
        let Some(&(setup, kind)) = STEPS.get(step) else {
            self.setup_done(now);
            // Once more from the start, in another way.
            let Phase::SettingUp { step } = self.phase else { return None };
            return self.setup_transmit(step, now);
        };
        let skip = match kind {
            Kind::Question => self.settings.asked,
            Kind::Probe => self.settings.asked || !self.thorough,
            Kind::AfterFault => !self.faults.forget_events && (self.settings.asked || !self.thorough),
            Kind::Restart | Kind::Setting(_) => false,
        };
        let setup = if kind == Kind::Restart { self.restart(now) } else { setup };
        // Without headers two control units cannot be told apart: those are asked for whatever happens.
        let avoided = setup != Setup::Headers(Switch::On) && self.is_avoided(setup, now);
        if skip || self.settings.is_hopeless(step) || avoided {
            self.phase = Phase::SettingUp { step: step + 1 };
            return self.setup_transmit(step + 1, now);
        }
        if setup == Setup::Reset {
            self.resetting(now);
        }
        let limit = if kind == Kind::Restart { self.reset_limit() } else { self.setting_limit() };
        let command = Command::Set(setup);
        let line =
            if setup == Setup::Description { self.asks_for_spaces(command) } else { self.written(command) };
        Some(self.send_line(line, command, Purpose::SetUp(step), limit, now))
    }

    /// The way to start anew: the quick one where the adapter knows it, it does no harm and nothing needs the other.
    fn restart(&self, now: Mono) -> Setup {
        let slow = self.settings.reset_first
            || self.quirks.has(Quirk::NoWs)
            || self.is_avoided(Setup::WarmStart, now);
        if slow && !self.is_avoided(Setup::Reset, now) { Setup::Reset } else { Setup::WarmStart }
    }

    pub(super) fn setup_reply(
        &mut self,
        step: usize,
        exchange: &Exchange,
        reply: &Reply,
        echo: Echo,
        now: Mono,
    ) {
        let (Some(&(_, kind)), Command::Set(setup)) = (STEPS.get(step), exchange.command) else { return };
        self.spaces_shown(&exchange.line, true);
        // The other family says its own name to this; the name that is known is the banner of a reset.
        let says = identification(reply);
        if setup == Setup::FamilyIdentify && says.as_deref() == Some(self.identity.version.as_str()) {
            return self.on_alarm(ResetSign::Banner, now);
        }
        self.harm.answered();
        // What was turned off in an earlier step and still comes is stuck.
        let stuck = if kind == Kind::Restart { None } else { self.settings.accept_form(reply, echo) };
        if let Some(quirk) = stuck {
            self.note(quirk);
        }
        let said = reply.lines().find_map(frames::status);
        let next = Phase::SettingUp { step: step + 1 };
        match (kind, said) {
            (_, Some(Status::Modem)) => {
                self.note(Quirk::Modem);
                return self.give_up(Outcome::NotAnAdapter { why: Stranger::Modem }, now);
            }
            _ if super::pace::lost_first(reply, &exchange.line) && self.pace_doubted() => {
                self.phase = Phase::SettingUp { step: 0 };
                return;
            }
            // The first line after whatever was in the line may be spoilt, and a setting is answered by yes or no:
            // once more.
            (_, Some(Status::Stopped)) if !self.settings.repeated => {
                self.settings.repeated = true;
                return;
            }
            (Kind::Setting(_), said) if !is_yes_or_no(said) && !self.settings.repeated => {
                self.settings.repeated = true;
                return;
            }
            (Kind::Restart, Some(Status::NotUnderstood)) if setup == Setup::WarmStart => {
                self.note(Quirk::NoWs);
                return;
            }
            (Kind::Restart, _) => {
                self.settings.reset_first = false;
                self.restarted_as(identification(reply).unwrap_or_default());
            }
            (Kind::Setting(_), Some(Status::Ok)) => {
                self.settings.accepted(setup, now.since(exchange.sent));
                self.note_line_ends(reply);
            }
            (Kind::Setting(quirk), _) => {
                self.settings.turned_off(setup);
                if let Some(quirk) = quirk {
                    self.note(quirk);
                }
            }
            (Kind::Probe, _) => {}
            (Kind::Question, _) => self.setup_answer(setup, reply, said, now),
            (Kind::AfterFault, _) => self.faults.forget_events = false,
        }
        if kind != Kind::Restart {
            self.identity.tested.note(setup, said != Some(Status::NotUnderstood));
        }
        self.settings.repeated = false;
        self.phase = next;
    }

    fn setup_answer(&mut self, setup: Setup, reply: &Reply, said: Option<Status>, now: Mono) {
        let text = || reply.lines().next().map(|line| String::from_utf8_lossy(line).trim().to_owned());
        match setup {
            Setup::Description if !matches!(said, Some(Status::NotUnderstood | Status::Ok)) => {
                self.identity.description = text();
            }
            Setup::FamilyIdentify if said == Some(Status::Identity) => {
                self.identity.family = text();
                self.note(Quirk::Stn);
            }
            Setup::ProbeNonsense if said == Some(Status::Ok) => {
                self.identity.tested.agrees_to_all = true;
                self.note(Quirk::YesMan);
            }
            Setup::Voltage => self.voltage_reply(reply, now),
            _ => {}
        }
    }

    fn setup_done(&mut self, now: Mono) {
        if self.settings.accepted == 0 {
            if self.pace_doubted() {
                self.phase = Phase::SettingUp { step: 0 };
                return;
            }
            return self.give_up(Outcome::NotAnAdapter { why: Stranger::Talk }, now);
        }
        self.pace_proven();
        if self.settings.took / self.settings.accepted > SLOW {
            self.note(Quirk::SlowLink);
        }
        if !self.settings.asked {
            self.settings.asked = true;
            if self.identity.family.is_none() && self.identity.tested.contradicts(&self.identity.version) {
                self.note(Quirk::VersionLie);
            }
            self.tell(Outcome::Found { identity: self.identity.clone() });
        }
        // Its hand-shake leaves no time for a pause behind a prompt.
        self.phase = if self.wire.is_slow() && !self.quirks.has(Quirk::NeedsGap) {
            Phase::Raising(Raise::Offer)
        } else {
            Phase::Searching(Stage::Protocol)
        };
    }

    fn note_line_ends(&mut self, reply: &Reply) {
        let ends: Vec<u8> =
            reply.text.iter().rev().take_while(|byte| matches!(byte, b'\r' | b'\n')).copied().collect();
        if ends == *b"\r" {
            self.note(Quirk::SingleCr);
        }
    }
}

fn is_yes_or_no(said: Option<Status>) -> bool {
    matches!(said, Some(Status::Ok | Status::NotUnderstood))
}

/// Whether a data line has spaces between its bytes. A single one may be a slip (exchanges.csv X086).
pub(super) fn is_spaced(reply: &Reply) -> bool {
    reply.lines().any(|line| {
        let line = line.trim_ascii();
        let data = line.iter().all(|byte| byte.is_ascii_hexdigit() || *byte == b' ');
        data && line.iter().filter(|byte| **byte == b' ').count() >= 2
    })
}
