//! Why, with numbers; and times as the intervals that they deserve.
//!
//! In: estimate, reasons, band, in the units people read. Out: a sentence or two. Not here: the reasons' own words.

use events::{Estimate, Fits, FluidEstimate, Interval, Reason, RunOutAhead, Sheet, Signal};
use units::Kelvins;
use words::{Speech, args};

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
    speech: Speech,
) -> String {
    let mut parts = Vec::new();
    if let (Some(e), Some(sheet)) = (estimate, sheet) {
        let t = e.celsius.to_f64();
        let message = match sheet.check.band_c {
            [low, _] if t < low => "signal-below-band",
            [_, high] if t > high => "signal-above-band",
            _ => "signal-inside-band",
        };
        let signal = speech.text(match sheet.check.signal {
            Signal::Fluid => "head-fluid",
            Signal::Coolant => "head-coolant",
            Signal::Spot => "head-sump",
            Signal::Display => "head-display",
            Signal::Lamp => "head-lamp",
        });
        let (shows, u, band) = (speech.celsius(e.celsius), speech.kelvins(e.u), band(sheet, speech));
        parts.push(speech.with(message, &args!(signal = signal, celsius = shows, u = u, band = band)));
        // On the way under the vehicle it matters whether the window is long enough, and little else.
        let soon = ahead.is_some_and(|(_, near)| near == Near::Soon);
        if !soon {
            parts.extend(e.kelvins_per_minute.and_then(|rate| moving(rate, speech)));
            parts.extend(e.fluid.map(|f| fluid(f, speech)));
        }
        parts.extend(ahead.filter(|(a, _)| soon || a.fits != Fits::InTime).map(|(a, _)| run_out(a, speech)));
    }
    // What is open has a list of its own.
    let told = |r: &&Reason| !r.has_own_place();
    parts.extend(reasons.iter().filter(told).take(2).map(|r| speech.of(*r).to_owned()));
    parts.join(" ")
}

/// What coolant alone says of the fluid, and which reading would say more.
fn fluid(f: FluidEstimate, speech: Speech) -> String {
    let (celsius, u) = (speech.celsius(f.celsius), speech.kelvins(f.u));
    let about = speech.with("fluid-about", &args!(celsius = celsius, u = u));
    let Some(narrows) = f.narrows else { return about };
    let reading = speech.of(narrows.reading);
    let better = args!(reading = in_the_middle(reading), u = speech.kelvins(narrows.u));
    format!("{about} {}", speech.with("better-reading", &better))
}

/// A sentence as a part of another: without its stop, its first letter small.
fn in_the_middle(sentence: &str) -> String {
    let bare = sentence.trim_end_matches(['.', '।']);
    let mut letters = bare.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}

/// Whether the excess will have run out in time; short, for it is read on the way under the vehicle.
fn run_out(r: RunOutAhead, speech: Speech) -> String {
    let message = match r.fits {
        Fits::InTime => "runs-out-in-time",
        Fits::Tight => "runs-out-tight",
        Fits::TooLong => "runs-out-too-long",
    };
    let (needs, window) = (minutes(r.seconds.max(30.0)), minutes(r.window_seconds));
    speech.with(message, &args!(needs = needs, window = window))
}

/// `35–45 °C`.
pub(crate) fn band(sheet: &Sheet, speech: Speech) -> String {
    let [low, high] = [sheet.check.low(), sheet.check.high()].map(|t| speech.celsius(t));
    let bare = low.split('\u{202f}').next().unwrap_or_default();
    let whole = |text: &str| text.replace(".0\u{202f}", "\u{202f}").replace(",0\u{202f}", "\u{202f}");
    format!("{}–{}", bare.trim_end_matches(".0").trim_end_matches(",0"), whole(&high))
}

fn moving(rate: Kelvins, speech: Speech) -> Option<String> {
    let message = match rate.steps() {
        10.. => "warming-a-minute",
        ..=-10 => "cooling-a-minute",
        _ => return None,
    };
    let rate = Kelvins::from_steps(rate.steps().abs())?;
    Some(speech.with(message, &args!(rate = speech.kelvins(rate))))
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
        let ahead =
            |fits| run_out(RunOutAhead { seconds: 130.0, window_seconds: 100.0, fits }, Speech::default());
        assert_eq!(ahead(Fits::InTime), "Needs about 2\u{202f}min to run out, has 1½.");
        assert!(ahead(Fits::TooLong).contains("second round"));
    }

    #[test]
    fn what_coolant_says_of_the_fluid_names_the_reading_that_would_say_more() {
        let narrows = Some(Narrows { reading: Narrowing::SpotOnTape, u: Kelvins::clamped(1.2) });
        let said = FluidEstimate { celsius: Celsius::clamped(41.0), u: Kelvins::clamped(5.0), narrows };
        assert_eq!(
            fluid(said, Speech::default()),
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
