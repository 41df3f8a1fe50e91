//! The engine is stopped and started while nobody sees it: adapter pulled, vehicle silent, a link that passes nothing. The daemon
//! runs on and has its history, and what the start mixes must not meet an open port. All on simulated time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod wired;

use std::time::Duration;

use events::{Body, People, Precondition, Quantity, Reason, Request, Sheet, Task, Told, Verdict};
use rehearsal::{Bus, Car, Fault, FaultKind, SerialLine, Vehicle, World, embedded, firmware};
use units::{Celsius, Degrees, Millilitres, Mono};
use wired::{Wired, moment};

/// What a start asks for (docs/gate.md, "After a pause").
const MIXES_FOR: Duration = Duration::from_secs(90);
/// A link that is well again is read, and has told how long the engine has run, within this.
const TOLD_WITHIN: Duration = Duration::from_secs(30);
/// Where the sump has cooled a little meanwhile it must warm again.
const WINDOW_WITHIN: Duration = Duration::from_secs(600);
/// A warm day: the warm-up is short.
const START_C: f64 = 28.0;

fn after(at: Mono, seconds: u64) -> Mono {
    at.after(Duration::from_secs(seconds))
}

struct Play {
    wired: Wired,
    sheet: Sheet,
    told: u32,
    /// When the engine's speed was read last, and the fluid.
    engine_read: Option<Mono>,
    fluid_read: Option<Mono>,
}

impl Play {
    fn new(faults: &[Fault]) -> Self {
        let sheet = embedded::six_speed();
        let world = World::new(&sheet, Vehicle::typical(&sheet, START_C), None, faults, 7);
        let car = Car::on(Bus::usual(), world, &sheet, firmware::ALL[0], SerialLine::USUAL, 7);
        Self { wired: Wired::new(&sheet, car), sheet, told: 0, engine_read: None, fluid_read: None }
    }

    fn settle(&mut self) {
        let now = self.wired.now;
        self.wired.settle(|event| {
            let Body::Reading(reading) = &event.body else { return };
            match reading.measure.quantity() {
                Quantity::EngineSpeed => self.engine_read = Some(now),
                Quantity::FluidTemperature => self.fluid_read = Some(now),
                _ => {}
            }
        });
    }

    /// One step of time, at most a tenth of a second.
    fn step(&mut self) {
        self.wired.now = self.wired.now.after(Duration::from_millis(100));
        self.settle();
    }

    fn pass(&mut self, until: Mono) {
        while self.wired.now < until {
            self.step();
        }
    }

    fn tell(&mut self, request: Request) {
        self.told += 1;
        self.wired.bay.tell(&Told { id: self.told.to_string(), by: None, request }, moment(self.wired.now));
        self.settle();
    }

    fn confirm(&mut self, all: &[Precondition]) {
        all.iter().for_each(|&what| self.tell(Request::Confirm { what }));
    }

    fn verdict(&self) -> (Verdict, Vec<Reason>) {
        let snapshot = self.wired.bay.snapshot(moment(self.wired.now));
        (snapshot.verdict, snapshot.reasons)
    }

    /// The whole job up to the warm-up, the link being up.
    fn begin(&mut self) {
        use Precondition as P;
        self.pass(Mono::from_secs(20));
        let tenth = Degrees::clamped(0.1);
        let celsius = Some(Celsius::clamped(START_C));
        let drained = self.sheet.fluid.drain_ml;
        self.tell(Request::Start { job: Task::Change, people: People::Two });
        self.confirm(&[P::OnStands, P::Parked, P::ExhaustOutside]);
        self.tell(Request::Level { pitch_degrees: tenth, roll_degrees: tenth });
        self.confirm(&[P::StartedCold, P::FluidRight, P::FillPortOpen]);
        self.tell(Request::Drained { millilitres: Millilitres::clamped(drained), celsius });
        self.confirm(&[P::PipeIn]);
        let filled = Millilitres::clamped(drained + self.sheet.fluid.margin_ml);
        self.tell(Request::Filled { millilitres: filled, celsius });
        self.confirm(&[P::ClosedUp, P::Clear]);
        self.wired.car.world_mut().start_engine();
        self.pass(after(self.wired.now, 5));
        self.confirm(&[P::BrakeHeld, P::SelectorCycled]);
    }

    /// Until the verdict is `go`.
    fn go(&mut self, until: Mono) -> bool {
        while self.wired.now < until && self.verdict().0 != Verdict::Go {
            self.step();
        }
        self.verdict().0 == Verdict::Go
    }
}

/// How the link goes, and comes back by itself after this.
const AWAY: [(FaultKind, u64); 8] = [
    (FaultKind::AdapterUnplugged, 12),
    (FaultKind::AdapterUnplugged, 20),
    (FaultKind::AdapterUnplugged, 100),
    (FaultKind::IgnitionOff, 40),
    (FaultKind::HalfOpen, 12),
    (FaultKind::HalfOpen, 60),
    (FaultKind::BusAsleep, 12),
    (FaultKind::BusAsleep, 30),
];

#[test]
fn an_engine_that_was_stopped_unseen_is_waited_out_and_one_that_ran_on_is_not() {
    let mut plain = Play::new(&[]);
    plain.begin();
    assert!(plain.go(Mono::from_secs(3_000)), "{:?}", plain.verdict());
    let from = after(plain.wired.now, 60);
    for (kind, seconds) in AWAY {
        for stops in [true, false] {
            let lasts = Some(Duration::from_secs(seconds));
            let fault = Fault { lasts, ..Fault::new(kind, from.as_millis() / 1_000) };
            let what =
                format!("{kind} for {seconds} s, the engine {}", if stops { "stopped" } else { "ran" });
            let mut play = Play::new(&[fault]);
            play.begin();
            assert!(play.go(from), "{what}: {:?}", play.verdict());
            play.pass(after(from, 2));
            if stops {
                play.wired.car.world_mut().stop_engine();
            }
            play.pass(after(from, seconds - 2));
            play.wired.car.world_mut().start_engine();
            let well = after(from, seconds);
            play.pass(well);
            assert_eq!(play.verdict().0, Verdict::Wait, "{what}");
            let opened = play.go(well.after(TOLD_WITHIN));
            assert!(play.fluid_read.min(play.engine_read) > Some(well), "{what}: read again");
            if !stops {
                assert!(opened, "{what}: {:?}", play.verdict());
                continue;
            }
            assert!(!opened, "{what}: `go` at {}, well since {well}", play.wired.now);
            // After a long silence the signal has other doubts, too.
            let reasons = play.verdict().1;
            assert!(seconds > 40 || reasons == [Reason::Hysteresis], "{what}: {reasons:?}");
            assert!(play.go(well.after(WINDOW_WITHIN)), "{what}: {:?}", play.verdict());
            assert!(play.wired.now >= well.after(MIXES_FOR), "{what}: `go` at {}", play.wired.now);
        }
    }
}
