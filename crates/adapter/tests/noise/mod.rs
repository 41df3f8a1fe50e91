//! What a fuzzer of ours says to a driver, and what an original in a vehicle that has everything answers.

#![allow(dead_code, reason = "each file of tests uses its part")]

use std::time::Duration;

use adapter::{Driver, Header, Poll, Schedule};
use frames::Ask;
use proptest::collection::vec;
use proptest::prelude::*;

use crate::bench::{coolant, fluid, speed, split_digit};

/// What comes from the other end: bytes, or (empty) the right answer to whatever is being asked.
pub(crate) fn noise() -> impl Strategy<Value = (Vec<u8>, u64)> {
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

pub(crate) fn schedule() -> Schedule {
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
pub(crate) fn right(driver: &Driver, last: &[u8], rate: u32) -> Vec<u8> {
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
