//! Which identifier carries the fluid temperature: an ordered search, then evidence from the first cold start.
//!
//! ```text
//!   units that answer ─► Search: ask(now) / hear(answer, now) ─► places that may be it
//!                                                                     │
//!   raw bytes, references, a thermometer ─► Watch: a score for each place, byte and encoding
//!                                                │
//!                  standing(), settles(), outcome() ─► front ends, and a sheet's identifier once a person confirms it
//! ```
//!
//! Nothing here sends, reads a clock or draws a number: the caller passes time and bytes in. Only reading services can be
//! named ([`Place::ask`] gives an [`frames::Ask`]), and no session is opened.
//!
//! ```
//! use find::{Answer, Header, Search};
//! use units::Mono;
//! let mut search = Search::new(frames::Bus::Can11, &["7E1".parse().unwrap()]);
//! let ask = search.ask(Mono::ZERO).unwrap();
//! assert_eq!(ask.place.header, "7E1".parse::<Header>().unwrap());
//! search.hear(Answer::Refused(0x31), Mono::from_millis(20));
//! assert!(search.ask(Mono::from_millis(21)).is_none(), "politely: not at once");
//! assert!(search.ask(search.poll_timeout().unwrap()).is_some());
//! ```
//!
//! Method, numbers and what they are worth: docs/find.md.

mod answer;
mod encoding;
mod place;
mod search;
mod watch;

pub use answer::Answer;
pub use encoding::{Encoding, Row, Sign, candidates};
pub use place::{Header, NotAHeader, NotAService, Place, Service};
pub use search::{Ask, Depth, Halt, Progress, Purpose, Search};
pub use watch::{Evidence, Hypothesis, LookAlike, Outcome, Settles, Soak, Standing, Watch};
