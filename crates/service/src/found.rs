//! What a search for an identifier keeps between two starts: one file beside the journal, written whole and put in place by a rename.
//!
//! In: the text that the search gives. Out: the same text. It is no record: where it is missing or damaged the search begins anew.
//! Not here: what stands in it (`bay/finder.rs`).

use std::path::{Path, PathBuf};

/// The file of one bay.
#[derive(Debug, Clone)]
pub struct KeptSearch {
    path: PathBuf,
}

/// A file that is larger than any search is none.
/// Own choice: far above what all places of a vehicle fill; memory must not be filled by a wrong file.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

impl KeptSearch {
    /// In the folder of the journal of `bay`.
    pub fn of(folder: &Path, bay: &str) -> Self {
        Self { path: folder.join(format!("{bay}.find.json")) }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What was kept the last time.
    pub fn read(&self) -> Option<String> {
        let length = std::fs::metadata(&self.path).ok()?.len();
        if length > MOST_BYTES { None } else { std::fs::read_to_string(&self.path).ok() }
    }

    /// Keeps this in its place.
    ///
    /// # Errors
    /// Where the file cannot be written.
    pub fn write(&self, text: &str) -> std::io::Result<()> {
        if let Some(folder) = self.path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        let new = self.path.with_extension("json.new");
        std::fs::write(&new, text)?;
        std::fs::rename(&new, &self.path)
    }

    /// Nothing is kept any more.
    pub fn remove(&self) {
        let _ = std::fs::remove_file(&self.path);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_is_there_the_next_time() {
        let folder = tempfile::tempdir().unwrap();
        let kept = KeptSearch::of(&folder.path().join("not there yet"), "left");
        assert_eq!(kept.read(), None);
        kept.write("{}").unwrap();
        kept.write("{\"at\":1}").unwrap();
        assert_eq!(kept.read().as_deref(), Some("{\"at\":1}"));
        kept.remove();
        assert_eq!(kept.read(), None);
    }
}
