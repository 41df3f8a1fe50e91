//! Why the verdict is what it is. To add a reason: one row here; the compiler names the rest.

use crate::words::words;

words! {
    /// A reason of a verdict. All but [`Reason::InBand`] and [`Reason::NoBand`] speak against `go`.
    Reason {
        InBand "in-band" "The fluid is inside the band, uncertainty included.",
        NoBand "no-band" "This look asks for no temperature.",
        BelowBand "below-band" "The fluid is still below the band.",
        AboveBand "above-band" "The fluid is above the band.",
        GuardBand "guard-band" "The temperature is so near the edge of the band that it may lie outside.",
        Hysteresis "hysteresis" "The temperature has only just come into the band; it must stay for a moment.",
        TooUncertain "too-uncertain" "The temperature is not known well enough for this band.",
        NoReading "no-reading" "There is no temperature reading yet.",
        Stale "stale" "The last temperature reading is too old.",
        LinkLost "link-lost" "There is no contact with the vehicle.",
        Frozen "frozen" "The temperature has not moved although it should: the sensor may be stuck.",
        SteppedAway "stepped-away" "The temperature jumped further than fluid can warm or cool.",
        NotAlive "not-alive" "The temperature has not been seen to move yet, so the sensor is unproven.",
        CopiesCoolant "copies-coolant" "The fluid reading equals the coolant all the time: the control unit may substitute it.",
        Disagrees "disagrees" "The temperature does not fit what coolant, air, the cold start or the thermometer say of the fluid.",
        UnitsDisagree "units-disagree" "Control units tell different temperatures, and nobody has said which one is right.",
        OtherVehicle "other-vehicle" "The adapter is plugged into another vehicle than the one of this job.",
        SensorCode "sensor-code" "A fault code of the fluid temperature sensor is stored.",
        OverheatCode "overheat-code" "A fault code for overheated fluid is stored.",
        Implausible "implausible" "The reading is outside what fluid can have.",
        PreconditionOpen "precondition-open" "Something that must hold before the level can be set is not confirmed.",
        NoJob "no-job" "No job has been started.",
    }
}

impl Reason {
    /// Whether it only says on which side of an edge of the guarded band the temperature is. A shown value that
    /// flickers between two steps flickers between these.
    pub const fn is_at_edge(self) -> bool {
        matches!(self, Self::BelowBand | Self::GuardBand | Self::Hysteresis)
    }

    /// Whether it says that nothing is read of this vehicle now.
    pub const fn is_blind(self) -> bool {
        matches!(self, Self::NoReading | Self::Stale | Self::LinkLost | Self::OtherVehicle)
    }

    /// What to try about it, for people.
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::InBand | Self::NoBand | Self::NoJob => "",
            Self::BelowBand => "Let the engine idle; the forecast says how long.",
            Self::AboveBand => "Keep the check port closed, stop the engine and let it cool.",
            Self::GuardBand | Self::Hysteresis => "Wait; it will be clear soon.",
            Self::TooUncertain => {
                "Give a better reading: a fluid identifier, or a spot reading on tape or matt paint."
            }
            Self::NoReading => "With the ignition on the first one comes within some seconds.",
            Self::Stale => "It comes back by itself; if it does not, check the adapter's plug.",
            Self::LinkLost => "Check the adapter's plug and the ignition; it comes back by itself.",
            Self::Frozen | Self::NotAlive => {
                "Compare with a thermometer on the sump; if they differ, the sensor or its wiring is at fault."
            }
            Self::SteppedAway | Self::Implausible => {
                "Check the sensor's connector; wait until the readings agree again."
            }
            Self::Disagrees => {
                "Read the sump on tape or matt paint with a thermometer; check the identifier in the sheet and the surface you told."
            }
            Self::UnitsDisagree => {
                "Find out with a thermometer which one is right and name it in the sheet: `check.from`."
            }
            Self::OtherVehicle => "Plug the adapter back into the vehicle of this job.",
            Self::CopiesCoolant => "Compare with a thermometer on the sump before you trust it.",
            Self::SensorCode => "Repair the sensor or its circuit first; this temperature cannot be trusted.",
            Self::OverheatCode => "Find out why the fluid overheated before you set a level.",
            Self::PreconditionOpen => "See the list of what is still open.",
        }
    }
}
