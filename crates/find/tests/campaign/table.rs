//! What findings come to: by kind of vehicle, by encoding, by bus; shares with their bounds.

use std::collections::BTreeMap;
use std::fmt;

use rehearsal::identifiers::Form;

use super::{BUSES, Finding, Rank};

/// All findings together.
#[derive(Debug, Default)]
pub struct Table(pub Vec<Finding>);

/// So often the right one comes first at least, %, where it answered. docs/find.md says how far this is from what is wanted.
const FIRST_15: f64 = 70.0;
const FIRST_25: f64 = 85.0;
/// So often the search finds it at least, %.
const ANSWERED: f64 = 88.0;
/// In no larger share of the vehicles a wrong one may be confirmed. None is wanted: docs/find.md says how far that is.
const WRONG: f64 = 0.005;
/// No more of brute force's requests than this, in the middle.
const EFFORT: f64 = 0.1;

#[derive(Debug, Default, Clone, Copy)]
struct Counts {
    all: u32,
    heard: u32,
    of_15: u32,
    first_15: u32,
    measured_15: u32,
    of_25: u32,
    first_25: u32,
    first_measured: u32,
    left: u32,
    confirmed: u32,
    near: u32,
    wrong: u32,
}

impl Counts {
    fn add(&mut self, one: &Finding) {
        let first = |rank: Option<Rank>| u32::from(rank == Some(Rank::First));
        self.all += 1;
        self.heard += u32::from(one.until.is_some());
        self.of_15 += u32::from(one.after_15.is_some());
        self.first_15 += first(one.after_15);
        self.measured_15 += first(one.measured_15);
        self.of_25 += u32::from(one.after_25.is_some());
        self.first_25 += first(one.after_25);
        self.first_measured += u32::from(one.after_25.is_some()) * first(one.measured);
        self.left += u32::from(one.measured == Some(Rank::Left));
        self.confirmed += u32::from(one.confirmed == Some(true));
        self.near += u32::from(one.is_near());
        self.wrong += u32::from(one.is_wrong());
    }

    fn row(&self, name: &str) -> String {
        let share = |part: u32, of: u32| {
            if of == 0 {
                "–".to_owned()
            } else {
                format!("{:.1} %", 100.0 * f64::from(part) / f64::from(of))
            }
        };
        format!(
            "| {name} | {} | {} | {} | {} | {} | {} | {} | {} | {} |",
            self.all,
            share(self.heard, self.all),
            share(self.first_15, self.of_15),
            share(self.measured_15, self.of_15),
            share(self.first_25, self.of_25),
            share(self.first_measured, self.of_25),
            share(self.confirmed, self.all),
            self.near,
            self.wrong
        )
    }
}

const HEAD: &str = "| | vehicles | answered | first after 15 K | and measured | first after 25 K | and measured | confirmed | another, near | wrong confirmed |\n\
                    | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |";

impl Table {
    fn counts(&self, which: impl Fn(&Finding) -> bool) -> Counts {
        let mut counts = Counts::default();
        self.0.iter().filter(|one| which(one)).for_each(|one| counts.add(one));
        counts
    }

    /// The claims that do not hold. Of the vehicles whose identifier answered and lies in a block.
    pub fn broken(&self) -> Vec<String> {
        let counts = self.counts(|one| one.has && one.until.is_some());
        let share = |part: u32, of: u32| 100.0 * f64::from(part) / f64::from(of.max(1));
        let mut broken = Vec::new();
        let mut at_least = |what: &str, got: f64, want: f64| {
            if got < want {
                broken.push(format!("{what}: {got:.1} %, at least {want} % wanted"));
            }
        };
        at_least("first after 15 K, measured", share(counts.measured_15, counts.of_15), FIRST_15);
        at_least("first after 25 K, measured", share(counts.first_measured, counts.of_25), FIRST_25);
        let all = self.counts(|one| one.has && one.form != Form::Alone);
        at_least("answered in the search", share(all.heard, all.all), ANSWERED);
        let (wrong, all) = (self.wrong().count(), self.0.len());
        if wrong as f64 > WRONG * all as f64 {
            broken.push(format!("a wrong one was confirmed in {wrong} of {all} vehicles"));
        }
        for bus in BUSES {
            if let Some(share) = self.effort(bus, true).filter(|share| *share > EFFORT) {
                broken.push(format!("{bus}: {share:.3} of brute force's requests, {EFFORT} wanted"));
            }
        }
        broken
    }

    /// Confirmed, not the fluid, and off by more than a sensor of the fluid may be.
    pub fn wrong(&self) -> impl Iterator<Item = &Finding> {
        self.0.iter().filter(|one| one.is_wrong())
    }

    /// The median of the share of brute force's requests that the search took, by bus.
    pub fn effort(&self, bus: &str, two_bytes: bool) -> Option<f64> {
        let of = |one: &&Finding| one.bus == bus && one.two_bytes == two_bytes && one.brute > 0;
        median(self.0.iter().filter(of).map(|one| f64::from(one.asked) / f64::from(one.brute)).collect())
    }
}

fn median(mut all: Vec<f64>) -> Option<f64> {
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied()
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{HEAD}")?;
        let mut forms: BTreeMap<String, Counts> = BTreeMap::new();
        for one in &self.0 {
            forms.entry(one.form.word().to_owned()).or_default().add(one);
        }
        for (form, counts) in &forms {
            writeln!(f, "{}", counts.row(form))?;
        }
        writeln!(f, "{}", self.counts(|one| one.has).row("all that have it"))?;
        writeln!(f, "{}", self.counts(|one| !one.has).row("all that have it not"))?;
        let confirmed = self.0.iter().filter(|one| one.confirmed.is_some()).count();
        let wrong = self.wrong().count();
        if wrong == 0 {
            writeln!(
                f,
                "\nwrong confirmed: 0 of {confirmed} confirmed, {} vehicles: below {:.2} % of vehicles at 95 % (3/n)",
                self.0.len(),
                300.0 / self.0.len().max(1) as f64
            )?;
        } else {
            writeln!(f, "\nwrong confirmed: {wrong} of {confirmed} confirmed, {} vehicles", self.0.len())?;
        }
        let worst =
            self.0.iter().filter(|one| one.confirmed == Some(true)).map(|one| one.off_k).fold(0.0, f64::max);
        writeln!(f, "the confirmed and right ones were off by at most {worst:.1} K")?;
        writeln!(f, "\n{HEAD}")?;
        let mut codings: BTreeMap<&str, Counts> = BTreeMap::new();
        for one in self.0.iter().filter(|one| one.has) {
            codings.entry(one.coding).or_default().add(one);
        }
        for (coding, counts) in &codings {
            writeln!(f, "{}", counts.row(coding))?;
        }
        writeln!(
            f,
            "\n| bus | units take | vehicles | asked, median | until it answered, median | brute force, median | share, median | minutes, median | brute force, minutes |\n\
             | --- | --- | --- | --- | --- | --- | --- | --- | --- |"
        )?;
        for bus in BUSES {
            for two_bytes in [true, false] {
                let of = || {
                    self.0
                        .iter()
                        .filter(move |one| one.bus == bus && one.two_bytes == two_bytes && one.brute > 0)
                };
                let Some(share) = self.effort(bus, two_bytes) else { continue };
                let mid = |get: &dyn Fn(&Finding) -> f64| median(of().map(get).collect()).unwrap_or_default();
                let until =
                    median(of().filter_map(|one| one.until.map(f64::from)).collect()).unwrap_or_default();
                writeln!(
                    f,
                    "| {bus} | {} | {} | {:.0} | {until:.0} | {:.0} | {:.3} | {:.1} | {:.0} |",
                    if two_bytes { "22" } else { "21 alone" },
                    of().count(),
                    mid(&|one| f64::from(one.asked)),
                    mid(&|one| f64::from(one.brute)),
                    share,
                    mid(&|one| one.search.as_secs_f64() / 60.0),
                    mid(&|one| f64::from(one.brute) * one.each_ms / 60_000.0),
                )?;
            }
        }
        Ok(())
    }
}
