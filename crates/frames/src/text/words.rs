//! The words of the enumerations: what a raw number means.
//!
//! Source: from memory of SAE J1979-DA; the reference vectors check the raw numbers only. A number without a
//! row is shown as [`RESERVED`], with its raw value beside it.

/// One row: the raw number and its word.
pub type Word = (u8, &'static str);

/// The word for a number that has no row.
pub const RESERVED: &str = "reserved";

/// The word for `raw`.
pub fn word(words: &[Word], raw: u64) -> &'static str {
    words.iter().find(|(number, _)| u64::from(*number) == raw).map_or(RESERVED, |(_, word)| word)
}

/// PID 03: fuel system status.
/// Source: from memory of SAE J1979-DA.
pub const FUEL_SYSTEM: &[Word] = &[
    (0x00, "none"),
    (0x01, "open-loop-not-yet-warm"),
    (0x02, "closed-loop"),
    (0x04, "open-loop-driving-conditions"),
    (0x08, "open-loop-fault"),
    (0x10, "closed-loop-with-fault"),
];

/// PID 12: where the secondary air goes.
/// Source: from memory of SAE J1979-DA.
pub const SECONDARY_AIR: &[Word] = &[
    (0x01, "upstream-of-catalyst"),
    (0x02, "downstream-of-catalyst"),
    (0x04, "atmosphere-or-off"),
    (0x08, "on-for-diagnostics"),
];

/// PID 1C: the requirements that the vehicle's on-board diagnosis is built to.
/// Source: from memory of SAE J1979-DA.
pub const OBD_REQUIREMENTS: &[Word] = &[
    (1, "obd-ii-california"),
    (2, "obd-federal"),
    (3, "obd-and-obd-ii"),
    (4, "obd-i"),
    (5, "none"),
    (6, "eobd"),
    (7, "eobd-and-obd-ii"),
    (8, "eobd-and-obd"),
    (9, "eobd-obd-and-obd-ii"),
    (10, "jobd"),
    (11, "jobd-and-obd-ii"),
    (12, "jobd-and-eobd"),
    (13, "jobd-eobd-and-obd-ii"),
    (17, "engine-manufacturer-diagnostics"),
    (18, "engine-manufacturer-diagnostics-enhanced"),
    (19, "heavy-duty-obd-partial"),
    (20, "heavy-duty-obd"),
    (21, "wwh-obd"),
    (23, "heavy-duty-eobd-stage-1-without-nox"),
    (24, "heavy-duty-eobd-stage-1-with-nox"),
    (25, "heavy-duty-eobd-stage-2-without-nox"),
    (26, "heavy-duty-eobd-stage-2-with-nox"),
    (28, "obd-br-1"),
    (29, "obd-br-2"),
    (30, "kobd"),
    (31, "iobd-1"),
    (32, "iobd-2"),
    (33, "heavy-duty-eobd-stage-6"),
];

/// PID 51: the fuel in use.
/// Source: from memory of SAE J1979-DA.
pub const FUEL_TYPE: &[Word] = &[
    (0, "not-available"),
    (1, "gasoline"),
    (2, "methanol"),
    (3, "ethanol"),
    (4, "diesel"),
    (5, "lpg"),
    (6, "cng"),
    (7, "propane"),
    (8, "electric"),
    (9, "bifuel-running-gasoline"),
    (10, "bifuel-running-methanol"),
    (11, "bifuel-running-ethanol"),
    (12, "bifuel-running-lpg"),
    (13, "bifuel-running-cng"),
    (14, "bifuel-running-propane"),
    (15, "bifuel-running-electricity"),
    (16, "bifuel-running-electric-and-combustion"),
    (17, "hybrid-gasoline"),
    (18, "hybrid-ethanol"),
    (19, "hybrid-diesel"),
    (20, "hybrid-electric"),
    (21, "hybrid-running-electric-and-combustion"),
    (22, "hybrid-regenerative"),
    (23, "bifuel-running-diesel"),
];

/// PID 5F: the emission requirements that the vehicle is built to.
/// Source: from memory of SAE J1979-DA.
pub const EMISSION_REQUIREMENTS: &[Word] =
    &[(0x0E, "heavy-duty-euro-iv-b1"), (0x0F, "heavy-duty-euro-v-b2"), (0x10, "heavy-duty-eev-c")];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_enumeration_rises_and_names_each_number_once() {
        for words in [FUEL_SYSTEM, SECONDARY_AIR, OBD_REQUIREMENTS, FUEL_TYPE, EMISSION_REQUIREMENTS] {
            for pair in words.windows(2) {
                assert!(pair[0].0 < pair[1].0, "{pair:?}");
            }
            for (number, text) in words {
                assert_eq!(word(words, u64::from(*number)), *text);
                assert!(text.bytes().all(|byte| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-')), "{text}");
            }
        }
    }

    #[test]
    fn a_number_without_a_row_is_reserved_and_not_guessed() {
        assert_eq!(word(FUEL_SYSTEM, 3), RESERVED);
        assert_eq!(word(OBD_REQUIREMENTS, 255), RESERVED);
    }
}
