//! What a person sees and hears: a fold of the socket's lines, the same for every screen.
//!
//! ```text
//!  hello, snapshot, events ──hear──► Fold ──look(now, seat)──► View: word, sentence, clock, why, scale, offers, cue
//!  connection lost ─────────lost───►                            │
//!                                                               ├─► terminal (src/screen of `watch`, `rehearse`)
//!                                                               └─► phone page (crates/page)
//! ```
//!
//! Nothing is decided here: verdict, forecast, balance and advice are the daemon's, and a [`View`] only says them.
//! What it adds is doubt: a reading that is too old or a daemon that is gone turns the surface to `no reading`,
//! whatever the verdict was ([`Surface::NoReading`]). Pure: the caller passes the time in.
//!
//! ```
//! use units::Mono;
//! use view::{Fold, Look, Seat, Surface};
//! use words::Speech;
//!
//! let fold = Fold::default();
//! let view = fold.look(&Look { now: Mono::ZERO, seat: Seat::Under, speech: Speech::default() });
//! assert_eq!(view.surface, Surface::NoReading, "nothing is known before the daemon has spoken");
//! ```
//!
//! Not here: drawing (the front ends), the sentences of reasons and advice (`events`).

mod answer;
mod bays;
mod cue;
mod find;
mod fold;
mod look;
mod offer;
mod rounds;
mod scale;
mod seat;
mod silence;
mod typed;
mod view;
mod why;

pub use answer::refused;
pub use bays::{BayRow, KnownBay, Urgency, is_sought, rows};
pub use cue::{Cue, Note, Pattern};
pub use fold::Fold;
pub use look::{Look, step_name};
pub use offer::{Ask, Offer};
pub use rounds::Rounds;
pub use scale::Scale;
pub use seat::Seat;
pub use typed::{TypedRequest, Unsaid};
pub use view::{Clock, Surface, View};
pub use why::interval;
