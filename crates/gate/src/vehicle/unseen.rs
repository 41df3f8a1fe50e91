//! Did the engine run on while nobody saw it? It may have stood meanwhile, and what mixes then must not meet an open port.
//!
//! In: what is seen of the engine, losses of the link, the vehicle's own count of how long the engine has run. Out: until when
//! nobody knows whether the fluid has mixed. Whatever is unknown is a stop. Not here: an engine that was seen to stand (`mixing.rs`).
//! Method: docs/gate.md, "Verdict", "After a pause".

use core::time::Duration;

use units::Mono;

use crate::limits::Limits;

/// What was seen of the engine before and after a loss of the link.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Unseen {
    /// When it was last seen to turn; none from when it was seen to stand.
    ran: Option<Mono>,
    /// When anything of the vehicle was read last.
    heard: Option<Mono>,
    /// When the link was lost, until the engine is seen again.
    lost: Option<Mono>,
    /// Nobody watched before that loss: how long it was is not known.
    unwatched: bool,
    /// The vehicle's count as it was read last, and as it was before the loss.
    count: Option<Count>,
    before: Option<Count>,
    /// It turns, and may have stood while nobody saw it.
    doubt: Option<Doubt>,
    /// The signal is read again and the engine is not: it may have started just now. When that would have mixed.
    blind: Option<Mono>,
    /// It was unseen for a while and is seen to stand: its next start mixes, however short it is seen to stand.
    stood: bool,
}

/// How long the engine has run by the vehicle's own count.
#[derive(Debug, Clone, Copy)]
struct Count {
    at: Mono,
    seconds: u32,
}

/// A stop that nobody saw and nothing rules out.
#[derive(Debug, Clone, Copy)]
struct Doubt {
    back: Mono,
    mixed: Mono,
}

impl Unseen {
    /// The watch begins in the middle of a job: the engine may have run until now.
    pub(crate) const fn begins(&mut self, now: Mono) {
        (self.ran, self.lost, self.unwatched) = (Some(now), Some(now), true);
    }

    /// The link is lost: from now on nothing is seen of the engine.
    pub(crate) fn link_lost(&mut self, now: Mono) {
        if self.ran.is_none() {
            return;
        }
        if self.lost.is_none() && self.doubt.is_none() {
            self.before = self.count;
        }
        self.lost = Some(now);
    }

    /// Anything that the vehicle shows. Where nothing came for so long as a stand that counts takes, the link was lost, told or not:
    /// a mute adapter is given time to come back.
    pub(crate) fn heard(&mut self, at: Mono, limits: &Limits) {
        let before = self.heard.unwrap_or(at);
        self.heard = Some(before.max(at));
        if self.lost.is_none() && at.since(before) > limits.rest_after {
            self.link_lost(before);
        }
    }

    /// Whether the engine turns. True where it starts after a stand of which nobody knows the length.
    pub(crate) fn engine(&mut self, turns: bool, at: Mono, limits: &Limits) -> bool {
        if self.lost.is_some_and(|lost| at < lost) {
            // It was under way when the link went.
            return false;
        }
        let doubted = self.doubted(at, limits);
        (self.lost, self.blind, self.unwatched) = (None, None, false);
        if !turns {
            self.stood |= doubted || self.doubt.is_some();
            self.ran = None;
            return false;
        }
        self.ran = Some(at);
        if doubted {
            self.doubt = Some(Doubt { back: at, mixed: at.after(limits.mixes_for) });
        }
        core::mem::take(&mut self.stood)
    }

    /// A reading of the signal: it may be back before the engine is seen.
    pub(crate) fn signal(&mut self, at: Mono, limits: &Limits) {
        if self.doubted(at, limits) {
            self.blind = Some(at.after(limits.mixes_for));
        }
    }

    /// The vehicle's own count. Where it went on all the time, so did the engine.
    pub(crate) fn run_time(&mut self, at: Mono, seconds: u32) {
        if self.count.is_some_and(|count| at < count.at) || self.lost.is_some_and(|lost| at < lost) {
            return;
        }
        let now = Count { at, seconds };
        if self.ran.is_some() && self.before.is_some_and(|before| now.went_on_from(before)) {
            if self.lost.take().is_some() {
                self.ran = Some(at);
            }
            (self.doubt, self.blind) = (None, None);
        }
        self.count = Some(now);
    }

    /// The count may be another vehicle's: nothing that was counted before proves anything.
    pub(crate) const fn source_changed(&mut self) {
        (self.count, self.before) = (None, None);
    }

    /// Until when nobody knows whether the fluid has mixed.
    pub(crate) fn mixed_at(&self) -> Option<Mono> {
        self.doubt.map(|doubt| doubt.mixed).max(self.blind)
    }

    /// Where a doubt has been waited out: from when on the fluid has mixed, for all that is known.
    pub(crate) fn waited_out(&mut self, now: Mono) -> Option<Mono> {
        let doubt = self.doubt.filter(|doubt| doubt.mixed <= now)?;
        self.doubt = None;
        Some(doubt.back)
    }

    /// Whether a loss lies before `at` in which the engine may have stood for a while.
    fn doubted(&self, at: Mono, limits: &Limits) -> bool {
        let long = |ran| self.unwatched || at.since(ran) > limits.rest_after;
        self.lost.is_some() && self.ran.is_some_and(long)
    }
}

impl Count {
    /// Whether it went on without a stop: neither behind the clock nor ahead of it. A stall may hold a count, and a start
    /// begin it anew; another engine's says nothing.
    fn went_on_from(self, before: Self) -> bool {
        let passed = self.at.since(before.at);
        let counted = Duration::from_secs(u64::from(self.seconds.saturating_sub(before.seconds)));
        counted + BEHIND >= passed && counted <= passed + AHEAD
    }
}

/// So much may be missing.
/// Own choice: whole seconds and an answer that came late before the loss; less than the stand that lets the fluid come
/// to rest.
const BEHIND: Duration = Duration::from_secs(3);
/// So much may be too much.
/// Own choice: an answer that came late after it, by two of its polls.
const AHEAD: Duration = Duration::from_secs(10);

#[cfg(test)]
mod tests {
    use super::*;

    const LIMITS: Limits = Limits::FLUID;

    fn at(seconds: u64) -> Mono {
        Mono::from_secs(seconds)
    }

    /// Seen to turn up to 100 s with a count of 500, lost then, seen to turn again at `back`.
    fn unseen_until(back: u64) -> Unseen {
        let mut unseen = Unseen::default();
        unseen.engine(true, at(90), &LIMITS);
        unseen.run_time(at(90), 500);
        unseen.engine(true, at(100), &LIMITS);
        unseen.link_lost(at(101));
        unseen.engine(true, at(back), &LIMITS);
        unseen
    }

    #[test]
    #[rustfmt::skip]
    fn a_count_proves_only_what_neither_stood_nor_jumped() {
        // Lost for 29 s; the count was 500 at 90 s.
        let cases = [
            // what                                   read at  says   proves
            ("it ran on",                                 131,   541, true),
            ("whole seconds, and late before the loss",   131,   538, true),
            ("it stood for four seconds",                 131,   537, false),
            ("held while it stood for 20 s",              131,   521, false),
            ("begun anew",                                131,     5, false),
            ("begun anew, read much later",               900,   780, false),
            ("answered late",                             131,   551, true),
            ("another engine's",                          131, 3_000, false),
            ("at the end of its scale",                   131,   500, false),
        ];
        for (what, read_at, says, proves) in cases {
            let mut unseen = unseen_until(130);
            assert_eq!(unseen.mixed_at(), Some(at(220)), "{what}");
            unseen.run_time(at(read_at), says);
            assert_eq!(unseen.mixed_at().is_none(), proves, "{what}");
        }
    }

    #[test]
    fn a_count_from_before_another_source_or_from_after_the_loss_proves_nothing() {
        let mut unseen = unseen_until(130);
        unseen.source_changed();
        unseen.run_time(at(131), 541);
        assert_eq!(unseen.mixed_at(), Some(at(220)));
        unseen.run_time(at(141), 551);
        assert_eq!(unseen.mixed_at(), Some(at(220)), "that it ran from 131 s on says nothing of before");
        assert_eq!((unseen.waited_out(at(219)), unseen.waited_out(at(220))), (None, Some(at(130))));
        assert_eq!(unseen.mixed_at(), None);
    }

    #[test]
    fn an_engine_nobody_ever_saw_turn_is_not_doubted_and_one_found_standing_is_once_it_starts() {
        let mut unseen = Unseen::default();
        unseen.link_lost(at(0));
        assert!(!unseen.engine(true, at(60), &LIMITS) && unseen.mixed_at().is_none());
        unseen.link_lost(at(61));
        unseen.signal(at(80), &LIMITS);
        assert_eq!(unseen.mixed_at(), Some(at(170)), "nobody knows whether it has just started");
        assert!(!unseen.engine(false, at(81), &LIMITS));
        assert_eq!(unseen.mixed_at(), None, "it stands: nothing mixes");
        assert!(unseen.engine(true, at(83), &LIMITS), "nobody knows for how long it stood");
        assert!(!unseen.engine(true, at(84), &LIMITS));
    }

    #[test]
    fn where_the_watch_begins_amid_a_job_the_engine_may_have_stood_a_moment_ago() {
        for seen in [0, 1, 4, 30] {
            let mut unseen = Unseen::default();
            unseen.begins(at(100));
            unseen.engine(true, at(100 + seen), &LIMITS);
            assert_eq!(unseen.mixed_at(), Some(at(190 + seen)), "seen to turn {seen} s later");
            unseen.run_time(at(131), 900);
            unseen.run_time(at(141), 910);
            assert_eq!(unseen.mixed_at(), Some(at(190 + seen)), "a count says nothing of before");
        }
        let mut stands = Unseen::default();
        stands.begins(at(100));
        assert!(!stands.engine(false, at(101), &LIMITS));
        assert_eq!(stands.mixed_at(), None, "it stands: nothing mixes");
        assert!(stands.engine(true, at(103), &LIMITS), "nobody knows for how long it stood");
    }
}
