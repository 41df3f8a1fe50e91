use frames::{Ask, Bus};

use super::*;

/// Plays `seconds` on a line where each request takes 50 ms; what was asked, one letter each.
fn asked(schedule: Schedule, seconds: u64, silent: Option<Slot>) -> String {
    let mut polls = Polls::new(schedule);
    polls.start(Some(Bus::Can11), Silent::Forgiven, Mono::ZERO);
    let (mut now, mut letters) = (Mono::ZERO, String::new());
    while now < Mono::from_secs(seconds) {
        match polls.choose(now) {
            Choice::Wait(until) => {
                now = until.unwrap_or(Mono::from_secs(seconds)).max(now.after(Duration::from_millis(1)))
            }
            Choice::Voltage => polls.voltage_left(now),
            Choice::Ask(slot) => {
                let poll = polls.poll(slot).unwrap_or(Poll::new(Ask::Current(0), Duration::ZERO));
                polls.left(slot, poll.header, Turn::Own, now);
                now = now.after(Duration::from_millis(50));
                if silent == Some(slot) {
                    polls.silent(slot, now);
                } else {
                    polls.answered(slot);
                }
                letters.push(match slot {
                    Slot::Gating => 'G',
                    Slot::Once(_) => '1',
                    Slot::Other(at) => char::from(b'a' + at as u8),
                    Slot::Aside => '+',
                    Slot::Presence => '?',
                });
            }
        }
    }
    letters
}

fn every(millis: u64) -> Poll {
    Poll::new(Ask::Current(0x05), Duration::from_millis(millis))
}

#[test]
fn whose_turn_it_is() {
    let with = |gating, others, once| Schedule { gating: Some(gating), others, once, floor: Duration::ZERO };
    let cases: &[(&str, Schedule, &str)] = &[
        (
            "once and others between the gating ones",
            with(every(0), vec![every(900)], vec![every(0); 2]),
            "G1G1GaGGGGGGGGGGGG",
        ),
        ("others in what is left", with(every(500), vec![every(0)], vec![]), "GaaaaaaaaaGaaaaaaaaa"),
        (
            "the most overdue first, and of two the one that waited longer",
            with(every(100), vec![every(300), every(400)], vec![]),
            "GaGbGGaGGbGaGGGb",
        ),
    ];
    for (what, schedule, want) in cases {
        assert!(
            asked(schedule.clone(), 1, None).starts_with(want),
            "{what}: {}",
            asked(schedule.clone(), 1, None)
        );
    }
}

#[test]
fn those_of_one_address_go_together_and_nobody_waits_for_ever() {
    let to = |poll: Poll| poll.to(Header::parse("7E1").unwrap());
    let cases: &[(&str, Schedule, &str)] = &[
        (
            "the ones nearly due with the one that is: one change of address a second",
            Schedule {
                gating: Some(to(every(500))),
                others: vec![every(1_000), every(1_300), every(1_100)],
                ..Schedule::default()
            },
            "GabcGGacbGGacbGGacbG",
        ),
        (
            "one that waits at another address is not forgotten",
            Schedule { others: vec![every(100), every(120), to(every(400))], ..Schedule::default() },
            "abacbababab",
        ),
    ];
    for (what, schedule, want) in cases {
        let letters = asked(schedule.clone(), 4, None);
        assert!(letters.starts_with(want), "{what}: {letters}");
    }
    let busy = Schedule { others: vec![every(0), to(every(400))], ..Schedule::default() };
    let letters = asked(busy, 20, None);
    let served = letters.chars().filter(|letter| *letter == 'b').count();
    assert!(served >= 12, "{served}: at least every 1.4 s: {letters}");
}

#[test]
fn what_is_silent_is_asked_seldom_and_does_not_slow_the_gating_one() {
    let schedule = || Schedule {
        gating: Some(every(500)),
        others: vec![every(500)],
        once: Vec::new(),
        floor: Duration::ZERO,
    };
    let count = |letters: &str, letter| letters.chars().filter(|c| *c == letter).count();
    let quiet = asked(schedule(), 60, Some(Slot::Other(0)));
    assert_eq!(count(&quiet, 'a'), 3 + 5, "three tries, then every 10 s");
    assert!((117..=120).contains(&count(&quiet, 'G')), "{}", count(&quiet, 'G'));
    let quiet = asked(schedule(), 60, Some(Slot::Gating));
    assert!((117..=120).contains(&count(&quiet, 'a')), "{}", count(&quiet, 'a'));
    assert!((30..=33).contains(&count(&quiet, 'G')), "{}", count(&quiet, 'G'));
}

#[test]
fn the_third_failure_of_one_kind_makes_all_wait_and_an_answer_ends_it() {
    let mut polls = Polls::new(Schedule { gating: Some(every(0)), ..Schedule::default() });
    let now = Mono::from_secs(100);
    polls.start(Some(Bus::Can11), Silent::Forgiven, now);
    let waits = ["bus", "bus", "adapter", "bus", "bus", "bus", "bus", "bus", "bus", "bus"].map(|kind| {
        polls.back_off(kind, now);
        polls.not_before.since(now).as_secs()
    });
    assert_eq!(waits, [0, 0, 0, 0, 0, 1, 2, 5, 10, 10]);
    polls.answered(Slot::Gating);
    polls.not_before = now;
    polls.back_off("bus", now);
    assert_eq!(polls.not_before, now);
}

#[test]
fn a_silence_is_forgiven_on_a_new_link_but_where_asking_costs_a_search() {
    for (silent, waits) in [(Silent::Forgiven, false), (Silent::Kept, true)] {
        let mut polls = Polls::new(Schedule { others: vec![every(500)], ..Schedule::default() });
        let slot = Slot::Other(0);
        polls.start(Some(Bus::Can11), silent, Mono::ZERO);
        for _ in 0..SILENT {
            polls.silent(slot, Mono::from_secs(1));
        }
        let again = Mono::from_secs(2);
        polls.start(Some(Bus::Can11), silent, again);
        let asked = matches!(polls.choose(again), Choice::Ask(at) if at == slot);
        assert_eq!(asked, !waits, "{silent:?}");
    }
}

#[test]
fn who_asked_for_more_time_is_awaited_longer_until_it_has_been_quick_as_often() {
    let mut polls = Polls::new(Schedule { gating: Some(every(500)), ..Schedule::default() });
    assert!(!polls.is_slow(Slot::Gating), "nobody asked for time");
    polls.was_pending(Slot::Gating);
    assert!(polls.is_slow(Slot::Gating));
    let quick = (1..=20).find(|_| {
        polls.was_quick(Slot::Gating);
        !polls.is_slow(Slot::Gating)
    });
    assert_eq!(quick, Some(i32::from(SLOW)));
    assert!(!polls.is_slow(Slot::Other(0)), "a request that is none");
}

#[test]
fn what_is_asked_beside_the_schedule_waits_for_the_gating_request_and_starves_nobody() {
    let play = |schedule: Schedule, seconds: u64| {
        let mut polls = Polls::new(schedule);
        polls.start(Some(Bus::Can11), Silent::Forgiven, Mono::ZERO);
        let (mut now, mut letters) = (Mono::ZERO, String::new());
        while now < Mono::from_secs(seconds) {
            polls.set_aside(every(0));
            match polls.choose(now) {
                Choice::Wait(_) => break,
                Choice::Voltage => polls.voltage_left(now),
                Choice::Ask(slot) => {
                    polls.left(slot, None, Turn::Own, now);
                    now = now.after(Duration::from_millis(50));
                    polls.answered(slot);
                    letters.push(match slot {
                        Slot::Gating => 'G',
                        Slot::Aside => '+',
                        _ => 'a',
                    });
                }
            }
        }
        letters
    };
    let none = Schedule { others: vec![every(100)], ..Schedule::default() };
    assert_eq!(play(none, 1), "++++++++a++++++++a++", "eight, then one of the others that is due");
    let gated = Schedule { gating: Some(every(0)), ..Schedule::default() };
    assert_eq!(play(gated, 1), "G+G+G+G+G+G+G+G+G+G+", "each second turn stays the gating one's");
    let gated = Schedule { gating: Some(every(500)), others: vec![every(10)], ..Schedule::default() };
    assert_eq!(play(gated, 1), "G++++++++aG++++++++a");
}

#[test]
fn one_at_a_time_is_asked_beside_the_schedule_and_it_is_over_whatever_became_of_it() {
    type Ends = fn(&mut Polls);
    let ends: [(&str, Ends); 5] = [
        ("answered", |polls| polls.answered(Slot::Aside)),
        ("refused by the unit", |polls| polls.over(Slot::Aside)),
        ("silent", |polls| assert!(!polls.silent(Slot::Aside, Mono::ZERO))),
        ("its address refused", |polls| polls.refused(Slot::Aside, Mono::ZERO)),
        ("not addressable", |polls| polls.bar(Slot::Aside)),
    ];
    for (what, end) in ends {
        let mut polls = Polls::new(Schedule::default());
        polls.start(Some(Bus::Can11), Silent::Forgiven, Mono::ZERO);
        assert!(polls.set_aside(every(0)) && !polls.set_aside(every(1)), "{what}: one at a time");
        polls.start(Some(Bus::Can11), Silent::Forgiven, Mono::from_secs(9));
        assert!(polls.has_aside(), "{what}: a new connection keeps it");
        end(&mut polls);
        assert!(!polls.has_aside() && polls.set_aside(every(2)), "{what}");
    }
}
