//! The report of `probe`: for people short sentences, verb first, and one closing line; for programs one JSON object.
//!
//! In: what was found. Out: lines. Not here: the decision in the closing line (`worth.rs`), what to try (`advice.rs`).

use std::collections::BTreeMap;

use adapter::{Latency, LinkError, Opener as _, Port, WrongRate};
use events::{Measure, Trouble};
use serde::Serialize;
use units::text::{UnitSystem, show_celsius};

use super::advice::{self, Lack};
use super::look::{Found, Vehicle};
use super::worth::{self, Judgement, Lost, Worth};
use crate::failure::Failure;
use crate::screen::Screen;

/// What was found out about one adapter.
#[derive(Debug, Serialize)]
pub struct Report {
    worth: Worth,
    because: String,
    device: String,
    /// What was asked as often as the line allows.
    asked: String,
    readings: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    readings_per_second: Option<f64>,
    still_reading: bool,
    /// The latest value of each control unit that answers.
    latest: Vec<Latest>,
    requests: u64,
    lost: Lost,
    lost_share: f64,
    longest_hole_seconds: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    trouble: Option<Told>,
    #[serde(skip_serializing_if = "Option::is_none")]
    claims: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tested: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    description: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    family: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    protocol: Option<String>,
    control_units: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    volts: Option<f64>,
    /// What it cannot do for the job, and what to do about it.
    advice: Vec<Lack>,
    quirks: Vec<Named>,
    /// The rate of the wire in bit/s, where it has one that was found by trying.
    #[serde(skip_serializing_if = "Option::is_none")]
    baud: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    raised_to_baud: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    chip_waits_ms: Option<u32>,
    counts: BTreeMap<&'static str, u64>,
    last_on_the_link: Vec<String>,
}

/// One value and who sent it.
#[derive(Debug, Serialize)]
struct Latest {
    name: &'static str,
    value: f64,
    unit: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    #[serde(skip)]
    measure: Measure,
}

/// What stood in the way.
#[derive(Debug, Serialize)]
struct Told {
    #[serde(skip_serializing_if = "Option::is_none")]
    trouble: Option<Trouble>,
    says: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    detail: Option<String>,
    instead: String,
}

#[derive(Debug, Serialize)]
struct Named {
    quirk: &'static str,
    says: &'static str,
}

/// How much the report tells a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// What decides.
    Short,
    /// Also what a report of a fault has to quote.
    Details,
}

impl Report {
    /// From what was found. `found_rate`: the rate of the wire, where it was found by trying.
    pub fn new(port: &Port, found_rate: Option<u32>, asked: String, found: &Found) -> Self {
        let chip = match port.device() {
            adapter::Device::Serial { path, .. } => adapter::latency(path),
            _ => None,
        };
        let Judgement { worth, because } = worth::judge(&found.findings);
        let (findings, counts) = (found.findings, found.counts);
        let Vehicle { protocol, control_units } = found.vehicle.clone().unwrap_or_default();
        let tenths = |value: f64| (value * 10.0).round() / 10.0;
        Self {
            worth,
            because,
            device: port.describe(),
            asked,
            readings: findings.readings,
            readings_per_second: (findings.readings > 0).then_some(tenths(findings.per_second)),
            still_reading: findings.still_reading,
            latest: found.latest.iter().map(|(from, measure)| Latest::new(from, *measure)).collect(),
            requests: findings.requests,
            lost: findings.lost,
            lost_share: (findings.lost_share() * 1_000.0).round() / 1_000.0,
            longest_hole_seconds: tenths(findings.hole.as_secs_f64()),
            trouble: findings.trouble.map(|trouble| Told {
                trouble: Some(trouble),
                says: trouble.says().to_owned(),
                detail: found.detail.clone(),
                instead: advice::about(trouble).to_owned(),
            }),
            claims: found.claims.clone(),
            tested: found.tested.clone(),
            description: found.description.clone(),
            family: found.family.clone(),
            protocol: Some(protocol).filter(|name| !name.is_empty()),
            control_units,
            volts: found.millivolts.map(|millivolts| f64::from(millivolts) / 1_000.0),
            advice: advice::lacks(&found.quirks, chip),
            quirks: found.quirks.iter().map(|q| Named { quirk: q.word(), says: q.says() }).collect(),
            baud: found_rate,
            raised_to_baud: found.raised,
            chip_waits_ms: chip.map(|chip| match chip {
                Latency::Fixed(millis) => millis,
                Latency::Short => 1,
            }),
            counts: BTreeMap::from([
                ("sent", counts.sent),
                ("replies", counts.replies),
                ("surplus", counts.surplus),
                ("timed-out", counts.timed_out),
                ("resyncs", counts.resyncs),
                ("resets", findings.resets),
                ("supply-dips", findings.dips),
                ("cuts", findings.cuts),
                ("first-characters-lost", findings.first_lost),
                ("nul-bytes", counts.nuls),
                ("noise-bytes", counts.noise),
                ("dropped-bytes", counts.dropped),
            ]),
            last_on_the_link: found.last.clone(),
        }
    }

    /// For a port that could not be opened, or that no rate made sense of.
    pub fn unopened(port: &Port, asked: String, why: &LinkError) -> Self {
        if let LinkError::NoRate { heard, .. } = why {
            let (trouble, heard) = at_no_rate(*heard);
            let findings = worth::Findings { trouble: Some(trouble), heard, ..worth::Findings::default() };
            return Self::new(port, None, asked, &Found { findings, ..Found::default() });
        }
        let told = Told {
            trouble: None,
            says: format!("{}.", capital(&why.to_string())),
            detail: None,
            instead: format!("{}.", why.remedy().trim_end_matches('.')),
        };
        Self {
            worth: Worth::CannotTell,
            because: "the port could not be opened, which says nothing of the adapter".to_owned(),
            trouble: Some(told),
            ..Self::new(port, None, asked, &Found::default())
        }
    }

    /// Whether the gating signal was read, and still was at the end.
    pub const fn reads(&self) -> bool {
        self.readings > 0 && self.still_reading
    }

    /// The closing line.
    pub fn closing(&self) -> String {
        format!("{}: {}", self.worth.says(), self.because)
    }
}

impl Latest {
    fn new(from: &str, measure: Measure) -> Self {
        let (value, unit) = measure.plain();
        let name = measure.quantity().word();
        Self { name, value, unit, from: Some(from.to_owned()).filter(|from| !from.is_empty()), measure }
    }

    /// `38 °C from 7E9`.
    fn says(&self, units: UnitSystem) -> String {
        let value = match self.measure.celsius() {
            // A whole number is shown as one: what sends it knows no tenths.
            Some(celsius) => show_celsius(celsius, units).replacen(".0\u{202f}", "\u{202f}", 1),
            None => format!("{} {}", self.value, self.unit),
        };
        match &self.from {
            Some(from) => format!("{value} from {from}"),
            None => format!("{value}, sender not named"),
        }
    }
}

/// What was heard at all the rates that were tried, and whether that was anything.
const fn at_no_rate(heard: WrongRate) -> (Trouble, bool) {
    match heard {
        WrongRate::Silence => (Trouble::AdapterSilent, false),
        WrongRate::Loop => (Trouble::Loop, true),
        WrongRate::Modem => (Trouble::Modem, true),
        _ => (Trouble::Noise, true),
    }
}

/// The text as it begins a sentence.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Shows it.
///
/// # Errors
/// Where stdout cannot be written.
pub fn show(report: &Report, depth: Depth, screen: Screen) -> Result<(), Failure> {
    if screen.is_json() {
        return screen.json(report);
    }
    for line in lines(report, depth, screen.units) {
        screen.line(&line)?;
    }
    screen.line("")?;
    screen.line(&screen.strong(&report.closing()))
}

/// Everything above the closing line.
fn lines(report: &Report, depth: Depth, units: UnitSystem) -> Vec<String> {
    let mut all = vec![reads(report, units)];
    all.extend(differ(report));
    all.extend(loses(report));
    all.extend(is_called(report));
    if let Some(protocol) = &report.protocol {
        let units = match report.control_units.as_slice() {
            [] => "no control unit by name".to_owned(),
            names => names.join(", "),
        };
        all.push(format!("Hears {units} on {protocol}."));
    }
    all.extend(report.volts.map(|volts| format!("Shows {volts:.1} V at the connector.")));
    if let Some(told) = report.trouble.as_ref().filter(|_| !report.reads()) {
        all.push(format!("Try: {}", told.instead));
    }
    for lack in &report.advice {
        all.push(format!("Note: {} {}", lack.cannot, lack.instead));
    }
    if depth == Depth::Details {
        all.extend(details(report));
    }
    all
}

/// What was read, or why nothing was.
fn reads(report: &Report, units: UnitSystem) -> String {
    let told = report.trouble.as_ref().map(|told| match &told.detail {
        Some(detail) => format!("{} ({detail}).", told.says.trim_end_matches('.')),
        None => told.says.clone(),
    });
    let trouble = told.as_deref().unwrap_or("The vehicle has not answered in time.");
    let Some(rate) = report.readings_per_second else { return format!("Reads nothing. {trouble}") };
    let name = report.latest.first().map_or("", |latest| latest.name).replace('-', " ");
    let values: Vec<String> = report.latest.iter().map(|latest| latest.says(units)).collect();
    let values = values.join(", ");
    if report.still_reading {
        format!("Reads {name}: {values}; {rate:.1} readings a second, to the end.")
    } else {
        format!("Read {name}: {values}; then no more. {trouble}")
    }
}

/// Several control units that say different things of the same quantity.
fn differ(report: &Report) -> Option<String> {
    let (first, others) = report.latest.split_first()?;
    let differs = others.iter().any(|other| other.measure != first.measure);
    let all = report.latest.len();
    differs.then(|| {
        format!("Note: {all} control units answer this request with different values. Find out which of them counts before a check is gated on it.")
    })
}

fn loses(report: &Report) -> Option<String> {
    let lost = report.lost;
    if report.requests == 0 {
        return None;
    }
    if lost.all() == 0 {
        return Some(format!("Loses none of {} requests.", report.requests));
    }
    let parts = [
        (lost.refused, "refused"),
        (lost.unanswered, "not answered"),
        (lost.spoilt, "spoilt or asked again"),
        (lost.undecodable, "not as it should be"),
    ];
    let parts: Vec<String> =
        parts.iter().filter(|(n, _)| *n > 0).map(|(n, what)| format!("{n} {what}")).collect();
    let share = report.lost_share * 100.0;
    Some(format!(
        "Loses {} of {} requests ({share:.0} %): {}.",
        lost.all(),
        report.requests,
        parts.join(", ")
    ))
}

fn is_called(report: &Report) -> Option<String> {
    let claims = report.claims.as_ref()?;
    let lies = report.quirks.iter().any(|named| named.quirk == adapter::Quirk::VersionLie.word());
    Some(if lies {
        format!("Calls itself \"{claims}\", which it is not: it is judged by what it does.")
    } else {
        format!("Calls itself \"{claims}\".")
    })
}

/// What a report of a fault has to quote.
fn details(report: &Report) -> Vec<String> {
    let mut all = vec![String::new(), "Details".to_owned()];
    let mut row = |name: &str, what: String| all.push(format!("  {name:<14}{what}"));
    let wire = match (report.baud, report.raised_to_baud) {
        (Some(baud), Some(raised)) => format!(", {baud} bit/s, raised to {raised}"),
        (Some(baud), None) => format!(", {baud} bit/s"),
        _ => String::new(),
    };
    row("device", format!("{}{wire}", report.device));
    row("asked", report.asked.clone());
    for (name, text) in [("family", &report.family), ("describes", &report.description)] {
        if let Some(text) = text {
            row(name, text.escape_debug().to_string());
        }
    }
    if let Some(tested) = &report.tested {
        row("command set", tested.clone());
    }
    row("longest hole", format!("{:.1} s", report.longest_hole_seconds));
    for quirk in &report.quirks {
        row("quirk", format!("{}: {}", quirk.quirk, quirk.says));
    }
    let counts: Vec<String> =
        report.counts.iter().filter(|(_, n)| **n > 0).map(|(name, n)| format!("{name} {n}")).collect();
    row("counted", counts.join(", "));
    for line in &report.last_on_the_link {
        row("last said", line.clone());
    }
    all
}

#[cfg(test)]
mod tests;
