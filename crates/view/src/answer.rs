//! What the daemon answered, in the person's language.
//!
//! In: the reason and the daemon's English. Out: one sentence. What the daemon adds to the reason in English stays.

use events::Refusal;
use words::{Speech, args};

/// Why it was refused.
pub fn refused(reason: Refusal, says: &str, speech: Speech) -> String {
    let rest = says.strip_prefix(reason.says()).map_or(says, str::trim);
    let why = match rest {
        "" => speech.of(reason).to_owned(),
        rest if rest == says => says.to_owned(),
        rest => format!("{} {rest}", speech.of(reason)),
    };
    speech.with("refused", &args!(why = why))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_daemon_adds_stays_behind_the_reason() {
        let says = Refusal::NotLevel.says();
        let speech = Speech::default();
        assert_eq!(refused(Refusal::NotLevel, says, speech), format!("Not entered: {says}"));
        let more = format!("{says} In `text` a hidden character.");
        assert_eq!(refused(Refusal::NotLevel, &more, speech), format!("Not entered: {more}"));
        assert_eq!(
            refused(Refusal::NotLevel, "Of an older daemon.", speech),
            "Not entered: Of an older daemon."
        );
    }
}
