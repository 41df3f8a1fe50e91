//! How fast typical CAN replies are decoded, against a floor measured in the same run.
//!
//! The floor splits lines and converts digits and does nothing else: no decoder can be faster. The claim: a single
//! reading costs at most four times the floor, and two million are decoded in a second on the machine it was written
//! on (2 cores of a cloud server). `cargo bench -p frames` shows both and fails when the first is broken.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs, reason = "a bench prints and may panic")]

use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use frames::{Ask, Bus, Headers, Layout, decode, decode_one, messages, single};

#[global_allocator]
static ALLOC: divan::AllocProfiler = divan::AllocProfiler::system();

const LAYOUT: Layout = Layout { bus: Bus::Can11, headers: Headers::Shown };

/// What this program asks for most, as the adapter answers it with blanks off and on.
#[rustfmt::skip]
const REPLIES: &[(Ask, &str, &[u8])] = &[
    (Ask::Current(0x05), "engine-coolant-temperature",  b"7E80341057B\r\r>"),
    (Ask::Current(0x0C), "engine-speed",                b"7E804410C0BB8\r\r>"),
    (Ask::Current(0x0D), "vehicle-speed",               b"7E803410D00\r\r>"),
    (Ask::Current(0x42), "control-module-voltage",      b"7E804414236B0AAAAAA\r\r>"),
    (Ask::Current(0x05), "engine-coolant-temperature",  b"7E8 03 41 05 7B \r\r>"),
    (Ask::Current(0x0C), "engine-speed",                b"7E8 04 41 0C 1A F8 AA AA AA \r\r>"),
    (Ask::Current(0x0F), "intake-air-temperature",      b"7E8 03 41 0F 4B 00 00 00 00 \r\r>"),
    (Ask::Current(0x67), "engine-coolant-temperature-1", b"7E8 05 41 67 03 6E 6C \r\r>"),
];

/// The floor: every line's digits to bytes, blanks skipped; returns a sum so that nothing is optimised away.
fn split_and_convert(text: &[u8]) -> u32 {
    let mut sum = 0;
    for line in text.split(|byte| *byte == b'\r') {
        let mut half = None;
        for byte in line {
            let digit = match byte {
                b'0'..=b'9' => byte - b'0',
                b'A'..=b'F' => byte - b'A' + 10,
                _ => continue,
            };
            match half.take() {
                None => half = Some(digit),
                Some(high) => sum += u32::from(high << 4 | digit),
            }
        }
    }
    sum
}

fn floor_all() -> u32 {
    REPLIES.iter().map(|(_, _, text)| split_and_convert(black_box(text))).sum()
}

fn single_all() -> f64 {
    let read = |(ask, name, text): &(Ask, &str, &[u8])| {
        let short = single(black_box(text), LAYOUT, *ask).unwrap();
        decode_one(*ask, short.data(), name).unwrap().number().unwrap()
    };
    REPLIES.iter().map(read).sum()
}

fn general_all() -> usize {
    let read = |(ask, _, text): &(Ask, &str, &[u8])| {
        let messages = messages(black_box(text), LAYOUT, Some(*ask)).unwrap();
        messages.iter().map(|message| decode(*ask, &message.data).unwrap().len()).sum::<usize>()
    };
    REPLIES.iter().map(read).sum()
}

#[divan::bench]
fn floor_that_only_splits_and_converts(bencher: divan::Bencher<'_, '_>) {
    bencher.counter(divan::counter::ItemsCount::new(REPLIES.len())).bench(floor_all);
}

#[divan::bench]
fn single_reading(bencher: divan::Bencher<'_, '_>) {
    bencher.counter(divan::counter::ItemsCount::new(REPLIES.len())).bench(single_all);
}

#[divan::bench]
fn any_reply_to_all_values(bencher: divan::Bencher<'_, '_>) {
    bencher.counter(divan::counter::ItemsCount::new(REPLIES.len())).bench(general_all);
}

/// The shortest time for one reply, of many rounds: what the machine can do when nobody disturbs it.
fn best(rounds: usize, mut all: impl FnMut()) -> Duration {
    let time = |_| {
        let start = Instant::now();
        for _ in 0..1_000 {
            all();
        }
        start.elapsed() / (1_000 * REPLIES.len() as u32)
    };
    (0..rounds).map(time).min().unwrap_or_default()
}

fn main() -> ExitCode {
    divan::main();
    if std::env::args().any(|arg| arg == "--test" || arg == "--list") {
        return ExitCode::SUCCESS;
    }
    let (mut floor, mut reading) = (Duration::MAX, Duration::MAX);
    // In turns, so that both see the same machine.
    for _ in 0..20 {
        floor = floor.min(best(5, || {
            black_box(floor_all());
        }));
        reading = reading.min(best(5, || {
            black_box(single_all());
        }));
    }
    let share = floor.as_secs_f64() / reading.as_secs_f64();
    println!("floor {floor:?} a reply, single reading {reading:?}: {share:.2} of the floor's speed,");
    println!("{:.1} million replies a second", 1e-6 / reading.as_secs_f64());
    if share < 0.25 { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
