//! The steps of a repair, each of which may be the last before the power goes.
//!
//! In: a damaged journal. Out: a whole one in its place, the damaged file kept beside it, and a fault in the new one that says what is
//! missing. A file `BAY.journal.repairing` stands there from the first step to the last: a start that finds it does the repair again, from the file
//! that was kept. The new file is filled under that name and takes the journal's only when it is on the disk, fault and reserved
//! numbers in it.
//!
//! ```text
//!  rebuild    make .repairing   journal -> .damaged-N   fill .repairing, sync    .repairing -> journal
//!  rejoin     make .repairing   copy the log            one transaction          remove .repairing
//! ```
//!
//! Not here: what can be read (`salvage.rs`), when it is needed (`open.rs`).

use std::path::{Path, PathBuf};

use events::{Body, Event, Fault, Seq, Utc};
use rusqlite::{Connection, OptionalExtension as _};
use units::Mono;

use super::damage::Damage;
use super::disk;
use super::note::Note;
use super::restore;
use super::rows;
use super::salvage::{Salvage, Taken};
use super::seal::{self, Hash};
use super::unopened::Unopened;
use super::{RESERVE, schema};
use crate::row::Row;

/// So many damaged journals may lie beside each other.
/// Own choice: each is a file of megabytes; a card that breaks so often must be thrown away.
const MOST: u32 = 1_000;

/// The name under which a repair is under way.
pub(crate) fn marker(path: &Path) -> PathBuf {
    path.with_extension("journal.repairing")
}

fn damaged(path: &Path, n: u32) -> PathBuf {
    path.with_extension(format!("journal.damaged-{n}"))
}

fn log_of(path: &Path) -> PathBuf {
    disk::joined(path, "-wal")
}

/// The last damaged journal that was kept, with or without its log.
fn last_kept(path: &Path) -> Option<PathBuf> {
    let exists = |p: &PathBuf| p.exists() || log_of(p).exists();
    (1..MOST).map(|n| damaged(path, n)).take_while(exists).last()
}

fn free_name(path: &Path) -> std::io::Result<PathBuf> {
    let free = |p: &PathBuf| !p.exists() && !log_of(p).exists();
    let other = || std::io::Error::other("too many damaged journals lie here: move them away");
    (1..MOST).map(|n| damaged(path, n)).find(free).ok_or_else(other)
}

/// Makes a whole journal out of what can be read of a damaged one. Gives the sentence that the new one tells about it.
pub(crate) fn rebuild(path: &Path, note: Option<&Note>, mut damage: Damage) -> Result<String, Unopened> {
    let marker = marker(path);
    let under_way = marker.exists();
    disk::make_private(&marker)?;
    disk::sync_folder_of(path)?;
    // Cut short in the middle, what is to be repaired was moved already; or only its log was copied, to be brought in.
    let kept = match last_kept(path).filter(|kept| under_way && !(path.exists() && kept.exists())) {
        Some(kept) => kept,
        None => free_name(path)?,
    };
    if path.exists() {
        std::fs::rename(path, &kept)?;
    }
    let (log, copy, later) = (log_of(path), log_of(&kept), disk::joined(&kept, "-wal-2"));
    if log.exists() {
        std::fs::rename(&log, if copy.exists() { &later } else { &copy })?;
    }
    disk::remove(&disk::joined(path, "-shm"))?;
    disk::sync_folder_of(path)?;

    let logs: Vec<&Path> = [later.as_path(), copy.as_path()].into_iter().filter(|log| log.exists()).collect();
    let mut salvage = Salvage::of(Some(kept.as_path()).filter(|kept| kept.exists()), &logs)?;
    salvage.sift(note.map_or(0, |note| note.last));
    // Whatever an earlier try left is not a beginning of this one.
    std::fs::File::options().write(true).open(&marker)?.set_len(0)?;
    for tail in ["-journal", "-wal", "-shm"] {
        disk::remove(&disk::joined(&marker, tail))?;
    }
    let said = fill(&marker, &salvage, note, &mut damage, &kept)?;
    disk::sync(&std::fs::File::open(&marker)?)?;
    std::fs::rename(&marker, path)?;
    disk::sync_folder_of(path)?;
    Ok(said)
}

/// Fills the new file; it counts only when it is whole, so nothing is synced on the way.
fn fill(
    into: &Path,
    salvage: &Salvage,
    note: Option<&Note>,
    damage: &mut Damage,
    kept: &Path,
) -> Result<String, Unopened> {
    let connection = Connection::open(into)?;
    connection.pragma_update(None, "journal_mode", "OFF")?;
    connection.pragma_update(None, "synchronous", "OFF")?;
    connection.execute_batch("BEGIN")?;
    schema::make(&connection)?;
    let accepted = note.map(|note| note.last);
    let taken = salvage.take_over(&connection, 0, seal::START, accepted)?;
    let highest = salvage.highest();
    // Where neither journal nor note says how far numbers were shown, they go on far behind all that was found.
    let known = [salvage.reserved, note.map(|note| note.reserved)].into_iter().flatten().max();
    let reserved = known.unwrap_or_else(|| highest.saturating_add(RESERVE)).max(highest);
    reserve(&connection, reserved)?;
    let file = kept.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let said = finish(&connection, taken, note, damage, &format!("the damaged file is kept as {file}"))?;
    connection.execute_batch("COMMIT")?;
    connection.close().map_err(|(_, e)| e)?;
    Ok(said)
}

/// Brings into the journal what stands in its log behind a damaged place, where SQLite passes it over. Gives the
/// sentence that the journal tells about it; `None` where there was nothing to be told.
///
/// `salvage` was read before the connection was opened.
pub(crate) fn rejoin(
    path: &Path,
    connection: &mut Connection,
    salvage: &mut Salvage,
    note: Option<&Note>,
    mut damage: Damage,
) -> Result<Option<String>, Unopened> {
    let (after, head) = seal::head(connection)?;
    salvage.sift(note.map_or(0, |note| note.last).max(after));
    // Where nothing tells how far events were promised, those that SQLite still takes were.
    let promised = note.map_or(after, |note| note.last);
    let file = last_kept(path).map(|p| log_of(&p)).filter(|p| p.exists());
    let mut told = None;
    let mut lost = false;
    {
        let transaction = connection.transaction()?;
        let taken = salvage.take_over(&transaction, after, head, Some(promised))?;
        let tail = restore::lost_tail(&transaction, note)?;
        if taken.whole > 0 || !taken.damage.is_none() || tail.is_some() {
            lost = note.is_none() || tail.is_some() || taken.damage.touches(0, promised);
            let name = file.as_ref().and_then(|p| p.file_name()).unwrap_or_default().to_string_lossy();
            let kept = if lost {
                format!("the damaged log is kept as {name}")
            } else {
                "nothing that was accepted is missing".to_owned()
            };
            // A try that was cut short may have come to the disk with its word: where nothing is missing, that word is enough.
            let said =
                if taken.damage.is_none() && tail.is_none() { word(&transaction, after)? } else { None };
            told = Some(match said {
                Some(said) => said,
                None => finish(&transaction, taken, note, &mut damage, &kept)?,
            });
            transaction.commit()?;
        }
    }
    // On the disk before the sign of it goes.
    connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?;
    if let Some(file) = file.filter(|_| !lost) {
        // It ended in the middle of a write, as a power cut leaves it, and holds nothing that was promised and is missing.
        disk::remove(&file)?;
    }
    disk::remove(&marker(path))?;
    disk::sync_folder_of(path)?;
    Ok(told)
}

/// Before a log is opened that SQLite will not take whole: the sign, and a copy of the log. Gives the copies there are.
pub(crate) fn keep_log(path: &Path) -> std::io::Result<Vec<PathBuf>> {
    let marker = marker(path);
    let under_way = marker.exists();
    let kept = match last_kept(path).filter(|kept| under_way && log_of(kept).exists()) {
        Some(kept) => return Ok(vec![log_of(path), log_of(&kept)]),
        None => free_name(path)?,
    };
    disk::make_private(&marker)?;
    disk::sync_folder_of(path)?;
    let unfinished = disk::joined(&kept, "-wal.part");
    disk::remove(&unfinished)?;
    let mut copy = disk::private().open(&unfinished)?;
    std::io::copy(&mut std::fs::File::open(log_of(path))?, &mut copy)?;
    disk::sync(&copy)?;
    std::fs::rename(&unfinished, log_of(&kept))?;
    disk::sync_folder_of(path)?;
    Ok(vec![log_of(path)])
}

/// The fault that tells what became of it, as the last batch.
fn finish(
    connection: &Connection,
    taken: Taken,
    note: Option<&Note>,
    damage: &mut Damage,
    kept: &str,
) -> Result<String, Unopened> {
    for span in taken.damage.spans {
        damage.add(span);
    }
    if let Some(span) = restore::lost_tail(connection, note)? {
        damage.add(span);
    }
    let (next, _) = restore::numbers(connection, note)?;
    let found: u64 = connection.query_row("SELECT count(*) FROM event", [], |row| row.get(0))?;
    let said = format!(
        "{damage}; {} events were taken over as they were written, {found} are there; {kept}; new events begin at {}",
        taken.whole,
        next.next()
    );
    let (_, head) = seal::head(connection)?;
    put_fault(connection, next, &head, &said)?;
    Ok(said)
}

/// What an earlier try of this repair told, where that is the last event behind `after`.
fn word(connection: &Connection, after: u64) -> Result<Option<String>, Unopened> {
    let last = "SELECT line FROM event WHERE seq > ?1 ORDER BY seq DESC LIMIT 1";
    let line: Option<String> = connection.query_row(last, [after], |row| row.get(0)).optional()?;
    let event = line.and_then(|line| serde_json::from_str::<Event>(&line).ok());
    Ok(event.and_then(|event| match event.body {
        Body::Fault { fault: Fault::JournalRepaired, detail, .. } => detail,
        _ => None,
    }))
}

fn put_fault(connection: &Connection, seq: Seq, head: &Hash, said: &str) -> Result<(), Unopened> {
    let millis =
        std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default().as_millis();
    let event = Event {
        seq,
        at: Utc::from_millis(i64::try_from(millis).unwrap_or(0)),
        mono_ms: Mono::ZERO,
        body: Body::Fault { fault: Fault::JournalRepaired, detail: Some(said.to_owned()), from: None },
    };
    let row = Row::from(event);
    let hash = seal::next(head, std::iter::once((seq.0, row.line.as_bytes())));
    let job: Option<u64> = connection.query_row("SELECT max(number) FROM job", [], |row| row.get(0))?;
    rows::insert(connection, &row, job.unwrap_or(0))?;
    connection.execute(
        "INSERT INTO seal (last, hash, first) VALUES (?1, ?2, ?1)",
        rusqlite::params![seq.0, hash.as_slice()],
    )?;
    // The fault's own number is used now.
    let reserved = restore::reserved(connection)?.unwrap_or(0).max(seq.0);
    reserve(connection, reserved)?;
    Ok(())
}

fn reserve(connection: &Connection, reserved: u64) -> rusqlite::Result<usize> {
    connection.execute("INSERT OR REPLACE INTO meta (name, value) VALUES ('reserved', ?1)", [reserved])
}
