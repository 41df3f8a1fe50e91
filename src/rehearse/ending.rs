//! How a rehearsal ends: the level error that only the simulation knows beside the one the program estimated.

use std::path::Path;

use events::{JobResult, Outcome};
use serde::Serialize;
use units::text::show_millilitres;

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

/// What came of the rehearsal.
#[derive(Debug)]
pub struct Ending {
    /// What the program wrote.
    pub result: Option<JobResult>,
    /// The true level error; positive is too much.
    pub true_millilitres: f64,
    /// How far it was off before anybody touched it, where the job was to find that out.
    pub true_before_millilitres: Option<f64>,
    /// Simulated seconds from start to end.
    pub seconds: f64,
    /// Whether the verdict was ever `go`.
    pub saw_go: bool,
    /// By how much a `go` was wrong, where one was.
    pub wrong_go_k: Option<f64>,
}

/// The last line for programs.
#[derive(Serialize)]
struct Last<'a> {
    kind: &'static str,
    outcome: Outcome,
    simulated_seconds: f64,
    true_millilitres: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    estimated_millilitres: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    expanded_millilitres: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    within: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    true_before_millilitres: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    found_millilitres: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    found_expanded_millilitres: Option<f64>,
    saw_go: bool,
    wrong_go: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    report: Option<&'a Path>,
}

impl Ending {
    /// Tells it, and gives the exit code: 0 only when the level was set right.
    pub fn tell(&self, screen: Screen, kept: bool, report: &Path) -> Result<(), Failure> {
        let outcome = self.result.as_ref().map_or(Outcome::NotSet, |r| r.outcome);
        let level = self.result.as_ref().and_then(|r| r.level_error.as_ref());
        let within = level.map(|l| {
            (l.millilitres.to_f64() - self.true_millilitres).abs() <= l.expanded_millilitres.to_f64()
        });
        let last = Last {
            kind: "ending",
            outcome,
            simulated_seconds: self.seconds.round(),
            true_millilitres: self.true_millilitres.round(),
            estimated_millilitres: level.map(|l| l.millilitres.to_f64()),
            expanded_millilitres: level.map(|l| l.expanded_millilitres.to_f64()),
            within,
            true_before_millilitres: self.true_before_millilitres.map(f64::round),
            found_millilitres: self.found().map(|(ml, _)| ml),
            found_expanded_millilitres: self.found().map(|(_, within)| within),
            saw_go: self.saw_go,
            wrong_go: self.wrong_go_k.is_some(),
            // A path of this machine has no place among lines that are the same on every machine.
            report: None,
        };
        if screen.is_json() {
            screen.json(&last)?;
        } else {
            screen.line(&self.words(outcome, screen))?;
        }
        if kept || !screen.is_json() {
            say(&format!("report: {}", report.display()));
        }
        self.verdict(outcome, within)
    }

    /// What was found of the level before, and its expanded uncertainty, mL.
    fn found(&self) -> Option<(f64, f64)> {
        let result = self.result.as_ref()?;
        Some((result.found_millilitres?.to_f64(), result.found_expanded_millilitres?.to_f64()))
    }

    fn words(&self, outcome: Outcome, screen: Screen) -> String {
        let minutes = self.seconds / 60.0;
        let says = match &self.result {
            Some(result) if self.true_before_millilitres.is_some() => {
                result.headline(words::Lang::En, |ml| show_millilitres(ml, screen.units))
            }
            _ => outcome.says().to_owned(),
        };
        let mut text = format!("\n{says} {minutes:.0} simulated minutes.\n");
        if let Some(before) = self.true_before_millilitres {
            text += &format!("  level before, true       {before:+5.0} mL  (only the simulation knows it)\n");
            text += &match self.found() {
                Some((ml, within)) => {
                    format!("  level before, found      {ml:+5.0} ± {within:.0} mL  (k = 2)\n")
                }
                None => "  level before, found      cannot be told\n".to_owned(),
            };
        }
        text += &format!(
            "  level error, true       {:+5.0} mL  (only the simulation knows it)\n",
            self.true_millilitres
        );
        text += &match self.result.as_ref().and_then(|r| r.level_error.as_ref()) {
            Some(l) => format!(
                "  level error, estimated  {:+5} ± {} mL  (k = 2)",
                l.millilitres, l.expanded_millilitres
            ),
            None => "  level error, estimated  cannot be told".to_owned(),
        };
        text
    }

    fn verdict(&self, outcome: Outcome, within: Option<bool>) -> Result<(), Failure> {
        if let Some(k) = self.wrong_go_k {
            return Err(Failure::new(
                Exit::Software,
                format!("a wrong `go`: the fluid was {k:.1} °C outside the band"),
            ));
        }
        match (outcome, within) {
            (right, Some(true)) if right.is_right() => Ok(()),
            (right, _) if right.is_right() => {
                Err(Failure::new(Exit::Software, "the level is further off than the record says it can be"))
            }
            _ => Err(self.shortfall(outcome)),
        }
    }

    /// What went wrong and what to do, in plain words.
    fn shortfall(&self, outcome: Outcome) -> Failure {
        let Some(result) = &self.result else {
            return Failure::new(Exit::NotSet, "the job ended without a result");
        };
        let mut what = outcome.says().to_owned();
        for shortfall in &result.shortfalls {
            what += &format!("\n  - {}", shortfall.says());
        }
        let open: Vec<&str> = result.open.iter().map(|p| p.remedy()).filter(|r| !r.is_empty()).collect();
        Failure::new(Exit::NotSet, what).try_this(open.join("\n       "))
    }
}
