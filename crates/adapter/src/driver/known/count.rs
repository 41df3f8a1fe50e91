//! The count digit: how many lines answer a request, once that is sure, so that the adapter need not wait for more.
//!
//! In: replies without and with a digit. Out: the digit to send, or none. Pure, one [`Count`] per request.
//!
//! ```text
//!   Learning(0) ─ same number of single lines, three times ─► Known ─ a short reply, or none ─► Never
//!        ▲  another number, a long reply                         │
//!        └── every so often without it, to see who else answers ─┘
//! ```
//!
//! Method: section 9 and rule 12 of the dialect reference. Too small a number leaves messages of J1850 unacknowledged
//! and jams the bus (data sheet page 32): there only one unit is asked with a digit. With response pending a digit
//! cuts off the answer. For replies of several frames firmwares differ in what they count: none is sent.

use frames::Bus;

use crate::command::{Awaited, Header};

/// What is known about one request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Count {
    /// So many replies in a row had that many lines.
    Learning { lines: u8, times: u8 },
    /// It is sure; used so often since it was last looked at.
    Known { lines: u8, used: u16 },
    /// Never again on this connection.
    Never,
}

/// So many equal replies make it sure.
/// Own choice: one lost line in a hundred would teach a wrong count once in a million; more only delays the gain.
const SURE: u8 = 3;
/// After so many replies with a digit one goes without: perhaps another unit has woken.
/// Own choice: half a minute at two requests a second; it costs one wait of some 0.2 s each time.
const LOOK_AGAIN: u16 = 60;

impl Default for Count {
    fn default() -> Self {
        Self::Learning { lines: 0, times: 0 }
    }
}

impl Count {
    /// For a request to `header` on `bus`.
    pub(crate) const fn new(bus: Bus, header: Option<Header>) -> Self {
        let asks_one = match header {
            Some(header) => header.answers_from().is_some(),
            None => false,
        };
        match bus {
            Bus::J1850Pwm | Bus::J1850Vpw if !asks_one => Self::Never,
            _ => Self::Learning { lines: 0, times: 0 },
        }
    }

    /// The digit for the next request.
    pub(crate) const fn digit(self) -> Option<u8> {
        match self {
            Self::Known { lines, used } if used < LOOK_AGAIN => Some(lines),
            _ => None,
        }
    }

    /// A good answer to a request that left with `digit`, in so many lines, of which each was a whole message or not.
    pub(crate) fn answered(&mut self, digit: Option<u8>, lines: usize, single: bool) {
        *self = match (*self, digit) {
            (Self::Never, _) => Self::Never,
            (Self::Known { lines: known, used }, Some(_)) if lines == usize::from(known) && single => {
                Self::Known { lines: known, used: used.saturating_add(1) }
            }
            (Self::Known { .. }, Some(_)) => Self::Never,
            _ if !single || lines == 0 || lines > usize::from(Awaited::MOST) => Self::default(),
            (Self::Known { lines: known, .. }, None) if lines == usize::from(known) => {
                Self::Known { lines: known, used: 0 }
            }
            (Self::Learning { lines: before, times }, None) if lines == usize::from(before) => {
                if times + 1 >= SURE {
                    Self::Known { lines: before, used: 0 }
                } else {
                    Self::Learning { lines: before, times: times + 1 }
                }
            }
            _ => Self::Learning { lines: lines as u8, times: 1 },
        };
    }

    /// What came to a request with a digit was not good, or the unit asked for more time: never again.
    pub(crate) fn withdraw(&mut self) {
        *self = Self::Never;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(steps: &[(usize, bool)]) -> (Option<u8>, Count) {
        let mut count = Count::default();
        for &(lines, single) in steps {
            count.answered(count.digit(), lines, single);
        }
        (count.digit(), count)
    }

    #[test]
    fn a_digit_is_learnt_from_three_equal_replies_and_withdrawn_after_one_that_differs() {
        let one = (1, true);
        type Case<'a> = (&'a str, &'a [(usize, bool)], Option<u8>);
        let cases: &[Case] = &[
            ("two are not enough", &[one, one], None),
            ("three are", &[one, one, one], Some(1)),
            ("two units", &[(2, true), (2, true), (2, true)], Some(2)),
            ("another number begins anew", &[one, one, (2, true), one, one], None),
            ("a long reply is not counted", &[(3, false); 5], None),
            ("a short reply takes it back", &[(2, true), (2, true), (2, true), one, one, one, one], None),
            ("more than was asked for, too", &[one, one, one, (2, true), one, one, one], None),
            ("sixteen need more than a digit", &[(16, true); 4], None),
        ];
        for (what, steps, want) in cases {
            assert_eq!(after(steps).0, *want, "{what}");
        }
    }

    #[test]
    fn now_and_then_one_goes_without_to_see_who_else_answers() {
        let steps = vec![(1, true); usize::from(LOOK_AGAIN) + 3];
        let (digit, mut count) = after(&steps);
        assert_eq!(digit, None, "this one goes without");
        count.answered(None, 2, true);
        assert_eq!(count, Count::Learning { lines: 2, times: 1 }, "another unit answers now: learnt anew");
        let (_, mut count) = after(&steps);
        count.answered(None, 1, true);
        assert_eq!(count.digit(), Some(1));
    }

    #[test]
    fn on_j1850_everybody_is_never_asked_with_a_digit() {
        assert_eq!(Count::new(Bus::J1850Vpw, None), Count::Never);
        let one = Header::parse("6C18F1").ok();
        assert_ne!(Count::new(Bus::J1850Vpw, one), Count::Never);
        assert_ne!(Count::new(Bus::Can11, None), Count::Never);
    }
}
