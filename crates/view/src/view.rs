//! The view: everything that a screen shows, in the order in which it is read. Data only.

use std::borrow::Cow;

use serde::Serialize;

use crate::cue::Cue;
use crate::offer::Offer;
use crate::rounds::Rounds;
use crate::scale::Scale;

/// The whole surface is the signal. The words are all there is to it: no colour carries meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// Dark, no frame.
    Wait,
    /// Inverted to paper, a heavy frame.
    Go,
    /// Paper, dashed bars above and below.
    TooHot,
    /// Dark, hatched: stale, lost or never had.
    NoReading,
}

impl Surface {
    /// The one huge word.
    pub fn word(self, lang: words::Lang) -> &'static str {
        lang.text(match self {
            Self::Wait => "word-wait",
            Self::Go => "word-go",
            Self::TooHot => "word-too-hot",
            Self::NoReading => "word-no-reading",
        })
    }
}

/// The interval that matters now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Clock {
    /// `2–3½ min`.
    pub text: String,
    /// `until the right temperature`.
    pub what: &'static str,
}

/// What one seat sees, at one moment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// The state of the surface.
    pub surface: Surface,
    /// Its word.
    pub word: &'static str,
    /// What to do with the hands now.
    pub now: String,
    /// What comes next.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub next: Option<&'static str>,
    /// The interval that matters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clock: Option<Clock>,
    /// Why, with numbers.
    pub why: String,
    /// The pipe; absent before a sheet is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scale: Option<Scale>,
    /// Bay, sheet and job.
    pub place: String,
    /// The health of the link and the age of the last reading.
    pub link: String,
    /// Where the job stands: `4 of 11: start the engine …`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
    /// What does not hold yet.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub open: Vec<&'static str>,
    /// Drained, filled, run out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub balance: Option<String>,
    /// The search for the fluid's identifier: how many may be it, and what to do next.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub find: Option<String>,
    /// What to beware of at this step.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Cow<'static, str>>,
    /// What can be told, biggest first; at most one is primary.
    pub offers: Vec<Offer>,
    /// What `undo` would take back, for a minute after it was told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub undo: Option<String>,
    /// The selector's rounds, for the seat inside, while they are to be done.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rounds: Option<Rounds>,
    /// The sound of this moment.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cue: Option<Cue>,
    /// The number of the running or last job.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub job: Option<u64>,
    /// The last event that is in it.
    pub seq: u64,
}
