//! What a whole answer says, by the tables: values, codes, a vehicle's number, a refusal; and back.
//!
//! In: a request and the bytes of its answer. Out: values, or why there are none. Not here: text (`text`), the rows themselves
//! (`table`).

pub(crate) mod code;
pub(crate) mod decode;
pub(crate) mod encode;
pub(crate) mod negative;
pub(crate) mod vin;
