//! Nothing ran out at `go`: how much to fill before the next look, and how long that puts the warming back.
//!
//! In: the record, live temperatures. Out: [`TopUp`]. Not here: what was missing in truth, which nobody knows before fluid
//! runs out.
//!
//! The amount is what is known to be missing, and the sheet's margin: what was over-filled is gone into the shortage, and a look
//! needs an over-fill again. Where a gauge shows how much is missing it is that, a portion at a time.
//! The time is that of warming the mixture back, `V*(T - air)/(V + total)` over the rate of warming.

use events::{Advice, SeatAdvice, Sheet, TopUp};
use units::{Millilitres, Mono};

use crate::live::Live;
use crate::record::Record;
use crate::told::ledger::Kind;

/// How much to fill now, and how long that takes to warm.
pub(crate) fn top_up(record: &Record, live: &Live, now: Mono) -> TopUp {
    let sheet = &record.sheet;
    let amount = missing_and_margin(record);
    let fluid =
        record.port.round.as_ref().and_then(|r| r.looked.judged.celsius).unwrap_or(sheet.check.middle());
    let air = live.air_now(now).map_or(USUAL_AIR_C, |t| t.to_f64());
    let rate = live.estimate.and_then(|e| e.kelvins_per_minute).map_or(0.0, |k| k.to_f64());
    let rate = if rate >= LEAST_RATE_K_MIN { rate } else { USUAL_RATE_K_MIN };
    let share = amount.to_f64() / (amount.to_f64() + sheet.fluid.total_ml);
    let seconds = (share * (fluid.to_f64() - air).max(0.0) / rate * 60.0).round();
    TopUp { millilitres: amount, seconds: Some(seconds.clamp(0.0, LONGEST_S) as u32) }
}

/// What is known to be missing, and the margin over it. In a check nobody knows what is missing, and a smaller first portion
/// runs out sooner where little was: half a margin, and in a recheck the least (own choice).
pub(crate) fn missing_and_margin(record: &Record) -> Millilitres {
    if let Some(missing) = record.gauge_ml(FILL_STEP_ML).filter(|_| record.needs_more()) {
        return missing;
    }
    if !record.changes() && record.hands.top_ups == 0 && record.short_ml() <= 0.0 {
        // A recheck finds a level that was right some days ago: only the foot of the pipe may be missing.
        let half = if record.which.recheck_of.is_some() { 0.0 } else { record.sheet.fluid.margin_ml / 2.0 };
        return up(half.max(LEAST_PORTION_ML), STEP_ML);
    }
    // Found low, it is a portion at a time; before any look, the margin.
    let looked = record.port.round.as_ref().is_some_and(|r| r.nothing_at_go() || r.gush);
    let fluid = &record.sheet.fluid;
    let over = match looked {
        // It ran, and has only cooled and drained back since: little is missing.
        true if record.port.ran.is_since_the_fill() => fluid.portion_ml().min(LEAST_PORTION_ML),
        true => fluid.portion_ml(),
        false => fluid.margin_ml,
    };
    let all = record.short_ml().max(0.0) + over;
    up(if all > 0.0 { all } else { fluid.portion_ml() }, STEP_ML)
}

/// Through the opening that is looked at: a portion, or what the amounts say is missing where that is more.
fn here(record: &Record) -> Millilitres {
    let fluid = &record.sheet.fluid;
    let short = record.short_ml();
    let missing = if record.changes() && short > fluid.portion_ml() { short + fluid.margin_ml } else { 0.0 };
    up(missing.max(fluid.portion_ml()), FILL_STEP_ML)
}

/// How much an advice is about.
pub(crate) fn amount_of(record: &Record, said: &SeatAdvice) -> Option<Millilitres> {
    let short = record.short_ml();
    let drains = record.ledger.iter().filter(|e| e.kind == Kind::Drained).count();
    let last = usize::try_from(record.sheet.fluid.exchanges).is_ok_and(|wanted| drains >= wanted);
    match said.advice {
        Advice::Fill | Advice::FillFirst | Advice::LetOut if record.amount_only() => {
            let off = record.amount_off().map_or(-record.stated_ml(), |(ml, _)| ml);
            Some(up(off.abs(), FILL_STEP_ML)).filter(|ml| ml.to_f64() > 0.0)
        }
        Advice::AddAmount => record.looks.to_add_ml.map(|ml| up(ml, FILL_STEP_ML)),
        Advice::FillHere => Some(here(record)),
        Advice::Fill if record.has(Kind::Drained) => {
            let margin = if last { record.sheet.fluid.margin_ml } else { 0.0 };
            Some(up((short + margin).max(0.0), FILL_STEP_ML)).filter(|ml| ml.to_f64() > 0.0)
        }
        Advice::FillMore | Advice::FillFirst => Some(missing_and_margin(record)),
        Advice::DrawOut => record.gauge_ml(FILL_STEP_ML),
        Advice::NotDriven | Advice::LetOut => Some(up(short.abs(), STEP_ML)),
        _ => None,
    }
}

fn up(ml: f64, step: f64) -> Millilitres {
    Millilitres::clamped((ml / step).ceil() * step)
}

/// The margin of the sheet in steps that a jug shows.
pub(crate) fn margin(sheet: &Sheet) -> Millilitres {
    up(sheet.fluid.margin_ml, STEP_ML)
}

/// No wait is told that is longer, s.
/// Own choice: a day; it only keeps the number small.
const LONGEST_S: f64 = 86_400.0;
/// A fill is poured to this.
/// Own choice: half of what a usual vessel is read to; finer says more than hands can do.
const FILL_STEP_ML: f64 = 10.0;
/// Smaller portions cost a window each.
/// Own choice: smaller portions cost a window each; larger ones run over.
const LEAST_PORTION_ML: f64 = 200.0;
/// What a jug shows.
/// Source: common practice, no source: what a jug shows.
pub(crate) const STEP_ML: f64 = 50.0;
/// The air of a workshop where nothing tells it.
/// Own choice: a heated workshop; 10 K less would make the forecast wait half as long again, no more.
const USUAL_AIR_C: f64 = 20.0;
/// How fast the band passes where nobody knows.
/// Source: computed: two nodes with typical parameters (fixtures/reference/physics/thermal_window.csv), 0.9 to 1.7
/// K/min; the slow end.
const USUAL_RATE_K_MIN: f64 = 0.9;
/// A slower rate says nothing about the warming to come.
/// Own choice: a degree in five minutes; dividing by less would forecast hours.
const LEAST_RATE_K_MIN: f64 = 0.2;
