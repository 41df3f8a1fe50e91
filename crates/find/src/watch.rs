//! The watch: what the first cold start says of each place, each byte and each encoding.
//!
//! ```text
//!   raw(place, bytes, now) ─────────┐
//!   reference(quantity, value, now) ┼─► tracks ─► score.rs: one judgement a hypothesis ─► standing() settles() outcome()
//!   spot(celsius, u, now) ──────────┘
//! ```
//!
//! In: raw bytes, the vehicle's own references, a thermometer's readings, a person's confirmation; all with their time. Out: the hypotheses ranked
//! by probability, the observation that would settle most, and the outcome. Nothing is confirmed without both a person's word and a
//! thermometer's reading that agrees; so nothing found gates anything before that.
//! The state can be written down at any moment and read again. Not here: the formulas (`score.rs`), how tracks are kept short (`track.rs`).
//! Method and numbers: docs/find.md.

mod score;
mod soak;
mod standing;
mod track;

use core::time::Duration;

use events::Quantity;
use serde::{Deserialize, Serialize};
use units::{Celsius, Kelvins, Mono, words};

use crate::encoding::Encoding;
use crate::place::Place;

pub use soak::Soak;
use standing::Judged;
use track::{Bytes, Track};

/// One place, where the value starts in its answer, and how it is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Hypothesis {
    /// Where it lives.
    #[serde(flatten)]
    pub place: Place,
    /// Where the value starts, counted from 0 behind the identifier.
    pub byte: u8,
    /// How it is read.
    pub encoding: Encoding,
}

words! {
    /// What a value may be if it is not the fluid.
    json LookAlike {
        Coolant "coolant" "It follows the coolant.",
        Intake "intake" "It follows the intake air.",
        Ambient "ambient" "It stays with the outside air.",
        EngineOil "engine-oil" "It warms as the engine's oil does.",
        Still "still" "It does not move: a target, a made-up value, or frozen.",
        Engine "engine" "It jumps with the engine: speed, torque, voltage.",
        Counter "counter" "It counts while nothing warms.",
        Other "other" "It is no temperature that warms.",
    }
}

words! {
    /// The observation that would settle most.
    json Settles {
        ColdSoak "cold-soak" "Let the vehicle stand over night and begin again.",
        Start "start" "Start the engine and let it idle.",
        Warm "warm" "Let it warm further.",
        Spot "spot" "Measure the sump with a thermometer, and tell it.",
        Confirm "confirm" "Look at the number, and confirm it.",
        Nothing "nothing" "Nothing more from this warm-up.",
    }
}

/// One hypothesis as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    /// Which.
    #[serde(flatten)]
    pub hypothesis: Hypothesis,
    /// How probable it is, 0 to 1, of all there are and of none.
    pub score: f64,
    /// What it says now.
    pub celsius: Celsius,
    /// How far it has risen since the start.
    pub risen: Kelvins,
    /// How many of the thermometer's readings it agrees with.
    pub spots_agree: u8,
    /// What else it would most probably be.
    pub or_else: LookAlike,
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Not enough was seen.
    NotYet,
    /// So many are left.
    Left(u32),
    /// What was read is not the fluid.
    NotFound,
    /// A person confirmed it, and a thermometer agrees.
    Confirmed(Hypothesis),
}

/// The watch itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Watch {
    soak: Soak,
    places: Vec<Watched>,
    coolant: Track,
    intake: Track,
    ambient: Track,
    oil: Track,
    speed: Track,
    started_ms: Option<u64>,
    spots: Vec<Spot>,
    confirmed: Option<Hypothesis>,
    /// Added to the caller's time: a clock may start anew.
    shift_ms: i64,
    last_ms: u64,
    /// The place whose turn is next.
    turn: usize,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Watched {
    place: Place,
    bytes: Bytes,
    /// No hypothesis of it is left.
    dropped: bool,
}

/// One reading of a thermometer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
struct Spot {
    at_ms: u64,
    celsius: f64,
    u: f64,
}

impl Watch {
    /// Watches these places; `soak`: what the search knows of the soaked vehicle.
    pub fn new(places: &[(Place, Vec<u8>)], soak: &Soak) -> Self {
        let watched = |(place, _): &(Place, Vec<u8>)| Watched {
            place: *place,
            bytes: Bytes::default(),
            dropped: false,
        };
        Self {
            soak: soak.clone(),
            places: places.iter().map(watched).collect(),
            coolant: Track::default(),
            intake: Track::default(),
            ambient: Track::default(),
            oil: Track::default(),
            speed: Track::default(),
            started_ms: None,
            spots: Vec::new(),
            confirmed: None,
            shift_ms: 0,
            last_ms: 0,
            turn: 0,
        }
    }

    /// Whose turn it is to be asked: all that may still be it, one after the other. Dropped ones are not asked.
    pub fn ask(&mut self) -> Option<Place> {
        let count = self.places.len();
        let order = (0..count).map(|step| (self.turn + step) % count.max(1));
        let next =
            order.into_iter().find(|at| self.places.get(*at).is_some_and(|watched| !watched.dropped))?;
        self.turn = next + 1;
        self.places.get(next).map(|watched| watched.place)
    }

    /// The bytes that a place answered, behind the echoed identifier.
    pub fn raw(&mut self, place: Place, bytes: &[u8], now: Mono) {
        let at = self.at(now);
        match self.places.iter_mut().find(|watched| watched.place == place) {
            Some(watched) => watched.bytes.push(at, bytes),
            None => {
                let mut fresh = Watched { place, bytes: Bytes::default(), dropped: false };
                fresh.bytes.push(at, bytes);
                self.places.push(fresh);
            }
        }
    }

    /// A reading of the vehicle by a standard identifier: coolant, intake, ambient, engine speed; others are passed over. In the JSON's units.
    pub fn reference(&mut self, quantity: Quantity, value: f64, now: Mono) {
        let at = self.at(now);
        if quantity == Quantity::EngineSpeed {
            if value > 0.0 && self.started_ms.is_none() {
                self.started_ms = Some(at);
            }
            self.speed.push(at, value);
            return;
        }
        if self.started_ms.is_none() {
            self.soak.note(quantity, value);
        }
        match quantity {
            Quantity::CoolantTemperature => self.coolant.push(at, value),
            Quantity::IntakeAirTemperature => self.intake.push(at, value),
            Quantity::AmbientAirTemperature => self.ambient.push(at, value),
            _ => {}
        }
    }

    /// The engine's oil, where the vehicle shows it by a standard identifier (01 5C).
    pub fn engine_oil(&mut self, celsius: f64, now: Mono) {
        let at = self.at(now);
        self.oil.push(at, celsius);
    }

    /// A thermometer's reading on the sump, or of the fluid that comes out, with its standard uncertainty.
    pub fn spot(&mut self, celsius: Celsius, u: Kelvins, now: Mono) {
        let at_ms = self.at(now);
        if self.spots.len() < MOST_SPOTS {
            self.spots.push(Spot { at_ms, celsius: celsius.to_f64(), u: u.to_f64().abs() });
        }
    }

    /// A person looked at it and says that it is the one; `None` takes it back.
    pub const fn confirm(&mut self, hypothesis: Option<Hypothesis>) {
        self.confirmed = hypothesis;
    }

    /// The clock started anew, `away` after the last thing that was told.
    pub fn resumed(&mut self, away: Duration, now: Mono) {
        let here = self.last_ms.saturating_add(away.as_millis() as u64);
        self.shift_ms = here as i64 - now.as_millis() as i64;
    }

    /// What has the most to say for it, the likeliest first; those that read the same are one. At most [`Self::MOST_STANDING`].
    pub fn standing(&self) -> Vec<Standing> {
        self.judged().standing()
    }

    /// Drops places of which no hypothesis is left, so that the others are asked more often. Call it now and then.
    pub fn tidy(&mut self) {
        let judged = self.judged();
        if judged.risen_k() < TIDY_AFTER_K {
            return;
        }
        for watched in &mut self.places {
            watched.dropped = judged.score_of(watched.place) < TIDY_BELOW;
        }
    }

    /// The one observation that would settle most.
    pub fn settles(&self) -> Settles {
        self.judged().settles(
            !self.spots.is_empty(),
            self.started_ms.is_some(),
            self.soak.celsius().is_some(),
        )
    }

    /// What came of it.
    pub fn outcome(&self) -> Outcome {
        self.judged().outcome(self.confirmed)
    }

    /// How many are still probable, for a screen.
    pub fn left(&self) -> usize {
        self.judged().probable().count()
    }

    /// How many hypotheses are listed.
    pub const MOST_STANDING: usize = 16;

    fn judged(&self) -> Judged {
        Judged::of(self)
    }

    /// The caller's time on our own scale.
    fn at(&mut self, now: Mono) -> u64 {
        let at = (now.as_millis() as i64).saturating_add(self.shift_ms).max(0) as u64;
        self.last_ms = self.last_ms.max(at);
        at
    }
}

/// So many readings of a thermometer are kept. Own choice.
const MOST_SPOTS: usize = 32;
/// Places are dropped once the coolant has risen so far. Own choice.
const TIDY_AFTER_K: f64 = 10.0;
/// And are less probable than this. Own choice.
const TIDY_BELOW: f64 = 1e-7;

#[cfg(test)]
mod tests;
