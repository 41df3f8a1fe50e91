//! A campaign: very many drawn rehearsals, what is claimed of each, and what they come to together.
//!
//! ```text
//!   seeds ─► Setup::draw ─► stage::run with the program ─► Finding, one a run ─► Campaign: claims, shares with bounds, a table
//! ```
//!
//! In: seeds, sheets, how a program is made for a sheet. Out: [`Campaign`]. The findings are in the order of their
//! seeds, whatever thread they came from.
//! Claims over all runs: of each signal's time in `go` at most 0.1 % had the truth outside the band, and never by more
//! than 0.5 K (`campaign/claims.rs`). Claims over every run: the verdict is never `go` while the true signal lies outside
//! the band by more than k·u as stated then; no job ends as `set` with a true level error beyond what its record states; no advice would harm
//! whoever obeys it, by who is below and what is in the box in truth (`harm.rs`). And a share: of the runs in which
//! `go` was possible (`observer.rs`), those in which it never came; beside it the time in which it was withheld from a
//! healthy signal (`go_time.rs`). In a second mode all faults of link and vehicle end
//! at a drawn moment, and the signal is read again in time (`liveness.rs`).
//! Bounds at 95 %: none seen in n runs, the rule of three, 3/n (Hanley and Lippman-Hand, JAMA 249, 1983); a share, the
//! interval of Wilson (J. Am. Stat. Assoc. 22, 1927). Both from memory.

mod check;
mod claims;
mod hunt;
mod table;

pub use check::{Checked, Checks};
pub use claims::{ByTime, FARTHEST_K, MOST_OUTSIDE};
pub use hunt::{Found, Whole, hunt};

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use events::{Reason, Sheet, Signal};
use units::Mono;

use crate::go_time::Times;
use crate::setup::{Keep, Setup};
use crate::stage::{self, Ending, FalseGo, Program};
use crate::timed::{Drawn, Trouble};

/// Which rehearsals are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// As they come; faults may last.
    AsDrawn,
    /// All faults of link and vehicle end at a drawn moment: is the signal read again in time?
    FaultsEnd,
    /// Without an adapter, over the sheets that need none.
    ByPeople,
    /// Each with one trouble timed to the band (`timed.rs`), over the sheets that are gated on the fluid.
    Timed,
    /// The same, but only with troubles that the gate is made to see.
    Seen,
    /// As they come, but with sensors that are off by up to so many K.
    Sensors(u8),
    /// By the advice alone: two people, one, and without an adapter, over any procedure.
    ByAdvice,
}

impl Form {
    /// The rehearsal of this seed.
    pub fn draw(self, seed: u64, sheets: &[Sheet]) -> Setup {
        let drawn = Setup::draw(seed, sheets);
        match self {
            Self::AsDrawn => drawn,
            Self::FaultsEnd => drawn.with_faults_that_end(),
            Self::ByPeople => drawn.clone().by_people().unwrap_or(drawn),
            Self::Timed => drawn.with_timed_trouble(Drawn::All),
            Self::Seen => drawn.with_timed_trouble(Drawn::Seen),
            Self::Sensors(within_k) => drawn.with_sensors(f64::from(within_k)),
            Self::ByAdvice => Setup::draw_procedure(seed, sheets),
        }
    }

    fn takes(self, sheet: &Sheet) -> bool {
        match self {
            Self::ByPeople => sheet.by_people().is_some(),
            Self::Timed | Self::Seen => crate::timed::can_strike(sheet.check.signal),
            _ => true,
        }
    }
}

/// Who was there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hands {
    /// One below, one inside.
    Two,
    /// One person alone.
    One,
    /// Two people and no adapter.
    NoAdapter,
}

impl Hands {
    fn of(setup: &Setup) -> Self {
        match (setup.script.people, setup.script.alone) {
            (true, _) => Self::NoAdapter,
            (false, true) => Self::One,
            (false, false) => Self::Two,
        }
    }
}

/// What one rehearsal came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Its seed.
    pub seed: u64,
    /// The sheet's name.
    pub sheet: String,
    /// Who was there.
    pub hands: Hands,
    /// What the sheet gates on.
    pub signal: Signal,
    /// When `go` had been possible for long enough; none: never.
    pub possible: Option<Mono>,
    /// The standard uncertainty at the first `go`, K; none: no `go`.
    pub u_at_go: Option<f64>,
    /// The true level error of a job that ended as set, mL.
    pub set_ml: Option<f64>,
    /// Whether that is beyond the sheet's tolerance.
    pub beyond_tolerance: bool,
    /// What was timed to the band.
    pub trouble: Option<Trouble>,
    /// How long it was `go`, how much of that was false, how long it was withheld.
    pub times: Times,
    /// A claim that did not hold, with its story.
    pub wrong: Option<String>,
    /// A possible `go` that never came, with its story: the cause first.
    pub missed: Option<String>,
    /// An advice that would have harmed whoever obeyed it, with its story.
    pub harmful: Option<String>,
    /// Since when the signal was not read in time though nothing was wrong, with its story.
    pub mute: Option<String>,
}

impl Finding {
    /// Draws the rehearsal of `seed` and runs it.
    pub fn of<P: Program>(seed: u64, sheets: &[Sheet], form: Form, program: impl Fn(&Setup) -> P) -> Self {
        let mut setup = form.draw(seed, sheets);
        setup.keep = Keep::Nothing;
        let ending = stage::run(&mut program(&setup), &setup);
        Self::from(&setup, &ending)
    }

    fn from(setup: &Setup, ending: &Ending) -> Self {
        let set = ending.result.as_ref().is_some_and(|result| result.outcome.is_right());
        let set_ml = set.then_some(ending.truth.level_error_ml);
        let missed = ending.possible.as_ref().filter(|_| ending.first_go.is_none()).map(|possible| {
            let reasons: Vec<&str> = possible.reasons.iter().map(|reason: &Reason| reason.word()).collect();
            format!("{} | at {} | {}", reasons.join(" "), possible.at, who(setup))
        });
        Self {
            seed: setup.seed,
            sheet: setup.sheet.name.clone(),
            hands: Hands::of(setup),
            signal: setup.sheet.check.signal,
            possible: ending.possible.as_ref().map(|possible| possible.at),
            u_at_go: ending.first_go.map(|(_, u)| u.to_f64()),
            set_ml,
            beyond_tolerance: set_ml.is_some_and(|ml| ml.abs() > setup.sheet.check.tolerance_ml),
            trouble: setup.timed.map(|timed| timed.trouble),
            times: ending.times.clone(),
            wrong: wrong(setup, ending),
            missed,
            harmful: ending.harm.as_ref().map(|harm| format!("{harm} | {}", who(setup))),
            mute: ending.mute.map(|since| format!("not read in time from {since} on | {}", who(setup))),
        }
    }
}

impl Finding {
    /// Whether a `go` was possible, or came: in others no claim on it can fail.
    pub const fn could_go(&self) -> bool {
        self.possible.is_some() || self.u_at_go.is_some()
    }
}

fn who(setup: &Setup) -> String {
    let faults: Vec<String> = setup
        .faults
        .iter()
        .map(|fault| format!("{}@{}", fault.kind, fault.from.as_millis() / 1_000))
        .collect();
    let mistake = setup.script.mistake.map_or("no mistake", crate::Mistake::word);
    let timed = setup.timed.map_or(String::new(), |timed| format!(", {timed:?}"));
    let log = if setup.warmup.is_some() { "recorded warm-up" } else { "no recording" };
    format!(
        "{}, {:?}, {mistake}, faults [{}]{timed}, {}, {}, {log}",
        setup.sheet.name,
        Hands::of(setup),
        faults.join(" "),
        setup.firmware.name,
        setup.bus.name
    )
}

/// The claim that does not hold of this ending, if one does not.
fn wrong(setup: &Setup, ending: &Ending) -> Option<String> {
    if let Some(go) = ending.false_go.iter().find(|go: &&FalseGo| go.is_wrong()) {
        return Some(format!("a wrong go at {}: {go:?} | {}", go.at, who(setup)));
    }
    let result = ending.result.as_ref().filter(|result| result.outcome.is_right())?;
    let Some(level) = &result.level_error else {
        return Some(format!("set without a level error | {}", who(setup)));
    };
    let off = (level.millilitres.to_f64() - ending.truth.level_error_ml).abs();
    (off > level.expanded_millilitres.to_f64()).then(|| {
        format!(
            "set at {} ± {} mL, truly {:.0} mL | {}",
            level.millilitres,
            level.expanded_millilitres,
            ending.truth.level_error_ml,
            who(setup)
        )
    })
}

/// All findings of a campaign, in the order of their seeds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Campaign {
    /// One a run.
    pub findings: Vec<Finding>,
}

impl Campaign {
    /// Runs the seeds `from` to `from + runs - 1` on all the machine's threads. `told` hears how many are done.
    pub fn run<P: Program>(
        from: u64,
        runs: u64,
        sheets: &[Sheet],
        form: Form,
        program: impl Fn(&Setup) -> P + Sync,
        told: impl Fn(u64) + Sync,
    ) -> Self {
        let sheets: Vec<Sheet> = sheets.iter().filter(|sheet| form.takes(sheet)).cloned().collect();
        Self { findings: of_each(from, runs, |seed| Finding::of(seed, &sheets, form, &program), told) }
    }

    /// Claims that did not hold, by seed.
    pub fn wrong(&self) -> impl Iterator<Item = (u64, &str)> {
        self.findings.iter().filter_map(|finding| Some((finding.seed, finding.wrong.as_deref()?)))
    }

    /// Each advice that would have harmed, by seed.
    pub fn harmful(&self) -> impl Iterator<Item = (u64, &str)> {
        self.findings.iter().filter_map(|finding| Some((finding.seed, finding.harmful.as_deref()?)))
    }

    /// Each possible `go` that never came, by seed.
    pub fn missed(&self) -> impl Iterator<Item = (u64, &str)> {
        self.findings.iter().filter_map(|finding| Some((finding.seed, finding.missed.as_deref()?)))
    }

    /// Each rehearsal in which the signal was not read in time though nothing was wrong, by seed.
    pub fn mute(&self) -> impl Iterator<Item = (u64, &str)> {
        self.findings.iter().filter_map(|finding| Some((finding.seed, finding.mute.as_deref()?)))
    }

    /// What became of the runs in which `go` was possible: missed ones, and all.
    pub fn missed_of_possible(&self) -> (u64, u64) {
        let possible = self.findings.iter().filter(|finding| finding.possible.is_some()).count();
        (self.missed().count() as u64, possible as u64)
    }
}

/// What `of` makes of each seed, on all the machine's threads, in the order of the seeds.
fn of_each<T: Send>(from: u64, runs: u64, of: impl Fn(u64) -> T + Sync, told: impl Fn(u64) + Sync) -> Vec<T> {
    let (next, done) = (AtomicU64::new(0), AtomicU64::new(0));
    let all = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(2, usize::from) {
            scope.spawn(|| {
                let mut own = Vec::new();
                loop {
                    let place = next.fetch_add(1, Ordering::Relaxed);
                    if place >= runs {
                        break;
                    }
                    own.push((place, of(from + place)));
                    told(done.fetch_add(1, Ordering::Relaxed) + 1);
                }
                all.lock().unwrap_or_else(std::sync::PoisonError::into_inner).extend(own);
            });
        }
    });
    let mut all = all.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    all.sort_by_key(|(place, _)| *place);
    all.into_iter().map(|(_, made)| made).collect()
}

/// The upper bound of a rate of which no case was seen in `runs`, 95 %.
pub fn rule_of_three(runs: u64) -> f64 {
    (3.0 / runs.max(1) as f64).min(1.0)
}

/// The interval of a share of `cases` in `all`, 95 %. Source: Wilson 1927.
pub fn wilson(cases: u64, all: u64) -> (f64, f64) {
    if all == 0 {
        return (0.0, 1.0);
    }
    let (n, p) = (all as f64, cases as f64 / all as f64);
    let z2 = Z_95 * Z_95;
    let middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z_95 / (1.0 + z2 / n) * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    ((middle - half).max(0.0), (middle + half).min(1.0))
}

/// Two-sided 95 % of the normal distribution.
/// By definition.
const Z_95: f64 = 1.959_964;

#[cfg(test)]
mod tests {
    use super::*;

    /// A run of which nothing is said.
    pub(super) fn nothing_said(form: Form) -> Finding {
        let setup = form.draw(1, &[]);
        Finding {
            seed: setup.seed,
            sheet: setup.sheet.name.clone(),
            hands: Hands::of(&setup),
            signal: setup.sheet.check.signal,
            possible: None,
            u_at_go: None,
            set_ml: None,
            beyond_tolerance: false,
            trouble: None,
            times: Times::default(),
            wrong: None,
            missed: None,
            harmful: None,
            mute: None,
        }
    }

    #[test]
    fn the_bounds_are_the_published_ones() {
        assert_eq!(rule_of_three(100_000), 0.000_03);
        // Wilson's interval of 1 in 10 and of 0 in 20, worked by hand: 0.0179 to 0.4042, and 0 to z²/(n + z²) = 0.1611.
        let (low, high) = wilson(1, 10);
        assert!((low - 0.0179).abs() < 5e-5 && (high - 0.4042).abs() < 5e-5, "{low} {high}");
        let (low, high) = wilson(0, 20);
        assert!(low.abs() < 1e-12 && (high - 0.1611).abs() < 5e-5, "{low} {high}");
        assert_eq!(wilson(0, 0), (0.0, 1.0));
    }
}
