//! Every procedure's sheet loads, and is what its name says.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "test code")]

use events::Sheet;

#[test]
fn every_sheet_of_a_procedure_loads_and_is_written_out_again() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/sheets/procedures");
    let mut count = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let sheet = Sheet::parse(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let id = path.file_stem().unwrap().to_str().unwrap();
        assert!(text.starts_with(&format!("# {id}: ")), "{id} says what it is in its first line");
        assert!(sheet.name.starts_with("Demo "), "{id} is invented");
        assert_eq!(Sheet::parse(&toml::to_string(&sheet).unwrap()), Ok(sheet), "{id}");
        count += 1;
    }
    assert_eq!(count, 18, "all procedures of the trade");
}
