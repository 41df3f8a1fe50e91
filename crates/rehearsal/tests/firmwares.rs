//! Each firmware shows the difference it stands for, in the bytes of the exchange that its report tells of (ids as in
//! `exchanges.csv`), and the rate is changed by hand-shake or not at all.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

mod bench;

use bench::Bench;
use rehearsal::firmware::*;
use rehearsal::{Bus, Car, Fault, FaultKind, Plug, SerialLine, Vehicle, World, embedded};
use units::Mono;

type Talk = &'static [(&'static str, &'static str, &'static str)];

#[test]
#[rustfmt::skip]
fn each_firmware_shows_its_difference() {
    const E0: (&str, &str, &str) = ("", "ATE0\r", "ATE0\rOK\r\r>");
    let cases: &[(&'static Firmware, Talk)] = &[
        (&ORIGINAL_20, &[E0, ("four header bytes", "ATSH18DA10F1\r", "OK\r\r>"), ("2.1 brought it", "ATCTM1\r", "?\r\r>")]),
        (&ORIGINAL_14B, &[E0, ("2.0 brought it", "ATSH18DA10F1\r", "?\r\r>"), ("X049 since 1.4b", "ATCRA\r", "OK\r\r>"), ("", "ATAMC\r", "?\r\r>")]),
        (&ORIGINAL_13A, &[E0, ("X049", "ATCRA\r", "?\r\r>"), ("with a value", "ATCRA7E8\r", "OK\r\r>"), ("", "ATFE\r", "OK\r\r>"), ("", "ATCSM1\r", "?\r\r>")]),
        (&ORIGINAL_12A, &[E0, ("X045", "ATS0\r", "?\r\r>"), ("X046", "ATAT2\r", "OK\r\r>"), ("", "ATI\r", "ELM327 v1.2a\r\r>")]),
        (&ORIGINAL_10, &[E0, ("", "ATAT1\r", "?\r\r>"), ("X038", "ATBRD23\r", "?\r\r>"), ("", "ATFCSH7E0\r", "?\r\r>"), ("", "ATWS\r", "\r\rELM327 v1.0\r\r>")]),
        (&OTHER_FAMILY, &[E0, ("X025", "STI\r", "STN1110 v4.0.4\r\r>"), ("", "STBR7\r", "?\r\r>")]),
        (&COPY_15_SINGLE_CR, &[("X028", "\x7f\x7f\r", "\x7f\x7f\r?\r>"), ("", "ATE0\r", "ATE0\rOK\r>"), ("X009", "ATZ\r", "ELM327 v1.5\r>")]),
        (&COPY_15_LOST_VERSION, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("X080", "ATDPN\r", "SEARCHING\r4100BE3EB811\rELM327 v1.5\r6\r\r>")]),
        (&COPY_15_DOTS, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("X072", "0105\r", "...41 05 3D \r\r>")]),
        (&COPY_21_SEARCH_ONLY, &[E0, ("X050", "ATSP6\r", "?\r\r>"), ("", "ATTP6\r", "?\r\r>"), ("", "ATS0\r", "?\r\r>"), ("", "ATSP0\r", "OK\r\r>"), ("", "0105\r", "SEARCHING...\r41 05 3D \r\r>")]),
        (&COPY_21_DEAF, &[E0, ("", "ATSP0\r", "OK\r\r>"), ("", "0100\r", "?\r\r>")]),
        (&COPY_21_HANGS, &[E0, ("X051", "AT TP A0\r", ""), ("for ever", "ATZ\r", "")]),
        (&COPY_21_NO_FLOW, &[E0, ("", "ATFCSH7E0\r", "?\r\r>"), ("", "ATCRA7E8\r", "?\r\r>"), ("", "ATCM7FF\r", "OK\r\r>"), ("", "ATCF7E8\r", "OK\r\r>")]),
        (&COPY_YES, &[("nonsense", "ATQ9\r", "ATQ9\rOK\r\n\r\n>"), ("", "STI\r", "STI\rOK\r\n\r\n>"), ("", "ATE0\r", "ATE0\rOK\r\n\r\n>"), ("", "ATS0\r", "ATS0\rOK\r\n\r\n>"), ("", "ATH1\r", "ATH1\rOK\r\n\r\n>"), ("", "ATTP6\r", "ATTP6\rOK\r\n\r\n>"), ("nothing changed", "0105\r", "0105\r7E8 03 41 05 3D \r\n\r\n>")]),
        (&COPY_NO_HEADERS, &[E0, ("", "ATH1\r", "OK\r\r>"), ("", "ATTP6\r", "OK\r\r>"), ("X089", "0100\r", "41 00 98 1A 00 13 \r41 00 80 08 00 00 \r\r>")]),
        (&COPY_MIXED_ENDS, &[("", "ATTP6\r", "ATTP6\rOK\r\n\r\n>"), ("X087", "010C1\r", "010C1\r41 0C 00 00 \r\n\r\n>")]),
        (&COPY_ODD_TEXTS, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("X101", "010D0\r", "\r?WRONG HEXCHAR COUNT\r\r>"), ("", "0102030405060708\r", "VENDOR MODE\r\r>")]),
        (&COPY_COUNTS_MESSAGES, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("X098", "09021\r", "014\r0: 49 02 01 5A 5A 39 \r1: 44 45 4D 36 53 39 58 \r2: 59 30 30 30 30 34 32 \r\r>")]),
        (&COPY_ODD_VOLTS, &[E0, ("X061", "ATRV\r", "12.5>")]),
        (&COPY_LOSES_FIRST, &[("", "ATI\r", "TI\r?\r\r>"), ("a space is lost", " ATI\r", "ATI\rELM327 v1.4b\r\r>")]),
        (&COPY_DIGIT_NO_DATA, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "41 05 3D \r\r>"), ("", "01051\r", "NO DATA\r\r>")]),
        (&COPY_NO_SEARCH, &[E0, ("", "0105\r", "SEARCHING...\rUNABLE TO CONNECT\r\r>"), ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "41 05 3D \r\r>")]),
        (&COPY_SEARCHES_ANEW, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0106\r", "NO DATA\r\r>"), ("", "0105\r", "SEARCHING...\r41 05 3D \r\r>"), ("once", "0105\r", "41 05 3D \r\r>")]),
        (&COPY_QUESTION_MARKS, &[E0, ("", "ATH1\r", "?\r\r>"), ("", "ATSP0\r", "OK\r\r>"), ("", "0105\r", "SEARCHING...\r41 05 3D \r\r>"), ("", "ATDPN\r", "?\r\r>")]),
        (&COPY_LOWER_CASE, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "41 05 3d \r\r>")]),
        (&COPY_FILTER_STAYS, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "NO DATA\r\r>"), ("", "ATAR\r", "OK\r\r>"), ("", "0105\r", "NO DATA\r\r>"), ("", "ATWS\r", "\r\rELM327 v1.4b\r\r>"), E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "NO DATA\r\r>"), ("", "ATZ\r", "\r\rELM327 v1.4b\r\r>"), E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "41 05 3D \r\r>")]),
        (&COPY_IGNORES_SPACED, &[E0, ("", " ATI\r", ""), ("", "ATI\r", "ELM327 v1.4b\r\r>")]),
        (&COPY_SPACED_PROMPT, &[("", "ATE0\r", "ATE0\rOK\r\r> ")]),
        (&COPY_LF_ONLY, &[("", "ATE0\r", "ATE0\rOK\n\n>")]),
        (&COPY_LINES_TWICE, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "0105\r", "41 05 3D \r41 05 3D \r\r>")]),
        (&COPY_NUMBER_ZERO, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "ATDPN\r", "A0\r\r>")]),
        (&COPY_NUMBER_WRONG, &[E0, ("", "ATTP6\r", "OK\r\r>"), ("", "ATDPN\r", "A7\r\r>")]),
        (&COPY_RESETS_ON_ST, &[E0, ("", "STI\r", "\r\rELM327 v1.4b\r\r>"), ("the echo is back", "ATI\r", "ATI\rELM327 v1.4b\r\r>")]),
        (&MODEM, &[("X012", "ATH1\r", "ATH1\r\r\nERROR\r\n"), ("X011", "ATZ\r", "ATZ\r\r\nOK\r\n")]),
        (&WIRED_LOOP, &[("X034", "\x7f\x7f\r", "\x7f\x7f\r"), ("", "ATI\r", "ATI\r")]),
        (&DEAD, &[("X035", "ATZ\r", "")]),
    ];
    for (firmware, talk) in cases {
        let mut bench = Bench::new(firmware, &[]);
        for (what, line, want) in *talk {
            assert_eq!(bench.ask(line), *want, "{}: {what}", firmware.name);
        }
    }
}

#[test]
fn banners_carry_what_their_reports_show() {
    // X016 four NULs at power-up, X003 a byte FC behind the echo of ATZ, ATZ of a slow one after 2.4 s.
    let powered = |firmware: &'static Firmware| {
        let sheet = embedded::six_speed();
        let world = World::new(&sheet, Vehicle::typical(&sheet, 21.0), None, &[], 1);
        let mut bench =
            Bench { car: Car::new(world, &sheet, firmware, SerialLine::USUAL, 1), now: Mono::ZERO };
        bench.hear_bytes(3_000)
    };
    assert!(powered(&OTHER_FAMILY).starts_with(b"\0\0\0\0\r\rELM327 v1.4b\r\r>"), "X016");
    assert!(powered(&COPY_NULS).starts_with(b"\0\0\0\0"), "X016");
    assert!(powered(&COPY_STRAY).starts_with(b"\xfc\r\rELM327 v1.5"), "X004");
    assert_eq!(powered(&WIRED_LOOP), b"");
    let mut bench = Bench::new(&COPY_STRAY, &[]);
    bench.send("ATZ\r");
    assert_eq!(bench.hear_bytes(2_000), b"ATZ\r\xfc\r\rELM327 v1.5\r\r>", "X003");
    let mut bench = Bench::new(&COPY_SLOW_RESET, &[]);
    bench.send("ATZ\r");
    assert_eq!(bench.hear(2_300), "ATZ\r");
    assert_eq!(bench.hear(300), "\r\rELM327 v1.5\r\r>");
}

#[test]
fn pieces_prompts_and_batches_are_as_their_reports_say() {
    let mut bench = Bench::new(&COPY_RADIO, &[]);
    bench.send("ATI\r");
    let pieces = bench.hear_pieces(1_000);
    assert_eq!(pieces.concat(), b"ATI\rELM327 v1.5\r\r>");
    assert!(pieces.len() > 4 && pieces.iter().all(|piece| piece.len() <= 12), "{}", pieces.len());

    let mut bench = Bench::new(&COPY_LATE_PROMPT, &[]);
    bench.send("ATE0\r");
    assert_eq!(bench.hear(50), "ATE0\rOK\r", "X040: the rest comes later");
    assert_eq!(bench.hear(300), "\r>", "X041");

    let mut bench = Bench::new(&COPY_XON_XOFF, &[]);
    let said: Vec<u8> = (0..40)
        .flat_map(|_| {
            bench.send("ATI\r");
            bench.hear_bytes(1_000)
        })
        .collect();
    let pauses = said.iter().filter(|byte| matches!(byte, 0x11 | 0x13)).count();
    assert!((10..80).contains(&pauses), "{pauses}");
    let rest: Vec<u8> = said.into_iter().filter(|byte| !matches!(byte, 0x11 | 0x13)).collect();
    assert_eq!(rest, b"ATI\rELM327 v1.4b\r\r>".repeat(40));

    let mut bench = Bench::new(&COPY_WAKES_SLOWLY, &[]);
    bench.send("ATE0\r");
    assert_eq!(bench.hear(1_400), "ATE0\r", "it slept");
    assert_eq!(bench.hear(200), "OK\r\r>");
    bench.send("ATI\r");
    assert_eq!(bench.hear(200), "ELM327 v1.4b\r\r>", "it is awake");

    let mut bench = Bench::new(&COPY_LOSES_BATCHES, &[]);
    bench.send("ATE0\rATL0\rATI\r");
    assert_eq!(bench.hear(2_000), "ATE0\rOK\r\r>", "the others are lost");
    let mut bench = Bench::new(&ORIGINAL_21, &[]);
    bench.send("ATE0\rATI\r");
    assert!(bench.hear(2_000).contains("ELM327"), "an original takes both");
}

#[test]
fn some_are_not_ready_when_their_prompt_is_out() {
    let mut bench = Bench::new(&COPY_NEEDS_GAP, &[]);
    bench.send("ATI\r");
    while !bench.hear(1).ends_with('>') {}
    bench.send("ATI\r");
    assert_eq!(bench.hear(500), "TI\r?\r\r>", "one character is lost");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v1.4b\r\r>", "half a second later none");

    let mut bench = Bench::new(&COPY_STOPS_WHEN_EARLY, &[]);
    bench.ask("ATE0\r");
    bench.ask("ATTP6\r");
    bench.send("0105\r");
    let mut heard = String::new();
    while !heard.ends_with('>') {
        heard += &bench.hear(1);
    }
    assert_eq!(heard, "41 05 3D \r\r>");
    bench.send("0105\r");
    assert_eq!(bench.hear(50), "STOPPED\r\r>");
    assert_eq!(bench.ask("0105\r"), "STOPPED\r\r>");
    bench.hear(100);
    assert_eq!(bench.ask("0105\r"), "41 05 3D \r\r>");

    // Three seconds are over when the bench begins, and each question takes four.
    let mut bench = Bench::new(&COPY_REFUSES_AT_FIRST, &[]);
    assert_eq!(bench.ask("ATRV\r"), "ATRV\r?\r\r>");
    bench.hear(1_500);
    assert_eq!(bench.ask("ATE0\r"), "ATE0\rOK\r\r>", "eight are over when this is asked");

    let mut bench = Bench::new(&COPY_VERY_SLOW_RESET, &[]);
    bench.hear(2_000);
    bench.send("ATZ\r");
    assert_eq!(bench.hear(4_400), "ATZ\r");
    assert_eq!(bench.hear(200), "\r\rELM327 v1.4b\r\r>");
}

#[test]
fn an_old_chip_with_a_fixed_wait_takes_all_of_it_behind_each_answer() {
    let mut bench = Bench::new(&COPY_FIXED_WAIT, &[]);
    for line in ["ATE0\r", "ATAT1\r", "ATSTFF\r", "ATTP6\r"] {
        bench.ask(line);
    }
    bench.send("0105\r");
    assert_eq!(bench.hear(1_000), "41 05 3D \r");
    assert_eq!(bench.hear(100), "\r>", "1.04 s behind the data");
}

#[test]
fn wireless_ones_mind_who_connects_and_how_often() {
    let plug = |bench: &mut Bench, plug: Plug| {
        bench.car.world_mut().plug_adapter(plug);
        bench.car.handle_timeout(bench.now);
    };
    let mut bench = Bench::new(&COPY_FIRST_LINK_ONLY, &[]);
    bench.car.host_opened(bench.now);
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v1.4b\r\r>");
    bench.car.host_closed(bench.now);
    bench.car.host_opened(bench.now);
    assert_eq!(bench.ask("ATI\r"), "", "mute");
    plug(&mut bench, Plug::Out);
    plug(&mut bench, Plug::In);
    bench.hear(2_000);
    bench.car.host_opened(bench.now);
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v1.4b\r\r>");

    let mut bench = Bench::new(&COPY_SLOW_TO_LET_IN, &[]);
    bench.car.host_opened(bench.now);
    bench.car.host_closed(bench.now);
    bench.hear(8_900);
    assert!(!bench.car.plugged());
    bench.hear(200);
    assert!(bench.car.plugged());

    let mut bench = Bench::new(&COPY_TELNET, &[]);
    bench.car.host_opened(bench.now);
    assert_eq!(bench.hear_bytes(10), b"\xff\xfb\x01\xff\xfb\x03\xff\xfd\x03");

    let mut bench = Bench::new(&COPY_VOLTAGE_CLOSES, &[]);
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v1.4b\r\r>");
    bench.send("ATRV\r");
    bench.hear(1_000);
    assert!(!bench.car.plugged());
    bench.hear(3_000);
    assert!(bench.car.plugged());
}

#[test]
fn a_stop_is_told_since_1_4_and_in_searches_since_1_3() {
    for (firmware, in_search, in_exchange) in
        [(&ORIGINAL_21, "STOPPED", "STOPPED"), (&ORIGINAL_13A, "STOPPED", ""), (&ORIGINAL_12A, "", "")]
    {
        let mut bench = Bench::new(firmware, &[]);
        bench.ask("ATE0\r");
        bench.send("0100\r");
        bench.hear(100);
        bench.send(" ");
        assert_eq!(bench.hear(2_000), format!("{in_search}\r\r>"), "{}", firmware.name);
        assert_eq!(bench.ask("ATDPN\r"), "A0\r\r>", "the search found nothing");
        bench.ask("ATTP6\r");
        bench.send("0105\r");
        bench.hear(1);
        bench.send(" ");
        assert_eq!(bench.hear(2_000), format!("{in_exchange}\r\r>"), "{}", firmware.name);
    }
}

#[test]
fn before_2_0_waking_up_is_a_reset() {
    for (firmware, woken, echo) in
        [(&ORIGINAL_21, "\r>", ""), (&ORIGINAL_14B, "\r\rELM327 v1.4b\r\r>", "ATI\r")]
    {
        let mut bench = Bench::new(firmware, &[Fault::new(FaultKind::LpAlert, 20)]);
        bench.ask("ATE0\r");
        assert_eq!(bench.hear(20_000), "\rLP ALERT\r", "X056");
        bench.send(" ");
        assert_eq!(bench.hear(2_000), woken, "X054 {}", firmware.name);
        assert_eq!(bench.ask("ATI\r"), format!("{echo}{}\r\r>", firmware.identity), "{}", firmware.name);
    }
}

/// A host that talks at a rate of its own.
fn at_rate(firmware: &'static Firmware, adapter: u32, faults: &[Fault]) -> Bench {
    let sheet = embedded::six_speed();
    let world = World::new(&sheet, Vehicle::typical(&sheet, 21.0), None, faults, 1);
    let line = SerialLine { baud: adapter, latency_ms: 1.0 };
    let car = Car::on(Bus::usual(), world, &sheet, firmware, line, 1);
    let mut bench = Bench { car, now: Mono::ZERO };
    bench.car.host_rate(adapter);
    bench.hear(2_000);
    bench.ask("ATE0\r");
    bench
}

#[test]
fn at_the_wrong_rate_both_sides_hear_noise() {
    let mut bench = at_rate(&ORIGINAL_21, 38_400, &[]);
    for rate in [9_600, 115_200, 500_000] {
        bench.car.host_rate(rate);
        bench.send("\x7f\x7f\r");
        let noise = bench.hear_bytes(1_000);
        assert!(noise.iter().all(|byte| *byte >= 0x7F), "X030 to X032: {}", noise.escape_ascii());
    }
    bench.car.host_rate(38_400);
    assert_eq!(bench.ask("ATI\r"), "?\r\r>", "X018: the line is spoiled by what came before");
    assert_eq!(bench.ask("ATI\r"), "ELM327 v2.1\r\r>");
    bench.car.host_rate(38_462);
    assert_eq!(bench.ask("ATI\r"), "ELM327 v2.1\r\r>", "a little beside is near enough");
}

#[test]
fn the_rate_is_raised_by_hand_shake_and_lost_with_a_reset() {
    let mut bench = at_rate(&ORIGINAL_21, 38_400, &[]);
    bench.send("ATBRD 23\r");
    assert_eq!(bench.hear(10), "OK\r", "X036: no prompt");
    bench.car.host_rate(115_200);
    assert_eq!(bench.hear(100), "ELM327 v2.1\r", "75 ms later, at the new rate");
    bench.send("\r");
    assert_eq!(bench.hear(100), "OK\r\r>", "X037");
    assert_eq!(bench.car.adapter_rate(), 114_286);
    bench.ask("ATWS\r");
    bench.ask("ATD\r");
    assert_eq!(bench.car.adapter_rate(), 114_286, "neither touches it (data sheet p.28, 49)");
    bench.send("ATZ\r");
    assert_eq!(bench.car.adapter_rate(), 38_400);

    let mut bench = at_rate(&OTHER_FAMILY, 38_400, &[]);
    bench.send("STBR 500000\r");
    assert_eq!(bench.hear(10).trim_start_matches('\0'), "OK\r");
    bench.car.host_rate(500_000);
    assert_eq!(bench.hear(100), "STN1110 v4.0.4\r", "its own identification (STN1100 manual p.10)");
    bench.send("\r");
    assert_eq!(bench.hear(100), "OK\r\r>");
}

#[test]
fn a_hand_shake_that_fails_leaves_the_old_rate() {
    let quiet = |bench: &mut Bench| {
        bench.car.host_rate(38_400);
        bench.hear(400);
        assert_eq!(bench.car.adapter_rate(), 38_400);
        assert_eq!(bench.ask("ATI\r"), "ELM327 v2.1\r\r>");
    };
    // No CR, another byte, a late CR, and the two faults of the change itself (dialect section 18, row 25).
    for (answer, after) in [(None, 200), (Some(" "), 80), (Some("\r"), 180)] {
        let mut bench = at_rate(&ORIGINAL_21, 38_400, &[]);
        bench.send("ATBRD23\r");
        bench.hear(10);
        bench.car.host_rate(115_200);
        bench.hear(after);
        if let Some(answer) = answer {
            bench.send(answer);
        }
        bench.car.host_rate(38_400);
        bench.hear(400);
        bench.ask("ATI\r");
        quiet(&mut bench);
    }
    for (kind, heard) in [(FaultKind::RateSwitchDies, 0), (FaultKind::RateSwitchNoise, 12)] {
        let mut bench = at_rate(&ORIGINAL_21, 38_400, &[Fault::new(kind, 0)]);
        bench.send("ATBRD23\r");
        bench.hear(10);
        bench.car.host_rate(115_200);
        let said = bench.hear_bytes(120);
        assert_eq!(said.len(), heard, "{kind}");
        assert!(said.iter().all(|byte| *byte >= 0x7F), "{kind}");
        quiet(&mut bench);
    }
    let mut bench = at_rate(&ORIGINAL_10, 38_400, &[]);
    assert_eq!(bench.ask("ATBRD23\r"), "?\r\r>", "X038");
}

#[test]
fn hung_it_answers_again_when_it_was_unplugged() {
    let mut bench = Bench::new(&COPY_21_HANGS, &[]);
    assert_eq!(bench.ask("ATTPA0\r"), "ATTPA0\r");
    for plug in [Plug::Out, Plug::In] {
        bench.car.world_mut().plug_adapter(plug);
        bench.car.handle_timeout(bench.now);
    }
    assert_eq!(bench.hear(2_000), "\r\rELM327 v2.1\r\r>");
}

#[test]
fn an_old_chip_misses_the_answer_behind_response_pending() {
    // Data sheet p.45: 2.1 waits up to 5 s by itself. The fault holds the answer back for 0.4 s or 2 s.
    let values = |firmware: &'static Firmware, kind: FaultKind| -> (usize, usize) {
        let mut bench = Bench::new(firmware, &[Fault::new(kind, 0)]);
        for line in ["ATE0\r", "ATH1\r", "ATTP6\r"] {
            bench.ask(line);
        }
        let replies: Vec<String> = (0..200).map(|_| bench.ask("0105\r")).collect();
        let pending: Vec<&String> = replies.iter().filter(|reply| reply.contains("7F 01 78")).collect();
        (pending.len(), pending.iter().filter(|reply| reply.contains("41 05 3D")).count())
    };
    for kind in [FaultKind::Pending, FaultKind::PendingLong] {
        let (pending, with_value) = values(&ORIGINAL_21, kind);
        assert!(pending > 4 && with_value == pending, "{kind}: {with_value} of {pending}");
        let (pending, with_value) = values(&ORIGINAL_20, kind);
        assert!(pending > 4 && with_value == 0, "{kind}: {with_value} of {pending}");
    }
    let (pending, with_value) = values(&ORIGINAL_21, FaultKind::PendingForever);
    assert!(pending > 4 && with_value == 0, "{with_value} of {pending}");
}
