//! A client of the daemon's socket, for `events`, `tell` and `rehearse`.

use std::path::{Path, PathBuf};
use std::time::Duration;

use clap::Args;
use events::{Line, Seq, Snapshot, Told, Word};
use tokio::io::AsyncWriteExt as _;
use tokio::net::UnixStream;
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};

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

    /// The same, as a client finds it.
    pub fn daemon(&self) -> Daemon {
        let trust = if self.socket.is_some() { Trust::Named } else { Trust::Own };
        Daemon { socket: self.socket(), trust }
    }
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
const ROOT: u32 = 0;

/// A daemon, by its socket.
#[derive(Debug, Clone)]
pub struct Daemon {
    socket: PathBuf,
    trust: Trust,
}

impl Daemon {
    /// One whose socket we made ourselves.
    pub fn at(socket: PathBuf) -> Self {
        Self { socket, trust: Trust::Own }
    }

    /// Connects; while it is crowded, a few times.
    async fn connect(&self) -> Result<UnixStream, Failure> {
        if self.trust == Trust::Own {
            whole_folder(&self.socket)?;
        }
        let mut tries = 0;
        let stream = loop {
            match UnixStream::connect(&self.socket).await {
                // More came at once than it has taken in yet.
                Err(e) if e.kind() == std::io::ErrorKind::WouldBlock && tries < TRIES => {
                    tries += 1;
                    tokio::time::sleep(CROWDED * tries).await;
                }
                connected => break connected.map_err(|e| no_daemon(&self.socket, &e))?,
            }
        };
        self.is_trusted(&stream)?;
        Ok(stream)
    }

    /// Nobody else's `go` is shown.
    fn is_trusted(&self, stream: &UnixStream) -> Result<(), Failure> {
        let own = rustix::process::geteuid().as_raw();
        let peer = stream.peer_cred().map_err(|e| no_daemon(&self.socket, &e))?.uid();
        if self.trust.holds(peer, own) {
            return Ok(());
        }
        let what = format!(
            "what listens at {} belongs to user {peer}, and you are user {own}: it is not your daemon",
            self.socket.display()
        );
        Err(Failure::new(Exit::NoPermission, what)
            .try_this("if you trust it, name it: --socket PATH (or STANDPIPE_SOCKET)"))
    }
}

/// While it is crowded, it is tried so often …
const TRIES: u32 = 8;
/// … with pauses that grow by this much.
const CROWDED: Duration = Duration::from_millis(50);

/// The bay's own folder must be one in which nobody else can put a socket.
fn whole_folder(socket: &Path) -> Result<(), Failure> {
    if service::is_default_folder(socket.parent()) {
        service::check_default_folder()?;
    }
    Ok(())
}

/// A connection after `hello` and `snapshot`.
pub struct Client {
    lines: tokio::io::Lines<tokio::io::BufReader<OwnedReadHalf>>,
    writing: OwnedWriteHalf,
    /// The first word.
    hello: Word,
    /// The state at connecting.
    pub snapshot: Box<Snapshot>,
}

/// One line, as text and understood.
pub struct Heard {
    /// As it came.
    pub text: String,
    /// Understood; absent where a newer daemon says something we do not know.
    pub line: Option<Line>,
}

impl Client {
    /// Connects and reads the first two lines.
    ///
    /// # Errors
    /// Where nobody listens, or what listens is no daemon of ours.
    pub async fn connect(daemon: &Daemon) -> Result<Self, Failure> {
        let stream = daemon.connect().await?;
        let socket = daemon.socket.as_path();
        let (reading, writing) = stream.into_split();
        let mut lines = tokio::io::AsyncBufReadExt::lines(tokio::io::BufReader::new(reading));
        let (mut snapshot, mut hello) = (None, None);
        for _ in 0..2 {
            let text = lines.next_line().await.map_err(|e| no_daemon(socket, &e))?.unwrap_or_default();
            match Line::read(&text) {
                Ok(Line::Word(Word::Snapshot(s))) => snapshot = Some(s),
                Ok(Line::Word(word @ Word::Hello { protocol, .. })) if protocol == events::PROTOCOL => {
                    hello = Some(word);
                }
                Ok(Line::Word(Word::Hello { protocol, .. })) => {
                    let what = format!(
                        "the daemon at {} speaks protocol {protocol}, this program {}",
                        socket.display(),
                        events::PROTOCOL
                    );
                    return Err(Failure::new(Exit::Config, what)
                        .try_this("use the same version of standpipe for both"));
                }
                Ok(Line::Word(Word::Bye { reason })) => {
                    return Err(Failure::new(Exit::TryAgain, format!("the daemon says: {reason}")));
                }
                _ => {
                    let what = format!("what listens at {} is no standpipe daemon", socket.display());
                    return Err(Failure::new(Exit::Unavailable, what));
                }
            }
        }
        let missing = |what| Failure::new(Exit::Unavailable, format!("the daemon sent no {what}"));
        let snapshot = snapshot.ok_or_else(|| missing("snapshot"))?;
        let hello = hello.ok_or_else(|| missing("hello"))?;
        Ok(Self { lines, writing, hello, snapshot })
    }

    /// The daemon's first word: version, bay, boot.
    pub fn hello(&self) -> Line {
        Line::Word(self.hello.clone())
    }

    /// The next line; `None` when the daemon has closed.
    ///
    /// # Errors
    /// Where the socket fails.
    pub async fn next(&mut self) -> Result<Option<Heard>, Failure> {
        let text = self
            .lines
            .next_line()
            .await
            .map_err(|e| Failure::new(Exit::Unavailable, format!("the daemon's socket failed: {e}")))?;
        Ok(text.map(|text| {
            let line = Line::read(&text).ok();
            Heard { text, line }
        }))
    }

    /// Tells something.
    ///
    /// # Errors
    /// Where the socket fails.
    pub async fn tell(&mut self, told: &Told) -> Result<(), Failure> {
        self.send(&serde_json::to_string(told).unwrap_or_default()).await
    }

    /// Asks for the events after `since`, and only for these kinds.
    ///
    /// # Errors
    /// Where the socket fails.
    pub async fn follow(&mut self, since: Option<Seq>, only: &[String]) -> Result<(), Failure> {
        let mut ask = serde_json::Map::new();
        if let Some(since) = since {
            ask.insert("since".to_owned(), since.0.into());
        }
        if !only.is_empty() {
            ask.insert("only".to_owned(), only.into());
        }
        if ask.is_empty() {
            return Ok(());
        }
        self.send(&serde_json::Value::Object(ask).to_string()).await
    }

    async fn send(&mut self, text: &str) -> Result<(), Failure> {
        let line = format!("{text}\n");
        self.writing
            .write_all(line.as_bytes())
            .await
            .map_err(|e| Failure::new(Exit::Unavailable, format!("the daemon's socket failed: {e}")))
    }
}

fn no_daemon(socket: &Path, e: &std::io::Error) -> Failure {
    use std::io::ErrorKind;
    let at = socket.display();
    match e.kind() {
        ErrorKind::NotFound => {
            Failure::new(Exit::Unavailable, format!("no daemon at {at}: there is no such socket")).try_this(
                "start one with `standpipe serve`, or name its socket with --socket PATH or --bay NAME",
            )
        }
        ErrorKind::ConnectionRefused => Failure::new(
            Exit::Unavailable,
            format!("no daemon at {at}: the one that made this socket has died"),
        )
        .try_this("start it again with `standpipe serve`; the job goes on where it was"),
        ErrorKind::PermissionDenied => Failure::new(Exit::NoPermission, format!("no permission to use {at}"))
            .try_this("run it as the daemon's user, or start the daemon with --socket-group GROUP"),
        _ => Failure::new(Exit::Unavailable, format!("no daemon at {at}: {e}")),
    }
}

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
        let named = Where { bay: "bay".to_owned(), socket: Some("/run/bay.sock".into()) };
        assert_eq!(named.daemon().trust, Trust::Named);
        let own = Where { bay: "bay".to_owned(), socket: None };
        assert_eq!(own.daemon().trust, Trust::Own);
    }
}
