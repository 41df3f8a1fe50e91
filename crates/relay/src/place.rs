//! How far the broker has been told: kept on disk, so that a relay that starts again goes on there.
//!
//! In: numbers of facts that were sent, and which of them the broker has. Out: the number behind which all must be sent again.
//! Not here: which of them a reader has seen (it removes doubles by `bay` and `seq`).

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use events::Seq;
use serde::{Deserialize, Serialize};

/// See the module's words.
#[derive(Debug)]
pub struct Place {
    file: PathBuf,
    broker: String,
    written: Seq,
    read: Seq,
    /// Sent, and not yet taken.
    waiting: BTreeSet<Seq>,
}

/// The place cannot be kept.
#[derive(Debug, thiserror::Error)]
#[error("how far the broker was told cannot be kept in {}: {error}", file.display())]
pub struct PlaceError {
    file: PathBuf,
    error: io::Error,
}

/// As it lies on disk.
#[derive(Debug, Serialize, Deserialize)]
struct Kept {
    broker: String,
    seq: Seq,
}

impl Place {
    /// As it was left for this broker; where there is none, or another broker's, at the beginning. A file that cannot be read is one
    /// of none: then all is sent again, and readers remove the doubles.
    ///
    /// # Errors
    /// Where its folder cannot be made.
    pub fn open(file: PathBuf, broker: &str) -> Result<Self, PlaceError> {
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder).map_err(|error| PlaceError { file: file.clone(), error })?;
        }
        let kept = fs::read(&file).ok().and_then(|text| serde_json::from_slice::<Kept>(&text).ok());
        let seq = kept.filter(|kept| kept.broker == broker).map_or(Seq(0), |kept| kept.seq);
        Ok(Self { file, broker: broker.to_owned(), written: seq, read: seq, waiting: BTreeSet::new() })
    }

    /// All up to this one the broker has.
    pub fn delivered(&self) -> Seq {
        self.waiting.first().map_or(self.read, |first| Seq(first.0.saturating_sub(1)))
    }

    /// How many are on their way.
    pub(crate) fn under_way(&self) -> usize {
        self.waiting.len()
    }

    /// An event was read that nobody waits for.
    pub(crate) fn passed(&mut self, seq: Seq) {
        self.read = self.read.max(seq);
    }

    /// A fact was sent.
    pub(crate) fn sent(&mut self, seq: Seq) {
        self.read = self.read.max(seq);
        self.waiting.insert(seq);
    }

    /// The broker has it.
    pub(crate) fn taken(&mut self, seq: Seq) {
        self.waiting.remove(&seq);
    }

    /// The connection is gone: what it had not taken is sent again.
    pub(crate) fn broke(&mut self) {
        self.read = self.delivered();
        self.waiting.clear();
    }

    /// The journal has fewer events than were sent: it is another one, and begins anew.
    pub(crate) fn journal_ends_at(&mut self, last: Seq) {
        if last < self.delivered() {
            self.read = Seq(0);
            self.waiting.clear();
        }
    }

    /// Writes it down, where it has moved.
    ///
    /// # Errors
    /// Where the disk takes nothing.
    pub fn keep(&mut self) -> Result<(), PlaceError> {
        let seq = self.delivered();
        if seq == self.written {
            return Ok(());
        }
        let text = serde_json::to_string(&Kept { broker: self.broker.clone(), seq }).unwrap_or_default();
        write(&self.file, &text).map_err(|error| PlaceError { file: self.file.clone(), error })?;
        self.written = seq;
        Ok(())
    }
}

/// Whole or not at all. Not synced: an older place costs doubles, and nothing else.
fn write(file: &Path, text: &str) -> io::Result<()> {
    let fresh = file.with_extension("new");
    fs::File::create(&fresh)?.write_all(text.as_bytes())?;
    fs::rename(&fresh, file)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;

    fn place(folder: &tempfile::TempDir) -> Place {
        Place::open(folder.path().join("deep/bay.relay"), "mqtt://one").unwrap()
    }

    #[test]
    fn what_was_not_taken_is_sent_again_with_all_behind_it() {
        let folder = tempfile::tempdir().unwrap();
        let mut place = place(&folder);
        (1..=5).for_each(|seq| place.sent(Seq(seq)));
        for seq in [1, 2, 4, 5] {
            place.taken(Seq(seq));
        }
        assert_eq!(place.delivered(), Seq(2), "3 is still under way");
        place.broke();
        assert_eq!((place.delivered(), place.under_way()), (Seq(2), 0));
    }

    #[test]
    fn samples_move_it_only_where_no_fact_waits_before_them() {
        let folder = tempfile::tempdir().unwrap();
        let mut place = place(&folder);
        place.passed(Seq(3));
        assert_eq!(place.delivered(), Seq(3));
        place.sent(Seq(4));
        place.passed(Seq(9));
        assert_eq!(place.delivered(), Seq(3));
        place.taken(Seq(4));
        assert_eq!(place.delivered(), Seq(9));
    }

    #[test]
    fn it_is_kept_for_one_broker_and_not_for_another() {
        let folder = tempfile::tempdir().unwrap();
        let mut one = place(&folder);
        one.passed(Seq(7));
        one.keep().unwrap();
        assert_eq!(place(&folder).delivered(), Seq(7));
        let file = folder.path().join("deep/bay.relay");
        assert_eq!(Place::open(file.clone(), "mqtt://two").unwrap().delivered(), Seq(0));
        fs::write(&file, "half a li").unwrap();
        assert_eq!(place(&folder).delivered(), Seq(0), "all again is better than a hole");
    }

    #[test]
    fn a_shorter_journal_is_another_one() {
        let folder = tempfile::tempdir().unwrap();
        let mut place = place(&folder);
        place.passed(Seq(70));
        place.journal_ends_at(Seq(70));
        assert_eq!(place.delivered(), Seq(70));
        place.journal_ends_at(Seq(12));
        assert_eq!(place.delivered(), Seq(0));
    }
}
