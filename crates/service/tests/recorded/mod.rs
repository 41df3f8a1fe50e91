//! A bay and a simulated adapter, what they say to each other, and the same bay on what was said.

#![allow(dead_code, reason = "each test uses its part of it")]

use std::time::Duration;

use adapter::recording::{self, About, Entry, Head, Traffic};
use events::{Event, Seq, Sheet, Utc};
use rehearsal::{Bus, Car, Fault, Firmware, SerialLine, Vehicle, World};
use service::{Bay, Moment};
use units::Mono;

const SECOND: Duration = Duration::from_secs(1);
/// No recording is longer.
const LIMIT: Mono = Mono::from_secs(180);

pub(crate) fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

pub(crate) fn bay(sheet: &Sheet) -> Bay {
    let mut bay = Bay::new(sheet.clone(), Seq(1), 0);
    bay.boot("recorded", "test", moment(Mono::ZERO));
    bay
}

fn drain(bay: &mut Bay, events: &mut Vec<Event>) {
    while let Some(event) = bay.poll_event() {
        events.push(event);
    }
}

/// A vehicle and its adapter.
pub(crate) fn car(bus: &'static Bus, firmware: &'static Firmware, sheet: &Sheet, faults: &[Fault]) -> Car {
    let world = World::new(sheet, Vehicle::typical(sheet, 21.0), None, faults, 5);
    Car::on(bus, world, sheet, firmware, SerialLine::USUAL, 5)
}

/// A bay and a vehicle until it is `done`, three simulated minutes at the most; what was said, and what came of it.
pub(crate) fn record(
    mut car: Car,
    sheet: &Sheet,
    done: impl Fn(&[Event], Mono) -> bool,
) -> (Vec<Entry>, Vec<Event>) {
    let mut bay = bay(sheet);
    let (mut entries, mut events) = (Vec::new(), Vec::new());
    let (mut now, mut open, mut reopen) = (Mono::ZERO, false, Mono::ZERO);
    while now < LIMIT && !done(&events, now) {
        if bay.deadline().is_some_and(|at| at <= now) {
            bay.wake(moment(now));
        }
        car.handle_timeout(now);
        loop {
            let mut worked = false;
            let mut note = |what| entries.push(Entry { at: now, what });
            while let Some(bytes) = bay.poll_bytes(moment(now)).filter(|_| open) {
                car.handle_bytes(&bytes, now);
                note(Traffic::Host(bytes));
                worked = true;
            }
            let lost = open && (bay.wants_reopen() || !car.plugged());
            if lost {
                (open, reopen) = (false, now.after(SECOND));
                note(Traffic::Closed { why: "its port closed".to_owned() });
                bay.link_closed("its port closed", moment(now));
            } else if !open && car.plugged() && reopen <= now {
                open = true;
                note(Traffic::Opened);
                bay.link_opened(None, moment(now));
            }
            while let Some(bytes) = car.poll_transmit(now).filter(|_| open) {
                bay.bytes(&bytes, moment(now));
                note(Traffic::Adapter(bytes));
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
pub(crate) fn replay(entries: &[Entry], sheet: &Sheet) -> Vec<Event> {
    let (events, sent) = played(entries, sheet);
    let said: Vec<(Mono, Vec<u8>)> = entries
        .iter()
        .filter_map(|entry| match &entry.what {
            Traffic::Host(bytes) => Some((entry.at, bytes.clone())),
            _ => None,
        })
        .collect();
    assert!(sent.starts_with(&said), "the same lines at the same times");
    events
}

/// What a new bay makes of a recording, and what it sends.
pub(crate) fn played(entries: &[Entry], sheet: &Sheet) -> (Vec<Event>, Vec<(Mono, Vec<u8>)>) {
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
            Traffic::Opened => bay.link_opened(None, now),
            Traffic::Closed { why } => {
                let _ = bay.wants_reopen();
                bay.link_closed(why, now);
            }
            Traffic::Adapter(bytes) => bay.bytes(bytes, now),
            Traffic::Host(_) => {}
        }
        while let Some(bytes) = bay.poll_bytes(now) {
            sent.push((entry.at, bytes));
        }
        drain(&mut bay, &mut events);
    }
    (events, sent)
}

pub(crate) fn head(about: About) -> Head {
    Head {
        recording: recording::RECORDING,
        program: "standpipe".to_owned(),
        device: "simulated".to_owned(),
        started: "2026-01-01T00:00:00Z".to_owned(),
        about,
    }
}

pub(crate) fn lines(events: &[Event]) -> Vec<String> {
    events.iter().map(|event| serde_json::to_string(event).unwrap()).collect()
}
