//! The scripted technician: sees what the daemon says and what comes out of the vehicle, acts with hands, and tells.
//!
//! ```text
//!   events ──► eyes.rs: what he knows ─┐
//!   vehicle (stream, jug) ─────────────┼─► work.rs, after.rs: one task after the other ──► hands on the world
//!                                      └─► habits.rs: how he reads and tells ──► Told, and lines of what he does
//! ```
//!
//! A machine without I/O: events in, tells out, time passed in. He follows the advice of the program, except where
//! his [`Mistake`] says otherwise, and is always slower than the machine. He ends every job: with `done`, and
//! where that is refused, with `abort`; nothing keeps him longer than [`PATIENCE`].
//! Not here: the truth (`world.rs`); he sees only what a person could see.

mod after;
mod eyes;
mod habits;
mod obeys;
mod work;

use std::collections::VecDeque;
use std::time::Duration;

use events::{Event, Refusal, Request, Role, Sheet, Told, Word};
use units::Mono;

use crate::dice::Dice;
use crate::harm::Place;
use crate::mistake::Mistake;
use crate::timed::Stop;
use crate::world::World;
use eyes::Eyes;
use work::Task;

/// How one technician works.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Script {
    /// What goes wrong.
    pub mistake: Option<Mistake>,
    /// At what flow he calls it a trickle, mL/min.
    pub trickle_ml_min: f64,
    /// Half width of his error in reading a jug, mL.
    pub jug_ml: f64,
    /// Half width of his error in measuring inclination, degrees.
    pub inclination_degrees: f64,
    /// How many times as long as usual everything takes him.
    pub pace: f64,
    /// A recheck of this job: nothing is drained and filled.
    pub recheck_of: Option<u64>,
    /// What the job is for: a check drains and fills nothing either.
    pub job: events::Task,
    /// There is no adapter: he and his helper tell everything.
    pub people: bool,
    /// He works alone: both seats are his.
    pub alone: bool,
    /// He begins once the search for the fluid's identifier has asked, and confirms what it finds where his thermometer agrees.
    pub finds: bool,
    /// The one inside stops the engine once while `go` is awaited.
    pub stop: Option<Stop>,
    /// He knows no order of steps and does what he is told: the way through any procedure but the usual one.
    pub by_advice: bool,
}

impl Script {
    /// A careful technician without a mistake.
    /// Source: from memory: jugs are read to ±25 mL, inclination to ±0.1°.
    pub const GOOD: Self = Self {
        mistake: None,
        trickle_ml_min: 10.0,
        jug_ml: 25.0,
        inclination_degrees: 0.1,
        pace: 1.0,
        recheck_of: None,
        job: events::Task::Change,
        people: false,
        alone: false,
        finds: false,
        stop: None,
        by_advice: false,
    };

    /// Whether the fluid is changed.
    pub fn changes(&self) -> bool {
        self.recheck_of.is_none() && self.job == events::Task::Change
    }
}

/// The technician at work.
#[derive(Debug, Clone)]
pub struct Technician {
    script: Script,
    sheet: Sheet,
    dice: Dice,
    eyes: Eyes,
    task: Task,
    began: Option<Mono>,
    /// When he goes on.
    wakes: Mono,
    tells: VecDeque<Request>,
    /// The id of what he told last, its word, and when he looked up for the answer.
    waiting_for: Option<(String, &'static str, Mono)>,
    told: u32,
    refused: Option<(&'static str, Refusal)>,
    doing: String,
    deeds: VecDeque<String>,
    book: work::Book,
}

impl Technician {
    /// A technician who begins at once.
    pub fn new(script: Script, sheet: &Sheet, seed: u64) -> Self {
        let sensor_off = Dice::part(seed, 0xD15).within(SENSOR_OFF_K);
        Self {
            script,
            sheet: sheet.clone(),
            dice: Dice::part(seed, 0x7EC4),
            eyes: Eyes::default(),
            task: if script.by_advice { Task::Obey } else { Task::Begin },
            began: None,
            wakes: Mono::ZERO,
            tells: VecDeque::new(),
            waiting_for: None,
            told: 0,
            refused: None,
            doing: "comes to the vehicle".to_owned(),
            deeds: VecDeque::new(),
            book: work::Book { sensor_off, ..work::Book::default() },
        }
    }

    /// An event from the daemon.
    pub fn handle_event(&mut self, event: &Event, now: Mono) {
        self.eyes.see(event, now);
    }

    /// The daemon's word to what he told last.
    pub fn handle_word(&mut self, word: &Word) {
        let (id, refusal) = match word {
            Word::Accepted { id, advice, .. } => {
                self.eyes.advised(*advice);
                (id, None)
            }
            Word::Refused { id: Some(id), reason, .. } => (id, Some(*reason)),
            _ => return,
        };
        let Some((_, word, _)) = self.waiting_for.take_if(|(waiting, ..)| waiting == id) else { return };
        self.refused = refusal.map(|reason| (word, reason));
        if let Some(reason) = refusal {
            self.deeds.push_back(format!("is refused `{word}`: {}", reason.says()));
        }
    }

    /// Goes on with his work, where his time has come. The world is brought up to `now` first.
    pub fn handle_timeout(&mut self, now: Mono, world: &mut World) {
        if now < self.wakes || self.finished() {
            return;
        }
        world.advance(now);
        let began = *self.began.get_or_insert(now);
        if self.waiting_for.as_ref().is_some_and(|(.., since)| now.since(*since) > ANSWER_WITHIN) {
            self.waiting_for = None;
        }
        if self.waiting_for.is_some() || !self.tells.is_empty() {
            // He waits for the answer before he goes on.
            self.wakes = now.after(Duration::from_millis(200));
            return;
        }
        if now.since(began) > PATIENCE {
            self.lose_patience(world);
        }
        if self.script.finds && self.attends_to_the_search(now, world) {
            return;
        }
        let seconds = if self.answers_a_question(world) { 0.0 } else { self.work(now, world) };
        self.wakes = now.after(Duration::from_millis((seconds.max(0.1) * 1_000.0) as u64));
    }

    /// What he tells the daemon next; one at a time, the next after the answer.
    pub fn poll_tell(&mut self) -> Option<Told> {
        if self.waiting_for.is_some() {
            return None;
        }
        let request = self.tells.pop_front()?;
        self.told += 1;
        // No id of the first day comes again on the second.
        let day = self.script.recheck_of.map_or(String::new(), |of| format!("-recheck-{of}"));
        let id = format!("technician{day}-{}", self.told);
        self.waiting_for = Some((id.clone(), request.word(), self.wakes));
        Some(Told { id, by: Some(self.role(&request)), request })
    }

    /// When he goes on by himself.
    pub fn poll_timeout(&self) -> Option<Mono> {
        (!self.finished()).then_some(self.wakes)
    }

    /// Whether he has gone home.
    pub fn finished(&self) -> bool {
        self.task == Task::Gone && self.tells.is_empty() && self.waiting_for.is_none()
    }

    /// Where he is, and whether he has put it on stands.
    pub fn place(&self) -> Place {
        // One person alone gets up to do what needs the other seat.
        let below = (self.task.is_below() || self.book.below) && !self.script.alone;
        Place { below, raised: self.book.raised }
    }

    /// What he does now.
    pub fn doing(&self) -> &str {
        &self.doing
    }

    /// What he has done since the last call, line by line, until nothing is left.
    pub fn poll_doing(&mut self) -> Option<String> {
        self.deeds.pop_front()
    }

    fn role(&self, request: &Request) -> Role {
        match request {
            Request::Engine { .. } | Request::Display { .. } | Request::Lamp { .. } => Role::Inside,
            Request::Confirm {
                what:
                    events::Precondition::BrakeHeld
                    | events::Precondition::SelectorCycled
                    | events::Precondition::ModeOn
                    | events::Precondition::InPosition
                    | events::Precondition::Parked,
            } => Role::Inside,
            _ => Role::Under,
        }
    }
}

/// The sensor behind a display or a lamp is off by no more, K.
/// Source: from memory: its uncertainty is taken to be 2 K; a half width of as many is drawn.
const SENSOR_OFF_K: f64 = 2.0;
/// Longer he does not wait for the daemon's answer to one thing told.
/// Own choice: twice what the daemon may take; then he looks elsewhere.
const ANSWER_WITHIN: Duration = Duration::from_secs(10);
/// Nobody stays longer at one job.
/// Own choice: two warm-ups and what lies between; below the stage's own limit.
pub const PATIENCE: Duration = Duration::from_secs(85 * 60);
