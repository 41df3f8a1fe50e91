//! Stories of one driver and one adapter: from the first line to readings.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::time::Duration;

use adapter::{Outcome, Poll, Protocol, Quirk, Schedule};
use bench::{Bench, coolant, fluid, speed};
use frames::{Ask, Bus};
use units::Mono;

const SECOND: Duration = Duration::from_secs(1);

#[test]
fn an_original_is_set_up_found_connected_and_read() {
    let mut bench = Bench::new(Schedule {
        gating: Some(fluid()),
        others: vec![speed()],
        once: vec![Poll::new(Ask::VehicleInfo(0x02), Duration::ZERO)],
        floor: Duration::from_millis(50),
    });
    bench.run(10 * SECOND);
    assert_eq!(bench.words(), ["found", "connected"]);
    let lines: Vec<_> = bench.sent.iter().map(|(_, line)| line.as_str()).take(26).collect();
    assert_eq!(
        lines,
        [
            "ATI", "ATWS", "ATE0", "ATL0", "ATS0", "ATH1", "ATM0", "ATAT1", "ATST32", "AT@1", "STI", "ATQ9",
            "ATRV", "ATCAF1", "ATCFC1", "ATSP0", "0100", "ATDPN", "ATSH7E1", "221940", "221940", "ATSH7DF",
            "0902", "010C", "010C", "ATSH7E1",
        ]
    );
    let connected = bench.told.iter().find_map(|(_, outcome)| match outcome {
        Outcome::Connected { protocol, bus, control_units } => Some((*protocol, *bus, control_units.clone())),
        _ => None,
    });
    let units = ["7E8", "7E9"].map(|ecu| ecu.parse().unwrap()).to_vec();
    assert_eq!(connected, Some((Some(Protocol::Can11Fast), Some(Bus::Can11), units)));
    let answers = bench.answers();
    assert_eq!(answers.iter().filter(|answer| *answer == "7E9 6219405500").count(), 20, "{answers:?}");
    assert_eq!(answers.iter().filter(|answer| *answer == "7E8 410C1AF8").count(), 5);
    assert_eq!(answers.iter().filter(|answer| answer.starts_with("7E8 490201")).count(), 1, "asked once");
    assert_eq!(bench.driver.counts().timed_out, 0);
}

#[test]
fn the_banner_of_a_power_up_may_come_late_and_is_no_reset() {
    let mut bench = Bench::with_coolant();
    bench.fake.says(Mono::from_millis(104), b"\r\rELM327 v2.1\r\r>");
    bench.run(5 * SECOND);
    assert_eq!(bench.words(), ["found", "connected"]);
    assert!(bench.answers().len() > 5);
}

#[test]
fn the_gating_request_is_asked_as_often_as_the_line_allows_and_the_others_get_their_turns() {
    let often = Poll { every: Duration::ZERO, ..coolant() };
    let mut bench =
        Bench::new(Schedule { gating: Some(often), others: vec![speed()], ..Schedule::default() });
    bench.run(31 * SECOND);
    // 20 ms each with a count digit, nothing in between: 50 a second, of which the other takes one every 2 s, the voltage
    // one every 15 s; one in sixty goes without a digit and takes 40 ms.
    let (gating, other) = (bench.count("0105"), bench.count("010C"));
    assert!((1_460..=1_500).contains(&gating), "{gating}");
    assert!((16..=17).contains(&other), "one more confirms the first: {other}");
    assert_eq!(bench.count("ATRV"), 3, "one of them from the set-up");
}

#[test]
fn requests_keep_the_floor_between_them() {
    let often = Poll { every: Duration::ZERO, ..coolant() };
    let floor = Duration::from_millis(250);
    let mut bench = Bench::new(Schedule { gating: Some(often), floor, ..Schedule::default() });
    bench.run(10 * SECOND);
    let times: Vec<Mono> =
        bench.sent.iter().filter(|(_, line)| line.starts_with("0105")).map(|(at, _)| *at).collect();
    assert!(times.len() > 30);
    assert!(times.windows(2).all(|two| two[1].since(two[0]) >= floor));
}

#[test]
fn a_remembered_protocol_is_tried_first_and_all_others_after_it_failed() {
    let mut bench = Bench::with_coolant();
    bench.driver = adapter::Driver::new(Schedule { gating: Some(coolant()), ..Schedule::default() })
        .with_protocol(Protocol::Iso9141);
    bench.driver.handle_opened(Mono::ZERO);
    bench.twist(|line, count, _| match (line, count) {
        ("0100", 0) => Some(vec![(3_000, b"BUS INIT: ...ERROR\r\r>".to_vec())]),
        _ => None,
    });
    bench.run(20 * SECOND);
    assert_eq!(bench.words(), ["found", "silent bus-init", "connected"]);
    assert_eq!((bench.count("ATTP3"), bench.count("ATSP0")), (1, 1));
    let again = bench.when("connected").unwrap().since(bench.when("silent bus-init").unwrap());
    assert!((5 * SECOND..6 * SECOND).contains(&again), "after the pause: {again:?}");
}

#[test]
fn a_vehicle_on_another_bus_is_read_just_the_same() {
    for (number, bus, ecu) in
        [('7', Bus::Can29, "18DAF110"), ('3', Bus::Iso9141, "10"), ('5', Bus::Iso14230, "11")]
    {
        let mut bench = Bench::with_coolant();
        bench.fake.number = number;
        bench.fake.units.clear();
        bench.fake.units.insert((ecu.to_owned(), "-".to_owned()), Default::default());
        let unit = bench.fake.units.values_mut().next().unwrap();
        unit.insert("0100".to_owned(), "4100BE3FA813".to_owned());
        unit.insert("0105".to_owned(), "41057B".to_owned());
        bench.run(5 * SECOND);
        let found =
            bench.told.iter().any(|(_, o)| matches!(o, Outcome::Connected { bus: b, .. } if *b == Some(bus)));
        assert!(found, "{bus}: {:?}", bench.words());
        assert_eq!(bench.answers().first(), Some(&format!("{ecu} 41057B")), "{bus}");
    }
}

#[test]
fn a_header_that_does_not_fit_the_bus_is_said_once_and_left_alone() {
    let mut bench =
        Bench::new(Schedule { gating: Some(coolant()), others: vec![fluid()], ..Schedule::default() });
    bench.fake.number = '7';
    bench.fake.units.clear();
    bench.fake.answer("18DAF110", "0100", "4100BE3FA813");
    bench.fake.answer("18DAF110", "0105", "41057B");
    bench.run(10 * SECOND);
    assert_eq!(bench.words(), ["found", "connected", "suspect not-addressable"]);
    assert!(bench.answers().len() > 15);
    assert_eq!(bench.count("221940"), 0);
}

#[test]
fn a_clone_that_refuses_everything_it_can_refuse_is_still_read() {
    // A unit outside the standard's range: one that has to be filtered.
    let unusual = fluid().to(adapter::Header::parse("750").unwrap());
    let mut bench = Bench::new(Schedule { gating: Some(unusual), ..Schedule::default() });
    bench.fake.answer("758", "221940", "6219405500");
    bench.twist(|line, _, flags| {
        let refused =
            ["ATWS", "ATL0", "ATS0", "ATM0", "ATAT1", "ATST32", "AT@1", "ATCRA758", "ATCM7FF", "ATRV"];
        let end = if flags.line_feeds { "\r\n\r\n>" } else { "\r\r>" };
        let echo = if flags.echo { format!("{line}\r") } else { String::new() };
        refused.contains(&line).then(|| vec![(5, format!("{echo}?{end}").into_bytes())])
    });
    bench.run(10 * SECOND);
    assert_eq!(
        bench.words(),
        [
            "quirk no-ws",
            "quirk lf-stuck",
            "quirk no-at",
            "quirk no-volt",
            "quirk version-lie",
            "found",
            "quirk spaces-stuck",
            "connected",
            "quirk no-cra"
        ]
    );
    assert!(bench.answers().len() > 12, "{:?}", bench.answers());
    assert_eq!(bench.count("ATZ"), 1, "the slower reset in place of the warm start");
}

#[test]
fn a_yes_man_that_ignores_its_flags_is_found_out_and_still_read() {
    let mut bench = Bench::with_coolant();
    bench.fake.units.remove(&("7E9".to_owned(), "7E1".to_owned()));
    bench.twist(|line, _, _| match line {
        "ATE0" | "ATL0" | "ATS0" | "ATQ9" | "ATRV" => {
            Some(vec![(5, format!("{line}\rOK\r\n\r\n>").into_bytes())])
        }
        _ => None,
    });
    bench.run(10 * SECOND);
    let words = bench.words();
    for quirk in [Quirk::EchoStuck, Quirk::LfStuck, Quirk::SpacesStuck, Quirk::YesMan, Quirk::NoVolt] {
        assert!(words.contains(&format!("quirk {}", quirk.word())), "{} in {words:?}", quirk.word());
    }
    assert!(!words.iter().any(|word| word.starts_with("reset")), "{words:?}");
    assert!(bench.answers().len() > 12 && bench.answers().iter().all(|answer| answer == "7E8 41057B"));
}

#[test]
fn without_headers_one_control_unit_is_read_and_several_are_refused() {
    let no_headers = |line: &str, _: u32, flags: &mut bench::Flags| {
        flags.headers = false;
        (line == "ATH1").then(|| vec![(5, b"OK\r\r>".to_vec())])
    };
    let mut bench = Bench::with_coolant();
    bench.twist(no_headers);
    bench.run(4 * SECOND);
    assert_eq!(bench.words(), ["found", "silent senders-unknown"]);
    assert!(bench.answers().is_empty());

    let mut bench =
        Bench::new(Schedule { gating: Some(coolant()), others: vec![fluid()], ..Schedule::default() });
    bench.fake.units.get_mut(&("7E9".to_owned(), "7E1".to_owned())).unwrap().remove("0100");
    bench.twist(no_headers);
    bench.run(4 * SECOND);
    assert!(bench.words().starts_with(&["found", "quirk no-headers", "connected"].map(str::to_owned)));
    assert!(
        bench.words().contains(&"suspect no-sender".to_owned()),
        "who was asked cannot be told: {:?}",
        bench.words()
    );
    assert!(bench.answers().len() > 4 && bench.answers().iter().all(|answer| answer == "- 41057B"));
}

#[test]
fn what_is_no_adapter_says_which_kind_of_stranger_it_is() {
    type Stranger = fn(&str) -> Option<Vec<bench::Piece>>;
    let cases: &[(&str, Stranger, &str)] = &[
        ("silence", |_| Some(Vec::new()), "lost silent"),
        ("a loop", |line| Some(vec![(1, format!(" {line}\r").into_bytes())]), "not-an-adapter loop"),
        ("noise", |_| Some(vec![(1, b"\xff\xfe\x80".to_vec())]), "not-an-adapter noise"),
        ("a modem", |_| Some(vec![(1, b"\r\nERROR\r\n".to_vec())]), "not-an-adapter modem"),
        ("talk", |_| Some(vec![(1, b"$GPGGA,120000,,,\r\n".to_vec())]), "not-an-adapter talk"),
    ];
    for (what, stranger, want) in cases {
        let mut bench = Bench::with_coolant();
        let stranger = *stranger;
        bench.twist(move |line, _, _| stranger(line));
        bench.run(30 * SECOND);
        let words = bench.words();
        assert_eq!(words.last().map(String::as_str), Some(*want), "{what}: {words:?}");
        assert!(bench.driver.poll_timeout().is_none(), "{what}: given up, nothing is sent any more");
    }
}

#[test]
fn a_closed_link_says_what_was_being_asked_and_a_new_one_begins_from_the_start() {
    let mut bench = Bench::with_coolant();
    bench.run(3 * SECOND);
    while bench.driver.asking().is_none() {
        bench.run(Duration::from_millis(10));
    }
    bench.driver.handle_closed(bench.now);
    bench.settle();
    let Some((_, Outcome::Lost { why: adapter::Loss::LinkClosed, asking: Some(asking) })) = bench.told.last()
    else {
        panic!("{:?}", bench.told.last());
    };
    assert_eq!(asking.ask(), Some(Ask::Current(0x05)));
    // What the old link still says is nobody's.
    bench.driver.handle_bytes(b"7E80341057B\r\r>", bench.now);
    assert!(bench.driver.poll_outcome().is_none());
    let (sent, answers) = (bench.sent.len(), bench.answers().len());
    bench.run(5 * SECOND);
    assert_eq!(bench.sent.len(), sent, "nothing is sent to a closed link");
    bench.fake = bench::Fake::new();
    bench.driver.handle_opened(bench.now);
    bench.run(5 * SECOND);
    assert_eq!(bench.sent[sent].1, "ATI");
    assert_eq!(bench.count("ATTP6"), 1, "the protocol found before is tried first");
    assert!(bench.answers().len() > answers + 5);
}

/// A vehicle behind a slow wire; what the adapter does about `ATBRD23` and the CR after it.
fn slow_wire(offer: &'static [(u64, &'static [u8])], agree: &'static [(u64, &'static [u8])]) -> Bench {
    let mut bench = Bench::with_coolant();
    bench.driver.handle_opened_at(Some(9_600), Mono::ZERO);
    bench.twist(move |line, _, _| {
        let pieces = match line {
            "ATBRD23" => offer,
            "" => agree,
            _ => return None,
        };
        Some(pieces.iter().map(|(after, text)| (*after, text.to_vec())).collect())
    });
    bench.run(10 * SECOND);
    bench
}

#[test]
fn a_slow_wire_is_raised_with_the_consent_of_both_and_otherwise_left_as_it_was() {
    type Says = &'static [(u64, &'static [u8])];
    let (offered, agreed): (Says, Says) = (&[(8, b"OK\r"), (90, b"ELM327 v2.1\r")], &[(5, b"OK\r\r>")]);
    // exchanges.csv X036 to X038; section 18, fault 25.
    let cases: &[(&str, Says, Says, &[u32], bool)] = &[
        ("both agree", offered, agreed, &[115_200], true),
        ("refused", &[(8, b"?\r\r>")], &[], &[], false),
        ("no reply", &[], &[], &[], false),
        ("OK, then nothing", &[(8, b"OK\r")], &[], &[115_200, 9_600], false),
        ("OK, then noise", &[(8, b"OK\r"), (90, b"\xf8\x80\x00\xfe")], &[], &[115_200, 9_600], false),
        ("OK, then another name", &[(8, b"OK\r"), (90, b"ELM327 v9\r")], &[], &[115_200, 9_600], false),
        ("the last word does not come", offered, &[], &[115_200, 9_600], false),
        ("a yes-man", &[(8, b"OK\r\r>")], &[], &[], false),
    ];
    for (what, offer, agree, rates, raised) in cases {
        let bench = slow_wire(offer, agree);
        assert_eq!(bench.rates.iter().map(|(_, rate)| *rate).collect::<Vec<_>>(), *rates, "{what}");
        let told = bench.told.iter().any(|(_, outcome)| matches!(outcome, Outcome::Rate { baud: 115_200 }));
        assert_eq!(told, *raised, "{what}");
        assert_eq!(bench.count("ATBRD23"), 1, "{what}: offered once");
        assert_eq!(
            bench.fake.heard.iter().any(|(_, line)| line.is_empty()),
            offer.len() == 2 && *offer == offered,
            "{what}"
        );
        assert!(bench.answers().len() > 10, "{what}: {:?}", bench.words());
    }
}

#[test]
fn a_wire_that_is_fast_enough_is_left_alone() {
    for found in [None, Some(38_400), Some(115_200)] {
        let mut bench = Bench::with_coolant();
        bench.driver.handle_opened_at(found, Mono::ZERO);
        bench.run(5 * SECOND);
        assert_eq!((bench.count("ATBRD23"), bench.rates.len()), (0, 0), "{found:?}");
    }
}

#[test]
fn a_reset_ends_the_fast_rate() {
    let mut bench = slow_wire(&[(8, b"OK\r"), (90, b"ELM327 v2.1\r")], &[(5, b"OK\r\r>")]);
    // From now on it says nothing that can be read, until it is reset.
    bench.twist(|line, _, _| (line != "ATZ").then(Vec::new));
    bench.run(8 * SECOND);
    let reset = bench.sent.iter().rev().find(|(_, line)| line == "ATZ").unwrap().0;
    let (back, rate) = *bench.rates.last().unwrap();
    assert_eq!((back, rate), (reset.after(Duration::from_millis(100)), 9_600));
}

#[test]
fn any_identifier_is_asked_beside_the_schedule_and_what_came_of_it_is_told() {
    let header = adapter::Header::parse("7E1").unwrap();
    let asks = [Ask::Identifier(0x1940), Ask::Identifier(0x2E12), Ask::LocalIdentifier(0x05)];
    let mut bench = Bench::new(Schedule { others: vec![coolant()], ..Schedule::default() });
    bench.fake.answer("7E9", "222E12", "7F2231");
    bench.run(5 * SECOND);
    let before = bench.count("0105");
    for ask in asks {
        assert!(bench.driver.ask_aside(ask, Some(header)));
        assert!(!bench.driver.ask_aside(ask, None), "one at a time");
        bench.run(2 * SECOND);
        assert!(!bench.driver.has_aside());
    }
    let told: Vec<String> = bench
        .told
        .iter()
        .filter_map(|(_, outcome)| match outcome {
            Outcome::Answer { ask, header: Some(_), messages, .. } => {
                Some(format!("{} answered, {} bytes", ask.hex(), messages[0].data.len()))
            }
            Outcome::Declined { ask, code, .. } => Some(format!("{} declined {:02X}", ask.hex(), code.code)),
            Outcome::NoAnswer { ask, why, .. } => Some(format!("{} {}", ask.hex(), why.word())),
            _ => None,
        })
        .collect();
    assert_eq!(told, ["221940 answered, 5 bytes", "222E12 declined 31", "2105 no-data"]);
    assert!(bench.count("0105") > before, "the schedule goes on");
}
