//! The control units: what each answers to a request, and after how long.
//!
//! ```text
//!   request bytes + address ──► 7E8 engine:       01, 03, 07, 09
//!                           └─► 7E9 transmission: 01 00, 03, 07, and 22 or 21 as the sheet says
//! ```
//!
//! In: a request, whom it is sent to, the world. Out: [`Answer`]s in the order in which they come.
//! A physical request for what a unit does not have is declined (`7F 22 31`); a functional one is passed over in
//! silence, as ISO 14229-1 wants it (from memory). Not here: lines, frames and waiting (`car.rs`).

use events::{Identifier, Sheet};

use crate::fault::FaultKind;
use crate::sensors::{Counting, Shown};
use crate::world::World;

/// One answer of one control unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The 11-bit identifier it comes from.
    pub from: u16,
    /// Milliseconds after the request.
    pub after_ms: f64,
    /// The message, from the service byte on.
    pub data: Vec<u8>,
}

/// The control units of one vehicle.
#[derive(Debug, Clone)]
pub struct ControlUnits {
    identifier: Option<Identifier>,
    /// The address that the transmission's unit listens to, and the one it answers from.
    transmission: (u16, u16),
}

impl ControlUnits {
    /// The units of the vehicle that the sheet describes.
    pub fn new(sheet: &Sheet) -> Self {
        let identifier = sheet.identifier.clone();
        let asked = identifier.as_ref().and_then(|id| u16::from_str_radix(id.header.trim(), 16).ok());
        let asked = asked.filter(|id| (0x700..=0x7F7).contains(id) && *id != ENGINE.0).unwrap_or(0x7E1);
        Self { identifier, transmission: (asked, asked + 8) }
    }

    /// What comes back to `request`, sent to the 11-bit identifier `to`.
    pub fn answers(&self, request: &[u8], to: u16, world: &World) -> Vec<Answer> {
        let mut all = Vec::with_capacity(2);
        let units = [(ENGINE, ENGINE_MS), (self.transmission, TRANSMISSION_MS)];
        for (unit, ((asked, from), after_ms)) in [Unit::Engine, Unit::Transmission].into_iter().zip(units) {
            if to != FUNCTIONAL && to != asked {
                continue;
            }
            let data = match self.positive(unit, request, world) {
                Ok(data) => data,
                Err(_) if to == FUNCTIONAL => continue,
                Err(why) => vec![0x7F, request.first().copied().unwrap_or(0), why],
            };
            all.push(Answer { from, after_ms, data });
        }
        all
    }

    /// The positive reply of one unit, or the code of its refusal.
    fn positive(&self, unit: Unit, request: &[u8], world: &World) -> Result<Vec<u8>, u8> {
        match (unit, request) {
            (unit, [0x01, pids @ ..]) if (1..=6).contains(&pids.len()) => current(unit, pids, world),
            (Unit::Engine, [0x09, 0x00]) => Ok([&[0x49, 0x00][..], &bitmap(0x00, &[0x02])].concat()),
            (Unit::Engine, [0x09, 0x02]) => Ok([&[0x49, 0x02, 0x01], VIN.as_bytes()].concat()),
            (unit, [service @ (0x03 | 0x07)]) => Ok(codes(unit, *service, world)),
            (Unit::Transmission, [service @ (0x21 | 0x22), id @ ..]) => self.fluid(*service, id, world),
            (_, [0x01 | 0x09 | 0x03 | 0x07, ..]) => Err(SUB_FUNCTION_NOT_SUPPORTED),
            (Unit::Engine, [0x21 | 0x22, ..]) => Err(OUT_OF_RANGE),
            _ => Err(SERVICE_NOT_SUPPORTED),
        }
    }

    /// The fluid temperature as the sheet's identifier carries it.
    fn fluid(&self, service: u8, id: &[u8], world: &World) -> Result<Vec<u8>, u8> {
        let sheet = self.identifier.as_ref().ok_or(OUT_OF_RANGE)?;
        let wanted = sheet.id.to_be_bytes();
        let wanted = if sheet.service == 0x22 { &wanted[..] } else { &wanted[1..] };
        if service != sheet.service || id != wanted {
            return Err(OUT_OF_RANGE);
        }
        let length = usize::from(sheet.length.clamp(1, 4));
        let count = counts(sheet, length, world.shown().fluid_celsius, world.counting());
        let mut value: Vec<u8> = count.to_be_bytes().into_iter().skip(8 - length).collect();
        if sheet.little_endian {
            value.reverse();
        }
        // What else the block holds is nobody's business here: counters that look like data.
        let before = (0..sheet.byte).map(|place| 0x11_u8.wrapping_mul(place.wrapping_add(3)));
        Ok([service + 0x40].into_iter().chain(id.iter().copied()).chain(before).chain(value).collect())
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Engine,
    Transmission,
}

/// The whole number that carries `celsius`, held inside what `length` bytes can say.
fn counts(sheet: &Identifier, length: usize, celsius: f64, counting: Counting) -> i64 {
    let exact = (celsius - sheet.offset) / sheet.scale;
    let whole = match counting {
        Counting::Rounded => exact.round(),
        Counting::Truncated => exact.floor(),
    };
    let span = 1_i64 << (8 * length as i64);
    let (low, high) = if sheet.signed { (-span / 2, span / 2 - 1) } else { (0, span - 1) };
    (whole as i64).clamp(low, high)
}

/// Service 01: one to six identifiers; those that the unit does not have are left out.
fn current(unit: Unit, pids: &[u8], world: &World) -> Result<Vec<u8>, u8> {
    let mut reply = vec![0x41];
    for pid in pids {
        if let Some(data) = parameter(unit, *pid, world) {
            reply.push(*pid);
            reply.extend(data);
        }
    }
    if reply.len() > 1 { Ok(reply) } else { Err(SUB_FUNCTION_NOT_SUPPORTED) }
}

/// The data bytes of one parameter.
fn parameter(unit: Unit, pid: u8, world: &World) -> Option<Vec<u8>> {
    let have: &[u8] = if unit == Unit::Engine { ENGINE_PIDS } else { TRANSMISSION_PIDS };
    if pid.is_multiple_of(0x20) {
        let here = pid == 0 || have.iter().any(|id| *id > pid);
        return here.then(|| bitmap(pid, have).to_vec());
    }
    have.contains(&pid).then(|| data(unit, pid, &world.shown(), stored(unit, world).len()))?
}

/// The bytes of the parameters that [`ENGINE_PIDS`] and [`TRANSMISSION_PIDS`] name, as SAE J1979 lays them out.
fn data(unit: Unit, pid: u8, shown: &Shown, codes: usize) -> Option<Vec<u8>> {
    let byte = |value: f64| vec![value.round().clamp(0.0, 255.0) as u8];
    let word = |value: f64| (value.round().clamp(0.0, 65_535.0) as u16).to_be_bytes().to_vec();
    Some(match pid {
        0x01 => vec![codes.min(127) as u8, if unit == Unit::Engine { 0x07 } else { 0x00 }, 0x65, 0x00],
        0x04 => byte(if shown.rpm > 0.0 { 22.0 * 255.0 / 100.0 } else { 0.0 }),
        0x05 => byte(shown.coolant_celsius + 40.0),
        0x0C => word(shown.rpm * 4.0),
        0x0D => byte(shown.speed_kmh),
        0x0F => byte(shown.intake_celsius + 40.0),
        0x1C => vec![0x06],
        0x1F => word(shown.run_s.floor()),
        0x42 => word(shown.volts * 1_000.0),
        0x46 => byte(shown.ambient_celsius + 40.0),
        _ => return None,
    })
}

/// The support bitmap for the 32 identifiers after `base`; its last bit says that another bitmap follows.
fn bitmap(base: u8, have: &[u8]) -> [u8; 4] {
    let beyond = base.saturating_add(0x20);
    let more = have.iter().any(|id| *id > beyond);
    have.iter()
        .filter(|id| **id > base && **id <= beyond)
        .map(|id| id - base)
        .chain(more.then_some(0x20))
        .fold(0_u32, |map, place| map | 0x8000_0000 >> (place - 1))
        .to_be_bytes()
}

/// The reply to service 03 or 07: a count and the codes.
fn codes(unit: Unit, service: u8, world: &World) -> Vec<u8> {
    let codes = if service == 0x03 { stored(unit, world) } else { Vec::new() };
    [service + 0x40, codes.len() as u8]
        .into_iter()
        .chain(codes.iter().flat_map(|code| code.to_be_bytes()))
        .collect()
}

/// The codes that a unit has stored: a made-up fluid temperature comes with P0711.
fn stored(unit: Unit, world: &World) -> Vec<u16> {
    let made_up =
        |fault: &crate::fault::Fault| fault.kind == FaultKind::SensorDefault && fault.holds(world.now());
    if unit == Unit::Transmission && world.faults().iter().any(made_up) { vec![P0711] } else { Vec::new() }
}

/// Where functional requests go.
pub const FUNCTIONAL: u16 = 0x7DF;
/// The engine's unit: asked at, answers from.
const ENGINE: (u16, u16) = (0x7E0, 0x7E8);
/// Typical answer times, ms (assumption of the adapter reference, poll_rate.csv: 10 ms).
const ENGINE_MS: f64 = 10.0;
const TRANSMISSION_MS: f64 = 14.0;
/// What the engine's unit knows.
const ENGINE_PIDS: &[u8] = &[0x01, 0x04, 0x05, 0x0C, 0x0D, 0x0F, 0x1C, 0x1F, 0x42, 0x46];
/// What the transmission's unit knows.
const TRANSMISSION_PIDS: &[u8] = &[0x01, 0x0D];
/// An invented vehicle identification number; its ninth character is the right check digit.
pub const VIN: &str = "ZZ9DEM6S9XY000042";
/// Fluid temperature sensor: range or performance. SAE J2012 code, two bytes.
const P0711: u16 = 0x0711;
/// ISO 14229-1 codes of refusal.
const SERVICE_NOT_SUPPORTED: u8 = 0x11;
const SUB_FUNCTION_NOT_SUPPORTED: u8 = 0x12;
const OUT_OF_RANGE: u8 = 0x31;
