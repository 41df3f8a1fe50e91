//! Is the vehicle driven, and how hard does its engine work? Coolant of a driven car and of one that idles warm at
//! very different rates, so a forecast must know which it looks at.
//!
//! In: vehicle speed, engine speed, coolant and, where a log has it, the air flow into the engine. Out: running means of
//! effort, whether it has moved lately, and when the last degrees were reached. Not here: what follows from them
//! (`forecast/learned/rates.rs`).
//! Method: docs/gate.md, "Driven and standing".

use core::time::Duration;

use units::Mono;

/// How the vehicle has been moving of late.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Drive {
    speed: Option<Sampled>,
    rpm: Option<Sampled>,
    air_flow: Option<Sampled>,
    /// Speed times acceleration, W/kg, none below zero.
    traction: f64,
    mean_effort: Mean,
    long_effort: Mean,
    moved: Option<Mono>,
    /// The last degrees when they were first shown, the newest first.
    degrees: [Option<Sampled>; DEGREES_KEPT],
}

#[derive(Debug, Clone, Copy)]
struct Sampled {
    at: Mono,
    value: f64,
}

/// The last few degrees that were climbed, and when.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Climbed {
    /// °C.
    pub(crate) from: f64,
    /// °C, shown now.
    pub(crate) to: f64,
    /// Seconds from `from` to `to`.
    pub(crate) seconds: f64,
    /// Seconds since `to` was first shown.
    pub(crate) since: f64,
}

/// A running mean that forgets with a time constant; while it is younger than that, the plain mean.
#[derive(Debug, Clone, Copy, Default)]
struct Mean {
    newest: Option<Mono>,
    value: f64,
    /// How long it has been taken, s.
    over_s: f64,
}

impl Drive {
    /// Vehicle speed, km/h.
    pub(crate) fn speed(&mut self, at: Mono, kmh: f64) {
        self.work(at);
        let before = self.speed.filter(|before| at > before.at && at.since(before.at) <= TOGETHER);
        self.traction = before.map_or(0.0, |before| {
            let change = (kmh - before.value) / KMH_PER_M_S / at.since(before.at).as_secs_f64();
            (kmh / KMH_PER_M_S * change).max(0.0)
        });
        self.speed = Some(Sampled { at, value: kmh });
        if kmh >= MOVES_KMH {
            self.moved = Some(at);
        }
    }

    /// Engine speed, 1/min.
    pub(crate) fn rpm(&mut self, at: Mono, rpm: f64) {
        self.rpm = Some(Sampled { at, value: rpm });
        self.work(at);
    }

    /// Air into the engine, g/s: the better measure of its heat, where there is one.
    pub(crate) fn air_flow(&mut self, at: Mono, grams_s: f64) {
        self.air_flow = Some(Sampled { at, value: grams_s });
        self.work(at);
    }

    /// Whether it is driven: its speed is known, and it moved within the last minutes.
    pub(crate) fn is_driven(&self, now: Mono) -> bool {
        let known = self.speed.is_some_and(|speed| now.since(speed.at) <= SPEED_KNOWN);
        known && self.moved.is_some_and(|moved| now.since(moved) <= DRIVEN_FOR)
    }

    /// Mean effort of the last seconds and of the last minute, g/s of air. `None` where nothing tells.
    pub(crate) fn effort(&self) -> Option<(f64, f64)> {
        self.mean_effort.newest.map(|_| (self.mean_effort.value, self.long_effort.value))
    }

    /// Coolant as it is shown, °C: a new highest degree is remembered, a fall begins anew.
    pub(crate) fn coolant(&mut self, at: Mono, celsius: f64) {
        let [newest, ..] = self.degrees;
        let fresh = newest.filter(|newest| at.since(newest.at) <= DEGREE_FORGOTTEN);
        match fresh.map(|newest| celsius - newest.value) {
            Some(rise) if rise <= -FALLEN => self.degrees = Default::default(),
            Some(rise) if rise < DEGREE => return,
            Some(_) => self.degrees.rotate_right(1),
            None => self.degrees = Default::default(),
        }
        if let Some(first) = self.degrees.first_mut() {
            *first = Some(Sampled { at, value: celsius });
        }
    }

    /// The last [`DEGREES_KEPT`] - 1 degrees. `None` until so many were climbed.
    pub(crate) fn climbed(&self, now: Mono) -> Option<Climbed> {
        let (newest, oldest) =
            self.degrees.first().copied().flatten().zip(self.degrees.last().copied().flatten())?;
        Some(Climbed {
            from: oldest.value,
            to: newest.value,
            seconds: newest.at.since(oldest.at).as_secs_f64(),
            since: now.since(newest.at).as_secs_f64(),
        })
    }

    fn work(&mut self, at: Mono) {
        let began =
            self.mean_effort.newest.is_some() || self.rpm.is_none_or(|rpm| rpm.value > STANDS_BELOW_RPM);
        if let Some(effort) = self.effort_at(at).filter(|_| began) {
            self.mean_effort.take(at, effort, EFFORT_S);
            self.long_effort.take(at, effort, LONG_S);
        }
    }

    fn effort_at(&self, at: Mono) -> Option<f64> {
        let fresh =
            |sampled: Option<Sampled>| sampled.filter(|s| at.since(s.at) <= TOGETHER).map(|s| s.value);
        if let Some(flow) = fresh(self.air_flow) {
            return Some(flow);
        }
        let rpm = fresh(self.rpm)?;
        let pulling = if rpm > STANDS_BELOW_RPM { self.traction } else { 0.0 };
        let tens = fresh(self.speed).unwrap_or(0.0) / 10.0;
        Some(PER_THOUSAND_RPM * rpm / 1_000.0 + PER_TRACTION * pulling + PER_CUBE * tens * tens * tens)
    }
}

impl Mean {
    fn take(&mut self, at: Mono, value: f64, time_constant_s: f64) {
        let before = self.newest.filter(|&newest| at.since(newest) <= FORGOTTEN);
        let weight = before.map_or(1.0, |newest| {
            let passed = at.since(newest).as_secs_f64();
            self.over_s += passed;
            let forgets = -(-passed / time_constant_s).exp_m1();
            if self.over_s > 0.0 { forgets.max(passed / self.over_s) } else { forgets }
        });
        if before.is_none() {
            self.over_s = FIRST_S;
        }
        self.value += (value - self.value) * weight;
        self.newest = Some(at);
    }
}

/// Effort from engine speed, traction and air drag, g/s of air.
/// Source: measured: least squares on 31 recorded drives of one car (fixtures/warmups), 30 s means, explains 78 % of
/// what the air flow meter saw.
const PER_THOUSAND_RPM: f64 = 10.1;
const PER_TRACTION: f64 = 1.675;
const PER_CUBE: f64 = 0.266;
/// Time constants of the running means, s.
/// Source: measured: tried on the recordings of fixtures/warmups.
const EFFORT_S: f64 = 15.0;
const LONG_S: f64 = 60.0;
/// How many degrees are remembered: one more than are counted.
/// Source: measured: 2, 3, 5 and 8 tried on the recordings of fixtures/warmups: 3 is best.
const DEGREES_KEPT: usize = 4;
/// What a degree is, K, on displays that are finer too.
/// By definition: what the table of rates counts in.
const DEGREE: f64 = 1.0;
/// Cooler than the highest by this, it is another climb, K.
/// Source: measured: in the recordings of fixtures/warmups coolant gives way by a degree or two after a start; twice
/// that.
const FALLEN: f64 = 4.0;
/// A degree that has lasted for so long tells nothing of the next.
/// Own choice: a quarter of an hour is another part of the drive.
const DEGREE_FORGOTTEN: Duration = Duration::from_secs(900);
/// What the first value of a mean stands for, s.
/// Own choice: engine speed is asked each second.
const FIRST_S: f64 = 1.0;
/// After a gap longer than this a mean begins anew.
/// Own choice: as the gate's history (`Limits::forget_after`).
const FORGOTTEN: Duration = Duration::from_secs(120);
/// Readings further apart than this are not put together.
/// Own choice: two polls of the slower of both, 2 s, and one lost.
const TOGETHER: Duration = Duration::from_secs(5);
/// A speed older than this is not known.
/// Own choice: five polls; a vehicle stops within that.
const SPEED_KNOWN: Duration = Duration::from_secs(10);
/// A vehicle that stood for longer than this is no longer driven: no traffic light, a bay.
/// Own choice: no traffic light lasts as long, a bay does.
const DRIVEN_FOR: Duration = Duration::from_secs(180);
/// From here on it moves, km/h; below so many 1/min the engine stands.
/// Own choice: rolling onto a lift is no drive; a starter turns at 150 to 300 1/min (from memory).
const MOVES_KMH: f64 = 3.0;
const STANDS_BELOW_RPM: f64 = 300.0;
/// km/h in a m/s.
/// By definition.
const KMH_PER_M_S: f64 = 3.6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_vehicle_is_driven_while_its_last_move_is_minutes_ago_and_its_speed_is_known() {
        let mut drive = Drive::default();
        let at = Mono::from_secs;
        drive.speed(at(0), 0.0);
        assert!(!drive.is_driven(at(0)), "it has not moved");
        drive.speed(at(10), 12.0);
        drive.speed(at(20), 0.0);
        assert!(drive.is_driven(at(20)));
        assert!(!drive.is_driven(at(31)), "nobody knows its speed");
        drive.speed(at(191), 0.0);
        assert!(!drive.is_driven(at(191)), "it has stood for three minutes");
    }

    #[test]
    fn an_engine_that_has_not_started_is_no_idling_and_the_first_seconds_count_alike() {
        let mut drive = Drive::default();
        for (s, rpm) in [(0, 0.0), (1, 0.0), (2, 1_000.0), (3, 2_000.0), (4, 3_000.0)] {
            drive.rpm(Mono::from_secs(s), rpm);
        }
        assert!((drive.effort().unwrap().1 - 20.2).abs() < 0.1, "{:?}", drive.effort());
    }

    #[test]
    fn the_last_degrees_are_those_that_were_reached_for_the_first_time() {
        let mut drive = Drive::default();
        let shown = [(0, 30.0), (10, 31.0), (15, 30.0), (18, 31.0), (20, 32.0), (32, 33.0)];
        for (s, celsius) in shown {
            assert_eq!(drive.climbed(Mono::from_secs(s)), None);
            drive.coolant(Mono::from_secs(s), celsius);
        }
        let want = Climbed { from: 30.0, to: 33.0, seconds: 32.0, since: 8.0 };
        assert_eq!(drive.climbed(Mono::from_secs(40)), Some(want));
        drive.coolant(Mono::from_secs(50), 29.0);
        assert_eq!(drive.climbed(Mono::from_secs(50)), None, "it cooled: another climb");
    }

    #[test]
    fn effort_is_the_air_flow_where_it_is_read_and_what_speeds_tell_where_it_is_not() {
        let mut idling = Drive::default();
        let mut metered = Drive::default();
        for s in 0..200 {
            idling.rpm(Mono::from_secs(s), 1_000.0);
            metered.rpm(Mono::from_secs(s), 1_000.0);
            metered.air_flow(Mono::from_secs(s), 30.0);
        }
        assert!((idling.effort().unwrap().0 - 10.1).abs() < 0.1);
        assert!((metered.effort().unwrap().0 - 30.0).abs() < 0.1);
        assert_eq!(Drive::default().effort(), None);
    }
}
