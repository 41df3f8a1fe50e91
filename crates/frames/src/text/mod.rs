//! What an adapter writes and is written: lines of text, and the messages in them.
//!
//! In: text of an adapter. Out: messages, one for each control unit and answer; and back. Not here: what their bytes mean (`table`,
//! `answer`).

pub(crate) mod checksum;
pub(crate) mod grammar;
pub(crate) mod header;
pub(crate) mod hex;
pub(crate) mod isotp;
pub(crate) mod line;
pub(crate) mod message;
pub(crate) mod single;
pub(crate) mod status;
pub(crate) mod stream;
pub(crate) mod wire;
pub mod words;
pub mod write;
