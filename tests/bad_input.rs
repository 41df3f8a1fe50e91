//! Bad input: each a clear error that says what, where, why and what to try, with the right exit code.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, fixture, stderr};

fn check(home: &Home, what: &str, arguments: &[&str], exit: i32, words: &[&str]) {
    let output = home.run(arguments);
    let said = stderr(&output);
    assert_eq!(output.status.code(), Some(exit), "{what}: {said}");
    for word in words {
        assert!(said.contains(word), "{what} must say {word:?}: {said}");
    }
    assert!(!said.contains("panicked"), "{what}: {said}");
}

#[test]
fn devices_that_cannot_be_used_say_why() {
    let home = Home::new();
    let sheet = fixture("sheets/demo-six-speed.toml");
    let sheet = sheet.to_str().unwrap();
    check(
        &home,
        "no such device",
        &["serve", "--sheet", sheet, "--device", "/dev/ttyNONE9"],
        69,
        &["/dev/ttyNONE9", "try:"],
    );
    let file = home.path().join("not-a-device");
    std::fs::write(&file, "hello").unwrap();
    check(
        &home,
        "a file is no device",
        &["serve", "--sheet", sheet, "--device", file.to_str().unwrap()],
        69,
        &["not-a-device", "try:"],
    );
    check(
        &home,
        "nobody at that port",
        &["serve", "--sheet", sheet, "--device", "tcp:127.0.0.1:1"],
        69,
        &["127.0.0.1:1", "try:"],
    );
    check(
        &home,
        "no device at all",
        &["serve", "--sheet", sheet, "--device", "tcp:nowhere"],
        64,
        &["tcp:HOST:PORT"],
    );
}

#[test]
fn sheets_that_cannot_be_used_say_where() {
    let home = Home::new();
    let good = std::fs::read_to_string(fixture("sheets/demo-six-speed.toml")).unwrap();
    let cases: &[(&str, &str, &str, &[&str])] = &[
        (
            "a wrong key",
            "margin_ml =",
            "marginml =",
            &["unknown key `fluid.marginml`", "did you mean `margin_ml`", "line "],
        ),
        ("a unit in a number", "total_ml = 6500", "total_ml = \"6.5L\"", &["line ", "invalid type"]),
        (
            "outside the range",
            "band_c = [35.0, 45.0]",
            "band_c = [35.0, 450.0]",
            &["check.band_c", "0 to 120 °C"],
        ),
    ];
    for (what, old, new, words) in cases {
        let path = home.path().join("sheet.toml");
        std::fs::write(&path, good.replacen(old, new, 1)).unwrap();
        check(&home, what, &["plan", "--sheet", path.to_str().unwrap()], 65, words);
    }
    check(
        &home,
        "no such sheet",
        &["plan", "--sheet", "/nowhere/x.toml"],
        66,
        &["/nowhere/x.toml", "no such file"],
    );
}

#[test]
fn logs_that_cannot_be_read_say_where() {
    let home = Home::new();
    let path = home.path().join("log.csv");
    std::fs::write(&path, "a,b\n1,2\n").unwrap();
    check(
        &home,
        "no such column",
        &["rehearse", "--pace", "max", "--warmup", path.to_str().unwrap()],
        65,
        &["coolant_c", "try:"],
    );
    std::fs::write(&path, [0xFF, 0xFE, 0x00]).unwrap();
    check(
        &home,
        "no text",
        &["rehearse", "--pace", "max", "--warmup", path.to_str().unwrap()],
        65,
        &["UTF-8"],
    );
    check(&home, "no file", &["rehearse", "--warmup", "/nowhere/log.csv"], 66, &["/nowhere/log.csv"]);
}

#[test]
fn words_that_are_not_understood_say_what_is() {
    let home = Home::new();
    check(&home, "an amount without a unit", &["tell", "drained", "2.4"], 64, &["has no unit", "2.4L"]);
    check(&home, "no such precondition", &["tell", "confirm", "happy"], 64, &["on-stands"]);
    check(&home, "no such mistake", &["rehearse", "--mistake", "late"], 64, &["closed-late"]);
    check(&home, "no such firmware", &["car", "--firmware", "x"], 64, &["known:"]);
    check(&home, "nothing asked", &[], 64, &["Usage"]);
}

#[test]
fn a_daemon_that_is_not_there_says_how_to_start_it() {
    let home = Home::new();
    check(&home, "never started", &["tell", "start"], 69, &["no daemon", "standpipe serve"]);
    let run = home.path().join("run/standpipe");
    std::fs::create_dir_all(&run).unwrap();
    drop(std::os::unix::net::UnixListener::bind(run.join("bay.sock")).unwrap());
    check(&home, "died", &["events"], 69, &["has died", "goes on where it was"]);
    check(&home, "no journal", &["report"], 66, &["there is no such file"]);
}
