//! Serial ports: USB, Bluetooth serial, and pseudo-terminals.
//!
//! In: a path, perhaps a rate. Out: a link, opened for us alone. Without a rate the usual ones are tried; a
//! pseudo-terminal and a Bluetooth port have none, there the search is skipped.
//! Not here: what counts as an answer (`rate.rs`). Source: sections 3 and 14 of the dialect reference.

use std::path::Path;
use std::time::Duration;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio_serial::{SerialPort, SerialPortBuilderExt, SerialStream};

use super::error::Heard;
use super::node::Node;
use super::rate::{self, DEFAULT_RATE, Probe, RATES};
use super::{Link, LinkError};

/// How long a probe waits for a prompt; longer at 9600.
const PROBE_WAIT: Duration = Duration::from_millis(250);
const PROBE_WAIT_SLOW: Duration = Duration::from_millis(350);
/// How many bytes of a probe's answer are looked at.
const PROBE_BYTES: usize = 512;

pub(crate) async fn open(path: &Path, baud: Option<u32>) -> Result<Box<dyn Link>, LinkError> {
    let rateless = is_rateless(path);
    let first = if rateless { 0 } else { baud.unwrap_or(DEFAULT_RATE) };
    let mut port = open_at(path, first)?;
    if !rateless && baud.is_none() {
        find_rate(&mut port, path).await?;
    }
    Ok(Box::new(port))
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
async fn find_rate(port: &mut SerialStream, path: &Path) -> Result<(), LinkError> {
    let mut heard = Vec::new();
    for &rate in RATES {
        // An error for one rate must not end the search: not every port does 500000.
        if port.set_baud_rate(rate).is_err() {
            continue;
        }
        let _ = port.clear(tokio_serial::ClearBuffer::Input);
        for sent in [rate::PROBE, b" ATI\r"] {
            let wait = if rate == 9_600 { PROBE_WAIT_SLOW } else { PROBE_WAIT };
            match rate::judge(&ask(port, sent, wait).await, sent) {
                Probe::Right => {
                    tracing::debug!(rate, "rate found");
                    return Ok(());
                }
                Probe::AskAgain => heard.push(Heard::Noise),
                Probe::Wrong(what) => {
                    heard.push(what);
                    break;
                }
            }
        }
    }
    Err(LinkError::NoRate { device: path.display().to_string(), heard: rate::worst(heard.into_iter()) })
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
