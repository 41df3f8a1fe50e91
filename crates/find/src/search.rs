//! The search: which identifiers can be read, asked for in an order that finds blocks soon, politely, with the key on and the engine off.
//!
//! ```text
//!   imported ─► standard ─► does the unit take 22, or 21? ─► samples, coarse to fine ─► all around what answered
//! ```
//!
//! In: what came back, voltage, references, time. Out: what to ask next and when, what was found, how far it is, why it stands.
//! The order: what was imported; identifiers of service 01 that a unit claims and no table here names; whether a unit takes service
//! 22 or 21; samples of every page of 256 (`plan.rs`); around each one that answered, its neighbours at once.
//! A refusal is heeded as `nrc.csv` of the reference says (`unit.rs`). Nothing is asked of a unit that does not take the service in the default
//! session, and nothing is unlocked.
//! The state can be written down at any moment and read again: no answer is lost, at most the last request is asked once more.
//! Not here: which of the found is the fluid (`watch.rs`).

mod plan;
mod unit;

use core::time::Duration;
use std::collections::VecDeque;

use events::Quantity;
use frames::Bus;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Mono, Rpm, words};

use crate::answer::Answer;
use crate::encoding::candidates;
use crate::place::{Header, Place, Service};
use crate::watch::Soak;

use unit::{AnswerKind, Unit};

/// One request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ask {
    /// What to ask for, and whom.
    pub place: Place,
    /// What for.
    pub purpose: Purpose,
}

words! {
    /// What a request of the search is for.
    json Purpose {
        Imported "imported" "A table that was read in names it.",
        Standard "standard" "The unit claims a standard identifier that no table here names.",
        Probe "probe" "Does the unit take the service at all?",
        Sample "sample" "A sample of its block.",
        Around "around" "A neighbour answered.",
        Again "again" "It was asked before and could not answer then.",
    }
}

words! {
    /// How fine the samples lie.
    json Depth {
        Usual "usual" "One identifier in sixteen, and all around what answers.",
        Fine "fine" "One in four.",
        Whole "whole" "Every one: brute force.",
    }
}

/// Why the search stands. It goes on by [`Search::go_on`] and not by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Halt {
    /// The battery is low: charge it, or start the engine and let `find` watch what was found.
    LowBattery {
        /// What was read, in mV.
        millivolts: u32,
    },
    /// Something else than what was asked came back, twice.
    Unexpected {
        /// What had been asked.
        place: Place,
    },
    /// The engine runs: the search is for key on and engine off.
    EngineRuns,
}

/// How far the search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Progress {
    /// Requests made.
    pub asked: u32,
    /// Requests that are still planned; more where something answers.
    pub left: u32,
    /// How long they take at the pace so far.
    pub time_left: Duration,
    /// Places that can be read.
    pub readable: u32,
    /// Of those, places with a value near the temperature of the soaked vehicle.
    pub near: u32,
    /// Places that exist and are locked: they are left alone.
    pub locked: u32,
}

/// The search itself. Doors: [`Self::ask`], [`Self::poll_timeout`], [`Self::hear`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Search {
    pace_ms: u64,
    depth: Depth,
    first: VecDeque<(Place, Purpose)>,
    again: VecDeque<(Place, u8)>,
    units: Vec<Unit>,
    found: Vec<Found>,
    later: Vec<Place>,
    soak: Soak,
    halt: Option<Halt>,
    millivolts: Option<u32>,
    asked: u32,
    locked: u32,
    /// Whether the likeliest unit was sampled more finely, because little was found.
    widened: bool,
    /// Mean time of an exchange, with the pause.
    mean_ms: f64,
    #[serde(skip)]
    open: Option<Open>,
    #[serde(skip)]
    not_before: Option<Mono>,
}

/// What can be read at one place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Found {
    #[serde(flatten)]
    place: Place,
    bytes: Vec<u8>,
    /// When, on the clock of this run.
    #[serde(default)]
    at: Option<Mono>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Open {
    ask: Ask,
    tries: u8,
    since: Mono,
}

impl Search {
    /// Over the units that are known to answer, the likeliest first, then the other usual addresses of the bus.
    pub fn new(bus: Bus, answering: &[Header]) -> Self {
        let headers = plan::order(bus, answering);
        let standard = headers.iter().flat_map(|header| plan::standard(*header));
        Self {
            pace_ms: plan::pace_ms(bus),
            depth: Depth::Usual,
            first: standard.map(|place| (place, Purpose::Standard)).collect(),
            again: VecDeque::new(),
            units: headers.iter().flat_map(|header| Unit::of(*header, answering.contains(header))).collect(),
            found: Vec::new(),
            later: Vec::new(),
            soak: Soak::default(),
            halt: None,
            millivolts: None,
            asked: 0,
            locked: 0,
            widened: false,
            mean_ms: plan::pace_ms(bus) as f64,
            open: None,
            not_before: None,
        }
    }

    /// Places from a table that somebody has: they are asked first.
    pub fn import(&mut self, places: &[Place]) {
        for place in places.iter().rev().filter(|place| place.ask().is_some()) {
            self.first.push_front((*place, Purpose::Imported));
        }
    }

    /// The next request, if there is one and its time has come. Call [`Self::hear`] with what comes back.
    pub fn ask(&mut self, now: Mono) -> Option<Ask> {
        if self.halt.is_some() || self.not_before.is_some_and(|at| now < at) {
            return None;
        }
        let open = match self.open.take() {
            // Nobody told what came of it: once more.
            Some(open) => Open { since: now, ..open },
            None => {
                let (place, purpose, tries) = self.next()?;
                Open { ask: Ask { place, purpose }, tries, since: now }
            }
        };
        self.open = Some(open);
        Some(open.ask)
    }

    /// When to call [`Self::ask`] again; `None` while an answer is awaited, or nothing will be asked.
    pub fn poll_timeout(&self) -> Option<Mono> {
        let waits = self.halt.is_none() && self.open.is_none() && !self.is_done();
        waits.then(|| self.not_before.unwrap_or(Mono::ZERO))
    }

    /// What came back to the last request.
    pub fn hear(&mut self, answer: Answer, now: Mono) {
        let Some(Open { ask, tries, since }) = self.open.take() else { return };
        let pause = if answer == Answer::Unexpected || answer == Answer::NotAsked {
            plan::AFTER_ODD_MS
        } else {
            self.pace_ms.saturating_sub(now.since(since).as_millis() as u64)
        };
        self.not_before = Some(now.after(Duration::from_millis(pause)));
        if answer == Answer::NotAsked {
            self.first.push_front((ask.place, ask.purpose));
            return;
        }
        self.asked = self.asked.saturating_add(1);
        let took = now.since(since).as_millis() as f64 + pause as f64;
        self.mean_ms += (took - self.mean_ms) * MEAN_FOLLOWS;
        match answer {
            Answer::Data(bytes) => self.read(ask, bytes, now),
            Answer::Refused(code) => self.refused(ask, code, tries),
            Answer::Silence => {
                let heard = AnswerKind::Silence;
                self.note(ask, heard);
                self.once_more(ask.place, tries, 1);
            }
            Answer::Unexpected if tries == 0 => self.again.push_front((ask.place, 1)),
            Answer::Unexpected => {
                self.note(ask, AnswerKind::Unexpected);
                self.halt = Some(Halt::Unexpected { place: ask.place });
            }
            Answer::NotAsked => {}
        }
        self.widen();
    }

    /// Where little was found, blocks are small: then the likeliest unit is sampled more finely.
    fn widen(&mut self) {
        if !self.widened && self.first.is_empty() && self.again.is_empty() && self.left() == 0 {
            self.widened = true;
            if self.found.len() < plan::FEW
                && let Some(unit) = self.units.iter_mut().find(|unit| unit.is_likely())
            {
                unit.sample_finely();
            }
        }
    }

    /// The voltage at the vehicle.
    pub fn volts(&mut self, millivolts: u32) {
        self.millivolts = Some(millivolts);
        if millivolts < plan::LOW_MV && self.halt.is_none() {
            self.halt = Some(Halt::LowBattery { millivolts });
        }
    }

    /// A temperature that the vehicle itself shows by a standard identifier: coolant, intake, ambient.
    pub fn reference(&mut self, quantity: Quantity, celsius: Celsius) {
        self.soak.note(quantity, celsius.to_f64());
    }

    /// The engine's speed.
    pub fn engine(&mut self, speed: Rpm) {
        if speed > Rpm::LOWEST && self.halt.is_none() && !self.is_done() {
            self.halt = Some(Halt::EngineRuns);
        }
    }

    /// Why it stands.
    pub const fn halted(&self) -> Option<Halt> {
        self.halt
    }

    /// A person wants it to go on. What is still so stops it again.
    pub fn go_on(&mut self) {
        self.halt = None;
        if let Some(millivolts) = self.millivolts {
            self.volts(millivolts);
        }
    }

    /// After an interruption, or from its state read again: the clock may have started anew.
    pub fn resumed(&mut self) {
        self.not_before = None;
        self.found.iter_mut().for_each(|found| found.at = None);
    }

    /// Samples more finely than so far.
    pub fn deeper(&mut self, depth: Depth) {
        self.depth = self.depth.max(depth);
    }

    /// Whether everything that is planned was asked.
    pub fn is_done(&self) -> bool {
        self.open.is_none() && self.first.is_empty() && self.again.is_empty() && self.left() == 0
    }

    /// Whether it is known what is to be asked: each unit was asked for its services. Before that [`Progress::left`] says too little.
    pub fn is_planned(&self) -> bool {
        self.first.is_empty() && self.units.iter().all(Unit::is_known)
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        let left = self.left() + (self.first.len() + self.again.len()) as u32;
        Progress {
            asked: self.asked,
            left,
            time_left: Duration::from_millis((f64::from(left) * self.mean_ms) as u64),
            readable: self.found.len() as u32,
            near: self.near().count() as u32,
            locked: self.locked,
        }
    }

    /// What is worth watching: every place whose answer holds a value near the soaked vehicle's temperature (every place that can be read
    /// while that is not known), and what refused only for the state of the vehicle. With its last bytes.
    pub fn places(&self) -> Vec<(Place, Vec<u8>)> {
        let near = self.near().map(|found| (found.place, found.bytes.clone()));
        near.chain(self.later.iter().map(|place| (*place, Vec::new()))).collect()
    }

    /// Every place that can be read.
    pub fn readable(&self) -> impl Iterator<Item = Place> {
        self.found.iter().map(|found| found.place)
    }

    /// What was answered, and when, since the clock of this run began.
    pub fn heard(&self) -> impl Iterator<Item = (Place, &[u8], Mono)> {
        self.found.iter().filter_map(|found| Some((found.place, found.bytes.as_slice(), found.at?)))
    }

    /// The soaked vehicle as its own references show it.
    pub const fn soak(&self) -> &Soak {
        &self.soak
    }

    fn near(&self) -> impl Iterator<Item = &Found> {
        let soak = self.soak.celsius();
        self.found.iter().filter(move |found| {
            soak.is_none_or(|celsius| !candidates(&found.bytes, celsius, plan::NEAR_K).is_empty())
        })
    }

    fn left(&self) -> u32 {
        self.units.iter().map(|unit| unit.left(self.depth)).sum()
    }

    fn next(&mut self) -> Option<(Place, Purpose, u8)> {
        if let Some((place, purpose)) = self.first.pop_front() {
            return Some((place, purpose, 0));
        }
        // What could not answer is asked again between others, so that it has had its time.
        if self.asked.is_multiple_of(plan::AGAIN_EVERY)
            && let Some((place, tries)) = self.again.pop_front()
        {
            return Some((place, Purpose::Again, tries));
        }
        let depth = self.depth;
        let next =
            plan::stages().find_map(|stage| self.units.iter_mut().find_map(|unit| unit.next(stage, depth)));
        let again = |(place, tries)| (place, Purpose::Again, tries);
        next.map(|(place, purpose)| (place, purpose, 0)).or_else(|| self.again.pop_front().map(again))
    }

    fn read(&mut self, ask: Ask, bytes: Vec<u8>, now: Mono) {
        self.note(ask, AnswerKind::Data);
        if ask.purpose == Purpose::Probe {
            return;
        }
        if ask.place.service == Service::Current && plan::is_bitmap(ask.place.id) {
            let claimed = plan::unnamed(ask.place, &bytes);
            self.first.extend(claimed.map(|place| (place, Purpose::Standard)));
        } else if let Some(known) = self.found.iter_mut().find(|found| found.place == ask.place) {
            (known.bytes, known.at) = (bytes, Some(now));
        } else {
            self.found.push(Found { place: ask.place, bytes, at: Some(now) });
        }
    }

    fn refused(&mut self, ask: Ask, code: u8, tries: u8) {
        let heard = unit::heed(ask.place.service, code);
        self.note(ask, heard);
        match heard {
            AnswerKind::Busy => self.once_more(ask.place, tries, plan::BUSY_TRIES),
            AnswerKind::NotNow if ask.purpose != Purpose::Probe && !self.later.contains(&ask.place) => {
                self.later.push(ask.place);
                self.later.truncate(plan::MOST_LATER);
            }
            AnswerKind::Locked => self.locked += 1,
            _ => {}
        }
    }

    fn once_more(&mut self, place: Place, tries: u8, most: u8) {
        if tries < most {
            self.again.push_back((place, tries + 1));
        }
    }

    fn note(&mut self, ask: Ask, heard: AnswerKind) {
        let of = |unit: &&mut Unit| unit.is(ask.place.header, ask.place.service);
        if let Some(unit) = self.units.iter_mut().find(of) {
            unit.note(ask, heard);
        }
        // Nobody is there: nor is the other service.
        if heard == AnswerKind::Silence && self.units.iter().any(|unit| unit.is_nobody(ask.place.header)) {
            for unit in self.units.iter_mut().filter(|unit| unit.has(ask.place.header)) {
                unit.close();
            }
        }
        // A unit that does not take the service is not asked for what was put aside.
        let closed =
            |place: &Place| self.units.iter().any(|u| u.is(place.header, place.service) && u.is_closed());
        self.again.retain(|(place, _)| !closed(place));
    }
}

/// How quickly the mean time of an exchange follows.
/// Own choice: twenty exchanges; a forecast of minutes must not jump with one silence.
const MEAN_FOLLOWS: f64 = 0.05;

#[cfg(test)]
mod tests;
