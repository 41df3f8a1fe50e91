//! Why the daemon cannot start, or had to stop.

use std::path::PathBuf;

/// What went wrong, where, and what to try ([`ServiceError::remedy`]).
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServiceError {
    /// The journal's folder or file cannot be made or opened.
    #[error("cannot open the journal at {}: {why}", path.display())]
    JournalOpen {
        /// The file.
        path: PathBuf,
        /// What the system or the database says.
        why: String,
    },
    /// There is no room for the journal.
    #[error("no room for the journal at {}: {why}", path.display())]
    JournalNoRoom {
        /// The file.
        path: PathBuf,
        /// What the system or the database says.
        why: String,
    },
    /// The journal was removed, moved, replaced or emptied under the daemon.
    #[error("the journal at {} is gone: {why}", path.display())]
    JournalGone {
        /// The file.
        path: PathBuf,
        /// What was found.
        why: String,
    },
    /// A write to the journal failed: nothing can be promised any more.
    #[error("cannot write the journal at {}: {why}", path.display())]
    JournalWrite {
        /// The file.
        path: PathBuf,
        /// What the system or the database says.
        why: String,
    },
    /// A copy of the journal cannot be made.
    #[error("cannot make {}: {why}", path.display())]
    JournalCopy {
        /// The copy, or what it is made of.
        path: PathBuf,
        /// What the system or the database says.
        why: String,
    },
    /// Lines that are no export of a journal.
    #[error("line {line} of the export {what}")]
    Import {
        /// The line, from 1.
        line: usize,
        /// What is wrong with it.
        what: String,
    },
    /// A photo cannot be kept.
    #[error("cannot keep the photo {}: {why}", path.display())]
    Photo {
        /// The file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// The journal was written by a newer program.
    #[error("the journal at {} has format {found}; this program knows up to {known}", path.display())]
    JournalNewer {
        /// The file.
        path: PathBuf,
        /// Its format.
        found: i64,
        /// Ours.
        known: i64,
    },
    /// There is no adapter, and the sheet goes by what only an adapter reads.
    #[error("the sheet goes by the engine's coolant, and without an adapter nobody reads that")]
    NeedsAdapter,
    /// A living daemon has the socket or the journal.
    #[error("another daemon already serves {}", path.display())]
    InUse {
        /// The socket or the journal.
        path: PathBuf,
    },
    /// The folder of the sockets is not ours alone: somebody else could answer in our place.
    #[error("the folder {} is not ours alone: {why}", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
        /// Whose it is, or who may write to it.
        why: String,
    },
    /// The socket cannot be made.
    #[error("cannot listen at {}: {why}", path.display())]
    Socket {
        /// The socket.
        path: PathBuf,
        /// What the system says.
        why: String,
    },
}

impl ServiceError {
    /// What to try about it.
    pub fn remedy(&self) -> String {
        match self {
            Self::JournalOpen { path, .. } => {
                let folder = path.parent().unwrap_or(path);
                format!(
                    "check that {} exists and is yours, or choose another with --journal DIR",
                    folder.display()
                )
            }
            Self::JournalWrite { .. } => {
                "free some disk space, look whether the disk is healthy, and start again; what was accepted before is kept"
                    .to_owned()
            }
            Self::JournalNoRoom { .. } => {
                "free some disk space and start again, or choose another folder with --journal DIR; what is there is kept"
                    .to_owned()
            }
            Self::JournalGone { .. } => {
                "put it back where it was and start again; what was written before it went is in it, and the start tells what is missing"
                    .to_owned()
            }
            Self::JournalCopy { .. } => "name a file that does not exist, where there is room".to_owned(),
            Self::Import { .. } => "use a file that `standpipe jobs export` wrote, unchanged".to_owned(),
            Self::Photo { .. } => "use a picture file of at most 32 MiB: jpg, png or webp".to_owned(),
            Self::JournalNewer { .. } => {
                "use the newer program, or another folder with --journal DIR".to_owned()
            }
            Self::NeedsAdapter => {
                "use a sheet whose signal is `spot` or `fluid`, where a thermometer on the sump can be typed in, or plug an adapter in"
                    .to_owned()
            }
            Self::InUse { .. } => "stop the other one, or choose another bay with --bay NAME".to_owned(),
            Self::Folder { path, .. } => format!(
                "set XDG_RUNTIME_DIR to a folder of your own, or remove {} if you know whose it is, or name a socket \
                 where you trust it with --socket PATH",
                path.display()
            ),
            Self::Socket { path, .. } => {
                format!("check the folder of {}, or choose another with --socket PATH", path.display())
            }
        }
    }
}
