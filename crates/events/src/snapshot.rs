//! The folded state as a client gets it, and the lines of the socket.

use crate::{
    Advice, Balance, Candidate, Caution, ClosureCause, Estimate, Event, FindView, Forecast, JobResult,
    Precondition, Reading, Reason, Refusal, SeatAdvice, Seq, Sheet, Step, StepState, TopUp, Trouble, Utc,
    Verdict,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The version of the socket's protocol.
/// By definition: raised whenever a line's meaning changes.
pub const PROTOCOL: u32 = 2;

/// The job as it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobView {
    /// Its number in this journal.
    pub job: u64,
    /// The name on its sheet.
    pub sheet: String,
    /// When it began.
    pub started: Utc,
    /// The step in hand.
    pub step: Step,
    /// Every step and where it stands, in order.
    pub steps: Vec<(Step, StepState)>,
    /// Preconditions that do not hold.
    pub open: Vec<Precondition>,
    /// The balance so far.
    pub balance: Balance,
    /// Why the balance may not close; empty where it does, where nothing can be said yet, and after an amount that was told
    /// since the snapshot: the result says it in the end.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub closure: Vec<ClosureCause>,
    /// Which vehicle this is, where it was told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<String>,
    /// A recheck: of which job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recheck_of: Option<u64>,
    /// Fill so much and look again; absent where nothing is to be filled beside the sheet's amounts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub top_up: Option<TopUp>,
    /// Stop rules that were shown and still count: until the engine stops or the port is closed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stops: Vec<Caution>,
    /// The selector's rounds, while they are to be done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub selector: Option<SelectorView>,
    /// Whether the check port has been told open.
    pub port_open: bool,
    /// What people confirmed for the hands and holds now: parked, clear, pipe in …
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub held: Vec<Precondition>,
    /// One person alone.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub alone: bool,
    /// The result, once there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub result: Option<JobResult>,
}

/// The selector's rounds as they stand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SelectorView {
    /// The position that was told last, and in which the selector stands; absent before the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stands_in: Option<String>,
    /// The position that comes next. After the last round it is the first one once more, and then the rounds are done.
    pub next: String,
    /// So many positions were told, in all rounds together.
    #[serde(default)]
    pub told: u32,
    /// The round it belongs to, from 1.
    pub round: u32,
    /// How many rounds there are.
    pub rounds: u32,
    /// How long each position is held, in seconds.
    pub dwell_seconds: u32,
    /// How much of that is left in the position that was told last, in seconds; 0: move on.
    pub left_seconds: u32,
}

/// The link as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct LinkView {
    /// Whether the vehicle answers through the adapter.
    pub up: bool,
    /// There is no adapter: everything is told by people.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub people: bool,
    /// What the adapter calls itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub identity: Option<String>,
    /// The protocol in use.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protocol: Option<String>,
    /// The last trouble, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub detail: Option<String>,
    /// What keeps the signal from being read now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trouble: Option<Trouble>,
    /// Particulars of a request that fails.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub request: Option<String>,
}

/// Everything a front end needs to paint itself before the first event comes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Snapshot {
    /// State after this event.
    pub seq: Seq,
    /// When it was taken.
    pub at: Utc,
    /// The verdict.
    pub verdict: Verdict,
    /// Its reasons.
    pub reasons: Vec<Reason>,
    /// What to do now, for each seat.
    #[serde(flatten)]
    pub said: SeatAdvice,
    /// The estimate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub estimate: Option<Estimate>,
    /// The forecast.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub forecast: Option<Forecast>,
    /// The job, if one was started.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<JobView>,
    /// The link.
    pub link: LinkView,
    /// The latest reading of each quantity.
    pub readings: Vec<Reading>,
    /// The sheet of the running job, or the one for the next.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<Box<Sheet>>,
    /// The names of the sheets that can be chosen while no job runs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sheets: Vec<String>,
    /// The search for the fluid's identifier, where one runs or has ended.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub find: Option<FindView>,
    /// What may be it, the most probable first, at most five.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub candidates: Vec<Candidate>,
}

/// A line from the daemon: an event, or a word to this one client.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Line")]
pub enum SocketLine {
    /// An event of the stream.
    Event(Event),
    /// A word to this client alone.
    Word(Word),
}

impl SocketLine {
    /// A line as every front end reads it: in all its text, characters that could command a terminal or forge a line
    /// are spelled out ([`crate::text`]), for it may hold what an adapter said or an old journal kept.
    ///
    /// # Errors
    /// Where it is no line of this protocol: a newer daemon may say what we do not know.
    pub fn read(text: &str) -> Result<Self, serde_json::Error> {
        serde_json::from_str(&crate::text::tame(text)?)
    }
}

/// A snapshot as every front end reads it, where it did not come over the socket; see [`SocketLine::read`].
///
/// # Errors
/// Where it is none.
pub fn read_snapshot(text: &str) -> Result<Snapshot, serde_json::Error> {
    serde_json::from_str(&crate::text::tame(text)?)
}

/// What the daemon says to one client alone; it has no number of its own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Word {
    /// The first line.
    Hello {
        /// [`PROTOCOL`].
        protocol: u32,
        /// The program's version.
        version: String,
        /// The bay.
        bay: String,
        /// Differs at every start of the daemon.
        boot: String,
        /// The number of the last event.
        last_seq: Seq,
    },
    /// The second line.
    Snapshot(Box<Snapshot>),
    /// The request is durable.
    Accepted {
        /// The id of the request.
        id: String,
        /// The event it became.
        seq: Seq,
        /// What to do next.
        advice: Advice,
    },
    /// The request was not carried out.
    Refused {
        /// The id of the request; absent where the line was not understood.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        id: Option<String>,
        /// Why.
        reason: Refusal,
        /// The reason as a sentence, with what to do.
        says: String,
    },
    /// How the bay is, for a client that asked.
    Status(Box<crate::Status>),
    /// The last line before the daemon closes the connection.
    Bye {
        /// Why.
        reason: String,
    },
}
