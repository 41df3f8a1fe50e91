//! Is the vehicle driven, and how hard does its engine work? Coolant of a driven car and of one that idles warm at
//! very different rates, so a forecast must know which it looks at.
//!
//! In: vehicle speed, engine speed and, where a log has it, the air flow into the engine. Out: running means of speed
//! and effort, and whether it has moved lately. Not here: what follows from them (`learned.rs`).
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
    mean_speed: Mean,
    mean_effort: Mean,
    long_effort: Mean,
    moved: Option<Mono>,
}

#[derive(Debug, Clone, Copy)]
struct Sampled {
    at: Mono,
    value: f64,
}

/// A running mean that forgets with a time constant.
#[derive(Debug, Clone, Copy, Default)]
struct Mean {
    since: Option<Mono>,
    value: f64,
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
        self.mean_speed.take(at, kmh, SPEED_S);
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

    /// Mean speed, km/h.
    pub(crate) const fn mean_speed(&self) -> f64 {
        self.mean_speed.value
    }

    /// Mean effort of the last seconds and of the last minutes, g/s of air. `None` where nothing tells.
    pub(crate) fn effort(&self) -> Option<(f64, f64)> {
        self.mean_effort.since.map(|_| (self.mean_effort.value, self.long_effort.value))
    }

    fn work(&mut self, at: Mono) {
        if let Some(effort) = self.effort_at(at) {
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
        match self.since.filter(|&since| at.since(since) <= FORGOTTEN) {
            Some(since) => {
                let weight = -(-at.since(since).as_secs_f64() / time_constant_s).exp_m1();
                self.value += (value - self.value) * weight;
            }
            None => self.value = value,
        }
        self.since = Some(at);
    }
}

/// Effort from engine speed, traction and air drag, g/s of air: least squares on 31 recorded drives of one car
/// (fixtures/warmups), 30 s means, explains 78 % of what the air flow meter saw.
const PER_THOUSAND_RPM: f64 = 10.1;
const PER_TRACTION: f64 = 1.675;
const PER_CUBE: f64 = 0.266;
/// Time constants of the running means, s. Tried on the recordings.
const EFFORT_S: f64 = 15.0;
const LONG_S: f64 = 300.0;
const SPEED_S: f64 = 25.0;
/// After a gap longer than this a mean begins anew.
const FORGOTTEN: Duration = Duration::from_secs(120);
/// Readings further apart than this are not put together.
const TOGETHER: Duration = Duration::from_secs(5);
/// A speed older than this is not known.
const SPEED_KNOWN: Duration = Duration::from_secs(10);
/// A vehicle that stood for longer than this is no longer driven: no traffic light, a bay.
const DRIVEN_FOR: Duration = Duration::from_secs(180);
/// From here on it moves.
const MOVES_KMH: f64 = 3.0;
const STANDS_BELOW_RPM: f64 = 300.0;
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
