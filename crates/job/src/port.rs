//! The looks at the level: which one it is now, one opening of the port, a gauge, what should run out, how much to add.
//!
//! In: the record. Out: facts about the look in hand. Not here: what is said (`advice/`), the level and its uncertainty (`result/`).

pub(crate) mod gauge;
pub(crate) mod looks;
pub(crate) mod moment;
pub(crate) mod round;
pub(crate) mod run_out;
pub(crate) mod top_up;
