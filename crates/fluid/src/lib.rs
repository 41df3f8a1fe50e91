//! Physics of setting a transmission's fluid level: volumes, heights, flows, heat and what is known of them.
//!
//! ```text
//!  temperatures ─┬─> volume ──> level error, mL ──┬─> level ──> mm
//!  corners ──────┼─> tilt ────> mL too much ──────┤
//!  amounts ──────┴─> balance ─> what must run out ┴─> run_out ──> flow, time to a trickle
//!  start, heat ────> thermal, cooling ──> when the band opens and closes
//!  reading, age ───> measurement ──> uncertainty, probability, acceptance
//!  spot reading ───> spot, pan ────> fluid behind the surface
//!  two fluids ─────> dilution, mixing, viscosity ──> what is in there now
//! ```
//!
//! Pure: numbers in, numbers out. Formulas work in `f64` with the unit in the name (`celsius`, `millilitres`,
//! `area_m2`); functions that job and rehearsal call have a second door for the stored quantities of `units`.
//! Every input is checked against [`range`]; a [`FluidError`] says which quantity, which value, which range.
//! **Positive millilitres are too much fluid, negative too little.**
//!
//! ```
//! use fluid::{level, volume::SetAt};
//!
//! // 8 L, meant for 40 °C, port closed at 60 °C: too little by an eighth of a litre.
//! let set = SetAt { total_ml: 8_000.0, set_celsius: 60.0, check_celsius: 40.0, density_15: 850.0 };
//! let error = level::from_temperature(set, 0.060)?;
//! assert_eq!(error.millilitres.round(), -122.0);
//! assert_eq!((error.millimetres * 10.0).round(), -20.0);
//! # Ok::<(), fluid::FluidError>(())
//! ```
//!
//! | question | asked of |
//! | --- | --- |
//! | a volume at another temperature | [`volume::move_volume`], stored: [`volume::at_temperature`] |
//! | what setting at the wrong temperature costs | [`level::from_temperature`], [`volume::set_error`] |
//! | what a tilt costs; how the vehicle stands | [`tilt::at_pipe`]; [`tilt::from_corners`] |
//! | fresh fluid after some rounds; rounds for a share | [`dilution::fresh_fraction`]; [`dilution::rounds_for`] |
//! | how thick at a temperature; its index | [`viscosity::Walther`]; [`viscosity_index::viscosity_index`] |
//! | how the excess runs out, with warming | [`run_out::Drain`] with [`run_out::warming_flow_ml_min`] |
//! | the flow at a head, many times | [`run_out::RunOut::flow`] |
//! | a surface by infrared; the fluid behind it | [`spot::correct`]; [`pan::PanWall::fluid_c`] |
//! | acceptance interval; probability in the band | [`measurement::acceptance`]; [`measurement::probability_in_band`] |
//! | when the band opens and closes | [`thermal::Course::window`], cooling alone [`cooling::Cooling::down_to`] |
//! | what must run out | [`balance::right_overflow`], stored: [`balance::must_run_out`] |
//!
//! Not here: text and units for people (`units`), the verdict (`gate`), what happened in a job (`job`).
//! Sources stand beside each formula; `fixtures/reference/physics` holds the tables every one is checked against.

mod error;

pub mod balance;
pub mod cooling;
pub mod dilution;
pub mod level;
pub mod measurement;
pub mod mixing;
pub mod normal;
pub mod pan;
pub mod radiation;
pub mod range;
pub mod run_out;
pub mod spot;
pub mod surface;
pub mod thermal;
pub mod tilt;
pub mod viscosity;
pub mod viscosity_index;
pub mod volume;

pub use error::FluidError;
