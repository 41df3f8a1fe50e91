//! The simulated vehicle as seen through its diagnostic connector: an ELM327-style adapter in front of control units.
//!
//! ```text
//!   bytes in ─► line ─► AT: dialect ───────────────────────► text ─┐
//!                    └► hex: start ─► ecu ─► layout ─► waiting ────┴─► pieces, each with its instant ─► bytes out
//!                            faults act on answers (spoil.rs), on replies and on bytes (out.rs), at instants (strike.rs)
//! ```
//!
//! Five doors, as every machine here has: [`Car::handle_bytes`], [`Car::poll_transmit`], [`Car::poll_timeout`],
//! [`Car::handle_timeout`], and the world behind it. Time is passed in and advances the world.
//! Not here: pseudo-terminal and clock (`pty.rs`, `clock.rs`).
//! Source: adapter reference, dialect sections 1, 2, 3, 5, 9, 10, 13; times by the formulas at the head of
//! poll_rate.csv.

mod command;
mod exchange;
mod links;
mod out;
mod rate;
mod spoil;
mod start;
mod strike;

use std::collections::VecDeque;
use std::time::Duration;

use events::Sheet;
use units::Mono;

use crate::bus::Bus;
use crate::dialect::{Settings, Switch};
use crate::dice::Dice;
use crate::ecu::ControlUnits;
use crate::fault::{Fault, FaultKind};
use crate::firmware::{Firmware, Habit, Level};
use crate::identifiers::Identifiers;
use crate::world::{Plug, World};

use links::Links;
use out::{Piece, Reply};
use rate::Switching;
use strike::Trouble;

/// How the adapter hangs on the host.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SerialLine {
    /// Bits per second at power-up, ten of them a character.
    pub baud: u32,
    /// What driver and bus add to each reply, ms.
    pub latency_ms: f64,
}

impl SerialLine {
    /// 38400 through a USB bridge that holds short reads back for 16 ms.
    /// Source: data sheet page 8; the bridge's default on Linux, public driver source.
    pub const USUAL: Self = Self { baud: 38_400, latency_ms: 16.0 };
}

/// The adapter and the vehicle behind it.
#[derive(Debug, Clone)]
pub struct Car {
    world: World,
    /// The last instant that was told; the world's own is on its grid.
    now: Mono,
    bus: &'static Bus,
    units: ControlUnits,
    firmware: &'static Firmware,
    serial: SerialLine,
    /// The adapter's rate now, and the host's where it is known.
    rate: u32,
    host: Option<u32>,
    switching: Option<Switching>,
    settings: Settings,
    dice: Dice,
    line: Vec<u8>,
    line_ends: Option<Mono>,
    last_line: Vec<u8>,
    /// What will be said, in order of time.
    out: VecDeque<Piece>,
    /// What the adapter does on the bus; a byte before its end interrupts it.
    busy: Option<Busy>,
    powered: Plug,
    state: Listening,
    /// When the last byte on the bus ended, ms since the start.
    bus_ends_ms: f64,
    /// By how much the last prompt came late because instants are whole milliseconds: the next exchange begins earlier.
    carried: (Mono, f64),
    trouble: Trouble,
    /// Of the two units that answer one request, whether the stranger speaks before the engine's.
    other_unit_first: bool,
    links: Links,
    /// When the supply came.
    powered_at: Mono,
    /// When the last prompt was out.
    prompted: Mono,
    /// The first character of the line that is coming was lost.
    swallowed: bool,
    /// The last request found nobody.
    missed: bool,
    /// A filter that only a reset clears.
    stuck_filter: Option<u32>,
}

/// Whether the adapter listens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Listening {
    Awake,
    /// Low power until a byte comes.
    Asleep,
    /// Until it is unplugged.
    Hung,
    /// Until the host opens its port anew.
    Stuck,
}

/// Work on the bus.
#[derive(Debug, Clone, Copy)]
struct Busy {
    until: Mono,
    /// Before this the protocol is not found yet.
    searches_until: Mono,
}

impl Car {
    /// A vehicle on the usual bus, with the adapter just plugged in; its banner is on the way.
    pub fn new(
        world: World,
        sheet: &Sheet,
        firmware: &'static Firmware,
        serial: SerialLine,
        seed: u64,
    ) -> Self {
        Self::on(Bus::usual(), world, sheet, firmware, serial, seed)
    }

    /// The same on a bus of choice.
    pub fn on(
        bus: &'static Bus,
        world: World,
        sheet: &Sheet,
        firmware: &'static Firmware,
        serial: SerialLine,
        seed: u64,
    ) -> Self {
        let now = world.now();
        let mut car = Self {
            bus,
            units: ControlUnits::new(sheet, bus),
            trouble: Trouble::new(world.faults().len()),
            world,
            now,
            firmware,
            serial,
            rate: serial.baud,
            host: None,
            switching: None,
            settings: Settings::DEFAULT,
            dice: Dice::part(seed, 0xCA12),
            line: Vec::new(),
            line_ends: None,
            last_line: Vec::new(),
            out: VecDeque::new(),
            busy: None,
            powered: Plug::Out,
            state: Listening::Awake,
            bus_ends_ms: 0.0,
            carried: (Mono::ZERO, 0.0),
            other_unit_first: Dice::part(seed, 0x2C17).chance(0.5),
            links: Links::default(),
            powered_at: now,
            prompted: now,
            swallowed: false,
            missed: false,
            stuck_filter: None,
        };
        car.catch_up(now);
        // What an earlier program left behind.
        car.stuck_filter = firmware.has(Habit::FilterStays).then(|| bus.place(1).from.id());
        car
    }

    /// Its units answer other identifiers than the sheet's, which nobody knows.
    pub fn give(&mut self, identifiers: Identifiers) {
        self.units.give(identifiers);
    }

    /// The identifiers that nobody knows, where there are such.
    pub fn identifiers(&self) -> Option<&Identifiers> {
        self.units.identifiers()
    }

    /// The rate that the host's port has, bits per second. At another rate than the adapter's both hear noise.
    /// Never told, the host always has the right one, as behind Bluetooth, TCP and a pseudo-terminal.
    pub const fn host_rate(&mut self, baud: u32) {
        self.host = Some(baud);
    }

    /// Which of two units that answer one request speaks first (`two-units-answer`): the other one, or the engine's.
    /// Never told, the seed decides.
    pub const fn other_unit_first(&mut self, first: bool) {
        self.other_unit_first = first;
    }

    /// The rate that the adapter has now, bits per second.
    pub const fn adapter_rate(&self) -> u32 {
        self.rate
    }

    /// Bytes from the host.
    pub fn handle_bytes(&mut self, bytes: &[u8], now: Mono) {
        self.catch_up(now);
        if self.powered == Plug::Out || self.trouble.is_cut(now) || self.holds(FaultKind::HalfOpen, now) {
            return;
        }
        self.trouble.host_spoke(now);
        let noise = if self.rates_agree(self.rate) { None } else { Some(self.noise(bytes.len())) };
        for byte in noise.as_deref().unwrap_or(bytes) {
            self.take(*byte, now);
        }
        if noise.is_some() && self.settings.echo.is_on() && !self.firmware.has(Habit::Silent) {
            self.push(now, 0.0, vec![0xFF; bytes.len().min(NOISE_ECHOED)]);
        }
    }

    /// The bytes that are due at `now`; nothing where none are.
    pub fn poll_transmit(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.catch_up(now);
        if self.trouble.is_stalled(now) {
            return None;
        }
        let mut due = Vec::new();
        while self.out.front().is_some_and(|piece| piece.at <= now) {
            let Some(piece) = self.out.pop_front() else { break };
            if self.rates_agree(piece.rate) {
                due.extend(piece.bytes);
            } else {
                due.extend(self.noise(piece.bytes.len()));
            }
        }
        let lost = self.holds(FaultKind::HalfOpen, now) || self.trouble.is_cut(now);
        if due.is_empty() || lost { None } else { Some(self.through_the_line(due, now)) }
    }

    /// When something will happen here of itself.
    pub fn poll_timeout(&self) -> Option<Mono> {
        let said = self.out.front().map(|piece| piece.at.max(self.trouble.stalls_until()));
        let switching = self.switching.as_ref().map(Switching::next);
        [said, self.line_ends, switching, self.next_strike()].into_iter().flatten().min()
    }

    /// Does what is due at `now`.
    pub fn handle_timeout(&mut self, now: Mono) {
        self.catch_up(now);
        if self.line_ends.is_some_and(|at| at <= now) {
            self.line.clear();
            self.line_ends = None;
            self.say(now, "?");
        }
    }

    /// Whether the adapter is in the connector, and the link to it is there.
    pub fn plugged(&self) -> bool {
        self.world.adapter() == Plug::In && !self.trouble.is_cut(self.now) && self.links.lets_in(self.now)
    }

    /// The bus.
    pub const fn bus(&self) -> &'static Bus {
        self.bus
    }

    /// The vehicle.
    pub const fn world(&self) -> &World {
        &self.world
    }

    /// The vehicle, for hands.
    pub const fn world_mut(&mut self) -> &mut World {
        &mut self.world
    }

    /// Lets the world pass, and the adapter lose or get its supply.
    fn catch_up(&mut self, now: Mono) {
        self.now = self.now.max(now);
        self.world.advance(now);
        let plug = self.world.adapter();
        if plug != self.powered {
            self.powered = plug;
            self.restart();
            self.rate = self.serial.baud;
            self.state = Listening::Awake;
            self.settings.can_blocked = Switch::Off;
            (self.powered_at, self.stuck_filter, self.links) = (now, None, Links::default());
            if plug == Plug::In {
                self.say_banner(now, self.firmware.reset_ms as f64);
            }
        }
        if plug == Plug::In {
            self.strike(now);
            self.go_on_switching(now);
        }
        if self.busy.is_some_and(|busy| busy.until <= now) {
            self.busy = None;
        }
    }

    /// Everything but the rate falls back to what it is at power-up.
    fn restart(&mut self) {
        self.settings = self.settings.restarted();
        self.out.clear();
        self.line.clear();
        self.line_ends = None;
        self.busy = None;
        self.switching = None;
    }

    fn take(&mut self, byte: u8, now: Mono) {
        match self.state {
            Listening::Hung | Listening::Stuck => return,
            Listening::Asleep => return self.wake_up(now),
            Listening::Awake => {}
        }
        if self.firmware.has(Habit::Silent) {
            return;
        }
        if self.firmware.has(Habit::Loop) {
            return self.push(now, self.serial_ms(2), vec![byte]);
        }
        if self.switching.is_some() {
            return self.take_while_switching(byte, now);
        }
        if self.busy.is_some() {
            return self.stop(now);
        }
        if self.firmware.has(Habit::LosesBatches) && !self.out.is_empty() {
            return;
        }
        match byte {
            0 => {}
            b'\r' => {
                let line = core::mem::take(&mut self.line);
                (self.line_ends, self.swallowed) = (None, false);
                self.carry_out(line, now);
            }
            _ if self.line.is_empty() && !self.swallowed && self.swallows(now) => self.swallowed = true,
            _ if self.line.len() < LONGEST_LINE => {
                self.line.push(byte);
                self.line_ends = Some(now.after(UNFINISHED));
            }
            _ => {}
        }
    }

    /// Any byte stops work on the bus and is lost (data sheet p.9); whether it is told is a matter of the version.
    fn stop(&mut self, now: Mono) {
        let Some(busy) = self.busy.take() else { return };
        self.out.clear();
        let searched = now < busy.searches_until;
        if searched {
            self.settings.active = Switch::Off;
            if self.settings.auto.is_on() {
                self.settings.protocol = 0;
            }
        }
        let told = self.firmware.level >= if searched { Level::V13 } else { Level::V14 };
        self.say(now, if told { "STOPPED" } else { "" });
    }

    fn wake_up(&mut self, now: Mono) {
        self.state = Listening::Awake;
        if self.firmware.level >= Level::V20 {
            // Settings stay from 2.0 on (data sheet p.66, 67, 91).
            return self.push(now, 0.0, b"\r>".to_vec());
        }
        self.restart();
        self.say_banner(now, self.firmware.reset_ms as f64);
    }

    fn holds(&self, kind: FaultKind, now: Mono) -> bool {
        self.world.faults().iter().any(|fault: &Fault| fault.kind == kind && fault.holds(now))
    }

    fn strikes(&mut self, kind: FaultKind, one_in: usize, now: Mono) -> bool {
        self.holds(kind, now) && self.dice.below(one_in) == 0
    }
}

/// The instant `after_ms` from `now`, at the end of its millisecond.
fn at(now: Mono, after_ms: f64) -> Mono {
    now.after(Duration::from_millis(after_ms.max(0.0).ceil() as u64))
}

/// An unfinished line is dropped after this.
/// Source: data sheet page 8.
const UNFINISHED: Duration = Duration::from_secs(20);
/// No command is longer.
/// Own choice: ten times the longest command; a flood must not fill memory.
const LONGEST_LINE: usize = 256;
/// How much noise the echo of a line at the wrong rate is at most.
/// Own choice: a few bytes are enough to be taken for a wrong rate.
const NOISE_ECHOED: usize = 3;
