//! What a person may tell the daemon, and why it may be refused.

use crate::words::words;
use crate::{Precondition, Surface};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Degrees, Millilitres};

words! {
    /// Who tells: the technician below or the helper inside. Either may tell anything.
    Role {
        Under "under" "The technician under the vehicle.",
        Inside "inside" "The helper in the vehicle.",
    }
}

/// One thing told. Every amount is what was measured, at the temperature it had.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "tell", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Request {
    /// Choose the sheet for jobs that begin from now on, among those that the daemon was given.
    Sheet {
        /// The name on the sheet.
        name: String,
    },
    /// Begin a job with the daemon's sheet.
    Start,
    /// A precondition that a person confirms.
    Confirm {
        /// Which.
        what: Precondition,
    },
    /// How the vehicle stands, measured.
    Level {
        /// Nose up is positive.
        pitch_degrees: Degrees,
        /// Left side up is positive.
        roll_degrees: Degrees,
    },
    /// Old fluid that came out.
    Drained {
        /// How much.
        millilitres: Millilitres,
        /// How warm it was when measured; the sheet's band is assumed where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        celsius: Option<Celsius>,
    },
    /// New fluid that went in; may be told several times.
    Filled {
        /// How much.
        millilitres: Millilitres,
        /// How warm it was.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        celsius: Option<Celsius>,
    },
    /// What was caught at the check port.
    RanOut {
        /// How much.
        millilitres: Millilitres,
        /// How warm it was when measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        celsius: Option<Celsius>,
    },
    /// A thermometer's reading.
    Spot {
        /// What it showed.
        celsius: Celsius,
        /// Where it was pointed or held.
        surface: Surface,
    },
    /// The check port is open and fluid flows.
    Flowing,
    /// The check port is open and nothing comes.
    NothingFlows,
    /// The stream has become a trickle.
    Trickle,
    /// The check port is closed.
    Closed,
    /// The plugs are tightened to the torques of the sheet.
    Torqued,
    /// The test drive is done, no leak seen.
    TestDriven,
    /// Write the result and end the job.
    Done,
    /// Take the last told thing back. The record keeps both.
    Undo,
    /// End the job without a level.
    Abort {
        /// Why, in the person's words; at most 200 characters.
        why: String,
    },
    /// A remark for the record.
    Note {
        /// At most 200 characters.
        text: String,
    },
}

impl Request {
    /// The word of the command line and of the JSON.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Sheet { .. } => "sheet",
            Self::Start => "start",
            Self::Confirm { .. } => "confirm",
            Self::Level { .. } => "level",
            Self::Drained { .. } => "drained",
            Self::Filled { .. } => "filled",
            Self::RanOut { .. } => "ran-out",
            Self::Spot { .. } => "spot",
            Self::Flowing => "flowing",
            Self::NothingFlows => "nothing-flows",
            Self::Trickle => "trickle",
            Self::Closed => "closed",
            Self::Torqued => "torqued",
            Self::TestDriven => "test-driven",
            Self::Done => "done",
            Self::Undo => "undo",
            Self::Abort { .. } => "abort",
            Self::Note { .. } => "note",
        }
    }
}

/// A request with its identity: what a client sends.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Told {
    /// Chosen by the client, echoed in `accepted` or `refused`; at most 64 characters. The same id told again
    /// after a lost connection is not carried out twice.
    pub id: String,
    /// Who tells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Role>,
    /// What is told.
    #[serde(flatten)]
    pub request: Request,
}

words! {
    /// Why a request was not carried out.
    Refusal {
        NoJob "no-job" "No job has been started: `tell start` first.",
        JobRunning "job-running" "A job is running: end it with `tell done` or `tell abort` first.",
        NotYet "not-yet" "That comes later in the job; a step before it is still open.",
        AlreadyDone "already-done" "That has been told already; `tell undo` takes it back.",
        NotGo "not-go" "The verdict is not `go`, so the level cannot be right now.",
        PortClosed "port-closed" "The check port has not been told open: `tell flowing` first.",
        PortOpen "port-open" "The check port is still open: close it and `tell closed` first.",
        ShownByVehicle "shown-by-vehicle" "The vehicle itself shows this; a person cannot confirm it.",
        NotNeeded "not-needed" "The sheet does not ask for this.",
        NotLevel "not-level" "The vehicle is not level enough: the level would be wrong by more than the sheet allows.",
        ImpossibleAmount "impossible-amount" "That amount cannot be: more than the transmission holds, or not more than nothing.",
        MoreOutThanIn "more-out-than-in" "More would have run out than was ever in it; measure again.",
        UselessSurface "useless-surface" "Bare metal mirrors its surroundings: put matt tape on it and measure that.",
        ImpossibleValue "impossible-value" "No vehicle in a workshop has that value; measure again.",
        NothingToUndo "nothing-to-undo" "There is nothing that could be taken back.",
        TooLong "too-long" "The text is too long: at most 200 characters.",
        NotUnderstood "not-understood" "This is not a request of the interface.",
        JournalFull "journal-full" "The journal cannot be written, so nothing can be promised. Free some disk space.",
        NoSuchSheet "no-such-sheet" "The daemon was not given a sheet of that name; `serve --sheets FOLDER` names a folder of them.",
        Ended "ended" "The job has ended; `tell start` begins a new one.",
    }
}
