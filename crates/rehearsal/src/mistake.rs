//! Mistakes by name: what a technician, or the vehicle he was given, can do wrong in one job.
//!
//! In: a name. Out: [`Mistake`]. Not here: how it is played (`technician`), what the vehicle is like then (`setup.rs`).

use units::words;

words! {
    /// What goes wrong in a rehearsal.
    Mistake {
        StartedHot "started-hot" "The vehicle comes hot from the road and the job begins at once.",
        UnderFilled "under-filled" "Less goes in than is told: nothing runs out at go.",
        NotLevel "not-level" "The vehicle stands nose up by more than a degree; it is measured, told, and left so.",
        OpenedLate "opened-late" "The check port is opened only after the window has closed.",
        ClosedLate "closed-late" "The check port stays open until the fluid is too hot.",
        WrongOrder "wrong-order" "The check port is opened right after filling, engine off.",
        BypassNotPinned "bypass-not-pinned" "The cooler bypass is not pinned, so the cooler stays empty.",
        AdapterUnplugged "adapter-unplugged" "The adapter is pulled in the middle of the warm-up and plugged in again; the job recovers.",
        SensorFrozen "sensor-frozen" "The fluid sensor sticks near the band while the fluid warms on.",
        NothingTold "nothing-told" "The technician works but tells nothing between start and done.",
        DrainedNotFully "drained-not-fully" "A quarter of the old fluid is left in; the run-out still sets the level.",
        StaysBelow "stays-below" "The one below stays there and says nothing for minutes: no start is said; then he comes out, and the job recovers.",
        HoseForgotten "hose-forgotten" "The exhaust hose is forgotten: it is asked for before the start, and the job recovers.",
        HelperStops "helper-stops" "The one inside stops the engine while the check port is open.",
        LowBefore "low-before" "It was low before by more than the margin; it is topped up as advised.",
    }
}

impl Mistake {
    /// Whether the job is meant to end with the level set in spite of it.
    pub const fn recovers(self) -> bool {
        matches!(
            self,
            Self::AdapterUnplugged
                | Self::DrainedNotFully
                | Self::LowBefore
                | Self::StaysBelow
                | Self::HoseForgotten
        )
    }
}

impl Mistake {
    /// Whether something else is told than what was done: no advice can rest on the truth then.
    pub const fn misreports(self) -> bool {
        matches!(self, Self::UnderFilled | Self::NothingTold)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_mistake_is_found_by_its_name() {
        for mistake in Mistake::ALL {
            assert_eq!(mistake.word().parse(), Ok(*mistake));
        }
        assert!("late".parse::<Mistake>().unwrap_err().to_string().contains("closed-late"));
    }
}
