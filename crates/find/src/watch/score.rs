//! One hypothesis against everything else that its bytes may be: logarithms of likelihoods.
//!
//! In: the values of one field under one encoding, the vehicle's references at the same times, a thermometer's readings. Out: [`Judgement`].
//! Method: for each kind (the fluid, and each look-alike) a prediction of the course and how far it was missed; a Student-like
//! penalty, because what the model leaves out is no noise; at the soak and at each reading of a thermometer a distance in kelvins.
//! The fluid's own law is the plainest there is, first order: heat of its own while the engine runs, exchange with the coolant, loss to the
//! air, all three not negative and fitted (`fit.rs`). Not here: what several hypotheses come to together (`standing.rs`).
//! Numbers: the constants at the end, each with its source; docs/find.md says what they were held against.

mod fit;

use super::track::Track;
use super::{LookAlike, Spot};
use crate::place::{Header, Place};

/// The vehicle's references at the times of one place's answers.
pub(super) struct Grid {
    /// Minutes since the first.
    minutes: Vec<f64>,
    /// Minutes that the engine had run.
    run: Vec<f64>,
    coolant: Vec<f64>,
    air: Vec<f64>,
    intake: Option<Vec<f64>>,
    ambient: Option<Vec<f64>>,
    oil: Option<Vec<f64>>,
    /// So many were before the start.
    before: usize,
    /// How far the coolant has risen since the first.
    coolant_k: f64,
}

/// The tracks of the references.
pub(super) struct References<'a> {
    pub(super) coolant: &'a Track,
    pub(super) intake: &'a Track,
    pub(super) ambient: &'a Track,
    pub(super) oil: &'a Track,
    pub(super) started_ms: Option<u64>,
    pub(super) soak: Option<f64>,
}

impl Grid {
    /// `None` where the coolant was never read.
    pub(super) fn of(times: &[u64], references: &References<'_>) -> Option<Self> {
        let first = *times.first()?;
        let along = |track: &Track| times.iter().map(|at| track.at(*at)).collect::<Option<Vec<f64>>>();
        let coolant = along(references.coolant)?;
        let run =
            |at: u64| references.started_ms.map_or(0.0, |from| at.saturating_sub(from) as f64 / MINUTE_MS);
        let (ambient, intake) = (along(references.ambient), along(references.intake));
        let soak = references.soak.or_else(|| references.coolant.at(first)).unwrap_or_default();
        let air = ambient.clone().unwrap_or_else(|| vec![soak; times.len()]);
        let before =
            references.started_ms.map_or(times.len(), |from| times.partition_point(|at| *at <= from));
        Some(Self {
            minutes: times.iter().map(|at| (at - first) as f64 / MINUTE_MS).collect(),
            run: times.iter().map(|at| run(*at)).collect(),
            coolant_k: coolant.last()? - coolant.first()?,
            coolant,
            air,
            intake,
            ambient,
            oil: along(references.oil),
            before,
        })
    }

    /// How many independent looks the samples are worth.
    fn looks(&self) -> f64 {
        (self.minutes.len() as f64)
            .min(1.0 + self.run.last().copied().unwrap_or(0.0) / MINUTES_A_LOOK)
            .min(LOOKS)
    }
}

/// What is said for each kind: logarithms, 0 for a kind that is met exactly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Judgement {
    /// For the fluid.
    pub(super) fluid: f64,
    /// For each look-alike, in the order of [`LookAlike::ALL`].
    pub(super) rivals: [f64; 8],
    /// How many readings of the thermometer it agrees with, and with how many it does not.
    pub(super) spots: (u8, u8),
}

/// `values`: °C under one encoding whose step is `step_k`, at the times of `grid`.
pub(super) fn judge(
    values: &[f64],
    step_k: f64,
    grid: &Grid,
    soak: Option<f64>,
    spots: &[(Spot, f64)],
) -> Judgement {
    let looks = grid.looks();
    let start = start(values, grid.before);
    let (agrees, spot) = at_the_thermometer(spots, step_k);
    let fluid = at_the_soak(start, soak, step_k) + spot + shape(values, start, step_k, grid, looks);
    let like = |course: Option<&Vec<f64>>| {
        course.map_or(NEVER, |course| miss(off(values, course), LIKE_K, step_k, looks))
    };
    let mean = values.iter().sum::<f64>() / values.len().max(1) as f64;
    let still = rms(values.iter().map(|value| value - mean));
    let rivals = LookAlike::ALL.iter().map(|kind| match kind {
        LookAlike::Coolant => like(Some(&grid.coolant)),
        LookAlike::Intake => like(grid.intake.as_ref()),
        LookAlike::Ambient => like(grid.ambient.as_ref()).max(if grid.ambient.is_none() {
            miss(still, LIKE_K, step_k, looks)
        } else {
            NEVER
        }),
        LookAlike::EngineOil => match &grid.oil {
            Some(oil) => like(Some(oil)),
            None => miss(fit::oil(values, grid), OIL_K, step_k, looks),
        },
        LookAlike::Still => miss(still, STILL_K, step_k, looks),
        LookAlike::Engine => {
            if jump(values, grid) > JUMP_K + step_k {
                0.0
            } else {
                NEVER
            }
        }
        LookAlike::Counter => miss(fit::line(values, grid), 0.0, step_k, looks),
        LookAlike::Other => OTHER,
    });
    let mut all = [NEVER; 8];
    all.iter_mut().zip(rivals).for_each(|(slot, one)| *slot = one);
    Judgement { fluid, rivals: all, spots: agrees }
}

/// What it said before the start.
fn start(values: &[f64], before: usize) -> f64 {
    let first = values.get(..before.max(1)).unwrap_or(values);
    first.iter().sum::<f64>() / first.len().max(1) as f64
}

/// How well the start agrees with the soaked vehicle; 0 where that is not known.
fn at_the_soak(start: f64, soak: Option<f64>, step_k: f64) -> f64 {
    soak.map_or(0.0, |soak| distance(start - soak, SOAK_K.hypot(step_k * STEP)))
}

/// How many readings agree and how many do not; and what it comes to.
fn at_the_thermometer(spots: &[(Spot, f64)], step_k: f64) -> ((u8, u8), f64) {
    let (mut agree, mut not, mut sum) = (0_u8, 0_u8, 0.0);
    for (spot, value) in spots {
        let u = spot.u.hypot(SUMP_K).hypot(step_k * STEP);
        let off = value - spot.celsius;
        sum += distance(off, u);
        if off.abs() <= AGREES * u { agree = agree.saturating_add(1) } else { not = not.saturating_add(1) }
    }
    ((agree, not), sum)
}

/// The logarithm of a Student density (four degrees of freedom) at `off` against one that is even over [`EVEN_K`].
fn distance(off: f64, u: f64) -> f64 {
    (0.375 * EVEN_K / u).ln() - 2.5 * (off / u).powi(2).mul_add(0.25, 1.0).ln()
}

/// How well the course is that of the fluid.
fn shape(values: &[f64], start: f64, step_k: f64, grid: &Grid, looks: f64) -> f64 {
    let fitted = miss(fit::fluid(values, grid), FLUID_K, step_k, looks);
    let jumps = (jump(values, grid) - JUMP_K - step_k).max(0.0) / JUMP_K;
    let risen = values.last().copied().unwrap_or(start) - start;
    fitted - (0.5 * jumps * jumps).min(MOST_AGAINST) + share(risen, step_k, grid.coolant_k)
}

/// How plausible it is that it rose so far while the coolant rose by `coolant_k`.
fn share(risen: f64, step_k: f64, coolant_k: f64) -> f64 {
    if coolant_k < SHARE_FROM_K {
        return 0.0;
    }
    let share = ((risen + 0.5 * step_k) / coolant_k).max(1e-3);
    (-0.5 * ((share / SHARE).ln() / SHARE_WIDTH).powi(2)).max(-MOST_AGAINST)
}

/// How far it went within the first seconds after the start.
fn jump(values: &[f64], grid: &Grid) -> f64 {
    let before = grid.before.checked_sub(1).and_then(|at| values.get(at));
    let soon = grid.run.iter().zip(values).skip(grid.before).take_while(|(run, _)| **run <= JUMP_WITHIN_MIN);
    match before {
        Some(before) => soon.map(|(_, value)| (value - before).abs()).fold(0.0, f64::max),
        None => 0.0,
    }
}

/// The distance of a course from another one.
fn off(values: &[f64], course: &[f64]) -> f64 {
    rms(values.iter().zip(course).map(|(value, other)| value - other))
}

fn rms(all: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = all.fold((0.0, 0_u32), |(sum, count), one| (sum + one * one, count + 1));
    (sum / f64::from(count.max(1))).sqrt()
}

/// What a course that is missed by `rms` comes to: the steps of the count are no miss.
fn miss(rms: f64, width_k: f64, step_k: f64, looks: f64) -> f64 {
    let width = width_k.hypot(step_k * STEP);
    -0.5 * looks * (rms / width.max(LEAST_WIDTH)).powi(2).ln_1p()
}

/// How probable it is, before anything is seen, that the fluid's temperature is with this unit and not with any other one.
pub(super) fn unit_weight(place: Place) -> f64 {
    match place.header.unit() {
        Some(TRANSMISSION) => 4.0,
        Some(ENGINE) => 0.7,
        _ => 1.0,
    }
}

/// How common each look-alike is among what can be read, before anything is seen.
pub(super) fn kind_weight(kind: LookAlike, place: Place) -> f64 {
    let engine = place.header.unit() == Some(ENGINE);
    match kind {
        LookAlike::Coolant => 0.06,
        LookAlike::Intake | LookAlike::Ambient => 0.03,
        LookAlike::EngineOil if engine => 0.1,
        LookAlike::EngineOil => 0.02,
        LookAlike::Still => 0.3,
        LookAlike::Engine => 0.2,
        LookAlike::Counter => 0.05,
        LookAlike::Other => 0.3,
    }
}

/// Numbers by which [`Header::unit`] knows the usual two.
const TRANSMISSION: u8 = Header::TRANSMISSION;
const ENGINE: u8 = Header::ENGINE;

const MINUTE_MS: f64 = 60_000.0;
/// A look that tells something new comes every so often, and more than so many tell nothing new. Own choice, for errors that last.
const MINUTES_A_LOOK: f64 = 0.5;
const LOOKS: f64 = 10.0;
/// Of a step, how far the value lies from what is shown: a standard deviation. Source: an even distribution, 1/√12.
const STEP: f64 = 0.288_675;
/// The soaked fluid against the mean of the references: sensors of ±1 to ±3 °C. Source: thermal parameters, row "sensor_limits", from memory.
const SOAK_K: f64 = 2.0;
/// The sump's outside against the fluid's sensor. Own choice.
const SUMP_K: f64 = 1.5;
/// It agrees within so many standard uncertainties. Source: JCGM 106, k = 2.
const AGREES: f64 = 2.0;
/// What a value may be before anything is known: even over so many kelvins. Own choice.
const EVEN_K: f64 = 100.0;
/// Widths of what the predictions leave out, K. Own choices.
const FLUID_K: f64 = 0.8;
const LIKE_K: f64 = 1.2;
const OIL_K: f64 = 1.0;
const STILL_K: f64 = 0.3;
const LEAST_WIDTH: f64 = 0.02;
/// What goes so far within so short a time after the start is not the fluid. Own choice: 10 K a minute is more than any idle makes.
const JUMP_K: f64 = 2.0;
const JUMP_WITHIN_MIN: f64 = 0.25;
/// Of the coolant's rise, what the fluid's usually is, and how widely that varies (a logarithm). Own choice, after the ranges of docs/rehearsal.md.
const SHARE: f64 = 0.5;
const SHARE_WIDTH: f64 = 0.7;
const SHARE_FROM_K: f64 = 8.0;
/// No single sign is worth more than this. Own choice.
const MOST_AGAINST: f64 = 12.0;
/// What anything else than these kinds is worth. Own choice.
const OTHER: f64 = -4.0;
const NEVER: f64 = -30.0;

#[cfg(test)]
mod tests;
