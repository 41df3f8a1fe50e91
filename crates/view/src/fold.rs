//! The fold: what the daemon has said, and how old it is.
//!
//! In: lines of the socket, the loss of the connection, the time. Out: what is known. What a seat sees of it: `look`.

use std::collections::BTreeMap;

use events::{
    Body, Event, Precondition, Quantity, Reading, Request, Seq, Sheet, Snapshot, SocketLine, Sort, Word,
};
use units::Mono;
use words::{Speech, args};

/// See the module's words.
#[derive(Debug, Clone)]
pub struct Fold {
    pub(crate) bay: String,
    pub(crate) connected: bool,
    pub(crate) heard: Mono,
    pub(crate) seq: Seq,
    pub(crate) state: Option<BayState>,
}

/// What is known, and since when: what the daemon says carries no age of its own here.
#[derive(Debug, Clone)]
pub(crate) struct BayState {
    /// Where the bay stands.
    pub(crate) known: Snapshot,
    pub(crate) forecast_at: Mono,
    /// When the selector's rounds were said last.
    pub(crate) rounds_at: Mono,
    /// When each quantity was read.
    pub(crate) read: BTreeMap<Quantity, Mono>,
    /// What can be taken back, and when it was told.
    pub(crate) told: Option<(Request, Mono)>,
    /// Another sheet was chosen.
    pub(crate) outdated: bool,
}

impl Default for Fold {
    /// Nothing heard yet.
    fn default() -> Self {
        Self { bay: String::new(), connected: false, heard: Mono::ZERO, seq: Seq(0), state: None }
    }
}

impl Fold {
    /// Takes a line in, heard at `now`.
    pub fn hear(&mut self, line: &SocketLine, now: Mono) {
        self.heard = now;
        match line {
            SocketLine::Word(Word::Hello { bay, .. }) => {
                self.bay.clone_from(bay);
                self.connected = true;
            }
            SocketLine::Word(Word::Snapshot(snapshot)) => {
                self.connected = true;
                self.seq = snapshot.seq;
                let told = self.state.take().and_then(|s| s.told);
                self.state = Some(BayState::new((**snapshot).clone(), told, now));
            }
            SocketLine::Word(Word::Bye { .. }) => self.lost(now),
            SocketLine::Word(_) => {}
            SocketLine::Event(event) => {
                self.seq = event.seq;
                if let Some(state) = &mut self.state {
                    state.take(event, now);
                }
            }
        }
    }

    /// The connection to the daemon is gone.
    pub fn lost(&mut self, now: Mono) {
        if self.connected {
            self.connected = false;
            self.heard = now;
        }
    }

    /// The last event that is in it: where to go on.
    pub fn seq(&self) -> Seq {
        self.seq
    }

    /// Whether another sheet was chosen, which only a new snapshot brings: connect anew.
    pub fn is_outdated(&self) -> bool {
        self.state.as_ref().is_some_and(|s| s.outdated)
    }

    /// The sheet of the running job, or the one for the next.
    pub fn sheet(&self) -> Option<&Sheet> {
        self.state.as_ref().and_then(|s| s.known.sheet.as_deref())
    }
}

impl BayState {
    fn new(snapshot: Snapshot, told: Option<(Request, Mono)>, now: Mono) -> Self {
        let mut state = Self {
            known: Snapshot::default(),
            forecast_at: now,
            rounds_at: now,
            read: BTreeMap::new(),
            told,
            outdated: false,
        };
        for reading in &snapshot.readings {
            state.reading(reading, now);
        }
        state.known = snapshot;
        state
    }

    fn take(&mut self, event: &Event, now: Mono) {
        match &event.body {
            Body::Reading(reading) => self.reading(reading, now),
            Body::Told(told) => {
                self.told = Some((told.request.clone(), now));
                self.outdated |= told.request.sort() == Sort::Sets;
            }
            Body::Job { .. } | Body::Result(_) => self.told = None,
            Body::Selector(_) => self.rounds_at = now,
            body => {
                if self.known.forecast.unwrap_or_default().after(body).is_some() {
                    self.forecast_at = now;
                }
            }
        }
        self.known.apply(event);
        if self.known.readings.is_empty() {
            self.read.clear();
        }
    }

    fn reading(&mut self, reading: &Reading, now: Mono) {
        let taken = now.as_millis().saturating_sub(u64::from(reading.age_ms));
        self.read.insert(reading.measure.quantity(), Mono::from_millis(taken));
    }

    /// The preconditions that do not hold; none without a job that runs.
    pub(crate) fn open(&self) -> &[Precondition] {
        self.known.running().map_or(&[], |job| &job.open)
    }
}

/// What `undo` would take back, in words; the port's own happenings it never does.
pub(crate) fn taken_back(request: &Request, speech: Speech) -> Option<String> {
    let message = match request {
        Request::Confirm { what } => return Some(speech.lang.also(*what, "short", what.short()).to_owned()),
        Request::Shifted { position } => {
            return Some(speech.with("undo-selector", &args!(position = position.as_str())));
        }
        Request::Level { .. } => "undo-level",
        Request::Drained { .. } => "undo-drained",
        Request::Filled { .. } => "undo-filled",
        Request::RanOut { .. } => "undo-ran-out",
        Request::Gauge { .. } => "undo-gauge",
        Request::Symptom { .. } | Request::FluidLooks { .. } | Request::LeakAt { .. } => "undo-answer",
        Request::Trickle => "undo-trickle",
        Request::Drips => "undo-drips",
        Request::Torqued => "undo-torqued",
        Request::TestDriven => "undo-test-driven",
        _ => return None,
    };
    Some(speech.text(message).to_owned())
}

#[cfg(test)]
mod tests;
