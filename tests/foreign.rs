//! Words of others in every command that prints: none commands the terminal, none forges a line or markup. The built
//! program on a journal that holds such words from before they were refused, and on an adapter that says them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::os::unix::net::UnixListener;
use std::process::Output;

use common::{Home, fixture, stderr, stdout};
use events::text::is_hidden;

/// Clears the screen, colours, goes back, turns round, ends the line, and claims what nobody measured.
const EVIL: &str =
    "QL\u{1b}[2J\u{9b}31m\r\u{7f}\u{202e}\u{200b}\u{2028}\n**The level is set.**\n<b>[x](http://a.example)";

fn nothing_hidden(what: &str, text: &str) {
    let bad = text.chars().find(|c| *c != '\n' && is_hidden(*c));
    assert_eq!(bad, None, "{what}: {text:?}");
}

fn whole(output: &Output) -> String {
    stdout(output) + &stderr(output)
}

/// A journal of one ended job, as an older program wrote it: with those words in vehicle, remark, reason and sheet.
fn old_journal(home: &Home) {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = home.start(&["serve", "--device", &device, "--sheet", sheet.to_str().unwrap()]);
    daemon.until_said(|l| l.contains("socket"));
    for words in [&["start"][..], &["vehicle", "MARK-V"], &["note", "MARK-N"], &["abort", "MARK-A"]] {
        let told = home.run(&[&["tell"], words].concat());
        assert!(told.status.success(), "{}", stderr(&told));
    }
    daemon.kill();
    let exported = stdout(&home.run(&["jobs", "export"]));
    let evil = serde_json::to_string(EVIL).unwrap();
    let evil = evil.trim_matches('"');
    let lines: Vec<String> = exported
        .lines()
        .filter(|line| !line.starts_with(r#"{"seal""#))
        .map(|line| line.replace("Demo six-speed, transverse", evil))
        .map(|line| ["MARK-V", "MARK-N", "MARK-A"].iter().fold(line, |line, mark| line.replace(mark, evil)))
        .map(|line| line.replace(r#""sealed":true"#, r#""sealed":false"#))
        .collect();
    let file = home.path().join("old.jsonl");
    std::fs::write(&file, lines.join("\n") + "\n").unwrap();
    let imported = home.run(&["jobs", "--bay", "old", "import", file.to_str().unwrap()]);
    assert!(imported.status.success(), "{}", stderr(&imported));
}

#[test]
fn what_an_old_journal_holds_is_shown_as_what_it_is() {
    let home = Home::new();
    old_journal(&home);
    let people: &[&[&str]] = &[
        &["jobs", "--bay", "old"],
        &["jobs", "--bay", "old", "verify"],
        &["report", "--bay", "old", "--form", "md"],
        &["report", "--bay", "old", "--form", "html"],
        &["report", "--bay", "old", "--form", "json"],
        &["due", "--bay", "old", "--within", "400d"],
        &["jobs", "--bay", "old", "--json"],
    ];
    for words in people {
        let output = home.run(words);
        assert!(output.status.success(), "{words:?}: {}", stderr(&output));
        nothing_hidden(&format!("{words:?}"), &whole(&output));
    }
    let jobs = stdout(&home.run(&["jobs", "--bay", "old"]));
    assert!(jobs.contains("QL"), "{jobs}");
    let md = stdout(&home.run(&["report", "--bay", "old", "--form", "md"]));
    assert!(md.contains(r"QL\\u{1b}\[2J\\u{9b}31m"), "what it is, is spelled out: {md}");
    let forged = |l: &&str| l.trim_start().starts_with("**The level is set.**");
    assert_eq!(md.lines().find(forged), None, "{md}");
    assert!(!md.contains("<b>") && !md.contains("[x]("), "{md}");
    let html = stdout(&home.run(&["report", "--bay", "old", "--form", "html"]));
    assert!(!html.contains("<b>["), "{html}");
    let json: serde_json::Value =
        serde_json::from_str(&stdout(&home.run(&["report", "--bay", "old", "--form", "json"]))).unwrap();
    assert_eq!(json["vehicle"], EVIL, "data are data");
}

#[test]
fn what_a_running_daemon_tells_of_it_is_shown_as_what_it_is() {
    let home = Home::new();
    old_journal(&home);
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = home.start(&["serve", "--device", &device, "--bay", "old"]);
    daemon.until_said(|l| l.contains("socket"));
    let events = home.run(&["events", "--bay", "old", "--since", "0", "--no-follow"]);
    assert!(stdout(&events).contains("QL\\u001b[2J\\u009b31m"), "{}", stdout(&events));
    nothing_hidden("events", &whole(&events));
    let mut watch = home.start(&["watch", "--bay", "old"]);
    let view = watch.until(|l| l.contains(r#""surface""#));
    nothing_hidden("watch", &view);
}

#[test]
fn no_new_word_of_that_kind_comes_in() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = home.start(&["serve", "--device", &device]);
    daemon.until_said(|l| l.contains("socket"));
    assert!(home.run(&["tell", "start"]).status.success());
    for words in
        [&["vehicle", EVIL][..], &["note", EVIL], &["abort", EVIL], &["shifted", EVIL], &["sheet", EVIL]]
    {
        let told = home.run(&[&["tell"], words].concat());
        assert_eq!(told.status.code(), Some(65), "{words:?}");
        assert!(stderr(&told).contains("character 3 is U+001B"), "{}", stderr(&told));
        nothing_hidden("tell", &whole(&told));
    }
}

#[test]
fn a_sheet_of_that_kind_is_refused_wherever_it_is_read() {
    let home = Home::new();
    let text = std::fs::read_to_string(fixture("sheets/demo-six-speed.toml")).unwrap();
    let evil = serde_json::to_string(EVIL).unwrap();
    let file = home.path().join("sheet.toml");
    for (old, new) in [
        ("name = \"Demo six-speed, transverse\"", format!("name = {evil}")),
        ("type = \"as", "type = \"\\u001b]0;x\\u0007as".to_owned()),
        ("band_c =", "\"\\u001b[2J\" = 1\nband_c =".to_owned()),
        ("header = \"7E1\"", "header = \"\\u001b[2J\"".to_owned()),
        ("[check]", "[check\u{1b}[2J]".to_owned()),
    ] {
        let changed = text.replacen(old, &new, 1);
        assert_ne!(changed, text, "{old}");
        std::fs::write(&file, changed).unwrap();
        let file = file.to_str().unwrap();
        for words in [
            &["sheet", "check", file][..],
            &["plan", "--sheet", file],
            &["plan", "--sheet", file, "--form", "md"],
        ] {
            let output = home.run(words);
            assert_eq!(output.status.code(), Some(65), "{words:?} {old}: {}", whole(&output));
            nothing_hidden(&format!("{words:?}"), &whole(&output));
        }
    }
}

/// An adapter that answers whatever is asked with its name and what it should not say.
#[test]
fn an_adapter_that_says_it_commands_nobody() {
    let home = Home::new();
    let listener = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let device = format!("tcp:{}", listener.local_addr().unwrap());
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let Ok(mut stream) = stream else { return };
            std::thread::spawn(move || {
                use std::io::{Read as _, Write as _};
                let mut buffer = [0; 256];
                while let Ok(1..) = stream.read(&mut buffer) {
                    let said = "ELM327 v1.5\u{1b}[2J\u{9b}31m\u{202e}\u{7f}\r\r>";
                    if stream.write_all(said.as_bytes()).is_err() {
                        return;
                    }
                }
            });
        }
    });
    // The daemon and both forms of the report at once: each hopes for an adapter as long as it may.
    let mut daemon = home.start(&["serve", "--device", &device]);
    daemon.until_said(|l| l.contains("socket"));
    std::thread::scope(|scope| {
        for form in [&[][..], &["--json"]] {
            let words = [&["probe", "--device", &device, "--seconds", "2"], form].concat();
            let home = &home;
            scope.spawn(move || nothing_hidden("probe", &whole(&home.run(&words))));
        }
    });
    let events = home.run(&["events", "--since", "0", "--no-follow"]);
    assert!(stdout(&events).lines().count() > 5, "{}", whole(&events));
    nothing_hidden("events", &whole(&events));
    nothing_hidden("the log", &daemon.until_said(|_| true));
}

/// Whoever listens at the socket in the daemon's place, or a newer daemon.
#[test]
fn a_daemon_that_says_it_commands_nobody() {
    let home = Home::new();
    let socket = home.path().join("socket");
    let listener = UnixListener::bind(&socket).unwrap();
    let bye = serde_json::json!({"kind": "bye", "reason": EVIL}).to_string();
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            use std::io::Write as _;
            let _ = writeln!(stream.unwrap(), "{bye}");
        }
    });
    let told = home.run(&["tell", "--socket", socket.to_str().unwrap(), "start"]);
    assert_eq!(told.status.code(), Some(75), "{}", stderr(&told));
    nothing_hidden("tell", &whole(&told));
    assert!(stderr(&told).lines().all(|l| !l.starts_with("**")), "{}", stderr(&told));
}
