//! What one rehearsal is made of: vehicle, adapter, faults, technician.
//!
//! In: a seed and sheets, or a mistake by name. Out: [`Setup`]. The ranges are those of the physics reference,
//! section 7 (heat) and of docs/rehearsal.md; nothing here is a measurement.
//! Not here: the run itself (`stage.rs`).

use events::{Drive, FillFrom, Rim, Sheet, Task};

use crate::bus::{self, Bus};
use crate::car::{Car, SerialLine};
use crate::dice::Dice;
use crate::embedded;
use crate::fault::{Fault, FaultKind};
use crate::firmware::{self, Firmware};
use crate::identifiers::{Form, Identifiers};
use crate::idle::{Idle, Motor};
use crate::mistake::Mistake;
use crate::sensors::{Counting, Traits};
use crate::technician::{Script, Technician};
use crate::thermal::Thermal;
use crate::timed::Timed;
use crate::warmup::Warmup;
use crate::world::{Vehicle, World, sump_kj_k};

/// One rehearsal, ready to run.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// The seed of everything that looks like chance.
    pub seed: u64,
    /// The sheet that daemon and technician go by.
    pub sheet: Sheet,
    /// The vehicle as it truly is.
    pub vehicle: Vehicle,
    /// The recording that leads the coolant.
    pub warmup: Option<Warmup>,
    /// What is wrong with sensors and adapter.
    pub faults: Vec<Fault>,
    /// What strikes near the band.
    pub timed: Option<Timed>,
    /// The bus that the vehicle speaks.
    pub bus: &'static Bus,
    /// The adapter's firmware.
    pub firmware: &'static Firmware,
    /// How the adapter hangs on the host.
    pub serial: SerialLine,
    /// How the technician works.
    pub script: Script,
    /// Which events the ending keeps.
    pub keep: Keep,
    /// The fluid's identifier is another than the sheet's, and nobody knows it: how the vehicle is drawn.
    pub unknown: Option<Unknown>,
}

/// How the identifiers of a vehicle are drawn that nobody knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unknown {
    /// By this seed.
    pub seed: u64,
    /// What is unusual about it; drawn where absent.
    pub form: Option<Form>,
}

impl Unknown {
    /// The identifiers themselves.
    pub fn identifiers(self, bus: &Bus) -> Identifiers {
        match self.form {
            Some(form) => Identifiers::of_form(self.seed, bus, form),
            None => Identifiers::draw(self.seed, bus),
        }
    }
}

/// Which events the ending keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// None.
    Nothing,
    /// All but readings, estimates and forecasts.
    Facts,
    /// All.
    All,
}

impl Setup {
    /// The rehearsal with or without one mistake, of the vehicle that `sheet` describes.
    ///
    /// The warm-up leads the coolant, except where the mistake needs another vehicle: `started-hot` comes from the
    /// road, and `bypass-not-pinned` needs a sheet with a bypass and takes the embedded eight-speed where `sheet`
    /// has none. Use [`Setup::sheet`] for the daemon.
    pub fn named(mistake: Option<Mistake>, sheet: &Sheet, warmup: Option<Warmup>, seed: u64) -> Self {
        let mut dice = Dice::part(seed, 0x5E7);
        let mut setup = Self::ordinary(mistake, sheet, warmup, seed, &mut dice);
        // Below the guarded band, so that the rehearsal shows what is meant: the window never comes.
        setup.prepare_mistake(&mut dice, -0.5);
        setup
    }

    /// A vehicle typical in everything, with small errors.
    fn ordinary(
        mistake: Option<Mistake>,
        sheet: &Sheet,
        warmup: Option<Warmup>,
        seed: u64,
        dice: &mut Dice,
    ) -> Self {
        let lacks_bypass = mistake == Some(Mistake::BypassNotPinned) && !sheet.before.cooler_bypass;
        let sheet = if lacks_bypass { embedded::eight_speed() } else { sheet.clone() };
        let warmup = warmup.filter(|_| mistake != Some(Mistake::StartedHot));
        let (air, engine) = warmup.as_ref().map_or((18.0, 18.0), |log| (soak_air(log), log.start_celsius()));
        let mut vehicle =
            Vehicle { engine_celsius: engine, fluid_celsius: engine, ..Vehicle::typical(&sheet, air) };
        vehicle.traits = Traits {
            fluid_offset_k: dice.within(0.5),
            coolant_offset_k: 0.0,
            intake_offset_k: dice.within(0.5),
            ambient_offset_k: dice.within(0.5),
            ..Traits::GOOD
        };
        vehicle.shape.shortage_ml = dice.within(120.0);
        vehicle.shape.pitch_degrees = dice.within(0.1);
        vehicle.shape.roll_degrees = dice.within(0.1);
        Self {
            seed,
            sheet,
            vehicle,
            warmup,
            faults: Vec::new(),
            timed: None,
            bus: Bus::usual(),
            firmware: firmware::ALL.first().copied().unwrap_or(&firmware::ORIGINAL_21),
            serial: SerialLine::USUAL,
            script: Script { mistake, ..Script::GOOD },
            keep: Keep::All,
            unknown: None,
        }
    }

    /// The recheck of job `of`: the same vehicle after a night, nothing drained and filled. `shortage_ml` is what is
    /// missing in it now, at mid-band; negative is too much.
    pub fn recheck(of: u64, shortage_ml: f64, sheet: &Sheet, warmup: Option<Warmup>, seed: u64) -> Self {
        let mut setup = Self::named(None, sheet, warmup, seed);
        setup.vehicle.shape.shortage_ml = shortage_ml;
        setup.script.recheck_of = Some(of);
        setup
    }

    /// The check of a vehicle that nobody knows: nothing is drained, and `shortage_ml` is missing in it, at mid-band;
    /// negative is too much.
    pub fn check(shortage_ml: f64, sheet: &Sheet, warmup: Option<Warmup>, seed: u64) -> Self {
        let mut setup = Self::named(None, sheet, warmup, seed);
        setup.vehicle.shape.shortage_ml = shortage_ml;
        setup.script.job = Task::Check;
        setup
    }

    /// The usual job of a cold vehicle whose identifier nobody knows: it is found on the way. The sheet is gated by a thermometer until
    /// then. `None` where the sheet goes by the coolant.
    pub fn find(sheet: &Sheet, unknown: Unknown, seed: u64) -> Option<Self> {
        let sheet = Sheet { identifier: None, ..sheet.by_people()? };
        let mut setup = Self::named(None, &sheet, None, seed);
        let vehicle = &mut setup.vehicle;
        (vehicle.air_celsius, vehicle.engine_celsius, vehicle.fluid_celsius) = (COLD_C, COLD_C, COLD_C);
        setup.unknown = Some(unknown);
        setup.script.finds = true;
        Some(setup)
    }

    /// The procedure of any sheet: he does what he is told, and nothing else. `shortage_ml` is what is missing before
    /// the job, at mid-band; negative is too much.
    pub fn by_advice(shortage_ml: f64, sheet: &Sheet, warmup: Option<Warmup>, seed: u64) -> Self {
        let mut setup = Self::named(None, sheet, warmup, seed);
        setup.vehicle.shape.shortage_ml = shortage_ml;
        setup.script.by_advice = true;
        setup
    }

    /// What is missing in the vehicle that is checked with this seed, mL; negative is too much.
    pub fn missing_in_a_check(seed: u64) -> f64 {
        Dice::part(seed, 0x0C4E).between(CHECKED_ML.0, CHECKED_ML.1)
    }

    /// The check of a drawn vehicle by a drawn technician who makes no mistake, all in good order; the level is
    /// anything from
    /// `CHECKED_ML` too low to as much too high.
    pub fn draw_check(seed: u64, sheets: &[Sheet]) -> Self {
        let mut setup = Self::draw(seed, sheets);
        let mut dice = Dice::part(seed, 0xC4EC);
        setup.faults.clear();
        if setup.script.mistake.is_some() {
            setup = setup.without_mistake(&mut dice);
        }
        setup.vehicle.shape.shortage_ml = Self::missing_in_a_check(seed);
        setup.script = Script { mistake: None, job: Task::Check, ..setup.script };
        setup
    }

    /// The procedure of a drawn sheet: a drawn vehicle, and somebody who does what he is told, with a second person,
    /// alone or without an adapter. No mistake is made; faults of link and vehicle are as they come.
    pub fn draw_procedure(seed: u64, sheets: &[Sheet]) -> Self {
        let mut setup = Self::draw(seed, sheets);
        let mut dice = Dice::part(seed, 0x9_0CED);
        if setup.script.mistake.is_some() {
            setup = setup.without_mistake(&mut dice);
        }
        setup.vehicle.shape.shortage_ml = dice.within(0.05) * setup.sheet.fluid.total_ml;
        let who = dice.between(0.0, 3.0) as u32;
        setup.script.by_advice = true;
        setup.script.alone = who == 1;
        match who {
            2 => setup.clone().by_people().unwrap_or(setup),
            _ => setup,
        }
    }

    /// What a mistake did to the vehicle goes with it.
    pub(crate) fn without_mistake(self, dice: &mut Dice) -> Self {
        let mut setup = Self {
            keep: self.keep,
            firmware: self.firmware,
            ..Self::ordinary(None, &self.sheet, None, self.seed, dice)
        };
        setup.draw_vehicle(dice);
        setup.vehicle.traits = draw_traits(dice, self.seed);
        setup
    }

    /// The same without an adapter: technician and helper tell everything. `None` where its sheet goes by the coolant.
    #[must_use]
    pub fn by_people(mut self) -> Option<Self> {
        self.sheet = self.sheet.by_people()?;
        self.script.people = true;
        Some(self)
    }

    /// A vehicle, an adapter and a technician drawn from everything that may be, each run another.
    ///
    /// `sheets` empty: the embedded six-speed.
    pub fn draw(seed: u64, sheets: &[Sheet]) -> Self {
        let mut dice = Dice::part(seed, 0xD4A3);
        let sheet = dice.pick(sheets).cloned().unwrap_or_else(embedded::six_speed);
        let mistake = if dice.chance(0.4) { dice.pick(Mistake::ALL).copied() } else { None };
        let log = dice.chance(0.25).then(embedded::warmup);
        let mut setup = Self::ordinary(mistake, &sheet, log, seed, &mut dice);
        setup.keep = Keep::Facts;
        setup.draw_vehicle(&mut dice);
        setup.vehicle.traits = draw_traits(&mut dice, seed);
        setup.script = Script {
            mistake,
            trickle_ml_min: dice.between(6.0, 14.0),
            jug_ml: 25.0,
            inclination_degrees: 0.1,
            pace: dice.between(0.7, 1.3),
            recheck_of: None,
            job: Task::Change,
            people: false,
            ..Script::GOOD
        };
        setup.firmware = dice.pick(firmware::ALL).copied().unwrap_or(setup.firmware);
        setup.serial = SerialLine {
            baud: dice.pick(&[9_600, 38_400, 115_200]).copied().unwrap_or(38_400),
            latency_ms: dice.between(1.0, 21.0),
        };
        if dice.chance(0.3) {
            setup.bus = dice.pick(bus::ALL).copied().unwrap_or(setup.bus);
        }
        if dice.chance(0.5) {
            let of_sensor = dice.chance(0.3);
            let drawn = |kind: &FaultKind| kind.is_of_sensor() == of_sensor && !NOT_DRAWN.contains(kind);
            let kinds: Vec<FaultKind> = FaultKind::ALL.iter().copied().filter(drawn).collect();
            let kind = dice.pick(&kinds).copied().unwrap_or(FaultKind::NoData);
            setup.faults.push(Fault::new(kind, dice.between(30.0, 2_400.0) as u64));
        }
        let [low, high] = setup.sheet.check.band_c;
        setup.prepare_mistake(&mut dice, high - low);
        setup
    }

    /// The vehicle with its adapter.
    pub fn car(&self) -> Car {
        let world = World::new(&self.sheet, self.vehicle, self.warmup.clone(), &self.faults, self.seed)
            .with_timed(self.timed);
        let mut car = Car::on(self.bus, world, &self.sheet, self.firmware, self.serial, self.seed);
        if let Some(unknown) = self.unknown {
            car.give(unknown.identifiers(self.bus));
        }
        car
    }

    /// The technician.
    pub fn technician(&self) -> Technician {
        Technician::new(self.script, &self.sheet, self.seed)
    }

    /// What the mistake does to the vehicle. A frozen sensor sticks up to `stuck_k` above the band's low edge.
    fn prepare_mistake(&mut self, dice: &mut Dice, stuck_k: f64) {
        let Some(mistake) = self.script.mistake else { return };
        let vehicle = &mut self.vehicle;
        match mistake {
            Mistake::StartedHot => {
                vehicle.engine_celsius = dice.between(75.0, 88.0);
                vehicle.fluid_celsius = dice.between(70.0, 85.0);
            }
            Mistake::NotLevel => vehicle.shape.pitch_degrees = dice.between(1.5, 2.0),
            Mistake::LowBefore => {
                vehicle.shape.shortage_ml = self.sheet.fluid.margin_ml + dice.between(200.0, 400.0)
            }
            Mistake::SensorFrozen => {
                // When the fluid will be there is not known beforehand: the sensor sticks at a temperature.
                let stuck = self.sheet.check.low().to_f64() + dice.between(-4.0, stuck_k);
                self.faults.push(Fault::new(FaultKind::SensorFrozen, 0).above(stuck));
            }
            _ => {}
        }
    }

    /// Heat, air and amounts, from the ranges of the physics reference, so that the window can come at all.
    fn draw_vehicle(&mut self, dice: &mut Dice) {
        let middle = self.sheet.check.middle().to_f64();
        let air = match &self.warmup {
            Some(log) => soak_air(log),
            None => dice.between(-5.0, 32.0),
        };
        let valve = self.sheet.before.cooler_bypass;
        let engine = Motor::of(self.seed);
        let mut small = Dice::part(self.seed, 0x5CA1);
        for _ in 0..16 {
            let cooled = valve || dice.chance(0.3);
            self.vehicle.thermal =
                draw_thermal(dice, cooled, sump_kj_k(&self.sheet)).small(&mut small, engine);
            if warm_end(&self.vehicle.thermal, air, middle) > middle + 8.0 {
                break;
            }
        }
        let vehicle = &mut self.vehicle;
        vehicle.air_celsius = air;
        let start = self.warmup.as_ref().map_or(air + dice.within(1.5), Warmup::start_celsius);
        (vehicle.engine_celsius, vehicle.fluid_celsius) = (start, start + dice.within(0.5));
        let shape = &mut vehicle.shape;
        let (converter, circuits, cooler) =
            (dice.between(0.3, 0.6), dice.between(0.02, 0.06), dice.between(0.05, 0.15));
        // What the sheet's own amounts rest on is as the sheet says.
        let own = shape.converter_ml == 0.0 || self.sheet.look.iter().any(|look| look.then_add_ml > 0.0);
        if !own {
            shape.converter_ml = converter * shape.drain_ml;
            shape.circuits_ml = circuits * shape.drain_ml;
            shape.cooler_ml = cooler * shape.drain_ml;
        }
        shape.area_m2 *= dice.between(0.9, 1.1);
        shape.density_15 += dice.within(8.0);
        shape.shortage_ml = dice.within(300.0);
        (shape.pitch_degrees, shape.roll_degrees) = (dice.within(0.3), dice.within(0.3));
    }
}

/// Whether the scripted way knows the sheet's procedure: one look at a pipe that is filled from above, the engine
/// idling.
pub fn is_usual(sheet: &Sheet) -> bool {
    let level = &sheet.level;
    let engine = level.drive == Drive::Engine && level.fill_from == FillFrom::UpperPort;
    engine && level.rim == Rim::Pipe && sheet.look.is_empty()
}

/// The air in the workshop of a vehicle that soaked there before the recording: a log that starts cold found
/// coolant and air alike, whatever the weather outside; one that starts warm came from the road.
fn soak_air(log: &Warmup) -> f64 {
    let start = log.start_celsius();
    match log.ambient_celsius() {
        Some(outside) if start - outside > SOAKED_WITHIN_K => outside,
        _ => start - 0.5,
    }
}

/// Where the fluid would end with the engine held by its thermostat and the heat of a fluid at `middle`, °C.
fn warm_end(thermal: &Thermal, air: f64, middle: f64) -> f64 {
    let exchange = thermal.through_cooler_w_k() + thermal.bell_w_k;
    let losses = thermal.case_air_w_k + thermal.sump_air_w_k;
    let made = thermal.fluid_kw(middle) * 1_000.0;
    (made + exchange * thermal.thermostat_celsius + losses * air) / (exchange + losses)
}

/// One vehicle's heat: the sums lie in the ranges of the physics reference, section 7; how they are shared is
/// estimated.
fn draw_thermal(dice: &mut Dice, cooled: bool, sump_kj_k: f64) -> Thermal {
    let engine_kj_k = dice.between(60.0, 140.0);
    let metal = dice.between(0.6, 0.8);
    let fluid_kw = dice.between(0.3, 1.5);
    let in_converter = dice.between(0.1, 0.3);
    let overall_w_k = if cooled { dice.between(60.0, 250.0) } else { dice.between(3.0, 15.0) };
    // Of exchange and flow, one after the other, neither may be less than what comes of both.
    let flow_w_k = (overall_w_k * dice.between(1.5, 3.0)).max(120.0);
    let engine_air_w_k = dice.between(15.0, 60.0);
    let fluid_air_w_k = dice.between(8.0, 30.0);
    let pan = dice.between(0.3, 0.5);
    Thermal {
        metal_kj_k: engine_kj_k * metal,
        coolant_kj_k: engine_kj_k * (1.0 - metal),
        sump_kj_k,
        case_kj_k: dice.between(10.0, 50.0),
        converter_kj_k: dice.between(8.0, 16.0),
        cooler_kj_k: dice.between(1.0, 3.0),
        engine_kw: dice.between(2.5, 7.0),
        cold_idle_share: dice.between(0.0, 0.5),
        drag_kw: fluid_kw * (1.0 - in_converter),
        converter_kw: fluid_kw * in_converter,
        gear_kw: dice.between(0.8, 2.5),
        thins_per_k: dice.between(0.004, 0.012),
        metal_coolant_w_k: dice.between(300.0, 800.0),
        bell_w_k: dice.between(3.0, 15.0),
        case_sump_w_k: dice.between(400.0, 1_500.0),
        converter_flow_w_k: dice.between(80.0, 250.0),
        cooler_flow_w_k: flow_w_k,
        cooler_w_k: flow_w_k * overall_w_k / (flow_w_k - overall_w_k),
        tank_w_k: if cooled { 0.0 } else { dice.between(5.0, 40.0) },
        metal_air_w_k: engine_air_w_k * 0.7,
        coolant_air_w_k: engine_air_w_k * 0.3,
        case_air_w_k: fluid_air_w_k * (1.0 - pan),
        sump_air_w_k: fluid_air_w_k * pan,
        gusts: dice.between(0.0, 0.6),
        thermostat_celsius: dice.between(82.0, 105.0),
        thermostat_falls_k: dice.between(2.0, 8.0),
        thermostat_lag_s: dice.between(5.0, 30.0),
        radiator_w_k: dice.between(30.0, 100.0),
        fan_w_k: dice.between(400.0, 1_200.0),
        fan_above_k: dice.between(6.0, 14.0),
    }
}

impl Thermal {
    /// A small engine warms as quickly as the one that was measured.
    fn small(self, dice: &mut Dice, engine: Motor) -> Self {
        let (kj_k, metal) =
            (dice.between(35.0, 75.0), self.metal_kj_k / (self.metal_kj_k + self.coolant_kj_k));
        let engine_kw = dice.between(4.5, 9.0);
        match engine {
            Motor::Usual => self,
            Motor::Small => {
                Self { metal_kj_k: kj_k * metal, coolant_kj_k: kj_k * (1.0 - metal), engine_kw, ..self }
            }
        }
    }
}

fn draw_traits(dice: &mut Dice, seed: u64) -> Traits {
    Traits {
        fluid_offset_k: dice.within(1.0),
        fluid_lag_s: dice.between(1.0, 15.0),
        fluid_noise_k: dice.between(0.0, 0.3),
        counting: if dice.chance(0.5) { Counting::Rounded } else { Counting::Truncated },
        coolant_offset_k: dice.within(1.0),
        intake_offset_k: dice.within(1.5),
        ambient_offset_k: dice.within(1.5),
        idle: Idle::draw(&mut Dice::part(seed, 0x1D7E), dice.between(620.0, 820.0), Motor::of(seed)),
        idle_jitter_rpm: dice.between(3.0, 25.0),
        battery_volts: dice.between(11.8, 12.7),
    }
}

/// Not drawn: as long as the first sender of a quantity is kept to, its `go` would be a wrong one.
const NOT_DRAWN: [FaultKind; 1] = [FaultKind::TwoUnitsAnswer];
/// An unheated workshop in winter, °C.
/// Own choice: the fluid has far to go.
const COLD_C: f64 = 2.0;
/// What is missing in vehicles that are checked, mL.
/// Own choice: from too much to far too little.
const CHECKED_ML: (f64, f64) = (-800.0, 1_500.0);
/// Coolant further above the outside air than this at the first row is no soaked vehicle.
/// Own choice: a heated hall in winter is less far above it, a warm engine further.
const SOAKED_WITHIN_K: f64 = 25.0;
