//! The numbers of the gate, one table for each kind of signal, each with its source.
//!
//! In: nothing. Out: [`Limits`] for a signal that a control unit sends, [`SpotLimits`] for typed readings.
//! Not here: band and guard factor (the sheet's), formulas. `docs/gate.md` repeats the table in
//! words. `cargo xtask house` looks whether each number names its source.

use core::time::Duration;

use events::{Signal, Surface};

/// What may be expected of a signal that a control unit sends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Older than this, a reading is no evidence. The signal is asked for twice a second.
    /// Source: own choice: ten readings missed, each asked for twice a second.
    pub stale_after: Duration,
    /// After a silence longer than this, the history counts for nothing.
    /// Source: own choice.
    pub forget_after: Duration,
    /// The step that the value is shown in, K, where neither reading nor sheet names one.
    /// Source: SAE J1979 by memory: a temperature is one byte in whole degrees.
    pub step_c: f64,
    /// Half width of the sensor's accuracy, K.
    /// Source: from memory; production thermistors are stated from ±1 to ±3 K.
    pub sensor_c: f64,
    /// How long a value may be under way, s, the sensor's own lag included: anything from none to this is as likely.
    /// Source: from memory: bus, control unit, and a thermistor in its well.
    pub latency_s: f64,
    /// The smallest change that counts as a move, K; a larger step of the signal takes its place.
    /// Source: own choice: noise must not prove a sensor.
    pub least_move_c: f64,
    /// Noise of the sensor from one reading to the next, K: one reading may lie off the expected one by a step and this, and by what follows.
    /// Source: from memory.
    pub noise_c: f64,
    /// The fastest rate that can be, K/min.
    /// Source: own: idle 0.3 to 3 K/min, through a cooler up to 8 (two nodes, figures from memory); coolant by recordings, up to 20.
    pub fastest_c_min: f64,
    /// How far the rate may differ from the one that was learned, K/min.
    /// Source: own choice for the fluid; coolant by the recordings.
    pub wander_c_min: f64,
    /// A change of the rate that a silence may hide without being held against the signal, K/min.
    /// Source: own choice for the fluid; coolant by the recordings.
    pub unseen_c_min: f64,
    /// The rate that the world is given at least when it is asked whether the signal still follows, K/min.
    /// Source: from memory: lower end of idling.
    pub least_pace_c_min: f64,
    /// The same while the engine stands, K/min.
    /// Source: own: Newton's cooling, 60 to 45 °C in 45 min in air of 25 °C.
    pub standing_pace_c_min: f64,
    /// The engine counts as standing after this long without turning: stop-start does not cool anything.
    /// Source: own choice.
    pub standing_after: Duration,
    /// An engine that stood for longer than this has let the fluid come to rest, warm here and cool there.
    /// Source: own choice, on the rehearsal's vehicles; no measurement is known.
    pub rest_after: Duration,
    /// After its start, this long for the fluid to mix: a sump that has cooled gets what converter, cooler and case have kept.
    /// Source: own choice: mixing in the rehearsal's vehicles is over after 40 s; no measurement is known.
    pub mixes_for: Duration,
    /// After fluid was filled in, this long for it to mix and for the sensor to follow: three of its time constants.
    /// Source: own choice, on a time constant of 15 s from memory.
    pub fill_mixes_for: Duration,
    /// So far at the most the signal falls at once when cold fluid is filled in: half of it at room temperature into one in the band.
    /// Source: own arithmetic: half of the fluid anew at room temperature.
    pub most_fill_c: f64,
    /// How uncertain the rate is while none is known, K/min (standard uncertainty).
    /// Source: upper end of a usual idle warm-up (two nodes, figures from memory); coolant by the recordings.
    pub unknown_rate_c_min: f64,
    /// With which power of the idle speed the rate falls when that falls: 1 where the engine's heat is all of it, 0 where what is already
    /// warm goes on warming it. A speed that rises counts in full.
    /// Source: fixtures/reference/physics/idle_warmup.csv for the coolant; own choice, on the safe side, for the fluid.
    pub slows_with_idle: f64,
    /// The share of its rate that the signal loses with each kelvin while it idles, before its own moves have told, and how far that may be
    /// off (standard uncertainty).
    /// Source: fixtures/reference/physics/idle_warmup.csv and the rehearsal's vehicles (`crates/rehearsal/tests/idle.rs`).
    pub falls: (f64, f64),
    /// So many moves upward in a row prove that the signal follows the world.
    /// Source: own choice.
    pub moves_to_prove: u32,
    /// Behind the expected temperature by this many moves, the signal counts as frozen.
    /// Source: own choice.
    pub frozen_after_moves: f64,
    /// After a jump, this long of consistent readings before the signal is believed again.
    /// Source: own choice.
    pub settle_after_jump: Duration,
    /// The same after one or two stray readings that the next ones contradict.
    /// Source: own choice.
    pub settle_after_stray: Duration,
    /// So many stray readings in a row are a jump.
    /// Source: own choice.
    pub strays_to_jump: u32,
    /// A jump this soon after the first reading is a control unit that wakes up, not a sensor that fails.
    /// Source: own choice.
    pub waking: Duration,
    /// How long everything must have been well before `go`.
    /// Source: own choice.
    pub hold_for: Duration,
    /// The least of that where a move takes but seconds: then it is a third of one.
    /// Source: own choice: three readings, two a second.
    pub least_hold: Duration,
    /// How many readings must have come in that time.
    /// Source: own choice.
    pub hold_readings: u32,
    /// The coldest temperature that is no substitute: bottom of the usual scale, °C.
    /// Source: the scale of SAE J1979 from memory; substitute values seen in print.
    pub coldest_c: f64,
    /// The warmest temperature that can be, °C.
    /// Source: from memory: beyond what fluid survives; substitute values seen in print.
    pub warmest_c: f64,
}

impl Limits {
    /// An identifier that carries the fluid's temperature.
    /// Source: beside each field above.
    pub const FLUID: Self = Self {
        stale_after: Duration::from_secs(5),
        forget_after: Duration::from_secs(120),
        step_c: 1.0,
        sensor_c: 1.0,
        latency_s: 16.0,
        least_move_c: 1.0,
        noise_c: 0.6,
        fastest_c_min: 12.0,
        wander_c_min: 1.0,
        unseen_c_min: 0.0,
        least_pace_c_min: 0.5,
        standing_pace_c_min: 0.3,
        standing_after: Duration::from_secs(60),
        rest_after: Duration::from_secs(5),
        mixes_for: Duration::from_secs(90),
        fill_mixes_for: Duration::from_secs(45),
        most_fill_c: 12.0,
        unknown_rate_c_min: 1.7,
        slows_with_idle: 0.0,
        falls: (0.005, 0.015),
        moves_to_prove: 2,
        frozen_after_moves: 1.5,
        settle_after_jump: Duration::from_secs(60),
        settle_after_stray: Duration::from_secs(10),
        strays_to_jump: 3,
        waking: Duration::from_secs(5),
        hold_for: Duration::from_secs(3),
        least_hold: Duration::from_millis(1_500),
        hold_readings: 3,
        coldest_c: -40.0,
        warmest_c: 150.0,
    };

    /// Engine coolant: as the fluid, but it may move faster (the recorded warm-ups rise by up to 20 K/min), and its band
    /// is one of shown values, so that its sensor's lag is no error.
    /// Source: beside each field above; the rates by the recordings of fixtures/warmups.
    pub const COOLANT: Self = Self {
        latency_s: 2.0,
        fastest_c_min: 30.0,
        wander_c_min: 30.0,
        unseen_c_min: 30.0,
        unknown_rate_c_min: 5.0,
        slows_with_idle: 1.0,
        falls: (0.025, 0.012),
        ..Self::FLUID
    };

    /// The numbers for a signal. Typed readings have their own in [`SpotLimits`]; of these they share what a
    /// temperature can be.
    pub const fn of(signal: Signal) -> Self {
        match signal {
            Signal::Fluid | Signal::Spot | Signal::Display | Signal::Lamp => Self::FLUID,
            Signal::Coolant => Self::COOLANT,
        }
    }

    /// True where a control unit can mean this temperature: neither an end of its scale nor beyond what fluid survives.
    pub(crate) fn plausible(&self, celsius: f64) -> bool {
        celsius > self.coldest_c && celsius <= self.warmest_c
    }
}

/// What may be expected of readings that a person types in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotLimits {
    /// Older than this, a reading is no evidence.
    /// Source: own choice.
    pub stale_after: Duration,
    /// Older than this, a reading says nothing about the rate either.
    /// Source: own choice.
    pub forget_after: Duration,
    /// The step of the thermometer's display, K, where the reading names none.
    /// Source: common practice, no source.
    pub step_c: f64,
    /// So many readings before the gate opens.
    /// Source: own choice.
    pub readings: usize,
    /// Two readings closer together than this say nothing about the rate.
    /// Source: own choice.
    pub apart: Duration,
    /// How well two readings of one thermometer on one spot repeat, K (standard uncertainty).
    /// Source: from memory.
    pub repeat_c: f64,
    /// The rate that is allowed for while none is known, K/min: anything from none to this.
    /// Source: upper end of a usual idle warm-up (two nodes, figures from memory).
    pub unknown_rate_c_min: f64,
    /// The rates that are believed at all, K/min.
    /// Source: own choice.
    pub rate_c_min: (f64, f64),
    /// Air under the vehicle while none was read, °C, and how far it may be off either way.
    /// Source: own choice.
    pub air_c: (f64, f64),
    /// How long everything must have been well before `go`.
    /// Source: own choice.
    pub hold_for: Duration,
}

impl SpotLimits {
    /// The numbers in use.
    /// Source: beside each field above.
    pub const TYPED: Self = Self {
        stale_after: Duration::from_secs(90),
        forget_after: Duration::from_secs(600),
        step_c: 0.1,
        readings: 2,
        apart: Duration::from_secs(30),
        repeat_c: 0.5,
        unknown_rate_c_min: 1.7,
        rate_c_min: (-1.0, 3.0),
        air_c: (20.0, 10.0),
        hold_for: Duration::from_secs(3),
    };
}

/// How a reading on a surface relates to the fluid behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SurfaceRow {
    /// Absent for a number on the vehicle's display.
    pub(crate) surface: Option<Surface>,
    /// Standard uncertainty of instrument and emissivity, K.
    /// Source: with its row in [`SURFACES`].
    pub(crate) u_c: f64,
    /// The fluid is warmer than the surface by this share of the reading's excess over the air; known to half its size.
    /// Source: with its row in [`SURFACES`].
    pub(crate) offset: f64,
}

/// At 40 °C over 20 °C air: tape 1.2 K, matt paint 1.3, plastic 2.9, contact 1.5, stream 0.8. Bare metal has no row: its
/// reading is the surroundings'.
/// Source: physics of grey surfaces and of a wall between film coefficients, with coefficients from memory; the rest common practice.
#[rustfmt::skip]
pub(crate) const SURFACES: &[SurfaceRow] = &[
    SurfaceRow { surface: Some(Surface::Tape),      u_c: 1.0, offset: 0.075 },
    SurfaceRow { surface: Some(Surface::MattPaint), u_c: 1.1, offset: 0.075 },
    SurfaceRow { surface: Some(Surface::Plastic),   u_c: 1.5, offset: 0.25 },
    SurfaceRow { surface: Some(Surface::Contact),   u_c: 1.3, offset: 0.075 },
    SurfaceRow { surface: Some(Surface::Stream),    u_c: 0.8, offset: 0.0 },
];

/// A number on the vehicle's display: its sensor; the step of the display comes beside it.
/// Source: from memory.
pub(crate) const DISPLAY: SurfaceRow = SurfaceRow { surface: None, u_c: 2.0, offset: 0.0 };
/// A display shows whole degrees where nothing else is known.
/// Source: common practice, no source.
pub(crate) const DISPLAY_STEP_C: f64 = 1.0;
/// How far the edges of a lamp's band are known, K (standard uncertainty).
/// Source: from memory.
pub(crate) const LAMP_EDGE_C: f64 = 2.0;

/// A fault code of the sensor that a signal lives on, or of overheated fluid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum CodeOf {
    /// The fluid's temperature sensor and its circuit.
    FluidSensor,
    /// The coolant's temperature sensor and its circuit.
    CoolantSensor,
    /// Overheated fluid.
    Overheat,
}

/// Circuit, range, low, high, intermittent of each sensor, and the overheated fluid.
/// Source: SAE J2012, from memory.
#[rustfmt::skip]
pub(crate) const CODES: &[(&str, CodeOf)] = &[
    ("P0115", CodeOf::CoolantSensor), ("P0116", CodeOf::CoolantSensor), ("P0117", CodeOf::CoolantSensor),
    ("P0118", CodeOf::CoolantSensor), ("P0119", CodeOf::CoolantSensor),
    ("P0218", CodeOf::Overheat),
    ("P0710", CodeOf::FluidSensor), ("P0711", CodeOf::FluidSensor), ("P0712", CodeOf::FluidSensor),
    ("P0713", CodeOf::FluidSensor), ("P0714", CodeOf::FluidSensor),
];
