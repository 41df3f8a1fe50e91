//! The head of the database file: a hundred bytes of which most can have one value only.
//!
//! In: the first page, how long the file is, which format it should have. Out: what is wrong with it. SQLite refuses a file with
//! some of these bytes changed ("readonly database", a format from the future) and reads nonsense with others, so they are looked at first.
//! Method: "The Database Header" in SQLite's documentation of its file format.

use super::pages::PAGE;
use super::schema::FORMAT;

/// No format will ever have this number; a head that says so is damaged.
/// Own choice: two have been made so far; a changed bit in one of the upper bytes gives more than this.
const NO_FORMAT: u32 = 1_000;

/// What is wrong with the head of a file, if anything. `format` is the one that was noted beside it; `log` whether a log may bring a newer head.
pub(crate) fn fault(bytes: &[u8], length: u64, format: Option<i64>, log: bool) -> Option<String> {
    let word =
        |at: usize| bytes.get(at..at + 4).and_then(|b| b.try_into().ok()).map_or(0, u32::from_be_bytes);
    let is = |at: usize, want: &[u8]| bytes.get(at..at + want.len()) == Some(want);
    let version = |at: usize| matches!(bytes.get(at), Some(1 | 2));
    let page = u16::try_from(PAGE).unwrap_or(0).to_be_bytes();
    let one_value = is(0, b"SQLite format 3\0")
        && is(16, &page)
        && version(18)
        && version(19)
        && is(20, &[0, 64, 32, 32])
        && word(44) <= 4
        && word(52) == 0
        && word(56) <= 1
        && word(64) == 0
        && word(68) == 0
        && bytes.get(72..92).is_some_and(|b| b.iter().all(|b| *b == 0));
    if !one_value {
        return Some("its head is damaged".to_owned());
    }
    let stated = word(60);
    let other = format.is_some_and(|noted| i64::from(stated) != noted && noted <= FORMAT);
    if other || stated >= NO_FORMAT {
        return Some(format!("its head says format {stated}, which it never had"));
    }
    // The number of pages is to be believed where both counts of changes agree.
    let pages = u64::from(word(28)) * PAGE as u64;
    if !log && word(24) == word(92) && pages != length {
        return Some(format!("it has {length} bytes and should have {pages}"));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole() -> Vec<u8> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("db");
        let connection = rusqlite::Connection::open(&path).unwrap();
        connection.pragma_update(None, "journal_mode", "WAL").unwrap();
        super::super::schema::migrate(&connection).unwrap();
        drop(connection);
        std::fs::read(path).unwrap()
    }

    #[test]
    fn a_whole_head_has_no_fault_and_a_bit_where_one_value_is_possible_is_found() {
        let bytes = whole();
        let length = bytes.len() as u64;
        assert_eq!(fault(&bytes, length, Some(2), false), None);
        assert_eq!(fault(&bytes, length, None, false), None);
        assert!(fault(&bytes, length - 1, None, false).is_some());
        assert_eq!(fault(&bytes, length - 1, None, true), None, "the log may bring the rest");
        // Counts of changes and free pages, the schema's and the program's version may have any value.
        let free = [24..28, 32..48, 48..52, 92..100];
        for at in (0..100).filter(|at| !free.iter().any(|range| range.contains(at))) {
            for bit in 0..8 {
                let mut bad = bytes.clone();
                bad[at] ^= 1 << bit;
                let found = fault(&bad, length, Some(2), false);
                // 1 for 2 in the versions would still be read, and 0 for 1 in the encoding.
                let same = matches!((at, bad[at]), (18 | 19, 1) | (59, 0));
                assert_eq!(found.is_none(), same, "byte {at}, bit {bit}: {found:?}");
            }
        }
        assert!(fault(&[], 0, None, false).is_some());
    }

    #[test]
    fn a_format_from_the_future_is_believed_where_nothing_speaks_against_it() {
        let mut bytes = whole();
        let length = bytes.len() as u64;
        bytes[63] = 3;
        assert_eq!(fault(&bytes, length, None, false), None);
        assert_eq!(fault(&bytes, length, Some(3), false), None);
        assert!(fault(&bytes, length, Some(2), false).is_some(), "the note says 2");
        bytes[60] = 222;
        assert!(fault(&bytes, length, None, false).is_some());
    }
}
