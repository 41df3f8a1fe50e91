//! How vehicles warm, as earlier jobs have learned it: the forecasts of the next jobs begin with it.
//!
//! In: what was kept, what a job learned. Out: the same, by the sheet's name. Pure. Not here: what a forecast makes of it (`gate`),
//! where it is kept (`memory.rs`).

use std::collections::BTreeMap;

use gate::Warming;

/// See the module's words.
#[derive(Default)]
pub(super) struct Warmth {
    by_sheet: BTreeMap<String, Warming>,
    learned: Option<Warming>,
}

impl Warmth {
    /// What was kept of earlier daemons' jobs.
    pub(super) fn begin_with(&mut self, by_sheet: BTreeMap<String, Warming>) {
        self.by_sheet = by_sheet;
    }

    pub(super) fn of(&self, sheet: &str) -> Option<&Warming> {
        self.by_sheet.get(sheet)
    }

    /// A job has ended, and knows this now.
    pub(super) fn learn(&mut self, sheet: &str, warming: Warming) {
        self.learned = Some(warming);
        self.by_sheet.insert(sheet.to_owned(), warming);
    }

    /// What is to be kept; asking answers once.
    pub(super) const fn take_learned(&mut self) -> Option<Warming> {
        self.learned.take()
    }
}
