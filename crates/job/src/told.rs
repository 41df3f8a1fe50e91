//! What people told, and what of it can be taken back: amounts, hands, the stand, the selector's rounds, answers, typed readings.
//!
//! In: told things that were accepted. Out: what holds. Not here: whether they are accepted (`decide.rs`).

pub(crate) mod act;
pub(crate) mod asked;
pub(crate) mod hands;
pub(crate) mod held;
pub(crate) mod ledger;
pub(crate) mod shift;
pub(crate) mod stand;
pub(crate) mod tilt;
pub(crate) mod typed;
pub(crate) mod words;
