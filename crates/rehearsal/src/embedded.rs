//! What comes with the program, so that `rehearse` runs on a fresh machine without a file.

use events::Sheet;

use crate::warmup::Warmup;

/// The sheet of the six-speed: text of `fixtures/sheets/demo-six-speed.toml`.
pub const SIX_SPEED_SHEET: &str = include_str!("../../../fixtures/sheets/demo-six-speed.toml");
/// The sheet of the eight-speed with a bypass to pin: `fixtures/sheets/demo-eight-speed-bypass.toml`.
pub const EIGHT_SPEED_SHEET: &str = include_str!("../../../fixtures/sheets/demo-eight-speed-bypass.toml");
/// A recorded warm-up from 11 °C: `fixtures/warmups/2018-02-23-s-s-stau.csv`; licence in the README beside it.
pub const WARMUP: &str = include_str!("../../../fixtures/warmups/2018-02-23-s-s-stau.csv");

/// The six-speed's sheet, read.
#[expect(clippy::expect_used, reason = "the text is part of this program, and a test reads it")]
pub fn six_speed() -> Sheet {
    Sheet::parse(SIX_SPEED_SHEET).expect("the embedded sheet is valid")
}

/// The eight-speed's sheet, read.
#[expect(clippy::expect_used, reason = "the text is part of this program, and a test reads it")]
pub fn eight_speed() -> Sheet {
    Sheet::parse(EIGHT_SPEED_SHEET).expect("the embedded sheet is valid")
}

/// The recorded warm-up, read.
#[expect(clippy::expect_used, reason = "the text is part of this program, and a test reads it")]
pub fn warmup() -> Warmup {
    Warmup::parse(WARMUP).expect("the embedded log is valid")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_with_the_program_can_be_read() {
        assert!(!six_speed().before.cooler_bypass);
        assert!(eight_speed().before.cooler_bypass);
        assert_eq!(warmup().start_celsius(), 11.0);
    }
}
