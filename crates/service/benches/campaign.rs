//! The campaign: very many drawn rehearsals with the daemon's own bay, in memory. `cargo xtask campaign [N] [--from SEED]` runs it.
//!
//! A single one is told as a story: what the technician did, every verdict and what it was judged by.
//! Prints how far it is, then each broken claim and each missed `go` by seed, then what it all comes to. Fails where a claim is broken,
//! or more than 2 % of the possible `go` were missed.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a bench prints and may panic"
)]

#[path = "../../../tests/common/on_stage.rs"]
#[expect(unreachable_pub, dead_code, reason = "shared with the program's tests, which use all of it")]
mod on_stage;

use std::collections::BTreeMap;
use std::process::ExitCode;
use std::time::Instant;

use events::{Body, Measure, Reading, Sheet};
use rehearsal::{Campaign, Keep, Setup, stage};
use units::Mono;

const SHEETS: [&str; 4] = [
    include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
    include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
    include_str!("../../../fixtures/sheets/demo-coolant-only.toml"),
    include_str!("../../../fixtures/sheets/demo-spot-only.toml"),
];
/// Without a number.
const RUNS: u64 = 100_000;
/// So often it says how far it is.
const TELLS: u64 = 50;
/// No more than so many possible `go` may be missed, of a hundred.
const MOST_MISSED_PERCENT: u64 = 2;

fn main() -> ExitCode {
    // `cargo bench` adds a word of its own.
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let number = |word: Option<&String>, otherwise| word.map_or(Some(otherwise), |word| word.parse().ok());
    let (runs, from) = match words.iter().position(|word| word == "--from") {
        Some(0) => (Some(RUNS), number(words.get(1), 1)),
        Some(at) => (number(words.first(), RUNS), number(words.get(at + 1), 1)),
        None => (number(words.first(), RUNS), Some(1)),
    };
    let (Some(runs), Some(from)) = (runs, from) else {
        eprintln!("campaign [N] [--from SEED]: how many rehearsals, and the first seed");
        return ExitCode::from(64);
    };
    if runs == 1 {
        story(from);
    }
    campaign(from, runs)
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

fn campaign(from: u64, runs: u64) -> ExitCode {
    let start = Instant::now();
    let told = |done: u64| {
        if done.is_multiple_of((runs / TELLS).max(1)) {
            eprintln!("{done} of {runs} rehearsals, {:.0} s", start.elapsed().as_secs_f64());
        }
    };
    let campaign = Campaign::run(from, runs, &sheets(), on_stage::OnStage::new, told);
    let mut causes: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    for (seed, story) in campaign.wrong() {
        println!("WRONG seed {seed}: {story}");
    }
    for (seed, story) in campaign.missed() {
        println!("missed seed {seed}: {story}");
        causes.entry(story.split(" | ").next().unwrap_or(story)).or_default().push(seed);
    }
    let mut causes: Vec<(&str, Vec<u64>)> = causes.into_iter().collect();
    causes.sort_by_key(|(_, seeds)| std::cmp::Reverse(seeds.len()));
    for (cause, seeds) in &causes {
        println!("missed for {cause}: {} times, first {:?}", seeds.len(), seeds.get(..5).unwrap_or(seeds));
    }
    println!("\n{campaign}");
    println!("seeds {from} to {}, {:.0} s", from + runs - 1, start.elapsed().as_secs_f64());
    let (missed, possible) = campaign.missed_of_possible();
    if campaign.wrong().next().is_some() || missed * 100 > possible * MOST_MISSED_PERCENT {
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}
