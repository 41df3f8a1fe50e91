//! The temperature now, with its uncertainty: by the signal, by a thermometer, by the vehicle's own lamp.
//!
//! ```text
//!  track of the signal ─► budget ──────┐
//!  typed readings ──────► thermometer ─┼─► Known
//!  what the lamp shows ─► lamp ────────┘
//! ```
//!
//! In: what was read. Out: [`Known`]. Not here: whether the evidence may be used at all (`evidence/mod.rs`), what all readings
//! together say of the fluid (`nodes`).

pub(crate) mod budget;
mod known;
pub(crate) mod lamp;
pub(crate) mod thermometer;

pub(crate) use known::Known;
