//! One connection: hello, snapshot, then line after line.

use events::{Seq, Snapshot, SocketLine, Status, Told, Word};
use tokio::io::AsyncWriteExt as _;
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};
use tokio_stream::StreamExt as _;
use tokio_util::codec::{FramedRead, LinesCodec, LinesCodecError};

use crate::LONGEST_LINE;
use crate::daemon::Daemon;
use crate::error::ClientError;

/// A connection after `hello` and `snapshot`.
pub struct Client {
    wire: Wire,
    hello: Word,
    /// The state at connecting.
    pub snapshot: Box<Snapshot>,
}

/// One line, as text and understood.
pub struct ReadLine {
    /// As it came.
    pub text: String,
    /// Understood; absent where a newer daemon says something we do not know.
    pub line: Option<SocketLine>,
}

impl Client {
    /// Connects and reads the first two lines.
    ///
    /// # Errors
    /// Where nobody listens, or what listens is no daemon of ours.
    pub async fn connect(daemon: &Daemon) -> Result<Self, ClientError> {
        let mut opening = Opening::begin(daemon).await?;
        let snapshot = opening.greet().await?;
        opening.open(snapshot)
    }

    /// The daemon's first word: version, bay, boot.
    pub fn hello(&self) -> SocketLine {
        SocketLine::Word(self.hello.clone())
    }

    /// The next line; `None` when the daemon has closed. May be given up while it waits; nothing is lost then.
    ///
    /// # Errors
    /// Where the socket fails, or a line is too long.
    pub async fn next(&mut self) -> Result<Option<ReadLine>, ClientError> {
        let text = self.wire.next().await?;
        Ok(text.map(|text| {
            let line = SocketLine::read(&text).ok();
            ReadLine { text, line }
        }))
    }

    /// Tells something.
    ///
    /// # Errors
    /// Where the socket fails.
    pub async fn tell(&mut self, told: &Told) -> Result<(), ClientError> {
        self.wire.send(&serde_json::to_string(told).unwrap_or_default()).await
    }

    /// Asks how the bay is; what else comes meanwhile is passed over.
    ///
    /// # Errors
    /// Where the socket fails, or the daemon is one that tells no status yet.
    pub async fn status(&mut self) -> Result<Box<Status>, ClientError> {
        // A daemon that just ends hears no question, and has said why it ends.
        let sent = self.wire.send(r#"{"status":true}"#).await;
        while let Some(heard) = self.next().await? {
            match heard.line {
                Some(SocketLine::Word(Word::Status(status))) => return Ok(status),
                Some(SocketLine::Word(Word::Bye { reason })) => return Err(ClientError::Bye { reason }),
                Some(SocketLine::Word(Word::Refused { id: None, .. })) => {
                    return Err(ClientError::NoStatus { at: self.wire.at.clone() });
                }
                _ => {}
            }
        }
        sent?;
        Err(ClientError::Silent { at: self.wire.at.clone() })
    }

    /// Asks for the events after `since`.
    ///
    /// # Errors
    /// Where the socket fails.
    pub async fn follow(&mut self, since: Option<Seq>) -> Result<(), ClientError> {
        match since {
            Some(since) => self.wire.send(&serde_json::json!({ "since": since }).to_string()).await,
            None => Ok(()),
        }
    }
}

/// The two ends of the socket.
struct Wire {
    at: String,
    lines: FramedRead<OwnedReadHalf, LinesCodec>,
    writing: OwnedWriteHalf,
}

impl Wire {
    async fn next(&mut self) -> Result<Option<String>, ClientError> {
        self.lines.next().await.transpose().map_err(|e| match e {
            LinesCodecError::MaxLineLengthExceeded => ClientError::TooLong { at: self.at.clone() },
            LinesCodecError::Io(error) => ClientError::Broken { at: self.at.clone(), error },
        })
    }

    async fn send(&mut self, text: &str) -> Result<(), ClientError> {
        let line = format!("{text}\n");
        let sent = self.writing.write_all(line.as_bytes()).await;
        sent.map_err(|error| ClientError::Broken { at: self.at.clone(), error })
    }
}

/// A connection that has not greeted yet. What was heard stays, when waiting for the rest is given up.
pub(crate) struct Opening {
    wire: Wire,
    hello: Option<Word>,
}

impl Opening {
    pub(crate) async fn begin(daemon: &Daemon) -> Result<Self, ClientError> {
        let (reading, writing) = daemon.connect().await?.into_split();
        let lines = FramedRead::new(reading, LinesCodec::new_with_max_length(LONGEST_LINE));
        Ok(Self { wire: Wire { at: daemon.at(), lines, writing }, hello: None })
    }

    /// The first two lines.
    pub(crate) async fn greet(&mut self) -> Result<Box<Snapshot>, ClientError> {
        loop {
            let text = self.wire.next().await?.unwrap_or_default();
            match (SocketLine::read(&text), &self.hello) {
                (Ok(SocketLine::Word(Word::Hello { protocol, .. })), None)
                    if protocol != events::PROTOCOL =>
                {
                    return Err(ClientError::Protocol { at: self.wire.at.clone(), theirs: protocol });
                }
                (Ok(SocketLine::Word(hello @ Word::Hello { .. })), None) => self.hello = Some(hello),
                (Ok(SocketLine::Word(Word::Snapshot(snapshot))), Some(_)) => return Ok(snapshot),
                (Ok(SocketLine::Word(Word::Bye { reason })), _) => return Err(ClientError::Bye { reason }),
                _ => return Err(ClientError::NoDaemon { at: self.wire.at.clone() }),
            }
        }
    }

    pub(crate) fn open(self, snapshot: Box<Snapshot>) -> Result<Client, ClientError> {
        let hello = self.hello.ok_or(ClientError::NoDaemon { at: self.wire.at.clone() })?;
        Ok(Client { wire: self.wire, hello, snapshot })
    }
}
