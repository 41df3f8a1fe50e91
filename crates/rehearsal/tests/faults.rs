//! Each fault of adapter, line and vehicle does what its row says, in the form that the adapter reference gives
//! (dialect section 18, rows in brackets; exchanges by their number).

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

mod bench;

use std::collections::BTreeSet;

use bench::Bench;
use rehearsal::firmware::{ORIGINAL_12A, ORIGINAL_21};
use rehearsal::{Bus, Fault, FaultKind};

/// A line that is set up and connected, headers on; the fault comes at second `from`.
fn ready(kind: FaultKind, from: u64) -> Bench {
    ready_on("can-11-500", kind, from)
}

fn ready_on(bus: &str, kind: FaultKind, from: u64) -> Bench {
    let mut bench = Bench::on(Bus::named(bus).unwrap(), &ORIGINAL_21, &[Fault::new(kind, from)]);
    for line in ["ATE0\r", "ATH1\r", "ATSP0\r", "0100\r"] {
        bench.ask(line);
    }
    bench.hear(6_000);
    bench.ask("0105\r");
    bench
}

const VALUE: &str = "7E8 03 41 05 3D \r\r>";

/// The replies to so many equal requests, each heard out.
fn replies(bench: &mut Bench, line: &str, times: usize) -> Vec<String> {
    (0..times).map(|_| bench.ask(line)).collect()
}

/// How many of them differ from what is right.
fn wrong(replies: &[String], right: &str) -> usize {
    replies.iter().filter(|reply| *reply != right).count()
}

#[test]
fn every_kind_is_shown_here_or_beside_what_it_breaks() {
    let text = concat!(
        include_str!("faults.rs"),
        include_str!("firmwares.rs"),
        include_str!("dialect.rs"),
        include_str!("buses.rs"),
        include_str!("rehearsals.rs"),
    );
    for kind in FaultKind::ALL.iter().filter(|kind| !kind.is_of_sensor()) {
        let shown = text.contains(&format!("FaultKind::{kind:?}")) || text.contains(kind.word());
        assert!(shown, "{kind} is nowhere shown");
    }
}

#[test]
fn rare_faults_are_as_rare_as_stated() {
    #[rustfmt::skip]
    let cases: &[(FaultKind, &str, &[&str], f64)] = &[
        //  kind                         request    what comes in its place (begins or ends)         one in
        (FaultKind::NoData,          "0105\r",  &["NO DATA\r\r>"],                                10.0),
        (FaultKind::Stopped,         "0105\r",  &["STOPPED\r\r>"],                                30.0),
        (FaultKind::BusError,        "0105\r",  &["CAN ERROR\r\r>"],                              30.0),
        (FaultKind::BusTrouble,      "0105\r",  &["BUS BUSY\r\r>", "BUS ERROR\r\r>", "FB ERROR\r\r>", "DATA ERROR\r\r>"], 20.0),
        (FaultKind::BufferFull,      "0105\r",  &["BUFFER FULL\r\r>"],                            15.0),
        (FaultKind::LineMarked,      "0105\r",  &["7E8 03 41 05 3D <RX ERROR\r\r>"],              10.0),
        (FaultKind::WrongLength,     "0105\r",  &["7E8 04 41 05 3D \r\r>"],                       10.0),
        (FaultKind::OddDigits,       "0105\r",  &["7E8 03 41 05 3\r\r>"],                         10.0),
        (FaultKind::LettersInHex,    "0105\r",  &["7E8 03 41 05 3G \r\r>"],                       10.0),
        (FaultKind::WrongIdentifier, "0105\r",  &["7E8 03 41 04 3D \r\r>", "7E8 03 40 05 3D \r\r>"], 10.0),
        (FaultKind::DigitShort,      "01051\r", &["\r>"],                                         5.0),
        (FaultKind::PromptMissing,   "0105\r",  &["7E8 03 41 05 3D \r"],                          20.0),
        (FaultKind::PromptDoubled,   "0105\r",  &["7E8 03 41 05 3D \r\r>>"],                      10.0),
        (FaultKind::CommandRefused,  "ATH1\r",  &["?\r\r>"],                                      6.0),
    ];
    const TIMES: usize = 600;
    for (kind, line, places, one_in) in cases {
        let mut bench = ready(*kind, 20);
        bench.hear(20_000);
        let right = if line.starts_with("AT") { "OK\r\r>" } else { VALUE };
        let said = replies(&mut bench, line, TIMES);
        let others: BTreeSet<&str> = said.iter().map(String::as_str).filter(|s| *s != right).collect();
        let want: BTreeSet<&str> = places.iter().copied().collect();
        assert_eq!(others, want, "{kind}");
        let (got, due) = (wrong(&said, right) as f64, TIMES as f64 / one_in);
        assert!((got - due).abs() <= 4.0 * due.sqrt(), "{kind}: {got} of {TIMES}, {due} due");
    }
}

#[test]
fn the_marks_and_lengths_of_the_older_buses_are_theirs() {
    let others = |bus: &str, kind: FaultKind| -> BTreeSet<String> {
        let mut bench = ready_on(bus, kind, 0);
        replies(&mut bench, "0105\r", 100).into_iter().collect()
    };
    let marked = others("iso-9141-2", FaultKind::LineMarked);
    assert!(marked.contains("48 6B 10 41 05 3D 46 <DATA ERROR\r\r>"), "X109 {marked:?}");
    let longer = others("iso-14230-4-fast", FaultKind::WrongLength);
    assert!(longer.contains("84 F1 10 41 05 3D 07 \r\r>"), "{longer:?}");
    let shorter = others("j1850-pwm", FaultKind::WrongLength);
    assert!(shorter.contains("41 6B 10 41 05 3D \r\r>"), "{shorter:?}");
}

#[test]
fn bytes_come_alone_and_strangers_among_them() {
    let mut bench = ready(FaultKind::SingleBytes, 0);
    bench.send("0105\r");
    let pieces = bench.hear_pieces(3_000);
    assert_eq!(pieces.concat(), VALUE.as_bytes(), "[1]");
    assert!(pieces.len() * 10 > VALUE.len() * 8, "{} pieces", pieces.len());

    let mut bench = ready(FaultKind::StrayBytes, 0);
    let said: Vec<Vec<u8>> = (0..100)
        .map(|_| {
            bench.send("0105\r");
            bench.hear_bytes(1_000)
        })
        .collect();
    let strange = said.iter().filter(|reply| reply[0] >= 0x80).count();
    assert!((8..40).contains(&strange), "[4] {strange}");
    assert!(said.iter().all(|reply| reply.ends_with(VALUE.as_bytes())), "[4] nothing is lost");

    let mut bench = ready(FaultKind::NulBytes, 0);
    let nuls: usize = (0..50).map(|_| bench.ask("0105\r").matches('\0').count()).sum();
    assert!(nuls > 5, "[3] {nuls}");
    for kind in [FaultKind::DropBytes, FaultKind::FlipBytes] {
        let mut bench = ready(kind, 0);
        let spoiled = wrong(&replies(&mut bench, "0105\r", 200), VALUE);
        assert!((3..40).contains(&spoiled), "{kind}: {spoiled}");
    }
}

#[test]
fn a_held_prompt_comes_with_the_next_reply_in_one_piece() {
    let mut bench = ready(FaultKind::JoinedReplies, 0);
    let said = replies(&mut bench, "0105\r", 60);
    let (without, joined) = ("7E8 03 41 05 3D \r", format!("\r>{VALUE}"));
    let place = said.iter().position(|reply| reply == without).unwrap();
    assert!(said[place + 1].starts_with("\r>7E8"), "[2], X042: {:?}", said[place + 1]);
    assert!(said.contains(&joined));
}

#[test]
fn prompts_and_replies_come_late() {
    let late = |kind: FaultKind, within: u64| -> usize {
        let mut bench = ready(kind, 0);
        (0..120)
            .filter(|_| {
                bench.send("0105\r");
                let soon = bench.hear(within);
                let rest = bench.hear(4_000);
                assert_eq!(format!("{soon}{rest}"), VALUE, "{kind}");
                !rest.is_empty()
            })
            .count()
    };
    let prompts = late(FaultKind::LatePrompt, 1_000);
    assert!((1..20).contains(&prompts), "[7] {prompts}");
    let whole = late(FaultKind::LateReply, 2_000);
    assert!((1..20).contains(&whole), "[10] {whole}");
}

#[test]
fn settings_come_back_in_the_middle_of_the_run() {
    let mut bench = ready(FaultKind::EchoReturns, 30);
    assert_eq!(bench.ask("0105\r"), VALUE);
    bench.hear(30_000);
    assert_eq!(bench.ask("0105\r"), format!("0105\r{VALUE}"), "[5]");
    bench.ask("ATE0\r");
    assert_eq!(bench.ask("0105\r"), VALUE);
    bench.hear(120_000);
    assert_eq!(bench.ask("0105\r"), format!("0105\r{VALUE}"), "[5] again after two minutes");

    let mut bench = ready(FaultKind::FormReturns, 30);
    bench.ask("ATS0\r");
    bench.hear(30_000);
    assert_eq!(bench.ask("0105\r"), "7E8 03 41 05 3D \r\n\r\n>", "[6]");
}

#[test]
fn the_adapter_resets_itself_in_several_ways() {
    #[rustfmt::skip]
    let cases = [
        (FaultKind::LvReset,       "\r\rLV RESET\r\r>"),
        (FaultKind::SilentReset,   "\r>"),
        (FaultKind::BannerUnasked, "\r\rELM327 v2.1\r\r>"),
        (FaultKind::Cranking,      "\r\rLV RESET\r\r>"),
    ];
    for (kind, said) in cases {
        let mut bench = ready(kind, 60);
        assert_eq!(bench.hear(60_000), said, "[16, 17] {kind}");
        assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>", "{kind}: the echo is back");
    }
    let fault = Fault::new(FaultKind::LvReset, 10);
    let mut bench = Bench::on(Bus::usual(), &ORIGINAL_12A, &[fault]);
    assert_eq!(bench.hear(20_000), "\r\rELM327 v1.2a\r\r>", "before 1.3 only the banner tells");

    let mut bench = ready(FaultKind::ResetInReply, 60);
    bench.hear(60_000);
    assert_eq!(bench.ask("0105\r"), "7E8 03 4\r\rLV RESET\r\r>", "X107");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>");
}

#[test]
fn after_a_supply_dip_searches_leave_can_out_until_it_is_told_to_forget() {
    let mut bench = ready(FaultKind::LvReset, 60);
    bench.hear(60_000);
    bench.ask("ATE0\r");
    bench.send("0100\r");
    assert_eq!(bench.hear(12_000), "SEARCHING...\rUNABLE TO CONNECT\r\r>", "data sheet p.88");
    bench.ask("ATFE\r");
    bench.send("0105\r");
    assert_eq!(bench.hear(12_000), "SEARCHING...\r41 05 3D \r\r>");
}

#[test]
fn the_chip_fails_by_number_and_loses_its_settings() {
    let mut bench = ready(FaultKind::ChipError, 30);
    bench.hear(30_000);
    assert_eq!(bench.ask("0105\r"), "ERR94\r\r>", "[18]");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>");
    bench.ask("ATE0\r");
    bench.hear(300_000);
    assert_eq!(bench.ask("0105\r"), "ERR93\r\r>", "[18]");
}

#[test]
fn starts_fail_and_searches_drag() {
    let mut bench = ready(FaultKind::NoDataSpell, 30);
    bench.hear(30_000);
    let said = replies(&mut bench, "0105\r", 4);
    assert_eq!(said, ["NO DATA\r\r>", "NO DATA\r\r>", "NO DATA\r\r>", VALUE], "[12]");

    let mut bench = ready(FaultKind::SlowSearch, 30);
    bench.hear(30_000);
    bench.send("0105\r");
    assert_eq!(bench.hear(24_000), "SEARCHING...", "[13]");
    assert_eq!(bench.hear(2_000), VALUE, "glued to the word");

    let mut bench = ready_on("iso-9141-2", FaultKind::BusInitError, 30);
    bench.hear(30_000);
    bench.send("0105\r");
    assert_eq!(bench.hear(5_500), "BUS INIT: ...", "[14]");
    assert_eq!(bench.hear(1_000), "ERROR\r\r>");
    bench.send("0105\r");
    assert_eq!(bench.hear(6_000), "SEARCHING...\r48 6B 10 41 05 3D 46 \r\r>", "good when asked again");

    let mut bench = ready(FaultKind::UnableToConnect, 30);
    bench.hear(30_000);
    for want in ["UNABLE TO CONNECT\r\r>", "UNABLE TO CONNECT\r\r>", VALUE] {
        bench.send("0105\r");
        assert_eq!(bench.hear(9_000), format!("SEARCHING...\r{want}"), "[15]");
    }
}

#[test]
fn the_bus_sleeps_for_a_minute() {
    for (bus, first) in [
        ("can-11-500", "CAN ERROR\r\r>"),
        ("j1850-vpw", "NO DATA\r\r>"),
        ("iso-14230-4-fast", "NO DATA\r\r>"),
    ] {
        let mut bench = ready_on(bus, FaultKind::BusAsleep, 100);
        bench.hear(90_000);
        assert_eq!(bench.ask("0105\r"), first, "{bus}");
        bench.hear(60_000);
        bench.send("0105\r");
        assert!(bench.hear(9_000).contains("41 05 3D"), "{bus}: awake again");
    }
}

#[test]
fn lines_of_long_replies_are_mixed_lost_and_doubled() {
    let (a, b, c) = (
        "7E8 10 14 49 02 01 5A 5A 39 \r",
        "7E8 21 44 45 4D 36 53 39 58 \r",
        "7E8 22 59 30 30 30 30 34 32 \r",
    );
    #[rustfmt::skip]
    let cases = [
        (FaultKind::FramesSwapped, format!("{a}{c}{b}\r>")),
        (FaultKind::FrameMissing,  format!("{a}{b}\r>")),
        (FaultKind::FrameDoubled,  format!("{a}{b}{c}{c}\r>")),
    ];
    for (kind, want) in cases {
        assert_eq!(ready(kind, 0).ask("0902\r"), want, "[26] {kind}");
    }
    let said = ready(FaultKind::UnitsMixed, 0).ask("0904\r");
    let senders: Vec<&str> = said.split('\r').filter(|line| line.len() > 4).map(|line| &line[..6]).collect();
    assert_eq!(senders, ["7E9 10", "7E8 10", "7E9 21", "7E8 21", "7E9 22", "7E8 22"], "[26], X095: {said:?}");
}

#[test]
fn lines_grow_beyond_every_measure() {
    let mut bench = ready(FaultKind::LongLine, 0);
    let longest = replies(&mut bench, "0105\r", 100).iter().map(String::len).max().unwrap();
    assert_eq!(longest, 4_096 + 3, "[27]");
    let mut bench = ready(FaultKind::EndlessLine, 60);
    bench.hear_until(61);
    bench.send("0105\r");
    assert!(bench.hear(400_000).len() > 1 << 20, "[27] a mebibyte");
    assert_eq!(bench.ask("0105\r"), VALUE, "once");
}

#[test]
fn answers_belong_to_others_or_to_the_past() {
    let mut bench = ready(FaultKind::WrongEcu, 0);
    assert_eq!(bench.ask("224D07\r"), "7EA 04 62 4D 07 47 \r\r>", "[28]");

    let line = |first: bool| {
        let mut bench = ready(FaultKind::TwoUnitsAnswer, 0);
        bench.car.other_unit_first(first);
        (bench.ask("0105\r"), bench.ask("0100\r"))
    };
    let (engine, other) = ("7E8 03 41 05 3D \r", "7EA 03 41 05 19 \r");
    assert_eq!(line(false).0, format!("{engine}{other}\r>"));
    let (coolant, supported) = line(true);
    assert_eq!(coolant, format!("{other}{engine}\r>"), "the stranger speaks first");
    assert!(
        supported.starts_with("7EA 06 41 00 08 00 00 00 \r"),
        "and says that it has the number: {supported}"
    );

    let mut bench = ready(FaultKind::StaleReply, 0);
    let said: Vec<String> = (0..100)
        .map(|_| {
            bench.ask("010C\r");
            bench.ask("0105\r")
        })
        .collect();
    let stale = said.iter().filter(|reply| reply.contains("41 0C")).count();
    assert!((2..25).contains(&stale), "{stale}");

    let mut bench = ready(FaultKind::RepeatedReply, 0);
    let first = bench.ask("0105\r");
    bench.car.world_mut().start_engine();
    bench.hear(900_000);
    assert_eq!(bench.ask("0105\r"), first, "the coolant is warm by now");
    let mut bench = ready(FaultKind::NoData, 9_999);
    bench.car.world_mut().start_engine();
    bench.hear(900_000);
    assert_ne!(bench.ask("0105\r"), first, "without the fault it is");
}

#[test]
fn the_adapter_warns_and_falls_asleep() {
    let mut bench = ready(FaultKind::ActAlert, 60);
    assert_eq!(bench.hear(60_000), "\rACT ALERT\r\r>", "X055 [35]");
    assert_eq!(bench.ask("0105\r"), VALUE);
    bench.hear(60_000);
    assert_eq!(bench.ask("0105\r"), VALUE, "a word keeps it awake");
    let mut bench = ready(FaultKind::ActAlert, 60);
    bench.hear(140_000);
    assert_eq!(
        bench.ask("0105\r"),
        "\r>NO DATA\r\r>",
        "the first byte only wakes it: 10, and five answers awaited"
    );

    let mut bench = ready(FaultKind::LpAlert, 60);
    assert_eq!(bench.hear(60_000), "\rLP ALERT\r", "X056");
    bench.send(" ");
    assert_eq!(bench.hear(1_000), "\r>");
    assert_eq!(bench.ask("0105\r"), VALUE, "settings stay");
}

#[test]
fn another_program_talks_on_the_port() {
    let mut bench = ready(FaultKind::ForeignLines, 60);
    assert_eq!(bench.hear(60_000), "ATE1\rOK\r\r>ATSH7E0\rOK\r\r>", "[36]");
    assert_eq!(bench.ask("224D07\r"), "224D07\r7E8 03 7F 22 31 \r\r>", "the header is another one");
}

#[test]
fn voltages_are_odd() {
    let mut bench = ready(FaultKind::OddVolts, 0);
    let said = replies(&mut bench, "ATRV\r", 6);
    let want = ["0.0V", "12.3", "OK", "?", "99.9V", "0.0V"].map(|text| format!("{text}\r\r>"));
    assert_eq!(said, want, "[38]");
    let mut bench = ready(FaultKind::Cranking, 60);
    bench.hear_until(61);
    assert!(bench.ask("ATRV\r").contains("7.8V"), "the starter turns");
}

#[test]
fn links_break_in_several_ways() {
    let mut bench = ready(FaultKind::CutInReply, 60);
    bench.hear(60_000);
    bench.send("0105\r");
    assert_eq!(bench.hear(1_000), "7E8 03 4", "[32]");
    assert!(!bench.car.plugged());
    assert_eq!(bench.ask("0105\r"), "", "nobody there");
    assert!(bench.car.plugged(), "back");
    assert_eq!(bench.ask("0105\r"), VALUE, "the adapter was never without supply");

    let mut bench = ready(FaultKind::HalfOpen, 60);
    bench.hear(45_000);
    assert_eq!(bench.ask("0105\r"), "", "[32] nothing goes through");
    assert!(bench.car.plugged(), "and nothing tells");
    bench.hear(20_000);
    assert_eq!(bench.ask("0105\r"), VALUE);

    let mut bench = ready(FaultKind::FlakyLink, 60);
    let shut: Vec<u64> = (590..760)
        .filter(|tenth| {
            bench.hear((tenth * 100_u64).saturating_sub(bench.now.as_millis()));
            !bench.car.plugged()
        })
        .collect();
    assert_eq!(shut, (600..610).chain(680..690).collect::<Vec<_>>(), "a second in eight");

    let mut bench = ready(FaultKind::Stalls, 60);
    bench.hear_until(61);
    bench.send("0105\r");
    assert_eq!(bench.hear(2_900), "");
    assert_eq!(bench.hear(200), VALUE, "all of it, after 4 s");

    for (kind, seconds) in [(FaultKind::ReEnumerated, 3), (FaultKind::AdapterUnplugged, 30)] {
        let mut bench = ready(kind, 60);
        bench.hear_until(61);
        assert!(!bench.car.plugged(), "[31] {kind}");
        assert!(bench.hear(seconds * 1_000).ends_with("ELM327 v2.1\r\r>"), "{kind}");
        assert!(bench.car.plugged());
    }
}

#[test]
fn some_requests_do_harm() {
    let mut bench = ready(FaultKind::RequestKillsLink, 0);
    bench.send("0902\r");
    assert_eq!(bench.hear(500), "");
    assert!(!bench.car.plugged());
    bench.hear(1_000);
    assert!(bench.car.plugged());
    assert_eq!(bench.ask("0105\r"), VALUE, "the others are answered");

    let mut bench = ready(FaultKind::RequestResets, 0);
    assert_eq!(bench.ask("010D\r"), "\r\rELM327 v2.1\r\r>");
    assert_eq!(bench.ask("ATI\r"), "ATI\rELM327 v2.1\r\r>", "the echo is back");

    let mut bench = ready(FaultKind::RequestHangs, 0);
    assert_eq!(bench.ask("0146\r"), "");
    assert_eq!(bench.ask("ATZ\r"), "", "mute");
    bench.car.host_closed(bench.now);
    bench.car.host_opened(bench.now);
    assert_eq!(bench.ask("0105\r"), VALUE);
}

#[test]
fn an_answer_asks_for_time_or_changes_its_length() {
    let mut bench = ready(FaultKind::PendingAlways, 0);
    bench.send("224D07\r");
    assert_eq!(bench.hear(500), "7E9 03 7F 22 78 \r");
    assert_eq!(bench.hear(6_000), "7E9 04 62 4D 07 3D \r\r>");
    assert_eq!(bench.ask("0105\r"), VALUE);

    let mut bench = ready(FaultKind::LengthChanges, 60);
    bench.hear_until(61);
    assert_eq!(bench.ask("224D07\r"), "7E9 05 62 4D 07 00 3D \r\r>");
    bench.hear_until(68);
    assert_eq!(bench.ask("224D07\r"), "7E9 04 62 4D 07 3D \r\r>");
    bench.hear_until(76);
    assert_eq!(bench.ask("224D07\r"), "7E9 05 62 4D 07 00 3D \r\r>");

    let mut bench = ready(FaultKind::Brownout, 60);
    assert_eq!(bench.hear(60_000).matches("LV RESET").count(), 8, "every 4 s for half a minute");
}

#[test]
fn the_page_lists_every_bus_firmware_and_fault_in_the_same_words() {
    let page = include_str!("../../../docs/rehearsal.md");
    let buses = rehearsal::bus::ALL.iter().map(|bus| (bus.name, bus.says));
    let firmwares = rehearsal::firmware::ALL.iter().map(|firmware| (firmware.name, firmware.says));
    let faults = FaultKind::ALL.iter().map(|kind| (kind.word(), kind.says()));
    for (name, says) in buses.chain(firmwares).chain(faults) {
        assert!(page.contains(&format!("| `{name}` | {says} |")), "{name}: {says}");
    }
}
