//! Why, with numbers; and times as the intervals that they deserve.
//!
//! In: estimate, reasons, band, in the units people read. Out: a sentence or two. Not here: the reasons' own words.

use events::{Estimate, Fits, FluidEstimate, Interval, Reason, RunOutAhead, Sheet, Signal};
use units::Kelvins;
use units::text::{UnitSystem, show_celsius, show_kelvins};

/// An interval as it deserves: half minutes below ten, five minutes above; seconds in the last minute.
pub fn interval(i: Interval) -> String {
    if i.high < 60.0 {
        let (low, high) = (tens(i.low), tens(i.high).max(10));
        let low = low.min(high);
        return if low == high { format!("{low}\u{202f}s") } else { format!("{low}–{high}\u{202f}s") };
    }
    let (low, high) = (minutes(i.low), minutes(i.high));
    if low == high { format!("{low}\u{202f}min") } else { format!("{low}–{high}\u{202f}min") }
}

fn tens(seconds: f64) -> i64 {
    ((seconds.max(0.0) / 5.0).round() * 5.0) as i64
}

fn minutes(seconds: f64) -> String {
    let minutes = seconds.max(0.0) / 60.0;
    let rounded = if minutes < 10.0 { (minutes * 2.0).round() / 2.0 } else { (minutes / 5.0).round() * 5.0 };
    let whole = rounded.trunc();
    match (whole > 0.0, rounded > whole) {
        (true, true) => format!("{whole}½"),
        (false, true) => "½".to_owned(),
        _ => format!("{whole}"),
    }
}

/// The interval after `elapsed` seconds; nothing where even its upper bound has passed.
pub(crate) fn later(i: Interval, elapsed: f64) -> Option<Interval> {
    let less = |s: f64| (s - elapsed).max(0.0);
    (i.high > elapsed).then(|| Interval { low: less(i.low), median: less(i.median), high: less(i.high), ..i })
}

/// The signal's name at the head of a sentence.
pub(crate) const fn signal(signal: Signal) -> &'static str {
    match signal {
        Signal::Fluid => "Fluid",
        Signal::Coolant => "Coolant",
        Signal::Spot => "Sump",
        Signal::Display => "Display",
        Signal::Lamp => "Lamp's band",
    }
}

/// How near the opening of the port is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Near {
    /// Now, or on the way under the vehicle.
    Soon,
    /// While it warms.
    Later,
}

/// Temperature against the band, whether the excess has time to run out, and the reasons that are not about the band.
pub(crate) fn why(
    sheet: Option<&Sheet>,
    estimate: Option<Estimate>,
    reasons: &[Reason],
    ahead: Option<(RunOutAhead, Near)>,
    units: UnitSystem,
) -> String {
    let mut parts = Vec::new();
    if let (Some(e), Some(sheet)) = (estimate, sheet) {
        let band = band(sheet, units);
        let t = e.celsius.to_f64();
        let place = match sheet.check.band_c {
            [low, _] if t < low => "below",
            [_, high] if t > high => "above",
            _ => "inside",
        };
        let name = signal(sheet.check.signal);
        parts.push(format!(
            "{name} {} ± {}, {place} the band {band}.",
            show_celsius(e.celsius, units),
            show_kelvins(e.u, units)
        ));
        // On the way under the vehicle it matters whether the window is long enough, and little else.
        let soon = ahead.is_some_and(|(_, near)| near == Near::Soon);
        if !soon {
            parts.extend(e.kelvins_per_minute.and_then(|rate| moving(rate, units)));
            parts.extend(e.fluid.map(|f| fluid(f, units)));
        }
        parts.extend(ahead.filter(|(a, _)| soon || a.fits != Fits::InTime).map(|(a, _)| run_out(a)));
    }
    // What is open has a list of its own.
    let told = |r: &&Reason| !r.has_own_place();
    parts.extend(reasons.iter().filter(told).take(2).map(|r| r.says().to_owned()));
    parts.join(" ")
}

/// What coolant alone says of the fluid, and which reading would say more.
fn fluid(f: FluidEstimate, units: UnitSystem) -> String {
    let narrows = f.narrows.map_or(String::new(), |n| {
        format!(
            " Better: {} (± {}).",
            n.reading.says().trim_end_matches('.').to_lowercase(),
            show_kelvins(n.u, units)
        )
    });
    format!("Fluid about {} ± {}.{narrows}", show_celsius(f.celsius, units), show_kelvins(f.u, units))
}

/// Whether the excess will have run out in time; short, for it is read on the way under the vehicle.
fn run_out(r: RunOutAhead) -> String {
    let fits = match r.fits {
        Fits::InTime => "",
        Fits::Tight => " Tight: have everything at hand, open at once.",
        Fits::TooLong => " Too long: close in time and set it in a second round, or cool and begin earlier.",
    };
    let (needs, window) = (minutes(r.seconds.max(30.0)), minutes(r.window_seconds));
    format!("To run out: about {needs}\u{202f}min. The window: {window}\u{202f}min at least.{fits}")
}

/// `35–45 °C`.
pub(crate) fn band(sheet: &Sheet, units: UnitSystem) -> String {
    let [low, high] = [sheet.check.low(), sheet.check.high()].map(|t| show_celsius(t, units));
    let bare = low.split('\u{202f}').next().unwrap_or_default();
    format!("{}–{}", bare.trim_end_matches(".0"), high.replace(".0\u{202f}", "\u{202f}"))
}

fn moving(rate: Kelvins, units: UnitSystem) -> Option<String> {
    let word = match rate.steps() {
        10.. => "Warming",
        ..=-10 => "Cooling",
        _ => return None,
    };
    let rate = Kelvins::from_steps(rate.steps().abs())?;
    Some(format!("{word} {} a minute.", show_kelvins(rate, units)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Narrowing, Narrows};
    use units::Celsius;

    #[test]
    fn an_interval_is_rounded_to_what_it_deserves() {
        let cases: &[(f64, f64, &str)] = &[
            (118.0, 205.0, "2–3½\u{202f}min"),
            (25.0, 40.0, "25–40\u{202f}s"),
            (0.0, 3.0, "0–10\u{202f}s"),
            (40.0, 70.0, "½–1\u{202f}min"),
            (3_000.0, 4_500.0, "50–75\u{202f}min"),
            (600.0, 610.0, "10\u{202f}min"),
        ];
        for &(low, high, want) in cases {
            assert_eq!(interval(Interval { low, median: low, high, coverage: 0.8 }), want, "{low} to {high}");
        }
    }

    #[test]
    fn a_run_out_that_does_not_fit_is_said_with_what_to_do() {
        let ahead = |fits| run_out(RunOutAhead { seconds: 130.0, window_seconds: 100.0, fits });
        assert_eq!(
            ahead(Fits::InTime),
            "To run out: about 2\u{202f}min. The window: 1½\u{202f}min at least."
        );
        assert!(ahead(Fits::TooLong).contains("second round"));
    }

    #[test]
    fn what_coolant_says_of_the_fluid_names_the_reading_that_would_say_more() {
        let narrows = Some(Narrows { reading: Narrowing::SpotOnTape, u: Kelvins::clamped(1.2) });
        let said = FluidEstimate { celsius: Celsius::clamped(41.0), u: Kelvins::clamped(5.0), narrows };
        assert_eq!(
            fluid(said, UnitSystem::Metric),
            "Fluid about 41.0\u{202f}°C ± 5.0\u{202f}°C. Better: a thermometer reading on tape or matt paint on the sump (± 1.2\u{202f}°C)."
        );
    }

    #[test]
    fn an_interval_runs_out_and_never_below_nothing() {
        let i = Interval { low: 10.0, median: 20.0, high: 30.0, coverage: 0.8 };
        assert_eq!(later(i, 15.0).map(|i| (i.low, i.high)), Some((0.0, 15.0)));
        assert_eq!(later(i, 30.0), None);
    }
}
