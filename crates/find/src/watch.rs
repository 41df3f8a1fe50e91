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
use crate::search::Search;

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
        Board "board" "It warms with the case, and by itself from key-on: a control unit's own.",
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
        KeyOff "key-off" "Turn the key off for ten minutes, then on.",
        Wait "wait" "Leave the key on and the engine off.",
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

/// What is said for and against one hypothesis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Evidence {
    /// For the fluid: the logarithm of its likelihood.
    pub fluid: f64,
    /// For each look-alike, the same.
    pub rivals: Vec<(LookAlike, f64)>,
    /// How far it stood from the soaked vehicle at the start, K.
    pub from_soak: Option<f64>,
    /// What the fluid's law leaves over, K.
    pub rest: f64,
    /// How far it was from the coolant, K.
    pub from_coolant: f64,
    /// By how much it was off otherwise at the thermometer than at the soak, K.
    pub shifted: f64,
    /// Whether a straight line says as much as the law.
    pub straight: bool,
    /// Whether it stood still after the key had been off for long: then it is no board that warms by itself.
    pub woke: bool,
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
    /// When the key was on again after it had been off for long, before the start.
    #[serde(default)]
    woke_ms: Option<u64>,
    /// Since when somebody could turn the key off for it.
    #[serde(default)]
    since_ms: Option<u64>,
    /// Nothing answers: the key is off.
    #[serde(default)]
    quiet: bool,
    spots: Vec<Spot>,
    confirmed: Option<Hypothesis>,
    /// Added to the caller's time: a clock may start anew.
    shift_ms: i64,
    last_ms: u64,
    /// The place whose turn is next.
    turn: usize,
    /// How often everybody had a turn.
    round: u32,
    /// How often it was tidied.
    tidied: u32,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Watched {
    place: Place,
    bytes: Bytes,
    /// It is improbable, and seldom asked.
    seldom: bool,
    /// What it said at once after the key had been off for long, with the time.
    #[serde(default)]
    fresh: Vec<(u64, Vec<u8>)>,
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
            seldom: false,
            fresh: Vec::new(),
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
            woke_ms: None,
            since_ms: None,
            quiet: false,
            spots: Vec::new(),
            confirmed: None,
            shift_ms: 0,
            last_ms: 0,
            turn: 0,
            round: 0,
            tidied: 0,
        }
    }

    /// Watches what the search has found worth it; its own answers are the first of each place.
    pub fn of(search: &Search) -> Self {
        let mut watch = Self::new(&search.places(), search.soak());
        for (place, bytes, at) in search.heard() {
            if watch.places.iter().any(|watched| watched.place == place) {
                watch.raw(place, bytes, at);
            }
        }
        watch
    }

    /// Whose turn it is to be asked: all that may still be it, one after the other; what is improbable only in every eighth round, so that nothing is given
    /// up for good.
    pub fn ask(&mut self) -> Option<Place> {
        for _ in 0..self.places.len().saturating_mul(2) {
            if self.turn >= self.places.len() {
                (self.turn, self.round) = (0, self.round.wrapping_add(1));
            }
            let watched = self.places.get(self.turn)?;
            self.turn += 1;
            if !watched.seldom || self.round.is_multiple_of(SELDOM) {
                return Some(watched.place);
            }
        }
        self.places.first().map(|watched| watched.place)
    }

    /// The bytes that a place answered, behind the echoed identifier.
    pub fn raw(&mut self, place: Place, bytes: &[u8], now: Mono) {
        let at = self.at(now);
        match self.places.iter_mut().find(|watched| watched.place == place) {
            Some(watched) => {
                let within = if watched.fresh.is_empty() { SOON_MS } else { AT_ONCE_MS };
                if self.woke_ms.is_some_and(|woke| at >= woke && at <= woke + within) {
                    watched.fresh.push((at, bytes.to_vec()));
                }
                watched.bytes.push(at, bytes);
            }
            None => {
                let mut fresh = Watched { place, bytes: Bytes::default(), seldom: false, fresh: Vec::new() };
                fresh.bytes.push(at, bytes);
                self.places.push(fresh);
            }
        }
    }

    /// A reading of the vehicle by a standard identifier: coolant, intake, ambient, engine speed; others are passed over. In the JSON's units.
    pub fn reference(&mut self, quantity: Quantity, value: f64, now: Mono) {
        let at = self.at(now);
        self.since_ms.get_or_insert(at);
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

    /// Nothing in the vehicle answers: its key is off.
    pub const fn silent(&mut self) {
        self.quiet = true;
    }

    /// The vehicle answers again: its key had been off. After [`Self::KEY_OFF`] a control unit's own board is as cold as what it sits on; from here it warms
    /// by itself, and nothing else does.
    pub fn woke(&mut self, off: Duration, now: Mono) {
        let at = self.at(now);
        (self.quiet, self.since_ms) = (false, Some(at));
        if self.started_ms.is_none() && off >= Self::KEY_OFF {
            self.woke_ms = Some(at);
            self.turn = 0;
            self.places.iter_mut().for_each(|watched| watched.fresh.clear());
        }
    }

    /// So long the key is off until boards are cold. Own choice: two to twenty time constants of a small box.
    pub const KEY_OFF: Duration = Duration::from_secs(600);

    /// What has the most to say for it, the likeliest first; those that read the same are one. At most [`Self::MOST_STANDING`].
    pub fn standing(&self) -> Vec<Standing> {
        self.judged().standing()
    }

    /// Asks places that have become improbable more seldom, so that the others are asked more often. Call it now and then.
    pub fn tidy(&mut self) {
        if self.coolant.risen() < TIDY_AFTER_K {
            return;
        }
        self.tidied = self.tidied.wrapping_add(1);
        // What is improbable is looked at as seldom as it is asked.
        let everybody = self.tidied.is_multiple_of(SELDOM);
        let judged = Judged::of(self, everybody);
        for watched in self.places.iter_mut().filter(|watched| everybody || !watched.seldom) {
            watched.seldom = judged.odds_of(watched.place) < TIDY_BELOW;
        }
    }

    /// What is said for and against one hypothesis: logarithms of likelihoods, for the fluid and for each look-alike.
    pub fn evidence(&self, hypothesis: Hypothesis) -> Option<Evidence> {
        self.judged().evidence(hypothesis)
    }

    /// The one observation that would settle most.
    pub fn settles(&self) -> Settles {
        let coolant = |at| self.coolant.at(at).unwrap_or_default();
        let since = self.spots.last().map_or(f64::MAX, |spot| coolant(u64::MAX) - coolant(spot.at_ms));
        self.judged().settles(since, self.before_the_start())
    }

    /// What is next while the engine stands; `None` once it was started.
    fn before_the_start(&self) -> Option<Settles> {
        if self.started_ms.is_some() {
            return None;
        }
        if self.soak.celsius().is_none() {
            return Some(Settles::ColdSoak);
        }
        let past = |from: u64, so_long: u64| self.last_ms >= from.saturating_add(so_long);
        Some(match (self.woke_ms, self.since_ms) {
            (Some(woke), _) if past(woke, KEY_ON_MS) => Settles::Start,
            (Some(_), _) => Settles::Wait,
            (None, Some(since)) if past(since, OFFERED_MS) && !self.quiet => Settles::Start,
            (None, _) => Settles::KeyOff,
        })
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
    /// Own choice: five are shown; the rest for `watch` in JSON, below 4 kB.
    pub const MOST_STANDING: usize = 16;

    fn judged(&self) -> Judged {
        Judged::of(self, true)
    }

    /// The caller's time on our own scale.
    fn at(&mut self, now: Mono) -> u64 {
        let at = (now.as_millis() as i64).saturating_add(self.shift_ms).max(0) as u64;
        self.last_ms = self.last_ms.max(at);
        at
    }
}

/// So long the key stays on after it was off, so that a board warms by itself. Own choice: a slow one has gone half of its way.
const KEY_ON_MS: u64 = 180_000;
/// Whoever does not turn the key off within this goes on without.
/// Own choice: out to the key and back is a minute; a search must not stand because nobody reads.
const OFFERED_MS: u64 = 180_000;
/// What comes so soon after the key was on again is still cold. Own choice: a quarter of a small box's time constant, and one round of many places.
const SOON_MS: u64 = 30_000;
/// Of what comes as soon as this, all is kept.
/// Own choice: six rounds; what the start or the key does at once is seen within that.
const AT_ONCE_MS: u64 = 12_000;
/// So many readings of a thermometer are kept.
/// Own choice: a person takes four to six in a warm-up.
const MOST_SPOTS: usize = 32;
/// Places may become improbable once the coolant has risen so far.
/// Own choice: before that a whole degree's step hides what moves and what does not.
const TIDY_AFTER_K: f64 = 10.0;
/// Then their own odds are below this, whatever the others say.
/// Own choice: a thousand such places together are one in a thousand; each is still asked seldom.
const TIDY_BELOW: f64 = 1e-6;
/// Every so many rounds the improbable ones are asked, too.
/// Own choice: 16 s at the usual round, often enough to see a warm-up of minutes.
const SELDOM: u32 = 8;

#[cfg(test)]
mod tests;
