//! Adapter firmwares as data: what each calls itself, which commands it really has, what it does against the rules.
//!
//! In: a name. Out: [`Firmware`]. To add one: a constant in one file of `firmware/`, a line in [`ALL`]; it appears in
//! `car list`. Each is a difference that was seen or is documented; its `source` says where.
//! Not here: the commands themselves and which version has them (`dialect/`), what a habit does (`car/`).
//! Source: adapter reference, dialect sections 1, 2, 12, 15, 17; exchanges by their number.

mod copies;
mod habit;
mod level;
mod odd;
mod originals;
mod strangers;

pub use copies::*;
pub use habit::Habit;
pub use level::Level;
pub use odd::*;
pub use originals::*;
pub use strangers::*;

/// One firmware.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Firmware {
    /// Its name here.
    pub name: &'static str,
    /// What is special about it, in a sentence.
    pub says: &'static str,
    /// Where that was seen: section, row or report of the adapter reference.
    pub source: &'static str,
    /// What it calls itself.
    pub identity: &'static str,
    /// The version whose commands it really has.
    pub level: Level,
    /// What it says to `AT@1`.
    pub device: &'static str,
    /// What it says to `STI`; none: `?`.
    pub family: Option<&'static str>,
    /// Commands after `AT` that it does not have all the same: each refuses everything that begins with it.
    pub refuses: &'static [&'static str],
    /// What it does against the rules.
    pub habits: &'static [Habit],
    /// How long it is silent after `ATZ`, ms.
    pub reset_ms: u64,
}

impl Firmware {
    /// The firmware of that name.
    pub fn named(name: &str) -> Option<&'static Self> {
        ALL.iter().find(|firmware| firmware.name == name).copied()
    }

    /// Whether it has that habit.
    pub fn has(&self, habit: Habit) -> bool {
        self.habits.contains(&habit)
    }

    /// Whether a vehicle can be read through it at all.
    pub fn reads(&self) -> bool {
        !self.habits.iter().any(|habit| habit.is_hopeless())
    }
}

/// All of them, the plain one first.
pub const ALL: &[&Firmware] = &[
    &ORIGINAL_21,
    &ORIGINAL_20,
    &ORIGINAL_14B,
    &ORIGINAL_13A,
    &ORIGINAL_12A,
    &ORIGINAL_10,
    &OTHER_FAMILY,
    &COPY_15,
    &COPY_15_SINGLE_CR,
    &COPY_15_LOST_VERSION,
    &COPY_15_DOTS,
    &COPY_21_SEARCH_ONLY,
    &COPY_21_DEAF,
    &COPY_21_HANGS,
    &COPY_21_NO_FLOW,
    &COPY_YES,
    &COPY_NO_HEADERS,
    &COPY_MIXED_ENDS,
    &COPY_NULS,
    &COPY_STRAY,
    &COPY_ODD_TEXTS,
    &COPY_LATE_PROMPT,
    &COPY_COUNTS_MESSAGES,
    &COPY_LOSES_BATCHES,
    &COPY_ODD_VOLTS,
    &COPY_RADIO,
    &COPY_SLOW_RESET,
    &COPY_REFUSES_AT_FIRST,
    &COPY_NEEDS_GAP,
    &COPY_LOSES_FIRST,
    &COPY_DIGIT_NO_DATA,
    &COPY_NO_SEARCH,
    &COPY_FIRST_LINK_ONLY,
    &COPY_SLOW_TO_LET_IN,
    &COPY_FIXED_WAIT,
    &COPY_SEARCHES_ANEW,
    &COPY_QUESTION_MARKS,
    &COPY_LOWER_CASE,
    &COPY_XON_XOFF,
    &COPY_FILTER_STAYS,
    &COPY_IGNORES_SPACED,
    &COPY_SPACED_PROMPT,
    &COPY_LF_ONLY,
    &COPY_LINES_TWICE,
    &COPY_NUMBER_ZERO,
    &COPY_NUMBER_WRONG,
    &COPY_TELNET,
    &COPY_VOLTAGE_CLOSES,
    &COPY_RESETS_ON_ST,
    &COPY_WAKES_SLOWLY,
    &COPY_STOPS_WHEN_EARLY,
    &COPY_VERY_SLOW_RESET,
    &WIRED_LOOP,
    &MODEM,
    &DEAD,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_has_a_name_of_its_own_and_says_what_it_is_and_where_it_was_seen() {
        for (place, firmware) in ALL.iter().enumerate() {
            assert!(!ALL.iter().take(place).any(|other| other.name == firmware.name), "{}", firmware.name);
            assert!(firmware.says.ends_with('.') && !firmware.source.is_empty(), "{}", firmware.name);
        }
        assert!(ALL.iter().filter(|firmware| firmware.reads()).count() >= 12);
    }

    #[test]
    fn the_odd_ones_are_all_among_them() {
        assert!(ODD_ONES.iter().all(|odd| ALL.contains(odd)));
    }

    #[test]
    fn versions_are_in_the_order_in_which_they_came() {
        assert!(Level::V13 < Level::V13a && Level::V14b < Level::V20);
        assert_eq!(Level::V14b.as_str(), "1.4b");
    }
}
