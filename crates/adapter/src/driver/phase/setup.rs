//! Setting the adapter up: the steps of a table, one by one, each with what to do when it is refused.
//!
//! In: the reply to each step. Out: what is believed of the adapter from then on (`known/settings.rs`), who it is, and
//! quirks. No step depends on the whole reply being equal to something. Method: section 4 of the dialect reference.

use frames::Status;
use units::Mono;

use super::Phase;
use crate::codec::Reply;
use crate::command::{Command, Setup, Switch};
use crate::driver::exchange::{Complete, Exchange, Unfinished};
use crate::driver::known::Known;
use crate::driver::known::harm::Suspect;
use crate::driver::known::settings::{Kind, STEPS, Taken};
use crate::driver::step::{Next, Start, Step, Wish};
use crate::driver::text::{self, identification};
use crate::outcome::{Outcome, ResetSign, Stranger};
use crate::quirk::Quirk;

/// Settings, one by one.
#[derive(Debug)]
pub(crate) struct SettingUp {
    /// Which row of the table.
    step: usize,
}

impl SettingUp {
    pub(crate) const fn from_step(step: usize) -> Self {
        Self { step }
    }

    /// Whether this step is left out.
    fn skips(&self, kind: Kind, setup: Setup, known: &Known, now: Mono) -> bool {
        let asked = known.settings.asked;
        let needless = match kind {
            Kind::Question => asked,
            Kind::Probe => asked || !known.thorough,
            Kind::AfterFault => !known.faults.forget_events && (asked || !known.thorough),
            Kind::Restart | Kind::Setting(_) => false,
        };
        // Without headers two control units cannot be told apart: those are asked for whatever happens.
        let avoided = setup != Setup::Headers(Switch::On) && known.is_avoided(setup, now);
        needless || known.settings.is_hopeless(self.step) || avoided
    }

    /// The text that a question drew.
    fn learn(setup: Setup, reply: &Reply, said: Option<Status>, known: &mut Known, now: Mono) {
        let text = || reply.lines().next().map(|line| String::from_utf8_lossy(line).trim().to_owned());
        match setup {
            Setup::Description if !matches!(said, Some(Status::NotUnderstood | Status::Ok)) => {
                known.identity.description = text();
            }
            Setup::FamilyIdentify if said == Some(Status::Identity) => {
                known.identity.family = text();
                known.note(Quirk::Stn);
            }
            Setup::ProbeNonsense if said == Some(Status::Ok) => {
                known.identity.tested.agrees_to_all = true;
                known.note(Quirk::YesMan);
            }
            Setup::Voltage => known.voltage(reply, now),
            _ => {}
        }
    }

    /// The table is walked; `None`: once more from the start, in another way.
    fn done(&self, known: &mut Known, now: Mono) -> Option<Next> {
        let Some(taken) = known.settings.taken() else {
            let stranger = Outcome::NotAnAdapter { why: Stranger::Talk };
            return if known.doubted() { None } else { Some(known.give_up(stranger, now)) };
        };
        let quirk = known.pace.proven();
        known.note(quirk);
        known.note((taken == Taken::Slowly).then_some(Quirk::SlowLink));
        if !known.settings.asked {
            known.settings.asked = true;
            let identity = &known.identity;
            let lies = identity.family.is_none() && identity.tested.contradicts(&identity.version);
            known.note(lies.then_some(Quirk::VersionLie));
            known.tell(Outcome::Found { identity: known.identity.clone() });
        }
        // Its hand-shake leaves no time for a pause behind a prompt.
        let raises = known.wire.is_slow() && !known.quirks.has(Quirk::NeedsGap);
        Some(if raises { Next::Raise } else { Next::Search })
    }
}

impl Phase for SettingUp {
    fn poll_wish(&mut self, known: &mut Known, now: Mono) -> Wish {
        loop {
            let Some(&(setup, kind)) = STEPS.get(self.step) else {
                match self.done(known, now) {
                    Some(next) => return Wish::Nothing(Step::Done(next)),
                    None => self.step = 0,
                }
                continue;
            };
            let setup = if kind == Kind::Restart { restart(known, now) } else { setup };
            if self.skips(kind, setup, known, now) {
                self.step += 1;
                continue;
            }
            if setup == Setup::Reset {
                known.resetting(now);
            }
            let command = Command::Set(setup);
            let limit = if kind == Kind::Restart { known.pace.reset_limit() } else { known.setting_limit() };
            let asks = setup == Setup::Description;
            let line = if asks { known.pace.asking_for_spaces(command) } else { known.pace.written(command) };
            known.harm.left(Some(Suspect::Set(setup)));
            return Wish::send(command, line, limit);
        }
    }

    fn handle_reply(&mut self, complete: &Complete<'_>, known: &mut Known, now: Mono) -> Step {
        let (exchange, reply) = (complete.exchange, complete.reply);
        let (Some(&(_, kind)), Command::Set(setup)) = (STEPS.get(self.step), exchange.command) else {
            return Step::Stay;
        };
        known.pace.spaces_shown(&exchange.line, true);
        // The other family says its own name to this; the name that is known is the banner of a reset.
        let version = identification(reply);
        if setup == Setup::FamilyIdentify && version.as_deref() == Some(known.identity.version.as_str()) {
            return Step::Done(known.alarm(ResetSign::Banner, now));
        }
        known.harm.answered();
        // What was turned off in an earlier step and still comes is stuck.
        if kind != Kind::Restart {
            let stuck = known.settings.accept_form(reply, complete.echo);
            known.note(stuck);
        }
        let said = reply.lines().find_map(frames::status);
        if said == Some(Status::Modem) {
            known.note(Quirk::Modem);
            return Step::Done(known.give_up(Outcome::NotAnAdapter { why: Stranger::Modem }, now));
        }
        if text::lost_first(reply, &exchange.line) && known.doubted() {
            self.step = 0;
            return Step::Stay;
        }
        if is_spoilt(kind, said) && !known.settings.repeated {
            known.settings.repeated = true;
            return Step::Stay;
        }
        match (kind, said) {
            (Kind::Restart, Some(Status::NotUnderstood)) if setup == Setup::WarmStart => {
                known.note(Quirk::NoWs);
                return Step::Stay;
            }
            (Kind::Restart, _) => {
                known.settings.reset_first = false;
                known.restarted_as(version.unwrap_or_default());
            }
            (Kind::Setting(_), Some(Status::Ok)) => {
                known.settings.accepted(setup, now.since(exchange.sent));
                known.note(text::ends_with_one_cr(reply).then_some(Quirk::SingleCr));
            }
            (Kind::Setting(quirk), _) => {
                known.settings.turned_off(setup);
                known.note(quirk);
            }
            (Kind::Question, _) => Self::learn(setup, reply, said, known, now),
            (Kind::AfterFault, _) => known.faults.forget_events = false,
            (Kind::Probe, _) => {}
        }
        if kind != Kind::Restart {
            known.identity.tested.note(setup, said != Some(Status::NotUnderstood));
        }
        known.settings.repeated = false;
        self.step += 1;
        Step::Stay
    }

    fn handle_expiry(
        &mut self,
        asked: &Exchange,
        unfinished: Unfinished<'_>,
        known: &mut Known,
        _now: Mono,
    ) -> Step {
        known.counts.timed_out += 1;
        known.pace.spaces_shown(&asked.line, false);
        known.settings.missed(self.step);
        Step::Resync(Start::after(unfinished.text), Next::Same)
    }

    fn handle_surplus(&mut self, reply: &Reply, known: &mut Known, now: Mono) -> Step {
        known.surplus(reply, Some(Next::SetUp(0)), now)
    }
}

/// The way to start anew: the quick one where the adapter knows it, it does no harm and nothing needs the other.
fn restart(known: &Known, now: Mono) -> Setup {
    let slow = known.settings.reset_first
        || known.quirks.has(Quirk::NoWs)
        || known.is_avoided(Setup::WarmStart, now);
    if slow && !known.is_avoided(Setup::Reset, now) { Setup::Reset } else { Setup::WarmStart }
}

/// Whether a step is made once more because of what was `said`: the first line after whatever was in the line may be spoilt,
/// and a setting is answered by yes or no.
fn is_spoilt(kind: Kind, said: Option<Status>) -> bool {
    let yes_or_no = matches!(said, Some(Status::Ok | Status::NotUnderstood));
    said == Some(Status::Stopped) || matches!(kind, Kind::Setting(_)) && !yes_or_no
}
