//! A warm-up and a sensor that are made apart from the gate: the truth that verdicts are held against.
//!
//! The rate bends and wanders; the sensor has an offset within its stated limits, a lag, some noise, and a
//! display that rounds or truncates; at a given second something may happen to it.

use events::{Check, Measure, Reading, Signal};
use gate::{Gate, Judgement};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use units::{Celsius, Kelvins, Mono};

/// How the display makes a step out of a value.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Shows {
    Nearest,
    Truncated,
}

/// What happens to the signal at a certain second.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Mishap {
    Nothing,
    /// It keeps showing its last value.
    Freezes,
    /// It shows this from then on.
    ShowsInstead(f64),
    /// It is this much off from then on.
    Jumps(f64),
    /// No reading comes any more.
    FallsSilent,
    /// No reading comes for so many seconds, and when they come again it has frozen.
    FreezesUnseen(f64),
    /// No reading comes for so many seconds, and from then on it is this much off.
    JumpsUnseen(f64, f64),
}

/// A warm-up and the sensor that sees it.
#[derive(Debug, Clone)]
pub(crate) struct Car {
    pub(crate) start: f64,
    /// K/min at the start; after the mishap times `later`.
    pub(crate) rate: f64,
    pub(crate) later: f64,
    /// The rate falls with this time constant, min.
    pub(crate) tau: f64,
    /// The rate wanders by this share, up and down in this many minutes.
    pub(crate) wander: (f64, f64),
    pub(crate) offset: f64,
    pub(crate) noise: f64,
    /// Time constant of the sensor, s.
    pub(crate) lag: f64,
    pub(crate) step: f64,
    pub(crate) shows: Shows,
    pub(crate) every_ms: u64,
    pub(crate) mishap: Mishap,
    /// At this second.
    pub(crate) at: f64,
    pub(crate) seed: u64,
}

impl Car {
    /// Feeds the gate for `seconds` and hands each judgement, with the truth of its moment, to `look`.
    pub(crate) fn drive(&self, check: &Check, seconds: f64, mut look: impl FnMut(Mono, f64, &Judgement)) {
        let mut gate = Gate::new(check, None);
        let mut truth = self.start;
        let mut body = truth;
        let mut shown = f64::NAN;
        let mut t = 0.0;
        let mut noise = self.seed | 1;
        while t < seconds {
            let at = Mono::from_millis((t * 1_000.0) as u64);
            noise ^= noise << 13;
            noise ^= noise >> 7;
            noise ^= noise << 17;
            let jitter = self.noise * ((noise % 2_001) as f64 / 1_000.0 - 1.0);
            let seen = self.display(body + self.offset + jitter);
            let struck = t >= self.at;
            let value = match self.mishap {
                Mishap::Freezes if struck => Some(shown),
                Mishap::ShowsInstead(instead) if struck => Some(instead),
                Mishap::Jumps(by) if struck => Some(self.display(body + self.offset + jitter + by)),
                Mishap::FallsSilent if struck => None,
                Mishap::FreezesUnseen(silent) | Mishap::JumpsUnseen(silent, _)
                    if struck && t < self.at + silent =>
                {
                    None
                }
                Mishap::FreezesUnseen(_) if struck => Some(shown),
                Mishap::JumpsUnseen(_, by) if struck => Some(self.display(body + self.offset + jitter + by)),
                _ => Some(seen),
            };
            if let Some(value) = value.filter(|v| v.is_finite()) {
                shown = value;
                let measure = Measure::Fluid(Celsius::from_f64(value).unwrap());
                let step = Kelvins::from_f64(self.step);
                gate.observe(&Reading { measure, step, from: None, age_ms: 0 }, at);
            }
            look(at, truth, &gate.judge(at, &[]));
            t += self.every_ms as f64 / 1_000.0;
            truth += self.rate_at(t, struck) * self.every_ms as f64 / 60_000.0;
            body += (truth - body) * (self.every_ms as f64 / 1_000.0 / self.lag.max(1e-9)).min(1.0);
        }
    }

    fn rate_at(&self, t: f64, struck: bool) -> f64 {
        let minutes = t / 60.0;
        let (share, period) = self.wander;
        let wander = 1.0 + share * (core::f64::consts::TAU * minutes / period).sin();
        self.rate * (-minutes / self.tau).exp() * wander * if struck { self.later } else { 1.0 }
    }

    fn display(&self, value: f64) -> f64 {
        let steps = value / self.step;
        self.step
            * match self.shows {
                Shows::Nearest => steps.round(),
                Shows::Truncated => steps.floor(),
            }
    }
}

pub(crate) fn check(band_c: [f64; 2]) -> Check {
    Check::of(Signal::Fluid, band_c)
}

pub(crate) fn cars(
    mishap: impl Strategy<Value = Mishap>,
    later: core::ops::Range<f64>,
) -> impl Strategy<Value = Car> {
    let world =
        (25.0..40.0, prop_oneof![4 => 0.5..2.0, 1 => 2.0..8.0], later, 20.0..200.0, (0.0..0.3, 2.0..10.0));
    let sensor = (
        -1.0..1.0,
        0.0..0.3,
        1.0..15.0,
        prop_oneof![Just(1.0), Just(0.5), Just(0.1)],
        prop_oneof![Just(Shows::Nearest), Just(Shows::Truncated)],
        prop_oneof![Just(500), Just(1_000)],
    );
    (world, sensor, mishap, 0.0..1_000.0, any::<u64>()).prop_map(
        |(
            (start, rate, later, tau, wander),
            (offset, noise, lag, step, shows, every_ms),
            mishap,
            at,
            seed,
        )| {
            Car {
                start,
                rate,
                later,
                tau,
                wander,
                offset,
                noise,
                lag,
                step,
                shows,
                every_ms,
                mishap,
                at,
                seed,
            }
        },
    )
}

/// So many cases, the same on every machine. For a campaign: `GATE_CASES=20` makes twenty times as many, `GATE_SEED=1`
/// draws others.
pub(crate) fn cases(cases: u32) -> ProptestConfig {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u32>().ok());
    let seed = u64::from(number("GATE_SEED").unwrap_or(20_261_125));
    ProptestConfig {
        cases: cases.saturating_mul(number("GATE_CASES").unwrap_or(1)),
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(seed),
        ..ProptestConfig::default()
    }
}
