//! Which faults were told of late, so that the same one is not told at every try.
//!
//! In: faults as they happen. Out: whether each is told. Pure. Not here: who is told (`heard.rs`).

use std::collections::BTreeMap;
use std::time::Duration;

use events::Fault;
use units::Mono;

/// The same fault with the same words is told once in this time.
/// Own choice: people cannot act on it oftener; a fault with each exchange would else fill screens and journal twice a
/// second.
const TELL_EVERY: Duration = Duration::from_secs(60);
/// So many different ones are remembered; for one more the oldest is forgotten, and told again if it comes again.
/// Own choice: an adapter that has more to say than this in a minute says something else every time.
const REMEMBERED: usize = 256;

/// When each was told last.
#[derive(Debug, Default)]
pub(super) struct Faults {
    told: BTreeMap<(Fault, String), Mono>,
}

impl Faults {
    /// Whether this one is to be told now.
    pub(super) fn is_news(&mut self, fault: Fault, detail: &str, now: Mono) -> bool {
        let key = (fault, detail.to_owned());
        if self.told.get(&key).is_some_and(|at| now < at.after(TELL_EVERY)) {
            return false;
        }
        if self.told.len() >= REMEMBERED && !self.told.contains_key(&key) {
            let oldest = self.told.iter().min_by_key(|(_, at)| **at).map(|(key, _)| key.clone());
            oldest.and_then(|oldest| self.told.remove(&oldest));
        }
        self.told.insert(key, now);
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn for_one_too_many_only_the_oldest_is_forgotten() {
        let mut faults = Faults::default();
        let at = |n: usize| Mono::from_millis(n as u64);
        let mut tell = |n: usize, now| faults.is_news(Fault::Undecodable, &n.to_string(), now);
        assert!((0..REMEMBERED).all(|n| tell(n, at(n))));
        assert!(!tell(0, at(1_000)), "told before");
        assert!(tell(REMEMBERED, at(1_000)), "one more");
        assert!((1..=REMEMBERED).all(|n| !tell(n, at(1_001))), "all others are remembered");
        assert!(tell(0, at(1_002)), "the oldest is not");
    }

    #[test]
    fn the_same_one_is_told_once_a_minute() {
        let mut faults = Faults::default();
        let told: Vec<u64> =
            (0..180).filter(|s| faults.is_news(Fault::NoAnswer, "0105", Mono::from_secs(*s))).collect();
        assert_eq!(told, [0, 60, 120]);
    }
}
