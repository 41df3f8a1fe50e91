//! The other chip family, which names an ELM version for compatibility. Source: dialect sections 0 and 12.

use super::Firmware;

/// One of the other family: answers `STI`, calls itself v1.4b.
pub const OTHER_FAMILY: Firmware = Firmware {
    name: "other-family",
    says: "Another chip family: calls itself v1.4b, answers STI, resets faster.",
    identity: "ELM327 v1.4b",
    device: "OBDII to RS232 Interpreter",
    family: Some("STN1110 v4.0.4"),
    refuses: &["AMC", "CTM"],
    habits: &[],
    reset_ms: 300,
};
