//! Heat: two nodes, the engine with its coolant and the fluid with the metal that follows it.
//!
//! ```text
//!   Ce dTe/dt = Pe - Gx (Te - Tt) - Ge (Te - Ta)        Gx: small past the cooler, large through it
//!   Ct dTt/dt = Pt + Gx (Te - Tt) - Gt (Tt - Ta)
//! ```
//!
//! In: seconds, what runs, which way the fluid goes. Out: the two temperatures. Above the thermostat's opening the
//! engine node loses heat to the radiator until it has closed again. A recorded warm-up may take the place of the
//! first line: then the coolant follows the log while the engine runs, and cools freely while it stands.
//! Not here: what the sensors make of it (`sensors.rs`).
//! Method and figures: docs/rehearsal.md, "Heat"; the figures are estimates, only their form is known.

use fluid::thermal::{Nodes, TwoNode};

use crate::warmup::Warmup;

/// The figures of one vehicle. kJ/K, kW and W/K as named.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thermal {
    /// Heat capacity of the engine with coolant.
    pub engine_kj_k: f64,
    /// Heat capacity of the fluid and the metal that follows it.
    pub fluid_kj_k: f64,
    /// Heat into the engine at idle.
    pub engine_kw: f64,
    /// Heat into the fluid at idle.
    pub fluid_kw: f64,
    /// Between the two while the fluid goes past the cooler.
    pub past_cooler_w_k: f64,
    /// Between the two while the fluid goes through the cooler.
    pub through_cooler_w_k: f64,
    /// From the engine to the air.
    pub engine_air_w_k: f64,
    /// From the fluid to the air.
    pub fluid_air_w_k: f64,
    /// Where the thermostat opens, in °C.
    pub thermostat_celsius: f64,
}

impl Thermal {
    /// A car of the middle of the ranges that docs/rehearsal.md gives.
    pub const TYPICAL: Self = Self {
        engine_kj_k: 90.0,
        fluid_kj_k: 45.0,
        engine_kw: 4.0,
        fluid_kw: 0.8,
        past_cooler_w_k: 5.0,
        through_cooler_w_k: 120.0,
        engine_air_w_k: 30.0,
        fluid_air_w_k: 15.0,
        thermostat_celsius: 88.0,
    };
}

/// What happens to the nodes during one step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Whether the engine runs.
    pub engine: Engine,
    /// Which way the fluid goes.
    pub path: Path,
    /// The air around, in °C.
    pub air_celsius: f64,
    /// How many times the heat of idling is made; 1 at idle, more on the road.
    pub effort: f64,
}

/// Whether the engine runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// It stands.
    Off,
    /// It runs.
    Running,
}

/// Which way the fluid goes while it is pumped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Path {
    /// Past the cooler.
    Past,
    /// Through the cooler.
    Through,
}

/// The two nodes as they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    figures: Thermal,
    log: Option<Warmup>,
    engine_celsius: f64,
    fluid_celsius: f64,
    radiator: Radiator,
    run_s: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Radiator {
    Shut,
    Open,
}

impl Heat {
    /// Both nodes at their start; `log` takes the engine's place from the first start on.
    pub const fn new(figures: Thermal, engine_celsius: f64, fluid_celsius: f64, log: Option<Warmup>) -> Self {
        Self { figures, log, engine_celsius, fluid_celsius, radiator: Radiator::Shut, run_s: 0.0 }
    }

    /// One step of `seconds`, short against the time constants (the world's grid is 0.1 s; they are minutes).
    pub fn advance(&mut self, seconds: f64, now: Conditions) {
        let f = self.figures;
        let running = now.engine == Engine::Running;
        let through = running && now.path == Path::Through;
        let effort = if running { now.effort } else { 0.0 };
        let nodes = TwoNode {
            engine_kj_k: f.engine_kj_k,
            trans_kj_k: f.fluid_kj_k,
            engine_kw: f.engine_kw * effort,
            trans_kw: f.fluid_kw * effort,
            exchange_w_k: if through { f.through_cooler_w_k } else { f.past_cooler_w_k },
            engine_air_w_k: f.engine_air_w_k + self.radiator_w_k(),
            trans_air_w_k: f.fluid_air_w_k,
            air_c: now.air_celsius,
        };
        let rates = nodes.rates(Nodes { engine: self.engine_celsius, trans: self.fluid_celsius });
        self.fluid_celsius += seconds * rates.trans;
        self.engine_celsius += match (&self.log, running) {
            (Some(log), true) => log.coolant_after(self.run_s + seconds) - log.coolant_after(self.run_s),
            (Some(_), false) if self.run_s == 0.0 => 0.0, // soaked: it stands as the log found it
            _ => seconds * rates.engine,
        };
        if running {
            self.run_s += seconds;
        }
    }

    /// Mixes `kilojoules_per_kelvin` of something at `celsius` into the fluid node.
    pub fn mix_into_fluid(&mut self, kilojoules_per_kelvin: f64, celsius: f64) {
        let share = kilojoules_per_kelvin / (kilojoules_per_kelvin + self.figures.fluid_kj_k);
        self.fluid_celsius += (celsius - self.fluid_celsius) * share;
    }

    /// The engine with its coolant, in °C.
    pub const fn engine_celsius(&self) -> f64 {
        self.engine_celsius
    }

    /// The fluid, in °C.
    pub const fn fluid_celsius(&self) -> f64 {
        self.fluid_celsius
    }

    /// Opens and shuts the thermostat with hysteresis and says what it lets through.
    fn radiator_w_k(&mut self) -> f64 {
        let opens = self.figures.thermostat_celsius;
        self.radiator = match self.radiator {
            Radiator::Shut if self.engine_celsius >= opens => Radiator::Open,
            Radiator::Open if self.engine_celsius <= opens - THERMOSTAT_HYSTERESIS_K => Radiator::Shut,
            as_it_is => as_it_is,
        };
        if self.radiator == Radiator::Open { RADIATOR_W_K } else { 0.0 }
    }
}

/// How far the coolant must fall before an open thermostat shuts. Common practice, no source.
const THERMOSTAT_HYSTERESIS_K: f64 = 4.0;
/// What an open radiator with its fan takes. Chosen so that the node is held; no source.
const RADIATOR_W_K: f64 = 600.0;

#[cfg(test)]
mod tests {
    use super::*;

    fn idle(path: Path) -> Conditions {
        Conditions { engine: Engine::Running, path, air_celsius: 20.0, effort: 1.0 }
    }

    #[test]
    fn the_steps_follow_the_closed_form() {
        // fixtures: table thermal_two_node of the physics reference (matrix exponential): typical figures, 20 °C.
        let cases: &[(&str, Path, f64, f64, f64)] = &[
            ("past the cooler, a minute", Path::Past, 60.0, 22.637_554_25, 21.061_316_04),
            ("past the cooler, five minutes", Path::Past, 300.0, 32.626_978_05, 25.198_070_13),
            ("past the cooler, ten minutes", Path::Past, 600.0, 43.943_062_42, 30.120_034_18),
        ];
        for (what, path, seconds, engine, fluid) in cases {
            let mut heat = Heat::new(Thermal::TYPICAL, 20.0, 20.0, None);
            for _ in 0..(seconds * 10.0) as usize {
                heat.advance(0.1, idle(*path));
            }
            assert!((heat.engine_celsius() - engine).abs() < 0.005, "{what}: {}", heat.engine_celsius());
            assert!((heat.fluid_celsius() - fluid).abs() < 0.005, "{what}: {}", heat.fluid_celsius());
        }
    }

    #[test]
    fn the_thermostat_holds_the_engine_near_its_opening() {
        let mut heat = Heat::new(Thermal::TYPICAL, 20.0, 20.0, None);
        let mut highest = f64::MIN;
        for _ in 0..90 * 600 {
            heat.advance(0.1, idle(Path::Through));
            highest = highest.max(heat.engine_celsius());
        }
        assert!((88.0..88.5).contains(&highest), "{highest}");
        assert!((83.5..88.5).contains(&heat.engine_celsius()), "{}", heat.engine_celsius());
    }

    #[test]
    fn a_recording_leads_the_coolant_and_the_fluid_follows() {
        let log = Warmup::parse("t_s,coolant_c\n0,11\n600,71\n").unwrap();
        let mut heat = Heat::new(Thermal::TYPICAL, 11.0, 11.0, Some(log));
        let off = Conditions { engine: Engine::Off, ..idle(Path::Past) };
        (0..600).for_each(|_| heat.advance(0.1, off));
        assert_eq!(heat.engine_celsius(), 11.0, "before the start it stands as the log found it");
        (0..3_000).for_each(|_| heat.advance(0.1, idle(Path::Through)));
        assert!((heat.engine_celsius() - 41.0).abs() < 1e-6, "{}", heat.engine_celsius());
        assert!((18.0..30.0).contains(&heat.fluid_celsius()), "{}", heat.fluid_celsius());
        (0..3_000).for_each(|_| heat.advance(0.1, off));
        assert!(heat.engine_celsius() < 41.0, "the engine stands: it cools");
    }
}
