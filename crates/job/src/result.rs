//! What came of it: the level with its uncertainty, the balance, what it means and what may be done now.
//!
//! In: the record. Out: a result, in the middle of a job too. Not here: what to do now (`advice/`).

pub(crate) mod ahead;
pub(crate) mod balance;
pub(crate) mod closure;
pub(crate) mod compare;
pub(crate) mod guess;
pub(crate) mod level;
pub(crate) mod means;
pub(crate) mod outcome;
pub(crate) mod worth;
