//! What to do with the hands now, and what to beware of. One sentence each.

use crate::{Question, Right, Rim, Role};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Millilitres, words};
use words::{Lang, args};

words! {
    /// The one thing to do now, for one of the two seats. Made by `job`; a front end only shows it.
    json Advice {
        StartJob "start-job" "Choose the vehicle. Then start the job.",
        PrepareVehicle "prepare-vehicle" "Put it on four stands or a lift. Level, exhaust hose outside.",
        ShimStands "shim-stands" "Come out. Then level it at the stands, and measure again.",
        Park "park" "P, parking brake on. Chocks at the wheels that stay down.",
        ReadContainer "read-container" "Read the container aloud beside the vehicle data. Same words?",
        OpenFillPort "open-fill-port" "Open the fill port first. Only then drain.",
        CoolBeforeDrain "cool-before-drain" "Let it cool before you drain it. Above 60 °C it scalds.",
        SwitchReadyOff "switch-ready-off" "Ready off, key with the one below. Else it can start.",
        Drain "drain" "Drain it, the pipe out too. Measure how much, how warm.",
        DrainAgain "drain-again" "Engine off, keep both closed. Then drain and fill once more.",
        PutPipeIn "put-pipe-in" "Pipe in by hand, to its stop. Too tight, it cracks.",
        WasPipeOut "was-pipe-out" "Little came out: was the pipe out? Put it back in.",
        IsPipeIn "is-pipe-in" "Is the pipe back in? Without it the sump runs out.",
        Fill "fill" "Fill as much new fluid as came out, and the extra.",
        CloseUp "close-up" "Both plugs in by hand. Fill hose and tray away.",
        PutPinIn "put-pin-in" "Put the cooler pin in. Only then comes the start.",
        LeadExhaust "lead-exhaust" "Hose on the exhaust, its end outside. Open doors are not enough.",
        CheckExhaust "check-exhaust" "Long idling: is the exhaust hose on? Headache: get out first.",
        ComeOut "come-out" "Come out. Say when you are clear.",
        StayOut "stay-out" "Stay out. The engine starts, the selector moves.",
        WaitForClear "wait-for-clear" "Wait. Go on only when below says clear.",
        StartEngine "start-engine" "Start now. Foot on the brake, stay in P.",
        HoldBrake "hold-brake" "Foot on the brake and keep it there. Selector in P.",
        CycleSelector "cycle-selector" "Foot on the brake. Move the selector through its positions.",
        SwitchModeOn "switch-mode-on" "Service mode on, stop-start off. Say when it is.",
        ConfirmOpen "confirm-open" "Something is still to do. Put it right, then confirm it.",
        StayClear "stay-clear" "Stay out. The right temperature is still to come.",
        KeepIdling "keep-idling" "Keep it idling in P. Foot off the accelerator, touch nothing.",
        MayStop "may-stop" "It stopped by itself before, after so long. Touch nothing.",
        KeepIdlingUntilClosed "keep-idling-until-closed" "Keep it idling until below says closed.",
        BeReady "be-ready" "Go below now. Keep the port closed.",
        LookPosition "look-position" "Foot on the brake. Selector to the position of the look.",
        Settle "settle" "Stay out until it has settled. Leave all as it is.",
        OpenPort "open-port" "Open the check port now, from the side. Glasses on.",
        WatchStream "watch-stream" "Watch from the side. Say when it is a thin thread.",
        WatchDrips "watch-drips" "Watch from the side. Say when the first drips come.",
        OpenPortOff "open-port-off" "Keep the engine off. Open the plug now, from the side.",
        WatchOff "watch-off" "Engine off. Watch: say when it is a thin thread.",
        LookAtEdge "look-at-edge" "See where it stands. Say at the edge, or how far below.",
        ReadGauge "read-gauge" "Wipe the gauge, push it to its stop. Say the millimetres.",
        ReadAgain "read-again" "Wipe it, read it again. Two must agree to 2 mm.",
        DrawOut "draw-out" "Too full. Draw some out of the tube, measured.",
        LetSome "let-some" "Too full. Let some out until it stands right.",
        StillFlowing "still-flowing" "Still flowing after 15 s? Say so; else close it.",
        ClosePort "close-port" "Close it now, by hand.",
        ClosePortWait "close-port-wait" "Close the check port. This is not the right temperature.",
        ClosePortCool "close-port-cool" "Close the check port. Too hot.",
        CloseTooMuch "close-too-much" "Close it now. Too much came: wrong plug?",
        StopAndCool "stop-and-cool" "Stop the engine. Let it cool, then idle again.",
        StopNow "stop-now" "Stop the engine now. P.",
        StopEngine "stop-engine" "Stop the engine. Key out, in your hand.",
        KeepOff "keep-off" "Keep the engine off.",
        KeepClosed "keep-closed" "Keep it closed. First the engine is stopped.",
        StayAway "stay-away" "Stay out. It has to cool first.",
        Answer "answer" "Answer the call: are you well?",
        CallBelow "call-below" "Call below. No answer: engine off, go and look.",
        ChargeBattery "charge-battery" "Battery low. Stop the engine, come out, then charge it.",
        FillFirst "fill-first" "Keep the engine off. Fill what is missing first.",
        FillMore "fill-more" "Shut the check port by hand. It is low: fill more.",
        FillToEdge "fill-to-edge" "Engine off, plug open: fill until it runs out there. Measure.",
        AddAmount "add-amount" "Shut the plug by hand. Then fill the amount of the vehicle data.",
        FillHere "fill-here" "It is low. Fill more through this opening.",
        HoseOut "hose-out" "Hose out. Say what comes: stream, drips or nothing.",
        LookWhyLow "look-why-low" "Stop filling. Look for a leak, or a wrong plug.",
        DrainWrong "drain-wrong" "Wrong fluid: keep the engine off. Drain it, fill the right one.",
        ReadJug "read-jug" "Read the jug first: say how much ran out.",
        LetOut "let-out" "Too full: keep the engine off. Let the excess out, measured.",
        SoakUp "soak-up" "Soak it up. Wipe the exhaust once it is cold.",
        CheckAdapter "check-adapter" "Shut the check port by hand. Then check the adapter's plug.",
        AskEngine "ask-engine" "Does it idle, no red lamp? Then say so.",
        SayEngine "say-engine" "Is the engine off? Say what it does.",
        ClosePortEngine "close-port-engine" "Close the check port. Nobody says that the engine idles.",
        FeelPan "feel-pan" "Stood 8 h, the pan as cold as the air? Then confirm.",
        ReadInside "read-inside" "What does the vehicle show of its fluid now? Say it.",
        PushAdapter "push-adapter" "Leave the engine as it is. Push the adapter in again.",
        CheckSensor "check-sensor" "Keep it closed. Measure the pan on matt tape.",
        Tighten "tighten" "Keep both plugs in. Engine off, then tighten them.",
        TakePinOut "take-pin-out" "Take the cooler pin out, engine off. Else it overheats.",
        WipeDry "wipe-dry" "Wipe it dry with a cloth. Come out, say clear.",
        LookForLeaks "look-for-leaks" "After 5 min of idling, look for drops.",
        LookForDrops "look-for-drops" "Look for drops around the plugs.",
        MendLeak "mend-leak" "Engine off. Mend the leak first.",
        Refit "refit" "Covers and wheel back on. Torque the nuts once on the ground.",
        TestDrive "test-drive" "Lower it. Drive gently a short way, then look for leaks.",
        NotDriven "not-driven" "It must not be driven. Fluid is missing.",
        Finish "finish" "Finish the report.",
        Recheck "recheck" "Check the level again, cold, on the day that the report names.",
        SetAgain "set-again" "It is not set. See the report, then look again.",
        Wait "wait" "Nothing to do inside yet. Touch nothing.",
        FreshAir "fresh-air" "Get out into fresh air, all. Call for help.",
        GetOut "get-out" "Get out, all. Call the fire service.",
        EngineOffCaught "engine-off-caught" "Engine off now, P, foot on the brake. Call for help.",
        HoldStill "hold-still" "Stay still: nobody pulls, nobody lowers it. Help comes.",
        CoolBurn "cool-burn" "Cool running water on the burn, 20 min. No ice.",
        HelpBurn "help-burn" "Help them come out. Shut the port from the side, then engine off.",
    }
}

impl Advice {
    /// What a person confirms when it is done; absent where it is done by another word, or shown by the vehicle.
    pub const fn awaits(self) -> Option<crate::Precondition> {
        use crate::Precondition as P;
        Some(match self {
            Self::Park => P::Parked,
            Self::ReadContainer => P::FluidRight,
            Self::OpenFillPort => P::FillPortOpen,
            Self::SwitchReadyOff => P::ReadyOff,
            Self::PutPipeIn | Self::WasPipeOut | Self::IsPipeIn => P::PipeIn,
            Self::CloseUp => P::ClosedUp,
            Self::PutPinIn => P::CoolerBypass,
            Self::LeadExhaust | Self::CheckExhaust => P::ExhaustOutside,
            Self::ComeOut | Self::WipeDry => P::Clear,
            Self::HoldBrake => P::BrakeHeld,
            Self::CycleSelector => P::SelectorCycled,
            Self::SwitchModeOn => P::ModeOn,
            Self::SoakUp => P::Dry,
            Self::TakePinOut => P::BypassOut,
            Self::LookForLeaks | Self::LookForDrops | Self::MendLeak => P::NoLeak,
            Self::LookPosition => P::InPosition,
            Self::FeelPan => P::StartedCold,
            Self::Refit => P::Refitted,
            Self::FreshAir | Self::GetOut | Self::EngineOffCaught | Self::CoolBurn => P::AllSafe,
            _ => return None,
        })
    }

    /// Whether it only goes along with what the other seat does: the other's is the more urgent one then.
    pub const fn accompanies(self) -> bool {
        matches!(
            self,
            Self::Wait
                | Self::StayOut
                | Self::StayClear
                | Self::Settle
                | Self::WaitForClear
                | Self::KeepIdling
                | Self::MayStop
                | Self::KeepIdlingUntilClosed
                | Self::KeepOff
                | Self::KeepClosed
                | Self::StayAway
                | Self::Answer
                | Self::PushAdapter
                | Self::HoldStill
                | Self::HelpBurn
        )
    }
}

/// What both seats are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Said")]
pub struct SeatAdvice {
    /// The more urgent of the two.
    pub advice: Advice,
    /// To the technician under the vehicle; absent in journals of before there was one for each seat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub under: Option<Advice>,
    /// To the helper in the vehicle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inside: Option<Advice>,
    /// How much it is about, where it is about an amount.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub millilitres: Option<Millilitres>,
    /// What to lay under the stands, where it was measured not to stand as it should.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shims: Option<Shims>,
    /// What the level stands at, where that is no pipe: the words are those of a hole then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rim: Option<Rim>,
    /// The sign that the level is right, where it is no trickle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<Right>,
    /// What is asked beside it; it holds up nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asks: Option<Question>,
}

/// What to lay under each stand, in mm; nothing under the highest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub struct Shims {
    /// Under the front left one.
    pub front_left: u16,
    /// Under the front right one.
    pub front_right: u16,
    /// Under the rear left one.
    pub rear_left: u16,
    /// Under the rear right one.
    pub rear_right: u16,
}

impl Shims {
    /// In words: `14 mm under both rear stands`; `None` where there is nothing to lay.
    pub fn says(self, lang: Lang, show: impl Fn(u16) -> String) -> Option<String> {
        let Self { front_left, front_right, rear_left, rear_right } = self;
        let pairs = [
            ("shims-both-rear", rear_left, rear_right, front_left, front_right),
            ("shims-both-front", front_left, front_right, rear_left, rear_right),
            ("shims-both-left", front_left, rear_left, front_right, rear_right),
            ("shims-both-right", front_right, rear_right, front_left, rear_left),
        ];
        let pair = pairs.iter().find(|(_, a, b, c, d)| a == b && *a > 0 && *c == 0 && *d == 0);
        if let Some((which, millimetres, ..)) = pair {
            return Some(lang.with(which, &args!(depth = show(*millimetres))));
        }
        let each = [
            ("shim-front-left", front_left),
            ("shim-front-right", front_right),
            ("shim-rear-left", rear_left),
            ("shim-rear-right", rear_right),
        ];
        let parts: Vec<String> = each
            .iter()
            .filter(|(_, millimetres)| *millimetres > 0)
            .map(|(which, millimetres)| lang.with(which, &args!(depth = show(*millimetres))))
            .collect();
        (!parts.is_empty()).then(|| lang.with("shims-each", &args!(parts = parts.join(", "))))
    }
}

impl SeatAdvice {
    /// Both at once; the more urgent one stands in front.
    pub const fn to(under: Advice, inside: Advice) -> Self {
        let advice = if under.accompanies() && !inside.accompanies() { inside } else { under };
        Self {
            advice,
            under: Some(under),
            inside: Some(inside),
            millilitres: None,
            shims: None,
            rim: None,
            right: None,
            asks: None,
        }
    }

    /// What one seat is told. Where nothing was said to it, the one below hears the advice and the one inside waits.
    pub fn at(&self, seat: Role) -> Advice {
        match seat {
            Role::Under => self.under.unwrap_or(self.advice),
            Role::Inside => self.inside.unwrap_or(match self.advice {
                // The words that were the helper's before each seat had its own.
                Advice::StartEngine | Advice::CycleSelector | Advice::StopAndCool | Advice::TestDrive => {
                    self.advice
                }
                Advice::CheckAdapter => Advice::PushAdapter,
                _ => Advice::Wait,
            }),
        }
    }
}

impl SeatAdvice {
    /// The sentence for one seat; `show` writes an amount.
    pub fn sentence(&self, seat: Role, lang: Lang, show: impl Fn(Millilitres) -> String) -> String {
        let advice = self.at(seat);
        if let (Advice::ShimStands, Some(shims)) =
            (advice, self.shims.and_then(|s| s.says(lang, |mm| format!("{mm} mm"))))
        {
            return lang.with("shim-stands", &args!(shims = shims));
        }
        if let Some(message) = self.of_its_kind(advice) {
            return lang.text(message).to_owned();
        }
        let by_gauge = self.rim == Some(Rim::Gauge);
        let message = match advice {
            Advice::Fill => "fill-amount",
            Advice::FillFirst => "fill-first-amount",
            Advice::FillMore if by_gauge => "fill-more-through-the-tube",
            Advice::FillMore => "fill-more-amount",
            Advice::DrawOut => "draw-out-amount",
            Advice::AddAmount => "add-that-amount",
            Advice::FillHere => "fill-here-amount",
            Advice::LetOut => "let-out-amount",
            Advice::NotDriven => "not-driven-amount",
            _ => return lang.of(advice).to_owned(),
        };
        match self.millilitres.map(show) {
            Some(amount) => lang.with(message, &args!(amount = amount)),
            None => lang.of(advice).to_owned(),
        }
    }
}

impl SeatAdvice {
    /// The message where the level stands at a hole, or another sign than a trickle is asked for.
    fn of_its_kind(&self, advice: Advice) -> Option<&'static str> {
        let hole = matches!(self.rim, Some(Rim::SideHole | Rim::FillHole));
        let drips = matches!(self.right, Some(Right::Drips | Right::FirstDrips));
        Some(match (advice, self.rim) {
            (Advice::OpenPort, _) if hole => "open-level-hole",
            (Advice::WatchStream | Advice::WatchOff, _) if drips => "watch-until-it-drips",
            (Advice::BeReady, _) if hole => "be-ready-at-the-hole",
            (Advice::ClosePortWait, _) if hole => "close-hole-not-right",
            (Advice::ClosePortCool, _) if hole => "close-hole-too-hot",
            (Advice::ClosePort, Some(Rim::JobPipe)) => "pipe-out-plug-in",
            (Advice::Drain, Some(_)) => "drain-and-measure",
            (Advice::Fill, Some(Rim::None)) if self.millilitres.is_none() => "fill-that-of-the-data",
            (Advice::CloseUp, Some(Rim::Gauge)) => "close-up-cap-on",
            (Advice::CheckAdapter, Some(Rim::Gauge)) => "cap-on-check-adapter",
            (Advice::BeReady, Some(Rim::Gauge)) => "gauge-and-cloth-ready",
            (Advice::FillMore, Some(Rim::Gauge)) if self.millilitres.is_none() => "fill-more-tube",
            (Advice::Tighten, Some(Rim::Gauge)) => "cap-locked-tighten",
            (Advice::CloseUp, Some(Rim::FillHole)) => "close-up-plugs",
            _ => return None,
        })
    }
}

impl From<Advice> for SeatAdvice {
    /// As before there was one for each seat.
    fn from(advice: Advice) -> Self {
        Self {
            advice,
            under: None,
            inside: None,
            millilitres: None,
            shims: None,
            rim: None,
            right: None,
            asks: None,
        }
    }
}

words! {
    /// A caution, shown at the step where it matters. The vehicle maker's procedure and local rules come first.
    json Caution {
        MakerFirst "maker-first" "Follow the maker's text, local rules and licensed practice where they differ.",
        FourStands "four-stands" "Four stands, or a lift on its locks. A jack alone kills.",
        HotFluid "hot-fluid" "Gloves, sleeves, glasses on. Fluid, pan and exhaust are hot.",
        RunningEngine "running-engine" "Engine runs. Keep hair and sleeves off belts, fan and shafts.",
        BrakeHeld "brake-held" "Stay out from under it. Foot on the brake, wheels free or chocked.",
        Ventilation "ventilation" "Exhaust gas kills. Hose on, its end outside: open doors are not enough.",
        WasteOil "waste-oil" "Catch it in its own container. Hand it in as waste oil.",
        Overheating "overheating" "Too hot. Engine off now, selector in P, keep clear until it has cooled.",
        LowVoltage "low-voltage" "Battery low: lights and fan off. Charge it only with the engine off, nobody below.",
        LongIdling "long-idling" "Long idling. Hose still on, its end outside? Headache, anybody: get out first.",
        LostWhileOpen "lost-while-open" "No reading, port open. Close it by hand; keep the engine idling, then check the adapter.",
        FillPortFirst "fill-port-first" "Fill port first. Drained, with a stuck fill plug, it cannot be driven.",
    }
}

impl Caution {
    /// Whether something at the vehicle asks for it now, whatever the step: the stop rules.
    pub const fn is_stop_rule(self) -> bool {
        matches!(self, Self::Overheating | Self::LowVoltage | Self::LongIdling | Self::LostWhileOpen)
    }

    /// The cautions that belong to a step.
    pub const fn at(step: crate::Step) -> &'static [Self] {
        use crate::Step;
        match step {
            Step::Prepare => &[Self::MakerFirst, Self::FourStands, Self::FillPortFirst],
            Step::Drain => &[Self::HotFluid, Self::WasteOil],
            Step::Fill => &[],
            Step::Circulate => &[Self::Ventilation, Self::BrakeHeld, Self::RunningEngine],
            Step::Window => &[Self::RunningEngine],
            Step::RunOut | Step::Trickle | Step::Close => &[Self::HotFluid, Self::RunningEngine],
            Step::Torque => &[Self::HotFluid],
            Step::TestDrive | Step::Recheck => &[Self::MakerFirst],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Lang, Shims};

    #[test]
    fn shims_are_said_by_pair_where_they_are_one_and_each_else() {
        let says = |[front_left, front_right, rear_left, rear_right]: [u16; 4]| {
            Shims { front_left, front_right, rear_left, rear_right }.says(Lang::En, |mm| format!("{mm} mm"))
        };
        assert_eq!(says([0, 0, 14, 14]).as_deref(), Some("14 mm under both rear stands"));
        assert_eq!(says([9, 9, 0, 0]).as_deref(), Some("9 mm under both front stands"));
        assert_eq!(says([5, 0, 5, 0]).as_deref(), Some("5 mm under both left stands"));
        assert_eq!(says([0, 5, 0, 5]).as_deref(), Some("5 mm under both right stands"));
        assert_eq!(
            says([0, 13, 14, 27]).as_deref(),
            Some("13 mm front right, 14 mm rear left, 27 mm rear right under the stands")
        );
        assert_eq!(says([0; 4]), None);
    }
}
