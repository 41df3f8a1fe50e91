//! The air outside, told by a person: it decides which of a sheet's two bands counts, as a reading of the vehicle does.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

mod bench;

use bench::*;
use events::*;
use units::Celsius;

const FIRST: [f64; 2] = [35.0, 45.0];
const SECOND: [f64; 2] = [40.0, 50.0];

/// A bay whose sheet has a band for hot places, from 32 °C on.
fn two_bands() -> Bay {
    let mut bay = Bay::new("six-speed");
    (bay.sheet.check.hot_band_c, bay.sheet.check.hot_from_air_c) = (Some(SECOND), Some(32.0));
    bay
}

fn air(bay: &mut Bay, celsius: f64) -> Result<(), Refusal> {
    let request = Request::Air { celsius: Celsius::from_f64(celsius).unwrap() };
    let id = format!("air-{}", bay.events.len());
    bay.send(&Told { id, by: None, request })
}

fn band(bay: &Bay) -> [f64; 2] {
    bay.job.sheet().unwrap().check.band_c
}

#[test]
fn at_the_start_of_a_job_the_air_decides_the_band_and_may_be_put_right() {
    let mut bay = two_bands();
    bay.tells("start");
    assert_eq!(band(&bay), FIRST, "nobody has told it");
    for (celsius, want) in [(36.0, SECOND), (28.0, FIRST), (31.9, FIRST), (32.0, SECOND)] {
        assert_eq!(air(&mut bay, celsius), Ok(()));
        assert_eq!(band(&bay), want, "{celsius}");
        assert_eq!(bay.job.sheet().unwrap().check.hot_band_c, Some(SECOND));
    }
    // A crash forgets nothing of it.
    bay.crash(false);
    assert_eq!(band(&bay), SECOND);
    assert_eq!(air(&mut bay, 28.0), Ok(()));
    assert_eq!(band(&bay), FIRST);
}

#[test]
fn once_the_engine_has_run_it_is_decided() {
    let mut bay = two_bands();
    bay.filled();
    assert_eq!(air(&mut bay, 36.0), Ok(()));
    bay.engine(720);
    assert_eq!(air(&mut bay, 28.0), Err(Refusal::BandDecided));
    assert_eq!(band(&bay), SECOND);
    // The job began with the second band: the first one is not known any more.
    let mut bay = two_bands();
    bay.sheet = bay.sheet.in_the_heat().unwrap();
    bay.tells("start");
    assert_eq!(air(&mut bay, 28.0), Err(Refusal::BandDecided));
    assert_eq!(air(&mut bay, 36.0), Ok(()), "it says the same");
}

#[test]
fn what_cannot_be_air_and_what_nobody_asked_for_is_refused() {
    for (celsius, want) in [
        (-40.0, Ok(())),
        (-40.1, Err(Refusal::ImpossibleValue)),
        (60.0, Ok(())),
        (60.1, Err(Refusal::ImpossibleValue)),
        (97.0, Err(Refusal::ImpossibleValue)),
    ] {
        let mut bay = two_bands();
        assert_eq!(air(&mut bay, celsius), want, "{celsius}, before a job");
        bay.tells("start");
        assert_eq!(air(&mut bay, celsius), want, "{celsius}, in a job");
    }
    let mut bay = Bay::new("six-speed");
    assert_eq!(air(&mut bay, 36.0), Err(Refusal::NotNeeded), "there is no second band");
    bay.tells("start");
    assert_eq!(air(&mut bay, 36.0), Err(Refusal::NotNeeded));
}

#[test]
fn where_the_vehicle_shows_the_air_its_word_wins() {
    let mut bay = two_bands();
    bay.tells("start");
    let shown = Reading { measure: Measure::AmbientAir(c(20.0)), step: None, from: None, age_ms: 0 };
    bay.push(Body::Reading(shown));
    assert_eq!(air(&mut bay, 36.0), Err(Refusal::ShownByVehicle));
    assert_eq!(band(&bay), FIRST);
}

#[test]
fn told_before_the_job_it_is_a_fact_and_starts_none() {
    let mut bay = two_bands();
    assert_eq!(air(&mut bay, 36.0), Ok(()));
    assert!(!bay.job.is_running());
    assert!(matches!(&bay.events.last().unwrap().body, Body::Told(told) if told.request.word() == "air"));
}
