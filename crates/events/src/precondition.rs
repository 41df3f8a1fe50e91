//! What must hold before `go` is possible.

use crate::words::words;

words! {
    /// A precondition. Some are confirmed from readings, the others only by the person.
    Precondition {
        OnStands "on-stands" "The vehicle stands on four stands, or on a lift made for it, and cannot roll.",
        VehicleLevel "vehicle-level" "The vehicle is level.",
        Ventilated "ventilated" "The exhaust is led outside or the room is ventilated.",
        BrakeHeld "brake-held" "The brake is held while the selector moves.",
        CoolerBypass "cooler-bypass" "The cooler bypass is pinned open.",
        SelectorCycled "selector-cycled" "The selector has been moved through its positions as the sheet says.",
        Filled "filled" "New fluid has been filled in, with a margin.",
        StartedCold "started-cold" "The vehicle started cold: coolant, intake and ambient agreed.",
        EngineRunning "engine-running" "The engine runs.",
        EngineIdling "engine-idling" "The engine idles within the range of the sheet.",
        StandingStill "standing-still" "The vehicle stands still.",
    }
}

impl Precondition {
    /// True where the vehicle itself shows it, so that readings confirm it and a person cannot.
    pub const fn shown_by_vehicle(self) -> bool {
        matches!(self, Self::EngineRunning | Self::EngineIdling | Self::StandingStill | Self::StartedCold)
    }

    /// What to do so that it holds.
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::OnStands => "Support it on four stands; then `tell confirm on-stands`.",
            Self::VehicleLevel => {
                "Measure and tell it: `tell level --pitch 0.1deg --roll -0.2deg`, or `tell confirm vehicle-level` if the lift is known to be level."
            }
            Self::Ventilated => "Lead the exhaust outside; then `tell confirm ventilated`.",
            Self::BrakeHeld => "Let the helper hold the brake; then `tell confirm brake-held`.",
            Self::CoolerBypass => {
                "Pin the bypass valve open as the vehicle's maker says; then `tell confirm cooler-bypass`."
            }
            Self::SelectorCycled => {
                "Engine idling, brake held: move the selector through each position; then `tell confirm selector-cycled`."
            }
            Self::Filled => "Fill and tell how much: `tell filled 2.9L --at 20C`.",
            Self::StartedCold => {
                "Stop the engine and let the vehicle cool until coolant and air agree, then start again; where the vehicle shows no air temperature, `tell confirm started-cold`."
            }
            Self::EngineRunning => "Start the engine.",
            Self::EngineIdling => "Let it idle, accelerator untouched, air conditioning off.",
            Self::StandingStill => "The selector in P, the wheels free of the ground or still.",
        }
    }
}
