//! Text of an ELM327-style adapter to decoded values of the standard diagnostic services: pure, table-driven.
//!
//! ```text
//!  b"7E8 03 41 05 7B \r\r>"                 text of one complete reply
//!      |  line, grammar, wire, isotp                   [`reply`], [`messages`]
//!  Message { ecu: 7E8, data: 41 05 7B }     one per control unit and answer
//!      |  current (the table), decode         [`decode`], [`values`], [`decode_one`]
//!  Value { "engine-coolant-temperature", 83.0 degC, raw 123, bits 0..8 }
//! ```
//!
//! and the same table backwards for a simulated vehicle: [`encode`], then [`write`](mod@write).
//!
//! ```
//! use frames::{Ask, Bus, Headers, Layout};
//! let ask = Ask::parse("0105").unwrap();
//! let layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
//! let messages = frames::messages(b"7E8 03 41 05 7B \r\r>", layout, Some(ask)).unwrap();
//! let values = frames::decode(ask, &messages[0].data).unwrap();
//! assert_eq!(values[0].name, "engine-coolant-temperature");
//! assert_eq!(values[0].number(), Some(83.0));
//! ```
//!
//! What cannot be told for sure is an error, never a guess: see [`WireError`] and [`DecodeError`]; each has a
//! kebab-case `kind()` and says what was expected, what came and where. A request that would write, clear or
//! move something cannot be represented: see [`Ask`].
//!
//! Not here: I/O, clocks, which request a reply belongs to (the adapter's codec cuts its stream; [`Stream`] does
//! the same with a bounded buffer for a file or a pipe), and what a value means for a job.
//!
//! A line is read by small `nom` parsers (`grammar.rs`), over digits that one pass has found (`line.rs`): what would need
//! backtracking over digits would be a guess.

#![no_std]
extern crate alloc;
#[cfg(test)]
extern crate std;

mod answer;
mod ask;
mod bus;
mod error;
mod table;
mod text;

pub use answer::code::{Code, CodeGroup};
pub use answer::decode::{Values, decode, decode_one, values};
pub use answer::encode::{
    Counted, EncodeError, TestRecord, encode, encode_codes, encode_supported, encode_tests, encode_texts,
    encode_vin, support_bitmap,
};
pub use answer::negative::{NegativeReply, Remedy};
pub use answer::vin::{CheckDigit, Vin, VinError};
pub use ask::{Ask, AskError, AskHex, Pids};
pub use bus::{Bus, Ecu, Headers, Layout, UnknownName};
pub use error::{DecodeError, EncodingError, WireError};
pub use table::encoding::{ByteOrder, Encoding, Read, spn_177};
pub use table::field::Trust;
pub use table::list::{Entry, list};
pub use table::value::{Bits, Datum, IdSet, Label, Unit, Value};
pub use text::message::Message;
pub use text::single::{Short, single};
pub use text::status::{Status, StatusClass, status};
pub use text::stream::{Cut, Stream};
pub use text::wire::{Content, layouts, messages, reply};
pub use text::{words, write};

/// The examples of the README are tests.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
