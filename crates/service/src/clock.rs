//! The real clocks: tokio's monotonic time, the system's civil time for records, and the machine's own, which no daemon's end stops.

use std::time::{SystemTime, UNIX_EPOCH};

use events::Uptime;
use tokio::time::{Duration, Instant};
use units::{Clock, Mono, Sleep};

/// What the clock of a daemon reads when it starts, where it goes on after another one: what another daemon read of the vehicle so long ago has a place on it. Own choice:
/// what is older says nothing of a fluid that warms.
pub const REACHES_BACK: Duration = Duration::from_secs(30 * 60);

/// Far enough away to be never.
/// By definition: half of what the clock counts, so that nothing can be added beyond its end.
pub(crate) const NEVER: Mono = Mono::from_millis(u64::MAX / 2);

/// Counts from the moment it is made.
#[derive(Debug, Clone, Copy)]
pub struct SystemClock {
    start: Instant,
    /// What it read then.
    first: Duration,
}

impl SystemClock {
    /// A clock that reads zero now.
    pub fn start() -> Self {
        Self { start: Instant::now(), first: Duration::ZERO }
    }

    /// A clock that reads [`REACHES_BACK`] now: what was before has a place on it.
    pub fn reaching_back() -> Self {
        Self { first: REACHES_BACK, ..Self::start() }
    }
}

impl Clock for SystemClock {
    fn now(&self) -> Mono {
        let ran = u64::try_from(self.start.elapsed().as_millis()).unwrap_or(u64::MAX);
        Mono::from_millis(ran).after(self.first)
    }

    fn wall_millis(&self) -> i64 {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
    }

    fn sleep_until(&self, at: Mono) -> Sleep {
        let deadline = self.start + Duration::from_millis(at.as_millis()).saturating_sub(self.first);
        Box::pin(tokio::time::sleep_until(deadline))
    }
}

/// This run of the machine, and how its own clock stands beside a daemon's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Machine {
    run: String,
    /// What the machine's clock read when the daemon's read zero, in milliseconds; before the machine's start it is negative.
    zero_ms: i64,
}

/// Where Linux tells which start of the machine this is; its text differs at every start.
const RUN: &str = "/proc/sys/kernel/random/boot_id";

impl Machine {
    /// This machine beside `clock`; `None` where it does not tell which run it is.
    pub fn beside(clock: &dyn Clock) -> Option<Self> {
        let run = std::fs::read_to_string(RUN).ok()?.trim().to_owned();
        let up = rustix::time::clock_gettime(rustix::time::ClockId::Boottime);
        let up_ms = up.tv_sec.saturating_mul(1_000).saturating_add(up.tv_nsec / 1_000_000);
        (!run.is_empty()).then(|| Self::at(run, up_ms, clock.now()))
    }

    /// A machine whose clock reads `up_ms` when the daemon's reads `now`.
    pub fn at(run: String, up_ms: i64, now: Mono) -> Self {
        Self { run, zero_ms: up_ms.saturating_sub(i64::try_from(now.as_millis()).unwrap_or(i64::MAX)) }
    }

    /// What its clock reads at `now`; `None` before its start.
    pub(crate) fn uptime(&self, now: Mono) -> Option<Uptime> {
        let up_ms = u64::try_from(self.zero_ms.saturating_add_unsigned(now.as_millis())).ok()?;
        Some(Uptime { run: self.run.clone(), up_ms })
    }

    /// When it was on the daemon's clock that the machine's read `up_ms`, in the same run; `None` in another one. Negative:
    /// before the daemon's clock reaches back.
    pub(crate) fn when(&self, then: &Uptime) -> Option<i64> {
        (then.run == self.run)
            .then(|| i64::try_from(then.up_ms).unwrap_or(i64::MAX).saturating_sub(self.zero_ms))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_instant_of_one_daemon_has_its_place_on_the_clock_of_the_next() {
        let first = Machine::at("a".to_owned(), 100_000, Mono::from_secs(1_800));
        let then = first.uptime(Mono::from_secs(1_860)).unwrap();
        assert_eq!(then.up_ms, 160_000);
        let next = Machine::at("a".to_owned(), 400_000, Mono::from_secs(1_800));
        assert_eq!(next.when(&then), Some(1_560_000), "four minutes before it started");
        let long_after = Machine::at("a".to_owned(), 9_000_000, Mono::from_secs(1_800));
        assert_eq!(long_after.when(&then), Some(-7_040_000), "further than it reaches");
        let other = Machine::at("b".to_owned(), 400_000, Mono::from_secs(1_800));
        assert_eq!(other.when(&then), None);
        assert_eq!(first.uptime(Mono::ZERO), None, "before the machine's start");
    }

    #[test]
    fn the_machine_tells_its_run_and_both_clocks_go_on_together() {
        let clock = SystemClock::reaching_back();
        let machine = Machine::beside(&clock).unwrap();
        let other = Machine::beside(&SystemClock::reaching_back()).unwrap();
        assert_eq!(machine.run, other.run);
        assert!(machine.zero_ms <= other.zero_ms, "the second daemon started later");
        assert!(clock.now() >= Mono::ZERO.after(REACHES_BACK));
    }
}
