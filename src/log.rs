//! What is said to people on stderr while a daemon runs: by a thread of its own, which nothing waits for.
//!
//! In: lines. Out: stderr, as fast as it takes them. A stderr that takes nothing (a stopped terminal, a full pipe),
//! that is gone (`2>&1 | head`) or full (a log file on a full disk) must neither halt nor end a daemon that watches hot
//! oil: lines wait in a bounded queue, what finds no room is counted and the count told later, and a write that fails
//! is passed over. Own code, because what the log library offers for this prints its own troubles to stdout and dies
//! where that is closed.
//! Not here: what is said (`tracing` and [`crate::screen::say`]).

use std::collections::VecDeque;
use std::io::{self, IsTerminal as _, Write};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, OnceLock, PoisonError};
use std::time::{Duration, Instant};

use tracing_subscriber::EnvFilter;
use tracing_subscriber::fmt::MakeWriter;

use crate::colour::Colour;

/// Lines that may wait.
/// Own choice: ours, some minutes of a bad link.
const LINES: usize = 256;
/// Bytes of a line; what is longer is cut.
/// Own choice: the longest of ours is a QR code.
const LINE_BYTES: usize = 16 * 1024;
/// At the program's end the last lines are waited for so long at most.
/// Own choice: a reader that reads takes them in milliseconds; one that does not must not hold up the end.
const LAST_LINES: Duration = Duration::from_millis(500);

/// The lines of this process that wait; absent where they are written at once.
static WAITING: OnceLock<Arc<Waiting>> = OnceLock::new();

/// Whether lines are written at once, or beside the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Manner {
    /// By whoever says them: a command that ends soon.
    AtOnce,
    /// By a thread of its own: a daemon.
    Beside,
}

/// Begins to log what `level` lets through; `STANDPIPE_LOG` says otherwise, for people who look into the program.
pub fn begin(level: &str, manner: Manner, colour: Colour) {
    if manner == Manner::Beside {
        let waiting = Arc::new(Waiting::default());
        let writing = Arc::clone(&waiting);
        let begun =
            std::thread::Builder::new().name("log".to_owned()).spawn(move || writing.write_to(io::stderr()));
        if begun.is_ok() {
            let _ = WAITING.set(waiting);
        }
    }
    let filter = EnvFilter::try_from_env("STANDPIPE_LOG").unwrap_or_else(|_| EnvFilter::new(level));
    let _ = tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(Stderr)
        .with_ansi(colour.wanted(io::stderr().is_terminal()))
        // Told by printing to stderr, and a print to a stderr that is gone is a panic.
        .log_internal_errors(false)
        .with_target(false)
        .try_init();
}

/// One message to people. It never fails: nobody can be told that stderr is closed.
pub fn say(text: &str) {
    match WAITING.get() {
        Some(waiting) => waiting.push(text),
        None => drop(writeln!(io::stderr().lock(), "{text}")),
    }
}

/// Waits a moment for the last lines; the program ends after this.
pub fn finish() {
    if let Some(waiting) = WAITING.get() {
        waiting.until_empty(LAST_LINES);
    }
}

/// Where `tracing` writes.
struct Stderr;

impl MakeWriter<'_> for Stderr {
    type Writer = Stderr;

    fn make_writer(&self) -> Stderr {
        Stderr
    }
}

impl Write for Stderr {
    /// One whole event: that is how the subscriber writes.
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        say(String::from_utf8_lossy(bytes).trim_end_matches('\n'));
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Lines that wait for a thread to write them.
#[derive(Default)]
struct Waiting {
    lines: Mutex<Lines>,
    filled: Condvar,
    emptied: Condvar,
}

#[derive(Default)]
struct Lines {
    queue: VecDeque<String>,
    /// Lines that found no room since the last one that did.
    dropped: u64,
    /// Whether one is being written.
    writing: bool,
}

impl Lines {
    /// Puts the count of what was dropped where the dropped lines would stand.
    fn own_up(&mut self) {
        if self.dropped > 0 {
            let count = std::mem::take(&mut self.dropped);
            self.queue.push_back(format!("{count} lines of the log were dropped: nobody took them in time"));
        }
    }
}

impl Waiting {
    fn push(&self, text: &str) {
        let mut lines = self.lines();
        if lines.queue.len() >= LINES {
            lines.dropped = lines.dropped.saturating_add(1);
            return;
        }
        lines.own_up();
        let end = (0..=text.len().min(LINE_BYTES)).rev().find(|end| text.is_char_boundary(*end));
        lines.queue.push_back(text.get(..end.unwrap_or(0)).unwrap_or_default().to_owned());
        self.filled.notify_one();
    }

    /// Writes for ever, whatever becomes of it.
    fn write_to(&self, mut out: impl Write) {
        loop {
            let line = self.next();
            let _ = out.write_all(format!("{line}\n").as_bytes()).and_then(|()| out.flush());
        }
    }

    fn next(&self) -> String {
        let mut lines = self.lines();
        lines.writing = false;
        loop {
            if let Some(line) = lines.queue.pop_front() {
                if lines.queue.is_empty() {
                    lines.own_up();
                }
                lines.writing = true;
                return line;
            }
            self.emptied.notify_all();
            lines = self.filled.wait(lines).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn until_empty(&self, most: Duration) {
        let until = Instant::now() + most;
        let mut lines = self.lines();
        while lines.writing || !lines.queue.is_empty() {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            lines = self.emptied.wait_timeout(lines, left).unwrap_or_else(PoisonError::into_inner).0;
        }
    }

    fn lines(&self) -> MutexGuard<'_, Lines> {
        // The queue is whole whatever happened to the one that held it.
        self.lines.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::mpsc;

    /// Takes a line when it is let, or fails it.
    struct Gate(mpsc::Receiver<bool>, mpsc::Sender<String>);

    impl Write for Gate {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            // A test that has ended lets everything pass.
            if !self.0.recv().unwrap_or(true) {
                return Err(io::Error::from(io::ErrorKind::StorageFull));
            }
            let _ = self.1.send(String::from_utf8_lossy(bytes).into_owned());
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    fn gate() -> (Arc<Waiting>, mpsc::Sender<bool>, mpsc::Receiver<String>) {
        let waiting = Arc::new(Waiting::default());
        let (open, opened) = mpsc::channel();
        let (written, seen) = mpsc::channel();
        let writing = Arc::clone(&waiting);
        std::thread::spawn(move || writing.write_to(Gate(opened, written)));
        (waiting, open, seen)
    }

    #[test]
    fn nobody_waits_for_a_stderr_that_takes_nothing_and_what_was_dropped_is_counted() {
        let (waiting, open, seen) = gate();
        // One is held by the closed gate, the rest fills the queue; none of these calls may block.
        waiting.push("held");
        while !waiting.lines().writing {
            std::thread::yield_now();
        }
        for n in 0..LINES + 7 {
            waiting.push(&format!("line {n}"));
        }
        assert_eq!(waiting.lines().queue.len(), LINES);
        drop(open);
        waiting.until_empty(Duration::from_secs(60));
        let lines: Vec<String> = seen.try_iter().collect();
        assert_eq!(lines.len(), LINES + 2);
        assert_eq!(lines[LINES], format!("line {}\n", LINES - 1));
        assert_eq!(lines[LINES + 1], "7 lines of the log were dropped: nobody took them in time\n");
    }

    #[test]
    fn a_write_that_fails_is_passed_over_and_the_next_one_comes() {
        let (waiting, open, seen) = gate();
        for may in [false, true] {
            open.send(may).unwrap();
        }
        waiting.push("the disk is full");
        waiting.push("and has room again");
        drop(open);
        waiting.until_empty(Duration::from_secs(60));
        let lines: String = seen.try_iter().collect();
        assert!(lines.contains("and has room again\n"), "{lines}");
    }

    #[test]
    fn a_line_is_bounded() {
        let waiting = Waiting::default();
        waiting.push(&"ü".repeat(LINE_BYTES));
        assert_eq!(waiting.lines().queue[0].len(), LINE_BYTES);
        waiting.push(&format!("x{}", "ü".repeat(LINE_BYTES)));
        assert_eq!(waiting.lines().queue[1].len(), LINE_BYTES - 1, "cut between two letters");
    }

    #[test]
    fn the_end_does_not_wait_for_a_stderr_that_takes_nothing() {
        let (waiting, _open, _seen) = gate();
        waiting.push("held");
        waiting.until_empty(Duration::from_millis(1));
        assert!(waiting.lines().writing || !waiting.lines().queue.is_empty());
    }
}
