//! What a person may tell the daemon, and why it may be refused.

use crate::{FluidLook, LampState, LeakPlace, Precondition, Surface, Symptom};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Degrees, Millilitres, Millimetres, Rpm, words};

words! {
    /// Who tells: the technician below or the helper inside. Either may tell anything.
    json Role {
        Under "under" "The technician under the vehicle.",
        Inside "inside" "The helper in the vehicle.",
    }
}

words! {
    /// Which amount something was missed of.
    json Way {
        Drained "drained" "Of what came out at the drain.",
        Filled "filled" "Of what was meant to go in.",
        RanOut "ran-out" "Of what ran out at the check port.",
    }
}

words! {
    /// A part that old fluid leaves with, beside the drain.
    json Part {
        Filter "filter" "The old filter, soaked.",
        Cooler "cooler" "The cooler and its lines, emptied.",
        Pan "pan" "The pan, taken off: what the drain had left in it.",
        Converter "converter" "The converter, emptied.",
    }
}

words! {
    /// What stands in the report beside the work: who, which vehicle, which fluid, for how much. All of it may be left out.
    json Particular {
        Odometer "odometer" "What the odometer shows, with its unit.",
        Technician "technician" "Who did the work.",
        Workshop "workshop" "Which workshop it is.",
        Fluid "fluid" "Which fluid went in, as its container says.",
        Batch "batch" "The batch on the container.",
        Cost "cost" "What it costs the customer, with the currency.",
    }
}

words! {
    /// What a job is for.
    json Task {
        Change "change" "The fluid is changed and the level set.",
        Check "check" "Nothing is drained: is it low?",
    }
}

words! {
    /// How many hands there are.
    json People {
        Two "two" "One below, one inside.",
        One "one" "One person alone.",
    }
}

words! {
    /// A leak that was looked for.
    json Leak {
        Dry "dry" "Dry.",
        Damp "damp" "Damp: no drop hangs.",
        Drops "drops" "Drops form.",
        Runs "runs" "It runs.",
    }
}

words! {
    /// What the engine does, as a person hears it. Taken only where there is no adapter: else the vehicle shows it.
    json EngineWord {
        Idling "idling" "It idles.",
        Stopped "stopped" "It is off.",
    }
}

words! {
    /// A danger to a person, from any seat at any time.
    json Alarm {
        Air "air" "Bad air: dizzy, headache.",
        Burn "burn" "Somebody is burnt.",
        Caught "caught" "Somebody is caught.",
        Fire "fire" "Fire.",
    }
}

impl Task {
    pub(crate) const fn is_usual(&self) -> bool {
        matches!(self, Self::Change)
    }
}

impl People {
    pub(crate) const fn is_usual(&self) -> bool {
        matches!(self, Self::Two)
    }
}

impl Default for Task {
    /// As before there were two.
    fn default() -> Self {
        Self::Change
    }
}

impl Default for People {
    /// As before it was asked.
    fn default() -> Self {
        Self::Two
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
    Start {
        /// What for.
        #[serde(default, skip_serializing_if = "Task::is_usual")]
        job: Task,
        /// How many people do it.
        #[serde(default, skip_serializing_if = "People::is_usual")]
        people: People,
    },
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
    /// Fluid that no vessel caught, by eye. It counts with its way, and with half of itself as uncertainty.
    Spilled {
        /// How much, by eye.
        millilitres: Millilitres,
        /// Which amount it is missing from.
        of: Way,
    },
    /// Old fluid that left with a part: it is not in the drained amount.
    TakenOut {
        /// Which part.
        part: Part,
        /// How much, measured; absent: as the sheet says.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        millilitres: Option<Millilitres>,
        /// How warm it was when measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        celsius: Option<Celsius>,
    },
    /// Of what came out: kept back as a sample, and not handed in as waste. Changes nothing in the transmission.
    Kept {
        /// How much.
        millilitres: Millilitres,
    },
    /// How the vehicle stands, by the heights of four like points above one plane.
    Corners {
        /// Front left.
        front_left_millimetres: Millimetres,
        /// Front right.
        front_right_millimetres: Millimetres,
        /// Rear left.
        rear_left_millimetres: Millimetres,
        /// Rear right.
        rear_right_millimetres: Millimetres,
        /// From front to rear; absent: as the sheet says.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wheelbase_millimetres: Option<Millimetres>,
        /// From left to right, front and rear; absent: as the sheet says.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        track_millimetres: Option<[Millimetres; 2]>,
    },
    /// The selector stands at this position now; the positions of all rounds are counted, and their dwell.
    Shifted {
        /// As the sheet writes it.
        position: String,
    },
    /// Which vehicle this is, in the workshop's words: a plate, an order number; at most 80 characters.
    Vehicle {
        /// What to find it by.
        text: String,
    },
    /// A particular of the job for its report; told again, it replaces what was told before.
    Particular {
        /// Which.
        what: Particular,
        /// As it shall stand there; at most 80 characters.
        text: String,
    },
    /// A photo that lies beside the journal under its hash.
    Photo {
        /// SHA-256 of the file, 64 hex digits in lower case.
        sha256: String,
        /// What it was called; at most 80 characters.
        name: String,
    },
    /// Begin a recheck of an earlier job: from cold, without changing the fluid.
    Recheck {
        /// The number of that job in this journal.
        of: u64,
    },
    /// A thermometer's reading.
    Spot {
        /// What it showed.
        celsius: Celsius,
        /// Where it was pointed or held.
        surface: Surface,
    },
    /// A number on the vehicle's display, where the sheet goes by it.
    Display {
        /// What it shows.
        celsius: Celsius,
    },
    /// How warm the air outside is, where the sheet has a band for hot places and the vehicle does not show it.
    Air {
        /// What a thermometer in the shade shows.
        celsius: Celsius,
    },
    /// The vehicle's own lamp, where the sheet goes by it.
    Lamp {
        /// Which of its three states.
        shows: LampState,
    },
    /// What the engine does, where no adapter tells it.
    Engine {
        /// What.
        what: EngineWord,
        /// What the rev counter shows, in 1/min.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rpm: Option<Rpm>,
    },
    /// The identifier that is being searched for is this one: it shows what the thermometer shows.
    Candidate {
        /// 0x22 or 0x21.
        service: u8,
        /// The identifier.
        identifier: u16,
        /// The request's address, as hex digits.
        header: String,
    },
    /// The check port is open and fluid flows.
    Flowing,
    /// The check port is open and nothing comes.
    NothingFlows,
    /// The stream has become a trickle.
    Trickle,
    /// Only drops come out of the open port: told in place of a trickle.
    Drips,
    /// The hole is open and the fluid stands at its lower edge.
    AtEdge,
    /// The hole is open and the fluid stands below its lower edge.
    BelowEdge {
        /// So far.
        millimetres: Millimetres,
    },
    /// The gauge was wiped, pushed to its stop and read.
    Gauge {
        /// What it shows.
        millimetres: Millimetres,
    },
    /// Whether it leaks.
    Leak {
        /// How bad.
        how: Leak,
    },
    /// Where it leaks, after `leak`.
    LeakAt {
        /// The place.
        place: LeakPlace,
    },
    /// Why the vehicle is here, or what is left of it; told once for each.
    Symptom {
        /// Which.
        what: Symptom,
    },
    /// How the fluid looks on the first drops; told once for each.
    FluidLooks {
        /// How.
        look: FluidLook,
    },
    /// No drive is felt in gear within some seconds.
    NoDrive,
    /// The container's words differ from the sheet's, or the wrong fluid was found to be in.
    FluidWrong,
    /// Somebody is in danger.
    Alarm {
        /// What it is.
        what: Alarm,
    },
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

/// What a request is to the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// It sets what the daemon goes by: the sheet, the air.
    Sets,
    /// It begins a job.
    Begins,
    /// It is for the record alone.
    Remarks,
    /// It ends the job.
    Ends,
    /// It takes the last one back.
    TakesBack,
    /// It tells what hands have done, how much it was, or what the port shows.
    Works,
    /// It reads the vehicle or a thermometer: a temperature, the lamp, the engine.
    Reads,
    /// It tells what is wrong or where something is: a leak, a symptom, an alarm. No hand has done anything.
    Warns,
}

impl Request {
    /// The usual job: fluid changed, two people.
    pub const fn start() -> Self {
        Self::Start { job: Task::Change, people: People::Two }
    }

    /// The word of the command line and of the JSON.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Sheet { .. } => "sheet",
            Self::Start { .. } => "start",
            Self::Confirm { .. } => "confirm",
            Self::Level { .. } => "level",
            Self::Drained { .. } => "drained",
            Self::Filled { .. } => "filled",
            Self::RanOut { .. } => "ran-out",
            Self::Spilled { .. } => "spilled",
            Self::TakenOut { .. } => "taken-out",
            Self::Kept { .. } => "kept",
            Self::Corners { .. } => "corners",
            Self::Shifted { .. } => "shifted",
            Self::Vehicle { .. } => "vehicle",
            Self::Particular { .. } => "particular",
            Self::Photo { .. } => "photo",
            Self::Recheck { .. } => "recheck",
            Self::Spot { .. } => "spot",
            Self::Display { .. } => "display",
            Self::Lamp { .. } => "lamp",
            Self::Air { .. } => "air",
            Self::Engine { .. } => "engine",
            Self::Candidate { .. } => "candidate",
            Self::Flowing => "flowing",
            Self::NothingFlows => "nothing-flows",
            Self::Trickle => "trickle",
            Self::Drips => "drips",
            Self::AtEdge => "at-edge",
            Self::BelowEdge { .. } => "below-edge",
            Self::Gauge { .. } => "gauge",
            Self::Leak { .. } => "leak",
            Self::LeakAt { .. } => "leak-at",
            Self::Symptom { .. } => "symptom",
            Self::FluidLooks { .. } => "fluid-looks",
            Self::NoDrive => "no-drive",
            Self::FluidWrong => "fluid-wrong",
            Self::Alarm { .. } => "alarm",
            Self::Closed => "closed",
            Self::Torqued => "torqued",
            Self::TestDriven => "test-driven",
            Self::Done => "done",
            Self::Undo => "undo",
            Self::Abort { .. } => "abort",
            Self::Note { .. } => "note",
        }
    }

    /// Of which sort it is.
    pub const fn sort(&self) -> Sort {
        match self {
            Self::Sheet { .. } | Self::Air { .. } => Sort::Sets,
            Self::Start { .. } | Self::Recheck { .. } => Sort::Begins,
            Self::Vehicle { .. } | Self::Particular { .. } | Self::Photo { .. } | Self::Note { .. } => {
                Sort::Remarks
            }
            Self::Done | Self::Abort { .. } => Sort::Ends,
            Self::Undo => Sort::TakesBack,
            Self::Spot { .. }
            | Self::Display { .. }
            | Self::Lamp { .. }
            | Self::Engine { .. }
            | Self::Candidate { .. } => Sort::Reads,
            Self::Leak { .. }
            | Self::LeakAt { .. }
            | Self::Symptom { .. }
            | Self::FluidLooks { .. }
            | Self::NoDrive
            | Self::FluidWrong
            | Self::Alarm { .. } => Sort::Warns,
            Self::Confirm { .. }
            | Self::Level { .. }
            | Self::Drained { .. }
            | Self::Filled { .. }
            | Self::RanOut { .. }
            | Self::Spilled { .. }
            | Self::TakenOut { .. }
            | Self::Kept { .. }
            | Self::Corners { .. }
            | Self::Shifted { .. }
            | Self::Flowing
            | Self::NothingFlows
            | Self::Trickle
            | Self::Drips
            | Self::AtEdge
            | Self::BelowEdge { .. }
            | Self::Gauge { .. }
            | Self::Closed
            | Self::Torqued
            | Self::TestDriven => Sort::Works,
        }
    }

    /// The words of people in it, with their fields: they stand in the record as they are.
    pub fn texts(&self) -> Vec<(&'static str, &str)> {
        match self {
            Self::Sheet { name } => vec![("name", name)],
            Self::Shifted { position } => vec![("position", position)],
            Self::Vehicle { text } | Self::Particular { text, .. } | Self::Note { text } => {
                vec![("text", text)]
            }
            Self::Photo { sha256, name } => vec![("sha256", sha256), ("name", name)],
            Self::Abort { why } => vec![("why", why)],
            Self::Candidate { header, .. } => vec![("header", header)],
            Self::Start { .. }
            | Self::Drips
            | Self::AtEdge
            | Self::BelowEdge { .. }
            | Self::Gauge { .. }
            | Self::Leak { .. }
            | Self::LeakAt { .. }
            | Self::Symptom { .. }
            | Self::FluidLooks { .. }
            | Self::NoDrive
            | Self::FluidWrong
            | Self::Alarm { .. }
            | Self::Confirm { .. }
            | Self::Level { .. }
            | Self::Drained { .. }
            | Self::Filled { .. }
            | Self::RanOut { .. }
            | Self::Spilled { .. }
            | Self::TakenOut { .. }
            | Self::Kept { .. }
            | Self::Corners { .. }
            | Self::Recheck { .. }
            | Self::Spot { .. }
            | Self::Display { .. }
            | Self::Lamp { .. }
            | Self::Air { .. }
            | Self::Engine { .. }
            | Self::Flowing
            | Self::NothingFlows
            | Self::Trickle
            | Self::Closed
            | Self::Torqued
            | Self::TestDriven
            | Self::Done
            | Self::Undo => vec![],
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
    json Refusal {
        NoJob "no-job" "No job has been started: `tell start` first.",
        JobRunning "job-running" "A job is running: end it with `tell done` or `tell abort` first.",
        NotYet "not-yet" "That comes later in the job; a step before it is still open.",
        AlreadyDone "already-done" "That has been told already; `tell undo` takes it back.",
        NotGo "not-go" "The verdict is not `go`, so the level cannot be right now.",
        NotTheSign "not-the-sign" "This vehicle shows its level by another sign: tell what the screen asks for.",
        PortClosed "port-closed" "The check port has not been told open: `tell flowing` first.",
        PortOpen "port-open" "The check port is still open: close it and `tell closed` first.",
        ShownByVehicle "shown-by-vehicle" "The vehicle itself shows this; a person cannot confirm it.",
        NotNeeded "not-needed" "The sheet does not ask for this.",
        NotLevel "not-level" "The vehicle is not level enough: the level would be wrong by more than the sheet allows.",
        ImpossibleAmount "impossible-amount" "That amount cannot be: more than the transmission holds, or not more than nothing.",
        MoreOutThanIn "more-out-than-in" "More would have run out than was ever in it; measure again.",
        UselessSurface "useless-surface" "Bare metal mirrors its surroundings: put matt tape on it and measure that.",
        ImpossibleValue "impossible-value" "No vehicle in a workshop has that value; measure again.",
        AmountUnknown "amount-unknown" "The sheet does not say how much that holds: measure it and tell the amount.",
        BaseUnknown "base-unknown" "The sheet does not say wheelbase and track: tell them too.",
        CornerMisread "corner-misread" "The four corners do not lie on one plane: one of them was misread. Measure again.",
        WrongPosition "wrong-position" "The selector has another position to come next; the screen shows which.",
        TooEarly "too-early" "The selector has not stood long enough in the position before; the screen shows how long.",
        NoSuchJob "no-such-job" "The journal holds no job of that number.",
        NotAHash "not-a-hash" "That is no SHA-256: 64 hex digits in lower case.",
        NothingToUndo "nothing-to-undo" "There is nothing that could be taken back.",
        TooLong "too-long" "The text is too long: at most 200 characters.",
        HiddenCharacter "hidden-character" "The text holds a character that is not seen but changes what is.",
        NoSuchEvent "no-such-event" "No event of that number has happened yet; what comes next is sent.",
        TooMany "too-many" "This job holds as many remarks, photos and names of the vehicle as one may: write the rest elsewhere.",
        TooFast "too-fast" "That is more than a person writes in so short a time: wait some seconds and tell it again.",
        NotUnderstood "not-understood" "This is not a request of the interface.",
        JournalFull "journal-full" "The journal cannot be written, so nothing can be promised. Free some disk space.",
        BandDecided "band-decided" "Which band counts was decided as this job began. If it is wrong, end the job, tell the air, and start again.",
        NeedsAdapter "needs-adapter" "That sheet goes by the engine's coolant as the vehicle tells it; without an adapter nobody reads that. Choose a sheet with the signal `spot` or `fluid`.",
        NoSuchSheet "no-such-sheet" "The daemon was not given a sheet of that name; `serve --sheets FOLDER` names a folder of them.",
        SheetUnconfirmed "sheet-unconfirmed" "Nobody has confirmed this sheet here: `standpipe sheet check FILE` names what, `standpipe sheet confirm FILE` confirms it.",
        NoSheet "no-sheet" "No sheet was given, so no level can be set: begin again with `--sheet FILE`.",
        NotSearching "not-searching" "No search for an identifier runs: `standpipe find` begins one.",
        NoSuchCandidate "no-such-candidate" "That identifier is not the one that leads; the screen shows which does.",
        NotAgreed "not-agreed" "No thermometer agrees with it yet: measure the sump and tell `spot` first.",
        NotSettled "not-settled" "More than one identifier may still be it: let it warm further.",
        Ended "ended" "The job has ended; `tell start` begins a new one.",
    }
}
