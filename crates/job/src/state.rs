//! The folded state itself, and what the gate says beside it.
//!
//! In: nothing. Out: the types that all rooms of this crate read. Not here: what moves them (`fold.rs`), the doors (`job.rs`).

use events::{Alarm, Estimate, Forecast, Reason, SeatAdvice, Utc, Verdict};
use units::Mono;

use crate::live::Live;
use crate::record::Record;

/// What the gate says at this moment, and whether the vehicle answers.
#[derive(Debug, Clone, PartialEq)]
pub struct VerdictNow {
    /// The verdict.
    pub verdict: Verdict,
    /// The estimate it rests on; absent while there is none.
    pub estimate: Option<Estimate>,
    /// What is to be expected; absent while nothing honest can be said.
    pub forecast: Option<Forecast>,
    /// The reasons of the verdict.
    pub reasons: Vec<Reason>,
    /// Whether the vehicle answers through the adapter.
    pub link_up: bool,
}

impl Default for VerdictNow {
    /// Nothing is known: `wait`.
    fn default() -> Self {
        Self {
            verdict: Verdict::Wait,
            estimate: None,
            forecast: None,
            reasons: vec![Reason::NoReading],
            link_up: false,
        }
    }
}

/// The part that a decision tries out on a copy.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Core {
    pub(crate) live: Live,
    pub(crate) record: Option<Record>,
    pub(crate) last_job: u64,
    /// What was advised last, so that an advice near its edge does not flicker.
    pub(crate) advised: Option<SeatAdvice>,
    /// Somebody is in danger; told with a job and without.
    pub(crate) alarm: Option<Alarm>,
    /// When the last event happened, by both clocks.
    pub(crate) last: Option<(Mono, Utc)>,
}
