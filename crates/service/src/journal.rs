//! The journal: every event, in SQLite, written by a thread of its own.
//!
//! In: batches of events. Out: an answer once the batch is safe: a batch with a fact in it is synced to disk (write-
//! ahead log, `synchronous = FULL`), so that it survives `kill -9` and power loss; a batch of samples alone is handed
//! to the system, survives `kill -9`, and spares the SD card a sync every second. Numbers are reserved on disk ahead of use, so that a number
//! that was shown is never used again even where its event, a sample, was lost with the last second. After each
//! sync the file must still be the one that its name leads to: what goes into a file that somebody has removed is not kept.
//!
//! ```text
//!  event  seq, job, kind, fact, at_ms, line     every event as it was written
//!  job    number, first, ended, started_ms …    one row a job, for lists and searches
//!  due    job, at_ms, done_by                   rechecks
//!  seal   last, hash, first                     one link of the hash chain for each batch (`seal.rs`)
//!  meta   name, value                           numbers reserved
//! ```
//!
//! `job`, `due` and `seal` are made from the events in the same transaction, so they never tell another story.
//!
//! | file | concern |
//! | --- | --- |
//! | `open.rs`, `schema.rs`, `restore.rs` | a start: the look at the bytes, the format, the last job with its seals |
//! | `head.rs`, `log.rs`, `pages.rs` | the bytes of the file, its log and their pages |
//! | `salvage.rs`, `repair.rs`, `damage.rs` | what can be read of a damaged one, the steps of a repair, how it is told |
//! | `note.rs`, `disk.rs` | the small file beside it; files and folders around it |
//! | `rows.rs`, `seal.rs` | writing a batch, its seal |
//! | `old.rs`, `read.rs`, `transfer.rs`, `photo.rs` | reading for clients, without a daemon, copies, photos |
//!
//! Not here: when to write (`outbox.rs`), what the events mean (`job`).

mod damage;
mod disk;
#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, reason = "tests")]
mod durability;
mod head;
mod log;
mod note;
mod old;
mod open;
mod pages;
pub(crate) mod photo;
#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, reason = "tests")]
mod power;
pub(crate) mod read;
mod repair;
mod restore;
mod rows;
mod salvage;
mod schema;
mod seal;
#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, reason = "tests")]
mod spoiled;
#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, reason = "tests")]
mod tests;
pub(crate) mod transfer;
mod unopened;

use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::thread::{self, JoinHandle};

use events::{Body, Durability, Seq};
use tokio::sync::oneshot;

use crate::error::ServiceError;
use crate::row::Row;

pub(crate) use old::{Old, READ_LIMIT};
pub(crate) use restore::Restored;

/// How many numbers are reserved at a time.
/// Own choice: hours of a fast adapter, so that the reservation is written seldom; numbers have 64 bits and are never
/// short.
pub(crate) const RESERVE: u64 = 100_000;

/// Why a batch was not written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum Unwritten {
    /// The system or the database says so.
    #[error("{0}")]
    Failed(String),
    /// The file is not where it was: what is written to it now would be lost.
    #[error("{0}")]
    Gone(String),
}

enum Command {
    Append(Vec<Row>, oneshot::Sender<Result<(), Unwritten>>),
    Read(Seq, Seq, oneshot::Sender<Vec<Old>>),
    Stop,
}

/// The writing end. Dropping it ends the thread after the last write, and waits for that.
#[derive(Debug)]
pub(crate) struct Journal {
    path: PathBuf,
    commands: mpsc::Sender<Command>,
    thread: Option<JoinHandle<()>>,
}

/// A handle that reads old events; clients that ask for the past use it.
#[derive(Debug, Clone)]
pub(crate) struct JournalReader {
    commands: mpsc::Sender<Command>,
}

impl Journal {
    /// Opens or makes `FOLDER/BAY.journal`, restores the last job, and starts the writing thread.
    ///
    /// # Errors
    /// [`ServiceError`] where the folder or file cannot be used, or another daemon has it.
    pub(crate) fn open(folder: &Path, bay: &str) -> Result<(Self, Restored), ServiceError> {
        let path = folder.join(format!("{bay}.journal"));
        let file = |e: std::io::Error| unopened::Unopened::File(e).told(&path);
        let database = |e: rusqlite::Error| unopened::Unopened::Database(e).told(&path);
        disk::make_folder(folder).map_err(file)?;
        let lock = open::lock(&folder.join(format!("{bay}.lock")), &path)?;
        let (connection, restored) = open::open_and_restore(&path)?;
        let (commands, inbox) = mpsc::channel();
        let writer = rows::Writer::new(connection, restored.last_job).map_err(database)?;
        let mut state = Server {
            writer,
            reserved: restored.next.0.saturating_add(RESERVE),
            pen: note::Pen::open(&path, &restored.note).map_err(file)?,
            unsynced: true,
            noted: false,
            place: Place::of(&path).map_err(file)?,
            _lock: lock,
        };
        state.reserve().map_err(database)?;
        let thread = thread::Builder::new()
            .name("journal".to_owned())
            .spawn(move || state.serve(&inbox))
            .map_err(file)?;
        Ok((Self { path, commands, thread: Some(thread) }, restored))
    }

    /// The file.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Hands a batch over; the answer comes when it is on disk.
    pub(crate) fn append(&self, batch: Vec<Row>) -> oneshot::Receiver<Result<(), Unwritten>> {
        let (done, answer) = oneshot::channel();
        // A thread that is gone drops `done`, which the receiver reports as a failed write.
        let _ = self.commands.send(Command::Append(batch, done));
        answer
    }

    /// A handle that reads old events.
    pub(crate) fn reader(&self) -> JournalReader {
        JournalReader { commands: self.commands.clone() }
    }

    /// Does not wait for the thread any more: its disk hangs.
    pub(crate) fn leave(&mut self) {
        self.thread = None;
    }
}

impl Drop for Journal {
    fn drop(&mut self) {
        let _ = self.commands.send(Command::Stop);
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

impl JournalReader {
    /// Up to [`READ_LIMIT`] lines from `from` on and before `until`, in order; fewer are all of them. `None` where the journal is closed.
    pub(crate) async fn read(&self, from: Seq, until: Seq) -> Option<Vec<Old>> {
        let (done, answer) = oneshot::channel();
        let _ = self.commands.send(Command::Read(from, until, done));
        answer.await.ok()
    }
}

/// The thread's own state.
struct Server {
    writer: rows::Writer,
    reserved: u64,
    pen: note::Pen,
    /// The note on the disk does not know how far numbers are reserved.
    unsynced: bool,
    /// The journal knows that there is a note.
    noted: bool,
    place: Place,
    /// Keeps other daemons off the file as long as it is open.
    _lock: File,
}

impl Server {
    fn serve(mut self, inbox: &mpsc::Receiver<Command>) {
        while let Ok(command) = inbox.recv() {
            match command {
                Command::Append(rows, done) => {
                    let written = self.append(&rows);
                    let ends = |row: &Row| matches!(row.event.body, Body::Result(_));
                    let ended = written.is_ok() && rows.iter().any(ends);
                    let _ = done.send(written);
                    if ended {
                        self.rest();
                    }
                }
                Command::Read(from, until, done) => {
                    let _ = done.send(old::read(self.writer.connection(), from, until));
                }
                Command::Stop => break,
            }
        }
        self.rest();
    }

    fn append(&mut self, rows: &[Row]) -> Result<(), Unwritten> {
        let failed = |e: rusqlite::Error| Unwritten::Failed(e.to_string());
        let Some(last) = rows.last().map(|row| row.event.seq) else { return Ok(()) };
        self.place.check().map_err(Unwritten::Gone)?;
        if last.0.saturating_add(RESERVE / 10) > self.reserved {
            self.reserved = last.0.saturating_add(RESERVE);
            self.reserve().map_err(failed)?;
            self.unsynced = true;
        }
        self.writer.append(rows).map_err(failed)?;
        self.place.check_written().map_err(Unwritten::Gone)?;
        if rows.iter().any(|row| row.event.body.durability() == Durability::Fact) {
            self.note(last).map_err(|e| Unwritten::Failed(format!("the note beside it: {e}")))?;
        }
        Ok(())
    }

    /// Notes how far the journal is synced.
    fn note(&mut self, last: Seq) -> std::io::Result<()> {
        let (job, seal) = self.writer.stands_at();
        self.pen.write(note::Note::new(schema::FORMAT, last.0, seal, job, self.reserved))?;
        if std::mem::take(&mut self.unsynced) {
            self.pen.sync()?;
        }
        if !std::mem::replace(&mut self.noted, true) {
            let sql = "INSERT OR REPLACE INTO meta (name, value) VALUES ('noted', 1)";
            self.writer.connection().execute(sql, []).map_err(std::io::Error::other)?;
        }
        Ok(())
    }

    /// Brings the log into the file, so that it is never the whole journal. Where that fails the log is what it was.
    fn rest(&mut self) {
        if let Err(e) = self.writer.sync(true).and_then(|()| open::checkpoint(self.writer.connection())) {
            tracing::debug!(error = %e, "the log stays as it is");
        }
        self.place.shortened();
        if let Err(e) = self.pen.sync() {
            tracing::debug!(error = %e, "the note is not synced");
        }
    }

    fn reserve(&mut self) -> rusqlite::Result<()> {
        self.writer.sync(true)?;
        self.writer
            .connection()
            .execute("INSERT OR REPLACE INTO meta (name, value) VALUES ('reserved', ?1)", [self.reserved])
            .map(|_| ())
    }
}

/// Where the journal lies, and that it is still there.
struct Place {
    file: Measured,
    log: Measured,
}

/// A file as it was seen last. Neither of the two ever becomes shorter but by our own hand.
struct Measured {
    path: PathBuf,
    identity: Option<disk::Identity>,
    length: u64,
}

impl Place {
    fn of(path: &Path) -> std::io::Result<Self> {
        let file =
            Measured { path: path.to_path_buf(), identity: Some(disk::Identity::of(path)?), length: 0 };
        let log = Measured { path: disk::joined(path, "-wal"), identity: None, length: 0 };
        Ok(Self { file, log })
    }

    /// Whether both are what they were. A log that was emptied is long again once more is written to it.
    fn check(&mut self) -> Result<(), String> {
        self.file.check()?;
        if self.log.identity.is_some() { self.log.check() } else { Ok(()) }
    }

    /// Whether what was just written lies where the next start will look for it.
    fn check_written(&mut self) -> Result<(), String> {
        self.file.check()?;
        self.log.check()?;
        if self.log.length == 0 { Err(self.log.says("was emptied or cut")) } else { Ok(()) }
    }

    /// The log was made shorter by us.
    fn shortened(&mut self) {
        self.log.length = 0;
    }
}

impl Measured {
    fn check(&mut self) -> Result<(), String> {
        let identity = disk::Identity::of(&self.path).ok();
        let length = disk::length(&self.path).unwrap_or(0);
        let what = if identity.is_none() {
            "was removed or moved away"
        } else if self.identity.is_some() && identity != self.identity {
            "was replaced by another file"
        } else if length < self.length {
            "was emptied or cut"
        } else {
            (self.identity, self.length) = (identity, length);
            return Ok(());
        };
        Err(self.says(what))
    }

    fn says(&self, what: &str) -> String {
        format!("{} {what} while the daemon wrote to it", self.path.display())
    }
}
