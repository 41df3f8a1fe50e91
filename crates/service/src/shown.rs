//! Which changes of a verdict are told, and when.
//!
//! In: the verdict now and as it was told last. Out: whether it is news. Not here: the verdict itself (`gate`).

use std::time::Duration;

use events::{Precondition, Reason, Verdict};
use units::Mono;

/// A change of the place at an edge of the band is told at most this often.
const EDGE_EVERY: Duration = Duration::from_secs(10);

/// A verdict as it was told last.
pub(crate) struct Shown {
    pub(crate) verdict: Verdict,
    pub(crate) reasons: Vec<Reason>,
    pub(crate) open: Vec<Precondition>,
    pub(crate) at: Mono,
}

impl Shown {
    /// Whether it must be told: at once where the verdict, what is open or a lasting reason changed; now and then
    /// where only the place at an edge of the band did, for a shown value flickers there many times.
    pub(crate) fn is_news_after(&self, before: &Self) -> bool {
        let lasting = |s: &Self| s.reasons.iter().copied().filter(|r| !r.is_at_edge()).collect::<Vec<_>>();
        if self.verdict != before.verdict || self.open != before.open || lasting(self) != lasting(before) {
            return true;
        }
        self.reasons != before.reasons && self.at >= before.at.after(EDGE_EVERY)
    }
}
