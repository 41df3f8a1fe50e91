//! Reading a sheet from a file, with an error that names the file.

use std::path::Path;

use events::Sheet;

use crate::failure::{Exit, Failure};

/// Reads the sheet at `path`, or the built-in demonstration where none is named.
pub fn read(path: Option<&Path>) -> Result<Sheet, Failure> {
    let Some(path) = path else { return Ok(rehearsal::embedded::six_speed()) };
    let text = text(path)?;
    Sheet::parse(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("the sheet {}: {e}", path.display()))
            .try_this("compare with the commented example, fixtures/sheets/demo-six-speed.toml")
    })
}

/// Reads a text file.
pub fn text(path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))
}
