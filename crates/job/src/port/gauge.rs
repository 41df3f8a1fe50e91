//! A gauge in a sealed tube: what its readings say by the chart of the sheet.
//!
//! In: millimetres as they are told, each with what it was judged by. Out: [`Shows`]. Not here: what is said then (`acts.rs`), how
//! far off the level is (`level.rs`).
//!
//! One reading says nothing: fluid hangs in the tube, and a gauge that is not at its stop reads high. The last two count where both
//! were taken at `go` and agree to [`AGREE_MM`]; the chart is read at the mean of their temperatures. A reading at any other moment
//! is taken down and says nothing. There is no port to be opened, so there is none to be closed.

use events::{ChartAt, Look};
use units::{Celsius, Kelvins, Millilitres, Millimetres, Mono};

use crate::port::round::{Moment, Round, Stream};
use crate::record::{Plugs, Record};
use crate::told::undo::Act;

/// The readings of one look, the last two at the most.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Gauge {
    readings: Vec<Reading>,
    /// The engine, or the sight of it, was lost since the last one: the next one begins anew.
    stale: bool,
}

#[derive(Debug, Clone, PartialEq)]
struct Reading {
    mm: f64,
    moment: Moment,
}

/// What two readings that agree come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Mean {
    pub(crate) mm: f64,
    pub(crate) celsius: Celsius,
    pub(crate) u: Kelvins,
    /// What the chart says there.
    pub(crate) chart: ChartAt,
    pub(crate) ml_per_mm: f64,
}

/// What the gauge shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shows {
    /// No two readings that count agree yet.
    Nothing,
    Low,
    Right,
    High,
}

impl Gauge {
    /// So many readings stand, 0 to 2.
    pub(crate) fn count(&self) -> u8 {
        u8::try_from(self.readings.len()).unwrap_or(u8::MAX)
    }

    /// The two as one, where they count.
    pub(crate) fn mean(&self, look: &Look) -> Option<Mean> {
        let [a, b] = self.readings.as_slice() else { return None };
        let counts = a.moment.is_go() && b.moment.is_go() && (a.mm - b.mm).abs() <= AGREE_MM;
        let celsius = f64::midpoint(a.moment.judged.celsius?.to_f64(), b.moment.judged.celsius?.to_f64());
        let chart = look.chart_at(celsius).filter(|_| counts)?;
        let u = a.moment.judged.u?.max(b.moment.judged.u?);
        let mm = f64::midpoint(a.mm, b.mm);
        Some(Mean { mm, celsius: Celsius::clamped(celsius), u, chart, ml_per_mm: look.ml_per_mm? })
    }

    fn shows(&self, look: &Look) -> Shows {
        match self.mean(look) {
            None => Shows::Nothing,
            Some(mean) if mean.mm < mean.chart.low_mm => Shows::Low,
            Some(mean) if mean.mm > mean.chart.high_mm => Shows::High,
            Some(_) => Shows::Right,
        }
    }

    pub(crate) fn lose_sight(&mut self) {
        self.stale = true;
    }
}

impl Mean {
    /// How much is missing to the middle of the chart, in mL; negative is too much.
    pub(crate) fn missing_ml(&self) -> f64 {
        (self.chart.middle_mm() - self.mm) * self.ml_per_mm
    }
}

impl Record {
    /// The level is read on a gauge.
    pub(crate) fn reads_a_gauge(&self) -> bool {
        self.look().right == events::Right::Chart
    }

    /// What two readings of the look in hand come to, while nothing was filled or drawn out since.
    pub(crate) fn gauge_mean(&self) -> Option<Mean> {
        let gauge = self.port.round.as_ref().filter(|_| !self.refilled())?.gauge.as_ref()?;
        gauge.mean(self.look())
    }

    /// What the gauge shows, while nothing was filled or drawn out since.
    pub(crate) fn gauge_shows(&self) -> Shows {
        let gauge = self.port.round.as_ref().filter(|_| !self.refilled()).and_then(|r| r.gauge.as_ref());
        gauge.map_or(Shows::Nothing, |gauge| gauge.shows(self.look()))
    }

    /// One reading was told.
    pub(crate) fn gauge_read(&mut self, mm: Millimetres, moment: Moment, now: Mono) {
        let fresh = self.port.round.as_ref().is_some_and(|r| r.gauge.as_ref().is_some_and(|g| !g.stale));
        if !fresh || self.refilled() {
            self.looks_anew();
            let mut round = Round::opened(Stream::Unread, moment, now, &self.sheet, self.look());
            round.gauge = Some(Gauge::default());
            self.port.round = Some(round);
            self.port.rounds = self.port.rounds.saturating_add(1);
        }
        if let Some(gauge) = self.port.round.as_mut().and_then(|r| r.gauge.as_mut()) {
            if gauge.readings.len() >= 2 {
                gauge.readings.remove(0);
            }
            gauge.readings.push(Reading { mm: mm.to_f64(), moment });
        }
        self.typed.closed(now);
        self.act(Act::Read);
        self.gauge_says();
    }

    /// The last reading was judged by this.
    pub(crate) fn gauge_judged(&mut self, moment: Moment) {
        let gauge = self.port.round.as_mut().and_then(|r| r.gauge.as_mut());
        if let Some(last) = gauge.and_then(|g| g.readings.last_mut()) {
            last.moment = moment;
        }
        self.gauge_says();
    }

    /// The last reading is taken back.
    pub(crate) fn gauge_undo(&mut self) {
        if let Some(gauge) = self.port.round.as_mut().and_then(|r| r.gauge.as_mut()) {
            gauge.readings.pop();
        }
        self.gauge_says();
    }

    /// What the readings come to, in the words of an opening that was closed with the last of them.
    fn gauge_says(&mut self) {
        let look = self.look().clone();
        let Some(round) = &mut self.port.round else { return };
        let Some(gauge) = &round.gauge else { return };
        let shows = gauge.shows(&look);
        round.stream = match shows {
            Shows::Nothing => Stream::Unread,
            Shows::Low => Stream::Nothing,
            Shows::Right => Stream::Stands,
            Shows::High => Stream::Flows,
        };
        if let Some(last) = gauge.readings.last() {
            round.looked = last.moment;
        }
        round.closed = Some(round.looked);
        round.trickle = (shows == Shows::Right).then_some(round.looked);
        if shows != Shows::Right {
            self.plugs = Plugs::Loose;
            self.trail.acts.retain(|a| !matches!(a, Act::Torqued | Act::TestDriven));
        }
    }

    /// How much to fill, or to draw out, by the gauge: to the middle of the chart, and no more than a portion at a time unless
    /// the amounts say that as much is missing.
    pub(crate) fn gauge_ml(&self, step_ml: f64) -> Option<Millilitres> {
        let by_reading = self.gauge_mean()?.missing_ml();
        let most = self.sheet.fluid.portion_ml().max(self.short_ml());
        let ml = by_reading.abs().min(most);
        Some(Millilitres::clamped(((ml / step_ml).floor() * step_ml).max(step_ml)))
    }

    /// So far the level may be off and still count: the sheet's tolerance, and all that its chart calls right.
    pub(crate) fn tolerance_ml(&self) -> f64 {
        let own = self.sheet.check.tolerance_ml;
        let chart = self.gauge_mean().map(|m| (m.chart.high_mm - m.chart.low_mm) / 2.0 * m.ml_per_mm);
        chart.map_or(own, |half| half.max(own))
    }
}

/// Two readings that differ by no more are the same one (own choice).
const AGREE_MM: f64 = 2.0;
