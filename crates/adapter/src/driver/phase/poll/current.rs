//! The request whose turn it is: what its reply is worth, and what follows from one that is none.
//!
//! In: a reply, everything that is known. Out: findings, what is learnt of count digits, whether an answer counts.
//! Not here: what is said next (`poll.rs`). Method: sections 9, 13 and 16 of the dialect reference.

use std::time::Duration;

use frames::{Ask, Layout, Message, Status};
use units::Mono;

use crate::codec::Reply;
use crate::command::{Awaited, Header};
use crate::driver::judge::{Finding, judge};
use crate::driver::known::turns::{Polls, Slot};
use crate::driver::known::{Belief, Known};
use crate::driver::step::{Next, Start, Step};
use crate::outcome::{Doubt, Outcome, Silence};
use crate::quirk::Quirk;
use crate::schedule::Poll;

/// The request that is being prepared, sent or repeated.
#[derive(Debug, Clone, Copy)]
pub(super) struct Current {
    pub(super) slot: Slot,
    pub(super) poll: Poll,
    pub(super) repeats: u8,
    pub(super) pending: u8,
    /// The protocol is closed first (after `CAN ERROR`).
    pub(super) close: bool,
    /// It only confirms an answer that came.
    pub(super) confirms: bool,
    /// The count digit it leaves with.
    pub(super) digit: Option<u8>,
    /// It was answered `NO DATA` with a count digit, and is asked without.
    pub(super) undigited: bool,
}

/// For so long after something was spoilt the line counts as damaged.
/// Own choice: a bad plug or a dying supply shows again within minutes; for so long an unsteady signal is not let
/// through.
const DAMAGED: Duration = Duration::from_secs(300);

impl Current {
    /// The request in `slot`, asked for the first time.
    pub(super) fn first(slot: Slot, polls: &mut Polls) -> Option<Self> {
        let presence = Poll::new(Ask::Current(0x00), Duration::ZERO);
        let poll = if slot == Slot::Presence { presence } else { polls.poll(slot)? };
        Some(Self {
            slot,
            poll,
            repeats: 0,
            pending: 0,
            close: false,
            confirms: false,
            digit: None,
            undigited: false,
        })
    }

    /// What a reply to it is worth.
    pub(super) fn judge(&self, reply: &Reply, layout: Layout) -> Finding {
        let from = self.poll.header.and_then(Header::answers_from);
        match reply.cut {
            Some(_) => Finding::Doubtful(Doubt::TooLong),
            None => judge(&reply.text, layout, self.poll.ask, from),
        }
    }

    /// The word that its reply must not be used.
    pub(super) const fn suspect(&self, why: Doubt) -> Outcome {
        Outcome::Suspect { ask: self.poll.ask, header: self.poll.header, why }
    }

    /// The word that nothing answered it.
    pub(super) const fn no_answer(&self, why: Silence) -> Outcome {
        Outcome::NoAnswer { ask: self.poll.ask, header: self.poll.header, why }
    }

    /// The count digit to send with it; none for a repetition: whatever went wrong, it was not for want of waiting.
    pub(super) fn awaited(&self, known: &mut Known) -> Option<(u8, Awaited)> {
        if known.quirks.has(Quirk::NoDigit)
            || !known.polls.counts_are_safe()
            || self.repeats > 0
            || self.pending > 0
            || known.polls.is_slow(self.slot)
        {
            return None;
        }
        let lines = known.polls.count(self.slot)?.digit()?;
        Some((lines, Awaited::new(lines)?))
    }

    /// What the reply says about the count digit of its request; whether it is to be asked again without.
    pub(super) fn learn_count(&self, finding: &Finding, reply: &Reply, known: &mut Known) -> bool {
        let (Some(count), digit) = (known.polls.count(self.slot), self.digit) else { return false };
        match finding {
            Finding::Answer(messages) => {
                let lines = reply.lines().filter(|line| frames::status(line).is_none()).count();
                count.answered(digit, lines, lines == messages.len());
                if digit.is_some() {
                    known.polls.digit_helped();
                } else if self.undigited && known.polls.digit_hurt() {
                    known.note(Quirk::NoDigit);
                }
                false
            }
            // Perhaps it was the digit that was not understood: the same without it will show.
            Finding::Says(Status::NoData) => digit.is_some(),
            // Perhaps it was an adapter that knows no digit; one without will show.
            Finding::Says(Status::NotUnderstood) if digit.is_some() => {
                count.withdraw();
                known.note(Quirk::NoDigit);
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
                    known.polls.withdraw_count(self.slot);
                }
                false
            }
        }
    }

    /// Whether an answer counts already: on buses whose replies hide their check sums, a change must come twice.
    pub(super) fn belief(&self, messages: &[Message], known: &mut Known, now: Mono) -> Belief {
        let damaged = known.faults.damaged.is_some_and(|at| now.since(at) < DAMAGED);
        match known.polls.confirm(self.slot) {
            Some(confirm) if known.address.bus().is_can() => {
                confirm.hear(messages, damaged && self.slot == Slot::Gating)
            }
            _ => Belief::Sure,
        }
    }

    /// Its reply must not be used.
    pub(super) fn doubtful(&self, why: Doubt, known: &mut Known, now: Mono) -> Step {
        known.polls.over(self.slot);
        known.polls.back_off(why.word(), now);
        known.tell(self.suspect(why));
        match why {
            Doubt::OtherRequest | Doubt::TooLong => return Step::Resync(Start::Interrupt, Next::Same),
            // Perhaps it was not addressed as we believe.
            Doubt::WrongSender { .. } | Doubt::NoSender => known.address.forget(),
            _ => {}
        }
        Step::Stay
    }

    /// Nothing answered it.
    pub(super) fn unanswered(&self, why: Silence, known: &mut Known, now: Mono) -> Step {
        if known.polls.silent(self.slot, now) {
            // A filter or header that is not what we believe would hide every answer.
            known.address.forget();
        }
        known.polls.quiet = known.polls.quiet.saturating_add(1);
        if !matches!(why, Silence::NoData | Silence::Pending | Silence::NotUnderstood) {
            known.polls.back_off(why.word(), now);
        }
        known.tell(self.no_answer(why));
        Step::Stay
    }
}
