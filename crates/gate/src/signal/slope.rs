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

/// The latest moves, newest last, in a ring of fixed size.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moves {
    ring: [Move; KEPT],
    len: usize,
    next: usize,
}

impl Moves {
    pub(crate) const fn new() -> Self {
        Self { ring: [Move { at: Mono::ZERO, value: 0.0 }; KEPT], len: 0, next: 0 }
    }

    pub(crate) const fn clear(&mut self) {
        self.len = 0;
        self.next = 0;
    }

    pub(crate) fn push(&mut self, at: Mono, value: f64) {
        if let Some(slot) = self.ring.get_mut(self.next) {
            *slot = Move { at, value };
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
        let Sums { n, x, y, .. } = sums;
        let sxx = sums.xx - x * x / n;
        if n < 2.0 || sxx <= 0.0 {
            return None;
        }
        let sxy = sums.xy - x * y / n;
        let c_min = sxy / sxx;
        let squares = (sums.yy - y * y / n - c_min * sxy).max(0.0);
        let scatter = if n > 2.0 { (squares / (n - 2.0)).sqrt() } else { 0.0 };
        let u_c_min = (scatter.max(u_move) / sxx.sqrt()).hypot(BEND * c_min);
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
}

/// Where `at` lies on an axis in minutes whose zero is `now`: negative in the past.
fn minutes_before(now: Mono, at: Mono) -> f64 {
    (at.as_millis() as f64 - now.as_millis() as f64) / 60_000.0
}

/// How many moves are kept.
const KEPT: usize = 24;
/// The line looks back this long, min. Physics page, section 9: with one-degree steps at least 3 min of data.
const WINDOW_MIN: f64 = 3.0;
/// The fewest moves the line looks back over, where there are so many.
const AT_LEAST: usize = 4;
/// A warm-up is no straight line: the slope now is known to no better than this share of itself. From memory.
const BEND: f64 = 0.1;

#[cfg(test)]
mod tests {
    use super::*;

    fn ramp(n: u64, seconds: u64) -> Moves {
        let mut moves = Moves::new();
        for i in 0..n {
            moves.push(Mono::from_secs(i * seconds), 30.0 + i as f64);
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
