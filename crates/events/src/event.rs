//! The event: everything that happens becomes one.

use crate::{
    Balance, Candidate, Caution, Estimate, FindView, Forecast, FoundIdentifier, Interval, JobResult, Judged,
    People, Precondition, Quantity, Reading, Reason, SeatAdvice, SelectorView, Sheet, Step, StepState, Task,
    Told, TopUp, Trouble, Utc, Verdict,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Degrees, Kelvins, Mono, words};

use Durability::{Fact, Sample};
use InLog::{Quiet, Warned};

/// The number of an event. It only grows and is never used again, across crashes too.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize, JsonSchema,
)]
#[serde(transparent)]
pub struct Seq(pub u64);

impl Seq {
    /// The number after this one.
    pub const fn next(self) -> Self {
        Self(self.0.saturating_add(1))
    }
}

impl core::fmt::Display for Seq {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.0.fmt(f)
    }
}

/// Something that happened: numbered, timed, and of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Event {
    /// Its number.
    pub seq: Seq,
    /// Civil time, for people.
    pub at: Utc,
    /// Milliseconds since the daemon's start: what decisions went by.
    pub mono_ms: Mono,
    /// What happened.
    #[serde(flatten)]
    pub body: Body,
}

/// The machine's own clock: it goes on where a daemon ends and another begins, through sleep, and whoever sets the civil time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Uptime {
    /// Differs at every start of the machine.
    pub run: String,
    /// Milliseconds since that start.
    pub up_ms: u64,
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Body {
    /// The daemon started: `mono_ms` counts from here.
    Boot {
        /// Differs at every start.
        boot: String,
        /// The program's version.
        version: String,
        /// The machine's own clock at this event, where it has one that no daemon's end stops.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        uptime: Option<Uptime>,
    },
    /// The link to the adapter changed.
    Link(LinkChange),
    /// A quantity was read.
    Reading(Reading),
    /// The temperature as it is known now.
    Estimate(Estimate),
    /// What is to be expected.
    Forecast(Forecast),
    /// The verdict or its reasons changed.
    Verdict {
        /// May the port be open?
        verdict: Verdict,
        /// Why.
        reasons: Vec<Reason>,
        /// Preconditions that do not hold.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        open: Vec<Precondition>,
        /// The estimate it rests on.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        celsius: Option<Celsius>,
        /// Its standard uncertainty.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        u: Option<Kelvins>,
        /// Until the window opens.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        opens_in: Option<Interval>,
        /// Until the window closes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        closes_in: Option<Interval>,
        /// `go` by a reading that was typed in: until it says no more, and the next one must be told, in seconds.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        read_again_in: Option<f64>,
    },
    /// A job began, with this sheet. Later changes of the file do not touch it.
    Job {
        /// The number of the job in this journal.
        job: u64,
        /// The sheet as it was read.
        sheet: Box<Sheet>,
        /// A recheck: of which job.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        recheck_of: Option<u64>,
        /// What it is for.
        #[serde(default, skip_serializing_if = "Task::is_usual")]
        task: Task,
        /// How many people do it.
        #[serde(default, skip_serializing_if = "People::is_usual")]
        people: People,
        /// As in `boot`: the daemon may have started long before.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        uptime: Option<Uptime>,
    },
    /// A step of the job changed.
    Step {
        /// Which step.
        step: Step,
        /// Where it stands now.
        state: StepState,
        /// What it was judged by, where the port was opened, thinned to a trickle or closed: the result rests on
        /// this, so it is a fact and not left to samples that a crash may lose.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        judged: Option<Judged>,
    },
    /// A person told something and it was accepted.
    Told(Told),
    /// A precondition came to hold, or ceased to.
    Precondition {
        /// Which.
        precondition: Precondition,
        /// Whether it holds now.
        holds: bool,
    },
    /// The selector's rounds went on, or back; that they are done is said by the precondition `selector-cycled`.
    Selector(SelectorView),
    /// The balance changed.
    Balance(Balance),
    /// Nothing ran out at `go`: fill so much and look again.
    TopUp(TopUp),
    /// A caution: for the step that begins, or because something asks for it now.
    Caution {
        /// Which.
        caution: Caution,
    },
    /// What to do with the hands now, for each seat.
    Advice(SeatAdvice),
    /// A stand was measured that costs more than the sheet allows. The word was refused, and what it told is kept: a level by
    /// eye does not count after it.
    Tilted {
        /// Nose up is positive.
        pitch_degrees: Degrees,
        /// Left side up is positive.
        roll_degrees: Degrees,
    },
    /// Something is wrong with the adapter, the vehicle or ourselves.
    Fault {
        /// What.
        fault: Fault,
        /// Particulars: a code, the line that was not understood, the request that failed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        detail: Option<String>,
        /// The control unit concerned.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<String>,
    },
    /// The job ended.
    Result(JobResult),
    /// The search for the fluid's identifier went on.
    Find(FindView),
    /// An identifier that may be the fluid's, as it stands now.
    Candidate(Candidate),
    /// The fluid's identifier was found and confirmed. A running job whose signal was a thermometer is gated by it from here on,
    /// where `takes_over` says so.
    Found(FoundIdentifier),
    /// The sheets that can be chosen are others than before, or one of them says something else.
    Sheets {
        /// The names of all that there are.
        names: Vec<String>,
        /// The one in use was changed, and is used as it is now; no job runs.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        changed: Option<Box<Sheet>>,
    },
}

/// Whether an event must be on disk before anyone sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Durability {
    /// On disk first.
    Fact,
    /// Shown at once, written in batches.
    Sample,
}

impl Body {
    /// Of which kind it is.
    pub const fn of(&self) -> Kind {
        match self {
            Self::Boot { .. } => Kind::Boot,
            Self::Link { .. } => Kind::Link,
            Self::Reading { .. } => Kind::Reading,
            Self::Estimate { .. } => Kind::Estimate,
            Self::Forecast { .. } => Kind::Forecast,
            Self::Verdict { .. } => Kind::Verdict,
            Self::Job { .. } => Kind::Job,
            Self::Step { .. } => Kind::Step,
            Self::Told { .. } => Kind::Told,
            Self::Precondition { .. } => Kind::Precondition,
            Self::Selector { .. } => Kind::Selector,
            Self::Balance { .. } => Kind::Balance,
            Self::TopUp { .. } => Kind::TopUp,
            Self::Caution { .. } => Kind::Caution,
            Self::Advice { .. } => Kind::Advice,
            Self::Tilted { .. } => Kind::Tilted,
            Self::Fault { .. } => Kind::Fault,
            Self::Result { .. } => Kind::Result,
            Self::Find { .. } => Kind::Find,
            Self::Candidate { .. } => Kind::Candidate,
            Self::Found { .. } => Kind::Found,
            Self::Sheets { .. } => Kind::Sheets,
        }
    }

    /// The word in the JSON's `kind`.
    pub const fn kind(&self) -> &'static str {
        self.of().word()
    }

    /// Facts are durable before they are visible; samples are not.
    pub const fn durability(&self) -> Durability {
        self.of().durability()
    }
}

words! {
    /// The kinds of events. Facts are durable before they are visible.
    Kind, pub durability: Durability {
        Boot "boot" "The daemon started: `mono_ms` counts from here." => Fact,
        Link "link" "The link to the adapter changed." => Fact,
        Reading "reading" "A quantity was read." => Sample,
        Estimate "estimate" "The temperature as it is known now." => Sample,
        Forecast "forecast" "What is to be expected." => Sample,
        Verdict "verdict" "The verdict or its reasons changed." => Fact,
        Job "job" "A job began, with this sheet." => Fact,
        Step "step" "A step of the job changed." => Fact,
        Told "told" "A person told something and it was accepted." => Fact,
        Precondition "precondition" "A precondition came to hold, or ceased to." => Fact,
        Selector "selector" "The selector's rounds went on, or back; that they are done is said by the precondition `selector-cycled`." => Fact,
        Balance "balance" "The balance changed." => Fact,
        TopUp "top-up" "Nothing ran out at `go`: fill so much and look again." => Fact,
        Caution "caution" "A caution: for the step that begins, or because something asks for it now." => Fact,
        Advice "advice" "What to do with the hands now, for each seat." => Fact,
        Tilted "tilted" "A stand was measured that costs more than the sheet allows." => Fact,
        Fault "fault" "Something is wrong with the adapter, the vehicle or ourselves." => Fact,
        Result "result" "The job ended." => Fact,
        Find "find" "The search for the fluid's identifier went on." => Sample,
        Candidate "candidate" "An identifier that may be the fluid's, as it stands now." => Sample,
        Found "found" "The fluid's identifier was found and confirmed." => Fact,
        Sheets "sheets" "The sheets that can be chosen are others than before." => Sample,
    }
}

impl LinkChange {
    /// Whether it ends the contact with the vehicle: what was read before it is no more of now.
    pub const fn ends_contact(&self) -> bool {
        match self {
            Self::VehicleSilent { .. } | Self::Lost { .. } => true,
            Self::Opening { .. }
            | Self::Found { .. }
            | Self::Rate { .. }
            | Self::Said { .. }
            | Self::Protocol { .. }
            | Self::Source { .. }
            | Self::People
            | Self::Vehicle { .. }
            | Self::Quirk { .. }
            | Self::Trouble { .. } => false,
        }
    }
}

/// The link to the adapter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "state", rename_all = "kebab-case")]
pub enum LinkChange {
    /// The port is being opened, or opened again.
    Opening {
        /// Which device.
        device: String,
    },
    /// An adapter answered.
    Found {
        /// What it calls itself.
        identity: String,
        /// What trying its commands has shown, where that differs from what it claims.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tested: Option<String>,
    },
    /// The wire to the adapter runs at another rate now.
    Rate {
        /// In bit/s.
        baud: u32,
    },
    /// The last things said on the link before something went wrong, for a report of the fault.
    Said {
        /// One moment a line: when, `sent` or `came`, the bytes, escaped.
        lines: Vec<String>,
    },
    /// The vehicle answered.
    Protocol {
        /// The protocol's name.
        protocol: String,
        /// The control units that answered.
        control_units: Vec<String>,
    },
    /// Several control units answer for one quantity, or another one than the engine's own: whose value counts.
    Source {
        /// Which quantity.
        name: Quantity,
        /// Whose value counts.
        from: String,
        /// Who else answers.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        others: Vec<String>,
    },
    /// There is no adapter: everything is told by people.
    People,
    /// The vehicle told its identification number.
    Vehicle {
        /// The number.
        vin: String,
    },
    /// A difference of the firmware was noticed.
    Quirk {
        /// Its word, from the adapter crate's table.
        quirk: String,
        /// What it means, in a sentence.
        says: String,
    },
    /// The adapter is there but the vehicle does not answer.
    VehicleSilent {
        /// What the adapter said.
        detail: String,
        /// What was tried since it answered last: `search` for the adapter's own, protocols by their names.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        tried: Vec<String>,
    },
    /// The adapter is gone or does not answer.
    Lost {
        /// Why.
        detail: String,
    },
    /// What keeps the signal from being read, told when it becomes another. It is over with the next reading of that signal
    /// or the next `protocol`.
    Trouble {
        /// Which.
        trouble: Trouble,
        /// Particulars of a request that fails: which, to whom, with which code.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        detail: Option<String>,
    },
}

words! {
    /// A fault.
    json Fault, log: InLog {
        CodeStored "code-stored" "The vehicle stores a fault code." => Quiet,
        NotAnAdapter "not-an-adapter" "What answers at this port is not an adapter of this kind." => Warned,
        AdapterFault "adapter-fault" "The adapter reports a fault of its own." => Quiet,
        BusFault "bus-fault" "The vehicle's bus disturbs the exchange." => Quiet,
        NoAnswer "no-answer" "A control unit does not answer a request." => Quiet,
        Declined "declined" "A control unit declines a request." => Quiet,
        Undecodable "undecodable" "A reply could not be decoded, so it became no reading." => Quiet,
        UnitsDisagree "units-disagree" "Control units tell different values for one quantity." => Quiet,
        Avoided "avoided" "The connection ended each time this was sent; it is sent last and seldom from now on." => Warned,
        WrongSender "wrong-sender" "A control unit answered that was not asked." => Quiet,
        JournalSlow "journal-slow" "The disk is slow." => Quiet,
        JournalFailed "journal-failed" "The journal cannot be written." => Quiet,
        JournalRepaired "journal-repaired" "The journal was damaged; what can be read of it goes on, and the damaged file is kept." => Warned,
        JournalDamaged "journal-damaged" "Something that the journal holds is not what was written." => Warned,
    }
}

/// What the program's own log says of a fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum InLog {
    /// It is warned of.
    Warned,
    /// It stands in the events, and that is enough.
    Quiet,
}

impl Fault {
    /// Whether the program's own log warns of it.
    pub fn is_warned_of(self) -> bool {
        self.log() == Warned
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    /// The names that a schema gives an object, through references, alternatives and flattened parts.
    fn names(schema: &Value, all: &Value, into: &mut Vec<String>) {
        if let Some(properties) = schema["properties"].as_object() {
            into.extend(properties.keys().cloned());
        }
        for part in ["oneOf", "anyOf", "allOf"] {
            schema[part].as_array().into_iter().flatten().for_each(|s| names(s, all, into));
        }
        if let Some(definition) = schema["$ref"].as_str().and_then(|r| r.strip_prefix("#/$defs/")) {
            names(&all["$defs"][definition], all, into);
        }
    }

    #[test]
    fn no_body_has_a_field_of_the_event_around_it() {
        let all = serde_json::to_value(schemars::schema_for!(Body)).unwrap();
        let mut found = Vec::new();
        names(&all, &all, &mut found);
        let has = |name: &str| found.iter().any(|n| n == name);
        for inside in ["kind", "stands_in", "expected_run_out_millilitres", "millilitres"] {
            assert!(has(inside), "`{inside}` was not looked at: {found:?}");
        }
        for outside in ["headers", "seq", "at", "mono_ms"] {
            assert!(!has(outside), "`{outside}` stands twice in one line");
        }
    }
}
