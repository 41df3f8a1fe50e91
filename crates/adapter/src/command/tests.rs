//! The proof that only listed lines can be built.

use proptest::prelude::*;

use super::allowed::is_allowed;
use super::*;

fn setups() -> Vec<Setup> {
    let (can11, can29) = (Ecu::can11(0x7E9).unwrap(), Ecu::can29(0x18DA_F118).unwrap());
    let mut all = vec![
        Setup::Identify,
        Setup::Description,
        Setup::Identifier,
        Setup::FamilyIdentify,
        Setup::Voltage,
        Setup::WarmStart,
        Setup::Reset,
        Setup::CloseProtocol,
        Setup::ForgetEvents,
        Setup::MemoryOff,
        Setup::AdaptiveTiming(Adaptive::Off),
        Setup::AdaptiveTiming(Adaptive::Careful),
        Setup::AdaptiveTiming(Adaptive::Bold),
        Setup::Search,
        Setup::ProtocolNumber,
        Setup::ProtocolName,
        Setup::ReceiveAny,
        Setup::OfferFastRate,
        Setup::FlowHeader(Header::can11(0x750).unwrap()),
        Setup::FlowGoOn,
        Setup::FlowOwn,
        Setup::FlowAutomatic,
        Setup::ProbeKeyWords,
        Setup::ProbeSilent,
        Setup::ProbeActivity,
        Setup::ProbeMultiplier,
        Setup::ProbeNonsense,
    ];
    for to in [Switch::Off, Switch::On] {
        all.extend([Setup::Echo(to), Setup::LineFeeds(to), Setup::Spaces(to), Setup::Headers(to)]);
        all.extend([Setup::CanFormatting(to), Setup::CanFlowControl(to)]);
    }
    all.extend(Protocol::ALL.map(Setup::Try));
    all.extend((0..=0xFF).map(Setup::Timeout));
    for ecu in [can11, can29, Ecu::address(0x18)] {
        all.extend([Setup::ReceiveOnly(ecu), Setup::Filter(ecu), Setup::Mask(ecu)]);
    }
    for bus in Bus::ALL {
        all.push(Setup::Header(Header::functional(bus)));
    }
    all
}

#[test]
fn every_setting_is_on_the_list_and_none_is_on_the_other() {
    for setup in setups() {
        let line = Command::Set(setup).line();
        assert!(is_allowed(&line), "{line:?}");
    }
}

#[test]
fn the_list_itself_refuses_what_must_never_be_sent() {
    let never = [
        "ATPP0CSV23\r",
        "ATPP0CON\r",
        "AT@3ABCDEFGHIJKL\r",
        "ATSP00\r",
        "ATSP6\r",
        "ATTPA0\r",
        "ATM1\r",
        "ATKW0\r",
        "ATMA\r",
        "ATR0\r",
        "STWBR\r",
        "STSATI x\r",
        "ATCSM0\r",
        "ATBI\r",
        "04\r",
        "14FFFFFF\r",
        "2E1234\r",
        "1003\r",
        "1101\r",
        "\r",
        "ATI",
        "ATI\rATI\r",
        "  ",
        "0105 ATZ\r",
    ];
    for line in never {
        assert!(!is_allowed(line.as_bytes()), "{line:?}");
    }
}

#[test]
fn a_line_is_written_as_the_reference_writes_it() {
    let header = |text| Setup::Header(Header::parse(text).unwrap());
    let cases: &[(Setup, &[u8])] = &[
        (Setup::Timeout(0x32), b"ATST32\r"),
        (Setup::Try(Protocol::Can11Fast), b"ATTP6\r"),
        (header("7E1"), b"ATSH7E1\r"),
        (header("18DA10F1"), b"ATSHDA10F1\r"),
        (header("DA 10 F1"), b"ATSHDA10F1\r"),
        (header("686AF1"), b"ATSH686AF1\r"),
        (Setup::ReceiveOnly(Ecu::can11(0x7E9).unwrap()), b"ATCRA7E9\r"),
        (Setup::Mask(Ecu::can29(0x18DA_F110).unwrap()), b"ATCM1FFFFFFF\r"),
    ];
    for (setup, want) in cases {
        assert_eq!(Command::Set(*setup).line().as_bytes(), *want);
    }
    assert_eq!(Command::Read(Ask::parse("224D07").unwrap()).line().as_bytes(), b"224D07\r");
    assert_eq!(Line::interrupt().as_bytes(), b" ");
}

#[test]
fn only_diagnostic_addresses_become_headers() {
    let cases: &[(&str, Result<Option<&str>, HeaderError>)] = &[
        ("7DF", Ok(None)),
        ("7E0", Ok(Some("7E8"))),
        ("7E1", Ok(Some("7E9"))),
        ("18DA18F1", Ok(Some("18DAF118"))),
        ("DB33F1", Ok(None)),
        ("686AF1", Ok(None)),
        ("8118F1", Ok(Some("18"))),
        ("0C0", Err(HeaderError::NotDiagnostic)),
        ("7FF", Ok(None)),
        ("18DA18F2", Err(HeaderError::NotDiagnostic)),
        ("0CF00400", Err(HeaderError::NotDiagnostic)),
        ("686A10", Err(HeaderError::NotDiagnostic)),
        ("7E", Err(HeaderError::Form)),
        ("7EG", Err(HeaderError::Form)),
        ("+E1", Err(HeaderError::Form)),
        ("", Err(HeaderError::Form)),
    ];
    for (text, want) in cases {
        let got = Header::parse(text).map(|h| h.answers_from().map(|ecu| ecu.to_string()));
        assert_eq!(got, want.map(|ecu| ecu.map(str::to_owned)), "{text}");
    }
}

proptest! {
    #[test]
    fn every_header_that_can_be_made_is_on_the_list(id in any::<u32>(), bytes in any::<[u8; 3]>(), text in "[0-9A-F ]{0,12}") {
        let made = [
            Header::can11(id as u16 & 0xFFF),
            Header::can29(id),
            Header::can29(0x18DA_00F1 | (id & 0xFF00)),
            Header::three_bytes(bytes),
            Header::three_bytes([bytes[0], bytes[1], 0xF1]),
            Header::parse(&text),
        ];
        for header in made.into_iter().flatten() {
            let line = Command::Set(Setup::Header(header)).line();
            prop_assert!(is_allowed(&line), "{:?}", line);
        }
    }

    #[test]
    fn every_request_that_can_be_made_is_on_the_list(text in "[0-9A-F]{0,14}", id in any::<u16>()) {
        for ask in [Ask::parse(&text), Ask::parse(&format!("22{id:04X}")), Ask::parse(&format!("{id:04X}"))].into_iter().flatten() {
            let line = Command::Read(ask).line();
            prop_assert!(is_allowed(&line), "{:?}", line);
            prop_assert!(line.ends_with(b"\r"));
            for lines in 0..=u8::MAX {
                let Some(awaited) = Awaited::new(lines) else { continue };
                let counted = Command::Counted(ask, awaited).line();
                prop_assert!(is_allowed(&counted), "{:?}", counted);
                prop_assert_eq!(counted.len(), line.len() + 1, "one digit more, never zero");
                prop_assert!(!counted.ends_with(b"0\r"));
            }
        }
    }
}
