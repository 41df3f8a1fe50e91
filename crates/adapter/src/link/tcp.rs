//! Adapters behind a TCP port: Wi-Fi adapters, and serial ports shared over the network.
//!
//! In: host and port. Out: a link. Small writes go out at once; a connection that is not made in 3 s is given up.
//! A radio that is switched off says no farewell, so the limits of the exchanges decide (section 14).

use std::io;
use std::time::Duration;

use socket2::TcpKeepalive;
use tokio::net::TcpStream;

use super::{Link, LinkError};

/// How long a connection may take to be made.
/// Own choice: on the adapter's own network it takes milliseconds; one packet that is lost is sent again after 1 s, and
/// the system's own limit is minutes.
pub(crate) const CONNECT_LIMIT: Duration = Duration::from_secs(3);

pub(crate) async fn open(host: &str, port: u16) -> Result<Box<dyn Link>, LinkError> {
    let addresses = tokio::time::timeout(CONNECT_LIMIT, tokio::net::lookup_host((host, port))).await;
    let addresses: Vec<_> = match addresses {
        Ok(Ok(found)) => found.collect(),
        _ => Vec::new(),
    };
    if addresses.is_empty() {
        return Err(LinkError::Unresolved { host: host.to_owned() });
    }
    let stream = match tokio::time::timeout(CONNECT_LIMIT, TcpStream::connect(&addresses[..])).await {
        Ok(connected) => connected,
        Err(_) => Err(io::Error::from(io::ErrorKind::TimedOut)),
    };
    let stream = stream.map_err(|error| LinkError::from_tcp(host, port, &error))?;
    stream.set_nodelay(true).map_err(|error| LinkError::from_tcp(host, port, &error))?;
    // A far end that is gone without a word is noticed in the end even while nothing is asked.
    socket2::SockRef::from(&stream)
        .set_tcp_keepalive(&keepalive())
        .map_err(|error| LinkError::from_tcp(host, port, &error))?;
    Ok(Box::new(stream))
}

impl Link for TcpStream {}

/// After so long without a byte a sign of life is asked for, again and again so often, and after so many in vain it is lost.
/// Own choice: radio that is gone sends no word; 11 s in all, so that it is told within a quarter of a minute.
const SILENT: Duration = Duration::from_secs(5);
const ASK_AGAIN: Duration = Duration::from_secs(2);
const ASKED: u32 = 3;

fn keepalive() -> TcpKeepalive {
    TcpKeepalive::new().with_time(SILENT).with_interval(ASK_AGAIN).with_retries(ASKED)
}

#[cfg(test)]
mod tests {
    use tokio::io::{AsyncReadExt, AsyncWriteExt};
    use tokio::net::TcpListener;

    use super::*;
    use crate::link::{Device, Opener};

    fn on_runtime<T>(work: impl Future<Output = T>) -> T {
        tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap().block_on(work)
    }

    #[test]
    fn bytes_go_both_ways_and_the_end_is_seen() {
        on_runtime(async {
            let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
            let port = listener.local_addr().unwrap().port();
            let device: Device = format!("tcp:127.0.0.1:{port}").parse().unwrap();
            let (link, far) = tokio::join!(device.open(), listener.accept());
            let (mut link, mut far) = (link.unwrap(), far.unwrap().0);
            link.write_all(b"ATI\r").await.unwrap();
            let mut got = [0; 4];
            far.read_exact(&mut got).await.unwrap();
            assert_eq!(&got, b"ATI\r");
            far.write_all(b"?\r\r>").await.unwrap();
            drop(far);
            let mut rest = Vec::new();
            link.read_to_end(&mut rest).await.unwrap();
            assert_eq!(rest, b"?\r\r>");
        });
    }

    #[test]
    fn a_closed_port_is_refused_and_a_made_up_name_is_unknown() {
        on_runtime(async {
            let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
            let port = listener.local_addr().unwrap().port();
            drop(listener);
            let refused = open("127.0.0.1", port).await.err().unwrap();
            assert_eq!(refused, LinkError::Refused { host: "127.0.0.1".to_owned(), port });
            let unknown = open("no such name", 1).await.err().unwrap();
            assert_eq!(unknown.kind(), "unresolved");
        });
    }
}
