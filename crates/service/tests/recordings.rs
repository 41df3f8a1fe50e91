//! One recording for each simulated firmware and each bus, with a full head: what was said, and what the bay made of it.
//!
//! A later version of the program must send the same lines at the same times and come to the same events, or the commit says why not.
//! `BLESS=1` records what is not there yet, and writes the events anew. The files are those of simulated adapters: no vehicle and no
//! adapter was recorded (`fixtures/recordings/README.md`).

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, missing_docs, reason = "a test")]

mod recorded;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use adapter::recording::{self, About, Entry};
use events::{Body, Event, Sheet};
use recorded::{car, head, lines, played, record, replay};
use rehearsal::{Bus, Fault, FaultKind, Firmware, bus, embedded, firmware};
use units::Mono;

/// What is kept: a name, the firmware, the bus, and what goes wrong after half a minute.
type Kept = (String, &'static Firmware, &'static Bus, Option<FaultKind>);

fn kept() -> Vec<Kept> {
    let each = firmware::ALL.iter().map(|firmware| (*firmware, Bus::usual()));
    // Every bus by the plain firmware and by a copy that numbers and prints otherwise.
    let plain = bus::ALL.iter().map(|bus| (&firmware::ORIGINAL_21, *bus));
    let copy = bus::ALL.iter().map(|bus| (&firmware::COPY_15, *bus));
    let mut seen = BTreeSet::new();
    let all = each.chain(plain).chain(copy).map(|(f, b)| (format!("{}-{}", f.name, b.name), f, b, None));
    let spoilt = ("copy-1.5-no-data".to_owned(), &firmware::COPY_15, Bus::usual(), Some(FaultKind::NoData));
    all.filter(|(name, ..)| seen.insert(name.clone())).chain([spoilt]).collect()
}

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/recordings");

fn path(name: &str, extension: &str) -> PathBuf {
    Path::new(FOLDER).join(format!("{name}.{extension}"))
}

fn about((_, firmware, bus, fault): &Kept) -> About {
    let fault = fault.map_or_else(String::new, |fault| format!(" Then {fault}."));
    About {
        firmware: Some(format!("{} ({})", firmware.name, firmware.identity)),
        bus: Some(bus.name.to_owned()),
        vehicle: Some("simulated, 21 °C, ignition on, two control units answer".to_owned()),
        guards: Some(format!("{}{fault}", firmware.says)),
        by: Some("crates/service/tests/recordings.rs".to_owned()),
        licence: Some("as the project's".to_owned()),
    }
}

/// Two seconds after the signal that gates was read first, or half a minute.
fn is_enough(events: &[Event], now: Mono) -> bool {
    let first = events.iter().find(|e| matches!(&e.body, Body::Estimate(_)));
    first.is_some_and(|first| now.since(first.mono_ms).as_secs() >= 2) || now >= Mono::from_secs(30)
}

/// A sheet names its control unit by an address of eleven bits; on the other buses it goes by the coolant, which has none.
fn sheet(bus: &Bus) -> Sheet {
    let coolant = include_str!("../../../fixtures/sheets/demo-coolant-only.toml");
    if bus.form == frames::Bus::Can11 { embedded::six_speed() } else { Sheet::parse(coolant).unwrap() }
}

fn made(kept: &Kept) {
    let (name, firmware, bus, fault) = kept;
    let sheet = sheet(bus);
    let faults: Vec<Fault> = fault.map(|fault| Fault::new(fault, 30)).into_iter().collect();
    let minute = |now: Mono| now >= Mono::from_secs(90);
    let done = |events: &[Event], now| if faults.is_empty() { is_enough(events, now) } else { minute(now) };
    let (entries, _) = record(car(bus, firmware, &sheet, &faults), &sheet, done);
    let lines = std::iter::once(head(about(kept)).line()).chain(entries.iter().map(Entry::line));
    std::fs::write(path(name, "jsonl"), lines.map(|line| line + "\n").collect::<String>()).unwrap();
}

#[test]
fn golden_each_recording_means_what_it_meant() {
    let bless = std::env::var_os("BLESS").is_some();
    let kept = kept();
    assert!(kept.len() >= 60, "{}", kept.len());
    for one in &kept {
        let (name, firmware, bus, fault) = one;
        if bless && !path(name, "jsonl").exists() {
            made(one);
        }
        let text = std::fs::read_to_string(path(name, "jsonl")).unwrap();
        let (head, entries) = recording::read(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
        assert_eq!(head.about, about(one), "{name}: a full head, as the firmware says of itself");
        // The one with a fault was recorded by an earlier version, whose lines came a millisecond sooner: only what it means is compared.
        let events =
            if fault.is_some() { played(&entries, &sheet(bus)).0 } else { replay(&entries, &sheet(bus)) };
        let got = lines(&events);
        if bless {
            std::fs::write(path(name, "events"), got.join("\n") + "\n").unwrap();
        }
        let want = std::fs::read_to_string(path(name, "events")).unwrap();
        for (at, (got, want)) in got.iter().zip(want.lines()).enumerate() {
            assert_eq!(got, want, "{name}: event {at}");
        }
        assert_eq!(got.len(), want.lines().count(), "{name}");
        // And it guards something: what can be read is read in it.
        let reads = got.iter().any(|line| line.contains(r#""kind":"estimate""#));
        // Two control units answer: who sent a value must be told by its header.
        let readable = firmware.reads() && !firmware.has(firmware::Habit::HeadersStay);
        assert_eq!(reads, readable, "{name}: {} events", got.len());
    }
}

#[test]
fn no_recording_is_left_over() {
    let known: BTreeSet<String> = kept().into_iter().map(|(name, ..)| name).collect();
    for file in std::fs::read_dir(FOLDER).unwrap() {
        let file = file.unwrap().path();
        let stem = file.file_stem().unwrap().to_string_lossy().into_owned();
        assert!(stem == "README" || known.contains(&stem), "{stem} is no firmware on a bus");
    }
}
