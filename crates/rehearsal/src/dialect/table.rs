//! The commands, one row each: name, what may follow, the version that brought it, what it does.
//!
//! In: a word without `AT`. Out: the row that fits, of those that a version has.
//! Source: `firmware_differences.csv` of the adapter reference (a test compares). What only changes the adapter's own
//! memory for good, watches foreign traffic, sends what reads nothing or puts it to sleep is not there: `?`.

use super::does::Does::{self, *};
use crate::firmware::Level::{self, *};

/// What may follow a command's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Takes {
    Nothing,
    ZeroOne,
    Digit,
    Hex(&'static [usize]),
    /// Hexadecimal digits of which some are `X`.
    Loose(&'static [usize]),
    /// A protocol's digit, or one that is tried first: `6`, `A6`, `6A`.
    Number,
    /// One of these words.
    One(&'static [&'static str]),
}

use Takes::{Digit, Hex, Loose, Nothing, Number, One, ZeroOne};

impl Takes {
    fn fits(self, argument: &str) -> bool {
        let hex = |b: u8| b.is_ascii_hexdigit();
        match self {
            Nothing => argument.is_empty(),
            ZeroOne => matches!(argument, "0" | "1"),
            Digit => argument.len() == 1 && argument.bytes().all(hex),
            Hex(lengths) => lengths.contains(&argument.len()) && argument.bytes().all(hex),
            Loose(lengths) => {
                lengths.contains(&argument.len()) && argument.bytes().all(|b| hex(b) || b == b'X')
            }
            Number => {
                argument.bytes().all(hex)
                    && (argument.len() == 1 || argument.len() == 2 && argument.contains('A'))
            }
            One(words) => words.contains(&argument),
        }
    }
}

/// The row for `word` that a firmware of this level has, and what stands behind its name.
pub(super) fn find(word: &str, level: Level) -> Option<(Does, &str)> {
    // The longest name first, so that `SP` is not read as `S` with an odd argument.
    COMMANDS.iter().filter(|row| row.2 <= level).find_map(|(name, takes, _, does)| {
        word.strip_prefix(name).filter(|argument| takes.fits(argument)).map(|argument| (*does, argument))
    })
}

/// The names there are, each with the first version that has it.
pub fn names() -> impl Iterator<Item = (&'static str, Level)> {
    COMMANDS.iter().map(|(name, _, since, _)| (*name, *since))
}

/// Longer names first.
#[rustfmt::skip]
const COMMANDS: &[(&str, Takes, Level, Does)] = &[
    //  name   what follows          since  does
    ("FCSD", Hex(&[2, 4, 6, 8, 10]), V11,  FlowData),
    ("FCSH", Hex(&[3, 6, 8]),        V11,  FlowHeader),
    ("FCSM", Digit,                  V11,  FlowMode),
    ("AMC",  Nothing,                V20,  Activity),
    ("AMT",  Hex(&[2]),              V20,  Accept),
    ("BRD",  Hex(&[2]),              V12,  Rate),
    ("BRT",  Hex(&[2]),              V12,  RateWait),
    ("CAF",  ZeroOne,                V10,  Accept),
    ("CEA",  Hex(&[0, 2]),           V14,  Accept),
    ("CER",  Hex(&[2]),              V22,  Accept),
    ("CFC",  ZeroOne,                V10,  Acknowledge),
    ("CRA",  Nothing,                V14b, ReceiveAll),
    ("CRA",  Hex(&[3, 8]),           V13,  Receive),
    ("CRA",  Loose(&[3, 8]),         V20,  Receive),
    ("CSM",  ZeroOne,                V14b, Accept),
    ("CTM",  Digit,                  V21,  WaitFactor),
    ("DM1",  Nothing,                V12,  Refuse),
    ("DPN",  Nothing,                V10,  ProtocolNumber),
    ("IFR",  One(&["0", "1", "2", "H", "S"]), V12, Accept),
    ("IFR",  One(&["4", "5", "6"]),  V22,  Accept),
    ("IGN",  Nothing,                V14,  Ignition),
    ("IIA",  Hex(&[2]),              V12,  Accept),
    ("JHF",  ZeroOne,                V14b, Accept),
    ("JTM",  One(&["1", "5"]),       V14b, WaitFactor),
    ("PPS",  Nothing,                V11,  Refuse),
    ("AL",   Nothing,                V10,  Accept),
    ("AR",   Nothing,                V12,  ReceiveAll),
    ("AT",   Digit,                  V12,  Adaptive),
    ("BD",   Nothing,                V10,  Refuse),
    ("BI",   Nothing,                V10,  Refuse),
    ("CF",   Hex(&[3, 8]),           V10,  Filter),
    ("CM",   Hex(&[3, 8]),           V10,  Mask),
    ("CP",   Hex(&[2]),              V10,  Priority),
    ("CS",   Nothing,                V10,  Counters),
    ("CV",   Hex(&[4]),              V10,  Refuse),
    ("DP",   Nothing,                V10,  ProtocolName),
    ("FE",   Nothing,                V13a, ForgetEvents),
    ("FI",   Nothing,                V14,  Refuse),
    ("IB",   One(&["10", "96"]),     V10,  Accept),
    ("IB",   One(&["48"]),           V14,  Accept),
    ("JE",   Nothing,                V13,  Accept),
    ("JS",   Nothing,                V13,  Accept),
    ("KW",   ZeroOne,                V12,  Accept),
    ("KW",   Nothing,                V13,  KeyWords),
    ("LP",   Nothing,                V14,  Refuse),
    ("MA",   Nothing,                V10,  Refuse),
    ("MP",   Hex(&[4, 6]),           V12,  Refuse),
    ("MP",   Hex(&[5, 7]),           V14b, Refuse),
    ("MR",   Hex(&[2]),              V10,  Refuse),
    ("MT",   Hex(&[2]),              V10,  Refuse),
    ("NL",   Nothing,                V10,  Accept),
    ("PB",   Hex(&[4]),              V14,  Refuse),
    ("PC",   Nothing,                V10,  Close),
    ("PP",   One(&[]),               V11,  Refuse),
    ("RA",   Hex(&[2]),              V13,  Accept),
    ("RD",   Nothing,                V14,  Refuse),
    ("RTR",  Nothing,                V13,  Refuse),
    ("RV",   Nothing,                V10,  Volts),
    ("SD",   Hex(&[2]),              V14,  Refuse),
    ("SH",   Hex(&[3, 6]),           V10,  Header),
    ("SH",   Hex(&[8]),              V20,  Header),
    ("SI",   Nothing,                V14,  Accept),
    ("SP",   One(&["00"]),           V13,  Store),
    ("SP",   Number,                 V10,  Store),
    ("SR",   Hex(&[2]),              V12,  Accept),
    ("SS",   Nothing,                V14,  Accept),
    ("ST",   Hex(&[2]),              V10,  Wait),
    ("SW",   Hex(&[2]),              V10,  Wake),
    ("TA",   Hex(&[2]),              V14,  Accept),
    ("TP",   Number,                 V10,  Protocol),
    ("WM",   One(&[]),               V10,  Refuse),
    ("WS",   Nothing,                V10,  WarmStart),
    ("@1",   Nothing,                V10,  Device),
    ("@2",   Nothing,                V13,  Refuse),
    ("@3",   One(&[]),               V13,  Refuse),
    ("D",    Nothing,                V10,  Defaults),
    ("D",    ZeroOne,                V13,  Accept),
    ("E",    ZeroOne,                V10,  Echo),
    ("H",    ZeroOne,                V10,  Headers),
    ("I",    Nothing,                V10,  Identity),
    ("L",    ZeroOne,                V10,  LineFeeds),
    ("M",    ZeroOne,                V10,  Accept),
    ("R",    ZeroOne,                V10,  Accept),
    ("S",    ZeroOne,                V13,  Spaces),
    ("V",    ZeroOne,                V13,  Accept),
    ("Z",    Nothing,                V10,  Reset),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_names_come_before_shorter_ones_so_each_row_can_be_reached() {
        for (place, (name, ..)) in COMMANDS.iter().enumerate() {
            let earlier = COMMANDS.iter().take(place);
            let hidden = earlier.filter(|(first, takes, ..)| {
                first != name && name.starts_with(first) && takes.fits(&name[first.len()..])
            });
            assert_eq!(hidden.count(), 0, "{name}");
        }
    }

    /// Every command of `firmware_differences.csv` has a row, and it came with the version that stands there.
    #[test]
    fn each_command_came_with_the_version_of_the_reference() {
        let table = include_str!("../../../../fixtures/reference/adapter/firmware_differences.csv");
        let mut compared = 0;
        for row in table.lines().filter(|row| row.contains(",command,")) {
            let (told, rest) = row.split_once(",command,").unwrap();
            let since = rest.split(',').next().unwrap();
            // A lone CR has no name; 0000 is a value that 1.0 took as any other.
            if told == "<CR>" || told == "CV 0000" {
                continue;
            }
            let words = told.replace(" (no value)", "").replace(" with count", "hhhh1");
            let words = words.replace("CRA with X digits", "CRA7EX");
            // Places of an argument: h, d, and the letters of headers; the words of a parameter are no argument.
            let example: String = words
                .split(' ')
                .map(|word| {
                    let argument = word.chars().all(|c| c.is_ascii_lowercase());
                    word.chars()
                        .map(|c| if argument || c == 'h' || c == 'd' { '1' } else { c })
                        .collect::<String>()
                })
                .collect();
            let name = names().filter(|(name, _)| example.starts_with(name)).map(|(name, _)| name).next();
            assert!(name.is_some(), "no row for {told}");
            let found: Vec<Level> = COMMANDS
                .iter()
                .filter(|(name, takes, ..)| example.strip_prefix(name).is_some_and(|a| takes.fits(a)))
                .map(|row| row.2)
                .collect();
            let first = found.iter().min().copied();
            let first = first.or_else(|| names().find(|(n, _)| Some(*n) == name).map(|(_, since)| since));
            assert_eq!(first.unwrap().as_str(), since, "{told}: {example}");
            compared += 1;
        }
        assert!(compared > 110, "{compared}");
    }
}
