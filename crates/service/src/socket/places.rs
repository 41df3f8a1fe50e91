//! Who has a place at the socket, and who goes when all are taken.
//!
//! In: who comes, who told something, who left. Out: a place, with whose it was where it had to be taken, or none. One place
//! is kept for the front end in the daemon's own process (the phone page). Beyond that users share: whoever has fewer
//! places than another gets one of the other's, so that nobody's idle connections shut out anybody else, nor himself. A
//! connection that told something goes before one that never did. Pure; not here: connections (`door.rs`).

use units::Mono;

/// Whose connection it is, as the system says, not as it says itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Whose {
    /// A front end in the daemon's own process.
    Ours,
    /// Another process of this user.
    User(u32),
}

/// What came of asking for a place.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Entry {
    /// This place was free.
    Free(u64),
    /// This one, which is taken from another; that one goes.
    Instead { place: u64, goes: u64 },
    /// None; everybody else has a better claim.
    Full,
}

#[derive(Debug)]
struct Place {
    number: u64,
    whose: Whose,
    /// When it told something last; `None`: never.
    told: Option<Mono>,
}

/// All places.
#[derive(Debug)]
pub(crate) struct Places {
    most: usize,
    /// In the order in which they were taken.
    taken: Vec<Place>,
    last: u64,
}

impl Places {
    /// So many at a time; at least one for us and one for others.
    pub(crate) fn new(most: usize) -> Self {
        Self { most: most.max(2), taken: Vec::new(), last: 0 }
    }

    /// Asks for a place.
    pub(crate) fn enter(&mut self, whose: Whose) -> Entry {
        let kept = usize::from(whose != Whose::Ours && self.count(Whose::Ours) == 0);
        if self.taken.len() + kept < self.most {
            return Entry::Free(self.take(whose));
        }
        let Some(goes) = self.victim(whose) else { return Entry::Full };
        self.leave(goes);
        Entry::Instead { place: self.take(whose), goes }
    }

    /// Somebody told something.
    pub(crate) fn told(&mut self, number: u64, now: Mono) {
        if let Some(place) = self.taken.iter_mut().find(|p| p.number == number) {
            place.told = Some(now);
        }
    }

    /// How many are taken.
    pub(crate) const fn taken(&self) -> usize {
        self.taken.len()
    }

    /// Somebody left, or was asked to.
    pub(crate) fn leave(&mut self, number: u64) {
        self.taken.retain(|p| p.number != number);
    }

    fn take(&mut self, whose: Whose) -> u64 {
        self.last += 1;
        self.taken.push(Place { number: self.last, whose, told: None });
        self.last
    }

    fn count(&self, whose: Whose) -> usize {
        self.taken.iter().filter(|p| p.whose == whose).count()
    }

    /// Whose place is taken: one of whoever has most, if that is fairer so; else an idle one of one's own.
    fn victim(&self, whose: Whose) -> Option<u64> {
        let most = self.taken.iter().map(|p| p.whose).max_by_key(|w| self.count(*w))?;
        if most != whose && self.count(most) > self.count(whose) + 1 {
            return self.oldest_idle(most).or_else(|| self.longest_silent(most));
        }
        self.oldest_idle(whose)
    }

    fn oldest_idle(&self, whose: Whose) -> Option<u64> {
        self.taken.iter().find(|p| p.whose == whose && p.told.is_none()).map(|p| p.number)
    }

    fn longest_silent(&self, whose: Whose) -> Option<u64> {
        self.taken.iter().filter(|p| p.whose == whose).min_by_key(|p| p.told).map(|p| p.number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: Whose = Whose::User(1_000);
    const B: Whose = Whose::User(1_001);

    /// Places of which `n` are taken by `whose`; their numbers are 1 to n.
    fn taken(most: usize, n: usize, whose: Whose) -> Places {
        let mut places = Places::new(most);
        for number in 1..=n as u64 {
            assert_eq!(places.enter(whose), Entry::Free(number));
        }
        places
    }

    #[test]
    fn one_place_is_kept_for_the_page() {
        let mut places = taken(4, 3, A);
        assert_eq!(places.enter(A), Entry::Instead { place: 4, goes: 1 }, "the fourth is not for others");
        assert_eq!(places.enter(Whose::Ours), Entry::Free(5));
        assert_eq!(places.enter(A), Entry::Instead { place: 6, goes: 2 });
        places.leave(5);
        assert_eq!(places.enter(A), Entry::Instead { place: 7, goes: 3 }, "kept while it looks for us again");
        assert_eq!(places.enter(Whose::Ours), Entry::Free(8));
    }

    #[test]
    fn the_page_is_never_asked_to_go_and_has_no_second_place_for_nothing() {
        let mut places = taken(2, 1, Whose::Ours);
        assert_eq!(places.enter(A), Entry::Free(2));
        assert_eq!(places.enter(B), Entry::Full, "nobody has more than one");
        assert_eq!(places.enter(A), Entry::Instead { place: 3, goes: 2 });
    }

    #[test]
    fn another_user_gets_a_place_however_many_one_has() {
        let mut places = taken(5, 4, A);
        assert_eq!(places.enter(B), Entry::Instead { place: 5, goes: 1 });
        assert_eq!(places.enter(B), Entry::Instead { place: 6, goes: 2 }, "and as many as the other");
        assert_eq!(places.enter(B), Entry::Instead { place: 7, goes: 5 }, "and then changes his own");
        assert_eq!(places.enter(A), Entry::Instead { place: 8, goes: 3 });
    }

    #[test]
    fn who_told_something_goes_last() {
        let mut places = taken(4, 3, A);
        places.told(1, Mono::from_secs(5));
        assert_eq!(places.enter(A), Entry::Instead { place: 4, goes: 2 }, "the oldest that told nothing");
        places.told(3, Mono::from_secs(9));
        places.told(4, Mono::from_secs(7));
        assert_eq!(places.enter(A), Entry::Full, "nobody shuts out his own hands");
        assert_eq!(
            places.enter(B),
            Entry::Instead { place: 5, goes: 1 },
            "but another is let in: the longest silent"
        );
    }

    #[test]
    fn a_place_that_was_left_is_free_again() {
        let mut places = taken(3, 2, A);
        places.leave(1);
        places.leave(99);
        assert_eq!(places.enter(A), Entry::Free(3));
        assert_eq!(places.enter(A), Entry::Instead { place: 4, goes: 2 });
    }

    #[test]
    fn there_is_always_a_place_for_others_beside_the_pages() {
        for most in [0, 1, 2] {
            let mut places = Places::new(most);
            assert_eq!(places.enter(A), Entry::Free(1), "{most}");
            assert_eq!(places.enter(Whose::Ours), Entry::Free(2), "{most}");
        }
    }
}
