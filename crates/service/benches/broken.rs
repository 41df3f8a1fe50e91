//! Is each protection of the gate missed? `cargo xtask campaign broken [N] [--from SEED] [--only PROTECTION]`.
//!
//! Takes one protection after the other out of the gate and runs up to N rehearsals until a claim on false `go` is broken that the whole
//! gate holds on the same rehearsals: those with a trouble that it is made to see, timed to the band, first, then those as they come. Prints a table. Fails where a
//! protection is not found. Needs the feature `taken-out`, which nothing else turns on.

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

use std::process::ExitCode;
use std::time::Instant;

use events::Sheet;
use on_stage::OnStage;
use rehearsal::Setup;
use rehearsal::campaign::{Form, Found, Whole, hunt};
use service::Protection;

const SHEETS: [&str; 4] = [
    include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
    include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
    include_str!("../../../fixtures/sheets/demo-coolant-only.toml"),
    include_str!("../../../fixtures/sheets/demo-spot-only.toml"),
];
/// Without a number.
const RUNS: u64 = 2_000;
/// Judged after so many.
const BATCH: u64 = 100;
/// Seeds that no other campaign begins with.
const FROM: u64 = 3_100_000;

fn main() -> ExitCode {
    let Some((from, runs, only)) = asked() else {
        eprintln!(
            "broken [N] [--from SEED] [--only PROTECTION]: how many rehearsals at most, the first seed, which protection"
        );
        return ExitCode::from(64);
    };
    let sheets: Vec<Sheet> = SHEETS.iter().map(|text| Sheet::parse(text).unwrap()).collect();
    let (mut whole, start, mut missing) = (Whole::default(), Instant::now(), Vec::new());
    println!(
        "| taken out | found by | after | share of `go` time false: whole gate, without it | farthest, K |"
    );
    println!("| --- | --- | --- | --- | --- |");
    for &protection in Protection::ALL.iter().filter(|one| only.is_none_or(|only| only == **one)) {
        let forms = [Form::Seen, Form::AsDrawn];
        let found = hunt(&forms, (from, runs, BATCH), &sheets, &mut whole, OnStage::of, |setup| {
            without(setup, protection)
        });
        println!("{}", row(protection, &found, runs));
        eprintln!("{protection}: {:?}, {:.0} s", found.broken, start.elapsed().as_secs_f64());
        if found.by.is_none() {
            missing.push(protection);
        }
    }
    if missing.is_empty() {
        return ExitCode::SUCCESS;
    }
    println!("not found: {missing:?}");
    ExitCode::FAILURE
}

fn without(setup: &Setup, protection: Protection) -> OnStage {
    let OnStage(bay) = OnStage::of(setup);
    OnStage(bay.without(Some(protection)))
}

fn row(protection: Protection, found: &Found, most: u64) -> String {
    let worst = |campaign: &rehearsal::Campaign| {
        let all = campaign.by_time();
        let share = all.iter().map(|of| of.share_outside()).fold(0.0, f64::max);
        (100.0 * share, all.iter().map(|of| of.worst_k()).fold(0.0, f64::max))
    };
    let (whole, without) = (worst(&found.whole), worst(&found.without));
    let by = found.by.map_or(("not found".to_owned(), most), |(form, runs)| (format!("{form:?}"), runs));
    format!(
        "| {protection} | {} | {} | {:.3}, {:.3} % | {:.2}, {:.2} |",
        by.0, by.1, whole.0, without.0, whole.1, without.1
    )
}

/// None where the words make no sense.
fn asked() -> Option<(u64, u64, Option<Protection>)> {
    let (mut from, mut runs, mut only) = (FROM, RUNS, None);
    // `cargo bench` adds a word of its own.
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    while let Some(word) = words.next() {
        match word.as_str() {
            "--from" => from = words.next()?.parse().ok()?,
            "--only" => only = Some(words.next()?.parse().ok()?),
            number => runs = number.parse().ok().filter(|runs| *runs > 0)?,
        }
    }
    Some((from, runs, only))
}
