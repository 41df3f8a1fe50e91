//! What recorded warm-ups of driven vehicles teach: the rates (`rates.rs`) and the figures that were fitted (`fitted.rs`).
//!
//! In: where the display stands, where it is to go, [`Ways`] of driving. Out: an interval of the time it takes. Not here: the fit
//! (`cargo xtask fit`), when it is asked (`forecaster.rs`).

mod fitted;
mod rates;

pub use rates::{AIRS, DEGREES, FEATURES, FIRST_DEGREE, Learned, Took, USUAL_AIR, WARM_FROM, Ways, Weights};

impl Learned {
    /// Fitted on the recordings of fixtures/warmups.
    pub const FITTED: Self = fitted::FITTED;
}
