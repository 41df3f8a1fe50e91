//! The procedure of one job as a fold over its events: steps, preconditions, balance, level error.
//!
//! ```text
//!  Event ──apply──> Job (live readings | record of the job) ──open──────> preconditions for the gate
//!                    │       ──situation──> acts (the procedure) ──guard──> what to do now, for each seat
//!  Told ──decide─────┤  accepted: Told, then what it makes happen        ──view──> for a front end
//!                    │  refused:  why
//!  (time, readings) ─┴─follow──> steps and preconditions that came about by themselves
//! ```
//!
//! Everything is in the events: folding the same ones gives the same [`Job`], after a crash too. Whatever readings
//! alone bring about (the engine was seen running, the vehicle started cold) is therefore announced as a step or a
//! precondition, which are facts; readings are samples and may be lost with the last second.
//!
//! The caller writes all bodies of one [`Job::decide`] together, applies them, and then lets [`Job::follow`] say
//! what else changed. Advice is not announced here: compare [`Job::advice`] with what was last shown.
//!
//! ```
//! use events::{Body, Event, Request, Seq, Sheet, Told, Utc, Verdict};
//! use job::{Job, VerdictNow};
//! use units::Mono;
//!
//! let sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
//! let told = Told { id: "1".to_owned(), by: None, request: Request::start() };
//! let (now, at) = (Mono::ZERO, Utc::from_millis(1_772_442_847_120));
//! let mut job = Job::default();
//! let bodies = job.decide(&told, now, at, &sheet, &VerdictNow::default()).unwrap();
//! for (n, body) in (1..).zip(bodies) {
//!     job.apply(&Event { seq: Seq(n), at, mono_ms: now, body });
//! }
//! assert!(job.is_running());
//! assert_eq!(job.advice(now, &VerdictNow::default()), events::Advice::PrepareVehicle);
//! assert!(job.follow(now, &VerdictNow::default()).is_empty(), "nothing is left to announce");
//! ```
//!
//! Not here: the verdict (`gate`), durability and numbering (`service`), formulas (`fluid`).
//! The procedure as a technician meets it: `docs/procedure.md`.

mod advice;
mod decide;
mod fold;
mod follow;
mod job;
mod live;
mod part;
mod port;
mod record;
mod result;
mod state;
mod steps;
mod told;

pub use advice::acts::{ACTS, Act, wanted};
pub use advice::ask::{Ask, asks};
pub use advice::guard::{RULES, Rule, guarded, harms};
pub use advice::procedure::{Card, CheckPoint, Plug, Says, procedure};
pub use advice::situation::{Motor, OffLook, Port, Short, Situation, Stage};
pub use decide::thermometer;
pub use job::Job;
pub use result::compare::{Comparison, compare};
pub use result::guess::{GUESSES, Guess};
pub use result::level::off_by_temperature_ml;
pub use result::worth::{Cost, U_BESIDE_K, U_DISPLAY_K, U_FLUID_K, Worth, worth};
pub use state::VerdictNow;
pub use told::hands::Clear;
