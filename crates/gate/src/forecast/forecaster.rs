//! Which forecast is asked, and when one has been earned.
//!
//! In: the parts of the gate at one instant. Out: intervals until the band opens, until it closes, until it is back. Not here: the
//! forecasts themselves (`intervals.rs`, `learned/rates.rs`, `nodes/ahead.rs`), their weights (`blend.rs`).
//! Method: docs/gate.md, "Forecast".

use core::time::Duration;

use events::{Forecast, Interval, Reason, Signal};
use units::Mono;

use crate::estimate::Known;
use crate::forecast::blend::{AHEAD, Blend, Each};
use crate::forecast::intervals::{self, Display, Way};
use crate::forecast::learned::{Learned, Ways};
use crate::forecast::warming::{Warmed, Warming};
use crate::picture::Picture;
use crate::signal::slope::Line;
use crate::span::minutes;
use crate::verdict::{Place, ReasonSet};

/// What has been learned for the forecasts: from recordings, from an earlier job, from this one.
#[derive(Debug, Clone)]
pub(crate) struct Forecaster {
    learned: Learned,
    warmed: Warmed,
    blend: Blend,
}

impl Forecaster {
    pub(crate) fn new() -> Self {
        Self { learned: Learned::FITTED, warmed: Warmed::new(None), blend: Blend::new() }
    }

    /// Other learned rates than the fitted ones.
    pub(crate) fn learn(&mut self, learned: Learned) {
        self.learned = learned;
    }

    /// An earlier job on this kind of vehicle was watched.
    pub(crate) fn begin_with(&mut self, earlier: &Warming) {
        self.warmed = Warmed::new(Some(*earlier));
    }

    /// The line broke off: it does not go on upward, or another source shows it.
    pub(crate) fn broken(&mut self) {
        self.warmed.broken();
        self.blend.broken();
    }

    /// The display turned upward to `value` at `at`.
    pub(crate) fn rose(&mut self, at: Mono, value: f64) {
        self.warmed.turned(at, value);
    }

    /// What each forecast expects after the display turned to `value`: how long until [`AHEAD`] turns more.
    pub(crate) fn expects(&self, picture: &Picture<'_>, value: f64) -> Each {
        self.each(picture, value + AHEAD as f64 * picture.evidence.track().stride())
    }

    /// The forecasts are held to what they had expected of this turn, and to what they expect now.
    pub(crate) fn held_to(&mut self, at: Mono, expects: Each) {
        self.blend.turned(at, expects);
    }

    /// How the vehicle warmed in this job; `None` before its identifier has turned some times.
    pub(crate) fn warming(&self) -> Option<Warming> {
        self.warmed.own()
    }

    /// How the vehicle is driven, as the learned rates see it.
    pub(crate) fn ways(&self, picture: &Picture<'_>) -> Ways {
        let Picture { drive, air, now, .. } = picture;
        self.learned.ways(drive.effort(), air.celsius(), drive.climbed(*now))
    }

    /// Until the band itself opens and until the gate will have to close again.
    pub(crate) fn edges_ahead(&self, picture: &Picture<'_>) -> Option<(Option<Interval>, Option<Interval>)> {
        let known = picture.sound()?;
        let shown = shown(picture, known)?;
        let (low, _) = picture.standing.band().edges();
        let (_, high) = picture.standing.band().accepted(known)?;
        let until = |target| self.until_shown(picture, known, target);
        let opens = (shown < low).then(|| until(low)).flatten();
        let closes = (shown <= high).then(|| until(high + known.step * JUST_MORE)).flatten();
        Some((opens, closes))
    }

    /// Until the signal shows `target` or more: by learned rates where the vehicle is driven, by its own way otherwise.
    pub(crate) fn until_shown(&self, picture: &Picture<'_>, known: Known, target: f64) -> Option<Interval> {
        let (evidence, now) = (picture.evidence, picture.now);
        if evidence.signal() == Signal::Coolant && picture.drive.is_driven(now) {
            return self.driven(picture, target);
        }
        let by_line = way(picture, known).and_then(|way| way.until(target));
        if evidence.signal().is_typed() || by_line.is_some_and(|line| line.median <= 0.0) {
            return by_line;
        }
        let each = self.each(picture, target);
        // Earned by moves that clearly rise, or by an earlier job.
        by_line.map(|_| ()).or(each.earlier.map(|_| ()))?;
        let minutes = self.blend.median(each)?;
        let turns = (target - evidence.track().last()?.value) / evidence.track().stride();
        let reach = match evidence.signal() {
            Signal::Coolant if each.earlier.is_some() => intervals::OF_COOLANT_AGAIN,
            Signal::Coolant => intervals::OF_COOLANT,
            _ => intervals::OF_FLUID,
        };
        let around = intervals::around(minutes, self.blend.off(), turns / AHEAD as f64, reach)?;
        // Where nothing but its own moves tells of a fluid, no interval is narrower than the physics allows.
        let alone = evidence.signal() == Signal::Fluid && each.nodes.or(each.earlier).is_none();
        Some(if alone { intervals::no_narrower(around, intervals::STEADY) } else { around })
    }

    /// What each forecast expects of the display's turn to `target`, min.
    fn each(&self, picture: &Picture<'_>, target: f64) -> Each {
        let nodes = if picture.evidence.signal() == Signal::Fluid { by_nodes(picture, target) } else { None };
        Each { line: by_fall(picture, target), nodes, earlier: self.by_earlier(picture, target) }
    }

    /// By an earlier job on this kind of vehicle.
    fn by_earlier(&self, picture: &Picture<'_>, target: f64) -> Option<f64> {
        self.warmed.until(display(picture)?.shown_from(target), picture.now)
    }

    /// By the rates learned from driven vehicles; earned by one move upward, since the recordings stand behind it.
    fn driven(&self, picture: &Picture<'_>, target: f64) -> Option<Interval> {
        let track = picture.evidence.track();
        let (shown, since) = track.risen()?;
        let target = Display { level: shown, step: track.step() }.shown_from(target);
        let seconds = picture.now.since(since).as_secs_f64();
        self.learned.rest(shown, seconds, target, &self.ways(picture)).map(intervals::from_learned)
    }

    /// What a judgement with these reasons promises.
    pub(crate) fn forecast(
        &self,
        picture: &Picture<'_>,
        known: Known,
        reasons: ReasonSet,
    ) -> Option<Forecast> {
        let stale = reasons.has(Reason::Stale);
        let place = picture.standing.place().filter(|&place| place != Place::TooUncertain && !stale)?;
        if reasons.has(Reason::Disagrees) {
            return None;
        }
        let follows = !reasons.has(Reason::Frozen) && !reasons.has(Reason::NotAlive);
        let (low, high) = picture.standing.band().accepted(known)?;
        let mut forecast = Forecast::default();
        if place == Place::Above {
            let read = |air| (air, intervals::AIR_READ_OFF);
            let air = picture.air.celsius().map_or(intervals::AIR_UNKNOWN, read);
            forecast.back_in = intervals::back(known, high, air);
        } else if follows {
            let t = known.celsius.to_f64();
            let until = |target| self.until_shown(picture, known, target);
            forecast.opens_in = if t < low { until(low) } else { None };
            // The first value that lies beyond the guard, not the last within it.
            forecast.closes_in = if t <= high { until(high + known.step * JUST_MORE) } else { None };
        }
        (forecast != Forecast::default()).then_some(forecast)
    }
}

/// What the signal shows; of a thermometer, what is estimated.
fn shown(picture: &Picture<'_>, known: Known) -> Option<f64> {
    match picture.evidence.signal() {
        Signal::Fluid | Signal::Coolant => Some(picture.evidence.track().last()?.value),
        Signal::Spot | Signal::Display | Signal::Lamp => Some(known.celsius.to_f64()),
    }
}

/// The display of a control unit's signal, as it stands.
fn display(picture: &Picture<'_>) -> Option<Display> {
    let track = picture.evidence.track();
    Some(Display { level: track.last()?.value, step: track.step() })
}

/// By the rate of the last moves, as it falls with the temperature and goes with the idle speed of now.
fn by_fall(picture: &Picture<'_>, target: f64) -> Option<f64> {
    let (track, now) = (picture.evidence.track(), picture.now);
    let (falls, (value, since)) = (track.falls(now)?, track.risen()?);
    let next = falls.minutes(track.stride());
    let after = falls.minutes(display(picture)?.shown_from(target) - value) - next;
    let passed = minutes(now.since(since));
    // A display that is late to turn is slower than it was, by as much as is known of it.
    let late = (passed / next).clamp(1.0, LATE);
    let left = (next * late - passed).max(next * ANY_MOMENT) + after * late;
    (left.is_finite() && left > 0.0).then_some(left)
}

/// By the two nodes: when the identifier, noise and step aside, turns to `target`.
fn by_nodes(picture: &Picture<'_>, target: f64) -> Option<f64> {
    let display = display(picture)?;
    let edge = display.shown_from(target) - display.step / 2.0;
    picture.witnesses.until(edge).map(|ahead| ahead.minutes)
}

/// The way the temperature is going, once it has been watched for long enough.
fn way(picture: &Picture<'_>, known: Known) -> Option<Way> {
    let (evidence, now) = (picture.evidence, picture.now);
    let (track, spots) = (evidence.track(), evidence.spots());
    let (seen, span) = match evidence.signal() {
        Signal::Fluid | Signal::Coolant => (track.moves(), track.moving_for(now)),
        Signal::Lamp => return None,
        Signal::Spot | Signal::Display => (spots.count(now), spots.span(now)),
    };
    if seen < EARNED_MOVES && span < EARNED_TIME {
        return None;
    }
    let spread = match evidence.signal() {
        Signal::Fluid | Signal::Spot | Signal::Display | Signal::Lamp => intervals::STEADY,
        Signal::Coolant => intervals::DRIVEN,
    };
    match evidence.signal() {
        Signal::Fluid | Signal::Coolant => {
            let display = Display { level: track.last()?.value, step: known.step };
            Some(Way { line: track.line(now)?, display: Some(display), spread })
        }
        Signal::Spot | Signal::Display | Signal::Lamp => {
            let line = Line { slope: known.slope?, value: known.celsius.to_f64() };
            Some(Way { line, display: None, spread })
        }
    }
}

/// Nothing is forecast before this many moves in one direction (or typed readings), or this long since the first.
/// Source: physics page, section 9: with one-degree steps at least 3 min of data; three moves are as good.
const EARNED_MOVES: usize = 3;
const EARNED_TIME: Duration = Duration::from_secs(180);
/// A display that is late to turn tells of a rate down to this part of what it was.
/// Own choice: later than three times its due it is judged frozen, and nothing is promised.
const LATE: f64 = 3.0;
/// Overdue, the display may turn at any moment: in this share of the time it should have taken.
/// Own choice: next to nothing, but an interval has a length.
const ANY_MOMENT: f64 = 0.1;
/// A thousandth of a step.
/// By definition: next to nothing beyond it.
const JUST_MORE: f64 = 1e-3;
