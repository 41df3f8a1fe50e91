//! The record of one job: what was told, what the vehicle showed, and what of it can be taken back.
//!
//! In: told things that were accepted. Out: facts about the job. Not here: whether a request is accepted
//! (`decide.rs`), steps (`steps.rs`), amounts at one temperature (`balance.rs`).

use std::sync::Arc;

use events::{Balance, Caution, JobResult, People, Precondition, Sheet, Signal, Step, Task, TopUp, Utc};
use units::{Celsius, Mono};

use crate::live::Live;
use crate::port::looks::{Looks, Settled, wants_cold};
use crate::told::act::Act;
use crate::told::asked::Asked;
use crate::told::hands::{Clear, Hands};
use crate::told::held::{Held, Set};
use crate::told::ledger::{Entry, Kind};
use crate::told::stand::Stand;
use crate::told::typed::Typed;
use crate::told::words::Words;

mod amounts;
mod asked;
mod at_port;
mod gauge;
mod hands;
mod looks;
mod motion;
mod stands;
mod told;
mod undo;

pub(crate) use at_port::{AtPort, Plugs};
pub(crate) use motion::{Motion, Rounds, Run, SLOW_START_MS};
pub(crate) use stands::Steps;

/// One job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Record {
    /// Which job of which vehicle it is.
    pub(crate) which: Which,
    pub(crate) sheet: Arc<Sheet>,
    /// A wheel is among what the sheet has taken off to get there.
    pub(crate) wheel_off: bool,
    /// The sheet with its first band, where the second one counts because somebody told the air.
    first_band: Option<Arc<Sheet>>,
    /// Confirmed by a person.
    pub(crate) confirmed: Held,
    /// What people confirmed for the hands.
    pub(crate) hands: Hands,
    /// How it stands, measured.
    pub(crate) level: Option<Stand>,
    /// What went in and out.
    pub(crate) ledger: Vec<Entry>,
    /// What engine and selector did with it.
    pub(crate) motion: Motion,
    pub(crate) selector: Rounds,
    /// Which of the sheet's looks is in hand.
    pub(crate) looks: Looks,
    /// What was seen at the check port.
    pub(crate) port: AtPort,
    pub(crate) plugs: Plugs,
    /// Readings that were typed in.
    pub(crate) typed: Typed,
    /// What was told of the vehicle's trouble.
    pub(crate) asked: Asked,
    /// Remarks, photos and names so far.
    pub(crate) words: Words,
    /// What can be taken back, and what was.
    pub(crate) trail: Trail,
    /// What has been announced already.
    pub(crate) said: Announced,
    pub(crate) ending: Option<(Utc, Ending)>,
    pub(crate) result: Option<Arc<JobResult>>,
}

/// What has been announced already.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Announced {
    pub(crate) steps: Steps,
    pub(crate) holds: Held,
    pub(crate) balance: Option<Balance>,
    /// Stop rules, until the engine stops or the port is closed.
    pub(crate) stops: Set<Caution>,
    /// So many positions of the selector's rounds.
    pub(crate) shifts: u32,
    /// How much to fill, until it is filled or the next look begins; after which opening it was said last.
    pub(crate) top_up: Option<TopUp>,
    pub(crate) top_up_after: Option<u32>,
}

/// How a job ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ending {
    Done,
    Aborted,
}

/// Which job of which vehicle it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Which {
    pub(crate) number: u64,
    pub(crate) started: Utc,
    /// A recheck: of which job. No fluid is changed then.
    pub(crate) recheck_of: Option<u64>,
    pub(crate) vehicle: Option<Arc<str>>,
    /// Its identification number as it told it first in this job.
    pub(crate) vin: Option<Arc<str>>,
}

/// What can be taken back, and what was.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Trail {
    pub(crate) acts: Vec<Act>,
    /// The amount that was taken back by the request before this one, so that its correction takes its place.
    pub(crate) vacant: Option<(Kind, u32)>,
    /// Steps that were taken back and not done again.
    pub(crate) undone: Set<Step>,
}

impl Record {
    pub(crate) fn new(number: u64, sheet: &Sheet, started: Utc, recheck_of: Option<u64>) -> Self {
        Self {
            which: Which { number, started, recheck_of, vehicle: None, vin: None },
            sheet: Arc::new(sheet.clone()),
            wheel_off: sheet.access.iter().any(|part| part.to_lowercase().contains("wheel")),
            first_band: None,
            confirmed: Held::default(),
            hands: Hands::new(Task::Change, People::Two),
            level: None,
            ledger: Vec::new(),
            motion: Motion::new(),
            selector: Rounds::default(),
            looks: Looks::new(sheet),
            port: AtPort::default(),
            plugs: Plugs::default(),
            typed: Typed::default(),
            asked: Asked::default(),
            words: Words::default(),
            trail: Trail::default(),
            said: Announced::default(),
            ending: None,
            result: None,
        }
    }

    /// Whether the sheet asks for `precondition`.
    pub(crate) fn needs(&self, precondition: Precondition) -> bool {
        match precondition {
            Precondition::Dry => self.hands.wet,
            Precondition::PipeIn => self.look_asks().contains(precondition) && self.pipe_was_out(),
            _ => self.look_asks().contains(precondition),
        }
    }

    /// All that it asks for.
    pub(crate) fn needed(&self) -> Held {
        let mut needed = self.look_asks();
        if self.hands.wet {
            needed.insert(Precondition::Dry);
        }
        if !self.pipe_was_out() {
            needed.remove(Precondition::PipeIn);
        }
        needed
    }

    /// Where the pipe opens the sump: it was taken out, or is to be.
    fn pipe_was_out(&self) -> bool {
        self.changes() || self.has(Kind::Drained)
    }

    /// The engine must be started cold, for this look or a later one.
    pub(crate) fn wants_cold(&self) -> bool {
        wants_cold(&self.sheet) && self.ever_needs_engine()
    }

    /// Whether a precondition that readings do not show live holds, as told or as judged at the engine's start.
    pub(crate) fn holds(&self, precondition: Precondition) -> bool {
        match precondition {
            Precondition::Filled => {
                self.filled() && !self.awaits_fill() && !self.needs_more() && self.looks.to_add_ml.is_none()
            }
            Precondition::SelectorCycled => self.cycled(),
            Precondition::StartedCold => {
                self.motion.cold.unwrap_or_else(|| self.confirmed.contains(precondition))
            }
            Precondition::VehicleLevel => match self.level {
                Some(stand) => stand.is_level,
                // A stand that was measured and refused is not mended by eye, and no eye sees a tilt that the sheet gives.
                None => {
                    let plain = self.hands.tilted.is_none() && !self.sheet.stand.is_tilted();
                    self.confirmed.contains(precondition) && plain
                }
            },
            Precondition::Parked => self.confirmed.contains(precondition) && !self.hands.moving,
            Precondition::Dry => !self.hands.wet,
            _ => self.confirmed.contains(precondition),
        }
    }

    /// The preconditions that do not hold now, in their order.
    pub(crate) fn open(&self, live: &Live, now: Mono) -> Vec<Precondition> {
        self.open_by(|p| self.shows(p, live, now)).collect()
    }

    /// Whether one does not, but for a word on the engine that has only to be told again.
    pub(crate) fn is_open(&self, live: &Live, now: Mono) -> bool {
        let again =
            |p: Precondition| p == Precondition::EngineIdling && live.people && live.told_idling(&self.sheet);
        // What passes by itself, or by an act of its own, is no question to anybody.
        let own = [Precondition::EngineOff, Precondition::Settled, Precondition::InPosition];
        self.open_by(|p| self.shows(p, live, now)).any(|p| !again(p) && !own.contains(&p))
    }

    /// Whether a live precondition holds: as the vehicle or the time shows it, or without an adapter as it was told.
    pub(crate) fn shows(&self, precondition: Precondition, live: &Live, now: Mono) -> bool {
        match precondition {
            // In P, the parking brake on: until the next word from inside.
            Precondition::StandingStill if live.people => self.holds(Precondition::Parked),
            Precondition::Settled => self.settled(now) == Settled::Yes,
            _ => live.shows(precondition, now, &self.sheet),
        }
    }

    /// The same by what was announced: the live ones are facts then and survive a crash.
    pub(crate) fn open_as_said(&self) -> Held {
        self.open_by(|p| self.said.holds.contains(p)).collect()
    }

    fn open_by(&self, shown: impl Fn(Precondition) -> bool) -> impl Iterator<Item = Precondition> {
        let holds = move |p: Precondition| if p.is_live() { shown(p) } else { self.holds(p) };
        self.needed().iter().filter(move |p| self.gates(*p) && !holds(*p))
    }

    /// Whether `go` waits for it.
    pub(crate) fn gates(&self, precondition: Precondition) -> bool {
        precondition.gates_by(&self.sheet)
    }

    pub(crate) fn by_lamp(&self) -> bool {
        self.sheet.check.signal == Signal::Lamp
    }

    /// Whether it holds at this moment; the word of the one below grows old.
    pub(crate) fn holds_now(&self, precondition: Precondition, now: Mono) -> bool {
        match precondition {
            Precondition::Clear => self.hands.clear(now) == Clear::Yes,
            _ => self.holds(precondition),
        }
    }

    /// What was confirmed for the hands and holds.
    pub(crate) fn held(&self, now: Mono) -> Vec<Precondition> {
        self.needed().iter().filter(|p| !p.gates() && self.holds_now(*p, now)).collect()
    }

    /// The fluid is changed: this is no recheck and no check.
    pub(crate) fn changes(&self) -> bool {
        self.which.recheck_of.is_none() && self.hands.task == Task::Change
    }

    /// From here on there is no adapter: a thermometer stands in for what it read.
    pub(crate) fn without_adapter(&mut self) {
        self.hands.people = true;
        if let Some(sheet) = self.sheet.by_people() {
            self.sheet = Arc::new(sheet);
        }
    }

    /// The sheet with the band that counts in air of so many °C. `None` where the first band would count again and is not known any
    /// more: the job began with the second one.
    pub(crate) fn for_air(&self, air: Celsius) -> Option<Sheet> {
        let first = self.first_band.as_ref().unwrap_or(&self.sheet);
        let sheet = first.for_air(Some(air));
        let cold = self.sheet.check.hot_from_air_c.is_some_and(|from| air.to_f64() < from);
        (!cold || !sheet.is_in_the_heat()).then_some(sheet)
    }
}
