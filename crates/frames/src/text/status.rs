//! The texts by which the adapter itself speaks: one table, and what each line is.
//!
//! In: one line. Out: [`Status`] and its class, or `None` for data and everything unknown.
//! Source: `responses.csv` of the adapter reference (data sheet pages 8-89 and public reports of clones).
//! Texts are compared with blanks and zero bytes removed and in upper case, because clones differ in both.

use core::fmt;

use crate::text::grammar::{self, whole};

/// What a line of the adapter says, when it is no data.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Status {
    /// `OK`: a setting was accepted.
    Ok,
    /// `?`, also a clone's `?WRONG HEXCHAR COUNT`: the line was not understood.
    NotUnderstood,
    /// `ERROR`: a modem, not an adapter.
    Modem,
    /// `SEARCHING...`: looking for the protocol; wait up to 30 s.
    Searching,
    /// `BUS INIT: ` and dots: starting a K-line bus; wait up to 10 s.
    BusInit,
    /// `BUS INIT: OK`: it started; data follow.
    BusInitOk,
    /// `BUS INIT: ERROR`: it did not.
    BusInitError,
    /// `BUS INIT: STOPPED`: broken off.
    BusInitStopped,
    /// `UNABLE TO CONNECT`: no protocol was answered.
    UnableToConnect,
    /// `NO DATA`: no answer in time, or the filter hid it.
    NoData,
    /// `STOPPED`: a byte from our side broke the work off.
    Stopped,
    /// `BUFFER FULL`: lines are missing.
    BufferFull,
    /// `BUS BUSY`.
    BusBusy,
    /// `BUS ERROR`.
    BusError,
    /// `CAN ERROR`.
    CanError,
    /// `DATA ERROR`: an answer came and was spoilt; also as a mark behind a line.
    DataError,
    /// `<RX ERROR` behind a line: that line is spoilt.
    RxError,
    /// `FB ERROR`: wiring, or a dead driver stage.
    FeedbackError,
    /// `ERRxx`: internal fault of the adapter; 94 means that all settings are lost.
    AdapterFault(u8),
    /// `LV RESET`: the supply dipped, all settings are lost.
    LowVoltageReset,
    /// `ACT ALERT`: low power in a minute unless something is sent.
    ActivityAlert,
    /// `LP ALERT`: low power in two seconds.
    LowPowerAlert,
    /// `FC:`: a flow-control frame, shown while monitoring.
    FlowControl,
    /// `RTR`: a remote frame without data.
    RemoteFrame,
    /// `ELM327 v...` and the like: identification. When not asked for, it is a reset.
    Identity,
    /// `12.6V`.
    Voltage,
    /// `AUTO, ISO 15765-4 (CAN 11/500)` and the like.
    ProtocolName,
    /// `A6`, `6`, `0`: the number of the protocol.
    ProtocolNumber,
    /// `VENDOR ...`: a clone's text of unknown meaning.
    Vendor,
}

/// What kind of thing a [`Status`] is, as in `responses.csv`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StatusClass {
    /// A setting was accepted.
    Ok,
    /// Not understood, or not allowed now.
    Refused,
    /// Work goes on; the reply is not complete.
    Progress,
    /// Nothing wrong with us: the vehicle did not answer.
    Vehicle,
    /// We did it ourselves.
    Driver,
    /// The adapter is at fault or overrun.
    Adapter,
    /// The bus or its wiring.
    Bus,
    /// The adapter has reset itself: all settings are lost.
    Reset,
    /// It is about to sleep.
    Alert,
    /// A mark on a line; the line is not used.
    Mark,
    /// An answer to a question about the adapter itself.
    Answer,
    /// This port is no adapter.
    WrongPort,
    /// A text that nobody has explained.
    Unknown,
}

impl StatusClass {
    /// The kebab-case word.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Refused => "refused",
            Self::Progress => "progress",
            Self::Vehicle => "error-vehicle",
            Self::Driver => "error-driver",
            Self::Adapter => "error-adapter",
            Self::Bus => "error-bus",
            Self::Reset => "reset",
            Self::Alert => "alert",
            Self::Mark => "mark",
            Self::Answer => "answer",
            Self::WrongPort => "wrong-port",
            Self::Unknown => "unknown",
        }
    }
}

impl Status {
    /// What kind of thing it is.
    pub const fn class(self) -> StatusClass {
        match self {
            Self::Ok => StatusClass::Ok,
            Self::NotUnderstood => StatusClass::Refused,
            Self::Modem => StatusClass::WrongPort,
            Self::Searching | Self::BusInit | Self::BusInitOk => StatusClass::Progress,
            Self::BusInitError | Self::UnableToConnect | Self::NoData => StatusClass::Vehicle,
            Self::BusInitStopped | Self::Stopped => StatusClass::Driver,
            Self::BufferFull | Self::FeedbackError => StatusClass::Adapter,
            Self::AdapterFault(0x94) | Self::LowVoltageReset => StatusClass::Reset,
            Self::AdapterFault(_) => StatusClass::Adapter,
            Self::BusBusy | Self::BusError | Self::CanError | Self::DataError | Self::RxError => {
                StatusClass::Bus
            }
            Self::ActivityAlert | Self::LowPowerAlert => StatusClass::Alert,
            Self::FlowControl | Self::RemoteFrame => StatusClass::Mark,
            Self::Identity | Self::Voltage | Self::ProtocolName | Self::ProtocolNumber => StatusClass::Answer,
            Self::Vendor => StatusClass::Unknown,
        }
    }

    /// The kebab-case word, as `decode --messages` prints it (the words of `wire_vectors.csv`).
    pub const fn kind(self) -> &'static str {
        match self {
            Self::Ok => "ok-command",
            Self::NotUnderstood => "not-understood",
            Self::Modem => "not-an-adapter",
            Self::Searching | Self::BusInit | Self::BusInitOk => "incomplete",
            Self::BusInitError | Self::UnableToConnect => "no-connection",
            Self::NoData => "no-data",
            Self::BusInitStopped | Self::Stopped => "interrupted",
            Self::BufferFull => "overrun",
            Self::BusBusy | Self::BusError | Self::CanError | Self::FeedbackError => "bus-error",
            Self::DataError | Self::RxError => "data-error",
            Self::AdapterFault(_) => "adapter-fault",
            Self::LowVoltageReset => "adapter-reset",
            Self::ActivityAlert | Self::LowPowerAlert => "power-alert",
            Self::FlowControl | Self::RemoteFrame => "ignored",
            Self::Identity => "identity",
            Self::Voltage => "voltage",
            Self::ProtocolName => "protocol-name",
            Self::ProtocolNumber => "protocol-number",
            Self::Vendor => "unknown-text",
        }
    }
}

impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AdapterFault(number) => write!(f, "ERR{number:02X}"),
            other => f.pad(TEXTS.iter().find(|row| row.2 == *other).map_or(other.kind(), |row| row.0)),
        }
    }
}

/// How a text is compared.
#[derive(Clone, Copy)]
enum Match {
    Whole,
    Start,
    End,
}

/// Blanks removed, upper case; the first row that fits wins.
#[rustfmt::skip]
const TEXTS: &[(&str, Match, Status)] = &[
    ("<DATAERROR",      Match::End,   Status::DataError),
    ("<RXERROR",        Match::End,   Status::RxError),
    ("OK",              Match::Whole, Status::Ok),
    ("?",               Match::Start, Status::NotUnderstood),
    ("ERROR",           Match::Whole, Status::Modem),
    ("BUSINIT:OK",      Match::Start, Status::BusInitOk),
    ("BUSINIT:ERROR",   Match::Start, Status::BusInitError),
    ("BUSINIT:STOPPED", Match::Start, Status::BusInitStopped),
    ("BUSINIT",         Match::Start, Status::BusInit),
    ("SEARCHING",       Match::Start, Status::Searching),
    ("UNABLETOCONNECT", Match::Whole, Status::UnableToConnect),
    ("NODATA",          Match::Whole, Status::NoData),
    ("STOPPED",         Match::Whole, Status::Stopped),
    ("BUFFERFULL",      Match::Whole, Status::BufferFull),
    ("BUSBUSY",         Match::Whole, Status::BusBusy),
    ("BUSERROR",        Match::Whole, Status::BusError),
    ("CANERROR",        Match::Whole, Status::CanError),
    ("DATAERROR",       Match::Whole, Status::DataError),
    ("FBERROR",         Match::Whole, Status::FeedbackError),
    ("LVRESET",         Match::Whole, Status::LowVoltageReset),
    ("ACTALERT",        Match::Whole, Status::ActivityAlert),
    ("!ACTALERT",       Match::Whole, Status::ActivityAlert),
    ("LPALERT",         Match::Whole, Status::LowPowerAlert),
    ("!LPALERT",        Match::Whole, Status::LowPowerAlert),
    ("FC:",             Match::Start, Status::FlowControl),
    ("RTR",             Match::End,   Status::RemoteFrame),
    ("ELM327",          Match::Start, Status::Identity),
    ("STN",             Match::Start, Status::Identity),
    ("AUTO",            Match::Start, Status::ProtocolName),
    ("SAE",             Match::Start, Status::ProtocolName),
    ("ISO",             Match::Start, Status::ProtocolName),
    ("VENDOR",          Match::Start, Status::Vendor),
];

/// What `line` says, when it is a text of the adapter and no data; `None` otherwise.
///
/// A line that begins with `SEARCHING` or `BUS INIT` is that, even if data are glued to it:
/// [`crate::messages`] takes the data. A protocol number such as `A6` is one only as a whole line.
pub fn status(line: &[u8]) -> Option<Status> {
    // Most lines are data, and no text is digits alone but the number of a protocol; a law below says so.
    if is_long_digits(line) {
        return None;
    }
    in_words(line)
}

/// Three digits or more, and nothing else.
fn is_long_digits(line: &[u8]) -> bool {
    // All are looked at, without a way out in between, so that many are at a time.
    line.len() > 2 && line.iter().fold(true, |all, byte| all & byte.is_ascii_hexdigit())
}

fn in_words(line: &[u8]) -> Option<Status> {
    let mut buffer = [0; 40];
    squeeze(line, &mut buffer).and_then(classify)
}

/// The line without blanks, zero bytes and (after `BUS INIT:`) dots, in upper case; `None` if it is empty. Of
/// a line that is too long the first and the last part are kept: texts stand at the ends.
fn squeeze<'a>(line: &[u8], buffer: &'a mut [u8; 40]) -> Option<&'a [u8]> {
    let mut count = 0;
    for byte in line.iter().filter(|byte| !matches!(byte, 0 | b' ' | b'\t' | b'\r' | b'\n' | b'.')) {
        if count == buffer.len() {
            buffer.copy_within(21.., 20);
            count -= 1;
        }
        *buffer.get_mut(count)? = byte.to_ascii_uppercase();
        count += 1;
    }
    buffer.get(..count).filter(|text| !text.is_empty())
}

fn classify(text: &[u8]) -> Option<Status> {
    let named = TEXTS.iter().find(|(want, how, _)| match how {
        Match::Whole => text == want.as_bytes(),
        Match::Start => text.starts_with(want.as_bytes()),
        Match::End => text.ends_with(want.as_bytes()),
    });
    if let Some((_, _, status)) = named {
        return Some(*status);
    }
    let fault = || whole(grammar::fault, text).map(Status::AdapterFault);
    let number = || whole(grammar::protocol_number, text).map(|_| Status::ProtocolNumber);
    let voltage = || whole(grammar::voltage, text).map(|_| Status::Voltage);
    fault().or_else(number).or_else(voltage)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_texts_of_the_adapter_are_told_apart() {
        let cases: &[(&str, Option<Status>)] = &[
            ("OK", Some(Status::Ok)),
            ("?", Some(Status::NotUnderstood)),
            ("?WRONG HEXCHAR COUNT", Some(Status::NotUnderstood)),
            ("SEARCHING...", Some(Status::Searching)),
            ("SEARCHING...7E8 03 41 05 7B", Some(Status::Searching)),
            ("BUS INIT: ", Some(Status::BusInit)),
            ("BUS INIT: ...OK", Some(Status::BusInitOk)),
            ("BUSINIT:OK", Some(Status::BusInitOk)),
            ("BUS INIT: ...ERROR", Some(Status::BusInitError)),
            ("BUSINIT: ...ERROR", Some(Status::BusInitError)),
            ("BUS INIT: STOPPED", Some(Status::BusInitStopped)),
            ("UNABLE TO CONNECT", Some(Status::UnableToConnect)),
            ("no data", Some(Status::NoData)),
            ("ERR94", Some(Status::AdapterFault(0x94))),
            ("!LP ALERT", Some(Status::LowPowerAlert)),
            ("7E8 03 41 05 7B <RX ERROR", Some(Status::RxError)),
            ("12.6V", Some(Status::Voltage)),
            ("A6", Some(Status::ProtocolNumber)),
            ("ELM327 v1.5", Some(Status::Identity)),
            ("AUTO, ISO 15765-4 (CAN 11/500)", Some(Status::ProtocolName)),
            ("41 05 7B", None),
            ("V", None),
            ("", None),
            (" \0 ", None),
        ];
        for (line, want) in cases {
            assert_eq!(status(line.as_bytes()), *want, "{line}");
        }
    }

    proptest::proptest! {
        #[test]
        fn three_digits_and_more_are_never_a_text(line in "[0-9A-Fa-f]{3,60}") {
            proptest::prop_assert!(is_long_digits(line.as_bytes()));
            proptest::prop_assert_eq!(in_words(line.as_bytes()), None);
        }
    }

    #[test]
    fn the_mark_at_the_end_of_a_very_long_line_is_seen() {
        let mut line = alloc::vec![b'4'; 5000];
        line.extend_from_slice(b" <DATA ERROR");
        assert_eq!(status(&line), Some(Status::DataError));
    }
}
