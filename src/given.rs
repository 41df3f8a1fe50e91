//! The files that are given to us, sheets and recorded warm-ups, with errors that name the file.

use std::path::Path;

use events::Sheet;
use rehearsal::Warmup;

use crate::failure::{Exit, Failure};

/// Reads the sheet at `path`, or the built-in demonstration where none is named.
pub fn sheet(path: Option<&Path>) -> Result<Sheet, Failure> {
    let Some(path) = path else { return Ok(rehearsal::embedded::six_speed()) };
    let text = text(path)?;
    Sheet::parse(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("the sheet {}: {e}", path.display()))
            .try_this("compare with the commented example, fixtures/sheets/demo-six-speed.toml")
    })
}

/// Reads a recorded warm-up.
pub fn warmup(path: &Path) -> Result<Warmup, Failure> {
    let text = text(path)?;
    Warmup::parse(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("the recorded warm-up {}: {e}", path.display()))
            .try_this("it needs a header line with `t_s` and `coolant_c`; see fixtures/warmups/README.md")
    })
}

/// Reads a text file.
fn text(path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))
}
