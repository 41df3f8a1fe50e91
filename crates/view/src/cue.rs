//! The sound patterns: own ones, each with a rhythm of its own, so that a buzzer with one pitch will do.
//!
//! In: nothing. Out: the table. Which cue it is now is [`crate::View::cue`]; who plays it is the front end
//! (the page in the browser, the scripts of `docs/sounds/` at a pin or a speaker).

use serde::Serialize;

/// What can be heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cue {
    /// The window opens within a minute.
    Soon,
    /// The port may be opened.
    Go,
    /// The window may close within a minute.
    Closing,
    /// The window may close within twenty seconds.
    ClosingNow,
    /// Above the band.
    TooHot,
    /// Nothing is known.
    NoReading,
    /// Inside: the selector has stood long enough in its position.
    MoveOn,
    /// The level is set.
    Done,
}

/// One tone and the silence after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Note {
    /// Pitch; a buzzer with one pitch lets it be.
    pub hertz: u16,
    /// How long it sounds.
    pub on_ms: u16,
    /// How long it is silent after it.
    pub off_ms: u16,
}

/// How a cue sounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Pattern {
    /// Which.
    pub cue: Cue,
    /// Its word for speech.
    pub says: &'static str,
    /// The tones.
    pub notes: &'static [Note],
    /// So many times when it begins.
    pub times: u8,
    /// And once more every so many milliseconds while it lasts; absent where not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub every_ms: Option<u32>,
}

const fn note(hertz: u16, on_ms: u16, off_ms: u16) -> Note {
    Note { hertz, on_ms, off_ms }
}

const TICK: Note = note(200, 40, 40);

/// The table: one row a cue. Own choice; rhythms differ, pitches only help.
#[rustfmt::skip]
const PATTERNS: &[Pattern] = &[
    Pattern { cue: Cue::Soon, says: "soon", notes: &[note(440, 60, 0)], times: 1, every_ms: Some(10_000) },
    Pattern { cue: Cue::Go, says: "go", notes: &[note(523, 120, 60), note(784, 240, 120)], times: 3, every_ms: Some(20_000) },
    Pattern { cue: Cue::Closing, says: "closing", notes: &[note(660, 60, 60), note(660, 60, 0)], times: 1, every_ms: Some(5_000) },
    Pattern { cue: Cue::ClosingNow, says: "closing now", notes: &[note(660, 60, 60), note(660, 60, 0)], times: 1, every_ms: Some(2_000) },
    Pattern { cue: Cue::TooHot, says: "too hot", notes: &[note(392, 700, 100), note(262, 900, 200)], times: 2, every_ms: None },
    Pattern { cue: Cue::NoReading, says: "no reading", notes: &[TICK, TICK, TICK, TICK, TICK, TICK], times: 1, every_ms: Some(5_000) },
    Pattern { cue: Cue::MoveOn, says: "move on", notes: &[note(349, 180, 0)], times: 1, every_ms: None },
    Pattern { cue: Cue::Done, says: "the level is set", notes: &[note(523, 90, 30), note(659, 90, 30), note(784, 300, 0)], times: 1, every_ms: None },
];

impl Pattern {
    /// Every pattern there is.
    pub const ALL: &'static [Self] = PATTERNS;
}

impl Cue {
    /// How it sounds.
    pub fn pattern(self) -> Option<&'static Pattern> {
        PATTERNS.iter().find(|p| p.cue == self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cue_can_be_told_from_every_other_by_its_rhythm_alone() {
        let rhythm = |p: &Pattern| {
            let beats: Vec<(u16, u16)> = p.notes.iter().map(|n| (n.on_ms, n.off_ms)).collect();
            (beats, p.times, p.every_ms)
        };
        for (i, a) in PATTERNS.iter().enumerate() {
            for b in &PATTERNS[i + 1..] {
                assert_ne!(rhythm(a), rhythm(b), "{:?} and {:?}", a.cue, b.cue);
            }
            assert_eq!(a.cue.pattern(), Some(a));
        }
    }
}
