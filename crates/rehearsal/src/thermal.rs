//! Heat: six nodes, richer than anything that the program itself reckons with.
//!
//! ```text
//!   engine ─► metal ═══ coolant ─► thermostat (hysteresis, lag) ─► radiator, fan ─► air
//!               │ bell housing ║
//!               ▼              ╚═══ cooler ══╗ flow, only through the cooler
//!   air ◄───── case ═════════════════════ sump ═══ converter ◄─ heat: some in neutral, much in gear
//!   (wind)                                  ▲ pump and churning, less as the fluid thins
//! ```
//!
//! In: seconds, what runs, which way the fluid goes, whether a gear is in. Out: fluid in the sump, coolant. A recorded
//! warm-up may lead the coolant: it follows the log while the engine runs, and cools freely while it stands.
//! A node without heat capacity takes the temperature of its neighbour, so that the six can be made two
//! ([`Thermal::of_two_nodes`]), for which there is a closed form to be held against.
//! Not here: what the sensors make of it (`sensors.rs`).
//! Method and figures: docs/rehearsal.md, "Heat"; the figures are estimates, only their form is known.

use fluid::thermal::TwoNode;

use crate::dice::Dice;
use crate::warmup::Warmup;

/// The figures of one vehicle. kJ/K, kW and W/K as named.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thermal {
    /// Heat capacity of the engine's metal.
    pub metal_kj_k: f64,
    /// Of the coolant.
    pub coolant_kj_k: f64,
    /// Of the fluid in the sump with the pan.
    pub sump_kj_k: f64,
    /// Of the transmission's case and insides.
    pub case_kj_k: f64,
    /// Of the converter with the fluid in it.
    pub converter_kj_k: f64,
    /// Of the fluid in cooler and lines.
    pub cooler_kj_k: f64,
    /// Heat into the engine's metal at idle.
    pub engine_kw: f64,
    /// What a cold engine makes more with each turn, rich, ignited late and in thick oil: a share at 30 °C and below.
    pub cold_idle_share: f64,
    /// Heat of pump and churning into the sump at idle, fluid at 40 °C.
    pub drag_kw: f64,
    /// Heat in the converter at idle without a gear.
    pub converter_kw: f64,
    /// What it makes more at idle with a gear in, the brake held.
    pub gear_kw: f64,
    /// By which share the heat of pump and churning falls per kelvin, as the fluid thins.
    pub thins_per_k: f64,
    /// Between metal and coolant while the water pump turns.
    pub metal_coolant_w_k: f64,
    /// Through the bell housing, from the engine's metal to the case.
    pub bell_w_k: f64,
    /// Between case and sump while fluid is thrown about.
    pub case_sump_w_k: f64,
    /// Carried between converter and sump by the fluid that goes through.
    pub converter_flow_w_k: f64,
    /// Carried between cooler and sump by the fluid that goes through.
    pub cooler_flow_w_k: f64,
    /// Between coolant and the fluid in the cooler.
    pub cooler_w_k: f64,
    /// What an open thermostat adds to that: a cooler in the radiator's cold tank.
    pub tank_w_k: f64,
    /// From the engine's metal to the air.
    pub metal_air_w_k: f64,
    /// From coolant hoses and heater to the air.
    pub coolant_air_w_k: f64,
    /// From the case to the air.
    pub case_air_w_k: f64,
    /// From the pan to the air.
    pub sump_air_w_k: f64,
    /// How much the air's moving under the vehicle changes the losses, a share.
    pub gusts: f64,
    /// Where the thermostat begins to open, in °C.
    pub thermostat_celsius: f64,
    /// By how much lower it shuts.
    pub thermostat_falls_k: f64,
    /// How slowly its wax follows the coolant, s.
    pub thermostat_lag_s: f64,
    /// What the open radiator takes by itself.
    pub radiator_w_k: f64,
    /// What the fan adds.
    pub fan_w_k: f64,
    /// How far above the thermostat's opening the fan starts.
    pub fan_above_k: f64,
}

impl Thermal {
    /// A car of the middle of the ranges that docs/rehearsal.md gives: with coolant in the cooler at all times.
    /// Source: docs/rehearsal.md, "Heat", figure by figure.
    pub const TYPICAL: Self = Self {
        metal_kj_k: 62.0,
        coolant_kj_k: 28.0,
        sump_kj_k: 8.5,
        case_kj_k: 28.0,
        converter_kj_k: 12.0,
        cooler_kj_k: 1.8,
        engine_kw: 4.0,
        cold_idle_share: 0.25,
        drag_kw: 0.6,
        converter_kw: 0.2,
        gear_kw: 1.5,
        thins_per_k: 0.008,
        metal_coolant_w_k: 500.0,
        bell_w_k: 5.0,
        case_sump_w_k: 900.0,
        converter_flow_w_k: 150.0,
        cooler_flow_w_k: 240.0,
        cooler_w_k: 240.0,
        tank_w_k: 0.0,
        metal_air_w_k: 20.0,
        coolant_air_w_k: 10.0,
        case_air_w_k: 9.0,
        sump_air_w_k: 6.0,
        gusts: 0.2,
        thermostat_celsius: 88.0,
        thermostat_falls_k: 4.0,
        thermostat_lag_s: 12.0,
        radiator_w_k: 60.0,
        fan_w_k: 800.0,
        fan_above_k: 10.0,
    };

    /// The two nodes of the closed form: everything of the engine in one, everything of the transmission in the other,
    /// heat and losses constant, no thermostat. `past_w_k`: between the two past the cooler; `car.exchange_w_k`:
    /// through it.
    pub const fn of_two_nodes(car: TwoNode, past_w_k: f64) -> Self {
        Self {
            metal_kj_k: 0.0,
            coolant_kj_k: car.engine_kj_k,
            sump_kj_k: car.trans_kj_k,
            case_kj_k: 0.0,
            converter_kj_k: 0.0,
            cooler_kj_k: 0.0,
            engine_kw: car.engine_kw,
            cold_idle_share: 0.0,
            drag_kw: car.trans_kw,
            converter_kw: 0.0,
            gear_kw: 0.0,
            thins_per_k: 0.0,
            bell_w_k: past_w_k,
            cooler_w_k: car.exchange_w_k - past_w_k,
            metal_air_w_k: car.engine_air_w_k,
            coolant_air_w_k: 0.0,
            case_air_w_k: car.trans_air_w_k,
            sump_air_w_k: 0.0,
            gusts: 0.0,
            thermostat_celsius: f64::MAX,
            ..Self::TYPICAL
        }
    }

    /// What goes from coolant to sump through the cooler, W/K: exchange and flow, one after the other.
    pub fn through_cooler_w_k(&self) -> f64 {
        self.cooler_flow_w_k * self.cooler_w_k / (self.cooler_flow_w_k + self.cooler_w_k)
    }

    /// Heat into the transmission at idle without a gear, the fluid at `celsius`, kW.
    pub fn fluid_kw(&self, celsius: f64) -> f64 {
        self.converter_kw + self.drag_kw * self.thinned(celsius)
    }

    /// How much of the heat of pump and churning at 40 °C there is at `celsius`.
    fn thinned(&self, celsius: f64) -> f64 {
        if self.thins_per_k == 0.0 { 1.0 } else { (self.thins_per_k * (40.0 - celsius)).exp().min(THICKEST) }
    }
}

/// What happens to the nodes during one step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Whether the engine runs.
    pub engine: Engine,
    /// Which way the fluid goes.
    pub path: Path,
    /// Whether a gear is in.
    pub gear: Gear,
    /// The air around, in °C.
    pub air_celsius: f64,
    /// How many times the heat of idling is made; 1 at idle, more on the road.
    pub effort: f64,
    /// How many times as fast as warm the engine idles.
    pub speed: f64,
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

/// Whether the selector stands where a gear is in: then the brake holds the converter's turbine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gear {
    /// Park or neutral.
    Out,
    /// Any other position.
    In,
}

/// Nodes beside the fluid and the coolant, °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nodes {
    /// The engine's metal.
    pub metal: f64,
    /// The transmission's case.
    pub case: f64,
    /// The converter with its fluid.
    pub converter: f64,
}

/// The nodes as they are, °C.
#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    figures: Thermal,
    log: Option<Warmup>,
    metal: f64,
    coolant: f64,
    sump: f64,
    case: f64,
    converter: f64,
    cooler: f64,
    /// What is in the sump now, kJ/K: less once it was drained.
    sump_kj_k: f64,
    wax: f64,
    /// How far the thermostat is open, 0 to 1.
    lift: f64,
    fan: Fan,
    wind: Wind,
    run_s: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fan {
    Stands,
    Turns,
}

impl Heat {
    /// All at their start: the engine's nodes alike, the transmission's alike; `log` leads the coolant from the first
    /// start on, `seed` makes the wind.
    pub const fn new(figures: Thermal, engine: f64, fluid: f64, log: Option<Warmup>, seed: u64) -> Self {
        Self {
            figures,
            log,
            metal: engine,
            coolant: engine,
            sump: fluid,
            case: fluid,
            converter: fluid,
            cooler: fluid,
            sump_kj_k: figures.sump_kj_k,
            wax: engine,
            lift: 0.0,
            fan: Fan::Stands,
            wind: Wind { dice: Dice::part(seed, 0x417D), aim: 0.0, now: 0.0, left_s: 0.0 },
            run_s: 0.0,
        }
    }

    /// One step of `seconds`, short against the fastest node (the world's grid is 0.1 s; the cooler's fluid has
    /// seconds).
    pub fn advance(&mut self, seconds: f64, now: Conditions) {
        let f = self.figures;
        let running = now.engine == Engine::Running;
        let air = now.air_celsius;
        let moves = self.wind.advance(seconds, f.gusts) * if now.effort > 1.0 { DRIVING_AIR } else { 1.0 };
        let radiator = self.radiator_w_k(seconds);
        let made = self.made(now);
        let flow = Flows::of(&f, running, now.path, self.lift);

        // Watts from the one to the other.
        let metal_coolant = flow.metal_coolant * (self.metal - self.coolant);
        let bell = f.bell_w_k * (self.metal - self.case);
        let coolant_cooler = flow.coolant_cooler * (self.coolant - self.cooler);
        let cooler_sump = flow.cooler_sump * (self.cooler - self.sump);
        let case_sump = flow.case_sump * (self.case - self.sump);
        let converter_sump = flow.converter_sump * (self.converter - self.sump);
        let metal_air = f.metal_air_w_k * moves * (self.metal - air);
        let coolant_air = (f.coolant_air_w_k + radiator) * (self.coolant - air);
        let case_air = f.case_air_w_k * moves * (self.case - air);
        let sump_air = f.sump_air_w_k * moves * (self.sump - air);

        let mut coolant = metal_coolant - coolant_cooler - coolant_air;
        let mut sump = made.drag + cooler_sump + case_sump + converter_sump - sump_air;
        let metal = made.engine - metal_coolant - bell - metal_air;
        let (mut sump_lumps, mut metal_lumps) = (Lumps::default(), Lumps::default());
        let step = |node: &mut f64, kj_k: f64, watts: f64, lumps: &mut Lumps| {
            if kj_k > 0.0 { *node += seconds * watts / (kj_k * 1_000.0) } else { lumps.watts += watts }
        };
        step(&mut self.metal, f.metal_kj_k, metal, &mut metal_lumps);
        step(&mut self.case, f.case_kj_k, bell - case_sump - case_air, &mut sump_lumps);
        step(&mut self.converter, f.converter_kj_k, made.converter - converter_sump, &mut sump_lumps);
        step(&mut self.cooler, f.cooler_kj_k, coolant_cooler - cooler_sump, &mut sump_lumps);
        coolant += metal_lumps.watts;
        sump += sump_lumps.watts;
        self.sump += seconds * sump / (self.sump_kj_k * 1_000.0);
        self.coolant += match (&self.log, running) {
            (Some(log), true) => log.coolant_after(self.run_s + seconds) - log.coolant_after(self.run_s),
            (Some(_), false) if self.run_s == 0.0 => 0.0, // soaked: it stands as the log found it
            _ => seconds * coolant / (f.coolant_kj_k * 1_000.0),
        };
        self.follow_the_neighbours();
        if running {
            self.run_s += seconds;
        }
    }

    /// What has no heat of its own takes its neighbour's temperature.
    fn follow_the_neighbours(&mut self) {
        let f = &self.figures;
        let follow = |node: &mut f64, kj_k: f64, neighbour: f64| {
            if kj_k <= 0.0 {
                *node = neighbour;
            }
        };
        follow(&mut self.metal, f.metal_kj_k, self.coolant);
        follow(&mut self.case, f.case_kj_k, self.sump);
        follow(&mut self.converter, f.converter_kj_k, self.sump);
        follow(&mut self.cooler, f.cooler_kj_k, self.sump);
    }

    /// The heat that is made now, W.
    fn made(&self, now: Conditions) -> Made {
        let f = &self.figures;
        if now.engine == Engine::Off {
            return Made { engine: 0.0, drag: 0.0, converter: 0.0 };
        }
        let gear_kw = if now.gear == Gear::In { f.gear_kw } else { 0.0 };
        let cold = ((COLD_BELOW_C - self.coolant) / COLD_SPAN_K).clamp(0.0, 1.0);
        let watts = 1_000.0 * now.effort;
        Made {
            // To hold a gear against the brake costs fuel: about as much heat stays in the engine as goes into the
            // fluid.
            engine: watts * (f.engine_kw * now.speed * (1.0 + f.cold_idle_share * cold) + gear_kw),
            drag: watts * f.drag_kw * f.thinned(self.sump) * now.speed,
            converter: watts * (f.converter_kw * now.speed + gear_kw),
        }
    }

    /// So much fluid was let out of the sump, kJ/K; the pan stays.
    pub const fn drain(&mut self, kilojoules_per_kelvin: f64) {
        self.sump_kj_k = (self.sump_kj_k - kilojoules_per_kelvin).max(PAN_KJ_K);
    }

    /// Mixes `kilojoules_per_kelvin` of fluid at `celsius` into the sump.
    pub fn mix_into_fluid(&mut self, kilojoules_per_kelvin: f64, celsius: f64) {
        self.sump_kj_k += kilojoules_per_kelvin;
        self.sump += (celsius - self.sump) * kilojoules_per_kelvin / self.sump_kj_k;
    }

    /// The coolant, in °C.
    pub const fn engine_celsius(&self) -> f64 {
        self.coolant
    }

    /// The fluid in the sump, in °C.
    pub const fn fluid_celsius(&self) -> f64 {
        self.sump
    }

    /// What lies beside the fluid and the coolant.
    pub const fn nodes(&self) -> Nodes {
        Nodes { metal: self.metal, case: self.case, converter: self.converter }
    }

    /// The converter with its fluid, in °C.
    pub const fn converter_celsius(&self) -> f64 {
        self.converter
    }

    /// Lets the thermostat and the fan follow the coolant, and says what the radiator takes.
    fn radiator_w_k(&mut self, seconds: f64) -> f64 {
        let f = &self.figures;
        self.wax += (self.coolant - self.wax) * (seconds / f.thermostat_lag_s).min(1.0);
        // Between the way up and the way down it stays as it is.
        let opened = |from: f64| ((self.wax - from) / THERMOSTAT_SPAN_K).clamp(0.0, 1.0);
        let up = opened(f.thermostat_celsius);
        let down = opened(f.thermostat_celsius - f.thermostat_falls_k);
        self.lift = self.lift.clamp(up, down);
        let starts = f.thermostat_celsius + f.fan_above_k;
        self.fan = match self.fan {
            Fan::Stands if self.coolant >= starts => Fan::Turns,
            Fan::Turns if self.coolant <= starts - FAN_FALLS_K => Fan::Stands,
            as_it_is => as_it_is,
        };
        self.lift * if self.fan == Fan::Turns { f.radiator_w_k + f.fan_w_k } else { f.radiator_w_k }
    }
}

/// Heat that is made, W.
struct Made {
    engine: f64,
    drag: f64,
    converter: f64,
}

/// What flowed into nodes without heat capacity.
#[derive(Default)]
struct Lumps {
    watts: f64,
}

/// Conductances that depend on what turns, W/K.
struct Flows {
    metal_coolant: f64,
    coolant_cooler: f64,
    cooler_sump: f64,
    case_sump: f64,
    converter_sump: f64,
}

impl Flows {
    fn of(f: &Thermal, running: bool, path: Path, lift: f64) -> Self {
        let through = running && path == Path::Through;
        // Without a cooler node of its own the fluid that does not go through takes nothing.
        let still = if f.cooler_kj_k > 0.0 { STILL_COOLER } else { 0.0 };
        Self {
            metal_coolant: f.metal_coolant_w_k * if running { 1.0 } else { STILL_ENGINE },
            coolant_cooler: (f.cooler_w_k + f.tank_w_k * lift) * if through { 1.0 } else { still },
            cooler_sump: if through { f.cooler_flow_w_k } else { LEAKS_W_K },
            case_sump: f.case_sump_w_k * if running { 1.0 } else { STILL_CASE },
            converter_sump: if running { f.converter_flow_w_k } else { STILL_CONVERTER_W_K },
        }
    }
}

/// Air that moves under the vehicle: it wanders about its mean.
#[derive(Debug, Clone, PartialEq)]
struct Wind {
    dice: Dice,
    aim: f64,
    now: f64,
    left_s: f64,
}

impl Wind {
    /// By what the losses are multiplied.
    fn advance(&mut self, seconds: f64, gusts: f64) -> f64 {
        self.left_s -= seconds;
        if self.left_s <= 0.0 {
            self.left_s = GUST_S;
            self.aim = self.dice.within(1.0);
        }
        self.now += (self.aim - self.now) * (seconds / GUST_S).min(1.0);
        1.0 + gusts * self.now
    }
}

/// The pan and what stays in it, kJ/K.
/// Source: computed: 3 kg of steel or aluminium, an estimate from memory.
pub const PAN_KJ_K: f64 = 1.5;
/// Span of the wax element from shut to open, K.
/// Source: common practice, no source.
const THERMOSTAT_SPAN_K: f64 = 10.0;
/// How far the coolant must fall before the fan stops.
/// Source: common practice, no source.
const FAN_FALLS_K: f64 = 5.0;
/// Colder than this an engine makes more heat with each turn, and so much further down all of it.
/// Source: measured: fitted to the one real car (`tests/idle.rs`).
const COLD_BELOW_C: f64 = 70.0;
const COLD_SPAN_K: f64 = 40.0;
/// Cold fluid is no more than so many times as hard to move as at 40 °C, at idle.
/// Own choice: below, a pump takes no more than its relief valve lets it.
const THICKEST: f64 = 2.5;
/// How often the air changes its mind, s.
/// Own choice: gusts, doors and people; much less averages out, much more is weather.
const GUST_S: f64 = 20.0;
/// How much more the air takes on the road.
/// Own choice: a gentle drive through town.
const DRIVING_AIR: f64 = 3.0;
/// What is left of an exchange when nothing turns, as shares and in W/K.
/// Own choice: conduction and natural convection are a tenth or less of what is pumped.
const STILL_ENGINE: f64 = 0.15;
const STILL_CASE: f64 = 0.1;
const STILL_COOLER: f64 = 0.01;
const STILL_CONVERTER_W_K: f64 = 15.0;
const LEAKS_W_K: f64 = 0.5;

#[cfg(test)]
mod tests;
