//! A set of reasons without an allocation, handed out in the order in which people should read them.
//!
//! In: reasons. Out: the same ones, each once, first what makes the evidence worthless, then where the temperature
//! lies, then what else is open. Not here: which reasons apply (`judge.rs`, `decide.rs`).

use events::Reason;

/// Which reasons apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Reasons(u32);

impl Reasons {
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
    pub(crate) fn to_vec(self) -> Vec<Reason> {
        ORDER.iter().copied().filter(|&r| self.has(r)).collect()
    }
}

const fn bit(reason: Reason) -> u32 {
    1 << reason as u32
}

/// From the reason that makes the others moot to the one that will pass by itself.
#[rustfmt::skip]
pub(crate) const ORDER: &[Reason] = &[
    // there is no evidence, or it is worthless
    Reason::NoJob, Reason::LinkLost, Reason::NoReading, Reason::Stale, Reason::Implausible, Reason::SensorCode,
    Reason::CopiesCoolant, Reason::SteppedAway, Reason::Frozen, Reason::OverheatCode,
    // where the temperature lies
    Reason::AboveBand, Reason::BelowBand, Reason::TooUncertain, Reason::GuardBand,
    // what else must come
    Reason::NotAlive, Reason::PreconditionOpen, Reason::Hysteresis, Reason::InBand,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_has_its_place_in_the_order_and_its_own_bit() {
        assert_eq!(ORDER.len(), Reason::ALL.len());
        for &reason in Reason::ALL {
            assert!(ORDER.contains(&reason), "{reason}");
            let mut set = Reasons::default();
            set.add(reason);
            assert_eq!(set.to_vec(), [reason]);
        }
    }
}
