//! What has to be noticed whoever is waiting: signs of a reset, words that extend a limit, noise.
//!
//! In: replies, and what has come of an unfinished one. Out: a new start, a later deadline, counts.
//! Not here: what a reply means for the one who waits for it. Method: sections 9, 13 and 15 of the dialect reference.

use std::time::Duration;

use frames::Status;
use units::Mono;

use super::recover::Recovery;
use super::{DRAIN, Driver, Goal, Phase, Purpose, Timer, judge};
use crate::codec::{Echo, Reply};
use crate::command::Command;
use crate::outcome::{Loss, Outcome, ResetSign};
use crate::quirk::Quirk;

/// The limit of a reply that began with `SEARCHING` (section 9).
const SEARCHING: Duration = Duration::from_secs(30);
/// From a line of data to the next one or to the prompt there is twice the adapter's wait and so much for the link; and this
/// at least, since a search waits longer (section 9).
const TAIL_LINK: Duration = Duration::from_millis(500);
const TAIL_LEAST: Duration = Duration::from_millis(1_000);
/// However many lines come, from the first one on this is the end: 4 KiB at 9600 bit/s take 4.3 s. Ours.
const TAIL_ALL: Duration = Duration::from_secs(8);
/// And this from the request on, whatever came, so that [`Driver::SPEAKS_WITHIN`] holds.
const ALL: Duration = Duration::from_secs(33);
/// The limit of a reply that began with `BUS INIT`.
const BUS_INIT: Duration = Duration::from_secs(10);
/// From one "response pending" to the next sign of life (data sheet page 45).
const PENDING: Duration = Duration::from_millis(5_500);
/// However often a control unit asks for more time, this is the end.
const PENDING_ALL: Duration = Duration::from_secs(30);
/// So often within a minute an adapter may look for its protocol anew before that is taken for its nature.
const SEARCHES: u8 = 3;
/// An adapter that said it goes to sleep is left alone until it does (2 s, data sheet page 88).
const SLEEP: Duration = Duration::from_secs(3);

impl Driver {
    /// Looks at what has come of a reply so far: words that extend its limit, alarms that have no prompt.
    pub(super) fn on_unfinished(&mut self, now: Mono) {
        let text = self.codec.pending();
        let Some(exchange) = self.exchange.as_mut() else {
            if let Phase::Recovering(recovery) = self.phase {
                return self.recover_hears(recovery, now);
            }
            let ready = matches!(self.phase, Phase::Polling | Phase::Pausing);
            let whole = text.iter().rposition(|byte| *byte == b'\r').and_then(|end| text.get(..end));
            if let Some(sign) = whole.filter(|_| ready).and_then(|lines| alarm_in(lines, Banner::Unasked)) {
                self.on_alarm(sign, now);
            }
            return;
        };
        if let Purpose::Raise(step) = exchange.purpose {
            return self.raise_hears(step);
        }
        let fresh = text.get(exchange.seen.saturating_sub(24)..).unwrap_or_default();
        exchange.seen = text.len();
        let limit = if judge::holds(fresh, b"SEARCHING") {
            let known = self.quirks.has(Quirk::SearchesAnew);
            if exchange.purpose == Purpose::Poll && self.polls.is_fresh() && !known {
                return self.on_search_anew(now);
            }
            exchange.sent.after(SEARCHING)
        } else if judge::holds(fresh, b"BUSINIT") {
            exchange.sent.after(BUS_INIT)
        } else if let Some(ask) = exchange.command.ask()
            && judge::holds(fresh, &judge::pending_text(ask))
        {
            exchange.pending = true;
            now.after(PENDING).min(exchange.sent.after(PENDING_ALL))
        } else if exchange.command.ask().is_some() && !exchange.pending && is_line_of_data(text) {
            // From here on only the adapter's own waiting is left, whatever the limit was extended for, and each line
            // begins it anew.
            let tail = (2 * self.address.wait() + TAIL_LINK).max(TAIL_LEAST);
            let tail = if self.quirks.has(Quirk::LatePrompt) { tail * 2 } else { tail };
            let first = *exchange.data_from.get_or_insert(now);
            let end = now.after(tail).min(first.after(TAIL_ALL)).min(exchange.sent.after(ALL));
            self.timers.set(Timer::Reply, end);
            return;
        } else {
            return;
        };
        let longer = self.timers.next().is_none_or(|(_, at)| at < limit);
        if longer {
            self.timers.set(Timer::Reply, limit);
        }
    }

    /// An adapter that was reading looks for the protocol: it has lost it, and with it whatever else was set. To set it up
    /// again and name the protocol is quicker than its search.
    fn on_search_anew(&mut self, now: Mono) {
        self.counts.resets += 1;
        if let Some(current) = self.polls.current.take() {
            self.polls.over(current.slot);
        }
        self.harm.survived();
        if self.faults.searches.strike(now) > SEARCHES {
            // The protocol was named each time: this is how the adapter is, and it finds the vehicle by itself.
            self.note(Quirk::SearchesAnew);
        }
        self.tell(Outcome::Reset { sign: ResetSign::Form("it looks for the protocol anew") });
        self.recover(Recovery::in_step(Goal::SetUp), now);
    }

    pub(super) fn on_alarm(&mut self, sign: ResetSign, now: Mono) {
        // A dip leaves CAN out of searches as a fault of its own does, until that is forgotten (data sheet page 88).
        self.faults.forget_events |= sign == ResetSign::LowVoltage;
        if let ResetSign::Fault(status) = sign {
            self.faults.forget_events = true;
            if self.faults.own.strike(now) > 1 {
                return self.give_up(Outcome::Lost { why: Loss::Fault(status), asking: self.asking() }, now);
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
        self.exchange = None;
        self.timers.clear_all();
        self.drain(if sign == ResetSign::Sleep { SLEEP } else { DRAIN }, now);
    }

    pub(super) fn count_noise(&mut self, reply: &Reply) {
        self.counts.nuls += u64::from(reply.nuls);
        self.counts.noise += u64::from(reply.noise);
        if reply.nuls > 0 && self.phase != Phase::Draining {
            self.note(Quirk::Nul);
        }
        if reply.noise > 0 && self.phase != Phase::Draining {
            self.note(Quirk::StrayByte);
        }
    }

    /// Whether a reply in the wrong form is a sign of a reset; a form that does not change is a quirk instead.
    pub(super) fn form_sign(&mut self, reply: &Reply, echo: Echo, now: Mono) -> Option<&'static str> {
        let what = self.settings.form_lost(reply, echo)?;
        if self.faults.forms.strike(now) > 3 {
            let quirk = self.settings.accept_form(reply, echo);
            if let Some(quirk) = quirk {
                self.note(quirk);
            }
            return None;
        }
        Some(what)
    }
}

/// Whether the last whole line is one of data: digits, nothing else.
fn is_line_of_data(text: &[u8]) -> bool {
    let ends = text.last().is_some_and(|byte| matches!(byte, b'\r' | b'\n'));
    let last = crate::codec::lines(text).filter(|line| !line.trim_ascii().is_empty()).last();
    ends && last.is_some_and(|line| {
        line.len() >= 4 && line.iter().all(|byte| byte.is_ascii_hexdigit() || *byte == b' ')
    })
}

/// Whether an identification is what was asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Banner {
    Asked,
    Unasked,
}

pub(super) fn expects_banner(command: Command) -> Banner {
    use crate::command::Setup as S;
    match command {
        Command::Set(
            S::Identify
            | S::WarmStart
            | S::Reset
            | S::Description
            | S::Identifier
            | S::FamilyIdentify
            | S::OfferFastRate
            // One clone puts its version between the lines of this one (python-OBD #178).
            | S::ProtocolNumber,
        ) => Banner::Asked,
        _ => Banner::Unasked,
    }
}

pub(super) fn alarm(reply: &Reply, banner: Banner) -> Option<ResetSign> {
    alarm_in(&reply.text, banner)
}

/// Whether a text says that the settings are lost.
fn alarm_in(text: &[u8], banner: Banner) -> Option<ResetSign> {
    let words = |line: &&[u8]| line.iter().any(|byte| !byte.is_ascii_hexdigit() && *byte != b' ');
    crate::codec::lines(text).filter(words).find_map(|line| match frames::status(line)? {
        Status::Identity if banner == Banner::Unasked => Some(ResetSign::Banner),
        Status::LowVoltageReset => Some(ResetSign::LowVoltage),
        Status::LowPowerAlert => Some(ResetSign::Sleep),
        fault @ (Status::AdapterFault(_) | Status::FeedbackError) => Some(ResetSign::Fault(fault)),
        _ => None,
    })
}
