//! The moves of a quantised signal in one direction, and the straight line through them.
//!
//! In: when a new value was first shown. Out: a slope with its uncertainty, and where the line is at a given time.
//! Between two moves a quantised ramp stands still and says nothing; at a move it is known to a part of its step.
//! So the line is fitted through the moves alone: at `t_i` the display turned to `v_i`.
//! Not here: what counts as a move (`track.rs`). Method: ordinary least squares, `docs/gate.md`, "Slope".

use units::Mono;

/// At `at` the signal first showed `value`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Move {
    pub(crate) at: Mono,
    pub(crate) value: f64,
    /// All turns of the engine by then, as far as they were counted.
    pub(crate) turns: f64,
}

/// A rate with its standard uncertainty, K/min.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slope {
    pub(crate) c_min: f64,
    pub(crate) u_c_min: f64,
}

/// A straight line through the moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Line {
    pub(crate) slope: Slope,
    /// The value of the line at the instant it was asked for.
    pub(crate) value: f64,
}

/// A rate that falls with the temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Falling {
    /// At the newest move, K/min.
    pub(crate) c_min: f64,
    /// The share of it that each kelvin takes away; negative where it grows.
    pub(crate) share_per_k: f64,
}

impl Falling {
    /// Minutes from the newest move until the signal has risen by `rise` K. `dT/dt = s exp(-r (T - T0))`, so
    /// `t = (exp(r rise) - 1)/(r s)`.
    pub(crate) fn minutes(&self, rise: f64) -> f64 {
        let Self { c_min, share_per_k } = *self;
        let exponent = share_per_k * rise;
        if exponent.abs() < 1e-6 { rise / c_min } else { exponent.exp_m1() / (share_per_k * c_min) }
    }
}

/// The latest moves, newest last, in a ring of fixed size.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moves {
    ring: [Move; KEPT],
    len: usize,
    next: usize,
}

impl Moves {
    pub(crate) const fn new() -> Self {
        Self { ring: [Move { at: Mono::ZERO, value: 0.0, turns: 0.0 }; KEPT], len: 0, next: 0 }
    }

    pub(crate) const fn clear(&mut self) {
        self.len = 0;
        self.next = 0;
    }

    pub(crate) fn push(&mut self, at: Mono, value: f64, turns: f64) {
        if let Some(slot) = self.ring.get_mut(self.next) {
            *slot = Move { at, value, turns };
        }
        self.next = (self.next + 1) % KEPT;
        self.len = (self.len + 1).min(KEPT);
    }

    pub(crate) const fn len(&self) -> usize {
        self.len
    }

    /// The move `back` places before the newest one.
    pub(crate) fn nth_back(&self, back: usize) -> Option<Move> {
        if back >= self.len {
            return None;
        }
        self.ring.get((self.next + KEPT - 1 - back) % KEPT).copied()
    }

    pub(crate) fn newest(&self) -> Option<Move> {
        self.nth_back(0)
    }

    /// The slope as of the newest move. `None` below two moves.
    ///
    /// `u_move`: standard uncertainty of the value at which a move happens, K.
    pub(crate) fn slope(&self, u_move: f64) -> Option<Slope> {
        Some(self.line(self.newest()?.at, u_move, None)?.slope)
    }

    /// The slope through the last [`NEAR`] moves alone, and the oldest of them. Where it is below `all`, the slope of the whole line, the
    /// warming falls, and the bend is on the safe side already.
    pub(crate) fn near(&self, u_move: f64, all: Slope) -> Option<(Slope, Move)> {
        let newest = self.newest()?;
        let count = NEAR.min(self.len);
        let mut sums = Sums::default();
        for back in 0..count {
            if let Some(m) = self.nth_back(back) {
                sums.add(minutes_before(newest.at, m.at), m.value - newest.value);
            }
        }
        let (c_min, u_c_min) = sums.rate(u_move)?;
        let falls = c_min.abs() < all.c_min.abs();
        let u_c_min = if falls { u_c_min } else { u_c_min.hypot(BEND * c_min) };
        Some((Slope { c_min, u_c_min }, self.nth_back(count - 1)?))
    }

    /// How the rate falls with the temperature: rate at the newest move, K/min, and the share that it loses with each kelvin. `begins` is the
    /// share of vehicles like it and how far that may be off; what the moves tell is weighed against it.
    pub(crate) fn falls(&self, begins: (f64, f64)) -> Option<Falling> {
        let newest = self.newest()?;
        let mut sums = Sums::default();
        for back in 0..self.len.saturating_sub(1).min(PACES) {
            let (late, early) = (self.nth_back(back)?, self.nth_back(back + 1)?);
            let (rise, took) = ((late.value - early.value).abs(), -minutes_before(late.at, early.at));
            if rise > 0.0 && took > 0.0 {
                sums.add(f64::midpoint(late.value, early.value) - newest.value, (rise / took).ln());
            }
        }
        let Sums { n, x, y, xx, xy, .. } = sums;
        if n < 1.0 {
            return None;
        }
        let (share, doubt) = begins;
        let (told, prior) = ((xx - x * x / n) / (PACE_OFF * PACE_OFF), 1.0 / (doubt * doubt));
        let slope = if told > 0.0 { (xy - x * y / n) / (xx - x * x / n) } else { 0.0 };
        let share = (prior * share - told * slope) / (prior + told);
        // The rate halfway through what was seen, brought to where it is now by that share.
        let here = (y - share * -x) / n;
        Some(Falling { c_min: here.exp(), share_per_k: share })
    }

    /// The line at `now`. `next_value` is what the display would turn to next: it has not yet, so at `now` the line
    /// may not have passed it, and bends down to it if it would.
    pub(crate) fn line(&self, now: Mono, u_move: f64, next_value: Option<f64>) -> Option<Line> {
        let bare = self.fit(now, u_move, None)?;
        match next_value {
            Some(next) if (bare.value - next) * bare.slope.c_min > 0.0 => self.fit(now, u_move, Some(next)),
            _ => Some(bare),
        }
    }

    /// Least squares over the newest moves, with one more point at `now` where given. Sums in one pass, on axes that
    /// begin at `now` and at the newest value, where the numbers are small.
    fn fit(&self, now: Mono, u_move: f64, extra: Option<f64>) -> Option<Line> {
        let newest = self.newest()?;
        let mut sums = Sums::default();
        for back in 0..self.used(newest) {
            if let Some(m) = self.nth_back(back) {
                sums.add(minutes_before(now, m.at), m.value - newest.value);
            }
        }
        if let Some(value) = extra {
            sums.add(0.0, value - newest.value);
        }
        let (c_min, u_fit) = sums.rate(u_move)?;
        let u_c_min = u_fit.hypot(BEND * c_min);
        let Sums { n, x, y, .. } = sums;
        Some(Line { slope: Slope { c_min, u_c_min }, value: newest.value + (y - c_min * x) / n })
    }

    /// How many moves the line goes through: those of the last [`WINDOW_MIN`], but [`AT_LEAST`] where there are so many.
    fn used(&self, newest: Move) -> usize {
        let recent = (0..self.len)
            .filter_map(|back| self.nth_back(back))
            .take_while(|m| minutes_before(newest.at, m.at) >= -WINDOW_MIN)
            .count();
        recent.max(AT_LEAST.min(self.len))
    }
}

/// The sums of a line fit.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    n: f64,
    x: f64,
    y: f64,
    xx: f64,
    xy: f64,
    yy: f64,
}

impl Sums {
    fn add(&mut self, x: f64, y: f64) {
        self.n += 1.0;
        self.x += x;
        self.y += y;
        self.xx += x * x;
        self.xy += x * y;
        self.yy += y * y;
    }

    /// The slope of the line and its uncertainty by the fit alone.
    fn rate(&self, u_move: f64) -> Option<(f64, f64)> {
        let &Self { n, x, y, .. } = self;
        let sxx = self.xx - x * x / n;
        if n < 2.0 || sxx <= 0.0 {
            return None;
        }
        let sxy = self.xy - x * y / n;
        let c_min = sxy / sxx;
        let squares = (self.yy - y * y / n - c_min * sxy).max(0.0);
        let scatter = if n > 2.0 { (squares / (n - 2.0)).sqrt() } else { 0.0 };
        Some((c_min, scatter.max(u_move) / sxx.sqrt()))
    }
}

/// Where `at` lies on an axis in minutes whose zero is `now`: negative in the past.
fn minutes_before(now: Mono, at: Mono) -> f64 {
    (at.as_millis() as f64 - now.as_millis() as f64) / 60_000.0
}

/// How many moves are kept.
/// Own choice: three minutes at 8 K/min, faster than any fluid idles; more would cost stack and tell nothing.
const KEPT: usize = 24;
/// The line looks back this long, min.
/// Source: physics page, section 9: with one-degree steps at least 3 min of data.
const WINDOW_MIN: f64 = 3.0;
/// The fewest moves the line looks back over, where there are so many.
/// Own choice: three degrees between them; two alone would be all noise at their edges.
const AT_LEAST: usize = 4;
/// The pace is that of the last so many moves.
/// Own choice: three degrees, in which an idling engine slows down by a tenth at most: three or four hundredths with each kelvin
/// (`fixtures/reference/physics/idle_warmup.csv`).
const NEAR: usize = 4;
/// So many degrees tell how the rate falls.
/// Own choice: fewer are mostly noise at the edges of their steps, and further back the engine was another one.
const PACES: usize = 12;
/// How far one degree's rate is off, as a logarithm.
/// Own choice: noise at both edges of a whole degree, a sixth of it each.
const PACE_OFF: f64 = 0.25;
/// A warm-up is no straight line: the slope now is known to no better than this share of itself.
/// Source: from memory.
const BEND: f64 = 0.1;

#[cfg(test)]
mod tests {
    use super::*;

    fn ramp(n: u64, seconds: u64) -> Moves {
        let mut moves = Moves::new();
        for i in 0..n {
            moves.push(Mono::from_secs(i * seconds), 30.0 + i as f64, 0.0);
        }
        moves
    }

    #[test]
    fn moves_of_an_even_ramp_give_its_rate() {
        let slope = ramp(6, 40).slope(0.144).unwrap();
        assert!((slope.c_min - 1.5).abs() < 1e-9, "{slope:?}");
        assert!(ramp(1, 40).slope(0.144).is_none(), "one move is no rate");
    }

    #[test]
    fn the_uncertainty_of_the_slope_is_that_of_the_line_fit() {
        // docs/gate.md, "Slope": u_s = u/sqrt(Sxx). Two moves a minute apart: Sxx = 0.5 min².
        let slope = ramp(2, 60).slope(0.144).unwrap();
        assert!((slope.u_c_min - (0.144_f64 / 0.5_f64.sqrt()).hypot(0.1)).abs() < 1e-9, "{slope:?}");
    }

    #[test]
    fn a_display_that_has_not_turned_bends_the_line_down() {
        let moves = ramp(5, 60);
        let late = Mono::from_secs(4 * 60 + 180);
        let straight = moves.line(late, 0.144, None).unwrap();
        let bent = moves.line(late, 0.144, Some(35.0)).unwrap();
        assert!((straight.value - 37.0).abs() < 1e-9);
        assert!(bent.value < 36.5 && bent.slope.c_min < 0.8 && bent.slope.u_c_min > straight.slope.u_c_min);
    }

    #[test]
    fn the_ring_keeps_the_newest() {
        let moves = ramp(100, 10);
        assert_eq!(moves.len(), KEPT);
        assert_eq!(moves.newest().unwrap().value, 129.0);
        assert_eq!(moves.nth_back(KEPT - 1).unwrap().value, 106.0);
        assert_eq!(moves.nth_back(KEPT), None);
    }
}
