//! `watch` in a real terminal: tmux holds the screen, keys go in, what is painted comes out.
//!
//! The built program, real processes; every wait is for something that is painted.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, Process, Terminal, fixture};

fn serve(home: &Home, device: &str) -> Process {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let mut daemon = home.start(&["serve", "--device", device, "--sheet", sheet.to_str().unwrap()]);
    daemon.until_said(|l| l.contains("socket"));
    daemon
}

/// The number of the key beside what can be told.
fn key_of(painted: &str, offer: &str) -> String {
    let line =
        painted.lines().find(|l| l.contains(offer)).unwrap_or_else(|| panic!("no {offer}:\n{painted}"));
    line.split_whitespace().next().unwrap().to_owned()
}

#[test]
fn a_terminal_shows_the_word_and_the_scale_at_three_sizes_takes_keys_and_never_keeps_an_old_verdict() {
    let home = Home::new();
    let Some(terminal) = Terminal::open(&home, 80, 24, &["watch"]) else { return };
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = serve(&home, &device);

    let painted = terminal.until("the idle bay", |p| p.contains("Then start"));
    assert!(painted.contains('█') && painted.contains("┃━┓ 45") && painted.contains("┃━┛ 35"), "{painted}");
    assert!(painted.lines().all(|l| l.chars().count() <= 80), "{painted}");

    // Larger and smaller: the word, the scale and the sentence are there; nothing is left over from the size before.
    terminal.size(120, 40);
    terminal.until("the larger screen", |p| {
        p.lines().any(|l| l.contains('─') && l.chars().count() > 100) && p.contains("Then start")
    });
    terminal.size(50, 12);
    terminal.until("the smaller screen", |p| {
        let word = p.contains("  wait") || p.contains("no reading");
        p.lines().all(|l| l.chars().count() <= 50) && word && p.contains("Then start")
    });
    terminal.size(80, 24);
    let offers = terminal.until("the offers", |p| p.contains("┃━┓ 45") && p.contains("Start"));

    // One key begins the job, the next confirms a precondition.
    terminal.press(&key_of(&offers, "Start"));
    let stands = terminal.until("the job", |p| p.contains("job 1") && p.contains("stands on four stands"));
    terminal.press(&key_of(&stands, "It stands on four stands"));
    terminal.until("that it was taken down", |p| !p.contains("It stands on four stands"));

    daemon.kill();
    let lost = terminal.until("the loss", |p| p.contains("Nothing is known"));
    assert!(!lost.contains("█   █  ██  █ █████"), "the word of before is still there:\n{lost}");
    let _again = serve(&home, &device);
    let back = terminal.until("the return", |p| p.contains("job 1") && !p.contains("Nothing is known"));
    assert!(!back.contains("It stands on four stands"), "what was told is remembered:\n{back}");

    terminal.press("q");
    terminal.until_ended("the end");
}
