//! Writing: one batch, one transaction: events, the rows made from them, and the seal over them.
//!
//! In: rows in the order of their numbers. Out: the seal's hash once the batch is as durable as it must be. The same code writes
//! what a daemon does, what an import brings, and what a migration makes of an old file.

use events::{Body, Durability, Event, Kind, Outcome, Request, Utc};
use rusqlite::{Connection, params};

use super::seal::{self, Hash};
use crate::row::Row;

/// The writing end of one file.
pub(crate) struct Writer {
    connection: Connection,
    job: u64,
    head: Hash,
    /// Whether a commit waits for the disk, as set now.
    synced: bool,
}

impl Writer {
    /// Goes on after job `job` and the last seal of the file.
    pub(crate) fn new(connection: Connection, job: u64) -> rusqlite::Result<Self> {
        let (_, head) = seal::head(&connection)?;
        Ok(Self { connection, job, head, synced: true })
    }

    pub(crate) const fn connection(&self) -> &Connection {
        &self.connection
    }

    /// The last job, and the last seal.
    pub(crate) const fn stands_at(&self) -> (u64, &Hash) {
        (self.job, &self.head)
    }

    /// Writes one batch; waits for the disk where there is a fact in it. Gives the seal.
    pub(crate) fn append(&mut self, rows: &[Row]) -> rusqlite::Result<Hash> {
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else { return Ok(self.head) };
        self.sync(rows.iter().any(|r| r.event.body.durability() == Durability::Fact))?;
        let lines = rows.iter().map(|r| (r.event.seq.0, r.line.as_bytes()));
        let head = seal::next(&self.head, lines);
        let mut job = self.job;
        let transaction = self.connection.transaction()?;
        for row in rows {
            job = insert(&transaction, row, job)?;
        }
        transaction
            .prepare_cached("INSERT INTO seal (last, hash, first) VALUES (?1, ?2, ?3)")?
            .execute(params![last.event.seq.0, head.as_slice(), first.event.seq.0])?;
        transaction.commit()?;
        (self.job, self.head) = (job, head);
        Ok(head)
    }

    /// Whether the next commit waits for the disk. A commit that does takes along all that came before it.
    pub(crate) fn sync(&mut self, wanted: bool) -> rusqlite::Result<()> {
        if self.synced != wanted {
            self.connection.pragma_update(None, "synchronous", if wanted { "FULL" } else { "NORMAL" })?;
            self.synced = wanted;
        }
        Ok(())
    }
}

/// One event and what is made from it. Gives the job it belongs to.
pub(crate) fn insert(connection: &Connection, row: &Row, job: u64) -> rusqlite::Result<u64> {
    if let Some(why) = &row.unsaid {
        return Err(rusqlite::Error::ToSqlConversionFailure(why.as_ref().into()));
    }
    let event = &row.event;
    let job = if let Body::Job { job: number, .. } = event.body { number } else { job };
    let fact = event.body.durability() == Durability::Fact;
    connection
        .prepare_cached(
            "INSERT INTO event (seq, job, kind, fact, at_ms, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        )?
        .execute(params![
            event.seq.0,
            (job > 0).then_some(job),
            event.body.kind(),
            fact,
            event.at.as_millis(),
            &*row.line
        ])?;
    derive(connection, event, job)?;
    Ok(job)
}

/// A line that is no event to this program, as it was written by a newer one.
pub(crate) fn insert_unknown(
    connection: &Connection,
    seq: u64,
    job: u64,
    line: &str,
) -> rusqlite::Result<()> {
    let kind = super::restore::kind_of(line.as_bytes()).unwrap_or("unknown");
    connection
        .prepare_cached(
            "INSERT INTO event (seq, job, kind, fact, at_ms, line) VALUES (?1, ?2, ?3, 1, 0, ?4)",
        )?
        .execute(params![seq, (job > 0).then_some(job), kind, line])
        .map(|_| ())
}

/// The kinds of event that [`derive`] makes rows of.
pub(crate) const DERIVED: [Kind; 3] = [Kind::Job, Kind::Result, Kind::Told];

/// The rows of `job` and `due` that one event makes or changes.
pub(crate) fn derive(connection: &Connection, event: &Event, job: u64) -> rusqlite::Result<()> {
    match &event.body {
        Body::Job { job, sheet, recheck_of, .. } => {
            connection
                .prepare_cached(
                    "INSERT OR REPLACE INTO job (number, first, started_ms, sheet, recheck_of) VALUES (?1, ?2, ?3, ?4, ?5)",
                )?
                .execute(params![job, event.seq.0, event.at.as_millis(), sheet.name, recheck_of])?;
        }
        Body::Told(told) => {
            if let Request::Vehicle { text } = &told.request {
                connection
                    .prepare_cached("UPDATE job SET vehicle = ?2 WHERE number = ?1 AND ended IS NULL")?
                    .execute(params![job, text])?;
            }
        }
        Body::Result(result) => {
            let off = result.level_error.as_ref().map(|e| e.millilitres.steps());
            connection
                .prepare_cached(
                    "UPDATE job SET ended = ?2, ended_ms = ?3, outcome = ?4, off_ml = ?5 WHERE number = ?1 AND ended IS NULL",
                )?
                .execute(params![job, event.seq.0, event.at.as_millis(), result.outcome.word(), off])?;
            dues(connection, job, &result.recheck_due, result)?;
        }
        _ => {}
    }
    Ok(())
}

/// A recheck that ended answers all that was due of its job by then; one that set the level anew asks on its own.
fn dues(connection: &Connection, job: u64, due: &[Utc], result: &events::JobResult) -> rusqlite::Result<()> {
    for at in due {
        connection
            .prepare_cached("INSERT OR IGNORE INTO due (job, at_ms) VALUES (?1, ?2)")?
            .execute(params![job, at.as_millis()])?;
    }
    let Some(of) = result.recheck_of.filter(|_| result.outcome != Outcome::NotSet) else { return Ok(()) };
    connection
        .prepare_cached("UPDATE due SET done_by = ?2 WHERE job = ?1 AND done_by IS NULL")?
        .execute(params![of, job])?;
    Ok(())
}
