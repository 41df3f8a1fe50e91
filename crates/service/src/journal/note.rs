//! The note beside the journal: how far it came, in a small file of its own.
//!
//! In: the last number that was synced, its seal, the last job, the numbers reserved. Out: the same at the next start, whatever
//! became of the journal. So the loss of the journal's end, of its log or of all of it is known, and no number begins again.
//!
//! Two records of one sector each are written in turn, in place: one that is cut short spoils itself and not the other. A record
//! carries a checksum. It is written after the batch that it tells of and before that is answered; it is synced where numbers
//! are reserved, where a job ends and at an orderly end, so that it costs no sync of its own for each fact. A note that is older than the
//! journal is true all the same: what it names must be there.
//!
//! Not here: what is made of a difference (`restore.rs`).

use std::fs::File;
use std::os::unix::fs::FileExt as _;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::disk;
use super::seal::{self, Hash};

/// One record: a sector, which is written whole or not.
/// Source: common practice of disks and cards, no source: 512 bytes or a multiple of them.
const RECORD: usize = 512;
/// The form of the record.
/// By definition: raised when the form changes.
const NOTE: u32 = 1;

/// What is noted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Note {
    note: u32,
    /// Grows with every record.
    turn: u64,
    /// The journal's format.
    pub(crate) format: i64,
    /// The last number of the last batch that was synced.
    pub(crate) last: u64,
    /// The seal of that batch, in hex digits.
    pub(crate) seal: String,
    /// The number of the last job.
    pub(crate) job: u64,
    /// Numbers up to this one may have been shown.
    pub(crate) reserved: u64,
}

/// A record as it is stored.
#[derive(Serialize, Deserialize)]
struct Record {
    #[serde(flatten)]
    note: Note,
    sum: String,
}

/// What was found where the note should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Found {
    /// No file.
    Missing,
    /// A file, but no record in it that is whole.
    Damaged,
    /// The latest record that is whole; and whether the other one is spoiled.
    Note(Note, Spoiled),
}

/// Whether one of the two records is not what was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Spoiled {
    Yes,
    No,
}

impl Found {
    pub(crate) const fn note(&self) -> Option<&Note> {
        match self {
            Self::Note(note, _) => Some(note),
            Self::Missing | Self::Damaged => None,
        }
    }
}

impl Note {
    pub(crate) fn new(format: i64, last: u64, seal: &Hash, job: u64, reserved: u64) -> Self {
        Self { note: NOTE, turn: 0, format, last, seal: seal::hex(seal), job, reserved }
    }
}

/// The file beside the journal at `path`.
pub(crate) fn beside(path: &Path) -> PathBuf {
    path.with_extension("journal.last")
}

/// Reads the note beside the journal at `path`.
pub(crate) fn read(path: &Path) -> std::io::Result<Found> {
    let bytes = match std::fs::read(beside(path)) {
        Ok(bytes) => bytes,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(Found::Missing),
        Err(e) => return Err(e),
    };
    // One that was never written, or whose writing the power took along, is zeros or not there.
    let written = bytes.chunks(RECORD).take(2).filter(|bytes| bytes.iter().any(|b| *b != 0));
    let records: Vec<Option<Note>> = written.map(record).collect();
    let spoiled = if records.contains(&None) { Spoiled::Yes } else { Spoiled::No };
    let nothing = if records.is_empty() { Found::Missing } else { Found::Damaged };
    let latest = records.into_iter().flatten().max_by_key(|note| note.turn);
    Ok(latest.map_or(nothing, |note| Found::Note(note, spoiled)))
}

fn record(bytes: &[u8]) -> Option<Note> {
    let text = std::str::from_utf8(bytes).ok()?;
    let Record { note, sum } = serde_json::from_str(text.trim_end()).ok()?;
    (note.note == NOTE && sum == checksum(&note)? && text.len() == RECORD).then_some(note)
}

fn checksum(note: &Note) -> Option<String> {
    let text = serde_json::to_string(note).ok()?;
    let hash = seal::of_reader(&mut text.as_bytes()).ok()?;
    Some(seal::hex(&hash).chars().take(16).collect())
}

/// The pen.
#[derive(Debug)]
pub(crate) struct Pen {
    path: PathBuf,
    file: File,
    identity: disk::Identity,
    turn: u64,
}

impl Pen {
    /// Goes on after what was found: the next record takes the place of the older or spoiled one.
    pub(crate) fn open(path: &Path, found: &Found) -> std::io::Result<Self> {
        let path = beside(path);
        let (file, identity) = open(&path)?;
        Ok(Self { path, file, identity, turn: found.note().map_or(0, |note| note.turn) })
    }

    /// Writes one record over the older of the two.
    pub(crate) fn write(&mut self, note: Note) -> std::io::Result<()> {
        if !self.identity.is_at(&self.path) {
            // Somebody removed it: the next start shall find one all the same.
            (self.file, self.identity) = open(&self.path)?;
            self.turn = 0;
        }
        if self.turn == 0 {
            // Nothing of what lies there is a note.
            self.file.set_len(0)?;
        }
        self.turn = self.turn.saturating_add(1);
        let note = Note { turn: self.turn, ..note };
        let other = || std::io::Error::other("a note cannot be written as text");
        let sum = checksum(&note).ok_or_else(other)?;
        let mut text = serde_json::to_vec(&Record { note, sum })?;
        if text.len() >= RECORD {
            return Err(other());
        }
        text.resize(RECORD - 1, b' ');
        text.push(b'\n');
        let place = if self.turn % 2 == 1 { 0 } else { RECORD as u64 };
        self.file.write_all_at(&text, place)
    }

    /// Waits until it is on the disk.
    pub(crate) fn sync(&self) -> std::io::Result<()> {
        disk::sync(&self.file)
    }
}

fn open(path: &Path) -> std::io::Result<(File, disk::Identity)> {
    if !path.exists() {
        disk::make_private(path)?;
        disk::sync_folder_of(path)?;
    }
    let file = File::options().write(true).open(path)?;
    let identity = disk::Identity::of(path)?;
    Ok((file, identity))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn note(last: u64) -> Note {
        Note::new(2, last, &[7; 32], 3, last + 100)
    }

    #[test]
    fn the_latest_record_is_read_and_one_that_is_spoiled_leaves_the_one_before() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        assert_eq!(read(&path).unwrap(), Found::Missing);
        let mut pen = Pen::open(&path, &Found::Missing).unwrap();
        for last in 1..=5 {
            pen.write(note(last)).unwrap();
            let found = read(&path).unwrap();
            assert!(matches!(&found, Found::Note(n, Spoiled::No) if n.last == last), "{last}: {found:?}");
        }
        let file = beside(&path);
        let whole = std::fs::read(&file).unwrap();
        assert_eq!(whole.len(), 2 * RECORD);
        assert!(whole.split(|b| *b == b'\n').all(|line| line.len() == RECORD - 1 || line.is_empty()));
        for at in 0..whole.len() {
            let mut bytes = whole.clone();
            bytes[at] ^= 0x04;
            std::fs::write(&file, &bytes).unwrap();
            let found = read(&path).unwrap();
            // The fifth stands in front.
            let last = if at < RECORD { 4 } else { 5 };
            assert!(matches!(&found, Found::Note(n, Spoiled::Yes) if n.last == last), "byte {at}: {found:?}");
            Pen::open(&path, &found).unwrap().write(note(6)).unwrap();
            let found = read(&path).unwrap();
            assert!(matches!(&found, Found::Note(n, _) if n.last == 6), "byte {at}: {found:?}");
        }
        for cut in 0..whole.len() {
            std::fs::write(&file, &whole[..cut]).unwrap();
            let found = read(&path).unwrap();
            let fits = match cut {
                0 => found == Found::Missing,
                1..RECORD => found == Found::Damaged,
                RECORD => matches!(&found, Found::Note(n, Spoiled::No) if n.last == 5),
                _ => matches!(&found, Found::Note(n, Spoiled::Yes) if n.last == 5),
            };
            assert!(fits, "cut at {cut}: {found:?}");
        }
        std::fs::write(&file, [whole[..RECORD].to_vec(), vec![0; RECORD]].concat()).unwrap();
        assert!(matches!(read(&path).unwrap(), Found::Note(_, Spoiled::No)), "the second was never written");
    }

    #[test]
    fn it_goes_on_after_a_restart_and_over_a_damaged_one() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        for last in 1..=4 {
            let found = read(&path).unwrap();
            Pen::open(&path, &found).unwrap().write(note(last)).unwrap();
            assert_eq!(read(&path).unwrap().note().unwrap().last, last);
        }
        std::fs::write(beside(&path), "nothing of ours").unwrap();
        assert_eq!(read(&path).unwrap(), Found::Damaged);
        Pen::open(&path, &Found::Damaged).unwrap().write(note(9)).unwrap();
        assert!(matches!(read(&path).unwrap(), Found::Note(n, Spoiled::No) if n.last == 9));
    }

    #[test]
    fn one_that_was_removed_meanwhile_is_made_anew() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bay.journal");
        let mut pen = Pen::open(&path, &Found::Missing).unwrap();
        pen.write(note(1)).unwrap();
        std::fs::remove_file(beside(&path)).unwrap();
        pen.write(note(2)).unwrap();
        assert!(matches!(read(&path).unwrap(), Found::Note(n, Spoiled::No) if n.last == 2));
    }
}
