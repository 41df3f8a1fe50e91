//! How much an adapter can do: the version it claims beside the one that its behaviour shows.
//!
//! In: what it calls itself, which commands it knew. Out: [`Tested`]. The number in its name is no evidence: copies
//! carry versions that were never made, and refuse what their version has.
//! Source: section 12 of the dialect reference; versions of the commands from `firmware_differences.csv`.

use std::fmt;

use crate::command::{Adaptive, Setup, Switch};

/// A step of the original command set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Before all that are told apart here.
    V1_0,
    /// Adaptive timing, serial rates.
    V1_2,
    /// Spaces off, receive addresses, the count digit.
    V1_3,
    /// Events can be forgotten.
    V1_3a,
    /// Silent monitoring can be switched.
    V1_4b,
    /// The activity monitor.
    V2_0,
    /// The timer multiplier.
    V2_1,
}

/// Which command tells which level, lowest first.
const TELLS: &[(Setup, Level)] = &[
    (Setup::AdaptiveTiming(Adaptive::Careful), Level::V1_2),
    (Setup::ProbeKeyWords, Level::V1_2),
    (Setup::Spaces(Switch::Off), Level::V1_3),
    (Setup::ForgetEvents, Level::V1_3a),
    (Setup::ProbeSilent, Level::V1_4b),
    (Setup::ProbeActivity, Level::V2_0),
    (Setup::ProbeMultiplier, Level::V2_1),
];

const NAMES: &[(Level, &str)] = &[
    (Level::V1_0, "1.0"),
    (Level::V1_2, "1.2"),
    (Level::V1_3, "1.3"),
    (Level::V1_3a, "1.3a"),
    (Level::V1_4b, "1.4b"),
    (Level::V2_0, "2.0"),
    (Level::V2_1, "2.1"),
];

/// Versions that were never made (data sheet page 91).
const NEVER_MADE: &[&str] = &["1.4a", "1.5", "1.5a"];

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(NAMES.iter().find(|(level, _)| level == self).map_or("?", |(_, name)| name))
    }
}

/// What trying has shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tested {
    /// The highest level one of whose commands it knew.
    pub at_least: Option<Level>,
    /// The lowest level one of whose commands it did not know.
    pub lacks: Option<Level>,
    /// It says `OK` to nonsense too: what it says it knows counts for nothing.
    pub agrees_to_all: bool,
}

impl Tested {
    /// It answered `setup` in the way of one that knows it, or of one that does not.
    pub(crate) fn note(&mut self, setup: Setup, knew: bool) {
        let Some(&(_, level)) = TELLS.iter().find(|(tells, _)| *tells == setup) else { return };
        if knew {
            self.at_least = self.at_least.max(Some(level));
        } else {
            self.lacks = Some(self.lacks.map_or(level, |before| before.min(level)));
        }
    }

    /// Whether the version that `identity` claims is a lie: one that was never made, or one that would know what this
    /// adapter refused.
    pub fn contradicts(&self, identity: &str) -> bool {
        let Some(claimed) = claimed(identity) else { return false };
        let never_made = NEVER_MADE.contains(&claimed.as_str());
        never_made
            || self.lacks.is_some_and(|lacks| claimed_level(&claimed).is_some_and(|level| level >= lacks))
    }
}

impl fmt::Display for Tested {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.agrees_to_all {
            return f.write_str("cannot be told: it says OK to everything");
        }
        match (self.at_least, self.lacks) {
            (None, None) => f.write_str("not tried"),
            (None, Some(lacks)) => write!(f, "below {lacks}"),
            (Some(least), Some(lacks)) if lacks <= least => write!(f, "parts of {least}, not all of {lacks}"),
            (Some(least), _) => write!(f, "{least}"),
        }
    }
}

/// The version in what an adapter calls itself: `2.1` of `ELM327 v2.1`.
pub fn claimed(identity: &str) -> Option<String> {
    let (_, after) = identity.rsplit_once(['v', 'V'])?;
    let version: String = after.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '.').collect();
    let (whole, part) = version.split_once('.')?;
    let digits = |text: &str| text.bytes().next().is_some_and(|byte| byte.is_ascii_digit());
    (digits(whole) && digits(part)).then(|| version.to_ascii_lowercase())
}

/// The level whose commands a claimed version has: the highest one not above it.
fn claimed_level(version: &str) -> Option<Level> {
    let key = |text: &str| {
        let split = text.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(text.len());
        let (number, letter) = text.split_at_checked(split)?;
        let (whole, part) = number.split_once('.')?;
        Some((whole.parse::<u32>().ok()?, part.parse::<u32>().ok()?, letter.to_owned()))
    };
    let claimed = key(version)?;
    NAMES.iter().rev().find(|(_, name)| key(name).is_some_and(|key| key <= claimed)).map(|(level, _)| *level)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_version_is_read_out_of_what_an_adapter_calls_itself() {
        let cases: &[(&str, Option<&str>)] = &[
            ("ELM327 v2.1", Some("2.1")),
            ("ELM327 v1.4b", Some("1.4b")),
            ("ELM327 V1.5", Some("1.5")),
            ("STN1110 v4.0.4", Some("4.0.4")),
            ("OBDII to RS232 Interpreter", None),
            ("v", None),
            ("ELM327 v2", None),
            ("", None),
        ];
        for (text, want) in cases {
            assert_eq!(claimed(text).as_deref(), *want, "{text}");
        }
    }

    #[test]
    fn behaviour_counts_and_the_claim_is_held_against_it() {
        type Case<'a> = (&'a str, &'a [Setup], &'a [Setup], bool, &'a str);
        let (timing, spaces) = (Setup::AdaptiveTiming(Adaptive::Careful), Setup::Spaces(Switch::Off));
        let cases: &[Case] = &[
            ("ELM327 v2.1", &[timing, spaces, Setup::ProbeMultiplier], &[], false, "2.1"),
            ("ELM327 v2.1", &[spaces], &[timing], true, "parts of 1.3, not all of 1.2"),
            ("ELM327 v2.1", &[timing, spaces], &[Setup::ProbeActivity], true, "1.3"),
            ("ELM327 v1.4b", &[timing, spaces], &[Setup::ProbeActivity], false, "1.3"),
            ("ELM327 v1.5", &[], &[], true, "not tried"),
            ("ELM327 v1.0", &[], &[timing], false, "below 1.2"),
            ("SOMETHING ELSE", &[], &[timing], false, "below 1.2"),
        ];
        for (identity, knew, lacked, lie, says) in cases {
            let mut tested = Tested::default();
            knew.iter().for_each(|setup| tested.note(*setup, true));
            lacked.iter().for_each(|setup| tested.note(*setup, false));
            assert_eq!(
                (tested.contradicts(identity), tested.to_string().as_str()),
                (*lie, *says),
                "{identity}"
            );
        }
    }

    #[test]
    fn levels_are_in_the_order_of_the_versions() {
        assert!(NAMES.windows(2).all(|two| two[0].0 < two[1].0));
        assert_eq!(claimed_level("1.4"), Some(Level::V1_3a), "before 1.4b");
        assert_eq!(claimed_level("2.3"), Some(Level::V2_1));
        assert_eq!(claimed_level("0.9"), None);
    }
}
