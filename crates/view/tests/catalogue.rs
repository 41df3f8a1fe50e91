//! The catalogue against the lists: every row that a person reads has its sentence in every language, with the same
//! variables as in English, and is as short as a person under a vehicle can read.
//!
//! `lang/en-lists.ftl` is written from the tables (`BLESS=1`), for whoever translates. Source of the limits: the rules
//! that stand at the head of `docs/words.md`.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests")]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use units::Listed;
use words::{Lang, message_names};

/// One row: name of its message, and its English.
type Row = (String, String);

/// What a list says beside its sentence.
type Also<L> = (&'static str, fn(L) -> &'static str);

fn rows<L: Listed>(of: &mut Vec<Row>, also: &[Also<L>]) {
    for &row in L::ALL {
        let name = format!("{}-{}", L::NAME, row.as_word());
        of.push((name.clone(), row.as_sentence().to_owned()));
        for (attribute, says) in also {
            if !says(row).is_empty() {
                of.push((format!("{name}.{attribute}"), says(row).to_owned()));
            }
        }
    }
}

/// Every list that a screen or a report shows.
fn lists() -> Vec<Row> {
    use events::*;
    let mut all = Vec::new();
    rows::<Advice>(&mut all, &[]);
    rows::<Caution>(&mut all, &[]);
    rows::<Precondition>(&mut all, &[("short", Precondition::short)]);
    rows::<Reason>(&mut all, &[("remedy", Reason::remedy)]);
    rows::<Trouble>(&mut all, &[("remedy", Trouble::remedy)]);
    rows::<Outcome>(&mut all, &[]);
    rows::<Drivable>(&mut all, &[]);
    rows::<Meaning>(&mut all, &[]);
    rows::<Question>(&mut all, &[]);
    rows::<FindNext>(&mut all, &[]);
    rows::<EngineWord>(&mut all, &[]);
    rows::<Surface>(&mut all, &[]);
    rows::<Narrowing>(&mut all, &[]);
    rows::<Symptom>(&mut all, &[]);
    rows::<Leak>(&mut all, &[]);
    rows::<LeakPlace>(&mut all, &[]);
    rows::<FluidLook>(&mut all, &[]);
    rows::<Alarm>(&mut all, &[]);
    rows::<Part>(&mut all, &[]);
    rows::<Refusal>(&mut all, &[]);
    rows::<Shortfall>(&mut all, &[]);
    rows::<Health>(&mut all, &[]);
    rows::<Ailment>(&mut all, &[("remedy", Ailment::remedy)]);
    rows::<ClosureCause>(&mut all, &[]);
    rows::<Cause>(&mut all, &[]);
    rows::<Fault>(&mut all, &[]);
    rows::<Way>(&mut all, &[]);
    rows::<LampState>(&mut all, &[]);
    rows::<Step>(&mut all, &[]);
    rows::<Hint>(&mut all, &[]);
    all
}

/// The file for translators.
fn written() -> String {
    let mut out = String::from(
        "# English of the lists, written from the tables in the code: `BLESS=1 cargo test -p view --test catalogue`.\n",
    );
    let mut list = "";
    let all = lists();
    for (name, english) in &all {
        match name.split_once('.') {
            Some((_, attribute)) => writeln!(out, "    .{attribute} = {english}").unwrap(),
            None => {
                let of = name.split('-').next().unwrap();
                if of != list {
                    writeln!(out, "\n## {of}\n").unwrap();
                    list = of;
                }
                writeln!(out, "{name} = {english}").unwrap();
            }
        }
    }
    out
}

#[test]
fn english_of_the_lists_is_there_for_translators() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../words/lang/en-lists.ftl");
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, written()).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap();
    assert!(kept == written(), "the tables say something else: run it once with BLESS=1");
}

#[test]
fn every_message_is_there_in_every_language_with_the_same_variables() {
    let mut english: BTreeMap<String, Vec<String>> = message_names(Lang::En).into_iter().collect();
    english.extend(lists().into_iter().map(|(name, _)| (name, Vec::new())));
    for &lang in Lang::ALL.iter().filter(|lang| **lang != Lang::En) {
        let own: Vec<(String, Vec<String>)> = message_names(lang);
        let names: BTreeSet<&String> = own.iter().map(|(name, _)| name).collect();
        assert_eq!(names.len(), own.len(), "{lang}: a message is there twice");
        let own: BTreeMap<String, Vec<String>> = own.into_iter().collect();
        let missing: Vec<&String> = english.keys().filter(|name| !own.contains_key(*name)).collect();
        let foreign: Vec<&String> = own.keys().filter(|name| !english.contains_key(*name)).collect();
        assert_eq!((missing, foreign), (vec![], vec![]), "{lang}: missing, and in no use");
        for (name, variables) in &english {
            assert_eq!(&own[name], variables, "{lang}: {name}");
        }
    }
}

/// What may be longer: read in a chair or on paper, or a whole explanation.
const IN_A_CHAIR: &[&str] = &[
    "Refusal-",
    "Shortfall-",
    "Meaning-",
    "page-pair",
    "daemon-does-not-answer",
    // The report.
    "Cause-",
    "ClosureCause-",
    "Fault-",
    "customer-",
    "done-",
    "doubt-",
    "level-error-is",
    "pipe-drawn",
    "plot-",
    // The plan.
    "Hint-",
    "Step-",
    "line-",
    "plan-",
];

/// The most words of a sentence that is read under a vehicle.
const WORDS: usize = 12;

#[test]
fn no_sentence_under_the_vehicle_has_more_than_twelve_words_in_any_language() {
    let mut read = 0;
    for &lang in Lang::ALL {
        let english = lists().into_iter().filter(|_| lang == Lang::En);
        let own = message_names(lang).into_iter().map(|(name, variables)| {
            let stand_in = variables.iter().map(|of| (of.as_str(), words::value("X".to_owned())));
            let text = match name.split_once('.') {
                // An attribute is read by its row; the file itself is looked at here.
                Some(_) => String::new(),
                None => lang.by_name(&name, stand_in),
            };
            (name, text)
        });
        for (name, text) in own.chain(english) {
            if IN_A_CHAIR.iter().any(|begin| name.starts_with(begin)) {
                continue;
            }
            for sentence in text.split_inclusive(['.', '?', '!', ':', ';', '।']) {
                let count =
                    sentence.split_whitespace().filter(|w| w.chars().any(char::is_alphanumeric)).count();
                assert!(count <= WORDS, "{lang}, {name}: {count} words: {sentence}");
                read += 1;
            }
        }
    }
    assert!(read > 4_000, "{read}");
}

/// Where people read what stands in the code.
const READ: &[&str] = &["src", "src/offer", "../../src/report", "../../src/plan"];
/// What of it no person reads in a language of theirs: what is typed, with its errors, which are those of the command line too;
/// the names of the sounds; what a report says as data, and where it is asked for.
const FOR_SCRIPTS: &[&str] = &[
    "src/typed.rs",
    "src/cue.rs",
    "src/report/record.rs",
    "src/report/mod.rs",
    "src/report/tests.rs",
    "src/plan/tests.rs",
];

/// A sentence in the code is in one language only.
#[test]
fn what_people_read_holds_no_sentence_of_its_own() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut read = 0;
    for file in READ.iter().flat_map(|folder| std::fs::read_dir(root.join(folder)).unwrap()) {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "rs") || FOR_SCRIPTS.iter().any(|file| path.ends_with(file)) {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap();
        for line in code.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for literal in line.split('"').skip(1).step_by(2) {
                let words = literal.split(' ').filter(|w| w.len() > 1 && w.chars().all(char::is_alphabetic));
                assert!(words.count() < 3, "{}: {literal}", path.display());
                read += 1;
            }
        }
    }
    assert!(read > 200, "{read}");
}
