//! The temperature of the signal now, with its uncertainty: the budget of one reading on a quantised ramp.
//!
//! In: a track and the time. Out: [`Known`]. Not here: typed readings (`thermometer.rs`), whether the evidence may be used at all
//! (`evidence/mod.rs`).
//! The formula is `fluid::measurement::bring_forward`; the budget: `docs/gate.md`, "Estimate".

use fluid::measurement::{OldReading, bring_forward, half_width_u, quantisation_u};
use units::Mono;

use crate::estimate::known::Known;
use crate::signal::track::Track;

/// The estimate from the last believed reading. `None` without one, or where the budget has no answer.
///
/// `behind`: what the signal may have fallen behind by, K; added to the uncertainty in full, since it is no random
/// error but a world that may have moved on in one direction. What silences have left open is added likewise.
pub(crate) fn from_track(track: &Track, now: Mono, behind: f64) -> Option<Known> {
    let (last, limits) = (track.last()?, track.limits());
    let slope = track.rate(now);
    let shimmers_to = track.shimmers_to(now);
    let shown = shimmers_to.map_or(last.value, |high| f64::midpoint(last.value, high));
    // Between two steps the value is at their edge, known to its noise; otherwise anywhere in its step.
    let place_in_step = match shimmers_to {
        Some(_) => track.step().min(track.u_move() * 12.0_f64.sqrt()),
        None => track.step(),
    };
    let forward = bring_forward(OldReading {
        step_c: place_in_step,
        u_sensor_c: half_width_u(limits.sensor_c).ok()?,
        slope_c_min: slope.map_or(0.0, |s| s.c_min),
        u_slope_c_min: slope.map_or(limits.unknown_rate_c_min, |s| s.u_c_min),
        age_s: now.since(last.at).as_secs_f64(),
        latency_s: limits.latency_s,
        // Rounded or truncated, nobody knows: truncation puts the middle of a step half a step higher.
        u_other_c: quantisation_u(track.step()).ok()?,
    })
    .ok()?;
    let u = forward.u_c + track.unseen() + behind;
    let known = Known::new(shown + forward.shift_c, u, slope, track.step())?;
    let highest = shimmers_to.map_or(known.highest, |high| high + forward.shift_c);
    let warmer = if track.only_warms(now) { behind.min(WARMER * track.stride()) } else { 0.0 };
    Some(Known { highest: highest.max(known.highest), warmer, ..known })
}

/// Up to this part of a move a display that is late says only that it is warmer.
/// Own choice: a warm-up that slows down is late by less; what is later may be stuck, and of that nothing is known.
const WARMER: f64 = 0.5;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::Limits;
    use crate::signal::track::Proof;

    #[test]
    fn the_budget_of_a_fresh_whole_degree_is_seven_tenths() {
        let mut track = Track::new(Limits::FLUID, 1.0);
        track.take(Mono::ZERO, 40.0, Proof::Counts);
        let known = from_track(&track, Mono::ZERO, 0.0).unwrap();
        // 1/12 (step) + 1/12 (rounded or truncated) + 1/3 (sensor, ±1 K) = 1/2
        assert_eq!((known.celsius.to_f64(), known.u.to_f64()), (40.0, 0.71));
        let behind = from_track(&track, Mono::ZERO, 1.5).unwrap();
        assert_eq!(behind.u.to_f64(), 2.21, "what it may be behind by is added in full");
    }

    #[test]
    fn a_rising_display_that_is_late_in_an_idling_vehicle_is_not_taken_for_colder_than_shown() {
        let track = |rpm: Option<f64>| {
            let mut track = Track::new(Limits::FLUID, 1.0);
            for second in 0..=150 {
                if let Some(rpm) = rpm {
                    track.idles(Mono::from_secs(second), rpm);
                }
                track.take(Mono::from_secs(second), 36.0 + (second / 60) as f64, Proof::Counts);
            }
            track
        };
        let (at, idling) = (Mono::from_secs(150), track(Some(750.0)));
        let [a_little, long] = [0.3, 1.5].map(|behind| from_track(&idling, at, behind).unwrap());
        assert_eq!((a_little.warmer, long.warmer), (0.3, 0.5), "half a move at most");
        let unseen = from_track(&track(None), at, 0.3).unwrap();
        assert_eq!(unseen.warmer, 0.0, "nobody sees the engine idle");
    }

    #[test]
    fn a_display_that_shimmers_stands_at_the_edge_of_its_step_and_may_be_the_upper_one() {
        let mut track = Track::new(Limits::FLUID, 1.0);
        for (second, shown) in [(0, 38.0), (60, 39.0), (120, 40.0), (121, 39.0)] {
            track.take(Mono::from_secs(second), shown, Proof::Counts);
        }
        let known = from_track(&track, Mono::from_secs(121), 0.0).unwrap();
        // 0.3²/3 (noise at the edge) + 1/12 (rounded or truncated) + 1/3 (sensor) + lag: a little less than within a step.
        assert!((known.celsius.to_f64() - 39.6).abs() < 0.11, "{known:?}");
        assert!(known.u.to_f64() < 0.71 && known.highest > 40.0, "{known:?}");
    }
}
