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

/// How many look-alikes there are.
pub(super) const KINDS: usize = LookAlike::ALL.len();

/// What is said for each kind: logarithms, 0 for a kind that is met exactly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Judgement {
    /// For the fluid.
    pub(super) fluid: f64,
    /// For each look-alike, in the order of [`LookAlike::ALL`].
    pub(super) rivals: [f64; KINDS],
    /// How many readings of the thermometer it agrees with, and with how many it does not.
    pub(super) spots: (u8, u8),
    /// How far it stood from the soaked vehicle, K.
    pub(super) from_soak: Option<f64>,
    /// By how much it was off otherwise at the thermometer than at the soak, on average, K.
    pub(super) shifted: f64,
    /// Whether a straight line says as much as the law: then it may be a counter.
    pub(super) straight: bool,
    /// What the fluid's law leaves over, K.
    pub(super) rest: f64,
    /// How far it was from the coolant, K.
    pub(super) from_coolant: f64,
}

/// `values`: °C under one encoding whose step is so many kelvins and which takes so many bytes, at the times of `grid`.
pub(super) fn judge(
    values: &[f64],
    (step_k, bytes): (f64, u8),
    grid: &Grid,
    soak: Option<f64>,
    spots: &[(Spot, f64)],
) -> Judgement {
    let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(*v), high.max(*v)));
    if let Some(kind) = at_a_glance(values, high - low, step_k) {
        return Judgement::only(kind);
    }
    let looks = grid.looks();
    let start = start(values, grid.before);
    let risen = values.last().copied().unwrap_or(start) - start;
    let (agrees, spot) = at_the_thermometer(spots, step_k);
    let miss = |rms: f64, width_k: f64| looks * density(rms, width_k.hypot(step_k * STEP), step_k);
    let law = FITTED * risen.abs();
    // What a law with free factors could have given as well.
    let free =
        |share: f64| (1.0 + share * grid.coolant_k.max(0.0) / law.hypot(step_k * STEP).max(LEAST_WIDTH)).ln();
    let against = moved(values, step_k, grid);
    let soaked = at_the_soak(start, soak, step_k);
    let rest = fit::fluid(values, start, grid);
    let course = miss(rest, law) - free(FLUID_FREE) - 1.0 - against;
    let fluid = soaked + spot + course + share(risen, step_k, grid.coolant_k, FLUID_SHARE);
    // Where another one's course is known, it is known with its shape; only its sensor may be off by something that stays.
    let like = |course: Option<&Vec<f64>>| {
        let Some(course) = course else { return NEVER };
        let gaps = || values.iter().zip(course).map(|(value, other)| value - other);
        let apart = gaps().sum::<f64>() / values.len().max(1) as f64;
        let shape = rms(gaps().map(|gap| gap - apart));
        miss(shape, LIKE_SHAPE_K) + distance(apart, LIKE_K.hypot(step_k * STEP), SENSORS) + LIKE_SURE
    };
    let line = fit::line(values, grid);
    let still = rms(values.iter().map(|value| value - start));
    // A high byte with a low one that is another's wanders about its course by a whole count of the high one, evenly: a word that keeps closer to its
    // course is one.
    let torn = 256.0 * step_k * STEP;
    let is_torn = bytes == 2 && rest > WORD * torn && high - low > 2.0 * 256.0 * step_k;
    let anything = (WANDERS * (high - low)).max(step_k);
    // What is near the fluid agrees with a thermometer, too, if less closely.
    let near = |within_k: f64| f64::from(agrees.0) * (EVEN_K / within_k).ln();
    let rivals = LookAlike::ALL.iter().map(|kind| match kind {
        LookAlike::Coolant => like(Some(&grid.coolant)) + near(NEAR_ENGINE_K),
        LookAlike::Intake => like(grid.intake.as_ref()),
        LookAlike::Ambient if grid.ambient.is_none() => miss(still, LIKE_K) + soaked,
        LookAlike::Ambient => like(grid.ambient.as_ref()),
        LookAlike::EngineOil => match &grid.oil {
            Some(oil) => like(Some(oil)) + near(NEAR_ENGINE_K),
            None => {
                miss(rest, law) + soaked - free(FLUID_FREE) - 1.0 - against
                    + share(risen, step_k, grid.coolant_k, OIL_SHARE)
                    + near(NEAR_ENGINE_K)
            }
        },
        LookAlike::Board => {
            let began = soak.map_or(0.0, |soak| self_warm(start - soak));
            let warmed = share(risen, step_k, grid.coolant_k, FLUID_SHARE);
            miss(rest, law) + began + warmed - free(FLUID_FREE) - 1.0 + near(NEAR_BOARD_K)
        }
        LookAlike::Still => miss(still, STILL_K),
        LookAlike::Engine if jump(values, step_k, grid) > 0.0 => miss(JUMPS_WIDTH_K, JUMPS_WIDTH_K),
        LookAlike::Engine => NEVER,
        // A line that fits as well as the law is one.
        LookAlike::Counter => miss(line, rest) - free(COUNTER_FREE),
        LookAlike::Other if is_torn => miss(rest, torn),
        LookAlike::Other => miss(anything, anything),
    });
    let mut all = [NEVER; KINDS];
    all.iter_mut().zip(rivals).for_each(|(slot, one)| *slot = one);
    let from_soak = soak.map(|soak| start - soak);
    let shift = |(spot, value): &(Spot, f64)| value - spot.celsius - from_soak.unwrap_or(0.0);
    let shifted = (spots.iter().map(shift).sum::<f64>() / spots.len().max(1) as f64).abs();
    let straight = line <= STRAIGHT * rest.max(step_k * STEP);
    Judgement {
        fluid,
        rivals: all,
        spots: agrees,
        from_soak,
        shifted,
        straight,
        rest,
        from_coolant: off(values, &grid.coolant),
    }
}

impl Judgement {
    /// Nothing but this.
    fn only(kind: LookAlike) -> Self {
        let mut rivals = [NEVER; KINDS];
        for (slot, _) in rivals.iter_mut().zip(LookAlike::ALL).filter(|(_, of)| **of == kind) {
            *slot = 0.0;
        }
        Self {
            fluid: NEVER,
            rivals,
            spots: (0, 0),
            from_soak: None,
            shifted: f64::MAX,
            straight: false,
            rest: f64::MAX,
            from_coolant: f64::MAX,
        }
    }
}

/// What needs no fitting: what stands still, and what goes to and fro.
fn at_a_glance(values: &[f64], range: f64, step_k: f64) -> Option<LookAlike> {
    if range <= 1.5 * step_k {
        return Some(LookAlike::Still);
    }
    let way: f64 = values
        .windows(2)
        .map(|two| two.iter().rev().copied().reduce(|a, b| a - b).unwrap_or(0.0).abs())
        .sum();
    let steps = 0.5 * step_k * values.len() as f64;
    (way > RESTLESS * range + steps).then_some(LookAlike::Other)
}

/// What it said before the start.
fn start(values: &[f64], before: usize) -> f64 {
    let first = values.get(..before.max(1)).unwrap_or(values);
    first.iter().sum::<f64>() / first.len().max(1) as f64
}

/// How well the start agrees with the soaked vehicle; 0 where that is not known.
fn at_the_soak(start: f64, soak: Option<f64>, step_k: f64) -> f64 {
    soak.map_or(0.0, |soak| distance(start - soak, SOAK_K.hypot(step_k * STEP), SENSORS))
}

/// How plausible it is that a board has warmed by so much before the start: evenly up to [`BOARD_K`], less and less outside.
fn self_warm(off: f64) -> f64 {
    let outside = (off - BOARD_K).max(-off).max(0.0);
    (EVEN_K / (BOARD_K + 2.0)).ln() - 0.5 * (outside / SOAK_K).powi(2).min(2.0 * MOST_AGAINST)
}

/// How many readings agree and how many do not; and what it comes to.
fn at_the_thermometer(spots: &[(Spot, f64)], step_k: f64) -> ((u8, u8), f64) {
    let (mut agree, mut not, mut sum) = (0_u8, 0_u8, 0.0);
    for (spot, value) in spots {
        let u = spot.u.hypot(SUMP_K).hypot(step_k * STEP);
        let off = value - spot.celsius;
        sum += distance(off, u, PEOPLE);
        if off.abs() <= AGREES * u { agree = agree.saturating_add(1) } else { not = not.saturating_add(1) }
    }
    ((agree, not), sum)
}

/// The logarithm of a Student density at `off` against one that is even over [`EVEN_K`].
fn distance(off: f64, u: f64, freedom: f64) -> f64 {
    (0.39 * EVEN_K / u).ln() - 0.5 * (freedom + 1.0) * ((off / u).powi(2) / freedom).ln_1p()
}

/// How plausible it is that it rose so far while the coolant rose by `coolant_k`.
fn share(risen: f64, step_k: f64, coolant_k: f64, (usual, width): (f64, f64)) -> f64 {
    if coolant_k < SHARE_FROM_K {
        return 0.0;
    }
    let share = ((risen + 0.5 * step_k) / coolant_k).max(1e-3);
    (-0.5 * ((share / usual).ln() / width).powi(2)).max(-MOST_AGAINST) - width.ln()
}

/// What is against anything that warms: that it moved before the start, or at once with it.
fn moved(values: &[f64], step_k: f64, grid: &Grid) -> f64 {
    let before = values.get(..grid.before).unwrap_or_default();
    let (low, high) = before.iter().fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(*v), high.max(*v)));
    let drift = (high - low - STANDS_K - step_k).max(0.0);
    let both = (drift / STANDS_K).powi(2) + (jump(values, step_k, grid) / JUMP_K).powi(2);
    (0.5 * both).min(MOST_AGAINST)
}

/// By how much it went farther at the start than anything that warms, K.
fn jump(values: &[f64], step_k: f64, grid: &Grid) -> f64 {
    let two = |at: usize| Some((*values.get(at)?, *grid.run.get(at)?));
    match (grid.before.checked_sub(1).and_then(two), two(grid.before)) {
        (Some((before, _)), Some((after, run))) => {
            ((after - before).abs() - step_k - JUMP_K - QUICKEST_K_MIN * run).max(0.0)
        }
        _ => 0.0,
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

/// The logarithm of the density of one look that is missed by `rms`, for one count: Student with four degrees of freedom, because what a law
/// leaves out is no noise.
fn density(rms: f64, width: f64, step_k: f64) -> f64 {
    let width = width.max(LEAST_WIDTH * step_k);
    -(width / step_k).ln() - 2.5 * (0.25 * (rms / width).powi(2)).ln_1p()
}

/// How many of `fields` are expected to be the fluid's temperature, with this unit. Where it is and how many look-alikes there are: from memory, own
/// choice.
pub(super) fn of_fluid(place: Place) -> f64 {
    match place.header.unit() {
        Some(TRANSMISSION) => 3.0,
        Some(ENGINE) => 0.5,
        _ => 1.0,
    }
}

/// How a look-alike is expected, before anything is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Expected {
    /// So many in a vehicle; a temperature, so its encoding is one of the table.
    InAll(f64),
    /// Such a share of all fields; its encoding is anything.
    Share(f64),
}

/// How each look-alike is expected with this unit.
pub(super) fn expected(kind: LookAlike, place: Place) -> Expected {
    let engine = place.header.unit() == Some(ENGINE);
    match kind {
        LookAlike::Coolant => Expected::InAll(2.0),
        LookAlike::Intake | LookAlike::Ambient => Expected::InAll(1.0),
        LookAlike::EngineOil if engine => Expected::InAll(2.0),
        LookAlike::EngineOil => Expected::InAll(0.3),
        LookAlike::Board => Expected::InAll(0.5),
        LookAlike::Still => Expected::Share(0.35),
        LookAlike::Engine => Expected::Share(0.25),
        LookAlike::Counter => Expected::Share(0.02),
        LookAlike::Other => Expected::Share(0.3),
    }
}

/// Numbers by which [`Header::unit`] knows the usual two.
const TRANSMISSION: u8 = Header::TRANSMISSION;
const ENGINE: u8 = Header::ENGINE;

const MINUTE_MS: f64 = 60_000.0;
/// A look that tells something new comes every so often, and more than so many tell nothing new. Own choice, for errors that last.
const MINUTES_A_LOOK: f64 = 1.0;
const LOOKS: f64 = 6.0;
/// Of a step, how far the value lies from what is shown: a standard deviation. Source: an even distribution, 1/√12.
const STEP: f64 = 0.288_675;
/// The soaked fluid against the mean of the references: sensors of ±1 to ±3 °C. Source: thermal parameters, row "sensor_limits", from memory.
const SOAK_K: f64 = 1.4;
/// A control unit's board is so much warmer than what it sits on. Own choice.
const BOARD_K: f64 = 8.0;
/// Where they agree with a thermometer on the sump, a board was expected within so much of it, and what the engine warms within so much. Own choice.
const NEAR_BOARD_K: f64 = 12.0;
const NEAR_ENGINE_K: f64 = 30.0;
/// Degrees of freedom: sensors keep within their limits, people may measure at a wrong place. Own choice.
const SENSORS: f64 = 10.0;
const PEOPLE: f64 = 4.0;
/// The sump's outside against the fluid's sensor. Own choice.
const SUMP_K: f64 = 1.0;
/// It agrees within so many standard uncertainties. Source: JCGM 106, k = 2.
const AGREES: f64 = 2.0;
/// What a value may be before anything is known: even over so many kelvins. Own choice.
const EVEN_K: f64 = 100.0;
/// What a fitted law leaves out, as a share of the rise; the rest are widths, K. Own choices.
const FITTED: f64 = 0.006;
const LIKE_K: f64 = 0.7;
const LIKE_SHAPE_K: f64 = 0.35;
/// That another law should meet a known course by chance in its shape, too: the logarithm of a twentieth. Own choice.
const LIKE_SURE: f64 = 3.0;
const STILL_K: f64 = 0.2;
const JUMPS_WIDTH_K: f64 = 1.0;
const LEAST_WIDTH: f64 = 0.1;
/// What goes so many times its range to and fro, and half a step at each look beside, does not warm. Own choice.
const RESTLESS: f64 = 5.0;
/// A line fits as well when its rest is no more than so many times the law's. Own choice.
const STRAIGHT: f64 = 1.25;
/// A torn word's rest is at least such a share of what an even low byte makes. Own choice: of ten looks none of a hundred words has less.
const WORD: f64 = 0.6;
/// Anything else wanders over so much of its range. Own choice.
const WANDERS: f64 = 0.25;
/// Of the coolant's rise, how far each law's own factors reach. Own choice, after the ranges of docs/rehearsal.md.
const FLUID_FREE: f64 = 0.4;
const COUNTER_FREE: f64 = 1.0;
/// What warms stands still before the start, but for so much; and jumps no farther at it than this and what the quickest makes in the time. Own
/// choice: 10 K a minute is more than any idle makes.
const STANDS_K: f64 = 0.7;
const JUMP_K: f64 = 1.0;
const QUICKEST_K_MIN: f64 = 10.0;
/// Of the coolant's rise, what the fluid's usually is, and how widely that varies (a logarithm); and what the oil's is. Own choice, after the ranges of
/// docs/rehearsal.md; oil from memory.
const FLUID_SHARE: (f64, f64) = (0.55, 0.6);
const OIL_SHARE: (f64, f64) = (0.85, 0.25);
const SHARE_FROM_K: f64 = 8.0;
/// No single sign is worth more than this. Own choice.
const MOST_AGAINST: f64 = 12.0;
const NEVER: f64 = -60.0;

#[cfg(test)]
mod tests;
