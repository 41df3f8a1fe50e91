//! A bay wired to a simulated vehicle, as the daemon does it, on simulated time: bytes both ways, a port that closes and is
//! opened again, all work of an instant before the next.

#![allow(dead_code, reason = "each test uses its part of it")]

use std::time::Duration;

use events::{Body, Event, Precondition, Quantity, Reason, Request, Sheet, Task, Told, Utc, Verdict};
use rehearsal::{Bus, Car, Fault, SerialLine, Vehicle, World, firmware};
use service::{Bay, Moment};
use units::{Celsius, Degrees, Millilitres, Mono};

/// As in the daemon: a port that was closed is opened again after this.
pub(crate) const REOPEN: Duration = Duration::from_millis(250);

pub(crate) fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

/// The usual vehicle and adapter, all of it at `celsius`.
pub(crate) fn usual_car(sheet: &Sheet, celsius: f64, faults: &[Fault]) -> Car {
    let world = World::new(sheet, Vehicle::typical(sheet, celsius), None, faults, 7);
    Car::on(Bus::usual(), world, sheet, firmware::ALL[0], SerialLine::USUAL, 7)
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
    /// All that was told, until somebody takes it out.
    pub(crate) events: Vec<Event>,
    said: u32,
    /// The bay's clock is so far behind the vehicle's.
    behind: Duration,
}

impl Wired {
    pub(crate) fn new(sheet: &Sheet, car: Car) -> Self {
        Self::at(Bay::new(sheet.clone(), events::Seq(1), 0), car, Mono::ZERO)
    }

    /// A bay that starts at `now`, its port closed.
    pub(crate) fn at(bay: Bay, car: Car, now: Mono) -> Self {
        let behind = Duration::ZERO;
        let mut wired =
            Self { bay, car, now, open: false, reopen: now, tried: now, events: Vec::new(), said: 0, behind };
        wired.bay.boot("test", "0", wired.moment());
        wired
    }

    /// The time by the bay's own clock.
    pub(crate) fn moment(&self) -> Moment {
        moment(Mono::ZERO.after(self.now.since(Mono::ZERO).saturating_sub(self.behind)))
    }

    /// Another daemon takes over after `gap`, its clock so far `behind` the one before; `start` makes its bay from what the one
    /// before wrote.
    pub(crate) fn succeeded(
        mut self,
        gap: Duration,
        behind: Duration,
        start: impl FnOnce(&[Event], Moment) -> Bay,
    ) -> Self {
        self.car.host_closed(self.now);
        let until = self.now.after(gap);
        while self.now < until {
            self.now = self.now.after(Duration::from_millis(100));
            self.car.handle_timeout(self.now);
        }
        self.behind += behind;
        (self.open, self.reopen, self.tried) = (false, self.now, self.now);
        let events = core::mem::take(&mut self.events);
        self.bay = start(&events, self.moment());
        self.bay.boot("again", "0", self.moment());
        self
    }

    pub(crate) fn close(&mut self, why: &str) {
        (self.open, self.reopen, self.tried) = (false, self.now.after(REOPEN), self.now);
        self.car.host_closed(self.now);
        self.bay.link_closed(why, self.moment());
    }

    /// All work of this instant.
    pub(crate) fn settle(&mut self) {
        self.car.handle_timeout(self.now);
        self.bay.wake(self.moment());
        for _ in 0..1_000 {
            let mut worked = false;
            while let Some(bytes) = self.bay.poll_bytes(self.moment()) {
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
                self.bay.link_opened(None, self.moment());
                worked = true;
            }
            while let Some(bytes) = self.car.poll_transmit(self.now) {
                if self.open {
                    self.bay.bytes(&bytes, self.moment());
                }
                worked = true;
            }
            while let Some(event) = self.bay.poll_event() {
                self.events.push(event);
            }
            if !worked {
                return;
            }
        }
    }

    /// Time passes in tenths of a second.
    pub(crate) fn pass(&mut self, until: Mono) {
        while self.now < until {
            self.step();
        }
    }

    /// A tenth of a second.
    pub(crate) fn step(&mut self) {
        self.now = self.now.after(Duration::from_millis(100));
        self.settle();
    }

    pub(crate) fn tell(&mut self, request: Request) {
        self.said += 1;
        let id = format!("{}-{}", self.now, self.said);
        self.bay.tell(&Told { id, by: None, request }, self.moment());
        self.settle();
    }

    pub(crate) fn confirm(&mut self, all: &[Precondition]) {
        all.iter().for_each(|&what| self.tell(Request::Confirm { what }));
    }

    pub(crate) fn verdict(&self) -> (Verdict, Vec<Reason>) {
        let snapshot = self.bay.snapshot(self.moment());
        (snapshot.verdict, snapshot.reasons)
    }

    /// Until the verdict is `go`.
    pub(crate) fn go(&mut self, until: Mono) -> bool {
        while self.now < until && self.verdict().0 != Verdict::Go {
            self.step();
        }
        self.verdict().0 == Verdict::Go
    }

    /// When this was read last.
    pub(crate) fn read(&self, quantity: Quantity) -> Option<Mono> {
        let is = |event: &&Event| matches!(&event.body, Body::Reading(r) if r.measure.quantity() == quantity);
        self.events.iter().rev().find(is).map(|event| event.mono_ms)
    }

    /// The whole job up to the warm-up, the link being up; it all stands at `celsius`.
    pub(crate) fn begin(&mut self, sheet: &Sheet, celsius: f64) {
        use Precondition as P;
        self.pass(Mono::from_secs(20));
        let tenth = Degrees::clamped(0.1);
        let celsius = Some(Celsius::clamped(celsius));
        let drained = sheet.fluid.drain_ml;
        self.tell(Request::Start { job: Task::Change, people: events::People::Two });
        self.confirm(&[P::OnStands, P::Parked, P::ExhaustOutside]);
        self.tell(Request::Level { pitch_degrees: tenth, roll_degrees: tenth });
        self.confirm(&[P::StartedCold, P::FluidRight, P::FillPortOpen]);
        self.tell(Request::Drained { millilitres: Millilitres::clamped(drained), celsius });
        self.confirm(&[P::PipeIn]);
        let filled = Millilitres::clamped(drained + sheet.fluid.margin_ml);
        self.tell(Request::Filled { millilitres: filled, celsius });
        self.confirm(&[P::ClosedUp, P::Clear]);
        self.car.world_mut().start_engine();
        self.pass(self.now.after(Duration::from_secs(5)));
        self.rounds();
    }

    /// The brake is held and the selector moved.
    pub(crate) fn rounds(&mut self) {
        self.confirm(&[Precondition::BrakeHeld, Precondition::SelectorCycled]);
    }
}
