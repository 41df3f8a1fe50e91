//! What is asked beside what the hands do, in a check: why it is here, whether it leaks, how its fluid looks.
//!
//! In: the answers as they were told, how far the job is. Out: the next question, and the answers for the result. No question
//! holds anything up, and whoever goes on has passed it by. Not here: what the answers mean (`means.rs`).
//!
//! | question | asked |
//! | --- | --- |
//! | symptoms | from the start until the first look |
//! | leaks, and where | on stands, before the engine runs the first time |
//! | fluid | once the port is closed after the first look: nobody looks away from a stream for it |

use events::{Complaint, FluidLook, Leak, LeakTold, Meaning, Symptom};

/// The answers, one bit for each word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Asked {
    pub(crate) before: Symptoms,
    pub(crate) after: Symptoms,
    pub(crate) leak_before: Option<LeakTold>,
    pub(crate) leak_after: Option<LeakTold>,
    pub(crate) looks: u8,
}

/// A set of symptoms, one bit each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Symptoms(u16);

impl Symptoms {
    const fn bit(what: Symptom) -> u16 {
        1 << (what as u16)
    }

    /// `none` and anything else put each other right.
    pub(crate) const fn told(&mut self, what: Symptom) {
        let none = Self::bit(Symptom::None);
        self.0 = if matches!(what, Symptom::None) { none } else { (self.0 & !none) | Self::bit(what) };
    }

    const fn has(self, what: Symptom) -> bool {
        self.0 & Self::bit(what) != 0
    }

    pub(crate) const fn is_untold(self) -> bool {
        self.0 == 0
    }

    fn words(self) -> Vec<Symptom> {
        Symptom::ALL.iter().copied().filter(|what| self.has(*what)).collect()
    }
}

impl Asked {
    /// Symptoms and looks as they were; a leak that was told is never taken back.
    pub(crate) const fn take_back(&mut self, was: Self) {
        (self.before, self.after, self.looks) = (was.before, was.after, was.looks);
    }

    /// As they stand last: those of after, where there are any.
    fn now(&self) -> Symptoms {
        if self.after.is_untold() { self.before } else { self.after }
    }

    /// Something is wrong with how it drives, and not only a leak, a lamp, or work that was done.
    pub(crate) fn is_a_symptom(&self) -> bool {
        let told = self.before;
        let all = [
            Symptom::Slips,
            Symptom::Flares,
            Symptom::Late,
            Symptom::Hard,
            Symptom::Whine,
            Symptom::Shudder,
            Symptom::Lamp,
        ];
        all.into_iter().any(|what| told.has(what))
    }

    /// It slips or whines: with a level that nobody knows it goes nowhere.
    pub(crate) fn slips_or_whines(&self) -> bool {
        // An engine that flares between two gears is a slip in the shift (own choice).
        [Symptom::Slips, Symptom::Flares, Symptom::Whine].into_iter().any(|what| self.now().has(what))
    }

    pub(crate) const fn looks(&self, look: FluidLook) -> bool {
        self.looks & (1 << (look as u8)) != 0
    }

    /// For the result, with what it means; nothing where there is nothing of it.
    pub(crate) fn complaint(&self, means: Vec<Meaning>) -> Option<Box<Complaint>> {
        let complaint = Complaint {
            before: self.before.words(),
            after: self.after.words(),
            leak_before: self.leak_before,
            leak_after: self.leak_after,
            fluid: FluidLook::ALL.iter().copied().filter(|look| self.looks(*look)).collect(),
            means,
        };
        (complaint != Complaint::default()).then(|| Box::new(complaint))
    }

    /// A leak was told, and its place can be.
    pub(crate) fn leaks(&self) -> bool {
        self.leak_after.or(self.leak_before).is_some_and(|leak| leak.how != Leak::Dry)
    }
}

// One bit for each.
const _: () = assert!(Symptom::ALL.len() <= 16 && FluidLook::ALL.len() <= 8);
