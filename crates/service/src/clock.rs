//! The real clock: tokio's monotonic time, and the system's civil time for records.

use std::time::{SystemTime, UNIX_EPOCH};

use tokio::time::{Duration, Instant};
use units::{Clock, Mono, Sleep};

/// Counts from the moment it is made.
#[derive(Debug, Clone, Copy)]
pub struct SystemClock {
    start: Instant,
}

impl SystemClock {
    /// A clock that reads zero now.
    pub fn start() -> Self {
        Self { start: Instant::now() }
    }
}

impl Clock for SystemClock {
    fn now(&self) -> Mono {
        Mono::from_millis(u64::try_from(self.start.elapsed().as_millis()).unwrap_or(u64::MAX))
    }

    fn wall_millis(&self) -> i64 {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
    }

    fn sleep_until(&self, at: Mono) -> Sleep {
        let deadline = self.start + Duration::from_millis(at.as_millis());
        Box::pin(tokio::time::sleep_until(deadline))
    }
}
