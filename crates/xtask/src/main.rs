//! `cargo xtask …`: developer chores, the same at the desk and in CI.
//!
//! Each chore prints what it does and stops at the first failure. Not here: anything the program itself needs.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a chore talks to the person at the terminal")]
#![allow(unreachable_pub, reason = "a binary exports nothing; `pub` marks what other files of it use")]

mod browser;
mod chroot;
mod components;
mod fuzz;
mod house;
mod mutants;
mod notices;
mod package;
mod readme;
mod sbom;
mod shell;
mod supply;
mod tests;

use std::process::{Command, ExitCode};
use std::time::Instant;

use shell::{Done, cargo};

const HELP: &str = "\
cargo xtask test      everything, as CI runs it: format, house rules, lints, docs, every test, schema, pictures
cargo xtask quick     for the desk: format, house rules, lints and all tests but browsers, terminals, campaigns and the program's own rehearsals
cargo xtask nightly   what is too long for every change: the whole campaign, mutants, fuzzing, thirty rounds of the browser's tests
cargo xtask house     only the rules of the house: who may import whom, and that the pure crates are pure
cargo xtask schema    writes docs/schema/ anew from the types
cargo xtask fuzz [S]  every fuzz target for S seconds (60 where absent)
cargo xtask mutants [N|all] [--seed S] [--room NAME]  changes the code in N places, one at a time (160 where absent), and sees whether tests notice
cargo xtask package [--arm64]  the Debian package, in target/package-files; lintian and its size are looked at
cargo xtask package check    what of it costs no build: pages, completions, the unit
cargo xtask package try      installs it in a small Debian of its own, starts, upgrades over a running job, removes, purges (as root, with debootstrap)
cargo xtask package repeat   builds the last commit in two folders: is it the same program?
cargo xtask browser [N]  the browser's tests N times in a row (30 where absent), half of them beside two busy loops
cargo xtask fit [DIR] learns the forecast's rates from recorded warm-ups (fixtures/warmups/climbs where absent)
cargo xtask score [DIR] [built-in]  scores the forecast on recorded warm-ups, one day left out at a time; or as it is built in
cargo xtask campaign [N] [--from SEED] [--into FILE] [--once-well | --timed | --seen | --sensors K | --check | --procedures]  N drawn rehearsals (100000 where absent): no wrong `go`, no wrong record, few missed, or a reading in time once faults are over, or a trouble timed to the band in each (any, or one that the gate is made to see), or sensors to ±K, or what is said of vehicles that nobody knows, or every procedure by the advice alone; one is told as a story
cargo xtask campaign broken [N] [--from SEED] [--only PROTECTION]  takes each protection out of the gate: do at most N rehearsals (2000 where absent) find it?
cargo xtask campaign find [N] [--from SEED] [--into FILE]  N drawn vehicles whose identifier nobody knows (1000 where absent): searched, watched through a cold start
cargo xtask plots     draws the pictures of docs/gate.md anew
cargo xtask bless     writes the golden files anew; review the difference before you commit it";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["test"] => test(),
        ["quick"] => quick(),
        ["nightly"] => nightly(),
        ["house"] => house::check(),
        ["schema"] => write_schema(),
        ["fuzz"] => fuzz::run(60),
        ["fuzz", seconds] => match seconds.parse() {
            Ok(seconds) => fuzz::run(seconds),
            Err(_) => Err(format!("`{seconds}` is no number of seconds")),
        },
        ["mutants", words @ ..] => mutants::run(words),
        ["package", words @ ..] => package::run(words),
        ["browser"] => browser::rounds(ROUNDS),
        ["browser", rounds] => match rounds.parse() {
            Ok(rounds) => browser::rounds(rounds),
            Err(_) => Err(format!("`{rounds}` is no number of rounds")),
        },
        ["fit" | "score" | "plots", ..] => study(&words),
        ["campaign", words @ ..] => campaign(words),
        ["bless"] => bless(),
        _ => {
            eprintln!("{HELP}");
            return ExitCode::from(64);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("xtask: {why}");
            ExitCode::FAILURE
        }
    }
}

/// Everything. Cheap checks first; each build serves all that come after it.
fn test() -> Done {
    let start = Instant::now();
    checks()?;
    shell::step("docs", || {
        cargo(&["doc", "--workspace", "--no-deps", "--locked"], &[("RUSTDOCFLAGS", "-D warnings")])
    })?;
    shell::step("components", components::install)?;
    shell::step("tests, examples of the docs, pictures", || tests::run(tests::Which::All))?;
    shell::step("schema", check_schema)?;
    shell::step("package", || package::check(&shell::built("standpipe")?))?;
    readme::says(start.elapsed())
}

/// What takes no build of the tests.
fn checks() -> Done {
    shell::step("format", || cargo(&["fmt", "--all", "--check"], &[]))?;
    shell::step("house", house::check)?;
    shell::step("lints", || {
        cargo(&["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"], &[])
    })
}

/// For the desk: minutes where `test` takes a quarter of an hour. It says what it leaves out.
fn quick() -> Done {
    checks()?;
    shell::step("tests", || tests::run(tests::Which::Desk))?;
    println!("left out: {}; `cargo xtask test` runs them", tests::NOT_AT_THE_DESK.join(", "));
    Ok(())
}

/// What is too long for every change.
fn nightly() -> Done {
    shell::step("campaign", || campaign(&[]))?;
    shell::step("campaign of faults that end", || campaign(&["10000", "--once-well"]))?;
    shell::step("checks of unknown vehicles", || campaign(&["5000", "--check"]))?;
    shell::step("campaign of unknown identifiers", || campaign(&["find"]))?;
    shell::step("the watch under every fault", || {
        cargo(&["test", "--locked", "-p", "service", "--test", "find", "--", "--ignored"], &[])
    })?;
    shell::step("browser", || components::install().and_then(|()| browser::rounds(ROUNDS)))?;
    shell::step("package", || package::run(&["try"]))?;
    shell::step("package, built twice", || package::run(&["repeat"]))?;
    shell::step("mutants", || mutants::run(&[]))?;
    shell::step("fuzz", || fuzz::run(600))
}

/// The browser's tests so often in a row.
/// Own choice: what fails once in ten is missed once in twenty-five nights.
const ROUNDS: u32 = 30;

/// The committed schema is the one of the types.
fn check_schema() -> Done {
    let fresh = shell::scratch("schema")?;
    shell::run(&mut schema_into(Command::new(shell::built("standpipe")?), &fresh))?;
    for name in ["line", "told", "sheet"] {
        let file = format!("{name}.schema.json");
        let committed =
            std::fs::read_to_string(shell::root().join("docs/schema").join(&file)).unwrap_or_default();
        let made = std::fs::read_to_string(fresh.join(&file)).map_err(|e| e.to_string())?;
        if committed != made {
            return Err(format!(
                "docs/schema/{file} is not what the types say: run `cargo xtask schema`, and raise \
                 events::PROTOCOL if a front end must know"
            ));
        }
    }
    Ok(())
}

fn write_schema() -> Done {
    let folder = shell::root().join("docs/schema");
    std::fs::create_dir_all(&folder).map_err(|e| e.to_string())?;
    let mut cargo = shell::cargo_command();
    cargo.args(["run", "--quiet", "--locked", "--"]);
    shell::run(&mut schema_into(cargo, &folder))
}

fn schema_into(mut program: Command, folder: &std::path::Path) -> Command {
    program.args(["schema", "--into"]).arg(folder);
    program
}

/// The forecast and the pictures: an example of the gate's crate.
fn study(words: &[&str]) -> Done {
    cargo(&[&["run", "--quiet", "--locked", "-p", "gate", "--example", "study", "--"], words].concat(), &[])
}

/// The campaign is a bench of the daemon's crate, built to be fast; it prints its own table.
fn campaign(words: &[&str]) -> Done {
    if let Some((&"find", words)) = words.split_first() {
        let bench = ["bench", "--locked", "--profile", "campaign", "-p", "find", "--bench", "campaign", "--"];
        let runs: &[&str] =
            if words.first().is_some_and(|word| word.parse::<u64>().is_ok()) { &[] } else { &["1000"] };
        return cargo(&[&bench, runs, words].concat(), &[]);
    }
    if let Some((&"broken", words)) = words.split_first() {
        let bench =
            ["bench", "--locked", "--profile", "campaign", "-p", "service", "--features", "taken-out"];
        return cargo(&[&bench, &["--bench", "broken", "--"][..], words].concat(), &[]);
    }
    let bench = ["bench", "--locked", "--profile", "campaign", "-p", "service", "--bench", "campaign", "--"];
    let number = words.first().is_some_and(|word| word.parse::<u64>().is_ok());
    let runs: &[&str] = if number { &[] } else { &["100000"] };
    cargo(&[&bench, runs, words].concat(), &[])
}

fn bless() -> Done {
    cargo(&["test", "--workspace", "--locked", "golden"], &[("BLESS", "1")])
}
