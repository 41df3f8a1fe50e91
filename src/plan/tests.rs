//! The plan: its law and signs, its words in two languages and every system of units as reviewed files.
//!
//! `BLESS=1 cargo test --bin standpipe plan` writes the files anew; the difference is read line by line before it is committed.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests")]

use super::*;

fn sheet(ml_per_k: Option<f64>) -> Sheet {
    let mut sheet = Sheet::parse(include_str!("../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    sheet.fluid.ml_per_k = ml_per_k;
    sheet
}

fn plan(sheet: &Sheet, air: f64) -> (Plan, String) {
    let plan = made(sheet, Celsius::clamped(air)).unwrap();
    let text = md::text(&plan, &Teller(Speech::english(UnitSystem::Metric)));
    (plan, text)
}

#[test]
fn a_level_that_falls_as_it_warms_turns_every_sign_of_the_plan() {
    for (per_k, cold, warm) in
        [(None, "too full", "low"), (Some(4.0), "too full", "low"), (Some(-4.0), "low", "too full")]
    {
        let sheet = sheet(per_k);
        let (plan, text) = plan(&sheet, 20.0);
        let way = format!("closed too cold it ends {cold}, too warm {warm}");
        assert!(text.contains(&way), "{per_k:?}: {text}");
        // The rows of the table and the line above it are one law, and the daemon's.
        for row in plan.sensitivity.iter().filter(|row| row.unit == "celsius") {
            assert_eq!(Some(row.millilitres), job::off_by_temperature_ml(&sheet, row.by), "{per_k:?}");
            assert_eq!(row.millilitres > 0.0, (row.by > 0.0) == (warm == "too full"), "{per_k:?}: {row:?}");
        }
        assert_eq!(plan.millilitres_per_kelvin > 0.0, warm == "too full", "{per_k:?}");
        assert_eq!(text.contains("expansion alone"), per_k.is_none(), "{per_k:?}: {text}");
        assert!(text.contains("- Left out: "), "{per_k:?}: {text}");
    }
}

#[test]
fn a_hot_day_is_said_and_the_second_band_offered_where_there_is_one() {
    let plain = sheet(None);
    let mut two = plain.clone();
    (two.check.hot_band_c, two.check.hot_from_air_c) = (Some([40.0, 50.0]), Some(32.0));
    let cases = [
        (&plain, 20.0, None, 35.0),
        (&plain, 27.0, Some(HotDay::NoSecond), 35.0),
        (&plain, 38.0, Some(HotDay::NoSecond), 35.0),
        (&two, 20.0, None, 35.0),
        (&two, 27.0, Some(HotDay::BelowTheSecond), 35.0),
        (&two, 32.0, Some(HotDay::SecondBand), 40.0),
        (&two, 41.0, Some(HotDay::SecondBand), 40.0),
    ];
    for (sheet, air, want, low) in cases {
        let (plan, text) = plan(sheet, air);
        assert_eq!((plan.hot_day, plan.band_celsius[0].to_f64()), (want, low), "{air}");
        assert_eq!(text.contains("- Hot day: "), want.is_some(), "{air}: {text}");
        assert_eq!(text.contains("- In hot places: "), sheet.check.hot_band_c.is_some(), "{air}: {text}");
    }
}

#[test]
fn golden_plans_in_two_languages_and_every_system_of_units() {
    let plan = made(&sheet(None), Celsius::clamped(20.0)).unwrap();
    for lang in [Lang::En, Lang::De] {
        for &units in UnitSystem::ALL {
            let got = md::text(&plan, &Teller(Speech { lang, units }));
            let name = format!("fixtures/golden/plans/{lang}-{}.md", units.word());
            let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(&name);
            if std::env::var_os("BLESS").is_some() {
                std::fs::write(&path, &got).unwrap();
            }
            assert!(std::fs::read_to_string(&path).unwrap() == got, "{name} says something else");
        }
    }
}

/// Every procedure of the trade, in every language: no sentence is lacking, and page and text say the same.
#[test]
fn the_checklist_of_every_procedure_is_said_in_every_language() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/sheets/procedures");
    let mut read = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        let sheet = Sheet::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let plan = made(&sheet, Celsius::clamped(20.0)).unwrap();
        let english = Teller(Speech::english(UnitSystem::Metric));
        for &lang in Lang::ALL {
            let teller = Teller(Speech { lang, units: UnitSystem::Metric });
            let page = html::page(&plan, &teller);
            for card in plan.steps.iter().map(|step| &step.card) {
                let (own, told) = (teller.says(card), english.says(card));
                assert!(lang == Lang::En || own != told, "{lang}, {}: {own}", path.display());
                let escaped = own.replace('&', "&amp;").replace('"', "&quot;");
                assert!(page.contains(&escaped), "{lang}, {}: {own}", path.display());
                read += 1;
            }
        }
    }
    assert!(read > 300, "{read}");
}

#[test]
fn a_look_is_said_in_one_sentence() {
    let teller = Teller(Speech::english(UnitSystem::Metric));
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/sheets/procedures");
    let card = |id: &str| {
        let text = std::fs::read_to_string(folder.join(format!("{id}.toml"))).unwrap();
        let cards = job::procedure(&Sheet::parse(&text).unwrap());
        cards.into_iter().find(|card| card.step == Step::RunOut).unwrap()
    };
    assert_eq!(
        teller.says(&card("after-stop-span")),
        "Look: engine off, 60 to 180 s after the stop, at the right temperature: the fluid stands at the lower edge."
    );
    assert_eq!(
        teller.says(&card("fill-hole-idle")),
        "Look: idling, in N, after 180 s, at the right temperature: it runs out until it only drips."
    );
    let lines = teller.lines(&card("pipe-rim-then-amount")).join("\n");
    let first = "Look 1: engine off: the excess runs out to a thin thread; closed, then 2.00\u{202f}L more.";
    assert!(lines.contains(first), "{lines}");
    let wave = teller.lines(&card("pipe-wave")).join("\n");
    assert!(wave.contains("wave every 30 s"), "{wave}");
}
