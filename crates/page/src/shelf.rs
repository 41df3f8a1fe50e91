//! Who brings jobs, reports and plans.
//!
//! In: nothing. Out: a trait that the program fills. Not here: how they are served (`routes.rs`).

use events::Sheet;
use serde::Serialize;

/// A job in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct JobRow {
    /// Its number.
    pub job: u64,
    /// When it began, RFC 3339.
    pub started: String,
    /// Which vehicle, where it was told, and the sheet's name.
    pub sheet: String,
    /// What came of it, in a sentence.
    pub says: String,
}

/// Where reports and plans come from. Called on a thread that may block.
pub trait Shelf: Send + Sync + 'static {
    /// The last jobs, newest first.
    ///
    /// # Errors
    /// In a sentence.
    fn jobs(&self) -> Result<Vec<JobRow>, String>;
    /// The report of one job as a whole HTML page.
    ///
    /// # Errors
    /// In a sentence.
    fn report(&self, job: u64) -> Result<String, String>;
    /// The plan for a sheet, as text.
    ///
    /// # Errors
    /// In a sentence.
    fn plan(&self, sheet: &Sheet) -> Result<String, String>;
}
