//! Opening a journal: lock, a look at its bytes, format, health, what the last job was; a damaged file is salvaged and kept.
//!
//! In: a path. Out: a connection ready to write, with [`Restored`]; or why not. Not here: writing (`rows.rs`), the repair (`repair.rs`), what is
//! restored (`restore.rs`).
//!
//! The head of the file and its log are looked at before SQLite opens them, because it passes over, without a word, what it does not
//! take. A small file is checked whole at every start; a large one where it is read, and by `standpipe jobs check`.

use std::io::Read as _;
use std::path::Path;

use rusqlite::{Connection, OpenFlags};

use super::damage::Damage;
use super::log::Log;
use super::note::{self, Found};
use super::pages::PAGE;
use super::repair;
use super::restore::{self, Restored};
use super::salvage::Salvage;
use super::schema::{self, FORMAT};
use super::unopened::Unopened;
use super::{disk, head};
use crate::error::ServiceError;

/// A file up to this size is checked whole at every start.
/// Own choice: some 50 ms on a slow card; a larger one would be felt, and its last job is checked in any case.
const CHECKED_WHOLE: u64 = 8 * 1024 * 1024;

/// An advisory lock that dies with the process.
pub(crate) fn lock(path: &Path, journal: &Path) -> Result<std::fs::File, ServiceError> {
    let failed = |e: std::io::Error| Unopened::File(e).told(journal);
    disk::make_private(path).map_err(failed)?;
    let file = std::fs::File::options().write(true).open(path).map_err(failed)?;
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
            Err(e) => return Err(failed(e.into())),
        }
    }
}

/// A lock that is held is tried again so often, with so long in between.
/// Own choice: a fifth of a second in all: `jobs` reads for some ms; longer hides a second daemon.
const LOCK_TRIES: u32 = 20;
const LOCK_PAUSE: std::time::Duration = std::time::Duration::from_millis(10);

/// Opens the file and restores the last job. One that is damaged is salvaged, kept, and told. No other connection of this process may have the file open.
pub(crate) fn open_and_restore(path: &Path) -> Result<(Connection, Restored), ServiceError> {
    prepare(path).map_err(|e| e.told(path))
}

fn prepare(path: &Path) -> Result<(Connection, Restored), Unopened> {
    let note = note::read(path)?;
    let mut repaired = None;
    let opened = match look(path, &note)? {
        Look::Whole => try_open(path, &note),
        Look::Log => match rejoin(path, &note) {
            Ok((connection, told)) => {
                repaired = told;
                restored(connection, &note)
            }
            Err(e) => Err(e),
        },
        Look::Damaged(why) => Err(Unopened::Damaged(why)),
    };
    let (connection, mut restored) = match opened {
        Err(e) if e.is_damage() => {
            let mut damage = Damage::default();
            damage.cause(format!("the journal was damaged ({e})"));
            tracing::warn!(path = %path.display(), why = %e, "the journal is damaged; what can be read of it is taken over into a new one");
            repaired = Some(repair::rebuild(path, note.note(), damage)?);
            try_open(path, &note)?
        }
        opened => opened?,
    };
    restored.repaired = repaired;
    keep_log(&connection, false)?;
    // The log is not the whole journal: what is in the file itself, a damaged log cannot take along.
    checkpoint(&connection)?;
    Ok((connection, restored))
}

/// Whether closing the connection leaves the log as it is, instead of bringing it into the file and removing it.
fn keep_log(connection: &Connection, keep: bool) -> rusqlite::Result<bool> {
    connection.set_db_config(rusqlite::config::DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, keep)
}

/// Brings the log into the file, as far as no reader is at it.
pub(crate) fn checkpoint(connection: &Connection) -> rusqlite::Result<()> {
    connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))
}

/// What the bytes of a journal say, before SQLite opens it.
enum Look {
    Whole,
    /// The log has more than SQLite will take of it.
    Log,
    Damaged(String),
}

fn look(path: &Path, note: &Found) -> Result<Look, Unopened> {
    let (length, log) = (disk::length(path)?, disk::joined(path, "-wal"));
    let log_length = disk::length(&log)?;
    let under_way = repair::marker(path).exists();
    if length == 0 {
        let was_there = log_length > 0 || under_way || *note != Found::Missing;
        let gone = if path.exists() { "it is empty" } else { "it is not there any more" };
        return Ok(if was_there { Look::Damaged(gone.to_owned()) } else { Look::Whole });
    }
    let mut bytes = Vec::with_capacity(PAGE);
    std::fs::File::open(path)?.take(PAGE as u64).read_to_end(&mut bytes)?;
    // While a file is being made, its beginning may still stand in SQLite's own journal.
    let being_made = disk::length(&disk::joined(path, "-journal"))? > 0;
    let format = note.note().map(|note| note.format);
    if let Some(fault) = head::fault(&bytes, length, format, log_length > 0).filter(|_| !being_made) {
        return Ok(Look::Damaged(fault));
    }
    let more = log_length > 0 && Log::of(&std::fs::File::open(&log)?)?.has_more();
    Ok(if more || under_way { Look::Log } else { Look::Whole })
}

fn try_open(path: &Path, note: &Found) -> Result<(Connection, Restored), Unopened> {
    restored(open(path)?, note)
}

fn restored(connection: Connection, note: &Found) -> Result<(Connection, Restored), Unopened> {
    let restored = restore::restore(&connection, note.clone())?;
    Ok((connection, restored))
}

/// Opens a journal whose log has more than SQLite will take.
fn rejoin(path: &Path, note: &Found) -> Result<(Connection, Option<String>), Unopened> {
    let logs: Vec<_> = repair::keep_log(path)?.into_iter().filter(|log| log.exists()).collect();
    let logs: Vec<&Path> = logs.iter().map(std::path::PathBuf::as_path).collect();
    let mut salvage = Salvage::of_logs(Some(path), &logs)?;
    let mut connection = open(path)?;
    let mut damage = Damage::default();
    damage.cause("the journal's log was damaged, or ended in the middle of a write");
    let told = repair::rejoin(path, &mut connection, &mut salvage, note.note(), damage)?;
    Ok((connection, told))
}

/// Opens a file to write, makes it where there is none, and brings an older one to this format.
fn open(path: &Path) -> Result<Connection, Unopened> {
    disk::make_private(path)?;
    let connection = Connection::open(path)?;
    // As long as it may turn out to be damaged, nothing of it is touched.
    keep_log(&connection, true)?;
    connection.pragma_update(None, "journal_mode", "WAL")?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    if found > FORMAT {
        return Err(Unopened::Newer(found));
    }
    if std::fs::metadata(path).is_ok_and(|m| m.len() <= CHECKED_WHOLE) {
        let health: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
        if health != "ok" {
            return Err(Unopened::Damaged(health));
        }
    }
    if found < FORMAT {
        schema::migrate(&connection)?;
    }
    schema::complete(&connection)?;
    Ok(connection)
}

/// Opens a file to read, without a daemon and beside one. An older format is brought to ours first, where no daemon
/// holds the file; on a read-only disk a file that was closed in order is read as it is.
pub(crate) fn reader(path: &Path) -> Result<Connection, ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    if !path.exists() {
        let why = if repair::marker(path).exists() {
            "a repair of it was cut short; the next start of the daemon goes on with it"
        } else {
            "there is no such file"
        };
        return Err(failed(why.to_owned()));
    }
    let version = |c: &Connection| c.query_row("PRAGMA user_version", [], |row| row.get::<_, i64>(0));
    let mut connection = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY)
        .map_err(|e| failed(e.to_string()))?;
    let mut found = version(&connection);
    if found.is_err() && !disk::joined(path, "-wal").exists() {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let encoded = path.display().to_string().replace('%', "%25").replace('?', "%3f").replace('#', "%23");
        connection = Connection::open_with_flags(format!("file:{encoded}?immutable=1"), flags)
            .map_err(|e| failed(e.to_string()))?;
        found = version(&connection);
    }
    match found.map_err(|e| failed(e.to_string()))? {
        FORMAT => Ok(connection),
        newer if newer > FORMAT => Err(Unopened::Newer(newer).told(path)),
        _ => {
            drop(connection);
            let _lock = lock(&path.with_extension("lock"), path)?;
            let migrated = open(path).map_err(|e| e.told(path))?;
            keep_log(&migrated, false).map_err(|e| failed(e.to_string()))?;
            Ok(migrated)
        }
    }
}
