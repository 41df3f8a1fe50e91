//! Who is silent, and what these hands can do about it: the words where no reading comes.
//!
//! In: what keeps the signal from being read, as the daemon told it. Out: a sentence for the reason, one for the hands,
//! two words for the corner. Not here: the troubles themselves and what to try about each (`events`).

use events::{LinkView, Party, Signal, Trouble};
use words::{Speech, args};

use crate::seat::Seat;

/// Why nothing is read and what to try, in a sentence or two.
pub(crate) fn why(trouble: Trouble, request: Option<&str>, speech: Speech) -> String {
    let (says, remedy) = (speech.of(trouble), speech.lang.also(trouble, "remedy", trouble.remedy()));
    match request {
        Some(request) => {
            let (bare, stop) =
                says.char_indices().next_back().map_or((says, ""), |(at, _)| says.split_at(at));
            format!("{bare} ({request}){stop} {remedy}")
        }
        None => format!("{says} {remedy}"),
    }
}

/// What to do with the hands where the advice is to look after the adapter. Whoever is silent, an open port comes
/// first.
pub(crate) fn hands(trouble: Trouble, seat: Seat, speech: Speech) -> String {
    let first = match seat {
        Seat::Under => "close-port-if-open",
        Seat::Inside => "leave-the-engine",
    };
    format!("{} {}", speech.text(first), speech.text(act(trouble)))
}

const fn act(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::PortGone
        | Trouble::AdapterSilent
        | Trouble::AdapterMute
        | Trouble::OutOfStep
        | Trouble::AdapterFault
        | Trouble::Loop
        | Trouble::Talk
        | Trouble::Unreadable
        | Trouble::LateReply
        | Trouble::Interrupted
        | Trouble::Spoilt
        | Trouble::OtherRequest
        | Trouble::Repeats
        | Trouble::Unsteady
        | Trouble::SearchEndless
        | Trouble::BusTrouble => "check-adapter-plug",
        Trouble::Modem | Trouble::Noise => "check-which-device",
        Trouble::NotUnderstood
        | Trouble::SendersUnknown
        | Trouble::SenderUnknown
        | Trouble::ProtocolUnknown => "use-another-adapter",
        Trouble::VehicleSilent | Trouble::BusStart => "check-ignition-and-plug",
        Trouble::Restarting | Trouble::UnitBusy | Trouble::RefusedNow => "wait-until-it-answers",
        Trouble::OnlyRefusals
        | Trouble::UnitSilent
        | Trouble::RefusedUnknown
        | Trouble::RefusedLocked
        | Trouble::Refused
        | Trouble::WrongSender
        | Trouble::NotAddressable
        | Trouble::Undecodable => "check-the-sheet",
    }
}

/// The health of the link where no reading is known: who is silent.
pub(crate) fn corner(link: &LinkView, signal: Option<Signal>, speech: Speech) -> String {
    let name = || named(signal, speech);
    let Some(trouble) = link.trouble else {
        return match (link.up || link.people, &link.identity) {
            (true, _) => speech.with("none-yet", &args!(signal = name())),
            (false, Some(_)) => speech.text("vehicle-silent").to_owned(),
            (false, None) => speech.text("adapter-silent").to_owned(),
        };
    };
    let message = match (trouble, trouble.party()) {
        (Trouble::PortGone, _) => "adapter-gone",
        (Trouble::AdapterSilent | Trouble::AdapterMute, _) => "adapter-silent",
        (Trouble::Modem | Trouble::Noise | Trouble::Loop | Trouble::Talk, _) => "no-adapter",
        (_, Party::Link | Party::Adapter) => "adapter-in-trouble",
        (_, Party::Vehicle) => "vehicle-silent",
        (
            Trouble::RefusedUnknown | Trouble::RefusedLocked | Trouble::RefusedNow | Trouble::Refused,
            Party::ControlUnit,
        ) => return speech.with("signal-refused", &args!(signal = name())),
        (_, Party::ControlUnit) => return speech.with("signal-missing", &args!(signal = name())),
    };
    speech.text(message).to_owned()
}

/// The signal's name in a corner.
pub(crate) fn named(signal: Option<Signal>, speech: Speech) -> &'static str {
    speech.text(match signal {
        None => "name-reading",
        Some(Signal::Fluid) => "name-fluid",
        Some(Signal::Coolant) => "name-coolant",
        Some(Signal::Spot) => "name-spot",
        Some(Signal::Display) => "name-display",
        Some(Signal::Lamp) => "name-lamp",
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_seat_is_told_to_open_a_port_or_to_touch_the_engine() {
        for &trouble in Trouble::ALL {
            let (under, inside) = (
                hands(trouble, Seat::Under, Speech::default()),
                hands(trouble, Seat::Inside, Speech::default()),
            );
            assert!(under.starts_with("Close the check port if it is open."), "{trouble}");
            assert!(inside.starts_with("Leave the engine as it is."), "{trouble}");
            let silent = matches!(trouble, Trouble::VehicleSilent | Trouble::BusStart);
            assert_eq!(under.contains("ignition") || inside.contains("ignition"), silent, "{trouble}");
        }
    }

    #[test]
    fn the_corner_names_who_is_silent_in_a_few_letters() {
        for &trouble in Trouble::ALL {
            let link = LinkView { trouble: Some(trouble), ..LinkView::default() };
            let corner = corner(&link, Some(Signal::Coolant), Speech::default());
            assert!(corner.chars().count() <= 18, "{trouble}: {corner}");
        }
    }
}
