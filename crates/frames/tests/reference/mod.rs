//! Reading the reference tables that lie in `fixtures/reference`.

#![allow(dead_code, reason = "each test uses its own part")]

use std::collections::BTreeMap;
use std::path::Path;

/// One row by column; a missing column panics, which is a broken table.
pub(crate) struct Row(BTreeMap<String, String>);

impl Row {
    /// The text in `column`.
    pub(crate) fn at(&self, column: &str) -> &str {
        &self.0[column]
    }
}

/// All rows of a table.
pub(crate) fn rows(table: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/reference").join(table);
    let mut reader =
        csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let heads = reader.headers().unwrap().clone();
    let record = |record: csv::StringRecord| {
        Row(heads.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect())
    };
    reader.records().map(|row| record(row.unwrap())).collect()
}

/// Pairs of hexadecimal digits, blanks ignored.
pub(crate) fn hex(text: &str) -> Vec<u8> {
    let digits: Vec<u8> = text.bytes().filter(|byte| *byte != b' ').collect();
    digits.chunks(2).map(|pair| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap()).collect()
}

/// `\r`, `\n`, `\0` and `\xHH` to bytes.
pub(crate) fn unescape(text: &str) -> Vec<u8> {
    let mut out = Vec::new();
    let mut rest = text.as_bytes();
    while let Some((&byte, tail)) = rest.split_first() {
        let (value, used) = match (byte, tail.first()) {
            (b'\\', Some(b'r')) => (b'\r', 1),
            (b'\\', Some(b'n')) => (b'\n', 1),
            (b'\\', Some(b'0')) => (0, 1),
            (b'\\', Some(b'x')) => (hex(std::str::from_utf8(&tail[1..3]).unwrap())[0], 3),
            _ => (byte, 0),
        };
        out.push(value);
        rest = &tail[used..];
    }
    out
}
