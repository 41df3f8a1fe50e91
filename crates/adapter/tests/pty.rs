//! One story over a real pseudo-terminal, through the real serial code: found, connected, read, unplugged.
//!
//! The loop is what a caller writes, save that its clock stands still while a reply is awaited and jumps while none is:
//! so no speed of the machine matters.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test")]

use std::time::Duration;

use adapter::{Device, Driver, Loss, Opener, Outcome, Poll, Schedule};
use frames::Ask;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio_serial::{SerialPort, SerialStream};
use units::Mono;

/// An original in a vehicle with one control unit; hangs up when it has been asked for the temperature three times.
async fn adapter_side(mut port: SerialStream) {
    let (mut line, mut asked) = (Vec::new(), 0);
    let mut byte = [0];
    while port.read_exact(&mut byte).await.is_ok() {
        if byte != *b"\r" {
            // Spaces in front are ignored.
            if !(line.is_empty() && byte == *b" ") {
                line.extend_from_slice(&byte);
            }
            continue;
        }
        let text = match line.trim_ascii() {
            b"ATI" | b"ATWS" => "ELM327 v2.1\r\r>",
            b"AT@1" | b"STI" | b"ATQ9" => "?\r\r>",
            b"ATRV" => "12.6V\r\r>",
            b"ATDPN" => "A6\r\r>",
            b"0100" => "SEARCHING...\r7E8064100BE3FA813\r\r>",
            b"0105" | b"01051" => "7E80341057B\r\r>",
            _ => "OK\r\r>",
        };
        asked += u32::from(line.starts_with(b"0105"));
        line.clear();
        if asked > 4 {
            return;
        }
        port.write_all(text.as_bytes()).await.unwrap();
    }
}

/// Runs `driver` on `device` until it is lost; everything that it told.
async fn run(device: &Device, driver: &mut Driver) -> Vec<Outcome> {
    let mut now = Mono::ZERO;
    let mut link = device.open().await.unwrap();
    let (mut told, mut piece) = (Vec::new(), [0; 256]);
    driver.handle_opened(now);
    loop {
        while let Some(line) = driver.poll_transmit(now) {
            // An unplugged port may refuse; the read below tells.
            let _ = link.write_all(&line).await;
        }
        while let Some(outcome) = driver.poll_outcome() {
            let lost = matches!(outcome, Outcome::Lost { .. } | Outcome::NotAnAdapter { .. });
            told.push(outcome);
            if lost {
                return told;
            }
        }
        if driver.asking().is_none() {
            now = driver.poll_timeout().unwrap();
            driver.handle_timeout(now);
            continue;
        }
        match link.read(&mut piece).await {
            Ok(0) | Err(_) => driver.handle_closed(now),
            Ok(count) => driver.handle_bytes(piece.get(..count).unwrap(), now),
        }
    }
}

#[test]
fn an_adapter_behind_a_pseudo_terminal_is_found_read_and_missed_when_it_is_unplugged() {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    let told = runtime.block_on(async {
        let (far, near) = SerialStream::pair().unwrap();
        let device: Device = near.name().unwrap().parse().unwrap();
        drop(near);
        let coolant = Poll::new(Ask::Current(0x05), Duration::ZERO);
        let mut driver = Driver::new(Schedule { gating: Some(coolant), ..Schedule::default() });
        let (told, ()) = tokio::join!(run(&device, &mut driver), adapter_side(far));
        told
    });
    assert!(told.iter().any(|outcome| matches!(outcome, Outcome::Connected { .. })), "{told:?}");
    let answers = told.iter().filter(|outcome| matches!(outcome, Outcome::Answer { .. })).count();
    assert_eq!(answers, 3, "the first of the four only asks for a second: {told:?}");
    let Some(Outcome::Lost { why: Loss::LinkClosed, asking: Some(asking) }) = told.last() else {
        panic!("{told:?}");
    };
    assert_eq!(asking.ask(), Some(Ask::Current(0x05)));
}
