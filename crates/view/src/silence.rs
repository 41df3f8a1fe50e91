//! Who is silent, and what these hands can do about it: the words where no reading comes.
//!
//! In: what keeps the signal from being read, as the daemon told it. Out: a sentence for the reason, one for the hands,
//! two words for the corner. Not here: the troubles themselves and what to try about each (`events`).

use events::{LinkView, Party, Signal, Trouble};

use crate::seat::Seat;

/// Why nothing is read and what to try, in a sentence or two.
pub(crate) fn why(trouble: Trouble, request: Option<&str>) -> String {
    match request {
        Some(request) => {
            format!("{} ({request}). {}", trouble.says().trim_end_matches('.'), trouble.remedy())
        }
        None => format!("{} {}", trouble.says(), trouble.remedy()),
    }
}

/// What to do with the hands where the advice is to look after the adapter. Whoever is silent, an open port comes
/// first.
pub(crate) fn hands(trouble: Trouble, seat: Seat) -> String {
    let first = match seat {
        Seat::Under => "Close the check port if it is open.",
        Seat::Inside => "Leave the engine as it is.",
    };
    format!("{first} {}", act(trouble))
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
        | Trouble::Unsteady
        | Trouble::SearchEndless
        | Trouble::BusTrouble => "Check the adapter's plug.",
        Trouble::Modem | Trouble::Noise => "Check which device is named.",
        Trouble::NotUnderstood
        | Trouble::SendersUnknown
        | Trouble::SenderUnknown
        | Trouble::ProtocolUnknown => "Use another adapter.",
        Trouble::VehicleSilent | Trouble::BusStart => "Check the ignition and the adapter's plug.",
        Trouble::Restarting | Trouble::UnitBusy | Trouble::RefusedNow => "Wait until it answers.",
        Trouble::OnlyRefusals
        | Trouble::UnitSilent
        | Trouble::RefusedUnknown
        | Trouble::RefusedLocked
        | Trouble::Refused
        | Trouble::WrongSender
        | Trouble::NotAddressable
        | Trouble::Undecodable => "Check the sheet.",
    }
}

/// The health of the link where no reading is known: who is silent.
pub(crate) fn corner(link: &LinkView, signal: Option<Signal>) -> String {
    let name = signal.map_or("reading", Signal::word);
    let Some(trouble) = link.trouble else {
        return match (link.up || link.people, &link.identity) {
            (true, _) => format!("no {name} yet"),
            (false, Some(_)) => "vehicle silent".to_owned(),
            (false, None) => "adapter silent".to_owned(),
        };
    };
    match (trouble, trouble.party()) {
        (Trouble::PortGone, _) => "adapter gone".to_owned(),
        (Trouble::AdapterSilent | Trouble::AdapterMute, _) => "adapter silent".to_owned(),
        (Trouble::Modem | Trouble::Noise | Trouble::Loop | Trouble::Talk, _) => "no adapter".to_owned(),
        (_, Party::Link | Party::Adapter) => "adapter in trouble".to_owned(),
        (_, Party::Vehicle) => "vehicle silent".to_owned(),
        (
            Trouble::RefusedUnknown | Trouble::RefusedLocked | Trouble::RefusedNow | Trouble::Refused,
            Party::ControlUnit,
        ) => format!("{name} refused"),
        (_, Party::ControlUnit) => format!("no {name}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_seat_is_told_to_open_a_port_or_to_touch_the_engine() {
        for &trouble in Trouble::ALL {
            let (under, inside) = (hands(trouble, Seat::Under), hands(trouble, Seat::Inside));
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
            let corner = corner(&link, Some(Signal::Coolant));
            assert!(corner.chars().count() <= 18, "{trouble}: {corner}");
        }
    }
}
