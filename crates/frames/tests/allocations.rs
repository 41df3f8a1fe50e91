//! The path of a single reading allocates nothing; memory for any reply is bounded by its text.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use allocation_counter::measure;
use frames::{Ask, Bus, Encoding, Headers, Layout, Stream, decode_one, reply, single, status, values};

const SHOWN: Layout = Layout { bus: Bus::Can11, headers: Headers::Shown };

#[test]
fn a_single_reading_costs_no_allocation() {
    let ask = Ask::Current(0x0C);
    let sheet = Encoding {
        byte: 0,
        length: 1,
        signed: false,
        order: frames::ByteOrder::BigEndian,
        scale: 1.0,
        offset: -40.0,
        bits: None,
    };
    let info = measure(|| {
        let short = single(b"7E8 04 41 0C 1A F8 AA AA AA \r\r>", SHOWN, ask).unwrap();
        assert_eq!(decode_one(ask, short.data(), "engine-speed").unwrap().number(), Some(1726.0));
        assert_eq!(values(ask, short.data()).unwrap().count(), 1);
        let short = single(b"7E9 04 62 4D 07 4E \r\r>", SHOWN, Ask::Identifier(0x4D07)).unwrap();
        assert_eq!(sheet.read(&short.data()[3..]).unwrap().value, 38.0);
        assert!(status(b"NO DATA").is_some());
        assert!(
            single(b"48 6B 10 41 05 7B 06\r\r>", Layout { bus: Bus::J1850Vpw, ..SHOWN }, Ask::Current(5))
                .is_some()
        );
    });
    assert_eq!(info.count_total, 0);
}

#[test]
fn a_first_frame_that_announces_much_reserves_little() {
    let text: Vec<u8> = b"7E8 1F FF 62 4D 07 00 00 00 \r".repeat(200);
    let info = measure(|| {
        assert!(reply(&text, SHOWN, None).problem.is_some());
    });
    assert!(info.bytes_max < 200 * 1024, "{}", info.bytes_max);
}

#[test]
fn memory_is_bounded_by_the_text_and_by_the_limit_of_messages() {
    let text: Vec<u8> = b"7E8 03 41 05 7B \r".repeat(100_000);
    let info = measure(|| {
        let reply = reply(&text, SHOWN, None);
        assert_eq!(reply.messages.len(), 256);
        assert_eq!(reply.problem.unwrap().kind(), "too-much");
    });
    assert!(info.bytes_max < 128 * 1024, "{}", info.bytes_max);
}

#[test]
fn a_stream_without_prompts_keeps_no_more_than_its_limit() {
    let noise = vec![b'4'; 1 << 20];
    let info = measure(|| {
        let mut stream = Stream::default();
        for _ in 0..8 {
            stream.push(&noise, |_| {});
        }
        for byte in b"\r>41 05 7B\r>" {
            stream.push(&[*byte], |_| {});
        }
    });
    assert!(info.bytes_max <= 2 * Stream::LIMIT as u64, "{}", info.bytes_max);
}
