//! Forecasts made one, each with the weight that its past errors on this vehicle give it.
//!
//! In: what each forecast expects of the next turns of the display, and the turns. Out: one median, and how far it has
//! been off of late. Not here: the forecasts themselves (`intervals.rs`, `nodes/ahead.rs`, `warming.rs`), the calibrated spread (`forecaster.rs`).
//! Method: docs/gate.md, "Forecast": inverse mean square of the errors of the logarithm.

use units::Mono;

use crate::span::minutes;

/// A forecast and its record on this vehicle.
#[derive(Debug, Clone, Copy)]
struct Skill {
    /// What it expected of turns that have not come yet, min, the youngest last.
    expected: [Option<f64>; AHEAD],
    /// Mean square error of the logarithm, with the prior as so many errors more.
    square: f64,
    seen: f64,
}

/// The blend of all.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Blend {
    /// When the last turns came, the youngest last.
    turns: [Option<Mono>; AHEAD],
    line: Skill,
    nodes: Skill,
    earlier: Skill,
    /// The blend's own record: what its intervals are made of.
    own: Skill,
}

/// What the forecasts say of one thing, min: the line through the moves, the two nodes, an earlier job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Each {
    pub(crate) line: Option<f64>,
    pub(crate) nodes: Option<f64>,
    pub(crate) earlier: Option<f64>,
}

impl Blend {
    pub(crate) const fn new() -> Self {
        Self {
            turns: [None; AHEAD],
            line: Skill::new(LINE_PRIOR),
            nodes: Skill::new(NODES_PRIOR),
            earlier: Skill::new(EARLIER_PRIOR),
            own: Skill::new(OWN_PRIOR),
        }
    }

    /// The display turned at `at`. `expects`: how long until it will have turned [`AHEAD`] times more.
    pub(crate) fn turned(&mut self, at: Mono, expects: Each) {
        let [oldest, ..] = self.turns;
        if let Some(taken) = oldest.map(|then| minutes(at.since(then))) {
            self.line.scored(taken);
            self.nodes.scored(taken);
            self.earlier.scored(taken);
            self.own.scored(taken);
        }
        self.turns.rotate_left(1);
        if let Some(slot) = self.turns.last_mut() {
            *slot = Some(at);
        }
        self.line.expect(expects.line);
        self.nodes.expect(expects.nodes);
        self.earlier.expect(expects.earlier);
        self.own.expect(self.median(expects));
    }

    /// The line broke off: what was expected of it is void, what was learned of the forecasts is not.
    pub(crate) fn broken(&mut self) {
        self.turns = [None; AHEAD];
        self.line.expected = [None; AHEAD];
        self.nodes.expected = [None; AHEAD];
        self.earlier.expected = [None; AHEAD];
        self.own.expected = [None; AHEAD];
    }

    /// How far the blend has been off of late: root mean square of the logarithm.
    pub(crate) fn off(&self) -> f64 {
        self.own.square.sqrt()
    }

    /// One median of all, min: the weighted mean of the logarithms. `None` where there is none.
    pub(crate) fn median(&self, each: Each) -> Option<f64> {
        let said = [(each.line, &self.line), (each.nodes, &self.nodes), (each.earlier, &self.earlier)];
        let (mut sum, mut weights) = (0.0, 0.0);
        for (minutes, skill) in said {
            if let Some(minutes) = minutes.filter(|m| *m > 0.0) {
                sum += minutes.ln() / skill.square;
                weights += 1.0 / skill.square;
            }
        }
        (weights > 0.0).then(|| (sum / weights).exp())
    }
}

impl Skill {
    const fn new(prior: f64) -> Self {
        Self { expected: [None; AHEAD], square: prior * prior, seen: PRIOR_COUNTS }
    }

    fn expect(&mut self, minutes: Option<f64>) {
        self.expected.rotate_left(1);
        if let Some(slot) = self.expected.last_mut() {
            *slot = minutes;
        }
    }

    fn scored(&mut self, taken: f64) {
        let [oldest, ..] = self.expected;
        if let Some(expected) = oldest.filter(|m| *m > 0.0 && taken > 0.0) {
            let off = (taken / expected).ln().clamp(-MOST_OFF, MOST_OFF);
            self.seen = (self.seen + 1.0).min(REMEMBERS);
            self.square += (off * off - self.square) / self.seen;
        }
    }
}

/// A forecast is scored on so many turns ahead.
/// Own choice: one alone is mostly noise at the edge of a step.
pub(crate) const AHEAD: usize = 3;
/// The error of the logarithm that each is credited with at first, and for how many errors that counts.
/// Source: physics page, section 7: a slope ±20 %; from default parameters a factor of two, less what the first minutes have told;
/// an earlier job by the spread of one car's warm-ups (`fixtures/reference/physics/idle_warmup.csv`).
const LINE_PRIOR: f64 = 0.2;
const NODES_PRIOR: f64 = 0.25;
const EARLIER_PRIOR: f64 = 0.08;
const OWN_PRIOR: f64 = 0.12;
const PRIOR_COUNTS: f64 = 3.0;
/// Older errors than so many fade.
/// Own choice: what was off ten degrees ago was another engine's idle.
const REMEMBERS: f64 = 10.0;
/// One error counts for no more than a factor of e.
/// Own choice: one display that hung must not decide for the rest of the job.
const MOST_OFF: f64 = 1.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_forecast_that_was_right_gets_the_weight() {
        let mut blend = Blend::new();
        let both = Each { line: Some(3.0), nodes: Some(6.0), earlier: None };
        let before = blend.median(both).unwrap();
        assert!(before > 3.0 && before < 6.0);
        // A turn a minute: the line was right with three, the nodes were not.
        (0..12).for_each(|i| blend.turned(Mono::from_secs(60 * i), both));
        let after = blend.median(both).unwrap();
        assert!(after < 3.2, "{before} then {after}");
    }

    #[test]
    fn one_forecast_alone_is_taken_as_it_is() {
        let blend = Blend::new();
        assert!((blend.median(Each { nodes: Some(4.0), ..Each::default() }).unwrap() - 4.0).abs() < 1e-9);
        assert_eq!(blend.median(Each::default()), None);
    }

    #[test]
    fn what_was_expected_of_a_line_that_broke_off_is_held_against_nobody() {
        let mut blend = Blend::new();
        let both = Each { line: Some(0.1), nodes: Some(0.1), earlier: Some(0.1) };
        (0..3).for_each(|i| blend.turned(Mono::from_secs(60 * i), both));
        blend.broken();
        blend.turned(Mono::from_secs(9_000), both);
        assert_eq!(blend.line.square, LINE_PRIOR * LINE_PRIOR);
    }
}
