//! What a told thing makes true for the hands, and what it undoes.
//!
//! In: told things that were accepted. Out: facts about the job.

use events::{Leak, Precondition, Request, Role, Way};
use units::Mono;

use super::Record;
use crate::told::act::Act;

impl Record {
    /// What a told thing makes true for the hands, and what it undoes.
    pub(crate) fn hands_told(&mut self, request: &Request, by: Option<Role>, now: Mono) {
        let runs = self.said.holds.contains(Precondition::EngineRunning);
        let says_clear = matches!(request, Request::Confirm { what: Precondition::Clear });
        if by == Some(Role::Under) {
            self.hands.word_below = Some(now);
            if !says_clear {
                self.hands.drop_clear();
            }
        }
        match request {
            Request::Confirm { what } => self.hand_confirmed(*what, by, now),
            Request::Shifted { .. } => self.hands.moving = true,
            Request::Level { .. } | Request::Corners { .. } => self.hands.tilted = None,
            Request::Drained { .. } => {
                self.take_back(Precondition::PipeIn);
                self.take_back(Precondition::ClosedUp);
                (self.hands.wrong_in, self.hands.no_drive) = (false, false);
            }
            Request::Filled { .. } => {
                if !runs {
                    self.take_back(Precondition::ClosedUp);
                }
                self.take_back(Precondition::NoLeak);
                self.hands.no_drive = false;
                self.hands.top_ups += u32::from(self.port.rounds > 0 && self.looks.to_add_ml.is_none());
            }
            Request::Spilled { of, .. } => self.hands.wet |= *of == Way::Filled || runs,
            Request::Flowing
            | Request::NothingFlows
            | Request::Drips
            | Request::AtEdge
            | Request::BelowEdge { .. } => {
                self.take_back(Precondition::NoLeak);
                self.take_back(Precondition::Refitted);
            }
            // Told before anybody looked at the level it puts the first answer right; after that only the leak look frees.
            Request::Leak { how: Leak::Dry } if self.port.rounds > 0 => {}
            Request::Leak { how: Leak::Dry } => self.hands.leak = None,
            Request::Leak { how } => {
                self.act(Act::Leaked(self.hands.leak, self.asked));
                self.hands.leak = Some(*how);
                self.take_back(Precondition::NoLeak);
            }
            Request::NoDrive => self.hands.no_drive = true,
            Request::FluidWrong => {
                self.take_back(Precondition::FluidRight);
                self.hands.wrong_in |= self.has(crate::told::ledger::Kind::Filled);
            }
            Request::TestDriven => {
                self.hands.lowered = true;
                self.hands.drop_clear();
            }
            _ => {}
        }
    }

    fn hand_confirmed(&mut self, what: Precondition, by: Option<Role>, now: Mono) {
        match what {
            Precondition::Clear => self.hands.told_clear(by, now),
            Precondition::OnStands => self.hands.lowered = false,
            Precondition::Parked | Precondition::InPosition => self.hands.moving = false,
            Precondition::CoolerBypass => self.take_back(Precondition::BypassOut),
            Precondition::NoLeak => self.hands.mended = self.hands.leak.take(),
            Precondition::Dry => self.hands.wet = false,
            Precondition::ExhaustOutside => {
                let idled = self.idled_ms(now);
                self.hands.exhaust_again_ms = (idled > 0).then(|| idled.saturating_add(AIR_AGAIN_MS));
            }
            _ => {}
        }
    }

    /// A confirmation that does not hold any more; `undo` has nothing to take back of it then.
    pub(crate) fn take_back(&mut self, what: Precondition) {
        if self.confirmed.remove(what) {
            self.trail.acts.retain(|a| *a != Act::Confirmed(what));
        }
    }
}

/// The hose is asked for again after so much more idling.
/// Source: fixtures/reference/trade/hazards.csv, row `long-idle`; own choice there: a hose that slips off fills a room
/// within that.
const AIR_AGAIN_MS: u64 = 20 * 60_000;
