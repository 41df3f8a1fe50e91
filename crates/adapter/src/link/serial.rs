//! Serial ports: USB, Bluetooth serial, and pseudo-terminals.
//!
//! In: a path, perhaps a rate. Out: a link, opened for us alone. Without a rate the usual ones are tried; a
//! pseudo-terminal and a Bluetooth port have none, there the search is skipped.
//! Not here: what counts as an answer (`rate.rs`). Source: sections 3 and 14 of the dialect reference.

use std::io;
use std::path::Path;
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;

use tokio::io::{AsyncRead, AsyncReadExt, AsyncWrite, AsyncWriteExt, ReadBuf};
use tokio_serial::{SerialPort, SerialPortBuilderExt, SerialStream};

use super::node::Node;
use super::rate::{DEFAULT_RATE, RateSearch, RateStep};
use super::{Link, LinkError, latency};

/// How many bytes of a probe's answer are looked at.
/// Own choice: a banner and a prompt have 20; noise at a wrong rate must not fill memory.
const PROBE_BYTES: usize = 512;

/// A serial port of ours alone: the library sets `TIOCEXCL` and an advisory lock, which stops the superuser's programs
/// too.
struct Serial {
    port: SerialStream,
    /// The rate that was found, where it was looked for.
    found: Option<u32>,
}

impl Link for Serial {
    fn rate(&self) -> Option<u32> {
        self.found
    }

    fn set_rate(&mut self, baud: u32) -> io::Result<()> {
        self.port.set_baud_rate(baud).map_err(io::Error::from)
    }
}

impl AsyncRead for Serial {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.port).poll_read(cx, buffer)
    }
}

impl AsyncWrite for Serial {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, bytes: &[u8]) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.port).poll_write(cx, bytes)
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.port).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.port).poll_shutdown(cx)
    }
}

/// Opens the port at `baud`; without one, at the rate that is found, `remembered` tried first.
pub(crate) async fn open(
    path: &Path,
    baud: Option<u32>,
    remembered: Option<u32>,
) -> Result<Box<dyn Link>, LinkError> {
    let rateless = is_rateless(path);
    let first = if rateless { 0 } else { baud.or(remembered).unwrap_or(DEFAULT_RATE) };
    let mut port = open_at(path, first)?;
    let mut found = None;
    if !rateless {
        // Before the first request: a change in the middle of traffic may cost a quarter of a second.
        latency::shorten(path);
        if baud.is_none() {
            found = Some(find_rate(&mut port, path, remembered).await?);
        }
    }
    Ok(Box::new(Serial { port, found }))
}

/// Whether the port has no rate for the host to set.
fn is_rateless(path: &Path) -> bool {
    let real = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let name = real.file_name().and_then(|name| name.to_str()).unwrap_or_default();
    real.starts_with("/dev/pts") || name.starts_with("rfcomm")
}

fn open_at(path: &Path, baud: u32) -> Result<SerialStream, LinkError> {
    let device = path.display().to_string();
    let opened = tokio_serial::new(device.as_str(), baud).open_native_async();
    opened.map_err(|said| LinkError::from_serial(device, baud, &said, &Node::look(path)))
}

/// Tries the usual rates; leaves the port at the right one.
async fn find_rate(port: &mut SerialStream, path: &Path, remembered: Option<u32>) -> Result<u32, LinkError> {
    let mut search = RateSearch::new(remembered);
    loop {
        match search.step() {
            RateStep::Found(rate) => {
                tracing::debug!(rate, "rate found");
                return Ok(rate);
            }
            RateStep::None(heard) => {
                return Err(LinkError::NoRate { device: path.display().to_string(), heard });
            }
            RateStep::Try { rate, .. } if port.set_baud_rate(rate).is_err() => search.skip(),
            RateStep::Try { send, wait, .. } => {
                let _ = port.clear(tokio_serial::ClearBuffer::Input);
                search.heard(&ask(port, send, wait).await);
            }
        }
    }
}

/// Writes `sent` and collects what comes, until a prompt or the end of the time.
async fn ask(port: &mut SerialStream, sent: &[u8], wait: Duration) -> Vec<u8> {
    let mut heard = Vec::new();
    if port.write_all(sent).await.is_err() {
        return heard;
    }
    let mut piece = [0; 64];
    let listen = async {
        while heard.len() < PROBE_BYTES && !heard.contains(&b'>') {
            match port.read(&mut piece).await {
                Ok(0) | Err(_) => break,
                Ok(count) => heard.extend_from_slice(piece.get(..count).unwrap_or_default()),
            }
        }
    };
    // Out of time is the usual end of a probe at a wrong rate, no fault.
    let _ = tokio::time::timeout(wait, listen).await;
    heard
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::link::{Device, Opener};

    fn on_runtime<T>(work: impl Future<Output = T>) -> T {
        tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap().block_on(work)
    }

    fn error(device: &str) -> LinkError {
        on_runtime(async { device.parse::<Device>().unwrap().open().await.err().unwrap() })
    }

    #[test]
    fn a_pseudo_terminal_is_opened_for_us_alone_and_carries_bytes_both_ways() {
        on_runtime(async {
            let (mut far, near) = SerialStream::pair().unwrap();
            let name = near.name().unwrap();
            drop(near);
            let device: Device = name.parse().unwrap();
            let mut link = device.open().await.unwrap();
            assert!(
                matches!(device.open().await, Err(LinkError::Busy { .. })),
                "a second opening is refused"
            );
            link.write_all(b"ATI\r").await.unwrap();
            let mut got = [0; 4];
            far.read_exact(&mut got).await.unwrap();
            assert_eq!(&got, b"ATI\r");
            far.write_all(b"ELM327 v2.1\r\r>").await.unwrap();
            let mut reply = [0; 14];
            link.read_exact(&mut reply).await.unwrap();
            assert_eq!(&reply, b"ELM327 v2.1\r\r>");
            drop(far);
            let end = link.read(&mut reply).await;
            assert!(matches!(end, Ok(0) | Err(_)), "unplugged is seen: {end:?}");
        });
    }

    #[test]
    fn what_is_no_serial_port_says_so() {
        assert_eq!(error("/dev/null").kind(), "not-a-serial-port");
        let file = tempfile::NamedTempFile::new().unwrap();
        assert_eq!(error(file.path().to_str().unwrap()).kind(), "not-a-serial-port");
        assert_eq!(error("/dev/no-such-adapter").kind(), "no-such-device");
    }
}
