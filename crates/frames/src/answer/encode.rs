//! Values to a message, by the same table that decodes: for a simulated vehicle, and for the law that both
//! agree.
//!
//! In: the request and named numbers. Out: the message from the service byte on. Not here: lines
//! (`write.rs`).

use alloc::vec::Vec;

use crate::answer::code::Code;
use crate::answer::vin::Vin;
use crate::ask::Ask;
use crate::table::current;
use crate::table::info::{self, Shape};

/// Why values cannot be put into a reply.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EncodeError {
    /// The table has no row, or no layout, for the request.
    #[error("no layout for the answer to service {service:02X} {id:02X}")]
    NoLayout {
        /// The service.
        service: u8,
        /// The identifier.
        id: u16,
    },
    /// The row has no field of that name.
    #[error("value {index} names no field of this answer")]
    UnknownName {
        /// Which of the values given.
        index: usize,
    },
    /// A text that is too long or holds something else than printable ASCII.
    #[error("text {index} is not made of at most {limit} printable characters")]
    Text {
        /// Which of the texts given.
        index: usize,
        /// How many characters there is room for.
        limit: usize,
    },
    /// The value does not fit into its field.
    #[error("{name} is {value}, the field carries {low} to {high}")]
    OutOfRange {
        /// The field.
        name: &'static str,
        /// The value.
        value: f64,
        /// The smallest it carries.
        low: f64,
        /// The largest.
        high: f64,
    },
}

/// How a list of entries begins: with a count on CAN, with none on the older buses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Counted {
    /// CAN: a count comes first.
    Yes,
    /// Older buses: no count; fixed lengths, filled up with 0.
    No,
}

/// The positive reply to `ask` that carries `values`: names of the table and numbers in its units (the raw
/// number for flags, enumerations, codes and bitmaps). Fields not named are 0 and, where they have a support
/// bit, not supported.
///
/// Errors: [`EncodeError`]. Only services 01 and 02 have such a table; see the other functions for codes and
/// the VIN.
pub fn encode(ask: Ask, values: &[(&str, f64)]) -> Result<Vec<u8>, EncodeError> {
    let no_layout = EncodeError::NoLayout { service: ask.service(), id: ask.id() };
    let row = match ask {
        Ask::Current(pid) | Ask::FreezeFrame { pid, .. } => current::find(pid),
        _ => None,
    };
    let row = row.filter(|row| row.opaque.is_none()).ok_or(no_layout)?;
    let mut payload = [0_u8; 64];
    for (index, (name, value)) in values.iter().enumerate() {
        let field =
            row.fields.iter().find(|field| field.name == *name).ok_or(EncodeError::UnknownName { index })?;
        let (low, high) = field.range();
        let outside = EncodeError::OutOfRange { name: field.name, value: *value, low, high };
        field.write(*value, &mut payload).ok_or(outside)?;
    }
    Ok(ask.echo().chain(payload.into_iter().take(usize::from(row.longest))).collect())
}

/// The bitmap that says which of `ids` are supported, for the identifier `base` (00, 20, 40 …). Others are
/// ignored.
pub fn support_bitmap(base: u8, ids: &[u8]) -> [u8; 4] {
    let bit = |id: &u8| {
        id.checked_sub(base)
            .filter(|place| (1..=32).contains(place))
            .map_or(0, |place| 0x8000_0000_u32 >> (place - 1))
    };
    ids.iter().map(bit).fold(0, |all, one| all | one).to_be_bytes()
}

/// The positive reply to a support request (`0100`, `0120`, `0900` …) of a vehicle that supports `ids`.
pub fn encode_supported(ask: Ask, ids: &[u8]) -> Vec<u8> {
    ask.echo().chain(support_bitmap(ask.id() as u8, ids)).collect()
}

/// The reply to service 03, 07 or 0A. Without a count it holds three codes, filled up with 0: the older buses
/// send more codes as further messages.
pub fn encode_codes(ask: Ask, codes: &[Code], counted: Counted) -> Vec<u8> {
    let pairs = codes.iter().flat_map(|code| code.raw().to_be_bytes());
    match counted {
        Counted::Yes => {
            let count = codes.len().min(255);
            ask.echo().chain([count as u8]).chain(pairs.take(count * 2)).collect()
        }
        Counted::No => ask.echo().chain(pairs.chain([0; 6]).take(6)).collect(),
    }
}

/// The reply to `0902`.
pub fn encode_vin(vin: &Vin, counted: Counted) -> Vec<u8> {
    let filler: &[u8] = if counted == Counted::Yes { &[1] } else { &[0, 0, 0] };
    [&[0x49, 0x02], filler, vin.as_str().as_bytes()].concat()
}

/// The reply to a request for vehicle information that consists of texts: calibration identifications (04),
/// the engine's serial number (0D), the name of a control unit (0A, given as acronym and name).
///
/// Errors: [`EncodeError::NoLayout`] for other infotypes, [`EncodeError::Text`].
pub fn encode_texts(infotype: u8, texts: &[&str], counted: Counted) -> Result<Vec<u8>, EncodeError> {
    let sizes: &[usize] = match info::find(infotype).map(|row| row.shape) {
        Some(Shape::Texts(16)) => &[16],
        Some(Shape::Texts(17)) => &[17],
        // Four characters, a separator, fifteen characters.
        Some(Shape::EcuName) => &[5, 15],
        _ => return Err(EncodeError::NoLayout { service: 0x09, id: u16::from(infotype) }),
    };
    let mut data = alloc::vec![0x49, infotype];
    if counted == Counted::Yes {
        data.push((texts.len() / sizes.len()) as u8);
    }
    for (index, (text, size)) in texts.iter().zip(sizes.iter().cycle()).enumerate() {
        let limit = if *size == 5 { 4 } else { *size };
        let printable = text.len() <= limit && text.bytes().all(|byte| matches!(byte, b' '..=b'~'));
        if !printable {
            return Err(EncodeError::Text { index, limit });
        }
        let end = data.len() + size;
        data.extend_from_slice(text.as_bytes());
        data.resize(end, 0);
        if let (5, Some(separator)) = (*size, data.last_mut()) {
            *separator = b'-';
        }
    }
    Ok(data)
}

/// One result of an on-board test, in raw numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TestRecord {
    /// The number of the test.
    pub test: u8,
    /// Its unit-and-scaling identifier.
    pub scaling: u8,
    /// What was measured.
    pub value: u16,
    /// The least that passes.
    pub minimum: u16,
    /// The most that passes.
    pub maximum: u16,
}

/// The reply to service 06 on CAN for the monitor `monitor`.
pub fn encode_tests(monitor: u8, records: &[TestRecord]) -> Vec<u8> {
    let mut data = alloc::vec![0x46];
    for record in records {
        data.extend_from_slice(&[monitor, record.test, record.scaling]);
        data.extend([record.value, record.minimum, record.maximum].into_iter().flat_map(u16::to_be_bytes));
    }
    data
}
