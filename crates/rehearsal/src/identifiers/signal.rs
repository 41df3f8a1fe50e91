//! What fields carry: temperatures of the world and of nodes of their own, and everything that only looks like one.
//!
//! In: the world. Out: values. The engine's oil follows its metal; a control unit's board follows the case and warms by itself from key-on; the other
//! sensor in the fluid sits at the converter's outlet. Nothing here acts back on the world. Figures chosen, no source.

use crate::dice::Dice;
use crate::thermal::Engine;
use crate::world::World;

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Signal {
    /// The fluid in the sump, as its sensor has it.
    Fluid,
    /// The fluid behind the converter.
    FluidToo { off_k: f64 },
    /// The coolant, with an error of its own sensor.
    Coolant { off_k: f64 },
    /// The engine's oil.
    Oil { off_k: f64 },
    /// Intake air.
    Intake { off_k: f64 },
    /// Outside air.
    Ambient { off_k: f64 },
    /// The board of a control unit on the transmission.
    Case { off_k: f64 },
    /// Counts from key-on, or while the engine runs.
    Counter { from: f64, per_s: f64, wraps: f64, running: bool },
    /// The engine's torque, restless.
    Torque,
    /// Engine speed.
    Speed,
    /// What the engine speed should be: falls as the coolant warms.
    WantedSpeed,
    /// Voltage.
    Volts,
    /// A value that never moves: a target, a made-up value, a length, a number.
    Fixed(f64),
    /// What the fluid had at key-on, and no more.
    Stuck,
    /// The pressure of oil or fluid: up at the start, then down as it thins.
    Pressure { bar: f64 },
    /// Flags: some change with the engine.
    Flags { still: u8, running: u8, restless: u8 },
    /// Something restless.
    Noise { middle: f64, half: f64 },
}

/// The nodes that the world does not have.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Nodes {
    oil_s: f64,
    board_s: f64,
    board_k: f64,
    noise_k: f64,
    seen: WorldSample,
    oil: f64,
    board: f64,
    stuck: Option<f64>,
    since_key_s: f64,
    key_off: bool,
}

/// The world as it was looked at last.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct WorldSample {
    fluid: f64,
    converter: f64,
    coolant: f64,
    intake: f64,
    ambient: f64,
    rpm: f64,
    volts: f64,
    run_s: f64,
}

impl Nodes {
    /// Nodes of a drawn vehicle, before it was looked at.
    pub(super) fn draw(dice: &mut Dice) -> Self {
        Self {
            oil_s: dice.between(120.0, 420.0),
            board_s: dice.between(30.0, 300.0),
            board_k: dice.between(0.5, 8.0),
            noise_k: dice.between(0.0, 0.25),
            seen: WorldSample::default(),
            oil: f64::NAN,
            board: f64::NAN,
            stuck: None,
            since_key_s: 0.0,
            key_off: false,
        }
    }

    pub(super) const fn runs(&self) -> bool {
        self.seen.rpm > 0.0
    }

    /// Turns the key off, or on: without it no board warms by itself, and what counts from key-on begins anew.
    pub(super) const fn key(&mut self, on: bool) {
        if on && self.key_off {
            (self.since_key_s, self.stuck) = (0.0, None);
        }
        self.key_off = !on;
    }

    /// So many seconds later.
    pub(super) fn advance(&mut self, seconds: f64, world: &World) {
        let shown = world.shown();
        let nodes = world.nodes();
        self.seen = WorldSample {
            fluid: shown.fluid_celsius,
            converter: nodes.converter,
            coolant: shown.coolant_celsius,
            intake: shown.intake_celsius,
            ambient: shown.ambient_celsius,
            rpm: shown.rpm,
            volts: shown.volts,
            run_s: shown.run_s,
        };
        if self.oil.is_nan() {
            (self.oil, self.board) = (world.coolant_celsius(), nodes.case);
        }
        if !self.key_off {
            self.stuck.get_or_insert(shown.fluid_celsius);
        }
        self.since_key_s += seconds;
        // Oil is thrown about while the engine runs, and soaks slowly while it stands.
        let quick = if world.engine() == Engine::Running { 1.0 } else { 0.1 };
        self.oil += (nodes.metal - self.oil) * (quick * seconds / self.oil_s).min(1.0);
        let own = if self.key_off { 0.0 } else { self.board_k };
        self.board += (nodes.case + own - self.board) * (seconds / self.board_s).min(1.0);
    }

    /// What a signal is now.
    pub(super) fn value(&self, signal: &Signal, dice: &mut Dice) -> f64 {
        let noise = dice.within(self.noise_k);
        let seen = &self.seen;
        let runs = self.runs();
        match *signal {
            Signal::Fluid => seen.fluid,
            Signal::FluidToo { off_k } => seen.converter + off_k + noise,
            Signal::Coolant { off_k } => seen.coolant + off_k + noise,
            Signal::Oil { off_k } => self.oil + off_k + noise,
            Signal::Intake { off_k } => seen.intake + off_k + noise,
            Signal::Ambient { off_k } => seen.ambient + off_k + noise,
            Signal::Case { off_k } => self.board + off_k + noise,
            Signal::Counter { from, per_s, wraps, running } => {
                let seconds = if running { seen.run_s } else { self.since_key_s };
                (from + per_s * seconds).rem_euclid(wraps)
            }
            Signal::Torque if runs => 30.0 + 0.02 * (seen.rpm - 700.0) + dice.within(6.0),
            Signal::Torque => 0.0,
            Signal::Speed => seen.rpm,
            Signal::WantedSpeed if runs => 680.0 + 12.0 * (60.0 - seen.coolant).clamp(0.0, 40.0),
            Signal::WantedSpeed => 0.0,
            Signal::Volts => seen.volts + dice.within(0.05),
            Signal::Fixed(value) => value,
            Signal::Stuck => self.stuck.unwrap_or_default(),
            Signal::Pressure { bar } if runs => {
                bar * (1.0 + 0.02 * (60.0 - seen.fluid).clamp(-40.0, 60.0)) + dice.within(0.05)
            }
            Signal::Pressure { .. } => 0.0,
            Signal::Flags { still, running, restless } => {
                let flickers = if dice.chance(0.3) { restless } else { 0 };
                f64::from(if runs { still | running } else { still } ^ flickers)
            }
            Signal::Noise { middle, half } => middle + dice.within(half),
        }
    }
}
