use super::*;

fn at(header: &str, service: Service, id: u16) -> Place {
    Place { header: header.parse().unwrap(), service, id }
}

/// Asks until it is done or stands; what was asked.
fn run(search: &mut Search, answer: impl Fn(Place) -> Answer) -> Vec<Ask> {
    let mut now = Mono::ZERO;
    let mut asked = Vec::new();
    while let Some(at) = search.poll_timeout() {
        now = now.max(at);
        let Some(ask) = search.ask(now) else { break };
        now = now.after(Duration::from_millis(20));
        // Nobody listens at the other usual addresses.
        if ask.place.header == "7E1".parse().unwrap() {
            asked.push(ask);
            search.hear(answer(ask.place), now);
        } else {
            search.hear(Answer::Silence, now);
        }
    }
    asked
}

fn unit() -> Search {
    Search::new(Bus::Can11, &["7E1".parse().unwrap()])
}

#[test]
fn a_block_is_found_by_a_sample_and_asked_whole() {
    let mut search = unit();
    let block = 0x4CF8..=0x4D20;
    let asked = run(&mut search, |place| match place.service {
        Service::Identifier if block.contains(&place.id) => Answer::Data(vec![0x3C]),
        Service::Identifier => Answer::Refused(0x31),
        _ => Answer::Refused(0x11),
    });
    let readable: Vec<Place> = search.readable().collect();
    assert_eq!(readable.len(), 0x29);
    assert!(asked.len() < 4_500, "{}", asked.len());
    let mut places: Vec<Place> = asked.iter().map(|ask| ask.place).collect();
    places.sort();
    places.dedup();
    assert_eq!(places.len(), asked.len(), "nothing is asked twice");
    assert!(search.is_done());
}

#[test]
fn refusals_are_heeded_as_the_reference_says() {
    let cases: &[(&str, u8, usize)] = &[
        // What every request but the first is refused with: code, how many are made at most.
        ("the service is not there", 0x11, 8),
        ("not in this session", 0x7F, 8),
        ("it gives up on each", 0x10, 40),
    ];
    for (what, code, most) in cases {
        let mut search = unit();
        let asked = run(&mut search, |_| Answer::Refused(*code));
        assert!(asked.len() <= *most, "{what}: {}", asked.len());
        assert!(search.is_done(), "{what}");
    }
}

#[test]
fn a_silent_unit_is_left_alone_soon() {
    let mut search = Search::new(Bus::Can11, &[]);
    run(&mut search, |_| Answer::Silence);
    let asked = search.progress().asked;
    assert!(asked <= 8 * 12, "{asked}");
}

#[test]
fn what_is_locked_is_counted_and_never_asked_again() {
    let mut search = unit();
    let asked = run(&mut search, |place| match (place.service, place.id) {
        (Service::Identifier, 0x1000) => Answer::Refused(0x33),
        (Service::Identifier, _) => Answer::Refused(0x31),
        _ => Answer::Refused(0x11),
    });
    assert_eq!(search.progress().locked, 1);
    assert_eq!(asked.iter().filter(|ask| ask.place == at("7E1", Service::Identifier, 0x1000)).count(), 1);
    assert!(search.places().is_empty());
}

#[test]
fn a_low_battery_and_an_odd_answer_stop_it() {
    let mut search = unit();
    search.volts(11_400);
    assert_eq!(search.halted(), Some(Halt::LowBattery { millivolts: 11_400 }));
    assert_eq!((search.ask(Mono::from_secs(9)), search.poll_timeout()), (None, None));
    search.go_on();
    assert!(search.halted().is_some(), "it is still low");
    search.volts(12_300);
    search.go_on();
    assert_eq!(search.halted(), None);
    run(&mut search, |_| Answer::Unexpected);
    assert!(matches!(search.halted(), Some(Halt::Unexpected { .. })), "{:?}", search.halted());
}

#[test]
fn a_search_that_was_interrupted_asks_the_same_as_one_that_was_not() {
    let answer = |place: Place| match (place.service, place.id) {
        (Service::Identifier, 0x2100..=0x2140) => Answer::Data(vec![place.id as u8]),
        (Service::Identifier, _) => Answer::Refused(0x31),
        _ => Answer::Refused(0x11),
    };
    let mut whole = unit();
    let all = run(&mut whole, answer);
    let mut cut = unit();
    let mut now = Mono::ZERO;
    let mut asked = Vec::new();
    while let Some(at) = cut.poll_timeout() {
        now = now.max(at);
        let ask = cut.ask(now).unwrap();
        now = now.after(Duration::from_millis(20));
        if ask.place.header == "7E1".parse().unwrap() {
            asked.push(ask);
            cut.hear(answer(ask.place), now);
        } else {
            cut.hear(Answer::Silence, now);
        }
        if asked.len().is_multiple_of(97) {
            let written = serde_json::to_string(&cut).unwrap();
            cut = serde_json::from_str(&written).unwrap();
            cut.resumed();
            now = Mono::ZERO;
        }
    }
    assert_eq!(asked, all);
    assert_eq!(cut.readable().collect::<Vec<_>>(), whole.readable().collect::<Vec<_>>());
}
