//! An ideal observer: could the verdict have been `go` in this rehearsal, judged by the truth?
//!
//! In: at each instant the true world, the program's own list of what is open, the link. Out: [`Possible`], once
//! everything has been well for [`long_enough`] in a row. It knows more than any program: the true temperature, which
//! faults hold and what the sensor shows before it is put into bytes. So a `go` that was possible and never came was
//! missed, by gate or link.
//!
//! Well is: a job runs and the program itself lists nothing as open; the true signal lies in the band; what the sensor
//! shows lies in the guarded band of the best estimate that can be had (JCGM 106:2012, guarded acceptance), with
//! [`best_u`]; no sensor fault acts on the signal; the firmware can be read, and the sheet's address has the form of
//! the bus; the link is there and no fault holds, or has only just ended, that takes readings away.
//! Not here: what was said in the end (`stage.rs`), the counting over many runs (`campaign.rs`).

use std::time::Duration;

use events::{Check, Reason, Sheet, Signal};
use units::Mono;

use crate::bus::Bus;
use crate::car::Car;
use crate::fault::{Fault, FaultKind};
use crate::firmware::{Firmware, Habit};
use crate::world::Plug;
use crate::world::true_signal;

/// `go` was possible.
#[derive(Debug, Clone, PartialEq)]
pub struct Possible {
    /// When it had been for long enough.
    pub at: Mono,
    /// What the program had against it then.
    pub reasons: Vec<Reason>,
}

/// Watches one rehearsal.
#[derive(Debug, Clone)]
pub struct Observer {
    check: Check,
    reads: bool,
    /// There is no adapter that could be missing.
    people: bool,
    since: Option<Mono>,
    possible: Option<Possible>,
}

impl Observer {
    /// Of a rehearsal after this sheet, through this firmware, on this bus.
    pub fn new(sheet: &Sheet, firmware: &Firmware, bus: &Bus, people: bool) -> Self {
        let reads = people || (can_be_read(firmware) && can_be_addressed(sheet, bus));
        Self { check: sheet.check.clone(), reads, people, since: None, possible: None }
    }

    /// One instant. `clear`: a job runs, and the program lists nothing as open. `reasons`: what it has against `go`.
    pub fn see(&mut self, now: Mono, car: &Car, clear: bool, reasons: &[Reason]) {
        if self.possible.is_some() {
            return;
        }
        if !(clear && self.is_well(now, car)) {
            self.since = None;
            return;
        }
        let since = *self.since.get_or_insert(now);
        if now.since(since) >= long_enough(self.check.signal) {
            self.possible = Some(Possible { at: now, reasons: reasons.to_vec() });
        }
    }

    /// Whether and when `go` was possible.
    pub fn into_possible(self) -> Option<Possible> {
        self.possible
    }

    /// Whether the signal is one that a program can read and believe now, wherever it lies: no fault acts on it, and it
    /// comes.
    pub fn is_healthy(&self, now: Mono, car: &Car) -> bool {
        let signal = self.check.signal;
        self.reads
            && (signal != Signal::Fluid || car.world().sensor_fault().is_none())
            && (self.people || is_there(car, signal, now))
    }

    fn is_well(&self, now: Mono, car: &Car) -> bool {
        let world = car.world();
        let signal = self.check.signal;
        let [low, high] = self.check.band_c;
        let guard = self.check.k * best_u(signal);
        let truly = true_signal(world, signal);
        let shown = match signal {
            Signal::Fluid => world.shown().fluid_celsius,
            Signal::Coolant => world.shown().coolant_celsius,
            // He reads the tape often enough; what he makes of it is estimated from the truth with errors of its own.
            Signal::Spot | Signal::Display | Signal::Lamp => truly,
        };
        (low..=high).contains(&truly)
            && (low + guard..=high - guard).contains(&shown)
            && self.is_healthy(now, car)
    }
}

/// The adapter is there, and nothing keeps its readings away.
fn is_there(car: &Car, signal: Signal, now: Mono) -> bool {
    let world = car.world();
    world.adapter() == Plug::In
        && car.plugged()
        && !world.faults().iter().any(|fault| takes_readings(fault, signal, now))
}

/// How long everything must be well before `go` counts as possible: the gate wants three seconds and three readings,
/// the link may be busy for ten more with what the campaign does to it (docs/adapters.md, the usual gap), and half a
/// minute is what a technician under the vehicle can use at all. A thermometer is read every twenty seconds, and two
/// readings half a minute apart are wanted.
pub const fn long_enough(signal: Signal) -> Duration {
    Duration::from_secs(match signal {
        Signal::Fluid | Signal::Coolant => 30,
        Signal::Spot | Signal::Display | Signal::Lamp => 60,
    })
}

/// The best standard uncertainty of a fresh reading, K: limits of ±1 K of the sensor and whole degrees (JCGM 100: a/√3
/// and q/√12); of tape, the physics reference, section 8.
pub const fn best_u(signal: Signal) -> f64 {
    match signal {
        Signal::Fluid | Signal::Coolant => 0.645,
        Signal::Spot => 1.2,
        Signal::Display => 2.1,
        // It is its own band; its edges may be off.
        Signal::Lamp => 1.0,
    }
}

/// Whether this vehicle can be read through it: two control units answer, so a reply must name its sender. One that
/// serves a single link is not counted on: after a loss only a hand helps.
pub fn can_be_read(firmware: &Firmware) -> bool {
    firmware.reads() && !firmware.has(Habit::HeadersStay) && !firmware.has(Habit::FirstLinkOnly)
}

/// Whether the sheet's address has the form of the bus. A sheet names the control unit by the address that it has on
/// the bus of its vehicle; the campaign draws other buses too, on which nobody but the simulation knows where that unit
/// is.
pub fn can_be_addressed(sheet: &Sheet, bus: &Bus) -> bool {
    let eleven_bits = |header: &str| header.trim().len() == 3;
    sheet.check.signal != Signal::Fluid
        || sheet
            .identifier
            .as_ref()
            .is_some_and(|identifier| eleven_bits(&identifier.header) == (bus.form == frames::Bus::Can11))
}

/// Whether a fault falsifies the readings, keeps them away, or has done so a moment ago.
fn takes_readings(fault: &Fault, signal: Signal, now: Mono) -> bool {
    if now < fault.from {
        return false;
    }
    let seconds = match fault.kind {
        // A valid answer to what was asked that is not this vehicle's fluid, or not of now: nothing true comes any
        // more.
        FaultKind::RepeatedReply => return true,
        FaultKind::WrongEcu | FaultKind::LengthChanges => return signal == Signal::Fluid,
        // Closed again before much was read.
        FaultKind::FlakyLink => return fault.holds(now),
        _ => away_s(fault.kind),
    };
    let Some(seconds) = seconds else { return false };
    let lasts = fault.lasts.unwrap_or_default();
    let passed = now.since(fault.from);
    let passed = match fault.kind.again() {
        Some(every) if !every.is_zero() => {
            Duration::from_millis((passed.as_millis() % every.as_millis()) as u64)
        }
        _ => passed,
    };
    passed < lasts + Duration::from_secs(seconds)
}

/// How long after its end, or after it struck, readings may be away: what `docs/adapters.md` allows the link.
const fn away_s(kind: FaultKind) -> Option<u64> {
    Some(match kind {
        FaultKind::AdapterUnplugged | FaultKind::ReEnumerated => 12,
        FaultKind::CutInReply | FaultKind::SilentReset | FaultKind::LpAlert | FaultKind::HalfOpen => 15,
        // The second and third loss come after the port was opened again.
        FaultKind::RequestKillsLink | FaultKind::RequestResets => 20,
        FaultKind::BusAsleep => 20,
        FaultKind::BusInitError | FaultKind::IgnitionOff => 25,
        FaultKind::Cranking | FaultKind::Brownout => 30,
        FaultKind::RequestHangs => 90,
        FaultKind::UnableToConnect => 35,
        FaultKind::SlowSearch => 55,
        // It sleeps a minute after its alert.
        FaultKind::ActAlert => 75,
        FaultKind::LvReset
        | FaultKind::ResetInReply
        | FaultKind::BannerUnasked
        | FaultKind::ChipError
        | FaultKind::NoDataSpell
        | FaultKind::EchoReturns
        | FaultKind::FormReturns
        | FaultKind::ForeignLines
        | FaultKind::EndlessLine => 10,
        _ => return None,
    })
}
