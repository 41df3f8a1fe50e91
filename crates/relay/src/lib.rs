//! Many bays: what one bay says, to an MQTT 5 broker; and what all of them say there, to a board.
//!
//! In: a bay's socket, a broker. Out: its facts, each at least once and in order; samples, thinned; its state, retained; whether it is
//! there. The relay is a client of the socket like any other, and subscribes to nothing: what comes from a broker can tell a bay nothing.
//! How: one connection to the broker at a time. A fact counts as delivered when the broker has said so; after any break the bay
//! is asked for what comes after the last fact that was. Not here: how a board looks (`view`, `src`), the command line (`src`).
//! The topics, with what stands in them: docs/many-bays.md.

mod broker;
mod error;
mod flow;
mod listen;
mod message;
mod place;
mod session;
mod waits;

pub use broker::{Broker, BrokerError, Login};
pub use error::RelayError;
pub use flow::{News, Options, run};
pub use listen::{BayNews, Listener, listen};
pub use message::{Bay, BayError, Presence};
pub use place::{Place, PlaceError};
