//! Why the relay ends. What passes by itself is no error: it is told as news, and tried again.

use crate::place::PlaceError;

/// See the module's words.
#[derive(Debug, thiserror::Error)]
pub enum RelayError {
    /// The broker does not want it.
    #[error("the broker refuses {bay}: {why}")]
    Refused {
        /// Whom.
        bay: String,
        /// Its reason.
        why: String,
    },
    /// The broker takes a connection, and no fact.
    #[error("the broker takes nothing under `{topic}` from this login: {why}")]
    NotAllowed {
        /// Where it was published.
        topic: String,
        /// Its reason.
        why: String,
    },
    /// The broker cannot do what is needed.
    #[error("the broker cannot {what}, and many bays need that")]
    Unable {
        /// What.
        what: &'static str,
    },
    /// The place cannot be kept.
    #[error(transparent)]
    Place(#[from] PlaceError),
}

impl RelayError {
    /// What to try.
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::Refused { .. } => "check the login file, and that the broker knows this name",
            Self::NotAllowed { .. } => {
                "each bay publishes under its own name: see the access list in docs/many-bays.md"
            }
            Self::Unable { .. } => "use a broker of MQTT 5 with retained messages and QoS 1",
            Self::Place(_) => "name another file with --place",
        }
    }
}
