//! The control units: what each answers to a request, and after how long.
//!
//! ```text
//!   request bytes + target ──► engine (7E0, 10):       01, 03, 07, 09
//!                          └─► transmission (7E1, 18): 01 00, 03, 07, and 22 or 21 as the sheet says
//! ```
//!
//! In: a request, whom it is sent to, the world. Out: [`Answer`]s in the order in which they come. The bytes come
//! from the tables of `frames`, by which the program decodes them too.
//! A physical request for what a unit does not have is declined (`7F 22 31`); a functional one is passed over in
//! silence, as ISO 14229-1 wants it (from memory). The sheet's address counts where it has the form of the bus;
//! elsewhere the transmission is 7E1 (11 bit) or 18 (29 bit and the older buses). What is longer than the bus can carry
//! is out of range there. With the identifiers of a drawn vehicle (`identifiers.rs`) its units answer 21 and 22 instead, wherever
//! they are. Not here: lines, frames and waiting (`car/`).

use events::{Identifier, Sheet};
use frames::{Ask, ByteOrder, Code, Counted, Ecu, Encoding, Vin};

use crate::bus::{Bus, Place, Target};
use crate::fault::{Fault, FaultKind};
use crate::identifiers::{Identifiers, UnitReply};
use crate::sensors::{Counting, Shown};
use crate::world::World;

/// One answer of one control unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The identifier or address it comes from.
    pub from: Ecu,
    /// Where its unit is asked.
    pub asked: u32,
    /// Milliseconds after the request.
    pub after_ms: f64,
    /// The message, from the service byte on.
    pub data: Vec<u8>,
}

/// The control units of one vehicle.
#[derive(Debug, Clone)]
pub struct ControlUnits {
    identifier: Option<Identifier>,
    vin: Option<Vin>,
    bus: &'static Bus,
    engine: Place,
    /// Where it answers what is not the maker's; a unit may answer only to its own identifiers.
    transmission: Option<Place>,
    /// What the maker's identifiers are, where they are not the sheet's.
    identifiers: Option<Box<Identifiers>>,
}

impl ControlUnits {
    /// The units of the vehicle that the sheet describes, on one bus.
    pub fn new(sheet: &Sheet, bus: &'static Bus) -> Self {
        let identifier = sheet.identifier.clone();
        let header = identifier.as_ref().map_or("", |id| id.header.trim());
        Self {
            vin: Vin::new(VIN.as_bytes()).ok(),
            bus,
            engine: bus.place(if bus.form == frames::Bus::Can11 { 0 } else { ENGINE }),
            transmission: Some(transmission(header, bus)),
            identifiers: None,
            identifier,
        }
    }

    /// The same with other identifiers than the sheet's, which nobody knows.
    pub fn give(&mut self, identifiers: Identifiers) {
        let other = identifiers.answering().find(|asked| *asked != self.engine.asked);
        self.transmission = other.map(|asked| self.bus.place_at(asked));
        self.identifiers = Some(Box::new(identifiers));
    }

    /// The identifiers that nobody knows, where there are such.
    pub fn identifiers(&self) -> Option<&Identifiers> {
        self.identifiers.as_deref()
    }

    /// What comes back to `request`, sent to `target`.
    pub fn answers(&mut self, request: &[u8], target: Target, world: &World) -> Vec<Answer> {
        let longest = self.longest();
        if let ([service @ (0x21 | 0x22), id @ ..], Some(identifiers)) = (request, &mut self.identifiers) {
            let Target::One(asked) = target else { return Vec::new() };
            identifiers.follow(world);
            let said = maker(identifiers, *service, id, asked);
            return answer(self.bus, asked, (*service, id), said, longest).into_iter().collect();
        }
        let mut all = Vec::with_capacity(2);
        let transmission = self.transmission.map(|place| (Unit::Transmission, place, LATER_MS));
        for (unit, place, later_ms) in
            [Some((Unit::Engine, self.engine, 0.0)), transmission].into_iter().flatten()
        {
            let functional = target == Target::Everybody;
            if !functional && target != Target::One(place.asked) {
                continue;
            }
            let data = match self.positive(unit, request, world) {
                Ok(data) => data,
                Err(_) if functional => continue,
                Err(why) => vec![0x7F, request.first().copied().unwrap_or(0), why],
            };
            let after_ms = self.bus.answers_ms + later_ms;
            all.push(Answer { from: place.from, asked: place.asked, after_ms, data });
        }
        all
    }

    /// The positive reply of one unit, or the code of its refusal.
    fn positive(&self, unit: Unit, request: &[u8], world: &World) -> Result<Vec<u8>, u8> {
        // Several identifiers in one request, and counts before codes: on CAN only.
        let (most, counted) = if self.bus.form.is_can() { (6, Counted::Yes) } else { (1, Counted::No) };
        match (unit, request) {
            (unit, [0x01, pids @ ..]) if (1..=most).contains(&pids.len()) => current(unit, pids, world),
            (unit, [0x09, 0x00]) => Ok(self.infotypes(unit)),
            (Unit::Engine, [0x09, 0x01]) if counted == Counted::No => Ok(vec![0x49, 0x01, MESSAGES_OF_VIN]),
            (_, [0x09, 0x03]) if counted == Counted::No => Ok(vec![0x49, 0x03, MESSAGES_OF_CALIBRATION]),
            (unit, [0x09, 0x04]) => frames::encode_texts(0x04, &[calibration(unit)], counted)
                .map_err(|_| SUB_FUNCTION_NOT_SUPPORTED),
            (Unit::Engine, [0x09, 0x02]) => self
                .vin
                .as_ref()
                .map(|vin| frames::encode_vin(vin, counted))
                .ok_or(SUB_FUNCTION_NOT_SUPPORTED),
            (unit, [0x03]) => Ok(frames::encode_codes(Ask::StoredCodes, &stored(unit, world), counted)),
            (_, [0x07]) => Ok(frames::encode_codes(Ask::PendingCodes, &[], counted)),
            (Unit::Transmission, [service @ (0x21 | 0x22), id @ ..]) => self.fluid(*service, id, world),
            (_, [0x01 | 0x03 | 0x07 | 0x09, ..]) => Err(SUB_FUNCTION_NOT_SUPPORTED),
            (Unit::Engine, [0x21 | 0x22, ..]) => Err(OUT_OF_RANGE),
            _ => Err(SERVICE_NOT_SUPPORTED),
        }
    }

    /// Which vehicle information there is; the older buses put a count before the bitmap, and say of how many messages
    /// an answer consists (infotypes 01 and 03).
    fn infotypes(&self, unit: Unit) -> Vec<u8> {
        let all: &[u8] = if unit == Unit::Engine { &[1, 2, 3, 4] } else { &[3, 4] };
        let can = self.bus.form.is_can();
        let have: Vec<u8> = all.iter().copied().filter(|id| !can || id.is_multiple_of(2)).collect();
        if can {
            frames::encode_supported(Ask::VehicleInfo(0), &have)
        } else {
            let [a, b, c, d] = frames::support_bitmap(0, &have);
            vec![0x49, 0x00, 0x01, a, b, c, d]
        }
    }

    /// The fluid temperature as the sheet's identifier carries it.
    fn fluid(&self, service: u8, id: &[u8], world: &World) -> Result<Vec<u8>, u8> {
        let sheet = self.identifier.as_ref().ok_or(OUT_OF_RANGE)?;
        let [high, low] = sheet.id.to_be_bytes();
        let wanted: &[u8] = if sheet.service == 0x22 { &[high, low] } else { &[low] };
        if service != sheet.service || id != wanted {
            return Err(OUT_OF_RANGE);
        }
        let encoding = encoding(sheet);
        // The encoding rounds; half a step less makes it the count below.
        let truncated = if world.counting() == Counting::Truncated { 0.5 * sheet.scale } else { 0.0 };
        let (lowest, highest) = encoding.range();
        let value = (world.shown().fluid_celsius - truncated).clamp(lowest, highest);
        // What else the block holds is nobody's business here: bytes that look like data.
        let mut block: Vec<u8> =
            (0..sheet.byte).map(|place| 0x11_u8.wrapping_mul(place.wrapping_add(3))).collect();
        block.resize(usize::from(sheet.byte) + usize::from(sheet.length), 0);
        encoding.write_into(value, &mut block).map_err(|_| OUT_OF_RANGE)?;
        let reply = [&[service + 0x40], id, &block[..]].concat();
        if reply.len() > self.longest() { Err(OUT_OF_RANGE) } else { Ok(reply) }
    }

    /// The longest message that the bus carries without numbers of its own (as `frames::write` has it).
    const fn longest(&self) -> usize {
        match self.bus.form {
            frames::Bus::Can11 | frames::Bus::Can29 => 4_095,
            frames::Bus::Iso14230 => 255,
            _ => 7,
        }
    }
}

/// What the maker's identifiers say to a request; one of the wrong length is refused.
fn maker(identifiers: &mut Identifiers, service: u8, id: &[u8], asked: u32) -> UnitReply {
    match (service, id) {
        (0x22, [high, low]) => identifiers.answer(asked, service, u16::from_be_bytes([*high, *low])),
        (0x21, [id]) => identifiers.answer(asked, service, u16::from(*id)),
        _ => UnitReply::Refused(SUB_FUNCTION_NOT_SUPPORTED),
    }
}

/// The message that it becomes, and when.
fn answer(
    bus: &Bus,
    asked: u32,
    (service, id): (u8, &[u8]),
    said: UnitReply,
    longest: usize,
) -> Option<Answer> {
    let positive = |bytes: &[u8]| [&[service + 0x40], id, bytes].concat();
    let refused = |code| vec![0x7F, service, code];
    let (late_ms, data) = match said {
        UnitReply::Data(bytes) => (0, positive(&bytes)),
        UnitReply::Late(late_ms, bytes) => (late_ms, positive(&bytes)),
        UnitReply::Refused(code) => (0, refused(code)),
        UnitReply::Other(message) => (0, message),
        UnitReply::Silence => return None,
    };
    let data = if data.len() > longest { refused(OUT_OF_RANGE) } else { data };
    Some(Answer {
        from: bus.place_at(asked).from,
        asked,
        after_ms: bus.answers_ms + f64::from(late_ms),
        data,
    })
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Engine,
    Transmission,
}

const fn encoding(sheet: &Identifier) -> Encoding {
    Encoding {
        byte: sheet.byte,
        length: sheet.length,
        signed: sheet.signed,
        order: if sheet.little_endian { ByteOrder::LittleEndian } else { ByteOrder::BigEndian },
        scale: sheet.scale,
        offset: sheet.offset,
        bits: None,
    }
}

/// Service 01: one to six identifiers; those that the unit does not have are left out.
fn current(unit: Unit, pids: &[u8], world: &World) -> Result<Vec<u8>, u8> {
    let mut reply = vec![0x41];
    for pid in pids {
        // Each answer begins with the service, which is said once.
        reply.extend(parameter(unit, *pid, world).iter().flatten().skip(1));
    }
    if reply.len() > 1 { Ok(reply) } else { Err(SUB_FUNCTION_NOT_SUPPORTED) }
}

/// The whole answer about one parameter.
fn parameter(unit: Unit, pid: u8, world: &World) -> Option<Vec<u8>> {
    let have = if unit == Unit::Engine { ENGINE_PIDS } else { TRANSMISSION_PIDS };
    if pid == 0 || pid.is_multiple_of(0x20) && have.contains(&pid) {
        return Some(frames::encode_supported(Ask::Current(pid), have));
    }
    if !have.contains(&pid) {
        return None;
    }
    let codes = stored(unit, world).len() as f64;
    let shown = world.shown();
    let value = [value(pid, &shown, codes)?];
    frames::encode(Ask::Current(pid), &value).ok()
}

/// Which value of `frames`' table carries a parameter, and what it is, held inside what its bytes can say.
fn value(pid: u8, shown: &Shown, codes: f64) -> Option<(&'static str, f64)> {
    let degrees = |celsius: f64| celsius.clamp(-40.0, 215.0);
    Some(match pid {
        0x01 => ("dtc-count", codes),
        0x04 => ("calculated-load", if shown.rpm > 0.0 { 22.0 } else { 0.0 }),
        0x05 => ("engine-coolant-temperature", degrees(shown.coolant_celsius)),
        0x0C => ("engine-speed", shown.rpm.clamp(0.0, 16_000.0)),
        0x0D => ("vehicle-speed", shown.speed_kmh.clamp(0.0, 255.0)),
        0x0F => ("intake-air-temperature", degrees(shown.intake_celsius)),
        0x1C => ("obd-requirements", 6.0),
        0x1F => ("time-since-engine-start", shown.run_s.floor().clamp(0.0, 65_535.0)),
        0x42 => ("control-module-voltage", shown.volts.clamp(0.0, 65.0)),
        0x46 => ("ambient-air-temperature", degrees(shown.ambient_celsius)),
        _ => return None,
    })
}

/// The codes that a unit has stored: a made-up fluid temperature comes with P0711.
fn stored(unit: Unit, world: &World) -> Vec<Code> {
    let made_up = |fault: &Fault| fault.kind == FaultKind::SensorDefault && fault.holds(world.now());
    let told = unit == Unit::Transmission && world.faults().iter().any(made_up);
    if told { Code::from_raw(P0711).into_iter().collect() } else { Vec::new() }
}

/// Where the transmission is: as the sheet says, where its address has the form of the bus.
fn transmission(header: &str, bus: &Bus) -> Place {
    let digits: String = header.chars().filter(|c| *c != ' ').collect();
    let value = u32::from_str_radix(&digits, 16).ok();
    match (bus.form, digits.len(), value) {
        (frames::Bus::Can11, 3, Some(id)) if (0x600..=0x7F7).contains(&id) && id != 0x7E0 => Place::can11(id),
        (frames::Bus::Can11, ..) => bus.place(1),
        (_, 6 | 8, Some(value)) if value & 0xFF == 0xF1 && (value >> 8) & 0xFF != u32::from(ENGINE) => {
            bus.place((value >> 8) as u8)
        }
        _ => bus.place(TRANSMISSION),
    }
}

/// Invented names of what is programmed into the units.
const fn calibration(unit: Unit) -> &'static str {
    match unit {
        Unit::Engine => "DEMO-ENGINE-0042",
        Unit::Transmission => "DEMO-GEARBOX-042",
    }
}

/// One-byte addresses of engine and transmission.
/// Source: SAE J2178, from memory.
const ENGINE: u8 = 0x10;
const TRANSMISSION: u8 = 0x18;
/// How much later than the engine's unit the other one answers.
/// Own choice: two frames of CAN and their spread; nothing hangs on it.
const LATER_MS: f64 = 4.0;
/// Seventeen characters and three that fill, four in a message; sixteen characters.
/// Source: SAE J1979, from memory.
const MESSAGES_OF_VIN: u8 = 5;
const MESSAGES_OF_CALIBRATION: u8 = 4;
/// What the engine's unit knows; 20 and 40 say that more follows.
/// Own choice: what the daemon asks for, and what makes a vehicle of it.
const ENGINE_PIDS: &[u8] = &[0x01, 0x04, 0x05, 0x0C, 0x0D, 0x0F, 0x1C, 0x1F, 0x20, 0x40, 0x42, 0x46];
/// What the transmission's unit knows.
/// Own choice: the least that a second unit answers.
const TRANSMISSION_PIDS: &[u8] = &[0x01, 0x0D];
/// An invented vehicle identification number; its ninth character is the right check digit.
pub const VIN: &str = "ZZ9DEM6S9XY000042";
/// Fluid temperature sensor: range or performance; two bytes.
/// Source: SAE J2012.
const P0711: u16 = 0x0711;
/// Codes of refusal.
/// Source: ISO 14229-1 (fixtures/reference/obd/nrc.csv).
const SERVICE_NOT_SUPPORTED: u8 = 0x11;
const SUB_FUNCTION_NOT_SUPPORTED: u8 = 0x12;
const OUT_OF_RANGE: u8 = 0x31;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::embedded;
    use crate::world::Vehicle;

    const FUNCTIONAL: u32 = 0x7DF;

    fn answers_on(bus: &str, request: &[u8], target: Target) -> Vec<Answer> {
        let sheet = embedded::eight_speed();
        let world = World::new(&sheet, Vehicle::typical(&sheet, 21.3), None, &[], 1);
        ControlUnits::new(&sheet, Bus::named(bus).unwrap()).answers(request, target, &world)
    }

    fn answers(request: &[u8], to: u32) -> Vec<Answer> {
        let target = if to == FUNCTIONAL { Target::Everybody } else { Target::One(to) };
        answers_on("can-11-500", request, target)
    }

    fn hex(data: &[u8]) -> String {
        data.iter().map(|byte| format!("{byte:02X}")).collect()
    }

    #[test]
    fn each_unit_answers_what_it_has() {
        // Data bytes by SAE J1979: coolant A-40, intake A-40; 22 3E12 by the sheet: 0.5 per count from -40.
        type Row = (&'static str, &'static [u8], u32, &'static [(u32, &'static str)]);
        let cases: &[Row] = &[
            (
                "both know what they support",
                &[1, 0],
                FUNCTIONAL,
                &[(0x7E8, "410098 1A0013"), (0x7E9, "410080080000")],
            ),
            ("more follows, and follows on", &[1, 0x20], FUNCTIONAL, &[(0x7E8, "412000000001")]),
            ("coolant", &[1, 5], FUNCTIONAL, &[(0x7E8, "41053D")]),
            ("no code, no lamp", &[1, 1], 0x7E1, &[(0x7E9, "410100000000")]),
            ("two at once", &[1, 5, 0x0C], 0x7E0, &[(0x7E8, "41053D0C0000")]),
            ("the fluid", &[0x22, 0x3E, 0x12], 0x7E1, &[(0x7E9, "623E127B")]),
            ("asked of nobody in particular", &[0x22, 0x3E, 0x12], FUNCTIONAL, &[(0x7E9, "623E127B")]),
            ("another identifier is out of range", &[0x22, 0x3E, 0x13], 0x7E1, &[(0x7E9, "7F2231")]),
            ("the engine does not know it", &[0x22, 0x3E, 0x12], 0x7E0, &[(0x7E8, "7F2231")]),
            ("no codes stored", &[3], FUNCTIONAL, &[(0x7E8, "4300"), (0x7E9, "4300")]),
            ("clearing is not served", &[4], 0x7E0, &[(0x7E8, "7F0411")]),
            ("nobody there", &[1, 5], 0x7E5, &[]),
        ];
        for (what, request, to, want) in cases {
            let got: Vec<_> =
                answers(request, *to).iter().map(|answer| (answer.from.id(), hex(&answer.data))).collect();
            let want: Vec<_> = want.iter().map(|(from, data)| (*from, data.replace(' ', ""))).collect();
            assert_eq!(got, want, "{what}");
        }
    }

    #[test]
    fn the_older_buses_have_their_own_forms() {
        type Row = (&'static str, &'static str, &'static [u8], Target, &'static [(u32, &'static str)]);
        let cases: &[Row] = &[
            ("coolant", "iso-9141-2", &[1, 5], Target::Everybody, &[(0x10, "41053D")]),
            ("one at a time", "iso-9141-2", &[1, 5, 0x0C], Target::Everybody, &[]),
            ("three codes, filled up", "j1850-vpw", &[3], Target::One(0x18), &[(0x18, "43000000000000")]),
            ("how many messages", "j1850-pwm", &[9, 1], Target::Everybody, &[(0x10, "490105")]),
            ("the fluid", "iso-14230-4-fast", &[0x22, 0x3E, 0x12], Target::One(0x18), &[(0x18, "623E127B")]),
            (
                "29 bit",
                "can-29-500",
                &[0x22, 0x3E, 0x12],
                Target::One(0x18DA_18F1),
                &[(0x18DA_F118, "623E127B")],
            ),
            (
                "declined",
                "can-29-500",
                &[0x22, 0x3E, 0x13],
                Target::One(0x18DA_18F1),
                &[(0x18DA_F118, "7F2231")],
            ),
        ];
        for (what, bus, request, target, want) in cases {
            let got: Vec<_> =
                answers_on(bus, request, *target).iter().map(|a| (a.from.id(), hex(&a.data))).collect();
            let want: Vec<_> = want.iter().map(|(from, data)| (*from, (*data).to_owned())).collect();
            assert_eq!(got, want, "{what}");
        }
    }

    #[test]
    fn the_vin_is_invented_and_its_check_digit_is_right() {
        let vin = Vin::new(VIN.as_bytes()).unwrap();
        assert_eq!(vin.computed_check_digit(), '9');
        assert_eq!(&answers(&[9, 2], FUNCTIONAL)[0].data[3..], VIN.as_bytes());
    }

    #[test]
    fn truncating_shows_the_count_below_and_rounding_the_nearest() {
        let sheet = embedded::six_speed(); // one degree a count
        for (counting, celsius, want) in
            [(Counting::Rounded, 38.6, 79), (Counting::Truncated, 38.6, 78), (Counting::Truncated, 38.0, 78)]
        {
            let mut vehicle = Vehicle::typical(&sheet, celsius);
            (vehicle.traits.counting, vehicle.traits.fluid_noise_k) = (counting, 0.0);
            let world = World::new(&sheet, vehicle, None, &[], 1);
            let mut units = ControlUnits::new(&sheet, Bus::usual());
            let got = units.answers(&[0x22, 0x4D, 0x07], Target::One(0x7E1), &world);
            assert_eq!(got[0].data, [0x62, 0x4D, 0x07, want], "{counting:?} {celsius}");
        }
    }
}
