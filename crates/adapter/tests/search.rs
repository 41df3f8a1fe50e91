//! Stories of looking for the vehicle: what is tried, in which order, and what is told of it.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::time::Duration;

use adapter::{Command, Outcome, Protocol, Schedule, Setup};
use bench::{Bench, say};
use units::Mono;

const SECOND: Duration = Duration::from_secs(1);
const NOBODY: &str = "UNABLE TO CONNECT\r\r>";

/// The protocols that were chosen, in their order: numbers, or 0 for a search of the adapter's own.
fn chosen(bench: &Bench) -> String {
    let number = |(_, line): &(Mono, String)| match line.as_str() {
        "ATSP0" => Some('0'),
        line => line.strip_prefix("ATTP").and_then(|number| number.chars().next()),
    };
    bench.sent.iter().filter_map(number).collect()
}

/// A vehicle that answers on the protocol of this number only.
fn answers_on(bench: &mut Bench, number: char) {
    bench.fake.number = number;
    bench.twist(
        move |line, _, flags| if line == "0100" && flags.protocol != number { say(NOBODY) } else { None },
    );
}

fn tried(bench: &Bench) -> Vec<(bool, Vec<u8>)> {
    let tried = bench.told.iter().filter_map(|(_, outcome)| match outcome {
        Outcome::VehicleSilent { tried, .. } => {
            Some((tried.search, tried.named().map(Protocol::number).collect()))
        }
        _ => None,
    });
    tried.collect()
}

#[test]
fn a_protocol_is_looked_for_by_name_after_a_search_that_found_none() {
    let mut bench = Bench::with_coolant();
    answers_on(&mut bench, '8');
    bench.run(10 * SECOND);
    assert_eq!(bench.words(), ["found", "connected"], "no pause in between");
    assert_eq!(chosen(&bench), "0678");
    assert!(bench.answers().len() > 5);
}

#[test]
fn all_nine_are_tried_by_name_after_the_first_search_and_then_after_every_third() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| if line == "0100" { say(NOBODY) } else { None });
    bench.run(60 * SECOND);
    let round = "678954321";
    let all = chosen(&bench);
    assert!(all.starts_with(&format!("0{round}000{round}00")), "{all}");
    assert_eq!(tried(&bench)[0], (true, vec![1, 2, 3, 4, 5, 6, 7, 8, 9]));
    // 5 s, 5 s, then 10 s between attempts: with the ignition off nothing is worn out.
    let attempts: Vec<_> = bench
        .told
        .iter()
        .filter_map(|(_, outcome)| match outcome {
            Outcome::VehicleSilent { attempt, retry_in, .. } => Some((*attempt, retry_in.as_secs())),
            _ => None,
        })
        .collect();
    assert_eq!(attempts[..4], [(1, 5), (2, 5), (3, 10), (4, 10)]);
    // An adapter that may hold something that no warm start clears is reset at every fourth.
    assert!(bench.count("ATZ") >= 1, "{:?}", bench.sent);
}

#[test]
fn what_was_tried_is_told_until_the_vehicle_answers_and_then_begins_anew() {
    let mut bench = Bench::with_coolant();
    // Silent for the first round, then there, then gone.
    bench.twist(|line, before, _| {
        let gone = (line == "0100" && before != 10) || (line == "0105" && before > 5);
        gone.then(|| say(NOBODY)).flatten()
    });
    bench.run(40 * SECOND);
    let all = tried(&bench);
    assert_eq!(all[0], (true, (1..=9).collect::<Vec<u8>>()));
    assert_eq!(all[1], (false, vec![]), "it answered in between: {:?}", bench.words());
    assert_eq!(
        all[2],
        (true, (1..=9).collect::<Vec<u8>>()),
        "its own search first: the known one was just asked"
    );
}

#[test]
fn what_was_tried_is_kept_from_attempt_to_attempt_and_over_a_link_that_was_lost() {
    let all = (true, (1..=9).collect::<Vec<u8>>());
    let mut bench = Bench::with_coolant();
    bench.driver.remember(Protocol::Can29Slow);
    bench.twist(|line, _, _| if line == "0100" { say(NOBODY) } else { None });
    bench.run(30 * SECOND);
    // The known one, the adapter's own search with all by name, the known one again.
    assert_eq!(tried(&bench)[..3], [(false, vec![9]), all.clone(), all.clone()], "{}", chosen(&bench));
    let before = tried(&bench).len();
    bench.driver.handle_closed(bench.now);
    bench.settle();
    bench.driver.handle_opened(bench.now);
    bench.run(5 * SECOND);
    assert_eq!(chosen(&bench).chars().last(), Some('9'), "the known one first on a new link");
    assert_eq!(tried(&bench)[before], all, "and what was tried before it is still told");
}

#[test]
fn the_bus_that_was_read_is_told_and_after_a_silence_the_set_up_is_done_again() {
    let mut bench = Bench::new(Schedule { gating: Some(bench::fluid()), ..Schedule::default() });
    bench.run(3 * SECOND);
    assert_eq!(bench.driver.protocol(), Some(Protocol::Can11Fast));
    assert!(bench.count("ATSH7E1") > 0, "a header is set: {:?}", bench.sent);
    let (before, set_up) = (bench.sent.len(), bench.count("ATH1"));
    bench.twist(|line, before, _| {
        let gone = line == "221940" || (line == "0100" && before < 3);
        gone.then(|| say(NOBODY)).flatten()
    });
    bench.run(60 * SECOND);
    assert!(bench.words().iter().any(|told| told.starts_with("silent")), "{:?}", bench.words());
    assert!(
        bench.count("ATH1") > set_up,
        "a header or a filter may be left over: {:?}",
        &bench.sent[before..]
    );
}

#[test]
fn a_prompt_that_is_missing_after_the_adapters_own_word_is_not_the_vehicles_silence() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, before, flags| {
        let lost = line == "ATSP0" && before == 0;
        lost.then(|| {
            flags.protocol = '0';
            say("OK\r")
        })
        .flatten()
    });
    bench.run(30 * SECOND);
    assert_eq!(chosen(&bench), "00", "the same again: {:?}", bench.sent);
    assert_eq!(bench.words().iter().filter(|word| *word == "connected").count(), 1, "{:?}", bench.words());
    // So is one behind an answer of the vehicle; nothing at all is its silence.
    for (text, want) in [("7E8064100BE3FA813\r", "0"), ("\r", "06")] {
        let mut bench = Bench::with_coolant();
        bench.twist(move |line, before, _| if line == "0100" && before == 0 { say(text) } else { None });
        bench.run(90 * SECOND);
        assert!(bench.words().contains(&"connected".to_owned()), "{text:?}: {:?}", bench.words());
        let first: String = chosen(&bench).chars().take(2).collect();
        assert_eq!(first, want, "{text:?}: {:?}", bench.sent);
    }
}

#[test]
fn an_answer_that_stays_spoilt_under_a_name_ends_the_attempt() {
    let mut bench = Bench::with_coolant();
    // One byte short of the length that it names itself.
    bench.twist(|line, _, flags| match (line, flags.protocol) {
        ("0100", '6') => say("7E8064100BE3FA8\r\r>"),
        ("0100", _) => say(NOBODY),
        _ => None,
    });
    bench.run(4 * SECOND);
    assert_eq!(chosen(&bench), "06", "somebody answers here: no other name is tried");
    assert_eq!(bench.words()[..2], ["found", "silent malformed"], "{:?}", bench.words());
}

#[test]
fn a_remembered_protocol_that_is_refused_is_searched_for() {
    let mut bench = Bench::with_coolant();
    bench.driver.remember(Protocol::Can29Slow);
    bench.twist(|line, _, _| if line == "ATTP9" { say("?\r\r>") } else { None });
    bench.run(5 * SECOND);
    assert_eq!(chosen(&bench), "90");
    assert_eq!(bench.words(), ["found", "connected"]);
}

#[test]
fn a_search_that_ends_the_connection_twice_is_replaced_by_names() {
    let mut bench = Bench::with_coolant();
    bench.twist(
        |line, _, flags| if line == "0100" && flags.protocol == '0' { Some(Vec::new()) } else { None },
    );
    for _ in 0..2 {
        bench.run(2 * SECOND);
        assert_eq!(bench.sent.last().unwrap().1, "0100", "{:?}", bench.sent);
        bench.driver.handle_closed(bench.now);
        bench.settle();
        bench.driver.handle_opened(bench.now);
    }
    let named = bench.told.iter().any(|(_, told)| {
        matches!(told, Outcome::Avoided { command: Command::Set(Setup::Search), header: None })
    });
    assert!(named, "{:?}", bench.told);
    bench.run(5 * SECOND);
    assert_eq!(chosen(&bench), "006");
    assert_eq!(bench.words().last().unwrap(), "connected");
}

#[test]
fn a_reply_that_belongs_to_a_word_said_before_is_no_answer_of_the_vehicle() {
    for word in ["OK\r\r>", "12.6V\r\r>"] {
        let mut bench = Bench::with_coolant();
        bench.twist(move |line, before, _| if line == "0100" && before == 0 { say(word) } else { None });
        bench.run(8 * SECOND);
        assert_eq!(bench.words(), ["found", "connected"], "{word}");
        assert_eq!(chosen(&bench), "00", "{word}: the same again, no other protocol");
        // The third time it is taken for what it is.
        let mut bench = Bench::with_coolant();
        bench.twist(move |line, _, _| if line == "0100" { say(word) } else { None });
        bench.run(60 * SECOND);
        assert!(bench.words().iter().any(|told| told.starts_with("silent")), "{word}: {:?}", bench.words());
        assert_eq!(&chosen(&bench)[..6], "000006", "{word}: four times more, then by name");
    }
}

#[test]
fn only_refusals_are_no_answer_and_are_said_to_be() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| if line == "0100" { say("7E8037F0112\r\r>") } else { None });
    bench.run(5 * SECOND);
    assert_eq!(bench.words()[..2], ["found", "silent only-refusals"], "{:?}", bench.words());
}

#[test]
fn a_number_that_is_not_told_is_asked_for_once_more_and_then_done_without() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| if line == "ATDPN" { say("?\r\r>") } else { None });
    bench.run(5 * SECOND);
    assert_eq!(bench.count("ATDPN"), 2);
    let bus = bench.told.iter().find_map(|(_, outcome)| match outcome {
        Outcome::Connected { protocol, bus, control_units } => Some((*protocol, *bus, control_units.len())),
        _ => None,
    });
    assert_eq!(bus, Some((None, Some(frames::Bus::Can11), 2)), "the form of the lines says it");
    // A number of another bus is a claim like others.
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| if line == "ATDPN" { say("A5\r\r>") } else { None });
    bench.run(5 * SECOND);
    assert_eq!(bench.words()[..2], ["found", "connected"]);
    assert!(bench.answers().len() > 3);
}

#[test]
fn where_only_the_transmission_is_heard_a_reset_is_tried_once() {
    let mut bench = Bench::with_coolant();
    bench.twist(|line, _, _| if line == "0100" { say("7E906410098188001\r\r>") } else { None });
    bench.run(10 * SECOND);
    assert_eq!(bench.count("ATZ"), 1, "and no more: this is how the vehicle is");
    assert_eq!(bench.words().iter().filter(|word| *word == "connected").count(), 1);
    let mut bench = Bench::with_coolant();
    bench.run(10 * SECOND);
    assert_eq!(bench.count("ATZ"), 0, "the engine's own was heard");
}
