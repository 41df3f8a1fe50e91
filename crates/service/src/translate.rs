//! Plain decoded values to quantities: the one place where `frames`' numbers become readings of the vocabulary.
//!
//! Also what is to be asked: the schedule that the adapter's driver works through, made from the sheet.

use std::time::Duration;

use adapter::{Driver, Header, Poll, Protocol, Schedule};
use events::{Measure, Quantity, Sheet, Signal, VehicleBus};
use frames::{Ask, ByteOrder, CheckDigit, Datum, DecodeError, Encoding, Message};
use gate::{Cooler, Gate};
use units::Kelvins;

/// The gating signal is asked this often.
const GATING_EVERY: Duration = Duration::from_millis(500);

/// Stored and pending codes are asked this often: a sensor may fail in the middle of a job.
const CODES_EVERY: Duration = Duration::from_secs(60);

/// A fault code has so many bytes.
const CODE_BYTES: usize = 2;

/// The selector is asked this often: its shortest dwell is a second.
const SELECTOR_EVERY: Duration = Duration::from_millis(500);

/// The request that carries the selector's position, where the sheet names one.
fn selector(sheet: &Sheet) -> Option<(Ask, Header)> {
    let reported = sheet.before.selector.as_ref()?.reported.as_ref()?;
    let ask = match reported.service {
        0x21 => Ask::LocalIdentifier(u8::try_from(reported.id).ok()?),
        _ => Ask::Identifier(reported.id),
    };
    Some((ask, Header::parse(&reported.header).ok()?))
}

/// The selector's position out of its answer; a code of no position is none.
fn position(sheet: &Sheet, ask: Ask, data: &[u8]) -> Option<Measure> {
    let reported = sheet.before.selector.as_ref()?.reported.as_ref()?;
    let code = data.get(echoed(ask) + usize::from(reported.byte))?;
    let place = reported.codes.iter().position(|c| c == code)?;
    u8::try_from(place).ok().map(Measure::Selector)
}

/// What stands before the value: the service, then the identifier, which the driver has already compared.
const fn echoed(ask: Ask) -> usize {
    if matches!(ask, Ask::LocalIdentifier(_)) { 2 } else { 3 }
}

/// The request that carries the gating signal, with its address; none where a thermometer is typed in.
fn gating(sheet: &Sheet) -> Option<(Ask, Option<Header>)> {
    match sheet.check.signal {
        Signal::Spot | Signal::Display | Signal::Lamp => None,
        Signal::Coolant => Some((Ask::Current(0x05), None)),
        Signal::Fluid => {
            let identifier = sheet.identifier.as_ref()?;
            let ask = match identifier.service {
                0x21 => Ask::LocalIdentifier(u8::try_from(identifier.id).ok()?),
                _ => Ask::Identifier(identifier.id),
            };
            // An address that is none would ask everybody and believe anybody: then rather ask nobody.
            Some((ask, Some(Header::parse(&identifier.header).ok()?)))
        }
    }
}

/// What the adapter's driver is to ask, after the sheet.
pub fn schedule(sheet: &Sheet) -> Schedule {
    let gating = gating(sheet);
    let signal = gating.as_ref().map(|(ask, _)| *ask);
    let poll = |ask, header, every| Poll { ask, header, every };
    let mut others: Vec<Poll> = Quantity::all_asked()
        .iter()
        .map(|asked| poll(Ask::Current(asked.identifier), None, asked.every))
        .filter(|p| Some(p.ask) != signal)
        .collect();
    others.extend(selector(sheet).map(|(ask, header)| poll(ask, Some(header), SELECTOR_EVERY)));
    others.extend([Ask::StoredCodes, Ask::PendingCodes].map(|ask| poll(ask, None, CODES_EVERY)));
    Schedule {
        gating: gating.map(|(ask, header)| poll(ask, header, GATING_EVERY)),
        others,
        once: vec![poll(Ask::VehicleInfo(0x02), None, CODES_EVERY)],
        floor: Duration::from_millis(50),
    }
}

/// The protocol of the sheet's bus, if it names one: the first to be tried.
pub fn protocol(sheet: &Sheet) -> Option<Protocol> {
    Some(match sheet.bus? {
        VehicleBus::Can11Fast => Protocol::Can11Fast,
        VehicleBus::Can29Fast => Protocol::Can29Fast,
        VehicleBus::Can11Slow => Protocol::Can11Slow,
        VehicleBus::Can29Slow => Protocol::Can29Slow,
        VehicleBus::J1850Pwm => Protocol::J1850Pwm,
        VehicleBus::J1850Vpw => Protocol::J1850Vpw,
        VehicleBus::Iso9141 => Protocol::Iso9141,
        VehicleBus::Iso14230Slow => Protocol::Iso14230Slow,
        VehicleBus::Iso14230Fast => Protocol::Iso14230Fast,
    })
}

/// A driver that asks what the sheet says, and tries its bus first.
pub(crate) fn driver(sheet: &Sheet) -> Driver {
    let driver = Driver::new(schedule(sheet));
    match protocol(sheet) {
        Some(protocol) => driver.with_protocol(protocol),
        None => driver,
    }
}

/// The gate for jobs after this sheet.
pub(crate) fn gate(sheet: &Sheet) -> Gate {
    let cooler = if sheet.before.cooler_bypass { Cooler::PinnedThrough } else { Cooler::Unknown };
    Gate::new(&sheet.check, step(sheet)).with_cooler(cooler)
}

/// The smallest step that the gating signal can show.
fn step(sheet: &Sheet) -> Option<Kelvins> {
    match sheet.check.signal {
        Signal::Fluid => sheet.identifier.as_ref().map(|i| Kelvins::clamped(i.scale.abs().max(0.01))),
        Signal::Coolant => Some(Kelvins::clamped(1.0)),
        Signal::Spot | Signal::Display | Signal::Lamp => None,
    }
}

/// What a message became.
pub(crate) enum Translated {
    /// Quantities, with the smallest step of those that are temperatures.
    Readings(Vec<(Measure, Option<Kelvins>)>),
    /// Nothing that the vocabulary has a word for.
    Nothing,
}

/// The vehicle identification number of a message that carries one; a row of zeros is a placeholder and none.
pub(crate) fn vin(data: &[u8]) -> Option<String> {
    let values = frames::decode(Ask::VehicleInfo(0x02), data).ok()?;
    values.into_iter().find_map(|value| match value.value {
        Datum::Vin(vin) if vin.check_digit() != CheckDigit::Placeholder => Some(vin.to_string()),
        _ => None,
    })
}

/// What one control unit's message says.
///
/// # Errors
/// [`DecodeError`] where the bytes are not what the table or the sheet says; such a message is no reading.
pub(crate) fn message(sheet: &Sheet, ask: Ask, message: &Message) -> Result<Translated, DecodeError> {
    match ask {
        _ if selector(sheet).is_some_and(|(asked, _)| asked == ask) => {
            Ok(position(sheet, ask, &message.data)
                .map_or(Translated::Nothing, |m| Translated::Readings(vec![(m, None)])))
        }
        Ask::Identifier(_) | Ask::LocalIdentifier(_) => identifier(sheet, ask, &message.data),
        _ => numbers(ask, &message.data),
    }
}

/// The fault codes of one message.
pub(crate) struct CodesSaid {
    /// As `P0712`.
    pub(crate) codes: Vec<String>,
    /// It says how many they are, or has room left: no further message need follow. On buses other than CAN a message has three
    /// places, and one that is full may not be the last.
    pub(crate) ends: bool,
}

/// What one control unit's message says of its fault codes.
///
/// # Errors
/// [`DecodeError`] where the bytes are not what the table says.
pub(crate) fn codes(ask: Ask, message: &Message) -> Result<CodesSaid, DecodeError> {
    let values = frames::decode(ask, &message.data)?;
    let counted = values.iter().any(|value| matches!(value.value, Datum::Number(_)));
    let codes: Vec<String> = values
        .into_iter()
        .filter_map(|value| match value.value {
            Datum::Code(code) => Some(code.to_string()),
            _ => None,
        })
        .collect();
    let places = message.data.len().saturating_sub(1) / CODE_BYTES;
    Ok(CodesSaid { ends: counted || codes.len() < places, codes })
}

/// Whether `ask` carries the signal that `sheet` is gated on.
pub(crate) fn gates(sheet: &Sheet, ask: Ask) -> bool {
    gating(sheet).is_some_and(|(gating, _)| gating == ask)
}

/// The one quantity that an answer to the gating request carries, as the daemon would read it; none where the bytes give a
/// value that it cannot have.
///
/// # Errors
/// [`DecodeError`] where the bytes are not what the table or the sheet says.
pub fn reading(sheet: &Sheet, ask: Ask, answer: &Message) -> Result<Option<Measure>, DecodeError> {
    Ok(match message(sheet, ask, answer)? {
        Translated::Readings(readings) => readings.first().map(|(measure, _)| *measure),
        Translated::Nothing => None,
    })
}

fn identifier(sheet: &Sheet, ask: Ask, data: &[u8]) -> Result<Translated, DecodeError> {
    let Some(described) = &sheet.identifier else { return Ok(Translated::Nothing) };
    let encoding = Encoding {
        byte: described.byte,
        length: described.length,
        signed: described.signed,
        order: if described.little_endian { ByteOrder::LittleEndian } else { ByteOrder::BigEndian },
        scale: described.scale,
        offset: described.offset,
        bits: None,
    };
    let value = data.get(echoed(ask)..).unwrap_or_default();
    if let Some(want) = described.bytes.map(usize::from).filter(|want| *want != value.len()) {
        let (service, id, got) = (described.service, described.id, value.len());
        return Err(if got < want {
            DecodeError::ShortReply { service, id, want, got }
        } else {
            DecodeError::LongReply { service, id, want, got }
        });
    }
    let read = encoding.read(value)?;
    Ok(match Measure::from_plain(Quantity::FluidTemperature, read.value, None) {
        Some(measure) => Translated::Readings(vec![(measure, step(sheet))]),
        None => Translated::Nothing,
    })
}

fn numbers(ask: Ask, data: &[u8]) -> Result<Translated, DecodeError> {
    let mut readings = Vec::new();
    for value in frames::values(ask, data)? {
        let Some(quantity) = Quantity::asked_by_name(value.name) else { continue };
        let Some(measure) = value.number().and_then(|n| Measure::from_plain(quantity, n, None)) else {
            continue;
        };
        let step = measure.celsius().map(|_| Kelvins::clamped(1.0));
        readings.push((measure, step));
    }
    Ok(if readings.is_empty() { Translated::Nothing } else { Translated::Readings(readings) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    fn reading(ask: Ask, data: &[u8]) -> Option<Measure> {
        match message(&sheet(), ask, &Message { ecu: None, data: data.to_vec() }) {
            Ok(Translated::Readings(readings)) => readings.first().map(|(m, _)| *m),
            _ => None,
        }
    }

    #[test]
    fn plain_values_become_quantities() {
        let celsius = |t: f64| units::Celsius::from_f64(t).unwrap();
        // Coolant and engine speed: SAE J1979 as in fixtures/reference/obd; the identifier as the sheet says.
        assert_eq!(reading(Ask::Current(0x05), &[0x41, 0x05, 0x7B]), Some(Measure::Coolant(celsius(83.0))));
        let idle = units::Rpm::from_steps(1_726);
        assert_eq!(reading(Ask::Current(0x0C), &[0x41, 0x0C, 0x1A, 0xF8]), idle.map(Measure::EngineSpeed));
        assert_eq!(
            reading(Ask::Identifier(0x4D07), &[0x62, 0x4D, 0x07, 0x4E]),
            Some(Measure::Fluid(celsius(38.0)))
        );
        assert_eq!(reading(Ask::Identifier(0x4D07), &[0x62, 0x4D, 0x07]), None, "too short is no reading");
    }

    #[test]
    fn every_quantity_that_is_asked_is_the_value_of_its_identifier() {
        for &quantity in Quantity::ALL {
            let Some(asked) = quantity.asked() else { continue };
            let answer = [&[0x41, asked.identifier][..], &[1; 4]].concat();
            let read =
                (3..=answer.len()).filter_map(|n| reading(Ask::Current(asked.identifier), &answer[..n]));
            assert_eq!(read.map(Measure::quantity).next(), Some(quantity), "{quantity}");
        }
    }

    #[test]
    fn every_bus_of_a_sheet_is_the_protocol_of_the_same_name() {
        use events::VehicleBus as B;
        let rows = [
            (B::Can11Fast, 6),
            (B::Can29Fast, 7),
            (B::Can11Slow, 8),
            (B::Can29Slow, 9),
            (B::J1850Pwm, 1),
            (B::J1850Vpw, 2),
            (B::Iso9141, 3),
            (B::Iso14230Slow, 4),
            (B::Iso14230Fast, 5),
        ];
        assert_eq!(rows.map(|(bus, _)| bus).as_slice(), B::ALL);
        let mut sheet = sheet();
        assert_eq!(protocol(&sheet), None);
        for (bus, number) in rows {
            sheet.bus = Some(bus);
            assert_eq!(protocol(&sheet), Protocol::from_number(number), "{}", bus.word());
        }
    }

    #[test]
    fn an_answer_with_more_or_fewer_bytes_than_the_sheet_says_is_none() {
        let mut sheet = sheet();
        let identifier = sheet.identifier.as_mut().unwrap();
        identifier.bytes = Some(2);
        let read = |data: &[u8]| {
            let answer = Message { ecu: None, data: data.to_vec() };
            message(&sheet, Ask::Identifier(0x4D07), &answer).is_ok()
        };
        assert!(!read(&[0x62, 0x4D, 7, 0x4E]));
        assert!(read(&[0x62, 0x4D, 7, 0x4E, 0]));
        assert!(!read(&[0x62, 0x4D, 7, 0x4E, 0, 0]));
    }

    #[test]
    fn the_gating_signal_is_asked_more_often_than_anything_else() {
        let schedule = schedule(&sheet());
        let gating = schedule.gating.unwrap();
        assert_eq!(gating.ask, Ask::Identifier(0x4D07));
        assert!(schedule.others.iter().all(|p| p.every > gating.every));
        let coolant = Sheet::parse(include_str!("../../../fixtures/sheets/demo-coolant-only.toml")).unwrap();
        let schedule = super::schedule(&coolant);
        assert_eq!(schedule.gating.unwrap().ask, Ask::Current(0x05));
        assert!(schedule.others.iter().all(|p| p.ask != Ask::Current(0x05)), "asked once, not twice");
    }

    #[test]
    fn a_selector_that_a_control_unit_tells_is_asked_and_read() {
        use units::Celsius;
        let mut sheet = sheet();
        let reported = events::Reported {
            service: 0x22,
            id: 0x1234,
            header: "7E1".to_owned(),
            byte: 1,
            codes: vec![0, 7, 6, 5],
        };
        sheet.before.selector.as_mut().unwrap().reported = Some(reported);
        let asked = schedule(&sheet).others.iter().any(|p| p.ask == Ask::Identifier(0x1234));
        assert!(asked);
        let read = |data: &[u8]| match message(
            &sheet,
            Ask::Identifier(0x1234),
            &Message { ecu: None, data: data.to_vec() },
        ) {
            Ok(Translated::Readings(readings)) => readings.first().map(|(m, _)| *m),
            _ => None,
        };
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF, 7]), Some(Measure::Selector(1)), "R");
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF, 9]), None, "a code of no position");
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF]), None, "too short");
        // The temperature's identifier is read as before.
        let fluid =
            message(&sheet, Ask::Identifier(0x4D07), &Message { ecu: None, data: vec![0x62, 0x4D, 7, 60] });
        assert!(
            matches!(fluid, Ok(Translated::Readings(r)) if r[0].0 == Measure::Fluid(Celsius::clamped(20.0)))
        );
    }
}
