//! No wrong `go`: thousands of seeded rehearsals in memory, over random vehicles, sensors at their limits, noise,
//! faults and technicians' mistakes. The daemon's own bay runs in each; nothing sleeps.
//!
//! Two claims, over every run: the verdict is never `go` while the true temperature lies outside the band by
//! more than the stated uncertainty; and no job ends as `set` with a true level error beyond what its record states.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use events::Outcome;
use rehearsal::{Ending, Keep, Setup, stage};

/// How many are run; `STANDPIPE_REHEARSALS` asks for more.
const RUNS: u64 = 2_000;

fn run(seed: u64) -> (Setup, Ending) {
    let mut setup = Setup::draw(seed, &common::sheets());
    setup.keep = Keep::Nothing;
    let mut program = common::OnStage::new(&setup.sheet);
    let ending = stage::run(&mut program, &setup);
    (setup, ending)
}

/// What is wrong with one ending, if anything is.
fn fault(seed: u64, setup: &Setup, ending: &Ending) -> Option<String> {
    let who = format!(
        "seed {seed}, {}, mistake {:?}, faults {:?}",
        setup.sheet.name, setup.script.mistake, setup.faults
    );
    if let Some(go) = ending.false_go.iter().find(|go| go.is_wrong()) {
        return Some(format!("{who}: a wrong go at {}: {go:?}", go.at));
    }
    let result = ending.result.as_ref()?;
    if result.outcome != Outcome::Set {
        return None;
    }
    let Some(level) = &result.level_error else { return Some(format!("{who}: set without a level error")) };
    let off = (level.millilitres.to_f64() - ending.truth.level_error_ml).abs();
    (off > level.expanded_millilitres.to_f64()).then(|| {
        format!(
            "{who}: set at {} ± {} mL, truly {:.0} mL",
            level.millilitres, level.expanded_millilitres, ending.truth.level_error_ml
        )
    })
}

#[test]
fn no_rehearsal_of_thousands_gives_a_wrong_go_or_a_record_that_is_wrong() {
    let runs = std::env::var("STANDPIPE_REHEARSALS").ok().and_then(|n| n.parse().ok()).unwrap_or(RUNS);
    let next = AtomicU64::new(1);
    let (faults, saw_go, set) = (Mutex::new(Vec::new()), AtomicU64::new(0), AtomicU64::new(0));
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(2, usize::from) {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed > runs {
                        break;
                    }
                    let (setup, ending) = run(seed);
                    saw_go.fetch_add(u64::from(ending.saw_go), Ordering::Relaxed);
                    let is_set = ending.result.as_ref().is_some_and(|r| r.outcome == Outcome::Set);
                    set.fetch_add(u64::from(is_set), Ordering::Relaxed);
                    faults.lock().unwrap().extend(fault(seed, &setup, &ending));
                }
            });
        }
    });
    let faults = faults.into_inner().unwrap();
    let (saw_go, set) = (saw_go.into_inner(), set.into_inner());
    // Rule of three: no event in n runs puts its rate below 3/n with 95 % confidence.
    println!(
        "{runs} rehearsals: {saw_go} saw go, {set} ended as set, {} wrong; below {:.2} % at 95 %",
        faults.len(),
        300.0 / runs as f64
    );
    assert!(faults.is_empty(), "{} of {runs}:\n{}", faults.len(), faults.join("\n"));
    // A gate that never opens would pass the test above; it must not pass this one.
    assert!(saw_go * 3 > runs, "only {saw_go} of {runs} rehearsals saw go");
    assert!(set * 5 > runs, "only {set} of {runs} rehearsals ended as set");
}
