//! The moment of a step at the port: what it was judged by, and what was open then.
//!
//! In: verdict and temperature as they were announced. Out: whether it was the right one. Not here: the opening (`round.rs`).

use events::{Judged, Verdict};

use crate::told::held::Held;

/// What was known at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Moment {
    pub(crate) judged: Judged,
    pub(crate) open: Held,
}

impl Moment {
    /// `go`, and nothing open.
    pub(crate) fn is_go(&self) -> bool {
        self.judged.verdict == Verdict::Go && self.open.is_empty()
    }
}
