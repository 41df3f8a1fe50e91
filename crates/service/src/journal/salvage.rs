//! What can be read of a damaged journal, page by page, and which of it is what was written.
//!
//! In: the damaged file, its log. Out: rows in a journal that is whole, the numbers that are missing or cannot be proven. Every page of both is looked at by
//! itself; then the hash chain tells batch by batch which rows are as they were written. A batch that does not fit its seal is taken over as it
//! is, with the seal that it should have, so that it stays known as broken and what follows still fits.
//!
//! Memory: sixteen bytes for each event found. Not here: the files' names and the order of steps (`repair.rs`), pages (`pages.rs`).

use std::collections::{BTreeMap, HashMap};
use std::fs::File;
use std::os::unix::fs::FileExt as _;
use std::path::Path;

use events::{Event, Seq};
use rusqlite::{Connection, params};

use super::damage::{Damage, Span};
use super::log::Log;
use super::pages::{self, PAGE, Text};
use super::rows;
use super::seal::{Hash, Sealer};
use crate::row::Row;

/// One version of a row, as it was found.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Version {
    job: Option<u64>,
    line: Vec<u8>,
}

/// Where a page lies: in the log or in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Place {
    /// Later versions of a page come first.
    rank: u32,
    /// Its number in the file, or its place in the list of the log's pages.
    index: u32,
}

/// A seal as it was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stored {
    hash: Hash,
    first: Option<u64>,
}

/// The file and its log, open to be read page by page.
struct Heap {
    base: Option<(File, u64)>,
    log: Vec<(File, Vec<super::log::Frame>)>,
    /// Each page's places in the log, the latest first.
    latest: HashMap<u32, Vec<Place>>,
}

/// By definition: no log has this number.
const IN_FILE: u32 = u32::MAX;
/// No batch spans so many numbers, and no more than so many are reserved ahead.
/// By definition: one reservation in use and the next one ahead.
const FAR: u64 = 2 * super::RESERVE;
/// Where a batch does not fit its seal, others of its rows are tried up to this size; beyond it is no batch but what
/// stood between lost seals.
/// Own choice: a batch is what came within a second, some twenty rows; the work grows with the square.
const TRIED: usize = 256;

impl Heap {
    fn of(base: Option<&Path>, logs: &[&Path]) -> std::io::Result<Self> {
        let base = base
            .map(|path| File::open(path).and_then(|file| Ok((file.metadata()?.len(), file))))
            .transpose()?;
        let mut heap =
            Self { base: base.map(|(len, file)| (file, len)), log: Vec::new(), latest: HashMap::new() };
        for path in logs {
            let file = File::open(path)?;
            let frames = Log::of(&file)?.frames;
            heap.log.push((file, frames));
        }
        // Ranks fall from the newest page to the oldest, log by log.
        let mut rank = 0;
        for (n, (_, frames)) in heap.log.iter().enumerate() {
            for (index, frame) in frames.iter().enumerate().rev() {
                let place = Place { rank, index: pack(n, index) };
                heap.latest.entry(frame.page).or_default().push(place);
                rank += 1;
            }
        }
        Ok(heap)
    }

    /// Places of all pages.
    fn places(&self, scan_base: bool) -> Vec<Place> {
        let mut all: Vec<Place> = self.latest.values().flatten().copied().collect();
        if let (Some((_, length)), true) = (&self.base, scan_base) {
            let pages = u32::try_from(length.div_ceil(PAGE as u64)).unwrap_or(u32::MAX);
            all.extend((0..pages).map(|index| Place { rank: IN_FILE, index }));
        }
        all.sort();
        all
    }

    /// A page's bytes; what is cut off is zeros. `None` where it cannot be read.
    fn page(&self, place: Place) -> Option<Vec<u8>> {
        let (file, at) = if place.rank == IN_FILE {
            let (file, _) = self.base.as_ref()?;
            (file, u64::from(place.index) * PAGE as u64)
        } else {
            let (log, index) = unpack(place.index);
            let (file, frames) = self.log.get(log)?;
            (file, frames.get(index)?.at)
        };
        let mut page = vec![0; PAGE];
        let mut got = 0;
        while let Some(rest) = page.get_mut(got..).filter(|rest| !rest.is_empty()) {
            match file.read_at(rest, at + got as u64) {
                Ok(0) => break,
                Ok(n) => got += n,
                Err(e) if e.kind() == std::io::ErrorKind::Interrupted => {}
                Err(_) => return None,
            }
        }
        Some(page)
    }

    fn is_first(&self, place: Place) -> bool {
        if place.rank == IN_FILE {
            return place.index == 0;
        }
        let (log, index) = unpack(place.index);
        self.log.get(log).and_then(|(_, frames)| frames.get(index)).is_some_and(|frame| frame.page == 1)
    }

    /// The whole of a text that goes on in other pages: with the latest of them, or else with those in the file.
    fn whole(&self, text: &Text) -> Vec<Vec<u8>> {
        let in_file = |n: u32| self.page(Place { rank: IN_FILE, index: n.checked_sub(1)? });
        let newest = |n: u32| match self.latest.get(&n).and_then(|places| places.first()) {
            Some(place) => self.page(*place),
            None => in_file(n),
        };
        let mut found: Vec<Vec<u8>> =
            [text.whole(newest), text.whole(in_file)].into_iter().flatten().collect();
        found.dedup();
        found
    }
}

/// Which log, and which frame of it.
fn pack(log: usize, frame: usize) -> u32 {
    u32::try_from((frame << 1) | (log & 1)).unwrap_or(u32::MAX)
}

fn unpack(index: u32) -> (usize, usize) {
    ((index & 1) as usize, (index >> 1) as usize)
}

enum Lines {
    /// Read when they are wanted.
    Heap(Heap, Vec<(u64, Place)>),
    /// All read before.
    Memory(BTreeMap<u64, Vec<Version>>),
}

/// See the module's words.
pub(crate) struct Salvage {
    lines: Lines,
    seals: BTreeMap<u64, Vec<Stored>>,
    /// Numbers up to this one may have been shown, as the journal itself says.
    pub(crate) reserved: Option<u64>,
}

impl Salvage {
    /// Looks at every page of the file and of its logs, the latest log first.
    pub(crate) fn of(base: Option<&Path>, logs: &[&Path]) -> std::io::Result<Self> {
        Ok(Self::scan(Heap::of(base, logs)?, true))
    }

    /// Looks at the pages of logs alone, and keeps what was found in memory; the file is read where a line goes on in it.
    pub(crate) fn of_logs(base: Option<&Path>, logs: &[&Path]) -> std::io::Result<Self> {
        let mut salvage = Self::scan(Heap::of(base, logs)?, false);
        let numbers = salvage.numbers(0);
        let memory = numbers.into_iter().map(|seq| (seq, salvage.versions(seq))).collect();
        salvage.lines = Lines::Memory(memory);
        Ok(salvage)
    }

    fn scan(heap: Heap, scan_base: bool) -> Self {
        let mut places = Vec::new();
        let mut seals: BTreeMap<u64, Vec<Stored>> = BTreeMap::new();
        let mut reserved = None;
        for place in heap.places(scan_base) {
            let Some(page) = heap.page(place) else { continue };
            for row in pages::rows(&page, heap.is_first(place)) {
                match row {
                    // A line tells its own number; where the two differ, one of them is damaged.
                    pages::Row::Event { seq, line, .. } if line.tells(seq) => places.push((seq, place)),
                    pages::Row::Event { .. } => {}
                    pages::Row::Seal { last, hash, first } => {
                        let stored = Stored { hash, first };
                        let known = seals.entry(last).or_default();
                        if !known.contains(&stored) {
                            known.push(stored);
                        }
                    }
                    pages::Row::Meta { name, value } if name == "reserved" => {
                        reserved = reserved.max(Some(value))
                    }
                    pages::Row::Meta { .. } => {}
                }
            }
        }
        places.sort();
        Self { lines: Lines::Heap(heap, places), seals, reserved }
    }

    /// Leaves out numbers that cannot be, beside the events that were found and what was noted: a flipped bit makes them.
    pub(crate) fn sift(&mut self, noted: u64) {
        let bound = self.numbers(0).last().copied().unwrap_or(0).max(noted).saturating_add(FAR);
        for (last, stored) in &mut self.seals {
            stored.retain(|s| {
                *last <= bound && s.first.is_none_or(|first| first <= *last && last - first <= FAR)
            });
        }
        self.seals.retain(|_, stored| !stored.is_empty());
        self.reserved = self.reserved.filter(|reserved| *reserved <= bound.saturating_add(FAR));
    }

    /// The numbers of the events that were found behind `after`.
    fn numbers(&self, after: u64) -> Vec<u64> {
        let mut all: Vec<u64> = match &self.lines {
            Lines::Heap(_, places) => places.iter().map(|(seq, _)| *seq).filter(|seq| *seq > after).collect(),
            Lines::Memory(lines) => lines.range(after.saturating_add(1)..).map(|(seq, _)| *seq).collect(),
        };
        all.dedup();
        all
    }

    /// The highest number that was found in any row.
    pub(crate) fn highest(&self) -> u64 {
        let events = self.numbers(0).last().copied().unwrap_or(0);
        events.max(self.seals.keys().next_back().copied().unwrap_or(0))
    }

    /// What was found of one event, the latest first, each once; lines that cannot be ours are left out.
    fn versions(&self, seq: u64) -> Vec<Version> {
        let (heap, places) = match &self.lines {
            Lines::Memory(lines) => return lines.get(&seq).cloned().unwrap_or_default(),
            Lines::Heap(heap, places) => (heap, places),
        };
        let from = places.partition_point(|(found, _)| *found < seq);
        let mut versions: Vec<Version> = Vec::new();
        for (_, place) in places.iter().skip(from).take_while(|(found, _)| *found == seq) {
            let Some(page) = heap.page(*place) else { continue };
            for row in pages::rows(&page, heap.is_first(*place)) {
                let pages::Row::Event { seq: found, job, line } = row else { continue };
                if found != seq || !line.tells(seq) {
                    continue;
                }
                for line in heap.whole(&line) {
                    let version = Version { job, line };
                    if !versions.contains(&version) {
                        versions.push(version);
                    }
                }
            }
        }
        versions
    }

    /// Writes what was found behind event `after`, whose seal is `head`, into a journal, inside of a transaction. `accepted` is how far events were
    /// promised, where that is known: what stands behind it without a seal was under way, and is not taken over.
    pub(crate) fn take_over(
        &self,
        connection: &Connection,
        after: u64,
        head: Hash,
        accepted: Option<u64>,
    ) -> rusqlite::Result<Taken> {
        let mut filler = Filler {
            connection,
            salvage: self,
            last: after,
            head,
            broken: Vec::new(),
            accepted,
            taken: Taken::default(),
        };
        let numbers = self.numbers(after);
        let mut rest = numbers.as_slice();
        for (last, stored) in self.seals.range(after.saturating_add(1)..) {
            let (batch, behind) = rest.split_at(rest.partition_point(|seq| seq <= last));
            filler.batch(batch, *last, stored)?;
            rest = behind;
        }
        filler.end(rest)?;
        Ok(filler.taken)
    }
}

/// What came of it.
#[derive(Debug, Default)]
pub(crate) struct Taken {
    /// Events that are as they were written.
    pub(crate) whole: u64,
    /// The others.
    pub(crate) damage: Damage,
}

struct Filler<'a> {
    connection: &'a Connection,
    salvage: &'a Salvage,
    /// The last number under the seal before, and that seal.
    last: u64,
    head: Hash,
    /// Batches that do not fit, until it is known whether they were ever a part of the journal: one that fits comes behind them.
    broken: Vec<Broken>,
    /// How far events were promised, where that is known.
    accepted: Option<u64>,
    taken: Taken,
}

/// A batch that does not fit its seal.
struct Broken {
    rows: Vec<(u64, Vec<Version>)>,
    /// The number before the first.
    after: u64,
    last: u64,
    stored: Option<Stored>,
    /// The seal that its rows would have.
    computed: Hash,
}

impl Filler<'_> {
    fn batch(&mut self, numbers: &[u64], last: u64, stored: &[Stored]) -> rusqlite::Result<()> {
        let versions = self.versions(numbers);
        let fit =
            |head: &Hash| stored.iter().find_map(|s| Some((s.hash, fitting(head, &versions, &s.hash)?)));
        if let Some((hash, chosen)) = fit(&self.head).filter(|_| self.goes_on()) {
            self.flush_broken()?;
            return self.put_whole(&chosen, last, hash);
        }
        // The seal before may be what is damaged: then both batches fit the one it should have been.
        let others =
            self.broken.split_last().is_none_or(|(_, others)| others.iter().all(|b| self.promised(b.last)));
        if let Some((hash, chosen)) =
            self.broken.last().filter(|_| others).and_then(|before| fit(&before.computed))
            && let Some(before) = self.broken.pop()
        {
            self.flush_broken()?;
            self.put_whole(&firsts(&before.rows), before.last, before.computed)?;
            return self.put_whole(&chosen, last, hash);
        }
        // A seal in between may be missing.
        for seal in stored.iter().filter(|_| self.goes_on()) {
            let Some(first) = seal.first.filter(|first| *first > self.last) else { continue };
            let (before, own) = versions.split_at(versions.partition_point(|(seq, _)| *seq < first));
            let Some((end, _)) = before.last() else { continue };
            let between = over(&self.head, &firsts(before));
            if let Some(fits) = fitting(&between, own, &seal.hash) {
                self.flush_broken()?;
                self.put_whole(&firsts(before), *end, between)?;
                return self.put_whole(&fits, last, seal.hash);
            }
        }
        let stored = stored.first().copied();
        let computed = over(&self.head, &firsts(&versions));
        self.broken.push(Broken { rows: versions, after: self.last, last, stored, computed });
        (self.last, self.head) = (last, stored.map_or(computed, |s| s.hash));
        Ok(())
    }

    /// Whether what comes next may be taken over: not behind a batch that does not fit and was never promised, for what was not synced
    /// comes to the disk in any order.
    fn goes_on(&self) -> bool {
        self.broken.iter().all(|broken| self.promised(broken.last))
    }

    fn promised(&self, last: u64) -> bool {
        self.accepted.is_none_or(|accepted| last <= accepted)
    }

    fn versions(&self, numbers: &[u64]) -> Vec<(u64, Vec<Version>)> {
        numbers.iter().map(|seq| (*seq, self.salvage.versions(*seq))).collect()
    }

    fn put_whole(&mut self, rows: &[(u64, Version)], last: u64, hash: Hash) -> rusqlite::Result<()> {
        for (seq, version) in rows {
            self.put(*seq, version, Rest::Whole)?;
        }
        self.taken.whole = self.taken.whole.saturating_add(rows.len() as u64);
        self.put_seal(last, &hash, rows.first().map(|(seq, _)| *seq))?;
        (self.last, self.head) = (last, hash);
        Ok(())
    }

    fn flush_broken(&mut self) -> rusqlite::Result<()> {
        for broken in std::mem::take(&mut self.broken) {
            self.put_broken(&broken)?;
        }
        Ok(())
    }

    /// Takes a batch over as it is, with the seal that it should have: what follows still fits, and this never will.
    fn put_broken(&mut self, broken: &Broken) -> rusqlite::Result<()> {
        let mut kept = 0;
        for (seq, versions) in &broken.rows {
            for version in versions {
                if self.put(*seq, version, Rest::Broken)? {
                    kept += 1;
                    break;
                }
            }
        }
        let stated = broken.stated();
        let hash = broken.stored.map_or(broken.computed, |s| s.hash);
        self.put_seal(broken.last, &hash, stated)?;
        self.taken.damage.add(Span { kept, ..broken.span() });
        Ok(())
    }

    /// The end: what does not fit and was never promised is not taken over, for it was being written when the power went; nor is what
    /// stands behind the last seal.
    fn end(&mut self, numbers: &[u64]) -> rusqlite::Result<()> {
        for broken in std::mem::take(&mut self.broken) {
            if self.promised(broken.last) {
                self.put_broken(&broken)?;
            } else {
                self.taken.damage.add(broken.span());
            }
        }
        let (kept, under_way) = numbers.split_at(numbers.partition_point(|seq| self.promised(*seq)));
        if let Some(last) = kept.last() {
            let rows = self.versions(kept);
            let computed = over(&self.head, &firsts(&rows));
            self.put_broken(&Broken { rows, after: self.last, last: *last, stored: None, computed })?;
        }
        if let (Some(first), Some(last)) = (under_way.first(), under_way.last()) {
            self.taken.damage.add(Span { first: *first, last: *last, kept: 0, every: false });
        }
        Ok(())
    }

    /// Writes one row. One that is no event is taken over only where its seal says that it was written so.
    fn put(&mut self, seq: u64, version: &Version, rest: Rest) -> rusqlite::Result<bool> {
        let line = match (String::from_utf8(version.line.clone()), rest) {
            (Ok(line), _) => line,
            (Err(e), Rest::Broken) => String::from_utf8_lossy(e.as_bytes()).into_owned(),
            (Err(_), Rest::Whole) => return Ok(false),
        };
        let job = version.job.unwrap_or(0);
        match serde_json::from_str::<Event>(&line) {
            Ok(event) if event.seq == Seq(seq) => {
                rows::insert(self.connection, &Row::written(event, line), job)?;
                Ok(true)
            }
            _ if rest == Rest::Whole => {
                // Written so, by a newer program: kept as it is.
                rows::insert_unknown(self.connection, seq, job, &line)?;
                Ok(true)
            }
            _ => Ok(false),
        }
    }

    fn put_seal(&self, last: u64, hash: &Hash, first: Option<u64>) -> rusqlite::Result<()> {
        let sql = "INSERT INTO seal (last, hash, first) VALUES (?1, ?2, ?3)
             ON CONFLICT (last) DO UPDATE SET hash = excluded.hash, first = coalesce(excluded.first, first)";
        self.connection.prepare_cached(sql)?.execute(params![last, hash.as_slice(), first]).map(|_| ())
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Rest {
    /// Its batch fits its seal.
    Whole,
    /// It does not.
    Broken,
}

impl Broken {
    /// Its first number, where its seal still says so.
    fn stated(&self) -> Option<u64> {
        self.stored.and_then(|s| s.first).filter(|first| *first > self.after && *first <= self.last)
    }

    /// Its numbers, with nothing kept of them.
    fn span(&self) -> Span {
        let found = self.rows.first().map_or(u64::MAX, |(seq, _)| *seq);
        let stated = self.stated();
        let first = stated.map_or(self.after.saturating_add(1), |stated| stated.min(found));
        Span { first, last: self.last, kept: 0, every: stated.is_some() }
    }
}

/// The latest version of each row.
fn firsts(versions: &[(u64, Vec<Version>)]) -> Vec<(u64, Version)> {
    versions.iter().filter_map(|(seq, v)| Some((*seq, v.first()?.clone()))).collect()
}

/// The rows that fit a seal, where there are some: the latest version of each, or one of them another.
fn fitting(head: &Hash, versions: &[(u64, Vec<Version>)], want: &Hash) -> Option<Vec<(u64, Version)>> {
    let first = firsts(versions);
    if over(head, &first) == *want {
        return Some(first);
    }
    if versions.len() > TRIED {
        return None;
    }
    for (n, (_, others)) in versions.iter().enumerate() {
        // Without it, too: a row that was never committed.
        for other in others.iter().skip(1).map(Some).chain([None]) {
            let chosen = versions.iter().enumerate().filter_map(|(at, (seq, v))| {
                let version = if at == n { other? } else { v.first()? };
                Some((*seq, version.clone()))
            });
            let chosen: Vec<(u64, Version)> = chosen.collect();
            if over(head, &chosen) == *want {
                return Some(chosen);
            }
        }
    }
    None
}

fn over(head: &Hash, rows: &[(u64, Version)]) -> Hash {
    let mut sealer = Sealer::after(head);
    for (seq, version) in rows {
        sealer.event(*seq, &version.line);
    }
    sealer.seal()
}
