//! What must hold whatever an adapter says: nothing outside the allow-list is sent, nothing is sent into a running
//! exchange, no lone line end, no panic, and memory stays bounded.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;
mod noise;

use std::time::Duration;

use adapter::Driver;
use bench::is_allowed_after;
use noise::{noise, right, schedule};
use proptest::collection::vec;
use proptest::prelude::*;
use units::Mono;

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
    for line in [&b"ATBRD23\r"[..], b"\r", b"0105\r", b"  01051\r", b"2219401\r", b"ATCTM1\r"] {
        assert!(sent.iter().any(|sent| sent == line), "{}", line.escape_ascii());
    }
}
