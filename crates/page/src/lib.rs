//! The phone page: a front end of the socket that serves browsers.
//!
//! ```text
//!  socket ──lines──► feed: view::Fold ──view of each seat──► live: server-sent events ──► any number of pages
//!    ▲                                                                                        │
//!    └──────told────── feed ◄──request── routes: host, origin, pairing, size, time ◄──tell────┘
//! ```
//!
//! One fold for all pages; each takes the newest view when it can take it, so that a slow page costs no queue.
//! It runs on a thread of its own beside the daemon and reads the socket like any other front end: whatever browsers
//! do, no reading and no verdict waits for them. Nothing is loaded from elsewhere, nothing needs a build step.
//!
//! Not here: what is shown (`view`), reports and plans (a [`Shelf`] brings them), the command line (`src/page.rs`).

mod access;
mod doors;
mod error;
mod feed;
mod guard;
mod guess;
mod limits;

mod name;
mod own;
mod places;
mod queue;
mod routes;
mod serve;
mod shelf;
#[cfg(test)]
mod still;

pub use access::{Admission, May, Pairing, Pairings};
pub use error::PageError;
pub use limits::Limits;
pub use name::{Name, NotAName};
pub use serve::{Config, Page, qr};
pub use shelf::{JobRow, SheetAct, SheetAsk, SheetRow, Shelf};
