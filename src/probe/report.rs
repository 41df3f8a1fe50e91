//! The report of `probe`: for people a few lines, for programs one JSON object; the same content.

use std::collections::BTreeMap;

use adapter::{Latency, Opener as _, Port, Quirk};
use serde::Serialize;

use super::Seen;
use crate::failure::Failure;
use crate::screen::Screen;

/// What was found out about one adapter.
#[derive(Debug, Serialize)]
pub struct Report {
    device: String,
    /// The rate of the wire in bit/s, where it has one that was found by trying.
    #[serde(skip_serializing_if = "Option::is_none")]
    baud: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    raised_to_baud: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    chip_waits_ms: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    claims: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tested: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    description: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    family: Option<String>,
    quirks: Vec<Named>,
    #[serde(skip_serializing_if = "Option::is_none")]
    protocol: Option<String>,
    control_units: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    volts: Option<f64>,
    /// What was asked as often as the line allows.
    #[serde(skip_serializing_if = "Option::is_none")]
    asked: Option<String>,
    answers: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    exchanges_per_second: Option<f64>,
    failures: BTreeMap<String, u64>,
    counts: BTreeMap<&'static str, u64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    trouble: Option<String>,
    /// What it cannot do for the job, and what to do about it.
    advice: Vec<Advice>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    last_on_the_link: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Named {
    quirk: &'static str,
    says: &'static str,
}

#[derive(Debug, Serialize, PartialEq, Eq)]
struct Advice {
    cannot: String,
    instead: String,
}

/// The check of the level wants a temperature so often.
const WANTED_PER_SECOND: f64 = 2.0;

impl Report {
    /// From what was seen. `own`: the request was that of a sheet.
    pub fn new(port: &Port, found: Option<u32>, asked: Option<String>, own: bool, seen: &Seen) -> Self {
        let chip = match port.device() {
            adapter::Device::Serial { path, .. } => adapter::latency(path),
            _ => None,
        };
        let identity = seen.identity.as_ref();
        let counts = seen.counts;
        let (protocol, control_units) = seen
            .vehicle
            .as_ref()
            .map_or((None, Vec::new()), |(_, name, units)| (Some(name.clone()), units.clone()));
        Self {
            device: port.describe(),
            baud: found,
            raised_to_baud: seen.raised,
            chip_waits_ms: chip.map(|chip| match chip {
                Latency::Fixed(millis) => millis,
                Latency::Short => 1,
            }),
            claims: identity.map(|identity| identity.version.clone()),
            tested: identity.map(|identity| identity.tested.to_string()),
            description: identity.and_then(|identity| identity.description.clone()),
            family: identity.and_then(|identity| identity.family.clone()),
            quirks: seen.quirks.iter().map(|q| Named { quirk: q.word(), says: q.says() }).collect(),
            protocol,
            control_units,
            volts: seen.millivolts.map(|millivolts| f64::from(millivolts) / 1_000.0),
            asked,
            answers: seen.answers,
            exchanges_per_second: seen.per_second.map(|rate| (rate * 10.0).round() / 10.0),
            failures: seen.failures.clone(),
            counts: BTreeMap::from([
                ("sent", counts.sent),
                ("replies", counts.replies),
                ("surplus", counts.surplus),
                ("timed-out", counts.timed_out),
                ("resyncs", counts.resyncs),
                ("resets", counts.resets),
                ("nul-bytes", counts.nuls),
                ("noise-bytes", counts.noise),
                ("dropped-bytes", counts.dropped),
            ]),
            trouble: seen.trouble.clone(),
            advice: advice(seen, chip, own),
            last_on_the_link: seen.last.clone(),
        }
    }
}

/// What follows for the job.
fn advice(seen: &Seen, chip: Option<Latency>, own: bool) -> Vec<Advice> {
    let has = |quirk| seen.quirks.contains(&quirk);
    let mut all = Vec::new();
    let mut say = |cannot: &str, instead: &str| {
        all.push(Advice { cannot: cannot.to_owned(), instead: instead.to_owned() });
    };
    if seen.stranger {
        say(
            "This is no adapter that can be used.",
            "Name another device, or plug the adapter into the vehicle so that it has supply.",
        );
        return all;
    }
    match (&seen.vehicle, seen.answers) {
        (None, _) => say(
            "The vehicle does not answer.",
            "Switch the ignition on. If it is on: another adapter; cheap ones often lack the older buses.",
        ),
        (Some(_), 0) if own => say(
            "The sheet's temperature cannot be read.",
            "Check header, service and identifier of the sheet; with coolant only or a spot thermometer the job can still be done.",
        ),
        (Some(_), 0) => say(
            "The coolant temperature cannot be read.",
            "Try again with the engine running, or another adapter.",
        ),
        _ => {}
    }
    if has(Quirk::NoHeaders) {
        say(
            "It does not say which control unit answers.",
            "Where several answer, nothing is read: use another adapter for such vehicles.",
        );
    }
    if has(Quirk::NoFc) {
        say(
            "Long replies of unusual control units do not come.",
            "Only if the sheet's header lies outside 7E0 to 7E7: use another adapter.",
        );
    }
    if has(Quirk::NoVolt) {
        say("It cannot tell the battery voltage.", "Nothing to do: the job does not rest on it.");
    }
    if seen.per_second.is_some_and(|rate| rate < WANTED_PER_SECOND) {
        say(
            "It reads the temperature less than twice a second.",
            "The verdict gets a wider margin by itself; a USB adapter is quicker than a radio one.",
        );
    }
    if let Some(Latency::Fixed(millis)) = chip {
        say(
            &format!(
                "The USB chip holds every reply back for up to {millis} ms, and this user may not change that."
            ),
            "Harmless. To change it, give the group of the port the right to write latency_timer by a udev rule: docs/adapters.md.",
        );
    }
    all
}

/// Shows it.
///
/// # Errors
/// Where stdout cannot be written.
pub fn show(report: &Report, screen: Screen) -> Result<(), Failure> {
    if screen.is_json() {
        return screen.json(report);
    }
    for line in lines(report, screen) {
        screen.line(&line)?;
    }
    Ok(())
}

fn lines(report: &Report, screen: Screen) -> Vec<String> {
    let mut all = Vec::new();
    let mut row = |name: &str, what: String| all.push(format!("{name:<15}{what}"));
    let unknown = || "unknown".to_owned();
    let wire = match (report.baud, report.raised_to_baud) {
        (Some(baud), Some(raised)) => format!(", {baud} bit/s, raised to {raised}"),
        (Some(baud), None) => format!(", {baud} bit/s"),
        _ => String::new(),
    };
    row("device", format!("{}{wire}", report.device));
    row("calls itself", report.claims.clone().unwrap_or_else(unknown));
    if let Some(family) = &report.family {
        row("", family.clone());
    }
    if let Some(description) = &report.description {
        row("", description.clone());
    }
    row("commands of", report.tested.clone().unwrap_or_else(unknown));
    row("vehicle", report.protocol.clone().unwrap_or_else(|| "does not answer".to_owned()));
    if !report.control_units.is_empty() {
        row("control units", report.control_units.join(", "));
    }
    row("voltage", report.volts.map_or_else(unknown, |volts| format!("{volts:.1} V")));
    if let Some(asked) = &report.asked {
        let rate = report
            .exchanges_per_second
            .map_or_else(String::new, |rate| format!(", {rate:.1} exchanges per second"));
        row("reading", format!("{asked}: {} answers{rate}", report.answers));
    }
    if !report.failures.is_empty() {
        let each: Vec<String> =
            report.failures.iter().map(|(word, times)| format!("{word} {times}")).collect();
        row("failed", each.join(", "));
    }
    let counts: Vec<String> =
        report.counts.iter().filter(|(_, n)| **n > 0).map(|(name, n)| format!("{name} {n}")).collect();
    row("counted", counts.join(", "));
    for quirk in &report.quirks {
        row("quirk", format!("{}: {}", quirk.quirk, quirk.says));
    }
    if let Some(trouble) = &report.trouble {
        row("trouble", screen.strong(trouble));
    }
    for line in &report.last_on_the_link {
        row("last said", line.clone());
    }
    if report.advice.is_empty() {
        row("for the job", "nothing is missing".to_owned());
    }
    for advice in &report.advice {
        row("for the job", screen.strong(&advice.cannot));
        row("", advice.instead.clone());
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_lack_has_its_advice() {
        let connected = || Some((None, "CAN".to_owned(), Vec::new()));
        let cases: &[(&str, Seen, Option<Latency>, &[&str])] = &[
            (
                "all is well",
                Seen { vehicle: connected(), answers: 9, per_second: Some(20.0), ..Seen::default() },
                None,
                &[],
            ),
            ("no vehicle", Seen::default(), None, &["vehicle does not answer"]),
            ("a modem", Seen { stranger: true, ..Seen::default() }, None, &["no adapter"]),
            (
                "no temperature",
                Seen { vehicle: connected(), ..Seen::default() },
                None,
                &["sheet's temperature"],
            ),
            (
                "slow and poor",
                Seen {
                    vehicle: connected(),
                    answers: 9,
                    per_second: Some(1.2),
                    quirks: vec![Quirk::NoHeaders, Quirk::NoVolt, Quirk::NoFc],
                    ..Seen::default()
                },
                Some(Latency::Fixed(16)),
                &["which control unit", "Long replies", "voltage", "less than twice", "16 ms"],
            ),
        ];
        for (what, seen, chip, want) in cases {
            let got = advice(seen, *chip, true);
            assert_eq!(got.len(), want.len(), "{what}: {got:?}");
            assert!(got.iter().zip(*want).all(|(got, want)| got.cannot.contains(want)), "{what}: {got:?}");
        }
    }
}
