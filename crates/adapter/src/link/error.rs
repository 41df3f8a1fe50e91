//! Why the way to the adapter could not be opened, and what to try.
//!
//! In: what the system said, what was found out about the device node. Out: [`LinkError`] with its remedy.
//! Not here: finding it out (`node.rs`). Source: section 14 of the dialect reference.

use std::io;

use super::auto::Candidate;
use super::node::{Holder, Node};

/// Why a link is not open.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LinkError {
    /// There is no such node.
    #[error("there is no {device}")]
    NoSuchDevice {
        /// The device as it was named.
        device: String,
    },
    /// `auto` found nothing.
    #[error("no adapter is plugged in: nothing like one under {root}")]
    NoCandidate {
        /// Where was looked.
        root: String,
    },
    /// `auto` found more than one.
    #[error("more than one device could be the adapter: {}", list(.candidates))]
    SeveralCandidates {
        /// All of them, likely ones first.
        candidates: Vec<Candidate>,
    },
    /// The node belongs to others.
    #[error("cannot open the adapter at {device}: permission denied{}", belongs(.group.as_deref()))]
    NoPermission {
        /// The device as it was named.
        device: String,
        /// The group that the node belongs to, if it has a name.
        group: Option<String>,
    },
    /// Another program holds it.
    #[error("the adapter at {device} is in use by {}", held(.holder.as_ref()))]
    Busy {
        /// The device as it was named.
        device: String,
        /// Who, if that could be found out.
        holder: Option<Holder>,
    },
    /// The path leads to something that is no serial port.
    #[error("{device} is not a serial port")]
    NotSerial {
        /// The device as it was named.
        device: String,
    },
    /// The port cannot do that rate.
    #[error("the port {device} cannot run at {baud} bit/s")]
    RateUnsupported {
        /// The device as it was named.
        device: String,
        /// The rate asked for.
        baud: u32,
    },
    /// No rate gave an answer that an adapter would give.
    #[error("{device} does not answer like an adapter at any rate: {heard}")]
    NoRate {
        /// The device as it was named.
        device: String,
        /// What came instead.
        heard: WrongRate,
    },
    /// The other end refused.
    #[error("tcp:{host}:{port} refused the connection")]
    Refused {
        /// Name or address.
        host: String,
        /// Port.
        port: u16,
    },
    /// Nobody answered in time.
    #[error("tcp:{host}:{port} did not answer within {seconds} s")]
    NoAnswer {
        /// Name or address.
        host: String,
        /// Port.
        port: u16,
        /// The limit.
        seconds: u64,
    },
    /// The system neither opened the port nor said why not.
    #[error("the adapter at {device} was not open within {seconds} s")]
    NotInTime {
        /// The device as it was named.
        device: String,
        /// The limit.
        seconds: u64,
    },
    /// The name leads nowhere.
    #[error("the name `{host}` is not known")]
    Unresolved {
        /// The name.
        host: String,
    },
    /// Anything else the system said.
    #[error("cannot open the adapter at {device}: {kind}")]
    System {
        /// The device as it was named.
        device: String,
        /// What kind of thing.
        kind: io::ErrorKind,
    },
}

/// What was heard at wrong rates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WrongRate {
    /// Nothing at any rate.
    #[error("silence")]
    Silence,
    /// Bytes without sense.
    #[error("noise")]
    Noise,
    /// Only what we had sent, and never a prompt.
    #[error("only its own echo")]
    Loop,
    /// The text of a modem.
    #[error("the text of a modem")]
    Modem,
}

impl LinkError {
    /// What to try, in one or two sentences.
    pub fn remedy(&self) -> String {
        match self {
            Self::NoSuchDevice { device } if device.starts_with("/dev/") => {
                "Plug the adapter in; `ls -l /dev/serial/by-id` shows what is there, `--device auto` takes the one candidate."
                    .to_owned()
            }
            Self::NoSuchDevice { .. } => "A serial port begins with /dev/, a network adapter with tcp:.".to_owned(),
            Self::NoCandidate { .. } => {
                "Plug it in, wait two seconds and try again. A network adapter has to be named, often as tcp:192.168.0.10:35000; \
                 so has a Bluetooth one before it is bound to /dev/rfcomm0."
                    .to_owned()
            }
            Self::SeveralCandidates { candidates } => match candidates.first() {
                Some(first) => format!("Name one, for example --device {}", first.device),
                None => "Name one with --device.".to_owned(),
            },
            Self::NoPermission { group: Some(group), .. } if group != "root" => {
                format!("sudo usermod -aG {group} $USER, then log in again")
            }
            Self::NoPermission { device, .. } => {
                format!("Ask who looks after this computer for the right to read and write {device}.")
            }
            Self::Busy { holder: Some(holder), .. } => format!(
                "Close {}; if it is a modem manager, tell it to leave this adapter alone (udev ID_MM_DEVICE_IGNORE).",
                holder.name
            ),
            Self::Busy { .. } => {
                "Close the other program; just after plugging in, a modem manager may hold the port for some 15 seconds.".to_owned()
            }
            Self::NotSerial { .. } => "Name a serial port; `ls -l /dev/serial/by-id` shows those there are.".to_owned(),
            Self::RateUnsupported { .. } => "Name another rate, for example @38400, or none at all.".to_owned(),
            Self::NoRate { heard, .. } => match heard {
                WrongRate::Silence => "Is the adapter in the vehicle's connector, so that it has supply? Unplug it and plug it in again.",
                WrongRate::Noise => "Name its rate if you know it, for example @115200; the packaging often says it.",
                WrongRate::Loop => "This looks like a bare cable or an adapter without supply: plug it into the vehicle.",
                WrongRate::Modem => "This port belongs to a modem; name the adapter's own port.",
            }
            .to_owned(),
            Self::Refused { .. } => {
                "Is this computer in the adapter's own network, and is no other program connected to it? Most serve only one."
                    .to_owned()
            }
            Self::NoAnswer { .. } | Self::Unresolved { .. } => {
                "Join the adapter's own network first; its address is often 192.168.0.10, port 35000.".to_owned()
            }
            Self::NotInTime { .. } | Self::System { .. } => "Unplug the adapter, plug it in again and try once more.".to_owned(),
        }
    }

    /// The kebab-case word for events.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::NoSuchDevice { .. } => "no-such-device",
            Self::NoCandidate { .. } => "no-candidate",
            Self::SeveralCandidates { .. } => "several-candidates",
            Self::NoPermission { .. } => "no-permission",
            Self::Busy { .. } => "busy",
            Self::NotSerial { .. } => "not-a-serial-port",
            Self::RateUnsupported { .. } => "rate-unsupported",
            Self::NoRate { .. } => "no-rate",
            Self::Refused { .. } => "refused",
            Self::NoAnswer { .. } => "no-answer",
            Self::NotInTime { .. } => "not-in-time",
            Self::Unresolved { .. } => "unresolved",
            Self::System { .. } => "system",
        }
    }

    /// From what the serial library said about `device`, and what was found out about its node.
    pub(crate) fn from_serial(device: String, baud: u32, said: &tokio_serial::Error, node: &Node) -> Self {
        use tokio_serial::ErrorKind as K;
        match said.kind {
            K::NoDevice => Self::Busy { device, holder: node.holder.clone() },
            K::InvalidInput => Self::RateUnsupported { device, baud },
            K::Io(io::ErrorKind::NotFound) => Self::NoSuchDevice { device },
            K::Io(io::ErrorKind::PermissionDenied) => {
                Self::NoPermission { device, group: node.group.clone() }
            }
            K::Unknown if !node.is_terminal() => Self::NotSerial { device },
            K::Unknown => Self::System { device, kind: io::ErrorKind::Other },
            K::Io(kind) => Self::System { device, kind },
        }
    }

    /// From what the system said about a TCP connection.
    pub(crate) fn from_tcp(host: &str, port: u16, said: &io::Error) -> Self {
        match said.kind() {
            io::ErrorKind::ConnectionRefused => Self::Refused { host: host.to_owned(), port },
            io::ErrorKind::TimedOut | io::ErrorKind::HostUnreachable | io::ErrorKind::NetworkUnreachable => {
                Self::NoAnswer { host: host.to_owned(), port, seconds: super::tcp::CONNECT_LIMIT.as_secs() }
            }
            kind => Self::System { device: format!("tcp:{host}:{port}"), kind },
        }
    }
}

fn list(candidates: &[Candidate]) -> String {
    let each: Vec<_> = candidates.iter().map(|one| format!("{} ({})", one.device, one.why)).collect();
    each.join(", ")
}

fn belongs(group: Option<&str>) -> String {
    group.map_or_else(String::new, |group| format!("; it belongs to group `{group}`, you do not"))
}

fn held(holder: Option<&Holder>) -> String {
    holder.map_or_else(
        || "another program".to_owned(),
        |holder| format!("`{}` (process {})", holder.name, holder.pid),
    )
}

#[cfg(test)]
mod tests {
    use tokio_serial::{Error, ErrorKind as K};

    use super::*;

    fn node(terminal: bool) -> Node {
        Node {
            group: Some("dialout".to_owned()),
            holder: Some(Holder { pid: 812, name: "modemmanager".to_owned() }),
            terminal,
        }
    }

    #[test]
    fn what_the_system_says_becomes_a_message_with_a_remedy() {
        let cases: &[(&str, K, bool, &str, &str)] = &[
            ("gone", K::Io(io::ErrorKind::NotFound), true, "there is no /dev/ttyUSB0", "Plug the adapter in"),
            (
                "not ours",
                K::Io(io::ErrorKind::PermissionDenied),
                true,
                "cannot open the adapter at /dev/ttyUSB0: permission denied; it belongs to group `dialout`, you do not",
                "sudo usermod -aG dialout $USER, then log in again",
            ),
            (
                "held",
                K::NoDevice,
                true,
                "the adapter at /dev/ttyUSB0 is in use by `modemmanager` (process 812)",
                "Close modemmanager",
            ),
            ("a file", K::Unknown, false, "/dev/ttyUSB0 is not a serial port", "Name a serial port"),
            (
                "odd rate",
                K::InvalidInput,
                true,
                "the port /dev/ttyUSB0 cannot run at 500000 bit/s",
                "Name another rate",
            ),
            (
                "other",
                K::Io(io::ErrorKind::TimedOut),
                true,
                "cannot open the adapter at /dev/ttyUSB0: timed out",
                "Unplug the adapter",
            ),
        ];
        for (what, kind, terminal, message, remedy) in cases {
            let said = Error::new(*kind, "");
            let error = LinkError::from_serial("/dev/ttyUSB0".to_owned(), 500_000, &said, &node(*terminal));
            assert_eq!(error.to_string(), *message, "{what}");
            assert!(error.remedy().starts_with(remedy), "{what}: {}", error.remedy());
        }
    }

    #[test]
    fn what_is_not_known_is_not_claimed() {
        let unknown = Node { group: None, holder: None, terminal: true };
        let said = Error::new(K::NoDevice, "");
        let busy = LinkError::from_serial("/dev/ttyUSB0".to_owned(), 38_400, &said, &unknown);
        assert_eq!(busy.to_string(), "the adapter at /dev/ttyUSB0 is in use by another program");
        let said = Error::new(K::Io(io::ErrorKind::PermissionDenied), "");
        let denied = LinkError::from_serial("/dev/ttyUSB0".to_owned(), 38_400, &said, &unknown);
        assert_eq!(denied.to_string(), "cannot open the adapter at /dev/ttyUSB0: permission denied");
        assert!(denied.remedy().contains("/dev/ttyUSB0"));
    }

    #[test]
    fn a_connection_that_fails_says_how() {
        let from = |kind| LinkError::from_tcp("192.168.0.10", 35_000, &io::Error::from(kind));
        assert_eq!(from(io::ErrorKind::ConnectionRefused).kind(), "refused");
        assert_eq!(from(io::ErrorKind::TimedOut).kind(), "no-answer");
        assert_eq!(from(io::ErrorKind::HostUnreachable).kind(), "no-answer");
        assert_eq!(from(io::ErrorKind::OutOfMemory).kind(), "system");
    }
}
