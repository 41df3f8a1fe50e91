//! How bytes reach the adapter: a serial port, a TCP connection, or two ends in memory, behind one trait.
//!
//! In: a [`Device`] as people write it. Out: a [`Link`] to read from and write to, or a [`LinkError`] with its remedy.
//! Not here: what the bytes mean (`codec.rs`), who reopens and when (the caller, told by [`crate::Outcome::Lost`]).
//! Source: section 14 of the dialect reference.

mod auto;
mod error;
mod held;
mod latency;
mod node;
mod port;
mod rate;
mod serial;
mod tcp;

use std::fmt;
use std::future::Future;
use std::io;
use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::str::FromStr;

use tokio::io::{AsyncRead, AsyncWrite, DuplexStream};

pub use auto::{Candidate, Why, auto, auto_in, candidates};
pub use error::{LinkError, WrongRate};
pub use held::Held;
pub use latency::{Latency, latency};
pub use node::{Holder, Node};
pub use port::Port;
pub use rate::{DEFAULT_RATE, RATES, RATES_ALLOWED, RateSearch, RateStep};

/// A way to the adapter that is open: bytes in, bytes out. End of input means unplugged or cut.
pub trait Link: AsyncRead + AsyncWrite + Send + Unpin {
    /// The rate in bit/s that was found by trying; `None` for a link without a rate, or with one that somebody named:
    /// that one is kept.
    fn rate(&self) -> Option<u32> {
        None
    }

    /// Changes the rate, once everything written is out.
    ///
    /// # Errors
    /// What the system says; always one for links without a rate.
    fn set_rate(&mut self, baud: u32) -> io::Result<()> {
        Err(io::Error::new(
            io::ErrorKind::Unsupported,
            format!("this link has no rate; {baud} bit/s were asked for"),
        ))
    }
}

impl Link for DuplexStream {}

/// What [`Opener::open`] gives.
pub type Opening<'a> = Pin<Box<dyn Future<Output = Result<Box<dyn Link>, LinkError>> + Send + 'a>>;

/// Opens the way to the adapter, again and again: after an unplug the same opener is asked once more.
pub trait Opener: Send + Sync {
    /// Opens it.
    ///
    /// Errors: [`LinkError`] says why not and what to try.
    fn open(&self) -> Opening<'_>;

    /// The device by the name people know it.
    fn describe(&self) -> String;
}

/// Where the adapter is, as people write it.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Device {
    /// `auto`: the one candidate there is.
    Auto,
    /// `/dev/ttyUSB0` or `/dev/ttyUSB0@115200`.
    Serial {
        /// The device node; a name under `/dev/serial/by-id` stays the same after a re-plug.
        path: PathBuf,
        /// The rate in bit/s; `None` tries the usual ones, beginning with 38400.
        baud: Option<u32>,
    },
    /// `tcp:192.168.0.10:35000`.
    Tcp {
        /// Name or address.
        host: String,
        /// Port.
        port: u16,
    },
}

/// A text that is no [`Device`].
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum DeviceError {
    /// Nothing was written.
    #[error("a device is `auto`, a path such as /dev/ttyUSB0 or /dev/ttyUSB0@115200, or tcp:HOST:PORT")]
    Empty,
    /// A rate that is no number, or none that serial ports have.
    #[error("`{rate}` is no serial rate; write it like /dev/ttyUSB0@115200")]
    Rate {
        /// What was written.
        rate: String,
    },
    /// A host without a port, or a port that is no number from 1 to 65535.
    #[error("`{address}` is no host and port; write it like tcp:192.168.0.10:35000")]
    Address {
        /// What was written.
        address: String,
    },
}

impl FromStr for Device {
    type Err = DeviceError;

    fn from_str(text: &str) -> Result<Self, DeviceError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(DeviceError::Empty);
        }
        if text == "auto" {
            return Ok(Self::Auto);
        }
        if let Some(address) = text.strip_prefix("tcp:") {
            let bad = || DeviceError::Address { address: address.to_owned() };
            let (host, port) = address.rsplit_once(':').ok_or_else(bad)?;
            let port = port.parse().ok().filter(|port| *port != 0).ok_or_else(bad)?;
            let host = host.strip_prefix('[').and_then(|host| host.strip_suffix(']')).unwrap_or(host);
            return if host.is_empty() { Err(bad()) } else { Ok(Self::Tcp { host: host.to_owned(), port }) };
        }
        // Only an `@` in the last part of the path is a rate: by-path names may hold one elsewhere.
        match text.rsplit_once('@').filter(|(_, rate)| !rate.contains('/')) {
            Some((path, rate)) if !path.is_empty() => {
                let bad = || DeviceError::Rate { rate: rate.to_owned() };
                let baud = rate.parse().ok().filter(|rate| RATES_ALLOWED.contains(rate)).ok_or_else(bad)?;
                Ok(Self::Serial { path: path.into(), baud: Some(baud) })
            }
            _ => Ok(Self::Serial { path: text.into(), baud: None }),
        }
    }
}

impl fmt::Display for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Auto => f.write_str("auto"),
            Self::Serial { path, baud: None } => write!(f, "{}", path.display()),
            Self::Serial { path, baud: Some(baud) } => write!(f, "{}@{baud}", path.display()),
            Self::Tcp { host, port } if host.contains(':') => write!(f, "tcp:[{host}]:{port}"),
            Self::Tcp { host, port } => write!(f, "tcp:{host}:{port}"),
        }
    }
}

impl Device {
    /// The same device by the name that it keeps when it is plugged in again (`/dev/serial/by-id`), or that its socket
    /// keeps (`/dev/serial/by-path`), where it has one; otherwise as it is. Ask while the device is there: `ttyUSB0` may be `ttyUSB1` the next time.
    #[must_use]
    pub fn lasting(self) -> Self {
        self.lasting_under(Path::new("/dev"))
    }

    fn lasting_under(self, root: &Path) -> Self {
        match self {
            Self::Serial { path, baud } => {
                let path = auto::lasting_name(root, &path).unwrap_or(path);
                Self::Serial { path, baud }
            }
            other => other,
        }
    }
}

impl Opener for Device {
    fn open(&self) -> Opening<'_> {
        Box::pin(async move {
            match self {
                Self::Auto => match auto()? {
                    Self::Serial { path, baud } => serial::open(&path, baud, None).await,
                    other => Err(LinkError::NoSuchDevice { device: other.to_string() }),
                },
                Self::Serial { path, baud } => serial::open(path, *baud, None).await,
                Self::Tcp { host, port } => tcp::open(host, *port).await,
            }
        })
    }

    fn describe(&self) -> String {
        self.to_string()
    }
}

/// An opener over a function: for links in memory.
pub struct OpenWith<F> {
    name: String,
    open: F,
}

impl<F> OpenWith<F>
where
    F: Fn() -> Result<Box<dyn Link>, LinkError> + Send + Sync,
{
    /// Each opening calls `open`; `name` is what people read.
    pub fn new(name: impl Into<String>, open: F) -> Self {
        Self { name: name.into(), open }
    }
}

impl<F> Opener for OpenWith<F>
where
    F: Fn() -> Result<Box<dyn Link>, LinkError> + Send + Sync,
{
    fn open(&self) -> Opening<'_> {
        let link = (self.open)();
        Box::pin(async move { link })
    }

    fn describe(&self) -> String {
        self.name.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_device_is_read_as_people_write_it_and_written_back() {
        let serial = |path: &str, baud| Ok(Device::Serial { path: path.into(), baud });
        let tcp = |host: &str, port| Ok(Device::Tcp { host: host.to_owned(), port });
        let rate = |rate: &str| Err(DeviceError::Rate { rate: rate.to_owned() });
        let address = |address: &str| Err(DeviceError::Address { address: address.to_owned() });
        let cases: &[(&str, Result<Device, DeviceError>)] = &[
            ("auto", Ok(Device::Auto)),
            ("/dev/ttyUSB0", serial("/dev/ttyUSB0", None)),
            ("/dev/ttyUSB0@115200", serial("/dev/ttyUSB0", Some(115_200))),
            ("/dev/serial/by-path/a@1/port0", serial("/dev/serial/by-path/a@1/port0", None)),
            ("tcp:192.168.0.10:35000", tcp("192.168.0.10", 35_000)),
            ("tcp:[::1]:35000", tcp("::1", 35_000)),
            ("/dev/ttyUSB0@fast", rate("fast")),
            ("/dev/ttyUSB0@0", rate("0")),
            ("tcp:adapter.example", address("adapter.example")),
            ("tcp::35000", address(":35000")),
            ("tcp:h:0", address("h:0")),
            ("tcp:h:65536", address("h:65536")),
            (" ", Err(DeviceError::Empty)),
        ];
        for (text, want) in cases {
            assert_eq!(&text.parse::<Device>(), want, "{text}");
            if let Ok(device) = want {
                assert_eq!(device.to_string(), *text);
            }
        }
    }
}
