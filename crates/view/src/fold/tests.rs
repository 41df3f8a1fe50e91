use super::*;
use crate::{Cue, Look, Seat, Surface, View};
use events::{
    Advice, Caution, Estimate, Interval, LinkChange, Reason, SelectorView, Step, StepState, Trouble, Utc,
    Verdict,
};
use units::{Celsius, Kelvins};
use words::Speech;

fn sheet() -> Box<Sheet> {
    Box::new(Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap())
}

fn s(seconds: f64) -> Mono {
    Mono::from_millis((seconds * 1_000.0) as u64)
}

fn event(body: Body) -> SocketLine {
    SocketLine::Event(Event { seq: Seq(2), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body })
}

fn fluid(celsius: f64) -> SocketLine {
    let measure = events::Measure::Fluid(Celsius::from_f64(celsius).unwrap());
    event(Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 }))
}

fn verdict(verdict: Verdict, reason: Reason) -> SocketLine {
    judged(verdict, reason, &[])
}

fn judged(verdict: Verdict, reason: Reason, open: &[Precondition]) -> SocketLine {
    let closes_in = Some(Interval { low: 95.0, median: 140.0, high: 210.0, coverage: 0.8 });
    let reasons = vec![reason];
    event(Body::Verdict {
        verdict,
        reasons,
        open: open.to_vec(),
        celsius: None,
        u: None,
        opens_in: None,
        closes_in: closes_in.filter(|_| verdict == Verdict::Go),
        read_again_in: None,
    })
}

/// A job at `go`, at second 10.
fn at_go() -> Fold {
    let snapshot = r#"{"seq":1,"at":"2026-03-02T08:00:00Z","verdict":"wait","reasons":["no-reading"],
        "advice":"start-job","link":{"up":true},"readings":[]}"#;
    let mut snapshot: Snapshot = serde_json::from_str(snapshot).unwrap();
    snapshot.sheet = Some(sheet());
    let mut fold = Fold::default();
    let estimate = Estimate {
        celsius: Celsius::from_f64(38.6).unwrap(),
        u: Kelvins::from_f64(0.7).unwrap(),
        kelvins_per_minute: Kelvins::from_f64(1.3),
        fluid: None,
    };
    let lines = [
        SocketLine::Word(Word::Snapshot(Box::new(snapshot))),
        event(Body::Job {
            job: 1,
            sheet: sheet(),
            recheck_of: None,
            task: events::Task::Change,
            people: events::People::Two,
            uptime: None,
        }),
        event(Body::Advice(Advice::OpenPort.into())),
        fluid(38.6),
        event(Body::Estimate(estimate)),
        verdict(Verdict::Go, Reason::InBand),
    ];
    for line in lines {
        fold.hear(&line, s(10.0));
    }
    for &step in &Step::ALL[..5] {
        fold.hear(&event(Body::Step { step, state: StepState::Done, judged: None }), s(10.0));
    }
    fold
}

fn look(fold: &Fold, at: f64) -> View {
    fold.look(&Look { now: s(at), seat: Seat::Under, speech: Speech::default() })
}

#[test]
fn what_of_the_vehicle_data_was_guessed_is_said_before_the_job_and_not_in_the_middle_of_it() {
    let mut sheet = sheet();
    sheet.guessed = vec!["standpipe.surface_m2".to_owned()];
    sheet.unconfirmed = vec!["check.band_c".to_owned()];
    let snapshot = r#"{"seq":1,"at":"2026-03-02T08:00:00Z","verdict":"wait","reasons":["no-reading"],
        "advice":"start-job","link":{"up":true},"readings":[]}"#;
    let mut snapshot: Snapshot = serde_json::from_str(snapshot).unwrap();
    snapshot.sheet = Some(sheet);
    let mut fold = Fold::default();
    fold.hear(&SocketLine::Word(Word::Snapshot(Box::new(snapshot))), s(10.0));
    fold.hear(&fluid(20.0), s(10.0));
    let says = |fold: &Fold, word: &str| look(fold, 10.0).cautions.iter().any(|says| says.contains(word));
    assert!(
        says(&fold, "guessed") && says(&fold, "Nobody has confirmed"),
        "{:?}",
        look(&fold, 10.0).cautions
    );
    assert!(!says(&at_go(), "guessed") && !says(&at_go(), "Nobody has confirmed"));
}

#[test]
fn at_go_the_words_stand_in_their_order() {
    let view = look(&at_go(), 10.0);
    assert_eq!((view.surface, view.word), (Surface::Go, "go"));
    assert_eq!(view.now, Advice::OpenPort.says());
    let clock = view.clock.unwrap();
    assert_eq!((clock.text.as_str(), clock.what), ("1½–3½\u{202f}min", "left at the right temperature"));
    assert_eq!(
        view.why,
        "Fluid 38.6\u{202f}°C ± 0.7\u{202f}°C, inside the range 35–45\u{202f}°C. Warming 1.3\u{202f}°C a minute."
    );
    assert_eq!(view.offers[0].tell, "flowing");
    assert_eq!(view.cue, Some(Cue::Go));
    assert_eq!(view.step.as_deref(), Some("step 6 of 11: run out"));
}

#[test]
fn an_old_go_is_never_shown() {
    let fold = at_go();
    assert_eq!(look(&fold, 12.0).surface, Surface::Go);
    let silent = look(&fold, 12.6);
    assert_eq!(silent.surface, Surface::NoReading, "the daemon has said nothing for 2.6 s");
    assert_eq!(silent.now, "Keep the check port closed.");
    assert_eq!(silent.scale.unwrap().at, None, "no old fluid stands in the pipe");
}

#[test]
fn a_go_without_readings_is_not_shown_though_the_daemon_talks() {
    let mut fold = at_go();
    for second in 11..=16 {
        fold.hear(&event(Body::Advice(Advice::OpenPort.into())), s(f64::from(second)));
    }
    assert_eq!(look(&fold, 15.9).surface, Surface::Go);
    assert_eq!(look(&fold, 16.1).surface, Surface::NoReading);
}

#[test]
fn a_lost_daemon_is_no_reading_at_once() {
    let mut fold = at_go();
    fold.hear(
        &event(Body::Told(events::Told { id: "1".into(), by: None, request: Request::Flowing })),
        s(10.5),
    );
    fold.lost(s(11.0));
    let view = look(&fold, 13.0);
    assert_eq!(view.surface, Surface::NoReading);
    assert_eq!(view.now, "Close the check port. Nothing is known.");
    assert_eq!(view.clock.unwrap().text, "2\u{202f}s");
    assert!(view.offers.is_empty());
    assert_eq!(view.cue, Some(Cue::NoReading));
}

#[test]
fn undo_is_offered_for_a_minute_and_never_for_the_port() {
    let mut fold = at_go();
    let tell = |request| event(Body::Told(events::Told { id: "1".into(), by: None, request }));
    fold.hear(&tell(Request::Trickle), s(20.0));
    assert_eq!(look(&fold, 79.0).undo.as_deref(), Some("the thin thread"));
    assert_eq!(look(&fold, 81.0).undo, None);
    fold.hear(&tell(Request::Trickle), s(90.0));
    fold.hear(&tell(Request::Closed), s(91.0));
    assert_eq!(look(&fold, 92.0).undo, None);
}

#[test]
fn undo_is_not_offered_after_the_job() {
    let mut fold = at_go();
    let told = events::Told { id: "1".into(), by: None, request: Request::TestDriven };
    fold.hear(&event(Body::Told(told)), s(20.0));
    assert_eq!(look(&fold, 21.0).undo.as_deref(), Some("the drive"));
    let result = serde_json::from_str(r#"{"outcome":"set"}"#).unwrap();
    fold.hear(&event(Body::Result(result)), s(21.0));
    assert_eq!(look(&fold, 22.0).undo, None, "the record is written");
}

#[test]
fn a_snapshots_readings_are_as_old_as_it_says() {
    let text = include_str!("../../../../fixtures/screens/go.json");
    for (age_ms, until) in [(400, 15.6), (5_000, 11.0), (5_900, 10.1)] {
        let mut snapshot: serde_json::Value = serde_json::from_str(text).unwrap();
        snapshot["readings"][0]["age_ms"] = age_ms.into();
        let mut fold = Fold::default();
        fold.hear(&serde_json::from_value(snapshot).unwrap(), s(10.0));
        // The daemon talks on, so that only the reading's own age counts.
        for tenth in 101..=160 {
            let now = f64::from(tenth) / 10.0;
            fold.hear(&event(Body::Advice(Advice::OpenPort.into())), s(now));
            let want = if now > until + 0.05 { Surface::NoReading } else { Surface::Go };
            assert_eq!(look(&fold, now).surface, want, "{age_ms} ms old when it came, at {now}");
        }
    }
}

#[test]
fn the_cue_grows_urgent_as_the_window_closes() {
    let mut fold = at_go();
    let mut cue = |at: f64| {
        fold.hear(&fluid(40.0), s(at));
        look(&fold, at).cue
    };
    assert_eq!(cue(40.0), Some(Cue::Go), "65 s are left at least");
    assert_eq!(cue(50.0), Some(Cue::Closing));
    assert_eq!(cue(90.0), Some(Cue::ClosingNow));
}

#[test]
fn nothing_at_go_says_how_much_to_fill_and_a_stop_rule_comes_before_the_other_cautions() {
    let mut fold = at_go();
    let top_up =
        events::TopUp { millilitres: units::Millilitres::from_steps(500).unwrap(), seconds: Some(100) };
    fold.hear(&event(Body::TopUp(top_up)), s(10.5));
    let said = events::SeatAdvice { millilitres: Some(top_up.millilitres), ..Advice::FillMore.into() };
    fold.hear(&event(Body::Advice(said)), s(10.5));
    fold.hear(&event(Body::Caution { caution: Caution::Overheating }), s(10.5));
    let view = look(&fold, 10.5);
    assert!(view.now.ends_with("fill 500\u{202f}mL. Look again in about 2 min."), "{}", view.now);
    assert_eq!(view.cautions.first().map(AsRef::as_ref), Some(Caution::Overheating.says()));
    let stopped = Body::Precondition { precondition: Precondition::EngineRunning, holds: false };
    fold.hear(&event(stopped), s(10.6));
    assert_ne!(look(&fold, 10.6).cautions.first().map(AsRef::as_ref), Some(Caution::Overheating.says()));
}

/// The rounds are due: engine running, fluid in, and what `open` says.
fn at_the_rounds(open: &[Precondition]) -> Fold {
    let mut fold = at_go();
    fold.hear(&judged(Verdict::Wait, Reason::PreconditionOpen, open), s(11.0));
    fold.hear(&event(Body::Advice(Advice::CycleSelector.into())), s(11.0));
    fold
}

fn inside(fold: &Fold, at: f64) -> View {
    fold.look(&Look { now: s(at), seat: Seat::Inside, speech: Speech::default() })
}

fn said(told: u32, at: &str, next: &str, left_seconds: u32) -> SocketLine {
    let (stands_in, next) = (Some(at.to_owned()), next.to_owned());
    event(Body::Selector(SelectorView {
        stands_in,
        next,
        told,
        round: 1,
        rounds: 1,
        dwell_seconds: 3,
        left_seconds,
    }))
}

#[test]
fn inside_the_rounds_are_counted_position_by_position() {
    let mut fold = at_the_rounds(&[Precondition::SelectorCycled]);
    fold.hear(&fluid(30.0), s(12.0));
    let view = inside(&fold, 12.0);
    assert_eq!(view.now, "Hold the brake. Begin in P.");
    let first = &view.offers[0];
    assert_eq!((first.tell, first.text.as_deref(), first.primary), ("shifted", Some("P"), true));
    let whole = |view: &View| {
        view.offers.iter().find(|o| o.what == Some(Precondition::SelectorCycled)).map(|o| o.aside)
    };
    assert_eq!(
        (whole(&view), whole(&look(&fold, 12.0))),
        (Some(true), Some(false)),
        "the word for all rounds"
    );
    assert_eq!(look(&fold, 12.0).rounds, None, "under the vehicle nobody moves the selector");
    assert!(look(&fold, 12.0).offers.iter().all(|o| o.tell != "shifted"));

    fold.hear(&said(2, "R", "N", 3), s(13.0));
    fold.hear(&fluid(30.0), s(13.0));
    let (stays, moves) = (inside(&fold, 14.5), inside(&fold, 16.0));
    assert_eq!(stays.now, "Hold the brake. Stay in R.");
    assert_eq!(stays.rounds.map(|r| (r.at, r.next, r.left_s)), Some((Some(1), 2, 2)));
    assert_eq!(stays.cue, None);
    assert_eq!((moves.now.as_str(), moves.cue), ("Hold the brake. Move to N.", Some(Cue::MoveOn)));
    assert_eq!(look(&fold, 16.0).cue, None, "the sound is for who holds the selector");

    let done = event(Body::Precondition { precondition: Precondition::SelectorCycled, holds: true });
    fold.hear(&done, s(17.0));
    assert_eq!(inside(&fold, 17.0).rounds, None);
}

#[test]
fn before_the_brake_is_held_no_position_can_be_told() {
    let mut fold = at_the_rounds(&[Precondition::BrakeHeld, Precondition::SelectorCycled]);
    fold.hear(&event(Body::Advice(events::SeatAdvice::to(Advice::StayOut, Advice::HoldBrake))), s(11.0));
    let view = inside(&fold, 12.0);
    assert_eq!(view.now, Advice::HoldBrake.says());
    assert_eq!(look(&fold, 12.0).now, Advice::StayOut.says());
    assert_eq!(view.offers[0].what, Some(Precondition::BrakeHeld));
    assert!(view.offers.iter().all(|o| o.tell != "shifted"));
}

/// Contact is lost, and the daemon says what keeps the signal from being read.
fn troubled(advice: Advice, trouble: Trouble, request: Option<&str>) -> Fold {
    let mut fold = at_go();
    let detail = request.map(str::to_owned);
    for body in [
        Body::Link(LinkChange::VehicleSilent {
            detail: "what the adapter said".to_owned(),
            tried: Vec::new(),
        }),
        Body::Link(LinkChange::Trouble { trouble, detail }),
        Body::Advice(advice.into()),
    ] {
        fold.hear(&event(body), s(11.0));
    }
    fold.hear(&verdict(Verdict::Wait, Reason::LinkLost), s(11.0));
    fold
}

#[test]
fn the_sentence_fits_who_is_silent_and_tells_why_a_unit_refuses() {
    type Case = (Trouble, Option<&'static str>, &'static str, &'static str, &'static str);
    let cases: &[Case] = &[
        (
            Trouble::VehicleSilent,
            None,
            "The vehicle does not answer. Check the ignition, and that the adapter sits firmly in the connector.",
            "Close the check port if it is open. Check the ignition and the adapter's plug.",
            "vehicle silent",
        ),
        (
            Trouble::AdapterSilent,
            None,
            "The adapter does not answer. Check the adapter's plug; it comes back by itself.",
            "Close the check port if it is open. Check the adapter's plug.",
            "adapter silent",
        ),
        (
            Trouble::PortGone,
            None,
            "The connection to the adapter is cut. Check the adapter's plug and cable; it comes back by itself.",
            "Close the check port if it is open. Check the adapter's plug.",
            "adapter gone",
        ),
        (
            Trouble::RefusedUnknown,
            Some("222C41 to 7E1, code 31"),
            "The control unit refuses: it does not know this identifier (222C41 to 7E1, code 31). Check identifier and header in the sheet.",
            "Close the check port if it is open. Check the vehicle data.",
            "fluid refused",
        ),
        (
            Trouble::RefusedLocked,
            Some("222C41 to 7E1, code 33"),
            "The control unit refuses: it keeps this value locked (222C41 to 7E1, code 33). Use a sheet with coolant or thermometer.",
            "Close the check port if it is open. Check the vehicle data.",
            "fluid refused",
        ),
        (
            Trouble::RefusedNow,
            Some("222C41 to 7E1, code 22"),
            "The control unit refuses for now: conditions are not right (222C41 to 7E1, code 22). Go on; it may answer at the step where the engine runs.",
            "Close the check port if it is open. Wait until it answers.",
            "fluid refused",
        ),
        (
            Trouble::UnitSilent,
            Some("224D07 to 7E1"),
            "No control unit answers this request (224D07 to 7E1). The vehicle itself answers: check header and identifier in the sheet.",
            "Close the check port if it is open. Check the vehicle data.",
            "fluid: no value",
        ),
        (
            Trouble::SendersUnknown,
            None,
            "Several control units answer. The adapter does not say which sent what. Use another adapter, one that names the senders.",
            "Close the check port if it is open. Use another adapter.",
            "adapter in trouble",
        ),
    ];
    for (trouble, request, why, now, corner) in cases {
        // The port was not opened yet, so the hands are told by the advice.
        let fold = troubled(Advice::CheckAdapter, *trouble, *request);
        let view = look(&fold, 12.0);
        assert_eq!((view.surface, view.why.as_str()), (Surface::NoReading, *why), "{trouble}");
        assert_eq!((view.now.as_str(), view.link.as_str()), (*now, *corner), "{trouble}");
        let inside = inside(&fold, 12.0).now;
        assert!(inside.starts_with("Leave the engine as it is."), "{trouble}: {inside}");
    }
}

#[test]
fn a_trouble_is_over_with_the_next_reading_and_comes_with_a_snapshot() {
    let mut fold = troubled(Advice::CheckAdapter, Trouble::VehicleSilent, None);
    let protocol = LinkChange::Protocol { protocol: "CAN".to_owned(), control_units: vec![] };
    fold.hear(&event(Body::Link(protocol)), s(13.0));
    assert_eq!(look(&fold, 13.0).link, "fluid: none yet");
    let refused = LinkChange::Trouble { trouble: Trouble::RefusedUnknown, detail: None };
    fold.hear(&event(Body::Link(refused)), s(14.0));
    assert_eq!(look(&fold, 14.0).link, "fluid refused");
    fold.hear(&fluid(30.0), s(15.0));
    fold.hear(&verdict(Verdict::Wait, Reason::Stale), s(22.0));
    assert!(!look(&fold, 22.0).why.contains("refuses"), "{}", look(&fold, 22.0).why);

    let snapshot = r#"{"seq":1,"at":"2026-03-02T08:00:00Z","verdict":"wait","reasons":["link-lost"],"advice":"start-job",
        "link":{"up":false,"trouble":"refused-locked","request":"222C41 to 7E1, code 33"},"readings":[]}"#;
    let snapshot: Snapshot = serde_json::from_str(snapshot).unwrap();
    fold.hear(&SocketLine::Word(Word::Snapshot(Box::new(snapshot))), s(30.0));
    let why = look(&fold, 30.0).why;
    assert!(why.starts_with("The control unit refuses: it keeps this value locked (222C41"), "{why}");
}

#[test]
fn an_open_port_comes_before_whoever_is_silent() {
    for &trouble in Trouble::ALL {
        let mut fold = troubled(Advice::CheckAdapter, trouble, None);
        let request = Request::Flowing;
        fold.hear(&event(Body::Told(events::Told { id: "1".into(), by: None, request })), s(11.5));
        assert_eq!(look(&fold, 12.0).now, "Close the check port. Nothing is known.", "{trouble}");
    }
}
