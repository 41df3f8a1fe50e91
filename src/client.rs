//! A client of the daemon's socket, for `events`, `tell` and `rehearse`.

use std::path::{Path, PathBuf};

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
    pub async fn connect(socket: &Path) -> Result<Self, Failure> {
        let stream = UnixStream::connect(socket).await.map_err(|e| no_daemon(socket, &e))?;
        let (reading, writing) = stream.into_split();
        let mut lines = tokio::io::AsyncBufReadExt::lines(tokio::io::BufReader::new(reading));
        let (mut snapshot, mut hello) = (None, None);
        for _ in 0..2 {
            let text = lines.next_line().await.map_err(|e| no_daemon(socket, &e))?.unwrap_or_default();
            match serde_json::from_str::<Word>(&text) {
                Ok(Word::Snapshot(s)) => snapshot = Some(s),
                Ok(word @ Word::Hello { protocol, .. }) if protocol == events::PROTOCOL => hello = Some(word),
                Ok(Word::Hello { protocol, .. }) => {
                    let what = format!(
                        "the daemon at {} speaks protocol {protocol}, this program {}",
                        socket.display(),
                        events::PROTOCOL
                    );
                    return Err(Failure::new(Exit::Config, what)
                        .try_this("use the same version of standpipe for both"));
                }
                Ok(Word::Bye { reason }) => {
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
            let line = serde_json::from_str(&text).ok();
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
