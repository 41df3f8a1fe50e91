//! How a rehearsal is shown while it runs: events for programs; for people the screen of `watch`, with what the
//! scripted technician does, or a plain line for what matters.

use std::time::{Duration, Instant};

use client::Client;
use events::{Body, Event, Precondition, Reason, SocketLine, Verdict, Word};
use serde::Serialize;
use units::Mono;
use view::{Fold, Look, Seat, interval};

use crate::events::for_people;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;
use crate::term::{self, Face, Key, Terminal};

/// The temperature is shown to people this often while nothing else happens.
/// Own choice: what happens stays in sight; at 1 K/min each line is another degree.
const ESTIMATE_EVERY: Duration = Duration::from_secs(60);

/// Shows what happens.
pub enum Show {
    /// Line by line.
    Lines(Lines),
    /// On the screen of `watch`.
    Stage(Box<Stage>),
}

/// See [`Show::Lines`].
pub struct Lines {
    screen: Screen,
    estimated: Option<Mono>,
    forecast: Option<String>,
    verdict: Option<(Verdict, Vec<Reason>, Vec<Precondition>)>,
}

/// See [`Show::Stage`].
pub struct Stage {
    screen: Screen,
    terminal: Terminal,
    fold: Fold,
    deeds: Vec<String>,
    painted: Option<Instant>,
    now: Mono,
}

/// The screen is painted at most this often, in real time.
/// Own choice: 25 pictures a second, as films have; more the terminal does not show.
const PAINT_EVERY: Duration = Duration::from_millis(40);
/// So many of the technician's deeds are kept in sight.
/// Own choice: what fits below the picture on 24 rows.
const DEEDS: usize = 4;

/// Something the scripted technician does, as a line of the output.
#[derive(Serialize)]
struct Deed<'a> {
    kind: &'static str,
    mono_ms: Mono,
    does: &'a str,
}

impl Show {
    /// Line by line.
    pub fn lines(screen: Screen) -> Self {
        Self::Lines(Lines { screen, estimated: None, forecast: None, verdict: None })
    }

    /// On the screen of `watch`, from what the client was told when it connected.
    pub fn on_screen(screen: Screen, client: &Client) -> Result<Self, Failure> {
        let mut fold = Fold::default();
        fold.hear(&client.hello(), Mono::ZERO);
        fold.hear(&SocketLine::Word(Word::Snapshot(client.snapshot.clone())), Mono::ZERO);
        let (deeds, painted, now) = (Vec::new(), None, Mono::ZERO);
        let stage = Stage { screen, terminal: Terminal::take()?, fold, deeds, painted, now };
        Ok(Self::Stage(Box::new(stage)))
    }

    /// An event of the socket.
    pub fn event(&mut self, text: &str, event: &Event) -> Result<(), Failure> {
        match self {
            Self::Lines(lines) => lines.event(text, event),
            Self::Stage(stage) => {
                stage.now = event.mono_ms;
                stage.fold.hear(&SocketLine::Event(event.clone()), event.mono_ms);
                stage.paint()
            }
        }
    }

    /// A word of the socket to the technician.
    pub fn word(&mut self, text: &str, word: &Word) -> Result<(), Failure> {
        match (self, word) {
            (Self::Lines(lines), word) => lines.word(text, word),
            (Self::Stage(stage), Word::Refused { says, .. }) => stage.deed(&format!("is refused: {says}")),
            _ => Ok(()),
        }
    }

    /// Something the technician does.
    pub fn deed(&mut self, now: Mono, does: &str) -> Result<(), Failure> {
        match self {
            Self::Lines(lines) => lines.deed(now, does),
            Self::Stage(stage) => stage.deed(does),
        }
    }
}

impl Stage {
    fn deed(&mut self, does: &str) -> Result<(), Failure> {
        let seconds = self.now.as_millis() / 1_000;
        self.deeds.push(format!("{:>3}:{:02}  technician {does}", seconds / 60, seconds % 60));
        let old = self.deeds.len().saturating_sub(DEEDS);
        self.deeds.drain(..old);
        self.paint()
    }

    fn paint(&mut self) -> Result<(), Failure> {
        if self.painted.is_some_and(|at| at.elapsed() < PAINT_EVERY) {
            return Ok(());
        }
        self.painted = Some(Instant::now());
        while let Some(key) = term::pressed() {
            if matches!(key, Key::Stop | Key::Char('q')) {
                return Err(Failure::new(Exit::Interrupted, ""));
            }
        }
        let speech = self.screen.speech();
        let view = self.fold.look(&Look { now: self.now, seat: Seat::Under, speech });
        let message = "A rehearsal on the simulated vehicle.   q leaves";
        let face = Face { view: &view, speech, message, deeds: Some(&self.deeds), page: 0 };
        self.terminal.draw(&face)
    }
}

impl Lines {
    /// An event of the socket.
    fn event(&mut self, text: &str, event: &Event) -> Result<(), Failure> {
        if self.screen.is_json() {
            return self.screen.json_line(text);
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
    fn word(&mut self, text: &str, word: &Word) -> Result<(), Failure> {
        match word {
            _ if self.screen.is_json() => self.screen.json_line(text),
            Word::Refused { says, .. } => self.screen.line(&format!("        refused: {says}")),
            _ => Ok(()),
        }
    }

    /// Something the technician does.
    fn deed(&mut self, now: Mono, does: &str) -> Result<(), Failure> {
        if self.screen.is_json() {
            return self.screen.json(&Deed { kind: "does", mono_ms: now, does });
        }
        let seconds = now.as_millis() / 1_000;
        self.screen.line(&format!("{:>3}:{:02}  technician {does}", seconds / 60, seconds % 60))
    }
}
