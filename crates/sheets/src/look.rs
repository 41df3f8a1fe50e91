//! A look at a sheet that can be read: what is guessed, odd or missing, and what each costs.
//!
//! In: a sheet. Out: [`Looked`]. Not here: what a sheet must be (`events`), what a guess costs (`job::worth`).

use events::{Sheet, Signal};
use job::{U_BESIDE_K, U_DISPLAY_K, U_FLUID_K, Worth};

use crate::questions::QUESTIONS;

/// One thing that is found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The value's key; empty where it is of none.
    pub key: String,
    /// What it is, and what it costs.
    pub says: String,
}

/// What is found.
#[derive(Debug, Clone, PartialEq)]
pub struct Looked {
    /// What can be so and is seldom right.
    pub odd: Vec<Finding>,
    /// What is not there and would be missed.
    pub missing: Vec<Finding>,
    /// What was guessed.
    pub guessed: Vec<Finding>,
    /// What nobody has confirmed: no job begins before.
    pub unconfirmed: Vec<Finding>,
    /// The ± of the level with this sheet, and what the guesses make of it.
    pub worth: Option<Worth>,
}

impl Looked {
    /// The one thing that would help most, in a sentence.
    pub fn most(&self) -> Option<String> {
        let worth = self.worth.as_ref()?;
        let most = worth.most()?;
        let found = QUESTIONS.iter().find(|q| q.key == most.key).map_or("", |q| q.found);
        Some(format!(
            "Most would help: {} ({}). The level is ±{:.0} mL at best, then ±{:.0} mL. {found}",
            label(most.key),
            most.key,
            worth.expanded_ml,
            most.without_ml
        ))
    }
}

/// What a value is called.
pub(crate) fn label(key: &str) -> &str {
    QUESTIONS.iter().find(|q| q.key == key).map_or(key, |q| q.label)
}

/// Looks at a sheet.
pub fn look(sheet: &Sheet) -> Looked {
    let worth = job::worth(sheet);
    let guessed = guessed(sheet, worth.as_ref());
    let unconfirmed = sheet.unconfirmed.iter().map(|key| Finding {
        key: key.clone(),
        says: format!("{}: nobody has confirmed it; no job begins before", label(key)),
    });
    Looked { odd: odd(sheet), missing: missing(sheet), guessed, unconfirmed: unconfirmed.collect(), worth }
}

fn guessed(sheet: &Sheet, worth: Option<&Worth>) -> Vec<Finding> {
    let costs = worth.map_or(&[] as &[_], |worth| worth.guesses.as_slice());
    let mut out: Vec<Finding> = costs
        .iter()
        .filter(|cost| out_of(sheet, cost.key))
        .map(|cost| Finding {
            key: cost.key.to_owned(),
            says: if cost.costs_ml >= 1.0 {
                format!(
                    "{}: taken to be known to {}; costs {:.0} mL of the ±",
                    label(cost.key),
                    cost.known_to,
                    cost.costs_ml
                )
            } else {
                format!("{}: costs nothing here", label(cost.key))
            },
        })
        .collect();
    let named = |key: &str| out_of(sheet, key);
    for question in QUESTIONS.iter().filter(|q| sheet.is_guessed(q.key) && named(q.key)) {
        if !out.iter().any(|finding| finding.key == question.key) {
            out.push(Finding {
                key: question.key.to_owned(),
                says: format!("{}: {}", question.label, no_cost(question.key)),
            });
        }
    }
    out
}

/// Whether the value is one of this kind of vehicle at all.
fn out_of(sheet: &Sheet, key: &str) -> bool {
    let tables = toml::Value::try_from(sheet).ok();
    let at = tables.as_ref().and_then(toml::Value::as_table).and_then(|t| crate::answers::at(t, key));
    at.is_some() || sheet.guessed.iter().any(|named| named == key)
}

/// What a guess costs that is no part of the ±.
fn no_cost(key: &str) -> &'static str {
    match key {
        "fluid.type" => "a fluid that only looks alike ruins it; read the container",
        "level.rim" | "level.fill_from" | "level.sump_opens" | "look.right" | "look.engine" | "look.gate" => {
            "if it is otherwise, the procedure is another one"
        }
        "check.signal" => "chosen by us; any other may do",
        "check.idle_rpm" => "outside it nothing is set",
        "fluid.drain_ml" => "less or more is bought and filled; what runs out puts it right",
        "fluid.margin_ml" => "too little of it, and nothing runs out",
        "before.selector.positions" | "before.selector.dwell_s" | "before.selector.rounds" => {
            "passages that stay empty leave the level low"
        }
        "before.cooler_bypass" => "a closed one hides what the cooler takes",
        "level.drive" => "an engine that starts by itself is a danger to hands",
        _ => "no part of the ±",
    }
}

fn missing(sheet: &Sheet) -> Vec<Finding> {
    let torque = |of: fn(&events::Torque) -> Option<f64>| sheet.torque_nm.as_ref().and_then(of).is_none();
    let pipe = matches!(sheet.level.rim, events::Rim::Pipe | events::Rim::JobPipe);
    let rows = [
        (
            "torque_nm.check_port",
            torque(|t| t.check_port),
            "look it up before the job: the plan cannot say it",
        ),
        ("torque_nm.fill_port", torque(|t| t.fill_port), "look it up before the job: the plan cannot say it"),
        (
            "torque_nm.standpipe",
            pipe && torque(|t| t.standpipe),
            "look it up before the job: too tight, it cracks",
        ),
        (
            "identifier.id",
            sheet.check.signal == Signal::Spot && sheet.identifier.is_none(),
            "a person reads a thermometer at the sump; `standpipe find` looks for it",
        ),
        ("recheck.days", sheet.recheck.days.is_empty(), "no recheck is asked for"),
        (
            "fluid.cooler_ml",
            sheet.before.cooler_bypass && sheet.fluid.cooler_ml.is_none(),
            "the bypass is pinned, so the cooler fills: nobody knows how much",
        ),
    ];
    let missing = rows.into_iter().filter(|(_, missing, _)| *missing);
    missing
        .map(|(key, _, costs)| Finding { key: key.to_owned(), says: format!("{}: {costs}", label(key)) })
        .collect()
}

/// No band of fluid begins above, °C.
/// Source: common practice, no source: most bands lie in 35 to 50 °C; 95 °F typed as °C is far above.
const HOTTEST_LOW_C: f64 = 60.0;
/// Above this the thermostat moves the coolant, °C.
/// Source: from memory: it opens at 82 to 105 °C (fixtures/reference/physics/thermal_parameters.csv).
const THERMOSTAT_C: f64 = 85.0;
/// What a drain brings out, as a share of all.
/// Own choice: public articles say 30 to 60 % (fixtures/reference/physics/trade_facts.csv), and some more either way.
const DRAINS: core::ops::RangeInclusive<f64> = 0.2..=0.8;
/// A margin that a vehicle that was low uses up, mL.
/// Own choice: less than half of the usual half a litre.
const LEAST_MARGIN_ML: f64 = 200.0;

/// What can be so and is seldom right.
fn odd(sheet: &Sheet) -> Vec<Finding> {
    let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
    let [low, high] = check.band_c;
    // What a fluid signal in whole degrees is known to at best, with its age; a thermometer and coolant are worse.
    let u = match check.signal {
        // A lamp is its own band.
        Signal::Lamp => 0.0,
        Signal::Fluid => U_FLUID_K,
        Signal::Display => U_DISPLAY_K,
        Signal::Coolant | Signal::Spot => U_BESIDE_K,
    };
    let headers = sheet.identifier.iter().map(|i| &i.header);
    let reported = sheet.before.selector.iter().filter_map(|s| s.reported.as_ref()).map(|r| &r.header);
    let asked_at = headers.chain(reported).find_map(|header| odd_address(header)).unwrap_or_default();
    let streams =
        sheet.looks().iter().any(|look| matches!(look.right, events::Right::Trickle | events::Right::Drips));
    let runs_out = streams && matches!(sheet.level.rim, events::Rim::Pipe | events::Rim::JobPipe);
    let rows = [
        (
            "check.band_c",
            high - low < 2.0 * check.k * u + 1.0,
            format!(
                "the band is {:.1} °C wide; with k = {} and what the signal is known to ({u} °C) little or nothing of it is left for `go`",
                high - low,
                check.k
            ),
        ),
        (
            "check.band_c",
            low > HOTTEST_LOW_C && check.signal != Signal::Coolant,
            format!("the band begins at {low} °C: are the values in °F? 95 to 113 °F are 35 to 45 °C"),
        ),
        (
            "check.band_c",
            check.signal == Signal::Coolant && high > THERMOSTAT_C,
            "the band reaches into the range of the thermostat, where coolant says little about the fluid"
                .to_owned(),
        ),
        (
            "fluid.drain_ml",
            fluid.drain_ml < DRAINS.start() * fluid.total_ml
                || fluid.drain_ml > DRAINS.end() * fluid.total_ml,
            format!(
                "a drain of {} mL out of {} mL is unusual: 20 to 80 % come out",
                fluid.drain_ml, fluid.total_ml
            ),
        ),
        (
            "fluid.margin_ml",
            fluid.margin_ml < LEAST_MARGIN_ML && runs_out,
            format!(
                "a margin of {} mL is soon used up by a vehicle that was low: nothing runs out then",
                fluid.margin_ml
            ),
        ),
        (
            "standpipe.offset_mm",
            pipe.offset_mm == [0.0, 0.0],
            "the pipe stands in the middle of the surface: then tilt does not matter, which is rare"
                .to_owned(),
        ),
        ("identifier.header", !asked_at.is_empty(), asked_at),
    ];
    let holding = rows.into_iter().filter(|(_, holds, _)| *holds);
    holding.map(|(key, _, says)| Finding { key: key.to_owned(), says }).collect()
}

/// What is odd about the address of a request, if anything is. Source: ISO 15765-4, the identifiers of requests and
/// replies.
fn odd_address(header: &str) -> Option<String> {
    let address = u32::from_str_radix(header, 16).ok()?;
    match (header.len(), address) {
        (3, 0x7E0..=0x7E7) => None,
        (3, 0x7DF) => {
            Some("header 7DF asks every control unit: name the one that knows the value".to_owned())
        }
        (3, 0x7E8..=0x7EF) => Some(format!(
            "header {header}: control units answer with 7E8 to 7EF; the request's address is {:03X}, 8 below",
            address - 8
        )),
        (3, _) => Some(format!(
            "header {header}: outside 7E0 to 7E7 the addresses are the maker's own, and one may belong to a message of the vehicle: \
             use it only as the maker's description has it"
        )),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "test code")]
    use super::*;

    fn template() -> Sheet {
        Sheet::parse(include_str!("../../../fixtures/sheets/template.toml")).unwrap()
    }

    #[test]
    fn an_address_that_is_not_one_of_requests_is_remarked() {
        let cases: &[(&str, Option<&str>)] = &[
            ("7E0", None),
            ("7E1", None),
            ("7E7", None),
            ("7E9", Some("address is 7E1, 8 below")),
            ("7EF", Some("address is 7E7")),
            ("7DF", Some("asks every control unit")),
            ("6F1", Some("maker's own")),
            ("7F0", Some("maker's own")),
            ("18DA18F1", None),
            ("8218F1", None),
        ];
        let mut sheet = template();
        for (header, want) in cases {
            sheet.identifier.as_mut().unwrap().header = (*header).to_owned();
            let all: Vec<String> = look(&sheet).odd.into_iter().map(|f| f.says).collect();
            let all = all.join("\n");
            assert_eq!(all.contains("header"), want.is_some(), "{header}: {all}");
            assert!(want.is_none_or(|want| all.contains(want)), "{header}: {all}");
        }
    }

    #[test]
    fn what_is_guessed_odd_or_missing_is_said_with_its_cost() {
        let mut sheet = template();
        let plain = look(&sheet);
        assert!(
            plain.odd.is_empty()
                && plain.missing.is_empty()
                && plain.guessed.is_empty()
                && plain.unconfirmed.is_empty(),
            "{plain:?}"
        );
        assert!(plain.most().is_none());
        sheet.guessed = vec!["standpipe".to_owned(), "level.rim".to_owned(), "check.idle_rpm".to_owned()];
        sheet.unconfirmed = vec!["check.band_c".to_owned()];
        sheet.torque_nm = None;
        (sheet.check.signal, sheet.identifier) = (Signal::Spot, None);
        let looked = look(&sheet);
        let said = |all: &[Finding], key: &str| {
            all.iter().find(|f| f.key == key).map_or(String::new(), |f| f.says.clone())
        };
        assert!(said(&looked.guessed, "standpipe.offset_mm").contains("mL of the ±"), "{looked:?}");
        assert!(said(&looked.guessed, "level.rim").contains("the procedure is another one"), "{looked:?}");
        assert!(said(&looked.guessed, "check.idle_rpm").contains("nothing is set"), "{looked:?}");
        assert!(said(&looked.missing, "torque_nm.check_port").contains("before the job"), "{looked:?}");
        assert!(said(&looked.missing, "identifier.id").contains("standpipe find"), "{looked:?}");
        assert!(said(&looked.unconfirmed, "check.band_c").contains("no job begins"), "{looked:?}");
        let most = looked.most().unwrap();
        assert!(most.contains("Most would help: place on the surface") && most.contains("±"), "{most}");
    }
}
