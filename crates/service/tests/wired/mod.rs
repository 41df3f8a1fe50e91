//! A bay wired to a simulated vehicle, as the daemon does it, on simulated time: bytes both ways, a port that closes and is
//! opened again, all work of an instant before the next.

#![allow(dead_code, reason = "each test uses its part of it")]

use std::time::Duration;

use events::{Event, Sheet, Utc};
use rehearsal::Car;
use service::{Bay, Moment};
use units::Mono;

/// As in the daemon: a port that was closed is opened again after this.
pub(crate) const REOPEN: Duration = Duration::from_millis(250);

pub(crate) fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

pub(crate) struct Wired {
    pub(crate) bay: Bay,
    pub(crate) car: Car,
    pub(crate) now: Mono,
    /// Whether the port is open.
    pub(crate) open: bool,
    /// When it is opened again.
    pub(crate) reopen: Mono,
    /// When a line left last, or something became of the port.
    pub(crate) tried: Mono,
}

impl Wired {
    pub(crate) fn new(sheet: &Sheet, car: Car) -> Self {
        let mut bay = Bay::new(sheet.clone(), events::Seq(1), 0);
        bay.boot("test", "0", moment(Mono::ZERO));
        Self { bay, car, now: Mono::ZERO, open: false, reopen: Mono::ZERO, tried: Mono::ZERO }
    }

    pub(crate) fn close(&mut self, why: &str) {
        (self.open, self.reopen, self.tried) = (false, self.now.after(REOPEN), self.now);
        self.car.host_closed(self.now);
        self.bay.link_closed(why, moment(self.now));
    }

    /// All work of this instant; what happened goes to `heed`.
    pub(crate) fn settle(&mut self, mut heed: impl FnMut(&Event)) {
        self.car.handle_timeout(self.now);
        self.bay.wake(moment(self.now));
        for _ in 0..1_000 {
            let mut worked = false;
            while let Some(bytes) = self.bay.poll_bytes(moment(self.now)) {
                if self.open {
                    self.car.handle_bytes(&bytes, self.now);
                    self.tried = self.now;
                }
                worked = true;
            }
            if self.bay.wants_reopen() {
                self.close("the adapter does not answer");
                worked = true;
            } else if self.open && !self.car.plugged() {
                self.close("its port closed");
                worked = true;
            } else if !self.open && self.reopen <= self.now && self.car.plugged() {
                (self.open, self.tried) = (true, self.now);
                self.car.host_opened(self.now);
                self.bay.link_opened(None, moment(self.now));
                worked = true;
            }
            while let Some(bytes) = self.car.poll_transmit(self.now) {
                if self.open {
                    self.bay.bytes(&bytes, moment(self.now));
                }
                worked = true;
            }
            while let Some(event) = self.bay.poll_event() {
                heed(&event);
            }
            if !worked {
                return;
            }
        }
    }
}
