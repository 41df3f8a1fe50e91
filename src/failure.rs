//! A failure as the person sees it: what, where, why, what to try; and its exit code after sysexits(3).

use std::fmt;

/// Exit codes after sysexits(3).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// The job did not end with the level set.
    NotSet = 1,
    /// The command line was wrong.
    Usage = 64,
    /// Something given was wrong: a file's content, an amount, a request.
    Data = 65,
    /// A file that does not exist.
    NoInput = 66,
    /// A device or a daemon that does not answer.
    Unavailable = 69,
    /// Something that must not happen.
    Software = 70,
    /// A file that cannot be made.
    CannotCreate = 73,
    /// Reading or writing failed.
    InputOutput = 74,
    /// Try again later.
    TryAgain = 75,
    /// No permission.
    NoPermission = 77,
    /// The configuration does not fit.
    Config = 78,
    /// Ended by Ctrl-C.
    Interrupted = 130,
}

/// What went wrong.
#[derive(Debug)]
pub struct Failure {
    /// The exit code.
    pub exit: Exit,
    /// What, where and why.
    pub what: String,
    /// What to try.
    pub remedy: Option<String>,
}

impl Failure {
    /// A failure with nothing to try.
    pub fn new(exit: Exit, what: impl Into<String>) -> Self {
        Self { exit, what: what.into(), remedy: None }
    }

    /// Adds what to try.
    pub fn try_this(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = Some(remedy.into()).filter(|r| !r.is_empty());
        self
    }

    /// From an I/O error at a path.
    pub fn file(doing: &str, path: &std::path::Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        let (exit, why, remedy) = match error.kind() {
            ErrorKind::NotFound => (Exit::NoInput, "there is no such file".to_owned(), "check the path"),
            ErrorKind::PermissionDenied => {
                (Exit::NoPermission, "permission denied".to_owned(), "check whose it is: `ls -l`")
            }
            ErrorKind::IsADirectory => (Exit::NoInput, "it is a folder".to_owned(), "name a file in it"),
            ErrorKind::InvalidData => {
                (Exit::Data, "it is no UTF-8 text".to_owned(), "check that it is the right file")
            }
            ErrorKind::StorageFull => (Exit::InputOutput, "the disk is full".to_owned(), "free some space"),
            _ => (Exit::InputOutput, error.to_string(), ""),
        };
        Self::new(exit, format!("cannot {doing} {}: {why}", path.display())).try_this(remedy)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "standpipe: {}", self.what)?;
        match &self.remedy {
            Some(remedy) => write!(f, "\n  try: {remedy}"),
            None => Ok(()),
        }
    }
}

impl From<service::ServiceError> for Failure {
    fn from(e: service::ServiceError) -> Self {
        use service::ServiceError as E;
        let exit = match &e {
            E::InUse { .. } => Exit::TryAgain,
            E::Folder { .. } => Exit::NoPermission,
            E::JournalWrite { .. } | E::JournalNoRoom { .. } | E::JournalGone { .. } => Exit::InputOutput,
            E::JournalNewer { .. } | E::NeedsAdapter => Exit::Config,
            E::Import { .. } | E::Photo { .. } => Exit::Data,
            _ => Exit::CannotCreate,
        };
        let remedy = e.remedy();
        Self::new(exit, e.to_string()).try_this(remedy)
    }
}
