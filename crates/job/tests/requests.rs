//! What may be told when: one row per case, with the state it is told in and the answer.

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

/// How far the job has come.
fn at(name: &str) -> Bay {
    let mut bay = Bay::new(if name == "bypass" { "bypass" } else { "six-speed" });
    match name {
        "no job" => {}
        "started" | "bypass" => bay.tells("start"),
        "on stands" => bay.tells("start\nconfirm on-stands"),
        "drained" => bay.tells("start\nconfirm on-stands\ndrained 2400 40"),
        "filled" => bay.filled(),
        "engine runs" => {
            bay.filled();
            bay.engine(720);
        }
        "brake held" => {
            bay.filled();
            bay.engine(720);
            bay.tells("confirm brake-held");
        }
        "window" => bay.circulated(),
        "go" | "flowing" | "nothing" | "trickle" => {
            bay.circulated();
            bay.go();
            match name {
                "flowing" => bay.tells("flowing"),
                "nothing" => bay.tells("nothing-flows"),
                "trickle" => bay.tells("flowing\ntrickle"),
                _ => {}
            }
        }
        "stream" => {
            bay.circulated();
            bay.go();
            bay.tells("flowing");
            bay.seconds(20);
        }
        "opened early" => {
            bay.circulated();
            bay.tells("flowing");
        }
        "too hot open" => {
            bay.circulated();
            bay.go();
            bay.tells("flowing");
            bay.too_hot();
        }
        "closed early" => {
            bay.circulated();
            bay.tells("flowing\nclosed");
        }
        "set" => bay.set(),
        "torqued" => {
            bay.set();
            bay.tells("torqued");
        }
        "driven" => {
            bay.set();
            bay.tells("torqued\ntest-driven");
        }
        "ended" => {
            bay.set();
            bay.tells("done");
        }
        other => panic!("no state {other}"),
    }
    bay
}

#[test]
#[rustfmt::skip]
fn every_request_is_accepted_or_refused_as_the_table_says() {
    use Refusal::*;
    const OK: Result<(), Refusal> = Ok(());
    let long = format!("note {}", "x".repeat(201));
    let just = format!("note {}", "ü".repeat(200));
    let cases: &[(&str, &str, Result<(), Refusal>)] = &[
        // state         request                        answer
        ("no job",       "start",                       OK),
        ("no job",       "confirm on-stands",           Err(NoJob)),
        ("no job",       "closed",                      Err(NoJob)),
        ("no job",       "done",                        Err(NoJob)),
        ("started",      "start",                       Err(JobRunning)),
        ("ended",        "start",                       OK),
        ("ended",        "torqued",                     Err(Ended)),
        ("ended",        "done",                        Err(Ended)),
        ("ended",        "undo",                        Err(Ended)),
        // what a person confirms
        ("started",      "confirm on-stands",           OK),
        ("on stands",    "confirm on-stands",           Err(AlreadyDone)),
        ("started",      "confirm ventilated",          OK),
        ("started",      "confirm vehicle-level",       OK),
        ("filled",       "confirm vehicle-level",       Err(AlreadyDone)),
        ("started",      "confirm cooler-bypass",       Err(NotNeeded)),
        ("bypass",       "confirm cooler-bypass",       OK),
        ("started",      "confirm filled",              Err(NotYet)),
        ("filled",       "confirm filled",              Err(AlreadyDone)),
        ("started",      "confirm brake-held",          OK),
        ("filled",       "confirm selector-cycled",     Err(NotYet)),
        ("engine runs",  "confirm selector-cycled",     Err(NotYet)),
        ("brake held",   "confirm selector-cycled",     OK),
        ("window",       "confirm selector-cycled",     Err(AlreadyDone)),
        // what the vehicle shows
        ("engine runs",  "confirm engine-running",      Err(ShownByVehicle)),
        ("started",      "confirm engine-idling",       Err(ShownByVehicle)),
        ("started",      "confirm standing-still",      Err(ShownByVehicle)),
        ("filled",       "confirm started-cold",        Err(ShownByVehicle)),
        ("started",      "confirm started-cold",        OK),
        // how it stands
        ("started",      "level 0.2 -0.3",              OK),
        ("started",      "level 0.4 0",                 Err(NotLevel)),
        ("started",      "level 30 0",                  Err(ImpossibleValue)),
        ("filled",       "level 0 0",                   OK),
        ("filled",       "level 0.4 0",                 OK),
        ("set",          "level 0.4 0",                 OK),
        // amounts
        ("started",      "drained 2400 40",             Err(NotYet)),
        ("on stands",    "drained 2400 40",             OK),
        ("on stands",    "drained 2400",                OK),
        ("on stands",    "drained 0 40",                Err(ImpossibleAmount)),
        ("on stands",    "drained -100 40",             Err(ImpossibleAmount)),
        ("on stands",    "drained 6501 40",             Err(ImpossibleAmount)),
        ("on stands",    "drained 2400 151",            Err(ImpossibleValue)),
        ("drained",      "drained 2400 40",             Err(AlreadyDone)),
        ("started",      "filled 2900 20",              Err(NotYet)),
        ("on stands",    "filled 2900 20",              Err(NotYet)),
        ("drained",      "filled 2900 20",              OK),
        ("drained",      "filled 6501 20",              Err(ImpossibleAmount)),
        ("filled",       "filled 300 20",               OK),
        ("filled",       "filled 6100 20",              Err(ImpossibleAmount)),
        ("flowing",      "filled 300 20",               Err(PortOpen)),
        ("go",           "ran-out 500 38",              Err(PortClosed)),
        ("trickle",      "ran-out 500 38",              Err(PortOpen)),
        ("closed early", "ran-out 200 30",              OK),
        ("set",          "ran-out 6500 38",             Err(MoreOutThanIn)),
        // a thermometer
        ("started",      "spot 38.5 tape",              OK),
        ("started",      "spot 38.5 bare-metal",        Err(UselessSurface)),
        ("started",      "spot 400 tape",               Err(ImpossibleValue)),
        // the check port: what happens is recorded, what is claimed must be possible
        ("started",      "flowing",                     OK),
        ("window",       "flowing",                     OK),
        ("go",           "flowing",                     OK),
        ("flowing",      "flowing",                     Err(AlreadyDone)),
        ("opened early", "flowing",                     Err(AlreadyDone)),
        ("nothing",      "flowing",                     OK),
        ("trickle",      "flowing",                     Err(AlreadyDone)),
        ("set",          "flowing",                     OK),
        ("window",       "nothing-flows",               OK),
        ("go",           "nothing-flows",               OK),
        ("nothing",      "nothing-flows",               Err(AlreadyDone)),
        ("flowing",      "nothing-flows",               OK),
        ("stream",       "nothing-flows",               Err(AlreadyDone)),
        ("go",           "trickle",                     Err(PortClosed)),
        ("set",          "trickle",                     Err(PortClosed)),
        ("flowing",      "trickle",                     OK),
        ("nothing",      "trickle",                     Err(NotYet)),
        ("trickle",      "trickle",                     Err(AlreadyDone)),
        ("opened early", "trickle",                     Err(NotGo)),
        ("too hot open", "trickle",                     Err(NotGo)),
        ("go",           "closed",                      Err(PortClosed)),
        ("flowing",      "closed",                      OK),
        ("nothing",      "closed",                      OK),
        ("opened early", "closed",                      OK),
        ("too hot open", "closed",                      OK),
        ("set",          "closed",                      Err(PortClosed)),
        // afterwards
        ("go",           "torqued",                     Err(NotYet)),
        ("trickle",      "torqued",                     Err(PortOpen)),
        ("closed early", "torqued",                     OK),
        ("set",          "torqued",                     OK),
        ("torqued",      "torqued",                     Err(AlreadyDone)),
        ("set",          "test-driven",                 Err(NotYet)),
        ("torqued",      "test-driven",                 OK),
        ("driven",       "test-driven",                 Err(AlreadyDone)),
        ("started",      "done",                        OK),
        ("flowing",      "done",                        OK),
        ("flowing",      "abort leak",                  OK),
        // beside the job
        ("no job",       "alarm air",                   OK),
        ("ended",        "alarm fire",                  OK),
        ("no job",       "confirm all-safe",            Err(NotNeeded)),
        ("no job",       "leak drops",                  Err(NoJob)),
        ("started",      "leak drops",                  OK),
        ("started",      "no-drive",                    OK),
        ("started",      "fluid-wrong",                 OK),
        // what hands confirm
        ("started",      "confirm parked",              OK),
        ("filled",       "confirm parked",              Err(AlreadyDone)),
        ("filled",       "confirm clear",               OK),
        ("started",      "as inside confirm clear",     OK),
        ("started",      "confirm bypass-out",          Err(NotNeeded)),
        ("bypass",       "confirm bypass-out",          OK),
        ("started",      "confirm refitted",            Err(NotNeeded)),
        ("started",      "confirm mode-on",             Err(NotNeeded)),
        ("started",      "confirm dry",                 Err(NotNeeded)),
        ("started",      "confirm exhaust-outside",     OK),
        ("filled",       "confirm ventilated",          Err(AlreadyDone)),
        ("trickle",      "drips",                       Err(AlreadyDone)),
        ("flowing",      "drips",                       OK),
        // taking back
        ("no job",       "undo",                        Err(NoJob)),
        ("started",      "undo",                        Err(NothingToUndo)),
        ("on stands",    "undo",                        OK),
        ("opened early", "undo",                        OK),
        // words
        ("started",      "note a remark",               OK),
        ("started",      &just,                         OK),
        ("started",      &long,                         Err(TooLong)),
    ];
    for (state, words, want) in cases {
        let mut bay = at(state);
        let before = bay.job.clone();
        assert_eq!(&bay.tell(words), want, "`{words}` when {state}");
        // A stand that is not level enough is refused, and kept.
        if want.is_err() && *want != Err(NotLevel) {
            assert_eq!(bay.job, before, "a refused `{words}` when {state} changes nothing");
        }
    }
}

#[test]
fn the_told_thing_comes_first_and_all_that_follows_is_in_the_same_answer() {
    let mut bay = at("flowing");
    let told = bay.told("closed");
    let bodies = bay.job.decide(&told, bay.now, utc(bay.now), &bay.sheet, &bay.verdict).unwrap();
    assert_eq!(bodies[0], Body::Told(told));
    let judged = Judged {
        verdict: Verdict::Go,
        celsius: Some(c(40.0)),
        u: bay.verdict.estimate.map(|e| e.u),
        kelvins_per_minute: None,
    };
    let steps: Vec<_> = bodies
        .iter()
        .filter_map(|b| match b {
            Body::Step { step, state, judged } => Some((*step, *state, *judged)),
            _ => None,
        })
        .collect();
    assert_eq!(
        steps,
        [
            (Step::Close, StepState::Started, Some(judged)),
            (Step::RunOut, StepState::Failed, None),
            (Step::Trickle, StepState::Failed, None),
            (Step::Close, StepState::Failed, None),
        ],
        "closed before the trickle"
    );
}

#[test]
fn each_step_brings_its_cautions_when_it_begins() {
    let mut bay = at("no job");
    let mut seen = |words: &str| {
        let from = bay.events.len();
        if words == "engine" {
            bay.engine(720)
        } else {
            bay.tells(words)
        }
        let cautions = |e: &Event| if let Body::Caution { caution } = e.body { Some(caution) } else { None };
        bay.events[from..].iter().filter_map(cautions).collect::<Vec<_>>()
    };
    assert_eq!(seen("start"), Caution::at(Step::Prepare));
    assert_eq!(seen("confirm on-stands\nconfirm ventilated\nlevel 0 0"), Caution::at(Step::Drain));
    assert_eq!(seen("drained 2400 40"), Caution::at(Step::Fill));
    assert_eq!(seen("filled 2870 20"), Caution::at(Step::Circulate));
    assert_eq!(seen("engine"), []);
    assert_eq!(seen("confirm brake-held\nconfirm selector-cycled"), Caution::at(Step::Window));
    assert_eq!(seen("flowing"), Caution::at(Step::RunOut));
}

#[test]
fn a_sheet_without_a_selector_asks_for_none_and_warns_of_none() {
    let mut bay = Bay::new("six-speed");
    bay.sheet.before.selector = None;
    bay.filled();
    assert_eq!(bay.tell("confirm brake-held"), Err(Refusal::NotNeeded));
    assert_eq!(bay.tell("confirm selector-cycled"), Err(Refusal::NotNeeded));
    bay.engine(720);
    assert_eq!(bay.state(Step::Circulate), StepState::Done);
    let brake = Body::Caution { caution: Caution::BrakeHeld };
    assert!(!bay.events.iter().any(|e| e.body == brake));
    bay.go();
}

#[test]
fn the_same_request_told_again_is_not_carried_out_twice() {
    let mut bay = at("drained");
    let told = bay.told("filled 2900 20");
    assert_eq!(bay.send(&told), Ok(()));
    let seq = bay.job.seq_of(&told).expect("it is remembered");
    assert!(matches!(&bay.events[seq.0 as usize - 1].body, Body::Told(t) if *t == told));
    let count = bay.events.len();
    assert_eq!(bay.send(&told), Ok(()), "accepted again");
    assert_eq!(bay.events.len(), count, "and nothing happened");
    assert_eq!(bay.view().balance.filled_millilitres, Some(ml(2900)));
    // The id alone does not make it the same: another client may count from one as well.
    let other = Told { request: request("note hello"), ..told };
    assert_eq!(bay.send(&other), Ok(()));
    assert!(bay.events.len() > count);
}

#[test]
fn the_last_request_of_a_job_may_come_again_but_the_next_job_may_use_old_ids() {
    let mut bay = at("started");
    let start = Told { id: "1".to_owned(), by: Some(Role::Under), request: Request::start() };
    assert!(bay.job.seq_of(&start).is_some());
    let done = bay.told("done");
    assert_eq!(bay.send(&done), Ok(()));
    assert_eq!(bay.send(&done), Ok(()), "its answer was lost");
    assert_eq!(bay.send(&start), Ok(()));
    assert_eq!(bay.view().job, 2);
}

#[test]
fn undo_takes_back_claims_and_amounts_but_never_what_flowed() {
    let mut bay = at("trickle");
    bay.tells("undo");
    assert_eq!(bay.state(Step::Trickle), StepState::Undone);
    assert_eq!(bay.advice(), Advice::WatchStream);
    bay.tells("trickle\nclosed");
    assert_eq!(bay.state(Step::Close), StepState::Done);
    // The trickle went into the closing; the next thing back is what was told before the port was opened.
    bay.tells("undo");
    assert_eq!(bay.view().open, [Precondition::SelectorCycled]);
    assert_eq!(bay.state(Step::Circulate), StepState::Undone);
    bay.tells("confirm selector-cycled\ntorqued\nundo");
    assert_eq!(bay.state(Step::Torque), StepState::Undone);
    bay.tells("torqued\ndone");
    assert_eq!((bay.result().outcome, bay.result().open), (Outcome::Set, vec![]));
}

#[test]
fn a_corrected_amount_takes_the_place_of_the_wrong_one() {
    let undo_to_fill = "undo\nundo\nundo\nundo\nundo"; // ran-out, selector, brake, plugs, filled
    let mut bay = at("set");
    bay.tells(undo_to_fill);
    assert_eq!(bay.view().balance.filled_millilitres, None);
    bay.tells("filled 2880 20\nconfirm brake-held\nconfirm selector-cycled\nran-out 500 38\ndone");
    assert_eq!(bay.result().outcome, Outcome::Set, "it was filled before the port was opened");
    // Told later it cannot be a correction: it may have gone in after the level was set.
    let mut bay = at("set");
    bay.tells(undo_to_fill);
    bay.tells("confirm brake-held\nfilled 2880 20\nconfirm selector-cycled\nran-out 500 38\ndone");
    assert_eq!(bay.result().outcome, Outcome::NotSet);
}

#[test]
fn a_measured_stand_goes_back_to_the_one_before() {
    let mut bay = at("started");
    bay.tells("level 0.1 0\nlevel 0.3 0\nundo");
    assert!(!bay.view().open.contains(&Precondition::VehicleLevel));
    bay.tells("undo");
    assert!(bay.view().open.contains(&Precondition::VehicleLevel));
}

#[test]
fn a_stand_measured_worse_later_takes_the_go_away() {
    let mut bay = at("go");
    bay.tells("level 0.9 0");
    assert_eq!((bay.verdict.verdict, bay.view().open), (Verdict::Wait, vec![Precondition::VehicleLevel]));
    assert_eq!(
        bay.seats(),
        (Advice::KeepClosed, Advice::StopEngine),
        "stands are changed with the engine off"
    );
    bay.tells("level 0.1 0");
    bay.go();
}

#[test]
fn so_many_requests_are_remembered_and_no_more() {
    let mut bay = at("started");
    let first = bay.told("note first");
    assert_eq!(bay.send(&first), Ok(()));
    for _ in 0..255 {
        bay.tells("level 0.1 0");
    }
    assert!(bay.job.seq_of(&first).is_some());
    bay.tells("level 0.2 0");
    assert!(bay.job.seq_of(&first).is_none());
}

#[test]
fn remarks_have_a_pace_and_a_number_and_what_hands_do_has_neither() {
    let hash = "a".repeat(64);
    let words = ["note a remark".to_owned(), format!("photo {hash} plug.jpg"), "vehicle QL 12".to_owned()];
    let mut bay = at("flowing");
    for n in 0..10 {
        assert_eq!(bay.tell(&words[n % 3]), Ok(()), "a burst");
    }
    for word in &words {
        assert_eq!(bay.tell(word), Err(Refusal::TooFast), "{word}");
    }
    // One every half second, through a restart too, and so many a job.
    for n in 0..145 {
        bay.seconds(1);
        for word in [&words[n % 3], &words[(n + 1) % 3]] {
            assert_eq!(bay.tell(word), Ok(()), "{n}");
        }
        if n == 70 {
            bay.crash(true);
        }
    }
    bay.seconds(60);
    bay.crash(true);
    for word in &words {
        assert_eq!(bay.tell(word), Err(Refusal::TooMany), "{word}");
    }
    // Neither keeps a hand from saying what it did.
    bay.tells("closed\nlevel 0.1 0\nundo\nspot 40 tape\nabort a hose leaks");
    assert_eq!(bay.result().outcome, Outcome::NotSet);
}

#[test]
fn so_many_told_things_can_be_taken_back_and_no_more() {
    let mut bay = at("started");
    for _ in 0..70 {
        bay.tells("level 0.1 0");
    }
    for _ in 0..64 {
        bay.tells("undo");
    }
    assert_eq!(bay.tell("undo"), Err(Refusal::NothingToUndo));
    assert!(!bay.view().open.contains(&Precondition::VehicleLevel), "the oldest measurements stay");
}

#[test]
fn the_page_about_the_procedure_explains_every_word() {
    let page = include_str!("../../../docs/procedure.md");
    let elsewhere = [
        Refusal::UselessSurface,
        Refusal::TooLong,
        Refusal::HiddenCharacter,
        Refusal::NoSuchEvent,
        Refusal::NotUnderstood,
        Refusal::JournalFull,
    ];
    let words = (Step::ALL.iter().map(|w| w.word()))
        .chain(Precondition::ALL.iter().map(|w| w.word()))
        .chain(Shortfall::ALL.iter().map(|w| w.word()))
        .chain(Outcome::ALL.iter().map(|w| w.word()))
        .chain(Cause::ALL.iter().map(|w| w.word()))
        .chain(Refusal::ALL.iter().filter(|w| !elsewhere.contains(w)).map(|w| w.word()));
    let missing: Vec<&str> = words.filter(|w| !page.contains(w)).collect();
    assert_eq!(missing, [] as [&str; 0]);
}
