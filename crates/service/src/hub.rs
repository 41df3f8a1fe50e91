//! What may be seen: the recent lines, ready to send, and word that there are new ones.
//!
//! Clients pull. Each keeps its own place and takes lines when its socket can take them, so that a slow client
//! costs no queue and delays nobody; what has left the ring is read back from the journal.

use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use events::Seq;
use tokio::sync::watch;

use crate::row::Row;

/// How many recent lines are kept in memory.
/// Own choice: some minutes of readings, so that a screen that reconnects needs no disk; a line has 0.3 kB, so half a
/// megabyte.
const RING: usize = 2_048;

/// What a client gets when it asks for the lines after its place.
#[derive(Debug)]
pub(crate) enum Fetch {
    /// These come next; empty when there is nothing new.
    Next(Vec<Row>),
    /// They have left the ring, which begins with this one: read them from the journal.
    Older(Seq),
}

/// Shared between the daemon's loop and its clients.
#[derive(Debug)]
pub(crate) struct Hub {
    ring: Mutex<VecDeque<Row>>,
    last: watch::Sender<Seq>,
    /// Why the daemon ends, once it does.
    parting: watch::Sender<Option<Arc<str>>>,
    emitted: AtomicU64,
    writing: AtomicBool,
}

impl Hub {
    pub(crate) fn new(last: Seq) -> Self {
        Self {
            ring: Mutex::default(),
            last: watch::Sender::new(last),
            parting: watch::Sender::new(None),
            emitted: AtomicU64::new(last.0),
            writing: AtomicBool::new(false),
        }
    }

    /// Makes an event visible.
    pub(crate) fn publish(&self, row: Row) {
        let seq = row.event.seq;
        let mut ring = self.ring();
        if ring.len() == RING {
            ring.pop_front();
        }
        ring.push_back(row);
        drop(ring);
        self.last.send_replace(seq);
    }

    /// Up to `most` lines after `place`.
    pub(crate) fn after(&self, place: Seq, most: usize) -> Fetch {
        let ring = self.ring();
        match ring.front() {
            Some(first) if place < *self.last.borrow() && first.event.seq > place.next() => {
                Fetch::Older(first.event.seq)
            }
            _ => {
                let start = ring.partition_point(|row| row.event.seq <= place);
                Fetch::Next(ring.iter().skip(start).take(most).cloned().collect())
            }
        }
    }

    /// The number of the last visible event.
    pub(crate) fn last(&self) -> Seq {
        *self.last.borrow()
    }

    /// Wakes whenever there is something new.
    pub(crate) fn subscribe(&self) -> watch::Receiver<Seq> {
        self.last.subscribe()
    }

    /// Tells every client why the daemon ends; each sends what it has and a last line.
    pub(crate) fn part(&self, reason: &str) {
        self.parting.send_replace(Some(reason.into()));
    }

    /// The reason, once there is one. A client keeps this as long as it is served.
    pub(crate) fn parting(&self) -> watch::Receiver<Option<Arc<str>>> {
        self.parting.subscribe()
    }

    /// Ready when no client is served any more.
    pub(crate) async fn all_gone(&self) {
        self.parting.closed().await;
    }

    /// Notes that events up to this one exist, though they may not be visible yet.
    pub(crate) fn emitted(&self, seq: Seq) {
        self.emitted.store(seq.0, Ordering::Release);
    }

    /// Notes whether the disk is at work.
    pub(crate) fn writing(&self, writing: bool) {
        self.writing.store(writing, Ordering::Release);
    }

    /// Whether all that exists is visible, and the disk at rest.
    pub(crate) fn settled(&self) -> bool {
        !self.writing.load(Ordering::Acquire) && self.emitted.load(Ordering::Acquire) == self.last().0
    }

    fn ring(&self) -> MutexGuard<'_, VecDeque<Row>> {
        // A poisoned lock would mean a panic while a line was pushed; the lines themselves are still whole.
        self.ring.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Body, Event, Utc};
    use units::Mono;

    fn publish(hub: &Hub, seq: u64) {
        let body = Body::Advice(Advice::StayClear.into());
        hub.publish(Event { seq: Seq(seq), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body }.into());
    }

    fn seqs(hub: &Hub, place: u64) -> Option<Vec<u64>> {
        match hub.after(Seq(place), 4) {
            Fetch::Next(lines) => Some(lines.iter().map(|row| row.event.seq.0).collect()),
            Fetch::Older(_) => None,
        }
    }

    #[test]
    fn a_client_takes_the_lines_after_its_place() {
        let hub = Hub::new(Seq(10));
        assert_eq!(seqs(&hub, 10), Some(vec![]));
        for seq in 11..=16 {
            publish(&hub, seq);
        }
        assert_eq!(seqs(&hub, 10), Some(vec![11, 12, 13, 14]));
        assert_eq!(seqs(&hub, 14), Some(vec![15, 16]));
        assert_eq!(seqs(&hub, 3), None, "older lines are the journal's");
        assert_eq!(seqs(&hub, 99), Some(vec![]), "a place from the future waits");
    }

    #[test]
    fn the_ring_is_bounded() {
        let hub = Hub::new(Seq(0));
        for seq in 1..=(RING as u64 + 5) {
            publish(&hub, seq);
        }
        assert_eq!(hub.ring().len(), RING);
        assert_eq!(seqs(&hub, 4), None);
        assert_eq!(seqs(&hub, 5), Some(vec![6, 7, 8, 9]));
    }
}
