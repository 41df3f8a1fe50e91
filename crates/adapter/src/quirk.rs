//! The named differences between adapters: one table, one row each.
//!
//! In: evidence, seen by the driver. Out: [`Quirk`], with its word and its sentence. Detected, never configured first.
//! Not here: what is done about one (`driver`). Source: section 15 of the dialect reference.

use units::words;

words! {
    /// A difference of one adapter's firmware from the rule. The sentence is what it means for the person at the vehicle,
    /// without a full stop.
    #[non_exhaustive]
    Quirk {
        /// Bytes from 80 hex on in replies.
        StrayByte    "stray-byte"    "stray bytes arrive between the data; they are dropped and counted",
        /// Zero bytes in replies.
        Nul          "nul"           "zero bytes arrive between the data; they are dropped and counted",
        /// One CR before the prompt instead of two.
        SingleCr     "single-cr"     "replies end with one line end instead of two; harmless",
        /// Requests come back although that was switched off.
        EchoStuck    "echo-stuck"    "every request is typed back although that was switched off; it is taken out",
        /// Line feeds come although they were switched off.
        LfStuck      "lf-stuck"      "line feeds arrive although they were switched off; harmless",
        /// Spaces come although they were switched off.
        SpacesStuck  "spaces-stuck"  "spaces arrive although they were switched off; a little slower",
        /// Padding behind the data.
        PaddingShown "padding-shown" "lines are longer than their data; the rest is cut off",
        /// No headers although they were switched on.
        NoHeaders    "no-headers"    "replies do not name their sender; only vehicles with one answering control unit can be read",
        /// `OK` to a command that no list contains.
        YesMan       "yes-man"       "says OK to everything, even to nonsense; only its behaviour is believed",
        /// No warm start.
        NoWs         "no-ws"         "knows no warm start; the slower reset is used",
        /// No adaptive timing.
        NoAt         "no-at"         "cannot learn how fast the control units answer; a fixed wait is used",
        /// No receive address.
        NoCra        "no-cra"        "cannot listen to one control unit by name; filter and mask are used",
        /// No flow control of our own.
        NoFc         "no-fc"         "cannot acknowledge long replies by name; of unusual control units only short ones are read",
        /// No count digit.
        NoDigit      "no-digit"      "takes no count of the replies that are awaited; readings come less often",
        /// Dots in front of data.
        AckDots      "ack-dots"      "puts dots in front of data; they are taken out",
        /// A version that its maker never made, or that its behaviour contradicts.
        VersionLie   "version-lie"   "claims a version that was never made; it is judged by what it can do",
        /// The other chip family.
        Stn          "stn"           "belongs to the other chip family; nothing to worry about",
        /// A prompt that nobody was waiting for.
        LatePrompt   "late-prompt"   "prompts arrive late; replies are matched by what they say",
        /// More than 60 ms for a question to the adapter itself.
        SlowLink     "slow-link"     "the way to the adapter is slow; readings come less often",
        /// No voltage that could be read.
        NoVolt       "no-volt"       "cannot tell the battery voltage; it stays unknown",
        /// Sends `ERROR`: a modem.
        Modem        "modem"         "answers like a modem; this is no diagnostic adapter",
        /// Loses characters, or breaks off, right behind its prompt.
        NeedsGap     "needs-gap"     "is not ready right behind its prompt; it is given a pause, readings come less often",
        /// Loses the first character of each line.
        LosesFirst   "loses-first"   "loses the first character of each line; a space is put in front of it",
        /// Looks for the protocol again though it was named.
        SearchesAnew "searches-anew" "looks for the protocol again after a request that nobody answers; such requests are left out",
    }
}

impl Quirk {
    /// All of them, in the order of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        Self::ALL.iter().copied()
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
        assert!(Quirk::all().count() <= 32, "one bit each");
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
