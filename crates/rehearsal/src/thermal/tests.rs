use super::*;

fn idle(path: Path) -> Conditions {
    Conditions { engine: Engine::Running, path, gear: Gear::Out, air_celsius: 20.0, effort: 1.0, speed: 1.0 }
}

fn minutes(heat: &mut Heat, minutes: u32, now: Conditions) {
    (0..minutes * 600).for_each(|_| heat.advance(0.1, now));
}

/// The capacities of the six nodes, in the order of the fields.
fn energy(heat: &Heat) -> f64 {
    let f = &heat.figures;
    f.metal_kj_k * heat.metal
        + f.coolant_kj_k * heat.coolant
        + heat.sump_kj_k * heat.sump
        + f.case_kj_k * heat.case
        + f.converter_kj_k * heat.converter
        + f.cooler_kj_k * heat.cooler
}

#[test]
fn made_two_the_nodes_follow_the_closed_form() {
    // fixtures: table thermal_two_node of the physics reference (matrix exponential): typical figures, 20 °C.
    let cases: &[(&str, f64, f64, f64)] = &[
        ("a minute", 60.0, 22.637_554_25, 21.061_316_04),
        ("five minutes", 300.0, 32.626_978_05, 25.198_070_13),
        ("ten minutes", 600.0, 43.943_062_42, 30.120_034_18),
    ];
    for (what, seconds, engine, fluid) in cases {
        let figures =
            Thermal::of_two_nodes(TwoNode::THROUGH_THE_COOLER, TwoNode::PAST_THE_COOLER.exchange_w_k);
        let mut heat = Heat::new(figures, 20.0, 20.0, None, 1);
        (0..(seconds * 10.0) as usize).for_each(|_| heat.advance(0.1, idle(Path::Past)));
        assert!((heat.engine_celsius() - engine).abs() < 0.005, "{what}: {}", heat.engine_celsius());
        assert!((heat.fluid_celsius() - fluid).abs() < 0.005, "{what}: {}", heat.fluid_celsius());
    }
}

#[test]
fn what_is_made_is_what_the_nodes_hold_and_what_went_to_the_air() {
    let sealed = Thermal {
        metal_air_w_k: 0.0,
        coolant_air_w_k: 0.0,
        case_air_w_k: 0.0,
        sump_air_w_k: 0.0,
        thermostat_celsius: f64::MAX,
        cold_idle_share: 0.0,
        thins_per_k: 0.0,
        ..Thermal::TYPICAL
    };
    let mut heat = Heat::new(sealed, 60.0, 20.0, None, 1);
    let before = energy(&heat);
    minutes(&mut heat, 10, Conditions { engine: Engine::Off, ..idle(Path::Past) });
    assert!((energy(&heat) - before).abs() < 1e-6, "nothing is made, nothing is lost");
    minutes(&mut heat, 10, Conditions { gear: Gear::In, ..idle(Path::Through) });
    // 4.0 + 0.6 + 0.2 kW, and 1.5 kW twice for the gear, for ten minutes.
    assert!((energy(&heat) - before - 600.0 * 7.8).abs() < 1e-6, "{}", energy(&heat) - before);
}

#[test]
fn a_gear_heats_the_converter_and_the_converter_the_fluid() {
    let run = |gear| {
        let mut heat = Heat::new(Thermal::TYPICAL, 20.0, 20.0, None, 1);
        minutes(&mut heat, 2, Conditions { gear, ..idle(Path::Past) });
        (heat.converter_celsius(), heat.fluid_celsius())
    };
    let ((out, sump_out), (with, sump_with)) = (run(Gear::Out), run(Gear::In));
    assert!(with > out + 5.0, "{with} against {out}");
    assert!(sump_with > sump_out + 1.5 && with > sump_with, "{sump_with} against {sump_out}");
}

#[test]
fn the_thermostat_opens_late_shuts_lower_and_the_fan_comes_and_goes() {
    // A radiator that does not hold it without its fan.
    let weak = Thermal { engine_kw: 5.0, radiator_w_k: 20.0, ..Thermal::TYPICAL };
    let mut heat = Heat::new(weak, 20.0, 20.0, None, 1);
    let (mut opened, mut shut, mut fans, mut highest) = (None, None, Vec::new(), f64::MIN);
    let mut minute = |heat: &mut Heat, now| {
        for _ in 0..600 {
            let (lift, fan) = (heat.lift, heat.fan);
            heat.advance(0.1, now);
            highest = highest.max(heat.coolant);
            if lift == 0.0 && heat.lift > 0.0 {
                opened = opened.or(Some(heat.coolant));
            }
            if lift > 0.0 && heat.lift == 0.0 {
                shut = Some(heat.coolant);
            }
            if fan != heat.fan {
                fans.push(heat.coolant);
            }
        }
    };
    (0..120).for_each(|_| minute(&mut heat, idle(Path::Past)));
    (0..30).for_each(|_| minute(&mut heat, Conditions { engine: Engine::Off, ..idle(Path::Past) }));
    assert!(opened.unwrap() > 88.0, "the wax lags the rising coolant: {opened:?}");
    assert!(shut.unwrap() < 84.0, "it shuts lower: {shut:?}");
    assert!(fans.len() > 4, "the fan cycles: {fans:?}");
    assert!((98.0..100.0).contains(&highest), "the fan holds it: {highest}");
}

#[test]
fn pump_and_churning_make_less_as_the_fluid_thins() {
    let cold = Thermal::TYPICAL.fluid_kw(0.0);
    let (at_40, hot) = (Thermal::TYPICAL.fluid_kw(40.0), Thermal::TYPICAL.fluid_kw(90.0));
    assert!((at_40 - 0.8).abs() < 1e-12 && cold > 0.95 && hot < 0.65, "{cold} {at_40} {hot}");
}

#[test]
fn wind_is_another_for_another_seed_and_nothing_without_gusts() {
    let run = |seed, gusts| {
        let mut heat = Heat::new(Thermal { gusts, ..Thermal::TYPICAL }, 80.0, 60.0, None, seed);
        minutes(&mut heat, 20, Conditions { engine: Engine::Off, ..idle(Path::Past) });
        heat.fluid_celsius()
    };
    assert_eq!(run(1, 0.0).to_bits(), run(2, 0.0).to_bits());
    assert!((run(1, 0.6) - run(2, 0.6)).abs() > 1e-3);
    assert_eq!(run(3, 0.6).to_bits(), run(3, 0.6).to_bits());
}

#[test]
fn drained_the_sump_is_small_and_takes_the_heat_of_what_is_filled() {
    let mut heat = Heat::new(Thermal::TYPICAL, 20.0, 50.0, None, 1);
    heat.drain(7.0);
    heat.mix_into_fluid(7.0, 20.0);
    // 1.5 kJ/K of the pan at 50 °C and 7 kJ/K of fluid at 20 °C.
    assert!(
        (heat.fluid_celsius() - (1.5 * 50.0 + 7.0 * 20.0) / 8.5).abs() < 1e-9,
        "{}",
        heat.fluid_celsius()
    );
}

#[test]
fn a_recording_leads_the_coolant_and_the_fluid_follows() {
    let log = Warmup::parse("t_s,coolant_c\n0,11\n600,71\n").unwrap();
    let mut heat = Heat::new(Thermal::TYPICAL, 11.0, 11.0, Some(log), 1);
    let off = Conditions { engine: Engine::Off, ..idle(Path::Past) };
    minutes(&mut heat, 1, off);
    assert_eq!(heat.engine_celsius(), 11.0, "before the start it stands as the log found it");
    minutes(&mut heat, 5, idle(Path::Through));
    assert!((heat.engine_celsius() - 41.0).abs() < 1e-6, "{}", heat.engine_celsius());
    assert!((18.0..32.0).contains(&heat.fluid_celsius()), "{}", heat.fluid_celsius());
    minutes(&mut heat, 5, off);
    assert!(
        heat.engine_celsius() < 41.0 + 8.0,
        "the engine stands: its metal gives what it has, and it cools"
    );
}
