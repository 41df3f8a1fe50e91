//! All hypotheses together: how probable each is, which read the same, what would settle most, what came of it.
//!
//! In: a [`Watch`]. Out: [`Judged`]. Method: Bayes over fields; at most one is the fluid, or none of them is. A field's odds are the
//! likelihood of the fluid against the sum over the look-alikes, each weighed by how common it is (`score.rs`); encodings weigh by how often they are
//! met, less sharply than the survey counts. Not here: likelihoods (`score.rs`).

use std::collections::BTreeMap;

use units::{Celsius, Kelvins};

use super::score::{self, Expected, Grid, Judgement, KINDS, Read, References};
use super::{Evidence, Hypothesis, LookAlike, Outcome, Settles, Spot, Standing, Watch, Watched};
use crate::encoding::Encoding;
use crate::place::Place;

/// One hypothesis with its odds.
#[derive(Debug, Clone, Copy)]
struct Row {
    hypothesis: Hypothesis,
    /// Its share of all.
    score: f64,
    last: f64,
    risen: f64,
    spots: (u8, u8),
    or_else: LookAlike,
    judgement: Judgement,
}

/// Everything as it stands.
#[derive(Debug, Clone)]
pub(super) struct Judged {
    /// The likeliest first; those that read the same are one.
    rows: Vec<Row>,
    none: f64,
    by_place: BTreeMap<Place, f64>,
    risen_k: f64,
}

impl Judged {
    /// `everybody`: also what is improbable.
    pub(super) fn of(watch: &Watch, everybody: bool) -> Self {
        let references = References {
            coolant: &watch.coolant,
            intake: &watch.intake,
            ambient: &watch.ambient,
            oil: &watch.oil,
            speed: &watch.speed,
            started_ms: watch.started_ms,
            soak: watch.soak.celsius(),
        };
        let usual = watch.places.iter().any(|watched| score::is_usual(watched.place));
        let each =
            1.0 / watch.places.iter().map(|watched| watched.bytes.length()).sum::<usize>().max(1) as f64;
        let mut rows: Vec<Row> = watch
            .places
            .iter()
            .filter(|watched| everybody || !watched.seldom)
            .flat_map(|watched| fields(watched, &references, &watch.spots, (each, usual)))
            .collect();
        let fair = each * FOUND / (1.0 - FOUND);
        rows.iter_mut()
            .for_each(|row| row.score *= fair * score::of_transmission(row.hypothesis.place, usual));
        let mut by_place = BTreeMap::new();
        for row in &rows {
            *by_place.entry(row.hypothesis.place).or_insert(0.0) += row.score;
        }
        let all = 1.0 + rows.iter().map(|row| row.score).sum::<f64>();
        rows.iter_mut().for_each(|row| row.score /= all);
        Self { rows: merged(rows), none: 1.0 / all, by_place, risen_k: watch.coolant.risen() }
    }

    /// The odds of a place against none at all, whatever the others say.
    pub(super) fn odds_of(&self, place: Place) -> f64 {
        self.by_place.get(&place).copied().unwrap_or_default()
    }

    pub(super) fn standing(&self) -> Vec<Standing> {
        self.rows
            .iter()
            .take(Watch::MOST_STANDING)
            .map(|row| Standing {
                hypothesis: row.hypothesis,
                score: row.score,
                celsius: Celsius::clamped(row.last),
                risen: Kelvins::clamped(row.risen),
                spots_agree: row.spots.0,
                or_else: row.or_else,
            })
            .collect()
    }

    pub(super) fn evidence(&self, hypothesis: Hypothesis) -> Option<Evidence> {
        let row = self.rows.iter().find(|row| row.hypothesis == hypothesis)?;
        let Judgement { fluid, rivals, from_soak, rest, from_coolant, shifted, straight, woke, .. } =
            row.judgement;
        let rivals = LookAlike::ALL.iter().copied().zip(rivals).collect();
        Some(Evidence { fluid, rivals, from_soak, rest, from_coolant, shifted, straight, woke })
    }

    /// Those that are still probable.
    pub(super) fn probable(&self) -> impl Iterator<Item = Hypothesis> {
        self.rows.iter().filter(|row| row.score >= PROBABLE).map(|row| row.hypothesis)
    }

    /// `since_k`: how far the coolant has risen since the last reading of a thermometer; `before`: what is next while the engine stands.
    pub(super) fn settles(&self, since_k: f64, before: Option<Settles>) -> Settles {
        let first = self.rows.first();
        match (before, self.risen_k) {
            (Some(before), _) => before,
            (None, risen) if risen < ENOUGH_K => Settles::Warm,
            _ if first.is_some_and(agrees) => Settles::Confirm,
            _ if self.probable().next().is_none() && self.none > NOT_FOUND && self.risen_k > ALL_K => {
                Settles::Nothing
            }
            _ if since_k < AGAIN_K => Settles::Warm,
            (None, risen) if risen < MEASURE_FROM_K => Settles::Warm,
            _ => Settles::Spot,
        }
    }

    pub(super) fn outcome(&self, confirmed: Option<Hypothesis>) -> Outcome {
        if self.risen_k < ENOUGH_K {
            return Outcome::NotYet;
        }
        let first = self.rows.first();
        if let (Some(said), Some(row)) = (confirmed, first)
            && said == row.hypothesis
            && agrees(row)
        {
            return Outcome::Confirmed(said);
        }
        if self.none >= NOT_FOUND {
            return Outcome::NotFound;
        }
        match self.probable().count() {
            0 => Outcome::NotYet,
            left => Outcome::Left(left as u32),
        }
    }
}

/// What a person may confirm. It is probable enough: more so where the key was not off, for then it may be a board. A thermometer agrees at least
/// twice and never disagrees, the last time so warm that the encoding is the only one; it began where the soaked vehicle was; it is off by the
/// same at both; and it is no straight line, which may be a counter.
fn agrees(row: &Row) -> bool {
    let half = 0.5 * row.hypothesis.encoding.row().scale.abs();
    let began = row.judgement.from_soak.is_some_and(|off| off.abs() <= BEGAN_K + half);
    row.score >= if row.judgement.woke { SURE } else { SURE_WITHOUT_KEY }
        && row.spots.0 >= LEAST_SPOTS
        && row.spots.1 == 0
        && row.risen >= AGREES_FROM_K
        && began
        && !row.judgement.straight
        && row.judgement.shifted <= SHIFTED_K + half
}

/// Every field of one place under every encoding that is near the soak; the score is the odds of its field. `each`: one of all fields.
fn fields(
    watched: &Watched,
    references: &References<'_>,
    spots: &[Spot],
    (each, usual): (f64, bool),
) -> Vec<Row> {
    let answers = watched.bytes.all();
    let times: Vec<u64> = answers.iter().map(|(at, _)| *at).collect();
    let Some(grid) = Grid::of(&times, watched.fresh.first().map(|(at, _)| *at), references)
        .filter(|_| times.len() >= LEAST_ANSWERS)
    else {
        return Vec::new();
    };
    let usual_at = |at: u64| {
        let (soak, coolant) = (references.soak?, references.coolant.at(at)?);
        Some(soak + score::USUAL_SHARE * (coolant - soak))
    };
    let mut rows: Vec<Row> = Vec::new();
    // That the byte and the next are one word.
    let mut words = Vec::new();
    for byte in 0..watched.bytes.length().min(usize::from(u8::MAX)) as u8 {
        let judged: Vec<(Encoding, Vec<f64>, Judgement)> = Encoding::ALL
            .iter()
            .filter_map(|encoding| {
                let first = encoding.celsius(&answers.first()?.1, byte)?;
                if references.soak.is_some_and(|soak| (first - soak).abs() > NEAR_K) {
                    return None;
                }
                let values = values(*encoding, byte, answers)?;
                let possible = values.iter().all(|value| (LOWEST_C..=HIGHEST_C).contains(value));
                if !possible {
                    return None;
                }
                let at = |spot: &Spot| {
                    let above_usual = usual_at(spot.at_ms).map_or(0.0, |usual| spot.celsius - usual);
                    let value = value_at(&times, &values, spot.at_ms)?;
                    Some(Read { off: value - spot.celsius, u: spot.u, above_usual })
                };
                let spots: Vec<Read> = spots.iter().filter_map(at).collect();
                let step = encoding.row().scale.abs();
                let all: Vec<f64> =
                    watched.fresh.iter().filter_map(|(_, bytes)| encoding.celsius(bytes, byte)).collect();
                let fresh = (!all.is_empty()).then(|| all.iter().sum::<f64>() / all.len() as f64);
                let judgement = score::judge(
                    (&values, fresh),
                    (step, encoding.row().bytes),
                    &grid,
                    references.soak,
                    &spots,
                );
                Some((*encoding, values, judgement))
            })
            .collect();
        // One byte and two are not the same data: each has its own look-alikes.
        words.push(judged.iter().map(|(_, _, judgement)| judgement.word).fold(0.0, f64::max));
        let (ones, twos): (Vec<_>, Vec<_>) =
            judged.into_iter().partition(|(encoding, ..)| encoding.row().bytes == 1);
        for of_a_width in [ones, twos] {
            rows.extend(odds(watched.place, byte, &of_a_width, (each, usual)));
        }
    }
    // One byte of a word is a shadow of it.
    for row in rows.iter_mut().filter(|row| row.hypothesis.encoding.row().bytes == 1) {
        let byte = usize::from(row.hypothesis.byte);
        let word = |at: Option<usize>| at.and_then(|at| words.get(at)).copied().unwrap_or_default();
        row.score *= (-word(Some(byte)).max(word(byte.checked_sub(1)))).exp();
    }
    rows
}

/// The odds of each encoding of one field.
fn odds(
    place: Place,
    byte: u8,
    judged: &[(Encoding, Vec<f64>, Judgement)],
    (each, usual): (f64, bool),
) -> Vec<Row> {
    let weight = |encoding: Encoding| encoding.row().often.powf(SURVEY_COUNTS);
    let all: f64 = Encoding::ALL.iter().map(|encoding| weight(*encoding)).sum();
    let mut rivals = [0.0; KINDS];
    for ((slot, kind), at) in rivals.iter_mut().zip(LookAlike::ALL).zip(0..) {
        let of = |judgement: &Judgement| judgement.rivals.get(at).copied().unwrap_or(f64::MIN).exp();
        *slot = match score::expected(*kind, place, usual) {
            Expected::InAll(count) => {
                let weighed =
                    judged.iter().map(|(encoding, _, judgement)| weight(*encoding) / all * of(judgement));
                count * each * weighed.sum::<f64>()
            }
            Expected::Share(share) => {
                share * judged.iter().map(|(_, _, judgement)| of(judgement)).fold(0.0, f64::max)
            }
        };
    }
    let against: f64 = rivals.iter().sum();
    let kinds = rivals.iter().zip(LookAlike::ALL);
    let or_else = kinds.max_by(|a, b| a.0.total_cmp(b.0)).map_or(LookAlike::Other, |(_, kind)| *kind);
    judged
        .iter()
        .map(|(encoding, values, judgement)| {
            let (first, last) = (values.first(), values.last().copied().unwrap_or_default());
            Row {
                hypothesis: Hypothesis { place, byte, encoding: *encoding },
                score: weight(*encoding) / all * judgement.fluid.exp() / against.max(f64::MIN_POSITIVE),
                last,
                risen: last - first.copied().unwrap_or(last),
                spots: judgement.spots,
                or_else,
                judgement: *judgement,
            }
        })
        .collect()
}

fn values(encoding: Encoding, byte: u8, answers: &[(u64, Vec<u8>)]) -> Option<Vec<f64>> {
    answers.iter().map(|(_, bytes)| encoding.celsius(bytes, byte)).collect()
}

/// What it said at a time, between two answers; `None` where none is near.
fn value_at(times: &[u64], values: &[f64], at: u64) -> Option<f64> {
    let after = times.partition_point(|time| *time < at);
    let near = |n: usize| Some((*times.get(n)?, *values.get(n)?));
    let (before, after) = (after.checked_sub(1).and_then(near), near(after));
    match (before, after) {
        (Some((t0, v0)), Some((t1, v1))) if t1 > t0 => {
            Some(v0 + (v1 - v0) * (at - t0) as f64 / (t1 - t0) as f64)
        }
        (Some((time, value)), None) | (None, Some((time, value))) if time.abs_diff(at) <= NEAR_MS => {
            Some(value)
        }
        (_, Some((_, value))) => Some(value),
        _ => None,
    }
}

/// Ranked, and those that read the same joined: the likelier one stands for both.
fn merged(mut rows: Vec<Row>) -> Vec<Row> {
    rows.sort_by(|a, b| b.score.total_cmp(&a.score).then(rank(a).cmp(&rank(b))));
    let mut kept: Vec<Row> = Vec::new();
    for row in rows.into_iter().take(MOST_ROWS) {
        match kept
            .iter_mut()
            .find(|other| same(&other.hypothesis, &row.hypothesis) && (other.last - row.last).abs() <= SAME_K)
        {
            Some(other) => other.score += row.score,
            None => kept.push(row),
        }
    }
    kept.sort_by(|a, b| b.score.total_cmp(&a.score));
    kept
}

/// Of two that are equally probable, which stands for both: with a sign where there are two bytes (below zero it is right, and above it reads
/// the same), then as often as it is met.
fn rank(row: &Row) -> (u8, i64) {
    let of = row.hypothesis.encoding.row();
    let signed = of.bytes == 2 && of.sign == crate::encoding::Sign::Signed;
    (u8::from(!signed), -(of.often * 100.0) as i64)
}

/// Whether both look at the same count by the same scale: one byte, or it with its neighbour.
fn same(a: &Hypothesis, b: &Hypothesis) -> bool {
    if a.place != b.place {
        return false;
    }
    // Degrees for one count of the byte at `at`.
    let slope = |of: &Hypothesis, at: u8| {
        let row = of.encoding.row();
        match (row.bytes, at.checked_sub(of.byte)) {
            (1, Some(0)) | (2, Some(1)) => Some(row.scale),
            (2, Some(0)) => Some(row.scale * 256.0),
            _ => None,
        }
    };
    [a.byte, a.byte.saturating_add(1)]
        .into_iter()
        .filter_map(|at| Some((slope(a, at)?, slope(b, at)?)))
        .any(|(one, other)| (one - other).abs() <= 0.01 * one.abs())
}

/// Before anything is seen: that the fluid's temperature is among what was found.
/// Own choice: makers have it somewhere, and the search misses some (docs/find.md).
const FOUND: f64 = 0.75;
/// By which power a survey's counts weigh. Own choice: what is rare in it is not so rare elsewhere.
const SURVEY_COUNTS: f64 = 0.25;
/// Less probable than this is no longer left.
/// Own choice: one in twenty; nobody is sent to measure for less.
const PROBABLE: f64 = 0.05;
/// As probable as this, a person may confirm it; docs/find.md shows what other bounds come to.
/// Own choice: less confirms look-alikes, more leaves the right ones as "so many".
const SURE: f64 = 0.95;
const SURE_WITHOUT_KEY: f64 = 0.98;
/// So many readings of a thermometer agree at least.
/// Own choice: one may be of another place; docs/find.md says how often two were right.
const LEAST_SPOTS: u8 = 2;
/// As probable as this that it is none, it was not found.
/// Own choice: less, and a warm-up more may still show it.
const NOT_FOUND: f64 = 0.8;
/// Before the coolant has risen so far nothing is said.
/// Own choice: eight steps of a whole degree; before that everything warms alike.
const ENOUGH_K: f64 = 8.0;
/// A thermometer tells most once it has warmed so far, and again after so much more.
/// Own choice: seven times what a thermometer is wrong by; the second one at another place of the course.
const MEASURE_FROM_K: f64 = 15.0;
const AGAIN_K: f64 = 8.0;
/// After this a warm-up has said what it can.
/// Source: computed: the span over which the encodings of fixtures/reference/obd/temp_encodings.csv were compared.
const ALL_K: f64 = 25.0;
/// It has warmed so far before it is confirmed.
/// Source: computed: the span over which the encodings of fixtures/reference/obd/temp_encodings.csv part, less what a
/// thermometer is off.
const AGREES_FROM_K: f64 = 23.0;
/// So far from the soaked vehicle it may begin, and so much less or more may it be off at a thermometer. Own choice: sensors of ±1 K and references of
/// ±1.5 K; a thermometer of ±2 K beside them.
const BEGAN_K: f64 = 2.0;
const SHIFTED_K: f64 = 1.75;
/// As in the search. Own choice: four standard deviations.
const NEAR_K: f64 = 8.0;
/// No fluid and no sensor of one goes beyond.
/// Own choice: the scale of SAE J1979 begins at -40 °C; fluid does not survive 180 °C (from memory).
const LOWEST_C: f64 = -45.0;
const HIGHEST_C: f64 = 180.0;
/// So many answers are the least.
/// Own choice: as many as the law has factors; with fewer it meets anything.
const LEAST_ANSWERS: usize = 4;
/// An answer so near to a thermometer's reading stands beside it.
/// Own choice: at 1.7 K/min less than what a thermometer is wrong by.
const NEAR_MS: u64 = 60_000;
/// Those that read within this of each other by the same scale read the same.
/// Own choice: a high byte alone is up to one count lower, and a tenth for rounding.
const SAME_K: f64 = 1.1;
/// So many are looked at for those that read the same.
/// Own choice: the comparison grows with the square; beyond this none is probable.
const MOST_ROWS: usize = 512;
