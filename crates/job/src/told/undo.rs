//! What can be taken back, and what taking it back leaves.
//!
//! In: the record. Out: the record without the last told thing. Not here: whether it may be told (`decide.rs`). What has happened (a port
//! that was opened, fluid that ran) is never taken back, and the journal keeps both the told thing and the undo.

use events::{Leak, Precondition, Request, Step};

use crate::record::{Plugs, Record};
use crate::told::asked::Asked;
use crate::told::ledger::Kind;
use crate::told::stand::Stand;

/// A told thing that can be taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Act {
    Confirmed(Precondition),
    /// Measured; what stood there before.
    Levelled(Option<Stand>),
    Measured,
    Shifted,
    Trickled,
    /// A gauge was read.
    Read,
    /// A question was answered; what was known before.
    Answered(Asked),
    /// The place of a leak was told.
    Placed,
    /// A leak was told; what was known of one before, and what was told with it.
    Leaked(Option<Leak>, Asked),
    Torqued,
    TestDriven,
}

impl Record {
    /// The last told thing that can be taken back.
    pub(crate) fn can_undo(&self) -> bool {
        !self.trail.acts.is_empty()
    }

    pub(crate) fn act(&mut self, act: Act) {
        if self.trail.acts.len() >= TRAIL {
            self.trail.acts.remove(0);
        }
        self.trail.acts.push(act);
    }

    pub(crate) fn undo(&mut self) {
        let Some(act) = self.trail.acts.pop() else { return };
        let step = match act {
            Act::Confirmed(what) => {
                self.confirmed.remove(what);
                match what {
                    Precondition::Clear => self.hands.drop_clear(),
                    // Nobody has seen that it is gone, then.
                    Precondition::NoLeak => self.hands.leak = self.hands.leak.or(self.hands.mended.take()),
                    _ => {}
                }
                step_of(&Request::Confirm { what })
            }
            Act::Levelled(before) => {
                self.level = before;
                before.is_none().then_some(Step::Prepare)
            }
            Act::Measured => {
                let Some(entry) = self.ledger.pop() else { return };
                self.trail.vacant = Some((entry.kind, entry.after_rounds));
                // Nothing is in that could be the wrong one.
                self.hands.wrong_in &= self.has(Kind::Filled);
                match entry.kind {
                    Kind::Drained => (!self.drained()).then_some(Step::Drain),
                    Kind::Filled => (!self.filled()).then_some(Step::Fill),
                    // The fluid went there all the same; only its amount is taken back.
                    Kind::RanOut | Kind::Spilled(_) | Kind::TakenOut(_) | Kind::Kept => None,
                }
            }
            Act::Shifted => {
                self.selector.told.undo();
                Some(Step::Circulate)
            }
            Act::Trickled => {
                if let Some(round) = self.port.round.as_mut().filter(|r| r.is_open()) {
                    (round.trickle, round.gush, round.ran_s) = (None, false, None);
                }
                Some(Step::Trickle)
            }
            Act::Read => {
                self.gauge_undo();
                Some(Step::Trickle)
            }
            Act::Answered(before) => {
                self.asked.take_back(before);
                None
            }
            Act::Placed => {
                self.leak_placed(None);
                None
            }
            Act::Leaked(before, asked) => {
                self.hands.leak = before;
                self.asked = asked;
                None
            }
            Act::Torqued => {
                self.plugs = Plugs::Loose;
                Some(Step::Torque)
            }
            Act::TestDriven => {
                self.not_driven();
                self.plugs = Plugs::Torqued;
                Some(Step::TestDrive)
            }
        };
        self.trail.undone.extend(step);
    }
}

/// The step that a told thing belongs to and that taking it back leaves undone.
pub(crate) const fn step_of(request: &Request) -> Option<Step> {
    match request {
        Request::Confirm { what: Precondition::BrakeHeld | Precondition::SelectorCycled } => {
            Some(Step::Circulate)
        }
        Request::Shifted { .. } => Some(Step::Circulate),
        Request::Confirm { what } if !what.gates() => None,
        Request::Confirm { .. } | Request::Level { .. } | Request::Corners { .. } => Some(Step::Prepare),
        Request::Drained { .. } => Some(Step::Drain),
        Request::Filled { .. } => Some(Step::Fill),
        Request::Trickle | Request::Drips | Request::AtEdge | Request::Gauge { .. } => Some(Step::Trickle),
        Request::Torqued => Some(Step::Torque),
        Request::TestDriven => Some(Step::TestDrive),
        _ => None,
    }
}

/// So many told things can be taken back, one after the other.
const TRAIL: usize = 64;
