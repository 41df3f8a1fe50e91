//! What must hold whatever an adapter says: nothing outside the allow-list is sent, nothing is sent into a running
//! exchange, no lone line end, no panic, and memory stays bounded.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;

use std::time::Duration;

use adapter::{Driver, Header, Poll, Schedule};
use bench::{coolant, fluid, is_allowed_after, speed, split_digit};
use frames::Ask;
use proptest::collection::vec;
use proptest::prelude::*;
use units::Mono;

/// What comes from the other end: bytes, or (empty) the right answer to whatever is being asked.
fn noise() -> impl Strategy<Value = (Vec<u8>, u64)> {
    let known = prop_oneof![
        Just("OK\r\r>"),
        Just("OK\r"),
        Just("ELM327 v2.1\r"),
        Just("?\r\r>"),
        Just("ELM327 v1.5\r\r>"),
        Just("\r\rELM327 v2.1\r\r>"),
        Just("STN1110 v4.0.4\r\r>"),
        Just("7E8064100BE3FA813\r\r>"),
        Just("7E9056219405500\r\r>"),
        Just("7E80341057B\r\r>"),
        Just("7E9037F2278\r"),
        Just("A6\r\r>"),
        Just("SEARCHING..."),
        Just("BUS INIT: ...ERROR\r\r>"),
        Just("UNABLE TO CONNECT\r\r>"),
        Just("NO DATA\r\r>"),
        Just("STOPPED\r\r>"),
        Just("CAN ERROR\r\r>"),
        Just("LV RESET\r\r>"),
        Just("\rLP ALERT\r"),
        Just("\rACT ALERT\r\r>"),
        Just("ERR94\r\r>"),
        Just("BUFFER FULL\r\r>"),
        Just("12.6V\r\r>"),
        Just(">"),
        Just("\r"),
    ]
    .prop_map(|text| text.as_bytes().to_vec());
    let bytes = prop_oneof![8 => Just(Vec::new()), 4 => known, 1 => vec(any::<u8>(), 0..40), 1 => vec(prop_oneof![Just(b'>'), Just(b'\r'), any::<u8>()], 0..20)];
    (bytes, prop_oneof![Just(0_u64), Just(5), 0_u64..3_000, 0_u64..40_000])
}

fn schedule() -> Schedule {
    let far = Header::parse("18DA18F1").unwrap();
    Schedule {
        gating: Some(fluid()),
        others: vec![coolant(), speed(), Poll::new(Ask::Current(0x0D), Duration::ZERO).to(far)],
        once: vec![
            Poll::new(Ask::VehicleInfo(0x02), Duration::ZERO),
            Poll::new(Ask::StoredCodes, Duration::ZERO),
        ],
        floor: Duration::from_millis(20),
    }
}

/// The reply of an original in a vehicle that has everything; `last` is the line it has heard.
fn right(driver: &Driver, last: &[u8], rate: u32) -> Vec<u8> {
    let line = driver.asking().map(|command| command.to_string()).unwrap_or_default();
    let text = match split_digit(&line).0 {
        "" => "",
        "ATBRD23" if last == b"\r" => "OK\r\r>",
        "ATBRD23" if rate == 115_200 => "ELM327 v2.1\r",
        "ATBRD23" => "OK\r",
        "ATI" | "ATZ" | "ATWS" => "ELM327 v2.1\r\r>",
        "AT@1" | "STI" | "ATQ9" => "?\r\r>",
        "ATRV" => "12.6V\r\r>",
        "ATDPN" => "A6\r\r>",
        "0100" => "7E8064100BE3FA813\r\r>",
        "0105" => "7E80341057B\r\r>",
        "010C" => "7E804410C1AF8\r\r>",
        "221940" => "7E9056219405500\r\r>",
        other if other.starts_with("AT") => "OK\r\r>",
        _ => "NO DATA\r\r>",
    };
    text.as_bytes().to_vec()
}

/// Plays `noises` to a driver and checks every line that it sends; how many there were.
fn play(noises: &[(Vec<u8>, u64)], found: Option<u32>) -> Result<Vec<Vec<u8>>, TestCaseError> {
    let mut driver = Driver::new(schedule()).thorough();
    let mut now = Mono::ZERO;
    driver.handle_opened_at(found, now);
    let (mut sent, mut outcomes, mut all) = (0, 0, Vec::<Vec<u8>>::new());
    let mut rate = found.unwrap_or_default();
    for (bytes, after) in noises {
        let until = now.after(Duration::from_millis(*after));
        // Time-outs on the way, as a caller would see them.
        while let Some(at) = driver.poll_timeout().filter(|at| *at <= until) {
            now = now.max(at);
            driver.handle_timeout(now);
            let asking = driver.asking();
            let mut lines = 0;
            while let Some(line) = driver.poll_transmit(now) {
                prop_assert!(is_allowed_after(all.last().map(Vec::as_slice), &line), "{line:?}");
                all.push(line.to_vec());
                lines += 1;
            }
            rate = driver.poll_rate().unwrap_or(rate);
            prop_assert!(lines <= 1, "one line, one prompt");
            prop_assert!(asking.is_none() || lines == 0, "sent into a running exchange: {asking:?}");
            sent += lines;
            if lines == 0 && driver.poll_timeout() == Some(at) {
                prop_assert!(false, "a timer that ended is still there: {:?}", driver.waiting_for());
            }
        }
        now = until;
        let right = right(&driver, all.last().map_or(b"", Vec::as_slice), rate);
        driver.handle_bytes(if bytes.is_empty() { &right } else { bytes }, now);
        let asking = driver.asking();
        let mut lines = 0;
        while let Some(line) = driver.poll_transmit(now) {
            prop_assert!(is_allowed_after(all.last().map(Vec::as_slice), &line), "{line:?}");
            all.push(line.to_vec());
            lines += 1;
        }
        rate = driver.poll_rate().unwrap_or(rate);
        prop_assert!([115_200, found.unwrap_or_default()].contains(&rate), "{rate}");
        prop_assert!(lines <= 1 && (asking.is_none() || lines == 0));
        sent += lines;
        let mut told = 0;
        while driver.poll_outcome().is_some() {
            told += 1;
        }
        outcomes += told;
        prop_assert!(told < 40, "{told} outcomes at once");
    }
    prop_assert!(outcomes < 200 + 4 * (sent + noises.len()));
    Ok(all)
}

proptest! {
    #[test]
    fn no_sequence_of_replies_makes_it_send_anything_outside_the_allow_list(
        noises in vec(noise(), 0..120),
        found in prop_oneof![Just(None), Just(Some(9_600)), Just(Some(38_400))],
    ) {
        play(&noises, found)?;
    }

    #[test]
    fn a_flood_without_a_prompt_is_bounded(bytes in vec(any::<u8>(), 1..64), times in 1_000_usize..4_000) {
        let mut driver = Driver::new(schedule());
        driver.handle_opened(Mono::ZERO);
        let flood: Vec<u8> = bytes.iter().copied().filter(|byte| *byte != b'>').collect();
        for n in 0..times {
            driver.handle_bytes(&flood, Mono::from_millis(n as u64));
            prop_assert!(driver.poll_transmit(Mono::from_millis(n as u64)).is_none_or(|line| is_allowed_after(None, &line)));
        }
        // What it holds is private; that it is bounded shows in what a resync drops.
        prop_assert!(driver.counts().dropped <= 8 * adapter::Codec::REPLY_BYTES as u64);
    }
}

#[test]
fn the_play_reaches_polling_so_that_its_proof_covers_everything() {
    let sent = play(&vec![(Vec::new(), 100); 200], Some(9_600)).unwrap();
    assert!(sent.len() > 100);
    for line in [&b"ATBRD23\r"[..], b"\r", b"0105\r", b"01051\r", b"2219401\r", b"ATCTM1\r"] {
        assert!(sent.iter().any(|sent| sent == line), "{}", line.escape_ascii());
    }
}
