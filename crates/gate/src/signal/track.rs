//! One signal of a control unit over time: its value, whether it follows the world, and how fast it moves.
//!
//! In: readings with their times. Out: the last believed value, its slope, how far it may have fallen behind
//! ([`Track::behind`]), and whether it is proven, settled, straying. Pure; a reading older than the last is ignored.
//! Not here: plausibility of one value and staleness (`evidence/mod.rs`), agreement with the coolant (`copies.rs`).
//! Method: `docs/gate.md`, "Does the signal follow?". The numbers live in [`Limits`].

use core::time::Duration;

use units::Mono;

use crate::limits::Limits;
use crate::signal::pulse::Pulse;
use crate::signal::slope::{Falling, Line, Move, Moves, Slope};
use crate::signal::unexplained::{Stray, Unexplained};
use crate::span::{Sample, minutes};

/// Whether a move upward says that the sensor follows the world.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Proof {
    /// It does.
    Counts,
    /// It does not: the value moves in step with the coolant and may be made up from it.
    CountsNothing,
}

/// Whether the engine can be warming the fluid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Engine {
    /// It runs, or nobody knows.
    MayRun,
    /// It stands, and has for a while.
    Stands,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heading {
    Unknown,
    Up,
    Down,
}

/// One signal over time.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Track {
    limits: Limits,
    /// The step the value is shown in, K.
    step: f64,
    last: Option<Sample>,
    /// The highest value of late.
    high: Option<Sample>,
    heading: Heading,
    /// The value at the newest move, or the first value.
    level: f64,
    moves: Moves,
    /// How fast it moved as of the newest move.
    slope: Option<Slope>,
    /// The same by the last moves alone, and the oldest of them: what the next move is due by.
    near: Option<(Slope, Move)>,
    /// How fast the engine idles.
    pulse: Pulse,
    /// How far, in K, the world may have moved on by the given instant since the level was reached.
    gone: Option<(f64, Mono)>,
    engine: Engine,
    rises: u32,
    proven: bool,
    unexplained: Unexplained,
    /// Until then what was filled in may bring the signal down at once.
    poured_until: Option<Mono>,
}

impl Track {
    pub(crate) const fn new(limits: Limits, step: f64) -> Self {
        Self {
            limits,
            step,
            last: None,
            high: None,
            heading: Heading::Unknown,
            level: 0.0,
            moves: Moves::new(),
            slope: None,
            near: None,
            pulse: Pulse::new(),
            gone: None,
            engine: Engine::MayRun,
            rises: 0,
            proven: false,
            unexplained: Unexplained::new(),
            poured_until: None,
        }
    }

    /// Takes a reading in, or sets it aside as a stray when it cannot follow from the last one.
    pub(crate) fn take(&mut self, at: Mono, value: f64, proof: Proof) {
        let Some(last) = self.last else { return self.begin(at, value) };
        if at < last.at {
            return;
        }
        let gap = at.since(last.at);
        // A run of strays that has begun is judged to its end, however long ago the last good reading is by then.
        if gap > self.limits.forget_after && !self.unexplained.straying() {
            self.forget();
            return self.begin(at, value);
        }
        let off = value - self.nearest(value, last, at);
        if off.abs() > self.reach(gap) + EXACT {
            if !self.explained(off, at, gap) {
                return self.take_stray(at, Some(value));
            }
            self.forget();
            self.unexplained.settle_until(at.after(self.limits.settle_after_jump));
            return self.begin(at, value);
        }
        self.unexplained.contradicted(at, &self.limits);
        self.unexplained.leave_open(self.left_open(value, last, at));
        self.last = Some(Sample { at, value });
        self.high = self.high.filter(|high| high.value > value && at.since(high.at) <= SHIMMER).or(self.last);
        self.move_to(at, value, gap, proof);
    }

    /// A reading that cannot be. `value` is absent where it is not even a temperature of fluid.
    pub(crate) fn take_stray(&mut self, at: Mono, value: Option<f64>) {
        let Stray::Jump { from } = self.unexplained.stray(at, self.last, &self.limits) else { return };
        self.forget();
        match (value, from) {
            (Some(value), Some(from)) => {
                self.unexplained.displace(value - from.value, self.reach(Duration::ZERO));
                self.unexplained.compare_with(None);
                self.begin(at, value);
            }
            (Some(value), None) => self.begin(at, value),
            (None, from) => self.unexplained.compare_with(from),
        }
    }

    /// The step that readings come in, K, once they name it.
    pub(crate) const fn set_step(&mut self, step: f64) {
        self.step = step;
    }

    pub(crate) const fn step(&self) -> f64 {
        self.step
    }

    pub(crate) const fn limits(&self) -> &Limits {
        &self.limits
    }

    pub(crate) const fn last(&self) -> Option<Sample> {
        self.last
    }

    /// The value that the display shimmers up to from the last one: while it rises, noise shows now the one and now the
    /// other. `None` where it does not, or the upper one was not seen for a while.
    pub(crate) fn shimmers_to(&self, now: Mono) -> Option<f64> {
        let high = self.high.filter(|high| now.since(high.at) <= SHIMMER)?;
        let apart = high.value - self.last?.value;
        let near = apart > EXACT && apart <= self.step.max(self.limits.noise_c) + EXACT;
        (near && self.heading == Heading::Up).then_some(high.value)
    }

    /// Whether the signal has been seen to follow the world since its history began.
    pub(crate) const fn proven(&self) -> bool {
        self.proven || self.limits.moves_to_prove == 0
    }

    /// Whether the last jump or stray reading is still too near, or a jump was never explained.
    pub(crate) fn unsettled(&self, now: Mono) -> bool {
        self.unexplained.unsettled(now)
    }

    pub(crate) const fn settled_at(&self) -> Option<Mono> {
        self.unexplained.settled_at()
    }

    /// Where the newest move upward brought the display, and when. `None` unless it is going up.
    pub(crate) fn risen(&self) -> Option<(f64, Mono)> {
        let newest = self.moves.newest().filter(|_| self.heading == Heading::Up)?;
        Some((newest.value, newest.at))
    }

    /// When the display last turned.
    pub(crate) fn newest_turn(&self) -> Option<Mono> {
        self.moves.newest().map(|newest| newest.at)
    }

    pub(crate) const fn moves(&self) -> usize {
        self.moves.len()
    }

    /// How long the present run of moves has lasted at `now`.
    pub(crate) fn moving_for(&self, now: Mono) -> Duration {
        let oldest = self.moves.len().checked_sub(1).and_then(|back| self.moves.nth_back(back));
        oldest.map_or(Duration::ZERO, |m| now.since(m.at))
    }

    /// The line through the moves at `now`, bent where the display is late.
    pub(crate) fn line(&self, now: Mono) -> Option<Line> {
        let next = match self.heading {
            Heading::Down => self.level - self.stride(),
            Heading::Up | Heading::Unknown => self.level + self.stride(),
        };
        self.moves.line(now, self.u_move(), Some(next))
    }

    /// The engine started or came to stand: what was learned of the rate holds no longer, that the signal follows does.
    pub(crate) fn turn(&mut self, at: Mono, engine: Engine) {
        self.gone = self.gone.map(|_| (self.moved_on(at), at));
        self.engine = engine;
        self.heading = Heading::Unknown;
        self.moves.clear();
        (self.slope, self.near) = (None, None);
        self.rises = 0;
    }

    /// The engine idles at `rpm`.
    pub(crate) fn idles(&mut self, at: Mono, rpm: f64) {
        self.pulse.heard(at, rpm);
    }

    /// It does not idle, or nobody knows how fast.
    pub(crate) const fn idles_no_more(&mut self) {
        self.pulse.broken();
    }

    /// How the rate falls as the signal warms, the idle speed of now in it.
    pub(crate) fn falls(&self, now: Mono) -> Option<Falling> {
        let newest = self.moves.newest().filter(|_| self.heading == Heading::Up)?;
        let falling = self.moves.falls(self.limits.falls)?;
        Some(Falling { c_min: falling.c_min * self.quickens(newest, now), ..falling })
    }

    /// How many times as fast as during the last moves the engine turns since `from`, as far as that tells how fast the signal warms.
    fn quickens(&self, from: Move, now: Mono) -> f64 {
        let Some((_, oldest)) = self.near else { return 1.0 };
        let Some(newest) = self.moves.newest() else { return 1.0 };
        let (then, since) = ((oldest.at, oldest.turns), (newest.at, newest.turns));
        let before = self.pulse.mean(then, since);
        let of_now = self.pulse.mean((from.at, from.turns), (now, self.pulse.turns(now)));
        let ratio = of_now.or(self.pulse.newest(now)).zip(before).map_or(1.0, |(now, before)| now / before);
        if ratio < 1.0 { ratio.max(SLOWEST).powf(self.limits.slows_with_idle) } else { ratio.min(FASTEST) }
    }

    /// The rate at which the world may be moving, K/min: what the last moves told and its uncertainty, and never less than
    /// the least pace.
    fn pace(&self) -> f64 {
        let Limits { unknown_rate_c_min, least_pace_c_min, standing_pace_c_min, .. } = self.limits;
        let (unknown, least) = match self.engine {
            Engine::MayRun => (unknown_rate_c_min, least_pace_c_min),
            Engine::Stands => (standing_pace_c_min, standing_pace_c_min),
        };
        self.near.map_or(unknown, |(s, _)| s.c_min.abs() + s.u_c_min).max(least)
    }

    /// How far, in K, the world may have moved on at `now` since the newest move began.
    fn moved_on(&self, now: Mono) -> f64 {
        let Some((gone, from)) = self.gone else { return 0.0 };
        let quickens = self.moves.newest().map_or(1.0, |newest| self.quickens(newest, now));
        gone + self.pace() * quickens * minutes(now.since(from))
    }

    /// How far, in K, the world may have moved on since the signal should have shown its next move. Zero while the
    /// next move is not yet due, and for a signal that was never seen to move: that one proves nothing anyway.
    pub(crate) fn behind(&self, now: Mono) -> f64 {
        let counts = self.proven && self.limits.frozen_after_moves.is_finite();
        if counts { (self.moved_on(now) - self.hides()).max(0.0) } else { 0.0 }
    }

    /// How far, in K, the world may have gone on since the newest move without its being seen: a move, and on a finer display what it has
    /// risen since and one step more, or half the noise where that is more.
    fn hides(&self) -> f64 {
        let risen = match self.heading {
            Heading::Up => self.last.map_or(0.0, |last| last.value - self.level),
            Heading::Down | Heading::Unknown => 0.0,
        };
        let finer = self.step < self.limits.least_move_c;
        if finer {
            self.stride().max(risen + self.step.max(self.limits.noise_c / 2.0))
        } else {
            self.stride()
        }
    }

    /// Whether a display that does not turn can only have fallen behind a world that warms: it rises, and the engine is seen to idle.
    pub(crate) fn only_warms(&self, now: Mono) -> bool {
        self.heading == Heading::Up && self.engine == Engine::MayRun && self.pulse.newest(now).is_some()
    }

    /// What silences have left open, K.
    pub(crate) const fn unseen(&self) -> f64 {
        self.unexplained.unseen()
    }

    /// Whether the signal has fallen so far behind that it must be stuck.
    pub(crate) fn frozen(&self, now: Mono) -> bool {
        self.behind(now) > self.limits.frozen_after_moves * self.stride()
    }

    /// Throws the history away, but not what an unexplained jump says of all that follows.
    pub(crate) fn forget(&mut self) {
        *self = Self {
            unexplained: self.unexplained,
            engine: self.engine,
            pulse: self.pulse,
            poured_until: self.poured_until,
            ..Self::new(self.limits, self.step)
        };
    }

    fn begin(&mut self, at: Mono, value: f64) {
        if let Some(before) = self.unexplained.begin(at) {
            let off = value - before.value;
            if off.abs() > self.reach(at.since(before.at)) {
                self.unexplained.displace(off, self.reach(Duration::ZERO));
            }
        }
        self.last = Some(Sample { at, value });
        self.high = self.last;
        self.level = value;
    }

    /// Of all that the signal may well show at `at`, what is nearest to `value`: anything from where it was, if the world
    /// stood still, to where its slope would have brought it.
    fn nearest(&self, value: f64, last: Sample, at: Mono) -> f64 {
        let onward = self.onward(last, at);
        value.max(last.value.min(onward)).min(last.value.max(onward))
    }

    /// Where its slope would have brought the signal.
    fn onward(&self, last: Sample, at: Mono) -> f64 {
        last.value + self.slope.map_or(0.0, |s| s.c_min) * minutes(at.since(last.at))
    }

    /// How far, in K, a reading after a silence lies from where the slope would have brought it, beyond step and noise.
    fn left_open(&self, value: f64, last: Sample, at: Mono) -> f64 {
        let gap = at.since(last.at);
        if gap <= self.limits.stale_after {
            return 0.0;
        }
        let Limits { noise_c, unseen_c_min, unknown_rate_c_min, .. } = self.limits;
        let rate = unseen_c_min + if self.slope.is_none() { unknown_rate_c_min } else { 0.0 };
        ((value - self.onward(last, at)).abs() - self.step - noise_c - rate * minutes(gap)).max(0.0)
    }

    /// How far the next reading may lie from what is expected, K: a step, the noise, and a rate that changes.
    fn reach(&self, gap: Duration) -> f64 {
        let Limits { noise_c, wander_c_min, unknown_rate_c_min, .. } = self.limits;
        let unknown = if self.slope.is_none() { 2.0 * unknown_rate_c_min } else { 0.0 };
        self.step + noise_c + (wander_c_min + unknown) * minutes(gap)
    }

    /// Fluid is being filled in, colder than what is there: until then the signal may fall at once.
    pub(crate) const fn poured(&mut self, until: Mono) {
        self.poured_until = Some(until);
    }

    /// Whether a jump only makes up for a time in which the signal had stuck, or comes of what was filled in.
    fn explained(&self, off: f64, at: Mono, gap: Duration) -> bool {
        if off < 0.0 && off >= -self.limits.most_fill_c && self.poured_until.is_some_and(|until| at <= until)
        {
            return true;
        }
        let ahead = match self.heading {
            Heading::Up => off,
            Heading::Down => -off,
            Heading::Unknown => return false,
        };
        ahead > 0.0 && ahead <= self.behind(at) + self.reach(gap)
    }

    fn move_to(&mut self, at: Mono, value: f64, gap: Duration, proof: Proof) {
        let rise = value - self.level;
        let stride = self.stride() - EXACT;
        let back = 2.0 * self.stride() - EXACT;
        let heading = match self.heading {
            Heading::Unknown | Heading::Up if rise >= stride => Heading::Up,
            Heading::Unknown | Heading::Down if rise <= -stride => Heading::Down,
            Heading::Down if rise >= back => Heading::Up,
            Heading::Up if rise <= -back => Heading::Down,
            _ => return,
        };
        if heading != self.heading {
            self.heading = heading;
            self.moves.clear();
            self.rises = 0;
        }
        // With several steps at once the newest one fell into the last share of the time between the readings.
        let shares = (rise.abs() / self.stride()).max(1.0);
        let half_share = Duration::from_millis((gap.as_millis() as f64 / shares / 2.0) as u64);
        let turned = Mono::ZERO.after(at.since(Mono::ZERO).saturating_sub(half_share));
        self.moves.push(turned, value, self.pulse.turns(turned));
        self.slope = self.moves.slope(self.u_move());
        self.near = self.slope.and_then(|all| self.moves.near(self.u_move(), all));
        // Where in its step the value was when the move was seen: anywhere it could reach since the reading before.
        self.gone = Some(((self.pace() * minutes(gap)).min(self.stride()), at));
        self.level = value;
        self.count(heading, proof);
        if self.too_fast(gap) {
            self.forget();
            self.begin(at, value);
            self.unexplained.settle_until(at.after(self.limits.settle_after_jump));
        }
    }

    fn count(&mut self, heading: Heading, proof: Proof) {
        match (heading, proof) {
            (Heading::Up, Proof::Counts) => self.rises += 1,
            (Heading::Up, Proof::CountsNothing) => self.rises = 0,
            (Heading::Down | Heading::Unknown, _) => {}
        }
        self.proven |= self.rises >= self.limits.moves_to_prove;
    }

    /// Whether the last three moves came faster than anything can warm or cool.
    fn too_fast(&self, gap: Duration) -> bool {
        let (Some(newest), Some(old)) = (self.moves.newest(), self.moves.nth_back(3)) else { return false };
        let span = minutes(newest.at.since(old.at) + gap);
        (newest.value - old.value).abs() > self.limits.fastest_c_min * span
    }

    /// How long all must be well before `go`: shorter where a move is over sooner.
    pub(crate) fn hold_for(&self) -> Duration {
        let Limits { hold_for, least_hold, .. } = self.limits;
        let part = self.near.map(|(s, _)| HOLD_PART * 60.0 * self.stride() / s.c_min.abs());
        part.map_or(hold_for, |s| {
            Duration::try_from_secs_f64(s).unwrap_or(hold_for).clamp(least_hold, hold_for)
        })
    }

    /// The slope by the last moves alone, at the idle speed of now.
    pub(crate) fn rate(&self, now: Mono) -> Option<Slope> {
        let (slope, newest) = (self.near?.0, self.moves.newest()?);
        let quickens = self.quickens(newest, now);
        Some(Slope { c_min: slope.c_min * quickens, u_c_min: slope.u_c_min * quickens })
    }

    /// How far the value must change to count as one move, K.
    pub(crate) fn stride(&self) -> f64 {
        self.step.max(self.limits.least_move_c)
    }

    /// Standard uncertainty of the value at which a move happens: noise at the edge of a step, at least a quarter of it
    /// either way.
    pub(crate) fn u_move(&self) -> f64 {
        (self.step / 4.0).max(self.limits.noise_c / 2.0) / 3.0_f64.sqrt()
    }
}

/// A rising value that was seen within this time may be the true one although a lower one is shown.
/// Own choice: at 1 K/min and a noise of 0.3 K the display shimmers for 36 s, and seldom keeps quiet for longer than this.
const SHIMMER: Duration = Duration::from_secs(20);
/// The hold is this part of a move at most.
/// Own choice: longer, and a quick climb through the band would be half over before it opened.
const HOLD_PART: f64 = 0.3;
/// What a change of the idle speed is believed to do to the pace at most, either way.
/// Own choice: from cold to hot the measured car falls from 1,800 to 660/min; a little more room either way.
const SLOWEST: f64 = 0.4;
const FASTEST: f64 = 3.0;
/// Differences of shown values are whole steps; this much is the arithmetic's, K.
/// By definition: what is the arithmetic's.
const EXACT: f64 = 1e-6;

#[cfg(test)]
mod tests;
