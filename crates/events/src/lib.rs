//! The vocabulary everybody shares. Types only: what happened, what was asked, what is known, how it is said.
//!
//! ```text
//!   reading ─┐
//!   request ─┼─► Event { seq, at, mono, body } ─► journal ─► socket ─► any front end
//!   verdict ─┘          state = fold of the events
//! ```
//!
//! The JSON is the contract (`standpipe schema` prints it): SI, the unit in the key, absent instead of null,
//! kebab-case words. The sentences people read stand beside the words they explain, in one table each
//! ([`Reason`], [`Trouble`], [`Advice`], [`Caution`], [`Precondition`], [`Refusal`]), so that every front end says the
//! same. What may stand in words of others, and how the rest is shown, is in [`text`].
//!
//! ```
//! use events::{Request, Told};
//! let told: Told = serde_json::from_str(r#"{"id":"7","tell":"drained","millilitres":2400,"celsius":22}"#).unwrap();
//! assert!(matches!(told.request, Request::Drained { .. }));
//! ```
//!
//! Not here: any decision. The verdict is made in `gate`, steps and balance in `job`, durability in `service`.

mod advice;
mod asked;
mod by_eye;
mod event;
mod find;
mod fold;
mod hint;
mod precondition;
mod quantity;
mod reading;
mod reason;
mod request;
mod result;
mod sheet;
mod snapshot;
mod status;
mod step;
pub mod text;
mod trouble;
mod utc;
mod verdict;

pub use advice::{Advice, Caution, SeatAdvice, Shims};
pub use asked::{Complaint, FluidLook, LeakPlace, LeakTold, Meaning, Question, Symptom};
pub use by_eye::{LampState, Surface};
pub use event::{Body, Durability, Event, Fault, Kind, LinkChange, Seq, Uptime};
pub use find::{Candidate, FindNext, FindStage, FindView, FoundIdentifier, parse_place, place};
pub use fold::Ends;
pub use hint::Hint;
pub use precondition::Precondition;
pub use quantity::{Asked, Measure, Need, Quantity};
pub use reading::Reading;
pub use reason::{Bearing, Reason};
pub use request::{
    Alarm, EngineWord, Leak, Part, Particular, People, Refusal, Request, Role, Sort, Task, Told, Way,
};
pub use result::{
    Balance, Cause, CausePart, ClosureCause, Drivable, GuessCost, JobResult, LevelError, Outcome, Shortfall,
    TopUp,
};
pub use sheet::{
    Before, ChartAt, Check, Drive, FillFrom, Fluid, Identifier, Lamp, Level, Look, LookEngine, LookGate,
    LookOpen, On, PARSE_LIMIT, Provenance, RecheckPlan, Reported, Right, Rim, Selector, Sheet, SheetError,
    Signal, Source, Stand, Standpipe, StepPlan, Steps, Stop, SumpOpens, Torque, Vehicle, VehicleBus, Wave,
};
pub use snapshot::{JobView, LinkView, PROTOCOL, SelectorView, Snapshot, SocketLine, Word, read_snapshot};
pub use status::{Ailment, Health, JournalStatus, LastReading, Status};
pub use step::{Confirms, Step, StepState};
pub use trouble::{Party, Trouble};
pub use utc::Utc;
pub use verdict::{
    Estimate, Fits, FluidEstimate, Forecast, Interval, Judged, Narrowing, Narrows, RunOutAhead, Verdict,
};
