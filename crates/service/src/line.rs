//! The link as the daemon's loop holds it: open, being opened, or closed until a later try.
//!
//! In: bytes to send, the time. Out: [`LineEvent`]s. It moves bytes and decides nothing; what they mean is the
//! bay's business, how a port is opened the opener's.

use std::pin::Pin;
use std::sync::Arc;
use std::time::Duration;

use adapter::{Link, LinkError, Opener};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _, ReadHalf, WriteHalf};
use units::Mono;

/// How often a port that cannot be opened is tried again.
const REOPEN: Duration = Duration::from_millis(1_000);

/// What happened on the line.
pub(crate) enum LineEvent {
    /// So many bytes came; [`Line::heard`] has them.
    Bytes(usize),
    /// Something was sent.
    Sent,
    /// The port is open.
    Opened,
    /// The port could not be opened.
    NotOpened(LinkError),
    /// The port is gone.
    Gone(String),
}

type Opening = Pin<Box<dyn Future<Output = Result<Box<dyn Link>, LinkError>> + Send>>;

enum State {
    Closed { again: Mono },
    Opening(Opening),
    Open { reading: ReadHalf<Box<dyn Link>>, writing: WriteHalf<Box<dyn Link>> },
}

/// The line to the adapter.
pub(crate) struct Line {
    opener: Arc<dyn Opener>,
    state: State,
    outgoing: Vec<u8>,
    buffer: Vec<u8>,
}

impl Line {
    /// Closed, and to be opened at once.
    pub(crate) fn new(opener: Arc<dyn Opener>) -> Self {
        Self {
            opener,
            state: State::Closed { again: Mono::ZERO },
            outgoing: Vec::new(),
            buffer: vec![0; 4_096],
        }
    }

    /// Begins to open the port if that is due; gives the device's name when it does.
    pub(crate) fn open_if_due(&mut self, now: Mono) -> Option<String> {
        let State::Closed { again } = self.state else { return None };
        if now < again {
            return None;
        }
        let opener = Arc::clone(&self.opener);
        self.state = State::Opening(Box::pin(async move { opener.open().await }));
        Some(self.opener.describe())
    }

    /// Closes it until a second from now.
    pub(crate) fn close(&mut self, now: Mono) {
        self.outgoing.clear();
        self.state = State::Closed { again: now.after(REOPEN) };
    }

    /// Queues bytes; what is said to a closed port is lost.
    pub(crate) fn send(&mut self, bytes: &[u8]) {
        if matches!(self.state, State::Open { .. }) {
            self.outgoing.extend_from_slice(bytes);
        }
    }

    /// The bytes of the last [`LineEvent::Bytes`].
    pub(crate) fn heard(&self, n: usize) -> &[u8] {
        self.buffer.get(..n).unwrap_or_default()
    }

    /// When it wants to be opened again.
    pub(crate) fn deadline(&self) -> Option<Mono> {
        if let State::Closed { again } = self.state { Some(again) } else { None }
    }

    /// The next thing that happens; may be dropped and asked again without loss.
    pub(crate) async fn next(&mut self) -> LineEvent {
        match &mut self.state {
            State::Closed { .. } => std::future::pending().await,
            State::Opening(opening) => match opening.await {
                Ok(link) => {
                    let (reading, writing) = tokio::io::split(link);
                    self.state = State::Open { reading, writing };
                    LineEvent::Opened
                }
                Err(e) => LineEvent::NotOpened(e),
            },
            State::Open { reading, writing } => tokio::select! {
                biased;
                read = reading.read(&mut self.buffer) => match read {
                    Ok(0) => LineEvent::Gone("its port closed".to_owned()),
                    Ok(n) => LineEvent::Bytes(n),
                    Err(e) => LineEvent::Gone(e.to_string()),
                },
                wrote = writing.write(&self.outgoing), if !self.outgoing.is_empty() => match wrote {
                    Ok(n) => {
                        self.outgoing.drain(..n.min(self.outgoing.len()));
                        LineEvent::Sent
                    }
                    Err(e) => LineEvent::Gone(e.to_string()),
                },
            },
        }
    }
}
