//! How an answer looks in text, by the settings of the adapter; the lines themselves are written by `frames`.
//!
//! In: a message and its sender, the settings. Out: the lines, without their ends.
//! Source: adapter reference, dialect sections 7 and 8.

use frames::write::{self, Spaces};
use frames::{Ecu, Headers, Layout};

use crate::dialect::Settings;

/// Whether the bytes that fill a frame are shown where a frame holds less.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Padding {
    /// Only as many bytes as the length says.
    Hidden,
    /// The whole frame.
    Shown,
}

/// The lines of `data` as `from` sends it on a bus of that form.
pub fn lines(
    form: frames::Bus,
    from: Ecu,
    data: &[u8],
    settings: &Settings,
    padding: Padding,
) -> Vec<String> {
    let headers = if settings.headers.is_on() { Headers::Shown } else { Headers::Hidden };
    let spaces = if settings.spaces.is_on() { Spaces::On } else { Spaces::Off };
    // The last frame of a long message is filled up by the control unit and always shown whole (exchange X096).
    let fill = (padding == Padding::Shown || data.len() > IN_ONE_FRAME).then_some(0);
    let mut whole = data.to_vec();
    if form.is_can() && padding == Padding::Shown && headers == Headers::Hidden {
        whole.resize(whole.len().max(IN_ONE_FRAME), 0);
    }
    write::lines(from, &whole, Layout { bus: form, headers }, spaces, fill).unwrap_or_default()
}

/// How many frames carry `length` bytes.
pub const fn frames(length: usize) -> usize {
    if length <= IN_ONE_FRAME { 1 } else { 1 + (length - 6).div_ceil(7) }
}

/// Bytes that fit beside the length in one CAN frame.
/// Source: ISO 15765-2.
const IN_ONE_FRAME: usize = 7;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dialect::Switch::{Off, On};

    /// Rows of `exchanges.csv` of the adapter reference, by their number there.
    #[test]
    #[rustfmt::skip]
    fn lines_look_as_in_the_reference() {
        let vin: Vec<u8> = [&[0x49, 0x02, 0x01][..], b"1D4GP00R55B123456"].concat();
        let (h0, h1) = (Settings::DEFAULT, Settings { headers: On, ..Settings::DEFAULT });
        let h1s0 = Settings { spaces: Off, ..h1 };
        let h0s0 = Settings { spaces: Off, ..h0 };
        let several = vec![0x41, 4, 0x3F, 5, 0x44, 0x0B, 0x21, 0x0C, 0x17, 0xB8];
        let cases: &[(&str, Vec<u8>, Settings, &[&str])] = &[
            ("X081", vec![0x41, 0x05, 0x7D], h1,   &["7E8 03 41 05 7D "]),
            ("X084", vec![0x41, 0x05, 0x7B], h0s0, &["41057B"]),
            ("X085", vec![0x41, 0x05, 0x7B], h1s0, &["7E80341057B"]),
            ("X091", vin.clone(), h0, &["014", "0: 49 02 01 31 44 34 ", "1: 47 50 30 30 52 35 35 ", "2: 42 31 32 33 34 35 36 "]),
            ("X092", vin, h1, &["7E8 10 14 49 02 01 31 44 34 ", "7E8 21 47 50 30 30 52 35 35 ", "7E8 22 42 31 32 33 34 35 36 "]),
            ("X096", several, h0, &["00A", "0: 41 04 3F 05 44 0B ", "1: 21 0C 17 B8 00 00 00 "]),
        ];
        let engine = Ecu::can11(0x7E8).unwrap();
        for (id, data, settings, want) in cases {
            assert_eq!(lines(frames::Bus::Can11, engine, data, settings, Padding::Hidden), *want, "{id}");
            let said_first = usize::from(data.len() > 7 && !settings.headers.is_on());
            assert_eq!(frames(data.len()), want.len() - said_first, "{id}");
        }
        let shown = lines(frames::Bus::Can11, engine, &[0x41, 0x0C, 0x0B, 0xB1], &h0, Padding::Shown);
        assert_eq!(shown, ["41 0C 0B B1 00 00 00 "], "X088: padding shown");
    }
}
