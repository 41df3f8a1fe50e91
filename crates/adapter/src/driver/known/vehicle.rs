//! What is known of the vehicle, and how far the present attempt to reach it has come.
//!
//! In: what was tried and what came of it. Out: the protocol to begin with. An attempt goes on across resets of the
//! adapter, so it stands here. Not here: the search itself (`phase/search.rs`), the pause behind it (`phase/pause.rs`).

use super::harm::Suspect;
use crate::command::{Protocol, Setup};
use crate::outcome::{Silence, Tried};

/// See the module's words.
#[derive(Debug, Default)]
pub(crate) struct Vehicle {
    /// The protocol that answered the last time.
    pub(crate) known: Option<Protocol>,
    pub(crate) in_use: Option<Protocol>,
    /// Attempts in a row without an answer, and those of them that were searches of the adapter's own.
    pub(crate) attempts: u32,
    pub(crate) searches: u32,
    /// All that was tried since the vehicle answered last.
    pub(crate) tried: Tried,
    pub(crate) attempt: Attempt,
}

/// One attempt: all that is tried between two pauses.
#[derive(Debug, Default)]
pub(crate) struct Attempt {
    /// What is being tried: a search of the adapter's own, or a protocol by its name.
    pub(crate) trying: Option<Setup>,
    /// The connection would end because of it: from the choice of the protocol to the first answer.
    suspect: Option<Setup>,
    /// Where in the round of all protocols by name this attempt is.
    pub(crate) round: Option<usize>,
    /// What the first try of this attempt came to.
    pub(crate) silence: Option<Silence>,
    /// The reply to `0100`, until its form is known.
    pub(crate) text: Vec<u8>,
    /// Whether this stage was already repeated.
    pub(crate) repeated: bool,
    /// Whether an answer that was spoilt was already asked for again.
    pub(crate) spoilt: bool,
    /// How many replies of this attempt had no prompt.
    lost: u8,
}

/// So many replies without a prompt in one attempt are too many.
/// Own choice: each costs its limit and a way back; fewer give up a vehicle for lost bytes, more keep one attempt going
/// for minutes.
const LOST: u8 = 4;

impl Vehicle {
    /// The protocol that this vehicle had the last time.
    pub(crate) const fn remember(&mut self, protocol: Protocol) {
        self.known = Some(protocol);
    }

    /// A new link: perhaps another vehicle, so a protocol found before is only the first guess.
    pub(crate) fn reopened(&mut self) {
        *self = Self { known: self.in_use.or(self.known), tried: self.tried, ..Self::default() };
    }

    /// It answers, in this protocol if that has a name.
    pub(crate) fn connected(&mut self, protocol: Option<Protocol>) {
        *self = Self { known: protocol.or(self.known), in_use: protocol, ..Self::default() };
    }

    /// The present attempt has failed; how many have in a row.
    pub(crate) fn failed(&mut self) -> u32 {
        *self = Self {
            known: self.in_use.or(self.known),
            in_use: None,
            attempts: self.attempts + 1,
            attempt: Attempt::default(),
            ..*self
        };
        self.attempts
    }

    /// `setup` is tried now.
    pub(crate) fn tries(&mut self, setup: Setup) {
        (self.attempt.trying, self.attempt.suspect) = (Some(setup), Some(setup));
        match setup {
            Setup::Try(protocol) => self.tried.note(protocol),
            _ => self.tried.search = true,
        }
    }
}

impl Attempt {
    /// The next of the round is tried.
    pub(crate) fn goes_round(&mut self, at: usize) {
        (self.round, self.repeated, self.lost) = (Some(at), false, 0);
    }

    /// A reply came: the protocol ends no connection.
    pub(crate) fn is_harmless(&mut self) {
        self.suspect = None;
    }

    /// What is to blame if the connection ends now.
    pub(crate) fn suspect(&self) -> Option<Suspect> {
        self.suspect.map(Suspect::Set)
    }

    /// A reply had no prompt, or was that of another request.
    pub(crate) fn lost_one(&mut self) {
        self.lost = self.lost.saturating_add(1);
    }

    /// Whether another one may be lost.
    pub(crate) const fn may_lose(&self) -> bool {
        self.lost < LOST
    }
}
