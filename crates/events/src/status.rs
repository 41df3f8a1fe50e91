//! How a bay is: what a person or a script that looks after it wants to know at a glance. To add an ailment: one row here; the
//! compiler names the rest.
//!
//! Not here: what is measured and judged (`service`), a verdict about any fluid ([`crate::Verdict`]): a bay in good health may say
//! `wait`, and a sick one never says `go`.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::words;

use crate::{LinkView, Quantity, Seq, Utc};

words! {
    /// How a bay is.
    json Health {
        Healthy "healthy" "Everything that a job needs is there.",
        Waiting "waiting" "It runs and waits: nothing can be read yet.",
        NeedsAHand "needs-a-hand" "It runs, but somebody must do something.",
    }
}

words! {
    /// Why a bay is not in good health; the second column is what it is then.
    json Ailment, pub health: Health {
        NoAdapter "no-adapter" "The adapter is not there or does not answer." => Health::Waiting,
        NoVehicle "no-vehicle" "The vehicle does not answer." => Health::Waiting,
        NoReading "no-reading" "The temperature of the check is not read." => Health::Waiting,
        DiskFull "disk-full" "The journal's disk is nearly full." => Health::NeedsAHand,
        DiskSlow "disk-slow" "The journal's disk is slow: events wait for it." => Health::NeedsAHand,
        ClockBehind "clock-behind" "The clock is behind what the journal already holds." => Health::NeedsAHand,
    }
}

impl Ailment {
    /// What to try about it. Nobody is told to start or to stop an engine for its sake.
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::NoAdapter => "Check its plug and cable; it comes back by itself.",
            Self::NoVehicle => "Check that the adapter sits firmly in the connector.",
            Self::NoReading => "Wait some seconds; then check the identifier in the sheet.",
            Self::DiskFull => "Free some space before the next job.",
            Self::DiskSlow => "Use another card or disk for the journal.",
            Self::ClockBehind => "Set the clock: reports carry its date.",
        }
    }
}

/// How a bay is at a moment.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Status {
    /// When.
    pub at: Utc,
    /// The bay.
    pub bay: String,
    /// The program's version.
    pub version: String,
    /// How long the daemon has been running, in seconds.
    pub up_seconds: u64,
    /// The gravest of what ails it.
    pub health: Health,
    /// What ails it.
    pub ailments: Vec<Ailment>,
    /// Where the adapter is; `none` where everything is told by people.
    pub device: String,
    /// Whether its port is open.
    pub port_open: bool,
    /// Adapter and vehicle, as a front end has them.
    pub link: LinkView,
    /// The last reading of what the check goes by; absent where none came since the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reading: Option<LastReading>,
    /// The journal and its disk.
    pub journal: JournalStatus,
    /// How far the clock is behind the newest event of the journal, in seconds; absent where it is not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clock_behind_seconds: Option<u64>,
    /// Clients at the socket now, whoever asks among them.
    pub clients: usize,
    /// How many there may be.
    pub clients_most: usize,
    /// The job that runs, if one does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<u64>,
}

/// The last reading of what the check goes by.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LastReading {
    /// Of what.
    pub name: Quantity,
    /// What it said, in degrees Celsius.
    pub celsius: units::Celsius,
    /// How old it is, in seconds.
    pub age_seconds: f64,
}

/// The journal and its disk.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct JournalStatus {
    /// The file.
    pub path: String,
    /// The number of the last event that is on disk.
    pub durable: Seq,
    /// So many events wait for the disk.
    pub waiting: usize,
    /// For so long the disk has been at work on the last batch, in milliseconds; absent where it is at rest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub writing_ms: Option<u64>,
    /// Bytes that the disk has left for us; absent where it does not answer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub free_bytes: Option<u64>,
}
