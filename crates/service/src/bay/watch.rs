//! Is the way to the adapter kept alive? Whatever the driver does or fails to do, somebody tries again within a stated
//! time.
//!
//! ```text
//!   open ── a line leaves ──► the time begins anew
//!     │  the driver has given up, or nothing has left for TRIES_WITHIN
//!     ▼
//!   the port is to be opened again ── not done for TRIES_WITHIN ──► asked for once more
//! ```
//!
//! In: what became of the port, each line that leaves. Out: whether the port is to be opened again, and when to look.
//! Pure. Not here: who opens it (`daemon.rs`), what is said on it (`adapter`).

use std::time::Duration;

use units::Mono;

/// A port that is open has a line written to it, or is opened again, at least this often; one that is closed is asked
/// for again after as long. No state of driver or line can outlast it, and no client is needed.
/// Own choice: the longest silence of the driver's own ([`adapter::Driver::SPEAKS_WITHIN`], 35 s) and room for a
/// machine that is slow.
pub const TRIES_WITHIN: Duration = Duration::from_secs(45);

/// What became of the port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Port {
    Closed,
    Open,
}

/// See the module's words.
#[derive(Debug)]
pub(super) struct Watch {
    port: Port,
    /// When a line left, or something became of the port.
    tried: Mono,
    wanted: bool,
    /// Whether it is closed because that was wanted here.
    own: bool,
    /// Openings in a row in which the adapter said nothing.
    silent: u8,
}

impl Watch {
    pub(super) const fn new() -> Self {
        Self { port: Port::Closed, tried: Mono::ZERO, wanted: false, own: false, silent: 0 }
    }

    /// The watch begins: from now on something is to be tried in time.
    pub(super) const fn begins(&mut self, now: Mono) {
        self.tried = now;
    }

    pub(super) fn opened(&mut self, now: Mono) {
        (self.port, self.tried, self.wanted) = (Port::Open, now, false);
    }

    pub(super) fn closed(&mut self, now: Mono) {
        (self.port, self.tried, self.wanted) = (Port::Closed, now, false);
    }

    /// A line leaves.
    pub(super) const fn sent(&mut self, now: Mono) {
        self.tried = now;
    }

    /// The port is to be opened again.
    pub(super) const fn reopen(&mut self) {
        self.wanted = true;
    }

    /// Whether it is; asking answers once.
    pub(super) const fn take(&mut self) -> bool {
        self.own = std::mem::replace(&mut self.wanted, false);
        self.own
    }

    /// Whether what is closed now is closed in order to be opened again: nobody has cut it.
    pub(super) const fn closes_by_itself(&self) -> bool {
        self.own
    }

    /// That closing is over; the next one has another cause.
    pub(super) const fn has_closed(&mut self) {
        self.own = false;
    }

    /// The adapter has said something.
    pub(super) const fn spoke(&mut self) {
        self.silent = 0;
    }

    /// The adapter said nothing after this opening; for how many in a row that is so.
    pub(super) const fn was_silent(&mut self) -> u8 {
        self.silent = self.silent.saturating_add(1);
        self.silent
    }

    /// When to look again.
    pub(super) fn due(&self) -> Mono {
        self.tried.after(TRIES_WITHIN)
    }

    /// Looks: a driver that has given up, or that has let the time pass, and nobody who opens the port.
    pub(super) fn look(&mut self, driver_waits: bool, now: Mono) -> Stood {
        let stood = now >= self.due();
        if self.port == Port::Open && !driver_waits {
            self.wanted = true;
        }
        if !stood {
            return Stood::No;
        }
        (self.tried, self.wanted) = (now, true);
        if self.port == Port::Open { Stood::Open } else { Stood::Closed }
    }
}

/// Whether nothing was tried for too long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stood {
    No,
    /// With the port open.
    Open,
    /// With the port closed, or being opened.
    Closed,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_port_without_a_word_is_opened_again_and_a_closed_one_is_asked_for_again() {
        let after = |millis: u64| Mono::ZERO.after(TRIES_WITHIN + Duration::from_millis(millis));
        let mut watch = Watch::new();
        watch.opened(Mono::ZERO);
        watch.sent(Mono::from_millis(500));
        assert_eq!(watch.due(), after(500));
        assert_eq!((watch.look(true, after(499)), watch.take()), (Stood::No, false));
        assert_eq!((watch.look(true, after(500)), watch.take()), (Stood::Open, true));
        watch.closed(after(500));
        assert_eq!((watch.look(false, after(501)), watch.take()), (Stood::No, false), "it is being opened");
        let late = after(500).after(TRIES_WITHIN);
        assert_eq!((watch.look(false, late), watch.take()), (Stood::Closed, true));
        assert!(watch.due() > late, "always ahead");
    }

    #[test]
    fn a_driver_that_has_given_up_wants_its_port_opened_again_at_once() {
        let mut watch = Watch::new();
        watch.opened(Mono::ZERO);
        assert_eq!((watch.look(false, Mono::ZERO), watch.take()), (Stood::No, true));
    }

    #[test]
    fn only_the_closing_that_was_wanted_is_its_own() {
        let mut watch = Watch::new();
        watch.opened(Mono::ZERO);
        assert!(!watch.take() && !watch.closes_by_itself());
        watch.reopen();
        assert!(watch.take() && watch.closes_by_itself());
        watch.has_closed();
        assert!(!watch.closes_by_itself());
    }

    #[test]
    fn openings_without_a_word_are_counted_until_there_is_one() {
        let mut watch = Watch::new();
        assert_eq!([watch.was_silent(), watch.was_silent(), watch.was_silent()], [1, 2, 3]);
        watch.spoke();
        assert_eq!(watch.was_silent(), 1);
    }
}
