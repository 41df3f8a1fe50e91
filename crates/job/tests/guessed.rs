//! What was guessed in the sheet: each value widens the result by as much as its row says, and is named.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

mod bench;

use bench::stages::filled;
use bench::*;
use events::*;
use units::{Millilitres, Millimetres};

/// Set at a pipe 3 °C above the middle, not quite level.
fn at_a_pipe(sheet: impl Fn(&mut Sheet)) -> JobResult {
    let mut bay = Bay::new("six-speed");
    sheet(&mut bay.sheet);
    bay.circulated();
    bay.want(Verdict::Go, Reason::InBand, 43.0);
    bay.tells("flowing");
    bay.seconds(60);
    bay.tells("trickle\nclosed\nran-out 500 38\ndone");
    bay.result()
}

/// The same where the stream was closed for a moment, and little came after.
fn closed_for_a_moment(sheet: impl Fn(&mut Sheet)) -> JobResult {
    let mut bay = Bay::new("six-speed");
    bay.sheet.level.gush_ml = Some(60.0);
    sheet(&mut bay.sheet);
    bay.circulated();
    bay.go();
    bay.tells("flowing");
    bay.seconds(60);
    bay.tells("closed\nflowing");
    bay.seconds(4);
    assert_eq!(bay.tell("trickle"), Ok(()));
    bay.tells("closed\nran-out 500 38\ndone");
    bay.result()
}

fn below_an_edge(sheet: impl Fn(&mut Sheet)) -> JobResult {
    let mut bay = Bay::new("motor-drive");
    sheet(&mut bay.sheet);
    let sheet = bay.sheet.clone();
    let mut bay = filled("motor-drive", 1_400);
    bay.sheet = sheet;
    bay.tells("below-edge 3\nclosed\ntorqued\nconfirm no-leak\nabort again");
    begin_again(&mut bay, 1_400);
    bay.tells("below-edge 3\nclosed\ntorqued\nconfirm no-leak\ndone");
    bay.result()
}

fn by_amount(sheet: impl Fn(&mut Sheet)) -> JobResult {
    let mut bay = Bay::new("amount-only");
    sheet(&mut bay.sheet);
    begin_again(&mut bay, 3_200);
    bay.tells("done");
    bay.result()
}

/// With the sheet that the bay has now.
fn begin_again(bay: &mut Bay, millilitres: u32) {
    bay.tells("start\nconfirm on-stands");
    let _ = bay.tell("confirm exhaust-outside");
    let _ = bay.tell("level 0.1 -0.1");
    bay.seconds(2);
    for word in ["parked", "ready-off", "fluid-right", "fill-port-open"] {
        let _ = bay.tell(&format!("confirm {word}"));
    }
    let drained =
        if bay.sheet.level.rim == Rim::None { millilitres } else { bay.sheet.fluid.drain_ml as u32 };
    bay.tells(&format!("drained {drained} 20"));
    let _ = bay.tell("confirm pipe-in");
    bay.tells(&format!("filled {millilitres} 20"));
    let _ = bay.tell("confirm closed-up");
    let _ = bay.tell("confirm clear");
}

fn on_a_gauge(sheet: impl Fn(&mut Sheet)) -> JobResult {
    let mut bay = Bay::new("gauge-chart");
    sheet(&mut bay.sheet);
    bay.tells("start check two\nconfirm on-stands\nconfirm exhaust-outside\nlevel 0.1 -0.1");
    bay.seconds(2);
    bay.tells("confirm parked\nconfirm closed-up\nconfirm clear");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.seconds(61);
    bay.go();
    bay.tells("gauge 35\ngauge 35\ndone");
    bay.result()
}

type Job = fn(&dyn Fn(&mut Sheet)) -> JobResult;

/// Where each value enters, and by how many mL of standard uncertainty at least.
#[rustfmt::skip]
fn rows() -> Vec<(&'static str, Job, i32)> {
    vec![
        ("check.band_c",         |s| at_a_pipe(s), 10),
        ("check.hot_band_c",     |s| at_a_pipe(|sheet| { s(sheet); sheet.check.hot_band_c = Some(sheet.check.band_c); sheet.check.hot_from_air_c = Some(30.0); }), 10),
        ("fluid.total_ml",       |s| at_a_pipe(s), 2),
        ("fluid.density_15",     |s| at_a_pipe(s), 1),
        ("fluid.ml_per_k",       |s| at_a_pipe(|sheet| { s(sheet); sheet.fluid.ml_per_k = Some(-6.0); }), 9),
        ("fluid.mm2_s_40",       |s| at_a_pipe(s), 1),
        ("fluid.mm2_s_100",      |s| at_a_pipe(s), 1),
        ("fluid.drain_ml",       |s| by_amount(s), 200),
        ("fluid.margin_ml",      |s| by_amount(|sheet| { s(sheet); (sheet.fluid.drain_ml, sheet.fluid.margin_ml) = (2_900.0, 300.0); }), 60),
        ("standpipe.surface_m2", |s| at_a_pipe(s), 5),
        ("standpipe.offset_mm",  |s| at_a_pipe(s), 5),
        ("standpipe.bore_mm",    |s| at_a_pipe(s), 1),
        ("standpipe.rim_mm",     |s| at_a_pipe(s), 1),
        ("level.gush_ml",        |s| closed_for_a_moment(s), 30),
        ("look.mm",              |s| below_an_edge(s), 30),
        ("look.chart",           |s| on_a_gauge(s), 30),
        ("look.ml_per_mm",       |s| on_a_gauge(s), 4),
        ("stand.pitch_deg",      |s| at_a_pipe(s), 50),
        ("stand.roll_deg",       |s| at_a_pipe(|sheet| { s(sheet); sheet.standpipe.offset_mm = [120.0, 80.0]; }), 30),
    ]
}

#[test]
fn every_guess_widens_the_result_by_its_row_and_is_named() {
    for (key, job, least) in rows() {
        let plain = job(&|_| ()).level_error.unwrap_or_else(|| panic!("{key}: no level error"));
        let result = job(&|sheet| sheet.guessed.push(key.to_owned()));
        let cost = result.guess_cost.clone();
        let wide = result.level_error.unwrap();
        let guess = wide.causes.iter().find(|part| part.cause == Cause::Guess);
        let u = guess.map_or(0, |part| part.u_millilitres.steps());
        println!(
            "{key}: u {u} mL, ±{} becomes ±{} mL",
            plain.expanded_millilitres, wide.expanded_millilitres
        );
        assert!(u >= least, "{key}: {wide:?}");
        assert_eq!(plain.millilitres, wide.millilitres, "{key}: a guess moves nothing");
        let sum =
            f64::from(plain.expanded_millilitres.steps()).hypot(2.0 * f64::from(u - 1)).floor() as i32 - 2;
        assert!(wide.expanded_millilitres.steps() >= sum, "{key}: {plain:?} {wide:?}");
        assert!(plain.causes.iter().all(|part| part.cause != Cause::Guess), "{key}: nothing was guessed");
        assert!(result.guessed.iter().any(|named| named == key), "{key}");
        // What it costs is said, and its name; without it the ± is what it was.
        let named = GuessCost {
            without_millilitres: Millilitres::ZERO,
            most: Some(key.to_owned()),
            most_millilitres: None,
        };
        assert_ne!(named.called(), Some(key), "{key} has a name");
        match cost {
            Some(cost) => {
                let off = cost.without_millilitres.steps() - plain.expanded_millilitres.steps();
                assert!(off.abs() <= 4 + u / 20, "{key}: {off} {cost:?} {plain:?}");
                assert!(cost.most.is_none_or(|most| most == key), "{key}");
            }
            None => assert!(u < 10, "{key}: {u}"),
        }
    }
    let tested: Vec<&str> = rows().iter().map(|(key, ..)| *key).collect();
    let mut known: Vec<&str> = job::GUESSES.iter().map(|guess| guess.key).collect();
    known.dedup();
    assert_eq!(tested, known, "one row for each guess, in their order");
}

#[test]
fn what_enters_no_level_widens_nothing_and_is_named_all_the_same() {
    for key in [
        "torque_nm.check_port",
        "fluid.container_ml",
        "standpipe.length_mm",
        "recheck.days",
        "fluid.margin_ml",
        "look.chart",
    ] {
        let result = at_a_pipe(|sheet| sheet.guessed.push(key.to_owned()));
        assert_eq!(result.level_error, at_a_pipe(|_| ()).level_error, "{key}");
        assert_eq!(*result.guessed, [key]);
    }
}

#[test]
fn a_table_that_was_guessed_is_all_of_its_values() {
    let u = |keys: &[&str]| {
        let result = at_a_pipe(|sheet| sheet.guessed.extend(keys.iter().map(|key| (*key).to_owned())));
        result.level_error.unwrap().expanded_millilitres.steps()
    };
    let all = ["surface_m2", "offset_mm", "bore_mm", "rim_mm"].map(|key| format!("standpipe.{key}"));
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    assert_eq!(u(&["standpipe"]), u(&all));
    assert!(u(&all) > u(&all[..1]));
}

#[test]
fn a_stand_by_the_corners_of_a_guessed_base_is_known_less_well() {
    // Measured after closing, so that no tilt is refused.
    let by_corners = |guessed: &[&str]| {
        let mut bay = Bay::new("six-speed");
        bay.sheet.vehicle = Some(Vehicle { wheelbase_mm: 2_700.0, track_mm: [1_500.0; 2] });
        bay.sheet.guessed.extend(guessed.iter().map(|key| (*key).to_owned()));
        bay.set();
        let heights = [330.0, 320.0, 270.0, 260.0].map(|mm| Millimetres::from_f64(mm).unwrap());
        let [front_left_millimetres, front_right_millimetres, rear_left_millimetres, rear_right_millimetres] =
            heights;
        let request = Request::Corners {
            front_left_millimetres,
            front_right_millimetres,
            rear_left_millimetres,
            rear_right_millimetres,
            wheelbase_millimetres: None,
            track_millimetres: None,
        };
        bay.send(&Told { id: "corners".to_owned(), by: None, request }).unwrap();
        bay.tells("done");
        let causes = bay.result().level_error.unwrap().causes;
        causes.iter().find(|part| part.cause == Cause::Tilt).unwrap().u_millilitres.steps()
    };
    assert!(by_corners(&["vehicle.wheelbase_mm"]) > by_corners(&[]) + 10);
    assert!(by_corners(&["vehicle"]) >= by_corners(&["vehicle.wheelbase_mm"]));
}

/// What always comes with the plug is taken off what a check finds; guessed, all of it is open.
#[test]
fn a_check_with_a_guessed_gush_knows_less_well_what_it_found() {
    let found = |guessed: &[&str]| {
        let mut bay = Bay::new("six-speed");
        bay.sheet.level.gush_ml = Some(60.0);
        bay.sheet.guessed.extend(guessed.iter().map(|key| (*key).to_owned()));
        bay.tells("start check two\nconfirm on-stands\nlevel 0.1 -0.1\nconfirm exhaust-outside");
        bay.seconds(2);
        bay.hands();
        bay.tells("confirm closed-up\nconfirm clear");
        bay.engine(720);
        bay.tells("confirm brake-held\nconfirm selector-cycled");
        bay.go();
        bay.tells("flowing\ntrickle\nclosed\nran-out 300 38\ndone");
        let result = bay.result();
        (result.found_millilitres.unwrap(), result.found_expanded_millilitres.unwrap().steps())
    };
    let (known, guessed) = (found(&[]), found(&["level.gush_ml"]));
    assert_eq!(known.0, guessed.0, "a guess moves nothing");
    assert!(guessed.1 > known.1 + 10, "{known:?} {guessed:?}");
}
