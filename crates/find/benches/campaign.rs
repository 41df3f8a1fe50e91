//! The campaign of `find`: `cargo xtask campaign find [N] [--from SEED] [--into FILE]`. One vehicle alone is told as a story.
//!
//! Fails where wrong ones were confirmed too often, or the right one came first too seldom, or the search asked too much.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "a bench prints and may panic"
)]
#![allow(clippy::indexing_slicing, reason = "a bench may panic")]

#[path = "../tests/campaign/mod.rs"]
#[expect(unreachable_pub, reason = "shared with the tests")]
mod campaign;

use std::process::ExitCode;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use campaign::{Broken, Finding, Key, Rank, Table};

fn main() -> ExitCode {
    let (mut from, mut runs, mut into) = (1_u64, 300_u64, None);
    let (mut key, mut all_stories, mut figures) = (Key::Off, false, false);
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    while let Some(word) = words.next() {
        match word.as_str() {
            "--from" => from = words.next().and_then(|n| n.parse().ok()).unwrap_or(1),
            "--into" => into = words.next(),
            "--key-stays" => key = Key::Stays,
            "--all" => all_stories = true,
            "--figures" => figures = true,
            number => match number.parse() {
                Ok(number) => runs = number,
                Err(_) => {
                    eprintln!("campaign find [N] [--from SEED] [--into FILE]");
                    return ExitCode::from(64);
                }
            },
        }
    }
    let start = Instant::now();
    let next = AtomicU64::new(from);
    let all = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= from + runs {
                        break;
                    }
                    let finding = campaign::run(seed, key, Broken::Nothing);
                    let mut all = all.lock().unwrap();
                    all.push(finding);
                    if all.len().is_multiple_of(100) {
                        eprintln!("{} of {runs}, {:.0} s", all.len(), start.elapsed().as_secs_f64());
                    }
                }
            });
        }
    });
    let mut findings = all.into_inner().unwrap();
    findings.sort_by_key(|one| one.seed);
    for one in &findings {
        let missed = one.has && one.measured != Some(Rank::First);
        if figures {
            println!("{}", one.last);
        }
        if runs == 1 || all_stories || missed || one.confirmed == Some(false) {
            println!("{}", story(one));
        }
    }
    let table = Table(findings);
    let text =
        format!("{table}\nseeds {from} to {}, {:.0} s", from + runs - 1, start.elapsed().as_secs_f64());
    println!("{text}");
    if let Some(file) = into {
        std::fs::write(file, text).unwrap();
    }
    let broken = table.broken();
    for claim in &broken {
        println!("BROKEN {claim}");
    }
    if broken.is_empty() || runs < LEAST { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Fewer vehicles than this claim nothing.
const LEAST: u64 = 100;

fn story(one: &Finding) -> String {
    format!(
        "seed {} {} {} {} readable {} heard {:?} asked {} of {}, 15 {:?} 25 {:?} measured {:?} confirmed {:?} off {:.1} {:?}\n{}",
        one.seed,
        one.bus,
        one.form,
        one.coding,
        one.readable,
        one.until,
        one.asked,
        one.brute,
        one.after_15,
        one.after_25,
        one.measured,
        one.confirmed,
        one.off_k,
        one.outcome,
        one.story
    )
}
