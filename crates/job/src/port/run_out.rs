//! Will the excess have run out before the window closes? Said before the port is opened.
//!
//! In: the record (what was filled above what was drained), how fast it warms, the forecast. Out: [`RunOutAhead`]. Not here: the laws
//! of the stream (`fluid::run_out`), the forecast (`gate`).
//! Source: physics of the run-out as in `fluid::run_out`, known to a factor of two; `docs/gate.md`, "Window planning".

use core::time::Duration;

use events::{Estimate, Fits, Forecast, RunOutAhead, Sheet};
use fluid::run_out::{Drain, RunOut, Standpipe, TRICKLE_ML_MIN};
use fluid::viscosity::Walther;
use fluid::volume::expansion_per_k;
use units::Mono;

use crate::port::round::{Round, Stream};
use crate::record::Record;
use crate::result::balance;

/// See [`crate::Job::run_out`].
pub(crate) fn ahead(record: &Record, estimate: Option<Estimate>, forecast: &Forecast) -> Option<RunOutAhead> {
    if record.port_open() || record.is_set() || record.reads_a_gauge() {
        return None;
    }
    let window_seconds = window(forecast)?;
    let excess = balance::over_fill(record).filter(|over| over.millilitres > 0.0)?;
    let warms = estimate.and_then(|e| e.kelvins_per_minute).map_or(0.0, units::Kelvins::to_f64);
    let seconds = needs(&record.sheet, excess.millilitres, warms)?;
    let fits = if seconds * U_FACTOR <= window_seconds {
        Fits::InTime
    } else if seconds <= window_seconds {
        Fits::Tight
    } else {
        Fits::TooLong
    };
    Some(RunOutAhead { seconds: seconds.round(), window_seconds: window_seconds.round(), fits })
}

/// How long what is too much by the amounts should run, s; `None` where nothing is expected to.
pub(crate) fn expected_s(record: &Record) -> Option<f64> {
    needs(&record.sheet, record.expects_a_stream().then(|| record.expected_ml())?, 0.0)
}

/// When a stream has outlasted what was to be expected by so far that it is a wrong plug or a loose pipe.
pub(crate) fn endless_at(round: &Round) -> Option<Mono> {
    let since = round.since.filter(|_| round.stream == Stream::Flows)?;
    let seconds = (ENDLESS * round.expected_s?).max(ENDLESS_LEAST_S);
    Some(since.after(Duration::from_millis((seconds * 1_000.0) as u64)))
}

/// The same, while it may come to be.
pub(crate) fn endless_due(record: &Record) -> Option<Mono> {
    let round = record.port.round.as_ref().filter(|r| r.is_open() && r.trickle.is_none())?;
    endless_at(round)
}

/// How long the window is at the least, s: opened and closed as early as the forecast allows, or what is left of it.
fn window(forecast: &Forecast) -> Option<f64> {
    let closes = forecast.closes_in?;
    Some(match forecast.opens_in {
        Some(opens) => (closes.low - opens.low).min(closes.median - opens.median).max(0.0),
        None => closes.low,
    })
}

/// Until `excess_ml` has run out to a trickle in a fluid that warms by `k_min`, s. Warming adds to the stream for as long as
/// it lasts: below that the stream never falls, so that is the trickle then.
fn needs(sheet: &Sheet, excess_ml: f64, k_min: f64) -> Option<f64> {
    let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
    let middle = check.middle().to_f64();
    let nu = Walther::from_40_and_100(fluid.mm2_s_40, fluid.mm2_s_100).ok()?.mm2_s(middle).ok()?;
    let pipe = Standpipe {
        area_m2: pipe.surface_m2,
        bore_mm: pipe.bore_mm,
        rim_mm: pipe.rim_mm,
        length_mm: pipe.length_mm,
    };
    let warming_ml_min = fluid.total_ml * expansion_per_k(middle, fluid.density_15).ok()? * k_min.max(0.0);
    let drain = Drain::new(RunOut::new(pipe, nu).ok()?, excess_ml, 0.0).ok()?;
    Some(drain.trickle(TRICKLE_ML_MIN.max(warming_ml_min * ABOVE_WARMING)).ok()??.seconds)
}

/// The time of a run-out is known to this factor (physics of the lip film: rim, surface tension).
const U_FACTOR: f64 = 2.0;
/// A stream lasts no longer than so often its forecast, and than this (own choices).
const ENDLESS: f64 = 2.0;
const ENDLESS_LEAST_S: f64 = 60.0;
/// A stream this much above what warming adds is told from it by eye. From memory.
const ABOVE_WARMING: f64 = 1.25;

#[cfg(test)]
mod tests {
    use super::*;
    use events::Interval;

    fn interval(low: f64, median: f64) -> Interval {
        Interval { low, median, high: 2.0 * median, coverage: 0.8 }
    }

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    #[test]
    fn the_usual_excess_needs_the_one_to_three_minutes_of_the_trade() {
        // Physics reference, section 6: 473 mL on 0.060 m², 10 mm, 1.5 mm, 29.6 mm²/s: 10 mL/min after 114 s.
        let still = needs(&sheet(), 473.0, 0.0).unwrap();
        assert!((90.0..150.0).contains(&still), "{still}");
        let warming = needs(&sheet(), 473.0, 3.0).unwrap();
        assert!(warming < still, "a warming fluid never falls to the nominal trickle: {warming}");
    }

    #[test]
    fn the_window_is_the_shortest_that_the_forecast_allows() {
        let ahead = Forecast {
            opens_in: Some(interval(300.0, 400.0)),
            closes_in: Some(interval(700.0, 760.0)),
            ..Forecast::default()
        };
        assert_eq!(window(&ahead), Some(360.0));
        assert_eq!(window(&Forecast { opens_in: None, ..ahead }), Some(700.0), "open: what is left of it");
        assert_eq!(window(&Forecast::default()), None);
    }
}
