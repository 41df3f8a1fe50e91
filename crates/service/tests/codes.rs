//! Fault codes that are repaired in the middle of a job: what a control unit said last counts, and silence says nothing.
//!
//! A bay in memory and an adapter by the book, whose replies are written in the test.

#![allow(clippy::unwrap_used, clippy::panic, missing_docs, reason = "a test")]

use std::time::Duration;

use events::{Body, Durability, Event, Fault, Reason, Request, Seq, Sheet, Told, Utc};
use service::{Bay, Moment};
use units::Mono;

const STEP: Duration = Duration::from_millis(20);
/// Codes are asked once a minute; a change is asked for a second time.
const ASKED: u64 = 70;
/// Answers of the engine's unit and of the transmission's: nothing stored, and P0116 of the coolant sensor.
const NONE: &str = "7E8 02 43 00\r";
const STORED: &str = "7E8 04 43 01 01 16\r";
const OTHER_NONE: &str = "7E9 02 43 00\r";
const OTHER_STORED: &str = "7E9 04 43 01 01 16\r";
const NONE_PENDING: &str = "7E8 02 47 00\r";
const NO_DATA: &str = "NO DATA\r";

fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

fn sheet() -> Sheet {
    Sheet::parse(include_str!("../../../fixtures/sheets/demo-coolant-only.toml")).unwrap()
}

struct Bench {
    bay: Bay,
    now: Mono,
    events: Vec<Event>,
    vin: &'static str,
    /// The answer to the request for pending codes.
    pending: &'static str,
}

impl Bench {
    /// A job by the coolant's temperature, with the signal proved and in the band.
    fn new() -> Self {
        let mut bay = Bay::new(sheet(), Seq(1), 0);
        bay.boot("test", "0", moment(Mono::ZERO));
        bay.link_opened(None, moment(Mono::ZERO));
        let mut bench =
            Self { bay, now: Mono::ZERO, events: Vec::new(), vin: "ZZ9DEM6S9XY000042", pending: NO_DATA };
        bench.run(10, NO_DATA);
        bench.tell(Request::start());
        bench.run(250, NO_DATA);
        bench
    }

    fn tell(&mut self, request: Request) {
        let told = Told { id: format!("{request:?} {}", self.now), by: None, request };
        let word = self.bay.tell(&told, moment(self.now));
        assert!(matches!(word, events::Word::Accepted { .. }), "{word:?}");
    }

    /// The coolant warms from 40 to 64 °C, then goes up and down by 4 °C.
    fn reply(&self, line: &str, stored: &str) -> String {
        let line = line.trim();
        let ask = line.get(..4).filter(|_| line.starts_with("01") && line.len() == 5).unwrap_or(line);
        let seconds = self.now.as_millis() / 1_000;
        let celsius = 40 + (seconds / 10).min(24) + (seconds / 20 % 8).abs_diff(4);
        let text = match ask {
            "ATZ" | "ATWS" | "ATI" => "ELM327 v1.5\r".to_owned(),
            "ATRV" => "14.1V\r".to_owned(),
            "ATDPN" => "6\r".to_owned(),
            _ if ask.starts_with("AT") => "OK\r".to_owned(),
            "0100" => "7E8 06 41 00 BE 3F A8 13\r".to_owned(),
            "0105" => format!("7E8 03 41 05 {:02X}\r", celsius + 40),
            // 700 and 702 revolutions a minute: an engine never turns equally fast for long.
            "010C" => format!("7E8 04 41 0C 0A {:02X}\r", 0xF0 + seconds / 5 % 2 * 8),
            "010D" => "7E8 03 41 0D 00\r".to_owned(),
            _ if ask.starts_with("03") => stored.to_owned(),
            _ if ask.starts_with("07") => self.pending.to_owned(),
            "0902" => {
                let hex: Vec<String> = self.vin.bytes().map(|b| format!("{b:02X}")).collect();
                let (first, rest) = hex.split_at(3);
                let (second, third) = rest.split_at(7);
                let [first, second, third] = [first, second, third].map(|part| part.join(" "));
                format!("7E8 10 14 49 02 01 {first}\r7E8 21 {second}\r7E8 22 {third}\r")
            }
            _ => NO_DATA.to_owned(),
        };
        format!("{text}\r>")
    }

    /// So many seconds in which the request for stored codes is answered so.
    fn run(&mut self, seconds: u64, stored: &str) {
        let until = self.now.after(Duration::from_secs(seconds));
        while self.now < until {
            self.bay.wake(moment(self.now));
            let _ = self.bay.wants_reopen();
            while let Some(line) = self.bay.poll_bytes(moment(self.now)) {
                self.now = self.now.after(STEP);
                let reply = self.reply(&String::from_utf8(line).unwrap(), stored);
                self.bay.bytes(reply.as_bytes(), moment(self.now));
            }
            self.events.extend(std::iter::from_fn(|| self.bay.poll_event()));
            self.now = self.now.after(STEP);
        }
    }

    fn unplug(&mut self) {
        self.bay.link_closed("unplugged", moment(self.now));
        self.now = self.now.after(Duration::from_secs(5));
        self.bay.link_opened(None, moment(self.now));
    }

    /// Another daemon goes on with the job, by the facts that this one wrote.
    fn restart(&mut self) {
        self.events.extend(std::iter::from_fn(|| self.bay.poll_event()));
        self.events.retain(|event| event.body.durability() == Durability::Fact);
        let next = self.events.last().unwrap().seq.next();
        self.bay = Bay::new(sheet(), next, 1);
        self.now = Mono::ZERO;
        self.bay.restore(&self.events, &[], moment(self.now));
        self.bay.boot("again", "0", moment(self.now));
        self.bay.link_opened(None, moment(self.now));
    }

    fn reasons(&self) -> Vec<Reason> {
        self.bay.snapshot(moment(self.now)).reasons
    }

    fn has_code(&self) -> bool {
        self.reasons().contains(&Reason::SensorCode)
    }

    /// The gate has nothing against `go`; what people have to do first is open.
    fn is_free(&self) -> bool {
        self.reasons() == [Reason::PreconditionOpen]
    }

    fn told(&self) -> usize {
        let code = |event: &&Event| matches!(event.body, Body::Fault { fault: Fault::CodeStored, .. });
        self.events.iter().filter(code).count()
    }
}

#[test]
fn a_code_that_is_read_and_then_read_as_none_stands_in_the_way_no_more() {
    let mut bench = Bench::new();
    bench.run(ASKED, NONE);
    assert!(bench.is_free(), "{:?}", bench.reasons());
    bench.run(ASKED, STORED);
    assert!(bench.has_code(), "{:?}", bench.reasons());
    bench.run(ASKED, NONE);
    assert!(bench.is_free(), "{:?}", bench.reasons());
    assert_eq!(bench.told(), 1);
    bench.run(ASKED, STORED);
    assert!(bench.has_code(), "it comes back");
    assert_eq!(bench.told(), 2, "and is told again");
}

#[test]
fn silence_and_what_cannot_be_read_take_no_code_away() {
    // Nothing; fewer codes than announced.
    for answer in [NO_DATA, "7E8 02 43 01\r"] {
        let mut bench = Bench::new();
        bench.run(ASKED, STORED);
        assert!(bench.has_code(), "{answer}: {:?}", bench.reasons());
        bench.run(2 * ASKED, answer);
        assert!(bench.has_code(), "{answer}: {:?}", bench.reasons());
        bench.run(2 * ASKED, NONE);
        assert!(!bench.has_code(), "{answer}: {:?}", bench.reasons());
    }
}

#[test]
fn one_unit_without_codes_does_not_speak_for_the_other() {
    let mut bench = Bench::new();
    bench.run(ASKED, &[STORED, OTHER_STORED].concat());
    assert!(bench.has_code(), "{:?}", bench.reasons());
    bench.run(ASKED, &[NONE, OTHER_STORED].concat());
    assert!(bench.has_code(), "the other's: {:?}", bench.reasons());
    bench.run(ASKED, NONE);
    assert!(bench.has_code(), "the other is silent: {:?}", bench.reasons());
    bench.run(ASKED, &[NONE, OTHER_NONE].concat());
    assert!(bench.is_free(), "{:?}", bench.reasons());
}

#[test]
fn another_vehicle_does_not_take_this_ones_codes_away() {
    let mut bench = Bench::new();
    bench.run(ASKED, STORED);
    bench.unplug();
    let here = std::mem::replace(&mut bench.vin, "ZZ9DEM8S0XY000017");
    bench.run(2 * ASKED, NONE);
    bench.unplug();
    bench.vin = here;
    bench.run(ASKED, NO_DATA);
    assert!(bench.has_code(), "{:?}", bench.reasons());
    bench.run(ASKED, NONE);
    assert!(!bench.has_code(), "{:?}", bench.reasons());
}

#[test]
fn a_daemon_that_starts_again_knows_the_jobs_codes_until_their_unit_has_none() {
    let mut bench = Bench::new();
    bench.run(ASKED, STORED);
    bench.restart();
    bench.run(ASKED, NO_DATA);
    assert!(bench.has_code(), "{:?}", bench.reasons());
    bench.pending = NONE_PENDING;
    bench.run(2 * ASKED, NONE);
    assert!(!bench.has_code(), "{:?}", bench.reasons());
}
