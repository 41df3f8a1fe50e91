use super::*;
use crate::place::Service;

fn place(id: u16) -> Place {
    Place { header: "7E1".parse().unwrap(), service: Service::Identifier, id }
}

/// When a thermometer was read, and how far it was off.
type Spots = &'static [(u64, f64)];

const FLUID: u16 = 0x4D07;
const COOLANT: u16 = 0x4D08;
const COUNTER: u16 = 0x4D09;
const TARGET: u16 = 0x4D0A;
/// The engine starts after so many seconds.
const START_S: f64 = 120.0;

/// The coolant, and the fluid: it warms a little by itself and follows the coolant, both to their ends.
fn true_celsius(second: f64) -> (f64, f64) {
    let run = (second - START_S).max(0.0);
    let coolant = 20.0 + 65.0 * (1.0 - (-run / 500.0).exp());
    let fluid = 20.0 + 40.0 * (1.0 - (-run / 900.0).exp() * (1.0 + run / 900.0));
    (coolant, fluid)
}

/// A warm-up up to so many seconds, with a thermometer's readings (second, how far it is off).
fn watched(until: u64, spots: &[(u64, f64)]) -> Watch {
    let places = [FLUID, COOLANT, COUNTER, TARGET].map(|id| (place(id), Vec::new()));
    let mut watch = Watch::new(&places, &Soak::default());
    watch.woke(Watch::KEY_OFF, Mono::ZERO);
    for second in 0..until {
        let (coolant, fluid) = true_celsius(second as f64);
        let now = Mono::from_secs(second);
        let speed = if second as f64 >= START_S { 800.0 } else { 0.0 };
        watch.reference(Quantity::EngineSpeed, speed, now);
        if second.is_multiple_of(5) {
            watch.reference(Quantity::CoolantTemperature, coolant.round(), now);
            watch.reference(Quantity::IntakeAirTemperature, 20.0, now);
            watch.reference(Quantity::AmbientAirTemperature, 21.0, now);
            watch.raw(place(FLUID), &[0x11, (fluid + 40.0).round() as u8], now);
            watch.raw(place(COOLANT), &[(coolant + 40.0).round() as u8], now);
            watch.raw(place(COUNTER), &[(second / 4) as u8], now);
            watch.raw(place(TARGET), &[60], now);
        }
        if let Some((_, off)) = spots.iter().find(|(at, _)| *at == second) {
            watch.spot(Celsius::clamped(fluid + off), Kelvins::clamped(1.0), now);
        }
    }
    watch
}

fn fluid() -> Hypothesis {
    Hypothesis { place: place(FLUID), byte: 1, encoding: Encoding::A40 }
}

#[test]
fn nothing_is_said_before_anything_was_seen() {
    let watch = Watch::new(&[], &Soak::default());
    assert_eq!(watch.outcome(), Outcome::NotYet);
    assert!(watch.standing().is_empty());
    assert_eq!(watch.settles(), Settles::ColdSoak);
}

#[test]
fn the_key_is_asked_for_once_and_whoever_leaves_it_goes_on() {
    let mut watch = Watch::new(&[], &Soak::default());
    let tell = |watch: &mut Watch, second| {
        watch.reference(Quantity::CoolantTemperature, 20.0, Mono::from_secs(second));
        watch.settles()
    };
    assert_eq!(tell(&mut watch, 0), Settles::KeyOff);
    let mut left = watch.clone();
    assert_eq!(tell(&mut left, 179), Settles::KeyOff);
    assert_eq!(tell(&mut left, 180), Settles::Start, "nobody turned it");
    watch.silent();
    assert_eq!(tell(&mut watch, 400), Settles::KeyOff, "it is off");
    watch.woke(Duration::from_secs(300), Mono::from_secs(420));
    assert_eq!(tell(&mut watch, 421), Settles::KeyOff, "not for long enough");
    watch.silent();
    watch.woke(Watch::KEY_OFF, Mono::from_secs(1_100));
    assert_eq!(tell(&mut watch, 1_200), Settles::Wait);
    assert_eq!(tell(&mut watch, 1_280), Settles::Start);
}

#[test]
fn what_would_settle_most_follows_the_warm_up() {
    let cases: &[(&str, u64, Spots, Settles)] = &[
        ("soaked, the key was off, a board has not warmed yet", 100, &[], Settles::Wait),
        ("it has hardly warmed", 160, &[], Settles::Warm),
        ("warm, never measured", 900, &[], Settles::Spot),
        ("measured a moment ago", 910, &[(900, 0.0)], Settles::Warm),
        ("measured twice, not warm enough", 1_500, &[(600, 0.5), (1_100, -0.5)], Settles::Warm),
        ("measured twice", 2_400, &[(600, 0.5), (1_100, -0.5)], Settles::Confirm),
    ];
    for (what, until, spots, want) in cases {
        assert_eq!(watched(*until, spots).settles(), *want, "{what}");
    }
}

#[test]
fn the_fluid_is_first_and_its_look_alikes_are_not_left() {
    let watch = watched(1_500, &[(600, 0.5), (1_100, -0.5)]);
    let standing = watch.standing();
    assert_eq!(standing.first().unwrap().hypothesis, fluid(), "{standing:#?}");
    assert!(standing.first().unwrap().score > 0.95, "{standing:#?}");
    let left: Vec<Place> =
        standing.iter().filter(|one| one.score > 0.05).map(|one| one.hypothesis.place).collect();
    assert_eq!(left, [place(FLUID)]);
}

#[test]
fn nothing_is_confirmed_without_a_person_and_a_thermometer_that_agrees() {
    let agreeing: Spots = &[(600, 0.5), (1_100, -0.5)];
    let coolant = Hypothesis { place: place(COOLANT), byte: 0, encoding: Encoding::A40 };
    let cases: &[(&str, Spots, Option<Hypothesis>, bool)] = &[
        ("a person and two readings", agreeing, Some(fluid()), true),
        ("no person", agreeing, None, false),
        ("no thermometer", &[], Some(fluid()), false),
        ("one reading", &[(900, 0.0)], Some(fluid()), false),
        ("a reading that does not agree", &[(600, 0.0), (1_100, 9.0)], Some(fluid()), false),
        ("both off the same way", &[(600, 2.8), (1_100, 2.8)], Some(fluid()), false),
        ("a person who means another one", agreeing, Some(coolant), false),
    ];
    for (what, spots, said, want) in cases {
        let mut watch = watched(2_400, spots);
        watch.confirm(*said);
        assert_eq!(watch.outcome() == Outcome::Confirmed(fluid()), *want, "{what}: {:?}", watch.outcome());
    }
}

/// What a control unit's board says: colder than the case while the key is off, then warmer by so much, a minute later than the fluid.
fn board(second: f64, own_k: f64) -> f64 {
    true_celsius((second - 60.0).max(0.0)).1 + own_k * (1.0 - (-second / 60.0).exp())
}

#[test]
fn a_board_is_told_from_the_fluid_by_the_key_alone() {
    for (own_k, key, want) in [(2.0, true, false), (0.0, true, true), (0.0, false, false)] {
        let places = [FLUID, COOLANT].map(|id| (place(id), Vec::new()));
        let mut watch = Watch::new(&places, &Soak::default());
        if key {
            watch.woke(Watch::KEY_OFF, Mono::ZERO);
        }
        for second in (0..2_400_u64).step_by(5) {
            let (now, s) = (Mono::from_secs(second), second as f64);
            watch.reference(Quantity::EngineSpeed, if s >= START_S { 800.0 } else { 0.0 }, now);
            watch.reference(Quantity::CoolantTemperature, true_celsius(s).0.round(), now);
            let says = if own_k > 0.0 { board(s, own_k) } else { true_celsius(s).1 };
            watch.raw(place(FLUID), &((says * 10.0).round() as u16).to_be_bytes(), now);
            if second == 1_100 || second == 2_000 {
                watch.spot(Celsius::clamped(true_celsius(s).1), Kelvins::clamped(1.0), now);
            }
        }
        let first = *watch.standing().first().unwrap();
        watch.confirm(Some(first.hypothesis));
        let confirmed = watch.outcome() == Outcome::Confirmed(first.hypothesis);
        assert_eq!(confirmed, want, "{own_k} {key}: {first:?} {:?}", watch.evidence(first.hypothesis));
    }
}

#[test]
fn a_watch_that_was_written_down_says_the_same() {
    let watch = watched(1_200, &[(600, 0.5)]);
    let written = serde_json::to_string(&watch).unwrap();
    let read: Watch = serde_json::from_str(&written).unwrap();
    assert_eq!(read.standing(), watch.standing());
    assert_eq!((read.settles(), read.outcome()), (watch.settles(), watch.outcome()));
}

#[test]
fn where_nothing_warms_nothing_is_found() {
    let mut watch = Watch::new(&[], &Soak::default());
    for second in (0..2_400).step_by(5) {
        let now = Mono::from_secs(second);
        let (coolant, _) = true_celsius(second as f64);
        watch.reference(Quantity::EngineSpeed, if second as f64 >= START_S { 800.0 } else { 0.0 }, now);
        watch.reference(Quantity::CoolantTemperature, coolant.round(), now);
        watch.raw(place(TARGET), &[60], now);
        watch.raw(place(COOLANT), &[(coolant + 40.0).round() as u8], now);
    }
    assert_eq!(watch.outcome(), Outcome::NotFound, "{:#?}", watch.standing());
    assert_eq!(watch.settles(), Settles::Nothing);
}

#[test]
fn everybody_has_a_turn_and_the_improbable_seldom() {
    let mut watch = watched(1_500, &[(600, 0.5), (1_100, -0.5)]);
    watch.tidy();
    let asked: Vec<Place> = (0..200).filter_map(|_| watch.ask()).collect();
    let often = |id| asked.iter().filter(|asked| **asked == place(id)).count();
    assert!(often(FLUID) > 4 * often(TARGET) && often(TARGET) > 0, "{} {}", often(FLUID), often(TARGET));
}
