//! The look in hand by the record: whether it has settled, what its sign is worth, whether it counts.
//!
//! In: the record. Out: facts about the look in hand. Not here: what the sheet says of it (`port/looks.rs`).

use core::time::Duration;

use events::{FillFrom, Look, Precondition, Request, Right, Rim};
use fluid::balance::U_VESSEL_ML;
use units::Mono;

use super::Record;
use crate::port::looks::{Height, Settled};
use crate::port::looks::{USUAL, needs_engine};
use crate::port::round::{Round, Stream};
use crate::told::held::Held;
use crate::told::ledger::{Entry, Flow, Kind};

impl Record {
    /// The look in hand.
    pub(crate) fn look(&self) -> &Look {
        self.looks.in_hand().map_or(&USUAL, |in_hand| &in_hand.look)
    }

    /// What the sheet asks for while it is in hand; what only some jobs need is among it.
    pub(crate) fn look_asks(&self) -> Held {
        self.looks
            .in_hand()
            .map_or_else(|| Precondition::ALL.iter().copied().collect(), |in_hand| in_hand.asks)
    }

    /// Whether it is the one that sets the level.
    pub(crate) fn is_last_look(&self) -> bool {
        self.looks.done + 1 >= self.looks.all.len()
    }

    /// There is no level to be seen: the amounts are the result.
    pub(crate) fn amount_only(&self) -> bool {
        self.look().right == Right::Amount
    }

    /// The engine runs in the look, or before it, for its warmth.
    pub(crate) fn needs_engine(&self) -> bool {
        needs_engine(self.look())
    }

    /// The engine runs in some look of the job, or before it.
    pub(crate) fn ever_needs_engine(&self) -> bool {
        self.looks.all.iter().any(|in_hand| needs_engine(&in_hand.look))
    }

    /// It is filled through the opening that is looked at, or up to it.
    pub(crate) fn fills_at_the_port(&self) -> bool {
        self.fills_there() || self.fills_to_the_edge()
    }

    /// It is filled through the opening that is looked at.
    pub(crate) fn fills_there(&self) -> bool {
        matches!(self.sheet.level.fill_from, FillFrom::CheckPort | FillFrom::LevelHole)
    }

    /// With the engine off it is filled until it runs out at the level; what belongs in besides comes after it.
    pub(crate) fn fills_to_the_edge(&self) -> bool {
        let look = self.look();
        !look.idles() && !look.is_gated() && !self.is_last_look() && !look.reads_a_height()
    }

    /// The level stands at a pipe: something runs out of it whatever the level.
    pub(crate) fn has_a_gush(&self) -> bool {
        matches!(self.sheet.level.rim, Rim::Pipe | Rim::JobPipe)
    }

    /// Fluid told flowing now is a wave of the clutch: between two of them it dripped.
    pub(crate) fn is_a_wave(&self) -> bool {
        let dripped = |r: &Round| r.is_open() && r.trickle.is_some() && !r.gush;
        self.sheet.level.wave.is_some() && self.port.round.as_ref().is_some_and(dripped)
    }

    /// Drips are the sign, and nothing flowed before them in this opening.
    pub(crate) fn drips_come_first(&self) -> bool {
        let drips = matches!(self.look().right, Right::Drips | Right::FirstDrips);
        let flowed = |r: &Round| r.is_open() && r.flowed_at_go();
        drips && !self.port.round.as_ref().is_some_and(flowed)
    }

    /// Where the fluid is told to stand; `None` where that is not this look's sign.
    pub(crate) fn height(&self, request: &Request) -> Option<Height> {
        let below_mm = match request {
            Request::AtEdge => 0.0,
            Request::BelowEdge { millimetres } => millimetres.to_f64().max(0.0),
            _ => return None,
        };
        let [low, high] = match (self.look().right, self.look().mm) {
            (Right::LowerEdge, _) => [0.0, AT_EDGE_MM],
            (Right::BelowEdge, Some(mm)) => mm,
            _ => return None,
        };
        Some(if below_mm > high {
            Height::Low
        } else if below_mm < low {
            Height::High
        } else {
            Height::Right
        })
    }

    /// It was driven: once, the look comes again after it, and it stands elsewhere then.
    pub(crate) fn drove(&mut self) {
        // Driven before it was set it is driven once more.
        if self.looks.drove || !self.look().after_drive || !self.is_set() {
            return;
        }
        (self.looks.drove, self.looks.again) = (true, true);
        let confirmed = self.confirmed.contains(Precondition::VehicleLevel);
        self.looks.kept = Some((self.level.take(), confirmed));
        ITS_PLACE.into_iter().for_each(|what| self.take_back(what));
        // It was right before: what the amounts say against it is no shortage.
        self.level_was_right();
    }

    /// The drive is taken back: it stands as it stood. The parking brake is asked for all the same.
    pub(crate) fn not_driven(&mut self) {
        if !self.looks.again {
            return;
        }
        (self.looks.drove, self.looks.again) = (false, false);
        if let Some((level, confirmed)) = self.looks.kept.take() {
            self.level = level;
            if confirmed {
                self.confirmed.insert(Precondition::VehicleLevel);
            }
        }
    }

    /// Whether it has settled for the look in hand.
    pub(crate) fn settled(&self, now: Mono) -> Settled {
        let look = self.look();
        let (from, to) = (look.wait_from_s(), look.wait_to_s());
        if from == 0 && to.is_none() {
            return Settled::Yes;
        }
        let Some(since) = self.looks.since else {
            return Settled::NotYet;
        };
        let waited = now.since(since);
        // Once the sign was told in time, closing takes as long as it takes.
        let told =
            self.port.round.as_ref().is_some_and(|r| r.trickle.is_some() && (r.is_open() || r.is_good()));
        if waited < Duration::from_secs(u64::from(from)) {
            Settled::NotYet
        } else if !told && to.is_some_and(|to| waited > Duration::from_secs(u64::from(to))) {
            Settled::Over
        } else {
            Settled::Yes
        }
    }

    /// When, later than now, that may change.
    pub(crate) fn settles_at(&self) -> [Option<Mono>; 2] {
        let look = self.look();
        let after = |s: u32| self.looks.since.map(|since| since.after(Duration::from_secs(u64::from(s))));
        let over = look.wait_to_s().and_then(after).map(|at| at.after(Duration::from_millis(1)));
        [(look.wait_from_s() > 0).then(|| after(look.wait_from_s())).flatten(), over]
    }

    /// Since the last fill so little was drained that the pipe may have stayed in; told in a vessel or by the sheet's word.
    pub(crate) fn little_out(&self) -> bool {
        let since = self.ledger.iter().rev().take_while(|e| e.kind != Kind::Filled);
        let mut drained = since.filter(|e| e.kind == Kind::Drained).map(|e| e.amount.to_f64()).peekable();
        drained.peek().is_some() && drained.sum::<f64>() < LITTLE_OUT * self.sheet.fluid.drain_ml
    }

    /// The look in hand was good, and is not the last: the next one is in hand.
    pub(crate) fn count_look(&mut self) {
        let good = self.port.round.as_ref().is_some_and(Round::is_good) && !self.contradicted();
        if !good || self.is_last_look() {
            return;
        }
        let look = self.look();
        let add = Some(look.then_add_ml).filter(|ml| *ml > 0.0);
        self.looks.rim_seen |= !look.idles();
        (self.looks.to_add_ml, self.port.round) = (add, None);
        self.looks.done += 1;
    }

    /// The stated amount, in mL.
    pub(crate) fn stated_ml(&self) -> f64 {
        self.sheet.fluid.drain_ml + self.sheet.fluid.margin_ml
    }

    /// Where the amounts are the result: how much more is in it than the stated amount, and the standard uncertainty, in mL.
    /// `None` while it is not drained fully and filled.
    pub(crate) fn amount_off(&self) -> Option<(f64, f64)> {
        let first = self.ledger.iter().position(|e| e.kind == Kind::Filled)?;
        let (before, after) = self.ledger.split_at(first);
        let out = |entries: &[Entry]| -> f64 {
            entries.iter().filter(|e| e.kind.flow() == Flow::Out).map(|e| e.amount.to_f64()).sum()
        };
        let stated = self.sheet.fluid.drain_ml;
        let drained = out(before);
        if drained < DRAINED_FULLY * stated {
            return None;
        }
        // As it is at a workshop's temperature, where its own was told.
        let sum = |flow: Flow| -> f64 {
            after.iter().filter(|e| e.kind.flow() == flow).map(|e| self.at_workshop_ml(e)).sum()
        };
        let net = sum(Flow::In) - sum(Flow::NotIn) - out(after) - sum(Flow::Over);
        // What a full drain left behind is left in or was missing before: nobody knows.
        let left = (stated - drained).max(0.0) / 3.0_f64.sqrt();
        let vessels = U_VESSEL_ML * (after.len() as f64).sqrt();
        Some((net - self.stated_ml(), left.hypot(vessels)))
    }

    fn at_workshop_ml(&self, entry: &Entry) -> f64 {
        let density = self.sheet.fluid.density_15;
        let factor = entry.celsius.and_then(|t| {
            let now = fluid::volume::vcf(t.to_f64(), density).ok()?;
            Some(now / fluid::volume::vcf(WORKSHOP_C, density).ok()?)
        });
        entry.amount.to_f64() * factor.unwrap_or(1.0)
    }

    /// The amounts are right within the sheet's tolerance.
    pub(crate) fn amounts_right(&self) -> bool {
        let near = |(ml, _): (f64, f64)| ml.abs() <= self.sheet.check.tolerance_ml;
        self.amount_only() && self.amount_off().is_some_and(near)
    }

    /// What the stream or its absence is in this look: dry is what is wanted at first where drips must come later.
    pub(crate) fn nothing_is(&self) -> Stream {
        if self.look().right == Right::FirstDrips { Stream::Dry } else { Stream::Nothing }
    }
}

/// What holds no longer once it was driven somewhere else.
const ITS_PLACE: [Precondition; 3] =
    [Precondition::VehicleLevel, Precondition::Parked, Precondition::ReadyOff];
/// So near the edge it is at the edge.
/// Own choice: nobody sees less.
const AT_EDGE_MM: f64 = 0.5;
/// Less than this share of what the sheet expects comes out where the pipe has stayed in (own choice, as the table of hazards has it).
/// Source: fixtures/reference/trade/hazards.csv, row `pipe-left-in`; own choice there.
const LITTLE_OUT: f64 = 0.7;
/// A stated amount is one at about this temperature.
/// Own choice: makers rarely say; 10 K off are 0.8 % of the amount.
const WORKSHOP_C: f64 = 20.0;
/// Drained fully is this share of what the sheet expects.
/// Own choice: the rest is the width of the sheet's own number (a tenth, see `result/guess.rs`).
const DRAINED_FULLY: f64 = 0.9;
