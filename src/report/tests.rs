//! One job's report in two languages and four systems of units, as reviewed files.
//!
//! `fixtures/reports/job.events.jsonl`: a rehearsed job with the readings thinned out, and with all that can be told beside it.
//! `BLESS=1 cargo test --bin standpipe report` writes the files anew; the difference is read line by line before it is committed.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests")]

use events::{Event, Utc};
use jiff::tz::TimeZone;
use units::text::UnitSystem;
use words::{Lang, Speech};

use super::record::Record;
use super::say::Reader;
use super::when::Times;
use super::{Form, html, md};

const JOB: &str = include_str!("../../fixtures/reports/job.events.jsonl");

fn events() -> Vec<Event> {
    JOB.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// Central Europe as POSIX writes it: no database of zones is needed.
fn reader(lang: Lang, units: UnitSystem) -> Reader {
    let zone = TimeZone::posix("CET-1CEST,M3.5.0,M10.5.0/3").unwrap();
    Reader { speech: Speech { lang, units }, times: Times::of(zone) }
}

#[test]
fn golden_reports_in_two_languages_and_every_system_of_units() {
    let record = Record::fold(1, &events());
    for lang in [Lang::En, Lang::De] {
        for &units in UnitSystem::ALL {
            let got = record.write(Form::Md, &reader(lang, units)).unwrap();
            let name = format!("fixtures/golden/reports/{lang}-{}.md", units.word());
            let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(&name);
            if std::env::var_os("BLESS").is_some() {
                std::fs::write(&path, &got).unwrap();
            }
            assert!(std::fs::read_to_string(&path).unwrap() == got, "{name} says something else");
        }
    }
}

/// The page has the sentences of the text: whoever prints one reads what the other says.
#[test]
fn the_page_answers_what_the_text_answers_in_every_language() {
    let record = Record::fold(1, &events());
    for &lang in Lang::ALL {
        let reader = reader(lang, UnitSystem::Metric);
        let page = html::page(&record, &reader);
        let text = md::text(&record, &reader);
        for answer in reader.answers(&record) {
            for says in [answer.question, answer.short.unwrap_or_default(), &answer.says] {
                let plain =
                    |text: &str| text.replace(['\\', '"'], "").replace("&amp;", "&").replace("&quot;", "");
                assert!(plain(&page).contains(&plain(says)), "{lang}: {says}");
                assert!(plain(&text).contains(&plain(says)), "{lang}: {says}");
            }
        }
        let first = page.split("class=\"technician\"").next().unwrap();
        for told in
            ["QL 12", "ZZ9DEM6S9XY000042", "84 210 km", "Quillan Lane", "R. Vey", "B-7731", "214.50 EUR"]
        {
            assert!(first.contains(told), "{lang}: the first sheet lacks {told}");
        }
        for told in ["P0711 (7E9)", "P0882 (7E9)"] {
            assert!(!first.contains(told) && page.contains(told), "{lang}: {told} is the technician's");
        }
        assert!(page.contains(&format!("<html lang=\"{lang}\">")) && page.contains("break-before: page"));
    }
}

/// Nobody told who, how far and which batch: the sheet has a line for each to write on, and no price is asked.
#[test]
fn what_nobody_told_is_left_to_write_on() {
    let told =
        |e: &Event| !matches!(&e.body, events::Body::Told(t) if t.request.sort() == events::Sort::Remarks);
    let events: Vec<Event> = events().into_iter().filter(told).collect();
    let record = Record::fold(1, &events);
    let reader = reader(Lang::En, UnitSystem::Metric);
    let empty: Vec<&str> =
        reader.identity(&record).into_iter().filter(|(_, v)| v.is_none()).map(|(l, _)| l).collect();
    assert_eq!(empty, ["Vehicle", "Odometer", "Workshop", "Technician", "Batch on the container"]);
    assert_eq!(html::page(&record, &reader).matches("<dd></dd>").count(), empty.len());
    assert!(reader.answers(&record).iter().all(|a| a.question != "What does it cost?"));
}

/// The clocks go forward in the night of 29 March 2026 at 01:00 UTC (directive 2000/84/EC).
#[test]
fn a_job_across_the_change_of_the_clocks_says_so_beside_every_time() {
    let start: Utc = "2026-03-29T00:30:00Z".parse().unwrap();
    let mut events = events();
    let shift = start.as_millis() - events[0].at.as_millis();
    for event in &mut events {
        event.at = Utc::from_millis(event.at.as_millis() + shift);
    }
    let record = Record::fold(1, &events);
    let reader = reader(Lang::En, UnitSystem::Metric);
    let text = md::text(&record, &reader);
    assert!(text.contains("29 March 2026, 01:30 CET (UTC+1) to 03:13 CEST (UTC+2)"), "{text}");
    // The port was opened at 00:56:34 and closed at 00:58:40 UTC; the plugs were tightened at 01:00:53.
    assert!(
        text.contains("| 01:56:34 CET (UTC+1) |") && text.contains("| 03:00:53 CEST (UTC+2) |"),
        "{text}"
    );
    let json = record.write(Form::Json, &reader).unwrap();
    assert!(json.contains("2026-03-29T01:00:53") && !json.contains("CEST"), "data are UTC");
}

/// A job that has not ended lets nobody drive.
#[test]
fn while_it_runs_nobody_may_drive() {
    let events: Vec<Event> =
        events().into_iter().filter(|e| !matches!(e.body, events::Body::Result(_))).collect();
    let record = Record::fold(1, &events);
    for &lang in Lang::ALL {
        let reader = reader(lang, UnitSystem::Metric);
        let answers = reader.answers(&record);
        let short = |question: &'static str| {
            answers.iter().find(|a| a.question == reader.text(question)).and_then(|a| a.short)
        };
        assert_eq!(short("may-i-drive"), Some(reader.text("answer-no")), "{lang}");
        assert_eq!(short("is-it-right"), None, "{lang}");
    }
}
