//! Plain decoded values to quantities: the one place where `frames`' numbers become readings of the vocabulary.
//!
//! Also what is to be asked: the schedule that the adapter's driver works through, made from the sheet.

use std::time::Duration;

use adapter::{Driver, Header, Poll, Protocol, Schedule};
use events::{Measure, Quantity, Reported, Sheet, Signal, VehicleBus};
use frames::{Ask, ByteOrder, CheckDigit, Datum, DecodeError, Ecu, Encoding, Message};
use gate::{Cooler, Gate};
use units::Kelvins;

/// The gating signal is asked this often.
/// Own choice: ten chances before a reading is stale at 5 s (docs/gate.md); an adapter without count digit reads four a
/// second.
const GATING_EVERY: Duration = Duration::from_millis(500);

/// Stored and pending codes are asked this often.
/// Own choice: a sensor may fail in the middle of a job; both requests cost some 0.4 s, one reading.
const CODES_EVERY: Duration = Duration::from_secs(60);

/// Two requests leave at least so far apart.
/// Own choice: twenty a second are more than any signal needs, and vehicles dislike hammering (report ELMduino #286).
const FLOOR: Duration = Duration::from_millis(50);

/// A fault code has so many bytes.
/// Source: SAE J2012, from memory.
const CODE_BYTES: usize = 2;

/// The selector is asked this often.
/// Own choice: its shortest dwell is a second, which one lost answer must not hide.
const SELECTOR_EVERY: Duration = Duration::from_millis(500);

/// The request that carries the selector's position, where the sheet names one.
fn selector(sheet: &Sheet) -> Option<(Ask, Header, &Reported)> {
    let reported = sheet.before.selector.as_ref()?.reported.as_ref()?;
    let ask = match reported.service {
        0x21 => Ask::LocalIdentifier(u8::try_from(reported.id).ok()?),
        _ => Ask::Identifier(reported.id),
    };
    Some((ask, Header::parse(&reported.header).ok()?, reported))
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
    others.extend(selector(sheet).map(|(ask, header, _)| poll(ask, Some(header), SELECTOR_EVERY)));
    others.extend([Ask::StoredCodes, Ask::PendingCodes].map(|ask| poll(ask, None, CODES_EVERY)));
    Schedule {
        gating: gating.map(|(ask, header)| poll(ask, header, GATING_EVERY)),
        others,
        once: vec![poll(Ask::VehicleInfo(0x02), None, CODES_EVERY)],
        floor: FLOOR,
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

/// One quantity as a control unit told it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Value {
    /// Who sent it; `None` where the adapter hides its senders, and then only one unit answers.
    pub(crate) from: Option<Ecu>,
    pub(crate) measure: Measure,
    /// The smallest step that it can show, where it is a temperature.
    pub(crate) step: Option<Kelvins>,
}

/// What answers mean by one sheet: worked out once, since it is looked up at every answer.
#[derive(Debug)]
pub(crate) struct Meaning {
    /// The request that carries the gating signal.
    gating: Option<Ask>,
    /// The request that carries the selector's position: the byte of its answer, and the code of each position.
    selector: Option<(Ask, usize, Vec<u8>)>,
    /// The temperature of the fluid in the answer to the sheet's own identifier.
    fluid: Option<Fluid>,
}

#[derive(Debug)]
struct Fluid {
    encoding: Encoding,
    step: Option<Kelvins>,
    service: u8,
    id: u16,
    /// How long its answer is, where the sheet says.
    bytes: Option<usize>,
}

/// The vehicle identification number of a message that carries one; a row of zeros is a placeholder and none.
pub(crate) fn vin(data: &[u8]) -> Option<String> {
    let values = frames::decode(Ask::VehicleInfo(0x02), data).ok()?;
    values.into_iter().find_map(|value| match value.value {
        Datum::Vin(vin) if vin.check_digit() != CheckDigit::Placeholder => Some(vin.to_string()),
        _ => None,
    })
}

impl Meaning {
    pub(crate) fn of(sheet: &Sheet) -> Self {
        Self {
            gating: gating(sheet).map(|(ask, _)| ask),
            selector: selector(sheet)
                .map(|(ask, _, reported)| (ask, usize::from(reported.byte), reported.codes.clone())),
            fluid: sheet.identifier.as_ref().map(|described| Fluid {
                encoding: Encoding {
                    byte: described.byte,
                    length: described.length,
                    signed: described.signed,
                    order: if described.little_endian {
                        ByteOrder::LittleEndian
                    } else {
                        ByteOrder::BigEndian
                    },
                    scale: described.scale,
                    offset: described.offset,
                    bits: None,
                },
                step: step(sheet),
                service: described.service,
                id: described.id,
                bytes: described.bytes.map(usize::from),
            }),
        }
    }

    /// Whether `ask` carries the signal that the sheet is gated on.
    pub(crate) fn gates(&self, ask: Ask) -> bool {
        self.gating == Some(ask)
    }

    /// Whether `ask` carries it, and nobody has said how long its answer is. The lengths of standard requests are known, and
    /// another is refused anyhow.
    pub(crate) fn leaves_length_open(&self, ask: Ask) -> bool {
        let told = self.fluid.as_ref().is_some_and(|fluid| fluid.bytes.is_some());
        self.gates(ask) && !matches!(ask, Ask::Current(_)) && !told
    }

    /// Adds to `values` what one control unit's message says; nothing where the vocabulary has no word for it.
    ///
    /// # Errors
    /// [`DecodeError`] where the bytes are not what the table or the sheet says; such a message is no reading.
    pub(crate) fn read(
        &self,
        ask: Ask,
        message: &Message,
        values: &mut Vec<Value>,
    ) -> Result<(), DecodeError> {
        let (from, data) = (message.ecu, &message.data);
        match (ask, &self.selector, &self.fluid) {
            (_, Some((asked, byte, codes)), _) if *asked == ask => {
                // A code of no position is none.
                let code = data.get(echoed(ask) + byte);
                let place = code.and_then(|code| codes.iter().position(|c| c == code));
                let measure = place.and_then(|place| u8::try_from(place).ok()).map(Measure::Selector);
                values.extend(measure.map(|measure| Value { from, measure, step: None }));
            }
            (Ask::Identifier(_) | Ask::LocalIdentifier(_), _, Some(fluid)) if fluid.is_asked_by(ask) => {
                let plain = fluid.read(data.get(echoed(ask)..).unwrap_or_default())?;
                let measure = Measure::from_plain(Quantity::FluidTemperature, plain, None);
                values.extend(measure.map(|measure| Value { from, measure, step: fluid.step }));
            }
            (Ask::Identifier(_) | Ask::LocalIdentifier(_), ..) => {}
            _ => {
                for value in frames::values(ask, data)? {
                    let measure = Quantity::asked_by_name(value.name)
                        .and_then(|quantity| Measure::from_plain(quantity, value.number()?, None));
                    values.extend(measure.map(|measure| {
                        let step = measure.celsius().map(|_| Kelvins::clamped(1.0));
                        Value { from, measure, step }
                    }));
                }
            }
        }
        Ok(())
    }
}

impl Fluid {
    /// Whether it is this one that is asked for: other identifiers say nothing of the fluid.
    fn is_asked_by(&self, ask: Ask) -> bool {
        match ask {
            Ask::Identifier(id) => self.service != 0x21 && id == self.id,
            Ask::LocalIdentifier(id) => self.service == 0x21 && u16::from(id) == self.id,
            _ => false,
        }
    }

    /// The plain value in what stands behind the identifier.
    fn read(&self, value: &[u8]) -> Result<f64, DecodeError> {
        if let Some(want) = self.bytes.filter(|want| *want != value.len()) {
            let (service, id, got) = (self.service, self.id, value.len());
            return Err(if got < want {
                DecodeError::ShortReply { service, id, want, got }
            } else {
                DecodeError::LongReply { service, id, want, got }
            });
        }
        self.encoding.read(value).map(|read| read.value)
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

/// The one quantity that an answer to the gating request carries, as the daemon would read it; none where the bytes give a
/// value that it cannot have.
///
/// # Errors
/// [`DecodeError`] where the bytes are not what the table or the sheet says.
pub fn reading(sheet: &Sheet, ask: Ask, answer: &Message) -> Result<Option<Measure>, DecodeError> {
    let mut values = Vec::new();
    Meaning::of(sheet).read(ask, answer, &mut values)?;
    Ok(values.first().map(|value| value.measure))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    fn reading(ask: Ask, data: &[u8]) -> Option<Measure> {
        super::reading(&sheet(), ask, &Message { ecu: None, data: data.to_vec() }).ok().flatten()
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
            super::reading(&sheet, Ask::Identifier(0x4D07), &answer).is_ok()
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
        let said = |id: u16, data: &[u8]| {
            super::reading(&sheet, Ask::Identifier(id), &Message { ecu: None, data: data.to_vec() }).unwrap()
        };
        let read = |data: &[u8]| said(0x1234, data);
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF, 7]), Some(Measure::Selector(1)), "R");
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF, 9]), None, "a code of no position");
        assert_eq!(read(&[0x62, 0x12, 0x34, 0xFF]), None, "too short");
        // The temperature's identifier is read as before.
        assert_eq!(said(0x4D07, &[0x62, 0x4D, 7, 60]), Some(Measure::Fluid(Celsius::clamped(20.0))));
    }
}
