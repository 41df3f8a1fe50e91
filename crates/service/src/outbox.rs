//! The rule of visibility: facts are durable before anyone sees them, samples are seen at once.
//!
//! In: events in order, and word from the journal of how far it is durable. Out: what to write now, and what
//! may be shown now. No I/O and no clock, so the rule is tested without a disk.
//!
//! One write is under way at a time; what gathers meanwhile goes with the next (group commit). An event is
//! never shown before one with a smaller number, so a sample behind an unsynced fact waits with it.

use std::collections::VecDeque;
use std::time::Duration;

use events::{Durability, Event, Seq};
use units::Mono;

/// Samples are written at least this often.
const BATCH: Duration = Duration::from_millis(1_000);

/// Events on their way to the disk and to the clients.
#[derive(Debug, Default)]
pub(crate) struct Outbox {
    unwritten: Vec<Event>,
    unseen: VecDeque<Event>,
    writing: Option<Seq>,
    durable: Seq,
    oldest_unwritten: Option<Mono>,
}

impl Outbox {
    /// Takes one more event.
    pub(crate) fn push(&mut self, event: Event) {
        self.oldest_unwritten.get_or_insert(event.mono_ms);
        self.unseen.push_back(event.clone());
        self.unwritten.push(event);
    }

    /// The next batch to write, if one is due and none is under way.
    pub(crate) fn poll_write(&mut self, now: Mono) -> Option<Vec<Event>> {
        let last = self.unwritten.last()?.seq;
        let fact = self.unwritten.iter().any(|e| e.body.durability() == Durability::Fact);
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

    /// How far the journal is durable.
    pub(crate) fn durable(&self) -> Seq {
        self.durable
    }

    /// The next event that may be shown.
    pub(crate) fn poll_visible(&mut self) -> Option<Event> {
        let next = self.unseen.front()?;
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
    pub(crate) fn rest(&mut self) -> Vec<Event> {
        self.writing = self.unwritten.last().map(|event| event.seq);
        std::mem::take(&mut self.unwritten)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Body, Estimate, Utc};
    use units::{Celsius, Kelvins};

    fn fact(seq: u64) -> Event {
        event(seq, Body::Advice { advice: Advice::StayClear })
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
        std::iter::from_fn(|| outbox.poll_visible()).map(|e| e.seq.0).collect()
    }

    #[test]
    fn a_fact_is_seen_only_when_it_is_on_disk() {
        let mut outbox = Outbox::default();
        outbox.push(sample(1));
        outbox.push(fact(2));
        outbox.push(sample(3));
        assert_eq!(visible(&mut outbox), [1], "the sample before it is seen, the one behind it waits");
        let batch = outbox.poll_write(Mono::from_millis(3)).unwrap();
        assert_eq!(batch.iter().map(|e| e.seq.0).collect::<Vec<_>>(), [1, 2, 3]);
        assert_eq!(visible(&mut outbox), [0u64; 0], "writing is not written");
        outbox.written();
        assert_eq!(visible(&mut outbox), [2, 3]);
        assert!(outbox.all_visible());
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
