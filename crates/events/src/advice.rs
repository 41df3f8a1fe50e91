//! What to do with the hands now, and what to beware of. One sentence each.

use crate::words::words;

words! {
    /// The one thing to do now. Made by `job` from state and verdict; a front end only shows it.
    Advice {
        StartJob "start-job" "Choose the sheet and start the job.",
        PrepareVehicle "prepare-vehicle" "Put the vehicle on four stands, level it, lead the exhaust outside, and confirm each.",
        Drain "drain" "Open the fill port first, then drain. Measure what came out and how warm it was.",
        DrainAgain "drain-again" "It has circulated: stop the engine, close nothing up yet, drain again and fill again, as the sheet asks for another round.",
        Fill "fill" "Fill what came out and the margin of the sheet, then tell how much.",
        StartEngine "start-engine" "Start the engine and let it idle.",
        CycleSelector "cycle-selector" "Hold the brake and move the selector through its positions.",
        ConfirmOpen "confirm-open" "Confirm what is still open, or put it right.",
        StayClear "stay-clear" "Stay clear of the vehicle and wait for the window.",
        BeReady "be-ready" "Be under the vehicle now: the window opens soon.",
        OpenPort "open-port" "Open the check port. Let it run until it is a trickle.",
        WatchStream "watch-stream" "Watch the stream; tell when it is a trickle.",
        ClosePort "close-port" "Close the check port now, hand-tight.",
        ClosePortWait "close-port-wait" "Close the check port and wait: this is not the moment.",
        ClosePortCool "close-port-cool" "Close the check port, stop the engine and let the fluid cool.",
        StopAndCool "stop-and-cool" "Stop the engine and let the fluid cool; then start again from the window.",
        FillMore "fill-more" "Nothing ran out, so it is low. Close the check port, fill some more, look again.",
        CheckAdapter "check-adapter" "Close the check port if it is open. Check the adapter's plug.",
        CheckSensor "check-sensor" "Do not open the check port. Compare the reading with a thermometer on the sump.",
        Tighten "tighten" "Stop the engine. Tighten the plugs to the torques of the sheet, then tell `torqued`.",
        TestDrive "test-drive" "Lower the vehicle, drive a short distance, look for leaks, then tell `test-driven`.",
        Finish "finish" "Write the record: tell `done`.",
        Recheck "recheck" "Recheck the level on the day that the record names, from a cold start.",
        SetAgain "set-again" "Correct what the record names and set it again.",
    }
}

words! {
    /// A caution, shown at the step where it matters. The vehicle maker's procedure and local rules come first.
    Caution {
        MakerFirst "maker-first" "The vehicle maker's procedure, local codes and licensed practice come before anything said here.",
        FourStands "four-stands" "Support the vehicle on four stands or a lift made for it; never work under a jack.",
        HotFluid "hot-fluid" "Fluid, pan and exhaust are hot: gloves, long sleeves, eye protection.",
        RunningEngine "running-engine" "The engine runs while you are below: keep hair, cloth and hands clear of moving parts.",
        BrakeHeld "brake-held" "The selector moves with the engine running: a helper holds the brake, wheels cannot touch.",
        Ventilation "ventilation" "Exhaust gas kills: lead it outside, open the doors.",
        WasteOil "waste-oil" "Catch the old fluid and hand it in as waste oil.",
        Overheating "overheating" "Too hot: close the check port if it is open, selector to P, stop the engine now, and keep clear until it has cooled.",
        LowVoltage "low-voltage" "The battery is low: control units may drop out. Keep the check port closed, switch off what draws current, connect a charger before you go on.",
        LongIdling "long-idling" "The engine has idled for long: look that the exhaust still goes outside and the doors are open; stop it if you feel dizzy or the air is bad.",
        LostWhileOpen "lost-while-open" "Nothing is read any more and the check port is open: close it by hand now, let the engine idle, then look at the plug and the ignition. What ran out meanwhile stays in the jug.",
        FillPortFirst "fill-port-first" "Open the fill port before you drain: a drained transmission that cannot be filled is stranded.",
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
