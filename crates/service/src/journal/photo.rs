//! Photos: files beside the journal, each named after its hash.
//!
//! In: a picture file. Out: a copy in `FOLDER/photos/`, named `SHA256.EXTENSION`, and the hash that is told to the daemon; the event
//! in the journal is what makes it a part of the job. A file that was changed or is missing is found by its hash.

use std::path::{Path, PathBuf};

use super::{disk, seal};
use crate::error::ServiceError;

/// No photo is larger.
/// Own choice: a telephone's picture has 3 to 12 MB (from memory); it is read whole.
pub const PHOTO_LIMIT: u64 = 32 * 1024 * 1024;
/// Characters of its name that are kept.
/// Own choice: as the job takes (`job`, 80); a telephone's names have some twenty.
const NAME: usize = 80;
/// What a photo may be called at the end, and how such a file begins.
/// Source: common practice: the first bytes by which such files are known, from memory.
const KINDS: &[(&str, &[u8])] = &[
    ("jpg", &[0xFF, 0xD8, 0xFF]),
    ("jpeg", &[0xFF, 0xD8, 0xFF]),
    ("png", &[0x89, b'P', b'N', b'G']),
    ("webp", b"RIFF"),
];

/// A photo that lies beside the journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// SHA-256 of the file, in hex digits.
    pub sha256: String,
    /// What it was called.
    pub name: String,
}

/// What became of a photo that a job names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PhotoState {
    /// There, and what it was.
    Same,
    /// There, with other content.
    Changed,
    /// Not there.
    Missing,
}

/// Copies a picture into the folder of photos, on disk before it returns.
///
/// # Errors
/// [`ServiceError::Photo`]: not a picture by name and first bytes, too large, unreadable, or no room for the copy.
pub fn store_photo(folder: &Path, file: &Path) -> Result<Photo, ServiceError> {
    let failed = |why: String| ServiceError::Photo { path: file.to_path_buf(), why };
    let name = file.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let ending =
        extension(&name).ok_or_else(|| failed("it is no jpg, png or webp by its name".to_owned()))?;
    let size = std::fs::metadata(file).map_err(|e| failed(e.to_string()))?.len();
    if size > PHOTO_LIMIT {
        return Err(failed(format!("it is larger than {} MiB", PHOTO_LIMIT / 1024 / 1024)));
    }
    let content = std::fs::read(file).map_err(|e| failed(e.to_string()))?;
    if !KINDS.iter().any(|(kind, begins)| *kind == ending && content.starts_with(begins)) {
        return Err(failed(format!("it does not begin like a {ending} file")));
    }
    let hash = seal::of_reader(&mut content.as_slice()).map_err(|e| failed(e.to_string()))?;
    let sha256 = seal::hex(&hash);
    let photos = folder.join("photos");
    disk::make_folder(&photos).map_err(|e| failed(format!("no folder for its copy: {e}")))?;
    let copy = photos.join(format!("{sha256}.{ending}"));
    if !copy.exists() {
        let unfinished = photos.join(format!("{sha256}.part"));
        let written = disk::remove(&unfinished)
            .and_then(|()| disk::private().open(&unfinished))
            .and_then(|mut file| {
                std::io::Write::write_all(&mut file, &content).and_then(|()| disk::sync(&file))
            })
            .and_then(|()| std::fs::rename(&unfinished, &copy))
            .and_then(|()| disk::sync_folder_of(&copy));
        if let Err(e) = written {
            let _ = std::fs::remove_file(&unfinished);
            return Err(failed(format!("cannot copy it: {e}")));
        }
    }
    Ok(Photo { sha256, name: name.chars().take(NAME).collect() })
}

/// Where the copy of a photo lies.
pub fn photo_path(folder: &Path, sha256: &str, name: &str) -> PathBuf {
    folder.join("photos").join(format!("{sha256}.{}", extension(name).unwrap_or_default()))
}

/// Whether the copy is still what it was.
pub fn check_photo(folder: &Path, sha256: &str, name: &str) -> PhotoState {
    // What an imported journal says is not taken for a path.
    if sha256.len() != 64 || !sha256.bytes().all(|b| b.is_ascii_hexdigit()) {
        return PhotoState::Missing;
    }
    let Ok(mut file) = std::fs::File::open(photo_path(folder, sha256, name)) else {
        return PhotoState::Missing;
    };
    match seal::of_reader(&mut file) {
        Ok(hash) if seal::hex(&hash) == sha256 => PhotoState::Same,
        _ => PhotoState::Changed,
    }
}

fn extension(name: &str) -> Option<String> {
    let ending = Path::new(name).extension()?.to_str()?.to_ascii_lowercase();
    KINDS.iter().any(|(kind, _)| *kind == ending).then_some(ending)
}
