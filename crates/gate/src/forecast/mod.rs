//! The time ahead: when the band opens, when it closes, when a fluid that is too hot will be back.
//!
//! ```text
//!  moves, estimate ──► intervals ─┐
//!  two nodes ─────────────────────┼─► blend ─► forecaster ─► opens in, closes in, back in
//!  an earlier job ───► warming ───┘               ▲
//!  recordings ───────► learned (driven vehicles) ─┘
//! ```
//!
//! In: the parts of the gate as they stand. Out: intervals, or nothing: a forecast is earned first. Not here: the verdict, which
//! asks none of them. Method: docs/gate.md, "Forecast".

mod blend;
mod forecaster;
mod intervals;
pub mod learned;
mod warming;

pub(crate) use forecaster::Forecaster;
pub use warming::Warming;
