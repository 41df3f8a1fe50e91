//! What only a rehearsal can see: the truth beside the verdict.

use events::{Body, Event, JobResult, Task, Verdict};
use rehearsal::world::true_signal;
use rehearsal::{Setup, World};
use units::Mono;

use super::ending::Ending;

/// Looks over the technician's shoulder.
pub struct Watch {
    setup: Setup,
    verdict: Verdict,
    u: f64,
    saw_go: bool,
    wrong_go_k: Option<f64>,
    result: Option<JobResult>,
}

impl Watch {
    /// Nothing seen yet.
    pub fn new(setup: &Setup) -> Self {
        let setup = setup.clone();
        Self { setup, verdict: Verdict::Wait, u: 0.0, saw_go: false, wrong_go_k: None, result: None }
    }

    /// Compares every event with the truth of that moment.
    pub fn see(&mut self, event: &Event, world: &World) {
        match &event.body {
            Body::Verdict { verdict, u, .. } => {
                self.verdict = *verdict;
                self.u = u.map_or(self.u, units::Kelvins::to_f64);
            }
            Body::Estimate(estimate) => self.u = estimate.u.to_f64(),
            Body::Result(result) => self.result = Some(result.clone()),
            _ => {}
        }
        if self.verdict == Verdict::Go {
            self.saw_go = true;
            let check = &self.setup.sheet.check;
            let truth = true_signal(world, check.signal);
            let outside = (check.band_c[0] - truth).max(truth - check.band_c[1]);
            if outside > check.k * self.u {
                self.wrong_go_k = Some(self.wrong_go_k.unwrap_or(0.0).max(outside));
            }
        }
    }

    /// The end, with the truth beside the estimate.
    pub fn end(self, world: &World, now: Mono) -> Ending {
        Ending {
            result: self.result,
            true_millilitres: world.level_error_ml(),
            true_before_millilitres: (self.setup.script.job == Task::Check
                || self.setup.script.recheck_of.is_some())
            .then(|| world.level_error_before_ml()),
            seconds: now.as_secs_f64(),
            saw_go: self.saw_go,
            wrong_go_k: self.wrong_go_k,
        }
    }
}
