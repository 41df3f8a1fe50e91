//! Edges, worked out by hand from ISO 15765-2, SAE J1979 and the forms of a line in the adapter reference.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

use frames::{
    Ask, Bus, Counted, Datum, DecodeError, EncodeError, Headers, Layout, TestRecord, Unit, Value, VinError,
    WireError, decode, encode, encode_tests, encode_texts, messages, reply,
};

const CAN11: Layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
const CAN29: Layout = Layout { bus: Bus::Can29, headers: Headers::Shown };
const BARE: Layout = Layout { bus: Bus::Can11, headers: Headers::Hidden };
const K9141: Layout = Layout { bus: Bus::Iso9141, headers: Headers::Shown };
const K9141_BARE: Layout = Layout { bus: Bus::Iso9141, headers: Headers::Hidden };
const KWP: Layout = Layout { bus: Bus::Iso14230, headers: Headers::Shown };

/// Messages as `ecu data`, and the kind of problem.
fn parsed(layout: Layout, request: &str, text: &str) -> (Vec<String>, Option<&'static str>) {
    let got = reply(text.as_bytes(), layout, Ask::parse(request).ok());
    let shown = got.messages.iter().map(|message| {
        let data: String = message.data.iter().map(|byte| format!("{byte:02X}")).collect();
        message.ecu.map_or(data.clone(), |ecu| format!("{ecu} {data}"))
    });
    (shown.collect(), got.problem.as_ref().map(WireError::kind))
}

/// What it is, the layout, the request, the text, the messages, the kind of problem.
type Case<'a> = (&'a str, Layout, &'a str, &'a str, &'a [&'a str], Option<&'a str>);

#[test]
#[rustfmt::skip]
fn the_text_of_a_reply_is_read_or_refused() {
    let cases: &[Case<'_>] = &[
        // CAN, headers shown
        ("a first frame for seven bytes",        CAN11, "", "7E8 10 07 41 00 BE 3F A8 13\r>", &[], Some("malformed")),
        ("a first frame that is not full",       CAN11, "", "7E8 10 14 49 02 01\r7E8 21 47 50 30 30 52 35 35\r>", &[], Some("incomplete")),
        ("a first frame of one byte",            CAN11, "", "7E8 10\r>", &[], Some("incomplete")),
        ("an identifier and nothing else",       CAN11, "", "7E8\r>", &[], Some("incomplete")),
        ("a consecutive frame cut short",        CAN11, "", "7E8 10 09 62 1E 1C 00 01 02\r7E8 21 03 04\r>", &[], Some("incomplete")),
        ("a last frame with just what is left",  CAN11, "", "7E8 10 09 62 1E 1C 00 01 02\r7E8 21 03 04 05\r>", &["7E8 621E1C000102030405"], None),
        ("a part too many",                      CAN11, "", "7E8 10 09 62 1E 1C 00 01 02\r7E8 21 03 04 05\r7E8 22 00\r>", &["7E8 621E1C000102030405"], Some("no-first-frame")),
        ("a second beginning before the end",    CAN11, "", "7E8 10 09 62 1E 1C 00 01 02\r7E8 10 09 62 1E 1C 00 01 02\r7E8 21 03 04 05\r>", &["7E8 621E1C000102030405"], Some("incomplete")),
        ("a short answer inside a long one",     CAN11, "", "7E8 10 09 62 1E 1C 00 01 02\r7E8 03 41 05 7B\r7E8 21 03 04 05\r>", &["7E8 41057B"], Some("incomplete")),
        ("one unit broken, the other whole",     CAN11, "", "7E8 10 14 49 02 01 31 44 34\r7E9 03 41 05 7B\r>", &["7E9 41057B"], Some("incomplete")),
        ("nine bytes in a frame",                CAN11, "", "7E8 03 41 05 7B 00 00 00 00 00\r>", &[], Some("malformed")),
        ("a frame type that does not exist",     CAN11, "", "7E8 43 41 05 7B\r>", &[], Some("malformed")),
        ("flow control beside an answer",        CAN11, "", "7E0 30 00 00\r7E8 03 41 05 7B\r>", &["7E8 41057B"], None),
        ("an identifier above 7FF",              CAN11, "", "8E8 03 41 05 7B\r>", &[], Some("malformed")),
        ("a header that is missing, spaced",     CAN11, "0105", "41 05 7B\r>", &[], Some("malformed")),
        ("a header that is missing, compact",    CAN11, "0105", "41057B\r>", &[], Some("malformed")),
        ("the other kind of identifier",         CAN11, "", "18 DA F1 10 03 41 05 7B\r>", &[], Some("malformed")),
        ("the other kind, compact",              CAN29, "", "7E80341057B00000000\r>", &[], Some("malformed")),
        ("an identifier in one group",           CAN29, "", "18DAF110 03 41 05 7B\r>", &["18DAF110 41057B"], None),
        ("a length digit, compact",              CAN11, "", "7E880341057B00000000\r>", &["7E8 41057B"], None),
        ("a length digit, 29 bit",               CAN29, "", "18 DA F1 10 4 03 41 05 7B\r>", &["18DAF110 41057B"], None),
        ("a length digit that does not fit",     CAN11, "", "7E8 7 03 41 05 7B 00 00 00 00\r>", &[], Some("malformed")),
        ("a line nobody could have sent",        CAN11, "", &"7E8 ".repeat(400), &[], Some("too-much")),
        // CAN, headers hidden
        ("two long answers, one after another",  BARE, "", "009\r0: 62 1E 1C 00 01 02\r1: 03 04 05\r009\r0: 62 1E 1C 09 01 02\r1: 03 04 06\r>", &["621E1C000102030405", "621E1C090102030406"], None),
        ("a refusal between the parts",          BARE, "", "009\r0: 62 1E 1C 00 01 02\r7F 22 12\r1: 03 04 05\r>", &["621E1C000102030405", "7F2212"], None),
        ("a length and no parts",                BARE, "", "014\r>", &[], Some("incomplete")),
        ("a length, then part one",              BARE, "", "014\r1: 47 50 30 30 52 35 35\r>", &[], Some("sequence-gap")),
        ("parts without a length",               BARE, "", "0: 49 02 01 31 44 34\r1: 47 50 30 30 52 35 35\r>", &[], Some("no-first-frame")),
        ("two lengths",                          BARE, "", "014\r014\r0: 49 02 01 31 44 34\r>", &[], Some("ambiguous")),
        ("eight bytes in a part",                BARE, "", "014\r0: 49 02 01 31 44 34 00 00\r>", &[], Some("incomplete")),
        ("eight bytes without their length",     BARE, "", "41 00 BE 3F A8 13 00 00\r>", &[], Some("malformed")),
        ("the echo of 03 with a count",          BARE, "03", "031\r43 01 07 11\r>", &["43010711"], None),
        ("the same before a long answer",        BARE, "03", "032\r00A\r0: 43 04 07 11 07 12\r1: 07 13 02 18 00 00 00\r>", &["43040711071207130218"], None),
        ("a length that looks like an echo",     BARE, "07", &("070\r0: 47 37 07 11 07 12\r".to_owned() + &(1..=16).map(|n| format!("{:X}: 00 00 00 00 00 00 00\r", n & 15)).collect::<String>() + ">"),
            &[&("4737071107 12".replace(' ', "") + &"0".repeat(2 * (0x70 - 6)))], None),
        ("padding behind a code",                BARE, "03", "43 01 07 11 00 00 00\r>", &["43010711"], None),
        ("a tail that is no padding",            BARE, "0105", "41 05 7B 0C 1A F8 00\r>", &["41057B0C1AF800"], None),
        // older buses
        ("a line of the tester",                 K9141, "", "68 6A F1 01 05 C9\r48 6B 11 41 05 7B 85\r>", &["11 41057B"], None),
        ("a header without data",                K9141, "", "48 6B 11 C4\r>", &[], Some("incomplete")),
        ("two bytes",                            K9141, "", "48 B3\r>", &[], Some("malformed")),
        ("an answer that begins below 40",       K9141, "", "48 6B 11 01 05 CA\r>", &[], Some("malformed")),
        ("the third line of a VIN is missing",   K9141_BARE, "0902", "49 02 01 00 00 00 31\r49 02 02 44 34 47 50\r49 02 04 35 42 31 32\r>", &[], Some("sequence-gap")),
        ("the last line of a VIN is missing",    K9141_BARE, "0902", "49 02 01 00 00 00 31\r49 02 02 44 34 47 50\r>", &[], Some("incomplete")),
        ("the first line of a VIN is missing",   K9141_BARE, "0902", "49 02 02 44 34 47 50\r>", &[], Some("no-first-frame")),
        ("two VINs mixed",                       K9141_BARE, "0902", "49 02 01 00 00 00 31\r49 02 01 00 00 00 31\r49 02 02 44 34 47 50\r>", &[], Some("ambiguous")),
        ("two numbers, one after another",       K9141_BARE, "0906", "49 06 01 11 22 33 44\r49 06 02 55 66 77 88\r49 06 01 AA BB CC DD\r>", &["49061122334455667788", "4906AABBCCDD"], None),
        ("two numbers that could be either's",   K9141_BARE, "0906", "49 06 01 11 22 33 44\r49 06 01 AA BB CC DD\r49 06 02 55 66 77 88\r>", &[], Some("ambiguous")),
        ("a format byte without addresses",      KWP, "", "03 41 05 7B C4\r>", &[], Some("malformed")),
        ("a format byte for more than came",     KWP, "", "84 F1 11 41 05 7B 47\r>", &[], Some("incomplete")),
        // texts
        ("an answer, then a reset",              CAN11, "0105", "7E8 03 41 05 7B\rLV RESET\r>", &[], Some("adapter-reset")),
        ("a reset, then an answer",              CAN11, "0105", "LV RESET\r7E8 03 41 05 7B\r>", &[], Some("adapter-reset")),
        ("lines missing, then an answer",        CAN11, "0105", "BUFFER FULL\r7E8 03 41 05 7B\r>", &[], Some("overrun")),
        ("one unit's line spoilt",               CAN11, "0105", "7E8 03 41 05 7B <RX ERROR\r7E9 03 41 05 64\r>", &["7E9 410564"], Some("data-error")),
        ("an answer spoilt as a whole",          CAN11, "0105", "7E9 03 41 05 64\rDATA ERROR\r>", &[], Some("data-error")),
        ("two beginnings without lengths",       BARE, "", "41 05 7B\r10 14 49 02 01 31 44 34\r10 14 49 02 01 31 4D 38\r>", &[], Some("ambiguous")),
        ("a byte that begins no answer",         BARE, "", "81 05 7B\r>", &[], Some("malformed")),
        ("an answer, then a banner",             CAN11, "0105", "7E8 03 41 05 7B\rELM327 v1.5\r>", &[], Some("identity")),
        ("an answer, then an alert",             CAN11, "0105", "7E8 03 41 05 7B\rACT ALERT\r>", &["7E8 41057B"], Some("power-alert")),
        ("searching without an end",             CAN11, "0100", "SEARCHING...\r>", &[], Some("incomplete")),
        ("two replies in one text",              CAN11, "0105", "7E8 03 41 05 7B\r\r>7E8 03 41 05 7C\r\r>", &[], Some("text-after-prompt")),
        ("a doubled prompt",                     CAN11, "0105", "7E8 03 41 05 7B\r\r>\r>", &["7E8 41057B"], None),
        ("no prompt: the caller vouches",        CAN11, "0105", "7E8 03 41 05 7B", &["7E8 41057B"], None),
        ("another request's echo",               CAN11, "0105", "010C\r7E8 03 41 05 7B\r>", &["7E8 41057B"], Some("malformed")),
        ("a text nobody knows",                  CAN11, "0105", "HELLO\r>", &[], Some("malformed")),
        ("a vendor's text",                      CAN11, "0105", "VENDOR OPTION\r>", &[], Some("unknown-text")),
        ("answers of several requests",          CAN11, "0105", "7E8 04 41 0C 1A F8\r7E8 03 41 05 7B\r>", &["7E8 41057B"], None),
        ("a refusal of another service",         CAN11, "0105", "7E8 03 7F 22 31\r>", &[], Some("mismatch")),
    ];
    for (what, layout, request, text, want, kind) in cases {
        let want: Vec<String> = want.iter().map(|message| (*message).to_owned()).collect();
        assert_eq!(parsed(*layout, request, text), (want, *kind), "{what}");
    }
}

#[test]
fn an_error_says_what_was_due_what_came_and_at_which_byte() {
    let gap = messages(
        b"SEARCHING...\r7E8 10 14 49 02 01 31 44 34 \r7E8 22 42 31 32 33 34 35 36 \r\r>",
        CAN11,
        None,
    );
    let ecu = "7E8".parse().ok();
    assert_eq!(gap, Err(WireError::SequenceGap { ecu, want: 1, got: 2, at: 42 }));
    let short = messages(b"\r7E8 03 41 05\r>", CAN11, None);
    assert_eq!(short, Err(WireError::Incomplete { ecu, want: 3, got: 2, at: 1 }));
    let letter = messages(b"7E8 03 41 0G\r>", CAN11, None);
    assert!(matches!(letter, Err(WireError::Malformed { at: 11, .. })), "{letter:?}");
    let sum = messages(b"48 6B 11 41 05 7B 86\r>", K9141, None);
    assert_eq!(sum, Err(WireError::Checksum { want: 0x85, got: 0x86, at: 0 }));
}

#[test]
fn answers_to_other_requests_are_kept_apart() {
    let both = reply(b"7E8 04 41 0C 1A F8\r7E8 03 41 05 7B\r>", CAN11, Ask::parse("0105").ok());
    assert_eq!((both.messages.len(), both.others.len(), both.prompt), (1, 1, true));
    assert_eq!(both.others[0].data, [0x41, 0x0C, 0x1A, 0xF8]);
    assert!(!reply(b"7E8 03 41 05 7B\r", CAN11, Ask::parse("0105").ok()).prompt);
}

fn decoded(request: &str, data: &[u8]) -> Result<Vec<(&'static str, Datum)>, DecodeError> {
    let values = decode(Ask::parse(request).unwrap(), data)?;
    Ok(values.into_iter().map(|value: Value| (value.name, value.value)).collect())
}

fn text(datum: Datum) -> String {
    match datum {
        Datum::Text(label) => label.to_string(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_message_that_does_not_fit_its_request_says_why() {
    let cases: &[(&str, &[u8], DecodeError)] = &[
        ("010C", &[0x41, 0x0C, 0x1A], DecodeError::ShortReply { service: 1, id: 0x0C, want: 2, got: 1 }),
        ("010C", &[0x41, 0x0C, 1, 2, 3], DecodeError::LongReply { service: 1, id: 0x0C, want: 2, got: 3 }),
        ("010C", &[0x41, 0x0D, 0x1A], DecodeError::Mismatch { service: 1, want: 0x0C, got: 0x0D, at: 1 }),
        ("010C", &[0x62, 0x0C, 0x1A], DecodeError::Mismatch { service: 1, want: 0x41, got: 0x62, at: 0 }),
        ("010C", &[0x41], DecodeError::ShortReply { service: 1, id: 0x0C, want: 1, got: 0 }),
        ("010C", &[], DecodeError::ShortReply { service: 1, id: 0x0C, want: 1, got: 0 }),
        ("01FF", &[0x41, 0xFF, 0], DecodeError::UnknownId { service: 1, id: 0xFF }),
        ("03", &[0x43, 2, 7, 0x11], DecodeError::Count { want: 2, got: 2 }),
        ("03", &[0x43], DecodeError::ShortReply { service: 3, id: 0, want: 1, got: 0 }),
        ("03", &[0x43, 7, 0x11], DecodeError::ShortReply { service: 3, id: 0, want: 6, got: 2 }),
        ("0902", &[0x49, 2, 1, 0x31], DecodeError::ShortReply { service: 9, id: 2, want: 18, got: 2 }),
        ("0904", b"\x49\x04\x02DEMOCAL000000001", DecodeError::Count { want: 2, got: 16 }),
        ("0904", b"\x49\x04\x01DEMOCAL00000\x01001", DecodeError::Text { at: 13, byte: 1 }),
        (
            "0910",
            &[0x49, 0x10, 0],
            DecodeError::NoLayout { service: 9, id: 0x10, name: "protocol-identification" },
        ),
        ("0911", &[0x49, 0x11, 0], DecodeError::UnknownId { service: 9, id: 0x11 }),
        ("0602", &[0x46, 2, 1, 0x7F, 0, 0, 0, 0, 0, 0], DecodeError::UnknownScaling { id: 0x7F }),
        ("0602", &[0x46, 2, 1, 1, 0, 0], DecodeError::ShortReply { service: 6, id: 2, want: 8, got: 4 }),
        ("224D07", &[0x62, 0x4D, 7, 0x4E], DecodeError::NeedsSheet { service: 0x22 }),
    ];
    for (request, data, want) in cases {
        assert_eq!(decoded(request, data).unwrap_err(), *want, "{request} {data:02X?}");
    }
    let refused = decoded("010C", &[0x7F, 0x01, 0x12]).unwrap_err();
    assert_eq!(refused.to_string(), "service 01 refused with 12: sub-function not supported");
    let letter = decoded("0902", b"\x49\x02\x011M8GDM9AXKPO42788").unwrap_err();
    assert_eq!(letter, DecodeError::Vin(VinError::Character { at: 12, byte: b'O' }));
}

#[test]
fn a_vin_comes_with_the_verdict_on_its_check_digit() {
    // The example of the adapter's data sheet, as CAN and as the older buses carry it: its check digit is wrong.
    for start in [&b"\x49\x02\x01"[..], b"\x49\x02\x00\x00\x00"] {
        let values = decoded("0902", &[start, b"1D4GP00R55B123456"].concat()).unwrap();
        assert!(matches!(values[0], ("vin", Datum::Vin(vin)) if vin.as_str() == "1D4GP00R55B123456"));
        assert_eq!(values[1], ("vin-check-digit", Datum::Word("wrong")));
    }
}

#[test]
fn texts_of_vehicle_information_come_back() {
    let two = encode_texts(0x04, &["DEMOCAL000000001", "DEMO2"], Counted::Yes).unwrap();
    assert_eq!(two.len(), 2 + 1 + 32);
    let values = decoded("0904", &two).unwrap();
    assert_eq!(
        values.iter().map(|(_, datum)| text(*datum)).collect::<Vec<_>>(),
        ["DEMOCAL000000001", "DEMO2"]
    );
    // The layout of wire_vectors.csv W0097.
    let name = encode_texts(0x0A, &["TCM", "TestControl1"], Counted::Yes).unwrap();
    assert_eq!(name, b"\x49\x0A\x01TCM\0-TestControl1\0\0\0");
    let values = decoded("090A", &name).unwrap();
    assert_eq!(
        values.iter().map(|(name, datum)| (*name, text(*datum))).collect::<Vec<_>>(),
        [("ecu-acronym", "TCM".to_owned()), ("ecu-name", "TestControl1".to_owned())]
    );
    let long = encode_texts(0x0D, &["123456789012345678"], Counted::Yes);
    assert_eq!(long, Err(EncodeError::Text { index: 0, limit: 17 }));
    assert!(matches!(encode_texts(0x06, &["1"], Counted::No), Err(EncodeError::NoLayout { .. })));
    let number = decoded("0906", &[0x49, 0x06, 0x01, 0x1A, 0x2B, 0x3C, 0x4D]).unwrap();
    assert_eq!(text(number[0].1), "1A2B3C4D");
}

#[test]
fn results_of_tests_carry_their_unit() {
    // Scaling 16 is 0.1 degC - 40 in SAE J1979 appendix E, 81 a signed count.
    let records = [
        TestRecord { test: 0x05, scaling: 0x16, value: 0x0640, minimum: 0, maximum: 0x09C4 },
        TestRecord { test: 0x06, scaling: 0x81, value: 0xFFFF, minimum: 0x8000, maximum: 0x7FFF },
    ];
    let data = encode_tests(0x21, &records);
    let values = decode(Ask::TestResults(0x21), &data).unwrap();
    let numbers: Vec<_> = values.iter().filter_map(Value::number).collect();
    assert_eq!(numbers, [5.0, 22.0, 120.0, -40.0, 210.0, 6.0, 129.0, -1.0, -32_768.0, 32_767.0]);
    assert_eq!((values[2].unit, values[2].bits.offset, values[7].bits.offset), (Unit::Celsius, 16, 88));
    // The form of the older buses: no scale, one limit.
    let older = decoded("0602", &[0x46, 0x02, 0x85, 0x01, 0x00, 0x00, 0x80]).unwrap();
    assert_eq!(older[0], ("test-limit-kind", Datum::Word("minimum")));
    assert_eq!(older[2], ("test-value", Datum::Number(256.0)));
}

#[test]
fn a_flag_an_enumeration_and_a_code_are_encoded_by_their_raw_number() {
    let lamp = encode(Ask::Current(0x01), &[("mil", 1.0), ("dtc-count", 2.0)]).unwrap();
    assert_eq!(lamp, [0x41, 0x01, 0x82, 0, 0, 0]);
    assert_eq!(
        encode(Ask::Current(0x02), &[("freeze-frame-dtc", f64::from(0x0711))]).unwrap(),
        [0x41, 2, 7, 0x11]
    );
    assert_eq!(encode(Ask::Current(0x0C), &[("engine-speed", 1726.0)]).unwrap(), [0x41, 0x0C, 0x1A, 0xF8]);
    assert_eq!(encode(Ask::Current(0x0C), &[("mil", 1.0)]), Err(EncodeError::UnknownName { index: 0 }));
    let outside = encode(Ask::Current(0x05), &[("engine-coolant-temperature", 216.0)]);
    assert!(matches!(outside, Err(EncodeError::OutOfRange { low: -40.0, high: 215.0, .. })), "{outside:?}");
    assert!(encode(Ask::Current(0x05), &[("engine-coolant-temperature", f64::NAN)]).is_err());
    assert!(matches!(encode(Ask::Current(0x88), &[]), Err(EncodeError::NoLayout { service: 1, id: 0x88 })));
}

#[test]
fn several_identifiers_in_one_answer_are_taken_apart() {
    // The worked example of the adapter's data sheet (page 45), as in exchanges.csv X096.
    let data = [0x41, 0x04, 0x3F, 0x05, 0x44, 0x0B, 0x21, 0x0C, 0x17, 0xB8];
    let values = decoded("0104050B0C", &data).unwrap();
    let names: Vec<_> = values.iter().map(|(name, _)| *name).collect();
    assert_eq!(
        names,
        [
            "calculated-load",
            "engine-coolant-temperature",
            "intake-manifold-absolute-pressure",
            "engine-speed"
        ]
    );
    assert_eq!(values[3].1, Datum::Number(1518.0));
    assert!(decoded("0104050B0C", &data[..9]).is_err());
    let stranger = decoded("01040C", &[0x41, 0x04, 0x3F, 0x05, 0x44]);
    assert_eq!(stranger.unwrap_err(), DecodeError::UnknownId { service: 1, id: 0x05 });
}
