//! The grammar of a line, in small pieces: blanks, digits, words of the adapter, identifiers, numbers of parts.
//!
//! In: the bytes of one line, or its digits. Out: what stands at the front, and the rest. Each piece is a `nom` parser named
//! after what it reads; nothing allocates, and a piece that does not fit bears no error: who asked for it knows what was
//! wanted. Not here: the digits of a data line, which are one pass over a table (`line.rs`), and whole texts of the
//! adapter, which are a table too (`status.rs`). Source: sections 7, 8 and 13 of the adapter reference.

use nom::branch::alt;
use nom::bytes::complete::{tag, take, take_while, take_while1};
use nom::combinator::{all_consuming, map_opt, not, opt, rest, value, verify};
use nom::number::complete::u8 as any;
use nom::sequence::{delimited, preceded, terminated};
use nom::{IResult, Parser};

use crate::bus::Ecu;
use crate::text::hex::{self, BLANK, NUL};

/// What a piece gives: the rest of the line, and what was read.
pub(crate) type Read<'a, T> = IResult<&'a [u8], T, ()>;

/// The whole of `text` read as `piece`, or nothing.
pub(crate) fn whole<'a, T>(
    piece: impl Parser<&'a [u8], Output = T, Error = ()>,
    text: &'a [u8],
) -> Option<T> {
    all_consuming(piece).parse(text).ok().map(|(_, read)| read)
}

/// Blanks, and zero bytes, which may stand anywhere.
fn blanks(line: &[u8]) -> Read<'_, &[u8]> {
    take_while(|byte| matches!(hex::class(byte), BLANK | NUL)).parse(line)
}

/// Dots of progress, and blanks between them.
fn dots(line: &[u8]) -> Read<'_, &[u8]> {
    take_while(|byte| byte == b'.' || matches!(hex::class(byte), BLANK | NUL)).parse(line)
}

/// One hexadecimal digit.
fn digit(line: &[u8]) -> Read<'_, u8> {
    map_opt(any, hex::digit).parse(line)
}

/// Two of them.
fn byte(line: &[u8]) -> Read<'_, u8> {
    (digit, digit).map(|(high, low)| high << 4 | low).parse(line)
}

/// `letters`, in either case; blanks and zero bytes between them mean nothing.
fn word<'a>(letters: &'static str) -> impl Parser<&'a [u8], Output = (), Error = ()> {
    move |line| {
        letters.bytes().try_fold((line, ()), |(line, ()), want| {
            let letter = verify(any, move |byte: &u8| byte.eq_ignore_ascii_case(&want));
            value((), preceded(blanks, letter)).parse(line)
        })
    }
}

/// `line` behind what says that work goes on: `SEARCHING...`, `BUS INIT: ...OK`, left-over dots.
pub(crate) fn after_progress(line: &[u8]) -> &[u8] {
    progress(line).map_or(line, |(rest, ())| rest)
}

fn progress(line: &[u8]) -> Read<'_, ()> {
    value((), (opt(alt((word("SEARCHING"), bus_init))), dots)).parse(line)
}

/// `BUS INIT: ...` with `OK`, or without. An error behind it is the whole line's business.
fn bus_init(line: &[u8]) -> Read<'_, ()> {
    let started = (dots, not(alt((word("ERROR"), word("STOPPED")))), opt(word("OK")));
    let outcome = preceded(word(":"), value((), started));
    // What stands behind it without a colon means nothing.
    let nothing = preceded(not(word(":")), value((), rest));
    preceded(word("BUSINIT"), alt((outcome, nothing))).parse(line)
}

/// `n:`, the number of a part where headers are hidden.
pub(crate) fn part_number(line: &[u8]) -> Read<'_, u8> {
    delimited(blanks, digit, tag(":")).parse(line)
}

/// `ERR94`: the number of a fault of the adapter's own.
pub(crate) fn fault(text: &[u8]) -> Read<'_, u8> {
    preceded(tag("ERR"), byte).parse(text)
}

/// `6`, or `A6` where it was found by a search: the number of a protocol.
pub(crate) fn protocol_number(text: &[u8]) -> Read<'_, u8> {
    let number = || verify(digit, |number| *number <= LAST_PROTOCOL);
    alt((preceded(tag("A"), number()), number())).parse(text)
}

/// `126V`: a voltage, its dot left out.
pub(crate) fn voltage(text: &[u8]) -> Read<'_, &[u8]> {
    terminated(take_while1(|byte: u8| byte.is_ascii_digit()), tag("V")).parse(text)
}

/// Three digit values on an 11-bit bus, eight on a 29-bit one: who sent the line.
#[inline]
pub(crate) fn identifier(width: usize, digits: &[u8]) -> Read<'_, Ecu> {
    let sender = |id: u32| if width == 3 { Ecu::can11(id as u16) } else { Ecu::can29(id) };
    map_opt(take(width).map(number), sender).parse(digits)
}

/// `ATD1`: one digit value for the length of the frame that follows, which must fit.
pub(crate) fn counted_frame(digits: &[u8]) -> Read<'_, &[u8]> {
    let (frame, length) = any.parse(digits)?;
    all_consuming(take(2 * usize::from(length))).parse(frame)
}

/// Format, target and sender in front of a line of the older buses: format and sender.
#[inline]
pub(crate) fn older_header(line: &[u8]) -> Read<'_, (u8, u8)> {
    (any, any, any).map(|(format, _target, sender)| (format, sender)).parse(line)
}

/// Digit values as one number.
#[inline]
fn number(digits: &[u8]) -> u32 {
    digits.iter().fold(0, |all, digit| all << 4 | u32::from(*digit))
}

/// The last protocol that has a number.
/// Source: data sheet page 26: 0 to C.
const LAST_PROTOCOL: u8 = 0xC;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn progress_is_read_off_the_front_and_the_rest_is_kept() {
        let cases: &[(&[u8], &[u8])] = &[
            (b"SEARCHING...7E8 03", b"7E8 03"),
            (b"SEARCHING... UNABLE TO CONNECT", b"UNABLE TO CONNECT"),
            (b"Sear\0ching. . 41", b"41"),
            (b"BUS INIT: ...OK", b""),
            (b"BUS INIT: OK41 05 7B", b"41 05 7B"),
            (b"BUS INIT: 41 05 7B", b"41 05 7B"),
            (b"BUS INIT 41 05 7B", b""),
            (b"BUS INIT: ...ERROR", b"BUS INIT: ...ERROR"),
            (b"BUS INIT: STOPPED", b"BUS INIT: STOPPED"),
            (b"...48 6B", b"48 6B"),
            (b"41 05 7B", b"41 05 7B"),
        ];
        for (line, want) in cases {
            assert_eq!(after_progress(line), *want, "{}", line.escape_ascii());
        }
    }

    #[test]
    fn the_number_of_a_part_stands_in_front_of_a_colon() {
        type Case<'a> = (&'a [u8], Option<(&'a [u8], u8)>);
        let cases: &[Case] = &[
            (b"0: 49 04", Some((b" 49 04", 0))),
            (b" \0a:41", Some((b"41", 10))),
            (b"10: 41", None),
            (b"0 : 41", None),
            (b": 41", None),
            (b"", None),
        ];
        for (line, want) in cases {
            assert_eq!(part_number(line).ok(), *want, "{}", line.escape_ascii());
        }
    }

    #[test]
    fn numbers_of_the_adapter_are_whole_texts() {
        let cases: &[(&[u8], Option<u8>)] = &[
            (b"A6", Some(6)),
            (b"6", Some(6)),
            (b"A", Some(10)),
            (b"AC", Some(12)),
            (b"D", None),
            (b"AD", None),
            (b"B6", None),
            (b"66", None),
            (b"", None),
        ];
        for (text, want) in cases {
            assert_eq!(whole(protocol_number, text), *want, "{}", text.escape_ascii());
        }
        assert_eq!(whole(fault, b"ERR94"), Some(0x94));
        assert_eq!(whole(fault, b"ERR9"), None);
        assert_eq!(whole(fault, b"ERR944"), None);
        assert_eq!(whole(voltage, b"126V"), Some(&b"126"[..]));
        assert_eq!(whole(voltage, b"V"), None);
    }

    #[test]
    fn a_counted_frame_has_the_length_that_its_digit_says() {
        assert_eq!(counted_frame(&[1, 4, 1]), Ok((&[][..], &[4, 1][..])));
        assert!(counted_frame(&[1, 4, 1, 0]).is_err() && counted_frame(&[2, 4, 1]).is_err());
        assert!(counted_frame(&[]).is_err());
    }
}
