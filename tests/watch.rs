//! What `watch` shows over the daemon's death and return, another sheet for the next job, and the sound script. The
//! built program, real processes; every wait is for a line.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::io::Write as _;
use std::process::{Command, Stdio};

use common::{Home, Process, fixture, stderr, stdout};

fn serve(home: &Home, device: &str) -> Process {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let sheets = fixture("sheets");
    let mut daemon = home.start(&[
        "serve",
        "--device",
        device,
        "--sheet",
        sheet.to_str().unwrap(),
        "--sheets",
        sheets.to_str().unwrap(),
    ]);
    daemon.until_said(|l| l.contains("socket"));
    daemon
}

#[test]
fn watch_outlives_the_daemon_and_finds_it_again() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = serve(&home, &device);
    let mut watch = home.start(&["watch"]);
    let seen = watch.until(|l| l.contains(r#""surface":"wait""#));
    assert!(seen.contains("Choose the vehicle. Then start the job."), "{seen}");
    daemon.kill();
    let lost = watch.until(|l| l.contains(r#""surface":"no-reading""#) && l.contains("without the daemon"));
    assert!(lost.contains("Keep the check port closed. Nothing is known."), "{lost}");
    let _again = serve(&home, &device);
    watch.until(|l| l.contains(r#""surface":"wait""#));
}

#[test]
fn another_sheet_is_chosen_while_no_job_runs() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let _daemon = serve(&home, &device);
    let mut watch = home.start(&["watch"]);
    watch.until(|l| l.contains("Demo six-speed, transverse") && l.contains(r#""ask":{"choice":["#));
    let unknown = home.run(&["tell", "sheet", "No such vehicle"]);
    assert_eq!(unknown.status.code(), Some(65));
    assert!(stderr(&unknown).contains("was not given a sheet of that name"), "{}", stderr(&unknown));
    assert!(home.run(&["tell", "sheet", "Demo CVT, spot thermometer"]).status.success());
    watch.until(|l| l.contains("Demo CVT, spot thermometer") && l.contains(r#""band":[35.0,50.0]"#));
    assert!(home.run(&["tell", "start"]).status.success());
    watch.until(|l| l.contains("Demo CVT, spot thermometer") && l.contains("job 1"));
    let late = home.run(&["tell", "sheet", "Demo six-speed, transverse"]);
    assert!(stderr(&late).contains("A job is running"), "{}", stderr(&late));
}

#[test]
fn the_sound_script_plays_each_cue_once_when_it_begins() {
    let home = Home::new();
    let cues = home.path().join("cues");
    std::fs::write(&cues, stdout(&home.run(&["watch", "--cues"]))).unwrap();
    let script = fixture("../docs/sounds/play.py");
    let play = |how: &str| {
        let mut child = Command::new("python3")
            .args([script.to_str().unwrap(), how, "--dry-run", "--cues", cues.to_str().unwrap()])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .ok()?;
        let views = b"{\"surface\":\"wait\"}\n{\"cue\":\"go\"}\n{\"cue\":\"go\"}\n{\"cue\":\"closing\"}\n";
        child.stdin.take().unwrap().write_all(views).unwrap();
        Some(stdout(&child.wait_with_output().unwrap()))
    };
    let Some(buzzer) = play("buzzer") else {
        assert!(std::env::var_os("CI").is_none(), "CI needs python3");
        eprintln!("left out: there is no python3 to run docs/sounds/play.py with");
        return;
    };
    let lines: Vec<&str> = buzzer.lines().collect();
    assert_eq!(lines.len(), 3, "go, closing, and no reading at the end of the input: {buzzer}");
    assert!(lines[0].starts_with("gpioset -t 120ms,60ms,240ms,120ms,120ms,60ms"), "{buzzer}");
    assert_eq!(lines[1], "gpioset -t 60ms,60ms,60ms,0 -c gpiochip0 17=1");
    assert_eq!(play("speech").unwrap().lines().next(), Some("espeak-ng -a 100 go"));
}
