//! What each command does to the settings.
//!
//! In: the argument behind a command's name. Out: [`CommandReply`] and the changed [`Settings`].
//! Source: adapter reference, dialect sections 2, 3, 5, 6, 8 and 9.

use super::{CommandReply, Settings, Switch};
use crate::bus::Header;
use crate::firmware::{Firmware, Habit};

/// One doing; the rows of the table name them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Does {
    Reset,
    WarmStart,
    Defaults,
    Identity,
    Device,
    Echo,
    LineFeeds,
    Spaces,
    Headers,
    Adaptive,
    Wait,
    WaitFactor,
    Wake,
    Store,
    Protocol,
    Close,
    ProtocolNumber,
    ProtocolName,
    Header,
    Priority,
    ReceiveAll,
    Receive,
    Filter,
    Mask,
    Acknowledge,
    FlowHeader,
    FlowData,
    FlowMode,
    Rate,
    RateWait,
    Volts,
    Ignition,
    ForgetEvents,
    Counters,
    Activity,
    KeyWords,
    Accept,
    Refuse,
}

impl Does {
    pub(super) fn carry_out(
        self,
        argument: &str,
        settings: &mut Settings,
        firmware: &Firmware,
    ) -> CommandReply {
        let on = if argument == "1" { Switch::On } else { Switch::Off };
        let byte = u8::from_str_radix(argument, 16).unwrap_or(0);
        match self {
            Self::Refuse => return CommandReply::Unknown,
            Self::Accept => {}
            Self::Identity => return CommandReply::Text(firmware.identity),
            Self::Device => return CommandReply::Text(firmware.device),
            Self::Volts => return CommandReply::Voltage,
            Self::Ignition => return CommandReply::Text("ON"),
            Self::Counters => return CommandReply::Text("T:00 R:00 "),
            Self::Activity => return CommandReply::Text("00"),
            Self::KeyWords => return CommandReply::Text("1:08 2:08 "),
            Self::Reset | Self::WarmStart => {
                *settings = settings.restarted();
                return CommandReply::Banner(if self == Self::Reset {
                    firmware.reset_ms
                } else {
                    WARM_START_MS
                });
            }
            Self::Defaults => {
                // ATD leaves the echo as it was (exchange X019 of the reference).
                *settings = Settings { echo: settings.echo, ..settings.restarted() };
            }
            Self::Echo if firmware.has(Habit::EchoStays) => {}
            Self::Echo => settings.echo = on,
            Self::Spaces if firmware.has(Habit::SpacesStay) => {}
            Self::Spaces => settings.spaces = on,
            Self::LineFeeds if firmware.has(Habit::LineFeedsStay) => {}
            Self::LineFeeds => settings.line_feeds = on,
            Self::Headers if firmware.has(Habit::HeadersStay) => {}
            Self::Headers => settings.headers = on,
            Self::Adaptive if byte > 2 => return CommandReply::Unknown,
            Self::Adaptive => settings.adaptive = byte,
            Self::Wait => settings.wait = byte,
            Self::WaitFactor => match argument {
                "1" => settings.wait_five_times = Switch::Off,
                "5" => settings.wait_five_times = Switch::On,
                _ => return CommandReply::Unknown,
            },
            Self::Wake => settings.wake = byte,
            Self::Store | Self::Protocol => return protocol(argument, self == Self::Store, settings),
            Self::Close => settings.active = Switch::Off,
            Self::ProtocolNumber => {
                let auto = if settings.auto.is_on() { "A" } else { "" };
                return CommandReply::Made(format!("{auto}{:X}", settings.protocol));
            }
            Self::ProtocolName => {
                let auto = if settings.auto.is_on() { "AUTO, " } else { "" };
                return CommandReply::Made(
                    format!("{auto}{}", protocol_name(settings.protocol)).trim_end_matches(", ").into(),
                );
            }
            Self::Header => settings.to = header(argument),
            Self::Priority => settings.priority = byte & 0x1F,
            Self::ReceiveAll => settings.filter = None,
            Self::Receive => settings.filter = receive(argument),
            Self::Filter => {
                let mask = settings.filter.map_or(ALL_BITS, |(_, mask)| mask);
                settings.filter = Some((number(argument), mask));
            }
            Self::Mask => {
                let filter = settings.filter.map_or(0, |(filter, _)| filter);
                settings.filter = Some((filter, number(argument)));
            }
            Self::Acknowledge => settings.acknowledges = on,
            Self::FlowHeader => settings.flow_header = header(argument),
            Self::FlowData => settings.flow_data = Switch::On,
            Self::FlowMode => return flow_mode(argument, settings),
            Self::Rate if byte < FASTEST => return CommandReply::Unknown,
            Self::Rate => return CommandReply::Rate((f64::from(RATE_BY) / f64::from(byte)).round() as u32),
            Self::RateWait => settings.rate_wait = byte,
            Self::ForgetEvents => settings.can_blocked = Switch::Off,
        }
        CommandReply::Ok
    }
}

fn number(argument: &str) -> u32 {
    u32::from_str_radix(argument, 16).unwrap_or(0)
}

fn header(argument: &str) -> Option<Header> {
    Some(Header { value: number(argument), digits: argument.len() })
}

/// `CRA` with a value, in which `X` lets any digit through; without one it lets all through.
fn receive(argument: &str) -> Option<(u32, u32)> {
    let digits = |any: char, other: fn(char) -> char| -> u32 {
        number(&argument.chars().map(|c| if c == 'X' { any } else { other(c) }).collect::<String>())
    };
    let missing = if argument.len() == 8 { 0 } else { ALL_BITS & !0x7FF };
    let mask = digits('0', |_| 'F') & ALL_BITS | missing;
    (!argument.is_empty()).then(|| (digits('0', |c| c), mask))
}

/// Modes 1 and 2 need what they send (data sheet p.60).
fn flow_mode(argument: &str, settings: &mut Settings) -> CommandReply {
    let ready = match argument {
        "0" => true,
        "1" => settings.flow_header.is_some() && settings.flow_data.is_on(),
        "2" => settings.flow_data.is_on(),
        _ => false,
    };
    if !ready {
        return CommandReply::Unknown;
    }
    settings.flow_mode = number(argument) as u8;
    CommandReply::Ok
}

/// `SP` and `TP`: a number, or `A` and a number that is tried first. Another protocol has its own header.
fn protocol(argument: &str, store: bool, settings: &mut Settings) -> CommandReply {
    let (auto, digit) = match argument.as_bytes() {
        [b'A', digit] | [digit, b'A'] if argument.len() == 2 => (Switch::On, *digit),
        [b'0'] | [b'0', b'0'] => (Switch::On, b'0'),
        [digit] => (Switch::Off, *digit),
        _ => return CommandReply::Unknown,
    };
    let Some(number) = char::from(digit).to_digit(16).filter(|n| *n <= 0xC) else {
        return CommandReply::Unknown;
    };
    if settings.protocol != number as u8 {
        (settings.to, settings.filter) = (None, None);
    }
    (settings.protocol, settings.auto, settings.active) = (number as u8, auto, Switch::Off);
    if store {
        settings.stored = (number as u8, auto);
    }
    if store && number != 0 { CommandReply::Stored } else { CommandReply::Ok }
}

/// The name `ATDP` gives.
const fn protocol_name(number: u8) -> &'static str {
    match number {
        1 => "SAE J1850 PWM",
        2 => "SAE J1850 VPW",
        3 => "ISO 9141-2",
        4 => "ISO 14230-4 (KWP 5BAUD)",
        5 => "ISO 14230-4 (KWP FAST)",
        6 => "ISO 15765-4 (CAN 11/500)",
        7 => "ISO 15765-4 (CAN 29/500)",
        8 => "ISO 15765-4 (CAN 11/250)",
        9 => "ISO 15765-4 (CAN 29/250)",
        0xA => "SAE J1939 (CAN 29/250)",
        0xB => "USER1 (CAN 11/125)",
        0xC => "USER2 (CAN 11/50)",
        _ => "",
    }
}

/// How long a warm start takes.
/// Source: data sheet page 7.
const WARM_START_MS: u64 = 2;
/// The rate by the argument, the fastest there is, and the bits of the longest identifier.
/// Source: data sheet pages 13 and 70; ISO 11898-1, from memory.
const RATE_BY: u32 = 4_000_000;
const FASTEST: u8 = 0x08;
const ALL_BITS: u32 = 0x1FFF_FFFF;
