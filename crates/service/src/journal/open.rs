//! Opening a journal: lock, format, migration, health, what the last job was; a damaged file is salvaged and kept.
//!
//! In: a path. Out: a connection ready to write, with [`Restored`]; or why not. Not here: writing (`rows.rs`).
//!
//! A small file is checked whole at every start; a large one where it is read, and by `standpipe jobs check`. What can still be
//! read of a damaged file is taken over into a new one, in order; the damaged file is renamed and kept.

use std::path::{Path, PathBuf};

use events::{Event, Seq};
use rusqlite::{Connection, OpenFlags, OptionalExtension as _};

use super::rows::{Row, Writer, derive};
use super::{lines, seal};
use crate::error::ServiceError;

/// The format of the file. Raised with every migration.
pub(crate) const FORMAT: i64 = 2;
/// A file up to this size is checked whole at every start: some 50 ms on a slow card (own choice).
const CHECKED_WHOLE: u64 = 8 * 1024 * 1024;
/// So many events are taken over in one batch.
const BATCH: usize = 1_000;

const SCHEMA_1: &str = "
    CREATE TABLE IF NOT EXISTS event (
        seq     INTEGER PRIMARY KEY,
        job     INTEGER,
        kind    TEXT NOT NULL,
        fact    INTEGER NOT NULL,
        at_ms   INTEGER NOT NULL,
        line    TEXT NOT NULL
    ) STRICT;
    CREATE INDEX IF NOT EXISTS event_by_job ON event (job, seq) WHERE fact = 1;
    CREATE TABLE IF NOT EXISTS meta (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT;
";

const SCHEMA_2: &str = "
    DROP INDEX IF EXISTS event_jobs;
    CREATE TABLE job (
        number      INTEGER PRIMARY KEY,
        first       INTEGER NOT NULL,
        started_ms  INTEGER NOT NULL,
        ended       INTEGER,
        ended_ms    INTEGER,
        sheet       TEXT NOT NULL,
        vehicle     TEXT,
        outcome     TEXT,
        off_ml      INTEGER,
        recheck_of  INTEGER
    ) STRICT;
    CREATE INDEX job_by_start ON job (started_ms);
    CREATE TABLE due (
        job     INTEGER NOT NULL,
        at_ms   INTEGER NOT NULL,
        done_by INTEGER,
        PRIMARY KEY (job, at_ms)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX due_open ON due (at_ms) WHERE done_by IS NULL;
    CREATE TABLE seal (last INTEGER PRIMARY KEY, hash BLOB NOT NULL) STRICT;
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

#[derive(Debug, thiserror::Error)]
enum Open {
    #[error("format {0}")]
    Newer(i64),
    #[error("{0}")]
    Damaged(String),
    #[error(transparent)]
    Database(#[from] rusqlite::Error),
}

/// An advisory lock that dies with the process.
pub(crate) fn lock(path: &Path, journal: &Path) -> Result<std::fs::File, ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: journal.to_path_buf(), why };
    let file = std::fs::File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(path)
        .map_err(|e| failed(e.to_string()))?;
    let mut tries = LOCK_TRIES;
    loop {
        match rustix::fs::flock(&file, rustix::fs::FlockOperation::NonBlockingLockExclusive) {
            Ok(()) => return Ok(file),
            Err(rustix::io::Errno::WOULDBLOCK) if tries > 0 => {
                // Whoever was just killed, or is starting a process of its own, lets go in a moment.
                tries -= 1;
                std::thread::sleep(LOCK_PAUSE);
            }
            Err(rustix::io::Errno::WOULDBLOCK) => {
                return Err(ServiceError::InUse { path: journal.to_path_buf() });
            }
            Err(e) => return Err(failed(e.to_string())),
        }
    }
}

/// A lock that is held is tried again so often, with so long in between: a fifth of a second in all (own choice).
const LOCK_TRIES: u32 = 20;
const LOCK_PAUSE: std::time::Duration = std::time::Duration::from_millis(10);

/// Opens the file and restores the last job. One that is damaged is salvaged, renamed, kept, and told.
pub(crate) fn open_and_restore(path: &Path) -> Result<(Connection, Restored), ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    match try_open(path) {
        Ok(opened) => Ok(opened),
        Err(Open::Newer(found)) => {
            Err(ServiceError::JournalNewer { path: path.to_path_buf(), found, known: FORMAT })
        }
        Err(e) if is_damage(&e) => {
            let (aside, kept) = set_aside(path).map_err(|e| failed(e.to_string()))?;
            let (connection, mut restored) = try_open(path).map_err(|e| failed(e.to_string()))?;
            let number = restored.next;
            restored.repaired = Some(format!(
                "the old journal was damaged and is kept as {}; {kept} events of it were taken over, new ones begin at {number}",
                aside.display()
            ));
            Ok((connection, restored))
        }
        Err(e) => Err(failed(e.to_string())),
    }
}

fn is_damage(error: &Open) -> bool {
    use rusqlite::ErrorCode::{DatabaseCorrupt, NotADatabase};
    match error {
        Open::Damaged(_) => true,
        Open::Database(e) => matches!(e.sqlite_error_code(), Some(DatabaseCorrupt | NotADatabase)),
        Open::Newer(_) => false,
    }
}

fn try_open(path: &Path) -> Result<(Connection, Restored), Open> {
    let connection = open(path)?;
    let restored = restore(&connection)?;
    Ok((connection, restored))
}

/// Opens a file to write, makes it where there is none, and brings an older one to this format.
fn open(path: &Path) -> Result<Connection, Open> {
    let connection = Connection::open(path)?;
    connection.pragma_update(None, "journal_mode", "WAL")?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    if found > FORMAT {
        return Err(Open::Newer(found));
    }
    if std::fs::metadata(path).is_ok_and(|m| m.len() <= CHECKED_WHOLE) {
        let health: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
        if health != "ok" {
            return Err(Open::Damaged(health));
        }
    }
    if found < FORMAT {
        migrate(&connection)?;
    }
    Ok(connection)
}

/// Makes or migrates the tables, all or nothing: a crash in between leaves the file as it was.
fn migrate(connection: &Connection) -> rusqlite::Result<()> {
    connection.execute_batch("BEGIN IMMEDIATE")?;
    let done = (|| {
        connection.execute_batch(SCHEMA_1)?;
        connection.execute_batch(SCHEMA_2)?;
        from_events(connection)?;
        connection.pragma_update(None, "user_version", FORMAT)
    })();
    connection.execute_batch(if done.is_ok() { "COMMIT" } else { "ROLLBACK" })?;
    done
}

/// What format 1 did not have, made from its events: jobs, dues, and one seal over all that was there.
fn from_events(connection: &Connection) -> rusqlite::Result<()> {
    let mut select = connection.prepare("SELECT seq, kind, job, line FROM event ORDER BY seq")?;
    let mut rows = select.query([])?;
    let (_, start) = seal::before(connection, 0)?;
    let mut sealer = seal::Sealer::after(&start);
    let mut last = None;
    while let Some(row) = rows.next()? {
        let (seq, kind, job, line): (u64, String, Option<u64>, String) =
            (row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?);
        sealer.event(seq, &line);
        last = Some(seq);
        if matches!(kind.as_str(), "job" | "result" | "told")
            && let Ok(event) = serde_json::from_str::<Event>(&line)
        {
            derive(connection, &event, job.unwrap_or(0))?;
        }
    }
    if let Some(last) = last {
        let hash = sealer.seal();
        connection.execute(
            "INSERT INTO seal (last, hash) VALUES (?1, ?2)",
            rusqlite::params![last, hash.as_slice()],
        )?;
    }
    Ok(())
}

fn restore(connection: &Connection) -> rusqlite::Result<Restored> {
    let used: Option<u64> = connection.query_row("SELECT max(seq) FROM event", [], |row| row.get(0))?;
    let reserved: Option<u64> = connection
        .query_row("SELECT value FROM meta WHERE name = 'reserved'", [], |row| row.get(0))
        .optional()?;
    let next = Seq(used.unwrap_or(0).max(reserved.unwrap_or(0)).saturating_add(1));
    let last_job: Option<u64> = connection.query_row("SELECT max(number) FROM job", [], |row| row.get(0))?;
    let facts = match last_job {
        None => Vec::new(),
        Some(job) => {
            lines(connection, "SELECT line FROM event WHERE job = ?1 AND fact = 1 ORDER BY seq", [job])?
        }
    };
    Ok(Restored { next, last_job: last_job.unwrap_or(0), facts, repaired: None })
}

/// Renames the damaged file with its log, and takes what can be read of it over into a new one. Gives the new name of the
/// old file and how many events were taken over.
fn set_aside(path: &Path) -> Result<(PathBuf, usize), Open> {
    let aside = (1..1_000)
        .map(|n| path.with_extension(format!("journal.damaged-{n}")))
        .find(|p| !p.exists())
        .ok_or_else(|| Open::Damaged("too many damaged journals lie here".to_owned()))?;
    let moved = |from: &Path, to: &Path| {
        std::fs::rename(from, to)
            .map_err(|e| Open::Damaged(format!("it is damaged and cannot be renamed: {e}")))
    };
    moved(path, &aside)?;
    for tail in ["-wal", "-shm"] {
        let with = |p: &Path| joined(p, tail);
        if with(path).exists() {
            moved(&with(path), &with(&aside))?;
        }
    }
    let salvaged = salvage(&aside);
    let connection = open(path)?;
    if let Some(reserved) = salvaged.reserved {
        connection
            .execute("INSERT OR REPLACE INTO meta (name, value) VALUES ('reserved', ?1)", [reserved])?;
    }
    let mut writer = Writer::new(connection, 0)?;
    for batch in salvaged.rows.chunks(BATCH) {
        writer.append(batch)?;
    }
    Ok((aside, salvaged.rows.len()))
}

/// What can be read of a damaged file.
#[derive(Default)]
struct Salvaged {
    rows: Vec<Row>,
    reserved: Option<u64>,
}

/// Reads from the front until a page is bad, then from the back until it meets a bad page or what was read already.
fn salvage(path: &Path) -> Salvaged {
    let Ok(connection) = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE) else {
        return Salvaged::default();
    };
    let mut rows = Vec::new();
    let front =
        |rows: &mut Vec<Row>| read_until_bad(&connection, "SELECT line FROM event ORDER BY seq", 0, rows);
    let whole = front(&mut rows);
    if !whole {
        let last = rows.last().map_or(0, |r: &Row| r.event.seq.0);
        let mut back = Vec::new();
        let sql = "SELECT line FROM event WHERE seq > ?1 ORDER BY seq DESC";
        read_until_bad(&connection, sql, last, &mut back);
        rows.extend(back.into_iter().rev());
    }
    let reserved =
        connection.query_row("SELECT value FROM meta WHERE name = 'reserved'", [], |row| row.get(0)).ok();
    Salvaged { rows, reserved }
}

/// Whether it came to the end.
fn read_until_bad(connection: &Connection, sql: &str, after: u64, into: &mut Vec<Row>) -> bool {
    let Ok(mut select) = connection.prepare(sql) else { return false };
    let rows = if sql.contains("?1") { select.query([after]) } else { select.query([]) };
    let Ok(mut rows) = rows else { return false };
    loop {
        match rows.next() {
            Ok(None) => return true,
            Err(_) => return false,
            Ok(Some(row)) => {
                let line = row.get::<_, String>(0);
                let event = line.as_ref().ok().and_then(|l| serde_json::from_str::<Event>(l).ok());
                if let (Ok(line), Some(event)) = (line, event) {
                    into.push(Row { event, line });
                }
            }
        }
    }
}

/// Opens a file to read, without a daemon and beside one. An older format is brought to ours first, where no daemon
/// holds the file; on a read-only disk a file that was closed in order is read as it is.
pub(crate) fn reader(path: &Path) -> Result<Connection, ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    if !path.exists() {
        return Err(failed("there is no such file".to_owned()));
    }
    let version = |c: &Connection| c.query_row("PRAGMA user_version", [], |row| row.get::<_, i64>(0));
    let mut connection = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY)
        .map_err(|e| failed(e.to_string()))?;
    let mut found = version(&connection);
    if found.is_err() && !joined(path, "-wal").exists() {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let encoded = path.display().to_string().replace('%', "%25").replace('?', "%3f").replace('#', "%23");
        connection = Connection::open_with_flags(format!("file:{encoded}?immutable=1"), flags)
            .map_err(|e| failed(e.to_string()))?;
        found = version(&connection);
    }
    match found.map_err(|e| failed(e.to_string()))? {
        FORMAT => Ok(connection),
        newer if newer > FORMAT => {
            Err(ServiceError::JournalNewer { path: path.to_path_buf(), found: newer, known: FORMAT })
        }
        _ => {
            drop(connection);
            let _lock = lock(&path.with_extension("lock"), path)?;
            open(path).map_err(|e| failed(e.to_string()))
        }
    }
}

/// The file that SQLite keeps beside `path`.
fn joined(path: &Path, tail: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(tail);
    PathBuf::from(name)
}
