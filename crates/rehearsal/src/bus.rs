//! The buses a vehicle can speak: how requests are addressed there, how long bytes take, how a start looks.
//!
//! In: a name, or the header of a request. Out: [`Bus`] with its times, [`Target`].
//! One row of [`ALL`] for each; to the program they are the protocols 1 to 9 of the adapter.
//! Not here: what control units say (`ecu.rs`), how a line looks (`layout.rs`), who waits how long (`car/`).
//! Source: adapter reference, dialect sections 5 and 6; times by the head of poll_rate.csv, others as said beside them.

use frames::Ecu;

/// One vehicle bus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bus {
    /// Its name here.
    pub name: &'static str,
    /// What it is, in a sentence.
    pub says: &'static str,
    /// The number by which the adapter knows it.
    pub number: u8,
    /// The form of its data lines.
    pub form: frames::Bus,
    /// How it is started.
    pub start: Start,
    /// How fast a control unit answers, ms (assumption of poll_rate.csv).
    pub answers_ms: f64,
    /// How long a search needs until it is found. Chosen; no source.
    pub search_ms: f64,
    pace: Pace,
}

/// What happens before the first request can be sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Start {
    /// Nothing.
    None,
    /// An address at 5 baud; 2 to 3 s.
    Slow,
    /// A pulse and one message.
    Fast,
}

/// How long bytes take, ms.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Pace {
    /// One frame, whatever it carries.
    Frame(f64),
    /// A fixed part and a part for each byte.
    Bytes { frame: f64, byte: f64 },
    /// One byte, and the pauses between bytes of a request and of an answer.
    Serial { byte: f64, asking: f64, answering: f64 },
}

/// Whom a request is sent to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    /// All control units.
    Everybody,
    /// The one that listens to this identifier (CAN) or address (the older buses).
    One(u32),
}

impl Bus {
    /// The bus of that name.
    pub fn named(name: &str) -> Option<&'static Self> {
        ALL.iter().find(|bus| bus.name == name).copied()
    }

    /// CAN with 11-bit identifiers at 500 kbit/s, which most vehicles have.
    pub const fn usual() -> &'static Self {
        &CAN_11_500
    }

    /// How long a request of so many data bytes is on the bus, ms.
    pub fn request_ms(&self, data: usize) -> f64 {
        match self.pace {
            Pace::Serial { byte, asking, .. } => {
                let bytes = (data + AROUND) as f64;
                bytes * byte + (bytes - 1.0) * asking
            }
            _ => self.line_ms(data),
        }
    }

    /// How long one line of an answer with so many data bytes is on the bus, ms.
    pub fn line_ms(&self, data: usize) -> f64 {
        let bytes = (data + AROUND) as f64;
        match self.pace {
            Pace::Frame(frame) => frame,
            Pace::Bytes { frame, byte } => frame + bytes * byte,
            Pace::Serial { byte, answering, .. } => bytes * byte + (bytes - 1.0) * answering,
        }
    }

    /// From one message to the next one, ms.
    pub const fn gap_ms(&self) -> f64 {
        match self.pace {
            Pace::Frame(_) => 0.0,
            Pace::Bytes { .. } => J1850_GAP_MS,
            Pace::Serial { .. } => K_LINE_GAP_MS,
        }
    }

    /// How long the bus must have been silent before a request, ms (data sheet p.72, PP 1D).
    pub const fn pause_ms(&self) -> f64 {
        match self.pace {
            Pace::Serial { .. } => 59.0,
            _ => 0.0,
        }
    }

    /// Whether it is one of those with a K line, which sleeps in when nothing is said.
    pub const fn is_k_line(&self) -> bool {
        matches!(self.pace, Pace::Serial { .. })
    }

    /// Whether both are CAN at the same rate, so that one understands the other's frames without caring for them.
    pub fn same_rate(&self, other: u8) -> bool {
        matches!((self.number, other), (6 | 7, 6 | 7) | (8 | 9, 8 | 9))
    }

    /// Whom a request with this header goes to; none set: everybody.
    ///
    /// `priority` are the upper five bits of a 29-bit identifier of which only the lower 24 were given.
    pub fn target(&self, header: Option<Header>, priority: u8) -> Target {
        let Some(header) = header else { return Target::Everybody };
        match self.form {
            frames::Bus::Can11 => match header.value & 0x7FF {
                FUNCTIONAL_11 => Target::Everybody,
                id => Target::One(id),
            },
            frames::Bus::Can29 => {
                let upper = if header.digits == 8 { header.value } else { u32::from(priority) << 24 };
                match upper & 0x1F00_0000 | header.value & 0x00FF_FFFF {
                    FUNCTIONAL_29 => Target::Everybody,
                    id => Target::One(id),
                }
            }
            _ => {
                let [_, kind, to, _] = header.value.to_be_bytes();
                match (kind, to) {
                    (0x61 | 0x68, 0x6A) | (0xC0.., 0x33) => Target::Everybody,
                    (_, to) => Target::One(u32::from(to)),
                }
            }
        }
    }

    /// Where the unit with the one-byte address `unit` is asked, and what it answers as.
    /// On 11-bit CAN the address counts from 7E0.
    pub fn place(&self, unit: u8) -> Place {
        let number = u32::from(unit);
        match self.form {
            frames::Bus::Can11 => Place::can11(0x7E0 + (number & 7)),
            frames::Bus::Can29 => {
                let from = Ecu::can29(0x18DA_F100 | number).unwrap_or(Ecu::address(unit));
                Place { asked: 0x18DA_00F1 | number << 8, from }
            }
            _ => Place { asked: number, from: Ecu::address(unit) },
        }
    }

    /// The unit that is asked there.
    pub fn place_at(&self, asked: u32) -> Place {
        match self.form {
            frames::Bus::Can11 => Place::can11(asked),
            frames::Bus::Can29 => self.place((asked >> 8 & 0xFF) as u8),
            _ => self.place((asked & 0xFF) as u8),
        }
    }

    /// Which senders an adapter hears that was not told otherwise: identifier and mask.
    /// 7E8 to 7EF, and what is sent to the tester F1 (dialect section 5).
    pub const fn heard(&self) -> (u32, u32) {
        match self.form {
            frames::Bus::Can11 => (0x7E8, 0x7F8),
            frames::Bus::Can29 => (0x18DA_F100, 0x1FFF_FF00),
            _ => (0, 0),
        }
    }

    /// To whom the adapter acknowledges a long answer of `from`, where it knows by itself (dialect section 8).
    pub fn acknowledged_at(&self, from: Ecu) -> Option<u32> {
        match (self.form, from.id()) {
            (frames::Bus::Can11, id @ 0x7E8..=0x7EF) => Some(id - 8),
            (frames::Bus::Can29, id @ 0x18DA_F100..=0x18DA_F1FF) => Some(0x18DA_00F1 | (id & 0xFF) << 8),
            _ => None,
        }
    }
}

/// The address bytes of requests, as they were set: 3, 6 or 8 digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Header {
    /// What they say.
    pub value: u32,
    /// How many digits were given.
    pub digits: usize,
}

/// Where a control unit is asked, and what it answers as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// The identifier or address it listens to.
    pub asked: u32,
    /// The identifier or address it answers from.
    pub from: Ecu,
}

impl Place {
    /// On 11-bit CAN: it answers from the identifier that is 8 higher.
    pub fn can11(asked: u32) -> Self {
        let asked = asked & 0x7F7;
        Self { asked, from: Ecu::can11(asked as u16 + 8).unwrap_or(Ecu::address(0)) }
    }
}

/// Header and check sum beside the data; and to whom requests to everybody go.
/// Source: SAE J1850, ISO 14230-2 and ISO 15765-4, from memory.
const AROUND: usize = 4;
const FUNCTIONAL_11: u32 = 0x7DF;
const FUNCTIONAL_29: u32 = 0x18DB_33F1;
/// Between two messages of J1850, and of a K line.
/// Own choice: J1850 sends as soon as the bus is free; the K line's 25 ms are P2 of ISO 14230-2, from memory.
const J1850_GAP_MS: f64 = 2.0;
const K_LINE_GAP_MS: f64 = 25.0;
/// 10 bits at 10.4 kbit/s; 5.2 ms between request bytes (data sheet p.71), 1 ms between reply bytes (assumed there).
const K_LINE: Pace = Pace::Serial { byte: 10.0 / 10.4, asking: 5.2, answering: 1.0 };

const CAN_11_500: Bus = can("can-11-500", "ISO 15765-4, 11-bit identifiers, 500 kbit/s.", 6, 0.22, 700.0);
const CAN_29_500: Bus = can("can-29-500", "ISO 15765-4, 29-bit identifiers, 500 kbit/s.", 7, 0.26, 900.0);
const CAN_11_250: Bus = can("can-11-250", "ISO 15765-4, 11-bit identifiers, 250 kbit/s.", 8, 0.44, 1_100.0);
const CAN_29_250: Bus = can("can-29-250", "ISO 15765-4, 29-bit identifiers, 250 kbit/s.", 9, 0.52, 1_300.0);

const J1850_PWM: Bus = Bus {
    name: "j1850-pwm",
    says: "SAE J1850, pulse width modulation, 41.6 kbit/s.",
    number: 1,
    form: frames::Bus::J1850Pwm,
    start: Start::None,
    answers_ms: 15.0,
    search_ms: 400.0,
    // Bits of 24 us, from memory; 1.6 ms for six bytes and 1.8 ms for seven.
    pace: Pace::Bytes { frame: 0.448, byte: 0.192 },
};

const J1850_VPW: Bus = Bus {
    name: "j1850-vpw",
    says: "SAE J1850, variable pulse width, 10.4 kbit/s.",
    number: 2,
    form: frames::Bus::J1850Vpw,
    // Bits of about 96 us, from memory; 5.1 ms for six bytes and 5.9 ms for seven.
    pace: Pace::Bytes { frame: 0.492, byte: 0.768 },
    answers_ms: 30.0,
    search_ms: 600.0,
    ..J1850_PWM
};

const ISO_9141_2: Bus = Bus {
    name: "iso-9141-2",
    says: "ISO 9141-2, K line, started at 5 baud, 10.4 kbit/s.",
    number: 3,
    form: frames::Bus::Iso9141,
    start: Start::Slow,
    answers_ms: 30.0,
    search_ms: 3_500.0,
    pace: K_LINE,
};

const ISO_14230_4_SLOW: Bus = Bus {
    name: "iso-14230-4-slow",
    says: "ISO 14230-4, K line, started at 5 baud, 10.4 kbit/s.",
    number: 4,
    form: frames::Bus::Iso14230,
    search_ms: 6_500.0,
    ..ISO_9141_2
};

const ISO_14230_4_FAST: Bus = Bus {
    name: "iso-14230-4-fast",
    says: "ISO 14230-4, K line, fast start, 10.4 kbit/s.",
    number: 5,
    start: Start::Fast,
    search_ms: 7_000.0,
    ..ISO_14230_4_SLOW
};

const fn can(name: &'static str, says: &'static str, number: u8, frame: f64, search_ms: f64) -> Bus {
    let form = if number.is_multiple_of(2) { frames::Bus::Can11 } else { frames::Bus::Can29 };
    let (start, pace) = (Start::None, Pace::Frame(frame));
    Bus { name, says, number, form, start, answers_ms: 10.0, search_ms, pace }
}

/// All of them, by their numbers.
pub const ALL: &[&Bus] = &[
    &J1850_PWM,
    &J1850_VPW,
    &ISO_9141_2,
    &ISO_14230_4_SLOW,
    &ISO_14230_4_FAST,
    &CAN_11_500,
    &CAN_29_500,
    &CAN_11_250,
    &CAN_29_250,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_stand_in_the_order_of_their_numbers() {
        for (bus, number) in ALL.iter().zip(1..) {
            assert_eq!(bus.number, number, "{}", bus.name);
            assert_eq!(Bus::named(bus.name).unwrap().number, number);
        }
    }

    #[test]
    fn bytes_take_as_long_as_the_reference_says() {
        // poll_rate.csv, columns t_bus_req_ms and t_bus_resp_ms: two bytes asked, three answered.
        let cases = [
            ("can-11-500", 0.22, 0.22),
            ("can-29-500", 0.26, 0.26),
            ("can-11-250", 0.44, 0.44),
            ("can-29-250", 0.52, 0.52),
            ("j1850-pwm", 1.6, 1.8),
            ("j1850-vpw", 5.1, 5.9),
            ("iso-9141-2", 31.77, 12.73),
            ("iso-14230-4-fast", 31.77, 12.73),
        ];
        for (name, asked, answered) in cases {
            let bus = Bus::named(name).unwrap();
            assert!((bus.request_ms(2) - asked).abs() < 0.04, "{name}: {}", bus.request_ms(2));
            assert!((bus.line_ms(3) - answered).abs() < 0.04, "{name}: {}", bus.line_ms(3));
        }
    }

    #[test]
    fn a_header_is_understood_by_the_rules_of_its_bus() {
        use Target::{Everybody, One};
        let header =
            |text: &str| Some(Header { value: u32::from_str_radix(text, 16).unwrap(), digits: text.len() });
        #[rustfmt::skip]
        let cases = [
            ("can-11-500", header("7DF"),      Everybody),
            ("can-11-500", header("7E1"),      One(0x7E1)),
            ("can-29-500", header("DA18F1"),   One(0x18DA_18F1)),
            ("can-29-500", header("18DA18F1"), One(0x18DA_18F1)),
            ("can-29-500", header("DB33F1"),   Everybody),
            ("can-29-500", header("7E1"),      One(0x1800_07E1)),
            ("j1850-pwm",  header("616AF1"),   Everybody),
            ("j1850-vpw",  header("6C18F1"),   One(0x18)),
            ("iso-9141-2", header("686AF1"),   Everybody),
            ("iso-9141-2", header("6818F1"),   One(0x18)),
            ("iso-14230-4-fast", header("C233F1"), Everybody),
            ("iso-14230-4-fast", header("8118F1"), One(0x18)),
            ("iso-14230-4-slow", None,         Everybody),
        ];
        for (name, header, want) in cases {
            assert_eq!(Bus::named(name).unwrap().target(header, 0x18), want, "{name} {header:X?}");
        }
    }
}
