//! The write-ahead log as bytes: which of its pages SQLite will take, and whether there are more that it will pass over.
//!
//! In: the log's file, before SQLite opens it. Out: every frame with its page and its place. SQLite takes frames from the front
//! until the first whose checksum does not fit, and only up to the last that ends a transaction; what stands behind that, it overwrites without a
//! word. So it is looked for here. Method: "WAL File Format" in SQLite's documentation of its file format.
//!
//! Not here: what the pages hold (`pages.rs`).

use std::fs::File;
use std::io::BufReader;

use super::pages::PAGE;

/// Lengths of the file's head and of the head of each page in it.
/// Source: "WAL File Format" in SQLite's documentation.
const HEADER: usize = 32;
pub(crate) const FRAME_HEADER: usize = 24;
/// The magic number without its last bit, which tells the order of bytes in the checksums; and the version of the form.
/// Source: "WAL File Format" in SQLite's documentation.
const MAGIC: u32 = 0x377F_0682;
const VERSION: u32 = 3_007_000;

/// One page in the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Frame {
    /// The number of the page in the database, from 1.
    pub(crate) page: u32,
    /// Where the page's bytes begin in the log.
    pub(crate) at: u64,
}

/// A log as it was found.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Log {
    /// All frames that may belong to this log, in order; of older turns too where the header cannot be read.
    pub(crate) frames: Vec<Frame>,
    /// So many of them SQLite will take.
    pub(crate) taken: usize,
}

impl Log {
    /// Whether there is something that SQLite will pass over.
    pub(crate) fn has_more(&self) -> bool {
        self.frames.len() > self.taken
    }

    /// Reads a log, frame by frame.
    pub(crate) fn of(file: &File) -> std::io::Result<Self> {
        let mut log = Self::default();
        let mut reader = BufReader::with_capacity(64 * 1024, file);
        let mut header = [0_u8; HEADER];
        if fill(&mut reader, &mut header)? < HEADER {
            return Ok(log);
        }
        let start = Header::of(&header);
        let mut sum = start.map_or(Sum::default(), |h| h.sum);
        let mut fits = start.is_some();
        let mut at = HEADER as u64;
        let mut frame = vec![0_u8; FRAME_HEADER + PAGE];
        loop {
            let got = fill(&mut reader, &mut frame)?;
            // A page that was cut short may hold something all the same.
            if got <= FRAME_HEADER {
                return Ok(log);
            }
            frame.get_mut(got..).unwrap_or_default().fill(0);
            let (head, page) = frame.split_at(FRAME_HEADER);
            let this_turn = start.is_none_or(|h| word(head, 8) == h.salts.0 && word(head, 12) == h.salts.1);
            if this_turn {
                log.frames.push(Frame { page: word(head, 0), at: at + FRAME_HEADER as u64 });
            }
            if let Some(header) = start.filter(|_| fits) {
                sum.add(head.get(..8).unwrap_or_default(), header.big);
                sum.add(page, header.big);
                fits = this_turn
                    && word(head, 0) != 0
                    && sum == Sum(word(head, 16), word(head, 20))
                    && got == frame.len();
                if fits && word(head, 4) != 0 {
                    log.taken = log.frames.len();
                }
            }
            at += frame.len() as u64;
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Header {
    big: bool,
    salts: (u32, u32),
    sum: Sum,
}

impl Header {
    /// `None` where SQLite will take nothing of the log.
    fn of(bytes: &[u8; HEADER]) -> Option<Self> {
        let magic = word(bytes, 0);
        let big = magic & 1 == 1;
        let mut sum = Sum::default();
        sum.add(bytes.get(..24)?, big);
        let fits = magic & !1 == MAGIC
            && word(bytes, 4) == VERSION
            && word(bytes, 8) == PAGE as u32
            && sum == Sum(word(bytes, 24), word(bytes, 28));
        fits.then_some(Self { big, salts: (word(bytes, 16), word(bytes, 20)), sum })
    }
}

/// The running checksum: a Fibonacci sum over pairs of words.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Sum(u32, u32);

impl Sum {
    fn add(&mut self, bytes: &[u8], big: bool) {
        for pair in bytes.chunks_exact(8) {
            let (a, b) = (word(pair, 0), word(pair, 4));
            let (a, b) = if big { (a, b) } else { (a.swap_bytes(), b.swap_bytes()) };
            self.0 = self.0.wrapping_add(a).wrapping_add(self.1);
            self.1 = self.1.wrapping_add(b).wrapping_add(self.0);
        }
    }
}

/// Four bytes, high byte first; zero behind the end.
fn word(bytes: &[u8], at: usize) -> u32 {
    bytes.get(at..at + 4).and_then(|b| b.try_into().ok()).map_or(0, u32::from_be_bytes)
}

/// Fills as much as there is; gives how much.
fn fill(reader: &mut impl std::io::Read, into: &mut [u8]) -> std::io::Result<usize> {
    let mut got = 0;
    while let Some(rest) = into.get_mut(got..).filter(|rest| !rest.is_empty()) {
        match reader.read(rest) {
            Ok(0) => break,
            Ok(n) => got += n,
            Err(e) if e.kind() == std::io::ErrorKind::Interrupted => {}
            Err(e) => return Err(e),
        }
    }
    Ok(got)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A log with three transactions, as SQLite wrote it.
    fn written() -> Vec<u8> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("db");
        let connection = rusqlite::Connection::open(&path).unwrap();
        connection.pragma_update(None, "journal_mode", "WAL").unwrap();
        connection
            .execute_batch("CREATE TABLE t (x); INSERT INTO t VALUES (1); INSERT INTO t VALUES (2);")
            .unwrap();
        std::fs::read(folder.path().join("db-wal")).unwrap()
    }

    fn look(bytes: &[u8]) -> Log {
        use std::io::{Seek as _, Write as _};
        let mut file = tempfile::tempfile().unwrap();
        file.write_all(bytes).unwrap();
        file.rewind().unwrap();
        Log::of(&file).unwrap()
    }

    #[test]
    fn what_sqlite_wrote_is_taken_whole_and_one_bad_bit_leaves_a_rest() {
        let bytes = written();
        let size = FRAME_HEADER + PAGE;
        let frames = (bytes.len() - HEADER) / size;
        let whole = look(&bytes);
        assert_eq!((whole.frames.len(), whole.taken, whole.has_more()), (frames, frames, false));
        assert!(frames >= 4);
        for at in [16, 24, HEADER + 5, HEADER + 9, HEADER + 17, HEADER + 100, HEADER + size + 30] {
            let mut bad = bytes.clone();
            bad[at] ^= 0x10;
            let log = look(&bad);
            assert!(log.has_more(), "byte {at}: {log:?}");
            assert!(log.taken <= 2, "byte {at}: {log:?}");
        }
        let last = HEADER + (frames - 1) * size + 60;
        let mut bad = bytes.clone();
        bad[last] ^= 1;
        let log = look(&bad);
        assert!(log.has_more() && log.taken >= frames - 2, "{log:?}");
        for cut in [0, 10, HEADER, HEADER + 10] {
            assert_eq!(look(&bytes[..cut]), Log::default(), "cut at {cut}");
        }
        let cut = look(&bytes[..HEADER + size + 900]);
        assert_eq!((cut.frames.len(), cut.has_more()), (2, true), "{cut:?}");
    }

    #[test]
    fn frames_of_an_older_turn_are_no_rest() {
        let mut bytes = written();
        let size = FRAME_HEADER + PAGE;
        let at = bytes.len() - size;
        // The last frame carries another salt, as one that was left by an earlier turn.
        bytes[at + 8] ^= 0xFF;
        let log = look(&bytes);
        assert_eq!(log.frames.len() + 1, (bytes.len() - HEADER) / size);
        assert!(!log.has_more(), "each insert was a transaction of its own: {log:?}");
    }
}
