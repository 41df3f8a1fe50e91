//! Every simulated firmware and fault, probed in memory and in virtual time: the closing line of each is a reviewed
//! file.
//!
//! `BLESS=1 cargo test --bin standpipe golden_probe` writes the file anew; the difference is read line by line, and the
//! commit says why the new lines are right. The truth beside each line is not the probe's: whether an answer with the
//! gating signal was on the wire at the end is read from the bytes, and whose fault a fault is stands in [`whose`] and
//! [`worth_of`].

use std::fmt::Write as _;
use std::path::Path;
use std::time::Duration;

use events::Sheet;
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, SerialLine, Vehicle, World, embedded};
use units::Mono;

use super::look::{Found, Look, Want};
use super::worth::{self, Judgement, Worth};

/// An answer so long before the end is one of the end.
const LATELY: Duration = Duration::from_secs(2);
/// While the adapter is set up, and in the middle of the reading.
const START_S: u64 = 1;
const MIDDLE_S: u64 = 6;
/// The identifier tells whole degrees; what the sensor shows moves meanwhile.
const STEP_C: f64 = 1.6;

/// What the adapter says in place of what the simulated one says.
type Twist = fn(&str) -> String;

struct Bench {
    car: Car,
    look: Look,
    now: Mono,
    open: bool,
    twist: Twist,
    /// The adapter loses the first character of every line.
    cut: bool,
    /// What came lately, without blanks: the answers to the gating request are looked for in it.
    came: Vec<(Mono, String)>,
}

struct Played {
    found: Found,
    /// Whether an answer with the gating signal was on the wire at the end.
    on_the_wire: bool,
    /// What the sensor of the vehicle showed at the end.
    shown: f64,
    judgement: Judgement,
}

impl Played {
    fn reads(&self) -> bool {
        self.found.findings.readings > 0 && self.found.findings.still_reading
    }
}

fn same(said: &str) -> String {
    said.to_owned()
}

/// Probes a vehicle made after the demonstration sheet, reading what `asked` is gated on; none: the coolant.
fn probe(firmware: &'static Firmware, faults: &[Fault], asked: Option<&Sheet>, twist: Twist) -> Played {
    bench(firmware, faults, asked, twist).run()
}

fn bench(firmware: &'static Firmware, faults: &[Fault], asked: Option<&Sheet>, twist: Twist) -> Bench {
    let sheet = embedded::six_speed();
    let world = World::new(&sheet, Vehicle::typical(&sheet, 18.0), None, faults, 1);
    let car = Car::on(Bus::usual(), world, &sheet, firmware, SerialLine::USUAL, 1);
    let look = Look::new(asked, Duration::from_secs(8), Mono::ZERO);
    Bench { car, look, now: Mono::ZERO, open: true, twist, cut: false, came: Vec::new() }
}

impl Bench {
    fn run(mut self) -> Played {
        let asked = self.look.ask().hex().to_string();
        let first = asked.bytes().next().map_or(b'4', |digit| digit + 4);
        let answer = format!("{}{}", char::from(first), &asked[1..]);
        self.car.host_opened(Mono::ZERO);
        self.look.handle_opened(None, Mono::ZERO);
        loop {
            self.settle();
            if self.look.want() == Want::Done {
                break;
            }
            let next = [Some(self.look.poll_timeout()), self.car.poll_timeout()].into_iter().flatten().min();
            // The plug is looked at now and then too.
            let soon = self.now.after(Duration::from_millis(100));
            self.now = next.unwrap_or(soon).min(soon).max(self.now.after(Duration::from_millis(1)));
            assert!(self.now < Mono::from_secs(200), "a probe comes to an end");
        }
        let lately = self.came.iter().filter(|(at, _)| at.after(LATELY) >= self.now);
        let text: String = lately.map(|(_, text)| text.as_str()).collect();
        let found = self.look.finish(self.now);
        let judgement = worth::judge(&found.findings);
        let shown = self.car.world().shown().fluid_celsius;
        Played { found, on_the_wire: text.contains(&answer), shown, judgement }
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            let mut worked = false;
            self.car.handle_timeout(self.now);
            if self.open && !self.car.plugged() {
                self.open = false;
                self.car.host_closed(self.now);
                self.look.handle_closed(self.now);
            }
            self.look.handle_timeout(self.now);
            match self.look.want() {
                Want::Done => return,
                Want::Reopen(at) => {
                    if std::mem::replace(&mut self.open, false) {
                        self.car.host_closed(self.now);
                    }
                    if at <= self.now && self.car.plugged() {
                        self.open = true;
                        self.car.host_opened(self.now);
                        self.look.handle_opened(None, self.now);
                        worked = true;
                    } else if at <= self.now {
                        self.look.handle_not_opened(self.now);
                    }
                }
                Want::Nothing => {}
            }
            if self.open {
                while let Some(line) = self.look.poll_transmit(self.now) {
                    self.car.handle_bytes(line.get(usize::from(self.cut)..).unwrap_or_default(), self.now);
                    worked = true;
                }
            }
            while let Some(bytes) = self.car.poll_transmit(self.now) {
                let bytes = match std::str::from_utf8(&bytes) {
                    Ok(text) => (self.twist)(text).into_bytes(),
                    Err(_) => bytes,
                };
                let plain: String = bytes
                    .iter()
                    .filter(|b| b.is_ascii_alphanumeric())
                    .map(|b| char::from(b.to_ascii_uppercase()))
                    .collect();
                self.came.push((self.now, plain));
                if self.open {
                    self.look.handle_bytes(&bytes, self.now);
                    worked = true;
                }
            }
            if !worked {
                return;
            }
        }
    }
}

/// Whose fault a fault is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Whose {
    /// The adapter, or the way to it: cable, plug, radio.
    Adapter,
    /// The vehicle, its supply or its control units.
    Vehicle,
    /// Nobody's: nothing is wrong, or nothing that the link could show.
    Nobody,
}

const fn whose(kind: FaultKind) -> Whose {
    use FaultKind as F;
    match kind {
        F::SensorFrozen | F::SensorDefault | F::SensorStep => Whose::Nobody,
        // Habits that every reader has to bear.
        F::TwoUnitsAnswer | F::UnitsMixed | F::FramesSwapped | F::FrameMissing | F::FrameDoubled | F::ActAlert => Whose::Nobody,
        F::IgnitionOff
        | F::NoData
        | F::NoDataSpell
        | F::WrongEcu
        | F::Pending
        | F::PendingLong
        | F::PendingForever
        | F::LvReset
        | F::ResetInReply
        | F::Cranking
        | F::BusAsleep
        | F::BusError
        | F::BusTrouble
        | F::BusInitError
        | F::UnableToConnect
        | F::PendingAlways
        | F::LengthChanges
        | F::Brownout
        // A search may take 30 s (section 5 of the dialect reference).
        | F::SlowSearch => Whose::Vehicle,
        F::AdapterUnplugged
        | F::DropBytes
        | F::FlipBytes
        | F::DuplicateBytes
        | F::NulBytes
        | F::LatePrompt
        | F::SilentReset
        | F::Stopped
        | F::SingleBytes
        | F::JoinedReplies
        | F::StrayBytes
        | F::EchoReturns
        | F::FormReturns
        | F::PromptMissing
        | F::PromptDoubled
        | F::LateReply
        | F::BannerUnasked
        | F::ChipError
        | F::BufferFull
        | F::LineMarked
        | F::CommandRefused
        | F::RateSwitchDies
        | F::RateSwitchNoise
        | F::WrongLength
        | F::OddDigits
        | F::LettersInHex
        | F::LongLine
        | F::EndlessLine
        | F::WrongIdentifier
        | F::StaleReply
        | F::RepeatedReply
        | F::DigitShort
        | F::LpAlert
        | F::ForeignLines
        | F::OddVolts
        | F::ReEnumerated
        | F::CutInReply
        | F::RequestKillsLink
        | F::RequestResets
        | F::RequestHangs
        | F::FlakyLink
        | F::Stalls
        | F::HalfOpen => Whose::Adapter,
    }
}

/// What somebody who knows the firmware would say of it.
fn worth_of(firmware: &Firmware) -> &'static str {
    match firmware.name {
        name if name.starts_with("original") || name == "other-family" => "by the book",
        "wired-loop" | "modem" => "no adapter",
        "dead" => "broken",
        "copy-2.1-deaf" => "useless",
        "copy-voltage-closes" => "breaks off",
        "copy-no-headers" | "copy-question-marks" => "useless here",
        _ => "a copy",
    }
}

/// The closing line with its figures hidden: they move with every millisecond that the driver is quicker.
fn closing(judgement: &Judgement) -> String {
    let mut text = String::new();
    for c in judgement.because.chars() {
        match (c, text.chars().next_back()) {
            ('0'..='9', Some('#')) => {}
            ('.', Some('#')) => {}
            ('0'..='9', _) => text.push('#'),
            _ => text.push(c),
        }
    }
    format!("{}: {text}", judgement.worth.says())
}

#[derive(Default)]
struct Table {
    text: String,
    bad: Vec<String>,
}

impl Table {
    fn note(&mut self, name: &str, truth: &str, played: &Played) {
        let wire = if played.on_the_wire { "answers at the end" } else { "no answer at the end" };
        let exit = if played.reads() { 0 } else { 69 };
        let closing = closing(&played.judgement);
        writeln!(self.text, "{name:<24} {truth:<13} {wire:<21} {exit:>2}  {closing}").unwrap();
        self.hold(played.reads() == played.on_the_wire, || format!("{name}: exit {exit}, but {wire}"));
        for celsius in played.found.latest.values().filter_map(|measure| measure.celsius()) {
            let wrong = (celsius.to_f64() - played.shown).abs() > STEP_C;
            self.hold(!wrong, || format!("{name}: it shows {celsius} °C, the sensor {:.1} °C", played.shown));
        }
        let lost = played.found.findings.lost_share();
        let good = played.judgement.worth == Worth::Good;
        self.hold(!good || lost <= 0.02 && played.reads(), || format!("{name}: good with {lost:.3} lost"));
    }

    fn hold(&mut self, holds: bool, what: impl Fn() -> String) {
        if !holds {
            self.bad.push(what());
        }
    }
}

fn table() -> Table {
    let sheet = embedded::six_speed();
    let mut table = Table::default();
    for &firmware in rehearsal::firmware::ALL {
        let (truth, played) = (worth_of(firmware), probe(firmware, &[], Some(&sheet), same));
        table.note(firmware.name, truth, &played);
        let worth = played.judgement.worth;
        let right = match truth {
            "by the book" | "a copy" => played.reads() && worth != Worth::SendItBack,
            "useless" | "useless here" | "breaks off" => worth == Worth::SendItBack,
            _ => worth == Worth::CannotTell,
        };
        table.hold(right, || {
            format!("{}: {truth}, and it says {}", firmware.name, closing(&played.judgement))
        });
    }
    for &kind in FaultKind::ALL {
        for from in [START_S, MIDDLE_S] {
            let faults = [Fault::new(kind, from)];
            let played = probe(&rehearsal::firmware::ORIGINAL_21, &faults, Some(&sheet), same);
            let (name, whose) = (format!("{}@{from}", kind.word()), whose(kind));
            table.note(&name, &format!("{whose:?}").to_lowercase(), &played);
            let back = played.judgement.worth == Worth::SendItBack;
            table.hold(!back || whose == Whose::Adapter, || {
                format!("{name}: an adapter by the book is sent back for {whose:?}")
            });
        }
    }
    table
}

#[test]
fn golden_probe_of_every_firmware_and_fault() {
    let Table { text: got, bad } = table();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/golden/probe.txt");
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &got).unwrap();
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
    let want = std::fs::read_to_string(&path).unwrap();
    for (number, (got, want)) in got.lines().zip(want.lines()).enumerate() {
        assert_eq!(got, want, "line {}", number + 1);
    }
    assert_eq!(got.lines().count(), want.lines().count());
}

/// A request that the control unit refuses with `code`.
fn refused(code: &'static str) -> Played {
    let mut sheet = embedded::six_speed();
    if let Some(identifier) = &mut sheet.identifier {
        identifier.id = 0x2C41;
    }
    let twist: Twist = match code {
        "33" => |said| said.replace("7F2231", "7F2233"),
        "22" => |said| said.replace("7F2231", "7F2222"),
        _ => same,
    };
    probe(&rehearsal::firmware::ORIGINAL_21, &[], Some(&sheet), twist)
}

#[test]
fn a_refused_identifier_is_read_by_nobody_and_is_not_the_adapter_s_fault() {
    use events::Trouble;
    let cases = [
        ("31", Trouble::RefusedUnknown, "it does not know this identifier"),
        ("33", Trouble::RefusedLocked, "it keeps this value locked"),
        ("22", Trouble::RefusedNow, "conditions are not right"),
    ];
    for (code, trouble, because) in cases {
        let played = refused(code);
        let findings = played.found.findings;
        assert_eq!((findings.readings, played.reads()), (0, false), "{code}");
        assert_eq!(findings.trouble, Some(trouble), "{code}");
        assert_eq!(played.found.detail, Some(format!("222C41 to 7E1, code {code}")));
        assert_eq!(played.judgement.worth, Worth::CannotTell, "{code}: {}", played.judgement.because);
        assert!(played.judgement.because.contains(because), "{code}: {}", played.judgement.because);
        assert!(findings.lost.refused > 0 && findings.lost.by_the_adapter == 0, "{code}: {findings:?}");
    }
}

#[test]
fn the_wrong_bus_and_the_wrong_header_are_the_sheet_s() {
    for header in ["18DA18F1", "7E5"] {
        let mut sheet = embedded::six_speed();
        if let Some(identifier) = &mut sheet.identifier {
            identifier.header = header.to_owned();
        }
        let played = probe(&rehearsal::firmware::ORIGINAL_21, &[], Some(&sheet), same);
        assert!(!played.reads(), "{header}");
        assert_eq!(played.judgement.worth, Worth::CannotTell, "{header}: {}", played.judgement.because);
    }
}

#[test]
fn of_two_control_units_that_answer_both_values_are_kept() {
    let faults = [Fault::new(FaultKind::TwoUnitsAnswer, 0)];
    let played = probe(&rehearsal::firmware::ORIGINAL_21, &faults, None, same);
    let latest = &played.found.latest;
    assert_eq!(latest.len(), 2, "{latest:?}");
    let values: Vec<f64> = latest.values().filter_map(|m| m.celsius()).map(|c| c.to_f64()).collect();
    assert!((values[0] - values[1]).abs() > 30.0, "another circuit's: {latest:?}");
    assert!(played.reads());
    assert_eq!(played.judgement.worth, Worth::Good, "{}", played.judgement.because);
}

#[test]
fn an_adapter_that_loses_first_characters_is_read_behind_spaces_and_that_is_a_limit() {
    // Only a line with a space in front arrives whole; the echo shows what happens to the others.
    let mut bench = bench(&rehearsal::firmware::COPY_15, &[], None, same);
    bench.cut = true;
    let played = bench.run();
    assert_eq!(played.found.claims.as_deref(), Some("ELM327 v1.5"));
    assert!(played.found.findings.first_lost > 0, "{:?}", played.found.last);
    assert!(played.reads());
    assert_eq!(
        played.judgement.worth,
        Worth::GoodWithLimits,
        "{} {:#?}",
        played.judgement.because,
        played.found
    );
}
