//! Mutation testing: one change in the code at a time, and whether the tests of its own crate notice.
//!
//! In: the rooms below, a sample size, a seed, and one room where not all of them are meant. Out: how many were caught,
//! room by room, and each survivor by name. Fails below [`FLOOR`]. The tool is `cargo-mutants` (MIT), installed in one
//! version under `target/`. Not here: why a survivor may live (`docs/mutants.md`).

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use crate::shell::{Done, root, scratch, tool};

const VERSION: &str = "27.1.0";
/// So many of a hundred must be caught.
/// Own choice: what survives must have its reason in docs/mutants.md; a tenth has one.
const FLOOR: usize = 90;
/// So many are tried where no number is given; all of them take more than two hours.
/// Own choice: all of them take more than two hours; so many tell 90 % to within 5.
const SAMPLE: usize = 160;
/// The sample's seed where none is given: the same ones each time.
/// By definition: the same ones each time.
const SEED: u64 = 1;

/// Files of one crate where a change costs most, and the tests that have to notice it.
struct Room {
    name: &'static str,
    package: &'static str,
    files: &'static [&'static str],
    /// Quick ones that notice most changes.
    first: Tests,
    /// What is left, is left to these: nothing is a survivor that they notice.
    all: Tests,
}

/// Which tests of a crate.
#[derive(Clone, Copy)]
struct Tests {
    /// What of the crate is built; all of it where empty.
    targets: &'static [&'static str],
    /// In the words of a test program; all of them where empty.
    words: &'static [&'static str],
}

const ROOMS: &[Room] = &[
    Room {
        name: "journal",
        package: "service",
        files: &[
            "journal.rs",
            "journal/open.rs",
            "journal/read.rs",
            "journal/rows.rs",
            "journal/seal.rs",
            "journal/transfer.rs",
            "outbox.rs",
        ],
        first: Tests {
            targets: &["--lib"],
            words: &["journal::", "outbox::", "--skip", "journal::power", "--skip", "journal::spoiled"],
        },
        all: Tests { targets: &["--lib"], words: &["journal::", "outbox::"] },
    },
    Room {
        name: "socket",
        package: "service",
        files: &["hub.rs", "socket.rs", "socket/door.rs", "socket/hear.rs", "socket/places.rs"],
        first: Tests { targets: &["--lib"], words: &["hub::", "socket::"] },
        all: Tests { targets: &["--lib", "--test=daemon"], words: &["--skip", "journal::"] },
    },
    Room {
        name: "access",
        package: "page",
        files: &["access.rs"],
        first: Tests { targets: &["--lib"], words: &[] },
        all: Tests { targets: &[], words: &[] },
    },
    Room {
        name: "driver",
        package: "adapter",
        files: &[
            "codec.rs",
            "schedule.rs",
            "driver/known/confirm.rs",
            "driver/known/turns.rs",
            "driver/phase/search.rs",
            "driver/look.rs",
        ],
        first: Tests { targets: &["--lib"], words: &[] },
        all: Tests { targets: &[], words: &[] },
    },
    Room {
        name: "gate",
        package: "gate",
        files: &[
            "gate.rs",
            "estimate/*.rs",
            "evidence/*.rs",
            "signal/*.rs",
            "vehicle/mixing.rs",
            "vehicle/unseen.rs",
            "verdict/*.rs",
        ],
        first: Tests { targets: &["--lib"], words: &[] },
        all: Tests { targets: &[], words: &[] },
    },
    Room {
        name: "job",
        package: "job",
        files: &[
            "advice/*.rs",
            "decide.rs",
            "fold.rs",
            "follow.rs",
            "port/*.rs",
            "record/*.rs",
            "result/*.rs",
            "told/*.rs",
        ],
        first: Tests { targets: &["--lib", "--test=hazards", "--test=jobs", "--test=port"], words: &[] },
        all: Tests { targets: &[], words: &[] },
    },
];

/// `mutants [N|all] [--seed S] [--room NAME]`.
pub fn run(words: &[&str]) -> Done {
    let (mut most, mut seed, mut only) = (SAMPLE, SEED, None);
    let mut words = words.iter();
    while let Some(word) = words.next() {
        match *word {
            "all" => most = usize::MAX,
            "--seed" => seed = number(words.next().copied())?,
            "--room" => only = words.next().copied(),
            other => most = usize::try_from(number(Some(other))?).map_err(|e| e.to_string())?,
        }
    }
    let tool = tool(("cargo-mutants", VERSION))?;
    let mut mutants = Vec::new();
    // Drawn among what is asked for.
    for room in ROOMS.iter().filter(|room| only.is_none_or(|name| name == room.name)) {
        mutants.extend(list(&tool, room)?.into_iter().map(|name| (room, name)));
    }
    let all = mutants.len();
    mutants.sort_by_key(|(_, name)| drawn(seed, name));
    mutants.truncate(most);
    println!("{} of {all} changes, seed {seed}", mutants.len());
    let (mut tried, mut caught, mut survivors) = (0, 0, Vec::new());
    for room in ROOMS.iter().filter(|room| only.is_none_or(|name| name == room.name)) {
        let names: Vec<&str> =
            mutants.iter().filter(|(of, _)| of.name == room.name).map(|(_, name)| name.as_str()).collect();
        let (mut found, left) = test(&tool, room, &names, room.first)?;
        let left: Vec<&str> = left.iter().map(String::as_str).collect();
        let (late, missed) = test(&tool, room, &left, room.all)?;
        found += late;
        println!("{:10} {found} of {} caught", room.name, found + missed.len());
        tried += names.len();
        caught += found;
        survivors.extend(missed);
    }
    survivors.iter().for_each(|name| println!("survives: {name}"));
    let unviable = tried - caught - survivors.len();
    let tried = tried - unviable;
    println!("{caught} of {tried} caught ({unviable} that do not build left out)");
    if tried == 0 {
        return Err("nothing was tried".to_owned());
    }
    if caught * 100 < tried * FLOOR {
        return Err(format!("fewer than {FLOOR} of 100 were caught"));
    }
    Ok(())
}

fn number(word: Option<&str>) -> Result<u64, String> {
    let word = word.unwrap_or("nothing");
    word.parse()
        .map_err(|_| format!("`{word}` is no number of changes: mutants [N|all] [--seed S] [--room NAME]"))
}

fn base(tool: &Path, room: &Room) -> Command {
    let mut command = Command::new(tool);
    command.current_dir(root()).args(["mutants", "--package", room.package, "--no-shuffle"]);
    for file in room.files {
        command.args(["--file", &format!("crates/{}/src/{file}", room.package)]);
    }
    command
}

/// The names of all changes in a room.
fn list(tool: &Path, room: &Room) -> Result<Vec<String>, String> {
    let output = base(tool, room).arg("--list").output().map_err(|e| format!("cargo-mutants: {e}"))?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    Ok(String::from_utf8_lossy(&output.stdout).lines().map(str::to_owned).collect())
}

/// A number for a name that looks drawn: the 64-bit FNV-1a hash (Fowler, Noll, Vo) over seed and name.
fn drawn(seed: u64, name: &str) -> u64 {
    let bytes = seed.to_be_bytes().into_iter().chain(name.bytes());
    bytes.fold(0xCBF2_9CE4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01B3)
    })
}

/// How many of `names` these tests catch, and the names of those they do not.
fn test(tool: &Path, room: &Room, names: &[&str], by: Tests) -> Result<(usize, Vec<String>), String> {
    if names.is_empty() {
        return Ok((0, Vec::new()));
    }
    let out = scratch(&format!("mutants-{}", room.name))?;
    let mut command = base(tool, room);
    for name in names {
        command.args(["--re", &format!("^{}$", literal(name))]);
    }
    // A change that makes a loop endless is caught by the clock.
    command.args(["--test-package", room.package, "--profile", "mutants", "--jobs", "2"]);
    command.args(["--minimum-test-timeout", "60"]);
    for target in by.targets {
        command.args(["--cargo-arg", target]);
    }
    command.args(["--no-times", "--colors", "never", "--output"]).arg(&out);
    command.args(["--", "--locked", "--"]).args(by.words);
    // Survivors are its exit code 2, timeouts 3: read from its report, not from there.
    command.status().map_err(|e| format!("cargo-mutants: {e}"))?;
    let report = out.join("mutants.out").join("outcomes.json");
    let text = std::fs::read_to_string(&report).map_err(|e| format!("{}: {e}", report.display()))?;
    let report: Value = serde_json::from_str(&text).map_err(|e| e.to_string())?;
    let outcomes = report.get("outcomes").and_then(Value::as_array).cloned().unwrap_or_default();
    let tried = outcomes.iter().filter(|o| o.pointer("/scenario/Mutant/name").is_some()).count();
    if tried != names.len() {
        return Err(format!("{}: {} changes were asked for, {tried} were tried", room.name, names.len()));
    }
    let (mut caught, mut missed) = (0, Vec::new());
    for outcome in outcomes {
        let name = outcome.pointer("/scenario/Mutant/name").and_then(Value::as_str);
        match (name, outcome.get("summary").and_then(Value::as_str)) {
            (Some(_), Some("CaughtMutant" | "Timeout")) => caught += 1,
            (Some(name), Some("MissedMutant")) => missed.push(name.to_owned()),
            (None, Some("Success")) | (Some(_), Some("Unviable")) => {}
            (None, _) => return Err(format!("the tests of {} fail without any change", room.name)),
            (Some(name), other) => return Err(format!("{name}: {other:?}")),
        }
    }
    Ok((caught, missed))
}

/// A name as a regular expression that matches it alone.
fn literal(name: &str) -> String {
    let mut text = String::new();
    for letter in name.chars() {
        // An escaped `<` or `>` is the edge of a word, not the letter.
        if r"\.+*?()|[]{}^$".contains(letter) {
            text.push('\\');
        }
        text.push(letter);
    }
    text
}
