//! A gauge in a sealed tube: what its readings say by the chart of the sheet.
//!
//! In: millimetres as they are told, each with what it was judged by. Out: [`Shows`]. Not here: what is said then (`acts.rs`), how
//! far off the level is (`level.rs`).
//!
//! One reading says nothing: fluid hangs in the tube, and a gauge that is not at its stop reads high. The last two count where both
//! were taken at `go` and agree to [`AGREE_MM`]; the chart is read at the mean of their temperatures. A reading at any other moment
//! is taken down and says nothing. There is no port to be opened, so there is none to be closed.

use events::{ChartAt, Look};
use units::{Celsius, Kelvins, Millimetres};

use crate::port::moment::Moment;

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

    pub(crate) fn shows(&self, look: &Look) -> Shows {
        match self.mean(look) {
            None => Shows::Nothing,
            Some(mean) if mean.mm < mean.chart.low_mm => Shows::Low,
            Some(mean) if mean.mm > mean.chart.high_mm => Shows::High,
            Some(_) => Shows::Right,
        }
    }

    /// The last one was told a moment ago, as far as the engine goes: another one belongs to it.
    pub(crate) const fn goes_on(&self) -> bool {
        !self.stale
    }

    /// One more; the last two count.
    pub(crate) fn read(&mut self, mm: Millimetres, moment: Moment) {
        if self.readings.len() >= 2 {
            self.readings.remove(0);
        }
        self.readings.push(Reading { mm: mm.to_f64(), moment });
    }

    /// The moment of the last one.
    pub(crate) fn last(&self) -> Option<Moment> {
        self.readings.last().map(|reading| reading.moment)
    }

    /// The last one was judged by this.
    pub(crate) fn judged(&mut self, moment: Moment) {
        if let Some(last) = self.readings.last_mut() {
            last.moment = moment;
        }
    }

    /// The last one is taken back.
    pub(crate) fn undo(&mut self) {
        self.readings.pop();
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

/// Two readings that differ by no more are the same one.
/// Own choice: a film on the gauge and the eye are wrong by 1 mm each.
const AGREE_MM: f64 = 2.0;
