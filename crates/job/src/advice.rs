//! What to do with the hands now, for each seat: what the procedure wants, and what would harm.
//!
//! In: the folded state, the time, the verdict. Out: an advice for each seat, stop rules, the plan of a sheet. Not here: what was told
//! (`told/`), what came of it (`result/`).

pub(crate) mod acts;
pub(crate) mod ask;
pub(crate) mod guard;
pub(crate) mod procedure;
pub(crate) mod situation;
pub(crate) mod stop;
