//! What he does beside the task in hand, and how he reads, notes and tells.
//!
//! In: time, the vehicle, what is open. Out: tells, deeds, readings with a person's error.
//! Not here: the order of the work (`work.rs`).

use std::time::Duration;

use events::{
    Advice, EngineWord, FindNext, FindStage, FluidLook, LampState, Leak, LeakPlace, Precondition, Question,
    Refusal, Request, Signal, Surface, Symptom,
};
use units::{Celsius, Degrees, Mono};

use super::Technician;
use super::work::Task;
use crate::mistake::Mistake;
use crate::thermal::Engine;
use crate::world::{Plug, World};

impl Technician {
    /// In the middle of the warm-up the adapter is pulled, and comes back.
    pub(super) fn pull_the_adapter(&mut self, waited: f64, now: Mono, world: &mut World) {
        if self.script.mistake != Some(Mistake::AdapterUnplugged) || waited < 240.0 {
            return;
        }
        match self.book.unplugged {
            None => {
                let seconds = self.dice.between(20.0, 40.0);
                world.plug_adapter(Plug::Out);
                self.book.unplugged = Some((now.after(Duration::from_secs(seconds as u64)), Plug::Out));
                self.note("pulls the adapter by accident");
            }
            Some((until, Plug::Out)) if now >= until => {
                world.plug_adapter(Plug::In);
                self.book.unplugged = Some((until, Plug::In));
                self.note("plugs the adapter in again");
            }
            Some(_) => {}
        }
    }

    /// Where the signal is a thermometer: holds it to the tape every twenty seconds.
    pub(super) fn read_the_spot(&mut self, now: Mono, world: &World) {
        if !self.sheet.check.signal.is_typed() || self.book.spot_due.is_some_and(|due| now < due) {
            return;
        }
        self.book.spot_due = Some(now.after(Duration::from_secs(20)));
        match self.sheet.check.signal {
            Signal::Display => {
                let shown = world.fluid_celsius() + self.book.sensor_off;
                return self.tell(Request::Display { celsius: Celsius::clamped(shown.round()) });
            }
            Signal::Lamp => {
                let [low, high] = self.sheet.check.band_c;
                let felt = world.fluid_celsius() + self.book.sensor_off;
                let shows = match felt {
                    t if t < low => LampState::TooCold,
                    t if t > high => LampState::TooHot,
                    _ => LampState::Right,
                };
                return self.tell(Request::Lamp { shows });
            }
            _ => {}
        }
        self.reads_on_tape(world);
    }

    /// A thermometer on matt tape on the sump.
    pub(super) fn reads_on_tape(&mut self, world: &World) {
        let surface = world.tape_celsius();
        let celsius = Celsius::clamped(((surface + self.dice.within(0.7)) * 10.0).round() / 10.0);
        self.tell(Request::Spot { celsius, surface: Surface::Tape });
    }

    /// Without an adapter the helper tells what the engine does: when it comes or goes, and when he is asked.
    pub(super) fn tell_engine(&mut self, world: &World) {
        // What ran before a stop says nothing of what comes after it.
        self.book.ran_on &= world.engine() == Engine::Running;
        if self.script.people {
            let runs = world.engine() == Engine::Running;
            let what = if runs { EngineWord::Idling } else { EngineWord::Stopped };
            self.tell(Request::Engine { what, rpm: None });
        }
    }

    /// Asked what the engine does, he says it, a moment later.
    pub(super) fn answer(&mut self, now: Mono, world: &World) {
        let asked = self.script.people && self.eyes.inside() == Some(Advice::AskEngine);
        if !asked || self.book.answered.is_some_and(|last| now.since(last) < Duration::from_secs(5)) {
            return;
        }
        self.book.answered = Some(now);
        self.tell_engine(world);
    }

    /// What a check asks beside the work he answers as the vehicle shows it, once; it costs a word and no time. Whether
    /// he did.
    pub(super) fn answers_a_question(&mut self, world: &World) -> bool {
        let Some(question) = self.eyes.asks().filter(|asked| !self.book.questions.contains(asked)) else {
            return false;
        };
        self.book.questions.push(question);
        // What is missing has left somewhere, and where much is missing it slips.
        let short = world.vehicle().shape.shortage_ml;
        self.tell(match question {
            Question::Symptoms if short > SLIPS_ML => Request::Symptom { what: Symptom::Slips },
            Question::Symptoms => Request::Symptom { what: Symptom::None },
            Question::Leaks if short > SHOWS_ML => Request::Leak { how: Leak::Damp },
            Question::Leaks => Request::Leak { how: Leak::Dry },
            Question::LeakPlace => Request::LeakAt { place: LeakPlace::Pan },
            Question::Fluid => Request::FluidLooks { look: FluidLook::Red },
        });
        true
    }

    /// Leaves the key on while identifiers are asked; confirms what is left of them where it shows what his thermometer shows. Whether
    /// that is all for now.
    pub(super) fn attends_to_the_search(&mut self, now: Mono, world: &World) -> bool {
        let find = self.eyes.find();
        let asks =
            find.as_ref().is_none_or(|find| matches!(find.stage, FindStage::Search | FindStage::Stopped));
        if self.task == Task::Begin && asks {
            self.wakes = now.after(Duration::from_secs(5));
            return true;
        }
        let Some(find) = find else { return false };
        let waits = self.book.confirmed.is_some_and(|last| now.since(last) < Duration::from_secs(30));
        let leads = self.eyes.leads().filter(|_| find.next == FindNext::Confirm && !waits);
        let agrees = |shown: Celsius| (shown.to_f64() - world.fluid_celsius()).abs() < AGREES_K;
        let Some(leads) = leads.filter(|leads| leads.celsius.is_some_and(agrees)) else { return false };
        let request =
            Request::Candidate { service: leads.service, identifier: leads.id, header: leads.header.clone() };
        self.note(&format!("sees that {} shows what the thermometer shows", leads.place()));
        self.book.confirmed = Some(now);
        self.tell(request);
        false
    }

    /// What is shown as open although he has done it, he confirms once more; not more often than each half minute.
    pub(super) fn remind(&mut self, now: Mono) {
        if self.book.reminded.is_some_and(|last| now.since(last) < Duration::from_secs(30)) {
            return;
        }
        let open = self.eyes.open().iter().find(|open| self.book.did.contains(open)).copied();
        if let Some(what) = open {
            self.book.reminded = Some(now);
            self.tell(Request::Confirm { what });
        }
    }

    /// How long he waits for the window, s.
    pub(super) fn waits_at_most_s(&self) -> f64 {
        match self.script.mistake {
            Some(Mistake::StartedHot) => 900.0,
            Some(mistake) if !mistake.recovers() => 2_400.0,
            _ => 3_600.0,
        }
    }

    /// How it stands, with his error, and told in tenths of a degree.
    pub(super) fn measures_the_stand(&mut self, world: &World) {
        let error = self.script.inclination_degrees;
        let (pitch, roll) = world.attitude();
        let (pitch, roll) = (pitch + self.dice.within(error), roll + self.dice.within(error));
        let tenths = |degrees: f64| Degrees::clamped((degrees * 10.0).round() / 10.0);
        self.note(&format!("measures how it stands: pitch {pitch:.1}°, roll {roll:.1}°"));
        self.tell(Request::Level { pitch_degrees: tenths(pitch), roll_degrees: tenths(roll) });
    }

    /// What he sees now, mL/min, is as thin as `thin`, or a thin stream that has thinned no more for some time.
    pub(super) fn has_thinned(&mut self, seen: f64, thin: f64) -> bool {
        self.book.stream_before.push(seen);
        let before =
            self.book.stream_before.len().checked_sub(25).and_then(|at| self.book.stream_before.get(at));
        let thins_no_more =
            seen < 3.0 * self.script.trickle_ml_min && before.is_some_and(|before| seen > 0.95 * before);
        seen <= thin || thins_no_more
    }

    pub(super) fn confirm(&mut self, what: Precondition) {
        self.book.did.push(what);
        self.tell(Request::Confirm { what });
    }

    pub(super) fn tell(&mut self, request: Request) {
        let mute = self.script.mistake == Some(Mistake::NothingTold);
        if mute && !matches!(request, Request::Start { .. } | Request::Done | Request::Abort { .. }) {
            return;
        }
        self.refused = None;
        self.tells.push_back(request);
    }

    pub(super) fn refused_for(&self, word: &str, why: Refusal) -> bool {
        self.refused.is_some_and(|(refused, reason)| refused == word && reason == why)
    }

    pub(super) fn note(&mut self, deed: &str) {
        deed.clone_into(&mut self.doing);
        self.deeds.push_back(deed.to_owned());
    }

    pub(super) fn then(&mut self, next: Task, seconds: f64) -> f64 {
        self.task = next;
        self.takes(seconds)
    }

    /// About `seconds`, never nothing.
    pub(super) fn takes(&mut self, seconds: f64) -> f64 {
        seconds * self.script.pace * self.dice.between(0.8, 1.25)
    }

    pub(super) fn jug(&mut self, millilitres: f64) -> f64 {
        ((millilitres + self.dice.within(self.script.jug_ml)) / 5.0).round().max(0.0) * 5.0
    }

    pub(super) fn thermometer(&mut self, celsius: f64) -> Celsius {
        Celsius::clamped((celsius + self.dice.within(1.0)).round())
    }
}

/// So much less in it leaves a trace below, and so much less slips.
/// Own choice: a puddle, and a step on it.
const SHOWS_ML: f64 = 100.0;
const SLIPS_ML: f64 = 500.0;
/// A thermometer agrees within this, as he sees it.
/// Own choice: twice what it is wrong by.
const AGREES_K: f64 = 4.0;
