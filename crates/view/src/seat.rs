//! The two seats: the technician under the vehicle and the helper inside. Each is told what *its* hands do.
//!
//! In: the advice and who looks. Out: one sentence, and what comes next. The advice itself is `job`'s.

use events::{Advice, Role, Sheet};
use serde::{Deserialize, Serialize};

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
    pub fn sentence(self, advice: Advice, sheet: Option<&Sheet>) -> String {
        match self {
            Self::Under => without_the_command(advice.says()),
            Self::Inside => inside(advice, sheet),
        }
    }
}

/// The sentences of `events` name the command line's word where it is what comes next; a screen has buttons.
fn without_the_command(says: &str) -> String {
    for cut in [", then tell `", ": tell `"] {
        if let Some((before, _)) = says.split_once(cut) {
            return format!("{before}.");
        }
    }
    says.to_owned()
}

fn inside(advice: Advice, sheet: Option<&Sheet>) -> String {
    let text = match advice {
        Advice::StartJob | Advice::PrepareVehicle => "Not needed inside yet. The vehicle is made ready.",
        Advice::Drain | Advice::Fill | Advice::FillMore => {
            "Not needed inside yet. Leave the engine as it is."
        }
        Advice::DrainAgain => "Stop the engine. It is drained and filled once more.",
        Advice::StartEngine => "Start the engine and let it idle. Selector stays where it is.",
        Advice::CycleSelector => {
            let selector = sheet.and_then(|s| s.before.selector.as_ref());
            return match selector {
                Some(s) => format!("Hold the brake. Move the selector, wait {} s at each.", s.dwell_s),
                None => "Hold the brake.".to_owned(),
            };
        }
        Advice::ConfirmOpen => "Let it idle. Something is still open below.",
        Advice::StayClear | Advice::BeReady => "Let it idle, foot off the accelerator.",
        Advice::OpenPort | Advice::WatchStream => "Keep it idling. Touch nothing until the port is closed.",
        Advice::ClosePort | Advice::ClosePortWait => "Keep it idling. The port is being closed.",
        Advice::ClosePortCool | Advice::StopAndCool => "Stop the engine. The fluid is too hot.",
        Advice::CheckAdapter => "Leave the engine as it is. Check the adapter's plug.",
        Advice::CheckSensor => "Let it idle. The reading is being checked below.",
        Advice::Tighten => "Stop the engine. The plugs are being tightened.",
        Advice::TestDrive => "Wait until the vehicle is lowered, then drive a short distance.",
        Advice::Finish | Advice::Recheck | Advice::SetAgain => "Engine off. Nothing more to do inside.",
    };
    text.to_owned()
}

/// What comes after, where that is certain.
pub(crate) const fn next(advice: Advice) -> Option<&'static str> {
    Some(match advice {
        Advice::StartJob => "Stands, level, exhaust.",
        Advice::PrepareVehicle => "Drain, fill port first.",
        Advice::Drain => "Fill what came out and the margin.",
        Advice::DrainAgain => "Fill again, and let it circulate again.",
        Advice::Fill => "Start the engine and let it idle.",
        Advice::StartEngine => "Brake held, selector through its positions.",
        Advice::CycleSelector | Advice::ConfirmOpen => "Stay clear and wait for the window.",
        Advice::StayClear => "Under the vehicle when the window is near.",
        Advice::BeReady => "Open the check port at go, not before.",
        Advice::OpenPort => "Close the check port at the trickle.",
        Advice::WatchStream => "At the trickle: close it, hand-tight.",
        Advice::ClosePort => "Engine off, read the jug, tighten the plugs.",
        Advice::ClosePortWait | Advice::CheckAdapter => "Open again only at go.",
        Advice::ClosePortCool | Advice::StopAndCool => {
            "Top up what ran out too much; the window comes again."
        }
        Advice::FillMore => "Look again inside the window.",
        Advice::Tighten => "Lower it, drive a short distance, look for leaks.",
        Advice::TestDrive => "Write the record.",
        Advice::Finish => "Recheck on the day that the record names.",
        Advice::CheckSensor | Advice::Recheck | Advice::SetAgain => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_sentence_on_a_screen_names_a_command() {
        for &advice in Advice::ALL {
            for seat in [Seat::Under, Seat::Inside] {
                let says = seat.sentence(advice, None);
                assert!(!says.contains('`') && says.ends_with('.'), "{advice}, {seat:?}: {says}");
            }
            assert!(next(advice).is_none_or(|n| n.ends_with('.')), "{advice}");
        }
    }

    #[test]
    fn inside_nobody_is_told_to_open_or_close_the_port() {
        for &advice in Advice::ALL {
            let says = Seat::Inside.sentence(advice, None);
            assert!(!says.contains("Open the") && !says.contains("Close the"), "{advice}: {says}");
        }
    }
}
