//! How a sheet is made, and how people read it.
//!
//! ```text
//!  answer ──hear──► Interview ──asks──► the next question, in words
//!                      │  ──draft──► everything said so far, kept at each step and taken up again
//!                      └──sheet───► a sheet's text: what nobody gave is guessed, marked so, and the whole is checked
//!  Sheet ──look──► what is guessed, odd or missing, and what each costs      ──page──► text      ──compare──► differences
//! ```
//!
//! Pure: no terminal, no browser, no file. The command line and the phone page ask with the same machine.
//!
//! ```
//! let mut interview = sheets::Interview::new("six-speed");
//! for said in ["as the vehicle's maker specifies", "35-45 °C", "2,4 L"] {
//!     assert!(interview.asks().is_some());
//!     assert!(matches!(interview.hear(said, "2026-03-02"), sheets::AnswerOutcome::Taken { .. }));
//! }
//! assert!(interview.can_write());
//! let (text, sheet) = interview.sheet().unwrap();
//! assert_eq!(sheet.fluid.drain_ml, 2_400.0);
//! assert!(sheet.is_guessed("standpipe.surface_m2") && text.contains("guessed = "));
//! ```
//!
//! Not here: what a sheet may say (`events`), what a guess costs (`job::worth`), files, hashes and what is shared (`src/sheet/`).

mod answers;
mod compare;
mod compose;
mod interview;
mod look;
mod page;
mod questions;
mod read;
mod shown;

pub use compare::{Difference, compare};
pub use interview::{AnswerOutcome, Asked, Draft, Interview, Row, TopicError};
pub use look::{Finding, Looked, look};
pub use page::page;
pub use questions::{Kind, Part, QUESTIONS, Question};
