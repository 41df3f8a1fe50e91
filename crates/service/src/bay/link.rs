//! What people were told of the link, so that nothing is told at every try.
//!
//! In: changes of the link, requests that bring no reading. Out: whether each is told. Pure. Not here: what they are called
//! (`trouble.rs`), whether somebody tries again (`watch.rs`).

use events::{LinkChange, Trouble};

/// A request that fails once may be answered the next time; after so many times in a row it is a trouble.
/// Own choice: as many as after which the adapter's driver asks seldom.
const UNREAD: u8 = 3;

/// See the module's words.
#[derive(Debug, Default)]
pub(super) struct Link {
    last: Option<LinkChange>,
    /// Why the gating request brings no reading, and how often in a row for the same reason.
    unread: Option<(Trouble, u8)>,
}

impl Link {
    /// Whether nothing was told yet.
    pub(super) const fn is_unheard_of(&self) -> bool {
        self.last.is_none()
    }

    /// Whether `change` is one: trying again in vain is none, and a port that stays shut, for one reason after the other, is lost
    /// once.
    pub(super) fn is_news(&mut self, change: &LinkChange) -> bool {
        let lost_again =
            matches!((&self.last, change), (Some(LinkChange::Lost { .. }), LinkChange::Lost { .. }));
        let news = self.last.as_ref() != Some(change) && !lost_again;
        if news {
            self.last = Some(change.clone());
        }
        news
    }

    /// The gating request brought no reading; whether it has failed often enough in the same way for people to be told.
    pub(super) fn unread(&mut self, why: Trouble) -> bool {
        let before = self.unread.filter(|(last, _)| *last == why).map_or(0, |(_, times)| times);
        let times = before.saturating_add(1);
        self.unread = Some((why, times));
        times >= UNREAD
    }

    /// It brought one, or is asked anew.
    pub(super) const fn read(&mut self) {
        self.unread = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_is_told_from_the_third_in_a_row_of_its_kind_on() {
        let mut link = Link::default();
        let two = [Trouble::Undecodable, Trouble::PortGone];
        assert_eq!(two.map(|why| [link.unread(why), link.unread(why)]), [[false; 2]; 2], "each begins anew");
        assert!(link.unread(Trouble::PortGone) && link.unread(Trouble::PortGone));
        link.read();
        assert!(!link.unread(Trouble::PortGone));
    }

    #[test]
    fn a_port_that_stays_shut_is_lost_once() {
        let mut link = Link::default();
        let lost = |detail: &str| LinkChange::Lost { detail: detail.to_owned() };
        assert!(link.is_unheard_of() && link.is_news(&lost("gone")));
        assert!(!link.is_news(&lost("gone")) && !link.is_news(&lost("busy")));
        assert!(link.is_news(&LinkChange::Rate { baud: 38_400 }) && link.is_news(&lost("busy")));
    }
}
