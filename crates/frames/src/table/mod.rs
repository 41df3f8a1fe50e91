//! The tables of the standard: which identifier has which fields, where they stand, how a number is coded.
//!
//! In: nothing. Out: rows that `answer` reads and writes by. Not here: text (`text`), a whole answer (`answer`).

pub(crate) mod current;
pub(crate) mod encoding;
pub(crate) mod field;
pub(crate) mod info;
pub(crate) mod list;
pub(crate) mod monitor;
pub(crate) mod monitors;
pub(crate) mod value;
