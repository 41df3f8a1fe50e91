//! A part of the level error, as the budget and its causes hand it on.

/// A part in mL before it is rounded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Part {
    pub(crate) ml: f64,
    pub(crate) u_ml: f64,
}
