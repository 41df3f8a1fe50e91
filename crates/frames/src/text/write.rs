//! A message to the lines that an adapter would show: for a simulated adapter, and for the law that both
//! agree.
//!
//! In: who sends, the message from its service byte on, the layout and the adapter's settings. Out: lines
//! without their ends, one per frame, so that a simulator can mix those of several control units; then
//! [`text`].

use alloc::string::String;
use alloc::vec::Vec;
use core::fmt::Write as _;

use crate::bus::{Bus, Ecu, Headers, Layout};
use crate::text::checksum;

/// Whether blanks separate the bytes (`ATS1`) or not (`ATS0`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Spaces {
    /// `41 05 7B `, with a blank behind the last byte too.
    On,
    /// `41057B`.
    Off,
}

/// How lines end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Linefeeds {
    /// Carriage return and line feed (`ATL1`).
    On,
    /// Carriage return (`ATL0`).
    Off,
}

/// Why a message has no lines on a bus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WriteError {
    /// It is empty or longer than the bus carries.
    #[error("a message on {bus} has 1 to {limit} bytes, not {got}")]
    Length {
        /// The bus.
        bus: Bus,
        /// Bytes that it carries.
        limit: usize,
        /// Bytes given.
        got: usize,
    },
}

/// The lines of one message of `ecu`. `padding` fills CAN frames up to eight bytes where headers are shown,
/// and the last frame of a long message where they are hidden.
///
/// The numbered lines of service 09 on the older buses are made from a message without numbers, as
/// [`crate::messages`] gives it.
///
/// Errors: [`WriteError`].
pub fn lines(
    ecu: Ecu,
    data: &[u8],
    layout: Layout,
    spaces: Spaces,
    padding: Option<u8>,
) -> Result<Vec<String>, WriteError> {
    let limit = match layout.bus {
        Bus::Can11 | Bus::Can29 => 4095,
        Bus::Iso14230 => 255,
        _ => 7,
    };
    let numbered = !layout.bus.is_can() && is_numbered(data);
    if data.is_empty() || data.len() > limit && !numbered {
        return Err(WriteError::Length { bus: layout.bus, limit, got: data.len() });
    }
    let pen = Pen { ecu, layout, spaces, padding };
    Ok(match (layout.bus.is_can(), layout.headers) {
        (true, Headers::Shown) => pen.can(data),
        (true, Headers::Hidden) => pen.can_hidden(data),
        (false, _) if numbered => {
            let (head, body) = data.split_at_checked(2).unwrap_or((data, &[]));
            body.chunks(4)
                .zip(1_u8..)
                .map(|(part, number)| pen.older(&[head, &[number], part].concat()))
                .collect()
        }
        (false, _) => alloc::vec![pen.older(data)],
    })
}

/// The reply that holds `lines`, with the empty line and the prompt behind them.
pub fn text<S: AsRef<str>>(lines: &[S], linefeeds: Linefeeds) -> String {
    let end = if linefeeds == Linefeeds::On { "\r\n" } else { "\r" };
    let mut text = String::new();
    for line in lines {
        text.push_str(line.as_ref());
        text.push_str(end);
    }
    text.push_str(end);
    text.push('>');
    text
}

/// Service 09, an infotype that the older buses send in numbered lines of four bytes.
fn is_numbered(data: &[u8]) -> bool {
    match *data {
        [0x49, infotype, ref body @ ..] => {
            (infotype.is_multiple_of(2) || infotype == 0x0B)
                && !body.is_empty()
                && body.len().is_multiple_of(4)
        }
        _ => false,
    }
}

struct Pen {
    ecu: Ecu,
    layout: Layout,
    spaces: Spaces,
    padding: Option<u8>,
}

impl Pen {
    fn can(&self, data: &[u8]) -> Vec<String> {
        if data.len() <= 7 {
            return alloc::vec![self.frame(&[&[data.len() as u8], data])];
        }
        let (first, rest) = data.split_at_checked(6).unwrap_or((data, &[]));
        let length = (data.len() as u16 | 0x1000).to_be_bytes();
        let mut lines = alloc::vec![self.frame(&[&length, first])];
        let numbers = (0..16_u8).cycle().skip(1);
        lines.extend(rest.chunks(7).zip(numbers).map(|(part, number)| self.frame(&[&[0x20 | number], part])));
        lines
    }

    fn frame(&self, parts: &[&[u8]]) -> String {
        let mut frame = parts.concat();
        if let Some(padding) = self.padding {
            frame.resize(8, padding);
        }
        let mut line = String::new();
        match self.layout.bus {
            Bus::Can11 => self.group(&mut line, format_args!("{:03X}", self.ecu.id())),
            _ => self.bytes(&mut line, &self.ecu.id().to_be_bytes()),
        }
        self.bytes(&mut line, &frame);
        line
    }

    fn can_hidden(&self, data: &[u8]) -> Vec<String> {
        let mut line = String::new();
        if data.len() <= 7 {
            self.bytes(&mut line, data);
            return alloc::vec![line];
        }
        let (first, rest) = data.split_at_checked(6).unwrap_or((data, &[]));
        let _ = write!(line, "{:03X}", data.len());
        let mut lines = alloc::vec![line, self.part(0, first)];
        let numbers = (0..16_u8).cycle().skip(1);
        lines.extend(rest.chunks(7).zip(numbers).map(|(part, number)| {
            let mut part = part.to_vec();
            if let Some(padding) = self.padding {
                part.resize(7, padding);
            }
            self.part(number, &part)
        }));
        lines
    }

    fn part(&self, number: u8, bytes: &[u8]) -> String {
        let mut line = String::new();
        self.group(&mut line, format_args!("{number:X}:"));
        self.bytes(&mut line, bytes);
        line
    }

    fn older(&self, data: &[u8]) -> String {
        let mut line = String::new();
        if self.layout.headers == Headers::Hidden {
            self.bytes(&mut line, data);
            return line;
        }
        let sender = self.ecu.id() as u8;
        let length = data.len() as u8;
        let header: &[u8] = match (self.layout.bus, length) {
            (Bus::J1850Pwm, _) => &[0x41, 0x6B, sender],
            (Bus::Iso14230, 64..) => &[0x80, 0xF1, sender, length],
            (Bus::Iso14230, _) => &[0x80 | length, 0xF1, sender],
            _ => &[0x48, 0x6B, sender],
        };
        let mut bytes = [header, data].concat();
        bytes.push(match self.layout.bus {
            Bus::J1850Pwm | Bus::J1850Vpw => checksum::j1850(&bytes),
            _ => checksum::sum(&bytes),
        });
        self.bytes(&mut line, &bytes);
        line
    }

    fn bytes(&self, line: &mut String, bytes: &[u8]) {
        for byte in bytes {
            self.group(line, format_args!("{byte:02X}"));
        }
    }

    fn group(&self, line: &mut String, group: core::fmt::Arguments<'_>) {
        // Writing to a String cannot fail.
        let _ = line.write_fmt(group);
        if self.spaces == Spaces::On {
            line.push(' ');
        }
    }
}
