//! What was guessed in the sheet, and how much wider that makes the level error.
//!
//! In: the sheet with the keys that it calls guessed, the level error as a function of a sheet. Out: the part of the guesses. Not
//! here: the other parts of the budget (`level.rs`).
//!
//! Each guessed value is moved by its own standard uncertainty to either side ([`GUESSES`]), and the whole budget drawn up anew (JCGM
//! 100, 5.1.3, by numbers). Half of what the best estimate moves by counts, and whatever the budget grows by itself: a pipe that
//! may stand elsewhere costs nothing on a stand that is perfectly level, but nobody knows that it is.

use events::Sheet;

use crate::part::Part;

/// A guessed value: its key, how well it is known, and what moving it by `by` standard uncertainties makes of the sheet.
pub struct Guess {
    /// As the sheet writes it.
    pub key: &'static str,
    /// Its standard uncertainty, in words (own choice, all of them: nobody has asked how well people guess).
    pub known_to: &'static str,
    moved: fn(&mut Sheet, f64),
}

const fn guess(key: &'static str, known_to: &'static str, moved: fn(&mut Sheet, f64)) -> Guess {
    Guess { key, known_to, moved }
}

/// Every value that enters the level error. One key may have several rows: both are moved, one after the other.
/// Own choice: how well people know each (docs/procedure.md); nobody has asked them.
#[rustfmt::skip]
pub const GUESSES: &[Guess] = &[
    guess("check.band_c",         "3 °C",      |s, by| if !s.is_in_the_heat() { s.check.band_c = s.check.band_c.map(|c| c + 3.0 * by) }),
    guess("check.hot_band_c",     "3 °C",      |s, by| if s.is_in_the_heat() { s.check.band_c = s.check.band_c.map(|c| c + 3.0 * by) }),
    guess("fluid.total_ml",       "a sixth",   |s, by| s.fluid.total_ml *= share(by, 1.0 / 6.0)),
    guess("fluid.density_15",     "15 kg/m³",  |s, by| s.fluid.density_15 += 15.0 * by),
    guess("fluid.ml_per_k",       "half of it", |s, by| s.fluid.ml_per_k = s.fluid.ml_per_k.map(|ml| ml * share(by, 0.5))),
    guess("fluid.mm2_s_40",       "a fifth",   |s, by| s.fluid.mm2_s_40 *= share(by, 0.2)),
    guess("fluid.mm2_s_100",      "a fifth",   |s, by| s.fluid.mm2_s_100 *= share(by, 0.2)),
    guess("fluid.drain_ml",       "a tenth",   |s, by| s.fluid.drain_ml *= share(by, 0.1)),
    guess("fluid.margin_ml",      "a fifth",   |s, by| s.fluid.margin_ml *= share(by, 0.2)),
    guess("standpipe.surface_m2", "a quarter", |s, by| s.standpipe.surface_m2 *= share(by, 0.25)),
    guess("standpipe.offset_mm",  "40 mm",     |s, by| s.standpipe.offset_mm[0] += 40.0 * by),
    guess("standpipe.offset_mm",  "40 mm",     |s, by| s.standpipe.offset_mm[1] += 40.0 * by),
    guess("standpipe.bore_mm",    "a fifth",   |s, by| s.standpipe.bore_mm *= share(by, 0.2)),
    guess("standpipe.rim_mm",     "a third",   |s, by| s.standpipe.rim_mm *= share(by, 1.0 / 3.0)),
    guess("level.gush_ml",        "all of it", |s, by| s.level.gush_ml = s.level.gush_ml.map(|ml| ml * share(by, 1.0))),
    guess("look.mm",              "2 mm",      |s, by| s.look.iter_mut().for_each(|l| l.mm = l.mm.map(|mm| mm.map(|mm| mm + 2.0 * by)))),
    guess("look.chart",           "2 mm",      |s, by| s.look.iter_mut().flat_map(|l| &mut l.chart).for_each(|[_, low, high]| { *low += 2.0 * by; *high += 2.0 * by; })),
    guess("look.ml_per_mm",       "a fifth",   |s, by| s.look.iter_mut().for_each(|l| l.ml_per_mm = l.ml_per_mm.map(|ml| ml * share(by, 0.2)))),
    guess("stand.pitch_deg",      "0.5°",      |s, by| s.stand.pitch_deg += 0.5 * by),
    guess("stand.roll_deg",       "0.5°",      |s, by| s.stand.roll_deg += 0.5 * by),
];

fn share(by: f64, of: f64) -> f64 {
    // Never nothing: no formula takes a surface of 0.
    (1.0 + by * of).max(0.01)
}

/// What each guess adds to the variance of the budget that `of` draws up from a sheet, in mL²; one key once.
pub(crate) fn each(sheet: &Sheet, of: impl Fn(&Sheet) -> Option<Part>) -> Option<Vec<(&'static Guess, f64)>> {
    let plain = of(sheet)?;
    let mut out: Vec<(&'static Guess, f64)> = Vec::new();
    for guess in GUESSES.iter().filter(|guess| sheet.is_guessed(guess.key)) {
        let sides = [-1.0, 1.0].into_iter().filter_map(|by| {
            let mut moved = sheet.clone();
            (guess.moved)(&mut moved, by);
            of(&moved)
        });
        let (moves, grows) = sides.fold((0.0_f64, 0.0_f64), |(moves, grows), side| {
            let grown = side.u_ml * side.u_ml - plain.u_ml * plain.u_ml;
            (moves.max((side.ml - plain.ml).abs()), grows.max(grown))
        });
        let variance = moves * moves + grows;
        match out.iter_mut().find(|(other, _)| other.key == guess.key) {
            Some((_, sum)) => *sum += variance,
            None => out.push((guess, variance)),
        }
    }
    Some(out)
}

/// What the guesses add to the budget that `of` draws up from a sheet; nothing where none of them enters.
pub(crate) fn part(sheet: &Sheet, of: impl Fn(&Sheet) -> Option<Part>) -> Option<Part> {
    let variance: f64 = each(sheet, of)?.iter().map(|(_, variance)| variance).sum();
    (variance > 0.0).then(|| Part { ml: 0.0, u_ml: variance.sqrt() })
}
