//! Harmful advice, judged by the truth: who is below, whether the engine turns, whether the port is open, what is in
//! it.
//!
//! In: each advice as it is said, the technician's place, the world. Out: the first that would have harmed whoever
//! obeyed it, with why. Knows nothing of the program's own guard (`job::guard`), on purpose: the rows are written once
//! more, from what is so and not from what was told. A person needs some seconds between a deed and its word; what is
//! said within them is not held against the program.
//! Not here: a wrong `go` (`stage.rs`).

use events::{Advice, Role, SeatAdvice, Sheet};
use units::Mono;

use crate::sump::Port;
use crate::thermal::Engine;
use crate::world::{Plug, World};

/// Where the one below is, and whether the vehicle stands on its stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// He has a hand or his head under it.
    pub below: bool,
    /// It stands on four stands.
    pub raised: bool,
}

/// Looks at what is said, with the eyes of the simulation.
#[derive(Debug, Clone)]
pub struct Harm {
    tolerance_ml: f64,
    /// Since when the port is truly open.
    open_since: Option<Mono>,
    /// Since when the engine truly stands.
    off_since: Option<Mono>,
    /// What was in it when it was last full to the rim as a start was said, as mL at 15 °C: with so much it may be started again,
    /// wherever the fluid stands.
    enough_15: Option<f64>,
    first: Option<String>,
}

impl Harm {
    /// Nothing said yet.
    pub const fn new(sheet: &Sheet) -> Self {
        Self {
            tolerance_ml: sheet.check.tolerance_ml,
            open_since: None,
            off_since: None,
            enough_15: None,
            first: None,
        }
    }

    /// Time has passed.
    pub fn look(&mut self, world: &World, now: Mono) {
        self.open_since = match world.check_port() {
            Port::Open => self.open_since.or(Some(now)),
            Port::Closed => None,
        };
        self.off_since = match world.engine() {
            Engine::Off => self.off_since.or(Some(now)),
            Engine::Running => None,
        };
    }

    /// This is said now.
    pub fn hear(&mut self, said: &SeatAdvice, place: Place, world: &World, now: Mono) {
        self.look(world, now);
        for seat in [Role::Under, Role::Inside] {
            let advice = said.at(seat);
            if let Some(why) = self.harms(advice, seat, place, world, now) {
                self.first.get_or_insert_with(|| format!("`{advice}` to {seat} at {now}: {why}"));
            }
            if advice == Advice::StartEngine && is_full(world) {
                self.enough_15 = Some(world.mass_15());
            }
        }
    }

    /// The first that would have harmed.
    pub fn into_first(self) -> Option<String> {
        self.first
    }

    fn harms(
        &self,
        advice: Advice,
        seat: Role,
        place: Place,
        world: &World,
        now: Mono,
    ) -> Option<&'static str> {
        use Advice as A;
        let running = world.engine() == Engine::Running;
        let open_for_long = self.open_since.is_some_and(|at| now.since(at).as_secs() >= TOLD_WITHIN_S);
        // What the vehicle shows of its engine comes with the next readings.
        let off_for_long = self.off_since.is_some_and(|at| now.since(at).as_secs() >= SHOWN_WITHIN_S);
        let turns = matches!(advice, A::StartEngine | A::CycleSelector | A::TestDrive);
        let goes_below = matches!(
            advice,
            A::OpenFillPort
                | A::Drain
                | A::DrainAgain
                | A::PutPipeIn
                | A::WasPipeOut
                | A::PutPinIn
                | A::CloseUp
                | A::BeReady
                | A::OpenPort
                | A::WatchStream
                | A::Tighten
                | A::TakePinOut
                | A::LookForLeaks
        );
        let out = world.out();
        let short = out.drained_15 - out.filled_15 - LEFT_TO_JUGS_ML;
        let enough = self.enough_15.is_some_and(|ml| world.mass_15() >= ml - LEFT_TO_JUGS_ML);
        let rows = [
            (turns && place.below, "he is below"),
            (goes_below && seat == Role::Under && !place.raised, "it does not stand on its stands"),
            // Full to the rim with the engine off, the pump draws no air: the rest comes once it runs. Stopped and started again it
            // stands lower, because converter and cooler still hold some of it; what is in it counts then.
            (
                advice == A::StartEngine && !running && short > 0.0 && !is_full(world) && !enough,
                "less was filled than came out",
            ),
            (advice == A::StartEngine && open_for_long, "the check port is open"),
            (
                matches!(advice, A::StopEngine | A::StopAndCool) && running && open_for_long,
                "the check port is open: it would drain back and run out",
            ),
            (advice == A::OpenPort && off_for_long, "the engine is off"),
            (
                advice == A::TestDrive && world.level_error_ml() < -(self.tolerance_ml + LEFT_TO_JUGS_ML),
                "it is low",
            ),
            (advice == A::TestDrive && world.bypass_pin() == Plug::In, "the bypass pin is in"),
        ];
        rows.into_iter().find(|(holds, _)| *holds).map(|(_, why)| why)
    }
}

/// It stands at the rim with what two jugs may hide.
fn is_full(world: &World) -> bool {
    world.excess_ml() >= -LEFT_TO_JUGS_ML
}

/// What two jugs read together may hide, mL.
/// Own choice: four times what one is read to.
const LEFT_TO_JUGS_ML: f64 = 100.0;
/// So long a person may need between a deed and its word, s.
/// Own choice: out from below, gloves off.
const TOLD_WITHIN_S: u64 = 25;
/// So long the vehicle may need to show that its engine stands, s.
/// Own choice: polls of a second on the slowest bus, with one adapter's way back.
const SHOWN_WITHIN_S: u64 = 10;

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;
    use crate::embedded;
    use crate::world::Vehicle;

    fn world() -> World {
        let sheet = embedded::eight_speed();
        World::new(&sheet, Vehicle::typical(&sheet, 18.0), None, &[], 1)
    }

    fn said(world: &World, place: Place, under: Advice, inside: Advice, after_s: u64) -> Option<String> {
        let mut harm = Harm::new(&embedded::eight_speed());
        harm.look(world, Mono::from_secs(10));
        harm.hear(&SeatAdvice::to(under, inside), place, world, Mono::from_secs(10 + after_s));
        harm.into_first()
    }

    #[test]
    fn each_row_forbids_by_what_is_so_and_lets_go_where_it_is_not() {
        use Advice as A;
        type Prepare = fn(&mut World);
        let (out, below) = (Place { below: false, raised: true }, Place { below: true, raised: true });
        let lowered = Place { below: false, raised: false };
        let nothing: Prepare = |_| {};
        let open: Prepare = |w| w.open_check_port();
        let idling: Prepare = |w| w.start_engine();
        let idling_open: Prepare = |w| {
            w.start_engine();
            w.open_check_port();
        };
        let drained: Prepare = |w| {
            w.drain(1.0);
        };
        let pinned: Prepare = |w| w.pin_bypass(Plug::In);
        let cases: &[(Prepare, Place, A, A, Option<&str>)] = &[
            (nothing, below, A::StayOut, A::StartEngine, Some("he is below")),
            (nothing, out, A::StayOut, A::StartEngine, None),
            (idling, below, A::StayOut, A::CycleSelector, Some("he is below")),
            (nothing, lowered, A::Drain, A::KeepOff, Some("does not stand")),
            (nothing, out, A::Drain, A::KeepOff, None),
            (drained, out, A::StayOut, A::StartEngine, Some("less was filled")),
            (open, out, A::StayOut, A::StartEngine, Some("port is open")),
            (idling_open, out, A::ClosePort, A::StopEngine, Some("drain back")),
            (idling, out, A::Tighten, A::StopEngine, None),
            (nothing, out, A::OpenPort, A::KeepIdling, Some("engine is off")),
            (idling, out, A::OpenPort, A::KeepIdling, None),
            (drained, out, A::TestDrive, A::TestDrive, Some("it is low")),
            (pinned, out, A::TestDrive, A::TestDrive, Some("pin is in")),
            (nothing, out, A::TestDrive, A::TestDrive, None),
        ];
        for (prepare, place, under, inside, want) in cases {
            let mut world = world();
            prepare(&mut world);
            let found = said(&world, *place, *under, *inside, 60);
            let held = found.as_deref().zip(*want).is_some_and(|(found, want)| found.contains(want));
            assert!(
                held || (found.is_none() && want.is_none()),
                "{under} / {inside}: {found:?}, not {want:?}"
            );
        }
        // Within the seconds that a word needs nothing is held against the program.
        let mut world = world();
        idling_open(&mut world);
        assert_eq!(said(&world, out, A::ClosePort, A::StopEngine, 5), None);
    }

    #[test]
    fn started_again_with_the_same_amount_in_it_is_no_harm_and_with_less_it_is() {
        let mut world = world();
        let (place, start) =
            (Place { below: false, raised: true }, SeatAdvice::to(Advice::StayOut, Advice::StartEngine));
        let mut harm = Harm::new(&embedded::eight_speed());
        let mut say = |world: &World, at_s| harm.hear(&start, place, world, Mono::from_secs(at_s));
        // Half drained, and filled to the rim with the engine off: the converter's share is missing still.
        world.drain(0.5);
        while world.excess_ml() < 0.0 {
            world.fill(50.0, 20.0);
        }
        say(&world, 10);
        // Driven round by the pump, then stopped for a moment.
        world.start_engine();
        world.advance(Mono::from_secs(70));
        world.stop_engine();
        assert!(world.excess_ml() < -LEFT_TO_JUGS_ML, "the converter holds {} mL of it", -world.excess_ml());
        say(&world, 80);
        assert_eq!(harm.first, None);
        let mut say = |world: &World, at_s| harm.hear(&start, place, world, Mono::from_secs(at_s));
        world.let_out(2.0 * LEFT_TO_JUGS_ML);
        say(&world, 90);
        assert!(harm.first.is_some_and(|why| why.contains("less was filled")));
    }
}
