//! What may be seen: the recent lines, ready to send, and word that there are new ones.
//!
//! Clients pull. Each keeps its own place and takes lines when its socket can take them, so that a slow client
//! costs no queue and delays nobody; what has left the ring is read back from the journal.

use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use events::{Event, Fault, Seq};
use tokio::sync::watch;

/// How many recent lines are kept in memory.
const RING: usize = 2_048;

/// One event as it is sent: serialised once for all clients.
#[derive(Debug, Clone)]
pub(crate) struct Sent {
    pub(crate) seq: Seq,
    pub(crate) kind: &'static str,
    pub(crate) line: Arc<str>,
}

/// What a client gets when it asks for the lines after its place.
#[derive(Debug)]
pub(crate) enum Fetch {
    /// These come next; empty when there is nothing new.
    Next(Vec<Sent>),
    /// They have left the ring, which begins with this one: read them from the journal.
    Older(Seq),
}

/// Shared between the daemon's loop and its clients.
#[derive(Debug)]
pub(crate) struct Hub {
    ring: Mutex<VecDeque<Sent>>,
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

    /// Makes an event visible. One that has no text becomes a fault under its number: nobody waits for it in vain.
    pub(crate) fn publish(&self, event: &Event) {
        match serde_json::to_string(event) {
            Ok(line) => self.put(event.seq, event.body.kind(), line.into()),
            Err(e) => self.put_unsaid(event, &e),
        }
    }

    fn put_unsaid(&self, event: &Event, error: &serde_json::Error) {
        tracing::error!(seq = event.seq.0, kind = event.body.kind(), %error, "an event cannot be written as text");
        let line = serde_json::json!({
            "seq": event.seq, "at": event.at, "mono_ms": event.mono_ms,
            "kind": "fault", "fault": Fault::JournalDamaged,
            "detail": format!("the event {} of kind {} cannot be written as text: {error}", event.seq, event.body.kind()),
        });
        self.put(event.seq, "fault", line.to_string().into());
    }

    fn put(&self, seq: Seq, kind: &'static str, line: Arc<str>) {
        let mut ring = self.ring();
        if ring.len() == RING {
            ring.pop_front();
        }
        ring.push_back(Sent { seq, kind, line });
        drop(ring);
        self.last.send_replace(seq);
    }

    /// Up to `most` lines after `place`.
    pub(crate) fn after(&self, place: Seq, most: usize) -> Fetch {
        let ring = self.ring();
        match ring.front() {
            Some(first) if place < *self.last.borrow() && first.seq > place.next() => Fetch::Older(first.seq),
            _ => {
                let start = ring.partition_point(|sent| sent.seq <= place);
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

    fn ring(&self) -> MutexGuard<'_, VecDeque<Sent>> {
        // A poisoned lock would mean a panic while a line was pushed; the lines themselves are still whole.
        self.ring.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Body, Utc};
    use units::Mono;

    fn publish(hub: &Hub, seq: u64) {
        let body = Body::Advice(Advice::StayClear.into());
        hub.publish(&Event { seq: Seq(seq), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body });
    }

    fn seqs(hub: &Hub, place: u64) -> Option<Vec<u64>> {
        match hub.after(Seq(place), 4) {
            Fetch::Next(lines) => Some(lines.iter().map(|s| s.seq.0).collect()),
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
    fn an_event_without_a_text_becomes_a_fault_under_its_number() {
        let hub = Hub::new(Seq(0));
        let body = Body::Advice(Advice::StayClear.into());
        let event = Event { seq: Seq(1), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body };
        let error = serde_json::from_str::<u8>("x").unwrap_err();
        hub.put_unsaid(&event, &error);
        publish(&hub, 2);
        let Fetch::Next(sent) = hub.after(Seq(0), 4) else { panic!("they are in the ring") };
        let told: Event = serde_json::from_str(&sent[0].line).unwrap();
        assert!(matches!(told.body, Body::Fault { fault: Fault::JournalDamaged, .. }), "{told:?}");
        assert_eq!((told.seq, sent[0].kind, sent[1].seq), (Seq(1), "fault", Seq(2)));
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
