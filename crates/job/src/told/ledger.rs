//! The ledger: every amount as it was told, and what the fluid became by it.
//!
//! In: entries in their order. Out: sums, and how much of the fluid is fresh. Not here: amounts at one temperature
//! (`balance.rs`), why they may not close (`closure.rs`). Nothing is ever deleted from the record: `undo` takes the
//! last entry out of the fold, and both stay in the journal.

use events::{Part, Sheet, Way};
use units::{Celsius, Millilitres};

/// What an amount is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Drained,
    Filled,
    RanOut,
    /// By eye; counts with its way.
    Spilled(Way),
    TakenOut(Part),
    /// Of what came out, kept back.
    Kept,
}

/// Which way the fluid went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Flow {
    /// Old fluid before the fill.
    Out,
    In,
    /// Meant to go in, and did not.
    NotIn,
    /// Out at the check port.
    Over,
    /// Nowhere new.
    None,
}

impl Kind {
    pub(crate) const fn flow(self) -> Flow {
        match self {
            Self::Drained | Self::TakenOut(_) | Self::Spilled(Way::Drained) => Flow::Out,
            Self::Filled => Flow::In,
            Self::Spilled(Way::Filled) => Flow::NotIn,
            Self::RanOut | Self::Spilled(Way::RanOut) => Flow::Over,
            Self::Kept => Flow::None,
        }
    }

    /// Whether the level may be another after it.
    pub(crate) const fn changes_the_level(self) -> bool {
        !matches!(self.flow(), Flow::Over | Flow::None)
    }
}

/// One amount as told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Entry {
    pub(crate) kind: Kind,
    pub(crate) amount: Millilitres,
    pub(crate) celsius: Option<Celsius>,
    /// Measured in a vessel; otherwise by eye or from the sheet.
    pub(crate) measured: bool,
    /// How often the port had been opened before.
    pub(crate) after_rounds: u32,
    /// Whether the engine ran since the last fill, so that old and fresh are mixed.
    pub(crate) mixed: bool,
    /// Ran out with the engine off or stopped: more than the excess.
    pub(crate) lost: bool,
    /// Put in through the open port, which is looked at again before it is closed.
    pub(crate) in_look: bool,
}

/// What the sheet says a part holds, in mL.
pub(crate) const fn part_ml(sheet: &Sheet, part: Part) -> Option<f64> {
    match part {
        Part::Filter => sheet.fluid.filter_ml,
        Part::Cooler => sheet.fluid.cooler_ml,
        Part::Pan => sheet.fluid.pan_ml,
        Part::Converter => sheet.fluid.converter_ml,
    }
}

/// The share of fresh fluid after all entries, 0 to 1; `None` before the first fill.
///
/// Method: what is in the transmission is counted as old and fresh. Where the engine ran since the last fill, what
/// comes out is mixed like the whole (`old *= 1 - d/V`, physics of dilution); where it did not, the fresh fluid lies on
/// top of the sump and is taken to come out first, which claims no freshness that is not there.
pub(crate) fn fresh(sheet: &Sheet, entries: &[Entry]) -> Option<f64> {
    let (mut old, mut fresh, mut filled) = (sheet.fluid.total_ml, 0.0_f64, false);
    for entry in entries {
        let amount = entry.amount.to_f64();
        match entry.kind.flow() {
            Flow::In => {
                fresh += amount;
                filled = true;
            }
            Flow::NotIn => fresh = (fresh - amount).max(0.0),
            Flow::Out | Flow::Over => {
                let all = old + fresh;
                let fresh_out =
                    if entry.mixed && all > 0.0 { amount * fresh / all } else { amount.min(fresh) };
                fresh = (fresh - fresh_out).max(0.0);
                old = (old - (amount - fresh_out)).max(0.0);
            }
            Flow::None => {}
        }
    }
    let all = old + fresh;
    (filled && all > 0.0).then(|| fresh / all)
}

/// What two vessels may be wrong by together.
/// Source: fixtures/reference/trade/hazards.csv, row `drained-start`; own choice there: 25 mL each added as squares,
/// and twice that.
pub(crate) const VESSELS_ML: f64 = 70.0;

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "test code")]
    use super::*;

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    fn entry(kind: Kind, ml: i32, mixed: bool) -> Entry {
        let amount = Millilitres::from_steps(ml).unwrap();
        Entry {
            kind,
            amount,
            celsius: None,
            measured: true,
            after_rounds: 0,
            mixed,
            lost: false,
            in_look: false,
        }
    }

    #[test]
    fn rounds_dilute_as_the_formula_says() {
        // Physics of dilution: fresh = 1 - (1 - d/V)^n; 2.4 L of 6.5 L three times over: 74.9 %.
        let mut entries = Vec::new();
        for round in 1..=3 {
            entries.push(entry(Kind::Drained, 2_400, true));
            entries.push(entry(Kind::Filled, 2_400, true));
            let want = 1.0 - (1.0 - 2_400.0 / 6_500.0_f64).powi(round);
            assert!((fresh(&sheet(), &entries).unwrap() - want).abs() < 1e-12, "round {round}");
        }
    }

    #[test]
    fn without_the_engine_the_second_round_only_pours_the_fresh_fluid_out_again() {
        let round = [entry(Kind::Drained, 2_400, false), entry(Kind::Filled, 2_400, false)];
        let once = fresh(&sheet(), &round).unwrap();
        let twice = fresh(&sheet(), &[round, round].concat()).unwrap();
        assert!((once - twice).abs() < 1e-12, "{once} {twice}");
    }

    #[test]
    fn a_filter_counts_as_old_fluid_gone_and_a_spilled_fill_as_fresh_fluid_that_is_not_in() {
        let drained = entry(Kind::Drained, 2_400, false);
        let filter = entry(Kind::TakenOut(Part::Filter), 300, false);
        let filled = entry(Kind::Filled, 2_700, false);
        let share = fresh(&sheet(), &[drained, filter, filled]).unwrap();
        assert!((share - 2_700.0 / 6_500.0).abs() < 1e-12);
        let less = fresh(&sheet(), &[drained, filter, filled, entry(Kind::Spilled(Way::Filled), 200, false)]);
        assert!(less.unwrap() < share);
        assert_eq!(fresh(&sheet(), &[drained]), None);
    }
}
