//! Times and spans of a job while its events go by.
//!
//! In: events, in order. Out: seconds from the start, times in which the verdict was `go` and the port open. Not here: the
//! record that they stand in (`record.rs`).

use events::{Body, Event, Role, Sheet, Snapshot, Utc, Verdict};
use units::Mono;

use super::record::Record;

/// Seconds since the first event, by the clock of the program, which nobody sets; civil time only bridges a restart,
/// and never backwards.
#[derive(Default)]
pub struct Elapsed {
    last: Option<(f64, Mono, Utc)>,
}

impl Elapsed {
    /// So long after the first one this one came.
    pub fn at(&mut self, event: &Event) -> f64 {
        let seconds = match self.last {
            None => 0.0,
            Some((seconds, mono, at)) => {
                let millis = if matches!(event.body, Body::Boot { .. }) || event.mono_ms < mono {
                    event.at.as_millis().saturating_sub(at.as_millis()).clamp(0, MOST_AWAY_MS) as f64
                } else {
                    event.mono_ms.since(mono).as_millis() as f64
                };
                seconds + millis / 1_000.0
            }
        };
        self.last = Some((seconds, event.mono_ms, event.at));
        seconds
    }
}

/// A restart counts for no more than this.
/// Own choice: a clock that was set forward by a year makes no plot of a year.
const MOST_AWAY_MS: i64 = 24 * 3_600_000;

/// Spans that are open while the events go by.
#[derive(Default)]
pub struct Spans {
    /// Where the bay stands by then.
    pub known: Snapshot,
    go: Option<f64>,
    port: Option<f64>,
    /// When the last reading of the signal came.
    pub reading: Option<f64>,
    /// The sheet that the job began with.
    pub begun: Option<Sheet>,
    /// Who told the last thing, while nothing else has happened since.
    pub teller: Option<Option<Role>>,
}

impl Spans {
    /// Follows the verdict.
    pub fn verdict(&mut self, record: &mut Record, seconds: f64) {
        span(self.known.verdict == Verdict::Go, &mut self.go, &mut record.go, seconds);
    }

    /// Follows the check port.
    pub fn port(&mut self, record: &mut Record, seconds: f64) {
        span(self.known.port_open(), &mut self.port, &mut record.port_open, seconds);
    }

    /// Ends what is open still.
    pub fn end(self, record: &mut Record, seconds: f64) {
        if let Some(job) = self.known.job {
            (record.vehicle, record.recheck_of, record.result) = (job.vehicle, job.recheck_of, job.result);
        }
        record.go.extend(self.go.map(|since| (since, seconds)));
        record.port_open.extend(self.port.map(|since| (since, seconds)));
    }
}

/// Goes on with a span while it holds, and ends it.
fn span(holds: bool, since: &mut Option<f64>, spans: &mut Vec<(f64, f64)>, seconds: f64) {
    match (holds, *since) {
        (true, None) => *since = Some(seconds),
        (false, Some(began)) => {
            spans.push((began, seconds));
            *since = None;
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Advice, Seq};

    #[test]
    fn a_clock_that_is_set_changes_no_duration() {
        let hour = 3_600_000;
        let boot = || Body::Boot { boot: "a".to_owned(), version: "0".to_owned(), uptime: None };
        let quiet = || Body::Advice(Advice::StayClear.into());
        // What happens, civil time, the program's clock, seconds from the start.
        let cases: &[(&str, Body, i64, u64, f64)] = &[
            ("the first", quiet(), 10 * hour, 5_000, 0.0),
            ("ten seconds later", quiet(), 10 * hour + 10_000, 15_000, 10.0),
            ("the clock is set back an hour", quiet(), 9 * hour + 20_000, 25_000, 20.0),
            ("and forward two", quiet(), 11 * hour + 30_000, 35_000, 30.0),
            ("a restart after a minute", boot(), 11 * hour + 90_000, 0, 90.0),
            ("and on", quiet(), 11 * hour + 95_000, 5_000, 95.0),
            ("a restart with the clock set back", boot(), 3 * hour, 0, 95.0),
            ("a restart with the clock a year ahead", boot(), 9_000 * hour, 0, 95.0 + 86_400.0),
        ];
        let mut elapsed = Elapsed::default();
        for (n, (what, body, at, mono, want)) in cases.iter().enumerate() {
            let event = Event {
                seq: Seq(n as u64 + 1),
                at: Utc::from_millis(*at),
                mono_ms: Mono::from_millis(*mono),
                body: body.clone(),
            };
            assert!((elapsed.at(&event) - want).abs() < 1e-9, "{what}");
        }
    }
}
