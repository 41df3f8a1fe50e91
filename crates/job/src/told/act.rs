//! What can be taken back: a told thing by what it takes to undo it, and the step that it belongs to.
//!
//! In: a request. Out: its step. Not here: taking it back (`record/undo.rs`).

use events::{Leak, Precondition, Request, Step};

use crate::told::asked::Asked;
use crate::told::stand::Stand;

/// A told thing that can be taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Act {
    Confirmed(Precondition),
    /// Measured; what stood there before.
    Levelled(Option<Stand>),
    Measured,
    Shifted,
    Trickled,
    /// A gauge was read.
    Read,
    /// A question was answered; what was known before.
    Answered(Asked),
    /// The place of a leak was told.
    Placed,
    /// A leak was told; what was known of one before, and what was told with it.
    Leaked(Option<Leak>, Asked),
    Torqued,
    TestDriven,
}

/// The step that a told thing belongs to and that taking it back leaves undone.
pub(crate) const fn step_of(request: &Request) -> Option<Step> {
    match request {
        Request::Confirm { what: Precondition::BrakeHeld | Precondition::SelectorCycled } => {
            Some(Step::Circulate)
        }
        Request::Shifted { .. } => Some(Step::Circulate),
        Request::Confirm { what } if !what.gates() => None,
        Request::Confirm { .. } | Request::Level { .. } | Request::Corners { .. } => Some(Step::Prepare),
        Request::Drained { .. } => Some(Step::Drain),
        Request::Filled { .. } => Some(Step::Fill),
        Request::Trickle | Request::Drips | Request::AtEdge | Request::Gauge { .. } => Some(Step::Trickle),
        Request::Torqued => Some(Step::Torque),
        Request::TestDriven => Some(Step::TestDrive),
        _ => None,
    }
}
