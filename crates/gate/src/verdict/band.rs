//! Where a temperature lies in the guarded band.
//!
//! In: an estimate, the band, the guard factor. Out: a [`Place`] with its reason. Pure. Not here: the evidence
//! (`evidence/mod.rs`), how long all has been well (`hold.rs`).
//! Source: JCGM 106:2012, guarded acceptance, through `fluid::measurement`; docs/gate.md, "Verdict".

use events::{Check, LampState, Reason};
use fluid::measurement::{Acceptance, Guard, acceptance};

use crate::estimate::Known;

/// The band with its guard factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Band {
    low: f64,
    high: f64,
    k: f64,
}

/// Where the temperature lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    /// More likely below the band than in it.
    Below,
    /// So near an edge that it may lie outside.
    Guard,
    /// In the band, uncertainty included.
    In,
    /// More likely above the band than in it.
    Above,
    /// The band is too narrow for what is known, and the temperature is not clear of it.
    TooUncertain,
}

impl Band {
    pub(crate) fn new(check: &Check) -> Self {
        Self { low: check.low().to_f64(), high: check.high().to_f64(), k: check.k }
    }

    #[cfg(feature = "taken-out")]
    pub(crate) const fn take_out_guard(&mut self) {
        self.k = 0.0;
    }

    /// Its edges, °C.
    pub(crate) const fn edges(&self) -> (f64, f64) {
        (self.low, self.high)
    }

    /// The interval in which an estimate with this uncertainty is accepted. `None` where there is none.
    pub(crate) fn accepted(&self, known: Known) -> Option<(f64, f64)> {
        let u = known.u.to_f64();
        // What can only mean that it is warmer brings nothing below the band.
        let (low, _) = self.acceptance(u - known.warmer)?.interval?;
        let (_, high) = self.acceptance(u)?.interval.or_else(|| self.upper(u))?;
        (low <= high).then_some((low, high))
    }

    /// The upper limit where the guards of both edges meet, for one that needs the upper alone.
    fn upper(&self, u: f64) -> Option<(f64, f64)> {
        let guard = self.acceptance(u)?.guard_band;
        Some((self.low, self.high - guard))
    }

    /// Where the temperature lies. `was`: where it lay before, since a value shown in steps must not flicker at the
    /// upper edge: it is above from half a step over the edge on, and no longer from half a step under it.
    pub(crate) fn place(&self, known: Known, was: Option<Place>) -> Place {
        let Some(acceptance) = self.acceptance(known.u.to_f64()) else { return Place::TooUncertain };
        let t = known.celsius.to_f64();
        let guard = acceptance.guard_band;
        let half_step = known.step / 2.0;
        let over = if was == Some(Place::Above) { self.high - half_step } else { self.high + half_step };
        match self.accepted(known) {
            None if t - guard > self.high => Place::Above,
            None if t + guard < self.low => Place::Below,
            None => Place::TooUncertain,
            Some(_) if t > over => Place::Above,
            Some(_) if t < self.low => Place::Below,
            Some((low, high)) if t >= low && known.highest <= high => Place::In,
            Some(_) => Place::Guard,
        }
    }

    fn acceptance(&self, u: f64) -> Option<Acceptance> {
        acceptance(Guard { low: self.low, high: self.high, u, k: self.k }).ok()
    }
}

impl Place {
    /// Where the vehicle's own lamp puts the fluid: its band is the maker's, so that it needs no guard.
    pub(crate) const fn by_lamp(state: LampState) -> Self {
        match state {
            LampState::TooCold => Self::Below,
            LampState::Right => Self::In,
            LampState::TooHot => Self::Above,
        }
    }

    /// What this place says against `go`; nothing for a place in the band.
    pub(crate) const fn reason(self) -> Option<Reason> {
        match self {
            Self::Below => Some(Reason::BelowBand),
            Self::Guard => Some(Reason::GuardBand),
            Self::In => None,
            Self::Above => Some(Reason::AboveBand),
            Self::TooUncertain => Some(Reason::TooUncertain),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BAND: Band = Band { low: 35.0, high: 45.0, k: 2.0 };

    fn known(celsius: f64, u: f64) -> Known {
        Known::new(celsius, u, None, 1.0).unwrap()
    }

    #[test]
    fn the_place_of_a_temperature_in_the_guarded_band() {
        let cases: &[(&str, f64, f64, Option<Place>, Place)] = &[
            // what                                      t     u    was                  want
            ("below the edge", 34.9, 0.7, None, Place::Below),
            ("on the edge it may lie outside", 35.0, 0.7, None, Place::Guard),
            ("just short of the guard", 36.3, 0.7, None, Place::Guard),
            ("the guard itself is accepted", 36.4, 0.7, None, Place::In),
            ("up to the upper guard", 43.6, 0.7, None, Place::In),
            ("beyond it", 43.7, 0.7, None, Place::Guard),
            ("half a step over the edge is not above", 45.5, 0.7, None, Place::Guard),
            ("more than that is", 45.6, 0.7, None, Place::Above),
            ("once above, it stays so near the edge", 44.6, 0.7, Some(Place::Above), Place::Above),
            ("until half a step below", 44.4, 0.7, Some(Place::Above), Place::Guard),
            ("guards that meet leave nothing", 40.0, 2.6, None, Place::TooUncertain),
            ("unless it is clear of the band", 51.0, 2.6, None, Place::Above),
            ("on either side", 29.0, 2.6, None, Place::Below),
        ];
        for (what, t, u, was, want) in cases {
            assert_eq!(BAND.place(known(*t, *u), *was), *want, "{what}");
        }
    }

    #[test]
    fn what_can_only_mean_warmer_narrows_the_band_from_above_alone() {
        let late = |t: f64| Known { warmer: 0.5, ..known(t, 1.2) };
        assert_eq!(BAND.accepted(late(36.5)), Some((36.4, 42.6)));
        assert_eq!(BAND.place(late(36.5), None), Place::In, "35 + 2 * 0.7");
        assert_eq!(BAND.place(late(42.7), None), Place::Guard, "45 - 2 * 1.2");
        assert_eq!(BAND.place(known(36.5, 1.2), None), Place::Guard, "it may be colder as well");
        let far = Known { warmer: 0.5, ..known(36.5, 5.2) };
        assert_eq!(
            BAND.place(far, None),
            Place::TooUncertain,
            "the upper guard reaches down to the lower one"
        );
    }

    #[test]
    fn a_display_that_shimmers_is_held_to_its_edge_below_and_to_its_upper_step_above() {
        let shimmer = |t: f64| Known { highest: t + 0.5, ..known(t, 0.67) };
        assert_eq!(BAND.place(shimmer(36.5), None), Place::In, "35 + 2 u is 36.34");
        assert_eq!(BAND.place(shimmer(43.5), None), Place::Guard, "44 is beyond 45 - 2 u");
    }
}
