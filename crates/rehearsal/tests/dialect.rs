//! The adapter side line by line, against the exchanges of the adapter reference (ids as there).

mod bench;

use bench::Bench;
use proptest::prelude::*;
use rehearsal::firmware::{COPY_15, ORIGINAL_21, OTHER_FAMILY};
use rehearsal::{Fault, Plug};

#[test]
fn the_plain_firmware_keeps_the_rules() {
    let mut bench = Bench::new(&ORIGINAL_21, &[]);
    // One conversation, in order: what is sent, what comes.
    #[rustfmt::skip]
    let talk: &[(&str, &str, &str)] = &[
        ("X026 a probe that is no command",     "\x7f\x7f\r", "\x7f\x7f\r?\r\r>"),
        ("echo comes as typed, spaces too",     "AT I\r",     "AT I\rELM327 v2.1\r\r>"),
        ("X039 the last echo",                  "ATE0\r",     "ATE0\rOK\r\r>"),
        ("X021",                                "ATI\r",      "ELM327 v2.1\r\r>"),
        ("X022",                                "AT@1\r",     "OBDII to RS232 Interpreter\r\r>"),
        ("X023",                                "AT@2\r",     "?\r\r>"),
        ("X024",                                "STI\r",      "?\r\r>"),
        ("letter case does not matter",         "ati\r",      "ELM327 v2.1\r\r>"),
        ("a lone CR repeats the last line",     "\r",         "ELM327 v2.1\r\r>"),
        ("X046",                                "ATAT2\r",    "OK\r\r>"),
        ("X047",                                "ATST32\r",   "OK\r\r>"),
        ("X058 engine off",                     "ATRV\r",     "12.5V\r\r>"),
        ("X066 nothing found yet",              "ATDPN\r",    "A0\r\r>"),
        ("nonsense",                            "ATQ9\r",     "?\r\r>"),
        ("too many bytes",                      "0102030405060708\r", "?\r\r>"),
        ("X067 the first request searches",     "0100\r",     "SEARCHING...\r41 00 98 1A 00 13 \r41 00 80 08 00 00 \r\r>"),
        ("X063",                                "ATDPN\r",    "A6\r\r>"),
        ("X062",                                "ATDP\r",     "AUTO, ISO 15765-4 (CAN 11/500)\r\r>"),
        ("spaces off",                          "ATS0\r",     "OK\r\r>"),
        ("X084",                                "0105\r",     "41053D\r\r>"),
        ("headers on",                          "ATH1\r",     "OK\r\r>"),
        ("X085",                                "0105\r",     "7E80341053D\r\r>"),
        ("spaces on",                           "ATS1\r",     "OK\r\r>"),
        ("X081 a count digit",                  "01051\r",    "7E8 03 41 05 3D \r\r>"),
        ("X103 nobody has it",                  "01AA\r",     "NO DATA\r\r>"),
        ("X092 a long answer",                  "0902\r",
            "7E8 10 14 49 02 01 5A 5A 39 \r7E8 21 44 45 4D 36 53 39 58 \r7E8 22 59 30 30 30 30 34 32 \r\r>"),
        ("asked of the transmission",           "ATSH7E1\r",  "OK\r\r>"),
        ("the sheet's identifier",              "224D07\r",   "7E9 04 62 4D 07 3D \r\r>"),
        ("X113 out of range",                   "224D08\r",   "7E9 03 7F 22 31 \r\r>"),
        ("a filter that hides it",              "ATCRA7E8\r", "OK\r\r>"),
        ("hidden",                              "224D07\r",   "NO DATA\r\r>"),
        ("the filter goes",                     "ATCRA\r",    "OK\r\r>"),
        ("a mask and a filter",                 "ATCF7E9\r",  "OK\r\r>"),
        ("let through",                         "224D07\r",   "7E9 04 62 4D 07 3D \r\r>"),
        ("line feeds on",                       "ATL1\r",     "OK\r\n\r\n>"),
        ("X013 the warm start",                 "ATWS\r",     "\r\rELM327 v2.1\r\r>"),
        ("echo, spaces and header are back",    "0105\r",     "0105\rSEARCHING...\r41 05 3D \r\r>"),
        ("X001 the reset",                      "ATZ\r",      "ATZ\r\r\rELM327 v2.1\r\r>"),
        ("a fixed protocol needs no search",    "ATTP6\r",    "ATTP6\rOK\r\r>"),
        ("X083",                                "0105\r",     "0105\r41 05 3D \r\r>"),
        ("another protocol is not spoken here", "ATSP5\r",    "ATSP5\rOK\r\r>"),
        ("X074",                                "0105\r",     "0105\rBUS INIT: ERROR\r\r>"),
    ];
    for (what, line, want) in talk {
        assert_eq!(bench.ask(line), *want, "{what}");
    }
}

#[test]
fn the_copy_keeps_echo_and_spaces_and_lacks_half_the_commands() {
    let mut bench = Bench::new(&COPY_15, &[]);
    #[rustfmt::skip]
    let talk: &[(&str, &str, &str)] = &[
        ("X009 one CR before the prompt", "ATI\r",      "ATI\rELM327 v1.5\r>"),
        ("X014",                          "ATWS\r",     "ATWS\r?\r>"),
        ("OK, and nothing changes",       "ATE0\r",     "ATE0\rOK\r>"),
        ("the echo is still there",       "ATS0\r",     "ATS0\rOK\r>"),
        ("X049",                          "ATCRA7E8\r", "ATCRA7E8\r?\r>"),
        ("no adaptive timing",            "ATAT1\r",    "ATAT1\r?\r>"),
        ("headers it has",                "ATH1\r",     "ATH1\rOK\r>"),
        ("protocol",                      "ATSP6\r",    "ATSP6\rOK\r>"),
        ("X088 padding is shown",         "0105\r",     "0105\r7E8 03 41 05 3D 00 00 00 00 \r>"),
        ("no count digit",                "01051\r",    "01051\r?\r>"),
    ];
    for (what, line, want) in talk {
        assert_eq!(bench.ask(line), *want, "{what}");
    }
}

#[test]
fn the_other_family_answers_for_itself() {
    let mut bench = Bench::new(&OTHER_FAMILY, &[]);
    assert_eq!(bench.ask("STI\r"), "STI\rSTN1110 v4.0.4\r\r>", "X025");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v1.4b\r\r>");
}

#[test]
fn a_byte_during_work_stops_it() {
    let mut bench = Bench::new(&ORIGINAL_21, &[]);
    bench.ask("ATE0\r");
    bench.car.handle_bytes(b"0100\r", bench.now);
    bench.hear(50);
    bench.car.handle_bytes(b" ", bench.now);
    assert_eq!(bench.hear(3_000), "STOPPED\r\r>", "X078, after the word of the search");
    assert_eq!(bench.ask("ATI\r"), "ELM327 v2.1\r\r>", "the byte itself was lost");
}

#[test]
fn an_unfinished_line_is_dropped_after_twenty_seconds() {
    let mut bench = Bench::new(&ORIGINAL_21, &[]);
    bench.ask("ATE0\r");
    bench.car.handle_bytes(b"010", bench.now);
    assert_eq!(bench.hear(19_000), "");
    assert_eq!(bench.hear(2_000), "?\r\r>", "X114");
}

#[test]
fn pulled_and_plugged_in_it_forgets_and_says_its_banner() {
    let mut bench = Bench::new(&ORIGINAL_21, &[]);
    bench.ask("ATE0\r");
    bench.car.world_mut().plug_adapter(Plug::Out);
    bench.car.handle_timeout(bench.now);
    assert_eq!(bench.ask("ATI\r"), "", "nobody there");
    assert!(!bench.car.plugged());
    bench.car.world_mut().plug_adapter(Plug::In);
    bench.car.handle_timeout(bench.now);
    assert_eq!(bench.hear(2_000), "\r\rELM327 v2.1\r\r>", "X015");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>", "the echo is back");
}

#[test]
fn a_supply_dip_loses_the_settings() {
    let mut bench = Bench::new(&ORIGINAL_21, &["lv-reset@10".parse().unwrap()]);
    bench.ask("ATE0\r");
    assert_eq!(bench.hear(8_000), "\r\rLV RESET\r\r>", "X057");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>");
}

#[test]
fn without_ignition_nobody_answers() {
    let mut bench = Bench::new(&ORIGINAL_21, &["ignition-off@0".parse().unwrap()]);
    bench.ask("ATE0\r");
    bench.car.handle_bytes(b"0100\r", bench.now);
    assert_eq!(bench.hear(10_000), "SEARCHING...\rUNABLE TO CONNECT\r\r>", "X070");
    assert_eq!(bench.ask("ATDPN\r"), "A0\r\r>", "X065");
    bench.ask("ATTP6\r");
    assert_eq!(bench.ask("0100\r"), "NO DATA\r\r>", "X071");
    bench.hear(120_000);
    assert_eq!(bench.ask("0105\r"), "41 05 3D \r\r>", "it is on again");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Dialect section 1: an original always answers something and always ends with the prompt.
    #[test]
    fn every_line_is_answered_up_to_the_prompt(line in "[ -~\\x7f]{0,30}", firmware in 0_usize..7) {
        let mut bench = Bench::new(rehearsal::firmware::ALL[firmware], &[]);
        bench.ask("ATTP6\r");
        let said = bench.ask(&format!("{line}\r"));
        prop_assert!(said.ends_with('>'), "{line:?}: {said:?}");
        prop_assert_eq!(said.matches('>').count() - line.matches('>').count() * usize::from(said.starts_with(&line)), 1);
    }

    #[test]
    fn no_bytes_in_any_rhythm_upset_it(
        pieces in proptest::collection::vec((proptest::collection::vec(any::<u8>(), 0..20), 0_u64..400), 0..40),
        kind in 0_usize..rehearsal::FaultKind::ALL.len(),
    ) {
        let mut bench = Bench::new(&ORIGINAL_21, &[Fault::new(rehearsal::FaultKind::ALL[kind], 3)]);
        for (bytes, wait) in pieces {
            bench.car.handle_bytes(&bytes, bench.now);
            bench.car.handle_bytes(b"\r", bench.now);
            bench.hear_bytes(wait);
        }
        bench.hear_bytes(150_000);
        // A link that is closed now and then loses a request that comes just then, and is open for the next one.
        let answers = (0..3).any(|_| {
            bench.car.handle_bytes(b"ATI\r", bench.now);
            !bench.hear_bytes(3_000).is_empty()
        });
        prop_assert!(answers, "it still answers");
    }
}

#[test]
fn lost_changed_and_doubled_bytes_are_as_rare_as_stated() {
    let faults: Vec<Fault> = vec!["duplicate-bytes@0".parse().unwrap()];
    let mut bench = Bench::new(&ORIGINAL_21, &faults);
    let (mut heard, mut right) = (0, 0);
    for _ in 0..400 {
        heard += bench.ask("ATI\r").len();
        right += "ATI\rELM327 v2.1\r\r>".len();
    }
    let more = heard - right;
    assert!((8..60).contains(&more), "{more} of {right}: one in 300 wanted");
}
