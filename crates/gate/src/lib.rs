//! Readings and time to estimate, forecast and verdict: pure, and `wait` unless all is known.
//!
//! ```text
//!  reading ──► observe ──┬─► evidence   signal (track, slope, copies), thermometer, lamp, codes ─┐
//!                        ├─► vehicle    engine and mixing, driving, air ───────────────────────┤
//!                        └─► nodes      two witnesses of the fluid ────────────────────────────┤
//!  fault code ─► code_stored ─► evidence                                                        │
//!  adapter gone ─► link_lost ─► evidence                              all of it at one instant: picture
//!                                                                                               │
//!  time, open preconditions ─► judge ─► estimate ─► verdict (band, hold, reasons) ─► forecast ◄─┘
//! ```
//!
//! Each part owns its state and stands in a folder of its own; [`Gate`] joins them. Imports run one way: `signal`, `estimate`,
//! `verdict` and `vehicle`, `nodes`, `evidence`, `picture`, `forecast`, `gate`.
//!
//! In: readings, fault codes, losses of the link, the open preconditions, and the time as [`units::Mono`]. Out: a
//! [`Judgement`] at every wake-up. Not here: reading a clock, deciding what the technician does next (`job`), the
//! formulas of uncertainty and guard band themselves (`fluid::measurement`). The mathematics: `docs/gate.md`.
//!
//! ```
//! use events::{Check, Measure, Reading, Reason, Signal, Verdict};
//! use units::{Celsius, Mono};
//!
//! let check = Check::of(Signal::Fluid, [35.0, 45.0]);
//! let mut gate = gate::Gate::new(&check, None);
//! let mut verdict = Verdict::Wait;
//! // One degree a minute from 30 °C, read twice a second and shown in whole degrees.
//! for half in 0..1_200_u64 {
//!     let at = Mono::from_millis(half * 500);
//!     let shown = (30.0 + half as f64 / 120.0).floor();
//!     let measure = Measure::Fluid(Celsius::from_f64(shown).unwrap());
//!     gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
//!     verdict = gate.judge(at, &[]).verdict;
//! }
//! assert_eq!(verdict, Verdict::Go);
//! // Six seconds of silence are enough to close it again.
//! let silent = gate.judge(Mono::from_secs(606), &[]);
//! assert_eq!((silent.verdict, silent.reasons[0]), (Verdict::Wait, Reason::Stale));
//! ```

mod estimate;
mod evidence;
mod forecast;
mod gate;
mod limits;
mod nodes;
mod picture;
mod signal;
mod span;
#[cfg(feature = "taken-out")]
mod taken_out;
mod vehicle;
mod verdict;

pub use estimate::thermometer::by_thermometer;
pub use forecast::{Warming, learned};
pub use gate::{Gate, Judgement};
pub use limits::{Limits, SpotLimits};
pub use nodes::Cooler;
#[cfg(feature = "taken-out")]
pub use taken_out::Protection;
pub use verdict::Reasons;
