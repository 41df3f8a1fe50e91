//! One line's header: who sent it, and whether length and checksum fit.
//!
//! In: digits of a line and the bus. Out: the sender and the frame (CAN) or the data (older buses), or what
//! is wrong.
//! Not here: parts of long messages (`isotp.rs`). Source: section 7 of the adapter reference, ISO 14230-2 for
//! format and length bytes; checksums in `checksum.rs`.

use crate::bus::{Bus, Ecu};
use crate::text::checksum;
use crate::text::grammar::{counted_frame, identifier, older_header};
use crate::text::line::{self, Scan};

/// Who sent a line and the bytes after the identifier (CAN), or all its bytes (older buses).
#[inline]
pub(crate) fn split_header<'b>(
    bus: Bus,
    scan: &Scan,
    digits: &[u8],
    out: &'b mut [u8],
) -> Result<(Ecu, &'b [u8]), &'static str> {
    let width = match bus {
        Bus::Can11 => 3,
        Bus::Can29 => 8,
        _ => return older_bytes(scan, digits, out),
    };
    let (rest, ecu) = identifier(width, digits).map_err(|_| "an identifier")?;
    if scan.is_spaced() {
        let lone = (scan.uneven, scan.odd_group);
        let length_shown = match (width, scan.first, lone) {
            (3, 3, (0, _)) | (8, 2, (0, _)) => false,
            (3, 3, (1, (3, 1))) | (8, 2, (1, (8, 1))) => true,
            _ => return Err("an identifier, then pairs of digits"),
        };
        return if length_shown { length_digit(ecu, rest, out) } else { frame(ecu, rest, out) };
    }
    if rest.len() % 2 == 0 { frame(ecu, rest, out) } else { length_digit(ecu, rest, out) }
}

#[inline]
fn frame<'b>(ecu: Ecu, digits: &[u8], out: &'b mut [u8]) -> Result<(Ecu, &'b [u8]), &'static str> {
    line::join(digits, out).map(|bytes| (ecu, bytes)).ok_or("pairs of digits")
}

/// `ATD1`: a digit for the length of the frame between identifier and data. It must fit.
fn length_digit<'b>(ecu: Ecu, digits: &[u8], out: &'b mut [u8]) -> Result<(Ecu, &'b [u8]), &'static str> {
    let (_, frame_digits) = counted_frame(digits)
        .map_err(|_| "an identifier, then pairs of digits (or a length digit that fits)")?;
    frame(ecu, frame_digits, out)
}

fn older_bytes<'b>(scan: &Scan, digits: &[u8], out: &'b mut [u8]) -> Result<(Ecu, &'b [u8]), &'static str> {
    let pairs = !scan.is_spaced() || scan.uneven == 0 && scan.first == 2;
    let bytes = line::join(digits, out).filter(|_| pairs).ok_or("pairs of digits")?;
    let (_, (_, sender)) = older_header(bytes).map_err(|_| "a header of three bytes")?;
    Ok((Ecu::address(sender), bytes))
}

/// What is wrong with a line of an older bus.
pub(crate) enum Older {
    Malformed(&'static str),
    Checksum { want: u8, got: u8 },
    Length { want: usize, got: usize },
}

/// The tester's own address: a line from it is a request, not an answer.
/// Source: ISO 14230-2 and ISO 15765-4, from memory.
const TESTER: u8 = 0xF1;

/// The sender and the data of a line with header and checksum; `None` for a line of the tester itself.
pub(crate) fn open_older(bus: Bus, line: &[u8]) -> Result<Option<(Ecu, &[u8])>, Older> {
    let (&got, body) = line.split_last().ok_or(Older::Malformed("a header of three bytes"))?;
    let want = if matches!(bus, Bus::J1850Pwm | Bus::J1850Vpw) {
        checksum::j1850(body)
    } else {
        checksum::sum(body)
    };
    let short = || Older::Length { want: 5, got: line.len() };
    let (data, (format, sender)) = older_header(body).map_err(|_| short())?;
    let data = if bus == Bus::Iso14230 { kwp_data(format, data)? } else { data };
    if data.is_empty() {
        return Err(short());
    }
    if want != got {
        return Err(Older::Checksum { want, got });
    }
    Ok((sender != TESTER).then_some((Ecu::address(sender), data)))
}

/// ISO 14230-2: the length is in the low six bits of the format byte, or, when those are 0, in a byte of its
/// own.
fn kwp_data(format: u8, rest: &[u8]) -> Result<&[u8], Older> {
    if format & 0x80 == 0 {
        return Err(Older::Malformed("a format byte that announces addresses"));
    }
    let (want, data) = match (format & 0x3F, rest.split_first()) {
        (0, Some((&length, data))) => (usize::from(length), data),
        (0, None) => return Err(Older::Length { want: 1, got: 0 }),
        (length, _) => (usize::from(length), rest),
    };
    if data.len() == want { Ok(data) } else { Err(Older::Length { want, got: data.len() }) }
}
