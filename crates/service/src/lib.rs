//! The daemon: the only crate that joins adapter, gate, job, journal and socket.
//!
//! ```text
//!  link ──bytes──► Bay ──events──► Outbox ──► Journal (own thread, facts synced)
//!   ▲               │  adapter::Driver          │ durable
//!   └──requests─────┘  frames, gate, job        ▼
//!                   ▲                          Hub ──lines──► one task per client
//!                   └───────── told ─────────── socket ◄──────┘
//! ```
//!
//! [`Bay`] decides and does no I/O; it is told the time and can be run in memory, thousands of jobs a minute.
//! [`Daemon::run`] is the loop around it: it moves bytes and events and decides nothing. What clock it runs on, real or
//! simulated, is passed in.
//!
//! Not here: what a verdict is (`gate`), what a step is (`job`), how an adapter is spoken to (`adapter`).

mod bay;
mod clock;
mod daemon;
mod error;
mod found;
mod hub;
mod journal;
mod line;
mod memory;
mod outbox;
mod recorder;
mod row;
#[cfg(test)]
mod six_hops;
mod socket;
mod status;
mod translate;
pub mod trouble;

pub use bay::{Bay, Finder, Moment, TRIES_WITHIN};
pub use clock::{Machine, REACHES_BACK, SystemClock};
pub use daemon::{Config, Daemon, FindConfig, Progress};
pub use error::ServiceError;
pub use found::KeptSearch;
#[cfg(feature = "taken-out")]
pub use gate::Protection;
pub use journal::photo::{PHOTO_LIMIT, Photo, PhotoState, check_photo, photo_path, store_photo};
pub use journal::read::{
    Due, JobEvents, JobQuery, JobRow, Verified, check, due, job_seal, list_jobs, read_job, verify,
};
pub use journal::transfer::{Exported, Imported, backup, export, import};
pub use memory::Memory;
pub use recorder::Recorder;
pub use socket::{Limits, check_default_folder, default_socket, is_default_folder};
pub use translate::{protocol, reading, schedule};
