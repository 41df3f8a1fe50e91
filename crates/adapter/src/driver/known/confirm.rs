//! A change of a value is believed when it comes twice.
//!
//! A changed digit in the text of a CAN reply is still a valid reply: the adapter has checked the frame and dropped its
//! check sum. So an answer that differs from the last one is asked for again at once, and counts when both agree. A
//! temperature changes its byte a few times a minute, so this costs next to nothing.
//! A signal that changes with nearly every reading is let through, as engine speed does; the gating one only as long as
//! the line has shown no damage lately: then no reading is better than a wrong one. J1850, ISO 9141-2 and ISO 14230-4
//! show their check sums; nothing is repeated there.
//!
//! In: good answers. Out: [`Belief`]. Pure. Not here: asking again (`phase/poll.rs`). Source: section 13 of the dialect
//! reference asks for "no reading rather than a wrong one"; this way of doing so is ours.

use frames::Message;

/// What to do with a good answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Belief {
    /// It counts.
    Sure,
    /// Ask once more.
    Again,
    /// Three in a row differed: none of them counts.
    Unsteady,
}

/// What is known of one signal.
#[derive(Debug, Default)]
pub(crate) struct Confirm {
    /// The last answer that counted.
    last: Vec<Message>,
    /// The one that waits for its second.
    candidate: Vec<Message>,
    /// How often in a row answers differed.
    differed: u8,
    /// One bit per answer, the newest lowest: whether it was a change.
    changes: u16,
}

/// From so many changes among the last sixteen answers on, the signal is lively by nature.
/// Own choice: half of them. A temperature changes its byte a few times a minute, at two answers a second one in ten;
/// engine speed nearly each time.
const LIVELY: u32 = 8;
/// So many different answers in a row are none.
/// Own choice: with two a real change between two answers would be a fault; with more the reading is late by half a
/// second each.
const GIVE_UP: u8 = 3;

impl Confirm {
    /// What to do with `answer`; `strict`: no change is let through for the signal's being lively.
    pub(crate) fn hear(&mut self, answer: &[Message], strict: bool) -> Belief {
        // Mostly it says what the last one said, in the same order.
        if self.last == answer {
            if self.candidate.is_empty() {
                self.changes <<= 1;
            }
            self.candidate.clear();
            self.differed = 0;
            return Belief::Sure;
        }
        // Of several control units now one is first and now another; that is no change.
        let mut answer = answer.to_vec();
        answer.sort_by(|one, other| (one.ecu, &one.data).cmp(&(other.ecu, &other.data)));
        let changed = self.last != answer;
        let lively = self.changes.count_ones() >= LIVELY;
        if changed && self.candidate != answer && (strict || !lively) {
            self.changes = self.changes << 1 | 1;
            self.candidate = answer;
            self.differed += 1;
            if self.differed < GIVE_UP {
                return Belief::Again;
            }
            self.differed = 0;
            return Belief::Unsteady;
        }
        if self.candidate.is_empty() {
            self.changes = self.changes << 1 | u16::from(changed);
        }
        self.last = answer;
        (self.candidate, self.differed) = (Vec::new(), 0);
        Belief::Sure
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Feeds bytes; one letter for each: Sure, Again, Unsteady.
    fn told(bytes: &[u8], strict: bool) -> String {
        let mut confirm = Confirm::default();
        let letter = |byte: &u8| match confirm.hear(&[Message { ecu: None, data: vec![*byte] }], strict) {
            Belief::Sure => 'S',
            Belief::Again => 'A',
            Belief::Unsteady => 'U',
        };
        bytes.iter().map(letter).collect()
    }

    #[test]
    fn a_change_counts_when_it_comes_twice() {
        let cases: &[(&str, &[u8], &str)] = &[
            ("the first, too", &[1, 1, 1], "ASS"),
            ("a step", &[1, 1, 2, 2, 2], "ASASS"),
            ("a digit changed once", &[1, 1, 9, 1, 1], "ASASS"),
            ("two different ones, then the truth", &[1, 1, 8, 9, 1], "ASAAS"),
            ("three different ones are none", &[1, 1, 7, 8, 9, 9, 9], "ASAAUSS"),
        ];
        for (what, bytes, want) in cases {
            assert_eq!(told(bytes, false), *want, "{what}");
            assert_eq!(told(bytes, true), *want, "{what}, on a damaged line");
        }
    }

    #[test]
    fn lively_is_eight_changes_in_the_last_sixteen_answers() {
        let to_eight: Vec<u8> = (1..=8).collect();
        let after = |more: &[u8]| told(&[&to_eight, more].concat(), false);
        assert_eq!(after(&[9, 10, 11]), "AAUAAUAASSS", "the eighth change makes it so");
        // Equal answers count among the sixteen: eight of them leave all eight changes, nine do not.
        assert!(after(&[[9; 9].as_slice(), &[50]].concat()).ends_with("SS"));
        assert!(after(&[[9; 10].as_slice(), &[50]].concat()).ends_with("SA"));
    }

    #[test]
    fn after_three_that_differed_counting_begins_anew() {
        assert_eq!(told(&[1, 1, 7, 8, 9, 10, 11, 12], true), "ASAAUAAU");
        assert_eq!(told(&[1, 1, 7, 1, 8, 1, 9, 1], true), "ASASASAS", "one that was right ends it");
    }

    fn unit(id: u16, byte: u8) -> Message {
        Message { ecu: frames::Ecu::can11(id), data: vec![0x41, 0x05, byte] }
    }

    #[test]
    fn the_order_in_which_control_units_answer_is_no_change() {
        let (one, other) = (unit(0x7E8, 0x7B), unit(0x7E9, 0x7C));
        let mut confirm = Confirm::default();
        let mut hear = |answer: &[&Message]| {
            let answer: Vec<Message> = answer.iter().map(|message| (*message).clone()).collect();
            confirm.hear(&answer, true)
        };
        assert_eq!(hear(&[&one, &other]), Belief::Again);
        assert_eq!(hear(&[&other, &one]), Belief::Sure, "the same, told the other way round");
        assert_eq!(hear(&[&one, &other]), Belief::Sure);
        // What is one's is not the other's.
        let (one, other) = (unit(0x7E8, 0x7C), unit(0x7E9, 0x7B));
        assert_eq!(hear(&[&one, &other]), Belief::Again, "the values changed places");
        assert_eq!(hear(&[&one]), Belief::Again, "one of them is missing");
    }

    #[test]
    fn a_lively_signal_is_let_through_on_a_good_line_only() {
        let bytes: Vec<u8> = (0..60).collect();
        assert!(told(&bytes, false).ends_with("SSSSSSSSSS"));
        assert!(!told(&bytes, true).contains('S'));
    }
}
