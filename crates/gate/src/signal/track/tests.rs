use super::*;

fn at(seconds: f64) -> Mono {
    Mono::from_millis((seconds * 1_000.0) as u64)
}

/// A fluid track fed twice a second with `truth(seconds)` in whole degrees, up to `until` seconds.
fn fed(truth: impl Fn(f64) -> f64, until: f64) -> Track {
    let mut track = Track::new(Limits::FLUID, 1.0);
    let mut t = 0.0;
    while t <= until {
        track.take(at(t), truth(t).round(), Proof::Counts);
        t += 0.5;
    }
    track
}

#[test]
fn two_moves_upward_prove_a_signal_and_one_does_not() {
    assert!(!fed(|t| 30.0 + t / 60.0, 60.0).proven());
    assert!(fed(|t| 30.0 + t / 60.0, 100.0).proven());
    assert!(!fed(|t| 60.0 - t / 60.0, 600.0).proven(), "falling proves nothing");
    assert!(!fed(|_| 40.0, 3_600.0).proven(), "a constant proves nothing");
}

#[test]
fn a_value_that_flickers_between_two_steps_does_not_move() {
    let track = fed(|t| if ((t * 2.0) as u64).is_multiple_of(2) { 40.0 } else { 41.0 }, 600.0);
    assert!(!track.proven() && track.moves() == 1);
}

#[test]
fn while_it_rises_a_display_may_shimmer_between_two_steps() {
    let shown = |t: f64| 30.0 + t / 60.0;
    let mut track = fed(shown, 300.0);
    assert_eq!(track.shimmers_to(at(300.0)), None, "35 is shown, and was not more");
    track.take(at(301.0), 36.0, Proof::Counts);
    track.take(at(301.5), 35.0, Proof::Counts);
    assert_eq!(track.shimmers_to(at(301.5)), Some(36.0));
    assert_eq!(track.shimmers_to(at(322.0)), None, "the upper value was not seen for long");
    track.take(at(302.0), 36.0, Proof::Counts);
    assert_eq!(track.shimmers_to(at(302.0)), None, "the upper value itself");
    let mut falling = fed(|t| 60.0 - t / 60.0, 300.0);
    falling.take(at(300.5), 54.0, Proof::Counts);
    assert_eq!(falling.shimmers_to(at(300.5)), None);
}

#[test]
fn moves_in_step_with_the_coolant_prove_nothing() {
    let mut track = Track::new(Limits::FLUID, 1.0);
    for t in 0..1_200 {
        track.take(Mono::from_millis(t * 500), (30.0 + t as f64 / 120.0).round(), Proof::CountsNothing);
    }
    assert!(!track.proven() && track.moves() > 5);
}

#[test]
fn a_signal_that_stops_falls_behind_by_what_the_world_goes_on() {
    let ramp = |t: f64| 30.0 + t.min(300.0) / 60.0;
    let slope = fed(ramp, 300.0).rate(at(300.0)).unwrap();
    assert!((slope.c_min - 1.0).abs() < 0.01, "{slope:?}");
    let track = fed(ramp, 600.0);
    // The last move was at 270 s (34.5 shown as 35); at 600 s the world is 5.5 moves on, the allowance is one.
    let behind = track.behind(at(600.0));
    assert!((4.5..=5.5).contains(&behind), "{behind}");
    assert!(track.frozen(at(600.0)) && !track.frozen(at(330.0)));
}

#[test]
fn a_fluid_that_cools_with_the_engine_off_is_not_frozen_and_a_restart_asks_anew() {
    let mut track = fed(|t| 30.0 + t / 60.0, 960.0);
    track.turn(at(960.0), Engine::Stands);
    let mut t = 960.0;
    while t < 4_000.0 {
        track.take(at(t), (46.0 - (t - 960.0) / 60.0 * 0.15).round(), Proof::Counts);
        assert!(!track.frozen(at(t)), "at {t}");
        t += 0.5;
    }
    track.turn(at(4_000.0), Engine::MayRun);
    assert!(track.proven() && track.near.is_none());
    let behind = track.behind(at(4_120.0)) - track.behind(at(4_060.0));
    assert!((behind - 1.7).abs() < 1e-9, "{behind}: it may warm again at any rate");
}

#[test]
fn a_single_stray_reading_is_set_aside() {
    let mut track = fed(|t| 30.0 + t / 60.0, 300.0);
    track.take(at(300.5), 60.0, Proof::Counts);
    assert!(track.unsettled(at(300.5)));
    track.take(at(301.0), 35.0, Proof::Counts);
    assert!(track.proven() && track.unsettled(at(310.0)) && !track.unsettled(at(311.0)));
}

#[test]
fn a_jump_that_lasts_is_never_settled_since_nobody_knows_which_side_of_it_is_right() {
    let shifted = |t: f64| 30.0 + t / 60.0 + if t > 60.0 { 8.0 } else { 0.0 };
    let track = fed(shifted, 1_800.0);
    assert!(track.unsettled(at(1_800.0)));
    let back = |t: f64| 30.0 + t / 60.0 + if (60.0..90.0).contains(&t) { 8.0 } else { 0.0 };
    let track = fed(back, 300.0);
    assert!(track.proven() && !track.unsettled(at(300.0)), "the way back explains the way there");
}

#[test]
fn a_jump_over_values_that_cannot_be_is_still_a_jump() {
    let mut track = fed(|t| 30.0 + t / 60.0, 300.0);
    (0..5).for_each(|i| track.take_stray(at(301.0 + f64::from(i)), None));
    assert!(track.last().is_none());
    track.take(at(306.0), 43.0, Proof::Counts);
    assert!(track.unsettled(at(3_600.0)));
}

#[test]
fn a_control_unit_that_wakes_up_may_change_its_mind_once() {
    let track = fed(|t| if t < 2.0 { 0.0 } else { 30.0 + t / 60.0 }, 300.0);
    assert!(track.proven() && !track.unsettled(at(300.0)));
}

#[test]
fn a_stuck_signal_that_catches_up_is_believed_after_a_minute() {
    let track = fed(
        |t| if t < 300.0 { 30.0 + t / 60.0 } else { 35.0 + ((t / 60.0 - 5.0) / 4.0).floor() * 4.0 },
        545.0,
    );
    assert!(!track.proven() && track.unsettled(at(545.0)) && !track.unsettled(at(605.0)));
}

#[test]
fn a_ramp_faster_than_fluid_can_warm_starts_again() {
    let track = fed(|t| 30.0 + t / 3.0, 60.0);
    assert!(!track.proven() && track.unsettled(at(60.0)));
}

#[test]
fn what_could_have_happened_during_a_silence_is_allowed_for() {
    let mut track = fed(|t| 30.0 + t / 60.0, 300.0);
    track.take(at(390.0), 36.0, Proof::Counts);
    assert!(track.behind(at(396.0)) > 0.09, "anywhere in its step");
    assert!(fed(|t| 30.0 + t / 60.0, 270.5).behind(at(271.0)) < 1e-9, "just seen to turn");
}

#[test]
fn a_long_silence_forgets() {
    let mut track = fed(|t| 30.0 + t / 60.0, 300.0);
    track.take(at(421.0), 37.0, Proof::Counts);
    assert!(!track.proven() && track.near.is_none());
}

#[test]
fn a_display_in_steps_below_a_move_is_not_behind_while_it_turns_on_time() {
    let mut track = Track::new(Limits::FLUID, 0.75);
    for half in 0..1_200_u64 {
        let t = half as f64 / 2.0;
        track.take(at(t), ((30.0 + t / 60.0) / 0.75).floor() * 0.75, Proof::Counts);
        // An even ramp of 1 K/min turns each 45 s: what the slope's uncertainty adds in that time is all that is left open.
        assert!(t < 300.0 || track.behind(at(t)) < 0.3, "{t} s: {}", track.behind(at(t)));
    }
    // A move of two such steps, one step more, and the world half a kelvin on: now it is.
    assert!(track.behind(at(600.0 + 120.0)) > 0.5);
}
