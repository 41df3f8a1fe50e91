//! The fault codes that the vehicle stores, by what each control unit said last.
//!
//! A unit's newest answer to a request replaces its answer before, so a code that was repaired is gone. Nothing is taken
//! away where it is not sure that all was heard:
//!
//! - a unit that does not answer has said nothing new;
//! - a message that cannot be read, or an answer that may go on after its last message, takes nothing away, nor does any
//!   answer while it is not sure which vehicle the adapter came back in;
//! - beyond [`MOST`] codes nothing is taken away any more until the next job.
//!
//! In: all messages of one answer. Out: [`CodesHeard`], and every code that is stored ([`Codes::all`]). Pure. Not here: which codes
//! matter (`gate`), their spelling (`frames`).

use std::collections::{BTreeMap, BTreeSet};

use events::{Body, Event, Fault, LinkChange};
use frames::Ask;

use super::sources::Unit;

/// So many codes are kept, of all units and requests together.
/// Own choice: a vehicle with more than a few dozen stored codes is not checked for its fluid level; the limit is for
/// what a broken line makes up.
pub(super) const MOST: usize = 512;

/// What one answer comes to.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct CodesHeard {
    /// Codes that their unit did not store before, to be told; none that are not kept.
    pub(super) new: Vec<(String, Unit)>,
    /// Some code is stored no more: the gate is to be told all codes anew.
    pub(super) gone: bool,
}

/// What is stored, by request and unit.
#[derive(Debug, Default)]
pub(super) struct Codes {
    stored: BTreeMap<(Ask, Unit), BTreeSet<String>>,
    /// More came than are kept.
    too_many: bool,
    /// The link was lost since the vehicle's number was read: this may be another vehicle.
    unsure: bool,
}

impl Codes {
    /// Whether `ask` is answered with codes that are kept here.
    pub(super) const fn are_asked_by(ask: Ask) -> bool {
        matches!(ask, Ask::StoredCodes | Ask::PendingCodes)
    }

    /// One answer, unit by unit, message by message. `whole`: nothing of it is missing or unreadable.
    pub(super) fn hear(&mut self, ask: Ask, answer: &[(Unit, Vec<String>)], whole: bool) -> CodesHeard {
        let mut by_unit: BTreeMap<Unit, BTreeSet<String>> = BTreeMap::new();
        for (unit, codes) in answer {
            by_unit.entry(*unit).or_default().extend(codes.iter().cloned());
        }
        let mut heard = CodesHeard::default();
        for (unit, codes) in by_unit {
            let before: BTreeSet<String> = self.of(unit).cloned().collect();
            if whole && !self.unsure && !self.too_many {
                let last = self.stored.remove(&(ask, unit)).unwrap_or_default();
                heard.gone |= !last.is_subset(&codes);
            }
            for code in codes {
                if self.keep(ask, unit, &code) && !before.contains(&code) {
                    heard.new.push((code, unit));
                }
            }
        }
        heard
    }

    /// What an earlier daemon wrote of the job that goes on. Which request a code came by is not written: it stays until its unit
    /// answers both without it. Where the vehicle had a number, it is read first.
    pub(super) fn restore(&mut self, facts: &[Event]) {
        for event in facts {
            match &event.body {
                Body::Fault { fault: Fault::CodeStored, detail: Some(code), from } => {
                    let unit = from.as_deref().and_then(|from| from.parse().ok());
                    let said = [(unit, vec![code.clone()])];
                    for ask in [Ask::StoredCodes, Ask::PendingCodes] {
                        self.hear(ask, &said, false);
                    }
                }
                Body::Link(LinkChange::Vehicle { .. }) => self.lost(true),
                _ => {}
            }
        }
    }

    /// Whether there is room for it.
    fn keep(&mut self, ask: Ask, unit: Unit, code: &str) -> bool {
        let room = self.stored.values().map(BTreeSet::len).sum::<usize>() < MOST;
        let kept = self.stored.entry((ask, unit)).or_default();
        let there = kept.contains(code) || (room && kept.insert(code.to_owned()));
        self.too_many |= !there;
        there
    }

    /// What `unit` stores, by all requests.
    fn of(&self, unit: Unit) -> impl Iterator<Item = &String> {
        self.stored.iter().filter(move |((_, from), _)| *from == unit).flat_map(|(_, codes)| codes)
    }

    /// Every code that any unit stores.
    pub(super) fn all(&self) -> impl Iterator<Item = &str> {
        self.stored.values().flatten().map(String::as_str)
    }

    /// The link is lost; `known`: the vehicle had told its number. Until it is told again nothing is taken away.
    pub(super) const fn lost(&mut self, known: bool) {
        self.unsure |= known;
    }

    /// The vehicle's number was read.
    pub(super) const fn vehicle_known(&mut self) {
        self.unsure = false;
    }

    /// A job begins: what an earlier vehicle stored is not held against this one.
    pub(super) fn forget(&mut self) {
        self.stored.clear();
        self.too_many = false;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unit(name: &str) -> Unit {
        name.parse().ok()
    }

    fn answer(said: &[(&str, &[&str])]) -> Vec<(Unit, Vec<String>)> {
        said.iter()
            .map(|(from, codes)| (unit(from), codes.iter().map(|c| (*c).to_owned()).collect()))
            .collect()
    }

    fn all(codes: &Codes) -> Vec<&str> {
        codes.all().collect::<BTreeSet<_>>().into_iter().collect()
    }

    #[test]
    fn the_messages_of_one_answer_are_taken_together() {
        let mut codes = Codes::default();
        let two = answer(&[("10", &["P0711", "P0100", "P0101"]), ("10", &["P0102"])]);
        let heard = codes.hear(Ask::StoredCodes, &two, true);
        assert_eq!((heard.new.len(), heard.gone), (4, false));
        assert_eq!(all(&codes), ["P0100", "P0101", "P0102", "P0711"]);
        let heard = codes.hear(Ask::StoredCodes, &answer(&[("10", &["P0102"])]), true);
        assert_eq!(heard, CodesHeard { new: vec![], gone: true });
        assert_eq!(all(&codes), ["P0102"]);
    }

    #[test]
    fn each_request_and_each_unit_answers_for_itself() {
        let mut codes = Codes::default();
        codes.hear(Ask::StoredCodes, &answer(&[("7E8", &["P0711"]), ("7E9", &["P0711"])]), true);
        let again = codes.hear(Ask::PendingCodes, &answer(&[("7E9", &["P0711"])]), true);
        assert!(again.new.is_empty(), "told once");
        assert!(codes.hear(Ask::StoredCodes, &answer(&[("7E8", &[])]), true).gone);
        assert_eq!(all(&codes), ["P0711"], "the other unit's");
        codes.hear(Ask::StoredCodes, &answer(&[("7E9", &[])]), true);
        assert_eq!(all(&codes), ["P0711"], "still pending");
        codes.hear(Ask::PendingCodes, &answer(&[("7E9", &[])]), true);
        assert!(all(&codes).is_empty());
        let back = codes.hear(Ask::StoredCodes, &answer(&[("7E9", &["P0711"])]), true);
        assert_eq!(back.new, [("P0711".to_owned(), unit("7E9"))], "told again");
    }

    #[test]
    fn what_is_not_whole_or_perhaps_of_another_vehicle_takes_nothing_away() {
        let mut codes = Codes::default();
        codes.hear(Ask::StoredCodes, &answer(&[("7E8", &["P0711"])]), true);
        let none = || answer(&[("7E8", &[])]);
        assert!(!codes.hear(Ask::StoredCodes, &none(), false).gone);
        codes.lost(true);
        codes.lost(false);
        assert!(!codes.hear(Ask::StoredCodes, &none(), true).gone);
        assert_eq!(all(&codes), ["P0711"]);
        codes.vehicle_known();
        assert!(codes.hear(Ask::StoredCodes, &none(), true).gone);
    }

    #[test]
    fn beyond_the_most_nothing_more_is_kept_and_nothing_taken_away() {
        let mut codes = Codes::default();
        codes.hear(Ask::StoredCodes, &answer(&[("7E8", &["P0711"])]), true);
        let many: Vec<String> = (0..2 * MOST).map(|n| format!("P{n:04X}")).collect();
        codes.hear(Ask::StoredCodes, &[(unit("7E9"), many)], true);
        assert_eq!(codes.all().count(), MOST);
        assert!(!codes.hear(Ask::StoredCodes, &answer(&[("7E8", &[])]), true).gone);
        codes.forget();
        assert_eq!(codes.all().count(), 0);
    }
}
