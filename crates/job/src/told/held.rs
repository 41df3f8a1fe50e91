//! A set of words, one bit each: one of preconditions is asked some hundred times at each reading, and copied with every state.
//!
//! Not here: which of them holds (`record.rs`, `hands.rs`).

use core::fmt;
use core::marker::PhantomData;

use events::Precondition;
use units::Listed;

/// Preconditions.
pub(crate) type Held = Set<Precondition>;

/// See the module's words.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) struct Set<T>(u32, PhantomData<T>);

impl<T> Default for Set<T> {
    fn default() -> Self {
        Self(0, PhantomData)
    }
}

impl<T: Listed> Set<T> {
    /// One bit for each.
    const FITS: () = assert!(T::ALL.len() <= 32);

    fn bit(word: T) -> u32 {
        let () = Self::FITS;
        1 << word.place()
    }

    pub(crate) fn contains(self, word: T) -> bool {
        self.0 & Self::bit(word) != 0
    }

    pub(crate) const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether it was not there before.
    pub(crate) fn insert(&mut self, word: T) -> bool {
        let new = !self.contains(word);
        self.0 |= Self::bit(word);
        new
    }

    /// Whether it was there.
    pub(crate) fn remove(&mut self, word: T) -> bool {
        let there = self.contains(word);
        self.0 &= !Self::bit(word);
        there
    }

    pub(crate) fn retain(&mut self, keep: impl Fn(T) -> bool) {
        for word in self.iter().filter(|word| !keep(*word)) {
            self.remove(word);
        }
    }

    /// What is in either.
    pub(crate) const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0, PhantomData)
    }

    /// In the order of the words.
    pub(crate) fn iter(self) -> impl Iterator<Item = T> {
        let mut left = self.0;
        core::iter::from_fn(move || {
            let place = usize::try_from(left.trailing_zeros()).ok()?;
            left &= left.wrapping_sub(1);
            T::ALL.get(place).copied()
        })
    }
}

impl<T: Listed> FromIterator<T> for Set<T> {
    fn from_iter<I: IntoIterator<Item = T>>(words: I) -> Self {
        let mut set = Self::default();
        set.extend(words);
        set
    }
}

impl<T: Listed> Extend<T> for Set<T> {
    fn extend<I: IntoIterator<Item = T>>(&mut self, words: I) {
        for word in words {
            self.insert(word);
        }
    }
}

impl<T: Listed> fmt::Debug for Set<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}
