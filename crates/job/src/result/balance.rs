//! The balance: drained, filled and run out, as measured and at the middle of the band.
//!
//! In: the ledger of the record. Out: [`Balance`]. Not here: why it may not close (`closure.rs`), what an open
//! balance means for the result (`outcome.rs`), the correction itself (`fluid::balance`).
//!
//! ```text
//!  over-fill = filled - spilled of it - drained - spilled of it - taken out with parts     all at mid-band
//!  closure   = run out + spilled of it - over-fill
//! ```
//!
//! | amount | standard uncertainty |
//! | --- | --- |
//! | measured in a vessel | 25 mL (from memory), and 2 K of a told temperature, 15 K of one that was not told |
//! | spilled, by eye | half of it |
//! | of a part, as the sheet says | a fifth of it |

use events::Balance;
use fluid::balance::{Amount, Referred, U_VESSEL_ML, refer};
use units::Millilitres;

use crate::record::Record;
use crate::told::ledger;
use crate::told::ledger::{Entry, Flow, Kind};

/// The balance as far as it is told.
pub(crate) fn balance(record: &Record) -> Balance {
    let told = |of: &dyn Fn(Kind) -> bool| {
        let mut all = record.ledger.iter().filter(|e| of(e.kind)).peekable();
        all.peek()?;
        Some(Millilitres::clamped(all.map(|e| e.amount.to_f64()).sum()))
    };
    let expected = over_fill(record);
    let closure = expected.zip(over(record)).map(|(e, r)| minus(r, e));
    let drains = record.ledger.iter().filter(|e| e.kind == Kind::Drained).count();
    let kept = told(&|k| k == Kind::Kept);
    let out = told(&|k| matches!(k.flow(), Flow::Out | Flow::Over));
    let waste = out.map(|out| Millilitres::clamped(out.to_f64() - kept.map_or(0.0, Millilitres::to_f64)));
    let fresh = ledger::fresh(&record.sheet, &record.ledger);
    Balance {
        drained_millilitres: told(&|k| k == Kind::Drained),
        filled_millilitres: told(&|k| k == Kind::Filled),
        ran_out_millilitres: told(&|k| k == Kind::RanOut),
        taken_out_millilitres: told(&|k| matches!(k, Kind::TakenOut(_))),
        spilled_millilitres: told(&|k| matches!(k, Kind::Spilled(_))),
        kept_millilitres: kept,
        waste_millilitres: waste,
        exchanges: u32::try_from(drains).ok().filter(|n| *n > 1),
        fresh_percent: fresh.map(|share| (share.clamp(0.0, 1.0) * 100.0) as u8),
        reference_celsius: record.sheet.check.middle(),
        expected_run_out_millilitres: expected.map(|e| Millilitres::clamped(e.millilitres)),
        closure_millilitres: closure.map(|c| Millilitres::clamped(c.millilitres)),
        closure_u_millilitres: closure.map(|c| Millilitres::clamped(c.u_ml)),
    }
}

/// What should run out at mid-band if the level was right before.
pub(crate) fn over_fill(record: &Record) -> Option<Referred> {
    let drained = sum(record, |k| k == Kind::Drained);
    let filled = sum(record, |k| k == Kind::Filled)?;
    // A recheck changes no fluid: what was topped up is all that went in, and nothing came out.
    let mut over = if !record.changes() { filled } else { minus(filled, drained?) };
    let less = |k: Kind| k.flow() == Flow::NotIn || (k.flow() == Flow::Out && k != Kind::Drained);
    if let Some(less) = sum(record, less) {
        over = minus(over, less);
    }
    Some(over)
}

/// What ran out at the check port, caught or spilled; `None` while nothing of it was measured.
pub(crate) fn over(record: &Record) -> Option<Referred> {
    record.has(Kind::RanOut).then(|| sum(record, |k| k.flow() == Flow::Over))?
}

/// All of some kinds at mid-band; `None` where nothing was told or the sheet's fluid has no formula.
fn sum(record: &Record, of: impl Fn(Kind) -> bool) -> Option<Referred> {
    let mut all = record.ledger.iter().filter(|e| of(e.kind)).map(|e| referred(record, e)).peekable();
    all.peek()?;
    all.try_fold(Referred { millilitres: 0.0, u_ml: 0.0 }, |sum, one| one.map(|one| plus(sum, one)))
}

/// One amount at mid-band.
pub(crate) fn referred(record: &Record, entry: &Entry) -> Option<Referred> {
    let reference = record.sheet.check.middle();
    let u_k = if entry.celsius.is_some() { U_TOLD_K } else { U_UNTOLD_K };
    let ml = entry.amount.to_f64();
    let u_ml = match entry.kind {
        _ if entry.measured => U_VESSEL_ML,
        Kind::Spilled(_) => (ml * U_BY_EYE).max(U_VESSEL_ML),
        _ => (ml * U_BY_SHEET).max(U_VESSEL_ML),
    };
    let amount = Amount { millilitres: ml, celsius: entry.celsius.unwrap_or(reference).to_f64() };
    refer(amount, reference.to_f64(), record.sheet.fluid.density_15, u_ml, u_k).ok()
}

pub(crate) fn minus(a: Referred, b: Referred) -> Referred {
    Referred { millilitres: a.millilitres - b.millilitres, u_ml: a.u_ml.hypot(b.u_ml) }
}

fn plus(a: Referred, b: Referred) -> Referred {
    Referred { millilitres: a.millilitres + b.millilitres, u_ml: a.u_ml.hypot(b.u_ml) }
}

/// A told temperature of an amount.
/// Source: from memory: thermometer and stirring.
const U_TOLD_K: f64 = 2.0;
/// One that was not told.
/// Own choice: anything from a cold shelf to a warm sump around the band.
const U_UNTOLD_K: f64 = 15.0;
/// A puddle by eye, as a share of it.
/// Own choice: twice or half of it looks much the same on a floor.
const U_BY_EYE: f64 = 0.5;
/// A part as the sheet says, as a share of it.
/// Own choice: filters and lines differ and do not run quite empty.
const U_BY_SHEET: f64 = 0.2;
