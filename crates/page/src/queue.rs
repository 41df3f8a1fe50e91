//! Who reads the journal when: one at a time, so many whole answers in memory at a time, and browsers that tell first.
//!
//! In: whoever wants a report. Out: a ticket when it is his turn, held until he has it; or that too many wait. A report
//! is made in the daemon's process: a hundred of them at once would take its memory. Not here: what is in a report.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use tokio::sync::{OwnedSemaphorePermit, Semaphore};

use crate::access::May;

/// Whole answers in memory at a time.
/// Own choice: each is held until it is read, and a small board has other work; fewer would let two slow readers keep
/// all others out.
const HELD: usize = 4;
/// So many of them for links that only show.
/// Own choice: half, so that those who tell find room.
const HELD_BY_SEERS: usize = 2;
/// So many may wait, of those that tell and of those that see each.
/// Own choice: each is made within a second; more than this wait longer than people do.
const WAITING: usize = 8;

/// The queue.
#[derive(Clone)]
pub(crate) struct Queue {
    turn: Arc<Semaphore>,
    held: Arc<Semaphore>,
    seers: Arc<Semaphore>,
    waiting: Arc<[AtomicUsize; 2]>,
}

impl Default for Queue {
    fn default() -> Self {
        Self {
            turn: Arc::new(Semaphore::new(1)),
            held: Arc::new(Semaphore::new(HELD)),
            seers: Arc::new(Semaphore::new(HELD_BY_SEERS)),
            waiting: Arc::default(),
        }
    }
}

/// A turn at the journal, and then a place for the answer.
pub(crate) struct Ticket {
    turn: Option<OwnedSemaphorePermit>,
    _held: OwnedSemaphorePermit,
    _seer: Option<OwnedSemaphorePermit>,
}

impl Ticket {
    /// It is made: the next one may begin, while this one is sent.
    pub(crate) fn made(&mut self) {
        self.turn = None;
    }
}

/// Counts one who waits, until he does no more.
struct Waits<'a>(&'a AtomicUsize);

impl Drop for Waits<'_> {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::Relaxed);
    }
}

impl Queue {
    /// Waits for a turn; `None` where too many wait already.
    pub(crate) async fn enter(&self, may: May) -> Option<Ticket> {
        let [sees, tells] = &*self.waiting;
        let count = if may == May::See { sees } else { tells };
        if count.fetch_add(1, Ordering::Relaxed) >= WAITING {
            drop(Waits(count));
            return None;
        }
        let _waits = Waits(count);
        let seer = match may {
            May::See => Some(Arc::clone(&self.seers).acquire_owned().await.ok()?),
            May::Tell => None,
        };
        let held = Arc::clone(&self.held).acquire_owned().await.ok()?;
        let turn = Arc::clone(&self.turn).acquire_owned().await.ok()?;
        Some(Ticket { turn: Some(turn), _held: held, _seer: seer })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    /// A ticket, if there is one without waiting for anybody.
    async fn now(queue: &Queue, may: May) -> Option<Ticket> {
        tokio::time::timeout(Duration::from_secs(1), queue.enter(may)).await.ok().flatten()
    }

    #[tokio::test(start_paused = true)]
    async fn one_is_made_at_a_time() {
        let queue = Queue::default();
        let mut first = now(&queue, May::Tell).await.unwrap();
        assert!(now(&queue, May::Tell).await.is_none());
        first.made();
        let second = now(&queue, May::See).await.unwrap();
        assert!(now(&queue, May::Tell).await.is_none());
        drop(second);
        assert!(now(&queue, May::Tell).await.is_some());
    }

    #[tokio::test(start_paused = true)]
    async fn so_many_are_held_and_links_that_show_leave_room_for_those_that_tell() {
        let queue = Queue::default();
        let mut held = Vec::new();
        for may in [May::See, May::See, May::Tell, May::Tell] {
            assert_eq!(now(&queue, May::See).await.is_some(), held.len() < 2, "{}", held.len());
            let mut ticket = now(&queue, may).await.unwrap();
            ticket.made();
            held.push(ticket);
        }
        assert!(now(&queue, May::Tell).await.is_none());
        held.remove(0);
        assert!(now(&queue, May::Tell).await.is_some());
    }

    #[tokio::test(start_paused = true)]
    async fn so_many_wait_and_the_next_is_told_at_once() {
        let queue = Queue::default();
        let held = now(&queue, May::Tell).await.unwrap();
        let waiting: Vec<_> = (0..WAITING)
            .map(|_| {
                let queue = queue.clone();
                tokio::spawn(async move { queue.enter(May::See).await.is_some() })
            })
            .collect();
        tokio::task::yield_now().await;
        assert!(queue.enter(May::See).await.is_none(), "one too many");
        drop(held);
        // Those that tell have a queue of their own, and all that waited come to their turn.
        assert!(now(&queue, May::Tell).await.is_some());
        for one in waiting {
            assert!(one.await.unwrap());
        }
        assert!(now(&queue, May::See).await.is_some(), "whoever waited no more is not counted");
    }
}
