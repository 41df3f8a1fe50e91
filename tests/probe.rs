//! `probe`, a recording of it, and the recording played back: real processes and a real pseudo-terminal.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, fixture, last_line, stderr, stdout};

fn words(report: &serde_json::Value) -> Vec<String> {
    let quirks = report["quirks"].as_array().unwrap();
    quirks.iter().map(|quirk| quirk["quirk"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn an_adapter_is_probed_recorded_and_played_back_as_the_same_adapter() {
    let home = Home::new();
    let recording = home.path().join("link.jsonl");
    let recording = recording.to_str().unwrap();
    let sheet = fixture("sheets/demo-six-speed.toml");
    let sheet = sheet.to_str().unwrap();

    let mut car = home.start(&["car", "--firmware", "copy-1.5"]);
    let device = car.line();
    let probe = ["probe", "--device", &device, "--sheet", sheet, "--seconds", "2", "--record", recording];
    let output = home.run(&probe);
    assert!(output.status.success(), "{}", stderr(&output));
    let report = last_line(&output);
    assert_eq!(report["claims"], "ELM327 v1.5");
    assert!(words(&report).contains(&"version-lie".to_owned()), "{report}");
    assert_eq!(report["protocol"], "ISO 15765-4, 11 bit, 500 kbit/s");
    assert_eq!(report["control_units"], serde_json::json!(["7E8", "7E9"]));
    assert_eq!(report["asked"], "224D07");
    assert!(report["answers"].as_u64().unwrap() > 3, "{report}");
    assert!(report["exchanges_per_second"].as_f64().unwrap() > 1.0, "{report}");
    let again = home.run(&probe);
    assert_eq!(again.status.code(), Some(73), "a recording is not overwritten: {}", stderr(&again));
    drop(car);

    let mut played = home.start(&["car", "--playback", recording]);
    let device = played.line();
    let output = home.run(&["probe", "--device", &device, "--sheet", sheet, "--seconds", "2"]);
    let same = last_line(&output);
    assert!(output.status.success(), "{same}\n{}", stderr(&output));
    for what in ["claims", "tested", "protocol", "control_units", "volts"] {
        assert_eq!(same[what], report[what], "{what}");
    }
    assert!(same["answers"].as_u64().unwrap() > 0);
}

#[test]
fn what_is_no_adapter_and_what_has_no_vehicle_is_said_with_what_to_do() {
    let home = Home::new();
    for (firmware, cannot) in [
        ("wired-loop", "This is no adapter that can be used."),
        ("modem", "This is no adapter that can be used."),
    ] {
        let mut car = home.start(&["car", "--firmware", firmware]);
        let device = car.line();
        let output = home.run(&["probe", "--device", &device]);
        assert_eq!(output.status.code(), Some(69), "{firmware}: {}", stdout(&output));
        let report = last_line(&output);
        assert_eq!(report["advice"][0]["cannot"], cannot, "{firmware}: {report}");
        assert!(!report["last_on_the_link"].as_array().unwrap().is_empty(), "{firmware}");
    }
    let output = home.run(&["probe", "--device", "/dev/no-such-adapter"]);
    assert_eq!(output.status.code(), Some(69));
    assert!(stderr(&output).contains("try:"), "{}", stderr(&output));
}
