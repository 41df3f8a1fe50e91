//! Is the signal read once nothing keeps it away? The other half of "no wrong value": an adapter that is never read
//! gives none.
//!
//! In: at each instant the true state of link and faults, and each reading of the signal. Out: when the signal had not
//! been read for [`READS_WITHIN`] though nothing was wrong all that time; none, if that never was. Not here: whether
//! `go` was possible (`observer.rs`).

use std::time::Duration;

use events::Sheet;
use units::Mono;

use crate::bus::Bus;
use crate::car::Car;
use crate::dice::Dice;
use crate::firmware::Firmware;
use crate::observer::{can_be_addressed, can_be_read};
use crate::setup::Setup;
use crate::world::Plug;

/// From the moment on at which nothing is wrong the signal is read within this.
/// Source: docs/adapters.md, "Something is always ahead".
pub const READS_WITHIN: Duration = Duration::from_secs(60);

/// Watches one rehearsal.
#[derive(Debug, Clone)]
pub struct Liveness {
    /// Whether the signal can be read at all here.
    reads: bool,
    /// When nothing was wrong any more, or when the signal was read last, whichever came later.
    since: Option<Mono>,
    mute: Option<Mono>,
}

impl Liveness {
    /// Of a rehearsal after this sheet, through this firmware, on this bus.
    pub fn new(sheet: &Sheet, firmware: &Firmware, bus: &Bus) -> Self {
        let asked = !sheet.check.signal.is_typed();
        let reads = asked && can_be_read(firmware) && can_be_addressed(sheet, bus);
        Self { reads, since: None, mute: None }
    }

    /// One instant.
    pub fn see(&mut self, now: Mono, car: &Car) {
        let world = car.world();
        let wrong = world.adapter() != Plug::In
            || !car.plugged()
            || world.faults().iter().any(|fault| !fault.kind.is_of_sensor() && fault.holds(now));
        self.stands(now, if wrong { Stands::Wrong } else { Stands::Well });
    }

    /// The signal was read.
    pub const fn read(&mut self, now: Mono) {
        if self.since.is_some() {
            self.since = Some(now);
        }
    }

    /// Since when the signal had not been read, where it should have been.
    pub const fn mute(&self) -> Option<Mono> {
        self.mute
    }

    fn stands(&mut self, now: Mono, how: Stands) {
        if !self.reads || how == Stands::Wrong {
            self.since = None;
            return;
        }
        let since = *self.since.get_or_insert(now);
        if self.mute.is_none() && now.since(since) > READS_WITHIN {
            self.mute = Some(since);
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    Well,
    Wrong,
}

impl Setup {
    /// The same rehearsal, whose faults of link and vehicle end at a moment that its seed draws, 2 to 60 s after they
    /// began, if they do not end sooner.
    #[must_use]
    pub fn with_faults_that_end(mut self) -> Self {
        let mut dice = Dice::part(self.seed, FAULTS_END);
        for fault in self.faults.iter_mut().filter(|fault| !fault.kind.is_of_sensor()) {
            let drawn = Duration::from_millis(dice.between(SHORTEST_MS, LONGEST_MS) as u64);
            fault.lasts = Some(fault.lasts.map_or(drawn, |lasts| lasts.min(drawn)));
        }
        self
    }
}

/// A part of the dice of its own, so that nothing else of a rehearsal moves; and how soon, at least and at most, a
/// fault ends.
/// Own choice: from shorter than any limit to longer than all of them.
const FAULTS_END: u64 = 0x11FE;
const SHORTEST_MS: f64 = 2_000.0;
const LONGEST_MS: f64 = 60_000.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::{Fault, FaultKind};
    use crate::firmware;

    const fn s(seconds: u64) -> Mono {
        Mono::from_secs(seconds)
    }

    fn watch(firmware: &Firmware) -> Liveness {
        Liveness::new(&crate::embedded::six_speed(), firmware, Bus::usual())
    }

    #[test]
    fn a_signal_that_is_not_read_in_time_is_found_and_one_that_is_is_not() {
        type Case<'a> = (&'a str, &'a dyn Fn(&mut Liveness), Option<Mono>);
        let cases: &[Case] = &[
            ("read at the last moment", &|l| l.read(s(69)), None),
            ("never", &|_| (), Some(s(10))),
            ("wrong in between", &|l| l.stands(s(40), Stands::Wrong), None),
            (
                "read, and then not any more",
                &|l| {
                    l.read(s(20));
                    l.stands(s(81), Stands::Well);
                },
                Some(s(20)),
            ),
        ];
        for (what, between, want) in cases {
            let mut live = watch(&firmware::ORIGINAL_21);
            live.read(s(5));
            live.stands(s(10), Stands::Well);
            between(&mut live);
            live.stands(s(70), Stands::Well);
            assert_eq!(live.mute().filter(|_| *what == "never"), None, "{what}: 60 s are in time");
            live.stands(s(71), Stands::Well);
            assert_eq!(live.mute(), *want, "{what}");
        }
        let mut dead = watch(&firmware::DEAD);
        dead.stands(s(0), Stands::Well);
        dead.stands(s(1_000), Stands::Well);
        assert_eq!(dead.mute(), None, "nothing can be read through it");
    }

    #[test]
    fn faults_end_at_a_drawn_moment_and_sooner_ones_sooner() {
        let sheet = crate::embedded::six_speed();
        let mut ends = Vec::new();
        for seed in 0..200 {
            let mut setup = Setup::named(None, &sheet, None, seed);
            setup.faults = vec![
                Fault::new(FaultKind::NoData, 30),
                Fault { lasts: Some(Duration::from_secs(1)), ..Fault::new(FaultKind::BusAsleep, 30) },
                Fault::new(FaultKind::SensorFrozen, 30),
            ];
            let ended = setup.clone().with_faults_that_end();
            assert_eq!(ended, setup.clone().with_faults_that_end(), "by its seed");
            assert_eq!(ended.faults[1].lasts, Some(Duration::from_secs(1)));
            assert_eq!(ended.faults[2], setup.faults[2], "a sensor stays as it is");
            ends.extend(ended.faults[0].lasts.map(|lasts| lasts.as_millis()));
        }
        assert!(ends.iter().all(|ms| (2_000..=60_000).contains(ms)), "{ends:?}");
        assert!(ends.iter().any(|ms| *ms < 10_000) && ends.iter().any(|ms| *ms > 50_000));
    }
}
