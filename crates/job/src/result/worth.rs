//! What each guessed value of a sheet costs in the ± of the level, before any job.
//!
//! In: a sheet. Out: [`Worth`]: the ± of a job in which all goes well, and what it would be if one guess were known. One function that
//! plan, check, result and screens read. Not here: the budget itself (`level.rs`), how well a guess is known (`guess.rs`).
//!
//! The job that is taken for it: closed at mid-band, on a stand that was measured with an inclinometer, with a temperature known as
//! its signal is known at best. A real job is wider where less was known.

use events::{LookEngine, Right, Sheet, Signal};
use units::{Celsius, Degrees, Kelvins};

use crate::part::Part;
use crate::port::gauge::Mean;
use crate::result::guess::Guess;
use crate::result::level::{self, SeenBy};
use crate::told::stand::Stand;

/// What is known of the level at best, and what guesses make of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// The ± of a job with this sheet in which all goes well, in mL (k = 2).
    pub expanded_ml: f64,
    /// The same if nothing were guessed.
    pub known_ml: f64,
    /// Each guessed value that enters, the one that costs most first.
    pub guesses: Vec<Cost>,
}

/// What one guess costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    /// Its key.
    pub key: &'static str,
    /// How well a guess of it is taken to be known, in words.
    pub known_to: &'static str,
    /// The ± if this one were known, in mL.
    pub without_ml: f64,
    /// So much narrower the ± is then, in mL.
    pub costs_ml: f64,
}

impl Worth {
    /// The one value that would help most, where one helps by a millilitre or more.
    pub fn most(&self) -> Option<&Cost> {
        self.guesses.first().filter(|cost| cost.costs_ml >= 1.0)
    }
}

/// What the guesses of a sheet cost; `None` where a value lies outside what the formulas are good for.
pub fn worth(sheet: &Sheet) -> Option<Worth> {
    let (plain, each) = spread(sheet)?;
    let plus_minus = |variance: f64| (level::K * (plain.u_ml * plain.u_ml + variance).sqrt()).ceil();
    let all: f64 = each.iter().map(|(_, variance)| variance).sum();
    let expanded_ml = plus_minus(all);
    let cost = |(guess, variance): &(&'static Guess, f64)| {
        let without_ml = plus_minus((all - variance).max(0.0));
        Cost { key: guess.key, known_to: guess.known_to, without_ml, costs_ml: expanded_ml - without_ml }
    };
    let mut guesses: Vec<Cost> = each.iter().map(cost).collect();
    guesses.sort_by(|a, b| b.costs_ml.total_cmp(&a.costs_ml));
    Some(Worth { expanded_ml, known_ml: plus_minus(0.0), guesses })
}

/// What is known at best after a job in which all goes well, and what each guess adds.
fn spread(sheet: &Sheet) -> Option<(Part, Vec<(&'static Guess, f64)>)> {
    let looks = sheet.looks();
    let look = looks.last()?;
    if look.right == Right::Amount {
        return level::spread_by_amount(sheet, U_VESSELS_ML);
    }
    let (middle, u) = (sheet.check.middle(), Kelvins::clamped(u_k(sheet)));
    let seen = match look.right {
        Right::Chart => {
            let chart = look.chart_at(middle.to_f64())?;
            SeenBy::Gauge(Mean {
                mm: chart.middle_mm(),
                celsius: middle,
                u,
                chart,
                ml_per_mm: look.ml_per_mm?,
            })
        }
        Right::BelowEdge | Right::LowerEdge => {
            let range_mm = look.mm.unwrap_or([0.0, 0.0]);
            SeenBy::BelowEdge { told_mm: f64::midpoint(range_mm[0], range_mm[1]), range_mm }
        }
        _ => SeenBy::Stream,
    };
    let known: Option<(Celsius, Kelvins)> = look.is_gated().then_some((middle, u));
    let level = |deg| Degrees::clamped(deg);
    let stand = Stand::by_inclination(level(sheet.stand.pitch_deg), level(sheet.stand.roll_deg));
    let apart = sheet.check.signal == Signal::Coolant && look.engine != LookEngine::Idle;
    level::spread(sheet, known, apart, Some(stand), seen)
}

// Source: docs/gate.md, the budgets there.
/// What the fluid's temperature is known to at best by a signal in whole degrees, with its age, in K.
pub const U_FLUID_K: f64 = 0.6;
/// The same by a thermometer on tape, and by coolant.
pub const U_BESIDE_K: f64 = 1.2;
/// The same by the vehicle's own display.
pub const U_DISPLAY_K: f64 = 2.0;

/// What the temperature is known to at best, in K. A lamp says no more than its band, evenly spread (JCGM 100, 4.3.7).
fn u_k(sheet: &Sheet) -> f64 {
    match sheet.check.signal {
        Signal::Fluid => U_FLUID_K,
        Signal::Coolant | Signal::Spot => U_BESIDE_K,
        Signal::Display => U_DISPLAY_K,
        Signal::Lamp => (sheet.check.band_c[1] - sheet.check.band_c[0]) / 12.0_f64.sqrt(),
    }
}

/// What the vessels of a drain and a fill are read to together.
/// Own choice: four vessels of 25 mL each, added as squares.
const U_VESSELS_ML: f64 = 50.0;
