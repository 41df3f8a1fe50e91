//! A real terminal for the built program: tmux holds the screen, keys go in, what is painted comes out.

use std::process::{Command, Output};
use std::time::{Duration, Instant};

use super::Home;

/// A terminal of its own server, with the program in it.
pub struct Terminal<'a> {
    home: &'a Home,
}

impl<'a> Terminal<'a> {
    /// `None` where there is no tmux; under CI that is a failure.
    pub fn open(home: &'a Home, columns: u32, rows: u32, arguments: &[&str]) -> Option<Self> {
        if Command::new("tmux").arg("-V").output().is_err() {
            assert!(std::env::var_os("CI").is_none(), "CI needs tmux");
            eprintln!("left out: there is no tmux; `cargo xtask test` installs it where it may");
            return None;
        }
        let terminal = Self { home };
        let settings = settings_of(home);
        let folder = |name: &str| home.path().join(name).display().to_string();
        let (state, runtime) =
            (format!("XDG_STATE_HOME={}", folder("state")), format!("XDG_RUNTIME_DIR={}", folder("run")));
        let (columns, rows) = (columns.to_string(), rows.to_string());
        let mut begin = vec![
            "-f",
            &settings,
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
        ];
        begin.extend_from_slice(arguments);
        // A server of this test that is still ending takes whoever joins it along; then another begins.
        let ending = |output: &Output| String::from_utf8_lossy(&output.stderr).contains("server exited");
        let mut begun = terminal.tmux(&begin);
        for _ in 0..20 {
            if !ending(&begun) {
                break;
            }
            begun = terminal.tmux(&begin);
        }
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

    /// What is painted now.
    pub fn painted(&self) -> String {
        String::from_utf8_lossy(&self.tmux(&["capture-pane", "-p"]).stdout).into_owned()
    }

    /// All that was written, with what has scrolled away; no line is broken where the terminal breaks it.
    pub fn written(&self) -> String {
        String::from_utf8_lossy(&self.tmux(&["capture-pane", "-p", "-J", "-S", "-"]).stdout).into_owned()
    }

    /// Waits until what is painted is as wanted, however long that takes within reason; gives it.
    pub fn until(&self, what: &str, wanted: impl Fn(&str) -> bool) -> String {
        Self::wait(what, wanted, || self.painted())
    }

    /// The same, of all that was written.
    pub fn until_written(&self, what: &str, wanted: impl Fn(&str) -> bool) -> String {
        Self::wait(what, wanted, || self.written())
    }

    /// Waits until the program has ended. What the terminal paints of that may be wiped by the program's own last words.
    pub fn until_ended(&self, what: &str) -> String {
        let dead = || {
            let said = self.tmux(&["display-message", "-p", "#{pane_dead}"]).stdout;
            String::from_utf8_lossy(&said).into_owned()
        };
        Self::wait(what, |said| said.trim() == "1", dead);
        self.painted()
    }

    fn wait(what: &str, wanted: impl Fn(&str) -> bool, look: impl Fn() -> String) -> String {
        let begun = Instant::now();
        loop {
            let painted = look();
            if wanted(&painted) {
                return painted;
            }
            assert!(begun.elapsed() < PATIENCE, "never painted: {what}\n{painted}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// Makes it larger or smaller.
    pub fn size(&self, columns: u32, rows: u32) {
        let done = self.tmux(&["resize-window", "-x", &columns.to_string(), "-y", &rows.to_string()]);
        assert!(done.status.success(), "{done:?}");
    }

    /// A line, and Enter.
    pub fn type_line(&self, line: &str) {
        assert!(self.tmux(&["send-keys", "-l", line]).status.success());
        self.press("Enter");
    }

    /// One key.
    pub fn press(&self, key: &str) {
        assert!(self.tmux(&["send-keys", key]).status.success());
    }
}

impl Drop for Terminal<'_> {
    fn drop(&mut self) {
        let _ = self.tmux(&["kill-server"]);
    }
}

/// Nothing is waited for longer, however busy the machine.
const PATIENCE: Duration = Duration::from_secs(240);

/// What has scrolled away is kept, and what was written last by a program that has ended.
fn settings_of(home: &Home) -> String {
    let path = home.path().join("tmux.conf");
    std::fs::write(&path, "set -g history-limit 5000\nset -g remain-on-exit on\n").unwrap();
    path.display().to_string()
}
