//! Reading a journal without a daemon, or beside one: jobs, one job's events, what is due, whether it was edited.
//!
//! In: a journal's path. Out: plain rows. Lists come from the `job` and `due` tables, so they do not grow with the events; one
//! job is a range of numbers. Not here: what a report makes of it.

use std::path::Path;

use events::{Event, Outcome, Seq, Utc};
use rusqlite::{Connection, OptionalExtension as _, params};

use super::{old, open, seal};
use crate::error::ServiceError;

/// One job in a list.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct JobRow {
    /// Its number.
    pub job: u64,
    /// When it began.
    pub started: Utc,
    /// When its result was written; absent while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ended: Option<Utc>,
    /// The name on its sheet.
    pub sheet: String,
    /// Which vehicle, where it was told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<String>,
    /// What came of it; absent while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outcome: Option<Outcome>,
    /// The level error, where one could be told; positive is too much.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level_error_millilitres: Option<i64>,
    /// A recheck: of which job.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recheck_of: Option<u64>,
}

/// Which jobs are wanted.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct JobQuery {
    /// Part of the vehicle's or the sheet's name, whatever the case.
    pub vehicle: Option<String>,
    /// Begun at this time or later.
    pub since: Option<Utc>,
    /// Begun before this time.
    pub until: Option<Utc>,
    /// With this outcome.
    pub outcome: Option<Outcome>,
    /// Of rechecks and first jobs: only what refers to this job.
    pub recheck_of: Option<u64>,
    /// At most so many, the latest; 0 is none.
    pub limit: u32,
}

/// A recheck that is due.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Due {
    /// Of which job.
    pub job: u64,
    /// The day.
    pub due: Utc,
    /// When that job ended.
    pub ended: Utc,
    /// The name on its sheet.
    pub sheet: String,
    /// Which vehicle, where it was told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<String>,
}

/// What a check of the hash chain found.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Verified {
    /// Events that were read.
    pub events: u64,
    /// Batches whose seal was computed anew.
    pub seals: u64,
    /// The seal at the end, as stored: what a report of the job carries.
    pub seal: String,
    /// The first batch that does not fit its seal: the numbers it spans. Absent where all fit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub broken: Option<(Seq, Seq)>,
    /// More batches that do not.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub also_broken: Vec<(Seq, Seq)>,
}

impl Verified {
    fn is_broken(&mut self, first: u64, last: u64) {
        let span = (Seq(first), Seq(last));
        if self.broken.is_none() { self.broken = Some(span) } else { self.also_broken.push(span) }
    }
}

/// The events of one job as they were read.
#[derive(Debug, Clone, PartialEq)]
pub struct JobEvents {
    /// The job's number.
    pub job: u64,
    /// Its events, in order.
    pub events: Vec<Event>,
    /// Those that could not be read, and why.
    pub unread: Vec<(Seq, String)>,
}

/// What can go wrong with reading, with the path.
fn at<T>(path: &Path, read: rusqlite::Result<T>) -> Result<T, ServiceError> {
    read.map_err(|e| ServiceError::JournalOpen { path: path.to_path_buf(), why: e.to_string() })
}

/// Reads all events of one job: what a report lives on. `job` is the job's number, or the last one where absent. An event that cannot be read
/// is named among the others, and does not stop them.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read or holds no such job.
pub fn read_job(path: &Path, job: Option<u64>) -> Result<JobEvents, ServiceError> {
    let failed = |why: String| ServiceError::JournalOpen { path: path.to_path_buf(), why };
    let connection = open::reader(path)?;
    let last: Option<u64> =
        at(path, connection.query_row("SELECT max(number) FROM job", [], |row| row.get(0)))?;
    let job = job.or(last).ok_or_else(|| failed("it holds no job yet".to_owned()))?;
    let span = at(path, span(&connection, job))?;
    let Some((first, end)) = span else {
        return Err(failed(format!("it holds no job {job}; the last is {}", last.unwrap_or(0))));
    };
    at(path, events(&connection, job, first, end))
}

fn events(connection: &Connection, job: u64, first: u64, end: u64) -> rusqlite::Result<JobEvents> {
    let mut select =
        connection.prepare("SELECT seq, line FROM event WHERE seq BETWEEN ?1 AND ?2 ORDER BY seq")?;
    let mut rows = select.query([first, end])?;
    let mut found = JobEvents { job, events: Vec::new(), unread: Vec::new() };
    while let Some(row) = rows.next()? {
        let seq = Seq(row.get(0)?);
        match event(seq, row.get_ref(1)?.as_bytes().unwrap_or_default()) {
            Ok(event) => found.events.push(event),
            Err(why) => found.unread.push((seq, why)),
        }
    }
    Ok(found)
}

/// A line as the event that it should be, or what is wrong with it and where.
fn event(seq: Seq, line: &[u8]) -> Result<Event, String> {
    let event: Event = serde_json::from_str(old::text(line)?).map_err(|e| format!("it is no event: {e}"))?;
    if event.seq == seq { Ok(event) } else { Err(format!("its line has the number {}", event.seq)) }
}

/// Text of a list; a byte that is none shows as a replacement character, for a list is better than none.
fn shown(row: &rusqlite::Row<'_>, column: usize) -> rusqlite::Result<Option<String>> {
    let value = row.get_ref(column)?;
    Ok(value.as_bytes_or_null().unwrap_or_default().map(|bytes| String::from_utf8_lossy(bytes).into_owned()))
}

/// The numbers of a job's first and last event; what came after its result belongs to no job.
fn span(connection: &Connection, job: u64) -> rusqlite::Result<Option<(u64, u64)>> {
    let found: Option<(u64, Option<u64>)> = connection
        .query_row("SELECT first, ended FROM job WHERE number = ?1", [job], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })
        .optional()?;
    let Some((first, ended)) = found else { return Ok(None) };
    if let Some(ended) = ended {
        return Ok(Some((first, ended)));
    }
    let next: Option<u64> = connection
        .query_row("SELECT first FROM job WHERE number > ?1 ORDER BY number LIMIT 1", [job], |row| row.get(0))
        .optional()?;
    Ok(Some((first, next.map_or(i64::MAX.unsigned_abs(), |n| n.saturating_sub(1)))))
}

/// The jobs that fit, the latest first.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read.
pub fn list_jobs(path: &Path, query: &JobQuery) -> Result<Vec<JobRow>, ServiceError> {
    let connection = open::reader(path)?;
    at(path, select_jobs(&connection, query))
}

fn select_jobs(connection: &Connection, query: &JobQuery) -> rusqlite::Result<Vec<JobRow>> {
    let sql = "
        SELECT number, started_ms, ended_ms, sheet, vehicle, outcome, off_ml, recheck_of FROM job
        WHERE (?1 IS NULL OR instr(lower(coalesce(vehicle, '') || ' ' || sheet), ?1) > 0)
          AND (?2 IS NULL OR started_ms >= ?2)
          AND (?3 IS NULL OR started_ms < ?3)
          AND (?4 IS NULL OR outcome = ?4)
          AND (?5 IS NULL OR recheck_of = ?5)
        ORDER BY number DESC LIMIT ?6";
    let mut select = connection.prepare(sql)?;
    let wanted = params![
        query.vehicle.as_ref().map(|v| v.to_lowercase()),
        query.since.map(Utc::as_millis),
        query.until.map(Utc::as_millis),
        query.outcome.map(Outcome::word),
        query.recheck_of,
        query.limit,
    ];
    let rows = select.query_map(wanted, |row| {
        let ended: Option<i64> = row.get(2)?;
        let outcome = shown(row, 5)?;
        Ok(JobRow {
            job: row.get(0)?,
            started: Utc::from_millis(row.get(1)?),
            ended: ended.map(Utc::from_millis),
            sheet: shown(row, 3)?.unwrap_or_default(),
            vehicle: shown(row, 4)?,
            outcome: outcome.and_then(|word| word.parse().ok()),
            level_error_millilitres: row.get(6)?,
            recheck_of: row.get(7)?,
        })
    })?;
    rows.collect()
}

/// The rechecks that are due before `until` and were not done, the oldest first, at most `limit`.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read.
pub fn due(path: &Path, until: Utc, limit: u32) -> Result<Vec<Due>, ServiceError> {
    let connection = open::reader(path)?;
    at(path, select_due(&connection, until, limit))
}

fn select_due(connection: &Connection, until: Utc, limit: u32) -> rusqlite::Result<Vec<Due>> {
    let sql = "
        SELECT d.job, d.at_ms, coalesce(j.ended_ms, j.started_ms), j.sheet, j.vehicle
        FROM due d JOIN job j ON j.number = d.job
        WHERE d.done_by IS NULL AND d.at_ms < ?1 ORDER BY d.at_ms, d.job LIMIT ?2";
    let mut select = connection.prepare(sql)?;
    let rows = select.query_map(params![until.as_millis(), limit], |row| {
        Ok(Due {
            job: row.get(0)?,
            due: Utc::from_millis(row.get(1)?),
            ended: Utc::from_millis(row.get(2)?),
            sheet: shown(row, 3)?.unwrap_or_default(),
            vehicle: shown(row, 4)?,
        })
    })?;
    rows.collect()
}

/// The seal at the end of a job, in hex digits: what its report carries. `None` while it runs.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read.
pub fn job_seal(path: &Path, job: u64) -> Result<Option<String>, ServiceError> {
    let connection = open::reader(path)?;
    let sql =
        "SELECT s.hash FROM job j, seal s WHERE j.number = ?1 AND s.last >= j.ended ORDER BY s.last LIMIT 1";
    let found = connection.query_row(sql, [job], |row| Ok(seal::stored(row.get_ref(0)?))).optional();
    Ok(at(path, found)?.map(|hash| seal::hex(&hash)))
}

/// Computes the hash chain anew and compares it with the stored seals: of the whole journal, or of one job.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read or holds no such job.
pub fn verify(path: &Path, job: Option<u64>) -> Result<Verified, ServiceError> {
    let connection = open::reader(path)?;
    let span = match job {
        None => Some((0, i64::MAX.unsigned_abs())),
        Some(job) => at(path, span(&connection, job))?,
    };
    let Some((first, end)) = span else {
        let why = format!("it holds no job {}", job.unwrap_or(0));
        return Err(ServiceError::JournalOpen { path: path.to_path_buf(), why });
    };
    at(path, walk(&connection, first, end))
}

/// From the seal before `first` on, batch by batch, until `end` is sealed.
fn walk(connection: &Connection, first: u64, end: u64) -> rusqlite::Result<Verified> {
    let (mut last, mut head) = seal::before(connection, first)?;
    let mut seals = connection.prepare("SELECT last, hash FROM seal WHERE last > ?1 ORDER BY last")?;
    let mut events = connection.prepare("SELECT seq, line FROM event WHERE seq > ?1 ORDER BY seq")?;
    let (mut sealed, mut rows) = (seals.query([last])?, events.query([last])?);
    let mut found =
        Verified { events: 0, seals: 0, seal: seal::hex(&head), broken: None, also_broken: Vec::new() };
    let mut ahead = rows.next()?;
    while let Some(row) = sealed.next()? {
        let (until, stored): (u64, _) = (row.get(0)?, seal::stored(row.get_ref(1)?));
        let mut sealer = seal::Sealer::after(&head);
        while let Some(row) = ahead {
            let seq: u64 = row.get(0)?;
            if seq > until {
                break;
            }
            sealer.event(seq, row.get_ref(1)?.as_bytes().unwrap_or_default());
            found.events += 1;
            ahead = rows.next()?;
        }
        if sealer.seal() != stored {
            found.is_broken(last.saturating_add(1), until);
        }
        found.seals += 1;
        (last, head) = (until, stored);
        found.seal = seal::hex(&head);
        if until >= end {
            return Ok(found);
        }
    }
    // Events behind the last seal were never written by us.
    if let Some(row) = ahead {
        let seq = row.get(0)?;
        found.is_broken(seq, seq);
    }
    Ok(found)
}

/// The whole check of the database's own structure, page by page, and whether each event can be read. `Ok(None)` is healthy, else what the
/// first fault is.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the file cannot be read.
pub fn check(path: &Path) -> Result<Option<String>, ServiceError> {
    let connection = open::reader(path)?;
    let health: String = at(path, connection.query_row("PRAGMA integrity_check(1)", [], |row| row.get(0)))?;
    if health != "ok" {
        return Ok(Some(health));
    }
    at(path, first_unread(&connection))
}

fn first_unread(connection: &Connection) -> rusqlite::Result<Option<String>> {
    let mut select = connection.prepare("SELECT seq, line FROM event ORDER BY seq")?;
    let mut rows = select.query([])?;
    while let Some(row) = rows.next()? {
        let seq: u64 = row.get(0)?;
        if let Err(why) = event(Seq(seq), row.get_ref(1)?.as_bytes().unwrap_or_default()) {
            return Ok(Some(format!("the event {seq} cannot be read: {why}")));
        }
    }
    Ok(None)
}
