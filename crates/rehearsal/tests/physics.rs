//! The world against the closed forms and anchors of the physics reference, and its conservation laws.

use fluid::thermal::{Nodes, TwoNode};
use proptest::prelude::*;
use rehearsal::sump::{Port, Shape, Sump};
use rehearsal::thermal::{Conditions, Engine, Gear, Heat, Path, Thermal};
use rehearsal::{Vehicle, World, embedded};
use units::Mono;

/// A sump at 40 °C with everything filled and `excess_ml` above the rim.
fn running_sump(excess_ml: f64) -> Sump {
    let sheet = embedded::six_speed(); // 0.060 m², bore 10 mm, rim 1.5 mm, length 60 mm, 29.6 mm²/s at 40 °C
    let mut sump = Sump::new(&sheet, Shape::of(&sheet));
    sump.use_circuit(1.0, Engine::Running);
    (0..6_000).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    let more = excess_ml - sump.excess_ml(40.0);
    sump.fill(more, 40.0);
    sump
}

#[test]
fn half_a_quart_too_much_thins_to_a_trickle_in_two_minutes() {
    // Physics reference, section 6 and table standpipe_trickle rows 1 and 3: 473.18 mL on 0.060 m², bore 10 mm,
    // rim 1.5 mm, 29.6 mm²/s: 60 mL/min after 49.06 s, 10 mL/min after 114.05 s with 43.96 mL left.
    let mut sump = running_sump(473.176_473);
    sump.set_check_port(Port::Open);
    let (mut at_60, mut at_10) = (None, None);
    for step in 1..3_000 {
        sump.advance(0.1, 40.0, Engine::Running, Path::Through);
        let seconds = f64::from(step) * 0.1;
        if sump.stream_ml_min() <= 60.0 {
            at_60.get_or_insert(seconds);
        }
        if sump.stream_ml_min() <= 10.0 {
            at_10 = Some(seconds);
            break;
        }
    }
    assert!((at_60.unwrap() - 49.06).abs() < 0.5, "{at_60:?}");
    assert!((at_10.unwrap() - 114.05).abs() < 0.7, "{at_10:?}");
    assert!((sump.excess_ml(40.0) - 43.96).abs() < 0.3, "{}", sump.excess_ml(40.0));
    assert!(
        sump.level_error_ml(40.0).abs() < 0.3,
        "closed now the level is right: {}",
        sump.level_error_ml(40.0)
    );
}

#[test]
fn warming_keeps_it_dripping_as_fast_as_the_fluid_grows() {
    // Physics reference, section 6: q = V * beta * dT/dt, 6.5 L at 1 °C/min and 0.00076 1/K gives 4.9 mL/min.
    let mut sump = running_sump(44.0);
    sump.set_check_port(Port::Open);
    let mut celsius = 38.0;
    for _ in 0..2_400 {
        celsius += 0.1 / 60.0;
        sump.advance(0.1, celsius, Engine::Running, Path::Through);
    }
    let drip = sump.stream_ml_min();
    assert!((drip - 4.94).abs() < 0.7, "{drip}");
}

#[test]
fn nose_up_by_a_degree_keeps_an_eighth_of_a_litre_back() {
    // Physics reference, section 3: 1° at 120 mm on 0.060 m² is 125.7 mL of fluid that stays in.
    let left_in = |pitch: f64| {
        let mut sump = running_sump(500.0);
        sump.stand(pitch, 0.0);
        sump.set_check_port(Port::Open);
        (0..1_200).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
        sump.level_error_ml(40.0)
    };
    let more = left_in(1.0) - left_in(0.0);
    assert!((more - 125.7).abs() < 3.0, "{more}");
}

#[test]
fn an_empty_cooler_leaves_the_level_low_by_its_share() {
    let sheet = embedded::eight_speed();
    let shape = Shape::of(&sheet);
    let set = |path| {
        let mut sump = Sump::new(&sheet, shape);
        sump.use_circuit(1.0, Engine::Running);
        sump.fill(600.0, 40.0);
        (0..3_000).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, path));
        sump.set_check_port(Port::Open);
        (0..1_500).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, path));
        sump.level_error_ml(40.0)
    };
    let low = set(Path::Past) - set(Path::Through);
    assert!((low + shape.cooler_ml).abs() < 15.0, "{low} against {}", shape.cooler_ml);
}

#[test]
fn what_stands_on_the_plug_runs_out_whatever_the_level_and_once() {
    // Procedures of the trade, section 3: bore area times height and a pocket, 5 to 60 mL, over in some seconds.
    let mut sump = running_sump(-300.0);
    let gushes = |sump: &mut Sump| {
        sump.set_check_port(Port::Open);
        let before = sump.out().caught_ml;
        sump.advance(0.1, 40.0, Engine::Running, Path::Through);
        let first = sump.stream_ml_min();
        (0..150).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
        sump.set_check_port(Port::Closed);
        (first, sump.stream_ml_min(), sump.out().caught_ml - before)
    };
    let (first, after, out) = gushes(&mut sump);
    assert!(first > 300.0 && after == 0.0, "{first} mL/min, then {after}");
    assert!((out - embedded::six_speed().gush_ml()).abs() < 0.1 && (5.0..60.0).contains(&out), "{out} mL");
    // Empty it stays, until fluid stands above the rim again.
    (0..600).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    assert_eq!(gushes(&mut sump).2, 0.0);
    sump.fill(800.0, 40.0);
    (0..600).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    let above = sump.excess_ml(40.0);
    let (_, _, out) = gushes(&mut sump);
    assert!(out > 45.0, "{above} mL above the rim: {out}");
}

#[test]
fn a_twin_clutch_sends_its_wave_every_half_minute() {
    let mut sheet = embedded::six_speed();
    sheet.level.wave = Some(events::Wave { every_s: 30.0 });
    let mut sump = Sump::new(&sheet, Shape::of(&sheet));
    sump.use_circuit(1.0, Engine::Running);
    (0..6_000).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    let more = 30.0 - sump.excess_ml(40.0);
    sump.fill(more, 40.0);
    sump.set_check_port(Port::Open);
    (0..600).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    let (mut waves, mut high, mut caught) = (Vec::new(), false, sump.out().caught_ml);
    for step in 0..1_200 {
        sump.advance(0.1, 40.0, Engine::Running, Path::Through);
        let now = sump.stream_ml_min() > 60.0;
        if now && !high {
            waves.push(f64::from(step) * 0.1);
            caught = sump.out().caught_ml;
        } else if high && !now {
            // From memory: 5 to 20 mL each.
            let ml = sump.out().caught_ml - caught;
            assert!((2.0..20.0).contains(&ml), "{ml} mL");
        }
        high = now;
    }
    assert!((4..=5).contains(&waves.len()), "{waves:?}");
    assert!(waves.windows(2).all(|pair| (pair[1] - pair[0] - 30.0).abs() < 0.2), "{waves:?}");
    // Below the rim by more than a wave nothing comes.
    sump.let_out(200.0, 40.0);
    let before = sump.out().caught_ml;
    (0..1_200).for_each(|_| sump.advance(0.1, 40.0, Engine::Running, Path::Through));
    assert_eq!(sump.out().caught_ml, before);
}

#[test]
fn idling_lowers_the_level_by_what_the_converter_takes() {
    let sheet = embedded::six_speed();
    let mut world = World::new(&sheet, Vehicle::typical(&sheet, 20.0), None, &[], 1);
    let off = world.excess_ml();
    world.start_engine();
    world.advance(Mono::from_secs(60));
    let lower = off - world.excess_ml();
    // Physics reference, section 2: 1 to 3 L between engine off and idling.
    assert!((1_000.0..3_000.0).contains(&lower), "{lower}");
}

#[derive(Debug, Clone)]
enum Hand {
    Drain(f64),
    Fill(f64, f64),
    Engine(bool),
    Port(bool),
    Shift(usize),
    Wait(f64),
}

fn hand() -> impl Strategy<Value = Hand> {
    prop_oneof![
        (0.0..1.0).prop_map(Hand::Drain),
        (0.0..3_000.0, -5.0..60.0).prop_map(|(ml, celsius)| Hand::Fill(ml, celsius)),
        any::<bool>().prop_map(Hand::Engine),
        any::<bool>().prop_map(Hand::Port),
        (0_usize..4).prop_map(Hand::Shift),
        (0.0..120.0).prop_map(Hand::Wait),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_fluid_appears_or_vanishes(hands in proptest::collection::vec(hand(), 0..40), celsius in -5.0..80.0) {
        let sheet = embedded::eight_speed();
        let mut world = World::new(&sheet, Vehicle::typical(&sheet, celsius), None, &[], 1);
        let (start, mut seconds) = (world.mass_15(), 0.0);
        for hand in hands {
            match hand {
                Hand::Drain(share) => { world.drain(share); }
                Hand::Fill(ml, celsius) => world.fill(ml, celsius),
                Hand::Engine(true) => world.start_engine(),
                Hand::Engine(false) => world.stop_engine(),
                Hand::Port(true) => world.open_check_port(),
                Hand::Port(false) => world.close_check_port(),
                Hand::Shift(to) => world.move_selector(to, 4),
                Hand::Wait(more) => { seconds += more; world.advance(Mono::from_millis((seconds * 1_000.0) as u64)); }
            }
            let out = world.out();
            let inside = start + out.filled_15 - out.drained_15 - out.ran_out_15;
            prop_assert!((world.mass_15() - inside).abs() < 1e-6, "{} against {inside}", world.mass_15());
            prop_assert!(world.mass_15() > 0.0 && world.stream_ml_min() >= 0.0);
        }
    }

    #[test]
    fn the_steps_follow_the_matrix_exponential(
        capacities in (60.0..140.0, 25.0..80.0),
        heats in (2.5..7.0, 0.3..1.5),
        exchange in 3.0..250.0,
        losses in (15.0..60.0, 8.0..30.0),
        air in -5.0..35.0,
        seconds in 60.0..900.0,
    ) {
        let model = TwoNode {
            engine_kj_k: capacities.0, trans_kj_k: capacities.1, engine_kw: heats.0, trans_kw: heats.1,
            exchange_w_k: exchange, engine_air_w_k: losses.0, trans_air_w_k: losses.1, air_c: air,
        };
        let mut heat = Heat::new(Thermal::of_two_nodes(model, 3.0), 20.0, 20.0, None, 1);
        let idle = Conditions {
            engine: Engine::Running, path: Path::Through, gear: Gear::In, air_celsius: air, effort: 1.0, speed: 1.0,
        };
        let steps = (seconds * 10.0) as u32;
        (0..steps).for_each(|_| heat.advance(0.1, idle));
        let want = model.from(Nodes { engine: 20.0, trans: 20.0 }).unwrap().at(f64::from(steps) * 0.1);
        prop_assert!((heat.engine_celsius() - want.engine).abs() < 0.05);
        prop_assert!((heat.fluid_celsius() - want.trans).abs() < 0.05);
    }
}

#[test]
fn the_rhythm_of_the_calls_does_not_change_the_world() {
    let sheet = embedded::six_speed();
    let run = |stride: u64| {
        let mut world = World::new(&sheet, Vehicle::typical(&sheet, 20.0), Some(embedded::warmup()), &[], 7);
        world.start_engine();
        let mut at = 0;
        while at < 600_000 {
            at = (at + stride).min(600_000);
            world.advance(Mono::from_millis(at));
        }
        (world.fluid_celsius().to_bits(), world.mass_15().to_bits(), world.shown())
    };
    assert_eq!(run(37), run(100));
    assert_eq!(run(600_000), run(100));
}

#[test]
fn the_circuits_are_full_after_as_many_rounds_as_the_sheet_asks_for() {
    let after = |asked: u32, done: u32| {
        let mut sheet = embedded::six_speed();
        sheet.before.selector.as_mut().unwrap().rounds = asked;
        let mut world = World::new(&sheet, Vehicle::typical(&sheet, 20.0), None, &[], 1);
        world.start_engine();
        for position in (0..done).flat_map(|_| 0..4).chain([0]) {
            world.move_selector(position, 4);
        }
        world.excess_ml()
    };
    let before = after(1, 0);
    let taken = Vehicle::typical(&embedded::six_speed(), 20.0).shape.circuits_ml;
    for rounds in [1, 2, 3] {
        assert!((before - after(rounds, rounds) - taken).abs() < 1e-6, "{rounds} rounds asked for and done");
    }
    assert!((before - after(2, 1) - taken / 2.0).abs() < 1e-6, "one of two");
}
