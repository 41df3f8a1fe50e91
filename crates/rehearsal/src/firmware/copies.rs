//! Copies, each with the difference that one report tells of.

use super::{Firmware, Habit, Level, ORIGINAL_21};

/// A copy with an old command set that answers `OK` to switches it ignores.
pub const COPY_15: Firmware = Firmware {
    name: "copy-1.5",
    says: "A copy: keeps echo and spaces whatever it is told, lacks adaptive timing, ATCRA, ATWS and the count digit.",
    source: "exchanges.csv X014, X088; ELMduino #69, #141, #168; a version that was never made, data sheet p.91",
    identity: "ELM327 v1.5",
    level: Level::V13,
    refuses: &["AT", "CRA", "WS", "FCS", "@2", "PPS", "KW"],
    habits: &[Habit::EchoStays, Habit::SpacesStay, Habit::SingleCr, Habit::PaddingShown, Habit::NoDigit],
    reset_ms: 860,
    ..ORIGINAL_21
};

/// What most copies of that number can do.
const COPY_15_PLAIN: Firmware =
    Firmware { identity: "ELM327 v1.5", level: Level::V13, refuses: &["WS"], ..ORIGINAL_21 };

/// No empty line before the prompt.
pub const COPY_15_SINGLE_CR: Firmware = Firmware {
    name: "copy-1.5-single-cr",
    says: "A copy: one CR before each prompt, its banner without CRs in front.",
    source: "exchanges.csv X009, X028; python-OBD #56",
    habits: &[Habit::SingleCr],
    ..COPY_15_PLAIN
};

/// Says where it is in three lines.
pub const COPY_15_LOST_VERSION: Firmware = Firmware {
    name: "copy-1.5-talks",
    says: "A copy: puts other lines in front of the protocol's number.",
    source: "exchanges.csv X080; python-OBD #178",
    habits: &[Habit::LinesBeforeProtocol],
    ..COPY_15_PLAIN
};

/// Dots in front of the data.
pub const COPY_15_DOTS: Firmware = Firmware {
    name: "copy-1.5-dots",
    says: "A copy: glues the dots of its waiting to the first data line.",
    source: "exchanges.csv X072; LTSupportAutomotive #8",
    habits: &[Habit::Dots],
    ..COPY_15_PLAIN
};

/// A "v2.1" with hardly anything of it.
pub const COPY_21_SEARCH_ONLY: Firmware = Firmware {
    name: "copy-2.1-search-only",
    says: "A copy that claims 2.1: refuses every fixed protocol and all that came after version 1.0.",
    source: "exchanges.csv X050; ELMduino #167, #206",
    level: Level::V10,
    refuses: &["WS", "TP", "SP1", "SP2", "SP3", "SP4", "SP5", "SP6", "SP7", "SP8", "SP9", "SPA", "CF", "CM"],
    habits: &[Habit::NoDigit],
    ..ORIGINAL_21
};

/// A "v2.1" that never asks anybody.
pub const COPY_21_DEAF: Firmware = Firmware {
    name: "copy-2.1-deaf",
    says: "A copy that claims 2.1: refuses every request to the vehicle.",
    source: "exchanges.csv X050; ELMduino #167",
    level: Level::V10,
    refuses: COPY_21_SEARCH_ONLY.refuses,
    habits: &[Habit::NoDigit, Habit::Deaf],
    ..ORIGINAL_21
};

/// Locks up on a legal command.
pub const COPY_21_HANGS: Firmware = Firmware {
    name: "copy-2.1-hangs",
    says: "A copy that claims 2.1: never answers again after ATTPA0, until it is unplugged.",
    source: "exchanges.csv X051; ELMduino #69",
    level: Level::V14,
    habits: &[Habit::HangsOnTpA0],
    ..ORIGINAL_21
};

/// Long replies only from where it knows by itself.
pub const COPY_21_NO_FLOW: Firmware = Firmware {
    name: "copy-2.1-no-flow",
    says: "A copy that claims 2.1: no flow control of one's own, no ATCRA; filter and mask it has.",
    source: "dialect section 8, quirks `no-fc` and `no-cra`; ELMduino #69",
    level: Level::V14,
    refuses: &["FC", "CRA"],
    ..ORIGINAL_21
};

/// `OK` to everything.
pub const COPY_YES: Firmware = Firmware {
    name: "copy-yes",
    says: "A copy: OK to everything, nonsense too; echo, spaces and line feeds stay as they are.",
    source: "dialect section 12 and section 18 row 23; clones that say OK and do nothing, common practice",
    identity: "ELM327 v2.1",
    level: Level::V11,
    habits: &[Habit::SaysYes, Habit::EchoStays, Habit::SpacesStay, Habit::LineFeedsStay, Habit::NoDigit],
    ..ORIGINAL_21
};

/// Data without their sender.
pub const COPY_NO_HEADERS: Firmware = Firmware {
    name: "copy-no-headers",
    says: "A copy: ATH1 is OK, but headers never come.",
    source: "dialect section 15, quirk `no-headers`; ELMduino #141 (flags ignored)",
    habits: &[Habit::HeadersStay],
    ..COPY_15_PLAIN
};

/// CR behind the echo, CR and LF behind the data.
pub const COPY_MIXED_ENDS: Firmware = Firmware {
    name: "copy-mixed-ends",
    says: "A copy: line feeds behind the data whatever it is told, none behind the echo, which stays too.",
    source: "exchanges.csv X087; ELMduino #168",
    habits: &[Habit::LineFeedsStay, Habit::EchoStays, Habit::SpacesStay],
    ..COPY_15_PLAIN
};

/// Zero bytes.
pub const COPY_NULS: Firmware = Firmware {
    name: "copy-nuls",
    says: "A copy: zero bytes before its banner and now and then between others.",
    source: "exchanges.csv X016, X102; data sheet p.9",
    habits: &[Habit::Nuls],
    ..COPY_15_PLAIN
};

/// `\xfc`.
pub const COPY_STRAY: Firmware = Firmware {
    name: "copy-stray-byte",
    says: "A copy: a byte FC between the echo of ATZ and the banner.",
    source: "exchanges.csv X003, X004; python-OBD #22, #155, #164",
    habits: &[Habit::StrayByte],
    ..COPY_15_PLAIN
};

/// Words of its own.
pub const COPY_ODD_TEXTS: Firmware = Firmware {
    name: "copy-odd-texts",
    says: "A copy: words of its own, like ?WRONG HEXCHAR COUNT, VENDOR MODE, BUSINIT and SEARCHING without dots.",
    source: "exchanges.csv X101; responses.csv; python-OBD #108, #178, #263; ELMduino #164",
    habits: &[Habit::OddTexts, Habit::NoDigit],
    ..COPY_15_PLAIN
};

/// The prompt drags behind.
pub const COPY_LATE_PROMPT: Firmware = Firmware {
    name: "copy-late-prompt",
    says: "A copy: each prompt comes 60 to 300 ms behind what it belongs to.",
    source: "exchanges.csv X040 to X042; python-OBD #150, #158, #226",
    habits: &[Habit::LatePrompt],
    ..COPY_15_PLAIN
};

/// Another idea of the count digit.
pub const COPY_COUNTS_MESSAGES: Firmware = Firmware {
    name: "copy-counts-messages",
    says: "A copy: the count digit counts messages, not lines.",
    source: "exchanges.csv X098; ELMduino #281",
    habits: &[Habit::CountsMessages],
    ..COPY_15_PLAIN
};

/// One command at a time, or none.
pub const COPY_LOSES_BATCHES: Firmware = Firmware {
    name: "copy-loses-batches",
    says: "A copy: what comes before its prompt is lost.",
    source: "dialect section 6, batching loses replies (public report 2026)",
    habits: &[Habit::LosesBatches],
    ..COPY_15_PLAIN
};

/// A number that is none.
pub const COPY_ODD_VOLTS: Firmware = Firmware {
    name: "copy-odd-volts",
    says: "A copy: the voltage comes as 12.3 without its letter, the prompt glued to it.",
    source: "exchanges.csv X061; python-OBD #178",
    habits: &[Habit::OddVoltage],
    ..COPY_15_PLAIN
};

/// Bluetooth serial.
pub const COPY_RADIO: Firmware = Firmware {
    name: "copy-radio",
    says: "A copy behind Bluetooth: every reply in pieces of a few bytes, some milliseconds apart.",
    source: "dialect section 14; node-bluetooth-obd #16; elmobd #22",
    habits: &[Habit::Pieces],
    ..COPY_15_PLAIN
};

/// Takes its time.
pub const COPY_SLOW_RESET: Firmware = Firmware {
    name: "copy-slow-reset",
    says: "A copy: no warm start, and 2.4 s of silence after ATZ.",
    source: "exchanges.csv X014; dialect section 2 (863 ms over radio measured, 3 s allowed)",
    reset_ms: 2_400,
    ..COPY_15_PLAIN
};
