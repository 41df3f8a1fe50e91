use super::*;
use crate::bus;

const BUSES: [&str; 3] = ["can-11-500", "can-29-500", "iso-14230-4-fast"];

fn bus(name: &str) -> &'static bus::Bus {
    bus::Bus::named(name).unwrap()
}

#[test]
fn a_seed_is_a_vehicle_and_answers_as_it_was_drawn() {
    for seed in 0..60 {
        for name in BUSES {
            let mut one = Identifiers::draw(seed, bus(name));
            let mut same = Identifiers::draw(seed, bus(name));
            let world = World::new(
                &crate::embedded::six_speed(),
                crate::world::Vehicle::typical(&crate::embedded::six_speed(), 20.0),
                None,
                &[],
                seed,
            );
            one.follow(&world);
            same.follow(&world);
            assert!(one.readable() >= 6 && one.readable() <= 460, "{seed} {name}: {}", one.readable());
            assert_eq!(one.truths().is_empty(), !one.form().has_fluid(), "{seed} {name} {}", one.form());
            for truth in one.truths().to_vec() {
                let said = one.answer(truth.asked, truth.service, truth.id);
                assert_eq!(said, same.answer(truth.asked, truth.service, truth.id));
                if let UnitReply::Data(bytes) = said {
                    let celsius = truth.coding.read(&bytes[usize::from(truth.byte)..]).unwrap();
                    assert!((celsius - 20.0).abs() < 3.0, "{seed} {name}: {celsius}");
                }
            }
        }
    }
}

#[test]
fn nobody_answers_at_an_address_without_a_unit_and_a_unit_refuses_what_it_has_not() {
    let mut vehicle = Identifiers::of_form(3, bus("can-11-500"), Form::Plain);
    let truth = vehicle.truths()[0];
    assert_eq!(vehicle.answer(0x7FF, 0x22, truth.id), UnitReply::Silence);
    assert_eq!(vehicle.answer(truth.asked, 0x21, 1), UnitReply::Refused(SERVICE_NOT_SUPPORTED));
    assert_eq!(vehicle.answer(truth.asked, 0x22, 0xFFFF), UnitReply::Refused(OUT_OF_RANGE));
}

#[test]
fn every_form_comes_and_every_encoding() {
    let drawn: Vec<Identifiers> = (0..600).map(|seed| Identifiers::draw(seed, bus("can-11-500"))).collect();
    for form in Form::ALL {
        assert!(drawn.iter().any(|vehicle| vehicle.form() == *form), "{form}");
    }
    for coding in Coding::all() {
        let carries = |vehicle: &Identifiers| vehicle.truths().iter().any(|t| t.coding.name == coding.name);
        assert!(drawn.iter().any(carries), "{}", coding.name);
    }
}
