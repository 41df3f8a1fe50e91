//! The sheet: what the program must know of one kind of vehicle.
//!
//! In: the text of a TOML file. Out: a [`Sheet`] whose every value lies in a plausible range, or a
//! [`SheetError`] that says where, what, why, and what to try. Reading the file is the caller's business.

use core::fmt;
use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, words};

use crate::{Caution, Confirms, Quantity, Step};

mod check;
mod look;
mod order;
mod provenance;

pub use check::{PARSE_LIMIT, SheetError};
pub use look::{ChartAt, Look, LookEngine, LookGate, LookOpen, Right};
pub use provenance::{Provenance, Source};

words! {
    /// The temperature that the check is gated on.
    json Signal {
        Fluid "fluid" "An identifier of a control unit that carries the fluid's own temperature.",
        Coolant "coolant" "The engine coolant stands in for the fluid.",
        Spot "spot" "A thermometer, typed in.",
        Display "display" "A number on the vehicle's display, told by a person.",
        Lamp "lamp" "The vehicle's own lamp: too cold, right or too hot, told by a person.",
    }
}

impl Signal {
    /// Whether a person reads it and tells it.
    pub const fn is_typed(self) -> bool {
        matches!(self, Self::Spot | Self::Display | Self::Lamp)
    }

    /// Whether the one inside reads it.
    pub const fn is_read_inside(self) -> bool {
        matches!(self, Self::Display | Self::Lamp)
    }

    /// The readings it lives on.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Fluid => Quantity::FluidTemperature,
            Self::Coolant => Quantity::CoolantTemperature,
            Self::Spot => Quantity::SpotTemperature,
            Self::Display => Quantity::DisplayTemperature,
            Self::Lamp => Quantity::Lamp,
        }
    }
}

words! {
    /// The bus on which a vehicle's control units answer.
    json VehicleBus {
        Can11Fast "can-11-500" "ISO 15765-4, 11-bit identifiers, 500 kbit/s.",
        Can29Fast "can-29-500" "ISO 15765-4, 29-bit identifiers, 500 kbit/s.",
        Can11Slow "can-11-250" "ISO 15765-4, 11-bit identifiers, 250 kbit/s.",
        Can29Slow "can-29-250" "ISO 15765-4, 29-bit identifiers, 250 kbit/s.",
        J1850Pwm "j1850-pwm" "SAE J1850, pulse width modulation, 41.6 kbit/s.",
        J1850Vpw "j1850-vpw" "SAE J1850, variable pulse width, 10.4 kbit/s.",
        Iso9141 "iso-9141-2" "ISO 9141-2, started at 5 baud, 10.4 kbit/s.",
        Iso14230Slow "iso-14230-4-slow" "ISO 14230-4, started at 5 baud, 10.4 kbit/s.",
        Iso14230Fast "iso-14230-4-fast" "ISO 14230-4, fast start, 10.4 kbit/s.",
    }
}

/// One kind of vehicle. See the commented example in `fixtures/sheets/`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// The version of this format: 1.
    pub sheet: u32,
    /// What people call this kind of vehicle.
    pub name: String,
    /// The bus of its control units, tried before any other. Needed only where an adapter does not find it by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bus: Option<VehicleBus>,
    /// The level check.
    pub check: Check,
    /// Where the fluid temperature is, when the signal is `fluid`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub identifier: Option<Identifier>,
    /// The fluid and its amounts.
    pub fluid: Fluid,
    /// The overflow tube, or what is known of the surface at a hole. May be left out where the rim is no pipe.
    #[serde(default = "Standpipe::unknown")]
    pub standpipe: Standpipe,
    /// Torques of the plugs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<Torque>,
    /// Preconditions beyond the usual ones.
    #[serde(default)]
    pub before: Before,
    /// How the level shows itself, and from where it is filled.
    #[serde(default, skip_serializing_if = "Level::is_usual")]
    pub level: Level,
    /// The looks at the level, in their order; none: the usual one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub look: Vec<Look>,
    /// How it must stand.
    #[serde(default, skip_serializing_if = "Stand::is_usual")]
    pub stand: Stand,
    /// What is taken off to get at it, and put back: wheel, cover, shield.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub access: Vec<String>,
    /// Keys whose values were guessed: the report names them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub guessed: Vec<String>,
    /// Keys whose values nobody has confirmed here: no job begins before somebody has.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unconfirmed: Vec<String>,
    /// When to look again.
    #[serde(default)]
    pub recheck: RecheckPlan,
    /// Where the four corners are, for a stand measured by heights.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<Vehicle>,
    /// When to stop, whatever the step.
    #[serde(default)]
    pub stop: Stop,
    /// What this vehicle needs at a step beyond the usual.
    #[serde(default, skip_serializing_if = "Steps::is_empty")]
    pub steps: Steps,
    /// Where values come from, by their keys; a sheet need not say it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub provenance: BTreeMap<String, Provenance>,
}

words! {
    /// What the level stands at.
    json Rim {
        Pipe "pipe" "The rim of an overflow pipe in the sump.",
        JobPipe "job-pipe" "A pipe that is screwed in for the job only.",
        SideHole "side-hole" "The lower edge of a hole in the side; filled elsewhere.",
        FillHole "fill-hole" "The lower edge of the hole it is filled through.",
        Gauge "gauge" "A gauge in a sealed tube.",
        None "none" "Nothing: the amount is all that is known.",
    }
}

words! {
    /// From where it is filled.
    json FillFrom {
        UpperPort "upper-port" "A fill port of its own, above.",
        CheckPort "check-port" "The open check port, with hose and pump.",
        LevelHole "level-hole" "The hole of the level.",
        GaugeTube "gauge-tube" "The tube of the gauge.",
    }
}

words! {
    /// What drives.
    json Drive {
        Engine "engine" "An engine that runs while it is told to.",
        EngineAtWill "engine-at-will" "An engine that may start and stop by itself.",
        None "none" "No engine.",
    }
}

words! {
    /// How the old fluid leaves the sump.
    json SumpOpens {
        Pipe "pipe" "The pipe is taken out.",
        Plug "plug" "A plug of its own.",
        Pan "pan" "The pan comes off.",
        Suction "suction" "It is drawn out.",
    }
}

words! {
    /// What it stands on while the level is looked at.
    json On {
        Raised "raised" "On stands or a lift, wheels free.",
        Wheels "wheels" "On its wheels: drive-on lift or pit.",
        Either "either" "As it comes.",
    }
}

impl Sheet {
    /// The looks at the level, at least one.
    pub fn looks(&self) -> Vec<Look> {
        if self.look.is_empty() { vec![Look::usual(self.level.rim)] } else { self.look.clone() }
    }

    /// What runs out whenever the plug of a pipe comes out, in mL: as the sheet says, else the fluid in its bore and the pocket
    /// behind the plug. Nothing stands above the plug of a hole.
    pub fn gush_ml(&self) -> f64 {
        let pipe = &self.standpipe;
        self.level.gush_ml.unwrap_or(match self.level.rim {
            Rim::Pipe | Rim::JobPipe => {
                let radius_cm = pipe.bore_mm / 20.0;
                core::f64::consts::PI * radius_cm * radius_cm * pipe.length_mm / 10.0 + POCKET_ML
            }
            _ => 0.0,
        })
    }
}

/// How the level shows itself. Everything has a value where a sheet is silent: a pipe, an upper fill port.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Level {
    /// What the level stands at.
    pub rim: Rim,
    /// From where it is filled.
    pub fill_from: FillFrom,
    /// What drives.
    pub drive: Drive,
    /// How the old fluid leaves; absent: the pipe where there is one in the sump, else a plug.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sump_opens: Option<SumpOpens>,
    /// What runs out when the plug comes out, whatever the level, in mL; absent: from the pipe's bore and length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gush_ml: Option<f64>,
    /// A clutch in the fluid sends a wave now and then; absent: none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wave: Option<Wave>,
}

/// A wave that says nothing about the level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wave {
    /// It comes this often, in seconds.
    pub every_s: f64,
}

impl Default for Level {
    fn default() -> Self {
        Self {
            rim: Rim::Pipe,
            fill_from: FillFrom::UpperPort,
            drive: Drive::Engine,
            sump_opens: None,
            gush_ml: None,
            wave: None,
        }
    }
}

impl Level {
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }

    /// How the old fluid leaves.
    pub fn sump_opens(&self) -> SumpOpens {
        self.sump_opens.unwrap_or(match self.rim {
            Rim::Pipe => SumpOpens::Pipe,
            _ => SumpOpens::Plug,
        })
    }
}

/// How it must stand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Stand {
    /// On what.
    pub on: On,
    /// Its body sinks by itself unless its lifting mode is on.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub air_springs: bool,
    /// How far nose up it must stand, in degrees.
    #[serde(skip_serializing_if = "is_zero")]
    pub pitch_deg: f64,
    /// How far left side up, in degrees.
    #[serde(skip_serializing_if = "is_zero")]
    pub roll_deg: f64,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it")]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}

impl Default for Stand {
    fn default() -> Self {
        Self { on: On::Either, air_springs: false, pitch_deg: 0.0, roll_deg: 0.0 }
    }
}

impl Stand {
    /// Whether it must not stand level.
    pub fn is_tilted(&self) -> bool {
        !is_zero(&self.pitch_deg) || !is_zero(&self.roll_deg)
    }

    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// The level check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// What it is gated on.
    pub signal: Signal,
    /// The control unit whose answer counts, by the identifier it answers with: `7E8`. Needed only where several answer
    /// and do not agree.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// The band, low and high, in °C. One temperature twice is widened by `single_u_c` to both sides when the sheet is read.
    pub band_c: [f64; 2],
    /// How far to both sides of a single temperature the level still counts as right, in K; absent: 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub single_u_c: Option<f64>,
    /// Another band for hot places, low and high, in °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hot_band_c: Option<[f64; 2]>,
    /// From which temperature of the air on the hot band counts, in °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hot_from_air_c: Option<f64>,
    /// The engine must be started with the fluid below this, in °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_below_c: Option<f64>,
    /// The range of the idle speed, in 1/min.
    #[serde(default = "default_idle")]
    pub idle_rpm: [u16; 2],
    /// Guard factor: how many standard uncertainties stay between estimate and edge.
    #[serde(default = "default_k")]
    pub k: f64,
    /// How far the level may be off and still count as set, in mL.
    #[serde(default = "default_tolerance")]
    pub tolerance_ml: f64,
    /// How the vehicle's own lamp shows its three states, when the signal is `lamp`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lamp: Option<Lamp>,
}

/// How the vehicle's own lamp shows its three states, in the words of its maker. They are asked for; nothing draws them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lamp {
    /// Below the band.
    pub too_cold: String,
    /// In the band.
    pub right: String,
    /// Above the band.
    pub too_hot: String,
}

impl Check {
    /// A check gated on `signal` within `band_c` (low and high, in °C); the rest as where a sheet is silent.
    pub fn of(signal: Signal, band_c: [f64; 2]) -> Self {
        Self {
            signal,
            from: None,
            band_c,
            single_u_c: None,
            hot_band_c: None,
            hot_from_air_c: None,
            start_below_c: None,
            idle_rpm: default_idle(),
            k: default_k(),
            tolerance_ml: default_tolerance(),
            lamp: None,
        }
    }

    /// The lower edge of the band.
    pub fn low(&self) -> Celsius {
        Celsius::clamped(self.band_c[0])
    }

    /// The upper edge of the band.
    pub fn high(&self) -> Celsius {
        Celsius::clamped(self.band_c[1])
    }

    /// The middle of the band: the reference temperature of the job.
    pub fn middle(&self) -> Celsius {
        Celsius::clamped((self.band_c[0] + self.band_c[1]) / 2.0)
    }
}

/// Where one control unit keeps the fluid temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Identifier {
    /// 0x22 or 0x21: reading services only.
    pub service: u8,
    /// The identifier.
    pub id: u16,
    /// The request's address, as hex digits: `7E1`.
    pub header: String,
    /// The first byte of the value, counted from 0 after the identifier.
    pub byte: u8,
    /// Its length in bytes.
    pub length: u8,
    /// How many bytes an answer has behind the identifier, where that is known: one with more or fewer is not read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bytes: Option<u8>,
    /// Degrees per count.
    pub scale: f64,
    /// Degrees at count 0.
    pub offset: f64,
    /// Whether the count carries a sign (two's complement).
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub signed: bool,
    /// Whether the low byte comes first.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub little_endian: bool,
}

/// The fluid and its amounts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fluid {
    /// The specification, as the vehicle's maker writes it.
    #[serde(rename = "type")]
    pub kind: String,
    /// All of it, in mL.
    pub total_ml: f64,
    /// What a drain brings out, in mL.
    pub drain_ml: f64,
    /// What is filled beyond that and runs out again, in mL.
    pub margin_ml: f64,
    /// Density at 15 °C, in kg/m³.
    #[serde(default = "default_density")]
    pub density_15: f64,
    /// How often it is drained and filled, the engine run in between.
    #[serde(default = "default_exchanges")]
    pub exchanges: u32,
    /// So often it is topped up before somebody looks for a leak.
    #[serde(default = "default_portions", skip_serializing_if = "is_default_portions")]
    pub portions: u32,
    /// What is filled at a time when it is found low, in mL; absent: the margin, or half a litre where there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub portion_ml: Option<f64>,
    /// How far the level rises with each kelvin, in mL; may be negative. Absent: by expansion alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ml_per_k: Option<f64>,
    /// What one container of new fluid holds, in mL.
    #[serde(default = "default_container")]
    pub container_ml: f64,
    /// What the old filter takes along, in mL.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub filter_ml: Option<f64>,
    /// What the cooler and its lines hold, in mL.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cooler_ml: Option<f64>,
    /// What the drain leaves in the pan, in mL.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pan_ml: Option<f64>,
    /// What the converter holds, in mL.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub converter_ml: Option<f64>,
    /// Kinematic viscosity at 40 °C, in mm²/s.
    #[serde(default = "default_nu_40")]
    pub mm2_s_40: f64,
    /// Kinematic viscosity at 100 °C, in mm²/s.
    #[serde(default = "default_nu_100")]
    pub mm2_s_100: f64,
}

impl Fluid {
    /// What is filled at a time when it is found low, in mL.
    pub fn portion_ml(&self) -> f64 {
        self.portion_ml.unwrap_or(if self.margin_ml > 0.0 { self.margin_ml } else { USUAL_PORTION_ML })
    }
}

/// The overflow tube in the sump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Standpipe {
    /// Free surface of the fluid at the height of the rim, in m².
    pub surface_m2: f64,
    /// Where it stands from the centroid of that surface: forward, left, in mm.
    #[serde(default)]
    pub offset_mm: [f64; 2],
    /// Bore, in mm.
    #[serde(default = "default_bore")]
    pub bore_mm: f64,
    /// Width of the rim, in mm.
    #[serde(default = "default_rim")]
    pub rim_mm: f64,
    /// Length of the tube, in mm.
    #[serde(default = "default_length")]
    pub length_mm: f64,
}

impl Standpipe {
    /// Where a sheet without a pipe says nothing: a middling surface, and a hole in the wall some way from its middle (own choice,
    /// wide on purpose: it is what a stand by eye is priced with).
    fn unknown() -> Self {
        Self {
            surface_m2: 0.05,
            offset_mm: [120.0, 0.0],
            bore_mm: default_bore(),
            rim_mm: default_rim(),
            length_mm: default_length(),
        }
    }
}

/// Torques of the plugs, in N·m.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Torque {
    /// The standpipe itself, where it screws in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standpipe: Option<f64>,
    /// The plug of the check port.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub check_port: Option<f64>,
    /// The plug of the fill port.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fill_port: Option<f64>,
}

/// Where the four corners are.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// From front to rear, in mm.
    pub wheelbase_mm: f64,
    /// From left to right, front and rear, in mm.
    pub track_mm: [f64; 2],
}

/// When to stop, whatever the step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Stop {
    /// Coolant above this: stop the engine, in °C.
    pub coolant_c: f64,
    /// Fluid above this: stop the engine, in °C.
    pub fluid_c: f64,
    /// Below this with the engine running: the battery is not charged, in V.
    pub volts: f64,
    /// The engine idles no longer than this without a word about the air, in minutes.
    pub idle_min: f64,
}

impl Default for Stop {
    /// From memory: coolant boils under its cap near 120 °C, fluid ages fast above 120 °C, a charged system shows
    /// more than 13 V and control units drop out below 11 V.
    fn default() -> Self {
        Self { coolant_c: 112.0, fluid_c: 115.0, volts: 11.5, idle_min: 40.0 }
    }
}

/// What this vehicle needs at its steps beyond the usual, and their order where it may differ.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
#[allow(missing_docs, reason = "each is the step of that name")]
pub struct Steps {
    /// All steps in the order of this vehicle; absent: the usual one. What must come first stays first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub order: Option<Vec<Step>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prepare: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drain: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fill: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub circulate: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub window: Option<StepPlan>,
    #[serde(rename = "run-out", skip_serializing_if = "Option::is_none")]
    pub run_out: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trickle: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub close: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub torque: Option<StepPlan>,
    #[serde(rename = "test-drive", skip_serializing_if = "Option::is_none")]
    pub test_drive: Option<StepPlan>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recheck: Option<StepPlan>,
}

impl Steps {
    /// What the sheet says of one step.
    pub const fn of(&self, step: Step) -> Option<&StepPlan> {
        match step {
            Step::Prepare => self.prepare.as_ref(),
            Step::Drain => self.drain.as_ref(),
            Step::Fill => self.fill.as_ref(),
            Step::Circulate => self.circulate.as_ref(),
            Step::Window => self.window.as_ref(),
            Step::RunOut => self.run_out.as_ref(),
            Step::Trickle => self.trickle.as_ref(),
            Step::Close => self.close.as_ref(),
            Step::Torque => self.torque.as_ref(),
            Step::TestDrive => self.test_drive.as_ref(),
            Step::Recheck => self.recheck.as_ref(),
        }
    }

    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What one step needs beyond the usual.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct StepPlan {
    /// Who confirms it, where not the usual person.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub who: Option<Confirms>,
    /// Tools that must lie ready.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<String>,
    /// Cautions beyond the usual ones of this step.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Caution>,
    /// What is special here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Sheet {
    /// The same vehicle where it is hot: gated on the second band that its maker gives for hot places. `None` where there is none.
    #[must_use]
    pub fn in_the_heat(&self) -> Option<Self> {
        let band_c = self.check.hot_band_c?;
        Some(Self { check: Check { band_c, ..self.check.clone() }, ..self.clone() })
    }

    /// Whether that second band is the one that it is gated on.
    pub fn is_in_the_heat(&self) -> bool {
        self.check.hot_band_c == Some(self.check.band_c)
    }

    /// The sheet for air of so many °C. The hot band counts from the sheet's own limit on; never where nobody knows the air.
    #[must_use]
    pub fn for_air(&self, air: Option<Celsius>) -> Self {
        let hot = self.check.hot_from_air_c.zip(air).is_some_and(|(from, air)| air.to_f64() >= from);
        self.in_the_heat().filter(|_| hot).unwrap_or_else(|| self.clone())
    }

    /// As a file has it, without remarks.
    pub fn to_toml(&self) -> String {
        toml::to_string(self).unwrap_or_default()
    }

    /// The guard factor of an identifier that was found: the widest that a sheet may have. A board or another fluid's
    /// sensor may have been confirmed that a thermometer of ±2 K cannot tell from the fluid's (docs/find.md, "How often
    /// it was right"); twice the usual guard covers it. Who has the maker's table lowers it in the sheet.
    /// Own choice: twice the usual guard factor of 2.
    pub const FOUND_K: f64 = 4.0;

    /// The same vehicle with the fluid's identifier that was found, which the check is gated on from then on, with [`Sheet::FOUND_K`].
    #[must_use]
    pub fn with_identifier(&self, identifier: &Identifier) -> Self {
        Self {
            check: Check { signal: Signal::Fluid, k: Self::FOUND_K, ..self.check.clone() },
            identifier: Some(identifier.clone()),
            ..self.clone()
        }
    }

    /// The same vehicle without an adapter: a thermometer that is typed in stands in for the identifier of the fluid. `None`
    /// where the check is gated on coolant, whose band says nothing of what a thermometer on the sump shows.
    #[must_use]
    pub fn by_people(&self) -> Option<Self> {
        let signal = match self.check.signal {
            Signal::Coolant => return None,
            Signal::Fluid => Signal::Spot,
            typed => typed,
        };
        Some(Self { check: Check { signal, ..self.check.clone() }, ..self.clone() })
    }
}

/// Preconditions beyond the usual ones.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Before {
    /// The cooler bypass must be pinned open.
    pub cooler_bypass: bool,
    /// The job must start from a cold vehicle.
    pub started_cold: bool,
    /// The selector must be moved; absent where the transmission does not need it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub selector: Option<Selector>,
    /// How the service mode is switched on and off; absent where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mode: Option<String>,
}

impl Default for Before {
    fn default() -> Self {
        Self { cooler_bypass: false, started_cold: true, selector: None, mode: None }
    }
}

/// How to move the selector.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Selector {
    /// The positions in their order.
    pub positions: Vec<String>,
    /// Seconds at each.
    pub dwell_s: u32,
    /// How many rounds.
    pub rounds: u32,
    /// Where a control unit tells the position; absent: the helper tells it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reported: Option<Reported>,
}

/// Where a control unit tells the selector's position.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Reported {
    /// 0x22 or 0x21: reading services only.
    pub service: u8,
    /// The identifier.
    pub id: u16,
    /// The request's address, as hex digits: `7E1`.
    pub header: String,
    /// The byte of the value, counted from 0 after the identifier.
    pub byte: u8,
    /// The value in each of the positions, in their order.
    pub codes: Vec<u8>,
}

/// When to look again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecheckPlan {
    /// Days after the job.
    pub days: Vec<u32>,
}

impl Default for RecheckPlan {
    fn default() -> Self {
        Self { days: vec![3, 14] }
    }
}

// What stands where a sheet says nothing.
/// Source: common practice, no source.
fn default_idle() -> [u16; 2] {
    [550, 950]
}
/// Source: ILAC-G8:09/2019, guard band with k = 2.
fn default_k() -> f64 {
    2.0
}
/// Source: common practice, no source.
fn default_tolerance() -> f64 {
    100.0
}
/// Source: from memory: such fluids lie in 830 to 870 kg/m³.
fn default_density() -> f64 {
    850.0
}
/// Own choice: one, unless somebody asks for more.
fn default_exchanges() -> u32 {
    1
}
/// Own choice: a litre and a half found low three times over is a leak.
fn default_portions() -> u32 {
    3
}
/// What is filled at a time where the sheet says nothing.
/// Source: one maker's text: half a litre at a time.
const USUAL_PORTION_ML: f64 = 500.0;
/// What stands behind the plug of a check port beside the pipe.
/// Source: from memory: 5 to 60 mL by geometry.
const POCKET_ML: f64 = 40.0;
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_default_portions(portions: &u32) -> bool {
    *portions == default_portions()
}
/// Source: common practice, no source: bottles of a litre.
fn default_container() -> f64 {
    1_000.0
}
/// Source: from memory: older fluids 34 / 7.2, thin ones 24 / 5.4 mm²/s at 40 / 100 °C; between them.
fn default_nu_40() -> f64 {
    29.6
}
/// Source: as at 40 °C.
fn default_nu_100() -> f64 {
    5.9
}
/// Own choice: pipes seen in pictures have 8 to 12 mm; the run-out is forecast, not decided, by it.
fn default_bore() -> f64 {
    10.0
}
/// Own choice: a tube of plastic or sheet metal.
fn default_rim() -> f64 {
    1.5
}
/// Own choice: from the sump's floor to its fluid.
fn default_length() -> f64 {
    60.0
}

impl fmt::Display for Identifier {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02X} {:04X} at {}", self.service, self.id, self.header)
    }
}
