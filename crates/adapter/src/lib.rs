//! Serial port to replies: links, codec, dialect and poll schedule of an ELM327-style adapter, read-only by construction.
//!
//! ```text
//!  Device --open--> Link --bytes--> codec::Codec --Reply--> driver::Driver --Outcome--> whoever wants readings
//!  "/dev/ttyUSB0"   (the caller's     cuts at prompts,       set-up, search, polling,     Answer { ask, messages, .. }
//!  "tcp:HOST:PORT"   loop)            drops noise            resync, quirks, deadlines
//!                        ^                                        |
//!                        +------ Line, from command::Command -----+   nothing else can be written
//! ```
//!
//! [`Driver`] is a machine without I/O and without a clock: bytes in, lines out, time passed in. Everything that waits
//! has a named timer, see [`Driver::waiting_for`]. What leaves the program is a [`Command`]: settings of the adapter
//! that it forgets at power-off, and reading requests; others have no representation.
//!
//! ```
//! use std::time::Duration;
//! use adapter::{Driver, Poll, Schedule};
//! use frames::Ask;
//! use units::Mono;
//!
//! let coolant = Poll::new(Ask::Current(0x05), Duration::from_millis(500));
//! let mut driver = Driver::new(Schedule { gating: Some(coolant), ..Schedule::default() });
//! driver.handle_opened(Mono::ZERO);
//! assert!(driver.poll_transmit(Mono::ZERO).is_none(), "whatever is in the line is read first");
//! let later = driver.poll_timeout().unwrap();
//! driver.handle_timeout(later);
//! assert_eq!(driver.poll_transmit(later).unwrap().as_bytes(), b" ATI\r");
//! driver.handle_bytes(b"ELM327 v2.1\r\r>", later);
//! assert_eq!(driver.poll_transmit(later).unwrap().as_bytes(), b"ATWS\r");
//! ```
//!
//! Not here: what a reading is for. This crate knows nothing of transmissions; it could be published on its own.

mod codec;
mod command;
mod driver;
mod history;
mod level;
mod link;
mod outcome;
mod quirk;
pub mod recording;
mod schedule;

pub use codec::{Codec, Echo, Limit, Reply};
pub use command::{Adaptive, Awaited, Command, Header, HeaderError, Line, Protocol, Setup, Switch};
pub use driver::{Counts, Driver, Timer, Tries};
pub use history::{History, Moment, Side};
pub use level::{Level, Tested, claimed};
pub use link::{
    Candidate, DEFAULT_RATE, Device, DeviceError, Held, Holder, Latency, Link, LinkError, Node, OpenWith,
    Opener, Opening, Port, RATES, RATES_ALLOWED, RateSearch, RateStep, Why, WrongRate, auto, auto_in,
    candidates, latency,
};
pub use outcome::{Doubt, Identity, Loss, Outcome, ResetSign, Silence, Stranger, Tried};
pub use quirk::{Quirk, Quirks};
pub use schedule::{Poll, Schedule};
