//! Whole jobs, from `start` to the result: the good one, and each mistake with what it must come to.

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

#[test]
fn a_good_job_ends_as_set_with_an_honest_uncertainty() {
    let mut bay = Bay::new("six-speed");
    assert_eq!(bay.advice(), Advice::StartJob);
    bay.tells("start");
    assert_eq!(bay.advice(), Advice::PrepareVehicle);
    bay.tells("confirm on-stands\nconfirm ventilated\nlevel 0.1 -0.1");
    for (advice, confirmed) in [
        (Advice::Park, "parked"),
        (Advice::OpenFillPort, "fill-port-open"),
        (Advice::ReadContainer, "fluid-right"),
    ] {
        assert_eq!((bay.advice(), advice.awaits().map(Precondition::word)), (advice, Some(confirmed)));
        bay.tells(&format!("confirm {confirmed}"));
    }
    assert_eq!(bay.seats(), (Advice::Drain, Advice::Wait));
    bay.tells("drained 2400 40");
    assert_eq!(bay.advice(), Advice::PutPipeIn);
    bay.tells("confirm pipe-in");
    assert_eq!((bay.advice(), bay.advise().millilitres), (Advice::Fill, Some(ml(2870))));
    bay.tells("filled 2870 20");
    bay.seconds(2);
    assert_eq!(bay.seats(), (Advice::CloseUp, Advice::Wait));
    bay.tells("confirm closed-up");
    assert_eq!(bay.seats(), (Advice::ComeOut, Advice::WaitForClear));
    bay.tells("confirm clear\nnote the lamp fell down");
    assert_eq!(bay.seats(), (Advice::ComeOut, Advice::WaitForClear), "a word from below: he is not out");
    bay.tells("confirm clear");
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::StartEngine));
    bay.engine(720);
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::HoldBrake));
    bay.tells("confirm brake-held");
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::CycleSelector));
    bay.tells("confirm selector-cycled");
    bay.below();
    assert_eq!((bay.advice(), bay.view().open), (Advice::StayClear, vec![]));
    assert_eq!(bay.view().step, Step::Window);
    bay.go();
    assert_eq!(bay.advice(), Advice::OpenPort);
    bay.tells("flowing");
    assert_eq!((bay.advice(), bay.view().step), (Advice::WatchStream, Step::RunOut));
    assert_eq!(bay.seats().1, Advice::KeepIdling);
    bay.seconds(90);
    bay.tells("trickle");
    assert_eq!((bay.advice(), bay.view().step), (Advice::ClosePort, Step::Close));
    assert_eq!(bay.seats().1, Advice::KeepIdlingUntilClosed);
    bay.tells("closed\nran-out 510 38");
    assert_eq!(bay.seats(), (Advice::Tighten, Advice::StopEngine));
    bay.engine(0);
    bay.tells("torqued");
    assert_eq!(bay.seats(), (Advice::WipeDry, Advice::WaitForClear));
    bay.tells("confirm clear");
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::StartEngine));
    bay.engine(720);
    assert_eq!(bay.seats(), (Advice::LookForLeaks, Advice::KeepIdling));
    bay.tells("confirm no-leak");
    assert_eq!(bay.seats(), (Advice::ComeOut, Advice::WaitForClear), "before it is lowered");
    bay.tells("confirm clear");
    assert_eq!(bay.advice(), Advice::TestDrive);
    bay.tells("test-driven");
    assert_eq!(bay.advice(), Advice::Finish);
    bay.tells("done");
    assert_eq!(bay.advice(), Advice::Recheck);

    let result = bay.result();
    assert_eq!((result.outcome, result.shortfalls, result.open), (Outcome::Set, vec![], vec![]));
    assert_eq!((result.drivable, result.untold), (Some(Drivable::Yes), vec![]));
    assert_eq!((result.net_millilitres, result.expanded_millilitres), (Some(ml(-40)), Some(ml(87))));
    assert_eq!(result.recheck_due.len(), 2);
    let error = result.level_error.unwrap();
    // Closed at mid-band: what is left is the tilt, 0.1° at 120 mm on 0.060 m² (125.7 mL per degree).
    assert_eq!(error.millilitres, ml(13));
    assert!((50..=70).contains(&error.expanded_millilitres.steps()), "{error:?}");
}

#[test]
fn started_hot_never_comes_to_go_and_cannot_be_confirmed_away() {
    let mut bay = Bay::new("six-speed");
    bay.temperatures(60.0, Some(22.0));
    bay.filled();
    assert_eq!(bay.advice(), Advice::StopAndCool, "seen before the engine is started");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.want(Verdict::Go, Reason::InBand, 40.0);
    assert_eq!(bay.verdict.verdict, Verdict::Wait);
    assert_eq!(bay.view().open, [Precondition::StartedCold]);
    assert_eq!(bay.tell("confirm started-cold"), Err(Refusal::ShownByVehicle));
    assert_eq!(bay.advice(), Advice::StopAndCool);
    // Agreement while the engine still runs is no cold start any more.
    bay.temperatures(24.0, Some(22.0));
    bay.seconds(5);
    assert_eq!(bay.view().open, [Precondition::StartedCold]);
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NotOpened, Shortfall::StartedWarm, Shortfall::PreconditionOpen, Shortfall::Unmeasured],
    );
}

#[test]
fn a_warm_vehicle_that_was_left_to_cool_may_start_again() {
    let mut bay = Bay::new("six-speed");
    bay.temperatures(60.0, Some(22.0));
    bay.circulated();
    assert!(bay.view().open.contains(&Precondition::StartedCold));
    bay.engine(0);
    bay.temperatures(25.0, Some(22.0));
    bay.below();
    bay.engine(720);
    bay.go();
}

#[test]
fn a_vehicle_without_air_temperatures_leaves_the_cold_start_to_the_person() {
    let mut bay = Bay::new("coolant");
    bay.temperatures(20.0, None);
    bay.circulated();
    assert_eq!((bay.view().open, bay.advice()), (vec![Precondition::StartedCold], Advice::ConfirmOpen));
    bay.tells("confirm started-cold");
    bay.go();
    // The first air temperature comes late and contradicts: the vehicle counts for more than the person.
    bay.temperatures(60.0, Some(20.0));
    bay.seconds(2);
    assert_eq!(bay.view().open, [Precondition::StartedCold]);
    assert_eq!(bay.verdict.verdict, Verdict::Wait);
}

#[test]
fn under_filled_nothing_runs_out_and_it_is_low() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.go();
    bay.tells("nothing-flows");
    assert_eq!(bay.advice(), Advice::FillMore);
    assert_eq!(bay.tell("trickle"), Err(Refusal::NotYet), "a trickle of nothing");
    assert_eq!(bay.tell("filled 500 20"), Err(Refusal::PortOpen));
    bay.tells("closed");
    assert_eq!(bay.view().step, Step::Fill);
    bay.seconds(2);
    assert_eq!(bay.verdict.verdict, Verdict::Wait, "no go before more was filled");
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NothingRanOut, Shortfall::PreconditionOpen, Shortfall::Unmeasured],
    );
}

#[test]
fn under_filled_then_filled_more_is_set_by_the_second_look() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.go();
    bay.tells("nothing-flows\nclosed");
    bay.engine(0);
    assert_eq!(bay.state(Step::Circulate), StepState::Done, "that it circulated stays true");
    bay.tells("filled 400 20");
    assert_eq!(bay.advice(), Advice::CloseUp, "a fill with the engine off opened the fill port again");
    bay.tells("confirm closed-up");
    assert_eq!(bay.advice(), Advice::ComeOut);
    bay.tells("confirm clear");
    assert_eq!(bay.advice(), Advice::StartEngine);
    bay.engine(720);
    bay.go();
    assert_eq!(bay.advice(), Advice::OpenPort);
    bay.tells("flowing");
    bay.seconds(30);
    bay.tells("trickle\nclosed\nran-out 920 38");
    ends(&mut bay, Outcome::Set, &[]);
}

#[test]
fn not_level_is_refused_and_the_job_ends_unset() {
    let mut bay = Bay::new("six-speed");
    bay.tells("start\nconfirm on-stands\nconfirm ventilated");
    // 1° of pitch at 120 mm on 0.060 m² is 126 mL; the sheet allows 100 in all and half of it for the stand.
    assert_eq!(bay.tell("level 1.0 0"), Err(Refusal::NotLevel));
    assert_eq!(bay.tell("level -0.4 0"), Err(Refusal::NotLevel));
    bay.seconds(2);
    assert_eq!(bay.advice(), Advice::ShimStands);
    bay.tells("drained 2400 40\nfilled 2870 20");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.want(Verdict::Go, Reason::InBand, 40.0);
    assert_eq!(bay.verdict.verdict, Verdict::Wait);
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NotOpened, Shortfall::NotLevel, Shortfall::PreconditionOpen, Shortfall::Unmeasured],
    );
    assert_eq!(bay.result().open, [Precondition::VehicleLevel]);
}

#[test]
fn a_level_that_was_only_confirmed_states_how_little_is_known() {
    let confirmed = |closing: &str| {
        let mut bay = Bay::new("six-speed");
        bay.tells("start\nconfirm on-stands\nconfirm ventilated\nconfirm vehicle-level");
        bay.seconds(2);
        bay.tells("drained 2400 40\nfilled 2870 20");
        bay.engine(720);
        bay.tells("confirm brake-held\nconfirm selector-cycled");
        bay.go();
        bay.tells("flowing\ntrickle\nclosed");
        bay.tells(closing);
        bay.tells("done");
        bay.result()
    };
    let set = confirmed("ran-out 510 38");
    assert_eq!(set.outcome, Outcome::SetUnsure);
    let show = |v: units::Millilitres| format!("{v} mL");
    assert!(
        set.headline(words::Lang::En, show).starts_with("The level is probably right. Known to 25"),
        "{}",
        set.headline(words::Lang::En, show)
    );
    assert!(set.level_error.unwrap().expanded_millilitres >= ml(250), "1° an axis: 126 mL, doubled");
    // Where the balance does not close either, nothing speaks for the level.
    let open = confirmed("ran-out 900 38");
    assert_eq!((open.outcome, open.shortfalls), (Outcome::NotSet, vec![Shortfall::BalanceOpen]));
    // Measured afterwards: how it stood is a fact, and the result tells what it cost.
    let high = confirmed("ran-out 510 38\nlevel 1.0 0");
    assert_eq!((high.outcome, high.shortfalls), (Outcome::SetHigh, vec![Shortfall::NotLevel]));
    assert_eq!(high.level_error.unwrap().millilitres, ml(126));
    let low = confirmed("ran-out 510 38\nlevel -1.0 0");
    assert_eq!(low.outcome, Outcome::SetLow);
}

#[test]
fn an_open_balance_is_only_a_question_where_the_tilt_was_measured() {
    let mut bay = Bay::new("six-speed");
    bay.set();
    bay.tells("undo\nran-out 900 38");
    ends(&mut bay, Outcome::Set, &[Shortfall::BalanceOpen]);
}

#[test]
fn a_bypass_that_was_not_pinned_keeps_it_at_wait() {
    let mut bay = Bay::new("bypass");
    bay.tells("start\nconfirm on-stands\nconfirm ventilated\nlevel 0 0");
    bay.seconds(2);
    bay.hands();
    bay.tells("drained 3600 40\nconfirm pipe-in\nfilled 4200 20\nconfirm closed-up");
    assert_eq!(bay.advice(), Advice::PutPinIn, "before the engine is started");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.want(Verdict::Go, Reason::InBand, 40.0);
    assert_eq!((bay.verdict.verdict, bay.advice()), (Verdict::Wait, Advice::PutPinIn));
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NotOpened, Shortfall::PreconditionOpen, Shortfall::Unmeasured],
    );
    assert_eq!(bay.result().open, [Precondition::CoolerBypass]);
}

#[test]
fn a_frozen_sensor_is_named_and_nothing_is_opened() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.want(Verdict::Wait, Reason::Frozen, 31.0);
    assert_eq!(bay.advice(), Advice::CheckSensor);
    // Ignition off before `done`: what was seen while it ran is still the reason.
    bay.want(Verdict::Wait, Reason::NoReading, 31.0);
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NotOpened, Shortfall::SensorUntrusted, Shortfall::Unmeasured],
    );
}

#[test]
fn too_hot_without_ever_opening_says_so() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.too_hot();
    assert_eq!(bay.advice(), Advice::StopAndCool);
    ends(&mut bay, Outcome::NotSet, &[Shortfall::NotOpened, Shortfall::TooHot, Shortfall::Unmeasured]);
}

#[test]
fn ended_by_hand_is_not_set_whatever_was_done() {
    let mut bay = Bay::new("six-speed");
    bay.set();
    bay.tells("abort the customer came back");
    let result = bay.result();
    assert_eq!((result.outcome, result.shortfalls), (Outcome::NotSet, vec![Shortfall::Aborted]));
    assert_eq!(bay.tell("done"), Err(Refusal::Ended));
    bay.tells("start");
    assert_eq!((bay.view().job, bay.view().result), (2, None));
}

#[test]
fn with_the_ignition_off_the_advice_is_to_start_the_engine() {
    let mut bay = Bay::new("six-speed");
    bay.filled();
    bay.push(Body::Link(LinkChange::VehicleSilent {
        detail: "UNABLE TO CONNECT".to_owned(),
        tried: Vec::new(),
    }));
    bay.verdict.link_up = false;
    assert_eq!(bay.advice(), Advice::StartEngine);
    bay.link(false);
    assert_eq!(bay.advice(), Advice::CheckAdapter);
}

#[test]
fn a_sensor_that_had_no_time_to_move_is_not_called_untrusted() {
    let mut bay = Bay::new("six-speed");
    bay.tells("start");
    bay.want(Verdict::Wait, Reason::NotAlive, 20.0);
    bay.tells("done");
    assert!(!bay.result().shortfalls.contains(&Shortfall::SensorUntrusted));

    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.want(Verdict::Wait, Reason::NotAlive, 20.0);
    bay.tells("done");
    assert!(!bay.result().shortfalls.contains(&Shortfall::SensorUntrusted), "a slow start");

    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.seconds(600);
    bay.want(Verdict::Wait, Reason::NotAlive, 20.0);
    bay.tells("done");
    assert!(bay.result().shortfalls.contains(&Shortfall::SensorUntrusted), "it should have moved by now");
}

#[test]
fn an_old_thermometer_reading_with_the_port_open_closes_it() {
    let mut bay = Bay::new("six-speed");
    bay.sheet.check.signal = Signal::Spot;
    bay.circulated();
    bay.go();
    bay.tells("flowing");
    bay.want(Verdict::Wait, Reason::Stale, 40.0);
    assert_eq!(bay.advice(), Advice::ClosePortWait);
    bay.tells("closed");
    assert_eq!(bay.advice(), Advice::CheckSensor);
}

#[test]
fn filled_more_but_never_looked_again_is_not_set() {
    let mut bay = Bay::new("six-speed");
    bay.circulated();
    bay.go();
    bay.tells("nothing-flows\nclosed\nfilled 400 20");
    ends(&mut bay, Outcome::NotSet, &[Shortfall::NothingRanOut, Shortfall::NotOpened, Shortfall::Unmeasured]);
    assert_eq!(bay.result().open, [], "that more had to be filled was no precondition left open");
}
