//! What the technician knows from the daemon: where the bay stands by the events, as on any screen.
//!
//! In: events and answers. Out: plain questions. Not here: what he does about it (`work.rs`).

use events::{
    Advice, Body, Candidate, Event, FindView, Precondition, Question, Role, SeatAdvice, Snapshot, Verdict,
};
use units::Mono;

/// What he knows.
#[derive(Debug, Clone, Default)]
pub(super) struct Eyes {
    /// What was said.
    known: Snapshot,
    /// Since when the verdict is what it is; none before the first.
    verdict_since: Option<Mono>,
    /// What he was advised last: by an event, or by the answer to what he told.
    pub(super) advice: Option<Advice>,
    /// How much he was told last to fill more, mL; he may have to read the container first.
    pub(super) portion_ml: Option<f64>,
}

impl Eyes {
    pub(super) fn see(&mut self, event: &Event, now: Mono) {
        match &event.body {
            Body::Verdict { verdict, .. } if !self.is(*verdict) => self.verdict_since = Some(now),
            Body::Advice(said) => {
                self.advice = Some(said.advice);
                if said.advice == Advice::FillMore {
                    self.portion_ml = said.millilitres.map(|ml| ml.to_f64());
                }
            }
            _ => {}
        }
        self.known.apply(event);
    }

    pub(super) const fn advised(&mut self, advice: Advice) {
        self.advice = Some(advice);
    }

    /// What both seats were told last; none before the first word.
    pub(super) fn said(&self) -> Option<SeatAdvice> {
        self.advice.map(|_| self.known.said)
    }

    /// What the helper inside is told.
    pub(super) fn inside(&self) -> Option<Advice> {
        self.said().map(|said| said.at(Role::Inside))
    }

    /// What is asked beside it.
    pub(super) fn asks(&self) -> Option<Question> {
        self.said().and_then(|said| said.asks)
    }

    /// How the search for the fluid's identifier stands.
    pub(super) fn find(&self) -> Option<FindView> {
        self.known.find.clone()
    }

    /// What leads in it.
    pub(super) fn leads(&self) -> Option<Candidate> {
        self.known.candidates.first().cloned()
    }

    pub(super) fn celsius(&self) -> Option<f64> {
        self.known.estimate.map(|estimate| estimate.celsius.to_f64())
    }

    pub(super) fn open(&self) -> &[Precondition] {
        self.known.running().map_or(&[], |job| &job.open)
    }

    /// Whether the job has ended.
    pub(super) fn result(&self) -> bool {
        self.known.job.as_ref().is_some_and(|job| job.result.is_some())
    }

    pub(super) fn is(&self, verdict: Verdict) -> bool {
        self.verdict_since.is_some() && self.known.verdict == verdict
    }

    /// For how long the verdict has been `verdict`, s; nothing where it is another.
    pub(super) fn seconds_of(&self, verdict: Verdict, now: Mono) -> Option<f64> {
        let since = self.verdict_since.filter(|_| self.is(verdict))?;
        Some(now.since(since).as_secs_f64())
    }
}
