//! The journal: every event, in SQLite, written by a thread of its own.
//!
//! In: batches of events. Out: an answer once the batch is safe: a batch with a fact in it is synced to disk (write-
//! ahead log, `synchronous = FULL`), so that it survives `kill -9` and power loss; a batch of samples alone is handed
//! to the system, survives `kill -9`, and spares the SD card a sync every second. Numbers are reserved on disk ahead of use, so that a number
//! that was shown is never used again even where its event, a sample, was lost with the last second.
//!
//! ```text
//!  event  seq, job, kind, fact, at_ms, line     every event as it was written
//!  job    number, first, ended, started_ms …    one row a job, for lists and searches
//!  due    job, at_ms, done_by                   rechecks
//!  seal   last, hash                            one link of the hash chain for each batch (`seal.rs`)
//!  meta   name, value                           numbers reserved
//! ```
//!
//! `job`, `due` and `seal` are made from the events in the same transaction, so they never tell another story.
//!
//! Not here: opening, migrating, setting a damaged file aside (`open.rs`), reading without a daemon (`read.rs`), copies and
//! transfer (`transfer.rs`), photos (`photo.rs`), when to write (`outbox.rs`), what the events mean (`job`).

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, reason = "tests")]
mod durability;
mod open;
pub(crate) mod photo;
pub(crate) mod read;
mod rows;
mod seal;
pub(crate) mod transfer;

use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::thread;

use events::{Event, Seq};
use rusqlite::{Connection, params};
use tokio::sync::oneshot;

use crate::error::ServiceError;

pub(crate) use open::Restored;

/// How many numbers are reserved at a time.
const RESERVE: u64 = 100_000;
/// The most events that one read returns.
pub(crate) const READ_LIMIT: usize = 512;

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
        let lock = open::lock(&folder.join(format!("{bay}.lock")), &path)?;
        let (connection, restored) = open::open_and_restore(&path)?;
        let (commands, inbox) = mpsc::channel();
        let writer = rows::Writer::new(connection, restored.last_job).map_err(|e| failed(e.to_string()))?;
        let mut state = Server { writer, reserved: restored.next.0.saturating_add(RESERVE) };
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

/// The thread's own state.
struct Server {
    writer: rows::Writer,
    reserved: u64,
}

impl Server {
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
            self.reserve()?;
        }
        let rows: Vec<rows::Row> = events.iter().map(rows::Row::of).collect::<Result<_, _>>()?;
        self.writer.append(&rows).map(|_| ())
    }

    fn read(&self, from: Seq) -> rusqlite::Result<Vec<String>> {
        let connection = self.writer.connection();
        let mut select =
            connection.prepare_cached("SELECT line FROM event WHERE seq >= ?1 ORDER BY seq LIMIT ?2")?;
        let rows = select.query_map(params![from.0, READ_LIMIT], |row| row.get(0))?;
        rows.collect()
    }

    fn reserve(&mut self) -> rusqlite::Result<()> {
        self.writer.sync(true)?;
        self.writer
            .connection()
            .execute("INSERT OR REPLACE INTO meta (name, value) VALUES ('reserved', ?1)", [self.reserved])
            .map(|_| ())
    }
}

/// The lines of a query as events; a line of a newer minor version that we cannot read is passed over rather than
/// stopping the start.
fn lines<P: rusqlite::Params>(connection: &Connection, sql: &str, params: P) -> rusqlite::Result<Vec<Event>> {
    let mut select = connection.prepare(sql)?;
    let rows = select.query_map(params, |row| row.get::<_, String>(0))?;
    rows.map(|line| line.map(|l| serde_json::from_str(&l).ok())).filter_map(Result::transpose).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Body, Utc};
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

    fn started(seq: u64, job: u64) -> Event {
        let sheet =
            events::Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let body = events::Body::Job { job, sheet: Box::new(sheet), recheck_of: None };
        Event {
            seq: Seq(seq),
            at: Utc::from_millis(1_000 * i64::try_from(seq).unwrap()),
            mono_ms: Mono::ZERO,
            body,
        }
    }

    #[tokio::test]
    async fn a_damaged_page_costs_what_stood_on_it_and_no_more() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        {
            let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
            write(&journal, vec![started(1, 1)]).await;
            write(&journal, (2..=3_000).map(|n| event(Seq(n))).collect()).await;
        }
        let connection = rusqlite::Connection::open(&path).unwrap();
        connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
        drop(connection);
        let mut bytes = std::fs::read(&path).unwrap();
        let middle = bytes.len() / 2 / 4_096 * 4_096;
        bytes[middle..middle + 4_096].fill(0xAA);
        std::fs::write(&path, bytes).unwrap();

        let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
        let said = restored.repaired.unwrap();
        assert!(said.contains("damaged-1") && said.contains("were taken over"), "{said}");
        assert!(restored.next > Seq(3_000), "numbers are not used again: {:?}", restored.next);
        assert_eq!(restored.last_job, 1);
        let kept = journal.reader().read(Seq(2_900)).await;
        assert!(!kept.is_empty(), "what lies behind the bad page is kept too");
    }

    #[tokio::test]
    async fn a_file_of_the_first_format_is_brought_to_this_one() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        let old = rusqlite::Connection::open(&path).unwrap();
        old.execute_batch(
            "CREATE TABLE event (seq INTEGER PRIMARY KEY, job INTEGER, kind TEXT NOT NULL, fact INTEGER NOT NULL, at_ms INTEGER NOT NULL, line TEXT NOT NULL) STRICT;
             CREATE INDEX event_by_job ON event (job, seq) WHERE fact = 1;
             CREATE INDEX event_jobs ON event (seq) WHERE kind = 'job';
             CREATE TABLE meta (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT;
             PRAGMA user_version = 1;",
        )
        .unwrap();
        for e in [started(1, 1), event(Seq(2)), started(3, 2), event(Seq(4))] {
            let job = if e.seq < Seq(3) { 1 } else { 2 };
            let line = serde_json::to_string(&e).unwrap();
            old.execute(
                "INSERT INTO event VALUES (?1, ?2, ?3, 1, ?4, ?5)",
                params![e.seq.0, job, e.body.kind(), e.at.as_millis(), line],
            )
            .unwrap();
        }
        drop(old);
        // A reader may come first.
        let listed = read::list_jobs(&path, &read::JobQuery { limit: 10, ..Default::default() }).unwrap();
        assert_eq!(listed.iter().map(|j| j.job).collect::<Vec<_>>(), [2, 1]);
        let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
        assert_eq!((restored.last_job, restored.facts.len(), restored.repaired), (2, 2, None));
        assert_eq!(read::verify(&path, None).unwrap().broken, None);
        assert_eq!(read::read_job(&path, Some(1)).unwrap().1.len(), 2);
    }

    #[tokio::test]
    async fn an_edit_breaks_the_chain_and_says_where() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        {
            let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
            write(&journal, vec![started(1, 1), event(Seq(2))]).await;
            write(&journal, vec![event(Seq(3)), event(Seq(4))]).await;
            write(&journal, vec![event(Seq(5))]).await;
        }
        let good = read::verify(&path, None).unwrap();
        assert_eq!((good.events, good.seals, good.broken), (5, 3, None));
        let edit = |sql: &str| rusqlite::Connection::open(&path).unwrap().execute(sql, []).unwrap();
        edit("UPDATE event SET line = replace(line, 'stay-clear', 'open-port') WHERE seq = 3");
        assert_eq!(read::verify(&path, None).unwrap().broken, Some((Seq(3), Seq(4))));
        edit("UPDATE event SET line = replace(line, 'open-port', 'stay-clear') WHERE seq = 3");
        assert_eq!(read::verify(&path, None).unwrap().broken, None);
        edit("DELETE FROM event WHERE seq = 5");
        assert_eq!(read::verify(&path, None).unwrap().broken, Some((Seq(5), Seq(5))));
    }

    #[tokio::test]
    async fn a_photo_is_kept_under_its_hash_and_a_change_is_seen() {
        use super::photo::{PhotoState, check_photo, photo_path, store_photo};
        let folder = tempfile::tempdir().unwrap();
        let picture = folder.path().join("Plug.PNG");
        std::fs::write(&picture, b"\x89PNG and so on").unwrap();
        let photo = store_photo(folder.path(), &picture).unwrap();
        assert_eq!((photo.sha256.len(), photo.name.as_str()), (64, "Plug.PNG"));
        assert_eq!(store_photo(folder.path(), &picture).unwrap(), photo, "twice is once");
        assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Same);
        std::fs::write(photo_path(folder.path(), &photo.sha256, &photo.name), b"other").unwrap();
        assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Changed);
        std::fs::remove_file(photo_path(folder.path(), &photo.sha256, &photo.name)).unwrap();
        assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Missing);
        let text = folder.path().join("notes.png");
        std::fs::write(&text, b"no picture").unwrap();
        assert!(store_photo(folder.path(), &text).is_err());
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
