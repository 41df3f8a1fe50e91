//! Where each step stands, as it was announced last.
//!
//! In: states of steps. Out: the same, by step. Not here: where they stand by the record (`steps.rs`).

use events::{Step, StepState};

/// Where each step stands, one slot a step in the order of the words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Steps([StepState; Step::ALL.len()]);

impl Default for Steps {
    fn default() -> Self {
        Self([StepState::Open; Step::ALL.len()])
    }
}

impl Steps {
    pub(crate) fn get(&self, step: Step) -> StepState {
        self.0.get(step as usize).copied().unwrap_or(StepState::Open)
    }

    pub(crate) fn set(&mut self, step: Step, state: StepState) {
        if let Some(slot) = self.0.get_mut(step as usize) {
            *slot = state;
        }
    }

    pub(crate) fn iter(self) -> impl Iterator<Item = (Step, StepState)> {
        Step::ALL.iter().copied().zip(self.0)
    }
}
