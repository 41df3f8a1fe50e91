//! The selector's rounds, for the seat inside: which position, how much longer, what comes next.
//!
//! In: the sheet's positions, what the daemon last said of the rounds, how long ago. Out: [`Rounds`]. The daemon
//! counts; between two of its words only the seconds go down here.

use core::time::Duration;

use events::{Selector, SelectorView};
use serde::Serialize;
use words::{Speech, args};

/// The rounds at one moment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Rounds {
    /// The positions of a round, in their order.
    pub positions: Vec<String>,
    /// The place in `positions` where the selector stands; absent before the first was told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<usize>,
    /// The place that comes next.
    pub next: usize,
    /// How much longer to stay, in seconds; 0: move on.
    pub left_s: u32,
    /// `2 s more, round 1 of 2`.
    pub says: String,
    /// Whether the position that comes next is the last one to tell.
    #[serde(skip)]
    pub(crate) last: bool,
}

impl Rounds {
    /// `known` is what was said, `ago` how long ago; without it nothing was told yet.
    pub(crate) fn new(
        selector: &Selector,
        known: Option<&SelectorView>,
        ago: Duration,
        speech: Speech,
    ) -> Option<Self> {
        let each = selector.positions.len();
        let told = known.map_or(0, |k| k.told as usize);
        let next = told.checked_rem(each)?;
        let at = told.checked_sub(1).map(|last| last % each);
        let left = Duration::from_secs(known.map_or(0, |k| k.left_seconds).into()).saturating_sub(ago);
        let left_s = u32::try_from(left.as_millis().div_ceil(1_000)).unwrap_or(u32::MAX);
        let round = known.map_or(1, |k| k.round);
        let last = told / each >= selector.rounds as usize;
        let facts =
            args!(round = round, rounds = selector.rounds, seconds = left_s, dwell = selector.dwell_s);
        let says = speech.with(
            match (at, left_s) {
                (None, _) => "rounds-to-come",
                (Some(_), 0) => "move-on-round",
                (Some(_), _) => "seconds-more-round",
            },
            &facts,
        );
        Some(Self { positions: selector.positions.clone(), at, next, left_s, says, last })
    }

    /// What the hands do.
    pub(crate) fn hands(&self, speech: Speech) -> String {
        let (message, place) = match self.at {
            None => ("brake-begin-in", self.next),
            Some(at) if self.left_s > 0 => ("brake-stay-in", at),
            Some(_) if self.last => ("brake-back-to", self.next),
            Some(_) => ("brake-move-to", self.next),
        };
        let position = self.positions.get(place).map_or("", String::as_str);
        speech.with(message, &args!(position = position))
    }

    /// The position to be told next, and what its button says.
    pub(crate) fn offer(&self, speech: Speech) -> Option<(String, String)> {
        let next = self.positions.get(self.next)?;
        let message = match self.at {
            None => "offer-begin-in",
            Some(_) if self.last => "offer-back-in",
            Some(_) => "offer-now-in",
        };
        Some((next.clone(), speech.with(message, &args!(position = next.as_str()))))
    }

    /// Whether the selector has stood long enough and is waited for.
    pub(crate) fn is_due(&self) -> bool {
        self.at.is_some() && self.left_s == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn selector(rounds: u32) -> Selector {
        let positions = ["P", "R", "N", "D"].map(str::to_owned).to_vec();
        Selector { positions, rounds, dwell_s: 3, reported: None }
    }

    fn known(told: u32, round: u32) -> SelectorView {
        let next = selector(2).positions[told as usize % 4].clone();
        SelectorView { stands_in: None, next, told, round, rounds: 2, dwell_seconds: 3, left_seconds: 3 }
    }

    fn rounds(told: u32, round: u32, ago_ms: u64) -> Rounds {
        let known = (told > 0).then(|| known(told, round));
        Rounds::new(&selector(2), known.as_ref(), Duration::from_millis(ago_ms), Speech::default()).unwrap()
    }

    #[test]
    fn each_position_is_held_and_then_left() {
        let cases = [
            (
                0,
                1,
                0,
                "Hold the brake. Begin in P.",
                "2 rounds, 3\u{202f}s in each position",
                "It is in P: begin",
            ),
            (1, 1, 0, "Hold the brake. Stay in P.", "3\u{202f}s more, round 1 of 2", "In R now"),
            (2, 1, 2_001, "Hold the brake. Stay in R.", "1\u{202f}s more, round 1 of 2", "In N now"),
            (2, 1, 3_000, "Hold the brake. Move to N.", "move on, round 1 of 2", "In N now"),
            (4, 2, 9_000, "Hold the brake. Move to P.", "move on, round 2 of 2", "In P now"),
            (8, 2, 3_000, "Hold the brake. Back to P.", "move on, round 2 of 2", "Back in P now"),
        ];
        for (told, round, ago, hands, says, label) in cases {
            let rounds = rounds(told, round, ago);
            assert_eq!(
                (rounds.hands(Speech::default()).as_str(), rounds.says.as_str()),
                (hands, says),
                "{told}"
            );
            assert_eq!(rounds.offer(Speech::default()).unwrap().1, label, "{told}");
            assert_eq!(rounds.is_due(), told > 0 && ago >= 3_000, "{told}");
        }
    }

    #[test]
    fn without_positions_there_are_no_rounds() {
        let empty = Selector { positions: vec![], ..selector(2) };
        assert_eq!(Rounds::new(&empty, None, Duration::ZERO, Speech::default()), None);
    }
}
