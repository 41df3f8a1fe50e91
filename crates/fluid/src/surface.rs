//! What surfaces emit: the emissivities a technician meets under a vehicle.
//!
//! In: nothing. Out: [`SURFACES`], one row each. Not here: what follows from an emissivity (`spot.rs`).
//! Source: beside each row; band 8 to 14 µm near workshop temperatures. Values for 2 to 5 µm do not carry over.

/// One kind of surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// The word for it.
    pub word: &'static str,
    /// Lowest emissivity given.
    pub low: f64,
    /// Highest emissivity given.
    pub high: f64,
    /// Where the values are from.
    pub source: &'static str,
}

impl Surface {
    /// The middle of what is given.
    pub fn emissivity(&self) -> f64 {
        self.low / 2.0 + self.high / 2.0
    }

    /// Its standard uncertainty: the width as limits, and never below that of a single table value.
    ///
    /// Source: JCGM 100, 4.3.7; the least is 0.02 (from memory, usual for tape and paint).
    pub fn u_emissivity(&self) -> f64 {
        ((self.high - self.low) / 12.0_f64.sqrt()).max(LEAST_U)
    }
}

/// All surfaces known here, best first.
/// Source: each row says.
#[rustfmt::skip]
pub const SURFACES: &[Surface] = &[
    //      word              low   high  source
    surface("tape",           0.96, 0.96, "black vinyl tape, 8 to 14 µm: public thermography manual"),
    surface("paint",          0.92, 0.94, "paint on aluminium, 8 to 14 µm, 70 °C: sensor maker's manual"),
    surface("plastic",        0.91, 0.91, "fibreglass laminate, 8 to 14 µm, 70 °C: sensor maker's manual"),
    surface("anodised",       0.95, 0.97, "anodised aluminium, 8 to 14 µm, 70 °C: public thermography manual"),
    surface("cast-aluminium", 0.10, 0.50, "sump as found: from memory, bounded by published tables"),
    surface("bare-steel",     0.09, 0.09, "cold rolled, 8 to 14 µm, 70 °C: sensor maker's manual"),
    surface("bare-aluminium", 0.03, 0.06, "sheet, differently scratched, 8 to 14 µm, 70 °C: public thermography manual"),
];

/// The surface of that name.
pub fn find(word: &str) -> Option<&'static Surface> {
    SURFACES.iter().find(|s| s.word == word)
}

const fn surface(word: &'static str, low: f64, high: f64, source: &'static str) -> Surface {
    Surface { word, low, high, source }
}

/// Standard uncertainty of an emissivity that a table gives as one number.
/// Source: from memory, usual for tape and paint.
const LEAST_U: f64 = 0.02;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spot::is_trusted;

    #[test]
    fn every_row_is_possible_and_named_once() {
        for (i, s) in SURFACES.iter().enumerate() {
            assert!(0.0 < s.low && s.low <= s.high && s.high <= 1.0 && !s.source.is_empty(), "{}", s.word);
            assert!(SURFACES.iter().skip(i + 1).all(|other| other.word != s.word), "{} twice", s.word);
            assert_eq!(find(s.word), Some(s));
        }
    }

    #[test]
    fn no_bare_metal_is_trusted() {
        for s in SURFACES {
            let bare = s.word.starts_with("bare") || s.word.starts_with("cast");
            assert_eq!(is_trusted(s.emissivity()), !bare, "{}", s.word);
        }
    }
}
