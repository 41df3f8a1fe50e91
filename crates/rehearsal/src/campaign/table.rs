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

impl fmt::Display for Campaign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let runs = self.findings.len() as u64;
        let wrong = self.wrong().count() as u64;
        let within = self.findings.iter().filter(|finding| finding.within_guard).count();
        if wrong == 0 {
            writeln!(
                f,
                "{runs} rehearsals, no claim on verdict and record broken: a rate below {:.4} % (95 %, rule of three)",
                100.0 * rule_of_three(runs)
            )?;
        } else {
            let (low, high) = wilson(wrong, runs);
            writeln!(f, "{runs} rehearsals, {wrong} with a broken claim: {}", share(wrong, runs, low, high))?;
        }
        let harmful = self.harmful().count() as u64;
        let (low, high) = wilson(harmful, runs);
        writeln!(f, "{harmful} with an advice that would have harmed: {}", share(harmful, runs, low, high))?;
        writeln!(f, "{within} with a `go` outside the band by less than it stated (k·u)")?;
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
        Ok(())
    }
}

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
