//! What the makers made: the versions that differ in what they know, and the other chip family.

use super::{Firmware, Habit, Level};

/// A v2.1 that keeps every rule.
pub const ORIGINAL_21: Firmware = Firmware {
    name: "original-2.1",
    says: "Keeps every rule of the data sheet of version 2.1.",
    source: "data sheet ELM327DSJ",
    identity: "ELM327 v2.1",
    level: Level::V21,
    device: "OBDII to RS232 Interpreter",
    family: None,
    refuses: &[],
    habits: &[],
    reset_ms: 800,
};

/// A v2.0.
pub const ORIGINAL_20: Firmware = Firmware {
    name: "original-2.0",
    says: "Version 2.0: does not wait for the answer behind response pending.",
    source: "firmware_differences.csv, `7F xx 78 recognised` came with 2.1; data sheet p.90-91",
    identity: "ELM327 v2.0",
    level: Level::V20,
    ..ORIGINAL_21
};

/// A v1.4b.
pub const ORIGINAL_14B: Firmware = Firmware {
    name: "original-1.4b",
    says: "Version 1.4b: no four-byte headers, 256 bytes of buffer, waking up is a reset.",
    source: "firmware_differences.csv, features of 2.0; data sheet p.90-91",
    identity: "ELM327 v1.4b",
    level: Level::V14b,
    ..ORIGINAL_21
};

/// A v1.3a.
pub const ORIGINAL_13A: Firmware = Firmware {
    name: "original-1.3a",
    says: "Version 1.3a: has ATCRA, but only with a value; stops without saying so.",
    source: "exchanges.csv X049; firmware_differences.csv, `CRA (no value)` 1.4b, `STOPPED` 1.4",
    identity: "ELM327 v1.3a",
    level: Level::V13a,
    ..ORIGINAL_21
};

/// A v1.2a.
pub const ORIGINAL_12A: Firmware = Firmware {
    name: "original-1.2a",
    says: "Version 1.2a: keeps its spaces, has no ATCRA and no count digit.",
    source: "exchanges.csv X006, X045; firmware_differences.csv, commands of 1.3",
    identity: "ELM327 v1.2a",
    level: Level::V12,
    ..ORIGINAL_21
};

/// A v1.0.
pub const ORIGINAL_10: Firmware = Firmware {
    name: "original-1.0",
    says: "Version 1.0: no adaptive timing, no flow control of one's own, no other rate.",
    source: "firmware_differences.csv, commands of 1.1 and 1.2; data sheet p.90-91",
    identity: "ELM327 v1.0",
    level: Level::V10,
    ..ORIGINAL_21
};

/// One of the other family: answers `STI`, calls itself v1.4b.
pub const OTHER_FAMILY: Firmware = Firmware {
    name: "other-family",
    says: "Another chip family: calls itself v1.4b, answers STI, four NULs before its banner.",
    source: "dialect sections 0 and 12; exchanges.csv X016, X025; STN1100 manual p.4, 10, 11",
    identity: "ELM327 v1.4b",
    level: Level::V14b,
    family: Some("STN1110 v4.0.4"),
    habits: &[Habit::Nuls],
    reset_ms: 300,
    ..ORIGINAL_21
};
