//! One hypothesis against everything else that its bytes may be: logarithms of likelihoods.
//!
//! In: the values of one field under one encoding, the vehicle's references at the same times, a thermometer's readings. Out: [`Judgement`].
//! Method: for each kind (the fluid, and each look-alike) a prediction of the course and how far it was missed; a Student-like
//! penalty, because what the model leaves out is no noise; at the soak and at each reading of a thermometer a distance in kelvins.
//! The fluid's own law is the plainest there is, first order: heat of its own while the engine runs, exchange with the coolant, loss to the
//! air, all three not negative and fitted (`fit.rs`). Not here: what several hypotheses come to together (`standing.rs`).
//! Numbers: the constants at the end, each with its source; docs/find.md says what they were held against.

mod fit;

use super::LookAlike;
use super::track::Track;
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
    /// Heat and coolant as something sees them that lags behind: not at all, then more and more.
    lags: Vec<Lag>,
    /// Whether it was read at once after the key had been off for long, and again long after that before the start.
    woke: bool,
}

/// The engine's turns, as minutes of a usual idle, and the coolant, behind a lag.
struct Lag {
    turns: Vec<f64>,
    coolant: Vec<f64>,
}

impl Lag {
    fn of(seconds: f64, minutes: &[f64], turns: &[f64], coolant: &[f64]) -> Self {
        Self { turns: behind(seconds, minutes, turns), coolant: behind(seconds, minutes, coolant) }
    }
}

/// A course behind a first order of so many seconds, from rest.
fn behind(seconds: f64, minutes: &[f64], course: &[f64]) -> Vec<f64> {
    let mut last: Option<(f64, f64, f64)> = None;
    let step = |(minute, value): (&f64, &f64)| {
        let behind = match last {
            None => *value,
            Some(_) if seconds <= 0.0 => *value,
            Some((before, was, behind)) => {
                let gone = (minute - before) * 60.0 / seconds;
                behind + (0.5 * (was + value) - behind) * (1.0 - (-gone).exp())
            }
        };
        last = Some((*minute, *value, behind));
        behind
    };
    minutes.iter().zip(course).map(step).collect()
}

/// The tracks of the references.
pub(super) struct References<'a> {
    pub(super) coolant: &'a Track,
    pub(super) intake: &'a Track,
    pub(super) ambient: &'a Track,
    pub(super) oil: &'a Track,
    pub(super) speed: &'a Track,
    pub(super) started_ms: Option<u64>,
    pub(super) soak: Option<f64>,
}

impl Grid {
    /// `None` where the coolant was never read.
    pub(super) fn of(times: &[u64], fresh_ms: Option<u64>, references: &References<'_>) -> Option<Self> {
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
        let minutes: Vec<f64> = times.iter().map(|at| (at - first) as f64 / MINUTE_MS).collect();
        let run: Vec<f64> = times.iter().map(|at| run(*at)).collect();
        // Heat goes with the turns: a cold engine idles fast, and slower as it warms.
        let idled = |at: &u64| references.speed.area(*at).map(|turns| turns / USUAL_RPM);
        let turns = times.iter().map(idled).collect::<Option<Vec<f64>>>().unwrap_or_else(|| run.clone());
        let lags = LAGS_S.iter().map(|seconds| Lag::of(*seconds, &minutes, &turns, &coolant)).collect();
        let last = before.checked_sub(1).and_then(|last| times.get(last));
        let woke = fresh_ms.filter(|at| last.is_some_and(|last| *last >= at + LONG_MS)).is_some();
        Some(Self {
            lags,
            woke,
            minutes,
            run,
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
    /// That two bytes belong together: the logarithm of how improbable it is that they go so smoothly by chance.
    pub(super) word: f64,
    /// Whether it stood still after the key had been off for long.
    pub(super) woke: bool,
    /// What the fluid's law leaves over, K.
    pub(super) rest: f64,
    /// How far it was from the coolant, K.
    pub(super) from_coolant: f64,
}

/// `values`: °C under one encoding whose step is so many kelvins and which takes so many bytes, at the times of `grid`.
pub(super) fn judge(
    (values, fresh): (&[f64], Option<f64>),
    (step_k, bytes): (f64, u8),
    grid: &Grid,
    soak: Option<f64>,
    thermometer: &[Read],
) -> Judgement {
    let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(*v), high.max(*v)));
    if let Some(kind) = at_a_glance(values, high - low, step_k) {
        return Judgement::only(kind);
    }
    let looks = grid.looks();
    let start = start(values, grid.before);
    let risen = values.last().copied().unwrap_or(start) - start;
    let agrees = at_the_thermometer(thermometer, step_k);
    let miss = |rms: f64, width_k: f64| looks * density(rms, width_k.hypot(step_k * STEP), step_k);
    let law = FITTED * risen.abs();
    // What a law with free factors could have given as well.
    let free =
        |share: f64| (1.0 + share * grid.coolant_k.max(0.0) / law.hypot(step_k * STEP).max(LEAST_WIDTH)).ln();
    let drift = drift(values, fresh, grid);
    let against = moved(values, step_k, drift, grid);
    let from_soak = soak.map(|soak| start - soak);
    let level = Level { from_soak, thermometer, step_k };
    let mut rests = grid.lags.iter().map(|lag| fit::fluid(values, start, grid, lag));
    let rest = rests.next().unwrap_or(f64::MAX);
    let warms = |width: f64| miss(rest, width) - free(FLUID_FREE) - 1.0;
    let fluid = level.fluid() + warms(law) - against + share(risen, step_k, grid.coolant_k, FLUID_SHARE);
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
    let word = if bytes == 2 && high - low > WORD_STEPS * step_k && rest < WORD * torn {
        looks * (torn / rest.max(step_k * STEP)).ln()
    } else {
        0.0
    };
    let anything = (WANDERS * (high - low)).max(step_k);
    // A board sees everything behind its own lag; how much is not known.
    let lagging: Vec<f64> =
        core::iter::once(rest).chain(rests).map(|rest| miss(rest, law) - free(FLUID_FREE) - 1.0).collect();
    let board = mean_of(&lagging) + level.board() + share(risen, step_k, grid.coolant_k, FLUID_SHARE);
    let elsewhere = level.elsewhere();
    let rivals = LookAlike::ALL.iter().map(|kind| match kind {
        LookAlike::Coolant => like(Some(&grid.coolant)) + elsewhere,
        LookAlike::Intake => like(grid.intake.as_ref()) + elsewhere,
        LookAlike::Ambient if grid.ambient.is_none() => miss(still, LIKE_K) + level.soaked() + elsewhere,
        LookAlike::Ambient => like(grid.ambient.as_ref()) + elsewhere,
        LookAlike::EngineOil => match &grid.oil {
            Some(oil) => like(Some(oil)) + elsewhere,
            None => {
                mean_of(&lagging) + level.soaked() - against
                    + share(risen, step_k, grid.coolant_k, OIL_SHARE)
                    + level.oil()
            }
        },
        LookAlike::Board => board + woke_as_a_board(drift, step_k),
        LookAlike::Still => miss(still, STILL_K) + elsewhere,
        LookAlike::Engine if jump(values, step_k, grid) > 0.0 => {
            miss(JUMPS_WIDTH_K, JUMPS_WIDTH_K) + elsewhere
        }
        LookAlike::Engine => NEVER,
        // A line that fits as well as the law is one.
        LookAlike::Counter => miss(line, rest) - free(COUNTER_FREE) + elsewhere,
        LookAlike::Other if is_torn => miss(rest, torn) + elsewhere,
        LookAlike::Other => miss(anything, anything) + elsewhere,
    });
    let mut all = [NEVER; KINDS];
    all.iter_mut().zip(rivals).for_each(|(slot, one)| *slot = one);
    let shift = |read: &Read| read.off - from_soak.unwrap_or(0.0);
    let shifted = (thermometer.iter().map(shift).sum::<f64>() / thermometer.len().max(1) as f64).abs();
    let straight = line <= STRAIGHT * rest.max(step_k * STEP);
    Judgement {
        fluid,
        rivals: all,
        spots: agrees,
        from_soak,
        shifted,
        straight,
        word,
        woke: drift.is_some_and(|by| by.abs() <= STANDS_K.max(step_k)),
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
            word: 0.0,
            woke: false,
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

/// A reading of the thermometer: how far the value was above it, with its standard uncertainty, and how far it was itself above what is usual there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Read {
    pub(super) off: f64,
    pub(super) u: f64,
    pub(super) above_usual: f64,
}

/// What is said by the soak and by the thermometer together. Readings of one warm-up are no independent witnesses: what is off by something that stays
/// agrees with all or with none. So each kind has one distance of its own, common to all readings.
struct Level<'a> {
    from_soak: Option<f64>,
    thermometer: &'a [Read],
    step_k: f64,
}

impl Level<'_> {
    fn width(&self, u: f64) -> f64 {
        u.hypot(self.step_k * STEP)
    }

    /// At the soak and at the thermometer off by the same, and by no more than a sensor is.
    fn fluid(&self) -> f64 {
        let soak = self.from_soak.map(|off| (off, self.width(SOAK_K)));
        let spots = self.thermometer.iter().map(|read| (read.off, self.width(read.u.hypot(SUMP_K))));
        common(soak.into_iter().chain(spots), SENSOR_K)
    }

    /// The soak alone, for what is soaked as well.
    fn soaked(&self) -> f64 {
        common(self.from_soak.map(|off| (off, self.width(SOAK_K))).into_iter(), SENSOR_K)
    }

    /// Warmer than what it sits on by something that stays, and behind it while that warms.
    fn board(&self) -> f64 {
        let began = self.from_soak.map_or(0.0, self_warm);
        let from = self.from_soak.unwrap_or(0.0).max(0.0) - BOARD_BEHIND_K;
        let spots = self.thermometer.iter().map(|read| (read.off - from, self.width(read.u.hypot(SUMP_K))));
        began + common(spots, BOARD_SPREAD_K)
    }

    /// The engine's oil is somewhere between the fluid and the coolant.
    fn oil(&self) -> f64 {
        let spots =
            self.thermometer.iter().map(|read| (read.off - OIL_ABOVE_K, self.width(read.u.hypot(SUMP_K))));
        common(spots, OIL_SPREAD_K)
    }

    /// The fluid is somewhere else: then the thermometer shows something usual.
    fn elsewhere(&self) -> f64 {
        let spots = self.thermometer.iter().map(|read| (read.above_usual, read.u.hypot(SUMP_K)));
        common(spots, USUAL_SPREAD_K)
    }
}

/// The logarithm of the density of some distances, each with its own uncertainty and all with one that they share, against even ones over
/// [`EVEN_K`]; Student's, because people may measure at a wrong place.
fn common(all: impl Iterator<Item = (f64, f64)>, shared: f64) -> f64 {
    let (mut count, mut logs, mut weights, mut sum, mut squares) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (off, u) in all {
        let weight = 1.0 / (u * u);
        count += 1.0;
        logs += (0.399 * EVEN_K / u).ln();
        weights += weight;
        sum += off * weight;
        squares += off * off * weight;
    }
    let spread = 1.0 + shared * shared * weights;
    let far = squares - shared * shared * sum * sum / spread;
    logs - 0.5 * spread.ln() - 0.5 * (PEOPLE + count) * (far.max(0.0) / PEOPLE).ln_1p()
}

/// The logarithm of the mean of several likelihoods.
fn mean_of(logs: &[f64]) -> f64 {
    let most = logs.iter().copied().fold(f64::MIN, f64::max);
    let sum: f64 = logs.iter().map(|log| (log - most).exp()).sum();
    most + (sum / logs.len().max(1) as f64).ln()
}

/// What the key says that was off for long: a board begins cold then and warms by itself, at once and with nothing else. The logarithm of how much more
/// that speaks for a board than for the fluid.
fn woke_as_a_board(drift: Option<f64>, step_k: f64) -> f64 {
    let Some(by) = drift else { return 0.0 };
    let u = DRIFT_K.hypot(step_k * STEP);
    let fluid = 0.399 / u * (-0.5 * (by / u).powi(2)).exp();
    let board = if (-u..BOARD_K).contains(&by) { 1.0 / BOARD_K } else { 0.0 };
    (BOARD_STILL + (1.0 - BOARD_STILL) * board / fluid.max(1e-6)).ln().min(MOST_AGAINST)
}

/// By how much it went between the key and the start of the engine; `None` where the key was not off for long.
fn drift(values: &[f64], fresh: Option<f64>, grid: &Grid) -> Option<f64> {
    let from = grid.before.saturating_sub(LAST);
    let last = values.get(from..grid.before).filter(|last| grid.woke && !last.is_empty())?;
    Some(last.iter().sum::<f64>() / last.len() as f64 - fresh?)
}

/// How plausible it is that a board has warmed by so much before the start: evenly up to [`BOARD_K`], less and less outside.
fn self_warm(off: f64) -> f64 {
    let outside = (off - BOARD_K).max(-off).max(0.0);
    (EVEN_K / (BOARD_K + 2.0)).ln() - 0.5 * (outside / SOAK_K).powi(2).min(2.0 * MOST_AGAINST)
}

/// How many readings agree and how many do not.
fn at_the_thermometer(reads: &[Read], step_k: f64) -> (u8, u8) {
    let agrees = |read: &&Read| read.off.abs() <= AGREES * read.u.hypot(SUMP_K).hypot(step_k * STEP);
    let agree = reads.iter().filter(agrees).count();
    (u8::try_from(agree).unwrap_or(u8::MAX), u8::try_from(reads.len() - agree).unwrap_or(u8::MAX))
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
fn moved(values: &[f64], step_k: f64, drift: Option<f64>, grid: &Grid) -> f64 {
    let before = values.get(..grid.before).unwrap_or_default();
    let (low, high) = before.iter().fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(*v), high.max(*v)));
    let apart = (high - low - STANDS_K - step_k).max(0.0);
    let woke = drift.map_or(0.0, |by| (by.abs() - step_k - STANDS_K).max(0.0));
    let drift = apart.max(2.0 * woke);
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

/// How much likelier than elsewhere a field of this unit is the fluid's temperature, or that of a board on the transmission. `usual`: the
/// transmission's usual address answers. Where it is: from memory, own choice.
pub(super) fn of_transmission(place: Place, usual: bool) -> f64 {
    match (place.header.unit(), usual) {
        (Some(TRANSMISSION), _) => 3.0,
        (Some(ENGINE), true) => 0.3,
        (Some(ENGINE), false) => 0.5,
        (_, true) => 0.3,
        (_, false) => 3.0,
    }
}

/// Whether it is in the unit at the transmission's usual address.
pub(super) fn is_usual(place: Place) -> bool {
    place.header.unit() == Some(TRANSMISSION)
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
pub(super) fn expected(kind: LookAlike, place: Place, usual: bool) -> Expected {
    let engine = place.header.unit() == Some(ENGINE);
    match kind {
        LookAlike::Coolant => Expected::InAll(2.0),
        LookAlike::Intake | LookAlike::Ambient => Expected::InAll(1.0),
        LookAlike::EngineOil if engine => Expected::InAll(2.0),
        LookAlike::EngineOil => Expected::InAll(0.3),
        LookAlike::Board => Expected::InAll(0.5 * of_transmission(place, usual).max(0.5)),
        LookAlike::Still => Expected::Share(0.35),
        LookAlike::Engine => Expected::Share(0.25),
        LookAlike::Counter => Expected::Share(0.02),
        LookAlike::Other => Expected::Share(0.3),
    }
}

/// Numbers by which [`Header::unit`] knows the usual two.
const TRANSMISSION: u8 = Header::TRANSMISSION;
const ENGINE: u8 = Header::ENGINE;

/// A usual warm idle, 1/min.
/// Source: docs/rehearsal.md, "Sensors, control units, adapter": common practice, no source.
const USUAL_RPM: f64 = 720.0;
/// Milliseconds in a minute.
/// By definition.
const MINUTE_MS: f64 = 60_000.0;
/// A look that tells something new comes every so often, and more than so many tell nothing new.
/// Own choice: what a law leaves out lasts for minutes and is no noise; more looks would make the score surer than it
/// is right (docs/find.md, "How often it was right").
const MINUTES_A_LOOK: f64 = 1.0;
const LOOKS: f64 = 6.0;
/// Of a step, how far the value lies from what is shown: a standard deviation. Source: an even distribution, 1/√12.
const STEP: f64 = 0.288_675;
/// The soaked fluid against the mean of the references: sensors of ±1 to ±3 °C. Source: thermal parameters, row "sensor_limits", from memory.
const SOAK_K: f64 = 1.1;
/// A control unit's board is so much warmer than what it sits on.
/// Own choice: electronics of a few watts in a closed case, from memory.
const BOARD_K: f64 = 8.0;
/// Where it was at the soak, less so much, it is expected at the thermometer, too, give or take so much.
/// Own choice: it lags, and air moves.
const BOARD_BEHIND_K: f64 = 1.0;
const BOARD_SPREAD_K: f64 = 2.5;
/// So few boards do not warm by themselves in minutes.
/// Own choice: one in ten; more would make every still board the fluid.
const BOARD_STILL: f64 = 0.1;
/// Above the fluid the engine's oil is so much, give or take so much.
/// Own choice: after the ranges of docs/rehearsal.md; from memory.
const OIL_ABOVE_K: f64 = 8.0;
const OIL_SPREAD_K: f64 = 12.0;
/// What is known of the fluid before it is measured: of the coolant's rise [`FLUID_SHARE`], give or take so much.
/// Own choice: a factor of 1.8 of a usual rise.
const USUAL_SPREAD_K: f64 = 12.0;
/// Heat reaches a board behind one of these, s.
/// Own choice: as the fluid's sensor, none; and minutes, as cases and their air.
const LAGS_S: [f64; 4] = [0.0, 60.0, 150.0, 300.0];
/// A sensor is off by so much that stays. Source: row "sensor_limits" of thermal_parameters.csv, from memory: ±1 to ±3 °C at most.
const SENSOR_K: f64 = 0.8;
/// Between two looks of some seconds with nothing warming, a value moves by so much.
/// Own choice: for a noise of ±0.3 K.
const DRIFT_K: f64 = 0.2;
/// So many answers are the last before the start.
/// Own choice: one may be a step's edge; more reach back into what warmed before.
const LAST: usize = 3;
/// The last answer before the start came so long after the first one after the key.
/// Own choice: a board of a few watts has warmed by its first kelvin then.
const LONG_MS: u64 = 100_000;
/// Two bytes that go through so many counts smoothly are one word. Own choice: the low one came round.
const WORD_STEPS: f64 = 320.0;
/// Degrees of freedom: sensors keep within their limits, people may measure at a wrong place.
/// Own choice: tails between a normal error's and none; 4 lets one wrong place in twenty pass.
const SENSORS: f64 = 10.0;
const PEOPLE: f64 = 4.0;
/// The sump's outside against the fluid's sensor.
/// Own choice: a metal pan in still air is 1 to 2 K colder at 40 °C (fixtures/reference/physics/pan_offset.csv), tape
/// corrected for half.
const SUMP_K: f64 = 1.0;
/// It agrees within so many standard uncertainties. Source: JCGM 106, k = 2.
const AGREES: f64 = 2.0;
/// What a value may be before anything is known: even over so many kelvins.
/// Own choice: from winter to hot, half the scale of a byte.
const EVEN_K: f64 = 100.0;
/// What a fitted law leaves out, as a share of the rise; the rest are widths, K.
/// Own choice: tried on the campaign's vehicles (docs/find.md); wider confirms less, narrower confirms boards.
const FITTED: f64 = 0.006;
const LIKE_K: f64 = 0.7;
const LIKE_SHAPE_K: f64 = 0.35;
/// That another law should meet a known course by chance in its shape, too.
/// Own choice: the logarithm of a twentieth.
const LIKE_SURE: f64 = 3.0;
/// Widths of what stands still, of what jumps at the start, and the least of all, K.
/// Own choice: a tenth of a step and more; narrower would take noise of a sensor for a course.
const STILL_K: f64 = 0.2;
const JUMPS_WIDTH_K: f64 = 1.0;
const LEAST_WIDTH: f64 = 0.1;
/// What goes so many times its range to and fro, and half a step at each look beside, does not warm.
/// Own choice: what warms goes its range once, and its display shimmers by half a step.
const RESTLESS: f64 = 5.0;
/// A line fits as well when its rest is no more than so many times the law's.
/// Own choice: a line has two factors fewer; a quarter is what they gain by chance.
const STRAIGHT: f64 = 1.25;
/// A torn word's rest is at least such a share of what an even low byte makes. Own choice: of ten looks none of a hundred words has less.
const WORD: f64 = 0.6;
/// Anything else wanders over so much of its range.
/// Own choice: what is even over its range has 0.29 of it as a standard deviation.
const WANDERS: f64 = 0.25;
/// Of the coolant's rise, how far each law's own factors reach.
/// Own choice: after the ranges of docs/rehearsal.md.
const FLUID_FREE: f64 = 0.4;
const COUNTER_FREE: f64 = 1.0;
/// What warms stands still before the start, but for so much; and jumps no farther at it than this and what the
/// quickest makes in the time.
/// Own choice: noise of a sensor and a step; 10 K a minute is more than any idle makes.
const STANDS_K: f64 = 0.7;
const JUMP_K: f64 = 1.0;
const QUICKEST_K_MIN: f64 = 10.0;
/// Of the coolant's rise, what the fluid's usually is, and how widely that varies (a logarithm); and what the oil's is.
/// Own choice: after the ranges of docs/rehearsal.md; oil from memory.
const FLUID_SHARE: (f64, f64) = (0.55, 0.6);
const OIL_SHARE: (f64, f64) = (0.85, 0.25);
/// What it has of the coolant's rise before anything is known, and from which rise on that counts, K.
/// Own choice: as [`FLUID_SHARE`]; below it a step of the display is more than the share.
pub(super) const USUAL_SHARE: f64 = FLUID_SHARE.0;
const SHARE_FROM_K: f64 = 8.0;
/// No single sign is worth more than this.
/// Own choice: one in a hundred thousand; a law that leaves something out must not settle it alone.
const MOST_AGAINST: f64 = 12.0;
const NEVER: f64 = -60.0;

#[cfg(test)]
mod tests;
