//! What a daemon goes on with: the numbers, and the last job, each of its events proven by its seal.
//!
//! In: a connection to a journal that SQLite can read, and the note beside it. Out: [`Restored`]. The seals of the last job are computed anew before it is
//! folded, which takes milliseconds. With the facts come the last readings. A fact that is missing, changed or not understood makes the whole record of a running job doubtful, for
//! what came after it rests on it: it is told, and the job is not gone on with.
//!
//! Not here: files (`open.rs`, `repair.rs`), what the facts mean (`job`).

use std::collections::VecDeque;

use events::{Body, Durability, Event, Kind, Seq, Sort};
use rusqlite::{Connection, OptionalExtension as _, params};

use super::damage::{Damage, Span};
use super::note::{Found, Note, Spoiled};
use super::seal;

/// What the journal holds of the past when a daemon starts.
#[derive(Debug)]
pub(crate) struct Restored {
    /// The number after the last that may have been used.
    pub(crate) next: Seq,
    /// The number of the last job, 0 where there was none.
    pub(crate) last_job: u64,
    /// The facts of the last job, in order; the request that began it before them.
    pub(crate) facts: Vec<Event>,
    /// The last readings of the last job, in order, while it runs.
    pub(crate) readings: Vec<Event>,
    /// A sentence where the journal was repaired. It stands in the journal as a fault already.
    pub(crate) repaired: Option<String>,
    /// A sentence where something is not what was written, and the journal does not tell it yet.
    pub(crate) damaged: Option<String>,
    /// The facts are not the whole record of the last job: it is not to be gone on with.
    pub(crate) doubtful: bool,
    /// The note beside the journal, as it was found.
    pub(crate) note: Found,
}

/// Restores, with what was found wrong before.
pub(crate) fn restore(connection: &Connection, note: Found) -> rusqlite::Result<Restored> {
    let mut damage = Damage::default();
    match &note {
        Found::Note(_, Spoiled::No) => {}
        Found::Note(_, Spoiled::Yes) | Found::Damaged => {
            damage.cause("the note beside the journal is damaged")
        }
        Found::Missing if meta(connection, "noted")?.is_some() => {
            damage.cause("the note beside the journal is gone")
        }
        Found::Missing => {}
    }
    let known = note.note();
    if let Some(span) = lost_tail(connection, known)? {
        damage.cause("the journal does not reach as far as the note beside it, or is another one");
        damage.add(span);
    }
    let (next, last_job) = numbers(connection, known)?;
    let in_table: Option<u64> = connection.query_row("SELECT max(number) FROM job", [], |row| row.get(0))?;
    let first: Option<u64> = match in_table {
        Some(job) => connection
            .query_row("SELECT first FROM job WHERE number = ?1", [job], |row| row.get(0))
            .optional()?,
        None => None,
    };
    let mut walk = Walk::default();
    if let (Some(job), Some(first)) = (in_table, first) {
        walk = Walk::of(connection, job, first)?;
    }
    for span in walk.broken {
        damage.cause(format!("the record of job {last_job} is not what was written"));
        damage.add(span);
    }
    if in_table.unwrap_or(0) < last_job {
        damage.cause(format!(
            "job {last_job} is not in the journal; the last that is there is {}",
            in_table.unwrap_or(0)
        ));
    }
    // What a loss of power cut off was never promised and is not looked for: whatever is found here belongs to the record.
    let doubtful = in_table.unwrap_or(0) < last_job || damage.touches(first.unwrap_or(0), u64::MAX);
    let damaged = (!damage.is_none()).then(|| damage.to_string());
    // Only a job that still runs goes on by them.
    let ended = walk.facts.iter().any(|fact| matches!(fact.body, Body::Result(_)));
    let readings = if ended { Vec::new() } else { read(&walk.readings) };
    Ok(Restored { next, last_job, facts: walk.facts, readings, repaired: None, damaged, doubtful, note })
}

/// The number after the last that may have been used, and the number of the last job: by journal and note, whichever knows more.
pub(crate) fn numbers(connection: &Connection, note: Option<&Note>) -> rusqlite::Result<(Seq, u64)> {
    let highest = |sql| connection.query_row(sql, [], |row| row.get::<_, Option<u64>>(0));
    let used = highest("SELECT max(seq) FROM event")?.max(highest("SELECT max(last) FROM seal")?);
    let noted = note.map(|note| note.last.max(note.reserved));
    let last = [used, reserved(connection)?, noted].into_iter().flatten().max().unwrap_or(0);
    let job = highest("SELECT max(number) FROM job")?.max(note.map(|note| note.job)).unwrap_or(0);
    Ok((Seq(last).next(), job))
}

pub(crate) fn reserved(connection: &Connection) -> rusqlite::Result<Option<u64>> {
    meta(connection, "reserved")
}

fn meta(connection: &Connection, name: &str) -> rusqlite::Result<Option<u64>> {
    connection.query_row("SELECT value FROM meta WHERE name = ?1", [name], |row| row.get(0)).optional()
}

/// What the note tells of and the journal does not hold: its seal must be there.
pub(crate) fn lost_tail(connection: &Connection, note: Option<&Note>) -> rusqlite::Result<Option<Span>> {
    let Some(note) = note.filter(|note| note.last > 0) else { return Ok(None) };
    let sql = "SELECT hash FROM seal WHERE last = ?1";
    let stored =
        connection.query_row(sql, [note.last], |row| Ok(seal::stored(row.get_ref(0)?))).optional()?;
    if stored.is_some_and(|hash| seal::hex(&hash) == note.seal) {
        return Ok(None);
    }
    let (before, _) = seal::before(connection, note.last)?;
    let first = before.saturating_add(1);
    let sql = "SELECT count(*) FROM event WHERE seq BETWEEN ?1 AND ?2";
    let kept = connection.query_row(sql, params![first, note.last], |row| row.get(0))?;
    Ok(Some(Span { first, last: note.last, kept, every: false }))
}

/// So many readings are kept.
/// Own choice: some twenty minutes of them at a fast adapter's pace, longer than what the gate looks back on; some two
/// megabytes.
const READINGS: usize = 8_192;

/// The last job, batch by batch.
#[derive(Default)]
struct Walk {
    facts: Vec<Event>,
    /// The last readings, as they stand in the journal: most are never looked at.
    readings: VecDeque<Vec<u8>>,
    broken: Vec<Span>,
}

impl Walk {
    fn of(connection: &Connection, job: u64, first: u64) -> rusqlite::Result<Self> {
        let (mut last, mut head) = seal::before(connection, first)?;
        let mut seals =
            connection.prepare("SELECT last, hash, first FROM seal WHERE last > ?1 ORDER BY last")?;
        let mut events =
            connection.prepare("SELECT seq, line, job, fact FROM event WHERE seq > ?1 ORDER BY seq")?;
        let (mut sealed, mut rows) = (seals.query([last])?, events.query([last])?);
        let mut walk = Self::default();
        let mut begun = false;
        let mut ahead = rows.next()?;
        loop {
            let seal = sealed.next()?;
            let (until, stored, stated) = match seal {
                Some(seal) => (seal.get(0)?, seal::stored(seal.get_ref(1)?), seal.get::<_, Option<u64>>(2)?),
                // Events behind the last seal were never written by us.
                None if ahead.is_some() => (u64::MAX, seal::START, None),
                None => break,
            };
            let mut batch =
                Batch { sealer: seal::Sealer::after(&head), first: None, last, there: 0, wrong: false };
            while let Some(row) = ahead {
                let seq: u64 = row.get(0)?;
                if seq > until {
                    break;
                }
                let line = row.get_ref(1)?.as_bytes().unwrap_or_default();
                batch.take(seq, line);
                if seq.saturating_add(1) >= first {
                    let columns = (row.get::<_, Option<u64>>(2)?, row.get::<_, bool>(3)?);
                    begun |= walk.fact(seq, line, columns, (job, first), &mut batch);
                }
                ahead = rows.next()?;
            }
            if batch.wrong || batch.sealer.seal() != stored {
                let from = stated.map_or(last.saturating_add(1), |stated| stated.max(last.saturating_add(1)));
                walk.broken.push(Span {
                    first: batch.first.map_or(from, |first| first.min(from)),
                    last: until.min(batch.last.max(if until == u64::MAX { 0 } else { until })),
                    kept: batch.there,
                    every: stated.is_some(),
                });
            }
            (last, head) = (until, stored);
        }
        if !begun && !walk.broken.iter().any(|span| (span.first..=span.last).contains(&first)) {
            walk.broken.push(Span { first, last: first, kept: 0, every: true });
        }
        Ok(walk)
    }

    /// One event of the job, or the request before it that began it. Gives whether it is the beginning itself.
    fn fact(
        &mut self,
        seq: u64,
        line: &[u8],
        (of, fact): (Option<u64>, bool),
        (job, first): (u64, u64),
        batch: &mut Batch,
    ) -> bool {
        let kind = kind_of(line).and_then(|kind| kind.parse::<Kind>().ok());
        let is_sample = kind.is_some_and(|kind| kind.durability() == Durability::Sample);
        if seq >= first {
            // The columns that lists go by are under no seal.
            batch.wrong |= of != Some(job) || fact == is_sample;
        }
        if kind == Some(Kind::Reading) {
            if self.readings.len() == READINGS {
                self.readings.pop_front();
            }
            self.readings.push_back(line.to_vec());
        }
        if is_sample {
            return false;
        }
        let text = String::from_utf8_lossy(line);
        let Some(event) = serde_json::from_str::<Event>(&text).ok().filter(|event| event.seq == Seq(seq))
        else {
            batch.wrong |= seq >= first;
            return false;
        };
        let begins = matches!(&event.body, Body::Job { job: number, .. } if *number == job) && seq == first;
        let asked = matches!(&event.body, Body::Told(told) if told.request.sort() == Sort::Begins);
        if (seq >= first || asked) && event.body.durability() == Durability::Fact {
            self.facts.push(event);
        }
        begins
    }
}

fn read(lines: &VecDeque<Vec<u8>>) -> Vec<Event> {
    lines.iter().filter_map(|line| serde_json::from_slice(line).ok()).collect()
}

struct Batch {
    sealer: seal::Sealer,
    first: Option<u64>,
    last: u64,
    there: u64,
    /// Something in it is not understood.
    wrong: bool,
}

impl Batch {
    fn take(&mut self, seq: u64, line: &[u8]) {
        self.sealer.event(seq, line);
        self.first.get_or_insert(seq);
        self.last = seq;
        self.there = self.there.saturating_add(1);
    }
}

/// The kind of an event, without reading all of its line: what stands before it is ours.
pub(crate) fn kind_of(line: &[u8]) -> Option<&str> {
    const KEY: &[u8] = b"\"kind\":\"";
    let at = line.windows(KEY.len()).position(|w| w == KEY)? + KEY.len();
    let rest = line.get(at..)?;
    let end = rest.iter().position(|b| *b == b'"')?;
    std::str::from_utf8(rest.get(..end)?).ok()
}
