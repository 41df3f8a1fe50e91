//! The questions: a beginner with a manual and nothing else, every word at every question, no dead end, nothing lost.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use events::Sheet;
use proptest::prelude::*;
use sheets::{AnswerOutcome, Interview, Kind, Part, QUESTIONS};

const TODAY: &str = "2026-03-02";

/// What a manual of an invented vehicle says, by what is asked. He has no identifier, and measures nothing.
const MANUAL: &[(&str, &str)] = &[
    ("fluid.type", "as the vehicle's maker specifies"),
    ("check.band_c", "95-113 F (maker, page 12)"),
    ("fluid.drain_ml", "nothing"),
    ("check.signal", "?"),
    ("level.rim", "?"),
    ("level.fill_from", "1"),
    ("level.sump_opens", "pipe"),
    ("look.right", "1"),
    ("fluid.total_ml", "6.9 qt (maker)"),
];

#[test]
fn a_beginner_with_a_manual_and_nothing_else_has_a_checked_sheet_after_twelve_questions_at_the_most() {
    let manual: BTreeMap<&str, &str> = MANUAL.iter().copied().collect();
    let mut interview = Interview::new("old six-speed");
    let (mut journal, mut questions, mut asked_before) = (String::new(), 0, "");
    while let Some(asked) = interview.asks() {
        if asked.key != asked_before {
            questions += 1;
            writeln!(journal, "{questions}. {}", asked.asks).unwrap();
            let choices = (1..).zip(&asked.choices);
            choices.for_each(|(n, [word, says])| writeln!(journal, "   {n}: {word}: {says}").unwrap());
        }
        // What he does not find he asks about once, and then does not know it.
        let said = match manual.get(asked.key) {
            Some(&"?") if asked.key == asked_before => "I don't know",
            Some(said) => said,
            None if asked.key == "write" => "",
            None => "I don't know",
        };
        asked_before = asked.key;
        let heard = interview.hear(said, TODAY);
        let says = match &heard {
            AnswerOutcome::Taken { says } => says.clone(),
            AnswerOutcome::Help { says } => says.clone(),
            AnswerOutcome::Written => "written".to_owned(),
            other => panic!("{}: {said}: {other:?}", asked.key),
        };
        writeln!(journal, "   > {said}\n     {}", says.replace('\n', "\n     ")).unwrap();
    }
    let (text, sheet) = interview.sheet().unwrap();
    writeln!(journal, "\n{text}").unwrap();
    assert!(questions <= 12, "{questions} questions:\n{journal}");
    assert!(sheet.unconfirmed.is_empty(), "a job can begin with it: {:?}", sheet.unconfirmed);
    assert!(sheets::look(&sheet).odd.is_empty(), "{:?}", sheets::look(&sheet).odd);
    golden("sheet-new-beginner.txt", &journal);
}

/// The journal of what was asked, reviewed when it changes (`BLESS=1`).
fn golden(name: &str, got: &str) {
    let path = format!("{}/../../fixtures/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, got).unwrap();
    }
    let want = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(got == want, "{name} differs:\n{got}");
}

/// Answers that lead to every question: which signal, which rim, the engine at the look, a gate or none, one temperature.
fn routes() -> Vec<Vec<(&'static str, &'static str)>> {
    let mut out = Vec::new();
    for signal in ["spot", "display", "lamp", "coolant", "fluid"] {
        for rim in ["pipe", "job-pipe", "side-hole", "fill-hole", "gauge", "none"] {
            for engine in ["idle", "off", "ready-off"] {
                if signal != "spot"
                    && (rim, engine) != ("pipe", "idle")
                    && (rim, engine) != ("fill-hole", "off")
                {
                    continue;
                }
                let mut route = vec![("check.signal", signal), ("level.rim", rim), ("look.engine", engine)];
                route.extend([("look.right", if engine == "idle" { "drips" } else { "below-edge-mm" })]);
                route.extend([("look.gate", if signal == "spot" { "none" } else { "band" })]);
                route.extend([("check.band_c", if signal == "coolant" { "70 °C" } else { "35-45 °C" })]);
                route.extend([("check.hot_band_c", "45-55 C"), ("write", "go on")]);
                out.push(route);
            }
        }
    }
    out
}

/// An answer that goes with the question, whatever it is.
fn good(asked: &sheets::Asked, route: &[(&str, &str)]) -> String {
    if let Some((_, said)) = route.iter().find(|(key, _)| *key == asked.key) {
        let fits = asked.choices.is_empty() || asked.choices.iter().any(|[word, _]| word == said);
        if fits {
            return (*said).to_owned();
        }
    }
    if !asked.choices.is_empty() {
        return "1".to_owned();
    }
    match asked.key {
        "identifier.header" => "7E1".to_owned(),
        "identifier.service" => "0x22".to_owned(),
        "identifier.id" => "0x4D07".to_owned(),
        "identifier.byte" => "0".to_owned(),
        "identifier.length" => "1".to_owned(),
        "look.chart" => "20 26-36; 110 58-68".to_owned(),
        "look.ml_per_mm" => "20 ml".to_owned(),
        "look.position" => "P".to_owned(),
        "check.start_below_c" => "30 °C".to_owned(),
        "check.single_u_c" => "2".to_owned(),
        "fluid.drain_ml" => "1/2 gal".to_owned(),
        "fluid.total_ml" => "6,5 L".to_owned(),
        key if key.starts_with("check.lamp") => format!("words of {key}"),
        "fluid.margin_ml" | "fluid.cooler_ml" | "fluid.filter_ml" | "fluid.container_ml" => {
            "1 pint".to_owned()
        }
        "fluid.density_15" => "850".to_owned(),
        "fluid.mm2_s_40" => "30".to_owned(),
        "fluid.mm2_s_100" => "6".to_owned(),
        "standpipe.rim_mm" => "1.5 mm".to_owned(),
        "before.selector.dwell_s" => "3 s".to_owned(),
        "before.selector.rounds" | "fluid.exchanges" => "2".to_owned(),
        "identifier.scale" => "1".to_owned(),
        "identifier.offset" => "-40".to_owned(),
        _ => asked.like.split(", ").next().unwrap().to_owned(),
    }
}

#[test]
fn every_question_takes_every_word_and_leads_on() {
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    let mut tried = BTreeSet::new();
    for route in routes() {
        let mut interview = Interview::new("every route");
        let (mut steps, mut turned) = (0, false);
        while let Some(asked) = interview.asks() {
            // What few vehicles have is asked where somebody turns to it.
            if asked.key == "standpipe.bore_mm" && !turned {
                turned = true;
                for rare in QUESTIONS.iter().filter(|q| q.part == Part::Rare) {
                    interview.turn_to(rare.key).ok();
                }
                continue;
            }
            *met.entry(asked.key).or_default() += 1;
            steps += 1;
            assert!(steps < 200, "{}: no end", asked.key);
            let what = format!("{route:?}, {}", asked.key);
            let said = good(&asked, &route);
            // What is asked in the same words has been tried with every word.
            if !tried.insert((asked.key, asked.choices.clone())) {
                let heard = interview.hear(&said, TODAY);
                assert!(matches!(heard, AnswerOutcome::Taken { .. }), "{what}: {said}: {heard:?}");
                continue;
            }
            let before = interview.clone();
            // Help changes nothing.
            assert!(matches!(interview.hear("?", TODAY), AnswerOutcome::Help { .. }), "{what}");
            assert_eq!((interview.draft(), interview.asks()), (before.draft(), before.asks()), "{what}");
            // Nonsense is refused with a reason, as often as it comes, and loses nothing.
            for _ in 0..5 {
                let nonsense =
                    if asked.like == "words" || asked.key.contains("tools") || asked.key == "access" {
                        "a\u{1b}"
                    } else {
                        "???"
                    };
                match interview.hear(nonsense, TODAY) {
                    AnswerOutcome::Again { why } => assert!(!why.is_empty(), "{what}"),
                    // Positions and the like take any word that can be shown.
                    AnswerOutcome::Taken { .. } => interview = before.clone(),
                    other => panic!("{what}: {other:?}"),
                }
            }
            assert_eq!((interview.draft(), interview.asks()), (before.draft(), before.asks()), "{what}");
            // Skipped, not known, or an empty line: it goes on, and is a whole sheet.
            for word in ["skip", "I don’t know.", ""] {
                let mut other = before.clone();
                assert!(
                    matches!(other.hear(word, TODAY), AnswerOutcome::Taken { .. } | AnswerOutcome::Written),
                    "{what}: {word:?}"
                );
                assert_ne!(other.asks().map(|a| a.key), Some(asked.key), "{what}: {word:?} leads on");
                let (_, sheet) = other.sheet().unwrap_or_else(|e| panic!("{what}: {word:?}: {e}"));
                // And to the end, knowing nothing more.
                while other.asks().is_some() {
                    assert!(
                        matches!(
                            other.hear("I don't know", TODAY),
                            AnswerOutcome::Taken { .. } | AnswerOutcome::Written
                        ),
                        "{what}"
                    );
                }
                assert!(other.sheet().is_ok(), "{what}: {sheet:?}");
            }
            // A good answer, back, and the same again by an empty line.
            match interview.hear(&said, TODAY) {
                AnswerOutcome::Taken { .. } => {}
                other => panic!("{what}: {said}: {other:?}"),
            }
            interview.sheet().unwrap_or_else(|e| panic!("{what}: {said}: {e}"));
            let after = interview.clone();
            assert!(
                matches!(interview.hear("back", TODAY), AnswerOutcome::Taken { .. })
                    || interview.asks().is_none(),
                "{what}"
            );
            if interview.asks().is_some() && asked.key != "write" {
                assert_eq!(interview.asks().map(|a| a.key), Some(asked.key), "{what}: back leads to it");
                assert!(matches!(interview.hear("", TODAY), AnswerOutcome::Taken { .. }), "{what}");
                assert_eq!(interview.draft().said, after.draft().said, "{what}: the same answer again");
            }
            interview = after;
            // What is kept is all of it.
            let json = serde_json::to_string(interview.draft()).unwrap();
            let again = Interview::resume(serde_json::from_str(&json).unwrap());
            assert_eq!((again.draft(), again.asks()), (interview.draft(), interview.asks()), "{what}");
            assert_eq!(again.sheet().unwrap().0, interview.sheet().unwrap().0, "{what}");
        }
        interview.sheet().unwrap_or_else(|e| panic!("{route:?}: {e}"));
    }
    let never: Vec<&str> = QUESTIONS.iter().map(|q| q.key).filter(|key| !met.contains_key(key)).collect();
    assert_eq!(never, [] as [&str; 0], "a question that no route leads to");
}

#[test]
fn three_answers_make_a_sheet_and_whoever_knows_none_of_them_is_not_left_alone() {
    let mut interview = Interview::new("three");
    for said in ["as the vehicle's maker specifies", "35-45 C", "2.4 L"] {
        assert!(matches!(interview.hear("done", TODAY), AnswerOutcome::Again { .. }));
        assert!(matches!(interview.hear(said, TODAY), AnswerOutcome::Taken { .. }));
    }
    assert_eq!(interview.hear("done", TODAY), AnswerOutcome::Written);
    let (text, sheet) = interview.sheet().unwrap();
    assert!(sheet.unconfirmed.is_empty(), "{text}");
    for key in [
        "fluid.total_ml",
        "standpipe.surface_m2",
        "standpipe.offset_mm",
        "check.idle_rpm",
        "level.rim",
        "check.signal",
    ] {
        assert!(sheet.is_guessed(key), "{key}: {text}");
    }
    for key in ["fluid.type", "check.band_c", "fluid.drain_ml", "name"] {
        assert!(!sheet.is_guessed(key), "{key}: {text}");
    }
    // What is left out is no guess, and costs nothing.
    for key in ["stand.pitch_deg", "stand.roll_deg", "look.mm"] {
        assert!(!sheet.is_guessed(key), "{key}: {text}");
    }
    // Nobody knows the band: a sheet all the same, and no job before it is known.
    let mut interview = Interview::new("none");
    for _ in 0..3 {
        assert!(matches!(interview.hear("I don't know", TODAY), AnswerOutcome::Taken { .. }));
    }
    assert_eq!(interview.hear("done", TODAY), AnswerOutcome::Written);
    let (_, sheet) = interview.sheet().unwrap();
    assert_eq!(sheet.unconfirmed, ["check.band_c"]);
    // Given later, it is confirmed.
    let mut later = Interview::correct(&interview.sheet().unwrap().0).unwrap().by(Some("K".to_owned()));
    assert!(later.asks().is_none(), "who corrects says which value");
    later.turn_to("check.band_c").unwrap();
    assert!(matches!(later.hear("95-110 F (maker, page 3)", TODAY), AnswerOutcome::Taken { .. }));
    let (_, sheet) = later.sheet().unwrap();
    assert_eq!((sheet.unconfirmed.len(), sheet.check.band_c), (0, [35.0, 43.33]));
    let from = &sheet.provenance["check.band_c"];
    assert_eq!(
        (from.how, from.by.as_deref(), from.note.as_deref()),
        (events::Source::MakersText, Some("K"), Some("page 3"))
    );
}

#[test]
fn an_identifier_that_nobody_knows_is_never_guessed() {
    for key in ["identifier.id", "identifier.header", "identifier.scale"] {
        let mut interview = Interview::new("no identifier");
        while let Some(asked) = interview.asks().filter(|asked| asked.key != key) {
            let said = if asked.key == "check.signal" { "fluid".to_owned() } else { good(&asked, &[]) };
            assert!(matches!(interview.hear(&said, TODAY), AnswerOutcome::Taken { .. }));
        }
        let AnswerOutcome::Taken { says } = interview.hear("I don't know", TODAY) else { panic!("{key}") };
        assert!(says.contains("standpipe find"), "{says}");
        assert_eq!(interview.asks().unwrap().key, "level.rim", "{key}: goes on by thermometer");
        let (_, sheet) = interview.sheet().unwrap();
        assert_eq!((sheet.check.signal, sheet.identifier), (events::Signal::Spot, None), "{key}");
    }
}

#[test]
fn an_answer_that_does_not_go_with_another_is_refused_and_shows_the_way() {
    let mut interview = Interview::new("clash");
    for said in ["as specified", "35-45 C", "4 L"] {
        interview.hear(said, TODAY);
    }
    interview.turn_to("fluid.total_ml").unwrap();
    let AnswerOutcome::Again { why } = interview.hear("2 L", TODAY) else { panic!() };
    assert!(why.contains("must be less than all of it") && why.contains("go fluid.drain_ml"), "{why}");
    assert!(matches!(interview.hear("go fluid.drain_ml", TODAY), AnswerOutcome::Taken { .. }));
    assert!(matches!(interview.hear("1 L", TODAY), AnswerOutcome::Taken { .. }));
    assert!(matches!(interview.hear("go fluid.total_ml", TODAY), AnswerOutcome::Taken { .. }));
    assert!(matches!(interview.hear("2 L", TODAY), AnswerOutcome::Taken { .. }));
    assert!(matches!(interview.hear("go nowhere", TODAY), AnswerOutcome::Again { .. }));
}

#[test]
fn every_sheet_that_there_is_can_be_corrected_and_keeps_what_it_says() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/sheets");
    let mut seen = 0;
    for folder in [root.to_owned(), format!("{root}/procedures")] {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_none_or(|e| e != "toml") {
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap();
            let was = Sheet::parse(&text).unwrap();
            let (again, sheet) = Interview::correct(&text)
                .unwrap()
                .sheet()
                .unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            assert_eq!(sheet, was, "{}:\n{again}", path.display());
            // One value is another one, and nothing else is.
            let mut interview = Interview::correct(&text).unwrap();
            interview.turn_to("fluid.container_ml").unwrap();
            assert!(
                matches!(interview.hear("5 L (measured)", TODAY), AnswerOutcome::Taken { .. }),
                "{}",
                path.display()
            );
            let (_, sheet) = interview.sheet().unwrap();
            let changed: Vec<String> = sheets::compare(&was, &sheet).into_iter().map(|d| d.key).collect();
            assert_eq!(changed, ["fluid.container_ml"], "{}", path.display());
            assert_eq!(sheet.source("fluid.container_ml"), Some(events::Source::Measured));
            let page = sheets::page(&text, "abc", units::text::UnitSystem::Metric).unwrap();
            assert!(page.contains(&was.name) && page.contains("at best with this sheet"), "{page}");
            seen += 1;
        }
    }
    assert!(seen > 25, "{seen}");
}

#[test]
fn questions_are_short_and_their_keys_are_those_of_a_sheet() {
    for question in QUESTIONS {
        for text in [question.asks, question.means, question.found] {
            for sentence in text.split_inclusive(['.', '?', ';', ':']) {
                let words = sentence.split_whitespace().count();
                assert!(words <= 14, "{}: {words} words: {sentence}", question.key);
            }
        }
        if !matches!(question.kind, Kind::Write) {
            // The looks before the last one are rows of the same table.
            let key = if question.part == Part::Rare { "look" } else { question.key };
            let text = include_str!("../../../fixtures/sheets/template.toml").replacen(
                "sheet = 1",
                &format!("sheet = 1\nguessed = [\"{key}\"]"),
                1,
            );
            Sheet::parse(&text).unwrap_or_else(|e| panic!("{}: {e}", question.key));
        }
    }
}

#[test]
fn a_procedure_of_several_looks_is_made_and_corrected_by_questions() {
    use events::{LookEngine, LookGate, Right};
    let mut interview = Interview::new("two looks");
    for said in ["as the maker specifies", "35-45 C (maker)", "2,4 L"] {
        interview.hear(said, TODAY);
    }
    assert_eq!(interview.sheet().unwrap().1.looks().len(), 1);
    let before = |interview: &mut Interview, said: &str| {
        interview.turn_to("look.before").unwrap();
        interview.hear(said, TODAY)
    };
    for (said, why) in [
        ("trickle", "what the engine does"),
        ("off, dance", "none of"),
        ("off, then soon", ""),
        // No hole has an edge where there is a pipe.
        ("off, lower-edge", ""),
    ] {
        let heard = before(&mut interview, said);
        assert!(matches!(&heard, AnswerOutcome::Again { why: w } if w.contains(why)), "{said}: {heard:?}");
    }
    let heard = before(&mut interview, "off, trickle, then 2 L (maker, page 9); idle, drips");
    assert!(matches!(heard, AnswerOutcome::Again { .. }), "a source stands at the end: {heard:?}");
    let heard = before(&mut interview, "off, trickle, then 2 L; idle, band, drips (maker, page 9)");
    assert!(matches!(heard, AnswerOutcome::Taken { .. }), "{heard:?}");
    let (text, sheet) = interview.sheet().unwrap();
    let looks = sheet.looks();
    assert_eq!(looks.len(), 3, "{text}");
    let told: Vec<_> = looks.iter().map(|l| (l.engine, l.gate, l.right, l.then_add_ml)).collect();
    assert_eq!(told[0], (LookEngine::Off, LookGate::None, Right::Trickle, 2_000.0));
    assert_eq!(told[1], (LookEngine::Idle, LookGate::Band, Right::Drips, 0.0));
    assert_eq!(told[2], (LookEngine::Idle, LookGate::Band, Right::Trickle, 0.0));
    assert_eq!(sheet.source("look"), Some(events::Source::MakersText));
    // Corrected: the last one alone, then those before it.
    let mut again = Interview::correct(&text).unwrap();
    let row = |interview: &Interview| {
        let rows = interview.rows(units::text::UnitSystem::Metric);
        rows.into_iter().find(|row| row.key == "look.before").unwrap().shown
    };
    assert!(row(&again).starts_with("off, trickle, then 2") && row(&again).ends_with("idle, band, drips"));
    again.turn_to("look.right").unwrap();
    again.hear("drips", TODAY);
    let (_, corrected) = again.sheet().unwrap();
    assert_eq!(corrected.looks()[..2], looks[..2]);
    assert_eq!(corrected.looks()[2].right, Right::Drips);
    assert!(matches!(before(&mut again, "none"), AnswerOutcome::Taken { .. }));
    assert_eq!(again.sheet().unwrap().1.looks().len(), 1);
}

/// An answer that cannot be read takes nothing away, not even where the one before came from.
#[test]
fn a_bad_second_answer_leaves_the_first_and_its_source() {
    let mut interview = Interview::new("anything");
    for said in ["skip", "35-45C (measured)"] {
        interview.hear(said, TODAY);
    }
    let before = interview.sheet().unwrap().0;
    assert!(before.contains("measured"), "{before}");
    interview.hear("go check.band_c", TODAY);
    assert!(matches!(interview.hear("1", TODAY), AnswerOutcome::Again { .. }));
    assert_eq!(interview.sheet().unwrap().0, before);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn whatever_is_typed_there_is_always_a_sheet_and_nothing_is_lost(answers in proptest::collection::vec(any_answer(), 1..40)) {
        let mut interview = Interview::new("anything");
        for said in answers {
            let before = interview.draft().said.len();
            let heard = interview.hear(&said, TODAY);
            if matches!(heard, AnswerOutcome::Again { .. } | AnswerOutcome::Help { .. } | AnswerOutcome::Stopped) {
                prop_assert_eq!(interview.draft().said.len(), before);
            }
            prop_assert!(interview.sheet().is_ok(), "{said}: {heard:?}");
        }
        let again = Interview::resume(interview.draft().clone());
        prop_assert_eq!(again.sheet().unwrap().0, interview.sheet().unwrap().0);
    }
}

fn any_answer() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => "(back|skip|I don't know|1|2|3|go on|yes|no|none)",
        3 => "[0-9]{1,3}( ?- ?[0-9]{1,3})? ?(L|ml|C|F|mm|s|min|Nm|cm2)",
        1 => "go (fluid.total_ml|level.rim|check.signal|look.engine|look.before|fluid.drain_ml|check.band_c)",
        1 => any::<String>(),
    ]
}
