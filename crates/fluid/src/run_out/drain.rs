//! How the excess runs out: head, what is left and flow at any time, and the time to a trickle.
//!
//! In: a [`RunOut`], the excess, what warming adds meanwhile. Out: [`Drain`]. Not here: the laws (`run_out.rs`).
//! Source: `A*dh/dt = -Q(h) + q_in`. Without inflow every law integrates in closed form between the heads where the
//! laws change; with inflow, adaptive steps of Dormand and Prince that end at those heads.

use super::{Flow, ML_MIN_PER_M3_S, Regime, RunOut};
use crate::{FluidError, range};

/// The run-out of one excess, from the moment the port is opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Drain {
    run_out: RunOut,
    start_m: f64,
    inflow_m3_s: f64,
    /// Stretches of falling head, highest first.
    stretches: Vec<Stretch>,
}

/// A stretch of the way down on which one law holds.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Stretch {
    from_m: f64,
    to_m: f64,
    regime: Regime,
}

/// The state of the run-out at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrainState {
    /// Head above the rim, mm.
    pub head_mm: f64,
    /// Fluid above the rim, mL.
    pub residual_ml: f64,
    /// What runs out, mL/min.
    pub flow_ml_min: f64,
    /// Which law it follows.
    pub regime: Regime,
}

/// The moment at which the stream has become a trickle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trickle {
    /// Time from opening the port, s.
    pub seconds: f64,
    /// Head above the rim, mm.
    pub head_mm: f64,
    /// Fluid above the rim, mL: common to all who set levels this way, and no error.
    pub residual_ml: f64,
}

impl Drain {
    /// The run-out of `excess_ml` while warming adds `inflow_ml_min` (0 when the temperature stands still, negative
    /// while cooling).
    ///
    /// # Errors
    /// Outside [`range::EXCESS_ML`] or [`range::INFLOW_ML_MIN`].
    pub fn new(run_out: RunOut, excess_ml: f64, inflow_ml_min: f64) -> Result<Self, FluidError> {
        let start_m = run_out.head_of_mm(excess_ml)? / 1_000.0;
        let inflow_m3_s = range::INFLOW_ML_MIN.check(inflow_ml_min)? / ML_MIN_PER_M3_S;
        Ok(Self { run_out, start_m, inflow_m3_s, stretches: stretches(&run_out, start_m) })
    }

    /// The state `seconds` after opening.
    ///
    /// # Errors
    /// Outside [`range::SECONDS`].
    pub fn at(&self, seconds: f64) -> Result<DrainState, FluidError> {
        let t = range::SECONDS.check(seconds)?;
        let head = if self.inflow_m3_s == 0.0 { self.head_after(t) } else { self.stepped(t, None)?.head_m };
        let Flow { ml_min, regime } = self.run_out.flow(head * 1_000.0);
        let head_mm = head * 1_000.0;
        Ok(DrainState {
            head_mm,
            residual_ml: self.run_out.residual_ml(head_mm),
            flow_ml_min: ml_min,
            regime,
        })
    }

    /// When the stream has fallen to `trickle_ml_min`. `None`: never (within some months), since warming brings
    /// as much or more.
    ///
    /// An excess that never ran faster is a trickle from the start.
    ///
    /// # Errors
    /// Outside [`range::TRICKLE_ML_MIN`].
    pub fn trickle(&self, trickle_ml_min: f64) -> Result<Option<Trickle>, FluidError> {
        let trickle = range::TRICKLE_ML_MIN.check(trickle_ml_min)?;
        if trickle <= self.inflow_m3_s * ML_MIN_PER_M3_S {
            return Ok(None);
        }
        if self.run_out.flow(self.start_m * 1_000.0).ml_min <= trickle {
            return Ok(Some(self.trickling(0.0, self.start_m)));
        }
        let head_m = self.run_out.head_for_flow_mm(trickle)? / 1_000.0;
        if self.inflow_m3_s == 0.0 {
            return Ok(Some(self.trickling(self.seconds_to(head_m), head_m)));
        }
        let longest = range::SECONDS.limits().1;
        let reached = self.stepped(longest, Some(head_m))?;
        Ok((reached.seconds < longest).then(|| self.trickling(reached.seconds, head_m)))
    }

    fn trickling(&self, seconds: f64, head_m: f64) -> Trickle {
        let head_mm = head_m * 1_000.0;
        Trickle { seconds, head_mm, residual_ml: self.run_out.residual_ml(head_mm) }
    }

    /// Closed form, no inflow: how long it takes down to `head_m`.
    fn seconds_to(&self, head_m: f64) -> f64 {
        self.stretches
            .iter()
            .take_while(|s| s.from_m > head_m)
            .map(|s| self.seconds_on(s, s.from_m, s.to_m.max(head_m)))
            .sum()
    }

    /// Closed form, no inflow: where the head is after `seconds`.
    fn head_after(&self, seconds: f64) -> f64 {
        if seconds == 0.0 {
            return self.start_m;
        }
        let mut left = seconds;
        let mut head = self.start_m;
        for s in &self.stretches {
            let whole = if s.to_m > 0.0 { self.seconds_on(s, s.from_m, s.to_m) } else { f64::INFINITY };
            if left < whole {
                return self.head_on(s, s.from_m, left).clamp(s.to_m, s.from_m);
            }
            left -= whole;
            head = s.to_m;
        }
        head
    }

    /// `A * integral of dh/Q` from `to` up to `from` under one law.
    fn seconds_on(&self, s: &Stretch, from: f64, to: f64) -> f64 {
        let r = &self.run_out;
        r.area_m2
            * match s.regime {
                Regime::Dry => 0.0,
                Regime::Weir => 2.0 * (1.0 / to.sqrt() - 1.0 / from.sqrt()) / r.weir,
                Regime::Lip => (to.powi(-3) - from.powi(-3)) / (3.0 * r.lip),
                Regime::Orifice => 2.0 * (from.sqrt() - to.sqrt()) / r.orifice,
                Regime::Tube => ((r.length_m + from) / (r.length_m + to)).ln() / r.tube,
            }
    }

    /// The inverse of [`Drain::seconds_on`]: the head after `t` seconds from `from`.
    fn head_on(&self, s: &Stretch, from: f64, t: f64) -> f64 {
        let r = &self.run_out;
        let t = t / r.area_m2;
        match s.regime {
            Regime::Dry => from,
            Regime::Weir => (1.0 / from.sqrt() + t * r.weir / 2.0).powi(-2),
            Regime::Lip => (from.powi(-3) + 3.0 * r.lip * t).cbrt().recip(),
            Regime::Orifice => (from.sqrt() - t * r.orifice / 2.0).max(0.0).powi(2),
            Regime::Tube => (r.length_m + from) * (-t * r.tube).exp() - r.length_m,
        }
    }

    /// The head at which as much runs out as warming brings; none without warming.
    fn rest_m(&self) -> Option<f64> {
        let inflow = Some(self.inflow_m3_s * ML_MIN_PER_M3_S).filter(|ml_min| *ml_min > 0.0)?;
        self.run_out.head_for_flow_mm(inflow).ok().map(|mm| mm / 1_000.0)
    }

    /// Adaptive steps, up to `until` seconds or down to `stop_m`, whichever comes first.
    fn stepped(&self, until: f64, stop_m: Option<f64>) -> Result<Moment, FluidError> {
        let rate = |h: f64| (self.inflow_m3_s - self.run_out.m3_s(h).0) / self.run_out.area_m2;
        let mut edges = crossings(&self.run_out);
        edges.push(0.0);
        edges.extend(stop_m);
        let rest = self.rest_m();
        let mut now = Moment { seconds: 0.0, head_m: self.start_m };
        let mut step = FIRST_STEP_S.min(until);
        for _ in 0..MOST_STEPS {
            if now.seconds >= until || stop_m.is_some_and(|stop| now.head_m <= stop) {
                return Ok(now);
            }
            // Close to the rest a fast fluid would only allow tiny steps, and nothing is left to compute.
            if let Some(rest) = rest.filter(|rest| (now.head_m - rest).abs() <= AT_REST * rest) {
                return Ok(Moment { seconds: until, head_m: rest });
            }
            let mut size = step.min(until - now.seconds);
            let (mut next, mut error) = dormand_prince(&rate, now.head_m, size);
            // A step ends where the law changes: across the kink its error would not be what it seems.
            if let Some(edge) = first_edge(&edges, now.head_m, next) {
                size = part_of_step(&rate, now.head_m, size, edge);
                error = dormand_prince(&rate, now.head_m, size).1;
                next = edge;
            }
            let allowed = TOLERANCE_M + TOLERANCE * next.abs();
            if error <= allowed {
                now = Moment { seconds: now.seconds + size, head_m: next };
            }
            let growth = if error == 0.0 { 5.0 } else { 0.9 * (allowed / error).powf(0.2) };
            step = size * growth.clamp(0.2, 5.0);
        }
        Err(FluidError::NotSettled { wanted: "run-out with inflow", steps: MOST_STEPS })
    }
}

/// A time and the head then.
#[derive(Debug, Clone, Copy)]
struct Moment {
    seconds: f64,
    head_m: f64,
}

/// Cuts the way down from `start_m` where the smallest law changes.
fn stretches(run_out: &RunOut, start_m: f64) -> Vec<Stretch> {
    let mut cuts: Vec<f64> = crossings(run_out).into_iter().filter(|h| *h > 0.0 && *h < start_m).collect();
    cuts.push(0.0);
    cuts.sort_by(|a, b| b.total_cmp(a));
    let mut from_m = start_m;
    let mut out: Vec<Stretch> = Vec::new();
    for to_m in cuts {
        if to_m >= from_m {
            continue;
        }
        let regime = run_out.m3_s(from_m / 2.0 + to_m / 2.0).1;
        out.push(Stretch { from_m, to_m, regime });
        from_m = to_m;
    }
    out
}

/// All heads at which two of the laws agree; some are no change, since a third law is smaller there.
fn crossings(r: &RunOut) -> Vec<f64> {
    let mut heads = vec![r.orifice / r.weir, (r.weir / r.lip).powf(0.4), (r.orifice / r.lip).powf(2.0 / 7.0)];
    // Orifice and tube: tube*s^2 - orifice*s + tube*L = 0 with s the root of the head; two answers or none.
    let inside = r.orifice * r.orifice - 4.0 * r.tube * r.tube * r.length_m;
    if inside >= 0.0 {
        let larger = (r.orifice + inside.sqrt()) / (2.0 * r.tube);
        heads.push(larger * larger);
        heads.push((r.length_m / larger).powi(2));
    }
    // Weir or lip and tube: the power starts below the tube and crosses it once.
    for regime in [Regime::Weir, Regime::Lip] {
        let (mut low, mut high) = (0.0_f64, FAR_M);
        for _ in 0..BISECTIONS {
            let middle = low / 2.0 + high / 2.0;
            if r.law(regime, middle) < r.law(Regime::Tube, middle) { low = middle } else { high = middle }
        }
        heads.push(high);
    }
    heads
}

/// One step of Dormand and Prince of order 5, and the difference to the one of order 4.
fn dormand_prince(rate: &impl Fn(f64) -> f64, y: f64, h: f64) -> (f64, f64) {
    let k1 = rate(y);
    let k2 = rate(y + h * k1 / 5.0);
    let k3 = rate(y + h * (k1 * 3.0 + k2 * 9.0) / 40.0);
    let k4 = rate(y + h * (k1 * 44.0 / 45.0 - k2 * 56.0 / 15.0 + k3 * 32.0 / 9.0));
    let k5 = rate(
        y + h
            * (k1 * 19_372.0 / 6_561.0 - k2 * 25_360.0 / 2_187.0 + k3 * 64_448.0 / 6_561.0
                - k4 * 212.0 / 729.0),
    );
    let k6 = rate(
        y + h
            * (k1 * 9_017.0 / 3_168.0 - k2 * 355.0 / 33.0 + k3 * 46_732.0 / 5_247.0 + k4 * 49.0 / 176.0
                - k5 * 5_103.0 / 18_656.0),
    );
    let next = y + h
        * (k1 * 35.0 / 384.0 + k3 * 500.0 / 1_113.0 + k4 * 125.0 / 192.0 - k5 * 2_187.0 / 6_784.0
            + k6 * 11.0 / 84.0);
    let k7 = rate(next);
    let error = h
        * (k1 * 71.0 / 57_600.0 - k3 * 71.0 / 16_695.0 + k4 * 71.0 / 1_920.0 - k5 * 17_253.0 / 339_200.0
            + k6 * 22.0 / 525.0
            - k7 / 40.0);
    (next, error.abs())
}

/// The first of `edges` on the way from one head to another, both ends excluded.
fn first_edge(edges: &[f64], from: f64, to: f64) -> Option<f64> {
    let (low, high) = (from.min(to), from.max(to));
    let between = edges.iter().copied().filter(|e| low < *e && *e < high);
    if to < from { between.reduce(f64::max) } else { between.reduce(f64::min) }
}

/// How much of a step of `size` it takes from `y` to `edge`.
fn part_of_step(rate: &impl Fn(f64) -> f64, y: f64, size: f64, edge: f64) -> f64 {
    let (mut low, mut high) = (0.0_f64, size);
    for _ in 0..BISECTIONS {
        let middle = low / 2.0 + high / 2.0;
        let there = dormand_prince(rate, y, middle).0;
        let short_of_it = if edge < y { there > edge } else { there < edge };
        if short_of_it { low = middle } else { high = middle }
    }
    high
}

/// Bounds of the search for a head, its halvings; the first step in time and how many there may be; what a step may be
/// wrong by, in m and as a share; and how near a head at rest is.
/// Own choice: tests against fixtures/reference/physics/standpipe_drain.csv hold within its tolerances; coarser fails
/// them, finer only costs time.
const FAR_M: f64 = 1.0e3;
const BISECTIONS: u32 = 80;
const FIRST_STEP_S: f64 = 0.1;
const MOST_STEPS: u32 = 200_000;
const TOLERANCE_M: f64 = 1e-12;
const TOLERANCE: f64 = 1e-9;
const AT_REST: f64 = 1e-7;

#[cfg(test)]
mod tests {
    use super::super::tests::PIPE;
    use super::*;
    use crate::run_out::{Standpipe, TRICKLE_ML_MIN};
    use proptest::prelude::*;

    fn drain(excess_ml: f64, nu: f64, inflow: f64) -> Drain {
        Drain::new(RunOut::new(PIPE, nu).unwrap(), excess_ml, inflow).unwrap()
    }

    #[test]
    fn without_excess_nothing_runs_and_it_is_a_trickle_at_once() {
        let none = drain(0.0, 30.0, 0.0);
        assert_eq!(none.at(10.0).unwrap().regime, Regime::Dry);
        assert_eq!(
            none.trickle(TRICKLE_ML_MIN).unwrap(),
            Some(Trickle { seconds: 0.0, head_mm: 0.0, residual_ml: 0.0 })
        );
    }

    #[test]
    fn warming_that_brings_more_than_a_trickle_never_becomes_one() {
        for inflow in [12.16, TRICKLE_ML_MIN, TRICKLE_ML_MIN * (1.0 - 1e-9)] {
            assert_eq!(drain(473.0, 29.6, inflow).trickle(TRICKLE_ML_MIN).unwrap(), None, "{inflow}");
        }
        let later = drain(473.0, 29.6, 6.08).trickle(TRICKLE_ML_MIN).unwrap().unwrap();
        let still = drain(473.0, 29.6, 0.0).trickle(TRICKLE_ML_MIN).unwrap().unwrap();
        assert!(later.seconds > still.seconds && later.residual_ml == still.residual_ml);
    }

    #[test]
    fn a_pipe_too_narrow_for_more_than_a_trickle_trickles_from_the_start() {
        let straw = Standpipe { bore_mm: 1.0, length_mm: 500.0, ..PIPE };
        let drain = Drain::new(RunOut::new(straw, 3_000.0).unwrap(), 2_000.0, 0.0).unwrap();
        let trickle = drain.trickle(TRICKLE_ML_MIN).unwrap().unwrap();
        assert_eq!((trickle.seconds, trickle.residual_ml.round()), (0.0, 2_000.0));
    }

    #[test]
    fn warming_makes_a_stream_of_what_was_a_trickle() {
        let little = drain(20.0, 29.6, 20.0);
        assert!(little.at(0.0).unwrap().flow_ml_min < 1.0 && little.at(3_600.0).unwrap().flow_ml_min > 19.0);
        assert_eq!(little.trickle(TRICKLE_ML_MIN).unwrap(), None);
    }

    #[test]
    #[rustfmt::skip]
    fn full_tubes_and_inflow_agree_with_small_steps_taken_elsewhere() {
        // Runge-Kutta of order 4 with steps of 5 ms in another language, from the four laws alone.
        let narrow = Standpipe { area_m2: 0.05, bore_mm: 4.0, rim_mm: 1.0, length_mm: 200.0 };
        let cases: &[(&str, Standpipe, f64, f64, f64, &str, f64)] = &[
            // what                       pipe    excess  mm²/s    inflow  regime  mL left after 120 s
            ("thick fluid",               PIPE,   473.0, 3_000.0,  0.0,    "tube", 365.517_404),
            ("narrow and warming",        narrow, 300.0,   300.0,  2.0,    "tube", 278.640_130),
            ("warming at 1 °C/min",       PIPE,   473.0,    29.6,  6.08,   "lip",   46.922_526),
            ("warming from next to none", PIPE,    20.0,    29.6, 20.0,    "lip",   47.838_350),
            ("cooling",                   PIPE,   100.0,    29.6, -6.0,    "lip",   32.975_623),
        ];
        for (what, pipe, excess, nu, inflow, regime, want) in cases {
            let drain = Drain::new(RunOut::new(*pipe, *nu).unwrap(), *excess, *inflow).unwrap();
            let after = drain.at(120.0).unwrap();
            assert!((after.residual_ml - want).abs() < 2e-6, "{what}: {}", after.residual_ml);
            assert_eq!(after.regime.word(), *regime, "{what}");
        }
    }

    #[test]
    fn with_warming_the_flow_settles_at_what_the_warming_brings() {
        let flow = drain(473.0, 29.6, 6.08).at(20_000.0).unwrap().flow_ml_min;
        assert!((flow - 6.08).abs() < 1e-3, "{flow}");
    }

    #[test]
    fn cooling_draws_the_surface_below_the_rim() {
        let cooled = drain(50.0, 29.6, -6.0).at(3_600.0).unwrap();
        assert!(cooled.residual_ml < 0.0 && cooled.flow_ml_min == 0.0);
    }

    proptest! {
        #[test]
        fn the_closed_form_and_the_steps_agree(
            excess in 20.0..1_000.0, nu in 5.0..3_000.0, t in 0.5..600.0,
        ) {
            let d = drain(excess, nu, 0.0);
            let closed = d.at(t).unwrap().head_mm;
            let stepped = d.stepped(t, None).unwrap().head_m * 1_000.0;
            prop_assert!((closed - stepped).abs() < 1e-6 * (1.0 + closed), "{closed} {stepped}");
        }

        #[test]
        fn the_time_to_a_head_leads_to_that_head(excess in 100.0..1_000.0, nu in 5.0..3_000.0, q in 1.0..90.0) {
            let d = drain(excess, nu, 0.0);
            let trickle = d.trickle(q).unwrap().unwrap();
            let there = d.at(trickle.seconds).unwrap();
            prop_assert!((there.head_mm / trickle.head_mm - 1.0).abs() < 1e-9);
            prop_assert!(trickle.seconds == 0.0 || (there.flow_ml_min / q - 1.0).abs() < 1e-9);
        }
    }

    proptest! {
        // Each case asks for a hundred states; few cases do.
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn what_ran_out_and_what_is_left_are_what_was_there_and_came(
            excess in 50.0..600.0, inflow in prop_oneof![Just(0.0), 1.0..20.0],
        ) {
            // The flow over a minute, by Simpson's rule on states that are asked for one by one.
            let d = drain(excess, 29.6, inflow);
            let n = 120_u32;
            let flow = |i: u32| d.at(f64::from(i) * 60.0 / f64::from(n)).unwrap().flow_ml_min;
            let inner: f64 = (1..n).map(|i| flow(i) * if i % 2 == 1 { 4.0 } else { 2.0 }).sum();
            let ran_out = (flow(0) + inner + flow(n)) / f64::from(3 * n);
            let left = d.at(60.0).unwrap().residual_ml;
            prop_assert!((ran_out + left - excess - inflow).abs() < 0.05, "{ran_out} + {left}");
        }
    }
}
