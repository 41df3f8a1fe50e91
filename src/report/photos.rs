//! The photos of a job, as they stand on its page: the container, the old fluid, the old pan.
//!
//! In: a record and the folder of its journal. Out: pictures as `data:` addresses, so that the page needs nothing beside itself.
//! Only a copy that is still what was told becomes one; the others are named with their hash alone.

use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use service::PhotoState;

use super::record::Record;

/// So much of pictures stands on one page, in bytes.
/// Own choice: a handful of a telephone's photos; a page that is larger is slow to open there.
const MOST_BYTES: u64 = 24 * 1024 * 1024;

/// Puts the pictures into the record, the first told first, as long as there is room.
pub fn take_along(record: &mut Record, folder: &Path) {
    let mut left = MOST_BYTES;
    for photo in &mut record.photos {
        if service::check_photo(folder, &photo.sha256, &photo.name) != PhotoState::Same {
            continue;
        }
        let path = service::photo_path(folder, &photo.sha256, &photo.name);
        let size = std::fs::metadata(&path).map_or(u64::MAX, |m| m.len());
        let Ok(content) = (if size <= left { std::fs::read(&path) } else { continue }) else { continue };
        left -= size;
        photo.picture =
            kind(&content).map(|kind| format!("data:image/{kind};base64,{}", STANDARD.encode(&content)));
    }
}

/// What a picture is, by its first bytes.
/// Source: from memory of ISO/IEC 10918-1 (JPEG), ISO/IEC 15948 (PNG) and RFC 9649 (WebP).
fn kind(content: &[u8]) -> Option<&'static str> {
    match content {
        [0xFF, 0xD8, 0xFF, ..] => Some("jpeg"),
        [0x89, b'P', b'N', b'G', ..] => Some("png"),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Some("webp"),
        _ => None,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests")]
mod tests {
    use super::*;
    use crate::report::record::PhotoLine;

    #[test]
    fn a_photo_that_was_changed_or_is_gone_is_not_shown() {
        let home = tempfile::tempdir().unwrap();
        let picture = home.path().join("container.png");
        std::fs::write(&picture, b"\x89PNG made up").unwrap();
        let kept = service::store_photo(home.path(), &picture).unwrap();
        let line = |sha256: &str| PhotoLine {
            name: "container.png".to_owned(),
            sha256: sha256.to_owned(),
            picture: None,
        };
        let mut record = Record::fold(1, &[]);
        record.photos = vec![line(&kept.sha256), line(&"ab".repeat(32)), line("../container")];
        take_along(&mut record, home.path());
        let shown: Vec<bool> = record.photos.iter().map(|p| p.picture.is_some()).collect();
        assert_eq!(shown, [true, false, false]);
        assert_eq!(record.photos[0].picture.as_deref(), Some("data:image/png;base64,iVBORyBtYWRlIHVw"));

        std::fs::write(service::photo_path(home.path(), &kept.sha256, "container.png"), b"\x89PNG other")
            .unwrap();
        record.photos[0].picture = None;
        take_along(&mut record, home.path());
        assert_eq!(record.photos[0].picture, None, "it is not what was told");
    }
}
