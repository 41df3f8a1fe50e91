//! Readings that a person takes with a thermometer and types in.
//!
//! In: values with their surface and time, and the temperature of the air. Out: the fluid's temperature now with its
//! uncertainty, which grows with the age of the newest reading times the rate the fluid may warm at.
//! Not here: the radiometry of one reading (`fluid`), bare metal (never kept: its reading is the surroundings').
//! Method: `docs/gate.md`, "Typed readings".

use core::time::Duration;

use events::Surface;
use fluid::measurement::{half_width_u, quantisation_u};
use units::{Celsius, Kelvins, Mono};

use crate::estimate::known::Known;
use crate::limits::{DISPLAY, DISPLAY_STEP_C, SURFACES, SpotLimits, SurfaceRow};
use crate::signal::slope::Slope;
use crate::span::minutes;

/// The latest typed readings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spots {
    limits: SpotLimits,
    /// Newest last; the oldest falls out.
    kept: [Option<Spot>; KEPT],
    step: f64,
    /// When the fluid was last set mixing: what was read before says nothing of it since.
    mixing_since: Option<Mono>,
}

/// The fluid's temperature and its standard uncertainty by one reading of a thermometer, as it is typed in, where it says anything of
/// the fluid: the air under the vehicle and bare metal do not.
pub fn by_thermometer(
    celsius: Celsius,
    surface: Surface,
    air: Option<Celsius>,
) -> Option<(Celsius, Kelvins)> {
    let mut spots = Spots::new(SpotLimits::TYPED, SpotLimits::TYPED.step_c);
    spots.take(Mono::ZERO, celsius.to_f64(), surface, None);
    spots.estimate(Mono::ZERO, air.map(Celsius::to_f64)).map(|known| (known.celsius, known.u))
}

#[derive(Debug, Clone, Copy)]
struct Spot {
    at: Mono,
    value: f64,
    row: SurfaceRow,
}

impl Spots {
    pub(crate) const fn new(limits: SpotLimits, step: f64) -> Self {
        Self { limits, kept: [None; KEPT], step, mixing_since: None }
    }

    pub(crate) const fn limits(&self) -> &SpotLimits {
        &self.limits
    }

    /// Keeps a reading. Bare metal is not kept, and a reading older than the newest one neither.
    pub(crate) fn take(&mut self, at: Mono, value: f64, surface: Surface, step: Option<f64>) {
        if let Some(row) = SURFACES.iter().copied().find(|row| row.surface == Some(surface)) {
            self.keep(at, value, row, step);
        }
    }

    /// The same of a number on the vehicle's display.
    pub(crate) fn take_display(&mut self, at: Mono, value: f64, step: Option<f64>) {
        self.keep(at, value, DISPLAY, Some(step.unwrap_or(DISPLAY_STEP_C)));
    }

    fn keep(&mut self, at: Mono, value: f64, row: SurfaceRow, step: Option<f64>) {
        if self.newest().is_some_and(|newest| at < newest.at) {
            return;
        }
        self.step = step.unwrap_or(self.step);
        self.kept.rotate_left(1);
        if let Some(slot) = self.kept.last_mut() {
            *slot = Some(Spot { at, value, row });
        }
    }

    /// The engine was started after it had stood, or fluid was filled in.
    pub(crate) const fn mixed_anew(&mut self, at: Mono) {
        self.mixing_since = Some(at);
    }

    /// Whether there are readings, but none since then.
    pub(crate) fn all_from_before_the_mixing(&self) -> bool {
        self.is_before_the_mixing(self.newest_at())
    }

    /// Whether that moment was.
    pub(crate) fn is_before_the_mixing(&self, newest: Option<Mono>) -> bool {
        newest.zip(self.mixing_since).is_some_and(|(newest, since)| newest < since)
    }

    pub(crate) fn newest_at(&self) -> Option<Mono> {
        self.newest().map(|spot| spot.at)
    }

    /// How many readings are recent enough to belong together.
    pub(crate) fn count(&self, now: Mono) -> usize {
        self.recent(now).count()
    }

    /// From the oldest of them to the newest.
    pub(crate) fn span(&self, now: Mono) -> Duration {
        let oldest = self.recent(now).next();
        self.newest().zip(oldest).map_or(Duration::ZERO, |(newest, oldest)| newest.at.since(oldest.at))
    }

    /// The fluid's temperature now. `None` without a reading.
    pub(crate) fn estimate(&self, now: Mono, air: Option<f64>) -> Option<Known> {
        let spot = self.newest()?;
        let age = minutes(now.since(spot.at));
        let slope = self.slope(now);
        let (low, high) = self.rates(slope);
        let (air, air_off) = air.map_or(self.limits.air_c, |air| (air, 0.0));
        let offset = spot.row.offset * (spot.value - air);
        let parts = [
            quantisation_u(self.step).ok()?,
            spot.row.u_c,
            offset / 2.0,
            half_width_u(spot.row.offset * air_off).ok()?,
        ];
        let u = parts.iter().map(|u| u * u).sum::<f64>().sqrt();
        // Not knowing the rate is no random error: the half width counts in full.
        let middle = spot.value + offset + age * (low + high) / 2.0;
        Known::new(middle, u + age * (high - low) / 2.0, slope, self.step)
    }

    /// How old the newest reading may grow: until what its own rate makes of its age is a quarter of the band; a fixed time
    /// while no rate is known. Never longer than a rate is believed.
    pub(crate) fn holds_for(&self, now: Mono, band: f64) -> Duration {
        let Some(slope) = self.slope(now) else { return self.limits.stale_after };
        // Slower than it is known no rate is taken to be.
        let rate = slope.c_min.abs().max(slope.u_c_min).max(LEAST_RATE_C_MIN);
        let held = Duration::from_secs_f64(band * BAND_SHARE / rate * 60.0);
        held.min(self.limits.forget_after)
    }

    /// The slope between the newest reading and the oldest recent one on the same surface.
    fn slope(&self, now: Mono) -> Option<Slope> {
        let newest = self.newest()?;
        let oldest = self.recent(now).find(|spot| spot.row.surface == newest.row.surface)?;
        let span = newest.at.since(oldest.at);
        if span < self.limits.apart {
            return None;
        }
        let c_min = (newest.value - oldest.value) / minutes(span);
        Some(Slope { c_min, u_c_min: 2.0_f64.sqrt() * self.limits.repeat_c / minutes(span) })
    }

    /// From which to which rate the fluid may warm, K/min.
    fn rates(&self, slope: Option<Slope>) -> (f64, f64) {
        let (least, most) = self.limits.rate_c_min;
        slope.map_or((0.0, self.limits.unknown_rate_c_min), |s| {
            // Faster than idling warms: seen all the same, as after the start of a hot engine, and believed upward.
            let bound = |rate: f64| rate.clamp(least, most.max(s.c_min));
            (bound(s.c_min - 2.0 * s.u_c_min), bound(s.c_min + 2.0 * s.u_c_min))
        })
    }

    fn newest(&self) -> Option<Spot> {
        self.kept.last().copied().flatten()
    }

    fn recent(&self, now: Mono) -> impl Iterator<Item = Spot> {
        let counts = move |spot: &Spot| {
            now.since(spot.at) <= self.limits.forget_after && self.mixing_since.is_none_or(|at| spot.at >= at)
        };
        self.kept.into_iter().flatten().filter(counts)
    }
}

/// A reading holds until its rate may have made so much of the band of it.
/// Own choice: the guard takes the rest; more, and the edge is passed before the reading is old.
const BAND_SHARE: f64 = 0.25;
/// What no rate is taken to be below, K/min.
/// Own choice: a fifth of the slowest idling; without it a slope of next to nothing would let a reading hold for ever.
const LEAST_RATE_C_MIN: f64 = 0.1;
/// How many readings are kept.
/// Own choice: ten minutes of a reading each 80 s; two make a slope.
const KEPT: usize = 8;

#[cfg(test)]
mod tests {
    use super::*;

    fn spots(readings: &[(u64, f64, Surface)]) -> Spots {
        let mut spots = Spots::new(SpotLimits::TYPED, 0.1);
        for &(seconds, value, surface) in readings {
            spots.take(Mono::from_secs(seconds), value, surface, None);
        }
        spots
    }

    #[test]
    fn fresh_uncertainties_by_surface_are_those_of_the_trade() {
        // Physics page, section 8, at 40 °C over 20 °C air: "tape u about 1.2 °C"; the others common practice.
        let cases = [
            (Surface::Tape, 41.5, 1.25),
            (Surface::MattPaint, 41.5, 1.33),
            (Surface::Plastic, 45.0, 2.92),
            (Surface::Contact, 41.5, 1.5),
            (Surface::Stream, 40.0, 0.8),
        ];
        for (surface, celsius, u) in cases {
            let known = spots(&[(0, 40.0, surface)]).estimate(Mono::ZERO, Some(20.0)).unwrap();
            assert!((known.celsius.to_f64() - celsius).abs() < 1e-9, "{surface}: {known:?}");
            assert!((known.u.to_f64() - u).abs() < 0.02, "{surface}: {known:?}");
        }
    }

    #[test]
    fn a_display_is_known_to_its_step_and_its_sensor() {
        let mut spots = Spots::new(SpotLimits::TYPED, 0.1);
        spots.take_display(Mono::ZERO, 41.0, None);
        let known = spots.estimate(Mono::ZERO, Some(20.0)).unwrap();
        // 2 K of the sensor and a whole degree: sqrt(4 + 1/12).
        assert_eq!((known.celsius.to_f64(), known.u.to_f64()), (41.0, 2.03));
    }

    #[test]
    fn a_reading_holds_until_its_rate_has_made_a_quarter_of_the_band() {
        let held = |readings: &[(u64, f64, Surface)], band: f64| {
            spots(readings).holds_for(Mono::from_secs(300), band).as_secs_f64()
        };
        assert_eq!(held(&[(280, 38.0, Surface::Tape)], 10.0), 90.0, "no rate");
        let slow = [(0, 34.0, Surface::Tape), (240, 38.0, Surface::Tape)];
        assert_eq!(held(&slow, 10.0), 150.0, "1 K/min: 2.5 K in 150 s");
        assert_eq!(held(&slow, 20.0), 300.0);
        let fast = [(180, 30.0, Surface::Tape), (300, 38.0, Surface::Tape)];
        assert_eq!(held(&fast, 10.0), 37.5, "4 K/min");
        let still = [(0, 38.0, Surface::Tape), (240, 38.0, Surface::Tape)];
        assert!(held(&still, 10.0) > 600.0 - 1.0, "never longer than a rate is believed");
    }

    #[test]
    fn bare_metal_is_not_evidence() {
        assert!(spots(&[(0, 40.0, Surface::BareMetal)]).estimate(Mono::ZERO, None).is_none());
    }

    #[test]
    fn an_ageing_reading_allows_for_a_fluid_that_warmed_since() {
        let one = spots(&[(0, 38.0, Surface::Stream)]);
        let known = one.estimate(Mono::from_secs(60), Some(20.0)).unwrap();
        // From none to 1.7 K/min for a minute: 0.85 in the middle, and 0.85 more of uncertainty.
        assert!((known.celsius.to_f64() - 38.85).abs() < 1e-9 && (known.u.to_f64() - 1.66).abs() < 0.011);
        let slow = spots(&[(0, 36.0, Surface::Stream), (240, 38.0, Surface::Stream)]);
        let known = slow.estimate(Mono::from_secs(300), Some(20.0)).unwrap();
        assert!(
            (known.celsius.to_f64() - 38.5).abs() < 1e-9,
            "a known rate takes the place of the cautious one"
        );
        assert!((known.u.to_f64() - 1.16).abs() < 0.02, "{known:?}");
    }

    #[test]
    fn an_old_reading_does_not_count() {
        let two = spots(&[(0, 38.0, Surface::Tape), (30, 38.4, Surface::Tape)]);
        assert_eq!((two.count(Mono::from_secs(31)), two.count(Mono::from_secs(601))), (2, 1));
        assert_eq!(two.span(Mono::from_secs(31)), Duration::from_secs(30));
    }
}
