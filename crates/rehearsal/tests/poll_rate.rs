//! The simulated line is as fast as the reference computes: every row of `poll_rate.csv`, on every bus and rate.
//!
//! In each row one request is asked again and again, each as soon as the prompt is there; the mean time is compared.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

use std::collections::BTreeMap;
use std::time::Duration;

use rehearsal::{Bus, Car, SerialLine, Vehicle, World, bus, embedded, firmware};
use units::Mono;

/// One row: what is set, what the formula gives.
struct Row {
    text: String,
    number: u8,
    baud: u32,
    spaces: bool,
    timing: String,
    latency_ms: f64,
    reply_chars: usize,
    /// The wait behind the last line.
    tail_ms: f64,
    want_ms: f64,
}

impl Row {
    /// The row's time, had its reply so many characters.
    fn with_reply_of(&self, chars: usize) -> f64 {
        let listened = |chars: usize| self.tail_ms.max((chars - 2) as f64 * 10_000.0 / f64::from(self.baud));
        self.want_ms - listened(self.reply_chars) + listened(chars)
    }
}

fn rows() -> Vec<Row> {
    let table = include_str!("../../../fixtures/reference/adapter/poll_rate.csv");
    let mut rows = Vec::new();
    for text in table.lines().filter(|line| !line.starts_with('#') && !line.starts_with("protocol,")) {
        // Only the column `timing` holds commas, and is then quoted.
        let quoted: Vec<&str> = text.split('"').collect();
        let (before, timing, after): (Vec<&str>, &str, Vec<&str>) = match quoted[..] {
            [before, timing, after] => {
                (before.split(',').collect(), timing, after.split(',').skip(1).collect())
            }
            _ => {
                let cells: Vec<&str> = text.split(',').collect();
                (cells[..4].to_vec(), cells[4], cells[5..].to_vec())
            }
        };
        let number = |cell: &str| cell.parse::<f64>().unwrap();
        rows.push(Row {
            text: text.to_owned(),
            number: before[1].parse().unwrap(),
            baud: before[2].parse().unwrap(),
            spaces: before[3] == "S1",
            timing: timing.to_owned(),
            latency_ms: number(after[0]),
            reply_chars: number(after[2]) as usize,
            tail_ms: number(after[7]),
            want_ms: number(after[10]),
        });
    }
    rows
}

struct Plugged {
    car: Car,
    now: Mono,
}

impl Plugged {
    fn new(row: &Row) -> Self {
        let sheet = embedded::six_speed();
        let world = World::new(&sheet, Vehicle::typical(&sheet, 21.0), None, &[], 1);
        let serial = SerialLine { baud: row.baud, latency_ms: row.latency_ms };
        let bus = bus::ALL.iter().find(|bus| bus.number == row.number).copied().unwrap_or(Bus::usual());
        let car = Car::on(bus, world, &sheet, &firmware::ORIGINAL_21, serial, 1);
        let mut line = Self { car, now: Mono::ZERO };
        line.until_prompt();
        line
    }

    fn until_prompt(&mut self) -> Vec<u8> {
        let mut said = Vec::new();
        while !said.ends_with(b">") {
            self.now = self.car.poll_timeout().unwrap();
            self.car.handle_timeout(self.now);
            said.extend(self.car.poll_transmit(self.now).unwrap_or_default());
        }
        said
    }

    fn ask(&mut self, line: &str) -> Vec<u8> {
        self.car.handle_bytes(format!("{line}\r").as_bytes(), self.now);
        self.until_prompt()
    }
}

/// The settings that stand behind the words of the column `timing`, and the request.
fn prepare(row: &Row) -> (Vec<&'static str>, &'static str) {
    let timing: &[&str] = match row.timing.as_str() {
        "count digit" | "AT1" | "six identifiers, AT1" => &["ATAT1"],
        "AT2 (assumed)" => &["ATAT2"],
        "ST 32 hex, AT0" | "NO DATA, ST 32 hex" => &["ATAT0", "ATST32"],
        "ST 19 hex, AT0" => &["ATAT0", "ATST19"],
        "ST 0A hex, AT0" => &["ATAT0", "ATST0A"],
        other => panic!("{other} is no timing of this test"),
    };
    let request = match row.timing.as_str() {
        "count digit" => "01051",
        "NO DATA, ST 32 hex" => "01AA",
        "six identifiers, AT1" => "01050C0D0F4246",
        _ => "0105",
    };
    (timing.to_vec(), request)
}

#[test]
fn an_exchange_takes_as_long_as_the_reference_computes_on_every_bus() {
    const TIMES: u32 = 8;
    let mut worst: BTreeMap<u8, f64> = BTreeMap::new();
    let rows = rows();
    for row in &rows {
        let mut line = Plugged::new(row);
        let (timing, request) = prepare(row);
        let spaces = if row.spaces { "ATS1" } else { "ATS0" };
        let protocol = format!("ATTP{}", row.number);
        // Six identifiers are asked of one unit; the reference counts one that answers.
        for command in ["ATE0", "ATH1", spaces, &protocol].into_iter().chain(timing) {
            line.ask(command);
        }
        let start_up = line.ask("0105");
        assert!(start_up.ends_with(b"\r\r>"), "{}", start_up.escape_ascii());
        if row.timing.starts_with("six") {
            line.ask(if row.number.is_multiple_of(2) { "ATSH7E0" } else { "ATSHDA10F1" });
        }
        // Six identifiers: this vehicle's values have another length than those that the reference counts.
        let six = row.timing.starts_with("six");
        let chars = line.ask(request).len();
        assert!(six || chars == row.reply_chars, "{}: {chars} characters", row.text);
        let want = row.with_reply_of(chars);
        let began = line.now;
        for _ in 0..TIMES {
            line.ask(request);
        }
        let took = line.now.since(began).as_secs_f64() * 1_000.0 / f64::from(TIMES);
        assert!((took - want).abs() <= 0.2, "{}: {took:.2} ms, not {want:.2}", row.text);
        let worst = worst.entry(row.number).or_default();
        *worst = worst.max((took / want - 1.0).abs());
    }
    assert_eq!(rows.len(), 760, "rows of the reference");
    println!("greatest relative difference by protocol: {worst:?}");
}

#[test]
fn time_is_not_lost_between_exchanges_although_instants_are_whole_milliseconds() {
    let row =
        rows().into_iter().find(|row| row.text.starts_with("CAN 11/500,6,500000,S0,count digit,1,")).unwrap();
    let mut line = Plugged::new(&row);
    for command in ["ATE0", "ATH1", "ATS0", "ATTP6", "0105"] {
        line.ask(command);
    }
    let (began, mut asked) = (line.now, 0);
    while line.now.since(began) < Duration::from_secs(10) {
        line.ask("01051");
        asked += 1;
    }
    // 77.9 a second by the table.
    assert!((775..=782).contains(&asked), "{asked} in ten seconds");
}
