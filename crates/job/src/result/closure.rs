//! The closure check: does what ran out fit what was over-filled, and if not, why not?
//!
//! In: the record. Out: whether the balance is open, and the causes that its sign and the record allow, the likeliest
//! first. Not here: the balance itself (`balance.rs`).
//!
//! | closure | causes, in this order |
//! | --- | --- |
//! | less ran out | a temperature that was not told and would explain it; low before; not all caught; a leak |
//! | more ran out | the port was open before the window; the engine stopped with it open; a temperature; the standpipe not seated; too full before |
//! | closes | none; only that less was drained than the sheet expects |

use events::ClosureCause as Cause;
use fluid::balance::CLOSING_ERROR_ML;

use crate::port::round::Ran;
use crate::record::Record;
use crate::result::balance::balance;
use crate::told::ledger::{Flow, Kind};

/// Whether the balance is further from closing than its uncertainty explains; `None` while amounts are missing. That of
/// a recheck is no question but what it was made for: how far off the level was found.
pub(crate) fn is_open(record: &Record) -> Option<bool> {
    if record.reads_a_gauge() {
        // Nothing runs out there; what is drawn out of the tube was too much before.
        return (record.has(Kind::Drained) && record.has(Kind::Filled)).then_some(false);
    }
    Some(record.changes() && is_far(record)?)
}

fn is_far(record: &Record) -> Option<bool> {
    Some(closure_ml(record)?.abs() > limit_ml(record)?)
}

/// Why it may not close. Also names a drain that was much too small, which no closure shows.
pub(crate) fn causes(record: &Record) -> Vec<Cause> {
    let mut causes = Vec::new();
    if !record.reads_a_gauge()
        && is_far(record) == Some(true)
        && let Some(closure) = closure_ml(record)
    {
        let stopped =
            record.port.round.as_ref().is_some_and(|r| r.ran == Ran::Stopped) || record.port.stopped_open;
        if closure > 0.0 && record.port.opened_early {
            causes.push(Cause::OpenedEarly);
        }
        if closure > 0.0 && stopped {
            causes.push(Cause::EngineStopped);
        }
        if by_temperature_ml(record) >= closure.abs() - limit_ml(record).unwrap_or_default() {
            causes.push(Cause::WrongTemperature);
        }
        causes.extend(if !record.changes() {
            // Found too full is the first job's level error; found low may also have leaked since.
            if closure < 0.0 { [Cause::Leak].as_slice() } else { [].as_slice() }
        } else if closure < 0.0 {
            [Cause::WasLowBefore, Cause::NotAllCaught, Cause::Leak].as_slice()
        } else {
            [Cause::TubeNotSeated, Cause::WasHighBefore].as_slice()
        });
    }
    if drained_little(record) {
        causes.push(Cause::DrainedNotFully);
    }
    causes
}

fn closure_ml(record: &Record) -> Option<f64> {
    Some(balance(record).closure_millilitres?.to_f64())
}

fn limit_ml(record: &Record) -> Option<f64> {
    Some((2.0 * balance(record).closure_u_millilitres?.to_f64()).max(CLOSING_ERROR_ML))
}

/// How much the amounts without a temperature may be wrong by: as if each had been measured [`FAR_K`] off mid-band.
fn by_temperature_ml(record: &Record) -> f64 {
    let untold = record.ledger.iter().filter(|e| e.measured && e.celsius.is_none() && e.kind != Kind::Kept);
    untold.map(|e| e.amount.to_f64() * fluid::run_out::BETA_40_PER_K * FAR_K).sum()
}

/// Less came out than [`DRAINED_SHARE`] of what the sheet expects from so many drains.
fn drained_little(record: &Record) -> bool {
    let drains = record.ledger.iter().filter(|e| e.kind == Kind::Drained).count();
    let out: f64 =
        record.ledger.iter().filter(|e| e.kind.flow() == Flow::Out).map(|e| e.amount.to_f64()).sum();
    drains > 0 && out < DRAINED_SHARE * record.sheet.fluid.drain_ml * drains as f64
}

/// From a cold shelf to fluid that was drained hot.
/// Own choice: 20 °C on the shelf to 60 °C at which a drain is still allowed.
const FAR_K: f64 = 40.0;
/// Less than this share of what the sheet expects came out: the drain was cut short.
/// Own choice: a vehicle that was low by its margin still gives more than this.
const DRAINED_SHARE: f64 = 0.8;
