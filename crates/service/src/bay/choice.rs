//! Which sheet the bay works by, and which others there are.
//!
//! In: a name that a person told, sheets that were written since the start. Out: the sheet in use, and an event where it is another. A
//! job that runs keeps the one that it began with. Not here: the sheets themselves (`plan.rs`), where they lie (the program).

use events::{Body, Refusal, Sheet, Told};

use super::{Bay, Moment};

impl Bay {
    /// The sheets that can be chosen are these from now on. The one in use is used as it is now, but never by a job that runs.
    pub fn offer(&mut self, sheets: Vec<Sheet>, now: Moment) {
        let before = self.plan.names();
        self.plan.offer_anew(sheets);
        if before != self.plan.names() {
            self.emit(Body::Sheets { names: self.plan.names(), changed: None }, now);
        }
        self.take_what_is_offered(now);
        self.settle(now);
    }

    /// As soon as no job runs.
    pub(super) fn take_what_is_offered(&mut self, now: Moment) {
        if self.job.is_running() {
            return;
        }
        let Some(sheet) = self.plan.poll_changed() else { return };
        self.works_by(sheet, "the sheet was changed; the adapter is set up anew", now);
        let changed = self.plan.shown().map(|sheet| Box::new(sheet.clone()));
        self.emit(Body::Sheets { names: self.plan.names(), changed }, now);
    }

    /// Takes another of the sheets that there are, for jobs that begin from now on.
    pub(super) fn choose(&mut self, told: &Told, name: &str, now: Moment) -> Result<Vec<Body>, Refusal> {
        if self.job.is_running() {
            return Err(Refusal::JobRunning);
        }
        let sheet = self.plan.choice(name)?;
        if sheet != *self.plan.sheet() {
            self.works_by(sheet, "another sheet was chosen; the adapter is set up anew", now);
        }
        Ok(vec![Body::Told(told.clone())])
    }

    /// Another identifier, another address: the adapter is set up anew, and nothing read before counts.
    fn works_by(&mut self, sheet: Sheet, why: &str, now: Moment) {
        self.take_sheet(sheet);
        if !self.plan.is_by_people() {
            self.lost(why, now);
            self.watch.reopen();
        }
    }
}
