//! Every test of the workspace: each test program once, a few at a time, the long ones first.
//!
//! `cargo test` runs one program after the other, and its last long test keeps one processor while the others idle. In:
//! the list of programs as cargo builds them, and what else needs that build: the examples of the docs, the pictures.
//! Out: a line for each with its time; the whole output of one that fails. Not here: what is tested.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::time::Instant;

use serde_json::Value;

use crate::shell::{self, Done, root};

/// The programs that take longest go first, so that none of them is left alone at the end. A name that is missing here
/// costs time and nothing else.
const LONG: &[&str] = &[
    "page",
    "no_wrong_go",
    "search",
    "foreign",
    "matrix",
    "access",
    "service",
    "rehearse",
    "pictures",
    "examples",
    "probe",
    "check",
];
/// What the tests are built with: one of them runs gates that lack a protection (docs/adr/0014). It opens a door that nothing else uses;
/// a build of its own for that test takes two minutes of fifteen.
const FEATURES: &str = "service/taken-out";
/// So many more at a time than there are processors.
/// Own choice: some mostly wait, for a browser or for an adapter that never answers; more than one would only make the others slower.
const WAITING: usize = 1;

/// Which programs are run.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// All of them.
    All,
    /// All but those that drive a browser or a terminal, or run a campaign.
    Desk,
}

/// Left out at the desk.
pub const NOT_AT_THE_DESK: &[&str] = &[
    "standpipe::page",
    "standpipe::terminal",
    "standpipe::no_wrong_go",
    "standpipe::crash",
    "standpipe::rehearse",
];

/// One test program, or something else that is run beside them.
struct Program {
    name: String,
    path: PathBuf,
    words: &'static [&'static str],
    folder: PathBuf,
}

/// Builds and runs them.
pub fn run(which: Which) -> Done {
    let mut programs = build()?;
    match which {
        Which::Desk => programs.retain(|program| !NOT_AT_THE_DESK.contains(&program.name.as_str())),
        Which::All => programs.extend(beside()?),
    }
    programs.sort_by_key(|p| LONG.iter().position(|long| *long == p.target()).unwrap_or(LONG.len()));
    let count = programs.len();
    let failed = run_all(programs);
    if !failed.is_empty() {
        return Err(format!("{} of {count} test programs failed: {}", failed.len(), failed.join(", ")));
    }
    println!("   {count} test programs passed");
    Ok(())
}

/// What is checked with the same build and is no test program: the runnable examples of the docs, and the pictures.
fn beside() -> Result<[Program; 2], String> {
    let cargo = shell::cargo_command().get_program().into();
    let doc = &["test", "--workspace", "--locked", "--features", FEATURES, "--doc", "--quiet"];
    let examples = Program { name: "docs::examples".to_owned(), path: cargo, words: doc, folder: root() };
    let study = shell::built("examples/study")?;
    let plots = &["plots", "--check"];
    let pictures = Program { name: "gate::pictures".to_owned(), path: study, words: plots, folder: root() };
    Ok([examples, pictures])
}

/// Builds them; gives the one of this name.
///
/// By its package and its name, for a package and a test of another one may share a name.
pub fn one(name: &str) -> Result<(PathBuf, PathBuf), String> {
    let found = build()?.into_iter().find(|program| program.name == name);
    found
        .map(|program| (program.path, program.folder))
        .ok_or_else(|| format!("there is no test program {name}"))
}

fn build() -> Result<Vec<Program>, String> {
    let output = shell::cargo_command()
        .args(["test", "--workspace", "--locked", "--features", FEATURES, "--no-run"])
        .args(["--message-format", "json-render-diagnostics"])
        .stderr(Stdio::inherit())
        .output()
        .map_err(|e| format!("cannot run cargo: {e}"))?;
    if !output.status.success() {
        return Err("the tests do not build".to_owned());
    }
    Ok(String::from_utf8_lossy(&output.stdout).lines().filter_map(program).collect())
}

/// A test program out of a line of cargo's; none where the line is of something else.
fn program(line: &str) -> Option<Program> {
    let artifact: Value = serde_json::from_str(line).ok()?;
    let is_test = artifact.pointer("/profile/test")?.as_bool()?;
    let path = PathBuf::from(artifact.get("executable")?.as_str().filter(|_| is_test)?);
    let folder = Path::new(artifact.get("manifest_path")?.as_str()?).parent()?.to_path_buf();
    let target = artifact.pointer("/target/name")?.as_str()?;
    let package = folder.file_name()?.to_string_lossy().into_owned();
    let package = if folder == root() { "standpipe".to_owned() } else { package };
    Some(Program { name: format!("{package}::{target}"), path, words: &[], folder })
}

impl Program {
    fn target(&self) -> &str {
        self.name.rsplit("::").next().unwrap_or_default()
    }
}

/// The names of those that failed.
fn run_all(programs: Vec<Program>) -> Vec<String> {
    let queue = Mutex::new(programs.into_iter());
    let failed = Mutex::new(Vec::new());
    let workers = std::thread::available_parallelism().map_or(2, usize::from) + WAITING;
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                loop {
                    let next = queue.lock().ok().and_then(|mut queue| queue.next());
                    let Some(program) = next else { break };
                    if !run_one(&program)
                        && let Ok(mut failed) = failed.lock()
                    {
                        failed.push(program.name);
                    }
                }
            });
        }
    });
    failed.into_inner().unwrap_or_default()
}

/// Runs one and prints what it comes to, in one piece; whether it passed.
fn run_one(program: &Program) -> bool {
    let start = Instant::now();
    let output = Command::new(&program.path)
        .args(program.words)
        .current_dir(&program.folder)
        .env("CARGO_MANIFEST_DIR", &program.folder)
        .stdin(Stdio::null())
        .output();
    let seconds = start.elapsed().as_secs_f64();
    match output {
        Ok(output) if output.status.success() => {
            let text = String::from_utf8_lossy(&output.stdout);
            let result = text.lines().rev().find(|line| line.starts_with("test result:")).unwrap_or("passed");
            let tests = result.split("; ").next().unwrap_or_default().trim_start_matches("test result: ok. ");
            println!("   {seconds:6.1} s  {:32} {tests}", program.name);
            true
        }
        Ok(output) => {
            let (out, err) =
                (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
            println!("   {seconds:6.1} s  {} FAILED ({})\n{out}\n{err}", program.name, output.status);
            false
        }
        Err(e) => {
            println!("   {} cannot be run: {e}", program.name);
            false
        }
    }
}
