//! A message to values. One walk over the tables; nothing allocates but [`decode`], which collects.
//!
//! In: the request and the message from its service byte on. Out: values, or why not.
//! Everything is checked before the first value is handed out, so that a walk never breaks off in the middle.
//! Not here: text (`wire.rs`), the rows (`current.rs`, `info.rs`, `monitor.rs`), sheets (`encoding.rs`).

use alloc::vec::Vec;

use crate::answer::code::Code;
use crate::answer::negative::NegativeReply;
use crate::ask::Ask;
use crate::error::DecodeError;
use crate::table::current;
use crate::table::field::{Field, Row};
use crate::table::info::{self, Info};
use crate::table::monitor::{self, Records};
use crate::table::value::{Bits, Datum, Unit, Value};

/// All values of the positive reply `data` to `ask`, in the order of the table.
///
/// `data` begins with the service byte (`41 05 7B`). A field that the reply marks as not supported is there
/// with `supported` false. A wrong check digit of a VIN is a value beside it, not an error.
///
/// Errors: [`DecodeError`]; a negative reply is [`DecodeError::Negative`].
pub fn decode(ask: Ask, data: &[u8]) -> Result<Vec<Value>, DecodeError> {
    values(ask, data).map(Iterator::collect)
}

/// The same one by one, without allocating.
pub fn values(ask: Ask, data: &[u8]) -> Result<Values<'_>, DecodeError> {
    let payload = payload(ask, data)?;
    let walk = match ask {
        Ask::Current(pid) => Walk::Row(fields(0x01, row(0x01, pid)?, payload)?),
        Ask::FreezeFrame { pid, .. } => Walk::Row(fields(0x02, row(0x02, pid)?, payload)?),
        Ask::CurrentMany(_) => Walk::Rows { rest: checked_many(ask, payload)?, row: None },
        Ask::StoredCodes | Ask::PendingCodes | Ask::PermanentCodes => Walk::Codes(codes(ask, payload)?),
        Ask::TestResults(id) => Walk::Tests(monitor::records(id, payload)?),
        Ask::VehicleInfo(id) => Walk::Info(info::open(id, payload)?),
        Ask::LocalIdentifier(_) | Ask::Identifier(_) => {
            return Err(DecodeError::NeedsSheet { service: ask.service() });
        }
    };
    Ok(Values { walk })
}

/// The one value called `name`, without allocating: the path of a single reading.
///
/// Errors: [`DecodeError`]; [`DecodeError::UnknownName`] if the reply has no such field.
#[inline]
pub fn decode_one(ask: Ask, data: &[u8], name: &str) -> Result<Value, DecodeError> {
    if let Ask::Current(pid) = ask {
        let payload = payload(ask, data)?;
        let walk = fields(0x01, row(0x01, pid)?, payload)?;
        let field = walk.fields.iter().find(|field| field.name == name).ok_or(DecodeError::UnknownName)?;
        return field.read(payload, pid).ok_or(DecodeError::UnknownName);
    }
    values(ask, data)?.find(|value| value.name == name).ok_or(DecodeError::UnknownName)
}

/// The bytes after the echo of `ask`.
#[inline]
pub(crate) fn payload(ask: Ask, data: &[u8]) -> Result<&[u8], DecodeError> {
    if ask.matches(data)
        && let Some(payload) = data.get(ask.echo_len()..)
    {
        return Ok(payload);
    }
    Err(not_the_answer(ask, data))
}

#[cold]
fn not_the_answer(ask: Ask, data: &[u8]) -> DecodeError {
    if let Some(negative) = NegativeReply::parse(data).filter(|negative| negative.service == ask.service()) {
        return DecodeError::Negative(negative);
    }
    match ask.echo().zip(data).enumerate().find(|(_, (want, got))| want != *got) {
        Some((at, (want, &got))) => DecodeError::Mismatch { service: ask.service(), want, got, at },
        None => DecodeError::ShortReply { service: ask.service(), id: ask.id(), want: 1, got: 0 },
    }
}

fn row(service: u8, pid: u8) -> Result<&'static Row, DecodeError> {
    current::find(pid).ok_or(DecodeError::UnknownId { service, id: u16::from(pid) })
}

/// Opens the walk over one row, after checking the length and that every supported field is there.
#[inline]
fn fields<'a>(service: u8, row: &'static Row, payload: &'a [u8]) -> Result<RowWalk<'a>, DecodeError> {
    let (id, got) = (u16::from(row.id), payload.len());
    let (shortest, longest) = (usize::from(row.shortest), usize::from(row.longest));
    if got < shortest {
        return Err(DecodeError::ShortReply { service, id, want: shortest, got });
    }
    if got > longest {
        return Err(DecodeError::LongReply { service, id, want: longest, got });
    }
    if let Some(name) = row.opaque {
        return Err(DecodeError::NoLayout { service, id, name });
    }
    if got < longest && row.fields.iter().any(|field| field.read(payload, row.id).is_none()) {
        return Err(DecodeError::ShortReply { service, id, want: longest, got });
    }
    Ok(RowWalk { id: row.id, fields: row.fields, payload })
}

/// The values of one reply.
#[derive(Debug, Clone)]
pub struct Values<'a> {
    walk: Walk<'a>,
}

#[derive(Debug, Clone)]
enum Walk<'a> {
    Row(RowWalk<'a>),
    Rows { rest: &'a [u8], row: Option<RowWalk<'a>> },
    Codes(CodeWalk<'a>),
    Tests(Records<'a>),
    Info(Info<'a>),
}

impl Iterator for Values<'_> {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        match &mut self.walk {
            Walk::Row(row) => row.next(),
            Walk::Rows { rest, row } => loop {
                if let Some(value) = row.as_mut().and_then(Iterator::next) {
                    return Some(value);
                }
                let (next, tail) = split_row(rest)?;
                (*rest, *row) = (tail, Some(next));
            },
            Walk::Codes(codes) => codes.next(),
            Walk::Tests(records) => records.next(),
            Walk::Info(info) => info.next(),
        }
    }
}

#[derive(Debug, Clone)]
struct RowWalk<'a> {
    id: u8,
    fields: &'static [Field],
    payload: &'a [u8],
}

impl Iterator for RowWalk<'_> {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        loop {
            let (field, rest) = self.fields.split_first()?;
            self.fields = rest;
            if field.exists(self.payload) {
                return field.read(self.payload, self.id);
            }
        }
    }
}

/// Identifier-value pairs as service 01 answers several identifiers: each must be known, of one length and
/// asked for.
fn checked_many(ask: Ask, payload: &[u8]) -> Result<&[u8], DecodeError> {
    let mut rest = payload;
    while let Some((&id, tail)) = rest.split_first() {
        if let Ask::CurrentMany(pids) = ask
            && !pids.as_slice().contains(&id)
        {
            return Err(DecodeError::UnknownId { service: 0x01, id: u16::from(id) });
        }
        let row = row(0x01, id)?;
        let length = usize::from(row.shortest);
        if row.shortest != row.longest {
            return Err(DecodeError::NoLayout {
                service: 0x01,
                id: u16::from(id),
                name: "two lengths in use",
            });
        }
        let short =
            DecodeError::ShortReply { service: 0x01, id: u16::from(id), want: length, got: tail.len() };
        fields(0x01, row, tail.get(..length).ok_or(short)?)?;
        rest = tail.get(length..).unwrap_or_default();
    }
    Ok(payload)
}

/// The first identifier and its value; the caller has checked them.
fn split_row(payload: &[u8]) -> Option<(RowWalk<'_>, &[u8])> {
    let (&id, tail) = payload.split_first()?;
    let row = current::find(id)?;
    let (payload, rest) = tail.split_at_checked(usize::from(row.shortest))?;
    Some((RowWalk { id, fields: row.fields, payload }, rest))
}

/// The codes of services 03, 07 and 0A. On CAN a count comes first, so the payload has an odd length;
/// elsewhere it is pairs only, filled up with 0000.
fn codes(ask: Ask, payload: &[u8]) -> Result<CodeWalk<'_>, DecodeError> {
    let counted = payload.len() % 2 == 1;
    match payload.split_first() {
        None => Err(DecodeError::ShortReply { service: ask.service(), id: 0, want: 1, got: 0 }),
        Some((&count, pairs)) if counted => {
            let (want, got) = (usize::from(count), pairs.len());
            if want * 2 != got {
                return Err(DecodeError::Count { want, got });
            }
            Ok(CodeWalk { count: Some(count), pairs, offset: 8 })
        }
        Some(_) if !payload.len().is_multiple_of(6) => Err(DecodeError::ShortReply {
            service: ask.service(),
            id: 0,
            want: payload.len().next_multiple_of(6),
            got: payload.len(),
        }),
        Some(_) => Ok(CodeWalk { count: None, pairs: payload, offset: 0 }),
    }
}

#[derive(Debug, Clone)]
struct CodeWalk<'a> {
    count: Option<u8>,
    pairs: &'a [u8],
    offset: u16,
}

impl Iterator for CodeWalk<'_> {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        if let Some(count) = self.count.take() {
            return Some(Value {
                name: "dtc-count",
                value: Datum::Number(f64::from(count)),
                unit: Unit::Count,
                raw: u64::from(count),
                bits: Bits { offset: 0, length: 8 },
                supported: true,
            });
        }
        while let [high, low, rest @ ..] = self.pairs {
            let (raw, offset) = (u16::from_be_bytes([*high, *low]), self.offset);
            (self.pairs, self.offset) = (rest, offset.wrapping_add(16));
            if let Some(code) = Code::from_raw(raw) {
                return Some(Value {
                    name: "dtc",
                    value: Datum::Code(code),
                    unit: Unit::Dtc,
                    raw: u64::from(raw),
                    bits: Bits { offset, length: 16 },
                    supported: true,
                });
            }
        }
        None
    }
}
