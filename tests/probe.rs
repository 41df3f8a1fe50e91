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
    assert!(report["readings"].as_u64().unwrap() > 3, "{report}");
    assert!(report["readings_per_second"].as_f64().unwrap() > 1.0, "{report}");
    assert_eq!(report["still_reading"], true);
    assert_eq!(
        (&report["latest"][0]["from"], &report["latest"][0]["unit"]),
        (&"7E9".into(), &"celsius".into())
    );
    assert!(["good", "good-with-limits"].contains(&report["worth"].as_str().unwrap()), "{report}");
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
    assert!(same["readings"].as_u64().unwrap() > 0);
}

#[test]
fn what_is_no_adapter_is_said_with_what_to_do() {
    let home = Home::new();
    for (firmware, trouble, instead) in [
        ("wired-loop", "loop", "Plug the adapter into the vehicle"),
        ("modem", "modem", "Name the adapter's own"),
    ] {
        let mut car = home.start(&["car", "--firmware", firmware]);
        let device = car.line();
        let output = home.run(&["probe", "--device", &device]);
        assert_eq!(output.status.code(), Some(69), "{firmware}: {}", stdout(&output));
        let report = last_line(&output);
        assert_eq!(report["worth"], "cannot-tell", "{firmware}: {report}");
        assert_eq!(report["trouble"]["trouble"], trouble, "{firmware}: {report}");
        let told = report["trouble"]["instead"].as_str().unwrap();
        assert!(told.starts_with(instead) && !told.contains("ignition"), "{firmware}: {told}");
        assert!(!report["last_on_the_link"].as_array().unwrap().is_empty(), "{firmware}");
    }
}

#[test]
fn a_port_that_cannot_be_opened_has_a_closing_line_too() {
    let home = Home::new();
    let output = home.run(&["probe", "--device", "/dev/no-such-adapter"]);
    assert_eq!(output.status.code(), Some(69));
    assert!(stderr(&output).contains("try:"), "{}", stderr(&output));
    let report = last_line(&output);
    assert_eq!(report["worth"], "cannot-tell", "{report}");
    assert_eq!(report["readings"], 0);
    assert!(report["trouble"].get("trouble").is_none(), "absent, not null: {report}");
}

#[test]
fn a_port_that_another_program_holds_says_nothing_of_the_adapter() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let port = std::fs::File::options().read(true).write(true).open(&device).unwrap();
    port.lock().unwrap();
    let output = home.run(&["probe", "--device", &device]);
    assert_eq!(output.status.code(), Some(75), "{}", stderr(&output));
    let report = last_line(&output);
    assert_eq!(report["worth"], "cannot-tell", "{report}");
    let told = report["trouble"]["instead"].as_str().unwrap();
    assert!(told.starts_with("Close "), "{told}");
}

#[test]
fn an_identifier_that_is_refused_is_not_read_and_the_exit_code_says_so() {
    let home = Home::new();
    let text = std::fs::read_to_string(fixture("sheets/demo-six-speed.toml")).unwrap();
    let sheet = home.path().join("wrong.toml");
    assert!(text.contains("id = 0x4D07"), "the sheet has the identifier that is replaced here");
    std::fs::write(&sheet, text.replace("id = 0x4D07", "id = 0x2C41")).unwrap();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let probe = ["probe", "--device", &device, "--seconds", "2", "--sheet", sheet.to_str().unwrap()];
    let output = home.run(&probe);
    assert_eq!(output.status.code(), Some(69), "{}", stdout(&output));
    let report = last_line(&output);
    assert_eq!(report["trouble"]["trouble"], "refused-unknown", "{report}");
    assert_eq!(report["trouble"]["detail"], "222C41 to 7E1, code 31");
    assert_eq!((&report["worth"], &report["readings"]), (&"cannot-tell".into(), &0.into()));
}

#[test]
fn with_debug_each_exchange_is_told_on_stderr() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut probe = home.command(&["probe", "--device", &device, "--seconds", "2"]);
    let output = probe.env("STANDPIPE_LOG", "debug").output().unwrap();
    let told = stderr(&output);
    let line = told.lines().find(|line| line.contains("exchange") && line.contains("0105"));
    let line = line.unwrap_or_else(|| panic!("no exchange in {told}"));
    for field in ["request", "bytes", "elapsed_ms", "outcome"] {
        assert!(line.contains(field), "{field}: {line}");
    }
    let quiet = home.run(&["probe", "--device", "/dev/no-such-adapter"]);
    assert!(!stderr(&quiet).contains("exchange"), "{}", stderr(&quiet));
}
