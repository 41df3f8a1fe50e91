//! The identifiers of one drawn vehicle: what each of its control units gives by services 21 and 22, and which of them is the fluid.
//!
//! ```text
//!   seed, bus ─► draw ─► units ─ blocks of identifiers ─ fields: a signal and how it is coded
//!   World ─► follow(world): nodes of their own (oil, board), counters ─► answer(whom, service, id) ─► bytes, refusal, late, another's
//! ```
//!
//! In: a seed and a bus; the [`World`] as it goes on; requests. Out: [`UnitReply`], and the [`Truth`] that only the simulation knows.
//! The signals come from the six nodes of `thermal.rs` and from nodes of their own here (`signal.rs`); nothing of the program that searches is used.
//! Where identifiers lie, how many there are and how they are coded is drawn (`draw.rs`); the encodings are the rows of
//! `fixtures/reference/obd/temp_encodings.csv`. Not here: lines, frames, waiting (`car/`), services 01 to 0A (`ecu.rs`).
//! Figures: docs/find.md, "The vehicles it was tried on"; where none is named there, chosen, no source.

mod coding;
mod draw;
mod signal;

use std::collections::BTreeMap;

use units::Mono;

use crate::dice::Dice;
use crate::world::{Plug, World};

pub use coding::Coding;
pub use draw::Form;
use signal::{Nodes, Signal};

/// What came back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UnitReply {
    /// The positive reply's payload: what stands behind the echoed identifier.
    Data(Vec<u8>),
    /// `7F`, the service, this code.
    Refused(u8),
    /// The same as data, so many milliseconds later than the bus allows.
    Late(u32, Vec<u8>),
    /// The whole message of somebody who answers another request, from the service byte on.
    Other(Vec<u8>),
    /// Nothing.
    Silence,
}

/// Where the fluid's temperature is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truth {
    /// Where its unit is asked.
    pub asked: u32,
    /// 0x21 or 0x22.
    pub service: u8,
    /// The identifier.
    pub id: u16,
    /// The first byte of the value behind the identifier.
    pub byte: u8,
    /// How it is coded.
    pub coding: Coding,
}

/// One field of an answer.
#[derive(Debug, Clone, PartialEq)]
struct Field {
    signal: Signal,
    coding: Coding,
}

/// How one control unit behaves.
#[derive(Debug, Clone, PartialEq)]
struct Unit {
    asked: u32,
    /// Answers functional requests of service 01.
    standard: bool,
    /// Whether it takes 21 and 22.
    services: [bool; 2],
    /// How it refuses what it does not have.
    refuses: Refusal,
    /// Of a hundred answers, so many come late.
    late_percent: u8,
    /// Of a hundred answers, so many are those of another request.
    other_percent: u8,
}

/// How a unit refuses an identifier that it does not have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Refusal {
    /// With this code.
    Code(u8),
    /// Not at all.
    Silence,
}

/// Where an identifier lies: whom to ask, the service, its number.
type Key = (u32, u8, u16);

/// The identifiers of one vehicle.
#[derive(Debug, Clone)]
pub struct Identifiers {
    form: Form,
    units: Vec<Unit>,
    items: BTreeMap<Key, Vec<Field>>,
    /// Exist, and are locked.
    locked: Vec<Key>,
    /// Not while the engine stands.
    running_only: Vec<Key>,
    nodes: Nodes,
    truths: Vec<Truth>,
    dice: Dice,
    followed: Mono,
}

impl Identifiers {
    /// What kind of vehicle it is.
    pub const fn form(&self) -> Form {
        self.form
    }

    /// Where the fluid is: the sump's sensor first, then another one in the fluid; none where the vehicle has none that can be read.
    pub fn truths(&self) -> &[Truth] {
        &self.truths
    }

    /// How many identifiers can be read.
    pub fn readable(&self) -> usize {
        self.items.len() - self.locked.len()
    }

    /// Addresses of the units that answer a functional request of service 01.
    pub fn answering(&self) -> impl Iterator<Item = u32> {
        self.units.iter().filter(|unit| unit.standard).map(|unit| unit.asked)
    }

    /// How many requests it takes to ask everything that could be: all identifiers of each service of each unit.
    pub fn brute_force(&self) -> u32 {
        let of = |unit: &Unit| u32::from(unit.services[0]) * 0x100 + u32::from(unit.services[1]) * 0x1_0000;
        self.units.iter().map(of).sum()
    }

    /// Whether any unit takes service 22.
    pub fn takes_two_bytes(&self) -> bool {
        self.units.iter().any(|unit| unit.services[1])
    }

    /// What an identifier carries at a byte, for a story.
    pub fn tells(&self, asked: u32, service: u8, id: u16, byte: u8) -> String {
        let mut at = 0;
        for field in self.items.get(&(asked, service, id)).into_iter().flatten() {
            if (at..at + field.coding.bytes).contains(&byte) {
                return format!("{:?} as {} from byte {at}", field.signal, field.coding.name);
            }
            at += field.coding.bytes;
        }
        "nothing".to_owned()
    }

    /// Lets its own nodes follow the world up to its present.
    pub fn follow(&mut self, world: &World) {
        let now = world.now();
        let seconds = now.since(self.followed).as_secs_f64();
        self.followed = now;
        self.nodes.key(world.key() == Plug::In);
        self.nodes.advance(seconds, world);
    }

    /// What comes back to a request of service 21 or 22 to one unit; nothing where nobody listens.
    pub fn answer(&mut self, asked: u32, service: u8, id: u16) -> UnitReply {
        let Some(unit) = self.units.iter().find(|unit| unit.asked == asked) else {
            return UnitReply::Silence;
        };
        let takes = match service {
            0x21 => unit.services[0],
            0x22 => unit.services[1],
            _ => false,
        };
        if !takes {
            return UnitReply::Refused(SERVICE_NOT_SUPPORTED);
        }
        let key = (asked, service, id);
        if self.locked.contains(&key) {
            return UnitReply::Refused(LOCKED);
        }
        if self.running_only.contains(&key) && !self.nodes.runs() {
            return UnitReply::Refused(CONDITIONS_NOT_CORRECT);
        }
        let Some(fields) = self.items.get(&key) else {
            return match unit.refuses {
                Refusal::Code(code) => UnitReply::Refused(code),
                Refusal::Silence => UnitReply::Silence,
            };
        };
        let (late, other) = (u32::from(unit.late_percent), u32::from(unit.other_percent));
        let mut bytes = Vec::new();
        for field in fields {
            let value = self.nodes.value(&field.signal, &mut self.dice);
            field.coding.write(value, &mut bytes);
        }
        let chance = self.dice.below(100) as u32;
        if chance < late {
            return UnitReply::Late(TOO_LATE_MS, bytes);
        }
        if chance < late + other {
            let [high, low] = id.wrapping_add(1).to_be_bytes();
            let echo: &[u8] = if service == 0x22 { &[high, low] } else { &[low] };
            return UnitReply::Other([&[service + 0x40], echo, &bytes[..]].concat());
        }
        UnitReply::Data(bytes)
    }
}

/// Refusals.
/// Source: ISO 14229-1 (fixtures/reference/obd/nrc.csv).
const SERVICE_NOT_SUPPORTED: u8 = 0x11;
const SUB_FUNCTION_NOT_SUPPORTED: u8 = 0x12;
const CONDITIONS_NOT_CORRECT: u8 = 0x22;
const OUT_OF_RANGE: u8 = 0x31;
const LOCKED: u8 = 0x33;
/// Later than any bus allows without a word that it will come.
/// Own choice: above the adapter's longest wait of 1.04 s.
const TOO_LATE_MS: u32 = 1_200;

#[cfg(test)]
mod tests;
