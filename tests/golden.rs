//! Whole jobs over three recorded warm-ups: the sequence of verdicts and advice is a reviewed file.
//!
//! `BLESS=1 cargo test --test golden` writes the files anew; the difference is read line by line before it is
//! committed, and the commit says why the new lines are right.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::fmt::Write as _;

use events::{Body, Event, Role};
use rehearsal::{Keep, Setup, Warmup, embedded, stage};

/// The verdict, its reasons and what is open, and the advice, whenever one of them changes.
fn sequence(events: &[Event]) -> String {
    let mut text = String::new();
    for event in events {
        let seconds = event.mono_ms.as_millis() / 1_000;
        let clock = format!("{:>3}:{:02}", seconds / 60, seconds % 60);
        match &event.body {
            Body::Verdict { verdict, reasons, open, celsius, u, .. } => {
                let words = |all: Vec<&str>| all.join(" ");
                let at = match (celsius, u) {
                    (Some(t), Some(u)) => format!("{t} ± {u}"),
                    _ => "unknown".to_owned(),
                };
                let reasons = words(reasons.iter().map(|r| r.word()).collect());
                let open = words(open.iter().map(|p| p.word()).collect());
                writeln!(text, "{clock} {verdict:<8} {at:<12} {reasons} | {open}").unwrap();
            }
            Body::Advice(said) => {
                let (under, inside) = (said.at(Role::Under), said.at(Role::Inside));
                writeln!(text, "{clock}          do {under} / {inside}").unwrap();
            }
            Body::Result(result) => writeln!(text, "{clock} result {}", result.outcome).unwrap(),
            _ => {}
        }
    }
    text
}

#[test]
fn golden_verdicts_of_whole_jobs_over_recorded_warm_ups() {
    for name in ["2018-02-23-s-s-stau", "2017-07-28-ka-ka-normal", "2018-03-20-ka-ka-normal"] {
        let log = std::fs::read_to_string(common::fixture(&format!("warmups/{name}.csv"))).unwrap();
        let mut setup = Setup::named(None, &embedded::six_speed(), Some(Warmup::parse(&log).unwrap()), 1);
        setup.keep = Keep::Facts;
        let ending = stage::run(&mut common::OnStage::new(&setup.sheet), &setup);
        assert!(!ending.false_go.iter().any(rehearsal::FalseGo::is_wrong), "{name}");
        let got = sequence(&ending.events);
        let path = common::fixture(&format!("golden/job-{name}.verdicts"));
        if std::env::var_os("BLESS").is_some() {
            std::fs::write(&path, &got).unwrap();
        }
        let want = std::fs::read_to_string(&path).unwrap();
        for (number, (got, want)) in got.lines().zip(want.lines()).enumerate() {
            assert_eq!(got, want, "{name}, line {}", number + 1);
        }
        assert_eq!(got.lines().count(), want.lines().count(), "{name}");
    }
}
