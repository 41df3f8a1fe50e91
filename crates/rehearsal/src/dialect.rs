//! The command set: what each `AT` line does to the settings, and what the adapter says to it.
//!
//! In: one line without its CR. Out: what is said, and the changed [`Settings`].
//! One table of commands, one row each; what a firmware lacks is data in `firmware.rs`.
//! Not here: when it is said (`car.rs`), how data lines look (`layout.rs`).
//! Source: adapter reference, dialect sections 1, 2, 5, 6, and `firmware_differences.csv`.

use crate::firmware::{Firmware, Habit};

/// What the adapter remembers between lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Settings {
    /// `ATE`: the request comes back first.
    pub echo: Switch,
    /// `ATL`: LF after each CR.
    pub line_feeds: Switch,
    /// `ATS`: spaces between bytes.
    pub spaces: Switch,
    /// `ATH`: sender and length are shown.
    pub headers: Switch,
    /// `ATAT`: 0 waits as long as `wait` says, 1 and 2 learn.
    pub adaptive: u8,
    /// `ATST`: in steps of 4.096 ms.
    pub wait: u8,
    /// The protocol's number; 0: none chosen.
    pub protocol: u8,
    /// Whether the number was, or is to be, found by a search.
    pub auto: Switch,
    /// Whether the protocol is in use.
    pub active: Switch,
    /// `ATSH`: where requests go.
    pub to: u16,
    /// `ATCRA`, or `ATCF` and `ATCM`: identifier and mask of what is let through.
    pub filter: (u16, u16),
}

/// On or off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Switch {
    /// Off.
    Off,
    /// On.
    On,
}

impl Switch {
    /// Whether it is on.
    pub const fn is_on(self) -> bool {
        matches!(self, Self::On)
    }
}

impl Settings {
    /// After power-up and reset.
    pub const DEFAULT: Self = Self {
        echo: Switch::On,
        line_feeds: Switch::Off,
        spaces: Switch::On,
        headers: Switch::Off,
        adaptive: 1,
        wait: DEFAULT_WAIT,
        protocol: 0,
        auto: Switch::On,
        active: Switch::Off,
        to: crate::ecu::FUNCTIONAL,
        filter: (0, 0),
    };

    /// How long it waits for an answer at most, ms.
    pub fn wait_ms(&self) -> f64 {
        f64::from(if self.wait == 0 { DEFAULT_WAIT } else { self.wait }) * WAIT_STEP_MS
    }
}

/// What the adapter says to a command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// `OK`.
    Ok,
    /// `?`: not known, or not allowed.
    Unknown,
    /// A text.
    Text(&'static str),
    /// A number or name that was put together.
    Made(String),
    /// The banner, after a silence of so many milliseconds.
    Banner(u64),
    /// The voltage at the connector, which the caller knows.
    Voltage,
}

/// Carries out what stands after `AT`, in capital letters and without spaces.
pub fn command(word: &str, settings: &mut Settings, firmware: &Firmware) -> Said {
    if firmware.refuses.iter().any(|lacks| word.starts_with(lacks)) {
        return Said::Unknown;
    }
    // The longest name first, so that `SP` is not read as `S` with an odd argument.
    for row in COMMANDS {
        if let Some(argument) = word.strip_prefix(row.0).filter(|argument| row.1.fits(argument)) {
            return row.2.carry_out(argument, settings, firmware);
        }
    }
    Said::Unknown
}

/// What may follow a command's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Takes {
    Nothing,
    ZeroOne,
    Hex(&'static [usize]),
}

impl Takes {
    fn fits(self, argument: &str) -> bool {
        match self {
            Self::Nothing => argument.is_empty(),
            Self::ZeroOne => matches!(argument, "0" | "1"),
            Self::Hex(lengths) => {
                lengths.contains(&argument.len()) && argument.bytes().all(|b| b.is_ascii_hexdigit())
            }
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Does {
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
    Protocol,
    Close,
    ProtocolNumber,
    ProtocolName,
    Header,
    ReceiveAll,
    Receive,
    Filter,
    Mask,
    Volts,
    Accept,
    Refuse,
}

/// One command: its name after `AT`, what may follow, what it does.
#[rustfmt::skip]
const COMMANDS: &[(&str, Takes, Does)] = &[
    ("DPN", Takes::Nothing,            Does::ProtocolNumber),
    ("CAF", Takes::ZeroOne,            Does::Accept),
    ("CFC", Takes::ZeroOne,            Does::Accept),
    ("CRA", Takes::Nothing,            Does::ReceiveAll),
    ("CRA", Takes::Hex(&[3]),          Does::Receive),
    ("CSM", Takes::ZeroOne,            Does::Accept),
    ("CTM", Takes::Hex(&[1]),          Does::Accept),
    ("CEA", Takes::Nothing,            Does::Accept),
    ("AMC", Takes::Nothing,            Does::Refuse),
    ("FCSM", Takes::ZeroOne,           Does::Accept),
    ("FCSH", Takes::Hex(&[3]),         Does::Accept),
    ("FCSD", Takes::Hex(&[2, 4, 6]),   Does::Accept),
    ("IGN", Takes::Nothing,            Does::Refuse),
    ("AL",  Takes::Nothing,            Does::Accept),
    ("AR",  Takes::Nothing,            Does::ReceiveAll),
    ("AT",  Takes::Hex(&[1]),          Does::Adaptive),
    ("CF",  Takes::Hex(&[3]),          Does::Filter),
    ("CM",  Takes::Hex(&[3]),          Does::Mask),
    ("DP",  Takes::Nothing,            Does::ProtocolName),
    ("FE",  Takes::Nothing,            Does::Accept),
    ("KW",  Takes::ZeroOne,            Does::Accept),
    ("NL",  Takes::Nothing,            Does::Accept),
    ("PC",  Takes::Nothing,            Does::Close),
    ("RV",  Takes::Nothing,            Does::Volts),
    ("SH",  Takes::Hex(&[3]),          Does::Header),
    ("SP",  Takes::Hex(&[1, 2]),       Does::Protocol),
    ("ST",  Takes::Hex(&[2]),          Does::Wait),
    ("TP",  Takes::Hex(&[1, 2]),       Does::Protocol),
    ("WS",  Takes::Nothing,            Does::WarmStart),
    ("@1",  Takes::Nothing,            Does::Device),
    ("@2",  Takes::Nothing,            Does::Refuse),
    ("D",   Takes::Nothing,            Does::Defaults),
    ("D",   Takes::ZeroOne,            Does::Accept),
    ("E",   Takes::ZeroOne,            Does::Echo),
    ("H",   Takes::ZeroOne,            Does::Headers),
    ("I",   Takes::Nothing,            Does::Identity),
    ("L",   Takes::ZeroOne,            Does::LineFeeds),
    ("M",   Takes::ZeroOne,            Does::Accept),
    ("R",   Takes::ZeroOne,            Does::Accept),
    ("S",   Takes::ZeroOne,            Does::Spaces),
    ("Z",   Takes::Nothing,            Does::Reset),
];

impl Does {
    fn carry_out(self, argument: &str, settings: &mut Settings, firmware: &Firmware) -> Said {
        let on = if argument == "1" { Switch::On } else { Switch::Off };
        let number = u16::from_str_radix(argument, 16).unwrap_or(0);
        match self {
            Self::Refuse => return Said::Unknown,
            Self::Accept => {}
            Self::Identity => return Said::Text(firmware.identity),
            Self::Device => return Said::Text(firmware.device),
            Self::Volts => return Said::Voltage,
            Self::Reset | Self::WarmStart => {
                *settings = Settings::DEFAULT;
                return Said::Banner(if self == Self::Reset { firmware.reset_ms } else { WARM_START_MS });
            }
            Self::Defaults => {
                // ATD leaves the echo as it was (exchange X019 of the reference).
                *settings = Settings { echo: settings.echo, ..Settings::DEFAULT };
            }
            Self::Echo if firmware.has(Habit::EchoStays) => {}
            Self::Echo => settings.echo = on,
            Self::Spaces if firmware.has(Habit::SpacesStay) => {}
            Self::Spaces => settings.spaces = on,
            Self::LineFeeds => settings.line_feeds = on,
            Self::Headers => settings.headers = on,
            Self::Adaptive if number > 2 => return Said::Unknown,
            Self::Adaptive => settings.adaptive = number as u8,
            Self::Wait => settings.wait = number as u8,
            Self::Protocol => return protocol(argument, settings),
            Self::Close => settings.active = Switch::Off,
            Self::ProtocolNumber => {
                let auto = if settings.auto.is_on() { "A" } else { "" };
                return Said::Made(format!("{auto}{:X}", settings.protocol));
            }
            Self::ProtocolName => {
                let auto = if settings.auto.is_on() { "AUTO, " } else { "" };
                return Said::Made(
                    format!("{auto}{}", protocol_name(settings.protocol)).trim_end_matches(", ").into(),
                );
            }
            Self::Header => settings.to = number & 0x7FF,
            Self::ReceiveAll => settings.filter = (0, 0),
            Self::Receive => settings.filter = (number & 0x7FF, 0x7FF),
            Self::Filter => settings.filter.0 = number & 0x7FF,
            Self::Mask => settings.filter.1 = number & 0x7FF,
        }
        Said::Ok
    }
}

/// `SP` and `TP`: a number, or `A` and a number that is tried first.
fn protocol(argument: &str, settings: &mut Settings) -> Said {
    let (auto, digit) = match argument.as_bytes() {
        [b'A', digit] | [digit, b'A'] if argument.len() == 2 => (Switch::On, *digit),
        [b'0'] => (Switch::On, b'0'),
        [digit] => (Switch::Off, *digit),
        _ => return Said::Unknown,
    };
    let Some(number) = char::from(digit).to_digit(16).filter(|n| *n <= 0xC) else { return Said::Unknown };
    (settings.protocol, settings.auto, settings.active) = (number as u8, auto, Switch::Off);
    Said::Ok
}

/// The name `ATDP` gives.
fn protocol_name(number: u8) -> &'static str {
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

/// Data sheet p.27, 69: 32 hex steps of 4.096 ms are 205 ms.
const DEFAULT_WAIT: u8 = 0x32;
const WAIT_STEP_MS: f64 = 4.096;
/// Data sheet p.7.
const WARM_START_MS: u64 = 2;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::firmware::{COPY_15, ORIGINAL_21};

    #[test]
    fn commands_answer_by_the_data_sheet() {
        let cases: &[(&str, &str, &Firmware, Said)] = &[
            ("identity", "I", &ORIGINAL_21, Said::Text("ELM327 v2.1")),
            ("no identifier stored", "@2", &ORIGINAL_21, Said::Unknown),
            ("a switch", "E0", &ORIGINAL_21, Said::Ok),
            ("a switch has two positions", "E2", &ORIGINAL_21, Said::Unknown),
            ("nothing chosen yet", "DPN", &ORIGINAL_21, Said::Made("A0".into())),
            ("nonsense", "Q9", &ORIGINAL_21, Said::Unknown),
            ("the copy lacks it", "AT1", &COPY_15, Said::Unknown),
            ("the copy lacks it too", "CRA7E8", &COPY_15, Said::Unknown),
            ("the copy says OK to what it ignores", "E0", &COPY_15, Said::Ok),
            ("silence, then the banner", "Z", &ORIGINAL_21, Said::Banner(800)),
            ("the warm start is quick", "WS", &ORIGINAL_21, Said::Banner(2)),
            ("no such protocol", "SPD", &ORIGINAL_21, Said::Unknown),
        ];
        for (what, word, firmware, want) in cases {
            assert_eq!(command(word, &mut Settings::DEFAULT.clone(), firmware), *want, "{what}");
        }
    }

    #[test]
    fn longer_names_come_before_shorter_ones_so_each_row_can_be_reached() {
        for (place, (name, ..)) in COMMANDS.iter().enumerate() {
            let earlier = COMMANDS.iter().take(place);
            let hidden = earlier
                .filter(|(first, takes, _)| name.starts_with(first) && takes.fits(&name[first.len()..]));
            assert!(hidden.filter(|(first, ..)| first != name).count() == 0, "{name}");
        }
    }

    #[test]
    fn a_filter_and_a_header_are_taken_and_given_back() {
        let mut settings = Settings::DEFAULT;
        for word in ["SH7E1", "CRA7E9", "TP6", "AT0", "ST19"] {
            assert_eq!(command(word, &mut settings, &ORIGINAL_21), Said::Ok, "{word}");
        }
        assert_eq!((settings.to, settings.filter, settings.protocol), (0x7E1, (0x7E9, 0x7FF), 6));
        assert_eq!(settings.wait_ms().round(), 102.0);
        command("AR", &mut settings, &ORIGINAL_21);
        assert_eq!(settings.filter, (0, 0));
    }
}
