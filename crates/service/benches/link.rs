//! What an exchange costs, and how long a byte takes to become an event, beside a floor measured in the same run.
//!
//! The floor is a bare read loop: it collects bytes and cuts them at prompts, and makes nothing of them. No reader can be
//! cheaper. `cargo bench -p service --bench link` prints all three, each the best of several rounds. The bounds that fail the
//! bench are wide: they are there to notice a change of kind, not of machine.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs, reason = "a bench prints and may panic")]

use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use adapter::{Driver, Poll, Schedule};
use events::{Seq, Utc};
use frames::Ask;
use service::{Bay, Moment};
use units::Mono;

const EXCHANGES: u32 = 20_000;
const ROUNDS: usize = 7;

/// The reply of the simulated control units to whatever a driver asks.
fn reply(line: &[u8]) -> &'static [u8] {
    match line {
        b" ATI\r" | b"ATWS\r" | b"ATZ\r" => b"ELM327 v2.1\r\r>",
        b"AT@1\r" | b"STI\r" | b"ATQ9\r" => b"?\r\r>",
        b"ATRV\r" => b"12.6V\r\r>",
        b"ATDPN\r" => b"A6\r\r>",
        b"0100\r" => b"7E8064100BE3FA813\r\r>",
        line if line.starts_with(b"AT") => b"OK\r\r>",
        line if line.starts_with(b"224D07") => b"7E904624D074E\r\r>",
        line if line.starts_with(b"010C") => b"7E804410C0BB8\r\r>",
        line if line.starts_with(b"0105") => b"7E80341057B\r\r>",
        _ => b"NO DATA\r\r>",
    }
}

/// A read loop that only cuts at prompts.
fn floor() -> Duration {
    let (mut held, mut cut) = (Vec::with_capacity(64), 0_usize);
    let start = Instant::now();
    for n in 0..EXCHANGES {
        let bytes = if n % 2 == 0 { reply(b"224D071\r") } else { reply(b"010C1\r") };
        for &byte in black_box(bytes) {
            if byte == b'>' {
                cut += black_box(held.len());
                held.clear();
            } else {
                held.push(byte);
            }
        }
    }
    black_box(cut);
    start.elapsed()
}

/// The driver alone: a line out, a reply in, what came of it out.
fn driver() -> Duration {
    let coolant = Poll::new(Ask::Current(0x05), Duration::ZERO);
    let mut driver = Driver::new(Schedule { gating: Some(coolant), ..Schedule::default() });
    let mut now = Mono::ZERO;
    driver.handle_opened(now);
    let mut run = |exchanges: u32| {
        let mut done = 0;
        while done < exchanges {
            match driver.poll_transmit(now) {
                Some(line) => {
                    now = now.after(Duration::from_millis(30));
                    driver.handle_bytes(black_box(reply(&line)), now);
                    done += 1;
                }
                None => now = driver.poll_timeout().unwrap_or(now).max(now.after(Duration::from_millis(1))),
            }
            while let Some(outcome) = driver.poll_outcome() {
                black_box(outcome);
            }
        }
    };
    run(200);
    let start = Instant::now();
    run(EXCHANGES);
    start.elapsed()
}

fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(i64::try_from(mono.as_millis()).unwrap_or(0)) }
}

/// From the last byte of a reply to its events, gate and job included; the mean and the slowest of a hundred.
fn byte_to_event() -> (Duration, Duration) {
    let sheet = events::Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    let mut bay = Bay::new(sheet, Seq(1), 0);
    let mut now = Mono::ZERO;
    bay.link_opened(None, moment(now));
    let mut took = Vec::with_capacity(EXCHANGES as usize);
    while took.len() < EXCHANGES as usize {
        match bay.poll_bytes(moment(now)) {
            Some(line) => {
                now = now.after(Duration::from_millis(30));
                let start = Instant::now();
                bay.bytes(black_box(reply(&line)), moment(now));
                while let Some(event) = bay.poll_event() {
                    black_box(event);
                }
                took.push(start.elapsed());
            }
            None => {
                now = bay.deadline().unwrap_or(now).max(now.after(Duration::from_millis(1)));
                bay.wake(moment(now));
            }
        }
    }
    took.sort_unstable();
    let mean = took.iter().sum::<Duration>() / EXCHANGES;
    (mean, took.get(took.len() * 99 / 100).copied().unwrap_or_default())
}

fn main() -> ExitCode {
    let best = |run: fn() -> Duration| (0..ROUNDS).map(|_| run()).min().unwrap_or_default() / EXCHANGES;
    let (floor, driver) = (best(floor), best(driver));
    let (mean, slow) = (0..ROUNDS).map(|_| byte_to_event()).min().unwrap_or_default();
    println!("floor, a read loop that cuts at prompts   {floor:>10.2?} an exchange");
    println!("driver, line out to outcome               {driver:>10.2?} an exchange");
    println!(
        "bay, last byte to events                  {mean:>10.2?} mean, {slow:.2?} at the 99th percentile"
    );
    let kind_changed = driver > 400 * floor || slow > Duration::from_millis(5);
    if kind_changed { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
