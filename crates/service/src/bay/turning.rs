//! Does what is read still come from a vehicle whose engine turns, or does somebody repeat what was said before?
//!
//! In: what is read, one by one. Out: whether it is evidence. An idling engine never turns equally fast for long. A speed that stays
//! what it is, to the revolution, while the vehicle's own count of how long the engine has run stands too, is repeated: by an adapter
//! that answers with what was said before, by a unit that keeps its last values. The engine may have stopped meanwhile, and nobody would
//! know; so nothing that is read counts until speed or count is another. Pure. Not here: a temperature that stands (`gate`).

use std::time::Duration;

use events::Measure;
use units::{Mono, Rpm};

/// What was read of the engine, and when it moved last.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Turning {
    speed: Option<Moved<Rpm>>,
    count: Option<Moved<u32>>,
    /// The speed that is repeated; a new link does not end that.
    held: Option<Rpm>,
}

/// A value, since when it has been what it is, and whether it has ever been another.
#[derive(Debug, Clone, Copy)]
struct Moved<T> {
    value: T,
    since: Mono,
    ever: bool,
}

/// What something that was read is worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Worth {
    /// It is evidence.
    Evidence,
    /// It is repeated, and this shows it.
    Turns,
    /// It is repeated, as was known.
    Repeated,
}

/// An engine speed that has been the same for longer, to the revolution, is no evidence.
/// Own choice: twice the longest that one stayed the same in 111,800 s of a running engine (recorded warm-ups of one car, CC BY
/// 4.0, DOI 10.35097/1130, one row a second: 14 s, at idle). What shows it more coarsely has a count that goes on, asked each 10 s.
const STANDS_FOR: Duration = Duration::from_secs(30);
/// A count that has not gone on for longer speaks for no speed any more.
/// Own choice: it is asked each 10 s, so one answer may be lost; and whoever repeats from between two of them on is found no later than by his speed.
const COUNTS_FOR: Duration = Duration::from_secs(20);

impl Turning {
    /// Takes in what was read.
    pub(super) fn worth(&mut self, measure: Measure, now: Mono) -> Worth {
        match measure {
            Measure::EngineSpeed(speed) => {
                Moved::hear(&mut self.speed, speed, now);
                if self.held.is_none() && speed.steps() > 0 && !self.moves(now) {
                    self.held = Some(speed);
                    return Worth::Turns;
                }
                self.held = self.held.filter(|held| *held == speed);
            }
            Measure::RunTime(seconds) => {
                let goes_on = Moved::hear(&mut self.count, seconds, now);
                self.held = self.held.filter(|_| !goes_on);
            }
            _ => {}
        }
        if self.held.is_some() { Worth::Repeated } else { Worth::Evidence }
    }

    /// The link is gone: nobody saw whether it moved. What was repeated is not believed because of that.
    pub(super) const fn forget(&mut self) {
        (self.speed, self.count) = (None, None);
    }

    /// Speed or count was another not long ago.
    fn moves(&self, now: Mono) -> bool {
        let speed = self.speed.is_none_or(|speed| now.since(speed.since) <= STANDS_FOR);
        let count = self.count.is_some_and(|count| count.ever && now.since(count.since) <= COUNTS_FOR);
        speed || count
    }
}

impl<T: PartialEq> Moved<T> {
    /// Whether it is another than before.
    fn hear(slot: &mut Option<Self>, value: T, now: Mono) -> bool {
        match slot {
            Some(moved) if moved.value == value => false,
            Some(_) => {
                *slot = Some(Self { value, since: now, ever: true });
                true
            }
            None => {
                *slot = Some(Self { value, since: now, ever: false });
                false
            }
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;

    fn speed(rpm: i32) -> Measure {
        Measure::EngineSpeed(Rpm::from_steps(rpm).unwrap())
    }

    fn fluid() -> Measure {
        Measure::Fluid(units::Celsius::from_steps(3_800).unwrap())
    }

    fn at(s: u64) -> Mono {
        Mono::from_secs(s)
    }

    /// The same speed each second from `from` on.
    fn stands(turning: &mut Turning, from: u64, seconds: u64) -> Vec<Worth> {
        (from..from + seconds).map(|s| turning.worth(speed(712), at(s))).collect()
    }

    #[test]
    fn a_speed_that_never_moves_is_evidence_for_half_a_minute() {
        let mut turning = Turning::default();
        let worth = stands(&mut turning, 0, 60);
        assert!(worth.iter().take(31).all(|worth| *worth == Worth::Evidence));
        assert_eq!(worth.get(31), Some(&Worth::Turns));
        assert!(worth.iter().skip(32).all(|worth| *worth == Worth::Repeated));
        assert_eq!(turning.worth(fluid(), at(60)), Worth::Repeated, "who repeats that repeats all");
        assert_eq!(turning.worth(speed(713), at(60)), Worth::Evidence, "it moves again");
        assert_eq!(turning.worth(fluid(), at(60)), Worth::Evidence);
    }

    #[test]
    fn a_count_that_goes_on_speaks_for_a_speed_that_stands() {
        let mut turning = Turning::default();
        for s in 0..300 {
            if s % 10 == 0 {
                turning.worth(Measure::RunTime(40 + s), at(u64::from(s)));
            }
            assert_eq!(turning.worth(speed(700), at(u64::from(s))), Worth::Evidence, "{s}");
        }
    }

    #[test]
    fn a_count_that_stands_speaks_for_nothing_and_one_that_goes_on_again_does() {
        let mut turning = Turning::default();
        for s in 0..100 {
            turning.worth(Measure::RunTime(40), at(s));
            turning.worth(speed(700), at(s));
        }
        assert_eq!(turning.worth(fluid(), at(100)), Worth::Repeated);
        assert_eq!(turning.worth(Measure::RunTime(41), at(100)), Worth::Evidence);
        assert_eq!(turning.worth(speed(700), at(100)), Worth::Evidence);
    }

    #[test]
    fn an_engine_that_stands_is_known_to_stand() {
        let mut turning = Turning::default();
        assert!((0..300).all(|s| turning.worth(speed(0), at(s)) == Worth::Evidence));
    }

    #[test]
    fn a_new_link_does_not_make_the_same_speed_true() {
        let mut turning = Turning::default();
        stands(&mut turning, 0, 60);
        turning.forget();
        assert!(stands(&mut turning, 61, 60).iter().all(|worth| *worth == Worth::Repeated));
        assert_eq!(turning.worth(speed(0), at(122)), Worth::Evidence);
    }

    #[test]
    fn a_short_loss_makes_no_speed_stand_longer() {
        let mut turning = Turning::default();
        stands(&mut turning, 0, 25);
        turning.forget();
        assert!(stands(&mut turning, 60, 31).iter().all(|worth| *worth == Worth::Evidence));
    }
}
