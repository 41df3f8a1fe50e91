//! The tables of the crate against the tables of the reference: `mode01.csv`, `mode01_fields.csv`,
//! `temp_encodings.csv`, `disagreements.csv`, `service09.csv`.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod reference;

use std::collections::BTreeMap;

use frames::{
    Ask, ByteOrder, DecodeError, Encoding, EncodingError, Entry, Trust, Unit, decode, encode, list,
};
use reference::{hex, rows};

fn of(pid: u8) -> Vec<Entry> {
    list().filter(|entry| entry.ask == Ask::Current(pid)).collect()
}

/// Both spellings of a length: `4`, or `6/11` where editions differ.
fn lengths(text: &str) -> Vec<usize> {
    text.split('/').filter_map(|length| length.parse().ok()).collect()
}

#[test]
fn every_identifier_of_mode01_has_a_row_of_its_length_or_is_known_to_nobody() {
    let all = rows("obd/mode01.csv");
    assert_eq!(all.len(), 203);
    for row in &all {
        let pid = hex(row.at("pid"))[0];
        let ask = Ask::Current(pid);
        let entries = of(pid);
        let reply = |length: usize| [vec![0x41, pid], vec![0; length]].concat();
        if row.at("bytes").is_empty() {
            assert_eq!(entries, [], "{pid:02X}");
            let unknown = DecodeError::UnknownId { service: 1, id: u16::from(pid) };
            assert_eq!(decode(ask, &reply(1)), Err(unknown), "{pid:02X}");
            continue;
        }
        for length in lengths(row.at("bytes")) {
            match decode(ask, &reply(length)) {
                Ok(_) => assert_ne!(row.at("formula"), "no layout given here", "{pid:02X}"),
                Err(DecodeError::NoLayout { .. }) => {
                    assert_eq!(row.at("formula"), "no layout given here", "{pid:02X}")
                }
                Err(other) => panic!("{pid:02X} {length}: {other}"),
            }
        }
        let (short, long) =
            (lengths(row.at("bytes")).into_iter().min(), lengths(row.at("bytes")).into_iter().max());
        // The older edition gives 81, 82, 89 and 8A 21 bytes (disagreements.csv).
        let short = if matches!(pid, 0x81 | 0x82 | 0x89 | 0x8A) { Some(21) } else { short };
        for (length, kind) in [(short.unwrap() - 1, "short-reply"), (long.unwrap() + 1, "long-reply")] {
            assert_eq!(decode(ask, &reply(length)).unwrap_err().kind(), kind, "{pid:02X} {length}");
        }
    }
}

#[test]
fn every_field_of_the_reference_stands_in_the_table_with_its_place_unit_range_and_trust() {
    let all = rows("obd/mode01_fields.csv");
    assert_eq!(all.len(), 305);
    for row in &all {
        let name = format!("{} {}", row.at("pid"), row.at("field"));
        let (offset, length): (u16, u16) =
            (row.at("bit_offset").parse().unwrap(), row.at("bit_length").parse().unwrap());
        let wide = row.at("field").starts_with("egr_temp_wide");
        let entries = of(hex(row.at("pid"))[0]);
        let here = |entry: &&Entry| {
            entry.bits.is_some_and(|bits| (bits.offset, bits.length) == (offset, length))
                && entry.name.ends_with("-wide") == (wide || row.at("pid") == "54")
        };
        let entry = entries.iter().find(here).unwrap_or_else(|| panic!("{name}: no such field"));
        assert_eq!(entry.unit.map(Unit::as_str), Some(row.at("unit")), "{name}");
        if let Some((low, high)) = entry.range {
            let (min, max): (f64, f64) = (row.at("min").parse().unwrap(), row.at("max").parse().unwrap());
            assert!((low - min).abs() <= 1e-6 && (high - max).abs() <= 1e-5, "{name}: {low} to {high}");
        }
        let trust = match row.at("confidence") {
            text if text.starts_with("agreed") => Trust::Agreed,
            text if text.starts_with("single") => Trust::Single,
            _ => Trust::Memory,
        };
        assert_eq!(entry.trust, trust, "{name}");
    }
}

#[test]
fn what_stands_in_the_table_beyond_the_reference_is_marked_as_unchecked() {
    let mut known: BTreeMap<u8, Vec<(u16, u16)>> = BTreeMap::new();
    for row in rows("obd/mode01_fields.csv") {
        let place = (row.at("bit_offset").parse().unwrap(), row.at("bit_length").parse().unwrap());
        known.entry(hex(row.at("pid"))[0]).or_default().push(place);
    }
    for entry in list() {
        let (Ask::Current(pid), Some(bits)) = (entry.ask, entry.bits) else { continue };
        // Support bitmaps and the code in 02 stand in mode01.csv, which has no places.
        let in_reference = pid.is_multiple_of(0x20)
            || pid == 2
            || known.get(&pid).is_some_and(|places| places.contains(&(bits.offset, bits.length)));
        assert!(in_reference || entry.trust == Trust::Memory, "{entry:?}");
    }
}

#[test]
fn where_sources_disagree_the_value_is_the_one_that_the_reference_follows() {
    let mut checked = 0;
    for row in rows("obd/disagreements.csv") {
        let (Ok(want), Ok(pid)) =
            (row.at("value_followed").parse::<f64>(), u8::from_str_radix(row.at("pid"), 16))
        else {
            continue;
        };
        if row.at("payload_hex").is_empty() || row.at("payload_hex").starts_with('(') {
            continue;
        }
        // All zeros would mark the fields of a multi-sensor identifier as not supported.
        let mut payload = hex(row.at("payload_hex"));
        if matches!(pid, 0x69 | 0x7A | 0x7B) {
            payload[0] = 0xFF;
        }
        let values = decode(Ask::Current(pid), &[&[0x41, pid], payload.as_slice()].concat()).unwrap();
        let close = values.iter().filter_map(frames::Value::number).any(|value| (value - want).abs() < 1e-3);
        assert!(close, "{} {} {values:?}", row.at("pid"), row.at("field"));
        checked += 1;
    }
    assert_eq!(checked, 35);
}

#[test]
fn every_temperature_encoding_of_the_reference_reads_and_writes_its_five_temperatures() {
    let all = rows("obd/temp_encodings.csv");
    assert_eq!(all.len(), 31);
    for row in &all {
        let fahrenheit = row.at("native_unit") == "degF";
        let encoding = Encoding {
            byte: 0,
            length: row.at("bytes").parse().unwrap(),
            signed: row.at("sign") == "signed",
            order: ByteOrder::BigEndian,
            scale: row.at("scale").parse().unwrap(),
            offset: row.at("offset").parse().unwrap(),
            bits: None,
        };
        for (column, celsius) in [
            ("raw_at_0C", 0.0),
            ("raw_at_20C", 20.0),
            ("raw_at_40C", 40.0),
            ("raw_at_80C", 80.0),
            ("raw_at_120C", 120.0),
        ] {
            let name = format!("{} at {celsius}", row.at("encoding"));
            let native = if fahrenheit { celsius * 1.8 + 32.0 } else { celsius };
            if row.at(column) == "out of range" {
                assert!(matches!(encoding.write(native), Err(EncodingError::OutOfRange { .. })), "{name}");
                continue;
            }
            let payload = hex(row.at(column));
            assert_eq!(encoding.write(native).unwrap(), payload, "{name}");
            let read = encoding.read(&payload).unwrap().value;
            assert!((read - native).abs() <= encoding.scale.abs() / 2.0 + 1e-9, "{name}: {read}");
        }
    }
}

#[test]
fn every_infotype_of_the_reference_is_known() {
    for row in rows("obd/service09.csv") {
        let id = hex(row.at("infotype"))[0];
        let known = id == 0 || list().any(|entry| entry.ask == Ask::VehicleInfo(id));
        assert!(known, "{id:02X}");
    }
}

#[test]
fn both_lengths_of_a_grown_identifier_are_decoded_as_far_as_they_go() {
    // 6D with one rail (6 bytes) and with two (11): disagreements.csv, "both lengths must be accepted".
    let one = [0x41, 0x6D, 0x07, 0x00, 0x64, 0x00, 0x62, 0x50];
    let values = decode(Ask::Current(0x6D), &one).unwrap();
    let supported: Vec<_> =
        values.iter().filter(|value| value.supported).map(|value| value.number().unwrap()).collect();
    assert_eq!(supported, [1000.0, 980.0, 40.0]);
    assert_eq!(values.len(), 6);
    // The support byte promises a second rail that is not there.
    let broken = [0x41, 0x6D, 0x3F, 0x00, 0x64, 0x00, 0x62, 0x50];
    let short = DecodeError::ShortReply { service: 1, id: 0x6D, want: 11, got: 6 };
    assert_eq!(decode(Ask::Current(0x6D), &broken), Err(short));
}

#[test]
fn readiness_depends_on_the_kind_of_ignition() {
    let names = |b: u8| -> Vec<&str> {
        decode(Ask::Current(1), &[0x41, 0x01, 0x81, b, 0xE5, 0x00])
            .unwrap()
            .iter()
            .map(|value| value.name)
            .collect()
    };
    assert!(names(0x07).contains(&"catalyst-monitor-supported"));
    assert!(!names(0x07).contains(&"boost-pressure-monitor-supported"));
    assert!(names(0x0F).contains(&"boost-pressure-monitor-supported"));
    assert!(!names(0x0F).contains(&"catalyst-monitor-supported"));
}

#[test]
fn the_wide_range_of_egr_temperature_replaces_the_narrow_one() {
    let values = decode(Ask::Current(0x6B), &[0x41, 0x6B, 0x11, 0x64, 0, 0, 0]).unwrap();
    let first: Vec<_> =
        values.iter().filter(|value| value.bits.offset == 8).map(|value| value.number()).collect();
    assert_eq!(first, [Some(360.0)]);
    assert_eq!(
        encode(Ask::Current(0x6B), &[("egr-temperature-bank-1-sensor-1-wide", 360.0)]).unwrap()[2],
        0x10
    );
}
