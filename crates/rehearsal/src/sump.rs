//! The fluid: where it is, how high it stands above the rim, what runs out.
//!
//! ```text
//!   mass (mL at 15 °C) ── expands with temperature ──► volume
//!   volume - retained - converter - circuits - cooler - pocket  = in the sump
//!   in the sump - what the rim holds back              = excess;  excess + tilt (+ wave) = head at the rim ──► stream
//! ```
//!
//! The pocket is what stands in the pipe's foot and on the plug: it fills over the rim while the plug is in, and comes
//! as the first gush whatever the level. The rim is that of the sheet: a pipe's, or the lower edge of a hole.
//!
//! In: what the hands do, seconds, temperature, whether the pump turns. Out: stream, amounts, the true level error.
//! Mass is conserved to the last bit that `f64` carries: what is not inside was drained or ran out.
//! Not here: heat (`thermal.rs`); the law of the stream, expansion and viscosity (`fluid`).
//! Method and figures: docs/rehearsal.md, "Sump and standpipe".

use events::{Drive, Right, Rim, Sheet, Standpipe};
use fluid::run_out::{RunOut, TRICKLE_ML_MIN};
use fluid::viscosity::Walther;
use fluid::{tilt, volume};

use crate::thermal::{Engine, Path};

/// The figures of one vehicle's sump. Volumes in mL.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Everything, at mid-band, when the level is right.
    pub total_ml: f64,
    /// What a drain brings out then.
    pub drain_ml: f64,
    /// What converter and pump take from the sump while the engine runs.
    pub converter_ml: f64,
    /// What the circuits of the selector's positions take once they have been used.
    pub circuits_ml: f64,
    /// What the cooler and its lines take once the fluid goes through them.
    pub cooler_ml: f64,
    /// The free surface as it really is, m².
    pub area_m2: f64,
    /// The density at 15 °C as it really is, kg/m³.
    pub density_15: f64,
    /// Nose up is positive, degrees.
    pub pitch_degrees: f64,
    /// Left side up is positive, degrees.
    pub roll_degrees: f64,
    /// How much is missing before the job, mL at mid-band; negative is too much.
    pub shortage_ml: f64,
    /// How fast the converter drains back while the engine stands, a time constant in s.
    pub converter_empties_s: f64,
    /// What stands in the pipe's foot and on the plug, mL.
    pub pocket_ml: f64,
    /// A twin clutch sends so much over the rim now and then, mL.
    pub wave_ml: f64,
}

impl Shape {
    /// The shape that the sheet describes, level, with the right amount in it.
    pub fn of(sheet: &Sheet) -> Self {
        let drain = sheet.fluid.drain_ml;
        let looks = sheet.looks();
        // What no look asks an engine for has no pump and no converter either.
        let pumps = sheet.level.drive != Drive::None && looks.iter().any(|l| l.idles() || l.is_gated());
        let added: f64 = looks.iter().map(|look| look.then_add_ml).sum();
        let taken = match (pumps, added > 0.0) {
            (false, _) => 0.0,
            (true, false) => USUALLY_TAKEN * drain,
            // The sheet says what the circuits take: what is added after the look with the engine off, but for the
            // margin.
            (true, true) => (added - sheet.fluid.margin_ml).max(0.0),
        };
        let last = looks.last().cloned().unwrap_or_default();
        let held_back = pumps && !last.idles();
        Self {
            total_ml: sheet.fluid.total_ml,
            drain_ml: drain,
            converter_ml: taken * 0.5 / USUALLY_TAKEN,
            circuits_ml: taken * 0.05 / USUALLY_TAKEN,
            cooler_ml: taken * 0.12 / USUALLY_TAKEN,
            converter_empties_s: if held_back { CONVERTER_HOLDS_S } else { CONVERTER_EMPTIES_S },
            pocket_ml: sheet.gush_ml(),
            wave_ml: if sheet.level.wave.is_some() { WAVE_ML } else { 0.0 },
            area_m2: sheet.standpipe.surface_m2,
            density_15: sheet.fluid.density_15,
            pitch_degrees: 0.0,
            roll_degrees: 0.0,
            shortage_ml: 0.0,
        }
    }
}

/// The fluid as it is now.
#[derive(Debug, Clone, PartialEq)]
pub struct Sump {
    shape: Shape,
    fluid: events::Fluid,
    pipe: Standpipe,
    /// What the rim holds back on a level vehicle, mL.
    rim_ml: f64,
    /// What tilt adds to the head at the pipe, mL of surface.
    tilt_ml: f64,
    /// The mass, as mL at 15 °C: now, and before anybody touched it.
    mass_15: f64,
    before_15: f64,
    converter_ml: f64,
    circuits_ml: f64,
    cooler_ml: f64,
    pocket_ml: f64,
    /// What there is no wave without: its period, and where in it this is, s.
    wave: Option<(f64, f64)>,
    out: Out,
    stream_ml_min: f64,
    /// The law of the stream, and for which temperature; none where the pipe is none.
    law: (f64, Option<RunOut>),
    check_port: Port,
}

/// What came in and out so far, as mL at 15 °C.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Out {
    /// Came out at the drain.
    pub drained_15: f64,
    /// Went in.
    pub filled_15: f64,
    /// Ran out at the check port.
    pub ran_out_15: f64,
    /// The same, as it was when it ran out.
    pub caught_ml: f64,
}

/// Whether a port is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Port {
    /// Closed.
    Closed,
    /// Open.
    Open,
}

impl Sump {
    /// A vehicle that has stood for a night: converter, circuits and cooler have drained back.
    pub fn new(sheet: &Sheet, shape: Shape) -> Self {
        let none = sheet.level.rim == Rim::None;
        let middle_celsius = if none { POURED_C } else { sheet.check.middle().to_f64() };
        let pipe = Standpipe { surface_m2: shape.area_m2, ..sheet.standpipe.clone() };
        let law = run_out(&pipe, &sheet.fluid, middle_celsius);
        let look = sheet.looks().last().cloned().unwrap_or_default();
        let sign_ml_min = match look.right {
            Right::Trickle => Some(TRICKLE_ML_MIN),
            Right::Drips | Right::FirstDrips => Some(DRIPS_ML_MIN),
            _ => None,
        };
        let film_ml = law.zip(sign_ml_min).map_or(0.0, |(law, ml_min)| {
            law.head_for_flow_mm(ml_min).map_or(0.0, |head| law.residual_ml(head))
        });
        // Where the level of the last look stands: the engine's share is out of the sump, or has come back by then.
        let (mut converter, mut circuits) = (shape.converter_ml, shape.circuits_ml);
        if !look.idles() {
            let from = f64::from(look.wait_from_s());
            let waited = look.wait_to_s().map_or(from, |to| f64::midpoint(from, f64::from(to)));
            converter *= (-waited / shape.converter_empties_s).exp();
            circuits *= (-waited / CIRCUITS_EMPTY_S).exp();
        }
        let taken = converter + circuits + shape.cooler_ml;
        let edge_ml = look.mm.map_or(0.0, |[low, high]| f64::midpoint(low, high) * shape.area_m2 * 1_000.0);
        let mass_15 = (shape.total_ml - shape.shortage_ml) * vcf(middle_celsius, shape.density_15);
        let mut sump = Self {
            shape,
            fluid: sheet.fluid.clone(),
            pipe,
            rim_ml: shape.drain_ml - taken - film_ml + edge_ml,
            tilt_ml: 0.0,
            mass_15,
            before_15: mass_15,
            converter_ml: 0.0,
            circuits_ml: 0.0,
            cooler_ml: 0.0,
            // Whoever closed it last left it full.
            pocket_ml: shape.pocket_ml,
            wave: sheet.level.wave.map(|wave| (wave.every_s, 0.0)),
            out: Out::default(),
            stream_ml_min: 0.0,
            law: (middle_celsius, law),
            check_port: Port::Closed,
        };
        sump.stand(shape.pitch_degrees, shape.roll_degrees);
        sump
    }

    /// How the vehicle stands from now on.
    pub fn stand(&mut self, pitch_degrees: f64, roll_degrees: f64) {
        let [dx_mm, dy_mm] = self.pipe.offset_mm;
        let place = tilt::PipePlace { dx_mm, dy_mm, area_m2: self.shape.area_m2 };
        let attitude = tilt::Attitude { pitch_deg: pitch_degrees, roll_deg: roll_degrees };
        self.tilt_ml = tilt::at_pipe(attitude, place).map_or(0.0, |at_pipe| -at_pipe.millilitres);
        (self.shape.pitch_degrees, self.shape.roll_degrees) = (pitch_degrees, roll_degrees);
    }

    /// One step of `seconds` at `celsius`.
    pub fn advance(&mut self, seconds: f64, celsius: f64, engine: Engine, path: Path) {
        let vcf = vcf(celsius, self.shape.density_15);
        let free = self.mass_15 / vcf - (self.shape.total_ml - self.shape.drain_ml);
        let pumped = engine == Engine::Running;
        let room = (free - self.converter_ml - self.circuits_ml - self.cooler_ml - self.pocket_ml).max(0.0);
        if pumped {
            let take = (self.shape.converter_ml - self.converter_ml) * seconds / CONVERTER_FILLS_S;
            self.converter_ml += take.min(room);
            if path == Path::Through {
                let take = (self.shape.cooler_ml - self.cooler_ml) * seconds / COOLER_FILLS_S;
                self.cooler_ml += take.min((room - take).max(0.0));
            }
        } else {
            self.converter_ml -= self.converter_ml * seconds / self.shape.converter_empties_s;
            self.circuits_ml -= self.circuits_ml * seconds / CIRCUITS_EMPTY_S;
        }

        self.run_out(seconds, celsius, pumped);
    }

    /// What leaves at the rim: into the pocket while the plug is in, out of it where it is not.
    fn run_out(&mut self, seconds: f64, celsius: f64, pumped: bool) {
        let vcf = vcf(celsius, self.shape.density_15);
        let wave_ml = self.wave(seconds, pumped);
        let head_ml = self.in_sump_ml(vcf) - self.rim_ml + self.tilt_ml;
        self.stream_ml_min = 0.0;
        if self.check_port == Port::Closed {
            let room = self.shape.pocket_ml - self.pocket_ml;
            self.pocket_ml += (POCKET_FILLS_ML_S * seconds).min(room).min(head_ml).max(0.0);
            return;
        }
        let gush = (self.shape.pocket_ml / GUSH_S * seconds).min(self.pocket_ml);
        self.pocket_ml -= gush;
        let over = self.over_the_rim(seconds, celsius, head_ml + wave_ml);
        let ran_out = gush + over;
        self.stream_ml_min = ran_out / seconds * 60.0;
        self.mass_15 -= ran_out * vcf;
        self.out.ran_out_15 += ran_out * vcf;
        self.out.caught_ml += ran_out;
    }

    /// By the law of the stream, mL.
    fn over_the_rim(&mut self, seconds: f64, celsius: f64, head_ml: f64) -> f64 {
        if head_ml <= 0.0 {
            return 0.0;
        }
        if (celsius - self.law.0).abs() > VISCOSITY_RENEWED_K {
            self.law = (celsius, run_out(&self.pipe, &self.fluid, celsius));
        }
        let head_mm = head_ml / self.shape.area_m2 / 1_000.0;
        let ml_min = self.law.1.map_or(0.0, |law| law.flow(head_mm).ml_min);
        (ml_min / 60.0 * seconds).min(head_ml)
    }

    /// How much the wave of a clutch adds to the head now, mL.
    fn wave(&mut self, seconds: f64, pumped: bool) -> f64 {
        let Some((every, phase)) = &mut self.wave else { return 0.0 };
        *phase = (*phase + seconds) % every.max(seconds);
        if pumped && *phase < WAVE_S { self.shape.wave_ml } else { 0.0 }
    }

    /// Takes `share` (0 to 1) of what stands in the sump out at the drain. Returns mL at `celsius`.
    pub fn drain(&mut self, share: f64, celsius: f64) -> f64 {
        let vcf = vcf(celsius, self.shape.density_15);
        self.cooler_ml = 0.0; // the lines run empty once air comes in
        let drained = (self.in_sump_ml(vcf).max(0.0) + self.pocket_ml) * share.clamp(0.0, 1.0);
        self.pocket_ml = 0.0;
        self.mass_15 -= drained * vcf;
        self.out.drained_15 += drained * vcf;
        drained
    }

    /// Fills `millilitres` as measured at `celsius`.
    pub fn fill(&mut self, millilitres: f64, celsius: f64) {
        let at_15 = millilitres.max(0.0) * vcf(celsius, self.shape.density_15);
        self.mass_15 += at_15;
        self.out.filled_15 += at_15;
    }

    /// Lets `millilitres` out at `celsius` where the fluid stands above a hole's edge, or draws them out.
    pub fn let_out(&mut self, millilitres: f64, celsius: f64) {
        let at_15 = millilitres.max(0.0) * vcf(celsius, self.shape.density_15);
        self.mass_15 -= at_15;
        self.out.drained_15 += at_15;
    }

    /// The selector came to another position: a share `of_all` of the circuits fills, where the pump turns.
    pub fn use_circuit(&mut self, of_all: f64, engine: Engine) {
        if engine == Engine::Running {
            self.circuits_ml =
                (self.circuits_ml + self.shape.circuits_ml * of_all).min(self.shape.circuits_ml);
        }
    }

    /// Opens or closes the check port.
    pub const fn set_check_port(&mut self, port: Port) {
        self.check_port = port;
    }

    /// Whether the check port is open.
    pub const fn check_port(&self) -> Port {
        self.check_port
    }

    /// What comes out of the check port now, mL/min.
    pub const fn stream_ml_min(&self) -> f64 {
        self.stream_ml_min
    }

    /// What came in and out so far.
    pub const fn out(&self) -> Out {
        self.out
    }

    /// The mass inside, as mL at 15 °C.
    pub const fn mass_15(&self) -> f64 {
        self.mass_15
    }

    /// The shape it was made with.
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }

    /// The true level error in mL: against the level that the procedure leaves on a level vehicle with the fluid at
    /// `reference_celsius` and the nominal trickle. Positive is too much.
    pub fn level_error_ml(&self, reference_celsius: f64) -> f64 {
        self.mass_15 / vcf(reference_celsius, self.shape.density_15) - self.shape.total_ml
    }

    /// The same of what was in it before anybody touched it.
    pub fn level_error_before_ml(&self, reference_celsius: f64) -> f64 {
        self.before_15 / vcf(reference_celsius, self.shape.density_15) - self.shape.total_ml
    }

    /// Above the rim at the pipe, mL; negative below it.
    pub fn excess_ml(&self, celsius: f64) -> f64 {
        self.in_sump_ml(vcf(celsius, self.shape.density_15)) - self.rim_ml + self.tilt_ml
    }

    /// How much more stands in the sump at `celsius` than the right amount would with the pump turning, mL.
    pub fn over_right_ml(&self, celsius: f64, reference_celsius: f64) -> f64 {
        let right_15 = self.shape.total_ml * vcf(reference_celsius, self.shape.density_15);
        let more = (self.mass_15 - right_15) / vcf(celsius, self.shape.density_15);
        let taken = self.converter_ml + self.circuits_ml + self.cooler_ml;
        more + self.shape.converter_ml + self.shape.circuits_ml + self.shape.cooler_ml - taken
    }

    /// Where the fluid stands below the lower edge of the hole, mm; negative above it.
    pub fn below_edge_mm(&self, celsius: f64) -> f64 {
        -self.excess_ml(celsius) / self.shape.area_m2 / 1_000.0
    }

    fn in_sump_ml(&self, vcf: f64) -> f64 {
        let retained = self.shape.total_ml - self.shape.drain_ml;
        let elsewhere = self.converter_ml + self.circuits_ml + self.cooler_ml + self.pocket_ml;
        self.mass_15 / vcf - retained - elsewhere
    }
}

/// Volume at 15 °C divided by volume at `celsius`; the table's end where the temperature lies beyond it.
fn vcf(celsius: f64, density_15: f64) -> f64 {
    volume::vcf(celsius.clamp(-50.0, 150.0), density_15).unwrap_or(1.0)
}

/// The law of the stream for the fluid at `celsius`.
fn run_out(pipe: &Standpipe, fluid: &events::Fluid, celsius: f64) -> Option<RunOut> {
    let measures = fluid::run_out::Standpipe {
        area_m2: pipe.surface_m2,
        bore_mm: pipe.bore_mm,
        rim_mm: pipe.rim_mm,
        length_mm: pipe.length_mm,
    };
    let thins = Walther::from_40_and_100(fluid.mm2_s_40, fluid.mm2_s_100).ok()?;
    RunOut::new(measures, thins.mm2_s(celsius).ok()?).ok()
}

/// What converter, circuits and cooler take together, as a share of what a drain brings out.
/// Own choice: enough that the level differs plainly between engine on and off.
const USUALLY_TAKEN: f64 = 0.67;
/// A drop each second, of 0.04 mL.
/// Source: computed: fixtures/reference/physics/drip_count.csv; the drop from memory.
const DRIPS_ML_MIN: f64 = 2.4;
/// A first gush is over in some seconds.
/// Source: common practice, no source (docs/procedures.md).
const GUSH_S: f64 = 4.0;
/// Over the rim into the foot of the pipe, while there is fluid above the rim.
/// Own choice: it is full within seconds of any start.
const POCKET_FILLS_ML_S: f64 = 5.0;
/// A cooling pulse of a wet twin clutch: 5 to 20 mL over some seconds. So much head for so long lets about that out.
/// Source: from memory.
const WAVE_ML: f64 = 60.0;
const WAVE_S: f64 = 2.0;
/// How far the fluid may move before its viscosity is computed again.
/// Own choice: half a per cent of it, far below what people see.
const VISCOSITY_RENEWED_K: f64 = 0.2;
/// Time constants of filling and emptying, s. The converter fills in seconds and drains back in minutes; the level
/// after some minutes depends on none of them.
/// Source: common practice, no source.
const CONVERTER_FILLS_S: f64 = 5.0;
const CONVERTER_EMPTIES_S: f64 = 90.0;
/// Where a maker has the level looked at some time after a stop, a valve holds the converter's fluid back.
/// Own choice: longer than any such look waits.
const CONVERTER_HOLDS_S: f64 = 1_800.0;
const CIRCUITS_EMPTY_S: f64 = 600.0;
const COOLER_FILLS_S: f64 = 20.0;
/// At which temperature an amount is stated.
/// Own choice: a workshop.
pub(crate) const POURED_C: f64 = 20.0;
