//! What a bay has to tell, numbered and timed, until it is taken out.
//!
//! In: bodies, the time. Out: events with growing numbers; the numbers of jobs. Pure. Not here: what they change (`bay.rs`), how
//! they are kept (`outbox.rs`).

use std::collections::VecDeque;

use events::{Body, Event, Seq};

use super::Moment;

/// See the module's words.
#[derive(Debug)]
pub(super) struct Log {
    next: Seq,
    last_job: u64,
    out: VecDeque<Event>,
}

impl Log {
    pub(super) const fn new(next: Seq, last_job: u64) -> Self {
        Self { next, last_job, out: VecDeque::new() }
    }

    /// The number of the next event.
    pub(super) const fn next(&self) -> Seq {
        self.next
    }

    /// The number of the last one.
    pub(super) const fn last(&self) -> Seq {
        Seq(self.next.0.saturating_sub(1))
    }

    /// The number of the job that begins.
    pub(super) const fn new_job(&mut self) -> u64 {
        self.last_job += 1;
        self.last_job
    }

    /// Numbers and times a body.
    pub(super) fn event(&mut self, body: Body, now: Moment) -> Event {
        let event = Event { seq: self.next, at: now.utc, mono_ms: now.mono, body };
        self.next = self.next.next();
        event
    }

    /// It has been folded, and may go out.
    pub(super) fn push(&mut self, event: Event) {
        self.out.push_back(event);
    }

    pub(super) fn pop(&mut self) -> Option<Event> {
        self.out.pop_front()
    }
}
