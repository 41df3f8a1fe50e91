//! A copy that calls itself 1.5, a version that was never made. Source: dialect sections 12 and 15, quirks
//! `echo-stuck`, `spaces-stuck`, `single-cr`, `padding-shown`, `no-ws`, `no-at`, `no-cra`, `no-digit`.

use super::{Firmware, Habit};

/// A copy with an old command set that answers `OK` to switches it ignores.
pub const COPY_15: Firmware = Firmware {
    name: "copy-1.5",
    says: "A copy: keeps echo and spaces whatever it is told, lacks adaptive timing, ATCRA, ATWS and the count digit.",
    identity: "ELM327 v1.5",
    device: "OBDII to RS232 Interpreter",
    family: None,
    refuses: &["AT", "CRA", "WS", "FE", "CSM", "AMC", "CTM", "FCS", "@2", "RD", "PPS", "KW"],
    habits: &[
        Habit::EchoStays,
        Habit::SpacesStay,
        Habit::SingleCr,
        Habit::PaddingShown,
        Habit::NoDigit,
        Habit::PendingEnds,
    ],
    reset_ms: 860,
};
