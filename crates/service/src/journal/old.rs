//! Old events for clients that ask for the past: every number is answered, with its event or with what is wrong with it.
//!
//! In: a number to begin at. Out: lines, as they were written. A row that cannot be read becomes a fault under its own number, and a damaged
//! part of the file one fault for all of its numbers: never an empty answer, on which somebody would wait without end.

use events::{Body, Event, Fault, Seq, Utc};
use rusqlite::{Connection, params};
use serde::Deserialize;
use units::Mono;

/// The most events that one read returns.
/// Own choice: 0.15 MB; the thread of the journal is asked in turns, so that no reader holds up a fact.
pub(crate) const READ_LIMIT: usize = 512;

/// One line of the past.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Old {
    /// Its number. A client that has it goes on behind it.
    pub(crate) seq: Seq,
    pub(crate) kind: String,
    pub(crate) line: String,
}

#[derive(Deserialize)]
struct Head {
    seq: Seq,
    kind: String,
}

/// Up to [`READ_LIMIT`] lines from `from` on and before `until`, in order; fewer where there are no more.
pub(crate) fn read(connection: &Connection, from: Seq, until: Seq) -> Vec<Old> {
    let mut lines: Vec<Old> = Vec::new();
    let mut next = from.0;
    while lines.len() < READ_LIMIT {
        let Err(why) = select(connection, (next, until.0), &mut lines) else { break };
        let bad = lines.last().map_or(next, |old| old.seq.0.saturating_add(1).max(next));
        let behind = readable(connection, bad).unwrap_or(until.0).min(until.0);
        // One fault for all of them, under the last of their numbers.
        let last = behind.saturating_sub(1).max(bad);
        let what = if last == bad {
            format!("the event {bad} cannot be read: {why}")
        } else {
            format!("the events {bad} to {last} cannot be read: {why}")
        };
        lines.push(instead(last, 0, &what));
        next = behind.max(bad.saturating_add(1));
    }
    lines
}

/// Rows until the limit, the end or the first fault of the file.
fn select(connection: &Connection, (from, until): (u64, u64), into: &mut Vec<Old>) -> rusqlite::Result<()> {
    let sql = "SELECT seq, line, at_ms FROM event WHERE seq >= ?1 AND seq < ?2 ORDER BY seq LIMIT ?3";
    let mut select = connection.prepare_cached(sql)?;
    let mut rows =
        select.query(params![from, until.min(i64::MAX.unsigned_abs()), READ_LIMIT - into.len()])?;
    while let Some(row) = rows.next()? {
        let seq: u64 = row.get(0)?;
        let line = row.get_ref(1)?.as_bytes().unwrap_or_default();
        let old = match understand(seq, line) {
            Ok(old) => old,
            Err(what) => {
                instead(seq, row.get(2).unwrap_or(0), &format!("the event {seq} cannot be read: {what}"))
            }
        };
        into.push(old);
    }
    Ok(())
}

/// The line with its kind, or what is wrong with it and where.
fn understand(seq: u64, line: &[u8]) -> Result<Old, String> {
    let text = text(line)?;
    let head: Head = serde_json::from_str(text).map_err(|e| format!("it is no event: {e}"))?;
    if head.seq != Seq(seq) {
        return Err(format!("its line has the number {}", head.seq));
    }
    Ok(Old { seq: head.seq, kind: head.kind, line: text.to_owned() })
}

/// A line as text, or where it is none.
pub(crate) fn text(line: &[u8]) -> Result<&str, String> {
    std::str::from_utf8(line).map_err(|e| format!("byte {} of its line is no UTF-8", e.valid_up_to() + 1))
}

fn instead(seq: u64, at_ms: i64, what: &str) -> Old {
    let body = Body::Fault { fault: Fault::JournalDamaged, detail: Some(what.to_owned()), from: None };
    let event = Event { seq: Seq(seq), at: Utc::from_millis(at_ms), mono_ms: Mono::ZERO, body };
    // A fault of ours always serialises; a client passes an empty line over.
    let line = serde_json::to_string(&event).unwrap_or_default();
    Old { seq: Seq(seq), kind: event.body.kind().to_owned(), line }
}

/// The first number behind `bad` whose row can be read, where there is one.
fn readable(connection: &Connection, bad: u64) -> Option<u64> {
    let probe = |from: u64| {
        let mut select =
            connection.prepare_cached("SELECT seq, line FROM event WHERE seq >= ?1 ORDER BY seq LIMIT 1")?;
        let mut rows = select.query([from])?;
        rows.next()?.map(|row| row.get_ref(1).map(|_| ()).and_then(|()| row.get::<_, u64>(0))).transpose()
    };
    let (mut low, mut step) = (bad, 1_u64);
    let mut high = loop {
        let at = bad.checked_add(step).filter(|at| *at <= i64::MAX.unsigned_abs())?;
        match probe(at) {
            Ok(Some(_)) => break at,
            // Behind the end of what is there.
            Ok(None) => return None,
            Err(_) => (low, step) = (at, step.saturating_mul(2)),
        }
    };
    while high.saturating_sub(low) > 1 {
        let middle = low + (high - low) / 2;
        if matches!(probe(middle), Ok(Some(_))) { high = middle } else { low = middle }
    }
    probe(high).ok().flatten()
}
