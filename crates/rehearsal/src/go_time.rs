//! How long the verdict was `go`, how much of that was false, and how long it was withheld from a healthy signal.
//!
//! In: at each instant the true world, the verdict with its reasons, whether the signal is healthy (`observer.rs`). Out:
//! [`Times`], of one rehearsal. An instant lasts until the next one.
//! **False acceptance** is what JCGM 106:2012 calls so: accepted with the true value outside the tolerance, here `go`
//! with the true signal outside the band, by however little. The guard excuses nothing.
//! **False wait** is its other side: everything is well and a plain guard band (the band less `k·u` of a fresh reading,
//! nothing for age, pace or doubt) accepts what the display shows, and the verdict is not `go`.
//! Not here: whether one moment of `go` was worse than was stated (`stage.rs`), the claims (`campaign.rs`).

use core::time::Duration;
use std::collections::BTreeMap;

use events::{Reason, Sheet, Signal, Verdict};
use units::Mono;

use crate::sensors::Counting;
use crate::thermal::Engine;
use crate::world::{World, true_signal};

/// What one rehearsal came to, in time.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Times {
    /// The verdict was `go`, and the look had a band.
    pub go: Duration,
    /// And the true signal lay outside the band.
    pub outside: Duration,
    /// The farthest that it lay outside during a `go`, K, and when.
    pub worst: Option<(f64, Mono)>,
    /// A healthy signal lay in the plain guard band, the engine idling and nothing open.
    pub plain: Duration,
    /// How much of that had no `go`, by what stood first against it.
    pub withheld: BTreeMap<&'static str, Duration>,
    /// Passes through the band with a healthy signal that had a `go`, and how many of them had one only.
    pub climbs: Climbs,
}

/// Passes through the band.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Climbs {
    /// With a `go`.
    pub all: u64,
    /// With one only: it did not come and go.
    pub once: u64,
}

impl Times {
    /// How long `go` was withheld, whatever the reason.
    pub fn withheld_in_all(&self) -> Duration {
        self.withheld.values().sum()
    }

    /// These and those of another rehearsal.
    pub fn add(&mut self, other: &Self) {
        self.go += other.go;
        self.outside += other.outside;
        self.worst = self.worst.into_iter().chain(other.worst).max_by(|one, other| one.0.total_cmp(&other.0));
        self.plain += other.plain;
        for (cause, time) in &other.withheld {
            *self.withheld.entry(cause).or_default() += *time;
        }
        self.climbs.all += other.climbs.all;
        self.climbs.once += other.climbs.once;
    }
}

/// The verdict at one instant.
#[derive(Debug, Clone, Copy)]
pub struct Ruling<'a> {
    /// It.
    pub verdict: Verdict,
    /// Why.
    pub reasons: &'a [Reason],
    /// A job runs, nothing is open, and the signal is one that a program can read and believe.
    pub healthy: bool,
}

/// Watches one rehearsal.
#[derive(Debug, Clone)]
pub struct GoTime {
    signal: Signal,
    band: [f64; 2],
    plain: [f64; 2],
    shows: Shows,
    last: Option<(Mono, Instant)>,
    climb: Option<Climb>,
    times: Times,
}

/// How a value comes to be shown, K.
#[derive(Debug, Clone, Copy)]
struct Shows {
    step: f64,
    offset: f64,
}

/// What the time from one instant on counts as.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Instant {
    go: bool,
    outside: bool,
    /// `go` was due by the plain guard band; what stood against it.
    due: Option<Option<&'static str>>,
}

#[derive(Debug, Clone, Copy)]
struct Climb {
    goes: u64,
    went: bool,
}

impl GoTime {
    /// Of a rehearsal after this sheet.
    pub fn new(sheet: &Sheet) -> Self {
        let signal = sheet.check.signal;
        let shows = match (signal, &sheet.identifier) {
            (Signal::Fluid, Some(identifier)) => {
                Shows { step: identifier.scale.abs().max(0.01), offset: identifier.offset }
            }
            _ => Shows { step: 1.0, offset: 0.0 },
        };
        let [low, high] = sheet.check.band_c;
        let guard = sheet.check.k * plain_u(signal, shows.step);
        Self {
            signal,
            band: [low, high],
            plain: [low + guard, high - guard],
            shows,
            last: None,
            climb: None,
            times: Times::default(),
        }
    }

    /// One instant.
    pub fn see(&mut self, now: Mono, world: &World, said: Ruling<'_>) {
        if let Some((then, instant)) = self.last {
            self.count(now.since(then), instant);
        }
        let truly = true_signal(world, self.signal);
        let [low, high] = self.band;
        let outside_k = (low - truly).max(truly - high);
        // A look that asks for no temperature has no band to be outside of.
        let banded = !said.reasons.contains(&Reason::NoBand);
        let go = said.verdict == Verdict::Go && banded;
        if go && outside_k > 0.0 && self.times.worst.is_none_or(|(worst, _)| outside_k > worst) {
            self.times.worst = Some((outside_k, now));
        }
        let idles = world.engine() == Engine::Running && world.shown().speed_kmh == 0.0;
        let well = banded && said.healthy && idles && outside_k <= 0.0;
        let accepted = self.plain[0] <= self.shown(world) && self.shown(world) <= self.plain[1];
        let due = (well && accepted).then(|| (!go).then(|| cause(said.reasons, world)));
        self.climb(well, go);
        self.last = Some((now, Instant { go, outside: go && outside_k > 0.0, due }));
    }

    /// What it came to.
    pub fn into_times(mut self) -> Times {
        self.climb(false, false);
        self.times
    }

    fn count(&mut self, time: Duration, instant: Instant) {
        if instant.go {
            self.times.go += time;
        }
        if instant.outside {
            self.times.outside += time;
        }
        if let Some(withheld) = instant.due {
            self.times.plain += time;
            if let Some(cause) = withheld {
                *self.times.withheld.entry(cause).or_default() += time;
            }
        }
    }

    /// A pass goes on for as long as all is well.
    fn climb(&mut self, well: bool, go: bool) {
        if well {
            let climb = self.climb.get_or_insert(Climb { goes: 0, went: false });
            climb.goes += u64::from(go && !climb.went);
            climb.went = go;
        } else if let Some(climb) = self.climb.take()
            && climb.goes > 0
        {
            self.times.climbs.all += 1;
            self.times.climbs.once += u64::from(climb.goes == 1);
        }
    }

    /// What stands on the display: whole counts. Where a person reads, what is there to be read.
    fn shown(&self, world: &World) -> f64 {
        let Shows { step, offset } = self.shows;
        match self.signal {
            Signal::Fluid => {
                let less = if world.counting() == Counting::Truncated { 0.5 } else { 0.0 };
                ((world.shown().fluid_celsius - offset) / step - less).round() * step + offset
            }
            Signal::Coolant => world.shown().coolant_celsius.round(),
            Signal::Spot | Signal::Display | Signal::Lamp => world.fluid_celsius(),
        }
    }
}

/// What stood first against `go`. The wait after a start has no reason of its own.
fn cause(reasons: &[Reason], world: &World) -> &'static str {
    match reasons.first() {
        Some(Reason::Hysteresis) if world.shown().run_s < MIXING_S => MIXING,
        Some(reason) => reason.word(),
        None => "no-reason",
    }
}

/// The standard uncertainty of a fresh reading and of nothing else, K: its step, rounding or cutting off, the sensor to
/// ±1 K (docs/gate.md, "Estimate"). What a person reads: as the ideal observer has it.
fn plain_u(signal: Signal, step: f64) -> f64 {
    match signal {
        Signal::Fluid | Signal::Coolant => (step * step / 6.0 + SENSOR_K * SENSOR_K / 3.0).sqrt(),
        Signal::Spot | Signal::Display | Signal::Lamp => crate::observer::best_u(signal),
    }
}

/// Half width of a sensor's accuracy, K.
/// Source: docs/gate.md, "Estimate": ±1 K, from memory.
const SENSOR_K: f64 = 1.0;
/// The engine has run for less than this: the gate waits until the fluid has mixed.
/// Source: docs/gate.md, "After a pause": 90 s, and the polls that see its start.
const MIXING_S: f64 = 92.0;
const MIXING: &str = "mixing";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::embedded;
    use crate::world::Vehicle;

    /// A vehicle whose fluid has stood at `celsius` for long, its engine just started.
    fn at(celsius: f64) -> World {
        let sheet = embedded::six_speed();
        let vehicle = Vehicle::typical(&sheet, celsius);
        let mut world = World::new(&sheet, vehicle, None, &[], 1);
        world.start_engine();
        world
    }

    fn seen(script: &[(u64, f64, Verdict, &[Reason])]) -> Times {
        let mut time = GoTime::new(&embedded::six_speed());
        for &(second, celsius, verdict, reasons) in script {
            let said = Ruling { verdict, reasons, healthy: true };
            time.see(Mono::from_secs(second), &at(celsius), said);
        }
        time.into_times()
    }

    #[test]
    fn a_go_outside_the_band_is_false_by_however_little() {
        let [low, _] = embedded::six_speed().check.band_c;
        let go = [Reason::InBand];
        let times = seen(&[
            (0, low - 0.1, Verdict::Go, &go),
            (2, low + 0.1, Verdict::Go, &go),
            (12, low - 0.3, Verdict::Wait, &[Reason::GuardBand]),
            (20, low, Verdict::Wait, &[Reason::GuardBand]),
        ]);
        assert_eq!((times.go, times.outside), (Duration::from_secs(12), Duration::from_secs(2)));
        assert!(times.worst.is_some_and(|(k, at)| (k - 0.1).abs() < 1e-9 && at == Mono::ZERO), "{times:?}");
    }

    #[test]
    fn a_wait_in_the_plain_guard_band_is_false_and_has_its_cause() {
        let sheet = embedded::six_speed();
        let middle = sheet.check.middle().to_f64();
        let times = seen(&[
            (0, middle, Verdict::Wait, &[Reason::Frozen]),
            (4, middle, Verdict::Go, &[Reason::InBand]),
            (10, middle, Verdict::Wait, &[Reason::Hysteresis]),
            (11, middle, Verdict::Go, &[Reason::InBand]),
            // At the edge nobody owes a `go`.
            (20, sheet.check.band_c[0] + 0.2, Verdict::Wait, &[Reason::GuardBand]),
            (30, middle, Verdict::Wait, &[Reason::NoBand]),
            (40, 0.0, Verdict::Wait, &[Reason::BelowBand]),
        ]);
        assert_eq!(times.plain, Duration::from_secs(20));
        let waits: Vec<(&str, u64)> = times.withheld.iter().map(|(why, t)| (*why, t.as_secs())).collect();
        assert_eq!(waits, [("frozen", 4), (MIXING, 1)]);
        assert_eq!(times.climbs, Climbs { all: 1, once: 0 }, "it came twice");
    }

    #[test]
    fn a_plain_guard_band_of_whole_degrees_is_that_of_seven_tenths() {
        assert!((plain_u(Signal::Fluid, 1.0) - 0.707).abs() < 0.001);
        assert!(plain_u(Signal::Fluid, 0.1) < 0.6);
    }
}
