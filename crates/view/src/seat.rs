//! The two seats: the technician under the vehicle and the helper inside. Each is told what *its* hands do.
//!
//! In: the advice and who looks. Out: one sentence, and what comes next. The advice itself is `job`'s.

use events::{Advice, Role, SeatAdvice};
use serde::{Deserialize, Serialize};
use units::text::{UnitSystem, show_millilitres};

/// Who looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seat {
    /// The technician under the vehicle.
    #[default]
    Under,
    /// The helper in the vehicle.
    Inside,
}

impl Seat {
    /// The role that tells from this seat.
    pub const fn role(self) -> Role {
        match self {
            Self::Under => Role::Under,
            Self::Inside => Role::Inside,
        }
    }

    /// What these hands do now.
    pub fn sentence(self, said: &SeatAdvice, units: UnitSystem) -> String {
        said.sentence(self.role(), |v| show_millilitres(v, units))
    }
}

/// What comes after, where that is certain.
pub(crate) const fn next(advice: Advice) -> Option<&'static str> {
    Some(match advice {
        Advice::StartJob => "Stands, level, exhaust hose.",
        Advice::PrepareVehicle => "Drain, fill port first.",
        Advice::ShimStands => "Measure how it stands.",
        Advice::Park => "Read the container.",
        Advice::OpenFillPort | Advice::ReadContainer => "Drain.",
        Advice::Drain | Advice::DrainWrong => "Pipe back in, by hand.",
        Advice::DrainAgain => "Fill again, and let it circulate again.",
        Advice::PutPipeIn | Advice::WasPipeOut | Advice::IsPipeIn => "Fill what came out, and the extra.",
        Advice::Fill | Advice::FillFirst | Advice::PutPinIn => "Both plugs in, tray away, come out.",
        Advice::CloseUp => "Come out. Then the engine starts.",
        Advice::StartEngine => "Foot on the brake, selector through its positions.",
        Advice::HoldBrake | Advice::CycleSelector | Advice::ConfirmOpen => {
            "Stay out until the right temperature is near."
        }
        Advice::StayClear => "Go below when the right temperature is near.",
        Advice::BeReady => "Open the check port at the word, not before.",
        Advice::ReadGauge => "Wipe it, and read it once more.",
        Advice::OpenPort | Advice::WatchStream => "Thin thread: close it by hand.",
        Advice::ClosePort => "Engine off, read the jug, tighten the plugs.",
        Advice::ClosePortWait | Advice::CheckAdapter => "Open again only at the right temperature.",
        Advice::ClosePortCool | Advice::StopAndCool => "Let it cool; the right temperature comes again.",
        Advice::CloseTooMuch => "Engine off, read the jug. Right plug, pipe in?",
        Advice::FillMore => "Look again at the right temperature.",
        Advice::Tighten => "Wipe it dry, come out, look for leaks.",
        Advice::TakePinOut | Advice::WipeDry => "Engine on again, look for drops.",
        Advice::LookForLeaks => "Come out. Then it is lowered and driven.",
        Advice::Refit => "Lower it, drive a short way.",
        Advice::TestDrive => "Finish the report.",
        Advice::Finish => "Check again on the day in the report, cold.",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_sentence_on_a_screen_names_a_command_and_each_is_short() {
        for &advice in Advice::ALL {
            for says in [advice.says(), next(advice).unwrap_or("Nothing.")] {
                assert!(!says.contains('`') && says.ends_with(['.', '?']), "{advice}: {says}");
                let sentences: Vec<&str> = says.split_inclusive(['.', '?']).collect();
                assert!(sentences.len() <= 2, "{advice}: one sentence, and one more: {says}");
                for sentence in sentences {
                    let words = sentence.split_whitespace().count();
                    assert!(words <= 12, "{advice}: {words} words are not read under a vehicle: {sentence}");
                }
            }
        }
    }

    #[test]
    fn an_amount_stands_in_the_sentence() {
        let said = SeatAdvice {
            millilitres: units::Millilitres::from_steps(2_900),
            ..SeatAdvice::to(Advice::Fill, Advice::Wait)
        };
        let metric = UnitSystem::Metric;
        assert_eq!(Seat::Under.sentence(&said, metric), "Fill 2.90\u{202f}L: what came out, and the extra.");
        assert_eq!(Seat::Inside.sentence(&said, metric), Advice::Wait.says());
    }
}
