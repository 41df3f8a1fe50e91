//! The bounds of the page, each with its name.

use core::time::Duration;

/// The bounds of the page. Zero never means unlimited.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Connections at a time.
    /// Own choice: a browser holds six; forty of them, more than a workshop has.
    pub connections: usize,
    /// Connections of one pairing at a time.
    /// Own choice: one telephone with five pages open; a link that was passed on must not take all.
    pub per_pairing: usize,
    /// Bytes of the head of a request.
    /// Own choice: browsers send 1 kB and a cookie; what is larger is no browser.
    pub head_bytes: usize,
    /// How long the head of a request may take.
    /// Own choice: it comes in one piece over radio within 1 s.
    pub head_within: Duration,
    /// Bytes of the body of a request.
    /// Own choice: a remark of 200 characters in the longest letters, escaped, has 2.4 kB.
    pub body_bytes: usize,
    /// Bytes of the body of a request about a sheet, from those who may tell.
    /// Own choice: the longest sheet of ours has 8 kB; as many looks and notes again, and escaped.
    pub sheet_bytes: usize,
    /// How long the body of a request may take.
    /// Own choice: as its head.
    pub body_within: Duration,
    /// How long the daemon's answer to what is told may take.
    /// Own choice: a sync of a slow card takes 1 s; longer, and a person must be told that it is not sure.
    pub answer_within: Duration,
    /// How long a reader of jobs, reports and plans may wait for its turn.
    /// Own choice: each is made within a second, and eight may wait.
    pub turn_within: Duration,
    /// How long a report may take to be taken.
    /// Own choice: a report over the slowest radio takes seconds; one who does not read must not keep it.
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
            sheet_bytes: 128 * 1024,
            body_within: Duration::from_secs(5),
            answer_within: Duration::from_secs(5),
            turn_within: Duration::from_secs(10),
            report_within: Duration::from_secs(30),
        }
    }
}
