//! Will the excess have run out before the window closes? Said before the port is opened.
//!
//! In: the record (what was filled above what was drained), how fast it warms, the forecast. Out: [`RunOutAhead`]. Not here: how long a
//! stream lasts (`port/run_out.rs`), the forecast (`gate`).
//! Source: `docs/gate.md`, "Window planning".

use events::{Estimate, Fits, Forecast, RunOutAhead};

use crate::port::run_out::needs;
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

/// How long the window is at the least, s: opened and closed as early as the forecast allows, or what is left of it.
fn window(forecast: &Forecast) -> Option<f64> {
    let closes = forecast.closes_in?;
    Some(match forecast.opens_in {
        Some(opens) => (closes.low - opens.low).min(closes.median - opens.median).max(0.0),
        None => closes.low,
    })
}

/// The time of a run-out is known to this factor.
/// Source: from memory: what rim and surface tension do to the film on the lip.
const U_FACTOR: f64 = 2.0;

#[cfg(test)]
mod tests {
    use super::*;
    use events::Interval;

    fn interval(low: f64, median: f64) -> Interval {
        Interval { low, median, high: 2.0 * median, coverage: 0.8 }
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
