//! When the fluid will have mixed: what the sensor is in is not the whole fluid after a rest, a start or a fill.
//!
//! In: whether the engine turns, what a person told of it, losses of the link, fluid that is filled in. Out: until when nothing
//! that is read is the whole fluid's, and what that changes for what was read before ([`Change`]). Not here: whether the engine ran
//! on where nobody saw it (`unseen.rs`), what its heat does (`nodes`).
//! Method: docs/gate.md, "Verdict", "After a pause".

use units::Mono;

use crate::limits::Limits;
use crate::signal::track::Engine;
use crate::vehicle::unseen::Unseen;

/// The engine as far as it moves the fluid, and the end of the mixing.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Mixing {
    /// Since when the engine has stood, and whether that was told to the track.
    stands: Option<(Mono, bool)>,
    /// What a person told last of the engine.
    told_runs: Option<bool>,
    /// When the fluid will have mixed, after the engine started or fluid was filled in.
    mixed_at: Option<Mono>,
    /// Whether it may have stood unseen.
    unseen: Unseen,
}

/// What the engine's turning changes for what was read before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Change {
    /// The engine starts after it has stood for a while, or has just stood for so long.
    pub(crate) turned: Option<Engine>,
    /// The fluid had come to rest and mixes now.
    pub(crate) mixes: bool,
}

impl Mixing {
    /// The vehicle shows whether the engine turns.
    pub(crate) fn engine_read(&mut self, turns: bool, at: Mono, limits: &Limits) -> Change {
        let rested = self.unseen.engine(turns, at, limits);
        self.engine(turns, rested, at, limits)
    }

    /// Whether the engine turns, as a person told it.
    pub(crate) fn engine_told(&mut self, turns: bool, at: Mono, limits: &Limits) -> Change {
        self.engine(turns, false, at, limits)
    }

    /// `rested`: it may have stood for long before it was seen to stand.
    fn engine(&mut self, turns: bool, rested: bool, at: Mono, limits: &Limits) -> Change {
        if turns {
            let Some((since, told)) = self.stands.take() else { return Change::default() };
            let mixes = rested || at.since(since) > limits.rest_after;
            if mixes {
                self.mixed_at = Some(at.after(limits.mixes_for));
            }
            return Change { turned: told.then_some(Engine::MayRun), mixes };
        }
        let (since, told) = *self.stands.get_or_insert((at, false));
        if told || at.since(since) < limits.standing_after {
            return Change::default();
        }
        self.stands = Some((since, true));
        Change { turned: Some(Engine::Stands), mixes: false }
    }

    /// A person told what the engine does. True for the first word that it runs: that is its start.
    pub(crate) fn told(&mut self, runs: bool, at: Mono, limits: &Limits) -> bool {
        let starts = runs && self.told_runs != Some(true);
        if starts {
            self.mixed_at = Some(at.after(limits.mixes_for));
        }
        self.told_runs = Some(runs);
        starts
    }

    /// Fluid was filled in. Gives when that will have mixed.
    pub(crate) fn filled(&mut self, now: Mono, limits: &Limits) -> Mono {
        let mixed = now.after(limits.fill_mixes_for);
        self.mixed_at = self.mixed_at.max(Some(mixed));
        mixed
    }

    /// The link is lost: nothing is seen of the engine.
    pub(crate) fn link_lost(&mut self, now: Mono) {
        self.unseen.link_lost(now);
    }

    pub(crate) const fn begins_amid(&mut self, now: Mono) {
        self.unseen.begins(now);
    }

    /// A reading of the vehicle's, whatever it is of.
    pub(crate) fn heard(&mut self, at: Mono, limits: &Limits) {
        self.unseen.heard(at, limits);
    }

    /// A reading of the signal came over the link.
    pub(crate) fn signal_read(&mut self, at: Mono, limits: &Limits) {
        self.unseen.signal(at, limits);
    }

    /// The vehicle's own count of how long the engine has run, s.
    pub(crate) fn run_time(&mut self, at: Mono, seconds: u32) {
        self.unseen.run_time(at, seconds);
    }

    /// What was read before came from elsewhere: the vehicle's count proves nothing any more.
    pub(crate) const fn source_changed(&mut self) {
        self.unseen.source_changed();
    }

    /// Where a stop that nobody saw was waited out: from when on the fluid mixed, for all that is known.
    pub(crate) fn waited_out(&mut self, now: Mono) -> Option<Mono> {
        self.unseen.waited_out(now)
    }

    /// When the fluid will have mixed, for all that is known.
    pub(crate) fn mixed_at(&self) -> Option<Mono> {
        self.mixed_at.max(self.unseen.mixed_at())
    }

    /// Whether a person has told of the engine: then nothing but people tells anything.
    pub(crate) const fn by_people(&self) -> bool {
        self.told_runs.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LIMITS: Limits = Limits::FLUID;

    fn at(seconds: u64) -> Mono {
        Mono::from_secs(seconds)
    }

    #[test]
    fn an_engine_that_hiccups_does_not_mix_and_one_that_rested_does() {
        let mut mixing = Mixing::default();
        assert_eq!(mixing.engine_read(true, at(0), &LIMITS), Change::default(), "nobody saw it stand");
        mixing.engine_read(false, at(10), &LIMITS);
        assert_eq!(mixing.engine_read(true, at(15), &LIMITS), Change::default());
        mixing.engine_read(false, at(20), &LIMITS);
        assert_eq!(mixing.engine_read(true, at(26), &LIMITS), Change { turned: None, mixes: true });
        assert_eq!(mixing.mixed_at(), Some(at(116)));
    }

    #[test]
    fn that_it_stands_is_said_once_after_a_minute_and_its_start_after_that() {
        let mut mixing = Mixing::default();
        let said: Vec<Option<Engine>> =
            (0..90).map(|s| mixing.engine_read(false, at(s), &LIMITS).turned).collect();
        assert_eq!(said.iter().flatten().count(), 1);
        assert_eq!(said.get(60), Some(&Some(Engine::Stands)));
        let start = mixing.engine_read(true, at(90), &LIMITS);
        assert_eq!(start, Change { turned: Some(Engine::MayRun), mixes: true });
    }

    #[test]
    fn a_fill_never_shortens_what_a_start_asks_for() {
        let mut mixing = Mixing::default();
        assert!(mixing.told(true, at(0), &LIMITS) && !mixing.told(true, at(5), &LIMITS));
        assert_eq!(mixing.filled(at(10), &LIMITS), at(55));
        assert_eq!(mixing.mixed_at(), Some(at(90)));
    }
}
