//! The forecast learned and scored on recorded warm-ups, and the pictures of docs/gate.md.
//!
//! ```text
//!  study fit [DIR]                 writes crates/gate/src/forecast/learned/fitted.rs
//!  study score [DIR] [built-in]    tables on stdout
//!  study plots [--check]           writes docs/pictures/gate-*.svg, or says which is not as the program draws it
//! ```
//!
//! `cargo xtask fit`, `score` and `plots` run it. Not here: the mathematics.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a chore talks to the person at the terminal")]
#![allow(unreachable_pub, reason = "a program exports nothing; `pub` marks what other files of it use")]

mod forecast;
mod plots;

use std::path::PathBuf;
use std::process::ExitCode;

/// What a chore comes to: nothing to say, or why it failed.
type Done = Result<(), String>;

/// The workspace's root.
fn root() -> PathBuf {
    let own = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    own.ancestors().nth(2).map_or(own.clone(), PathBuf::from)
}

fn main() -> ExitCode {
    use forecast::Fitted::{BuiltIn, OnOtherDays};
    let words: Vec<String> = std::env::args().skip(1).collect();
    let done = match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["fit"] => forecast::fit_and_write(&forecast::climbs()),
        ["fit", folder] => forecast::fit_and_write(folder.as_ref()),
        ["score"] => forecast::score(&forecast::climbs(), OnOtherDays),
        ["score", "built-in"] => forecast::score(&forecast::climbs(), BuiltIn),
        ["score", folder] => forecast::score(folder.as_ref(), OnOtherDays),
        ["score", folder, "built-in"] => forecast::score(folder.as_ref(), BuiltIn),
        ["plots"] => plots::write(),
        ["plots", "--check"] => plots::check(),
        _ => Err("fit [DIR] | score [DIR] [built-in] | plots [--check]".to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("study: {why}");
            ExitCode::FAILURE
        }
    }
}
