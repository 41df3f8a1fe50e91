//! Reading: which request is due, and what is done about its reply.
//!
//! In: whose turn it is (`turns.rs`), findings about replies (`judge.rs`), the time. Out: one request after another, and
//! what came of each: an answer, a repetition, a typed failure. Nothing else becomes a reading.
//! Method: sections 9, 13 and 16 of the dialect reference.

use std::time::Duration;

use frames::{Ask, Remedy, Status};
use units::Mono;

use super::confirm::Belief;
use super::judge::{self, Finding, judge};
use super::recover::Recovery;
use super::search::silence_of;
use super::turns::{Choice, Current, Slot};
use super::{Driver, Exchange, Goal, Purpose, Timer, address};
use crate::codec::{Echo, Reply};
use crate::command::{Awaited, Command, Line, Setup};
use crate::outcome::{Doubt, Outcome, ResetSign, Silence};
use crate::quirk::Quirk;
use crate::schedule::Poll;

/// The limit of a data request: twice the adapter's wait, 1 s for the control unit, 0.5 s for the link (section 9).
const LIMIT_BESIDE: Duration = Duration::from_millis(1_500);
/// For so long after something was spoilt the line counts as damaged.
const DAMAGED: Duration = Duration::from_secs(300);
/// A control unit that asks for more time in a reply of its own is asked again so often.
const PENDING_REPEATS: u8 = 5;

/// What to do about a text of the adapter, as `responses.csv` says: repeat how often, after which pause.
#[rustfmt::skip]
const REPEATS: &[(Status, u8, Duration)] = &[
    (Status::Stopped,        1, Duration::ZERO),
    (Status::BusInitStopped, 1, Duration::ZERO),
    (Status::BufferFull,     1, Duration::ZERO),
    (Status::BusBusy,        3, Duration::from_millis(200)),
    (Status::BusError,       1, Duration::from_secs(1)),
    (Status::CanError,       1, Duration::from_secs(1)),
    (Status::DataError,      2, Duration::ZERO),
    (Status::RxError,        2, Duration::ZERO),
    (Status::ActivityAlert,  1, Duration::ZERO),
];

impl Driver {
    pub(super) fn polls_transmit(&mut self, now: Mono) -> Option<Line> {
        if self.polls.take_poke() {
            let limit = self.setting_limit();
            return Some(self.send(Command::Set(Setup::Identify), Purpose::Poke, limit, now));
        }
        // One round per request that turns out not to be addressable; each is barred then.
        loop {
            let current = match self.polls.current {
                Some(current) => current,
                None => match self.polls.choose(now) {
                    Choice::Ask(slot) => self.begin(slot)?,
                    Choice::Voltage => {
                        self.polls.voltage_left(now);
                        let limit = self.setting_limit();
                        return Some(self.send(Command::Set(Setup::Voltage), Purpose::Voltage, limit, now));
                    }
                    Choice::Wait(until) => {
                        if let Some(until) = until {
                            self.timers.set(Timer::Due, until);
                        }
                        return None;
                    }
                },
            };
            if current.poll.header.is_some_and(|header| !header.fits(self.address.bus())) {
                self.poll_unfit(current);
                continue;
            }
            if now < self.polls.not_before {
                self.timers.set(Timer::Due, self.polls.not_before);
                return None;
            }
            return self.send_current(current, now);
        }
    }

    fn begin(&mut self, slot: Slot) -> Option<Current> {
        let presence = Poll::new(Ask::Current(0x00), Duration::ZERO);
        let poll = if slot == Slot::Presence { presence } else { self.polls.poll(slot)? };
        let current = Current::first(slot, poll);
        self.polls.current = Some(current);
        Some(current)
    }

    /// The next step of the current request: addressing first, then the request itself. None: not for a moment yet.
    fn send_current(&mut self, mut current: Current, now: Mono) -> Option<Line> {
        let setting = self.setting_limit();
        let long = current.pending > 0 || self.polls.is_slow(current.slot);
        let step = if current.close {
            Some((Setup::CloseProtocol, address::Step::Close))
        } else {
            self.address.next_wait(long).or_else(|| self.address.next(current.poll.header))
        };
        if let Some((setup, step)) = step {
            if self.waits_for_safety(Command::Set(setup), now) {
                return None;
            }
            if let Some(current) = &mut self.polls.current {
                current.close = false;
            }
            return Some(self.send(Command::Set(setup), Purpose::Address(step), setting, now));
        }
        let awaited = self.awaited(current);
        let ask = current.poll.ask;
        let command = awaited.map_or(Command::Read(ask), |(_, awaited)| Command::Counted(ask, awaited));
        if self.waits_for_safety(command, now) {
            return None;
        }
        current.digit = awaited.map(|(lines, _)| lines);
        if let Some(sent) = &mut self.polls.current {
            sent.digit = current.digit;
        }
        self.polls.left(current, now);
        self.counts.gating.asked += u64::from(current.slot == Slot::Gating);
        let limit = 2 * self.address.wait() + LIMIT_BESIDE;
        let purpose = if current.slot == Slot::Presence { Purpose::Presence } else { Purpose::Poll };
        Some(self.send(command, purpose, limit, now))
    }

    /// The count digit to send with it; none for a repetition: whatever went wrong, it was not for want of waiting.
    fn awaited(&mut self, current: Current) -> Option<(u8, Awaited)> {
        if self.quirks.has(Quirk::NoDigit)
            || !self.polls.counts_are_safe()
            || current.repeats > 0
            || current.pending > 0
            || self.polls.is_slow(current.slot)
        {
            return None;
        }
        let lines = self.polls.count(current.slot)?.digit()?;
        Some((lines, Awaited::new(lines)?))
    }

    /// What the reply says about the count digit of its request; whether it is to be asked again without.
    fn learn_count(&mut self, current: Current, finding: &Finding, reply: &Reply) -> bool {
        let (Some(count), digit) = (self.polls.count(current.slot), current.digit) else { return false };
        match finding {
            Finding::Answer(messages) => {
                let lines = reply.lines().filter(|line| frames::status(line).is_none()).count();
                count.answered(digit, lines, lines == messages.len());
                if digit.is_some() {
                    self.polls.digit_helped();
                } else if current.undigited && self.polls.digit_hurt() {
                    self.note(Quirk::NoDigit);
                }
                false
            }
            // Perhaps it was the digit that was not understood: the same without it will show.
            Finding::Says(Status::NoData) => digit.is_some(),
            // Perhaps it was an adapter that knows no digit; one without will show.
            Finding::Says(Status::NotUnderstood) if digit.is_some() => {
                count.withdraw();
                self.note(Quirk::NoDigit);
                true
            }
            Finding::Pending => {
                count.withdraw();
                digit.is_some()
            }
            // What the adapter says instead has nothing to do with the digit.
            Finding::Declined(_) | Finding::Says(_) => false,
            Finding::Spoilt(_) | Finding::Doubtful(_) | Finding::HeadersLost => {
                if digit.is_some() {
                    self.polls.withdraw_count(current.slot);
                }
                false
            }
        }
    }

    pub(super) fn poll_reply(&mut self, exchange: &Exchange, reply: &Reply, echo: Echo, now: Mono) {
        let (Some(current), Some(layout)) = (self.polls.current.take(), self.search.layout) else { return };
        let Poll { ask, header, .. } = current.poll;
        self.faults.misses = 0;
        if let Some(what) = self.form_sign(reply, echo, now) {
            self.tell(Outcome::Suspect { ask, header, why: Doubt::AfterReset });
            return self.on_alarm(ResetSign::Form(what), now);
        }
        let from = header.and_then(crate::command::Header::answers_from);
        let finding = match reply.cut {
            Some(_) => Finding::Doubtful(Doubt::TooLong),
            None => judge(&reply.text, layout, ask, from),
        };
        if reply.noise > 0
            || matches!(
                finding,
                Finding::Spoilt(_) | Finding::Doubtful(Doubt::Malformed(_) | Doubt::OtherRequest)
            )
        {
            self.faults.damaged = Some(now);
        }
        if self.learn_count(current, &finding, reply) {
            self.counts.gating.again += u64::from(current.slot == Slot::Gating);
            self.harm.answered();
            let undigited = finding == Finding::Says(Status::NoData);
            return self.repeat(Current { digit: None, undigited, ..current }, Duration::ZERO, now);
        }
        // A vehicle that is gone after it may be gone because of it.
        if !matches!(finding, Finding::Says(status) if is_gone(status)) && finding != Finding::HeadersLost {
            self.harm.answered();
        }
        match finding {
            Finding::Answer(messages) => {
                if judge::holds(&reply.text, &judge::pending_text(ask)) {
                    self.polls.was_pending(current.slot);
                } else {
                    self.polls.was_quick(current.slot);
                }
                match self.belief(current, &messages, now) {
                    Belief::Sure => {}
                    Belief::Again => {
                        self.counts.gating.again += u64::from(current.slot == Slot::Gating);
                        self.polls.not_before = self.polls.not_before.max(self.polls.ready_at(now));
                        self.polls.current = Some(Current { confirms: true, ..current });
                        return;
                    }
                    Belief::Unsteady => return self.poll_doubtful(current, Doubt::Unsteady, now),
                }
                self.pace_helped();
                self.polls.answered(current.slot);
                self.tell(Outcome::Answer { ask, header, sent: exchange.sent, at: now, messages });
            }
            Finding::Declined(code) => {
                if code.remedy() == Remedy::DoNotAskAgain {
                    self.polls.silent(current.slot, now);
                }
                self.polls.over(current.slot);
                self.polls.quiet = 0;
                self.tell(Outcome::Declined { ask, header, code });
            }
            Finding::Pending if current.pending < PENDING_REPEATS => {
                self.polls.was_pending(current.slot);
                self.counts.gating.again += u64::from(current.slot == Slot::Gating);
                self.polls.current = Some(Current { pending: current.pending + 1, ..current });
            }
            Finding::Pending => self.unanswered(current, Silence::Pending, now),
            Finding::Says(status) => self.poll_says(current, status, now),
            Finding::Spoilt(_) if current.repeats == 0 => self.repeat(current, Duration::ZERO, now),
            Finding::Spoilt(why) | Finding::Doubtful(why) => self.poll_doubtful(current, why, now),
            Finding::HeadersLost => {
                self.blame(now);
                self.tell(Outcome::Suspect { ask, header, why: Doubt::AfterReset });
                self.on_alarm(ResetSign::Form("no headers"), now);
            }
        }
    }

    /// Whether an answer counts already: on buses whose replies hide their check sums, a change must come twice.
    fn belief(&mut self, current: Current, messages: &[frames::Message], now: Mono) -> Belief {
        let damaged = self.faults.damaged.is_some_and(|at| now.since(at) < DAMAGED);
        match self.polls.confirm(current.slot) {
            Some(confirm) if self.address.bus().is_can() => {
                confirm.hear(messages, damaged && current.slot == Slot::Gating)
            }
            _ => Belief::Sure,
        }
    }

    fn poll_says(&mut self, current: Current, status: Status, now: Mono) {
        let (ask, header) = (current.poll.ask, current.poll.header);
        let row = REPEATS.iter().find(|row| row.0 == status);
        if let Some(&(_, most, pause)) = row.filter(|row| current.repeats < row.1) {
            debug_assert!(most > 0);
            let close = status == Status::CanError;
            return self.repeat(Current { close, ..current }, pause, now);
        }
        if current.repeats > 0 && matches!(status, Status::Stopped | Status::NotUnderstood) {
            self.pace_broke_off(now);
        }
        match status {
            // Asking for anything else would only take longer to say so.
            _ if is_gone(status) => {
                self.tell(Outcome::NoAnswer { ask, header, why: silence_of(status) });
                self.blame(now);
                self.search_failed(silence_of(status), now);
            }
            Status::DataError | Status::RxError => {
                self.poll_doubtful(current, Doubt::Malformed(status.kind()), now)
            }
            Status::NoData
            | Status::NotUnderstood
            | Status::Stopped
            | Status::BusInitStopped
            | Status::BusBusy
            | Status::BusError
            | Status::BufferFull => self.unanswered(current, silence_of(status), now),
            // A text that answers another command: replies have shifted.
            _ => self.poll_doubtful(current, Doubt::OtherRequest, now),
        }
    }

    fn poll_doubtful(&mut self, current: Current, why: Doubt, now: Mono) {
        let (ask, header) = (current.poll.ask, current.poll.header);
        self.polls.over(current.slot);
        self.polls.back_off(why.word(), now);
        self.tell(Outcome::Suspect { ask, header, why });
        match why {
            Doubt::OtherRequest | Doubt::TooLong => self.recover(Recovery::in_step(Goal::Poll), now),
            // Perhaps it was not addressed as we believe.
            Doubt::WrongSender { .. } | Doubt::NoSender => self.address.forget(),
            _ => {}
        }
    }

    fn unanswered(&mut self, current: Current, why: Silence, now: Mono) {
        let (ask, header) = (current.poll.ask, current.poll.header);
        if self.polls.silent(current.slot, now) {
            // A filter or header that is not what we believe would hide every answer.
            self.address.forget();
        }
        self.polls.quiet = self.polls.quiet.saturating_add(1);
        if !matches!(why, Silence::NoData | Silence::Pending | Silence::NotUnderstood) {
            self.polls.back_off(why.word(), now);
        }
        self.tell(Outcome::NoAnswer { ask, header, why });
    }

    fn repeat(&mut self, current: Current, pause: Duration, now: Mono) {
        self.polls.not_before = self.polls.not_before.max(now.after(pause));
        self.polls.current = Some(Current { repeats: current.repeats + 1, ..current });
    }

    /// The header of the current request was refused: once more, then seldom.
    pub(super) fn poll_header_refused(&mut self, now: Mono) {
        match self.polls.current {
            Some(current) if current.repeats == 0 => self.repeat(current, Duration::ZERO, now),
            Some(current) => {
                self.polls.refused(current.slot, now);
                self.not_addressable(current);
            }
            None => {}
        }
    }

    /// The header of the current request does not fit the bus: it is barred until the next connection.
    fn poll_unfit(&mut self, current: Current) {
        self.polls.bar(current.slot);
        self.not_addressable(current);
    }

    fn not_addressable(&mut self, current: Current) {
        self.polls.current = None;
        let Poll { ask, header, .. } = current.poll;
        let to = header.unwrap_or(crate::command::Header::functional(self.address.bus()));
        self.tell(Outcome::Suspect { ask, header, why: Doubt::NotAddressable(to) });
    }

    /// No complete reply came in time; where to go on once the adapter is in step again.
    pub(super) fn poll_expired(&mut self, pending: bool, now: Mono) -> Goal {
        if let Some(current) = self.polls.current.take() {
            let (ask, header) = (current.poll.ask, current.poll.header);
            if current.digit.is_some() {
                self.polls.withdraw_count(current.slot);
            }
            // One that is never answered in time must not take the time of the others.
            self.polls.silent(current.slot, now);
            self.polls.back_off("timed-out", now);
            let why = if pending { Silence::Pending } else { Silence::TimedOut };
            self.tell(Outcome::NoAnswer { ask, header, why });
        }
        self.faults.misses = if pending { 0 } else { self.faults.misses + 1 };
        if self.faults.misses < 3 {
            return Goal::Poll;
        }
        self.faults.misses = 0;
        self.counts.resets += 1;
        self.tell(Outcome::Reset { sign: ResetSign::Misses });
        Goal::SetUp
    }

    pub(super) fn presence_reply(&mut self, reply: &Reply, now: Mono) {
        self.polls.current = None;
        let Some(layout) = self.search.layout else { return };
        match judge(&reply.text, layout, Ask::Current(0x00), None) {
            Finding::Answer(_) => self.polls.quiet = 0,
            Finding::Says(status) => self.search_failed(silence_of(status), now),
            Finding::Declined(_) | Finding::Pending => self.search_failed(Silence::OnlyRefusals, now),
            Finding::HeadersLost => self.on_alarm(ResetSign::Form("no headers"), now),
            Finding::Spoilt(_) | Finding::Doubtful(_) => self.search_failed(Silence::Malformed, now),
        }
    }

    pub(super) fn voltage_reply(&mut self, reply: &Reply, now: Mono) {
        match reply.lines().find_map(millivolts) {
            Some(millivolts) => self.tell(Outcome::Voltage { millivolts, at: now }),
            None => self.note(Quirk::NoVolt),
        }
    }
}

/// Whether a text says that the vehicle is gone.
const fn is_gone(status: Status) -> bool {
    matches!(status, Status::UnableToConnect | Status::BusInitError | Status::CanError)
}

/// A voltage that a vehicle can have, from `12.6V`, or `12.3` without its unit (python-OBD #178); anything else is
/// unknown, never zero. `0.0V` means that the input is not wired.
fn millivolts(line: &[u8]) -> Option<u32> {
    let text = std::str::from_utf8(line).ok()?.trim();
    let number = text.strip_suffix(['V', 'v']).unwrap_or(text);
    let (whole, tenths) = number.split_once('.')?;
    let plain =
        |part: &str| !part.is_empty() && part.len() <= 2 && part.bytes().all(|byte| byte.is_ascii_digit());
    if !plain(whole) || !plain(tenths) {
        return None;
    }
    let fraction: u32 = tenths.parse::<u32>().ok()? * if tenths.len() == 1 { 100 } else { 10 };
    let millivolts = whole.parse::<u32>().ok()? * 1_000 + fraction;
    (1_000..=36_000).contains(&millivolts).then_some(millivolts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_voltage_is_a_number_that_a_vehicle_can_have_or_unknown() {
        // exchanges.csv X058 to X061; section 18, fault 38.
        let cases: &[(&str, Option<u32>)] = &[
            ("12.6V", Some(12_600)),
            ("14.1V", Some(14_100)),
            ("12.3", Some(12_300)),
            ("11.87V", Some(11_870)),
            ("0.0V", None),
            ("99.9V", None),
            ("OK", None),
            ("?", None),
            ("12V", None),
            ("-1.0V", None),
        ];
        for (text, want) in cases {
            assert_eq!(millivolts(text.as_bytes()), *want, "{text}");
        }
    }
}
