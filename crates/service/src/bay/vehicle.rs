//! The vehicle that the adapter is plugged into: its number, its codes, who answers what and how long.
//!
//! In: what was read, losses of the link. Out: whether something is new, and the parts that know more (`codes.rs`, `sources.rs`,
//! `lengths.rs`). Pure. Not here: whether it is the job's vehicle (`job`).

use events::Sheet;
use frames::Ecu;

use super::codes::Codes;
use super::lengths::Lengths;
use super::sources::Sources;
use super::turning::Turning;

/// See the module's words.
pub(super) struct Vehicle {
    /// Its number, since the link came.
    vin: Option<String>,
    pub(super) codes: Codes,
    pub(super) sources: Sources,
    pub(super) lengths: Lengths,
    pub(super) turning: Turning,
    /// Its units as people write them: each is put together once, not at every reading.
    names: Vec<(Ecu, String)>,
}

/// So many names are kept.
/// Own choice: a vehicle has a few dozen units at most, and the limit is for what a broken line makes up.
const NAMES: usize = 64;

impl Vehicle {
    /// One of which nothing is known.
    pub(super) fn new(sheet: &Sheet) -> Self {
        Self {
            vin: None,
            codes: Codes::default(),
            sources: Sources::new(sheet),
            lengths: Lengths::default(),
            turning: Turning::default(),
            names: Vec::new(),
        }
    }

    /// A unit's name.
    pub(super) fn name(&mut self, unit: Ecu) -> String {
        if let Some((_, name)) = self.names.iter().find(|(of, _)| *of == unit) {
            return name.clone();
        }
        let name = unit.to_string();
        if self.names.len() < NAMES {
            self.names.push((unit, name.clone()));
        }
        name
    }

    /// It is read after another sheet: what was seen of answers is not seen of these.
    pub(super) fn read_by(&mut self, sheet: &Sheet) {
        (self.sources, self.lengths) = (Sources::new(sheet), Lengths::default());
    }

    pub(super) fn vin(&self) -> Option<&str> {
        self.vin.as_deref()
    }

    /// Its number was read; whether that is news.
    pub(super) fn is(&mut self, vin: &str) -> bool {
        self.codes.vehicle_known();
        let news = self.vin.as_deref() != Some(vin);
        if news {
            self.vin = Some(vin.to_owned());
        }
        news
    }

    /// The link is gone: perhaps the adapter comes back in another one.
    pub(super) fn lost(&mut self) {
        self.sources.forget();
        self.turning.forget();
        self.codes.lost(self.vin.is_some());
        self.vin = None;
    }
}
