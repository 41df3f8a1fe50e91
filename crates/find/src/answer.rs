//! What came back to one request, as far as the search cares.
//!
//! Not here: waiting, pending replies, echoes, checksums (the adapter).

use serde::{Deserialize, Serialize};

/// What came back.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Answer {
    /// The bytes behind the echoed identifier. An answer that was pending and came in time is one of these, too.
    Data(Vec<u8>),
    /// A refusal and its code.
    Refused(u8),
    /// Nothing in time; an answer that comes after its time is nothing, and is thrown away by whoever reads the link.
    Silence,
    /// Something that answers another request, or another control unit's answer.
    Unexpected,
    /// Nothing could be asked: the link was lost or the adapter failed. It says nothing about the vehicle.
    NotAsked,
}
