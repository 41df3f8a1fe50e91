//! The tables, and how an older file is brought to this format.
//!
//! In: a connection. Out: the file in the present format, all or nothing. Not here: whether the file is whole (`open.rs`).

use events::Event;
use rusqlite::{Connection, params};

use super::rows::{DERIVED, derive};
use super::seal;

/// The format of the file. Raised with every migration.
/// By definition: raised with every migration.
pub(crate) const FORMAT: i64 = 2;
/// An old file without seals is sealed in batches of so many events, so that a later fault is found to within as many.
/// Own choice: minutes of a job; smaller seals cost 40 bytes each, larger ones tell less of where a fault is.
const BATCH: u64 = 1_000;

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
    CREATE TABLE seal (last INTEGER PRIMARY KEY, hash BLOB NOT NULL, first INTEGER) STRICT;
";

/// Whether a table is there, and a column of it.
pub(crate) fn has(connection: &Connection, table: &str, column: &str) -> rusqlite::Result<bool> {
    let sql = "SELECT count(*) FROM pragma_table_info(?1) WHERE name = ?2";
    connection.query_row(sql, params![table, column], |row| row.get::<_, u32>(0)).map(|n| n > 0)
}

/// Adds what files of this format did not have from the start; older programs of the same format pass it over.
pub(crate) fn complete(connection: &Connection) -> rusqlite::Result<()> {
    if !has(connection, "seal", "first")? {
        connection.execute_batch("ALTER TABLE seal ADD COLUMN first INTEGER")?;
    }
    Ok(())
}

/// Makes or migrates the tables, all or nothing: a crash in between leaves the file as it was.
pub(crate) fn migrate(connection: &Connection) -> rusqlite::Result<()> {
    connection.execute_batch("BEGIN IMMEDIATE")?;
    let done = make(connection);
    connection.execute_batch(if done.is_ok() { "COMMIT" } else { "ROLLBACK" })?;
    done
}

/// The same inside of a transaction.
pub(crate) fn make(connection: &Connection) -> rusqlite::Result<()> {
    connection.execute_batch(SCHEMA_1)?;
    connection.execute_batch(SCHEMA_2)?;
    from_events(connection)?;
    connection.pragma_update(None, "user_version", FORMAT)
}

/// What format 1 did not have, made from its events: jobs, dues, and seals over what was there.
fn from_events(connection: &Connection) -> rusqlite::Result<()> {
    let mut select = connection.prepare("SELECT seq, kind, job, line FROM event ORDER BY seq")?;
    let mut rows = select.query([])?;
    let mut head = seal::START;
    let mut sealer = seal::Sealer::after(&head);
    let (mut batch, mut count): (Option<(u64, u64)>, u64) = (None, 0);
    let put = |(first, last): (u64, u64), hash: &seal::Hash| {
        connection.execute(
            "INSERT INTO seal (last, hash, first) VALUES (?1, ?2, ?3)",
            params![last, hash.as_slice(), first],
        )
    };
    while let Some(row) = rows.next()? {
        let (seq, job): (u64, Option<u64>) = (row.get(0)?, row.get(2)?);
        let (kind, line) = (row.get_ref(1)?, row.get_ref(3)?);
        let line = line.as_bytes().unwrap_or_default();
        sealer.event(seq, line);
        batch = Some((batch.map_or(seq, |(first, _)| first), seq));
        count += 1;
        // By the words of `events`, older ones among them.
        let kind = kind.as_str().ok().and_then(|kind| kind.parse().ok());
        if kind.is_some_and(|kind| DERIVED.contains(&kind))
            && let Ok(event) = serde_json::from_slice::<Event>(line)
        {
            derive(connection, &event, job.unwrap_or(0))?;
        }
        if let Some(whole) = batch.filter(|_| count == BATCH) {
            head = std::mem::replace(&mut sealer, seal::Sealer::after(&head)).seal();
            put(whole, &head)?;
            sealer = seal::Sealer::after(&head);
            (batch, count) = (None, 0);
        }
    }
    if let Some(rest) = batch {
        put(rest, &sealer.seal())?;
    }
    Ok(())
}
