//! Time as the program decides by it: a monotonic instant, and the clock that is passed in.
//!
//! Nothing here reads a clock. The daemon brings the real one, the rehearsal a virtual one; the code between
//! them cannot tell the difference.

use core::fmt;
use core::future::Future;
use core::pin::Pin;
use core::time::Duration;

/// An instant on our monotonic clock: milliseconds since the daemon's start.
///
/// A test can build it and a recording can carry it, which `std::time::Instant` cannot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schemars", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(transparent))]
pub struct Mono(u64);

impl Mono {
    /// The daemon's start.
    /// By definition.
    pub const ZERO: Self = Self(0);

    /// The instant `millis` milliseconds after the start.
    pub const fn from_millis(millis: u64) -> Self {
        Self(millis)
    }

    /// The instant `seconds` seconds after the start.
    pub const fn from_secs(seconds: u64) -> Self {
        Self(seconds.saturating_mul(1_000))
    }

    /// Milliseconds since the start.
    pub const fn as_millis(self) -> u64 {
        self.0
    }

    /// Seconds since the start, for formulas.
    pub fn as_secs_f64(self) -> f64 {
        self.0 as f64 / 1_000.0
    }

    /// How long ago `earlier` was; zero if it lies ahead.
    pub const fn since(self, earlier: Self) -> Duration {
        Duration::from_millis(self.0.saturating_sub(earlier.0))
    }

    /// The instant `span` later; stops at the far end of the scale.
    pub const fn after(self, span: Duration) -> Self {
        Self(self.0.saturating_add(span.as_millis() as u64))
    }
}

impl fmt::Display for Mono {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{:03} s", self.0 / 1_000, self.0 % 1_000)
    }
}

/// What [`Clock::sleep_until`] gives: ready when the deadline has come.
pub type Sleep = Pin<Box<dyn Future<Output = ()> + Send>>;

/// The clock that the asynchronous shells are given. The pure crates never see it: they are told the time.
pub trait Clock: Send + Sync {
    /// The instant now.
    fn now(&self) -> Mono;

    /// Milliseconds since 1970-01-01T00:00:00Z, for people and records; never for a decision.
    fn wall_millis(&self) -> i64;

    /// Waits until `at`. May wake late; whoever waits compares clock and deadline again.
    fn sleep_until(&self, at: Mono) -> Sleep;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_never_runs_backwards() {
        assert_eq!(Mono::from_secs(1).since(Mono::from_secs(5)), Duration::ZERO);
        assert_eq!(Mono::from_secs(5).since(Mono::from_secs(1)), Duration::from_secs(4));
        assert_eq!(Mono::from_millis(u64::MAX).after(Duration::from_secs(1)), Mono::from_millis(u64::MAX));
        assert_eq!(Mono::from_millis(61_005).to_string(), "61.005 s");
    }
}
