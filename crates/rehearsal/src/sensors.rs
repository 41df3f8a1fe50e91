//! What the control units take the vehicle for: sensors with lag, offset, noise and steps.
//!
//! In: the true state each step, the traits of one vehicle, a fault. Out: [`Shown`], the values before they are
//! put into bytes. Not here: the bytes (`ecu.rs`); the truth (`world.rs`).
//! Figures: a production fluid thermistor keeps within ±1 to ±3 °C (physics reference, thermal parameters, row
//! "sensor_limits", from memory); lag of a thermistor in a well, seconds (common practice, no source).

use crate::dice::Dice;
use crate::fault::SensorFault;
use crate::idle::Idle;
use crate::thermal::Engine;

/// The traits of one vehicle's sensors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Traits {
    /// What the fluid sensor shows too much, K.
    pub fluid_offset_k: f64,
    /// Time constant of the fluid sensor, s.
    pub fluid_lag_s: f64,
    /// Half width of the noise on the fluid value, K.
    pub fluid_noise_k: f64,
    /// How the control unit comes to whole counts.
    pub counting: Counting,
    /// What the coolant sensor shows too much, K.
    pub coolant_offset_k: f64,
    /// What the intake air sensor shows too much, K.
    pub intake_offset_k: f64,
    /// What the ambient air sensor shows too much, K.
    pub ambient_offset_k: f64,
    /// How fast the engine idles.
    pub idle: Idle,
    /// Half width of the idle's unrest, 1/min.
    pub idle_jitter_rpm: f64,
    /// Voltage with the engine off.
    pub battery_volts: f64,
}

/// How a value becomes a whole number of counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counting {
    /// The nearest count.
    Rounded,
    /// The count below: on average half a step too low.
    Truncated,
}

impl Traits {
    /// Sensors without an error, in a vehicle that idles at 720/min when warm.
    /// Source: docs/rehearsal.md, "Sensors, control units, adapter": common practice, no source.
    pub const GOOD: Self = Self {
        fluid_offset_k: 0.0,
        fluid_lag_s: 4.0,
        fluid_noise_k: 0.1,
        counting: Counting::Rounded,
        coolant_offset_k: 0.0,
        intake_offset_k: 0.0,
        ambient_offset_k: 0.0,
        idle: Idle::TYPICAL,
        idle_jitter_rpm: 8.0,
        battery_volts: 12.5,
    };
}

/// The true state that the sensors are in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truly {
    /// Fluid, °C.
    pub fluid_celsius: f64,
    /// Engine with its coolant, °C.
    pub coolant_celsius: f64,
    /// Air, °C.
    pub air_celsius: f64,
    /// Whether the engine runs.
    pub engine: Engine,
    /// Seconds since it started.
    pub run_s: f64,
    /// Speed over ground, km/h.
    pub speed_kmh: f64,
}

/// What the sensors show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// Fluid, °C.
    pub fluid_celsius: f64,
    /// Coolant, °C.
    pub coolant_celsius: f64,
    /// Intake air, °C.
    pub intake_celsius: f64,
    /// Ambient air, °C.
    pub ambient_celsius: f64,
    /// Engine speed, 1/min.
    pub rpm: f64,
    /// Vehicle speed, km/h.
    pub speed_kmh: f64,
    /// Seconds since engine start.
    pub run_s: f64,
    /// Control module voltage.
    pub volts: f64,
}

/// The sensors of one vehicle.
#[derive(Debug, Clone)]
pub struct Sensors {
    traits: Traits,
    dice: Dice,
    /// The fluid as the sensor's own body has it.
    fluid_body_celsius: f64,
    /// The idle's unrest, 1/min.
    unrest_rpm: f64,
    intake_celsius: f64,
    frozen: Option<f64>,
    shown: Shown,
}

impl Sensors {
    /// Sensors that have long been in the state `truly`.
    pub fn new(traits: Traits, truly: Truly, seed: u64) -> Self {
        let shown = Shown {
            fluid_celsius: truly.fluid_celsius,
            coolant_celsius: truly.coolant_celsius,
            intake_celsius: truly.air_celsius,
            ambient_celsius: truly.air_celsius,
            rpm: 0.0,
            speed_kmh: 0.0,
            run_s: 0.0,
            volts: traits.battery_volts,
        };
        let mut sensors = Self {
            traits,
            dice: Dice::part(seed, 0x5E05),
            fluid_body_celsius: truly.fluid_celsius,
            unrest_rpm: 0.0,
            intake_celsius: truly.air_celsius,
            frozen: None,
            shown,
        };
        sensors.advance(0.0, truly, None);
        sensors
    }

    /// One step of `seconds`.
    pub fn advance(&mut self, seconds: f64, truly: Truly, fault: Option<SensorFault>) {
        let t = self.traits;
        let running = truly.engine == Engine::Running;
        let lag_s = match fault {
            Some(SensorFault::Sluggish { seconds }) => t.fluid_lag_s + seconds,
            _ => t.fluid_lag_s,
        };
        self.fluid_body_celsius +=
            (truly.fluid_celsius - self.fluid_body_celsius) * (seconds / lag_s).min(1.0);
        let right = self.fluid_body_celsius + t.fluid_offset_k + self.dice.within(t.fluid_noise_k);
        let fluid_celsius = match fault {
            Some(SensorFault::Frozen) => *self.frozen.get_or_insert(right),
            Some(SensorFault::Default { celsius }) => celsius,
            Some(SensorFault::Step { kelvins }) => right + kelvins,
            Some(SensorFault::Copy { kelvins, whole }) => {
                let coolant = truly.coolant_celsius + t.coolant_offset_k;
                kelvins + if whole { coolant.round() } else { coolant }
            }
            Some(SensorFault::Sluggish { .. }) => right,
            None => {
                self.frozen = None;
                right
            }
        };
        // Under the bonnet the intake air warms with the engine; it follows slowly.
        let bonnet = truly.air_celsius
            + if running { INTAKE_RISE * (truly.coolant_celsius - truly.air_celsius) } else { 0.0 };
        self.intake_celsius += (bonnet - self.intake_celsius) * (seconds / INTAKE_LAG_S).min(1.0);
        self.unrest_rpm += (self.dice.within(t.idle_jitter_rpm) - self.unrest_rpm) * (seconds * 2.0).min(1.0);
        let idle = t.idle.rpm(truly.coolant_celsius, truly.run_s);
        let rpm = if running { idle + self.unrest_rpm + truly.speed_kmh * RPM_PER_KMH } else { 0.0 };
        self.shown = Shown {
            fluid_celsius,
            coolant_celsius: truly.coolant_celsius + t.coolant_offset_k,
            intake_celsius: self.intake_celsius + t.intake_offset_k,
            ambient_celsius: truly.air_celsius + t.ambient_offset_k,
            rpm,
            speed_kmh: truly.speed_kmh,
            run_s: if running { truly.run_s } else { 0.0 },
            volts: if running { CHARGING_VOLTS } else { t.battery_volts },
        };
    }

    /// What they show now.
    pub const fn shown(&self) -> Shown {
        self.shown
    }

    /// How the control unit comes to whole counts.
    pub const fn counting(&self) -> Counting {
        self.traits.counting
    }
}

/// The share of the engine's excess over the air that the intake air takes at idle.
/// Own choice: under a closed bonnet it must mislead whoever takes it for the air outside.
const INTAKE_RISE: f64 = 0.25;
/// How slowly it follows, s.
/// Own choice: sheet metal and hoses warm in minutes.
const INTAKE_LAG_S: f64 = 300.0;
/// What the test drive adds in one low gear.
/// Own choice: 30 km/h at some 1,600 1/min.
const RPM_PER_KMH: f64 = 30.0;
/// The alternator's voltage.
/// Source: common practice, no source.
const CHARGING_VOLTS: f64 = 14.1;

#[cfg(test)]
mod tests {
    use super::*;

    const WARM: Truly = Truly {
        fluid_celsius: 40.0,
        coolant_celsius: 80.0,
        air_celsius: 20.0,
        engine: Engine::Running,
        run_s: 600.0,
        speed_kmh: 0.0,
    };

    #[test]
    fn the_fluid_sensor_lags_and_errs_as_its_traits_say() {
        let traits = Traits { fluid_offset_k: 1.0, fluid_noise_k: 0.0, ..Traits::GOOD };
        let mut sensors = Sensors::new(traits, Truly { fluid_celsius: 30.0, ..WARM }, 1);
        assert_eq!(sensors.shown().fluid_celsius, 31.0);
        (0..40).for_each(|_| sensors.advance(0.1, WARM, None));
        // After one time constant of 4 s a first-order lag has gone 1 - 1/e of the way.
        assert!((sensors.shown().fluid_celsius - (31.0 + 10.0 * 0.632)).abs() < 0.1);
    }

    #[test]
    fn a_frozen_sensor_keeps_its_last_value_and_thaws() {
        let mut sensors = Sensors::new(Traits::GOOD, WARM, 1);
        sensors.advance(0.1, WARM, Some(SensorFault::Frozen));
        let held = sensors.shown().fluid_celsius;
        (0..600).for_each(|_| {
            sensors.advance(0.1, Truly { fluid_celsius: 50.0, ..WARM }, Some(SensorFault::Frozen))
        });
        assert_eq!(sensors.shown().fluid_celsius, held);
        sensors.advance(0.1, Truly { fluid_celsius: 50.0, ..WARM }, None);
        assert!(sensors.shown().fluid_celsius > held + 9.0);
    }

    #[test]
    fn the_idle_is_restless_but_stays_within_its_width() {
        let mut sensors = Sensors::new(Traits::GOOD, WARM, 1);
        let mut seen = Vec::new();
        for _ in 0..1_000 {
            sensors.advance(0.1, WARM, None);
            seen.push(sensors.shown().rpm);
        }
        let (low, high) = seen.iter().fold((f64::MAX, f64::MIN), |(l, h), r| (l.min(*r), h.max(*r)));
        assert!(low >= 712.0 && high <= 728.0 && high - low > 2.0, "{low} to {high}");
    }
}
