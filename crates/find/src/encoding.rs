//! How bytes become a temperature: the linear encodings that are in use.
//!
//! In: bytes of an answer. Out: degrees, by each encoding. A name says what is done with the bytes, in the notation of
//! the standard identifiers, where A is the first byte and B the second: `a-40` is A − 40, `ab-tenth-40` is (256·A + B)/10 − 40,
//! `a-3q-48` is ¾·A − 48, `a-5e-40` is ⅝·A − 40; `signed` where the count is two's complement, `f` and `k` where the result is °F or K.
//! Where the value starts in the answer is said beside it (`byte`), so A need not be the answer's first byte.
//! Source: each row is one of `fixtures/reference/obd/temp_encodings.csv`, by its name there; a test holds them together.
//! How often: signals of an open collection of broadcast frames, by that file; 1 where it counts none ("common practice, no
//! source"), 4 for "several".

use events::Identifier;
use units::words;

use crate::place::{Place, Service};

/// Whether the count carries a sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// It does not.
    Unsigned,
    /// Two's complement.
    Signed,
}

use Sign::{Signed, Unsigned};

/// One row: how a count becomes degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Its name in the reference.
    pub reference: &'static str,
    /// How many bytes, big end first.
    pub bytes: u8,
    /// Whether the count carries a sign.
    pub sign: Sign,
    /// °C for one count.
    pub scale: f64,
    /// °C at count 0.
    pub offset: f64,
    /// How many signals of a survey have it.
    pub often: f64,
}

const fn c(reference: &'static str, bytes: u8, sign: Sign, scale: f64, offset: f64, often: f64) -> Row {
    Row { reference, bytes, sign, scale, offset, often }
}

/// As `c`, scale and offset in °F.
const fn f(reference: &'static str, bytes: u8, sign: Sign, scale: f64, offset: f64, often: f64) -> Row {
    Row { reference, bytes, sign, scale: scale / 1.8, offset: (offset - 32.0) / 1.8, often }
}

words! {
    /// How bytes become a temperature.
    json Encoding, pub row: Row {
        A40 "a-40" "One byte, 1 °C a count from -40 °C." => c("u8_off40", 1, Unsigned, 1.0, -40.0, 20.0),
        A50 "a-50" "One byte, 1 °C a count from -50 °C." => c("u8_off50", 1, Unsigned, 1.0, -50.0, 12.0),
        A48 "a-48" "One byte, 1 °C a count from -48 °C." => c("u8_off48", 1, Unsigned, 1.0, -48.0, 2.0),
        A60 "a-60" "One byte, 1 °C a count from -60 °C." => c("u8_off60", 1, Unsigned, 1.0, -60.0, 5.0),
        A "a" "One byte, 1 °C a count from 0 °C." => c("u8_off0", 1, Unsigned, 1.0, 0.0, 4.0),
        ASigned "a-signed" "One byte with a sign, 1 °C a count." => c("s8", 1, Signed, 1.0, 0.0, 2.0),
        AHalf40 "a-half-40" "One byte, half a degree a count from -40 °C." => c("u8_half_off40", 1, Unsigned, 0.5, -40.0, 20.0),
        AHalf50 "a-half-50" "One byte, half a degree a count from -50 °C." => c("u8_half_off50", 1, Unsigned, 0.5, -50.0, 12.0),
        A3q48 "a-3q-48" "One byte, 0.75 °C a count from -48 °C." => c("u8_3q_off48", 1, Unsigned, 0.75, -48.0, 25.0),
        A3q40 "a-3q-40" "One byte, 0.75 °C a count from -40 °C." => c("u8_3q_off40", 1, Unsigned, 0.75, -40.0, 6.0),
        A5e40 "a-5e-40" "One byte, 0.625 °C a count from -40 °C." => c("u8_5e_off40", 1, Unsigned, 0.625, -40.0, 1.0),
        AF "a-f" "One byte, 1 °F a count from 0 °F." => f("u8_F", 1, Unsigned, 1.0, 0.0, 1.0),
        AF40 "a-f-40" "One byte, 1 °F a count from -40 °F." => f("u8_F_off40", 1, Unsigned, 1.0, -40.0, 1.0),
        AFalling "150-a" "One byte, falling: 1 °C a count down from 150 °C." => c("u8_inv", 1, Unsigned, -1.0, 150.0, 1.0),
        AbTenth "ab-tenth" "Two bytes, 0.1 °C a count." => c("u16_tenth", 2, Unsigned, 0.1, 0.0, 1.0),
        AbTenth40 "ab-tenth-40" "Two bytes, 0.1 °C a count from -40 °C." => c("u16_tenth_off40", 2, Unsigned, 0.1, -40.0, 1.0),
        AbSignedTenth "ab-signed-tenth" "Two bytes with a sign, 0.1 °C a count." => c("s16_tenth", 2, Signed, 0.1, 0.0, 1.0),
        AbHundredth "ab-hundredth" "Two bytes, 0.01 °C a count." => c("u16_hundredth", 2, Unsigned, 0.01, 0.0, 1.0),
        AbHundredth40 "ab-hundredth-40" "Two bytes, 0.01 °C a count from -40 °C." => c("u16_hundredth_off40", 2, Unsigned, 0.01, -40.0, 1.0),
        AbHundredth50 "ab-hundredth-50" "Two bytes, 0.01 °C a count from -50 °C." => c("u16_hundredth_off50", 2, Unsigned, 0.01, -50.0, 1.0),
        AbSignedHundredth "ab-signed-hundredth" "Two bytes with a sign, 0.01 °C a count." => c("s16_hundredth", 2, Signed, 0.01, 0.0, 1.0),
        AbSigned16th "ab-signed-16th" "Two bytes with a sign, a sixteenth of a degree a count." => c("s16_16th", 2, Signed, 0.0625, 0.0, 1.0),
        AbSigned8th "ab-signed-8th" "Two bytes with a sign, an eighth of a degree a count." => c("s16_8th", 2, Signed, 0.125, 0.0, 1.0),
        Ab64th "ab-64th" "Two bytes, a 64th of a degree a count." => c("u16_64th", 2, Unsigned, 0.015_625, 0.0, 1.0),
        Ab256th40 "ab-256th-40" "Two bytes, a 256th of a degree a count from -40 °C." => c("u16_256th_off40", 2, Unsigned, 0.003_906_25, -40.0, 1.0),
        Ab32nd273 "ab-32nd-273" "Two bytes, a 32nd of a degree a count from -273 °C." => c("u16_32nd_off273", 2, Unsigned, 0.031_25, -273.0, 1.0),
        AbTenthK "ab-tenth-k" "Two bytes, 0.1 K a count from 0 K." => c("u16_tenth_K", 2, Unsigned, 0.1, -273.15, 1.0),
        Ab8thF "ab-8th-f" "Two bytes, an eighth of a °F a count from 0 °F." => f("u16_8th_F", 2, Unsigned, 0.125, 0.0, 1.0),
        AbSigned16thF "ab-signed-16th-f" "Two bytes with a sign, a sixteenth of a °F a count." => f("s16_16th_F", 2, Signed, 0.0625, 0.0, 1.0),
        AbSigned "ab-signed" "Two bytes with a sign, 1 °C a count." => c("s16_one", 2, Signed, 1.0, 0.0, 1.0),
        Ab40 "ab-40" "Two bytes, 1 °C a count from -40 °C." => c("u16_one_off40", 2, Unsigned, 1.0, -40.0, 1.0),
    }
}

impl Encoding {
    /// The count that starts at `byte` of `answer`; `None` where the answer is too short.
    pub fn count(self, answer: &[u8], byte: u8) -> Option<i32> {
        let row = self.row();
        let from = answer.get(usize::from(byte)..)?;
        Some(match (row.bytes, row.sign, from) {
            (1, Unsigned, [a, ..]) => i32::from(*a),
            (1, Signed, [a, ..]) => i32::from(*a as i8),
            (2, Unsigned, [a, b, ..]) => i32::from(u16::from_be_bytes([*a, *b])),
            (2, Signed, [a, b, ..]) => i32::from(i16::from_be_bytes([*a, *b])),
            _ => return None,
        })
    }

    /// Degrees of a count.
    pub fn of_count(self, count: i32) -> f64 {
        let row = self.row();
        f64::from(count) * row.scale + row.offset
    }

    /// Degrees of the value that starts at `byte` of `answer`.
    pub fn celsius(self, answer: &[u8], byte: u8) -> Option<f64> {
        self.count(answer, byte).map(|count| self.of_count(count))
    }

    /// What a sheet says of it; `None` for a standard identifier, which no sheet holds.
    pub fn identifier(self, place: Place, byte: u8, answer_bytes: u8) -> Option<Identifier> {
        let row = self.row();
        (place.service != Service::Current).then(|| Identifier {
            service: place.service.into(),
            id: place.id,
            header: place.header.to_string(),
            byte,
            length: row.bytes,
            bytes: (answer_bytes > 0).then_some(answer_bytes),
            scale: row.scale,
            offset: row.offset,
            signed: row.sign == Signed,
            little_endian: false,
        })
    }
}

/// Every value in `answer` that could be a temperature near `near_c`, within `within_k`: where it starts, how it is read, and what it says.
pub fn candidates(answer: &[u8], near_c: f64, within_k: f64) -> Vec<(u8, Encoding, f64)> {
    let starts = 0..answer.len().min(MOST_BYTES) as u8;
    let read = |byte| {
        Encoding::ALL.iter().filter_map(move |encoding| {
            encoding.celsius(answer, byte).map(|celsius| (byte, *encoding, celsius))
        })
    };
    starts.flat_map(read).filter(|(_, _, celsius)| (celsius - near_c).abs() <= within_k).collect()
}

/// So many bytes of an answer are looked at. Source: ISO 14230-2 carries no more than 255 in a message; two go for the echo.
const MOST_BYTES: usize = 253;

#[cfg(test)]
mod tests {
    use super::*;

    const CSV: &str = include_str!("../../../fixtures/reference/obd/temp_encodings.csv");

    #[test]
    fn each_row_is_that_of_the_reference() {
        let mut reader = csv::Reader::from_reader(CSV.as_bytes());
        let heads = reader.headers().unwrap().clone();
        let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
        assert_eq!(rows.len(), Encoding::ALL.len());
        for (record, encoding) in rows.iter().zip(Encoding::ALL) {
            let cell = |name: &str| &record[heads.iter().position(|head| head == name).unwrap()];
            let (row, name) = (encoding.row(), cell("encoding"));
            assert_eq!(row.reference, name);
            assert_eq!(row.bytes.to_string(), cell("bytes"), "{name}");
            assert_eq!(row.sign == Signed, cell("sign") == "signed", "{name}");
            assert!(row.bytes == 1 || cell("byte_order") == "big-endian", "{name}");
            let close = |a: f64, column: &str| {
                let b: f64 = cell(column).parse().unwrap();
                assert!((a - b).abs() <= 1e-4 * b.abs().max(0.01), "{name} {column}: {a} {b}");
            };
            close(row.scale, "scale_degC");
            close(row.offset, "offset_degC");
            for (celsius, column) in [
                (0.0, "raw_at_0C"),
                (20.0, "raw_at_20C"),
                (40.0, "raw_at_40C"),
                (80.0, "raw_at_80C"),
                (120.0, "raw_at_120C"),
            ] {
                let Ok(raw) = u32::from_str_radix(cell(column), 16) else { continue };
                let bytes = raw.to_be_bytes();
                let read = encoding.celsius(&bytes[4 - usize::from(row.bytes)..], 0).unwrap();
                assert!((read - celsius).abs() <= row.scale.abs() / 2.0 + 1e-9, "{name} {column}: {read}");
            }
        }
    }

    #[test]
    fn a_value_is_read_where_it_lies() {
        let answer = [0xFF, 0x3C, 0x01, 0x90];
        let cases: &[(&str, Encoding, u8, Option<f64>)] = &[
            ("one byte", Encoding::A40, 1, Some(20.0)),
            ("two bytes", Encoding::AbTenth, 2, Some(40.0)),
            ("with a sign", Encoding::ASigned, 0, Some(-1.0)),
            ("the second byte is missing", Encoding::AbTenth, 3, None),
            ("behind the end", Encoding::A40, 4, None),
        ];
        for (what, encoding, byte, want) in cases {
            assert_eq!(encoding.celsius(&answer, *byte), *want, "{what}");
        }
        let near: Vec<_> = candidates(&answer, 20.0, 1.0).into_iter().map(|(at, e, _)| (at, e)).collect();
        assert!(near.contains(&(1, Encoding::A40)) && !near.contains(&(1, Encoding::A)), "{near:?}");
    }

    #[test]
    fn no_sheet_holds_a_standard_identifier() {
        let place = |service| Place { header: "7E1".parse().unwrap(), service, id: 0x4D07 };
        assert_eq!(Encoding::A40.identifier(place(Service::Current), 0, 1), None);
        let held = Encoding::AbSignedTenth.identifier(place(Service::Identifier), 3, 6).unwrap();
        assert_eq!((held.byte, held.length, held.bytes, held.signed), (3, 2, Some(6), true));
    }
}
