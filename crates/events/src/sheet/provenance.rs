//! Where the values of a sheet come from, and which of them nobody has confirmed here.
//!
//! In: the table `[provenance]` and the lists `guessed` and `unconfirmed` of a sheet. Out: [`Provenance`], and what is wrong
//! between them. Not here: what a guess costs (`job`), that no job begins with an unconfirmed value (`job`).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::words;

use super::Sheet;
use super::check::is_key;

words! {
    /// Where a value comes from.
    json Source {
        Measured "measured" "Measured on the vehicle.",
        MakersText "makers-text" "From the maker's service information.",
        Found "found" "Found by the program on the vehicle, and confirmed.",
        Given "given" "Given by a person who did not say from where.",
        Guessed "guessed" "Guessed: nobody gave it.",
    }
}

/// Where one value comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Provenance {
    /// From what.
    pub how: Source,
    /// When, as the one who wrote it writes dates.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// By whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// What else bears it out: a page, a reading.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Sheet {
    /// Whether a value was guessed: it is named, or its whole table is.
    pub fn is_guessed(&self, key: &str) -> bool {
        let table = key.split('.').next().unwrap_or(key);
        self.guessed.iter().any(|named| named == key || named == table)
    }

    /// Where a value comes from, as far as the sheet says.
    pub fn source(&self, key: &str) -> Option<Source> {
        if self.is_guessed(key) {
            return Some(Source::Guessed);
        }
        self.provenance.get(key).map(|p| p.how)
    }
}

/// What must hold: key, whether it does, what was written, what it must be.
pub(super) fn relations(sheet: &Sheet) -> Vec<(&'static str, bool, String, String)> {
    let shown = |found: Option<&String>| found.map_or(String::new(), |named| format!("\"{named}\""));
    let no_key = |keys: &[String]| shown(keys.iter().find(|named| !is_key(named)));
    let long = sheet.provenance.iter().find(|(_, p)| {
        let texts = [(&p.at, 40), (&p.by, 60), (&p.note, 200)];
        texts.iter().any(|(text, most)| text.as_ref().is_some_and(|t| t.chars().count() > *most))
    });
    // What was guessed is named in one list, which everybody reads.
    let apart = sheet.provenance.iter().find(|(key, p)| {
        let named = sheet.guessed.iter().any(|guessed| guessed == *key);
        (p.how == Source::Guessed && !sheet.is_guessed(key)) || (p.how != Source::Guessed && named)
    });
    vec![
        (
            "guessed",
            sheet.guessed.iter().all(|named| is_key(named)),
            no_key(&sheet.guessed),
            "keys of the sheet, like \"standpipe.surface_m2\", or whole tables".to_owned(),
        ),
        (
            "unconfirmed",
            sheet.unconfirmed.iter().all(|named| is_key(named)),
            no_key(&sheet.unconfirmed),
            "keys of the sheet, like \"check.band_c\", or whole tables".to_owned(),
        ),
        (
            "provenance",
            sheet.provenance.keys().all(|named| is_key(named)),
            shown(sheet.provenance.keys().find(|named| !is_key(named))),
            "a table of keys of the sheet, each in quotes, like \"check.band_c\"".to_owned(),
        ),
        (
            "provenance",
            apart.is_none(),
            shown(apart.map(|(key, _)| key)),
            "of one mind with the list `guessed`: a value is called guessed in both or in none".to_owned(),
        ),
        (
            "provenance",
            long.is_none(),
            shown(long.map(|(key, _)| key)),
            "short: at most 40 characters in `at`, 60 in `by`, 200 in `note`".to_owned(),
        ),
    ]
}
