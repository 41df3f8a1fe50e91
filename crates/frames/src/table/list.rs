//! Everything that this crate can name: for `decode --list` and for the tests that walk the tables.

use crate::ask::Ask;
use crate::table::current::CURRENT;
use crate::table::field::Trust;
use crate::table::info::{INFO, Shape};
use crate::table::value::{Bits, Unit};

/// One thing that can be asked for and what comes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// The request. Service 02 answers the same fields as service 01 and is not listed again.
    pub ask: Ask,
    /// The name of the value.
    pub name: &'static str,
    /// The unit; `None` where only the name is known and nothing is decoded.
    pub unit: Option<Unit>,
    /// Its place, where that is fixed.
    pub bits: Option<Bits>,
    /// The smallest and the largest value it can carry, for numbers.
    pub range: Option<(f64, f64)>,
    /// How far the row is to be trusted.
    pub trust: Trust,
}

/// Everything known, in the order of the requests.
pub fn list() -> impl Iterator<Item = Entry> {
    let current = CURRENT.iter().flat_map(|row| {
        let ask = Ask::Current(row.id);
        let known = row.fields.iter().map(move |field| Entry {
            ask,
            name: field.name,
            unit: Some(field.unit),
            bits: Some(field.bits),
            range: field.is_number().then(|| field.range()),
            trust: field.trust,
        });
        let opaque = row.opaque.map(|name| named(ask, name, None, Trust::Agreed));
        known.chain(opaque)
    });
    let codes = [Ask::StoredCodes, Ask::PendingCodes, Ask::PermanentCodes];
    let codes = codes.into_iter().map(|ask| named(ask, "dtc", Some(Unit::Dtc), Trust::Agreed));
    let tests = ["test-value", "test-minimum", "test-maximum"];
    let tests =
        tests.into_iter().map(|name| named(Ask::TestResults(0x01), name, Some(Unit::Count), Trust::Memory));
    let info = INFO.iter().map(|row| {
        let unit = match row.shape {
            Shape::Byte | Shape::Counters(_) => Some(Unit::Count),
            Shape::Vin | Shape::Texts(_) | Shape::Hex | Shape::EcuName => Some(Unit::Text),
            Shape::Opaque => None,
        };
        named(
            Ask::VehicleInfo(row.id),
            row.name,
            unit,
            if row.id < 0x0C { Trust::Agreed } else { Trust::Memory },
        )
    });
    current.chain(codes).chain(tests).chain(info)
}

const fn named(ask: Ask, name: &'static str, unit: Option<Unit>, trust: Trust) -> Entry {
    Entry { ask, name, unit, bits: None, range: None, trust }
}
