//! Where the temperature stands against the band, and for how long all has been well there.
//!
//! In: estimates, readings as they come, what speaks against `go`. Out: the verdict. Not here: which reasons apply
//! (`evidence/mod.rs`), when the fluid will have mixed (`vehicle/mixing.rs`).

use core::time::Duration;

use events::{Check, Reason, Signal, Verdict};
use units::Mono;

use crate::estimate::Known;
use crate::limits::{Limits, SpotLimits};
use crate::verdict::band::{Band, Place};
use crate::verdict::hold::Hold;
use crate::verdict::reasons::ReasonSet;

/// The band, the place of the last judgement in it, and how long all has been well.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Standing {
    band: Band,
    place: Option<Place>,
    hold: Hold,
}

impl Standing {
    pub(crate) fn new(check: &Check, limits: &Limits, typed: &SpotLimits) -> Self {
        let hold = match check.signal {
            Signal::Fluid | Signal::Coolant => Hold::new(limits.hold_for, limits.hold_readings),
            Signal::Spot | Signal::Display | Signal::Lamp => Hold::new(typed.hold_for, 0),
        };
        Self { band: Band::new(check), place: None, hold }
    }

    #[cfg(feature = "taken-out")]
    pub(crate) const fn take_out_guard(&mut self) {
        self.band.take_out_guard();
    }

    /// One more reading of the signal came.
    pub(crate) const fn reading(&mut self) {
        self.hold.reading();
    }

    /// All must be well anew.
    pub(crate) const fn broken(&mut self) {
        self.hold.broken();
    }

    /// Another source: where the old one stood is forgotten.
    pub(crate) const fn forget(&mut self) {
        self.place = None;
        self.hold.broken();
    }

    /// Where the temperature stands from now on.
    pub(crate) const fn stand(&mut self, place: Option<Place>) {
        self.place = place;
    }

    /// The verdict at `now` for these reasons against `go`, and what it adds to them. `hold_for`: how long all must be well; `mixed_at`: not before the fluid has mixed.
    pub(crate) fn verdict(
        &mut self,
        now: Mono,
        hold_for: Duration,
        mixed_at: Option<Mono>,
        stale: bool,
        reasons: &mut ReasonSet,
    ) -> Verdict {
        if reasons.is_empty() {
            if self.hold.well(now, hold_for, mixed_at) {
                reasons.add(Reason::InBand);
                return Verdict::Go;
            }
            reasons.add(Reason::Hysteresis);
            return Verdict::Wait;
        }
        self.hold.broken();
        if self.place == Some(Place::Above) && !stale && !reasons.has(Reason::Disagrees) {
            Verdict::TooHot
        } else {
            Verdict::Wait
        }
    }

    pub(crate) const fn band(&self) -> &Band {
        &self.band
    }

    pub(crate) const fn place(&self) -> Option<Place> {
        self.place
    }

    /// Where this estimate stands, coming from where the last one stood.
    pub(crate) fn place_of(&self, known: Known) -> Place {
        self.band.place(known, self.place)
    }

    /// When all will have been well for long enough, if it stays so.
    pub(crate) fn opens_at(&self) -> Option<Mono> {
        self.hold.opens_at()
    }
}
