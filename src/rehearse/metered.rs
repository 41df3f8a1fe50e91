//! The bytes inside the pseudo-terminal, counted, so that simulated time can wait for them.

use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};

use adapter::{Link, Opener, Opening};
use rehearsal::pty::Cable;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};

/// An opener whose links count their bytes, so that simulated time can wait for them.
pub struct Metered {
    /// The daemon's own opener.
    pub inner: Arc<dyn Opener>,
    /// Where the counts are kept.
    pub cable: Arc<Cable>,
}

impl Opener for Metered {
    fn open(&self) -> Opening<'_> {
        Box::pin(async {
            // Opening is work of the system's, and no simulated time passes meanwhile.
            self.cable.up.sent(1);
            let opened = self.inner.open().await;
            self.cable.up.arrived(1);
            let link = opened?;
            self.cable.opened();
            let counted: Box<dyn Link> = Box::new(Counted { link, cable: Arc::clone(&self.cable) });
            Ok(counted)
        })
    }

    fn describe(&self) -> String {
        "the simulated adapter".to_owned()
    }
}

struct Counted {
    link: Box<dyn Link>,
    cable: Arc<Cable>,
}

impl Drop for Counted {
    fn drop(&mut self) {
        self.cable.closed();
    }
}

impl Link for Counted {
    fn rate(&self) -> Option<u32> {
        self.link.rate()
    }

    fn set_rate(&mut self, baud: u32) -> std::io::Result<()> {
        self.link.set_rate(baud)
    }
}

impl AsyncRead for Counted {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<std::io::Result<()>> {
        let before = buffer.filled().len();
        let result = Pin::new(&mut self.link).poll_read(cx, buffer);
        self.cable.down.arrived(buffer.filled().len() - before);
        result
    }
}

impl AsyncWrite for Counted {
    fn poll_write(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<std::io::Result<usize>> {
        // Counted before they can arrive: the far end may be quicker than we are.
        self.cable.up.sent(bytes.len());
        let result = Pin::new(&mut self.link).poll_write(cx, bytes);
        let wrote = if let Poll::Ready(Ok(n)) = result { n } else { 0 };
        self.cable.up.arrived(bytes.len() - wrote);
        result
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<std::io::Result<()>> {
        Pin::new(&mut self.link).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<std::io::Result<()>> {
        Pin::new(&mut self.link).poll_shutdown(cx)
    }
}
