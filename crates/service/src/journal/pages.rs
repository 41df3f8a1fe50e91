//! The database file as bytes: the rows that a page holds, whatever became of the rest of the file.
//!
//! In: one page, and how to find another by its number. Out: the rows of `event`, `seal` and `meta` that stand in it. Neither the
//! head of the file nor the pages that lead to this one are needed, so a salvage loses the damaged page and no other.
//! Nothing is ever deleted or changed in these tables, so a row in an old page is as true as one in a new one. Method: "B-tree
//! Pages" and "Record Format" in SQLite's documentation of its file format.
//!
//! Not here: which files there are, and whether a row is what was written (`salvage.rs`).

use super::seal::Hash;

/// Bytes in a page: what SQLite makes where nobody asks for another size, and we never did.
/// Source: "PRAGMA page_size" in SQLite's documentation; `journal/head.rs` refuses another.
pub(crate) const PAGE: usize = 4_096;
/// The head of the file, in front of the first page's own.
/// Source: "The Database Header" in SQLite's documentation of its file format.
const FILE_HEADER: usize = 100;
/// A page that holds rows, one that leads to them, and the two kinds of an index.
/// Source: "B-tree Pages" in SQLite's documentation of its file format.
const LEAF: u8 = 0x0D;
const OTHER_KINDS: [u8; 3] = [0x02, 0x05, 0x0A];
/// The head of a record of ours is no longer.
/// Own choice: eleven columns at the most, a byte or two each; a damaged length beyond this is noise.
const HEAD: usize = 64;
/// No line of ours is longer.
/// Own choice: a line may have 1 MiB (`transfer.rs`); a damaged length beyond this must not fill memory.
pub(crate) const LONGEST: usize = 16 * 1024 * 1024;

/// A row, as far as the page alone tells it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Row {
    /// Of `event`. Its line may go on in other pages.
    Event { seq: u64, job: Option<u64>, line: Text },
    /// Of `seal`.
    Seal { last: u64, hash: Hash, first: Option<u64> },
    /// Of `meta`.
    Meta { name: String, value: u64 },
}

/// The text of a line: what stands in the page, how long the whole is, and where it goes on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Text {
    here: Vec<u8>,
    length: usize,
    next: Option<u32>,
}

impl Text {
    /// Whether the line begins with this number, as each of ours does.
    pub(crate) fn tells(&self, seq: u64) -> bool {
        self.here.starts_with(format!("{{\"seq\":{seq},").as_bytes())
    }

    /// The whole line. `page` finds a page by its number. `None` where one of them is missing.
    pub(crate) fn whole(&self, mut page: impl FnMut(u32) -> Option<Vec<u8>>) -> Option<Vec<u8>> {
        let mut bytes = self.here.clone();
        let mut next = self.next;
        while bytes.len() < self.length {
            let more = page(next.filter(|n| *n != 0)?)?;
            let (head, rest) = more.split_at_checked(4)?;
            let take = rest.len().min(self.length - bytes.len());
            bytes.extend_from_slice(rest.get(..take)?);
            next = Some(u32::from_be_bytes(head.try_into().ok()?));
        }
        Some(bytes)
    }
}

/// The rows of a page. Where its own list of them is damaged, every place in it is tried.
pub(crate) fn rows(page: &[u8], is_first: bool) -> Vec<Row> {
    let start = if is_first { FILE_HEADER } else { 0 };
    let kind = page.get(start).copied().unwrap_or(0);
    let listed = u16::from_be_bytes([byte(page, start + 3), byte(page, start + 4)]);
    let mut found = Vec::new();
    let mut whole = kind == LEAF && usize::from(listed) <= PAGE / 4;
    for n in 0..usize::from(listed) {
        if !whole {
            break;
        }
        let at = start + 8 + 2 * n;
        let cell = usize::from(u16::from_be_bytes([byte(page, at), byte(page, at + 1)]));
        match read(page, cell) {
            Cell::Row(row) => found.push(row),
            Cell::Other => {}
            Cell::Nonsense => whole = false,
        }
    }
    // An index is no place for rows of ours; a page whose kind is none of them may be a leaf with a damaged head.
    if whole || OTHER_KINDS.contains(&kind) {
        return found;
    }
    (start..page.len())
        .filter_map(|at| if let Cell::Row(row) = read(page, at) { Some(row) } else { None })
        .collect()
}

fn byte(page: &[u8], at: usize) -> u8 {
    page.get(at).copied().unwrap_or(0)
}

enum Cell {
    Row(Row),
    /// A row of another table.
    Other,
    /// Nothing that could be a row.
    Nonsense,
}

/// The cell at a place of a page.
fn read(page: &[u8], at: usize) -> Cell {
    let Some((payload, rowid, local)) = cell(page, at) else { return Cell::Nonsense };
    let Some(columns) = columns(local.bytes) else { return Cell::Nonsense };
    let total = columns.place(columns.kinds.len());
    if total != payload {
        return Cell::Nonsense;
    }
    row(rowid, &columns, &local).map_or(Cell::Other, Cell::Row)
}

struct Local<'a> {
    bytes: &'a [u8],
    next: Option<u32>,
}

/// The size of a cell's payload, its row's number, and the part of the payload that stands here.
fn cell(page: &[u8], at: usize) -> Option<(usize, u64, Local<'_>)> {
    let (payload, at) = varint(page, at)?;
    let (rowid, at) = varint(page, at)?;
    let payload = usize::try_from(payload).ok().filter(|p| (2..=LONGEST).contains(p))?;
    // As much as fits, else so much that the rest fills pages.
    let (most, least) = (PAGE - 35, (PAGE - 12) * 32 / 255 - 23);
    let local = if payload <= most {
        payload
    } else {
        let even = least + (payload - least) % (PAGE - 4);
        if even <= most { even } else { least }
    };
    let bytes = page.get(at..at.checked_add(local)?)?;
    let next = if local < payload {
        let number = page.get(at + local..at + local + 4)?;
        Some(u32::from_be_bytes(number.try_into().ok()?))
    } else {
        None
    };
    Some((payload, rowid, Local { bytes, next }))
}

struct Columns {
    /// Where the values begin.
    head: usize,
    kinds: Vec<u64>,
}

impl Columns {
    /// Where the value of a column begins; of the one behind the last: where the record ends.
    fn place(&self, column: usize) -> usize {
        self.kinds.iter().take(column).fold(self.head, |at, kind| at.saturating_add(length(*kind)))
    }
}

fn columns(record: &[u8]) -> Option<Columns> {
    let (head, mut at) = varint(record, 0)?;
    let head = usize::try_from(head).ok().filter(|h| *h <= HEAD && *h <= record.len())?;
    let mut kinds = Vec::new();
    while at < head {
        let (kind, next) = varint(record, at)?;
        kinds.push(kind);
        at = next;
    }
    (at == head).then_some(Columns { head, kinds })
}

/// Bytes of a value of this kind.
fn length(kind: u64) -> usize {
    match kind {
        0 | 8..=11 => 0,
        n @ 1..=4 => usize::try_from(n).unwrap_or(0),
        5 => 6,
        6 | 7 => 8,
        n => usize::try_from(n.saturating_sub(12) / 2).unwrap_or(usize::MAX),
    }
}

const fn is_text(kind: u64) -> bool {
    kind >= 13 && kind % 2 == 1
}

const fn is_number(kind: u64) -> bool {
    matches!(kind, 1..=6 | 8 | 9)
}

/// The row, where it is one of ours.
fn row(rowid: u64, columns: &Columns, local: &Local<'_>) -> Option<Row> {
    let at = |n: usize| columns.place(n);
    let value = |n: usize| {
        let kind = columns.kinds.get(n).copied()?;
        local.bytes.get(at(n)..at(n).checked_add(length(kind))?)
    };
    let number = |n: usize| match columns.kinds.get(n).copied()? {
        8 => Some(0),
        9 => Some(1),
        _ => u64::try_from(signed(value(n)?)).ok(),
    };
    match columns.kinds.as_slice() {
        &[0, job, kind, fact, at_ms, line]
            if (job == 0 || is_number(job))
                && is_text(kind)
                && is_number(fact)
                && is_number(at_ms)
                && is_text(line) =>
        {
            let here = local.bytes.get(at(5)..)?.to_vec();
            let line = Text { here, length: length(line), next: local.next };
            Some(Row::Event { seq: rowid, job: number(1).filter(|_| job != 0), line })
        }
        [0, 76, first @ ..] if first.len() <= 1 => {
            let hash = value(1)?.try_into().ok()?;
            Some(Row::Seal { last: rowid, hash, first: number(2).filter(|_| first != [0]) })
        }
        &[name, value_kind] if is_text(name) && is_number(value_kind) => {
            let name = String::from_utf8(value(0)?.to_vec()).ok()?;
            Some(Row::Meta { name, value: number(1)? })
        }
        _ => None,
    }
}

/// A number of one to eight bytes, high byte first, with its sign.
fn signed(bytes: &[u8]) -> i64 {
    let negative = bytes.first().is_some_and(|b| b & 0x80 != 0);
    bytes.iter().fold(if negative { -1 } else { 0 }, |n: i64, b| (n << 8) | i64::from(*b))
}

/// Seven bits a byte, the highest first; the ninth byte has eight. Gives the place behind it.
fn varint(bytes: &[u8], at: usize) -> Option<(u64, usize)> {
    let mut value = 0_u64;
    for n in 0..8 {
        let b = *bytes.get(at.checked_add(n)?)?;
        value = (value << 7) | u64::from(b & 0x7F);
        if b & 0x80 == 0 {
            return Some((value, at + n + 1));
        }
    }
    let b = *bytes.get(at.checked_add(8)?)?;
    Some(((value << 8) | u64::from(b), at + 9))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rusqlite::{Connection, params};

    type Event = (u64, Option<u64>, String);

    /// Rows of every width, as SQLite wrote them: short lines, lines over several pages, all sizes of numbers.
    fn written() -> (Vec<u8>, Vec<Event>) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("db");
        let connection = Connection::open(&path).unwrap();
        connection
            .execute_batch(
                "CREATE TABLE event (seq INTEGER PRIMARY KEY, job INTEGER, kind TEXT NOT NULL, fact INTEGER NOT NULL, at_ms INTEGER NOT NULL, line TEXT NOT NULL) STRICT;
                 CREATE INDEX event_by_job ON event (job, seq) WHERE fact = 1;
                 CREATE TABLE seal (last INTEGER PRIMARY KEY, hash BLOB NOT NULL, first INTEGER) STRICT;
                 CREATE TABLE meta (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT;
                 BEGIN",
            )
            .unwrap();
        let mut rows = Vec::new();
        for n in 0..200_u64 {
            let seq = 1 + n * n * 7_919;
            let job = [None, Some(1), Some(0), Some(300), Some(70_000), Some(1 << 40)]
                [usize::try_from(n % 6).unwrap()];
            let length =
                [0, 1, 40, 180, 4_000, 4_040, 4_061, 4_100, 9_000, 30_000][usize::try_from(n % 10).unwrap()];
            let line = "ä".repeat(length / 2) + &"x".repeat(length % 2);
            connection
                .execute(
                    "INSERT INTO event VALUES (?1, ?2, 'told', ?3, ?4, ?5)",
                    params![seq, job, n % 2, i64::try_from(n).unwrap() - 5, line],
                )
                .unwrap();
            connection
                .execute(
                    "INSERT INTO seal VALUES (?1, ?2, ?3)",
                    params![seq, [u8::try_from(n).unwrap(); 32], (n % 3 > 0).then_some(n)],
                )
                .unwrap();
            rows.push((seq, job, line));
        }
        connection.execute_batch("INSERT INTO meta VALUES ('reserved', 100001); COMMIT").unwrap();
        drop(connection);
        (std::fs::read(&path).unwrap(), rows)
    }

    fn all(bytes: &[u8]) -> Vec<Row> {
        bytes.chunks(PAGE).enumerate().flat_map(|(n, page)| rows(page, n == 0)).collect()
    }

    fn lines(bytes: &[u8], found: &[Row]) -> Vec<Event> {
        let page = |n: u32| bytes.chunks(PAGE).nth(usize::try_from(n).unwrap() - 1).map(<[u8]>::to_vec);
        let mut events: Vec<_> = found
            .iter()
            .filter_map(|row| match row {
                Row::Event { seq, job, line } => {
                    Some((*seq, *job, String::from_utf8(line.whole(page)?).ok()?))
                }
                _ => None,
            })
            .collect();
        events.sort();
        events
    }

    #[test]
    fn every_row_is_found_without_the_database() {
        let (bytes, rows) = written();
        let found = all(&bytes);
        assert_eq!(lines(&bytes, &found), rows);
        let seals = found.iter().filter(|r| matches!(r, Row::Seal { .. })).count();
        assert_eq!(seals, rows.len());
        assert!(found.contains(&Row::Seal { last: 1 + 7_919, hash: [1; 32], first: Some(1) }));
        assert!(found.contains(&Row::Seal { last: 1, hash: [0; 32], first: None }));
        assert!(found.contains(&Row::Meta { name: "reserved".to_owned(), value: 100_001 }));
    }

    #[test]
    fn a_page_with_a_damaged_list_gives_its_rows_all_the_same() {
        let (bytes, rows) = written();
        for at in [0, 1, 3, 4, 8, 9, 11] {
            let mut bad = bytes.clone();
            for page in bad.chunks_mut(PAGE).skip(1).filter(|p| p[0] == LEAF) {
                page[at] ^= 0x41;
            }
            let found = lines(&bad, &all(&bad));
            assert!(found.len() * 100 >= rows.len() * 97, "byte {at}: {} of {}", found.len(), rows.len());
            assert!(found.iter().all(|row| rows.contains(row)), "byte {at}: nothing is invented");
        }
    }

    #[test]
    fn noise_is_no_row_and_no_panic() {
        let mut state = 1_u64;
        for round in 0..300 {
            let page: Vec<u8> = (0..PAGE)
                .map(|n| {
                    state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                    if n == 0 && round % 2 == 0 { LEAF } else { u8::try_from(state >> 56).unwrap() }
                })
                .collect();
            let events =
                rows(&page, round % 3 == 0).into_iter().filter(|r| matches!(r, Row::Event { .. })).count();
            assert_eq!(events, 0, "round {round}");
        }
        assert!(rows(&[], true).is_empty());
    }
}
