//! What only a rehearsal can see: the truth beside the verdict, and the bytes inside the pseudo-terminal.

use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};

use adapter::{Link, Opener, Opening};
use events::{Body, Event, JobResult, Verdict};
use rehearsal::pty::Cable;
use rehearsal::stage::true_signal;
use rehearsal::{Setup, World};
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use units::Mono;

use super::ending::Ending;

/// Looks over the technician's shoulder.
pub struct Watch {
    setup: Setup,
    verdict: Verdict,
    u: f64,
    saw_go: bool,
    wrong_go_k: Option<f64>,
    result: Option<JobResult>,
}

impl Watch {
    /// Nothing seen yet.
    pub fn new(setup: &Setup) -> Self {
        let setup = setup.clone();
        Self { setup, verdict: Verdict::Wait, u: 0.0, saw_go: false, wrong_go_k: None, result: None }
    }

    /// Compares every event with the truth of that moment.
    pub fn see(&mut self, event: &Event, world: &World) {
        match &event.body {
            Body::Verdict { verdict, u, .. } => {
                self.verdict = *verdict;
                self.u = u.map_or(self.u, units::Kelvins::to_f64);
            }
            Body::Estimate(estimate) => self.u = estimate.u.to_f64(),
            Body::Result(result) => self.result = Some(result.clone()),
            _ => {}
        }
        if self.verdict == Verdict::Go {
            self.saw_go = true;
            let check = &self.setup.sheet.check;
            let truth = true_signal(world, check.signal);
            let outside = (check.band_c[0] - truth).max(truth - check.band_c[1]);
            if outside > check.k * self.u {
                self.wrong_go_k = Some(self.wrong_go_k.unwrap_or(0.0).max(outside));
            }
        }
    }

    /// The end, with the truth beside the estimate.
    pub fn end(self, world: &World, now: Mono) -> Ending {
        Ending {
            result: self.result,
            true_millilitres: world.level_error_ml(),
            seconds: now.as_secs_f64(),
            saw_go: self.saw_go,
            wrong_go_k: self.wrong_go_k,
        }
    }
}

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
