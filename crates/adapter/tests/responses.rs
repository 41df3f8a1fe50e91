//! The texts of `responses.csv`, each in place of an answer: none of them may become a reading, and each has the type
//! that its class asks for. The table comes from the data sheet and public reports; see the README beside it.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::time::Duration;

use bench::Bench;

const SECOND: Duration = Duration::from_secs(1);

/// The words that a text of this class may lead to; the first one told has to begin with one of them.
fn allowed(class: &str, text: &str) -> &'static [&'static str] {
    match (class, text) {
        ("error-vehicle", "NO DATA") => &["no-answer no-data"],
        ("error-vehicle", _) => &["no-answer bus-init", "no-answer no-protocol"],
        ("error-driver", _) => &["no-answer interrupted"],
        ("error-bus", "DATA ERROR" | "<DATA ERROR" | "<RX ERROR") => &["suspect malformed"],
        ("error-bus", _) => &["no-answer bus-error"],
        ("error-adapter", "BUFFER FULL") => &["no-answer adapter-fault"],
        ("error-adapter", _) => &["reset fault"],
        ("reset", _) => &["reset low-voltage"],
        ("refused", "?" | "?WRONG HEXCHAR COUNT") => &["no-answer not-understood"],
        // A text for another command, or one that nobody knows.
        ("refused" | "ok" | "voltage" | "protocol" | "ignition" | "status", _) => &["suspect"],
        ("ident", text) if text.starts_with("ELM327") || text.starts_with("STN") => &["reset banner"],
        ("ident", _) => &["suspect"],
        _ => &[],
    }
}

/// The texts that a row stands for, as an adapter would print them.
fn texts(text: &str) -> Vec<String> {
    match text {
        "ERRxx" => vec!["ERR71".to_owned(), "ERR93".to_owned()],
        "VENDOR OPTION / VENDOR MODE" => vec!["VENDOR OPTION".to_owned(), "VENDOR MODE".to_owned()],
        "BUSINIT: ...ERROR / BUSINIT:OK" => vec!["BUSINIT: ...ERROR".to_owned()],
        "ELM327 v1.0 ... v2.3" => vec!["ELM327 v1.0".to_owned(), "ELM327 v2.3".to_owned()],
        "ELM327 v1.4a / v1.5 / v1.5a" => vec!["ELM327 v1.5a".to_owned()],
        "ELM327 v1.3a / v1.4b from STN11xx" => vec!["ELM327 v1.4b".to_owned()],
        "STNxxxx vX.Y.Z" => vec!["STN1110 v4.0.4".to_owned()],
        "12 printable characters" => vec!["demo bay one".to_owned()],
        "dd.dV" => vec!["12.6V".to_owned()],
        "ON / OFF" => vec!["ON".to_owned(), "OFF".to_owned()],
        "A6 / 6 / A0 / 0" => vec!["A6".to_owned(), "0".to_owned()],
        "Tx / Rx counts" => vec!["T:00 R:00".to_owned()],
        "<DATA ERROR" | "<RX ERROR" => vec![format!("7E80341057B {text}"), format!("7E80341057B{text}")],
        "OK (no CR, no prompt)" | "OK (CR, no prompt)" => vec!["OK".to_owned()],
        "? after an unfinished line" => vec!["?".to_owned()],
        other => vec![other.to_owned()],
    }
}

#[test]
fn no_text_of_the_adapter_becomes_a_reading_and_each_has_its_type() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/reference/adapter/responses.csv");
    let mut reader = csv::Reader::from_path(path).unwrap();
    let (mut played, mut wrong) = (0, Vec::new());
    for record in reader.records().map(Result::unwrap) {
        let (row, class) = (record[0].to_owned(), record[2].to_owned());
        for text in texts(&row) {
            let expected = if row.starts_with("? after") {
                &["no-answer not-understood"][..]
            } else {
                allowed(&class, &row)
            };
            if expected.is_empty() {
                continue;
            }
            let mut bench = Bench::with_coolant();
            bench.run(3 * SECOND);
            let (before, told) = (bench.answers().len(), bench.told.len());
            let reply = format!("{text}\r\r>").into_bytes();
            bench.twist(move |line, _, _| (line == "0105").then(|| vec![(20, reply.clone())]));
            bench.run(10 * SECOND);
            let rest = &bench.told[told..];
            let first = rest
                .iter()
                .filter_map(|(_, outcome)| bench::word(outcome))
                .find(|word| !word.starts_with("quirk"));
            let first = first.unwrap_or_default();
            if !expected.iter().any(|word| first.starts_with(word)) {
                wrong.push(format!("{text}: {first}, not {expected:?}"));
            }
            if bench.answers().len() > before {
                wrong.push(format!("{text} became a reading"));
            }
            played += 1;
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(played >= 42, "{played}");
}
