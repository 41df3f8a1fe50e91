//! Does the fluid reading merely copy the coolant?
//!
//! In: fluid and coolant readings with their times. Out: whether the two are in step just now, and whether they have
//! been for so long that the control unit must make the one from the other. Pure.
//! Source: physics page, section 12: with a sensor code some modules report the coolant, plus 0, 5 or 10 °C.

use core::time::Duration;

use units::Mono;

use crate::span::Sample;

/// Watches the difference between fluid and coolant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Copying {
    fluid: Option<Sample>,
    /// The coarser of the steps of fluid and coolant, K.
    coarse: f64,
    pairs: [Pair; OFFSETS.len()],
}

/// Fluid against coolant at one fixed distance.
#[derive(Debug, Clone, Copy)]
struct Pair {
    offset: f64,
    began: Option<Mono>,
    newest: Mono,
    coolant: (f64, f64),
    seen: u32,
    exact: u32,
}

impl Copying {
    /// `step`: what either is shown in while no reading names more, K.
    pub(crate) fn new(step: f64) -> Self {
        Self { fluid: None, coarse: step, pairs: OFFSETS.map(Pair::new) }
    }

    /// No two values are as far apart as is asked for then.
    #[cfg(feature = "taken-out")]
    pub(crate) const fn take_out(&mut self) {
        self.pairs = [Pair::new(f64::INFINITY); OFFSETS.len()];
    }

    /// A fluid reading; `step`: what it names as its step, K.
    pub(crate) fn fluid(&mut self, at: Mono, value: f64, step: Option<f64>) {
        self.coarsen(step);
        self.fluid = Some(Sample { at, value });
    }

    /// A coolant reading, compared with the fluid reading next before it; `step`: what it names as its step, K.
    pub(crate) fn coolant(&mut self, at: Mono, value: f64, step: Option<f64>) {
        self.coarsen(step);
        let Some(fluid) = self.fluid.filter(|f| at.since(f.at) <= TOGETHER) else { return };
        for pair in &mut self.pairs {
            pair.compare(at, fluid.value, value, self.coarse);
        }
    }

    fn coarsen(&mut self, step: Option<f64>) {
        self.coarse = step.map_or(self.coarse, |step| self.coarse.max(step));
    }

    /// Whether the two are in step just now, so that a move of the fluid reading proves nothing.
    pub(crate) fn in_step(&self) -> bool {
        self.pairs.iter().any(|p| p.seen >= 2 && p.mostly_exact())
    }

    /// Whether the fluid reading is in step with a coolant that moves: not yet for long enough to call it a copy.
    pub(crate) fn suspect(&self) -> bool {
        self.pairs.iter().any(|p| p.seen >= 2 && p.mostly_exact() && p.moved() >= SUSPECT_C)
    }

    /// Whether the fluid reading is a copy.
    pub(crate) fn copies(&self) -> bool {
        self.pairs.iter().any(Pair::copies)
    }
}

impl Pair {
    const fn new(offset: f64) -> Self {
        Self { offset, began: None, newest: Mono::ZERO, coolant: (0.0, 0.0), seen: 0, exact: 0 }
    }

    fn compare(&mut self, at: Mono, fluid: f64, coolant: f64, step: f64) {
        let apart = (fluid - coolant - self.offset).abs();
        // One step apart for a moment: the one was asked before, the other after both had moved.
        if apart > step + EXACT {
            *self = Self::new(self.offset);
            return;
        }
        if self.began.is_none() {
            self.began = Some(at);
            self.coolant = (coolant, coolant);
        }
        self.newest = at;
        self.coolant = (self.coolant.0.min(coolant), self.coolant.1.max(coolant));
        self.seen = self.seen.saturating_add(1);
        self.exact = self.exact.saturating_add(u32::from(apart <= EXACT));
    }

    fn mostly_exact(&self) -> bool {
        f64::from(self.exact) >= MOSTLY * f64::from(self.seen)
    }

    /// How far the coolant moved meanwhile, K.
    fn moved(&self) -> f64 {
        self.coolant.1 - self.coolant.0
    }

    fn copies(&self) -> bool {
        let lasted = self.began.is_some_and(|began| self.newest.since(began) >= LASTING);
        lasted && self.seen >= SEEN && self.moved() >= MOVED_C && self.mostly_exact()
    }
}

/// The distances at which modules have been seen to make one from the other, K.
/// Source: fixtures/reference/physics/substitute_temperatures.csv: coolant, and 5 or 10 K above it.
const OFFSETS: [f64; 3] = [0.0, 5.0, 10.0];
/// Readings further apart in time are not compared.
/// Own choice: coolant is asked each 2 s; one answer may be lost.
const TOGETHER: Duration = Duration::from_secs(5);
/// Equal for at least this long; two temperatures that only cross part sooner.
/// Source: from memory.
const LASTING: Duration = Duration::from_secs(30);
/// At least this many comparisons.
/// Own choice: a coincidence of whole degrees four times over is no rarity.
const SEEN: u32 = 5;
/// While the coolant moved by at least this, K.
/// Own choice: two that stand still are equal by chance; three degrees in step are none.
const MOVED_C: f64 = 3.0;
/// From here on equality is suspect, K.
/// Own choice: a degree in step takes the proof away, which costs a minute at most.
const SUSPECT_C: f64 = 1.0;
/// In this share of the comparisons exactly, and never more than one step apart.
/// Own choice: two displays turn a reading or two apart at each degree.
const MOSTLY: f64 = 0.7;
/// What is the arithmetic's, K.
/// By definition: what is the arithmetic's, K.
const EXACT: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    /// Two minutes of both, once a second; `fluid` and `coolant` of the second.
    fn watched(fluid: impl Fn(f64) -> f64, coolant: impl Fn(f64) -> f64) -> Copying {
        let mut copying = Copying::new(1.0);
        for s in 0..120_u32 {
            let (at, t) = (Mono::from_secs(u64::from(s)), f64::from(s));
            copying.fluid(at, fluid(t).round(), None);
            copying.coolant(at.after(Duration::from_millis(200)), coolant(t + 0.2).round(), None);
        }
        copying
    }

    #[test]
    fn a_copy_is_told_from_a_fluid_that_is_itself() {
        let coolant = |t: f64| 30.0 + t / 20.0;
        let cases: &[(&str, Copying, bool)] = &[
            ("equal while the coolant moves by 6 K", watched(coolant, coolant), true),
            ("5 K above it", watched(|t| coolant(t) + 5.0, coolant), true),
            ("10 K above it", watched(|t| coolant(t) + 10.0, coolant), true),
            ("equal while both stand still", watched(|_| 30.0, |_| 30.0), false),
            ("7 K above it is nobody's rule", watched(|t| coolant(t) + 7.0, coolant), false),
            ("warming at a third of the rate", watched(|t| 30.0 + t / 60.0, coolant), false),
            ("crossing it", watched(|t| 33.0 + t / 60.0, coolant), false),
        ];
        for (what, copying, want) in cases {
            assert_eq!(copying.copies(), *want, "{what}");
        }
    }
}
