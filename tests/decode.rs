//! `decode` as a program sees it: the reference's own rows in, the contract's lines out.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::io::Write as _;
use std::process::Stdio;

use common::{Home, fixture};
use serde_json::{Value, json};

fn decode(arguments: &[&str], input: &str) -> Vec<Value> {
    let home = Home::new();
    let mut child = home
        .command(&[&["decode", "--json"], arguments].concat())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_owned();
    let writer = std::thread::spawn(move || stdin.write_all(input.as_bytes()).unwrap());
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap();
    assert!(output.status.success());
    common::stdout(&output).lines().map(|l| serde_json::from_str(l).unwrap()).collect()
}

/// The table's rows as maps from column to text.
fn rows(name: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(fixture(&format!("reference/obd/{name}"))).unwrap();
    reader.deserialize().map(Result::unwrap).collect()
}

fn unescaped(text: &str) -> String {
    text.replace("\\r", "\r").replace("\\n", "\n").replace("\\0", "\0")
}

#[test]
fn every_message_of_the_wire_table_is_put_together() {
    let rows: Vec<_> = rows("wire_vectors.csv").into_iter().filter(|r| r["status"] == "ok").collect();
    assert!(rows.len() > 250, "{}", rows.len());
    let input: String = rows
        .iter()
        .map(|r| {
            let line = json!({"bus": r["bus"], "headers": r["headers"] == "1", "request": r["request"], "text": unescaped(&r["adapter_text"])});
            format!("{line}\n")
        })
        .collect();
    let lines = decode(&["--messages"], &input);
    assert_eq!(lines.len(), rows.len());
    for (row, line) in rows.iter().zip(lines) {
        let expected: Vec<Value> = serde_json::from_str(&row["expected_messages"]).unwrap();
        let expected: Vec<(Option<&str>, String)> = expected
            .iter()
            .map(|m| (m["ecu"].as_str(), m["data"].as_str().unwrap().replace(' ', "")))
            .collect();
        let got: Vec<(Option<&str>, String)> = line["messages"]
            .as_array()
            .unwrap()
            .iter()
            .map(|m| (m["ecu"].as_str(), m["data"].as_str().unwrap().to_owned()))
            .collect();
        assert_eq!(got, expected, "{}: {line}", row["id"]);
    }
}

#[test]
fn every_number_of_the_value_table_is_decoded() {
    let rows = rows("vectors_devs.csv");
    let numbers: Vec<_> =
        rows.iter().filter(|r| r["expected"].parse::<f64>().is_ok() && r["supported_bit"] != "0").collect();
    let input: String = numbers.iter().map(|r| format!("{}\t{}\n", r["request"], r["reply_hex"])).collect();
    let lines = decode(&["--pairs"], &input);
    let mut checked = 0;
    for (row, line) in numbers.iter().zip(&lines) {
        let place =
            json!([row["bit_offset"].parse::<u32>().unwrap(), row["bit_length"].parse::<u32>().unwrap()]);
        let entries = line["values"].as_array().unwrap_or_else(|| panic!("{}: {line}", row["id"]));
        let Some(value) = entries.iter().find(|v| v["bits"] == place).and_then(|v| v["value"].as_f64())
        else {
            continue;
        };
        let (want, within) =
            (row["expected"].parse::<f64>().unwrap(), row["tolerance"].parse::<f64>().unwrap_or(0.0));
        assert!((value - want).abs() <= within + 1e-9, "{}: {value}, not {want} ± {within}", row["id"]);
        checked += 1;
    }
    // The rest are words, bits and codes, which the crate's own tests compare.
    assert!(checked > 1_300, "only {checked} of {} rows are numbers here", numbers.len());
}

#[test]
fn an_error_is_a_line_like_any_other() {
    let lines = decode(&["--pairs"], "0105\t4105\nnonsense\n010C\t410C1AF8\n");
    assert_eq!(lines[0]["error"], "short-reply");
    assert_eq!(lines[1]["ok"], false);
    assert_eq!(lines[2]["values"][0]["value"], 1726.0);
    let lines = decode(&[], "7E8 03 41 05 7B \r\r>BUFFER FULL\r\r>");
    assert_eq!(lines[0]["messages"][0]["values"][0]["value"], 83.0);
    assert_eq!(lines[1]["ok"], false);
}
