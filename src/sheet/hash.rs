//! The hash of what a sheet says, by which records cite it.
//!
//! In: a sheet. Out: SHA-256 of its values as JSON, in hex. Who wrote a value, and whether it was confirmed here, are no part of it:
//! the same values have the same hash in every workshop.

use events::Sheet;
use sha2::{Digest as _, Sha256};

/// The hash.
pub fn of(sheet: &Sheet) -> String {
    let values =
        Sheet { unconfirmed: Vec::new(), provenance: std::collections::BTreeMap::new(), ..sheet.clone() };
    text(&serde_json::to_string(&values).unwrap_or_default())
}

/// SHA-256 of a text, in hex.
pub fn text(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}
