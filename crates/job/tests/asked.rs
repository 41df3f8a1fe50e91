//! What a check asks beside the work: symptoms, leaks, the fluid; what the answers change of the result, and that they hold nothing
//! up.

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

/// A check on stands, before anything else.
fn begun() -> Bay {
    let mut bay = Bay::new("six-speed");
    bay.tells("start check two");
    bay
}

/// And to the open port, at `go`.
fn at_the_port(bay: &mut Bay) {
    // It may stand there already.
    let _ = bay.tell("confirm on-stands");
    bay.tells("level 0.1 -0.1\nconfirm exhaust-outside");
    bay.seconds(2);
    bay.hands();
    bay.tells("confirm closed-up\nconfirm clear");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.below();
    bay.go();
}

/// So much is caught, and it is told to be right.
fn runs_out(bay: &mut Bay, millilitres: u32) {
    bay.tells("flowing\ntrickle");
    bay.seconds(2);
    bay.tells(&format!("closed\nran-out {millilitres} 38"));
}

/// Dry, filled in two portions, then it runs.
fn was_low(bay: &mut Bay, portions: &[u32], ran_out: u32) {
    for millilitres in portions {
        bay.tells("nothing-flows\nclosed");
        bay.engine(0);
        bay.tells(&format!("filled {millilitres} 20\nconfirm closed-up\nconfirm clear"));
        bay.engine(720);
        bay.go();
    }
    runs_out(bay, ran_out);
}

fn asks(bay: &mut Bay) -> Option<Question> {
    bay.advise().asks
}

fn ended(bay: &mut Bay) -> JobResult {
    bay.tells("done");
    bay.result()
}

#[test]
fn a_check_asks_why_then_for_leaks_then_how_the_fluid_looks_and_holds_nothing_up() {
    let mut bay = begun();
    assert_eq!(asks(&mut bay), Some(Question::Symptoms));
    bay.tells("symptom slips\nsymptom whine");
    assert_eq!(asks(&mut bay), None, "nobody is below yet");
    bay.tells("confirm on-stands");
    assert_eq!(asks(&mut bay), Some(Question::Leaks));
    bay.tells("leak drops");
    assert_eq!(asks(&mut bay), Some(Question::LeakPlace));
    bay.tells("leak-at cooler-line");
    assert_eq!(asks(&mut bay), None);
    at_the_port(&mut bay);
    bay.tells("flowing");
    assert_eq!(asks(&mut bay), None, "nobody looks away from a stream");
    bay.tells("trickle\nclosed");
    assert_eq!(asks(&mut bay), Some(Question::Fluid));
    bay.tells("fluid-looks brown");
    assert_eq!(asks(&mut bay), None);

    // Whoever answers nothing hears the same advice and comes to the same end.
    let mut silent = begun();
    at_the_port(&mut silent);
    runs_out(&mut silent, 20);
    assert_eq!(asks(&mut silent), Some(Question::Fluid));
    let result = ended(&mut silent);
    assert_eq!((result.outcome, result.complaint), (Outcome::Checked, None));
    assert_eq!(silent.advise().asks, None, "it has ended");
}

#[test]
fn only_a_check_asks_and_any_job_is_told() {
    let mut bay = Bay::new("six-speed");
    bay.set();
    assert!(!bay.events.iter().any(|e| matches!(e.body, Body::Advice(s) if s.asks.is_some())));
    bay.tells("symptom shudder\nfluid-looks black");
    let result = ended(&mut bay);
    let complaint = result.complaint.unwrap();
    assert_eq!((complaint.after, complaint.fluid), (vec![Symptom::Shudder], vec![FluidLook::Black]));
    assert_eq!(complaint.means, [Meaning::Worn], "no check found it right, so nothing is said of the cause");
}

#[test]
fn none_and_a_symptom_put_each_other_right_and_undo_takes_an_answer_back() {
    let mut bay = begun();
    bay.tells("symptom none\nsymptom late\nsymptom hard\nundo");
    assert_eq!(asks(&mut bay), None);
    bay.tells("undo\nundo");
    assert_eq!(asks(&mut bay), Some(Question::Symptoms));
    bay.tells("symptom late\nsymptom none\nconfirm on-stands");
    assert_eq!(bay.tell("leak-at pan"), Err(Refusal::NotYet), "no leak was told");
    bay.tells("leak damp\nleak-at pan\nundo");
    assert_eq!(asks(&mut bay), Some(Question::LeakPlace));
    // Put right before anybody looked at the level.
    bay.tells("leak dry");
    at_the_port(&mut bay);
    runs_out(&mut bay, 20);
    let result = ended(&mut bay);
    let complaint = result.complaint.unwrap();
    assert_eq!(complaint.before, [Symptom::None]);
    assert_eq!(complaint.leak_before.map(|l| l.how), Some(Leak::Dry));
    assert_eq!((result.shortfalls, result.drivable), (vec![], Some(Drivable::Yes)));
}

/// The row `symptom-other`.
#[test]
fn right_and_a_symptom_is_another_cause_and_no_fill_is_asked_for() {
    for (symptom, other) in
        [("slips", true), ("lamp", true), ("none", false), ("leak", false), ("worked-on", false)]
    {
        let mut bay = begun();
        bay.tells(&format!("symptom {symptom}"));
        at_the_port(&mut bay);
        runs_out(&mut bay, 20);
        let result = ended(&mut bay);
        assert_eq!((result.outcome, result.drivable), (Outcome::Checked, Some(Drivable::Yes)), "{symptom}");
        assert_eq!(result.means().contains(&Meaning::OtherCause), other, "{symptom}");
        assert_eq!(result.add_millilitres, None, "{symptom}: no more fluid is a cure");
    }
    // Found low, the fluid may well have been the cause.
    let mut bay = begun();
    bay.tells("symptom slips");
    at_the_port(&mut bay);
    was_low(&mut bay, &[230, 200], 100);
    bay.tells("symptom none");
    let result = ended(&mut bay);
    assert!(!result.means().contains(&Meaning::OtherCause), "{result:?}");
    let complaint = result.complaint.unwrap();
    assert_eq!((complaint.before, complaint.after), (vec![Symptom::Slips], vec![Symptom::None]));
}

#[test]
fn low_says_for_how_long_and_by_whom_and_is_looked_at_again() {
    for (portions, ran_out, driven_low) in [(&[230, 200][..], 100, false), (&[230, 470, 470][..], 300, true)]
    {
        let mut bay = Bay::new("six-speed");
        bay.sheet.fluid.portions = 4;
        bay.sheet.recheck.days = Vec::new();
        bay.tells("start check two");
        at_the_port(&mut bay);
        was_low(&mut bay, portions, ran_out);
        let at = bay.events.last().unwrap().at;
        let result = ended(&mut bay);
        assert!(result.outcome.is_right(), "{result:?}");
        assert_eq!(result.means().contains(&Meaning::DrivenLow), driven_low, "{result:?}");
        assert!(result.means().contains(&Meaning::AskHistory), "{result:?}");
        assert_eq!(result.recheck_due, [at.plus_days(3), at.plus_days(14)], "the sheet names no days");
    }
}

/// The row `leak-hidden`.
#[test]
fn a_leak_is_mended_first_and_no_days_are_named() {
    for told in ["drops", "runs"] {
        let mut bay = begun();
        bay.tells(&format!("confirm on-stands\nleak {told}"));
        at_the_port(&mut bay);
        was_low(&mut bay, &[230, 200], 100);
        bay.engine(0);
        bay.tells("torqued");
        assert_eq!(bay.advice(), Advice::MendLeak);
        // Told dry now it is no less told: only the leak look frees it.
        bay.tells("leak dry");
        let mut mended = bay.job.clone();
        let result = ended(&mut bay);
        assert!(result.outcome.is_right() && result.shortfalls.contains(&Shortfall::LeakSeen), "{result:?}");
        assert_eq!((result.drivable, result.recheck_due.len()), (Some(Drivable::WorkshopOnly), 0));
        assert!(!result.means().contains(&Meaning::AskHistory), "the leak is the history");
        assert!(
            result.next(words::Lang::En, |ml| ml.to_string()).starts_with("Mend the leak first."),
            "{result:?}"
        );
        std::mem::swap(&mut bay.job, &mut mended);
        bay.tells("confirm no-leak");
        let result = ended(&mut bay);
        assert_eq!((result.drivable, result.recheck_due.len()), (Some(Drivable::Yes), 2));
    }
}

#[test]
fn with_a_level_that_nobody_knows_it_goes_nowhere_where_it_slips_or_whines() {
    for (symptoms, drivable) in [
        ("symptom none", Drivable::WorkshopOnly),
        ("symptom late\nsymptom worked-on", Drivable::WorkshopOnly),
        ("symptom whine", Drivable::No),
        ("symptom slips", Drivable::No),
        ("symptom flares", Drivable::No),
    ] {
        let mut bay = begun();
        bay.tells(symptoms);
        at_the_port(&mut bay);
        let result = ended(&mut bay);
        assert_eq!((result.outcome, result.drivable), (Outcome::NotSet, Some(drivable)), "{symptoms}");
    }
}

#[test]
fn too_full_asks_who_filled_it_and_milky_says_what_is_in_it() {
    let mut bay = begun();
    at_the_port(&mut bay);
    runs_out(&mut bay, 600);
    bay.tells("fluid-looks milky\nfluid-looks red");
    let result = ended(&mut bay);
    assert_eq!(result.means(), [Meaning::FilledWrong, Meaning::WaterIn]);
    assert_eq!(result.complaint.unwrap().says(), [Some("fluid: red, milky".to_owned()), None]);
}
