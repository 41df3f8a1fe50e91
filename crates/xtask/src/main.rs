//! `cargo xtask …`: developer chores, the same at the desk and in CI.
//!
//! Each chore prints what it does and stops at the first failure. Not here: anything the program itself needs.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a chore talks to the person at the terminal")]
#![allow(unreachable_pub, reason = "a binary exports nothing; `pub` marks what other files of it use")]

mod browser;
mod forecast;
mod fuzz;
mod house;
mod plots;
mod shell;

use std::process::ExitCode;

use shell::{Done, cargo};

const HELP: &str = "\
cargo xtask test      everything: format, lints, docs, house rules, schema, 10,000 rehearsals, all tests
cargo xtask house     only the rules of the house: who may import whom, and that the pure crates are pure
cargo xtask schema    writes docs/schema/ anew from the types
cargo xtask fuzz [S]  every fuzz target for S seconds (60 where absent)
cargo xtask fit [DIR] learns the forecast's rates from recorded warm-ups (fixtures/warmups/climbs where absent)
cargo xtask score [DIR] [built-in]  scores the forecast on recorded warm-ups, one day left out at a time; or as it is built in
cargo xtask campaign [N] [--from SEED] [--into FILE]  N drawn rehearsals (100000 where absent): no wrong `go`, no wrong record, few missed; one is told as a story
cargo xtask plots     draws the pictures of docs/gate.md anew
cargo xtask bless     writes the golden files anew; review the difference before you commit it";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["test"] => test(),
        ["house"] => house::check(),
        ["schema"] => write_schema(),
        ["fuzz"] => fuzz::run(60),
        ["fuzz", seconds] => match seconds.parse() {
            Ok(seconds) => fuzz::run(seconds),
            Err(_) => Err(format!("`{seconds}` is no number of seconds")),
        },
        ["fit"] => forecast::fit_and_write(&forecast::climbs()),
        ["fit", folder] => forecast::fit_and_write(folder.as_ref()),
        ["score"] => forecast::score(&forecast::climbs(), forecast::Fitted::OnOtherDays),
        ["score", "built-in"] => forecast::score(&forecast::climbs(), forecast::Fitted::BuiltIn),
        ["score", folder] => forecast::score(folder.as_ref(), forecast::Fitted::OnOtherDays),
        ["score", folder, "built-in"] => forecast::score(folder.as_ref(), forecast::Fitted::BuiltIn),
        ["campaign", words @ ..] => campaign(words),
        ["plots"] => plots::write(),
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

/// Everything. Cheap checks first; the test run comes last, so that its counts are the last lines.
fn test() -> Done {
    shell::step("format", || cargo(&["fmt", "--all", "--check"], &[]))?;
    shell::step("house", house::check)?;
    shell::step("lints", || {
        cargo(&["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"], &[])
    })?;
    shell::step("docs", || {
        cargo(&["doc", "--workspace", "--no-deps", "--locked"], &[("RUSTDOCFLAGS", "-D warnings")])
    })?;
    shell::step("schema", check_schema)?;
    shell::step("pictures", plots::check)?;
    shell::step("browser", browser::install)?;
    shell::step("campaign", || campaign(&[CAMPAIGN]))?;
    shell::step("tests", || cargo(&["test", "--workspace", "--locked"], &[]))
}

/// The committed schema is the one of the types.
fn check_schema() -> Done {
    let fresh = shell::scratch("schema")?;
    make_schema(&fresh)?;
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
    make_schema(&shell::root().join("docs/schema"))
}

fn make_schema(folder: &std::path::Path) -> Done {
    std::fs::create_dir_all(folder).map_err(|e| e.to_string())?;
    let folder = folder.to_string_lossy();
    cargo(&["run", "--quiet", "--locked", "--", "schema", "--into", &folder], &[])
}

/// So many rehearsals belong to everything.
const CAMPAIGN: &str = "10000";

/// The campaign is a bench of the daemon's crate, built to be fast; it prints its own table.
fn campaign(words: &[&str]) -> Done {
    let bench = ["bench", "--locked", "--profile", "campaign", "-p", "service", "--bench", "campaign", "--"];
    let number = words.first().is_some_and(|word| word.parse::<u64>().is_ok());
    let runs: &[&str] = if number { &[] } else { &["100000"] };
    cargo(&[&bench, runs, words].concat(), &[])
}

fn bless() -> Done {
    cargo(&["test", "--workspace", "--locked", "golden"], &[("BLESS", "1")])
}
