//! Running commands, and saying how long each step took.

use std::path::PathBuf;
use std::process::Command;
use std::time::Instant;

/// What a chore comes to: nothing to say, or why it failed.
pub type Done = Result<(), String>;

/// The workspace's root.
pub fn root() -> PathBuf {
    let own = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    own.ancestors().nth(2).map_or(own.clone(), PathBuf::from)
}

/// An empty folder under `target/`.
pub fn scratch(name: &str) -> Result<PathBuf, String> {
    let folder = root().join("target").join("xtask").join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).map_err(|e| e.to_string())?;
    Ok(folder)
}

/// A command that is `cargo`, in the workspace's root.
pub fn cargo_command() -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(root());
    command
}

/// Runs a command to its end.
pub fn run(command: &mut Command) -> Done {
    let status = command.status().map_err(|e| format!("cannot run {command:?}: {e}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?}: {status}")) }
}

/// Runs `cargo` in the workspace's root.
pub fn cargo(arguments: &[&str], environment: &[(&str, &str)]) -> Done {
    let status = cargo_command()
        .args(arguments)
        .envs(environment.iter().copied())
        .status()
        .map_err(|e| format!("cannot run cargo: {e}"))?;
    if status.success() { Ok(()) } else { Err(format!("`cargo {}` failed", arguments.join(" "))) }
}

/// Runs a command to its end, and gives what it said on stdout.
pub fn said(command: &mut Command) -> Result<String, String> {
    let output = command.output().map_err(|e| format!("cannot run {command:?}: {e}"))?;
    if !output.status.success() {
        return Err(format!("{command:?}: {}: {}", output.status, String::from_utf8_lossy(&output.stderr)));
    }
    Ok(String::from_utf8_lossy(&output.stdout).trim_end().to_owned())
}

/// A tool of cargo's, by name and version, installed where it is not there yet.
pub fn tool((name, version): (&str, &str)) -> Result<PathBuf, String> {
    let folder = root().join("target").join("tools");
    let tool = folder.join("bin").join(name);
    if !tool.exists() {
        let root = folder.to_string_lossy().into_owned();
        cargo(&["install", name, "--version", version, "--locked", "--root", &root], &[])?;
    }
    Ok(tool)
}

/// The program as the desk builds it.
pub fn desk_program() -> Result<PathBuf, String> {
    cargo(&["build", "--locked", "--bin", "standpipe"], &[])?;
    built("standpipe")
}

/// A program of the workspace that the tests' build has left.
pub fn built(name: &str) -> Result<PathBuf, String> {
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from);
    let path = target.join("debug").join(name);
    if path.exists() { Ok(path) } else { Err(format!("{} is not built", path.display())) }
}

/// Runs one step and says how long it took.
pub fn step(name: &str, what: impl FnOnce() -> Done) -> Done {
    println!("== {name}");
    let start = Instant::now();
    what().map_err(|why| format!("{name}: {why}"))?;
    println!("== {name}: passed in {:.0} s", start.elapsed().as_secs_f64());
    Ok(())
}
