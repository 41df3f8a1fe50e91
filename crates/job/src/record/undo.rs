//! What taking the last told thing back leaves.
//!
//! In: the record. Out: the record without it. Not here: whether it may be told (`decide.rs`). What has happened (a port that was
//! opened, fluid that ran) is never taken back, and the journal keeps both the told thing and the undo.

use events::{Precondition, Request, Step};

use super::{Plugs, Record};
use crate::told::act::{Act, step_of};
use crate::told::ledger::Kind;

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

/// So many told things can be taken back, one after the other.
/// Own choice: more than a person remembers; each keeps a copy of the record.
const TRAIL: usize = 64;
