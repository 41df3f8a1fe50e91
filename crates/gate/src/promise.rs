//! What the gate promises of the time ahead: which forecast is asked, and when one has been earned.
//!
//! In: the gate as it stands. Out: intervals until the band opens, until it closes, until it is back. Not here: the forecasts
//! themselves (`forecast.rs`, `learned.rs`, `nodes/ahead.rs`), their weights (`blend.rs`).
//! Method: docs/gate.md, "Forecast".

use core::time::Duration;

use events::{Forecast, Interval, Reason, Signal};
use units::{Celsius, Mono};

use crate::blend::{AHEAD, Each};
use crate::decide::Place;
use crate::estimate::Known;
use crate::forecast::{self, Display, Way};
use crate::judge::Gate;
use crate::moves::Line;
use crate::verdict::ReasonSet;

impl Gate {
    /// How long until the signal shows `target` or more, from below. `None` where nothing is worth promising. The
    /// forecast of a judgement asks the same for the edges of the guarded band.
    pub fn until(&self, target: Celsius, now: Mono) -> Option<Interval> {
        if !self.void(now).is_empty() || self.stale(now) {
            return None;
        }
        self.until_shown(self.estimate(now)?, target.to_f64(), now)
    }

    /// When the band itself opens (its lower edge is shown) and when the gate will have to close again: what a
    /// recording is held against. The forecast of a judgement opens with the guarded band, since `go` comes only then.
    pub fn band_ahead(&self, now: Mono) -> Forecast {
        let (opens_in, closes_in) = self.edges_ahead(now).unwrap_or_default();
        Forecast { opens_in, closes_in, ..Forecast::default() }
    }

    fn edges_ahead(&self, now: Mono) -> Option<(Option<Interval>, Option<Interval>)> {
        if !self.void(now).is_empty() || self.stale(now) {
            return None;
        }
        let known = self.estimate(now)?;
        let shown = self.shown(known)?;
        let (_, high) = self.band.accepted(known)?;
        let opens = (shown < self.band.low).then(|| self.until_shown(known, self.band.low, now)).flatten();
        let beyond = high + known.step * JUST_MORE;
        let closes = (shown <= high).then(|| self.until_shown(known, beyond, now)).flatten();
        Some((opens, closes))
    }

    /// What the signal shows; of a thermometer, what is estimated.
    fn shown(&self, known: Known) -> Option<f64> {
        match self.signal {
            Signal::Fluid | Signal::Coolant => Some(self.track.last()?.value),
            Signal::Spot | Signal::Display | Signal::Lamp => Some(known.celsius.to_f64()),
        }
    }

    /// Until the signal shows `target` or more: by learned rates where the vehicle is driven, by its own way otherwise.
    fn until_shown(&self, known: Known, target: f64, now: Mono) -> Option<Interval> {
        if self.signal == Signal::Coolant && self.drive.is_driven(now) {
            return self.driven(target, now);
        }
        let way = self.way(known, now)?;
        let by_line = way.until(target)?;
        if self.signal != Signal::Fluid || by_line.median <= 0.0 {
            return Some(by_line);
        }
        let others = self.each(target, now);
        if others.nodes.or(others.earlier).is_none() {
            return Some(by_line);
        }
        let minutes = self.blend.median(Each { line: Some(by_line.median / 60.0), ..others })?;
        let turns = (target - self.track.last()?.value) / self.track.stride();
        Some(forecast::around(minutes, self.blend.off(), turns / AHEAD as f64))
    }

    /// What each forecast expects of the display's turn to `target`, min.
    pub(crate) fn each(&self, target: f64, now: Mono) -> Each {
        let line = self.track.line(now).and_then(|line| {
            Way { line, display: None, spread: forecast::STEADY }.until(target).map(|i| i.median / 60.0)
        });
        Each { line, nodes: self.by_nodes(target), earlier: self.by_earlier(target, now) }
    }

    /// By an earlier job on this kind of vehicle.
    fn by_earlier(&self, target: f64, now: Mono) -> Option<f64> {
        let display = Display { level: self.track.last()?.value, step: self.track.step() };
        self.warmed.until(display.shown_from(target), now)
    }

    /// By the two nodes: when the identifier, noise and step aside, turns to `target`.
    fn by_nodes(&self, target: f64) -> Option<f64> {
        let edge = Display { level: self.track.last()?.value, step: self.track.step() }.shown_from(target);
        self.witnesses.until(edge - self.track.step() / 2.0).map(|ahead| ahead.minutes)
    }

    /// By the rates learned from driven vehicles; earned by one move upward, since the recordings stand behind it.
    fn driven(&self, target: f64, now: Mono) -> Option<Interval> {
        let (shown, since) = self.track.risen()?;
        let target = Display { level: shown, step: self.track.step() }.shown_from(target);
        let seconds = now.since(since).as_secs_f64();
        self.learned.rest(shown, seconds, target, &self.ways(now)).map(forecast::from_learned)
    }

    pub(crate) fn forecast(&self, known: Known, now: Mono, reasons: ReasonSet) -> Option<Forecast> {
        let stale = reasons.has(Reason::Stale);
        let place = self.place.filter(|&place| place != Place::TooUncertain && !stale)?;
        if reasons.has(Reason::Disagrees) {
            return None;
        }
        let follows = !reasons.has(Reason::Frozen) && !reasons.has(Reason::NotAlive);
        let (low, high) = self.band.accepted(known)?;
        let mut forecast = Forecast::default();
        if place == Place::Above {
            let air = self.air.map_or(forecast::AIR_UNKNOWN, |air| (air, forecast::AIR_READ_OFF));
            forecast.back_in = forecast::back(known, high, air);
        } else if follows {
            let t = known.celsius.to_f64();
            let until = |target| self.until_shown(known, target, now);
            forecast.opens_in = if t < low { until(low) } else { None };
            // The first value that lies beyond the guard, not the last within it.
            forecast.closes_in = if t <= high { until(high + known.step * JUST_MORE) } else { None };
        }
        (forecast != Forecast::default()).then_some(forecast)
    }

    /// The way the temperature is going, once it has been watched for long enough.
    fn way(&self, known: Known, now: Mono) -> Option<Way> {
        let (seen, span) = match self.signal {
            Signal::Fluid | Signal::Coolant => (self.track.moves(), self.track.moving_for(now)),
            Signal::Lamp => return None,
            Signal::Spot | Signal::Display => (self.spots.count(now), self.spots.span(now)),
        };
        if seen < EARNED_MOVES && span < EARNED_TIME {
            return None;
        }
        let spread = match self.signal {
            Signal::Fluid | Signal::Spot | Signal::Display | Signal::Lamp => forecast::STEADY,
            Signal::Coolant => forecast::DRIVEN,
        };
        match self.signal {
            Signal::Fluid | Signal::Coolant => {
                let display = Display { level: self.track.last()?.value, step: known.step };
                Some(Way { line: self.track.line(now)?, display: Some(display), spread })
            }
            Signal::Spot | Signal::Display | Signal::Lamp => {
                let line = Line { slope: known.slope?, value: known.celsius.to_f64() };
                Some(Way { line, display: None, spread })
            }
        }
    }
}

/// Nothing is forecast before this many moves in one direction (or typed readings), or this long since the first.
const EARNED_MOVES: usize = 3;
const EARNED_TIME: Duration = Duration::from_secs(180);
/// A thousandth of a step.
const JUST_MORE: f64 = 1e-3;
