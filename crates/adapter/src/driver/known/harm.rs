//! What ends the connection again and again: the request or command that was under way each time.
//!
//! ```text
//!   left ─► under way ─┬─ a reply ───────────────────► cleared, and proven
//!                      ├─ the adapter is back in step ► nobody is to blame
//!                      └─ link lost, adapter reset, vehicle gone ─► blamed; the second time in a row: avoided for a while
//! ```
//!
//! After every loss the order of requests begins anew, so one that ends the link would starve all behind it. What is
//! avoided is asked last and seldom, and named. Losses with nothing under way, or with something that was answered before,
//! speak of the link and clear what was blamed only once.
//! In: what left, what became of it, the time. Out: [`Suspect`]s, and until when each is avoided. Pure. Ours.

use std::time::Duration;

use units::Mono;

use super::turns::Slot;
use crate::command::{Command, Setup};

/// What can be blamed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Suspect {
    /// A request of the schedule, with the addressing before it.
    Ask(Slot),
    /// A word to the adapter itself.
    Set(Setup),
}

impl Suspect {
    /// The word to the adapter that `command` is; a request of the schedule is known by its place there.
    pub(crate) const fn of(command: Command) -> Option<Self> {
        match command {
            Command::Set(setup) => Some(Self::Set(setup)),
            Command::Read(_) | Command::Counted(..) => None,
        }
    }

    /// Whether nothing can be read without it.
    const fn is_needed(self) -> bool {
        match self {
            Self::Ask(slot) => matches!(slot, Slot::Gating),
            // Questions and the voltage can be left out.
            Self::Set(setup) => !matches!(
                setup,
                Setup::Description
                    | Setup::Identifier
                    | Setup::FamilyIdentify
                    | Setup::Voltage
                    | Setup::ProtocolNumber
                    | Setup::ProbeKeyWords
                    | Setup::ProbeSilent
                    | Setup::ProbeActivity
                    | Setup::ProbeMultiplier
                    | Setup::ProbeNonsense
            ),
        }
    }
}

#[derive(Debug)]
struct Record {
    suspect: Suspect,
    /// How often in a row the connection ended with it.
    times: u8,
    /// It was answered before.
    proven: bool,
    /// It is avoided until then.
    until: Mono,
}

/// See the module's words.
#[derive(Debug, Default)]
pub(crate) struct Harm {
    under_way: Option<Suspect>,
    records: Vec<Record>,
}

/// So often in a row, and it is avoided.
/// Own choice: once is chance on a loose plug; a third time would cost another set-up of some 3 s.
const TWICE: u8 = 2;
/// For how long: the first time, and at most; each further time is twice as long.
/// Own choice: a loss costs some 3 s, so that one request takes at most a twentieth of the time, and is still tried six
/// times an hour.
const AWAY: Duration = Duration::from_secs(60);
const AWAY_MOST: Duration = Duration::from_secs(600);
/// What nothing can be read without, each time; what was answered before, so that it may be chance after all, the first time.
/// Own choice: without the signal there is no job, so that it must come back within a minute (`Driver::READS_WITHIN`).
const AWAY_SHORT: Duration = Duration::from_secs(20);
/// No more suspects are kept.
/// Own choice: the schedule, the set-up and nine protocols are some fifty; beyond that memory would grow with what
/// comes from outside.
const MOST: usize = 96;

impl Harm {
    /// It leaves now.
    pub(crate) fn left(&mut self, suspect: Option<Suspect>) {
        self.under_way = suspect;
    }

    /// A reply came: it does no harm.
    pub(crate) fn answered(&mut self) {
        let Some(suspect) = self.under_way.take() else { return };
        if let Some(record) = self.record(suspect) {
            (record.times, record.proven, record.until) = (0, true, Mono::ZERO);
        }
    }

    /// The adapter is in step again without its settings being lost.
    pub(crate) fn survived(&mut self) {
        self.under_way = None;
    }

    /// The connection has ended; what is avoided from now on because of it.
    pub(crate) fn ended(&mut self, now: Mono) -> Option<Suspect> {
        let suspect = self.under_way.take();
        let proven = suspect.is_none_or(|suspect| self.record(suspect).is_some_and(|record| record.proven));
        if proven {
            let others = self.records.iter_mut().filter(|record| Some(record.suspect) != suspect);
            others.filter(|record| record.times < TWICE).for_each(|record| record.times = 0);
        }
        let record = self.record(suspect?)?;
        record.times = record.times.saturating_add(1);
        let doublings = u32::from(record.times.checked_sub(TWICE)?);
        let (first, most) = match (record.suspect.is_needed(), record.proven) {
            (true, _) => (AWAY_SHORT, AWAY_SHORT),
            (false, true) => (AWAY_SHORT, AWAY_MOST),
            (false, false) => (AWAY, AWAY_MOST),
        };
        let away = first.saturating_mul(1 << doublings.min(8)).min(most);
        record.until = now.after(away);
        suspect
    }

    /// Until when it is avoided, if it is.
    pub(crate) fn avoided(&self, suspect: Suspect, now: Mono) -> Option<Mono> {
        let record = self.records.iter().find(|record| record.suspect == suspect)?;
        (record.times >= TWICE && now < record.until).then_some(record.until)
    }

    /// What stands for `suspect` is another request from now on.
    pub(crate) fn forget(&mut self, suspect: Suspect) {
        self.records.retain(|record| record.suspect != suspect);
    }

    fn record(&mut self, suspect: Suspect) -> Option<&mut Record> {
        let at = self.records.iter().position(|record| record.suspect == suspect);
        let at = match at {
            // What is asked again and again comes to the front, so that it is found soon.
            Some(at) if at > 0 => {
                self.records.swap(at, at - 1);
                at - 1
            }
            Some(at) => at,
            None if self.records.len() < MOST => {
                self.records.push(Record { suspect, times: 0, proven: false, until: Mono::ZERO });
                self.records.len() - 1
            }
            None => return None,
        };
        self.records.get_mut(at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Switch;

    const ODD: Suspect = Suspect::Ask(Slot::Other(2));
    const GATING: Suspect = Suspect::Ask(Slot::Gating);
    const VOLTAGE: Suspect = Suspect::Set(Setup::Voltage);

    fn lost(harm: &mut Harm, suspect: Option<Suspect>, second: u64) -> Option<Suspect> {
        harm.left(suspect);
        harm.ended(Mono::from_secs(second))
    }

    fn answered(harm: &mut Harm, suspect: Suspect) {
        harm.left(Some(suspect));
        harm.answered();
    }

    #[test]
    fn what_was_under_way_twice_in_a_row_is_avoided_longer_each_time() {
        let mut harm = Harm::default();
        let mut second = 0;
        assert_eq!(lost(&mut harm, Some(ODD), 0), None, "once may be chance");
        for away in [60, 120, 240, 480, 600, 600] {
            assert_eq!(lost(&mut harm, Some(ODD), second), Some(ODD));
            let at = |s: u64| Mono::from_secs(second + s);
            assert_eq!(harm.avoided(ODD, at(away - 1)), Some(at(away)));
            assert_eq!(harm.avoided(ODD, at(away)), None, "asked again");
            second += away;
        }
        answered(&mut harm, ODD);
        assert_eq!(lost(&mut harm, Some(ODD), second), None, "an answer clears it");
    }

    #[test]
    fn what_nothing_can_be_read_without_is_never_away_for_long() {
        for suspect in [GATING, Suspect::Set(Setup::Search), Suspect::Set(Setup::Headers(Switch::On))] {
            let mut harm = Harm::default();
            for second in [0, 5, 30, 60, 90] {
                lost(&mut harm, Some(suspect), second);
            }
            assert_eq!(harm.avoided(suspect, Mono::from_secs(90)), Some(Mono::from_secs(110)), "{suspect:?}");
        }
        let mut harm = Harm::default();
        for second in [0, 5, 90] {
            lost(&mut harm, Some(VOLTAGE), second);
        }
        assert_eq!(
            harm.avoided(VOLTAGE, Mono::from_secs(90)),
            Some(Mono::from_secs(210)),
            "it can be left out"
        );
    }

    #[test]
    fn what_was_answered_before_may_be_chance_at_first_and_is_none_when_it_goes_on() {
        let mut harm = Harm::default();
        answered(&mut harm, ODD);
        let mut second = 0;
        assert_eq!(lost(&mut harm, Some(ODD), 0), None, "once may be chance");
        for away in [20, 40, 80, 160, 320, 600, 600] {
            assert_eq!(lost(&mut harm, Some(ODD), second), Some(ODD));
            assert_eq!(harm.avoided(ODD, Mono::from_secs(second)), Some(Mono::from_secs(second + away)));
            second += away;
        }
    }

    #[test]
    fn an_answer_in_between_and_a_loss_of_another_kind_clear_the_first_blame() {
        type Case<'a> = (&'a str, &'a dyn Fn(&mut Harm), Option<Suspect>);
        let cases: &[Case] = &[
            ("nothing in between", &|_| (), Some(ODD)),
            ("answered in between", &|harm| answered(harm, ODD), None),
            ("lost with nothing under way", &|harm| assert_eq!(lost(harm, None, 1), None), None),
            (
                "lost with one that was answered before",
                &|harm| {
                    answered(harm, GATING);
                    lost(harm, Some(GATING), 1);
                },
                None,
            ),
            (
                "lost with another that never was",
                &|harm| assert_eq!(lost(harm, Some(VOLTAGE), 1), None),
                Some(ODD),
            ),
            (
                "back in step without a loss",
                &|harm| {
                    harm.left(Some(ODD));
                    harm.survived();
                },
                Some(ODD),
            ),
        ];
        for (what, between, want) in cases {
            let mut harm = Harm::default();
            lost(&mut harm, Some(ODD), 0);
            between(&mut harm);
            assert_eq!(lost(&mut harm, Some(ODD), 2), *want, "{what}");
        }
        let mut harm = Harm::default();
        lost(&mut harm, Some(ODD), 0);
        lost(&mut harm, Some(ODD), 1);
        lost(&mut harm, None, 2);
        assert!(harm.avoided(ODD, Mono::from_secs(3)).is_some(), "what is avoided stays so");
    }

    #[test]
    fn what_is_kept_is_bounded() {
        let mut harm = Harm::default();
        for at in 0..1_000 {
            lost(&mut harm, Some(Suspect::Ask(Slot::Other(at))), 0);
        }
        assert_eq!(harm.records.len(), MOST);
    }
}
