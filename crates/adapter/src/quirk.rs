//! The named differences between adapters: one table, one row each.
//!
//! In: evidence, seen by the driver. Out: [`Quirk`], with its word and its sentence. Detected, never configured first.
//! Not here: what is done about one (`driver`). Source: section 15 of the dialect reference.

/// A difference of one adapter's firmware from the rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Quirk {
    /// Bytes from 80 hex on in replies.
    StrayByte,
    /// Zero bytes in replies.
    Nul,
    /// One CR before the prompt instead of two.
    SingleCr,
    /// Requests come back although that was switched off.
    EchoStuck,
    /// Line feeds come although they were switched off.
    LfStuck,
    /// Spaces come although they were switched off.
    SpacesStuck,
    /// Padding behind the data.
    PaddingShown,
    /// No headers although they were switched on.
    NoHeaders,
    /// `OK` to a command that no list contains.
    YesMan,
    /// No warm start.
    NoWs,
    /// No adaptive timing.
    NoAt,
    /// No receive address.
    NoCra,
    /// No flow control of our own.
    NoFc,
    /// No count digit.
    NoDigit,
    /// Dots in front of data.
    AckDots,
    /// A version that its maker never made, or that its behaviour contradicts.
    VersionLie,
    /// The other chip family.
    Stn,
    /// A prompt that nobody was waiting for.
    LatePrompt,
    /// More than 60 ms for a question to the adapter itself.
    SlowLink,
    /// No voltage that could be read.
    NoVolt,
    /// Sends `ERROR`: a modem.
    Modem,
    /// Loses characters, or breaks off, right behind its prompt.
    NeedsGap,
    /// Loses the first character of each line.
    LosesFirst,
    /// Looks for the protocol again though it was named.
    SearchesAnew,
}

#[rustfmt::skip]
const TABLE: &[(Quirk, &str, &str)] = &[
    (Quirk::StrayByte,    "stray-byte",    "stray bytes arrive between the data; they are dropped and counted"),
    (Quirk::Nul,          "nul",           "zero bytes arrive between the data; they are dropped and counted"),
    (Quirk::SingleCr,     "single-cr",     "replies end with one line end instead of two; harmless"),
    (Quirk::EchoStuck,    "echo-stuck",    "every request is typed back although that was switched off; it is taken out"),
    (Quirk::LfStuck,      "lf-stuck",      "line feeds arrive although they were switched off; harmless"),
    (Quirk::SpacesStuck,  "spaces-stuck",  "spaces arrive although they were switched off; a little slower"),
    (Quirk::PaddingShown, "padding-shown", "lines are longer than their data; the rest is cut off"),
    (Quirk::NoHeaders,    "no-headers",    "replies do not name their sender; only vehicles with one answering control unit can be read"),
    (Quirk::YesMan,       "yes-man",       "says OK to everything, even to nonsense; only its behaviour is believed"),
    (Quirk::NoWs,         "no-ws",         "knows no warm start; the slower reset is used"),
    (Quirk::NoAt,         "no-at",         "cannot learn how fast the control units answer; a fixed wait is used"),
    (Quirk::NoCra,        "no-cra",        "cannot listen to one control unit by name; filter and mask are used"),
    (Quirk::NoFc,         "no-fc",         "cannot acknowledge long replies by name; of unusual control units only short ones are read"),
    (Quirk::NoDigit,      "no-digit",      "takes no count of the replies that are awaited; readings come less often"),
    (Quirk::AckDots,      "ack-dots",      "puts dots in front of data; they are taken out"),
    (Quirk::VersionLie,   "version-lie",   "claims a version that was never made; it is judged by what it can do"),
    (Quirk::Stn,          "stn",           "belongs to the other chip family; nothing to worry about"),
    (Quirk::LatePrompt,   "late-prompt",   "prompts arrive late; replies are matched by what they say"),
    (Quirk::SlowLink,     "slow-link",     "the way to the adapter is slow; readings come less often"),
    (Quirk::NoVolt,       "no-volt",       "cannot tell the battery voltage; it stays unknown"),
    (Quirk::Modem,        "modem",         "answers like a modem; this is no diagnostic adapter"),
    (Quirk::NeedsGap,     "needs-gap",     "is not ready right behind its prompt; it is given a pause, readings come less often"),
    (Quirk::LosesFirst,   "loses-first",   "loses the first character of each line; a space is put in front of it"),
    (Quirk::SearchesAnew, "searches-anew", "looks for the protocol again after a request that nobody answers; such requests are left out"),
];

impl Quirk {
    /// All of them, in the order of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(|row| row.0)
    }

    /// The kebab-case word by which events and documents name it.
    pub fn word(self) -> &'static str {
        self.row().1
    }

    /// What it means for the person at the vehicle, in one sentence without a full stop.
    pub fn says(self) -> &'static str {
        self.row().2
    }

    fn row(self) -> (Self, &'static str, &'static str) {
        TABLE.iter().copied().find(|row| row.0 == self).unwrap_or((
            self,
            "unknown-quirk",
            "differs from the rule",
        ))
    }

    const fn bit(self) -> u32 {
        1 << self as u8
    }
}

/// The quirks seen so far on one adapter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Quirks(u32);

impl Quirks {
    /// Adds one; whether it is new.
    pub fn note(&mut self, quirk: Quirk) -> bool {
        let new = !self.has(quirk);
        self.0 |= quirk.bit();
        new
    }

    /// What it rested on has another reason.
    pub(crate) const fn forget(&mut self, quirk: Quirk) {
        self.0 &= !quirk.bit();
    }

    /// Whether it was seen.
    pub const fn has(self, quirk: Quirk) -> bool {
        self.0 & quirk.bit() != 0
    }

    /// All that were seen.
    pub fn iter(self) -> impl Iterator<Item = Quirk> {
        Quirk::all().filter(move |quirk| self.has(*quirk))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    // The words of section 15 of the dialect reference that this crate detects.
    const WORDS: &[&str] = &[
        "stray-byte",
        "nul",
        "single-cr",
        "echo-stuck",
        "lf-stuck",
        "spaces-stuck",
        "padding-shown",
        "no-headers",
        "yes-man",
        "no-ws",
        "no-at",
        "no-cra",
        "no-fc",
        "no-digit",
        "ack-dots",
        "version-lie",
        "stn",
        "late-prompt",
        "slow-link",
        "no-volt",
        "modem",
    ];
    // Those that no section names: seen since, or invented after what was seen.
    const OURS: &[&str] = &["needs-gap", "loses-first", "searches-anew"];

    #[test]
    fn every_quirk_has_its_word_of_the_reference_and_a_sentence() {
        assert_eq!(Quirk::all().map(Quirk::word).collect::<Vec<_>>(), [WORDS, OURS].concat());
        let sentences: BTreeSet<_> = Quirk::all().map(Quirk::says).collect();
        assert_eq!(sentences.len(), WORDS.len() + OURS.len(), "no sentence twice");
        // The table walks in the order of the variants, so a variant without a row would break this.
        assert!(Quirk::all().enumerate().all(|(at, quirk)| quirk as usize == at));
    }

    #[test]
    fn a_quirk_is_new_only_once() {
        let mut seen = Quirks::default();
        assert!(seen.note(Quirk::EchoStuck));
        assert!(!seen.note(Quirk::EchoStuck));
        assert!(seen.note(Quirk::Modem));
        assert_eq!(seen.iter().collect::<Vec<_>>(), [Quirk::EchoStuck, Quirk::Modem]);
    }
}
