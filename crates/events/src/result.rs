//! The balance of one job and what came of it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Millilitres, Millimetres, words};
use words::{Lang, args};

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
    /// Old fluid that left with parts: filter, cooler, pan, converter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken_out_millilitres: Option<Millilitres>,
    /// What no vessel caught, by eye, whichever way it was going.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spilled_millilitres: Option<Millilitres>,
    /// Kept back as a sample, of what came out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept_millilitres: Option<Millilitres>,
    /// To be handed in as waste oil: all that came out, less what was kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waste_millilitres: Option<Millilitres>,
    /// How often it was drained and filled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exchanges: Option<u32>,
    /// How much of what is in it now is fresh, in whole percent, rounded down; perfect mixing wherever the engine ran
    /// between filling and draining, none where it did not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fresh_percent: Option<u8>,
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

impl Balance {
    /// Before any amount was told.
    pub const fn nothing_told(reference_celsius: Celsius) -> Self {
        Self {
            drained_millilitres: None,
            filled_millilitres: None,
            ran_out_millilitres: None,
            taken_out_millilitres: None,
            spilled_millilitres: None,
            kept_millilitres: None,
            waste_millilitres: None,
            exchanges: None,
            fresh_percent: None,
            reference_celsius,
            expected_run_out_millilitres: None,
            closure_millilitres: None,
            closure_u_millilitres: None,
        }
    }
}

words! {
    /// Why the balance may not close. Several may be named, the likeliest first.
    json ClosureCause {
        OpenedEarly "opened-early" "The check port was open before the window: what the converter would have taken ran out too. Fill, and set the level again.",
        EngineStopped "engine-stopped" "The engine stopped with the check port open: what drains back from the converter ran out too. Set the level again.",
        WrongTemperature "wrong-temperature" "An amount was told without its temperature, or with a wrong one: warm fluid takes more room. Measure warmth and amount together.",
        WasLowBefore "was-low-before" "It was low before the job: part of the margin made up for that. Ask how long, and look for an old leak.",
        NotAllCaught "not-all-caught" "Not all that ran out was caught. Tell what was spilled, by eye.",
        Leak "leak" "Fluid leaves somewhere else. Look at plugs, pan gasket and cooler lines before the vehicle goes.",
        WasHighBefore "was-high-before" "It was too full before the job.",
        TubeNotSeated "tube-not-seated" "The standpipe is not screwed home, so fluid ran out beside it and the level is low. Tighten it to its torque and set the level again.",
        DrainedNotFully "drained-not-fully" "Less was drained than the sheet expects, so more old fluid is left in. The level does not depend on it.",
    }
}

words! {
    /// What came of the job.
    json Outcome {
        Set "set" "The level is set.",
        SetLow "set-low" "The level is set, but low by more than the sheet allows.",
        SetHigh "set-high" "The level is set, but high by more than the sheet allows.",
        NotSet "not-set" "The level is not set.",
        SetUnsure "set-unsure" "The level is probably right.",
        Checked "checked" "The level was right.",
    }
}

words! {
    /// What the vehicle may do now.
    json Drivable {
        Yes "yes" "It may be driven.",
        WorkshopOnly "workshop-only" "It may be moved in the workshop only.",
        No "no" "It must not be driven; moved only with its driven wheels off the ground.",
    }
}

words! {
    /// A part of the level error.
    json Cause {
        Temperature "temperature" "The fluid was not at mid-band when the port was closed.",
        Tilt "tilt" "The vehicle was not exactly level.",
        Warming "warming" "The fluid warmed while it dripped: the stream never fell to the nominal trickle, so more stood above the rim.",
        Amount "amount" "What was filled differs from the stated amount, as far as vessels tell.",
        Guess "guess" "What was guessed in the vehicle data.",
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
    json Shortfall {
        NothingRanOut "nothing-ran-out" "Nothing ran out at `go`, so the level is low. Fill more, then look again inside the window.",
        StaysDry "stays-dry" "Nothing ran out at `go` although more was filled than can be missing. Fill no more: look for a leak, another plug, how it stands.",
        GushOnly "gush-only" "Only the first gush came out: it is low. Fill what is missing and the extra, then look again.",
        RanOutTooMuch "ran-out-too-much" "Much more ran out than the excess: wrong plug, or a loose pipe? Fill what is missing, then look again.",
        AmountOff "amount-off" "The amount in it is not the stated one, or the old fluid was not drained fully. Drain fully and fill the stated amount.",
        GaugeLow "gauge-low" "The gauge reads below the chart: it is low. Fill what the reading says is missing, then read again.",
        GaugeHigh "gauge-high" "The gauge reads above the chart: it is too full. Draw some out, measured, then read again.",
        NotReadTwice "not-read-twice" "No two readings of the gauge inside the band agree to 2 mm. Wipe it, push it to its stop, read again.",
        NotLookedAgain "not-looked-again" "Nobody has looked at the level again after the drive. Put it level once more and look.",
        NotOpened "not-opened" "The check port was not opened while the verdict was `go`. Wait for the next window and set the level then.",
        OpenedBeforeGo "opened-before-go" "The check port was open before the verdict was `go`. Fluid that ran out then is missing from the margin; set the level again inside the window.",
        NoTrickle "no-trickle" "The stream had not become a trickle when the port was closed: the level is high. Open again inside the window and let it run out.",
        TooHotBeforeTrickle "too-hot-before-trickle" "The fluid became too hot before the stream was a trickle. Let it cool, fill the amount that is named, and set the level again.",
        ClosedLate "closed-late" "The check port was closed only after the fluid was too hot: the level is off. Let it cool, and set the level again.",
        ClosedOutsideGo "closed-outside-go" "The verdict was not `go` when the port was closed. Set the level again inside the window.",
        PreconditionOpen "precondition-open" "Something was never confirmed: see what is open. Put it right and set the level again.",
        NotLevel "not-level" "The vehicle did not stand level. Level it and set the level again.",
        StartedWarm "started-warm" "The vehicle was warm when the job began. Let it cool until coolant and air agree, then begin again.",
        SensorUntrusted "sensor-untrusted" "The temperature could not be trusted when it counted. Compare it with a thermometer on the sump: not known yet which is wrong.",
        LinkLostWhileOpen "link-lost-while-open" "The adapter was lost while the check port was open. Set the level again with a steady connection.",
        BalanceOpen "balance-open" "What ran out does not fit what was filled. Was it low before, not drained fully, or is there a leak? Recheck soon.",
        Unmeasured "unmeasured" "Not measured: drained, filled or run-out. The amounts cannot check the level.",
        TooHot "too-hot" "The fluid was above the band. Stop the engine, let it cool, and start again from a cold vehicle.",
        ThinEvidence "thin-evidence" "Told by people: two readings in the band, the last at most 2 min before closing, a measured stand, and a stream past 15 s were not all there.",
        LeakSeen "leak-seen" "A leak was told, and nobody has looked since. Mend it first.",
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
    /// Why the balance may not close; empty where it does.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub closure: Vec<ClosureCause>,
    /// How much to fill before the level is looked at again; absent where nothing is to be filled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub add_millilitres: Option<Millilitres>,
    /// A recheck: of which job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recheck_of: Option<u64>,
    /// A check or a recheck: how far off the level was found at mid-band; positive is too much. Absent where it cannot be told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found_millilitres: Option<Millilitres>,
    /// Its expanded uncertainty with k = 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found_expanded_millilitres: Option<Millilitres>,
    /// A check or a recheck: nothing came at a look although so much had been filled. Absent where something came at a later one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low_by_more_than_millilitres: Option<Millilitres>,
    /// Whether it may be driven; absent in journals of before it was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drivable: Option<Drivable>,
    /// What is in it now against before the job, as measured: negative is less. Absent where no amount was told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub net_millilitres: Option<Millilitres>,
    /// Its expanded uncertainty with k = 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expanded_millilitres: Option<Millilitres>,
    /// The sheet's values that were guessed when it was written.
    #[serde(default, skip_serializing_if = "<[String]>::is_empty")]
    pub guessed: Box<[String]>,
    /// What they cost in the ± of the level; absent where they cost nothing, or the level error is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guess_cost: Option<Box<GuessCost>>,
    /// What was told of the vehicle's trouble, and what it means; absent where there is nothing of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub complaint: Option<Box<crate::Complaint>>,
    /// Preconditions that were never confirmed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub open: Vec<crate::Precondition>,
    /// What people's safety or the hands asked for and nobody confirmed: parking brake, pin out, leak look …
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub untold: Vec<crate::Precondition>,
    /// The days on which a recheck is due.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recheck_due: Vec<crate::Utc>,
}

/// What the guessed values of a sheet cost in the ± of the level that was set with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct GuessCost {
    /// The ± of the level if nothing had been guessed, k = 2.
    pub without_millilitres: Millilitres,
    /// The value that would help most: its key. Absent where no single one helps by a millilitre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<String>,
    /// The ± if that one had been known, k = 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_millilitres: Option<Millilitres>,
}

impl GuessCost {
    /// What the value that would help most is called; its key where it has no name.
    pub fn called(&self) -> Option<&str> {
        let most = self.most.as_deref()?;
        let named = CALLED.iter().find(|(key, _)| *key == most);
        Some(named.map_or(most, |(_, called)| called))
    }
}

/// What people call the values that enter the ±.
const CALLED: &[(&str, &str)] = &[
    ("check.band_c", "the band"),
    ("check.hot_band_c", "the band in hot places"),
    ("fluid.total_ml", "how much is in it altogether"),
    ("fluid.density_15", "the density"),
    ("fluid.ml_per_k", "how much it grows"),
    ("fluid.mm2_s_40", "the viscosity"),
    ("fluid.mm2_s_100", "the viscosity"),
    ("fluid.drain_ml", "how much a drain brings out"),
    ("fluid.margin_ml", "the extra"),
    ("standpipe.surface_m2", "the free surface"),
    ("standpipe.offset_mm", "the place of the pipe"),
    ("standpipe.bore_mm", "the bore"),
    ("standpipe.rim_mm", "the wall of the pipe"),
    ("level.gush_ml", "the first gush"),
    ("look.mm", "how far below the edge"),
    ("look.chart", "the chart of the gauge"),
    ("look.ml_per_mm", "a millimetre of the gauge"),
    ("stand.pitch_deg", "how it stands"),
    ("stand.roll_deg", "how it stands"),
];

/// Fill some, look again: how much, and how long it takes until the fluid is as warm again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TopUp {
    /// How much to fill.
    pub millilitres: Millilitres,
    /// How long the cold fluid puts the warming back, in seconds; absent where nothing can be said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<u32>,
}

impl Outcome {
    /// Whether the level is right, as far as it is known.
    pub const fn is_right(self) -> bool {
        match self {
            Self::Set | Self::SetUnsure | Self::Checked => true,
            Self::SetLow | Self::SetHigh | Self::NotSet => false,
        }
    }

    /// The one sentence, with the level error where one is known; positive is too much. `show` writes an amount.
    pub fn headline(
        self,
        error: Option<Millilitres>,
        lang: Lang,
        show: impl Fn(Millilitres) -> String,
    ) -> String {
        let by = error.map(|e| show(Millilitres::clamped(e.to_f64().abs())));
        match (self, by) {
            (Self::SetLow, Some(by)) => lang.with("level-low-by", &args!(amount = by)),
            (Self::SetHigh, Some(by)) => lang.with("level-high-by", &args!(amount = by)),
            _ => lang.of(self).to_owned(),
        }
    }
}

impl JobResult {
    /// What was told of the trouble means this, together with the level that was found.
    pub fn means(&self) -> &[crate::Meaning] {
        self.complaint.as_ref().map_or(&[], |complaint| &complaint.means)
    }

    /// What guessed vehicle data costs in the ±, and what would help most. `show` writes an amount.
    pub fn guesses(&self, show: impl Fn(Millilitres) -> String) -> Option<String> {
        let (cost, error) = (self.guess_cost.as_ref()?, self.level_error.as_ref()?);
        let (with, without) = (show(error.expanded_millilitres), show(cost.without_millilitres));
        let most = cost.called().map_or(String::new(), |called| format!(" Most would help: {called}."));
        Some(format!("Vehicle data was guessed: ±{with} instead of ±{without}.{most}"))
    }

    /// The one sentence a person reads first: set, set low by, set high by, not set. `show` writes an amount.
    pub fn headline(&self, lang: Lang, show: impl Fn(Millilitres) -> String) -> String {
        let known = self.level_error.as_ref();
        let own = |known: Option<String>| match known {
            Some(known) => format!("{} {known}", lang.of(self.outcome)),
            None => lang.of(self.outcome).to_owned(),
        };
        let now = match (self.outcome, known) {
            (Outcome::Checked, _) => {
                let within = self.found_expanded_millilitres.map(show);
                return own(within.map(|ml| lang.with("known-to-within", &args!(amount = ml))));
            }
            (Outcome::SetUnsure, Some(error)) => {
                own(Some(lang.with("known-to", &args!(amount = show(error.expanded_millilitres)))))
            }
            _ => self.outcome.headline(known.map(|e| e.millilitres), lang, &show),
        };
        match self.found(lang, show) {
            Some(found) => format!("{found} {now}"),
            None => now,
        }
    }

    /// How the level was found, before anything was filled or ran out; nothing where the fluid was changed. `show` writes an
    /// amount.
    fn found(&self, lang: Lang, show: impl Fn(Millilitres) -> String) -> Option<String> {
        if let Some(more) = self.low_by_more_than_millilitres {
            return Some(lang.with("was-low-by-more", &args!(amount = show(more))));
        }
        // A look that does not count says nothing of the level that a person could rest on.
        let (found, within) = (self.found_millilitres?, self.found_expanded_millilitres?);
        let by_gauge = matches!(self.shortfalls.first(), Some(Shortfall::GaugeLow | Shortfall::GaugeHigh));
        if self.outcome == Outcome::NotSet && !by_gauge {
            return None;
        }
        // No more digits than are known.
        let by = show(Millilitres::clamped((found.to_f64().abs() / 10.0).round() * 10.0));
        let message = match found.to_f64() {
            ml if ml.abs() <= within.to_f64() => {
                return Some(lang.with("was-right-within", &args!(amount = show(within))));
            }
            ml if ml < 0.0 => "was-low-by",
            _ => "was-high-by",
        };
        Some(lang.with(message, &args!(amount = by, within = show(within))))
    }

    /// May it be driven, and how much is in it against before? `show` writes an amount.
    pub fn may_be_driven(&self, lang: Lang, show: impl Fn(Millilitres) -> String) -> Option<String> {
        let may = lang.of(self.drivable?);
        Some(match self.net_millilitres {
            Some(net) if net.to_f64() < 0.0 => {
                let less = show(Millilitres::clamped(-net.to_f64()));
                format!("{may} {}", lang.with("less-than-before", &args!(amount = less)))
            }
            Some(net) if net.to_f64() > 0.0 => {
                format!("{may} {}", lang.with("more-than-before", &args!(amount = show(net))))
            }
            Some(_) => format!("{may} {}", lang.text("as-much-as-before")),
            None => may.to_owned(),
        })
    }

    /// What to do next, in one sentence. `show` writes an amount.
    pub fn next(&self, lang: Lang, show: impl Fn(Millilitres) -> String) -> String {
        let add = self.add_millilitres.map(show);
        let message = match (self.outcome, &add) {
            // A level over a leak lasts no days.
            (Outcome::Set | Outcome::Checked | Outcome::SetUnsure, _)
                if self.shortfalls.contains(&Shortfall::LeakSeen) =>
            {
                "mend-leak-first"
            }
            (Outcome::NotSet, _) if self.shortfalls.contains(&Shortfall::StaysDry) => "find-why-it-stays-low",
            (Outcome::Set | Outcome::Checked | Outcome::SetUnsure, _) => "recheck-on-the-day",
            (Outcome::SetLow, Some(_)) => "fill-then-open-again",
            (Outcome::SetHigh, _) => "open-again-let-run",
            (Outcome::NotSet, Some(_)) => "put-right-and-fill",
            (Outcome::SetLow | Outcome::NotSet, _) => "put-right-and-set-again",
        };
        match add {
            Some(amount) => lang.with(message, &args!(amount = amount)),
            None => lang.text(message).to_owned(),
        }
    }
}
