//! The looks of the sheet, one after the other, and what each asks for.
//!
//! In: the sheet. Out: which look is in hand. Not here: what the record makes of it (`record/looks.rs`), what is said (`acts.rs`), one
//! opening of the port (`round.rs`).
//!
//! A look that is not the last counts when its opening was good: then the next one is in hand, and what is to be filled between
//! them is waited for. A drain begins with the first look again. Without any look the amounts are the result.

use std::sync::Arc;

use events::{Drive, FillFrom, Look, Precondition, Right, Sheet, SumpOpens};
use fluid::balance::U_VESSEL_ML;
use units::Mono;

use crate::told::held::Held;
use crate::told::stand::Stand;

/// Where the look in hand is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Looks {
    pub(crate) all: Arc<[InHand]>,
    /// So many have counted since the last drain.
    pub(crate) done: usize,
    /// What is still to be filled after the look that counted last, in mL.
    pub(crate) to_add_ml: Option<f64>,
    /// A look with the engine off has counted since the last drain.
    pub(crate) rim_seen: bool,
    /// It was driven, where the look comes once more after that.
    pub(crate) drove: bool,
    /// And nobody has looked since.
    pub(crate) again: bool,
    /// How it stood before the drive, should that be taken back: measured, and confirmed.
    pub(crate) kept: Option<(Option<Stand>, bool)>,
    /// Since when it settles, on the clock of this boot.
    pub(crate) since: Option<Mono>,
}

/// One look, and what the sheet asks for while it is in hand: asked some hundred times at each reading, so judged once.
#[derive(Debug, PartialEq)]
pub(crate) struct InHand {
    pub(crate) look: Look,
    pub(crate) asks: Held,
}

/// Where the fluid was told to stand, against where it should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Height {
    Right,
    Low,
    High,
}

/// Has it settled?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Settled {
    NotYet,
    Yes,
    /// The span is over.
    Over,
}

impl Looks {
    /// Of the sheet that the job begins with; another band or another signal asks for the same.
    pub(crate) fn new(sheet: &Sheet) -> Self {
        let all = sheet.looks();
        let cold = wants_cold(sheet) && all.iter().any(needs_engine);
        let in_hand = |look: Look| {
            let asks = Precondition::ALL.iter().copied().filter(|p| asks(sheet, &look, cold, *p)).collect();
            InHand { look, asks }
        };
        Self {
            all: all.into_iter().map(in_hand).collect(),
            done: 0,
            to_add_ml: None,
            rim_seen: false,
            drove: false,
            again: false,
            kept: None,
            since: None,
        }
    }

    pub(crate) fn in_hand(&self) -> Option<&InHand> {
        self.all.get(self.done).or(self.all.last())
    }

    /// The rounds ended, or the engine came, or stopped.
    pub(crate) fn settles_from(&mut self, now: Mono) {
        self.since = Some(now);
    }

    /// The clock starts again: it settles anew from here.
    pub(crate) fn boot(&mut self) {
        self.since = None;
    }

    pub(crate) fn drained(&mut self) {
        (self.done, self.to_add_ml, self.rim_seen) = (0, None, false);
        (self.drove, self.again) = (false, false);
    }

    pub(crate) fn filled(&mut self, ml: f64) {
        self.to_add_ml = self.to_add_ml.map(|left| left - ml).filter(|left| *left > U_VESSEL_ML);
    }
}

/// A sheet has at least one look; this one stands in where a journal says otherwise.
pub(crate) static USUAL: std::sync::LazyLock<Look> = std::sync::LazyLock::new(Look::default);

/// The engine runs in the look, or before it, for its warmth.
pub(crate) fn needs_engine(look: &Look) -> bool {
    look.idles() || look.is_gated()
}

/// Where the engine runs at all it must be started cold.
pub(crate) fn wants_cold(sheet: &Sheet) -> bool {
    sheet.before.started_cold || sheet.check.start_below_c.is_some()
}

/// What may be so that the sheet does not ask for it, while `look` is in hand; `cold`: a start of this job must be.
fn asks(sheet: &Sheet, look: &Look, cold: bool, precondition: Precondition) -> bool {
    let (before, level) = (&sheet.before, &sheet.level);
    let amount_only = look.right == Right::Amount;
    match precondition {
        Precondition::CoolerBypass | Precondition::BypassOut => before.cooler_bypass,
        Precondition::StartedCold => cold && needs_engine(look),
        Precondition::FillPortOpen => level.fill_from == FillFrom::UpperPort,
        Precondition::PipeIn => level.sump_opens() == SumpOpens::Pipe,
        Precondition::Refitted => !sheet.access.is_empty(),
        Precondition::ModeOn => before.mode.is_some() || level.drive == Drive::EngineAtWill,
        Precondition::ReadyOff => level.drive != Drive::Engine,
        // What was spilled, and a danger, are told.
        Precondition::Dry | Precondition::AllSafe => false,
        Precondition::BrakeHeld | Precondition::SelectorCycled => {
            before.selector.is_some() && needs_engine(look)
        }
        Precondition::EngineRunning | Precondition::EngineIdling => look.idles(),
        Precondition::EngineOff => !look.idles() && !amount_only,
        Precondition::StandingStill => needs_engine(look),
        Precondition::Settled => look.wait_from_s() > 0 || look.wait_to_s().is_some(),
        Precondition::InPosition => {
            let first = before.selector.as_ref().and_then(|s| s.positions.first());
            look.position.is_some() && look.position.as_ref() != first
        }
        Precondition::VehicleLevel => !amount_only,
        Precondition::ExhaustOutside => level.drive != Drive::None,
        _ => true,
    }
}
