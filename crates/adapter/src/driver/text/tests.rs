use super::*;

fn reply(text: &[u8]) -> Reply {
    Reply { text: text.to_vec(), ..Reply::default() }
}

#[test]
fn a_voltage_is_a_number_that_a_vehicle_can_have_or_unknown() {
    // exchanges.csv X058 to X061; section 18, fault 38.
    let cases: &[(&str, Option<u32>)] = &[
        ("12.6V", Some(12_600)),
        ("14.1V", Some(14_100)),
        ("12.3", Some(12_300)),
        ("11.87V", Some(11_870)),
        ("0.0V", None),
        ("99.9V", None),
        ("OK", None),
        ("?", None),
        ("12V", None),
        ("-1.0V", None),
    ];
    for (text, want) in cases {
        assert_eq!(millivolts(text.as_bytes()), *want, "{text}");
    }
}

#[test]
fn the_number_of_the_protocol_is_the_last_line_of_its_form() {
    // exchanges.csv X063 to X066, X080.
    let cases: &[(&[u8], Option<u8>)] = &[
        (b"A6\r\r", Some(6)),
        (b"A7\r\r", Some(7)),
        (b"6\r\r", Some(6)),
        (b"A0\r\r", Some(0)),
        (b"0\r\r", Some(0)),
        (b"SEARCHING\r4100BE3EB811\rELM327 v1.5\r\r", None),
        (b"ELM327 v1.5\rA6\r\r", Some(6)),
        (b"?\r\r", None),
        (b"AF\r\r", None),
    ];
    for (text, want) in cases {
        assert_eq!(number(&reply(text)), *want, "{}", text.escape_ascii());
    }
}

#[test]
fn numbers_end_with_the_last_protocol_there_is() {
    for (digit, want) in [(b'0', Some(0)), (b'9', Some(9)), (b'A', Some(10)), (b'C', Some(12)), (b'D', None)]
    {
        assert_eq!(number(&reply(&[digit, b'\r'])), want, "{}", char::from(digit));
        assert_eq!(number(&reply(&[b'A', digit, b'\r'])), want, "A{}", char::from(digit));
        assert_eq!(number(&reply(&[b'B', digit, b'\r'])), None, "B{}", char::from(digit));
    }
}

#[test]
fn what_a_text_means_for_the_silence() {
    use Status as S;
    let cases: &[(Status, Silence)] = &[
        (S::UnableToConnect, Silence::NoProtocol),
        (S::Searching, Silence::NoProtocol),
        (S::NoData, Silence::NoData),
        (S::BusInit, Silence::BusInit),
        (S::BusInitOk, Silence::BusInit),
        (S::BusInitError, Silence::BusInit),
        (S::BusBusy, Silence::Bus(S::BusBusy)),
        (S::BusError, Silence::Bus(S::BusError)),
        (S::CanError, Silence::Bus(S::CanError)),
        (S::DataError, Silence::Bus(S::DataError)),
        (S::RxError, Silence::Bus(S::RxError)),
        (S::Stopped, Silence::Interrupted),
        (S::BusInitStopped, Silence::Interrupted),
        (S::NotUnderstood, Silence::NotUnderstood),
        (S::BufferFull, Silence::Adapter(S::BufferFull)),
        (S::FeedbackError, Silence::Adapter(S::FeedbackError)),
        (S::AdapterFault(94), Silence::Adapter(S::AdapterFault(94))),
        (S::Ok, Silence::Malformed),
        (S::Modem, Silence::Malformed),
    ];
    for (status, want) in cases {
        assert_eq!(silence_of(*status), *want, "{status:?}");
    }
}

#[test]
fn an_echo_without_its_first_character_is_recognised() {
    let cases: &[(&[u8], &[u8], bool)] = &[
        (b"TZ\r?\r\r", b"ATZ\r", true),
        (b"TE0\r?\r\r", b"ATE0\r", true),
        (b"ATZ\r\r\rELM327 v1.5\r\r", b"ATZ\r", false),
        (b"?\r\r", b"ATZ\r", false),
        (b"OK\r\r", b"ATE0\r", false),
        (b"I\rELM327 v1.5\r\r", b"TI\r", false),
        (b"ATI\rELM327 v1.5\r\r", b" ATI\r", false),
    ];
    for (text, sent, want) in cases {
        let reply = Reply { text: text.to_vec(), ..Reply::default() };
        assert_eq!(lost_first(&reply, sent), *want, "{}", text.escape_ascii());
    }
}

#[test]
fn words_are_found_across_spaces_and_dots() {
    assert!(holds(b"BUS INIT: ...", b"BUSINIT"));
    assert!(holds(b"\rSEARCHING", b"SEARCHING"));
    assert!(holds(b"7E9 03 7F 22 78 \r", &pending_text(Ask::Identifier(0x1940))));
    assert!(!holds(b"7E9 03 7F 21 78 \r", &pending_text(Ask::Identifier(0x1940))));
    assert!(!holds(b"SEARCHIN", b"SEARCHING"));
    assert!(holds(b"Searching...", b"SEARCHING"), "letter case is the adapter's business");
    assert!(holds(b"7e9037f2278\r", &pending_text(Ask::Identifier(0x1940))));
    assert!(holds(b"7E9 03 7F 2A 78", b"7F2A78") && holds(b"7e9 03 7f 2a 78", b"7F2A78"));
}
