//! One cell of the matrix: a driver and a simulated adapter in memory, two simulated minutes, and what came of it.
//!
//! The driver asks what the daemon would ask. Every answer that carries a temperature is held against what the sensors of
//! the simulated vehicle showed meanwhile. Time jumps to whatever happens next.

use std::collections::VecDeque;
use std::time::Duration;

use adapter::{Driver, Outcome, Quirk};
use events::Sheet;
use frames::{Ask, Encoding};
use rehearsal::dice::Dice;
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, SerialLine, Vehicle, World};
use units::Mono;

/// The fault begins here; every firmware has had time to be read.
pub const FAULT_FROM_S: u64 = 30;
/// The end of a cell.
pub const END: Mono = Mono::from_secs(150);
/// As in the daemon: a lost link is opened again after this.
const REOPEN: Duration = Duration::from_millis(250);
/// An answer may show what the sensor showed so long before its request: an adapter may say the last one again.
const STALE: Duration = Duration::from_millis(1_500);

/// What came of one cell.
#[derive(Debug, Clone, Default)]
pub struct Came {
    /// When the first temperature was read.
    pub first: Option<Mono>,
    /// How many were read.
    pub readings: usize,
    /// The longest time without one, from the first on to the end.
    pub gap: Duration,
    /// The longest time from the device's return to the next one.
    pub back: Duration,
    /// From the last one to the end.
    pub tail: Duration,
    /// Readings that the sensors never showed.
    pub wrong: Vec<String>,
    /// The quirks that were named.
    pub quirks: Vec<Quirk>,
    /// The last thing told that is no reading.
    pub last: String,
    /// What was avoided from then on, as it is written.
    pub avoided: Vec<String>,
    /// Whether it was told that this is no adapter.
    pub stranger: bool,
    /// The longest time with nothing to wait for.
    pub idle: Duration,
    /// Exchanges with the vehicle and the adapter.
    pub sent: u64,
    /// Readings of the coolant.
    pub coolants: usize,
    /// How often the link was opened.
    pub openings: u32,
    /// From the end of all faults to the first temperature after it; none: it never came.
    pub alive: Option<Duration>,
}

/// The sheet of the demonstration vehicle with its transmission where `bus` has it.
pub fn sheet(bus: &Bus) -> Sheet {
    let mut sheet = rehearsal::embedded::six_speed();
    if let Some(identifier) = &mut sheet.identifier {
        identifier.header = match bus.form {
            frames::Bus::Can11 => "7E1",
            frames::Bus::Can29 => "18DA18F1",
            frames::Bus::Iso14230 => "8218F1",
            frames::Bus::J1850Pwm | frames::Bus::J1850Vpw | frames::Bus::Iso9141 => "6C18F1",
        }
        .to_owned();
    }
    sheet
}

/// Plays one cell to its end; the fault goes on as long as its kind does.
pub fn play(firmware: &'static Firmware, fault: Option<FaultKind>, bus: &'static Bus, seed: u64) -> Came {
    let fault = fault.map(|kind| Fault::new(kind, FAULT_FROM_S));
    cell(firmware, fault, bus, seed).run()
}

/// Plays one cell whose fault stops at a moment that the seed draws, up to the first temperature after that, or until it
/// is too late for one.
pub fn play_until_well(
    firmware: &'static Firmware,
    fault: Option<FaultKind>,
    bus: &'static Bus,
    seed: u64,
) -> Came {
    let drawn = Duration::from_millis(Dice::part(seed, 0x11FE).between(SHORTEST_MS, LONGEST_MS) as u64);
    let fault = fault.map(|kind| {
        let fault = Fault::new(kind, FAULT_FROM_S);
        Fault { lasts: Some(fault.lasts.map_or(drawn, |lasts| lasts.min(drawn))), ..fault }
    });
    let lasts = fault.and_then(|fault| fault.lasts).unwrap_or(drawn);
    let mut play = cell(firmware, fault, bus, seed);
    play.well_from = Some(Mono::from_secs(FAULT_FROM_S).after(lasts));
    play.run()
}

/// How long a fault lasts that stops at a drawn moment, ms.
const SHORTEST_MS: f64 = 2_000.0;
const LONGEST_MS: f64 = 60_000.0;

fn cell(firmware: &'static Firmware, fault: Option<Fault>, bus: &'static Bus, seed: u64) -> Play {
    let sheet = sheet(bus);
    let faults: Vec<Fault> = fault.into_iter().collect();
    let world = World::new(&sheet, Vehicle::typical(&sheet, 18.0), None, &faults, seed);
    let car = Car::on(bus, world, &sheet, firmware, SerialLine::USUAL, seed);
    let driver = Driver::new(service::schedule(&sheet));
    Play {
        car,
        driver,
        sheet,
        now: Mono::ZERO,
        open: false,
        reopen: Mono::ZERO,
        shown: VecDeque::new(),
        came: Came::default(),
        returned: None,
        plugged: true,
        last: None,
        well_from: None,
    }
}

struct Play {
    car: Car,
    driver: Driver,
    sheet: Sheet,
    now: Mono,
    open: bool,
    reopen: Mono,
    /// What the sensors showed lately: when, fluid, coolant.
    shown: VecDeque<(Mono, f64, f64)>,
    came: Came,
    /// The last temperature.
    last: Option<Mono>,
    /// When the device came back, if nothing was read since.
    returned: Option<Mono>,
    plugged: bool,
    /// All faults are over from here on, and the run ends with the next temperature.
    well_from: Option<Mono>,
}

impl Play {
    fn run(mut self) -> Came {
        let end = self.well_from.map_or(END, |from| from.after(2 * Driver::READS_WITHIN));
        while self.now < end && self.came.alive.is_none() {
            self.look();
            self.settle();
            let next = [
                self.driver.poll_timeout(),
                self.car.poll_timeout(),
                (!self.open).then_some(self.reopen),
                // The sensors move meanwhile.
                Some(self.now.after(Duration::from_millis(250))),
            ];
            if self.open && self.driver.poll_timeout().is_none() {
                self.came.idle += Duration::from_millis(1);
            }
            let next = next.into_iter().flatten().min().unwrap_or(end);
            self.now = next.max(self.now.after(Duration::from_millis(1)));
        }
        let last = self.last.unwrap_or(Mono::ZERO);
        self.came.tail = END.since(last);
        if self.came.first.is_some() {
            self.came.gap = self.came.gap.max(self.came.tail);
        }
        self.came.quirks = self.driver.quirks().iter().collect();
        self.came.sent = self.driver.counts().sent;
        self.came
    }

    fn look(&mut self) {
        self.car.handle_timeout(self.now);
        let plugged = self.car.plugged();
        if plugged && !self.plugged {
            self.returned = Some(self.now);
        }
        self.plugged = plugged;
        let shown = self.car.world().shown();
        self.shown.push_back((self.now, shown.fluid_celsius, shown.coolant_celsius));
        let old = |(at, ..): &(Mono, f64, f64)| self.now.since(*at) > Duration::from_secs(60);
        while self.shown.front().is_some_and(old) {
            self.shown.pop_front();
        }
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            let mut worked = false;
            match (self.open, self.car.plugged()) {
                (true, false) => self.close(),
                (false, true) if self.reopen <= self.now => {
                    self.open = true;
                    self.came.openings += 1;
                    self.car.host_opened(self.now);
                    self.driver.handle_opened(self.now);
                }
                _ => {}
            }
            if self.open {
                self.driver.handle_timeout(self.now);
                while let Some(line) = self.driver.poll_transmit(self.now) {
                    self.trace(&format!("> {line:?}"));
                    self.car.handle_bytes(&line, self.now);
                    worked = true;
                }
                while let Some(bytes) = self.car.poll_transmit(self.now) {
                    self.trace(&format!("< {}", bytes.escape_ascii()));
                    self.driver.handle_bytes(&bytes, self.now);
                    worked = true;
                }
            } else {
                while self.car.poll_transmit(self.now).is_some() {}
            }
            while let Some(outcome) = self.driver.poll_outcome() {
                self.hear(&outcome);
                worked = true;
            }
            if !worked {
                return;
            }
        }
    }

    fn close(&mut self) {
        self.open = false;
        self.reopen = self.now.after(REOPEN);
        self.car.host_closed(self.now);
        self.driver.handle_closed(self.now);
    }

    /// `MATRIX_TRACE=1` prints what is said, for the one who looks into a cell.
    fn trace(&self, what: &str) {
        if std::env::var_os("MATRIX_TRACE").is_some() {
            println!("{} {what}", self.now);
        }
    }

    fn hear(&mut self, outcome: &Outcome) {
        if !matches!(outcome, Outcome::Answer { .. }) {
            self.trace(&format!("= {outcome:?}"));
        }
        match outcome {
            Outcome::Answer { ask, sent, messages, .. } => {
                for message in messages {
                    self.temperature(*ask, &message.data, *sent);
                }
            }
            Outcome::Voltage { .. } | Outcome::Quirk(_) => {}
            Outcome::Lost { why, .. } => {
                self.came.last = format!("lost: {why}");
                if self.open {
                    self.close();
                }
            }
            Outcome::NotAnAdapter { why } => {
                self.came.stranger = true;
                self.came.last = why.to_string();
                self.close();
            }
            Outcome::Avoided { command, .. } => self.came.avoided.push(command.to_string()),
            Outcome::VehicleSilent { detail, .. } => self.came.last = format!("silent: {detail}"),
            _ => {}
        }
    }

    fn temperature(&mut self, ask: Ask, data: &[u8], sent: Mono) {
        let (value, step, fluid) = match ask {
            Ask::Current(0x05) => {
                match frames::values(ask, data).ok().and_then(|mut all| all.next()?.number()) {
                    Some(value) => (value, 1.0, false),
                    None => return,
                }
            }
            Ask::Identifier(_) | Ask::LocalIdentifier(_) => match self.fluid(data) {
                Some((value, step)) => (value, step, true),
                None => return,
            },
            _ => return,
        };
        let since = Mono::from_millis(sent.as_millis().saturating_sub(STALE.as_millis() as u64));
        let meanwhile = self.shown.iter().filter(|(at, ..)| *at >= since);
        let truth: Vec<f64> =
            meanwhile.map(|(_, fluid_c, coolant_c)| if fluid { *fluid_c } else { *coolant_c }).collect();
        let (low, high) =
            truth.iter().fold((f64::MAX, f64::MIN), |(low, high), t| (low.min(*t), high.max(*t)));
        if value < low - step - 0.3 || value > high + step + 0.3 {
            self.came.wrong.push(format!(
                "{} {}: {value} °C, the sensor showed {low:.1} to {high:.1}",
                self.now,
                ask.hex()
            ));
        }
        self.came.coolants += usize::from(!fluid);
        if fluid {
            self.came.readings += 1;
            if let Some(returned) = self.returned.take() {
                self.came.back = self.came.back.max(self.now.since(returned));
            }
            if let Some(from) = self.well_from.filter(|from| *from < self.now) {
                self.came.alive.get_or_insert(self.now.since(from));
            }
            self.came.first.get_or_insert(self.now);
            if let Some(last) = self.last.replace(self.now) {
                self.came.gap = self.came.gap.max(self.now.since(last));
            }
        }
    }

    fn fluid(&self, data: &[u8]) -> Option<(f64, f64)> {
        let described = self.sheet.identifier.as_ref()?;
        let encoding = Encoding {
            byte: described.byte,
            length: described.length,
            signed: described.signed,
            order: frames::ByteOrder::BigEndian,
            scale: described.scale,
            offset: described.offset,
            bits: None,
        };
        let read = encoding.read(data.get(3..)?).ok()?;
        Some((read.value, described.scale))
    }
}
