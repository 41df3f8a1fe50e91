//! Service 01 (and 02): every parameter identifier, one row each. **The** place to add one.
//!
//! Places are counted in bits from the most significant bit of data byte A; a number is raw * num / den +
//! add. `.when(n)`: supported only if bit n of byte A is set. `.unless(n)`: the place means something else if
//! it is. `.single()`: one source only. `.memory()`: from memory of the standard, unchecked. Others: two or
//! more sources. `opaque`: known by name and length, no layout that two sources give, so nothing is decoded.
//! Two lengths: editions differ, both are accepted and what is there is decoded.
//!
//! Source: `mode01.csv` and `mode01_fields.csv` of the reference (which libraries agree stands there),
//! checked row by row by `vectors_devs.csv`; where sources disagree, `disagreements.csv` says what was
//! followed and why.

use crate::table::field::{Row, code, flag, ids, number, opaque, row, signed, word};
use crate::table::monitors::{SINCE_CLEARED, THIS_CYCLE};
use crate::table::value::Unit::*;
use crate::text::words;

/// The row of `pid`.
#[inline]
pub(crate) fn find(pid: u8) -> Option<&'static Row> {
    INDEX.get(usize::from(pid)).and_then(|at| CURRENT.get(usize::from(*at)))
}

/// Where the row of each identifier stands; 255 is nowhere.
/// By definition: computed from the table below.
#[allow(clippy::indexing_slicing, reason = "computed when compiled: a wrong index does not build")]
const INDEX: [u8; 256] = {
    let mut index = [255; 256];
    let mut at = 0;
    while at < CURRENT.len() {
        index[CURRENT[at].id as usize] = at as u8;
        at += 1;
    }
    index
};

/// All identifiers known, rising.
#[rustfmt::skip]
pub(crate) const CURRENT: &[Row] = &[
    //  id  shortest, longest payload in bytes   name   bit offset, length   num, den, add   unit
    row(0x00, 4, 4, &[ids("supported-pids-01-20")]),
    row(0x01, 4, 4, SINCE_CLEARED),
    row(0x02, 2, 2, &[code("freeze-frame-dtc", 0)]),
    row(0x03, 2, 2, &[
        word("fuel-system-1-status", 0, 8, words::FUEL_SYSTEM),
        word("fuel-system-2-status", 8, 8, words::FUEL_SYSTEM),
    ]),
    row(0x04, 1, 1, &[number("calculated-load", 0, 8, 100, 255, 0, Percent)]),
    row(0x05, 1, 1, &[number("engine-coolant-temperature", 0, 8, 1, 1, -40, Celsius)]),
    row(0x06, 1, 1, &[number("short-term-fuel-trim-bank-1", 0, 8, 100, 128, -100, Percent)]),
    row(0x07, 1, 1, &[number("long-term-fuel-trim-bank-1", 0, 8, 100, 128, -100, Percent)]),
    row(0x08, 1, 1, &[number("short-term-fuel-trim-bank-2", 0, 8, 100, 128, -100, Percent)]),
    row(0x09, 1, 1, &[number("long-term-fuel-trim-bank-2", 0, 8, 100, 128, -100, Percent)]),
    row(0x0A, 1, 1, &[number("fuel-pressure", 0, 8, 3, 1, 0, Kilopascal)]),
    row(0x0B, 1, 1, &[number("intake-manifold-absolute-pressure", 0, 8, 1, 1, 0, Kilopascal)]),
    row(0x0C, 2, 2, &[number("engine-speed", 0, 16, 1, 4, 0, PerMinute)]),
    row(0x0D, 1, 1, &[number("vehicle-speed", 0, 8, 1, 1, 0, KilometrePerHour)]),
    row(0x0E, 1, 1, &[number("ignition-timing-advance", 0, 8, 1, 2, -64, Degree)]),
    row(0x0F, 1, 1, &[number("intake-air-temperature", 0, 8, 1, 1, -40, Celsius)]),
    row(0x10, 2, 2, &[number("mass-air-flow-rate", 0, 16, 1, 100, 0, GramPerSecond)]),
    row(0x11, 1, 1, &[number("absolute-throttle-position", 0, 8, 100, 255, 0, Percent)]),
    row(0x12, 1, 1, &[word("commanded-secondary-air-status", 0, 8, words::SECONDARY_AIR)]),
    row(0x13, 1, 1, &[
        flag("oxygen-sensor-present-bank-2-sensor-4", 0),
        flag("oxygen-sensor-present-bank-2-sensor-3", 1),
        flag("oxygen-sensor-present-bank-2-sensor-2", 2),
        flag("oxygen-sensor-present-bank-2-sensor-1", 3),
        flag("oxygen-sensor-present-bank-1-sensor-4", 4),
        flag("oxygen-sensor-present-bank-1-sensor-3", 5),
        flag("oxygen-sensor-present-bank-1-sensor-2", 6),
        flag("oxygen-sensor-present-bank-1-sensor-1", 7),
    ]),
    row(0x14, 2, 2, &[
        number("oxygen-sensor-1-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-1-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x15, 2, 2, &[
        number("oxygen-sensor-2-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-2-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x16, 2, 2, &[
        number("oxygen-sensor-3-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-3-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x17, 2, 2, &[
        number("oxygen-sensor-4-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-4-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x18, 2, 2, &[
        number("oxygen-sensor-5-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-5-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x19, 2, 2, &[
        number("oxygen-sensor-6-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-6-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x1A, 2, 2, &[
        number("oxygen-sensor-7-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-7-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x1B, 2, 2, &[
        number("oxygen-sensor-8-voltage", 0, 8, 1, 200, 0, Volt),
        number("oxygen-sensor-8-short-term-fuel-trim", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x1C, 1, 1, &[word("obd-requirements", 0, 8, words::OBD_REQUIREMENTS)]),
    row(0x1D, 1, 1, &[
        flag("oxygen-sensor-present-bank-4-sensor-2-of-four-banks", 0),
        flag("oxygen-sensor-present-bank-4-sensor-1-of-four-banks", 1),
        flag("oxygen-sensor-present-bank-3-sensor-2-of-four-banks", 2),
        flag("oxygen-sensor-present-bank-3-sensor-1-of-four-banks", 3),
        flag("oxygen-sensor-present-bank-2-sensor-2-of-four-banks", 4),
        flag("oxygen-sensor-present-bank-2-sensor-1-of-four-banks", 5),
        flag("oxygen-sensor-present-bank-1-sensor-2-of-four-banks", 6),
        flag("oxygen-sensor-present-bank-1-sensor-1-of-four-banks", 7),
    ]),
    row(0x1E, 1, 1, &[flag("power-take-off-active", 7).single()]),
    row(0x1F, 2, 2, &[number("time-since-engine-start", 0, 16, 1, 1, 0, Second)]),
    row(0x20, 4, 4, &[ids("supported-pids-21-40")]),
    row(0x21, 2, 2, &[number("distance-with-mil-on", 0, 16, 1, 1, 0, Kilometre)]),
    row(0x22, 2, 2, &[number("fuel-rail-pressure-relative-to-manifold", 0, 16, 79, 1000, 0, Kilopascal)]),
    row(0x23, 2, 2, &[number("fuel-rail-gauge-pressure", 0, 16, 10, 1, 0, Kilopascal)]),
    row(0x24, 4, 4, &[
        number("oxygen-sensor-1-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-1-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x25, 4, 4, &[
        number("oxygen-sensor-2-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-2-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x26, 4, 4, &[
        number("oxygen-sensor-3-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-3-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x27, 4, 4, &[
        number("oxygen-sensor-4-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-4-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x28, 4, 4, &[
        number("oxygen-sensor-5-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-5-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x29, 4, 4, &[
        number("oxygen-sensor-6-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-6-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x2A, 4, 4, &[
        number("oxygen-sensor-7-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-7-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x2B, 4, 4, &[
        number("oxygen-sensor-8-wide-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-8-wide-voltage", 16, 16, 8, 65536, 0, Volt),
    ]),
    row(0x2C, 1, 1, &[number("commanded-egr", 0, 8, 100, 255, 0, Percent)]),
    row(0x2D, 1, 1, &[number("egr-error", 0, 8, 100, 128, -100, Percent)]),
    row(0x2E, 1, 1, &[number("commanded-evaporative-purge", 0, 8, 100, 255, 0, Percent)]),
    row(0x2F, 1, 1, &[number("fuel-level-input", 0, 8, 100, 255, 0, Percent)]),
    row(0x30, 1, 1, &[number("warm-ups-since-codes-cleared", 0, 8, 1, 1, 0, Count)]),
    row(0x31, 2, 2, &[number("distance-since-codes-cleared", 0, 16, 1, 1, 0, Kilometre)]),
    row(0x32, 2, 2, &[signed("evaporative-system-vapour-pressure", 0, 16, 1, 4, 0, Pascal)]),
    row(0x33, 1, 1, &[number("barometric-pressure", 0, 8, 1, 1, 0, Kilopascal)]),
    row(0x34, 4, 4, &[
        number("oxygen-sensor-1-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-1-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x35, 4, 4, &[
        number("oxygen-sensor-2-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-2-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x36, 4, 4, &[
        number("oxygen-sensor-3-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-3-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x37, 4, 4, &[
        number("oxygen-sensor-4-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-4-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x38, 4, 4, &[
        number("oxygen-sensor-5-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-5-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x39, 4, 4, &[
        number("oxygen-sensor-6-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-6-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x3A, 4, 4, &[
        number("oxygen-sensor-7-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-7-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x3B, 4, 4, &[
        number("oxygen-sensor-8-pumping-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio),
        number("oxygen-sensor-8-pumping-current", 16, 16, 1, 256, -128, Milliampere),
    ]),
    row(0x3C, 2, 2, &[number("catalyst-temperature-bank-1-sensor-1", 0, 16, 1, 10, -40, Celsius)]),
    row(0x3D, 2, 2, &[number("catalyst-temperature-bank-2-sensor-1", 0, 16, 1, 10, -40, Celsius)]),
    row(0x3E, 2, 2, &[number("catalyst-temperature-bank-1-sensor-2", 0, 16, 1, 10, -40, Celsius)]),
    row(0x3F, 2, 2, &[number("catalyst-temperature-bank-2-sensor-2", 0, 16, 1, 10, -40, Celsius)]),
    row(0x40, 4, 4, &[ids("supported-pids-41-60")]),
    row(0x41, 4, 4, THIS_CYCLE),
    row(0x42, 2, 2, &[number("control-module-voltage", 0, 16, 1, 1000, 0, Volt)]),
    row(0x43, 2, 2, &[number("absolute-load", 0, 16, 100, 255, 0, Percent)]),
    row(0x44, 2, 2, &[number("commanded-equivalence-ratio", 0, 16, 2, 65536, 0, Ratio)]),
    row(0x45, 1, 1, &[number("relative-throttle-position", 0, 8, 100, 255, 0, Percent)]),
    row(0x46, 1, 1, &[number("ambient-air-temperature", 0, 8, 1, 1, -40, Celsius)]),
    row(0x47, 1, 1, &[number("absolute-throttle-position-b", 0, 8, 100, 255, 0, Percent)]),
    row(0x48, 1, 1, &[number("absolute-throttle-position-c", 0, 8, 100, 255, 0, Percent)]),
    row(0x49, 1, 1, &[number("accelerator-pedal-position-d", 0, 8, 100, 255, 0, Percent)]),
    row(0x4A, 1, 1, &[number("accelerator-pedal-position-e", 0, 8, 100, 255, 0, Percent)]),
    row(0x4B, 1, 1, &[number("accelerator-pedal-position-f", 0, 8, 100, 255, 0, Percent)]),
    row(0x4C, 1, 1, &[number("commanded-throttle-actuator-control", 0, 8, 100, 255, 0, Percent)]),
    row(0x4D, 2, 2, &[number("engine-run-time-with-mil-on", 0, 16, 1, 1, 0, Minute)]),
    row(0x4E, 2, 2, &[number("engine-run-time-since-codes-cleared", 0, 16, 1, 1, 0, Minute)]),
    row(0x4F, 4, 4, &[
        number("maximum-equivalence-ratio", 0, 8, 1, 1, 0, Ratio),
        number("maximum-oxygen-sensor-voltage", 8, 8, 1, 1, 0, Volt),
        number("maximum-oxygen-sensor-current", 16, 8, 1, 1, 0, Milliampere),
        number("maximum-intake-manifold-absolute-pressure", 24, 8, 10, 1, 0, Kilopascal),
    ]),
    row(0x50, 4, 4, &[number("maximum-mass-air-flow-rate", 0, 8, 10, 1, 0, GramPerSecond)]),
    row(0x51, 1, 1, &[word("fuel-type", 0, 8, words::FUEL_TYPE)]),
    row(0x52, 1, 1, &[number("alcohol-fuel-percentage", 0, 8, 100, 255, 0, Percent)]),
    row(0x53, 2, 2, &[number("absolute-evaporative-system-vapour-pressure", 0, 16, 1, 200, 0, Kilopascal)]),
    row(0x54, 2, 2, &[signed("evaporative-system-vapour-pressure-wide", 0, 16, 1, 1, 0, Pascal)]),
    row(0x55, 2, 2, &[
        number("short-term-secondary-oxygen-sensor-trim-bank-1", 0, 8, 100, 128, -100, Percent),
        number("short-term-secondary-oxygen-sensor-trim-bank-3", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x56, 2, 2, &[
        number("long-term-secondary-oxygen-sensor-trim-bank-1", 0, 8, 100, 128, -100, Percent),
        number("long-term-secondary-oxygen-sensor-trim-bank-3", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x57, 2, 2, &[
        number("short-term-secondary-oxygen-sensor-trim-bank-2", 0, 8, 100, 128, -100, Percent),
        number("short-term-secondary-oxygen-sensor-trim-bank-4", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x58, 2, 2, &[
        number("long-term-secondary-oxygen-sensor-trim-bank-2", 0, 8, 100, 128, -100, Percent),
        number("long-term-secondary-oxygen-sensor-trim-bank-4", 8, 8, 100, 128, -100, Percent),
    ]),
    row(0x59, 2, 2, &[number("fuel-rail-absolute-pressure", 0, 16, 10, 1, 0, Kilopascal)]),
    row(0x5A, 1, 1, &[number("relative-accelerator-pedal-position", 0, 8, 100, 255, 0, Percent)]),
    row(0x5B, 1, 1, &[number("hybrid-battery-pack-remaining-charge", 0, 8, 100, 255, 0, Percent)]),
    row(0x5C, 1, 1, &[number("engine-oil-temperature", 0, 8, 1, 1, -40, Celsius)]),
    row(0x5D, 2, 2, &[number("fuel-injection-timing", 0, 16, 1, 128, -210, Degree)]),
    row(0x5E, 2, 2, &[number("engine-fuel-rate", 0, 16, 1, 20, 0, LitrePerHour)]),
    row(0x5F, 1, 1, &[word("emission-requirements", 0, 8, words::EMISSION_REQUIREMENTS)]),
    row(0x60, 4, 4, &[ids("supported-pids-61-80")]),
    row(0x61, 1, 1, &[number("driver-demand-engine-torque", 0, 8, 1, 1, -125, Percent)]),
    row(0x62, 1, 1, &[number("actual-engine-torque", 0, 8, 1, 1, -125, Percent)]),
    row(0x63, 2, 2, &[number("engine-reference-torque", 0, 16, 1, 1, 0, NewtonMetre)]),
    row(0x64, 5, 5, &[
        number("engine-torque-at-point-1", 0, 8, 1, 1, -125, Percent),
        number("engine-torque-at-point-2", 8, 8, 1, 1, -125, Percent),
        number("engine-torque-at-point-3", 16, 8, 1, 1, -125, Percent),
        number("engine-torque-at-point-4", 24, 8, 1, 1, -125, Percent),
        number("engine-torque-at-point-5", 32, 8, 1, 1, -125, Percent),
    ]),
    row(0x65, 2, 2, &[
        number("recommended-transmission-gear", 8, 4, 1, 1, 0, Gear).when(4).memory(),
        flag("glow-plug-lamp", 12).when(3),
        flag("manual-transmission-neutral", 13).when(2),
        flag("automatic-transmission-neutral-drive", 14).when(1),
        flag("power-take-off-status", 15).when(0),
    ]),
    row(0x66, 5, 5, &[
        number("mass-air-flow-sensor-a", 8, 16, 1, 32, 0, GramPerSecond).when(0),
        number("mass-air-flow-sensor-b", 24, 16, 1, 32, 0, GramPerSecond).when(1),
    ]),
    row(0x67, 3, 3, &[
        number("engine-coolant-temperature-1", 8, 8, 1, 1, -40, Celsius).when(0),
        number("engine-coolant-temperature-2", 16, 8, 1, 1, -40, Celsius).when(1),
    ]),
    row(0x68, 7, 7, &[
        number("intake-air-temperature-bank-1-sensor-1", 8, 8, 1, 1, -40, Celsius).when(0),
        number("intake-air-temperature-bank-1-sensor-2", 16, 8, 1, 1, -40, Celsius).when(1),
        number("intake-air-temperature-bank-1-sensor-3", 24, 8, 1, 1, -40, Celsius).when(2),
        number("intake-air-temperature-bank-2-sensor-1", 32, 8, 1, 1, -40, Celsius).when(3),
        number("intake-air-temperature-bank-2-sensor-2", 40, 8, 1, 1, -40, Celsius).when(4),
        number("intake-air-temperature-bank-2-sensor-3", 48, 8, 1, 1, -40, Celsius).when(5),
    ]),
    row(0x69, 7, 7, &[
        number("commanded-egr-a", 8, 8, 100, 255, 0, Percent).when(0),
        number("actual-egr-a", 16, 8, 100, 255, 0, Percent).when(1),
        number("egr-a-error", 24, 8, 100, 128, -100, Percent).when(2).single(),
        number("commanded-egr-b", 32, 8, 100, 255, 0, Percent).when(3),
        number("actual-egr-b", 40, 8, 100, 255, 0, Percent).when(4),
        number("egr-b-error", 48, 8, 100, 128, -100, Percent).when(5).single(),
    ]),
    row(0x6A, 5, 5, &[
        number("commanded-intake-air-flow-a", 8, 8, 100, 255, 0, Percent).when(0).single(),
        number("intake-air-flow-a-position", 16, 8, 100, 255, 0, Percent).when(1).single(),
        number("commanded-intake-air-flow-b", 24, 8, 100, 255, 0, Percent).when(2).single(),
        number("intake-air-flow-b-position", 32, 8, 100, 255, 0, Percent).when(3).single(),
    ]),
    row(0x6B, 5, 5, &[
        number("egr-temperature-bank-1-sensor-1", 8, 8, 1, 1, -40, Celsius).when(0).unless(4),
        number("egr-temperature-bank-1-sensor-1-wide", 8, 8, 4, 1, -40, Celsius).when(4).single(),
        number("egr-temperature-bank-1-sensor-2", 16, 8, 1, 1, -40, Celsius).when(1).unless(5),
        number("egr-temperature-bank-1-sensor-2-wide", 16, 8, 4, 1, -40, Celsius).when(5).single(),
        number("egr-temperature-bank-2-sensor-1", 24, 8, 1, 1, -40, Celsius).when(2).unless(6),
        number("egr-temperature-bank-2-sensor-1-wide", 24, 8, 4, 1, -40, Celsius).when(6).single(),
        number("egr-temperature-bank-2-sensor-2", 32, 8, 1, 1, -40, Celsius).when(3).unless(7),
        number("egr-temperature-bank-2-sensor-2-wide", 32, 8, 4, 1, -40, Celsius).when(7).single(),
    ]),
    row(0x6C, 5, 5, &[
        number("commanded-throttle-actuator-a", 8, 8, 100, 255, 0, Percent).when(0),
        number("relative-throttle-position-a", 16, 8, 100, 255, 0, Percent).when(1),
        number("commanded-throttle-actuator-b", 24, 8, 100, 255, 0, Percent).when(2),
        number("relative-throttle-position-b", 32, 8, 100, 255, 0, Percent).when(3),
    ]),
    row(0x6D, 6, 11, &[
        number("commanded-fuel-rail-pressure-a", 8, 16, 10, 1, 0, Kilopascal).when(0),
        number("fuel-rail-pressure-a", 24, 16, 10, 1, 0, Kilopascal).when(1),
        number("fuel-rail-temperature-a", 40, 8, 1, 1, -40, Celsius).when(2),
        number("commanded-fuel-rail-pressure-b", 48, 16, 10, 1, 0, Kilopascal).when(3),
        number("fuel-rail-pressure-b", 64, 16, 10, 1, 0, Kilopascal).when(4),
        number("fuel-rail-temperature-b", 80, 8, 1, 1, -40, Celsius).when(5),
    ]),
    row(0x6E, 5, 9, &[
        number("commanded-injection-control-pressure-a", 8, 16, 10, 1, 0, Kilopascal).when(0),
        number("injection-control-pressure-a", 24, 16, 10, 1, 0, Kilopascal).when(1),
        number("commanded-injection-control-pressure-b", 40, 16, 10, 1, 0, Kilopascal).when(2).single(),
        number("injection-control-pressure-b", 56, 16, 10, 1, 0, Kilopascal).when(3).single(),
    ]),
    row(0x6F, 3, 3, &[
        number("turbocharger-compressor-inlet-pressure-a", 8, 8, 1, 1, 0, Kilopascal).when(0),
        number("turbocharger-compressor-inlet-pressure-b", 16, 8, 1, 1, 0, Kilopascal).when(1),
    ]),
    row(0x70, 9, 10, &[
        number("commanded-boost-pressure-a", 8, 16, 1, 32, 0, Kilopascal).when(0),
        number("boost-pressure-a", 24, 16, 1, 32, 0, Kilopascal).when(1),
        number("commanded-boost-pressure-b", 40, 16, 1, 32, 0, Kilopascal).when(3),
        number("boost-pressure-b", 56, 16, 1, 32, 0, Kilopascal).when(4),
    ]),
    row(0x71, 5, 6, &[
        number("commanded-variable-geometry-turbo-a", 8, 8, 100, 255, 0, Percent).when(0),
        number("variable-geometry-turbo-a-position", 16, 8, 100, 255, 0, Percent).when(1),
        number("commanded-variable-geometry-turbo-b", 24, 8, 100, 255, 0, Percent).when(3),
        number("variable-geometry-turbo-b-position", 32, 8, 100, 255, 0, Percent).when(4),
    ]),
    row(0x72, 5, 5, &[
        number("commanded-wastegate-a", 8, 8, 100, 255, 0, Percent).when(0),
        number("wastegate-a-position", 16, 8, 100, 255, 0, Percent).when(1),
        number("commanded-wastegate-b", 24, 8, 100, 255, 0, Percent).when(2),
        number("wastegate-b-position", 32, 8, 100, 255, 0, Percent).when(3),
    ]),
    row(0x73, 5, 5, &[
        number("exhaust-pressure-bank-1", 8, 16, 1, 100, 0, Kilopascal).when(0),
        number("exhaust-pressure-bank-2", 24, 16, 1, 100, 0, Kilopascal).when(1),
    ]),
    row(0x74, 5, 5, &[
        number("turbocharger-speed-a", 8, 16, 1, 1, 0, PerMinute).when(0),
        number("turbocharger-speed-b", 24, 16, 1, 1, 0, PerMinute).when(1),
    ]),
    row(0x75, 7, 7, &[
        number("turbocharger-a-compressor-inlet-temperature", 8, 8, 1, 1, -40, Celsius).when(0),
        number("turbocharger-a-compressor-outlet-temperature", 16, 8, 1, 1, -40, Celsius).when(1),
        number("turbocharger-a-turbine-inlet-temperature", 24, 16, 1, 10, -40, Celsius).when(2),
        number("turbocharger-a-turbine-outlet-temperature", 40, 16, 1, 10, -40, Celsius).when(3),
    ]),
    row(0x76, 7, 7, &[
        number("turbocharger-b-compressor-inlet-temperature", 8, 8, 1, 1, -40, Celsius).when(0),
        number("turbocharger-b-compressor-outlet-temperature", 16, 8, 1, 1, -40, Celsius).when(1),
        number("turbocharger-b-turbine-inlet-temperature", 24, 16, 1, 10, -40, Celsius).when(2),
        number("turbocharger-b-turbine-outlet-temperature", 40, 16, 1, 10, -40, Celsius).when(3),
    ]),
    row(0x77, 5, 5, &[
        number("charge-air-cooler-temperature-bank-1-sensor-1", 8, 8, 1, 1, -40, Celsius).when(0),
        number("charge-air-cooler-temperature-bank-1-sensor-2", 16, 8, 1, 1, -40, Celsius).when(1),
        number("charge-air-cooler-temperature-bank-2-sensor-1", 24, 8, 1, 1, -40, Celsius).when(2),
        number("charge-air-cooler-temperature-bank-2-sensor-2", 32, 8, 1, 1, -40, Celsius).when(3),
    ]),
    row(0x78, 9, 9, &[
        number("exhaust-gas-temperature-bank-1-sensor-1", 8, 16, 1, 10, -40, Celsius).when(0),
        number("exhaust-gas-temperature-bank-1-sensor-2", 24, 16, 1, 10, -40, Celsius).when(1),
        number("exhaust-gas-temperature-bank-1-sensor-3", 40, 16, 1, 10, -40, Celsius).when(2),
        number("exhaust-gas-temperature-bank-1-sensor-4", 56, 16, 1, 10, -40, Celsius).when(3),
    ]),
    row(0x79, 9, 9, &[
        number("exhaust-gas-temperature-bank-2-sensor-1", 8, 16, 1, 10, -40, Celsius).when(0),
        number("exhaust-gas-temperature-bank-2-sensor-2", 24, 16, 1, 10, -40, Celsius).when(1),
        number("exhaust-gas-temperature-bank-2-sensor-3", 40, 16, 1, 10, -40, Celsius).when(2),
        number("exhaust-gas-temperature-bank-2-sensor-4", 56, 16, 1, 10, -40, Celsius).when(3),
    ]),
    row(0x7A, 7, 7, &[
        signed("particulate-filter-delta-pressure-bank-1", 8, 16, 1, 100, 0, Kilopascal).when(0).memory(),
        number("particulate-filter-inlet-pressure-bank-1", 24, 16, 1, 100, 0, Kilopascal).when(1).single(),
        number("particulate-filter-outlet-pressure-bank-1", 40, 16, 1, 100, 0, Kilopascal).when(2).single(),
    ]),
    row(0x7B, 7, 7, &[
        signed("particulate-filter-delta-pressure-bank-2", 8, 16, 1, 100, 0, Kilopascal).when(0).memory(),
        number("particulate-filter-inlet-pressure-bank-2", 24, 16, 1, 100, 0, Kilopascal).when(1).single(),
        number("particulate-filter-outlet-pressure-bank-2", 40, 16, 1, 100, 0, Kilopascal).when(2).single(),
    ]),
    row(0x7C, 9, 9, &[
        number("particulate-filter-inlet-temperature-bank-1", 8, 16, 1, 10, -40, Celsius).when(0),
        number("particulate-filter-outlet-temperature-bank-1", 24, 16, 1, 10, -40, Celsius).when(1),
        number("particulate-filter-inlet-temperature-bank-2", 40, 16, 1, 10, -40, Celsius).when(2),
        number("particulate-filter-outlet-temperature-bank-2", 56, 16, 1, 10, -40, Celsius).when(3),
    ]),
    opaque(0x7D, 1, 1, "nox-nte-control-area-status"),
    opaque(0x7E, 1, 1, "pm-nte-control-area-status"),
    row(0x7F, 13, 13, &[
        number("total-engine-run-time", 8, 32, 1, 1, 0, Second).when(0),
        number("total-idle-run-time", 40, 32, 1, 1, 0, Second).when(1),
        number("total-run-time-with-pto", 72, 32, 1, 1, 0, Second).when(2),
    ]),
    row(0x80, 4, 4, &[ids("supported-pids-81-a0")]),
    opaque(0x81, 21, 41, "run-time-for-aecd-1-to-5"),
    opaque(0x82, 21, 41, "run-time-for-aecd-6-to-10"),
    row(0x83, 5, 9, &[
        number("nox-concentration-bank-1-sensor-1", 8, 16, 1, 1, 0, PartPerMillion).when(0),
        number("nox-concentration-bank-2-sensor-1", 24, 16, 1, 1, 0, PartPerMillion).when(1),
    ]),
    row(0x84, 1, 1, &[number("manifold-surface-temperature", 0, 8, 1, 1, -40, Celsius)]),
    row(0x85, 10, 10, &[
        number("average-reagent-consumption", 8, 16, 1, 200, 0, LitrePerHour).when(0).single(),
        number("average-demanded-reagent-consumption", 24, 16, 1, 200, 0, LitrePerHour).when(1).single(),
        number("reagent-tank-level", 40, 8, 100, 255, 0, Percent).when(2),
        number("run-time-with-nox-warning", 48, 32, 1, 1, 0, Second).when(3).single(),
    ]),
    row(0x86, 5, 5, &[
        number("particulate-matter-mass-bank-1-sensor-1", 8, 16, 1, 80, 0, MilligramPerCubicMetre).when(0).single(),
        number("particulate-matter-mass-bank-2-sensor-1", 24, 16, 1, 80, 0, MilligramPerCubicMetre).when(1).single(),
    ]),
    row(0x87, 5, 5, &[
        number("intake-manifold-absolute-pressure-a", 8, 16, 1, 32, 0, Kilopascal).when(0).single(),
        number("intake-manifold-absolute-pressure-b", 24, 16, 1, 32, 0, Kilopascal).when(1).single(),
    ]),
    opaque(0x88, 13, 13, "scr-inducement-system"),
    opaque(0x89, 21, 41, "run-time-for-aecd-11-to-15"),
    opaque(0x8A, 21, 41, "run-time-for-aecd-16-to-20"),
    opaque(0x8B, 7, 7, "diesel-aftertreatment-status"),
    opaque(0x8C, 16, 17, "oxygen-sensors-wide-range"),
    row(0x8D, 1, 1, &[number("absolute-throttle-position-g", 0, 8, 100, 255, 0, Percent).single()]),
    row(0x8E, 1, 1, &[number("engine-friction-torque", 0, 8, 1, 1, -125, Percent)]),
    opaque(0x8F, 5, 7, "particulate-matter-sensor-output"),
    opaque(0x90, 3, 3, "wwh-obd-vehicle-information"),
    opaque(0x91, 5, 5, "wwh-obd-ecu-information"),
    opaque(0x92, 2, 2, "fuel-system-control-status"),
    opaque(0x93, 3, 3, "wwh-obd-continuous-mi-counters"),
    opaque(0x94, 12, 12, "nox-warning-and-inducement-status"),
    row(0x98, 9, 9, &[
        number("exhaust-gas-temperature-bank-1-sensor-5", 8, 16, 1, 10, -40, Celsius).when(0).memory(),
        number("exhaust-gas-temperature-bank-1-sensor-6", 24, 16, 1, 10, -40, Celsius).when(1).memory(),
        number("exhaust-gas-temperature-bank-1-sensor-7", 40, 16, 1, 10, -40, Celsius).when(2).memory(),
        number("exhaust-gas-temperature-bank-1-sensor-8", 56, 16, 1, 10, -40, Celsius).when(3).memory(),
    ]),
    row(0x99, 9, 9, &[
        number("exhaust-gas-temperature-bank-2-sensor-5", 8, 16, 1, 10, -40, Celsius).when(0).memory(),
        number("exhaust-gas-temperature-bank-2-sensor-6", 24, 16, 1, 10, -40, Celsius).when(1).memory(),
        number("exhaust-gas-temperature-bank-2-sensor-7", 40, 16, 1, 10, -40, Celsius).when(2).memory(),
        number("exhaust-gas-temperature-bank-2-sensor-8", 56, 16, 1, 10, -40, Celsius).when(3).memory(),
    ]),
    row(0x9A, 6, 6, &[
        number("hybrid-battery-voltage", 16, 16, 1, 64, 0, Volt).when(1).single(),
        signed("hybrid-battery-current", 32, 16, 1, 10, 0, Ampere).when(2).single(),
    ]),
    row(0x9B, 4, 4, &[
        number("exhaust-fluid-concentration", 8, 8, 1, 4, 0, Percent).when(0).memory(),
        number("exhaust-fluid-temperature", 16, 8, 1, 1, -40, Celsius).when(1).memory(),
        number("exhaust-fluid-tank-level", 24, 8, 100, 255, 0, Percent).when(2).single(),
    ]),
    opaque(0x9C, 17, 17, "oxygen-sensor-data-3-and-4"),
    row(0x9D, 4, 4, &[
        number("engine-fuel-mass-rate", 0, 16, 1, 50, 0, GramPerSecond).single(),
        number("vehicle-fuel-mass-rate", 16, 16, 1, 50, 0, GramPerSecond).single(),
    ]),
    row(0x9E, 2, 2, &[number("engine-exhaust-flow-rate", 0, 16, 1, 5, 0, KilogramPerHour).single()]),
    row(0x9F, 9, 9, &[
        number("fuel-system-a-use-bank-1", 8, 8, 100, 255, 0, Percent).when(0).single(),
        number("fuel-system-b-use-bank-1", 16, 8, 100, 255, 0, Percent).when(1).single(),
        number("fuel-system-a-use-bank-2", 24, 8, 100, 255, 0, Percent).when(2).single(),
        number("fuel-system-b-use-bank-2", 32, 8, 100, 255, 0, Percent).when(3).single(),
        number("fuel-system-a-use-bank-3", 40, 8, 100, 255, 0, Percent).when(4).single(),
        number("fuel-system-b-use-bank-3", 48, 8, 100, 255, 0, Percent).when(5).single(),
        number("fuel-system-a-use-bank-4", 56, 8, 100, 255, 0, Percent).when(6).single(),
        number("fuel-system-b-use-bank-4", 64, 8, 100, 255, 0, Percent).when(7).single(),
    ]),
    row(0xA0, 4, 4, &[ids("supported-pids-a1-c0")]),
    opaque(0xA1, 9, 9, "nox-sensor-corrected-concentration"),
    row(0xA2, 2, 2, &[number("cylinder-fuel-rate", 0, 16, 1, 32, 0, MilligramPerStroke)]),
    opaque(0xA3, 9, 9, "evaporative-system-vapour-pressures"),
    row(0xA4, 4, 4, &[
        number("transmission-actual-gear", 8, 4, 1, 1, 0, Gear).when(0).memory(),
        number("transmission-actual-gear-ratio", 16, 16, 1, 1000, 0, Ratio).when(1).memory(),
    ]),
    row(0xA5, 4, 4, &[number("commanded-exhaust-fluid-dosing", 8, 8, 1, 2, 0, Percent).when(0).memory()]),
    row(0xA6, 4, 4, &[number("odometer", 0, 32, 1, 10, 0, Kilometre)]),
    opaque(0xA7, 4, 4, "nox-concentration-sensors-3-and-4"),
    opaque(0xA8, 4, 4, "nox-corrected-concentration-sensors-3-and-4"),
    opaque(0xA9, 4, 4, "abs-disable-switch-state"),
    row(0xAA, 1, 1, &[number("vehicle-speed-limiter-set-speed", 0, 8, 1, 1, 0, KilometrePerHour).single()]),
    row(0xB2, 1, 1, &[number("traction-battery-state-of-health", 0, 8, 100, 255, 0, Percent).single()]),
    row(0xC0, 4, 4, &[ids("supported-pids-c1-e0")]),
    opaque(0xC3, 2, 2, "fuel-level-inputs-a-and-b"),
    opaque(0xC4, 8, 8, "exhaust-particulate-control-diagnostic-time-and-count"),
    opaque(0xC5, 4, 4, "fuel-pressures-a-and-b"),
    opaque(0xC6, 7, 7, "particulate-control-inducement-status"),
    row(0xC7, 2, 2, &[number("distance-since-reflash", 0, 16, 1, 1, 0, Kilometre).memory()]),
    opaque(0xC8, 1, 1, "ncd-and-pcd-warning-lamp-status"),
    row(0xD2, 3, 3, &[
        number("state-of-certified-energy", 8, 8, 100, 255, 0, Percent).when(0).single(),
        number("state-of-certified-range", 16, 8, 100, 255, 0, Percent).when(1).single(),
    ]),
    row(0xD3, 4, 4, &[number("engine-odometer", 0, 32, 1, 10, 0, Kilometre).single()]),
];
