//! The amounts of one job: what is missing, what is too much, what should run out.
//!
//! In: the ledger. Out: millilitres, as they were measured, and what follows from them. Not here: one temperature (`balance.rs`), the level
//! and its uncertainty (`level.rs`).

use units::Millilitres;

use super::Record;
use crate::told::ledger::{Entry, Flow, Kind};

impl Record {
    /// What came out and did not go in again, since a look was right the last time, in mL; negative: more went in. What runs
    /// out at idle down to a trickle is no shortage, but for what cannot have been the excess.
    pub(crate) fn short_ml(&self) -> f64 {
        -self.amounts().excess_ml - f64::from(self.hands.made_good_ml)
    }

    /// Far more is in it than came out and the margin: too much to start on.
    pub(crate) fn too_much_in(&self) -> bool {
        let fluid = &self.sheet.fluid;
        let over =
            if self.changes() { fluid.margin_ml + TOO_MUCH_IN_ML } else { HALF_IN_A_CHECK * fluid.total_ml };
        self.filled() && self.short_ml() < -over
    }

    /// A right look has made good whatever the amounts say is missing.
    pub(crate) fn level_was_right(&mut self) {
        self.hands.made_good_ml = Millilitres::clamped(-self.amounts().excess_ml).steps();
    }

    /// What should run out at the check port by the amounts, before anything of this opening was counted, in mL.
    pub(crate) fn expected_ml(&self) -> f64 {
        self.amounts().before_this_look_ml + f64::from(self.hands.made_good_ml)
    }

    /// The amounts, one after the other.
    fn amounts(&self) -> Amounts {
        let mut sum = Amounts::default();
        let limit = if self.changes() {
            self.sheet.fluid.margin_ml + TOO_MUCH_OUT_ML
        } else {
            TOO_MUCH_IN_A_CHECK_ML
        };
        for entry in &self.ledger {
            let ml = entry.amount.to_f64();
            let of_this_look = entry.after_rounds == self.port.rounds;
            match entry.kind.flow() {
                Flow::In => sum.moves(ml),
                Flow::Out | Flow::NotIn => sum.moves(-ml),
                Flow::Over if entry.lost => sum.excess_ml -= ml,
                Flow::Over => {
                    let above = ml - sum.excess_ml.max(0.0);
                    if above > limit {
                        // A wrong plug, or a loose pipe: all of it is missing.
                        sum.excess_ml -= ml;
                        sum.too_much |= of_this_look;
                    } else if sum.excess_ml > 0.0 {
                        sum.excess_ml = (sum.excess_ml - ml).max(0.0);
                    }
                }
                Flow::None => {}
            }
            if !(of_this_look && entry.kind.flow() == Flow::Over) {
                sum.before_this_look_ml = sum.excess_ml;
            }
        }
        sum
    }

    /// A stream is to be expected: the amounts say so.
    pub(crate) fn expects_a_stream(&self) -> bool {
        // Once a look has shown it low, the amounts promise nothing any more.
        self.changes()
            && !self.reads_a_gauge()
            && !self.hands.was_low
            && self.has(Kind::Drained)
            && self.has(Kind::Filled)
            && self.expected_ml() >= STREAM_ML.max(2.0 * self.sheet.gush_ml())
    }

    /// Far more was counted than can have been the excess: a wrong plug, a loose pipe.
    pub(crate) fn ran_out_too_much(&self) -> bool {
        self.amounts().too_much && !self.refilled()
    }

    pub(crate) fn has(&self, kind: Kind) -> bool {
        self.ledger.iter().any(|e| e.kind == kind)
    }

    /// Old fluid is out, or this is a recheck, where none is changed.
    pub(crate) fn drained(&self) -> bool {
        !self.changes() || self.has(Kind::Drained)
    }

    /// New fluid is in, or this is a recheck.
    pub(crate) fn filled(&self) -> bool {
        // A right look outranks amounts: what was told of a fill may be taken back after it, and the fluid is in all the same.
        !self.changes() || self.has(Kind::Filled) || self.is_set()
    }

    /// Drained and not filled since.
    pub(crate) fn awaits_fill(&self) -> bool {
        let turns = |e: &&Entry| matches!(e.kind, Kind::Drained | Kind::Filled);
        let drained = self.ledger.iter().rev().find(turns).is_some_and(|e| e.kind == Kind::Drained);
        // What was too much and was let out again is no drain.
        drained && self.short_ml() > 0.0 && !self.is_set()
    }

    /// The sheet asks for another drain and fill, and the last fill has circulated.
    pub(crate) fn drains_again(&self) -> bool {
        let drains = self.ledger.iter().filter(|e| e.kind == Kind::Drained).count();
        let wanted = usize::try_from(self.sheet.fluid.exchanges).unwrap_or(usize::MAX);
        let more = self.changes() && drains > 0 && drains < wanted;
        more && self.port.round.is_none() && self.motion.circulated && !self.awaits_fill()
    }

    /// Drained or filled after the last round: what it set holds no longer.
    pub(crate) fn refilled(&self) -> bool {
        // Out of the tube of a gauge it is drawn, and does not run out by itself down to the level.
        let drawn = self.reads_a_gauge();
        let changes = |kind: Kind| kind.changes_the_level() || (drawn && kind == Kind::RanOut);
        let after = |e: &Entry| changes(e.kind) && e.after_rounds == self.port.rounds && !e.in_look;
        self.port.rounds > 0 && self.ledger.iter().any(after)
    }

    /// Nothing ran out though as much was filled as the sheet allows, or far more than can be missing: it runs somewhere else,
    /// or it is another plug.
    pub(crate) fn stays_low(&self) -> bool {
        self.needs_more() && (self.portions_done() || self.too_much_in())
    }

    /// It was topped up as often as the sheet allows.
    pub(crate) fn portions_done(&self) -> bool {
        self.hands.top_ups >= self.sheet.fluid.portions
    }

    /// How much had been filled before the last look, where that look was dry; before an earlier one otherwise.
    pub(crate) fn dry_after(&self) -> Option<Millilitres> {
        let filled =
            self.ledger.iter().filter(|e| e.kind == Kind::Filled && e.after_rounds < self.port.rounds);
        // Once a stream has come, a dry look says no more than that it has gone.
        let dry = self.stays_dry() && !self.port.ran.is_ever();
        let now = dry.then(|| Millilitres::clamped(filled.map(|e| e.amount.to_f64()).sum()));
        now.or(self.hands.dry_after_ml.and_then(Millilitres::from_steps))
    }

    /// What is in it now if the level was right before, as measured, in mL.
    pub(crate) fn inside_ml(&self) -> f64 {
        let moved = |e: &Entry| match e.kind.flow() {
            Flow::In => e.amount.to_f64(),
            Flow::Out | Flow::NotIn | Flow::Over => -e.amount.to_f64(),
            Flow::None => 0.0,
        };
        self.sheet.fluid.total_ml + self.ledger.iter().map(moved).sum::<f64>()
    }

    /// The sum of all that goes one way, as measured, in mL.
    pub(crate) fn flowed_ml(&self, of: impl Fn(Flow) -> bool) -> f64 {
        self.ledger.iter().filter(|e| of(e.kind.flow())).map(|e| e.amount.to_f64()).sum()
    }
}

/// What the amounts come to, one after the other, in mL.
#[derive(Debug, Clone, Copy, Default)]
struct Amounts {
    /// Above what was in it before the job.
    excess_ml: f64,
    /// The same before anything that ran out in this opening.
    before_this_look_ml: f64,
    /// Far more was counted in this opening than can have been the excess.
    too_much: bool,
}

impl Amounts {
    fn moves(&mut self, ml: f64) {
        self.excess_ml += ml;
    }
}

/// The least that amounts must promise before a stream is expected.
/// Own choice: above a first gush (5 to 60 mL, by geometry) and what vessels are wrong by.
const STREAM_ML: f64 = 100.0;
/// So much above the excess and the margin cannot have been the excess.
/// Own choice: three times what two vessels and a wrong temperature explain; less would stop jobs that are right.
const TOO_MUCH_OUT_ML: f64 = 500.0;
/// The same where nothing is known of the excess.
/// Own choice: one that was filled two litres too high would have foamed and been brought for that.
const TOO_MUCH_IN_A_CHECK_ML: f64 = 2_000.0;
/// So much above what came out and the margin is too much to start on.
/// Own choice: a litre too much foams when it is warm; less may be the margin of another sheet.
const TOO_MUCH_IN_ML: f64 = 1_000.0;
/// A check: so much of all that it holds is too much.
/// Own choice: one that lacked as much would not have come here by itself.
const HALF_IN_A_CHECK: f64 = 0.5;
