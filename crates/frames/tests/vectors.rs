//! Every row of `vectors_devs.csv`, `vin_vectors.csv`, `dtc_vectors.csv` and `nrc.csv`.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod reference;

use frames::{
    Ask, CheckDigit, Code, CodeGroup, Datum, NegativeReply, Remedy, Vin, VinError, decode, decode_one,
};
use reference::{hex, rows};

/// Shows a value as the column `expected` does.
fn shown(value: &frames::Value) -> String {
    match value.value {
        Datum::Code(code) => code.to_string(),
        Datum::Ids(ids) => ids.iter().map(|id| format!("{id:02X}")).collect::<Vec<_>>().join(" "),
        Datum::Word(word) if value.name == "freeze-frame-dtc" => word.to_owned(),
        other => panic!("{other:?} is a number in this table"),
    }
}

#[test]
fn every_field_of_every_reply_has_the_value_of_the_sources() {
    let all = rows("obd/vectors_devs.csv");
    assert_eq!(all.len(), 2165);
    for row in &all {
        let name = format!("{} {} {}", row.at("id"), row.at("reply_hex"), row.at("field"));
        let ask = Ask::parse(row.at("request")).unwrap();
        let data = hex(row.at("reply_hex"));
        let values = decode(ask, &data).unwrap_or_else(|error| panic!("{name}: {error}"));
        let (offset, length): (u16, u16) =
            (row.at("bit_offset").parse().unwrap(), row.at("bit_length").parse().unwrap());
        let place = |value: &&frames::Value| {
            let wide = value.name.ends_with("-wide") && value.name.starts_with("egr-");
            (value.bits.offset, value.bits.length) == (offset, length)
                && wide == row.at("field").starts_with("egr_temp_wide")
        };
        let value = values.iter().find(place).unwrap_or_else(|| panic!("{name}: no such field"));
        if row.at("supported_bit") == "0" {
            assert_eq!((value.supported, value.value), (false, Datum::Absent), "{name}");
            continue;
        }
        assert!(value.supported, "{name}");
        let got = match value.value {
            Datum::Number(number) => number,
            Datum::Flag(flag) => f64::from(u8::from(flag)),
            Datum::Word(_) if row.at("unit") == "enum" => value.raw as f64,
            _ => {
                assert_eq!(shown(value), row.at("expected"), "{name}");
                continue;
            }
        };
        let want: f64 = row.at("expected").parse().unwrap();
        let tolerance: f64 = row.at("tolerance").parse().unwrap();
        assert!((got - want).abs() <= tolerance, "{name}: {got} is not {want}");
        let unit = if matches!(value.value, Datum::Number(_)) { value.unit.as_str() } else { row.at("unit") };
        assert_eq!(unit, row.at("unit"), "{name}");
        assert_eq!(decode_one(ask, &data, value.name).unwrap(), *value, "{name}");
    }
}

#[test]
fn every_vin_has_the_verdict_of_the_libraries() {
    let all = rows("obd/vin_vectors.csv");
    assert_eq!(all.len(), 50);
    for row in &all {
        let name = format!("{} {}", row.at("id"), row.at("vin"));
        match (row.at("length_ok"), row.at("characters_ok"), Vin::new(row.at("vin").as_bytes())) {
            ("no", _, got) => assert!(matches!(got, Err(VinError::Length { .. })), "{name}"),
            (_, "no", got) => assert!(matches!(got, Err(VinError::Character { .. })), "{name}"),
            (_, _, got) => {
                let vin = got.unwrap();
                assert_eq!(vin.computed_check_digit().to_string(), row.at("check_digit_computed"), "{name}");
                let verdict = match vin.check_digit() {
                    CheckDigit::Valid => "valid",
                    CheckDigit::Wrong { .. } => "invalid",
                    CheckDigit::Placeholder => "disputed",
                };
                assert_eq!(verdict, row.at("check_digit"), "{name}");
            }
        }
    }
}

#[test]
fn every_code_has_the_text_the_group_and_the_owner_of_the_sources() {
    let all = rows("obd/dtc_vectors.csv");
    assert_eq!(all.len(), 180);
    for row in &all {
        let bytes = hex(row.at("bytes"));
        let raw = u16::from_be_bytes([bytes[0], bytes[1]]);
        let Some(code) = Code::from_raw(raw) else {
            assert_eq!(row.at("code"), "(none: filler)");
            continue;
        };
        assert_eq!(code.to_string(), row.at("code"), "{}", row.at("id"));
        let letter = match row.at("group") {
            "powertrain" => 'P',
            "chassis" => 'C',
            "body" => 'B',
            _ => 'U',
        };
        assert_eq!(code.letter(), letter, "{}", row.at("id"));
        let owner = match code.group() {
            CodeGroup::Standard if row.at("origin").starts_with("standard") => row.at("origin"),
            CodeGroup::Standard => "standard",
            CodeGroup::Maker => "maker",
            CodeGroup::Reserved => "reserved",
        };
        assert_eq!(owner, row.at("origin"), "{}", row.at("id"));
        if row.at("source").contains("meaning:") {
            assert!(code.text().is_some(), "{} {}", row.at("id"), row.at("code"));
        }
    }
}

#[test]
fn every_refusal_has_the_remedy_of_the_table() {
    let all = rows("obd/nrc.csv");
    assert_eq!(all.len(), 71);
    for row in &all {
        let negative = NegativeReply { service: 0x22, code: hex(row.at("code"))[0] };
        let want = match row.at("what_to_do") {
            "do not ask again" | "do not ask again in this session" => Remedy::DoNotAskAgain,
            "keep listening up to P2*" => Remedy::Pending,
            "wait" | "wait and repeat" => Remedy::Wait,
            "tell the user" | "wait; tell the user" => Remedy::TellTheUser,
            "ask for less" => Remedy::AskForLess,
            "give up" | "not used here" | "bug in the request" => Remedy::GiveUp,
            other => panic!("{other}"),
        };
        assert_eq!(negative.remedy(), want, "{}", row.at("code"));
        assert!(negative.meaning().is_some(), "{}", row.at("code"));
    }
}

/// The words of a text, in lower case: runs of letters.
fn words(text: &str) -> Vec<String> {
    let letters = text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty());
    letters.map(str::to_lowercase).collect()
}

#[test]
fn every_word_about_a_refusal_is_a_word_of_its_row() {
    // What the table calls an ECU is a control unit here; all other words are the table's.
    let ours = ["control", "unit"];
    let all = rows("obd/nrc.csv");
    for code in 0..=u8::MAX {
        let Some(meaning) = (NegativeReply { service: 0x22, code }).meaning() else { continue };
        let row = all.iter().find(|row| hex(row.at("code")) == [code]);
        let row = words(row.unwrap_or_else(|| panic!("{code:02X} is in no table")).at("meaning"));
        for word in words(meaning) {
            let known =
                row.contains(&word) || (ours.contains(&word.as_str()) && row.contains(&"ecu".to_owned()));
            assert!(known, "{code:02X} `{meaning}`: `{word}` is no word of the table");
        }
    }
}
