//! Whose connections stay when there are more than may be.
//!
//! In: who comes, from where, what he turned out to be. Out: which connection goes for it. First goes what has shown
//! nothing, and of that the oldest from the address that has most of it: whoever floods us pushes out himself. Then a
//! link that only shows, then a browser that tells; always of whoever has most. Pure; not here: connections
//! (`doors.rs`).

use std::cmp::Reverse;
use std::collections::HashMap;
use std::hash::Hash;
use std::net::IpAddr;

use crate::access::May;
use crate::guard::Bearer;

#[derive(Debug)]
struct Place {
    number: u64,
    from: IpAddr,
    bearer: Option<Bearer>,
}

/// All connections, the oldest first.
#[derive(Debug)]
pub(crate) struct Places {
    most: usize,
    per_pairing: usize,
    taken: Vec<Place>,
    last: u64,
}

impl Places {
    /// So many at a time, and so many of one pairing.
    pub(crate) fn new(most: usize, per_pairing: usize) -> Self {
        Self { most: most.max(1), per_pairing: per_pairing.max(1), taken: Vec::new(), last: 0 }
    }

    /// A place for one more, and which connection goes for it.
    pub(crate) fn enter(&mut self, from: IpAddr) -> (u64, Option<u64>) {
        let goes = if self.taken.len() < self.most { None } else { self.victim() };
        goes.into_iter().for_each(|goes| self.leave(goes));
        self.last += 1;
        self.taken.push(Place { number: self.last, from, bearer: None });
        (self.last, goes)
    }

    /// It turned out to be this one's. One pairing has only so many: its oldest goes.
    pub(crate) fn proven(&mut self, number: u64, bearer: Bearer) -> Option<u64> {
        self.taken.iter_mut().find(|p| p.number == number)?.bearer = Some(bearer);
        let pairing = bearer.pairing?;
        let of = |p: &&Place| p.bearer.is_some_and(|b| b.pairing == Some(pairing));
        let goes = self.taken.iter().filter(of).count() > self.per_pairing;
        let oldest = self.taken.iter().filter(of).find(|p| p.number != number).map(|p| p.number)?;
        goes.then(|| self.leave(oldest)).map(|()| oldest)
    }

    /// It has ended.
    pub(crate) fn leave(&mut self, number: u64) {
        self.taken.retain(|p| p.number != number);
    }

    fn victim(&self) -> Option<u64> {
        let nobody = self.oldest_of_most(|p| p.bearer.is_none().then_some(p.from));
        let by = |may| move |p: &Place| p.bearer.filter(|b| b.may == may).map(|b| b.pairing);
        nobody.or_else(|| self.oldest_of_most(by(May::See))).or_else(|| self.oldest_of_most(by(May::Tell)))
    }

    /// The oldest place of whoever has most of those that `whose` names somebody for.
    fn oldest_of_most<K: Hash + Eq>(&self, whose: impl Fn(&Place) -> Option<K>) -> Option<u64> {
        let mut counts: HashMap<K, (usize, u64)> = HashMap::new();
        for place in &self.taken {
            if let Some(key) = whose(place) {
                counts.entry(key).or_insert((0, place.number)).0 += 1;
            }
        }
        // Of several that have as many, the one that came first.
        counts
            .into_values()
            .max_by_key(|(count, oldest)| (*count, Reverse(*oldest)))
            .map(|(_, oldest)| oldest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(n: u8) -> IpAddr {
        [192, 0, 2, n].into()
    }

    fn sees(pairing: u32) -> Bearer {
        Bearer { may: May::See, pairing: Some(pairing) }
    }

    fn tells(pairing: u32) -> Bearer {
        Bearer { may: May::Tell, pairing: Some(pairing) }
    }

    /// Connections 1 to n, of these bearers.
    fn taken(most: usize, per_pairing: usize, bearers: &[Option<Bearer>]) -> Places {
        let mut places = Places::new(most, per_pairing);
        for bearer in bearers {
            let (number, goes) = places.enter(at(1));
            assert_eq!(goes, None);
            bearer.map(|bearer| assert_eq!(places.proven(number, bearer), None));
        }
        places
    }

    #[test]
    fn what_has_shown_nothing_goes_first_the_oldest_of_whoever_has_most() {
        let mut places = taken(5, 9, &[Some(sees(1)), Some(tells(2))]);
        for (from, want) in [(7, 3), (8, 4), (8, 5)] {
            assert_eq!(places.enter(at(from)), (want, None));
        }
        assert_eq!(places.enter(at(7)), (6, Some(4)), "of the address that has two");
        assert_eq!(places.enter(at(9)), (7, Some(3)), "now 7 has two");
        assert_eq!(places.enter(at(9)), (8, Some(5)), "all have one: the oldest");
    }

    #[test]
    fn a_link_that_shows_goes_before_a_browser_that_tells_however_many_there_are() {
        let mut places = taken(4, 9, &[Some(tells(1)), Some(sees(2)), Some(sees(3)), Some(sees(3))]);
        assert_eq!(places.enter(at(9)), (5, Some(3)), "the link that has most");
        assert_eq!(places.proven(5, tells(4)), None);
        assert_eq!(places.enter(at(9)), (6, Some(2)));
        assert_eq!(places.proven(6, sees(2)), None);
        assert_eq!(places.enter(at(9)), (7, Some(4)));
        assert_eq!(places.enter(at(9)), (8, Some(7)), "which pushes out what came like it");
        assert_eq!(places.proven(8, tells(4)), None);
        assert_eq!(places.enter(at(9)), (9, Some(6)));
    }

    #[test]
    fn where_all_tell_the_one_with_most_gives_way() {
        let mut places = taken(3, 9, &[Some(tells(1)), Some(tells(2)), Some(tells(2))]);
        assert_eq!(places.enter(at(9)), (4, Some(2)));
        let open = Bearer { may: May::Tell, pairing: None };
        let mut places = taken(2, 1, &[Some(open), Some(open)]);
        assert_eq!(places.enter(at(1)), (3, Some(1)), "on the machine itself the newest is let in");
        assert_eq!(places.proven(3, open), None, "and nobody is counted");
    }

    #[test]
    fn one_pairing_has_only_so_many() {
        let mut places = taken(9, 2, &[Some(sees(1)), Some(tells(2)), Some(sees(1))]);
        let (number, _) = places.enter(at(1));
        assert_eq!(places.proven(number, sees(1)), Some(1), "its own oldest");
        assert_eq!(places.proven(number, sees(1)), None, "asking again on the same connection takes no more");
        let (number, _) = places.enter(at(1));
        assert_eq!(places.proven(number, tells(2)), None);
        assert_eq!(places.proven(99, sees(1)), None, "one that has gone");
    }

    #[test]
    fn a_place_that_was_left_is_free() {
        let mut places = taken(2, 9, &[None, None]);
        places.leave(1);
        assert_eq!(places.enter(at(1)), (3, None));
        assert_eq!(places.enter(at(1)), (4, Some(2)));
        assert_eq!(Places::new(0, 0).enter(at(1)), (1, None), "there is always one");
    }
}
