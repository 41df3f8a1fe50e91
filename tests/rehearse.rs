//! The built program rehearses: the good job, every mistake, the same events from the same seed.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, last_line, stderr, stdout};

/// The end-to-end claim of the main job: set, the true error within ±60 mL, the estimate no further from it than it
/// states, at least 25 simulated minutes, a report.
#[test]
fn the_main_job_ends_as_set_with_the_truth_inside_the_stated_uncertainty() {
    let home = Home::new();
    let keep = home.path().join("kept");
    let output = home.run(&["rehearse", "--pace", "max", "--json", "--keep", keep.to_str().unwrap()]);
    assert!(output.status.success(), "{}", stderr(&output));
    let ending = last_line(&output);
    assert_eq!(ending["outcome"], "set");
    let number = |name: &str| ending[name].as_f64().unwrap();
    assert!(number("true_millilitres").abs() <= 60.0, "{ending}");
    let apart = (number("true_millilitres") - number("estimated_millilitres")).abs();
    assert!(apart <= number("expanded_millilitres"), "{ending}");
    assert!(number("simulated_seconds") >= 25.0 * 60.0, "{ending}");
    assert_eq!(ending["wrong_go"], false);
    let report = std::fs::read_to_string(keep.join("report.html")).unwrap();
    assert!(report.contains("The level is set.") && report.contains("<svg"));
    assert!(!report.contains("http://") && !report.contains("https://"), "no external resource");

    let again =
        home.run(&["report", "--journal", keep.to_str().unwrap(), "--bay", "rehearsal", "--form", "md"]);
    assert!(again.status.success(), "{}", stderr(&again));
    assert!(stdout(&again).contains("drained 2."), "{}", stdout(&again));
}

#[test]
fn the_same_seed_gives_the_same_bytes_even_while_others_run() {
    let home = Home::new();
    let mut at_once: Vec<_> =
        (0..3).map(|_| home.start(&["rehearse", "--pace", "max", "--json", "--seed", "7"])).collect();
    let mut outputs = at_once.iter_mut().map(|process| {
        let mut lines = Vec::new();
        loop {
            let line = process.line();
            let last = line.contains("\"kind\":\"ending\"");
            lines.push(line);
            if last {
                return lines;
            }
        }
    });
    let first = outputs.next().unwrap();
    assert!(first.len() > 5_000);
    for other in outputs {
        assert!(other == first, "the same seed gave other lines");
    }
    let other_seed = home.run(&["rehearse", "--pace", "max", "--json", "--seed", "8"]);
    assert_ne!(
        stdout(&other_seed).lines().map(str::to_owned).collect::<Vec<_>>(),
        first,
        "another seed, another job"
    );
}

/// Three days after the job 350 mL have leaked out: the recheck finds them, in the same journal, and sets the level.
#[test]
fn a_recheck_finds_what_has_leaked_out_since() {
    let home = Home::new();
    let keep = home.path().join("kept");
    let words = ["rehearse", "--pace", "max", "--json", "--recheck", "--leaked", "350", "--keep"];
    let output = home.run(&[&words[..], &[keep.to_str().unwrap()]].concat());
    assert!(output.status.success(), "{}", stderr(&output));
    let ending = last_line(&output);
    let number = |name: &str| ending[name].as_f64().unwrap();
    let off = (number("found_millilitres") - number("true_before_millilitres")).abs();
    assert!(off <= number("found_expanded_millilitres"), "{ending}");
    assert!(number("true_before_millilitres") < -300.0, "{ending}");
    let jobs = home.run(&["jobs", "--journal", keep.to_str().unwrap(), "--bay", "rehearsal", "--json"]);
    let listed = stdout(&jobs);
    assert!(listed.contains("2026-03-02") && listed.contains("2026-03-05"), "three days apart: {listed}");
    let alone = home.run(&["rehearse", "--leaked", "350"]);
    assert_eq!(alone.status.code(), Some(64), "nothing leaks out until a recheck that is not rehearsed");
}

/// A check of a vehicle that lacks 600 mL: found, said with its ±, set, and the truth beside it.
#[test]
fn a_check_says_what_was_missing() {
    let home = Home::new();
    let words = ["rehearse", "--pace", "max", "--json", "--job", "check", "--missing", "600"];
    let output = home.run(&words);
    assert!(output.status.success(), "{}", stderr(&output));
    let ending = last_line(&output);
    let number = |name: &str| ending[name].as_f64().unwrap();
    assert_eq!((ending["outcome"].as_str(), number("true_before_millilitres")), (Some("set"), -600.0));
    let off = (number("found_millilitres") + 600.0).abs();
    assert!(off <= number("found_expanded_millilitres") && off < 150.0, "{ending}");
    let output = home.run(&["rehearse", "--missing", "600"]);
    assert_eq!(output.status.code(), Some(64), "{}", stderr(&output));
    let output = home.run(&["rehearse", "--job", "chek"]);
    assert!(stderr(&output).contains("known: change, check"), "{}", stderr(&output));
}

/// Name, exit code, words that the person must read.
const MISTAKES: &[(&str, i32, &[&str])] = &[
    ("started-hot", 1, &["was warm when the job began", "let the vehicle cool"]),
    ("under-filled", 1, &["Nothing ran out at `go`", "Fill more"]),
    ("not-level", 1, &["did not stand level", "tell level --pitch"]),
    ("opened-late", 1, &["too hot before the stream was a trickle", "Let it cool"]),
    ("closed-late", 1, &["too hot before the stream was a trickle", "Let it cool"]),
    (
        "wrong-order",
        1,
        &["Nothing ran out at `go`", "open before the verdict was `go`", "does not fit what was filled"],
    ),
    ("bypass-not-pinned", 1, &["never confirmed", "Pin the bypass valve open"]),
    ("adapter-unplugged", 0, &[]),
    ("stays-below", 0, &[]),
    ("hose-forgotten", 0, &[]),
    (
        "helper-stops",
        1,
        &["had not become a trickle", "not `go` when the port was closed", "Start the engine"],
    ),
    ("sensor-frozen", 1, &["could not be trusted", "Compare it with a thermometer"]),
];

#[test]
fn every_mistake_ends_without_a_wrong_go_and_says_what_to_do() {
    let home = Home::new();
    for (name, exit, words) in MISTAKES {
        let output = home.run(&["rehearse", "--pace", "max", "--json", "--mistake", name]);
        let said = stderr(&output);
        assert_eq!(output.status.code(), Some(*exit), "{name}: {said}");
        let ending = last_line(&output);
        assert_eq!(ending["wrong_go"], false, "{name}");
        assert_eq!(ending["outcome"] == "set", *exit == 0, "{name}: {ending}");
        for word in *words {
            assert!(said.contains(word), "{name} must say {word:?}: {said}");
        }
    }
}

/// Before each of these words is told, the advice is never said: who learns from the rehearsal sees what the program
/// waits for.
#[test]
fn nothing_is_said_that_would_harm_while_a_word_is_missing() {
    let home = Home::new();
    for (name, deed, word) in [
        ("stays-below", "stays below to look for his lamp", "comes out"),
        ("hose-forgotten", "forgets the exhaust hose", "leads the exhaust outside"),
    ] {
        let output = home.run(&["rehearse", "--pace", "max", "--plain", "--mistake", name]);
        let text = stdout(&output);
        let since = text.find(deed).unwrap_or_else(|| panic!("{name}: {text}"));
        let until = since + text[since..].find(word).unwrap();
        assert!(!text[since..until].contains("Start now"), "{name}: {}", &text[since..until]);
        assert!(text[until..].contains("Start now"), "{name}: then it is");
    }
}

#[test]
fn the_adapter_that_was_unplugged_is_waited_for_and_the_job_goes_on() {
    let home = Home::new();
    let output = home.run(&["rehearse", "--pace", "max", "--json", "--mistake", "adapter-unplugged"]);
    let text = stdout(&output);
    let lost = text
        .lines()
        .position(|l| l.contains(r#""kind":"link","state":"lost","detail":"the adapter is gone"#));
    let lost = lost.expect("the loss is an event with a reason");
    let back = text.lines().skip(lost).position(|l| l.contains(r#""state":"protocol""#));
    assert!(back.is_some(), "it came back");
    let meanwhile: Vec<&str> = text.lines().skip(lost).take(back.unwrap()).collect();
    assert!(
        meanwhile.iter().any(|l| l.contains(r#""verdict":"wait","reasons":["link-lost""#)),
        "{meanwhile:?}"
    );
    assert!(!meanwhile.iter().any(|l| l.contains(r#""verdict":"go""#)));
}

#[test]
fn a_recorded_warm_up_and_another_sheet_can_be_named() {
    let home = Home::new();
    let log = common::fixture("warmups/2017-07-28-ka-ka-normal.csv");
    let sheet = common::fixture("sheets/demo-eight-speed-bypass.toml");
    let output = home.run(&[
        "rehearse",
        "--pace",
        "max",
        "--json",
        "--warmup",
        log.to_str().unwrap(),
        "--sheet",
        sheet.to_str().unwrap(),
    ]);
    let ending = last_line(&output);
    assert_eq!(ending["wrong_go"], false, "{}", stderr(&output));
    assert_eq!(ending["outcome"], "set", "{}", stderr(&output));
}

/// Through the socket, on the rehearsal's clock: everything is told, and no line says that a vehicle showed it.
#[test]
fn without_an_adapter_the_job_is_told_and_ends_as_set() {
    let home = Home::new();
    let keep = home.path().join("kept");
    let sheet = common::fixture("sheets/demo-spot-only.toml");
    let (sheet, keep) = (sheet.to_str().unwrap(), keep.to_str().unwrap());
    let arguments =
        ["rehearse", "--device", "none", "--sheet", sheet, "--pace", "max", "--json", "--keep", keep];
    let output = home.run(&arguments);
    assert!(output.status.success(), "{}", stderr(&output));
    let ending = last_line(&output);
    assert_eq!((&ending["outcome"], &ending["wrong_go"]), (&"set".into(), &false.into()), "{ending}");
    let text = stdout(&output);
    let count = |what: &str| text.lines().filter(|line| line.contains(what)).count();
    assert_eq!(count(r#""kind":"link""#), count(r#""state":"people""#), "no link, and no trouble with one");
    assert_eq!(count(r#""name":"engine-speed""#), 0);
    assert!(count(r#""tell":"engine","what":"idling""#) >= 2 && count(r#""read_again_in":"#) > 0);
    let report = std::fs::read_to_string(std::path::Path::new(keep).join("report.html")).unwrap();
    assert!(report.contains("everything was told by people") && report.contains("The engine idles"));
    for never in ["vehicle showed", ">vehicle<", "adapter lost"] {
        assert!(!report.contains(never), "{never}");
    }
    let again = home.run(&arguments[..8]);
    assert!(stdout(&again) == text, "the same seed, the same lines");

    let coolant = common::fixture("sheets/demo-coolant-only.toml");
    let output = home.run(&["rehearse", "--device", "none", "--sheet", coolant.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(78), "{}", stderr(&output));
    let output = home.run(&["serve", "--device", "none", "--sheet", coolant.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(78), "{}", stderr(&output));
    assert!(stderr(&output).contains("without an adapter nobody reads that"), "{}", stderr(&output));
}

/// The README's excerpt is shortened, not invented: each of its lines comes, in that order.
#[test]
fn the_readme_shows_what_comes_out() {
    let readme = std::fs::read_to_string(common::fixture("../README.md")).unwrap();
    let excerpt = readme.split("```text\n").nth(1).unwrap().split("```").next().unwrap();
    let output = Home::new().run(&["rehearse", "--plain", "--pace", "max"]);
    let said = stdout(&output);
    let mut rest = said.lines();
    for line in excerpt.lines().filter(|line| !line.trim().is_empty()) {
        assert!(
            rest.any(|said| said.trim_end() == line.trim_end()),
            "the README's line does not come: {line}\n{said}"
        );
    }
}
