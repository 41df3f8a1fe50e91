//! What several end-to-end tests share: the bay on the rehearsal's stage, and the built program as a process.

#![allow(dead_code, unreachable_pub, reason = "each test file uses its own part of this")]
#![allow(missing_docs, reason = "test support")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "test support"
)]

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::time::Duration;

use events::Sheet;

mod on_stage;
mod terminal;
#[allow(unused_imports, reason = "each test file uses its own part of this")]
pub use on_stage::{OnStage, moment};
#[allow(unused_imports, reason = "each test file uses its own part of this")]
pub use terminal::Terminal;

/// The four sheets of `fixtures/sheets`.
pub fn sheets() -> Vec<Sheet> {
    let names = ["demo-six-speed", "demo-eight-speed-bypass", "demo-coolant-only", "demo-spot-only"];
    names
        .iter()
        .map(|n| {
            Sheet::parse(&std::fs::read_to_string(fixture(&format!("sheets/{n}.toml"))).unwrap()).unwrap()
        })
        .collect()
}

/// The name and the sheet of each procedure of the trade.
pub fn procedures() -> Vec<(String, Sheet)> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(fixture("sheets/procedures"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .collect();
    files.sort();
    files
        .into_iter()
        .map(|path| {
            let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
            (name, Sheet::parse(&std::fs::read_to_string(path).unwrap()).unwrap())
        })
        .collect()
}

pub fn fixture(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures").join(name)
}

/// The built program, with state and runtime folders of its own.
pub struct Home(pub tempfile::TempDir);

impl Home {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_standpipe"));
        command
            .args(arguments)
            .env("XDG_STATE_HOME", self.path().join("state"))
            .env("XDG_RUNTIME_DIR", self.path().join("run"))
            .env("TMPDIR", self.path())
            .env_remove("STANDPIPE_BAY")
            .env_remove("STANDPIPE_SOCKET")
            .env_remove("STANDPIPE_UNITS")
            .env_remove("STANDPIPE_LANG")
            .env("LC_ALL", "C")
            .env("TZ", "UTC")
            .stdin(Stdio::null());
        command
    }

    /// Runs to the end.
    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().unwrap()
    }

    /// Starts a process whose stdout is read line by line; it is killed when dropped.
    pub fn start(&self, arguments: &[&str]) -> Process {
        // Who runs the tests in the background may have signals ignored, and the program keeps that.
        let mut command = behind(&["env", "--default-signal=HUP,INT,TERM"], &self.command(arguments));
        let child =
            command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        Process::of(child)
    }
}

/// The same command with its environment, started by another program that becomes it.
pub fn behind(starter: &[&str], command: &Command) -> Command {
    let mut started = Command::new(starter[0]);
    started.args(&starter[1..]).arg(command.get_program()).args(command.get_args()).stdin(Stdio::null());
    for (name, value) in command.get_envs() {
        match value {
            Some(value) => started.env(name, value),
            None => started.env_remove(name),
        };
    }
    started
}

pub struct Process {
    pub child: Child,
    stdout: BufReader<std::process::ChildStdout>,
    _watched: Sender<()>,
}

/// No test takes so long, however busy the machine: a process that is still waited for then is killed, and the test
/// fails instead of hanging.
const LONGEST: Duration = Duration::from_secs(600);

impl Process {
    /// A process that was started with its stdout piped.
    pub fn of(mut child: Child) -> Self {
        let stdout = BufReader::new(child.stdout.take().unwrap());
        let pid = rustix::process::Pid::from_child(&child);
        let (watched, gone) = channel::<()>();
        std::thread::spawn(move || {
            if gone.recv_timeout(LONGEST) == Err(RecvTimeoutError::Timeout) {
                let _ = rustix::process::kill_process(pid, rustix::process::Signal::KILL);
            }
        });
        Self { child, stdout, _watched: watched }
    }

    /// The next line of stdout; waits for it as long as it takes, within [`LONGEST`].
    pub fn line(&mut self) -> String {
        let mut line = String::new();
        self.stdout.read_line(&mut line).unwrap();
        assert!(!line.is_empty(), "the process ended instead of saying more");
        line.trim_end().to_owned()
    }

    /// The first line that satisfies `wanted`.
    pub fn until(&mut self, wanted: impl Fn(&str) -> bool) -> String {
        loop {
            let line = self.line();
            if wanted(&line) {
                return line;
            }
        }
    }

    pub fn type_line(&mut self, text: &str) {
        writeln!(self.child.stdin.as_mut().unwrap(), "{text}").unwrap();
    }

    /// `kill -9`.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Waits for a line on stderr that satisfies `wanted`.
    pub fn until_said(&mut self, wanted: impl Fn(&str) -> bool) -> String {
        let mut stderr = BufReader::new(self.child.stderr.as_mut().unwrap());
        loop {
            let mut line = String::new();
            stderr.read_line(&mut line).unwrap();
            assert!(!line.is_empty(), "the process ended instead of saying it");
            if wanted(&line) {
                return line;
            }
        }
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

pub fn stderr(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

pub fn stdout(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The last JSON line of an output.
pub fn last_line(output: &Output) -> serde_json::Value {
    serde_json::from_str(stdout(output).lines().last().unwrap_or("null")).unwrap()
}
