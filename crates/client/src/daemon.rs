//! A daemon by its socket: whose word is taken for its, and connecting.

use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::time::Duration;

use tokio::net::UnixStream;

use crate::error::ClientError;

/// Says why no socket in the folder of this one is to be believed.
type FolderCheck = fn(&Path) -> Result<(), ClientError>;

/// A daemon, by its socket.
#[derive(Debug, Clone)]
pub struct Daemon {
    socket: PathBuf,
    trust: Trust,
    folder: Option<FolderCheck>,
}

/// Whose word is taken for a daemon's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Trust {
    /// That of whoever listens there: the person named the socket.
    Named,
    /// Only our own and root's: the path is one that anybody can guess.
    Own,
}

impl Trust {
    /// Whether this peer is believed by this user.
    const fn holds(self, peer: u32, own: u32) -> bool {
        matches!(self, Self::Named) || peer == own || peer == ROOT
    }
}

/// Who may do everything anyway.
/// By definition of Unix.
const ROOT: u32 = 0;

impl Daemon {
    /// One at a path that can be guessed: only our own or root's is believed.
    pub const fn own(socket: PathBuf) -> Self {
        Self { socket, trust: Trust::Own, folder: None }
    }

    /// One that a person named.
    pub const fn named(socket: PathBuf) -> Self {
        Self { socket, trust: Trust::Named, folder: None }
    }

    /// The same, and before each connection the folder is looked at.
    #[must_use]
    pub fn in_folder(self, check: FolderCheck) -> Self {
        Self { folder: Some(check), ..self }
    }

    /// Where.
    pub(crate) fn at(&self) -> String {
        self.socket.display().to_string()
    }

    /// Connects; while it is crowded, a few times.
    pub(crate) async fn connect(&self) -> Result<UnixStream, ClientError> {
        if let Some(check) = self.folder {
            check(&self.socket)?;
        }
        let mut tries = 0;
        let stream = loop {
            match UnixStream::connect(&self.socket).await {
                // More came at once than it has taken in yet.
                Err(e) if e.kind() == ErrorKind::WouldBlock && tries < TRIES => {
                    tries += 1;
                    tokio::time::sleep(CROWDED * tries).await;
                }
                connected => break connected.map_err(|e| self.unreachable(e))?,
            }
        };
        self.is_trusted(&stream)?;
        Ok(stream)
    }

    /// Nobody else's `go` is shown.
    fn is_trusted(&self, stream: &UnixStream) -> Result<(), ClientError> {
        let own = rustix::process::geteuid().as_raw();
        let peer = stream.peer_cred().map_err(|e| self.unreachable(e))?.uid();
        if self.trust.holds(peer, own) {
            return Ok(());
        }
        Err(ClientError::NotYours { at: self.at(), peer, own })
    }

    fn unreachable(&self, error: io::Error) -> ClientError {
        let at = self.at();
        match error.kind() {
            ErrorKind::NotFound => ClientError::NoSocket { at },
            ErrorKind::ConnectionRefused => ClientError::Died { at },
            ErrorKind::PermissionDenied => ClientError::Permission { at },
            _ => ClientError::Broken { at, error },
        }
    }
}

/// While it is crowded, it is tried so often …
/// Own choice: with growing pauses some 1.5 s in all; a start that takes longer is told as one.
const TRIES: u32 = 8;
/// … with pauses that grow by this much.
/// Own choice: a greeting takes milliseconds, so that the next one finds room; longer is felt at the terminal.
const CROWDED: Duration = Duration::from_millis(50);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_socket_of_another_user_is_not_believed() {
        for (trust, peer, own, want) in [
            (Trust::Own, 1_000, 1_000, true),
            (Trust::Own, 0, 1_000, true),
            (Trust::Own, 1_001, 1_000, false),
            (Trust::Own, 65_534, 0, false),
            (Trust::Named, 1_001, 1_000, true),
        ] {
            assert_eq!(trust.holds(peer, own), want, "{trust:?}: {peer} for {own}");
        }
    }
}
