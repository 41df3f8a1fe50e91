//! Which control unit a quantity is read from, and whether another one contradicts it.
//!
//! Several units may answer one request that is addressed to all, and not all of them mean the same circuit. Who
//! counts is decided, never who came first:
//!
//! 1. the unit that was asked, where one was asked; the unit that the sheet names (`check.from`), for the temperature
//!    that the check is gated on;
//! 2. the engine's own;
//! 3. where that one was missing [`MISSING`] times in a row: the lowest address of those that answer.
//!
//! A better one that answers later takes over. The others are watched: temperatures more than [`APART`] from each
//! other are told, and where the sheet does not say who is right, the gating one is disputed until they agree again.
//!
//! In: what one answer says of one quantity, by whom. Out: [`Weighed`]. Pure. Not here: what a dispute means for the
//! verdict (`gate`), whose answers are let through at all (`adapter`).

use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

use events::{Quantity, Sheet};
use frames::Ecu;
use units::Mono;

use crate::translate::Value;

/// Who sent it; `None` where the adapter hides its senders, and then only one unit answers.
pub(super) type Unit = Option<Ecu>;

/// Two temperatures of one circuit, read in one answer, differ by less.
/// Own choice: sensors of one kind agree to about 2 °C (from memory: ±1 to ±3 K), and whole degrees are shown.
const APART: f64 = 3.0;
/// They agree again when they are as near as this.
/// Own choice: one shown degree below the limit, so that a step at the limit does not flicker.
const NEAR: f64 = 2.0;
/// So many answers in a row without the engine's own unit, and another one may stand in.
/// Own choice: one is a lost line; each costs half a second, and a reading older than 5 s is none.
const MISSING: u8 = 2;
/// A difference that lasts is told again after so long.
/// Own choice: as any fault, see `bay/faults.rs`.
const TELL_EVERY: Duration = Duration::from_secs(60);

/// What one answer comes to.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Weighed {
    /// Whose value counts; `None`: nobody's.
    pub(super) counts: Option<Unit>,
    /// Whose value counted before, if it was another's: what was seen of it is not seen of this one.
    pub(super) instead_of: Option<Unit>,
    /// It was decided now who counts, and who the others are.
    pub(super) decided: Option<(Unit, Vec<Unit>)>,
    /// Units whose values are too far apart, to be told now.
    pub(super) apart: Option<String>,
    /// One unit gave two answers that differ: none of them counts.
    pub(super) two_faced: Option<Unit>,
}

/// Who is known to answer what.
#[derive(Debug, Default)]
pub(super) struct Sources {
    gating: Option<Quantity>,
    named: Option<Ecu>,
    known: BTreeMap<Quantity, Known>,
}

#[derive(Debug, Default)]
struct Known {
    chosen: Option<Unit>,
    answer: BTreeSet<Unit>,
    missing: u8,
    disputed: bool,
    told: Option<Mono>,
}

impl Sources {
    /// Nothing is known yet of the vehicle that this sheet is for.
    pub(super) fn new(sheet: &Sheet) -> Self {
        let named = sheet.check.from.as_deref().and_then(|unit| unit.parse().ok());
        Self { gating: Some(sheet.check.signal.quantity()), named, known: BTreeMap::new() }
    }

    /// The link is gone: perhaps the adapter comes back in another vehicle.
    pub(super) fn forget(&mut self) {
        self.known.clear();
    }

    /// Whether units contradict each other about the gating signal and nobody has said who is right.
    pub(super) fn disputed(&self) -> bool {
        self.named.is_none()
            && self.gating.and_then(|gating| self.known.get(&gating)).is_some_and(|known| known.disputed)
    }

    /// Takes in what one answer says of one quantity; `asked`: the one unit that was asked, where it was not all of them.
    pub(super) fn hear(
        &mut self,
        quantity: Quantity,
        asked: Option<Ecu>,
        said: &[Value],
        now: Mono,
    ) -> Weighed {
        let named = asked.or(self.named.filter(|_| self.gating == Some(quantity))).map(Some);
        let known = self.known.entry(quantity).or_default();
        let new = said.iter().filter(|value| known.answer.insert(value.from)).count() > 0;
        let chosen = named.or_else(|| known.best(said));
        let mut heard = Weighed::default();
        if let Some(counts) = chosen.filter(|_| known.chosen != chosen || new) {
            heard.instead_of = known.chosen.filter(|before| *before != counts);
            known.chosen = chosen;
            let others = known.answer.iter().copied().filter(|unit| *unit != counts).collect();
            heard.decided = asked.is_none().then_some((counts, others));
        }
        heard.two_faced = two_faced(said);
        let answers = |unit: &Unit| said.iter().any(|value| value.from == *unit);
        heard.counts = chosen.filter(|unit| answers(unit) && heard.two_faced != Some(*unit));
        heard.apart = known.watch(said, now);
        heard
    }
}

impl Known {
    /// Who counts; as before where nobody better has answered.
    fn best(&mut self, said: &[Value]) -> Option<Unit> {
        let is_engine = |unit: &Unit| unit.is_none_or(Ecu::is_engine);
        if let Some(engine) = self.answer.iter().copied().find(is_engine) {
            return Some(engine);
        }
        self.missing = self.missing.saturating_add(u8::from(!said.is_empty()));
        let stands_in = || self.answer.first().copied().filter(|_| self.missing >= MISSING);
        self.chosen.or_else(stands_in)
    }

    /// Compares the temperatures of one answer; what is to be told of them.
    fn watch(&mut self, said: &[Value], now: Mono) -> Option<String> {
        let temperatures = || said.iter().filter_map(|value| value.measure.celsius().map(|t| t.to_f64()));
        let low = temperatures().fold(f64::INFINITY, f64::min);
        let high = temperatures().fold(f64::NEG_INFINITY, f64::max);
        if high - low <= APART {
            // One alone proves nothing.
            if said.len() > 1 && high - low <= NEAR {
                (self.disputed, self.told) = (false, None);
            }
            return None;
        }
        self.disputed = true;
        if self.told.is_some_and(|at| now < at.after(TELL_EVERY)) {
            return None;
        }
        self.told = Some(now);
        let each = said.iter().map(|value| format!("{} {:.0} °C", name(value.from), value.measure.plain().0));
        Some(each.collect::<Vec<_>>().join(", "))
    }
}

/// A unit as people write it.
pub(super) fn name(unit: Unit) -> String {
    unit.map_or_else(|| "unnamed".to_owned(), |ecu| ecu.to_string())
}

/// The unit that gave two answers at once which are not the same.
fn two_faced(said: &[Value]) -> Option<Unit> {
    let differs = |(at, one): (usize, &Value)| {
        let mut later = said.iter().skip(at + 1);
        later.any(|other| other.from == one.from && other.measure != one.measure).then_some(one.from)
    };
    said.iter().enumerate().find_map(differs)
}

#[cfg(test)]
mod tests {
    use events::Measure;
    use units::Celsius;

    use super::*;

    const COOLANT: Quantity = Quantity::CoolantTemperature;

    fn sheet(from: Option<&str>) -> Sheet {
        let text = include_str!("../../../../fixtures/sheets/demo-coolant-only.toml");
        let mut sheet = Sheet::parse(text).unwrap();
        sheet.check.from = from.map(str::to_owned);
        sheet
    }

    /// `7E8 98, 7E9 38` as an answer; `- 38` where the sender is hidden.
    fn said(text: &str) -> Vec<Value> {
        let one = |part: &str| {
            let (unit, t) = part.trim().split_once(' ').unwrap();
            let measure = Measure::Coolant(Celsius::from_f64(t.parse().unwrap()).unwrap());
            Value { from: unit.parse().ok(), measure, step: None }
        };
        text.split(',').filter(|part| !part.trim().is_empty()).map(one).collect()
    }

    /// Plays answers, half a second apart: whose value counts each time, and whether there is a dispute at the end.
    fn played(named: Option<&str>, answers: &[&str]) -> (String, bool) {
        let mut sources = Sources::new(&sheet(named));
        let counts = answers.iter().enumerate().map(|(at, text)| {
            let now = Mono::from_millis(500 * at as u64);
            let counts = sources.hear(COOLANT, None, &said(text), now).counts;
            counts.map_or_else(|| "nobody".to_owned(), name)
        });
        (counts.collect::<Vec<_>>().join(" "), sources.disputed())
    }

    #[test]
    fn who_counts_is_decided_and_not_who_came_first() {
        type Case<'a> = (&'a str, Option<&'a str>, &'a [&'a str], &'a str, bool);
        let cases: &[Case] = &[
            // what                              named        answers                                counts               disputed
            ("the engine's own, alone", None, &["7E8 90", "7E8 91"], "7E8 7E8", false),
            (
                "the engine's own behind another",
                None,
                &["7E9 38, 7E8 39", "7E9 38, 7E8 39"],
                "7E8 7E8",
                false,
            ),
            ("… also on 29 bits", None, &["18DAF118 38, 18DAF110 39"], "18DAF110", false),
            ("… also on the older buses", None, &["18 38, 10 39"], "10", false),
            ("another waits for the engine's own", None, &["7E9 38", "7E8 39, 7E9 38"], "nobody 7E8", false),
            ("… and stands in where that is missing", None, &["7E9 38", "7E9 38"], "nobody 7E9", false),
            ("the lowest address of those", None, &["7EB 38, 7EA 38", "7EA 38, 7EB 38"], "nobody 7EA", false),
            ("… and stays", None, &["7EB 38", "7EB 38", "7EA 38, 7EB 38"], "nobody 7EB 7EB", false),
            (
                "the engine's own takes over",
                None,
                &["7E9 38", "7E9 38", "7E9 38, 7E8 39"],
                "nobody 7E9 7E8",
                false,
            ),
            ("a missing answer is nobody's", None, &["7E8 90, 7E9 90", "7E9 90"], "7E8 nobody", false),
            ("the named one", Some("7E9"), &["7E8 90, 7E9 91"], "7E9", false),
            (
                "… and nobody else",
                Some("7E9"),
                &["7E8 90", "7E8 90", "7E8 90"],
                "nobody nobody nobody",
                false,
            ),
            ("… who is right by the sheet", Some("7E9"), &["7E8 98, 7E9 38"], "7E9", false),
            ("a hidden sender", None, &["- 38", "- 38"], "unnamed unnamed", false),
            ("4 °C apart", None, &["7E8 42, 7E9 38"], "7E8", true),
            ("3 °C apart", None, &["7E8 41, 7E9 38"], "7E8", false),
            ("… in a dispute: not near enough", None, &["7E8 42, 7E9 38", "7E8 41, 7E9 38"], "7E8 7E8", true),
            ("they agree again", None, &["7E8 42, 7E9 38", "7E8 40, 7E9 38"], "7E8 7E8", false),
            (
                "the other has fallen silent",
                None,
                &["7E8 42, 7E9 38", "7E8 40", "7E8 40"],
                "7E8 7E8 7E8",
                true,
            ),
            ("others than the one that counts", None, &["7E8 40, 7E9 40, 7EA 80"], "7E8", true),
            ("one with two answers", None, &["7E8 40, 7E8 41"], "nobody", false),
            ("one that said it twice", None, &["7E8 40, 7E8 40"], "7E8", false),
            ("one with two answers far apart", None, &["7E8 40, 7E8 90"], "nobody", true),
        ];
        for (what, named, answers, counts, disputed) in cases {
            assert_eq!(played(*named, answers), ((*counts).to_owned(), *disputed), "{what}");
        }
    }

    #[test]
    fn a_choice_is_told_when_it_is_made_or_when_somebody_new_answers() {
        let mut sources = Sources::new(&sheet(None));
        let mut decided = |text| {
            sources.hear(COOLANT, None, &said(text), Mono::ZERO).decided.map(|(_, others)| others.len())
        };
        assert_eq!(decided("7E8 40"), Some(0));
        assert_eq!(decided("7E8 40"), None);
        assert_eq!(decided("7E8 40, 7E9 40"), Some(1), "another one");
        assert_eq!(decided("7E8 40, 7E9 40"), None);
    }

    #[test]
    fn a_change_of_the_source_says_whose_it_was() {
        let mut sources = Sources::new(&sheet(None));
        let mut instead = |text| sources.hear(COOLANT, None, &said(text), Mono::ZERO).instead_of.map(name);
        assert_eq!(instead("7E9 40"), None);
        assert_eq!(instead("7E9 40"), None, "the first source is no change");
        assert_eq!(instead("7E9 40, 7E8 40"), Some("7E9".to_owned()));
        assert_eq!(instead("7E9 40, 7E8 40"), None);
    }

    #[test]
    fn a_difference_is_told_once_a_minute_with_who_and_what() {
        let mut sources = Sources::new(&sheet(None));
        let mut told =
            |seconds| sources.hear(COOLANT, None, &said("7E9 38, 7E8 98"), Mono::from_secs(seconds)).apart;
        assert_eq!(told(0).as_deref(), Some("7E9 38 °C, 7E8 98 °C"));
        assert_eq!(told(59), None);
        assert!(told(60).is_some());
    }

    #[test]
    fn the_one_that_was_asked_counts_at_once() {
        let mut sources = Sources::new(&sheet(None));
        let asked = "7E9".parse().ok();
        let mut heard = |text| sources.hear(Quantity::FluidTemperature, asked, &said(text), Mono::ZERO);
        assert_eq!(heard("7E9 38").counts.map(name), Some("7E9".to_owned()));
        assert_eq!(heard("7E8 38").counts, None, "and nobody else");
        assert_eq!(heard("7E9 38, 7E9 39").two_faced.map(name), Some("7E9".to_owned()));
    }

    #[test]
    fn a_dispute_about_another_quantity_is_none_about_the_signal() {
        let mut sources = Sources::new(&sheet(None));
        sources.hear(Quantity::IntakeAirTemperature, None, &said("7E8 20, 7E9 60"), Mono::ZERO);
        assert!(!sources.disputed());
        sources.hear(COOLANT, None, &said("7E8 20, 7E9 60"), Mono::ZERO);
        assert!(sources.disputed());
        sources.forget();
        assert!(!sources.disputed(), "perhaps another vehicle");
    }
}
