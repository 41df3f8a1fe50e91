//! The hash chain: each batch is sealed over its events and the seal before it, so that a later edit shows.
//!
//! ```text
//!  seal(0) = 32 zero bytes
//!  seal(n) = SHA-256( seal(n-1) | for each event of the batch: seq, length of its line, the line )
//! ```
//!
//! Numbers and lengths are eight bytes, high byte first. An edited, added or missing event breaks its batch's seal and says where. Somebody who
//! writes all later seals anew as well is found out by a seal that was printed: the report of a job carries its own.
//! Source of the hash: FIPS 180-4, by the `sha2` crate.

use rusqlite::{Connection, OptionalExtension as _};
use sha2::{Digest as _, Sha256};

pub(crate) type Hash = [u8; 32];

/// Before the first batch.
/// By definition: nothing stands before it.
pub(crate) const START: Hash = [0; 32];

/// The seal over a batch that follows `before`.
pub(crate) fn next<'a>(before: &Hash, lines: impl Iterator<Item = (u64, &'a [u8])>) -> Hash {
    let mut sealer = Sealer::after(before);
    for (seq, line) in lines {
        sealer.event(seq, line);
    }
    sealer.seal()
}

/// A seal in the making.
pub(crate) struct Sealer(Sha256);

impl Sealer {
    pub(crate) fn after(before: &Hash) -> Self {
        let mut hash = Sha256::new();
        hash.update(before);
        Self(hash)
    }

    pub(crate) fn event(&mut self, seq: u64, line: &[u8]) {
        self.0.update(seq.to_be_bytes());
        self.0.update(u64::try_from(line.len()).unwrap_or(u64::MAX).to_be_bytes());
        self.0.update(line);
    }

    pub(crate) fn seal(self) -> Hash {
        self.0.finalize().into()
    }
}

/// The last seal of a file, and the number of the last event under it.
pub(crate) fn head(connection: &Connection) -> rusqlite::Result<(u64, Hash)> {
    before(connection, i64::MAX.unsigned_abs())
}

/// The seal before event `seq`, and the number of the last event under it.
pub(crate) fn before(connection: &Connection, seq: u64) -> rusqlite::Result<(u64, Hash)> {
    let sql = "SELECT last, hash FROM seal WHERE last < ?1 ORDER BY last DESC LIMIT 1";
    let found =
        connection.query_row(sql, [seq], |row| Ok((row.get(0)?, stored(row.get_ref(1)?)))).optional()?;
    Ok(found.unwrap_or((0, START)))
}

/// A seal as it stands in its table.
pub(crate) fn stored(value: rusqlite::types::ValueRef<'_>) -> Hash {
    of_bytes(value.as_bytes().unwrap_or_default())
}

/// Bytes of another length are no seal of ours and equal none.
pub(crate) fn of_bytes(bytes: &[u8]) -> Hash {
    bytes.try_into().unwrap_or([0xFF; 32])
}

/// In hex digits, lower case.
pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

/// The SHA-256 of a file's content, read piece by piece.
pub(crate) fn of_reader(reader: &mut dyn std::io::Read) -> std::io::Result<Hash> {
    let mut hash = Sha256::new();
    let mut buffer = [0_u8; 16 * 1024];
    loop {
        let n = reader.read(&mut buffer)?;
        let Some(piece) = buffer.get(..n).filter(|p| !p.is_empty()) else { break };
        hash.update(piece);
    }
    Ok(hash.finalize().into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_that_of_the_standard() {
        // FIPS 180-4, example "abc".
        let hash = of_reader(&mut "abc".as_bytes()).unwrap_or_default();
        assert_eq!(hex(&hash), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn a_line_cannot_be_moved_into_its_neighbour() {
        let over = |before: &Hash, lines: [(u64, &str); 2]| {
            next(before, lines.iter().map(|(seq, line)| (*seq, line.as_bytes())))
        };
        let one = over(&START, [(1, "ab"), (2, "c")]);
        assert_ne!(one, over(&START, [(1, "a"), (2, "bc")]));
        assert_ne!(one, over(&START, [(1, "ab"), (3, "c")]));
        assert_ne!(one, over(&one, [(1, "ab"), (2, "c")]));
    }
}
