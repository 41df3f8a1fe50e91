//! Who brings jobs, reports and plans.
//!
//! In: nothing. Out: a trait that the program fills. Not here: how they are served (`routes.rs`).

use events::Sheet;
use serde::{Deserialize, Serialize};
use words::Lang;

/// A job in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct JobRow {
    /// Its number.
    pub job: u64,
    /// When it began, RFC 3339.
    pub started: String,
    /// The day on which it began, as people of the language write it, in the machine's zone.
    pub day: String,
    /// Which vehicle, where it was told, and the sheet's name.
    pub sheet: String,
    /// What came of it, in a sentence.
    pub says: String,
}

/// A sheet in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetRow {
    /// Its file, without the ending.
    pub file: String,
    /// What it is called, or how far it has come.
    pub says: String,
}

/// What the page asks of a sheet: an answer, or the question to a value.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetAsk {
    /// Its file, without the ending.
    pub file: String,
    /// The key of the value that is answered, or to be asked for.
    #[serde(default)]
    pub key: Option<String>,
    /// What was typed; absent: nothing is answered.
    #[serde(default)]
    pub said: Option<String>,
    /// What else is done with it.
    #[serde(default)]
    pub act: Option<SheetAct>,
}

/// What is done with a whole sheet.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub enum SheetAct {
    /// A person has read this value beside the maker's text.
    Confirm {
        /// Its key.
        key: String,
        /// Who.
        by: String,
    },
    /// What another workshop shared becomes this sheet. Nothing of it gates yet.
    Take {
        /// The shared file.
        text: String,
    },
    /// One file for another workshop is wanted.
    Share,
}

/// Where reports and plans come from. Called on a thread that may block.
pub trait Shelf: Send + Sync + 'static {
    /// The last jobs, newest first, in the language.
    ///
    /// # Errors
    /// In a sentence.
    fn jobs(&self, lang: Lang) -> Result<Vec<JobRow>, String>;
    /// The report of one job as a whole HTML page, in the language.
    ///
    /// # Errors
    /// In a sentence.
    fn report(&self, job: u64, lang: Lang) -> Result<String, String>;
    /// The plan for a sheet, as text in the language.
    ///
    /// # Errors
    /// In a sentence.
    fn plan(&self, sheet: &Sheet, lang: Lang) -> Result<String, String>;
    /// The sheets that were made on the page, and those that were begun.
    ///
    /// # Errors
    /// In a sentence.
    fn sheets(&self) -> Result<Vec<SheetRow>, String> {
        Err("No sheets are made here.".to_owned())
    }
    /// Takes an answer; gives what is asked now, as JSON.
    ///
    /// # Errors
    /// In a sentence.
    fn sheet(&self, ask: &SheetAsk) -> Result<String, String> {
        let _ = ask;
        Err("No sheets are made here.".to_owned())
    }
}
