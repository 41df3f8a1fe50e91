//! From a vehicle whose identifier nobody knows to a level that is set by it, by the built program in a real terminal.
//!
//! ```text
//!   find --rehearse ─ hands and thermometer are typed ─► answers that were kept ─ sheet new ─► a sheet ─ rehearse --unknown ─► set
//! ```
//!
//! Simulated time, the same vehicle throughout; the adapter is behind a pseudo-terminal each time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, Terminal, stderr, stdout};
use events::{Sheet, Signal, Source};
use serde_json::Value;

/// A vehicle whose identifier can be told from its neighbours.
const VEHICLE: &str = "3";

/// The lines that hold these words.
fn count(text: &str, words: &str) -> usize {
    text.lines().filter(|line| line.contains(words)).count()
}

/// What stands behind the words, up to the degrees, in the last line that holds them.
fn last_celsius(text: &str, words: &str) -> f64 {
    let line = text.lines().rfind(|line| line.contains(words)).unwrap();
    let (_, rest) = line.split_once(words).unwrap();
    let number: String = rest.trim().chars().take_while(|c| "-.0123456789".contains(*c)).collect();
    number.parse().unwrap_or_else(|_| panic!("{line}"))
}

/// A person who does what is written, and nothing else, until it is found.
fn obeys(terminal: &Terminal<'_>) -> String {
    const DOES: [(&str, &str); 4] = [
        ("Turn the key off for ten minutes", "key off"),
        ("Then start it, in P", "engine on"),
        ("measure the sump", "measure"),
        ("Then confirm it", "yes"),
    ];
    let mut done = 0;
    loop {
        let asked = |text: &str| DOES.iter().map(|(words, _)| count(text, words)).sum::<usize>();
        let written = terminal.until_written("what to do next", |text| {
            asked(text) > done || text.contains("Only the simulation knows")
        });
        if written.contains("Only the simulation knows") {
            return written;
        }
        done = asked(&written);
        let asks = written.lines().rev().find_map(|line| DOES.iter().find(|(words, _)| line.contains(words)));
        let (_, does) = asks.unwrap();
        if *does == "yes" {
            let (thermometer, leads) =
                (last_celsius(&written, "The thermometer shows"), last_celsius(&written, "%, shows"));
            assert!((thermometer - leads).abs() < 4.0, "it shows what the thermometer shows: {written}");
        }
        let before = count(&written, "The thermometer shows");
        terminal.type_line(does);
        if *does == "measure" {
            let shown = terminal
                .until_written("the thermometer", |text| count(text, "The thermometer shows") > before);
            terminal.type_line(&format!("{}C tape", last_celsius(&shown, "The thermometer shows")));
        }
    }
}

#[test]
fn an_identifier_that_nobody_knows_is_found_and_a_level_is_set_by_it() {
    let home = Home::new();
    let file = home.path().join("unknown-six.toml").display().to_string();
    let find = ["find", "--rehearse", VEHICLE, "--pace", "max", "--into", &file];
    let Some(terminal) = Terminal::open(&home, 100, 30, &find) else { return };
    let written = obeys(&terminal);
    assert!(written.contains("that is it."), "{written}");
    let next = format!("standpipe sheet new {file}");
    assert!(written.contains(&next), "what comes next is said: {written}");
    drop(terminal);

    // The maker's procedure says the rest; what it does not say is left open.
    let Some(terminal) = Terminal::open(&home, 100, 30, &["sheet", "new", &file, "--by", "K"]) else {
        return;
    };
    let answers: &[(&str, &str)] = &[
        ("Which fluid", "as the maker specifies"),
        ("Between which temperatures", "35-45 C (maker, page 12)"),
        ("How much came out", "2,4 L (measured)"),
        ("Where does the level", ""),
        ("From where is it filled", ""),
        ("How does the old fluid", ""),
        ("When is the level right", ""),
        ("How much fluid is in it", "8 L (maker)"),
        ("Write the sheet now", "write"),
    ];
    let mut journal = String::new();
    for (number, (asks, says)) in (1..).zip(answers) {
        let wanted = format!("{number}. {asks}");
        journal = terminal.until_written(asks, |text| text.contains(&wanted));
        terminal.type_line(says);
    }
    assert!(journal.contains("The identifier that was found is in it"), "{journal}");
    assert!(!journal.contains("Which identifier"), "what was found is not asked for: {journal}");
    terminal.until_written("the sheet", |text| text.contains("written to"));
    drop(terminal);

    let sheet = Sheet::parse(&std::fs::read_to_string(&file).unwrap()).unwrap();
    assert_eq!((sheet.check.signal, sheet.check.k), (Signal::Fluid, Sheet::FOUND_K));
    assert_eq!(sheet.source("identifier"), Some(Source::Found));
    assert!(sheet.unconfirmed.is_empty(), "{:?}", sheet.unconfirmed);

    // One value more, from the maker's table, in the unit that stands there.
    let changed =
        home.run(&["sheet", "change", &file, "torque_nm.check_port", "30 ft-lb (maker)", "--by", "K"]);
    assert!(changed.status.success(), "{}", stderr(&changed));
    let checked = home.run(&["sheet", "check", &file]);
    assert!(checked.status.success(), "{}", stderr(&checked));

    // The whole job on the vehicle that it was found on.
    let job = |sheet: &str, vehicle: &str| {
        home.run(&["rehearse", "--sheet", sheet, "--unknown", vehicle, "--pace", "max", "--seed", "5"])
    };
    let out = job(&file, VEHICLE);
    let said = stdout(&out);
    let ending: Value = serde_json::from_str(said.lines().last().unwrap()).unwrap();
    assert!(out.status.success(), "{ending} {}", stderr(&out));
    assert_eq!(
        (ending["within"].as_bool(), ending["wrong_go"].as_bool()),
        (Some(true), Some(false)),
        "{ending}"
    );
    let events: Vec<Value> = said.lines().filter_map(|line| serde_json::from_str(line).ok()).collect();
    let reads = |what: &str| events.iter().filter(|e| e["kind"] == "reading" && e["name"] == what).count();
    assert!(reads("fluid-temperature") > 100, "it was gated by what was found");
    assert_eq!(reads("spot-temperature"), 0, "and by no thermometer");
    assert!(events.iter().any(|e| e["kind"] == "verdict" && e["verdict"] == "go"));
}
