//! Why the verdict is what it is. To add a reason: one row here, with what it is to the verdict and what to try about
//! it; its place in `gate`'s order is asked for by the compiler.
//!
//! Not here: which reasons apply (`gate`).

use units::words;

use Bearing::{Above, Below, Blind, Doubt, Fits, Idle, Near, Settling, Torn, Unproven, Vague, Work};

words! {
    /// A reason of a verdict. All but [`Reason::InBand`] and [`Reason::NoBand`] speak against `go`.
    json Reason, row: Row {
        InBand "in-band" "The fluid is inside the band, uncertainty included."
            => shown(Fits, ""),
        NoBand "no-band" "This look asks for no temperature."
            => said(Fits, ""),
        BelowBand "below-band" "The fluid is still below the band."
            => shown(Below, "Let the engine idle; the forecast says how long."),
        AboveBand "above-band" "The fluid is above the band."
            => shown(Above, "Keep the check port closed, stop the engine and let it cool."),
        GuardBand "guard-band" "So near the edge of the band that it may lie outside."
            => said(Near, "Wait; it will be clear soon."),
        Hysteresis "hysteresis" "Only just in the band, or still mixing after a start."
            => said(Settling, "Wait; it will be clear soon."),
        TooUncertain "too-uncertain" "The temperature is not known well enough for this band."
            => said(Vague, "Give a better reading: a fluid identifier, or a spot reading on tape or matt paint."),
        NoReading "no-reading" "There is no temperature reading yet."
            => said(Blind, "With the ignition on the first one comes within some seconds."),
        Stale "stale" "The last temperature reading is too old."
            => said(Blind, "It comes back by itself; if it does not, check the adapter's plug."),
        LinkLost "link-lost" "There is no contact with the vehicle."
            => said(Blind, "Check the adapter's plug and the ignition; it comes back by itself."),
        Frozen "frozen" "The temperature has not moved although it should: the sensor may be stuck."
            => said(Doubt, "Compare with a thermometer on the sump; if they differ, the sensor or its wiring is at fault."),
        SteppedAway "stepped-away" "The temperature jumped further than fluid can warm or cool."
            => said(Doubt, "Check the sensor's connector; wait until the readings agree again."),
        NotAlive "not-alive" "The temperature has not moved yet. So the sensor is unproven."
            => said(Unproven, "Compare with a thermometer on the sump; if they differ, the sensor or its wiring is at fault."),
        CopiesCoolant "copies-coolant" "The fluid reading equals the coolant all the time: the control unit may substitute it."
            => said(Unproven, "Compare with a thermometer on the sump before you trust it."),
        Disagrees "disagrees" "The temperature does not fit coolant, air, start or thermometer."
            => said(Doubt, "Read the sump on tape or matt paint with a thermometer. Check the identifier in the sheet and the surface you told."),
        UnitsDisagree "units-disagree" "Control units tell different temperatures. Nobody has said which one is right."
            => said(Torn, "Find out with a thermometer which one is right. Name it in the sheet: `check.from`."),
        OtherVehicle "other-vehicle" "The adapter is plugged into another vehicle than this job's."
            => said(Blind, "Plug the adapter back into the vehicle of this job."),
        SensorCode "sensor-code" "A fault code of the fluid temperature sensor is stored."
            => said(Doubt, "Repair the sensor or its circuit first; this temperature cannot be trusted."),
        OverheatCode "overheat-code" "A fault code for overheated fluid is stored."
            => said(Doubt, "Find out why the fluid overheated before you set a level."),
        Implausible "implausible" "The reading is outside what fluid can have."
            => said(Doubt, "Check the sensor's connector; wait until the readings agree again."),
        PreconditionOpen "precondition-open" "Something is not confirmed that must hold before the level is set."
            => shown(Work, "See the list of what is still open."),
        NoJob "no-job" "No job has been started."
            => shown(Idle, ""),
    }
}

/// What a row says beside its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Row {
    bearing: Bearing,
    place: Place,
    remedy: &'static str,
}

/// Where a screen shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Among the reasons.
    Reasons,
    /// In a place of its own: beside the band, in the list of what is open, in the start of a job.
    Own,
}

/// Read among the reasons.
const fn said(bearing: Bearing, remedy: &'static str) -> Row {
    Row { bearing, place: Place::Reasons, remedy }
}

/// Shown in a place of its own.
const fn shown(bearing: Bearing, remedy: &'static str) -> Row {
    Row { bearing, place: Place::Own, remedy }
}

/// What a reason is to the verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bearing {
    /// Nothing speaks against `go`.
    Fits,
    /// The temperature lies below the band.
    Below,
    /// It lies near an edge.
    Near,
    /// It has only just come into the band, or the fluid still mixes after a start, a fill or a stop that nobody saw.
    Settling,
    /// It lies above the band.
    Above,
    /// It is not known well enough.
    Vague,
    /// Nothing is read of this vehicle now.
    Blind,
    /// The sensor has not shown yet that it follows the fluid: in a slow start a sound one does not either.
    Unproven,
    /// The temperature cannot be trusted.
    Doubt,
    /// Two temperatures are told, and which is right is not known.
    Torn,
    /// Somebody has something to do or to confirm.
    Work,
    /// There is no job.
    Idle,
}

impl Reason {
    /// What it is to the verdict.
    pub const fn bearing(self) -> Bearing {
        self.row().bearing
    }

    /// What to try about it, for people; empty where there is nothing.
    pub const fn remedy(self) -> &'static str {
        self.row().remedy
    }

    /// Whether a screen shows it in a place of its own, so that it need not be read among the reasons.
    pub fn has_own_place(self) -> bool {
        self.row().place == Place::Own
    }

    /// Whether it only says on which side of an edge of the guarded band the temperature is. A shown value that
    /// flickers between two steps flickers between these.
    pub const fn is_at_edge(self) -> bool {
        match self.bearing() {
            Below | Near | Settling => true,
            Fits | Above | Vague | Blind | Unproven | Doubt | Torn | Work | Idle => false,
        }
    }

    /// Whether it says that nothing is read of this vehicle now.
    pub fn is_blind(self) -> bool {
        self.bearing() == Blind
    }

    /// Whether it says that the temperature cannot be trusted.
    pub const fn is_doubt(self) -> bool {
        match self.bearing() {
            Unproven | Doubt => true,
            Fits | Below | Near | Settling | Above | Vague | Blind | Torn | Work | Idle => false,
        }
    }

    /// Whether the temperature is right or will be by itself: nothing but words and a moment stand between it and `go`.
    pub const fn passes(self) -> bool {
        match self.bearing() {
            Fits | Settling | Work => true,
            Below | Near | Above | Vague | Blind | Unproven | Doubt | Torn | Idle => false,
        }
    }
}
