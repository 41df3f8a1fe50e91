//! From what is known to the verdict.
//!
//! In: what speaks against `go`. Out: the reasons in order. Not here: the evidence (`judge.rs`).

mod reasons;

pub(crate) use reasons::ReasonSet;
pub use reasons::Reasons;
