//! Why a journal's file was not opened, as it is told, and whether it is damage.
//!
//! In: what SQLite and the system say. Out: an error for people. Not here: what is done about it (`open.rs`, `repair.rs`).

use std::path::Path;

use super::schema::FORMAT;
use crate::error::ServiceError;

/// Why a file was not opened.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Unopened {
    #[error("format {0}")]
    Newer(i64),
    #[error("{0}")]
    Damaged(String),
    #[error(transparent)]
    Database(#[from] rusqlite::Error),
    #[error(transparent)]
    File(#[from] std::io::Error),
}

impl Unopened {
    /// As it is told, with the path.
    pub(crate) fn told(self, path: &Path) -> ServiceError {
        let path = path.to_path_buf();
        let full = match &self {
            Self::Newer(found) => return ServiceError::JournalNewer { path, found: *found, known: FORMAT },
            Self::File(e) => is_full(e),
            Self::Database(e) => cannot_grow(e),
            Self::Damaged(_) => false,
        };
        let why = self.to_string();
        if full { ServiceError::JournalNoRoom { path, why } } else { ServiceError::JournalOpen { path, why } }
    }

    /// Whether what was read is not what a journal can hold. Our own statements are the same at every start, so whatever else SQLite has
    /// against them comes from the file.
    pub(super) fn is_damage(&self) -> bool {
        use rusqlite::ErrorCode as C;
        match self {
            Self::Damaged(_) => true,
            Self::Newer(_) | Self::File(_) => false,
            Self::Database(e) => !matches!(
                e.sqlite_error_code(),
                Some(
                    C::CannotOpen
                        | C::PermissionDenied
                        | C::ReadOnly
                        | C::DiskFull
                        | C::DatabaseBusy
                        | C::DatabaseLocked
                        | C::SystemIoFailure
                        | C::OutOfMemory
                        | C::FileLockingProtocolFailed
                        | C::NoLargeFileSupport
                        | C::OperationInterrupted
                )
            ),
        }
    }
}

/// Whether there is no room for a file to grow.
fn is_full(e: &std::io::Error) -> bool {
    use std::io::ErrorKind as K;
    matches!(e.kind(), K::StorageFull | K::QuotaExceeded | K::FileTooLarge)
}

/// Whether SQLite could not write: a full disk, or one that takes no more for another reason.
pub(crate) fn cannot_grow(e: &rusqlite::Error) -> bool {
    use rusqlite::ffi;
    let rusqlite::Error::SqliteFailure(code, _) = e else { return false };
    code.code == rusqlite::ErrorCode::DiskFull
        || [ffi::SQLITE_IOERR_WRITE, ffi::SQLITE_IOERR_TRUNCATE, ffi::SQLITE_IOERR_SHMSIZE]
            .contains(&code.extended_code)
}
