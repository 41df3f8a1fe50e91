//! The service manager, where one started us: that we are ready, that the loop still turns, that we end.
//!
//! In: where it listens, from the environment (`NOTIFY_SOCKET`, `WATCHDOG_USEC`). Out: its messages, sd_notify(3). Without one nothing
//! is said. Not here: the loop (`service::Daemon::run`), the unit (`crates/xtask/package`).

use std::time::Duration;

use sd_notify::NotifyState;

/// Says that clients may come, and in a line what is served.
pub fn ready(what: &str) {
    tell(&[NotifyState::Ready, NotifyState::Status(what)]);
}

/// Says that we end because somebody wanted it.
pub fn stopping() {
    tell(&[NotifyState::Stopping]);
}

/// How often the loop is to say that it turns, where somebody watches it: twice in the time after which we would be taken for dead,
/// as sd_watchdog_enabled(3) advises.
pub fn wants_pulse() -> Option<Duration> {
    sd_notify::watchdog_enabled().map(|within| within / 2)
}

/// The loop turns.
pub fn pulse() {
    tell(&[NotifyState::Watchdog]);
}

/// A manager that does not listen any more is no reason to end.
fn tell(state: &[NotifyState<'_>]) {
    if let Err(e) = sd_notify::notify(state) {
        tracing::debug!(error = %e, "the service manager was not told");
    }
}
