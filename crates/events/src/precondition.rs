//! What must hold before `go` is possible.

use units::words;

use Holds::{Hands, Verdict};
use Shown::{Inside, Live, Once, Under};

words! {
    /// What must hold: some for `go` ([`Precondition::gates`]), the others before hands may do the next thing. Some are
    /// confirmed from readings, the others only by the person.
    json Precondition, row: (Holds, Shown) {
        OnStands "on-stands" "On four stands or a lift, hard level floor, shaken, firm." => (Verdict, Under),
        VehicleLevel "vehicle-level" "The vehicle is level." => (Verdict, Under),
        /// `ventilated` is an older word for it.
        ExhaustOutside "exhaust-outside" or "ventilated" "Exhaust hose on, its end outside; or the vehicle outdoors." => (Verdict, Inside),
        BrakeHeld "brake-held" "The brake is held while the selector moves." => (Verdict, Inside),
        CoolerBypass "cooler-bypass" "The cooler bypass is pinned open." => (Verdict, Under),
        SelectorCycled "selector-cycled" "The selector has been moved through its positions as the sheet says." => (Verdict, Inside),
        Filled "filled" "New fluid has been filled in, with a margin." => (Verdict, Under),
        StartedCold "started-cold" "It started cold: coolant and air agreed, or it had stood for 8 hours." => (Verdict, Once),
        EngineRunning "engine-running" "The engine runs." => (Verdict, Live),
        EngineIdling "engine-idling" "The engine idles within the range of the sheet." => (Verdict, Live),
        EngineOff "engine-off" "The engine is off, as this look asks." => (Verdict, Live),
        Settled "settled" "It has settled for as long as the sheet says." => (Verdict, Live),
        InPosition "in-position" "The selector stands where the sheet wants it at the look." => (Verdict, Inside),
        StandingStill "standing-still" "The vehicle stands still." => (Verdict, Live),
        Parked "parked" "Selector in P, parking brake on and holding. Chocks where wheels stay down." => (Hands, Inside),
        FillPortOpen "fill-port-open" "The fill port was opened: it moves." => (Hands, Under),
        FluidRight "fluid-right" "The container was read aloud beside the vehicle data: the same." => (Hands, Under),
        PipeIn "pipe-in" "The overflow pipe is back, by hand to its stop. Then its small torque." => (Hands, Under),
        ClosedUp "closed-up" "Both plugs in by hand, tray and fill hose away." => (Hands, Under),
        Clear "clear" "The one below has come out, tools too, and said so." => (Hands, Under),
        BypassOut "bypass-out" "The cooler pin is out." => (Hands, Under),
        NoLeak "no-leak" "Engine idling on a dry underside: no leak seen." => (Hands, Under),
        Refitted "refitted" "Covers and wheel are back on, the nuts tightened on the ground." => (Hands, Under),
        ModeOn "mode-on" "Service mode on, stop-start off." => (Hands, Inside),
        ReadyOff "ready-off" "Ready is off, key with the one below." => (Hands, Inside),
        Dry "dry" "What was spilled is soaked up, the exhaust wiped." => (Hands, Under),
        AllSafe "all-safe" "Everybody is out of danger." => (Hands, Inside),
    }
}

/// What a precondition holds up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Holds {
    /// The verdict: without it there is no `go`.
    Verdict,
    /// What hands are to do next.
    Hands,
}

/// By whom it is known to hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shown {
    /// The vehicle shows it moment by moment.
    Live,
    /// The vehicle shows it, and it is judged once.
    Once,
    /// A person tells it, from any seat; it is done from below.
    Under,
    /// A person tells it, from any seat; it is done or seen from inside.
    Inside,
}

impl Precondition {
    /// True where the vehicle itself shows it, so that readings confirm it and a person cannot.
    pub const fn shown_by_vehicle(self) -> bool {
        match self.row().1 {
            Live | Once => true,
            Under | Inside => false,
        }
    }

    /// Whether the vehicle shows it moment by moment. A cold start is shown too, but judged once.
    pub const fn is_live(self) -> bool {
        match self.row().1 {
            Live => true,
            Once | Under | Inside => false,
        }
    }

    /// Whether the one inside does or sees it, where nothing on the vehicle shows it.
    pub const fn is_told_inside(self) -> bool {
        match self.row().1 {
            Inside => true,
            Live | Once | Under => false,
        }
    }

    /// Whether `go` waits for it. The others guard what is advised and hold up no verdict.
    pub const fn gates(self) -> bool {
        match self.row().0 {
            Verdict => true,
            Hands => false,
        }
    }

    /// Whether `go` waits for it in a job by this sheet: a lamp means what the sheet says only in its mode.
    pub fn gates_by(self, sheet: &crate::Sheet) -> bool {
        self.gates() || (self == Self::ModeOn && sheet.check.signal == crate::Signal::Lamp)
    }

    /// Its name on a line that lists what is open.
    pub const fn short(self) -> &'static str {
        match self {
            Self::OnStands => "stands",
            Self::VehicleLevel => "level",
            Self::ExhaustOutside => "exhaust hose",
            Self::BrakeHeld => "brake held",
            Self::CoolerBypass => "cooler pin",
            Self::SelectorCycled => "selector",
            Self::Filled => "fill",
            Self::StartedCold => "cold start",
            Self::EngineRunning => "engine",
            Self::EngineIdling => "idle",
            Self::EngineOff => "engine off",
            Self::Settled => "settling",
            Self::InPosition => "position of the look",
            Self::StandingStill => "standing still",
            Self::Parked => "parking brake",
            Self::FillPortOpen => "fill port",
            Self::FluidRight => "container read",
            Self::PipeIn => "pipe in",
            Self::ClosedUp => "plugs in, tray away",
            Self::Clear => "clear",
            Self::BypassOut => "cooler pin out",
            Self::NoLeak => "leak look",
            Self::Refitted => "covers, wheel",
            Self::ModeOn => "service mode",
            Self::ReadyOff => "ready off",
            Self::Dry => "spill dry",
            Self::AllSafe => "all safe",
        }
    }

    /// What to do so that it holds.
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::OnStands => "Support it on four stands; then `tell confirm on-stands`.",
            Self::VehicleLevel => {
                "Measure and tell it: `tell level --pitch 0.1deg --roll -0.2deg`, or `tell confirm vehicle-level` if the lift is known to be level."
            }
            Self::ExhaustOutside => "Hose on, its end outside; then `tell confirm exhaust-outside`.",
            Self::BrakeHeld => "Let the helper hold the brake; then `tell confirm brake-held`.",
            Self::CoolerBypass => {
                "Pin the bypass valve open as the vehicle's maker says; then `tell confirm cooler-bypass`."
            }
            Self::SelectorCycled => {
                "Engine idling, brake held: move the selector through each position; then `tell confirm selector-cycled`."
            }
            Self::Filled => "Fill and tell how much: `tell filled 2.9L --at 20C`.",
            Self::StartedCold => {
                "Stop the engine and let the vehicle cool until coolant and air agree, then start again; where no air temperature is read and it stood for 8 hours, `tell confirm started-cold`."
            }
            Self::EngineRunning => "Start the engine.",
            Self::EngineIdling => "Let it idle, accelerator untouched, air conditioning off.",
            Self::EngineOff => "Stop the engine, ignition on.",
            Self::Settled => {
                "Wait; it holds by itself. Where the time is over, let it idle and stop it once more."
            }
            Self::InPosition => {
                "Brake held: the selector to the position of the look; then `tell confirm in-position`."
            }
            Self::StandingStill => "The selector in P, the wheels free of the ground or still.",
            Self::Parked => "P, parking brake on, chocks; then `tell confirm parked`.",
            Self::FillPortOpen => "Open the fill port; then `tell confirm fill-port-open`.",
            Self::FluidRight => "Read the container beside the sheet; then `tell confirm fluid-right`.",
            Self::PipeIn => "Pipe back in by hand, to its stop; then `tell confirm pipe-in`.",
            Self::ClosedUp => "Both plugs in by hand, tray and hose away; then `tell confirm closed-up`.",
            Self::Clear => "Come out; then, from below, `tell confirm clear --by under`.",
            Self::BypassOut => "Engine off, pin out; then `tell confirm bypass-out`.",
            Self::NoLeak => "Look while it idles, underside dry; then `tell confirm no-leak`.",
            Self::Refitted => "Covers and wheel back on; then `tell confirm refitted`.",
            Self::ModeOn => "Switch the service mode on; then `tell confirm mode-on`.",
            Self::ReadyOff => "Ready off, key with the one below; then `tell confirm ready-off`.",
            Self::Dry => "Soak it up; then `tell confirm dry`.",
            Self::AllSafe => "When everybody is out of danger: `tell confirm all-safe`.",
        }
    }
}
