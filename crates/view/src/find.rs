//! The search for the fluid's identifier on a screen: one line.
//!
//! In: how the search stands, what may be it. Out: a line. Not here: what can be told for it (`offer.rs`), the search (`find`), the sentences of what to do next (`events`).

use events::{Candidate, FindNext, FindStage, FindView, Snapshot};
use words::{Speech, args};

/// The search as a screen needs it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Finding<'a> {
    find: &'a FindView,
    leads: Option<&'a Candidate>,
    /// A job runs, and what it says goes before.
    in_job: bool,
}

impl<'a> Finding<'a> {
    pub(crate) fn of(known: &'a Snapshot) -> Option<Self> {
        let in_job = known.running().is_some();
        Some(Self { find: known.find.as_ref()?, leads: known.candidates.first(), in_job })
    }

    /// Whether there is still something to do for it.
    pub(crate) fn goes_on(&self) -> bool {
        !matches!(self.find.stage, FindStage::Found | FindStage::NotFound)
    }

    /// What to do next.
    pub(crate) fn next(&self, speech: Speech) -> &'static str {
        if self.in_job && self.find.next.says_in_job().is_none() {
            return "";
        }
        speech.of(self.find.next)
    }

    /// How many may be it, what leads and what to do next.
    pub(crate) fn line(&self, speech: Speech) -> String {
        let place = || self.leads.map(Candidate::place).unwrap_or_default();
        let head = match (self.find.stage, self.find.left) {
            (FindStage::Found, _) => return speech.text("identifier-found").to_owned(),
            (FindStage::NotFound, _) => speech.text("identifier-not-found").to_owned(),
            (FindStage::Search, _) => {
                let asked = (self.find.asked, self.find.asked + self.find.planned);
                let facts = args!(asked = asked.0.to_string(), planned = asked.1.to_string());
                let asked = speech.with("identifiers-asked", &facts);
                let left = self.find.left_seconds.map(|s| minutes(s, speech));
                left.map_or(format!("{asked}."), |left| format!("{asked}, {left}."))
            }
            (FindStage::Stopped, _) => speech.text("identifier-stopped").to_owned(),
            (FindStage::Watch, 1) => speech.with("identifier-is-left", &args!(place = place())),
            (FindStage::Watch, left) => speech.with("identifiers-may-be-it", &args!(left = left)),
        };
        let left = format!("{head} {}", self.next(speech)).trim_end().to_owned();
        match self.leads.and_then(|leads| leads.celsius).filter(|_| self.find.next == FindNext::Confirm) {
            Some(shows) => {
                format!("{left} {}", speech.with("it-shows", &args!(celsius = speech.celsius(shows))))
            }
            None => left,
        }
    }

    /// What leads, where it is to be confirmed.
    pub(crate) fn confirmable(&self) -> Option<&'a Candidate> {
        self.leads.filter(|_| self.find.next == FindNext::Confirm)
    }

    /// Whether a thermometer's reading says something for it now.
    pub(crate) const fn wants_a_thermometer(&self) -> bool {
        matches!(self.find.next, FindNext::Spot | FindNext::Warm | FindNext::Confirm)
    }
}

/// A time to come, as people say it.
fn minutes(seconds: f64, speech: Speech) -> String {
    let (message, count) = match seconds {
        s if s < 90.0 => ("seconds-left", s),
        s => ("minutes-left", s / 60.0),
    };
    speech.with(message, &args!(count = format!("{count:.0}")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::Celsius;

    fn known(stage: FindStage, next: FindNext, left: u32) -> Snapshot {
        let find = FindView {
            stage,
            next,
            left,
            asked: 120,
            planned: 480,
            answered: 14,
            left_seconds: Some(240.0),
            why: None,
        };
        let leads = Candidate {
            service: 0x22,
            id: 0x4D07,
            header: "7E1".to_owned(),
            byte: 0,
            encoding: "a-40".to_owned(),
            score: 0.97,
            celsius: Some(Celsius::clamped(38.0)),
            settles: Some(next),
        };
        Snapshot { find: Some(find), candidates: vec![leads], ..Snapshot::default() }
    }

    #[test]
    fn the_line_says_how_many_are_left_and_what_to_do() {
        use FindNext as N;
        use FindStage as S;
        let cases: &[(S, N, u32, &str, &[&str])] = &[
            (
                S::Search,
                N::Wait,
                3,
                "Identifier: 120 of about 600 asked, about 4\u{202f}min left. Leave the key on and the engine off.",
                &[],
            ),
            (
                S::Watch,
                N::StartEngine,
                12,
                "Identifier: 12 may be it. All out from under it, exhaust hose outside. Then start it, in P.",
                &[],
            ),
            (
                S::Watch,
                N::Spot,
                2,
                "Identifier: 2 may be it. On four stands only, clear of shafts: measure the sump. Enter what it shows.",
                &["spot"],
            ),
            (
                S::Watch,
                N::Confirm,
                1,
                "Identifier: 7E1 22 4D07 is left. Does it show what the thermometer shows? Then confirm it. It shows 38\u{202f}°C.",
                &["candidate", "spot"],
            ),
            (
                S::Stopped,
                N::ChargeBattery,
                3,
                "Identifier: stopped. Charge the battery. The search goes on by itself.",
                &[],
            ),
            (S::NotFound, N::ByThermometer, 0, "Identifier: not found. Set the level by thermometer.", &[]),
            (S::Found, N::Nothing, 1, "Identifier: found.", &[]),
        ];
        for (stage, next, left, want, tells) in cases {
            let known = known(*stage, *next, *left);
            let finding = Finding::of(&known).unwrap();
            let got = finding.line(Speech::default());
            assert_eq!(got.replace("38.0", "38"), *want);
            let confirms = finding.confirmable().map(|_| "candidate");
            let measures = finding.wants_a_thermometer().then_some("spot");
            assert_eq!(confirms.into_iter().chain(measures).collect::<Vec<_>>(), *tells, "{want}");
        }
    }

    /// The job knows who is below and what is open; the search does not.
    #[test]
    fn in_a_job_the_search_moves_nobody() {
        let sheet =
            events::Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let job = events::JobView::new(1, &sheet, events::Utc::from_millis(0), None, events::People::Two);
        for next in FindNext::ALL {
            for stage in FindStage::ALL {
                let mut known = known(*stage, *next, 2);
                known.job = Some(job.clone());
                let line = Finding::of(&known).unwrap().line(Speech::default());
                let silent = !matches!(next, FindNext::Confirm | FindNext::ByThermometer);
                assert!(!silent || !line.contains(next.says()), "{line}");
                assert!(line.starts_with("Identifier: ") && line == line.trim(), "{line}");
            }
        }
    }
}
