//! Why there is no line from a daemon, and what to try.

use std::io;

use crate::LONGEST_LINE;

/// What went wrong between a front end and the daemon.
#[derive(Debug, thiserror::Error)]
pub enum ClientError {
    /// There is no socket.
    #[error("no daemon at {at}: there is no such socket")]
    NoSocket {
        /// Where.
        at: String,
    },
    /// Nobody listens any more.
    #[error("no daemon at {at}: the one that made this socket has died")]
    Died {
        /// Where.
        at: String,
    },
    /// The socket is not for this user.
    #[error("no permission to use {at}")]
    Permission {
        /// Where.
        at: String,
    },
    /// The folder is one in which others could put a socket.
    #[error("{why}")]
    Folder {
        /// What, where and why.
        why: String,
        /// What to try.
        remedy: String,
    },
    /// Another user's program listens.
    #[error("what listens at {at} belongs to user {peer}, and you are user {own}: it is not your daemon")]
    NotYours {
        /// Where.
        at: String,
        /// Whose it is.
        peer: u32,
        /// Who asks.
        own: u32,
    },
    /// The daemon speaks another version of the protocol.
    #[error("the daemon at {at} speaks protocol {theirs}, this program {}", events::PROTOCOL)]
    Protocol {
        /// Where.
        at: String,
        /// Its number.
        theirs: u32,
    },
    /// What listens does not begin as a daemon does.
    #[error("what listens at {at} is no standpipe daemon")]
    NoDaemon {
        /// Where.
        at: String,
    },
    /// It says nothing.
    #[error("what listens at {at} says nothing")]
    Silent {
        /// Where.
        at: String,
    },
    /// It is older than this program and does not know the question.
    #[error("the daemon at {at} is an older one, which tells no status")]
    NoStatus {
        /// Where.
        at: String,
    },
    /// The daemon ends the connection.
    #[error("the daemon says: {reason}")]
    Bye {
        /// Why.
        reason: String,
    },
    /// A line that no daemon of ours sends.
    #[error("a line from the daemon at {at} is longer than {LONGEST_LINE} bytes")]
    TooLong {
        /// Where.
        at: String,
    },
    /// Reading or writing failed.
    #[error("the daemon's socket at {at} failed: {error}")]
    Broken {
        /// Where.
        at: String,
        /// How.
        error: io::Error,
    },
}

impl ClientError {
    /// What to try; empty where nothing is to be done but to try again.
    pub fn remedy(&self) -> &str {
        match self {
            Self::NoSocket { .. } => {
                "start one with `standpipe serve`, or name its socket with --socket PATH or --bay NAME"
            }
            Self::Died { .. } => "start it again with `standpipe serve`; the job goes on where it was",
            Self::Permission { .. } => {
                "run it as the daemon's user, or start the daemon with --socket-group GROUP"
            }
            Self::Folder { remedy, .. } => remedy,
            Self::NotYours { .. } => "if you trust it, name it: --socket PATH (or STANDPIPE_SOCKET)",
            Self::Protocol { .. } => "use the same version of standpipe for both",
            Self::NoStatus { .. } => "start it again, between two jobs: then it is of this version",
            Self::NoDaemon { .. } | Self::TooLong { .. } => "look which program it is: `ss -xlp`",
            Self::Silent { .. } | Self::Bye { .. } | Self::Broken { .. } => "",
        }
    }

    /// Whether only a person can change it: it is asked less often then, and said.
    pub const fn needs_a_hand(&self) -> bool {
        matches!(
            self,
            Self::Bye { .. }
                | Self::Permission { .. }
                | Self::NotYours { .. }
                | Self::Protocol { .. }
                | Self::Folder { .. }
        )
    }
}
