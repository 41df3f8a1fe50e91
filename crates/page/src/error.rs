//! What can go wrong before the page is served.

use std::net::SocketAddr;
use std::path::PathBuf;

/// Why the page cannot be served, or a pairing not be kept.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PageError {
    /// The address cannot be listened at.
    #[error("cannot listen at {at}: {why}")]
    Listen {
        /// Where.
        at: SocketAddr,
        /// Why.
        why: std::io::Error,
    },
    /// The file of the pairings cannot be read or written.
    #[error("cannot use the pairings at {}: {why}", path.display())]
    Pairings {
        /// Which file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// The system gives no random numbers.
    #[error("the system gives no random numbers: {0}")]
    Random(String),
}
