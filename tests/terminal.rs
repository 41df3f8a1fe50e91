//! `watch` in a real terminal: tmux holds the screen, keys go in, what is painted comes out.
//!
//! The built program, real processes; every wait is for something that is painted.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::process::{Command, Output};
use std::time::{Duration, Instant};

use common::{Home, Process, fixture};

/// A terminal of its own server, with `watch` in it.
struct Terminal<'a> {
    home: &'a Home,
}

impl<'a> Terminal<'a> {
    /// `None` where there is no tmux; under CI that is a failure.
    fn open(home: &'a Home, columns: u32, rows: u32) -> Option<Self> {
        if Command::new("tmux").arg("-V").output().is_err() {
            assert!(std::env::var_os("CI").is_none(), "CI needs tmux");
            eprintln!("left out: there is no tmux; `cargo xtask test` installs it where it may");
            return None;
        }
        let terminal = Self { home };
        let folder = |name: &str| home.path().join(name).display().to_string();
        let (state, runtime) =
            (format!("XDG_STATE_HOME={}", folder("state")), format!("XDG_RUNTIME_DIR={}", folder("run")));
        let (columns, rows) = (columns.to_string(), rows.to_string());
        let begun = terminal.tmux(&[
            "-f",
            "/dev/null",
            "new-session",
            "-d",
            "-x",
            &columns,
            "-y",
            &rows,
            "-e",
            &state,
            "-e",
            &runtime,
            env!("CARGO_BIN_EXE_standpipe"),
            "watch",
        ]);
        assert!(begun.status.success(), "{begun:?}");
        Some(terminal)
    }

    fn tmux(&self, arguments: &[&str]) -> Output {
        let socket = self.home.path().join("tmux");
        Command::new("tmux")
            .arg("-u")
            .arg("-S")
            .arg(socket)
            .args(arguments)
            .env("TERM", "xterm-256color")
            .env("LANG", "C.UTF-8")
            .env_remove("TMUX")
            .output()
            .unwrap()
    }

    fn painted(&self) -> String {
        String::from_utf8_lossy(&self.tmux(&["capture-pane", "-p"]).stdout).into_owned()
    }

    /// Waits until what is painted is as wanted, however long that takes within reason; gives it.
    fn until(&self, what: &str, wanted: impl Fn(&str) -> bool) -> String {
        let begun = Instant::now();
        loop {
            let painted = self.painted();
            if wanted(&painted) {
                return painted;
            }
            assert!(begun.elapsed() < Duration::from_secs(120), "never painted: {what}\n{painted}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    fn size(&self, columns: u32, rows: u32) {
        let done = self.tmux(&["resize-window", "-x", &columns.to_string(), "-y", &rows.to_string()]);
        assert!(done.status.success(), "{done:?}");
    }

    fn press(&self, key: &str) {
        assert!(self.tmux(&["send-keys", key]).status.success());
    }
}

impl Drop for Terminal<'_> {
    fn drop(&mut self) {
        let _ = self.tmux(&["kill-server"]);
    }
}

fn serve(home: &Home, device: &str) -> Process {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let mut daemon = home.start(&["serve", "--device", device, "--sheet", sheet.to_str().unwrap()]);
    daemon.until_said(|l| l.contains("socket"));
    daemon
}

/// The number of the key beside what can be told.
fn key_of(painted: &str, offer: &str) -> String {
    let line =
        painted.lines().find(|l| l.contains(offer)).unwrap_or_else(|| panic!("no {offer}:\n{painted}"));
    line.split_whitespace().next().unwrap().to_owned()
}

#[test]
fn a_terminal_shows_the_word_and_the_scale_at_three_sizes_takes_keys_and_never_keeps_an_old_verdict() {
    let home = Home::new();
    let Some(terminal) = Terminal::open(&home, 80, 24) else { return };
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = serve(&home, &device);

    let painted = terminal.until("the idle bay", |p| p.contains("Then start"));
    assert!(painted.contains('█') && painted.contains("┃━┓ 45") && painted.contains("┃━┛ 35"), "{painted}");
    assert!(painted.lines().all(|l| l.chars().count() <= 80), "{painted}");

    // Larger and smaller: the word, the scale and the sentence are there; nothing is left over from the size before.
    terminal.size(120, 40);
    terminal.until("the larger screen", |p| {
        p.lines().any(|l| l.contains('─') && l.chars().count() > 100) && p.contains("Then start")
    });
    terminal.size(50, 12);
    terminal.until("the smaller screen", |p| {
        let word = p.contains("  wait") || p.contains("no reading");
        p.lines().all(|l| l.chars().count() <= 50) && word && p.contains("Then start")
    });
    terminal.size(80, 24);
    let offers = terminal.until("the offers", |p| p.contains("┃━┓ 45") && p.contains("Start"));

    // One key begins the job, the next confirms a precondition.
    terminal.press(&key_of(&offers, "Start"));
    let stands = terminal.until("the job", |p| p.contains("job 1") && p.contains("stands on four stands"));
    terminal.press(&key_of(&stands, "It stands on four stands"));
    terminal.until("that it was taken down", |p| !p.contains("It stands on four stands"));

    daemon.kill();
    let lost = terminal.until("the loss", |p| p.contains("Nothing is known"));
    assert!(!lost.contains("█   █  ██  █ █████"), "the word of before is still there:\n{lost}");
    let _again = serve(&home, &device);
    let back = terminal.until("the return", |p| p.contains("job 1") && !p.contains("Nothing is known"));
    assert!(!back.contains("It stands on four stands"), "what was told is remembered:\n{back}");

    terminal.press("q");
    terminal.until("the end", |p| p.is_empty());
}
