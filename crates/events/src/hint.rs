//! What stands on the checklist beside its steps: what must lie ready, what hurts, what is forgotten. None of it asks anything.
//!
//! Words only. Which stands at which step: `job`.

use units::words;

words! {
    /// A line of the checklist.
    json Hint {
        FourStands "four-stands" "Four stands, or a lift made for it.",
        Inclinometer "inclinometer" "Inclinometer, telephone or rule.",
        ExhaustHose "exhaust-hose" "Exhaust hose.",
        MeasuringJug "measuring-jug" "Measuring jug.",
        Thermometer "thermometer" "Thermometer.",
        Tray "tray" "Tray.",
        GlovesAndGlasses "gloves-and-glasses" "Gloves, eye protection.",
        NewFluid "new-fluid" "New fluid.",
        Pump "pump" "Pump, or funnel with hose.",
        EmptyJug "empty-jug" "Empty measuring jug.",
        Lamp "lamp" "Lamp.",
        TorqueWrench "torque-wrench" "Torque wrench.",
        NewSeals "new-seals" "New seals, as the vehicle's maker says.",
        ItsOwnGauge "its-own-gauge" "The gauge that belongs to the vehicle.",
        Cloth "cloth" "Cloth without lint.",
        FillStated "fill-stated" "Fill the stated amount, measured.",
        FillThere "fill-there" "Fill through the opening that is looked at: what came out.",
        OnlyDrips "only-drips" "It only drips.",
        CloseByHand "close-by-hand" "Close it by hand.",
        NoPortHere "no-port-here" "No port is opened here: a gauge is read in its tube, in mm.",
        ReadTwice "read-twice" "Wipe it, push it to its stop, draw it, read it; then the same once more.",
        TwoMustAgree "two-must-agree" "Two that agree to 2 mm count. Not wiped, or not at its stop, it says nothing.",
        CleanTheCap "clean-the-cap" "Clean around the cap first; cap on again between two looks.",
        AirSprings "air-springs" "Lifting mode on, the body held by stands or lift before anybody goes below.",
        Orange "orange" "Orange is high voltage: only for a person trained for it, and never cut or moved.",
        OnALift "on-a-lift" "On a lift: P, parking brake, get out. Raise it, lower it onto the locks; nobody below while it moves.",
        SitDownFirst "sit-down-first" "Sit down before the other goes below; get out only when below is clear.",
        WashHands "wash-hands" "Gloves on, wash with soap, change soaked clothes.",
        PhotoIfBlack "photo-if-black" "Black, burnt, metal in it: a photo, and the customer decides before you go on.",
        NeverWhatRanOut "never-what-ran-out" "New fluid only, never what ran out.",
        OutOfAPit "out-of-a-pit" "Out of a pit until it is time, the hose on.",
        WipeAround "wipe-around" "Wipe around the plug first, clean hose and pump.",
        NewWasher "new-washer" "The new washer goes on the plug while it runs out.",
        FanMayStart "fan-may-start" "The fan may start by itself with the engine off: hands away.",
        WipeWhileHot "wipe-while-hot" "Wipe with a dry cloth while it is hot; spray only cold, engine off.",
        AllButTheStands "all-but-the-stands" "All but the stands, until the engine starts.",
        BrakeAnyTime "brake-any-time" "The brake at any time; positions only with the engine running.",
        JugMayWait "jug-may-wait" "Reading the jug may wait until after it.",
    }
}
