//! Very many checks of vehicles that nobody knows: what the program says of the level beside what it was.
//!
//! In: seeds, sheets, how a program is made for a sheet. Out: [`Checks`], with three claims: the stated interval covers
//! the truth; a right box is not sent for work; none that is low by more than its tolerance and the stated uncertainty
//! is called right.
//! Not here: the claims on `go` (`campaign.rs`).

use core::fmt;

use events::{Drivable, JobResult, Outcome, Sheet};

use super::{of_each, wilson};
use crate::setup::{Keep, Setup};
use crate::stage::{self, Program};

/// What one check said, and what was so.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// Its seed.
    pub seed: u64,
    /// How far the level was off before anybody touched it, mL; positive is too much.
    pub truly_ml: f64,
    /// What was said of it, and its expanded uncertainty, mL; nothing where the check gave no answer.
    pub found_ml: Option<(f64, f64)>,
    /// It was said to be low by more than so much, mL.
    pub low_by_more_ml: Option<f64>,
    /// The sheet's tolerance, mL.
    pub tolerance_ml: f64,
    /// What came of it.
    pub outcome: Option<Outcome>,
    /// What it may do.
    pub drivable: Option<Drivable>,
}

impl Checked {
    fn of<P: Program>(seed: u64, sheets: &[Sheet], program: impl Fn(&Sheet) -> P) -> Self {
        let mut setup = Setup::draw_check(seed, sheets);
        setup.keep = Keep::Nothing;
        let ending = stage::run(&mut program(&setup.sheet), &setup);
        let result = ending.result.as_ref();
        let ml = |of: fn(&JobResult) -> Option<units::Millilitres>| result.and_then(of).map(|ml| ml.to_f64());
        Self {
            seed,
            truly_ml: ending.truth.level_error_before_ml,
            found_ml: ml(|r| r.found_millilitres).zip(ml(|r| r.found_expanded_millilitres)),
            low_by_more_ml: ml(|r| r.low_by_more_than_millilitres),
            tolerance_ml: setup.sheet.check.tolerance_ml,
            outcome: result.map(|r| r.outcome),
            drivable: result.and_then(|r| r.drivable),
        }
    }

    /// Whether what was said holds the truth; nothing where nothing was said.
    pub fn covers(&self) -> Option<bool> {
        self.found_ml.map(|(ml, within)| (self.truly_ml - ml).abs() <= within)
    }

    /// It was right, and is sent for work: said to be off by more than the tolerance for sure, to stay low, or not to
    /// be driven.
    pub fn sent_for_nothing(&self) -> bool {
        let said_off = self.found_ml.is_some_and(|(ml, within)| ml.abs() - within > self.tolerance_ml);
        self.is_right() && (said_off || self.low_by_more_ml.is_some() || self.drivable == Some(Drivable::No))
    }

    /// Low by more than the tolerance and what was stated, and called right.
    pub fn low_called_right(&self) -> bool {
        let called_right = match (self.outcome, self.found_ml) {
            (Some(Outcome::Checked), _) => true,
            (Some(_), Some((ml, within))) => ml.abs() <= within,
            _ => false,
        };
        let within = self.found_ml.map_or(0.0, |(_, within)| within);
        called_right && self.truly_ml < -(self.tolerance_ml + within)
    }

    fn is_right(&self) -> bool {
        self.truly_ml.abs() <= self.tolerance_ml
    }
}

/// All checks, in the order of their seeds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Checks {
    /// One a vehicle.
    pub all: Vec<Checked>,
}

impl Checks {
    /// Runs the seeds `from` to `from + runs - 1` on all the machine's threads. `told` hears how many are done.
    pub fn run<P: Program>(
        from: u64,
        runs: u64,
        sheets: &[Sheet],
        program: impl Fn(&Sheet) -> P + Sync,
        told: impl Fn(u64) + Sync,
    ) -> Self {
        Self { all: of_each(from, runs, |seed| Checked::of(seed, sheets, &program), told) }
    }

    /// Those whose stated interval does not hold the truth, and all that stated one.
    pub fn uncovered(&self) -> (u64, u64) {
        let said = || self.all.iter().filter_map(Checked::covers);
        (said().filter(|covers| !covers).count() as u64, said().count() as u64)
    }

    /// Right boxes that were sent for work, and all right boxes.
    pub fn sent_for_nothing(&self) -> (u64, u64) {
        let right = self.all.iter().filter(|one| one.is_right()).count() as u64;
        (self.all.iter().filter(|one| one.sent_for_nothing()).count() as u64, right)
    }

    /// Low ones that were called right.
    pub fn low_called_right(&self) -> impl Iterator<Item = &Checked> {
        self.all.iter().filter(|one| one.low_called_right())
    }

    /// The claims that do not hold, in words.
    pub fn broken(&self) -> Vec<String> {
        let mut broken = Vec::new();
        let (uncovered, said) = self.uncovered();
        if is_above(uncovered, said) {
            broken.push(format!("{uncovered} of {said} stated intervals do not hold the truth"));
        }
        let (sent, right) = self.sent_for_nothing();
        if is_above(sent, right) {
            let which: Vec<u64> =
                self.all.iter().filter(|one| one.sent_for_nothing()).map(|one| one.seed).collect();
            broken.push(format!("{sent} of {right} right ones were sent for work: seeds {which:?}"));
        }
        broken.extend(self.low_called_right().map(|one| format!("low and called right: {one:?}")));
        broken
    }
}

/// Whether a share is above 5 %; where few were seen, whether it is for sure.
fn is_above(cases: u64, all: u64) -> bool {
    let (surely, _) = wilson(cases, all);
    cases * 20 > all && (all >= ENOUGH || surely > 0.05)
}

/// So many say the share well enough.
/// Own choice: its interval is then ±2 %.
const ENOUGH: u64 = 400;

impl fmt::Display for Checks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = |(cases, all): (u64, u64)| {
            let (low, high) = wilson(cases, all);
            format!("{cases} of {all} ({:.1} to {:.1} %)", 100.0 * low, 100.0 * high)
        };
        let all = self.all.len() as u64;
        let answered = self.all.iter().filter(|one| one.found_ml.is_some() || one.low_by_more_ml.is_some());
        let mut widths: Vec<f64> = self.all.iter().filter_map(|one| Some(one.found_ml?.1)).collect();
        widths.sort_by(f64::total_cmp);
        writeln!(f, "| checks of unknown vehicles | of all, 95 % |")?;
        writeln!(f, "| --- | --- |")?;
        writeln!(f, "| with an answer | {} |", percent((answered.count() as u64, all)))?;
        writeln!(f, "| truth outside the stated interval | {} |", percent(self.uncovered()))?;
        writeln!(f, "| right, and sent for work | {} |", percent(self.sent_for_nothing()))?;
        writeln!(
            f,
            "| low by more than tolerance and U, and called right | {} |",
            self.low_called_right().count()
        )?;
        writeln!(
            f,
            "| stated ±, median | {:.0} mL |",
            widths.get(widths.len() / 2).copied().unwrap_or_default()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(truly_ml: f64, found_ml: Option<(f64, f64)>, outcome: Outcome) -> Checked {
        let drivable = Some(Drivable::Yes);
        Checked {
            seed: 1,
            truly_ml,
            found_ml,
            low_by_more_ml: None,
            tolerance_ml: 100.0,
            outcome: Some(outcome),
            drivable,
        }
    }

    #[test]
    fn each_claim_can_fail() {
        let good = one(-300.0, Some((-280.0, 90.0)), Outcome::Set);
        let wide = one(-300.0, Some((-150.0, 90.0)), Outcome::Set);
        let sent = one(20.0, Some((-240.0, 90.0)), Outcome::Set);
        let low = one(-300.0, Some((-20.0, 90.0)), Outcome::Checked);
        let of = |all: &[&Checked]| Checks { all: all.iter().map(|one| (*one).clone()).collect() };
        assert_eq!(of(&[&good]).broken(), Vec::<String>::new());
        assert!(of(&[&wide; 3]).broken().iter().any(|why| why.contains("do not hold")));
        let few: Vec<&Checked> = std::iter::repeat_n(&good, 10).chain([&wide]).collect();
        assert_eq!(
            of(&few).broken(),
            Vec::<String>::new(),
            "one of eleven does not say more than one of twenty"
        );
        assert!(of(&[&sent; 3]).broken().iter().any(|why| why.contains("sent for work")));
        assert!(of(&[&low]).broken().iter().any(|why| why.contains("called right")));
        // Nothing said is nothing wrong.
        assert_eq!(of(&[&one(-300.0, None, Outcome::NotSet)]).broken(), Vec::<String>::new());
    }
}
