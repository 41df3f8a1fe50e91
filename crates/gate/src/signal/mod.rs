//! What a control unit sends of one temperature, over time.
//!
//! ```text
//!  readings ─► track ─┬─► slope        the moves of a display and the line through them
//!                     ├─► unexplained  what jumps, strays and silences leave open
//!  engine speed ──────┴─► pulse        a cause of how fast it warms
//!  fluid, coolant ──────► copies       is the one made from the other?
//! ```
//!
//! In: values with their times. Out: the last believed value, its slope, how far it may have fallen behind, whether it is
//! proven, settled, a copy. Not here: what that makes of the temperature now (`estimate/budget.rs`).

pub(crate) mod copies;
pub(crate) mod pulse;
pub(crate) mod slope;
pub(crate) mod track;
pub(crate) mod unexplained;
