//! The vehicle's own lamp, as a person tells it: too cold, right, too hot.
//!
//! In: its states with their times. Out: the newest one, and what is known of the temperature then. Not here: whether the
//! mode is on in which it means that (`job`), a thermometer beside it
//! (`picture.rs`), where it puts the fluid (`verdict/band.rs`).
//! A lamp may be lit for another reason: it is believed once it was seen too cold first.

use events::LampState;
use fluid::measurement::half_width_u;
use units::Mono;

use crate::estimate::known::Known;
use crate::limits::LAMP_EDGE_C;

/// What was told of it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct LampSeen {
    newest: Option<(Mono, LampState)>,
    seen_cold: bool,
}

impl LampSeen {
    pub(crate) fn take(&mut self, at: Mono, state: LampState) {
        if self.newest.is_none_or(|(before, _)| before <= at) {
            self.newest = Some((at, state));
            self.seen_cold |= state == LampState::TooCold;
        }
    }

    pub(crate) fn newest_at(&self) -> Option<Mono> {
        self.newest.map(|(at, _)| at)
    }

    /// Whether it was seen to change as the fluid warmed.
    pub(crate) const fn proven(&self) -> bool {
        self.seen_cold
    }

    /// What it shows, as it was told last.
    pub(crate) fn shows(&self) -> Option<LampState> {
        self.newest.map(|(_, state)| state)
    }

    /// Somewhere in its band (`low` to `high`, °C), whose edges are not known well; nothing that would be a number where it is not right.
    pub(crate) fn estimate(&self, (low, high): (f64, f64)) -> Option<Known> {
        self.newest.filter(|(_, state)| *state == LampState::Right)?;
        let half = (high - low) / 2.0;
        let u = half_width_u(half).ok()?.hypot(LAMP_EDGE_C);
        Known::new(low + half, u, None, 2.0 * half)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn right_is_somewhere_in_its_band_and_the_others_are_no_number() {
        let band = (35.0, 45.0);
        let mut lamp = LampSeen::default();
        lamp.take(Mono::ZERO, LampState::TooCold);
        assert!(lamp.proven() && lamp.estimate(band).is_none() && lamp.shows() == Some(LampState::TooCold));
        lamp.take(Mono::from_secs(1), LampState::Right);
        let known = lamp.estimate(band).unwrap();
        // 10/sqrt(12) and 2 K of the edges: sqrt(8.33 + 4).
        assert_eq!((known.celsius.to_f64(), known.u.to_f64()), (40.0, 3.52));
        lamp.take(Mono::ZERO, LampState::TooHot);
        assert_eq!(lamp.shows(), Some(LampState::Right), "an older word is no news");
    }
}
