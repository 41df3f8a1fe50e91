//! The fields of PIDs 01 and 41: which monitors there are and which have not finished.
//!
//! Bytes A and B as two sources give them. Bytes C and D depend on bit 3 of B: one meaning for spark
//! ignition, one for compression ignition; both from memory of SAE J1979, checked against nothing.
//! "Incomplete" is the set bit.

use crate::table::field::{Field, flag, number};
use crate::table::value::Unit::Count;

/// The bit that selects the meaning of bytes C and D.
/// Source: SAE J1979, identifier 01, from memory; tested against fixtures/reference/obd/mode01_fields.csv.
const COMPRESSION_IGNITION: u16 = 12;

const fn spark(name: &'static str, offset: u16) -> Field {
    flag(name, offset).selected_by(COMPRESSION_IGNITION, false).memory()
}

const fn compression(name: &'static str, offset: u16) -> Field {
    flag(name, offset).selected_by(COMPRESSION_IGNITION, true).memory()
}

/// PID 01: since the codes were cleared.
#[rustfmt::skip]
pub(crate) const SINCE_CLEARED: &[Field] = &[
    flag("mil", 0),
    number("dtc-count", 1, 7, 1, 1, 0, Count),
    flag("components-monitor-incomplete", 9),
    flag("fuel-system-monitor-incomplete", 10),
    flag("misfire-monitor-incomplete", 11),
    flag("compression-ignition", 12),
    flag("components-monitor-supported", 13),
    flag("fuel-system-monitor-supported", 14),
    flag("misfire-monitor-supported", 15),
    spark("catalyst-monitor-supported", 23),
    spark("catalyst-monitor-incomplete", 31),
    spark("heated-catalyst-monitor-supported", 22),
    spark("heated-catalyst-monitor-incomplete", 30),
    spark("evaporative-system-monitor-supported", 21),
    spark("evaporative-system-monitor-incomplete", 29),
    spark("secondary-air-monitor-supported", 20),
    spark("secondary-air-monitor-incomplete", 28),
    spark("ac-refrigerant-or-particulate-filter-monitor-supported", 19),
    spark("ac-refrigerant-or-particulate-filter-monitor-incomplete", 27),
    spark("oxygen-sensor-monitor-supported", 18),
    spark("oxygen-sensor-monitor-incomplete", 26),
    spark("oxygen-sensor-heater-monitor-supported", 17),
    spark("oxygen-sensor-heater-monitor-incomplete", 25),
    spark("egr-or-variable-valve-timing-monitor-supported", 16),
    spark("egr-or-variable-valve-timing-monitor-incomplete", 24),
    compression("hydrocarbon-catalyst-monitor-supported", 23),
    compression("hydrocarbon-catalyst-monitor-incomplete", 31),
    compression("nox-aftertreatment-monitor-supported", 22),
    compression("nox-aftertreatment-monitor-incomplete", 30),
    compression("boost-pressure-monitor-supported", 20),
    compression("boost-pressure-monitor-incomplete", 28),
    compression("exhaust-gas-sensor-monitor-supported", 18),
    compression("exhaust-gas-sensor-monitor-incomplete", 26),
    compression("particulate-filter-monitor-supported", 17),
    compression("particulate-filter-monitor-incomplete", 25),
    compression("egr-or-variable-valve-timing-compression-monitor-supported", 16),
    compression("egr-or-variable-valve-timing-compression-monitor-incomplete", 24),
];

/// PID 41: this driving cycle.
#[rustfmt::skip]
pub(crate) const THIS_CYCLE: &[Field] = &[
    flag("components-monitor-incomplete-this-cycle", 9),
    flag("fuel-system-monitor-incomplete-this-cycle", 10),
    flag("misfire-monitor-incomplete-this-cycle", 11),
    flag("compression-ignition-this-cycle", 12),
    flag("components-monitor-enabled-this-cycle", 13),
    flag("fuel-system-monitor-enabled-this-cycle", 14),
    flag("misfire-monitor-enabled-this-cycle", 15),
    spark("catalyst-monitor-enabled-this-cycle", 23),
    spark("catalyst-monitor-incomplete-this-cycle", 31),
    spark("heated-catalyst-monitor-enabled-this-cycle", 22),
    spark("heated-catalyst-monitor-incomplete-this-cycle", 30),
    spark("evaporative-system-monitor-enabled-this-cycle", 21),
    spark("evaporative-system-monitor-incomplete-this-cycle", 29),
    spark("secondary-air-monitor-enabled-this-cycle", 20),
    spark("secondary-air-monitor-incomplete-this-cycle", 28),
    spark("ac-refrigerant-or-particulate-filter-monitor-enabled-this-cycle", 19),
    spark("ac-refrigerant-or-particulate-filter-monitor-incomplete-this-cycle", 27),
    spark("oxygen-sensor-monitor-enabled-this-cycle", 18),
    spark("oxygen-sensor-monitor-incomplete-this-cycle", 26),
    spark("oxygen-sensor-heater-monitor-enabled-this-cycle", 17),
    spark("oxygen-sensor-heater-monitor-incomplete-this-cycle", 25),
    spark("egr-or-variable-valve-timing-monitor-enabled-this-cycle", 16),
    spark("egr-or-variable-valve-timing-monitor-incomplete-this-cycle", 24),
    compression("hydrocarbon-catalyst-monitor-enabled-this-cycle", 23),
    compression("hydrocarbon-catalyst-monitor-incomplete-this-cycle", 31),
    compression("nox-aftertreatment-monitor-enabled-this-cycle", 22),
    compression("nox-aftertreatment-monitor-incomplete-this-cycle", 30),
    compression("boost-pressure-monitor-enabled-this-cycle", 20),
    compression("boost-pressure-monitor-incomplete-this-cycle", 28),
    compression("exhaust-gas-sensor-monitor-enabled-this-cycle", 18),
    compression("exhaust-gas-sensor-monitor-incomplete-this-cycle", 26),
    compression("particulate-filter-monitor-enabled-this-cycle", 17),
    compression("particulate-filter-monitor-incomplete-this-cycle", 25),
    compression("egr-or-variable-valve-timing-compression-monitor-enabled-this-cycle", 16),
    compression("egr-or-variable-valve-timing-compression-monitor-incomplete-this-cycle", 24),
];
