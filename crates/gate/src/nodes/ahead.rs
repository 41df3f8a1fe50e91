//! How long until a temperature is reached, by the two nodes.
//!
//! In: the filter, what is looked at, the target. Out: [`Ahead`], a median and how far it may be off. Pure, no heap: the
//! means run forward in a fixed number of steps, the uncertainty comes back along them as one vector (the adjoint),
//! which is what `x' P x` asks for and costs a ninth of carrying the whole spread along.
//! Derivation: docs/gate.md, "Two nodes".

#![allow(clippy::indexing_slicing, reason = "named constant places in vectors of fixed size")]

use super::filter::{ENGINE, Look, Nodes, Running, State, noise};

/// A span of time with how far it may be off, as the standard deviation of its logarithm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ahead {
    pub(crate) minutes: f64,
    pub(crate) u_ln: f64,
}

impl Nodes {
    /// Until `look` shows `target` from below. `None` where it does not within [`FURTHEST_MIN`], or is there already.
    pub(crate) fn until(&self, look: Look, target: f64, running: Running) -> Option<Ahead> {
        let mut path = [self.x; STEPS];
        let mut now = *self;
        let (mut before, mut steps) = (look.0.dot(&self.x), 0_u16);
        if before >= target {
            return None;
        }
        let hottest = now.x[ENGINE].max(THERMOSTAT_C);
        for slot in &mut path {
            *slot = now.x;
            now.speed = self.speed_at(now.x[ENGINE]);
            now.x += now.rates(running) * STEP_MIN;
            now.x[ENGINE] = now.x[ENGINE].min(hottest);
            let shown = look.0.dot(&now.x);
            if shown >= target {
                let rate = (shown - before) / STEP_MIN;
                let minutes = f64::from(steps) * STEP_MIN + (target - before) / rate;
                let u = self.u_along(look, path.iter().take(usize::from(steps) + 1), running);
                return Some(Ahead { minutes, u_ln: u / rate / minutes.max(STEP_MIN) });
            }
            before = shown;
            steps += 1;
        }
        None
    }

    /// Uncertainty of `look` at the end of a path of means: the look carried back to its start, with the noise met on the way.
    fn u_along<'a>(
        &self,
        look: Look,
        path: impl DoubleEndedIterator<Item = &'a State>,
        running: Running,
    ) -> f64 {
        let (mut w, mut met) = (look.0, 0.0);
        for &x in path.rev() {
            let there = Self { x, p: self.p, speed: self.speed_at(x[ENGINE]) };
            met += noise(running).dot(&w.component_mul(&w)) * STEP_MIN;
            w += there.slope_of(running).tr_mul(&w) * STEP_MIN;
        }
        (w.dot(&(self.p * w)) + met).max(0.0).sqrt()
    }
}

/// So many steps of so many minutes.
/// Own choice: an hour and a half, longer than a warm-up; half a minute is no coarser than what is promised.
const STEPS: usize = 180;
const STEP_MIN: f64 = 0.5;
/// The thermostat holds the coolant at about this, °C, or at what it has already.
/// Source: physics page, section 7: 82 to 105.
const THERMOSTAT_C: f64 = 92.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nodes::filter::Cooler;

    fn soaked() -> Nodes {
        let mut nodes = Nodes::unread(Cooler::PinnedThrough);
        nodes.learn(Look::air(), 20.0, 1.0);
        nodes.learn(Look::engine(), 20.0, 1.0);
        nodes.learn(Look::fluid_between(1.0), 0.0, 1.0);
        nodes
    }

    #[test]
    fn the_time_ahead_is_when_the_filter_gets_there() {
        let nodes = soaked();
        let ahead = nodes.until(Look::fluid(), 35.0, Running::Idle).unwrap();
        let mut later = nodes;
        later.pass(ahead.minutes, Running::Idle);
        assert!(
            (later.see(Look::fluid()).mean - 35.0).abs() < 0.3,
            "{ahead:?} {:?}",
            later.see(Look::fluid())
        );
        // The spread along the way is the one that the filter itself has there.
        let rate = later.fluid_rate(Running::Idle);
        let u = ahead.u_ln * ahead.minutes * rate;
        assert!((u / later.see(Look::fluid()).u - 1.0).abs() < 0.1, "{u} {:?}", later.see(Look::fluid()));
    }

    #[test]
    fn what_was_learned_narrows_what_is_ahead() {
        let wide = soaked();
        let mut known = wide;
        for degree in 0..6 {
            known.learn(Look::fluid(), 20.0 + f64::from(degree), 0.3);
            known.learn(Look::engine(), 20.0 + 2.0 * f64::from(degree), 1.0);
            known.pass(0.8, Running::Idle);
        }
        let ten_more = |nodes: &Nodes| {
            let from = nodes.see(Look::fluid()).mean;
            nodes.until(Look::fluid(), from + 10.0, Running::Idle).unwrap()
        };
        let (wide, known) = (ten_more(&wide), ten_more(&known));
        assert!(known.u_ln < 0.6 * wide.u_ln, "{wide:?} {known:?}");
    }

    #[test]
    fn nothing_is_ahead_where_it_never_comes() {
        assert_eq!(soaked().until(Look::fluid(), 140.0, Running::Idle), None);
        assert_eq!(soaked().until(Look::fluid(), 35.0, Running::Off), None);
        assert_eq!(soaked().until(Look::fluid(), 10.0, Running::Idle), None, "passed already");
    }
}
