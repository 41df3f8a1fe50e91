//! No wrong `go`: hundreds of seeded rehearsals in memory, over random vehicles, sensors at their limits, noise,
//! faults and technicians' mistakes. The daemon's own bay runs in each; nothing sleeps.
//!
//! What is claimed of each, and when a `go` counts as possible, stands in `rehearsal::campaign` and
//! `rehearsal::observer`. Here with the checks of a build for tests; `cargo xtask nightly` runs a hundred thousand in a
//! fast one.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use rehearsal::Campaign;
use rehearsal::campaign::Form;

/// How many are run; `STANDPIPE_REHEARSALS` asks for more or fewer.
const RUNS: u64 = 200;

#[test]
fn no_rehearsal_gives_a_wrong_go_or_a_record_that_is_wrong_and_few_miss_a_possible_go() {
    let runs = std::env::var("STANDPIPE_REHEARSALS").ok().and_then(|n| n.parse().ok()).unwrap_or(RUNS);
    let campaign = Campaign::run(1, runs, &common::sheets(), Form::AsDrawn, common::OnStage::of, |_| ());
    println!("{campaign}");
    let wrong: Vec<String> = campaign.wrong().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(wrong.is_empty(), "{} of {runs}:\n{}", wrong.len(), wrong.join("\n"));
    let harmful: Vec<String> =
        campaign.harmful().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(harmful.is_empty(), "{} of {runs}:\n{}", harmful.len(), harmful.join("\n"));
    assert_eq!(campaign.false_acceptance(), Vec::<String>::new(), "more false `go` than is claimed");
    let (missed, possible) = campaign.missed_of_possible();
    let stories: Vec<String> =
        campaign.missed().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(missed * 50 <= possible, "{missed} of {possible} missed:\n{}", stories.join("\n"));
    // A gate that never opens would pass the first, and an observer for whom nothing is possible the second.
    let (saw_go, set) = campaign.findings.iter().fold((0, 0), |(go, set), finding| {
        (go + u64::from(finding.u_at_go.is_some()), set + u64::from(finding.set_ml.is_some()))
    });
    assert!(saw_go * 3 > runs && possible * 3 > runs, "{saw_go} saw go, {possible} could, of {runs}");
    assert!(set * 5 > runs, "only {set} of {runs} rehearsals ended as set");
}

/// How many are run without an adapter.
const RUNS_BY_PEOPLE: u64 = 60;

#[test]
fn without_an_adapter_no_rehearsal_gives_a_wrong_go_or_a_record_that_is_wrong() {
    let program = common::OnStage::of;
    let read_inside = ["demo-display", "demo-lamp"].map(|name| {
        let text = std::fs::read_to_string(common::fixture(&format!("sheets/{name}.toml"))).unwrap();
        events::Sheet::parse(&text).unwrap()
    });
    let sheets: Vec<_> = common::sheets().into_iter().chain(read_inside).collect();
    let campaign = Campaign::run(1, RUNS_BY_PEOPLE, &sheets, Form::ByPeople, program, |_| ());
    println!("{campaign}");
    let wrong: Vec<String> = campaign.wrong().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(wrong.is_empty(), "{} of {RUNS_BY_PEOPLE}:\n{}", wrong.len(), wrong.join("\n"));
    assert_eq!(campaign.false_acceptance(), Vec::<String>::new(), "more false `go` than is claimed");
    let harmful: Vec<&str> = campaign.harmful().map(|(_, story)| story).collect();
    assert!(harmful.is_empty(), "{harmful:?}");
    let set = campaign.findings.iter().filter(|finding| finding.set_ml.is_some()).count() as u64;
    assert!(set * 5 > RUNS_BY_PEOPLE, "only {set} of {RUNS_BY_PEOPLE} rehearsals ended as set");
}

/// How many are run in which faults end.
const RUNS_ONCE_WELL: u64 = 100;

#[test]
fn once_its_faults_are_over_every_rehearsal_reads_its_signal_in_time() {
    assert_eq!(rehearsal::liveness::READS_WITHIN, adapter::Driver::READS_WITHIN, "one bound");
    let campaign =
        Campaign::run(1, RUNS_ONCE_WELL, &common::sheets(), Form::FaultsEnd, common::OnStage::of, |_| ());
    let mute: Vec<String> = campaign.mute().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(mute.is_empty(), "{} of {RUNS_ONCE_WELL}:\n{}", mute.len(), mute.join("\n"));
    let wrong: Vec<String> = campaign.wrong().map(|(seed, story)| format!("seed {seed}: {story}")).collect();
    assert!(wrong.is_empty(), "{} of {RUNS_ONCE_WELL}:\n{}", wrong.len(), wrong.join("\n"));
}

/// How many procedures are told, by two people, by one, and without an adapter.
const RUNS_BY_ADVICE: u64 = 150;

#[test]
fn whoever_does_what_he_is_told_comes_to_no_harm_and_to_no_wrong_record_in_any_procedure() {
    let sheets: Vec<_> = common::procedures().into_iter().map(|(_, sheet)| sheet).collect();
    let campaign = Campaign::run(1, RUNS_BY_ADVICE, &sheets, Form::ByAdvice, common::OnStage::of, |_| ());
    println!("{campaign}\n{}", campaign.by_procedure());
    let told = |(seed, story): (u64, &str)| format!("seed {seed}: {story}");
    let broken: Vec<String> = campaign.wrong().chain(campaign.harmful()).map(told).collect();
    assert!(broken.is_empty(), "{} of {RUNS_BY_ADVICE}:\n{}", broken.len(), broken.join("\n"));
    let set = campaign.findings.iter().filter(|finding| finding.set_ml.is_some()).count() as u64;
    assert!(set * 2 > RUNS_BY_ADVICE, "only {set} of {RUNS_BY_ADVICE} ended as set");
}
