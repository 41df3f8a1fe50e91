//! The rule of visibility: facts are durable before anyone sees them, samples are seen at once.
//!
//! In: events in order, and word from the journal of how far it is durable. Out: what to write now, and what
//! may be shown now. No I/O and no clock, so the rule is tested without a disk.
//!
//! One write is under way at a time; what gathers meanwhile goes with the next (group commit). An event is
//! never shown before one with a smaller number, so a sample behind an unsynced fact waits with it.
//!
//! What gathers is bounded, however long the disk takes: first samples are left out and counted, then nothing more may be told, at last the daemon ends.

use std::collections::VecDeque;
use std::time::Duration;

use events::{Durability, Event, Seq};
use units::Mono;

use crate::row::Row;

/// Samples are written at least this often.
/// Own choice: what a loss of power may cost of readings; oftener wears out a card, facts are written at once anyhow.
const BATCH: Duration = Duration::from_millis(1_000);

/// While so many events wait for the disk, no more samples are added.
/// Own choice: three minutes of readings at twenty a second.
const SAMPLES_UP_TO: usize = 4_096;
/// While so many wait, nothing more may be told.
/// Own choice: half way between the two others, so that a stop or a drain that was told finds room.
const REQUESTS_UP_TO: usize = 6_144;
/// So many may wait at most: some megabytes.
/// Own choice: some megabytes; a disk that hangs for minutes will not come back.
const MOST: usize = 8_192;

/// Samples that were not kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LeftOut {
    pub(crate) first: Seq,
    pub(crate) last: Seq,
    pub(crate) count: u64,
}

/// Events on their way to the disk and to the clients.
#[derive(Debug, Default)]
pub(crate) struct Outbox {
    left_out: Option<LeftOut>,
    unwritten: Vec<Row>,
    unseen: VecDeque<Row>,
    writing: Option<Seq>,
    durable: Seq,
    oldest_unwritten: Option<Mono>,
}

impl Outbox {
    /// Takes one more event, or leaves it out where too many wait and it is but a sample.
    pub(crate) fn push(&mut self, event: Event) {
        if self.unwritten.len() >= SAMPLES_UP_TO && event.body.durability() == Durability::Sample {
            let seq = event.seq;
            let left_out = self.left_out.get_or_insert(LeftOut { first: seq, last: seq, count: 0 });
            (left_out.last, left_out.count) = (seq, left_out.count.saturating_add(1));
            return;
        }
        self.oldest_unwritten.get_or_insert(event.mono_ms);
        let row = Row::from(event);
        self.unseen.push_back(row.clone());
        self.unwritten.push(row);
    }

    /// The next batch to write, if one is due and none is under way.
    pub(crate) fn poll_write(&mut self, now: Mono) -> Option<Vec<Row>> {
        let last = self.unwritten.last()?.event.seq;
        let fact = self.unwritten.iter().any(|row| row.event.body.durability() == Durability::Fact);
        let due = self.oldest_unwritten.is_some_and(|since| now >= since.after(BATCH));
        if self.writing.is_some() || !(fact || due) {
            return None;
        }
        self.writing = Some(last);
        self.oldest_unwritten = None;
        Some(std::mem::take(&mut self.unwritten))
    }

    /// The write under way is on disk.
    pub(crate) fn written(&mut self) {
        if let Some(last) = self.writing.take() {
            self.durable = last;
        }
    }

    /// Which samples were left out, once the disk takes events again; asking answers once.
    pub(crate) fn poll_left_out(&mut self) -> Option<LeftOut> {
        if self.writing.is_none() { self.left_out.take() } else { None }
    }

    /// Whether something told could still be promised.
    pub(crate) fn takes_requests(&self) -> bool {
        self.unwritten.len() < REQUESTS_UP_TO
    }

    /// Whether no more can wait: the disk has taken nothing for too long.
    pub(crate) fn is_full(&self) -> bool {
        self.unwritten.len() >= MOST
    }

    /// How many wait for the disk, beside those that it is at work on.
    pub(crate) const fn waiting(&self) -> usize {
        self.unwritten.len()
    }

    /// How far the journal is durable.
    pub(crate) fn durable(&self) -> Seq {
        self.durable
    }

    /// The next event that may be shown.
    pub(crate) fn poll_visible(&mut self) -> Option<Row> {
        let next = &self.unseen.front()?.event;
        let may = next.body.durability() == Durability::Sample || next.seq <= self.durable;
        if may { self.unseen.pop_front() } else { None }
    }

    /// Whether everything that happened has been shown.
    pub(crate) fn all_visible(&self) -> bool {
        self.unseen.is_empty()
    }

    /// When a batch of samples is due.
    pub(crate) fn deadline(&self) -> Option<Mono> {
        if self.writing.is_some() { None } else { self.oldest_unwritten.map(|since| since.after(BATCH)) }
    }

    /// Everything not yet handed to the journal, for the last write of an orderly stop.
    pub(crate) fn rest(&mut self) -> Vec<Row> {
        self.writing = self.unwritten.last().map(|row| row.event.seq);
        std::mem::take(&mut self.unwritten)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Body, Estimate, Utc};
    use units::{Celsius, Kelvins};

    fn fact(seq: u64) -> Event {
        event(seq, Body::Advice(Advice::StayClear.into()))
    }

    fn sample(seq: u64) -> Event {
        let celsius = Celsius::clamped(38.0);
        event(
            seq,
            Body::Estimate(Estimate {
                celsius,
                u: Kelvins::clamped(0.7),
                kelvins_per_minute: None,
                fluid: None,
            }),
        )
    }

    fn event(seq: u64, body: Body) -> Event {
        Event { seq: Seq(seq), at: Utc::from_millis(0), mono_ms: Mono::from_millis(seq), body }
    }

    fn visible(outbox: &mut Outbox) -> Vec<u64> {
        std::iter::from_fn(|| outbox.poll_visible()).map(|row| row.event.seq.0).collect()
    }

    #[test]
    fn a_fact_is_seen_only_when_it_is_on_disk() {
        let mut outbox = Outbox::default();
        outbox.push(sample(1));
        outbox.push(fact(2));
        outbox.push(sample(3));
        assert_eq!(visible(&mut outbox), [1], "the sample before it is seen, the one behind it waits");
        let batch = outbox.poll_write(Mono::from_millis(3)).unwrap();
        assert_eq!(batch.iter().map(|row| row.event.seq.0).collect::<Vec<_>>(), [1, 2, 3]);
        assert_eq!(visible(&mut outbox), [0u64; 0], "writing is not written");
        outbox.written();
        assert_eq!(visible(&mut outbox), [2, 3]);
        assert!(outbox.all_visible());
    }

    #[test]
    fn the_last_write_takes_all_that_is_left_and_makes_it_visible() {
        let mut outbox = Outbox::default();
        outbox.push(sample(1));
        outbox.push(fact(2));
        assert_eq!(outbox.rest().len(), 2);
        assert_eq!((outbox.durable(), outbox.all_visible()), (Seq(0), false));
        outbox.written();
        assert_eq!(outbox.durable(), Seq(2));
        assert_eq!(visible(&mut outbox), [1, 2]);
        assert!(outbox.rest().is_empty());
    }

    #[test]
    fn samples_are_written_once_a_second() {
        let mut outbox = Outbox::default();
        outbox.push(sample(1));
        assert_eq!(outbox.poll_write(Mono::from_millis(900)), None);
        assert_eq!(outbox.deadline(), Some(Mono::from_millis(1_001)));
        assert_eq!(outbox.poll_write(Mono::from_millis(1_001)).map(|b| b.len()), Some(1));
    }

    #[test]
    fn what_waits_for_a_disk_that_hangs_is_bounded_and_told() {
        let mut outbox = Outbox::default();
        outbox.push(fact(1));
        assert!(outbox.poll_write(Mono::ZERO).is_some(), "it hangs from here on");
        let mut seq = 1;
        let mut push = |outbox: &mut Outbox, make: fn(u64) -> Event, n: usize| {
            for _ in 0..n {
                seq += 1;
                outbox.push(make(seq));
            }
        };
        push(&mut outbox, sample, SAMPLES_UP_TO);
        assert_eq!(outbox.unwritten.len(), SAMPLES_UP_TO);
        push(&mut outbox, sample, 1_000);
        assert_eq!((outbox.unwritten.len(), outbox.unseen.len()), (SAMPLES_UP_TO, SAMPLES_UP_TO + 1));
        assert!(outbox.takes_requests() && outbox.poll_left_out().is_none(), "not while it hangs");
        push(&mut outbox, fact, REQUESTS_UP_TO - SAMPLES_UP_TO - 1);
        assert!(outbox.takes_requests());
        push(&mut outbox, fact, 1);
        assert!(!outbox.takes_requests() && !outbox.is_full());
        push(&mut outbox, fact, MOST - REQUESTS_UP_TO - 1);
        assert!(!outbox.is_full());
        push(&mut outbox, fact, 1);
        assert!(outbox.is_full());
        outbox.written();
        let (first, last) = (SAMPLES_UP_TO as u64 + 2, SAMPLES_UP_TO as u64 + 1_001);
        let told = LeftOut { first: Seq(first), last: Seq(last), count: 1_000 };
        assert_eq!((outbox.poll_left_out(), outbox.poll_left_out()), (Some(told), None));
        assert_eq!(outbox.poll_write(Mono::ZERO).map(|batch| batch.len()), Some(MOST));
        assert!(outbox.takes_requests() && !outbox.is_full());
    }

    #[test]
    fn one_write_at_a_time_and_the_next_takes_all_that_gathered() {
        let mut outbox = Outbox::default();
        outbox.push(fact(1));
        assert!(outbox.poll_write(Mono::ZERO).is_some());
        outbox.push(fact(2));
        outbox.push(fact(3));
        assert_eq!(outbox.poll_write(Mono::from_secs(9)), None, "the first is still under way");
        outbox.written();
        assert_eq!(outbox.poll_write(Mono::from_secs(9)).map(|b| b.len()), Some(2));
    }
}
