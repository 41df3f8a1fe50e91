//! How a rehearsal is shown while it runs: events for programs, a plain line for what matters to people.

use std::time::Duration;

use events::{Body, Event, Word};
use serde::Serialize;
use units::Mono;

use crate::events::for_people;
use crate::failure::Failure;
use crate::screen::Screen;

/// The temperature is shown to people this often while nothing else happens.
const ESTIMATE_EVERY: Duration = Duration::from_secs(60);

/// Shows what happens.
pub struct Show {
    screen: Screen,
    estimated: Option<Mono>,
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
        Self { screen, estimated: None }
    }

    /// An event of the socket.
    pub fn event(&mut self, text: &str, event: &Event) -> Result<(), Failure> {
        if self.screen.is_json() {
            return self.screen.line(text);
        }
        let wanted = match event.body {
            Body::Estimate(_) => {
                let due = self.estimated.is_none_or(|at| event.mono_ms >= at.after(ESTIMATE_EVERY));
                if due {
                    self.estimated = Some(event.mono_ms);
                }
                due
            }
            Body::Reading(_)
            | Body::Forecast(_)
            | Body::Boot { .. }
            | Body::Precondition { .. }
            | Body::Told(_) => false,
            _ => true,
        };
        if wanted { self.screen.line(&for_people(event, self.screen)) } else { Ok(()) }
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
