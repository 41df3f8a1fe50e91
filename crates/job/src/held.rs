//! A set of preconditions, one bit each: it is asked some hundred times at each reading.
//!
//! Not here: which of them holds (`record.rs`, `hands.rs`).

use core::fmt;

use events::Precondition;

/// See the module's words.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Held(u32);

impl Held {
    const fn bit(precondition: Precondition) -> u32 {
        1 << (precondition as u32)
    }

    pub(crate) const fn contains(self, precondition: Precondition) -> bool {
        self.0 & Self::bit(precondition) != 0
    }

    /// Whether it was not there before.
    pub(crate) const fn insert(&mut self, precondition: Precondition) -> bool {
        let new = !self.contains(precondition);
        self.0 |= Self::bit(precondition);
        new
    }

    /// Whether it was there.
    pub(crate) const fn remove(&mut self, precondition: Precondition) -> bool {
        let there = self.contains(precondition);
        self.0 &= !Self::bit(precondition);
        there
    }

    pub(crate) fn retain(&mut self, keep: impl Fn(Precondition) -> bool) {
        for precondition in self.iter().filter(|p| !keep(*p)) {
            self.remove(precondition);
        }
    }

    /// In the order of the words.
    pub(crate) fn iter(self) -> impl Iterator<Item = Precondition> {
        Precondition::ALL.iter().copied().filter(move |p| self.contains(*p))
    }
}

impl fmt::Debug for Held {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

// One bit for each.
const _: () = assert!(Precondition::ALL.len() <= 32);
