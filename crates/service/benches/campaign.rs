//! The campaign: very many drawn rehearsals with the daemon's own bay, in memory. `cargo xtask campaign [N] [--from SEED] [--into FILE]
//! [--once-well | --check]`.
//!
//! Says after each thousand how far it is, and with `--into` writes what it all comes to so far. A single one is told as a story: what the
//! technician did, every verdict and what it was judged by. Prints each broken claim and each missed `go` by seed, the causes, the table. Fails
//! where a claim is broken, or more than 2 % of the possible `go` were missed. With `--once-well` faults end at a drawn moment, and from
//! then on a reading must come within its bound; what was missed before is not counted. With `--check` vehicles that nobody knows are checked, and what is said of their level is held
//! against the truth.

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

use events::{Body, Measure, Reading, Sheet};
use rehearsal::campaign::{Checks, Form};
use rehearsal::{Campaign, Keep, Setup, stage};
use units::Mono;

const SHEETS: [&str; 4] = [
    include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
    include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
    include_str!("../../../fixtures/sheets/demo-coolant-only.toml"),
    include_str!("../../../fixtures/sheets/demo-spot-only.toml"),
];
/// Without a number, as in a plain `cargo bench`.
const RUNS: u64 = 1_000;
/// So many between two words about how far it is.
const BATCH: u64 = 1_000;
/// No more than so many possible `go` may be missed, of a hundred.
const MOST_MISSED_PERCENT: u64 = 2;

fn main() -> ExitCode {
    let Some(Asked { from, runs, into, once_well, check }) = asked() else {
        eprintln!(
            "campaign [N] [--from SEED] [--into FILE] [--once-well | --check]: how many rehearsals, the first seed, where the table goes, whether faults end, or checks"
        );
        return ExitCode::from(64);
    };
    if check {
        return checks(from, runs, into.as_deref());
    }
    if runs == 1 {
        story(from);
    }
    campaign(from, runs, into.as_deref(), once_well)
}

struct Asked {
    from: u64,
    runs: u64,
    into: Option<String>,
    once_well: bool,
    check: bool,
}

/// None where the words make no sense.
fn asked() -> Option<Asked> {
    let (mut from, mut runs, mut into, mut once_well, mut check) = (1, RUNS, None, false, false);
    // `cargo bench` adds a word of its own.
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    while let Some(word) = words.next() {
        match word.as_str() {
            "--from" => from = words.next()?.parse().ok()?,
            "--into" => into = Some(words.next()?),
            "--once-well" => once_well = true,
            "--check" => check = true,
            number => runs = number.parse().ok().filter(|runs| *runs > 0)?,
        }
    }
    Some(Asked { from, runs, into, once_well, check })
}

fn sheets() -> Vec<Sheet> {
    SHEETS.iter().map(|text| Sheet::parse(text).unwrap()).collect()
}

/// One rehearsal, line by line.
fn story(seed: u64) {
    let mut setup = Setup::draw(seed, &sheets());
    setup.keep = Keep::All;
    let ending = stage::run(&mut on_stage::OnStage::new(&setup.sheet), &setup);
    println!("{:#?}\n{:#?}", setup.vehicle, setup.script);
    let mut lines: Vec<(Mono, String)> = ending.doings;
    for event in ending.events {
        let line = match event.body {
            Body::Verdict { verdict, reasons, open, celsius, u, .. } => {
                format!("  {verdict} {reasons:?} open {open:?}, {celsius:?} ± {u:?}")
            }
            Body::Reading(Reading { measure: measure @ Measure::Spot(..), .. }) => format!("    {measure:?}"),
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
    let (sheets, start) = (sheets(), Instant::now());
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

fn campaign(from: u64, runs: u64, into: Option<&str>, once_well: bool) -> ExitCode {
    let (sheets, start) = (sheets(), Instant::now());
    let mut campaign = Campaign::default();
    let form = if once_well { Form::FaultsEnd } else { Form::AsDrawn };
    while (campaign.findings.len() as u64) < runs {
        let done = campaign.findings.len() as u64;
        let (next, some, program) = (from + done, BATCH.min(runs - done), on_stage::OnStage::new);
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
            std::fs::write(file, text(&campaign, from, start)).unwrap();
        }
    }
    println!("{}", text(&campaign, from, start));
    let (missed, possible) = campaign.missed_of_possible();
    if campaign.wrong().chain(campaign.harmful()).chain(campaign.mute()).next().is_some()
        || (!once_well && missed * 100 > possible * MOST_MISSED_PERCENT)
    {
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// All there is to say, the table last.
fn text(campaign: &Campaign, from: u64, start: Instant) -> String {
    let mut text = String::new();
    let mut causes: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
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
    let last = from + campaign.findings.len() as u64 - 1;
    writeln!(text, "\n{campaign}\nseeds {from} to {last}, {:.0} s", start.elapsed().as_secs_f64()).unwrap();
    text
}
