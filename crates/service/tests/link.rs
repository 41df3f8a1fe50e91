//! The line used as far as it goes, and a recording that replays to the same events.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    missing_docs,
    reason = "a test"
)]

mod recorded;

use std::time::Duration;

use adapter::recording::{self, About, Entry};
use adapter::{Driver, Poll, Schedule};
use frames::Ask;
use recorded::{car, head, lines, record, replay};
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, SerialLine, Vehicle, World, embedded, firmware};
use units::Mono;

/// Exchanges per second once the count of replies is learnt, on the simulated line.
fn exchanges_per_second(bus: &str, baud: u32, latency_ms: f64) -> f64 {
    let (sheet, bus) = (embedded::six_speed(), Bus::named(bus).unwrap());
    let world = World::new(&sheet, Vehicle::typical(&sheet, 21.0), None, &[], 1);
    let mut car = Car::on(bus, world, &sheet, &firmware::ORIGINAL_21, SerialLine { baud, latency_ms }, 1);
    let coolant = Poll::new(Ask::Current(0x05), Duration::ZERO);
    let mut driver = Driver::new(Schedule { gating: Some(coolant), ..Schedule::default() });
    let (begin, end) = (Mono::from_secs(40), Mono::from_secs(160));
    let (mut now, mut before) = (Mono::ZERO, None);
    driver.handle_opened(now);
    while now < end {
        car.handle_timeout(now);
        driver.handle_timeout(now);
        loop {
            let mut worked = false;
            while let Some(line) = driver.poll_transmit(now) {
                car.handle_bytes(&line, now);
                worked = true;
            }
            while let Some(bytes) = car.poll_transmit(now) {
                driver.handle_bytes(&bytes, now);
                worked = true;
            }
            if !worked {
                break;
            }
        }
        while driver.poll_outcome().is_some() {}
        if now >= begin && before.is_none() {
            before = Some((now, driver.counts().replies));
        }
        let next = [driver.poll_timeout(), car.poll_timeout()].into_iter().flatten().min().unwrap_or(end);
        now = next.max(now.after(Duration::from_millis(1)));
    }
    let (from, replies) = before.unwrap();
    (driver.counts().replies - replies) as f64 / now.since(from).as_secs_f64()
}

#[test]
fn the_line_is_used_to_95_percent_of_what_it_allows() {
    // poll_rate.csv: count digit, spaces off, one control unit; the last column is exchanges per second.
    let table = include_str!("../../../fixtures/reference/adapter/poll_rate.csv");
    let allowed = |start: &str| -> f64 {
        let row = table.lines().find(|line| line.starts_with(start)).unwrap();
        row.rsplit(',').next().unwrap().parse().unwrap()
    };
    let cases = [
        ("can-11-500", 38_400, 16.0, "CAN 11/500,6,38400,S0,count digit,16,"),
        ("can-11-500", 115_200, 16.0, "CAN 11/500,6,115200,S0,count digit,16,"),
        ("can-11-500", 38_400, 1.0, "CAN 11/500,6,38400,S0,count digit,1,"),
        ("iso-9141-2", 38_400, 16.0, "ISO 9141-2 10.4k,3,38400,S0,count digit,16,"),
        ("iso-9141-2", 115_200, 16.0, "ISO 9141-2 10.4k,3,115200,S0,count digit,16,"),
    ];
    for (bus, baud, latency_ms, row) in cases {
        let (reached, allowed) = (exchanges_per_second(bus, baud, latency_ms), allowed(row));
        eprintln!("{bus} at {baud}: {reached:.1} of {allowed:.1} exchanges per second");
        assert!(reached >= 0.95 * allowed, "{bus} at {baud}: {reached:.2} of {allowed:.2} per second");
        assert!(
            reached <= 1.03 * allowed,
            "{bus} at {baud}: {reached:.2} of {allowed:.2}: the line is too fast"
        );
    }
}

#[test]
fn a_recording_replays_to_the_same_events() {
    let sheet = embedded::six_speed();
    let cases = [
        ("original-2.1", FaultKind::NoData),
        ("copy-1.5", FaultKind::DropBytes),
        ("copy-yes", FaultKind::SilentReset),
        ("other-family", FaultKind::ReEnumerated),
        ("copy-radio", FaultKind::LatePrompt),
    ];
    for (firmware, fault) in cases {
        let faults = [Fault::new(fault, 30)];
        let car = car(Bus::usual(), Firmware::named(firmware).unwrap(), &sheet, &faults);
        let (entries, events) = record(car, &sheet, |_, _| false);
        let text: String = std::iter::once(head(About::default()).line())
            .chain(entries.iter().map(Entry::line))
            .map(|line| line + "\n")
            .collect();
        let (_, read) = recording::read(&text).unwrap();
        assert_eq!(read, entries, "{firmware}: the file holds what was said");
        let (live, again) = (lines(&events), lines(&replay(&read, &sheet)));
        assert!(live.len() > 300, "{firmware}: {} events", live.len());
        // Live went on to the end of the last second, the recording ends with its last line.
        for (at, (live, again)) in live.iter().zip(&again).enumerate() {
            assert_eq!(live, again, "{firmware} × {fault}: event {at}");
        }
        assert!(live.len() - again.len() < 10, "{firmware}: {} and {} events", live.len(), again.len());
    }
}
