//! What the technician knows from the daemon: the last verdict, advice, estimate, what is open, the result.
//!
//! In: events and answers. Out: plain fields. Not here: what he does about it (`work.rs`).

use events::{Advice, Body, Event, Precondition, Question, Role, Said, Verdict};
use units::Mono;

/// What he knows.
#[derive(Debug, Clone, Default)]
pub(super) struct Eyes {
    pub(super) verdict: Option<Verdict>,
    /// Since when the verdict is what it is.
    pub(super) verdict_since: Option<Mono>,
    pub(super) advice: Option<Advice>,
    /// What both seats were told last.
    pub(super) said: Option<Said>,
    /// How much he was told last to fill more, mL; he may have to read the container first.
    pub(super) portion_ml: Option<f64>,
    /// What the helper inside is told.
    pub(super) inside: Option<Advice>,
    pub(super) celsius: Option<f64>,
    pub(super) open: Vec<Precondition>,
    pub(super) result: bool,
    /// What is asked beside it.
    pub(super) asks: Option<Question>,
}

impl Eyes {
    pub(super) fn see(&mut self, event: &Event, now: Mono) {
        match &event.body {
            Body::Verdict { verdict, open, .. } => {
                if self.verdict != Some(*verdict) {
                    self.verdict_since = Some(now);
                }
                self.verdict = Some(*verdict);
                self.open.clone_from(open);
            }
            Body::Estimate(estimate) => self.celsius = Some(estimate.celsius.to_f64()),
            Body::Advice(said) => {
                self.advice = Some(said.advice);
                self.said = Some(*said);
                self.asks = said.asks;
                if said.advice == Advice::FillMore {
                    self.portion_ml = said.millilitres.map(|ml| ml.to_f64());
                }
                self.inside = Some(said.at(Role::Inside));
            }
            Body::Result(_) => self.result = true,
            _ => {}
        }
    }

    pub(super) const fn advised(&mut self, advice: Advice) {
        self.advice = Some(advice);
    }

    pub(super) fn is(&self, verdict: Verdict) -> bool {
        self.verdict == Some(verdict)
    }

    /// For how long the verdict has been `verdict`, s; nothing where it is another.
    pub(super) fn seconds_of(&self, verdict: Verdict, now: Mono) -> Option<f64> {
        let since = self.verdict_since.filter(|_| self.is(verdict))?;
        Some(now.since(since).as_secs_f64())
    }
}
