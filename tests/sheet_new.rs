//! The built program makes a sheet with a beginner, corrects it, shares it, and takes one from another workshop.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::io::Write as _;
use std::process::{Output, Stdio};

use common::{Home, stderr, stdout};
use events::Sheet;

/// The program with lines typed into it.
fn typed(home: &Home, arguments: &[&str], lines: &str) -> Output {
    let mut child = home
        .command(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

fn sheet(home: &Home, name: &str) -> Sheet {
    Sheet::parse(&std::fs::read_to_string(home.path().join(name)).unwrap()).unwrap()
}

fn path(home: &Home, name: &str) -> String {
    home.path().join(name).to_str().unwrap().to_owned()
}

#[test]
fn a_beginner_makes_a_sheet_in_two_sittings_and_loses_nothing() {
    let home = Home::new();
    let (file, draft) = (path(&home, "old-six.toml"), path(&home, "old-six.toml.draft"));
    // He cannot say the band at first, tries six times, asks, gives it, and is called away.
    let first = typed(
        &home,
        &["sheet", "new", &file, "--by", "K"],
        "as the maker specifies\n35\nwarm\n35 45\n95-\n??\n-\n?\n95-113 F (maker, page 12)\n",
    );
    assert_eq!(first.status.code(), Some(65), "{}", stderr(&first));
    assert!(stderr(&first).contains("kept in") && std::fs::exists(&draft).unwrap(), "{}", stderr(&first));
    assert!(!std::fs::exists(&file).unwrap());
    // On with the third question; one step back, then to the end.
    let second = typed(
        &home,
        &["sheet", "new", &file, "--by", "K"],
        "nothing of it\nback\n1/2 gal (measured)\n\n\n\n\n\n6,5 L\nwrite\n",
    );
    assert!(second.status.success(), "{}", stderr(&second));
    assert!(stderr(&second).contains("2 answers were kept"), "{}", stderr(&second));
    assert!(!std::fs::exists(&draft).unwrap(), "the answers are in the sheet now");
    let made = sheet(&home, "old-six.toml");
    assert_eq!(
        (made.check.band_c, made.fluid.drain_ml, made.fluid.total_ml),
        ([35.0, 45.0], 1_893.0, 6_500.0)
    );
    assert_eq!(made.provenance["check.band_c"].note.as_deref(), Some("page 12"));
    assert!(made.is_guessed("standpipe.surface_m2") && made.unconfirmed.is_empty());
    let again = typed(&home, &["sheet", "new", &file], "");
    assert_eq!(again.status.code(), Some(73), "{}", stderr(&again));
    // What is guessed and what it costs: check, plan, page.
    let checked = home.run(&["sheet", "check", &file]);
    let said = stdout(&checked);
    assert!(
        checked.status.success() && said.contains("\"guessed\":[") && said.contains("Most would help"),
        "{said}"
    );
    let shown = stdout(&home.run(&["sheet", "show", &file]));
    assert!(
        shown.contains("| band | 35.0") && shown.contains("makers-text, ") && shown.contains("SHA-256"),
        "{shown}"
    );
    let plan = stdout(&home.run(&["plan", "--sheet", &file, "--form", "md"]));
    assert!(plan.contains("## Guessed") && plan.contains("Most would help"), "{plan}");
}

#[test]
fn stop_keeps_everything_and_afresh_begins_anew() {
    let home = Home::new();
    let file = path(&home, "a.toml");
    let stopped = typed(&home, &["sheet", "new", &file], "one\nstop\n");
    assert!(stopped.status.success() && stderr(&stopped).contains("Go on with"), "{}", stderr(&stopped));
    let anew = typed(&home, &["sheet", "new", &file, "--afresh"], "other\n35-45 C\n2 L\ndone\n");
    assert!(anew.status.success(), "{}", stderr(&anew));
    assert_eq!(sheet(&home, "a.toml").fluid.kind, "other");
    assert!(stderr(&anew).contains("That is a sheet"), "{}", stderr(&anew));
    // Three answers are a sheet that works: a whole job with it, by thermometer, ends with the truth inside what is stated.
    let out = home.run(&["rehearse", "--sheet", &file, "--pace", "max", "--seed", "3"]);
    let ending: serde_json::Value = serde_json::from_str(stdout(&out).lines().last().unwrap()).unwrap();
    assert!(out.status.success(), "{ending}");
    assert_eq!(
        (ending["within"].as_bool(), ending["wrong_go"].as_bool()),
        (Some(true), Some(false)),
        "{ending}"
    );
}

#[test]
fn one_value_is_changed_and_two_sheets_are_compared() {
    let home = Home::new();
    let (a, b) = (path(&home, "a.toml"), path(&home, "b.toml"));
    for file in [&a, &b] {
        std::fs::copy(common::fixture("sheets/demo-six-speed.toml"), file).unwrap();
    }
    let same = home.run(&["sheet", "compare", &a, &b]);
    assert!(same.status.success(), "{}", stdout(&same));
    let changed = home.run(&["sheet", "change", &b, "torque_nm.check_port", "30 ft-lb (maker)", "--by", "K"]);
    assert!(changed.status.success() && stdout(&changed).contains("40.7"), "{}", stderr(&changed));
    let differs = home.run(&["sheet", "compare", &a, &b]);
    assert_eq!(differs.status.code(), Some(1));
    let said = stdout(&differs);
    assert_eq!(
        said.trim(),
        r#"{"key":"torque_nm.check_port","a":"40.0","b":"40.7","b_source":"makers-text"}"#
    );
    let bad = home.run(&["sheet", "change", &b, "fluid.total_ml", "1 L"]);
    assert_eq!(bad.status.code(), Some(65));
    assert!(stderr(&bad).contains("less than all of it"), "{}", stderr(&bad));
}

#[test]
fn what_another_workshop_shares_gates_nothing_before_a_person_confirms_it() {
    let home = Home::new();
    let (ours, shared, theirs) =
        (path(&home, "ours.toml"), path(&home, "ours.share"), path(&home, "theirs.toml"));
    std::fs::copy(common::fixture("sheets/demo-six-speed.toml"), &ours).unwrap();
    let log = path(&home, "warm-up.csv");
    std::fs::write(&log, "t_s,coolant_c\n0,20\n").unwrap();
    let out =
        home.run(&["sheet", "share", &ours, "--into", &shared, "--evidence", &log, "--by", "Quillan Lane"]);
    assert!(out.status.success(), "{}", stderr(&out));
    assert!(home.run(&["sheet", "check", &shared]).status.success(), "it is checked as it is");
    let taken = home.run(&["sheet", "take", &shared, "--into", &theirs]);
    assert!(
        taken.status.success() && stdout(&taken).contains("Nothing of it gates yet"),
        "{}",
        stderr(&taken)
    );
    assert_eq!(
        std::fs::read_to_string(home.path().join("theirs.toml.evidence/warm-up.csv")).unwrap(),
        "t_s,coolant_c\n0,20\n"
    );
    let made = sheet(&home, "theirs.toml");
    assert!(
        ["check", "identifier", "fluid"].iter().all(|key| made.unconfirmed.iter().any(|u| u == key)),
        "{:?}",
        made.unconfirmed
    );
    // The same values, the same hash.
    let hash = |file: &str| {
        let line = stdout(&home.run(&["sheet", "check", file, "--json"]));
        serde_json::from_str::<serde_json::Value>(line.trim()).unwrap()["sha256"].as_str().unwrap().to_owned()
    };
    assert_eq!(hash(&ours), hash(&theirs));
    // No job begins; after a person has confirmed it, one does.
    let refused = start(&home, &theirs);
    assert!(
        refused.contains("sheet-unconfirmed") || refused.contains("Nobody has confirmed this sheet"),
        "{refused}"
    );
    let confirmed = home.run(&["sheet", "confirm", &theirs, "--by", "K"]);
    assert!(confirmed.status.success(), "{}", stderr(&confirmed));
    assert!(sheet(&home, "theirs.toml").unconfirmed.is_empty());
    assert_eq!(hash(&ours), hash(&theirs));
    let begun = start(&home, &theirs);
    assert!(!begun.contains("confirmed"), "{begun}");
    // Changed on the way: refused.
    let text = std::fs::read_to_string(&shared).unwrap().replace("2400", "2500");
    std::fs::write(&shared, text).unwrap();
    let bad = home.run(&["sheet", "take", &shared, "--into", &path(&home, "bad.toml")]);
    assert_eq!(bad.status.code(), Some(65));
    assert!(stderr(&bad).contains("hash differs"), "{}", stderr(&bad));
}

#[test]
fn a_sheet_that_is_made_and_corrected_while_the_daemon_runs_is_known_to_it() {
    let home = Home::new();
    let folder = home.path().join("sheets");
    std::fs::create_dir(&folder).unwrap();
    let (sheets, file) = (folder.to_str().unwrap(), folder.join("old-six.toml"));
    let file = file.to_str().unwrap();
    let spot = common::fixture("sheets/demo-spot-only.toml");
    let serve = ["serve", "--device", "none", "--sheet", spot.to_str().unwrap(), "--sheets", sheets];
    let mut daemon = home.start(&serve);
    daemon.until_said(|line| line.contains("socket"));
    let mut events = home.start(&["events", "--json", "--since", "0", "--only", "sheets,job"]);
    let made = typed(&home, &["sheet", "new", file], "as specified\n35-45 C\n2 L\ndone\n");
    assert!(made.status.success(), "{}", stderr(&made));
    let said = events.until(|line| line.contains("\"kind\":\"sheets\""));
    assert!(said.contains("old-six"), "{said}");
    let told = home.run(&["tell", "sheet", "old-six"]);
    assert!(told.status.success(), "{}", stderr(&told));
    let changed = home.run(&["sheet", "change", file, "fluid.drain_ml", "2.5 L (measured)"]);
    assert!(changed.status.success(), "{}", stderr(&changed));
    let said = events.until(|line| line.contains("\"kind\":\"sheets\""));
    assert!(said.contains("\"changed\":"), "{said}");
    let told = home.run(&["tell", "start"]);
    assert!(told.status.success(), "{}", stderr(&told));
    let job = events.until(|line| line.contains("\"kind\":\"job\""));
    assert!(job.contains("\"drain_ml\":2500.0"), "{job}");
}

#[test]
fn remarks_of_a_sheet_stay_when_one_value_is_changed() {
    let home = Home::new();
    let file = path(&home, "mine.toml");
    let text = std::fs::read_to_string(common::fixture("sheets/demo-six-speed.toml")).unwrap();
    std::fs::write(&file, format!("# The black one, bay 2.\n{text}")).unwrap();
    let changed = home.run(&["sheet", "change", &file, "torque_nm.check_port", "30 ft-lb"]);
    assert!(changed.status.success(), "{}", stderr(&changed));
    let now = std::fs::read_to_string(&file).unwrap();
    let remarks = |text: &str| text.lines().filter(|line| line.trim_start().starts_with('#')).count();
    assert!(now.starts_with("# The black one, bay 2.\n"), "{now}");
    assert_eq!(remarks(&now), remarks(&text) + 1, "{now}");
}

/// What a daemon with this sheet says to `tell start`.
fn start(home: &Home, sheet: &str) -> String {
    let mut daemon = home.start(&["serve", "--device", "none", "--sheet", sheet]);
    daemon.until_said(|line| line.contains("socket"));
    let told = home.run(&["tell", "start"]);
    daemon.kill();
    stderr(&told) + &stdout(&told)
}
