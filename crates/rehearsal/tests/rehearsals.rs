//! The technician and the stage against a tiny program: every script ends, the same seed gives the same bytes.

mod fake;

use events::{Event, Outcome, Refusal, Told, Word};
use fake::Fake;
use rehearsal::{Ending, Fault, FaultKind, Keep, Mistake, Program, Setup, embedded, stage};
use units::Mono;

fn rehearse(setup: &Setup) -> (Ending, Fake) {
    let mut program = Fake::new(&setup.sheet);
    let ending = stage::run(&mut program, setup);
    (ending, program)
}

fn named(mistake: Option<Mistake>, seed: u64) -> Setup {
    Setup::named(mistake, &embedded::six_speed(), Some(embedded::warmup()), seed)
}

fn outcome(ending: &Ending) -> Option<Outcome> {
    ending.result.as_ref().map(|result| result.outcome)
}

fn did(ending: &Ending, deed: &str) -> bool {
    ending.doings.iter().any(|(_, done)| done.contains(deed))
}

#[test]
fn the_default_job_sets_the_level_in_about_forty_minutes() {
    let (ending, _) = rehearse(&named(None, 1));
    assert_eq!(outcome(&ending).map(Outcome::is_right), Some(true));
    assert!(ending.truth.level_error_ml.abs() < 60.0, "{:?}", ending.truth);
    let minutes = ending.ended.as_secs_f64() / 60.0;
    assert!((30.0..45.0).contains(&minutes), "{minutes}");
}

#[test]
fn a_job_without_a_mistake_sets_the_level_whatever_the_seed() {
    for seed in 2..12 {
        for sheet in [embedded::six_speed(), embedded::eight_speed()] {
            let (ending, _) = rehearse(&Setup::named(None, &sheet, Some(embedded::warmup()), seed));
            assert_eq!(outcome(&ending).map(Outcome::is_right), Some(true), "seed {seed}, {}", sheet.name);
            assert!(ending.truth.level_error_ml.abs() < 60.0, "seed {seed}: {:?}", ending.truth);
        }
    }
}

#[test]
fn every_mistake_shows_what_it_is_meant_to_show() {
    let high = embedded::six_speed().check.band_c[1];
    for seed in 1..4 {
        for mistake in Mistake::ALL {
            let setup = named(Some(*mistake), seed);
            let (ending, program) = rehearse(&setup);
            let truth = ending.truth;
            let what = format!("{mistake}, seed {seed}: {truth:?} {:#?}", ending.doings);
            assert!(ending.by_itself && ending.ended.as_secs_f64() < 90.0 * 60.0, "ends in time: {what}");
            let closed_above = truth.fluid_celsius_at_close.is_some_and(|celsius| celsius > high);
            let shown = match mistake {
                Mistake::StartedHot => ending.first_go.is_none() && did(&ending, "too hot"),
                Mistake::UnderFilled => {
                    // Only what stands on the plug.
                    let gush = truth.ran_out_ml <= setup.sheet.gush_ml() + 0.1;
                    ending.first_go.is_some() && gush && did(&ending, "only a gush")
                }
                Mistake::NotLevel => ending.first_go.is_none() && did(&ending, "is refused `level`"),
                Mistake::OpenedLate | Mistake::ClosedLate => closed_above,
                Mistake::WrongOrder => truth.level_error_ml < -500.0 && did(&ending, "engine off"),
                Mistake::BypassNotPinned => setup.sheet.before.cooler_bypass && ending.first_go.is_none(),
                Mistake::AdapterUnplugged => did(&ending, "pulls the adapter") && program.opened == 2,
                Mistake::SensorFrozen => ending.first_go.is_none() && truth.fluid_celsius > high - 3.0,
                Mistake::NothingTold => program.told == ["start", "done"],
                Mistake::DrainedNotFully => truth.level_error_ml.abs() < 60.0,
                Mistake::StaysBelow => did(&ending, "stays below to look for his lamp"),
                Mistake::HoseForgotten => did(&ending, "forgets the exhaust hose"),
                Mistake::HelperStops => did(&ending, "the helper stops the engine"),
                Mistake::LowBefore => did(&ending, "mL more") && truth.level_error_ml.abs() < 60.0,
            };
            assert!(shown, "{what}");
            assert_eq!(outcome(&ending).is_some_and(Outcome::is_right), mistake.recovers(), "{what}");
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_events() {
    for seed in [3, 14, 15] {
        let setup = Setup { keep: Keep::All, ..Setup::draw(seed, &[embedded::eight_speed()]) };
        let (first, second) = (rehearse(&setup), rehearse(&setup));
        assert_eq!(first.1.transcript, second.1.transcript, "seed {seed}");
        assert_eq!(first.0.events, second.0.events, "seed {seed}");
        assert_eq!(first.0.doings, second.0.doings, "seed {seed}");
        let other = Setup::draw(seed + 100, &[embedded::eight_speed()]);
        assert_ne!(first.1.transcript, rehearse(&other).1.transcript, "another seed is another world");
    }
}

#[test]
fn whatever_is_drawn_comes_to_an_end() {
    let sheets = [embedded::six_speed(), embedded::eight_speed()];
    let mut set = 0;
    for seed in 0..60 {
        let setup = Setup { keep: Keep::Nothing, ..Setup::draw(seed, &sheets) };
        let (ending, _) = rehearse(&setup);
        assert!(ending.by_itself, "seed {seed}: {:?}", ending.doings);
        assert!(ending.events.is_empty(), "nothing was to be kept");
        set += usize::from(outcome(&ending).is_some_and(Outcome::is_right));
    }
    assert!(set > 20, "most draws can be set by a careful technician: {set} of 60");
}

#[test]
fn a_go_while_the_fluid_is_outside_the_band_is_seen() {
    // The tiny program believes any sensor. One that sticks inside the band makes it say `go` for ever.
    let mut setup = named(Some(Mistake::ClosedLate), 1);
    setup.faults = vec![Fault::new(FaultKind::SensorFrozen, 0).above(40.0)];
    let (ending, _) = rehearse(&setup);
    let worst = ending.false_go.iter().find(|go| go.is_wrong());
    assert!(worst.is_some_and(|go| go.outside_k > 3.0 && go.true_celsius > 48.0), "{:?}", ending.false_go);
}

/// A program that answers nothing, or refuses everything.
struct Wall {
    refuses: bool,
}

impl Program for Wall {
    fn link_opened(&mut self, _: Mono) {}
    fn link_closed(&mut self, _: Mono, _: &str) {}
    fn bytes(&mut self, _: &[u8], _: Mono) {}
    fn tell(&mut self, told: &Told, _: Mono) -> Word {
        if self.refuses {
            let reason = Refusal::JournalFull;
            return Word::Refused { id: Some(told.id.clone()), reason, says: reason.says().to_owned() };
        }
        Word::Bye { reason: "gone".to_owned() }
    }
    fn wake(&mut self, _: Mono) {}
    fn poll_bytes(&mut self, _: Mono) -> Option<Vec<u8>> {
        None
    }
    fn poll_event(&mut self) -> Option<Event> {
        None
    }
    fn deadline(&self) -> Option<Mono> {
        Some(Mono::ZERO) // always overdue: time must go on all the same
    }
}

#[test]
fn a_program_that_refuses_everything_is_left_in_time() {
    let ending = stage::run(&mut Wall { refuses: true }, &named(None, 1));
    assert!(ending.by_itself && ending.ended.as_secs_f64() < 90.0 * 60.0, "{}", ending.ended);
    assert!(did(&ending, "ends the job by hand"), "{:?}", ending.doings);
}

#[test]
fn a_program_that_never_answers_is_left_in_time() {
    let ending = stage::run(&mut Wall { refuses: false }, &named(None, 1));
    assert!(ending.by_itself && ending.ended.as_secs_f64() < 90.0 * 60.0, "{}", ending.ended);
}
