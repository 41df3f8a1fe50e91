//! A gauge in a sealed tube, and the chart of its sheet: 32 to 42 mm at 40 °C, 20 mL a millimetre.

mod bench;

use bench::Bay;
use bench::stages::{filled, idling, outcome};
use events::*;

/// Idling at 40 °C, where the chart says 32 to 42 mm, settled.
fn at_the_gauge(ml: i32) -> Bay {
    let mut bay = idling("gauge-chart", ml);
    bay.seconds(60);
    bay.go();
    bay
}

#[test]
fn two_readings_inside_the_chart_set_the_level_and_no_port_is_opened() {
    let mut bay = at_the_gauge(2_400);
    assert_eq!(bay.seats(), (Advice::ReadGauge, Advice::KeepIdling));
    for word in ["flowing", "nothing-flows", "trickle", "drips", "at-edge", "below-edge 3"] {
        assert_eq!(bay.tell(word), Err(Refusal::NotTheSign), "{word}");
    }
    assert_eq!(bay.tell("closed"), Err(Refusal::PortClosed));
    assert_eq!(bay.tell("gauge 501"), Err(Refusal::ImpossibleValue));
    bay.tells("gauge 38");
    assert_eq!(bay.seats().0, Advice::ReadAgain, "one reading says nothing");
    assert!(!bay.view().port_open);
    bay.tells("gauge 40");
    assert_eq!(bay.seats(), (Advice::Tighten, Advice::StopEngine));
    let said = bay.advise().sentence(Role::Under, words::Lang::En, |ml| ml.to_string());
    assert!(said.contains("Cap on the tube"), "{said}");
    assert!(outcome(&mut bay).is_right());
    let result = bay.result();
    assert_eq!((result.outcome, result.shortfalls), (Outcome::Set, vec![]));
    let parts = result.level_error.unwrap().causes;
    let part = |cause: Cause| *parts.iter().find(|part| part.cause == cause).unwrap();
    // 39 mm, 2 mm above the middle, 20 mL a millimetre; read to 1 mm.
    let residual = part(Cause::Residual);
    assert_eq!((residual.millilitres.steps(), residual.u_millilitres.steps()), (40, 20));
    // The chart has the temperature in; 0.6 K along 0.3 mm a kelvin is 3.6 mL.
    let temperature = part(Cause::Temperature);
    assert_eq!((temperature.millilitres.steps(), temperature.u_millilitres.steps()), (0, 4));
}

#[test]
fn the_chart_decides_to_the_millimetre_and_the_mean_of_both_readings_counts() {
    let cases = [
        // read            next
        ((32, 32), Advice::Tighten),
        ((42, 42), Advice::Tighten),
        ((31, 33), Advice::Tighten),
        ((31, 32), Advice::FillMore),
        ((42, 43), Advice::DrawOut),
        ((43, 41), Advice::Tighten),
        ((36, 39), Advice::ReadAgain),
        ((30, 40), Advice::ReadAgain),
    ];
    for ((first, second), want) in cases {
        let mut bay = at_the_gauge(2_400);
        bay.tells(&format!("gauge {first}\ngauge {second}"));
        assert_eq!(bay.seats().0, want, "{first} and {second} mm");
    }
}

#[test]
fn readings_that_differ_say_nothing_until_the_last_two_agree() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 30\ngauge 37");
    assert_eq!(bay.seats().0, Advice::ReadAgain);
    bay.tells("gauge 33");
    assert_eq!(bay.seats().0, Advice::ReadAgain, "33 agrees neither with 37");
    bay.tells("gauge 35");
    assert_eq!(bay.seats().0, Advice::Tighten);
    bay.tells("gauge 45");
    assert_eq!(bay.seats().0, Advice::ReadAgain, "what contradicts it undoes it");
    assert_eq!(outcome(&mut bay), Outcome::NotSet);
    assert_eq!(bay.result().shortfalls, [Shortfall::NotReadTwice]);
    assert_eq!(bay.result().level_error, None);
}

#[test]
fn low_is_filled_to_the_middle_through_the_tube_and_read_anew() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 30\ngauge 30");
    let said = bay.advise();
    // 7 mm below the middle.
    assert_eq!((said.at(Role::Under), said.millilitres.map(|ml| ml.steps())), (Advice::FillMore, Some(140)));
    assert_eq!(
        said.sentence(Role::Under, words::Lang::En, |ml| ml.to_string()),
        "It is low: fill 140 through the tube."
    );
    bay.tells("filled 140 20");
    assert_eq!(bay.seats().0, Advice::ReadGauge, "what was read before the fill says nothing");
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::ReadAgain);
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::Tighten);
    assert!(outcome(&mut bay).is_right());

    // Never more than a portion at a time.
    let mut far = at_the_gauge(2_400);
    far.tells("gauge 10\ngauge 10");
    assert_eq!(far.advise().millilitres.map(|ml| ml.steps()), Some(250), "540 mL are missing");
    assert_eq!(outcome(&mut far), Outcome::NotSet);
    let result = far.result();
    assert_eq!(result.shortfalls.first(), Some(&Shortfall::GaugeLow), "{result:?}");
    assert_eq!(result.add_millilitres.map(|ml| ml.steps()), Some(250));
    assert_eq!(result.drivable, Some(Drivable::No));
}

#[test]
fn high_is_drawn_out_of_the_tube_and_is_no_shortage_after_it() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 47\ngauge 47");
    let said = bay.advise();
    assert_eq!((said.at(Role::Under), said.millilitres.map(|ml| ml.steps())), (Advice::DrawOut, Some(200)));
    let mut left = at_the_gauge(2_400);
    left.tells("gauge 47\ngauge 47");
    assert_eq!(outcome(&mut left), Outcome::NotSet);
    assert_eq!(left.result().shortfalls, [Shortfall::GaugeHigh]);
    bay.tells("ran-out 200 40");
    assert_eq!(bay.seats().0, Advice::ReadGauge);
    bay.tells("gauge 37\ngauge 38");
    assert_eq!(bay.seats().0, Advice::Tighten);
    assert!(outcome(&mut bay).is_right());
    assert_eq!((bay.result().shortfalls, bay.result().closure), (vec![], vec![]), "it was too full before");
}

#[test]
fn a_reading_outside_the_band_or_with_the_engine_off_counts_for_nothing() {
    let mut bay = idling("gauge-chart", 2_400);
    bay.seconds(60);
    bay.below();
    bay.tells("gauge 37\ngauge 37");
    assert_ne!(bay.seats().0, Advice::Tighten, "not inside the band");
    bay.go();
    assert_eq!(bay.seats().0, Advice::ReadAgain);
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::ReadAgain, "the one before was outside");
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::Tighten);

    // Go, says the scripted verdict; the chart ends at 60 °C all the same.
    let mut bay = at_the_gauge(2_400);
    bay.want(Verdict::Go, Reason::InBand, 61.0);
    bay.tells("gauge 43\ngauge 43");
    assert_eq!(bay.seats().0, Advice::ReadAgain);
    assert_eq!(outcome(&mut bay), Outcome::NotSet);

    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 37");
    bay.engine(0);
    bay.tells("gauge 37");
    assert_eq!(outcome(&mut bay), Outcome::NotSet);
    assert!(bay.result().shortfalls.contains(&Shortfall::NotReadTwice));
}

#[test]
fn the_chart_is_read_at_the_temperature_of_the_reading() {
    for (celsius, want) in [(30.0, Advice::Tighten), (40.0, Advice::FillMore)] {
        let mut bay = at_the_gauge(2_400);
        bay.want(Verdict::Go, Reason::InBand, celsius);
        bay.tells("gauge 30\ngauge 30");
        // 29 to 39 mm at 30 °C, 32 to 42 mm at 40 °C.
        assert_eq!(bay.seats().0, want, "{celsius} °C");
    }
}

#[test]
fn a_reading_from_before_a_stop_is_not_paired_with_one_after_it() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 37");
    bay.engine(0);
    bay.tells("confirm clear");
    bay.engine(720);
    bay.seconds(61);
    bay.go();
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::ReadAgain);
    bay.tells("gauge 37");
    assert_eq!(bay.seats().0, Advice::Tighten);
}

#[test]
fn a_reading_that_was_mistyped_is_taken_back() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 37\ngauge 73\nundo\ngauge 38");
    assert_eq!(bay.seats().0, Advice::Tighten);
    bay.tells("undo");
    assert_eq!(bay.seats().0, Advice::ReadAgain);
}

#[test]
fn the_readings_of_a_gauge_survive_a_crash_with_what_they_were_judged_by() {
    let mut bay = at_the_gauge(2_400);
    bay.tells("gauge 37\ngauge 37");
    bay.crash(false);
    bay.seconds(2);
    assert_eq!(bay.seats().0, Advice::Tighten);
    assert!(outcome(&mut bay).is_right());
}

/// A check in which the gauge was read twice at so many mm.
fn checked(mm: i32, tolerance_ml: f64) -> Bay {
    let mut bay = Bay::new("gauge-chart");
    bay.sheet.check.tolerance_ml = tolerance_ml;
    bay.tells("start check two\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1");
    bay.seconds(2);
    bay.tells("confirm parked\nconfirm closed-up\nconfirm clear");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.seconds(61);
    bay.go();
    bay.tells(&format!("gauge {mm}\ngauge {mm}"));
    bay
}

#[test]
fn a_check_by_gauge_says_how_much_was_missing_or_too_much() {
    let cases = [
        // mm   found  outcome
        (37, 0, Outcome::Checked),
        (27, -200, Outcome::NotSet),
        (47, 200, Outcome::NotSet),
    ];
    for (mm, found, want) in cases {
        let mut bay = checked(mm, 100.0);
        assert_eq!(outcome(&mut bay), want, "{mm} mm: {:?}", bay.result());
        let got = bay.result().found_millilitres.unwrap().steps();
        assert!((got - found).abs() <= 10, "{mm} mm: {got} mL");
        let headline = bay.result().headline(words::Lang::En, |ml| format!("{ml} mL"));
        let begins = match found {
            0 => "The level was right.",
            -200 => "It was low by about 200 mL",
            _ => "It was high by about 200 mL",
        };
        assert!(headline.starts_with(begins), "{headline}");
    }
}

#[test]
fn all_that_the_chart_calls_right_is_right_as_far_as_known() {
    let mut bay = checked(41, 40.0);
    assert_eq!(
        outcome(&mut bay),
        Outcome::SetUnsure,
        "80 mL above the middle, 100 mL up to the edge of the chart"
    );
    let mut bay = checked(41, 150.0);
    assert_eq!(outcome(&mut bay), Outcome::Checked, "the sheet's own tolerance is wider");
}

#[test]
fn the_printed_procedure_of_a_gauge_says_how_it_is_read() {
    let cards = job::procedure(&bench::sheet("gauge-chart"));
    let card = cards.iter().find(|card| card.step == Step::RunOut).unwrap();
    assert!(card.lines.contains(&job::CheckPoint::Hint(Hint::ReadTwice)), "{card:?}");
    assert!(!card.lines.contains(&job::CheckPoint::Hint(Hint::NewWasher)), "{card:?}");
    assert!(card.tools.contains(&Hint::Cloth), "{card:?}");
}

#[test]
fn what_came_out_goes_into_the_tube_before_the_first_start() {
    let mut bay = filled("gauge-chart", 500);
    bay.tells("confirm closed-up\nconfirm clear");
    let said = bay.advise();
    assert_eq!((said.at(Role::Under), said.at(Role::Inside)), (Advice::FillFirst, Advice::KeepOff));
    assert_eq!(said.millilitres.map(|ml| ml.steps()), Some(1_900));
}

#[test]
fn by_people_a_gauge_is_set_on_two_temperatures_also_after_it_was_low() {
    let mut bay = Bay::people("gauge-chart");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
    bay.tells("confirm fluid-right\ndrained 2400 20\nfilled 2400 20\nconfirm closed-up\nconfirm clear");
    bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled");
    bay.seconds(61);
    bay.tells("engine idling\nspot 39 tape\nspot 40 tape");
    bay.go();
    bay.tells("gauge 30\ngauge 30\nfilled 140 40");
    bay.tells("spot 39 tape\nspot 40 tape");
    bay.tells("gauge 37\ngauge 37");
    assert_eq!(bay.seats(), (Advice::Tighten, Advice::StopEngine));
    assert_eq!(outcome(&mut bay), Outcome::Set, "{:?}", bay.result());
}

#[test]
fn a_gauge_that_stays_low_after_all_portions_is_a_leak() {
    let mut bay = at_the_gauge(2_400);
    for _ in 0..6 {
        bay.tells("gauge 10\ngauge 10\nfilled 250 20");
    }
    bay.tells("gauge 10\ngauge 10");
    assert_eq!(bay.seats().0, Advice::LookWhyLow);
}

#[test]
fn nothing_is_said_of_a_run_out_where_nothing_runs_out() {
    let closes = Interval { low: 300.0, median: 400.0, high: 500.0, coverage: 0.8 };
    let ahead = Forecast { closes_in: Some(closes), ..Forecast::default() };
    for (id, said) in [("gauge-chart", false), ("pipe-margin", true)] {
        let bay = idling(id, 2_870);
        assert_eq!(bay.job.run_out(bay.verdict.estimate, &ahead).is_some(), said, "{id}");
    }
}
