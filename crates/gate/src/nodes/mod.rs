//! What all readings together say of the fluid: engine and fluid as two bodies that exchange heat.
//!
//! ```text
//!  any reading ─► readings ─► filter ─┬─► the fluid's temperature and its uncertainty
//!                                     └─► ahead: how long until a temperature is reached
//!  witnesses: two of them, one that never hears the signal itself
//! ```
//!
//! In: every reading with its time. Out: what contradicts the signal, what is known where only coolant is read, a time ahead.
//! Not here: the signal's own budget (`estimate/budget.rs`), the verdict (`verdict`). Derivation: docs/gate.md, "Two nodes".

mod ahead;
mod filter;
mod readings;
mod witnesses;

pub use filter::Cooler;
pub(crate) use filter::Running;
pub(crate) use witnesses::Witnesses;
