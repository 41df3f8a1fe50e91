//! `replay`: the gate over a recorded log, with the built program.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, fixture, stderr, stdout};
use serde_json::Value;

fn replay(log: &str, band: &str) -> Vec<Value> {
    let log = fixture(&format!("warmups/{log}.csv"));
    let output = Home::new().run(&[
        "replay",
        log.to_str().unwrap(),
        "--signal",
        "coolant_c",
        "--band",
        band,
        "--json",
    ]);
    assert!(output.status.success(), "{}", stderr(&output));
    stdout(&output).lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[test]
fn every_row_has_its_line_and_go_only_inside_the_band() {
    let lines = replay("2017-07-28-ka-ka-normal", "35..45");
    assert_eq!(lines.len(), 1_184);
    let recorded = std::fs::read_to_string(fixture("warmups/2017-07-28-ka-ka-normal.csv")).unwrap();
    let mut went = 0;
    for (line, row) in lines.iter().zip(recorded.lines().skip(1)) {
        let shown: f64 = row.split(',').nth(1).unwrap().parse().unwrap();
        assert_eq!(line["t"].as_f64().unwrap(), row.split(',').next().unwrap().parse::<f64>().unwrap());
        if line["verdict"] == "go" {
            went += 1;
            assert!((35.0..=45.0).contains(&shown), "{line}");
            assert_eq!(line["reasons"], serde_json::json!(["in-band"]));
        }
    }
    assert!(went > 40, "{went}");
}

#[test]
fn a_forecast_is_there_ten_degrees_ahead_and_only_while_the_edge_is_ahead() {
    let lines = replay("2017-07-28-ka-ka-normal", "45..60");
    // First shown 35 °C at row 106, 45 °C at row 211 (fixtures/warmups).
    let ahead = &lines[105]["opens_in"];
    let [low, median, high] = ["low", "median", "high"].map(|key| ahead[key].as_f64().unwrap());
    assert!(low < median && median < high && (low..high).contains(&105.0), "{ahead}");
    assert_eq!(ahead["coverage"], 0.8);
    assert!(lines[215].get("opens_in").is_none() && lines[215].get("closes_in").is_some(), "{}", lines[215]);
}

#[test]
fn a_log_that_starts_hot_is_too_hot_and_says_how_long_the_way_back_is() {
    let lines = replay("2017-07-10-ka-ka-stau", "35..45");
    assert!(lines.iter().all(|line| line["verdict"] == "too-hot"));
    assert!(lines[10]["back_in"]["median"].as_f64().unwrap() > 1_800.0);
}

#[test]
fn what_is_wrong_with_a_log_is_named_by_file_line_and_column() {
    let home = Home::new();
    let path = home.path().join("log.csv");
    let cases: &[(&str, &str, i32, &str)] = &[
        ("t_s,coolant_c\n1,20\n2,warm\n", "35..45", 65, "line 3, column `coolant_c`: `warm` is no number"),
        ("t_s,coolant_c\n,20\n", "35..45", 65, "line 2, column `t_s`: the time is missing"),
        ("t_s,rpm\n1,20\n", "35..45", 65, "line 1: no column `coolant_c`; there are: t_s, rpm"),
        ("t_s,coolant_c\n1,20\n", "45..35", 64, "45..35"),
    ];
    for (text, band, code, says) in cases {
        std::fs::write(&path, text).unwrap();
        let output = home.run(&["replay", path.to_str().unwrap(), "--band", band]);
        assert_eq!(output.status.code(), Some(*code), "{text}");
        assert!(stderr(&output).contains(says), "{}", stderr(&output));
    }
    let none = home.run(&["replay", "no-such.csv", "--band", "35..45"]);
    assert_eq!(none.status.code(), Some(66));
}

#[test]
fn hard_cases_made_from_a_real_log_end_in_wait_or_go_inside_the_band_and_never_in_a_panic() {
    let recorded = std::fs::read_to_string(fixture("warmups/2018-03-20-ka-ka-normal.csv")).unwrap();
    let rows: Vec<&str> = recorded.lines().collect();
    let (head, body) = (rows[0], &rows[1..]);
    let join = |rows: Vec<&str>| format!("{head}\n{}\n", rows.join("\n"));
    let stepped = body.iter().enumerate().map(|(i, row)| if i == 400 { body[300] } else { row }).collect();
    let spiked: Vec<String> = body
        .iter()
        .enumerate()
        .map(|(i, r)| if i == 380 { r.replacen(",38,", ",90,", 1) } else { (*r).to_owned() })
        .collect();
    let cases = [
        ("a piece cut out", join([&body[..330], &body[420..]].concat())),
        ("rows repeated", join([&body[..390], &body[360..]].concat())),
        ("the clock steps back", join(stepped)),
        ("a spike", join(spiked.iter().map(String::as_str).collect())),
        (
            "fields missing",
            format!(
                "{head}\n{}\n",
                body.iter()
                    .map(|r| r.split(',').take(2).collect::<Vec<_>>().join(","))
                    .collect::<Vec<_>>()
                    .join("\n")
            ),
        ),
        ("nothing but a header", format!("{head}\n")),
    ];
    let home = Home::new();
    for (what, text) in cases {
        let path = home.path().join("log.csv");
        std::fs::write(&path, &text).unwrap();
        let output = home.run(&["replay", path.to_str().unwrap(), "--band", "35..45", "--json"]);
        assert!(output.status.success(), "{what}: {}", stderr(&output));
        assert_eq!(stdout(&output).lines().count(), text.lines().count() - 1, "{what}");
        for (line, row) in stdout(&output).lines().zip(text.lines().skip(1)) {
            let line: Value = serde_json::from_str(line).unwrap();
            let shown: f64 = row.split(',').nth(1).unwrap().parse().unwrap();
            assert!(line["verdict"] != "go" || (35.0..=45.0).contains(&shown), "{what}: {line}");
        }
    }
}
