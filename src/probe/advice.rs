//! What to try about each trouble, for somebody who has to decide about an adapter.
//!
//! In: the trouble. Out: a sentence. The compiler names a trouble without one. Not here: what somebody in the middle of
//! a job is told (`events`), whether the adapter is to be sent back (`worth.rs`).

use adapter::{Latency, Quirk};
use events::Trouble;
use serde::Serialize;

/// What to try.
pub const fn about(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::PortGone => {
            "Check plug and cable, then probe again; another cable shows whether it is the adapter."
        }
        Trouble::AdapterSilent | Trouble::AdapterMute => {
            "Plug the adapter into the vehicle, where it gets its supply, and check that the device is the right one. If it stays silent with another cable too, send it back."
        }
        Trouble::OutOfStep | Trouble::AdapterFault | Trouble::LateReply | Trouble::Repeats => {
            "Unplug it, wait some seconds, plug it in and probe again. If the report is the same, send it back."
        }
        Trouble::Restarting => {
            "Check that it sits firmly in the connector and that the battery is charged, then probe again."
        }
        Trouble::Modem => "Name the adapter's own device with --device.",
        Trouble::Loop => {
            "Plug the adapter into the vehicle, where it gets its supply. A bare cable does the same: it is of no use here."
        }
        Trouble::Noise => "Name the adapter's rate, as in --device /dev/ttyUSB0@115200, or another device.",
        Trouble::Talk => "Check that the device is the adapter's. If it is, send the adapter back.",
        Trouble::NotUnderstood => "Use another adapter: this one cannot ask a vehicle anything.",
        Trouble::SendersUnknown | Trouble::SenderUnknown => {
            "Use another adapter for this vehicle: where several control units answer, their names are needed."
        }
        Trouble::ProtocolUnknown | Trouble::Unreadable => {
            "Probe again. If the report is the same, use another adapter: the vehicle does answer."
        }
        Trouble::Interrupted | Trouble::OtherRequest => {
            "Close other programs that use the adapter, then probe again. If the report is the same, use another adapter."
        }
        Trouble::Spoilt | Trouble::Unsteady => {
            "Try another cable, away from ignition parts, then probe again. If the report is the same, use another adapter."
        }
        Trouble::VehicleSilent | Trouble::BusStart => {
            "Check that the ignition is on and that the adapter sits firmly in the connector, then probe again. Another vehicle shows whether it is the adapter: cheap ones often lack the older buses."
        }
        Trouble::SearchEndless => {
            "Check that the adapter sits firmly in the connector, then probe again. Another vehicle shows whether it is the adapter."
        }
        Trouble::BusTrouble => {
            "Unplug whatever else hangs on the vehicle's connector, then probe again. Another vehicle shows whether it is the adapter."
        }
        Trouble::OnlyRefusals => {
            "Try another vehicle: some lock their connector, and no adapter reads anything there."
        }
        Trouble::UnitSilent => {
            "Check header, service and identifier of the sheet. Without --sheet the coolant temperature is read, which shows whether the adapter works."
        }
        Trouble::UnitBusy => {
            "Probe again after a minute; if the report is the same, check the identifier of the sheet."
        }
        Trouble::RefusedUnknown | Trouble::Refused => {
            "Check identifier and header of the sheet: this control unit does not know the one that is asked for."
        }
        Trouble::RefusedLocked => {
            "Use a sheet that gates on coolant or on a thermometer: no adapter reads a value that is locked."
        }
        Trouble::RefusedNow => {
            "Probe again later. Some values are told only while the engine runs; start it only where that does no harm."
        }
        Trouble::WrongSender => "Check the header of the sheet.",
        Trouble::NotAddressable => "Check the header of the sheet: it is written for another kind of bus.",
        Trouble::Undecodable => "Check byte and length of the identifier in the sheet.",
    }
}

/// What an adapter cannot do, and what to do instead.
#[derive(Debug, Clone, Serialize, PartialEq, Eq)]
pub struct Lack {
    /// What it cannot do.
    pub cannot: String,
    /// What to do instead.
    pub instead: String,
}

/// What follows from quirks and from the USB chip.
pub fn lacks(quirks: &[Quirk], chip: Option<Latency>) -> Vec<Lack> {
    let mut all = Vec::new();
    let mut say = |cannot: &str, instead: &str| {
        all.push(Lack { cannot: cannot.to_owned(), instead: instead.to_owned() })
    };
    for quirk in quirks {
        match quirk {
            Quirk::NoHeaders => say(
                "It does not say which control unit answers.",
                "Use it only at vehicles where one control unit answers; elsewhere nothing is read.",
            ),
            Quirk::NoFc => say(
                "Long replies of unusual control units do not come.",
                "Use another adapter only if the sheet's header lies outside 7E0 to 7E7.",
            ),
            Quirk::NoVolt => {
                say("It cannot tell the battery voltage.", "Do nothing: the job does not rest on it.")
            }
            _ => {}
        }
    }
    if let Some(Latency::Fixed(millis)) = chip {
        say(
            &format!(
                "The USB chip holds every reply back for up to {millis} ms, and this user may not change that."
            ),
            "Do nothing, or give the port's group the right to write latency_timer by a udev rule: docs/adapters.md.",
        );
    }
    all
}

#[cfg(test)]
mod tests {
    use events::Party;

    use super::*;

    /// Each trouble, and words that its advice must hold.
    const ROWS: &[(Trouble, &[&str])] = &[
        (Trouble::PortGone, &["plug and cable"]),
        (Trouble::AdapterSilent, &["into the vehicle", "send it back"]),
        (Trouble::AdapterMute, &["into the vehicle", "send it back"]),
        (Trouble::OutOfStep, &["Unplug it", "send it back"]),
        (Trouble::AdapterFault, &["Unplug it", "send it back"]),
        (Trouble::Restarting, &["sits firmly", "battery"]),
        (Trouble::Modem, &["--device"]),
        (Trouble::Loop, &["into the vehicle", "bare cable"]),
        (Trouble::Noise, &["rate"]),
        (Trouble::Talk, &["device", "send the adapter back"]),
        (Trouble::NotUnderstood, &["another adapter"]),
        (Trouble::SendersUnknown, &["another adapter"]),
        (Trouble::SenderUnknown, &["another adapter"]),
        (Trouble::ProtocolUnknown, &["another adapter", "vehicle does answer"]),
        (Trouble::Unreadable, &["another adapter", "vehicle does answer"]),
        (Trouble::LateReply, &["Unplug it", "send it back"]),
        (Trouble::Interrupted, &["other programs", "another adapter"]),
        (Trouble::Spoilt, &["another cable", "another adapter"]),
        (Trouble::OtherRequest, &["other programs", "another adapter"]),
        (Trouble::Repeats, &["Unplug it", "send it back"]),
        (Trouble::Unsteady, &["another cable", "another adapter"]),
        (Trouble::VehicleSilent, &["ignition is on", "Another vehicle"]),
        (Trouble::SearchEndless, &["sits firmly", "Another vehicle"]),
        (Trouble::BusStart, &["ignition is on", "Another vehicle"]),
        (Trouble::BusTrouble, &["Unplug whatever else", "Another vehicle"]),
        (Trouble::OnlyRefusals, &["another vehicle"]),
        (Trouble::UnitSilent, &["sheet", "coolant"]),
        (Trouble::UnitBusy, &["after a minute", "sheet"]),
        (Trouble::RefusedUnknown, &["identifier", "sheet"]),
        (Trouble::RefusedLocked, &["coolant", "thermometer"]),
        (Trouble::RefusedNow, &["later", "engine runs", "no harm"]),
        (Trouble::Refused, &["identifier", "sheet"]),
        (Trouble::WrongSender, &["header", "sheet"]),
        (Trouble::NotAddressable, &["header", "sheet", "bus"]),
        (Trouble::Undecodable, &["byte and length", "sheet"]),
    ];

    #[test]
    fn each_trouble_has_the_advice_that_fits_it() {
        assert_eq!(ROWS.iter().map(|row| row.0).collect::<Vec<_>>(), Trouble::ALL);
        for (trouble, words) in ROWS {
            let says = about(*trouble);
            assert!(says.ends_with('.'), "{trouble}: {says}");
            for word in *words {
                assert!(says.contains(word), "{trouble}: `{word}` is not in `{says}`");
            }
        }
    }

    #[test]
    fn nobody_is_sent_to_the_ignition_for_what_is_not_the_vehicle_s_silence() {
        for &trouble in Trouble::ALL {
            let silent = matches!(trouble, Trouble::VehicleSilent | Trouble::BusStart);
            assert_eq!(about(trouble).contains("ignition is"), silent, "{trouble}");
        }
    }

    #[test]
    fn nobody_is_told_to_replace_an_adapter_for_what_is_the_vehicle_s_or_the_sheet_s() {
        for &trouble in Trouble::ALL {
            let says = about(trouble);
            let blames = says.contains("send it back")
                || says.contains("se another adapter")
                || says.contains("adapter back");
            assert!(!blames || trouble.party() == Party::Adapter, "{trouble}: {says}");
        }
    }

    #[test]
    fn each_lack_has_its_advice() {
        let quirks = [Quirk::NoHeaders, Quirk::NoVolt, Quirk::NoFc, Quirk::EchoStuck];
        let cannot: Vec<String> =
            lacks(&quirks, Some(Latency::Fixed(16))).into_iter().map(|lack| lack.cannot).collect();
        let want = ["which control unit", "battery voltage", "Long replies", "16 ms"];
        assert_eq!(cannot.len(), want.len(), "{cannot:?}");
        assert!(cannot.iter().zip(want).all(|(cannot, want)| cannot.contains(want)), "{cannot:?}");
        assert!(lacks(&[], Some(Latency::Short)).is_empty());
    }
}
