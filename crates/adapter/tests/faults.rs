//! The faults of section 18 of the dialect reference, each with the outcome that it names there. Numbers as there.
//!
//! Whatever goes wrong, no value that the vehicle did not send may come out; every story checks that.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::time::Duration;

use adapter::{Outcome, Poll, Quirk, Schedule};
use bench::{Bench, Piece, coolant, fluid, speed};
use proptest::prelude::*;
use units::Mono;

const SECOND: Duration = Duration::from_secs(1);
const MILLIS: Duration = Duration::from_millis(1);

/// A driver that reads fluid (from 7E9), coolant and engine speed, connected for three seconds.
fn reading() -> Bench {
    let mut bench = Bench::new(Schedule {
        gating: Some(fluid()),
        others: vec![coolant(), speed()],
        ..Schedule::default()
    });
    bench.run(3 * SECOND);
    assert_eq!(bench.words(), ["found", "connected"]);
    bench
}

/// Only true values, and some of them after `since`.
fn still_reads(bench: &Bench, since: Mono) {
    let fresh =
        bench.told.iter().filter(|(at, o)| *at >= since && matches!(o, Outcome::Answer { .. })).count();
    assert!(fresh > 2, "nothing is read any more: {:?}", bench.words());
    only_true_values(bench);
}

fn only_true_values(bench: &Bench) {
    let truth = ["7E9 6219405500", "7E8 41057B", "7E8 410C1AF8"];
    let wrong: Vec<_> =
        bench.answers().into_iter().filter(|answer| !truth.contains(&answer.as_str())).collect();
    assert!(wrong.is_empty(), "{wrong:?}");
}

/// Answers `line` with `text` the first `times` times that it comes from now on.
fn instead(bench: &mut Bench, line: &'static str, times: u32, text: &'static str) {
    let mut left = times;
    bench.twist(move |heard, _, _| {
        let hit = heard == line && left > 0;
        left -= u32::from(hit);
        hit.then(|| vec![(5, text.as_bytes().to_vec())])
    });
}

#[test]
fn f01_f03_pieces_and_zero_bytes_change_nothing() {
    let plain = reading();
    for (piece, nul_every) in [(1, 0), (0, 7), (3, 5)] {
        let mut bench = Bench::new(Schedule {
            gating: Some(fluid()),
            others: vec![coolant(), speed()],
            ..Schedule::default()
        });
        (bench.fake.piece, bench.fake.nul_every) = (piece, nul_every);
        bench.run(3 * SECOND);
        let first = |bench: &Bench| bench.answers().into_iter().take(8).collect::<Vec<_>>();
        assert_eq!(first(&bench), first(&plain));
        assert_eq!(bench.driver.quirks().has(Quirk::Nul), nul_every > 0);
        assert_eq!(bench.driver.counts().nuls > 0, nul_every > 0);
    }
}

#[test]
fn f02_of_two_replies_in_one_read_none_is_lost_and_none_is_shifted() {
    let mut bench = reading();
    // The late rest of one reply and the whole next one (exchanges.csv X041, X042).
    bench.twist(|line, _, _| (line == "0105").then(|| vec![(40, b"\r>7E80341057B\r\r>".to_vec())]));
    let since = bench.now;
    bench.run(5 * SECOND);
    still_reads(&bench, since);
    assert_eq!(bench.words()[2..], ["quirk late-prompt"]);
}

#[test]
fn f04_noise_before_a_reply_is_dropped_and_counted() {
    let mut bench = reading();
    bench.twist(|line, _, _| {
        (line == "0105").then(|| vec![(1, b"\xfc\xff".to_vec()), (40, b"7E80341057B\r\r>".to_vec())])
    });
    let since = bench.now;
    bench.run(5 * SECOND);
    still_reads(&bench, since);
    assert_eq!(bench.words()[2..], ["quirk stray-byte"]);
    assert!(bench.driver.counts().noise > 4);
}

#[test]
fn f05_f06_echo_line_feeds_and_spaces_that_come_back_are_taken_for_a_reset() {
    type Change = fn(&mut bench::Flags);
    let cases: &[(&str, Change)] = &[
        ("echo", |flags| flags.echo = true),
        ("line feeds", |flags| flags.line_feeds = true),
        ("spaces", |flags| flags.spaces = true),
        ("headers gone", |flags| flags.headers = false),
        ("all of them", |flags| {
            *flags = bench::Flags { protocol: flags.protocol, ..bench::Flags::default() }
        }),
    ];
    for (what, change) in cases {
        let mut bench = reading();
        change(&mut bench.fake.flags);
        let (since, restarts) = (bench.now, bench.count("ATWS"));
        bench.run(5 * SECOND);
        assert!(bench.words().contains(&"reset form".to_owned()), "{what}: {:?}", bench.words());
        assert_eq!(bench.count("ATWS"), restarts + 1, "{what}: set up again, once");
        assert_eq!(
            bench.fake.flags.header,
            bench.sent.iter().rev().find_map(|(_, line)| line.strip_prefix("ATSH")).unwrap()
        );
        still_reads(&bench, since.after(SECOND));
    }
}

#[test]
fn f07_a_prompt_that_comes_late_shifts_nothing() {
    let mut bench =
        Bench::new(Schedule { gating: Some(fluid()), others: vec![coolant()], ..Schedule::default() });
    bench.twist(|line, count, _| {
        (line == "ATH1" && count == 0).then(|| vec![(5, b"OK".to_vec()), (1_200, b"\r\r>".to_vec())])
    });
    bench.fake.flags = bench::Flags::default();
    bench.run(15 * SECOND);
    still_reads(&bench, Mono::from_secs(5));
    assert!(bench.words().iter().all(|word| !word.starts_with("suspect")), "{:?}", bench.words());
}

#[test]
fn f08_a_prompt_that_never_comes_ends_in_a_resync_and_the_next_exchange_is_good() {
    let mut bench = reading();
    instead(&mut bench, "0105", 1, "7E80341057B\r\r");
    let since = bench.now;
    bench.run(8 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer timed-out"]);
    assert_eq!((bench.driver.counts().timed_out, bench.driver.counts().resyncs), (1, 1));
    still_reads(&bench, since.after(4 * SECOND));
}

#[test]
fn f09_a_doubled_prompt_is_dropped() {
    let mut bench = reading();
    instead(&mut bench, "0105", 4, "7E80341057B\r\r>>");
    let since = bench.now;
    bench.run(5 * SECOND);
    assert_eq!(bench.words()[2..], ["quirk late-prompt"]);
    still_reads(&bench, since);
}

#[test]
fn f10_a_reply_that_comes_after_its_limit_is_given_to_nobody() {
    let mut bench = reading();
    // The old coolant value arrives in the middle of the resync, and once more after it.
    let mut left = 1;
    bench.twist(move |line, _, _| {
        let hit = line == "0105" && left > 0;
        left -= i32::from(hit);
        hit.then(Vec::new)
    });
    while bench.driver.counts().timed_out == 0 {
        bench.run(50 * MILLIS);
    }
    let at = bench.now;
    bench.fake.says(at.after(20 * MILLIS), b"7E803410599\r\r>");
    bench.run(8 * SECOND);
    still_reads(&bench, at.after(3 * SECOND));
}

#[test]
fn f11_stopped_out_of_the_blue_is_repeated_once() {
    let mut bench = reading();
    instead(&mut bench, "0105", 1, "STOPPED\r\r>");
    bench.run(3 * SECOND);
    assert_eq!(bench.words()[2..], [""; 0]);
    let mut bench = reading();
    instead(&mut bench, "0105", 2, "STOPPED\r\r>");
    bench.run(3 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer interrupted"]);
    only_true_values(&bench);
}

#[test]
fn f12_three_times_no_data_makes_it_seldom_and_an_answer_makes_it_often_again() {
    let mut bench = reading();
    // Twice each: it may be the count digit, so the same is asked without it.
    instead(&mut bench, "0105", 6, "NO DATA\r\r>");
    let since = bench.now;
    bench.run(30 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer no-data"; 3]);
    let times: Vec<Mono> = bench
        .sent
        .iter()
        .filter(|(at, line)| bench::split_digit(line).0 == "0105" && *at >= since)
        .map(|(at, _)| *at)
        .collect();
    assert!(times[6].since(times[5]) >= 10 * SECOND, "seldom: {:?}", times[6].since(times[5]));
    assert!(times[8].since(times[7]) < SECOND, "often again");
    still_reads(&bench, since.after(25 * SECOND));
}

#[test]
fn f13_a_search_of_25_seconds_with_data_glued_to_it_connects() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| {
        let pieces = [(50, "SEARCHING"), (9_000, "..."), (25_000, "7E8064100BE3FA813\r\r>")];
        (line == "0100").then(|| pieces.map(|(after, text)| (after, text.as_bytes().to_vec())).to_vec())
    });
    bench.run(35 * SECOND);
    assert_eq!(bench.words(), ["found", "connected"]);
    assert!(bench.answers().len() > 10);
}

#[test]
fn f14_a_bus_that_did_not_start_is_tried_again_after_five_seconds() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, count, _| {
        let pieces = [(100, "BUS INIT: "), (300, "..."), (600, "ERROR\r\r>")];
        // Neither the adapter's own search nor a protocol by its name.
        (line == "0100" && count < 10)
            .then(|| pieces.map(|(after, text)| (after, text.as_bytes().to_vec())).to_vec())
    });
    bench.run(20 * SECOND);
    assert_eq!(bench.words(), ["found", "silent bus-init", "connected"]);
}

#[test]
fn f15_unable_to_connect_twice_then_connected_on_the_third() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, count, _| {
        // The first search, the nine protocols by name, the second search.
        let takes = if count == 0 || count == 10 { 8_000 } else { 200 };
        let unable = || vec![(100, b"SEARCHING...\r".to_vec()), (takes, b"UNABLE TO CONNECT\r\r>".to_vec())];
        (line == "0100" && count < 11).then(unable)
    });
    bench.run(60 * SECOND);
    assert_eq!(bench.words(), ["found", "silent no-protocol", "silent no-protocol", "connected"]);
    let retries = bench.told.iter().filter_map(|(_, outcome)| match outcome {
        Outcome::VehicleSilent { attempt, retry_in, .. } => Some((*attempt, *retry_in)),
        _ => None,
    });
    assert_eq!(retries.collect::<Vec<_>>(), [(1, 5 * SECOND), (2, 5 * SECOND)]);
}

#[test]
fn f16_f17_after_a_reset_the_reply_is_dropped_and_everything_is_set_again() {
    let cases: &[(&str, &str, &str)] = &[
        ("LV RESET in the middle of a frame", "7E8 03 41 \r\rLV RESET\r\r>", "reset low-voltage"),
        ("a banner unasked", "\r\rELM327 v2.1\r\r>", "reset banner"),
        ("a banner behind a whole line", "7E80341057B\r\r\rELM327 v2.1\r\r>", "reset banner"),
    ];
    for (what, text, sign) in cases {
        let mut bench = reading();
        let (text, mut done) = (text.to_string(), false);
        bench.twist(move |line, _, flags| {
            let hit = line == "0105" && !done;
            done |= hit;
            if hit {
                *flags = bench::Flags { protocol: flags.protocol, ..bench::Flags::default() };
            }
            hit.then(|| vec![(40, text.as_bytes().to_vec())])
        });
        let since = bench.now;
        bench.run(6 * SECOND);
        assert_eq!(bench.words()[2..], [*sign, "connected"], "{what}");
        assert_eq!((bench.count("ATWS"), bench.count("ATTP6")), (2, 1), "{what}");
        still_reads(&bench, since.after(2 * SECOND));
    }
}

#[test]
fn f17_a_reset_while_nothing_is_asked_is_noticed_too() {
    let mut bench = reading();
    let idle = bench.now.after(MILLIS);
    while bench.driver.asking().is_some() {
        bench.run(MILLIS);
    }
    bench.fake.says(idle.max(bench.now), b"\r\rLV RESET\r\r>");
    bench.fake.flags = bench::Flags::default();
    bench.run(3 * SECOND);
    assert_eq!(bench.words()[2..], ["reset low-voltage", "connected"]);
}

#[test]
fn f18_an_adapter_fault_is_set_up_again_once_and_is_a_loss_the_second_time() {
    let mut bench = reading();
    instead(&mut bench, "0105", 1, "ERR94\r\r>");
    let since = bench.now;
    bench.run(6 * SECOND);
    assert_eq!(bench.words()[2..], ["reset fault", "connected"]);
    assert_eq!(bench.count("ATFE"), 1, "events that block CAN are forgotten");
    still_reads(&bench, since.after(2 * SECOND));
    instead(&mut bench, "0105", 1, "ERR93\r\r>");
    bench.run(6 * SECOND);
    assert_eq!(bench.words().last().unwrap(), "lost fault");
    assert!(bench.driver.poll_timeout().is_none());
}

#[test]
fn f19_f20_f26_f27_f28_what_is_cut_spoilt_or_another_is_never_used() {
    let endless = "4".repeat(8_000) + "\r\r>";
    let cases: &[(&str, &str, &str, &[&str])] = &[
        // what            line      reply                                            told when it is always so
        ("buffer full", "0105", "7E80341057B\rBUFFER FULL\r\r>", &["no-answer adapter-fault"]),
        ("rx error", "0105", "7E80341057B<RX ERROR\r\r>", &["suspect malformed"]),
        ("data error", "0105", "7E80341057B <DATA ERROR\r\r>", &["suspect malformed"]),
        ("wrong length", "0105", "7E80541057B\r\r>", &["suspect malformed"]),
        ("an odd digit", "0105", "7E80341057B1\r\r>", &["suspect malformed"]),
        ("letters", "0105", "7E803410X7B\r\r>", &["suspect malformed"]),
        ("no end", "0105", &endless, &["suspect too-long"]),
        ("another id", "0105", "7E804410C1AF8\r\r>", &["suspect other-request"]),
        ("another service", "0105", "7E80361057B\r\r>", &["suspect other-request"]),
        ("another unit", "221940", "7E8056219405500\r\r>", &["suspect wrong-sender"]),
        (
            "frames swapped",
            "0105",
            "7E8101441050102030\r7E82247503030523535\r7E82142313233343536\r\r>",
            &["suspect malformed"],
        ),
        ("frame missing", "0105", "7E81014410501020304\r7E82242313233343536\r\r>", &["suspect malformed"]),
    ];
    for (what, line, reply, told) in cases {
        let mut bench = reading();
        let (line, reply) = (line.to_string(), reply.to_string());
        bench.twist(move |heard, _, _| (heard == line).then(|| vec![(40, reply.as_bytes().to_vec())]));
        bench.run(15 * SECOND);
        let words = bench.words();
        for word in *told {
            assert!(words.contains(&(*word).to_owned()), "{what}: {words:?}");
        }
        only_true_values(&bench);
        bench.twist(|_, _, _| None);
        let since = bench.now;
        bench.run(25 * SECOND);
        still_reads(&bench, since);
    }
}

#[test]
fn f20_a_spoilt_line_is_asked_again_and_the_second_one_counts() {
    for spoilt in ["7E80341057B<RX ERROR\r\r>", "7E80341057B <DATA ERROR\r\r>", "7E80541057B\r\r>"] {
        let mut bench = reading();
        instead(&mut bench, "0105", 1, spoilt);
        let since = bench.now;
        bench.run(3 * SECOND);
        assert_eq!(bench.words()[2..], [""; 0], "{spoilt}");
        still_reads(&bench, since);
    }
}

#[test]
fn f21_errors_of_the_bus_are_typed_and_slow_everything_down() {
    for (text, told) in [("BUS BUSY", "no-answer bus-error"), ("BUS ERROR", "no-answer bus-error")] {
        let mut bench = reading();
        let reply = format!("{text}\r\r>");
        bench.twist(move |line, _, _| {
            (!line.starts_with("AT")).then(|| vec![(20, reply.as_bytes().to_vec())])
        });
        let before = bench.sent.len();
        bench.run(60 * SECOND);
        assert!(bench.words().contains(&told.to_owned()), "{text}: {:?}", bench.words());
        let often = bench.sent[before..].iter().filter(|(_, line)| !line.starts_with("AT")).count();
        assert!(often < 60, "{text}: {often} requests in a minute");
        bench.twist(|_, _, _| None);
        let since = bench.now;
        bench.run(30 * SECOND);
        still_reads(&bench, since);
    }
}

#[test]
fn f21_a_can_error_closes_the_protocol_waits_and_then_searches_again() {
    let mut bench = reading();
    instead(&mut bench, "0105", 2, "CAN ERROR\r\r>");
    bench.run(12 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer bus-error", "silent bus-error", "connected"]);
    assert_eq!(bench.count("ATPC"), 1);
    only_true_values(&bench);
}

#[test]
fn f22_no_set_up_command_that_is_refused_stops_the_set_up() {
    let commands = [
        "ATWS", "ATE0", "ATL0", "ATS0", "ATH1", "ATM0", "ATAT1", "ATST32", "AT@1", "STI", "ATQ9", "ATRV",
        "ATCAF1", "ATCFC1", "ATSP0", "ATDPN", "ATAR", "ATSH7E1", "ATCRA7E9",
    ];
    for refused in commands {
        let mut bench =
            Bench::new(Schedule { gating: Some(fluid()), others: vec![coolant()], ..Schedule::default() });
        bench.fake.units.get_mut(&("7E9".to_owned(), "7E1".to_owned())).unwrap().remove("0100");
        bench.twist(move |line, _, flags| {
            let end = if flags.line_feeds { "\r\n\r\n>" } else { "\r\r>" };
            let echo = if flags.echo { format!("{line}\r") } else { String::new() };
            (line == refused).then(|| vec![(5, format!("{echo}?{end}").into_bytes())])
        });
        bench.run(20 * SECOND);
        assert!(bench.words().contains(&"connected".to_owned()), "{refused}: {:?}", bench.words());
        assert!(bench.answers().len() > 10, "{refused}: {:?}", bench.words());
        if refused == "ATH1" {
            assert!(bench.answers().iter().all(|answer| answer == "- 41057B"), "one unit, without its name");
        } else {
            only_true_values(&bench);
        }
    }
}

#[test]
fn f29_response_pending_five_times_is_waited_for_and_for_ever_is_no_answer() {
    let pending = |times: u64, end: &[u8]| -> Vec<Piece> {
        let mut pieces: Vec<Piece> =
            (0..times).map(|n| (50 + n * 4_000, b"7E9037F2278\r".to_vec())).collect();
        pieces.push((50 + times * 4_000, end.to_vec()));
        pieces
    };
    let mut bench = reading();
    let mut left = 1;
    bench.twist(move |line, _, _| {
        let hit = line == "221940" && left > 0;
        left -= i32::from(hit);
        hit.then(|| pending(5, b"7E9056219405500\r\r>"))
    });
    let since = bench.now;
    bench.run(26 * SECOND);
    assert_eq!(bench.words()[2..], [""; 0]);
    still_reads(&bench, since.after(20 * SECOND));

    let mut bench = reading();
    bench.twist(|line, _, _| (line == "221940").then(|| vec![(50, b"7E9037F2278\r".to_vec())]));
    bench.run(8 * SECOND);
    assert_eq!(bench.words()[2], "no-answer pending");
    let waited = bench.when("no-answer pending").unwrap();
    let asked =
        bench.sent.iter().rev().find(|(at, line)| line.starts_with("221940") && *at < waited).unwrap().0;
    assert!((5_500 * MILLIS..6_000 * MILLIS).contains(&waited.since(asked)), "{:?}", waited.since(asked));
}

#[test]
fn f29_an_older_chip_that_gives_the_prompt_after_response_pending_is_asked_again_with_a_longer_wait() {
    let mut bench = reading();
    instead(&mut bench, "221940", 2, "7E9037F2278\r\r>");
    let since = bench.now;
    bench.run(3 * SECOND);
    assert_eq!(bench.words()[2..], [""; 0]);
    assert!(bench.count("ATSTFF") >= 1);
    still_reads(&bench, since);
    // It answers at once again: the long wait is given up.
    bench.run(5 * SECOND);
    let waits: Vec<_> = bench
        .sent
        .iter()
        .filter(|(_, line)| line.starts_with("ATST"))
        .map(|(_, line)| line.as_str())
        .collect();
    assert_eq!(waits.last(), Some(&"ATST32"), "{waits:?}");
    let before = waits.len();
    bench.run(5 * SECOND);
    assert_eq!(bench.sent.iter().filter(|(_, line)| line.starts_with("ATST")).count(), before);
}

#[test]
fn f35_before_it_sleeps_it_is_poked_and_after_it_slept_it_is_set_up_again() {
    let slow = Poll { every: 20 * SECOND, ..coolant() };
    let mut bench = Bench::new(Schedule { gating: Some(slow), ..Schedule::default() });
    bench.run(5 * SECOND);
    let asked = bench.count("ATI");
    bench.fake.says(bench.now.after(MILLIS), b"\rACT ALERT\r\r>");
    bench.run(SECOND);
    assert_eq!(bench.count("ATI"), asked + 1);
    bench.fake.says(bench.now.after(MILLIS), b"\rLP ALERT\r");
    bench.run(10 * SECOND);
    assert_eq!(bench.words(), ["found", "connected", "reset sleep", "connected"]);
}

#[test]
fn f36_lines_of_another_program_on_the_port_end_in_a_resync() {
    let mut bench = reading();
    bench.fake.says(bench.now.after(100 * MILLIS), b"AT+CGMI\r?\r\r>");
    let since = bench.now;
    bench.run(6 * SECOND);
    assert!(bench.driver.counts().surplus >= 1);
    still_reads(&bench, since.after(2 * SECOND));
}

#[test]
fn a_vehicle_that_falls_silent_is_said_to_be_and_is_found_again() {
    let mut bench = reading();
    let units = std::mem::take(&mut bench.fake.units);
    bench.run(30 * SECOND);
    let words = bench.words();
    assert!(words.iter().filter(|word| *word == "silent no-data").count() >= 2, "{words:?}");
    bench.fake.units = units;
    let since = bench.now;
    bench.run(15 * SECOND);
    assert_eq!(bench.words().last().unwrap(), "connected");
    still_reads(&bench, since.after(11 * SECOND));
}

#[test]
fn an_adapter_that_stops_answering_is_lost_after_every_attempt() {
    let mut bench = reading();
    bench.twist(|_, _, _| Some(Vec::new()));
    bench.run(60 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer timed-out", "lost silent"]);
    let tried: Vec<_> = bench.sent.iter().rev().take(7).map(|(_, line)| line.as_str()).collect();
    assert_eq!(tried, ["ATZ", "ATWS", "ATZ", "ATWS", "ATI", "ATI", ""], "the ladder, from its end");
    only_true_values(&bench);
}

#[test]
fn a_search_after_reading_one_unit_asks_everybody_again() {
    let mut bench = reading();
    instead(&mut bench, "221940", 1, "UNABLE TO CONNECT\r\r>");
    bench.run(10 * SECOND);
    assert_eq!(bench.words()[2..], ["no-answer no-protocol", "silent no-protocol", "connected"]);
    let last = bench.told.iter().rev().find_map(|(_, outcome)| match outcome {
        Outcome::Connected { control_units, .. } => Some(control_units.len()),
        _ => None,
    });
    assert_eq!(last, Some(2), "no header or filter of before is left");
}

#[test]
fn an_adapter_that_says_everything_twice_is_read_all_the_same() {
    let mut bench = reading();
    bench.twist(|line, _, _| {
        let twice = |text: &str| vec![(20, format!("{text}\r\r>{text}\r\r>").into_bytes())];
        match line {
            "221940" => Some(twice("7E9056219405500")),
            "0105" => Some(twice("7E80341057B")),
            "010C" => Some(twice("7E804410C1AF8")),
            _ => None,
        }
    });
    let since = bench.now;
    bench.run(30 * SECOND);
    still_reads(&bench, since.after(20 * SECOND));
    assert!(bench.driver.counts().resyncs <= 3, "{:?}", bench.driver.counts());
}

#[test]
fn an_echo_that_comes_back_again_and_again_becomes_a_quirk_and_not_a_reset_for_ever() {
    let mut bench = reading();
    bench.twist(|line, _, flags| {
        flags.echo |= line.starts_with("22");
        None
    });
    let since = bench.now;
    bench.run(30 * SECOND);
    let words = bench.words();
    assert_eq!(words.iter().filter(|word| *word == "reset form").count(), 3, "{words:?}");
    assert!(words.contains(&"quirk echo-stuck".to_owned()), "{words:?}");
    still_reads(&bench, since.after(15 * SECOND));
}

proptest! {
    /// Any of the faults, anywhere, one after another.
    #[test]
    fn no_mixture_of_faults_makes_a_wrong_value(
        faults in proptest::collection::vec((0_usize..14, 0_usize..60), 1..12),
        piece in 0_usize..4,
    ) {
        const TEXTS: [&str; 14] = [
            "NO DATA\r\r>", "STOPPED\r\r>", "7E80541057B\r\r>", "7E804410C1AF8\r\r>", "", ">", "\r\r>", "OK\r\r>", "ELM327 v2.1\r\r>",
            "7E8034105", "BUFFER FULL\r\r>", "7E9037F2278\r\r>", "?\r\r>", "CAN ERROR\r\r>",
        ];
        let mut bench = Bench::new(Schedule { gating: Some(fluid()), others: vec![coolant(), speed()], ..Schedule::default() });
        bench.fake.piece = piece;
        let mut seen = 0;
        bench.twist(move |line, _, _| {
            seen += 1;
            let text = faults.iter().find(|(_, at)| *at == seen).map(|(fault, _)| TEXTS[*fault].as_bytes().to_vec());
            // A search that gets no prompt takes its 30 s: nothing wrong, but too long for this story.
            text.filter(|text| line != "0100" || text.len() > 3 && text.ends_with(b">")).map(|text| vec![(30, text)])
        });
        bench.run(90 * SECOND);
        only_true_values(&bench);
        let gone = bench.words().last().is_some_and(|word| word.starts_with("lost") || word.starts_with("not-an"));
        if !gone {
            still_reads(&bench, Mono::from_secs(70));
        }
    }
}
