//! What was told of the trouble, together with the level that was found.
//!
//! In: the record, how the level was found. Out: [`Meaning`]s for the result, the customer's first. Not here: the questions
//! (`asked.rs`), whether it may be driven (`outcome.rs`).
//!
//! | meaning | when |
//! | --- | --- |
//! | other-cause | a check found it right and set, and a symptom was told before |
//! | driven-low | a check found it low by more than 0.5 L (common practice), or dry after so much |
//! | ask-history | a check found it low by more than is known, and no leak is seen |
//! | filled-wrong | a check found it high by more than is known |
//! | worn, water-in | the fluid was told black, burnt, with metal; milky |

use events::{FluidLook, Meaning, Task};
use fluid::balance::Referred;

use crate::record::Record;

/// How a check found the level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Found {
    /// Nobody knows.
    Unknown,
    Right,
    /// By so much, in mL.
    Low(f64),
    High,
}

impl Found {
    /// By what was found and how well it is known, where the look counts, and by what nothing came after.
    pub(crate) fn of(found: Option<Referred>, counts: bool, dry_after_ml: Option<f64>) -> Self {
        match (found, dry_after_ml) {
            (Some(found), _) if counts => {
                if found.millilitres.abs() <= 2.0 * found.u_ml {
                    Self::Right
                } else if found.millilitres < 0.0 {
                    Self::Low(-found.millilitres)
                } else {
                    Self::High
                }
            }
            (_, Some(ml)) => Self::Low(ml),
            _ => Self::Unknown,
        }
    }
}

/// See the module's words.
pub(crate) fn means(record: &Record, found: Found, leaks: bool) -> Vec<Meaning> {
    let asked = &record.asked;
    // Nobody asks for the history of his own job.
    let found = if record.hands.task == Task::Check { found } else { Found::Unknown };
    let worn = [FluidLook::Black, FluidLook::Burnt, FluidLook::Metal];
    let rows = [
        (Meaning::OtherCause, found == Found::Right && asked.is_a_symptom()),
        (Meaning::DrivenLow, matches!(found, Found::Low(ml) if ml > DRIVEN_LOW_ML)),
        (Meaning::AskHistory, matches!(found, Found::Low(_)) && !leaks),
        (Meaning::FilledWrong, found == Found::High),
        (Meaning::Worn, worn.into_iter().any(|look| asked.looks(look))),
        (Meaning::WaterIn, asked.looks(FluidLook::Milky)),
    ];
    rows.into_iter().filter(|(_, holds)| *holds).map(|(meaning, _)| meaning).collect()
}

/// Low by more than this it was driven low.
/// Source: common practice, no source.
const DRIVEN_LOW_ML: f64 = 500.0;
/// A check found it low and no leak is seen: looked at again after so many days, where the sheet names none.
/// Own choice: a drip a minute is 60 mL in a day and shows after three; what seeps shows after two weeks.
pub(crate) const LOOK_AGAIN_DAYS: &[u32] = &[3, 14];
