//! A value with its time, and spans of time as the formulas have them.
//!
//! In: nothing but numbers. Out: [`Sample`], [`minutes`]. Not here: the clock (`units`).

use core::time::Duration;

use units::Mono;

/// A believed reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sample {
    pub(crate) at: Mono,
    pub(crate) value: f64,
}

pub(crate) fn minutes(span: Duration) -> f64 {
    span.as_secs_f64() / 60.0
}
