//! Reasons without an allocation, handed out in the order in which people should read them.
//!
//! In: reasons. Out: the same ones, each once, first what makes the evidence worthless, then where the temperature
//! lies, then what else is open. Not here: which reasons apply (`evidence/mod.rs`, `band.rs`).

use core::fmt;
use core::ops::Deref;

use events::Reason;

/// The reasons of one judgement, each once, the one to act on first: a slice that needs no heap.
#[derive(Clone, Copy)]
pub struct Reasons {
    list: [Reason; MOST],
    len: usize,
}

impl Reasons {
    /// These and one more.
    #[must_use]
    pub fn with(self, reason: Reason) -> Self {
        let mut set = self.set();
        set.add(reason);
        set.listed()
    }

    /// These without that one.
    #[must_use]
    pub fn without(self, reason: Reason) -> Self {
        let mut set = self.set();
        set.0 &= !bit(reason);
        set.listed()
    }

    fn set(self) -> ReasonSet {
        let mut set = ReasonSet::default();
        self.iter().for_each(|&reason| set.add(reason));
        set
    }
}

impl FromIterator<Reason> for Reasons {
    fn from_iter<I: IntoIterator<Item = Reason>>(reasons: I) -> Self {
        let mut set = ReasonSet::default();
        reasons.into_iter().for_each(|reason| set.add(reason));
        set.listed()
    }
}

impl Deref for Reasons {
    type Target = [Reason];
    fn deref(&self) -> &[Reason] {
        self.list.get(..self.len).unwrap_or_default()
    }
}

impl fmt::Debug for Reasons {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.iter()).finish()
    }
}

impl PartialEq for Reasons {
    fn eq(&self, other: &Self) -> bool {
        **self == **other
    }
}

impl<const N: usize> PartialEq<[Reason; N]> for Reasons {
    fn eq(&self, other: &[Reason; N]) -> bool {
        **self == *other
    }
}

/// So many reasons there are.
const MOST: usize = Reason::ALL.len();

/// Which reasons apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct ReasonSet(u32);

impl ReasonSet {
    pub(crate) fn add(&mut self, reason: Reason) {
        self.0 |= bit(reason);
    }

    pub(crate) fn add_if(&mut self, applies: bool, reason: Reason) {
        if applies {
            self.add(reason);
        }
    }

    pub(crate) fn has(self, reason: Reason) -> bool {
        self.0 & bit(reason) != 0
    }

    pub(crate) const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Each reason once, in the order of [`ORDER`].
    pub(crate) fn listed(self) -> Reasons {
        let mut reasons = Reasons { list: [Reason::NoReading; MOST], len: 0 };
        let mut slots = reasons.list.iter_mut();
        for &reason in ORDER.iter().filter(|&&reason| self.has(reason)) {
            if let Some(slot) = slots.next() {
                *slot = reason;
                reasons.len += 1;
            }
        }
        reasons
    }
}

const fn bit(reason: Reason) -> u32 {
    1 << reason as u32
}

/// From the reason that makes the others moot to the one that will pass by itself.
#[rustfmt::skip]
pub(crate) const ORDER: &[Reason] = &[
    // there is no evidence, or it is worthless
    Reason::NoJob, Reason::OtherVehicle, Reason::UnitsDisagree, Reason::LinkLost, Reason::NoReading, Reason::Stale, Reason::Implausible, Reason::SensorCode,
    Reason::CopiesCoolant, Reason::Disagrees, Reason::SteppedAway, Reason::Frozen, Reason::OverheatCode,
    // where the temperature lies
    Reason::AboveBand, Reason::BelowBand, Reason::TooUncertain, Reason::GuardBand,
    // what else must come
    Reason::NotAlive, Reason::PreconditionOpen, Reason::Hysteresis, Reason::InBand, Reason::NoBand,
];

// A reason without a place would never be said.
const _: () = assert!(ORDER.len() == MOST);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_has_its_place_in_the_order_and_its_own_bit() {
        assert_eq!(ORDER.len(), Reason::ALL.len());
        for &reason in Reason::ALL {
            assert!(ORDER.contains(&reason), "{reason}");
            let mut set = ReasonSet::default();
            set.add(reason);
            assert_eq!(set.listed(), [reason]);
        }
    }

    #[test]
    fn what_is_added_and_taken_away_keeps_its_order() {
        let reasons: Reasons = [Reason::InBand, Reason::Stale].into_iter().collect();
        assert_eq!(reasons, [Reason::Stale, Reason::InBand]);
        assert_eq!(reasons.with(Reason::NoJob), [Reason::NoJob, Reason::Stale, Reason::InBand]);
        assert_eq!(reasons.without(Reason::Stale).with(Reason::InBand), [Reason::InBand]);
    }
}
