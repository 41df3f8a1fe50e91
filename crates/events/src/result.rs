//! The balance of one job and what came of it.

use crate::words::words;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Millilitres, Millimetres};

/// Drained, filled and run out, each as measured and together at one reference temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Balance {
    /// Came out at the drain, as measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drained_millilitres: Option<Millilitres>,
    /// Went in, as measured, all fills together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub filled_millilitres: Option<Millilitres>,
    /// Came out at the check port, as measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ran_out_millilitres: Option<Millilitres>,
    /// The one temperature that the next two are corrected to: the middle of the band.
    pub reference_celsius: Celsius,
    /// What should run out at the reference temperature if the level was right before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expected_run_out_millilitres: Option<Millilitres>,
    /// Run out less expected, at the reference temperature: negative means it was low before, or not all came out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub closure_millilitres: Option<Millilitres>,
    /// Standard uncertainty of the closure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub closure_u_millilitres: Option<Millilitres>,
}

words! {
    /// What came of the job.
    Outcome {
        Set "set" "The level is set.",
        SetLow "set-low" "The level is set, but low by more than the sheet allows.",
        SetHigh "set-high" "The level is set, but high by more than the sheet allows.",
        NotSet "not-set" "The level is not set.",
    }
}

words! {
    /// A part of the level error.
    Cause {
        Temperature "temperature" "The fluid was not at mid-band when the port was closed.",
        Tilt "tilt" "The vehicle was not exactly level.",
        Residual "residual" "The film that still stood above the rim differs from that of the nominal trickle.",
    }
}

/// One line of the budget of the level error.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct CausePart {
    /// What causes it.
    pub cause: Cause,
    /// Its best estimate; positive is too much fluid.
    pub millilitres: Millilitres,
    /// Its standard uncertainty.
    pub u_millilitres: Millilitres,
}

/// How far the set level is from the one that the procedure leaves on a level vehicle at mid-band with the
/// same trickle. Positive is too much fluid.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LevelError {
    /// Best estimate.
    pub millilitres: Millilitres,
    /// Expanded uncertainty with k = 2.
    pub expanded_millilitres: Millilitres,
    /// The same error as height of the surface.
    pub millimetres: Millimetres,
    /// What it is made of.
    pub causes: Vec<CausePart>,
}

words! {
    /// What went wrong, in the words of the job. Each says what to do about it.
    Shortfall {
        NothingRanOut "nothing-ran-out" "Nothing ran out at `go`, so the level is low. Fill more, then look again inside the window.",
        NotOpened "not-opened" "The check port was not opened while the verdict was `go`. Wait for the next window and set the level then.",
        OpenedBeforeGo "opened-before-go" "The check port was open before the verdict was `go`. Fluid that ran out then is missing from the margin; set the level again inside the window.",
        NoTrickle "no-trickle" "The stream had not become a trickle when the port was closed: the level is high. Open again inside the window and let it run out.",
        TooHotBeforeTrickle "too-hot-before-trickle" "The fluid became too hot before the stream was a trickle. Let it cool, top up what ran out too much, and set the level again.",
        ClosedLate "closed-late" "The check port was closed only after the fluid was too hot: the level is low. Let it cool, top up, and set the level again.",
        ClosedOutsideGo "closed-outside-go" "The verdict was not `go` when the port was closed. Set the level again inside the window.",
        PreconditionOpen "precondition-open" "Something that must hold was never confirmed. Put it right and set the level again.",
        NotLevel "not-level" "The vehicle did not stand level. Level it and set the level again.",
        StartedWarm "started-warm" "The vehicle was warm when the job began. Let it cool until coolant and air agree, then begin again.",
        SensorUntrusted "sensor-untrusted" "The temperature could not be trusted. Compare it with a thermometer on the sump; repair the sensor before you set a level.",
        LinkLostWhileOpen "link-lost-while-open" "The adapter was lost while the check port was open. Set the level again with a steady connection.",
        BalanceOpen "balance-open" "What ran out does not fit what was filled. Was it low before, not drained fully, or is there a leak? Recheck soon.",
        Unmeasured "unmeasured" "Drained, filled and run-out amounts are not all told, so the balance proves nothing.",
        TooHot "too-hot" "The fluid was above the band. Stop the engine, let it cool, and start again from a cold vehicle.",
        Aborted "aborted" "The job was ended by hand.",
    }
}

/// The result of a job: the outcome, the level error as far as it is known, and what was wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct JobResult {
    /// What came of it.
    pub outcome: Outcome,
    /// The estimated level error; absent where nothing can be said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level_error: Option<LevelError>,
    /// What was wrong or is worth a question. Empty when all went well.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shortfalls: Vec<Shortfall>,
    /// Preconditions that were never confirmed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub open: Vec<crate::Precondition>,
    /// The days on which a recheck is due.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recheck_due: Vec<crate::Utc>,
}
