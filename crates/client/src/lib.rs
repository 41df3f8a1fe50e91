//! A client of the daemon's socket, the same for every front end: `events`, `tell`, `watch`, `rehearse`, and the page.
//!
//! In: a socket's path. Out: the daemon's lines, as text and understood; requests go the other way. What listens must
//! be ours, speak our protocol, and send no line longer than [`LONGEST_LINE`].
//! Not here: what the lines say together (`events::Snapshot::apply`), what a seat sees of it (`view`).
//!
//! ```text
//!   daemon.rs   whose socket it is, connecting
//!   client.rs   one connection: hello, snapshot, line after line
//!   link.rs     connection after connection: lost, and found again
//! ```

mod client;
mod daemon;
mod error;
mod link;
mod patience;

pub use client::{Client, ReadLine};
pub use daemon::Daemon;
pub use error::ClientError;
pub use link::{Link, News};

/// No line of a daemon is longer, in bytes.
/// Own choice: a snapshot with the largest sheet has some ten thousand; a stranger at the socket must not fill memory.
pub const LONGEST_LINE: usize = 1 << 20;
