//! Every procedure of the trade rehearsed to its end by somebody who only does what each seat is told.
//!
//! `BLESS=1 cargo test --test procedures` writes the files in `fixtures/golden/procedures/` anew; the difference is
//! read line by line before it is committed, and the commit says why the new lines are right.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::fmt::Write as _;

use common::{OnStage, procedures};
use events::{Body, Outcome, Request, Role};
use rehearsal::stage::Ending;
use rehearsal::{FalseGo, Keep, Program as _, Setup, embedded, stage};
use units::Mono;

fn rehearsed(setup: &Setup) -> Ending {
    stage::run(&mut OnStage::of(setup), setup)
}

/// Verdicts, what both seats are told, what is done, and the result, by the clock.
fn story(ending: &Ending) -> String {
    let clock = |ms: u64| format!("{:>3}:{:02}", ms / 60_000, ms / 1_000 % 60);
    let mut lines: Vec<(u64, u8, String)> = Vec::new();
    for event in &ending.events {
        let ms = event.mono_ms.as_millis();
        match &event.body {
            Body::Verdict { verdict, .. } => lines.push((ms, 1, verdict.to_string())),
            Body::Advice(said) => {
                let (under, inside) = (said.at(Role::Under), said.at(Role::Inside));
                let amount = said.millilitres.map_or(String::new(), |ml| format!(" {ml} mL"));
                lines.push((ms, 2, format!("         {under} / {inside}{amount}")));
            }
            Body::Result(result) => {
                let error = result.level_error.as_ref().map_or("unknown".to_owned(), |e| {
                    format!("{} ± {} mL", e.millilitres, e.expanded_millilitres)
                });
                let why = result.shortfalls.iter().map(|s| format!(" {s}")).collect::<String>();
                lines.push((ms, 3, format!("result {}: {error}{why} {:?}", result.outcome, result.open)));
            }
            _ => {}
        }
    }
    lines.extend(ending.doings.iter().map(|(at, deed)| (at.as_millis(), 0, format!("   he {deed}"))));
    lines.sort_by_key(|(ms, rank, _)| (*ms, *rank));
    let mut text = String::new();
    let mut last = String::new();
    for (ms, _, line) in lines {
        if line != last {
            writeln!(text, "{} {line}", clock(ms)).unwrap();
        }
        last = line;
    }
    writeln!(text, "truly {:.0} mL", ending.truth.level_error_ml).unwrap();
    text
}

#[test]
fn each_procedure_told_seat_by_seat_ends_as_set_with_the_truth_inside_what_is_stated() {
    let mut broken = Vec::new();
    for (name, sheet) in procedures() {
        let mut setup = Setup::by_advice(0.0, &sheet, Some(embedded::warmup()), 1);
        setup.keep = Keep::Facts;
        let ending = rehearsed(&setup);
        let got = story(&ending);
        if let Some(why) = wrong(&ending, &[Outcome::Set, Outcome::SetUnsure]) {
            broken.push(format!("{name}: {why}\n{got}"));
            continue;
        }
        let path = common::fixture(&format!("golden/procedures/{name}.story"));
        if std::env::var_os("BLESS").is_some() {
            std::fs::write(&path, &got).unwrap();
        }
        let want = std::fs::read_to_string(&path).unwrap_or_default();
        let differs = got.lines().zip(want.lines()).find(|(got, want)| got != want);
        if let Some((got, want)) = differs {
            broken.push(format!("{name}: {got}\n  was: {want}"));
        } else if got.lines().count() != want.lines().count() {
            broken.push(format!("{name}: {} lines, were {}", got.lines().count(), want.lines().count()));
        }
    }
    assert!(broken.is_empty(), "{}", broken.join("\n\n"));
}

/// What does not hold of an ending, whatever was wrong before.
fn wrong(ending: &Ending, outcomes: &[Outcome]) -> Option<String> {
    if let Some(harm) = &ending.harm {
        return Some(format!("harmful advice: {harm}"));
    }
    if let Some(go) = ending.false_go.iter().find(|go: &&FalseGo| go.is_wrong()) {
        return Some(format!("a wrong go: {go:?}"));
    }
    let Some(result) = &ending.result else { return Some("no result".to_owned()) };
    if !outcomes.contains(&result.outcome) {
        return Some(format!("{}: {:?}", result.outcome, result.drivable));
    }
    let error = result.level_error.as_ref().filter(|_| result.outcome.is_right())?;
    let off = (error.millilitres.to_f64() - ending.truth.level_error_ml).abs();
    (off > error.expanded_millilitres.to_f64())
        .then(|| format!("{error:?}, truly {:.0} mL", ending.truth.level_error_ml))
}

/// Low or high before the job, as much as a margin and more: found and put right, or not called right.
#[test]
fn a_box_that_was_low_or_high_before_is_never_called_right_beyond_what_is_stated() {
    let mut broken = Vec::new();
    let (mut set, mut all) = (0, 0);
    for (name, sheet) in procedures() {
        for short in [-0.12, 0.06, 0.15] {
            let setup = Setup::by_advice(short * sheet.fluid.total_ml, &sheet, Some(embedded::warmup()), 2);
            let ending = rehearsed(&setup);
            let any = [Outcome::Set, Outcome::SetUnsure, Outcome::SetLow, Outcome::SetHigh, Outcome::NotSet];
            broken.extend(
                wrong(&ending, &any).map(|why| format!("{name}, {short}: {why}\n{}", story(&ending))),
            );
            all += 1;
            set += u32::from(ending.result.is_some_and(|result| result.outcome.is_right()));
        }
    }
    println!("{set} of {all} were set");
    assert!(broken.is_empty(), "{}", broken.join("\n\n"));
    assert!(set * 3 > all * 2, "{set} of {all} were set");
}

/// One person at both seats, and nobody at an adapter.
#[test]
fn alone_or_without_an_adapter_each_procedure_comes_to_a_level_too() {
    let mut broken = Vec::new();
    let mut set = [0, 0];
    for (name, sheet) in procedures() {
        let two = Setup::by_advice(0.0, &sheet, Some(embedded::warmup()), 3);
        let mut alone = two.clone();
        alone.script.alone = true;
        let told = two.by_people();
        for (who, setup) in [("alone", Some(alone)), ("no adapter", told)] {
            let Some(setup) = setup else { continue };
            let mut program = if setup.script.people {
                OnStage::by_people(&setup.sheet)
            } else {
                OnStage::new(&setup.sheet)
            };
            let ending = stage::run(&mut program, &Setup { keep: Keep::Facts, ..setup.clone() });
            // A thermometer's window is narrow, and one that was missed does not come back before he goes home.
            let may: &[Outcome] = if setup.script.people {
                &[Outcome::Set, Outcome::SetUnsure, Outcome::NotSet]
            } else {
                &[Outcome::Set, Outcome::SetUnsure]
            };
            let why = wrong(&ending, may);
            set[usize::from(setup.script.people)] +=
                u32::from(ending.result.as_ref().is_some_and(|result| result.outcome.is_right()));
            broken.extend(why.map(|why| format!("{name}, {who}: {why}\n{}", story(&ending))));
        }
    }
    println!("alone {} of 18 were set, without an adapter {}", set[0], set[1]);
    assert!(broken.is_empty(), "{}", broken.join("\n\n"));
    assert!(set[0] == 18 && set[1] >= 12, "{set:?}");
}

/// The band of hot places: only where the vehicle itself has shown the air outside as the job begins, and it is hot
/// enough.
#[test]
fn the_hot_band_counts_only_where_the_air_is_known_to_be_hot() {
    let mut sheet = embedded::six_speed();
    let (first, hot) = (sheet.check.band_c, [35.0, 50.0]);
    (sheet.check.hot_band_c, sheet.check.hot_from_air_c) = (Some(hot), Some(34.0));
    for (air, people, want) in [(38.0, false, hot), (30.0, false, first), (38.0, true, first)] {
        let mut setup = Setup::named(None, &sheet, None, 4);
        (setup.vehicle.air_celsius, setup.keep) = (air, Keep::Facts);
        if people {
            setup = setup.by_people().unwrap();
        }
        let mut program = OnStage::of(&setup);
        let ending = stage::run(&mut program, &setup);
        let band = |events: &[events::Event]| {
            events.iter().find_map(|event| match &event.body {
                Body::Job { sheet, .. } => Some(sheet.check.band_c),
                _ => None,
            })
        };
        assert_eq!(band(&ending.events), Some(first), "nothing was read yet as it began");
        let told = events::Told { id: "again".to_owned(), by: None, request: events::Request::start() };
        program.tell(&told, ending.ended);
        let events: Vec<_> = std::iter::from_fn(|| program.poll_event()).collect();
        assert_eq!(band(&events), Some(want), "{air} °C, told by people: {people}");
    }
}

/// The same where a person tells it, with an adapter that shows none and without one.
#[test]
fn the_hot_band_counts_where_the_air_was_told_of_late_and_goes_again_when_it_is_put_right() {
    let mut sheet = embedded::six_speed();
    let (first, hot) = (sheet.check.band_c, [35.0, 50.0]);
    (sheet.check.hot_band_c, sheet.check.hot_from_air_c) = (Some(hot), Some(34.0));
    let air = |celsius: f64| Request::Air { celsius: units::Celsius::clamped(celsius) };
    for people in [false, true] {
        let mut program = if people { OnStage::by_people(&sheet) } else { OnStage::new(&sheet) };
        let day = [
            // s, what is told, the band that the gate goes by then
            (10, air(38.0), first),
            (20, Request::start(), hot),
            (30, Request::Abort { why: "again".to_owned() }, hot),
            (3_700, Request::start(), first),
            (3_710, air(38.0), hot),
            (3_720, air(30.0), first),
        ];
        for (n, (at, request, want)) in day.into_iter().enumerate() {
            let now = Mono::from_secs(at);
            let told = events::Told { id: n.to_string(), by: None, request };
            let word = program.tell(&told, now);
            assert!(matches!(word, events::Word::Accepted { .. }), "{told:?}: {word:?}");
            let sheet = program.0.snapshot(common::moment(now)).sheet.unwrap();
            if n != 2 {
                assert_eq!(sheet.check.band_c, want, "people {people}, {told:?}");
            }
        }
    }
}

/// Trade page, section 11, row 7; the plan's signs are seen in `src/plan.rs`.
#[test]
fn a_level_that_falls_as_it_warms_turns_the_result_and_no_verdict() {
    let run = |per_k: Option<f64>| {
        let mut sheet = embedded::six_speed();
        sheet.fluid.ml_per_k = per_k;
        let ending = rehearsed(&Setup::named(None, &sheet, None, 4));
        let opened = |e: &events::Event| matches!(&e.body, Body::Told(t) if t.request == Request::Flowing);
        let before = ending.events.iter().take_while(|e| !opened(e));
        let verdicts: Vec<_> = before
            .filter_map(|e| match &e.body {
                Body::Verdict { verdict, reasons, .. } => Some((e.mono_ms, *verdict, reasons.clone())),
                _ => None,
            })
            .collect();
        let causes = ending.result.unwrap().level_error.unwrap().causes;
        let part = causes.iter().find(|part| part.cause == events::Cause::Temperature).unwrap();
        (verdicts, part.millilitres.steps())
    };
    let (expands, rises, falls) = (run(None), run(Some(5.0)), run(Some(-5.0)));
    assert!(expands.0.iter().any(|(_, verdict, _)| *verdict == events::Verdict::Go));
    assert_eq!(expands.0, rises.0);
    assert_eq!(expands.0, falls.0);
    assert_eq!(expands.1.signum(), rises.1.signum(), "{} {} {}", expands.1, rises.1, falls.1);
    assert_eq!(rises.1.signum(), -falls.1.signum());
    assert_ne!(falls.1, 0);
}
