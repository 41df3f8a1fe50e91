//! How a rehearsal is shown while it runs: events for programs, a plain line for what matters to people.

use std::time::Duration;

use events::{Body, Event, Precondition, Reason, Verdict, Word};
use serde::Serialize;
use units::Mono;

use crate::events::{for_people, interval};
use crate::failure::Failure;
use crate::screen::Screen;

/// The temperature is shown to people this often while nothing else happens.
const ESTIMATE_EVERY: Duration = Duration::from_secs(60);

/// Shows what happens.
pub struct Show {
    screen: Screen,
    estimated: Option<Mono>,
    forecast: Option<String>,
    verdict: Option<(Verdict, Vec<Reason>, Vec<Precondition>)>,
}

/// Something the scripted technician does, as a line of the output.
#[derive(Serialize)]
struct Deed<'a> {
    kind: &'static str,
    mono_ms: Mono,
    does: &'a str,
}

impl Show {
    /// Nothing shown yet.
    pub fn new(screen: Screen) -> Self {
        Self { screen, estimated: None, forecast: None, verdict: None }
    }

    /// An event of the socket.
    pub fn event(&mut self, text: &str, event: &Event) -> Result<(), Failure> {
        if self.screen.is_json() {
            return self.screen.line(text);
        }
        let wanted = match &event.body {
            Body::Estimate(_) => self.minute_is_over(event.mono_ms),
            Body::Forecast(forecast) => {
                let opens = forecast.opens_in.map(|i| format!(", opens in {}", interval(i)));
                let closes = forecast.closes_in.map(|i| format!(", closes in {}", interval(i)));
                self.forecast = opens.or(closes);
                false
            }
            Body::Verdict { verdict, reasons, open, .. } => self.verdict_is_new(*verdict, reasons, open),
            Body::Reading(_) | Body::Boot { .. } | Body::Precondition { .. } | Body::Told(_) => false,
            _ => true,
        };
        if !wanted {
            return Ok(());
        }
        let mut line = for_people(event, self.screen);
        if let (Body::Estimate(_), Some(forecast)) = (&event.body, &self.forecast) {
            line += forecast;
        }
        self.screen.line(&line)
    }

    fn minute_is_over(&mut self, now: Mono) -> bool {
        let due = self.estimated.is_none_or(|at| now >= at.after(ESTIMATE_EVERY));
        if due {
            self.estimated = Some(now);
        }
        due
    }

    /// Where only the place at the edge of the band trembles, nothing is new to people.
    fn verdict_is_new(&mut self, verdict: Verdict, reasons: &[Reason], open: &[Precondition]) -> bool {
        let lasting = reasons.iter().copied().filter(|r| !r.is_at_edge()).collect();
        let now = Some((verdict, lasting, open.to_vec()));
        let new = self.verdict != now;
        self.verdict = now;
        new
    }

    /// A word of the socket to the technician.
    pub fn word(&mut self, text: &str, word: &Word) -> Result<(), Failure> {
        match word {
            _ if self.screen.is_json() => self.screen.line(text),
            Word::Refused { says, .. } => self.screen.line(&format!("        refused: {says}")),
            _ => Ok(()),
        }
    }

    /// Something the technician does.
    pub fn deed(&mut self, now: Mono, does: &str) -> Result<(), Failure> {
        if self.screen.is_json() {
            return self.screen.json(&Deed { kind: "does", mono_ms: now, does });
        }
        let seconds = now.as_millis() / 1_000;
        self.screen.line(&format!("{:>3}:{:02}  technician {does}", seconds / 60, seconds % 60))
    }
}
