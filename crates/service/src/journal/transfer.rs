//! Copies: a backup as a journal file, an export as lines of text, an import of those into a new journal.
//!
//! In: a journal's path, or lines. Out: a file, or lines. What is exported and imported again is the same journal, event by event and
//! seal by seal: `import(export(x)) = x`. Not here: reading one job (`read.rs`).
//!
//! ```text
//!  {"export":1,"bay":"left","sealed":true}   the head
//!  {"seq":1,"at":"…","kind":"boot",…}        every event, byte for byte as it was written
//!  {"seal":"ba78…","last":4}                 after the last event of each batch
//! ```

use std::io::{BufRead, Write};
use std::path::{Path, PathBuf};

use events::{Event, Seq};
use rusqlite::Connection;
use serde::{Deserialize, Serialize};

use super::rows::Writer;
use super::{disk, old, open, seal};
use crate::error::ServiceError;
use crate::row::Row;

/// The version of the exported form.
/// By definition: raised when the form changes.
const EXPORT: u32 = 1;
/// The longest line that is read.
/// Own choice: a snapshot with the largest sheet has some ten thousand bytes; a file without line ends must not fill
/// memory.
const LINE_LIMIT: usize = 1024 * 1024;
/// An export without seals is taken in batches of so many.
/// Own choice: as an old file's, see `schema.rs`.
const BATCH: usize = 1_000;

#[derive(Serialize, Deserialize)]
struct Head {
    export: u32,
    bay: String,
    /// Whether seals stand among the events: in the export of a whole journal, not in that of one job.
    sealed: bool,
}

#[derive(Serialize, Deserialize)]
struct Seal {
    seal: String,
    last: u64,
}

/// Copies a journal, also beside a running daemon, into a new file that is a journal itself.
///
/// # Errors
/// [`ServiceError::JournalOpen`] where the journal cannot be read, the file exists already or cannot be written.
pub fn backup(path: &Path, into: &Path) -> Result<(), ServiceError> {
    let failed = |why: String| ServiceError::JournalCopy { path: into.to_path_buf(), why };
    if into.exists() {
        return Err(failed("it exists already".to_owned()));
    }
    let connection = open::reader(path)?;
    // SQLite takes an empty file for none; so it is ours alone from the start.
    disk::make_private(into).map_err(|e| failed(e.to_string()))?;
    let copied = connection
        .execute("VACUUM INTO ?1", [into.display().to_string()])
        .map_err(|e| failed(e.to_string()))
        // Only a copy that is on disk is one.
        .and_then(|_| {
            std::fs::File::open(into).and_then(|f| disk::sync(&f)).map_err(|e| failed(e.to_string()))
        });
    if copied.is_err() {
        remove(into);
    }
    copied
}

/// What an export wrote.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Exported {
    /// Events as they stand in the journal.
    pub events: u64,
    /// Those that could not be read, and why; a line in their place says so.
    pub unread: Vec<(Seq, String)>,
}

/// What an import made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Imported {
    /// The new journal.
    pub path: PathBuf,
    /// Its events.
    pub events: u64,
    /// Whether seals proved them; the export of one job has none.
    pub sealed: bool,
}

/// A line in place of an event that could not be read.
#[derive(Serialize, Deserialize)]
struct Unread {
    unread: u64,
    why: String,
}

/// Writes a whole journal, or the events of one job, as lines. An event that cannot be read is named in its place, and does not stop the others.
///
/// # Errors
/// [`ServiceError`] where the journal cannot be read, or the lines cannot be written.
pub fn export(
    path: &Path,
    bay: &str,
    job: Option<u64>,
    out: &mut dyn Write,
) -> Result<Exported, ServiceError> {
    let failed = |why: String| ServiceError::JournalCopy { path: path.to_path_buf(), why };
    let head = serde_json::to_string(&Head { export: EXPORT, bay: bay.to_owned(), sealed: job.is_none() })
        .map_err(|e| failed(e.to_string()))?;
    writeln!(out, "{head}").map_err(|e| failed(e.to_string()))?;
    if let Some(job) = job {
        let super::read::JobEvents { events, unread, .. } = super::read::read_job(path, Some(job))?;
        for event in &events {
            let line = serde_json::to_string(event).map_err(|e| failed(e.to_string()))?;
            writeln!(out, "{line}").map_err(|e| failed(e.to_string()))?;
        }
        return Ok(Exported { events: u64::try_from(events.len()).unwrap_or(u64::MAX), unread });
    }
    let connection = open::reader(path)?;
    export_all(&connection, out).map_err(failed)
}

fn export_all(connection: &Connection, out: &mut dyn Write) -> Result<Exported, String> {
    let text = |e: rusqlite::Error| e.to_string();
    let sql = "
        SELECT seq, line, 0 FROM event UNION ALL SELECT last, hash, 1 FROM seal
        ORDER BY 1, 3";
    let mut select = connection.prepare(sql).map_err(text)?;
    let mut rows = select.query([]).map_err(text)?;
    let mut exported = Exported { events: 0, unread: Vec::new() };
    while let Some(row) = rows.next().map_err(text)? {
        let (seq, is_seal): (u64, bool) = (row.get(0).map_err(text)?, row.get(2).map_err(text)?);
        let value = row.get_ref(1).map_err(text)?;
        let json = |made: serde_json::Result<String>| made.map_err(|e| e.to_string());
        let line = if is_seal {
            json(serde_json::to_string(&Seal { seal: seal::hex(&seal::stored(value)), last: seq }))?
        } else {
            match old::text(value.as_bytes().unwrap_or_default()) {
                Ok(line) => {
                    exported.events += 1;
                    line.to_owned()
                }
                Err(why) => {
                    exported.unread.push((Seq(seq), why.clone()));
                    json(serde_json::to_string(&Unread { unread: seq, why }))?
                }
            }
        };
        writeln!(out, "{line}").map_err(|e| e.to_string())?;
    }
    Ok(exported)
}

/// Makes a new journal `FOLDER/BAY.journal` from exported lines.
///
/// # Errors
/// [`ServiceError::Import`] names the line: no export, an event that is none, a number that does not grow, a seal that does not fit.
/// [`ServiceError::JournalCopy`] where the journal exists already. Nothing is left behind then.
pub fn import(lines: &mut dyn BufRead, folder: &Path, bay: &str) -> Result<Imported, ServiceError> {
    let path = folder.join(format!("{bay}.journal"));
    let failed = |why: String| ServiceError::JournalCopy { path: path.clone(), why };
    if path.exists() {
        return Err(failed("there is a journal already; import makes a new one".to_owned()));
    }
    disk::make_folder(folder).map_err(|e| failed(e.to_string()))?;
    let _lock = open::lock(&folder.join(format!("{bay}.lock")), &path)?;
    let unfinished = folder.join(format!("{bay}.journal.import"));
    remove(&unfinished);
    let taken = take(lines, &unfinished);
    if taken.is_err() {
        remove(&unfinished);
    }
    let (events, sealed) = taken?;
    let in_place = std::fs::File::open(&unfinished)
        .and_then(|file| disk::sync(&file))
        .and_then(|()| std::fs::rename(&unfinished, &path))
        .and_then(|()| disk::sync_folder_of(&path));
    in_place.map_err(|e| failed(e.to_string()))?;
    Ok(Imported { path, events, sealed })
}

fn take(lines: &mut dyn BufRead, into: &Path) -> Result<(u64, bool), ServiceError> {
    let database =
        |e: rusqlite::Error| ServiceError::JournalCopy { path: into.to_path_buf(), why: e.to_string() };
    let (connection, restored) = open::open_and_restore(into)?;
    let mut writer = Writer::new(connection, restored.last_job).map_err(database)?;
    let (mut batch, mut events, mut last, mut number) = (Vec::new(), 0_u64, 0_u64, 0_usize);
    let (mut text, mut sealed) = (String::new(), true);
    let unsealed = || {
        "has no seal behind it, and the head says that every event is sealed: seals were removed, or the end is cut off"
            .to_owned()
    };
    loop {
        text.clear();
        number += 1;
        let wrong = |what: String| ServiceError::Import { line: number, what };
        let read = std::io::Read::take(&mut *lines, LINE_LIMIT as u64 + 1)
            .read_line(&mut text)
            .map_err(|e| wrong(format!("cannot be read: {e}")))?;
        if text.len() > LINE_LIMIT {
            return Err(wrong(format!("is longer than {LINE_LIMIT} bytes")));
        }
        let line = text.trim_end_matches(['\n', '\r']);
        if read == 0 {
            break;
        }
        if number == 1 {
            match serde_json::from_str::<Head>(line) {
                Ok(head) if head.export == EXPORT => sealed = head.sealed,
                _ => return Err(wrong(format!("is not the head of an export: {{\"export\":{EXPORT},…}}"))),
            }
            continue;
        }
        if let Ok(Unread { unread, why }) = serde_json::from_str(line) {
            return Err(wrong(format!(
                "stands for event {unread}, which could not be read when it was exported: {why}"
            )));
        }
        if let Ok(stated) = serde_json::from_str::<Seal>(line) {
            let hash = writer.append(&batch).map_err(database)?;
            if stated.last != last || stated.seal != seal::hex(&hash) {
                return Err(wrong(
                    "does not fit the events before it: they were changed since they were written".to_owned(),
                ));
            }
            batch.clear();
            continue;
        }
        let event: Event = serde_json::from_str(line).map_err(|e| wrong(format!("is no event: {e}")))?;
        if event.seq.0 <= last {
            return Err(wrong(format!("has the number {}, after {last}", event.seq)));
        }
        last = event.seq.0;
        events += 1;
        batch.push(Row::written(event, line.to_owned()));
        if !sealed && batch.len() >= BATCH {
            writer.append(&batch).map_err(database)?;
            batch.clear();
        }
        if batch.len() >= 100 * BATCH {
            return Err(wrong("a batch without a seal goes on too long".to_owned()));
        }
    }
    if number == 1 {
        return Err(ServiceError::Import { line: 1, what: "there is nothing in it".to_owned() });
    }
    if sealed && !batch.is_empty() {
        return Err(ServiceError::Import { line: number - 1, what: unsealed() });
    }
    for rows in batch.chunks(BATCH) {
        writer.append(rows).map_err(database)?;
    }
    // One file, without its log, so that it can be renamed.
    writer.connection().query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).map_err(database)?;
    Ok((events, sealed))
}

fn remove(path: &Path) {
    for tail in ["", "-wal", "-shm"] {
        let _ = disk::remove(&disk::joined(path, tail));
    }
}
