//! What a text of the adapter is: who it says it is, what has happened to it, a voltage, a protocol's number.
//!
//! In: the bytes of a reply, or of one that has only begun. Out: what they say. Pure.
//! Not here: a reply with data (`judge.rs`), texts that frames knows too (`frames::status`).
//! Method: sections 2, 4, 13 and 15 of the dialect reference.

use frames::{Ask, Status};
use nom::branch::alt;
use nom::bytes::complete::{tag, take_while_m_n, take_while1};
use nom::character::complete::one_of;
use nom::combinator::{all_consuming, map_opt, opt};
use nom::number::complete::u8 as any;
use nom::sequence::{preceded, terminated};
use nom::{IResult, Parser};

use crate::codec::{Reply, all, lines};
use crate::command::{Command, Setup};
use crate::outcome::{ResetSign, Silence};

/// Whether an identification may answer `command`.
const fn expects_banner(command: Command) -> bool {
    matches!(
        command,
        Command::Set(
            Setup::Identify
            | Setup::WarmStart
            | Setup::Reset
            | Setup::Description
            | Setup::Identifier
            | Setup::FamilyIdentify
            | Setup::OfferFastRate
            // One clone puts its version between the lines of this one (python-OBD #178).
            | Setup::ProtocolNumber,
        )
    )
}

/// Whether a text says that the settings are lost; `asked` is what it answers.
pub(super) fn alarm(text: &[u8], asked: Option<Command>) -> Option<ResetSign> {
    // Data alone raise none, and mostly that is all there is.
    if all(text, |byte| byte.is_ascii_hexdigit() || matches!(byte, b' ' | b'\r' | b'\n')) {
        return None;
    }
    let words = |line: &&[u8]| line.iter().any(|byte| !byte.is_ascii_hexdigit() && *byte != b' ');
    lines(text).filter(words).find_map(|line| match frames::status(line)? {
        Status::Identity if !asked.is_some_and(expects_banner) => Some(ResetSign::Banner),
        Status::LowVoltageReset => Some(ResetSign::LowVoltage),
        Status::LowPowerAlert => Some(ResetSign::Sleep),
        fault @ (Status::AdapterFault(_) | Status::FeedbackError) => Some(ResetSign::Fault(fault)),
        _ => None,
    })
}

/// The line by which an adapter says who it is: a text of its own, or one that nobody knows but that is no data.
pub(super) fn identification(reply: &Reply) -> Option<String> {
    let is_text = |line: &&[u8]| {
        line.iter().all(|byte| (b' '..0x7F).contains(byte))
            && line.iter().any(|byte| !byte.is_ascii_hexdigit() && *byte != b' ')
    };
    let line = reply.lines().filter(is_text).find(|line| match frames::status(line) {
        Some(status) => status == Status::Identity,
        // Names of clones: a letter that is no hexadecimal digit, and no mark that only data have.
        None => line.iter().any(u8::is_ascii_lowercase) && !line.contains(&b':') && !line.contains(&b'<'),
    })?;
    Some(String::from_utf8_lossy(line).trim().to_owned())
}

/// The part of an unfinished text that is whole lines.
pub(super) fn whole_lines(text: &[u8]) -> Option<&[u8]> {
    text.iter().rposition(|byte| *byte == b'\r').and_then(|end| text.get(..end))
}

/// Whether a line of `reply` is this text of the adapter.
pub(super) fn says(reply: &Reply, status: Status) -> bool {
    reply.lines().any(|line| frames::status(line) == Some(status))
}

/// Whether the adapter refuses, or breaks off.
pub(super) fn is_refusal(reply: &Reply) -> bool {
    reply.lines().any(|line| matches!(frames::status(line), Some(Status::NotUnderstood | Status::Stopped)))
}

/// Whether `text` is nothing but `sent`, typed back.
pub(super) fn is_echo(text: &[u8], sent: &[u8]) -> bool {
    let mut lines = lines(text);
    lines.next().is_some_and(|line| line.trim_ascii().eq_ignore_ascii_case(sent.trim_ascii()))
        && lines.next().is_none()
}

/// Whether `reply` begins with what was `sent`, typed back without its first character.
pub(super) fn lost_first(reply: &Reply, sent: &[u8]) -> bool {
    let mut shorter = reply.clone();
    let rest = sent.trim_ascii().get(1..).unwrap_or_default();
    // Two characters at least: one is no evidence.
    rest.len() >= 2 && shorter.strip_echo(rest) == crate::codec::Echo::Seen
}

/// Whether a data line has spaces between its bytes. A single one may be a slip (exchanges.csv X086).
pub(super) fn is_spaced(reply: &Reply) -> bool {
    let mut lines = reply.lines().map(<[u8]>::trim_ascii);
    !all(&reply.text, |byte| byte != b' ')
        && lines
            .any(|line| line.iter().filter(|byte| **byte == b' ').count() >= 2 && whole(data, line).is_some())
}

/// Whether `reply` ends with one CR, and no line end beside it.
pub(super) fn ends_with_one_cr(reply: &Reply) -> bool {
    let ends: Vec<u8> =
        reply.text.iter().rev().take_while(|byte| matches!(byte, b'\r' | b'\n')).copied().collect();
    ends == *b"\r"
}

/// Whether the last whole line is one of data: digits, nothing else.
pub(super) fn ends_with_data(text: &[u8]) -> bool {
    let ends = text.last().is_some_and(|byte| matches!(byte, b'\r' | b'\n'));
    ends && lines(text).last().and_then(|line| whole(data, line)).is_some_and(|line| line.len() >= 4)
}

/// Whether `text` holds `word`, written in capital letters; spaces, dots and letter case of the text are ignored.
pub(super) fn holds(text: &[u8], word: &[u8]) -> bool {
    let Some(&first) = word.first() else { return true };
    text.iter().enumerate().filter(|(_, byte)| byte.to_ascii_uppercase() == first).any(|(at, _)| {
        let rest = text.iter().skip(at).filter(|byte| !matches!(byte, b' ' | b'.'));
        rest.take(word.len()).map(u8::to_ascii_uppercase).eq(word.iter().copied())
    })
}

/// Whether a control unit asks for more time in `text`, a reply to `ask` or the beginning of one.
pub(super) fn holds_pending(text: &[u8], ask: Ask) -> bool {
    // Hardly any answer has an F in it.
    !all(text, |byte| !matches!(byte, b'F' | b'f')) && holds(text, &pending_text(ask))
}

/// The text by which a control unit asks for more time, without spaces.
fn pending_text(ask: Ask) -> [u8; 6] {
    let digit =
        |nibble: u8| char::from_digit(u32::from(nibble), 16).map_or(b'0', |c| c.to_ascii_uppercase() as u8);
    let service = ask.service();
    [b'7', b'F', digit(service >> 4), digit(service & 0xF), b'7', b'8']
}

/// A voltage that a vehicle can have, from `12.6V`, or `12.3` without its unit (python-OBD #178); anything else is
/// unknown, never zero. `0.0V` means that the input is not wired.
pub(super) fn millivolts(line: &[u8]) -> Option<u32> {
    whole(voltage, line.trim_ascii()).filter(|millivolts| VOLTAGE_MV.contains(millivolts))
}

/// What a vehicle can have, in mV.
/// Own choice: from a battery that cranks to twice a lorry's 24 V charged by half; beyond it the input is not wired.
const VOLTAGE_MV: core::ops::RangeInclusive<u32> = 1_000..=36_000;

/// The number of the protocol: the last line that has the form of one, since some clones put others in front.
pub(super) fn number(reply: &Reply) -> Option<u8> {
    reply.lines().filter_map(|line| whole(protocol_number, line.trim_ascii())).last()
}

/// What a text of the adapter means for the vehicle's silence.
pub(super) fn silence_of(status: Status) -> Silence {
    match status {
        Status::UnableToConnect | Status::Searching => Silence::NoProtocol,
        Status::NoData => Silence::NoData,
        Status::BusInit | Status::BusInitOk | Status::BusInitError => Silence::BusInit,
        Status::BusBusy | Status::BusError | Status::CanError | Status::DataError | Status::RxError => {
            Silence::Bus(status)
        }
        Status::Stopped | Status::BusInitStopped => Silence::Interrupted,
        Status::NotUnderstood => Silence::NotUnderstood,
        Status::BufferFull | Status::FeedbackError | Status::AdapterFault(_) => Silence::Adapter(status),
        _ => Silence::Malformed,
    }
}

/// What a piece of a line gives: the rest, and what was read.
type Read<'a, T> = IResult<&'a [u8], T, ()>;

/// The whole of `line` read as `piece`, or nothing.
fn whole<'a, T>(piece: impl Parser<&'a [u8], Output = T, Error = ()>, line: &'a [u8]) -> Option<T> {
    all_consuming(piece).parse(line).ok().map(|(_, read)| read)
}

/// Digits and the spaces between them.
fn data(line: &[u8]) -> Read<'_, &[u8]> {
    take_while1(|byte: u8| byte.is_ascii_hexdigit() || byte == b' ').parse(line)
}

/// The last protocol that has a number.
/// Source: data sheet page 26: 0 to C.
const LAST_PROTOCOL: u32 = 0xC;

/// `6`, or `A6` where the adapter found it by a search.
fn protocol_number(line: &[u8]) -> Read<'_, u8> {
    let number =
        || map_opt(any, |byte| char::from(byte).to_digit(16).filter(|number| *number <= LAST_PROTOCOL));
    alt((preceded(tag("A"), number()), number())).map(|number| number as u8).parse(line)
}

/// One or two decimal digits, a dot, one or two more, and perhaps a `V`: thousandths.
fn voltage(line: &[u8]) -> Read<'_, u32> {
    let digits = || take_while_m_n(1, 2, |byte: u8| byte.is_ascii_digit());
    let unit = opt(one_of("Vv"));
    let number = |digits: &[u8]| digits.iter().fold(0, |all, digit| all * 10 + u32::from(digit - b'0'));
    (terminated(digits(), tag(".")), terminated(digits(), unit))
        .map(|(whole, part)| number(whole) * 1_000 + number(part) * if part.len() == 1 { 100 } else { 10 })
        .parse(line)
}

#[cfg(test)]
mod tests;
