//! The level error: how far off the set level is, with its budget.
//!
//! In: the sheet, what was known when the port was closed, how the vehicle stood. Out: [`LevelError`]; positive is
//! too much fluid. Not here: whether it counts as set (`outcome.rs`).
//!
//! | cause | best estimate | standard uncertainty |
//! | --- | --- | --- |
//! | temperature | estimate at closing against mid-band, on the whole fluid | of the estimate; of density, correlation and case; by coolant 4 K and 0.6 of the way from mid-band, 4 K more after a stop |
//! | tilt | measured pitch and roll at the pipe; 0 where only confirmed | 0.2° an axis by inclination, 2 mm a corner by heights, 1.0° confirmed |
//! | warming | a stream that warming keeps above the nominal trickle | half of it |
//! | guess | 0 | each guessed value of the sheet, moved by its own uncertainty (`guess.rs`) |
//! | residual | 0: the film above the rim is common to all; half of a first gush where the stream was closed for a moment | closing at another trickle than the nominal one, and the gush |
//!
//! On a gauge the residual is what it reads off the middle of the chart at its temperature, read to 1 mm, and the temperature leaves
//! no more than its uncertainty along the chart's slope.

use events::{Cause, CausePart, LevelError, Right, Sheet, Shims, Signal};
use fluid::tilt::{Attitude, shims_mm};
use fluid::viscosity::Walther;
use fluid::volume::{SetAt, U_DENSITY_15_DEFAULT, expansion_per_k, set_error_ml, set_error_u_ml};
use fluid::{level, run_out};
use units::{Celsius, Kelvins, Millilitres, Millimetres};

use crate::part::Part;
use crate::port::gauge::Mean;
use crate::record::Record;
use crate::result::guess::{self, Guess};
use crate::told::stand::Stand;
use crate::told::tilt::tilt;

/// By what the level was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum SeenBy {
    Stream,
    /// What was left of a stream that was closed for a moment: what stands in the pipe's foot may have come with it.
    Rest,
    /// Told so far below the edge, where the sheet allows a range.
    BelowEdge {
        told_mm: f64,
        range_mm: [f64; 2],
    },
    /// Read on a gauge.
    Gauge(Mean),
}

impl SeenBy {
    /// The same by the chart and the range of another sheet.
    fn by(self, sheet: &Sheet) -> Option<Self> {
        Some(match self {
            Self::Gauge(mean) => {
                let look = sheet.look.iter().find(|look| look.right == Right::Chart)?;
                let chart = look.chart_at(mean.celsius.to_f64())?;
                Self::Gauge(Mean { chart, ml_per_mm: look.ml_per_mm?, ..mean })
            }
            Self::BelowEdge { told_mm, .. } => {
                let range = sheet.look.last().and_then(|look| look.mm);
                Self::BelowEdge { told_mm, range_mm: range.unwrap_or([0.0, 0.0]) }
            }
            Self::Stream | Self::Rest => self,
        })
    }
}

/// The level error of a port closed at `celsius` known to `u`; `apart` where it is gated on coolant after a stop. `None`
/// where a value of the sheet lies outside what the formulas are good for.
pub(crate) fn error(
    sheet: &Sheet,
    known: Option<(Celsius, Kelvins)>,
    apart: bool,
    warms: Option<Kelvins>,
    stands: Option<Stand>,
    seen: SeenBy,
) -> Option<LevelError> {
    let drawn_up = |sheet: &Sheet| parts(sheet, known, apart, warms, stands, seen.by(sheet)?);
    let mut all = drawn_up(sheet)?;
    let guessed = guess::part(sheet, |moved| Some(together(&drawn_up(moved)?)));
    all.extend(guessed.map(|part| (Cause::Guess, part)));
    of_parts(sheet, all)
}

/// The budget of [`error`] before it is rounded: without what was guessed, and what each guess adds to its variance.
pub(crate) fn spread(
    sheet: &Sheet,
    known: Option<(Celsius, Kelvins)>,
    apart: bool,
    stands: Option<Stand>,
    seen: SeenBy,
) -> Option<(Part, Vec<(&'static Guess, f64)>)> {
    let drawn_up =
        |sheet: &Sheet| Some(together(&parts(sheet, known, apart, None, stands, seen.by(sheet)?)?));
    Some((drawn_up(sheet)?, guess::each(sheet, drawn_up)?))
}

/// The same where the amounts are the result.
pub(crate) fn spread_by_amount(sheet: &Sheet, u_ml: f64) -> Option<(Part, Vec<(&'static Guess, f64)>)> {
    let of = |moved: &Sheet| amount_part(sheet, moved, (0.0, u_ml));
    Some((of(sheet)?, guess::each(sheet, of)?))
}

/// The budget without what was guessed.
fn parts(
    sheet: &Sheet,
    known: Option<(Celsius, Kelvins)>,
    apart: bool,
    warms: Option<Kelvins>,
    stands: Option<Stand>,
    seen: SeenBy,
) -> Option<Vec<(Cause, Part)>> {
    let temperature = match (known, seen) {
        // The chart has it in already; what is left is how well the temperature is known, by its slope.
        (_, SeenBy::Gauge(mean)) => {
            let u_k = mean.u.to_f64().hypot(if apart { APART_K } else { 0.0 });
            Part { ml: 0.0, u_ml: (mean.chart.mm_per_k * mean.ml_per_mm).abs() * u_k }
        }
        (Some((celsius, u)), _) => {
            let restarted = if apart { APART_K } else { 0.0 };
            temperature(sheet, celsius, u, restarted.hypot(beside_k(sheet, celsius)))?
        }
        // Right at any temperature, says the sheet.
        (None, _) => Part {
            ml: 0.0,
            u_ml: temperature(sheet, sheet.check.middle(), Kelvins::clamped(ANY_K), 0.0)?.u_ml,
        },
    };
    let residual = match seen {
        SeenBy::Stream => residual(sheet)?,
        SeenBy::Rest => {
            // Anything between nothing and all of it is missing: half of it, evenly spread (JCGM 100, 4.3.7).
            let (gush, film) = (sheet.gush_ml(), residual(sheet)?);
            Part { ml: film.ml - gush / 2.0, u_ml: film.u_ml.hypot(gush / 12.0_f64.sqrt()) }
        }
        SeenBy::BelowEdge { told_mm, range_mm } => by_height(sheet, told_mm, range_mm),
        SeenBy::Gauge(mean) => Part { ml: -mean.missing_ml(), u_ml: U_READ_MM * mean.ml_per_mm },
    };
    let mut parts = vec![
        (Cause::Temperature, temperature),
        (Cause::Tilt, tilt(sheet, stands)?),
        (Cause::Residual, residual),
    ];
    if let (Some((celsius, _)), SeenBy::Stream | SeenBy::Rest) = (known, seen) {
        parts.extend(warming(sheet, celsius, warms).map(|part| (Cause::Warming, part)));
    }
    Some(parts)
}

/// How far the fluid may be from where the coolant's temperature at closing puts it: an engine that idles fast when cold warms its
/// coolant ahead of the fluid, vehicle by vehicle.
fn beside_k(sheet: &Sheet, celsius: Celsius) -> f64 {
    let off = (celsius.to_f64() - sheet.check.middle().to_f64()).abs();
    if sheet.check.signal == Signal::Coolant { BESIDE_K.hypot(BESIDE_SHARE * off) } else { 0.0 }
}

/// Where the amounts are the result: so much more than the stated amount.
pub(crate) fn by_amount(sheet: &Sheet, off: (f64, f64)) -> Option<LevelError> {
    let plain = amount_part(sheet, sheet, off)?;
    let guessed = guess::part(sheet, |moved| amount_part(sheet, moved, off));
    let guessed = guessed.map(|part| (Cause::Guess, part));
    of_parts(sheet, std::iter::once((Cause::Amount, plain)).chain(guessed).collect())
}

/// So far off the stated amount, if it is the one of `moved`.
fn amount_part(sheet: &Sheet, moved: &Sheet, (ml, u_ml): (f64, f64)) -> Option<Part> {
    // The stated amount is one at some workshop's temperature, nobody says which.
    let beta = expansion_per_k(sheet.check.middle().to_f64(), sheet.fluid.density_15).ok()?;
    let stated = |sheet: &Sheet| sheet.fluid.drain_ml + sheet.fluid.margin_ml;
    let u_ml = u_ml.hypot(stated(sheet) * beta * ANY_K);
    Some(Part { ml: ml - (stated(moved) - stated(sheet)), u_ml })
}

/// The sum of the parts, each independent of the others.
fn together(parts: &[(Cause, Part)]) -> Part {
    let u_ml = parts.iter().map(|(_, p)| p.u_ml * p.u_ml).sum::<f64>().sqrt();
    Part { ml: parts.iter().map(|(_, p)| p.ml).sum(), u_ml }
}

fn of_parts(sheet: &Sheet, parts: Vec<(Cause, Part)>) -> Option<LevelError> {
    let Part { ml, u_ml } = together(&parts);
    Some(LevelError {
        millilitres: Millilitres::clamped(ml),
        expanded_millilitres: Millilitres::clamped((K * u_ml).ceil()),
        millimetres: Millimetres::clamped(level::height_mm(ml, sheet.standpipe.surface_m2).ok()?),
        causes: parts
            .into_iter()
            .map(|(cause, p)| CausePart {
                cause,
                millilitres: Millilitres::clamped(p.ml),
                u_millilitres: Millilitres::clamped(p.u_ml.ceil()),
            })
            .collect(),
    })
}

/// What closing at another temperature than mid-band leaves.
fn temperature(sheet: &Sheet, celsius: Celsius, u: Kelvins, apart_k: f64) -> Option<Part> {
    let set = SetAt {
        total_ml: sheet.fluid.total_ml,
        set_celsius: celsius.to_f64(),
        check_celsius: sheet.check.middle().to_f64(),
        density_15: sheet.fluid.density_15,
    };
    let ml = off_by_temperature_ml(sheet, set.set_celsius - set.check_celsius)?;
    if let Some(per_k) = sheet.fluid.ml_per_k {
        // Known to a third of itself (own choice).
        return Some(Part { ml, u_ml: (per_k.abs() * u.to_f64().hypot(apart_k)).hypot(ml.abs() / 3.0) });
    }
    let per_k = set.total_ml * expansion_per_k(set.set_celsius, set.density_15).ok()?;
    let formula = set_error_u_ml(set, U_DENSITY_15_DEFAULT).ok()?;
    Some(Part { ml, u_ml: (per_k * u.to_f64().hypot(apart_k)).hypot(formula) })
}

/// What closing so many kelvins above mid-band leaves, in mL; positive is too much. By the maker's own slope where the sheet has one
/// (fluid is held back by a thermostat, or let go): it stands in place of the expansion. `None` outside the formulas.
pub fn off_by_temperature_ml(sheet: &Sheet, kelvins: f64) -> Option<f64> {
    if let Some(per_k) = sheet.fluid.ml_per_k {
        return Some(0.0 - per_k * kelvins);
    }
    let middle = sheet.check.middle().to_f64();
    set_error_ml(SetAt {
        total_ml: sheet.fluid.total_ml,
        set_celsius: middle + kelvins,
        check_celsius: middle,
        density_15: sheet.fluid.density_15,
    })
    .ok()
}

/// What to lay under the stands, after it was measured not to stand as the sheet asks; `None` where its wheelbase and track
/// are not in the sheet, and where it is more than anybody should lay under a stand: then the stands are set anew.
pub(crate) fn shims(record: &Record) -> Option<Shims> {
    let own = record.sheet.vehicle.as_ref()?;
    let (pitch, roll) = record.hands.tilted.or(record.level.map(|s| (s.pitch, s.roll)))?;
    let stands = Attitude { pitch_deg: pitch.to_f64(), roll_deg: roll.to_f64() };
    let should = Attitude { pitch_deg: record.sheet.stand.pitch_deg, roll_deg: record.sheet.stand.roll_deg };
    let each = shims_mm(stands, should, own.wheelbase_mm, own.track_mm).ok()?;
    let whole = each.iter().all(|mm| *mm <= MOST_SHIM_MM).then(|| each.map(|mm| mm.round() as u16))?;
    let [front_left, front_right, rear_left, rear_right] = whole;
    Some(Shims { front_left, front_right, rear_left, rear_right })
}

/// What warming while it drips leaves: the growing fluid keeps the stream above the nominal trickle, so more stands
/// above the rim when it is called one. Nothing where it warms too slowly for that, or cools.
fn warming(sheet: &Sheet, celsius: Celsius, warms: Option<Kelvins>) -> Option<Part> {
    let rate = warms?.to_f64().clamp(0.0, MOST_K_MIN);
    let beta = expansion_per_k(celsius.to_f64(), sheet.fluid.density_15).ok()?;
    let inflow = run_out::warming_flow_ml_min(sheet.fluid.total_ml, beta, rate).ok()?;
    if inflow <= run_out::TRICKLE_ML_MIN {
        return None;
    }
    let run_out = pipe(sheet, celsius)?;
    let film = |ml_min| run_out.head_for_flow_mm(ml_min).map(|head| run_out.residual_ml(head)).ok();
    let ml = film(inflow)? - film(run_out::TRICKLE_ML_MIN)?;
    // The rate is known to about a third, the film's law to a factor of two (physics of the run-out).
    Some(Part { ml, u_ml: ml / 2.0 })
}

/// How far the film above the rim may differ from the nominal one: half its spread between a thin stream and drops.
fn residual(sheet: &Sheet) -> Option<Part> {
    let run_out = pipe(sheet, sheet.check.middle())?;
    let film = |ml_min| run_out.head_for_flow_mm(ml_min).map(|head| run_out.residual_ml(head)).ok();
    Some(Part { ml: 0.0, u_ml: (film(STREAM_ML_MIN)? - film(DROPS_ML_MIN)?) / 2.0 })
}

/// What standing elsewhere than in the middle of the sheet's range leaves, by the surface; a rule in a hole is read to 1 mm.
fn by_height(sheet: &Sheet, told_mm: f64, [low, high]: [f64; 2]) -> Part {
    let ml_per_mm = sheet.standpipe.surface_m2 * 1_000.0;
    Part { ml: ((low + high) / 2.0 - told_mm) * ml_per_mm, u_ml: U_READ_MM * ml_per_mm }
}

/// The law of the stream for the fluid as warm as it is.
fn pipe(sheet: &Sheet, celsius: Celsius) -> Option<run_out::RunOut> {
    let pipe = run_out::Standpipe {
        area_m2: sheet.standpipe.surface_m2,
        bore_mm: sheet.standpipe.bore_mm,
        rim_mm: sheet.standpipe.rim_mm,
        length_mm: sheet.standpipe.length_mm,
    };
    let thins = Walther::from_40_and_100(sheet.fluid.mm2_s_40, sheet.fluid.mm2_s_100).ok()?;
    run_out::RunOut::new(pipe, thins.mm2_s(celsius.to_f64()).ok()?).ok()
}

/// So much at the most is laid under a stand.
/// Own choice: a higher pile tips.
const MOST_SHIM_MM: f64 = 50.0;
/// After a stop coolant and fluid come back each at its own pace: so far the fluid may be from where it is at this
/// coolant after a cold start.
/// Own choice: the simulator's six nodes are up to 6 K apart then; as a standard uncertainty two thirds of that.
const APART_K: f64 = 4.0;
/// A coolant says of the fluid no better than this at the middle of its band, K, and beside it by this share of the way.
/// Own choice: the rehearsal's vehicles with their cold idle, whose fluid warms by 0.2 to 1 of what their coolant does.
const BESIDE_K: f64 = 4.0;
const BESIDE_SHARE: f64 = 0.6;
/// Where a look asks for no temperature the fluid is so far from what the maker had in mind.
/// Own choice: from a heated workshop to a yard in spring.
const ANY_K: f64 = 10.0;
/// A rule, or a finger, held into a hole; a gauge in its tube.
/// Own choice: the film that clings hides a millimetre.
const U_READ_MM: f64 = 1.0;
/// Coverage factor of the stated uncertainty: about 95 %.
/// Source: JCGM 100:2008, 6.3.3.
pub(crate) const K: f64 = 2.0;
/// Faster no fluid warms in an idling vehicle.
/// Own choice: two nodes with typical parameters pass the band at 0.9 to 1.7 K/min
/// (fixtures/reference/physics/thermal_window.csv); three times that.
const MOST_K_MIN: f64 = 5.0;
/// What people call a trickle: from a thin stream to a drop each second.
/// Own choice: twice the trickle of `fluid::run_out::TRICKLE_ML_MIN`, the upper end of what people mean.
const STREAM_ML_MIN: f64 = 20.0;
/// One drop of 0.04 mL each second.
/// Source: computed: fixtures/reference/physics/drip_count.csv; the drop's size from memory, 0.02 to 0.06 mL.
const DROPS_ML_MIN: f64 = 2.4;
