//! How fast simulated time passes, as it is typed.

use rehearsal::clock::Pace;

/// A pace: simulated seconds in a real one.
pub fn pace(text: &str) -> Result<f64, String> {
    let n: f64 = text.parse().map_err(|_| "write a number, like 60".to_owned())?;
    if (0.01..=10_000.0).contains(&n) { Ok(n) } else { Err("0.01 to 10000".to_owned()) }
}

/// `max`, or a pace.
pub fn pace_or_max(text: &str) -> Result<Pace, String> {
    if text == "max" { Ok(Pace::Max) } else { pace(text).map(Pace::Times) }
}
