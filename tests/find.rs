//! The built program searches the identifier of a vehicle that nobody knows: over a pseudo-terminal, interrupted, taken up again.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, stderr};
use serde_json::Value;

fn json(line: &str) -> Value {
    serde_json::from_str(line).unwrap_or_default()
}

/// How many requests were made, where the line says so.
fn asked(line: &str) -> u64 {
    let line = json(line);
    if line["kind"] == "find" { line["asked"].as_u64().unwrap() } else { 0 }
}

#[test]
fn a_search_that_is_interrupted_keeps_what_it_knows_and_goes_on_there() {
    let home = Home::new();
    let mut car = home.start(&["car", "--link", "pty", "--unknown", "3"]);
    let device = car.line();
    let into = home.path().join("found.toml");
    let search = ["find", "--json", "--device", &device, "--into", into.to_str().unwrap()];

    let mut first = home.start(&search);
    let before = asked(&first.until(|line| asked(line) >= 40));
    let pid = rustix::process::Pid::from_child(&first.child);
    rustix::process::kill_process(pid, rustix::process::Signal::INT).unwrap();
    assert_eq!(first.child.wait().unwrap().code(), Some(130));
    let kept = home.path().join("state/standpipe/bay.find.json");
    assert!(kept.is_file(), "{:?}", std::fs::read_dir(home.path().join("state")).map(|all| all.count()));

    let mut second = home.start(&search);
    let line = second.until(|line| asked(line) > 0);
    assert!(asked(&line) >= before, "{before} asked before, then {line}");
    // `watch`, `tell` and the page join as with `serve`.
    let told = home.run(&["tell", "spot", "12.5C", "--surface", "tape"]);
    assert!(told.status.success(), "{}", stderr(&told));
    let told = home.run(&["tell", "candidate", "7E1", "22", "4D07"]);
    assert!(stderr(&told).contains("refused"), "nothing leads yet: {}", stderr(&told));
    let told = home.run(&["tell", "start"]);
    assert!(stderr(&told).contains("--sheet"), "nothing is set without a sheet: {}", stderr(&told));
    second.type_line("quit");
    assert_eq!(second.child.wait().unwrap().code(), Some(1), "not found yet");
    assert!(!into.exists());
}

#[test]
fn what_cannot_be_begun_says_why() {
    let home = Home::new();
    let there = home.path().join("there");
    std::fs::write(&there, "no table and no sheet").unwrap();
    let there = there.to_str().unwrap();
    let cases: &[(&[&str], i32, &str)] = &[
        (&["find", "--into", there], 73, "is there already"),
        (&["find", "--dbc", there], 65, "DBC form"),
        (&["find", "--sheet", there], 65, "the sheet"),
        (&["find", "--device", "/dev/null/none"], 69, "standpipe:"),
    ];
    for (arguments, code, says) in cases {
        let output = home.run(arguments);
        assert_eq!(output.status.code(), Some(*code), "{arguments:?}: {}", stderr(&output));
        assert!(stderr(&output).contains(says), "{arguments:?}: {}", stderr(&output));
    }
}
