//! The balance: drained, filled and run out, as measured and at the middle of the band.
//!
//! In: the amounts of the record. Out: [`Balance`]. Not here: what an open balance means for the result
//! (`outcome.rs`), the correction itself (`fluid::balance`).
//!
//! An amount without a temperature is taken as mid-band and carries a standard uncertainty of [`U_UNTOLD_K`].

use events::Balance;
use fluid::balance::{Amount, Referred, U_VESSEL_ML, refer};
use units::Millilitres;

use crate::record::{Kind, Record};

/// The balance as far as it is told.
pub(crate) fn balance(record: &Record) -> Balance {
    let told = |kind| record.has(kind).then(|| Millilitres::clamped(record.sum(kind) as f64));
    let drained = referred(record, Kind::Drained);
    let filled = referred(record, Kind::Filled);
    let ran_out = referred(record, Kind::RanOut);
    let expected = drained.zip(filled).map(|(d, f)| minus(f, d));
    let closure = expected.zip(ran_out).map(|(e, r)| minus(r, e));
    Balance {
        drained_millilitres: told(Kind::Drained),
        filled_millilitres: told(Kind::Filled),
        ran_out_millilitres: told(Kind::RanOut),
        reference_celsius: record.sheet.check.middle(),
        expected_run_out_millilitres: expected.map(|e| Millilitres::clamped(e.millilitres)),
        closure_millilitres: closure.map(|c| Millilitres::clamped(c.millilitres)),
        closure_u_millilitres: closure.map(|c| Millilitres::clamped(c.u_ml)),
    }
}

/// All of one kind at the reference temperature; `None` where nothing was told or the sheet's fluid has no formula.
fn referred(record: &Record, kind: Kind) -> Option<Referred> {
    let reference = record.sheet.check.middle();
    let mut sum: Option<Referred> = None;
    for entry in record.ledger.iter().filter(|e| e.kind == kind) {
        let u_k = if entry.celsius.is_some() { U_TOLD_K } else { U_UNTOLD_K };
        let celsius = entry.celsius.unwrap_or(reference).to_f64();
        let amount = Amount { millilitres: entry.amount.to_f64(), celsius };
        let one = refer(amount, reference.to_f64(), record.sheet.fluid.density_15, U_VESSEL_ML, u_k).ok()?;
        sum = Some(sum.map_or(one, |s| Referred {
            millilitres: s.millilitres + one.millilitres,
            u_ml: s.u_ml.hypot(one.u_ml),
        }));
    }
    sum
}

fn minus(a: Referred, b: Referred) -> Referred {
    Referred { millilitres: a.millilitres - b.millilitres, u_ml: a.u_ml.hypot(b.u_ml) }
}

/// A told temperature of an amount: thermometer and stirring (from memory).
const U_TOLD_K: f64 = 2.0;
/// One that was not told: anything from a cold shelf to a warm sump around the band (own choice).
const U_UNTOLD_K: f64 = 15.0;
