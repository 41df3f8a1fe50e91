//! What the readings of a gauge make of the record, and what of it is to be done.
//!
//! In: told things that were accepted. Out: facts about the job.

use units::{Millilitres, Millimetres, Mono};

use super::{Plugs, Record};
use crate::port::gauge::{Gauge, Mean, Shows};
use crate::port::moment::Moment;
use crate::port::round::{Round, Stream};
use crate::told::act::Act;

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
        let fresh = self.port.round.as_ref().is_some_and(|r| r.gauge.as_ref().is_some_and(Gauge::goes_on));
        if !fresh || self.refilled() {
            self.looks_anew();
            let mut round = Round::opened(Stream::Unread, moment, now, &self.sheet, self.look());
            round.gauge = Some(Gauge::default());
            self.port.round = Some(round);
            self.port.rounds = self.port.rounds.saturating_add(1);
        }
        if let Some(gauge) = self.port.round.as_mut().and_then(|r| r.gauge.as_mut()) {
            gauge.read(mm, moment);
        }
        self.typed.closed(now);
        self.act(Act::Read);
        self.gauge_says();
    }

    /// The last reading was judged by this.
    pub(crate) fn gauge_judged(&mut self, moment: Moment) {
        if let Some(gauge) = self.port.round.as_mut().and_then(|r| r.gauge.as_mut()) {
            gauge.judged(moment);
        }
        self.gauge_says();
    }

    /// The last reading is taken back.
    pub(crate) fn gauge_undo(&mut self) {
        if let Some(gauge) = self.port.round.as_mut().and_then(|r| r.gauge.as_mut()) {
            gauge.undo();
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
        if let Some(moment) = gauge.last() {
            round.looked = moment;
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
