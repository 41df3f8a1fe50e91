//! How fast an engine idles: faster while it is cold, and faster still in its first seconds.
//!
//! In: the coolant, seconds since the start. Out: engine speed, 1/min. What follows for the heat is in `thermal.rs`: heat per minute
//! goes with the speed.
//! Figures: one real car (`fixtures/reference/physics/idle_warmup.csv`) idles at 1,800/min at 28 °C, 1,000 at 37, 660 hot; the first fall takes it
//! half a minute, the second goes with the coolant. Other vehicles are drawn widely about it; some have nearly none.

use crate::dice::Dice;

/// What the engine is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motor {
    /// As the physics reference has it.
    Usual,
    /// Small, with little metal and a fast cold idle.
    Small,
}

impl Motor {
    /// That of the vehicle of this seed.
    pub(crate) fn of(seed: u64) -> Self {
        if Dice::part(seed, 0x901C).chance(SMALL) { Self::Small } else { Self::Usual }
    }
}

/// The idle of one vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Idle {
    /// Warm, 1/min.
    pub warm_rpm: f64,
    /// From this coolant temperature on it is warm, °C.
    pub warm_celsius: f64,
    /// What it turns faster for each kelvin below that, 1/min.
    pub cold_rpm_per_k: f64,
    /// What a cold engine turns faster still right after its start, 1/min.
    pub first_rpm: f64,
    /// How long that takes to fade, s.
    pub first_s: f64,
}

impl Idle {
    /// An idle as embedded vehicles have it: mildly faster when cold.
    /// Source: common practice, no source.
    pub const TYPICAL: Self =
        Self { warm_rpm: 720.0, warm_celsius: 40.0, cold_rpm_per_k: 3.0, first_rpm: 150.0, first_s: 30.0 };

    /// An idle that is the same at all times.
    /// By definition.
    pub const EVEN: Self = Self { cold_rpm_per_k: 0.0, first_rpm: 0.0, ..Self::TYPICAL };

    /// That of the one real car.
    /// Source: `fixtures/reference/physics/idle_warmup.csv`; its first fall as docs/rehearsal.md has it, "The cold idle".
    pub const MEASURED: Self =
        Self { warm_rpm: 660.0, warm_celsius: 75.0, cold_rpm_per_k: 8.9, first_rpm: 720.0, first_s: 60.0 };

    /// One of all that there may be: a quarter of the usual engines hardly idle faster when cold, all small ones do.
    pub fn draw(dice: &mut Dice, warm_rpm: f64, engine: Motor) -> Self {
        let (least, most) = match (engine, dice.chance(HARDLY)) {
            (Motor::Small, _) => (0.4, 1.2),
            (Motor::Usual, true) => (0.0, 0.1),
            (Motor::Usual, false) => (0.0, 1.1),
        };
        // What idles high when warm goes up by less.
        let room = (Self::MEASURED.warm_rpm / warm_rpm).powi(2).min(1.0);
        Self {
            warm_rpm,
            warm_celsius: dice.between(45.0, 78.0),
            cold_rpm_per_k: 9.0 * room * dice.between(least, most),
            first_rpm: 700.0 * room * dice.between(least, most),
            first_s: dice.between(20.0, 90.0),
        }
    }

    /// 1/min with the coolant at `celsius`, `run_s` after the start.
    pub fn rpm(&self, celsius: f64, run_s: f64) -> f64 {
        let below = (self.warm_celsius - celsius).clamp(0.0, COLDEST_K);
        let first = (1.0 - run_s / self.first_s).clamp(0.0, 1.0) * (below / COLD_K).min(1.0);
        self.warm_rpm + self.cold_rpm_per_k * below + self.first_rpm * first
    }

    /// The same as a share of the warm idle's.
    pub fn share(&self, celsius: f64, run_s: f64) -> f64 {
        self.rpm(celsius, run_s) / self.warm_rpm
    }
}

/// So many vehicles hardly idle faster when cold.
/// Own choice: the cold idle of before stays among those drawn.
const HARDLY: f64 = 0.25;
/// Colder than this below warm it turns no faster, K.
/// Own choice: below freezing no engine idles ever faster.
const COLDEST_K: f64 = 60.0;
/// An engine so far below warm, K, gets the whole of the first seconds' speed.
/// Own choice: the measured car did at 28 °C, 47 below.
const COLD_K: f64 = 45.0;

/// So many vehicles have a small engine that warms quickly.
/// Own choice: enough of them that a campaign of hundreds meets some with each fault.
const SMALL: f64 = 0.2;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cold_engine_idles_fast_and_comes_down_as_the_one_that_was_measured() {
        let idle = Idle::MEASURED;
        let cases: &[(&str, f64, f64, f64)] = &[
            // fixtures/reference/physics/idle_warmup.csv and its head: 1,800 at 28 °C, 1,000 at 37, 660 hot.
            ("started", 28.0, 0.0, 1_798.0),
            ("half a minute later", 37.0, 60.0, 998.0),
            ("warm", 80.0, 400.0, 660.0),
            ("started warm", 80.0, 0.0, 660.0),
        ];
        for (what, celsius, run_s, want) in cases {
            assert!(
                (idle.rpm(*celsius, *run_s) - want).abs() < 1.0,
                "{what}: {}",
                idle.rpm(*celsius, *run_s)
            );
        }
        assert_eq!(Idle::EVEN.share(-20.0, 0.0), 1.0);
    }
}
