//! The vehicle as it truly is, and what hands can do to it.
//!
//! ```text
//!   hands ──► World ── thermal: six nodes ─► sump: mass, level, stream ─► sensors ──► control units (ecu.rs)
//!               │ advance(to), steps of 0.1 s on a fixed grid, so the same calls in any rhythm give the same world
//!               └► truths that only the simulation knows: true fluid temperature, true level error
//! ```
//!
//! In: virtual time and hands. Out: what can be seen, what sensors show, the truth.
//! Not here: bytes (`ecu.rs`, `car/`), decisions of a person (`technician`).

use events::{Rim, Sheet, Signal};
use units::Mono;

use crate::fault::{Fault, FaultKind, SensorFault};
use crate::sensors::{Counting, Sensors, Shown, Traits, Truly};
use crate::sump::{Out, POURED_C, Port, Shape, Sump};
use crate::thermal::{Conditions, Engine, Gear, Heat, Nodes, PAN_KJ_K, Path, Thermal};
use crate::timed::Timed;
use crate::warmup::Warmup;

/// One vehicle: everything that does not change during the job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vehicle {
    /// Its heat.
    pub thermal: Thermal,
    /// Its sump and what is in it.
    pub shape: Shape,
    /// Its sensors.
    pub traits: Traits,
    /// Whether it has a bypass that leads cold fluid past the cooler.
    pub bypass: Bypass,
    /// The air around it, °C.
    pub air_celsius: f64,
    /// The engine at the start, °C.
    pub engine_celsius: f64,
    /// The fluid at the start, °C.
    pub fluid_celsius: f64,
}

/// The way to the cooler.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bypass {
    /// The cooler is always in the way of the fluid.
    None,
    /// A valve leads fluid past the cooler until it is hot, or until it is pinned.
    Valve,
}

impl Vehicle {
    /// The vehicle of a sheet, typical in everything, cold at `celsius`.
    pub fn typical(sheet: &Sheet, celsius: f64) -> Self {
        let valve = sheet.before.cooler_bypass;
        let own = Thermal { sump_kj_k: sump_kj_k(sheet), ..Thermal::TYPICAL };
        let thermal = if valve {
            Thermal { case_kj_k: 57.0, cooler_flow_w_k: 120.0, cooler_w_k: 120.0, ..own }
        } else {
            // A cooler in the radiator's cold tank: little coolant passes it before the thermostat opens, and cool one
            // after.
            Thermal { cooler_w_k: 8.3, tank_w_k: 12.0, ..own }
        };
        Self {
            thermal,
            shape: Shape::of(sheet),
            traits: Traits::GOOD,
            bypass: if valve { Bypass::Valve } else { Bypass::None },
            air_celsius: celsius,
            engine_celsius: celsius,
            fluid_celsius: celsius,
        }
    }
}

/// Heat capacity of the fluid that a drain brings out, with the pan, kJ/K.
pub(crate) fn sump_kj_k(sheet: &Sheet) -> f64 {
    PAN_KJ_K + sheet.fluid.drain_ml * sheet.fluid.density_15 * SPECIFIC_HEAT_KJ_KGK / 1e6
}

/// What the sheet says of the selector.
#[derive(Debug, Clone)]
struct Shifts {
    /// Of each position, whether a gear is in.
    gears: Vec<Gear>,
    /// How often the positions are gone through: the sheet's maker found that after so many rounds the circuits are
    /// full.
    rounds: usize,
}

impl Shifts {
    /// Park and neutral have no gear in; where the sheet names no selector, nothing has.
    fn of(sheet: &Sheet) -> Self {
        let gear = |name: &String| if matches!(name.trim(), "P" | "N") { Gear::Out } else { Gear::In };
        sheet.before.selector.as_ref().map_or(Self { gears: Vec::new(), rounds: 1 }, |selector| Self {
            gears: selector.positions.iter().map(gear).collect(),
            rounds: selector.rounds.max(1) as usize,
        })
    }

    fn gear(&self, position: usize) -> Gear {
        self.gears.get(position).copied().unwrap_or(Gear::Out)
    }
}

/// Whether something is plugged in or pinned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plug {
    /// Pulled.
    Out,
    /// In its place.
    In,
}

/// The world: one vehicle in one place.
#[derive(Debug, Clone)]
pub struct World {
    vehicle: Vehicle,
    step: u64,
    heat: Heat,
    sump: Sump,
    sensors: Sensors,
    faults: Vec<Fault>,
    /// What strikes near the band.
    timed: Option<Timed>,
    /// What acts on the fluid sensor now.
    sensor_fault: Option<SensorFault>,
    engine: Engine,
    started_at: u64,
    speed_kmh: f64,
    pinned: Plug,
    adapter: Plug,
    key: Plug,
    selector: usize,
    shifts: Shifts,
    /// What the fluid weighs as heat: kJ/K per mL at 15 °C.
    kj_k_ml: f64,
    reference: Reference,
}

/// At which fluid temperature the level is meant to be right.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Reference {
    /// At the middle of the band.
    Middle(f64),
    /// The check is gated on the coolant: at whatever the fluid had when, with the engine idling after the check
    /// port was opened, the coolant was nearest to the middle of its band.
    WithCoolant { middle: f64, nearest: Option<(f64, f64)> },
    /// The look asks for no temperature: at what the fluid had when the port was opened last.
    AtLook(Option<f64>),
}

impl World {
    /// The vehicle at the start, engine off, ports closed, adapter plugged in, ignition on.
    pub fn new(sheet: &Sheet, vehicle: Vehicle, warmup: Option<Warmup>, faults: &[Fault], seed: u64) -> Self {
        let heat = Heat::new(vehicle.thermal, vehicle.engine_celsius, vehicle.fluid_celsius, warmup, seed);
        let truly = Truly {
            fluid_celsius: vehicle.fluid_celsius,
            coolant_celsius: vehicle.engine_celsius,
            air_celsius: vehicle.air_celsius,
            engine: Engine::Off,
            run_s: 0.0,
            speed_kmh: 0.0,
        };
        Self {
            vehicle,
            step: 0,
            heat,
            sump: Sump::new(sheet, vehicle.shape),
            sensors: Sensors::new(vehicle.traits, truly, seed),
            faults: faults.to_vec(),
            timed: None,
            sensor_fault: None,
            engine: Engine::Off,
            started_at: 0,
            speed_kmh: 0.0,
            pinned: Plug::Out,
            adapter: Plug::In,
            key: Plug::In,
            selector: 0,
            shifts: Shifts::of(sheet),
            kj_k_ml: vehicle.shape.density_15 * SPECIFIC_HEAT_KJ_KGK / 1e6,
            reference: match (sheet.check.signal, sheet.check.middle().to_f64()) {
                _ if sheet.looks().last().is_some_and(|l| !l.is_gated() && l.reads_a_height()) => {
                    Reference::AtLook(None)
                }
                // A stated amount is that of fluid as it is poured.
                _ if sheet.level.rim == Rim::None => Reference::Middle(POURED_C),
                (Signal::Coolant, middle) => Reference::WithCoolant { middle, nearest: None },
                (_, middle) => Reference::Middle(middle),
            },
        }
    }

    /// The same with a trouble that is timed to the band.
    #[must_use]
    pub const fn with_timed(mut self, timed: Option<Timed>) -> Self {
        self.timed = timed;
        self
    }

    /// Lets time pass up to `to`; what has passed already passes no second time.
    pub fn advance(&mut self, to: Mono) {
        let last = to.as_millis() / STEP_MS;
        while self.step < last {
            self.step += 1;
            self.one_step();
        }
    }

    fn one_step(&mut self) {
        let path = self.path();
        let effort = if self.speed_kmh > 0.0 { DRIVING_EFFORT } else { 1.0 };
        let air_celsius = self.vehicle.air_celsius;
        let run_s = (self.step - self.started_at) as f64 * STEP_S;
        let idles = self.vehicle.traits.idle.share(self.heat.engine_celsius(), run_s);
        self.heat.advance(
            STEP_S,
            Conditions {
                engine: self.engine,
                path,
                gear: self.shifts.gear(self.selector),
                air_celsius,
                effort,
                speed: if self.speed_kmh > 0.0 { 1.0 } else { idles },
            },
        );
        self.sump.advance(STEP_S, self.heat.fluid_celsius(), self.engine, path);
        self.follow_the_reference();
        let now = self.now();
        let warm = |fault: &&Fault| {
            fault.above_tenths.is_none_or(|tenths| self.heat.fluid_celsius() * 10.0 >= f64::from(tenths))
        };
        self.sensor_fault =
            self.faults.iter().filter(|f| f.holds(now)).filter(warm).find_map(Fault::of_sensor);
        if let Some(timed) = &mut self.timed {
            self.sensor_fault = self.sensor_fault.or(timed.of_sensor(now, self.heat.fluid_celsius()));
        }
        self.sensors.advance(STEP_S, self.truly(), self.sensor_fault);
    }

    fn follow_the_reference(&mut self) {
        let idles = self.engine == Engine::Running && self.speed_kmh == 0.0;
        let (coolant, fluid) = (self.heat.engine_celsius(), self.heat.fluid_celsius());
        if let Reference::WithCoolant { middle, nearest: Some(nearest) } = &mut self.reference
            && idles
            && (coolant - *middle).abs() < nearest.0
        {
            *nearest = ((coolant - *middle).abs(), fluid);
        }
    }

    fn truly(&self) -> Truly {
        Truly {
            fluid_celsius: self.heat.fluid_celsius(),
            coolant_celsius: self.heat.engine_celsius(),
            air_celsius: self.vehicle.air_celsius,
            engine: self.engine,
            run_s: (self.step - self.started_at) as f64 * STEP_S,
            speed_kmh: self.speed_kmh,
        }
    }

    fn path(&self) -> Path {
        let hot = self.heat.fluid_celsius() >= BYPASS_OPENS_C;
        match (self.vehicle.bypass, self.pinned) {
            (Bypass::None, _) | (Bypass::Valve, Plug::In) => Path::Through,
            (Bypass::Valve, Plug::Out) if hot => Path::Through,
            (Bypass::Valve, Plug::Out) => Path::Past,
        }
    }
}

/// Hands.
impl World {
    /// Starts the engine; nothing where it runs.
    pub const fn start_engine(&mut self) {
        if matches!(self.engine, Engine::Off) {
            (self.engine, self.started_at) = (Engine::Running, self.step);
        }
    }

    /// Stops the engine.
    pub const fn stop_engine(&mut self) {
        (self.engine, self.speed_kmh) = (Engine::Off, 0.0);
    }

    /// Drives at a steady speed; 0 stands. Needs the engine.
    pub fn drive(&mut self, kmh: f64) {
        self.speed_kmh = if self.engine == Engine::Running { kmh.max(0.0) } else { 0.0 };
    }

    /// Drains a share of what stands in the sump; returns what came out, mL as it is now.
    pub fn drain(&mut self, share: f64) -> f64 {
        let out = self.sump.drain(share, self.heat.fluid_celsius());
        self.heat.drain(out * self.kj_k_ml);
        out
    }

    /// Fills fluid that has `celsius`; it takes its heat with it.
    pub fn fill(&mut self, millilitres: f64, celsius: f64) {
        self.heat.mix_into_fluid(millilitres.max(0.0) * self.kj_k_ml, celsius);
        self.sump.fill(millilitres, celsius);
    }

    /// Lets some out at the hole, or draws it out, mL.
    pub fn let_out(&mut self, millilitres: f64) {
        self.sump.let_out(millilitres, self.heat.fluid_celsius());
    }

    /// Opens the check port.
    pub const fn open_check_port(&mut self) {
        self.sump.set_check_port(Port::Open);
        match &mut self.reference {
            Reference::WithCoolant { nearest, .. } => {
                *nearest = Some((f64::INFINITY, self.heat.fluid_celsius()));
            }
            Reference::AtLook(celsius) => *celsius = Some(self.heat.fluid_celsius()),
            Reference::Middle(_) => {}
        }
    }

    /// Closes the check port.
    pub const fn close_check_port(&mut self) {
        self.sump.set_check_port(Port::Closed);
    }

    /// Moves the selector to the position numbered `to`, of `of` positions that are gone through as often as the sheet
    /// asks.
    pub fn move_selector(&mut self, to: usize, of: usize) {
        if to != self.selector {
            self.selector = to;
            self.sump.use_circuit(1.0 / (of.max(1) * self.shifts.rounds) as f64, self.engine);
        }
    }

    /// Pins the cooler bypass, or takes the pin out.
    pub const fn pin_bypass(&mut self, pin: Plug) {
        self.pinned = pin;
    }

    /// Whether the bypass is pinned.
    pub const fn bypass_pin(&self) -> Plug {
        self.pinned
    }

    /// Plugs the adapter in, or pulls it.
    pub const fn plug_adapter(&mut self, adapter: Plug) {
        self.adapter = adapter;
    }

    /// Turns the key on, or off: then the engine stops, and no control unit answers.
    pub const fn turn_key(&mut self, key: Plug) {
        self.key = key;
        if matches!(key, Plug::Out) {
            self.stop_engine();
        }
    }

    /// Whether the key is on.
    pub const fn key(&self) -> Plug {
        self.key
    }

    /// Levels the vehicle, or tilts it: nose up and left side up are positive, degrees.
    pub fn stand(&mut self, pitch_degrees: f64, roll_degrees: f64) {
        self.sump.stand(pitch_degrees, roll_degrees);
    }
}

/// Eyes and truths.
impl World {
    /// The instant up to which time has passed.
    pub const fn now(&self) -> Mono {
        Mono::from_millis(self.step * STEP_MS)
    }

    /// Whether the engine runs.
    pub const fn engine(&self) -> Engine {
        self.engine
    }

    /// Whether the check port is open.
    pub const fn check_port(&self) -> Port {
        self.sump.check_port()
    }

    /// The stream out of the check port, mL/min.
    pub const fn stream_ml_min(&self) -> f64 {
        self.sump.stream_ml_min()
    }

    /// Whether the adapter is plugged in.
    pub fn adapter(&self) -> Plug {
        let pulled = |fault: &Fault| {
            matches!(fault.kind, FaultKind::AdapterUnplugged | FaultKind::ReEnumerated)
                && fault.holds(self.now())
        };
        if self.faults.iter().any(pulled) { Plug::Out } else { self.adapter }
    }

    /// How it stands: pitch and roll, degrees.
    pub const fn attitude(&self) -> (f64, f64) {
        (self.sump.shape().pitch_degrees, self.sump.shape().roll_degrees)
    }

    /// What came in and out.
    pub const fn out(&self) -> Out {
        self.sump.out()
    }

    /// What the sensors show.
    pub const fn shown(&self) -> Shown {
        self.sensors.shown()
    }

    /// What is wrong with the fluid sensor now.
    pub const fn sensor_fault(&self) -> Option<SensorFault> {
        self.sensor_fault
    }

    /// How the control unit of the fluid sensor comes to whole counts.
    pub const fn counting(&self) -> Counting {
        self.sensors.counting()
    }

    /// The vehicle.
    pub const fn vehicle(&self) -> &Vehicle {
        &self.vehicle
    }

    /// The faults it was made with.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The true fluid temperature, °C.
    pub const fn fluid_celsius(&self) -> f64 {
        self.heat.fluid_celsius()
    }

    /// What a thermometer without error shows on tape at the sump, °C.
    pub fn tape_celsius(&self) -> f64 {
        let fluid = self.fluid_celsius();
        fluid - TAPE_BELOW_FLUID * (fluid - self.vehicle().air_celsius)
    }

    /// The true coolant temperature, °C.
    pub const fn coolant_celsius(&self) -> f64 {
        self.heat.engine_celsius()
    }

    /// What lies beside the fluid and the coolant, °C.
    pub const fn nodes(&self) -> Nodes {
        self.heat.nodes()
    }

    /// The true level error, mL; positive is too much.
    pub fn level_error_ml(&self) -> f64 {
        self.sump.level_error_ml(self.reference_celsius())
    }

    /// How far it was off before anybody touched it, mL; positive is too much.
    pub fn level_error_before_ml(&self) -> f64 {
        self.sump.level_error_before_ml(self.reference_celsius())
    }

    /// The temperature of the fluid that the level is told at.
    fn reference_celsius(&self) -> f64 {
        match self.reference {
            Reference::Middle(celsius) | Reference::WithCoolant { nearest: Some((_, celsius)), .. } => {
                celsius
            }
            Reference::AtLook(Some(celsius)) => celsius,
            Reference::WithCoolant { nearest: None, .. } | Reference::AtLook(None) => {
                self.heat.fluid_celsius()
            }
        }
    }

    /// What stands above the rim at the pipe, mL.
    pub fn excess_ml(&self) -> f64 {
        self.sump.excess_ml(self.heat.fluid_celsius())
    }

    /// Where the fluid stands below the lower edge of the hole, mm; negative above it.
    pub fn below_edge_mm(&self) -> f64 {
        self.sump.below_edge_mm(self.heat.fluid_celsius())
    }

    /// What a gauge pushed to its stop shows by the chart of the sheet, mm; none where it has none.
    pub fn gauge_mm(&self, sheet: &Sheet) -> Option<f64> {
        let look = sheet.looks().last().cloned()?;
        let celsius = self.heat.fluid_celsius();
        let over_ml = self.sump.over_right_ml(celsius, self.reference_celsius());
        Some(look.chart_at(celsius)?.middle_mm() + over_ml / look.ml_per_mm?)
    }

    /// The fluid inside, as mL at 15 °C.
    pub const fn mass_15(&self) -> f64 {
        self.sump.mass_15()
    }
}

/// The true temperature of the signal that the sheet gates on.
pub fn true_signal(world: &World, signal: Signal) -> f64 {
    match signal {
        Signal::Coolant => world.coolant_celsius(),
        Signal::Fluid | Signal::Spot | Signal::Display | Signal::Lamp => world.fluid_celsius(),
    }
}

/// The grid of time.
/// Own choice: a tenth of what the gate can tell apart, and quick enough for a campaign.
const STEP_MS: u64 = 100;
const STEP_S: f64 = STEP_MS as f64 / 1_000.0;
/// Where a thermostatic bypass gives way.
/// Source: physics reference, section 7: 70 to 100 °C.
const BYPASS_OPENS_C: f64 = 80.0;
/// Specific heat of the fluid at 40 °C, kJ/kgK.
/// Source: physics reference, section 7: 1.97.
const SPECIFIC_HEAT_KJ_KGK: f64 = 1.97;
/// How much more heat a gentle drive makes than idling.
/// Own choice: between an idle and a road at steady speed.
const DRIVING_EFFORT: f64 = 2.5;
/// Tape on a metal sump is colder than the fluid by this share of the excess over the air.
/// Source: physics reference, section 8: 1 to 2 °C at 40 °C in still air.
const TAPE_BELOW_FLUID: f64 = 0.06;
