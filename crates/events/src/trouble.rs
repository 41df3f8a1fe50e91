//! What keeps the signal from being read, and who has to be looked at. To add a trouble: one row here; the compiler
//! names the rest.
//!
//! Not here: how it was noticed (`adapter`, `service`), what it says of an adapter's worth (`probe`), why the verdict
//! is what it is ([`crate::Reason`]).

use units::words;

words! {
    /// What keeps the signal that the check is gated on from being read.
    json Trouble {
        PortGone "port-gone" "The connection to the adapter is cut.",
        AdapterSilent "adapter-silent" "The adapter does not answer.",
        AdapterMute "adapter-mute" "The adapter says nothing, though its port was opened anew.",
        OutOfStep "out-of-step" "The adapter answers, but not to what it is asked.",
        AdapterFault "adapter-fault" "The adapter reports a fault of its own.",
        Restarting "restarting" "The adapter has lost its settings and is set up again.",
        Modem "modem" "A modem answers at this port.",
        Loop "loop" "Only what is sent comes back: a bare cable, or an adapter without supply.",
        Noise "noise" "Only noise comes from this port.",
        Talk "talk" "What answers takes no setting of a diagnostic adapter.",
        NotUnderstood "not-understood" "The adapter does not understand what the vehicle is to be asked.",
        SendersUnknown "senders-unknown" "Several control units answer. The adapter does not say which sent what.",
        SenderUnknown "sender-unknown" "The adapter does not say which control unit answers.",
        ProtocolUnknown "protocol-unknown" "The vehicle answers, but the adapter does not say on which bus.",
        Unreadable "unreadable" "The vehicle answers, but the adapter's text of it cannot be read.",
        LateReply "late-reply" "The adapter does not end its replies in time.",
        Interrupted "interrupted" "The adapter breaks off what it is asked.",
        Spoilt "spoilt" "The replies are damaged on their way.",
        OtherRequest "other-request" "The answers belong to other requests.",
        Repeats "repeats" "The adapter only repeats old answers.",
        Unsteady "unsteady" "The value differs from one reply to the next.",
        VehicleSilent "vehicle-silent" "The vehicle does not answer.",
        SearchEndless "search-endless" "The search for the vehicle does not come to an end.",
        BusStart "bus-start" "The vehicle's bus does not start.",
        BusTrouble "bus-trouble" "The vehicle's bus disturbs what is sent.",
        OnlyRefusals "only-refusals" "The vehicle refuses even the first request.",
        UnitSilent "unit-silent" "No control unit answers this request.",
        UnitBusy "unit-busy" "The control unit asks for more time and does not answer.",
        RefusedUnknown "refused-unknown" "The control unit refuses: it does not know this identifier.",
        RefusedLocked "refused-locked" "The control unit refuses: it keeps this value locked.",
        RefusedNow "refused-now" "The control unit refuses for now: conditions are not right.",
        Refused "refused" "The control unit refuses this request.",
        WrongSender "wrong-sender" "Another control unit answers than the one that was asked.",
        NotAddressable "not-addressable" "The sheet's control unit cannot be addressed on this vehicle's bus.",
        Undecodable "undecodable" "The answer is not built as the sheet says.",
    }
}

/// Who has to be looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Party {
    /// Port, cable, radio.
    Link,
    /// The adapter.
    Adapter,
    /// The vehicle: ignition, connector, bus.
    Vehicle,
    /// One control unit of it, or what the sheet says of that unit.
    ControlUnit,
}

impl Trouble {
    /// Who has to be looked at. Where two are possible it is the one who is looked at first.
    pub const fn party(self) -> Party {
        match self {
            Self::PortGone | Self::Modem | Self::Noise => Party::Link,
            Self::AdapterSilent
            | Self::AdapterMute
            | Self::OutOfStep
            | Self::AdapterFault
            | Self::Restarting
            | Self::Loop
            | Self::Talk
            | Self::NotUnderstood
            | Self::SendersUnknown
            | Self::SenderUnknown
            | Self::ProtocolUnknown
            | Self::Unreadable
            | Self::LateReply
            | Self::Interrupted
            | Self::Spoilt
            | Self::OtherRequest
            | Self::Repeats
            | Self::Unsteady => Party::Adapter,
            Self::VehicleSilent
            | Self::SearchEndless
            | Self::BusStart
            | Self::BusTrouble
            | Self::OnlyRefusals => Party::Vehicle,
            Self::UnitSilent
            | Self::UnitBusy
            | Self::RefusedUnknown
            | Self::RefusedLocked
            | Self::RefusedNow
            | Self::Refused
            | Self::WrongSender
            | Self::NotAddressable
            | Self::Undecodable => Party::ControlUnit,
        }
    }

    /// What to try about it in the middle of a job. Nobody is told to start or to stop the engine for the sake of a reading:
    /// there may be no fluid in it yet, and somebody below.
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::PortGone => "Check the adapter's plug and cable; it comes back by itself.",
            Self::AdapterSilent => "Check the adapter's plug; it comes back by itself.",
            Self::AdapterMute | Self::OutOfStep | Self::AdapterFault | Self::Talk | Self::Repeats => {
                "Pull the adapter and plug it in again; if that does not help, use another one."
            }
            Self::Restarting => "It comes back by itself; if it happens again and again, check its plug.",
            Self::Modem => "Name another device: this port is not the adapter's.",
            Self::Loop => "Plug the adapter into the vehicle: there it gets its supply.",
            Self::Noise => "Name the adapter's rate with its device, or another device.",
            Self::NotUnderstood | Self::ProtocolUnknown => "Use another adapter.",
            Self::SendersUnknown | Self::SenderUnknown => "Use another adapter, one that names the senders.",
            Self::Unreadable | Self::LateReply | Self::Interrupted | Self::OtherRequest => {
                "It is asked again by itself; if it stays so, use another adapter."
            }
            Self::Spoilt | Self::Unsteady => {
                "Check plug and cable; it is asked again by itself. If it stays so, use another adapter."
            }
            Self::VehicleSilent | Self::BusStart => {
                "Check the ignition, and that the adapter sits firmly in the connector."
            }
            Self::SearchEndless => {
                "It is tried again by itself; check that the adapter sits firmly in the connector."
            }
            Self::BusTrouble => "Check that the adapter sits firmly. Nothing else may hang on the connector.",
            Self::OnlyRefusals => "Some vehicles lock their connector; then only a thermometer is left.",
            Self::UnitSilent => "The vehicle itself answers: check header and identifier in the sheet.",
            Self::UnitBusy => "If it stays so, check the identifier in the sheet.",
            Self::RefusedLocked => "Use a sheet with coolant or thermometer.",
            Self::RefusedNow => "Go on; it may answer at the step where the engine runs.",
            Self::RefusedUnknown | Self::Refused => "Check identifier and header in the sheet.",
            Self::WrongSender | Self::NotAddressable => "Check the header in the sheet.",
            Self::Undecodable => "Check byte and length of the identifier in the sheet.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ignition_and_engine_are_named_only_where_the_vehicle_is_silent_or_wants_them() {
        for &trouble in Trouble::ALL {
            let told = format!("{} {}", trouble.says(), trouble.remedy()).to_lowercase();
            let silent = matches!(trouble, Trouble::VehicleSilent | Trouble::BusStart);
            assert_eq!(told.contains("ignition"), silent, "{trouble}: {told}");
            for act in ["start the engine", "stop the engine", "switch on", "switch off", "open the"] {
                assert!(!told.contains(act), "{trouble}: {told}");
            }
        }
    }

    #[test]
    fn another_adapter_is_asked_for_only_where_the_adapter_is_the_trouble() {
        for &trouble in Trouble::ALL {
            let another =
                trouble.remedy().contains("another adapter") || trouble.remedy().contains("another one");
            assert!(!another || trouble.party() == Party::Adapter, "{trouble}: {}", trouble.remedy());
            let sheet = trouble.remedy().contains("sheet");
            assert!(!sheet || trouble.party() == Party::ControlUnit, "{trouble}: {}", trouble.remedy());
        }
    }

    #[test]
    fn each_is_said_in_words_that_fit_a_small_screen() {
        for &trouble in Trouble::ALL {
            assert!(trouble.says().ends_with('.') && trouble.remedy().ends_with('.'), "{trouble}");
            let told = trouble.says().chars().count() + trouble.remedy().chars().count();
            // Three lines beside the pipe on 80 columns; the particulars of a request take half a line.
            let room = if trouble.party() == Party::ControlUnit { 120 } else { 145 };
            assert!(told <= room, "{trouble}: {told}");
        }
    }
}
