//! The score of the forecast on recorded warm-ups: error, coverage, interval score, windows promised too long.

use std::collections::BTreeSet;

use gate::learned::{DEGREES, Learned};

use super::figures::{interval_score, mean, quantile};
use super::recording::{self, Recording};
use super::{baseline, climbs, fit, table};

/// Which figures the gate under test has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fitted {
    /// For each day those fitted on all other days.
    OnOtherDays,
    /// Those built in.
    BuiltIn,
}

/// One climb to `to`, as each forecaster saw it at its foot.
pub struct Case {
    /// The recording.
    pub name: String,
    /// °C.
    pub to: f64,
    /// Seconds.
    pub truth: f64,
    /// Low, median, high of the gate; none where it promised nothing.
    pub gate: Option<[f64; 3]>,
    /// Straight line, exponential approach, table.
    pub baselines: [Option<f64>; 3],
    /// At each row of the climb: whether the truth lay in the interval that was given there.
    pub along: Vec<bool>,
    /// The window, seen at its opening.
    pub window: Option<Window>,
}

/// How long a band was promised to stay, and how long it did, s.
#[derive(Debug, Clone, Copy)]
pub struct Window {
    /// The promise: low end and median of when the gate will have to close.
    pub promised: [f64; 2],
    /// Until the gate had to: it accepts a band of whole degrees to a degree below its upper edge.
    until_closed: f64,
    /// Until the recorded value was beyond the band.
    until_left: Option<f64>,
}

/// What is scored against a recording: the gate's figures, and the plain table that it is to beat.
struct Taught {
    learned: Learned,
    plain: [f64; DEGREES],
}

/// Every climb of these recordings, as each forecaster saw it.
pub fn cases(recordings: &[Recording], fitted: Fitted) -> Result<Vec<Case>, String> {
    let mut cases = Vec::new();
    for day in days(recordings) {
        let taught = taught(recordings, day, fitted)?;
        let own = recordings.iter().filter(|r| r.day == *day);
        let targets = || TARGETS.iter().flat_map(|group| group.iter());
        cases.extend(own.flat_map(|recording| targets().filter_map(|to| case(recording, *to, &taught))));
    }
    Ok(cases)
}

fn days(recordings: &[Recording]) -> BTreeSet<&str> {
    recordings.iter().map(|r| r.day.as_str()).collect()
}

/// Prints the tables.
pub fn score(recordings: &[Recording], fitted: Fitted) -> Result<(), String> {
    let cases = cases(recordings, fitted)?;
    println!(
        "{} recordings of {} days; {}",
        recordings.len(),
        days(recordings).len(),
        match fitted {
            Fitted::OnOtherDays => "fitted on all days but one, scored on that one",
            Fitted::BuiltIn => "with the figures that are built in",
        }
    );
    for targets in TARGETS {
        table::group(&cases.iter().filter(|c| targets.contains(&c.to)).collect::<Vec<_>>(), targets);
    }
    table::by_log(&cases);
    table::worst(&cases);
    Ok(())
}

fn taught(recordings: &[Recording], day: &str, fitted: Fitted) -> Result<Taught, String> {
    match fitted {
        Fitted::BuiltIn => {
            let all = recording::read(&climbs())?;
            Ok(Taught { learned: Learned::FITTED, plain: fit::plain_table(&all.iter().collect::<Vec<_>>()) })
        }
        Fitted::OnOtherDays => {
            let others: Vec<&Recording> = recordings.iter().filter(|r| r.day != day).collect();
            Ok(Taught { learned: fit::fit(&others), plain: fit::plain_table(&others) })
        }
    }
}

fn case(recording: &Recording, to: f64, taught: &Taught) -> Option<Case> {
    let foot = recording.reaches(to - CLIMB)?;
    let truth = recording.takes(foot, to).filter(|&s| s > 0.0)?;
    let opens = recording.reaches(to)?;
    let (mut gate, mut along, mut promise) = (None, Vec::new(), None);
    let ends = recording.rows.get(opens)?.t;
    recording.replay([to, to + CLIMB], &taught.learned, |row, at, seen| {
        if (foot..opens).contains(&row)
            && let Some(i) = seen.band_ahead(at.at()).opens_in
        {
            along.push((i.low..=i.high).contains(&(ends - at.t)));
            if row == foot {
                gate = Some([i.low, i.median, i.high]);
            }
        }
        if row == opens {
            promise = seen.band_ahead(at.at()).closes_in.map(|i| [i.low, i.median]);
        }
    });
    let until_left = recording.takes(opens, to + CLIMB + 1.0);
    let window = promise
        .zip(recording.takes(opens, to + CLIMB - 1.0))
        .map(|(promised, until_closed)| Window { promised, until_closed, until_left });
    let from = recording.rows.get(foot)?.coolant;
    Some(Case {
        name: recording.name.clone(),
        to,
        truth,
        gate,
        baselines: [
            baseline::line(recording, foot, to),
            baseline::approach(recording, foot, to),
            baseline::table(&taught.plain, from, to),
        ],
        along,
        window,
    })
}

impl Window {
    /// How long the gate could stay open.
    pub fn closed(&self) -> Option<f64> {
        Some(self.until_closed)
    }

    /// How long the recorded value stayed in the band; none where the recording ends before.
    pub fn left(&self) -> Option<f64> {
        self.until_left
    }
}

impl Case {
    /// The day of its recording.
    pub fn day(&self) -> &str {
        self.name.get(..10).unwrap_or(&self.name)
    }

    /// The gate's error, s.
    pub fn error(&self) -> Option<f64> {
        self.gate.map(|[_, median, _]| median - self.truth)
    }

    /// Whether the truth lay in the gate's interval.
    pub fn covered(&self) -> Option<bool> {
        self.gate.map(|[low, _, high]| (low..=high).contains(&self.truth))
    }
}

/// Error and interval score of one forecaster over cases; those without a forecast are counted apart.
pub struct Summary {
    /// Median of the error's size, s.
    pub median: f64,
    /// Its 90th percentile, s.
    pub p90: f64,
    /// Share without a forecast.
    pub none: f64,
}

/// Sums up the errors of one forecaster.
pub fn summary(errors: &[Option<f64>]) -> Summary {
    let sizes: Vec<f64> = errors.iter().flatten().map(|e| e.abs()).collect();
    let none = (errors.len() - sizes.len()) as f64 / errors.len().max(1) as f64;
    Summary { median: quantile(&sizes, 0.5), p90: quantile(&sizes, 0.9), none }
}

/// The interval score of a point forecaster whose interval is its point times the 10th and 90th percentile of how its
/// truths lay, with the case's own recording left out.
pub fn point_interval_score(cases: &[&Case], which: usize) -> f64 {
    let point = |case: &Case| case.baselines.get(which).copied().flatten();
    let scores: Vec<f64> = cases
        .iter()
        .filter_map(|case| {
            let others: Vec<f64> = cases
                .iter()
                .filter(|other| other.name != case.name)
                .filter_map(|other| point(other).map(|p| other.truth / p))
                .collect();
            let p = point(case)?;
            Some(interval_score(p * quantile(&others, 0.1), p * quantile(&others, 0.9), case.truth, ALPHA))
        })
        .collect();
    mean(&scores)
}

/// One minus the coverage.
pub const ALPHA: f64 = 0.2;
/// The climbs that are scored, °C at their top.
pub const TARGETS: [&[f64]; 2] = [&[35.0, 40.0, 45.0], &[60.0, 70.0, 80.0]];
const CLIMB: f64 = 10.0;
