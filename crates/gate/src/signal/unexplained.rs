//! What jumps, strays and silences say of a signal, and go on saying when its history has been thrown away.
//!
//! In: readings that cannot follow from the one before, jumps, what a silence left open. Out: whether the signal is
//! settled, and how much is unexplained. Not here: what counts as a stray (`track.rs`).
//! Method: `docs/gate.md`, "Does the signal follow?".

use units::Mono;

use crate::limits::Limits;
use crate::span::Sample;

/// The memory of jumps, strays and silences.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Unexplained {
    strays: u32,
    settled_at: Option<Mono>,
    /// When the first reading of all came.
    born: Option<Mono>,
    /// The last reading before a run of strays that were no temperature at all.
    before: Option<Sample>,
    /// How far jumps that nothing explains have moved the signal, K: nobody knows which side of them is right.
    displaced: f64,
    /// How far silences have left the signal from where its slope would have brought it, K: a rate that changed
    /// meanwhile, or a shift that nobody saw.
    unseen: f64,
}

/// What a stray reading comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Stray {
    /// Set aside: the next ones may contradict it.
    SetAside,
    /// One too many: the signal has jumped, away from this reading; from none where the control unit is waking up.
    Jump { from: Option<Sample> },
}

impl Unexplained {
    pub(crate) const fn new() -> Self {
        Self { strays: 0, settled_at: None, born: None, before: None, displaced: 0.0, unseen: 0.0 }
    }

    /// A reading that cannot follow. `last`: the last one that could.
    pub(crate) fn stray(&mut self, at: Mono, last: Option<Sample>, limits: &Limits) -> Stray {
        let born = *self.born.get_or_insert(at);
        self.strays += 1;
        if self.strays < limits.strays_to_jump {
            self.settle_until(at.after(limits.settle_after_stray));
            return Stray::SetAside;
        }
        self.settle_until(at.after(limits.settle_after_jump));
        let waking = at.since(born) <= limits.waking;
        Stray::Jump { from: last.or(self.before).filter(|_| !waking) }
    }

    /// The strays before this reading are contradicted by it.
    pub(crate) fn contradicted(&mut self, at: Mono, limits: &Limits) {
        if self.strays > 0 {
            self.strays = 0;
            self.settle_until(at.after(limits.settle_after_stray));
        }
    }

    /// A new history begins. Gives the reading from before the strays, if there was one.
    pub(crate) fn begin(&mut self, at: Mono) -> Option<Sample> {
        self.born = self.born.or(Some(at));
        self.strays = 0;
        self.before.take()
    }

    /// What the next history that begins is to be compared with.
    pub(crate) const fn compare_with(&mut self, before: Option<Sample>) {
        self.before = before;
    }

    /// The signal jumped by `off`. Back to within `near` of where it was, the way there and the way back explain each
    /// other.
    pub(crate) fn displace(&mut self, off: f64, near: f64) {
        self.displaced += off;
        if self.displaced.abs() <= near {
            self.displaced = 0.0;
        }
    }

    /// A silence left this much open, K.
    pub(crate) fn leave_open(&mut self, kelvins: f64) {
        self.unseen += kelvins;
    }

    pub(crate) fn settle_until(&mut self, at: Mono) {
        self.settled_at = Some(self.settled_at.map_or(at, |before| before.max(at)));
    }

    /// Whether the last reading was a stray.
    pub(crate) const fn straying(&self) -> bool {
        self.strays > 0
    }

    /// Whether the last jump or stray is still too near, or a jump was never explained.
    pub(crate) fn unsettled(&self, now: Mono) -> bool {
        self.straying() || self.displaced != 0.0 || self.settled_at.is_some_and(|at| now < at)
    }

    /// When the last jump or stray will be far enough away.
    pub(crate) const fn settled_at(&self) -> Option<Mono> {
        self.settled_at
    }

    /// What silences have left open, K.
    pub(crate) const fn unseen(&self) -> f64 {
        self.unseen
    }
}
