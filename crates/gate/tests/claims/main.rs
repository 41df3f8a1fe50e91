//! What the gate promises, held against a world made apart from it and against published tables.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)] // a test program: its helpers too

mod less_is_wait;
mod never_wrong;
mod promises;
mod restarts;
mod tables;
mod unseen;
mod witnesses;
mod world;
