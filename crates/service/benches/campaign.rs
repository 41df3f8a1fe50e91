//! The campaign: very many drawn rehearsals with the daemon's own bay, in memory. `cargo xtask campaign [N] [--from SEED] [--into FILE]
//! [--once-well | --timed | --seen | --sensors K | --check | --procedures]`.
//!
//! Says after each thousand how far it is, and with `--into` writes what it all comes to so far. A single one is told as a story: what the
//! technician did, every verdict and what it was judged by. Prints each broken claim, each false `go` and each missed one by seed, the causes, the
//! tables. Fails where a claim is broken (more than 0.1 % of a signal's time in `go` false, or one by more than 0.5 K, is one), or more than 2 % of the possible `go` were missed. With `--once-well` faults end at a drawn moment, and from
//! then on a reading must come within its bound; what was missed before is not counted. With `--check` vehicles that nobody knows are checked, and what is said of their level is held
//! against the truth. With `--timed` each has one trouble timed to the band, with `--seen` one that the gate is made to see, with `--sensors K` sensors to ±K. With `--procedures` any procedure of the trade is rehearsed by somebody who does what he is told, with a second person,
//! alone, or without an adapter.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a bench prints and may panic"
)]

#[path = "../../../tests/common/on_stage.rs"]
#[expect(unreachable_pub, reason = "shared with the program's tests")]
mod on_stage;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::process::ExitCode;
use std::time::Instant;

use events::{Body, Measure, Reading, Role, Sheet};
use rehearsal::campaign::{Checks, Form};
use rehearsal::{Campaign, Keep, stage};
use units::Mono;

const SHEETS: [&str; 4] = [
    include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
    include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
    include_str!("../../../fixtures/sheets/demo-coolant-only.toml"),
    include_str!("../../../fixtures/sheets/demo-spot-only.toml"),
];
const PROCEDURES: [&str; 18] = [
    include_str!("../../../fixtures/sheets/procedures/after-stop-span.toml"),
    include_str!("../../../fixtures/sheets/procedures/amount-only.toml"),
    include_str!("../../../fixtures/sheets/procedures/fill-hole-at-rest.toml"),
    include_str!("../../../fixtures/sheets/procedures/fill-hole-idle.toml"),
    include_str!("../../../fixtures/sheets/procedures/fill-hole-two-looks.toml"),
    include_str!("../../../fixtures/sheets/procedures/gauge-chart.toml"),
    include_str!("../../../fixtures/sheets/procedures/motor-drive.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-below-portions.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-below-steady.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-below-two-looks.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-display.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-first-drips.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-lamp.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-margin.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-rim-then-amount.toml"),
    include_str!("../../../fixtures/sheets/procedures/pipe-wave.toml"),
    include_str!("../../../fixtures/sheets/procedures/side-hole-drip.toml"),
    include_str!("../../../fixtures/sheets/procedures/small-unit.toml"),
];
/// Without a number, as in a plain `cargo bench`.
const RUNS: u64 = 1_000;
/// So many between two words about how far it is.
const BATCH: u64 = 1_000;
/// No more than so many possible `go` may be missed, of a hundred.
const MOST_MISSED_PERCENT: u64 = 2;

fn main() -> ExitCode {
    let Some(Asked { from, runs, into, form, check }) = asked() else {
        eprintln!(
            "campaign [N] [--from SEED] [--into FILE] [--once-well | --timed | --seen | --sensors K | --check | --procedures]: how many rehearsals, the first seed, where the table goes, whether faults end, or each has a trouble timed to the band, or sensors to ±K, or checks, or procedures"
        );
        return ExitCode::from(64);
    };
    if check {
        return checks(from, runs, into.as_deref());
    }
    if runs == 1 {
        story(from, form);
    }
    campaign(from, runs, into.as_deref(), form)
}

struct Asked {
    from: u64,
    runs: u64,
    into: Option<String>,
    form: Form,
    check: bool,
}

/// None where the words make no sense.
fn asked() -> Option<Asked> {
    let (mut from, mut runs, mut into, mut form, mut check) = (1, RUNS, None, Form::AsDrawn, false);
    // `cargo bench` adds a word of its own.
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    while let Some(word) = words.next() {
        match word.as_str() {
            "--from" => from = words.next()?.parse().ok()?,
            "--into" => into = Some(words.next()?),
            "--once-well" => form = Form::FaultsEnd,
            "--timed" => form = Form::Timed,
            "--seen" => form = Form::Seen,
            "--sensors" => form = Form::Sensors(words.next()?.parse().ok().filter(|k| (1..=9).contains(k))?),
            "--procedures" => form = Form::ByAdvice,
            "--check" => check = true,
            number => runs = number.parse().ok().filter(|runs| *runs > 0)?,
        }
    }
    Some(Asked { from, runs, into, form, check })
}

fn sheets(form: Form) -> Vec<Sheet> {
    let all: &[&str] = if form == Form::ByAdvice { &PROCEDURES } else { &SHEETS };
    all.iter().map(|text| Sheet::parse(text).unwrap()).collect()
}

/// One rehearsal, line by line.
fn story(seed: u64, form: Form) {
    let mut setup = form.draw(seed, &sheets(form));
    setup.keep = Keep::All;
    let ending = stage::run(&mut on_stage::OnStage::of(&setup), &setup);
    println!("{:#?}\n{:#?}", setup.vehicle, setup.script);
    let mut lines: Vec<(Mono, String)> = ending.doings;
    for event in ending.events {
        let line = match event.body {
            Body::Verdict { verdict, reasons, open, celsius, u, .. } => {
                format!("  {verdict} {reasons:?} open {open:?}, {celsius:?} ± {u:?}")
            }
            Body::Reading(Reading { measure: measure @ Measure::Spot(..), .. }) => format!("    {measure:?}"),
            Body::Advice(said) => format!("      {} / {}", said.at(Role::Under), said.at(Role::Inside)),
            Body::Told(told) => format!("    tells {:?}", told.request),
            Body::Link(change) => format!("    {change:?}"),
            Body::Fault { fault, detail, .. } => format!("    {fault} {detail:?}"),
            Body::Result(result) => format!("  {result:?}"),
            _ => continue,
        };
        lines.push((event.mono_ms, line));
    }
    lines.sort_by_key(|(at, _)| *at);
    lines.iter().for_each(|(at, line)| println!("{at} {line}"));
    println!("{:?}", ending.truth);
}

/// Checks of unknown vehicles.
fn checks(from: u64, runs: u64, into: Option<&str>) -> ExitCode {
    let (sheets, start) = (sheets(Form::AsDrawn), Instant::now());
    let far = |done: u64| {
        if done.is_multiple_of(BATCH) {
            eprintln!("{done} of {runs} checks, {:.0} s", start.elapsed().as_secs_f64());
        }
    };
    let checks = Checks::run(from, runs, &sheets, on_stage::OnStage::new, far);
    let broken = checks.broken();
    let text = format!("{}\n{checks}\nseeds {from} to {}", broken.join("\n"), from + runs - 1);
    println!("{text}");
    if let Some(file) = into {
        std::fs::write(file, text).unwrap();
    }
    if broken.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn campaign(from: u64, runs: u64, into: Option<&str>, form: Form) -> ExitCode {
    let (sheets, start) = (sheets(form), Instant::now());
    let mut campaign = Campaign::default();
    while (campaign.findings.len() as u64) < runs {
        let done = campaign.findings.len() as u64;
        let (next, some, program) = (from + done, BATCH.min(runs - done), on_stage::OnStage::of);
        let batch = Campaign::run(next, some, &sheets, form, program, |_| ());
        campaign.findings.extend(batch.findings);
        let (missed, possible) = campaign.missed_of_possible();
        eprintln!(
            "{} of {runs} rehearsals, {} wrong, {missed} of {possible} missed, {:.0} s",
            campaign.findings.len(),
            campaign.wrong().count(),
            start.elapsed().as_secs_f64()
        );
        if let Some(file) = into {
            std::fs::write(file, text(&campaign, from, start, form)).unwrap();
        }
    }
    println!("{}", text(&campaign, from, start, form));
    let (missed, possible) = campaign.missed_of_possible();
    if !campaign.false_acceptance().is_empty()
        || campaign.wrong().chain(campaign.harmful()).chain(campaign.mute()).next().is_some()
        || (form != Form::FaultsEnd && missed * 100 > possible * MOST_MISSED_PERCENT)
    {
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// All there is to say, the table last.
fn text(campaign: &Campaign, from: u64, start: Instant, form: Form) -> String {
    let mut text = String::new();
    let mut causes: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    for claim in campaign.false_acceptance() {
        writeln!(text, "BROKEN {claim}").unwrap();
    }
    for finding in &campaign.findings {
        let Some((k, at)) = finding.times.worst else { continue };
        let (for_s, sheet) = (finding.times.outside.as_secs_f64(), &finding.sheet);
        writeln!(text, "false seed {}: by {k:.2} K at {at}, for {for_s:.0} s, {sheet}", finding.seed)
            .unwrap();
    }
    for (seed, story) in campaign.wrong() {
        writeln!(text, "WRONG seed {seed}: {story}").unwrap();
    }
    for (seed, story) in campaign.harmful() {
        writeln!(text, "HARMFUL seed {seed}: {story}").unwrap();
    }
    for (seed, story) in campaign.mute() {
        writeln!(text, "MUTE seed {seed}: {story}").unwrap();
    }
    for (seed, story) in campaign.missed() {
        writeln!(text, "missed seed {seed}: {story}").unwrap();
        causes.entry(story.split(" | ").next().unwrap_or(story)).or_default().push(seed);
    }
    let mut causes: Vec<(&str, Vec<u64>)> = causes.into_iter().collect();
    causes.sort_by_key(|(_, seeds)| std::cmp::Reverse(seeds.len()));
    for (cause, seeds) in &causes {
        writeln!(
            text,
            "missed for {cause}: {} times, first {:?}",
            seeds.len(),
            seeds.get(..5).unwrap_or(seeds)
        )
        .unwrap();
    }
    if matches!(form, Form::Timed | Form::Seen) {
        writeln!(text, "\n{}", campaign.by_trouble()).unwrap();
    }
    if form == Form::ByAdvice {
        writeln!(text, "\n{}", campaign.by_procedure()).unwrap();
    }
    let last = from + campaign.findings.len() as u64 - 1;
    writeln!(text, "\n{campaign}\nseeds {from} to {last}, {:.0} s", start.elapsed().as_secs_f64()).unwrap();
    text
}
