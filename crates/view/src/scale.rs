//! The standpipe scale: where the fluid stands, how sure that is, the band, and where it is heading.
//!
//! In: sheet, estimate, forecast. Out: numbers in °C for any painter. The mark ahead is the daemon's forecast drawn
//! as a straight line to the edge that it forecasts, two minutes on; without a forecast there is none.
//! Not here: how many pixels or rows a degree has.

use events::{Estimate, Forecast, Interval, Sheet};
use serde::Serialize;

/// See the module's words. The ends follow from the sheet alone, so the scale never zooms during a job.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Scale {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The band, low and high.
    pub band: [f64; 2],
    /// Where the fluid stands; absent where nothing is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    /// The standard uncertainty: half the thickness of the crossbar.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u: Option<f64>,
    /// Where it will be in two minutes, low and high.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ahead: Option<[f64; 2]>,
}

/// So far ahead the moving mark looks, s.
/// Own choice: as far as the forecast is worth a mark; at 1.7 K/min some 3 K.
const AHEAD_S: f64 = 120.0;
/// The scale shows so much below and above the band, °C.
/// Own choice: ten minutes of warming are in sight, and the band keeps a quarter of the width.
const MARGIN_C: f64 = 15.0;

impl Scale {
    /// `forecast` counts from now.
    pub fn new(sheet: &Sheet, estimate: Option<Estimate>, forecast: &Forecast) -> Self {
        let band = sheet.check.band_c;
        let at = estimate.map(|e| e.celsius.to_f64());
        let u = estimate.map(|e| e.u.to_f64());
        let guard = sheet.check.k * u.unwrap_or(0.0);
        let ahead = at.and_then(|t| {
            let heading = [
                (forecast.opens_in, band[0] + guard),
                (forecast.closes_in, band[1] - guard),
                (forecast.back_in, band[1] - guard),
            ];
            heading.into_iter().find_map(|(interval, edge)| ahead(t, edge, interval?))
        });
        Self {
            low: ((band[0] - MARGIN_C) / 5.0).floor() * 5.0,
            high: ((band[1] + MARGIN_C) / 5.0).ceil() * 5.0,
            band,
            at,
            u,
            ahead,
        }
    }
}

/// Where a straight line through `edge`, crossed within `interval`, is [`AHEAD_S`] from now.
fn ahead(at: f64, edge: f64, interval: Interval) -> Option<[f64; 2]> {
    let after = |seconds: f64| at + (edge - at) * AHEAD_S / seconds.max(AHEAD_S / 4.0);
    let (one, other) = (after(interval.high), after(interval.low));
    (one.is_finite() && other.is_finite()).then(|| [one.min(other), one.max(other)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::{Celsius, Kelvins};

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    fn estimate(celsius: f64) -> Option<Estimate> {
        Some(Estimate {
            celsius: Celsius::from_f64(celsius)?,
            u: Kelvins::from_f64(0.5)?,
            kelvins_per_minute: None,
            fluid: None,
        })
    }

    #[test]
    fn the_mark_ahead_is_the_forecast_as_a_straight_line() {
        let interval = Interval { low: 60.0, median: 90.0, high: 120.0, coverage: 0.8 };
        let forecast = Forecast { opens_in: Some(interval), ..Forecast::default() };
        let scale = Scale::new(&sheet(), estimate(32.0), &forecast);
        // The guarded edge is 36: four degrees in one to two minutes are 36 to 40 in two.
        assert_eq!(scale.ahead, Some([36.0, 40.0]));
        assert_eq!((scale.low, scale.high, scale.band), (20.0, 60.0, [35.0, 45.0]));
    }

    #[test]
    fn without_a_forecast_there_is_no_mark_and_without_an_estimate_no_fluid() {
        assert_eq!(Scale::new(&sheet(), estimate(32.0), &Forecast::default()).ahead, None);
        assert_eq!(Scale::new(&sheet(), None, &Forecast::default()).at, None);
    }
}
