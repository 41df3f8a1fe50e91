//! From what is known to the verdict.
//!
//! In: an estimate, the band, what speaks against `go`. Out: where the temperature lies, how long all has been well, the verdict and
//! its reasons in order. Not here: the evidence (`evidence/mod.rs`). Source: JCGM 106:2012, guarded acceptance; docs/gate.md, "Verdict".

mod band;
mod hold;
mod reasons;
mod standing;

pub(crate) use band::Place;
pub(crate) use reasons::ReasonSet;
pub use reasons::Reasons;
pub(crate) use standing::Standing;
