//! What is asked beside the work, and what an answer changes.
//!
//! In: told things that were accepted. Out: facts about the job.

use events::{Leak, LeakPlace, LeakTold, Precondition, Question, Request, Task};

use super::Record;
use crate::told::act::Act;

impl Record {
    /// What is asked beside what is to be done now.
    pub(crate) fn asks(&self) -> Option<Question> {
        if self.hands.task != Task::Check || self.which.recheck_of.is_some() || self.result.is_some() {
            return None;
        }
        if self.port.rounds > 0 {
            let due = self.asked.looks == 0 && !self.port_open() && !self.amount_only();
            return due.then_some(Question::Fluid);
        }
        if self.asked.before.is_untold() {
            return Some(Question::Symptoms);
        }
        let below = self.holds(Precondition::OnStands) || self.reads_a_gauge();
        let rests = !self.motion.circulated && !self.said.holds.contains(Precondition::EngineRunning);
        match self.asked.leak_before {
            _ if !below || !rests => None,
            None => Some(Question::Leaks),
            Some(LeakTold { how, place: None }) if how != Leak::Dry => Some(Question::LeakPlace),
            Some(_) => None,
        }
    }

    /// An answer, whoever asked.
    pub(crate) fn answered(&mut self, request: &Request) {
        let was = self.asked;
        // With the level set it is what is left.
        let set = self.is_set();
        match request {
            Request::Symptom { what } if set => self.asked.after.told(*what),
            Request::Symptom { what } => self.asked.before.told(*what),
            Request::FluidLooks { look } => self.asked.looks |= 1 << (*look as u8),
            Request::Leak { how } => {
                let told = Some(LeakTold { how: *how, place: None });
                if set {
                    self.asked.leak_after = told
                } else {
                    self.asked.leak_before = told
                }
                return;
            }
            Request::LeakAt { place } => {
                self.leak_placed(Some(*place));
                self.act(Act::Placed);
                return;
            }
            _ => return,
        }
        self.act(Act::Answered(was));
    }

    /// That of the last leak.
    pub(crate) fn leak_placed(&mut self, at: Option<LeakPlace>) {
        let leak = if self.asked.leak_after.is_some() {
            &mut self.asked.leak_after
        } else {
            &mut self.asked.leak_before
        };
        if let Some(LeakTold { place, .. }) = leak {
            *place = at;
        }
    }
}
