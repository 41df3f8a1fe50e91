//! The steps of one job, in their order.

use units::words;

words! {
    /// A step of the job.
    json Step {
        Prepare "prepare" "Prepare: stands, level, ventilation, tools, containers; fill port opens before the drain.",
        Drain "drain" "Drain, and measure what came out and how warm it was.",
        Fill "fill" "Fill what came out, and the extra.",
        Circulate "circulate" "Start the engine; brake held, move the selector through its positions.",
        Window "window" "Wait for the right temperature.",
        RunOut "run-out" "Open the check port and let the excess run out.",
        Trickle "trickle" "The stream has thinned to a trickle.",
        Close "close" "Close the check port.",
        Torque "torque" "Tighten the plugs to the torques of the vehicle data.",
        TestDrive "test-drive" "Drive a short distance, look for leaks.",
        Recheck "recheck" "Recheck the level days later, from a cold start.",
    }
}

words! {
    /// Where a step stands.
    json StepState {
        Open "open" "Not begun.",
        Started "started" "Begun.",
        Done "done" "Done.",
        Failed "failed" "Went wrong; see the result.",
        Undone "undone" "Was told done, and taken back.",
    }
}

words! {
    /// Who confirms that a step is done.
    json Confirms {
        Under "under" "The technician under the vehicle.",
        Inside "inside" "The helper in the vehicle.",
        Either "either" "Either of the two.",
        Vehicle "vehicle" "The vehicle itself shows it.",
    }
}
