//! A job without an adapter: everything is told by people, and a word grows old.

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

/// Drained, filled, engine told to idle, rounds done, below the band.
fn circulated() -> Bay {
    let mut bay = Bay::people("six-speed");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
    bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    bay.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::StartEngine));
    bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled");
    bay.below();
    bay
}

/// Two readings in the band, and everything told anew: `go`.
fn at_go() -> Bay {
    let mut bay = circulated();
    bay.seconds(300);
    bay.tells("spot 38 tape\nengine idling");
    bay.seconds(35);
    bay.tells("spot 39 tape");
    bay.go();
    bay
}

fn run_out(bay: &mut Bay) {
    bay.tells("flowing");
    bay.seconds(20);
    bay.tells("trickle");
    bay.seconds(2);
    bay.tells("closed\nran-out 500 38");
}

#[test]
fn two_readings_a_measured_stand_and_a_stream_set_the_level() {
    let mut bay = at_go();
    assert_eq!(bay.seats().0, Advice::OpenPort);
    run_out(&mut bay);
    assert_eq!(bay.seats().1, Advice::StopEngine);
    bay.tells("engine stopped\ntorqued");
    ends(&mut bay, Outcome::Set, &[]);
}

#[test]
fn without_one_of_them_it_is_probably_right_and_says_how_well_it_is_known() {
    let thin = [Shortfall::ThinEvidence];
    let mut one_reading = circulated();
    one_reading.tells("engine idling\nspot 38 tape");
    one_reading.go();
    run_out(&mut one_reading);
    ends(&mut one_reading, Outcome::SetUnsure, &thin);
    assert!(one_reading.result().level_error.unwrap().expanded_millilitres.steps() > 0);

    let mut old = circulated();
    old.tells("spot 38 tape\nspot 38.5 tape");
    old.seconds(110);
    old.tells("engine idling");
    old.go();
    run_out(&mut old);
    ends(&mut old, Outcome::SetUnsure, &thin);

    let mut by_eye = Bay::people("six-speed");
    by_eye.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nconfirm vehicle-level\nconfirm parked");
    by_eye.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    by_eye.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    by_eye.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled\nspot 38 tape\nspot 38.5 tape");
    by_eye.go();
    run_out(&mut by_eye);
    ends(&mut by_eye, Outcome::SetUnsure, &thin);
}

#[test]
fn with_an_adapter_the_vehicles_word_wins() {
    let mut bay = Bay::new("six-speed");
    bay.tells("start");
    assert_eq!(bay.tell("engine idling"), Err(Refusal::ShownByVehicle));
    let told = bay.told("engine idling");
    bay.push(Body::Told(told));
    assert!(bay.view().open.contains(&Precondition::EngineRunning), "an old line changes nothing either");
}

#[test]
fn before_the_port_is_opened_the_engine_is_asked_again_and_an_old_word_is_wait() {
    let mut bay = circulated();
    bay.tells("spot 38 tape\nengine idling");
    bay.go();
    assert_eq!(bay.seats(), (Advice::OpenPort, Advice::KeepIdling));
    bay.seconds(60);
    assert_eq!(bay.seats(), (Advice::OpenPort, Advice::AskEngine), "asked");
    bay.seconds(20);
    assert_eq!((bay.verdict.verdict, bay.seats()), (Verdict::Wait, (Advice::BeReady, Advice::AskEngine)));
    assert_eq!(bay.view().open, [Precondition::EngineIdling]);
    bay.tells("engine idling");
    assert_eq!((bay.verdict.verdict, bay.seats().0), (Verdict::Go, Advice::OpenPort));
}

#[test]
fn far_from_the_band_nobody_is_asked_each_minute() {
    let mut bay = circulated();
    bay.advise();
    bay.seconds(600);
    assert_eq!(bay.seats(), (Advice::StayClear, Advice::KeepIdling));
    assert_eq!(bay.view().open, [Precondition::EngineIdling], "and what was told is no evidence for go");
}

#[test]
fn at_the_open_port_no_answer_for_twenty_seconds_closes_it() {
    for alone in [false, true] {
        let mut bay = at_go();
        if alone {
            bay = Bay::people("six-speed");
            bay.tells("start change one\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
            bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
            bay.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up");
            bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled\nspot 38 tape");
        }
        bay.tells("engine idling");
        bay.go();
        bay.tells("flowing");
        bay.seconds(57);
        assert_eq!(bay.seats().0, Advice::WatchStream, "alone: {alone}");
        bay.seconds(1);
        let under = if alone { Advice::AskEngine } else { Advice::WatchStream };
        assert_eq!(bay.seats(), (under, Advice::AskEngine), "alone: {alone}");
        bay.seconds(20);
        assert_eq!(
            (bay.seats().0, bay.verdict.verdict),
            (Advice::ClosePortEngine, Verdict::Wait),
            "alone: {alone}"
        );
        // Answered late, and not closed meanwhile, it goes on.
        bay.tells("engine idling");
        assert_eq!(bay.seats().0, Advice::WatchStream, "alone: {alone}");
        bay.tells("trickle\nclosed\nran-out 500 38");
        if alone {
            // One reading only.
            ends(&mut bay, Outcome::SetUnsure, &[Shortfall::ThinEvidence]);
        } else {
            ends(&mut bay, Outcome::Set, &[]);
        }
    }
}

#[test]
fn a_port_that_is_closed_because_nobody_answered_sets_no_level() {
    let mut bay = at_go();
    bay.tells("engine idling\nflowing");
    bay.seconds(20);
    bay.tells("trickle");
    bay.seconds(80);
    assert_eq!(bay.seats().0, Advice::ClosePortEngine);
    bay.tells("closed\nran-out 500 38");
    ends(&mut bay, Outcome::NotSet, &[Shortfall::ClosedOutsideGo, Shortfall::PreconditionOpen]);
}

#[test]
fn an_engine_that_is_told_to_have_stopped_with_the_port_open_sets_no_level() {
    let mut bay = at_go();
    bay.tells("engine idling\nflowing");
    bay.seconds(20);
    bay.tells("engine stopped");
    assert_eq!(bay.seats(), (Advice::ClosePortWait, Advice::KeepOff));
    bay.tells("engine idling");
    assert_eq!(bay.tell("trickle"), Err(Refusal::NotYet), "what ran meanwhile came back from the converter");
    bay.tells("closed\nran-out 900 38");
    ends(
        &mut bay,
        Outcome::NotSet,
        &[Shortfall::NoTrickle, Shortfall::PreconditionOpen, Shortfall::BalanceOpen],
    );
}

#[test]
fn a_rev_counter_outside_the_idle_of_the_sheet_is_no_idling() {
    let mut bay = circulated();
    bay.tells("spot 38 tape\nengine idling 1400");
    bay.want(Verdict::Go, Reason::InBand, 40.0);
    assert_eq!((bay.verdict.verdict, bay.view().open), (Verdict::Wait, vec![Precondition::EngineIdling]));
    assert_eq!(bay.advice(), Advice::ConfirmOpen);
    bay.tells("engine idling 720");
    bay.seconds(2);
    assert_eq!(bay.verdict.verdict, Verdict::Go);
}

#[test]
fn the_selector_out_of_p_stands_not_still() {
    let mut bay = Bay::people("six-speed");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1");
    assert!(bay.view().open.contains(&Precondition::StandingStill));
    bay.tells("confirm parked");
    assert!(!bay.view().open.contains(&Precondition::StandingStill));
    bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    bay.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    bay.tells("engine idling\nconfirm brake-held\nshifted P");
    assert!(bay.view().open.contains(&Precondition::StandingStill), "it moves");
    bay.tells("confirm selector-cycled");
    assert!(!bay.view().open.contains(&Precondition::StandingStill));
}

#[test]
fn a_cold_start_is_asked_for_before_the_drain() {
    let mut bay = Bay::people("six-speed");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
    assert_eq!(bay.seats().0, Advice::FeelPan);
    bay.tells("confirm started-cold");
    assert_eq!(bay.seats().0, Advice::OpenFillPort);
}

#[test]
fn after_a_crash_the_engine_must_be_told_again_and_an_open_port_is_closed() {
    let mut bay = at_go();
    bay.tells("engine idling\nflowing");
    bay.crash(false);
    bay.push(Body::Link(LinkChange::People));
    assert_eq!(bay.seats(), (Advice::ClosePortEngine, Advice::AskEngine));
    assert!(bay.view().open.contains(&Precondition::EngineRunning));
    // With an adapter from here on its words are still people's, and so is the result.
    bay.tells("closed");
    assert_eq!(bay.verdict.verdict, Verdict::Wait);
}

#[test]
fn the_next_job_knows_nothing_of_the_last_ones_engine() {
    let mut bay = circulated();
    bay.tells("abort x\nstart");
    assert!(bay.view().open.contains(&Precondition::EngineRunning));
}

#[test]
fn a_lamp_counts_in_its_mode_alone_and_two_words_of_it_set_the_level() {
    let mut bay = Bay::people("lamp");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
    bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    bay.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled");
    bay.below();
    assert_eq!(bay.seats(), (Advice::StayOut, Advice::SwitchModeOn));
    bay.tells("lamp too-cold\nlamp right");
    bay.want(Verdict::Go, Reason::InBand, 40.0);
    assert_eq!((bay.verdict.verdict, bay.view().open), (Verdict::Wait, vec![Precondition::ModeOn]));
    bay.tells("confirm mode-on\nlamp right");
    bay.go();
    assert_eq!(bay.tell("display 40"), Err(Refusal::NotNeeded), "the sheet goes by a lamp");
    let mut stopped = Bay::people("lamp");
    std::mem::swap(&mut stopped, &mut bay);
    stopped.tells("engine stopped\nengine idling");
    stopped.seconds(2);
    assert!(stopped.view().open.contains(&Precondition::ModeOn), "the mode ends with the engine");
    stopped.tells("confirm mode-on\nlamp right\nlamp right");
    stopped.go();
    run_out(&mut stopped);
    stopped.tells("engine stopped\ntorqued");
    ends(&mut stopped, Outcome::Set, &[]);
    assert_eq!(Bay::people("six-speed").sheet.check.signal, Signal::Spot);
}

#[test]
fn the_one_inside_is_asked_again_before_his_last_word_says_no_more() {
    let mut bay = Bay::people("display");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1\nconfirm parked");
    bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    bay.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled");
    assert_eq!(bay.tell("lamp right"), Err(Refusal::NotNeeded), "the sheet goes by a display");
    bay.tells("display 41\ndisplay 42");
    bay.go();
    let read_again_in = |s| Some(Forecast { read_again_in: Some(s), ..Forecast::default() });
    bay.verdict.forecast = read_again_in(60.0);
    assert_eq!(bay.seats(), (Advice::OpenPort, Advice::KeepIdling));
    bay.verdict.forecast = read_again_in(30.0);
    assert_eq!(bay.seats(), (Advice::OpenPort, Advice::ReadInside));
}

/// The engine runs, and nobody has said that it stands in P: that is asked for, not "something".
#[test]
fn the_parking_brake_that_nobody_has_told_is_asked_for_with_the_engine_running_too() {
    let mut bay = Bay::people("side-hole-drip");
    bay.tells("start\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1");
    bay.tells("confirm started-cold\nconfirm fluid-right\nconfirm fill-port-open");
    bay.tells("drained 2400 40\nfilled 2600 20\nconfirm closed-up\nconfirm clear");
    bay.tells("engine idling\nconfirm brake-held\nconfirm selector-cycled");
    bay.below();
    bay.seconds(70);
    let open = bay.job.open(bay.now);
    assert_eq!(bay.seats(), (Advice::StayClear, Advice::Park), "{open:?}");
    bay.tells("confirm parked");
    assert_ne!(bay.seats().1, Advice::Park);
}

#[test]
fn by_thermometer_it_cools_to_below_the_band_before_the_restart_and_not_for_ever() {
    let cools = |celsius: f64, stands_s: u64| {
        let mut bay = circulated();
        bay.too_hot();
        assert_eq!(bay.seats().1, Advice::StopAndCool);
        bay.tells("engine stopped");
        bay.want(Verdict::Wait, Reason::GuardBand, celsius);
        bay.seconds(stands_s);
        bay.seats().1 == Advice::StopAndCool
    };
    // 35 to 45 °C. docs/procedure.md, "How far it cools": 33.5 °C for half an hour, then 37.5.
    assert!(cools(36.0, 60));
    assert!(!cools(33.0, 60));
    assert!(cools(38.0, 1_900));
    assert!(!cools(36.0, 1_900), "a hot hall never comes to less");
}
