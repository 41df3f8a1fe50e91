//! Which daemon is meant on the command line, and what a person is told where it cannot be reached.

use std::path::{Path, PathBuf};

use clap::Args;
use client::{ClientError, Daemon};

use crate::failure::{Exit, Failure};

/// Which daemon is meant.
#[derive(Debug, Args)]
pub struct Where {
    /// The bay's name.
    #[arg(long, default_value = "bay", value_name = "NAME", env = "STANDPIPE_BAY")]
    pub bay: String,
    /// The daemon's socket, where it is not the bay's own.
    #[arg(long, value_name = "PATH", env = "STANDPIPE_SOCKET")]
    pub socket: Option<PathBuf>,
}

impl Where {
    /// The socket that was named, or the bay's.
    pub fn socket(&self) -> PathBuf {
        self.socket.clone().unwrap_or_else(|| service::default_socket(&self.bay))
    }

    /// The same, as a client finds it: a socket that was named is trusted, another only where it is ours. Where there is none of ours
    /// it is that of the bay's service.
    pub fn daemon(&self) -> Daemon {
        match &self.socket {
            Some(named) => Daemon::named(named.clone()),
            None => match served(&self.bay) {
                // Only root makes a folder there: whoever listens in it is believed, as if the person had named it.
                Some(service) if !self.socket().exists() => Daemon::named(service),
                _ => Daemon::own(self.socket()).in_folder(whole_folder),
            },
        }
    }
}

/// The socket of the bay's service, where it runs as one (`crates/xtask/package/standpipe@.service`); a folder that we may not look
/// into has one, too.
fn served(bay: &str) -> Option<PathBuf> {
    let socket = Path::new(SERVICES).join(bay).join("socket");
    socket.try_exists().unwrap_or(true).then_some(socket)
}

/// Where the service manager makes a folder for each bay.
const SERVICES: &str = "/run/standpipe";

/// The bay's own folder must be one in which nobody else can put a socket.
fn whole_folder(socket: &Path) -> Result<(), ClientError> {
    if !service::is_default_folder(socket.parent()) {
        return Ok(());
    }
    service::check_default_folder()
        .map_err(|e| ClientError::Folder { why: e.to_string(), remedy: e.remedy().to_owned() })
}

impl From<ClientError> for Failure {
    fn from(e: ClientError) -> Self {
        use ClientError as E;
        let exit = match &e {
            E::NoSocket { .. }
            | E::Died { .. }
            | E::NoDaemon { .. }
            | E::Silent { .. }
            | E::TooLong { .. }
            | E::Broken { .. } => Exit::Unavailable,
            E::Permission { .. } | E::NotYours { .. } | E::Folder { .. } => Exit::NoPermission,
            E::Protocol { .. } | E::NoStatus { .. } => Exit::Config,
            E::Bye { .. } => Exit::TryAgain,
        };
        Self::new(exit, e.to_string()).try_this(e.remedy())
    }
}
