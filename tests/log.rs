//! A stderr that is gone, full, or taken by nobody: the daemon goes on, also when the adapter is pulled. The built
//! program, real processes; every wait is for a line.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::fs::File;
use std::io::{BufRead as _, BufReader, PipeReader, Write as _, pipe};
use std::process::Stdio;

use common::{Home, Process, fixture, stderr};

/// A daemon whose stderr is this one.
fn serve(home: &Home, device: &str, stderr: Stdio) -> Process {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let mut command = home.command(&["serve", "--device", device, "--sheet", sheet.to_str().unwrap()]);
    Process::of(command.stdout(Stdio::piped()).stderr(stderr).spawn().unwrap())
}

/// Pulls the adapter and puts it back: both are told on stderr, and the daemon still takes down what it is told.
fn goes_on_when_the_adapter_is_pulled(home: &Home, car: &mut Process, daemon: &mut Process) {
    // Waits for the daemon by itself.
    let mut watch = home.start(&["watch"]);
    watch.until(|l| l.contains(r#""surface":"wait""#));
    let mut events = home.start(&["events", "--since", "0"]);
    events.until(|l| l.contains(r#""kind":"link","state":"protocol""#));
    for _ in 0..2 {
        car.type_line("unplug");
        events.until(|l| l.contains(r#""kind":"link","state":"lost""#));
        car.type_line("plug");
        events.until(|l| l.contains(r#""kind":"link","state":"protocol""#));
    }
    let told = home.run(&["tell", "start"]);
    assert!(told.status.success(), "{}", stderr(&told));
    assert!(daemon.child.try_wait().unwrap().is_none(), "the daemon lives");
}

#[test]
fn the_reader_of_stderr_is_gone() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let (reader, writer) = pipe().unwrap();
    let mut daemon = serve(&home, &device, writer.into());
    let mut first = String::new();
    BufReader::new(reader).read_line(&mut first).unwrap();
    assert!(first.contains("socket"), "{first}");
    goes_on_when_the_adapter_is_pulled(&home, &mut car, &mut daemon);
}

#[test]
fn stderr_lies_on_a_full_disk() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let full = File::options().write(true).open("/dev/full").unwrap();
    let mut daemon = serve(&home, &device, full.into());
    goes_on_when_the_adapter_is_pulled(&home, &mut car, &mut daemon);
}

/// A pipe that takes nothing any more until its reader reads.
fn full_pipe() -> (PipeReader, Stdio) {
    use rustix::fs::{OFlags, fcntl_getfl, fcntl_setfl};
    let (reader, mut writer) = pipe().unwrap();
    let flags = fcntl_getfl(&writer).unwrap();
    fcntl_setfl(&writer, flags | OFlags::NONBLOCK).unwrap();
    while writer.write(&[b'x'; 1]).is_ok() {}
    fcntl_setfl(&writer, flags).unwrap();
    (reader, writer.into())
}

#[test]
fn stderr_is_a_pipe_that_nobody_reads() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let (reader, writer) = full_pipe();
    let mut daemon = serve(&home, &device, writer);
    goes_on_when_the_adapter_is_pulled(&home, &mut car, &mut daemon);
    // Whoever reads at last finds what was said meanwhile.
    let lines = BufReader::new(reader).lines().map_while(Result::ok);
    assert!(lines.into_iter().any(|l| l.contains("adapter lost")));
    daemon.kill();
}

#[test]
fn colour_codes_go_to_a_terminal_only_and_as_was_asked() {
    let home = Home::new();
    for (color, coloured) in [(None, false), (Some("never"), false), (Some("always"), true)] {
        let mut car = home.start(&["car"]);
        let device = car.line();
        let sheet = fixture("sheets/demo-six-speed.toml");
        let mut words = vec!["serve", "--device", &device, "--sheet", sheet.to_str().unwrap()];
        words.extend(color.iter().flat_map(|color| ["--color", color]));
        let mut daemon = home.start(&words);
        daemon.until_said(|l| l.contains("socket"));
        car.type_line("unplug");
        let said = daemon.until_said(|l| l.contains("adapter lost"));
        assert_eq!(said.contains('\x1b'), coloured, "{color:?}: {said:?}");
    }
}
