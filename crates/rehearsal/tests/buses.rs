//! Each bus a vehicle can speak: forms of lines, addresses, starts, flow control, the pause after which a K line
//! sleeps.
//!
//! Forms: adapter reference, dialect section 7; starts: section 5 and exchanges X067 to X076 (ids as there).

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

mod bench;

use bench::Bench;
use rehearsal::firmware::{COPY_ODD_TEXTS, ORIGINAL_12A, ORIGINAL_21};
use rehearsal::{Bus, Fault, FaultKind, bus, embedded};

fn on(name: &str) -> Bench {
    on_with(name, &[])
}

fn on_with(name: &str, faults: &[Fault]) -> Bench {
    let mut bench = Bench::on(Bus::named(name).unwrap(), &ORIGINAL_21, faults);
    bench.talk(&[("", "ATE0\r", "ATE0\rOK\r\r>"), ("", "ATH1\r", "OK\r\r>")]);
    bench
}

/// What is said within half a minute.
fn long(bench: &mut Bench, line: &str) -> String {
    bench.send(line);
    bench.hear(30_000)
}

#[test]
fn a_search_finds_every_bus_and_both_units() {
    // Check sums reckoned apart: J1850 by its code (polynomial 1D, preset FF, inverted), K line by sum.
    let cases = [
        ("j1850-pwm", "A1", "41 6B 10 41 00 98 1A 00 13 ED \r41 6B 18 41 00 80 08 00 00 77 \r"),
        ("j1850-vpw", "A2", "48 6B 10 41 00 98 1A 00 13 87 \r48 6B 18 41 00 80 08 00 00 1D \r"),
        ("iso-9141-2", "A3", "48 6B 10 41 00 98 1A 00 13 C9 \r48 6B 18 41 00 80 08 00 00 94 \r"),
        ("iso-14230-4-slow", "A4", "86 F1 10 41 00 98 1A 00 13 8D \r86 F1 18 41 00 80 08 00 00 58 \r"),
        ("iso-14230-4-fast", "A5", "86 F1 10 41 00 98 1A 00 13 8D \r86 F1 18 41 00 80 08 00 00 58 \r"),
        ("can-11-500", "A6", "7E8 06 41 00 98 1A 00 13 \r7E9 06 41 00 80 08 00 00 \r"),
        ("can-29-500", "A7", "18 DA F1 10 06 41 00 98 1A 00 13 \r18 DA F1 18 06 41 00 80 08 00 00 \r"),
        ("can-11-250", "A8", "7E8 06 41 00 98 1A 00 13 \r7E9 06 41 00 80 08 00 00 \r"),
        ("can-29-250", "A9", "18 DA F1 10 06 41 00 98 1A 00 13 \r18 DA F1 18 06 41 00 80 08 00 00 \r"),
    ];
    assert_eq!(cases.len(), bus::ALL.len());
    for (name, number, lines) in cases {
        let mut bench = on(name);
        assert_eq!(long(&mut bench, "0100\r"), format!("SEARCHING...\r{lines}\r>"), "{name}");
        assert_eq!(bench.ask("ATDPN\r"), format!("{number}\r\r>"), "{name}");
    }
}

#[test]
fn the_lines_of_every_bus_are_read_by_the_program_s_own_parser() {
    for bus in bus::ALL {
        let mut bench = on(bus.name);
        long(&mut bench, "0100\r");
        for (request, data) in [("0105", "41 05 3D"), ("224D07", "62 4D 07 3D"), ("0902", "49 02")] {
            let reply = long(&mut bench, &format!("{request}\r"));
            let layout = frames::Layout { bus: bus.form, headers: frames::Headers::Shown };
            let ask = frames::Ask::parse(request).unwrap();
            let messages = frames::messages(reply.as_bytes(), layout, Some(ask)).unwrap();
            let said: String = messages[0].data.iter().map(|byte| format!("{byte:02X} ")).collect();
            assert!(said.starts_with(data), "{}: {request} {reply:?}", bus.name);
            assert_eq!(messages.len(), 1, "{}: {reply:?}", bus.name);
        }
    }
}

#[test]
fn a_fixed_protocol_starts_as_its_bus_does() {
    #[rustfmt::skip]
    let cases = [
        ("iso-9141-2", "ATTP3\r",       "BUS INIT: ...OK\r48 6B 10 41 05 3D 46 \r\r>"),
        ("iso-14230-4-slow", "ATTP4\r", "BUS INIT: ...OK\r83 F1 10 41 05 3D 07 \r\r>"),
        ("iso-14230-4-fast", "ATTP5\r", "BUS INIT: OK\r83 F1 10 41 05 3D 07 \r\r>"),
        ("j1850-pwm", "ATTP1\r",        "41 6B 10 41 05 3D 17 \r\r>"),
        ("can-29-250", "ATTP9\r",       "18 DA F1 10 03 41 05 3D \r\r>"),
        ("can-11-500", "ATTP3\r",       "BUS INIT: ...ERROR\r\r>"),
        ("can-11-500", "ATTP5\r",       "BUS INIT: ERROR\r\r>"),
        ("iso-9141-2", "ATTP5\r",       "BUS INIT: ERROR\r\r>"),
        ("iso-9141-2", "ATTP6\r",       "CAN ERROR\r\r>"),
        ("can-11-500", "ATTP7\r",       "NO DATA\r\r>"),
        ("can-11-500", "ATTP8\r",       "CAN ERROR\r\r>"),
        ("j1850-vpw", "ATTP1\r",        "NO DATA\r\r>"),
    ];
    for (name, choose, want) in cases {
        let mut bench = on(name);
        bench.ask(choose);
        assert_eq!(long(&mut bench, "0105\r"), want, "{name} {choose:?}");
    }
}

#[test]
fn a_slow_start_takes_two_to_three_seconds_and_its_dots_come_one_by_one() {
    let mut bench = on("iso-9141-2");
    bench.ask("ATTP3\r");
    bench.send("0100\r");
    let pieces = bench.hear_pieces(2_300);
    let want: &[&[u8]] = &[b"BUS INIT: ", b".", b".", b"."];
    assert_eq!(pieces, want, "X073");
    assert!(bench.hear(700).starts_with("OK\r48 6B 10"), "X076");
}

#[test]
fn a_start_without_ignition_fails_in_the_words_of_its_bus() {
    #[rustfmt::skip]
    let cases = [
        ("iso-9141-2", "ATTP3\r",       "BUS INIT: ...ERROR\r\r>"),
        ("iso-14230-4-fast", "ATTP5\r", "BUS INIT: ERROR\r\r>"),
        ("can-29-500", "ATTP7\r",       "NO DATA\r\r>"),
        ("can-29-500", "ATSP0\r",       "SEARCHING...\rUNABLE TO CONNECT\r\r>"),
    ];
    for (name, choose, want) in cases {
        let mut bench = on_with(name, &[Fault::new(FaultKind::IgnitionOff, 0)]);
        bench.ask(choose);
        assert_eq!(long(&mut bench, "0100\r"), want, "{name}");
    }
    let fault = [Fault::new(FaultKind::IgnitionOff, 0)];
    let mut bench = Bench::on(Bus::named("iso-9141-2").unwrap(), &COPY_ODD_TEXTS, &fault);
    bench.ask("ATE0\r");
    bench.ask("ATTP3\r");
    assert_eq!(long(&mut bench, "0100\r"), "BUSINIT: ...ERROR\r\r>", "words of its own");
}

#[test]
fn one_unit_is_asked_by_its_address_on_each_bus() {
    #[rustfmt::skip]
    let cases = [
        ("j1850-pwm",        "ATSH C4 18 F1\r",    "41 6B 18 62 4D 07 3D"),
        ("j1850-vpw",        "ATSH6C18F1\r",       "48 6B 18 62 4D 07 3D"),
        ("iso-9141-2",       "ATSH6818F1\r",       "48 6B 18 62 4D 07 3D"),
        ("iso-14230-4-fast", "ATSH8118F1\r",       "84 F1 18 62 4D 07 3D"),
        ("can-11-500",       "ATSH7E1\r",          "7E9 04 62 4D 07 3D"),
        ("can-29-500",       "ATSHDA18F1\r",       "18 DA F1 18 04 62 4D 07 3D"),
        ("can-29-250",       "ATSH18DA18F1\r",     "18 DA F1 18 04 62 4D 07 3D"),
    ];
    for (name, header, want) in cases {
        let mut bench = on(name);
        long(&mut bench, "0100\r");
        assert_eq!(bench.ask(header), "OK\r\r>", "{name}");
        let reply = bench.ask("224D07\r");
        assert!(reply.starts_with(want), "{name}: {reply:?}");
        assert!(bench.ask("224D08\r").contains("7F 22 31"), "{name}: the unit declines for itself");
        assert_eq!(bench.ask("010C\r"), bench.ask("01AA\r"), "{name}: it has no engine speed");
    }
    let mut bench = on("can-29-500");
    long(&mut bench, "0100\r");
    bench.talk(&[
        ("an 11-bit header reaches nobody", "ATSH7E1\r", "OK\r\r>"),
        ("", "224D07\r", "NO DATA\r\r>"),
        ("another priority too", "ATCP 08\r", "OK\r\r>"),
        ("", "ATSHDA18F1\r", "OK\r\r>"),
        ("", "224D07\r", "NO DATA\r\r>"),
        ("", "ATCP18\r", "OK\r\r>"),
        ("", "224D07\r", "18 DA F1 18 04 62 4D 07 3D \r\r>"),
        ("a filter of 29 bits", "ATCRA18DAF110\r", "OK\r\r>"),
        ("", "224D07\r", "NO DATA\r\r>"),
        ("with digits left open", "ATCRA18DAF1XX\r", "OK\r\r>"),
        ("", "224D07\r", "18 DA F1 18 04 62 4D 07 3D \r\r>"),
        ("by filter and mask", "ATCF18DAF110\r", "OK\r\r>"),
        ("", "ATCM1FFFFFFF\r", "OK\r\r>"),
        ("", "224D07\r", "NO DATA\r\r>"),
        ("", "ATAR\r", "OK\r\r>"),
        ("", "224D07\r", "18 DA F1 18 04 62 4D 07 3D \r\r>"),
    ]);
}

#[test]
fn four_header_bytes_came_with_version_2_and_filters_with_1_3() {
    let mut bench = Bench::new(&ORIGINAL_12A, &[]);
    bench.ask("ATE0\r");
    for line in ["ATSH18DA18F1\r", "ATCRA7E9\r", "ATS0\r", "01051\r"] {
        assert_eq!(bench.ask(line), "?\r\r>", "{line}");
    }
    assert_eq!(bench.ask("ATFCSH7E1\r"), "OK\r\r>");
}

#[test]
fn a_unit_outside_the_standard_s_range_is_heard_by_filter_and_told_to_go_on_by_name() {
    let mut sheet = embedded::six_speed();
    let identifier = sheet.identifier.as_mut().unwrap();
    identifier.header = "750".to_owned();
    identifier.byte = 6;
    let mut bench = Bench::of(&sheet, Bus::usual(), &ORIGINAL_21, &[]);
    bench.ask("ATE0\r");
    let first = "758 10 0A 62 4D 07 33 44 55 \r";
    let rest = "758 21 66 77 88 3D 00 00 00 \r";
    bench.talk(&[
        ("", "ATH1\r", "OK\r\r>"),
        ("", "ATTP6\r", "OK\r\r>"),
        ("", "ATSH750\r", "OK\r\r>"),
        ("not among 7E8 to 7EF", "224D07\r", "NO DATA\r\r>"),
        ("heard, but never told to go on", "ATCRA758\r", "OK\r\r>"),
        ("", "224D07\r", &format!("{first}\r>")),
        ("X048", "ATFCSM1\r", "?\r\r>"),
        ("", "ATFCSH750\r", "OK\r\r>"),
        ("", "ATFCSD300000\r", "OK\r\r>"),
        ("", "ATFCSM1\r", "OK\r\r>"),
        ("", "224D07\r", &format!("{first}{rest}\r>")),
        ("mode 2 goes to the wrong address", "ATFCSM2\r", "OK\r\r>"),
        ("", "224D07\r", &format!("{first}\r>")),
        ("another unit's address", "ATFCSH7E0\r", "OK\r\r>"),
        ("", "ATFCSM1\r", "OK\r\r>"),
        ("", "224D07\r", &format!("{first}\r>")),
        ("by itself it cannot know", "ATFCSM0\r", "OK\r\r>"),
        ("", "224D07\r", &format!("{first}\r>")),
    ]);
    let mut bench = on("can-11-500");
    long(&mut bench, "0100\r");
    assert!(bench.ask("0902\r").contains("7E8 22 "), "7E8 is told by itself");
    bench.ask("ATCFC0\r");
    assert!(!bench.ask("0902\r").contains("7E8 21 "), "flow control off");
}

#[test]
fn long_answers_of_the_older_buses_come_as_numbered_messages() {
    let mut bench = on("iso-9141-2");
    long(&mut bench, "0100\r");
    let reply = long(&mut bench, "0902\r");
    let lines: Vec<&str> = reply.split('\r').collect();
    assert!(lines[0].starts_with("48 6B 10 49 02 01 00 00 00 5A "), "X093: {reply:?}");
    assert!(lines[4].starts_with("48 6B 10 49 02 05 "), "{reply:?}");
}

#[test]
fn an_idle_k_line_stays_awake_unless_the_adapter_is_told_to_let_it_sleep() {
    let mut bench = on("iso-14230-4-fast");
    long(&mut bench, "0100\r");
    bench.hear(60_000);
    let value = "83 F1 10 41 05 3D 07 \r\r>";
    assert_eq!(bench.ask("0105\r"), value, "hidden messages every 3 s (data sheet p.33)");
    bench.talk(&[("", "ATTP5\r", "OK\r\r>"), ("", "0105\r", &format!("BUS INIT: OK\r{value}"))]);
    bench.send("ATSW00\r");
    bench.hear(500);
    assert_eq!(bench.ask("0105\r"), value, "within 5 s");
    bench.hear(2_000);
    assert_eq!(bench.ask("0105\r"), "NO DATA\r\r>", "asleep");
    assert_eq!(bench.ask("0105\r"), format!("BUS INIT: OK\r{value}"), "started anew");
}
