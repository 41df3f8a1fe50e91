//! What a campaign came to, as text.

use core::fmt;

use events::Signal;

use super::{Campaign, Finding, rule_of_three, wilson};

/// The signals, in the order of the table.
const SIGNALS: [Signal; 5] = [Signal::Fluid, Signal::Coolant, Signal::Spot, Signal::Display, Signal::Lamp];

impl Campaign {
    /// By sheet and by who was there: how many, what could go, what was missed, what was set, how far off in truth.
    pub fn by_procedure(&self) -> String {
        let mut rows: std::collections::BTreeMap<(&str, super::Hands), Vec<&Finding>> =
            std::collections::BTreeMap::new();
        for finding in &self.findings {
            rows.entry((&finding.sheet, finding.hands)).or_default().push(finding);
        }
        let mut text = String::from(
            "| procedure | who | runs | set | `go` possible, missed | true level error of set ones: median, 95 %, largest |\n| --- | --- | --- | --- | --- | --- |\n",
        );
        for ((sheet, hands), of) in rows {
            let count = |is: fn(&Finding) -> bool| of.iter().filter(|finding| is(finding)).count();
            let mut errors: Vec<f64> = of.iter().filter_map(|finding| finding.set_ml).map(f64::abs).collect();
            errors.sort_by(f64::total_cmp);
            let who = match hands {
                super::Hands::Two => "two",
                super::Hands::One => "one",
                super::Hands::NoAdapter => "two, no adapter",
            };
            text += &format!(
                "| {sheet} | {who} | {} | {} ({:.0} %) | {}, {} | {:.0}, {:.0}, {:.0} mL |\n",
                of.len(),
                errors.len(),
                100.0 * errors.len() as f64 / of.len().max(1) as f64,
                count(|finding| finding.possible.is_some()),
                count(|finding| finding.missed.is_some()),
                at_share(&errors, 0.5),
                at_share(&errors, 0.95),
                at_share(&errors, 1.0),
            );
        }
        text
    }
}

impl Campaign {
    /// By what was timed to the band: how many had a `go`, how many a false one, how false. Empty where nothing was.
    pub fn by_trouble(&self) -> String {
        let mut text = String::from(
            "| trouble | runs | with `go` | false `go` | time in `go` | false | at most (seed) |\n| --- | --- | --- | --- | --- | --- | --- |\n",
        );
        for &trouble in crate::timed::Trouble::ALL {
            let findings: Vec<Finding> =
                self.findings.iter().filter(|finding| finding.trouble == Some(trouble)).cloned().collect();
            let runs = findings.len();
            for of in (Self { findings }).by_time() {
                let seed = of.worst_seed.map_or(String::new(), |seed| format!(" ({seed})"));
                text += &format!(
                    "| {trouble} | {runs} | {} | {} | {:.1} h | {:.3} % | {:.2} K{seed} |\n",
                    of.went,
                    of.falsely,
                    of.times.go.as_secs_f64() / 3_600.0,
                    100.0 * of.share_outside(),
                    of.worst_k(),
                );
            }
        }
        text
    }
}

impl fmt::Display for Campaign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (runs, could) = (self.findings.len() as u64, self.could_go());
        let wrong = self.wrong().count() as u64;
        writeln!(f, "{runs} rehearsals, {could} of which could reach `go`")?;
        self.false_acceptances(f)?;
        if wrong == 0 {
            writeln!(
                f,
                "no `go` worse than it stated, and no record: a rate below {:.4} % (95 %, rule of three, of {could})",
                100.0 * rule_of_three(could)
            )?;
        } else {
            let (low, high) = wilson(wrong, could);
            writeln!(
                f,
                "{wrong} with a `go` worse than it stated, or a record: {}",
                share(wrong, could, low, high)
            )?;
        }
        let harmful = self.harmful().count() as u64;
        let (low, high) = wilson(harmful, runs);
        writeln!(f, "{harmful} with an advice that would have harmed: {}", share(harmful, runs, low, high))?;
        let (missed, possible) = self.missed_of_possible();
        let (low, high) = wilson(missed, possible);
        writeln!(f, "{missed} of {possible} possible `go` missed: {}", share(missed, possible, low, high))?;
        writeln!(f)?;
        writeln!(
            f,
            "| signal | runs | `go` possible | reached | missed | u at `go`: mean, largest | set | true level error, set: median, 95 %, largest | beyond tolerance |"
        )?;
        writeln!(f, "| --- | --- | --- | --- | --- | --- | --- | --- | --- |")?;
        for signal in SIGNALS {
            let of: Vec<&Finding> = self.findings.iter().filter(|finding| finding.signal == signal).collect();
            if of.is_empty() && signal.is_read_inside() {
                continue;
            }
            writeln!(f, "{}", row(signal, &of))?;
        }
        writeln!(f)?;
        self.times(f)
    }
}

impl Campaign {
    /// The headline: `go` with the truth outside the band, and `go` withheld.
    fn false_acceptances(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = self.by_time();
        let (falsely, went) = all.iter().fold((0, 0), |(f, w), of| (f + of.falsely, w + of.went));
        if falsely == 0 {
            let most = 100.0 * rule_of_three(went);
            writeln!(f, "no false `go` in {went} runs with one: below {most:.4} % (95 %, rule of three)")?;
        } else {
            let (low, high) = wilson(falsely, went);
            writeln!(
                f,
                "false `go` (the truth outside the band, by however little: JCGM 106) in {falsely} of {went} runs with one: {}",
                share(falsely, went, low, high)
            )?;
        }
        for of in &all {
            writeln!(
                f,
                "{}: {:.3} % of the time in `go` was false, at most {:.2} K; {:.1} % of the time a plain guard band gives was wait",
                of.signal.word(),
                100.0 * of.share_outside(),
                of.worst_k(),
                100.0 * of.false_wait()
            )?;
        }
        Ok(())
    }

    /// By signal: time in `go`, how much of it was false, how much was withheld and why.
    fn times(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(
            f,
            "| signal | could `go`, went | false: runs | time in `go` | false | at most (seed) | plain guard band, all well | false wait | by cause | one `go` a climb |"
        )?;
        writeln!(f, "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |")?;
        for of in self.by_time() {
            let hours = |time: core::time::Duration| time.as_secs_f64() / 3_600.0;
            let causes: Vec<String> = of
                .causes()
                .iter()
                .filter(|(_, share)| *share >= WORTH_NAMING)
                .map(|(why, share)| format!("{why} {:.1}", 100.0 * share))
                .collect();
            let seed = of.worst_seed.map_or(String::new(), |seed| format!(" ({seed})"));
            writeln!(
                f,
                "| {} | {}, {} | {} | {:.1} h | {:.3} % | {:.2} K{seed} | {:.1} h | {:.1} % | {} | {} of {} |",
                of.signal.word(),
                of.could,
                of.went,
                of.falsely,
                hours(of.times.go),
                100.0 * of.share_outside(),
                of.worst_k(),
                hours(of.times.plain),
                100.0 * of.false_wait(),
                causes.join(", "),
                of.times.climbs.once,
                of.times.climbs.all,
            )?;
        }
        Ok(())
    }
}

/// A cause of less than this share is not named.
/// Own choice: rows of less fill the page and move nothing.
const WORTH_NAMING: f64 = 0.000_5;

fn share(cases: u64, all: u64, low: f64, high: f64) -> String {
    format!(
        "{:.2} % ({:.2} to {:.2} %, 95 %, Wilson)",
        100.0 * cases as f64 / all.max(1) as f64,
        100.0 * low,
        100.0 * high
    )
}

fn row(signal: Signal, of: &[&Finding]) -> String {
    let percent = |cases: usize, all: usize| 100.0 * cases as f64 / all.max(1) as f64;
    let count = |is: fn(&Finding) -> bool| of.iter().filter(|finding| is(finding)).count();
    let possible = count(|finding| finding.possible.is_some());
    let reached = count(|finding| finding.u_at_go.is_some());
    let missed = count(|finding| finding.missed.is_some());
    let us: Vec<f64> = of.iter().filter_map(|finding| finding.u_at_go).collect();
    let mean = us.iter().fold(0.0, |sum, u| sum + u) / us.len().max(1) as f64;
    let largest = us.iter().copied().fold(0.0, f64::max);
    let mut errors: Vec<f64> = of.iter().filter_map(|finding| finding.set_ml).map(f64::abs).collect();
    errors.sort_by(f64::total_cmp);
    format!(
        "| {} | {} | {possible} ({:.1} %) | {reached} ({:.1} %) | {missed} ({:.2} % of possible) | {mean:.2}, {largest:.2} K | {} ({:.1} %) | {:.0}, {:.0}, {:.0} mL | {} |",
        signal.word(),
        of.len(),
        percent(possible, of.len()),
        percent(reached, of.len()),
        percent(missed, possible),
        errors.len(),
        percent(errors.len(), of.len()),
        at_share(&errors, 0.5),
        at_share(&errors, 0.95),
        at_share(&errors, 1.0),
        count(|finding| finding.beyond_tolerance),
    )
}

/// The value below which a share of the sorted values lies; 0 where there are none.
fn at_share(sorted: &[f64], share: f64) -> f64 {
    let place = (share * sorted.len() as f64).ceil() as usize;
    sorted.get(place.saturating_sub(1)).copied().unwrap_or(0.0)
}
