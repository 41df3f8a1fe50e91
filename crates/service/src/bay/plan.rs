//! What a bay works by: its sheet, those that can be chosen, and what is known of the air that decides between two bands.
//!
//! In: sheets, what is told of the air. Out: the sheet that counts, and what answers mean by it. Pure. Not here: who may choose
//! another, and when (`tell.rs`); the band itself (`gate`).

use std::time::Duration;

use events::{Identifier, Quantity, Refusal, Sheet};
use units::{Celsius, Mono};

use crate::translate::Meaning;

/// Air that was told before a job counts for jobs that begin within this.
/// Own choice: a day warms faster than that.
const AIR_TOLD_FOR: Duration = Duration::from_secs(3_600);

/// See the module's words.
pub(super) struct Plan {
    sheet: Sheet,
    /// What answers mean by it.
    meaning: Meaning,
    /// As it was chosen: the running job may have the band of a hot day.
    as_chosen: Sheet,
    /// What can be chosen while no job runs.
    choices: Vec<Sheet>,
    /// They are others than before, and it was not looked yet what that means for the one in use.
    news: bool,
    /// The air outside as somebody told it before a job.
    air_told: Option<(Celsius, Mono)>,
    /// There is no adapter: everything is told by people.
    people: bool,
    /// The sheet describes no vehicle: nothing is set by it.
    empty: bool,
}

impl Plan {
    pub(super) fn new(sheet: Sheet) -> Self {
        let meaning = Meaning::of(&sheet);
        Self {
            as_chosen: sheet.clone(),
            sheet,
            meaning,
            choices: Vec::new(),
            news: false,
            air_told: None,
            people: false,
            empty: false,
        }
    }

    pub(super) const fn sheet(&self) -> &Sheet {
        &self.sheet
    }

    pub(super) const fn meaning(&self) -> &Meaning {
        &self.meaning
    }

    /// The sheet describes no vehicle.
    pub(super) const fn describes_nothing(&mut self) {
        self.empty = true;
    }

    /// The sheet, where it describes a vehicle.
    pub(super) fn shown(&self) -> Option<&Sheet> {
        if self.empty { None } else { Some(&self.sheet) }
    }

    /// What the check is gated on.
    pub(super) fn signal(&self) -> Quantity {
        self.sheet.check.signal.quantity()
    }

    /// Whether everything is told by people.
    pub(super) const fn is_by_people(&self) -> bool {
        self.people
    }

    /// It is from now on.
    pub(super) const fn by_people(&mut self) {
        self.people = true;
    }

    pub(super) fn offer(&mut self, choices: Vec<Sheet>) {
        self.choices = choices;
    }

    /// The same, of sheets that were written since the start.
    pub(super) fn offer_anew(&mut self, choices: Vec<Sheet>) {
        self.offer(choices);
        self.news = true;
    }

    /// The names of what can be chosen.
    pub(super) fn names(&self) -> Vec<String> {
        self.choices.iter().map(|sheet| sheet.name.clone()).collect()
    }

    /// The choice of this name, as it can be used here.
    pub(super) fn choice(&self, name: &str) -> Result<Sheet, Refusal> {
        let named = self.choices.iter().find(|sheet| sheet.name == *name).ok_or(Refusal::NoSuchSheet)?;
        if self.people { named.by_people().ok_or(Refusal::NeedsAdapter) } else { Ok(named.clone()) }
    }

    /// The sheet in use as it can be chosen now, where it says something else than before; asking answers once. What cannot be used
    /// here, or is not offered any more, changes nothing.
    pub(super) fn poll_changed(&mut self) -> Option<Sheet> {
        if !core::mem::take(&mut self.news) || self.empty {
            return None;
        }
        self.choice(&self.as_chosen.name).ok().filter(|sheet| *sheet != self.as_chosen)
    }

    /// The same vehicle with another band: what is asked stays.
    pub(super) fn take_band(&mut self, sheet: Sheet) {
        self.meaning = Meaning::of(&sheet);
        self.sheet = sheet;
    }

    /// The same vehicle, gated by an identifier that was found.
    pub(super) fn take_identifier(&mut self, identifier: &Identifier) {
        self.as_chosen = self.as_chosen.with_identifier(identifier);
        self.take_band(self.sheet.with_identifier(identifier));
    }

    /// Another sheet; whether it is another.
    pub(super) fn take(&mut self, sheet: Sheet) -> bool {
        self.empty = false;
        // The band of a hot day goes with its job.
        if self.as_chosen.in_the_heat().as_ref() != Some(&sheet) {
            self.as_chosen = sheet.clone();
        }
        let other = sheet != self.sheet;
        if other {
            self.take_band(sheet);
        }
        other
    }

    /// Somebody told the air outside before a job.
    pub(super) const fn air_told(&mut self, air: Celsius, now: Mono) {
        self.air_told = Some((air, now));
    }

    /// The sheet of a job that begins now. Which of its bands counts is decided by the air outside: where the vehicle shows it
    /// or somebody has told it of late; what the engine breathes in may be warm from the engine.
    pub(super) fn for_job(&self, shown: Option<Celsius>, now: Mono) -> Sheet {
        let told = self.air_told.filter(|(_, at)| now.since(*at) < AIR_TOLD_FOR);
        self.as_chosen.for_air(shown.or(told.map(|(air, _)| air)))
    }
}
