//! The verdict and the two things beside it: what is known now, and what is to be expected.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Kelvins, words};

words! {
    /// May the check port be open now? Anything unknown is `wait`.
    json Verdict {
        Wait "wait" "Not now: keep the check port closed.",
        Go "go" "The fluid is inside the band and everything else holds.",
        TooHot "too-hot" "The fluid is above the band: a level set now ends low.",
    }
}

impl Default for Verdict {
    /// Anything unknown is `wait`.
    fn default() -> Self {
        Self::Wait
    }
}

/// The temperature of the signal now, from all the evidence there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Estimate {
    /// Best estimate.
    pub celsius: Celsius,
    /// Standard uncertainty (k = 1), in kelvins.
    pub u: Kelvins,
    /// How fast it warms, in kelvins per minute; absent while unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kelvins_per_minute: Option<Kelvins>,
    /// What is known of the fluid where the check is gated on coolant; absent otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fluid: Option<FluidEstimate>,
}

words! {
    /// A reading that would tell more of the fluid.
    json Narrowing {
        SpotOnTape "spot-on-tape" "A thermometer reading on tape or matt paint on the sump.",
        AirUnderVehicle "air-under-vehicle" "The temperature of the air under the vehicle.",
    }
}

/// The fluid's temperature as coolant, air and the start tell it: wide, and said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct FluidEstimate {
    /// Best estimate.
    pub celsius: Celsius,
    /// Standard uncertainty (k = 1), in kelvins.
    pub u: Kelvins,
    /// The one reading that would narrow it most; absent where none would by much.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub narrows: Option<Narrows>,
}

/// A reading that would narrow an estimate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Narrows {
    /// Which.
    pub reading: Narrowing,
    /// The standard uncertainty that would be left, in kelvins.
    pub u: Kelvins,
}

/// What a step at the check port was judged by: the verdict and the estimate of that moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Judged {
    /// The verdict then.
    pub verdict: Verdict,
    /// The estimate then; absent where there was none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub celsius: Option<Celsius>,
    /// Its standard uncertainty.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub u: Option<Kelvins>,
    /// How fast it warmed; absent while unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kelvins_per_minute: Option<Kelvins>,
}

impl Judged {
    /// By this verdict and this estimate.
    pub fn by(verdict: Verdict, estimate: Option<Estimate>) -> Self {
        Self {
            verdict,
            celsius: estimate.map(|e| e.celsius),
            u: estimate.map(|e| e.u),
            kelvins_per_minute: estimate.and_then(|e| e.kelvins_per_minute),
        }
    }
}

/// A span of time as an interval with a stated coverage, not a point. Seconds from the event that carries it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Interval {
    /// Lower bound, seconds.
    pub low: f64,
    /// Median, seconds.
    pub median: f64,
    /// Upper bound, seconds.
    pub high: f64,
    /// The share of cases that the interval is meant to cover: 0.8 is four in five.
    pub coverage: f64,
}

/// When the band opens and closes. A bound that cannot be told honestly is absent.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Forecast {
    /// Until the guarded band is reached from below.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub opens_in: Option<Interval>,
    /// Until it is left at the upper end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub closes_in: Option<Interval>,
    /// Too hot: until it has cooled back into the band with the engine off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub back_in: Option<Interval>,
    /// `go` by a reading that was typed in: until it says no more, and the next one must be told, in seconds. Without it `go`
    /// ends then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read_again_in: Option<f64>,
    /// Whether the excess will have run out before the window closes; absent until the fluid is filled and after the
    /// port was opened.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run_out: Option<RunOutAhead>,
}

/// The run-out that is still to come, against the window.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RunOutAhead {
    /// From the opened port to a trickle, seconds: a guide, known to a factor of two.
    pub seconds: f64,
    /// How long the window is at the least, seconds; what is left of it once it is open.
    pub window_seconds: f64,
    /// Whether the one fits into the other.
    pub fits: Fits,
}

words! {
    /// Whether the excess runs out before the window closes.
    json Fits {
        InTime "in-time" "The excess will have run out before the window closes.",
        Tight "tight" "The window is hardly longer than the excess needs: have everything at hand and open at once.",
        TooLong "too-long" "The excess will not have run out before the window closes: close the port in time and set the level in a second round, or let it cool and begin earlier.",
    }
}
