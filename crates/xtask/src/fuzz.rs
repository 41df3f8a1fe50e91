//! `cargo xtask fuzz [SECONDS]`: every fuzz target for so long, on the compiler that builds everything else.
//!
//! The coverage counters that libFuzzer steers by come from a stable compiler pass; the code has no `unsafe` of its
//! own, so the address sanitizer, which would need a nightly compiler, has nothing to find here. Overflow checks and
//! debug assertions are on. New inputs stay under `target/`; what is worth keeping is committed by hand.

use std::path::{Path, PathBuf};
use std::process::{Child, Command};

use crate::shell::{Done, root};

/// The targets, by the crate whose folder `fuzz` holds them.
const TARGETS: &[(&str, &str)] = &[
    ("adapter", "driver"),
    ("frames", "text"),
    ("frames", "isotp"),
    ("frames", "current"),
    ("frames", "codes"),
    ("frames", "tests"),
    ("frames", "info"),
    ("frames", "sheet"),
    ("frames", "stream"),
];
/// A target that takes more memory than this has grown, in MiB.
/// Own choice: inputs of some kilobytes must not need it; a bound that leaks is found within minutes.
const MEMORY_MIB: u32 = 512;

const FLAGS: &[&str] = &[
    "-Cpasses=sancov-module",
    "-Cllvm-args=-sanitizer-coverage-level=4",
    "-Cllvm-args=-sanitizer-coverage-inline-8bit-counters",
    "-Cllvm-args=-sanitizer-coverage-pc-table",
    "-Cllvm-args=-sanitizer-coverage-trace-compares",
    "--cfg=fuzzing",
    "-Cdebug-assertions",
    "-Coverflow-checks",
];

/// Builds and runs all targets, as many at a time as there are processors.
pub fn run(seconds: u32) -> Done {
    let home = root().join("target/fuzz");
    let triple = build(&home, "frames")?;
    build(&home, "adapter")?;
    let programs = home.join(triple).join("release");
    let at_once = std::thread::available_parallelism().map_or(1, usize::from);
    for batch in TARGETS.chunks(at_once) {
        let running: Vec<(&str, Child)> = batch
            .iter()
            .map(|&(of, name)| Ok((name, start(&programs, &home, of, name, seconds)?)))
            .collect::<Result<_, String>>()?;
        for (name, mut child) in running {
            let status = child.wait().map_err(|e| e.to_string())?;
            if !status.success() {
                let found = home.join("found").join(name);
                return Err(format!(
                    "fuzz target `{name}` found something; the input lies in {}",
                    found.display()
                ));
            }
            println!("fuzz {name}: {seconds} s, nothing found");
        }
    }
    Ok(())
}

/// The flags must not reach build scripts, so the triple is named; gives it.
fn build(home: &Path, of: &str) -> Result<String, String> {
    let version = Command::new("rustc").arg("-vV").output().map_err(|e| format!("cannot run rustc: {e}"))?;
    let version = String::from_utf8_lossy(&version.stdout).into_owned();
    let triple =
        version.lines().find_map(|l| l.strip_prefix("host: ")).ok_or("rustc names no host")?.to_owned();
    let status = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
        .args(["build", "--release", "--target", &triple])
        .current_dir(root().join("crates").join(of).join("fuzz"))
        .env("CARGO_TARGET_DIR", home)
        .env("RUSTFLAGS", FLAGS.join(" "))
        .status()
        .map_err(|e| format!("cannot run cargo: {e}"))?;
    if status.success() { Ok(triple) } else { Err("the fuzz targets do not build".to_owned()) }
}

/// Starts one target on a copy of its committed corpus.
fn start(programs: &Path, home: &Path, of: &str, name: &str, seconds: u32) -> Result<Child, String> {
    let failed = |e: std::io::Error| format!("fuzz target `{name}`: {e}");
    let (corpus, found) = (home.join("corpus").join(name), home.join("found").join(name));
    for folder in [&corpus, &found] {
        std::fs::create_dir_all(folder).map_err(failed)?;
    }
    let committed: PathBuf = root().join("crates").join(of).join("fuzz/corpus").join(name);
    let log = std::fs::File::create(home.join(format!("{name}.log"))).map_err(failed)?;
    Command::new(programs.join(name))
        .arg(format!("-max_total_time={seconds}"))
        .arg(format!("-rss_limit_mb={MEMORY_MIB}"))
        .arg("-timeout=10")
        .arg(format!("-artifact_prefix={}/", found.display()))
        .args([corpus, committed])
        .stderr(log)
        .spawn()
        .map_err(failed)
}
