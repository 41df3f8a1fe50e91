//! Learning rates from recorded warm-ups, and scoring the forecast on days that were not learned from.
//!
//! In: a folder of recordings. Out: `crates/gate/src/forecast/learned/fitted.rs` (`fit`), tables on stdout (`score`).
//! Not here: the model itself (`gate::learned`), the gate.

mod baseline;
mod figures;
mod fit;
mod recording;
mod score;
mod table;

use std::path::{Path, PathBuf};

use crate::{Done, root};

/// Where the committed recordings are.
pub fn climbs() -> PathBuf {
    root().join("fixtures/warmups/climbs")
}

/// Fits on every recording and writes the figures into the gate.
pub fn fit_and_write(folder: &Path) -> Done {
    let recordings = recording::read(folder)?;
    let learned = fit::fit(&recordings.iter().collect::<Vec<_>>());
    let text = fit::source(&learned, recordings.len());
    let path = root().join("crates/gate/src/forecast/learned/fitted.rs");
    std::fs::write(&path, text).map_err(|e| format!("{}: {e}", path.display()))?;
    println!("fitted on {} recordings: {}", recordings.len(), path.display());
    Ok(())
}

/// Scores the forecast: fitted on all days but one, scored on that one; or as it is built in.
pub fn score(folder: &Path, fitted: score::Fitted) -> Done {
    let recordings = recording::read(folder)?;
    score::score(&recordings, fitted)
}

pub use fit::fit;
pub use recording::{Recording, read};
pub use score::{Case, Fitted, TARGETS, cases};
