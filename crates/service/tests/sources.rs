//! Who is believed: several control units behind one request, and an adapter that comes back in another vehicle.
//!
//! A bay in memory and an adapter by the book, whose replies are written in the test.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, missing_docs, reason = "a test")]

use std::time::Duration;

use events::{Body, Fault, LinkChange, Measure, Quantity, Reason, Request, Seq, Sheet, Told, Utc, Verdict};
use service::{Bay, Moment};
use units::Mono;

const STEP: Duration = Duration::from_millis(20);
const HERE: &str = "ZZ9DEM6S9XY000042";
const ELSEWHERE: &str = "ZZ9DEM8S0XY000017";

/// What the units say: their coolant temperature, and the number of the vehicle.
struct Adapter<F: Fn(u64) -> Vec<(&'static str, u8)>> {
    coolant: F,
    vin: &'static str,
}

/// What an adapter says to a line.
trait Replies {
    fn reply(&self, line: &str, at: Mono) -> String;
}

/// By the book, and beside it the transmission's unit with what it says at a second.
struct Transmission<F: Fn(u64) -> &'static str>(F);

impl<F: Fn(u64) -> &'static str> Replies for Transmission<F> {
    fn reply(&self, line: &str, at: Mono) -> String {
        // With its count digit or without.
        match line.trim().starts_with("224D07") {
            true => format!("7E9 {}\r\r>", (self.0)(at.as_millis() / 1_000)),
            false => Adapter { coolant: |_| vec![("7E8", 60)], vin: HERE }.reply(line, at),
        }
    }
}

impl<F: Fn(u64) -> Vec<(&'static str, u8)>> Replies for Adapter<F> {
    fn reply(&self, line: &str, at: Mono) -> String {
        let line = line.trim();
        let ask = if line.starts_with("01") && line.len() == 5 { &line[..4] } else { line };
        let of_all = |data: &str| format!("7E8 {data}\r");
        let text = match ask {
            "ATZ" | "ATWS" | "ATI" => "ELM327 v1.5\r".to_owned(),
            "ATRV" => "14.1V\r".to_owned(),
            "ATDPN" => "6\r".to_owned(),
            _ if ask.starts_with("AT") => "OK\r".to_owned(),
            "0100" => of_all("06 41 00 BE 3F A8 13"),
            "0105" => {
                let units = (self.coolant)(at.as_millis() / 1_000);
                units.iter().map(|(unit, t)| format!("{unit} 03 41 05 {:02X}\r", t + 40)).collect()
            }
            // 700 and 702 revolutions a minute: an engine never turns equally fast for long.
            "010C" => of_all(&format!("04 41 0C 0A {:02X}", 0xF0 + at.as_millis() / 5_000 % 2 * 8)),
            "010D" => of_all("03 41 0D 00"),
            "0902" => {
                let hex: Vec<String> = self.vin.bytes().map(|b| format!("{b:02X}")).collect();
                format!(
                    "7E8 10 14 49 02 01 {}\r7E8 21 {}\r7E8 22 {}\r",
                    hex[..3].join(" "),
                    hex[3..10].join(" "),
                    hex[10..].join(" ")
                )
            }
            _ => "NO DATA\r".to_owned(),
        };
        format!("{text}\r>")
    }
}

fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

struct Bench {
    bay: Bay,
    now: Mono,
    events: Vec<Body>,
}

impl Bench {
    fn new(sheet: Sheet) -> Self {
        let mut bay = Bay::new(sheet, Seq(1), 0);
        bay.boot("test", "0", moment(Mono::ZERO));
        bay.link_opened(None, moment(Mono::ZERO));
        Self { bay, now: Mono::ZERO, events: Vec::new() }
    }

    fn tell(&mut self, request: Request) {
        let told = Told { id: format!("{request:?}"), by: None, request };
        let word = self.bay.tell(&told, moment(self.now));
        assert!(matches!(word, events::Word::Accepted { .. }), "{word:?}");
    }

    fn run(&mut self, seconds: u64, adapter: &impl Replies) {
        let until = self.now.after(Duration::from_secs(seconds));
        while self.now < until {
            self.bay.wake(moment(self.now));
            let _ = self.bay.wants_reopen();
            while let Some(line) = self.bay.poll_bytes(moment(self.now)) {
                self.now = self.now.after(STEP);
                let reply = adapter.reply(&String::from_utf8(line).unwrap(), self.now);
                self.bay.bytes(reply.as_bytes(), moment(self.now));
            }
            self.events.extend(std::iter::from_fn(|| self.bay.poll_event()).map(|event| event.body));
            self.now = self.now.after(STEP);
        }
    }

    fn unplug(&mut self) {
        self.bay.link_closed("unplugged", moment(self.now));
        self.now = self.now.after(Duration::from_secs(5));
        self.bay.link_opened(None, moment(self.now));
    }

    fn coolants(&self) -> Vec<(f64, String)> {
        let coolant = |body: &Body| match body {
            Body::Reading(r) if matches!(r.measure, Measure::Coolant(_)) => {
                Some((r.measure.plain().0, r.from.clone().unwrap_or_default()))
            }
            _ => None,
        };
        self.events.iter().filter_map(coolant).collect()
    }

    fn fluids(&self) -> Vec<f64> {
        let fluid = |body: &Body| match body {
            Body::Reading(r) if matches!(r.measure, Measure::Fluid(_)) => Some(r.measure.plain().0),
            _ => None,
        };
        self.events.iter().filter_map(fluid).collect()
    }

    fn verdicts(&self, of: Verdict) -> usize {
        self.events.iter().filter(|b| matches!(b, Body::Verdict { verdict, .. } if *verdict == of)).count()
    }

    fn reasons(&self) -> Vec<Reason> {
        self.bay.snapshot(moment(self.now)).reasons
    }
}

/// Gated on coolant, with nothing asked before it but what any check asks.
fn coolant(from: Option<&str>) -> Sheet {
    let mut sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-coolant-only.toml")).unwrap();
    sheet.check.from = from.map(str::to_owned);
    sheet
}

#[test]
fn of_two_units_the_engines_own_counts_wherever_its_line_stands() {
    let mut bench = Bench::new(coolant(None));
    bench.run(60, &Adapter { coolant: |s| vec![("7EA", 60), ("7E8", 60 + (s / 30) as u8)], vin: HERE });
    let coolants = bench.coolants();
    assert!(coolants.len() > 60, "{}", coolants.len());
    assert!(coolants.iter().all(|(_, from)| from == "7E8"), "{coolants:?}");
    let told = bench.events.iter().any(|body| {
        matches!(body, Body::Link(LinkChange::Source { name: Quantity::CoolantTemperature, from, others })
            if from == "7E8" && others == &["7EA"])
    });
    assert!(told, "who counts is told");
}

#[test]
fn units_that_differ_by_more_than_3_degrees_are_no_reading_until_the_sheet_says_who_is_right() {
    let apart = || Adapter { coolant: |_| vec![("7EA", 62), ("7E8", 98)], vin: HERE };
    let mut bench = Bench::new(coolant(None));
    bench.tell(Request::start());
    bench.run(30, &apart());
    assert!(bench.reasons().contains(&Reason::UnitsDisagree), "{:?}", bench.reasons());
    assert_eq!(bench.bay.snapshot(moment(bench.now)).estimate, None, "worth nothing");
    let named = bench.events.iter().any(|body| {
        matches!(body, Body::Fault { fault: Fault::UnitsDisagree, detail: Some(detail), .. }
            if detail.contains("7EA 62") && detail.contains("7E8 98"))
    });
    assert!(named, "with who says what");
    let mut bench = Bench::new(coolant(Some("7EA")));
    bench.tell(Request::start());
    bench.run(30, &apart());
    assert!(!bench.reasons().contains(&Reason::UnitsDisagree), "{:?}", bench.reasons());
    assert!(bench.coolants().iter().all(|(t, from)| (*t, from.as_str()) == (62.0, "7EA")));
}

#[test]
fn a_unit_that_stands_in_gives_way_and_what_it_proved_is_forgotten() {
    // The other unit alone climbs through the band's foot; then the engine's own appears.
    let climbs = |s: u64| (30 + s / 4) as u8;
    let alone = Adapter { coolant: move |s| vec![("7EA", climbs(s))], vin: HERE };
    let mut bench = Bench::new(coolant(None));
    bench.tell(Request::start());
    bench.run(60, &alone);
    assert!(!bench.reasons().contains(&Reason::NotAlive), "seen to live: {:?}", bench.reasons());
    let both = Adapter { coolant: move |s| vec![("7EA", climbs(s)), ("7E8", climbs(60))], vin: HERE };
    bench.run(3, &both);
    assert!(bench.reasons().contains(&Reason::NotAlive), "not this one: {:?}", bench.reasons());
    assert_eq!(bench.coolants().last().unwrap().1, "7E8");
}

#[test]
fn an_adapter_that_comes_back_in_another_vehicle_reads_nothing_for_this_job() {
    let here = Adapter { coolant: |s| vec![("7E8", (30 + s / 4) as u8)], vin: HERE };
    let elsewhere = Adapter { coolant: |_| vec![("7E8", 70)], vin: ELSEWHERE };
    let mut bench = Bench::new(coolant(None));
    bench.run(5, &here);
    bench.tell(Request::start());
    bench.run(20, &here);
    bench.unplug();
    bench.run(5, &elsewhere);
    let before = bench.coolants().len();
    bench.run(30, &elsewhere);
    assert_eq!(bench.coolants().len(), before, "its readings are nobody's");
    assert!(bench.reasons().contains(&Reason::OtherVehicle), "{:?}", bench.reasons());
    assert_eq!(bench.verdicts(Verdict::Go) + bench.verdicts(Verdict::TooHot), 0);
    bench.unplug();
    bench.run(30, &here);
    assert!(!bench.reasons().contains(&Reason::OtherVehicle), "{:?}", bench.reasons());
    assert!(bench.coolants().len() > before + 20);
}

/// Gated on the transmission's own identifier.
fn fluid(bytes: Option<u8>) -> Sheet {
    let mut sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    sheet.identifier.as_mut().unwrap().bytes = bytes;
    sheet
}

#[test]
fn an_answer_of_another_length_than_the_others_is_no_reading() {
    // For 5 seconds in 15 with a byte in front of the value: 0 counts, -40 °C.
    let spells = |s| if s % 15 >= 10 { "05 62 4D 07 00 4E" } else { "04 62 4D 07 4E" };
    let mut bench = Bench::new(fluid(None));
    bench.run(60, &Transmission(spells));
    assert!(bench.fluids().len() > 40, "{}", bench.fluids().len());
    assert!(bench.fluids().iter().all(|t| *t == 38.0), "{:?}", bench.fluids());
    let told = bench.events.iter().any(|body| {
        matches!(body, Body::Fault { fault: Fault::Undecodable, detail: Some(detail), .. }
            if detail == "224D07: 5 bytes, otherwise 4")
    });
    assert!(told, "it is told");
}

#[test]
fn the_sheet_says_how_many_bytes_an_answer_has() {
    // From the first answer on it is not the one that was meant.
    let mut bench = Bench::new(fluid(Some(1)));
    bench.run(30, &Transmission(|_| "05 62 4D 07 00 4E"));
    assert!(bench.fluids().is_empty(), "never, however long");
    bench.run(30, &Transmission(|_| "04 62 4D 07 4E"));
    assert!(bench.fluids().len() > 20 && bench.fluids().iter().all(|t| *t == 38.0), "{:?}", bench.fluids());
}

#[test]
fn the_bus_that_the_sheet_names_is_tried_first() {
    let mut sheet = coolant(None);
    sheet.bus = Some(events::VehicleBus::Iso14230Fast);
    let mut bay = Bay::new(sheet, Seq(1), 0);
    // What was found the last time does not go before it.
    bay.remember(adapter::Protocol::Can29Slow);
    bay.link_opened(None, moment(Mono::ZERO));
    let (mut now, mut tried) = (Mono::ZERO, Vec::new());
    let by_the_book = Adapter { coolant: |_| vec![("7E8", 60)], vin: HERE };
    while now < Mono::from_secs(5) {
        bay.wake(moment(now));
        while let Some(line) = bay.poll_bytes(moment(now)) {
            now = now.after(STEP);
            let line = String::from_utf8(line).unwrap();
            tried.extend(line.trim().strip_prefix("ATTP").map(str::to_owned));
            bay.bytes(by_the_book.reply(&line, now).as_bytes(), moment(now));
        }
        now = now.after(STEP);
    }
    assert_eq!(tried.first().map(String::as_str), Some("5"), "{tried:?}");
}
