//! The two seats: the technician under the vehicle and the helper inside. Each is told what *its* hands do.
//!
//! In: the advice and who looks. Out: one sentence, and what comes next. The advice itself is `job`'s.

use events::{Advice, Role, SeatAdvice};
use serde::{Deserialize, Serialize};
use words::Speech;

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
    pub fn sentence(self, said: &SeatAdvice, speech: Speech) -> String {
        said.sentence(self.role(), speech.lang, |v| speech.millilitres(v))
    }
}

/// The message of what comes after, where that is certain.
pub(crate) const fn next(advice: Advice) -> Option<&'static str> {
    Some(match advice {
        Advice::StartJob => "next-stands-level-hose",
        Advice::PrepareVehicle => "next-drain-fill-port-first",
        Advice::ShimStands => "next-measure-how-it-stands",
        Advice::Park => "next-read-the-container",
        Advice::OpenFillPort | Advice::ReadContainer => "next-drain",
        Advice::Drain | Advice::DrainWrong => "next-pipe-back-in",
        Advice::DrainAgain => "next-fill-and-circulate-again",
        Advice::PutPipeIn | Advice::WasPipeOut | Advice::IsPipeIn => "next-fill",
        Advice::Fill | Advice::FillFirst | Advice::PutPinIn => "next-close-up-come-out",
        Advice::CloseUp => "next-come-out-engine-starts",
        Advice::StartEngine => "next-brake-and-selector",
        Advice::HoldBrake | Advice::CycleSelector | Advice::ConfirmOpen => "next-stay-out-until-near",
        Advice::StayClear => "next-go-below-when-near",
        Advice::BeReady => "next-open-at-the-word",
        Advice::ReadGauge => "next-read-once-more",
        Advice::OpenPort | Advice::WatchStream => "next-thin-thread-close",
        Advice::ClosePort => "next-engine-off-jug-plugs",
        Advice::ClosePortWait | Advice::CheckAdapter => "next-open-only-when-right",
        Advice::ClosePortCool | Advice::StopAndCool => "next-let-it-cool",
        Advice::CloseTooMuch => "next-right-plug-pipe-in",
        Advice::FillMore => "next-look-again",
        Advice::Tighten => "next-wipe-dry-look",
        Advice::TakePinOut | Advice::WipeDry => "next-engine-on-look-for-drops",
        Advice::LookForLeaks => "next-lower-and-drive",
        Advice::Refit => "next-drive-a-short-way",
        Advice::TestDrive => "next-finish",
        Advice::Finish => "next-check-again",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::Lang;

    #[test]
    fn no_sentence_on_a_screen_names_a_command_and_each_is_short() {
        for &advice in Advice::ALL {
            for says in [advice.says(), next(advice).map_or("Nothing.", |next| Lang::En.text(next))] {
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
        let metric = Speech::default();
        assert_eq!(
            Seat::Under.sentence(&said, metric),
            "Fill 2.90\u{202f}L of new fluid, the extra included."
        );
        assert_eq!(Seat::Inside.sentence(&said, metric), Advice::Wait.says());
    }
}
