//! The line used as far as it goes, and a recording that replays to the same events.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    missing_docs,
    reason = "a test"
)]

use std::path::Path;
use std::time::Duration;

use adapter::recording::{self, Entry, Head, Said};
use adapter::{Driver, Poll, Schedule};
use events::{Event, Seq, Sheet, Utc};
use frames::Ask;
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, SerialLine, Vehicle, World, embedded, firmware};
use service::{Bay, Moment};
use units::Mono;

const SECOND: Duration = Duration::from_secs(1);

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

fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

fn bay(sheet: &Sheet) -> Bay {
    let mut bay = Bay::new(sheet.clone(), Seq(1), 0);
    bay.boot("recorded", "test", moment(Mono::ZERO));
    bay
}

fn drain(bay: &mut Bay, events: &mut Vec<Event>) {
    while let Some(event) = bay.poll_event() {
        events.push(event);
    }
}

/// Three simulated minutes of a bay and a vehicle; what was said, and what came of it.
fn record(firmware: &str, fault: FaultKind, sheet: &Sheet) -> (Vec<Entry>, Vec<Event>) {
    let faults = [Fault::new(fault, 30)];
    let world = World::new(sheet, Vehicle::typical(sheet, 21.0), None, &faults, 5);
    let firmware = Firmware::named(firmware).unwrap();
    let mut car = Car::on(Bus::usual(), world, sheet, firmware, SerialLine::USUAL, 5);
    let mut bay = bay(sheet);
    let (mut entries, mut events) = (Vec::new(), Vec::new());
    let (mut now, mut open, mut reopen) = (Mono::ZERO, false, Mono::ZERO);
    while now < Mono::from_secs(180) {
        if bay.deadline().is_some_and(|at| at <= now) {
            bay.wake(moment(now));
        }
        car.handle_timeout(now);
        loop {
            let mut worked = false;
            let mut note = |what| entries.push(Entry { at: now, what });
            while let Some(bytes) = bay.poll_bytes(moment(now)).filter(|_| open) {
                car.handle_bytes(&bytes, now);
                note(Said::Host(bytes));
                worked = true;
            }
            let lost = open && (bay.wants_reopen() || !car.plugged());
            if lost {
                (open, reopen) = (false, now.after(SECOND));
                note(Said::Closed { why: "its port closed".to_owned() });
                bay.link_closed("its port closed", moment(now));
            } else if !open && car.plugged() && reopen <= now {
                open = true;
                note(Said::Opened);
                bay.link_opened(None, moment(now));
            }
            while let Some(bytes) = car.poll_transmit(now).filter(|_| open) {
                bay.bytes(&bytes, moment(now));
                note(Said::Adapter(bytes));
                worked = true;
            }
            if !worked {
                break;
            }
        }
        drain(&mut bay, &mut events);
        let next = [bay.deadline(), car.poll_timeout(), (!open).then_some(reopen)];
        now = next.into_iter().flatten().min().unwrap_or(now).max(now.after(Duration::from_millis(1)));
    }
    (entries, events)
}

/// What a new bay makes of a recording; every line it sends must be the one that was sent then.
fn replay(entries: &[Entry], sheet: &Sheet) -> Vec<Event> {
    let (mut bay, mut events) = (bay(sheet), Vec::new());
    let mut sent = Vec::new();
    for entry in entries {
        while let Some(at) = bay.deadline().filter(|at| *at <= entry.at) {
            bay.wake(moment(at));
            while let Some(bytes) = bay.poll_bytes(moment(at)) {
                sent.push((at, bytes));
            }
            drain(&mut bay, &mut events);
        }
        let now = moment(entry.at);
        match &entry.what {
            Said::Opened => bay.link_opened(None, now),
            Said::Closed { why } => {
                let _ = bay.wants_reopen();
                bay.link_closed(why, now);
            }
            Said::Adapter(bytes) => bay.bytes(bytes, now),
            Said::Host(_) => {}
        }
        while let Some(bytes) = bay.poll_bytes(now) {
            sent.push((entry.at, bytes));
        }
        drain(&mut bay, &mut events);
    }
    let said: Vec<(Mono, Vec<u8>)> = entries
        .iter()
        .filter_map(|entry| match &entry.what {
            Said::Host(bytes) => Some((entry.at, bytes.clone())),
            _ => None,
        })
        .collect();
    assert!(sent.starts_with(&said), "the same lines at the same times");
    events
}

fn head() -> Head {
    Head {
        recording: recording::RECORDING,
        program: "standpipe".to_owned(),
        device: "simulated".to_owned(),
        started: "2026-01-01T00:00:00Z".to_owned(),
    }
}

fn lines(events: &[Event]) -> Vec<String> {
    events.iter().map(|event| serde_json::to_string(event).unwrap()).collect()
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
        let (entries, events) = record(firmware, fault, &sheet);
        let text: String = std::iter::once(head().line())
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

/// A recording that is kept: a later version of the program must make of it what this one does, or say why not.
#[test]
fn golden_a_kept_recording_means_what_it_meant() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/recordings");
    let (file, want) = (folder.join("copy-1.5-no-data.jsonl"), folder.join("copy-1.5-no-data.events"));
    let sheet = embedded::six_speed();
    if !file.exists() && std::env::var_os("BLESS").is_some() {
        let (entries, _) = record("copy-1.5", FaultKind::NoData, &sheet);
        let minute = entries.iter().take_while(|entry| entry.at < Mono::from_secs(90));
        let text: String =
            std::iter::once(head().line()).chain(minute.map(Entry::line)).map(|line| line + "\n").collect();
        std::fs::write(&file, text).unwrap();
    }
    let (_, entries) = recording::read(&std::fs::read_to_string(&file).unwrap()).unwrap();
    let (mut bay, mut events) = (bay(&sheet), Vec::new());
    for entry in &entries {
        while let Some(at) = bay.deadline().filter(|at| *at <= entry.at) {
            bay.wake(moment(at));
            while bay.poll_bytes(moment(at)).is_some() {}
        }
        match &entry.what {
            Said::Opened => bay.link_opened(None, moment(entry.at)),
            Said::Closed { why } => bay.link_closed(why, moment(entry.at)),
            Said::Adapter(bytes) => bay.bytes(bytes, moment(entry.at)),
            Said::Host(_) => {}
        }
        while bay.poll_bytes(moment(entry.at)).is_some() {}
        drain(&mut bay, &mut events);
    }
    let got = lines(&events).join("\n") + "\n";
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&want, &got).unwrap();
    }
    let want = std::fs::read_to_string(&want).unwrap();
    for (at, (got, want)) in got.lines().zip(want.lines()).enumerate() {
        assert_eq!(got, want, "event {at}");
    }
    assert_eq!(got.lines().count(), want.lines().count());
}
