//! How an answer looks in text: frames, headers, spaces, padding.
//!
//! In: a message and its sender, the settings. Out: the lines, without their ends. CAN with 11-bit identifiers.
//! Source: adapter reference, dialect sections 7 and 8, exchanges X081 to X097.

use crate::dialect::Settings;

/// Whether the bytes that fill a frame are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Padding {
    /// Only as many bytes as the length says.
    Hidden,
    /// The whole frame.
    Shown,
}

/// The lines of `data` as `from` sends it.
pub fn lines(from: u16, data: &[u8], settings: &Settings, padding: Padding) -> Vec<String> {
    let headers = settings.headers.is_on();
    let spaces = settings.spaces.is_on();
    let raw = headers || !settings.formatting.is_on();
    if data.len() <= 7 {
        let mut frame = Vec::with_capacity(8);
        if raw {
            frame.push(data.len() as u8);
        }
        frame.extend(data);
        let whole = if raw { 8 } else { 7 };
        if padding == Padding::Shown || !settings.formatting.is_on() {
            frame.resize(whole, 0);
        }
        return vec![line(headers.then_some(from), "", &frame, spaces)];
    }
    let length = data.len().min(4_095);
    let (first, rest) = data.split_at(6);
    let mut all = Vec::with_capacity(rest.len() / 7 + 3);
    if raw {
        let pci = [0x10 | (length >> 8) as u8, length as u8];
        all.push(line(headers.then_some(from), "", &[&pci[..], first].concat(), spaces));
    } else {
        all.push(format!("{length:03X}"));
        all.push(line(None, "0:", first, spaces));
    }
    for (place, part) in rest.chunks(7).enumerate() {
        let number = (place + 1) & 0x0F;
        let mut frame = if raw { vec![0x20 | number as u8] } else { Vec::with_capacity(7) };
        frame.extend(part);
        frame.resize(if raw { 8 } else { 7 }, 0);
        let mark = if raw { String::new() } else { format!("{number:X}:") };
        all.push(line(headers.then_some(from), &mark, &frame, spaces));
    }
    all
}

/// How many frames carry `length` bytes.
pub const fn frames(length: usize) -> usize {
    if length <= 7 { 1 } else { 1 + (length - 6).div_ceil(7) }
}

fn line(from: Option<u16>, mark: &str, bytes: &[u8], spaces: bool) -> String {
    let mut text = String::with_capacity(5 + 3 * bytes.len());
    if let Some(from) = from {
        for shift in [8, 4, 0] {
            text.push(digit((from >> shift) as u8));
        }
        push_space(&mut text, spaces);
    }
    text.push_str(mark);
    if !mark.is_empty() {
        push_space(&mut text, spaces);
    }
    for byte in bytes {
        text.push(digit(byte >> 4));
        text.push(digit(*byte));
        push_space(&mut text, spaces);
    }
    text
}

fn push_space(text: &mut String, spaces: bool) {
    if spaces {
        text.push(' ');
    }
}

fn digit(nibble: u8) -> char {
    char::from_digit(u32::from(nibble & 0x0F), 16).unwrap_or('0').to_ascii_uppercase()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dialect::Switch::{Off, On};

    #[test]
    fn lines_look_as_in_the_reference() {
        let vin: Vec<u8> = [&[0x49, 0x02, 0x01][..], b"1D4GP00R55B123456"].concat();
        let (h0, h1) = (Settings::DEFAULT, Settings { headers: On, ..Settings::DEFAULT });
        let h1s0 = Settings { spaces: Off, ..h1 };
        let h0s0 = Settings { spaces: Off, ..h0 };
        let cases: &[(&str, Vec<u8>, Settings, &[&str])] = &[
            ("X081", vec![0x41, 0x05, 0x7D], h1, &["7E8 03 41 05 7D "]),
            ("X084", vec![0x41, 0x05, 0x7B], h0s0, &["41057B"]),
            ("X085", vec![0x41, 0x05, 0x7B], h1s0, &["7E80341057B"]),
            (
                "X091",
                vin.clone(),
                h0,
                &["014", "0: 49 02 01 31 44 34 ", "1: 47 50 30 30 52 35 35 ", "2: 42 31 32 33 34 35 36 "],
            ),
            (
                "X092",
                vin,
                h1,
                &[
                    "7E8 10 14 49 02 01 31 44 34 ",
                    "7E8 21 47 50 30 30 52 35 35 ",
                    "7E8 22 42 31 32 33 34 35 36 ",
                ],
            ),
            (
                "X096",
                vec![0x41, 4, 0x3F, 5, 0x44, 0x0B, 0x21, 0x0C, 0x17, 0xB8],
                h0,
                &["00A", "0: 41 04 3F 05 44 0B ", "1: 21 0C 17 B8 00 00 00 "],
            ),
        ];
        for (id, data, settings, want) in cases {
            assert_eq!(lines(0x7E8, data, settings, Padding::Hidden), *want, "{id}");
            assert_eq!(
                frames(data.len()),
                want.len() - usize::from(data.len() > 7 && !settings.headers.is_on()),
                "{id}"
            );
        }
        let shown = lines(0x7E8, &[0x41, 0x0C, 0x0B, 0xB1], &h0, Padding::Shown);
        assert_eq!(shown, ["41 0C 0B B1 00 00 00 "], "X088: padding shown");
    }
}
