//! The vehicle around the fluid: how it is driven, what its engine does to the fluid, the air about it.
//!
//! In: speeds, what a person tells of the engine, losses of the link, air temperatures. Out: whether it is driven and how hard, when
//! the fluid will have mixed, the air. Not here: the heat in it (`nodes`).

pub(crate) mod air;
pub(crate) mod drive;
pub(crate) mod mixing;
pub(crate) mod unseen;
