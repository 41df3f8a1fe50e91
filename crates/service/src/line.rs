//! The link as the daemon's loop holds it: open, being opened, or closed until a later try.
//!
//! In: bytes to send, the time. Out: [`LineEvent`]s. It moves bytes and decides nothing; what they mean is the
//! bay's business, how a port is opened the opener's.

use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll, ready};
use std::time::Duration;

use adapter::{Link, LinkError, Opener};
use tokio::io::{AsyncRead as _, AsyncWrite as _, ReadBuf};
use units::Mono;

/// Bytes taken from the port at a time.
/// Own choice: the longest reply that is kept, so that one look takes all there is.
const PIECE: usize = 4_096;
/// After a loss the port is tried again after so long.
/// Own choice: often enough that an adapter that is back is read within 2 s; each try costs a call of the system.
const REOPEN: Duration = Duration::from_millis(250);
/// A port that is not open by then is tried anew.
/// Own choice: a radio link takes up to 10 s (from memory), a search for the rate 4 s; twice that.
const OPENS_WITHIN: Duration = Duration::from_secs(30);

/// What happened on the line.
pub(crate) enum LineEvent {
    /// So many bytes came; [`Line::heard`] has them.
    Bytes(usize),
    /// Something was sent.
    Sent,
    /// The port is open, at a rate that was found by trying, or at none.
    Opened(Option<u32>),
    /// The port could not be opened.
    NotOpened(LinkError),
    /// The port is gone.
    Gone(String),
}

type Opening = Pin<Box<dyn Future<Output = Result<Box<dyn Link>, LinkError>> + Send>>;

enum Port {
    Closed { again: Mono },
    Opening { opening: Opening, until: Mono },
    Open(Box<dyn Link>),
}

/// The line to the adapter.
pub(crate) struct Line {
    /// `None`: there is no adapter, and the line stays closed.
    opener: Option<Arc<dyn Opener>>,
    state: Port,
    outgoing: Vec<u8>,
    buffer: Vec<u8>,
}

impl Line {
    /// Closed, and to be opened at once.
    pub(crate) fn new(opener: Option<Arc<dyn Opener>>) -> Self {
        Self {
            opener,
            state: Port::Closed { again: Mono::ZERO },
            outgoing: Vec::new(),
            buffer: vec![0; PIECE],
        }
    }

    /// Begins to open the port if that is due; gives the device's name when it does.
    pub(crate) fn open_if_due(&mut self, now: Mono) -> Option<String> {
        let Port::Closed { again } = self.state else { return None };
        if now < again {
            return None;
        }
        let opener = Arc::clone(self.opener.as_ref()?);
        let device = opener.describe();
        let opening = Box::pin(async move { opener.open().await });
        self.state = Port::Opening { opening, until: now.after(OPENS_WITHIN) };
        Some(device)
    }

    /// Gives up an opening that takes too long, and says so; close it after that.
    pub(crate) fn give_up_if_due(&self, now: Mono) -> Option<LinkError> {
        let Port::Opening { until, .. } = self.state else { return None };
        let seconds = OPENS_WITHIN.as_secs();
        (until <= now).then(|| LinkError::NotInTime { device: self.device(), seconds })
    }

    /// The device's name.
    pub(crate) fn device(&self) -> String {
        self.opener.as_ref().map_or_else(|| "none".to_owned(), |opener| opener.describe())
    }

    /// Whether the port is open.
    pub(crate) const fn is_open(&self) -> bool {
        matches!(self.state, Port::Open(_))
    }

    /// Closes it until a little later.
    pub(crate) fn close(&mut self, now: Mono) {
        self.outgoing.clear();
        self.state = Port::Closed { again: now.after(REOPEN) };
    }

    /// Queues bytes; what is said to a closed port is lost.
    pub(crate) fn send(&mut self, bytes: &[u8]) {
        if matches!(self.state, Port::Open(_)) {
            self.outgoing.extend_from_slice(bytes);
        }
    }

    /// The bytes of the last [`LineEvent::Bytes`].
    pub(crate) fn heard(&self, n: usize) -> &[u8] {
        self.buffer.get(..n).unwrap_or_default()
    }

    /// When it wants to be opened again, or has been opening for too long.
    pub(crate) const fn deadline(&self) -> Option<Mono> {
        match self.state {
            _ if self.opener.is_none() => None,
            Port::Closed { again: at } | Port::Opening { until: at, .. } => Some(at),
            Port::Open(_) => None,
        }
    }

    /// The next thing that happens; may be dropped and asked again without loss.
    pub(crate) async fn next(&mut self) -> LineEvent {
        match &mut self.state {
            Port::Closed { .. } => std::future::pending().await,
            Port::Opening { opening, .. } => match opening.await {
                Ok(link) => {
                    let rate = link.rate();
                    self.state = Port::Open(link);
                    LineEvent::Opened(rate)
                }
                Err(e) => LineEvent::NotOpened(e),
            },
            Port::Open(link) => {
                let (buffer, outgoing) = (&mut self.buffer, &mut self.outgoing);
                std::future::poll_fn(|cx| poll(link.as_mut(), buffer, outgoing, cx)).await
            }
        }
    }

    /// Changes the port's rate. Nothing is on its way out when the driver asks for it.
    pub(crate) fn set_rate(&mut self, baud: u32) {
        if let Port::Open(link) = &mut self.state
            && let Err(e) = link.set_rate(baud)
        {
            // The driver notices by what it hears, or does not.
            tracing::debug!(baud, error = %e, "the port keeps its rate");
        }
    }
}

/// What the open link does next: what came goes before what is to be sent.
fn poll(
    mut link: &mut dyn Link,
    buffer: &mut [u8],
    outgoing: &mut Vec<u8>,
    cx: &mut Context<'_>,
) -> Poll<LineEvent> {
    let mut read = ReadBuf::new(buffer);
    match Pin::new(&mut link).poll_read(cx, &mut read) {
        Poll::Ready(Ok(())) if read.filled().is_empty() => {
            return Poll::Ready(LineEvent::Gone("its port closed".to_owned()));
        }
        Poll::Ready(Ok(())) => return Poll::Ready(LineEvent::Bytes(read.filled().len())),
        Poll::Ready(Err(e)) => return Poll::Ready(LineEvent::Gone(e.to_string())),
        Poll::Pending => {}
    }
    if outgoing.is_empty() {
        return Poll::Pending;
    }
    Poll::Ready(match ready!(Pin::new(&mut link).poll_write(cx, outgoing)) {
        Ok(n) => {
            outgoing.drain(..n.min(outgoing.len()));
            LineEvent::Sent
        }
        Err(e) => LineEvent::Gone(e.to_string()),
    })
}
