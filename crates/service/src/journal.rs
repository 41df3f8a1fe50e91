//! The journal: every event, in SQLite, written by a thread of its own.
//!
//! In: batches of events. Out: an answer once the batch is safe: a batch with a fact in it is synced to disk (write-
//! ahead log, `synchronous = FULL`), so that it survives `kill -9` and power loss; a batch of samples alone is handed
//! to the system, survives `kill -9`, and spares the SD card a sync every second. Numbers are reserved on disk ahead of use, so that a number
//! that was shown is never used again even where its event, a sample, was lost with the last second.
//!
//! Not here: when to write (`outbox.rs`), what the events mean (`job`).

use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::thread;

use events::{Body, Durability, Event, Seq};
use rusqlite::{Connection, OptionalExtension as _, params};
use tokio::sync::oneshot;

use crate::error::ServiceError;

/// The format of the file. Raised with every migration.
const FORMAT: i64 = 1;
/// How many numbers are reserved at a time.
const RESERVE: u64 = 100_000;
/// The most events that one read returns.
pub(crate) const READ_LIMIT: usize = 512;

const SCHEMA: &str = "
    CREATE TABLE IF NOT EXISTS event (
        seq     INTEGER PRIMARY KEY,
        job     INTEGER,
        kind    TEXT NOT NULL,
        fact    INTEGER NOT NULL,
        at_ms   INTEGER NOT NULL,
        line    TEXT NOT NULL
    ) STRICT;
    CREATE INDEX IF NOT EXISTS event_by_job ON event (job, seq) WHERE fact = 1;
    CREATE INDEX IF NOT EXISTS event_jobs ON event (seq) WHERE kind = 'job';
    CREATE TABLE IF NOT EXISTS meta (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT;
";

/// What the journal holds of the past when a daemon starts.
#[derive(Debug, Default)]
pub(crate) struct Restored {
    /// The number after the last that may have been used.
    pub(crate) next: Seq,
    /// The number of the last job, 0 where there was none.
    pub(crate) last_job: u64,
    /// The facts of the last job, in order.
    pub(crate) facts: Vec<Event>,
    /// A sentence where a damaged file was set aside.
    pub(crate) repaired: Option<String>,
}

enum Command {
    Append(Vec<Event>, oneshot::Sender<Result<(), String>>),
    Read(Seq, oneshot::Sender<Vec<String>>),
}

/// The writing end. Dropping it ends the thread after the last write.
#[derive(Debug)]
pub(crate) struct Journal {
    path: PathBuf,
    commands: mpsc::Sender<Command>,
    /// Keeps other daemons off the file as long as we live.
    _lock: std::fs::File,
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
        let failed = |why: String| ServiceError::JournalOpen { path: path.clone(), why };
        std::fs::create_dir_all(folder).map_err(|e| failed(e.to_string()))?;
        let lock = lock(&folder.join(format!("{bay}.lock")), &path)?;
        let (connection, repaired) = open_or_set_aside(&path)?;
        let mut restored = restore(&connection).map_err(|e| failed(e.to_string()))?;
        restored.repaired = repaired;
        let (commands, inbox) = mpsc::channel();
        let state = Writer {
            connection,
            job: restored.last_job,
            reserved: restored.next.0.saturating_add(RESERVE),
            synced: true,
        };
        state.reserve().map_err(|e| failed(e.to_string()))?;
        thread::Builder::new()
            .name("journal".to_owned())
            .spawn(move || state.serve(&inbox))
            .map_err(|e| failed(e.to_string()))?;
        Ok((Self { path, commands, _lock: lock }, restored))
    }

    /// The file.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Hands a batch over; the answer comes when it is on disk.
    pub(crate) fn append(&self, events: Vec<Event>) -> oneshot::Receiver<Result<(), String>> {
        let (done, answer) = oneshot::channel();
        // A thread that is gone drops `done`, which the receiver reports as a failed write.
        let _ = self.commands.send(Command::Append(events, done));
        answer
    }

    /// A handle that reads old events.
    pub(crate) fn reader(&self) -> JournalReader {
        JournalReader { commands: self.commands.clone() }
    }
}

impl JournalReader {
    /// Up to [`READ_LIMIT`] lines from `from` on, in order.
    pub(crate) async fn read(&self, from: Seq) -> Vec<String> {
        let (done, answer) = oneshot::channel();
        let _ = self.commands.send(Command::Read(from, done));
        answer.await.unwrap_or_default()
    }
}

/// Reads all events of one job from a journal file, without a daemon: what `report` and `jobs` live on.
///
/// `job` is the job's number, or the last one where absent. Gives the number with its events.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read or holds no such job.
pub fn read_job(path: &Path, job: Option<u64>) -> Result<(u64, Vec<Event>), ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    if !path.exists() {
        return Err(failed("there is no such file".to_owned()));
    }
    let connection = Connection::open_with_flags(path, rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY)
        .map_err(|e| failed(e.to_string()))?;
    let last: Option<u64> = connection
        .query_row("SELECT max(job) FROM event WHERE kind = 'job'", [], |row| row.get(0))
        .map_err(|e| failed(e.to_string()))?;
    let job = job.or(last).ok_or_else(|| failed("it holds no job yet".to_owned()))?;
    let events = lines(&connection, "SELECT line FROM event WHERE job = ?1 ORDER BY seq", [job])
        .map_err(|e| failed(e.to_string()))?;
    if events.is_empty() {
        return Err(failed(format!("it holds no job {job}; the last is {}", last.unwrap_or(0))));
    }
    Ok((job, events))
}

/// The thread's own state.
struct Writer {
    connection: Connection,
    job: u64,
    reserved: u64,
    /// Whether a commit waits for the disk, as set now.
    synced: bool,
}

impl Writer {
    fn serve(mut self, inbox: &mpsc::Receiver<Command>) {
        while let Ok(command) = inbox.recv() {
            match command {
                Command::Append(events, done) => {
                    let _ = done.send(self.append(&events).map_err(|e| e.to_string()));
                }
                Command::Read(from, done) => {
                    let _ = done.send(self.read(from).unwrap_or_default());
                }
            }
        }
    }

    fn append(&mut self, events: &[Event]) -> rusqlite::Result<()> {
        let Some(last) = events.last() else { return Ok(()) };
        if last.seq.0.saturating_add(RESERVE / 10) > self.reserved {
            self.reserved = last.seq.0.saturating_add(RESERVE);
            self.sync(true)?;
            self.reserve()?;
        }
        self.sync(events.iter().any(|e| e.body.durability() == Durability::Fact))?;
        let mut job = self.job;
        let transaction = self.connection.transaction()?;
        {
            let mut insert = transaction.prepare_cached(
                "INSERT INTO event (seq, job, kind, fact, at_ms, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            )?;
            for event in events {
                if let Body::Job { job: number, .. } = event.body {
                    job = number;
                }
                let fact = event.body.durability() == Durability::Fact;
                let line = serde_json::to_string(event)
                    .map_err(|e| rusqlite::Error::ToSqlConversionFailure(Box::new(e)))?;
                let job = (job > 0).then_some(job);
                insert.execute(params![
                    event.seq.0,
                    job,
                    event.body.kind(),
                    fact,
                    event.at.as_millis(),
                    line
                ])?;
            }
        }
        transaction.commit()?;
        self.job = job;
        Ok(())
    }

    /// Whether the next commit waits for the disk. A commit that does takes along all that came before it.
    fn sync(&mut self, wanted: bool) -> rusqlite::Result<()> {
        if self.synced != wanted {
            self.connection.pragma_update(None, "synchronous", if wanted { "FULL" } else { "NORMAL" })?;
            self.synced = wanted;
        }
        Ok(())
    }

    fn read(&self, from: Seq) -> rusqlite::Result<Vec<String>> {
        let mut select =
            self.connection.prepare_cached("SELECT line FROM event WHERE seq >= ?1 ORDER BY seq LIMIT ?2")?;
        let rows = select.query_map(params![from.0, READ_LIMIT], |row| row.get(0))?;
        rows.collect()
    }

    fn reserve(&self) -> rusqlite::Result<()> {
        self.connection
            .execute("INSERT OR REPLACE INTO meta (name, value) VALUES ('reserved', ?1)", [self.reserved])
            .map(|_| ())
    }
}

/// An advisory lock that dies with the process.
fn lock(path: &Path, journal: &Path) -> Result<std::fs::File, ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: journal.to_path_buf(), why };
    let file = std::fs::File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(path)
        .map_err(|e| failed(e.to_string()))?;
    match rustix::fs::flock(&file, rustix::fs::FlockOperation::NonBlockingLockExclusive) {
        Ok(()) => Ok(file),
        Err(rustix::io::Errno::WOULDBLOCK) => Err(ServiceError::InUse { path: journal.to_path_buf() }),
        Err(e) => Err(failed(e.to_string())),
    }
}

/// Opens the file; one that is no database any more is renamed, kept, and told.
fn open_or_set_aside(path: &Path) -> Result<(Connection, Option<String>), ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    match open(path) {
        Ok(connection) => Ok((connection, None)),
        Err(Open::Newer(found)) => {
            Err(ServiceError::JournalNewer { path: path.to_path_buf(), found, known: FORMAT })
        }
        Err(Open::Database(e)) if damaged(&e) => {
            let aside = (1..1_000)
                .map(|n| path.with_extension(format!("journal.damaged-{n}")))
                .find(|p| !p.exists())
                .ok_or_else(|| failed("too many damaged journals lie here".to_owned()))?;
            std::fs::rename(path, &aside).map_err(|e| failed(e.to_string()))?;
            for tail in ["-wal", "-shm"] {
                let mut name = path.as_os_str().to_owned();
                name.push(tail);
                let _ = std::fs::remove_file(PathBuf::from(name));
            }
            let connection = open(path).map_err(|e| failed(e.to_string()))?;
            Ok((connection, Some(format!("the old journal was damaged and is kept as {}", aside.display()))))
        }
        Err(e) => Err(failed(e.to_string())),
    }
}

#[derive(Debug, thiserror::Error)]
enum Open {
    #[error("format {0}")]
    Newer(i64),
    #[error(transparent)]
    Database(#[from] rusqlite::Error),
}

fn damaged(error: &rusqlite::Error) -> bool {
    use rusqlite::ErrorCode::{DatabaseCorrupt, NotADatabase};
    matches!(error.sqlite_error_code(), Some(DatabaseCorrupt | NotADatabase))
}

fn open(path: &Path) -> Result<Connection, Open> {
    let connection = Connection::open(path)?;
    connection.pragma_update(None, "journal_mode", "WAL")?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    if found > FORMAT {
        return Err(Open::Newer(found));
    }
    connection.execute_batch(SCHEMA)?;
    connection.pragma_update(None, "user_version", FORMAT)?;
    let health: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if health != "ok" {
        let code = rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_CORRUPT);
        return Err(rusqlite::Error::SqliteFailure(code, Some(health)).into());
    }
    Ok(connection)
}

fn restore(connection: &Connection) -> rusqlite::Result<Restored> {
    let used: Option<u64> = connection.query_row("SELECT max(seq) FROM event", [], |row| row.get(0))?;
    let reserved: Option<u64> = connection
        .query_row("SELECT value FROM meta WHERE name = 'reserved'", [], |row| row.get(0))
        .optional()?;
    let next = Seq(used.unwrap_or(0).max(reserved.unwrap_or(0)).saturating_add(1));
    let last_job: Option<u64> =
        connection.query_row("SELECT max(job) FROM event WHERE kind = 'job'", [], |row| row.get(0))?;
    let facts = match last_job {
        None => Vec::new(),
        Some(job) => {
            lines(connection, "SELECT line FROM event WHERE job = ?1 AND fact = 1 ORDER BY seq", [job])?
        }
    };
    Ok(Restored { next, last_job: last_job.unwrap_or(0), facts, repaired: None })
}

fn lines<P: rusqlite::Params>(connection: &Connection, sql: &str, params: P) -> rusqlite::Result<Vec<Event>> {
    let mut select = connection.prepare(sql)?;
    let rows = select.query_map(params, |row| row.get::<_, String>(0))?;
    // A line of a newer minor version that we cannot read is passed over rather than stopping the start.
    rows.map(|line| line.map(|l| serde_json::from_str(&l).ok())).filter_map(Result::transpose).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Utc};
    use units::Mono;

    fn event(seq: Seq) -> Event {
        let body = Body::Advice { advice: Advice::StayClear };
        Event { seq, at: Utc::from_millis(1_000), mono_ms: Mono::from_millis(seq.0), body }
    }

    async fn write(journal: &Journal, events: Vec<Event>) {
        journal.append(events).await.unwrap().unwrap();
    }

    #[tokio::test]
    async fn numbers_are_never_used_again_even_when_their_event_was_lost() {
        let folder = tempfile::tempdir().unwrap();
        let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
        assert_eq!(restored.next, Seq(1));
        write(&journal, vec![event(Seq(1)), event(Seq(2))]).await;
        // Numbers 3 to 9 were shown as samples and never written; then the power went.
        drop(journal);
        let (_, restored) = retry_open(folder.path());
        assert!(restored.next > Seq(9), "{:?}", restored.next);
    }

    /// The writing thread ends a moment after the handle is dropped; its lock goes with the handle.
    fn retry_open(folder: &Path) -> (Journal, Restored) {
        Journal::open(folder, "bay").unwrap()
    }

    #[tokio::test]
    async fn a_second_daemon_is_kept_off() {
        let folder = tempfile::tempdir().unwrap();
        let _first = Journal::open(folder.path(), "bay").unwrap();
        assert!(matches!(Journal::open(folder.path(), "bay"), Err(ServiceError::InUse { .. })));
        assert!(Journal::open(folder.path(), "other").is_ok());
    }

    #[tokio::test]
    async fn a_file_that_is_no_journal_is_kept_and_told() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        std::fs::write(&path, vec![b'x'; 8_192]).unwrap();
        let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
        assert!(restored.repaired.unwrap().contains("bay.journal.damaged-1"));
        write(&journal, vec![event(Seq(1))]).await;
        assert_eq!(std::fs::read(folder.path().join("bay.journal.damaged-1")).unwrap().len(), 8_192);
    }

    #[tokio::test]
    async fn old_events_can_be_read_back_in_order() {
        let folder = tempfile::tempdir().unwrap();
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        write(&journal, (1..=600).map(|n| event(Seq(n))).collect()).await;
        let lines = journal.reader().read(Seq(10)).await;
        assert_eq!(lines.len(), READ_LIMIT);
        let first: Event = serde_json::from_str(&lines[0]).unwrap();
        assert_eq!(first, event(Seq(10)));
    }
}
