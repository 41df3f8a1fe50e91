//! The plain one: everything by the data sheet of version 2.1.

use super::Firmware;

/// A v2.1 that keeps every rule.
pub const ORIGINAL_21: Firmware = Firmware {
    name: "original-2.1",
    says: "Keeps every rule of the data sheet of version 2.1.",
    identity: "ELM327 v2.1",
    device: "OBDII to RS232 Interpreter",
    family: None,
    refuses: &[],
    habits: &[],
    reset_ms: 800,
};
