//! Copies with troubles of their own: each breaks one thing that others take for granted.
//!
//! Where no report is named the behaviour was invented after what such chips can do; none of these is a measurement.

use super::{Firmware, Habit, Level, ORIGINAL_21};

/// What these have in common: most of the commands, by the book but for one thing.
const ODD: Firmware = Firmware { level: Level::V14b, identity: "ELM327 v1.4b", ..ORIGINAL_21 };

/// All of these.
pub const ODD_ONES: &[&Firmware] = &[
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
];

/// Not itself at first.
pub const COPY_REFUSES_AT_FIRST: Firmware = Firmware {
    name: "copy-refuses-at-first",
    says: "A copy: answers every line but ATI with a question mark for the first 8 s after it got its supply.",
    source: "dialect section 2, adapters that are not ready behind their banner; invented",
    habits: &[Habit::RefusesAtFirst],
    ..ODD
};

/// Deaf for a moment behind its prompt.
pub const COPY_NEEDS_GAP: Firmware = Firmware {
    name: "copy-needs-gap",
    says: "A copy: loses the first character of a line that comes within 40 ms of its prompt.",
    source: "ELMduino #100, #179 (a first character that is swallowed); the 40 ms are invented",
    habits: &[Habit::NeedsGap],
    ..ODD
};

/// Deaf for a character, always.
pub const COPY_LOSES_FIRST: Firmware = Firmware {
    name: "copy-loses-first",
    says: "A copy: loses the first character of every line.",
    source: "ELMduino #100, #179; that it is every line is invented",
    habits: &[Habit::LosesFirst],
    ..ODD
};

/// A digit that nobody understands.
pub const COPY_DIGIT_NO_DATA: Firmware = Firmware {
    name: "copy-digit-no-data",
    says: "A copy: a request with a count digit is answered NO DATA.",
    source: "dialect section 9, odd texts to a digit (python-OBD #108); this form is invented",
    habits: &[Habit::DigitMeansNoData],
    ..ODD
};

/// Never looks for the protocol.
pub const COPY_NO_SEARCH: Firmware = Firmware {
    name: "copy-no-search",
    says: "A copy: its search says SEARCHING and finds nothing; a protocol that is named works.",
    source: "python-OBD #124, #205 (search fails, a fixed protocol works)",
    habits: &[Habit::NoSearch],
    ..ODD
};

/// One connection in its life.
pub const COPY_FIRST_LINK_ONLY: Firmware = Firmware {
    name: "copy-first-link-only",
    says: "A wireless copy: serves the first connection after power-up and is mute in all later ones.",
    source: "dialect section 14 and section 17 row 20 (python-OBD #212: works once per power-up)",
    habits: &[Habit::FirstLinkOnly],
    ..ODD
};

/// Slow at the door.
pub const COPY_SLOW_TO_LET_IN: Firmware = Firmware {
    name: "copy-slow-to-let-in",
    says: "A wireless copy: after a connection has ended nobody is let in for 9 s.",
    source: "dialect section 14 (one client; a second connect is refused); the time is invented",
    habits: &[Habit::SlowToLetIn],
    ..ODD
};

/// Waits as long as it was told, always.
pub const COPY_FIXED_WAIT: Firmware = Firmware {
    name: "copy-fixed-wait",
    says: "A copy: after each answer it waits as long as ATST says, whatever ATAT says, and knows no response pending.",
    source: "dialect section 9 (older chips and response pending); flags ignored: ELMduino #141",
    habits: &[Habit::FixedWait],
    ..ODD
};

/// Lost after every silence.
pub const COPY_SEARCHES_ANEW: Firmware = Firmware {
    name: "copy-searches-anew",
    says: "A copy: after NO DATA the next request begins with SEARCHING, though the protocol was named.",
    source: "invented after responses.csv, SEARCHING as a prefix of data",
    habits: &[Habit::SearchesAnew],
    ..ODD
};

/// Knows hardly a word.
pub const COPY_QUESTION_MARKS: Firmware = Firmware {
    name: "copy-question-marks",
    says: "A copy: refuses headers, the protocol's number and most settings; data come without their sender.",
    source: "ELMduino #69, #206 (clones that refuse many commands)",
    refuses: &[
        "H", "DP", "AT", "ST", "S0", "M", "CRA", "CF", "CM", "FC", "WS", "SH", "AR", "CAF", "CFC", "RV", "@",
    ],
    habits: &[Habit::HeadersStay, Habit::NoDigit],
    ..ODD
};

/// Small letters.
pub const COPY_LOWER_CASE: Firmware = Firmware {
    name: "copy-lower-case",
    says: "A copy: the digits of data come in lower case.",
    source: "invented; letter case is ignored on input (data sheet p.9), nothing promises it on output",
    habits: &[Habit::LowerCase],
    ..ODD
};

/// Flow control in the text.
pub const COPY_XON_XOFF: Firmware = Firmware {
    name: "copy-xon-xoff",
    says: "A copy: bytes 11 and 13 (XON, XOFF) stand between others now and then.",
    source: "invented after serial bridges with software flow control left on",
    habits: &[Habit::XonXoff],
    ..ODD
};

/// Remembers who was listened to before.
pub const COPY_FILTER_STAYS: Firmware = Firmware {
    name: "copy-filter-stays",
    says: "A copy: a receive filter that an earlier program set stays until ATZ; ATWS, ATAR and ATD do not clear it.",
    source: "dialect section 6, a filter left set (data sheet p.88); that only ATZ clears it is invented",
    habits: &[Habit::FilterStays],
    ..ODD
};

/// Minds a space.
pub const COPY_IGNORES_SPACED: Firmware = Firmware {
    name: "copy-ignores-spaced",
    says: "A copy: a line that begins with a space is not answered at all.",
    source: "seen in an emulator; against the data sheet p.9",
    habits: &[Habit::IgnoresSpaced],
    ..ODD
};

/// A space too many.
pub const COPY_SPACED_PROMPT: Firmware = Firmware {
    name: "copy-spaced-prompt",
    says: "A copy: its prompt is followed by a space.",
    source: "invented",
    habits: &[Habit::SpacedPrompt],
    ..ODD
};

/// The other line end.
pub const COPY_LF_ONLY: Firmware = Firmware {
    name: "copy-lf-only",
    says: "A copy: its lines end with LF, never with CR.",
    source: "invented after mixed ends (ELMduino #168)",
    habits: &[Habit::LfOnly],
    ..ODD
};

/// Everything said twice.
pub const COPY_LINES_TWICE: Firmware = Firmware {
    name: "copy-lines-twice",
    says: "A copy: every line of data comes twice.",
    source: "invented after dialect section 18, row 26 (a line doubled)",
    habits: &[Habit::LinesTwice],
    ..ODD
};

/// No number.
pub const COPY_NUMBER_ZERO: Firmware = Firmware {
    name: "copy-number-zero",
    says: "A copy: ATDPN says A0 whatever protocol is in use.",
    source: "invented after python-OBD #36 (0 means none) and #178",
    habits: &[Habit::NumberZero],
    ..ODD
};

/// The wrong number.
pub const COPY_NUMBER_WRONG: Firmware = Firmware {
    name: "copy-number-wrong",
    says: "A copy: ATDPN names the neighbour of the protocol in use.",
    source: "invented: nothing that an adapter says of itself is believed (dialect section 16, rule 11)",
    habits: &[Habit::NumberWrong],
    ..ODD
};

/// Speaks to a terminal.
pub const COPY_TELNET: Firmware = Firmware {
    name: "copy-telnet",
    says: "A wireless copy: greets each connection with negotiations of telnet (FF FB 01, FF FB 03, FF FD 03).",
    source: "invented after serial servers in telnet mode (dialect section 14)",
    habits: &[Habit::Telnet],
    ..ODD
};

/// A question that costs the link.
pub const COPY_VOLTAGE_CLOSES: Firmware = Firmware {
    name: "copy-voltage-closes",
    says: "A wireless copy: ATRV ends the connection for 3 s.",
    source: "invented after ELMduino #69 (a legal command that locks a clone up)",
    habits: &[Habit::VoltageCloses],
    ..ODD
};

/// A question that costs the settings.
pub const COPY_RESETS_ON_ST: Firmware = Firmware {
    name: "copy-resets-on-st",
    says: "A copy: every line that begins with ST resets it.",
    source: "invented after ELMduino #69 (a legal command that locks a clone up)",
    habits: &[Habit::ResetsOnSt],
    ..ODD
};

/// Half asleep.
pub const COPY_WAKES_SLOWLY: Firmware = Firmware {
    name: "copy-wakes-slowly",
    says: "A copy behind a radio that saves power: after a second without a word its next reply comes 1.5 s late.",
    source: "dialect section 13 (sleep), section 14; the times are invented",
    habits: &[Habit::WakesSlowly],
    ..ODD
};

/// Breaks off by itself.
pub const COPY_STOPS_WHEN_EARLY: Firmware = Firmware {
    name: "copy-stops-when-early",
    says: "A copy: a request to the vehicle that comes within 80 ms of its prompt is answered STOPPED.",
    source: "ELMduino #100; public reports 2023 (the next request interrupts the listening)",
    habits: &[Habit::StopsWhenEarly],
    ..ODD
};

/// Takes even more time.
pub const COPY_VERY_SLOW_RESET: Firmware = Firmware {
    name: "copy-very-slow-reset",
    says: "A copy: no warm start, and 4.5 s of silence after ATZ.",
    source: "dialect section 2 (3 s allowed); that it is longer is invented",
    refuses: &["WS"],
    reset_ms: 4_500,
    ..ODD
};
