//! The command set: what each `AT` line does to the settings, and what the adapter says to it.
//!
//! In: one line without its CR. Out: what is said, and the changed [`Settings`].
//! One table of commands, one row each, with the version that brought it (`table.rs`); what else a firmware lacks is
//! data in `firmware`. Not here: when it is said (`car/`), how data lines look (`layout.rs`).
//! Source: adapter reference, dialect sections 1, 2, 5, 6, and `firmware_differences.csv`.

mod does;
mod table;

use crate::bus::Header;
use crate::firmware::{Firmware, Habit};

pub use table::names;

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
    /// `ATCTM5`: five times that on CAN.
    pub wait_five_times: Switch,
    /// `ATSW`: how often an idle K line is kept awake, in steps of 20.48 ms; 0: never.
    pub wake: u8,
    /// The protocol's number; 0: none chosen.
    pub protocol: u8,
    /// Whether the number was, or is to be, found by a search.
    pub auto: Switch,
    /// Whether the protocol is in use.
    pub active: Switch,
    /// What `ATSP` stored, which a reset brings back: number, and whether to search on.
    pub stored: (u8, Switch),
    /// `ATSH`: where requests go; none: to everybody.
    pub to: Option<Header>,
    /// `ATCP`: the upper five bits of a 29-bit identifier.
    pub priority: u8,
    /// `ATCRA`, or `ATCF` and `ATCM`: identifier and mask of what is let through; none: what the standard wants.
    pub filter: Option<(u32, u32)>,
    /// `ATCFC1`: the first frame of a long answer is acknowledged.
    pub acknowledges: Switch,
    /// `ATFCSH`: as whom.
    pub flow_header: Option<Header>,
    /// `ATFCSD`: whether the data of that were given.
    pub flow_data: Switch,
    /// `ATFCSM`: 0 by itself, 1 as set, 2 with its own data only.
    pub flow_mode: u8,
    /// `ATBRT`: in steps of 5 ms; 0: 256 of them.
    pub rate_wait: u8,
    /// Events that keep CAN out of searches, until `ATFE` or a reset by hand.
    pub can_blocked: Switch,
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
    /// After power-up and reset, nothing stored.
    /// Source: data sheet, the default of each command.
    pub const DEFAULT: Self = Self {
        echo: Switch::On,
        line_feeds: Switch::Off,
        spaces: Switch::On,
        headers: Switch::Off,
        adaptive: 1,
        wait: DEFAULT_WAIT,
        wait_five_times: Switch::Off,
        wake: DEFAULT_WAKE,
        protocol: 0,
        auto: Switch::On,
        active: Switch::Off,
        stored: (0, Switch::On),
        to: None,
        priority: 0x18,
        filter: None,
        acknowledges: Switch::On,
        flow_header: None,
        flow_data: Switch::Off,
        flow_mode: 0,
        rate_wait: DEFAULT_RATE_WAIT,
        can_blocked: Switch::Off,
    };

    /// The defaults, with the protocol that was stored.
    #[must_use]
    pub const fn restarted(&self) -> Self {
        let (protocol, auto) = self.stored;
        Self { protocol, auto, stored: self.stored, ..Self::DEFAULT }
    }

    /// How long it waits for an answer at most, ms.
    pub fn wait_ms(&self) -> f64 {
        let factor = if self.wait_five_times.is_on() { 5.0 } else { 1.0 };
        f64::from(if self.wait == 0 { DEFAULT_WAIT } else { self.wait }) * WAIT_STEP_MS * factor
    }

    /// How long each side waits for the other while the rate is changed, ms.
    pub fn rate_wait_ms(&self) -> f64 {
        f64::from(if self.rate_wait == 0 { 256 } else { u16::from(self.rate_wait) }) * RATE_STEP_MS
    }
}

/// What the adapter says to a command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CommandReply {
    /// `OK`.
    Ok,
    /// `OK`, after the write into its own memory.
    Stored,
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
    /// `OK`, and then the other rate, bits per second.
    Rate(u32),
    /// Nothing, ever again.
    Hangs,
}

/// Carries out what stands after `AT`, in capital letters and without spaces.
pub fn command(word: &str, settings: &mut Settings, firmware: &Firmware) -> CommandReply {
    if word.starts_with("TPA0") && firmware.has(Habit::HangsOnTpA0) {
        return CommandReply::Hangs;
    }
    if firmware.refuses.iter().any(|lacks| word.starts_with(lacks)) {
        return CommandReply::Unknown;
    }
    match table::find(word, firmware.level) {
        Some((does, argument)) => does.carry_out(argument, settings, firmware),
        None if firmware.has(Habit::SaysYes) => CommandReply::Ok,
        None => CommandReply::Unknown,
    }
}

/// What stands after `ST`, of the other family (STN1100 manual p.9-11).
pub fn family_command(word: &str, firmware: &Firmware) -> CommandReply {
    let Some(family) = firmware.family else {
        return if firmware.has(Habit::SaysYes) { CommandReply::Ok } else { CommandReply::Unknown };
    };
    match word.strip_prefix("BR").map(str::parse::<u32>) {
        Some(Ok(rate)) if (9_600..=2_000_000).contains(&rate) => CommandReply::Rate(rate),
        Some(_) => CommandReply::Unknown,
        None if word == "I" => CommandReply::Text(family),
        None => CommandReply::Unknown,
    }
}

/// 32 hex steps of 4.096 ms are 205 ms.
/// Source: data sheet pages 27 and 69.
const DEFAULT_WAIT: u8 = 0x32;
const WAIT_STEP_MS: f64 = 4.096;
/// 92 hex steps of 20.48 ms are 3 s.
/// Source: data sheet pages 27 and 72.
const DEFAULT_WAKE: u8 = 0x92;
/// 0F hex steps of 5 ms are 75 ms.
/// Source: data sheet page 13.
const DEFAULT_RATE_WAIT: u8 = 0x0F;
const RATE_STEP_MS: f64 = 5.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::firmware::{COPY_15, ORIGINAL_21, OTHER_FAMILY};

    #[test]
    fn commands_answer_by_the_data_sheet() {
        let cases: &[(&str, &str, &Firmware, CommandReply)] = &[
            ("identity", "I", &ORIGINAL_21, CommandReply::Text("ELM327 v2.1")),
            ("no identifier stored", "@2", &ORIGINAL_21, CommandReply::Unknown),
            ("a switch", "E0", &ORIGINAL_21, CommandReply::Ok),
            ("a switch has two positions", "E2", &ORIGINAL_21, CommandReply::Unknown),
            ("nothing chosen yet", "DPN", &ORIGINAL_21, CommandReply::Made("A0".into())),
            ("nonsense", "Q9", &ORIGINAL_21, CommandReply::Unknown),
            ("the copy lacks it", "AT1", &COPY_15, CommandReply::Unknown),
            ("the copy lacks it too", "CRA7E8", &COPY_15, CommandReply::Unknown),
            ("the copy says OK to what it ignores", "E0", &COPY_15, CommandReply::Ok),
            ("silence, then the banner", "Z", &ORIGINAL_21, CommandReply::Banner(800)),
            ("the warm start is quick", "WS", &ORIGINAL_21, CommandReply::Banner(2)),
            ("no such protocol", "SPD", &ORIGINAL_21, CommandReply::Unknown),
            ("4000 kbit/s by 23 hex", "BRD23", &ORIGINAL_21, CommandReply::Rate(114_286)),
            ("faster than 500 kbit/s", "BRD07", &ORIGINAL_21, CommandReply::Unknown),
            ("X048 neither header nor data yet", "FCSM1", &ORIGINAL_21, CommandReply::Unknown),
            ("a write into its memory", "SP6", &ORIGINAL_21, CommandReply::Stored),
            ("a search needs none", "SP0", &ORIGINAL_21, CommandReply::Ok),
        ];
        for (what, word, firmware, want) in cases {
            assert_eq!(command(word, &mut Settings::DEFAULT.clone(), firmware), *want, "{what}");
        }
    }

    #[test]
    fn the_other_family_has_commands_of_its_own() {
        for (word, firmware, want) in [
            ("I", &OTHER_FAMILY, CommandReply::Text("STN1110 v4.0.4")),
            ("I", &ORIGINAL_21, CommandReply::Unknown),
            ("BR115200", &OTHER_FAMILY, CommandReply::Rate(115_200)),
            ("BR1", &OTHER_FAMILY, CommandReply::Unknown),
            ("BR115200", &ORIGINAL_21, CommandReply::Unknown),
        ] {
            assert_eq!(family_command(word, firmware), want, "{word}");
        }
    }

    #[test]
    fn a_filter_and_a_header_are_taken_and_given_back() {
        let mut settings = Settings::DEFAULT;
        for word in ["TP6", "SH7E1", "CRA7E9", "AT0", "ST19"] {
            assert_eq!(command(word, &mut settings, &ORIGINAL_21), CommandReply::Ok, "{word}");
        }
        assert_eq!(settings.to, Some(Header { value: 0x7E1, digits: 3 }));
        assert_eq!((settings.filter, settings.protocol), (Some((0x7E9, 0x1FFF_FFFF)), 6));
        assert_eq!(settings.wait_ms().round(), 102.0);
        command("CRA7EX", &mut settings, &ORIGINAL_21);
        assert_eq!(settings.filter, Some((0x7E0, 0x1FFF_FFF0)));
        command("AR", &mut settings, &ORIGINAL_21);
        assert_eq!(settings.filter, None);
        for word in ["FCSH750", "FCSD300000", "FCSM1"] {
            assert_eq!(command(word, &mut settings, &ORIGINAL_21), CommandReply::Ok, "{word}");
        }
        assert_eq!((settings.flow_mode, settings.flow_header.unwrap().value), (1, 0x750));
    }

    #[test]
    fn a_stored_protocol_survives_a_reset_and_a_tried_one_does_not() {
        let mut settings = Settings::DEFAULT;
        for (word, want) in [("TP6", 0), ("SP6", 6), ("TP3", 6), ("SP0", 0)] {
            command(word, &mut settings, &ORIGINAL_21);
            assert_eq!(settings.restarted().protocol, want, "{word}");
        }
    }
}
