//! The bounds of the page, each with its name.

use core::time::Duration;

/// The bounds of the page. Zero never means unlimited.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Connections at a time.
    pub connections: usize,
    /// Connections of one pairing at a time.
    pub per_pairing: usize,
    /// Bytes of the head of a request.
    pub head_bytes: usize,
    /// How long the head of a request may take.
    pub head_within: Duration,
    /// Bytes of the body of a request.
    pub body_bytes: usize,
    /// How long the body of a request may take.
    pub body_within: Duration,
    /// How long the daemon's answer to what is told may take.
    pub answer_within: Duration,
    /// How long a reader of jobs, reports and plans may wait for its turn.
    pub turn_within: Duration,
    /// How long a report may take to be taken.
    pub report_within: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            connections: 256,
            per_pairing: 32,
            head_bytes: 16 * 1024,
            head_within: Duration::from_secs(5),
            body_bytes: 4 * 1024,
            body_within: Duration::from_secs(5),
            answer_within: Duration::from_secs(5),
            turn_within: Duration::from_secs(10),
            report_within: Duration::from_secs(30),
        }
    }
}
